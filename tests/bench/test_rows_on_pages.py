"""Rows of fields on a calculator's page: typed, pasted, linked, one more of them, and each fault at its field."""

from __future__ import annotations

import json
import re
from html import unescape
from urllib.parse import parse_qsl, urlencode

import pytest
from django.http import QueryDict
from django.test import Client

from buildlog.bench.rows import MORE, address_of, blanks_asked, given_in, rows_entry
from calculators.calculation import Calculator, Input
from calculators.calculation.answering import answer
from calculators.catalogue import all_calculators, find_calculator
from calculators.quantities.errors import Fault, InputError

pytestmark = pytest.mark.database

WITH_ROWS = [
    each
    for each in all_calculators()
    if any(one.kind == "rows" for one in each.inputs) and not each.own_reader
]
WITH_ROWS_IN_EXAMPLE = [
    each for each in WITH_ROWS if any(each.input(name).kind == "rows" for name in each.example or {})
]
SPRINGS = Input(
    name="springs", help="the springs", kind="rows", minimum=1, maximum=4, members=(
        Input(name="rate", help="its rate", kind="quantity", unit="N/mm", above=0, maximum=1000),
        Input(name="end", help="how it ends", kind="choice", choices=("plain", "hooked"), default="plain"),
        Input(name="fixed", help="whether it is held", kind="flag", default="no"),
    ),
)  # fmt: skip
SAMPLE = Calculator(name="sample", summary="A sample.", inputs=(SPRINGS, Input(name="load", help="a load", kind="number", optional=True)),
                    outputs=(), work=lambda given: None, sources=())  # type: ignore[arg-type,return-value]  # fmt: skip


def given(query: str) -> dict[str, object]:
    return given_in(QueryDict(query), SAMPLE, ("format", MORE))


def page_of(client: Client, address: str, status: int = 200) -> str:
    response = client.get(address)
    assert response.status_code == status, response.content[:1500]
    return response.content.decode()


def test_there_are_calculators_with_rows() -> None:
    assert len(WITH_ROWS) >= 2


@pytest.mark.parametrize(
    ("query", "expected"),
    [
        (
            "springs.0.rate=5&springs.1.rate=8&load=3",
            {"springs": [{"rate": "5"}, {"rate": "8"}], "load": "3"},
        ),
        # An empty row is left out; the order is that of the numbers.
        ("springs.2.rate=8&springs.1.rate=&springs.0.rate=5", {"springs": [{"rate": "5"}, {"rate": "8"}]}),
        ("springs.10.rate=8&springs.9.rate=5", {"springs": [{"rate": "5"}, {"rate": "8"}]}),
        ("springs.0.rate=+&load=+", {}),
        ("springs=5%0A8", {"springs": "5\n8"}),
        ("springs=5&springs.0.rate=8", {"springs": [{"rate": "5"}, {"rate": "8"}]}),
        ("springs.0.rat=5", {"springs": [{"rat": "5"}]}),
        ("load.0.rate=5&sprnigs.0.rate=3", {"load.0.rate": "5", "sprnigs.0.rate": "3"}),
        ("one-more=springs&format=json", {}),
    ],
)
def test_an_address_carries_rows(query: str, expected: dict[str, object]) -> None:
    assert given(query) == expected


@pytest.mark.parametrize(
    "inputs",
    [
        {"springs": [{"rate": "5 N/mm", "end": "hooked"}, {"rate": "8 ± 1"}], "load": "3"},
        {"springs": "5 N/mm, hooked\n8"},
        {"springs": '[{"rate": 5}]', "load": "a&b=c#d"},
    ],
)
def test_an_address_gives_the_same_inputs_again(inputs: dict[str, object]) -> None:
    assert given(address_of(inputs)) == inputs


def test_json_values_stand_in_the_address_as_people_write_them() -> None:
    rows = {"springs": [{"rate": 5, "fixed": True, "end": None}]}
    assert parse_qsl(address_of(rows)) == [("springs.0.rate", "5"), ("springs.0.fixed", "yes")]


@pytest.mark.parametrize(
    ("query", "blanks"),
    [
        ("", 0),
        ("one-more=springs", 1),
        ("one-more=springs&springs.0.rate=5&springs.1.rate=", 3),
        ("one-more=others&springs.0.rate=5", 0),
    ],
)
def test_one_more_row_keeps_those_that_are_there(query: str, blanks: int) -> None:
    assert blanks_asked(QueryDict(query), SPRINGS) == blanks


def test_the_fields_of_an_entry() -> None:
    faults = [
        Fault("Row 2 is wrong.", "springs[1].rate"),
        Fault("No such member.", "springs[0]"),
        Fault("Too many rows.", "springs"),
        Fault("Beyond what is shown.", "springs[9].rate"),
    ]
    entry = rows_entry(SPRINGS, "5 N/mm, hooked\n8", faults, 3)
    assert [row.number for row in entry.rows] == [1, 2, 3]
    assert [cell.value for row in entry.rows for cell in row.cells] == [
        "5 N/mm",
        "hooked",
        "",
        "8",
        "",
        "",
        "",
        "",
        "",
    ]
    assert [cell.name for cell in entry.rows[1].cells] == [
        "springs.1.rate",
        "springs.1.end",
        "springs.1.fixed",
    ]
    assert entry.rows[1].cells[0].faults == ("Row 2 is wrong.",)
    assert entry.rows[0].faults == ("No such member.",)
    assert entry.faults == ("Too many rows.", "Beyond what is shown.")
    assert entry.rows[0].cells[1].choices == (
        ("", "usual: plain"),
        ("plain", "plain"),
        ("hooked", "hooked"),
    )
    assert entry.may_grow
    assert not rows_entry(SPRINGS, "1; 2; 3; 4", ()).may_grow
    assert len(rows_entry(SPRINGS, "1; 2; 3; 4; 5", ()).rows) == 5


@pytest.mark.parametrize("raw", ["[{", '[{"rate": [1]}]', "[5]"])
def test_what_cannot_be_parted_stays_in_a_field_of_its_own(raw: str) -> None:
    entry = rows_entry(SPRINGS, raw, ())
    assert entry.text == raw
    assert [cell.value for row in entry.rows for cell in row.cells] == ["", "", ""]


# ---- the pages themselves


@pytest.mark.parametrize("calculator", WITH_ROWS_IN_EXAMPLE, ids=lambda each: each.name)
def test_the_example_typed_in_fields_answers_as_the_example_does(
    calculator: Calculator, client: Client
) -> None:
    example = dict(calculator.example or {})
    page = page_of(client, f"/bench/{calculator.name}/?{urlencode(example)}")
    fields = dict(re.findall(r'<input id="[^"]*" name="(\w+\.\d+\.\w+)" value="([^"]*)"', page))
    chosen = dict(
        re.findall(
            r'<select id="[^"]*" name="(\w+\.\d+\.\w+)"[^>]*>(?:<option[^>]*>[^<]*</option>)*?<option value="([^"]*)" selected',
            page,
        )
    )
    rows = {name for name in example if calculator.input(name).kind == "rows"}
    assert rows
    typed = {
        **{k: v for k, v in example.items() if k not in rows},
        **{k: unescape(v) for k, v in {**fields, **chosen}.items()},
    }
    from_fields = client.get(f"/bench/{calculator.name}/", {**typed, "format": "json"}).json()
    assert from_fields["results"] == json.loads(
        json.dumps(client.get(f"/bench/{calculator.name}/", {**example, "format": "json"}).json()["results"])
    )
    link = re.search(
        r'href="\?([^"]*)#answer">Link to this',
        page_of(client, f"/bench/{calculator.name}/?{urlencode(typed)}"),
    )
    assert link
    assert (
        client.get(f"/bench/{calculator.name}/?{unescape(link[1])}&format=json").json()["results"]
        == from_fields["results"]
    )


@pytest.mark.parametrize("calculator", WITH_ROWS, ids=lambda each: each.name)
def test_one_more_row_is_shown_without_script_and_nothing_is_worked(
    calculator: Calculator, client: Client
) -> None:
    each = next(one for one in calculator.inputs if one.kind == "rows")
    member = each.members[0].name
    asked = {f"{each.name}.0.{member}": "x1", f"{each.name}.1.{member}": "", MORE: each.name}
    page = page_of(client, f"/bench/{calculator.name}/?{urlencode(asked)}")
    names = re.findall(rf'name="{each.name}\.(\d+)\.{member}"', page)
    assert len(names) == max(3, int(each.minimum or 0))
    assert 'id="answer"' not in page
    assert "Nothing was worked out" not in page
    assert page.index(">Work it out<") < page.index(">One more row<")
    if each.members[0].kind not in ("choice", "flag"):
        assert 'value="x1"' in page


def test_a_fault_stands_beside_its_very_field_and_all_that_was_typed_stays(client: Client) -> None:
    typed = {"pieces.0.name": "side", "pieces.0.count": "4", "pieces.0.length": "800", "pieces.0.width": "wide", "pieces.0.thickness": "27",
             "pieces.3.name": "<b>", "pieces.3.count": "two", "pieces.3.length": "100", "pieces.3.width": "50", "pieces.3.thickness": "20"}  # fmt: skip
    page = page_of(client, f"/bench/timber/?{urlencode(typed)}", 422)
    with pytest.raises(InputError) as told:
        answer(
            find_calculator("timber"), given_in(QueryDict(urlencode(typed)), find_calculator("timber"), ())
        )
    # The empty rows between are left out, so that the fourth has become the second.
    assert {fault.field for fault in told.value.faults} == {"pieces[0].width", "pieces[1].count"}
    for fault, field in zip(told.value.faults, ("pieces-0-width", "pieces-1-count"), strict=True):
        assert re.search(
            rf'id="id_{field}"[^>]*aria-invalid="true" aria-describedby="id_{field}_error"', page
        )
        block = re.search(rf'<div id="id_{field}_error">(.*?)</div>', page, re.DOTALL)
        assert block
        assert fault.says in unescape(re.sub("<[^>]*>", "", block[1]))
    for value in ("wide", "two", "&lt;b&gt;"):
        assert f'value="{value}"' in page
    assert '<a href="#id_pieces">Pieces</a>' in page


def test_rows_that_are_no_rows_are_kept_as_they_were_pasted(client: Client) -> None:
    page = page_of(client, f"/bench/timber/?{urlencode({'pieces': '[{'})}", 422)
    assert re.search(r'<textarea id="id_pieces_text" name="pieces"[^>]*>\[\{</textarea>', page)
    assert "is not JSON" in page


def test_no_input_has_the_name_of_what_an_address_says_beside_inputs() -> None:
    for calculator in all_calculators():
        assert not {each.name for each in calculator.inputs} & {"format", MORE}
        assert not any("." in each.name for each in calculator.inputs)
