"""Joints are placed once; layers, thicknesses and the holes in every part follow from the poses."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from calculators.planning.inspection import inspect_build
from calculators.planning.model import (
    Build,
    Component,
    Context,
    Joint,
    LayerHole,
    Place,
    Pocket,
    Pose,
    Size,
    StackMember,
)
from calculators.planning.resolving import resolve_build
from calculators.planning.schedules import hole_schedule
from calculators.planning.worked import WorkedBuild, WorkedHole
from calculators.quantities.length import Length


def mm(value: float) -> Length:
    return Length.of_mm(value)


def block(length: float, width: float, thickness: float) -> Size:
    return Size("block", mm(length), mm(width), mm(thickness))


BOARD = Component(
    "P01",
    "Board",
    material="European oak",
    stock="board",
    size=block(640, 260, 28),
    grain_cut="flat",
    poses=(Pose(),),
    pockets=(Pocket("R", "top", mm(515), mm(85), mm(90), mm(90), mm(6), cutter=mm(12.7)),),
)
PLATE = Component(
    "P11",
    "Plate",
    material="brass",
    size=block(90, 90, 6),
    poses=(Pose(on="P01", face="top", u=mm(515), v=mm(85), let_in=mm(6)),),
)
PILLAR = Component(
    "P10",
    "Pillar",
    material="brass",
    size=Size("round", mm(165), diameter=mm(19)),
    poses=(Pose(on="P11", face="top", u=mm(45), v=mm(45), own_face="left", point="centre"),),
)
BATTENS = Component(
    "P02", "Batten", quantity=2, material="European oak", size=block(220, 45, 22),
    poses=tuple(
        Pose(copy, "P01", "bottom", mm(u), mm(20), turned_deg=Decimal(90), own_face="top")
        for copy, u in ((1, 202.5), (2, 472.5))
    ),
)  # fmt: skip


def build(*joints: Joint, parts: tuple[Component, ...] = (BOARD, PLATE, PILLAR, BATTENS)) -> Build:
    return Build(
        "B1", "Stand", components=parts, joints=joints, context=Context(moisture_change_percent=Decimal(5))
    )


def pillar_screw(**more: object) -> Joint:
    return Joint(
        "F03", "Pillar", "5/16 BSF x 2 hex set screw steel", home="P01", face="bottom",
        places=(Place("1", mm(560), mm(130)),),
        stack=(
            StackMember(item="5/16 repair washer", thickness=mm(1.6)), StackMember(part="P01"), StackMember(part="P11"),
            StackMember(part="P10", thread_depth=mm(18), drilled_depth=mm(22)),
        ), **more,
    )  # fmt: skip


def batten_screws(**more: object) -> Joint:
    return Joint(
        "F01", "Battens", "No. 8 x 1 3/4 csk slotted brass", home="P02", face="bottom",
        places=tuple(Place(str(i), mm(u), mm(22.5)) for i, u in enumerate((15, 110, 205), 1)),
        stack=(StackMember(part="P02", holes=more.pop("holes", (LayerHole(diameter=mm(4.5)),))), StackMember(part="P01")),
        steel_first=True, **more,
    )  # fmt: skip


def holes_of(worked: WorkedBuild, part: str) -> list[WorkedHole]:
    return [hole for hole in worked.holes if hole.part == part]


def rules(worked: WorkedBuild) -> set[str]:
    return {finding.rule for finding in worked.findings}


def test_a_recess_is_taken_off_the_layer_and_each_part_gets_its_hole_in_its_own_datum() -> None:
    worked = resolve_build(build(pillar_screw()))
    (joint,) = worked.joints
    layers = [item.layer for item in joint.inputs.stack if item.layer]
    assert [(layer.part, layer.thickness_mm) for layer in layers] == [("P01", 22), ("P11", 6), ("P10", 165)]
    places = {(hole.part, hole.face, hole.u_mm, hole.v_mm) for hole in worked.holes}
    # From below: the bottom's v runs from the back, so 130 of 260 is 130; the plate's own bottom is centred.
    assert places == {("P01", "bottom", 560, 130), ("P11", "bottom", 45, 45), ("P10", "left", 0, 0)}
    assert joint.result.engagement_mm == pytest.approx(18)


def test_the_copies_of_a_home_share_their_holes_and_the_count_is_places_times_copies() -> None:
    worked = resolve_build(build(batten_screws()))
    assert sum(joint.count for joint in worked.joints) == 6
    battens = holes_of(worked, "P02")
    assert [hole.u_mm for hole in battens] == [15, 110, 205]
    assert {hole.copies for hole in battens} == {("P02.1", "P02.2")}
    # Battens at X 180 and 450; screws 35, 130 and 225 from the edge, seen from below from the back edge.
    assert sorted((h.u_mm, h.v_mm) for h in holes_of(worked, "P01")) == [
        (180, 35), (180, 130), (180, 225), (450, 35), (450, 130), (450, 225),
    ]  # fmt: skip


def test_a_copy_without_a_pose_is_counted_like_the_first() -> None:
    loose = replace(BATTENS, poses=BATTENS.poses[:1])
    worked = resolve_build(build(batten_screws(), parts=(BOARD, loose)))
    assert sum(joint.count for joint in worked.joints) == 6


def test_a_typed_count_stands() -> None:
    worked = resolve_build(build(batten_screws(count=5, count_reason="one batten has a knot")))
    assert sum(joint.count for joint in worked.joints) == 5


def test_places_that_meet_other_layers_are_worked_apart() -> None:
    through = Joint(
        "F05", "Through", "M6 x 60 hex bolt steel", home="P01", face="top",
        places=(Place("1", mm(180), mm(60)), Place("2", mm(300), mm(60))),
        stack=(StackMember(part="P01"), StackMember(item="M6 nut")),
    )  # fmt: skip
    worked = resolve_build(build(through))
    found = {joint.places: [i.layer.part for i in joint.inputs.stack if i.layer] for joint in worked.joints}
    assert found == {("1",): ["P01", "P02"], ("2",): ["P01"]}  # the nut would lie on the batten at place 1
    told = [(one.part, one.place) for one in worked.findings if one.rule == "part-in-the-way"]
    assert told == [("P02", "1")]
    named = replace(
        through, stack=(StackMember(part="P01"), StackMember(part="P02"), StackMember(item="M6 nut"))
    )
    worked = resolve_build(build(named))
    missed = [finding for finding in worked.findings if finding.rule == "axis-misses-part"]
    assert [(finding.part, finding.place, finding.severity) for finding in missed] == [("P02", "2", "error")]
    assert [joint.places for joint in worked.joints] == [("1",), ("2",)]


def test_a_part_in_the_way_is_counted_and_told() -> None:
    skipping = replace(
        pillar_screw(),
        stack=(StackMember(part="P01"), StackMember(part="P10", thread_depth=mm(18), drilled_depth=mm(22))),
    )
    worked = resolve_build(build(skipping))
    (finding,) = [one for one in worked.findings if one.rule == "part-in-the-way"]
    assert (finding.part, finding.value, finding.severity) == ("P11", 6, "warning")
    layers = [item.layer.part for item in worked.joints[0].inputs.stack if item.layer]
    assert layers == ["P01", "P11", "P10"]


def test_a_typed_thickness_that_the_poses_contradict_is_told() -> None:
    joint = pillar_screw()
    typed = replace(
        joint, stack=(joint.stack[0], StackMember(part="P01", thickness=mm(28)), *joint.stack[2:])
    )
    worked = resolve_build(build(typed))
    (finding,) = [one for one in worked.findings if one.rule == "typed-thickness"]
    assert (finding.value, finding.limit) == (28, 22)
    assert worked.joints[0].inputs.stack[1].layer.thickness_mm == 22


def test_parts_inside_one_another_on_an_axis_are_told() -> None:
    deep = replace(PLATE, poses=(replace(PLATE.poses[0], let_in=mm(8)),))
    worked = resolve_build(build(pillar_screw(), parts=(BOARD, deep, PILLAR)))
    (finding,) = [one for one in worked.findings if one.rule == "parts-overlap"]
    assert (finding.severity, finding.value) == ("error", pytest.approx(2))


def test_without_poses_the_typed_stack_stands_and_the_home_still_gets_its_holes() -> None:
    loose = tuple(replace(part, poses=()) for part in (BOARD, PLATE, PILLAR))
    joint = pillar_screw()
    stack = (
        joint.stack[0], StackMember(part="P01", thickness=mm(22)), joint.stack[2],
        replace(joint.stack[3], thickness=mm(165)),
    )  # fmt: skip
    worked = resolve_build(build(replace(joint, stack=stack), parts=loose))
    layers = [item.layer.thickness_mm for item in worked.joints[0].inputs.stack if item.layer]
    assert layers == [22, 6, 165]  # the plate's own thickness is taken where none is typed
    placed = {hole.part: (hole.u_mm, hole.v_mm) for hole in worked.holes}
    assert placed == {"P01": (560, 130), "P11": (None, None), "P10": (None, None)}


def test_what_cannot_be_worked_out_becomes_a_finding_and_the_rest_goes_on() -> None:
    unknown = Joint("F09", "Odd", "M5.7 x 20 pan")
    bare = Joint("F10", "Bare", "M5 x 20 pan steel")
    worked = resolve_build(build(unknown, bare, pillar_screw()))
    found = {(one.joint, one.severity) for one in worked.findings if one.rule == "cannot-be-worked-out"}
    assert found == {("F09", "error"), ("F10", "unchecked")}
    assert [joint.joint.mark for joint in worked.joints] == ["F03"]


def test_a_ring_of_poses_is_told_and_stops_nothing() -> None:
    ring = replace(BOARD, poses=(Pose(on="P11"),))
    worked = resolve_build(build(pillar_screw(), parts=(ring, PLATE, PILLAR)))
    assert "pose" in rules(worked)
    assert all(one.severity == "error" for one in worked.findings if one.rule == "pose")


def test_parts_that_hang_on_one_without_a_place_are_each_told_and_the_rest_is_placed() -> None:
    nowhere = Component("N", "No size")
    hanging = tuple(
        replace(PLATE, mark=f"Q{i}", poses=(Pose(on="N" if i == 1 else f"Q{i - 1}"),)) for i in (1, 2, 3)
    )
    worked = resolve_build(build(pillar_screw(), parts=(*hanging, nowhere, BOARD, PLATE, PILLAR)))
    told = [one.says.split(",")[0] for one in worked.findings if one.rule == "pose"]
    assert told == ["Q1 lies on N", "Q2 lies on Q1", "Q3 lies on Q2"]
    assert len(holes_of(worked, "P10")) == 1


def test_words_of_a_sentence_are_not_taken_for_marks() -> None:
    """The sentence about Z has the words `on`, `of` and `the`; the parts of those marks stay where they lie."""
    wrong = replace(BATTENS, mark="Z", quantity=1, poses=(Pose(face="left"),))
    others = tuple(
        replace(BOARD, mark=mark, pockets=(), poses=(Pose(u=mm(700 * i)),))
        for i, mark in enumerate(("on", "of", "the"))
    )
    joints = tuple(
        Joint(f"F{i}", "t", "No. 8 x 1/2 in csk brass", home=one.mark, face="top", places=(Place("1", mm(90), mm(90)),))
        for i, one in enumerate(others)
    )  # fmt: skip
    worked = resolve_build(build(*joints, parts=(wrong, *others)))
    (told,) = [one.says for one in worked.findings if one.rule == "pose"]
    assert told.startswith("Z lies on 'left' of the ground")
    assert [hole.copies for hole in worked.holes] == [("on",), ("of",), ("the",)]


def test_more_axes_than_are_followed_are_told_and_the_other_joints_worked_out() -> None:
    many = replace(BATTENS, quantity=200, poses=tuple(Pose(copy, u=mm(300 * copy)) for copy in range(1, 201)))
    rows = tuple(Place(str(i), mm(i), mm(20)) for i in range(51))
    joint = Joint("F08", "Rows", "No. 8 x 1/2 in csk brass", home="P02", face="top", places=rows)
    worked = resolve_build(build(joint, pillar_screw(), parts=(BOARD, PLATE, PILLAR, many)))
    assert [one.joint.mark for one in worked.joints] == ["F03"]
    (told,) = [one for one in worked.findings if one.joint == "F08"]
    assert (told.rule, told.severity, told.value, told.limit) == (
        "cannot-be-worked-out",
        "unchecked",
        10200,
        10000,
    )
    assert "leave out the poses of copies that are like the first" in told.says


def test_the_clashes_of_a_heap_are_told_ten_to_an_axis() -> None:
    heap = tuple(replace(BOARD, mark=f"H{i}", pockets=()) for i in range(7))  # 21 pairs
    joint = Joint("F07", "Heap", "No. 8 x 1/2 in csk brass", home="H0", face="top", places=(Place("1", mm(9), mm(9)),))  # fmt: skip
    worked = resolve_build(build(joint, parts=heap))
    assert len([one for one in worked.findings if one.rule == "parts-overlap"]) == 10


def test_edge_distances_come_from_the_place_that_is_nearest() -> None:
    joint = replace(batten_screws(), places=(Place("near", mm(110), mm(8)), Place("far", mm(60), mm(22.5))))
    worked = inspect_build(build(joint))
    (finding,) = [one for one in worked.findings if one.rule == "edge-distance" and one.part == "P02"]
    assert finding.place == "near"
    assert finding.value == pytest.approx(8 / 4.1656, abs=1e-3)  # No. 8 is 0.164 in


def test_findings_come_worst_first_and_then_in_the_order_of_the_build() -> None:
    worked = inspect_build(build(pillar_screw(torque_nm=Decimal(6)), batten_screws()))
    order = [("error", "warning", "unchecked", "note").index(one.severity) for one in worked.findings]
    assert order == sorted(order)
    errors = [one.joint or one.part for one in worked.findings if one.severity == "error"]
    assert errors == sorted(errors, key=["F03", "F01", "P01"].index)


def test_what_holds_at_every_place_is_told_once_though_its_holes_differ() -> None:
    """Slots at the ends, a round hole in the middle: of 25.4 mm of screw 3.4 are left behind 22, at all."""
    round_one = LayerHole(("2",), diameter=mm(4.5))
    slots = LayerHole(("1", "3"), "slot", mm(5.5), slot_length=mm(16), slot_along="u")
    screws = replace(batten_screws(holes=(round_one, slots)), fastener="No. 8 x 1 pan brass wood screw")
    found = [one for one in resolve_build(build(screws)).findings if one.rule == "penetration"]
    assert [(one.severity, one.part, one.place) for one in found] == [("error", "P01", "")]
    assert found[0].value == pytest.approx(3.4 / 4.1656, abs=1e-4)


def test_a_hole_in_a_recess_says_how_far_below_the_face_it_begins() -> None:
    joint = Joint(
        "F02", "Plate", "No. 6 x 7/8 csk brass", home="P11", face="top", places=(Place("1", mm(9), mm(9)),),
        stack=(StackMember(part="P11"), StackMember(part="P01")), steel_first=True,
    )  # fmt: skip
    worked = resolve_build(build(joint))
    (pilot,) = [hole for hole in worked.holes if hole.part == "P01"]
    assert (pilot.face, pilot.u_mm, pilot.v_mm, pilot.below_mm) == ("top", 524, 94, 6)
    (line,) = [line for line in hole_schedule(worked.build, worked) if line.part == "P01"]
    assert "begins 6 mm below the face" in line.note


def test_a_place_off_an_unposed_part_is_told_and_the_rest_is_worked_out() -> None:
    loose = replace(PILLAR, poses=())
    joint = Joint(
        "F12", "Off", "M4 x 12 pan steel", home="P10", face="left", places=(Place("1", mm(40), mm(0)),),
        stack=(StackMember(part="P10", thickness=mm(20)),),
    )  # fmt: skip
    worked = resolve_build(build(joint, parts=(loose,)))
    (finding,) = [one for one in worked.findings if one.rule == "place-off-part"]
    assert (finding.part, finding.place, finding.severity) == ("P10", "1", "error")
    assert len(worked.joints) == 1


def test_a_place_in_the_bore_of_an_unposed_round_stops_nothing() -> None:
    tube = Component("P12", "Tube", material="brass", size=Size("round", mm(20), diameter=mm(12), bore=mm(6)))
    joint = Joint(
        "F13", "Stand-off", "M6 x 30 hex bolt steel", home="P12", face="left", places=(Place("1", mm(0), mm(0)),),
        stack=(StackMember(part="P12", thickness=mm(20), takes="clearance"), StackMember(item="M6 nut")),
    )  # fmt: skip
    worked = resolve_build(build(joint, parts=(tube,)))
    assert [joint.joint.mark for joint in worked.joints] == ["F13"]


def test_a_stud_s_hole_in_its_first_part_is_drilled_from_where_it_stands() -> None:
    post = Component(
        "P28", "Post", material="brass", size=Size("round", mm(25), diameter=mm(6)),
        poses=(Pose(on="P01", u=mm(395), v=mm(95.5), own_face="left", point="centre"),),
    )  # fmt: skip
    joint = Joint(
        "F13", "Stud", "M4 x 20 hex socket grub screw", home="P28", face="right", places=(Place("1", mm(0), mm(0)),),
        stack=(
            StackMember(part="P28", takes="thread", thread_depth=mm(12)), StackMember(item="M4 insert OD 8 x 10"),
            StackMember(part="P01", takes="insert"),
        ), clamps=False, stands=mm(-15),
    )  # fmt: skip
    worked = resolve_build(build(joint, parts=(BOARD, post)))
    faces = {hole.part: hole.face for hole in worked.holes}
    assert faces == {"P28": "left", "P01": "top"}
