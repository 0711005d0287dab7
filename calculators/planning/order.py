"""The order of assembly: nothing is fitted after the step that closes it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from calculators.joints.model import Finding, Mend
from calculators.planning.model import Build
from calculators.planning.tree import split_copy

RULE = "fitted-after-closed"
SOURCE = "common practice"


@dataclass(slots=True)
class _Late:
    """A mark that is fitted too late: in which steps, and by which name which step has closed it."""

    closed_in: int
    closed_as: str
    steps: list[int] = field(default_factory=list)


def fitted_after_closed(build: Build) -> tuple[Finding, ...]:
    """Find what a step fits though an earlier step has closed it.

    A step closes what it names, and with a sub-assembly all that is in it; the mark of a part stands for
    each of its copies. What one step both fits and closes is fitted first.

    Args:
        build: the build.

    Returns:
        An error for each mark, in the order of the steps; its mend moves the steps that fit it.

    Source: common practice.

    Example:
        >>> from calculators.planning.model import AssemblyStep
        >>> steps = (AssemblyStep(6, "Bottom", closes=("F10",)), AssemblyStep(8, "Stops", fits=("F10",)))
        >>> fitted_after_closed(Build("B1", "Stool", steps=steps))[0].says
        'F10 is fitted in step 8, but step 6 closes it.'
    """
    parents = {one.mark: one.parent for one in build.components}
    closed: dict[str, tuple[int, str]] = {}
    late: dict[str, _Late] = {}
    for step in sorted(build.steps, key=lambda one: one.number):
        for mark in dict.fromkeys(step.fits):
            found = [closed[name] for name in _closed_with(mark, parents) if name in closed]
            if found:
                late.setdefault(mark, _Late(*min(found))).steps.append(step.number)
        for name in step.closes:
            closed.setdefault(name, (step.number, name))
            mark, copy = split_copy(name)
            if copy is not None:
                closed.setdefault(f"{mark}.", (step.number, name))
    return tuple(_finding(mark, one, parents) for mark, one in late.items())


def _closed_with(name: str, parents: Mapping[str, str]) -> Iterator[str]:
    """The names by which a part or joint can have been closed; `P02.` is any one copy of P02."""
    mark, copy = split_copy(name)
    yield name
    yield f"{mark}." if copy is None else mark
    seen = {mark}
    while (mark := parents.get(mark, "")) and mark not in seen:
        seen.add(mark)
        yield mark


def _finding(mark: str, one: _Late, parents: Mapping[str, str]) -> Finding:
    steps = [str(number) for number in one.steps]
    several = len(steps) > 1
    fitted = f"steps {', '.join(steps[:-1])} and {steps[-1]}" if several else f"step {steps[0]}"
    what = "it" if one.closed_as == mark else one.closed_as
    says = f"{mark} is fitted in {fitted}, but step {one.closed_in} closes {what}."
    mend = Mend(
        f"Move {fitted} before step {one.closed_in}.", "steps", f"{' '.join(steps)} before {one.closed_in}"
    )
    is_part = split_copy(mark)[0] in parents
    return Finding(
        RULE,
        "error",
        says,
        SOURCE,
        joint="" if is_part else mark,
        part=mark if is_part else "",
        value=float(one.steps[-1]),
        limit=float(one.closed_in),
        unit="step",
        mends=(mend,),
    )
