"""Which drill that is owned does as well as one that is not: tried in the joints themselves."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from calculators.hardware.drills import Drill
from calculators.hardware.holes import engagement_percent
from calculators.hardware.threads import find_thread
from calculators.joints.model import Mend
from calculators.planning.checks.rule import setting
from calculators.planning.checks.site import JointSite, Site
from calculators.planning.model import Build, Hole, Joint, LayerHole, StackMember
from calculators.planning.resolving import resolve_joint
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length

_TRIED = 6
"""How many drills near the size are tried for a mend."""

_FAR_MM = 1.0
"""A drill further off than this is no other drill for the same hole."""


@dataclass(frozen=True, slots=True)
class Use:
    """A hole that needs a drill: of a joint in a part, or one placed by hand."""

    part: str
    joint: str = ""
    hole: str = ""


def another_drill(
    site: Site, name: str, size_mm: float, uses: Sequence[Use], owned: Sequence[Drill]
) -> tuple[Mend, ...]:
    """Find the owned drill nearest to a size with which no rule says more than it does now.

    Args:
        site: the build.
        name: what the drill that is not owned is called.
        size_mm: its diameter [mm].
        uses: the holes that need it, as joint and part, or as part and the id of a hole placed by hand.
        owned: the drills that are owned.

    Returns:
        The mend that drills all of them with it; none where no drill does, or nobody chose the size by hand.

    Source: common practice; in joints, the rules of the joint.
    """
    uses = tuple(dict.fromkeys(uses))
    kept: dict[Any, Any] = site.share("tool-mends", dict)
    before = (site.previous.shared("tool-mends") if site.previous else None) or {}
    things = tuple(site.joints.get(use.joint) if use.joint else site.parts.get(use.part) for use in uses)
    key = (name, size_mm, uses, site.context.drills, site.build.unit)
    held = before.get(key)
    if held is not None and all(one is other for one, other in zip(held[0], things, strict=True)):
        kept[key] = held
        return tuple(held[1])
    near = [one for one in owned if 0 < abs(one.diameter_mm - size_mm) <= _FAR_MM]
    near.sort(key=lambda one: (abs(one.diameter_mm - size_mm), one.series != "metric", one.diameter_mm))
    found: tuple[Mend, ...] = ()
    for drill in near[:_TRIED]:
        fields = _all_with(site, uses, size_mm, drill)
        if fields:
            parts = " and ".join(dict.fromkeys(use.part for use in uses))
            found = (setting(f"Drill {parts} {drill.name}, which is owned and does as well.", *fields),)
            break
    kept[key] = (things, found)
    return found


def _all_with(site: Site, uses: Sequence[Use], size_mm: float, drill: Drill) -> list[tuple[str, str]]:
    """The fields that hold the size, with another drill; none where it does not do in one of the holes."""
    fields: list[str] = []
    for use in uses:
        if use.joint:
            joint = site.joints.get(use.joint)
            if joint is None:
                return []
            paths, changed = _drilled_with(joint.joint, use.part, size_mm, drill.diameter_mm)
            if not paths or not _as_sound(site.build, joint, changed):
                return []
            fields += paths
        else:
            part = site.parts[use.part]
            hole = next((one for one in part.component.holes if one.id == use.hole), None)
            if hole is None or not _does_by_hand(hole, drill.diameter_mm, site.limits):
                return []
            fields.append(f"components[{use.part}].holes[{use.hole}].diameter")
    size = f"{drill.diameter_mm:.4f}".rstrip("0").rstrip(".") + " mm"
    return [(path, size) for path in dict.fromkeys(fields)]


def _does_by_hand(hole: Hole, drill_mm: float, limits: Mapping[str, float]) -> bool:
    """Whether a drill does for a hole placed by hand: only where its thread tells what it is for."""
    try:
        thread = find_thread(hole.thread) if hole.thread else None
    except InputError:
        return False
    if thread is None:
        return False
    if hole.kind == "tapping":
        percent = engagement_percent(thread, drill_mm)
        return limits["thread-percent-low"] <= percent <= limits["thread-percent-high"]
    share = drill_mm / thread.major_mm
    return hole.kind == "clearance" and limits["clearance-least"] <= share <= limits["clearance-most"]


def _drilled_with(joint: Joint, part: str, size_mm: float, other_mm: float) -> tuple[list[str], Joint]:
    """The fields that hold the diameter, and the joint with another there; none where the rules chose it."""
    paths: list[str] = []
    stack: list[StackMember] = []
    for number, member in enumerate(joint.stack):
        holes: list[LayerHole] = []
        for index, hole in enumerate(member.holes):
            given = member.part == part and hole.diameter is not None
            if given and hole.diameter is not None and abs(hole.diameter.mm - size_mm) < 1e-6:
                first = next(n for n, one in enumerate(joint.stack) if one.part == part)
                where = part if first == number else str(number)
                paths.append(f"joints[{joint.mark}].stack[{where}].holes[{index}].diameter")
                hole = replace(hole, diameter=Length.of_mm(round(other_mm, 4)))
            holes.append(hole)
        stack.append(replace(member, holes=tuple(holes)) if member.holes else member)
    return paths, replace(joint, stack=tuple(stack))


def _as_sound(build: Build, joint: JointSite, changed: Joint) -> bool:
    """Whether the rules of the joint find no more in it than they did."""
    after = resolve_joint(build, changed, joint.placed)
    now = {(one.rule, one.severity, one.part) for one in joint.resolved.findings}
    return after.is_known and all(
        (one.rule, one.severity, one.part) in now for one in after.findings if one.severity != "note"
    )
