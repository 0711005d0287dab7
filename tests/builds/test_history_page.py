"""The history of a build: who, when, what, why, and each field before and after."""

from __future__ import annotations

from dataclasses import replace

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds.actions import begin_build, change_build, redo, undo
from buildlog.builds.models import Build, Change
from buildlog.builds.queries import plain_of
from buildlog.builds.zones import time_in
from buildlog.workshops.models import Person, Workshop
from calculators.planning import model as plain
from calculators.planning.edits import find, put, remove
from calculators.quantities import Length, read_length

pytestmark = [pytest.mark.database, pytest.mark.usefixtures("for_a_reason")]
ADDRESS = "/workshops/thornbank-workshop/builds/TW-31/history/"


def row() -> Build:
    return Build.rows.get(number="TW-31")


def thicker(build: plain.Build, text: str) -> plain.Build:
    one = find(build, "component", "P11")
    length: Length = read_length(text)
    return put(build, "component", replace(one, size=replace(one.size, thickness=length)), key="P11")


def page(client: Client, query: str = "") -> str:
    answer = client.get(ADDRESS + query)
    assert answer.status_code == 200
    return answer.content.decode()


def test_each_change_is_told_with_its_fields_its_reason_and_its_time(
    client: Client, demonstration: Person
) -> None:
    was = find(plain_of(row()), "component", "P11").size.thickness
    assert was is not None
    change_build(row(), demonstration, lambda b: thicker(b, "5/16 in"), "P11 is thicker", reason="it bent")
    says = page(client)
    change = Change.objects.get(says__startswith="P11 is thicker")
    assert change.says == "P11 is thicker (released again: P01 B, P11 B)"
    assert f"<time>{time_in(plain_of(row()), change.at)}</time>, Ines Hallam" in says
    assert "Why: it bent" in says
    assert 'P11 <span class="soft">size.thickness</span>' in says
    assert f'<td data-head="Was:">{was.written} mm</td>' in says
    assert '<td data-head="Became:"><span class="fraction">5/16</span> in</td>' in says
    assert says.index("P11 is thicker") < says.index("Read from TW-31.json")
    assert "from a command" in says


def test_what_was_undone_and_redone_is_said_and_stays_in_the_log(
    client: Client, demonstration: Person
) -> None:
    change_build(row(), demonstration, lambda b: thicker(b, "7"), "P11 is thicker")
    undo(row(), demonstration)
    assert "Undone: P11 is thicker" in page(client)
    assert "(undone since)" in page(client)
    redo(row(), demonstration)
    says = page(client)
    assert "Redone: P11 is thicker" in says
    assert "(redone since)" in says


def test_it_can_be_asked_for_one_mark(client: Client, demonstration: Person) -> None:
    change_build(row(), demonstration, lambda b: thicker(b, "7"), "P11 is thicker")
    change_build(row(), demonstration, lambda b: remove(b, "joint", "F03"), "F03 removed")
    says = page(client, "?find=P11")
    assert "History of P11" in says
    assert "P11 is thicker" in says
    log = says[says.index('<ol class="log">') :]
    assert (
        log.count("F03 removed (released again: P01 C, P10 B, P11 C)") == 1
    )  # its holes in P11 went with it
    says = page(client, "?find=F03")
    assert '<span class="soft">removed</span>' in says
    assert "Nothing called ZZ was changed." in page(client, "?find=ZZ")


def test_times_are_those_of_the_builds_zone() -> None:
    from datetime import UTC, datetime

    at = datetime(2025, 7, 1, 12, 30, tzinfo=UTC)
    for zone, says in (("Europe/London", "2025-07-01 13:30"), ("Asia/Kolkata", "2025-07-01 18:00"), ("Nowhere", "2025-07-01 12:30"),
                       ("../etc/passwd", "2025-07-01 12:30"), ("", "2025-07-01 12:30"), ("a\x00b", "2025-07-01 12:30")):  # fmt: skip
        assert time_in(plain.Build("B1", "x", context=plain.Context(zone=zone)), at) == says


def test_a_long_log_is_paged_and_asks_a_constant_number_of_times(
    client: Client, demonstration: Person
) -> None:
    def asked() -> int:
        with CaptureQueriesContext(connection) as queries:
            page(client)
        return len(queries)

    change_build(row(), demonstration, lambda b: replace(b, client="a"), "First")
    page(client)
    few = asked()
    for i in range(60):
        change_build(row(), demonstration, lambda b, i=i: replace(b, client=f"{i}"), f"Change {i}")
    page(client)
    assert asked() == few
    says = page(client)
    assert says.count("<li data-row>") == 50
    assert "Change 59" in says[says.index('<ol class="log">') :]
    assert "First" in page(client, "?page=2")
    for nonsense in ("?page=x", "?page=99", "?find=%00", f"?find={'x' * 300}"):
        page(client, nonsense)


def test_a_change_of_thousands_of_records_is_told_by_its_first(client: Client, demonstration: Person) -> None:
    parts = tuple(plain.Component(f"N{i}", f"part {i}") for i in range(300))
    change_build(row(), demonstration, lambda b: replace(b, components=(*b.components, *parts)), "300 parts")
    says = page(client)
    assert "and 280 more" in says
    assert "N19" in says
    assert "N200" not in says


def test_names_from_outside_are_text(client: Client, demonstration: Person) -> None:
    change_build(
        row(), demonstration, lambda b: replace(b, client="<script>alert(1)</script>"), "<b>bold</b>"
    )
    says = page(client)
    assert "&lt;script&gt;" in says
    assert "<b>bold</b>" not in says


def test_viewers_read_it_and_strangers_do_not(client: Client, demonstration: Person) -> None:
    client.force_login(Person.objects.get(username="visitor"))
    page(client)
    assert client.post(ADDRESS).status_code == 403
    client.force_login(Person.objects.create(username="stranger"))
    assert client.get(ADDRESS).status_code == 404


def test_a_log_of_another_build_is_not_mixed_in(client: Client, demonstration: Person) -> None:
    here = Workshop.objects.get(slug="thornbank-workshop")
    other = begin_build(here, demonstration, plain.Build("B1", "x"), "Begun: B1")
    change_build(
        other, demonstration, lambda b: put(b, "component", plain.Component("P11", "mine")), "Elsewhere"
    )
    assert "Elsewhere" not in page(client)
    assert "Elsewhere" not in page(client, "?find=P11")
