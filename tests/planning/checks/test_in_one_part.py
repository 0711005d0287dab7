"""Holes and pockets of one part, each rule just inside and just outside of its limit.

The numbers are worked by hand: a 118 degree point of a drill of diameter d is d / 2 / tan 59 deg high (for
6 mm: 1.803 mm); the limits are those of the rules' own table.
"""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal

import pytest

from calculators.planning.checks.in_one_part import RULES
from calculators.planning.edits.setting import set_fields
from calculators.planning.inspection import inspect_build
from calculators.planning.model import (
    Build,
    Component,
    Hole,
    Joint,
    Place,
    Pocket,
    Pose,
    Size,
    StackMember,
)
from calculators.quantities.length import Length

NAMES = {rule.name for rule in RULES}
POINT_6 = 3 / math.tan(math.radians(59))


def mm(value):
    return Length.of_mm(Decimal(str(value)))


def hole(name, face, u, v=None, d=6.0, depth=None, **more):
    """A plain hole of diameter d; through, unless a depth is given."""
    lengths = {key: mm(value) for key, value in more.items() if isinstance(value, float | int)}
    rest = {key: value for key, value in more.items() if key not in lengths}
    lengths["diameter"] = mm(d)
    if depth is not None:
        lengths["depth"] = mm(depth)
    if v is not None:
        lengths["v"] = mm(v)
    return Hole(name, face, mm(u), **lengths, **rest)


def pocket(name, face, u, v, length, width, depth=None, radius=None):
    return Pocket(
        name, face, mm(u), mm(v), mm(length), mm(width),
        None if depth is None else mm(depth), None if radius is None else mm(radius),
    )  # fmt: skip


def block(*features, material="European oak", size=(100, 60, 20)):
    return Component(
        "P1", "Block", material=material, size=Size("block", *map(mm, size)),
        poses=(Pose(),),
        holes=tuple(one for one in features if isinstance(one, Hole)),
        pockets=tuple(one for one in features if isinstance(one, Pocket)),
    )  # fmt: skip


def rod(*holes, diameter=20, length=100, bore=None, material="brass"):
    size = Size("round", mm(length), diameter=mm(diameter), bore=None if bore is None else mm(bore))
    return Component("P1", "Rod", material=material, size=size, poses=(Pose(),), holes=holes)


def findings(*parts, joints=()):
    worked = inspect_build(Build("B1", "Thing", components=parts, joints=joints))
    assert not [one for one in worked.findings if one.rule == "rule-failed"]
    return [one for one in worked.findings if one.rule in NAMES]


def verdicts(*parts, joints=()):
    return [(one.rule, one.severity, one.value) for one in findings(*parts, joints=joints)]


def near(value):
    return pytest.approx(value, abs=2e-3)


# The hole from the top has its wall at Y 27; the one from the front ends at its depth and its point.
@pytest.mark.parametrize(
    ("depth", "expected"),
    [
        (22.1, []),
        (22.3, [("holes-meet", "warning", near(27 - 22.3 - POINT_6))]),
        (25.3, [("holes-meet", "error", near(27 - 25.3 - POINT_6))]),
    ],
)
def test_a_hole_from_the_front_runs_towards_one_from_the_top(depth, expected):
    part = block(hole("h1", "top", 50, 30), hole("h2", "front", 50, 10, depth=depth))
    assert verdicts(part) == expected


def test_in_metal_a_millimetre_is_wall_enough():
    def part(depth):
        return block(hole("h1", "top", 50, 30), hole("h2", "front", 50, 10, depth=depth), material="brass")

    assert verdicts(part(27 - POINT_6 - 1.05)) == []
    assert verdicts(part(27 - POINT_6 - 0.95)) == [("holes-meet", "warning", near(0.95))]


def test_holes_that_cross_inside_are_told_in_words_with_where_and_what_to_set():
    part = block(hole("h1", "top", 50, 30), hole("h2", "front", 55, 10))
    (found,) = findings(part)
    assert found.says == (
        "Hole h1 (from the top) and hole h2 (from the front) meet inside P1, 1.0 mm into one another: move "
        "one of them, or drill less deep."
    )
    assert (found.part, found.place, found.unit, found.limit) == ("P1", "h1", "mm", 3.0)
    assert found.at == "components[P1].holes[h1].u"
    assert found.source == "geometry of the part; limits: common practice"
    assert {spot.face for spot in found.spots} == {"top", "front"}
    (mend,) = found.mends
    assert mend.says == "Move hole h1 by 4 mm: u 46 mm."
    mended = set_fields(Build("B1", "Thing", components=(part,)), mend.value)
    assert findings(*mended.components) == []


@pytest.mark.parametrize(
    ("v", "expected"),
    [
        (6.01, []),
        (5.9, [("hole-breaks-out", "warning", near(2.9))]),
        (2.9, [("hole-breaks-out", "error", near(-0.1))]),
    ],
)
def test_wall_to_a_side(v, expected):
    assert verdicts(block(hole("h1", "top", 50, v))) == expected


def test_a_hole_that_breaks_out_is_moved_in():
    (found,) = findings(block(hole("h1", "top", 50, 1)))
    assert found.says == ("Hole h1 breaks out of the front of P1 by 2.0 mm: move it in, or make it smaller.")
    assert [mend.says for mend in found.mends] == ["Move hole h1 by 5 mm: v 6 mm."]


def test_a_corner_hole_names_both_sides():
    (found,) = findings(block(hole("h1", "top", 1, 2)))
    assert "breaks out of the left and the front" in found.says
    assert found.mends == ()


@pytest.mark.parametrize(
    ("depth", "expected"),
    [
        (20 - POINT_6 - 1.55, []),
        (20 - POINT_6 - 1.45, [("hole-comes-through", "warning", near(1.45))]),
        (20 - POINT_6 + 0.05, [("hole-comes-through", "error", near(-0.05))]),
        (20, []),
        (21, [("hole-comes-through", "error", near(-1 - POINT_6))]),
    ],
)
def test_a_blind_hole_and_its_drill_point(depth, expected):
    assert verdicts(block(hole("h1", "top", 50, 30, depth=round(depth, 4)))) == expected


def test_drilling_less_deep_mends_a_blind_hole():
    (found,) = findings(block(hole("h1", "top", 50, 30, depth=18.5)))
    assert found.says == (
        "Hole h1 is blind, but comes through the far face of P1 by 0.3 mm: it is 18.5 mm deep with its 1.8 mm "
        "of drill point. Drill less deep."
    )
    assert found.at == "components[P1].holes[h1].depth"
    assert [(mend.says, mend.value) for mend in found.mends] == [
        ("Drill hole h1 16.5 mm deep.", "components[P1].holes[h1].depth = 16.5 mm")
    ]


def test_a_hole_from_below_comes_through_the_floor_of_a_pocket():
    part = block(pocket("R", "top", 30, 15, 40, 30, 8), hole("h1", "bottom", 50, 30, depth=11))
    assert verdicts(part) == [("hole-comes-through", "error", near(12 - 11 - POINT_6))]
    fits = block(pocket("R", "top", 30, 15, 40, 30, 8), hole("h1", "bottom", 50, 30, depth=8.6))
    assert verdicts(fits) == []


def test_wide_holes_in_wood_are_bored_flat():
    """A 35 mm cup 13 mm deep in a 19 mm door: 6 mm are left, where a drill point would be 10.5 mm high."""
    assert verdicts(block(hole("h1", "top", 50, 30, d=35, depth=13), size=(100, 60, 19))) == []


@pytest.mark.parametrize(
    ("v", "expected"), [(6.0, []), (5.9, [("countersink-overlaps", "error", near(-0.1))])]
)
def test_a_countersink_at_an_edge(v, expected):
    part = block(hole("h1", "top", 50, v, d=4, countersink_diameter=12, countersink_angle_deg=Decimal(90)))
    expected_wall = []
    assert verdicts(part) == expected + expected_wall


@pytest.mark.parametrize(
    ("apart", "expected"), [(12.1, []), (11.9, [("countersink-overlaps", "error", near(-0.1))])]
)
def test_two_countersinks(apart, expected):
    """Two cones of one size on one face part first at their rims."""
    sunk = {"d": 4, "countersink_diameter": 12, "countersink_angle_deg": Decimal(90)}
    part = block(hole("h1", "top", 40, 30, **sunk), hole("h2", "top", 40 + apart, 30, **sunk))
    found = [one for one in verdicts(part) if one[0] != "holes-meet"]
    # They could be parted by less than the rims' overlap, along the cones' slopes: never by more.
    assert [one[:2] for one in found] == [one[:2] for one in expected]
    assert all(-0.1 - 1e-3 <= one[2] < 0 for one in found)


def test_a_countersink_and_a_pocket():
    sunk = {"d": 4, "countersink_diameter": 12, "countersink_angle_deg": Decimal(90)}
    clear = block(pocket("R", "top", 60, 15, 20, 30, 6), hole("h1", "top", 53.9, 30, **sunk))
    assert verdicts(clear) == []
    over = block(pocket("R", "top", 60, 15, 20, 30, 6), hole("h1", "top", 54.5, 30, **sunk))
    assert [one[:2] for one in verdicts(over)] == [("countersink-overlaps", "error")]


def test_a_counterbore_in_a_pocket_s_floor_needs_room_there():
    def part(v):
        sunk = hole("h1", "top", 50, v, d=5, counterbore_diameter=10, counterbore_depth=3)
        return block(pocket("R", "top", 30, 15, 40, 30, 6), sunk)

    assert verdicts(part(20.1)) == []
    assert verdicts(part(19.9)) == [("countersink-overlaps", "error", near(-0.1))]


# The pocket's floor is at Z 12; the hole from the front runs under it with its wall 3 mm above its axis.
@pytest.mark.parametrize(
    ("v", "expected"),
    [
        (6.0, []),
        (6.1, [("pocket-opens-hole", "warning", near(2.9))]),
        (9.1, [("pocket-opens-hole", "error", near(-0.1))]),
    ],
)
def test_a_pocket_over_a_hole(v, expected):
    part = block(pocket("R", "top", 30, 15, 40, 30, 8), hole("h1", "front", 50, v))
    assert verdicts(part) == expected


def test_a_hole_in_a_pocket_s_floor_by_its_wall():
    fits = block(pocket("R", "top", 30, 15, 40, 30, 8), hole("h1", "top", 50, 18.1))
    assert verdicts(fits) == []
    over = block(pocket("R", "top", 30, 15, 40, 30, 8), hole("h1", "top", 50, 17.9))
    assert verdicts(over) == [("pocket-opens-hole", "error", near(-0.1))]


def test_a_pocket_that_cuts_a_threaded_hole_in_two():
    part = block(
        pocket("R", "top", 45, 15, 10, 30, 14),
        hole("h1", "left", 30, 10, d=5, kind="tapping", thread="M6"),
        size=(100, 60, 20),
    )
    assert [one[:2] for one in verdicts(part)] == [("pocket-opens-hole", "error")]


@pytest.mark.parametrize(
    ("depth", "expected"),
    [
        (9.9, []),
        (10.1, [("pockets-meet", "warning", near(1.9))]),
        (12.1, [("pockets-meet", "error", near(-0.1))]),
    ],
)
def test_pockets_from_opposite_faces(depth, expected):
    part = block(pocket("A", "top", 30, 15, 40, 30, 8), pocket("B", "bottom", 30, 15, 40, 30, depth))
    assert verdicts(part) == expected


@pytest.mark.parametrize(
    ("depth", "expected"),
    [
        (27.9, []),
        (28.1, [("pockets-meet", "warning", near(1.9))]),
        (30.1, [("pockets-meet", "warning", near(-0.1))]),
    ],
)
def test_mortises_from_neighbouring_faces(depth, expected):
    """The one from the top lies from 30 to 40 behind the front; the other runs towards it from the front."""
    leg = block(
        pocket("A", "top", 30, 30, 40, 10, 35),
        pocket("B", "front", 30, 20, 40, 10, depth),
        size=(100, 60, 60),
    )
    assert verdicts(leg) == expected


@pytest.mark.parametrize(
    ("depth", "expected"),
    [
        (15.0, []),
        (15.1, [("pockets-meet", "warning", near(4.9))]),
        (18.1, [("pockets-meet", "error", near(1.9))]),
        (20.0, [("pockets-meet", "error", near(0.0))]),
        (None, []),
    ],
)
def test_the_floor_under_a_pocket(depth, expected):
    assert verdicts(block(pocket("R", "top", 30, 15, 40, 30, depth))) == expected


def test_a_rebate_may_leave_a_thin_tongue():
    assert verdicts(block(pocket("R", "top", 0, 0, 100, 10, 18.5))) == []


@pytest.mark.parametrize(
    ("u", "expected"),
    [
        (100.1, [("feature-off-part", "error", near(0.1))]),
        (97.0, [("hole-breaks-out", "error", near(0.0))]),
        (94.0, []),
    ],
)
def test_a_hole_beside_its_face(u, expected):
    assert verdicts(block(hole("h1", "top", u, 30))) == expected


def test_a_pocket_beside_its_face_and_a_hole_in_the_air():
    assert verdicts(block(pocket("R", "top", 100.5, 10, 20, 20, 5))) == [
        ("feature-off-part", "error", near(0.5))
    ]
    part = block(pocket("R", "top", 30, 15, 40, 30), hole("h1", "top", 50, 30))
    assert verdicts(part) == [("feature-off-part", "error", None)]


def test_holes_in_a_rod():
    """20 mm rod. A 6 mm hole along it 6 mm off its axis leaves 1 mm; an 18.2 mm cross hole 0.9 mm beside it."""
    nylon = "nylon"  # of metal the rule of hole to edge tells it
    assert verdicts(rod(hole("h1", "left", 6, 0, depth=20), material=nylon)) == []
    assert verdicts(rod(hole("h1", "left", 6.1, 0, depth=20), material=nylon)) == [
        ("hole-breaks-out", "warning", near(0.9))
    ]
    assert verdicts(rod(hole("h1", "left", 6.1, 0, depth=20))) == []
    assert verdicts(rod(hole("h1", "left", 7.1, 0, depth=20))) == [("hole-breaks-out", "error", near(-0.1))]
    assert verdicts(rod(hole("h1", "side", 50, angle_deg=Decimal(30), d=18))) == []
    assert verdicts(rod(hole("h1", "side", 50, angle_deg=Decimal(30), d=18.2))) == [
        ("hole-breaks-out", "warning", near(0.9))
    ]


def test_a_blind_hole_from_a_rod_s_side_reaches_the_far_side_with_its_rim_first():
    """A flat-ended bore of diameter 12 at 18 mm depth: its rim is hypot(8, 6) = 10 from the axis."""
    depth = 17.4
    expected = 10 - math.hypot(depth - 10, 6)
    part = rod(hole("h1", "side", 50, angle_deg=Decimal(0), d=12, depth=depth, kind="slot", slot_length=12))
    assert verdicts(part) == [("hole-comes-through", "warning", near(expected))]


# --- what is meant ---------------------------------------------------------------------------------------


def test_a_grub_screw_s_hole_may_reach_the_hole_of_a_shaft():
    part = block(
        hole("shaft", "top", 50, 30, d=10, kind="reamed"),
        hole("grub", "front", 50, 10, d=4.2, kind="tapping", thread="M5", depth=30),
        material="brass",
    )
    assert verdicts(part) == []


def test_the_same_hole_beside_the_shaft_s_axis_is_no_longer_aimed():
    part = block(
        hole("shaft", "top", 50, 30, d=10, kind="reamed"),
        hole("grub", "front", 56, 10, d=4.2, kind="tapping", thread="M5", depth=30),
        material="brass",
    )
    assert [one[:2] for one in verdicts(part)] == [("holes-meet", "error")]


def test_a_stepped_hole_from_both_faces_is_one_hole():
    part = block(hole("a", "top", 50, 30, d=10, depth=8), hole("b", "bottom", 50, 30, d=6))
    assert verdicts(part) == []


def test_a_hole_from_a_tube_s_side_may_open_its_bore():
    tube = rod(hole("h1", "side", 50, angle_deg=Decimal(0), d=4.2, depth=6), diameter=20, bore=10)
    assert verdicts(tube) == []
    skin = rod(hole("h1", "side", 50, angle_deg=Decimal(0), d=4.2, depth=3.2), diameter=20, bore=10)
    assert verdicts(skin) == [
        ("hole-comes-through", "warning", near(5 - 3.2 - 2.1 / math.tan(math.radians(59))))
    ]


def test_a_peg_through_a_mortise_is_meant():
    part = block(pocket("M", "front", 40, 5, 20, 10, 50), hole("peg", "top", 50, 30, d=8), size=(100, 60, 20))
    assert [one for one in verdicts(part) if one[0] != "pockets-meet"] == []


# --- joints -----------------------------------------------------------------------------------------------


def board_with_screws(z_of_side):
    """A board with a screw from the top of a plate and one from a batten at its front, towards it."""
    board = Component(
        "P1", "Board", material="European oak", size=Size("block", mm(200), mm(100), mm(40)), poses=(Pose(),)
    )
    plate = Component(
        "P2", "Plate", material="brass", size=Size("block", mm(60), mm(40), mm(3)),
        poses=(Pose(on="P1", face="top", u=mm(70), v=mm(5)),),
    )  # fmt: skip
    batten = Component(
        "P3", "Batten", material="European oak", size=Size("block", mm(60), mm(30), mm(10)),
        poses=(Pose(on="P1", face="front", u=mm(70), v=mm(5)),),
    )  # fmt: skip
    joints = (
        Joint(
            "F1", "Plate", "No. 8 x 1 1/2 csk brass wood screw", home="P2", face="top",
            places=(Place("1", mm(30), mm(20)),),
            stack=(StackMember(part="P2"), StackMember(part="P1", takes="pilot")),
        ),
        Joint(
            "F2", "Batten", "No. 8 x 1 1/2 csk brass wood screw", home="P3", face="top",
            places=(Place("1", mm(30), mm(z_of_side)),),
            stack=(StackMember(part="P3"), StackMember(part="P1", takes="pilot")),
        ),
    )  # fmt: skip
    return (board, plate, batten), joints


def test_screws_of_two_joints_meet_inside_a_board():
    parts, joints = board_with_screws(15)
    found = [one for one in findings(*parts, joints=joints) if one.rule == "holes-meet"]
    assert [(one.severity, one.part) for one in found] == [("error", "P1")]
    assert found[0].says.startswith("The hole of F")
    assert found[0].at == "joints[F1].places[1].u"
    assert found[0].mends == ()


def test_screws_of_two_joints_pass_clear_of_each_other():
    parts, joints = board_with_screws(15)
    clear = (
        joints[0],
        Joint(
            **{
                **{n: getattr(joints[1], n) for n in joints[1].__slots__},
                "places": (Place("1", mm(10), mm(15)),),
            }
        ),
    )
    assert [one for one in findings(*parts, joints=clear) if one.rule == "holes-meet"] == []


def test_a_joint_s_countersink_overlaps_an_edge():
    """A No. 8 head of 8.3 mm or so, 3.5 mm from the edge of a plate: over it by half its width less 3.5."""
    board = Component(
        "P1", "Board", material="European oak", size=Size("block", mm(200), mm(100), mm(40)), poses=(Pose(),)
    )
    plate = Component(
        "P2", "Plate", material="nylon", size=Size("block", mm(60), mm(40), mm(5)),
        poses=(Pose(on="P1", face="top", u=mm(70), v=mm(30)),),
    )  # fmt: skip
    joint = Joint(
        "F1", "Plate", "No. 8 x 1 csk brass wood screw", home="P2", face="top",
        places=(Place("1", mm(30), mm(3.5)),),
        stack=(StackMember(part="P2"), StackMember(part="P1", takes="pilot")),
    )  # fmt: skip
    worked = inspect_build(Build("B1", "Thing", components=(board, plate), joints=(joint,)))
    wide = next(one.hole.countersink_diameter_mm for one in worked.holes if one.part == "P2")
    (found,) = [one for one in worked.findings if one.rule == "countersink-overlaps"]
    assert (found.joint, found.part, found.place, found.severity) == ("F1", "P2", "1", "error")
    assert found.value == near(3.5 - wide / 2)
    assert found.at == "joints[F1].places[1].u"


# A rod of 20: 15 deep leaves 5 at the axis; 5 either side of it the far side lies sqrt(100 - 25) = 8.660
# from the middle, so that 18.6 deep leaves 8.660 - 8.6 = 0.060. Of a tube of bore 10 its wall is 5 thick.
@pytest.mark.parametrize(
    ("depth", "bore", "expected"),
    [
        (15.0, None, []),
        (17.6, None, []),
        (17.7, None, [("pockets-meet", "error", near(0.960))]),
        (18.7, None, [("pockets-meet", "error", near(-0.040))]),
        (3.9, 10, []),
        (4.1, 10, [("pockets-meet", "error", near(0.9))]),
        (5.1, 10, []),
    ],
)
def test_the_floor_under_a_pocket_in_the_side_of_a_rod(depth, bore, expected):
    slot = replace(pocket("K", "side", 40, -5, 20, 10, depth, 2), angle_deg=Decimal(0))
    assert verdicts(replace(rod(bore=bore), pockets=(slot,))) == expected


def test_the_limit_of_a_thin_floor_is_the_one_that_it_is_under():
    (thin,) = findings(block(pocket("R", "top", 30, 15, 40, 30, 18.1)))
    assert (thin.value, thin.limit) == (near(1.9), 2.0)
    assert thin.says == (
        "Pocket R in the top of P1 leaves a floor of 1.9 mm, 18.1 mm deep in 20 mm, and 2 mm is the least: "
        "leave 5 mm."
    )


def test_a_countersink_that_cuts_into_a_hole_whose_bore_stays_clear_of_it():
    """The bores are 1.1 mm apart and more; at Y 0.49, X 21.90 and Z 8.90 lies a point well in both cuts.

    It is 2.904 and -4.643 from the one's axis, 5.476 of its 5.8; and 9.008 of 9.7 - 0.49 from the other's.
    """
    part = block(
        hole("h1", "bottom", 19.0, 56.97, d=11.6, depth=8.9),
        hole("h4", "front", 25.84, 17.0, d=8.4, depth=41.3, countersink_diameter=19.4),
        size=(111.4, 62.1, 32.3),
    )
    (over,) = [one for one in findings(part) if one.rule == "countersink-overlaps"]
    assert (over.place, over.severity) == ("h4", "error")
    assert over.value == pytest.approx(-0.43, abs=0.05)


# A thin wall is told by the distance to the edge where that is under a diameter, else by the wall itself:
# 1.6 mm wide and 0.95 from the side its middle is 1.75 from it, 1.1 D; 4 mm wide 2.95, 0.74 D.
@pytest.mark.parametrize(
    ("d", "wall", "rule"), [(1.6, 0.95, "hole-breaks-out"), (4.0, 0.95, "edge-of-metal")]
)
def test_a_thin_wall_of_metal_is_told_by_one_rule(d, wall, rule):
    part = block(hole("h1", "top", 50, wall + d / 2, d=d), material="brass")
    worked = inspect_build(Build("B1", "Thing", components=(part,)))
    assert [one.rule for one in worked.findings if one.part == "P1" and one.value is not None] == [rule]


@pytest.mark.parametrize(
    ("d", "wall", "rule"), [(1.6, 0.95, "hole-breaks-out"), (4.0, 0.95, "edge-of-metal")]
)
def test_a_thin_wall_to_a_bore_is_told_by_one_rule(d, wall, rule):
    part = rod(hole("h1", "left", 5 + wall + d / 2, 0, d=d), diameter=40, bore=10)
    worked = inspect_build(Build("B1", "Thing", components=(part,)))
    assert [one.rule for one in worked.findings if one.part == "P1" and one.value is not None] == [rule]
