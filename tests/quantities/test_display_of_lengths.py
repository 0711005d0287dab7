"""Lengths as they are shown: fractions with their error, decimals, both systems."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.quantities.display import (
    DENOMINATORS,
    both,
    decimal_inches,
    fractional_inches,
    millimetres,
    nearest_fraction,
    rounded_to,
)
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length
from calculators.quantities.numbers import decimal_text
from calculators.quantities.reading import read_length


@given(st.integers(-(10**12), 10**12), st.sampled_from(DENOMINATORS))
def test_no_other_fraction_is_nearer(ticks, denominator):
    length = Length(ticks)
    near = nearest_fraction(length, denominator)
    assert denominator % near.inches.denominator == 0
    assert abs(near.error_mm) <= Fraction(254, 10) / denominator / 2
    assert near.inches * Fraction(254, 10) - near.error_mm == Fraction(ticks, 10_000_000)


def test_a_tie_goes_to_the_coarser_fraction():
    assert nearest_fraction(read_length("3/16 in"), 8).inches == Fraction(1, 4)
    assert nearest_fraction(read_length("1/16 in"), 8).inches == 0


def test_the_error_is_stated_when_it_matters():
    assert fractional_inches(read_length("5 mm")) == "13/64 in (+0.159 mm)"
    assert fractional_inches(read_length("44.45 mm")) == "1 3/4 in"
    assert fractional_inches(read_length("44.46 mm")) == "1 3/4 in"
    assert nearest_fraction(read_length("44.46 mm")).error_text == "-0.01 mm"


def test_an_unusual_fraction_is_refused_with_the_usual_ones():
    with pytest.raises(InputError) as caught:
        nearest_fraction(read_length("5 mm"), 10)
    assert str(caught.value) == (
        "10 is not a fraction of an inch that rules are divided in; write one of 1, 2, 4, 8, 16, 32, 64, 128."
    )


def test_both_systems_with_the_written_one_first():
    assert both(read_length("44.45")) == "44.45 mm (1 3/4 in)"
    assert both(read_length("1-3/4", unit="in")) == "1-3/4 in (44.45 mm)"
    assert both(Length.of_mm(5)) == "5 mm (13/64 in, +0.159 mm)"
    assert both(read_length("20 SWG")) == "20 SWG (0.91 mm)"


def test_decimals_and_steps():
    assert millimetres(Length.of_mm(1200)) == "1200 mm"
    assert millimetres(Length.of_mm(44.449), 1) == "44.4 mm"
    assert decimal_inches(Length.of_mm(5)) == "0.1969 in"
    assert rounded_to(Length.of_mm(44.46), Length.of_mm(0.5)).mm == 44.5


@given(st.fractions())
def test_decimal_text_has_no_exponent_and_no_idle_noughts(value):
    text = decimal_text(value, 6)
    assert abs(Fraction(text) - value) <= Fraction(1, 2_000_000)
    assert "e" not in text.lower()
    assert text != "-0"
    assert "." not in text or not text.endswith(("0", "."))
