"""Drawings of a part as files: one writer for each ending, for the page and for the command."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Literal, cast

from calculators.drawing.dxf_out import dxf_of
from calculators.drawing.face_picture import face_picture
from calculators.drawing.face_shape import FaceShape
from calculators.planning.drawn.face_shapes import face_shape, face_shapes
from calculators.planning.drawn.part_drawings import part_drawing
from calculators.planning.model import Component
from calculators.planning.schedules.holes import FACE_ORDER
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

Projection = Literal["first", "third"]


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is drawn: a component, one face of it or ('') all, and in which angle the views are laid out."""

    mark: str
    face: str = ""
    projection: Projection | None = None


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


WRITERS: dict[str, Writer] = {
    ".dxf": Writer(_dxf, "image/vnd.dxf"),
    ".svg": Writer(_svg, "image/svg+xml"),
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
