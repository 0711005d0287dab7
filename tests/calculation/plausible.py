"""What a person might give a calculator, made from its declaration: right, nearly right, and wrong.

Values lie within the limits, on them and just beyond; units are right, other of the same kind, and of another
kind; inputs are swapped, spread, left out, or what nobody would write. A part of each run begins with the
calculator's own example, so that what lies behind the reading of inputs is reached too.
"""

from __future__ import annotations

import json
from typing import Any

from hypothesis import strategies as st

from calculators.calculation import Calculator, Input
from calculators.quantities.units import factor, named_unit, units_of

MEASURED = ("length", "quantity", "number")
WORDS = (
    "M5", "1/4-28 UNF", "2 BA", "10-32", "#7", "F", "13/64", "5.1", "20", "4/0", "No. 8", "8", "metric", "imperial-standard",
    "swg", "64", "31.75 mm", "1 1/4 in", "53 in lbf", "N m", "in", "kg", "90", "0", "-1", "1e9", "999999", "0.0001", "1/0", "drill",
    "gauge", "fraction", "cutter", "inch-british", "number", "75", "", "oak", "red oak", "brass", "mild steel", "steel", "8.8",
    "music wire", "Douglas fir", "M6x0.75", "5 ± 0.1", "5 mm ± 10 %", "± 5", "5 ±", "3 ± 3", "1 ± 0.5 lbf", "yes", "no",
)  # fmt: skip
OTHER_KINDS = (
    "5 mm",
    "5 N",
    "5 deg",
    "5 kg",
    "5 MPa",
    "5 N m",
    "5 Hz",
    "5 %",
    "5 s",
    "5 mm2",
    "5 N/mm",
    "5 degC",
)


def number_text(value: float) -> str:
    return f"{value:.9f}".rstrip("0").rstrip(".") if abs(value) < 1e12 else f"{value:.6g}"


@st.composite
def measured(draw: st.DrawFn, each: Input) -> str:
    """A value of an input with limits, in some unit of its kind."""
    low = each.above if each.above is not None else each.minimum
    high = each.maximum
    floor = -1e3 if low is None else low
    ceiling = max(1e4, floor + 1) if high is None else high
    # Small values of a wide range are as likely as large ones.
    part = draw(st.floats(0, 1)) ** draw(st.sampled_from([1, 2, 4, 8]))
    value = floor + (ceiling - floor) * part
    edge = draw(st.integers(0, 11))
    if edge == 0:
        value = floor - draw(st.sampled_from([0, 1e-6, 1, abs(floor)]))
    elif edge == 1:
        value = ceiling + draw(st.sampled_from([0, 1e-6, 1, abs(ceiling)]))
    unit = "mm" if each.kind == "length" else each.unit or "1"
    same = units_of(named_unit(unit).measures)
    other = draw(st.sampled_from([unit, unit, unit, *same]))
    if named_unit(unit).measures == "temperature":
        other = unit
    text = number_text(value * factor(unit, other) if other != unit else value)
    word = "" if other == "1" or (other == unit and draw(st.booleans())) else f" {other}"
    spread = ""
    if draw(st.integers(0, 5)) == 0:
        spread = f" ± {number_text(abs(value) * draw(st.sampled_from([0.001, 0.02, 0.2, 1.5])))}"
    return f"{text}{spread}{word}"


def one(each: Input, *, depth: int = 0) -> st.SearchStrategy[Any]:
    """A value of one input, mostly a good one."""
    good = [*([each.example] if each.example else []), *([each.default] if each.default else [])]
    wrong: st.SearchStrategy[Any] = (
        st.sampled_from([*WORDS, *OTHER_KINDS, *good]) | st.text(max_size=20) | st.floats() | st.integers()
    )
    right: st.SearchStrategy[Any]
    if each.kind in MEASURED:
        right = measured(each)
    elif each.kind == "integer":
        low, high = (
            int(each.minimum if each.minimum is not None else -5),
            int(each.maximum if each.maximum is not None else 1000),
        )
        right = st.integers(low, min(high, low + 12)).map(str) | st.integers(low - 1, high + 1)
    elif each.kind == "choice":
        right = st.sampled_from([*each.choices, *(word for word, _ in each.synonyms)])
    elif each.kind == "flag":
        right = st.sampled_from(["yes", "no", True, False])
    elif each.kind == "rows" and depth == 0:
        row = st.fixed_dictionaries(
            {m.name: one(m, depth=1) for m in each.members if m.required},
            optional={m.name: one(m, depth=1) for m in each.members if not m.required},
        )
        right = st.lists(row, min_size=int(each.minimum or 0), max_size=4)
        right = right | right.map(lambda rows: json.dumps(rows, default=str))
    else:
        right = st.sampled_from(good or WORDS)
    return st.integers(0, 19).flatmap(
        lambda n: wrong if n == 0 else st.sampled_from(good) if n < 5 and good else right
    )


@st.composite
def inputs_of(draw: st.DrawFn, calculator: Calculator) -> dict[str, Any]:
    """The inputs of one calculation: the example with some of them changed, or all of them new."""
    given: dict[str, Any] = {}
    if calculator.example and draw(st.integers(0, 3)):
        given = dict(calculator.example)
        changed = draw(
            st.lists(st.sampled_from(calculator.inputs), max_size=3, unique_by=lambda each: each.name)
        )
    else:
        changed = [each for each in calculator.inputs if each.required or draw(st.integers(0, 2)) == 0]
    for each in changed:
        if each.name in given and not each.required and draw(st.integers(0, 3)) == 0:
            del given[each.name]
        else:
            given[each.name] = draw(one(each))
    if len(given) > 1 and draw(st.integers(0, 15)) == 0:
        first, second = draw(st.lists(st.sampled_from(sorted(given)), min_size=2, max_size=2, unique=True))
        given[first], given[second] = given[second], given[first]
    return given
