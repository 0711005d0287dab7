"""A conversion keeps what is known of its value: `4.7 ± 0.05 mm` in inches has its spread in inches.

The factors are those of the definitions: the inch of 25.4 mm, NIST SP 811 (from memory), and 9 degrees of
Fahrenheit for 5 of Celsius.
"""

from __future__ import annotations

import pytest

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator
from calculators.quantities.errors import InputError

CONVERT = find_calculator("convert")


@pytest.mark.parametrize(
    ("written", "to", "value", "spread"),
    [
        ("4.7 ± 0.05 mm", "in", 4.7 / 25.4, 0.05 / 25.4),
        ("4.7 ± 0.05 mm", "mm", 4.7, 0.05),
        ("1/4 in ± 0.1 mm", "mm", 6.35, 0.1),
        ("50 mm ± 10 %", "in", 50 / 25.4, 5 / 25.4),
        ("20 ± 1 degC", "degF", 68, 1.8),
        ("68 degF ± 9 degF", "degC", 20, 5),
        ("100 N ± 5 %", "N", 100, 5),
        ("10 ± 1 lbf", "N", 44.482216, 4.4482216),
        ("20 % ± 3 %", "%", 20, 3),
    ],
)
def test_the_spread_is_converted_with_the_value(written: str, to: str, value: float, spread: float) -> None:
    found = answer(CONVERT, {"value": written, "to": to}).results["value"]
    assert found.value == pytest.approx(value, rel=1e-7)
    assert found.spread == pytest.approx(spread, rel=1e-7)


def test_the_nearest_fraction_is_as_far_off_as_the_length() -> None:
    found = answer(CONVERT, {"value": "4.7 ± 0.05 mm", "to": "in"})
    assert found.results["fraction"].value == "3/16 in"
    assert (found.results["error"].value, found.results["error"].spread) == (0.0625, 0.05)
    assert [step.spread for step in found.working] == pytest.approx([0.05 / 25.4, 0.05])


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ("5 ±", "'5 ±' has nothing after the ±; write how far it may be off, as in 5 ± 0.1."),
        ("5 ± -1 mm", "'-1 mm' is not a spread; write more than nought after the ± of value."),
        ("5 ± 0 mm", "'0 mm' is not a spread; write more than nought after the ± of value."),
    ],
)
def test_what_is_no_spread_is_refused(written: str, says: str) -> None:
    with pytest.raises(InputError) as refused:
        answer(CONVERT, {"value": written, "to": "in"})
    assert [(fault.field, fault.says) for fault in refused.value.faults] == [("value", says)]
