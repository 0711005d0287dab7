"""Distances of thousands of random pairs of shapes, each proven from both sides by an independent way."""

from __future__ import annotations

import random

import pytest

from calculators.geometry.nearness import apart
from calculators.geometry.parallel_shapes import parallel_gap
from calculators.geometry.shapes import Turned, beyond_plane, box_of, support
from calculators.geometry.simplices import approach, depth_of_overlap
from tests.geometry import independent_shapes as independent
from tests.geometry.independent_shapes import dot, minus, norm, random_shape, random_way

PAIRS = 125


def parting_way(first, second):
    """The direction in which the second was found to be parted from the first by the least shift."""
    found = parallel_gap(first, second)
    if found is None:
        return depth_of_overlap(first, second, approach(first, second).simplex)[1]
    way = minus(found[1], found[2])
    return tuple(one / norm(way) for one in way)


@pytest.mark.parametrize("square", [True, False], ids=["square", "oblique"])
@pytest.mark.parametrize("seed", range(12))
def test_distance_and_depth_are_proven(seed, square):
    """5,000 pairs. Apart: points in both at that distance, and a slab of that width between the shapes.

    Overlapping: one point in both; shifts of many directions part the shapes only when at least as long,
    and the one that was found does part them.
    """
    chance = random.Random(f"nearness {seed} {square}")
    overlapping = 0
    for k in range(PAIRS):
        first, second = random_shape(chance, square), random_shape(chance, square)
        near = apart(first, second)
        assert not near.at_least
        # The points are in the shapes: closely where they were found by supports.
        assert independent.distance_to(first, near.first_point) < 1e-5
        assert independent.distance_to(second, near.second_point) < 1e-5
        way = minus(near.second_point, near.first_point)
        if near.distance > 0:
            assert norm(way) == pytest.approx(near.distance, abs=2e-5)
            if near.distance > 1e-2:
                unit = tuple(one / norm(way) for one in way)
                # Reaches by far-off points fall short of the truth by up to 40² / 2e7 = 8e-5 each.
                assert independent.gap_along(first, second, unit) > near.distance - 3e-4
        elif near.distance < 0:
            assert near.first_point == near.second_point
            overlapping += 1
            if k % 4 == 0:
                least = independent.depth_by_trying(first, second, chance, tries=150)
                assert -near.distance <= least + 1e-3
            if near.distance < -1e-3:
                parted = independent.gap_along(first, second, parting_way(first, second))
                assert parted == pytest.approx(near.distance, abs=3e-4)
    assert overlapping > 1


@pytest.mark.parametrize("seed", range(10))
def test_stopping_early_never_hides_what_is_near(seed):
    chance = random.Random(f"early {seed}")
    for _ in range(150):
        first, second = random_shape(chance, False), random_shape(chance, False)
        whole, enough = apart(first, second).distance, chance.uniform(0, 10)
        early = apart(first, second, enough)
        if early.at_least:
            assert enough <= early.distance <= whole + 1e-6
        else:
            assert early.distance == pytest.approx(whole, abs=2e-5)
        assert (early.distance < enough - 1e-5) <= (whole < enough)
        assert (whole < enough - 1e-5) <= (early.distance < enough)


@pytest.mark.parametrize("seed", range(8))
def test_sampled_points_never_contradict_a_distance(seed):
    """Against gross errors: points strewn over each shape are never nearer to the other than told."""
    chance = random.Random(f"sampled {seed}")
    for _ in range(40):
        first, second = random_shape(chance, seed % 2 == 0), random_shape(chance, seed % 2 == 0)
        told = apart(first, second).distance
        strewn = []
        for _ in range(300):
            far = tuple(chance.uniform(-60, 60) for _ in range(3))
            strewn.append(independent.distance_to(second, independent.nearest(first, far)))
        assert min(strewn) >= told - 1e-4
        # And none so far that the distance told would be a false alarm.
        if told > 0:
            assert independent.between(first, second, rounds=4000) <= told + 0.02 + 0.02 * told


@pytest.mark.parametrize("seed", range(8))
def test_supports_boxes_and_planes_agree_with_far_off_points(seed):
    chance = random.Random(f"supports {seed}")
    for _ in range(100):
        shape, way = random_shape(chance, False), random_way(chance)
        expected = independent.reach(shape, way)
        assert dot(support(shape, way), way) == pytest.approx(expected, abs=2e-4)
        assert independent.distance_to(shape, support(shape, way)) < 1e-9
        low, high = box_of(shape)
        for i in range(3):
            axis = tuple(float(i == k) for k in range(3))
            assert high[i] == pytest.approx(independent.reach(shape, axis), abs=2e-4)
            assert low[i] == pytest.approx(-independent.reach(shape, tuple(-one for one in axis)), abs=2e-4)
        point = tuple(chance.uniform(-20, 20) for _ in range(3))
        assert beyond_plane(shape, point, way) == pytest.approx(expected - dot(point, way), abs=2e-4)


def test_a_direction_that_is_the_axis_but_for_rounding_keeps_to_the_end_s_plane():
    chance = random.Random("axis")
    for _ in range(300):
        shape, turn = random_shape(chance, False), random_way(chance)
        axis = shape.way if isinstance(shape, Turned) else shape.inward
        for k in range(8, 17):
            way = tuple(one + 10.0**-k * other for one, other in zip(axis, turn, strict=True))
            assert dot(support(shape, way), axis) == pytest.approx(dot(support(shape, axis), axis), abs=1e-6)


@pytest.mark.parametrize("seed", range(6))
def test_first_and_second_change_places(seed):
    chance = random.Random(f"places {seed}")
    for _ in range(150):
        first, second = random_shape(chance, seed % 2 == 0), random_shape(chance, seed % 2 == 0)
        assert apart(first, second).distance == pytest.approx(apart(second, first).distance, abs=1e-3)


@pytest.mark.parametrize("enough", [0.0, 1e-9, 0.5])
@pytest.mark.parametrize("seed", range(4))
def test_what_is_asked_only_whether_it_touches_is_answered_alike(seed, enough):
    """Stopped early, shapes that are apart are never taken for touching or overlapping ones."""
    chance = random.Random(f"touching {seed}")
    parted = 0
    for _ in range(PAIRS):
        first, second = random_shape(chance, square=False), random_shape(chance, square=False)
        whole, early = apart(first, second).distance, apart(first, second, enough=enough).distance
        if whole > 1e-4:
            parted += 1
            assert 0.0 < early <= whole + 1e-4
        else:
            assert early == pytest.approx(whole, abs=2e-3)
    assert parted > PAIRS // 5
