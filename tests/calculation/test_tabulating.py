"""Lists of like things as tables: which are one, what stands in their cells, and in which units."""

from __future__ import annotations

import pytest

from calculators.calculation import Result, Value
from calculators.calculation.both_systems import shown_results
from calculators.calculation.tabulating import MOST_COLUMNS, MOST_ROWS, Table, member_unit, table_of


def write(value: float, unit: str) -> tuple[str, str]:
    return f"{value:g} {unit}".rstrip(), f"{value / 25.4:.2f} in" if unit == "mm" else ""


def table(things: object, unit: str = "mm") -> Table:
    found = table_of(things, unit, write)  # type: ignore[arg-type]
    assert found is not None
    return found


def texts(found: Table) -> list[list[str]]:
    return [[cell.metric for cell in row] for row in found.rows]


def test_a_column_for_each_member_with_what_it_is_called_first() -> None:
    found = table(
        [{"x": 25.4, "name": "a", "count": 2}, {"x": 50.8, "name": "b", "count": None, "note": "turned"}]
    )
    assert [column.label for column in found.columns] == ["name", "x", "count", "note"]
    assert texts(found) == [["a", "25.4 mm", "2", ""], ["b", "50.8 mm", "", "turned"]]
    assert found.rows[0][1].inches == "1.00 in"
    assert [column.is_number for column in found.columns] == [False, True, True, False]


@pytest.mark.parametrize(
    "value",
    [
        [], "text", 5, None, [1, 2], ["a"], [{}], [{"a": None}], [{"a": 1}, 2], [{"a": {"b": 1}}], [{"a": [[1]]}],
        [{f"m{n}": n for n in range(MOST_COLUMNS + 1)}],
        # Less than half of the cells would hold something.
        [{"a": 1}, {"b": 1}, {"c": 1}],
    ],
)  # fmt: skip
def test_what_is_no_table_is_set_out_line_by_line(value: object) -> None:
    assert table_of(value, "mm", write) is None  # type: ignore[arg-type]


def test_lists_within_a_row_are_one_cell() -> None:
    found = table(
        [
            {
                "stock": "2.4 m",
                "cuts": [{"name": "rail", "length": 25.4}] * 2 + [{"name": "leg", "length": 50.8}],
                "at": [1, 2],
            }
        ]
    )
    assert texts(found) == [["2.4 m", "2 x rail 25.4 mm, leg 50.8 mm", "1 mm, 2 mm"]]
    assert found.rows[0][1].inches == "2 x rail 1.00 in, leg 2.00 in"


def test_long_words_stand_beneath_their_row_and_truths_are_words() -> None:
    found = table(
        [
            {"name": "a", "fits": True, "why": "because it is a little larger than the hole"},
            {"name": "b", "fits": False, "why": ""},
        ]
    )
    assert [column.label for column in found.short] == ["name", "fits"]
    (row, beneath), (_, nothing) = found.cells
    assert [cell.metric for cell, _ in row] == ["a", "yes"]
    assert [(cell.metric, column.label) for cell, column in beneath] == [
        ("because it is a little larger than the hole", "why")
    ]
    assert nothing == ()


@pytest.mark.parametrize(
    ("key", "unit", "expected"),
    [
        ("x", "mm", "mm"), ("mean_diameter", "mm", "mm"), ("angle", "mm", "deg"), ("first_angle", "N", "deg"),
        ("waste_percent", "mm", "%"), ("times", "mm", ""), ("score", "mm", ""), ("turns", "mm", ""),
        # By the nomenclature: a mass is in kilograms whatever stands beside it.
        ("mass", "mm", "kg"), ("stress", "mm", "MPa"),
    ],
)  # fmt: skip
def test_the_unit_of_a_member(key: str, unit: str, expected: str) -> None:
    assert member_unit(key, unit) == expected


def test_more_rows_than_are_shown_are_counted() -> None:
    found = table([{"x": n} for n in range(MOST_ROWS + 7)])
    assert (len(found.rows), found.more) == (MOST_ROWS, 7)


def test_a_page_is_given_the_table_and_short_lists_of_words_on_one_line() -> None:
    result = Result({"positions": Value([{"x": 25.4, "y": 0.0}], "mm"), "possible": Value(["M5", "2 BA"])})
    positions, possible = shown_results(result)
    assert positions.table is not None
    assert positions.table.rows[0][0].inches == "1 in"
    assert [line.metric for line in possible.lines] == ["M5, 2 BA"]


def test_places_are_numbered_and_a_list_of_few_figures_keeps_its_columns_on_a_narrow_page() -> None:
    places = table([{"x": 1, "y": 2, "angle": 3}, {"x": 4, "y": 5, "angle": 6}])
    assert places.is_numbered
    assert places.is_narrow
    assert not table([{"x": 1, "y": 2}]).is_numbered
    assert not table([{"name": "a", "x": 2}, {"name": "b", "x": 2}]).is_numbered
    assert not table([{"a": 1, "b": 2, "c": 3, "d": 4}]).is_narrow
    assert not table([{"name": "a", "reason": "long " * 20}]).is_narrow


def test_what_only_programs_need_is_no_column() -> None:
    found = table([{"part": "base", "layer": 0, "share_percent": 5.0}])
    assert [column.label for column in found.columns] == ["part", "share"]
    assert texts(found) == [["base", "5 %"]]


def test_a_length_in_a_table_stands_to_the_micrometre() -> None:
    lengths = Result({"places": Value([{"x": 67.24693}, {"x": 12345.6789}, {"x": 0.0012345}], "mm")})
    (shown,) = shown_results(lengths)
    assert shown.table is not None
    assert texts(shown.table) == [["67.247 mm"], ["12345.679 mm"], ["0.0012 mm"]]
