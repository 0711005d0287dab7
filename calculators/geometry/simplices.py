"""Distance and depth of overlap of any two convex shapes, from their supports alone.

The difference of two shapes (every point of one less every point of the other) is convex too; they are
apart by its distance from the origin, and overlap when the origin lies in it, as deep as the origin lies
below its surface. It is approached from within by a simplex, then by a growing polyhedron.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Iterator
from dataclasses import dataclass, field

from calculators.geometry.shapes import Shape, Turned, middle_of, support
from calculators.geometry.vectors import Vector, cross, dot, scale, subtract

CLOSE_MM = 1e-6
"""The distance is sought until it is known as closely as this."""
DEPTH_CLOSE_MM = 2e-4
_TELLING_MM = 5e-4
"""Where a rim just touches a flat, rounding may end the search early: nearer than this is then touching."""
_ROUNDS = 200
_FACES = 3000

_Point = tuple[Vector, Vector, Vector]
"""A point of the difference, and the points of the first and of the second that it comes from."""


@dataclass(frozen=True, slots=True)
class Approach:
    """What was found: the distance [mm] (0 when they touch or overlap), a point of each, the simplex.

    `at_least` marks a distance that is only a lower bound.
    """

    distance: float
    first: Vector
    second: Vector
    simplex: tuple[_Point, ...]
    at_least: bool = False


def _reach(first: Shape, second: Shape, way: Vector) -> _Point:
    a, b = support(first, way), support(second, (-way[0], -way[1], -way[2]))
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2]), a, b


def approach(first: Shape, second: Shape, enough: float = math.inf) -> Approach:
    """Return how far apart two convex shapes are, by the nearest point of a growing simplex.

    Args:
        first: a shape.
        second: a shape in the same frame.
        enough: it stops as soon as they are certain to be this far apart [mm].

    Returns:
        The distance, 0 where they touch or overlap.

    Source: E. G. Gilbert, D. W. Johnson, S. S. Keerthi, A fast procedure for computing the distance
        between complex objects in three-dimensional space, IEEE Journal of Robotics and Automation 4
        (1988), the method (from memory).

    Example:
        >>> from calculators.geometry.shapes import Turned
        >>> ball = Turned((0, 0, 0), (0, 0, 1), ((0, 0),))
        >>> approach(ball, Turned((3, 4, 0), (1, 0, 0), ((0, 0),))).distance
        5.0
    """
    way = subtract(middle_of(second), middle_of(first))
    point = _reach(first, second, way if any(way) else (1.0, 0.0, 0.0))
    simplex: list[_Point] = [point]
    weights = [1.0]
    v = point[0]
    length = math.sqrt(dot(v, v))
    least = 0.0
    for _ in range(_ROUNDS):
        if length <= 1e-9:
            break
        point = _reach(first, second, (-v[0], -v[1], -v[2]))
        w = point[0]
        bound = dot(v, w) / length
        least = max(least, bound)
        if least >= enough:
            return Approach(least, *_weighted(simplex, weights), tuple(simplex), at_least=True)
        if length - least <= CLOSE_MM or any(w == known[0] for known in simplex):
            break
        before = (simplex, weights, v, length)
        simplex, weights, v = _nearest([*simplex, point])
        if len(simplex) == 4:
            length = 0.0
            break
        length = math.sqrt(dot(v, v))
        if length >= before[3] * (1.0 - 1e-15):
            # Rounding has the last word: nothing nearer can be told apart.
            if length > before[3]:
                simplex, weights, v, length = before
            break
    if length <= 1e-9 or (length <= _TELLING_MM and length - least > CLOSE_MM):
        length = 0.0
    return Approach(length, *_weighted(simplex, weights), tuple(simplex))


def _weighted(simplex: list[_Point], weights: list[float]) -> tuple[Vector, Vector]:
    a, b = [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]
    for (_, p, q), weight in zip(simplex, weights, strict=True):
        for i in range(3):
            a[i] += weight * p[i]
            b[i] += weight * q[i]
    return (a[0], a[1], a[2]), (b[0], b[1], b[2])


_Found = tuple[list[_Point], list[float], Vector]


def _nearest(simplex: list[_Point]) -> _Found:
    """Return the part of a simplex that the origin is nearest to, its weights and the nearest point."""
    if len(simplex) == 2:
        return _on_line(simplex[0], simplex[1])
    if len(simplex) == 3:
        return _on_triangle(simplex[0], simplex[1], simplex[2])
    return _in_solid(simplex)


def _on_line(a: _Point, b: _Point) -> _Found:
    p = a[0]
    run = subtract(b[0], p)
    square = dot(run, run)
    share = -dot(p, run) / square if square > 0.0 else 0.0
    if share <= 0.0:
        return [a], [1.0], p
    if share >= 1.0:
        return [b], [1.0], b[0]
    v = (p[0] + share * run[0], p[1] + share * run[1], p[2] + share * run[2])
    return [a, b], [1.0 - share, share], v


def _on_triangle(a: _Point, b: _Point, c: _Point) -> _Found:
    p, q, r = a[0], b[0], c[0]
    pq, pr = subtract(q, p), subtract(r, p)
    normal = cross(pq, pr)
    square = dot(normal, normal)
    if square > 1e-24 * (dot(pq, pq) * dot(pr, pr)):
        in_a = dot(cross(q, r), normal) / square
        in_b = dot(cross(r, p), normal) / square
        in_c = 1.0 - in_a - in_b
        if in_a > 0.0 and in_b > 0.0 and in_c > 0.0:
            # The foot of the origin on the plane: more exact than summing the weighted corners.
            v = scale(normal, dot(p, normal) / square)
            return [a, b, c], [in_a, in_b, in_c], v
    return min((_on_line(a, b), _on_line(b, c), _on_line(c, a)), key=lambda found: dot(found[2], found[2]))


def _in_solid(simplex: list[_Point]) -> _Found:
    best: _Found | None = None
    least = math.inf
    outside = False
    for skip in (3, 0, 1, 2):
        a, b, c = (simplex[i] for i in range(4) if i != skip)
        p = a[0]
        normal = cross(subtract(b[0], p), subtract(c[0], p))
        far = dot(subtract(simplex[skip][0], p), normal)
        here = -dot(p, normal)
        flat = abs(far) <= 1e-14 * dot(normal, normal) ** 0.75
        if flat or far * here < 0.0:
            outside = True
            found = _on_triangle(a, b, c)
            square = dot(found[2], found[2])
            if square < least:
                best, least = found, square
    if outside and best is not None:
        return best
    return simplex, [0.25] * 4, (0.0, 0.0, 0.0)


@dataclass(slots=True)
class _Hull:
    """The growing polyhedron: points, faces (with normal and distance) and the nearest faces first."""

    points: list[_Point]
    faces: dict[int, tuple[tuple[int, int, int], Vector, float]] = field(default_factory=dict)
    queue: list[tuple[float, int]] = field(default_factory=list)
    count: int = 0

    def put(self, i: int, j: int, k: int) -> None:
        """Add a face whose corners run anticlockwise as seen from outside."""
        p = self.points[i][0]
        normal = cross(subtract(self.points[j][0], p), subtract(self.points[k][0], p))
        long = math.sqrt(dot(normal, normal))
        self.count += 1
        if long <= 1e-14:
            # A sliver keeps its neighbours joined, but is never the nearest.
            self.faces[self.count] = ((i, j, k), (0.0, 0.0, 0.0), math.inf)
            return
        unit = scale(normal, 1.0 / long)
        distance = dot(unit, p)
        self.faces[self.count] = ((i, j, k), unit, distance)
        heapq.heappush(self.queue, (distance, self.count))

    def grow(self, point: _Point) -> bool:
        """Take in one more point; False where it lies inside by all that can be told."""
        w = point[0]
        seen = [
            key
            for key, ((i, _, _), unit, _) in self.faces.items()
            if dot(unit, subtract(w, self.points[i][0])) > 1e-10
        ]
        edges: set[tuple[int, int]] = set()
        for key in seen:
            i, j, k = self.faces.pop(key)[0]
            for edge in ((i, j), (j, k), (k, i)):
                if (edge[1], edge[0]) in edges:
                    edges.discard((edge[1], edge[0]))
                else:
                    edges.add(edge)
        self.points.append(point)
        last = len(self.points) - 1
        for i, j in sorted(edges):
            self.put(i, j, last)
        return bool(edges)


def depth_of_overlap(
    first: Shape, second: Shape, simplex: tuple[_Point, ...]
) -> tuple[float, Vector, Vector, Vector]:
    """Return the least shift that parts two overlapping shapes.

    Args:
        first: a shape.
        second: a shape in the same frame.
        simplex: the simplex that `approach` ended with.

    Returns:
        The depth [mm]: the least distance by which one must be shifted so that they only touch, never less
        than the truth and at most some tenths of a thousandth more; the unit way in which the second is to
        be shifted; and the two points that then touch.

    Source: this project (a polyhedron grown from within towards the nearest of its faces; each face's
        normal gives a shift that parts the shapes, each face's distance one that cannot).
    """
    hull = _first_hull(first, second, simplex)
    if hull is None:
        point = simplex[0]
        return 0.0, (0.0, 0.0, 0.0), point[1], point[2]
    best, best_way, best_point = math.inf, (1.0, 0.0, 0.0), hull.points[0]
    # The ways in which simple shapes part, for which the depth is then exact: along an axis of either, and
    # square to an axis of both.
    for way in _likely_ways(first, second):
        point = _reach(first, second, way)
        reach = dot(point[0], way)
        if reach < best:
            best, best_way, best_point = reach, way, point
    for _ in range(_ROUNDS):
        while hull.queue and hull.queue[0][1] not in hull.faces:
            heapq.heappop(hull.queue)
        if not hull.queue or len(hull.faces) > _FACES:
            break
        distance, key = hull.queue[0]
        if distance >= best - DEPTH_CLOSE_MM:
            break
        unit = hull.faces[key][1]
        point = _reach(first, second, unit)
        reach = dot(point[0], unit)
        if reach < best - 1e-6:
            best, best_way, best_point = reach, unit, point
        if best - distance <= DEPTH_CLOSE_MM or not hull.grow(point):
            break
    return max(best, 0.0), best_way, best_point[1], best_point[2]


def _axes(shape: Shape) -> tuple[Vector, ...]:
    return (shape.way,) if isinstance(shape, Turned) else (shape.u_axis, shape.v_axis, shape.inward)


def _likely_ways(first: Shape, second: Shape) -> Iterator[Vector]:
    ours, theirs = _axes(first), _axes(second)
    for way in (*ours, *theirs, *(cross(a, b) for a in ours for b in theirs)):
        long = math.sqrt(dot(way, way))
        if long > 1e-6:
            yield scale(way, 1.0 / long)
            yield scale(way, -1.0 / long)


def _first_hull(first: Shape, second: Shape, simplex: tuple[_Point, ...]) -> _Hull | None:
    """Return a tetrahedron of the difference with room inside, or None where the difference is flat."""
    points = list(simplex)
    axes = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    ways = [*axes, *(scale(axis, -1.0) for axis in axes)]
    while len(points) < 4:
        tried = [_reach(first, second, way) for way in [*ways, *_square_ways(points)]]
        far = max(tried, key=lambda point: _off(points, point[0]))
        if _off(points, far[0]) <= 1e-9:
            return None
        points.append(far)
    a, b, c, d = (point[0] for point in points)
    volume = dot(cross(subtract(b, a), subtract(c, a)), subtract(d, a))
    if volume > 0.0:
        points[1], points[2] = points[2], points[1]
    hull = _Hull(points)
    for face in ((0, 1, 2), (0, 3, 1), (1, 3, 2), (2, 3, 0)):
        hull.put(*face)
    return hull


def _square_ways(points: list[_Point]) -> list[Vector]:
    if len(points) < 3:
        return []
    normal = cross(subtract(points[1][0], points[0][0]), subtract(points[2][0], points[0][0]))
    return [normal, scale(normal, -1.0)]


def _off(points: list[_Point], w: Vector) -> float:
    """Return how far a point lies off the point, line or plane through the points so far."""
    away = subtract(w, points[0][0])
    if len(points) == 1:
        return math.sqrt(dot(away, away))
    run = subtract(points[1][0], points[0][0])
    if len(points) == 2:
        turn = cross(run, away)
        return math.sqrt(dot(turn, turn) / (dot(run, run) or 1.0))
    normal = cross(run, subtract(points[2][0], points[0][0]))
    return abs(dot(normal, away)) / (math.sqrt(dot(normal, normal)) or 1.0)
