"""A second opinion on convex shapes: the nearest point of a shape to a point, by the shape's own geometry.

Nothing here uses supports, hulls or the code that is tested. A turned shape is a plane polygon (height and
radius) about its axis; a slot is the same about a stretch of line; a pocket is a rounded rectangle times an
interval. From nearest points alone a distance is proven from both sides: two points in the shapes prove
that they are no farther apart, and a plane between them, touched by the nearest points of far-off points,
that they are no nearer.
"""

from __future__ import annotations

import math
import random

from calculators.geometry.shapes import NOWHERE, Prism, Turned

FAR = 1e7
"""A point this far off has its nearest point within size² / 2e7 of the shape's farthest reach."""


def minus(a, b):
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def plus(a, b, factor=1.0):
    return (a[0] + factor * b[0], a[1] + factor * b[1], a[2] + factor * b[2])


def dot(a, b):
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def norm(a):
    return math.sqrt(dot(a, a))


def nearest_in_polygon(corners, x, y):
    """The nearest point of a convex polygon (corners anticlockwise) to a point of its plane."""
    inside = True
    best, least = (x, y), math.inf
    for i, (ax, ay) in enumerate(corners):
        bx, by = corners[(i + 1) % len(corners)]
        ex, ey = bx - ax, by - ay
        square = ex * ex + ey * ey
        if square == 0.0:
            continue
        if ex * (y - ay) - ey * (x - ax) < 0.0:
            inside = False
        share = min(max(((x - ax) * ex + (y - ay) * ey) / square, 0.0), 1.0)
        px, py = ax + share * ex, ay + share * ey
        distance = math.hypot(x - px, y - py)
        if distance < least:
            best, least = (px, py), distance
    if least is math.inf:
        return corners[0]
    thin = max(c[1] for c in corners) - min(c[1] for c in corners) == 0.0 or (
        max(c[0] for c in corners) - min(c[0] for c in corners) == 0.0
    )
    return (x, y) if inside and not thin else best


def nearest(shape, point):
    """The nearest point of a shape to a point."""
    if isinstance(shape, Prism):
        return _nearest_in_prism(shape, point)
    away = minus(point, shape.start)
    foot = (0.0, 0.0, 0.0)
    if shape.slide != NOWHERE:
        long = norm(shape.slide)
        unit = tuple(one / long for one in shape.slide)
        share = min(max(dot(away, unit), -long / 2), long / 2)
        foot = tuple(share * one for one in unit)
        away = minus(away, foot)
    height = dot(away, shape.way)
    flat = plus(away, shape.way, -height)
    off = norm(flat)
    rings = list(shape.rings)
    # Anticlockwise with heights to the right: along the axis, then back over the rings.
    corners = [(rings[0][0], 0.0), (rings[-1][0], 0.0), *reversed(rings)]
    at, out = nearest_in_polygon(corners, height, off)
    found = plus(plus(shape.start, foot), shape.way, at)
    return plus(found, flat, out / off) if off > 0.0 else found


def _nearest_in_prism(shape, point):
    away = minus(point, shape.corner)
    u, v, w = dot(away, shape.u_axis), dot(away, shape.v_axis), dot(away, shape.inward)
    radius = min(shape.corner_radius, shape.length / 2, shape.width / 2)
    core_u = min(max(u, radius), shape.length - radius)
    core_v = min(max(v, radius), shape.width - radius)
    du, dv = u - core_u, v - core_v
    off = math.hypot(du, dv)
    share = min(1.0, radius / off) if off > 0.0 else 0.0
    u, v = core_u + share * du, core_v + share * dv
    w = min(max(w, 0.0), shape.depth)
    found = plus(shape.corner, shape.u_axis, u)
    return plus(plus(found, shape.v_axis, v), shape.inward, w)


def distance_to(shape, point):
    return norm(minus(point, nearest(shape, point)))


def reach(shape, way):
    """How far a shape reaches in a direction (a unit vector), within size² / 2e7."""
    middle = shape.start if isinstance(shape, Turned) else shape.corner
    return dot(nearest(shape, plus(middle, way, FAR)), way)


def gap_along(first, second, way):
    """How far apart two shapes are along a direction from the first to the second: a lower bound."""
    return -reach(second, tuple(-one for one in way)) - reach(first, way)


def between(first, second, start=None, rounds=400):
    """The distance of two shapes, from above: their nearest points by going to and fro between them."""
    point = start or nearest(first, second.start if isinstance(second, Turned) else second.corner)
    least = math.inf
    for _ in range(rounds):
        there = nearest(second, point)
        point = nearest(first, there)
        distance = norm(minus(point, there))
        if distance >= least - 1e-12:
            break
        least = distance
    return min(least, distance)


def depth_by_trying(first, second, chance, tries=400):
    """The depth of an overlap, from above: the least shift that parts the shapes, of many directions tried."""
    best, best_way = math.inf, (1.0, 0.0, 0.0)
    axes = [s.way if isinstance(s, Turned) else s.inward for s in (first, second)]
    axes += [s.u_axis for s in (first, second) if isinstance(s, Prism)]
    axes += [s.v_axis for s in (first, second) if isinstance(s, Prism)]
    starts = [tuple(sign * one for one in axis) for axis in axes for sign in (1, -1)]
    for i in range(tries):
        way = starts[i] if i < len(starts) else random_way(chance)
        depth = -gap_along(first, second, way)
        if depth < best:
            best, best_way = depth, way
    step = 0.3
    while step > 1e-5:
        for _ in range(12):
            way = plus(best_way, random_way(chance), step)
            long = norm(way)
            way = tuple(one / long for one in way)
            depth = -gap_along(first, second, way)
            if depth < best:
                best, best_way = depth, way
        step *= 0.7
    return best


def random_way(chance: random.Random):
    while True:
        way = (chance.gauss(0, 1), chance.gauss(0, 1), chance.gauss(0, 1))
        long = norm(way)
        if long > 0.1:
            return tuple(one / long for one in way)


def random_frame(chance, square):
    """Three directions square to one another; along X, Y and Z when `square`."""
    if square:
        axes = [(1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)]
        chance.shuffle(axes)
        signs = [chance.choice((1.0, -1.0)) for _ in axes]
        return [tuple(sign * one for one in axis) for sign, axis in zip(signs, axes, strict=True)]
    a, b = random_way(chance), random_way(chance)
    b = plus(b, a, -dot(a, b))
    long = norm(b)
    b = tuple(one / long for one in b)
    c = (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
    return [a, b, c]


def random_shape(chance, square, room=15.0):
    """A hole, blind or through, a countersink, a disc, a slot or a pocket, somewhere."""
    at = tuple(chance.uniform(-room, room) for _ in range(3))
    a, b, c = random_frame(chance, square)
    if chance.random() < 0.65:
        radius, depth = chance.uniform(0.5, 5), chance.uniform(1, 25)
        rings = chance.choice(
            [
                ((0.0, radius), (depth, radius)),
                ((0.0, radius), (depth, radius), (depth + 0.6 * radius, 0.0)),
                ((0.0, radius), (0.7 * radius, 0.4 * radius)),
                ((0.0, radius), (0.5 * depth, radius), (depth, 0.6 * radius)),
            ]
        )
        slide = NOWHERE
        if chance.random() < 0.25:
            long = chance.uniform(1, 10)
            slide = tuple(long * one for one in b)
        return Turned(at, a, rings, slide)
    length, width = chance.uniform(1, 25), chance.uniform(1, 25)
    corner = chance.choice((0.0, min(length, width) / 2, min(length, width) / 4))
    return Prism(at, a, b, c, length, width, chance.uniform(0.5, 20), corner)
