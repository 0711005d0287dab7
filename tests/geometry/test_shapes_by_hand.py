"""Shapes, their boxes and their distances where school geometry gives the answer."""

import math

import pytest

from calculators.geometry.near_pairs import near_pairs, near_pairs_between
from calculators.geometry.nearness import apart
from calculators.geometry.shapes import Prism, Turned, beyond_plane, box_of, moved, support
from calculators.geometry.vectors import Transform

X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
DOWN = (0.0, 0.0, -1.0)


def hole(x, y, diameter, depth, z=20.0, point=0.0):
    """A hole drilled down from a top face at height z."""
    rings = ((0.0, diameter / 2), (depth, diameter / 2))
    return Turned((x, y, z), DOWN, (*rings, (depth + point, 0.0)) if point else rings)


def test_two_holes_from_one_face_are_apart_by_their_centres_less_the_radii():
    assert apart(hole(0, 0, 5, 10), hole(10, 0, 6, 10)).distance == pytest.approx(4.5, abs=1e-12)


def test_holes_from_opposite_faces_in_line_are_apart_by_what_is_left_between():
    under = Turned((0.0, 0.0, 0.0), Z, ((0.0, 3.0), (8.0, 3.0)))
    near = apart(hole(0, 0, 6, 10), under)
    assert near.distance == pytest.approx(2.0, abs=1e-12)
    assert near.first_point[2] == pytest.approx(10.0)
    assert near.second_point[2] == pytest.approx(8.0)


def test_the_drill_point_is_part_of_the_hole():
    under = Turned((0.0, 0.0, 0.0), Z, ((0.0, 3.0), (8.0, 3.0)))
    assert apart(hole(0, 0, 6, 10, point=1.5), under).distance == pytest.approx(0.5, abs=1e-12)


def test_holes_that_cross_inside_are_apart_by_their_axes_less_the_radii():
    side = Turned((-30.0, 5.0, 10.0), X, ((0.0, 2.0), (60.0, 2.0)))
    assert apart(hole(0, 0, 5, 20), side).distance == pytest.approx(0.5, abs=1e-9)
    assert apart(hole(0, 1, 5, 20), side).distance == pytest.approx(-0.5, abs=1e-3)


def test_the_depth_of_an_overlap_is_the_least_shift_that_parts_them():
    """A 6 mm hole across a 20 mm one, 1 mm into it: back out by 1 mm; deep in it, out sideways by 13 mm."""
    wide = hole(0, 0, 20, 40, z=40.0)
    shallow = Turned((-30.0, 0.0, 20.0), X, ((0.0, 3.0), (21.0, 3.0)))
    # The flat end touches the round wall first at its middle: 10 mm from the axis, less 9 mm.
    assert apart(wide, shallow).distance == pytest.approx(-1.0, abs=1e-3)
    through = Turned((-200.0, 0.0, 20.0), X, ((0.0, 3.0), (400.0, 3.0)))
    assert apart(wide, through).distance == pytest.approx(-13.0, abs=1e-3)


def test_where_shapes_overlap_one_point_lies_in_both():
    near = apart(hole(0, 0, 20, 40, z=40.0), Turned((-30.0, 0.0, 20.0), X, ((0.0, 3.0), (21.0, 3.0))))
    x, y, z = near.first_point
    assert near.first_point == near.second_point
    assert math.hypot(x, y) <= 10 + 1e-6
    assert x <= -9 + 1e-6
    assert math.hypot(y, z - 20) <= 3 + 1e-6


def test_a_slot_is_as_near_as_its_nearer_end():
    slot = Turned((0.0, 0.0, 20.0), DOWN, ((0.0, 3.0), (20.0, 3.0)), slide=(10.0, 0.0, 0.0))
    assert apart(slot, hole(15, 0, 4, 20)).distance == pytest.approx(15 - 5 - 3 - 2, abs=1e-12)
    assert apart(slot, hole(3, 8, 4, 20)).distance == pytest.approx(8 - 3 - 2, abs=1e-12)


def test_a_hole_by_a_pocket_s_round_corner():
    """Corner radius 4 about (4, 4): the hole at (-3, -4) is hypot(7, 8) from it, less both radii."""
    pocket = Prism((0.0, 0.0, 20.0), X, Y, DOWN, 40.0, 30.0, 8.0, 4.0)
    expected = math.hypot(7, 8) - 4 - 1.5
    assert apart(pocket, hole(-3, -4, 3, 20)).distance == pytest.approx(expected, abs=1e-12)


def test_stopping_early_gives_a_lower_bound_and_says_so():
    first, second = hole(0, 0, 5, 10), Turned((100.0, 3.0, 0.0), Y, ((0.0, 2.0), (10.0, 2.0)))
    whole = apart(first, second)
    early = apart(first, second, enough=3.0)
    assert early.at_least
    assert 3.0 <= early.distance <= whole.distance
    assert not whole.at_least


def test_box_of_an_oblique_disc():
    """A disc of radius 5 whose axis leans 60 degrees from Z reaches 5 sin 60 along Z."""
    lean = math.radians(60)
    disc = Turned((0.0, 0.0, 0.0), (math.sin(lean), 0.0, math.cos(lean)), ((0.0, 5.0),))
    low, high = box_of(disc)
    assert high == pytest.approx((5 * math.cos(lean), 5.0, 5 * math.sin(lean)))
    assert low == pytest.approx(tuple(-one for one in high))


def test_support_of_a_rounded_corner():
    pocket = Prism((0.0, 0.0, 0.0), X, Y, Z, 40.0, 30.0, 8.0, 4.0)
    way = (1.0, 1.0, 1.0)
    corner = (36 + 4 / math.sqrt(2), 26 + 4 / math.sqrt(2), 8.0)
    assert support(pocket, way) == pytest.approx(corner)


def test_reach_beyond_a_plane_is_signed():
    assert beyond_plane(hole(3, 0, 5, 10), (5.0, 0.0, 0.0), X) == pytest.approx(0.5)
    assert beyond_plane(hole(0, 0, 5, 10), (5.0, 0.0, 0.0), X) == pytest.approx(-2.5)


def test_a_mirrored_copy_s_shapes_are_mirrored():
    mirror = Transform(((1.0, 0.0, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, 1.0)), (0.0, 50.0, 0.0))
    pocket = Prism((0.0, 10.0, 20.0), X, Y, DOWN, 40.0, 30.0, 8.0, 4.0)
    assert box_of(moved(pocket, mirror)) == ((0.0, 10.0, 12.0), (40.0, 40.0, 20.0))
    assert box_of(moved(hole(5, 10, 4, 6), mirror)) == ((3.0, 38.0, 14.0), (7.0, 42.0, 20.0))


def test_near_pairs_are_those_that_comparing_each_with_each_finds():
    boxes = []
    for k in range(400):
        x, y, z = (k * 37 % 211) * 1.7, (k * 53 % 199) * 1.3, (k * 11 % 7) * 2.0
        size = (1 + k % 5, 1 + k % 3, 300 if k % 90 == 0 else 2)
        boxes.append(((x, y, z), (x + size[0], y + size[1], z + size[2])))
    expected = {
        (i, j)
        for j in range(400)
        for i in range(j)
        if all(boxes[i][0][k] - boxes[j][1][k] < 3 and boxes[j][0][k] - boxes[i][1][k] < 3 for k in range(3))
    }
    found = list(near_pairs(boxes, 3))
    assert set(found) == expected
    assert len(found) == len(expected)
    crossed = list(near_pairs_between(boxes[:150], boxes[150:], 3))
    assert set(crossed) == {(i, j - 150) for i, j in expected if i < 150 <= j}
    assert len(crossed) == len(set(crossed))


def test_thousands_on_one_spot_are_bounded_when_asked():
    boxes = [((0.0, 0.0, 0.0), (5.0, 5.0, 5.0))] * 3000
    assert sum(1 for _ in near_pairs(boxes, 1.0, most_each=10)) <= 30000
