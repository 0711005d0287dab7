"""Holes, pockets, places, poses and steps as people write them, each line beside what it means."""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from calculators.planning.lines import (
    add_lines,
    read_hole_line,
    read_place_lines,
    read_pocket_line,
    read_pose_line,
    read_step_line,
)
from calculators.planning.model import AssemblyStep, Component, Hole, Place, Pocket, Pose
from calculators.quantities.length import Length
from tests.planning.lines.cast_of_lines import BOX, INCHES, inch, mm, ticks


def hole(
    u: Any = 20, v: Any = 30, diameter: Any = None, face: str = "top", number: int = 1, **more: Any
) -> Hole:
    def size(one: Any) -> Length | None:
        return one if one is None or isinstance(one, Length) else mm(one)

    return Hole(f"h{number}", face, size(u), size(v), diameter=size(diameter), **more)


def drilled(*spots: tuple[Any, Any], **more: Any) -> tuple[Hole, ...]:
    return tuple(hole(u, v, number=i, **more) for i, (u, v) in enumerate(spots, 1))


FIVE_FIVE = (hole(diameter="5.5"),)

HOLES: list[tuple[str, tuple[Hole, ...]]] = [
    ("5.5 at 20, 30", FIVE_FIVE),
    ("5.5 through at 20,30", FIVE_FIVE),
    ("dia 5.5 at 20,30", FIVE_FIVE),
    ("5.5 dia at 20 30", FIVE_FIVE),
    ("Ø5.5 at 20,30", FIVE_FIVE),
    ("at 20,30 dia 5.5", FIVE_FIVE),
    ("5.5 hole at 20,30, right through", FIVE_FIVE),
    ("drill 5.5 at 20,30", FIVE_FIVE),
    ("5,5 at 20,30", (hole(diameter="5,5"),)),
    ("5 at 20,30 12 deep", (hole(diameter=5, depth=mm(12)),)),
    ("1/4 at 20, 30", (hole(diameter=inch("1/4")),)),
    ("5 mm at 20 mm, 30 mm", (hole("20 mm", "30 mm", "5 mm"),)),
    ("5 at 20,5, 30,5", (hole("20,5", "30,5", 5),)),
    ("5 at -2, 30", (hole("-2", 30, 5),)),
    ("M4 tapped 10 deep at 20,30", (hole(kind="tapping", thread="M4", thread_depth=mm(10), depth=ticks(10 + 1.5 * 0.7)),)),
    ("M4 tapped 10 deep, drilled 14 at 20,30", (hole(kind="tapping", thread="M4", thread_depth=mm(10), depth=mm(14)),)),
    ("tapped M4 through at 20,30", (hole(kind="tapping", thread="M4"),)),
    ("2BA tapped at 20,30", (hole(kind="tapping", thread="2 BA"),)),
    ("5/16 BSF tapped 18 deep, drilled 22 at 20,30", (hole(kind="tapping", thread="5/16 BSF", thread_depth=mm(18), depth=mm(22)),)),
    ("1/4-28 UNF tapped at 20,30", (hole(kind="tapping", thread="1/4-28 UNF"),)),
    ("M4 clearance at 20,30", (hole(diameter=ticks(4.5), kind="clearance", thread="M4"),)),
    ("close clearance for M4 at 20,30", (hole(diameter=ticks(4.3), kind="clearance", thread="M4"),)),
    ("pilot 2.5 at 20,30, 15 deep # careful", (hole(diameter="2.5", kind="pilot", depth=mm(15), note="careful"),)),
    ("reamed 6 at 20,30; 40,30", drilled((20, 30), (40, 30), diameter=6, kind="reamed")),
    ("4.5 clearance at 20,30", (hole(diameter="4.5", kind="clearance"),)),
    ("6.9 for insert, 12 deep at 20,30", (hole(diameter="6.9", kind="insert", depth=mm(12)),)),
    ("spot through at 20,30", (hole(kind="spot"),)),
    ("4.5 csk 10 x 90 at 20,30", (hole(diameter="4.5", countersink_diameter=mm(10), countersink_angle_deg=Decimal(90)),)),
    ("4.5 csk 10 x 82 deg at 20,30", (hole(diameter="4.5", countersink_diameter=mm(10), countersink_angle_deg=Decimal(82)),)),
    ("4.5 countersunk to 10 at 20,30", (hole(diameter="4.5", countersink_diameter=mm(10), countersink_angle_deg=Decimal(90)),)),
    ("5.5 cbore 10 x 4 at 20,30", (hole(diameter="5.5", counterbore_diameter=mm(10), counterbore_depth=mm(4)),)),
    ("5.5 counterbored 10 dia 4 deep at 20,30", (hole(diameter="5.5", counterbore_diameter=mm(10), counterbore_depth=mm(4)),)),
    ("slot 5.5 x 9.5 along u at 60,20", (hole(60, 20, "5.5", kind="slot", slot_length=mm("9.5"), slot_along="u"),)),
    ("slot 9.5 x 5.5 along the width at 60,20", (hole(60, 20, "5.5", kind="slot", slot_length=mm("9.5"), slot_along="v"),)),
    ("top: 5.5 at 20,30", FIVE_FIVE),
    ("5.5 on the back face at 20,6", (hole(20, 6, "5.5", "back"),)),
    ("back: 5.5 at 20,6", (hole(20, 6, "5.5", "back"),)),
    ("5.5 at 20,6 from the front", (hole(20, 6, "5.5", "front"),)),
    ("5.5 in the left end at 20,6", (hole(20, 6, "5.5", "left"),)),
    ("5.5 on the underside at 20,30", (hole(20, 30, "5.5", "bottom"),)),
    ("4 at 20,20; 20,80; 100,20; 100,80 dia 5.5", drilled((20, 20), (20, 80), (100, 20), (100, 80), diameter="5.5")),
    ("4 x 5.5 at 20,20; 20,80; 100,20; 100,80", drilled((20, 20), (20, 80), (100, 20), (100, 80), diameter="5.5")),
    ("two holes 5.5 at 20,20 and 20,80", drilled((20, 20), (20, 80), diameter="5.5")),
    ("row of 3, dia 5, from 37,37 pitch 32 along u, 12 deep", drilled((37, 37), (ticks(69), 37), (ticks(101), 37), diameter=5, depth=mm(12))),
    ("row of 3 of 5 dia from 37,37 along v at 32 centres", drilled((37, 37), (37, ticks(69)), (37, ticks(101)), diameter=5)),
    ("3 holes 5 dia in a row from 10,10 to 110,10", drilled((10, 10), (ticks(60), 10), (110, 10), diameter=5)),
    ("2 x 3 grid of 4.2 from 20,20 pitch 40 x 25", drilled(
        (20, 20), (ticks(60), 20), (20, ticks(45)), (ticks(60), ticks(45)), (20, ticks(70)), (ticks(60), ticks(70)), diameter="4.2")),
    ("4 in a grid from 20,20 pitch 40, dia 4.2", drilled((20, 20), (ticks(60), 20), (20, ticks(60)), (ticks(60), ticks(60)), diameter="4.2")),
]  # fmt: skip


@pytest.mark.parametrize(("line", "means"), HOLES, ids=[line for line, _ in HOLES])
def test_a_line_makes_holes(line: str, means: tuple[Hole, ...]) -> None:
    assert read_hole_line(line, BOX, "P01") == means


def test_holes_on_a_circle_lie_on_it() -> None:
    found = read_hole_line("6 x 5.5 on 80 pcd at 60,60 (first at 0 deg)", BOX, "P01")
    assert [(one.u.mm, one.v.mm) for one in found[::3]] == [(100.0, 60.0), (20.0, 60.0)]
    for i, one in enumerate(found):
        wanted = (60 + 40 * math.cos(math.radians(60 * i)), 60 + 40 * math.sin(math.radians(60 * i)))
        assert (one.u.mm, one.v.mm) == pytest.approx(wanted, abs=1e-7)
    turned = read_place_lines("circle of 4 on 40 pcd at 60,60 first at 45 deg", BOX, "P01", "top")
    assert [(round(one.u.mm, 4), round(one.v.mm, 4)) for one in turned] == [
        (74.1421, 74.1421), (45.8579, 74.1421), (45.8579, 45.8579), (74.1421, 45.8579)]  # fmt: skip


def test_holes_in_a_round_have_an_angle() -> None:
    assert read_hole_line("5 on the side at 40, 90 deg", BOX, "P10") == (
        Hole("h1", "side", mm(40), None, Decimal(90), diameter=mm(5)),)  # fmt: skip
    assert read_hole_line("5 at 0,3", BOX, "P10", "left") == (hole(0, 3, 5, "left"),)


def test_ids_are_the_next_free_ones() -> None:
    one = replace(BOX.components[1], holes=(hole(1, 1, 5), hole(2, 2, 5, number=3)))
    build = replace(BOX, components=(BOX.components[0], one))
    assert [each.id for each in read_hole_line("5 at 1,2; 3,4", build, "P01")] == ["h2", "h4"]
    read = add_lines("hole", "5 at 1,2\n6 at 3,4", build, part="P01", face="top")
    assert read.added == ("h2", "h4")
    assert [each.id for each in read.build.components[1].holes] == ["h1", "h3", "h2", "h4"]


def test_bare_numbers_are_inches_in_a_build_of_inches() -> None:
    (found,) = read_hole_line("1/4 at 1 1/2, 3/4", INCHES, "A2")
    assert (found.diameter.mm, found.u.mm, found.v.mm) == (6.35, 38.1, 19.05)


def pocket(*sizes: Any, face: str = "top", **more: Any) -> Pocket:
    return Pocket(
        "k1", face, *(one if one is None or isinstance(one, Length) else mm(one) for one in sizes), **more
    )


POCKETS: list[tuple[str, Pocket]] = [
    ("recess 90 x 90 x 6 deep at 515, 85, corner radius 3", pocket(515, 85, 90, 90, 6, 3)),
    ("recess 90 x 90 x 6 at 515,85, radius 3", pocket(515, 85, 90, 90, 6, 3)),
    (
        "recess 90 x 90 x 6 deep at 515, 85, cutter 6, squared",
        pocket(515, 85, 90, 90, 6, cutter=mm(6), squared=True),
    ),
    ("recess 90 x 90, 6 deep, at 515,85 with a 6 cutter", pocket(515, 85, 90, 90, 6, cutter=mm(6))),
    ("bottom: slot 40 x 6 through at 20,20", pocket(20, 20, 40, 6, face="bottom")),
    ("mortise 40 x 10 x 25 deep at 20,1 on the front", pocket(20, 1, 40, 10, 25, face="front")),
    ("groove 40 x 6 x 5 along v at 20,20", pocket(20, 20, 6, 40, 5)),
    ("rebate 8 x 4 along front edge", pocket(ticks(0), ticks(0), 300, 8, 4)),
    ("rebate 8 x 4 along the back edge", pocket(ticks(0), ticks(112), 300, 8, 4)),
    ("rebate 8 x 4 along the left end", pocket(ticks(0), ticks(0), 8, 120, 4)),
    ("rebate 8 x 4 along the right end", pocket(ticks(292), ticks(0), 8, 120, 4)),
    ("bottom: rebate 8 x 4 along back edge", pocket(ticks(0), ticks(0), 300, 8, 4, face="bottom")),
    ("front: rebate 3 x 4 along top edge", pocket(ticks(0), ticks(9), 300, 3, 4, face="front")),
    ("back: rebate 8 x 4 along right edge", pocket(ticks(0), ticks(0), 8, 12, 4, face="back")),
    ("left: rebate 8 x 4 along front edge", pocket(ticks(112), ticks(0), 8, 12, 4, face="left")),
]


@pytest.mark.parametrize(("line", "means"), POCKETS, ids=[line for line, _ in POCKETS])
def test_a_line_makes_a_pocket(line: str, means: Pocket) -> None:
    assert read_pocket_line(line, BOX, "P01") == means


def test_a_rebate_lies_against_the_edge_it_names() -> None:
    """The part's own frame decides: the taken-off box touches the plane of the edge's face."""
    from calculators.geometry.frames import face_frame
    from calculators.planning.placing import solid_of

    box = BOX.components[1]
    solid = solid_of(box)
    planes = {
        "left": (0, 0.0),
        "right": (0, 300.0),
        "front": (1, 0.0),
        "back": (1, 120.0),
        "bottom": (2, 0.0),
        "top": (2, 12.0),
    }
    for face in planes:
        for edge, (axis, at) in planes.items():
            if planes[face][0] == axis:
                continue
            found = read_pocket_line(f"{face}: rebate 2 x 4 along {edge} edge", BOX, "P01")
            frame = face_frame(solid, face)
            corners = [
                frame.point(found.u.mm + du * found.length.mm, found.v.mm + dv * found.width.mm)[axis]
                for du in (0, 1)
                for dv in (0, 1)
            ]
            assert sorted(round(abs(one - at), 6) for one in corners) == [0.0, 0.0, 2.0, 2.0]


def pose(on: str, face: str = "top", u: Any = 0, v: Any = 0, **more: Any) -> Pose:
    spot = {"u": mm(u), "v": mm(v)} if u or v else {}
    return Pose(on=on, face=face, **spot, **more)


POSES: list[tuple[str, str, Pose]] = [
    ("P11 on P03 top at 515, 85, turned 0, let in 6", "P11", pose("P03", "top", 515, 85, let_in=mm(6))),
    ("P11 on top of P03 at 515,85 let in 6", "P11", pose("P03", "top", 515, 85, let_in=mm(6))),
    ("flange plate on the top of the lid at 515, 85", "P11", pose("P03", "top", 515, 85)),
    ("P11 on P03 at 515,85", "P11", pose("P03", "top", 515, 85)),
    ("P04.2 on P03 bottom at 42,20 turned 90, own face top, other hand", "P04", pose(
        "P03", "bottom", 42, 20, copy=2, turned_deg=Decimal(90), own_face="top", hand="other")),
    ("hinge on the underside of the lid at 42,20", "P04", pose("P03", "bottom", 42, 20)),
    ("P03 on the ground", "P03", pose("")),
    ("lid on the bench at 10,20", "P03", pose("", "top", 10, 20)),
    ("P11 on P03 centred at 50,60", "P11", pose("P03", "top", 50, 60, point="centre")),
    ("P11 on P03 at 50,60 turned -30 deg", "P11", pose("P03", "top", 50, 60, turned_deg=Decimal(-30))),
    ("P11 on P03 at 50,60, stood off 3", "P11", pose("P03", "top", 50, 60, let_in=mm(-3))),
    ("P11 on P10 side at 40, 90 deg", "P11", Pose(on="P10", face="side", u=mm(40), angle_deg=Decimal(90))),
    ("P10 on P11 top at 45,45, own face left, by its centre", "P10", pose("P11", "top", 45, 45, own_face="left", point="centre")),
    ("P11 on P01.3 at 5,6", "P11", pose("P01.3", "top", 5, 6)),
    ("P11 on P03's back at 5,6", "P11", pose("P03", "back", 5, 6)),
    ("Lid rail, long on lid at 5,6", "P08", pose("P03", "top", 5, 6)),
]  # fmt: skip


@pytest.mark.parametrize(("line", "mark", "means"), POSES, ids=[line for line, *_ in POSES])
def test_a_line_lays_a_copy_down(line: str, mark: str, means: Pose) -> None:
    assert read_pose_line(line, BOX) == (mark, means)


def test_copies_are_laid_down_one_after_another_and_moved_by_name() -> None:
    read = add_lines(
        "pose", "hinge on lid at 1,2\nhinge on lid at 3,4\nP04.1 on lid at 5,6\nhinge on lid at 7,8", BOX
    )
    assert read.added == ("P04.1", "P04.2", "P04.1")
    assert [(one.copy, one.u.mm) for one in read.build.components[4].poses] == [(1, 5.0), (2, 3.0)]
    assert read.unread[0].says == (
        "All 2 copies of P04 lie somewhere; write which one moves, such as P04.1.",
    )
    assert read.unread[0].choices == ("P04.1", "P04.2")


STEPS: list[tuple[str, AssemblyStep]] = [
    ("5 Pillar to flange from below: fits P10, F01; closes P11; tools 13 mm spanner; caution mind; check square, flat", AssemblyStep(
        5, "Pillar to flange from below", ("P10", "F01"), ("P11",), ("13 mm spanner",), caution="mind", check="square, flat")),
    ("Glue up: fits base and lid", AssemblyStep(5, "Glue up", ("P02", "P03"))),
    ("step 7: Glue up", AssemblyStep(7, "Glue up")),
    ("12. Last; fits P01.2; note “a; b”", AssemblyStep(12, "Last", ("P01.2",), note="a; b")),
    ("9) Drill, fits Lid rail, long", AssemblyStep(9, "Drill", ("P08",))),
    ("fits hinges", AssemblyStep(5, "Fit hinges", ("P04",))),
    ("6 Close the lid; tools: screwdriver, mallet # slowly", AssemblyStep(6, "Close the lid", (), (), ("screwdriver", "mallet"), note="slowly")),
    ("Tension the wire; warning it can whip; check pitch", AssemblyStep(5, "Tension the wire", caution="it can whip", check="pitch")),
]  # fmt: skip


@pytest.mark.parametrize(("line", "means"), STEPS, ids=[line for line, _ in STEPS])
def test_a_line_makes_a_step(line: str, means: AssemblyStep) -> None:
    assert read_step_line(line, BOX) == means


def test_a_step_is_changed_and_numbered_on() -> None:
    step = BOX.steps[0]
    assert read_step_line("6; fits P01", BOX, step) == AssemblyStep(6, "Glue up", ("P01",))
    read = add_lines("step", "One\nTwo\n9 Three\nFour", BOX)
    assert read.added == ("5", "6", "9", "10")


PLACES: list[tuple[str, list[tuple[Any, Any]]]] = [
    ("20,30; 20,70", [(20, 30), (20, 70)]),
    ("at 20,30; 20,70", [(20, 30), (20, 70)]),
    ("20,30\n20,70", [(20, 30), (20, 70)]),
    ("20 30; 20 70", [(20, 30), (20, 70)]),
    ("row of 3 from 20,30 pitch 40 along u", [(20, 30), (60, 30), (100, 30)]),
    ("row of 3 from 20,30 along v pitch 40", [(20, 30), (20, 70), (20, 110)]),
    ("row of 3 from 20,30 to 100,30", [(20, 30), (60, 30), (100, 30)]),
    ("4 in a grid 2 x 2 from 20,20 pitch 40 x 30", [(20, 20), (60, 20), (20, 50), (60, 50)]),
    ("4 in a 2 x 2 grid from 20,20 pitch 40", [(20, 20), (60, 20), (20, 60), (60, 60)]),
    ("1 in, 2 in", [(25.4, 50.8)]),
    ("1 1/2, 3/4", [(38.1, 19.05)]),
]


@pytest.mark.parametrize(("line", "means"), PLACES, ids=[line for line, _ in PLACES])
def test_a_line_makes_places(line: str, means: list[tuple[Any, Any]]) -> None:
    found = read_place_lines(line, BOX, "P01", "top")
    assert [(one.id, one.u.mm, one.v.mm) for one in found] == [
        (str(i), u, v) for i, (u, v) in enumerate(means, 1)
    ]


def test_places_on_a_side_are_angles() -> None:
    assert read_place_lines("40, 90 deg; 40,180", BOX, "P10", "side") == (
        Place("1", mm(40), None, Decimal(90)), Place("2", mm(40), None, Decimal(180)))  # fmt: skip


def test_a_feature_line_needs_a_part_that_is_there() -> None:
    assert isinstance(BOX.components[0], Component)
    read = add_lines("hole", "5 at 1,2", BOX, part="P99")
    assert (
        read.unread[0]
        .says[0]
        .startswith("There is no part called 'P99' here; add the part first, or write its mark.")
    )
