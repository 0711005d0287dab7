"""Reading a joint from JSON: strict, with every fault said at its place."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, cast, get_args

from calculators.hardware.designation import read_fastener, read_insert, read_nut, read_washer
from calculators.hardware.fastener import Fastener
from calculators.joints.json_values import ObjectReader, shown
from calculators.joints.limits import LIMITS
from calculators.joints.model import (
    Fit,
    HoleKind,
    HoleOverride,
    JointInput,
    Layer,
    MeasuredHead,
    MeasuredItem,
    Seat,
    StackItem,
    Takes,
)
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.reading import LengthUnit

JOINT_KEYS = (
    *(
        "mark",
        "fastener",
        "layers",
        "washers",
        "nut",
        "nuts",
        "insert",
        "seat",
        "head",
        "head_angle",
        "torque",
    ),
    *("nut_factor", "clamps", "stands", "steel_first", "wet", "loaded_sideways", "lock", "drills"),
    *("tapping_percent", "limits", "unit"),
)
LAYER_KEYS = (
    *("part", "material", "thickness", "takes", "fit", "thread", "thread_depth", "drilled_depth", "grain"),
    *("hole", "edge", "end", "side", "gap"),
)
HOLE_KEYS = (
    *("kind", "diameter", "depth", "slot_length", "slot_along", "countersink_angle", "countersink_diameter"),
    *("counterbore_diameter", "counterbore_depth", "pilot"),
)


def read_joint(data: Mapping[str, Any]) -> JointInput:
    """Read a joint from JSON.

    Bare numbers are lengths in `unit` (mm unless it says in). The stack is put together from the head
    side: washers under the head, the layers as listed with the insert before the last, washers under the
    nut, the nuts. A washer or nut is text or an object that also says where it is and what was measured.

    Args:
        data: the JSON object.

    Returns:
        The joint.

    Raises:
        InputError: with a sentence and the place for everything that is wrong.

    Source: this project.

    Example:
        >>> joint = read_joint({"fastener": "M5 x 20 hex steel", "nut": "M5 nut",
        ...                     "layers": [{"part": "A", "material": "steel", "thickness": 6}]})
        >>> [type(item.layer or item.nut).__name__ for item in joint.stack]
        ['Layer', 'Nut']
    """
    faults: list[Fault] = []
    reader = ObjectReader(data, "", JOINT_KEYS, faults, "mm")
    if not reader.data and faults:
        raise InputError(*faults)
    reader.unit = reader.choice("unit", ("mm", "in"), "mm")
    fastener_text = reader.text("fastener")
    unit = cast(LengthUnit, reader.unit)
    fastener = None
    if not fastener_text:
        reader.fault("fastener", "The fastener is missing; write one such as 'No. 8 x 1 3/4 csk brass'.")
    else:
        fastener = reader.attempt("fastener", lambda f: read_fastener(fastener_text, unit=unit, field=f))
    stack = _stack(reader)
    joint = _joint(reader, fastener or Fastener("machine", ""), stack)
    if faults:
        raise InputError(*faults)
    return joint


def _joint(reader: ObjectReader, fastener: Fastener, stack: tuple[StackItem, ...]) -> JointInput:
    drills = tuple(each for each in reader.listed("drills") if _is_text(reader, "drills", each))
    return JointInput(
        mark=reader.text("mark"),
        fastener=fastener,
        stack=stack,
        seat=cast(Seat, reader.choice("seat", ("", *get_args(Seat)))),
        measured_head=_head(reader),
        wood_screw_head_angle_deg=reader.number("head_angle"),
        torque_nm=reader.torque("torque"),
        nut_factor=_or(reader.number("nut_factor"), 0.2),
        clamps=reader.flag("clamps", True),
        stands_mm=reader.length("stands", signed=True),
        steel_first=reader.flag("steel_first", False),
        wet=reader.flag("wet", False),
        loaded_sideways=reader.flag("loaded_sideways", False),
        lock=reader.text("lock"),
        drills=cast(tuple[str, ...], drills),
        tapping_percent=reader.number("tapping_percent"),
        limits=_limits(reader),
    )


def _or(value: float | None, default: float) -> float:
    return default if value is None else value


def _is_text(reader: ObjectReader, key: str, value: object) -> bool:
    if isinstance(value, str):
        return True
    reader.fault(key, f"{reader.place(key)} must be text such as '1.0-13.0 by 0.5', not {shown(value)}.")
    return False


def _head(reader: ObjectReader) -> MeasuredHead:
    if reader.data.get("head") is None:
        return MeasuredHead()
    keys = ("diameter", "height", "angle", "across_flats")
    head = ObjectReader(reader.data["head"], "head", keys, reader.faults, reader.unit)
    return MeasuredHead(
        head.length("diameter"), head.length("height"), head.number("angle"), head.length("across_flats")
    )


def _limits(reader: ObjectReader) -> tuple[tuple[str, float], ...]:
    given = reader.data.get("limits")
    if given is None:
        return ()
    names = tuple(limit.name for limit in LIMITS)
    limits = ObjectReader(given, "limits", names, reader.faults, reader.unit)
    found = ((name, limits.number(name)) for name in limits.data if name in names)
    return tuple((name, value) for name, value in found if value is not None)


def _stack(reader: ObjectReader) -> tuple[StackItem, ...]:
    layers = [_layer(reader, place, each) for place, each in enumerate(reader.listed("layers"))]
    if not layers:
        reader.fault("layers", "The joint has no layers; list at least one part that the fastener goes into.")
    items = [StackItem(layer=layer) for layer in layers]
    for place, each in enumerate(reader.listed("insert")):
        insert = _hardware(reader, f"insert[{place}]" if place else "insert", each, "insert", ())
        if insert is not None:
            inserted = next((n for n, layer in enumerate(layers) if layer.takes == "insert"), len(layers) - 1)
            items.insert(max(inserted, 0), insert[0])
    ahead: list[StackItem] = []
    behind: list[StackItem] = []
    for place, each in enumerate(reader.listed("washers")):
        washer = _hardware(reader, f"washers[{place}]", each, "washer", ("under",))
        if washer is not None:
            (behind if washer[1] == "nut" else ahead).append(washer[0])
    nuts = [("nut", each) for each in reader.listed("nut")]
    nuts += [(f"nuts[{place}]", each) for place, each in enumerate(reader.listed("nuts"))]
    for path, each in nuts:
        nut = _hardware(reader, path, each, "nut", ("at",))
        if nut is not None:
            (ahead if nut[1] == "head" else behind).append(nut[0])
    return (*ahead, *items, *behind)


_SIDES = {"under": ("head", "nut"), "at": ("end", "head")}
_MEASURES = {
    "washer": ("thickness", "outside", "inside"),
    "nut": ("height", "across_flats"),
    "insert": ("length", "outside", "body"),
}
_READERS: dict[str, Callable[..., Any]] = {"washer": read_washer, "nut": read_nut, "insert": read_insert}


def _hardware(
    reader: ObjectReader, path: str, data: object, kind: str, sides: tuple[str, ...]
) -> tuple[StackItem, str] | None:
    """A washer, nut or insert as text or as an object, and at which side it is."""
    if isinstance(data, str):
        data = {kind: data}
    inner = ObjectReader(data, path, (kind, *sides, *_MEASURES[kind]), reader.faults, reader.unit)
    if not isinstance(data, Mapping):
        return None
    side = inner.choice(sides[0], _SIDES[sides[0]], _SIDES[sides[0]][0]) if sides else ""
    sizes = [inner.length(name) for name in _MEASURES[kind]]
    text = inner.text(kind)
    if not text:
        inner.fault(kind, f"{path} needs a {kind}, written as the trade does.")
        return None
    if kind not in text.casefold():
        text = f"{text} {kind}"
    unit = cast(LengthUnit, reader.unit)
    item = inner.attempt(kind, lambda field: _READERS[kind](text, unit=unit, field=field))
    if item is None:
        return None
    measured = None
    if any(size is not None for size in sizes):
        inside = sizes[2] if kind == "washer" else None
        body = sizes[2] if kind == "insert" else None
        measured = MeasuredItem(sizes[0], sizes[1], inside, body)
    return StackItem(**{kind: item}, measured=measured), side


def _layer(reader: ObjectReader, place: int, data: object) -> Layer:
    path = f"layers[{place}]"
    layer = ObjectReader(data, path, LAYER_KEYS, reader.faults, reader.unit)
    thickness = layer.length("thickness")
    if isinstance(data, Mapping) and layer.data.get("thickness") is None:
        layer.fault("thickness", f"{path} has no thickness; write one such as 22 or '7/8 in'.")
    elif thickness is not None and thickness <= 0:
        layer.fault("thickness", f"{path}.thickness must be over 0.")
    return Layer(
        part=layer.text("part") or f"layer {place + 1}",
        material=layer.text("material"),
        thickness_mm=thickness or 1.0,
        takes=cast(Takes, layer.choice("takes", get_args(Takes))),
        fit=cast(Fit, layer.choice("fit", get_args(Fit), "medium")),
        thread=layer.text("thread"),
        thread_depth_mm=layer.length("thread_depth"),
        drilled_depth_mm=layer.length("drilled_depth"),
        grain=cast(Any, layer.choice("grain", ("", "side", "end"))),
        hole=_hole(layer),
        edge_mm=layer.length("edge"),
        end_mm=layer.length("end"),
        side_mm=layer.length("side"),
        gap_mm=layer.length("gap") or 0.0,
    )


def _hole(layer: ObjectReader) -> HoleOverride:
    if layer.data.get("hole") is None:
        return HoleOverride()
    hole = ObjectReader(layer.data["hole"], layer.place("hole"), HOLE_KEYS, layer.faults, layer.unit)
    return HoleOverride(
        kind=cast(Any, hole.choice("kind", ("", *get_args(HoleKind)))),
        diameter_mm=hole.length("diameter"),
        depth_mm=hole.length("depth"),
        slot_length_mm=hole.length("slot_length"),
        slot_along=cast(Any, hole.choice("slot_along", ("", "u", "v"))),
        countersink_angle_deg=hole.number("countersink_angle"),
        countersink_diameter_mm=hole.length("countersink_diameter"),
        counterbore_diameter_mm=hole.length("counterbore_diameter"),
        counterbore_depth_mm=hole.length("counterbore_depth"),
        pilot=hole.flag("pilot", True),
    )
