"""The pages of the published tables: opened, sorted, filtered, paged, taken as CSV."""

from __future__ import annotations

import csv
import io
import re
from decimal import Decimal

import pytest
from django.test import Client
from django.urls import reverse
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.tables import load, names

pytestmark = pytest.mark.database


def page_of(client: Client, address: str, status: int = 200) -> str:
    response = client.get(address)
    assert response.status_code == status
    return response.content.decode()


def rows_of(client: Client, name: str, query: str = "") -> list[dict[str, str]]:
    """The rows of a table as its CSV has them."""
    response = client.get(f"/bench/tables/{name}/?format=csv{query}")
    assert response["Content-Type"] == "text/csv; charset=utf-8"
    return list(csv.DictReader(io.StringIO(response.content.decode())))


def test_the_list_names_every_table_with_its_standards(client: Client, django_assert_num_queries) -> None:
    with django_assert_num_queries(0):
        page = page_of(client, "/bench/tables/")
    for name in names():
        assert f'href="/bench/tables/{name}/"' in page
    assert "ISO 273 (fine, medium, coarse series)" in page
    assert "(memory)" in page


@pytest.mark.parametrize("name", names())
def test_every_table_opens_with_all_columns_and_says_how_sure_it_is(
    name: str, client: Client, django_assert_num_queries
) -> None:
    table = load(name)
    with django_assert_num_queries(0):
        page = page_of(client, f"/bench/tables/{name}/")
    assert page.count("<tr data-row>") == min(100, len(table.rows))
    assert page.count('class="sort"') == len(table.columns)
    assert page.count('id="source-') == len(table.sources)
    confidences = {source.confidence for source in table.sources.values()}
    assert ("(from memory)" in page) == ("memory" in confidences)
    assert f"of {len(table.rows)} rows" in page


@pytest.mark.parametrize("name", names())
def test_every_column_sorts_both_ways_with_the_empty_cells_last(name: str, client: Client) -> None:
    table = load(name)
    for column in table.columns:
        page = page_of(client, f"/bench/tables/{name}/?sort={column}")
        assert page.count('aria-sort="ascending"') == 1
        assert page_of(client, f"/bench/tables/{name}/?sort=-{column}").count('aria-sort="descending"') == 1
    for column, unit in table.units.items():
        heading = column.replace("_", " ") + (f" [{unit}]" if unit != "1" else "")
        for sign, way in (("", False), ("-", True)):
            cells = [row[heading] for row in rows_of(client, name, f"&sort={sign}{column}")]
            full = [Decimal(cell) for cell in cells if cell]
            assert full == sorted(full, reverse=way)
            assert all(cells[: len(full)])


def test_designations_sort_by_their_numbers(client: Client) -> None:
    found = [row["designation"] for row in rows_of(client, "threads", "&sort=designation")]
    coarse = [each for each in found if re.fullmatch(r"M\d+", each)]
    assert coarse == sorted(coarse, key=lambda each: int(each[1:]))
    assert len(coarse) > 10


def test_a_column_that_is_not_there_is_refused_in_a_sentence_and_the_table_still_shown(
    client: Client,
) -> None:
    page = page_of(client, "/bench/tables/cutters/?sort=diamter", 422)
    assert "There is no column &#x27;diamter&#x27;; the columns are name, series, diameter, source." in page
    assert "<tr data-row>" in page


def test_filtering_keeps_rows_that_hold_every_word(client: Client) -> None:
    assert [row["designation"] for row in rows_of(client, "threads", "&q=5/16+bsf")] == ["5/16 BSF"]
    page = page_of(client, "/bench/tables/threads/?q=5/16+bsf")
    assert "1 of " in page
    assert 'value="5/16 bsf"' in page
    assert "No row holds all of these words." in page_of(client, "/bench/tables/threads/?q=nothing")


def test_a_long_table_is_paged_by_a_hundred_and_the_pages_together_are_the_table(client: Client) -> None:
    table = load("threads")
    seen = []
    for number in range(1, -(-len(table.rows) // 100) + 1):
        page = page_of(client, f"/bench/tables/threads/?sort=designation&page={number}")
        assert 'aria-label="Pages"' in page
        seen += re.findall(r'<tr data-row><td data-head="designation:">(.*?)</td>', page)
    assert len(seen) == len(set(seen)) == len(table.rows)
    for strange in ("0", "-1", "99", "x", "1e9"):
        assert client.get(f"/bench/tables/threads/?page={strange}").status_code == 200


def test_lengths_stand_in_millimetres_and_inches(client: Client) -> None:
    # ASME B94.11M: No. 7 is 0.2010 in; 0.2010 x 25.4 = 5.1054 mm. 1/4 in is 6.35 mm.
    page = page_of(client, "/bench/tables/drills/?q=%237")
    assert '5.1054 mm <span class="other">0.2010 in</span>' in page
    page = page_of(client, "/bench/tables/cutters/?q=1/4")
    assert '6.35 mm <span class="other"><span class="fraction">1/4</span> in</span>' in page


@pytest.mark.parametrize("name", names())
def test_the_csv_is_the_table(name: str, client: Client) -> None:
    table, rows = load(name), rows_of(client, name)
    assert len(rows) == len(table.rows)
    for row, printed in zip(rows, table.rows, strict=True):
        assert list(row)[-2:] == ["source", "how sure"]
        assert row["how sure"] == printed.source.confidence
        cells = list(row.values())[:-2]
        wanted = [printed[column] for column in table.columns if column != "source"]
        assert [cell.removeprefix("'") for cell in cells] == wanted
        assert not any(cell.startswith(("=", "@", "+")) for cell in row.values())
    head = client.get(f"/bench/tables/{name}/?format=csv")["Content-Disposition"]
    assert head == f'attachment; filename="{name}.csv"'


@pytest.mark.parametrize(
    "address", ["/bench/tables/thread/", "/bench/tables/../settings/", "/bench/tables/%00/"]
)
def test_what_is_no_table_is_not_found(address: str, client: Client) -> None:
    assert client.get(address).status_code == 404


@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    name=st.sampled_from(names()),
    query=st.dictionaries(
        st.one_of(st.sampled_from(["q", "sort", "page", "format"]), st.text(max_size=5)),
        st.one_of(
            st.text(max_size=30),
            st.sampled_from(["csv", "-source", "((", "[a", "\\", "1/0", "0/0", "9" * 150]),
        ),
        max_size=4,
    ),
)
def test_no_query_whatever_is_a_failure(name: str, query: dict[str, str], client: Client) -> None:
    assert client.get(f"/bench/tables/{name}/", query).status_code in (200, 422)


def test_lengths_follow_the_units_that_the_reader_has_chosen(client: Client) -> None:
    shown = {}
    for units in ("mm", "in", "both"):
        client.post(reverse("people:units"), {"units": units, "back": "/bench/"})
        page = page_of(client, "/bench/tables/drills/?q=%237")
        shown[units] = ("5.1054 mm" in page, "0.2010 in" in page)
    assert shown == {"mm": (True, False), "in": (False, True), "both": (True, True)}
