"""The fastener schedule: counts by designation, members of stacks, drills, near threads, steel twins."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calculators.hardware.designation import read_hardware
from calculators.joints.model import Layer
from calculators.planning.model import Joint
from calculators.planning.schedules import fastener_schedule
from calculators.planning.schedules.fasteners import length_measured, steel_twin
from calculators.planning.worked import WorkedBuild
from tests.planning.worked_by_hand import layer_hole, worked_build, worked_joint

BRASS = "No. 8 x 1 3/4 csk slotted brass"


def schedule_of(worked: WorkedBuild):
    return fastener_schedule(worked.build, worked)


def test_one_line_for_each_designation_with_all_its_joints() -> None:
    worked = worked_build(
        worked_joint("F01", BRASS, 6),
        worked_joint("F02", "M5 x 40 socket cap steel", 4),
        worked_joint("F24", 'No 8 x 1-3/4" brass csk slotted', 2),
    )
    lines = schedule_of(worked).lines
    assert [(line.designation, line.count, [str(use) for use in line.used]) for line in lines] == [
        (BRASS, 8, ["F01 (6)", "F24 (2)"]),
        ("M5 x 40 socket cap steel", 4, ["F02 (4)"]),
    ]
    assert schedule_of(worked).total == 12


def test_groups_of_places_of_one_joint_add_up() -> None:
    (line,) = schedule_of(worked_build(worked_joint("F01", BRASS, 2), worked_joint("F01", BRASS, 4))).lines
    assert [(use.joint, use.count) for use in line.used] == [("F01", 6)]


def test_washers_nuts_and_inserts_have_lines_of_their_own_after_the_fasteners() -> None:
    worked = worked_build(
        worked_joint("F18", "M5 x 40 socket cap steel", 4, items=("M5 washer", "M5 washer", "M5 full nut")),
        worked_joint("F19", "M5 x 20 csk steel", 1, items=("M5 full nut",)),
    )
    assert [(line.kind, line.designation, line.count) for line in schedule_of(worked).lines] == [
        ("fastener", "M5 x 40 socket cap steel", 4),
        ("fastener", "M5 x 20 csk steel", 1),
        ("washer", "M5 washer", 8),
        ("nut", "M5 nut", 5),
    ]


def test_drills_are_named_once_for_each_purpose_with_their_parts() -> None:
    holes = (
        layer_hole(
            "P02", "clearance", 4.5, "4.5 mm", countersink_angle_deg=90.0, countersink_diameter_mm=8.4
        ),
        layer_hole("P01", "pilot", 2.5, "2.5 mm", layer=1),
    )
    again = (
        layer_hole("P03", "clearance", 4.5, "4.5 mm"),
        layer_hole("P01", "pilot", 2.5, "2.5 mm", layer=1),
    )
    worked = worked_build(
        worked_joint("F01", BRASS, 6, holes, torque_nm=2.5), worked_joint("F02", BRASS, 1, again)
    )
    (line,) = schedule_of(worked).lines
    assert [str(drill) for drill in line.drills] == ["clearance 4.5 mm in P02, P03", "pilot 2.5 mm in P01"]
    assert [str(sink) for sink in line.countersinks] == ["90 deg to 8.4 mm"]
    assert line.torque_nm == (2.5,)


@pytest.mark.parametrize(
    ("line", "measured"),
    [
        ("M5 x 20 csk steel", "overall, head included"),
        ("M5 x 20 socket csk steel", "overall, head included"),
        ("No. 8 x 1 raised csk brass", "from the rim of the head, its raised part not counted"),
        ("M5 x 20 socket cap steel", "under the head"),
        ("M5 x 20 hex bolt steel", "under the head"),
        ("M4 x 20 grub screw", "overall"),
    ],
)
def test_how_the_length_is_measured(line: str, measured: str) -> None:
    """ISO 888 (from memory): countersunk lengths take the head in, others are from under it."""
    assert length_measured(read_hardware(line)) == measured


def test_a_cut_length_is_shown_beside_the_designation() -> None:
    worked = worked_joint("F01", "M5 x 40 socket cap steel cut to 33", 1)
    assert [(line.cut_to) for line in schedule_of(worked_build(worked)).lines] == ["33"]


def test_a_steel_twin_is_listed_once_for_each_joint_that_has_one() -> None:
    worked = worked_build(
        worked_joint("F01", BRASS, 4, steel_first=True),
        worked_joint("F01", BRASS, 2, steel_first=True),
        worked_joint("F25", BRASS, 12, steel_first=True),
        worked_joint("F26", BRASS, 12),
    )
    first, twin = schedule_of(worked).lines
    assert (first.designation, first.count) == (BRASS, 30)
    assert (twin.kind, twin.designation, twin.count) == ("steel twin", "No. 8 x 1 3/4 csk slotted steel", 2)
    assert [use.joint for use in twin.used] == ["F01", "F25"]
    assert twin.note.startswith("one for each joint")
    assert schedule_of(worked).total == 30


def test_a_twin_keeps_size_length_and_head_and_drops_the_finish() -> None:
    brass = replace(read_hardware(BRASS), finish="nickel plated")
    twin = steel_twin(brass)
    assert (twin.size, twin.length, twin.head, twin.drive) == (
        brass.size,
        brass.length,
        brass.head,
        brass.drive,
    )
    assert (twin.material, twin.finish) == ("steel", "")


def test_a_wood_screw_of_the_house_series_does_not_repeat_it() -> None:
    one = worked_joint("F01", BRASS, 1)
    with_series = replace(one.result.fastener, series="inch-us")
    one = replace(one, result=replace(one.result, fastener=with_series))
    assert [line.designation for line in schedule_of(worked_build(one)).lines] == [BRASS]
    british = replace(one, result=replace(one.result, fastener=replace(with_series, series="inch-british")))
    (line,) = schedule_of(worked_build(british)).lines
    assert read_hardware(line.designation).series == "inch-british"


def test_near_threads_stand_at_the_foot_with_their_joints() -> None:
    """M5 x 0.8 and 10-32 (0.794 mm pitch, 4.826 mm): the trade's best known mix-up; common practice."""
    worked = worked_build(
        worked_joint("F20", "M5 x 12 pan steel", 4),
        worked_joint("F21", "10-32 UNF x 1/4 grub screw", 2),
        worked_joint("F30", "M8 x 20 hex steel", 1),
    )
    (pair,) = schedule_of(worked).near
    assert (pair.first, pair.second, pair.joints) == ("M5", "10-32 UNF", ("F20", "F21"))
    assert pair.says.startswith("M5 and 10-32 UNF are nearly alike:")


def test_a_tapped_part_brings_its_thread_to_the_bench_too() -> None:
    motor = Layer("P40", "steel", 8.0, takes="thread", thread="10-32 UNF")
    (pair,) = schedule_of(worked_build(worked_joint("F20", "M5 x 12 pan steel", 4, layers=(motor,)))).near
    assert pair.joints == ("F20",)


def test_joints_that_could_not_be_worked_out_are_named() -> None:
    worked = worked_build(worked_joint("F01", BRASS, 1))
    build = replace(worked.build, joints=(*worked.build.joints, Joint("F99", "t", "something")))
    assert fastener_schedule(build, worked).unread == ("F99",)
