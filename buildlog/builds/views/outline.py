"""The outline of a component, entered on its page and taken off again."""

from __future__ import annotations

from dataclasses import replace

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.views.decorators.http import require_POST

from buildlog.builds.actions import change_build
from buildlog.builds.component_page import component_of
from buildlog.builds.models import Build
from buildlog.builds.outlines import OutlineOvertaken, OutlineShown, change_outline, outline_shown
from buildlog.builds.page import of_workshop, row_of
from buildlog.builds.queries import plain_of
from buildlog.builds.saying import say_saved
from buildlog.builds.views.component import Shown, show_component
from buildlog.builds.views.parts import component_address
from calculators.planning import model as plain
from calculators.planning.edits import find
from calculators.planning.outlining import count_words
from calculators.quantities.errors import InputError

LONGEST = 64_000
"""The longest outline that is typed [characters]."""


@require_POST
def outline(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Give a component the outline that was typed, or make it a rectangle again."""
    row, sent = row_of(request, number), request.POST
    component_of(plain_of(row), mark)
    typed = "" if "rectangle" in sent else sent.get("line", "")[: LONGEST + 1].strip()
    seen, fits = sent.get("seen", ""), "fits" in sent and "rectangle" not in sent
    try:
        saved = change_build(
            row,
            of_workshop(request).user,
            lambda build: change_outline(build, mark, typed, seen, fits=fits),
            lambda _, after: _told(after, mark),
        )
    except OutlineOvertaken as error:
        says = "Somebody else changed the outline while you had it open; it is now: "
        theirs = error.theirs or "a rectangle"
        row = row_of(request, number)
        shown = _shown(row, mark, typed or sent.get("line", ""), fits, f"{says}{theirs[:400]}.")
        return show_component(request, row, mark, Shown(outline=shown), status=409)
    except InputError as error:
        shown = _shown(row, mark, typed, fits, *(fault.says for fault in error.faults))
        return show_component(request, row, mark, Shown(outline=shown), status=422)
    say_saved(request, row, saved, draft=f"{row.number}/{mark}/outline")
    return HttpResponseRedirect(f"{component_address(request, row, mark)}#outline")


def _told(after: plain.Build, mark: str) -> str:
    one: plain.Component = find(after, "component", mark)
    return f"{mark}: {count_words(one.outline) or 'a rectangle again'}"


def _shown(row: Build, mark: str, typed: str, fits: bool, *faults: str) -> OutlineShown:
    """The outline as it stands, with what was typed and why it is not saved."""
    build = plain_of(row)
    now = outline_shown(build, component_of(build, mark))
    return replace(now, text=typed, fits=fits, faults=faults)
