"""Where a part has material, and what a line through it meets: for what is seen and what is hidden."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from calculators.geometry.frames import FaceFrame, face_frame
from calculators.geometry.model import Pocket, Solid
from calculators.geometry.outlines import Vertex, is_inside, pieces
from calculators.geometry.outlines import flat_points as _flat
from calculators.geometry.vectors import Vector, dot

Span = tuple[float, float]
_FAR = 1e7
_HAIR = 1e-7
_QUARTER, _SAME = math.tan(math.pi / 8), 1e-6
"""The bulge of a quarter of a circle; how near counts as the same."""


@dataclass(frozen=True, slots=True)
class Void:
    """What a pocket takes away: a box in the frame of its face, from u, v to u, v and so deep [mm]."""

    frame: FaceFrame
    low: Vector
    high: Vector
    corner: float

    def has(self, point: Vector) -> bool:
        """Say whether a point of the part's frame lies in it."""
        u, v, depth = self.frame.read(point)
        if not (
            self.low[0] < u < self.high[0]
            and self.low[1] < v < self.high[1]
            and self.low[2] < depth < self.high[2]
        ):
            return False
        if self.corner <= 0:
            return True
        du = max(self.low[0] + self.corner - u, u - self.high[0] + self.corner, 0.0)
        dv = max(self.low[1] + self.corner - v, v - self.high[1] + self.corner, 0.0)
        return math.hypot(du, dv) < self.corner

    def span(self, point: Vector, way: Vector) -> Span | None:
        """Give from where to where a line lies in it, its corners taken as sharp."""
        start = self.frame.read(point)
        turned = (
            dot(way, self.frame.u_axis), dot(way, self.frame.v_axis), dot(way, self.frame.inward)
        )  # fmt: skip
        least, most = -_FAR, _FAR
        for at, step, low, high in zip(start, turned, self.low, self.high, strict=True):
            if abs(step) < 1e-9:
                if not low < at < high:
                    return None
                continue
            one, other = sorted(((low - at) / step, (high - at) / step))
            least, most = max(least, one), min(most, other)
        return (least, most) if most > least else None


def void_of(solid: Solid, pocket: Pocket) -> Void:
    """Give what a pocket takes away, a hair above its face too.

    Args:
        solid: the part.
        pocket: one of its pockets with a length and a width.

    Returns:
        The void.

    Source: the frames that the developers' guide states.
    """
    frame = face_frame(solid, pocket.face, pocket.angle)
    deep = _FAR if pocket.depth is None else pocket.depth
    # A pocket that begins at the edge of its face is open there: its wall is not left standing as a hair.
    low = [pocket.u, pocket.v]
    high = [pocket.u + pocket.length, pocket.v + pocket.width]
    ranges = (frame.u_range, frame.v_range)
    for axis, (least, most) in enumerate(ranges):
        if low[axis] <= least + 1e-6:
            low[axis] -= 1.0
        if high[axis] >= most - 1e-6:
            high[axis] += 1.0
    return Void(frame, (low[0], low[1], -1.0), (high[0], high[1], deep), pocket.corner_radius)


class Body:
    """A part's material: a block, a block with an outline, or a round with its bore, less its pockets.

    Args:
        solid: the part; its round counterbores belong to holes and are left out.

    Source: geometry.
    """

    def __init__(self, solid: Solid) -> None:
        self.solid = solid
        self.cuts = tuple(one for one in solid.pockets if not one.diameter)
        self.voids = tuple(void_of(solid, one) for one in self.cuts)
        self._flat = _flat(solid.outline, 0.02) if solid.outline else []

    def has(self, point: Vector) -> bool:
        """Say whether a point of the part's frame lies in material."""
        return self._in_base(point) and not any(void.has(point) for void in self.voids)

    def _in_base(self, point: Vector) -> bool:
        x, y, z = point
        one = self.solid
        if one.shape == "round":
            away = math.hypot(y, z)
            return 0 < x < one.length and one.bore / 2 < away < one.diameter / 2
        if not (0 < x < one.length and 0 < y < one.width and 0 < z < one.thickness):
            return False
        return not one.outline or is_inside(one.outline, x, y)

    def along(self, point: Vector, way: Vector) -> list[Span]:
        """Give where a line through a point runs in material, from the point on and before it [mm]."""
        spans = self._base_spans(point, way)
        for void in self.voids:
            cut = void.span(point, way)
            if cut:
                spans = without(spans, cut)
        return [one for one in spans if one[1] - one[0] > _HAIR]

    def _base_spans(self, point: Vector, way: Vector) -> list[Span]:
        one = self.solid
        if one.shape == "round":
            return self._round_spans(point, way)
        box = _box_span(point, way, (one.length, one.width, one.thickness))
        if box is None or not one.outline:
            return [box] if box else []
        if abs(way[2]) > 0.5:
            return [box] if is_inside(one.outline, point[0], point[1]) else []
        return [
            (max(low, box[0]), min(high, box[1]))
            for low, high in self._outline_spans(point, way)
            if min(high, box[1]) > max(low, box[0])
        ]

    def _outline_spans(self, point: Vector, way: Vector) -> list[Span]:
        """Where a level line runs within the outline: between each two crossings of it."""
        met = []
        ring = self._flat
        across = (-way[1], way[0])
        for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True):
            one = (ax - point[0]) * across[0] + (ay - point[1]) * across[1]
            other = (bx - point[0]) * across[0] + (by - point[1]) * across[1]
            if (one > 0) != (other > 0):
                share = one / (one - other)
                x, y = ax + (bx - ax) * share, ay + (by - ay) * share
                met.append((x - point[0]) * way[0] + (y - point[1]) * way[1])
        met.sort()
        return list(zip(met[::2], met[1::2], strict=False))

    def _round_spans(self, point: Vector, way: Vector) -> list[Span]:
        one = self.solid
        if abs(way[0]) > 0.5:
            away = math.hypot(point[1], point[2])
            if not one.bore / 2 < away < one.diameter / 2:
                return []
            ends = sorted(((0 - point[0]) / way[0], (one.length - point[0]) / way[0]))
            return [(ends[0], ends[1])]
        if not 0 < point[0] < one.length:
            return []
        spans = _chord(point, way, one.diameter / 2)
        bore = _chord(point, way, one.bore / 2) if one.bore else []
        return without(spans, bore[0]) if bore else spans


def _box_span(point: Vector, way: Vector, sizes: Vector) -> Span | None:
    least, most = -_FAR, _FAR
    for at, step, size in zip(point, way, sizes, strict=True):
        if abs(step) < 1e-9:
            if not 0 < at < size:
                return None
            continue
        one, other = sorted(((0 - at) / step, (size - at) / step))
        least, most = max(least, one), min(most, other)
    return (least, most) if most > least else None


def _chord(point: Vector, way: Vector, radius: float) -> list[Span]:
    """Where a line square to the axis lies within a circle about it."""
    along = point[1] * way[1] + point[2] * way[2]
    under = along * along - (point[1] ** 2 + point[2] ** 2 - radius * radius)
    if under <= 0:
        return []
    half = math.sqrt(under)
    return [(-along - half, -along + half)]


def without(spans: Iterable[Span], cut: Span) -> list[Span]:
    """Take one stretch out of others.

    Args:
        spans: stretches of a line [mm].
        cut: the stretch that is taken out.

    Returns:
        What is left, in the same order.

    Source: this project.

    Example:
        >>> without([(0, 10)], (4, 6))
        [(0, 4), (6, 10)]
    """
    left: list[Span] = []
    for low, high in spans:
        if cut[0] >= high or cut[1] <= low:
            left.append((low, high))
            continue
        if cut[0] > low:
            left.append((low, cut[0]))
        if cut[1] < high:
            left.append((cut[1], high))
    return left


def sharp_corners(solid: Solid) -> list[tuple[float, float]]:
    """Give the corners of a free outline at which it bends; where a line runs on into an arc, none.

    Args:
        solid: a block.

    Returns:
        X, Y of each [mm]; of a plain block its four corners.

    Source: ISO 128 (from memory): a smooth change of surface has no edge.

    Example:
        >>> len(sharp_corners(Solid("block", 40, 20, 5)))
        4
    """
    if not solid.outline:
        return [(0.0, 0.0), (solid.length, 0.0), (solid.length, solid.width), (0.0, solid.width)]
    found = []
    parts = pieces(solid.outline)
    for before, after in zip((parts[-1], *parts[:-1]), parts, strict=True):
        ends, begins = _heading(*before, at_end=True), _heading(*after, at_end=False)
        turn = (begins - ends + 180.0) % 360.0 - 180.0
        if abs(turn) > 0.5:
            found.append((after[0].x, after[0].y))
    return found


def placed_corners(solid: Solid) -> list[tuple[float, float]]:
    """Give the points that place a free outline: its corners, and of a rounded square corner the sharp one.

    Args:
        solid: a block.

    Returns:
        X, Y of each [mm]; where a quarter of a circle runs on from one edge along an axis into another, the
        point in which the edges would meet, for the radius says the rest.

    Source: common practice: a rounded corner is given by the sharp one and its radius.

    Example:
        >>> from calculators.geometry.outlines import rectangle
        >>> placed_corners(Solid("block", 40, 20, 5, outline=rectangle(0, 0, 40, 20, 3)))
        [(40, 0), (40, 20), (0, 20), (0, 0)]
    """
    sharp = set(sharp_corners(solid))
    found: dict[tuple[float, float], None] = {}
    replaced: set[tuple[float, float]] = set()
    parts = pieces(solid.outline)
    for start, end in parts:
        ends = ((start.x, start.y), (end.x, end.y))
        is_square = abs(abs(end.x - start.x) - abs(end.y - start.y)) < _SAME
        if abs(abs(start.bulge) - _QUARTER) > _SAME or not is_square or sharp.intersection(ends):
            continue
        is_level = abs(math.sin(math.radians(_heading(start, end, at_end=False)))) < 0.5
        found[(end.x, start.y) if is_level else (start.x, end.y)] = None
        replaced.update(ends)
    found |= dict.fromkeys((one.x, one.y) for one, _ in parts if (one.x, one.y) not in replaced)
    return list(found)


def _heading(start: Vertex, end: Vertex, *, at_end: bool) -> float:
    """The direction of a line or an arc where it begins or ends [deg]."""
    chord = math.degrees(math.atan2(end.y - start.y, end.x - start.x))
    half_turn = math.degrees(2 * math.atan(start.bulge))
    return chord + half_turn if at_end else chord - half_turn
