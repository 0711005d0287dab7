"""Side D, the check: what is wrong, grouped and found, and each mend as one action."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.views.decorators.http import require_POST, require_safe

from buildlog.builds.checking import checked
from buildlog.builds.mending import mended
from buildlog.builds.page import row_of, show
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.saying import save_and_say
from buildlog.builds.views.changes import back_to
from calculators.quantities.errors import InputError


@require_safe
def check(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show what is wrong with a build, what must be mended first on top, or by part, or by rule."""
    row = row_of(request, number)
    worked = worked_of(row)
    context = {
        "check": checked(request.GET, worked),
        "marks": {component.mark for component in worked.build.components},
    }
    return show(request, row, "check", "builds/check.html", context)


@require_POST
def mend(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Carry out one mend of one finding, and come back to the page that the form names as `back`."""
    row = row_of(request, number)
    try:
        edit, says = mended(worked_of(row), request.POST.get("key", ""), request.POST.get("at", ""))
        save_and_say(request, row, edit, says)
    except InputError as error:
        messages.error(request, f"Nothing was changed. {error}")
    return HttpResponseRedirect(back_to(request, plain_of(row).number))
