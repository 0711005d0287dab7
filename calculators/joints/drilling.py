"""The hole that each layer needs: kind, diameter, the drill for it, depth, countersink, counterbore."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from math import radians, tan
from typing import cast

from calculators.hardware.drill_sets import drill_set
from calculators.hardware.drills import Drill, Way, all_drills, nearest_drill
from calculators.hardware.holes import (
    Fit,
    clearance_hole,
    drill_point_mm,
    engagement_percent,
    tap_lead_mm,
    tapping_hole,
)
from calculators.hardware.threads import Thread
from calculators.joints.model import HoleKind, LayerHole
from calculators.joints.sizes import look_up
from calculators.joints.worked import Bite, Member, Missing, Worked
from calculators.quantities.errors import InputError

COUNTERBORE_ROOM_MM = 1.0
"""How much wider a counterbore is made than what lies in it, where none is given (common practice)."""

INSERT_OVER_HARDWOOD_MM = 0.4
INSERT_BEYOND_MM = 1.0
"""How much deeper than the insert its hole is drilled (common practice)."""

BLIND_WALL_MM = 1.5
_KIND_OF_TAKES: dict[str, HoleKind] = {
    "clearance": "clearance",
    "thread": "tapping",
    "pilot": "pilot",
    "insert": "insert",
    "plain": "plain",
    "": "clearance",
}


@lru_cache(maxsize=64)
def drills_owned(sets: tuple[str, ...]) -> tuple[Drill, ...] | Missing:
    """The drills of the sets that are owned; an empty tuple where none is stated.

    Args:
        sets: sets as people write them.

    Returns:
        The drills, or what could not be read.

    Source: this project.
    """
    if not sets:
        return ()
    return look_up("the drills owned", lambda: drill_set("; ".join(sets)))


@lru_cache(maxsize=4096)
def _nearest(diameter_mm: float, way: Way, sets: tuple[str, ...]) -> Drill | None:
    owned = drills_owned(sets)
    among = owned if isinstance(owned, tuple) and owned else all_drills()
    try:
        return nearest_drill(diameter_mm, way=way, among=among)
    except InputError:
        return None


def drill_named(diameter_mm: float, sets: tuple[str, ...]) -> str:
    """The name of the drill of a diameter, or the diameter in words where there is no such drill.

    Args:
        diameter_mm: the diameter [mm], over 0.
        sets: the sets of drills owned.

    Returns:
        A drill's name, owned ones first.

    Source: this project.

    Example:
        >>> drill_named(2.5, ())
        '2.5 mm'
    """
    for among in (sets, ()):
        drill = _nearest(diameter_mm, "nearest", among)
        if drill is not None and abs(drill.diameter_mm - diameter_mm) < 0.005:
            return drill.name
    return f"{diameter_mm:.4g} mm"


@dataclass(frozen=True, slots=True)
class _Bore:
    """A hole's diameter with the words that say what it rests on."""

    diameter_mm: float
    drill: str
    basis: str


def _rounded(wanted_mm: float, way: Way, why: str, sets: tuple[str, ...]) -> _Bore:
    """Round a diameter to a drill, and say which way."""
    drill = (
        _nearest(wanted_mm, way, sets) or _nearest(wanted_mm, way, ()) or _nearest(wanted_mm, "nearest", ())
    )
    if drill is None:
        return _Bore(wanted_mm, f"{wanted_mm:.4g} mm", why)
    off = drill.diameter_mm - wanted_mm
    if abs(off) < 0.005:
        return _Bore(drill.diameter_mm, drill.name, why)
    words = f"{why}: {wanted_mm:.2f} mm, {'up' if off > 0 else 'down'} to {drill.name}"
    if sets and _nearest(wanted_mm, way, sets) is None:
        words += ", which is not among the drills owned"
    return _Bore(drill.diameter_mm, drill.name, words)


def holes_of(worked: Worked) -> tuple[LayerHole, ...]:
    """Work out the hole of each layer.

    Args:
        worked: the joint, its screw's length known.

    Returns:
        One hole for each layer, from the head side.

    Source: ISO 273, ASME B18.2.8, ISO 2306, Wood Handbook lead holes, common practice, as each basis says.
    """
    return tuple(_hole(worked, member) for member in worked.layers)


def _hole(worked: Worked, member: Member) -> LayerHole:
    assert member.layer is not None
    given = member.layer.hole
    bite = next((each for each in worked.bites if each.member is member), None)
    kind: HoleKind = given.kind or _KIND_OF_TAKES[member.takes]
    bore = _bore(worked, member, bite)
    if given.diameter_mm is not None:
        named = drill_named(given.diameter_mm, worked.joint.drills)
        bore = _Bore(given.diameter_mm, named, f"as given; by rule {bore.diameter_mm:.4g} mm ({bore.basis})")
    hole = LayerHole(
        member.part, member.number, kind, bore.diameter_mm, bore.drill, basis=bore.basis,
        slot_length_mm=given.slot_length_mm, slot_along=given.slot_along,
    )  # fmt: skip
    hole = _with_depth(hole, worked, member, bite)
    hole = _with_countersink(hole, worked, member)
    return _with_counterbore(hole, worked, member)


def _bore(worked: Worked, member: Member, bite: Bite | None) -> _Bore:
    sets = worked.joint.drills
    if member.takes == "pilot":
        return _pilot(worked, member, sets)
    if member.takes == "thread":
        return _tapping(worked, bite, sets)
    if member.takes == "insert":
        return _insert_hole(worked, member, sets)
    return _clearance(worked, member, sets)


def _clearance(worked: Worked, member: Member, sets: tuple[str, ...]) -> _Bore:
    screw, layer = worked.screw, member.layer
    assert layer is not None
    if screw.wood is not None:
        return _rounded(screw.wood.clearance_hole_mm, "up", screw.wood.clearance_basis, sets)
    if screw.thread is not None:
        hole = _clearance_hole(screw.thread, layer.fit)
        if not isinstance(hole, Missing):
            return _rounded(hole[0], "up", hole[1], sets)
    return _rounded(1.08 * screw.major_mm, "up", "1.08 D (common practice)", sets)


@lru_cache(maxsize=1024)
def _clearance_hole(thread: Thread, fit: str) -> tuple[float, str] | Missing:
    def call() -> tuple[float, str]:
        hole = clearance_hole(thread, cast(Fit, fit))
        return hole.diameter_mm, f"{fit} fit, {hole.source.says}"

    return look_up("the clearance hole", call)


def _pilot(worked: Worked, member: Member, sets: tuple[str, ...]) -> _Bore:
    wood, screw = worked.screw.wood, worked.screw
    if wood is not None:
        if member.is_hardwood:
            return _rounded(wood.pilot_hardwood_mm, "nearest", f"hardwood, {wood.pilot_hardwood_basis}", sets)
        kind = "softwood" if member.material is not None else "material not known, taken as softwood"
        return _rounded(wood.pilot_softwood_mm, "nearest", f"{kind}, {wood.pilot_softwood_basis}", sets)
    share = 0.75 if member.is_hardwood else 0.55
    root = screw.root_mm or screw.major_mm
    if screw.root_mm is not None:
        share = 0.9 if member.is_hardwood else 0.7
    says = f"{share:.0%} of the {'root' if screw.root_mm else 'shank'} (common practice)"
    return _rounded(share * root, "nearest", says, sets)


def _tapping(worked: Worked, bite: Bite | None, sets: tuple[str, ...]) -> _Bore:
    thread = (bite.thread if bite else None) or worked.screw.thread
    if thread is None:
        return _rounded(0.8 * worked.screw.major_mm, "nearest", "0.8 D, as the thread is not known", sets)
    found = _tapping_hole(thread, worked.joint.tapping_percent, sets)
    if isinstance(found, Missing):
        return _rounded(thread.minor_diameter_mm, "up", "basic minor diameter", sets)
    return found


@lru_cache(maxsize=1024)
def _tapping_hole(thread: Thread, percent: float | None, sets: tuple[str, ...]) -> _Bore | Missing:
    def call() -> _Bore:
        owned = drills_owned(sets)
        among = owned if isinstance(owned, tuple) and owned else None
        hole = tapping_hole(thread, engagement=percent, among=among)
        says = f"{hole.percent:.0f} % of thread ({hole.basis}); {hole.source.says}"
        off = hole.drill_mm - hole.hole_mm
        if abs(off) >= 0.005:
            says = f"{hole.hole_mm:.2f} mm, {'up' if off > 0 else 'down'} to {hole.drill.name}: {says}"
        return _Bore(hole.drill_mm, hole.drill.name, says)

    return look_up("the tapping hole", call)


def _insert_hole(worked: Worked, member: Member, sets: tuple[str, ...]) -> _Bore:
    insert = next((each for each in worked.stack.members if each.kind == "insert"), None)
    body = insert.body_mm if insert else None
    if body is None:
        wide = (insert.outside_mm if insert else None) or 1.4 * worked.screw.major_mm
        return _rounded(0.85 * wide, "nearest", "0.85 of the outside, as the body is not known", sets)
    if member.is_hardwood:
        says = f"body {body:g} + {INSERT_OVER_HARDWOOD_MM} mm in hardwood (common practice)"
        return _rounded(body + INSERT_OVER_HARDWOOD_MM, "nearest", says, sets)
    return _rounded(body, "nearest", "body diameter (common practice)", sets)


def _with_depth(hole: LayerHole, worked: Worked, member: Member, bite: Bite | None) -> LayerHole:
    """The depth to the drill's shoulder, the cone beyond it and what is left behind; None right through."""
    layer = member.layer
    assert layer is not None
    thread = (bite.thread if bite else None) or worked.screw.thread
    if member.takes == "thread" and bite is not None:
        percent = engagement_percent(thread, hole.diameter_mm) if thread else None
        text = thread.designation if thread else bite.thread_text
        hole = replace(hole, thread=text, thread_percent=percent, thread_depth_mm=bite.depth_mm)
    if member.takes == "insert":
        insert = next((each for each in worked.stack.members if each.kind == "insert"), None)
        hole = replace(hole, thread=insert.insert.size if insert and insert.insert else "")
    depth, point = _depth(hole, worked, member, bite, thread)
    stated = layer.hole.depth_mm is not None or layer.drilled_depth_mm is not None
    if depth is None or (stated and depth >= layer.thickness_mm):
        return hole
    return replace(hole, depth_mm=depth, point_mm=point, left_mm=layer.thickness_mm - depth - point)


def _depth(
    hole: LayerHole, worked: Worked, member: Member, bite: Bite | None, thread: Thread | None
) -> tuple[float | None, float]:
    layer = member.layer
    assert layer is not None
    point = drill_point_mm(hole.diameter_mm)
    stated = layer.hole.depth_mm if layer.hole.depth_mm is not None else layer.drilled_depth_mm
    if stated is not None:
        return stated, point
    if member.takes == "pilot":
        inside = worked.tip_mm - member.enter_mm
        if not 0 < inside < member.bears_mm:
            return None, 0.0
        return max(inside - point, 0.1), min(point, inside)
    if member.takes == "thread" and bite is not None and bite.blind and thread is not None:
        return _blind_tapped(bite.depth_mm, thread, layer.thickness_mm, point), point
    if member.takes == "insert":
        insert = next((each for each in worked.stack.members if each.kind == "insert"), None)
        long = insert.bears_mm if insert else 0.0
        if 0 < long + INSERT_BEYOND_MM + point < member.bears_mm:
            return long + INSERT_BEYOND_MM, point
    return None, 0.0


def _blind_tapped(thread_mm: float, thread: Thread, thickness_mm: float, point_mm: float) -> float:
    """Full thread and the lead of a second tap; of a plug tap where there is no room for that."""
    depth = thread_mm + tap_lead_mm(thread, "second")
    if depth + point_mm + BLIND_WALL_MM <= thickness_mm:
        return depth
    return thread_mm + tap_lead_mm(thread, "plug")


def countersink_depth_mm(head_mm: float, hole_mm: float, angle_deg: float) -> float:
    """The depth of a countersink from the hole as drilled to the head's diameter.

    depth = (head - hole) / (2 tan(angle / 2)); nought where the hole is as wide as the head.

    Args:
        head_mm: the head's (or the recess's) diameter [mm].
        hole_mm: the hole's diameter [mm].
        angle_deg: the countersink's included angle [deg], over 0 and under 180.

    Returns:
        The depth [mm].

    Source: geometry.

    Example:
        >>> round(countersink_depth_mm(6.3, 3.6, 90), 3)
        1.35
    """
    return max(head_mm - hole_mm, 0.0) / (2 * tan(radians(angle_deg) / 2))


def _with_countersink(hole: LayerHole, worked: Worked, member: Member) -> LayerHole:
    layer, screw = member.layer, worked.screw
    assert layer is not None
    given = layer.hole
    asked = given.countersink_diameter_mm is not None or given.countersink_angle_deg is not None
    under_head = screw.countersunk and member.number == 0 and member.item == 0
    if not (asked or under_head) or worked.joint.stands_mm is not None:
        return hole
    wide = given.countersink_diameter_mm or screw.head_diameter_mm
    angle = given.countersink_angle_deg or screw.head_angle_deg
    if wide is None or angle is None:
        return hole
    depth = countersink_depth_mm(wide, hole.diameter_mm, angle)
    return replace(
        hole,
        countersink_angle_deg=angle,
        countersink_diameter_mm=wide,
        countersink_depth_mm=depth,
        left_mm=layer.thickness_mm - depth if hole.left_mm is None else hole.left_mm,
    )


def _with_counterbore(hole: LayerHole, worked: Worked, member: Member) -> LayerHole:
    layer = member.layer
    assert layer is not None
    if not member.counterbore_mm and layer.hole.counterbore_depth_mm is None:
        return hole
    wide = layer.hole.counterbore_diameter_mm
    if wide is None:
        inside = _widest_inside(worked, member)
        if inside is None:
            return replace(
                hole, counterbore_depth_mm=member.counterbore_mm or layer.hole.counterbore_depth_mm
            )
        wide = _rounded(inside + COUNTERBORE_ROOM_MM, "up", "", ()).diameter_mm
    depth = member.counterbore_mm or layer.hole.counterbore_depth_mm
    return replace(hole, counterbore_diameter_mm=wide, counterbore_depth_mm=depth)


def _widest_inside(worked: Worked, member: Member) -> float | None:
    """What lies in a counterbore, at its widest [mm]: the head or nut, and washers in it."""
    front = member.number == 0
    wide = [worked.screw.head_diameter_mm] if front else []
    for each in worked.stack.members:
        inside = each.item < member.item if front else each.item > member.item
        if inside and each.kind == "washer":
            wide.append(each.outside_mm)
        elif inside and each.kind == "nut" and each.flats_mm is not None:
            wide.append(each.flats_mm * 2 / 3**0.5)
    known = [each for each in wide if each is not None]
    return max(known) if known else None
