"""A mark that changes changes everywhere that names it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from calculators.planning.buildfile.kinds import is_mark
from calculators.planning.marks import marks_of
from calculators.planning.model import Build, Component, Joint
from calculators.planning.ties import renamed
from calculators.planning.tree import split_copy
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

Names = Callable[[str], str]


def rename_mark(build: Build, old: str, new: str) -> Build:
    """Give what has a mark another one, in all that names it: copies of a part are named after it.

    What people wrote in words (titles, notes, entries) stays as they wrote it.

    Args:
        build: the build.
        old: the mark now.
        new: the mark from now on.

    Returns:
        The build.

    Raises:
        InputError: when nothing has the old mark, the new one is used, or it is none.

    Source: this project.

    Example:
        >>> from calculators.planning.model import AssemblyStep
        >>> steps = (AssemblyStep(1, "Feet", fits=("P1.2",)),)
        >>> build = Build("B1", "Stool", components=(Component("P1", "Foot", quantity=3),), steps=steps)
        >>> rename_mark(build, "P1", "B1").steps[0].fits
        ('B1.2',)
    """
    marks = marks_of(build)
    if old not in marks:
        raise InputError.of(f"Nothing in this build has the mark {quoted(old)}.", field="mark")
    if old == new:
        return build
    if not is_mark(new):
        says = (
            f"{quoted(new)} is not a mark; write letters, digits and hyphens, beginning with a letter or "
            "digit, at most 20."
        )
        raise InputError.of(says, field="mark")
    if new in marks:
        raise InputError.of(f"The mark {quoted(new)} is used already; give it another.", field="mark")
    build = _renamed(build, lambda name: _carried(name, old, new))
    build = _in_records(build, old, new)
    if not build.calculations:
        return build
    kept = tuple(
        replace(
            one,
            mark=new if one.mark == old else one.mark,
            ties=tuple((name, renamed(tie, old, new)) for name, tie in one.ties),
        )
        for one in build.calculations
    )
    return replace(build, calculations=kept)


def _carried(name: str, old: str, new: str) -> str:
    """A name after the rename: the mark itself, or one copy of it (a mark has no dot)."""
    mark, copy = split_copy(name)
    if mark != old:
        return name
    return new if copy is None else f"{new}.{copy}"


def _renamed(build: Build, carry: Names) -> Build:
    return replace(
        build,
        components=tuple(_component(one, carry) for one in build.components),
        joints=tuple(_joint(one, carry) for one in build.joints),
        steps=tuple(
            replace(
                one,
                fits=tuple(map(carry, one.fits)),
                closes=tuple(map(carry, one.closes)),
                glued=tuple(map(carry, one.glued)),
            )
            for one in build.steps
        ),
        entries=tuple(replace(one, marks=tuple(map(carry, one.marks))) for one in build.entries),
    )


def _in_records(build: Build, old: str, new: str) -> Build:
    """Stock, readings, moisture readings, releases and acceptances after the rename."""

    def carry(name: str) -> str:
        return _carried(name, old, new)

    return replace(
        build,
        stock=tuple(replace(one, mark=carry(one.mark)) for one in build.stock),
        readings=tuple(replace(one, of=renamed(one.of, old, new)) for one in build.readings),
        moisture=tuple(replace(one, parts=tuple(map(carry, one.parts))) for one in build.moisture),
        releases=tuple(
            replace(one, mark=carry(one.mark), part=_component(one.part, carry)) for one in build.releases
        ),
        acceptances=tuple(
            replace(one, joint=carry(one.joint), part=carry(one.part)) for one in build.acceptances
        ),
    )


def _component(one: Component, carry: Names) -> Component:
    motion = one.motion
    if motion is not None and motion.carries:
        motion = replace(motion, carries=tuple(map(carry, motion.carries)))
    return replace(
        one,
        mark=carry(one.mark),
        parent=carry(one.parent),
        from_stock=carry(one.from_stock),
        motion=motion,
        poses=tuple(replace(pose, on=carry(pose.on)) for pose in one.poses),
    )


def _joint(one: Joint, carry: Names) -> Joint:
    return replace(
        one,
        mark=carry(one.mark),
        home=carry(one.home),
        stack=tuple(replace(member, part=carry(member.part)) for member in one.stack),
    )
