"""What a sentence offers is offered as a whole line, which is read or at least gets farther; nothing is lost."""

from __future__ import annotations

import pytest

from calculators.planning.lines import add_lines
from calculators.planning.lines.model import Kind, Unread
from calculators.planning.lines.offering import MOST_LINES, offered_lines
from calculators.planning.model import Build, Component

PARTS = (Component("P05", "Lid rail, long"), Component("P06", "Lid rail, short"), Component("P07", "Hinge leaf", material="brass"),
         Component("P08", "Side", material="oak"))  # fmt: skip
BUILD = Build("B1", "Box", components=PARTS)


def offered(kind: Kind, line: str) -> tuple[str, ...]:
    unread = add_lines(kind, line, BUILD).unread
    assert unread, line
    return offered_lines(kind, unread, BUILD)[0].choices


def test_a_part_that_could_be_either_is_put_in_its_place() -> None:
    line = "No. 8 x 1 csk brass: lid rail into side"
    assert offered("joint", line) == (
        "No. 8 x 1 csk brass: P05 into side",
        "No. 8 x 1 csk brass: P06 into side",
    )


@pytest.mark.parametrize(
    ("kind", "line"),
    [
        ("joint", "M3 x 8 csk steel: hinge leef into side"), ("joint", "No. 8 x 1 csk brass: lid into sied"),
        ("joint", "5/16 BFS x 2 hex: side into hinge"), ("part", "2 legs 400 x 30 x 1,200 oak"), ("pose", "lid on side at 0,0"),
        ("step", "Fit lid rail: fits P05, P99"), ("joint", "M3 x 8/0: hinge into side"),
    ],
)  # fmt: skip
def test_every_line_that_is_offered_is_read_or_gets_farther(kind: Kind, line: str) -> None:
    said = add_lines(kind, line, BUILD).unread
    for choice in offered_lines(kind, said, BUILD)[0].choices if said else ():
        again = add_lines(kind, choice, BUILD).unread
        assert not again or set(again[0].says).isdisjoint(said[0].says), choice


def test_a_choice_that_leads_nowhere_is_left_out_and_its_sentence_stays() -> None:
    asked = Unread(3, "nonsense", ("This is 'nothing'.",), ("P05",))
    assert offered_lines("joint", (asked,), BUILD) == (Unread(3, "nonsense", ("This is 'nothing'.",), ()),)


def test_hundreds_of_lines_are_not_all_tried() -> None:
    many = add_lines("joint", "\n".join(["No. 8 x 1 csk brass: lid rail into side"] * 60), BUILD).unread
    found = offered_lines("joint", many, BUILD)
    assert len(found) == 60
    assert [bool(each.choices) for each in found] == [True] * MOST_LINES + [False] * (60 - MOST_LINES)
