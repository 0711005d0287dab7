"""Whether an outline makes a part at all: where it crosses or touches itself."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.geometry.outline_lines import passes
from calculators.geometry.outlines import Arc, Outline, Point2, Vertex, arc_of, pieces

CLOSE_MM = 1e-4
"""Lines that come nearer to each other than this touch: nothing is left between them."""

_ROUNDING_MM = 1e-6
"""How far off a corner may lie by being written in millionths."""

_Piece = tuple[Vertex, Vertex, Arc | None]


def crossing_of(outline: Outline) -> Point2 | None:
    """Give a point at which an outline crosses, touches or runs back over itself.

    Args:
        outline: the outline.

    Returns:
        The first such point from the left [mm]; None where it goes round once without any.

    Source: geometry; pairs whose boxes touch are looked at, from left to right.

    Example:
        >>> crossing_of((Vertex(0, 0), Vertex(10, 10), Vertex(10, 0), Vertex(0, 10)))
        (5.0, 5.0)
    """
    every = [(one, to, arc_of(one, to)) for one, to in pieces(outline)]
    count = len(every)
    boxes = [_box_of_arc(one, to, arc) if arc else _box(one, to) for one, to, arc in every]
    order = sorted(range(count), key=lambda i: boxes[i][0])
    open_now: list[int] = []
    for i in order:
        left = boxes[i][0] - CLOSE_MM
        open_now = [j for j in open_now if boxes[j][2] >= left]
        for j in open_now:
            if boxes[j][1] <= boxes[i][3] + CLOSE_MM and boxes[i][1] <= boxes[j][3] + CLOSE_MM:
                first, second = sorted((i, j))
                found = _meeting(every[first], every[second], first, second, count)
                if found is not None:
                    return found
        open_now.append(i)
    return None


def _box(one: Vertex, to: Vertex) -> tuple[float, float, float, float]:
    return min(one.x, to.x), min(one.y, to.y), max(one.x, to.x), max(one.y, to.y)


def _box_of_arc(one: Vertex, to: Vertex, arc: Arc) -> tuple[float, float, float, float]:
    low_x, low_y, high_x, high_y = _box(one, to)
    for dx, dy in ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)):
        x, y = arc.centre[0] + dx * arc.radius, arc.centre[1] + dy * arc.radius
        if passes(arc, (x, y)):
            low_x, low_y, high_x, high_y = min(low_x, x), min(low_y, y), max(high_x, x), max(high_y, y)
    return low_x, low_y, high_x, high_y


def _meeting(a: _Piece, b: _Piece, i: int, j: int, count: int) -> Point2 | None:
    """A point that two pieces have in common, besides the corner that neighbours share."""
    shared: list[Point2] = []
    if j == i + 1:
        shared.append((a[1].x, a[1].y))
    if i == 0 and j == count - 1:
        shared.append((a[0].x, a[0].y))
    for corner in shared:
        if _runs_back(a, b, corner):
            return corner
    blur = _blur(a, b)
    for point in _common(a, b):
        if all(math.dist(point, corner) > blur for corner in shared):
            return point
    return None


def _blur(a: _Piece, b: _Piece) -> float:
    """How far from their corner two neighbours that touch there may seem to meet again.

    An arc goes on in the direction of a line only to within rounding; with an error of e beside the line,
    a circle meets it again within the root of 2 r e.
    """
    radius = max((arc.radius for arc in (a[2], b[2]) if arc is not None), default=0.0)
    return CLOSE_MM + math.sqrt(2.0 * radius * _ROUNDING_MM)


def _runs_back(a: _Piece, b: _Piece, corner: Point2) -> bool:
    """Whether two neighbours leave their corner in the same direction, with the same bend."""
    first, second = _leaving(a, corner), _leaving(b, corner)
    if abs(first[0] - second[0]) > 1e-9 or abs(first[1] - second[1]) > 1e-9:
        return False
    return abs(first[2] - second[2]) <= 1e-12


def _leaving(piece: _Piece, corner: Point2) -> tuple[float, float, float]:
    """The direction in which a piece leaves one of its ends, and its bend there [1/mm], left positive."""
    one, to, arc = piece
    at_start = (one.x, one.y) == corner
    end = to if at_start else one
    if arc is None:
        dx, dy = end.x - corner[0], end.y - corner[1]
        bend = 0.0
    else:
        rx, ry = corner[0] - arc.centre[0], corner[1] - arc.centre[1]
        left = (arc.turn_deg > 0) == at_start
        dx, dy = (-ry, rx) if left else (ry, -rx)
        bend = 1.0 / arc.radius if left else -1.0 / arc.radius
    long = math.hypot(dx, dy)
    return (dx / long, dy / long, bend) if long > 0.0 else (0.0, 0.0, 0.0)


def _common(a: _Piece, b: _Piece) -> Iterator[Point2]:
    """Points that two pieces have in common: ends of one on the other, and crossings."""
    for piece, other in ((a, b), (b, a)):
        for end in piece[:2]:
            if _from(other, (end.x, end.y)) <= CLOSE_MM:
                yield (end.x, end.y)
    first, second = a[2], b[2]
    if first is None and second is None:
        yield from _line_and_line(a, b)
    elif first is not None and second is not None:
        yield from _arc_and_arc(first, second)
    elif first is not None:
        yield from _line_and_arc(b, first)
    elif second is not None:
        yield from _line_and_arc(a, second)


def _from(piece: _Piece, point: Point2) -> float:
    one, to, arc = piece
    if arc is not None:
        if passes(arc, point):
            return abs(math.dist(point, arc.centre) - arc.radius)
        return min(math.dist(point, (one.x, one.y)), math.dist(point, (to.x, to.y)))
    dx, dy = to.x - one.x, to.y - one.y
    long2 = dx * dx + dy * dy
    share = ((point[0] - one.x) * dx + (point[1] - one.y) * dy) / long2 if long2 > 0.0 else 0.0
    share = min(max(share, 0.0), 1.0)
    return math.dist(point, (one.x + share * dx, one.y + share * dy))


def _line_and_line(a: _Piece, b: _Piece) -> Iterator[Point2]:
    p, q = a[0], b[0]
    ax, ay, bx, by = a[1].x - p.x, a[1].y - p.y, b[1].x - q.x, b[1].y - q.y
    across = ax * by - ay * bx
    if abs(across) <= 1e-15 * (math.hypot(ax, ay) * math.hypot(bx, by) + 1e-300):
        return  # alongside: what they have in common holds an end of one of them
    s = ((q.x - p.x) * by - (q.y - p.y) * bx) / across
    t = ((q.x - p.x) * ay - (q.y - p.y) * ax) / across
    if 0.0 <= s <= 1.0 and 0.0 <= t <= 1.0:
        yield p.x + s * ax, p.y + s * ay


def _line_and_arc(line: _Piece, arc: Arc) -> Iterator[Point2]:
    one, to, _ = line
    long = math.hypot(to.x - one.x, to.y - one.y)
    if long <= 0.0:
        return
    ux, uy = (to.x - one.x) / long, (to.y - one.y) / long
    cx, cy = arc.centre[0] - one.x, arc.centre[1] - one.y
    middle, off = cx * ux + cy * uy, ux * cy - uy * cx
    if abs(off) > arc.radius + CLOSE_MM:
        return
    half = math.sqrt(max((arc.radius - off) * (arc.radius + off), 0.0))
    for at in (middle - half, middle + half):
        point = (one.x + at * ux, one.y + at * uy)
        if 0.0 <= at <= long and passes(arc, point):
            yield point


def _arc_and_arc(a: Arc, b: Arc) -> Iterator[Point2]:
    dx, dy = b.centre[0] - a.centre[0], b.centre[1] - a.centre[1]
    apart = math.hypot(dx, dy)
    if apart <= 1e-9 or apart > a.radius + b.radius + CLOSE_MM or apart < abs(a.radius - b.radius) - CLOSE_MM:
        return  # about one centre: what they have in common holds an end of one of them
    along = (apart * apart + a.radius**2 - b.radius**2) / (2.0 * apart)
    half = math.sqrt(max(a.radius**2 - along**2, 0.0))
    ux, uy = dx / apart, dy / apart
    for side in (half, -half):
        point = (a.centre[0] + along * ux - side * uy, a.centre[1] + along * uy + side * ux)
        if passes(a, point) and passes(b, point):
            yield point
