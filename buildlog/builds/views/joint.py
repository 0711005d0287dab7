"""The page of one joint: its drawing beside its numbers, its lines saved on Enter, others tried unsaved."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from django import forms
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.views.decorators.http import require_http_methods, require_safe

from buildlog.builds.actions import fingerprint
from buildlog.builds.component_page import tied_to
from buildlog.builds.conflicts import Conflict
from buildlog.builds.home_plan import home_plan
from buildlog.builds.joint_edits import read_stack, told_of, write_stack
from buildlog.builds.joint_forms import FastenerForm, StackForm, TryForm
from buildlog.builds.joint_rows import place_rows
from buildlog.builds.models import Build
from buildlog.builds.page import row_of, show
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.saying import address_of, keeps_theirs, save_form
from buildlog.builds.showing import FIRST_FINDINGS, FIRST_GROUPS, joint_groups, show_findings
from buildlog.builds.stacks_drawn import arrangement_links, stacks_drawn
from buildlog.builds.trying import offers, try_line, try_mend
from calculators.planning import model as plain
from calculators.planning.edits import find, finding_key, put, try_fastener
from calculators.planning.model import Joint
from calculators.quantities.errors import InputError

FIRST_PLACES = 100
"""The most lines of places that the page of a joint shows."""


@require_http_methods(["GET", "HEAD", "POST"])
def joint(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Show one joint, try something on it without saving (`?try=`, `?mend=`), or save one of its lines."""
    row = row_of(request, number)
    one = joint_of(row, mark)
    if request.method == "POST":
        return _save_line(request, row, one)
    if "try" in request.GET or "mend" in request.GET:
        return _try(request, row, one)
    return show_joint(request, row, one)


def joint_of(row: Build, mark: str) -> Joint:
    """The joint with this mark; Http404 where there is none."""
    try:
        found: Joint = find(plain_of(row), "joint", mark)
    except InputError:
        raise Http404(f"no joint {mark}") from None
    return found


def show_joint(
    request: HttpRequest, row: Build, one: Joint, *, status: int = 200, **more: Any
) -> HttpResponse:
    """The page of a joint; `more` has the forms that could not be taken, or two versions."""
    worked = worked_of(row)
    mark = one.mark
    findings = [finding for finding in worked.findings if finding.joint == mark]
    seen = [finding for finding in findings if finding_key(finding) == request.GET.get("see", "")]
    first = _first(request, sum(each.joint.mark == mark for each in worked.joints))
    places = place_rows(worked, one)
    unit = worked.build.unit
    context = {
        "joint": one,
        "groups": joint_groups(worked, mark, seen or findings, first),
        "group_pages": _group_pages(sum(each.joint.mark == mark for each in worked.joints), first),
        "count": sum(each.count for each in worked.joints if each.joint.mark == mark),
        "findings": show_findings(worked, findings[:FIRST_FINDINGS]),
        "left_out": max(0, len(findings) - FIRST_FINDINGS),
        "see": seen[0] if seen else None,
        "let_stand": sum(finding.joint == mark for finding, _ in worked.accepted),
        "places": places[:FIRST_PLACES],
        "places_left_out": max(0, len(places) - FIRST_PLACES),
        "fastener_form": FastenerForm(initial={"fastener": one.fastener}),
        "stack_form": StackForm(initial={"stack": write_stack(one.stack, unit)}),
        "try_form": TryForm(auto_id="%s"),
        "stacks": stacks_drawn(worked, mark, request.GET.get("stack", ""), first),
        "arrangements": arrangement_links(request.GET.get("stack", ""), first),
        "tied": tied_to(worked, mark),
        **home_plan(worked, one),
        "seen": fingerprint("joint", one),
        "draft": f"{row.number}/joints/{mark}",
    }
    return show(request, row, "joints", "builds/joint.html", context | more, status=status)


def _first(request: HttpRequest, groups: int) -> int:
    """From which group of places on the page shows them."""
    asked = request.GET.get("from", "")
    first = int(asked) if asked.isascii() and asked.isdigit() and len(asked) < 6 else 0
    return first if first < groups else 0


def _group_pages(groups: int, first: int) -> list[tuple[str, int, bool]]:
    """Links to the other groups of places of a joint: words, from where, whether it is the one shown."""
    if groups <= FIRST_GROUPS:
        return []
    starts = range(0, groups, FIRST_GROUPS)
    return [(f"{at + 1} to {min(at + FIRST_GROUPS, groups)}", at, at == first) for at in starts][:50]


def _save_line(request: HttpRequest, row: Build, one: Joint) -> HttpResponse:
    """Save the fastener or the stack, each one line."""
    name = "stack" if "stack" in request.POST else "fastener"
    draft = f"{row.number}/joints/{one.mark}/{name}"
    back = HttpResponseRedirect(address_of(request, row, "joint", one.mark))
    if keeps_theirs(request, draft):
        return back
    form: forms.Form = (StackForm if name == "stack" else FastenerForm)(request.POST)
    found: Any = None
    if form.is_valid():
        change, theirs = _line_change(name, form.cleaned_data[name], plain_of(row))
        found = save_form(
            request, row, form, joint_edit(one.mark, change), told_of(one.mark), seen=("joint", one.mark),
            theirs=theirs, draft=draft, fields={"item": name, "part": name, "stack": name},
        )  # fmt: skip
    if found is not None and not isinstance(found, Conflict):
        return back
    row = row_of(request, row.number)
    return show_joint(
        request, row, joint_of(row, one.mark), status=422, conflict=found,
        seen=request.POST.get("seen", ""), **{f"{name}_form": form},
    )  # fmt: skip


JointChange = Callable[[plain.Build, Joint], Joint]


def joint_edit(mark: str, change: JointChange) -> Callable[[plain.Build], plain.Build]:
    """An edit of a build that changes one joint of it, as it is then."""

    def edit(build: plain.Build) -> plain.Build:
        return put(build, "joint", change(build, find(build, "joint", mark)), key=mark)

    return edit


def _line_change(
    name: str, text: str, build: plain.Build
) -> tuple[JointChange, Callable[[Joint], forms.Form]]:
    """What a line changes in a joint, and the form of the joint as the others have it."""
    if name == "fastener":
        return (
            lambda here, joint: find(try_fastener(here, joint.mark, text), "joint", joint.mark),
            lambda joint: FastenerForm(initial={"fastener": joint.fastener}),
        )
    return (
        lambda here, joint: replace(joint, stack=read_stack(text, here, joint)),
        lambda joint: StackForm(initial={"stack": write_stack(joint.stack, build.unit)}),
    )


def _try(request: HttpRequest, row: Build, one: Joint) -> HttpResponse:
    """Show what another fastener, or a mend, would change in every part. Nothing is saved."""
    worked = worked_of(row)
    line, key = request.GET.get("try", "").strip(), request.GET.get("mend", "")
    try:
        trial = (
            try_line(worked, one.mark, line)
            if line
            else try_mend(worked, one.mark, key, request.GET.get("at", "0"))
        )
    except InputError as error:
        form = TryForm(request.GET, auto_id="%s")
        form.full_clean()
        form.add_error("try_" if line else None, [fault.says for fault in error.faults])
        choices = [choice for fault in error.faults for choice in fault.choices][:6]
        return show_joint(request, row, one, status=422, try_form=form, try_choices=choices if line else [])
    context = {
        "joint": one,
        "trial": trial,
        "try_form": TryForm({"try": line}, auto_id="%s") if line else TryForm(auto_id="%s"),
        "seen": fingerprint("joint", one),
        "others": offers(worked, one.mark),
    }
    return show(request, row, "joints", "builds/joint_try.html", context)


@require_safe
def others(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Show what else would do instead of a joint's fastener; htmx puts the list into the joint's page."""
    row = row_of(request, number)
    one = joint_of(row, mark)
    context = {"joint": one, "others": offers(worked_of(row), mark), "try_form": TryForm(auto_id="%s")}
    template = (
        "builds/_joint_others.html" if request.headers.get("HX-Request") else "builds/joint_others.html"
    )
    return show(request, row, "joints", template, context)
