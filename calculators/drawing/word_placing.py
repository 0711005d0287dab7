"""Placing words in a field of curves: near what they name, inside it, off one another and off the lines."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from calculators.drawing.lettering import text_width
from calculators.drawing.svg import Box, Point, lettering, path

_ASIDE, _ABOVE, LINE = 1.6, 0.55, 1.15
"""How far words stand off [mm, and in sizes of the lettering], and from line to line."""

_FAR_MM = 5.0
"""Words that stand further than this from what they name have a leader to it."""

_OUT, _MEETS, _CROSSES = 1000.0, 300.0, 1.0

Place = tuple[Point, str]
"""Where words may stand: the base line of their first line, and the anchor."""


@dataclass(frozen=True, slots=True)
class Words:
    """Words, where they may stand, best first, and the points of what they name."""

    lines: tuple[str, ...]
    ink: str
    places: tuple[Place, ...]
    named: tuple[Point, ...]


def around(at: Point, lines: int, letter: float) -> tuple[Place, ...]:
    """Places about a point: to the right above, left above, below either side, then further off.

    Args:
        at: the point [mm on the sheet].
        lines: [1] how many lines the words have.
        letter: the size of the type [mm].

    Returns:
        The places, best first.

    Source: this project.
    """
    high = LINE * letter * (lines - 1)
    found: list[Place] = []
    for off in (0.0, 1.2, 2.4, 3.6, 4.8):
        up = at[1] - _ABOVE * letter - high - off * letter
        down = at[1] + (_ABOVE + 0.8 + off) * letter
        for y in (up, down):
            found += [((at[0] + _ASIDE, y), "start"), ((at[0] - _ASIDE, y), "end"), ((at[0], y), "middle")]
    return tuple(found)


def along(start: Point, end: Point, letter: float) -> tuple[Place, ...]:
    """Places along a limit: beside an upright line from its top down, over a level one from its left.

    Args:
        start: one end of the line [mm on the sheet].
        end: the other end.
        letter: the size of the type [mm].

    Returns:
        The places, best first.

    Source: this project.
    """
    if abs(start[0] - end[0]) < 1e-9:
        high = min(start[1], end[1])
        steps = [high + letter * (1.2 + 1.3 * place) for place in range(12)]
        return tuple(
            place for y in steps for place in (((start[0] + 1, y), "start"), ((start[0] - 1, y), "end"))
        )
    wide = end[0] - start[0]
    heights = (start[1] - 0.35 * letter, start[1] + 1.05 * letter)
    return (
        *(((start[0] + 1 + wide * part, y), "start") for part in (0, 0.2, 0.4) for y in heights),
        *(((end[0] - 1 - wide * part, y), "end") for part in (0, 0.2) for y in heights),
    )


def box_of(place: Place, lines: Sequence[str], letter: float) -> Box:
    """The box that words fill at a place.

    Args:
        place: where they stand.
        lines: their lines.
        letter: the size of the type [mm].

    Returns:
        The box [mm on the sheet].

    Source: this project.
    """
    (x, y), anchor = place
    wide = max(text_width(line, letter) for line in lines)
    left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
    return (left, y - 0.85 * letter, left + wide, y + LINE * letter * (len(lines) - 1) + 0.25 * letter)


def written(
    field: Box,
    words: Sequence[Words],
    lines: Sequence[Sequence[Point]],
    letter: float,
    taken: Sequence[Box] = (),
) -> list[str]:
    """Write words so that they keep inside a field, off one another and, where it can be had, off the lines.

    Args:
        field: the box that they keep to [mm on the sheet].
        words: the words, the most important first.
        lines: the lines that they keep off.
        letter: the size of the type [mm].
        taken: boxes that hold something already.

    Returns:
        The elements; words that stand far from their point have a leader to it.

    Source: this project.
    """
    points = sorted(point for line in lines for point in closely(line))
    full = list(taken)
    body = []
    for each in words:
        place = _best(each, field, full, points, letter)
        box = box_of(place, each.lines, letter)
        full.append(box)
        (x, y), anchor = place
        nearest = min(each.named, key=lambda point: _apart(box, point))
        body += [_leader(box, nearest)] if _apart(box, nearest) > _FAR_MM else []
        body += [
            lettering(x, y + LINE * letter * row, line, letter, anchor=anchor, ink=each.ink, halo=True)
            for row, line in enumerate(each.lines)
        ]
    return body


def _best(words: Words, field: Box, full: Sequence[Box], points: Sequence[Point], letter: float) -> Place:
    """The best of the places; where none is free, the nearest free one anywhere in the field.

    `points` are those of the lines, from left to right.
    """

    def cost(place: Place) -> float:
        box = box_of(place, words.lines, letter)
        meets = sum(_overlap(box, other) for other in full)
        first, last = bisect_left(points, (box[0], -math.inf)), bisect_right(points, (box[2], math.inf))
        crossed = sum(box[1] <= point[1] <= box[3] for point in points[first:last])
        return _OUT * _is_out(box, field) + _MEETS * meets + min(_CROSSES * crossed, 50.0)

    def cheapest(places: Iterable[Place]) -> tuple[float, Place]:
        found = (math.inf, words.places[0])
        for place in places:
            costs = cost(place)
            if costs < found[0]:
                found = (costs, place)
            if costs <= 0:
                break
        return found

    costs, best = cheapest(words.places)
    if costs > 0:
        moved = cheapest(_moved_in(place, words.lines, field, letter) for place in words.places)
        costs, best = min((costs, best), moved)
    if costs < _MEETS:
        return best
    free = min(
        _all_over(words.lines, field, letter),
        key=lambda place: 10 * cost(place) + _from_named(box_of(place, words.lines, letter), words.named),
        default=best,
    )
    return free if cost(free) < costs else best


def _moved_in(place: Place, lines: Sequence[str], field: Box, letter: float) -> Place:
    """The same place moved no further than that the words lie inside the field."""
    (x, y), anchor = place
    left, top, right, bottom = box_of(place, lines, letter)
    across = max(field[0] - left, 0.0) + min(field[2] - right, 0.0)
    down = max(field[1] - top, 0.0) + min(field[3] - bottom, 0.0)
    return (x + across, y + down), anchor


def _all_over(lines: Sequence[str], field: Box, letter: float) -> Iterator[Place]:
    left, top, right, bottom = box_of(((0.0, 0.0), "start"), lines, letter)
    across, down = field[2] - field[0] - (right - left), field[3] - field[1] - (bottom - top)
    if across < 0 or down < 0:
        return
    for i in range(17):
        for j in range(25):
            yield (field[0] - left + across * i / 16, field[1] - top + down * j / 24), "start"


def _leader(box: Box, at: Point) -> str:
    nearest = (min(max(at[0], box[0]), box[2]), min(max(at[1], box[1]), box[3]))
    return path([[nearest, at]], "leader", closed=False)


def _from_named(box: Box, named: Sequence[Point]) -> float:
    return min(_apart(box, point) for point in named)


def _apart(box: Box, at: Point) -> float:
    """How far a point is from a box, 0 inside it."""
    return math.hypot(max(box[0] - at[0], 0, at[0] - box[2]), max(box[1] - at[1], 0, at[1] - box[3]))


def _is_out(box: Box, field: Box) -> bool:
    off = 1e-6
    return (
        box[0] < field[0] - off
        or box[2] > field[2] + off
        or box[1] < field[1] - off
        or box[3] > field[3] + off
    )


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def closely(line: Sequence[Point]) -> list[Point]:
    """The points of a line no more than a millimetre apart, so that words can be kept off it.

    Args:
        line: its points [mm on the sheet].

    Returns:
        The points, those of the line among them; at most 200 between two of them.

    Source: this project.
    """
    found: list[Point] = []
    for (x, y), (to_x, to_y) in pairwise(line):
        steps = min(200, max(1, math.ceil(math.hypot(to_x - x, to_y - y))))
        found += [(x + (to_x - x) * i / steps, y + (to_y - y) * i / steps) for i in range(steps)]
    return [*found, line[-1]]
