"""How an answer stands on its page: spreads, tables of like things, the answer first, inputs instead of others."""

from __future__ import annotations

import re
from html import unescape

import pytest
from django.test import Client

from buildlog.bench.forms import CalculatorForm, entries, folded
from buildlog.bench.rows import address_of
from calculators.calculation import Calculator, Input
from calculators.catalogue import all_calculators, find_calculator

pytestmark = pytest.mark.database

LAW = "law of propagation of uncertainty"
HINT = "A measured value may say how far it may be off"


def page_of(client: Client, address: str, status: int = 200) -> str:
    response = client.get(address)
    assert response.status_code == status, response.content[:1500]
    return response.content.decode()


def text_of(page: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", page)).split())


def test_a_page_says_once_that_a_spread_may_be_written(client: Client) -> None:
    for each in all_calculators():
        said = text_of(page_of(client, f"/bench/{each.name}/"))
        measured = not each.own_reader and any(
            one.kind in ("length", "quantity", "number") for one in each.inputs
        )
        assert said.count(HINT) == measured, each.name


def test_results_and_working_show_their_spread_and_the_law_once(client: Client) -> None:
    address = "/bench/countersink/?head_diameter=8.96+%C2%B1+0.04+mm&hole=4+mm+%C2%B1+2+thou"
    said = text_of(page_of(client, address))
    # By hand: depth = (8.96 - 4) / (2 tan 45 deg) = 2.48 mm; half of sqrt(0.04^2 + 0.0508^2) = 0.0323 mm, which is
    # 0.0013 in on 0.0976 in.
    assert "2.480 ± 0.032 mm 0.0976 ± 0.0013 in" in said
    assert "= 2.480 ± 0.032 mm (0.0976 ± 0.0013 in)" in said
    assert "8.96 ± 0.04 mm 0.3528 ± 0.0016 in" in said
    assert said.count(LAW) == 1
    assert LAW not in text_of(page_of(client, "/bench/countersink/?head_diameter=8.96&hole=4"))
    assert client.get(f"{address}&format=json").json()["results"]["depth"]["spread"] == pytest.approx(
        0.0323, abs=1e-4
    )


def test_a_spread_that_cannot_be_read_is_told_beside_its_field(client: Client) -> None:
    page = page_of(client, "/bench/countersink/?head_diameter=8.96+%C2%B1&hole=4", 422)
    block = re.search(r'id="id_head_diameter_error">(.*?)</div>', page, re.DOTALL)
    assert block
    assert "'8.96 ±' has nothing after the ±; write how far it may be off, as in 5 ± 0.1." in text_of(
        block[1]
    )
    assert 'value="8.96 ±"' in page


def test_the_answer_stands_where_the_form_leads_and_before_the_working(client: Client) -> None:
    for name in ("drill", "spring", "identify-thread"):
        empty = page_of(client, f"/bench/{name}/")
        assert f'action="/bench/{name}/#answer"' in empty
        assert 'id="answer"' not in empty
        page = page_of(client, f"/bench/{name}/?{address_of(find_calculator(name).example or {})}")
        places = [
            page.index(mark)
            for mark in ('id="answer"', "<h2>Results</h2>", "<h2>Given</h2>", "<h2>Working</h2>")
        ]
        assert places == sorted(places)
        for says in find_calculator(name).cautions:
            assert (
                page.index("<h2>Results</h2>")
                < page.index(says.split("'")[0].split("&")[0][:40])
                < page.index("<h2>Given</h2>")
            )


def test_like_things_stand_in_a_table_with_a_head_for_each_member(client: Client) -> None:
    page = page_of(
        client, f"/bench/circle-of-holes/?{address_of(find_calculator('circle-of-holes').example or {})}"
    )
    table = re.search(r'<table class="rows listed">(.*?)</table>', page, re.DOTALL)
    assert table
    heads = re.findall(r"<th[^>]*>([^<]*)</th>", table[1])
    assert {"No.", "X", "Y"} <= set(heads)
    rows = re.findall(r"<tbody><tr>(.*?)</tr>", table[1], re.DOTALL)
    answer = client.get(
        "/bench/circle-of-holes/", {**(find_calculator("circle-of-holes").example or {}), "format": "json"}
    ).json()
    assert len(rows) == len(answer["results"]["positions"]["value"])


def test_the_units_that_a_person_reads_are_those_of_a_table(client: Client) -> None:
    address = f"/bench/timber/?{address_of(find_calculator('timber').example or {})}"
    both = text_of(page_of(client, address))
    # 2400 mm and 12 mm of trim are 2412 mm, which is 94.9606 in.
    assert "2412 mm 94.9606 in" in both
    session = client.session
    session["units"] = "in"
    session.save()
    inches = page_of(client, address)
    assert "94.9606 in" in inches
    assert "2412 mm <span" not in inches


EITHER = Calculator(
    name="sample",
    summary="A sample.",
    inputs=tuple(
        Input(name=name, help=f"the {name}", kind="length", unit="mm", optional=name != "wire", maximum=10)
        for name in ("wire", "mean", "coils", "outside", *(f"more_{place}" for place in range(8)))
    ),
    outputs=(),
    work=lambda given: None,  # type: ignore[arg-type,return-value]
    sources=(),
    either=(("mean", "outside"),),
)


def test_inputs_of_which_one_is_given_stand_together_and_never_fold_away() -> None:
    form = CalculatorForm(EITHER, {})
    first, further, is_open = folded(form, entries(form, {}))
    assert [[entry.input.name for entry in group.entries] for group in first] == [
        ["wire"],
        ["mean", "outside"],
        ["coils"],
    ]
    assert [group.is_either for group in first] == [False, True, False]
    assert [len(group.entries) for group in further] == [1] * 8
    assert not is_open
    used = CalculatorForm(EITHER, {"more_3": "2"})
    assert folded(used, entries(used, {}))[2]


def test_what_is_declared_to_be_given_instead_exists_and_may_be_left_out() -> None:
    for each in all_calculators():
        for group in each.either:
            assert len(group) > 1
            for name in group:
                assert not each.input(name).required, (each.name, name)


def test_a_page_of_a_choice_keeps_what_was_written_though_it_is_none(client: Client) -> None:
    page = page_of(client, "/bench/nearest/?length=5&kind=drlil", 422)
    assert '<option value="drlil" selected>drlil</option>' in page
