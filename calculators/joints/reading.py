"""Reading a joint from JSON: strict, with every fault said at its place."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, cast

from calculators.hardware.designation import read_fastener, read_insert, read_nut, read_washer
from calculators.hardware.drill_sets import drill_set
from calculators.hardware.fastener import Fastener
from calculators.joints.declaration import (
    HEAD_INPUTS,
    HOLE_INPUTS,
    INSERT_INPUTS,
    JOINT_INPUTS,
    LAYER_INPUTS,
    LIMIT_INPUTS,
    NUT_INPUTS,
    WASHER_INPUTS,
)
from calculators.joints.json_values import MOST_LISTED, ObjectReader, shown
from calculators.joints.layer_lines import read_layer_lines
from calculators.joints.model import (
    Fit,
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
    reader = ObjectReader(data, "", JOINT_INPUTS, faults, "mm")
    if not reader.data and faults:
        raise InputError(*faults)
    reader.unit = cast(LengthUnit, reader.choice("unit"))
    joint = _joint(reader, _fastener(reader), _stack(reader))
    if faults:
        raise InputError(*faults)
    return joint


def _fastener(reader: ObjectReader) -> Fastener:
    """The fastener; an empty one where it cannot be read, which the faults then say."""
    before, text = len(reader.faults), reader.text("fastener")
    if text:
        found = reader.attempt("fastener", lambda f: read_fastener(text, unit=reader.unit, field=f))
        return found or Fastener("machine", "")
    if len(reader.faults) == before:
        reader.fault("fastener", "The fastener is missing; write one such as 'No. 8 x 1 3/4 csk brass'.")
    return Fastener("machine", "")


def _joint(reader: ObjectReader, fastener: Fastener, stack: tuple[StackItem, ...]) -> JointInput:
    return JointInput(
        mark=reader.text("mark"),
        drills=_drills(reader),
        fastener=fastener,
        stack=stack,
        seat=cast(Seat, reader.choice("seat")),
        measured_head=_head(reader),
        wood_screw_head_angle_deg=reader.number("head_angle"),
        torque_nm=reader.number("torque"),
        nut_factor=reader.number("nut_factor") or 0.2,
        clamps=reader.flag("clamps"),
        stands_mm=reader.length("stands"),
        steel_first=reader.flag("steel_first"),
        wet=reader.flag("wet"),
        loaded_sideways=reader.flag("loaded_sideways"),
        lock=reader.text("lock"),
        tapping_percent=reader.number("engagement"),
        limits=_limits(reader),
    )


def _drills(reader: ObjectReader) -> tuple[str, ...]:
    given = [_drill_text(reader, each) for each in reader.listed("drills")]
    return tuple(text for text in given if text)


def _drill_text(reader: ObjectReader, value: object) -> str:
    """The text of a set of drills that can be read; else empty."""
    if isinstance(value, str):
        return value if reader.attempt("drills", lambda field: drill_set(value, field=field)) else ""
    reader.fault("drills", f"drills must be text such as '1.0-13.0 by 0.5', not {shown(value)}.")
    return ""


def _head(reader: ObjectReader) -> MeasuredHead:
    if reader.data.get("head") is None:
        return MeasuredHead()
    head = ObjectReader(reader.data["head"], "head", HEAD_INPUTS, reader.faults, reader.unit)
    return MeasuredHead(
        head.length("diameter"), head.length("height"), head.number("angle"), head.length("across_flats")
    )


def _limits(reader: ObjectReader) -> tuple[tuple[str, float], ...]:
    given = reader.data.get("limits")
    if given is None:
        return ()
    limits = ObjectReader(given, "limits", LIMIT_INPUTS, reader.faults, reader.unit)
    said = (name for name, value in limits.data.items() if name in limits.inputs and value is not None)
    found = ((name, limits.number(name)) for name in said)
    return tuple((name, value) for name, value in found if value is not None)


def _stack(reader: ObjectReader) -> tuple[StackItem, ...]:
    layers = [_layer(reader, place, each) for place, each in enumerate(_listed_layers(reader))]
    if not layers:
        reader.fault("layers", "The joint has no layers; list at least one part that the fastener goes into.")
    items = [StackItem(layer=layer) for layer in layers]
    for place, each in enumerate(reader.listed("insert")):
        insert = _hardware(reader, f"insert[{place}]" if place else "insert", each, "insert")
        if insert is not None:
            inserted = next((n for n, layer in enumerate(layers) if layer.takes == "insert"), len(layers) - 1)
            items.insert(max(inserted, 0), insert[0])
    ahead: list[StackItem] = []
    behind: list[StackItem] = []
    for place, each in enumerate(reader.listed("washers")):
        washer = _hardware(reader, f"washers[{place}]", each, "washer")
        if washer is not None:
            (behind if washer[1] == "nut" else ahead).append(washer[0])
    nuts = [("nut", each) for each in reader.listed("nut")]
    nuts += [(f"nuts[{place}]", each) for place, each in enumerate(reader.listed("nuts"))]
    if behind and not nuts:
        reader.fault("nut", "A washer lies under the nut, but there is no nut; write one such as M5 nut.")
    for path, each in nuts:
        nut = _hardware(reader, path, each, "nut")
        if nut is not None:
            (ahead if nut[1] == "head" else behind).append(nut[0])
    return (*ahead, *items, *behind)


_DECLARED = {"washer": WASHER_INPUTS, "nut": NUT_INPUTS, "insert": INSERT_INPUTS}
_READERS: dict[str, Callable[..., Any]] = {"washer": read_washer, "nut": read_nut, "insert": read_insert}


def _hardware(reader: ObjectReader, path: str, data: object, kind: str) -> tuple[StackItem, str] | None:
    """A washer, nut or insert as text or as an object, and at which side it is."""
    if isinstance(data, str):
        data = {kind: data}
    inner = ObjectReader(data, path, _DECLARED[kind], reader.faults, reader.unit)
    if not isinstance(data, Mapping):
        return None
    side = next((inner.choice(each.name) for each in _DECLARED[kind] if each.kind == "choice"), "")
    sizes = [inner.length(each.name) for each in _DECLARED[kind] if each.kind == "length"]
    text = inner.text(kind)
    if not text:
        inner.fault(kind, f"{path} needs a {kind}, written as the trade does.")
        return None
    if kind not in text.casefold():
        text = f"{text} {kind}"
    item = inner.attempt(kind, lambda field: _READERS[kind](text, unit=reader.unit, field=field))
    if item is None:
        return None
    measured = None
    if any(size is not None for size in sizes):
        inside = sizes[2] if kind == "washer" else None
        body = sizes[2] if kind == "insert" else None
        measured = MeasuredItem(sizes[0], sizes[1], inside, body)
    return StackItem(**{kind: item}, measured=measured), side


def _listed_layers(reader: ObjectReader) -> list[object]:
    """The layers as a list of objects, or as lines."""
    given = reader.data.get("layers")
    if not isinstance(given, str):
        return reader.listed("layers")
    lines = read_layer_lines(given)
    if len(lines) > MOST_LISTED:
        reader.fault("layers", f"layers has more than {MOST_LISTED} lines; at most {MOST_LISTED} are read.")
    return list(lines[:MOST_LISTED])


def _layer(reader: ObjectReader, place: int, data: object) -> Layer:
    path = f"layers[{place}]"
    layer = ObjectReader(data, path, LAYER_INPUTS, reader.faults, reader.unit)
    if isinstance(data, Mapping) and layer.data.get("thickness") is None:
        layer.fault("thickness", f"{path} has no thickness; write one such as 22 or '7/8 in'.")
    return Layer(
        thickness_mm=layer.length("thickness") or 1.0,
        part=layer.text("part") or f"layer {place + 1}",
        material=layer.text("material"),
        takes=cast(Takes, layer.choice("takes")),
        fit=cast(Fit, layer.choice("fit")),
        thread=layer.text("thread"),
        thread_depth_mm=layer.length("thread_depth"),
        drilled_depth_mm=layer.length("drilled_depth"),
        grain=cast(Any, layer.choice("grain")),
        hole=_hole(layer),
        edge_mm=layer.length("edge"),
        end_mm=layer.length("end"),
        side_mm=layer.length("side"),
        gap_mm=layer.length("gap") or 0.0,
    )


def _hole(layer: ObjectReader) -> HoleOverride:
    if layer.data.get("hole") is None:
        return HoleOverride()
    hole = ObjectReader(layer.data["hole"], layer.place("hole"), HOLE_INPUTS, layer.faults, layer.unit)
    return HoleOverride(
        kind=cast(Any, hole.choice("kind")),
        diameter_mm=hole.length("diameter"),
        depth_mm=hole.length("depth"),
        slot_length_mm=hole.length("slot_length"),
        slot_along=cast(Any, hole.choice("slot_along")),
        countersink_angle_deg=hole.number("countersink_angle"),
        countersink_diameter_mm=hole.length("countersink_diameter"),
        counterbore_diameter_mm=hole.length("counterbore_diameter"),
        counterbore_depth_mm=hole.length("counterbore_depth"),
        pilot=hole.flag("pilot"),
    )
