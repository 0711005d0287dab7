"""Which boxes lie near one another, without comparing each with each.

Boxes are sorted into classes of like size along each axis (steps of four). Two classes are laid over one
grid whose cells are as large as their largest box: a box then has its neighbours in few cells,
and the work grows with the number of boxes, whether a plate grows in one direction or in two.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from calculators.geometry.shapes import Box
from calculators.geometry.vectors import Vector

FEW = 12
"""So many boxes are compared each with each: that is quicker than a grid."""
MOST_CLASSES = 24
LEAST_MM = 2.0**-8

_Class = tuple[int, int, int]
_Cell = tuple[int, int, int]


def near_pairs(
    boxes: Sequence[Box], within: float, most_each: int | None = None
) -> Iterator[tuple[int, int]]:
    """Find all pairs of boxes that are nearer to one another than `within`, each pair once.

    Boxes are near when the gap between them is less than `within` along each of X, Y and Z: shapes in boxes
    that are not near are at least `within` apart. Boxes that touch are near even when `within` is 0.

    Args:
        boxes: least and greatest corners [mm].
        within: the distance [mm], 0 or more.
        most_each: how many partners of its own size or larger are told of one box, or None for all: where
            thousands lie on one spot, the answer itself would grow with the square of their number.

    Yields:
        Pairs of places in `boxes`, the lesser first, in no stated order.

    Source: this project (a grid for each pair of classes of size).

    Example:
        >>> row = [((x, 0, 0), (x + 5, 5, 5)) for x in (0, 7, 40)]
        >>> list(near_pairs(row, 3))
        [(0, 1)]
    """
    if len(boxes) <= FEW:
        for j in range(1, len(boxes)):
            for i in range(j):
                if boxes_near(boxes[i], boxes[j], within):
                    yield i, j
        return
    classes = _classes(boxes, within)
    names = sorted(classes, key=lambda name: sum(name))
    sizes = {name: _largest(boxes, members) for name, members in classes.items()}
    told = [0] * len(boxes)
    for place, name in enumerate(names):
        for other in names[place:]:
            grid = _Grid(boxes, classes[other], sizes[name], within)
            for i in classes[name]:
                for j in grid.around(boxes[i], within):
                    if (other != name or i < j) and boxes_near(boxes[i], boxes[j], within):
                        told[i] += 1
                        if most_each is not None and told[i] > most_each:
                            break
                        yield (i, j) if i < j else (j, i)


def near_pairs_between(
    first: Sequence[Box], second: Sequence[Box], within: float
) -> Iterator[tuple[int, int]]:
    """Find all pairs of a box of one list and a box of another that are nearer than `within`.

    Args:
        first: boxes [mm].
        second: boxes [mm].
        within: the distance [mm], 0 or more, as of `near_pairs`.

    Yields:
        Pairs of a place in `first` and one in `second`, in no stated order.

    Source: this project (a grid for each pair of classes of size).

    Example:
        >>> list(near_pairs_between([((0, 0, 0), (5, 5, 5))], [((6, 0, 0), (9, 5, 5))], 2))
        [(0, 0)]
    """
    if len(first) * len(second) <= FEW * FEW:
        for i, one in enumerate(first):
            for j, box in enumerate(second):
                if boxes_near(one, box, within):
                    yield i, j
        return
    theirs = _classes(second, within)
    for ours in _classes(first, within).values():
        sizes = _largest(first, ours)
        for members in theirs.values():
            grid = _Grid(second, members, sizes, within)
            for i in ours:
                for j in grid.around(first[i], within):
                    if boxes_near(first[i], second[j], within):
                        yield i, j


def boxes_near(one: Box, other: Box, within: float) -> bool:
    """Say whether the gap between two boxes is less than `within` along each axis (touching counts).

    Args:
        one: a box.
        other: another.
        within: the distance [mm], 0 or more.

    Returns:
        True where they are near.

    Source: this project.
    """
    (ax, ay, az), (bx, by, bz) = one
    (cx, cy, cz), (dx, dy, dz) = other
    gap = max(cx - bx, ax - dx, cy - by, ay - dy, cz - bz, az - dz)
    return gap < within or gap <= 0.0


def _classes(boxes: Sequence[Box], within: float) -> dict[_Class, list[int]]:
    """Sort boxes by size along each axis; by their largest size alone where that makes many classes."""
    classes: dict[_Class, list[int]] = {}
    for i, (low, high) in enumerate(boxes):
        name = (
            _step(high[0] - low[0] + 2.0 * within),
            _step(high[1] - low[1] + 2.0 * within),
            _step(high[2] - low[2] + 2.0 * within),
        )
        classes.setdefault(name, []).append(i)
    if len(classes) <= MOST_CLASSES:
        return classes
    cubes: dict[_Class, list[int]] = {}
    for name, members in classes.items():
        cubes.setdefault((max(name),) * 3, []).extend(members)
    return cubes


def _step(size: float) -> int:
    """Return the least k from -4 on with 4^k not less than a size [mm]."""
    if size <= 2.0**-8:
        return -4
    mantissa, exponent = math.frexp(size)
    if mantissa == 0.5:
        exponent -= 1
    return (exponent + 1) // 2


class _Grid:
    """Boxes of one class, each in the cell of its least corner; cells are as large as the largest box."""

    def __init__(self, boxes: Sequence[Box], members: Sequence[int], others: Vector, within: float) -> None:
        """Lay out the grid that serves two classes; `others` are the largest sizes of the other class."""
        self.sizes = _largest(boxes, members)
        sx, sy, sz = (
            max(mine, theirs, within, LEAST_MM) for mine, theirs in zip(self.sizes, others, strict=True)
        )
        self.cell = (sx, sy, sz)
        self.cells: dict[_Cell, list[int]] = {}
        floor = math.floor
        for i in members:
            x, y, z = boxes[i][0]
            self.cells.setdefault((floor(x / sx), floor(y / sy), floor(z / sz)), []).append(i)
        self.first = tuple(min(cell[k] for cell in self.cells) for k in range(3))
        self.last = tuple(max(cell[k] for cell in self.cells) for k in range(3))

    def around(self, box: Box, within: float) -> Iterator[int]:
        """Go through all that may be near a box."""
        spans = []
        for k in range(3):
            # A box of this grid reaches at most the largest one's size beyond its own least corner.
            low = math.floor((box[0][k] - within - self.sizes[k]) / self.cell[k])
            high = math.floor((box[1][k] + within) / self.cell[k])
            spans.append(range(max(low, self.first[k]), min(high, self.last[k]) + 1))
        xs, ys, zs = spans
        find = self.cells.get
        for kx in xs:
            for ky in ys:
                for kz in zs:
                    members = find((kx, ky, kz))
                    if members:
                        yield from members


def _largest(boxes: Sequence[Box], members: Sequence[int]) -> Vector:
    """Return the largest size of boxes along each axis."""
    x, y, z = (max(boxes[i][1][k] - boxes[i][0][k] for i in members) for k in range(3))
    return x, y, z
