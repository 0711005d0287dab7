"""Drilling moves of a part for a router: set up, looked at, and given as a file."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from buildlog.builds.component_page import component_of
from buildlog.builds.drawing_files import faces_of, flat_face
from buildlog.builds.drawings import holes_of, plan_of
from buildlog.builds.forms import add_faults
from buildlog.builds.page import row_of, show
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.router_form import OPTIONS, RouterForm
from calculators.drawing.drilling_moves import Moves, drilling_moves
from calculators.drawing.face_shape import FaceShape
from calculators.drawing.iso_code import CAUTIONS
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError

MOST_ROWS = 200


@require_safe
def router(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Ask how the machine is set up, and show what it drills; everything asked stands in the address."""
    row = row_of(request, number)
    part = component_of(plain_of(row), mark)
    worked = worked_of(row)
    context: dict[str, Any] = {"component": part, "cautions": CAUTIONS, "most_rows": MOST_ROWS}
    try:
        faces = _flat_faces(worked, mark)
    except InputError as error:
        return show(request, row, "parts", "builds/router.html", context | {"missing": str(error)})
    sent = request.GET if request.GET.keys() & {*OPTIONS, "skip_spot"} else {"face": faces[0].face}
    names = tuple(one.face for one in faces)
    copies = tuple(dict.fromkeys(copy for one in faces for hole in one.holes for copy in hole.copies))
    form = RouterForm(sent, faces=names, copies=copies, unit=worked.build.unit)
    set_up = form.set_up()
    context["form"] = form
    if set_up is None:
        return show(request, row, "parts", "builds/router.html", context, status=422)
    shape = next((one for one in faces if one.face == form.cleaned_data["face"]), faces[0])
    try:
        context |= _drilled(worked, shape, drilling_moves(shape, set_up))
    except InputError as error:
        add_faults(form, error)
        return show(request, row, "parts", "builds/router.html", context, status=422)
    context["asked"] = urlencode({"face": shape.face, **form.asked})
    return show(request, row, "parts", "builds/router.html", context)


def _flat_faces(worked: WorkedBuild, mark: str) -> tuple[FaceShape, ...]:
    """The faces that a router can come to; InputError where there is none."""
    first = flat_face(worked, mark)
    return (first, *(one for one in faces_of(worked, mark) if not one.is_wrapped and one.face != first.face))


def _drilled(worked: WorkedBuild, shape: FaceShape, moves: Moves) -> dict[str, Any]:
    part = component_of(worked.build, shape.mark)
    holes = tuple(one for one in holes_of(worked, shape.mark) if one.face == shape.face)
    is_drawn = len(holes) <= MOST_ROWS
    return {
        "moves": moves,
        "shape": shape,
        "count": sum(len(cuts) for _, cuts in moves.cuts),
        "broad": plan_of(part, shape.face, holes) if is_drawn else None,
        "narrow": plan_of(part, shape.face, holes, width_mm=84.0, height_mm=100.0)
        if len(holes) <= MOST_ROWS
        else None,
    }
