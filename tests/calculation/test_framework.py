"""The framework: inputs of every kind, all faults at once, and how an answer is written."""

import json
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.calculation import Calculator, Given, Input, Result, Step, named
from calculators.calculation.answering import answer, as_json, as_text, help_text
from calculators.calculation.reading import read_input, read_inputs
from calculators.calculation.result import cleaned, number_text
from calculators.calculation.strict_json import read_json
from calculators.quantities.errors import InputError


def work(given: Given) -> Result:
    area = given.mm("length") * given.number("count")
    return Result(
        named(length=given.mm("length"), mass=area),
        (Step("A", "l n", f"{number_text(given.mm('length'))} x 2", area, "mm", "a book"),),
        ("Mind the edge.",),
    )


SAMPLE = Calculator(
    name="sample",
    summary="A sample.",
    inputs=(
        Input(name="length", help="a length", kind="length", unit="mm", above=0, maximum=100, example="5 mm"),
        Input(name="count", help="a count", kind="number", default="2"),
        Input(name="places", help="whole places", kind="integer", minimum=1, maximum=9, optional=True),
        Input(name="load", help="a load", kind="quantity", unit="N", optional=True, minimum=0),
        Input(
            name="wood",
            help="a wood",
            kind="choice",
            choices=("oak", "red-pine"),
            synonyms=(("deal", "red-pine"),),
            optional=True,
        ),
        Input(name="note", help="a note", kind="text", optional=True),
        Input(name="list", help="a list", kind="json", optional=True),
        Input(name="wet", help="whether it is wet", kind="flag", optional=True),
    ),
    outputs=("length", "mass"),
    work=work,
    sources=("a book",),
    cautions=("Keep the hands away.",),
    example={"length": "1 1/4 in", "note": "it's"},
)


def sentences(given: dict[str, object]) -> list[str]:
    with pytest.raises(InputError) as caught:
        read_inputs(SAMPLE, given)
    return [fault.says for fault in caught.value.faults]


def test_every_kind_is_read():
    read = read_inputs(
        SAMPLE,
        {
            "length": "1 1/4 in",
            "places": "3",
            "load": "2 kN",
            "wood": "Red Pine",
            "note": " hello ",
            "list": "[1, 2]",
            "wet": " Yes",
        },
    )
    assert read.mm("length") == 31.75
    assert read.number("count") == 2
    assert read.integer("places") == 3
    assert read.number("load") == 2000
    assert read.text("wood") == "red-pine"
    assert read.text("note") == "hello"
    assert read["list"] == [1, 2]
    assert read["wet"] is True


def test_json_values_are_read_in_the_unit_of_the_input():
    read = read_inputs(SAMPLE, {"length": 31.75, "places": 3, "load": 20, "count": 0.1, "note": 5.1})
    assert (read.length("length").ticks, read.integer("places"), read.number("load")) == (317_500_000, 3, 20)
    assert (read.number("count"), read.text("note")) == (0.1, "5.1")


def test_what_is_left_out_takes_its_default_or_none():
    read = read_inputs(SAMPLE, {"length": "5", "count": "", "note": None})
    assert (read.number("count"), read.text_or_none("note"), read.number_or_none("load")) == (2, None, None)
    assert read.mm_or_none("length") == 5


def test_all_faults_of_all_inputs_are_told_at_once_in_order():
    assert sentences({"lenght": "5", "count": "x", "places": "99", "load": "3 mm", "wood": "red pin"}) == [
        "There is no input 'lenght'; did you mean length.",
        "The input length is missing: a length, written as 5 mm.",
        "'x' is not a share; write a number such as 0.5.",
        "'99' is outside the limits; write a whole number from 1 to 9.",
        "'3 mm' is a length, not a force; write a number with one of N, kN, lbf, ozf, kgf.",
        "'red pin' is not a choice for wood; did you mean red-pine; write one of oak, red-pine.",
    ]


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"length": "0"}, "'0' is too little; write more than 0 mm."),
        ({"length": "-1"}, "'-1' is too little; write more than 0 mm."),
        ({"length": "5 in"}, "'5 in' is above the most allowed here; write a length of at most 100 mm."),
        ({"length": True}, "The input length is given as true or false; write a text or a number."),
        ({"length": [5]}, "The input length is given as a list; write a text or a number."),
        ({"length": 1e300}, "The input length is larger than anything that is worked with."),
        ({"length": float("nan")}, "The input length is not a finite number."),
        ({"length": "5", "places": "2.5"}, "'2.5' is not a whole number; write a whole number from 1 to 9."),
        ({"length": "5", "places": "two"}, "'two' is not a whole number; write a whole number from 1 to 9."),
        ({"length": "5", "note": "n" * 201}, "'nnnnnnnnnnnnnnnnnnnnnnnnnnnn...' is longer than the 200 characters that are read."),
        ({"length": "5", "wet": "damp"}, "'damp' is not a choice for wet; write yes or no."),
        ({"length": "5", "list": "[1,"}, "The input list is not JSON: line 1, column 4: expecting value."),
        ({"length": "5", "zzz": "1"}, "There is no input 'zzz'; the inputs are length, count, places, load, wood, note, list, wet."),
    ],
)  # fmt: skip
def test_a_fault_says_what_would_be_accepted(given, says):
    assert sentences(given) == [says]


def test_faults_carry_their_field_and_limit():
    with pytest.raises(InputError) as caught:
        read_inputs(SAMPLE, {"length": "0"})
    (fault,) = caught.value.faults
    assert (fault.field, fault.value, fault.limit, fault.unit) == ("length", 0, 0, "mm")


def test_synonyms_of_a_choice():
    assert read_input(SAMPLE.input("wood"), "deal") == "red-pine"


def test_the_answer_as_json():
    given_inputs = {"length": "1 1/4 in"}
    shape = as_json(SAMPLE, given_inputs, answer(SAMPLE, given_inputs))
    assert json.loads(json.dumps(shape)) == {
        "calculator": "sample",
        "inputs": {"length": "1 1/4 in"},
        "results": {"length": {"value": 31.75, "unit": "mm"}, "mass": {"value": 63.5, "unit": "kg"}},
        "working": ["A = l n = 31.75 x 2 = 63.5 mm (a book)"],
        "warnings": ["Mind the edge.", "Keep the hands away."],
        "sources": ["a book"],
    }


def test_the_answer_as_a_worked_example():
    given_inputs = {"length": "1 1/4 in", "load": 20}
    assert as_text(SAMPLE, given_inputs, answer(SAMPLE, given_inputs)) == (
        "sample: A sample.\n"
        "\n"
        "Given\n"
        "  length  1 1/4 in\n"
        "  count   2 (unless told otherwise)\n"
        "  load    20 N\n"
        "\n"
        "Results\n"
        "  length  31.75 mm  stock length chosen\n"
        "  mass    63.5 kg   mass\n"
        "\n"
        "Working\n"
        "  A = l n = 31.75 x 2 = 63.5 mm (a book)\n"
        "\n"
        "Mind\n"
        "  Mind the edge.\n"
        "  Keep the hands away.\n"
        "\n"
        "Sources\n"
        "  a book"
    )


def test_the_help_names_inputs_units_and_limits():
    text = help_text(SAMPLE)
    assert (
        "  length  a length\n          length; a bare number is in mm; over 0 to 100 mm; written as 5 mm\n"
        in text
    )
    assert "  places  whole places\n          whole number; 1 to 9; may be left out\n" in text
    assert "  wet     whether it is wet\n          yes or no; may be left out\n" in text
    assert "          one of oak, red-pine; may be left out\n" in text
    assert "  manage.py calc sample length='1 1/4 in' note='it'\\''s'" in text


@given(st.floats(allow_nan=False, allow_infinity=False, min_value=-1e30, max_value=1e30))
def test_number_text_reads_back_to_six_figures(value):
    text = number_text(value)
    assert "e" not in text
    assert abs(Fraction(text) - Fraction(value)) <= abs(Fraction(value)) / 10**5


def test_a_result_that_is_not_finite_is_a_mistake_in_the_program():
    with pytest.raises(ValueError, match="not a finite number"):
        cleaned([1.0, float("inf")])


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('{"a": 1, "a": 2}', "the name 'a' is given twice."),
        ("[NaN]", "NaN is not a number; write a finite one."),
        ("[-Infinity]", "-Infinity is not a number; write a finite one."),
        ("[1e999]", "the number '1e999' is too large."),
        ("[" * 100_000, "it is nested too deeply."),
        ("[" + "9" * 5000 + "]", "it holds a number too long to read."),
        ("", "line 1, column 1: expecting value."),
    ],
)
def test_json_is_read_strictly(text, says):
    with pytest.raises(InputError) as caught:
        read_json(text)
    assert str(caught.value) == says


ANYTHING = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=80),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=5), inner, max_size=4),
    max_leaves=8,
)


@given(
    st.dictionaries(
        st.sampled_from([each.name for each in SAMPLE.inputs]) | st.text(max_size=9), ANYTHING, max_size=8
    )
)
def test_whatever_is_given_there_is_a_result_or_a_sentence_for_each_fault(values):
    try:
        result = answer(SAMPLE, values)
    except InputError as error:
        told = "".join(fault.says for fault in error.faults)
    else:
        told = as_text(SAMPLE, values, result)
        assert json.loads(json.dumps(as_json(SAMPLE, {}, result), allow_nan=False))["calculator"] == "sample"
    assert told
