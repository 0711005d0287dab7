"""The joints of a build cut through their axes, for the sheet of sections and for a file of one joint."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from calculators.drawing.section import joint_section, section_labels
from calculators.drawing.section_words import Label
from calculators.joints.model import Finding
from calculators.planning.tree import split_copy
from calculators.planning.worked import WorkedBuild, WorkedJoint
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

ON_PAPER_MM = 46.0
"""How tall a section is on the sheet at most, so that four stand on a page with their words."""


@dataclass(frozen=True, slots=True)
class SectionDrawn:
    """One group of places of a joint: its section, and what its numbers stand for, from the head on."""

    worked: WorkedJoint
    drawing: str
    labels: Sequence[Label]


def sections_on_paper(worked: WorkedBuild, component: str = "") -> Iterator[SectionDrawn]:
    """Draw each joint of a build, or of one component, small enough for four to a page."""
    names = {one.mark: one.name for one in worked.build.components}
    marked: dict[str, list[Finding]] = {}
    for finding in worked.findings:
        marked.setdefault(finding.joint, []).append(finding)
    for one in worked.joints:
        if component and not _goes_through(one, component):
            continue
        found = marked.get(one.joint.mark, ())
        drawing = joint_section(
            one.result, narrow=True, letter_mm=3.2, names=names, findings=found, tallest_mm=ON_PAPER_MM,
            with_key=False,
        )  # fmt: skip
        yield SectionDrawn(one, drawing, section_labels(one.result, names=names, findings=found))


def _goes_through(one: WorkedJoint, component: str) -> bool:
    parts = (split_copy(item.layer.part)[0] for item in one.inputs.stack if item.layer)
    return component in parts


def section_of_joint(worked: WorkedBuild, mark: str) -> str:
    """Draw one joint as the page does; of a joint with different layers at its places the first.

    InputError where there is no such joint, or where it could not be worked out.
    """
    marks = [one.mark for one in worked.build.joints]
    if mark not in marks:
        some = f" Joints of it are {', '.join(marks[:6])}." if marks else " It has none."
        says = f"There is no joint {quoted(mark)} in {worked.build.number}.{some}"
        raise InputError.of(says, field="--joint")
    found: Sequence[WorkedJoint] = [one for one in worked.joints if one.joint.mark == mark]
    if not found:
        why = next((one.says for one in worked.findings if one.joint == mark), "")
        says = f"{mark} cannot be drawn before it can be worked out. {why}".strip()
        raise InputError.of(says, field="--joint")
    names = {one.mark: one.name for one in worked.build.components}
    marked = [one for one in worked.findings if one.joint == mark]
    return joint_section(found[0].result, names=names, findings=marked)
