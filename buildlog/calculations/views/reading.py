"""Side K, the kept calculations: their list, and one worked with the sizes of today."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_safe

from buildlog.bench.views.calculators import worked_example
from buildlog.builds.actions import fingerprint
from buildlog.builds.listing import listing
from buildlog.builds.models import Build
from buildlog.builds.page import row_of, show
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.showing import show_findings
from buildlog.calculations.rows import ORDERS, KeptRow, changes_of, kept_rows
from calculators.catalogue import find_calculator
from calculators.planning import model as plain
from calculators.planning.edits import find
from calculators.planning.tied_inputs import TiedInput
from calculators.planning.ties import mark_of_tie
from calculators.quantities.errors import InputError


@require_safe
def calculations(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """List the calculations that are kept with a build."""
    row = row_of(request, number)
    rows = kept_rows(worked_of(row))
    context = {"list": listing(request.GET, rows, words=KeptRow.words, orders=ORDERS)}
    return show(request, row, "calculations", "calculations/calculation_list.html", context)


def calculation_of(row: Build, mark: str) -> plain.Calculation:
    """The kept calculation with this mark; Http404 where there is none."""
    try:
        found: plain.Calculation = find(plain_of(row), "calculation", mark)
    except InputError:
        raise Http404(f"no calculation {mark}") from None
    return found


def _ties(build: plain.Build, ties: tuple[TiedInput, ...]) -> list[tuple[TiedInput, str, bool]]:
    """Each tie with the mark that it leads to, and whether that is a joint's."""
    joints = {one.mark for one in build.joints}
    return [(one, mark := mark_of_tie(one.tie), mark in joints) for one in ties]


@require_safe
def calculation(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Show one calculation: what it hangs on, old and new side by side, its limits, its worked example."""
    row = row_of(request, number)
    one = calculation_of(row, mark)
    worked = worked_of(row)
    found = next(each for each in kept_rows(worked) if each.calculation.mark == mark)
    findings = [
        each for each in worked.findings if each.rule.startswith("calculation-") and each.part == mark
    ]
    context: dict[str, Any] = {
        "one": one,
        "kept": found,
        "worked": found.worked,
        "changes": changes_of(found.worked) if found.worked else (),
        "findings": show_findings(worked, findings),
        "ties": _ties(worked.build, found.worked.ties) if found.worked else (),
        "seen": fingerprint("calculation", one),
    }
    try:
        calculator = find_calculator(one.calculator)
    except InputError:
        calculator = None
    if calculator is not None:
        context |= {"calculator": calculator, "there": reverse("bench:calculator", args=[calculator.name])}
        if found.worked is not None and found.worked.now is not None:
            context |= worked_example(calculator, dict(found.worked.inputs), found.worked.now)
    return show(request, row, "calculations", "calculations/calculation.html", context)
