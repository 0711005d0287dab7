"""Second opinions on screws in wood: how the loads scale, where they stop, and that shares stay shares."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.materials.woods import gravity_at_12
from calculators.mechanics.held_screw import HeldScrew, held_loads
from calculators.mechanics.screw_surroundings import crushing_n, head_pull_through_n, pilot_band_mm, pilot_mm
from calculators.mechanics.screws_in_wood import (
    KINDS,
    depth_share,
    full_depth_d,
    gravity_on_12,
    lateral_row,
    side_member_factor,
    withdrawal_n,
)
from calculators.quantities.errors import InputError

gravities = st.floats(0.1, 1.3)
diameters = st.floats(1, 20)
depths = st.floats(1, 300)


@pytest.mark.parametrize(
    ("kind", "gravity", "diameter"), [("wood screw", 2, 1), ("coach screw", 1.5, 0.75), ("nail", 2.5, 1)]
)
@given(g=st.floats(0.1, 0.6), d=diameters, length=depths)
def test_doubling_scales_by_the_powers(kind, gravity, diameter, g, d, length):
    once = withdrawal_n(kind, g, d, length)
    assert withdrawal_n(kind, 2 * g, d, length) == pytest.approx(2**gravity * once)
    assert withdrawal_n(kind, g, 2 * d, length) == pytest.approx(2**diameter * once)
    assert withdrawal_n(kind, g, d, 2 * length) == pytest.approx(2 * once)


def test_the_coefficients_measured_at_unit_sizes():
    """Of unit gravity, diameter and length the load is the coefficient itself, in both systems of units."""
    assert withdrawal_n("wood screw", 1, 1, 1) == 108.25
    inch = withdrawal_n("wood screw", 1, 25.4, 25.4, "allowable") / 4.4482216152605
    assert inch == pytest.approx(2850)
    assert withdrawal_n("nail", 1, 25.4, 25.4, "ultimate ovendry") / 4.4482216152605 == pytest.approx(6900)


@given(green=st.floats(0.1, 0.9))
def test_gravity_keeps_the_mass_of_the_wood(green):
    """By shrinkage: volume at 12 % is V (1 - 0.265 x 0.6 Gb) of the green one, ovendry V (1 - 0.265 Gb)."""
    ovendry = green / (1 - 0.265 * green)
    assert gravity_on_12(green, "green") == pytest.approx(green / (1 - 0.265 * 0.6 * green))
    if ovendry <= 1.3:
        assert gravity_on_12(ovendry, "ovendry") == pytest.approx(gravity_at_12(green))
    assert gravity_on_12(green) == green


@pytest.mark.parametrize("kind", KINDS)
@given(g=gravities, depth=st.floats(0, 40))
def test_the_share_for_the_depth_is_a_share_and_grows(kind, g, depth):
    full = full_depth_d(kind, g)
    share = depth_share(kind, depth, full)
    assert 0 <= share <= 1
    assert depth_share(kind, depth + 1, full) >= share
    assert depth_share(kind, full, full) == 1


def test_the_share_at_the_edges():
    assert depth_share("wood screw", 4.0, 7) == pytest.approx(4 / 7)
    assert depth_share("wood screw", 3.999, 7) == 0
    assert depth_share("nail", 14 / 3, 14) == pytest.approx(1 / 3)
    assert depth_share("nail", 4.6, 14) == 0


@given(ratio=st.floats(0.01, 20))
def test_thicker_side_members_never_hold_less(ratio):
    assert 0 < side_member_factor(ratio) <= side_member_factor(ratio * 1.1) <= 1.22


def test_which_row_of_sideways_coefficients():
    assert lateral_row("softwood", 0.425)["gravity_least"] == "0.29"
    assert lateral_row("softwood", 0.43)["gravity_least"] == "0.43"
    assert lateral_row("softwood", 0.28) is None
    assert lateral_row("", 0.60)["group"] == "softwood"  # the smaller of the two
    assert lateral_row("", 0.30) is None


@given(head=st.floats(4, 40), thick=st.floats(1, 100), g=gravities)
def test_a_thicker_side_piece_or_wider_head_is_not_drawn_through_sooner(head, thick, g):
    load = head_pull_through_n(g, head, thick)
    assert head_pull_through_n(g, head, thick + 5) >= load * (1 - 1e-12)
    assert head_pull_through_n(g, head + 2, thick) >= load


def test_the_crushing_area_by_adding_up_rings():
    outside, hole, steps = 12.0, 6.4, 4000
    width = (outside - hole) / 2 / steps
    rings = sum(2 * 3.141592653589793 * (hole / 2 + (i + 0.5) * width) * width for i in range(steps))
    assert crushing_n(7.4, outside, hole) == pytest.approx(7.4 * rings)


@given(
    g=st.floats(0.3, 0.9), d=st.floats(2, 10), depth=st.floats(5, 100), factor=st.floats(1, 10),
    grain=st.sampled_from(["side", "end"]), kind=st.sampled_from(KINDS),
)  # fmt: skip
def test_the_working_load_is_never_above_what_bounds_it(g, d, depth, factor, grain, kind):
    screw = HeldScrew(
        kind=kind, shank_mm=d, root_mm=0.7 * d, penetration_mm=depth, gravity=g, grain=grain, factor=factor,
        side_mm=12, side_gravity=g, head_mm=2 * d, hole_mm=d,
    )  # fmt: skip
    found = held_loads(screw)
    assert found.working_n <= found.withdrawal_n / factor * (1 + 1e-12)
    assert found.working_n <= found.tension_n / 3 * (1 + 1e-12)
    assert found.working_n <= found.pull_through_n * (1 + 1e-12)
    assert found.lateral_n is None or found.lateral_n <= 1.22 * found.lateral_full_n
    if grain == "end":
        assert found.withdrawal_n == pytest.approx((0.5 if kind == "nail" else 0.75) * found.side_grain_n)


@given(g=gravities, hard=st.booleans(), d=st.floats(1, 20))
def test_the_pilot_to_begin_with_lies_within_its_band(g, hard, d):
    for kind in KINDS:
        least, most = pilot_band_mm(kind, g, hard, d, 0.7 * d)
        assert least <= pilot_mm(kind, g, hard, d, 0.7 * d) <= most < d


@pytest.mark.parametrize(
    ("kind", "load"), [("bolt", "ultimate"), ("coach screw", "allowable"), ("wood screw", "ultimate ovendry")]
)
def test_a_rule_that_there_is_not_is_refused(kind, load):
    with pytest.raises(InputError) as caught:
        withdrawal_n(kind, 0.5, 4, 20, load)
    says = f"There is no rule for the {load} withdrawal load of a {kind}; kinds are wood screw, coach screw, nail."
    assert str(caught.value) == says


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -1.0, 0.0])
def test_numbers_that_are_none_are_refused(value):
    with pytest.raises(InputError, match="specific gravity is"):
        withdrawal_n("nail", value, 4, 20)
