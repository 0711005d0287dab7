"""Drawings of a part as files: one writer for each ending, for the page and for the command."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Literal, cast

from buildlog.builds.router_form import set_up_asked
from calculators.drawing.drilling_moves import SetUp, drilling_moves
from calculators.drawing.dxf_out import dxf_of
from calculators.drawing.face_picture import face_picture
from calculators.drawing.face_shape import FaceShape
from calculators.drawing.iso_code import iso_code
from calculators.planning.drawn.face_shapes import face_shape, face_shapes
from calculators.planning.drawn.part_drawings import part_drawing
from calculators.planning.model import Component
from calculators.planning.schedules import hole_schedule, schedule_csv
from calculators.planning.schedules.holes import FACE_ORDER, HoleLine
from calculators.planning.tree import copy_name, split_copy, total_quantity
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

Projection = Literal["first", "third"]


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is drawn: a component, one face of it or ('') all, and in which angle the views are laid out.

    `set_up` is how a router is set up for it, as texts by the names of `buildlog.builds.router_form.OPTIONS`.
    """

    mark: str
    face: str = ""
    projection: Projection | None = None
    set_up: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Writer:
    """How a file of one ending is made, and what it is called for a browser."""

    write: Callable[[WorkedBuild, Wanted], bytes]
    content_type: str


def component_in(worked: WorkedBuild, mark: str) -> Component:
    """The component with this mark; InputError where there is none."""
    one = next((each for each in worked.build.components if each.mark == mark), None)
    if one is None:
        marks = [each.mark for each in worked.build.components if each.size.shape]
        some = f" Parts of it are {', '.join(marks[:6])}." if marks else ""
        says = f"There is no part {quoted(mark)} in {worked.build.number}.{some}"
        raise InputError.of(says, field="--component")
    return one


def faces_of(worked: WorkedBuild, mark: str, face: str = "") -> tuple[FaceShape, ...]:
    """The faces that are drawn: those with something on them, else the one by which a part lies.

    With `face` that one alone. InputError where the part has no such face or lacks a size.
    """
    part = component_in(worked, mark)
    names = ("left", "right", "side") if part.size.shape == "round" else FACE_ORDER[:-1]
    if face and face not in names:
        says = f"{mark} has no face {quoted(face)}; it has {', '.join(names)}."
        raise InputError.of(says, field="--face", choices=names)
    shapes = face_shapes(worked, mark)
    found = tuple(one for one in shapes if one.face == face) if face else shapes
    if not found:
        bare = face_shape(part, face or ("left" if part.size.shape == "round" else "top"))
        found = (bare,) if bare is not None else ()
    if not found:
        sizes = "length and diameter" if part.size.shape == "round" else "length, width and thickness"
        says = f"{mark} cannot be drawn before its sizes are known: give its {sizes}."
        raise InputError.of(says, field="--component")
    return found


def _dxf(worked: WorkedBuild, wanted: Wanted) -> bytes:
    return dxf_of(faces_of(worked, wanted.mark, wanted.face))


def _svg(worked: WorkedBuild, wanted: Wanted) -> bytes:
    if wanted.face:
        (face,) = faces_of(worked, wanted.mark, wanted.face)
        return face_picture(face).encode()
    component_in(worked, wanted.mark)
    return part_drawing(worked, wanted.mark, projection=wanted.projection).svg.encode()


def flat_face(worked: WorkedBuild, mark: str, face: str = "") -> FaceShape:
    """The face that lies up on a router; InputError where the part has none that lies flat."""
    flat = [one for one in faces_of(worked, mark, face) if not one.is_wrapped]
    if not flat:
        says = f"{mark} has holes on its side alone, which does not lie flat: drill it from its template."
        raise InputError.of(says, field="--face")
    return flat[0]


def set_up_for(worked: WorkedBuild, mark: str, asked: Mapping[str, str]) -> SetUp:
    """A router's set-up for a part; InputError for one that cannot be, or a copy that there is not."""
    set_up = set_up_asked(asked, worked.build.unit)
    total = total_quantity(worked.build)[mark]
    number = split_copy(set_up.copy)[1] or 1
    if set_up.copy and not (number <= total and set_up.copy == copy_name(mark, number, total)):
        first, last = copy_name(mark, 1, total), copy_name(mark, total, total)
        there = f"its copies are {first} to {last}" if total > 1 else "there is one of it"
        raise InputError.of(f"{quoted(set_up.copy)} is no copy of {mark}; {there}.", field="copy")
    return set_up


def _moves(worked: WorkedBuild, wanted: Wanted) -> bytes:
    shape = flat_face(worked, wanted.mark, wanted.face)
    set_up = set_up_for(worked, wanted.mark, wanted.set_up)
    return iso_code(drilling_moves(shape, set_up)).encode("ascii")


def _holes(worked: WorkedBuild, wanted: Wanted) -> bytes:
    component_in(worked, wanted.mark)
    here = replace(worked, holes=tuple(one for one in worked.holes if one.part == wanted.mark))
    lines = hole_schedule(worked.build, here)
    return schedule_csv(HoleLine, [one for one in lines if wanted.face in ("", one.face)]).encode("utf-8")


WRITERS: dict[str, Writer] = {
    ".dxf": Writer(_dxf, "image/vnd.dxf"),
    ".svg": Writer(_svg, "image/svg+xml"),
    ".csv": Writer(_holes, "text/csv; charset=utf-8"),
    ".nc": Writer(_moves, "text/plain; charset=us-ascii"),
}
"""The endings that `manage.py drawing -o FILE` knows, each with its writer."""


def writer_for(name: str) -> Writer:
    """The writer for a file of this name; InputError for an ending that there is none for."""
    found = WRITERS.get(Path(name).suffix.lower())
    if found is None:
        endings = list(WRITERS)
        says = f"Name a file that ends in {', '.join(endings[:-1])} or {endings[-1]}."
        raise InputError.of(says, field="-o", choices=tuple(endings))
    return found


def projection_named(text: str) -> Projection | None:
    """The angle of projection that was named, None for none; InputError for another word."""
    if text and text not in ("first", "third"):
        says = f"There is no {quoted(text)} angle of projection; write first or third."
        raise InputError.of(says, field="--projection", choices=("first", "third"))
    return cast(Projection, text) if text else None
