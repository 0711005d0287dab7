"""What is wrong on a face, in red on its plan: a ring or a line at the place, and a few words beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from calculators.drawing.lettering import text_width, wrap
from calculators.drawing.svg import LINES, PAPER, RED, Box, Point, escape, number

LETTER_MM = 3.0
_LEAST_RING_MM = 1.8
_LABEL_MM = 34.0
_MOST_LINES = 3
_RINGS = 10
_WAYS = ((1, -1), (1, 1), (-1, -1), (-1, 1), (0, -1), (1, 0), (-1, 0), (0, 1))
_ROOM_MM = 1.0
_HALO = f'stroke="{PAPER}" stroke-width="0.9" stroke-linejoin="round" paint-order="stroke"'
"""Keeps the words readable over a line."""


@dataclass(frozen=True, slots=True)
class PlanMark:
    """A place that is wrong, in the face's own u, v [mm]: a ring, or a line to another place.

    `words` stand beside it in red; marks without words share those of another.
    """

    u_mm: float
    v_mm: float
    radius_mm: float = 3.0
    words: str = ""
    to: Point | None = None


def reach_of(marks: Sequence[PlanMark]) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """Give how far marks reach on the face.

    Args:
        marks: the marks.

    Returns:
        Least and greatest u, least and greatest v [mm]; None where there are no marks.

    Source: this project.

    Example:
        >>> reach_of([PlanMark(10, 5), PlanMark(0, 0, to=(20, -4))])
        ((0, 20), (-4, 5))
    """
    points = [(one.u_mm, one.v_mm) for one in marks] + [one.to for one in marks if one.to is not None]
    if not points:
        return None
    us, vs = [u for u, _ in points], [v for _, v in points]
    return (min(us), max(us)), (min(vs), max(vs))


def widest_words(marks: Sequence[PlanMark]) -> float:
    """Give how wide the words beside marks are, broken into lines as they are drawn.

    Args:
        marks: the marks.

    Returns:
        The width of the widest [mm on the paper]; 0 where none has words.

    Source: this project.

    Example:
        >>> widest_words([PlanMark(10, 5)])
        0.0
    """
    told = [
        line for one in marks if one.words for line in wrap(one.words, LETTER_MM, _LABEL_MM, most=_MOST_LINES)
    ]
    return max((text_width(line, LETTER_MM) + 0.3 for line in told), default=0.0)


def draw_marks(
    marks: Sequence[PlanMark],
    at: Callable[[float, float], Point],
    scale: float,
    paper: Point,
    lines: list[Box],
    written: list[Box],
) -> list[str]:
    """Draw marks over a plan; their words keep clear of what is written already.

    Args:
        marks: the marks.
        at: turns u, v of the face into x, y of the paper [mm].
        scale: millimetres on the paper for one on the part.
        paper: width and height of the paper [mm].
        lines: boxes of what is drawn, which words rather keep off [mm].
        written: boxes of what is written, which words must keep off; those of the words are added [mm].

    Returns:
        SVG elements: first the rings and lines, then the words.

    Source: this project.
    """
    drawn: list[str] = []
    rings: list[tuple[PlanMark, Point, float]] = []
    line = f'fill="none" {LINES["finding"]}'
    for mark in marks:
        x, y = at(mark.u_mm, mark.v_mm)
        radius = max(mark.radius_mm * scale, _LEAST_RING_MM)
        drawn.append(f'<circle class="red" cx="{_n(x)}" cy="{_n(y)}" r="{_n(radius)}" {line}/>')
        if mark.to is not None:
            to_x, to_y = at(*mark.to)
            drawn.append(f'<path class="red" d="M{_n(x)} {_n(y)} L{_n(to_x)} {_n(to_y)}" {line}/>')
        lines.append((x - radius, y - radius, x + radius, y + radius))
        rings.append((mark, (x, y), radius))
    for mark, point, radius in rings:
        if mark.words:
            drawn += _words(mark.words, point, radius, paper, lines, written)
    return drawn


def _words(
    words: str, point: Point, radius: float, paper: Point, lines: list[Box], written: list[Box]
) -> Iterable[str]:
    told = wrap(words, LETTER_MM, _LABEL_MM, most=_MOST_LINES)
    height = LETTER_MM * 1.25
    width = max(text_width(line, LETTER_MM) for line in told) + 0.3
    box = free_box(point, radius + 0.5, (width, height * len(told)), lines, written, paper=paper)
    written.append(box)
    x, y = point
    end_x, end_y = min(max(x, box[0]), box[2]), min(max(y, box[1]), box[3])
    away = ((end_x - x) ** 2 + (end_y - y) ** 2) ** 0.5
    if away > radius + 1.5:
        share = radius / away
        start = f"{_n(x + (end_x - x) * share)} {_n(y + (end_y - y) * share)}"
        yield f'<path class="red" d="M{start} L{_n(end_x)} {_n(end_y)}" stroke="{RED}" stroke-width="0.2"/>'
    anchor, text_x = ("start", box[0]) if (box[0] + box[2]) / 2 >= x else ("end", box[2])
    for index, line in enumerate(told):
        yield (
            f'<text class="red" x="{_n(text_x)}" y="{_n(box[1] + height * index + LETTER_MM * 0.95)}" '
            f'font-size="{_n(LETTER_MM)}" text-anchor="{anchor}" fill="{RED}" {_HALO}>{escape(line)}</text>'
        )


def free_box(
    point: Point,
    reach: float,
    size: Point,
    lines: Sequence[Box],
    written: Sequence[Box],
    *,
    paper: Point | None = None,
) -> Box:
    """Find room for words beside a point: where they overprint nothing, farther out if need be.

    Args:
        point: what the words are about [mm on the paper].
        reach: how far the words keep from it [mm].
        size: width and height of the words [mm].
        lines: boxes of what is drawn: over it words can still be read.
        written: boxes of other words: over these they could not be read at all.
        paper: width and height of the paper that the words keep to; None where they need not [mm].

    Returns:
        The box of the words.

    Source: this project.

    Example:
        >>> free_box((10, 10), 1, (4, 2), [], [])
        (11.0, 7.0, 15.0, 9.0)
    """
    (x, y), (w, h) = point, size
    best: tuple[int, Box] | None = None
    for ring in range(_RINGS):
        out = reach + ring * LETTER_MM
        for dx, dy in _WAYS:
            cx, cy = x + dx * (out + w / 2), y + dy * (out + h / 2)
            box = (cx - w / 2, cy - h / 2, cx + w / 2, cy + h / 2)
            if paper is not None:
                box = _kept_on(box, paper)
            # Over other words they could not be read at all; over a line they still could.
            cost = 1000 * _hits(box, written) + _hits(box, lines)
            if best is None or cost < best[0]:
                best = (cost, box)
        if best and best[0] == 0:
            break
    assert best
    return best[1]


def _kept_on(box: Box, paper: Point) -> Box:
    """The box moved on to the paper where it can be."""
    left, top, right, bottom = box
    dx = max(_ROOM_MM - left, 0.0) or min(paper[0] - _ROOM_MM - right, 0.0)
    dy = max(_ROOM_MM - top, 0.0) or min(paper[1] - _ROOM_MM - bottom, 0.0)
    return (left + dx, top + dy, right + dx, bottom + dy)


def _hits(box: Box, others: Sequence[Box]) -> int:
    return sum(box[0] < one[2] and one[0] < box[2] and box[1] < one[3] and one[1] < box[3] for one in others)


def _n(value: float) -> str:
    return number(value, 3)
