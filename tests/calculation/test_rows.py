"""Inputs of rows: as text, as JSON, with every fault at its place, and how they are given back."""

from __future__ import annotations

import json
import shlex

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.calculation import Calculator, Given, Input, Result, Step, Value, named
from calculators.calculation.answering import answer, as_json, as_text, help_text
from calculators.calculation.asking import command, given_lines
from calculators.calculation.reading import read_inputs
from calculators.calculation.rows import LONGEST_ROWS, rows_as_written, rows_in_words
from calculators.quantities.errors import InputError

SPRINGS = Input(
    name="springs",
    help="the springs",
    kind="rows",
    minimum=1,
    maximum=4,
    members=(
        Input(name="name", help="what it is called", kind="text", optional=True),
        Input(name="rate", help="its rate", kind="quantity", unit="N/mm", above=0, maximum=1000),
        Input(
            name="place",
            help="where it stands",
            kind="length",
            unit="mm",
            default="0 mm",
            minimum=-500,
            maximum=500,
        ),
        Input(name="end", help="how it ends", kind="choice", choices=("plain", "hooked"), default="plain"),
        Input(name="fixed", help="whether it is held", kind="flag", default="no"),
    ),
)


def work(given: Given) -> Result:
    rows = given.rows("springs")
    rate = sum(row.number("rate") for row in rows)
    return Result(named(rate=Value(rate, "N/mm")), (Step("k", "sum of k", "", rate, "N/mm", "a book"),))


SAMPLE = Calculator(
    name="springs", summary="Springs.", inputs=(SPRINGS,), outputs=("rate",), work=work, sources=("a book",), varying=("rate",)
)  # fmt: skip


def read(raw: object) -> list[dict[str, object]]:
    return [
        {"name": row["name"], "rate": row.number("rate"), "place": row.mm("place"), "end": row.text("end"), "fixed": row.flag("fixed")}
        for row in read_inputs(SAMPLE, {"springs": raw}).rows("springs")
    ]  # fmt: skip


LEFT = {"name": "left", "rate": 5.0, "place": -12.7, "end": "hooked", "fixed": True}
RIGHT = {"name": None, "rate": 8.0, "place": 0.0, "end": "plain", "fixed": False}


@pytest.mark.parametrize(
    "raw",
    [
        "left, 5 N/mm, -1/2 in, hooked, yes\nrate=8",
        "left, 5, -12.7, hooked, yes; rate=8 N/mm",
        "  left,  5,  -12.7 mm,  hooked, yes \n\n rate=8\n",
        # What is named leaves its place to the others; an inch's 25.4 mm are exact.
        "rate=5, left, -0.5 in, fixed=yes, end=hooked\nrate=8",
        '[{"name": "left", "rate": 5, "place": "-1/2 in", "end": "hooked", "fixed": true}, {"rate": "8 N/mm"}]',
        [
            {"name": "left", "rate": "5000 N/m", "place": -12.7, "end": "hooked", "fixed": "yes"},
            {"rate": 8, "place": ""},
        ],
        ["left, 5, -12.7, hooked, yes", {"rate": 8}],
    ],
)
def test_rows_are_read_as_text_and_as_json(raw):
    assert read(raw) == [LEFT, RIGHT]


def test_one_object_is_one_row():
    assert read('{"rate": 8}') == read({"rate": 8}) == [RIGHT]


def test_a_comma_within_a_number_is_no_end_of_a_cell():
    # A decimal comma has no space behind it.
    assert read("left, 5,25 N/mm")[0]["rate"] == 5.25


@pytest.mark.parametrize(
    ("raw", "faults"),
    [
        ("left, much", [("springs[0].rate", "Springs, row 1: 'much' is not a spring rate; write a number with one of N/mm, N/m, lbf/in, kgf/mm.")]),
        ([{"rate": 5}, {"place": "1 kg"}], [
            ("springs[1].rate", "Springs, row 2: The input rate is missing: its rate."),
            ("springs[1].place", "Springs, row 2: '1 kg' has a unit that lengths are not measured in, 'kg'; write it as 31.75, 31.75 mm, 1 1/4 in, 3/8\", 5' 3\", 10 thou or 20 SWG."),
        ]),
        ([{"rate": 0}], [("springs[0].rate", "Springs, row 1: '0' is too little; write more than 0 N/mm.")]),
        ([{"rate": 5, "place": "501"}], [("springs[0].place", "Springs, row 1: '501' is above the most allowed here; write a length of at most 500 mm.")]),
        ([{"rate": 5, "end": "bent"}], [("springs[0].end", "Springs, row 1: 'bent' is not a choice for end; write one of plain, hooked.")]),
        ([{"rate": 5, "plaec": 3}], [("springs[0]", "Springs, row 1: There is no input 'plaec'; did you mean place.")]),
        ("left, rate=5, rate=6", [("springs[0]", "Springs, row 1: The key 'rate' is given twice in 'left, rate=5, rate=6'.")]),
        ("a, 1, 2, plain, no, more", [("springs[0]", "Springs, row 1: There is no input 'value 6'; the inputs are name, rate, place, end, fixed.")]),
        ([5], [("springs[0]", "Springs, row 1: It must be an object with keys such as name, rate, place, end.")]),
        (5, [("springs", "The input springs is given as something else; write a list of objects or a row a line.")]),
        ([{"rate": 1}] * 5, [("springs", "The input springs has 5 rows; write 1 to 4.")]),
        ([], [("springs", "The input springs has 0 rows; write 1 to 4.")]),
        ("[{\"rate\": 1}, ", [("springs", "The input springs is not JSON: line 1, column 15: expecting value.")]),
        ('[{"rate": 1, "rate": 2}]', [("springs", "The input springs is not JSON: the name 'rate' is given twice.")]),
        ("", [("springs", "The input springs is missing: the springs.")]),
        ("left, 5 ± wide", [("springs[0].rate", "Springs, row 1: '5 wide' has an unknown unit, 'wide'; write a number with one of N/mm, N/m, lbf/in, kgf/mm.")]),
    ],
)  # fmt: skip
def test_every_fault_stands_at_its_place(raw, faults):
    with pytest.raises(InputError) as caught:
        read(raw)
    assert [(fault.field, fault.says) for fault in caught.value.faults] == faults


def test_rows_without_end_are_refused_and_never_cut_off():
    for raw in ("1" * (LONGEST_ROWS + 1), ["1" * (LONGEST_ROWS + 1)], "left, 5\n" * LONGEST_ROWS):
        with pytest.raises(InputError) as caught:
            read(raw)
        says = f"The rows of springs are longer than the {LONGEST_ROWS} characters that are read."
        assert str(caught.value) in (says, f"Springs, row 1: {says}")


def test_the_command_gives_the_same_answer_and_is_whole_for_a_shell():
    inputs = {"springs": [{"name": "O'Brien's", "rate": "5 N/mm"}, {"rate": 8}]}
    words = shlex.split(command(SAMPLE, inputs))
    assert words[:3] == ["manage.py", "calc", "springs"]
    name, _, value = words[3].partition("=")
    assert (name, json.loads(value)) == ("springs", inputs["springs"])
    assert answer(SAMPLE, {name: value}) == answer(SAMPLE, inputs)


def test_the_answer_shows_the_rows_that_were_given():
    for raw in ("left, 5 N/mm\nrate=8", '[{"name": "left", "rate": "5 N/mm"}, {"rate": 8}]'):
        result = answer(SAMPLE, {"springs": raw})
        text = as_text(SAMPLE, {"springs": raw}, result)
        assert "  springs  name left, rate 5 N/mm; rate 8" in text
        (line,) = given_lines(SAMPLE, {"springs": raw})
        assert line.metric.splitlines()[0] == "name left, rate 5 N/mm"
    echoed = as_json(SAMPLE, {"springs": raw}, result)["inputs"]
    assert echoed == {"springs": [{"name": "left", "rate": "5 N/mm"}, {"rate": 8}]}
    assert rows_in_words(SPRINGS, [{"rate": 8, "fixed": True, "name": None}]) == ("rate 8 N/mm, fixed True",)


def test_the_help_explains_the_members():
    text = help_text(SAMPLE)
    assert (
        "rows: a JSON list of objects, or a row a line or after a semicolon, values after commas; 1 to 4 rows"
        in text
    )
    assert "quantity; a bare number is in N/mm; over 0 to 1000 N/mm" in text


CELL = st.text(st.characters(exclude_characters="\n;,={}[]\r\x0b\x0c\x1c\x1d\x1e\x85\u2028\u2029", exclude_categories=("Cs", "Zs", "Cc")), min_size=1, max_size=8)  # fmt: skip


@given(
    st.lists(
        st.dictionaries(st.sampled_from([m.name for m in SPRINGS.members]), CELL, min_size=1),
        min_size=1,
        max_size=4,
    )
)
def test_cells_written_by_name_come_back(rows):
    text = "\n".join(", ".join(f"{name}={value}" for name, value in row.items()) for row in rows)
    assert [dict(row) for row in rows_as_written(SPRINGS, text)] == rows
    assert [dict(row) for row in rows_as_written(SPRINGS, json.dumps(rows))] == rows
