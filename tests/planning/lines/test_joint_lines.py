"""Joints as people write them, each line beside what it means."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from calculators.planning.lines import add_lines, read_joint_line
from calculators.planning.model import Build, Component, Joint, LayerHole, Place, StackMember
from calculators.planning.resolving import resolve_build
from tests.planning.lines.cast_of_lines import BOX, EMPTY, block, mm, ticks


def part(mark: str, takes: str = "clearance", thickness: Any = None, **more: Any) -> StackMember:
    return StackMember(part=mark, takes=takes, thickness=None if thickness is None else mm(thickness), **more)


def item(text: str, **more: Any) -> StackMember:
    return StackMember(item=text, **more)


def joint(title: str, fastener: str, *stack: StackMember, off: int | None = None, **more: Any) -> Joint:
    """The next joint of the box; its home is the first part unless it says another."""
    home = more.pop("home", next(member.part for member in stack if member.part))
    reason = "as entered" if off is not None else ""
    return Joint(
        more.pop("mark", "F02"), title, fastener, home, stack=stack, count=off, count_reason=reason, **more
    )


HINGE = (part("P04"), part("P01", "pilot", 12))
PLATE_RAIL = (part("P06", "clearance", 2), part("P07", "thread", 18))
WOOD = (part("P06", "clearance", 2), part("P07", "pilot", 18))
NO4 = "No. 4 x 1/2 csk brass"

LINES: list[tuple[str, Joint]] = [
    ("No. 4 x 1/2 in csk brass: hinge into side, 6 off", joint("Hinge to side", NO4, *HINGE, off=6)),
    ("no 4 x 1/2 csk brass: hinges into sides, 6 off", joint("Hinges to sides", NO4, *HINGE, off=6)),
    ("6 No. 4 x 1/2 in csk brass: hinge into side", joint("Hinge to side", NO4, *HINGE, off=6)),
    ("six #4 x 1/2 countersunk brass screws: hinge to side", joint("Hinge to side", "No. 4 x 1/2 csk brass", *HINGE, off=6)),
    ("hinge into side with No. 4 x 1/2 in csk brass, 6 off", joint("Hinge to side", NO4, *HINGE, off=6)),
    ("hinge into side: No. 4 x 1/2 in csk brass, 6 off", joint("Hinge into side", NO4, *HINGE, off=6)),
    ("hinge to side, 6 x No. 4 x 1/2 csk brass", joint("Hinge to side", NO4, *HINGE, off=6)),
    ("the hinge into the side, No. 4 x 1/2 csk, brass", joint("Hinge to side", NO4, *HINGE)),
    ("No. 4 x 1/2 csk brass through hinge into side", joint("Hinge to side", NO4, *HINGE)),
    ("12 No 4 x 1/2 csk brass, P04 1.2 into P01 12", joint("Hinges to sides", NO4, part("P04", "clearance", 1.2), part("P01", "pilot", 12), off=12)),
    ("12 No 4 x 1/2 csk brass, p04 1.2 mm into p01 120", joint(
        "Hinges to sides", NO4, part("P04", "clearance", "1.2 mm"), part("P01", "pilot", 120), off=12)),
    ("P04 to P01: 12 No. 4 x 1/2 csk brass", joint("Hinges to sides", NO4, *HINGE, off=12)),
    ("F03 5/16 BSF x 2 hex set screw, repair washer, P01 22, P11 6, into P10 (thread 18, drilled 22)", joint(
        "Sides to Pillar", "5/16 BSF x 2 hex set screw", item("5/16 BSF repair washer"), part("P01", "clearance", 22),
        part("P11", "clearance", 6), part("P10", "thread", thread_depth=mm(18), drilled_depth=mm(22)), mark="F03", home="P01")),
    ("F03: 5/16 BSF x 2 hex set screw, P11 6 into P10 thread 18 drilled 22", joint(
        "Flange plate to Pillar", "5/16 BSF x 2 hex set screw", part("P11", "clearance", 6),
        part("P10", "thread", thread_depth=mm(18), drilled_depth=mm(22)), mark="F03")),
    ("catch to lid: M3 x 8 csk into brass", joint("Catch to lid", "M3 x 8 csk", part("P03", "clearance", 12), part("P05", "thread", 6))),
    ("M3 x 8 csk: lid into catch", joint("Lid to catch", "M3 x 8 csk", part("P03", "clearance", 12), part("P05", "thread", 6))),
    ("M6 x 50 hex bolt through rail and side, washer, nut", joint(
        "Rail to side", "M6 x 50 hex bolt", part("P07", "clearance", 18), part("P01", "clearance", 12), item("M6 washer"), item("M6 nut"))),
    ("M6 x 50 hex bolts through rail and side with washers and nuts, 3 off", joint(
        "Rail to side", "M6 x 50 hex bolt", part("P07", "clearance", 18), part("P01", "clearance", 12), item("M6 washer"), item("M6 nut"), off=3)),
    ("M6 x 50 hex bolt, washer, rail, side, washer and nut", joint(
        "Rail to side", "M6 x 50 hex bolt", item("M6 washer"), part("P07", "clearance", 18), part("P01", "clearance", 12), item("M6 washer"), item("M6 nut"))),
    ("M6 x 50 hex bolt through rail and side, nut, washer", joint(
        "Rail to side", "M6 x 50 hex bolt", part("P07", "clearance", 18), part("P01", "clearance", 12), item("M6 washer"), item("M6 nut"))),
    ("M6 x 50 hex bolt through rail and side, half nut and nut", joint(
        "Rail to side", "M6 x 50 hex bolt", part("P07", "clearance", 18), part("P01", "clearance", 12), item("M6 half nut"), item("M6 nut"))),
    ("M6 x 50 hex bolt through rail and side, nyloc", joint(
        "Rail to side", "M6 x 50 hex bolt", part("P07", "clearance", 18), part("P01", "clearance", 12), item("M6 stiff nut"))),
    ("M5 x 20 csk, plate 2, rail 18, M5 nut", joint(
        "Plate to rail", "M5 x 20 csk", part("P06", "clearance", 2), part("P07", "clearance", 18), item("M5 nut"))),
    ("M5 x 20 csk, plate 2, rail 18", joint("Plate to rail", "M5 x 20 csk", *PLATE_RAIL)),
    ("M5 x 20 csk: plate 2 mm into rail 18 mm", joint("Plate to rail", "M5 x 20 csk", part("P06", "clearance", "2 mm"), part("P07", "thread", "18 mm"))),
    ("M5x20 CSK: PLATE INTO RAIL", joint("PLATE to RAIL", "M5 x 20 csk", *PLATE_RAIL)),
    ("M5 × 20 csk: plate into rail", joint("Plate to rail", "M5 x 20 csk", *PLATE_RAIL)),
    ("M5 x 20 csk, slotted, brass: plate 2 into rail", joint("Plate to rail", "M5 x 20 csk slotted brass", *PLATE_RAIL)),
    ("4 x No. 10 x 1 1/4 csk steel, plate to rail", joint("Plate to rail", "No. 10 x 1 1/4 csk steel", *WOOD, off=4)),
    ("4 No. 10 x 1¼ csk steel, plate to rail", joint("Plate to rail", "No. 10 x 1 1/4 csk steel", *WOOD, off=4)),
    ("No. 10 x 1 1/4 csk steel, plate onto rail, 4 off", joint("Plate to rail", "No. 10 x 1 1/4 csk steel", *WOOD, off=4)),
    ("No. 10 x 1 1/4 csk steel, cup washer, plate to rail", joint(
        "Plate to rail", "No. 10 x 1 1/4 csk steel", item("No. 10 cup washer"), *WOOD)),
    ("plate to rail: No. 10 x 1 1/4 csk steel, cup washer", joint(
        "Plate to rail", "No. 10 x 1 1/4 csk steel", item("No. 10 cup washer"), *WOOD)),
    ("M5 x 20 csk: plate into lid rail, long", joint("Plate to lid rail, long", "M5 x 20 csk", part("P06", "clearance", 2), part("P08", "thread", 18))),
    ("M5 x 20 csk: plate to Lid rail", joint("Plate to Lid rail", "M5 x 20 csk", part("P06", "clearance", 2), part("P08", "thread", 18))),
    ("M5 x 20 csk: bracket into flange", joint("Bracket to flange", "M5 x 20 csk", part("P09", "clearance", 3), part("P11", "thread", 6))),
    ("M5 x 20 csk through plate into maple", joint("Plate to rail", "M5 x 20 csk", *PLATE_RAIL)),
    ("M5 x 20 csk through plate into maple 30", joint("Plate to rail", "M5 x 20 csk", part("P06", "clearance", 2), part("P07", "thread", 30))),
    ("M4 x 12 pan into aluminium bracket", joint("Aluminium bracket", "M4 x 12 pan", part("P09", "thread", 3))),
    ("6BA x 3/16 grub screw into flange, 4 off", joint("Flange", "6 BA x 3/16 grub screw", part("P11", "thread", 6), off=4)),
    ("2 2BA x 3/4 cheese brass: bracket to flange", joint("Bracket to flange", "2 BA x 3/4 cheese brass", part("P09", "clearance", 3), part("P11", "thread", 6), off=2)),
    ("2 BA x 3/4 cheese brass: bracket to flange", joint("Bracket to flange", "2 BA x 3/4 cheese brass", part("P09", "clearance", 3), part("P11", "thread", 6))),
    ("6 5 x 50 csk cross wood screws: plate to rail", joint("Plate to rail", "5 x 50 csk cross wood screw", *WOOD, off=6)),
    ("Stay: M4 x 12 pan, plate into rail, 2 off", joint("Stay", "M4 x 12 pan", *PLATE_RAIL, off=2)),
    ("“Hinge: left” M4 x 12 pan, plate into rail", joint("Hinge: left", "M4 x 12 pan", *PLATE_RAIL)),
    ("M4 x 12 pan: plate into rail, M4 insert OD 8 x 10", joint(
        "Plate to rail", "M4 x 12 pan", part("P06", "clearance", 2), part("P07", "insert", 18), item("M4 insert OD 8 x 10"))),
    ("M4 x 12 pan: plate, M4 insert OD 8 x 10, rail", joint(
        "Plate to rail", "M4 x 12 pan", part("P06", "clearance", 2), item("M4 insert OD 8 x 10"), part("P07", "insert", 18))),
    ("No. 8 x 1 1/4 csk: plate into the edge of side", joint(
        "Plate to side", "No. 8 x 1 1/4 csk", part("P06", "clearance", 2), StackMember("P01", takes="pilot", thickness=mm(120), edge=ticks(6)))),
    ("No. 8 x 1 1/4 csk: plate into edge of side, edge 5", joint(
        "Plate to side", "No. 8 x 1 1/4 csk", part("P06", "clearance", 2), part("P01", "pilot", 120, edge=mm(5)))),
    ("No. 8 x 1 csk: plate into the end of rail", joint(
        "Plate to rail", "No. 8 x 1 csk", part("P06", "clearance", 2), part("P07", "pilot", 400, grain="end"))),
    ("No. 8 x 1 csk: plate into rail, edge 6, end 25", joint(
        "Plate to rail", "No. 8 x 1 csk", part("P06", "clearance", 2), part("P07", "pilot", 18, edge=mm(6), end=mm(25)))),
    ("No. 8 x 1 csk: plate (close fit) into rail (end grain)", joint(
        "Plate to rail", "No. 8 x 1 csk", part("P06", "clearance", 2, fit="close"), part("P07", "pilot", 18, grain="end"))),
    ("M5 x 20 csk: plate into rail (tapped 10-32 UNF)", joint(
        "Plate to rail", "M5 x 20 csk", part("P06", "clearance", 2), part("P07", "thread", 18, thread="10-32 UNF"))),
    ("M5 x 20 csk: plate into P10 (tapped 12 deep)", joint(
        "Plate to Pillar", "M5 x 20 csk", part("P06", "clearance", 2), part("P10", "thread", thread_depth=mm(12)))),
    ("M5 x 20 csk: plate (tapped) and rail, nut", joint(
        "Plate to rail", "M5 x 20 csk", part("P06", "thread", 2), part("P07", "clearance", 18), item("M5 nut"))),
    ("M5 x 20 csk: plate into rail; flush", joint("Plate to rail", "M5 x 20 csk", *PLATE_RAIL, seat="flush")),
    ("M5 x 20 csk: plate into rail, head proud, torque 6 N m", joint("Plate to rail", "M5 x 20 csk", *PLATE_RAIL, seat="proud", torque_nm=Decimal(6))),
    ("M5 x 20 csk: plate into rail, 0.5 Nm", joint("Plate to rail", "M5 x 20 csk", *PLATE_RAIL, torque_nm=Decimal("0.5"))),
    ("M5 x 20 csk: plate into rail, reached from below", joint("Plate to rail", "M5 x 20 csk", *PLATE_RAIL, reached_from="below")),
    ("M5 x 20 csk from below: plate into rail", joint("Plate to rail", "M5 x 20 csk", *PLATE_RAIL, reached_from="below")),
    ("M5 x 20 csk: plate into rail, locked with low-strength locker", joint("Plate to rail", "M5 x 20 csk", *PLATE_RAIL, lock="low-strength locker")),
    ("M5 x 20 csk: plate into rail, medium threadlocker", joint("Plate to rail", "M5 x 20 csk", *PLATE_RAIL, lock="medium threadlocker")),
    ("No. 8 x 1 csk brass: plate into rail, steel first", joint("Plate to rail", "No. 8 x 1 csk brass", *WOOD, steel_first=True)),
    ("No. 8 x 1 csk brass: plate into rail, outdoors, loaded sideways", joint(
        "Plate to rail", "No. 8 x 1 csk brass", *WOOD, wet=True, loaded_sideways=True)),
    ("M5 x 20 socket cap: plate into rail, tool 4 mm key, supplier ironmonger", joint(
        "Plate to rail", "M5 x 20 socket cap", *PLATE_RAIL, tool="4 mm key", supplier="ironmonger")),
    ("M5 x 20 hex bolt: plate into rail with an 8 mm spanner", joint("Plate to rail", "M5 x 20 hex bolt", *PLATE_RAIL, tool="8 mm spanner")),
    ("M5 x 20 socket cap: rail into P11, counterbored 3", joint(
        "Rail to Flange plate", "M5 x 20 socket cap", part("P07", "clearance", 18, holes=(LayerHole(counterbore_depth=mm(3), reason="as entered"),)),
        part("P11", "thread", 6), seat="counterbore")),
    ("M5 x 20 socket cap: rail into P11, counterbored 10 x 5", joint(
        "Rail to Flange plate", "M5 x 20 socket cap",
        part("P07", "clearance", 18, holes=(LayerHole(counterbore_diameter=mm(10), counterbore_depth=mm(5), reason="as entered"),)),
        part("P11", "thread", 6), seat="counterbore")),
    *((f"M6 x 50 hex bolt: rail, side, {words}", joint(
        "Rail to side", "M6 x 50 hex bolt", part("P07", "clearance", 18),
        part("P01", "clearance", 12, holes=(LayerHole(counterbore_diameter=wide, counterbore_depth=mm(8), reason="as entered"),)),
        item("M6 nut")))
      for words, wide in (
          ("M6 nut sunk 8 in the far face", None), ("nut let in 8 deep", None), ("M6 nut sunk 14 x 8", mm(14)),
          ("M6 nut, far side counterbored 14 x 8", mm(14)), ("M6 nut recessed 8 deep into the far side", None))),
    ("M5 x 20 csk: plate into rail # mind the knot", joint("Plate to rail", "M5 x 20 csk", *PLATE_RAIL, note="mind the knot")),
    ("M5 x 20 csk: plate into rail, on P06 top", joint("Plate to rail", "M5 x 20 csk", *PLATE_RAIL, face="top")),
    ("M5 x 20 csk: plate into rail, on the underside of plate", joint("Plate to rail", "M5 x 20 csk", *PLATE_RAIL, face="bottom")),
    ("M5 x 20 csk: plate into rail, on P06 top at 20,30; 20,70", joint(
        "Plate to rail", "M5 x 20 csk", *PLATE_RAIL, face="top", places=(Place("1", mm(20), mm(30)), Place("2", mm(20), mm(70))))),
    ("2 M5 x 20 csk: plate into rail, on P06 top at 20,30; 20,70", joint(
        "Plate to rail", "M5 x 20 csk", *PLATE_RAIL, face="top", places=(Place("1", mm(20), mm(30)), Place("2", mm(20), mm(70))))),
    ("J4 M5 x 20 csk: plate into rail", joint("Plate to rail", "M5 x 20 csk", *PLATE_RAIL, mark="J4")),
    ("M5 x 20 csk: sides 12, base", joint("Sides to base", "M5 x 20 csk", part("P01", "clearance", 12), part("P02", "thread", 6))),
    ("M6 x 1 in hex bolt: plate into rail", joint("Plate to rail", "M6 x 1 in hex bolt", *PLATE_RAIL)),
]  # fmt: skip


@pytest.mark.parametrize(("line", "means"), LINES, ids=[line for line, _ in LINES])
def test_a_line_makes_a_joint(line: str, means: Joint) -> None:
    assert read_joint_line(line, BOX) == means


CHANGES: list[tuple[str, dict[str, Any]]] = [
    ("8 off", {"count": 8, "count_reason": "as entered"}),
    ("F01 M6 x 30 csk", {"fastener": "M6 x 30 csk"}),
    ("torque 3 N m", {"torque_nm": Decimal(3)}),
    ("plate 3 into rail", {"stack": (part("P06", "clearance", 3), part("P07", "thread", 18))}),
    ("flush, reached from above", {"seat": "flush", "reached_from": "above"}),
    ("# twice", {"note": "twice"}),
    ("“Better name”", {"title": "Better name"}),
]


@pytest.mark.parametrize(("line", "fields"), CHANGES, ids=[line for line, _ in CHANGES])
def test_a_line_changes_what_it_says_and_keeps_the_rest(line: str, fields: dict[str, Any]) -> None:
    old = Joint("F01", "Old", "M5 x 20 csk", "P06", stack=PLATE_RAIL, wet=True, tool="key")
    build = replace(BOX, joints=(old,))
    assert read_joint_line(line, build, old) == replace(old, **fields)


def test_a_part_that_lies_somewhere_keeps_the_thickness_that_its_pose_gives() -> None:
    from calculators.planning.lines import read_pose_line

    mark, pose = read_pose_line("P06 on the ground", BOX)
    posed = replace(
        BOX,
        components=tuple(replace(one, poses=(pose,)) if one.mark == mark else one for one in BOX.components),
    )
    assert read_joint_line("M5 x 20 csk: plate into rail", posed).stack == (
        part("P06"),
        part("P07", "thread", 18),
    )


def test_the_box_of_a_notebook_page_is_worked_out_at_once() -> None:
    parts = """4 sides 300 x 120 x 12 oak
base 276 x 96 x 6 ply
lid 300 x 120 x 12 oak
2 hinges 38 x 22 x 1.6 brass, bought
catch, brass, 20 x 12 x 6, bought, in hand"""
    joints = """No. 4 x 1/2 in csk brass: hinge into the edge of P01, 12 off
catch to lid: M3 x 8 csk into brass
No. 6 x 3/4 csk brass: base into side, 8 off"""
    read = add_lines("part", parts, EMPTY)
    assert (read.added, read.unread) == (("P01", "P02", "P03", "P04", "P05"), ())
    read = add_lines("joint", joints, read.build)
    assert (read.added, read.unread) == (("F01", "F02", "F03"), ())
    worked = resolve_build(read.build)
    assert [(one.joint.mark, one.count) for one in worked.joints] == [("F01", 12), ("F02", 1), ("F03", 8)]
    kinds = {(hole.joint, hole.part): hole.hole.kind for hole in worked.holes if hole.hole is not None}
    assert kinds["F01", "P04"] == "clearance"
    assert kinds["F01", "P01"] == "pilot"
    assert kinds["F02", "P05"] == "tapping"


def test_a_build_of_two_parts_of_one_name_asks_which() -> None:
    two = Build(
        "B",
        "x",
        components=(
            Component("P1", "rail", size=block(1, 2, 3)),
            Component("P2", "rail"),
            Component("P3", "plate"),
        ),
    )
    assert read_joint_line("M5 x 20 csk: plate 2 into P1", two).stack[1].part == "P1"
