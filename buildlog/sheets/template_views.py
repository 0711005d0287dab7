"""The page of a template: which face, for which printer; what its check rules measured, typed back in."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Any
from urllib.parse import urlencode

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect, QueryDict
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from buildlog.builds.component_page import component_of
from buildlog.builds.forms import add_faults
from buildlog.builds.models import Build
from buildlog.builds.page import of_workshop, row_of, show
from buildlog.builds.queries import worked_of
from buildlog.builds.saying import say_saved
from buildlog.builds.zones import day_in
from buildlog.sheets.papers import Paper
from buildlog.sheets.printer_form import ReadingsForm
from buildlog.sheets.printers import keep_readings, known_printers, rules_drawn
from buildlog.sheets.true_size import LaidOut, lay_out, pages_told
from calculators.drawing.template_map import map_picture
from calculators.drawing.template_paper import Stretch
from calculators.planning.checks.records import PRINTER_OFF
from calculators.planning.drawn.template_faces import faces_of, template_faces
from calculators.planning.printers import LONGEST_NAME, PrinterReadings, correction_words
from calculators.planning.schedules.cutting import parts_to_cut
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError

NO_PRINTER = "none"
"""What the choice of a printer says where nothing is corrected; a printer's name has a mark before it."""

A_PRINTER = "="
FIRST_NAME = "our printer"
_MOST_HOLES = 200
_FITTED = 0.02
"""A printer that is further off than this was probably told to fit the page."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """What of a part is to be printed, and for which printer; None: drawn at its true length."""

    face: str
    mirrored: bool
    paper: Paper
    readings: PrinterReadings | None

    def address(self, mark: str) -> str:
        """The rest of the address of the sheet."""
        asked = {
            "component": mark,
            "face": self.face,
            "mirror": "1" if self.mirrored else "",
            "paper": self.paper,
        }
        return urlencode({name: said for name, said in (asked | rules_drawn(self.readings)).items() if said})

    @property
    def printer(self) -> str:
        """What the choice of a printer says."""
        return f"{A_PRINTER}{self.readings.printer}" if self.readings else NO_PRINTER

    @property
    def query(self) -> str:
        """The same choice for the address of the page."""
        asked = {"face": self.face, "mirror": "1" if self.mirrored else "", "paper": self.paper}
        return urlencode({name: said for name, said in (asked | {"printer": self.printer}).items() if said})


@require_http_methods(["GET", "HEAD", "POST"])
def template(request: HttpRequest, workshop: str, number: str, mark: str = "") -> HttpResponse:
    """Show what a part's template will be, and keep the readings of its check rules."""
    row = row_of(request, number)
    worked = worked_of(row)
    mark = component_of(worked.build, mark).mark if mark else _first_part(worked)
    known = known_printers(of_workshop(request).workshop, worked.build)
    chosen = _chosen(request.GET, known)
    if request.method == "POST":
        return _save(request, row, worked, mark, chosen, known)
    return _show(request, row, worked, mark, chosen, known)


def _first_part(worked: WorkedBuild) -> str:
    """The first part that is made and has holes; else the first that is made; nothing where none is."""
    made = [one.mark for one in parts_to_cut(worked.build) if one.state not in ("made", "fitted")]
    drilled = {hole.part for hole in worked.holes if hole.u_mm is not None}
    return next((mark for mark in made if mark in drilled), made[0] if made else "")


def _chosen(asked: QueryDict, known: list[PrinterReadings]) -> Chosen:
    """What is asked for; without a word on the printer the one that was read last."""
    printer = asked.get("printer", "")
    readings = next((one for one in known if printer == f"{A_PRINTER}{one.printer}"), None)
    if not printer and known:
        readings = known[0]
    paper: Paper = "letter" if asked.get("paper") == "letter" else "a4"
    return Chosen(asked.get("face", "")[:10], bool(asked.get("mirror")), paper, readings)


def _address(request: HttpRequest, row: Build, mark: str) -> str:
    slug = of_workshop(request).workshop.slug
    if not mark:
        return reverse("sheets:templates", args=(slug, row.number))
    return reverse("sheets:template", args=(slug, row.number, mark))


def _save(
    request: HttpRequest,
    row: Build,
    worked: WorkedBuild,
    mark: str,
    chosen: Chosen,
    known: list[PrinterReadings],
) -> HttpResponse:
    """Keep the readings, or take over those that the workshop has of the printer."""
    person, workshop = of_workshop(request).user, of_workshop(request).workshop
    form: ReadingsForm | None = None
    if "take" in request.POST:
        readings = next((one for one in known if one.printer == request.POST["take"]), None)
    else:
        form = ReadingsForm(request.POST)
        readings = form.readings(day_in(worked.build)) if form.is_valid() else None
    if readings is None:
        return _show(request, row, worked, mark, chosen, known, form, status=422)
    try:
        saved = keep_readings(row, workshop, person, readings)
    except InputError as error:
        form = form or ReadingsForm(request.POST)
        form.is_valid()
        add_faults(form, error)
        return _show(request, row, worked, mark, chosen, known, form, status=422)
    say_saved(request, row, saved, draft=f"{row.number}/readings")
    now = Chosen(chosen.face, chosen.mirrored, chosen.paper, readings)
    return HttpResponseRedirect(f"{_address(request, row, mark)}?{now.query}#print")


def _show(
    request: HttpRequest,
    row: Build,
    worked: WorkedBuild,
    mark: str,
    chosen: Chosen,
    known: list[PrinterReadings],
    form: ReadingsForm | None = None,
    *,
    status: int = 200,
) -> HttpResponse:
    build, readings = worked.build, chosen.readings
    part = next((one for one in build.components if one.mark == mark), None)
    stretch = readings.stretch if readings else Stretch()
    laid: list[LaidOut] = []
    fault = ""
    try:
        if part is not None:
            laid, _ = lay_out(worked, mark, chosen.face, chosen.paper, stretch, mirrored=chosen.mirrored)
    except InputError as error:
        fault, status = str(error), 422 if status == 200 else status
    drawn = rules_drawn(readings)
    form = form or ReadingsForm(
        initial={
            "printer": (readings.printer if readings else "") or FIRST_NAME,
            "along_drawn": drawn["along"],
            "across_drawn": drawn["across"],
        }
    )
    context: dict[str, Any] = {
        "component": part,
        "parts": [one for one in parts_to_cut(build) if one.size.shape],
        "choice": chosen,
        "faces": faces_of(part) if part else (),
        "drilled": [one.shape.face for one in template_faces(worked, mark)] if part else (),
        "printers": [
            (f"{A_PRINTER}{one.printer}", one.printer or "the printer of the last readings") for one in known
        ],
        "names": [one.printer for one in known if one.printer],
        "pages": [_told(one) for one in laid],
        "count": pages_told(laid),
        "fault": fault,
        "print_at": chosen.address(mark),
        "form": form,
        "readings": readings,
        "off": _off(readings, build.context.limits) if readings else (),
        "read": (f"{readings.along_mm:f}", f"{readings.across_mm:f}") if readings else (),
        "is_far": max(abs(stretch.along - 1), abs(stretch.across - 1)) > _FITTED,
        "corrected": correction_words(stretch),
        "is_kept": readings is None or _is_kept(readings, build.context.printer, build.context.printer_on),
        "here": f"{_address(request, row, mark)}?{chosen.query}",
        "longest": LONGEST_NAME,
    }
    return show(request, row, "parts", "sheets/template_page.html", context, status=status)


def _is_kept(readings: PrinterReadings, printer: str, on: object) -> bool:
    """Whether the build itself keeps these readings, so that its check knows of them."""
    return on is not None and printer == readings.printer and on == readings.on


def _off(readings: PrinterReadings, limits: tuple[tuple[str, Decimal], ...]) -> tuple[str, ...]:
    """Which ways the last print was not true within the limit of the check."""
    limit = float(dict(limits).get(PRINTER_OFF.name, PRINTER_OFF.value))
    read = (("along", readings.along_mm), ("across", readings.across_mm))
    return tuple(way for way, one in read if abs(float(one) - 100.0) > limit + 1e-9)


def _told(one: LaidOut) -> dict[str, Any]:
    """One face: its map, its pages in words, its holes."""
    shape = one.face.shape
    return {
        "face": shape.face,
        "map": map_picture(one.tiling),
        "count": pages_told([one]),
        "lying": one.tiling.layout.landscape,
        "names": ", ".join(tile.name for tile in one.tiling.tiles),
        "holes": shape.holes[:_MOST_HOLES],
        "left": max(0, len(shape.holes) - _MOST_HOLES),
    }
