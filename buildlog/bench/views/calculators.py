"""The calculators: their list, and one with its form and its worked example."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from django.http import Http404, HttpRequest, HttpResponse, JsonResponse, QueryDict
from django.shortcuts import render
from django.views.decorators.http import require_safe

from buildlog.bench.forms import CalculatorForm, entries, folded
from buildlog.workshops.door import open_to_all
from calculators.calculation import Calculator, Result
from calculators.calculation.answering import answer, as_json, pictures_of
from calculators.calculation.asking import command, given_lines
from calculators.calculation.both_systems import shown_results, shown_steps
from calculators.catalogue import by_purpose, find_calculator, names
from calculators.quantities.errors import Fault, InputError

LONGEST = 20_000
"""No address with more characters of inputs is worked with."""

_OWN = ("format",)
"""What an address says beside the inputs."""


@open_to_all
@require_safe
def index(request: HttpRequest) -> HttpResponse:
    """List the calculators by what one wants to do."""
    return render(request, "bench/index.html", {"purposes": by_purpose()})


@open_to_all
@require_safe
def calculator(request: HttpRequest, name: str) -> HttpResponse:
    """Show one calculator: its form, and its answer or its faults where inputs were given."""
    if name not in names():
        raise Http404("no such calculator")
    found = find_calculator(name)
    given = _given(request.GET)
    was_sent = any(key not in _OWN for key in request.GET)
    result, faults = _worked(found, given, request) if was_sent or "format" in request.GET else (None, ())
    if request.GET.get("format") == "json":
        return _in_json(found, given, result, faults)
    form = CalculatorForm(found, given if was_sent else None, faults)
    first, further, is_open = folded(form, entries(form, given))
    context: dict[str, Any] = {
        "calculator": found,
        "form": form,
        "first": first,
        "further": further,
        "is_open": is_open,
        "example": urlencode(found.example or {}),
    }
    if result is not None:
        context |= _worked_example(found, given, result)
    return render(request, "bench/calculator.html", context, status=422 if faults else 200)


def _given(query: QueryDict) -> dict[str, str]:
    """The inputs of an address; an empty one is one that was left out."""
    given = ((name, str(text)) for name, text in query.items() if name not in _OWN)
    return {name: text for name, text in given if text.strip()}


def _worked(
    found: Calculator, given: dict[str, str], request: HttpRequest
) -> tuple[Result | None, tuple[Fault, ...]]:
    if sum(map(len, (*given, *given.values()))) > LONGEST:
        says = f"The inputs are longer than the {LONGEST} characters that are read; write less."
        return None, (Fault(says),)
    try:
        return answer(found, given), ()
    except InputError as error:
        return None, error.faults


def _in_json(
    found: Calculator, given: dict[str, str], result: Result | None, faults: tuple[Fault, ...]
) -> HttpResponse:
    if result is not None:
        return JsonResponse(as_json(found, given, result))
    told = [{"field": each.field, "says": each.says, "choices": each.choices} for each in faults]
    return JsonResponse({"faults": told}, status=422)


def _worked_example(found: Calculator, given: dict[str, str], result: Result) -> dict[str, Any]:
    return {
        "result": result,
        "given": given_lines(found, given),
        "steps": shown_steps(result),
        "shown": shown_results(result),
        "pictures": pictures_of(found, given, result),
        "warnings": [says for says in result.warnings if says not in found.cautions],
        "link": urlencode(given),
        "command": command(found, given),
    }
