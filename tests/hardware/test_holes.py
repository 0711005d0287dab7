"""Clearance and tapping holes, the thread they leave, and what a blind hole needs."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.hardware.drills import drill_set, drills_of
from calculators.hardware.holes import (
    FITS,
    clearance_hole,
    drill_point_mm,
    engagement_percent,
    hole_for_percent,
    tap_lead_mm,
    tapping_hole,
)
from calculators.hardware.threads import all_threads, find_thread
from calculators.quantities.errors import InputError

ANY_THREAD = st.sampled_from(all_threads())
OWNED = drill_set("1.0-13.0 by 0.5; 1.0-6.0 by 0.1; number 1-60")


@pytest.mark.parametrize("thread", all_threads(), ids=lambda thread: thread.designation)
def test_clearance_holes_clear_and_grow_with_the_fit(thread):
    holes = [clearance_hole(thread, fit) for fit in FITS]
    assert thread.major_mm < holes[0].diameter_mm
    assert [hole.fit for hole in holes] == list(FITS)
    for tighter, looser in pairwise(holes):
        assert tighter.diameter_mm <= looser.diameter_mm
    for hole in holes:
        assert hole.drill is not None
        assert hole.drill.diameter_mm >= hole.diameter_mm - 0.0501
        assert hole.drill.diameter_mm > thread.major_mm
        # The next drill up is at most 1/32 in up in the coarsest part of the series.
        assert hole.drill.diameter_mm < hole.diameter_mm + 0.8


def test_clearance_sources_are_named():
    by_rule = clearance_hole(find_thread("4 BA"))
    assert clearance_hole(find_thread("M5")).source.standard.startswith("ISO 273")
    assert "ASME B18.2.8" in clearance_hole(find_thread("1/4-20")).source.standard
    assert "one fit only" in clearance_hole(find_thread("2 BA")).source.standard
    assert by_rule.source.confidence == "common practice"
    assert by_rule.diameter_mm == pytest.approx(3.9)  # 1.08 x 3.6 = 3.888, next drill up


def test_fits_of_unified_threads_are_the_drills_of_their_standard():
    """ASME B18.2.8 close, normal and loose for No. 10: drills #5, #2 and B."""
    assert [clearance_hole(find_thread("10-32"), fit).drill.name for fit in FITS] == ["#5", "#2", "B"]


def test_clearance_hole_from_the_drills_owned():
    assert clearance_hole(find_thread("5/16 BSF"), among=OWNED).drill.name == "8.5 mm"
    assert clearance_hole(find_thread("M16"), among=OWNED).drill is None


def test_a_wrong_fit():
    with pytest.raises(InputError, match=r"^A fit is close, medium or free\.$") as caught:
        clearance_hole(find_thread("M5"), "loose")
    assert caught.value.faults[0].choices == FITS


@pytest.mark.parametrize("thread", all_threads(), ids=lambda thread: thread.designation)
def test_recommended_tapping_drills_leave_a_usable_thread(thread):
    """Between half and nine tenths of the thread, and never a drill under the nut's minor diameter by 0.06 mm."""
    hole = tapping_hole(thread)
    assert 50 < hole.percent < 90
    assert hole.drill_mm > thread.minor_diameter_mm - 0.06
    assert hole.percent == pytest.approx(engagement_percent(thread, hole.drill_mm))
    assert hole.basis == thread.engagement_basis


def test_unpublished_tapping_drills_are_worked_out():
    hole = tapping_hole(find_thread("3/8 x 40 ME"))
    assert hole.source.confidence == "common practice"
    assert hole.hole_mm == pytest.approx(9.525 - 0.725 * 1.280654 * 0.635)


@pytest.mark.parametrize(
    ("name", "drill_mm", "percent"),
    [("5/16 BSF", 6.9, 70), ("2 BA", 4.1, 62), ("M6", 5.0, 77), ("6 BA", 2.4, 63), ("M22", 18.5, 108)],
)
def test_percentages_by_hand(name, drill_mm, percent):
    """(D - hole) / (full depth): 1.0375 / 1.4785, 0.6 / 0.972, 1 / 1.299, 0.4 / 0.636, 3.5 / 3.2476."""
    assert engagement_percent(find_thread(name), drill_mm) == pytest.approx(percent, abs=0.5)


@given(ANY_THREAD, st.floats(30, 100))
def test_percent_and_hole_are_each_others_inverse(thread, percent):
    assert engagement_percent(thread, hole_for_percent(thread, percent)) == pytest.approx(percent)


@given(ANY_THREAD, st.floats(30, 100))
def test_no_other_drill_is_nearer_to_the_engagement_asked_for(thread, percent):
    hole = tapping_hole(thread, engagement=percent)
    assert hole.hole_mm == pytest.approx(hole_for_percent(thread, percent))
    pool = drills_of(["number", "letter", "fractional"] if thread.is_unified else ["metric"])
    assert hole.drill in pool
    best = min(abs(drill.diameter_mm - hole.hole_mm) for drill in pool)
    assert abs(hole.drill_mm - hole.hole_mm) <= best + 1e-6


def test_tapping_from_the_drills_owned():
    hole = tapping_hole(find_thread("5/16 BSF"), engagement=70, among=OWNED)
    assert (hole.drill.name, round(hole.percent)) == ("7 mm", 63)


@pytest.mark.parametrize(
    ("engagement", "limit"), [(29.9, 30), (100.1, 100), (0, 30), (-5, 30), (math.inf, 100)]
)
def test_engagement_out_of_range(engagement, limit):
    with pytest.raises(InputError, match=r"must be from 30 to 100 percent of thread\.$") as caught:
        tapping_hole(find_thread("M5"), engagement=engagement)
    (fault,) = caught.value.faults
    assert (fault.field, fault.limit, fault.unit) == ("engagement", limit, "%")


def test_engagement_that_is_no_number():
    with pytest.raises(InputError):
        tapping_hole(find_thread("M5"), engagement=math.nan)
    with pytest.raises(InputError, match="over 0 mm wide"):
        engagement_percent(find_thread("M5"), math.nan)


def test_no_drill_to_tap_with():
    with pytest.raises(InputError, match="There is no drill near"):
        tapping_hole(find_thread("M5"), among=())


def test_drill_point():
    """118 degrees: 0.300 d (common practice, to two places); 90: half of d; 180: flat."""
    assert drill_point_mm(10) == pytest.approx(3.00, abs=0.005)
    assert drill_point_mm(10, 90) == pytest.approx(5)
    assert drill_point_mm(10, 180) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(
    ("diameter_mm", "point_deg"), [(0, 118), (-1, 118), (5, 0), (5, 181), (5, math.nan), (math.nan, 118)]
)
def test_drill_point_out_of_range(diameter_mm, point_deg):
    with pytest.raises(InputError, match="must be over 0"):
        drill_point_mm(diameter_mm, point_deg)


def test_tap_lead():
    thread = find_thread("M6")
    assert [tap_lead_mm(thread, tap) for tap in ("taper", "second", "plug")] == [9, 4.5, 1.5]
    with pytest.raises(InputError, match=r"^A tap is taper, second or plug\.$"):
        tap_lead_mm(thread, "bottom")
