"""What the page of a part's drawings for CAD shows: what can be had, and what a drawing makes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from urllib.parse import urlencode

from django.http import HttpRequest

from buildlog.builds.drawing_files import faces_of
from buildlog.builds.models import Build
from buildlog.builds.saying import address_of
from calculators.drawing.dxf_layers import hole_layers, pocket_layer
from calculators.drawing.face_picture import face_picture
from calculators.drawing.face_shape import FaceShape
from calculators.drawing.flat_drawing import LeftOut
from calculators.geometry.outlines import bounds
from calculators.planning.drawn.face_shapes import face_shape
from calculators.planning.from_cad.taking import Taken
from calculators.planning.model import Build as PlainBuild
from calculators.planning.resolving import resolve_build
from calculators.planning.schedules import hole_schedule
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError

MOST_LEFT = 60
"""The most lines of what was left out that are listed one by one; the rest is counted."""

MOST_PLACES = 6


@dataclass(frozen=True, slots=True)
class Download:
    """A file to be had: its name, what is in it, its address."""

    name: str
    says: str
    address: str
    layers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LeftRow:
    """What was left out for one reason: what, its layer, why, how often, and where first."""

    what: str
    layer: str
    why: str
    count: int
    places: str


def downloads_of(request: HttpRequest, row: Build, worked: WorkedBuild, mark: str) -> list[Download]:
    """The drawings of a part as files; InputError where a size is missing."""
    faces = faces_of(worked, mark)
    dxf = address_of(request, row, "drawing-file", mark, "dxf")
    found = [
        Download(f"DXF, {_face(one)}", _holds(one), f"{dxf}?{urlencode({'face': one.face})}", _layers([one]))
        for one in faces
    ]
    if len(faces) > 1:
        says = f"{', '.join(one.face for one in faces)}, side by side with 20 mm between"
        found.insert(0, Download("DXF, every face", says, dxf, _layers(faces)))
    svg = address_of(request, row, "drawing-file", mark, "svg")
    found.append(Download("SVG, the drawing", "as on its page, to scale, to be put into a document", svg))
    csv = address_of(request, row, "drawing-file", mark, "csv")
    found.append(Download("CSV, the hole table", "each hole with its place, size and depth, in mm", csv))
    return found


def _face(one: FaceShape) -> str:
    return "side laid flat" if one.is_wrapped else f"{one.face} face"


def _holds(one: FaceShape) -> str:
    left, bottom, right, top = bounds(one.outline)
    holes, pockets = len(one.holes), len(one.pockets)
    told = [f"{right - left:.6g} x {top - bottom:.6g} mm"]
    told += [f"{holes} hole{'' if holes == 1 else 's'}"] if holes else []
    told += [f"{pockets} pocket{'' if pockets == 1 else 's'}"] if pockets else []
    datum = "its axis" if one.face in ("left", "right") and left < 0 else "its datum"
    return f"{', '.join(told)}; {datum} at 0, 0"


def _layers(faces: Iterable[FaceShape]) -> tuple[str, ...]:
    names: dict[str, None] = {}
    for one in faces:
        names.update(dict.fromkeys(map(pocket_layer, one.pockets)))
        names.update(dict.fromkeys(name for hole in one.holes for name, _ in hole_layers(hole)))
    return tuple(names)


def preview_of(face: str, taken: Taken) -> tuple[str, str]:
    """The face as the drawing makes it, for a broad and for a narrow page; '' where a size is missing."""
    alone = replace(taken.part, parent="", poses=(), motion=None, state="planned")
    worked = resolve_build(PlainBuild("1", "1", components=(alone,)))
    try:
        shape = face_shape(alone, face, hole_schedule(worked.build, worked))
    except InputError:
        shape = None
    if shape is None:
        return "", ""
    at = [
        (one.x - taken.origin[0], one.y - taken.origin[1])
        for one in taken.left
        if one.x is not None and one.y is not None
    ]
    return face_picture(shape, at), face_picture(shape, at, paper_width_mm=84.0, paper_height_mm=100.0)


def left_rows(left: Iterable[LeftOut]) -> tuple[list[LeftRow], int]:
    """What was left out, like things in one line, and how many lines there are beyond those given."""
    groups: dict[tuple[str, str, str], list[LeftOut]] = {}
    for one in left:
        groups.setdefault((one.what, one.layer, one.why), []).append(one)
    rows = []
    for (what, layer, why), each in groups.items():
        places = [f"{one.x:.6g}, {one.y:.6g}" for one in each if one.x is not None and one.y is not None]
        told = "; ".join(places[:MOST_PLACES])
        more = f" and {len(places) - MOST_PLACES} more" if len(places) > MOST_PLACES else ""
        rows.append(LeftRow(what, layer, why, len(each), f"{told}{more}"))
    return rows[:MOST_LEFT], max(0, len(rows) - MOST_LEFT)
