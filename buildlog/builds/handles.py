"""What the holes of a part are called on its plans, so that they can be picked and moved there."""

from __future__ import annotations

from collections.abc import Iterable

from buildlog.builds.features import feature_lines
from buildlog.workshops.units import shown_units
from calculators.drawing.face_plan import PlanHandle
from calculators.planning.edits.hole_moves import is_at, place_words
from calculators.planning.model import Build, Joint, Unit
from calculators.planning.schedules.holes import HoleLine
from calculators.planning.tree import split_copy
from calculators.quantities.display import fractional_inches, millimetres
from calculators.quantities.length import Length


def step_unit(build: Build) -> Unit:
    """In which unit the person in hand moves holes: that which the page shows, of both the build's own."""
    shown = shown_units()
    return build.unit if shown == "both" else "in" if shown == "in" else "mm"


def handles_of(build: Build, mark: str, holes: Iterable[HoleLine]) -> dict[int, PlanHandle]:
    """The holes of one part by their numbers."""
    part = next(one for one in build.components if one.mark == mark)
    own = {line.key: line.line for line in feature_lines(build, part, "hole")}
    joints = {one.mark: one for one in build.joints}
    units = step_unit(build)
    return {
        hole.number: _handle(build, hole, own, joints.get(hole.joint), units)
        for hole in holes
        if hole.u_mm is not None
    }


def _handle(build: Build, hole: HoleLine, own: dict[str, str], joint: Joint | None, units: str) -> PlanHandle:
    words = hole_words(hole, units)
    if joint is None:
        return PlanHandle(words, key=hole.place, seen=own.get(hole.place, ""), is_free=hole.place in own)
    place = next((one for one in joint.places if one.id == hole.place), None)
    if place is None:
        return PlanHandle(words, joint=joint.mark)
    is_home = (
        split_copy(joint.home)[0] == hole.part
        and joint.face == hole.face
        and is_at(place, hole.u_mm or 0.0, hole.v_mm or 0.0)
    )
    on_side = "side" in (hole.face, joint.face)
    return PlanHandle(
        f"{words}, {joint.mark} at {hole.place}",
        joint=joint.mark,
        place=hole.place,
        follows="" if is_home else f"{joint.mark} on {joint.home} {joint.face}",
        seen=place_words(joint, place, build.unit),
        is_free=is_home or not on_side,
    )


def hole_words(hole: HoleLine, units: str) -> str:
    """A hole without its place, as it is read out: `hole 3, 5.5 clearance, through`."""
    size = "" if hole.diameter_mm is None else f"{_size(hole.diameter_mm, units)} "
    deep = "through" if hole.depth_mm is None else f"{_size(hole.depth_mm, units)} deep"
    thread = f" {hole.thread}" if hole.thread else ""
    return f"hole {hole.number}, {size}{hole.kind}{thread}, {deep}"


def _size(mm: float, units: str) -> str:
    length = Length.of_mm(mm)
    return fractional_inches(length, say_from_mm=1.0) if units == "in" else millimetres(length)
