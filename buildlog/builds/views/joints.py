"""Side B, the joints: entered one a line, listed, changed in place, copied, removed."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.views.decorators.http import require_http_methods, require_POST

from buildlog.builds.actions import Saved, fingerprint
from buildlog.builds.conflicts import Conflict
from buildlog.builds.entering import enter_lines, listed
from buildlog.builds.entry import typed_lines
from buildlog.builds.joint_edits import change_by_line, told_of
from buildlog.builds.joint_forms import LineForm
from buildlog.builds.joint_rows import ORDERS, JointRow, joint_rows
from buildlog.builds.listing import listing
from buildlog.builds.models import Build
from buildlog.builds.page import of_workshop, row_of, show
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.saying import address_of, keeps_theirs, save_and_say, save_form, say_saved
from buildlog.builds.showing import joint_groups, show_findings
from calculators.planning import model as plain
from calculators.planning.edits import duplicate, find, put, remove, taken_along
from calculators.planning.lines import write_joint_line
from calculators.planning.model import Joint
from calculators.quantities.errors import InputError

MOST_NEW = 20
"""The most joints just added whose consequences are shown at once."""


@require_http_methods(["GET", "HEAD", "POST"])
def joints(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show the joints of a build; take new ones, one a line, and a line that was changed in place."""
    row = row_of(request, number)
    if request.method != "POST":
        return show_list(request, row)
    return _change_line(request, row) if "change" in request.POST else _add(request, row)


def show_list(request: HttpRequest, row: Build, *, status: int = 200, **more: Any) -> HttpResponse:
    """The page of the joints; `more` has what was typed and could not be taken."""
    worked = worked_of(row)
    rows = joint_rows(worked)
    new = (more.pop("added", None) or request.GET.getlist("new"))[:MOST_NEW]
    change = more.pop("change", None) or request.GET.get("change", "")
    changing = next((one.joint for one in rows if one.joint.mark == change), None)
    context = {
        "list": listing(request.GET, rows, words=JointRow.words, orders=ORDERS),
        "new": [_follows(worked, one) for one in rows if one.joint.mark in new],
        "changing": changing,
        "line": write_joint_line(changing, worked.build) if changing else "",
        "seen": fingerprint("joint", changing),
        "draft": f"{row.number}/joints",
    }
    return show(request, row, "joints", "builds/joints.html", context | more, status=status)


def _follows(worked: Any, one: JointRow) -> dict[str, Any]:
    """What follows from a joint that was just entered."""
    findings = [finding for finding in worked.findings if finding.joint == one.joint.mark]
    return {
        "row": one,
        "groups": joint_groups(worked, one.joint.mark),
        "findings": show_findings(worked, findings[:10]),
    }


def _add(request: HttpRequest, row: Build) -> HttpResponse:
    draft, lines = f"{row.number}/joints", typed_lines(request.POST, "lines")
    entered = enter_lines(row, of_workshop(request).user, "joint", lines, _told)
    if entered.saved is not None and entered.added:
        say_saved(request, row, entered.saved, draft="" if entered.unread else draft)
    if entered.unread:
        now = row_of(request, row.number)
        return show_list(request, now, status=422, unread=entered.unread, added=list(entered.added))
    query = f"?{urlencode({'new': entered.added[:MOST_NEW]}, doseq=True)}" if entered.added else ""
    return HttpResponseRedirect(address_of(request, row, "joints") + query)


def _told(build: plain.Build, added: tuple[str, ...]) -> str:
    """What was added, in one sentence."""
    if len(added) == 1:
        one = find(build, "joint", added[0])
        return f"{one.mark} {one.title}: {one.fastener} was added"
    return f"{listed(list(added), 8)} were added"


def _change_line(request: HttpRequest, row: Build) -> HttpResponse:
    mark, form = request.POST["change"], LineForm(request.POST)
    if keeps_theirs(request):
        return HttpResponseRedirect(f"{address_of(request, row, 'joints')}#{mark}")

    def edit(build: plain.Build) -> plain.Build:
        line = form.cleaned_data["line"]
        return put(build, "joint", change_by_line(build, find(build, "joint", mark), line), key=mark)

    def theirs(joint: Joint) -> LineForm:
        now = plain_of(row_of(request, row.number))
        return LineForm(initial={"change": mark, "line": write_joint_line(joint, now)})

    found: Saved | Conflict | None = None
    if form.is_valid():
        found = save_form(
            request, row, form, edit, told_of(mark), seen=("joint", mark), theirs=theirs,
            draft=f"{row.number}/joints/{mark}/line", fields={"key": "line"},
        )  # fmt: skip
    if isinstance(found, Saved):
        return HttpResponseRedirect(f"{address_of(request, row, 'joints')}#{mark}")
    faults = [*form.errors.get("line", []), *form.non_field_errors()]
    return show_list(
        request, row_of(request, row.number), status=422, change=mark, conflict=found, faults_of_line=faults,
        line=request.POST.get("line", ""), seen=request.POST.get("seen", ""),
    )  # fmt: skip


@require_POST
def copy(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Copy a joint under the next free mark, and go to it."""
    row = row_of(request, number)
    try:
        _, new = duplicate(plain_of(row), "joint", mark)
        save_and_say(
            request, row, lambda build: duplicate(build, "joint", mark)[0], f"{new} was copied from {mark}"
        )
    except InputError as error:
        messages.error(request, str(error))
        return HttpResponseRedirect(address_of(request, row, "joints"))
    return HttpResponseRedirect(address_of(request, row, "joint", new))


@require_POST
def take_out(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Remove a joint, and say what went with it; it can be undone."""
    row = row_of(request, number)
    try:
        along = taken_along(plain_of(row), "joint", mark)
        says = " ".join([f"{mark} was removed", *(f"({sentence})" for sentence in along[:3])])
        save_and_say(request, row, lambda build: remove(build, "joint", mark), says)
    except InputError as error:
        messages.error(request, str(error))
    return HttpResponseRedirect(address_of(request, row, "joints"))
