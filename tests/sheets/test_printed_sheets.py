"""Sheets that are printed are recorded; their codes lead to a page that says whether they are current."""

from __future__ import annotations

import re
from dataclasses import replace
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from django.conf import LazySettings
from django.core.management import call_command
from django.db import connection
from django.db.models import QuerySet
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds.actions import begin_build, change_build, delete_build, undo
from buildlog.builds.models import Build
from buildlog.builds.printed import PaperRow, paper_rows, papers_of_part
from buildlog.builds.queries import plain_of, worked_of
from buildlog.sheets import jobs, making
from buildlog.sheets.models import PrintedSheet, Printing
from buildlog.sheets.recording import packed, record_printed, unpacked
from buildlog.workshops.actions import begin_workshop
from buildlog.workshops.models import Membership, Person
from calculators.planning.edits import find, put, remove
from calculators.planning.facts import code_shown, sheet_facts
from calculators.planning.files import write_build
from calculators.quantities import read_length

pytestmark = pytest.mark.database

BUILD = "/workshops/thornbank-workshop/builds/TW-31"


@pytest.fixture(autouse=True)
def quick_printer(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is tested here is not what is on the paper."""
    monkeypatch.setattr(making, "print_pdf", lambda html: b"%PDF " + html.encode()[:10])


@pytest.fixture
def row(demonstration: Person) -> Build:
    return Build.rows.get(number="TW-31")


def printed(client: Client, kind: str = "drilling", query: str = "component=P01") -> PrintedSheet:
    """Print a sheet from its page; the record of it."""
    assert client.get(f"{BUILD}/sheets/{kind}.pdf?{query}").status_code == 200
    return PrintedSheet.objects.order_by("-last_at", "-pk")[0]


def thinner(
    row: Build, person: Person, to: str = "27.2", mark: str = "P01", reason: str = "so it came"
) -> None:
    """Make a part thinner, for a reason."""
    one = find(plain_of(row), "component", mark)
    new = replace(one, size=replace(one.size, thickness=read_length(to)))
    says = f"{mark}: thickness is now {to}"
    change_build(row, person, lambda build: put(build, "component", new, key=mark), says, reason=reason)
    row.refresh_from_db()


def words(client: Client, address: str, status: int = 200) -> str:
    """A page as it is read, from its heading on."""
    answer = client.get(address)
    assert answer.status_code == status
    text = re.sub(r"<h1>", "|", answer.content.decode()).partition("|")[2]
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", text)).split()).replace(" ,", ",")


def now(row: Build) -> list[PaperRow]:
    return paper_rows(row, worked_of(row))


def test_a_sheet_that_is_printed_is_recorded_once_however_often_it_is_printed(
    client: Client, demonstration: Person, row: Build
) -> None:
    one = printed(client)
    assert (one.build, one.kind, one.title, one.component) == (row, "drilling", "Drilling sheet", "P01")
    assert (one.paper, one.options, one.times, one.person) == ("a4", {}, 1, demonstration)
    assert unpacked(one.facts) == sheet_facts("drilling", worked_of(row), "P01")
    assert [shown[:2] for shown in one.shows] == [["P01", "A"]]
    again = printed(client, query="component=P01&paper=letter")
    assert PrintedSheet.objects.count() == 1
    assert (again.times, again.paper, again.first_at == one.first_at, again.last_at > one.last_at) == (
        2, "letter", True, True,
    )  # fmt: skip
    client.head(f"{BUILD}/sheets/drilling.pdf?component=P01")
    assert PrintedSheet.objects.get().times == 2
    printed(client, "cut", "")
    assert PrintedSheet.objects.count() == 2
    assert worked_of(row).build == plain_of(Build.rows.get(number="TW-31"))


def test_a_viewer_prints_and_is_told_whether_paper_is_current(client: Client, row: Build) -> None:
    client.force_login(Person.objects.get(username="visitor"))
    one = printed(client)
    assert one.person == Person.objects.get(username="visitor")
    assert "Current" in words(client, f"/paper/{one.code}/")
    client.post(f"{BUILD}/sheets/printed/{one.code}/gone/")
    assert PrintedSheet.objects.get().gone


def test_a_long_sheet_is_recorded_when_it_is_printed_beside_the_page(
    client: Client, row: Build, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun: list[Printing] = []
    monkeypatch.setattr(jobs, "start", begun.append)
    monkeypatch.setattr(jobs, "LONG_ROWS", 0)
    client.get(f"{BUILD}/sheets/drilling.pdf?component=P01")
    assert not PrintedSheet.objects.exists()
    client.post(f"{BUILD}/sheets/printing/begin/", {"kind": "drilling", "component": "P01"})
    assert begun[0].address == "http://testserver"
    jobs.print_now(begun[0].pk)
    one = PrintedSheet.objects.get()
    assert (one.kind, one.component, one.person) == ("drilling", "P01", begun[0].person)


def test_the_command_records_what_it_prints_of_a_build_and_nothing_of_a_file(
    row: Build, tmp_path: Path
) -> None:
    out = str(tmp_path / "x.pdf")
    call_command("sheet", "cut", "TW-31", "-o", out)
    one = PrintedSheet.objects.get()
    assert (one.kind, one.person, one.times) == ("cut", None, 1)
    file = tmp_path / "b.json"
    file.write_bytes(write_build(plain_of(row)))
    call_command("sheet", "cut", str(file), "-o", out)
    assert PrintedSheet.objects.get().times == 1


def test_the_same_code_is_worked_out_of_a_file(client: Client, row: Build) -> None:
    from buildlog.sheets.stamping import stamp_of
    from calculators.planning.files import read_build
    from calculators.planning.inspection import inspect_build

    one = printed(client)
    again = inspect_build(read_build(write_build(plain_of(row))))
    assert stamp_of(again, "drilling", "P01").code == one.code


def test_current_paper_is_said_to_be_current(client: Client, row: Build) -> None:
    one = printed(client)
    says = words(client, f"/paper/{one.code}/")
    assert says.startswith(
        f"Drilling sheet of P01 TW-31 Horizontal-pendulum demonstration seismograph, code {code_shown(one.code)}"
        " Current It says what the build says today. Print it again This paper"
    )
    assert "by Ines Hallam Revisions on it P01 A Code" in says


def test_paper_is_out_of_date_with_what_changed_by_whom_and_why(
    client: Client, demonstration: Person, row: Build
) -> None:
    one = printed(client)
    rob = Person.objects.get(username="rob")
    thinner(row, rob, reason="the plank was thinner")
    says = words(client, f"/paper/{one.code}/")
    assert (
        "Out of date 2 things on it are not so any more. Do not work from this paper. Print the new sheet"
        in says
    )
    assert re.search(rf"P01 revision A B [\d-]+ [\d:]+, {rob.name}", says)
    assert re.search(
        rf"P01 thickness 28 mm \(1 7/64 in\) 27\.2 mm \(1 5/64 in\) [\d-]+ [\d:]+, {rob.name}", says
    )
    assert re.search(
        rf"What was done since [\d-]+ [\d:]+, {rob.name}: P01: thickness is now 27.2 \(released again: P01 B\)",
        says,
    )
    assert "Why: the plank was thinner" in says
    page = client.get(f"/paper/{one.code}/").content.decode()
    assert f'href="{BUILD}/sheets/drilling.pdf?paper=a4&amp;component=P01"' in page
    assert f'href="{BUILD}/history/"' in page
    new = printed(client)
    assert new.code != one.code
    assert "Current" in words(client, f"/paper/{new.code}/")
    assert "Out of date" in words(client, f"/paper/{one.code}/")


@pytest.mark.parametrize(
    ("units", "was"), [("mm", "28 mm 27.2 mm"), ("in", "1 7/64 in"), ("both", "28 mm (1 7/64 in)")]
)
def test_what_changed_is_told_in_the_persons_units(
    units: str, was: str, client: Client, demonstration: Person, row: Build
) -> None:
    one = printed(client)
    thinner(row, demonstration)
    demonstration.units = units
    demonstration.save()
    assert f"P01 thickness {was}" in words(client, f"/paper/{one.code}/")


def test_what_is_taken_back_makes_paper_current_again(
    client: Client, demonstration: Person, row: Build
) -> None:
    one = printed(client)
    thinner(row, demonstration)
    assert "Out of date" in words(client, f"/paper/{one.code}/")
    undo(row, demonstration)
    assert "Current" in words(client, f"/paper/{one.code}/")


def test_a_build_with_another_number_and_names_leaves_paper_current(
    client: Client, demonstration: Person, row: Build
) -> None:
    one = printed(client)
    change_build(row, demonstration, lambda build: replace(build, number="TW-99", title="Else"), "Renamed")
    assert "Current" in words(client, f"/paper/{one.code}/")


def test_paper_of_a_part_that_is_gone_is_not_worked_from(
    client: Client, demonstration: Person, row: Build, for_a_reason: None
) -> None:
    one = printed(client, query="component=P41")
    change_build(row, demonstration, lambda build: remove(build, "component", "P41"), "Out", releases=False)
    says = words(client, f"/paper/{one.code}/")
    assert "P41 is not in the build any more. Do not work from this paper." in says
    assert "Print the new sheet" not in says
    assert "P41 all of it" in says


@pytest.mark.parametrize("typed", ["7KQ2-M4XD", "7kq2m4xd"])
def test_a_code_that_was_never_printed_here_is_a_sentence(typed: str, client: Client, row: Build) -> None:
    says = words(client, f"/paper/{typed}/", 404)
    assert "No sheet of your workshops was printed here with the code 7KQ2-M4XD." in says


@pytest.mark.parametrize("typed", ["x", "7KQ2-M4X", "<script>", "%00%00%00%00%00%00%00%00"])
def test_what_is_no_code_is_a_sentence(typed: str, client: Client, row: Build) -> None:
    if "%00" not in typed:
        assert "eight figures and letters in two groups" in words(client, f"/paper/{typed}/", 404)
    assert client.get(f"/paper/{typed}/").status_code == 404
    assert client.get(f"/paper/?code={typed}").status_code == 422


def test_a_code_that_is_typed_leads_to_its_page(client: Client, row: Build) -> None:
    one = printed(client)
    answer = client.get("/paper/", {"code": f" {code_shown(one.code).lower()} "})
    assert answer["Location"] == f"/paper/{one.code}/"
    assert "Code on the paper" in words(client, "/paper/")
    page = client.get("/paper/", {"code": "so it is"}).content.decode()
    assert 'value="so it is"' in page
    assert 'aria-invalid="true"' in page


def test_a_stranger_learns_no_more_of_a_code_than_of_one_that_is_not(client: Client, row: Build) -> None:
    one = printed(client)
    stranger = Person.objects.create(username="stranger")
    begin_workshop("Elsewhere", stranger)
    client.force_login(stranger)
    here, nowhere = (client.get(f"/paper/{code}/") for code in (one.code, "7KQ2M4XD"))
    assert here.status_code == nowhere.status_code == 404
    without = [
        re.sub(r'value="\w{64}"|"X-CSRFToken": "\w+"', "", each.content.decode()) for each in (here, nowhere)
    ]
    shown = without[0].replace(one.code, "7KQ2M4XD").replace(code_shown(one.code), "7KQ2-M4XD")
    assert shown == without[1]
    assert client.post(f"{BUILD}/sheets/printed/{one.code}/gone/").status_code == 404


def test_nobody_is_asked_to_sign_in_and_comes_back_to_the_paper(
    client: Client, row: Build, settings: LazySettings
) -> None:
    one = printed(client)
    settings.DEMO = False
    answer = Client().get(f"/paper/{one.code}/")
    assert answer["Location"] == f"/sign-in/?next=%2Fpaper%2F{one.code}%2F"


def test_the_same_build_in_two_workshops_has_one_code_and_each_is_told_apart(
    client: Client, demonstration: Person, row: Build
) -> None:
    one = printed(client)
    other = begin_workshop("Boat shed", demonstration)
    twin = begin_build(other, demonstration, plain_of(row), "Begun")
    assert (
        client.get(f"/workshops/{other.slug}/builds/TW-31/sheets/drilling.pdf?component=P01").status_code
        == 200
    )
    assert list(twin.printed.values_list("code", flat=True)) == [one.code]
    thinner(row, demonstration)
    says = words(client, f"/paper/{one.code}/")
    assert re.search(r"Boat shed Current .* Thornbank Workshop Out of date", says)
    Membership.objects.filter(person=demonstration, workshop=other).delete()
    assert "Boat shed" not in words(client, f"/paper/{one.code}/")


def test_paper_that_is_thrown_away_counts_no_more_until_it_is_printed_or_taken_back(
    client: Client, demonstration: Person, row: Build
) -> None:
    one = printed(client)
    thinner(row, demonstration)
    says = words(client, f"{BUILD}/paper/")
    assert "1 is out of date" in says
    answer = client.post(
        f"{BUILD}/sheets/printed/{one.code}/gone/", {"next": f"/paper/{one.code}/"}, follow=True
    )
    assert f"The drilling sheet {code_shown(one.code)} is thrown away." in answer.content.decode()
    assert [each.state for each in now(row)] == ["thrown away"]
    assert "None that is in use is out of date" in words(client, f"{BUILD}/paper/")
    client.post(
        f"{BUILD}/sheets/printed/{one.code}/gone/", {"back": "1", "next": "https://elsewhere.example/"}
    )
    assert [each.state for each in now(row)] == ["out of date"]
    client.post(f"{BUILD}/sheets/printed/{one.code}/gone/")
    undo(row, demonstration)
    assert printed(client).gone is False
    assert client.post(f"{BUILD}/sheets/printed/7KQ2M4XD/gone/").status_code == 404


def test_the_paper_side_lists_finds_and_orders_printed_sheets(
    client: Client, demonstration: Person, row: Build
) -> None:
    for kind, query in (("drilling", "component=P01"), ("cut", ""), ("drilling", "component=P02")):
        printed(client, kind, query)
    thinner(row, demonstration)
    assert [(one.title, one.component, one.state) for one in now(row)] == [
        ("Drilling sheet", "P02", "current"), ("Cut sheet", "", "out of date"), ("Drilling sheet", "P01", "out of date"),
    ]  # fmt: skip
    assert "2 are out of date" in words(client, f"{BUILD}/paper/")
    assert "2 of 3 printed sheets" in words(client, f"{BUILD}/paper/?find=out+of+date")
    assert "1 of 3 printed sheets" in words(client, f"{BUILD}/paper/?find=current")
    assert "3 of 3" not in words(client, f"{BUILD}/paper/?find=P01")
    for sort in ("sheet", "-sheet", "code", "printed", "by", "state", "nonsense"):
        assert client.get(f"{BUILD}/paper/?sort={sort}").status_code == 200


def test_the_part_and_the_first_page_say_that_paper_is_out_of_date(
    client: Client, demonstration: Person, row: Build
) -> None:
    printed(client)
    printed(client, "cut", "")
    printed(client, query="component=P02")
    for address in (f"{BUILD}/parts/P01/", "/"):
        assert "out of date" not in words(client, address)
    thinner(row, demonstration)
    assert "2 printed sheets show revision A: out of date." in words(client, f"{BUILD}/parts/P01/")
    assert "out of date" not in words(client, f"{BUILD}/parts/P02/")
    assert "On the wall 2 printed sheets are out of date." in words(client, "/")
    printed(client)
    thinner(row, demonstration, "26")
    assert papers_of_part(row, worked_of(row), "P01") == [("A", 2), ("B", 1)]
    says = words(client, f"{BUILD}/parts/P01/")
    assert "1 printed sheet shows revision B: out of date." in says


def test_a_sheet_of_many_parts_is_not_held_against_those_that_are_as_they_were(
    client: Client, demonstration: Person, row: Build
) -> None:
    printed(client, "cut", "")
    thinner(row, demonstration)
    assert papers_of_part(row, worked_of(row), "P01") == [("A", 1)]
    assert papers_of_part(row, worked_of(row), "P02") == []


def test_the_number_of_queries_hangs_on_nothing(client: Client, demonstration: Person, row: Build) -> None:
    def asked(*addresses: str) -> list[int]:
        counts = []
        for address in addresses:
            client.get(address)
            with CaptureQueriesContext(connection) as queries:
                assert client.get(address).status_code == 200
            counts.append(len(queries))
        return counts

    one = printed(client)
    thinner(row, demonstration)
    addresses = (f"/paper/{one.code}/", f"{BUILD}/paper/", f"{BUILD}/parts/P01/", "/")
    few = asked(*addresses)
    for mark in ("P02", "P10", "P11", "P12", "P20", "P21"):
        for kind in ("drilling", "cut"):
            printed(client, kind, f"component={mark}")
    for size in ("26", "25", "24", "23"):
        thinner(row, demonstration, size)
    assert asked(*addresses) == few
    assert few[0] <= 12


def test_the_record_goes_with_its_build_and_stays_out_of_the_build_file(
    client: Client, demonstration: Person, row: Build
) -> None:
    before = write_build(plain_of(row))
    printed(client)
    assert write_build(plain_of(Build.rows.get(number="TW-31"))) == before
    delete_build(row, "TW-31")
    assert not PrintedSheet.objects.exists()


def test_two_who_print_at_the_same_moment_make_one_record(
    demonstration: Person, row: Build, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The second finds no record to count up, and then one when it makes its own."""
    worked = worked_of(row)
    record_printed(row, demonstration, worked, "cut", "Cut sheet", paper="a4")
    honest, asked = QuerySet.update, []

    def update(rows: Any, **values: Any) -> int:
        asked.append(values)
        return 0 if len(asked) == 1 else honest(rows, **values)

    monkeypatch.setattr(QuerySet, "update", update)
    record_printed(row, demonstration, worked, "cut", "Cut sheet", paper="letter")
    one = row.printed.get()
    assert (one.times, one.paper) == (2, "letter")


def test_facts_are_kept_whole_and_small(row: Build) -> None:
    facts = sheet_facts("drilling", worked_of(row))
    kept = packed(facts)
    assert unpacked(kept) == facts
    assert len(kept) < 20_000


@pytest.mark.parametrize(
    ("query", "chosen"),
    [
        ("component=P11&face=top&mirror=1", "True-size template of P11 (top face, mirrored), TW-31"),
        ("component=P11&along=100&across=100", "True-size template of P11, TW-31"),
        (
            "component=P11&face=bottom&printer=our+laser&along=100.604&across=99.8",
            "True-size template of P11 (bottom face, for our laser, "
            "each 100 drawn 100.604 along and 99.8 across the paper), TW-31",
        ),
    ],
)
def test_the_page_of_a_template_says_in_words_what_it_was_printed_for(
    client: Client, row: Build, demonstration: Person, query: str, chosen: str
) -> None:
    client.force_login(demonstration)
    sheet = printed(client, "template", query)
    assert chosen in words(client, f"/paper/{sheet.code}/")
