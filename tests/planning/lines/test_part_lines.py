"""Parts as people write them, each line beside what it means."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from calculators.planning.lines import add_lines, next_mark, read_part_line
from calculators.planning.model import Build, Component, Joint, Size
from calculators.quantities.length import Length
from tests.planning.lines.cast_of_lines import BOX, EMPTY, INCHES, block, inch, mm, rod, ticks

BOARD = {"material": "oak", "stock": "board"}
SIDE = block(300, 120, 12)

LINES: list[tuple[str, Component]] = [
    ("4 sides 300 x 120 x 12 oak", Component("P01", "sides", quantity=4, size=SIDE, **BOARD)),
    ("four sides 300 x 120 x 12 oak", Component("P01", "sides", quantity=4, size=SIDE, **BOARD)),
    ("4 x sides 300 x 120 x 12 oak", Component("P01", "sides", quantity=4, size=SIDE, **BOARD)),
    ("4 off sides 300 x 120 x 12 oak", Component("P01", "sides", quantity=4, size=SIDE, **BOARD)),
    ("4 no. sides, 300 x 120 x 12, oak", Component("P01", "sides", quantity=4, size=SIDE, **BOARD)),
    ("sides 300 x 120 x 12 oak x4", Component("P01", "sides", quantity=4, size=SIDE, **BOARD)),
    ("sides, oak, 300 x 120 x 12, qty 4", Component("P01", "sides", quantity=4, size=SIDE, **BOARD)),
    ("4 300 x 120 x 12 oak sides", Component("P01", "sides", quantity=4, size=SIDE, **BOARD)),
    ("300 by 120 by 12 oak sides, four off", Component("P01", "sides", quantity=4, size=SIDE, **BOARD)),
    (
        "base 276 × 96 × 6 ply",
        Component("P01", "base", material="ply", stock="sheet", size=block(276, 96, 6)),
    ),
    (
        "6 mm ply base 276 x 96",
        Component("P01", "base", material="ply", stock="sheet", size=block(276, 96, "6 mm")),
    ),
    ("P12 Side, oak board, 300 x 120 x 12, 4 off", Component("P12", "Side", quantity=4, size=SIDE, **BOARD)),
    ("P12: Side, oak board, 300 x 120 x 12", Component("P12", "Side", size=SIDE, **BOARD)),
    ("lid 300x120x12 oak", Component("P01", "lid", size=SIDE, **BOARD)),
    ("LID 300X120X12 OAK", Component("P01", "LID", size=SIDE, material="OAK", stock="board")),
    ("a lid 300 x 120 x 12 oak", Component("P01", "lid", size=SIDE, **BOARD)),
    ("lid 300mm x 120mm x 12mm oak", Component("P01", "lid", size=block("300mm", "120mm", "12mm"), **BOARD)),
    ("lid 300 x 120 x 12 mm oak", Component("P01", "lid", size=block(300, 120, "12 mm"), **BOARD)),
    ("lid 30 x 12 x 1.2 cm oak", Component("P01", "lid", size=block("30 cm", "12 cm", "1.2 cm"), **BOARD)),
    ("lid 31,75 x 20 x 5 oak", Component("P01", "lid", size=block("31,75", 20, 5), **BOARD)),
    ("box 300 x 200 x 100 in oak", Component("P01", "box", size=block(300, 200, 100), **BOARD)),
    ("lid 300 long x 120 wide x 12 thick oak", Component("P01", "lid", size=SIDE, **BOARD)),
    ("lid oak 12 thick, 120 wide, 300 long", Component("P01", "lid", size=SIDE, **BOARD)),
    (
        "shelf 12 x 4 x 1/2 in oak",
        Component("P01", "shelf", size=Size("block", inch("12"), inch("4"), mm("1/2 in")), **BOARD),
    ),
    (
        '1-1/4" x 3/4" x 12" walnut',
        Component("P01", "walnut", material="walnut", stock="board", size=block('12"', '1-1/4"', '3/4"')),
    ),
    (
        "5 rails 1 1/4 x 3/4 x 2' 6\" ash",
        Component(
            "P01",
            "rails",
            quantity=5,
            material="ash",
            stock="board",
            size=Size("block", mm("2' 6\""), inch("1 1/4"), inch("3/4")),
        ),
    ),
    (
        "5 rails 1¼ x ¾ x 12½ ash",
        Component(
            "P01",
            "rails",
            quantity=5,
            material="ash",
            stock="board",
            size=Size("block", inch("12½"), inch("1¼"), inch("¾")),
        ),
    ),
    (
        "2 hinges 38 mm brass butts, bought",
        Component("P01", "hinges 38 mm butts", quantity=2, material="brass", stock="bought"),
    ),
    ("two 38 mm brass hinges", Component("P01", "38 mm hinges", quantity=2, material="brass")),
    (
        "a pair of hinges, brass, bought, on order",
        Component("P01", "hinges", quantity=2, material="brass", stock="bought", state="bought"),
    ),
    ("dozen pegs 6 dia x 40 beech", Component("P01", "pegs", quantity=12, material="beech", size=rod(6, 40))),
    (
        "half a dozen pegs 6 dia x 40 beech",
        Component("P01", "pegs", quantity=6, material="beech", size=rod(6, 40)),
    ),
    (
        "catch, brass, 20 x 12 x 6, bought, in hand",
        Component("P01", "catch", material="brass", stock="bought", state="in hand", size=block(20, 12, 6)),
    ),
    (
        "pillar 3/4 dia x 6 1/2 brass turned",
        Component("P01", "pillar", material="brass", stock="turned", size=rod(inch("3/4"), inch("6 1/2"))),
    ),
    (
        "turned brass pillar 20 dia x 165",
        Component("P01", "pillar", material="brass", stock="turned", size=rod(20, 165)),
    ),
    (
        "pillar dia 20 x 165 brass bar",
        Component("P01", "pillar", material="brass", stock="bar", size=rod(20, 165)),
    ),
    ("pillar Ø20 x 165 brass", Component("P01", "pillar", material="brass", size=rod(20, 165))),
    ("pillar ⌀ 20 x 165 brass", Component("P01", "pillar", material="brass", size=rod(20, 165))),
    ("pillar 165 x 20 dia brass", Component("P01", "pillar", material="brass", size=rod(20, 165))),
    (
        "rod 6 dia x 430 silver steel",
        Component("P01", "rod", material="silver steel", stock="bar", size=rod(6, 430)),
    ),
    (
        "rod 6 x 430 silver steel",
        Component("P01", "rod", material="silver steel", stock="bar", size=rod(6, 430)),
    ),
    ("dowel 430 x 6 beech", Component("P01", "dowel", material="beech", size=rod(6, 430))),
    (
        "tube 20 dia bore 16 x 300 brass",
        Component("P01", "tube", material="brass", stock="tube", size=rod(20, 300, 16)),
    ),
    (
        "bush 12 OD x 8 bore x 10 phosphor bronze",
        Component("P01", "bush", material="phosphor bronze", size=rod(12, 10, 8)),
    ),
    (
        "bush 12 od x 8 id x 10 long phosphor bronze",
        Component("P01", "bush", material="phosphor bronze", size=rod(12, 10, 8)),
    ),
    (
        "drum 100 dia x 3 wall x 140 aluminium tube",
        Component("P01", "drum", material="aluminium", stock="tube", size=rod(100, 140, ticks(94))),
    ),
    (
        "wire 24 SWG x 420 music wire",
        Component("P01", "wire", material="music wire", size=rod("24 SWG", 420)),
    ),
    (
        "knife-edge 20 x 12 x 6 gauge plate",
        Component("P01", "knife-edge", material="gauge plate", size=block(20, 12, 6)),
    ),
    (
        "stop plate 120 x 20 x 16 SWG brass sheet",
        Component("P01", "stop plate", material="brass", stock="sheet", size=block(120, 20, "16 SWG")),
    ),
    (
        "stop plate 120 x 20, 16 SWG sheet brass",
        Component("P01", "stop plate", material="brass", stock="sheet", size=block(120, 20, "16 SWG")),
    ),
    (
        "plate 90 x 90 x 6 CW508L brass, corner radius 3",
        Component("P01", "plate", material="CW508L brass", size=block(90, 90, 6), corner_radius=mm(3)),
    ),
    ("batten 220 x 45 oak", Component("P01", "batten", material="oak", size=block(220, 45))),
    ("oak box 300 x 200 x 100", Component("P01", "box", size=block(300, 200, 100), **BOARD)),
    ("lead screw 12 dia x 300 steel", Component("P01", "lead screw", material="steel", size=rod(12, 300))),
    (
        "lid glass 534 x 174 x 3, float glass, bought",
        Component("P01", "lid glass", material="float glass", stock="bought", size=block(534, 174, 3)),
    ),
    ("lid 534 x 174 x 3 glass", Component("P01", "lid", material="glass", size=block(534, 174, 3))),
    ("bracket 60 x 30 x 12", Component("P01", "bracket", size=block(60, 30, 12))),
    ("wing nut block", Component("P01", "wing nut block")),
    ("G1 Base (sub-assembly)", Component("G1", "Base")),
    ("group Base", Component("G1", "Base")),
    ("sub-assembly: Lid and hinges", Component("G1", "Lid and hinges")),
    ("A3 Frame, group", Component("A3", "Frame")),
    (
        "2 doors 400 x 300 x 18 oak, quarter-sawn, rev B, made # glue first",
        Component(
            "P01",
            "doors",
            quantity=2,
            size=block(400, 300, 18),
            grain_cut="quarter",
            revision="B",
            state="made",
            note="glue first",
            **BOARD,
        ),
    ),
    ("lid 300 x 120 x 12 oak 1/4-sawn", Component("P01", "lid", size=SIDE, grain_cut="quarter", **BOARD)),
    (
        "lid 300 x 120 x 12 oak, on the quarter",
        Component("P01", "lid", size=SIDE, grain_cut="quarter", **BOARD),
    ),
    ("lid 300 x 120 x 12 flat-sawn oak", Component("P01", "lid", size=SIDE, grain_cut="flat", **BOARD)),
    (
        "lid 300 x 120 x 12 oak; mind the knot",
        Component("P01", "lid", size=SIDE, note="mind the knot", **BOARD),
    ),
    (
        "yoke 120 x 25 x 8 mild steel, re-used",
        Component("P01", "yoke", material="mild steel", size=block(120, 25, 8), reused=True),
    ),
    (
        "yoke reused mild steel, released",
        Component("P01", "yoke", material="mild steel", reused=True, state="released"),
    ),
    ("motor, to buy", Component("P01", "motor", stock="bought")),
    ("hinge bought in hand", Component("P01", "hinge", stock="bought", state="in hand")),
    (
        "bracket made of brass 60 x 25 x 6",
        Component("P01", "bracket", material="brass", size=block(60, 25, 6)),
    ),
    (
        "bead, “bog oak, smoked”, 8 x 8 x 1500",
        Component("P01", "bead, bog oak, smoked", size=block(1500, 8, 8)),
    ),
    (
        "bead, material “bog oak”, 8 x 8 x 1500",
        Component("P01", "bead", material="bog oak", size=block(1500, 8, 8)),
    ),
    (
        "“4 off, brass” 30 x 20 x 5 copper",
        Component("P01", "4 off, brass", material="copper", size=block(30, 20, 5)),
    ),
    ("جانب 300 x 120 x 12 oak", Component("P01", "جانب", size=SIDE, **BOARD)),
    ("O'Brien's lid 300 x 120 x 12 oak", Component("P01", "O'Brien's lid", size=SIDE, **BOARD)),
    ("P-7 lid 300 x 120 x 12 oak", Component("P-7", "lid", size=SIDE, **BOARD)),
    ("EN8 spindle 20 dia x 60", Component("P01", "spindle", material="EN8", size=rod(20, 60))),
    ("M6 studding, steel, 200 long", Component("P01", "M6 studding", material="steel", size=block(200))),
]


@pytest.mark.parametrize(("line", "means"), LINES, ids=[line for line, _ in LINES])
def test_a_line_makes_a_part(line: str, means: Component) -> None:
    assert read_part_line(line, EMPTY) == means


IN_THE_BOX: list[tuple[str, dict[str, Any]]] = [
    ("stay in G1", {"name": "stay", "parent": "G1"}),
    ("stay, part of G1", {"name": "stay", "parent": "G1"}),
    ("stay under G1", {"name": "stay", "parent": "G1"}),
    ("stay, part of the carcase", {"name": "stay", "parent": "G1"}),
    ("stay inside Carcase, steel", {"name": "stay", "parent": "G1", "material": "steel"}),
    ("stay in P03", {"name": "stay", "parent": "P03"}),
    ("stay in three pieces", {"name": "stay in three pieces"}),
    ("under rail", {"name": "under rail"}),
]


@pytest.mark.parametrize(("line", "fields"), IN_THE_BOX, ids=[line for line, _ in IN_THE_BOX])
def test_a_line_names_the_sub_assembly(line: str, fields: dict[str, Any]) -> None:
    wanted = {"mark": "P12", "name": "", **fields}
    assert read_part_line(line, BOX) == Component(**wanted)


IN_INCHES: list[tuple[str, Component]] = [
    (
        "3 rails 12 x 1 1/4 x 3/4 ash",
        Component(
            "A3",
            "rails",
            quantity=3,
            material="ash",
            stock="board",
            size=Size("block", inch("12"), inch("1 1/4"), inch("3/4")),
        ),
    ),
    (
        "rail 12 x 1.25 x .75 ash",
        Component(
            "A3",
            "rail",
            material="ash",
            stock="board",
            size=Size("block", inch("12"), inch("1.25"), inch(".75")),
        ),
    ),
    (
        "rail 12 x 2 x 1 in ash",
        Component(
            "A3", "rail", material="ash", stock="board", size=Size("block", inch("12"), inch("2"), inch("1"))
        ),
    ),
    (
        "rail 300 x 120 x 12 mm ash",
        Component("A3", "rail", material="ash", stock="board", size=block("300", "120", "12 mm")),
    ),
    (
        "peg 1/4 dia x 2 ash",
        Component("A3", "peg", material="ash", size=Size("round", length=inch("2"), diameter=inch("1/4"))),
    ),
]


@pytest.mark.parametrize(("line", "means"), IN_INCHES, ids=[line for line, _ in IN_INCHES])
def test_bare_numbers_take_the_builds_unit(line: str, means: Component) -> None:
    found = read_part_line(line, INCHES)
    sizes = [getattr(found.size, name) for name in ("length", "width", "thickness", "diameter", "bore")]
    wanted = [getattr(means.size, name) for name in ("length", "width", "thickness", "diameter", "bore")]
    assert [one and one.ticks for one in sizes] == [one and one.ticks for one in wanted]
    assert replace(found, size=Size()) == replace(means, size=Size())


CHANGES: list[tuple[str, dict[str, Any]]] = [
    ("3 off", {"quantity": 3}),
    ("P03 cover, 2 off", {"name": "cover", "quantity": 2}),
    ("walnut", {"material": "walnut", "name": "lid"}),
    ("lid, made", {"state": "made"}),
    ("310 x 120 x 12", {"size": block(310, 120, 12)}),
    ("13 thick", {"size": block(300, 120, 13)}),
    ("in G1, rev C", {"parent": "G1", "revision": "C"}),
    ("# planed", {"note": "planed"}),
    ("bought, on order", {"stock": "bought", "state": "bought"}),
]


@pytest.mark.parametrize(("line", "fields"), CHANGES, ids=[line for line, _ in CHANGES])
def test_a_line_changes_what_it_says_and_keeps_the_rest(line: str, fields: dict[str, Any]) -> None:
    lid = BOX.components[3]
    assert read_part_line(line, BOX, lid) == replace(lid, **fields)


def test_a_size_that_is_the_same_keeps_its_writing() -> None:
    part = Component("P1", "Pin", size=Size("round", Length(254_000_000, "1", "in"), diameter=mm("6")))
    build = Build("B", "x", components=(part,))
    assert read_part_line("Pin, 6 dia x 25.4, 2 off", build, part) == replace(part, quantity=2)


MARKS = [
    (("P01", "P02"), "part", "P03"),
    (("A1", "A2"), "part", "A3"),
    (("P09", "P99"), "part", "P100"),
    (("Z-9",), "part", "Z-10"),
    (("部品1", "部品2"), "part", "部品3"),
    (("G1", "G2"), "part", "P01"),
    (("G1", "G2"), "group", "G3"),
    (("P01",), "group", "G1"),
    ((), "part", "P01"),
    ((), "joint", "F01"),
    ((), "group", "G1"),
    (("lid",), "part", "P01"),
]  # fmt: skip


@pytest.mark.parametrize(("there", "kind", "following"), MARKS)
def test_marks_go_on_in_the_builds_own_manner(there: tuple[str, ...], kind: Any, following: str) -> None:
    assert (
        next_mark(Build("B", "x", components=tuple(Component(mark, "x") for mark in there)), kind)
        == following
    )


def test_joints_marks_go_on_and_pass_over_what_is_taken() -> None:
    joints = (Joint("J7", "x", "M5 x 20 csk"), Joint("J8", "x", "M5 x 20 csk"))
    assert next_mark(Build("B", "x", components=(Component("J9", "odd"),), joints=joints), "joint") == "J10"


def test_lines_are_read_each_with_the_earlier_ones_in_the_build() -> None:
    read = add_lines(
        "part",
        "group Base\n\n# the sides\n4 sides 300 x 120 x 12 oak, in Base\nfoo 1 x 2 x 3 x 4\nlid in G1",
        EMPTY,
    )
    assert read.added == ("G1", "P01", "P02")
    assert [one.parent for one in read.build.components] == ["", "G1", "G1"]
    assert [(one.number, one.text) for one in read.unread] == [(5, "foo 1 x 2 x 3 x 4")]


def test_too_many_lines_are_one_sentence() -> None:
    read = add_lines("part", "lid\n" * 2_001, EMPTY)
    assert (read.build, read.added, len(read.unread)) == (EMPTY, (), 1)
    assert read.unread[0].says == (
        "There are 2,001 lines; at once 2,000 are read. Nothing was added: part them.",
    )
    read = add_lines("part", "x" * 200_001, EMPTY)
    assert read.unread[0].says == (
        "The text has 200,001 characters; at once 200,000 are read. Nothing was added: part it.",
    )
