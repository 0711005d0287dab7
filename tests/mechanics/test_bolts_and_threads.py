"""Second opinions on tightening and stripping: work on the inclined plane, and the overlap of the profiles."""

from math import atan, cos, hypot, pi, radians, sqrt, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.hardware.threads import all_threads, find_thread
from calculators.mechanics.bolts import combined_stress_mpa, preload_n, scatter_row, torque_nm, torque_parts
from calculators.mechanics.set_screws import bore_reaction_n, holding_torque_nm, seated_torque_nm
from calculators.mechanics.stripping import alexander, shear_area_per_mm, stripping, widening
from calculators.mechanics.thread_extremes import thread_extremes
from calculators.mechanics.twisting import twist_off_most_nm, twist_off_nm
from calculators.mechanics.washer_bearing import bearing_opening_mm, ring_area_mm2, washers_for
from calculators.quantities.errors import InputError

THREADS = ["M3", "M5", "M8", "M12", "1/4 UNC", "1/2-13 UNC", "10-32", "1/4 BSW", "5/16 BSF", "2 BA", "6 BA"]


@given(torque=st.floats(0.01, 1000), k=st.floats(0.05, 0.6), d=st.floats(1, 50))
def test_torque_and_preload_go_back_and_forth(torque, k, d):
    assert torque_nm(preload_n(torque, k, d), k, d) == pytest.approx(torque)


@pytest.mark.parametrize("name", THREADS)
@pytest.mark.parametrize("friction", [0.05, 0.1, 0.15, 0.2])
def test_torque_against_the_work_of_one_turn(name, friction):
    """Work put in over a turn lifts the load by a pitch and rubs along the helix under the normal force.

    The force on the flank is found from the balance of forces: vertical equilibrium gives the normal force
    N (cos b cos h - m sin h) = F, h the helix angle and b the flank's slope across it. The rule of the
    standard leaves the helix's share out, which is under 2 % at these frictions.
    """
    thread, load = find_thread(name), 1000.0
    turn = pi * thread.pitch_diameter_mm
    helix = atan(thread.pitch_mm / turn)
    slope = cos(atan(tan(radians(thread.angle_deg / 2)) * cos(helix)))
    normal = load / (slope * cos(helix) - friction * (thread.pitch_mm / hypot(turn, thread.pitch_mm)))
    work = load * thread.pitch_mm + friction * normal * hypot(turn, thread.pitch_mm)
    exact = work / (2 * pi) / 1000
    found = torque_parts(load, thread.pitch_mm, thread.pitch_diameter_mm, thread.angle_deg, friction, 0, 0)
    assert found.total_nm == pytest.approx(exact, rel=0.02)
    assert found.total_nm <= exact


def test_without_friction_all_work_lifts_the_load():
    found = torque_parts(1000, 1.25, 7.188, 60, 0, 0, 11)
    assert found.total_nm * 2 * pi * 1000 == pytest.approx(1000 * 1.25)


def test_friction_under_the_head_by_adding_up_rings():
    """Even pressure over a ring: its mean radius lies a little outside the middle, under 3 % for a nut."""
    load, inside, outside, steps = 1000.0, 8.4, 13.0, 2000
    width = (outside - inside) / 2 / steps
    radii = [inside / 2 + (i + 0.5) * width for i in range(steps)]
    pressure = load / sum(2 * pi * r * width for r in radii)
    moment = sum(0.15 * pressure * 2 * pi * r * width * r for r in radii) / 1000
    found = torque_parts(load, 1.25, 7.188, 60, 0, 0.15, (inside + outside) / 2).head_nm
    assert found == pytest.approx(moment, rel=0.03)


def test_the_constants_of_the_rule_at_60_degrees():
    """0.159 and 0.577: the rule as it is printed for ISO threads."""
    found = torque_parts(1000, 1.0, 1.0, 60, 1.0, 0, 0)
    assert found.climb_nm == pytest.approx(0.15915, rel=1e-4)
    assert found.thread_nm == pytest.approx(0.57735, rel=1e-4)


def test_twisting_stress_by_adding_up_rings():
    area, torque = 36.6, 8.0
    d = sqrt(4 * area / pi)
    steps = 4000
    width = d / 2 / steps
    polar = sum(2 * pi * ((i + 0.5) * width) ** 3 * width for i in range(steps))
    _, shear, combined = combined_stress_mpa(10_000, torque, area)
    assert shear == pytest.approx(torque * 1000 * (d / 2) / polar, rel=1e-6)
    assert combined == pytest.approx(hypot(10_000 / area, sqrt(3) * shear))
    # Fully plastic: the same shear everywhere, so the moment is the sum of radius times area.
    plastic = sum(2 * pi * ((i + 0.5) * width) ** 2 * width for i in range(steps)) * 100 / 1000
    assert twist_off_most_nm(d, 100) == pytest.approx(plastic, rel=1e-6)
    assert twist_off_nm(d, 100) == pytest.approx(100 * polar / (d / 2) / 1000, rel=1e-6)


@pytest.mark.parametrize("name", THREADS)
def test_shear_areas_against_the_overlap_of_the_profiles(name):
    """Walk along one pitch of both profiles and add up where metal lies on the shearing cylinder.

    The bolt's thread at a radius r has metal where its straight flanks are wider than r says; it is half a
    pitch wide on its pitch cylinder. The share of a pitch that is metal, times the cylinder's girth, is the
    area for each millimetre of length.
    """
    thread = find_thread(name)
    e = thread_extremes(thread)
    slope, p, steps = tan(radians(thread.angle_deg / 2)), thread.pitch_mm, 40_000

    def bolt_radius(z):  # outline of the bolt's thread, its ridge's middle at z = 0
        return e.pitch_screw_mm / 2 + (p / 4 - abs(z)) / slope

    def nut_radius(z):  # inner outline of the nut's thread, its ridge's middle at z = 0
        return e.pitch_nut_mm / 2 - (p / 4 - abs(z)) / slope

    walk = [(i + 0.5) / steps * p - p / 2 for i in range(steps)]
    bolt_metal = sum(bolt_radius(z) >= e.minor_nut_mm / 2 for z in walk) / steps
    nut_metal = sum(nut_radius(z) <= e.major_screw_mm / 2 for z in walk) / steps
    bolt, nut = shear_area_per_mm(thread, e)
    assert bolt == pytest.approx(pi * e.minor_nut_mm * bolt_metal, rel=2e-4)
    assert nut == pytest.approx(pi * e.major_screw_mm * nut_metal, rel=2e-4)


def test_every_thread_of_the_tables_can_strip():
    for thread in all_threads():
        e = thread_extremes(thread)
        assert e.minor_nut_mm < e.major_screw_mm, thread.designation
        assert min(shear_area_per_mm(thread, e)) > 0, thread.designation


@given(
    name=st.sampled_from(THREADS), engaged=st.floats(0.5, 60), bolt=st.floats(100, 1400), nut=st.floats(100, 1400),
    bending=st.booleans(),
)  # fmt: skip
def test_at_the_engagement_needed_nothing_strips_before_the_bolt_breaks(name, engaged, bolt, nut, bending):
    thread = find_thread(name)
    needed = stripping(thread, engaged, bolt, nut, bending=bending).needed_mm
    if not 0.05 < needed < 400:
        return
    just = stripping(thread, needed * 1.0001, bolt, nut, bending=bending)
    short = stripping(thread, needed * 0.999, bolt, nut, bending=bending)
    assert just.first == "the bolt breaks"
    assert short.first != "the bolt breaks"
    # The length needed does not depend on the length that there is.
    assert just.needed_mm == pytest.approx(needed)


def test_a_stronger_nut_leaves_the_bolt_to_strip_first():
    thread = find_thread("M6")
    assert stripping(thread, 3, 800, 2000).first == "the bolt's thread strips"
    assert stripping(thread, 3, 800, 300).first == "the nut's thread strips"
    assert stripping(thread, 30, 800, 800).first == "the bolt breaks"


@given(ratio=st.floats(0.01, 10))
def test_alexanders_factors_stay_within_their_curves(ratio):
    bolt, nut = alexander(ratio)
    assert 0.75 < bolt <= 1.2
    assert 0.7 < nut <= 1.1


def test_a_nut_too_narrow_for_the_rule_is_refused():
    with pytest.raises(InputError) as caught:
        widening(10, 8)
    assert (
        str(caught.value) == "The nut is 10 mm wide, 1.25 of the diameter; the rule holds from 1.4, 11.2 mm."
    )


def test_a_way_of_tightening_that_there_is_not():
    with pytest.raises(
        InputError, match="'guess' is not a way of tightening that is listed; they are by hand,"
    ):
        scatter_row("guess")


@given(force=st.floats(1, 10_000), apart=st.floats(0, 180))
def test_two_grub_screws_push_as_their_forces_add_up(force, apart):
    across, along = force * (1 + cos(radians(apart))), force * sqrt(max(1 - cos(radians(apart)) ** 2, 0))
    assert bore_reaction_n(force, 2, apart) == pytest.approx(hypot(across, along), abs=1e-6 * force)


def test_opposite_grub_screws_do_not_press_the_shaft_on_its_bore():
    assert bore_reaction_n(100, 2, 180) == pytest.approx(0, abs=1e-9)
    assert holding_torque_nm(100, 10, 0.25, count=2, apart_deg=180) == pytest.approx(
        2 * 0.25 * 100 * 5 / 1000
    )


def test_the_hold_grows_with_the_shaft_and_the_points_with_their_square():
    assert holding_torque_nm(600, 12, 0.25) == pytest.approx(2 * holding_torque_nm(600, 6, 0.25))
    assert seated_torque_nm(4, 400, 10) == pytest.approx(4 * seated_torque_nm(2, 400, 10))


def test_the_opening_under_a_washer():
    assert bearing_opening_mm(7.0, 6.4) == 6.4  # not over a tenth wider
    assert bearing_opening_mm(7.1, 6.4) == 7.1
    assert bearing_opening_mm(7.1, None) == 7.1


@given(hole=st.floats(5, 12), strength=st.floats(1, 20))
def test_the_washers_of_the_tables_bear_their_rings(hole, strength):
    found = washers_for("M6", hole, strength)
    assert [each.bears_n for each in found] == sorted(each.bears_n for each in found)
    for each in found:
        opening = bearing_opening_mm(hole, each.size.inside_mm)
        assert each.bears_n == pytest.approx(strength * pi / 4 * (each.size.outside_mm**2 - opening**2))


def test_a_ring_without_metal_is_refused():
    with pytest.raises(InputError) as caught:
        ring_area_mm2(12, 12)
    says = "The hole of 12 mm leaves nothing of a washer of 12 mm to bear; give a larger washer."
    assert str(caught.value) == says
