"""The rack of a build: stock entered, changed, measured, and the parts that are cut from it."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.test import Client

from buildlog.builds.actions import begin_build, change_build, undo
from buildlog.builds.models import Build, Change
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Person, Workshop
from calculators.planning import model as plain
from calculators.planning.edits import find, put
from calculators.quantities import Length

pytestmark = pytest.mark.database
RACK = "/workshops/thornbank-workshop/builds/TW-40/rack/"


def mm(value: float) -> Length:
    return Length.of_mm(value)


SIDE = plain.Component(
    "P1", "Side", material="birch ply", stock="sheet", size=plain.Size("block", mm(400), mm(200), mm(18))
)
CABINET = plain.Build(
    "TW-40",
    "Cabinet",
    components=(
        SIDE,
        plain.Component("P2", "Post", material="oak", size=plain.Size("block", mm(400), mm(60), mm(60))),
        plain.Component("P3", "Shelf", material="birch ply", size=plain.Size("block", mm(300), mm(200), mm(18))),
    ),
)  # fmt: skip


@pytest.fixture
def row(demonstration: Person) -> Build:
    workshop = Workshop.objects.get(slug="thornbank-workshop")
    return begin_build(workshop, demonstration, CABINET, "Begun")


def now() -> plain.Build:
    return plain_of(Build.rows.get(number="TW-40"))


def post(client: Client, path: str = "", **sent: Any) -> str:
    return client.post(RACK + path, sent, follow=True).content.decode()


def test_stock_is_entered_one_a_line_and_what_is_not_clear_stays(client: Client, row: Build) -> None:
    says = post(client, lines="2 sheets 18 mm birch ply 2440 x 1220\n12 x 13 x 14")
    assert "On the rack: S1 18 mm birch ply." in says
    assert 'value="12 x 13 x 14"' in says
    assert "gives sizes but no material" in says
    (one,) = now().stock
    assert (one.mark, one.count, one.thickness.mm if one.thickness else None) == ("S1", 2, 18.0)
    person = Person.objects.get(username="ines")
    undo(row, person)
    assert now().stock == ()


def test_parts_of_its_size_are_offered_and_cut_from_it_by_one_action(client: Client, row: Build) -> None:
    says = post(client, lines="18 mm birch ply 2440 x 1220")
    assert "Cut P1, P3 from it" in says
    says = post(client, "S1/cut/", parts="P1, P3")
    assert [one.from_stock for one in now().components] == ["S1", "", "S1"]
    assert "Cut P1, P3 from it" not in says
    says = post(client, "S1/cut/", parts="P1 P9")
    assert "There is no component &#x27;P9&#x27;" in says
    assert 'value="P1 P9"' in says
    post(client, "S1/cut/", parts="")
    assert {one.from_stock for one in now().components} == {""}


def test_measuring_takes_the_parts_along_and_tells_what_that_changes(client: Client, row: Build) -> None:
    post(client, lines="18 mm birch ply 2440 x 1220")
    post(client, "S1/cut/", parts="P1, P3")
    says = post(client, "S1/measured/", length="17.2")
    assert [one.size.thickness.mm for one in now().components if one.size.thickness] == [17.2, 60.0, 17.2]
    assert now().stock[0].measured
    assert "What that changes" in says
    part = re.search(r"Of the new size</dt><dd>(.*?)</dd>", says)
    assert part is not None
    assert re.findall(r">(P\d)<", part[1]) == ["P1", "P3"]
    assert Change.objects.latest("id").says == "S1 18 mm birch ply: thickness measured, 17.2"


def test_what_cannot_be_measured_stays_with_its_sentence(client: Client, row: Build) -> None:
    post(client, lines="18 mm birch ply 2440 x 1220")
    for typed in ("", "thin", "0", "-3", "1/0", "9" * 200):
        answer = client.post(f"{RACK}S1/measured/", {"length": typed})
        assert answer.status_code == 422, typed
        assert 'aria-invalid="true"' in answer.content.decode()
    assert now().stock[0].thickness == Length(180_000_000, "18 mm", "mm")


def test_all_fields_are_changed_and_a_new_mark_goes_everywhere(client: Client, row: Build) -> None:
    post(client, lines="18 mm birch ply 2440 x 1220")
    post(client, "S1/cut/", parts="P1")
    page = client.get(f"{RACK}?change=S1").content.decode()
    seen = re.search(r'name="seen" value="(\w+)"', page)
    assert seen is not None
    sent = {
        "mark": "R7", "called": "Ply “best”", "material": "birch ply", "form": "sheet", "length": "96 in",
        "width": "1220", "thickness": "18 mm", "diameter": "", "count": "3", "note": "two\r\nlines", "seen": seen[1],
    }  # fmt: skip
    post(client, "S1/", **sent)
    (one,) = now().stock
    assert (one.mark, one.called, one.count, one.note, one.measured) == (
        "R7",
        "Ply “best”",
        3,
        "two\nlines",
        False,
    )
    assert one.length == Length(24_384_000_000, "96 in", "mm")
    assert now().components[0].from_stock == "R7"
    answer = client.post(f"{RACK}R7/", sent | {"mark": "P2"})
    assert answer.status_code == 409  # the fingerprint is of the piece as it was
    answer = client.post(f"{RACK}R7/", {**sent, "mark": "P2", "seen": ""})
    assert answer.status_code == 422
    assert "is used already by a component" in answer.content.decode()


def test_somebody_elses_change_is_shown_beside_ones_own(client: Client, row: Build) -> None:
    post(client, lines="18 mm birch ply 2440 x 1220")
    page = client.get(f"{RACK}?change=S1").content.decode()
    seen = re.search(r'name="seen" value="(\w+)"', page)
    assert seen is not None
    rob = Person.objects.get(username="rob")
    stock = now().stock[0]
    change_build(row, rob, lambda b: put(b, "stock", plain.Stock("S1", "other"), key="S1"), "Other")
    sent = {"mark": "S1", "called": "mine", "material": "oak", "seen": seen[1]}
    answer = client.post(f"{RACK}S1/", sent)
    assert answer.status_code == 409
    assert "changed by two" in answer.content.decode()
    assert "mine" in answer.content.decode()
    assert find(now(), "stock", "S1").called == "other" != stock.called


def test_a_piece_is_taken_off_and_its_parts_are_told(client: Client, row: Build) -> None:
    post(client, lines="18 mm birch ply 2440 x 1220")
    post(client, "S1/cut/", parts="P1, P3")
    assert "P1, P3 are no longer cut from it." in client.get(f"{RACK}S1/remove/").content.decode()
    post(client, "S1/remove/")
    assert now().stock == ()
    assert {one.from_stock for one in now().components} == {""}
    assert client.get(f"{RACK}S1/remove/").status_code == 404


def test_odd_addresses_are_no_fault(client: Client, row: Build) -> None:
    for query in ("measured=9999999", "measured=x", "measured=-1", "change=S9", "page=7", "find=%00"):
        assert client.get(f"{RACK}?{query}").status_code == 200
    assert client.post(f"{RACK}S9/measured/", {"length": "3"}).status_code == 404
    assert client.post(f"{RACK}S9/cut/", {"parts": "P1"}).status_code == 404


def test_the_rack_asks_the_database_no_more_often_for_more_stock(
    client: Client, row: Build, django_assert_max_num_queries: Any
) -> None:
    post(client, lines="\n".join(f"18 mm birch ply 2440 x {1000 + i}" for i in range(70)))
    client.get(RACK)
    with django_assert_max_num_queries(12):
        page = client.get(RACK).content.decode()
    assert page.count("data-row") == 60
