"""Writing what a line can say of a part, joint, hole, pocket, pose or step, so that it reads back."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

from calculators.planning.lines.joints import joint_from
from calculators.planning.lines.known import Known
from calculators.planning.lines.line import in_quotes
from calculators.planning.lines.measures import Measure, chain_lengths, written
from calculators.planning.lines.parts import part_from
from calculators.planning.lines.spots import write_spot
from calculators.planning.lines.steps import step_from
from calculators.planning.model import (
    AssemblyStep,
    Build,
    Component,
    Hole,
    Joint,
    Pocket,
    Pose,
    Size,
    StackMember,
    Unit,
)
from calculators.planning.tree import split_copy
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length
from calculators.quantities.numbers import decimal_text

_STATES = {"planned": "", "bought": "on order"}


def write_part_line(component: Component, build: Build) -> str:
    """Write a part on one line; poses, holes, pockets, sizes as made and rough sizes are not said in it.

    Args:
        component: the part.
        build: the build it is of.

    Returns:
        The line; `read_part_line` gives those fields again. A note of several lines is left out.

    Source: this project.

    Example:
        >>> mm = lambda size: Length(size * 10_000_000, str(size))
        >>> size = Size("block", mm(300), mm(120), mm(12))
        >>> side = Component("P01", "Side", quantity=4, material="oak", stock="board", size=size)
        >>> write_part_line(side, Build("B1", "Box"))
        'P01 Side, 300 x 120 x 12, oak board, 4 off'
    """
    parent = next((one for one in build.components if one.mark == component.parent), None)
    known = Known(
        replace(
            build, components=(replace(parent, parent=""),) if parent is not None else (), joints=(), steps=()
        )
    )

    def says(text: str) -> bool:
        return _same_part(part_from(text, known), component)

    safe = (False, True)
    return _first_that_says([_part_text(component, build.unit, each) for each in safe], says)


def _first_that_says(texts: Iterable[str], says: Callable[[str], bool]) -> str:
    """The first of some writings that reads back, else the last."""
    text = ""
    for text in texts:
        try:
            if says(text):
                return text
        except InputError:
            continue
    return text


def _part_text(one: Component, unit: Unit, safe: bool) -> str:
    name = in_quotes(one.name) if safe else one.name
    clauses = [name, *_size_clauses(one.size, None if safe else unit)]
    stock = "" if one.stock == "bought" else one.stock
    if safe:
        clauses.append(f"material {in_quotes(one.material)}" if one.material else "")
        clauses.append(f"stock {stock}" if stock else "")
    else:
        clauses.append(f"{one.material} {stock}".strip())
    clauses += [
        f"{one.quantity} off" if one.quantity != 1 else "",
        f"corner radius {written(one.corner_radius, None if safe else unit)}"
        if one.corner_radius is not None
        else "",
        {"quarter": "quarter-sawn", "flat": "flat-sawn"}.get(one.grain_cut, ""),
        f"in {one.parent}" if one.parent else "",
        f"rev {in_quotes(one.revision) if safe else one.revision}" if one.revision else "",
        "bought" if one.stock == "bought" else "",
        ("state bought" if one.stock != "bought" else "on order")
        if one.state == "bought"
        else _STATES.get(one.state, one.state),
        "re-used" if one.reused else "",
        "stock not stated" if safe and not one.stock else "",
    ]
    line = ", ".join(clause for clause in clauses if clause)
    return f"{one.mark}{':' if safe else ''} {line}{_note(one.note)}"


def _note(note: str) -> str:
    """A note behind its sign; one that would not read back the same is left out."""
    plain = " ".join(note.split()) == note and note.isprintable()
    return f" # {note}" if note and plain else ""


def _size_clauses(size: Size, unit: Unit | None) -> list[str]:
    def one(length: Length | None, label: str) -> str:
        return f"{written(length, unit)}{label}" if length is not None else ""

    if not size.shape:
        return []
    if size.shape == "block":
        whole = all((size.length, size.width, size.thickness))
        labels = ("", "", "") if whole else (" long", " wide", " thick")
        parts = [
            one(length, label)
            for length, label in zip((size.length, size.width, size.thickness), labels, strict=True)
        ]
        return [" x ".join(part for part in parts if part) or "block"]
    bore = f"bore {written(size.bore, unit)}" if size.bore is not None else ""
    if size.diameter is None:
        return ["round", *(part for part in (bore, one(size.length, " long")) if part)]
    first = " ".join(part for part in (one(size.diameter, " dia"), bore) if part)
    return [
        " x ".join(
            part
            for part in (first, one(size.length, "" if not size.bore or unit is not None else " long"))
            if part
        )
    ]


def _same_part(found: Component, wanted: Component) -> bool:
    names = (
        "mark",
        "name",
        "parent",
        "quantity",
        "material",
        "stock",
        "grain_cut",
        "state",
        "revision",
        "reused",
    )
    same = all(getattr(found, name) == getattr(wanted, name) for name in names)
    note = not _note(wanted.note) or found.note == wanted.note
    return (
        same
        and note
        and same_size(found.size, wanted.size)
        and same_length(found.corner_radius, wanted.corner_radius)
    )


def same_length(first: Length | None, second: Length | None) -> bool:
    """Say whether two lengths are the same, however they are written.

    Args:
        first: one.
        second: the other.

    Returns:
        True when they are, or both are None.

    Source: this project.
    """
    return (first.ticks if first is not None else None) == (second.ticks if second is not None else None)


def same_size(first: Size, second: Size) -> bool:
    """Say whether two sizes are the same as far as a line can say them; those of no shape cannot be said.

    Args:
        first: one.
        second: the other.

    Returns:
        True when they are.

    Source: this project.
    """
    if not first.shape and not second.shape:
        return True
    names = ("length", "width", "thickness") if first.shape == "block" else ("length", "diameter", "bore")
    return first.shape == second.shape and all(
        same_length(getattr(first, name), getattr(second, name)) for name in names
    )


def write_joint_line(joint: Joint, build: Build) -> str:
    """Write a joint on one line; its places (`write_places`) and holes decided by hand are not said in it.

    Args:
        joint: the joint.
        build: the build it is of.

    Returns:
        The line; `read_joint_line` gives those fields again.

    Source: this project.

    Example:
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

    return _first_that_says([_joint_text(joint, build, each) for each in (False, True)], says)


def _joint_text(joint: Joint, build: Build, safe: bool) -> str:
    unit = None if safe else build.unit
    # A title before one part alone could be read as the names of more.
    several = sum(bool(member.part) for member in joint.stack) > 1
    title = joint.title if several and not safe else in_quotes(joint.title)
    chain = _chain_text(joint.stack, unit, safe)
    clauses = [joint.fastener, chain, *_joint_clauses(joint, unit, safe)]
    return f"{joint.mark} {title}: {', '.join(clause for clause in clauses if clause)}{_note(joint.note)}"


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
    for hole in first.holes if first is not None else ():
        if hole.counterbore_depth is not None and not hole.places:
            wide = (
                f"{written(hole.counterbore_diameter, unit)} x "
                if hole.counterbore_diameter is not None
                else ""
            )
            return f"counterbored {wide}{written(hole.counterbore_depth, unit)}"
    return "counterbored"


def _same_joint(found: Joint, wanted: Joint) -> bool:
    names = ["mark", "title", "fastener", "home", "face", "seat", "torque_nm", "lock", "reached_from", "tool"]
    names += ["supplier", "steel_first", "wet", "loaded_sideways", "clamps", "head_angle_deg"]
    if any(getattr(found, name) != getattr(wanted, name) for name in names):
        return False
    if not wanted.places and found.count != wanted.count:
        return False
    if _note(wanted.note) and found.note != wanted.note:
        return False
    return [_said_of(one) for one in found.stack] == [_said_of(one) for one in wanted.stack]


def _said_of(member: StackMember) -> tuple[object, ...]:
    lengths = ("thickness", "outside", "body", "thread_depth", "drilled_depth", "edge", "end")
    sizes = [getattr(member, name) for name in lengths]
    return (member.part, member.item, member.takes, member.fit, member.thread, member.grain,
            *(length.ticks if length is not None else None for length in sizes))  # fmt: skip


def write_hole_line(hole: Hole, unit: Unit | None = None) -> str:
    """Write a hole on one line, without its id.

    Args:
        hole: the hole.
        unit: [mm or in] the unit of the build it is read in; without it every number carries its unit.

    Returns:
        The line; `read_hole_line` gives those fields again.

    Source: this project.

    Example:
        >>> mm = lambda size: Length(size * 10_000_000, str(size))
        >>> hole = Hole("h1", "top", mm(20), mm(30), diameter=mm(5))
        >>> write_hole_line(hole, "mm")
        'top: dia 5 at 20,30'
    """

    def size(length: Length) -> str:
        return written(length, unit)

    words: list[str] = []
    if hole.kind == "slot":
        if hole.diameter is not None and hole.slot_length is not None:
            words.append(
                f"slot {size(hole.diameter)} x {size(hole.slot_length)} along {hole.slot_along or 'u'}"
            )
    elif hole.kind == "tapping" and hole.thread:
        deep = f" {size(hole.thread_depth)} deep" if hole.thread_depth is not None else ""
        words.append(f"{hole.thread} tapped{deep}")
        if hole.depth is not None:
            words.append(f"drilled {size(hole.depth)}")
    elif hole.kind != "plain":
        words.append(hole.kind if hole.kind != "insert" else "insert")
    if hole.diameter is not None and hole.kind != "slot":
        words.append(f"dia {size(hole.diameter)}")
    if hole.depth is not None and not (hole.kind == "tapping" and hole.thread):
        words.append(f"{size(hole.depth)} deep")
    if hole.countersink_diameter is not None:
        angle = hole.countersink_angle_deg if hole.countersink_angle_deg is not None else Decimal(90)
        words.append(f"csk {size(hole.countersink_diameter)} x {decimal_text(Fraction(angle))} deg")
    if hole.counterbore_diameter is not None and hole.counterbore_depth is not None:
        words.append(f"cbore {size(hole.counterbore_diameter)} x {size(hole.counterbore_depth)}")
    where = write_spot(hole.u, hole.v, hole.angle_deg, unit)
    return f"{hole.face}: {', '.join(words)} at {where}{_note(hole.note)}"


def write_pocket_line(pocket: Pocket, unit: Unit | None = None) -> str:
    """Write a pocket on one line, without its id.

    Args:
        pocket: the pocket.
        unit: [mm or in] the unit of the build it is read in; without it every number carries its unit.

    Returns:
        The line; `read_pocket_line` gives those fields again.

    Source: this project.

    Example:
        >>> mm = lambda size: Length(size * 10_000_000, str(size))
        >>> write_pocket_line(Pocket("k1", "top", mm(515), mm(85), mm(90), mm(90), mm(6), mm(3)), "mm")
        'top: recess 90 x 90 x 6 deep at 515,85, corner radius 3'
    """
    sizes = _together([one for one in (pocket.length, pocket.width, pocket.depth) if one is not None], unit)
    depth = " deep" if pocket.depth is not None else " through"
    where = write_spot(pocket.u, pocket.v, None, unit)
    words = [f"{pocket.face}: recess {' x '.join(sizes)}{depth} at {where}"]
    if pocket.angle_deg is not None and pocket.face == "side":
        words[0] += f", {decimal_text(Fraction(pocket.angle_deg))} deg"
    if pocket.corner_radius is not None:
        words.append(f"corner radius {written(pocket.corner_radius, unit)}")
    if pocket.cutter is not None:
        words.append(f"cutter {written(pocket.cutter, unit)}")
    if pocket.squared:
        words.append("squared")
    return ", ".join(words) + _note(pocket.note)


def _together(lengths: list[Length], unit: Unit | None) -> list[str]:
    """Write sizes that stand together, each with its unit where they would not read back without."""
    texts = [written(length, unit) for length in lengths]
    try:
        found = chain_lengths([Measure.of(text) for text in texts], unit or "mm")
    except InputError:
        found = []
    same = [one.ticks for one in found] == [one.ticks for one in lengths]
    return texts if same else [written(length, None) for length in lengths]


def write_pose_line(mark: str, pose: Pose, unit: Unit | None = None, total: int | None = None) -> str:
    """Write where a copy lies on one line.

    Args:
        mark: the mark of its part.
        pose: the pose.
        unit: [mm or in] the unit of the build it is read in; without it every number carries its unit.
        total: [1] how many copies there are; with 1 the mark stands alone, else with the number of the copy.

    Returns:
        The line; `read_pose_line` gives those fields again.

    Source: this project.

    Example:
        >>> mm = lambda size: Length(size * 10_000_000, str(size))
        >>> pose = Pose(on="P01", u=mm(515), v=mm(85), let_in=mm(6))
        >>> write_pose_line("P11", pose, "mm", 1)
        'P11 on P01 top at 515,85, let in 6'
    """
    name = mark if total == 1 else f"{mark}.{pose.copy}"
    on_side = bool(pose.on) and pose.face == "side"
    words = [f"{name} on {pose.on} {pose.face}" if pose.on else f"{name} on the ground"]
    if pose.u.ticks or pose.v.ticks or on_side:
        words[0] += f" at {write_spot(pose.u, pose.v, pose.angle_deg if on_side else None, unit)}"
    if pose.angle_deg and not on_side:
        words.append(f"around {decimal_text(Fraction(pose.angle_deg))} deg")
    if pose.turned_deg:
        words.append(f"turned {decimal_text(Fraction(pose.turned_deg))}")
    if pose.let_in.ticks:
        words.append(f"let in {written(pose.let_in, unit)}")
    if pose.own_face != "bottom":
        words.append(f"own face {pose.own_face}")
    if pose.point == "centre":
        words.append("by its centre")
    if pose.hand == "other":
        words.append("other hand")
    return ", ".join(words)


def write_step_line(step: AssemblyStep, build: Build | None = None) -> str:
    """Write a step of assembly on one line.

    Args:
        step: the step.
        build: the build, whose marks decide how the line is read back; it may be left out.

    Returns:
        The line; `read_step_line` gives those fields again. Texts of several lines are left out.

    Source: this project.

    Example:
        >>> write_step_line(AssemblyStep(5, "Pillar to flange", ("P10", "F03"), ("F10",), ("13 mm spanner",)))
        '5 Pillar to flange: fits P10, F03; closes F10; tools 13 mm spanner'
    """
    plain = _step_text(step, False)
    names = {*step.fits, *step.closes}
    stand_ins = tuple(
        Component(mark, mark, quantity=100_000)
        for mark in dict.fromkeys(split_copy(name)[0] for name in names)
    )
    try:
        found = step_from(plain, Known(Build("-", "-", components=stand_ins)))
    except InputError:
        return _step_text(step, True)
    same = all(getattr(found, name) == getattr(step, name) for name in ("number", "title", "tools"))
    same = same and all(
        getattr(found, name) == getattr(step, name)
        for name in ("caution", "check")
        if _one_line(getattr(step, name))
    )
    return plain if same and (not _note(step.note) or found.note == step.note) else _step_text(step, True)


def _one_line(text: str) -> bool:
    return bool(_note(text)) if text else True


def _step_text(step: AssemblyStep, safe: bool) -> str:
    def text(words: str) -> str:
        return in_quotes(words) if safe else words

    clauses = [
        f"fits {', '.join(step.fits)}" if step.fits else "",
        f"closes {', '.join(step.closes)}" if step.closes else "",
        f"tools {', '.join(map(text, step.tools))}" if step.tools else "",
        f"caution {text(step.caution)}" if step.caution and _one_line(step.caution) else "",
        f"check {text(step.check)}" if step.check and _one_line(step.check) else "",
    ]
    behind = "; ".join(clause for clause in clauses if clause)
    return f"{step.number} {text(step.title)}{': ' if behind else ''}{behind}{_note(step.note)}"
