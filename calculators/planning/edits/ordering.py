"""The order of what is in a build: components and joints, and the steps of assembly."""

from __future__ import annotations

from dataclasses import replace

from calculators.planning.edits.records import MARKED, SHELVES, RecordKind, find, index_of, with_records
from calculators.planning.model import Build
from calculators.quantities.errors import InputError


def move_record(build: Build, kind: RecordKind, key: str, before: str) -> Build:
    """Move a component or joint in the order of the build; steps are moved by `move_step`.

    Args:
        build: the build.
        kind: `component` or `joint`.
        key: the mark of what is moved.
        before: the mark of what it is to stand before; nothing: it stands last.

    Returns:
        The build.

    Raises:
        InputError: where one of them is not there.

    Source: this project.

    Example:
        >>> from calculators.planning.model import Component
        >>> build = Build("B1", "Box", components=(Component("P1", "Lid"), Component("P2", "Side")))
        >>> [one.mark for one in move_record(build, "component", "P2", "P1").components]
        ['P2', 'P1']
    """
    if kind not in MARKED:
        raise InputError.of(
            "Only components, joints and calculations have an order of their own; steps go by number, "
            "entries by date.",
            field="kind",
        )
    one = find(build, kind, key)
    if before and index_of(build, kind, before) == index_of(build, kind, key):
        return build
    rest = [each for each in getattr(build, SHELVES[kind].field) if each is not one]
    at = next((i for i, each in enumerate(rest) if each.mark == before.strip()), len(rest))
    if before:
        index_of(build, kind, before)
    return with_records(build, kind, [*rest[:at], one, *rest[at:]])


def move_step(build: Build, number: int, before: int | None) -> Build:
    """Move a step of assembly, and number all steps anew from 1.

    Args:
        build: the build.
        number: [1] the number of the step.
        before: [1] the number of the step that it is to stand before; None: it stands last.

    Returns:
        The build, its steps in their order.

    Raises:
        InputError: where one of them is not there.

    Source: this project.

    Example:
        >>> from calculators.planning.model import AssemblyStep
        >>> build = Build("B1", "Box", steps=(AssemblyStep(6, "Bottom on"), AssemblyStep(8, "Stops")))
        >>> [(one.number, one.title) for one in move_step(build, 8, 6).steps]
        [(1, 'Stops'), (2, 'Bottom on')]
    """
    return move_steps(build, (number,), before)


def move_steps(build: Build, numbers: tuple[int, ...], before: int | None) -> Build:
    """Move several steps of assembly together, and number all steps anew from 1.

    Args:
        build: the build.
        numbers: [1] the numbers of the steps, in the order in which they are to stand.
        before: [1] the number of the step that they are to stand before; None: they stand last.

    Returns:
        The build, its steps in their order.

    Raises:
        InputError: where one of them is not there.

    Source: this project.
    """
    moving = [find(build, "step", str(number)) for number in dict.fromkeys(numbers)]
    steps = sorted(build.steps, key=lambda step: step.number)
    if before is not None and before not in numbers:
        index_of(build, "step", str(before))
    if before is None or before not in numbers:
        steps = [step for step in steps if step not in moving]
        at = next((i for i, step in enumerate(steps) if step.number == before), len(steps))
        steps[at:at] = moving
    return replace(build, steps=tuple(replace(step, number=i) for i, step in enumerate(steps, 1)))
