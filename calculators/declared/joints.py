"""Joint: a fastener through its layers, with washers and nut: length, holes, what holds, what is wrong."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import asdict
from functools import partial
from typing import Any

from calculators.calculation import Calculator, Given, Input, Result, Value, named
from calculators.calculation.reading import read_input
from calculators.calculation.result import Plain, number_text
from calculators.hardware.designation import read_fastener, read_nut, read_washer, write_hardware
from calculators.joints.model import (
    Finding,
    HoleOverride,
    JointInput,
    JointResult,
    Layer,
    LayerHole,
    StackItem,
)
from calculators.joints.work import work_joint
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.marks import quoted

MOST_LAYERS = 20
_WIDTH = partial(Input, kind="length", unit="mm", above=0, maximum=10_000, optional=True)
_DISTANCE = partial(Input, kind="length", unit="mm", minimum=0, maximum=10_000, optional=True)
_WORD = partial(Input, kind="choice", optional=True)

LAYER_INPUTS = (
    Input(name="part", kind="text", help="the part's mark or name", default="layer"),
    Input(name="material", kind="text", help="its material, such as oak or mild steel", optional=True),
    Input(
        name="thickness",
        kind="length",
        unit="mm",
        above=0,
        maximum=10_000,
        help="its thickness",
        example="22 mm",
    ),
    _WORD(
        name="takes",
        choices=("clearance", "thread", "pilot", "plain"),
        help="what its hole is for, where it is not as usual",
    ),
    _WORD(name="fit", choices=("close", "medium", "free"), help="the fit of a clearance hole"),
    Input(name="thread", kind="text", help="the thread that it is tapped with", optional=True),
    _WIDTH(name="thread_depth", help="full thread in a blind hole"),
    _WIDTH(name="drilled_depth", help="depth of a blind hole"),
    _WORD(name="grain", choices=("side", "end"), help="how the screw lies to the grain"),
    _DISTANCE(name="edge", help="from the axis to the nearest edge across the grain"),
    _DISTANCE(name="end", help="from the axis to the nearest end"),
    _DISTANCE(name="side", help="from the axis to the nearest edge of a metal part"),
    _DISTANCE(name="gap", help="air before this layer"),
    _WIDTH(name="hole", help="the hole's diameter as decided, where it is not by the rules"),
)
"""What may be said of one layer."""

_LAYERS_HELP = "a list of the parts from the head side, each an object with " + ", ".join(
    each.name for each in LAYER_INPUTS
)


def _joint(given: Given) -> Result:
    faults: list[Fault] = []

    def caught(read: Callable[[], Any]) -> Any:
        try:
            return read()
        except InputError as error:
            faults.extend(error.faults)
            return None

    fastener = caught(lambda: read_fastener(given.text("fastener"), field="fastener"))
    layers = _layers(given["layers"], caught)
    washers = _washers(given.get("washers"), caught)
    nut_text = given.text_or_none("nut")
    nut = caught(lambda: read_nut(_as(nut_text, "nut"), field="nut")) if nut_text else None
    if not nut_text and any(under == "nut" for under, _ in washers):
        faults.append(
            Fault("A washer lies under the nut, but there is no nut; write one such as M5 nut.", "nut")
        )
    if faults or fastener is None:
        raise InputError(*faults)
    stack = (
        *(StackItem(washer=washer) for under, washer in washers if under == "head"),
        *(StackItem(layer=layer) for layer in layers),
        *(StackItem(washer=washer) for under, washer in washers if under == "nut"),
        *([StackItem(nut=nut)] if nut is not None else []),
    )
    drills = given.text_or_none("drills")
    joint = JointInput(
        "", fastener, stack,
        torque_nm=given.number_or_none("torque"),
        drills=(drills,) if drills else (),
        tapping_percent=given.number_or_none("engagement"),
        loaded_sideways=given.text("loaded_sideways") == "yes",
        wet=given.text("wet") == "yes",
    )  # fmt: skip
    return _told(work_joint(joint))


def _as(text: str, word: str) -> str:
    """A bare size said to be what it stands for: `M5` as the nut is `M5 nut`."""
    return text if word in text.lower() else f"{text} {word}"


def _layers(raw: object, caught: Callable[[Callable[[], Any]], Any]) -> list[Layer]:
    if not isinstance(raw, list) or not 0 < len(raw) <= MOST_LAYERS:
        says = f"The input layers must be a list of 1 to {MOST_LAYERS} objects, each with a thickness."
        caught(lambda: _refuse(says, "layers"))
        return []
    layers = [caught(partial(_layer, each, f"layers[{place}]")) for place, each in enumerate(raw)]
    return [layer for layer in layers if layer is not None]


def _refuse(says: str, field: str) -> None:
    raise InputError.of(says, field=field)


def _layer(raw: object, path: str) -> Layer:
    """Read one layer; all of its faults are found."""
    if not isinstance(raw, Mapping):
        raise InputError.of(
            f'{path} is not an object; write one such as {{"thickness": "22 mm"}}.', field=path
        )
    known = {each.name: each for each in LAYER_INPUTS}
    faults = [
        Fault(f"There is no {quoted(str(name))} of a layer; there are {', '.join(known)}.", path)
        for name in raw
        if name not in known
    ]
    values: dict[str, Any] = {}
    for name, each in known.items():
        value = raw.get(name)
        value = each.default if value is None or value == "" else value
        if value is None and each.required:
            faults.append(
                Fault(f"A layer has no {name}; write one such as {each.example}.", f"{path}.{name}")
            )
        try:
            values[name] = None if value is None else read_input(each, value)
        except InputError as error:
            faults += error.at(path).faults
    if faults:
        raise InputError(*faults)
    mm = {
        name: None if values[name] is None else values[name].mm
        for name in known
        if known[name].kind == "length"
    }
    return Layer(
        part=values["part"],
        material=values["material"] or "",
        thickness_mm=mm["thickness"] or 0.0,
        takes=values["takes"] or "",
        fit=values["fit"] or "medium",
        thread=values["thread"] or "",
        thread_depth_mm=mm["thread_depth"],
        drilled_depth_mm=mm["drilled_depth"],
        grain=values["grain"] or "",
        hole=HoleOverride(diameter_mm=mm["hole"]),
        edge_mm=mm["edge"],
        end_mm=mm["end"],
        side_mm=mm["side"],
        gap_mm=mm["gap"] or 0.0,
    )


def _washers(raw: object, caught: Callable[[Callable[[], Any]], Any]) -> list[tuple[str, Any]]:
    """Read the washers: a text lies under the head; an object says under which it lies."""
    if raw is None:
        return []
    items = [raw] if isinstance(raw, str | Mapping) else raw
    if not isinstance(items, list) or len(items) > MOST_LAYERS:
        says = 'The input washers must be a list such as ["M5 washer"] or [{"washer": "M5", "under": "nut"}].'
        caught(lambda: _refuse(says, "washers"))
        return []
    read = [caught(partial(_washer, each, f"washers[{place}]")) for place, each in enumerate(items)]
    return [each for each in read if each is not None]


def _washer(raw: object, path: str) -> tuple[str, Any]:
    under: object = "head"
    text: object = raw
    if isinstance(raw, Mapping):
        text, under = raw.get("washer"), raw.get("under", "head")
    if not isinstance(text, str) or under not in ("head", "nut") or len(text) > 200:
        says = f'{path} cannot be read; write it as "M5 washer" or {{"washer": "M5 washer", "under": "nut"}}.'
        raise InputError.of(says, field=path)
    return str(under), read_washer(_as(text, "washer"), field=path)


def _told(result: JointResult) -> Result:
    """The result of the calculator from the result of the joint."""
    length = result.fastener.cut_to or result.fastener.length
    results = named(
        length_needed=_range(result.length_needed_mm),
        length=Value(length.mm if length else None, "mm"),
        holes=Value([_hole(hole) for hole in result.holes], "mm", "\n".join(map(_hole_line, result.holes))),
    )
    for name, value in (
        ("engagement", result.engagement_mm),
        ("penetration", result.penetration_mm),
        ("protrusion", result.protrusion_mm),
    ):
        if value is not None:
            results[name] = Value(value, "mm")
    told = "\n".join(f"{finding.severity}, {finding.where}: {finding.says}" for finding in result.findings)
    results["findings"] = Value([_finding(finding) for finding in result.findings], "", told)
    warnings = tuple(f.says for f in result.findings if f.severity in ("error", "warning"))
    made = (f"worked for {write_hardware(result.fastener)}",)
    return Result(
        results,
        result.working,
        warnings,
        (*made, *(each for each in result.sources if each != "this project")),
    )


def _range(needed: tuple[float, float] | None) -> Value:
    if needed is None:
        return Value(None, "mm")
    return Value(list(needed), "mm", f"{number_text(needed[0], 4)} to {number_text(needed[1], 4)} mm")


def _hole(hole: LayerHole) -> Mapping[str, Plain]:
    """A hole with what applies to it; the names lose the unit, which is mm (angles deg)."""
    pairs = ((name.removesuffix("_mm").removesuffix("_deg"), value) for name, value in asdict(hole).items())
    return {name: value for name, value in pairs if value not in (None, "", 0.0) or name == "layer"}


def _hole_line(hole: LayerHole) -> str:
    """A hole as a person reads it off."""
    words = [f"{hole.part}: {hole.kind} {number_text(hole.diameter_mm, 4)} mm, drill {hole.drill or 'none'}"]
    words.append("through" if hole.depth_mm is None else f"{number_text(hole.depth_mm, 4)} mm deep")
    if hole.thread:
        words.append(f"tap {hole.thread}")
    if hole.countersink_depth_mm is not None and hole.countersink_diameter_mm is not None:
        wide, deep = number_text(hole.countersink_diameter_mm, 3), number_text(hole.countersink_depth_mm, 3)
        words.append(f"countersink {hole.countersink_angle_deg:g} deg to {wide} mm, {deep} mm deep")
    if hole.counterbore_depth_mm is not None and hole.counterbore_diameter_mm is not None:
        wide, deep = number_text(hole.counterbore_diameter_mm, 3), number_text(hole.counterbore_depth_mm, 3)
        words.append(f"counterbore {wide} mm, {deep} mm deep")
    return ", ".join(words)


def _finding(finding: Finding) -> Mapping[str, Plain]:
    return {
        "rule": finding.rule,
        "severity": finding.severity,
        "where": finding.where,
        "says": finding.says,
        "value": finding.value,
        "limit": finding.limit,
        "unit": finding.unit,
        "source": finding.source,
        "mends": [mend.says for mend in finding.mends],
    }


JOINT = Calculator(
    name="joint",
    summary="A fastener through its layers: length, hole in each layer, what holds, what is wrong.",
    inputs=(
        Input(
            name="fastener",
            kind="text",
            help="the fastener, with or without its length",
            example="No. 8 x 1 3/4 csk brass or M5 csk",
        ),
        Input(
            name="layers",
            kind="json",
            help=_LAYERS_HELP,
            example='[{"part": "batten", "thickness": "22 mm"}]',
        ),
        Input(
            name="washers",
            kind="json",
            or_text=True,
            optional=True,
            help='a list of washers: "M5 washer" under the head, {"washer": "M5", "under": "nut"}',
        ),
        Input(name="nut", kind="text", optional=True, help="the nut", example="M5 or M5 half nut"),
        Input(
            name="engagement",
            kind="quantity",
            unit="%",
            minimum=30,
            maximum=100,
            optional=True,
            help="the depth of a tapped thread wanted",
        ),
        Input(
            name="torque",
            kind="quantity",
            unit="N m",
            above=0,
            maximum=10_000,
            optional=True,
            help="the tightening torque",
        ),
        Input(name="drills", kind="text", optional=True, help="the drills owned", example="1.0-13.0 by 0.5"),
        Input(
            name="loaded_sideways",
            kind="choice",
            choices=("no", "yes"),
            default="no",
            help="whether the load is across the screw",
        ),
        Input(
            name="wet",
            kind="choice",
            choices=("no", "yes"),
            default="no",
            help="whether the joint lives outdoors or in the damp",
        ),
    ),
    outputs=("length_needed", "length", "holes", "engagement", "penetration", "protrusion", "findings"),
    varying=("engagement",),
    work=_joint,
    sources=("the tables of hardware and drills", "the rules name their own"),
    cautions=("Guidance for workshop decisions: structures follow local codes and licensed practice.",),
    example={
        "fastener": "No. 8 csk brass",
        "layers": '[{"part": "batten", "thickness": "22 mm"}, {"part": "base", "thickness": "28 mm"}]',
    },
)
