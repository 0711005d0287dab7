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

from calculators.drawing.part_body import Body, Void
from calculators.drawing.part_candidates import STEPS, Edge, candidates
from calculators.geometry.frames import FaceFrame
from calculators.geometry.outlines import flat_points
from calculators.geometry.vectors import Vector, along, cos_sin, scale, subtract

Point2 = tuple[float, float]
_SHORT_MM = 5.0


@dataclass(frozen=True, slots=True)
class Edges:
    """Lines in the u and v of a view [mm]: those that are seen and those that are hidden."""

    seen: tuple[tuple[Point2, ...], ...]
    hidden: tuple[tuple[Point2, ...], ...]


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
    for piece in _pieces(body, candidates(body, frame)):
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
            angles = [cos_sin(360.0 * i / STEPS) for i in range(STEPS + 1)]
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


def _pieces(body: Body, edges: Iterable[Edge]) -> Iterator[Edge]:
    """Cut edges where pockets and the part begin or end, and keep the pieces that are edges in truth."""
    for edge in edges:
        way = subtract(edge.end, edge.start)
        for start, end in pairwise(_cuts(body, edge)):
            piece = Edge(
                along(edge.start, (way, start)), along(edge.start, (way, end)),
                edge.one, edge.other, edge.sure, edge.nudge,
            )  # fmt: skip
            if _is_edge(body, piece):
                yield piece


def _cuts(body: Body, edge: Edge) -> list[float]:
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


def _far_from(void: Void, edge: Edge) -> bool:
    """Whether a short edge lies further from the middle of a recess than the recess reaches."""
    (a, b, c), (d, e, f) = void.low, void.high
    deep = min(f, 1e6)
    reach = math.dist((a, b, max(c, -1e6)), (d, e, deep)) / 2 + _SHORT_MM
    return (
        math.dist(void.frame.point((a + d) / 2, (b + e) / 2, (max(c, -1e6) + deep) / 2), edge.start) > reach
    )


def _round_cuts(body: Body, edge: Edge, way: Vector) -> Iterator[float]:
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


def _is_edge(body: Body, piece: Edge) -> bool:
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


def _is_seen(body: Body, frame: FaceFrame, piece: Edge) -> bool:
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
