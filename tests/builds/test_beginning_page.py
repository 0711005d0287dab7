"""Beginning a build: one action, in the workshop's habits."""

from __future__ import annotations

import pytest
from django.test import Client

from buildlog.builds.header_forms import NO_TITLE
from buildlog.builds.models import Build
from buildlog.builds.numbers import number_after
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Person

pytestmark = pytest.mark.database
ADDRESS = "/workshops/thornbank-workshop/new-build/"


def test_a_build_is_begun_with_one_action_and_goes_on_to_its_parts(
    client: Client, demonstration: Person
) -> None:
    page = client.get(ADDRESS).content.decode()
    assert 'value="TW-34"' in page
    answer = client.post(ADDRESS, {"number": "TW-34", "title": "", "unit": "mm"})
    assert (answer.status_code, answer["Location"]) == (
        302, "/workshops/thornbank-workshop/builds/TW-34/parts/#entry-parts-new",
    )  # fmt: skip
    build = plain_of(Build.rows.get(number="TW-34"))
    assert (build.title, build.unit, build.workshop, build.drawn_by) == (
        NO_TITLE,
        "mm",
        "Thornbank Workshop",
        "Ines Hallam",
    )
    assert "5/16 BSF" in build.context.taps
    assert build.context.as_of is None
    assert "TW-34 is begun. Write its parts, one a line." in client.get("/").content.decode()
    assert 'value="TW-35"' in client.get(ADDRESS).content.decode()


@pytest.mark.parametrize(
    ("sent", "says"),
    [
        ({"number": "TW-31"}, "There is a build with the number &#x27;TW-31&#x27; already"),
        ({"number": ""}, "This field is required."),
        ({"number": "TW/34"}, "cannot stand in an address"),
        ({"number": ".."}, "cannot stand in an address"),
        ({"number": "x" * 41}, "at most 40 characters"),
        ({"title": "y" * 201}, "at most 200 characters"),
        ({"title": "a\x00b"}, "Null characters are not allowed."),
        ({"unit": "furlong"}, "Select a valid choice"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_said_beside_its_field_and_nothing_is_lost(
    sent: dict[str, str], says: str, client: Client, demonstration: Person
) -> None:
    answer = client.post(ADDRESS, {"number": "TW-50", "title": "صندوق “oak” <b>", "unit": "in", **sent})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert says in page
    if "title" not in sent:
        assert 'value="صندوق “oak” &lt;b&gt;"' in page
    assert Build.rows.count() == 3


def test_any_script_may_stand_in_a_title_and_a_number(client: Client, demonstration: Person) -> None:
    answer = client.post(ADDRESS, {"number": 'Ж "1"', "title": "صندوق", "unit": "in"})
    assert answer.status_code == 302
    page = client.get(answer["Location"].partition("#")[0])
    assert page.status_code == 200
    assert "Ж &quot;1&quot;" in page.content.decode()


def test_viewers_see_no_form_and_strangers_nothing(client: Client, demonstration: Person) -> None:
    client.force_login(Person.objects.get(username="visitor"))
    assert "You are a viewer here" in client.get(ADDRESS).content.decode()
    assert client.post(ADDRESS, {"number": "TW-50", "unit": "mm"}).status_code == 403
    client.force_login(Person.objects.create(username="stranger"))
    assert client.get(ADDRESS).status_code == 404
    assert client.put(ADDRESS).status_code == 404


@pytest.mark.parametrize(
    ("taken", "following"),
    [
        (["TW-31", "TW-33", "TW-32"], "TW-34"), (["007"], "008"), (["B9", "B10"], "B11"), (["lamp"], "TW-01"),
        (["TW-09", "lamp 2", "TW-10"], "TW-11"), (["9" * 40], "B-2"), (["TW-999999999999"], "TW-1000000000000"),
    ],
)  # fmt: skip
def test_the_number_that_is_offered_follows_those_that_are_there(taken: list[str], following: str) -> None:
    assert number_after(taken, "Thornbank Workshop") == following
