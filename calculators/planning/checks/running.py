"""The rules applied to a build; what they found in parts and joints that are as they were is taken over."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import replace

from calculators.joints.model import Finding
from calculators.planning.checks.limits import limits_of
from calculators.planning.checks.rule import BuildRule
from calculators.planning.checks.rules import RULES
from calculators.planning.checks.site import JointSite, PartSite, Site
from calculators.planning.model import Context
from calculators.planning.resolving import ResolvedJoint
from calculators.planning.worked import WorkedBuild, WorkedHole

_PART_RULES = tuple(rule for rule in RULES if rule.scope == "part")
_JOINT_RULES = tuple(rule for rule in RULES if rule.scope == "joint")
_BUILD_RULES = tuple(rule for rule in RULES if rule.scope == "build")
_FOUND = "found"


def check_build(
    worked: WorkedBuild, resolved: Mapping[str, ResolvedJoint], previous: Site | None = None
) -> tuple[Site, tuple[Finding, ...]]:
    """Apply every rule of the whole build.

    Args:
        worked: the build worked out.
        resolved: what each joint gave, by its mark.
        previous: what `check_build` gave of the build as it was before; it changes nothing but the time.

    Returns:
        The site, to be given as `previous` next time, and the findings, those of parts first.

    Source: this project; each rule names its own.
    """
    site = _site(worked, resolved, previous)
    known = previous.shared(_FOUND) if previous else None
    found: dict[int, tuple[Finding, ...]] = {}
    for each, rules in _looked_at(site):
        held = known.get(id(each)) if known else None
        found[id(each)] = held if held is not None else _all(rules, each)
    site.share(_FOUND, lambda: found)
    of_parts = [finding for findings in found.values() for finding in findings]
    findings = (*of_parts, *_all(_BUILD_RULES, site))
    # Without the site before it: else each site would keep all those before it.
    return replace(site, previous=None), findings


def _looked_at(site: Site) -> Iterator[tuple[PartSite | JointSite, tuple[BuildRule, ...]]]:
    for part in site.parts.values():
        yield part, _PART_RULES
    for joint in site.joints.values():
        yield joint, _JOINT_RULES


def _all(rules: tuple[BuildRule, ...], site: object) -> tuple[Finding, ...]:
    return tuple(finding for rule in rules for finding in rule.findings(site))


def _site(worked: WorkedBuild, resolved: Mapping[str, ResolvedJoint], previous: Site | None) -> Site:
    build, placed = worked.build, worked.placed
    assert placed is not None
    limits = limits_of(build.context)
    before = previous if previous is not None and _alike(previous.context, build.context) else None
    holes: dict[str, list[WorkedHole]] = defaultdict(list)
    for hole in worked.holes:
        holes[hole.part].append(hole)
    parts: dict[str, PartSite] = {}
    for one in build.components:
        part = PartSite(
            one,
            placed.solids.get(one.mark),
            tuple(holes.get(one.mark, ())),
            placed.copies.get(one.mark, ()),
            placed.totals.get(one.mark, 1),
            build.context,
            limits,
        )
        was = before.parts.get(one.mark) if before else None
        parts[one.mark] = was if was is not None and _same_part(was, part) else part
    joints: dict[str, JointSite] = {}
    for joint in build.joints:
        if joint.mark in resolved:
            now = JointSite(joint, resolved[joint.mark], placed, build.context, limits)
            had = before.joints.get(joint.mark) if before else None
            joints[joint.mark] = had if had is not None and _same_joint(had, now) else now
    return Site(worked, parts, joints, limits, previous)


def _alike(old: Context, new: Context) -> bool:
    return old is new or old == new


def _same_part(old: PartSite, new: PartSite) -> bool:
    return (
        (old.component is new.component or old.component == new.component)
        and old.copies == new.copies
        and old.total == new.total
        and old.holes == new.holes
    )


def _same_joint(old: JointSite, new: JointSite) -> bool:
    return old.resolved is new.resolved and (old.joint is new.joint or old.joint == new.joint)
