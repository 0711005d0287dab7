"""Laying the stack out along the axis: where each member lies, and which threads the screw runs in."""

from __future__ import annotations

from dataclasses import replace
from math import radians, tan
from typing import cast

from calculators.hardware.holes import tap_lead_mm
from calculators.joints.model import JointInput, Layer, MeasuredItem, Seat, StackItem, Takes
from calculators.joints.roles import metal_of, seat_of, takes_of_layers
from calculators.joints.sizes import insert_size, material_of, nut_size, thread_of, washer_size
from calculators.joints.worked import Bite, Member, Missing, Screw, Stack
from calculators.quantities.length import Length


def lay_stack(joint: JointInput, screw: Screw) -> tuple[Stack, tuple[Missing, ...]]:
    """Lay the stack out along the axis.

    Nought is the plane in which the head bears, or of a countersunk head the surface that it is flush
    with. A counterbore lets the head into the first layer (or a nut into the last). Where the screw
    stands (`stands_mm`), the first layer begins that far along it.

    Args:
        joint: the joint.
        screw: the fastener's sizes.

    Returns:
        The stack, and what could not be found of its hardware.

    Source: geometry.
    """
    missing: list[Missing] = []
    members = _sized_members(joint, missing)
    seat = cast(Seat, seat_of(joint))
    members = _with_counterbores(members, screw, seat)
    members = _placed(members, joint.stands_mm)
    bites = _bites(members, screw, missing)
    recessed = _recessed(joint, screw, members)
    below = recessed - screw.raised_mm if screw.countersunk else _head_below(joint, screw, members)
    starts = 0.0 if joint.stands_mm is not None else recessed
    return Stack(tuple(members), tuple(bites), seat, below, starts), tuple(missing)


def _sized_members(joint: JointInput, missing: list[Missing]) -> list[Member]:
    """Each member with its sizes, thickness held in `leave_mm` until it is placed."""
    takes = iter(takes_of_layers(joint))
    number = 0
    members = []
    for place, item in enumerate(joint.stack):
        if item.layer is not None:
            members.append(_layer(place, number, item.layer, next(takes), missing))
            number += 1
        elif item.washer is not None:
            members.append(_washer(place, item, missing))
        elif item.nut is not None:
            members.append(_nut(place, item, missing))
        elif item.insert is not None:
            members.append(_insert(place, item, missing))
    return members


def _layer(place: int, number: int, layer: Layer, takes: Takes, missing: list[Missing]) -> Member:
    material = material_of(layer.material)
    if isinstance(material, Missing):
        missing.append(replace(material, item=place))
    known = None if isinstance(material, Missing) else material
    return Member(place, "layer", 0.0, layer.thickness_mm, layer, number, takes, known)


_UNMEASURED = MeasuredItem()


def _mm(*sizes: float | Length | None) -> float | None:
    """The first size that is known [mm]."""
    for size in sizes:
        if size is not None:
            return size.mm if isinstance(size, Length) else size
    return None


def _washer(place: int, item: StackItem, missing: list[Missing]) -> Member:
    washer, measured = item.washer, item.measured or _UNMEASURED
    assert washer is not None
    size = washer_size(washer)
    found = None if isinstance(size, Missing) else size
    thickness = _mm(measured.thickness_mm, washer.thickness, found.thickness_mm if found else None)
    outside = _mm(measured.outside_mm, washer.outside, found.outside_mm if found else None)
    inside = _mm(measured.inside_mm, found.inside_mm if found else None)
    if isinstance(size, Missing) and None in (thickness, outside):
        missing.append(replace(size, item=place))
    metal = metal_of(washer.material, washer.finish)
    return Member(
        place,
        "washer",
        0.0,
        thickness or 0.0,
        washer=washer,
        metal=metal,
        inside_mm=inside,
        outside_mm=outside,
    )


def _nut(place: int, item: StackItem, missing: list[Missing]) -> Member:
    nut, measured = item.nut, item.measured or _UNMEASURED
    assert nut is not None
    size = nut_size(nut)
    found = None if isinstance(size, Missing) else size
    height = _mm(measured.thickness_mm, found.height_mm if found else None)
    if isinstance(size, Missing) and height is None:
        missing.append(replace(size, item=place))
    flats = _mm(measured.outside_mm, found.across_flats_mm if found else None)
    return Member(
        place, "nut", 0.0, height or 0.0, nut=nut, metal=metal_of(nut.material, nut.finish), flats_mm=flats
    )


def _insert(place: int, item: StackItem, missing: list[Missing]) -> Member:
    insert, measured = item.insert, item.measured or _UNMEASURED
    assert insert is not None
    size = insert_size(insert)
    found = None if isinstance(size, Missing) else size
    length = _mm(measured.thickness_mm, insert.length, found.length_mm if found else None)
    outside = _mm(measured.outside_mm, insert.outside, found.outside_mm if found else None)
    body = _mm(measured.body_mm, insert.body, found.body_mm if found else None)
    if isinstance(size, Missing) and None in (length, outside, body):
        missing.append(replace(size, item=place))
    metal = metal_of(insert.material)
    return Member(
        place, "insert", 0.0, length or 0.0, insert=insert, metal=metal, outside_mm=outside, body_mm=body
    )


def _with_counterbores(members: list[Member], screw: Screw, seat: str) -> list[Member]:
    """Note how deep the head is let into the first layer, and a nut into the last."""
    layers = [member for member in members if member.kind == "layer"]
    first, last = layers[0], layers[-1]
    washers = sum(m.leave_mm for m in members if m.kind == "washer" and m.item < first.item)
    nut_behind = any(m.kind == "nut" and m.item > last.item for m in members)
    deep = first.layer.hole.counterbore_depth_mm if first.layer else None
    sunk = not screw.countersunk and not screw.headless
    if deep is None and sunk and seat in ("counterbore", "flush"):
        deep = (screw.head_height_mm or 0.0) + washers
    depths = {}
    if deep and sunk:
        depths[first.item] = deep
    if last is not first and nut_behind and last.layer and last.layer.hole.counterbore_depth_mm:
        depths[last.item] = last.layer.hole.counterbore_depth_mm
    return [replace(m, counterbore_mm=depths[m.item]) if m.item in depths else m for m in members]


def _placed(members: list[Member], stands_mm: float | None) -> list[Member]:
    """Give each member its place on the axis. Inserts lie in their layer and take no room of their own."""
    first = next(place for place, member in enumerate(members) if member.kind == "layer")
    last = max(place for place, member in enumerate(members) if member.kind == "layer")
    ahead = sum(m.leave_mm for m in members[:first] if m.kind != "insert")
    at = (stands_mm - ahead) if stands_mm is not None else 0.0
    placed: list[Member] = []
    for place, member in enumerate(members):
        thick = member.leave_mm
        if member.kind == "insert":
            placed.append(member)
            continue
        enter = at
        if member.layer is not None:
            enter += member.layer.gap_mm
            if place == first:
                # a counterbore lets everything before it into the layer
                surface = enter if stands_mm is not None else enter - member.counterbore_mm
                bearing = surface + member.counterbore_mm
                at = max(bearing, surface + thick)
                placed.append(replace(member, enter_mm=bearing, leave_mm=at))
                continue
            if place == last and member.counterbore_mm:
                at = max(enter, enter + thick - member.counterbore_mm)
                placed.append(replace(member, enter_mm=enter, leave_mm=at))
                continue
        placed.append(replace(member, enter_mm=enter, leave_mm=enter + thick))
        at = enter + thick
    return _inserts_placed(placed)


def _inserts_placed(members: list[Member]) -> list[Member]:
    hosts = [member for member in members if member.takes == "insert"]
    layers = [member for member in members if member.kind == "layer"]
    placed = []
    for member in members:
        if member.kind == "insert":
            after = [host for host in hosts if host.item > member.item]
            host = (after or hosts or layers[-1:])[0]
            member = replace(member, enter_mm=host.enter_mm, leave_mm=host.enter_mm + member.leave_mm)
        placed.append(member)
    return placed


def _bites(members: list[Member], screw: Screw, missing: list[Missing]) -> list[Bite]:
    """The threads that the screw runs in, from the head on."""
    bites = []
    last = max(member.number for member in members)
    inserts = [member for member in members if member.kind == "insert"]
    for member in members:
        if member.layer is not None and member.takes == "thread":
            bites.append(_tapped(member, screw, last, missing))
        elif member.takes == "pilot":
            bites.append(Bite(member, "wood", member.enter_mm, member.leave_mm, False))
        elif member.kind == "insert" and member.insert is not None:
            bites.append(_female(member, "insert", member.insert.size, missing))
        elif member.kind == "nut" and member.nut is not None:
            bites.append(_female(member, "nut", member.nut.size, missing))
        elif member.takes == "insert" and not inserts:
            missing.append(Missing("the insert", f"No insert is named for {member.part}.", member.item))
    return bites


def _female(member: Member, kind: str, text: str, missing: list[Missing]) -> Bite:
    thread = thread_of(text)
    if isinstance(thread, Missing):
        missing.append(replace(thread, what=f"the thread of the {kind}", item=member.item))
    return Bite(
        member,
        "nut" if kind == "nut" else "insert",
        member.enter_mm,
        member.leave_mm,
        False,
        thread=None if isinstance(thread, Missing) else thread,
        thread_text=text,
    )


def _tapped(member: Member, screw: Screw, last: int, missing: list[Missing]) -> Bite:
    """The thread tapped in a layer; of a stud's first part it is cut from the far side, where it enters."""
    layer = member.layer
    assert layer is not None
    thread = thread_of(layer.thread) if layer.thread else screw.thread
    if isinstance(thread, Missing):
        missing.append(replace(thread, what=f"the thread of {member.part}", item=member.item))
        thread = None
    room = member.bears_mm
    cut = thread or screw.thread
    lead = tap_lead_mm(cut, "second") if cut else 0.0
    depth = layer.thread_depth_mm
    if depth is None and layer.drilled_depth_mm is not None and layer.drilled_depth_mm < room:
        depth = max(layer.drilled_depth_mm - lead, 0.0)
    blind = depth is not None and (
        depth < room or (layer.drilled_depth_mm is not None and layer.drilled_depth_mm < room)
    )
    depth = min(room if depth is None else depth, room)
    behind = blind and screw.headless and member.number == 0 and last > 0
    enter = member.leave_mm - depth if behind else member.enter_mm
    text = layer.thread or (screw.thread.designation if screw.thread else "")
    return Bite(member, "tapped", enter, enter + depth, blind, 0.0, thread, text, behind)


def _head_below(joint: JointInput, screw: Screw, members: list[Member]) -> float:
    """How far the head's top lies below the first surface; negative where it stands proud [mm]."""
    first = next(member for member in members if member.kind == "layer")
    if screw.headless:
        return -(joint.stands_mm or 0.0)
    height = screw.head_height_mm or 0.0
    if joint.stands_mm is not None:
        return -height - joint.stands_mm
    washers = sum(m.bears_mm for m in members if m.kind == "washer" and m.item < first.item)
    return first.counterbore_mm - washers - height


def _recessed(joint: JointInput, screw: Screw, members: list[Member]) -> float:
    """How far a countersunk head's rim lies below the surface: more where its recess is wider [mm]."""
    if not screw.countersunk:
        return 0.0
    if joint.stands_mm is not None:
        return -joint.stands_mm
    first = next(member for member in members if member.kind == "layer")
    recess = first.layer.hole.countersink_diameter_mm if first.layer else None
    if recess is None or screw.head_diameter_mm is None or first.item != 0:
        return 0.0
    angle = screw.head_angle_deg or 90.0
    return (recess - screw.head_diameter_mm) / (2 * tan(radians(angle) / 2))
