"""Poses worked out by hand, and every fault in a sentence."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.geometry import Body, Pocket, Pose, Solid, check_solid, placements
from calculators.quantities.errors import InputError

BASE = Body("P01", Solid("block", 640, 260, 28), Pose())
PLATE = Solid("block", 90, 90, 6)


def corner_points(body, *others):
    """The eight corners of a block in the build's frame, as least and greatest X, Y, Z."""
    placed = placements([body, *others])[body.name]
    solid = body.solid
    points = [
        placed.point((x, y, z))
        for x in (0, solid.length)
        for y in (0, solid.width)
        for z in (0, solid.thickness)
    ]
    return tuple((round(min(p[i] for p in points), 9), round(max(p[i] for p in points), 9)) for i in range(3))


def test_a_plate_let_in_lies_flush():
    plate = Body("P11", PLATE, Pose("P01", u=515, v=85, let_in=6))
    assert corner_points(plate, BASE) == ((515, 605), (85, 175), (22, 28))


def test_a_batten_under_the_base_keeps_its_top_against_it():
    batten = Body(
        "P02.1", Solid("block", 220, 45, 22), Pose("P01", "bottom", 157.5, 20, turned=90, own_face="top")
    )
    # Bottom: (157.5, 20) is X 157.5, Y 240; turned 90 its length runs along v (-Y) and its width along -u.
    assert corner_points(batten, BASE) == ((112.5, 157.5), (20, 240), (-22, 0))


def test_a_quarter_turn_is_anticlockwise_seen_from_outside():
    rail = Solid("block", 100, 20, 10)
    on_top = Body("P05", rail, Pose("P01", u=300, v=100, turned=90))
    assert corner_points(on_top, BASE) == ((280, 300), (100, 200), (28, 38))
    assert placements([BASE, on_top])["P05"].direction((1, 0, 0)) == (0, 1, 0)


def test_the_middle_put_down_stays_there_however_it_is_turned():
    for turned in (0, 30, 90, 211):
        body = Body("P11", PLATE, Pose("P01", u=560, v=130, turned=turned, point="centre"))
        assert placements([BASE, body])["P11"].point((45, 45, 0)) == pytest.approx((560, 130, 28))


def test_a_pillar_stands_on_its_end():
    pillar = Body(
        "P10", Solid("round", 165, diameter=19.05), Pose("P01", u=560, v=130, own_face="left", point="centre")
    )
    placed = placements([BASE, pillar])["P10"]
    assert placed.point((0, 0, 0)) == pytest.approx((560, 130, 28))
    assert placed.point((165, 0, 0)) == pytest.approx((560, 130, 193))


def test_a_pillar_on_its_corner_stands_in_the_square_about_it():
    pillar = Body("P10", Solid("round", 165, diameter=20), Pose("P01", u=100, v=50, own_face="left"))
    assert placements([BASE, pillar])["P10"].point((0, 0, 0)) == pytest.approx((110, 60, 28))


def test_a_rod_lies_along_a_board():
    rod = Body("P16", Solid("round", 430, diameter=6), Pose("P01", u=10, v=127, own_face="bottom"))
    placed = placements([BASE, rod])["P16"]
    assert placed.point((0, 0, 0)) == pytest.approx((10, 130, 31))
    assert placed.point((430, 0, 0)) == pytest.approx((440, 130, 31))


def test_a_pin_set_into_the_side_of_a_round_part():
    drum = Body("P34", Solid("round", 140, diameter=100), Pose())
    pin = Body(
        "P30",
        Solid("round", 22, diameter=2),
        Pose("P34", "side", 40, 0, 90, let_in=5, own_face="right", point="centre"),
    )
    placed = placements([pin, drum])
    inner, outer = placed["P30"].point((22, 0, 0)), placed["P30"].point((0, 0, 0))
    assert placed["P34"].own_point(inner) == pytest.approx((40, 0, 45))
    assert placed["P34"].own_point(outer) == pytest.approx((40, 0, 67))


def test_standing_off_is_a_negative_let_in():
    lid = Body("P05", PLATE, Pose("P01", u=0, v=0, let_in=-3))
    assert corner_points(lid, BASE)[2] == (31, 37)


def test_the_other_hand_fills_the_same_box_with_its_features_across():
    same = Body("P03.1", Solid("block", 600, 180, 12), Pose("P01", u=20, v=10))
    other = Body("P03.2", Solid("block", 600, 180, 12), Pose("P01", u=20, v=10, hand="other"))
    assert corner_points(same, BASE) == corner_points(other, BASE)
    placed = placements([BASE, same, other])
    assert placed["P03.1"].point((100, 30, 12)) == (120, 40, 40)
    assert placed["P03.2"].point((100, 30, 12)) == (120, 160, 40)
    assert (placed["P03.1"].mirrored, placed["P03.2"].mirrored) == (False, True)


def test_what_lies_on_a_mirrored_copy_goes_by_the_drawing():
    side = Body("P03.2", Solid("block", 600, 180, 12), Pose(hand="other"))
    block = Body("P40", Solid("block", 10, 20, 5), Pose("P03.2", u=100, v=30))
    assert corner_points(block, side) == ((100, 110), (130, 150), (12, 17))


@given(st.integers(1, 30))
def test_a_long_chain_is_followed_in_any_order(count):
    tower = [BASE] + [Body(f"T{i}", PLATE, Pose(f"T{i - 1}" if i else "P01", u=1, v=2)) for i in range(count)]
    placed = placements(tower[::-1])
    assert placed[f"T{count - 1}"].point((0, 0, 0)) == pytest.approx((count, 2 * count, 28 + 6 * (count - 1)))


def faults(*bodies):
    with pytest.raises(InputError) as caught:
        placements(bodies)
    return [(fault.field, fault.says) for fault in caught.value.faults]


def test_a_ring_is_named():
    ring = [Body("A", PLATE, Pose("C")), Body("B", PLATE, Pose("A")), Body("C", PLATE, Pose("B"))]
    assert faults(BASE, *ring) == [
        ("A.on", "A lies on C lies on B lies on A: nothing in this ring touches the ground.")
    ]


def test_a_part_on_itself_is_named_and_so_are_two_rings():
    found = faults(Body("A", PLATE, Pose("A")), Body("B", PLATE, Pose("C")), Body("C", PLATE, Pose("B")))
    assert found == [
        ("A.on", "A lies on A: nothing in this ring touches the ground."),
        ("B.on", "B lies on C lies on B: nothing in this ring touches the ground."),
    ]


def test_an_unknown_name_and_a_name_used_twice_are_both_said():
    assert faults(BASE, BASE, Body("P11", PLATE, Pose("P99"))) == [
        ("P01", "P01 is used for 2 copies; each copy needs a name of its own."),
        ("P11.on", "P11 lies on P99, which has no place in the build; name a copy that has, or none."),
    ]


def test_the_ground_has_only_a_top():
    assert faults(Body("P01", PLATE, Pose(face="left"))) == [
        ("P01.face", "P01 lies on 'left' of the ground, which has top.")
    ]


def test_a_block_under_has_no_side():
    assert faults(BASE, Body("P11", PLATE, Pose("P01", "side"))) == [
        ("P11.face", "P11 lies on 'side' of P01, which has top, bottom, front, back, left, right.")
    ]


def test_a_part_cannot_be_laid_by_its_side():
    assert faults(Body("P10", Solid("round", 50, diameter=10), Pose(own_face="side"))) == [
        ("P10.own_face", "P10 is laid by a flat face (top, bottom, front, back, left, right), not by 'side'.")
    ]


@pytest.mark.parametrize("wrong", [math.nan, math.inf, 1e9, None, "6"])
def test_numbers_that_are_none_are_refused(wrong):
    assert faults(Body("P11", PLATE, Pose(u=wrong))) == [
        ("P11.u", "P11: 'u' must be a number of at most a million.")
    ]


@pytest.mark.parametrize("wrong", [0, -1, math.nan, 1e-9, 2e6])
def test_a_size_must_be_a_size(wrong):
    assert faults(Body("P11", Solid("block", 90, wrong, 6), Pose())) == [
        ("P11.solid.width", "The width must be more than 0 and at most 1e+06 mm.")
    ]


def test_a_bore_must_fit_its_round():
    with pytest.raises(InputError, match="less than the diameter, 10 mm"):
        check_solid(Solid("round", 50, diameter=10, bore=10))


@pytest.mark.parametrize(
    ("pocket", "says"),
    [
        (Pocket("side", 1, 1, 2, 3, 3), "A block has no face 'side' to take a pocket off."),
        (
            Pocket("top", 1, 1, 0, 3, 3),
            "The pocket's depth must be more than 0, or left out for right through.",
        ),
        (Pocket("top", 1, 1, 2), "A pocket needs a length and a width of more than 0, or a diameter."),
        (Pocket("top", 1, 1, 2, 8, 3, 2), "The corner radius must be from 0 to half the pocket's width (3)."),
        (Pocket("top", math.nan, 1, 2, 8, 3), "The pocket's u must be a number of at most 1e+06."),
    ],
)
def test_a_pocket_must_be_one(pocket, says):
    with pytest.raises(InputError) as caught:
        check_solid(Solid("block", 90, 90, 6, pockets=(pocket,)))
    assert [fault.says for fault in caught.value.faults] == [says]
