"""The holes of a part in one view: as circles where they open, and along their axes where they are hidden."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from itertools import pairwise
from typing import cast

from calculators.drawing.face_shape import FaceShape, HoleShape
from calculators.drawing.part_body import Body
from calculators.geometry.frames import FaceFrame, face_frame
from calculators.geometry.model import Face, Solid
from calculators.geometry.outlines import flat_points
from calculators.geometry.vectors import Vector, along, cos_sin, dot, scale

Point2 = tuple[float, float]
_POINT_DEG = 118.0
"""The angle of a drill's point: common practice for general work."""


@dataclass(frozen=True, slots=True)
class Bored:
    """A hole in the part's frame: where its axis comes in, its way, how far it goes [mm].

    `profile` gives its radius at depths below the face where it opens: pairs of depth and radius.
    `comes_out` says that it opens on the far side of the part, where it can be seen too.
    """

    face: str
    hole: HoleShape
    start: Vector
    way: Vector
    along_u: Vector
    along_v: Vector
    end_mm: float
    profile: tuple[tuple[float, float], ...]
    comes_out: bool


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line of a view: its line type of `svg.LINES`, its points in u and v [mm], whether it closes."""

    line: str
    points: tuple[Point2, ...]
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle of a view: its centre, its diameter [mm]; `number` is that of the hole that opens here."""

    line: str
    centre: Point2
    diameter: float
    number: int = 0


@dataclass(frozen=True, slots=True)
class HoleView:
    """What holes draw in a view, and for each that opens towards the eye its centre by its number."""

    strokes: tuple[Stroke, ...]
    rings: tuple[Ring, ...]
    opens: dict[int, Point2]


def bored(body: Body, face: FaceShape, hole: HoleShape) -> Bored:
    """Put a hole of a face into the part's frame.

    Args:
        body: the part's material, which says how far a hole right through goes.
        face: the face that it opens on.
        hole: the hole.

    Returns:
        The hole with its profile, the point of the drill included.

    Source: the frames that the developers' guide states; a drill's point of 118 degrees, common practice.
    """
    frame, u, v = _frame_of(body.solid, face, hole)
    # A hole in the floor of a recess begins there; where the outline runs back from the face, at the outline.
    origin = frame.point(u, v)
    spans = [one for one in body.along(along(origin, (frame.inward, -0.5)), frame.inward) if one[1] > 0.5]
    begins = max(hole.below_mm, spans[0][0] - 0.5 if spans else 0.0, 0.0)
    last = spans[-1][1] - 0.5 if spans else face.depth_mm
    # A joint's hole goes through one wall, the next has its own; one placed by hand goes through all.
    here = [one[1] - 0.5 for one in spans if one[0] - 0.5 <= begins + 1e-3 < one[1] - 0.5]
    leaves = here[0] if hole.joint and here else last
    end = max(leaves, begins) if hole.depth_mm is None else begins + hole.depth_mm
    return Bored(
        face.face,
        hole,
        origin,
        frame.inward,
        frame.u_axis,
        frame.v_axis,
        end,
        _profile(hole, begins, end),
        end >= last - 1e-3,
    )


def _frame_of(solid: Solid, face: FaceShape, hole: HoleShape) -> tuple[FaceFrame, float, float]:
    if face.is_wrapped:
        angle = math.degrees(hole.v_mm / (solid.diameter / 2))
        return face_frame(solid, "side", angle), hole.u_mm, 0.0
    return face_frame(solid, cast(Face, face.face)), hole.u_mm, hole.v_mm


def _profile(hole: HoleShape, begins: float, end: float) -> tuple[tuple[float, float], ...]:
    radius = hole.diameter_mm / 2
    found: list[tuple[float, float]] = []
    at = begins
    if hole.counterbore_diameter_mm > hole.diameter_mm and hole.counterbore_depth_mm > 0:
        deep = min(begins + hole.counterbore_depth_mm, end)
        found += [(begins, hole.counterbore_diameter_mm / 2), (deep, hole.counterbore_diameter_mm / 2)]
        at = deep
    if hole.countersink_diameter_mm > hole.diameter_mm:
        half = math.radians(min(max(hole.countersink_angle_deg, 20.0), 160.0) / 2)
        high = (hole.countersink_diameter_mm / 2 - radius) / math.tan(half)
        found.append((at, hole.countersink_diameter_mm / 2))
        at = min(at + high, end)
    found += [(at, radius), (end, radius)]
    if hole.depth_mm is not None and hole.slot_length_mm <= hole.diameter_mm:
        found.append((end + radius / math.tan(math.radians(_POINT_DEG / 2)), 0.0))
    return tuple(found)


def hole_view(holes: list[Bored], view: str, frame: FaceFrame, *, without: frozenset[int]) -> HoleView:
    """Draw holes as one view shows them.

    Args:
        holes: the part's holes.
        view: the face whose view it is.
        frame: its frame.
        without: the numbers of holes that are drawn otherwise, being cut through.

    Returns:
        The strokes and rings, in the view's u and v.

    Source: ISO 128 (lines), ISO 6410-1 (threads: three quarters of a thin circle); from memory.
    """
    strokes: dict[tuple[object, ...], Stroke] = {}
    rings: list[Ring] = []
    opens: dict[int, Point2] = {}
    for one in holes:
        facing = -dot(one.way, frame.inward)
        u, v, _ = frame.read(one.start)
        if facing < -1 + 1e-6 or facing > 1 - 1e-6:
            rings += _rings(one, (u, v), near=facing < 0)
            strokes |= {(s.line, s.points): s for s in _end_strokes(one, frame, (u, v), near=facing < 0)}
            if facing < 0 or (one.face == "side" and one.comes_out):
                opens[one.hole.number] = (u, v)
            continue
        if facing < -0.05:
            opens[one.hole.number] = (u, v)
            strokes |= {(s.line, s.points): s for s in _slanted(one, frame, -facing)}
        if one.hole.number not in without:
            strokes |= {(s.line, _rounded(s.points)): s for s in _side_strokes(one, frame)}
    return HoleView(tuple(strokes.values()), tuple(rings), opens)


def _rounded(points: tuple[Point2, ...]) -> tuple[Point2, ...]:
    return tuple((round(u, 3), round(v, 3)) for u, v in points)


def _rings(one: Bored, at: Point2, *, near: bool) -> Iterator[Ring]:
    """A hole seen along its axis: full where it opens towards the eye, dashed where it does not come out."""
    hole = one.hole
    number = hole.number if near or (one.face == "side" and one.comes_out) else 0
    is_slot = hole.slot_length_mm > hole.diameter_mm and bool(hole.slot_along)
    line = "edge" if near or one.comes_out else "hidden"
    if not is_slot:
        yield Ring(line, at, hole.diameter_mm, number)
    for outer in (hole.countersink_diameter_mm, hole.counterbore_diameter_mm):
        if outer > hole.diameter_mm:
            yield Ring("edge" if near else "hidden", at, outer)


def _end_strokes(one: Bored, frame: FaceFrame, at: Point2, *, near: bool) -> Iterator[Stroke]:
    """Of a hole seen along its axis: its thread, its slot, its centre lines."""
    hole = one.hole
    (u, v), reach = at, hole.outer_mm / 2
    half_u = half_v = reach
    if hole.slot_length_mm > hole.diameter_mm and hole.slot_along:
        points = tuple(_turned(one, frame, at, du, dv) for du, dv in _slot(hole))
        yield Stroke("edge" if near or one.comes_out else "hidden", points, closed=True)
        half_u = max(abs(x - u) for x, _ in points)
        half_v = max(abs(y - v) for _, y in points)
    if hole.thread_major_mm > hole.diameter_mm and hole.thread:
        arc = [cos_sin(15 + 270.0 * i / 36) for i in range(37)]
        r = hole.thread_major_mm / 2
        yield Stroke(
            "thin" if near or one.comes_out else "hidden", tuple((u + r * c, v + r * s) for c, s in arc)
        )
    yield Stroke("centre", ((u - half_u, v), (u + half_u, v)))
    yield Stroke("centre", ((u, v - half_v), (u, v + half_v)))


def _slot(hole: HoleShape) -> list[Point2]:
    return [(u - hole.u_mm, v - hole.v_mm) for u, v in flat_points(hole.outline, 0.01)]


def _turned(one: Bored, frame: FaceFrame, at: Point2, du: float, dv: float) -> Point2:
    """A way on the hole's own face as the view sees it."""
    moved = along((0.0, 0.0, 0.0), (one.along_u, du), (one.along_v, dv))
    return at[0] + dot(moved, frame.u_axis), at[1] + dot(moved, frame.v_axis)


def _slanted(one: Bored, frame: FaceFrame, share: float) -> Iterator[Stroke]:
    """A hole of a round side that is seen obliquely: its circle as an ellipse about where it opens."""
    u, v, _ = frame.read(one.start)
    for diameter in {one.hole.diameter_mm, one.hole.outer_mm}:
        r = diameter / 2
        turns = [cos_sin(10.0 * i) for i in range(36)]
        yield Stroke("edge", tuple((u + r * c, v + r * share * s) for c, s in turns), closed=True)
    yield Stroke("centre", ((u, v - one.hole.outer_mm / 2), (u, v + one.hole.outer_mm / 2)))


def _side_strokes(one: Bored, frame: FaceFrame) -> Iterator[Stroke]:
    """A hole seen from the side: its outline dashed along its axis, its thread, its centre line."""
    (du, dv), share = _way(one, frame)
    if share < 0.05:
        return
    sideways = (-dv, du)
    place = partial(_at, one, frame, sideways)
    wider = _sideways(one, frame, sideways)
    profile = [(depth, radius + wider * (radius > 0)) for depth, radius in one.profile]
    for side in (1.0, -1.0):
        yield Stroke("hidden", tuple(place(depth, side * radius) for depth, radius in profile))
    steps = [profile[0], *(b for a, b in pairwise(profile) if a[1] != b[1])]
    for depth, radius in steps[1:]:
        if radius > 0:
            yield Stroke("hidden", (place(depth, radius), place(depth, -radius)))
    if one.hole.depth_mm is not None:
        depth, radius = one.end_mm, one.hole.diameter_mm / 2 + wider
        yield Stroke("hidden", (place(depth, radius), place(depth, -radius)))
    hole = one.hole
    if hole.thread and hole.thread_major_mm > hole.diameter_mm:
        begins = one.profile[0][0]
        ends = one.end_mm if hole.thread_depth_mm is None else min(begins + hole.thread_depth_mm, one.end_mm)
        for side in (1.0, -1.0):
            off = side * hole.thread_major_mm / 2
            yield Stroke("hidden", (place(begins, off), place(ends, off)))
    yield Stroke("centre", (place(one.profile[0][0], 0.0), place(one.profile[-1][0], 0.0)))


def _way(one: Bored, frame: FaceFrame) -> tuple[Point2, float]:
    du, dv = dot(one.way, frame.u_axis), dot(one.way, frame.v_axis)
    share = math.hypot(du, dv)
    return (du / share, dv / share) if share > 1e-9 else (0.0, 0.0), share


def _at(one: Bored, frame: FaceFrame, sideways: Point2, depth: float, off: float) -> Point2:
    u, v, _ = frame.read(along(one.start, (one.way, depth)))
    return u + sideways[0] * off, v + sideways[1] * off


def _sideways(one: Bored, frame: FaceFrame, sideways: Point2) -> float:
    """How much further than its radius a slot reaches to either side as this view sees it."""
    hole = one.hole
    if hole.slot_length_mm <= hole.diameter_mm or not hole.slot_along:
        return 0.0
    way = one.along_u if hole.slot_along == "u" else one.along_v
    across = along(
        scale(frame.u_axis, sideways[0]), (frame.v_axis, sideways[1])
    )  # fmt: skip
    return abs(dot(way, across)) * (hole.slot_length_mm - hole.diameter_mm) / 2
