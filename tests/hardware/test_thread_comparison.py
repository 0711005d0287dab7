"""A screw in a nut: worked pairs, and the same by other ways: by hand, by shifting teeth, by the rule of tangents."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.hardware.thread_comparison import compare_threads, same_thread
from calculators.hardware.thread_limits import iso_formulas_um, limits_of, preferred
from calculators.hardware.thread_profile import STATES, nut_profile, play_mm, screw_profile
from calculators.hardware.threads import all_threads, find_thread
from calculators.tables import load

ALL = all_threads()
ANY = st.sampled_from(ALL)

# Basic sizes worked by hand: accumulated pitch, slack of the major diameters, freedom of the pitch lines.
WORKED = (
    # One pitch, 55 and 60 degrees: the BSF screw, 0.06 smaller, enters; the other way is tight.
    ("3/16 BSF", "10-32", "fits"),
    ("10-32", "3/16 BSF", "binds"),
    # 0.17 mm of slack: goes in and is weak; 0.17 mm tight: jams.
    ("10-32", "M5", "loose"),
    ("M5", "10-32", "binds"),
    ("3/16 BSF", "M5", "loose"),
    ("M5", "3/16 BSF", "binds"),
    # The pitch is 2 % out.
    ("2 BA", "3/16 BSF", "binds"),
    ("3/16 BSF", "2 BA", "binds"),
    ("2 BA", "10-32", "binds"),
    ("10-32", "2 BA", "binds"),
    # 0.3 mm of slack, the pitch 1.2 % out, which the slack outlasts.
    ("2 BA", "M5", "loose"),
    ("M5", "2 BA", "binds"),
    # 26 and 28 threads to the inch, 0.9071 and 1.0 mm.
    ("1/4 BSF", "1/4 UNF", "different"),
    ("1/4 UNF", "1/4 BSF", "different"),
    ("1/4 UNF", "M6", "different"),
    ("M6", "1/4 UNF", "different"),
    # 0.35 mm too large for an M6 or 0 BA nut; an M6 in a 1/4 BSF nut is 0.35 mm slack.
    ("1/4 BSF", "M6", "binds"),
    ("M6", "1/4 BSF", "loose"),
    ("1/4 BSF", "0 BA", "binds"),
    ("0 BA", "1/4 BSF", "loose"),
    # One size and pitch, 47.5 and 60 degrees: fits by hand.
    ("0 BA", "M6", "fits"),
    ("M6", "0 BA", "fits"),
    ("1/4 BSW", "1/4 UNC", "fits"),
    ("1/4 UNC", "1/4 BSW", "fits"),
    ("1/2 BSW", "1/2 UNC", "different"),
    ("1/2 UNC", "1/2 BSW", "different"),
    # The pitches are within 0.2 %, so the flanks' room decides: the screw 0.045 smaller enters, the other not.
    ("6 BA", "4-48", "fits"),
    ("4-48", "6 BA", "binds"),
    # Said to be the same; the pitches are 15 % apart.
    ("5-44", "M3", "different"),
    # 0.66, 0.6 and 0.794 mm of pitch: 10 %, 20 %, 32 % out.
    ("4 BA", "M3.5", "different"),
    ("M3.5", "4 BA", "different"),
    ("4 BA", "6-32", "different"),
    ("6-32", "4 BA", "different"),
    ("M3.5", "6-32", "different"),
    ("6-32", "M3.5", "different"),
)  # fmt: skip


def compared(screw, nut, engagement=None, **more):
    one, other = find_thread(screw), find_thread(nut)
    return compare_threads(one, other, engagement or one.major_mm, **more)


@pytest.mark.parametrize(("screw", "nut", "verdict"), WORKED)
def test_worked_pairs(screw, nut, verdict):
    assert compared(screw, nut).verdict == verdict


def test_2_ba_in_3_16_bsf_by_hand():
    """0.81 - 25.4/32 = 0.01625 a turn; 4.2542 - 4.214 = 0.0402, times tan 23.75: 0.0177; one turn, then 2 to 4."""
    found = compared("2 BA", "3/16 BSF")
    assert found.pitch_difference_mm == pytest.approx(0.01625)
    assert found.pitch_error_mm == pytest.approx(0.01625 * 4.7 / 0.81)
    assert found.freedom_mm == pytest.approx(
        (4.7625 - 0.640327 * 0.79375 - 4.214) * math.tan(math.radians(23.75))
    )
    assert found.freedom_mm / found.pitch_difference_mm == pytest.approx(1.09, abs=0.005)
    assert 2 < found.turns["ordinary"] < 4


@pytest.mark.parametrize(
    ("screw", "nut", "says"),
    [
        ("M5", "10-32", "The screw is 0.17 mm larger than the nut's thread on basic sizes: it is tight and jams."),
        ("10-32", "M5", "The screw is 0.17 mm smaller than the nut's thread on basic sizes: the flanks overlap by "
         "81 % of what they should."),
        ("0 BA", "M6", "The flanks are at 47.5 and 60 degrees: they bear on a line near the screw's crest, not "
         "over the flanks, and hold less than a thread of one form."),
        ("1/4 BSF", "1/4 x 26 BSB", "Both are one thread by two names."),
        ("M4", "M8", "An ordinary screw drops through the nut, whose bore is 2.87 mm larger than the screw's thread."),
        ("M8 x 1", "M7", "The screw is 1.00 mm larger than the nut's thread: it does not enter."),
    ],
)  # fmt: skip
def test_why(screw, nut, says):
    assert says in compared(screw, nut).why


def test_left_hand_in_right_hand_goes_not_a_turn():
    found = compared("M8", "M8", same_hand=False)
    assert (found.verdict, found.why) == (
        "different",
        ("One is right-handed, the other left-handed: not a turn goes in.",),
    )


@pytest.mark.parametrize("state", STATES)
def test_a_thread_in_its_own_nut_has_the_play_of_the_rule_of_tangents(state):
    """One form: the flanks touch first, and each way there is (D2 - d2)/2 tan a; all sizes of the tables."""
    for thread in ALL:
        screw, nut = screw_profile(thread, state), nut_profile(thread, state)
        rule = (
            (nut.pitch_diameter_mm - screw.pitch_diameter_mm)
            / 2
            * math.tan(math.radians(thread.angle_deg / 2))
        )
        assert play_mm(screw, nut) == pytest.approx(rule, abs=1e-6), thread.designation
        assert rule >= 0


def in_tooth(screw, z, r):
    """Whether a point is metal of a tooth: under the crest, between flanks, and under its rounding."""
    if r > screw.major_mm / 2 or abs(z) > screw.pitch_mm / 2:
        return False
    if r < screw.minor_mm / 2:
        return True
    if abs(z) > screw.pitch_mm / 4 - (r - screw.pitch_diameter_mm / 2) * math.tan(screw.half_angle):
        return False
    centre, radius = screw.major_mm / 2 - screw.round_mm, screw.round_mm
    return (
        not radius or r < centre + radius * math.sin(screw.half_angle) or math.hypot(z, r - centre) <= radius
    )


def in_groove(nut, z, r):
    """Whether a point is free in a groove, or in the bore."""
    if r < nut.minor_mm / 2:
        return True
    shape = screw_like(nut)
    return in_tooth(shape, z, r)


def screw_like(nut):
    return type(nut)(nut.major_mm, nut.pitch_diameter_mm, 0.0, nut.pitch_mm, nut.half_angle, nut.round_mm)


@pytest.mark.parametrize(
    ("screw", "nut"),
    [("2 BA", "3/16 BSF"), ("3/16 BSF", "10-32"), ("10-32", "3/16 BSF"), ("10-32", "M5"), ("M6", "0 BA"),
     ("0 BA", "M6"), ("1/4 BSW", "1/4 UNC"), ("1/4 UNC", "1/4 BSW"), ("6-32", "4 BA"), ("2 BA", "M5")],
)  # fmt: skip
def test_play_by_shifting_a_cloud_of_points(screw, nut):
    """The tooth as a cloud of points is shifted until one of them is in the nut's metal."""
    tooth, groove = screw_profile(find_thread(screw), "ordinary"), nut_profile(find_thread(nut), "ordinary")
    low, high = groove.minor_mm / 2, tooth.major_mm / 2
    cloud = []
    for row in range(200):
        r = low + (high - low) * (row + 0.5) / 200
        edge = next(z / 4000 for z in range(4000, -1, -1) if in_tooth(tooth, z / 4000, r))
        cloud += [(edge, r), (-edge, r)]

    def free(shift):
        return all(in_groove(groove, z + shift, r) for z, r in cloud)

    by_shifting = 0.0
    while free(by_shifting + 0.0005) and by_shifting < 0.3:
        by_shifting += 0.0005
    assert play_mm(tooth, groove) == pytest.approx(by_shifting, abs=0.0015)


@given(st.floats(0.0005, 0.2), st.floats(0.001, 0.2))
def test_turns_are_those_after_which_no_lean_is_left(play, difference):
    """Tooth k is k dp off: some lean between -f and f must keep every tooth within -f and f."""
    whole = 0
    while whole < 1000:
        offsets = [k * difference for k in range(whole + 2)]
        lean = -play - min(offsets)
        if lean + max(offsets) > play + 1e-12:
            break
        whole += 1
    assert whole == min(1000, math.floor(2 * play / difference + 1e-9))


@given(ANY, ANY, st.floats(0.2, 60))
@settings(max_examples=400)
def test_every_pair_has_a_verdict_and_slack_is_never_tighter(screw, nut, engagement):
    found = compare_threads(screw, nut, engagement)
    assert found.verdict in {"fits", "binds", "loose", "different"}
    assert found.why
    assert found.plays_mm["tight"] <= found.plays_mm["ordinary"] + 1e-9
    assert found.plays_mm["ordinary"] <= found.plays_mm["slack"] + 1e-9
    assert 0 <= found.share <= 100
    assert all(turns is None or math.isfinite(turns) for turns in found.turns.values())
    if found.verdict in {"fits", "loose"}:
        turns = found.turns["ordinary"]
        assert turns is None or turns >= found.threads_engaged


@pytest.mark.parametrize("thread", ALL, ids=[each.designation for each in ALL])
def test_a_thread_fits_its_own_nut(thread):
    found = compare_threads(thread, thread, thread.major_mm)
    assert (found.verdict, found.share) == ("fits", pytest.approx(100))
    assert found.turns == dict.fromkeys(STATES)


def test_one_thread_by_two_names():
    assert same_thread(find_thread("1/8 BSW"), find_thread("1/8 x 40 ME"))
    assert not same_thread(find_thread("1/4 BSW"), find_thread("1/4 UNC"))


def test_longer_engagement_binds_where_a_shorter_one_fits():
    assert compared("2 BA", "3/16 BSF", 2.0).verdict == "fits"
    assert compared("2 BA", "3/16 BSF", 3.0).verdict == "binds"


@pytest.mark.parametrize("thread", ALL, ids=[each.designation for each in ALL])
def test_limits_are_in_order_and_reasonable(thread):
    """Every tolerance is over nought, and even the smallest screw in the largest nut still holds."""
    limits = limits_of(thread)
    assert limits.allowance_mm >= 0
    for least, most in (limits.screw_major_mm, limits.screw_pitch_diameter_mm, limits.nut_pitch_diameter_mm,
                        limits.nut_minor_mm):  # fmt: skip
        assert 0 < least < most
    assert limits.screw_major_mm[0] > limits.nut_minor_mm[1]


def test_iso_tables_are_within_a_preferred_number_of_their_formulas():
    """The tables are from memory: each stands where the standard's own formula puts it, or one number beside."""
    rows = [(row, row.number("above") * 1.01) for row in load("thread_tolerances").rows]
    count = 0
    for row, diameter in rows:
        formulas = iso_formulas_um(row.number("pitch"), diameter)
        for name in ("screw", "nut"):
            if row.has(name):
                count += 1
                assert abs(math.log10(1000 * row.number(name) / formulas[f"{name}_pitch"])) < 1.05 / 40
    for row in load("thread_deviations").rows:
        pitch = row.number("pitch")
        assert 1000 * row.number("deviation") == pytest.approx(15 + 11 * pitch, abs=1.6)
        formulas = iso_formulas_um(pitch, 6)
        for name in ("screw_major", "nut_minor"):
            if row.has(name):
                count += 1
                assert abs(math.log10(1000 * row.number(name) / formulas[name])) < 1.05 / 40
    assert count > 90


@given(st.floats(0.5, 5000))
def test_preferred_numbers_are_no_more_than_half_a_step_off(value):
    assert abs(math.log10(preferred(value) / value)) < 0.6 / 40
