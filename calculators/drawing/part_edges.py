"""The edges of a part as one view shows them: which are seen, which are hidden, each drawn once.

An edge is where material and air meet in a corner; it is tried at the middle of each of its pieces, cut
where a pocket begins or ends. A piece is seen where a line from it to the eye meets no material.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from calculators.drawing.part_body import Body, Void, sharp_corners
from calculators.geometry.frames import FaceFrame
from calculators.geometry.outlines import Outline, arc_of, flat_points, pieces
from calculators.geometry.outlines import rectangle as rounded
from calculators.geometry.vectors import Vector, along, cos_sin, scale, subtract

Point2 = tuple[float, float]
_NUDGE = 1e-4
_SHORT_MM = 5.0
_CURVED = 0.03
"""How far beside a curve is looked, whose pieces are straight to a hundredth of a millimetre."""

_STEPS = 120
"""Into how many pieces a circle is cut."""


@dataclass(frozen=True, slots=True)
class Edges:
    """Lines in the u and v of a view [mm]: those that are seen and those that are hidden."""

    seen: tuple[tuple[Point2, ...], ...]
    hidden: tuple[tuple[Point2, ...], ...]


@dataclass(frozen=True, slots=True)
class _Edge:
    """A piece of an edge that may be there: its ends, and two ways square to it between which it lies.

    One that is `sure` is there where both material and air are beside it, whatever the corner.
    """

    start: Vector
    end: Vector
    one: Vector
    other: Vector
    sure: bool = False
    nudge: float = 1e-4


_X, _Y, _Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)


def view_edges(body: Body, frame: FaceFrame) -> Edges:
    """Give the edges of a part as they are seen square to one of its faces, holes left out.

    Args:
        body: the part's material.
        frame: the face's frame; its u runs to the right, its v up.

    Returns:
        The lines, in the face's u and v.

    Source: ISO 128 (from memory): visible edges full, hidden ones dashed, what coincides once.
    """
    if not body.voids and (plain := _plain_edges(body, frame)) is not None:
        return plain
    seen: list[tuple[Point2, Point2]] = []
    hidden: list[tuple[Point2, Point2]] = []
    for piece in _pieces(body, _candidates(body, frame)):
        u, v, _ = frame.read(piece.start)
        to_u, to_v, _ = frame.read(piece.end)
        if math.hypot(to_u - u, to_v - v) < 1e-6:
            continue
        if _is_seen(body, frame, piece):
            seen.append(((u, v), (to_u, to_v)))
        elif not _on_rim(body, frame, (u, v), (to_u, to_v)):
            hidden.append(((u, v), (to_u, to_v)))
    return _once(seen, hidden)


def _plain_edges(body: Body, frame: FaceFrame) -> Edges | None:
    """The edges of a part without recesses, which need no looking for; None where corners may be hidden."""
    solid = body.solid
    (u, to_u), (v, to_v) = frame.u_range, frame.v_range
    box = ((u, v), (to_u, v), (to_u, to_v), (u, to_v), (u, v))
    if solid.shape == "round":
        if abs(frame.inward[0]) > 0.5:
            angles = [cos_sin(360.0 * i / _STEPS) for i in range(_STEPS + 1)]
            radii = [diameter / 2 for diameter in (solid.diameter, solid.bore) if diameter]
            return Edges(tuple(tuple((r * c, r * s) for c, s in angles) for r in radii), ())
        half = solid.bore / 2
        return Edges((box,), (((u, half), (to_u, half)), ((u, -half), (to_u, -half))) if half else ())
    if not solid.outline:
        return Edges((box,), ())
    if abs(frame.inward[2]) < 0.5:
        return None
    ring = [frame.read((x, y, 0.0))[:2] for x, y in flat_points(solid.outline, 0.01)]
    return Edges(((*ring, ring[0]),), ())


def _candidates(body: Body, frame: FaceFrame) -> Iterator[_Edge]:
    solid = body.solid
    if solid.shape == "round":
        yield from _round_edges(body, frame)
    else:
        yield from _block_edges(body, frame)
    for void in body.voids:
        yield from _void_edges(void, _far_side(body, void), is_round=solid.shape == "round")
        if solid.shape == "round":
            yield from _on_round(void, solid.diameter / 2, solid.length, frame)


def _block_edges(body: Body, view: FaceFrame) -> Iterator[_Edge]:
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
            yield _Edge((x, y, z), (to_x, to_y, z), out, _Z, nudge=3 * off if solid.outline else _NUDGE)
    for x, y in corners:
        yield _Edge((x, y, 0.0), (x, y, solid.thickness), _X, _Y, sure=True)
    if solid.outline and abs(view.inward[2]) < 0.5:
        for x, y in _outermost(solid.outline, view):
            yield _Edge((x, y, 0.0), (x, y, solid.thickness), _X, _Y, sure=True, nudge=_CURVED)


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


def _walls_on_outline(body: Body) -> Iterator[_Edge]:
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
                        yield _Edge((x, y, 0.0), top, _X, _Y, sure=True, nudge=_CURVED)


def _round_edges(body: Body, frame: FaceFrame) -> Iterator[_Edge]:
    solid = body.solid
    for diameter in filter(None, (solid.diameter, solid.bore)):
        for x in (0.0, solid.length):
            yield from _ring(x, diameter / 2, frame)
        if abs(frame.inward[0]) < 0.5:  # seen from the side its outermost lines are an edge to the eye
            for side in (1.0, -1.0):
                out = scale(frame.v_axis, side)
                start = along((0.0, 0.0, 0.0), (out, diameter / 2))
                yield _Edge(start, along(start, (_X, solid.length)), out, frame.inward, sure=True)


def _ring(x: float, radius: float, view: FaceFrame) -> Iterator[_Edge]:
    steps = _STEPS if abs(view.inward[0]) > 0.5 else _STEPS // 4  # seen from the side it is a straight line
    angles = [360.0 * i / steps for i in range(steps + 1)]
    for first, last in pairwise(angles):
        (c, s), (d, t), (m, n) = cos_sin(first), cos_sin(last), cos_sin((first + last) / 2)
        yield _Edge((x, radius * c, radius * s), (x, radius * d, radius * t), (0.0, m, n), _X, sure=True)


def _void_edges(void: Void, far: float, *, is_round: bool) -> Iterator[_Edge]:
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
            frame, rounded(u, v, to_u - u, to_v - v, void.corner), level, _CURVED if void.corner else _NUDGE
        )
    if void.corner <= 0:
        for x, y in ((u, v), (to_u, v), (to_u, to_v), (u, to_v)):
            yield _Edge(frame.point(x, y), frame.point(x, y, floor), frame.u_axis, frame.v_axis)


def _far_side(body: Body, void: Void) -> float:
    """How deep the part is behind a pocket's face."""
    solid, (x, y, _) = body.solid, void.frame.inward
    if abs(x) > 0.5:
        return solid.length
    return solid.diameter if solid.shape == "round" else solid.width if abs(y) > 0.5 else solid.thickness


def _level_edges(frame: FaceFrame, outline: Outline, level: float, nudge: float) -> Iterator[_Edge]:
    ring = flat_points(outline, 0.01)
    for (u, v), (to_u, to_v) in zip(ring, (*ring[1:], ring[0]), strict=True):
        long = math.hypot(to_u - u, to_v - v)
        if long < 1e-9:
            continue
        out = along((0.0, 0.0, 0.0), (frame.u_axis, (to_v - v) / long), (frame.v_axis, (u - to_u) / long))
        yield _Edge(frame.point(u, v, level), frame.point(to_u, to_v, level), out, frame.inward, nudge=nudge)


def _on_round(void: Void, radius: float, length: float, view: FaceFrame) -> Iterator[_Edge]:
    """Where a pocket's floor and walls meet the round surface."""
    frame, (u, v, _), (to_u, to_v, deep) = void.frame, void.low, void.high
    if abs(frame.inward[0]) > 0.5:
        for wall, way in ((u, frame.u_axis), (to_u, frame.u_axis), (v, frame.v_axis), (to_v, frame.v_axis)):
            if abs(wall) < radius:
                across = frame.v_axis if way is frame.u_axis else frame.u_axis
                half = math.sqrt(radius**2 - wall**2)
                for side in (half, -half):
                    at = along((0.0, 0.0, 0.0), (way, wall), (across, side))
                    yield _Edge(at, along(at, (_X, length)), way, across, sure=True)
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
        yield _Edge(start, end, frame.v_axis, frame.inward, sure=True)


def _pieces(body: Body, edges: Iterable[_Edge]) -> Iterator[_Edge]:
    """Cut edges where pockets and the part begin or end, and keep the pieces that are edges in truth."""
    for edge in edges:
        way = subtract(edge.end, edge.start)
        for start, end in pairwise(_cuts(body, edge)):
            piece = _Edge(
                along(edge.start, (way, start)), along(edge.start, (way, end)),
                edge.one, edge.other, edge.sure, edge.nudge,
            )  # fmt: skip
            if _is_edge(body, piece):
                yield piece


def _cuts(body: Body, edge: _Edge) -> list[float]:
    """The places along an edge, from 0 to 1, at which something may begin or end."""
    way = subtract(edge.end, edge.start)
    long = math.sqrt(sum(step * step for step in way))
    if long < 1e-9:
        return []
    unit = scale(way, 1 / long)
    found = {0.0, 1.0}
    is_short = long < _SHORT_MM
    for void in body.voids:
        if is_short and _far_from(void, edge):
            continue
        start, end = void.frame.read(edge.start), void.frame.read(edge.end)
        low, high = void.low, void.high
        if (
            any(
                max(a, b) < least - 1e-6 or min(a, b) > most + 1e-6
                for a, b, least, most in zip(start, end, low, high, strict=True)
            )
            and is_short
        ):
            continue  # one outside may be seen through it, but so short a piece is not cut for that
        for a, b, least, most in zip(start, end, low, high, strict=True):
            if abs(b - a) > 1e-9:
                found.update(
                    share for share in ((least - a) / (b - a), (most - a) / (b - a)) if 0 < share < 1
                )
    middle = along(edge.start, (unit, long / 2))
    for begins, ends in body.along(middle, unit):
        shares = (begins / long + 0.5, ends / long + 0.5)
        found.update(share for share in shares if 0 < share < 1)
    if body.solid.shape == "block":
        for axis, size in enumerate((body.solid.length, body.solid.width, body.solid.thickness)):
            if abs(way[axis]) > 1e-9:
                shares = ((0.0 - edge.start[axis]) / way[axis], (size - edge.start[axis]) / way[axis])
                found.update(share for share in shares if 0 < share < 1)
    else:
        found.update(_round_cuts(body, edge, way))
    return sorted(found)


def _far_from(void: Void, edge: _Edge) -> bool:
    """Whether a short edge lies further from the middle of a recess than the recess reaches."""
    (a, b, c), (d, e, f) = void.low, void.high
    deep = min(f, 1e6)
    reach = math.dist((a, b, max(c, -1e6)), (d, e, deep)) / 2 + _SHORT_MM
    return (
        math.dist(void.frame.point((a + d) / 2, (b + e) / 2, (max(c, -1e6) + deep) / 2), edge.start) > reach
    )


def _round_cuts(body: Body, edge: _Edge, way: Vector) -> Iterator[float]:
    """Where an edge leaves a round part: at its ends and at its surface."""
    if abs(way[0]) > 1e-9:
        yield from (
            share
            for share in (-edge.start[0] / way[0], (body.solid.length - edge.start[0]) / way[0])
            if 0 < share < 1
        )
    a = way[1] ** 2 + way[2] ** 2
    if a < 1e-18:
        return
    b = edge.start[1] * way[1] + edge.start[2] * way[2]
    for radius in filter(None, (body.solid.diameter / 2, body.solid.bore / 2)):
        under = b * b - a * (edge.start[1] ** 2 + edge.start[2] ** 2 - radius * radius)
        if under > 0:
            yield from (
                share
                for share in ((-b - math.sqrt(under)) / a, (-b + math.sqrt(under)) / a)
                if 1e-9 < share < 1 - 1e-9
            )


def _is_edge(body: Body, piece: _Edge) -> bool:
    """Whether material and air meet in a corner at the middle of a piece."""
    middle = along(piece.start, (subtract(piece.end, piece.start), 0.5))
    corners = [
        body.has(along(middle, (piece.one, a * piece.nudge), (piece.other, b * piece.nudge)))
        for a, b in ((1, 1), (-1, 1), (-1, -1), (1, -1))
    ]
    count = sum(corners)
    if piece.sure:
        return 0 < count < 4
    return count in (1, 3) or (count == 2 and corners[0] == corners[2])


def _is_seen(body: Body, frame: FaceFrame, piece: _Edge) -> bool:
    """Whether a line to the eye is free, right beside the middle of a piece."""
    middle = along(piece.start, (subtract(piece.end, piece.start), 0.5))
    eye = scale(frame.inward, -1.0)
    for a, b in ((1, 1), (-1, 1), (-1, -1), (1, -1)):
        off = piece.nudge
        beside = along(middle, (frame.u_axis, a * off), (frame.v_axis, b * off))
        if not any(high > 5 * off for _, high in body.along(beside, eye)):
            return True
    return False


def _on_rim(body: Body, frame: FaceFrame, *points: Point2) -> bool:
    """Whether points lie on the circle that the end of a round part shows: it is drawn there already."""
    if body.solid.shape != "round" or abs(frame.inward[0]) < 0.5:
        return False
    radius = body.solid.diameter / 2
    (u, v), (to_u, to_v) = points[0], points[-1]
    tried = (*points, ((u + to_u) / 2, (v + to_v) / 2))
    return all(abs(math.hypot(*point) - radius) < 1e-3 * radius for point in tried)


def _once(seen: Sequence[tuple[Point2, Point2]], hidden: Sequence[tuple[Point2, Point2]]) -> Edges:
    """Draw what coincides once, seen before hidden; level and upright lines as one where they run on."""
    visible, unseen = _Lines(), _Lines()
    for line in seen:
        visible.add(line)
    for line in hidden:
        unseen.add(line)
    unseen.take_out(visible)
    return Edges(tuple(visible.chains()), tuple(unseen.chains()))


class _Lines:
    """Lines of one kind: level and upright ones as stretches at a height, others by their ends."""

    def __init__(self) -> None:
        self.straight: dict[tuple[int, float], list[tuple[float, float]]] = defaultdict(list)
        self.others: dict[tuple[Point2, Point2], tuple[Point2, Point2]] = {}

    def add(self, line: tuple[Point2, Point2]) -> None:
        (u, v), (to_u, to_v) = line
        for axis, (a, b), (c, d) in ((0, (v, to_v), (u, to_u)), (1, (u, to_u), (v, to_v))):
            if abs(a - b) < 1e-6:
                self.straight[axis, round(a, 4)].append((min(c, d), max(c, d)))
                return
        ends = sorted(((round(u, 4), round(v, 4)), (round(to_u, 4), round(to_v, 4))))
        self.others[ends[0], ends[1]] = line

    def take_out(self, more: _Lines) -> None:
        for key in more.others:
            self.others.pop(key, None)
        for place, stretches in self.straight.items():
            left = _joined(stretches)
            for low, high in _joined(more.straight.get(place, [])):
                left = (
                    [
                        each
                        for a, b in left
                        for each in ((a, min(b, low)), (max(a, high), b))
                        if each[1] - each[0] > 1e-4
                    ]
                    if left
                    else left
                )
            self.straight[place] = left

    def chains(self) -> Iterator[tuple[Point2, ...]]:
        for (axis, at), stretches in sorted(self.straight.items()):
            for low, high in _joined(stretches):
                yield ((low, at), (high, at)) if axis == 0 else ((at, low), (at, high))
        chain: list[Point2] = []
        for start, end in self.others.values():
            if chain and math.dist(chain[-1], start) < 1e-6:
                chain.append(end)
                continue
            if chain:
                yield tuple(chain)
            chain = [start, end]
        if chain:
            yield tuple(chain)


def _joined(stretches: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = []
    for low, high in sorted(stretches):
        if found and low <= found[-1][1] + 1e-4:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found
