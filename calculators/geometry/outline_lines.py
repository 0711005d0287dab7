"""Straight lines and an outline: where they run inside it, and how far a stretch of one stays clear of it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from itertools import pairwise

from calculators.geometry.outlines import (
    Arc,
    Outline,
    Point2,
    Vertex,
    arc_of,
    pieces,
    to_outline,
)
from calculators.geometry.vectors import cos_sin

_CLOSE_MM = 1e-6
"""Points nearer than this are one, and a line that runs so near along an edge only grazes it."""

_STILL = 1e-12
Stretch = tuple[float, float]


def stretches_inside(outline: Outline, start: Point2, way: Point2) -> list[Stretch]:
    """Give where a line runs inside an outline.

    Args:
        outline: the outline.
        start: [mm] a point of the line.
        way: [1] how far the line goes along x and y for each millimetre of it; (0, 0) for one that stands
            square to the plane.

    Returns:
        The stretches, in order, as distances along the line [mm]; a line that only grazes the outline or
        runs along an edge has none. One that stands square to the plane inside it runs there without end.

    Source: geometry: a line against lines and circles.

    Example:
        >>> from calculators.geometry.outlines import rectangle
        >>> stretches_inside(rectangle(0, 0, 40, 20), (-5, 10), (1, 0))
        [(5.0, 45.0)]
    """
    speed = math.hypot(*way)
    if speed < _STILL:
        return [(-math.inf, math.inf)] if to_outline(outline, *start) > _CLOSE_MM else []
    unit = (way[0] / speed, way[1] / speed)
    found: list[Stretch] = []
    for low, high in pairwise(sorted(_meetings(outline, start, unit))):
        if high - low <= _CLOSE_MM:
            continue
        middle = (low + high) / 2.0
        if to_outline(outline, start[0] + middle * unit[0], start[1] + middle * unit[1]) <= _CLOSE_MM:
            continue
        if found and low - found[-1][1] <= _CLOSE_MM:
            found[-1] = (found[-1][0], high)
        else:
            found.append((low, high))
    return [(low / speed, high / speed) for low, high in found]


def _meetings(outline: Outline, start: Point2, unit: Point2) -> Iterator[float]:
    """The distances along a line at which it meets the lines and arcs of an outline."""
    for one, to in pieces(outline):
        arc = arc_of(one, to)
        if arc is None:
            off, off_to = _off(start, unit, (one.x, one.y)), _off(start, unit, (to.x, to.y))
            if abs(off) <= _CLOSE_MM:
                yield _along(start, unit, (one.x, one.y))
            if abs(off_to) <= _CLOSE_MM:
                yield _along(start, unit, (to.x, to.y))
            if (off > 0.0) != (off_to > 0.0):
                share = off / (off - off_to)
                point = (one.x + share * (to.x - one.x), one.y + share * (to.y - one.y))
                yield _along(start, unit, point)
            continue
        yield _along(start, unit, (one.x, one.y))
        yield _along(start, unit, (to.x, to.y))
        off, middle = _off(start, unit, arc.centre), _along(start, unit, arc.centre)
        if abs(off) < arc.radius:
            half = math.sqrt((arc.radius - off) * (arc.radius + off))
            for at in (middle - half, middle + half):
                if passes(arc, (start[0] + at * unit[0], start[1] + at * unit[1])):
                    yield at


def _off(start: Point2, unit: Point2, point: Point2) -> float:
    return (point[1] - start[1]) * unit[0] - (point[0] - start[0]) * unit[1]


def _along(start: Point2, unit: Point2, point: Point2) -> float:
    return (point[0] - start[0]) * unit[0] + (point[1] - start[1]) * unit[1]


def passes(arc: Arc, point: Point2) -> bool:
    """Say whether an arc goes through the direction in which a point lies from its centre.

    Args:
        arc: the arc.
        point: [mm] the point.

    Returns:
        True where it does.

    Source: geometry.

    Example:
        >>> passes(Arc((0, 0), 10, 0, 90), (5, 5)), passes(Arc((0, 0), 10, 0, 90), (5, -5))
        (True, False)
    """
    angle = math.degrees(math.atan2(point[1] - arc.centre[1], point[0] - arc.centre[0]))
    turned = (angle - arc.first_deg) % 360.0 if arc.turn_deg > 0 else (arc.first_deg - angle) % 360.0
    return turned <= abs(arc.turn_deg)


def normal_near(outline: Outline, x: float, y: float) -> Point2:
    """Give the direction square to the outline where it is nearest to a point.

    Args:
        outline: the outline.
        x: [mm] the point.
        y: [mm] the point.

    Returns:
        A unit vector of either sense.

    Source: geometry.

    Example:
        >>> from calculators.geometry.outlines import rectangle
        >>> normal_near(rectangle(0, 0, 40, 20), 39, 10)
        (1.0, 0.0)
    """
    one, to = min(pieces(outline), key=lambda each: _from_piece(each[0], each[1], (x, y), (x, y)))
    arc = arc_of(one, to)
    if arc is None:
        dx, dy = to.y - one.y, one.x - to.x
    else:
        dx, dy = x - arc.centre[0], y - arc.centre[1]
    long = math.hypot(dx, dy)
    return (dx / long, dy / long) if long > 0.0 else (1.0, 0.0)


def clear_of(
    outline: Outline, start: Point2, end: Point2, passing: tuple[Point2, Point2] | None = None
) -> float:
    """Give how far a straight stretch stays from an outline.

    Args:
        outline: the outline.
        start: [mm] where the stretch begins.
        end: [mm] where it ends; the same point for a point.
        passing: [mm] the ends of a stretch; the lines and arcs that it crosses are left out of account.

    Returns:
        The least distance [mm], 0 where they cross; without end where nothing is left of the outline.

    Source: geometry: two stretches, or a stretch and an arc, are nearest at an end of one of them, or where
    the line square to the stretch through the centre meets the arc.

    Example:
        >>> from calculators.geometry.outlines import rectangle
        >>> clear_of(rectangle(0, 0, 100, 40), (20, 12), (60, 15))
        12.0
    """
    return min(
        (
            _from_piece(one, to, start, end)
            for one, to in pieces(outline)
            if passing is None or _from_piece(one, to, *passing) > 0.0
        ),
        default=math.inf,
    )


def off_rectangle(outline: Outline, low: Point2, high: Point2) -> float:
    """Give how far a rectangle lies outside an outline.

    Args:
        outline: the outline.
        low: [mm] the rectangle's corner with the least x and y.
        high: [mm] that with the greatest.

    Returns:
        The distance [mm]; nought where they have anything in common.

    Source: geometry.

    Example:
        >>> from calculators.geometry.outlines import circle
        >>> disc = circle(0, 0, 20)
        >>> off_rectangle(disc, (13, -1), (20, 1)), off_rectangle(disc, (9, 0), (20, 1))
        (3.0, 0.0)
    """
    corners = _corners(low, high)
    if any(to_outline(outline, *corner) > 0.0 for corner in corners):
        return 0.0
    if any(low[0] <= one.x <= high[0] and low[1] <= one.y <= high[1] for one in outline):
        return 0.0
    return min(clear_of(outline, a, b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))


def holds_rectangle(outline: Outline, low: Point2, high: Point2, wall_mm: float = 0.0) -> bool:
    """Say whether a rectangle lies wholly inside an outline, with a wall about it.

    Args:
        outline: the outline.
        low: [mm] the rectangle's corner with the least x and y.
        high: [mm] that with the greatest.
        wall_mm: [mm] the wall, 0 or more.

    Returns:
        True where it does.

    Source: geometry.

    Example:
        >>> from calculators.geometry.outlines import rectangle
        >>> holds_rectangle(rectangle(0, 0, 100, 40), (10, 10), (90, 39))
        True
    """
    corners = _corners(low, high)
    if any(to_outline(outline, *corner) <= wall_mm for corner in corners):
        return False
    sides = zip(corners, (*corners[1:], corners[0]), strict=True)
    if any(clear_of(outline, a, b) <= wall_mm for a, b in sides):
        return False
    return not any(low[0] <= one.x <= high[0] and low[1] <= one.y <= high[1] for one in outline)


def _corners(low: Point2, high: Point2) -> tuple[Point2, Point2, Point2, Point2]:
    return low, (high[0], low[1]), high, (low[0], high[1])


def _from_piece(one: Vertex, to: Vertex, start: Point2, end: Point2) -> float:
    """The distance of a stretch from a line or an arc; 0 where they cross."""
    arc = arc_of(one, to)
    a, b = (one.x, one.y), (to.x, to.y)
    if arc is None:
        if _cross(a, b, start, end):
            return 0.0
        return min(
            _to_stretch(a, start, end), _to_stretch(b, start, end), _to_stretch(start, a, b),
            _to_stretch(end, a, b),
        )  # fmt: skip
    far = min(_to_stretch(a, start, end), _to_stretch(b, start, end))
    for point in (start, end):
        if passes(arc, point):
            far = min(far, abs(math.dist(point, arc.centre) - arc.radius))
    long = math.dist(start, end)
    if long <= _STILL:
        return far
    unit = ((end[0] - start[0]) / long, (end[1] - start[1]) / long)
    off, middle = _off(start, unit, arc.centre), _along(start, unit, arc.centre)
    if abs(off) < arc.radius:
        half = math.sqrt((arc.radius - off) * (arc.radius + off))
        for at in (middle - half, middle + half):
            if 0.0 <= at <= long and passes(arc, (start[0] + at * unit[0], start[1] + at * unit[1])):
                return 0.0
    if 0.0 <= middle <= long:
        foot = (start[0] + middle * unit[0], start[1] + middle * unit[1])
        if passes(arc, foot):
            far = min(far, abs(abs(off) - arc.radius))
    return far


def _cross(a: Point2, b: Point2, c: Point2, d: Point2) -> bool:
    """Whether two stretches cross, each with its ends on the two sides of the other."""

    def side(p: Point2, q: Point2, r: Point2) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0.0 and side(c, d, a) * side(c, d, b) < 0.0


def _to_stretch(point: Point2, start: Point2, end: Point2) -> float:
    dx, dy = end[0] - start[0], end[1] - start[1]
    long2 = dx * dx + dy * dy
    if long2 <= 0.0:
        return math.dist(point, start)
    share = min(max(((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / long2, 0.0), 1.0)
    return math.dist(point, (start[0] + share * dx, start[1] + share * dy))


def to_ends_and_edges(outline: Outline, x: float, y: float) -> tuple[float | None, float | None]:
    """Give how far a point is from the ends of a part and from its edges, the grain being along x.

    What stands steeper than 45 degrees to the grain is an end, what runs nearer to along it an edge; an arc
    is both, parted where it stands at 45 degrees.

    Args:
        outline: the outline.
        x: [mm] the point.
        y: [mm] the point.

    Returns:
        The distances to the nearest end and to the nearest edge [mm], negative outside the outline; None
        where it has no such piece.

    Source: this project.

    Example:
        >>> from calculators.geometry.outlines import rectangle
        >>> to_ends_and_edges(rectangle(0, 0, 100, 40), 90, 15)
        (10.0, 15.0)
    """
    least: dict[bool, float] = {}
    for one, to, is_end in _by_grain(outline):
        far = _from_piece(one, to, (x, y), (x, y))
        least[is_end] = min(least.get(is_end, math.inf), far)
    sign = 1.0 if to_outline(outline, x, y) >= 0.0 else -1.0
    ends, edges = least.get(True), least.get(False)
    return None if ends is None else sign * ends, None if edges is None else sign * edges


def _by_grain(outline: Outline) -> Iterator[tuple[Vertex, Vertex, bool]]:
    """Each line and arc, arcs parted where they stand at 45 degrees, and whether it is an end."""
    for one, to in pieces(outline):
        arc = arc_of(one, to)
        if arc is None:
            if one.x != to.x or one.y != to.y:
                yield one, to, abs(to.y - one.y) > abs(to.x - one.x) * (1.0 + 1e-9)
            continue
        for first, last in pairwise(_parted(arc)):
            begun, ended = _on_arc(arc, first), _on_arc(arc, last)
            c, s = cos_sin((first + last) / 2.0)
            bulge = math.tan(math.radians(last - first) / 4.0)
            yield Vertex(*begun, bulge), Vertex(*ended), abs(c) > abs(s)


def _parted(arc: Arc) -> list[float]:
    """The angles of an arc at its ends and, between them, at every odd 45 degrees."""
    last = arc.first_deg + arc.turn_deg
    low, high = sorted((arc.first_deg, last))
    at: Iterable[int] = range(math.ceil((low - 45.0) / 90.0), math.floor((high - 45.0) / 90.0) + 1)
    between = [45.0 + 90.0 * k for k in at if low + 1e-9 < 45.0 + 90.0 * k < high - 1e-9]
    angles = [low, *between, high]
    return angles if arc.turn_deg > 0 else angles[::-1]


def _on_arc(arc: Arc, angle_deg: float) -> Point2:
    c, s = cos_sin(angle_deg)
    return arc.centre[0] + arc.radius * c, arc.centre[1] + arc.radius * s
