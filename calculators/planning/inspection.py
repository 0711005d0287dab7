"""The findings of a build, in the order in which they must be mended."""

from __future__ import annotations

from dataclasses import replace

from calculators.joints.model import Finding
from calculators.planning.model import Build
from calculators.planning.near_threads import NearThreads, near_threads
from calculators.planning.order import fitted_after_closed
from calculators.planning.resolving import resolve_build
from calculators.planning.worked import WorkedBuild

SEVERITIES = ("error", "warning", "unchecked", "note")
"""What must be mended first; what could not be looked at comes before mere notes."""


def inspect_build(build: Build) -> WorkedBuild:
    """Work a build out and find what is wrong with its joints, order of assembly and kept calculations.

    Args:
        build: the build as plain data.

    Returns:
        The build worked out, with all findings: those of its joints and those of the build as a whole,
        sorted by severity and then in the order of the build.

    Source: this project; each finding states its own.
    """
    worked = resolve_build(build)
    near = map(_near_finding, near_threads(worked.joints))
    findings = (*worked.findings, *near, *fitted_after_closed(build))
    if build.calculations:
        # The calculators and their tables are loaded for builds that have need of them.
        from calculators.planning.calculations import work_calculations
        from calculators.planning.kept import calculation_findings

        worked = replace(worked, calculations=work_calculations(build, worked.joints))
        findings = (*findings, *calculation_findings(build, worked.calculations))
    order = {joint.mark: index for index, joint in enumerate(build.joints)}

    def rank(finding: Finding) -> tuple[int, int, str, str, str]:
        place = order.get(finding.joint, len(order))
        return SEVERITIES.index(finding.severity), place, finding.rule, finding.part, finding.place

    return replace(worked, findings=tuple(sorted(findings, key=rank)))


def _near_finding(near: NearThreads) -> Finding:
    """What to say of two threads that are easily taken for one another in the hand."""
    one, other = near.first, near.second
    apart = abs(one.major_mm - other.major_mm)
    pitch = abs(one.pitch_mm - other.pitch_mm) / max(one.pitch_mm, other.pitch_mm) * 100.0
    says = (
        f"{one.designation} ({', '.join(near.first_joints)}) and {other.designation} "
        f"({', '.join(near.second_joints)}) are easily taken for one another: {apart:.2f} mm and "
        f"{pitch:.1f} % of pitch apart. Keep them in marked tins, or use one of them throughout."
    )
    return Finding(
        "near-match-threads",
        "warning",
        says,
        "common practice: nearer than 0.35 mm in diameter and 5 % in pitch",
        part=f"{one.designation} and {other.designation}",
        value=round(apart, 4),
        limit=0.35,
        unit="mm",
    )
