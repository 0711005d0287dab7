"""Schedules as CSV: headings with units, plain numbers, and no cell that a spreadsheet would run."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.planning.model import Build, Component, Size
from calculators.planning.schedules import cut_list, schedule_csv
from calculators.planning.schedules.cutting import CutLine
from calculators.planning.schedules.spreadsheet import cell
from calculators.quantities import Length, read_length


@dataclass(frozen=True, slots=True)
class Row:
    mark: str
    u_mm: float | None
    torque_nm: Decimal | None
    thickness: Length | None
    issued: date | None
    used: tuple[str, ...]
    made: bool


def test_a_row_is_written_with_units_dot_decimals_and_iso_dates() -> None:
    rows = [
        Row(
            "P1", 12.50, Decimal("2.50"), read_length("3/8 in"), date(2024, 3, 31), ("F1 (2)", "F2 (1)"), True
        ),
        Row("Ø, 2", None, None, None, None, (), False),
    ]
    assert schedule_csv(Row, rows) == (
        "mark,u [mm],torque [N m],thickness [mm],issued,used,made\r\n"
        "P1,12.5,2.5,9.525,2024-03-31,F1 (2); F2 (1),yes\r\n"
        '"Ø, 2",,,,,,no\r\n'
    )


@pytest.mark.parametrize("text", ["=1+1", "+44", "-cmd", "@SUM(A1)", "\tx", "\rx", "\nx", "  =1", " \t=1"])
def test_what_a_spreadsheet_would_run_has_an_apostrophe(text: str) -> None:
    """The signs named by the usual advice on CSV injection (common practice)."""
    assert cell(text) == f"'{text}"
    assert cell((text, "x")).startswith("'")


@pytest.mark.parametrize(("value", "text"), [(-3.25, "-3.25"), (-1, "-1"), (1e-9, "0"), (0.1 + 0.2, "0.3"), (1e6, "1000000"), (Length(-5), "-0.0000005")])  # fmt: skip
def test_numbers_are_plain(value: object, text: str) -> None:
    assert cell(value) == text


@given(st.text())
def test_any_text_comes_back_from_a_reader_and_never_starts_a_formula(text: str) -> None:
    row = Row(text, None, None, None, None, (), False)
    out = schedule_csv(Row, [row])
    (found,) = list(csv.DictReader(io.StringIO(out, newline="")))
    assert found["mark"] in (text, f"'{text}")
    assert not found["mark"].lstrip(" ").startswith(("=", "+", "-", "@", "\t", "\r", "\n"))


def test_the_cut_list_as_csv_has_a_heading_for_each_size() -> None:
    leg = Component(
        "P1",
        "Leg",
        material="oak",
        stock="board",
        size=Size("block", read_length("16 in"), read_length("40"), read_length("20")),
    )
    heading, line = schedule_csv(CutLine, cut_list(Build("B", "t", components=(leg,)))).splitlines()
    found = dict(zip(heading.split(","), next(csv.reader([line])), strict=True))
    assert (found["length [mm]"], found["width [mm]"], found["rough length [mm]"], found["quantity"]) == (
        "406.4",
        "40",
        "418.4",
        "1",
    )
