"""Joints as a notebook page has them: names with nothing before them, dashes, American abbreviations, no screw."""

from __future__ import annotations

import pytest

from calculators.planning.lines import add_lines, read_joint_line
from calculators.planning.lines.offering import offered_lines
from tests.planning.lines.cast_of_lines import BOX


@pytest.mark.parametrize(
    ("line", "fastener", "parts"),
    [
        ('No 4 x 1/2" brass countersunk hinge to rail', "No. 4 x 1/2 csk brass", ["P04", "P07"]),
        ("M8 studding plate to base", "M8 stud", ["P06", "P02"]),
        ("1/4 BSF x 1 hex bolt - plate to pillar", "1/4 BSF x 1 hex bolt", ["P06", "P10"]),
        ("8-32 x 3/4 FHMS plate to base", "8-32 UNC x 3/4 csk", ["P06", "P02"]),
        ("M6x20 button heads, plate to rail", "M6 x 20 button", ["P06", "P07"]),
        ("No.8 x 32mm countersunk twinthread, base to rail", "No. 8 x 32 mm csk", ["P02", "P07"]),
    ],
)
def test_a_joint_reads_as_it_was_jotted_down(line: str, fastener: str, parts: list[str]) -> None:
    joint = read_joint_line(line, BOX)
    assert (joint.fastener, [member.part for member in joint.stack]) == (fastener, parts)


def test_with_is_read_in_short() -> None:
    joint = read_joint_line("M5 machine screw, base to rail w/ nyloc", BOX)
    assert joint.stack[-1].item == "M5 stiff nut"


def test_a_line_that_begins_with_a_numbered_screw_is_no_remark() -> None:
    read = add_lines("joint", "#8 x 1 1/4 wood screws, base to rail\n# the other side later", BOX)
    assert (len(read.added), read.unread) == (1, ())
    assert read.build.joints[-1].fastener == "No. 8 x 1 1/4 wood screw"


@pytest.mark.parametrize(
    "line", ["glue sides to base", "panel pins 20mm, base to sides", "dowels 8 x 40 between sides and base"]
)
def test_what_holds_without_a_thread_is_sent_to_the_order(line: str) -> None:
    unread = add_lines("joint", line, BOX).unread[0]
    assert len(unread.says) == 1
    assert "write it as a step of the order" in unread.says[0]


@pytest.mark.parametrize(
    ("line", "choices"),
    [
        (
            "5/16 BSF set screw 1 1/4 long through plate into pillar",
            (
                "5/16 BSF x 1 1/4 grub screw through plate into pillar",
                "5/16 BSF x 1 1/4 hex set screw through plate into pillar",
            ),
        ),
        (
            "4 No 6 screws, base to rail",
            (
                "4 No. 6 wood screw, base to rail",
                "4 6-32 UNC screw, base to rail",
                "4 6-40 UNF screw, base to rail",
            ),
        ),
        ("M5 x 10 csk, plate into base, 4", ("M5 x 10 csk, plate into base, 4 off",)),
        ("No 6 x 3/4 brass csk, catch to base, 6", ("No 6 x 3/4 brass csk, catch to base, 6 off",)),
        ("10 brass screws for the base", ()),
    ],
)
def test_the_choices_are_lines_that_a_person_would_write(line: str, choices: tuple[str, ...]) -> None:
    unread = add_lines("joint", line, BOX).unread
    assert offered_lines("joint", unread, BOX)[0].choices == choices


def test_a_screw_that_there_is_not_is_said_and_not_the_parts_name() -> None:
    unread = add_lines("joint", "No 99 x 2 csk plate to base", BOX).unread[0]
    assert "99" in unread.says[0]
    assert "plate" not in " ".join(unread.says)
