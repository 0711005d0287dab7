"""Writing what a line can say of a joint, so that it reads back."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from calculators.planning.lines.joints import joint_from
from calculators.planning.lines.known import Known
from calculators.planning.lines.line import in_quotes
from calculators.planning.lines.measures import written
from calculators.planning.lines.writing_parts import first_that_says, note_text
from calculators.planning.model import (
    Build,
    Joint,
    StackMember,
    Unit,
)
from calculators.planning.tree import split_copy
from calculators.quantities.length import Length
from calculators.quantities.numbers import decimal_text


def write_joint_line(joint: Joint, build: Build) -> str:
    """Write a joint on one line; its places (`write_places`) and holes decided by hand are not said in it.

    Args:
        joint: the joint.
        build: the build it is of.

    Returns:
        The line; `read_joint_line` gives those fields again.

    Source: this project.

    Example:
        >>> from calculators.planning.model import Component
        >>> two = (Component("P01", "Side"), Component("P02", "Hinge"))
        >>> stack = (StackMember("P02", takes="clearance"), StackMember("P01", takes="pilot"))
        >>> joint = Joint("F01", "Hinge to side", "No. 4 x 1/2 csk brass", "P02", stack=stack, count=6)
        >>> write_joint_line(joint, Build("B1", "Box", components=two))
        'F01 Hinge to side: No. 4 x 1/2 csk brass, P02 into P01, 6 off'
    """
    marks = {member.part for member in joint.stack} | {split_copy(joint.home)[0], joint.home}
    parts = tuple(replace(one, parent="") for one in build.components if one.mark in marks)
    known = Known(replace(build, components=parts, joints=(), steps=()))

    def says(text: str) -> bool:
        return _same_joint(joint_from(text, known), joint)

    return first_that_says([_joint_text(joint, build, each) for each in (False, True)], says)


def _joint_text(joint: Joint, build: Build, safe: bool) -> str:
    unit = None if safe else build.unit
    # A title before one part alone could be read as the names of more.
    several = sum(bool(member.part) for member in joint.stack) > 1
    title = joint.title if several and not safe else in_quotes(joint.title)
    chain = _chain_text(joint.stack, unit, safe)
    clauses = [joint.fastener, chain, *_joint_clauses(joint, unit, safe)]
    return f"{joint.mark} {title}: {', '.join(clause for clause in clauses if clause)}{note_text(joint.note)}"


def _chain_text(stack: tuple[StackMember, ...], unit: Unit | None, safe: bool) -> str:
    """The members in their order; before the last part, where it holds the screw, stands `into`."""
    last = max((i for i, member in enumerate(stack) if member.part), default=-1)
    held = last > 0 and stack[last].takes in ("thread", "pilot", "insert")
    text = ""
    for i, member in enumerate(stack):
        joiner = "" if not text else " into " if i == last and held else ", "
        text += joiner + _member_text(
            member, unit, safe or (i != last and member.takes not in ("clearance", ""))
        )
    return text


def _member_text(member: StackMember, unit: Unit | None, say_takes: bool) -> str:
    said: list[str] = []

    def say(length: Length | None, before: str, behind: str = "") -> None:
        if length is not None:
            said.append(f"{before}{written(length, unit)}{behind}")

    if member.item:
        say(member.thickness, "", " thick")
        say(member.outside, "outside ")
        say(member.body, "body ")
        return member.item + (f" ({', '.join(said)})" if said else "")
    thick = f" {written(member.thickness, unit)}" if member.thickness is not None else ""
    if member.thread:
        said.append(f"tapped {member.thread}")
    say(member.thread_depth, "thread ")
    if say_takes and member.takes:
        said.append("threaded" if member.takes == "thread" else member.takes)
    say(member.drilled_depth, "drilled ")
    say(member.edge, "edge ")
    say(member.end, "end ")
    if member.grain:
        said.append(f"{member.grain} grain")
    if member.fit != "medium":
        said.append(f"{member.fit} fit")
    return member.part + thick + (f" ({', '.join(said)})" if said else "")


_SEATS = {"flush": "flush", "proud": "proud", "surface": "on the surface"}


def _joint_clauses(joint: Joint, unit: Unit | None, safe: bool) -> list[str]:
    def text(before: str, words: str) -> str:
        return f"{before} {in_quotes(words) if safe else words}" if words else ""

    def size(before: str, length: Length | None) -> str:
        return f"{before} {written(length, unit)}" if length is not None else ""

    first = next((member.part for member in joint.stack if member.part), "")
    home = (
        f"on {joint.home} {joint.face}"
        if joint.home and joint.face
        else f"home {joint.home}"
        if joint.home not in ("", first)
        else ""
    )
    return [
        home,
        _counterbore(joint, unit) if joint.seat == "counterbore" else _SEATS.get(joint.seat, ""),
        _nut_sunk(joint, unit),
        size("head dia", joint.head_diameter),
        f"head {decimal_text(Fraction(joint.head_angle_deg))} deg"
        if joint.head_angle_deg is not None
        else "",
        size("stands", joint.stands),
        f"torque {decimal_text(Fraction(joint.torque_nm))} N m" if joint.torque_nm is not None else "",
        text("locked with", joint.lock),
        text("reached from", joint.reached_from),
        text("tool", joint.tool),
        text("supplier", joint.supplier),
        "steel first" if joint.steel_first else "",
        "wet" if joint.wet else "",
        "loaded sideways" if joint.loaded_sideways else "",
        "" if joint.clamps else "does not clamp",
        f"{joint.count} off" if joint.count is not None and not joint.places else "",
    ]


def _counterbore(joint: Joint, unit: Unit | None) -> str:
    first = next((member for member in joint.stack if member.part), None)
    return f"counterbored {_bore(first, unit)}".rstrip()


def _nut_sunk(joint: Joint, unit: Unit | None) -> str:
    """The counterbore in the last part, where a nut is behind it."""
    parts = [index for index, member in enumerate(joint.stack) if member.part]
    if len(parts) < 2 or not any("nut" in member.item for member in joint.stack[parts[-1] :]):
        return ""
    bore = _bore(joint.stack[parts[-1]], unit)
    return f"far side counterbored {bore}" if bore else ""


def _bore(member: StackMember | None, unit: Unit | None) -> str:
    """The counterbore that a part has at every place: `10 x 5`, or `5` where its width follows."""
    for hole in member.holes if member is not None else ():
        if hole.counterbore_depth is not None and not hole.places:
            wide = (
                f"{written(hole.counterbore_diameter, unit)} x "
                if hole.counterbore_diameter is not None
                else ""
            )
            return f"{wide}{written(hole.counterbore_depth, unit)}"
    return ""


def _same_joint(found: Joint, wanted: Joint) -> bool:
    names = ["mark", "title", "fastener", "home", "face", "seat", "torque_nm", "lock", "reached_from", "tool"]
    names += ["supplier", "steel_first", "wet", "loaded_sideways", "clamps", "head_angle_deg"]
    if any(getattr(found, name) != getattr(wanted, name) for name in names):
        return False
    if not wanted.places and found.count != wanted.count:
        return False
    if note_text(wanted.note) and found.note != wanted.note:
        return False
    return [_said_of(one) for one in found.stack] == [_said_of(one) for one in wanted.stack]


def _said_of(member: StackMember) -> tuple[object, ...]:
    lengths = ("thickness", "outside", "body", "thread_depth", "drilled_depth", "edge", "end")
    sizes = [getattr(member, name) for name in lengths]
    return (member.part, member.item, member.takes, member.fit, member.thread, member.grain,
            *(length.ticks if length is not None else None for length in sizes))  # fmt: skip
