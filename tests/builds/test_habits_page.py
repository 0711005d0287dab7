"""A workshop's habits: what its new builds begin with; for owners."""

from __future__ import annotations

import re

import pytest
from django.test import Client

from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Membership, Person, Role, Workshop
from calculators.planning.documents import read_context

pytestmark = [pytest.mark.database, pytest.mark.shows]

HABITS = "/workshops/thornbank-workshop/habits/"


def held(page: str) -> dict[str, str]:
    """What the form holds, as a browser would send it."""
    found = dict(re.findall(r'<input [^>]*name="(\w+)"[^>]*? value="([^"]*)"', page))
    found |= dict(re.findall(r'<textarea [^>]*name="(\w+)"[^>]*>\s*([^<]*)</textarea>', page))
    found["wood_screw_series"] = re.findall(r'<option value="([^"]+)" selected', page)[0]
    return found


def test_a_new_build_begins_with_what_was_saved_and_others_keep_theirs(
    client: Client, demonstration: Person
) -> None:
    sent = held(client.get(HABITS).content.decode())
    before = plain_of(Build.rows.get(number="TW-31")).context
    sent |= {"drills": "1.0-13.0 by 0.1\n1/4", "taps": "M5\n2 BA", "tapping_percent": "70", "currency": "eur"}
    assert client.post(HABITS, sent)["Location"] == HABITS
    saved = read_context(Workshop.objects.get().habits)
    assert (saved.drills, saved.taps, saved.currency) == (("1.0-13.0 by 0.1", "1/4"), ("M5", "2 BA"), "EUR")
    client.post("/workshops/thornbank-workshop/new-build/", {"number": "N1", "title": "", "unit": "mm"})
    assert plain_of(Build.rows.get(number="N1")).context.drills == saved.drills
    assert plain_of(Build.rows.get(number="TW-31")).context == before


@pytest.mark.parametrize(
    ("field", "typed", "says"),
    [
        ("taps", "M5\nM99", "M99"),
        ("drills", "by by", "by by"),
        ("currency", "pounds", "at most 3"),
        ("zone", "Europe/Londom", "did you mean Europe/London"),
        ("tapping_percent", "many", "is not a number"),
        ("tapping_percent", "900", "100"),
        ("limits", "x", "is no limit"),
        ("limits", "edge-distanse 2", "did you mean edge-distance"),
    ],
)
def test_each_bad_field_gets_its_sentence_and_nothing_is_saved(
    field: str, typed: str, says: str, client: Client, demonstration: Person
) -> None:
    habits = Workshop.objects.get().habits
    answer = client.post(HABITS, held(client.get(HABITS).content.decode()) | {field: typed})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert says in page
    assert typed.splitlines()[-1] in page
    assert Workshop.objects.get().habits == habits


def test_makers_and_viewers_do_not_open_it(client: Client, demonstration: Person) -> None:
    for username in ("rob", "visitor"):
        client.force_login(Person.objects.get(username=username))
        assert client.get(HABITS).status_code == 403
        assert client.post(HABITS, {}).status_code == 403
    stranger = Person.objects.create(username="stranger")
    other = Workshop.objects.create(name="Other", slug="other")
    Membership.objects.create(person=stranger, workshop=other, role=Role.OWNER)
    client.force_login(stranger)
    assert client.get(HABITS).status_code == 404
