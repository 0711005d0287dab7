"""Lines that are made to be slow to read: what a person can send is read in a second or so, whatever it is.

The time is the processor's own, so that other work on the machine does not count.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from contextlib import suppress
from typing import get_args

import pytest

from calculators.planning.lines import Kind, add_lines, read_place_lines
from calculators.planning.model import Build, Component
from calculators.quantities.errors import InputError

BUILD = Build("B-1", "Box", components=tuple(Component(f"P{n:03}", f"part {n}") for n in range(300)))
PIECES = (
    "0", "0 ", "1 ", "1-", "1/", "1,", "1:", "1x", "1 x ", "1/2 ", "1 1/2 ", "0.", "-", " ", "a", "a1", "é",
    "“", "” ", "“a”", '"', '"a ', "'", "1' ", "(", ",", ", ", ";", "; ", ":", "#", "# ", "/", "\t", "1mm ",
    "in ", "on the ", "on top of ", "in P001 ", "P001 ", "P001,", "M5 ", "M5 x ", "No. ", "at ", "row ", "grid ",
    "circle ", "from ", "10,10 ", "10,10; ", "corner ", "radius ", "deep ", "tapped ", "clear ", "through ",
    "countersunk ", "thread ", "brass ", "hole ", "nut ", "then ", "before ", "after ", "fits ",
)  # fmt: skip


def seconds(read: Callable[[], object]) -> float:
    start = time.process_time()
    with suppress(InputError):
        read()
    return time.process_time() - start


@pytest.mark.parametrize("kind", get_args(Kind))
def test_one_line_of_one_piece_over_and_over_takes_less_than_a_second(kind: Kind) -> None:
    for piece in PIECES:
        for length in (990, 60_000):
            line = (piece * (length // len(piece) + 1))[:length]
            took = seconds(lambda line=line: add_lines(kind, line, BUILD, part="P001", face="top"))
            assert took < 1, (piece, length, took)


@pytest.mark.parametrize(("kind", "piece"), [("hole", "0"), ("part", "1x"), ("part", "in "), ("joint", "“")])
def test_as_many_such_lines_as_are_read_at_once_take_a_few(kind: Kind, piece: str) -> None:
    line = (piece * 990)[:990]
    took = seconds(lambda: add_lines(kind, "\n".join([line] * 200), BUILD, part="P001", face="top"))
    assert took < 10, took


def test_places_take_about_a_second() -> None:
    for piece in ("“", "0", "1-", "-", "(", "'", "10,10; ", "at ", "1/2 "):
        text = (piece * 60_000)[:60_000]
        took = seconds(lambda text=text: read_place_lines(text, BUILD, "P001", "top"))
        assert took < 2, (piece, took)


def test_quotes_that_close_and_one_that_does_not_are_still_told_apart() -> None:
    read = add_lines("part", "P401 “a “lid” of oak 20 x 30 x 4", BUILD)
    assert [one.name for one in read.build.components if one.mark == "P401"] == ["a “lid"]
