"""A sketch to scale: shapes in real millimetres, dimensions about them, and words that keep clear.

Real coordinates have y upwards. The sheet is as wide as it is told to be and as high as it needs.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import pairwise

from calculators.drawing.hatching import Manner, hatch
from calculators.drawing.lettering import text_width, wrap
from calculators.drawing.svg import BLUE, INK, RED, Box, Point, document, lettering, number, path

Bounds = tuple[float, float, float, float]
"""Least x, least y, most x, most y of what is drawn [mm in reality]."""

_ARROW, _LINE, _CLEAR = 1.8, 1.2, 0.5
_APART = 0.9
"""Points of a line that lie closer than this to the one before are passed over when words are placed [mm]."""


class Sketch:
    """A drawing that is put together piece by piece.

    Args:
        bounds: what is drawn, in reality.
        width_mm: [mm] the sheet's width.
        sides_mm: [mm] room to the left and to the right for words.
        tallest_mm: [mm] the most height that the shapes take.

    Source: this project; lines and dimensions as in ISO 128 and ISO 129-1 (from memory).
    """

    def __init__(
        self,
        bounds: Bounds,
        width_mm: float,
        *,
        sides_mm: tuple[float, float] = (12, 12),
        tallest_mm: float = 90,
    ) -> None:
        wide, high = max(bounds[2] - bounds[0], 1e-9), max(bounds[3] - bounds[1], 1e-9)
        room = width_mm - sum(sides_mm)
        self.width = width_mm
        self.letter = 3.4 if width_mm >= 120 else 3.7
        self.scale = min(room / wide, tallest_mm / high)
        self._left = sides_mm[0] + (room - wide * self.scale) / 2
        self._bounds = bounds
        self._body: list[str] = []
        self._words: list[str] = []
        self._taken: list[Box] = []
        self._lines: list[Point] = []
        self._sorted: list[Point] = []
        self._extent = [0.0, high * self.scale]

    def at(self, point: Point) -> Point:
        """Where a point of reality lies on the sheet."""
        return (
            self._left + (point[0] - self._bounds[0]) * self.scale,
            (self._bounds[3] - point[1]) * self.scale,
        )

    def shape(
        self,
        rings: Sequence[Sequence[Point]],
        line: str = "outline",
        *,
        fill: str = "none",
        closed: bool = True,
        manner: Manner | None = None,
        opacity: float = 1.0,
    ) -> None:
        """Draw rings or lines of points, hatched where a manner is given."""
        drawn = [[self.at(point) for point in ring] for ring in rings]
        if manner:
            self._body.append(hatch(drawn, manner))
        self._body.append(path(drawn, line, fill=fill, closed=closed, opacity=opacity))
        for ring in drawn:
            self._lines += _closely([*ring, ring[0]] if closed else ring)
            self._grow(*(y for _, y in ring))

    def circle(self, centre: Point, radius: float, line: str = "outline", fill: str = "none") -> None:
        """Draw a circle; one that would be too small to be seen is drawn as a dot."""
        self.shape([round_line(centre, max(radius, 0.35 / self.scale))], line, fill=fill)

    def cross(self, centre: Point, reach_mm: float) -> None:
        """Draw the two centre lines of a hole, so far beyond it on the sheet either way."""
        (x, y), r = centre, reach_mm / self.scale
        self.shape([[(x - r, y), (x + r, y)], [(x, y - r), (x, y + r)]], "dimension", closed=False)

    def across(self, start: Point, end: Point, says: str, level_mm: float, *, wrong: bool = False) -> None:
        """Dimension the distance along x at so far below (or, when negative, above) the drawing."""
        base = (self._bounds[3] - self._bounds[1]) * self.scale + level_mm if level_mm > 0 else level_mm
        (x1, y1), (x2, y2) = sorted((self.at(start), self.at(end)))
        ink, line = ("finding", "finding") if wrong else ("dimension", "dimension")
        way = 1 if level_mm > 0 else -1
        ends = [[(x, y + way * 0.8), (x, base + way * 1.2)] for x, y in ((x1, y1), (x2, y2))]
        self._body.append(path(ends, "dimension", closed=False))
        self._arrows((x1, base), (x2, base), line)
        middle = self._within((x1 + x2) / 2, says)
        self._write((middle, base - 1.3), says, "middle", ink)

    def upward(self, start: Point, end: Point, says: str, level_mm: float, *, wrong: bool = False) -> None:
        """Dimension the distance along y at so far right (or, when negative, left) of the drawing."""
        right = self.at((self._bounds[2], 0))[0] + level_mm
        base = right if level_mm > 0 else self._left + level_mm
        (x1, y1), (x2, y2) = sorted((self.at(start), self.at(end)), key=lambda one: one[1])
        way = 1 if level_mm > 0 else -1
        ends = [[(x + way * 0.8, y), (base + way * 1.2, y)] for x, y in ((x1, y1), (x2, y2))]
        self._body.append(path(ends, "dimension", closed=False))
        self._arrows((base, y1), (base, y2), "finding" if wrong else "dimension")
        ink = "finding" if wrong else "dimension"
        place = (base + way * 1.4, (y1 + y2) / 2 + 0.35 * self.letter)
        self._write(place, says, "start" if level_mm > 0 else "end", ink)

    def running(
        self, places: Sequence[float], figures: Sequence[str], *, turned: bool, every: int = 1
    ) -> None:
        """Running dimensions along x under the drawing, from the first place, which is the origin."""
        bottom = self.at((0, self._bounds[1]))[1]
        level = bottom + 3.0
        xs = [self.at((place, 0))[0] for place in places]
        self._body.append(path([[(xs[0], level), (max(xs), level)]], "dimension", closed=False))
        ring = (
            f'<circle cx="{number(xs[0])}" cy="{number(level)}" r="0.9" stroke="{BLUE}" stroke-width="0.3"/>'
        )
        self._body.append(ring)
        self._grow(level)
        for place, (x, says) in enumerate(zip(xs, figures, strict=True)):
            self._body.append(path([[(x, bottom + 0.6), (x, level + 1.0)]], "dimension", closed=False))
            if place and (place - 1) % every:
                continue
            if turned:
                at = (x + 0.35 * self.letter, level + 1.8)
                word = lettering(*at, says, self.letter, ink="dimension", anchor="end", turn=True)
                self._words.append(word)
                self._grow(at[1] + text_width(says, self.letter) + 0.5)
            else:
                self._write((self._within(x, says), level + 1.4 * self.letter), says, "middle", "dimension")

    def note(
        self, at: Point, says: str, *, wrong: bool = False, soft: bool = False, dot: bool = True
    ) -> None:
        """Write words near a point, where they meet least, with a thin line to the point."""
        x, y = self.at(at)
        lines = wrap(says, self.letter, 0.45 * self.width)
        wide = max(text_width(line, self.letter) for line in lines)
        places = [
            (x + dx, y + dy, anchor)
            for off in (2.0, 5.0, 9.0, 14.0, 20.0)
            for dx, dy, anchor in (
                (off, -off, "start"), (-off, -off, "end"), (off, off + 2, "start"), (-off, off + 2, "end"),
                (off + 2, 1, "start"), (-off - 2, 1, "end"), (0, -off - 2, "middle"), (0, off + 4, "middle"),
            )
        ]  # fmt: skip
        best = min(places, key=lambda one: self._cost(one, wide, len(lines), (x, y)))
        px, py, anchor = best
        if dot:
            ink = RED if wrong else INK
            self._words.append(f'<circle cx="{number(x)}" cy="{number(y)}" r="0.6" fill="{ink}"/>')
            if math.dist((x, y), (px, py)) > 3.5:
                self._words.append(path([[(x, y), (px, py - 0.3 * self.letter)]], "leader", closed=False))
        for row, line in enumerate(lines):
            ink = "finding" if wrong else "label"
            self._write((px, py + row * _LINE * self.letter), line, anchor, ink)

    def label(self, at: Point, says: str, *, anchor: str = "middle", ink: str = "label") -> None:
        """Write words with their middle at a point, wherever that is."""
        x, y = self.at(at)
        self._write((x, y + 0.35 * self.letter), says, anchor, ink)

    def below(self, says: str, *, ink: str = "soft") -> None:
        """Write a line under everything so far, broken where it is too long."""
        for line in wrap(says, self.letter, self.width - 4):
            self._write((2.0, self._extent[1] + 1.5 * self.letter), line, "start", ink)

    def svg(self, *, title: str, description: str) -> str:
        """The finished drawing."""
        top, bottom = self._extent[0] - 2.0, self._extent[1] + 2.0
        body = [f'<g transform="translate(0 {number(-top)})">', *self._body, *self._words, "</g>"]
        return document(body, self.width, bottom - top, title=title, description=description)

    def _arrows(self, start: Point, end: Point, line: str) -> None:
        self._body.append(path([[start, end]], line, closed=False))
        length = math.dist(start, end)
        if length < 1e-6:
            return
        ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
        # Where there is no room between them the arrows stand outside and point inwards.
        turn = 1 if length > 3 * _ARROW else -1
        for (x, y), way in ((start, turn), (end, -turn)):
            tips = [
                (x + way * _ARROW * ux + side * 0.45 * uy, y + way * _ARROW * uy - side * 0.45 * ux)
                for side in (1, -1)
            ]
            fill = RED if line == "finding" else BLUE
            self._body.append(path([[(x, y), *tips]], "none", fill=fill))
        self._grow(start[1], end[1])

    def _write(self, at: Point, says: str, anchor: str, ink: str) -> None:
        self._words.append(lettering(*at, says, self.letter, ink=ink, anchor=anchor, halo=True))
        box = _box(at, text_width(says, self.letter), self.letter, anchor)
        self._taken.append(box)
        self._grow(box[1], box[3])

    def _within(self, middle: float, says: str) -> float:
        half = text_width(says, self.letter) / 2 + 1
        return min(max(middle, half), max(self.width - half, half))

    def _cost(self, place: tuple[float, float, str], wide: float, rows: int, point: Point) -> float:
        x, y, anchor = place
        box = _box((x, y), wide, self.letter, anchor)
        box = (box[0], box[1], box[2], box[3] + (rows - 1) * _LINE * self.letter)
        outside = box[0] < 1 or box[2] > self.width - 1
        meets = sum(_meet(box, other) for other in self._taken)
        crossed = sum(box[1] <= py <= box[3] for _, py in self._between(box[0], box[2]))
        return 1000.0 * outside + 300.0 * meets + 2.0 * crossed + math.dist(point, (x, y))

    def _between(self, left: float, right: float) -> list[Point]:
        """The points of lines between two uprights; they are sorted once for all words of a drawing."""
        if len(self._sorted) != len(self._lines):
            self._sorted = sorted(self._lines)
        first, last = (
            bisect_left(self._sorted, (left, -math.inf)),
            bisect_right(self._sorted, (right, math.inf)),
        )
        return self._sorted[first:last]

    def _grow(self, *ys: float) -> None:
        self._extent = [min(self._extent[0], *ys), max(self._extent[1], *ys)]


def round_line(centre: Point, radius: float, first_deg: float = 0, last_deg: float = 360) -> list[Point]:
    """The points of a circle or of an arc of it.

    Args:
        centre: its centre [mm].
        radius: [mm] its radius.
        first_deg: [deg] where it begins.
        last_deg: [deg] where it ends.

    Returns:
        The points [mm], about five degrees apart or less.

    Source: geometry.

    Example:
        >>> len(round_line((0, 0), 10))
        97
    """
    steps = max(8, math.ceil(abs(last_deg - first_deg) / 3.75))
    angles = [math.radians(first_deg + (last_deg - first_deg) * i / steps) for i in range(steps + 1)]
    return [(centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles]


def _box(at: Point, wide: float, letter: float, anchor: str) -> Box:
    left = at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
    return (left - _CLEAR, at[1] - 0.8 * letter, left + wide + _CLEAR, at[1] + 0.28 * letter)


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _closely(line: Sequence[Point]) -> list[Point]:
    """Points along a line, a millimetre or so apart, however its own lie."""
    found: list[Point] = list(line[:1])
    for (x, y), (to_x, to_y) in pairwise(line):
        if math.dist(found[-1], (to_x, to_y)) < _APART:
            continue
        steps = min(60, max(1, math.ceil(math.hypot(to_x - x, to_y - y) / 1.5)))
        found += [(x + (to_x - x) * i / steps, y + (to_y - y) * i / steps) for i in range(1, steps + 1)]
    return found
