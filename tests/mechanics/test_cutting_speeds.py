"""Cutting speeds and growth with temperature: rules of thumb of the shop, ways back, refusals."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator
from calculators.mechanics.cutting_speeds import rim_speed_m_per_min, turns_per_min
from calculators.quantities.errors import InputError


def results(name, **inputs):
    return {key: one.value for key, one in answer(find_calculator(name), inputs).results.items()}


def refusals(name, **inputs):
    with pytest.raises(InputError) as caught:
        answer(find_calculator(name), inputs)
    return [(fault.field, fault.says) for fault in caught.value.faults]


@given(st.floats(0.1, 3000), st.floats(0.1, 500))
def test_turns_and_rim_speed_are_each_others_way_back(speed, diameter):
    assert rim_speed_m_per_min(turns_per_min(speed, diameter), diameter) == pytest.approx(speed)


@pytest.mark.parametrize(("feet", "inches"), [(100, 0.25), (90, 0.5), (300, 1.0)])
def test_the_inch_rule_of_four_times_speed_over_diameter(feet, inches):
    """RPM = 4 x surface feet a minute / diameter in inches, a rule of the shop, 5 % above 12/pi = 3.82."""
    turns = turns_per_min(feet * 0.3048, inches * 25.4)
    assert turns == pytest.approx(12 * feet / (math.pi * inches))
    assert turns == pytest.approx(4 * feet / inches, rel=0.05)


def test_a_drill_of_six_in_brass():
    found = results("cutting-speed", diameter="6 mm", material="brass", depth="12 mm")
    assert found["speed"] == 3000
    assert found["rim_speed"] == pytest.approx(math.pi * 6 * 3)
    assert found["feed"] == pytest.approx(3000 * 0.12)
    assert found["cutting_time"] == pytest.approx((12 + 3 / math.tan(math.radians(59))) / 360 * 60)


def test_the_machine_and_the_size_of_a_router_cutter_are_bounds():
    slow = results("cutting-speed", tool="lathe", diameter="100 mm", material="mild steel")
    assert slow["speed"] == pytest.approx(28_000 / (math.pi * 100))
    large = {"tool": "router cutter", "diameter": "50 mm", "made_of": "carbide", "machine_most": "24000 rpm"}
    assert results("cutting-speed", **large, cutting_speed="5000")["speed"] == 18_000
    small = {**large, "diameter": "3 mm", "material": "softwood"}
    assert results("cutting-speed", **small)["speed"] == 24_000


def test_refusals():
    assert refusals("cutting-speed", diameter="6") == [
        ("material", "Write the material, or the cutting_speed.")
    ]
    assert refusals("cutting-speed", tool="router cutter", diameter="6", material="mild steel") == [
        ("material", "Mild steel is not for a router; mill it, or write the cutting_speed.")
    ]
    assert refusals("cutting-speed", tool="router cutter", diameter="120", material="oak") == [
        ("diameter", "A router cutter's diameter is at most 90 mm here, not 120 mm.")
    ]
    assert [field for field, _ in refusals("cutting-speed", diameter="6", cutting_speed="5 mm")] == [
        "cutting_speed"
    ]


def test_growth_with_temperature():
    found = results("temperature-growth", length="1000 mm", material="steel", to_temperature="30 degC")
    assert found == {"growth": pytest.approx(0.117)}
    both = results("temperature-growth", length="1 m", material="brass", other="steel", to_temperature="86 F")
    assert both["growth_apart"] == pytest.approx(0.19 - 0.117)
    cold = results("temperature-growth", length="1 m", material="aluminium", to_temperature="-10 degC")
    assert cold["growth"] == pytest.approx(-0.693)
    assert [
        field for field, _ in refusals("temperature-growth", length="1 m", material="x", to_temperature="5")
    ] == ["material"]
