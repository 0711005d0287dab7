"""The rows of results, which are set in Python: what stands in them is escaped, whoever wrote it."""

import pytest

from buildlog.bench.templatetags.listed import given_rows, listed_rows, plain_rows
from buildlog.bench.templatetags.typeset import formula, units
from calculators.calculation.both_systems import Line, Shown
from calculators.calculation.tabulating import Cell, Column, Table

HOSTILE = '<script>alert(1)</script> & "x_<b>^<i>"'
LINES = (Line(HOSTILE, HOSTILE, HOSTILE), Line("", HOSTILE), Line("", HOSTILE, HOSTILE))
TABLE = Table(
    (Column(HOSTILE), Column("size", is_number=True), Column(HOSTILE, is_long=True)),
    ((Cell(HOSTILE, HOSTILE), Cell(HOSTILE), Cell(HOSTILE, HOSTILE)), (Cell("a"), Cell("1"), Cell("b"))),
)


@pytest.mark.parametrize("html", [
    plain_rows([Shown("n", HOSTILE, HOSTILE, LINES)]), plain_rows([Shown("n", HOSTILE, HOSTILE, LINES[:1])]),
    *(listed_rows({"units": shown}, TABLE) for shown in ("mm", "in", "both")),
    given_rows(LINES), units(HOSTILE), formula(HOSTILE),
])  # fmt: skip
def test_what_stands_in_a_row_is_escaped(html):
    assert "&lt;script&gt;" in html
    assert not any(tag in html for tag in ("<script", "<b>", "<i>", '"x_'))


def test_a_person_who_reads_one_system_gets_that_one():
    table = Table((Column("size", is_number=True),), ((Cell("25.4 mm", "1 in"),),))
    assert "25.4 mm" in listed_rows({"units": "mm"}, table)
    assert "1 in" not in listed_rows({"units": "mm"}, table)
    assert "1 in" in listed_rows({"units": "in"}, table)
    assert "25.4" not in listed_rows({"units": "in"}, table)
    assert "25.4 mm" in listed_rows({"units": "both"}, table)
    assert "1 in" in listed_rows({"units": "both"}, table)


def test_a_result_without_lines_says_none():
    assert '<td colspan="3">none</td>' in plain_rows([Shown("n", "holes", "", ())])
