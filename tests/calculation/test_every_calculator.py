"""Every calculator, whatever it is given: an answer that is whole, or a sentence for each thing that is wrong."""

from __future__ import annotations

import json
import math
import re
from collections import Counter
from xml.etree import ElementTree

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from buildlog.plain_files import sentence
from calculators.calculation import Calculator
from calculators.calculation.answering import answer, as_json, as_text, pictures_of
from calculators.calculation.asking import command, given_lines
from calculators.calculation.both_systems import shown_results, shown_steps
from calculators.calculation.result import Result
from calculators.catalogue import all_calculators
from calculators.quantities.errors import InputError
from tests.calculation.plausible import inputs_of

EVERY = {each.name: each for each in all_calculators()}
EXAMPLES = 100 if settings.default.derandomize else 400
"""For each calculator: few in the accepted run, more when a person starts it."""


def numbers_in(value: object) -> list[float]:
    if isinstance(value, dict):
        return [number for item in value.values() for number in numbers_in(item)]
    if isinstance(value, list | tuple):
        return [number for item in value for number in numbers_in(item)]
    return [value] if isinstance(value, float | int) and not isinstance(value, bool) else []


def assert_whole(result: Result) -> None:
    """Nothing in a result is without end, and no spread is negative."""
    for one in result.results.values():
        assert all(math.isfinite(number) for number in numbers_in(one.value))
        assert one.spread is None or (math.isfinite(one.spread) and one.spread > 0)
    for step in result.working:
        assert math.isfinite(step.value), step
        assert step.spread is None or (math.isfinite(step.spread) and step.spread > 0), step
        assert step.symbol
    for says in result.warnings:
        assert says.rstrip().endswith((".", "!", "?")), says


def assert_drawn(calculator: Calculator, values: dict[str, object], result: Result) -> int:
    """Every picture is whole SVG with a title and words for who does not see it."""
    pictures = pictures_of(calculator, values, result)
    for each in pictures:
        for svg in (each.svg, *([each.narrow] if each.narrow else [])):
            root = ElementTree.fromstring(svg)
            assert root.tag.endswith("svg")
            title, description = (
                root.find(f"{{http://www.w3.org/2000/svg}}{name}") for name in ("title", "desc")
            )
            assert title is not None
            assert title.text
            assert description is not None
            assert description.text
            assert not re.search(r'[" ,](nan|inf|-inf)[" ,]', svg)
            # No line and no lettering lies off the sheet so far that a coordinate was wrong by magnitudes.
            assert all(abs(float(n)) < 1e5 for n in re.findall(r'(?:x|y|cx|cy|r)="(-?[\d.]+)"', svg))
    return len(pictures)


def assert_sentences(calculator: Calculator, error: InputError) -> None:
    names = {each.name for each in calculator.inputs}
    for fault in error.faults:
        assert fault.says.endswith("."), fault.says
        assert len(fault.says) < 1000
        assert "\n" not in fault.says
        name = re.split(r"[.\[]", fault.field)[0]
        assert fault.field == "" or name in names, fault
        words = [word for each in calculator.inputs for word in (each.name, each.label)]
        told = sentence(fault).lower()
        assert fault.field or any(word in told for word in words) or "no input" in told, fault


@pytest.mark.parametrize("calculator", EVERY.values(), ids=list(EVERY))
def test_whatever_is_given_there_is_a_whole_answer_or_sentences(calculator: Calculator) -> None:
    seen: Counter[str] = Counter()

    @settings(max_examples=EXAMPLES, suppress_health_check=list(HealthCheck), deadline=None)
    @given(data=st.data())
    def try_it(data: st.DataObject) -> None:
        values = data.draw(inputs_of(calculator))
        try:
            result = answer(calculator, values)
        except InputError as error:
            assert_sentences(calculator, error)
            seen["refused"] += 1
            return
        seen["answered"] += 1
        assert_whole(result)
        assert_drawn(calculator, values, result)
        shape = as_json(calculator, values, result)
        json.loads(json.dumps(shape, allow_nan=False))
        assert as_text(calculator, values, result)
        assert shown_results(result)
        assert len(shown_steps(result)) == len(result.working)
        assert given_lines(calculator, values)
        assert command(calculator, values).startswith("manage.py calc ")

    try_it()
    # The strategy must reach what lies behind the reading, and the refusals too.
    assert seen["answered"] >= EXAMPLES / 20, seen
    assert seen["refused"] > 0, seen


@pytest.mark.parametrize("calculator", EVERY.values(), ids=list(EVERY))
def test_the_same_inputs_give_the_same_answer_and_its_pictures_are_drawn(calculator: Calculator) -> None:
    example = dict(calculator.example or {})
    first, second = answer(calculator, example), answer(calculator, example)
    assert as_json(calculator, example, first) == as_json(calculator, example, second)
    assert_whole(first)
    drawn = assert_drawn(calculator, example, first)
    assert bool(drawn) == (calculator.draw is not None)
