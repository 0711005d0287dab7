"""Where geometry gives nought, nought is told, not the last bits of an angle turned into radians."""

from __future__ import annotations

import pytest

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator


@pytest.mark.parametrize(
    ("name", "given", "result"),
    [
        # An upright box of four sides has square corners: the blade stays upright for a butt joint.
        ("compound-angle", {"sides": "4", "lean": "0"}, "butt_tilt"),
        # A flat-ended cutter leaves no cone.
        ("blind-hole", {"designation": "M5", "full_thread": "8", "point": "180"}, "point_height"),
    ],
)
def test_a_nought_of_geometry_is_told_as_nought(name: str, given: dict[str, str], result: str) -> None:
    assert answer(find_calculator(name), given).results[result].value == 0.0


@pytest.mark.parametrize("section", ["tube 20 x 2 mm", "I 50 x 100 x 5 x 8 mm", "round 10 mm"])
def test_the_working_of_a_section_has_no_noise(section: str) -> None:
    lines = [
        step.line for step in answer(find_calculator("section-properties"), {"section": section}).working
    ]
    assert not [line for line in lines if "0.00000000" in line]


def test_the_area_of_one_piece_is_told_by_its_sizes() -> None:
    found = answer(find_calculator("section-properties"), {"section": "rectangle 20 x 35 mm"})
    assert found.working[0].line == "A = b h = 20 x 35 = 700 mm2"
