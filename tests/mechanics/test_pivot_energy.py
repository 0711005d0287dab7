"""The moment and the stiffness of random levers against slopes and integrals of an energy worked out otherwise."""

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calculators.mechanics.pivot.balance import breaks, equilibria, largest_moment, nearest_stable, rests_on
from calculators.mechanics.pivot.energy import (
    energy,
    moment,
    moment_and_stiffness,
    place_of,
    reaction,
    shift_of,
    spring_length,
)
from calculators.mechanics.pivot.model import Lever, Load, Spring, weight
from calculators.mechanics.pivot.standing import reach_of

from .pivot_makers import carried, energy_otherwise, levers

ANGLES = st.floats(-3, 3)


def away_from_breaks(lever, angle, by):
    return all(abs(angle - each) > 4 * by for each in breaks(lever, -math.pi, math.pi)) and all(
        spring_length(lever, spring, angle) > 1.0 for spring in lever.springs
    )


@settings(deadline=None)
@given(levers(rolling=False), ANGLES)
def test_the_energy_is_the_same_worked_out_with_complex_numbers(lever, angle):
    assert energy(lever, angle) == pytest.approx(
        energy_otherwise(lever, angle), rel=1e-9, abs=1e-9 * largest_moment(lever)
    )


@settings(deadline=None)
@given(levers(), ANGLES)
def test_the_moment_is_the_slope_of_the_energy_and_the_stiffness_its_bend(lever, angle):
    by = 1e-3
    assume(away_from_breaks(lever, angle, by))
    # Five points: the error of the slopes goes with the fourth power of the step.
    e = [energy(lever, angle + place * by) for place in (-2, -1, 0, 1, 2)]
    slope = (e[0] - 8 * e[1] + 8 * e[3] - e[4]) / (12 * by)
    bend = (-e[0] + 16 * e[1] - 30 * e[2] + 16 * e[3] - e[4]) / (12 * by * by)
    turn, stiffness = moment_and_stiffness(lever, angle)
    size, last_bits = largest_moment(lever), 1e-14 * max(map(abs, e))
    assert -slope == pytest.approx(turn, abs=3e-6 * size + last_bits / by)
    assert bend == pytest.approx(stiffness, rel=1e-4, abs=3e-4 * size + last_bits / by**2)


@settings(deadline=None, max_examples=60)
@given(levers(), st.floats(-2.5, 0), st.floats(0.1, 2.5))
def test_the_moment_summed_over_a_travel_is_the_energy_given_off(lever, low, high):
    # A spring whose ends pass one another closely turns too sharply there for the steps of the sum.
    assume(all(reach_of(lever, spring, low, high)[0] > 5 for spring in lever.springs))
    edges = [low, *breaks(lever, low, high), high]
    total = 0.0
    for start, end in pairwise(edges):
        start, end, steps = start + 1e-10, end - 1e-10, 400
        for place in range(steps + 1):
            share = 1 if place in (0, steps) else 4 if place % 2 else 2
            total += (
                share * (end - start) / (3 * steps) * moment(lever, start + (end - start) * place / steps)
            )
    assert total == pytest.approx(energy(lever, low) - energy(lever, high), abs=2e-4 * largest_moment(lever))


@given(levers(), st.floats(-2, 2), st.floats(-100, 100), st.floats(-100, 100))
@settings(deadline=None, max_examples=60)
def test_a_rolling_edge_carries_every_point_as_a_turn_about_its_contact_does(lever, angle, x, y):
    found = place_of(lever, x, y, angle)
    other = carried(lever, complex(x, y), angle)
    assert found == pytest.approx((other.real, other.imag), abs=1e-6)


def test_the_slopes_of_the_shift_are_slopes():
    lever = Lever(edge_radius_mm=2.0, edge_points_rad=0.7)
    by = 1e-5
    for angle in (-1.2, 0.0, 0.4, 2.0):
        shift, slope, bend = shift_of(lever, angle)
        ahead, behind = shift_of(lever, angle + by), shift_of(lever, angle - by)
        for part in (0, 1):
            assert (ahead[0][part] - behind[0][part]) / (2 * by) == pytest.approx(slope[part], abs=1e-8)
            assert (ahead[1][part] - behind[1][part]) / (2 * by) == pytest.approx(bend[part], abs=1e-8)
        assert shift is not None


@given(levers())
@settings(deadline=None, max_examples=150)
def test_the_balances_are_all_the_least_and_greatest_places_of_the_energy(lever):
    low, high, steps = -2.9, 2.7, 3000
    step = (high - low) / steps
    found = equilibria(lever, low, high)
    e = [energy(lever, low + step * place) for place in range(steps + 1)]
    noise = 1e-12 * max(largest_moment(lever), *map(abs, e))
    for place in range(2, steps - 1):
        angle = low + step * place
        for sign, kind in ((1, "stable"), (-1, "unstable")):
            here, before, after = (sign * e[at] for at in (place, place - 1, place + 1))
            if here < before - noise and here < after - noise:
                # A flat bottom narrower than the steps looks like a least place; it is told as neutral.
                assert any(
                    each.kind in (kind, "neutral")
                    and each.angle_rad - 1.01 * step
                    <= angle
                    <= (each.angle_rad if each.to_rad is None else each.to_rad) + 1.01 * step
                    for each in found
                ), (kind, angle)
    for each in found:
        if each.kind == "neutral":
            middle = energy(lever, (each.angle_rad + each.to_rad) / 2)
            assert middle == pytest.approx(energy(lever, each.angle_rad), abs=1e3 * noise)
            continue
        by = min(1e-3, abs(each.angle_rad - low) / 2, abs(high - each.angle_rad) / 2)
        sides = [energy(lever, each.angle_rad + way * by) for way in (-1, 1)]
        here = energy(lever, each.angle_rad)
        sign = 1 if each.kind == "stable" else -1
        crowded = any(0 < abs(each.angle_rad - other.angle_rad) < 3e-3 for other in found)
        touches = (
            each.kind == "unstable"
            and each.stiffness is not None
            and abs(each.stiffness) < 1e-4 * noise * 1e12
        )
        if not crowded and not touches:
            assert all(sign * (side - here) > -10 * noise for side in sides), each


@given(levers())
@settings(deadline=None)
def test_stable_and_unstable_balances_follow_one_another(lever):
    found = equilibria(lever, -2.9, 2.7)
    if any(each.kind == "neutral" for each in found) or any(
        each.stiffness is not None and abs(each.stiffness) < 1e-6 * largest_moment(lever) for each in found
    ):
        return
    held = rests_on(lever, -2.9, 2.7)
    kinds = ["stable" if held[0] else None, *(each.kind for each in found), "stable" if held[1] else None]
    kinds = [each for each in kinds if each]
    assert all(one != other for one, other in pairwise(kinds)), kinds
    assert kinds.count("stable") == kinds.count("unstable") + 1


@given(levers(rolling=False), ANGLES)
@settings(deadline=None)
def test_the_pivot_holds_all_forces(lever, angle):
    r_x, r_y = reaction(lever, angle)
    # Cutting the lever loose from its pivot and shifting it a little, the energy changes by the pivot's work.
    by = 1e-4
    for x, y, part in ((by, 0.0, r_x), (0.0, by, r_y)):
        changes = []
        for way in (1, -1):
            anchors = tuple(
                Spring(s.x_mm, s.y_mm, s.anchor_x_mm - way * x, s.anchor_y_mm - way * y, s.rate_n_per_mm,
                       s.free_length_mm, s.kind, s.initial_tension_n)
                for s in lever.springs
            )  # fmt: skip
            shifted = energy(Lever(anchors), angle)
            for load in lever.loads:
                direction = load.direction_rad + (angle if load.follows else 0)
                shifted -= way * load.force_n * (x * math.cos(direction) + y * math.sin(direction))
            changes.append(shifted)
        if away_from_breaks(lever, angle, 0.01):
            assert (changes[0] - changes[1]) / (2 * by) == pytest.approx(part, abs=1e-3 + 1e-5 * abs(part))


def test_two_balances_that_lie_close_are_told_apart():
    # A weight on an upright arm against a flexure: M = W h sin a - k a, with k just under W h, has three
    # balances about 0, the outer ones where sin a / a = k / (W h).
    for share in (0.9999, 0.999999):
        lever = Lever(loads=(Load(0, 100, 10),), torsion_n_mm_per_rad=1000 * share)
        found = equilibria(lever, -3, 3)
        outer = math.sqrt(6 * (1 - share))
        assert [each.kind for each in found] == ["stable", "unstable", "stable"]
        assert [each.angle_rad for each in found] == pytest.approx([-outer, 0, outer], abs=2e-3 * outer)


def test_the_nearest_stable_balance_is_taken():
    lever = Lever(loads=(weight(0, 100, 1),), torsion_n_mm_per_rad=500)
    balance = nearest_stable(equilibria(lever, -3, 3))
    assert balance.angle_rad > 0
    assert math.sin(balance.angle_rad) / balance.angle_rad == pytest.approx(500 / 980.665, rel=1e-9)
