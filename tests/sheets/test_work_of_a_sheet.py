"""What making a large drilling sheet comes to, counted: each thing once, and all but the printing is little.

`python -m tests.benchmarks.sheets` measures it against the printer.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Callable
from typing import Any

import pytest

from buildlog.sheets import making, stamping
from buildlog.sheets.making import make_sheet
from calculators.planning.facts import sheets
from calculators.planning.inspection import inspect_build
from tests.benchmarks.large import large_build


def test_each_plan_is_drawn_once_the_holes_listed_twice_and_the_printer_called_once(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The schedule is made for the sheet and for its facts; 40 parts, of which 32 have holes on some faces."""
    done: Counter[str] = Counter()

    def counting(where: Any, name: str) -> None:
        honest = getattr(where, name)

        def call(*given: Any, **named: Any) -> Any:
            done[name] += 1
            return honest(*given, **named)

        monkeypatch.setattr(where, name, call)

    worked = inspect_build(large_build(0.08))
    assert len(worked.build.components) == 40
    faces = {(one.part, one.face) for one in worked.holes if one.u_mm is not None}
    counting(making, "plan_of")
    counting(making, "hole_schedule")
    counting(sheets, "hole_schedule")
    counting(stamping, "square_code")
    monkeypatch.setattr(making, "print_pdf", lambda html: done.update(["print_pdf"]) or html.encode())
    for _ in range(3):
        done.clear()
        make_sheet("drilling", worked, address="https://oddleg.example")
        assert done["plan_of"] == len(faces)
        assert done["hole_schedule"] <= 2
        assert (done["square_code"], done["print_pdf"]) == (1, 1)
    assert done["hole_schedule"] == 1  # its facts are known from the first time


def calls_of(what: Callable[[], object]) -> int:
    """How many functions something calls, in Python and beneath it."""
    count = 0

    def called(frame: object, event: str, argument: object) -> None:
        nonlocal count
        count += event in ("call", "c_call")

    before = sys.getprofile()
    sys.setprofile(called)
    try:
        what()
    finally:
        sys.setprofile(before)
    return count


def test_all_that_is_not_printing_is_less_than_half_of_the_printing() -> None:
    """By the calls of functions, which no other work on the machine changes; a small sheet, to be quick."""
    worked = inspect_build(large_build(0.02))
    given = {"component": worked.build.components[1].mark, "address": "https://oddleg.example"}
    making.sheet_html("drilling", worked, **given)  # templates are read once
    again = inspect_build(worked.build)
    html = ""

    def write() -> None:
        nonlocal html
        html = making.sheet_html("drilling", again, **given)

    writing = calls_of(write)
    assert calls_of(lambda: making.print_pdf(html)) > 2 * writing > 1000
