"""The plan of one face of a part with its holes, for pages and for sheets."""

from __future__ import annotations

from typing import Literal, cast

from calculators.drawing.face_plan import Plan, PlanHole, PlanPocket, face_plan
from calculators.geometry.frames import face_frame
from calculators.planning.model import Component, Face
from calculators.planning.placing import solid_of
from calculators.planning.schedules.holes import HoleLine

_ALONG: dict[str, Literal["", "u", "v"]] = {"u": "u", "v": "v"}


def plan_of(
    part: Component,
    face: str,
    holes: tuple[HoleLine, ...],
    *,
    width_mm: float = 170.0,
    height_mm: float = 90.0,
) -> Plan | None:
    """Draw a face on `width_mm` by `height_mm` of paper; None for a round's side and where sizes lack."""
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
        paper_width_mm=width_mm,
        paper_height_mm=height_mm,
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
