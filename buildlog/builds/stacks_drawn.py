"""The stacks of a joint drawn along their axis, in line, apart or together, for its page and for sheets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from buildlog.builds.showing import FIRST_GROUPS
from calculators.drawing.stack_drawing import stack_drawing
from calculators.drawing.stack_lines import StackLine, stack_lines
from calculators.drawing.stack_pieces import Arrangement
from calculators.planning.worked import WorkedBuild, WorkedJoint

ARRANGED: dict[str, Arrangement] = {"line": "in line", "apart": "apart", "together": "together"}
"""The arrangements by the word that stands in an address (`?stack=apart`)."""


@dataclass(frozen=True, slots=True)
class StackDrawn:
    """One stack: the places that have it, its members, its drawing for a broad and for a narrow page."""

    worked: WorkedJoint
    lines: tuple[StackLine, ...]
    broad: str
    narrow: str


def stacks_drawn(worked: WorkedBuild, mark: str, asked: str = "line", first: int = 0) -> list[StackDrawn]:
    """Draw the stacks of a joint from its `first` group of places on; `asked` is a word of `ARRANGED`."""
    names = names_of(worked)
    found = [each for each in worked.joints if each.joint.mark == mark]
    arrangement = ARRANGED.get(asked, "in line")
    return [_drawn(each, names, arrangement) for each in found[first : first + FIRST_GROUPS]]


def fitted_stacks(worked: WorkedBuild, marks: Sequence[str]) -> list[StackDrawn]:
    """The stacks of joints set apart for the sheet of a step, but for those of a bare screw through parts.

    A screw that only goes through one part into another is put together in one way; whoever fits washers,
    nuts, inserts, bushes or several parts wants their order.
    """
    names = names_of(worked)
    found = [each for each in worked.joints if each.joint.mark in marks and _wants_order(each)]
    return [_apart(each, names) for each in found]


def _wants_order(each: WorkedJoint) -> bool:
    layers = sum(item.layer is not None for item in each.inputs.stack)
    return bool(each.riders) or layers < len(each.inputs.stack) or layers > 2


def _apart(each: WorkedJoint, names: dict[str, str]) -> StackDrawn:
    drawn = stack_drawing(
        each.result, "apart", riders=each.riders, narrow=True, letter_mm=3.2, names=names, count=each.count,
        with_key=False,
    )  # fmt: skip
    lines = stack_lines(each.result, each.riders, names=names, count=each.count)
    return StackDrawn(each, lines, drawn, drawn)


def names_of(worked: WorkedBuild) -> dict[str, str]:
    """The names of a build's components by their marks."""
    return {component.mark: component.name for component in worked.build.components}


def _drawn(each: WorkedJoint, names: dict[str, str], arrangement: Arrangement) -> StackDrawn:
    broad, narrow = (
        stack_drawing(
            each.result, arrangement, riders=each.riders, narrow=is_narrow, names=names, count=each.count,
            with_key=False,
        )
        for is_narrow in (False, True)
    )  # fmt: skip
    lines = stack_lines(each.result, each.riders, names=names, count=each.count)
    return StackDrawn(each, lines, broad, narrow)


def arrangement_links(asked: str, first: int) -> list[tuple[str, str, bool]]:
    """The switch between the arrangements: words, the query of the address, whether it is the one shown."""
    begin = f"from={first}&" if first else ""
    now = asked if asked in ARRANGED else "line"
    return [(words, f"?{begin}stack={word}#stack-drawn", word == now) for word, words in ARRANGED.items()]
