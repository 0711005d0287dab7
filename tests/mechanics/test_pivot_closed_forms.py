"""Levers whose balance, stiffness, travel or period can be written down, against the calculation."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.mechanics.pivot.balance import equilibria, nearest_stable
from calculators.mechanics.pivot.energy import moment, moment_and_stiffness, reaction
from calculators.mechanics.pivot.friction import dead_zone
from calculators.mechanics.pivot.model import STANDARD_GRAVITY, Equilibrium, Lever, Load, Spring, weight
from calculators.mechanics.pivot.sensitivity import balance_changes, moved_anchor
from calculators.mechanics.pivot.standing import reach_of, stand, swing_period
from calculators.mechanics.pivot.travel import slack_angles, stop_angle, travel_ends
from calculators.quantities.errors import InputError

G = STANDARD_GRAVITY
SIZES = st.floats(1, 500)


@given(st.floats(0.01, 5), st.floats(0.01, 5), SIZES, SIZES, SIZES)
@settings(deadline=None)
def test_a_beam_with_two_weights_below_its_pivot(first, second, left, right, drop):
    lever = Lever(loads=(weight(-left, -drop, first), weight(right, -drop, second)))
    balance = nearest_stable(equilibria(lever, -math.pi, math.pi))
    expected = math.atan2(first * left - second * right, (first + second) * drop)
    assert balance.angle_rad == pytest.approx(expected, abs=1e-9)
    # At its balance the centre of mass hangs under the pivot: K = W times its distance.
    gone = math.hypot(second * right - first * left, (first + second) * drop)
    assert balance.stiffness == pytest.approx(G * gone, rel=1e-9)
    assert reaction(lever, balance.angle_rad)[1] == pytest.approx(G * (first + second))


@given(st.floats(0.01, 3), st.floats(0.01, 3), SIZES, SIZES)
@settings(deadline=None)
def test_an_upright_pendulum_held_by_two_level_springs(rate, mass, high, away):
    lever = Lever(
        (
            Spring(0, high, away, high, rate, away, "both"),
            Spring(0, high, -away, high, rate, away, "both"),
        ),
        (weight(0, high, mass),),
    )
    turn, stiffness = moment_and_stiffness(lever, 0.0)
    expected = 2 * rate * high**2 - mass * G * high
    size = 2 * rate * high**2 + mass * G * high
    assert turn == pytest.approx(0, abs=1e-9 * size)
    assert stiffness == pytest.approx(expected, abs=1e-9 * size)
    if abs(expected) > 1e-6 * size:
        middle = min(equilibria(lever, -0.5, 0.5), key=lambda each: abs(each.angle_rad))
        assert middle.kind == ("stable" if expected > 0 else "unstable")


@given(st.floats(0.01, 3), SIZES, st.floats(1, 100), st.floats(0, 0.9))
@settings(deadline=None)
def test_two_opposed_springs_on_a_level_lever(rate, arm, gap, relaxed):
    # Springs square to the lever: what they pull is balanced, K = 2 k r^2, however far they are stretched.
    free = relaxed * gap
    lever = Lever(tuple(Spring(arm, 0, arm, side * gap, rate, free) for side in (1, -1)))
    balance = nearest_stable(equilibria(lever, -0.01, 0.01))
    assert balance.angle_rad == pytest.approx(0, abs=1e-9)
    assert balance.stiffness == pytest.approx(2 * rate * arm**2, rel=1e-9)


@given(st.floats(0.01, 3), SIZES, SIZES, st.floats(0, 20))
@settings(deadline=None)
def test_a_stretched_spring_in_line_with_the_lever(rate, arm, beyond, tension):
    # As a string: K = F r (r + d)/d, F the pull, r the arm, d the length of the spring.
    lever = Lever((Spring(arm, 0, arm + beyond, 0, rate, beyond / 2, "extension", tension),))
    pull = tension + rate * beyond / 2
    assert moment(lever, 0.0) == pytest.approx(0, abs=1e-9)
    expected = pull * arm * (arm + beyond) / beyond
    assert moment_and_stiffness(lever, 0.0)[1] == pytest.approx(expected, rel=1e-9)


@given(SIZES, SIZES, SIZES, st.floats(0.05, 5))
@settings(deadline=None)
def test_a_spring_whose_free_length_is_nought_carries_a_weight_at_every_angle(arm, above, out, mass):
    # k r h = W l: the energies of the spring and of the weight always make the same sum.
    rate = mass * G * out / (arm * above)
    lever = Lever((Spring(arm, 0, 0, above, rate, 0),), (weight(out, 0, mass),))
    found = equilibria(lever, -1.5, 1.5)
    assert [each.kind for each in found] == ["neutral"]
    assert (found[0].angle_rad, found[0].to_rad) == (-1.5, 1.5)
    stood = stand(lever, (-1.5, 1.5))
    assert stood.balance is None
    assert stood.rest_rad == 0.0


@given(st.floats(0.001, 10), st.floats(1, 1000))
def test_a_simple_pendulum_swings_in_its_time(mass, long):
    _, stiffness = moment_and_stiffness(Lever(loads=(weight(0, -long, mass),)), 0.0)
    period = swing_period(mass * (long / 1000) ** 2, stiffness / 1000)
    assert period == pytest.approx(2 * math.pi * math.sqrt(long / 1000 / G), rel=1e-9)


@given(st.floats(0.01, 1), st.floats(0.5, 10), st.floats(30, 500))
@settings(deadline=None)
def test_friction_in_the_pin_holds_a_pendulum_off_the_plumb_line(friction, radius, long):
    # W l sin a = u W r
    lever = Lever(loads=(weight(0, -long, 2),))
    low, high = dead_zone(lever, 0.0, (-math.pi / 2, math.pi / 2), friction, radius)
    expected = math.asin(friction * radius / long)
    assert high == pytest.approx(expected, rel=1e-9)
    assert low == pytest.approx(-expected, rel=1e-9)


@given(st.floats(0.1, 20), st.floats(-100, 100))
def test_a_rocker_stands_while_its_weight_is_below_the_middle_of_its_round(radius, high):
    # A round of radius r on a flat bed, the weight at a height h over the contact: K = W (r - h).
    lever = Lever(loads=(weight(0, high, 1),), edge_radius_mm=radius)
    turn, stiffness = moment_and_stiffness(lever, 0.0)
    assert turn == pytest.approx(0, abs=1e-9)
    assert stiffness == pytest.approx(G * (radius - high), abs=1e-9)


def test_springs_that_are_slack_let_the_lever_float():
    lever = Lever(tuple(Spring(100, 0, 100, side * 30, 0.2, 32) for side in (1, -1)))
    stood = stand(lever, (-0.3, 0.3))
    assert stood.balance is None
    assert stood.floats.kind == "neutral"
    # Slack until one of them is longer than its free length: 100 sin a + 30 = 32, nearly.
    one = [angle for number, angle in slack_angles(lever, -0.3, 0.3) if number == 2]
    assert stood.floats.to_rad == pytest.approx(max(one))
    x, y = 100 * math.cos(one[-1]) - 100, 100 * math.sin(one[-1]) + 30
    assert math.hypot(x, y) == pytest.approx(32, abs=1e-9)


def test_initial_tension_holds_a_lever_fast_between_two_springs():
    # Two springs just at their free length: neither begins to open below its initial tension.
    lever = Lever(tuple(Spring(100, 0, 100, side * 30, 0.2, 30, "extension", 0.6) for side in (1, -1)))
    (held,) = equilibria(lever, -0.1, 0.1)
    assert held.kind == "stable"
    assert held.angle_rad == pytest.approx(0, abs=1e-9)
    assert held.stiffness is None
    assert held.holds_n_mm == pytest.approx((-60, 60), abs=1e-5)


def test_a_spring_that_takes_up_at_the_middle_has_a_stiffness_to_either_side():
    lever = Lever(tuple(Spring(100, 0, 100, side * 30, 0.2, 30) for side in (1, -1)))
    (found,) = equilibria(lever, -0.1, 0.1)
    assert found.kind == "stable"
    assert found.stiffness == pytest.approx(0.2 * 100**2, rel=1e-6)


def test_what_stops_a_lever_is_the_first_thing_that_it_meets():
    closing = Spring(100, 0, 100, -30, 1, 35, "compression", solid_mm=20)
    opening = Spring(100, 0, 100, 30, 1, 25, longest_mm=45)
    low, high = travel_ends(Lever((closing, opening)), (-0.5, 0.5))
    # The compression spring closes 10 mm down, the other is at its longest 15 mm down.
    assert low.what == "spring 1 closed solid"
    x, y = 100 * math.cos(low.angle_rad) - 100, 100 * math.sin(low.angle_rad) + 30
    assert math.hypot(x, y) == pytest.approx(20)
    assert (high.angle_rad, high.what) == (0.5, "the high stop")
    low, _ = travel_ends(Lever((closing, opening)), (-0.05, 0.5))
    assert low.what == "the low stop"
    low, _ = travel_ends(Lever((opening,)), (-0.5, 0.5))
    assert low.what == "spring 1 at its longest"
    low, high = travel_ends(Lever((opening,)), (-0.5, 0.5), [(-0.1, 0.2, "the limit of the flexure")])
    assert (low.angle_rad, high.what) == (-0.1, "the limit of the flexure")


def test_a_spring_that_is_closed_as_drawn_stops_the_lever_at_once():
    lever = Lever((Spring(100, 0, 100, -20, 1, 35, "compression", solid_mm=20),))
    low, high = travel_ends(lever, (-0.5, 0.5))
    assert (low.angle_rad, low.what) == (0.0, "spring 1 closed solid")
    assert high.angle_rad == 0.5


def test_nothing_stops_a_lever_that_turns_round_and_round():
    low, high = travel_ends(Lever(loads=(weight(10, 0, 1),)), (None, None))
    assert (low.angle_rad, high.angle_rad) == (-math.pi, math.pi)
    assert low.what == "nothing, within half a turn"


@given(st.floats(0, 200), st.floats(1, 500), st.floats(0, 50))
def test_the_lever_touches_the_tip_of_the_stop_at_its_angle(gap, radius, width):
    angle = stop_angle(gap, radius, width)
    # The tip's distance from the lever's axis is half its width.
    off = (gap + width / 2) * math.cos(angle) - radius * math.sin(angle)
    assert off == pytest.approx(width / 2, abs=1e-9)
    assert 0 <= angle < math.pi / 2


def test_a_beam_without_a_stable_balance_falls_the_way_it_leans():
    leaning = Lever(loads=(weight(1, 100, 1),))
    stood = stand(leaning, (-0.3, 0.4))
    assert (stood.balance, stood.rest_rad, stood.held) == (None, -0.3, (True, True))
    stood = stand(Lever(loads=(weight(-1, 100, 1),)), (-0.3, 0.4))
    assert stood.rest_rad == 0.4


@given(st.floats(0.05, 2), st.floats(20, 200), st.floats(5, 60), st.floats(0.05, 0.8))
@settings(deadline=None)
def test_a_small_change_turns_the_balance_as_its_slope_says(rate, arm, gap, mass):
    lever = Lever(
        (Spring(arm, 0, arm - 5, gap, rate, gap / 2), Spring(arm, 0, arm, -gap, rate, gap / 2)),
        (weight(2 * arm, 3, mass),),
    )
    balance = nearest_stable(equilibria(lever, -0.7, 0.7))
    if balance is None or balance.stiffness is None or abs(balance.angle_rad) > 0.5:
        return
    if any(abs(angle - balance.angle_rad) < 0.01 for _, angle in slack_angles(lever, -0.7, 0.7)):
        return
    if balance.stiffness < 0.1 * rate * arm**2:
        return
    told = {each.what: each.turn_rad for each in balance_changes(lever, balance.angle_rad, balance.stiffness)}
    first, second = lever.springs
    by = 1e-3
    for what, changed, share in (
        ("spring 1 free length", (Spring(arm, 0, arm - 5, gap, rate, gap / 2 + by), second), by),
        ("spring 1 anchor y", (Spring(arm, 0, arm - 5, gap + by, rate, gap / 2), second), by),
        ("spring 2 x", (first, Spring(arm + by, 0, arm, -gap, rate, gap / 2)), by),
        ("spring 2 rate", (first, Spring(arm, 0, arm, -gap, rate * (1 + 1e-5), gap / 2)), 1e-3),
    ):
        now = nearest_stable(equilibria(Lever(changed, lever.loads), -0.7, 0.7))
        moved = (now.angle_rad - balance.angle_rad) / share
        assert moved == pytest.approx(told[what], rel=1e-2, abs=1e-6), what


def test_an_anchor_is_moved_along_its_spring():
    moved = moved_anchor(Spring(100, 0, 130, 40, 1, 30), 10)
    assert (moved.anchor_x_mm, moved.anchor_y_mm) == (136, 48)
    meeting = Spring(100, 0, 100, 0, 1, 30)
    assert moved_anchor(meeting, 10) == meeting


def test_a_spring_over_its_dead_point_is_shortest_there():
    shortest, longest = reach_of(Lever(), Spring(0, 50, 0, 80, 1, 10), -0.5, 0.5)
    assert shortest == 30
    assert longest == pytest.approx(math.sqrt(50**2 + 80**2 - 2 * 50 * 80 * math.cos(0.5)))


def test_a_spring_pushed_through_its_dead_point_throws_over():
    # A compression spring between pivot-side anchor and lever: unstable in the middle, stable at neither side
    # but against the stops.
    lever = Lever((Spring(0, 50, 0, 80, 1, 45, "compression"),))
    found = equilibria(lever, -0.3, 0.3)
    assert found == (Equilibrium(pytest.approx(0, abs=1e-9), "unstable", found[0].stiffness),)
    assert found[0].stiffness < 0
    assert stand(lever, (-0.3, 0.3)).held == (True, True)


@pytest.mark.parametrize(
    ("spring", "says"),
    [
        (
            Spring(100, 0, 100, 15, 1, 30, "compression", solid_mm=20),
            "Spring 1 is 15 mm long in the lever as drawn, shorter than its solid length of 20 mm; move its "
            "anchor or draw the lever at an angle that it can take.",
        ),
        (
            Spring(100, 0, 100, 50, 1, 30, longest_mm=45),
            "Spring 1 is 50 mm long in the lever as drawn, longer than its longest of 45 mm; move its anchor "
            "or draw the lever at an angle that it can take.",
        ),
    ],
)
def test_a_lever_drawn_beyond_a_limit_is_refused(spring, says):
    with pytest.raises(InputError) as caught:
        travel_ends(Lever((spring,)), (-1, 1))
    assert str(caught.value) == says


def test_a_lever_without_room_is_refused():
    with pytest.raises(InputError) as caught:
        stand(Lever(loads=(Load(1, 0, 1),)), (0.0, 0.0))
    assert str(caught.value) == (
        "The lever has no room to move: the low stop and the high stop both hold it as drawn; write stops with "
        "an angle between them."
    )
