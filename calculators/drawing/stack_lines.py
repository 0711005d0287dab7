"""The members of a joint's stack in the order of putting together, with where each lies and its state."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from calculators.drawing.section_words import plain_mm, written
from calculators.joints.freedom import SCREW, Freedom, State, freedom_of, mm_words
from calculators.joints.freedom import Write as WriteUnit
from calculators.joints.model import JointResult, StackItem
from calculators.joints.riders import Rider

Kind = Literal["screw", "part", "washer", "nut", "insert", "around"]


@dataclass(frozen=True, slots=True)
class StackLine:
    """One member: its number from the head on, what it is, where it lies, and how it is held.

    `item` is its place in the stack (`SCREW` for the fastener), `rider` its number among the parts around
    the stack, else -1. `enter_mm` and `leave_mm` are running lengths from the plane in which the head bears;
    of the fastener, where its own length begins and ends. `count` is how many are wanted for all places.
    """

    number: int
    kind: Kind
    item: int
    what: str
    enter_mm: float
    leave_mm: float
    state: State
    why: str
    count: int = 1
    rider: int = -1

    @property
    def thick_mm(self) -> float:
        """How much of the axis it takes [mm]."""
        return self.leave_mm - self.enter_mm


def stack_lines(
    result: JointResult,
    riders: Sequence[Rider] = (),
    *,
    names: Mapping[str, str] | None = None,
    count: int = 1,
    write: WriteUnit = mm_words,
) -> tuple[StackLine, ...]:
    """List the fastener and the members of its stack in the order in which they are put together.

    The fastener comes first, a stud after the part that it is screwed into; an insert before the part that it
    goes into; a part around the stack after what it lies on.

    Args:
        result: the joint as worked out.
        riders: the parts that lie around its stack.
        names: names of parts by their marks.
        count: how many such fasteners there are [1].
        write: how a play is written.

    Returns:
        The lines, numbered from 1.

    Raises:
        InputError: as `work_joint`.

    Source: common practice (the order of an exploded view).

    Example:
        >>> from calculators.hardware.designation import read_fastener, read_nut
        >>> from calculators.joints import JointInput, Layer, StackItem, work_joint
        >>> stack = (StackItem(layer=Layer("P1", "brass", 10)), StackItem(nut=read_nut("M5 nut")))
        >>> result = work_joint(JointInput("F1", read_fastener("M5 x 20 hex set screw"), stack))
        >>> [(line.number, line.what, line.enter_mm) for line in stack_lines(result)]
        [(1, 'M5 x 20 hex set screw', 0.0), (2, 'P1, brass', 0.0), (3, 'M5 nut', 10.0)]
    """
    found = freedom_of(result, riders, write=write)
    held = {(each.item, each.rider): each for each in found}
    around = {each.rider: each for each in found if each.rider >= 0}
    lines: list[StackLine] = []
    for item, rider in _order(result, around):
        each = around[rider] if rider >= 0 else held[item, -1]
        lines.append(_line(len(lines) + 1, result, riders, each, names or {}, count))
    return tuple(lines)


def _order(result: JointResult, around: Mapping[int, Freedom]) -> list[tuple[int, int]]:
    """The places of the stack and the numbers of the riders, in the order of putting together."""
    stack = result.joint.stack
    order = [index for index, item in enumerate(stack) if item.insert is None]
    for index, item in enumerate(stack):
        if item.insert is not None:
            order.insert(order.index(_host(result, index)), index)
    first = next(index for index, item in enumerate(stack) if item.layer is not None)
    hole = next((each for each in result.holes if each.layer == 0), None)
    is_stud = result.head_height_mm is None and hole is not None and hole.from_behind
    order.insert(order.index(first) + 1 if is_stud else 0, SCREW)
    found: list[tuple[int, int]] = []
    for item_at in order:
        found.append((item_at, -1))
        found += [(each.item, rider) for rider, each in around.items() if each.item == item_at]
    return found


def _host(result: JointResult, insert: int) -> int:
    """The part that an insert goes into: the one after it in the stack, else the one before."""
    layers = [index for index, item in enumerate(result.joint.stack) if item.layer is not None]
    after = [index for index in layers if index > insert]
    return after[0] if after else layers[-1]


def _line(
    number: int,
    result: JointResult,
    riders: Sequence[Rider],
    held: Freedom,
    names: Mapping[str, str],
    count: int,
) -> StackLine:
    if held.rider >= 0:
        rider = riders[held.rider]
        what = _part_words(rider.part, names, rider.material)
        return StackLine(number, "around", held.item, what, rider.enter_mm, rider.leave_mm, held.state,
                         held.why, rider=held.rider)  # fmt: skip
    if held.item == SCREW:
        length = result.fastener.cut_to or result.fastener.length
        starts = result.tip_mm - length.mm if length is not None else min(0.0, result.tip_mm)
        return StackLine(number, "screw", SCREW, written(result.fastener), _tidy(starts), result.tip_mm,
                         held.state, held.why, count)  # fmt: skip
    item = result.joint.stack[held.item]
    extent = next(each for each in result.extents if each.item == held.item)
    kind, what = _kind_and_words(item, names)
    many = 1 if kind == "part" else count
    return StackLine(number, kind, held.item, what, _tidy(extent.enter_mm), _tidy(extent.leave_mm),
                     held.state, held.why, many)  # fmt: skip


def _tidy(value: float) -> float:
    """Without the last bits of float arithmetic."""
    return round(value, 6) + 0.0


def _kind_and_words(item: StackItem, names: Mapping[str, str]) -> tuple[Kind, str]:
    if item.layer is not None:
        return "part", _part_words(item.layer.part, names, item.layer.material)
    for kind, member in (("washer", item.washer), ("nut", item.nut), ("insert", item.insert)):
        if member is not None:
            words = written(member)
            return kind, words if kind in words else f"{words} {kind}"  # type: ignore[return-value]
    return "part", "part"


def _part_words(mark: str, names: Mapping[str, str], material: str) -> str:
    part = " ".join(word for word in (mark, names.get(mark, "")) if word)
    return ", ".join(word for word in (part, material) if word) or "part"


def sentence_of(line: StackLine) -> str:
    """Say one member in a sentence: number, what, from where to where, how it is held.

    Args:
        line: the member.

    Returns:
        The sentence.

    Source: WCAG 2.2, 1.1.1 (a text that serves the same purpose).

    Example:
        >>> line = StackLine(2, "washer", 0, "M5 washer", 0, 1, "tight", "clamped between the head and P1", 4)
        >>> sentence_of(line)
        '2: 4 × M5 washer, from 0 to 1 mm, tight: clamped between the head and P1.'
    """
    many = f"{line.count} × " if line.count != 1 else ""
    place = f"from {plain_mm(line.enter_mm)} to {plain_mm(line.leave_mm)} mm"
    return f"{line.number}: {many}{line.what}, {place}, {line.state}: {line.why}."
