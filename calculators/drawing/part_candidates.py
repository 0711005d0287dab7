"""The edges that a part may have to one view: round its outline, its ends, its recesses.

Whether they are there is asked of each piece afterwards (`part_edges`).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from calculators.drawing.part_body import Body, Void, sharp_corners
from calculators.geometry.frames import FaceFrame
from calculators.geometry.outlines import Outline, arc_of, flat_points, pieces
from calculators.geometry.outlines import rectangle as rounded
from calculators.geometry.vectors import Vector, along, cos_sin, scale

Point2 = tuple[float, float]
NUDGE = 1e-4
CURVED = 0.03
"""How far beside an edge is looked, and beside a curve, whose pieces are straight to a hundredth [mm]."""

STEPS = 120
"""Into how many pieces a circle is cut."""


@dataclass(frozen=True, slots=True)
class Edge:
    """An edge that may be there: its ends, and two ways square to it between which it lies.

    One that is `sure` is there where both material and air are beside it, whatever the corner.
    """

    start: Vector
    end: Vector
    one: Vector
    other: Vector
    sure: bool = False
    nudge: float = NUDGE


_X, _Y, _Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)


def candidates(body: Body, frame: FaceFrame) -> list[Edge]:
    """Give every edge that a part may have to a view, longer than it is in truth rather than shorter.

    Args:
        body: the part's material.
        frame: the frame of the face that is looked at.

    Returns:
        The edges; pieces of them may lie in air, within material, or on a smooth surface.

    Source: geometry.
    """
    return list(_each(body, frame))


def _each(body: Body, frame: FaceFrame) -> Iterator[Edge]:
    solid = body.solid
    if solid.shape == "round":
        yield from _round_edges(body, frame)
    else:
        yield from _block_edges(body, frame)
    for void in body.voids:
        yield from _void_edges(void, _far_side(body, void), is_round=solid.shape == "round")
        if solid.shape == "round":
            yield from _on_round(void, solid.diameter / 2, solid.length, frame)


def _block_edges(body: Body, view: FaceFrame) -> Iterator[Edge]:
    solid = body.solid
    corners = sharp_corners(solid)
    levels = {0.0, solid.thickness}
    if solid.outline:  # a recess that runs out over the outline leaves an edge at its floor
        flat = [one for one in body.voids if abs(one.frame.inward[2]) > 0.5 and one.high[2] < 1e6]
        levels |= {one.frame.point(0.0, 0.0, one.high[2])[2] for one in flat}
        yield from _walls_on_outline(body)
    # From the side a curve is a straight line, so it need not be cut fine.
    size = max(solid.length, solid.width)
    off = max(0.01, size / (20_000 if abs(view.inward[2]) > 0.5 else 1_000))
    ring = flat_points(solid.outline, off) if solid.outline else corners
    for (x, y), (to_x, to_y) in zip(ring, (*ring[1:], ring[0]), strict=True):
        long = math.hypot(to_x - x, to_y - y)
        if long < 1e-9:
            continue
        out = ((to_y - y) / long, (x - to_x) / long, 0.0)
        for z in levels:
            yield Edge((x, y, z), (to_x, to_y, z), out, _Z, nudge=3 * off if solid.outline else NUDGE)
    for x, y in corners:
        yield Edge((x, y, 0.0), (x, y, solid.thickness), _X, _Y, sure=True)
    if solid.outline and abs(view.inward[2]) < 0.5:
        for x, y in _outermost(solid.outline, view):
            yield Edge((x, y, 0.0), (x, y, solid.thickness), _X, _Y, sure=True, nudge=CURVED)


def _outermost(outline: Outline, view: FaceFrame) -> Iterator[Point2]:
    """Where arcs of an outline turn away from the eye: there the part ends to it, without a corner."""
    turns = (0.0, 180.0) if abs(view.u_axis[0]) > 0.5 else (90.0, 270.0)
    for start, end in pieces(outline):
        arc = arc_of(start, end)
        if arc is None:
            continue
        for angle in turns:
            turned = math.copysign(1.0, arc.turn_deg) * (angle - arc.first_deg) % 360.0
            if turned <= abs(arc.turn_deg) + 1e-6 or turned > 360.0 - 1e-6:
                c, s = cos_sin(angle)
                yield arc.centre[0] + arc.radius * c, arc.centre[1] + arc.radius * s


def _walls_on_outline(body: Body) -> Iterator[Edge]:
    """Where the walls of recesses run out through a free outline: upright lines."""
    ring = flat_points(body.solid.outline, 0.01)
    for void in body.voids:
        if abs(void.frame.inward[2]) < 0.5:
            continue
        one, other = void.frame.point(void.low[0], void.low[1]), void.frame.point(void.high[0], void.high[1])
        for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True):
            for axis in (0, 1):
                a, b = (ax, bx) if axis == 0 else (ay, by)
                for wall in (one[axis], other[axis]):
                    if (a > wall) != (b > wall):
                        share = (wall - a) / (b - a)
                        x, y = ax + (bx - ax) * share, ay + (by - ay) * share
                        top = (x, y, body.solid.thickness)
                        yield Edge((x, y, 0.0), top, _X, _Y, sure=True, nudge=CURVED)


def _round_edges(body: Body, frame: FaceFrame) -> Iterator[Edge]:
    solid = body.solid
    for diameter in filter(None, (solid.diameter, solid.bore)):
        for x in (0.0, solid.length):
            yield from _ring(x, diameter / 2, frame)
        if abs(frame.inward[0]) < 0.5:  # seen from the side its outermost lines are an edge to the eye
            for side in (1.0, -1.0):
                out = scale(frame.v_axis, side)
                start = along((0.0, 0.0, 0.0), (out, diameter / 2))
                yield Edge(start, along(start, (_X, solid.length)), out, frame.inward, sure=True)


def _ring(x: float, radius: float, view: FaceFrame) -> Iterator[Edge]:
    steps = STEPS if abs(view.inward[0]) > 0.5 else STEPS // 4  # seen from the side it is a straight line
    angles = [360.0 * i / steps for i in range(steps + 1)]
    for first, last in pairwise(angles):
        (c, s), (d, t), (m, n) = cos_sin(first), cos_sin(last), cos_sin((first + last) / 2)
        yield Edge((x, radius * c, radius * s), (x, radius * d, radius * t), (0.0, m, n), _X, sure=True)


def _void_edges(void: Void, far: float, *, is_round: bool) -> Iterator[Edge]:
    """The edges that a pocket may leave: round its floor, round its mouth, up its corners."""
    frame, (u, v, _), (to_u, to_v, deep) = void.frame, void.low, void.high
    (least_u, most_u), (least_v, most_v) = frame.u_range, frame.v_range
    u, to_u = max(u, least_u), min(to_u, most_u)
    v, to_v = max(v, least_v), min(to_v, most_v)
    if to_u <= u or to_v <= v:
        return
    floor = min(deep, far)
    for level in (floor,) if is_round and abs(frame.inward[0]) < 0.5 else (0.0, floor):
        yield from _level_edges(
            frame, rounded(u, v, to_u - u, to_v - v, void.corner), level, CURVED if void.corner else NUDGE
        )
    if void.corner <= 0:
        for x, y in ((u, v), (to_u, v), (to_u, to_v), (u, to_v)):
            yield Edge(frame.point(x, y), frame.point(x, y, floor), frame.u_axis, frame.v_axis)


def _far_side(body: Body, void: Void) -> float:
    """How deep the part is behind a pocket's face."""
    solid, (x, y, _) = body.solid, void.frame.inward
    if abs(x) > 0.5:
        return solid.length
    return solid.diameter if solid.shape == "round" else solid.width if abs(y) > 0.5 else solid.thickness


def _level_edges(frame: FaceFrame, outline: Outline, level: float, nudge: float) -> Iterator[Edge]:
    ring = flat_points(outline, 0.01)
    for (u, v), (to_u, to_v) in zip(ring, (*ring[1:], ring[0]), strict=True):
        long = math.hypot(to_u - u, to_v - v)
        if long < 1e-9:
            continue
        out = along((0.0, 0.0, 0.0), (frame.u_axis, (to_v - v) / long), (frame.v_axis, (u - to_u) / long))
        yield Edge(frame.point(u, v, level), frame.point(to_u, to_v, level), out, frame.inward, nudge=nudge)


def _on_round(void: Void, radius: float, length: float, view: FaceFrame) -> Iterator[Edge]:
    """Where a pocket's floor and walls meet the round surface."""
    frame, (u, v, _), (to_u, to_v, deep) = void.frame, void.low, void.high
    if abs(frame.inward[0]) > 0.5:
        for wall, way in ((u, frame.u_axis), (to_u, frame.u_axis), (v, frame.v_axis), (to_v, frame.v_axis)):
            if abs(wall) < radius:
                across = frame.v_axis if way is frame.u_axis else frame.u_axis
                half = math.sqrt(radius**2 - wall**2)
                for side in (half, -half):
                    at = along((0.0, 0.0, 0.0), (way, wall), (across, side))
                    yield Edge(at, along(at, (_X, length)), way, across, sure=True)
        if deep < 1e6:
            x = frame.point(0.0, 0.0, deep)[0]
            yield from _ring(x, radius, view)
        return
    for x in (u, to_u):
        if 0 < x < length:
            yield from _ring(frame.point(x, 0.0)[0], radius, view)
    walls = [(wall, radius - math.sqrt(radius**2 - wall**2)) for wall in (v, to_v) if abs(wall) < radius]
    if deep < 2 * radius:
        half = math.sqrt(max(radius**2 - (radius - deep) ** 2, 0.0))
        walls += [(half, deep), (-half, deep)]
    for off, level in walls:
        start, end = frame.point(max(u, 0.0), off, level), frame.point(min(to_u, length), off, level)
        yield Edge(start, end, frame.v_axis, frame.inward, sure=True)
