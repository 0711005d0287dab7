"""Joint: a fastener through its layers, with washers and nut: length, holes, what holds, what is wrong."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict

from calculators.calculation import Calculator, Given, Result, Value, named
from calculators.calculation.result import Plain, number_text
from calculators.hardware.designation import write_hardware
from calculators.joints.declaration import JOINT_INPUTS
from calculators.joints.finding_json import finding_as_json
from calculators.joints.model import Finding, JointResult, LayerHole
from calculators.joints.reading import read_joint
from calculators.joints.work import work_joint


def _joint(given: Given) -> Result:
    return _told(work_joint(read_joint(given)))


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
    told = "\n".join(map(_finding_line, result.findings))
    results["findings"] = Value([finding_as_json(finding) for finding in result.findings], "", told)
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


def _finding_line(finding: Finding) -> str:
    at = f"{finding.severity}, {finding.where}" if finding.where else finding.severity
    return f"{at}: {finding.says}"


JOINT = Calculator(
    name="joint",
    summary="A fastener through its layers: length, hole in each layer, what holds, what is wrong.",
    purpose="Fasten and check a joint",
    inputs=JOINT_INPUTS,
    own_reader=True,
    outputs=("length_needed", "length", "holes", "engagement", "penetration", "protrusion", "findings"),
    varying=("engagement",),
    work=_joint,
    sources=("the tables of hardware and drills", "the rules name their own"),
    cautions=("Guidance for workshop decisions: structures follow local codes and licensed practice.",),
    example={
        "fastener": "No. 8 csk brass",
        "layers": "batten, oak, 22 mm; base, oak, 28 mm",
    },
)
