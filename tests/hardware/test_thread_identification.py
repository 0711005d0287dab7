"""Which thread a reading may be: every size of the tables, measured all over its zone, by brute force."""

import math
from functools import cache
from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.hardware.thread_identification import Measured, Zone, candidates, zone_of
from calculators.hardware.thread_limits import limits_of
from calculators.hardware.thread_telling import tell_apart, threads_to_count
from calculators.hardware.threads import all_threads, find_thread

ALL = all_threads()
CALIPER = 0.05
LEAF = 0.025


@cache
def zone_by_hand(thread, internal):
    """The stated zone: limits, a tenth of the pitch of wear, 0.02 mm of plating; written here again."""
    limits = limits_of(thread)
    if internal:
        least = thread.major_mm - thread.form.nut * thread.pitch_mm
        return least - 0.02, least + limits.nut_minor_tolerance_mm + 0.1 * thread.pitch_mm
    least = thread.major_mm - limits.allowance_mm - limits.screw_major_tolerance_mm
    return least - 0.1 * thread.pitch_mm, thread.major_mm + 0.02


def possible_by_brute_force(diameter, pitch, by, leaf, internal=False, angle=None):
    """Every thread whose stated zone and pitch meet the two intervals of the reading, one after the other."""
    found = []
    for thread in ALL:
        if abs(pitch - thread.pitch_mm) > (leaf * pitch + 0.002 * thread.pitch_mm) * (1 + 1e-9):
            continue
        low, high = zone_by_hand(thread, internal)
        if diameter + by < low - 1e-9 or diameter - by > high + 1e-9:
            continue
        if angle is None or abs(angle - thread.angle_deg) <= 2:
            found.append(thread)
    return found


def points(thread, internal):
    """Readings of one thread: new, worn, plated, and misread by the whole uncertainty either way."""
    limits = limits_of(thread)
    least, most = limits.nut_minor_mm if internal else limits.screw_major_mm
    low, high = zone_by_hand(thread, internal)
    return (most, (least + most) / 2, least, low, high, low - CALIPER, high + CALIPER)


def readings(thread, internal=False):
    for diameter in points(thread, internal):
        for share in (-LEAF, 0.0, LEAF):
            # A leaf within its uncertainty of the pitch: the reading's own share of the reading.
            yield diameter, thread.pitch_mm / (1 - share)


def look(diameter, pitch, *, internal=False, angle=None):
    measured = Measured(diameter, CALIPER, pitch, LEAF * pitch, internal, angle)
    return [each.thread for each in candidates(measured, least=0)]


def one_thread(threads):
    return len({(round(t.major_mm, 6), round(t.pitch_mm, 6), t.angle_deg) for t in threads}) == 1


@pytest.mark.parametrize("internal", [False, True], ids=["screws", "nuts"])
@pytest.mark.parametrize("with_angle", [False, True], ids=["no angle", "angle"])
def test_every_size_of_the_tables_is_named_and_decided_when_nothing_else_is_possible(internal, with_angle):
    """277 sizes at 21 readings each: the true one is always named; decided is what brute force calls decided."""
    decided, expected, count = 0, 0, 0
    for thread in ALL:
        angle = thread.angle_deg if with_angle else None
        for diameter, pitch in readings(thread, internal):
            found = look(diameter, pitch, internal=internal, angle=angle)
            brute = possible_by_brute_force(diameter, pitch, CALIPER, LEAF, internal, angle)
            assert thread in found, (thread.designation, diameter, pitch)
            assert set(found) == set(brute), (thread.designation, diameter, pitch)
            decided += one_thread(found)
            expected += one_thread(brute)
            count += 1
    assert count == 21 * len(ALL)
    assert decided == expected
    # Undecided is no way out: most readings that a caliper and a leaf give decide, nearly all with the angle.
    assert decided > (0.9 if with_angle else 0.6) * count


def test_a_reading_on_the_spot_puts_the_true_thread_first_whenever_the_zones_allow():
    """In the middle of its limits, at its own pitch, a thread is beaten only by one of the same pitch.

    Another can lead there only if its zone covers the reading too, and then it stands before nothing that
    has a pitch further off: a thread of 2 % another pitch never leads over the true one.
    """
    for thread in ALL:
        least, most = limits_of(thread).screw_major_mm
        first = look((least + most) / 2, thread.pitch_mm)[0]
        assert abs(first.pitch_mm - thread.pitch_mm) < 0.01 * thread.pitch_mm, thread.designation
        if first is not thread and first.pitch_mm == thread.pitch_mm:
            low, high = zone_by_hand(first, False)
            assert low - CALIPER <= (least + most) / 2 <= high + CALIPER


def van_der_corput(index, base):
    """Evenly spread numbers between 0 and 1, the same each time."""
    value, share = 0.0, 1.0
    while index:
        share /= base
        index, digit = divmod(index, base)
        value += digit * share
    return value


def from_zone(zone, at):
    """The size below which a share `at` of real parts lies, found by halving."""
    low, high = zone.outer_least, zone.outer_most
    for _ in range(50):
        middle = (low + high) / 2
        low, high = (middle, high) if zone.share(zone.outer_least, middle) < at else (low, middle)
    return low


def pitch_error(at):
    """An error from -1 to 1 with the density 1 - 0.9 z^2, found by halving its sum."""
    total = 2 - 0.6
    low, high = -1.0, 1.0
    for _ in range(50):
        z = (low + high) / 2
        below = (z + 1) - 0.3 * (z**3 + 1)
        low, high = (z, high) if below < at * total else (low, z)
    return low


def test_scores_are_what_they_say():
    """Of readings whose first has a score of s, the share s should be right: parts drawn from all zones.

    The parts and their reading errors are spread evenly as the model says, with every thread as often.
    """
    scores, right = [], []
    for place, thread in enumerate(ALL):
        for turn in range(8):
            index = 8 * place + turn + 1
            size = from_zone(zone_of(thread), van_der_corput(index, 2))
            diameter = size + CALIPER * (2 * van_der_corput(index, 3) - 1)
            reach = LEAF * thread.pitch_mm
            pitch = thread.pitch_mm + reach * pitch_error(van_der_corput(index, 5))
            found = candidates(Measured(diameter, CALIPER, pitch, reach))
            scores.append(found[0].score)
            first = found[0].thread
            right.append(first.designation == thread.designation)
    share, said = sum(right) / len(right), sum(scores) / len(scores)
    # 2216 readings: three standard deviations of their mean are 0.025.
    assert share == pytest.approx(said, abs=0.025)
    unsure = [(score, hit) for score, hit in zip(scores, right, strict=True) if score < 0.75]
    assert len(unsure) > 200
    mean = sum(score for score, _ in unsure) / len(unsure)
    assert sum(hit for _, hit in unsure) / len(unsure) == pytest.approx(mean, abs=0.08)


@given(
    st.floats(1, 50),
    st.floats(0, 1),
    st.floats(0.001, 1),
    st.floats(0, 1),
    st.floats(-2, 4),
    st.floats(0, 2),
)
def test_share_of_a_zone_is_the_area_under_its_trapezium(start, rise, flat, fall, low, width):
    zone = Zone(start, start + rise, start + rise + flat, start + rise + flat + fall)
    corners = [start, start + rise, start + rise + flat, start + rise + flat + fall]

    def density(x):
        if x < corners[0] or x > corners[3]:
            return 0.0
        if x < corners[1]:
            return (x - corners[0]) / rise
        return 1.0 if x <= corners[2] else (corners[3] - x) / fall

    low += start
    edges = sorted({low, low + width, *(each for each in corners if low < each < low + width)})
    area = sum((b - a) * density((a + b) / 2) for a, b in pairwise(edges))
    assert zone.share(low, low + width) == pytest.approx(area / (flat + (rise + fall) / 2), abs=1e-6)


def test_scores_add_up_and_stand_in_order():
    found = candidates(Measured(4.7, 0.05, 25.4 / 32, 0.02))
    assert math.fsum(each.score for each in found) == pytest.approx(1)
    assert [each.score for each in found] == sorted((each.score for each in found), reverse=True)


def test_caliper_4_70_and_leaf_32():
    """Four systems meet within 0.3 mm and 2 % of pitch; a 2 BA at 4.70 is plated and 2 % off the leaf."""
    found = candidates(Measured(4.70, 0.05, 25.4 / 32, 0.025 * 25.4 / 32))
    names = [each.thread.designation for each in found if each.within]
    assert names == ["3/16 BSF", "10-32 UNF", "2 BA", "M5"]
    by_name = {each.thread.designation: each for each in found}
    assert by_name["M5"].score < 0.01 < by_name["2 BA"].score < 0.3 < by_name["10-32 UNF"].score


def test_a_bit_less_than_32_leans_to_2_ba():
    found = candidates(Measured(4.66, 0.03, 25.4 / 31.4, 0.012))
    assert found[0].thread.designation == "2 BA"


def test_28_seats_and_26_rocks():
    """6.33 over the threads, 28 to the inch: 1/4-28 UNF, not 1/4 BSF (a workshop question, worked by pitch)."""
    assert [each.designation for each in look(6.33, 25.4 / 28)] == ["1/4-28 UNF"]


def test_what_no_thread_gives_is_said_with_the_nearest():
    found = candidates(Measured(5.0, 0.02, 1.5, 0.01))
    assert [each.within for each in found] == [False] * 4
    assert [each.score for each in found] == [0.0] * 4


@pytest.mark.parametrize("internal", [False, True])
def test_two_readings_over_the_count_cannot_be_mixed_up(internal):
    """Over the number of threads that is named, readings off by 0.1 mm each way do not meet."""
    told = 0
    for one, other in combinations(ALL[::3], 2):
        if abs(one.major_mm - other.major_mm) > 0.5:
            continue
        says = tell_apart(one, other, internal=internal)
        assert says
        count = threads_to_count(one, other)
        if count is None:
            continue
        told += 1
        apart = count * abs(one.pitch_mm - other.pitch_mm)
        assert apart >= 0.2 - 1e-9
        assert (count - 1) * abs(one.pitch_mm - other.pitch_mm) < 0.2
    assert told > 100


@pytest.mark.parametrize(
    ("one", "other", "says"),
    [
        ("10-32", "2 BA", (
            "Flank angle: a leaf of 60 degrees seats in 10-32 UNF, one of 47.5 degrees in 2 BA.",
            "Pitch: 13 threads of 2 BA measure 10.53 mm, of 10-32 UNF 10.32 mm, crest to crest, each read "
            "to 0.1 mm.",
            "Trial: a nut of 10-32 UNF runs on a screw of 10-32 UNF; on one of 2 BA it binds after about "
            "5 turns.",
        )),
        ("M5", "10-32", (
            "Pitch: 32 threads of M5 measure 25.60 mm, of 10-32 UNF 25.40 mm, crest to crest, each read "
            "to 0.1 mm.",
            "Diameter: unworn and not plated, 10-32 UNF measures at most 4.80 mm over the threads, M5 at "
            "least 4.83 mm.",
            "Trial: a nut of 10-32 UNF runs on a screw of 10-32 UNF; on one of M5 it is too tight for the "
            "hand.",
        )),
        ("M6", "0 BA", ("Flank angle: a leaf of 60 degrees seats in M6, one of 47.5 degrees in 0 BA.",)),
        ("1/8 BSW", "1/8 x 40 ME", ("1/8 BSW and 1/8 x 40 ME are one thread by two names.",)),
    ],
)  # fmt: skip
def test_what_tells_two_threads_apart(one, other, says):
    assert tell_apart(find_thread(one), find_thread(other)) == says


def test_nothing_separates_is_said_only_where_nothing_does():
    """Of every two threads that one reading can be, something tells them apart, or they are one thread."""
    told = 0
    for one, other in combinations(ALL, 2):
        if (
            abs(one.pitch_mm - other.pitch_mm) > 0.05 * one.pitch_mm
            or abs(one.major_mm - other.major_mm) > 0.5
        ):
            continue
        says = tell_apart(one, other)
        assert not says[0].startswith("Nothing"), (one.designation, other.designation)
        assert (says[0].endswith("by two names.")) == one_thread([one, other])
        told += 1
    assert told > 100
