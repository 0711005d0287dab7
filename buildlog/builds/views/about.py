"""What a build is, what its check depends on, and deleting it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from buildlog.builds.actions import Overtaken, delete_build, fingerprint
from buildlog.builds.conflicts import conflict_of
from buildlog.builds.forms import add_faults
from buildlog.builds.header_forms import AboutForm, ContextForm
from buildlog.builds.models import Build
from buildlog.builds.page import of_workshop, row_of, show
from buildlog.builds.queries import plain_of
from buildlog.builds.reading_forms import ReadingsForm, readings_print, readings_said
from buildlog.builds.saying import save_and_say
from buildlog.builds.zones import day_in
from buildlog.workshops.door import for_owners
from calculators.planning import model as plain
from calculators.planning.documents import Name, header_of
from calculators.planning.edits import compare_builds
from calculators.quantities.errors import InputError

ABOUT, CONTEXT, READINGS = "about", "context", "readings"


@require_http_methods(["GET", "HEAD", "POST"])
def about(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show and change the header of a build: `what` names the half that was sent."""
    row = row_of(request, number)
    here = reverse("builds:about", args=(workshop, number))
    if request.method != "POST":
        return _show(request, row)
    if request.POST.get("conflict") == "theirs":
        messages.info(request, "What was saved by the other stays; nothing of yours was.")
        return HttpResponseRedirect(here)
    asked = (request.POST.get("what"), request.GET.get("what"))
    if READINGS in asked:
        return _save_readings(request, row)
    what = CONTEXT if CONTEXT in asked else ABOUT
    form = _forms(plain_of(row), what, request.POST)[what]
    if not form.is_valid():
        return _show(request, row, {what: form}, status=422)
    seen: dict[Name, str] = {("build", ""): request.POST.get("seen", "")}
    draft = f"{number}/{what}"
    try:
        saved = save_and_say(request, row, _edit(what, form), _says, seen=seen, draft=draft)
    except InputError as error:
        add_faults(form, error)
        return _show(request, row, {what: form}, status=422)
    except Overtaken as error:
        conflict = conflict_of(error, [(form, _forms(error.theirs)[what])])
        again = f"{here}?what={what}"
        return _show(request, row, {what: form}, conflict=conflict, action=again, what=what, status=422)
    return HttpResponseRedirect(reverse("builds:about", args=(workshop, saved.after.number)))


def _save_readings(request: HttpRequest, row: Build) -> HttpResponse:
    """Keep the readings as the form lists them."""
    build = plain_of(row)
    form = ReadingsForm(request.POST, build=build, today=day_in(build), auto_id="readings-%s")
    if not form.is_valid():
        return _show(request, row, {READINGS: form}, status=422)
    edit, draft = form.edit(request.POST.get("seen_readings", "")), f"{row.number}/{READINGS}"
    try:
        save_and_say(request, row, edit, readings_said, draft=draft)
    except InputError as error:
        form.add_error(None, [fault.says for fault in error.faults])
        now = row_of(request, row.number)
        return _show(request, now, {READINGS: form}, status=422)
    address = reverse("builds:about", args=(of_workshop(request).workshop.slug, row.number))
    return HttpResponseRedirect(f"{address}#readings")


def _edit(what: str, form: Any) -> Callable[[plain.Build], plain.Build]:
    if what == CONTEXT:
        return lambda build: replace(build, context=form.changed(build.context))
    return lambda build: form.changed(build)


def _says(before: plain.Build, after: plain.Build) -> str:
    """Which fields were changed, and to what where it is short."""
    changes = compare_builds(header_of(before), header_of(after))
    told = []
    for one in changes[:4]:
        name = (
            one.field.removeprefix("context.").removesuffix("_mm").removesuffix("_percent").replace("_", " ")
        )
        told.append(f"{name} {one.new}" if 0 < len(one.new) <= 40 else f"{name} changed")
    more = f" and {len(changes) - 4} more" if len(changes) > 4 else ""
    return f"{after.number}: {', '.join(told)}{more}"


def _forms(build: plain.Build, what: str = "", sent: Any = None) -> dict[str, forms.Form]:
    return {
        ABOUT: AboutForm(sent if what == ABOUT else None, initial=AboutForm.of(build), auto_id="about-%s"),
        CONTEXT: ContextForm(
            sent if what == CONTEXT else None, initial=ContextForm.of(build.context), auto_id="context-%s"
        ),
    }


def _show(
    request: HttpRequest,
    row: Build,
    sent: dict[str, forms.Form] | None = None,
    *,
    status: int = 200,
    **more: Any,
) -> HttpResponse:
    build = plain_of(row)
    seen = request.POST.get("seen", "") if sent else ""
    context = {
        **_forms(build),
        READINGS: ReadingsForm(build=build, today=day_in(build), auto_id="readings-%s"),
        **(sent or {}),
        "seen": seen or fingerprint("build", build),
        "seen_readings": readings_print(build),
        "readings_now": ReadingsForm(build=build, today=day_in(build)).initial,
        **more,
    }
    return show(request, row, "about", "builds/build_change.html", context, status=status)


@for_owners
@require_POST
def delete(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Delete a build for good, where its number was typed."""
    row = row_of(request, number)
    try:
        delete_build(row, request.POST.get("typed", ""))
    except InputError as error:
        return _show(request, row, delete_fault=str(error), typed=request.POST.get("typed", ""), status=422)
    name = of_workshop(request).workshop.name
    messages.success(request, f"{number} is deleted from {name}, with its journal and its history.")
    return HttpResponseRedirect(reverse("start"))
