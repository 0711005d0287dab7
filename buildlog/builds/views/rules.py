"""The rules of the check and their limits: of a build, and of the workshop's new builds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import urlencode
from django.views.decorators.http import require_http_methods

from buildlog.builds.header_forms import habits_of
from buildlog.builds.house_rules import decided
from buildlog.builds.models import Build
from buildlog.builds.page import of_workshop, row_of, show
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.rule_rows import ONLY, Refused, rule_names, rules_of
from buildlog.builds.saying import save_and_say
from buildlog.workshops.actions import change_habits
from buildlog.workshops.door import for_owners
from buildlog.workshops.models import Workshop
from calculators.joints.model import Finding
from calculators.planning.documents import read_context, write_context
from calculators.quantities.errors import InputError

_UNDO = "habits of rules"


@require_http_methods(["GET", "HEAD", "POST"])
def rules(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """List every rule with its limits as they hold in a build; set one, or switch one off."""
    row = row_of(request, number)
    if request.method != "POST":
        return _show(request, row)
    try:
        decide, says = decided(request.POST, plain_of(row).context)
        save_and_say(request, row, lambda build: replace(build, context=decide(build.context)), says)
    except InputError as error:
        return _show(request, row, _refused(request, error))
    here = reverse("builds:rules", args=(workshop, number))
    return HttpResponseRedirect(f"{here}{_place(request)}")


def _show(request: HttpRequest, row: Build, refused: Refused | None = None) -> HttpResponse:
    worked = worked_of(row)
    findings: Sequence[Finding] = (*worked.findings, *(one for one, _ in worked.accepted))
    context = {
        "rules": rules_of(worked.build.context, findings, request.GET, refused),
        "only": ONLY,
        "refused": refused,
        "of_build": True,
    }
    return show(request, row, "check", "builds/rules.html", context, status=422 if refused else 200)


@for_owners
@require_http_methods(["GET", "HEAD", "POST"])
def habits(request: HttpRequest, workshop: str) -> HttpResponse:
    """List every rule with its limits as new builds begin with them; set one, or switch one off."""
    here = of_workshop(request).workshop
    now = habits_of(here)
    refused = None
    if request.POST.get("do") == "undo":
        return _undo_habits(request, here)
    if request.method == "POST":
        try:
            decide, says = decided(request.POST, now)
            document = write_context(decide(now))
            read_context(document)
        except InputError as error:
            refused = _refused(request, error)
        else:
            request.session[_UNDO] = [here.slug, here.habits, document, says]
            change_habits(here, document)
            messages.success(request, f"{says}. New builds of {here.name} begin with it.")
            return redirect(f"{reverse('builds-of:rules', args=(here.slug,))}{_place(request)}")
    context = {
        "rules": rules_of(now, (), request.GET, refused),
        "only": ONLY[:1],
        "refused": refused,
        "last": _last_of_habits(request, here),
    }
    return render(request, "builds/habits_rules.html", context, status=422 if refused else 200)


def _last_of_habits(request: HttpRequest, workshop: Workshop) -> list[str] | None:
    """What this person decided last, as long as the habits are as that left them."""
    last: list[str] | None = request.session.get(_UNDO)
    return last if last is not None and last[0] == workshop.slug and last[2] == workshop.habits else None


def _undo_habits(request: HttpRequest, workshop: Workshop) -> HttpResponse:
    last = _last_of_habits(request, workshop)
    if last is None:
        messages.error(request, "There is nothing of yours to undo here, or it was changed since.")
    else:
        change_habits(workshop, last[1])
        messages.success(request, f"Undone: {last[3]}.")
    request.session.pop(_UNDO, None)
    return redirect("builds-of:rules", workshop.slug)


def _refused(request: HttpRequest, error: InputError) -> Refused:
    sent = request.POST
    is_limit = "value" in sent  # the form of a limit has one, that of a rule a reason
    typed = sent.get("value" if is_limit else "reason", "")[:20_000]
    says = " ".join(one.says for one in error.faults)
    return Refused(sent.get("name", "")[:200], typed, says, is_limit)


def _place(request: HttpRequest) -> str:
    """The query and the fragment with which one comes back to the same rule of the same list."""
    asked = [(name, request.GET[name][:200]) for name in ("find", "only") if request.GET.get(name)]
    query = f"?{urlencode(asked)}" if asked else ""
    rule = request.POST.get("rule", "")
    return f"{query}#rule-{rule}" if rule in rule_names() else query
