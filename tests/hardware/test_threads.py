"""Thread sizes and what follows from the profile, checked a second way."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.hardware.threads import all_threads, find_thread, near_matches, systems, threads_of
from calculators.tables import load

ANY_THREAD = st.sampled_from(all_threads())


def test_systems_in_order():
    assert systems() == (
        "ISO metric coarse", "ISO metric fine", "UNC", "UNF", "UNEF", "BSW", "BSF", "BA", "ME", "BSB",
    )  # fmt: skip
    assert threads_of("no such system") == ()
    assert sum(len(threads_of(system)) for system in systems()) == len(all_threads())


def test_metric_threads_reach_from_m1_to_m48():
    coarse = [thread.designation for thread in threads_of("ISO metric coarse")]
    assert (coarse[0], coarse[-1]) == ("M1", "M48")


def test_ba_series_is_whole_and_follows_its_formula():
    """BS 93: p = 0.9^n mm, D = 6 p^1.2 mm (formula from memory), rounded to 0.01 and, down to 14, to 0.1."""
    numbers = {int(thread.size): thread for thread in threads_of("BA")}
    assert sorted(numbers) == list(range(17))
    for number, thread in numbers.items():
        pitch_mm = 0.9**number
        places = 1 if number <= 14 else 2
        assert thread.pitch_mm == pytest.approx(round(pitch_mm, 2)), number
        assert thread.major_mm == pytest.approx(round(6 * pitch_mm**1.2, places), abs=1e-9), number


def test_inch_pitches_in_the_table_are_25_4_by_the_threads_per_inch():
    for row in load("threads").rows:
        if row.has("tpi"):
            assert row.number("pitch") == pytest.approx(25.4 / row.number("tpi"), abs=5e-7), row.name


def test_number_sizes_follow_their_rule():
    """ASME B1.1: a number size is 0.060 in and 0.013 in more for each number."""
    for thread in all_threads():
        if thread.size.startswith("#"):
            inches = 0.060 + 0.013 * int(thread.size[1:])
            assert thread.major_mm == pytest.approx(25.4 * inches, abs=1e-9), thread.designation


def test_designations_are_unique_and_canonical():
    names = [thread.designation for thread in all_threads()]
    assert len(set(names)) == len(names)
    for name in (
        "M5",
        "M6 x 0.75",
        "1/4-28 UNF",
        "10-32 UNF",
        "1/4-20 UNC",
        "5/16 BSF",
        "2 BA",
        "1/4 x 40 ME",
    ):
        assert name in names


@given(ANY_THREAD)
def test_depths_from_the_height_of_the_triangle(thread):
    """A second way: H = p / (2 tan(angle / 2)), and the fractions of H that each standard's profile keeps."""
    height_mm = thread.pitch_mm / (2 * math.tan(math.radians(thread.angle_deg) / 2))
    if thread.angle_deg == 60:
        pitch_line, nut = 2 * 3 / 8 * height_mm, 2 * 5 / 8 * height_mm
        tolerance_mm = 1e-9
    elif thread.angle_deg == 55:
        pitch_line, nut = 2 / 3 * height_mm, 4 / 3 * height_mm  # a sixth is rounded off at crest and root
        tolerance_mm = 1e-5 * thread.pitch_mm
    else:
        # 0.2682 p is rounded off at crest and root of a triangle 1.1363 p high: 0.6 p stays.
        pitch_line, nut = (
            height_mm - 2 * 0.26817 * thread.pitch_mm,
            2 * (height_mm - 2 * 0.26817 * thread.pitch_mm),
        )
        tolerance_mm = 3e-4
    assert thread.major_mm - thread.pitch_diameter_mm == pytest.approx(pitch_line, abs=tolerance_mm)
    assert thread.major_mm - thread.minor_diameter_mm == pytest.approx(nut, abs=tolerance_mm)


@given(ANY_THREAD)
def test_diameters_are_in_order(thread):
    assert (
        0 < thread.core_diameter_mm <= thread.minor_diameter_mm < thread.pitch_diameter_mm < thread.major_mm
    )
    core_mm2, major_mm2 = (math.pi / 4 * d**2 for d in (thread.core_diameter_mm, thread.major_mm))
    assert core_mm2 < thread.tensile_stress_area_mm2 < major_mm2


@pytest.mark.parametrize(
    ("name", "basis", "area"),
    [
        ("M10", "3/4 H", "ISO 898-1"),
        ("1/4-28", "3/4 H", "ASME B1.1"),
        ("5/16 BSF", "1.280654 p", "common practice"),
        ("2 BA", "1.2 p", "common practice"),
        ("1/4 x 40 ME", "1.280654 p", "common practice"),
    ],
)
def test_bases_are_named(name, basis, area):
    thread = find_thread(name)
    assert basis in thread.engagement_basis
    assert area in thread.tensile_stress_area_basis


def test_every_source_says_how_it_is_known():
    for thread in all_threads():
        assert thread.source.confidence in {"read", "memory"}
        assert ("from memory" in thread.source.says) == (thread.source.confidence == "memory")


def test_near_matches_of_a_bench_with_three_systems():
    """2 BA, 10-32 and M5 are each near the other two; M6 and 0 BA too; M4 is near none."""
    names = ("2 BA", "10-32 UNF", "M5", "M4", "M6", "0 BA", "M6")
    pairs = [(a.designation, b.designation) for a, b in near_matches(find_thread(name) for name in names)]
    assert pairs == [("2 BA", "10-32 UNF"), ("2 BA", "M5"), ("10-32 UNF", "M5"), ("M6", "0 BA")]


@given(st.lists(ANY_THREAD, max_size=6))
def test_near_matches_are_near_and_never_of_one_thread(threads):
    for first, second in near_matches(threads):
        assert first != second
        assert abs(first.major_mm - second.major_mm) < 0.35
        assert max(first.pitch_mm, second.pitch_mm) / min(first.pitch_mm, second.pitch_mm) < 1.05
