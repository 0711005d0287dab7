"""Lines that are made to be slow to read: whatever a person can send is read in some twenty yardsticks."""

from __future__ import annotations

from typing import get_args

import pytest

from calculators.planning.lines import Kind, add_lines, read_place_lines
from calculators.planning.model import Build, Component
from tests.benchmarks.yardstick import yardsticks

BUILD = Build("B-1", "Box", components=tuple(Component(f"P{n:03}", f"part {n}") for n in range(300)))
PIECES = (
    "0", "0 ", "1 ", "1-", "1/", "1,", "1:", "1x", "1 x ", "1/2 ", "1 1/2 ", "0.", "-", " ", "a", "a1", "é",
    "“", "” ", "“a”", '"', '"a ', "'", "1' ", "(", ",", ", ", ";", "; ", ":", "#", "# ", "/", "\t", "1mm ",
    "in ", "on the ", "on top of ", "in P001 ", "P001 ", "P001,", "M5 ", "M5 x ", "No. ", "at ", "row ", "grid ",
    "circle ", "from ", "10,10 ", "10,10; ", "corner ", "radius ", "deep ", "tapped ", "clear ", "through ",
    "countersunk ", "thread ", "brass ", "hole ", "nut ", "then ", "before ", "after ", "fits ",
)  # fmt: skip


@pytest.mark.parametrize("kind", get_args(Kind))
def test_one_line_of_one_piece_over_and_over_takes_no_long_time(kind: Kind) -> None:
    for piece in PIECES:
        for length in (990, 60_000):
            line = (piece * (length // len(piece) + 1))[:length]
            took = yardsticks(lambda line=line: add_lines(kind, line, BUILD, part="P001", face="top"))
            assert took < 20, (piece, length, took)


@pytest.mark.parametrize(("kind", "piece"), [("hole", "0"), ("part", "1x"), ("part", "in "), ("joint", "“")])
def test_as_many_such_lines_as_are_read_at_once_take_a_few(kind: Kind, piece: str) -> None:
    line = (piece * 990)[:990]
    took = yardsticks(lambda: add_lines(kind, "\n".join([line] * 200), BUILD, part="P001", face="top"))
    assert took < 200, took


def test_places_take_no_long_time() -> None:
    for piece in ("“", "0", "1-", "-", "(", "'", "10,10; ", "at ", "1/2 "):
        text = (piece * 60_000)[:60_000]
        took = yardsticks(lambda text=text: read_place_lines(text, BUILD, "P001", "top"))
        assert took < 40, (piece, took)


def test_quotes_that_close_and_one_that_does_not_are_still_told_apart() -> None:
    read = add_lines("part", "P401 “a “lid” of oak 20 x 30 x 4", BUILD)
    assert [one.name for one in read.build.components if one.mark == "P401"] == ["a “lid"]
