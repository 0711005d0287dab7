"""Drawings of a part to and from CAD: files to be had, and a drawing read in, looked at, and taken."""

from __future__ import annotations

from typing import Any, cast

from django.core.files.uploadedfile import UploadedFile
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.utils.http import content_disposition_header
from django.views.decorators.http import require_http_methods, require_safe

from buildlog.builds.actions import Overtaken, fingerprint
from buildlog.builds.component_page import component_of
from buildlog.builds.drawing_files import WRITERS, Wanted, projection_named
from buildlog.builds.exchange_form import ExchangeForm, carried, uncarried
from buildlog.builds.exchange_page import downloads_of, left_rows, preview_of
from buildlog.builds.forms import add_faults
from buildlog.builds.models import Build
from buildlog.builds.page import row_of, show
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.router_form import OPTIONS
from buildlog.builds.saying import address_of, save_and_say
from calculators.drawing.dxf_in import read_dxf
from calculators.drawing.dxf_tags import MOST_BYTES
from calculators.drawing.face_shape import FaceShape
from calculators.planning import model as plain
from calculators.planning.drawn.face_shapes import face_shapes
from calculators.planning.edits import find, put
from calculators.planning.from_cad.choosing import Choices
from calculators.planning.from_cad.taking import Taken, take_drawing
from calculators.quantities.errors import InputError

FIELD_OF_FAULT = {"size.thickness": "thickness", "layers": "layers"}


@require_safe
def drawing_file(request: HttpRequest, workshop: str, number: str, mark: str, ending: str) -> HttpResponse:
    """Give a drawing of a part as a file: `face` names one face, `projection` the angle of the views."""
    row = row_of(request, number)
    component_of(plain_of(row), mark)
    writer = WRITERS.get(f".{ending}")
    if writer is None:
        raise Http404("no such file of a part")
    face = request.GET.get("face", "")
    set_up = {name: request.GET[name][:100] for name in OPTIONS if name in request.GET}
    try:
        projection = projection_named(request.GET.get("projection", ""))
        data = writer.write(worked_of(row), Wanted(mark, face, projection, set_up))
    except InputError as error:
        raise Http404(str(error)) from None
    answer = HttpResponse(data, content_type=writer.content_type)
    name = "-".join(word for word in (row.number, mark, face) if word)
    answer["Content-Disposition"] = content_disposition_header(True, f"{name}.{ending}")
    return answer


@require_http_methods(["GET", "HEAD", "POST"])
def exchange(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Offer a part's drawings, and read one in: a file first, then what becomes of it, then it is saved."""
    row = row_of(request, number)
    one = component_of(plain_of(row), mark)
    if request.method != "POST":
        return _show(request, row, one)
    if "drawing" in request.POST:
        return _chosen(request, row, one)
    try:
        text, form = _read(request, row, one)
    except InputError as error:
        faults = [fault.says for fault in error.faults]
        return _show(request, row, one, file_faults=faults, status=422)
    form.full_clean()
    return _look(request, row, one, form, name=text)


def _read(request: HttpRequest, row: Build, one: plain.Component) -> tuple[str, ExchangeForm]:
    upload = request.FILES.get("file")
    if not isinstance(upload, UploadedFile) or upload.file is None:
        raise InputError.of("Choose a file first: a drawing saved as DXF.")
    if (upload.size or 0) > MOST_BYTES:
        long, most = (upload.size or 0) / 1024**2, MOST_BYTES // 1024**2
        raise InputError.of(
            f"The file has {long:.1f} MB, and at most {most} are read; "
            "keep in it only the outline and the holes of this part."
        )
    read = read_dxf(cast(Any, upload.file))
    if not read.layers:
        what = f" It has {len(read.left):,} other things." if read.left else ""
        raise InputError.of(f"There is no line, arc or circle in the drawing.{what}")
    form = ExchangeForm.first(one, read, plain_of(row).unit, carried(read))
    return upload.name or "the drawing", form


def _chosen(request: HttpRequest, row: Build, one: plain.Component) -> HttpResponse:
    """Look at what the choices make, or save it."""
    try:
        read = uncarried(request.POST.get("drawing", ""))
    except InputError as error:
        return _show(request, row, one, file_faults=[fault.says for fault in error.faults], status=422)
    form = ExchangeForm(request.POST, component=one, read=read, unit=plain_of(row).unit)
    name = request.POST.get("name", "")[:200]
    form.offer_outlines(tuple(f"{at}" for at in range(20)))
    if not form.is_valid() or request.POST.get("do") != "save":
        return _look(request, row, one, form, name=name)
    mark, choices = one.mark, form.choices()
    present = _face(row, mark, choices.face)
    told: list[Taken] = []

    def edit(build: plain.Build) -> plain.Build:
        taken = take_drawing(find(build, "component", mark), read, choices, present)
        told.append(taken)
        return put(build, "component", taken.part, key=mark)

    def says(*_: plain.Build) -> str:
        made = "; ".join(told[-1].made) or "nothing"
        return f"{mark}, {choices.face}, from {name[:60] or 'a drawing'}: {made}"[:280]

    printed = request.POST.get("seen", "")
    try:
        save_and_say(request, row, edit, says, seen={("component", mark): printed} if printed else None)
    except Overtaken as error:
        form.add_error(None, f"{error} Nothing was saved; what stands here is how it would be now.")
        return _look(request, row_of(request, row.number), error.theirs or one, form, name=name, status=409)
    except InputError as error:
        _set_faults(form, error)
        return _look(request, row, one, form, name=name)
    return HttpResponseRedirect(f"{address_of(request, row, 'component', mark)}#holes")


def _face(row: Build, mark: str, face: str) -> FaceShape | None:
    return next((each for each in face_shapes(worked_of(row), mark) if each.face == face), None)


def _set_faults(form: ExchangeForm, error: InputError) -> None:
    here = {**FIELD_OF_FAULT}
    add_faults(form, error, {end: name for end, name in here.items() if name in form.fields})


def _look(
    request: HttpRequest,
    row: Build,
    one: plain.Component,
    form: ExchangeForm,
    *,
    name: str,
    status: int = 200,
) -> HttpResponse:
    """Show the choices with what they make, drawn; nothing is saved."""
    more: dict[str, Any] = {"form": form, "name": name, "face_drawn": ()}
    form.offer_outlines(())
    if not form.errors or status == 409:
        choices = form.choices()
        try:
            more |= _made(row, one, form, choices)
        except InputError as error:
            _set_faults(form, error)
    return _show(request, row, one, status=422 if form.errors and status == 200 else status, **more)


def _made(row: Build, one: plain.Component, form: ExchangeForm, choices: Choices) -> dict[str, Any]:
    taken = take_drawing(one, form.read, choices, _face(row, one.mark, choices.face))
    form.offer_outlines(taken.outer)
    rows, more = left_rows(taken.left)
    try:
        put(plain_of(row), "component", taken.part, key=one.mark)
    except InputError as error:
        _set_faults(form, error)
    drawn = preview_of(choices.face, taken)
    return {"taken": taken, "left": rows, "left_more": more, "face_drawn": drawn if drawn[0] else ()}


def _show(
    request: HttpRequest, row: Build, one: plain.Component, *, status: int = 200, **more: Any
) -> HttpResponse:
    try:
        downloads, missing = downloads_of(request, row, worked_of(row), one.mark), ""
    except InputError as error:
        downloads, missing = [], str(error)
    context = {
        "component": one,
        "downloads": downloads,
        "missing": missing,
        "seen": request.POST.get("seen", "") or fingerprint("component", one),
        "most_mb": MOST_BYTES // 1024**2,
    }
    return show(request, row, "parts", "builds/exchange.html", context | more, status=status)
