"""Forces, torques, masses, angles and pressures as people write them, and the units behind them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.quantities.errors import InputError
from calculators.quantities.nomenclature import NOMENCLATURE, result_name
from calculators.quantities.units import UNITS, factor, find_unit, named_unit, read_quantity


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("6 N.m", "N m", 6),
        ("6 Nm", "N m", 6),
        ("6 N·m", "N m", 6),
        ("6 N m", "N m", 6),
        ("6", "N m", 6),
        ("6000 N mm", "N m", 6),
        ("53 in lbf", "lbf in", 53),
        ("53 in-lbs", "lbf in", 53),
        ("20 N", "N", 20),
        ("2 deg", "deg", 2),
        ("82°", "deg", 82),
        ("12° 30'", "deg", 12.5),
        ("-12° 30' 36\"", "deg", -12.51),
        ("1/2 turn", "deg", 180),
        ("1 1/2 kg", "g", 1500),
        ("75 %", "%", 75),
        ("75", "%", 75),
        ("0,62", "1", 0.62),
        ("200e9 Pa", "GPa", 200),
        ("210 kN/mm²", "GPa", 210),
        ("20 tpi", "1/in", 20),
        ("1 1/4 in", "mm", 31.75),
        ("3", "m", 3),
        ("3 ft", "in", 36),
        ("2500 mm2", "cm2", 25),
    ],
)
def test_a_quantity_is_read(text, unit, value):
    assert read_quantity(text, unit) == pytest.approx(value, rel=1e-14)


FORCE = "write a number with one of N, kN, lbf, ozf, kgf"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", f"A force is missing; {FORCE}."),
        ("9**9**9", f"'9**9**9' has an unknown unit, '**9**9'; {FORCE}."),
        ("6 mm", f"'6 mm' is a length, not a force; {FORCE}."),
        ("3 zz", f"'3 zz' has an unknown unit, 'zz'; {FORCE}."),
        ("N", f"'N' is not a force; {FORCE}."),
        ("1/0 N", f"'1/0 N' divides by nought; {FORCE}."),
        ("1e99 N", f"'1e99 N' is larger than anything that is worked with; {FORCE}."),
        (
            "1,200 N",
            "'1,200 N' has a comma that could be a decimal comma or part thousands; write 1.200 N or 1200 N.",
        ),
        ("5", "'5' is below the least allowed here; write at least 10 N."),
        ("5 kN", "'5 kN' is above the most allowed here; write at most 1000 N."),
    ],
)
def test_a_refusal_names_the_units(text, says):
    with pytest.raises(InputError) as caught:
        read_quantity(text, "N", field="load", minimum=10, maximum=1000)
    assert str(caught.value) == says
    assert caught.value.faults[0].field == "load"


def check_sentences(error: InputError) -> None:
    assert all(fault.says.endswith(".") and "\n" not in fault.says for fault in error.faults)


@given(st.text(max_size=100), st.sampled_from([unit.name for unit in UNITS]))
def test_no_text_raises_anything_but_a_sentence(text, unit):
    try:
        assert math.isfinite(read_quantity(text, unit))
    except InputError as error:
        check_sentences(error)


PIECES = [
    "1",
    "9",
    "/",
    "**",
    "e9",
    "e99",
    " ",
    ".",
    ",",
    "N",
    "m",
    "deg",
    "°",
    "'",
    "lbf",
    "in",
    "(",
    ")",
    "-",
    "²",
]


@given(
    st.lists(st.sampled_from(PIECES), max_size=12).map("".join),
    st.sampled_from(["N", "N m", "deg", "MPa", "mm"]),
)
def test_no_mixture_of_the_right_pieces_raises_anything_but_a_sentence(text, unit):
    try:
        assert math.isfinite(read_quantity(text, unit))
    except InputError as error:
        check_sentences(error)


def test_every_unit_is_found_by_every_one_of_its_spellings_and_by_no_other():
    for unit in UNITS:
        for word in (unit.name, *unit.aliases):
            assert find_unit(word) == unit, word


def test_every_unit_converts_there_and_back_to_every_other_of_its_kind():
    for first in UNITS:
        for second in UNITS:
            if first.measures == second.measures:
                product = factor(first.name, second.name) * factor(second.name, first.name)
                assert product == pytest.approx(1, rel=1e-12), (first, second)


def test_units_of_different_kinds_do_not_convert():
    with pytest.raises(ValueError, match="N measures force, kg mass"):
        factor("N", "kg")


def test_every_name_of_a_result_has_a_known_unit_and_a_description():
    for name in NOMENCLATURE.values():
        assert name.description
        assert name.unit == "" or named_unit(name.unit)
    assert result_name("pitch_diameter").label == "pitch diameter"
    with pytest.raises(ValueError, match="no 'hat_size'"):
        result_name("hat_size")
