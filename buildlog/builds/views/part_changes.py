"""What is done to a component from its row or its page: its line, its state, its place, copy, removal."""

from __future__ import annotations

from dataclasses import replace
from typing import cast, get_args

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.views.decorators.http import require_http_methods, require_POST

from buildlog.builds.actions import Edit, Overtaken, Saved, change_build, fingerprint
from buildlog.builds.component_form import changes_said
from buildlog.builds.models import Build
from buildlog.builds.page import of_workshop, row_of, show
from buildlog.builds.part_rows import line_of, move_part
from buildlog.builds.queries import plain_of
from buildlog.builds.saying import say_saved
from buildlog.builds.views.component import Shown, show_component
from buildlog.builds.views.parts import OpenLine, back_from, parts_address, show_parts
from calculators.planning import model as plain
from calculators.planning.edits import duplicate, find, put, remove, taken_along
from calculators.planning.lines import Unread, read_part_line
from calculators.quantities.errors import InputError


@require_http_methods(["GET", "HEAD", "POST"])
def change_line(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Change a component by its line."""
    row = row_of(request, number)
    if request.method != "POST":
        return HttpResponseRedirect(back_from(request, row, plain_of(row), mark, change=True))
    typed, seen = request.POST.get("line", "")[:10_000].strip(), request.POST.get("seen", "")
    text = " ".join(typed.split())
    if request.POST.get("conflict") == "theirs":
        return HttpResponseRedirect(back_from(request, row, plain_of(row), mark))
    try:
        saved = change_build(
            row,
            of_workshop(request).user,
            lambda build: _by_line(build, mark, text),
            lambda old, new: _difference(old, new, mark),
            seen={("component", mark): seen},
        )
    except Overtaken as error:
        return _overtaken(request, row, mark, text, error)
    except InputError as error:
        faults = tuple(fault.says for fault in error.faults)
        return line_again(request, row, OpenLine(mark, typed, seen, faults), status=422)
    return _said(request, row, mark, saved, draft=f"{row.number}/{mark}/line")


def _difference(old: plain.Build, new: plain.Build, mark: str) -> str:
    return changes_said(find(old, "component", mark), find(new, "component", mark))


def _said(
    request: HttpRequest,
    row: Build,
    mark: str,
    saved: Saved,
    *,
    draft: str = "",
    to_line: bool = False,
) -> HttpResponse:
    """Say what a change came to, and go back to where it was asked for."""
    if request.POST.get("from") == "component":
        say_saved(request, row, saved, draft=draft)
    else:  # many parts are changed one after another in the table: the check is not asked each time
        says = f"{saved.change.says}." if saved.change else f"{mark} is so already: nothing was changed."
        messages.success(request, says, extra_tags=draft)
    return HttpResponseRedirect(back_from(request, row, saved.after, mark, change=to_line))


def _by_line(build: plain.Build, mark: str, text: str) -> plain.Build:
    now = find(build, "component", mark)
    if not text:
        raise InputError.of("The line is empty. To take the part out, use Remove.")
    if text == line_of(build, now):
        return build
    return put(build, "component", read_part_line(text, build, now=now), key=mark)


def line_again(request: HttpRequest, row: Build, opened: OpenLine, *, status: int) -> HttpResponse:
    """Show the line again with its sentences, on the page where it was typed."""
    if request.POST.get("from") == "component":
        return show_component(request, row, opened.mark, Shown(opened=opened), status=status)
    return show_parts(request, row, opened=opened, status=status)


def _overtaken(request: HttpRequest, row: Build, mark: str, text: str, error: Overtaken) -> HttpResponse:
    row = row_of(request, row.number)
    if error.theirs is None:
        says = f"{mark} was taken out by {error.by} while you had it open. Enter it anew, or leave it."
        return show_parts(request, row, unread=[Unread(1, text, (says,))], status=409)
    theirs = line_of(plain_of(row), error.theirs)
    seen = fingerprint("component", error.theirs)
    return line_again(request, row, OpenLine(mark, text, seen, (), theirs, error.by), status=409)


@require_POST
def set_state(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Say how far a component is: `state` is `planned>released`, what it was and what it shall be."""
    row = row_of(request, number)
    was, _, to = request.POST.get("state", "").rpartition(">")
    if to not in get_args(plain.State):
        raise Http404("no such state")

    def edit(build: plain.Build) -> plain.Build:
        one = find(build, "component", mark)
        if was and one.state != was:
            raise InputError.of(f"{mark} is {one.state} by now, not {was}: nothing was changed.")
        return put(build, "component", replace(one, state=cast(plain.State, to)), key=mark)

    return _done(request, row, mark, edit, f"{mark} is {to} now")


def _done(
    request: HttpRequest, row: Build, mark: str, edit: Edit, says: str, *, to_line: bool = False
) -> HttpResponse:
    """Do one action on a component and go back; why it cannot be done is said on the page."""
    try:
        saved = change_build(row, of_workshop(request).user, edit, says)
    except InputError as error:
        messages.error(request, str(error))
        return HttpResponseRedirect(back_from(request, row, plain_of(row), mark, change=to_line))
    return _said(request, row, mark, saved, to_line=to_line)


@require_POST
def move(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Move a component up, down or before another."""
    row = row_of(request, number)
    to, before = request.POST.get("to", "before"), request.POST.get("before", "")[:40]
    where = {"up": "up one place", "down": "down one place"}.get(to, f"before {before.strip()}")
    return _done(
        request,
        row,
        mark,
        lambda build: move_part(build, mark, to, before),
        f"{mark} moved {where}",
        to_line=True,
    )


@require_POST
def duplicate_part(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Copy a component under the next free mark, and open the copy's line."""
    row = row_of(request, number)
    copies: list[str] = []

    def edit(build: plain.Build) -> plain.Build:
        after, copy = duplicate(build, "component", mark)
        copies.append(copy)
        return after

    try:
        saved = change_build(
            row, of_workshop(request).user, edit, lambda *_: f"{copies[-1]} copied from {mark}"
        )
    except InputError as error:
        messages.error(request, str(error))
        return HttpResponseRedirect(parts_address(request, row))
    messages.success(request, f"{copies[-1]} copied from {mark}. It lies nowhere yet.")
    return HttpResponseRedirect(back_from(request, row, saved.after, copies[-1], change=True))


@require_http_methods(["GET", "HEAD", "POST"])
def remove_part(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Say what goes with a component, and take it out when that is wanted."""
    row = row_of(request, number)
    build = plain_of(row)
    one = next((each for each in build.components if each.mark == mark), None)
    if request.method != "POST":
        if one is None:
            raise Http404(f"no part {mark}")
        context = {"component": one, "along": taken_along(build, "component", mark)}
        return show(request, row, "parts", "builds/component_remove.html", context)
    try:
        says = f"{mark} {one.name if one else ''}".strip() + " taken out"
        change_build(row, of_workshop(request).user, lambda now: remove(now, "component", mark), says)
    except InputError as error:
        messages.error(request, str(error))
        return HttpResponseRedirect(parts_address(request, row))
    messages.success(request, f"{says}. Undo brings it back with all that went along.")
    return HttpResponseRedirect(parts_address(request, row))
