"""Units of liquids and of power: glue and finish are sold by them, motors are stated in them.

Full reference, from memory: NIST SP 811, Appendix B (gallon of 231 cubic inches; imperial gallon of 4.54609
litres; horsepower of 550 foot pounds-force a second), with the factors as printed there.
"""

from __future__ import annotations

import pytest

from calculators.quantities.errors import InputError
from calculators.quantities.reading import read_length
from calculators.quantities.units import factor, read_quantity

# From memory: NIST SP 811, Appendix B.8, rounded as it prints them; the tolerance is that rounding.
FACTORS = [
    ("US gal", "m3", 3.785412e-03),
    ("imp gal", "m3", 4.54609e-03),
    ("US pint", "m3", 4.731765e-04),
    ("US fl oz", "m3", 2.957353e-05),
    ("imp fl oz", "m3", 2.841306e-05),
    ("hp", "W", 7.456999e02),
    ("ml", "l", 1e-03),
]


@pytest.mark.parametrize(("source", "target", "printed"), FACTORS)
def test_the_factor_is_that_of_its_definition(source: str, target: str, printed: float) -> None:
    assert factor(source, target) == pytest.approx(printed, rel=5e-7)


@pytest.mark.parametrize("written", ["500 ml", "500 millilitres", "0.5 l"])
def test_a_tin_is_read_as_it_is_written(written: str) -> None:
    assert read_quantity(written, "l") == pytest.approx(0.5)


def test_a_gallon_of_no_country_is_asked_for_its_country() -> None:
    with pytest.raises(InputError) as refused:
        read_quantity("1 gal", "l")
    assert "US gal, imp gal" in refused.value.faults[0].says


def test_a_unit_of_no_length_is_named_as_it_was_written() -> None:
    with pytest.raises(InputError) as refused:
        read_length("600 N", field="span")
    assert refused.value.faults[0].says.startswith(
        "'600 N' has a unit that lengths are not measured in, 'N';"
    )
