"""The hole that each layer needs: kind, diameter, the drill for it, depth, countersink, counterbore."""

from __future__ import annotations

import math
from dataclasses import replace
from math import radians, tan

from calculators.hardware.holes import drill_point_mm, engagement_percent, tap_lead_mm
from calculators.hardware.threads import Thread
from calculators.joints.boring import Bore, bore_of, drill_named, rounded
from calculators.joints.model import HoleKind, LayerHole
from calculators.joints.worked import Bite, Member, Worked

COUNTERBORE_ROOM_MM = 1.0
"""How much wider a counterbore is made than what lies in it, where none is given (common practice)."""

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
    bore = bore_of(worked, member, bite)
    if given.diameter_mm is not None:
        named = drill_named(given.diameter_mm, worked.joint.drills)
        bore = Bore(given.diameter_mm, named, f"as given; by rule {bore.diameter_mm:.4g} mm ({bore.basis})")
    hole = LayerHole(
        member.part, member.number, kind, bore.diameter_mm, bore.drill, basis=bore.basis,
        slot_length_mm=given.slot_length_mm, slot_along=given.slot_along,
    )  # fmt: skip
    hole = _with_depth(hole, worked, member, bite)
    hole = _with_countersink(hole, worked, member)
    return _with_counterbore(hole, worked, member)


def _with_depth(hole: LayerHole, worked: Worked, member: Member, bite: Bite | None) -> LayerHole:
    """The depth to the drill's shoulder, the cone beyond it and what is left behind; None right through."""
    layer = member.layer
    assert layer is not None
    thread = (bite.thread if bite else None) or worked.screw.thread
    if member.takes == "thread" and bite is not None:
        percent = engagement_percent(thread, hole.diameter_mm) if thread else None
        text = thread.designation if thread else bite.thread_text
        hole = replace(
            hole,
            thread=text,
            thread_percent=percent,
            thread_depth_mm=bite.depth_mm,
            from_behind=bite.from_behind,
        )
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
        # To the half millimetre below, as a depth stop is set: the screw cuts the last of its way itself.
        deep = math.floor(2 * (inside - point) + 1e-9) / 2
        return deep if deep > 0 else max(inside - point, 0.1), min(point, inside)
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
        wide = rounded(inside + COUNTERBORE_ROOM_MM, "up", "", ()).diameter_mm
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
