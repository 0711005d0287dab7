"""Taking a record out of a build, with what cannot stand without it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from calculators.planning.edits.records import RecordKind, find, key_of, shelf_of, with_records
from calculators.planning.model import Acceptance, Build, Calculation, Component, Joint
from calculators.planning.ties import mark_of_tie
from calculators.planning.tree import split_copy
from calculators.quantities.errors import InputError

MOST_QUANTITY = 100_000
"""The most of a component in one of its parent."""


def remove(build: Build, kind: RecordKind, key: str) -> Build:
    """Take a record out of a build.

    With a component go the poses on it, the joints at home on it, the members of other stacks that name it,
    its name in steps and entries, and its readings, releases and acceptances; what is in it goes to its
    parent, as many as there were. With a joint go its name in steps and entries, its readings and
    acceptances. Calculations that were tied to a size of what goes keep the size and lose the tie. Parts that
    were to be cut from a piece of stock that goes are cut from none. All else goes alone; other steps keep
    their numbers.

    Args:
        build: the build.
        kind: one of `RecordKind`.
        key: its mark, its number as text, or its id.

    Returns:
        The build without it.

    Raises:
        InputError: where there is no such record, or where what is in it would be too many.

    Source: this project.

    Example:
        >>> remove(Build("B1", "Box", components=(Component("P1", "Lid"),)), "component", "P1").components
        ()
    """
    one = find(build, kind, key)
    if kind == "component":
        return _without_component(build, one)
    if kind == "joint":
        return _without_names(_without_joints(build, {one.mark}), {one.mark})
    if kind == "calculation":
        build = replace(build, calculations=tuple(each for each in build.calculations if each is not one))
        return _without_names(build, {one.mark})
    if kind == "stock":
        build = replace(build, components=tuple(_off_stock(each, one.mark) for each in build.components))
    shown = key_of(kind, one)
    held = getattr(build, shelf_of(kind).field)
    return with_records(build, kind, (each for each in held if key_of(kind, each) != shown))


def _off_stock(one: Component, mark: str) -> Component:
    return replace(one, from_stock="") if one.from_stock == mark else one


def taken_along(build: Build, kind: RecordKind, key: str) -> tuple[str, ...]:
    """Say what `remove` would take along.

    Args:
        build: the build.
        kind: one of `RecordKind`.
        key: its mark, its number as text, or its id.

    Returns:
        A sentence for each thing that goes, or changes, besides the record itself.

    Raises:
        InputError: where there is no such record.

    Source: this project.

    Example:
        >>> parts = (Component("P1", "Frame"), Component("P2", "Leg", parent="P1", quantity=4))
        >>> taken_along(Build("B1", "Stool", components=parts), "component", "P1")
        ('P2 Leg is no longer part of P1.',)
    """
    one = find(build, kind, key)
    if kind == "component":
        return tuple(_with_component(build, one))
    if kind in ("joint", "calculation"):
        return tuple(_names_told(build, {one.mark}))
    if kind == "stock":
        cut = [each.mark for each in build.components if each.from_stock == one.mark]
        return (f"{', '.join(cut)} {'is' if len(cut) == 1 else 'are'} no longer cut from it.",) if cut else ()
    if kind == "entry" and one.photographs:
        count = len(one.photographs)
        return (f"Its {count} photographs go with it." if count > 1 else "Its photograph goes with it.",)
    return ()


def _at_home(build: Build, mark: str) -> list[Joint]:
    return [joint for joint in build.joints if split_copy(joint.home)[0] == mark]


def _without_component(build: Build, gone: Component) -> Build:
    joints = {joint.mark for joint in _at_home(build, gone.mark)}
    build = replace(
        build,
        components=tuple(_left(one, gone) for one in build.components if one.mark != gone.mark),
        joints=tuple(
            replace(joint, stack=tuple(m for m in joint.stack if m.part != gone.mark))
            if any(m.part == gone.mark for m in joint.stack)
            else joint
            for joint in build.joints
        ),
    )
    return _without_names(_without_joints(build, joints), {gone.mark, *joints})


def _left(one: Component, gone: Component) -> Component:
    """A component that stays: off what goes, and out of it."""
    if any(split_copy(pose.on)[0] == gone.mark for pose in one.poses):
        one = replace(one, poses=tuple(p for p in one.poses if split_copy(p.on)[0] != gone.mark))
    if one.parent != gone.mark:
        return one
    quantity = one.quantity * gone.quantity
    if quantity > MOST_QUANTITY:
        says = (
            f"{gone.mark} holds {one.mark}, and without it {quantity:,} of them would stand in one place; "
            f"{MOST_QUANTITY:,} is the most. Move {one.mark} elsewhere first."
        )
        raise InputError.of(says, field="key", value=float(quantity), limit=float(MOST_QUANTITY))
    return replace(one, parent=gone.parent, quantity=quantity)


def _without_joints(build: Build, marks: set[str]) -> Build:
    return (
        replace(build, joints=tuple(one for one in build.joints if one.mark not in marks)) if marks else build
    )


def _without_names(build: Build, marks: set[str]) -> Build:
    def kept(names: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(name for name in names if split_copy(name)[0] not in marks)

    return replace(
        build,
        components=tuple(_alone(one, marks) for one in build.components),
        steps=tuple(
            replace(one, fits=kept(one.fits), closes=kept(one.closes), glued=kept(one.glued))
            for one in build.steps
        ),
        entries=tuple(replace(one, marks=kept(one.marks)) for one in build.entries),
        calculations=tuple(_untied(one, marks) for one in build.calculations),
        readings=tuple(one for one in build.readings if mark_of_tie(one.of) not in marks),
        moisture=tuple(
            replace(one, parts=left) if left != one.parts else one
            for one in build.moisture
            if (left := kept(one.parts)) or not one.parts
        ),
        releases=tuple(one for one in build.releases if one.mark not in marks),
        acceptances=tuple(one for one in build.acceptances if not _is_about(one, marks)),
    )


def _alone(one: Component, marks: set[str]) -> Component:
    """A part that no longer carries what goes."""
    if one.motion is None or not any(split_copy(name)[0] in marks for name in one.motion.carries):
        return one
    carries = tuple(name for name in one.motion.carries if split_copy(name)[0] not in marks)
    return replace(one, motion=replace(one.motion, carries=carries))


def _is_about(one: Acceptance, marks: set[str]) -> bool:
    return one.joint in marks or split_copy(one.part)[0] in marks


def _untied(one: Calculation, marks: set[str]) -> Calculation:
    ties = tuple((name, tie) for name, tie in one.ties if mark_of_tie(tie) not in marks)
    return one if ties == one.ties else replace(one, ties=ties)


def _with_component(build: Build, gone: Component) -> Iterator[str]:
    for one in build.components:
        on = [pose for pose in one.poses if split_copy(pose.on)[0] == gone.mark]
        if on and one.mark != gone.mark:
            which = f"{len(on)} copies of {one.mark}" if len(on) > 1 else one.mark
            lie = "lie" if len(on) > 1 else "lies"
            yield f"{which} {one.name} no longer {lie} anywhere: {gone.mark} was under it."
    home = _at_home(build, gone.mark)
    for joint in home:
        yield f"Joint {joint.mark} {joint.title} goes, which is placed on it."
    marks = {joint.mark for joint in home}
    for joint in build.joints:
        if joint.mark not in marks and any(member.part == gone.mark for member in joint.stack):
            yield f"Joint {joint.mark} {joint.title} no longer goes through it."
    for one in build.components:
        if one.parent == gone.mark:
            where = f"goes into {gone.parent}" if gone.parent else f"is no longer part of {gone.mark}"
            yield f"{one.mark} {one.name} {where}."
    yield from _names_told(build, {gone.mark, *marks})


def _names_told(build: Build, marks: set[str]) -> Iterator[str]:
    def names(found: Iterable[str]) -> bool:
        return any(split_copy(name)[0] in marks for name in found)

    for one in build.calculations:
        lost = [name for name, tie in one.ties if mark_of_tie(tie) in marks]
        if lost:
            keeps = "keep the sizes that they have" if len(lost) > 1 else "keeps the size that it has"
            yield f"{one.mark} {one.title} is no longer tied to it: {', '.join(lost)} {keeps}."
    for part in build.components:
        if part.mark not in marks and part.motion is not None and names(part.motion.carries):
            yield f"{part.mark} {part.name} no longer carries it."
    yield from _records_told(build, marks)
    steps = [str(one.number) for one in build.steps if names((*one.fits, *one.closes, *one.glued))]
    if len(steps) == 1:
        yield f"Step {steps[0]} no longer names it."
    elif steps:
        yield f"Steps {', '.join(steps)} no longer name it."
    entries = sum(names(one.marks) for one in build.entries)
    if entries == 1:
        yield "One entry of the journal no longer names it."
    elif entries:
        yield f"{entries} entries of the journal no longer name it."


def _records_told(build: Build, marks: set[str]) -> Iterator[str]:
    """What goes of readings, releases and acceptances."""
    readings = sum(mark_of_tie(one.of) in marks for one in build.readings)
    meters = sum(any(split_copy(name)[0] in marks for name in one.parts) for one in build.moisture)
    releases = sum(one.mark in marks for one in build.releases)
    accepted = sum(_is_about(one, marks) for one in build.acceptances)
    for count, one, many in (
        (readings, "The reading of its size goes.", "The {} readings of its sizes go."),
        (meters, "A moisture reading no longer names it.", "{} moisture readings no longer name it."),
        (releases, "The record of its release goes.", "The records of its {} releases go."),
        (accepted, "What was let stand of it goes.", "The {} findings of it that were let stand go."),
    ):
        if count:
            yield one if count == 1 else many.format(count)
