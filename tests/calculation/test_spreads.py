"""Inputs with a spread: how they are read, and what they make of the results.

Checked against propagation derived by hand, against an example of JCGM 100:2008 (GUM), and against the
arithmetic of the package `uncertainties` on the same formula, which knows nothing of this project.
"""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat, umath

from calculators.calculation import Calculator, Given, Input, Result, Step, Value
from calculators.calculation.answering import answer, as_json, as_text
from calculators.calculation.asking import given_lines
from calculators.calculation.both_systems import in_both, shown_results, shown_steps
from calculators.calculation.result import spread_text
from calculators.calculation.spreads import parted
from calculators.quantities.errors import InputError


def formula(work: Callable[..., float], *names: str, unit: str = "1", **limits: float) -> Calculator:
    """A calculator of one formula with plain numbers."""

    def worked(given: Given) -> Result:
        value = work(*(given.number(name) for name in names))
        return Result({"length": Value(value, unit)}, (Step("y", "f(x)", "", value, unit, ""),))

    inputs = tuple(Input(name=name, help=f"the {name}", kind="number", unit="", **limits) for name in names)
    return Calculator(
        name="sample",
        summary="A sample.",
        inputs=inputs,
        outputs=("length",),
        work=worked,
        sources=("a book",),
    )


def spread_of(calculator: Calculator, **given: str) -> float | None:
    result = answer(calculator, given)
    one = result.results["length"]
    assert result.working[0].spread == one.spread
    return one.spread


# By hand, from u(y)^2 = sum (dy/dx u(x))^2; the slopes are taken over the spread, so that they differ from the
# derivative by the square of the relative spread, which is what the tolerance allows.
BY_HAND = [
    ("product", lambda a, b: a * b, {"a": "12 ± 0.3", "b": "5 ± 0.1"}, math.hypot(5 * 0.3, 12 * 0.1), 1e-12),
    ("product with an exact factor", lambda a, b: a * b, {"a": "12 ± 0.3", "b": "5"}, 1.5, 1e-12),
    ("sum of two", lambda a, b: a + b, {"a": "12 ± 0.3", "b": "5 ± 0.4"}, 0.5, 1e-12),
    ("difference of two", lambda a, b: a - b, {"a": "12 ± 0.3", "b": "12 ± 0.4"}, 0.5, 1e-12),
    ("quotient", lambda a, b: a / b, {"a": "12 ± 0.06", "b": "5 ± 0.02"}, 2.4 * math.hypot(0.005, 0.004), 2e-5),
    ("fourth power", lambda a: a**4, {"a": "2 ± 0.01"}, 4 * 8 * 0.01, 3e-5),
    ("square root", math.sqrt, {"a": "16 ± 0.16"}, 0.02, 2e-5),
    ("sine", lambda a: math.sin(math.radians(a)), {"a": "30 ± 0.5"}, math.cos(math.pi / 6) * math.radians(0.5), 2e-5),
    ("the same input twice, which is one input", lambda a: a - a, {"a": "12 ± 0.3"}, None, 0.0),
    ("an input that plays no part", lambda a, b: a, {"a": "12", "b": "5 ± 1"}, None, 0.0),
]  # fmt: skip


@pytest.mark.parametrize(
    ("name", "work", "given_inputs", "expected", "tolerance"), BY_HAND, ids=[row[0] for row in BY_HAND]
)
def test_the_spread_is_that_derived_by_hand(name, work, given_inputs, expected, tolerance):
    found = spread_of(formula(work, *given_inputs), **given_inputs)
    if expected is None:
        assert found is None
    else:
        assert found == pytest.approx(expected, rel=tolerance)


def test_the_end_gauge_of_the_guide():
    # JCGM 100:2008, H.1 (from memory): a gauge block of 50 mm against a standard. u(standard) 25 nm, u(difference)
    # 9.7 nm, and by the difference of expansion 2.9 nm, by that of temperature 16.6 nm: together 32 nm.
    def length(standard, difference, expansion_apart, temperature, expansion, temperature_apart):
        return (
            standard + difference - standard * (expansion_apart * temperature + expansion * temperature_apart)
        )

    names = ("standard", "difference", "expansion_apart", "temperature", "expansion", "temperature_apart")
    found = answer(
        formula(length, *names),
        {
            "standard": "50000623 ± 25",
            "difference": "215 ± 9.7",
            "expansion_apart": "0 ± 0.00000058",
            "temperature": "-0.1 ± 0.41",
            "expansion": "0.0000115 ± 0.0000012",
            "temperature_apart": "0 ± 0.029",
        },
    ).results["length"]
    assert found.value == pytest.approx(50_000_838)
    assert found.spread == pytest.approx(math.sqrt(25**2 + 9.7**2 + 2.9**2 + 16.6**2), rel=0.003)
    assert round(found.spread or 0) == 32


AGAINST_THE_PACKAGE = [
    (lambda f, d, x, n: f.pi / 4 * d**2 * x / n, {"d": (8.0, 0.05), "x": (120.0, 0.4), "n": (3.0, 0.01)}),
    (lambda f, d, g, n: g * d**4 / (8 * 10**3 * n), {"d": (1.2, 0.004), "g": (80.0, 0.5), "n": (9.0, 0.05)}),
    (lambda f, a, b: f.atan(a / b) * 180 / f.pi, {"a": (30.0, 0.1), "b": (70.0, 0.15)}),
    (lambda f, a, b: f.sqrt(a**2 + b**2), {"a": (30.0, 0.1), "b": (70.0, 0.15)}),
    (lambda f, a, b: f.exp(-a / b), {"a": (30.0, 0.1), "b": (70.0, 0.15)}),
    (lambda f, r, h: 2 * f.acos(1 - h / r), {"r": (100.0, 0.2), "h": (12.0, 0.05)}),
]


@pytest.mark.parametrize("case", range(len(AGAINST_THE_PACKAGE)))
def test_the_package_s_own_arithmetic_agrees(case):
    work, values = AGAINST_THE_PACKAGE[case]
    umath_with_pi = type(
        "F",
        (),
        {"pi": math.pi, **{n: staticmethod(getattr(umath, n)) for n in ("sqrt", "exp", "atan", "acos")}},
    )
    theirs = work(umath_with_pi, *(ufloat(*pair) for pair in values.values()))
    ours = answer(
        formula(lambda *numbers: work(math, *numbers), *values),
        {name: f"{v} ± {u}" for name, (v, u) in values.items()},
    ).results["length"]
    assert ours.value == pytest.approx(theirs.nominal_value, rel=1e-11)
    # Theirs are slopes at the point, ours over the spread: the spreads are below 1 %, the difference below its square.
    assert ours.spread == pytest.approx(theirs.std_dev, rel=3e-4)


@given(
    st.lists(st.tuples(st.floats(-1e3, 1e3), st.floats(0.001, 50)), min_size=1, max_size=4),
    st.lists(st.floats(-20, 20), min_size=4, max_size=4),
)
def test_a_weighted_sum_has_the_root_of_the_weighted_squares(pairs, weights):
    names = [f"x{place}" for place in range(len(pairs))]
    found = spread_of(
        formula(lambda *x: sum(w * v for w, v in zip(weights, x, strict=False)), *names),
        **{name: f"{value:.6f} ± {by:.6f}" for name, (value, by) in zip(names, pairs, strict=True)},
    )
    exact = math.sqrt(sum((w * float(f"{by:.6f}")) ** 2 for w, (_, by) in zip(weights, pairs, strict=False)))
    assert (found or 0.0) == pytest.approx(exact, rel=1e-6, abs=1e-6)


def test_a_kink_within_the_spread_is_told_and_no_small_spread_is_claimed():
    found = answer(formula(lambda a: abs(a - 5), "a"), {"a": "5 ± 0.1"})
    assert found.results["length"].spread is None
    assert found.warnings == (
        "The length does not follow a in a straight line: at the ends of its spread it is 0.1 and 0.1.",
    )


def test_a_step_within_the_spread_counts():
    found = answer(formula(lambda a: float(math.floor(a)), "a"), {"a": "5.05 ± 0.1"})
    assert found.results["length"].spread == 0.5
    assert found.warnings == (
        "The length does not follow a in a straight line: at the ends of its spread it is 4 and 5.",
    )


def test_a_word_that_changes_within_the_spread_is_told():
    def work(given: Given) -> Result:
        much = given.number("a") > 5
        return Result(
            {
                "verdict": Value("binds" if much else "fits"),
                "buckles": Value(much),
                "length": Value(1.0, "mm"),
            }
        )

    calculator = Calculator(
        name="sample", summary="A sample.", inputs=(Input(name="a", help="a number", kind="number"),),
        outputs=("verdict", "buckles", "length"), work=work, sources=("a book",),
    )  # fmt: skip
    assert answer(calculator, {"a": "5.05 ± 0.1"}).warnings == (
        "Within the spread of a, verdict is fits at the one end and binds at the other.",
        "Within the spread of a, buckles is no at the one end and yes at the other.",
    )
    assert answer(calculator, {"a": "5.2 ± 0.1"}).warnings == ()


def test_an_end_that_cannot_be_worked_is_told_and_no_result_claims_a_spread():
    def refuse(a: float, b: float) -> float:
        if a < 4.95:
            raise InputError.of("The a of less than 4.95 does not fit.", field="a")
        return a * b

    found = answer(formula(refuse, "a", "b"), {"a": "5 ± 0.1", "b": "2 ± 0.1"})
    assert found.results["length"].spread is None
    assert found.warnings == (
        "The spread of a cannot be carried through; at its end: The a of less than 4.95 does not fit.",
    )


WIRE = Calculator(
    name="wire", summary="A wire.", inputs=(
        Input(name="wire", help="the wire", kind="length", unit="mm", above=0, maximum=20),
        Input(name="load", help="the load", kind="quantity", unit="N", minimum=0, maximum=1000, optional=True),
        Input(name="room", help="the room", kind="quantity", unit="degC", minimum=-30, maximum=60, optional=True),
        Input(name="share", help="a share", kind="quantity", unit="%", minimum=0, maximum=100, optional=True),
        Input(name="rows", help="rows", kind="rows", optional=True, members=(
            Input(name="rate", help="a rate", kind="quantity", unit="N/mm", above=0, maximum=100),
            Input(name="name", help="a name", kind="text", optional=True),
        )),
    ),
    outputs=("length", "mass"),
    work=lambda given: Result({
        "length": Value(given.mm("wire"), "mm"),
        "mass": Value(sum(row.number("rate") for row in given.rows("rows")), "kg"),
        **({"load": Value(given.number("load"), "N")} if given["load"] is not None else {}),
        **({"temperature": Value(given.number("room"), "degC")} if given["room"] is not None else {}),
    }),
    sources=("a book",),
)  # fmt: skip


@pytest.mark.parametrize(
    ("name", "written", "value", "spread"),
    [
        ("wire", "4.7 ± 0.05 mm", 4.7, 0.05),
        ("wire", "4.7 mm ± 0.05", 4.7, 0.05),
        ("wire", "4.7 +/- 0.05", 4.7, 0.05),
        ("wire", "4.7+-0.05", 4.7, 0.05),
        # An inch is 25.4 mm: 3/16 in is 4.7625 mm, two thou 0.0508 mm.
        ("wire", "3/16 in ± 0.1 mm", 4.7625, 0.1),
        ("wire", "3/16 in ± 2 thou", 4.7625, 0.0508),
        ("wire", "0.1875 in ± 0.002", 4.7625, 0.0508),
        ("wire", "4.7 mm ± 0.002 in", 4.7, 0.0508),
        ("wire", "4 mm ± 2.5 %", 4.0, 0.1),
        ("load", "20 ± 2 N", 20, 2),
        ("load", "20 N ± 10 %", 20, 2),
        ("load", "10 lbf ± 1 N", 44.4822161526, 1),
        ("room", "20 ± 2 degC", 20, 2),
        # 9 degrees of Fahrenheit are 5 of Celsius; 68 F is 20 C.
        ("room", "68 degF ± 9 degF", 20, 5),
        ("share", "20 ± 3 %", 20, 3),
    ],
)
def test_a_spread_is_read_in_its_own_unit(name, written, value, spread):
    found = answer(WIRE, {"wire": "1 mm", name: written})
    lines = {line.label: line for line in given_lines(WIRE, {"wire": "1 mm", name: written})}
    assert "±" in lines[name].metric
    if name != "share":
        one = found.results[{"wire": "length", "room": "temperature"}.get(name, name)]
        assert one.value == pytest.approx(value, abs=1e-9)
        assert one.spread == pytest.approx(spread, rel=1e-6)


@pytest.mark.parametrize(
    ("given_inputs", "says"),
    [
        ({"wire": "4.7 ± wide"}, "'4.7 wide' has a unit that lengths are not measured in, 'wide'; write it as 31.75, 31.75 mm, 1 1/4 in, 3/8\", 5' 3\", 10 thou or 20 SWG."),
        ({"wire": "4.7 ± 0"}, "'0' is not a spread; write more than nought after the ± of wire."),
        ({"wire": "4.7 ± -0.1 mm"}, "'-0.1 mm' is not a spread; write more than nought after the ± of wire."),
        ({"wire": "19.99 ± 0.05"}, "With its spread the wire is 19.94 to 20.04 mm, beyond its limits; it may be over 0 to 20 mm."),
        ({"wire": "0.04 ± 0.05"}, "With its spread the wire is -0.01 to 0.09 mm, beyond its limits; it may be over 0 to 20 mm."),
        ({"wire": "1", "load": "20 ± 1 mm"}, "'20 mm' is a length, not a force; write a number with one of N, kN, lbf, ozf, kgf."),
        ({"wire": "1", "rows": [{"rate": "99.9 ± 0.5"}]}, "Rows, row 1: With its spread the rate is 99.4 to 100.4 N/mm, beyond its limits; it may be over 0 to 100 N/mm."),
    ],
)  # fmt: skip
def test_what_is_no_spread_is_refused_in_a_sentence(given_inputs, says):
    with pytest.raises(InputError) as caught:
        answer(WIRE, given_inputs)
    assert [fault.says for fault in caught.value.faults] == [says]
    assert caught.value.faults[0].field in ("wire", "load", "rows[0].rate")


@pytest.mark.parametrize("written", ["±", "± 5", "5 ±", "5 ± ± 1", "5 ± 1 ± 1", "4.7 ± 0.05 N", "4.7 ± 1/0"])
def test_a_spread_that_is_not_whole_is_an_error_at_its_input(written):
    with pytest.raises(InputError) as caught:
        answer(WIRE, {"wire": written})
    assert {fault.field for fault in caught.value.faults} == {"wire"}


def test_spreads_within_rows_are_carried_through():
    found = answer(WIRE, {"wire": "1", "rows": "5 ± 0.3 N/mm, left\n8 ± 0.4 N/mm"})
    assert found.results["mass"].spread == pytest.approx(0.5)
    assert found.results["length"].spread is None


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("4.7 ± 0.05 mm", ("4.7 mm", "0.05 mm")),
        ("20 N +/- 10 %", ("20 N", "10 %")),
        ("5", ("5", "")),
        ("5' 3\" ± 1/16 in", ("5' 3\"", "1/16 in")),
        ("50 ± 5 %", ("50", "5 %")),
    ],
)
def test_a_writing_is_parted(text, parts):
    assert parted(text) == parts


# ---- how it is shown


@pytest.mark.parametrize(
    ("value", "spread", "text"),
    [
        # JCGM 100:2008, 7.2.2 and 7.2.6 (from memory): m_S = 100.02147 g with u_c = 0.35 mg is 100.02147(35) g, and
        # 10.05762 ohm with u_c = 27 mohm is rounded to 10.058 ohm.
        (100.02147, 0.00035, "100.02147 ± 0.00035"),
        (10.05762, 0.027, "10.058 ± 0.027"),
        (4.7, 0.05, "4.70 ± 0.05"),
        (4.7, 0.0996, "4.7 ± 0.1"),
        (1234.5, 200, "1200 ± 200"),
        (0.0004, 0.02, "0 ± 0.02"),
        (-3.14159, 0.123, "-3.14 ± 0.12"),
        (5e9, 1.26e8, "5000000000 ± 130000000"),
    ],
)
def test_a_value_claims_no_more_than_its_spread(value, spread, text):
    assert spread_text(value, spread) == text


@given(st.floats(-1e9, 1e9), st.floats(1e-9, 1e8))
def test_rounding_never_claims_more(value, spread):
    shown, _, off = spread_text(value, spread).partition(" ± ")
    step = Decimal(1).scaleb(Decimal(off).as_tuple().exponent)
    own = abs(Decimal(value)) * Decimal("1e-15")  # a float is no nearer itself
    assert len(Decimal(off).as_tuple().digits) <= 2 or "." not in off
    assert abs(Decimal(off) - Decimal(spread)) <= Decimal(spread) * Decimal("0.0501")
    assert abs(Decimal(shown) - Decimal(value)) <= max(step, Decimal(off)) / 2 + own
    assert "e" not in shown + off


def test_both_systems_and_the_working_show_it():
    found = answer(WIRE, {"wire": "3/16 in ± 0.1 mm", "load": "20 ± 2 N"})
    (line,) = shown_results(found)[0].lines
    # 0.1 mm is 0.003937 in; 2 N is 0.4496 lbf and 20 N is 4.496 lbf.
    assert (line.metric, line.inches) == ("4.8 ± 0.1 mm", "0.1875 ± 0.0039 in")
    assert in_both(20, "N", 2) == ("20 ± 2 N", "4.50 ± 0.45 lbf")
    step = shown_steps(Result({}, (Step("d", "", "", 4.7625, "mm", "", 0.1),)))[0]
    assert step.value == "4.8 ± 0.1 mm (0.1875 ± 0.0039 in)"


def test_json_and_the_worked_example_carry_it():
    given_inputs = {"wire": "4.7 ± 0.05 mm"}
    found = answer(WIRE, given_inputs)
    assert json.loads(json.dumps(as_json(WIRE, given_inputs, found)))["results"]["length"] == {
        "value": 4.7,
        "unit": "mm",
        "spread": 0.05,
    }
    assert "4.70 ± 0.05 mm" in as_text(WIRE, given_inputs, found)
