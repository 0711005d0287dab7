"""Side H, the journal."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from buildlog.builds.actions import Overtaken
from buildlog.builds.forms import add_faults
from buildlog.builds.models import Build
from buildlog.builds.page import of_workshop, row_of, show
from buildlog.builds.queries import plain_of
from buildlog.journal.actions import delete_entry, write_entry
from buildlog.journal.entering import Entering, begin_entering, conflict_of, read_entering
from buildlog.journal.finding import entry_of, find_entries, marks_in, newest_first
from buildlog.pictures.queries import pictures_of
from calculators.planning.model import Entry
from calculators.quantities.errors import InputError


@require_http_methods(["GET", "HEAD", "POST"])
def entries(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show the entries of a build, newest first, below the form of a new one; write it."""
    row = row_of(request, number)
    if request.method != "POST":
        return _list(request, row, begin_entering(row))
    entering = read_entering(request, row)
    if entering.form.is_valid():
        done = _written(request, row, entering)
        if done:
            return done
    return _list(request, row, entering, status=422)


@require_http_methods(["GET", "HEAD", "POST"])
def entry(request: HttpRequest, workshop: str, number: str, key: str) -> HttpResponse:
    """Show one entry with its form; change it."""
    row = row_of(request, number)
    found = entry_of(plain_of(row), key)
    if request.method != "POST":
        if found is None:
            raise Http404("no such entry")
        return _one(request, row, begin_entering(row, found), found)
    if request.POST.get("conflict") == "theirs":
        messages.info(request, "Theirs is kept.", extra_tags=_draft(row, key))
        return HttpResponseRedirect(_address(row, key if found else ""))
    entering = read_entering(request, row, key, found)
    if found is None and not entering.seen and not request.POST.get("conflict"):
        raise Http404("no such entry, and there was none")
    if entering.form.is_valid():
        done = _written(request, row, entering)
        if done:
            return done
    return _one(request, row, entering, found, status=422)


@require_POST
def delete(request: HttpRequest, workshop: str, number: str, key: str) -> HttpResponse:
    """Delete an entry; undoing brings it back."""
    row = row_of(request, number)
    found = entry_of(plain_of(row), key)
    if found is None:
        raise Http404("no such entry")
    try:
        saved = delete_entry(row, of_workshop(request).user, found, seen=request.POST.get("seen", ""))
    except (Overtaken, InputError) as error:
        messages.error(request, f"Nothing was deleted. {error}")
        return HttpResponseRedirect(_address(row, key))
    messages.success(request, f"{saved.change}.", extra_tags=_draft(row, key))
    return HttpResponseRedirect(_address(row))


@require_safe
def decisions(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show every decision of a build with its date, newest first."""
    row = row_of(request, number)
    found = [each for each in newest_first(plain_of(row)) if each.decision.strip()]
    return show(request, row, "journal", "journal/decisions.html", {"entries": found})


def _written(request: HttpRequest, row: Build, entering: Entering) -> HttpResponse | None:
    """Write a sound entry and answer; None where it turned out not to be sound, its faults in the form."""
    mine = entering.entry()
    try:
        saved = write_entry(row, of_workshop(request).user, mine, seen=entering.seen)
    except InputError as error:
        add_faults(entering.form, error, {"caption": "photographs"})
        return None
    except Overtaken as overtaken:
        if not entering.seen and _is_sent_again(overtaken.theirs, mine):
            return HttpResponseRedirect(_address(row))
        conflict = conflict_of(entering, overtaken)
        return _one(request, row, entering, overtaken.theirs, conflict=conflict, status=422)
    draft = _draft(row, entering.key if entering.seen or request.POST.get("conflict") else "")
    if saved.change is None:
        messages.info(request, "Nothing was changed: it is so already.", extra_tags=draft)
    else:
        messages.success(request, f"{saved.change}.", extra_tags=draft)
    return HttpResponseRedirect(_address(row, entering.key if entering.seen else ""))


def _is_sent_again(there: Entry | None, mine: Entry) -> bool:
    """Whether a new entry is there already as it was sent, but for the ids of its photographs."""
    if there is None:
        return False
    same = [each.digest for each in there.photographs] == [each.digest for each in mine.photographs]
    return same and (there.date, there.text) == (mine.date, mine.text)


def _list(request: HttpRequest, row: Build, entering: Entering, *, status: int = 200) -> HttpResponse:
    found = find_entries(plain_of(row), request.GET)
    context = {"found": found, "marks": marks_in(plain_of(row)), "entering": entering, "draft": _draft(row)}
    context |= {"there": _there(row, entering, found.page.object_list)}
    return show(request, row, "journal", "journal/entry_list.html", context, status=status)


def _one(
    request: HttpRequest,
    row: Build,
    entering: Entering,
    found: Entry | None,
    *,
    status: int = 200,
    **more: Any,
) -> HttpResponse:
    context = {"entry": found, "entering": entering, "draft": _draft(row, entering.key), **more}
    context |= {"there": _there(row, entering, [found] if found else [])}
    return show(request, row, "journal", "journal/entry_edit.html", context, status=status)


def _there(row: Build, entering: Entering, shown: Any) -> set[str]:
    """The digests of the pictures that the workshop has, of all those that a page shows."""
    digests = {each.photograph.digest for each in entering.held}
    digests |= {picture.digest for one in shown for picture in one.photographs}
    return set(pictures_of(row.workshop, digests)) if digests else set()


def _draft(row: Build, key: str = "") -> str:
    """The name under which a browser keeps what is typed until it is saved."""
    return f"{row.workshop.slug}/{row.number}/journal{'/' * bool(key)}{key}"


def _address(row: Build, key: str = "") -> str:
    here = (row.workshop.slug, row.number)
    return reverse("journal:entry", args=(*here, key)) if key else reverse("journal:entries", args=here)
