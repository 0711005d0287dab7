"""Parts as a notebook page has them: counts anywhere, the timber yard's order, one size apart, slips of the pen.

That the last of three sizes is the length where it is by far the greatest is common practice: a yard sells
`2 x 4 x 24` and nobody makes a board 24 thick.
"""

from __future__ import annotations

import pytest

from calculators.planning.lines import add_lines, read_part_line, write_part_line
from calculators.planning.lines.offering import offered_lines
from calculators.planning.lines.writing_parts import same_size
from calculators.planning.model import Build, Size
from calculators.quantities.errors import InputError
from tests.planning.lines.cast_of_lines import EMPTY, block, inch, mm, rod

INCH = Build("B2", "Chest", unit="in")


@pytest.mark.parametrize(
    ("line", "name", "quantity"),
    [
        ("Case sides (2) mahogany 400 x 150 x 19", "Case sides", 2),
        ("pillars x4 brass 10mm dia x 42 long", "pillars", 4),
        ("door stiles x 2 mahogany 380 x 30 x 19", "door stiles", 2),
        ("movement plates 2no. brass 110 x 75 x 3", "movement plates", 2),
        ("Till sides 2 @ 80 x 30 x 9 poplar", "Till sides", 2),
        ("feet (four) ebony 25 dia x 20", "feet", 4),
        ("battens, oak, three, 300 long 50 wide 25 thick", "battens", 3),
        ("strap hinges, 100 x 30 x 3, brass, pair", "strap hinges", 2),
        ("pr of butt hinges, brass, bought", "butt hinges", 2),
    ],
)
def test_a_count_is_found_where_people_write_it(line: str, name: str, quantity: int) -> None:
    part = read_part_line(line, EMPTY)
    assert (part.name, part.quantity) == (name, quantity)


@pytest.mark.parametrize(
    "line",
    ["winding key steel 4 sq x 40", "guide rod 20 dia x 40 steel", "studding x 90 steel", "strip x 20 mm"],
)
def test_a_length_behind_x_is_no_count(line: str) -> None:
    assert read_part_line(line, EMPTY).quantity == 1


@pytest.mark.parametrize(
    ("line", "build", "size"),
    [
        ("skids - 2 x 4 x 24 pine", INCH, Size("block", inch("24"), inch("4"), inch("2"))),
        ("till bottom 1/4 x 8 x 12 cedar", INCH, Size("block", inch("12"), inch("8"), inch("1/4"))),
        ("bead 8 x 8 x 1500 oak", EMPTY, block(1500, 8, 8)),
        ("Mouldings, 2.4 m of 20 x 20 mahogany", EMPTY, block("2.4 m", 20, 20)),
        ("box 300 x 200 x 400 pine", EMPTY, block(300, 200, 400)),
        ("sides 300 x 120 x 12 oak", EMPTY, block(300, 120, 12)),
        ("bottom, 1/4 plywood 29 x 12", INCH, Size("block", inch("29"), inch("12"), inch("1/4"))),
        ("3/8 ply partition 300 x 200", EMPTY, Size("block", mm("300"), mm("200"), inch("3/8"))),
        ("Ground board 18 mm birch ply 450 dia", EMPTY, rod(450, "18 mm")),
        ("pendulum rod 6mm silver steel 300 lg", EMPTY, rod("6mm", 300)),
        ("tommy bar 12 dia steel rod x 250", EMPTY, rod(12, 250)),
        ("dial, brass sheet 16swg 180 square", EMPTY, block(180, 180, "16swg")),
        ("feet ebony turned 25dia x 20", EMPTY, rod(25, 20)),
    ],
)
def test_sizes_are_what_a_person_means(line: str, build: Build, size: Size) -> None:
    part = read_part_line(line, build)
    assert part.size == size
    assert same_size(read_part_line(write_part_line(part, build), build).size, size)


def test_a_block_thicker_than_long_is_written_with_its_words() -> None:
    part = read_part_line("pad 10 long x 10 wide x 90 thick oak", EMPTY)
    assert part.size == block(10, 10, 90)
    assert read_part_line(write_part_line(part, EMPTY), EMPTY) == part


@pytest.mark.parametrize(
    ("line", "near"),
    [("2x rails 180 x 30 x 19, mahogony", "mahogany"), ("Base, 18mm plywod 600 x 300", "plywood")],
)
def test_a_misspelt_material_is_asked_back_and_its_choice_reads(line: str, near: str) -> None:
    read = add_lines("part", line, EMPTY)
    asked = offered_lines("part", read.unread, EMPTY)[0]
    assert f"Did you mean {near}?" in asked.says[0]
    assert read_part_line(asked.choices[0], EMPTY).material == near


def test_a_name_in_quotes_is_no_slip_of_the_pen() -> None:
    assert read_part_line('"Alumina" 20 x 20 x 5', EMPTY).name == "Alumina"


@pytest.mark.parametrize("line", ["brass angle 25 x 25 x 3 x 200", "square tube 50x50x3 mild steel 600 long"])
def test_a_section_is_offered_with_its_sizes_in_its_name(line: str) -> None:
    with pytest.raises(InputError) as refused:
        read_part_line(line, EMPTY)
    choice = read_part_line(refused.value.faults[0].choices[0], EMPTY)
    assert choice.size.length is not None
    assert choice.size.width is None
    assert "x" in choice.name
    assert choice.material in ("brass", "mild steel")


def test_brackets_round_the_material_leave_nothing_in_the_name() -> None:
    assert read_part_line("lid 31 x 14 x 3 (walnut)", EMPTY).name == "lid"


@pytest.mark.parametrize("bullet", ["- ", "• ", "* ", "– "])
def test_a_list_with_bullets_is_read(bullet: str) -> None:
    part = read_part_line(f"{bullet}4 sides 300 x 120 x 12 oak", EMPTY)
    assert (part.name, part.quantity) == ("sides", 4)


def test_a_count_below_nought_is_refused() -> None:
    read = add_lines("part", "-3 rails 300 x 20 x 10", EMPTY)
    assert read.unread[0].says == ("'-3' is no count; write 3.",)
    assert offered_lines("part", read.unread, EMPTY)[0].choices == ("3 rails 300 x 20 x 10",)
