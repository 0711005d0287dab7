"""The contact of an edge against the elastic half-space that it presses, and against the statics of a V."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.mechanics.pivot.knife_edge import (
    contact_half_width,
    contact_modulus,
    contact_pressure,
    load_on_line,
    pressure_limit,
    relative_radius,
    swing_each_way,
)
from calculators.quantities.errors import InputError

LINES, ROUNDS, MODULI = st.floats(0.01, 1000), st.floats(0.005, 50), st.floats(1e4, 5e5)


@given(LINES, ROUNDS, MODULI)
def test_the_pressure_over_the_strip_carries_the_load(line, radius, modulus):
    half, most = contact_half_width(line, radius, modulus), contact_pressure(line, radius, modulus)
    steps = 2000
    # Half an ellipse over the strip, summed in equal angles.
    total = sum(
        most * math.sin(angle) * half * math.sin(angle) * math.pi / steps
        for angle in (math.pi * (place + 0.5) / steps for place in range(steps))
    )
    assert total == pytest.approx(line, rel=1e-6)


@given(LINES, ROUNDS, MODULI, st.floats(0.05, 0.9))
def test_the_surface_under_the_strip_takes_the_shape_of_the_edge(line, radius, modulus, where):
    # Slope of the surface of a half-space: 2/(pi E*) times the integral of p(s)/(x - s); it has to be x/R.
    half, most = contact_half_width(line, radius, modulus), contact_pressure(line, radius, modulus)
    x, steps = where * half, 4000

    def pressure(s):
        return most * math.sqrt(max(0.0, 1 - (s / half) ** 2))

    total = pressure(x) * math.log((half + x) / (half - x))
    for place in range(steps):
        angle = math.pi * (place + 0.5) / steps
        s = half * math.cos(angle)
        if abs(s - x) > 1e-9 * half:
            total += (pressure(s) - pressure(x)) / (x - s) * half * math.sin(angle) * math.pi / steps
    assert 2 * total / (math.pi * modulus) == pytest.approx(x / radius, rel=5e-3)


@given(st.floats(0, 1000), st.floats(0.1, 500), st.floats(5, 179))
def test_the_flanks_of_a_v_hold_the_load_between_them(load, length, v_angle):
    line = load_on_line(load, length, v_angle, rolls=False)
    # Each flank pushes square to itself, (180 - V)/2 off the line of the load.
    off = math.radians((180 - v_angle) / 2)
    assert 2 * line * length * math.cos(off) == pytest.approx(load, rel=1e-9, abs=1e-12)


def test_an_edge_that_rolls_bears_on_one_line():
    assert load_on_line(24, 12, 90, rolls=True) == load_on_line(24, 12, 180, rolls=False) == 2


@given(ROUNDS, st.floats(1.001, 100))
def test_a_hollow_eases_the_contact_and_a_wide_one_is_as_flat(radius, times):
    assert relative_radius(radius, times * radius) > radius
    assert relative_radius(radius, 1e9 * radius) == pytest.approx(radius, rel=1e-8)


def test_a_soft_bed_rules_the_modulus():
    # A rigid edge on a bed: E* is that of the bed alone.
    assert contact_modulus(1e15, 100_000) == pytest.approx(100_000 / 0.91, rel=1e-6)


@given(st.floats(1, 160), st.floats(0.5, 9))
def test_an_edge_that_leans_swings_as_far_in_all(edge, room):
    low, high = swing_each_way(edge, edge + 2 * room, 0.4 * room)
    assert high - low == pytest.approx(2 * room)
    assert (high + low) / 2 == pytest.approx(0.4 * room)


@pytest.mark.parametrize(
    "call",
    [
        lambda: swing_each_way(60, 60),
        lambda: swing_each_way(60, 181),
        lambda: swing_each_way(60, 70, 5.1),
        lambda: load_on_line(-1, 5, 90, rolls=False),
        lambda: relative_radius(0.05, 0.05),
        lambda: contact_modulus(0, 1),
        lambda: contact_half_width(1, 0, 1),
        lambda: contact_pressure(1, 1, 0),
        lambda: pressure_limit(0),
    ],
)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(InputError) as caught:
        call()
    assert str(caught.value).endswith(".")
