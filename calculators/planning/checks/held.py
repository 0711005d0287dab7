"""Rules on how a joint holds its parts: one that turns is not clamped, one meant to be fast is drawn up."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from calculators.geometry.sweeping import Sweep
from calculators.geometry.vectors import along, dot, subtract
from calculators.joints.freedom import clamped_together, freedom_of
from calculators.planning.checks.motions import Mover, movers, moves_with
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, joint_rule
from calculators.planning.checks.site import JointSite, Site
from calculators.planning.movement import AxisAt

_IN_LINE_MM = 0.25
_SQUARE = 1.0 - 1e-6


@build_rule(
    "turning-part-clamped",
    "mechanism",
    "A part that turns about a screw or bolt is not clamped by it against a part that stands still.",
    CP,
)
def _turning_part_clamped(site: Site) -> Iterator[Seen]:
    every = tuple(movers(site))
    turning = [mover for mover in every if mover.sweep.kind == "turns"]
    if not turning:
        return
    moving = moves_with(site, every)
    told: set[tuple[str, str]] = set()
    for mark, joint in site.joints.items():
        for axis in joint.resolved.axes:
            for mover in turning:
                if (mark, mover.mark) in told or not _about(axis, mover.sweep):
                    continue
                against = _clamped_against(site, axis, mover, moving)
                if against:
                    told.add((mark, mover.mark))
                    yield _says(site, mark, axis, mover.mark, against)


def _about(axis: AxisAt, sweep: Sweep) -> bool:
    """Whether a motion turns about a joint's axis."""
    if abs(dot(axis.way, sweep.way)) < _SQUARE:
        return False
    away = subtract(sweep.point, axis.start)
    foot = along(axis.start, (axis.way, dot(away, axis.way)))
    return math.dist(foot, sweep.point) <= _IN_LINE_MM


def _clamped_against(site: Site, axis: AxisAt, mover: Mover, moving: Mapping[str, Mover]) -> str:
    """The part that stands still against which the joint presses one that turns; '' where there is none."""
    copies = {site.placed.mark_of[one.copy]: one.copy for one in axis.stretches}
    for group in clamped_together(axis.worked.result, axis.worked.riders):
        if mover.mark not in group:
            continue
        for part in group:
            copy = copies.get(part, (site.placed.copies.get(part) or (part,))[0])
            if part != mover.mark and moving.get(copy) is not mover:
                return part
    return ""


def _says(site: Site, joint: str, axis: AxisAt, part: str, against: str) -> Seen:
    name = site.parts[part].component.name
    says = (
        f"{part} {name} turns about {joint}, which clamps it against {against}: it cannot turn. Let it turn "
        "on a bush that is 0.1 to 0.3 mm longer, or under a shoulder, or let the screw stand off and lock it."
    )
    return Seen("error", says, joint, part, axis.place, at=f"joints[{joint}].clamps")


@joint_rule(
    "loose-in-the-stack",
    "joints",
    "Of the parts that a screw with a head draws together one has its thread: the others are drilled clear.",
    CP,
)
def _loose_in_the_stack(site: JointSite) -> Iterator[Seen]:
    """A screw that runs in the threads of two parts keeps them as far apart as they were when it entered."""
    if not site.joint.clamps or site.joint.stands is not None:
        return
    told: set[str] = set()
    for group in site.groups:
        if sum(bool(hole.thread) for hole in group.result.holes) < 2:
            continue
        for each in freedom_of(group.result, group.riders):
            layer = group.inputs.stack[each.item].layer if each.item >= 0 else None
            if not each.undrawn or each.state != "tight" or layer is None or layer.part in told:
                continue
            told.add(layer.part)
            says = f"{layer.part}: {each.why}. Drill what lies before it clear of the thread."
            yield Seen("warning", says, site.mark, layer.part, at=f"joints[{site.mark}].stack")


RULES: tuple[BuildRule, ...] = (_turning_part_clamped, _loose_in_the_stack)
