"""The plan of one face of a part with its holes, for pages and for sheets, and what is wrong there in red."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Literal, cast

from calculators.drawing.face_plan import Plan, PlanHandle, PlanHole, PlanPocket, face_plan
from calculators.drawing.plan_marks import PlanMark
from calculators.geometry.frames import face_frame
from calculators.geometry.model import Solid
from calculators.geometry.outlines import Outline, turned_over
from calculators.planning.model import Component, Face
from calculators.planning.placing import solid_of
from calculators.planning.schedules import hole_schedule
from calculators.planning.schedules.holes import HoleLine
from calculators.planning.worked import WorkedBuild

_ALONG: dict[str, Literal["", "u", "v"]] = {"u": "u", "v": "v"}


def holes_of(worked: WorkedBuild, mark: str) -> tuple[HoleLine, ...]:
    """The holes of one component, numbered as on its drilling sheet."""
    here = tuple(hole for hole in worked.holes if hole.part == mark)
    return hole_schedule(worked.build, replace(worked, holes=here))


def plan_of(
    part: Component,
    face: str,
    holes: tuple[HoleLine, ...],
    *,
    width_mm: float = 170.0,
    height_mm: float = 90.0,
    marks: Sequence[PlanMark] = (),
    says: str = "",
    handles: Mapping[int, PlanHandle] | None = None,
) -> Plan | None:
    """Draw a face on `width_mm` by `height_mm` of paper; None for a round's side and where sizes lack.

    `marks` are drawn in red, and `says` is read out with them. With `handles` the plan is one to work on.
    """
    solid = solid_of(part)
    if solid is None or face not in ("top", "bottom", "front", "back", "left", "right"):
        return None
    frame = face_frame(solid, cast(Face, face))
    pockets = [
        PlanPocket(one.u, one.v, one.length, one.width, one.corner_radius)
        for one in solid.pockets
        if one.face == face and not one.diameter
    ]
    return face_plan(
        frame.u_range,
        frame.v_range,
        [_drawn(hole) for hole in holes],
        pockets,
        title=f"{part.mark} {part.name}, {face} face seen from outside",
        is_round=solid.shape == "round" and face in ("left", "right"),
        outline=_outline(solid, face),
        paper_width_mm=width_mm,
        paper_height_mm=height_mm,
        marks=marks,
        says=says,
        handles=handles,
    )


def _outline(solid: Solid, face: str) -> Outline:
    """The outline of a face that is no rectangle, as it is seen from outside."""
    if face == "top":
        return solid.outline
    return turned_over(solid.outline, solid.width) if face == "bottom" else ()


def unrolled(
    part: Component,
    holes: tuple[HoleLine, ...],
    *,
    width_mm: float = 170.0,
    height_mm: float = 90.0,
    marks: Sequence[PlanMark] = (),
    says: str = "",
    handles: Mapping[int, PlanHandle] | None = None,
) -> Plan | None:
    """Draw the side of a round part laid flat, v being the way around it from +Y; None where sizes lack."""
    solid = solid_of(part)
    if solid is None or solid.shape != "round":
        return None
    half = math.pi * solid.diameter / 2.0

    def around(angle_deg: float) -> float:
        return ((angle_deg + 180.0) % 360.0 - 180.0) / 180.0 * half

    drawn = [
        replace(_drawn(hole), v_mm=around(float(hole.angle_deg)))
        for hole in holes
        if hole.face == "side" and hole.angle_deg is not None
    ]
    flat = [
        replace(
            one,
            v_mm=around(one.v_mm),
            to=None if one.to is None else (one.to[0], around(one.to[1])),
        )
        for one in marks
    ]
    return face_plan(
        (0.0, solid.length),
        (-half, half),
        drawn,
        title=f"{part.mark} {part.name}, its side laid flat",
        paper_width_mm=width_mm,
        paper_height_mm=height_mm,
        marks=flat,
        says=says,
        handles=handles,
        around_deg=360.0,
    )


def _drawn(hole: HoleLine) -> PlanHole:
    return PlanHole(
        hole.number,
        hole.u_mm or 0.0,
        hole.v_mm or 0.0,
        hole.diameter_mm or 0.0,
        max(hole.countersink_diameter_mm or 0.0, hole.counterbore_diameter_mm or 0.0),
        tapped=bool(hole.thread),
        slot_length_mm=hole.slot_length_mm or 0.0,
        slot_along=_ALONG.get(hole.slot_along, ""),
    )
