"""Closed outlines of straight lines and arcs in a plane: lengths, areas, distances, the way to points.

A vertex carries the bulge of what leads from it to the next: the tangent of a quarter of the arc's angle,
0 for a straight line, positive where the arc turns anticlockwise, 1 for half a circle. The last vertex
leads to the first.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from calculators.geometry.vectors import cos_sin

Point2 = tuple[float, float]
_STRAIGHT = 1e-9
"""A bulge below this is a straight line: on a metre its arc rises by less than a nanometre."""


@dataclass(frozen=True, slots=True)
class Vertex:
    """A corner of an outline [mm] and the bulge of what leads to the next corner."""

    x: float
    y: float
    bulge: float = 0.0


Outline = tuple[Vertex, ...]
"""A closed outline; anticlockwise where it goes round material."""


@dataclass(frozen=True, slots=True)
class Arc:
    """An arc: its centre and radius [mm], where it begins and how far it turns [deg], left positive."""

    centre: Point2
    radius: float
    first_deg: float
    turn_deg: float


def rectangle(x: float, y: float, length: float, width: float, corner: float = 0.0) -> Outline:
    """Give the outline of a rectangle, anticlockwise from its lower left corner.

    Args:
        x: [mm] its least x.
        y: [mm] its least y.
        length: [mm] along x, above 0.
        width: [mm] along y, above 0.
        corner: [mm] the radius of its corners, at most half of the shorter side.

    Returns:
        The outline.

    Source: geometry.

    Example:
        >>> len(rectangle(0, 0, 40, 20)), len(rectangle(0, 0, 40, 20, 5)), len(rectangle(0, 0, 40, 20, 10))
        (4, 8, 6)
    """
    r, right, top = min(corner, length / 2, width / 2), x + length, y + width
    if r <= 0:
        return (Vertex(x, y), Vertex(right, y), Vertex(right, top), Vertex(x, top))
    quarter = math.tan(math.pi / 8)
    found = (
        Vertex(x + r, y), Vertex(right - r, y, quarter),
        Vertex(right, y + r), Vertex(right, top - r, quarter),
        Vertex(right - r, top), Vertex(x + r, top, quarter),
        Vertex(x, top - r), Vertex(x, y + r, quarter),
    )  # fmt: skip
    return tuple(_without_points(found))


def _without_points(outline: Outline) -> Iterator[Vertex]:
    """Leave out vertices from which a straight line of no length leads on."""
    for one, following in zip(outline, (*outline[1:], outline[0]), strict=True):
        if one.bulge or math.dist((one.x, one.y), (following.x, following.y)) > 1e-9:
            yield one


def circle(x: float, y: float, diameter: float) -> Outline:
    """Give a circle as an outline of two half circles.

    Args:
        x: [mm] its centre.
        y: [mm] its centre.
        diameter: [mm] above 0.

    Returns:
        The outline.

    Source: geometry.

    Example:
        >>> round(area(circle(0, 0, 20)), 3)
        314.159
    """
    return (Vertex(x - diameter / 2, y, 1.0), Vertex(x + diameter / 2, y, 1.0))


def pieces(outline: Outline) -> list[tuple[Vertex, Vertex]]:
    """Give each line or arc as the vertex that it leaves and the one that it comes to.

    Args:
        outline: the outline.

    Returns:
        The pairs, the last one leading back to the first vertex.

    Source: this project.

    Example:
        >>> len(pieces(rectangle(0, 0, 1, 1)))
        4
    """
    return list(zip(outline, (*outline[1:], *outline[:1]), strict=True))


def arc_of(start: Vertex, end: Vertex) -> Arc | None:
    """Give the arc between two vertices.

    Args:
        start: the vertex that it leaves.
        end: the one that it comes to.

    Returns:
        The arc; None for a straight line.

    Source: geometry: the radius is c (1 + b²) / (4 |b|) over a chord c with the bulge b.

    Example:
        >>> arc_of(Vertex(10, 0, 1.0), Vertex(-10, 0))
        Arc(centre=(0.0, 0.0), radius=10.0, first_deg=0.0, turn_deg=180.0)
    """
    b = start.bulge
    dx, dy = end.x - start.x, end.y - start.y
    chord = math.hypot(dx, dy)
    if abs(b) < _STRAIGHT or chord < 1e-12:
        return None
    radius = chord * (1 + b * b) / (4 * abs(b))
    # Of a left turn of less than half a circle the centre lies to the left of the chord.
    off = (1 - b * b) / (4 * b)
    centre = ((start.x + end.x) / 2 - dy * off, (start.y + end.y) / 2 + dx * off)
    first = math.degrees(math.atan2(start.y - centre[1], start.x - centre[0]))
    return Arc(centre, radius, first, math.degrees(4 * math.atan(b)))


def flat_points(outline: Outline, off_mm: float = 0.01) -> list[Point2]:
    """Give the outline as points with straight lines between them.

    Args:
        outline: the outline.
        off_mm: [mm] how far a straight line may be off its arc, above 0.

    Returns:
        The points, without the first one again at the end.

    Source: geometry: a chord over the angle a is r (1 - cos(a/2)) off its arc.

    Example:
        >>> flat_points(rectangle(0, 0, 2, 1))
        [(0, 0), (2, 0), (2, 1), (0, 1)]
    """
    found: list[Point2] = []
    for start, end in pieces(outline):
        found.append((start.x, start.y))
        arc = arc_of(start, end)
        if arc is None:
            continue
        step = 2 * math.acos(max(1 - off_mm / arc.radius, 0.5))
        count = min(max(2, math.ceil(math.radians(abs(arc.turn_deg)) / step)), 2_000)
        for i in range(1, count):
            c, s = cos_sin(arc.first_deg + arc.turn_deg * i / count)
            found.append((arc.centre[0] + arc.radius * c, arc.centre[1] + arc.radius * s))
    return found


def bounds(outline: Outline) -> tuple[float, float, float, float]:
    """Give the least and greatest x and y that an outline reaches, arcs included.

    Args:
        outline: the outline, of one vertex or more.

    Returns:
        Least x, least y, greatest x, greatest y [mm].

    Source: geometry.

    Example:
        >>> bounds((Vertex(10, 0, 1.0), Vertex(-10, 0)))
        (-10, 0, 10, 10.0)
    """
    xs, ys = [one.x for one in outline], [one.y for one in outline]
    for start, end in pieces(outline):
        arc = arc_of(start, end)
        for quarter in (0.0, 90.0, 180.0, 270.0) if arc else ():
            if arc and _is_on(arc, quarter):
                c, s = cos_sin(quarter)
                xs.append(arc.centre[0] + arc.radius * c)
                ys.append(arc.centre[1] + arc.radius * s)
    return min(xs), min(ys), max(xs), max(ys)


def _is_on(arc: Arc, angle_deg: float) -> bool:
    """Whether an arc passes the direction from its centre."""
    turned = (angle_deg - arc.first_deg) % 360 if arc.turn_deg > 0 else (arc.first_deg - angle_deg) % 360
    return turned <= abs(arc.turn_deg)


def area(outline: Outline) -> float:
    """Give the area that an outline goes round.

    Args:
        outline: the outline.

    Returns:
        The area [mm²], negative where it goes round clockwise.

    Source: geometry: the shoelace formula, and for each arc its segment r²/2 (a - sin a).

    Example:
        >>> area(rectangle(5, 5, 40, 20))
        800.0
    """
    total = 0.0
    for start, end in pieces(outline):
        total += (start.x * end.y - end.x * start.y) / 2
        arc = arc_of(start, end)
        if arc:
            a = math.radians(arc.turn_deg)
            total += arc.radius**2 / 2 * (a - math.sin(a))
    return total


def to_outline(outline: Outline, x: float, y: float) -> float:
    """Give how far a point is from an outline.

    Args:
        outline: the outline, of two vertices or more.
        x: [mm] the point.
        y: [mm] the point.

    Returns:
        The distance [mm], negative outside it.

    Source: geometry.

    Example:
        >>> to_outline(rectangle(0, 0, 100, 40), 90, 15), to_outline(circle(0, 0, 20), 13, 0)
        (10.0, -3.0)
    """
    nearest = min(_to_piece(start, end, x, y) for start, end in pieces(outline))
    return nearest if is_inside(outline, x, y) else -nearest


def _to_piece(start: Vertex, end: Vertex, x: float, y: float) -> float:
    arc = arc_of(start, end)
    to_ends = min(math.dist((start.x, start.y), (x, y)), math.dist((end.x, end.y), (x, y)))
    if arc:
        away = math.dist(arc.centre, (x, y))
        angle = math.degrees(math.atan2(y - arc.centre[1], x - arc.centre[0]))
        return min(to_ends, abs(away - arc.radius)) if _is_on(arc, angle) else to_ends
    dx, dy = end.x - start.x, end.y - start.y
    along = (x - start.x) * dx + (y - start.y) * dy
    length2 = dx * dx + dy * dy
    if not 0 < along < length2:
        return to_ends
    return abs((x - start.x) * dy - (y - start.y) * dx) / math.sqrt(length2)


def is_inside(outline: Outline, x: float, y: float) -> bool:
    """Say whether a point lies inside an outline (on it, either may be said).

    Args:
        outline: the outline.
        x: [mm] the point.
        y: [mm] the point.

    Returns:
        True inside.

    Source: geometry: the even-odd rule along a ray to the right, arcs cut exactly.

    Example:
        >>> is_inside(circle(0, 0, 20), 9, 0), is_inside(circle(0, 0, 20), 8, 8)
        (True, False)
    """
    return sum(_crossings(start, end, x, y) for start, end in pieces(outline)) % 2 == 1


def _crossings(start: Vertex, end: Vertex, x: float, y: float) -> int:
    """How often a line or arc crosses the ray from a point to the right."""
    arc = arc_of(start, end)
    if arc is None:
        crosses = (start.y > y) != (end.y > y)
        return int(crosses and start.x + (end.x - start.x) * (y - start.y) / (end.y - start.y) > x)
    # The arc in parts that only rise or only fall, each in the right or the left half of its circle.
    last = arc.first_deg + arc.turn_deg
    low, high = sorted((arc.first_deg, last))
    turns = [90.0 + 180.0 * k for k in range(math.ceil((low - 90) / 180), math.floor((high - 90) / 180) + 1)]
    angles = [arc.first_deg, *(turns if arc.turn_deg > 0 else reversed(turns)), last]
    heights = [start.y, *(arc.centre[1] + arc.radius * cos_sin(turn)[1] for turn in angles[1:-1]), end.y]
    count = 0
    for (angle, height), (to_angle, to_height) in pairwise(zip(angles, heights, strict=True)):
        if (height > y) != (to_height > y):
            half = math.sqrt(max(arc.radius**2 - (y - arc.centre[1]) ** 2, 0.0))
            side = 1 if cos_sin((angle + to_angle) / 2)[0] > 0 else -1
            count += arc.centre[0] + side * half > x
    return count


def turned_over(outline: Outline, about: float) -> Outline:
    """Give an outline as it is seen from behind: y to `about` - y, still in the same sense of going round.

    Args:
        outline: the outline.
        about: [mm] the width of what it lies in.

    Returns:
        The outline mirrored and taken in the reverse order.

    Source: geometry.

    Example:
        >>> area(turned_over(rectangle(0, 0, 40, 20), 50)) > 0
        True
    """
    back = [(end.x, about - end.y, start.bulge) for start, end in pieces(outline)]
    return tuple(Vertex(x, y, bulge) for x, y, bulge in reversed(back))
