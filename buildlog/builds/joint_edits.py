"""What the pages of a joint change in it: its stack from one line, its places, the order of its members.

All are functions from plain data to plain data, to be run inside `change_build`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import fields, replace
from typing import Literal

from buildlog.builds.forms import length_as_typed
from calculators.hardware.designation import read_hardware
from calculators.planning.edits.layers import members_of, named
from calculators.planning.lines import read_joint_line, read_place_lines, write_joint_line
from calculators.planning.lines.known import Known
from calculators.planning.model import Build, Component, Face, Joint, Place, StackMember, Unit
from calculators.planning.placing import place_build
from calculators.planning.resolving import resolve_joint
from calculators.quantities import Length, read_length
from calculators.quantities.errors import InputError

MOST_MEMBERS = 50
_PARTED = re.compile(r"(?<![0-9]),|,(?![0-9])|[;\r\n]+|\bthen\b")
_HARDWARE = re.compile(r"\b(?:nut|washer|insert)s?\b", re.IGNORECASE)
_SAYS = "Write the stack from the head, such as: M5 washer, P02 2, P01 18, M5 nut."


def write_stack(stack: Iterable[StackMember], unit: Unit) -> str:
    """A stack on one line, from the head side: `P02 2, P01, M5 nut`."""
    return ", ".join(_written(member, unit) for member in stack)


def _written(member: StackMember, unit: Unit) -> str:
    if member.item or member.thickness is None:
        return member.item or member.part
    return f"{member.part} {length_as_typed(member.thickness, unit)}"


def read_stack(text: str, build: Build, joint: Joint) -> tuple[StackMember, ...]:
    """Read a stack from one line; what was decided about a member stays with it.

    Parts are named by mark or by name, with their thickness where they have no pose. Raises InputError.
    """
    pieces = [piece.strip(" .") for piece in _PARTED.split(text[:5_000])]
    pieces = [piece for piece in pieces if piece]
    if len(pieces) > MOST_MEMBERS:
        raise InputError.of(
            f"A stack has at most {MOST_MEMBERS} members, not {len(pieces)}. {_SAYS}", field="stack"
        )
    known, left = Known(build), list(joint.stack)
    return tuple(_kept(_member(piece, known, build.unit), left) for piece in pieces)


def _member(piece: str, known: Known, unit: Unit) -> StackMember:
    """One member as it is written."""
    part = known.exact(piece)
    if part is not None:
        return StackMember(part=part.mark)
    if _HARDWARE.search(piece):
        read_hardware(piece, unit=unit, field="stack")
        return StackMember(item=piece)
    words = piece.split()
    for at in range(1, len(words)):
        thickness = _length(" ".join(words[at:]), unit)
        if thickness is not None:
            return StackMember(part=_found(" ".join(words[:at]), known).mark, thickness=thickness)
    return StackMember(part=_found(piece, known).mark)


def _found(name: str, known: Known) -> Component:
    try:
        return known.find(name)
    except InputError as error:
        raise InputError.of(
            str(error), field="stack", choices=tuple(c for fault in error.faults for c in fault.choices)
        ) from None


def _length(text: str, unit: Unit) -> Length | None:
    try:
        return read_length(text, unit=unit)
    except InputError:
        return None


def _kept(member: StackMember, left: list[StackMember]) -> StackMember:
    """The member with what was decided about it before; each is used once."""
    for index, old in enumerate(left):
        if (old.part, old.item) == (member.part, member.item):
            left.pop(index)
            return replace(old, thickness=member.thickness) if member.part else old
    return member


def move_member(joint: Joint, index: int, by: int) -> Joint:
    """The joint with one member of its stack nearer to the head (-1) or farther from it (1)."""
    stack = list(joint.stack)
    to = index + by
    if not (0 <= index < len(stack) and 0 <= to < len(stack)):
        raise InputError.of(f"{joint.mark} has no place there in its stack; look at it again.")
    stack[index], stack[to] = stack[to], stack[index]
    return replace(joint, stack=tuple(stack))


def put_member(joint: Joint, index: int, member: StackMember | None) -> Joint:
    """The joint with one member of its stack changed, taken out (None) or added at the end."""
    stack = list(joint.stack)
    if not 0 <= index <= len(stack) or (member is None and index == len(stack)):
        raise InputError.of(f"{joint.mark} has no such member in its stack any more; look at it again.")
    stack[index : index + 1] = [] if member is None else [member]
    return replace(joint, stack=tuple(stack))


def add_member(build: Build, joint: Joint, member: StackMember) -> Joint:
    """The joint with one more member: at the end, or where the axis meets the part that it is.

    A part that was found on the axis is named in the stack with all the others that are found there, for a
    stack that names some parts is taken to name them all. Raises InputError where that cannot be.
    """
    groups = resolve_joint(build, joint, place_build(build)).joints
    for group in groups:
        for item, held in enumerate(members_of(joint, group.inputs)):
            layer = group.inputs.stack[item].layer
            if held is None and layer is not None and layer.part == member.part:
                found = named(joint, group, groups, item)
                if found is None:
                    says = (
                        f"The places of {joint.mark} go through different parts, so its stack cannot name "
                        f"{member.part} alone: make a joint of its own of the places that are to differ."
                    )
                    raise InputError.of(says, field="part")
                return put_member(*found, member)
    return put_member(joint, len(joint.stack), member)


def read_places(text: str, build: Build, joint: Joint, home: str, face: Face | Literal[""]) -> Joint:
    """The joint at the places that lines of text say, on a face of its home. Raises InputError."""
    if not text.strip():
        return put_places(joint, home, face, ())
    if not home:
        raise InputError.of("Say on which part the places are, by its mark.", field="home")
    if Known(build).copy(home) is None:
        raise InputError(*(replace(fault, field="home") for fault in Known(build).unknown(home).faults))
    if not face:
        raise InputError.of("Say on which face of it the places are.", field="face")
    return put_places(joint, home, face, read_place_lines(text, build, home, face))


def put_places(joint: Joint, home: str, face: Face | Literal[""], places: tuple[Place, ...]) -> Joint:
    """The joint with its places; what was decided for a place that is gone goes with it."""
    places = keep_ids(joint.places, places)
    ids = {place.id for place in places}
    stack = tuple(_for_places(member, ids) for member in joint.stack)
    fixed = joint.fixed_place if joint.fixed_place in ids else ""
    return replace(joint, home=home, face=face, places=places, stack=stack, fixed_place=fixed)


def keep_ids(old: tuple[Place, ...], new: tuple[Place, ...]) -> tuple[Place, ...]:
    """New places with the ids of the old ones: of those at the same spot, then of those in the same turn."""
    ids: dict[int, str] = {}
    spots: dict[object, list[str]] = {}
    for place in old:
        spots.setdefault(_spot(place), []).append(place.id)
    for index, place in enumerate(new):
        if spots.get(_spot(place)):
            ids[index] = spots[_spot(place)].pop(0)
    taken = set(ids.values())
    for index in range(len(new)):
        if index not in ids and index < len(old) and old[index].id not in taken:
            ids[index] = old[index].id
            taken.add(old[index].id)
    free = (str(number) for number in range(1, len(old) + len(new) + 2) if str(number) not in taken)
    return tuple(replace(place, id=ids.get(index) or next(free)) for index, place in enumerate(new))


def _spot(place: Place) -> object:
    return place.u.ticks, place.v.ticks if place.v else None, place.angle_deg


def _for_places(member: StackMember, ids: set[str]) -> StackMember:
    """A member without what was decided for places that are gone."""
    holes = []
    for hole in member.holes:
        kept = tuple(place for place in hole.places if place in ids)
        if kept or not hole.places:
            holes.append(hole if kept == hole.places else replace(hole, places=kept))
    return replace(member, holes=tuple(holes))


_WORDS = {
    "head_diameter": "head diameter",
    "head_height": "head height",
    "head_angle_deg": "head angle",
    "torque_nm": "torque",
    "reached_from": "where it is reached from",
    "count_reason": "why that count",
    "fixed_place": "the place held tight",
    "steel_first": "steel screw first",
    "loaded_sideways": "load across the axis",
    "pulled": "load along the axis",
    "clamps": "whether it clamps",
}


def in_words(old: Joint, new: Joint) -> str:
    """What a change of a joint comes to, in one sentence that names it: for the log and the undo strip."""
    changed = [each.name for each in fields(new) if getattr(old, each.name) != getattr(new, each.name)]
    if changed == ["fastener"]:
        return f"{new.mark}: the fastener is now {new.fastener}"
    if changed == ["mark"]:
        return f"{new.mark} is the new mark of {old.mark}"
    if changed == ["places"] and len(old.places) != len(new.places):
        return f"{new.mark}: {len(new.places)} places, not {len(old.places)}"
    words = [_WORDS.get(name, name) for name in changed if name != "mark"]
    now = getattr(new, changed[-1]) if len(words) == 1 else None
    if isinstance(now, str) and len(now) < 100:
        return f"{new.mark}: {words[0]} is now {now}" if now else f"{new.mark}: {words[0]} was emptied"
    told = ", ".join(words[:-1]) + (" and " if words[:-1] else "") + "".join(words[-1:])
    return f"{new.mark}: {told or 'nothing'} changed"


def told_of(mark: str) -> Callable[[Build, Build], str]:
    """Says in the log what a change of a build did to one joint, whose mark it may have changed."""

    def says(before: Build, after: Build) -> str:
        old = next(each for each in before.joints if each.mark == mark)
        new = after.joints[before.joints.index(old)] if len(after.joints) == len(before.joints) else old
        return in_words(old, new)

    return says


def change_by_line(build: Build, joint: Joint, line: str) -> Joint:
    """The joint as its line now says it; what stands in the line as it stood before is left as it is.

    Raises InputError where the line cannot be read.
    """
    new = read_joint_line(line, build, joint)
    try:
        same = read_joint_line(write_joint_line(joint, build), build, joint)
    except InputError:
        return new
    changed = {each.name: getattr(new, each.name) for each in fields(new)}
    kept = {name: getattr(joint, name) for name, value in changed.items() if value == getattr(same, name)}
    return replace(new, **kept)
