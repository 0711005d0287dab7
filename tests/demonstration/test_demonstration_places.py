"""Where the parts of TW-31 lie, against its datum table: X along the grain, Y from the front edge, Z from the top.

The table's Z begins at the base's top face, which is Z = 28 of the base's own frame.
"""

from __future__ import annotations

import itertools
import math

import pytest

from calculators.geometry.frames import face_frame
from calculators.geometry.vectors import Vector
from calculators.planning.inspection import inspect_build
from calculators.planning.placing import PlacedBuild, place_build
from calculators.planning.worked import WorkedBuild
from tests.demonstration.test_demonstration_files import build_of

TOP = 28.0
Box = tuple[Vector, Vector]


@pytest.fixture(scope="module")
def placed() -> PlacedBuild:
    return place_build(build_of("TW-31"))


@pytest.fixture(scope="module")
def worked() -> WorkedBuild:
    return inspect_build(build_of("TW-31"))


def box(placed: PlacedBuild, name: str) -> Box:
    """The box about a copy, worked out here from the corners of its blank."""
    solid, carry = placed.bodies[name].solid, placed.transforms[name]
    radius = solid.diameter / 2
    spans = [(0.0, solid.length), (0.0, solid.width), (0.0, solid.thickness)]
    if solid.shape == "round":
        spans = [(0.0, solid.length), (-radius, radius), (-radius, radius)]
    points = [carry.point(corner) for corner in itertools.product(*spans)]
    return (
        (min(p[0] for p in points), min(p[1] for p in points), min(p[2] for p in points)),
        (max(p[0] for p in points), max(p[1] for p in points), max(p[2] for p in points)),
    )


def middle(placed: PlacedBuild, name: str) -> Vector:
    low, high = box(placed, name)
    return ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2)


def test_every_pose_leads_to_the_ground(placed: PlacedBuild) -> None:
    assert placed.findings == ()
    assert len(placed.transforms) == 41


@pytest.mark.parametrize(
    ("name", "x", "y", "z"),
    [
        ("P10", 560, 130, TOP + 82.5),  # pillar axis; 165.0 as made, standing on the flange
        ("P11", 560, 130, TOP - 3),  # flange 6 thick, its top flush
        ("P34", 90, 130, TOP + 70),  # drum axis parallel to Y, 60 to 200
        ("P02.1", 180, 130, -11),  # battens under the base, 22 thick
        ("P02.2", 450, 130, -11),
        ("P28.1", 395, 95.5, TOP + 12.5),  # anchors 150 from the pivot at X 545
        ("P28.2", 395, 164.5, TOP + 12.5),
        ("P22", 245, 130, TOP + 34),  # bob 300 from the pivot
        ("P23", 165, 130, TOP + 38.5),  # vane 380 from the pivot
        ("C23.1", 30, 30, -4),  # levelling nut plates
        ("C23.2", 30, 230, -4),
        ("C23.3", 610, 130, -4),
        ("P09.3", 610, 130, -51),  # pad 10 thick under a screw that stands 30 out of 8 of plate, its head 8
    ],
)
def test_parts_stand_where_the_datum_table_says(
    placed: PlacedBuild, name: str, x: float, y: float, z: float
) -> None:
    assert middle(placed, name) == pytest.approx((x, y, z), abs=1e-6)


@pytest.mark.parametrize(
    ("joint", "spots"),
    [
        ("F01", [(x, y) for x in (180, 450) for y in (35, 130, 225)]),
        ("F02", [(560 + a, 130 + b) for a in (-36, 36) for b in (-36, 36)]),
        ("F03", [(560, 130)]),
        ("F09", [(x, y) for x in (320, 330) for y in (105, 155)]),
        ("F13", [(395, 95.5), (395, 164.5)]),
        ("F18", [(x, y) for x in (70, 110) for y in (40, 220)]),
        ("F24", [(x, y) for x, c in ((30, 30), (30, 230), (610, 130)) for y in (c - 16, c + 16)]),
    ],
)
def test_holes_in_the_base_land_where_the_datum_table_says(
    worked: WorkedBuild, joint: str, spots: list[tuple[float, float]]
) -> None:
    found = []
    for hole in worked.holes:
        if hole.part == "P01" and hole.joint == joint:
            assert hole.u_mm is not None
            assert hole.v_mm is not None
            # v of the bottom face runs from the back edge, at Y = 260
            found.append((hole.u_mm, 260 - hole.v_mm if hole.face == "bottom" else hole.v_mm))
    assert len(found) == len(spots)
    for spot, wanted in zip(sorted(found), sorted(spots), strict=True):
        assert spot == pytest.approx(wanted, abs=1e-3)


def test_the_levelling_screws_have_room_above_their_plates(placed: PlacedBuild, worked: WorkedBuild) -> None:
    """50.8 long, 30 out below, 8 of plate: 12.8 goes up into the base, in the middle of a hole 18 deep."""
    base = next(one for one in build_of("TW-31").components if one.mark == "P01")
    spots = sorted((hole.u.mm, 260 - (hole.v.mm if hole.v else 0)) for hole in base.holes)
    assert spots == [(30, 30), (30, 230), (610, 130)]
    tip = next(each for each in worked.joints if each.joint.mark == "F23").result.tip_mm
    assert tip == pytest.approx(50.8)  # from under the head; the plate begins 30 along
    assert tip - 30 - 8 == pytest.approx(12.8)
    assert all(hole.depth is not None and hole.depth.mm > 12.8 for hole in base.holes)


def test_the_battens_are_found_by_the_axes_of_their_screws(worked: WorkedBuild) -> None:
    joint = next(each for each in worked.joints if each.joint.mark == "F01")
    layers = [item.layer for item in joint.inputs.stack if item.layer]
    assert [(layer.part, layer.thickness_mm) for layer in layers] == [("P02", 22.0), ("P01", 28.0)]


@pytest.mark.parametrize(
    ("joint", "thicknesses"),
    [
        ("F02", [6, 22]),  # the recess takes 6 of 28
        ("F03", [22, 6, 165]),
        ("F05", [8, 10]),  # two lugs of one part, the slit between them
        ("F07", [6, 10]),
        ("F08", [10, 6]),
        ("F09", [1.6256, 28]),
        ("F17", [3, 43]),  # tube, then cap from 94 to 8 dia
        ("F18", [3, 28]),
        ("F24", [8, 28]),
    ],
)
def test_thicknesses_are_found_and_not_typed(
    worked: WorkedBuild, joint: str, thicknesses: list[float]
) -> None:
    found = [each for each in worked.joints if each.joint.mark == joint]
    assert found
    for each in found:
        layers = [item.layer.thickness_mm for item in each.inputs.stack if item.layer]
        assert layers == pytest.approx(thicknesses, abs=1e-5)


def test_no_axis_meets_a_surprise(worked: WorkedBuild) -> None:
    rules = {finding.rule for finding in worked.findings}
    assert not rules & {"parts-overlap", "part-in-the-way", "axis-misses-part", "typed-thickness", "pose"}


def test_the_boom_and_its_pivot_stand_clear_of_the_pillar(placed: PlacedBuild) -> None:
    """Pillar 19.05 dia at X 560: its near side is X 550.475."""
    near = 560 - 19.05 / 2
    assert box(placed, "P10")[0][0] == pytest.approx(near, abs=1e-6)
    assert box(placed, "P17")[1][0] == pytest.approx(545, abs=1e-6)
    for name in ("P16", "P17", "P18", "P19", "P22"):
        assert box(placed, name)[1][0] < near
    edge = placed.transforms["P17"].point((10.0, 0.0, 3.0))  # the middle of the edge
    assert edge[:2] == pytest.approx((545, 130), abs=1e-6)


def test_the_edge_bears_in_the_v(placed: PlacedBuild) -> None:
    """The V is above the foot, up to 22 over the base; the edge reaches down to 17 and clears the foot at 16."""
    block_low, block_high = box(placed, "P18")
    edge_low, edge_high = box(placed, "P17")
    foot_top = block_low[2] + 6
    assert foot_top < edge_low[2] < block_high[2] < edge_high[2]
    assert block_high[2] - edge_low[2] == pytest.approx(5.0)


def test_the_boom_is_level_at_34(placed: PlacedBuild) -> None:
    low, high = box(placed, "P16")
    assert (low[2] + high[2]) / 2 == pytest.approx(TOP + 34)
    assert high[2] - low[2] == pytest.approx(6.0)
    assert high[0] - low[0] == pytest.approx(380)


def test_nothing_that_swings_or_stands_by_it_reaches_the_drum(placed: PlacedBuild) -> None:
    """The drum, X 40 to 140, is kept clear from X 30 to 150, above the base."""
    drum = {
        "P01",
        "P34",
        "P35.1",
        "P35.2",
        "P36",
        "P37.1",
        "P37.2",
        "P38.1",
        "P38.2",
        "C23.1",
        "C23.2",
        "P09.1",
        "P09.2",
    }
    cover = {f"P{i:02d}.{copy}" for i in (3, 4, 5, 6) for copy in (1, 2)}
    others = set(placed.transforms) - drum - cover
    assert {"P16", "P22", "P23", "P26"} <= others
    assert min(box(placed, name)[0][0] for name in others) >= 150
    assert box(placed, "P34")[0][0] == 40
    assert box(placed, "P34")[1][0] == 140


def test_the_tallest_point_is_under_the_cover(placed: PlacedBuild) -> None:
    """172 over the base, at the wire adjuster; the cover's sides are 180 high."""
    cover = {f"P{i:02d}.{copy}" for i in (3, 4, 5, 6) for copy in (1, 2)}
    tall = {name: box(placed, name)[1][2] - TOP for name in placed.transforms if name not in cover}
    assert max(tall, key=lambda name: tall[name]) == "P13"
    assert tall["P13"] == pytest.approx(172)
    assert box(placed, "P03.1")[1][2] - TOP == pytest.approx(180)


def test_everything_stands_inside_the_cover(placed: PlacedBuild) -> None:
    inside = ((32.0, 16.0), (608.0, 244.0))
    for name in placed.transforms:
        if name.split(".")[0] not in ("P01", "P02", "P03", "P04", "P05", "P06", "P09", "C23"):
            low, high = box(placed, name)
            for axis in (0, 1):
                assert inside[0][axis] <= low[axis], name
                assert high[axis] <= inside[1][axis], name


def test_the_lid_is_as_wide_as_the_cover(placed: PlacedBuild) -> None:
    """Cover 12 + 228 + 12; lid 40 + 172 + 40, its short rails 222 with two tenons of 25."""
    cover = (box(placed, "P03.1")[0][1], box(placed, "P03.2")[1][1])
    lid = (box(placed, "P05.1")[0][1], box(placed, "P05.2")[1][1])
    assert cover == pytest.approx(lid)
    assert cover[1] - cover[0] == pytest.approx(12 + 228 + 12)
    short = box(placed, "P06.1")
    assert short[1][1] - short[0][1] == pytest.approx(172 + 2 * 25)


def test_stop_screws_come_from_outside_at_the_height_of_the_boom(placed: PlacedBuild) -> None:
    """Posts at Y 92 and 168, 10 dia: the screws begin at Y 87 and 173 and run towards each other at 34."""
    joint = next(each for each in build_of("TW-31").joints if each.mark == "F11")
    place = joint.places[0]
    for name, y, way in (("P20.1", 87, 1), ("P20.2", 173, -1)):
        frame = face_frame(placed.bodies[name].solid, "side", float(place.angle_deg or 0))
        assert placed.transforms[name].point(frame.point(place.u.mm, 0)) == pytest.approx(
            (325, y, TOP + 34), abs=1e-3
        )
        assert placed.transforms[name].direction(frame.inward) == pytest.approx((0, way, 0), abs=1e-9)


def test_the_thumb_screw_is_uppermost_on_the_bob(placed: PlacedBuild) -> None:
    place = next(each for each in build_of("TW-31").joints if each.mark == "F12").places[0]
    frame = face_frame(placed.bodies["P22"].solid, "side", float(place.angle_deg or 0))
    assert placed.transforms["P22"].point(frame.point(place.u.mm, 0)) == pytest.approx(
        (245, 130, TOP + 34 + 25)
    )


def test_the_numbers_that_the_later_rules_need_are_in_the_build() -> None:
    """Mistakes 2, 5 and 6: recess corners, swing, springs; the arithmetic that the rules will have to give."""
    parts = {one.mark: one for one in build_of("TW-31").components}
    recess, plate = parts["P01"].pockets[0], parts["P11"]
    assert recess.cutter is not None
    assert plate.corner_radius is not None
    overlap = (recess.cutter.mm / 2 - plate.corner_radius.mm) * (math.sqrt(2) - 1)
    assert overlap == pytest.approx(1.39, abs=0.005)
    assert overlap - 0.1 * math.sqrt(2) == pytest.approx(1.25, abs=0.005)
    # the axis of the 6 mm boom passes the tip of the stop, 220 out, at 3 from it
    for tip, angle in ((26.5, 6.09), (18.0, 3.90)):
        swing = math.atan2(tip, 220) - math.asin(3 / math.hypot(tip, 220))
        assert math.degrees(swing) == pytest.approx(angle, abs=0.005)
    spring = parts["P27"]
    assert "installed extension 6.0" in spring.note
    assert "wire 0.50" in spring.note
    assert 150 * math.sin(math.radians(6.09)) == pytest.approx(16.0, abs=0.1)
    assert 150 * math.sin(math.radians(3.90)) == pytest.approx(10.2, abs=0.05)
