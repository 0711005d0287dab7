"""A calculation kept, changed, copied and taken out; each change can be undone."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from django import forms
from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.utils.html import format_html
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from buildlog.builds.actions import Overtaken, Saved, fingerprint
from buildlog.builds.conflicts import Conflict, ConflictField, conflict_of
from buildlog.builds.forms import add_faults
from buildlog.builds.models import Build
from buildlog.builds.page import of_workshop, row_of, show
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.saying import keeps_theirs, save_and_say
from buildlog.calculations.entering import Entering, begun, inputs_in, sent, sizes_offered
from buildlog.calculations.forms import limits_in_words
from buildlog.calculations.views.reading import calculation_of
from calculators.calculation import Calculator
from calculators.catalogue import by_purpose, find_calculator, names
from calculators.planning import model as plain
from calculators.planning.documents import Name
from calculators.planning.edits import compare_builds, duplicate, find, put, remove, taken_along
from calculators.planning.lines.marks import next_mark
from calculators.planning.ties import size_text
from calculators.quantities.errors import InputError


@require_safe
def choose(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """List the calculators, of which one is to be kept in the build."""
    row = row_of(request, number)
    return show(
        request, row, "calculations", "calculations/calculation_choose.html", {"purposes": by_purpose()}
    )


@require_http_methods(["GET", "HEAD", "POST"])
def new(request: HttpRequest, workshop: str, number: str, name: str) -> HttpResponse:
    """Show the form of a calculator within the build, with the inputs of the address; keep it."""
    row = row_of(request, number)
    if name not in names():
        raise Http404("no such calculator")
    calculator = find_calculator(name)
    if request.method != "POST":
        title = calculator.name.replace("-", " ").capitalize()
        one = plain.Calculation("", title, calculator.name, inputs_in(calculator, request.GET))
        return _show(request, row, begun(calculator, one, is_sent=bool(one.inputs)), None)
    entering = sent(calculator, worked_of(row), None, request.POST)
    one_sent = entering.calculation
    if one_sent is None:
        return _show(request, row, entering, None)
    made: list[str] = []

    def edit(build: plain.Build) -> plain.Build:
        mark = one_sent.mark or next_mark(build, "calculation")
        made.append(mark)
        return put(build, "calculation", replace(one_sent, mark=mark))

    try:
        save_and_say(
            request,
            row,
            edit,
            lambda _, after: f"{made[-1]} {find(after, 'calculation', made[-1]).title} is kept",
            draft=_draft(row, f"new-{name}"),
        )
    except InputError as error:
        add_faults(entering.kept, error)
        return _show(request, row, entering, None)
    return HttpResponseRedirect(_address(request, row, "calculation", made[-1]))


@require_http_methods(["GET", "HEAD", "POST"])
def change(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Show the form of a kept calculation, or save it."""
    row = row_of(request, number)
    one = calculation_of(row, mark)
    try:
        calculator = find_calculator(one.calculator)
    except InputError as error:
        messages.error(request, str(error))
        return HttpResponseRedirect(_address(request, row, "calculation", mark))
    if request.method != "POST":
        return _show(request, row, begun(calculator, one, is_sent=True), one)
    if keeps_theirs(request, _draft(row, mark)):
        return HttpResponseRedirect(_address(request, row, "calculation", mark))
    entering = sent(calculator, worked_of(row), one, request.POST)
    if entering.calculation is None:
        return _show(request, row, entering, one)
    found = _save(request, row, entering, one, entering.calculation)
    if isinstance(found, Saved):
        there = entering.calculation.mark
        return HttpResponseRedirect(_address(request, row, "calculation", there))
    return _show(request, row, entering, one, conflict=found)


def _save(
    request: HttpRequest, row: Build, entering: Entering, one: plain.Calculation, new: plain.Calculation
) -> Saved | Conflict | None:
    printed = request.POST.get("seen", "")
    seen: dict[Name, str] = {("calculation", one.mark): printed} if printed else {}
    try:
        return save_and_say(
            request,
            row,
            lambda build: put(build, "calculation", new, key=one.mark),
            _says(one.mark, new.mark),
            seen=seen,
            draft=_draft(row, one.mark),
        )
    except InputError as error:
        add_faults(entering.kept, error)
    except Overtaken as error:
        if error.theirs is None:
            entering.kept.add_error(None, f"{error} It is gone.")
            return None
        return _both(entering, error, new)
    return None


def _says(old: str, new: str) -> Any:
    """Which fields were changed, in one sentence."""

    def says(before: plain.Build, after: plain.Build) -> str:
        one = find(after, "calculation", new)
        was = replace(find(before, "calculation", old), mark=new)
        changes = compare_builds(
            plain.Build("", "", calculations=(was,)), plain.Build("", "", calculations=(one,))
        )
        told = [f"{each.field.replace('_', ' ')} {each.new}".strip()[:60] for each in changes[:4]]
        more = f" and {len(changes) - 4} more" if len(changes) > 4 else ""
        renamed = f"{new} is the new mark of {old}" if new != old else f"{new} {one.title}"
        return f"{renamed}: {', '.join(told)}{more}" if told else renamed

    return says


def _both(entering: Entering, error: Overtaken, mine: plain.Calculation) -> Conflict:
    """Both versions: fields, rows, ties and limits of theirs beside one's own."""
    theirs: plain.Calculation = error.theirs
    other = begun(entering.calculator, theirs, is_sent=True)
    for name in {*entering.ties.fields} ^ {*other.ties.fields}:
        for form in (entering.ties, other.ties):
            form.fields.setdefault(name, forms.CharField(required=False, label=name))
    found = conflict_of(
        error, [(entering.kept, other.kept), (entering.form, other.form), (entering.ties, other.ties)]
    )
    fields = list(found.fields)
    for each in entering.calculator.inputs:
        if each.name in entering.form.fields:
            continue
        text, their_text = dict(mine.inputs).get(each.name, ""), dict(theirs.inputs).get(each.name, "")
        area = format_html(
            '<textarea name="{}" rows="4" aria-label="Your {}">{}</textarea>', each.name, each.label, text
        )
        fields.append(ConflictField(each.label.capitalize(), their_text, area))
    said = format_html("<p>{}</p>", limits_in_words(mine.limits) or "none")
    fields.append(ConflictField("Limits", limits_in_words(theirs.limits), said))
    limits = [each for form in [entering.limits.management_form, *entering.limits] for each in form]
    return replace(found, fields=tuple(fields), same=(*found.same, *limits))


@require_POST
def copy(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Copy a calculation under the next free mark, and go to it."""
    row = row_of(request, number)
    calculation_of(row, mark)
    try:
        _, made = duplicate(plain_of(row), "calculation", mark)
        save_and_say(
            request,
            row,
            lambda build: duplicate(build, "calculation", mark)[0],
            f"{made} was copied from {mark}",
        )
    except InputError as error:
        messages.error(request, f"Nothing was changed. {error}")
        return HttpResponseRedirect(_address(request, row, "calculation", mark))
    return HttpResponseRedirect(_address(request, row, "calculation", made))


@require_POST
def take_out(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Remove a calculation; it can be undone."""
    row = row_of(request, number)
    one = calculation_of(row, mark)
    try:
        along = taken_along(plain_of(row), "calculation", mark)
        says = " ".join([f"{mark} {one.title} was removed", *(f"({sentence})" for sentence in along[:3])])
        printed = request.POST.get("seen", "")
        seen: dict[Name, str] = {("calculation", mark): printed} if printed else {}
        save_and_say(request, row, lambda build: remove(build, "calculation", mark), says, seen=seen)
    except (InputError, Overtaken) as error:
        messages.error(request, f"Nothing was changed. {error}")
        return HttpResponseRedirect(_address(request, row, "calculation", mark))
    return HttpResponseRedirect(_address(request, row, "calculations"))


def _draft(row: Build, what: str) -> str:
    return f"{row.number}/calculations/{what}"


def _address(request: HttpRequest, row: Build, name: str, *args: object) -> str:
    return reverse(f"calculations:{name}", args=(of_workshop(request).workshop.slug, row.number, *args))


def _show(
    request: HttpRequest, row: Build, entering: Entering, one: plain.Calculation | None, **more: Any
) -> HttpResponse:
    """The page of the form, with what was sent where it could not be taken."""
    was_sent = request.method == "POST"
    calculator: Calculator = entering.calculator
    seen = request.POST.get("seen", "") if was_sent else fingerprint("calculation", one)
    context = {
        "one": one,
        "calculator": calculator,
        "entering": entering,
        "sizes": [(tie, size_text(length)) for tie, length in sizes_offered(worked_of(row))],
        "seen": seen,
        "draft": _draft(row, one.mark if one else f"new-{calculator.name}"),
        **more,
    }
    status = 422 if was_sent and not entering.asks_rows else 200
    return show(request, row, "calculations", "calculations/calculation_change.html", context, status=status)
