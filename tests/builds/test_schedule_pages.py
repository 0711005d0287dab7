"""The schedules as tables: found, ordered, paged; what they say is what the schedules say."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.test import Client

from buildlog.builds.lookup import demonstration_build
from buildlog.workshops.models import Person
from calculators.planning.schedules import cut_list

pytestmark = [pytest.mark.database, pytest.mark.shows]

BUILD = "/workshops/thornbank-workshop/builds/TW-31"


def marks(page: str) -> list[str]:
    return re.findall(r'<td class="mark">([^<]+)</td>', page)


def test_the_cut_list_shows_every_part_and_finds_and_orders_them(
    client: Client, demonstration: Person
) -> None:
    lines = cut_list(demonstration_build("TW-31"))
    assert marks(client.get(f"{BUILD}/cut/").content.decode()) == [line.mark for line in lines]
    found = marks(client.get(f"{BUILD}/cut/?find=oak+LID").content.decode())
    assert found
    assert found == [
        line.mark for line in lines if "oak" in line.material.lower() and "lid" in line.name.lower()
    ]
    by_mark = marks(client.get(f"{BUILD}/cut/?sort=mark").content.decode())
    assert by_mark == sorted(line.mark for line in lines)
    assert marks(client.get(f"{BUILD}/cut/?sort=-mark").content.decode()) == by_mark[::-1]
    page = client.get(f"{BUILD}/cut/?sort=-length&find=x").content.decode()
    assert 'aria-sort="descending"' in page


def test_what_is_not_known_stands_last_whichever_way_it_is_ordered(
    client: Client, demonstration: Person
) -> None:
    lines = {line.mark: line for line in cut_list(demonstration_build("TW-31"))}
    unknown = {mark for mark, line in lines.items() if line.thickness is None}
    assert unknown
    for sort in ("thickness", "-thickness"):
        order = marks(client.get(f"{BUILD}/cut/?sort={sort}").content.decode())
        assert set(order[-len(unknown) :]) == unknown


@pytest.mark.parametrize("side", ["cut", "buying", "fasteners", "paper"])
@pytest.mark.parametrize(
    "query",
    ["?sort=nonsense", "?sort=-", "?page=-3", "?page=99999", "?page=x", "?find=%00%ff", "?find=" + "x" * 900],
)
def test_no_address_of_a_table_is_wrong(side: str, query: str, client: Client, demonstration: Person) -> None:
    assert client.get(f"{BUILD}/{side}/{query}").status_code == 200


@pytest.mark.parametrize("side", ["cut", "buying", "fasteners", "paper"])
def test_the_database_is_asked_a_constant_number_of_times(
    side: str, client: Client, demonstration: Person, django_assert_num_queries: Any
) -> None:
    counts = []
    for number in ("TW-33", "TW-31"):
        address = f"/workshops/thornbank-workshop/builds/{number}/{side}/"
        client.get(address)
        # Person, membership, build, what can be undone and redone; of paper the sheets that were printed.
        with django_assert_num_queries(6 if side == "paper" else 5) as asked:
            client.get(address)
        counts.append(len(asked))
    assert counts[0] == counts[1]


def test_the_steel_twin_of_a_brass_screw_in_oak_is_on_the_shopping_list(
    client: Client, demonstration: Person
) -> None:
    page = client.get(f"{BUILD}/buying/?find=steel+twin").content.decode()
    assert "steel twin" in page.split("<tbody>")[1]


def test_lengths_follow_the_persons_units(client: Client, demonstration: Person) -> None:
    def first_row(units: str) -> str:
        client.post("/units/", {"units": units})
        page = client.get(f"{BUILD}/cut/?find=P01").content.decode()
        return re.sub(r"<[^>]+>", "", page.split("<tbody>")[1].split("</tr>")[0])

    assert "640" in first_row("mm")
    assert " in" not in first_row("mm")
    assert "25 13/64 in" in first_row("both").replace("\xa0", " ")
    assert "655" in first_row("both")
    assert "655" not in first_row("in")  # worked out; what was written stays as it was written
    assert "640" in first_row("in")
