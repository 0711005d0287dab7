"""What is decided about a joint: its facts, its places, each member of its stack and their order."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from django import forms
from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.views.decorators.http import require_http_methods, require_POST

from buildlog.builds.actions import Overtaken, fingerprint
from buildlog.builds.conflicts import Conflict
from buildlog.builds.home_plan import home_plan
from buildlog.builds.joint_edits import add_member, move_member, put_member, read_places, told_of
from buildlog.builds.joint_forms import HoleForm, HoleForms, JointForm, MemberForm, PlacesForm
from buildlog.builds.joint_rows import place_rows
from buildlog.builds.models import Build
from buildlog.builds.page import row_of, show
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.saying import address_of, keeps_theirs, save_and_say, save_form
from buildlog.builds.views.joint import JointChange, joint_edit, joint_of
from calculators.planning import model as plain
from calculators.planning.documents import Name
from calculators.planning.lines import write_places
from calculators.planning.model import Joint, StackMember
from calculators.quantities.errors import InputError

FIRST_PLACES = 200
MOST_OFFERED = 200
"""The most marks that a field offers while one types."""


@require_http_methods(["GET", "HEAD", "POST"])
def change(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Change what a joint is, how its head sits, how it is driven and locked, and how many there are."""
    row = row_of(request, number)
    one = joint_of(row, mark)
    unit, draft = plain_of(row).unit, f"{number}/joints/{mark}/change"
    form = JointForm(request.POST if request.method == "POST" else None, initial=JointForm.of(one), unit=unit)
    found = _posted(
        request, row, one, form, lambda build, joint: replace(joint, **form.cleaned_data), draft,
        lambda joint: JointForm(initial=JointForm.of(joint), unit=unit),
    )  # fmt: skip
    if isinstance(found, HttpResponse):
        return found
    context = {"joint": one, "form": form, "conflict": found, "draft": draft}
    return _show(request, row, one, "builds/joint_change.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def places(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Say where a joint is; every other part's places follow."""
    row = row_of(request, number)
    one = joint_of(row, mark)
    unit, draft = plain_of(row).unit, f"{number}/joints/{mark}/places"

    def initial(joint: Joint) -> dict[str, Any]:
        shown = write_places(joint.places, unit).replace("; ", "\n")
        return {"home": joint.home, "face": joint.face, "places": shown}

    def placed(build: plain.Build, joint: Joint) -> Joint:
        data = form.cleaned_data
        return read_places(data["places"], build, joint, data["home"], data["face"])

    form = PlacesForm(request.POST if request.method == "POST" else None, initial=initial(one), unit=unit)
    found = _posted(
        request, row, one, form, placed, draft, lambda joint: PlacesForm(initial=initial(joint), unit=unit),
        fields={"line": "places", "text": "places", "part": "home"},
    )  # fmt: skip
    if isinstance(found, HttpResponse):
        return found
    rows = place_rows(worked_of(row), one)
    context = home_plan(worked_of(row), one) | {
        "joint": one,
        "form": form,
        "conflict": found,
        "draft": draft,
        "places": rows[:FIRST_PLACES],
        "places_left_out": max(0, len(rows) - FIRST_PLACES),
    }
    return _show(request, row, one, "builds/joint_places.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def member(request: HttpRequest, workshop: str, number: str, mark: str, index: int) -> HttpResponse:
    """Decide about one member of a stack, and about the hole in its layer; an index past the end adds one."""
    row = row_of(request, number)
    one = joint_of(row, mark)
    if index > len(one.stack):
        raise Http404(f"{mark} has no member {index}")
    unit, draft = plain_of(row).unit, f"{number}/joints/{mark}/stack/{index}"
    now = one.stack[index] if index < len(one.stack) else StackMember(part=_asked(request))
    sent = request.POST if request.method == "POST" else None
    form = MemberForm(sent, initial=MemberForm.of(now), unit=unit)
    old = [HoleForm.of(hole) for hole in now.holes]
    holes = HoleForms(sent, initial=old, prefix="hole", form_kwargs={"unit": unit})
    sound = sent is None or holes.is_valid()

    def decided(build: plain.Build, joint: Joint) -> Joint:
        kept = [each for each in holes.forms if each not in holes.deleted_forms and not each.is_blank]
        new = StackMember(**form.cleaned_data, holes=tuple(each.record() for each in kept))
        return put_member(joint, index, new) if index < len(joint.stack) else add_member(build, joint, new)

    found = None
    if sound:
        found = _posted(
            request, row, one, form, decided, draft,
            lambda joint: MemberForm(initial=MemberForm.of(_member_of(joint, index)), unit=unit),
        )  # fmt: skip
    if isinstance(found, HttpResponse):
        return found
    if found is not None:
        found = replace(
            found, same=(*found.same, *(each for hole in [holes.management_form, *holes] for each in hole))
        )
    context = {
        "joint": one,
        "form": form,
        "holes": holes,
        "index": index,
        "now": now,
        "conflict": found,
        "draft": draft,
    }
    return _show(request, row, one, "builds/joint_member.html", context)


def _asked(request: HttpRequest) -> str:
    """The part that a new member is to be."""
    return request.GET.get("part", "")[:40]


def _member_of(joint: Joint, index: int) -> StackMember:
    return joint.stack[index] if index < len(joint.stack) else StackMember()


@require_POST
def order(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Move a member of a stack nearer to the head or farther from it, or take it out."""
    row = row_of(request, number)
    joint_of(row, mark)
    asked, do = request.POST.get("index", ""), request.POST.get("do", "")
    index = int(asked) if asked.isascii() and asked.isdigit() and len(asked) < 4 else -1
    changes: dict[str, JointChange] = {
        "up": lambda _, joint: move_member(joint, index, -1),
        "down": lambda _, joint: move_member(joint, index, 1),
        "remove": lambda _, joint: put_member(joint, index, None),
    }
    printed = request.POST.get("seen", "")
    try:
        if do not in changes:
            raise InputError.of("A member of the stack is moved up, moved down or taken out.")
        seen: dict[Name, str] = {("joint", mark): printed} if printed else {}
        save_and_say(request, row, joint_edit(mark, changes[do]), told_of(mark), seen=seen)
    except (InputError, Overtaken) as error:
        messages.error(request, f"Nothing was changed. {error}")
    return HttpResponseRedirect(f"{address_of(request, row, 'joint', mark)}#stack")


def _posted(
    request: HttpRequest,
    row: Build,
    one: Joint,
    form: forms.Form,
    changed: JointChange,
    draft: str,
    theirs: Callable[[Joint], forms.BaseForm],
    fields: dict[str, str] | None = None,
) -> HttpResponse | Conflict | None:
    """Save what a form of a joint sent, and go back to the joint; else what is to be shown of it."""
    if request.method != "POST":
        return None
    back = HttpResponseRedirect(address_of(request, row, "joint", one.mark))
    if keeps_theirs(request, draft):
        return back
    if not form.is_valid():
        return None
    found = save_form(
        request, row, form, joint_edit(one.mark, changed), told_of(one.mark), seen=("joint", one.mark),
        theirs=theirs, draft=draft, fields=fields,
    )  # fmt: skip
    if found is None or isinstance(found, Conflict):
        return found
    return HttpResponseRedirect(address_of(request, row, "joint", form.cleaned_data.get("mark", one.mark)))


def _show(
    request: HttpRequest, row: Build, one: Joint, template: str, context: dict[str, Any]
) -> HttpResponse:
    """The page of a form: with what was sent where it could not be taken."""
    sent = request.method == "POST"
    context["seen"] = request.POST.get("seen", "") if sent else fingerprint("joint", one)
    context["marks"] = [component.mark for component in plain_of(row).components[:MOST_OFFERED]]
    return show(request, row, "joints", template, context, status=422 if sent else 200)
