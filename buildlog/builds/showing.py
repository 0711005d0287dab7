"""What the pages of a build show, gathered from the build worked out. Nothing is computed here."""

from __future__ import annotations

from collections import Counter
from typing import Any

from django.http import Http404

from calculators.drawing.section import joint_section
from calculators.joints.model import Finding, StackItem
from calculators.planning.inspection import SEVERITIES
from calculators.planning.worked import WorkedBuild, WorkedJoint

FIRST_FINDINGS = 200
"""The most findings that one page shows; the command prints all of them."""


SHEETS = (
    ("fasteners", "Fastener schedule"),
    ("drilling", "Drilling sheet"),
    ("cut", "Cut sheet"),
    ("assembly", "Assembly sheet"),
)


def counts_of(worked: WorkedBuild) -> list[tuple[str, int]]:
    """How many findings there are of each severity, worst first, those of none left out."""
    counts: Counter[str] = Counter(finding.severity for finding in worked.findings)
    return [(severity, counts[severity]) for severity in SEVERITIES if counts[severity]]


def joint_context(worked: WorkedBuild, mark: str) -> dict[str, Any]:
    """What the page of one joint shows; Http404 for a joint that there is not."""
    joint = next((each for each in worked.build.joints if each.mark == mark), None)
    if joint is None:
        raise Http404(f"no joint {mark}")
    names = {component.mark: component.name for component in worked.build.components}
    findings = [finding for finding in worked.findings if finding.joint == mark]
    groups = [
        {
            "worked": each,
            "stack": _with_thickness(each),
            "broad": joint_section(each.result, names=names, findings=findings),
            "narrow": joint_section(each.result, names=names, findings=findings, narrow=True),
        }
        for each in worked.joints
        if each.joint.mark == mark
    ]
    left_out = max(0, len(findings) - FIRST_FINDINGS)
    return {"joint": joint, "groups": groups, "findings": findings[:FIRST_FINDINGS], "left_out": left_out}


def _with_thickness(worked: WorkedJoint) -> list[tuple[StackItem, float | None]]:
    """The members of a stack with how much of the axis each takes, hardware too."""
    taken = {extent.item: extent.leave_mm - extent.enter_mm for extent in worked.result.extents}
    return [(item, taken.get(index)) for index, item in enumerate(worked.inputs.stack)]


def worst_of(findings: tuple[Finding, ...]) -> dict[str, str]:
    """The worst severity of each joint's findings, by its mark; findings come worst first."""
    worst: dict[str, str] = {}
    for finding in findings:
        if finding.joint:
            worst.setdefault(finding.joint, finding.severity)
    return worst
