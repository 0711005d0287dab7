"""Where somebody left off."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given

from calculators.planning.model import AssemblyStep, Build, Component, Entry, Joint, State
from calculators.planning.resuming import last_word, resume
from tests.planning.strategies import builds

STEPS = (
    AssemblyStep(1, "Cut", ()),
    AssemblyStep(2, "Sides", ("P1", "P2.1")),
    AssemblyStep(3, "Screws", ("F1",)),
    AssemblyStep(4, "Lid", ("P3", "F2"), closes=("F1", "P1")),
    AssemblyStep(5, "Wax"),
)
JOINTS = (Joint("F1", "Sides", "M5 x 20 csk"), Joint("F2", "Lid", "M5 x 20 csk"))


def box(*states: State) -> Build:
    parts = tuple(Component(f"P{i}", f"part {i}", state=state) for i, state in enumerate(states, 1))
    return Build("B1", "Box", components=parts, joints=JOINTS, steps=STEPS)


@pytest.mark.parametrize(
    ("states", "done", "step"),
    [
        (("planned", "planned", "planned"), 0, 1),
        (("fitted", "made", "planned"), 1, 2),
        (("fitted", "fitted", "planned"), 2, 3),
        (("fitted", "fitted", "fitted"), 4, 5),
        (("planned", "planned", "fitted"), 1, 2),
        (("made", "fitted", "fitted"), 1, 2),
    ],
)
def test_the_next_step_is_the_first_that_is_not_done(states: tuple[State, ...], done: int, step: int) -> None:
    found = resume(box(*states))
    assert found.step is not None
    assert (found.done, found.step.number, found.steps) == (done, step, 5)


def test_what_is_closed_next_is_told_with_the_step_that_fits_it() -> None:
    build = box("fitted", "fitted", "planned")
    after = replace(build, steps=(*STEPS[:2], *STEPS[3:]))
    found = resume(after)
    assert found.step is not None
    assert found.step.title == "Lid"
    assert [(one.mark, one.fitted_in) for one in found.closing] == [("F1", None), ("P1", 2)]


def test_when_all_is_done_or_there_are_no_steps_nothing_is_next() -> None:
    build = box("fitted", "fitted", "fitted")
    assert resume(replace(build, steps=STEPS[:4])).step is None
    assert resume(replace(build, steps=())) == resume(replace(build, steps=(), joints=()))
    assert resume(replace(build, steps=())).step is None


def test_what_is_on_order_waits() -> None:
    assert [one.mark for one in resume(box("bought", "in hand", "bought")).waiting] == ["P1", "P3"]


def test_the_last_word_is_that_of_the_latest_day_that_has_one() -> None:
    def entry(day: int, word: str, name: str) -> Entry:
        return Entry(name, date(2025, 3, day), "x", next_time=word)

    entries = (
        entry(4, "Glue the lid", "a"),
        entry(2, "Cut", "b"),
        entry(4, "Wax the lid", "c"),
        entry(9, "", "d"),
    )
    found = last_word(entries)
    assert found is not None
    assert found.id == "c"
    assert last_word(entries[3:]) is None


@given(builds())
def test_any_build_can_be_resumed(build: Build) -> None:
    found = resume(build)
    assert 0 <= found.done <= found.steps == len(build.steps)
    assert (found.step is None) <= (found.done == found.steps)
