"""The calculators: their list, and one with its form and its worked example."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from buildlog.bench.forms import CalculatorForm, entries, folded
from buildlog.bench.rows import MORE, address_of, blanks_asked, given_in
from buildlog.workshops.door import open_to_all
from calculators.calculation import Calculator, Result
from calculators.calculation.answering import answer, as_json, pictures_of
from calculators.calculation.asking import command, given_lines
from calculators.calculation.both_systems import Shown, shown_results, shown_steps
from calculators.catalogue import by_purpose, find_calculator, names
from calculators.quantities.errors import Fault, InputError
from calculators.reference import words_of_calculators

LONGEST = 20_000
"""No address with more characters of inputs is worked with."""

_OWN = ("format", MORE)
"""What an address says beside the inputs."""


@open_to_all
@require_safe
def index(request: HttpRequest) -> HttpResponse:
    """List the calculators by what one wants to do."""
    words = words_of_calculators()
    purposes = [(purpose, [(each, words[each.name]) for each in those]) for purpose, those in by_purpose()]
    return render(request, "bench/index.html", {"purposes": purposes})


@open_to_all
@require_safe
def calculator(request: HttpRequest, name: str) -> HttpResponse:
    """Show one calculator: its form, and its answer or its faults where inputs were given."""
    if name not in names():
        raise Http404("no such calculator")
    found = find_calculator(name)
    given = given_in(request.GET, found, _OWN)
    was_sent = any(key not in _OWN for key in request.GET)
    is_asked = (was_sent or "format" in request.GET) and MORE not in request.GET
    result, faults = _worked(found, given, request) if is_asked else (None, ())
    if request.GET.get("format") == "json":
        return _in_json(found, given, result, faults)
    wanted = {each.name: blanks_asked(request.GET, each) for each in found.inputs if each.kind == "rows"}
    form = CalculatorForm(found, given if was_sent else None, faults, wanted)
    all_entries = entries(form, given)
    first, further, is_open = folded(form, all_entries)
    context: dict[str, Any] = {
        "calculator": found,
        "form": form,
        "rows": [each.rows for each in all_entries if each.rows],
        "first": first,
        "further": further,
        "further_count": sum(len(each.entries) for each in further),
        "is_open": is_open,
        "takes_spreads": not found.own_reader and any(each.kind in _MEASURED for each in found.inputs),
        "example": address_of(found.example or {}),
    }
    if result is not None:
        context |= worked_example(found, given, result)
    return render(request, "bench/calculator.html", context, status=422 if faults else 200)


_MEASURED = ("length", "quantity", "number")


def _worked(
    found: Calculator, given: dict[str, object], request: HttpRequest
) -> tuple[Result | None, tuple[Fault, ...]]:
    if sum(len(name) + len(text) for name, text in request.GET.items()) > LONGEST:
        says = f"The inputs are longer than the {LONGEST} characters that are read; write less."
        return None, (Fault(says),)
    try:
        return _remembered(found.name, json.dumps(given)).result, ()
    except InputError as error:
        return None, error.faults


@dataclass(frozen=True)
class _Worked:
    """What a calculator answers to inputs, and how it stands on the page."""

    result: Result
    parts: dict[str, Any]


@lru_cache(maxsize=64)
def _remembered(name: str, inputs: str) -> _Worked:
    """Work with inputs, which are JSON; the same inputs have the same answer, which is not made twice."""
    found, given = find_calculator(name), json.loads(inputs)
    result = answer(found, given)
    return _Worked(result, _parts(found, given, result))


def _parts(found: Calculator, given: dict[str, object], result: Result) -> dict[str, Any]:
    shown = shown_results(result)
    blocks, further_blocks = _blocks(shown)
    told = {*found.cautions, *(each.get("says") for one in shown for each in one.findings)}
    return {
        "result": result,
        "given": given_lines(found, given),
        "steps": shown_steps(result),
        "blocks": blocks,
        "further_blocks": further_blocks,
        "pictures": pictures_of(found, given, result),
        "warnings": [says for says in result.warnings if says not in told],
        "has_spreads": not found.own_spread
        and any(each.spread for those in (result.results.values(), result.working) for each in those),
    }


def _in_json(
    found: Calculator, given: dict[str, object], result: Result | None, faults: tuple[Fault, ...]
) -> HttpResponse:
    if result is not None:
        return JsonResponse(as_json(found, given, result))
    told = [{"field": each.field, "says": each.says, "choices": each.choices} for each in faults]
    return JsonResponse({"faults": told}, status=422)


FIRST_RESULTS = 8
"""Of many results the first few stand above what is to be minded and the pictures, the others below."""


def _blocks(shown: Iterable[Shown]) -> tuple[list[tuple[str, Any]], list[tuple[str, Any]]]:
    """The results in their order, and of many those that stand further down.

    Tables and findings stand alone, all others that follow one another in one.
    """
    every = list(shown)
    first = len(every) if len(every) <= FIRST_RESULTS + 4 else FIRST_RESULTS
    return _in_blocks(every[:first]), _in_blocks(every[first:])


def _in_blocks(shown: Iterable[Shown]) -> list[tuple[str, Any]]:
    blocks: list[tuple[str, Any]] = []
    for each in shown:
        if each.table is not None:
            blocks.append(("table", each))
        elif each.findings:
            blocks.append(("findings", each))
        elif blocks and blocks[-1][0] == "plain":
            blocks[-1][1].append(each)
        else:
            blocks.append(("plain", [each]))
    return blocks


def worked_example(found: Calculator, given: dict[str, object], result: Result) -> dict[str, Any]:
    """What `bench/_worked.html` needs of a result besides the calculator."""
    try:
        worked = _remembered(found.name, json.dumps(given))
    except (InputError, TypeError):  # a result of other inputs, or inputs that no address carries
        worked = None
    parts = worked.parts if worked and worked.result == result else _parts(found, given, result)
    return {**parts, "link": address_of(given), "command": command(found, given)}
