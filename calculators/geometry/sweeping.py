"""How near a moving shape comes to a fixed one over its whole travel: guaranteed, not sampled.

The travel is cut into stretches. In each, the plane that parts the two shapes in the middle of the stretch
gives a bound for the whole of it: the moving shape's support in that direction at both ends of the stretch,
and the little by which a turning point bulges between them. Stretches that may hold something nearer than
what is found so far are halved, the most promising first.
"""

from __future__ import annotations

import heapq
import math
from dataclasses import dataclass
from typing import Literal

from calculators.geometry.nearness import TOUCHING_MM, Nearness, apart
from calculators.geometry.shapes import Box, Shape, Slab, Turned, box_of, moved, slab_corners, support
from calculators.geometry.vectors import Transform, Vector, add, along, cross, dot, scale, subtract

WITHIN_MM = 0.01
"""The least distance is found as closely as this."""

_AXES: tuple[Vector, ...] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
_TURN_DEG = 5e-3
"""The first place that is too near is found as closely as this, or as `WITHIN_MM` of a slide."""

MOST_LOOKS = 4000
"""A sweep that has been looked at this often is told by what was found."""


@dataclass(frozen=True, slots=True)
class Sweep:
    """A motion in one frame: `turns` about, or `slides` along, an axis, from `least` to `most` [deg or mm].

    `way` is a unit vector; angles are anticlockwise as seen against it (right-handed).
    """

    kind: Literal["turns", "slides"]
    point: Vector
    way: Vector
    least: float
    most: float


@dataclass(frozen=True, slots=True)
class Swept:
    """The nearest that two shapes come over a sweep: how near [mm], at which angle or stroke, and where.

    `distance` is negative where they overlap: then it is the depth at the deepest of the positions looked
    at. `at_least` says that it is a lower bound only, `certain` that the search came to its end.
    """

    distance: float
    at: float
    near: Nearness
    at_least: bool = False
    certain: bool = True


def moved_to(shape: Shape, sweep: Sweep, at: float) -> Shape:
    """Return a moving shape at a place of its travel.

    Args:
        shape: the shape where it rests, at 0.
        sweep: its motion.
        at: the angle or the stroke [deg or mm].

    Returns:
        The shape there.

    Source: Rodrigues' formula.

    Example:
        >>> pin = Turned((10, 0, 0), (1, 0, 0), ((0, 1), (5, 1)))
        >>> moved_to(pin, Sweep("slides", (0, 0, 0), (0, 0, 1), 0, 9), 3).start
        (10.0, 0.0, 3.0)
    """
    return moved(shape, _transform(sweep, at))


def _turned(vector: Vector, way: Vector, angle_rad: float) -> Vector:
    c, s = math.cos(angle_rad), math.sin(angle_rad)
    return add(add(scale(vector, c), scale(cross(way, vector), s)), scale(way, dot(way, vector) * (1.0 - c)))


def _transform(sweep: Sweep, at: float) -> Transform:
    if sweep.kind == "slides":
        return Transform(shift=scale(sweep.way, at))
    angle = math.radians(at)
    x, y, z = (_turned(axis, sweep.way, angle) for axis in _AXES)
    turn = Transform((x, y, z))
    return Transform((x, y, z), subtract(sweep.point, turn.direction(sweep.point)))


def reach_of(shape: Shape, sweep: Sweep) -> float:
    """Return how far from a sweep's axis a shape reaches at most [mm].

    Args:
        shape: the shape.
        sweep: the motion.

    Returns:
        An upper bound, exact where the farthest point is a corner or a ring about a parallel axis.

    Source: geometry.

    Example:
        >>> about_z = Sweep("turns", (0, 0, 0), (0, 0, 1), 0, 9)
        >>> reach_of(Turned((3, 4, 0), (0, 0, 1), ((0, 1), (5, 2))), about_z)
        7.0
    """
    far = 0.0
    if isinstance(shape, Turned):
        slid = math.sqrt(dot(shape.slide, shape.slide)) / 2.0
        for at, radius in shape.rings:
            far = max(far, _from_axis(along(shape.start, (shape.way, at)), sweep) + radius + slid)
        return far
    if isinstance(shape, Slab):
        return max(_from_axis(corner, sweep) for corner in slab_corners(shape))
    for u in (0.0, shape.length):
        for v in (0.0, shape.width):
            for w in (0.0, shape.depth):
                corner = along(shape.corner, (shape.u_axis, u), (shape.v_axis, v), (shape.inward, w))
                far = max(far, _from_axis(corner, sweep))
    return far


def _from_axis(point: Vector, sweep: Sweep) -> float:
    away = cross(sweep.way, subtract(point, sweep.point))
    return math.sqrt(dot(away, away))


def swept_box(shape: Shape, sweep: Sweep) -> Box:
    """Return a box that holds a moving shape all through its travel.

    Args:
        shape: the shape where it rests.
        sweep: its motion.

    Returns:
        The corner with the least and that with the greatest coordinates [mm].

    Source: geometry (of a turn, the ring that the whole turn would fill, cut by the arc's own box).

    Example:
        >>> pin = Turned((0, 0, 0), (1, 0, 0), ((0, 0), (10, 0)))
        >>> low, high = swept_box(pin, Sweep("slides", (0, 0, 0), (0, 0, 1), -2, 9))
        >>> low[2], high[2]
        (-2.0, 9.0)
    """
    if sweep.kind == "slides":
        boxes = [box_of(moved_to(shape, sweep, at)) for at in (sweep.least, sweep.most)]
        return _both(boxes)
    steps = max(1, math.ceil((sweep.most - sweep.least) / 15.0))
    width = (sweep.most - sweep.least) / steps
    boxes = [box_of(moved_to(shape, sweep, sweep.least + width * step)) for step in range(steps + 1)]
    # Between two of the steps a point bulges beyond both by its sagitta at most.
    bulge = reach_of(shape, sweep) * (1.0 - math.cos(math.radians(width) / 2.0))
    low, high = _both(boxes)
    return (
        (low[0] - bulge, low[1] - bulge, low[2] - bulge),
        (high[0] + bulge, high[1] + bulge, high[2] + bulge),
    )


def _both(boxes: list[Box]) -> Box:
    low = tuple(min(box[0][i] for box in boxes) for i in range(3))
    high = tuple(max(box[1][i] for box in boxes) for i in range(3))
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


@dataclass(slots=True)
class _Search:
    """Two shapes and a motion, with what bounds their distance over a stretch of the travel."""

    moving: Shape
    fixed: Shape
    sweep: Sweep
    reach: float

    def look(self, at: float, enough: float) -> Nearness:
        return apart(moved_to(self.moving, self.sweep, at), self.fixed, enough)

    def half(self, low: float, high: float) -> float:
        """How far any point moves at most from the middle of a stretch to its ends [mm]."""
        if self.sweep.kind == "slides":
            return (high - low) / 2.0
        return self.reach * math.radians(high - low) / 2.0

    def bound(self, near: Nearness, low: float, high: float) -> float:
        """A lower bound of the distance over a stretch in whose middle it is `near`."""
        least = near.distance - self.half(low, high)
        if near.at_least or near.distance <= TOUCHING_MM:
            return least
        normal = scale(subtract(near.second_point, near.first_point), 1.0 / near.distance)
        wall = dot(support(self.fixed, scale(normal, -1.0)), normal)
        farthest = max(self._support(normal, low), self._support(normal, high))
        return max(least, wall - farthest - self._bulge(normal, low, high))

    def _support(self, normal: Vector, at: float) -> float:
        """How far the moving shape reaches along a direction at a place of its travel."""
        if self.sweep.kind == "slides":
            return dot(support(self.moving, normal), normal) + at * dot(self.sweep.way, normal)
        own = _turned(normal, self.sweep.way, -math.radians(at))
        point = support(self.moving, own)
        return dot(subtract(point, self.sweep.point), own) + dot(self.sweep.point, normal)

    def _bulge(self, normal: Vector, low: float, high: float) -> float:
        if self.sweep.kind == "slides":
            return 0.0
        turn = math.radians(high - low)
        if turn >= math.pi:
            return math.inf
        across = math.sqrt(max(0.0, 1.0 - dot(normal, self.sweep.way) ** 2))
        return self.reach * across * (1.0 - math.cos(turn / 2.0))


def nearest_in_sweep(
    moving: Shape, fixed: Shape, sweep: Sweep, enough: float = math.inf, within: float = WITHIN_MM
) -> Swept:
    """Find how near a moving convex shape comes to a fixed one over its whole travel.

    Args:
        moving: the shape where it rests, at 0.
        fixed: the other, in the same frame.
        sweep: the motion.
        enough: distances beyond this need not be known: then a lower bound that is at least this is given,
            marked `at_least` [mm].
        within: how closely the least distance is found [mm].

    Returns:
        The least distance and where it is; where the shapes meet, the deepest of the places looked at.

    Source: this project (branch and bound with the support's own bounds).

    Example:
        >>> arm = Turned((0, 0, 0), (1, 0, 0), ((0, 1), (50, 1)))
        >>> post = Turned((0, 40, -20), (0, 0, 1), ((0, 3), (40, 3)))
        >>> found = nearest_in_sweep(arm, post, Sweep("turns", (0, 0, 0), (0, 0, 1), 0.0, 60.0))
        >>> round(found.distance, 2), found.at
        (16.0, 60.0)
    """
    search = _Search(moving, fixed, sweep, 0.0)
    if sweep.kind == "turns":
        # Turning the one forward or the other back is the same.
        search.reach = min(reach_of(moving, sweep), reach_of(fixed, sweep))
    best, best_at, best_near = math.inf, 0.0, None
    for at in {sweep.least, sweep.most, min(max(0.0, sweep.least), sweep.most)}:
        near = search.look(at, math.inf)
        if near.distance < best:
            best, best_at, best_near = near.distance, at, near
    assert best_near is not None
    heap = [(-math.inf, sweep.least, sweep.most)] if sweep.most > sweep.least else []
    looks = 0
    while heap:
        bound, low, high = heapq.heappop(heap)
        if bound >= min(best - within, enough):
            break
        if best <= 0.0:
            return _deepest(search, best_at, best_near)
        looks += 1
        if looks > MOST_LOOKS:
            return Swept(best, best_at, best_near, certain=False)
        middle = (low + high) / 2.0
        near = search.look(middle, max(min(best, enough), 0.0) + search.half(low, high))
        if not near.at_least and near.distance < best:
            best, best_at, best_near = near.distance, middle, near
        bound = search.bound(near, low, high)
        if bound < min(best - within, enough):
            heapq.heappush(heap, (bound, low, middle))
            heapq.heappush(heap, (bound, middle, high))
    if best <= 0.0:
        return _deepest(search, best_at, best_near)
    return Swept(best, best_at, best_near, at_least=best >= enough)


def _deepest(search: _Search, at: float, near: Nearness) -> Swept:
    """Look about for the deepest overlap."""
    low, high = search.sweep.least, search.sweep.most
    step = (high - low) / 16.0
    places = [low + step * count for count in range(17)] if step > 0.0 else []
    best, best_at = near, at
    for _ in range(3):
        for place in places:
            found = search.look(place, math.inf)
            if found.distance < best.distance:
                best, best_at = found, place
        step /= 4.0
        places = [min(max(best_at + step * count, low), high) for count in (-3, -2, -1, 1, 2, 3)]
    return Swept(best.distance, best_at, best)


def first_near(moving: Shape, fixed: Shape, sweep: Sweep, end: float, clear: float = 0.0) -> float | None:
    """Find where a moving shape first comes nearer to a fixed one than it may, going from rest to an end.

    Args:
        moving: the shape where it rests, at 0.
        fixed: the other, in the same frame.
        sweep: the motion.
        end: how far it goes, to either side [deg or mm].
        clear: the distance that is to be kept [mm]; 0 finds the first touch.

    Returns:
        The angle or stroke, found from below within 0.005 degree or 0.01 mm; None where they stay apart.

    Source: this project (branch and bound, the stretch nearest to rest first).

    Example:
        >>> block = Turned((0, 0, 0), (1, 0, 0), ((0, 1), (50, 1)))
        >>> wall = Turned((60, 0, 0), (1, 0, 0), ((0, 5), (4, 5)))
        >>> round(first_near(block, wall, Sweep("slides", (0, 0, 0), (1, 0, 0), 0, 20), 20), 1)
        10.0
    """
    search = _Search(moving, fixed, sweep, 0.0)
    if sweep.kind == "turns":
        search.reach = min(reach_of(moving, sweep), reach_of(fixed, sweep))
    side = 1.0 if end >= 0.0 else -1.0
    fine = WITHIN_MM if sweep.kind == "slides" else _TURN_DEG
    stack = [(0.0, abs(end))]
    for _ in range(MOST_LOOKS):
        if not stack:
            return None
        low, high = stack.pop()
        middle = (low + high) / 2.0
        ends = sorted((side * low, side * high))
        near = search.look(side * middle, clear + search.half(*ends) + TOUCHING_MM)
        if search.bound(near, ends[0], ends[1]) > clear:
            continue
        if high - low <= fine:
            if min(near.distance, search.look(side * high, math.inf).distance) <= clear + TOUCHING_MM:
                return side * low
            continue
        stack += [(middle, high), (low, middle)]
    return None
