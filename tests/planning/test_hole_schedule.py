"""The hole schedule: order, running numbers, drills and steps, copies and hands."""

from __future__ import annotations

from decimal import Decimal

import pytest

from calculators.planning.model import Component, Hole
from calculators.planning.schedules import hole_schedule
from calculators.planning.schedules.drilling import drilling_of_direct, drilling_of_layer
from calculators.planning.worked import WorkedBuild, WorkedHole
from calculators.quantities import Length, read_length
from tests.planning.worked_by_hand import layer_hole, worked_build

PLATE = Component("P11", "Flange plate", material="brass", stock="sheet")
BATTEN = Component("P02", "Batten", material="oak", stock="board", quantity=2)
CLEAR = layer_hole("P02", "clearance", 4.5, "4.5 mm", basis="medium fit")


def hole(part: str, face: str, u: float | None, v: float | None, **more: object) -> WorkedHole:
    return WorkedHole(part, more.pop("copies", ()), face, u, v, more.pop("angle_deg", None), **more)


def schedule_of(*holes: WorkedHole):
    worked: WorkedBuild = worked_build(components=(PLATE, BATTEN), holes=holes)
    return hole_schedule(worked.build, worked)


def test_holes_are_numbered_through_each_part_face_by_face_then_by_place() -> None:
    lines = schedule_of(
        hole("P02", "bottom", 10.0, 5.0, joint="F1", place="1", hole=CLEAR),
        hole("P02", "top", 30.0, 5.0, joint="F1", place="3", hole=CLEAR),
        hole("P02", "top", 10.0, 9.0, joint="F1", place="2", hole=CLEAR),
        hole("P11", "front", 3.0, 4.0, joint="F2", place="1", hole=CLEAR),
    )
    assert [(line.part, line.number, line.face, line.u_mm, line.v_mm, line.place) for line in lines] == [
        ("P11", 1, "front", 3.0, 4.0, "1"),
        ("P02", 1, "top", 10.0, 9.0, "2"),
        ("P02", 2, "top", 30.0, 5.0, "3"),
        ("P02", 3, "bottom", 10.0, 5.0, "1"),
    ]


def test_noise_far_below_a_micrometre_does_not_turn_the_order() -> None:
    lines = schedule_of(
        hole("P02", "top", 10.0000000001, 5.0, joint="F1", place="a", hole=CLEAR),
        hole("P02", "top", 10.0, 9.0, joint="F1", place="b", hole=CLEAR),
    )
    assert [line.place for line in lines] == ["a", "b"]


def test_copies_and_hands_are_said() -> None:
    lines = schedule_of(
        hole("P02", "top", 1.0, 1.0, joint="F1", hole=CLEAR),
        hole("P02", "top", 2.0, 1.0, joint="F1", hole=CLEAR, copies=("P02.2",)),
        hole("P02", "top", 3.0, 1.0, joint="F1", hole=CLEAR, copies=("P02.1", "P02.2")),
        hole("P02", "top", 0.5, 1.0, joint="F1", hole=CLEAR, copies=("P02.2",), mirrored=True),
        hole("P02", "top", 4.0, 1.0, joint="F1", hole=CLEAR, entry="out"),
    )
    assert [(line.u_mm, line.copies, line.copy_count, line.note) for line in lines] == [
        (1.0, (), 2, ""),
        (2.0, ("P02.2",), 1, "only in P02.2"),
        (3.0, (), 2, ""),
        (4.0, (), 2, "the screw comes out here; its head is on the far side"),
        (0.5, ("P02.2",), 1, "other hand: laid off the other way round; only in P02.2"),
    ]


def test_a_place_that_is_not_known_comes_last_without_a_face() -> None:
    lines = schedule_of(
        hole("P02", "top", None, None, joint="F1", hole=CLEAR),
        hole("P02", "right", 1.0, 1.0, joint="F2", hole=CLEAR),
    )
    assert [(line.number, line.face, line.u_mm, line.note) for line in lines] == [
        (1, "right", 1.0, ""),
        (2, "", None, "its place is not known yet"),
    ]


def test_on_the_side_of_a_round_an_angle_stands_in_place_of_v() -> None:
    (line,) = schedule_of(hole("P11", "side", 20.0, 0.0, angle_deg=90.0, joint="F6", place="1", hole=CLEAR))
    assert (line.u_mm, line.v_mm, line.angle_deg) == (20.0, None, 90.0)


def test_a_hole_of_a_joint_brings_its_sizes_and_its_joint() -> None:
    csk = layer_hole(
        "P11",
        "clearance",
        3.7,
        "3.7 mm",
        countersink_angle_deg=82.0,
        countersink_diameter_mm=7.0,
        basis="close fit",
    )
    (line,) = schedule_of(hole("P11", "top", 36.0, 36.0, joint="F02", place="1", hole=csk))
    assert (line.joint, line.kind, line.diameter_mm, line.drill, line.through) == (
        "F02",
        "clearance",
        3.7,
        "3.7 mm",
        True,
    )
    assert (line.countersink_diameter_mm, line.countersink_angle_deg, line.basis) == (7.0, 82.0, "close fit")
    assert line.steps == ("centre", "drill 3.7 mm, through", "countersink to 7 mm at 82 deg")


def test_a_countersink_is_only_where_the_screw_comes_in() -> None:
    csk = layer_hole(
        "P11", "clearance", 3.7, "3.7 mm", countersink_angle_deg=82.0, countersink_diameter_mm=7.0
    )
    assert drilling_of_layer(csk, PLATE, "out").steps == ("centre", "drill 3.7 mm, through")


def direct(**more: object) -> Hole:
    return Hole("h1", "top", Length(0), Length(0), **more)


@pytest.mark.parametrize(
    ("hole", "part", "steps"),
    [
        (direct(diameter=read_length("5")), PLATE, ("centre", "drill 5 mm, through")),
        (direct(diameter=read_length("8"), depth=read_length("12")), PLATE, ("centre", "pilot 3 mm, 12 deep", "drill 8 mm, 12 deep")),
        (direct(diameter=read_length("8"), depth=read_length("12")), BATTEN, ("centre", "drill 8 mm, 12 deep")),
        (direct(diameter=read_length("5.03")), PLATE, ("centre", "drill 5.03 mm, through")),
        (direct(kind="reamed", diameter=read_length("6")), PLATE, ("centre", "drill 5.8 mm, through", "ream 6 mm")),
        (direct(kind="slot", diameter=read_length("4"), slot_length=read_length("10"), slot_along="u"), PLATE, ("centre", "drill 4 mm at both ends, through", "open to a slot 10 mm long along u")),
        (direct(kind="spot"), PLATE, ("spot through from its mate",)),
        (direct(kind="tapping", thread="m5", depth=read_length("15"), thread_depth=read_length("10")), PLATE, ("centre", "drill 4.2 mm, 15 deep", "tap M5, 10 deep")),
        (direct(kind="clearance", thread="M5"), PLATE, ("centre", "drill 5.5 mm, through")),
        (direct(diameter=read_length("5"), counterbore_diameter=read_length("9"), counterbore_depth=read_length("3"), countersink_diameter=read_length("9.5"), countersink_angle_deg=Decimal("90.0")), PLATE, ("centre", "drill 5 mm, through", "counterbore 9 mm, 3 deep", "countersink to 9.5 mm at 90 deg")),
        (direct(), PLATE, ("centre",)),
    ],
)  # fmt: skip
def test_the_steps_of_a_hole_placed_by_hand(hole: Hole, part: Component, steps: tuple[str, ...]) -> None:
    """M5: tapping drill 4.2 (ISO 2306), medium clearance 5.5 (ISO 273); the order is common practice."""
    assert drilling_of_direct(hole, part).steps == steps


def test_an_unknown_thread_or_a_missing_size_is_said() -> None:
    assert drilling_of_direct(direct(kind="tapping", thread="Q9"), PLATE).note == "the thread is not known"
    assert drilling_of_direct(direct(note="by eye"), PLATE).note == "its diameter is not stated; by eye"
    (line,) = schedule_of(hole("P11", "top", 0.0, 0.0, direct=direct(diameter=read_length("5"))))
    assert (line.place, line.joint, line.drill) == ("h1", "", "5 mm")
