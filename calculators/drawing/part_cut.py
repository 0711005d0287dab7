"""A part cut upright along its length: what is hatched, and the holes that the cut goes through."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise

from calculators.drawing.part_body import Body, Void, without
from calculators.drawing.part_holes import Bored, Stroke
from calculators.geometry.frames import face_frame
from calculators.geometry.vectors import dot

Point2 = tuple[float, float]
_HAIR = 1e-5
_LONG_MM = 60.0
"""A hole that reaches further along the part than this, as one drilled from its end, is asked everywhere."""

_ROUND_STEPS = 8
"""Into how many stretches a hole is cut that the section does not go through the middle of."""


@dataclass(frozen=True, slots=True)
class Cut:
    """A section at `y_mm`: rings of what is cut (x, z), lines and numbers of holes cut, what is left."""

    y_mm: float
    rings: tuple[tuple[Point2, ...], ...]
    strokes: tuple[Stroke, ...]
    numbers: frozenset[int]
    body: Body


def cut_at(body: Body, holes: Sequence[Bored], y_mm: float) -> Cut:
    """Cut a part by an upright plane along its length and look at what lies behind it.

    Args:
        body: the part's material.
        holes: its holes.
        y_mm: [mm] where the plane lies along the part's Y.

    Returns:
        The section.

    Source: ISO 128 (sections, from memory): what the plane goes through is hatched, what lies before it gone.
    """
    through = [one for one in holes if _is_cut(one, y_mm)]
    xs = _breaks(body, through, y_mm)
    row = _Row(through)
    slabs = []
    for left, right in pairwise(xs):
        if right - left < 4 * _HAIR:
            continue
        near = row.about((left + right) / 2)
        at_left = _spans(body, near, left + _HAIR, y_mm)
        at_right = _spans(body, near, right - _HAIR, y_mm)
        if len(at_left) == len(at_right):
            slabs.append((left, right, at_left, at_right))
    numbers = frozenset(one.hole.number for one in through)
    return Cut(y_mm, _rings(slabs), tuple(_strokes(through, y_mm)), numbers, _behind(body, y_mm))


class _Row:
    """The holes that are cut, by where they lie along the part: each place asks only those near it."""

    def __init__(self, holes: Sequence[Bored]) -> None:
        reach = [(*_reach(one), index) for index, one in enumerate(holes)]
        self._holes = holes
        self._placed = sorted(one for one in reach if one[1] - one[0] < _LONG_MM)
        self._long = [one for one in reach if one[1] - one[0] >= _LONG_MM]
        self._begins = [begin for begin, _, _ in self._placed]
        self._widest = max((end - begin for begin, end, _ in self._placed), default=0.0)

    def about(self, x: float) -> list[Bored]:
        """The holes that reach over an x."""
        first = bisect_left(self._begins, x - self._widest - 1e-6)
        last = bisect_right(self._begins, x + 1e-6)
        near = [*self._placed[first:last], *self._long]
        return [self._holes[index] for begin, end, index in near if begin - 1e-6 <= x <= end + 1e-6]


def _reach(one: Bored) -> tuple[float, float]:
    """From where to where along the part a hole may be cut."""
    if abs(one.way[0]) > 0.5:
        ends = sorted((one.start[0], one.start[0] + one.way[0] * one.profile[-1][0]))
        return ends[0], ends[1]
    half = (
        max(radius for _, radius in one.profile) + max(one.hole.slot_length_mm, one.hole.thread_major_mm) / 2
    )
    return one.start[0] - half, one.start[0] + half


def _behind(body: Body, y_mm: float) -> Body:
    """The part without what lies before the plane."""
    left = Body(replace(body.solid))
    frame = face_frame(body.solid, "front")
    start = frame.read((0.0, y_mm, 0.0))[2]
    far = 1e6
    left.voids = (*body.voids, Void(frame, (-far, -far, -far), (far, far, start), 0.0))
    return left


def _is_cut(one: Bored, y_mm: float) -> bool:
    """Whether the plane goes through a hole along its axis."""
    if abs(one.way[1]) > 1e-6:
        return False
    radius = max(radius for _, radius in one.profile)
    return abs(one.start[1] - y_mm) < min(radius, one.hole.diameter_mm / 2) * 0.95


def _half(radius: float, one: Bored, y_mm: float) -> float:
    off = abs(one.start[1] - y_mm)
    return math.sqrt(max(radius**2 - off**2, 0.0)) + _longer(one, along_x=True) * (radius > 0)


def _longer(one: Bored, *, along_x: bool) -> float:
    """How much further a slot reaches along the plane than its width says."""
    hole = one.hole
    if hole.slot_length_mm <= hole.diameter_mm or not hole.slot_along:
        return 0.0
    way = one.along_u if hole.slot_along == "u" else one.along_v
    in_plane = (-one.way[2], 0.0, one.way[0]) if along_x else (0.0, 1.0, 0.0)
    return abs(dot(way, in_plane)) * (hole.slot_length_mm - hole.diameter_mm) / 2


def _breaks(body: Body, holes: Sequence[Bored], y_mm: float) -> list[float]:
    """The x at which the section's outline may bend or step."""
    solid = body.solid
    found = {0.0, solid.length}
    for void in body.voids:
        for u in (void.low[0], void.high[0]):
            for v in (void.low[1], void.high[1]):
                found.update(void.frame.point(u, v, depth)[0] for depth in (0.0, min(void.high[2], 1e6)))
    for low, high in body.along((0.0, y_mm, solid.thickness / 2), (1.0, 0.0, 0.0)):
        found.update((low, high))
    for one in holes:
        for depth, radius in one.profile:
            half = _half(radius, one, y_mm)
            if abs(one.way[0]) > 0.5:
                found.add(one.start[0] + one.way[0] * depth)
            else:
                shares = range(_ROUND_STEPS + 1) if abs(one.start[1] - y_mm) > 1e-3 else (0, _ROUND_STEPS)
                for share in shares:
                    found.update(one.start[0] + side * half * share / _ROUND_STEPS for side in (1, -1))
    return sorted({round(x, 6) for x in found if 0 <= x <= solid.length})


def _spans(body: Body, holes: Sequence[Bored], x: float, y_mm: float) -> list[tuple[float, float]]:
    """The stretches of material along z at one x, holes taken out."""
    spans = body.along((x, y_mm, 0.0), (0.0, 0.0, 1.0))
    for one in holes:
        cut = _hole_span(one, x, y_mm)
        if cut is not None:
            spans = without(spans, cut)
    return [one for one in spans if one[1] - one[0] > 1e-6]


def _hole_span(one: Bored, x: float, y_mm: float) -> tuple[float, float] | None:
    if abs(one.way[0]) > 0.5:
        depth = (x - one.start[0]) / one.way[0]
        radius = _radius_at(one, depth)
        if radius is None:
            return None
        half = _half(radius, one, y_mm)
        return (one.start[2] - half, one.start[2] + half) if half > 0 else None
    deep = _depth_at(one, abs(x - one.start[0]), y_mm)
    if deep is None:
        return None
    # Above its mouth there is nothing of the part, so the cut may reach out of it.
    ends = sorted((one.start[2] - one.way[2], one.start[2] + one.way[2] * deep))
    return ends[0], ends[1]


def _radius_at(one: Bored, depth: float) -> float | None:
    for (low, first), (high, last) in pairwise(one.profile):
        if low <= depth <= high and high > low:
            return first + (last - first) * (depth - low) / (high - low)
    return None


def _depth_at(one: Bored, off: float, y_mm: float) -> float | None:
    """How deep a hole goes at a distance from its axis; its radius never grows with depth."""
    found = None
    for (low, first), (high, last) in pairwise(one.profile):
        a, b = _half(first, one, y_mm), _half(last, one, y_mm)
        if off <= b:
            found = high
        elif off <= a and a > b:
            found = low + (high - low) * (a - off) / (a - b)
    return found


def _rings(
    slabs: Sequence[tuple[float, float, list[tuple[float, float]], list[tuple[float, float]]]],
) -> tuple[tuple[Point2, ...], ...]:
    """Join stretches that run on from slab to slab."""
    done: list[tuple[Point2, ...]] = []
    growing: list[tuple[list[Point2], list[Point2]]] = []
    for left, right, at_left, at_right in slabs:
        going: list[tuple[list[Point2], list[Point2]]] = []
        waiting = list(growing)
        for (low, high), (to_low, to_high) in zip(at_left, at_right, strict=True):
            before = next(
                (
                    one
                    for one in waiting
                    if math.dist(one[0][-1], (left, low)) < 1e-3
                    and math.dist(one[1][-1], (left, high)) < 1e-3
                ),
                None,
            )
            if before is not None:
                waiting.remove(before)
            under, over = before or ([(left, low)], [(left, high)])
            under.append((right, to_low))
            over.append((right, to_high))
            going.append((under, over))
        done += [(*under, *reversed(over)) for under, over in waiting]
        growing = going
    return (*done, *((*under, *reversed(over)) for under, over in growing))


def _strokes(holes: Sequence[Bored], y_mm: float) -> list[Stroke]:
    """The outlines of holes that are cut, their threads as thin lines, their centre lines."""
    found = []
    for one in holes:
        place = partial(_place, one)
        profile = [(depth, _half(radius, one, y_mm)) for depth, radius in one.profile]
        for side in (1.0, -1.0):
            found.append(Stroke("edge", tuple(place(depth, side * half) for depth, half in profile)))
        for (_, half), (depth, after) in pairwise(profile):
            if after < half or (depth == one.end_mm and one.hole.depth_mm is not None):
                wide = min(half, after) if depth != one.end_mm and after > 0 else half
                if wide > 0:
                    found.append(Stroke("edge", (place(depth, wide), place(depth, -wide))))
        hole = one.hole
        if hole.thread and hole.thread_major_mm > hole.diameter_mm:
            begins = profile[0][0]
            ends = min(begins + (hole.thread_depth_mm or math.inf), one.end_mm)
            half = _half(hole.thread_major_mm / 2, one, y_mm)
            found += [
                Stroke("thin", (place(begins, side * half), place(ends, side * half))) for side in (1.0, -1.0)
            ]
            if ends < one.end_mm - 1e-6:
                found.append(Stroke("edge", (place(ends, half), place(ends, -half))))
        found.append(Stroke("centre", (place(profile[0][0], 0.0), place(profile[-1][0], 0.0))))
    return found


def _place(one: Bored, depth: float, off: float) -> Point2:
    """A point of a hole in the plane, as x and z."""
    x, z = one.start[0] + one.way[0] * depth, one.start[2] + one.way[2] * depth
    return (x, z + off) if abs(one.way[0]) > 0.5 else (x + off, z)
