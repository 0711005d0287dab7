"""Rules and limits: every rule with its source and limits, set, reset, switched off and on; also of habits."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds.header_forms import habits_of
from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.rule_rows import every_rule
from buildlog.workshops.models import Person, Workshop

pytestmark = pytest.mark.database
BUILD = "/workshops/thornbank-workshop/builds/TW-31/"
RULES = f"{BUILD}rules/"
HABITS = "/workshops/thornbank-workshop/habits/rules/"


def row() -> Build:
    return Build.rows.get(number="TW-31")


def article(page: str, rule: str) -> str:
    at = page.index(f'id="rule-{rule}"')
    return page[at : page.index("</article>", at)]


def test_every_rule_is_listed_with_its_sentence_source_and_limits(
    client: Client, demonstration: Person
) -> None:
    page = client.get(RULES).content.decode()
    for rule in every_rule():
        article(page, rule.name)
        for limit in rule.limits:
            assert page.count(f'id="limit-{limit.name}"') == 1
    assert page.count("<article") == len(every_rule())


def test_a_rules_findings_are_linked_and_they_link_back(client: Client, demonstration: Person) -> None:
    found = [one for one in worked_of(row()).findings if one.rule == "screw-bottoms"]
    here = article(client.get(RULES).content.decode(), "screw-bottoms")
    assert f'href="{BUILD}?rule=screw-bottoms">{len(found)} findings here</a>' in here
    page = client.get(f"{BUILD}?rule=screw-bottoms").content.decode()
    assert page.count("<article") == len(found)
    assert f'href="{RULES}#rule-screw-bottoms"' in page


def test_a_limit_is_set_holds_is_told_and_undone(client: Client, demonstration: Person) -> None:
    before = plain_of(row())
    sent = {"do": "set", "name": "edge-distance", "value": "2.5", "rule": "edge-distance"}
    answer = client.post(RULES, sent, follow=True)
    assert answer.redirect_chain == [(f"{RULES}#rule-edge-distance", 302)]
    assert "Limit edge-distance is now 2.5 d." in answer.content.decode()
    assert dict(plain_of(row()).context.limits)["edge-distance"] == Decimal("2.5")
    assert "<b>2.5 d</b>" in answer.content.decode()
    assert "Limit edge-distance is now 2.5 d" in client.get(f"{BUILD}history/").content.decode()
    page = client.post(RULES, {"do": "reset", "name": "edge-distance"}, follow=True).content.decode()
    assert "Limit edge-distance is the rule&#x27;s own again." in page
    assert plain_of(row()) == before
    client.post(f"{BUILD}undo/")
    client.post(f"{BUILD}undo/")
    assert plain_of(row()) == before


def test_a_rule_is_switched_off_with_a_reason_and_on_again(client: Client, demonstration: Person) -> None:
    before = plain_of(row())
    sent = {"do": "off", "name": "screw-bottoms", "reason": "we bore by hand", "rule": "screw-bottoms"}
    page = client.post(RULES, sent, follow=True).content.decode()
    assert "Rule screw-bottoms is switched off: we bore by hand." in page
    here = article(page, "screw-bottoms")
    assert "Not applied here." in here
    assert "we bore by hand" in here
    rules = [one.rule for one in worked_of(row()).findings]
    assert "screw-bottoms" not in rules
    assert rules.count("rule-switched-off") == 1
    check = client.get(f"{BUILD}?rule=rule-switched-off").content.decode()
    assert f'href="{RULES}' in check
    client.post(RULES, {"do": "on", "name": "screw-bottoms"})
    assert plain_of(row()) == before


@pytest.mark.parametrize(
    ("sent", "says"),
    [
        (
            {"do": "set", "name": "edge-distance", "value": "wide"},
            "is not a number; write one in d, such as 3.",
        ),
        ({"do": "set", "name": "edge-distance", "value": "-2"}, "write a number from 0 to 300"),
        ({"do": "set", "name": "edge-distance", "value": "9" * 4_000}, "write a number from 0 to 300"),
        ({"do": "set", "name": "edge-distence", "value": "2"}, "did you mean edge-distance"),
        ({"do": "set", "name": "<script>", "value": "2"}, "No rule has a limit called"),
        ({"do": "off", "name": "screw-bottoms", "reason": "  "}, "Say why this rule is not applied"),
        ({"do": "off", "name": "no-such", "reason": "why"}, "There is no rule called “no-such”."),
        ({"do": "off", "name": "rule-switched-off", "reason": "why"}, "it is not switched off"),
        ({"do": "explode", "name": "screw-bottoms"}, "press one of the buttons"),
        ({}, "press one of the buttons"),
    ],
)
@pytest.mark.parametrize("address", [RULES, HABITS])
def test_what_cannot_be_gets_a_sentence_and_keeps_what_was_typed(
    address: str, sent: dict[str, str], says: str, client: Client, demonstration: Person
) -> None:
    answer = client.post(address, sent)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert says in page
    assert "<script>" not in page
    if sent.get("value") == "wide":
        assert '<a href="#limit-edge-distance">To what was typed</a>' in page
        assert "faulty" not in page  # the rule of that name is not what was refused
        assert re.search(r'name="value"[^>]*value="wide"[^>]*aria-invalid="true"', page)
    assert plain_of(row()).context.limits == ()
    assert habits_of(Workshop.objects.get(slug="thornbank-workshop")).limits == ()


def test_what_was_asked_stays_when_a_limit_is_set(client: Client, demonstration: Person) -> None:
    page = client.get(f"{RULES}?find=edge-distance").content.decode()
    assert f'action="{RULES}?find=edge-distance"' in page
    sent = {"do": "set", "name": "edge-distance", "value": "4", "rule": "edge-distance"}
    answer = client.post(f"{RULES}?find=edge-distance", sent)
    assert answer["Location"] == f"{RULES}?find=edge-distance#rule-edge-distance"
    refused = client.post(f"{RULES}?find=edge-distance", {**sent, "value": "wide"}).content.decode()
    assert 0 < refused.count("<article") < 10


def test_a_limit_that_no_rule_has_is_told_with_the_nearest_and_can_be_taken_out(
    client: Client, demonstration: Person
) -> None:
    from dataclasses import replace

    from buildlog.builds.actions import change_build

    odd = (("edge-distanse", Decimal(2)),)
    change_build(
        row(), demonstration, lambda build: replace(build, context=replace(build.context, limits=odd)), "odd"
    )
    page = client.get(RULES).content.decode()
    assert "No rule has a limit called" in page
    assert "did you mean edge-distance" in page
    client.post(RULES, {"do": "reset", "name": "edge-distanse"})
    assert plain_of(row()).context.limits == ()


def test_the_habits_hold_what_new_builds_begin_with(client: Client, demonstration: Person) -> None:
    page = client.post(HABITS, {"do": "set", "name": "edge-distance", "value": "4"}, follow=True)
    assert "Limit edge-distance is now 4 d. New builds of Thornbank Workshop begin with it." in (
        page.content.decode()
    )
    client.post(HABITS, {"do": "off", "name": "lock", "reason": "all is glued"})
    habits = habits_of(Workshop.objects.get(slug="thornbank-workshop"))
    assert habits.limits == (("edge-distance", Decimal(4)),)
    assert habits.rules_off == (("lock", "all is glued"),)
    client.post("/workshops/thornbank-workshop/new-build/", {"number": "N1", "title": "New", "unit": "mm"})
    assert plain_of(Build.rows.get(number="N1")).context.limits == habits.limits
    assert plain_of(row()).context.limits == ()


def test_what_was_decided_for_new_builds_is_undone_with_one_action(
    client: Client, demonstration: Person
) -> None:
    before = Workshop.objects.get(slug="thornbank-workshop").habits
    client.post(HABITS, {"do": "set", "name": "edge-distance", "value": "4"})
    page = client.get(HABITS).content.decode()
    assert "Last change: Limit edge-distance is now 4 d" in page
    assert "Undone: Limit edge-distance is now 4 d." in (
        client.post(HABITS, {"do": "undo"}, follow=True).content.decode()
    )
    assert Workshop.objects.get(slug="thornbank-workshop").habits == before
    client.post(HABITS, {"do": "set", "name": "edge-distance", "value": "4"})
    other = Workshop.objects.get(slug="thornbank-workshop")
    other.habits = before
    other.save()
    page = client.post(HABITS, {"do": "undo"}, follow=True).content.decode()
    assert "There is nothing of yours to undo here, or it was changed since." in page


@pytest.mark.parametrize("name", ["find", "only"])
@pytest.mark.parametrize("value", ["%00", "x" * 3_000, "<script>alert(1)</script>", "own", "found", "edge"])
def test_rules_are_found_by_words_and_odd_addresses_are_left_aside(
    name: str, value: str, client: Client, demonstration: Person
) -> None:
    answer = client.get(f"{RULES}?{name}={value}")
    assert answer.status_code == 200
    assert "<script>alert" not in answer.content.decode()
    if (name, value) == ("find", "edge"):
        assert 0 < answer.content.decode().count("<article") < len(every_rule())
    if (name, value) == ("only", "own"):
        assert answer.content.decode().count("<article") == 0


def test_who_may_not_change_reads_the_rules(client: Client, demonstration: Person) -> None:
    client.force_login(Person.objects.get(username="visitor"))
    page = client.get(RULES).content.decode()
    assert page.count("<article") == len(every_rule())
    assert 'name="value"' not in page
    assert client.post(RULES, {"do": "reset", "name": "edge-distance"}).status_code == 403
    assert client.get(HABITS).status_code in (403, 404)
    client.force_login(Person.objects.create(username="stranger"))
    assert client.get(RULES).status_code == 404


def test_the_rules_ask_the_database_as_often_as_the_check(client: Client, demonstration: Person) -> None:
    counts = []
    for address in (BUILD, RULES):
        client.get(address)
        with CaptureQueriesContext(connection) as queries:
            client.get(address)
        counts.append(len(queries))
    assert counts[0] == counts[1]
