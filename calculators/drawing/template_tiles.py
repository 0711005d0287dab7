"""How a face is parted over pages: which way the paper lies, where the pages meet, which are printed.

Everything is in view coordinates: millimetres of the part, x to the right and y upward as the template is
looked at; a mirrored template has x = -u.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from calculators.drawing.face_shape import FaceShape, HoleShape
from calculators.drawing.svg import Box, Point
from calculators.drawing.template_paper import PageLayout, Stretch, page_layout
from calculators.geometry.outlines import Outline, Vertex, bounds, circle, flat_points
from calculators.quantities.errors import InputError

OVERLAP_MM = 12.0
"""What two neighbouring pages both show; half of it is more than a prick cross needs."""

EDGE_MM = 1.5
"""Room round the part, so that its outline is not on the very edge of what is drawn."""

MOST_PAGES = 120
_SHIFTS = 5
_NEAR_CUT_MM = 5.0
Cell = tuple[int, int]
"""Column from the left and row from the top."""


@dataclass(frozen=True, slots=True)
class Tile:
    """One page of a face: what its field shows and what is its own once it is cut [view mm].

    Boxes are least x, least y, greatest x, greatest y. `left`, `right`, `above` and `below` are the names of
    the printed neighbours, '' where there is none.
    """

    name: str
    column: int
    row: int
    box: Box
    cell: Box
    left: str = ""
    right: str = ""
    above: str = ""
    below: str = ""


@dataclass(frozen=True, slots=True)
class Tiling:
    """A face over pages: the layout of each, how many columns and rows, and those that are printed."""

    layout: PageLayout
    columns: int
    rows: int
    tiles: tuple[Tile, ...]
    view: FaceShape


def in_view(shape: FaceShape, *, mirrored: bool) -> FaceShape:
    """Give a face as its template shows it.

    Args:
        shape: the face, seen from outside.
        mirrored: whether it is turned about, left for right.

    Returns:
        The face in view coordinates.

    Source: geometry: mirrored, x = -u and every arc turns the other way.

    Example:
        >>> in_view(FaceShape("P1", "", "top", (Vertex(5, 0, 1),), 3), mirrored=True).outline
        (Vertex(x=-5, y=0, bulge=-1),)
    """
    if not mirrored:
        return shape
    return replace(
        shape,
        outline=tuple(Vertex(-one.x, one.y, -one.bulge) for one in shape.outline),
        holes=tuple(replace(one, u_mm=-one.u_mm) for one in shape.holes),
        pockets=tuple(replace(one, u_mm=-one.u_mm - one.length_mm) for one in shape.pockets),
    )


def tiling_of(shape: FaceShape, paper: str, stretch: Stretch, *, mirrored: bool = False) -> Tiling:
    """Part a face over the fewest pages.

    Args:
        shape: the face, seen from outside.
        paper: `a4` or `letter`.
        stretch: the correction for the printer.
        mirrored: whether the template is turned about.

    Returns:
        The tiling with the fewest pages; of like ones that with the fewest holes where pages meet, upright
        before lying.

    Raises:
        InputError: for a paper that there is not, and where it takes more than 120 pages.

    Source: this project.

    Example:
        >>> from calculators.geometry.outlines import rectangle
        >>> board = FaceShape("P1", "Board", "top", rectangle(0, 0, 640, 260), 18)
        >>> len(tiling_of(board, "a4", Stretch()).tiles)
        6
    """
    view = in_view(shape, mirrored=mirrored)
    lines = list(_segments(view))
    found = [
        _best_shift(view, lines, page_layout(paper, stretch, landscape=landscape))
        for landscape in (False, True)
    ]
    most, grid = min(found, key=lambda one: one[0])
    if most[0] > MOST_PAGES:
        raise InputError.of(
            f"A template of the {shape.face} of {shape.mark} takes {most[0]:.0f} pages; up to {MOST_PAGES} "
            "are printed. Mark it out from its drilling sheet.",
            field="face",
        )
    return _tiling(view, grid, lines)


@dataclass(frozen=True, slots=True)
class _Grid:
    """Where pages would lie: the field of the first begins at the left and the top."""

    layout: PageLayout
    left: float
    top: float
    columns: int
    rows: int

    @property
    def x_step(self) -> float:
        return self.layout.field_width - OVERLAP_MM

    @property
    def y_step(self) -> float:
        return self.layout.field_height - OVERLAP_MM

    def cuts(self) -> tuple[list[float], list[float]]:
        """The x and the y (downward from the top row) where neighbours meet."""
        half = OVERLAP_MM / 2
        xs = [self.left + i * self.x_step + half for i in range(1, self.columns)]
        return xs, [self.top - i * self.y_step - half for i in range(1, self.rows)]

    def cell_at(self, x: float, y: float) -> Cell:
        """The page that a point is on once the pages are cut."""
        half = OVERLAP_MM / 2
        column = math.floor((x - self.left - half) / self.x_step)
        row = math.floor((self.top - half - y) / self.y_step)
        return min(max(column, 0), self.columns - 1), min(max(row, 0), self.rows - 1)


def _best_shift(
    view: FaceShape, lines: Sequence[tuple[Point, Point]], layout: PageLayout
) -> tuple[tuple[float, float, float], _Grid]:
    """The best place for the pages of one layout, with what it costs."""
    x0, y0, x1, y1 = _bounds(view)
    wide, high = x1 - x0 + 2 * EDGE_MM, y1 - y0 + 2 * EDGE_MM
    columns, rows = _count(wide, layout.field_width), _count(high, layout.field_height)
    spare_x = layout.field_width + (columns - 1) * (layout.field_width - OVERLAP_MM) - wide
    spare_y = layout.field_height + (rows - 1) * (layout.field_height - OVERLAP_MM) - high
    turned = float(layout.landscape)
    if columns * rows > 4 * MOST_PAGES:
        return (float(columns * rows), 0.0, turned), _Grid(layout, x0, y1, columns, rows)
    best: tuple[tuple[float, float, float], _Grid] | None = None
    # The middle first: of like ones the part lies in the middle of its pages.
    parts = sorted((i / (_SHIFTS - 1) for i in range(_SHIFTS)), key=lambda part: abs(part - 0.5))
    for part_x in parts if columns > 1 else (0.5,):
        for part_y in parts if rows > 1 else (0.5,):
            grid = _Grid(
                layout, x0 - EDGE_MM - spare_x * part_x, y1 + EDGE_MM + spare_y * part_y, columns, rows
            )
            needed = len(_joined(_needed(view, lines, grid), grid)) if columns * rows > 1 else 1
            cost = (float(needed), float(_near_cuts(view, grid)), turned)
            if best is None or cost < best[0]:
                best = (cost, grid)
    assert best
    return best


def _bounds(view: FaceShape) -> Box:
    """What must be on paper: the outline, and holes that lie outside it by mistake."""
    x0, y0, x1, y1 = bounds(view.outline)
    xs, ys = [one.u_mm for one in view.holes], [one.v_mm for one in view.holes]
    return min([x0, *xs]), min([y0, *ys]), max([x1, *xs]), max([y1, *ys])


def _count(span: float, field: float) -> int:
    return 1 if span <= field else math.ceil((span - OVERLAP_MM) / (field - OVERLAP_MM) - 1e-9)


def _near_cuts(view: FaceShape, grid: _Grid) -> int:
    """How many holes lie where pages meet."""
    xs, ys = grid.cuts()
    return sum(
        any(abs(one.u_mm - x) < _NEAR_CUT_MM + one.outer_mm / 2 for x in xs)
        or any(abs(one.v_mm - y) < _NEAR_CUT_MM + one.outer_mm / 2 for y in ys)
        for one in view.holes
    )


def _segments(view: FaceShape) -> Iterator[tuple[Point, Point]]:
    """Every line that must be on paper, as short straight ones."""
    outlines: list[Outline] = [view.outline, *(one.outline for one in view.pockets)]
    if view.bore_mm > 0:
        outlines.append(circle(0.0, 0.0, view.bore_mm))
    outlines += [_widest(one) for one in view.holes if _reach(one) > OVERLAP_MM / 2 - 0.5]
    for outline in outlines:
        points = flat_points(outline, 0.05)
        yield from zip(points, (*points[1:], points[0]), strict=True)


def _reach(one: HoleShape) -> float:
    return max(one.outer_mm, one.slot_length_mm) / 2


def _widest(one: HoleShape) -> Outline:
    return one.outline if one.slot_length_mm > one.outer_mm else circle(one.u_mm, one.v_mm, one.outer_mm)


def _needed(view: FaceShape, lines: Sequence[tuple[Point, Point]], grid: _Grid) -> set[Cell]:
    """The pages that have a line or a hole's centre on them."""
    xs, ys = grid.cuts()
    found = {grid.cell_at(one.u_mm, one.v_mm) for one in view.holes}
    for start, end in lines:
        first, last = grid.cell_at(*start), grid.cell_at(*end)
        found.add(first)
        if first != last:
            found.update(_crossed(start, end, xs, ys, grid))
    return found


def _crossed(start: Point, end: Point, xs: list[float], ys: list[float], grid: _Grid) -> Iterator[Cell]:
    """The pages that a straight line passes."""
    (x, y), (to_x, to_y) = start, end
    at = [0.0, 1.0]
    at += [(cut - x) / (to_x - x) for cut in xs if min(x, to_x) < cut < max(x, to_x)]
    at += [(cut - y) / (to_y - y) for cut in ys if min(y, to_y) < cut < max(y, to_y)]
    at.sort()
    for one, following in pairwise(at):
        part = (one + following) / 2
        yield grid.cell_at(x + (to_x - x) * part, y + (to_y - y) * part)


def _beside(cell: Cell, grid: _Grid) -> Iterator[Cell]:
    column, row = cell
    for x, y in ((column - 1, row), (column + 1, row), (column, row - 1), (column, row + 1)):
        if 0 <= x < grid.columns and 0 <= y < grid.rows:
            yield x, y


def _joined(needed: set[Cell], grid: _Grid) -> set[Cell]:
    """The needed pages, with such blank ones between them that all hang together."""
    found = set(needed)
    while True:
        start = min(found)
        way: dict[Cell, Cell] = {start: start}
        queue = [start]
        for cell in queue:  # first all that hangs on it
            fresh = [each for each in _beside(cell, grid) if each in found and each not in way]
            way.update((each, cell) for each in fresh)
            queue += fresh
        if len(way) == len(found):
            return found
        found.update(_bridge(set(way), found, grid))


def _bridge(here: set[Cell], found: set[Cell], grid: _Grid) -> Iterable[Cell]:
    """The blank pages of a shortest way from some pages to any of the others."""
    came: dict[Cell, Cell | None] = dict.fromkeys(sorted(here))
    queue = list(came)
    for cell in queue:
        for each in _beside(cell, grid):
            if each in came:
                continue
            came[each] = cell
            if each in found:
                back: Cell | None = cell
                while back is not None and back not in here:
                    yield back
                    back = came[back]
                return
            queue.append(each)


def _tiling(view: FaceShape, grid: _Grid, lines: Sequence[tuple[Point, Point]]) -> Tiling:
    whole = grid.columns * grid.rows == 1
    printed = {(0, 0)} if whole else _joined(_needed(view, lines, grid), grid)
    tiles = tuple(_tile(cell, printed, grid) for cell in sorted(printed, key=lambda cell: (cell[1], cell[0])))
    return Tiling(grid.layout, grid.columns, grid.rows, tiles, view)


def _tile(cell: Cell, printed: set[Cell], grid: _Grid) -> Tile:
    column, row = cell
    x0, y1 = grid.left + column * grid.x_step, grid.top - row * grid.y_step
    x1, y0 = x0 + grid.layout.field_width, y1 - grid.layout.field_height
    half = OVERLAP_MM / 2

    def beside(x: int, y: int) -> str:
        return tile_name(x, y) if (x, y) in printed else ""

    return Tile(
        tile_name(column, row),
        column,
        row,
        (x0, y0, x1, y1),
        (
            x0 + half * (column > 0),
            y0 + half * (row < grid.rows - 1),
            x1 - half * (column < grid.columns - 1),
            y1 - half * (row > 0),
        ),
        beside(column - 1, row),
        beside(column + 1, row),
        beside(column, row - 1),
        beside(column, row + 1),
    )


def tile_name(column: int, row: int) -> str:
    """Name a page by its column, a number from the left, and its row, a letter from the top.

    Args:
        column: from 0.
        row: from 0.

    Returns:
        The name; the number stands first, for A4 is a size of paper.

    Source: this project.

    Example:
        >>> tile_name(0, 0), tile_name(2, 1), tile_name(0, 27)
        ('1A', '3B', '1AB')
    """
    letters = ""
    left = row + 1
    while left:
        left, place = divmod(left - 1, 26)
        letters = chr(65 + place) + letters
    return f"{column + 1}{letters}"
