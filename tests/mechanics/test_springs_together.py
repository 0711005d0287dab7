"""Springs together against equilibrium found by halving, and against single springs."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calculators.mechanics.springs.together import (
    Member,
    end_to_end,
    end_to_end_travel_mm,
    first_solid,
    side_by_side,
    side_by_side_load_n,
    solid_travel_mm,
)
from calculators.quantities.errors import InputError

members = st.lists(
    st.builds(
        Member,
        st.just("one"),
        st.floats(0.05, 50),
        st.sampled_from([0.0, 0.0, 3.0]) | st.floats(0, 40),
        st.sampled_from([0.0, 0.0, 5.0]) | st.floats(0, 30),
        st.none() | st.floats(1, 60),
    ),
    min_size=1,
    max_size=5,
)


def halved(rising, wanted, high):
    """Where a rising function comes to a value."""
    low = 0.0
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (low, middle) if rising(middle) >= wanted else (middle, high)
    return high


@settings(max_examples=200)
@given(members, st.floats(0, 500))
def test_side_by_side_at_a_load_by_halving(springs, load):
    def total(travel):
        found = 0.0
        for each in springs:
            if travel > each.gap_mm:
                found += each.initial_n + each.rate_n_per_mm * (travel - each.gap_mm)
        return found

    most, _ = solid_travel_mm(springs)
    expected = halved(total, load, 1e6)
    if expected > most * (1 + 1e-9):
        with pytest.raises(InputError):
            side_by_side(springs, load_n=load, travel_mm=None)
        return
    assume(expected < most * (1 - 1e-9))
    found = side_by_side(springs, load_n=load, travel_mm=None)
    assert found.travel_mm == pytest.approx(expected, rel=1e-9, abs=1e-9)
    assert sum(each.load_n for each in found.shares) == pytest.approx(load, rel=1e-9, abs=1e-9)
    for each, share in zip(springs, found.shares, strict=True):
        assert share.travel_mm == pytest.approx(max(0.0, found.travel_mm - each.gap_mm))
        # Between no load and where it begins to give, a spring bears what is left of its initial tension.
        least = each.initial_n + each.rate_n_per_mm * share.travel_mm if share.travel_mm else 0.0
        assert least - 1e-9 <= share.load_n <= each.initial_n + each.rate_n_per_mm * share.travel_mm + 1e-9


@settings(max_examples=200)
@given(members, st.floats(0, 300))
def test_end_to_end_at_a_travel_by_halving(springs, travel):
    def total(load):
        found = 0.0
        for each in springs:
            own = max(0.0, load - each.initial_n) / each.rate_n_per_mm
            found += own if each.most_mm is None else min(own, each.most_mm)
        return found

    whole = total(1e9)
    assume(abs(travel - whole) > 1e-6)
    if travel > whole:
        with pytest.raises(InputError):
            end_to_end(springs, load_n=None, travel_mm=travel)
        return
    found = end_to_end(springs, load_n=None, travel_mm=travel)
    assert total(found.load_n) == pytest.approx(travel, rel=1e-9, abs=1e-9)
    if travel > 1e-6:
        assert found.load_n == pytest.approx(halved(total, travel, 1e9), rel=1e-6, abs=1e-6)


@settings(max_examples=100)
@given(members, st.floats(0.1, 200))
def test_the_rate_is_the_slope_of_load_over_travel(springs, load):
    found = end_to_end(springs, load_n=load, travel_mm=None)
    step = 1e-6 * load
    marks = [each.initial_n for each in springs]
    marks += [each.initial_n + each.rate_n_per_mm * each.own_most_mm for each in springs]
    assume(all(abs(mark - load) > 3 * step for mark in marks))
    slope = (end_to_end_travel_mm(springs, load + step) - end_to_end_travel_mm(springs, load - step)) / (
        2 * step
    )
    if found.rate_n_per_mm is None:
        assert slope == pytest.approx(0, abs=1e-9)
    else:
        assert slope == pytest.approx(1 / found.rate_n_per_mm, rel=1e-4)


@given(st.floats(0.1, 20), st.integers(1, 5), st.floats(1, 100))
def test_like_springs_share_alike(rate, count, load):
    springs = [Member(f"s{place}", rate) for place in range(count)]
    abreast = side_by_side(springs, load_n=load, travel_mm=None)
    assert abreast.rate_n_per_mm == pytest.approx(rate * count)
    assert all(each.load_n == pytest.approx(load / count) for each in abreast.shares)
    in_line = end_to_end(springs, load_n=load, travel_mm=None)
    assert in_line.rate_n_per_mm == pytest.approx(rate / count)
    assert in_line.travel_mm == pytest.approx(count * load / rate)


def test_which_is_solid_first():
    """End to end the softer one, that comes to its end at less load; side by side the one with less travel."""
    soft, stiff = Member("soft", 1.0, most_mm=10), Member("stiff", 4.0, most_mm=5)
    assert first_solid([soft, stiff], end_on=True) == (soft, 10.0)
    assert first_solid([soft, stiff], end_on=False) == (stiff, 25.0)
    assert first_solid([Member("free", 1.0)], end_on=True) is None
    assert first_solid([Member("free", 1.0)], end_on=False) is None


def test_beyond_a_solid_spring_the_other_alone_moves():
    soft, stiff = Member("soft", 1.0, most_mm=10), Member("stiff", 4.0)
    found = end_to_end([soft, stiff], load_n=20, travel_mm=None)
    assert (found.travel_mm, found.rate_n_per_mm) == (15, 4)
    assert [each.state for each in found.shares] == ["solid", "bears"]


def test_a_load_within_the_initial_tension_moves_nothing():
    found = side_by_side(
        [Member("a", 1.0, initial_n=6), Member("b", 1.0, initial_n=3)], load_n=3, travel_mm=None
    )
    assert (found.travel_mm, found.rate_n_per_mm) == (0, None)
    assert [each.load_n for each in found.shares] == [2, 1]
    assert end_to_end([Member("a", 1.0, initial_n=6)], load_n=3, travel_mm=None).rate_n_per_mm is None


def test_at_the_travel_where_one_begins_it_bears_nothing_yet():
    assert side_by_side_load_n([Member("a", 2.0), Member("b", 1.0, initial_n=4, gap_mm=5)], 5) == 10
