"""A spread that reaches an open limit, as `1 ± 1 mm` where the input is over 0, is refused like one beyond it.

At the end of such a spread a calculator would be asked for what it is never given: a length of nought to
divide by. Common practice: no size in the hand is nought.
"""

from __future__ import annotations

import pytest

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator
from calculators.quantities.errors import InputError

REACHING = [
    ("photo-scale", "reference_pixels", "10 ± 100 %"),
    ("photo-scale", "pixels", "1 ± 1"),
    ("photo-scale", "distance", "10 mm ± 100 %"),
    ("spring", "travel", "1 ± 1 mm"),
    ("moisture", "oven_dry_mass", "10 ± 100 %"),
    ("cutting-speed", "cutting_speed", "10 ± 100 %"),
    ("string-frame", "offset", "1 ± 1 mm"),
    ("wood-movement", "width", "0.7 ± 100 %"),
    ("arc", "chord", "0.3 ± 0.3 mm"),
]


@pytest.mark.parametrize(("name", "field", "written"), REACHING)
def test_a_spread_down_to_an_open_limit_is_refused_at_its_input(name: str, field: str, written: str) -> None:
    calculator = find_calculator(name)
    with pytest.raises(InputError) as refused:
        answer(calculator, {**calculator.example, field: written})
    fault = refused.value.faults[0]
    assert fault.field == field
    assert fault.says.startswith("With its spread the ")
    assert " over 0" in fault.says


def test_a_spread_that_stops_short_of_the_limit_is_carried() -> None:
    movement = find_calculator("wood-movement")
    given = {**movement.example, "width": "10 ± 9.9 mm"}
    # D C dM is straight in D: 9.9 x 0.00365 x 4 (USDA Wood Handbook, eq. 13-2, from memory).
    assert answer(movement, given).results["movement"].spread == pytest.approx(9.9 * 0.00365 * 4, rel=1e-6)
