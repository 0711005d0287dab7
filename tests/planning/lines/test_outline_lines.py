"""Outlines on a line: what is read, what is refused in which sentence, and that what is written reads back."""

from __future__ import annotations

import math
import random

import pytest

from calculators.geometry.outlines import area
from calculators.planning.lines import (
    read_outline_line,
    read_part_line,
    write_outline_line,
    write_part_line,
)
from calculators.planning.lines.outlines import LONGEST_CLAUSE, same_outline
from calculators.planning.model import Build, Component, Corner
from calculators.planning.outlining import outline_of
from calculators.quantities.errors import InputError
from tests.geometry.random_outlines import outlines

Told = list[tuple[float, ...] | tuple[float, float, float, str]]
BUILD = Build("B1", "Bench")


def told(corners: tuple[Corner, ...]) -> Told:
    return [
        (one.x.mm, one.y.mm) if one.radius is None else (one.x.mm, one.y.mm, one.radius.mm, one.turns)
        for one in corners
    ]


SQUARE: Told = [(0, 0), (60, 0), (60, 40), (0, 40)]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("outline 0,0 to 60,0 to 60,40 to 0,40", SQUARE),
        ("0,0 to 60,0 to 60,40 to 0,40", SQUARE),
        ("outline: 0,0; 60,0; 60,40; 0,40", SQUARE),
        ("0,0 -> 60,0 -> 60,40 -> 0,40", SQUARE),
        ("0,0\n60,0\n60,40\n0,40\n", SQUARE),
        ("0,0 to\n60,0 to\n60,40 to\n0,40", SQUARE),
        ("0,0 to 60,0 to 60,40 to 0,40 to 0,0", SQUARE),  # closed by its first point
        ("(0, 0) to (60, 0) to (60, 40) to (0, 40)", SQUARE),
        ("0,0 to 0,40 to 60,40 to 60,0", SQUARE),  # clockwise: taken round the other way
        ("0,0 to 6 cm,0 to 6 cm,40 mm to 0,4 cm", SQUARE),
        # Rounding 10 at a square corner takes 10 off both its sides.
        ("0,0 to 60,0 to 60,40 r 10 to 0,40", [(0, 0), (60, 0), (60, 30, 10, "left"), (50, 40), (0, 40)]),
        ("0,0 to 60,0 to 60,40 r10 to 0,40", [(0, 0), (60, 0), (60, 30, 10, "left"), (50, 40), (0, 40)]),
        ("0,0 to 60,0 to 60,40 rounded 10 to 0,40", [(0, 0), (60, 0), (60, 30, 10, "left"), (50, 40), (0, 40)]),
        ("0,0 to 60,0 to 60,40 chamfer 5 to 0,40", [(0, 0), (60, 0), (60, 35), (55, 40), (0, 40)]),
        # A corner that looks inward is rounded by an arc that turns right.
        (
            "0,0 to 60,0 to 60,20 to 30,20 r 4 to 30,40 to 0,40",
            [(0, 0), (60, 0), (60, 20), (34, 20, 4, "right"), (30, 24), (30, 40), (0, 40)],
        ),
        # Two roundings that share the whole of a side leave nothing of it: a round end.
        (
            "0,0 to 60,0 r 20 to 60,40 r 20 to 0,40",
            [(0, 0), (40, 0, 20, "left"), (60, 20, 20, "left"), (40, 40), (0, 40)],
        ),
        ("0,0 to 60,0 arc 20 left to 60,40 to 0,40", [(0, 0), (60, 0, 20, "left"), (60, 40), (0, 40)]),
        ("0,0 to 60,0 left 20 to 60,40 to 0,40", [(0, 0), (60, 0, 20, "left"), (60, 40), (0, 40)]),
        ("0,0 to 60,0 r 25 right to 60,40 to 0,40", [(0, 0), (60, 0, 25, "right"), (60, 40), (0, 40)]),
        ("0,10 arc 10 left to 20,10 arc 10 left", [(0, 10, 10, "left"), (20, 10, 10, "left")]),
        ('0,0 to 1 1/4 in,0 to 1 1/4 in,3/8"', [(0, 0), (31.75, 0), (31.75, 9.525)]),
        ("no outline", []),
        ("outline rectangular", []),
    ],
)  # fmt: skip
def test_outlines_are_read(text: str, wanted: Told) -> None:
    corners = read_outline_line(text, "mm")
    assert told(corners) == wanted
    again = read_outline_line(write_outline_line(corners, "mm") or "no outline", "mm")
    assert same_outline(again, corners)


def test_a_slanting_corner_is_rounded_out_of_both_its_sides() -> None:
    """An angle of 60 degrees: the arc of 6 begins 6 / tan 30 = 10.392 from the corner, and turns by 120."""
    corners = read_outline_line("0,0 to 100,0 r 6 to 50,86.6025404", "mm")
    run = 6 / math.tan(math.radians(30))
    start, end = corners[1], corners[2]
    assert start.x.mm == pytest.approx(100 - run, abs=1e-6)
    assert end.x.mm == pytest.approx(100 - run * 0.5, abs=1e-6)
    assert end.y.mm == pytest.approx(run * math.sqrt(0.75), abs=1e-6)
    outline = outline_of(corners)
    assert 4 * math.degrees(math.atan(outline[1].bulge)) == pytest.approx(120, abs=1e-4)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("0,0 to 50,0", "An outline has three corners or more, or two with an arc between them; this has 2."),
        ("0,0 to 10,10 to 10,0 to 0,10", "The outline crosses or touches itself at 5,5 (in mm)."),
        ("0,0 to 9,0 to 9,0 to 0,9", "Two corners stand at 9,0; leave one of them out."),
        (
            "0,0 to 60,0 arc 10 left to 60,40 to 0,40",
            "The arc from 60,0 to 60,40 has a radius of 10 mm; over 40 mm it is 20 mm or more.",
        ),
        (
            "0,0 to 60,0 arc 10 to 60,40",
            "The arc from 60,0 turns left or right; write arc 10 left or arc 10 right.",
        ),
        ("0,0 to 30,0 r 5 to 60,0 to 60,40", "There is no corner at 30,0: the line goes straight on."),
        (
            "0,0 to 60,0 to 60,40 r 50 to 0,40",
            "The side from 60,0 to 60,40 is 40 mm long, and its corners take 50 mm of it; cut 60,40 by less.",
        ),
        (
            "0,0 to 60,0 arc 20 left to 60,40 r 3 to 0,40",
            "The corner 60,40 is not between two straight lines: it cannot be cut.",
        ),
        ("0,0 to 10,20 in to 5,5", "'10,20 in' says one unit; write 10 in,20 in or 10 mm,20 in."),
    ],
)
def test_outlines_that_cannot_be_are_refused(text: str, says: str) -> None:
    with pytest.raises(InputError) as caught:
        read_outline_line(text, "mm")
    assert caught.value.faults[0].says == says
    assert caught.value.faults[0].field == "line"


@pytest.mark.parametrize(
    "text", ["", "outline", "0,0 to a,b to 3,3", "0,0 to 9,0 wobbly to 3,3", "0 to 9", "0,0,0"]
)
def test_what_is_no_outline_is_shown_one(text: str) -> None:
    with pytest.raises(InputError) as caught:
        read_outline_line(text, "mm")
    assert "outline 0,0 to 120,0 to 120,60 r 10 to 60,60 arc 80 left to 0,60." in caught.value.faults[0].says


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_any_outline_is_written_so_that_it_reads_back(unit: str) -> None:
    for index, outline in enumerate(outlines(21, 40)):
        text = " to ".join(
            f"{one.x:.4f} mm,{one.y:.4f} mm" + (f" arc {80 + 7 * index} mm left" if one.bulge > 0 else "")
            for one in outline
        )
        corners = read_outline_line(text, unit)
        assert same_outline(read_outline_line(write_outline_line(corners, unit), unit), corners)
        assert same_outline(read_outline_line(write_outline_line(corners, None), unit), corners)


def test_rounded_corners_of_any_angle_read_back() -> None:
    lot, seen = random.Random(5), 0
    for outline in outlines(22, 40):
        radius = lot.choice([0.8, 2, 3.175, 5])
        text = " to ".join(f"{one.x:.3f},{one.y:.3f} r {radius}" for one in outline)
        corners = read_outline_line(text, "mm")
        assert area(outline_of(corners)) > 0
        line = write_outline_line(corners, "mm")
        assert same_outline(read_outline_line(line, "mm"), corners)
        seen += line.count(" r ")
    assert seen > 100  # most are written as rounded corners again


def test_a_part_takes_its_sizes_from_its_outline() -> None:
    one = read_part_line("P07 Gusset, 6 thick, steel, outline 0,0 to 80,0 to 0,50", BUILD)
    assert (one.name, one.material) == ("Gusset", "steel")
    assert (one.size.shape, one.size.length.mm, one.size.width.mm, one.size.thickness.mm) == (
        "block",
        80,
        50,
        6,
    )
    assert told(one.outline) == [(0, 0), (80, 0), (0, 50)]
    assert write_part_line(one, BUILD) == "P07 Gusset, 80 x 50 x 6, steel, outline 0,0 to 80,0 to 0,50"


def test_semicolons_between_points_begin_no_note_and_those_behind_do() -> None:
    one = read_part_line(
        "4 cams 40 x 20 x 3 brass, outline 0,0; 40,0; 40,20 r 5; 0,20; file the edges", BUILD
    )
    assert (one.quantity, one.name, one.note) == (4, "cams", "file the edges")
    assert len(one.outline) == 5


def test_a_line_without_an_outline_leaves_it_and_one_can_take_it_off() -> None:
    one = read_part_line("P07 Gusset, 80 x 50 x 6, steel, outline 0,0 to 80,0 to 0,50", BUILD)
    assert read_part_line("in hand", BUILD, now=one).outline == one.outline
    assert read_part_line("no outline", BUILD, now=one).outline == ()


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            "Gusset, 80 x 50 x 6, outline 0,0 to 90,0 to 0,50",
            "The outline reaches 90 mm along X, beyond the length of 80 mm.",
        ),
        (
            "Gusset, 80 x 50 x 6, outline 0,0 to 80,0 to 0,40",
            "The outline reaches 40 mm along Y, and the width is 50 mm: the sizes of a part are those of its "
            "outline.",
        ),
        (
            "Gusset, 6 thick, outline 5,0 to 80,0 to 5,50",
            "The outline begins at 5 mm along X; it begins at 0, where the datum of the part is.",
        ),
        (
            "P09 Pin, 10 dia x 80, outline 0,0 to 80,0 to 0,50",
            "P09 is a round; an outline is that of a block, plate or board seen from its top.",
        ),
    ],
)
def test_an_outline_that_does_not_fit_its_part_is_refused(text: str, says: str) -> None:
    with pytest.raises(InputError) as caught:
        read_part_line(text, BUILD)
    assert caught.value.faults[0].says == says


def test_a_long_outline_is_left_out_of_the_line_of_its_part() -> None:
    teeth = " to ".join(f"{2 * i},{4 + i % 2}" for i in range(60, 0, -1))
    one = read_part_line("P07 Rack, 3 thick, brass", BUILD)
    corners = read_outline_line(f"0,0 to 120,0 to {teeth} to 0,5", "mm")
    assert len(write_outline_line(corners, "mm")) > LONGEST_CLAUSE
    long = Component(one.mark, one.name, material="brass", size=one.size, outline=corners)
    assert "outline" not in write_part_line(long, BUILD)
