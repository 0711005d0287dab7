"""The findings of a build, in the order in which they must be mended."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from calculators.joints.model import Finding
from calculators.planning.checks.accepting import part_findings
from calculators.planning.checks.running import check_build
from calculators.planning.model import Acceptance, Build
from calculators.planning.near_threads import NearThreads, near_threads
from calculators.planning.order import fitted_after_closed
from calculators.planning.resolving import resolve
from calculators.planning.worked import WorkedBuild

SEVERITIES = ("error", "warning", "unchecked", "note")
"""What must be mended first; what could not be looked at comes before mere notes."""

_HERE = "this build: a rule that is not applied in it"


def inspect_build(build: Build, previous: WorkedBuild | None = None) -> WorkedBuild:
    """Work a build out and find what is wrong with it: with its parts, its joints, its order and its records.

    Args:
        build: the build as plain data.
        previous: what this function gave of the build before a change; it changes nothing but the time.

    Returns:
        The build worked out, with all findings, sorted by severity and then in the order of the build;
        those that somebody accepted stand by themselves in `accepted`.

    Source: this project; each finding states its own.
    """
    resolved = resolve(build, previous.resolution if previous else None)
    worked = resolved.worked
    near = map(_near_finding, near_threads(worked.joints))
    findings: tuple[Finding, ...] = (*worked.findings, *near, *fitted_after_closed(build))
    if build.calculations:
        # The calculators and their tables are loaded for builds that have need of them.
        from calculators.planning.calculations import work_calculations
        from calculators.planning.kept import calculation_findings

        worked = replace(worked, calculations=work_calculations(build, worked.joints))
        findings = (*findings, *calculation_findings(build, worked.calculations))
    site, found = check_build(worked, resolved.joints, previous.site if previous else None)
    findings = tuple(_applied(build, (*findings, *found)))
    sorted_out = part_findings(findings, build.acceptances)
    lapsed = (_lapsed(one) for one in sorted_out.lapsed)
    return replace(
        worked,
        findings=_in_order(build, (*sorted_out.standing, *lapsed)),
        accepted=sorted_out.accepted,
        resolution=resolved,
        site=site,
    )


def _in_order(build: Build, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    joints = {joint.mark: index for index, joint in enumerate(build.joints)}
    parts = {part.mark: index for index, part in enumerate(build.components)}

    def rank(finding: Finding) -> tuple[int, int, int, str, str, str]:
        joint = joints.get(finding.joint, len(joints))
        part = parts.get(finding.part, len(parts)) if joint == len(joints) else 0
        return SEVERITIES.index(finding.severity), joint, part, finding.rule, finding.part, finding.place

    return tuple(sorted(findings, key=rank))


def _applied(build: Build, findings: tuple[Finding, ...]) -> Iterator[Finding]:
    """Leave out what rules say that are switched off, and tell for each that it is."""
    off = dict(build.context.rules_off)
    if not off:
        yield from findings
        return
    yield from (one for one in findings if one.rule not in off)
    for rule, why in off.items():
        reason = f": {why}" if why.strip() else ", and no reason is given"
        says = f"The rule {rule} is switched off in this build{reason}."
        yield Finding("rule-switched-off", "note", says, _HERE, place=rule, at="context.rules_off")


def _lapsed(one: Acceptance) -> Finding:
    by = f" by {one.by}" if one.by else ""
    says = (
        f"What {one.rule} finds here is no longer what was let stand{by} (“{one.reason}”), which was "
        f"{one.given_for}: look at it again."
    )
    return Finding(
        "acceptance-lapsed", "note", says, "this build: an acceptance holds for the values it was given for",
        one.joint, one.part, one.place, at=f"acceptances[{one.id}]",
    )  # fmt: skip


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
