"""Room for words on a drawing: boxes in a grid, so that finding a free place takes as long on any drawing."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from itertools import pairwise

from calculators.drawing.svg import Box, Point

_CELL_MM = 4.0
_WAYS = ((1, -1), (1, 1), (-1, -1), (-1, 1), (0, -1), (1, 0), (-1, 0), (0, 1))


class Room:
    """What is taken on a sheet: what no word may overprint, and lines that words rather keep off.

    `asked` counts how many boxes were looked at, which is the work that placing words takes.
    """

    def __init__(self) -> None:
        self._hard: dict[tuple[int, int], list[Box]] = defaultdict(list)
        self._soft: dict[tuple[int, int], list[Box]] = defaultdict(list)
        self.asked = 0

    def take(self, box: Box, *, soft: bool = False) -> None:
        """Take a box."""
        held = self._soft if soft else self._hard
        for cell in _cells(box):
            held[cell].append(box)

    def take_line(self, points: Sequence[Point], *, soft: bool = False, half: float = 0.3) -> None:
        """Take a line of straight pieces, as small boxes along it."""
        for (x, y), (to_x, to_y) in pairwise(points):
            level = abs(x - to_x) < 1e-6 or abs(y - to_y) < 1e-6
            count = 1 if level else max(1, math.ceil(max(abs(to_x - x), abs(to_y - y)) / 1.5))
            for i in range(count):
                a, b = x + (to_x - x) * i / count, y + (to_y - y) * i / count
                c, d = x + (to_x - x) * (i + 1) / count, y + (to_y - y) * (i + 1) / count
                self.take((min(a, c) - half, min(b, d) - half, max(a, c) + half, max(b, d) + half), soft=soft)

    def cost(self, box: Box) -> float:
        """Say how bad a place is: endless over words or the outline, more with each other line it lies on."""
        cost = 0.0
        for cell in _cells(box):
            for other in self._hard.get(cell, ()):
                self.asked += 1
                if _meet(box, other):
                    return math.inf
            for other in self._soft.get(cell, ()):
                self.asked += 1
                cost += _meet(box, other)
        return cost

    def words_near(self, field: Box) -> list[Box]:
        """Give the boxes that are taken within a field."""
        found = {box for cell in _cells(field) for box in self._hard.get(cell, ())}
        return sorted(found)

    def beside(
        self, at: Point, reach: float, size: Point, field: Box, *, rings: int = 7, shy: float = 1.0
    ) -> Box | None:
        """Find a free place beside a point: the nearest with nothing under it, else the one with the least.

        Gives None where there is none within `rings` heights of it. The more `shy`, the further words go to
        keep off a line.
        """
        (x, y), (w, h) = at, size
        best: tuple[float, Box] | None = None
        for ring in range(rings):
            out = reach + ring * h * 0.8
            for dx, dy in _WAYS:
                cx, cy = x + dx * (out + w / 2), y + dy * (out + h / 2)
                box = (cx - w / 2, cy - h / 2, cx + w / 2, cy + h / 2)
                if box[0] < field[0] or box[1] < field[1] or box[2] > field[2] or box[3] > field[3]:
                    continue
                cost = shy * self.cost(box) + 0.4 * ring
                if cost < math.inf and (best is None or cost < best[0]):
                    best = (cost, box)
            if best is not None and best[0] <= 0.4 * (ring + 1):
                break
        return best[1] if best else None


def _cells(box: Box) -> Iterable[tuple[int, int]]:
    columns = range(math.floor(box[0] / _CELL_MM), math.floor(box[2] / _CELL_MM) + 1)
    rows = range(math.floor(box[1] / _CELL_MM), math.floor(box[3] / _CELL_MM) + 1)
    return ((column, row) for column in columns for row in rows)


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
