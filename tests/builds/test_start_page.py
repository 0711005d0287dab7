"""The first page: where one was, what has come since, what waits, and all that is on the bench."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds import starting
from buildlog.builds.actions import begin_build, change_build, undo
from buildlog.builds.models import Build, Change
from buildlog.builds.queries import _PLAIN, _WORKED, plain_of, plain_then
from buildlog.workshops.models import Membership, Person, Role, Workshop
from calculators.planning import model as plain
from calculators.planning.edits import find, move_step, put, remove

pytestmark = [pytest.mark.database, pytest.mark.usefixtures("for_a_reason")]
BUILDS = "/workshops/thornbank-workshop/builds"


def here() -> Workshop:
    return Workshop.objects.get(slug="thornbank-workshop")


def row(number: str = "TW-31") -> Build:
    return Build.rows.get(number=number)


def with_fastener(build: plain.Build, mark: str, line: str) -> plain.Build:
    return put(build, "joint", replace(find(build, "joint", mark), fastener=line), key=mark)


def bought(build: plain.Build, mark: str, note: str) -> plain.Build:
    return put(
        build, "component", replace(find(build, "component", mark), state="bought", note=note), key=mark
    )


def text_of(client: Client) -> str:
    page = client.get("/").content.decode()
    return re.sub(
        r"\s+", " ", re.sub(r"<[^>]+>", "", re.sub(r"</(dt|dd|p|li)>", " ", page[page.index("<main") :]))
    )


def test_the_build_that_one_was_at_is_there_in_full(client: Client, demonstration: Person) -> None:
    change_build(
        row(), demonstration, lambda b: bought(b, "P23", "Spring works, two weeks"), "P23 is on order"
    )
    says = text_of(client)
    assert "TW-31 Horizontal-pendulum demonstration seismograph You were here last on" in says
    last = plain_of(row()).entries
    word = next(
        one.next_time for one in sorted(last, key=lambda one: one.date, reverse=True) if one.next_time
    )
    assert " ".join(word.split()) in says
    assert re.search(r"Waits for a delivery (.*)P23 .* Spring works, two weeks", says)
    assert "Nothing has changed since." in says
    assert "Next step, 1 of" in says
    assert "Go on with TW-31" in says


def test_what_the_check_says_now_that_it_did_not_say_then(client: Client, demonstration: Person) -> None:
    rob = Person.objects.get(username="rob")
    change_build(row(), demonstration, lambda b: replace(b, client="The school"), "Mine")
    then = plain_of(row())
    change_build(
        row(), rob, lambda b: with_fastener(b, "F03", "5/16 BSF x 1 3/4 hex set screw steel"), "F03 shorter"
    )
    change_build(row(), rob, lambda b: with_fastener(b, "F10", "M3 x 80 csk steel"), "F10 longer")
    mine = Change.objects.get(says="Mine")
    assert plain_then(row(), mine) == then
    page = client.get("/").content.decode()
    says = text_of(client)
    found = re.search(r"Since (\d{4}-\d\d-\d\d): (.*?) mended \(Rob Teasdale made 2 changes\)", says)
    assert found is not None
    assert f'href="{BUILDS}/TW-31/joints/F10/?see=' in page
    # Of F10: no thread engaged, no thread left to clamp, it bottoms, it meets F11; and P20 was made before.
    assert (found[2], f'href="{BUILDS}/TW-31/joints/F03/?see=' in page) == ("5 new errors, 1", False)


def test_what_would_be_out_of_reach_after_the_next_step_is_told(
    client: Client, demonstration: Person
) -> None:
    def fitted(build: plain.Build) -> plain.Build:
        early = {"P11", *(mark for step in build.steps if step.number < 5 for mark in step.fits)}
        parts = tuple(
            replace(one, state="fitted" if one.mark in early else "made") for one in build.components
        )
        return replace(build, components=parts)

    change_build(row(), demonstration, fitted, "Four steps are done")
    says = text_of(client)
    assert "Next step, 5 of 11 Flange, and the pillar from below; stop plate" in says
    assert "After it, out of reach: F10" in says


def test_the_build_as_it_was_is_found_through_any_changes(demonstration: Person) -> None:
    rob = Person.objects.get(username="rob")
    change_build(row(), demonstration, lambda b: replace(b, client="x"), "Mine")
    mine = Change.objects.get(says="Mine")
    then = plain_of(row())
    change_build(row(), rob, lambda b: move_step(b, 8, 2), "Order")
    change_build(row(), rob, lambda b: put(b, "component", plain.Component("Z1", "new")), "New")
    change_build(row(), rob, lambda b: remove(b, "component", "Z1"), "Gone")
    change_build(row(), rob, lambda b: remove(b, "joint", "F03"), "F03 gone")
    change_build(row(), rob, lambda b: replace(b, unit="in", components=b.components[::-1]), "Turned round")
    undo(row(), rob)
    assert plain_of(row()) != then
    assert plain_then(row(), mine) == then
    assert plain_then(row(), Change.objects.filter(build=row()).order_by("-pk")[0]) == plain_of(row())


def test_somebody_who_has_changed_nothing_sees_the_build_that_was_written_of_last(
    client: Client, demonstration: Person
) -> None:
    says = text_of(client)
    latest = max(Build.rows.all(), key=lambda each: max(one.date for one in plain_of(each).entries))
    assert f"{latest.number} {latest.title} Its journal was last written on" in says
    assert says.count("You were here last") == 0


def test_done_builds_are_folded_away_and_never_worked_out(client: Client, demonstration: Person) -> None:
    for number in ("TW-31", "TW-32", "TW-33"):
        change_build(row(number), demonstration, lambda b: replace(b, state="done"), "Done")
    _WORKED._things.clear()
    page = client.get("/").content.decode()
    assert "<summary>3 done</summary>" in page
    assert 'id="at-hand"' not in page
    assert not _WORKED._things
    assert "Your workshops have no builds yet" not in page


def test_one_page_asks_a_constant_number_of_times(client: Client, demonstration: Person) -> None:
    def asked() -> int:
        _PLAIN._things.clear()
        _WORKED._things.clear()
        with CaptureQueriesContext(connection) as queries:
            assert client.get("/").status_code == 200
        return len(queries)

    change_build(row(), demonstration, lambda b: replace(b, client="x"), "Mine")
    few = asked()
    for i in range(50):
        part = plain.Component("P1", "Seat", state="bought")
        begin_build(here(), None, plain.Build(f"N-{i:03d}", f"Stool {i}", components=(part,)), "Begun")
    assert asked() == few
    page = client.get("/").content.decode()
    assert page.count("<tr data-row>") == 20
    assert "1 on order" in page
    assert client.get("/?page=3").content.decode().count("<tr data-row>") == 13
    assert 'id="at-hand"' not in client.get("/?page=3").content.decode()
    found = client.get("/?find=stool+4").content.decode()
    assert found.count("<tr data-row>") == 11
    assert "No build on the bench has “&lt;b&gt;”" in client.get("/?find=%3Cb%3E").content.decode()
    for nonsense in ("?page=x", "?page=-1", "?page=999", "?find=%00", f"?find={'a' * 500}"):
        assert client.get(f"/{nonsense}").status_code == 200


def test_a_page_does_not_work_out_more_than_it_should(
    client: Client, demonstration: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(starting, "MOST_JOINTS", 1)
    _WORKED._things.clear()
    assert "not looked at yet" in client.get("/").content.decode()


def test_each_person_sees_their_own_workshops_alone(client: Client, demonstration: Person) -> None:
    barn = Workshop.objects.create(name="Barn", slug="barn")
    begin_build(barn, None, plain.Build("B1", "Secret"), "Begun")
    assert "Secret" not in client.get("/").content.decode()
    Membership.objects.create(person=demonstration, workshop=barn, role=Role.MAKER)
    page = client.get("/").content.decode()
    assert 'href="/workshops/barn/new-build/"' in page
    assert "Secret" in page
    change_build(Build.rows.get(number="B1"), demonstration, lambda b: replace(b, client="x"), "Mine")
    Membership.objects.filter(workshop=barn).delete()
    assert "Secret" not in client.get("/").content.decode()


def test_a_viewer_begins_nothing_and_a_new_person_is_told_what_to_do(
    client: Client, demonstration: Person
) -> None:
    client.force_login(Person.objects.get(username="visitor"))
    page = client.get("/").content.decode()
    assert "Begin a build" not in page
    assert "Go on with" in page
    client.force_login(Person.objects.create(username="stranger"))
    assert "Begin a workshop" in client.get("/").content.decode()
    assert client.post("/").status_code == 405
