"""An outline filled with convex polygons: strips between its corners, of both ways, joined and drawn out.

Strips that make a convex whole are joined; then each is drawn out to both sides as far as its own slanting
edges stay inside, so that the polygons overlap one another and none is a mere sliver of a thick part.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from calculators.geometry.outlines import Outline, Point2, flat_points

OFF_MM = 0.01
"""How far a polygon may be off an arc; more only where an outline would come to too many corners."""

MOST_OFF_MM = 0.05
MOST_POINTS = 1_500
_CLOSE_MM = 1e-7

Polygon = tuple[Point2, ...]


@dataclass(frozen=True, slots=True)
class _Strip:
    """A trapezium between two heights at `left` and two at `right`."""

    left: float
    right: float
    low_left: float
    low_right: float
    high_left: float
    high_right: float

    def low(self, x: float) -> float:
        share = (x - self.left) / (self.right - self.left)
        return self.low_left + share * (self.low_right - self.low_left)

    def high(self, x: float) -> float:
        share = (x - self.left) / (self.right - self.left)
        return self.high_left + share * (self.high_right - self.high_left)


@lru_cache(maxsize=128)
def convex_polygons(outline: Outline) -> tuple[Polygon, ...]:
    """Fill an outline with convex polygons that may overlap.

    Args:
        outline: the outline, which does not cross itself.

    Returns:
        The polygons, each anticlockwise [mm]. An arc is followed to 0.01 mm, and where the outline would
        come to more than 1,500 corners to 0.05 mm.

    Source: this project.

    Example:
        >>> from calculators.geometry.outlines import Vertex
        >>> corners = [(0, 0), (9, 0), (9, 4), (5, 4), (5, 9), (0, 9)]
        >>> len(convex_polygons(tuple(Vertex(x, y) for x, y in corners)))
        2
    """
    points = flat_points(outline, OFF_MM)
    if len(points) > MOST_POINTS:
        points = flat_points(outline, MOST_OFF_MM)
    upright = _filled(points)
    if len(upright) < 2:
        return upright
    # Strips the other way too: where those of one way meet in a seam, one of the other goes across it.
    lying = _filled([(y, x) for x, y in points])
    return tuple(dict.fromkeys((*upright, *(_begun(tuple((x, y) for y, x in reversed(p))) for p in lying))))


def _filled(points: list[Point2]) -> tuple[Polygon, ...]:
    columns = _columns(points)
    found = [_drawn_out(chain, columns) for chain in _chains(columns)]
    return tuple(dict.fromkeys(_begun(polygon) for polygon in found if len(polygon) > 2))


def _begun(polygon: Polygon) -> Polygon:
    """The polygon begun from its least corner, so that like ones are the same."""
    first = polygon.index(min(polygon))
    return (*polygon[first:], *polygon[:first])


def _columns(points: list[Point2]) -> list[list[_Strip]]:
    """The strips of material between each two neighbouring corners, from left to right."""
    edges = []
    for a, b in zip(points, [*points[1:], *points[:1]], strict=True):
        low, high = (a, b) if a[0] <= b[0] else (b, a)
        if high[0] - low[0] > _CLOSE_MM:
            edges.append((low, high))
    edges.sort()
    columns: list[list[_Strip]] = []
    xs = _apart(sorted(x for x, _ in points))
    active: list[tuple[Point2, Point2]] = []
    waiting = 0
    for left, right in pairwise(xs):
        middle = (left + right) / 2.0
        while waiting < len(edges) and edges[waiting][0][0] < middle:
            active.append(edges[waiting])
            waiting += 1
        active = [edge for edge in active if edge[1][0] > middle]
        crossing = sorted(active, key=lambda edge: _height(edge, middle))
        column = []
        for below, above in zip(crossing[::2], crossing[1::2], strict=False):
            if _height(above, middle) - _height(below, middle) > _CLOSE_MM:
                heights = [_height(edge, x) for edge in (below, above) for x in (left, right)]
                column.append(_Strip(left, right, *heights))
        columns.append(column)
    return columns


def _apart(values: list[float]) -> list[float]:
    kept: list[float] = []
    for value in values:
        if not kept or value - kept[-1] > _CLOSE_MM:
            kept.append(value)
    return kept


def _height(edge: tuple[Point2, Point2], x: float) -> float:
    (ax, ay), (bx, by) = edge
    return ay + (by - ay) * min(max((x - ax) / (bx - ax), 0.0), 1.0)


def _chains(columns: list[list[_Strip]]) -> list[tuple[int, list[_Strip]]]:
    """Join strips side by side as long as they make a convex whole; each with its first column."""
    done: list[tuple[int, list[_Strip]]] = []
    open_chains: list[tuple[int, list[_Strip]]] = []
    for index, column in enumerate(columns):
        going: list[tuple[int, list[_Strip]]] = []
        for strip in column:
            before = next((each for each in open_chains if _goes_on(each[1][-1], strip)), None)
            if before is None:
                going.append((index, [strip]))
            else:
                before[1].append(strip)
                open_chains.remove(before)
                going.append(before)
        done += open_chains
        open_chains = going
    return done + open_chains


def _goes_on(strip: _Strip, following: _Strip) -> bool:
    """Whether two strips share a side, and their lower edges turn left and their upper ones right."""
    if abs(strip.low_right - following.low_left) > 1e-9 or abs(strip.high_right - following.high_left) > 1e-9:
        return False
    low = _slope(strip.left, strip.low_left, strip.right, strip.low_right)
    high = _slope(strip.left, strip.high_left, strip.right, strip.high_right)
    on_low = _slope(following.left, following.low_left, following.right, following.low_right)
    on_high = _slope(following.left, following.high_left, following.right, following.high_right)
    return on_low >= low - 1e-12 and on_high <= high + 1e-12


def _slope(left: float, at_left: float, right: float, at_right: float) -> float:
    return (at_right - at_left) / (right - left)


def _drawn_out(chain: tuple[int, list[_Strip]], columns: list[list[_Strip]]) -> Polygon:
    """The polygon of joined strips, drawn out to both sides along its last edges."""
    first, strips = chain
    start, end = strips[0], strips[-1]
    low = [(start.left, start.low_left), *((one.right, one.low_right) for one in strips)]
    high = [(start.left, start.high_left), *((one.right, one.high_right) for one in strips)]
    x = _reach(start, columns[:first][::-1], -1)
    if x < start.left - _CLOSE_MM:
        low[0], high[0] = (x, start.low(x)), (x, start.high(x))
    x = _reach(end, columns[first + len(strips) :], 1)
    if x > end.right + _CLOSE_MM:
        low[-1], high[-1] = (x, end.low(x)), (x, end.high(x))
    return _plain([*low, *high[::-1]])


def _reach(strip: _Strip, columns: list[list[_Strip]], way: int) -> float:
    """How far a strip can be drawn out along its own edges through the columns beside it."""
    at = strip.right if way > 0 else strip.left
    for column in columns:
        low, high = strip.low(at), strip.high(at)
        beside = next(
            (one for one in column if _at(one, at)[0] <= low + 1e-9 and _at(one, at)[1] >= high - 1e-9),
            None,
        )
        if beside is None or high - low <= _CLOSE_MM:
            return at
        far = beside.right if way > 0 else beside.left
        # All four edges are straight: the first of the three places where two of them meet ends it.
        shares = [1.0]
        for here, there in (
            (low - _at(beside, at)[0], strip.low(far) - _at(beside, far)[0]),
            (_at(beside, at)[1] - high, _at(beside, far)[1] - strip.high(far)),
            (high - low, strip.high(far) - strip.low(far)),
        ):
            if there < -1e-9:
                shares.append(max(here, 0.0) / (max(here, 0.0) - there))
        share = min(shares)
        if share < 1.0:
            return at + share * (far - at)
        at = far
    return at


def _at(strip: _Strip, x: float) -> tuple[float, float]:
    return strip.low(x), strip.high(x)


def _plain(points: list[Point2]) -> Polygon:
    """Leave out points that are one with the next, and those that lie in line with their neighbours."""
    apart = [p for p, q in zip(points, [*points[1:], *points[:1]], strict=True) if not _one(p, q)]
    kept: list[Point2] = []
    for i, point in enumerate(apart):
        before, after = apart[i - 1], apart[(i + 1) % len(apart)]
        turn = (point[0] - before[0]) * (after[1] - point[1]) - (point[1] - before[1]) * (after[0] - point[0])
        if abs(turn) > 1e-12:
            kept.append(point)
    return tuple(kept)


def _one(p: Point2, q: Point2) -> bool:
    return abs(p[0] - q[0]) <= _CLOSE_MM and abs(p[1] - q[1]) <= _CLOSE_MM


def area_of(polygon: Polygon) -> float:
    """Return the area of a polygon.

    Args:
        polygon: its corners [mm], anticlockwise.

    Returns:
        The area [mm²].

    Source: the shoelace formula.

    Example:
        >>> area_of(((0, 0), (4, 0), (4, 3), (0, 3)))
        12.0
    """
    pairs = zip(polygon, (*polygon[1:], *polygon[:1]), strict=True)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2.0


def beyond_line(polygon: Polygon, way: Point2, limit: float) -> Polygon:
    """Cut a convex polygon by a line.

    Args:
        polygon: its corners [mm].
        way: the unit vector square to the line, towards what is kept.
        limit: [mm] how far along it from (0, 0) the line lies.

    Returns:
        What is left; nothing where that has no area.

    Source: geometry.

    Example:
        >>> beyond_line(((0, 0), (4, 0), (4, 3), (0, 3)), (1, 0), 3)
        ((3.0, 0.0), (4, 0), (4, 3), (3.0, 3.0))
    """
    kept: list[Point2] = []
    for index, point in enumerate(polygon):
        before = polygon[index - 1]
        inside, was = (one[0] * way[0] + one[1] * way[1] - limit for one in (point, before))
        if (inside >= 0.0) != (was >= 0.0):
            share = was / (was - inside)
            kept.append(
                (before[0] + share * (point[0] - before[0]), before[1] + share * (point[1] - before[1]))
            )
        if inside >= 0.0:
            kept.append(point)
    found = _plain(kept) if len(kept) > 2 else ()
    return found if len(found) > 2 and area_of(found) > 1e-9 else ()
