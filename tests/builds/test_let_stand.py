"""Letting findings stand in the browser: a reason and a name, withdrawn and undone with one action."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from django.test import Client

from buildlog.builds.actions import change_build
from buildlog.builds.models import Build, Change
from buildlog.builds.queries import plain_of, worked_of
from buildlog.workshops.models import Person
from calculators.planning.edits import find, finding_key, put

pytestmark = pytest.mark.database
CHECK = "/workshops/thornbank-workshop/builds/TW-31/"
KEY = "screw-bottoms:F03:P10"


def row() -> Build:
    return Build.rows.get(number="TW-31")


def keys() -> list[str]:
    return [finding_key(one) for one in worked_of(row()).findings]


def give(client: Client, reason: str = "the hole was drilled deeper") -> str:
    return client.post(
        f"{CHECK}let-stand/", {"key": KEY, "reason": reason, "back": f"{CHECK}joints/F03/"}, follow=True
    ).content.decode()


def test_a_reason_lets_it_stand_under_the_persons_name_and_leads_back(
    client: Client, demonstration: Person
) -> None:
    before = len(keys())
    page = give(client)
    assert (
        "F03 in P10: screw bottoms is let stand: the hole was drilled deeper. " in page
        or "F03 in P10: screw bottoms is let stand: the hole was drilled deeper." in page
    )
    assert (
        '<a href="/workshops/thornbank-workshop/builds/TW-31/#accepted">1 finding of it is let stand</a>'
        in page
    )
    assert KEY not in keys()
    assert len(keys()) == before - 1
    (given,) = plain_of(row()).acceptances
    assert (given.by, given.reason) == ("Ines Hallam", "the hole was drilled deeper")
    assert given.on is not None
    check = client.get(CHECK).content.decode()
    listed = check[check.index('id="accepted"') :]
    assert "“the hole was drilled deeper”" in listed
    assert "Ines Hallam" in listed
    assert given.on.isoformat() in listed
    assert f'id="accepted-{given.id}"' in listed
    assert 'href="#accepted">1 let stand</a>' in check


def test_it_counts_nowhere_and_is_neither_mended_nor_new(client: Client, demonstration: Person) -> None:
    errors = sum(one.severity == "error" for one in worked_of(row()).findings)
    assert "This change:" not in give(client)
    assert f">{errors - 1} errors<" in client.get(CHECK).content.decode()
    assert f"{errors - 1} errors" in client.get("/").content.decode()


def test_one_action_undoes_it_and_another_withdraws_it(client: Client, demonstration: Person) -> None:
    before = plain_of(row())
    give(client)
    client.post(f"{CHECK}undo/")
    assert plain_of(row()) == before
    give(client)
    page = client.post(f"{CHECK}let-stand/withdraw/", {"acceptance": "x1"}, follow=True).content.decode()
    assert "F03 in P10: screw bottoms is no longer let stand." in page
    assert plain_of(row()) == before
    client.post(f"{CHECK}undo/")
    assert [one.id for one in plain_of(row()).acceptances] == ["x1"]


def test_it_lapses_with_the_numbers_and_is_given_again_with_one_action(
    client: Client, demonstration: Person
) -> None:
    give(client)
    joint = find(plain_of(row()), "joint", "F03")
    longer = replace(joint, fastener=joint.fastener.replace("x 2 in hex", "x 2 1/4 in hex"))
    assert longer != joint
    change_build(row(), demonstration, lambda build: put(build, "joint", longer, key="F03"), "longer")
    assert KEY in keys()
    assert "acceptance-lapsed:F03:P10" in keys()
    page = client.get(f"{CHECK}?rule=acceptance-lapsed").content.decode()
    assert "Let it stand again" in page
    assert page.count('name="acceptance" value="x1"') == 2
    client.post(f"{CHECK}let-stand/again/", {"acceptance": "x1"})
    assert KEY not in keys()
    assert "acceptance-lapsed:F03:P10" not in keys()


def test_the_history_says_who_let_it_stand_and_why(client: Client, demonstration: Person) -> None:
    give(client)
    page = client.get(f"{CHECK}history/").content.decode()
    assert "F03 in P10: screw bottoms is let stand: the hole was drilled deeper" in page


@pytest.mark.parametrize(
    ("sent", "says"),
    [
        ({"key": KEY, "reason": ""}, "Say why it may stand, in a few words"),
        ({"key": KEY, "reason": "y" * 2_001}, "A reason has at most 2,000 characters; this has 2,001."),
        ({"key": "lock:F99", "reason": "typed here"}, "The check finds nothing called"),
        ({"key": "\x00<b>" * 900, "reason": "typed here"}, "The check finds nothing called"),
        ({"reason": "typed here"}, "The check finds nothing called"),
        ({}, "The check finds nothing called"),
    ],
)
def test_what_cannot_stand_gets_a_sentence_and_what_was_typed_stays(
    sent: dict[str, str], says: str, client: Client, demonstration: Person
) -> None:
    answer = client.post(f"{CHECK}let-stand/", sent)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert says in page
    assert '<textarea name="reason"' in page
    assert f">{sent.get('reason', '')}</textarea>" in page
    assert plain_of(row()).acceptances == ()


def test_a_control_character_in_a_reason_is_refused_in_a_sentence(
    client: Client, demonstration: Person
) -> None:
    answer = client.post(f"{CHECK}let-stand/", {"key": KEY, "reason": "bell \x07 rings"})
    assert answer.status_code in (302, 422)
    assert client.get(CHECK).status_code == 200


@pytest.mark.parametrize("name", ["again", "withdraw"])
@pytest.mark.parametrize("value", ["", "x7", "\x00", "x" * 5_000, "<script>"])
def test_acceptances_that_there_are_not_get_a_sentence(
    name: str, value: str, client: Client, demonstration: Person
) -> None:
    page = client.post(f"{CHECK}let-stand/{name}/", {"acceptance": value}, follow=True).content.decode()
    assert "Nothing was changed. Nothing called" in page
    assert "<script>" not in page.replace('<script src="', "")


def test_the_page_that_asks_for_a_reason_shows_the_finding(client: Client, demonstration: Person) -> None:
    page = client.get(f"{CHECK}let-stand/?finding={KEY}").content.decode()
    assert "The screw bottoms before it clamps" in page
    assert 'name="reason"' in page
    assert client.get(f"{CHECK}let-stand/?finding=lock:F99").status_code == 404


def test_who_may_not_change_reads_it_and_strangers_see_nothing(client: Client, demonstration: Person) -> None:
    give(client)
    client.force_login(Person.objects.get(username="visitor"))
    page = client.get(CHECK).content.decode()
    assert "“the hole was drilled deeper”" in page
    assert "Withdraw" not in page
    assert "Let it stand" not in page
    for address in ("let-stand/", "let-stand/withdraw/", "let-stand/again/"):
        assert client.post(f"{CHECK}{address}", {"acceptance": "x1"}).status_code == 403
    client.force_login(Person.objects.create(username="stranger"))
    assert client.get(f"{CHECK}let-stand/?finding={KEY}").status_code == 404
    assert client.post(f"{CHECK}let-stand/withdraw/", {"acceptance": "x1"}).status_code == 404
    assert Change.objects.filter(says__contains="no longer let stand").count() == 0


def test_an_acceptance_for_which_nothing_is_found_any_more_can_be_taken_out(
    client: Client, demonstration: Person
) -> None:
    give(client)
    joint = find(plain_of(row()), "joint", "F03")
    shorter = replace(joint, fastener=joint.fastener.replace("x 2 in hex", "x 1 3/4 in hex"))
    change_build(row(), demonstration, lambda build: put(build, "joint", shorter, key="F03"), "shorter")
    page = client.get(CHECK).content.decode()
    assert "1 for which nothing is found any more" in page
    assert re.search(r'<li id="accepted-x1">.*the hole was drilled deeper', page, re.DOTALL)
