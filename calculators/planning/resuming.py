"""Where somebody left off: what comes next, what waits for a delivery, what would soon be out of reach."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from calculators.planning.model import AssemblyStep, Build, Component, Entry
from calculators.planning.schedules.assembly import AssemblyLine, LastChance, assembly_list
from calculators.planning.tree import split_copy
from calculators.quantities.errors import InputError


@dataclass(frozen=True, slots=True)
class Resumed:
    """Where a build stands.

    `entry` is the last journal entry that says what comes next. `waiting` are the components on order.
    `step` is the first step whose parts are not all fitted, `closing` what cannot be reached once it is done.
    `done` is how many steps are done.
    """

    entry: Entry | None
    waiting: tuple[Component, ...]
    step: AssemblyLine | None
    closing: tuple[LastChance, ...]
    done: int
    steps: int


def resume(build: Build) -> Resumed:
    """Say where a build stands.

    A step is done when all parts that it fits are in the state `fitted`; a step that fits no part (only
    joints, or nothing) when a later one is begun.

    Args:
        build: the build.

    Returns:
        What comes next and what waits.

    Source: this project.

    Example:
        >>> parts = Component("P1", "Side", state="fitted"), Component("P2", "Lid")
        >>> steps = AssemblyStep(1, "Sides", ("P1",)), AssemblyStep(2, "Lid", ("P2",), closes=("P1",))
        >>> found = resume(Build("B1", "Box", components=parts, steps=steps))
        >>> found.done, found.step.title, found.closing[0].mark
        (1, 'Lid', 'P1')
    """
    steps = sorted(build.steps, key=lambda step: step.number)
    done = _steps_done(build, steps)
    line = _line(build, steps[done]) if done < len(steps) else None
    waiting = tuple(one for one in build.components if one.state == "bought")
    return Resumed(
        last_word(build.entries), waiting, line, line.closes if line is not None else (), done, len(steps)
    )


def last_word(entries: Iterable[Entry]) -> Entry | None:
    """Find the last entry that says what comes next.

    Args:
        entries: the entries in the order of the build.

    Returns:
        Of the entries of the latest day with such a word the last; None where nobody has said.

    Source: this project.
    """
    found: Entry | None = None
    for entry in entries:
        if entry.next_time and (found is None or entry.date >= found.date):
            found = entry
    return found


def _steps_done(build: Build, steps: list[AssemblyStep]) -> int:
    """How many steps from the first are done."""
    states = {one.mark: one.state for one in build.components}
    marks = [[split_copy(each)[0] for each in step.fits] for step in steps]
    parts = [[states[mark] for mark in each if mark in states] for each in marks]
    begun = max((index for index, each in enumerate(parts) if "fitted" in each), default=-1)
    for index, each in enumerate(parts):
        if any(state != "fitted" for state in each) or (not each and index > begun):
            return index
    return len(steps)


def _line(build: Build, step: AssemblyStep) -> AssemblyLine | None:
    try:
        lines = assembly_list(build).steps
    except InputError:  # a ring in the tree of components, which the check tells
        return None
    return next((line for line in lines if line.number == step.number), None)
