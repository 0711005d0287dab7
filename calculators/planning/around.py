"""Which parts lie around a joint's axis without being met by it: a lever on a bush, a wheel on a shank."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from calculators.geometry.chords import blank_stretch, pocket_frame
from calculators.geometry.frames import FaceFrame, face_frame
from calculators.geometry.model import Body, Pocket
from calculators.geometry.model import Layer as Stretch
from calculators.geometry.vectors import Vector, dot
from calculators.joints.model import JointResult
from calculators.joints.riders import Rider
from calculators.planning.model import Component
from calculators.planning.placing import PlacedBuild

IN_LINE_MM = 0.05
ITS_SIZE_MM = 1.0
"""A hole wider than what lies in it by more than this is no bearing for it (common practice)."""

_SQUARE = 1.0 - 1e-9
_OVERLAP_MM = 0.005


@dataclass(frozen=True, slots=True)
class Around:
    """A copy of a part with a hole along the axis, from `enter` to `leave` [mm along the axis].

    `on_mm` is the diameter of the round part within it; None where that is the bare shank. `beside` is the
    stretch of material that tells where it lies: the one within it, else the last one before it.
    """

    name: str
    enter: float
    leave: float
    bore_mm: float
    on_mm: float | None
    beside: Stretch


def parts_around(
    placed: PlacedBuild,
    met: Sequence[Stretch],
    axis: tuple[Vector, Vector],
    reach_mm: float,
    shank_mm: float,
) -> tuple[Around, ...]:
    """Find the parts whose hole or bore lies about an axis with something of its size in it.

    Args:
        placed: the build's parts where they lie.
        met: the stretches of material that the axis meets.
        axis: where it starts and its direction, of length 1.
        reach_mm: how far along the axis is looked [mm].
        shank_mm: the diameter of the screw [mm].

    Returns:
        The parts, by where they begin.

    Source: geometry; what is a bearing by its size: common practice.
    """
    found = []
    for name in placed.near_axis(*axis, reach_mm):
        body, component = placed.bodies[name], placed.components.get(placed.mark_of[name])
        if component is None or not (body.solid.bore or body.solid.pockets or component.holes):
            continue
        own = placed.transforms[name]
        start, way = own.own_point(axis[0]), own.own_direction(axis[1])
        span = blank_stretch(body.solid, start, way)
        if span is None or span[1] <= 0.0 or span[0] >= reach_mm:
            continue
        for bore in _bores(body, component, start, way):
            around = _around(placed, met, axis, name, span, bore, shank_mm)
            if around is not None:
                found.append(around)
                break
    return tuple(sorted(found, key=lambda each: (each.enter, each.name)))


def _around(
    placed: PlacedBuild,
    met: Sequence[Stretch],
    axis: tuple[Vector, Vector],
    name: str,
    span: tuple[float, float],
    bore: float,
    shank_mm: float,
) -> Around | None:
    within = [
        each
        for each in met
        if each.name != name and min(each.leave, span[1]) - max(each.enter, span[0]) > _OVERLAP_MM
    ]
    if not within:
        before = [each for each in met if each.leave <= span[0] + _OVERLAP_MM]
        is_met = any(each.name == name for each in met)
        fits = shank_mm - IN_LINE_MM <= bore <= shank_mm + ITS_SIZE_MM
        return None if is_met or not fits or not before else Around(name, *span, bore, None, before[-1])
    thick = [_diameter(placed, each.name, axis) for each in within]
    if len(within) != 1 or thick[0] is None or not bore - ITS_SIZE_MM <= thick[0] <= bore + IN_LINE_MM:
        return None
    return Around(name, *span, bore, thick[0], within[0])


def _diameter(placed: PlacedBuild, name: str, axis: tuple[Vector, Vector]) -> float | None:
    """The diameter of a round part whose own axis this is."""
    solid, own = placed.bodies[name].solid, placed.transforms[name]
    start, way = own.own_point(axis[0]), own.own_direction(axis[1])
    in_line = abs(way[0]) >= _SQUARE and math.hypot(start[1], start[2]) <= IN_LINE_MM
    return solid.diameter if solid.shape == "round" and in_line else None


def _bores(body: Body, component: Component, start: Vector, way: Vector) -> Iterator[float]:
    """The diameters of all round openings right through a part that lie along the axis."""
    solid = body.solid
    if solid.bore and abs(way[0]) >= _SQUARE and math.hypot(start[1], start[2]) <= IN_LINE_MM:
        yield solid.bore
    for pocket in solid.pockets:
        size = _round_size(pocket)
        middle = (0.0, 0.0) if pocket.diameter else (pocket.length / 2, pocket.width / 2)
        at = (pocket.u + middle[0], pocket.v + middle[1])
        if size and pocket.depth is None and _in_line(pocket_frame(solid, pocket), at, start, way):
            yield size
    for hole in component.holes:
        if (
            hole.depth is not None
            or hole.diameter is None
            or hole.kind not in ("plain", "reamed", "clearance")
        ):
            continue
        on_side = hole.face == "side"
        frame = face_frame(solid, hole.face, float(hole.angle_deg or 0) if on_side else 0.0)
        if _in_line(frame, (hole.u.mm, hole.v.mm if hole.v and not on_side else 0.0), start, way):
            yield hole.diameter.mm


def _round_size(pocket: Pocket) -> float:
    """The diameter of a round pocket; nought for another."""
    is_round = pocket.length == pocket.width and abs(pocket.corner_radius - pocket.length / 2) <= 1e-6
    return pocket.diameter or (pocket.length if is_round else 0.0)


def _in_line(frame: FaceFrame, at: tuple[float, float], start: Vector, way: Vector) -> bool:
    if abs(dot(frame.inward, way)) < _SQUARE:
        return False
    u, v, _ = frame.read(start)
    return math.hypot(u - at[0], v - at[1]) <= IN_LINE_MM


def riders_of(
    around: Iterable[Around],
    items: Mapping[str, int],
    result: JointResult,
    placed: PlacedBuild,
) -> tuple[Rider, ...]:
    """Write parts around an axis on the scale of a joint's extents.

    Args:
        around: the parts around it.
        items: the place in the stack of each copy that the axis meets.
        result: the joint as worked out.
        placed: the build's parts where they lie.

    Returns:
        The riders; those beside nothing of the stack are left out, and those on a part that the fastener does
        not go right through, whose other end it does not hold.

    Source: this project.
    """
    ends = {extent.item: extent.leave_mm for extent in result.extents}
    layers = [index for index, item in enumerate(result.joint.stack) if item.layer is not None]
    clear = {
        layers[hole.layer]
        for hole in result.holes
        if hole.depth_mm is None and not hole.thread and hole.kind in ("clearance", "plain", "reamed", "slot")
    }
    riders = []
    for one in around:
        item = items.get(one.beside.name)
        if item is None or item not in ends:
            continue
        if one.on_mm is not None and item not in clear:
            continue
        shift = ends[item] - one.beside.leave
        if one.enter + shift >= result.tip_mm:
            continue
        mark = placed.mark_of[one.name]
        material = placed.components[mark].material
        places = (round(one.enter + shift, 6), round(one.leave + shift, 6))
        riders.append(Rider(mark, material, *places, one.bore_mm, one.on_mm))
    return tuple(riders)
