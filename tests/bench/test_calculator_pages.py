"""The pages of the calculators: the same answers as the command, faults beside their fields, no surprises."""

from __future__ import annotations

import io
import json
import re
from html import unescape
from urllib.parse import urlencode

import pytest
from django.core.management import call_command
from django.test import Client
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from buildlog.bench.templatetags.typeset import formula, units
from buildlog.bench.terminal import dumped
from calculators.calculation.answering import answer, as_json
from calculators.catalogue import all_calculators, by_purpose, find_calculator, names
from calculators.quantities.errors import InputError

pytestmark = pytest.mark.database

WITH_EXAMPLES = [each for each in all_calculators() if each.example]


def page_of(client: Client, address: str, status: int = 200) -> str:
    response = client.get(address)
    assert response.status_code == status, response.content[:2000]
    return response.content.decode()


def text_of(page: str) -> str:
    """What a page says, without its marks."""
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", page)).split())


def test_the_list_names_each_calculator_once_with_its_sentence_under_a_heading(client: Client) -> None:
    page = page_of(client, "/bench/")
    for each in all_calculators():
        assert page.count(f'href="/bench/{each.name}/"') == 1
        assert each.summary in text_of(page)
    headings = re.findall(r"<section[^>]*><h2>([^<]*)</h2>", page)
    headings.remove("Used lately")
    assert headings == [*(purpose for purpose, _ in by_purpose()), "Look it up"]
    assert sorted(each.name for _, those in by_purpose() for each in those) == sorted(names())


@pytest.mark.parametrize("calculator", all_calculators(), ids=lambda each: each.name)
def test_a_form_has_every_input_with_its_hint_and_asks_the_database_nothing(
    calculator, client: Client, django_assert_num_queries
) -> None:
    with django_assert_num_queries(0):
        page = page_of(client, f"/bench/{calculator.name}/")
    said = text_of(page)
    for each in calculator.inputs:
        assert f'for="id_{each.name}"' in page or f'data-rows="{each.name}"' in page
        assert f'aria-describedby="id_{each.name}_helptext"' in page
        assert text_of(units(each.help[1:])) in said
        assert not each.limits or each.kind in ("choice", "flag") or text_of(units(each.limits[1:])) in said
        assert not each.example or text_of(units(f"Written as {each.example}.")) in said
        for choice in each.choices:
            assert f'<option value="{choice}"' in page
        for member in each.members:
            assert f"<dt>{member.name}</dt>" in page
    assert "placeholder" not in page
    assert "Results" not in said


@pytest.mark.parametrize("calculator", WITH_EXAMPLES, ids=lambda each: each.name)
def test_the_example_gives_the_same_as_the_command(
    calculator, client: Client, django_assert_num_queries
) -> None:
    link = re.search(
        r'href="\?([^"]*)#answer">Try the example', page_of(client, f"/bench/{calculator.name}/")
    )
    assert link
    address = f"/bench/{calculator.name}/?{unescape(link[1])}"
    with django_assert_num_queries(0):
        page = page_of(client, address)
    out = io.StringIO()
    call_command(
        "calc", calculator.name, *(f"{k}={v}" for k, v in calculator.example.items()), json=True, stdout=out
    )
    from_command = json.loads(out.getvalue())
    assert client.get(f"{address}&format=json").json() == from_command
    result, said = answer(calculator, calculator.example), text_of(page)
    assert text_of("Results") in said
    for step in result.working:
        for part in (step.formula, step.numbers, step.source):
            assert text_of(formula(part)) in said
    for source in result.sources:
        assert text_of(source) in said
    for says in result.warnings:
        assert text_of(units(says)) in said or text_of(says) in said
    command = re.search(r"<code>(.*?)</code>", page, re.DOTALL)
    assert command
    assert unescape(command[1]).startswith(f"manage.py calc {calculator.name} ")


def test_the_results_stand_in_both_systems(client: Client) -> None:
    # ISO 724: M5 has a pitch of 0.8 mm; 0.8 / 25.4 = 0.0315 in. 3/16 in is 4.7625 mm exactly.
    page = text_of(page_of(client, "/bench/thread/?designation=M5"))
    assert "Pitch distance from one thread to the next 0.8 mm 0.0315 in, near 1/32 in (-0.006 mm)" in page
    page = text_of(page_of(client, "/bench/drill/?name=3/16+in"))
    assert "Diameter 4.7625 mm 3/16 in" in page


def test_the_link_carries_the_inputs_and_gives_the_same_page(client: Client) -> None:
    typed = "/bench/countersink/?head_diameter=8.96+mm&angle=90&hole=5%2F32+in&below=&thickness="
    page = page_of(client, typed)
    link = re.search(r'href="\?([^"]*)#answer">Link to this', page)
    assert link
    assert unescape(link[1]) == "head_diameter=8.96+mm&angle=90&hole=5%2F32+in"
    again = page_of(client, f"/bench/countersink/?{unescape(link[1])}")
    assert text_of(again) == text_of(page)
    assert 'value="5/32 in"' in again


def test_each_fault_stands_beside_its_field_and_what_was_typed_is_kept(client: Client) -> None:
    page = page_of(client, "/bench/countersink/?head_diameter=wide&angle=200&hole=-1&below=0&thicknes=3", 422)
    with pytest.raises(InputError) as told:
        answer(
            find_calculator("countersink"),
            {"head_diameter": "wide", "angle": "200", "hole": "-1", "below": "0", "thicknes": "3"},
        )
    assert {fault.field for fault in told.value.faults} == {"", "head_diameter", "angle", "hole"}
    for fault in told.value.faults:
        if fault.field:
            block = re.search(rf'id="id_{fault.field}_error">(.*?)</div>', page, re.DOTALL)
            assert block
            assert fault.says in text_of(block[1])
            assert f'aria-describedby="id_{fault.field}_helptext id_{fault.field}_error"' in page
        else:
            assert fault.says in text_of(page)
    assert 'value="wide"' in page
    assert 'value="200"' in page
    assert "Results" not in text_of(page)


def test_a_sentence_calls_an_input_as_its_label_does_and_the_json_as_it_is_typed(client: Client) -> None:
    page = text_of(page_of(client, "/bench/countersink/?hole=4", 422))
    assert "The input head diameter is missing: the head's diameter, written as 8.96 mm." in page
    assert "head_diameter is missing" not in page
    faults = client.get("/bench/countersink/?hole=4&format=json").json()["faults"]
    assert faults[0]["says"].startswith("The input head_diameter is missing")


def test_an_empty_form_that_was_sent_says_what_is_missing(client: Client) -> None:
    page = text_of(page_of(client, "/bench/drill/?name=", 422))
    assert "The input name is missing: the drill; a bare number is mm" in page


def test_choices_are_links_that_fill_the_field_in(client: Client) -> None:
    page = page_of(client, "/bench/thread/?designation=M5.1", 422)
    links = re.findall(r'<a class="button" href="\?([^"]*)">', page)
    assert links
    for link in links:
        assert client.get(f"/bench/thread/?{unescape(link)}").status_code == 200
    # The units that a quantity may be written in are no values to put in its place.
    assert '<a class="button" href' not in page_of(
        client, "/bench/countersink/?head_diameter=8&hole=4&angle=x", 422
    )


def test_faults_as_json(client: Client) -> None:
    response = client.get("/bench/countersink/?hole=4&angle=x&format=json")
    assert response.status_code == 422
    assert [each["field"] for each in response.json()["faults"]] == ["head_diameter", "angle"]
    assert client.get("/bench/drill/?format=json").json()["faults"][0]["field"] == "name"


def test_the_many_inputs_of_a_joint_fold_away_until_one_is_used_or_faulty(client: Client) -> None:
    fold = re.compile(r'<details class="further"( open)?>')
    asked = "/bench/joint/?fastener=M5+x+20+csk&layers=a,+oak,+22&nut_factor=0.2"
    assert fold.findall(page_of(client, asked)) == [""]
    assert fold.findall(page_of(client, f"{asked}&wet=yes")) == [" open"]
    assert fold.findall(page_of(client, f"{asked}&torque=tight", 422)) == [" open"]
    assert fold.findall(page_of(client, "/bench/thread/")) == []


def test_layers_of_a_joint_are_written_one_a_line(client: Client) -> None:
    as_lines = {"fastener": "No. 8 csk brass", "layers": "batten, oak, 22 mm, edge 15\nbase, oak, 1 1/8 in"}
    as_objects = [
        {"part": "batten", "material": "oak", "thickness": "22 mm", "edge": "15"},
        {"part": "base", "material": "oak", "thickness": "1 1/8 in"},
    ]
    from_lines = client.get(f"/bench/joint/?{urlencode(as_lines)}&format=json").json()
    from_json = client.get(
        f"/bench/joint/?{urlencode({**as_lines, 'layers': json.dumps(as_objects)})}&format=json"
    ).json()
    assert from_lines["results"] == from_json["results"]
    assert from_json["inputs"]["layers"] == as_objects
    page = page_of(client, f"/bench/joint/?{urlencode({**as_lines, 'layers': 'batten, oak, thick'})}", 422)
    assert re.search(r'id="id_layers_error">.*?thick', page, re.DOTALL)


@pytest.mark.parametrize(
    "address", ["/bench/thred/", "/bench/THREAD/", "/bench/%00/", "/bench/tapping_drill/"]
)
def test_what_is_no_calculator_is_not_found(address: str, client: Client) -> None:
    assert client.get(address).status_code == 404


@pytest.mark.parametrize("method", ["post", "put", "patch", "delete"])
def test_the_pages_are_for_reading(method: str, client: Client) -> None:
    for address in (
        "/bench/",
        "/bench/thread/",
        "/bench/tables/",
        "/bench/tables/threads/",
        "/bench/words/",
        "/bench/find/",
    ):
        assert getattr(client, method)(address).status_code == 405


def test_inputs_without_end_are_refused_in_a_sentence(client: Client) -> None:
    page = text_of(page_of(client, f"/bench/joint/?layers={'[' * 30_000}", 422))
    assert "The inputs are longer than the 20000 characters that are read" in page
    assert client.get(f"/bench/joint/?layers={'[' * 19_000}").status_code == 422


NASTY = st.sampled_from(
    ["", " ", "0", "-1", "1e400", "NaN", "inf", "1/0", "9" * 200, "\x00", "M5", "1 1/4 in", "<script>", "[]", "{}",
     "[[[[", '{"a": 1}', "yes", "½", "20 SWG", "🔩", "a, b, 3; c", "%", "&", "1,200", "None"]
)  # fmt: skip


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_no_query_whatever_is_a_failure(data: st.DataObject, client: Client) -> None:
    calculator = data.draw(st.sampled_from(all_calculators()))
    known = [*(each.name for each in calculator.inputs), "format"]
    name = st.one_of(st.sampled_from(known), st.text(max_size=12))
    query = data.draw(st.dictionaries(name, st.one_of(NASTY, st.text(max_size=40)), max_size=6))
    response = client.get(f"/bench/{calculator.name}/", query)
    assert response.status_code in (200, 422)
    if query.get("format") == "json":
        told = {key: value for key, value in query.items() if key != "format" and value.strip()}
        if response.status_code == 200:
            result = answer(calculator, told)
            assert response.json() == json.loads(dumped(as_json(calculator, told, result)))
        else:
            assert response.json()["faults"]
