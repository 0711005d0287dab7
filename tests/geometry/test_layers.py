"""Layers worked out by hand: recesses, slits, bores, clashes, gaps, and where the holes are marked."""

from __future__ import annotations

import math

import pytest

from calculators.geometry import (
    Body,
    Pocket,
    Pose,
    Solid,
    axis_from,
    gaps,
    hole_in_layer,
    layers_along,
    overlaps,
    placements,
)
from calculators.quantities.errors import InputError

RECESS = Pocket("top", 515, 85, 6, 90, 90, 3)
BASE = Body("P01", Solid("block", 640, 260, 28, pockets=(RECESS,)), Pose())
UNCUT = Body("P01", Solid("block", 640, 260, 28), Pose())
PLATE = Body("P11", Solid("block", 90, 90, 6), Pose("P01", u=515, v=85, let_in=6))
PILLAR = Body(
    "P10",
    Solid("round", 165, diameter=19.05, pockets=(Pocket("left", 0, 0, 22, diameter=6.9),)),
    Pose("P11", u=45, v=45, own_face="left", point="centre"),
)


def met(bodies, home, face, u, v, **options):
    placed = placements(bodies)
    axis = axis_from(home, face, u, v, bodies, placed, from_outside=options.pop("from_outside", False))
    return axis, layers_along(*axis, bodies, placed, **options), placed


def stack(layers):
    return [(layer.name, round(layer.enter, 9), round(layer.leave, 9)) for layer in layers]


def test_a_pillar_screwed_from_below_through_a_recess():
    """From the bottom at X 560, Y 130: 22 of base under the recess, 6 of plate, then the pillar's own hole."""
    _, layers, _ = met([BASE, PLATE, PILLAR], "P01", "bottom", 560, 130)
    assert stack(layers) == [("P01", 0, 22), ("P11", 22, 28), ("P10", 50, 193)]
    assert [(gap.before.name, gap.after.name, gap.enter, gap.leave) for gap in gaps(layers)] == [
        ("P11", "P10", 28, 50)
    ]


def test_the_recess_takes_from_the_thickness_and_keeps_its_face():
    _, layers, _ = met([BASE, PLATE], "P01", "bottom", 524, 166)
    base = layers[0]
    assert (base.face_in, base.u_in, base.v_in) == ("bottom", 524, 166)
    assert (base.face_out, base.u_out, base.v_out) == ("top", 524, 94)


def test_from_the_top_the_home_point_lies_in_the_recess():
    _, layers, _ = met([BASE], "P01", "top", 524, 94)
    assert stack(layers) == [("P01", 6, 28)]


def test_the_corner_of_the_recess_is_round():
    at_the_corner = met([BASE], "P01", "top", 515.5, 85.5)[1]
    inside_the_round = met([BASE], "P01", "top", 516.0, 86.0)[1]
    # The arc's centre is (518, 88): (515.5, 85.5) is 3.54 from it, (516, 86) 2.83; the radius is 3.
    assert [layer.thickness for layer in at_the_corner] == [28]
    assert [layer.thickness for layer in inside_the_round] == [22]


def test_what_lies_on_the_face_is_met_only_from_outside():
    strap = Body("P26", Solid("block", 60, 25, 6), Pose("P01", u=100, v=50))
    (start, _), layers, _ = met([UNCUT, strap], "P01", "top", 110, 60)
    assert (start, stack(layers)) == ((110, 60, 28), [("P01", 0, 28)])
    (start, _), layers, _ = met([UNCUT, strap], "P01", "top", 110, 60, from_outside=True)
    first = 34 - start[2]
    assert stack(layers) == [("P26", -first, -first + 6), ("P01", -first + 6, -first + 34)]


def test_a_plate_with_no_recess_for_it_is_a_clash():
    _, layers, _ = met([UNCUT, PLATE], "P01", "top", 524, 94)
    assert stack(layers) == [("P11", 0, 6), ("P01", 0, 28)]
    assert [(o.first.name, o.second.name, o.enter, o.leave) for o in overlaps(layers)] == [
        ("P11", "P01", 0, 6)
    ]
    assert gaps(layers) == ()


def test_a_slit_makes_two_layers_of_one_part():
    lug = Body("P12", Solid("block", 60, 30, 12, pockets=(Pocket("top", 40, 14, None, 20, 1.5),)), Pose())
    _, layers, _ = met([lug], "P12", "front", 50, 6)
    assert stack(layers) == [("P12", 0, 14), ("P12", 15.5, 30)]
    assert [layer.oblique for layer in layers] == [False, False]
    assert [(layer.face_in, layer.face_out) for layer in layers] == [("front", "top"), ("top", "back")]


def test_past_the_slit_the_hole_is_marked_on_the_outer_faces():
    lug = Body("P12", Solid("block", 60, 30, 12, pockets=(Pocket("top", 40, 14, None, 20, 1.5),)), Pose())
    axis, layers, placed = met([lug], "P12", "front", 50, 6)
    marks = hole_in_layer(*axis, layers[1], lug, placed["P12"])
    assert (marks.entry.face, marks.entry.u, marks.entry.v, marks.entry.below) == ("front", 50, 6, 15.5)
    assert (marks.exit.face, marks.exit.u, marks.exit.v, marks.exit.below) == ("back", 10, 6, 0)


def test_a_tube_across_its_axis():
    tube = Body("P34", Solid("round", 140, diameter=100, bore=94), Pose(own_face="left"))
    _, layers, _ = met([tube], "P34", "side", 6, 30)
    assert stack(layers) == [("P34", 0, 3), ("P34", 97, 100)]
    assert [round(layer.v_in, 6) for layer in layers] == [30, 210]
    assert [layer.oblique for layer in layers] == [False, False]


def test_a_counterbore_takes_its_depth():
    carrier = Body("P19", Solid("block", 40, 25, 10, pockets=(Pocket("top", 20, 12, 3, diameter=7),)), Pose())
    axis, layers, placed = met([carrier], "P19", "top", 20, 12)
    assert stack(layers) == [("P19", 3, 10)]
    marks = hole_in_layer(*axis, layers[0], carrier, placed["P19"])
    assert (marks.entry.u, marks.entry.v, marks.entry.below, marks.entry.oblique) == (20, 12, 3, False)


def test_an_oblique_axis_is_flagged_and_is_longer():
    way = (math.sin(math.radians(30)), 0, -math.cos(math.radians(30)))
    layer = layers_along((100, 50, 28), way, [UNCUT], placements([UNCUT]))[0]
    assert layer.oblique
    assert layer.thickness == pytest.approx(28 / math.cos(math.radians(30)))


@pytest.mark.parametrize(("angle", "oblique"), [(0.05, False), (0.2, True)])
def test_square_is_within_a_tenth_of_a_degree(angle, oblique):
    way = (math.sin(math.radians(angle)), 0, -math.cos(math.radians(angle)))
    assert layers_along((100, 50, 28), way, [UNCUT], placements([UNCUT]))[0].oblique is oblique


def test_a_cross_hole_off_the_middle_of_a_rod_is_oblique_and_on_a_flat_is_not():
    rod = Body("P16", Solid("round", 430, diameter=6), Pose(own_face="bottom"))
    _, layers, _ = met([rod], "P16", "top", 100, 1)
    assert layers[0].oblique
    assert layers[0].thickness == pytest.approx(2 * math.sqrt(8))
    flat = Body(
        "P16",
        Solid("round", 430, diameter=6, pockets=(Pocket("side", 90, -3, 0.5, 20, 6, angle=90),)),
        rod.pose,
    )
    _, layers, _ = met([flat], "P16", "top", 100, 1)
    assert not layers[0].oblique
    assert layers[0].thickness == pytest.approx(math.sqrt(8) + 2.5)


def test_the_other_hand_reads_its_holes_from_the_drawing():
    """The same place in the build is 40 from the front on the drawn part and 140 on its mirror image."""
    side = Solid("block", 600, 180, 12)
    bodies = [
        UNCUT,
        Body("P03.1", side, Pose("P01", u=20, v=10)),
        Body("P03.2", side, Pose("P01", u=20, v=10, let_in=-12, hand="other")),
    ]
    placed = placements(bodies)
    axis = ((120, 50, 60), (0, 0, -1))
    layers = layers_along(*axis, bodies, placed)
    assert [layer.name for layer in layers] == ["P03.2", "P03.1", "P01"]
    marks = [
        hole_in_layer(*axis, layer, body, placed[body.name])
        for layer, body in zip(layers, bodies[::-1], strict=True)
    ]
    assert [(m.entry.face, m.entry.u, m.entry.v, m.mirrored) for m in marks] == [
        ("top", 100, 140, True),
        ("top", 100, 40, False),
        ("top", 120, 50, False),
    ]
    assert [(m.exit.face, m.exit.u, m.exit.v) for m in marks] == [
        ("bottom", 100, 40),
        ("bottom", 100, 140),
        ("bottom", 120, 210),
    ]


def test_an_axis_in_the_joint_between_two_parts_meets_neither():
    left = Body("A", Solid("block", 50, 20, 20), Pose())
    right = Body("B", Solid("block", 50, 20, 20), Pose(v=20))
    bodies = [left, right]
    assert layers_along((25, 20, 30), (0, 0, -1), bodies, placements(bodies)) == ()


def test_the_limit_leaves_out_what_begins_beyond_it():
    _, layers, _ = met([BASE, PLATE, PILLAR], "P01", "bottom", 560, 130, length_limit=25)
    assert stack(layers) == [("P01", 0, 22), ("P11", 22, 28)]


def test_a_home_that_is_not_placed_is_said():
    with pytest.raises(InputError, match="P77 has no place in the build"):
        axis_from("P77", "top", 0, 0, [BASE], placements([BASE]))


@pytest.mark.parametrize("way", [(0, 0, 0), (math.nan, 0, 1), (math.inf, 0, 0)])
def test_an_axis_needs_a_direction(way):
    with pytest.raises(InputError, match="a direction that is not nought"):
        layers_along((0, 0, 0), way, [BASE], placements([BASE]))
