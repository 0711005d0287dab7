"""Sheets as PDF and schedules as CSV from the pages; what takes long is printed beside them."""

from __future__ import annotations

from urllib.parse import urlencode

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from buildlog.builds.models import Build
from buildlog.builds.page import of_workshop, row_of, show
from buildlog.builds.queries import plain_of, worked_of
from buildlog.sheets.models import Printing, State
from buildlog.sheets.papers import Paper
from buildlog.sheets.recording import last_change_of, record_printed
from buildlog.sheets.spreadsheets import SPREADSHEETS
from buildlog.sheets.stamping import address_of_paper
from buildlog.workshops.door import for_viewers
from calculators.quantities.errors import InputError

LONGEST_OPTION = 100


@require_safe
def sheet(request: HttpRequest, workshop: str, number: str, kind: str) -> HttpResponse:
    """Print one sheet of a build; `?paper=letter` for US Letter, `?component=P01` for one component.

    What else a kind can be asked (`Kind.options`) stands in the address by its name.
    """
    from buildlog.sheets import jobs  # WeasyPrint takes half a second to load
    from buildlog.sheets.making import KINDS, make_sheet

    row = row_of(request, number)
    last_change = last_change_of(row)
    worked = worked_of(row)
    paper: Paper = "letter" if request.GET.get("paper") == "letter" else "a4"
    component = request.GET.get("component", "")
    if kind not in KINDS or (component and component not in {one.mark for one in worked.build.components}):
        raise Http404("no such sheet")
    options = _options(kind, request.GET)
    if jobs.rows_of(kind, worked, component) > jobs.LONG_ROWS:
        asked = {"kind": kind, "paper": paper, "component": component, **options}
        return redirect(f"{_address('sheets:ask', request, number)}?{urlencode(asked)}")
    try:
        address = address_of_paper(request)
        pdf = make_sheet(kind, worked, paper=paper, component=component, options=options, address=address)
    except InputError as error:
        raise Http404(str(error)) from None
    if request.method == "GET":
        record_printed(
            row, of_workshop(request).user, worked, kind, KINDS[kind].title,
            paper=paper, component=component, options=options, last_change=last_change,
        )  # fmt: skip
    return _pdf(pdf, f"{number}-{kind}")


@require_safe
def ask(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Say that a sheet takes a while, and offer to begin."""
    from buildlog.sheets.making import KINDS

    kind = request.GET.get("kind", "")
    if kind not in KINDS:
        raise Http404("no such sheet")
    context = {
        "kind": kind,
        "title": KINDS[kind].title,
        "paper": "letter" if request.GET.get("paper") == "letter" else "a4",
        "component": request.GET.get("component", "")[:40],
        "options": _options(kind, request.GET),
    }
    return show(request, row_of(request, number), "paper", "sheets/printing_ask.html", context)


@for_viewers
@require_POST
def begin(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Begin to print a long sheet."""
    from buildlog.sheets import jobs
    from buildlog.sheets.making import KINDS

    row = row_of(request, number)
    kind, component = request.POST.get("kind", ""), request.POST.get("component", "")
    if kind not in KINDS or (component and component not in {one.mark for one in plain_of(row).components}):
        raise Http404("no such sheet")
    paper: Paper = "letter" if request.POST.get("paper") == "letter" else "a4"
    try:
        options = _options(kind, request.POST)
        address = address_of_paper(request)
        printing = jobs.begin_printing(
            row, of_workshop(request).user, kind, paper, component, options, address
        )
    except InputError as error:
        messages.error(request, str(error))
        return redirect(_address("builds:paper", request, number))
    return redirect(_address("sheets:printing", request, number, printing.name))


@never_cache
@require_safe
def printing(request: HttpRequest, workshop: str, number: str, name: str) -> HttpResponse:
    """Say how far a printing is. The page asks again by itself, with script or without."""
    from buildlog.sheets import jobs
    from buildlog.sheets.making import KINDS

    row = row_of(request, number)
    found = _printing_of(row, name)
    context = {"printing": found, "title": KINDS[found.kind].title, "lost": jobs.is_lost(found)}
    return show(request, row, "paper", "sheets/printing.html", context)


@require_safe
def printed(request: HttpRequest, workshop: str, number: str, name: str) -> HttpResponse:
    """Give the PDF of a printing that is done."""
    found = _printing_of(row_of(request, number), name)
    if found.state != State.DONE or found.pdf is None:
        raise Http404("it is not printed")
    return _pdf(bytes(found.pdf), f"{number}-{found.kind}")


@for_viewers
@require_POST
def cancel(request: HttpRequest, workshop: str, number: str, name: str) -> HttpResponse:
    """Cancel a printing."""
    from buildlog.sheets import jobs

    jobs.cancel_printing(_printing_of(row_of(request, number), name))
    return redirect(_address("sheets:printing", request, number, name))


@require_safe
def spreadsheet(request: HttpRequest, workshop: str, number: str, kind: str) -> HttpResponse:
    """Give a schedule as CSV."""
    if kind not in SPREADSHEETS:
        raise Http404("no such schedule")
    text = SPREADSHEETS[kind].rows(worked_of(row_of(request, number)))
    return _file(text.encode("utf-8"), "text/csv; charset=utf-8", f"{number}-{kind}.csv", "attachment")


def _options(kind: str, asked: QueryDict) -> dict[str, str]:
    """What is asked of a kind of sheet besides its component and paper."""
    from buildlog.sheets.making import KINDS

    said = {name: asked.get(name, "")[:LONGEST_OPTION].replace("\x00", "") for name in KINDS[kind].options}
    return {name: text for name, text in said.items() if text}


def _printing_of(row: Build, name: str) -> Printing:
    found = Printing.objects.filter(build=row, name=name).first()
    if found is None:
        raise Http404("no such printing")
    return found


def _address(name: str, request: HttpRequest, *args: str) -> str:
    return reverse(name, args=(of_workshop(request).workshop.slug, *args))


def _pdf(pdf: bytes, name: str) -> HttpResponse:
    return _file(pdf, "application/pdf", f"{name}.pdf", "inline")


def _file(data: bytes, kind: str, name: str, how: str) -> HttpResponse:
    plain = "".join(sign if sign.isalnum() or sign in "-_." else "-" for sign in name)
    plain = plain.encode("ascii", "ignore").decode()
    headers = {"Content-Disposition": f'{how}; filename="{plain}"', "Cache-Control": "private, no-cache"}
    return HttpResponse(data, content_type=kind, headers=headers)
