"""The rule for whether a pattern of holes goes together, by how far off holes may lie."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from calculators.hardware.holes import clearance_hole
from calculators.hardware.threads import Thread
from calculators.joints.limits import Limit
from calculators.joints.model import LayerHole, Mend, Severity
from calculators.joints.sizes import thread_of
from calculators.joints.worked import Missing
from calculators.planning.checks.keeping import looked_at
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting, unchecked
from calculators.planning.checks.site import JointSite, Site, material_of
from calculators.planning.model import Joint
from calculators.planning.worked import WorkedJoint
from calculators.quantities.errors import InputError

_TINY = 1e-6
_FREE = ("clearance", "slot", "plain", "reamed")
_HELD = ("tapping", "insert", "pilot")


@dataclass(frozen=True, slots=True)
class _Play:
    """Two parts of a joint and how far their holes may lie apart before the screw binds [mm]."""

    first: str
    second: str
    play: float
    floating: bool
    place: str


@build_rule(
    "hole-pattern",
    "joints",
    "The holes of a pattern lie true enough for its screws: both parts' errors together within half the "
    "hole's play where the other part holds the screw, within all of it where a nut does.",
    "ASME Y14.5, fixed and floating fasteners (from memory); ISO 1101",
    Limit("hole-pattern-play", 70.0, "%", CP, "errors of position, of the play of the holes"),
)
def _hole_pattern(site: Site) -> Iterator[Seen]:
    """Joints of two or more places with machine screws, or in metal, whose holes are drilled apart."""
    error = site.context.position_mm
    waiting: list[str] = []
    each = ((one,) for one in site.joints.values())
    for joint, plays in zip(site.joints.values(), looked_at(site, "hole-pattern", each, _plays), strict=True):
        if plays and error is None:
            waiting.append(joint.mark)
        elif plays and error is not None:
            yield from _judged(site, joint, min(plays, key=lambda one: one.play), 2.0 * float(error))
    if waiting:
        names = ", ".join(waiting[:6]) + (f" and {len(waiting) - 6} more" if len(waiting) > 6 else "")
        says = (
            "How far off a hole may lie in each part is not given, so whether the patterns of "
            f"{names} go together is not looked at."
        )
        yield unchecked(says, joint=waiting[0] if len(waiting) == 1 else "", at="context.position_mm")


def _plays(things: tuple[JointSite]) -> list[_Play]:
    """The play between each two parts of a joint with a pattern of holes that are drilled apart."""
    (site,) = things
    joint = site.joint
    if joint.spotted or not site.groups or not _is_pattern(joint, site.groups):
        return []
    return [play for group in site.groups for play in _of_group(group)]


def _is_pattern(joint: Joint, groups: tuple[WorkedJoint, ...]) -> bool:
    if joint.places:
        return len(joint.places) > 1
    return sum(group.count for group in groups) > 1


def _of_group(group: WorkedJoint) -> Iterator[_Play]:
    holes, screw = group.result.holes, group.result.fastener
    layers = [item.layer for item in group.inputs.stack if item.layer is not None]
    major = group.result.major_mm
    place = group.places[0] if group.places else ""
    for first, second in pairwise(holes):
        if first.part == second.part or {first.kind, second.kind} <= set(_HELD):
            continue
        material = material_of(layers[second.layer].material)
        metal = material is not None and material.is_metal
        if screw.family == "wood" and not (second.kind not in _HELD and metal):
            continue  # a pilot in wood is made through the hole above, or the point finds it
        play = sum(_float(one, major) for one in (first, second))
        yield _Play(
            first.part, second.part, max(play, 0.0), second.kind in _FREE and first.kind in _FREE, place
        )


def _float(hole: LayerHole, major_mm: float) -> float:
    """How far a screw may lie off the middle of a hole [mm]: not at all where it is held."""
    return max(0.0, hole.diameter_mm - major_mm) / 2.0 if hole.kind in _FREE else 0.0


def _judged(site: Site, joint: JointSite, worst: _Play, errors: float) -> Iterator[Seen]:
    share = site.limits["hole-pattern-play"] / 100.0
    if errors <= share * worst.play + _TINY:
        return
    severity: Severity = "error" if errors > worst.play + _TINY else "warning"
    cost = "not all its screws go in" if severity == "error" else "there is little to spare"
    both = "both holes let the screw float" if worst.floating else f"{worst.second} holds the screw"
    if not worst.floating and worst.second not in _held_parts(joint):
        both = f"{worst.first} holds the screw"
    says = (
        f"The holes of {joint.mark} in {worst.first} and {worst.second} may lie {errors:.3g} mm apart "
        f"({errors / 2.0:.3g} mm in each part); {both}, and its play is {worst.play:.3g} mm: {cost}."
    )
    limit = worst.play if severity == "error" else share * worst.play
    yield Seen(
        severity, says, joint.mark, worst.first, "", errors, limit, "mm", _mends(site, joint, errors),
        f"joints[{joint.mark}].spotted",
    )  # fmt: skip


def _held_parts(joint: JointSite) -> set[str]:
    return {hole.part for group in joint.groups for hole in group.result.holes if hole.kind in _HELD}


def _mends(site: Site, joint: JointSite, errors: float) -> tuple[Mend, ...]:
    spot = setting("Spot the holes through from the first part.", (f"joints[{joint.mark}].spotted", "true"))
    thread = thread_of(joint.groups[0].result.fastener.size)
    if isinstance(thread, Missing):
        return (spot,)
    free = _free_mm(thread)
    clear = {h.part for group in joint.groups for h in group.result.holes if h.kind == "clearance"}
    members = [
        (index, one) for index, one in enumerate(joint.joint.stack)
        if one.part and not one.holes and one.fit != "free" and site.placed.mark_of.get(one.part) in clear
    ]  # fmt: skip
    held = len(_held_parts(joint)) > 0
    play = 0.0 if free is None else (free - thread.major_mm) / (2.0 if held else 1.0)
    if free is None or len(members) != len(clear) or errors > site.limits["hole-pattern-play"] / 100.0 * play:
        return (spot,)
    says = f"Drill the clearance holes {free:g} mm, the free fit."
    return (
        spot,
        setting(says, *((f"joints[{joint.mark}].stack[{index}].fit", "free") for index, _ in members)),
    )


def _free_mm(thread: Thread) -> float | None:
    try:
        return clearance_hole(thread, "free").diameter_mm
    except InputError:
        return None


RULES: tuple[BuildRule, ...] = (_hole_pattern,)
