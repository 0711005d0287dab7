"""Convex shapes cut by planes, and how far they reach from the axis of a hole."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from calculators.geometry.outline_pieces import beyond_line
from calculators.geometry.shapes import Prism, Shape, Slab, Turned, slab_corners
from calculators.geometry.vectors import Vector, along, dot, scale, subtract

PARALLEL = 1.0 - 1e-9
_ROUND_STEPS = 96


def reach_from_axis(shape: Shape, hole: Turned) -> float:
    """Return how far a shape reaches from the axis of a hole; of a slot, from the strip of its axes.

    Args:
        shape: the shape.
        hole: the hole.

    Returns:
        The greatest distance of a point of the shape from the axis, square to it [mm].

    Source: this project (a convex function has its greatest value at an extreme point).

    Example:
        >>> pin = Turned((1, 0, 0), (0, 0, 1), ((0, 2), (10, 2)))
        >>> reach_from_axis(pin, Turned((0, 0, 0), (0, 0, 1), ((0, 3), (5, 3))))
        3.0
    """
    if isinstance(shape, Turned) and abs(dot(shape.way, hole.way)) > PARALLEL and hole.slide == (0, 0, 0):
        starts = [along(shape.start, (shape.slide, half)) for half in (-0.5, 0.5)]
        off = max(off_axis(start, hole) for start in starts)
        return off + max(ring for _, ring in shape.rings)
    return max(off_axis(point, hole) for point in _extremes(shape))


def off_axis(point: Vector, hole: Turned) -> float:
    """Return how far a point lies from the axis of a hole; of a slot, from the strip of its axes.

    Args:
        point: the point [mm].
        hole: the hole.

    Returns:
        The distance square to the axis [mm].

    Source: this project.
    """
    away = subtract(point, hole.start)
    off = subtract(away, scale(hole.way, dot(away, hole.way)))
    run = math.sqrt(dot(hole.slide, hole.slide))
    if run > 0.0:
        way = scale(hole.slide, 1.0 / run)
        on = min(max(dot(off, way), -run / 2.0), run / 2.0)
        off = subtract(off, scale(way, on))
    return math.sqrt(dot(off, off))


def _extremes(shape: Shape) -> list[Vector]:
    """Return points whose hull is the shape (round edges as many short ones, drawn a hair outside)."""
    if isinstance(shape, Prism):
        return [
            along(shape.corner, (shape.u_axis, u), (shape.v_axis, v), (shape.inward, w))
            for u in (0.0, shape.length)
            for v in (0.0, shape.width)
            for w in (0.0, shape.depth)
        ]
    if isinstance(shape, Slab):
        return slab_corners(shape)
    side, up = _square_to(shape.way)
    points = []
    over = 1.0 / math.cos(math.pi / _ROUND_STEPS)
    for at, ring in shape.rings:
        for half in (-0.5, 0.5):
            middle = along(shape.start, (shape.way, at), (shape.slide, half))
            for step in range(_ROUND_STEPS):
                angle = 2.0 * math.pi * step / _ROUND_STEPS
                points.append(
                    along(middle, (side, over * ring * math.cos(angle)), (up, over * ring * math.sin(angle)))
                )
    return points


def _square_to(way: Vector) -> tuple[Vector, Vector]:
    least = min(range(3), key=lambda axis: abs(way[axis]))
    x, y, z = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))[least]
    wx, wy, wz = way
    side = (y * wz - z * wy, z * wx - x * wz, x * wy - y * wx)
    long = math.sqrt(dot(side, side))
    side = scale(side, 1.0 / long)
    sx, sy, sz = side
    return side, (wy * sz - wz * sy, wz * sx - wx * sz, wx * sy - wy * sx)


def clipped(shape: Shape, point: Vector, outward: Vector) -> Shape | None:
    """Return what of a shape lies beyond a plane that is square to one of its axes.

    Args:
        shape: the shape, which reaches beyond the plane.
        point: a point of the plane [mm].
        outward: its unit normal.

    Returns:
        The shape beyond it; None where the plane is square to none of its axes (of a slab: to none of its
        faces and flanks).

    Source: this project.
    """
    if isinstance(shape, Turned):
        facing = dot(shape.way, outward)
        if abs(facing) < PARALLEL or shape.slide != (0, 0, 0):
            return None
        at = dot(subtract(point, shape.start), shape.way)
        return replace(shape, rings=_rings_beyond(shape.rings, at, forward=facing > 0.0))
    if isinstance(shape, Slab):
        return _slab_beyond(shape, point, outward)
    square = replace(shape, corner_radius=0.0)
    axes = (shape.u_axis, shape.length), (shape.v_axis, shape.width), (shape.inward, shape.depth)
    for number, (axis, size) in enumerate(axes):
        facing = dot(axis, outward)
        if abs(facing) < PARALLEL:
            continue
        at = min(max(dot(subtract(point, shape.corner), axis), 0.0), size)
        if facing > 0.0:
            square, at = replace(square, corner=along(shape.corner, (axis, at))), size - at
        if number == 0:
            return replace(square, length=at)
        return replace(square, width=at) if number == 1 else replace(square, depth=at)
    return None


def _slab_beyond(shape: Slab, point: Vector, outward: Vector) -> Slab | None:
    facing, away = dot(shape.inward, outward), subtract(point, shape.corner)
    if abs(facing) >= PARALLEL:
        at = min(max(dot(away, shape.inward), 0.0), shape.depth)
        if facing < 0.0:
            return replace(shape, depth=at)
        return replace(shape, corner=along(shape.corner, (shape.inward, at)), depth=shape.depth - at)
    if abs(facing) > 1e-9:
        return None
    u_way, v_way = dot(outward, shape.u_axis), dot(outward, shape.v_axis)
    left = beyond_line(shape.points, (u_way, v_way), dot(away, outward))
    return replace(shape, points=left) if left else None


def _rings_beyond(
    rings: tuple[tuple[float, float], ...], at: float, *, forward: bool
) -> tuple[tuple[float, float], ...]:
    kept = [ring for ring in rings if (ring[0] > at if forward else ring[0] < at)]
    for (a, r), (b, s) in pairwise(rings):
        if min(a, b) <= at <= max(a, b):
            kept.append((at, max(r, s) if a == b else r + (s - r) * (at - a) / (b - a)))
    return tuple(sorted(kept))


def outside_by(shape: Shape, point: Vector) -> float:
    """Return how far a point lies outside a shape, negative inside; never more than the true distance.

    Args:
        shape: the shape; a prism counts as square-cornered.
        point: the point [mm].

    Returns:
        The distance from the nearest of its faces' planes or its flanks [mm].

    Source: this project.

    Example:
        >>> outside_by(Turned((0, 0, 0), (0, 0, 1), ((0, 3), (10, 3))), (0, 1, 4))
        -2.0
    """
    px, py, pz = point
    if isinstance(shape, Prism):
        cx, cy, cz = shape.corner
        px, py, pz = px - cx, py - cy, pz - cz
        (ux, uy, uz), (vx, vy, vz), (wx, wy, wz) = shape.u_axis, shape.v_axis, shape.inward
        u, v, w = px * ux + py * uy + pz * uz, px * vx + py * vy + pz * vz, px * wx + py * wy + pz * wz
        return max(-u, u - shape.length, -v, v - shape.width, -w, w - shape.depth)
    if isinstance(shape, Slab):
        return _outside_slab(shape, point)
    (sx, sy, sz), (wx, wy, wz) = shape.start, shape.way
    px, py, pz = px - sx, py - sy, pz - sz
    at = px * wx + py * wy + pz * wz
    if shape.slide == (0.0, 0.0, 0.0):
        flat = math.sqrt(max(0.0, px * px + py * py + pz * pz - at * at))
    else:
        flat = off_axis(point, shape)
    rings = shape.rings
    far = max(rings[0][0] - at, at - rings[-1][0])
    for (a, r), (b, s) in pairwise(rings):
        if b <= a:
            continue
        if r == s:
            far = max(far, flat - r)
        else:
            far = max(far, ((flat - r) * (b - a) - (at - a) * (s - r)) / math.hypot(b - a, s - r))
    return far


def _outside_slab(shape: Slab, point: Vector) -> float:
    away = subtract(point, shape.corner)
    u, v, w = dot(away, shape.u_axis), dot(away, shape.v_axis), dot(away, shape.inward)
    far = max(-w, w - shape.depth)
    for (au, av), (bu, bv) in zip(shape.points, (*shape.points[1:], *shape.points[:1]), strict=True):
        far = max(far, ((bv - av) * (u - au) - (bu - au) * (v - av)) / math.hypot(bu - au, bv - av))
    return far
