"""What makes a joint meaningless, said in sentences; everything else is worked and found fault with."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from math import isfinite

from calculators.joints.model import HoleOverride, JointInput, Layer
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.length import Length

FARTHEST_MM = 1e6


def check_joint(joint: JointInput) -> None:
    """Refuse a joint that cannot mean anything: no layer, no thickness, no fastener, numbers without sense.

    Args:
        joint: the joint.

    Raises:
        InputError: with a sentence and the field for each fault.

    Source: this project.
    """
    faults = [*_fastener_faults(joint), *_stack_faults(joint), *_own_faults(joint)]
    if faults:
        raise InputError(*faults)


def _fastener_faults(joint: JointInput) -> Iterator[Fault]:
    fastener = joint.fastener
    if fastener.family not in ("machine", "wood"):
        says = f"The fastener's family is {fastener.family!r}; it must be machine or wood."
        yield Fault(says, "fastener", ("machine", "wood"))
    if not fastener.size.strip():
        yield Fault("The fastener has no size; write one such as M5 or No. 8.", "fastener")
    for name in ("length", "cut_to"):
        length: Length | None = getattr(fastener, name)
        if length is not None and not 0 < length.mm <= FARTHEST_MM:
            says = f"The fastener's length must be over 0 and up to 1 km, not {length.mm:g} mm."
            yield Fault(says, "fastener", value=length.mm, limit=0.0, unit="mm")
    if fastener.cut_to and fastener.length and fastener.cut_to.ticks > fastener.length.ticks:
        says = f"A fastener of {fastener.length.mm:g} mm cannot be cut to {fastener.cut_to.mm:g} mm."
        yield Fault(says, "fastener", value=fastener.cut_to.mm, limit=fastener.length.mm, unit="mm")


def _stack_faults(joint: JointInput) -> Iterator[Fault]:
    if not any(item.layer is not None for item in joint.stack):
        yield Fault("The joint has no layers; give at least one part that the fastener goes into.", "layers")
    for place, item in enumerate(joint.stack):
        members = [m for m in (item.layer, item.washer, item.nut, item.insert) if m is not None]
        if len(members) != 1:
            says = f"Place {place} of the stack must be one thing: a layer, a washer, a nut or an insert."
            yield Fault(says, f"stack[{place}]")
        if item.layer is not None:
            yield from _layer_faults(item.layer, f"stack[{place}].layer")
        if item.measured is not None:
            yield from _number_faults(item.measured, f"stack[{place}].measured", positive=True)
        for member in members:
            yield from _length_faults(member, f"stack[{place}]")


def _layer_faults(layer: Layer, path: str) -> Iterator[Fault]:
    yield from _number_faults(layer, path)
    if layer.thickness_mm <= 0:
        says = f"The thickness of {layer.part or 'a layer'} must be over 0 mm, not {layer.thickness_mm:g}."
        yield Fault(says, f"{path}.thickness_mm", value=layer.thickness_mm, limit=0.0, unit="mm")
    for name in ("gap_mm", "edge_mm", "end_mm", "side_mm"):
        value = getattr(layer, name)
        if value is not None and value < 0:
            says = (
                f"{name.removesuffix('_mm')} of {layer.part or 'a layer'} may not be negative, not {value:g}."
            )
            yield Fault(says[0].upper() + says[1:], f"{path}.{name}", value=value, limit=0.0, unit="mm")
    for name in ("thread_depth_mm", "drilled_depth_mm"):
        value = getattr(layer, name)
        if value is not None and value <= 0:
            words = name.removesuffix("_mm").replace("_", " ").capitalize()
            says = f"{words} of {layer.part or 'a layer'} must be over 0 mm, not {value:g}."
            yield Fault(says, f"{path}.{name}", value=value, limit=0.0, unit="mm")
    yield from _hole_faults(layer.hole, f"{path}.hole")


def _hole_faults(hole: HoleOverride, path: str) -> Iterator[Fault]:
    yield from _number_faults(hole, path, positive=True)
    angle = hole.countersink_angle_deg
    if angle is not None and not 10 <= angle <= 170:
        says = f"A countersink's angle lies between 10 and 170 degrees, not {angle:g}."
        yield Fault(says, f"{path}.countersink_angle_deg", value=angle, unit="deg")


def _own_faults(joint: JointInput) -> Iterator[Fault]:
    yield from _number_faults(joint, "")
    yield from _number_faults(joint.measured_head, "measured_head", positive=True)
    if joint.torque_nm is not None and joint.torque_nm < 0:
        says = f"The torque may not be negative, not {joint.torque_nm:g} N m."
        yield Fault(says, "torque_nm", value=joint.torque_nm, limit=0.0, unit="N m")
    if not joint.nut_factor > 0:
        says = f"The nut factor must be over 0, not {joint.nut_factor:g}; 0.2 is usual."
        yield Fault(says, "nut_factor", value=joint.nut_factor, limit=0.0)
    angles = (joint.measured_head.angle_deg, joint.wood_screw_head_angle_deg)
    for field, angle in zip(("measured_head.angle_deg", "wood_screw_head_angle_deg"), angles, strict=True):
        if angle is not None and not 60 <= angle <= 120:
            says = f"A countersunk head's angle lies between 60 and 120 degrees, not {angle:g}."
            yield Fault(says, field, value=angle, unit="deg")
    percent = joint.tapping_percent
    if percent is not None and not 1 <= percent <= 100:
        says = f"The percentage of thread lies between 1 and 100, not {percent:g}."
        yield Fault(says, "tapping_percent", value=percent, unit="%")


def _number_faults(record: object, path: str, *, positive: bool = False) -> Iterator[Fault]:
    """Faults of the float fields of a record: not finite, beyond a kilometre, or not positive."""
    for name in _names_of(type(record)):
        value = getattr(record, name)
        if isinstance(value, bool) or not isinstance(value, int | float):
            continue
        field = f"{path}.{name}" if path else name
        words = name.removesuffix("_mm").removesuffix("_deg").replace("_", " ")
        if not isfinite(value) or abs(value) > FARTHEST_MM:
            yield Fault(f"The {words} must be a number of workshop size, not {value:g}.", field)
        elif positive and value <= 0:
            yield Fault(f"The {words} must be over 0, not {value:g}.", field, value=float(value), limit=0.0)


def _length_faults(record: object, path: str) -> Iterator[Fault]:
    """Faults of the exact lengths of a washer, nut or insert."""
    for name in _names_of(type(record)):
        value = getattr(record, name)
        if isinstance(value, Length) and not 0 < value.mm <= FARTHEST_MM:
            says = f"The {name} of the {type(record).__name__.lower()} must be over 0, not {value.mm:g} mm."
            yield Fault(says, f"{path}.{name}", value=value.mm, limit=0.0, unit="mm")


_FIELDS: dict[type, tuple[str, ...]] = {}


def _names_of(kind: type) -> tuple[str, ...]:
    if kind not in _FIELDS:
        _FIELDS[kind] = tuple(each.name for each in fields(kind)) if is_dataclass(kind) else ()
    return _FIELDS[kind]
