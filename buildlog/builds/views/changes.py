"""Undo, redo, and the history of a build."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.http import require_POST, require_safe

from buildlog.builds.actions import redo, undo
from buildlog.builds.history import history_of
from buildlog.builds.models import Build
from buildlog.builds.page import of_workshop, row_of, show
from buildlog.workshops.models import Workshop
from calculators.quantities.errors import InputError


@require_safe
def history(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show what was changed in a build, by whom and why."""
    row = row_of(request, number)
    return show(request, row, "history", "builds/history.html", {"history": history_of(row, request.GET)})


@require_POST
def take_back(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Undo the person's last change of a build; the form names the page to come back to as `back`."""
    return _taken(request, number, is_redo=False)


@require_POST
def do_again(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Redo what the person undid last."""
    return _taken(request, number, is_redo=True)


def _taken(request: HttpRequest, number: str, *, is_redo: bool) -> HttpResponse:
    row = row_of(request, number)
    try:
        saved = (redo if is_redo else undo)(row, of_workshop(request).user)
    except InputError as error:
        messages.error(request, str(error))
    else:
        done = saved.change.says if saved.change else ""
        messages.success(request, f"{'Done again' if is_redo else 'Undone'}: {done}")
    return HttpResponseRedirect(back_to(request, saved_number(row.workshop, row.pk)))


def saved_number(workshop: Workshop, pk: int) -> str:
    """The number that a build has now: undoing may have given back an older one."""
    return Build.rows.of(workshop).values_list("number", flat=True).get(pk=pk)


def back_to(request: HttpRequest, number: str) -> str:
    """The page that a form names as `back` where it is one of ours, else the build's check."""
    back = request.POST.get("back", "")
    if back and url_has_allowed_host_and_scheme(back, allowed_hosts={request.get_host()}):
        return back
    return reverse("builds:check", args=(of_workshop(request).workshop.slug, number))
