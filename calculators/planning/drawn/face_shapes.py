"""The faces of a component as exact geometry: outline, holes, pockets."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache
from typing import cast

from calculators.drawing.face_shape import FaceShape, HoleShape, PocketShape
from calculators.geometry.frames import face_frame
from calculators.geometry.model import Face, Pocket, Solid
from calculators.geometry.outlines import Outline, circle, rectangle, turned_over
from calculators.hardware.threads import find_thread
from calculators.planning.model import Component
from calculators.planning.placing import solid_of
from calculators.planning.schedules import hole_schedule
from calculators.planning.schedules.holes import FACE_ORDER, HoleLine
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError


def face_shapes(worked: WorkedBuild, mark: str) -> tuple[FaceShape, ...]:
    """Give every face of a component that has something on it.

    Args:
        worked: the build worked out.
        mark: the component's mark.

    Returns:
        The faces in the order of the hole schedule, with the numbers of their holes in it; nothing for a part
        whose sizes are not known.

    Raises:
        InputError: when there is no such component.

    Source: this project.
    """
    part = next((one for one in worked.build.components if one.mark == mark), None)
    if part is None:
        raise InputError.of(f"There is no part {mark[:40]} in {worked.build.number}.", field="component")
    here = replace(worked, holes=tuple(hole for hole in worked.holes if hole.part == mark))
    holes = hole_schedule(worked.build, here)
    shapes = (face_shape(part, face, holes) for face in FACE_ORDER)
    return tuple(one for one in shapes if one is not None and (one.holes or one.pockets))


def face_shape(part: Component, face: str, holes: Iterable[HoleLine] = ()) -> FaceShape | None:
    """Give one face of a component.

    Args:
        part: the component.
        face: one of its faces.
        holes: holes of the part as `hole_schedule` gives them; those of other faces and those whose place or
            diameter is not known are left out.

    Returns:
        The face; None where a size is not known that it needs, and for a face that the part does not have.

    Source: the frames that the developers' guide states.
    """
    solid = solid_of(part)
    if (
        solid is None
        or face not in FACE_ORDER
        or (face == "side") != (solid.shape == "round" and face == "side")
    ):
        return None
    wrapped = face == "side"
    shown = [one for one in holes if one.face == face and one.u_mm is not None and one.diameter_mm]
    pockets = () if wrapped else tuple(_pockets(part, solid, face))
    return FaceShape(
        part.mark,
        part.name,
        face,
        _outline(solid, face),
        _depth(solid, face),
        tuple(_hole(one, solid) for one in shown),
        pockets,
        solid.bore if face in ("left", "right") else 0.0,
        wrapped,
        part.material,
        part.revision,
    )


def _outline(solid: Solid, face: str) -> Outline:
    if face == "side":
        around = math.pi * solid.diameter
        return rectangle(0.0, -around / 2, solid.length, around)
    if solid.shape == "round" and face in ("left", "right"):
        return circle(0.0, 0.0, solid.diameter)
    if solid.outline and face == "top":
        return solid.outline
    if solid.outline and face == "bottom":
        return turned_over(solid.outline, solid.width)
    frame = face_frame(solid, cast(Face, face))
    (u, to_u), (v, to_v) = frame.u_range, frame.v_range
    return rectangle(u, v, to_u - u, to_v - v)


def _depth(solid: Solid, face: str) -> float:
    if solid.shape == "round":
        return solid.length if face in ("left", "right") else solid.diameter
    return {
        "top": solid.thickness,
        "bottom": solid.thickness,
        "left": solid.length,
        "right": solid.length,
    }.get(face, solid.width)


def _pockets(part: Component, solid: Solid, face: str) -> Iterable[PocketShape]:
    """The pockets of a face; `solid.pockets` begins with those of the part, in order."""
    for own, cut in zip(part.pockets, solid.pockets, strict=False):
        if cut.face == face:
            yield _pocket(own.id, cut)


def _pocket(key: str, cut: Pocket) -> PocketShape:
    return PocketShape(key, cut.u, cut.v, cut.length, cut.width, cut.corner_radius, cut.depth)


def _hole(one: HoleLine, solid: Solid) -> HoleShape:
    v = one.v_mm or 0.0
    if one.angle_deg is not None:
        turned = (one.angle_deg + 180.0) % 360.0 - 180.0
        v = math.radians(turned) * solid.diameter / 2
    return HoleShape(
        one.number,
        one.u_mm or 0.0,
        v,
        one.diameter_mm or 0.0,
        one.kind,
        one.depth_mm,
        one.countersink_diameter_mm or 0.0,
        one.countersink_angle_deg or 90.0,
        one.counterbore_diameter_mm or 0.0,
        one.counterbore_depth_mm or 0.0,
        one.slot_length_mm or 0.0,
        one.slot_along,
        one.thread,
        one.thread_depth_mm,
        _major(one.thread) if one.thread else 0.0,
        one.drill,
        one.joint,
        one.place if one.joint else "",
        "" if one.joint else one.place,
        one.copies,
        one.entry == "in",
        one.below_mm,
        one.mirrored,
        one.slanted,
    )


@lru_cache(maxsize=256)
def _major(thread: str) -> float:
    """The thread's outside diameter; nothing for one that is not in the tables."""
    try:
        return find_thread(thread).major_mm
    except InputError:
        return 0.0
