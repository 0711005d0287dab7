"""Every calculator of the catalogue: its declaration holds, its example works, and no input breaks it."""

import json
import math

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.calculation.answering import answer, as_json, as_text, help_text
from calculators.catalogue import all_calculators, find_calculator, names
from calculators.quantities.errors import InputError
from calculators.quantities.nomenclature import NOMENCLATURE
from calculators.quantities.units import named_unit

EVERY = {each.name: each for each in all_calculators()}


# Where the results are not the same for every kind, an example of each other kind.
OTHER_KINDS = {
    "spring": (
        {
            "wire": "1 mm", "mean_diameter": "10 mm", "active_coils": "10", "material": "music-wire",
            "free_length": "90 mm", "working_length": "60 mm",
        },
        {
            "kind": "extension", "wire": "1 mm", "mean_diameter": "8 mm", "total_coils": "20",
            "material": "music-wire", "initial_tension": "6 N", "working_length": "50 mm",
        },
        {
            "kind": "torsion", "wire": "1 mm", "mean_diameter": "8 mm", "total_coils": "5",
            "material": "music-wire", "working_angle": "60 deg", "mandrel": "6 mm",
        },
    ),
}  # fmt: skip


def with_members(inputs):
    return [one for each in inputs for one in (each, *with_members(each.members))]


def numbers_in(value):
    if isinstance(value, dict):
        return [number for item in value.values() for number in numbers_in(item)]
    if isinstance(value, list):
        return [number for item in value for number in numbers_in(item)]
    return [value] if isinstance(value, float) else []


def test_the_catalogue_finds_each_by_its_name():
    assert tuple(EVERY) == names()
    with pytest.raises(InputError) as caught:
        find_calculator("tapping-dril")
    assert str(caught.value).startswith("There is no calculator 'tapping-dril'; did you mean tapping-drill")
    with pytest.raises(InputError) as caught:
        find_calculator("\ud800" * 1000)
    assert "; there are convert, nearest, thread, " in str(caught.value)


@pytest.mark.parametrize("calculator", EVERY.values(), ids=list(EVERY))
def test_the_declaration_holds(calculator):
    assert calculator.summary.endswith(".")
    assert len({each.name for each in calculator.inputs}) == len(calculator.inputs)
    assert set(calculator.outputs) <= set(NOMENCLATURE)
    assert calculator.sources
    every = with_members(calculator.inputs)
    assert all(each.unit == "" or named_unit(each.unit) for each in every)
    assert all(bool(each.choices) == (each.kind == "choice") for each in every)
    assert all(each.help and not each.help.endswith(".") for each in every)
    assert calculator.name in help_text(calculator)


@pytest.mark.parametrize("calculator", EVERY.values(), ids=list(EVERY))
def test_its_example_gives_every_result_with_the_unit_of_its_name(calculator):
    result = answer(calculator, calculator.example)
    others = [answer(calculator, example) for example in OTHER_KINDS.get(calculator.name, ())]
    missing = set(calculator.outputs) - set(result.results).union(*(other.results for other in others))
    assert missing <= {"engagement", "penetration", "protrusion"}
    assert set(result.results) <= set(calculator.outputs)
    for name, one in result.results.items():
        if name not in calculator.varying:
            assert one.unit == NOMENCLATURE[name].unit or isinstance(one.value, list | dict), name
    assert result.working
    assert result.sources
    assert all(math.isfinite(step.value) for step in result.working)
    shape = as_json(calculator, calculator.example, result)
    assert set(shape) == {"calculator", "inputs", "results", "working", "warnings", "sources"}
    assert json.loads(json.dumps(shape, allow_nan=False)) == shape


WORDS = [
    "M5", "1/4-28 UNF", "2 BA", "10-32", "#7", "F", "13/64", "5.1", "20", "4/0", "No. 8", "8", "metric", "imperial-standard",
    "swg", "64", "31.75 mm", "1 1/4 in", "53 in lbf", "N m", "in", "kg", "90", "0", "-1", "1e9", "999999", "0.0001", "1/0", "drill",
    "gauge", "fraction", "cutter", "inch-british", "number", "75", "",
]  # fmt: skip


@pytest.mark.parametrize("calculator", EVERY.values(), ids=list(EVERY))
@settings(max_examples=150, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(data=st.data())
def test_whatever_is_given_the_answer_is_finite_or_a_sentence(calculator, data):
    words = st.sampled_from(WORDS) | st.text(max_size=30) | st.floats() | st.integers() | st.none()
    values = data.draw(st.fixed_dictionaries({each.name: words for each in calculator.inputs}))
    try:
        result = answer(calculator, values)
    except InputError as error:
        assert_sentences(error)
    else:
        shape = as_json(calculator, {}, result)
        assert all(math.isfinite(number) for number in numbers_in(shape["results"]))
        assert as_text(calculator, values, result)


def assert_sentences(error: InputError) -> None:
    for fault in error.faults:
        assert fault.says.endswith("."), fault.says
        assert len(fault.says) < 1000
