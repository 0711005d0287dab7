"""How far two convex shapes are apart, or how deep they overlap, and where."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calculators.geometry.parallel_shapes import parallel_gap
from calculators.geometry.shapes import NOWHERE, Shape, Turned
from calculators.geometry.simplices import approach, depth_of_overlap
from calculators.geometry.vectors import Vector, add, along, dot, scale, subtract

TOUCHING_MM = 1e-6
APART_MM = 1e-3
"""Shapes nearer than this are said to touch: their distance is 0."""


@dataclass(frozen=True, slots=True)
class Nearness:
    """How near two shapes are [mm], and where.

    `distance` is negative where they overlap: then it is the least distance by which one of them would have
    to be shifted, in whichever direction, so that they only touch. `first_point` and `second_point` are the
    nearest points of the two; where they overlap both are one point that lies in both. `at_least` says
    that the search stopped early: the shapes are at least `distance` apart and the points are not the
    nearest.
    """

    distance: float
    first_point: Vector
    second_point: Vector
    at_least: bool = False


def apart(first: Shape, second: Shape, enough: float = math.inf) -> Nearness:
    """Return the distance of two convex shapes, negative by the depth of their overlap.

    Closed forms serve where the axes of the two run the same way, and where two round shapes pass each
    other crosswise; otherwise the distance is found by the supports, within 1e-5 mm, and the depth of an
    overlap within 1e-3 mm (never less than the truth). Shapes of no thickness are allowed.

    Args:
        first: a shape.
        second: a shape in the same frame.
        enough: it stops as soon as the two are certain to be this far apart [mm], and returns a lower bound
            of the distance that is at least `enough`, marked `at_least`.

    Returns:
        The distance and where it is.

    Source: this project.

    Example:
        >>> pin = Turned((0, 0, 0), (0, 0, 1), ((-10, 2), (10, 2)))
        >>> apart(pin, Turned((-10, 5, 0), (1, 0, 0), ((0, 1), (20, 1)))).distance
        2.0
    """
    if enough < math.inf:
        clear = _clear_by(first, second)
        if clear >= enough:
            return Nearness(clear, first_of(first), first_of(second), at_least=True)
    found = parallel_gap(first, second)
    if found is not None:
        distance, one, other = found
        if distance > TOUCHING_MM:
            return Nearness(distance, one, other)
        if distance > -TOUCHING_MM:
            return Nearness(0.0, one, other)
        return Nearness(distance, *_common(first, second, one, other))
    crossing = _crossing(first, second)
    if crossing is not None:
        return crossing
    # A lower bound of nought says nothing: shapes that are apart must not be taken for touching ones.
    near = approach(first, second, max(enough, APART_MM))
    if near.distance > TOUCHING_MM:
        return Nearness(near.distance, near.first, near.second, near.at_least)
    depth, _, one, other = depth_of_overlap(first, second, near.simplex)
    if depth <= TOUCHING_MM:
        return Nearness(0.0, near.first, near.second)
    return Nearness(-depth, *_common(first, second, one, other))


def first_of(shape: Shape) -> Vector:
    """Return the point that a shape is begun from: its start or its corner.

    Args:
        shape: the shape.

    Returns:
        The point [mm].

    Source: this project.
    """
    return shape.start if isinstance(shape, Turned) else shape.corner


def holds(shape: Shape, point: Vector, slack: float = TOUCHING_MM) -> bool:
    """Say whether a point lies in a shape.

    Args:
        shape: the shape.
        point: the point [mm].
        slack: how far outside still counts as in [mm].

    Returns:
        True where it does.

    Source: this project.

    Example:
        >>> holds(Turned((0, 0, 0), (0, 0, 1), ((0, 2), (10, 2))), (1, 1, 5))
        True
    """
    return approach(shape, Turned(point, (0.0, 0.0, 1.0), ((0.0, 0.0),))).distance <= slack


def _common(first: Shape, second: Shape, one: Vector, other: Vector) -> tuple[Vector, Vector]:
    """Return one point that lies in both shapes, twice: amid the overlap where that can be."""
    middle = scale(add(one, other), 0.5)
    if holds(first, middle) and holds(second, middle):
        return middle, middle
    near = approach(first, second)
    if len(near.simplex) < 4:
        return near.first, near.second
    return _origin_of(near.simplex)


def _origin_of(simplex: tuple[tuple[Vector, Vector, Vector], ...]) -> tuple[Vector, Vector]:
    """Return the point of both shapes that the origin of a tetrahedron of differences comes from."""
    a, b, c, d = (point[0] for point in simplex)
    parts = [_volume(b, c, d), -_volume(a, c, d), _volume(a, b, d), -_volume(a, b, c)]
    whole = sum(parts)
    point = NOWHERE
    for share, (_, own, _) in zip(parts, simplex, strict=True):
        point = along(point, (own, share / whole if whole else 0.25))
    return point, point


def _volume(a: Vector, b: Vector, c: Vector) -> float:
    return (
        a[0] * (b[1] * c[2] - b[2] * c[1])
        - a[1] * (b[0] * c[2] - b[2] * c[0])
        + a[2] * (b[0] * c[1] - b[1] * c[0])
    )


def _line(shape: Turned) -> tuple[Vector, Vector, float]:
    """Return the axis of a turned shape from its first to its last ring, and its greatest radius."""
    low = min(at for at, _ in shape.rings)
    high = max(at for at, _ in shape.rings)
    radius = max(ring for _, ring in shape.rings)
    start = along(shape.start, (shape.way, low))
    return start, scale(shape.way, high - low), radius


def _clear_by(first: Shape, second: Shape) -> float:
    """Return a distance that two round shapes are certain to be apart by: of the two axes, less the radii."""
    if not (isinstance(first, Turned) and isinstance(second, Turned)):
        return -math.inf
    if first.slide is not NOWHERE or second.slide is not NOWHERE:
        return -math.inf
    (p, a, wide), (q, b, other_wide) = _line(first), _line(second)
    return _line_distance(p, a, q, b) - wide - other_wide


def _line_distance(p: Vector, a: Vector, q: Vector, b: Vector) -> float:
    """Return the distance of two stretches of line, each a start and a way to its end."""
    away = subtract(p, q)
    aa, bb, ab = dot(a, a), dot(b, b), dot(a, b)
    d, e = dot(a, away), dot(b, away)
    both = aa * bb - ab * ab
    s = min(max((ab * e - bb * d) / both, 0.0), 1.0) if both > 1e-12 * aa * bb else 0.0
    t = (ab * s + e) / bb if bb else 0.0
    if t < 0.0 or t > 1.0 or not bb:
        t = min(max(t, 0.0), 1.0)
        s = min(max((ab * t - d) / aa, 0.0), 1.0) if aa else 0.0
    gap = subtract(along(p, (a, s)), along(q, (b, t)))
    return math.sqrt(dot(gap, gap))


def _crossing(first: Shape, second: Shape) -> Nearness | None:
    """Two round shapes that pass each other crosswise where both are widest: the axes less the radii."""
    if not (isinstance(first, Turned) and isinstance(second, Turned)):
        return None
    if first.slide != NOWHERE or second.slide != NOWHERE:
        return None
    away = subtract(second.start, first.start)
    ab = dot(first.way, second.way)
    both = 1.0 - ab * ab
    if both < 1e-9:
        return None
    d, e = dot(first.way, away), dot(second.way, away)
    s, t = (d - ab * e) / both, (ab * d - e) / both
    (low, high, wide), (other_low, other_high, other_wide) = _widest(first), _widest(second)
    if not (low <= s <= high and other_low <= t <= other_high):
        return None
    one, other = along(first.start, (first.way, s)), along(second.start, (second.way, t))
    gap = subtract(other, one)
    long = math.sqrt(dot(gap, gap))
    if long <= wide + other_wide + TOUCHING_MM or long <= 1e-9:
        return None
    unit = scale(gap, 1.0 / long)
    return Nearness(long - wide - other_wide, along(one, (unit, wide)), along(other, (unit, -other_wide)))


def _widest(shape: Turned) -> tuple[float, float, float]:
    """Return from where to where along its axis a turned shape has its greatest radius, and that radius."""
    wide = max(ring for _, ring in shape.rings)
    at = [far for far, ring in shape.rings if ring == wide]
    return min(at), max(at), wide
