"""Side D, the check: what is wrong, grouped and found, each place in red, and each mend as one action."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from buildlog.builds.checking import checked
from buildlog.builds.mending import mended
from buildlog.builds.models import Build
from buildlog.builds.page import of_workshop, row_of, show
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.red_places import found_with, red_faces
from buildlog.builds.saying import address_of, save_and_say
from buildlog.builds.showing import show_findings
from buildlog.builds.standing import letting_stand, renewing, standing_of, withdrawing
from buildlog.builds.views.changes import back_to
from calculators.planning.edits import find_finding
from calculators.quantities.errors import InputError

LONGEST_KEY = 1_000
"""The longest name of a finding that is looked for [characters]."""


@require_safe
def check(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show what is wrong with a build, what must be mended first on top, or by part, rule or subject."""
    row = row_of(request, number)
    worked = worked_of(row)
    context = {
        "check": checked(request.GET, worked),
        "standing": standing_of(worked),
        "marks": {component.mark for component in worked.build.components},
    }
    return show(request, row, "check", "builds/check.html", context)


@require_safe
def red(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Draw where a finding is, in red on the faces of its parts: a page, or for htmx the drawings alone."""
    row = row_of(request, number)
    worked = worked_of(row)
    found = found_with(worked, request.GET.get("finding", "")[:LONGEST_KEY])
    if not found:
        raise Http404("no such finding")
    context = {
        "faces": red_faces(worked, found),
        "shown": show_findings(worked, found[:1])[0],
        "marks": {component.mark for component in worked.build.components},
    }
    if "HX-Request" in request.headers:
        return render(request, "builds/_red_faces.html", context | {"build": worked.build})
    return show(request, row, "check", "builds/red_places.html", context)


@require_POST
def mend(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Carry out one mend of one finding, and come back to the page that the form names as `back`."""
    row = row_of(request, number)
    try:
        worked, key = worked_of(row), request.POST.get("key", "")
        edit, says = mended(worked, key, request.POST.get("at", ""))
        # What the check found is why a released part is changed: nobody is asked for it.
        save_and_say(request, row, edit, says, reason=find_finding(worked, key).says)
    except InputError as error:
        messages.error(request, f"Nothing was changed. {error}")
    return HttpResponseRedirect(back_to(request, plain_of(row).number))


@require_http_methods(["GET", "HEAD", "POST"])
def let_stand(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Let a finding stand with a reason; where that cannot be, say why and keep what was typed."""
    row = row_of(request, number)
    if request.method != "POST":
        return _ask_reason(request, row, request.GET.get("finding", ""))
    key, reason = request.POST.get("key", ""), request.POST.get("reason", "").replace("\r\n", "\n")
    draft = f"{number}/stand/{key}"[:300]
    try:
        edit, says = letting_stand(row, of_workshop(request).user, key[:LONGEST_KEY], reason)
        save_and_say(request, row, edit, says, draft=draft)
    except InputError as error:
        return _ask_reason(request, row, key, reason, str(error))
    return HttpResponseRedirect(back_to(request, plain_of(row).number))


def _ask_reason(
    request: HttpRequest, row: Build, key: str, reason: str = "", fault: str = ""
) -> HttpResponse:
    """The page that asks for the reason; what was typed stands there even where the finding is gone."""
    worked = worked_of(row)
    found = [one for one in found_with(worked, key[:LONGEST_KEY]) if one in worked.findings]
    if not found and not fault:
        raise Http404("no such finding")
    context = {
        "shown": show_findings(worked, found[:1])[0] if found else None,
        "key": key[:LONGEST_KEY],
        "reason": reason,
        "fault": fault,
        "back": request.POST.get("back") or address_of(request, row, "check"),
        "marks": {component.mark for component in worked.build.components},
    }
    return show(request, row, "check", "builds/let_stand.html", context, status=422 if fault else 200)


@require_POST
def let_stand_again(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Give an acceptance that has lapsed again, for the numbers as they are now."""
    row = row_of(request, number)
    try:
        edit, says = renewing(row, of_workshop(request).user, request.POST.get("acceptance", ""))
        save_and_say(request, row, edit, says)
    except InputError as error:
        messages.error(request, f"Nothing was changed. {error}")
    return HttpResponseRedirect(back_to(request, plain_of(row).number))


@require_POST
def take_back_standing(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Withdraw an acceptance: its finding stands among the others again."""
    row = row_of(request, number)
    try:
        edit, says = withdrawing(row, request.POST.get("acceptance", ""))
        save_and_say(request, row, edit, says)
    except InputError as error:
        messages.error(request, f"Nothing was changed. {error}")
    return HttpResponseRedirect(back_to(request, plain_of(row).number))
