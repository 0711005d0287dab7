"""The page of a template: what it will print, the readings typed back in, and the print that follows from them."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from html import unescape
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds.actions import begin_build, undo
from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of, worked_of
from buildlog.sheets.models import PrinterReading
from buildlog.sheets.printers import keep_readings, known_printers
from buildlog.workshops.models import Membership, Person, Role, Workshop
from calculators.planning.model import Build as PlainBuild
from calculators.planning.printers import PrinterReadings, readings_of
from tests.sheets.template_readback import read_pages

pytestmark = pytest.mark.database
BUILDS = "/workshops/thornbank-workshop/builds"
RAIL = f"{BUILDS}/TW-31/parts/P05/template/"


@pytest.fixture
def row(demonstration: Person) -> Build:
    return Build.rows.get(number="TW-31")


def keep(client: Client, address: str = RAIL, **typed: str) -> str:
    """Type readings in, and give the page that follows."""
    sent = {"along": "99.2", "across": "99.8", "printer": "the office laser"} | typed
    answer = client.post(address, sent, follow=True)
    assert answer.status_code == 200, answer.content.decode()[-2000:]
    return unescape(answer.content.decode())


def print_at(page: str) -> str:
    return f"{BUILDS}/TW-31/sheets/template.pdf?" + unescape(
        re.search(r'sheets/template\.pdf\?([^"]*)"', page)[1]  # type: ignore[index]
    )


def test_the_page_says_how_many_pages_it_will_be_with_their_map(client: Client, row: Build) -> None:
    page = unescape(client.get(RAIL).content.decode())
    assert "Template of P05 Lid rail, long" in page
    assert "3 pages, not corrected for a printer." in page
    assert "Print 3 pages" in page
    assert "Bottom: 3 pages on the long side, 1A, 2A, 3A" in page
    assert page.count('class="template-map"') == 1
    assert "Holes of the bottom" in page


def test_the_readings_correct_the_next_print_which_is_then_true(client: Client, row: Build) -> None:
    """Journey 4: print, lay a rule on both check rules, type both in, print again, and it is true."""
    plate = f"{BUILDS}/TW-31/parts/P41/template/"
    page = client.get(plate).content.decode()
    first = read_pages(client.get(print_at(page)).content)
    # A printer that shrinks 0.8 % along and 0.2 % across the paper: what a rule laid on this print reads.
    along, across = (first[0].rules[way][1] for way in ("upright", "level"))
    assert (along, across) == (pytest.approx(250, abs=0.005), pytest.approx(180, abs=0.005))
    page = keep(client, plate, along="99.2", across="99.8")
    assert "Corrected for the office laser: 0.81 % longer along and 0.2 % longer across the paper" in page
    assert "Not true along the paper:" in page
    second = read_pages(client.get(print_at(page)).content)
    along, across = (second[0].rules[way][1] for way in ("upright", "level"))
    assert along * 0.992 == pytest.approx(250, abs=0.005)
    assert across * 0.998 == pytest.approx(180, abs=0.005)
    assert "Corrected for the office laser" in second[0].text
    # The corrected print is read again: as long as it should be, so nothing changes any more.
    drawn = dict(re.findall(r'name="(along_drawn|across_drawn)" value="([^"]*)"', page))
    assert drawn == {"along_drawn": "100.806", "across_drawn": "100.2"}
    page = keep(client, plate, along="100", across="100,0 mm", **drawn)
    assert "True. Prints of it can be marked out from." in re.sub("</?b>", "", page)
    assert print_at(page).endswith("along=100.806&across=100.2")
    assert not [one for one in worked_of(Build.rows.get(pk=row.pk)).findings if one.rule == "printer-checked"]


def test_readings_are_kept_in_the_build_for_its_check_and_its_file(client: Client, row: Build) -> None:
    keep(client)
    context = plain_of(Build.rows.get(pk=row.pk)).context
    assert (context.printer, context.printer_along_mm, context.printer_across_mm) == (
        "the office laser",
        Decimal("99.2"),
        Decimal("99.8"),
    )
    assert (context.printer_along_drawn_mm, context.printer_across_drawn_mm) == (Decimal(100), Decimal(100))
    assert context.printer_on is not None
    found = [one for one in worked_of(Build.rows.get(pk=row.pk)).findings if one.rule == "printer-checked"]
    assert [one.says for one in found] == [
        "The check rule of 100 mm measures 99.2 along the paper of the office laser, 0.8 mm too short: holes "
        "pricked through at 500 mm would be 4 mm off."
    ]
    assert found[0].mends[0].says == (
        "Print the template again at 100 %, corrected for these readings, and type in what its check rules "
        "measure then."
    )


def test_the_finding_leads_to_the_page_where_readings_are_typed_in(client: Client, row: Build) -> None:
    page = client.get(f"{BUILDS}/TW-31/").content.decode()
    assert f'href="{BUILDS}/TW-31/template/#id_along"' in page
    there = client.get(f"{BUILDS}/TW-31/template/").content.decode()
    assert 'id="id_along"' in there
    assert 'id="id_across"' in there


def test_other_builds_of_the_workshop_know_the_printer(client: Client, row: Build) -> None:
    keep(client)
    page = unescape(client.get(f"{BUILDS}/TW-32/parts/A1/template/").content.decode())
    assert "Corrected for the office laser" in page
    assert "Use these readings in TW-32" in page
    other = Build.rows.get(number="TW-32")
    assert plain_of(other).context.printer == ""
    client.post(f"{BUILDS}/TW-32/parts/A1/template/", {"take": "the office laser"})
    assert plain_of(Build.rows.get(pk=other.pk)).context.printer_along_mm == Decimal("99.2")


def test_undone_readings_correct_nothing_any_more(client: Client, row: Build, demonstration: Person) -> None:
    keep(client)
    undo(Build.rows.get(pk=row.pk), demonstration)
    now = Build.rows.get(pk=row.pk)
    assert readings_of(plain_of(now).context) is None
    assert known_printers(row.workshop, plain_of(now)) == []
    assert "not corrected for a printer" in client.get(RAIL).content.decode()


def test_the_readings_of_before_count_again_when_the_last_are_undone(
    client: Client, row: Build, demonstration: Person
) -> None:
    keep(client, along="99.2")
    keep(client, along="98.0")
    undo(Build.rows.get(pk=row.pk), demonstration)
    now = Build.rows.get(pk=row.pk)
    assert [one.along_mm for one in known_printers(row.workshop, plain_of(now))] == [Decimal("99.2")]


def test_readings_of_one_printer_are_not_kept_without_end(row: Build, demonstration: Person) -> None:
    small = begin_build(row.workshop, demonstration, PlainBuild("S1", "Small"), "Begun")
    for i in range(24):
        read = PrinterReadings("office", Decimal("99") + i, Decimal("100"), on=date(2025, 6, 6))
        keep_readings(small, row.workshop, demonstration, read)
    kept = PrinterReading.objects.filter(workshop=row.workshop).order_by("id")
    assert [one.along_mm for one in kept] == [Decimal("99") + i for i in range(4, 24)]


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"along": "50 mm"}, "'50 mm' is no reading of the 100 mm rule: it lies between 92 mm and 108 mm."),
        ({"across": "2 in"}, "'2 in' is no reading of the 4 in rule: it lies between 3.68 in and 4.32 in."),
        ({"along": ""}, "Write what the 100 mm rule measures, such as 99.2."),
        ({"across": "<b>"}, "cannot be read as a length"),
        ({"printer": ""}, "This field is required."),
        ({"along_drawn": "200"}, "A rule of 100 mm is drawn between 90 and 112 mm long."),
        ({"along": "92", "along_drawn": "112"}, "corrects no printer: it lies between 90 and 112 mm."),
    ],
)
def test_what_cannot_be_is_said_beside_its_field_and_nothing_typed_is_lost(
    typed: dict[str, str], says: str, client: Client, row: Build
) -> None:
    sent = {"along": "99.2", "across": "99.8", "printer": "the office laser"} | typed
    answer = client.post(RAIL, sent)
    page = unescape(answer.content.decode())
    assert answer.status_code == 422
    assert says in page
    for name, text in sent.items():
        assert f'name="{name}" value="{text}"' in page or not text
    assert PrinterReading.objects.count() == 0


def test_a_viewer_prints_but_types_nothing_in(client: Client, row: Build) -> None:
    viewer = Person.objects.create(username="viewer")
    Membership.objects.create(person=viewer, workshop=row.workshop, role=Role.VIEWER)
    client.force_login(viewer)
    page = client.get(RAIL).content.decode()
    assert "Print 3 pages" in page
    assert "Keep the readings" not in page
    assert client.post(RAIL, {"along": "99", "across": "99", "printer": "x"}).status_code == 403


def test_another_face_paper_and_mirror_are_chosen(client: Client, row: Build) -> None:
    page = unescape(
        client.get(f"{BUILDS}/TW-31/parts/P11/template/?face=left&paper=letter&mirror=1").content.decode()
    )
    assert "Left: 1 page, 1A" in page
    assert "component=P11&face=left&mirror=1&paper=letter&along=100&across=100" in page
    read = read_pages(client.get(print_at(page)).content)
    assert (read[0].width, read[0].height) == (pytest.approx(215.9, abs=0.01), pytest.approx(279.4, abs=0.01))
    assert "MIRRORED" in read[0].text


@pytest.mark.parametrize(
    ("address", "status"), [("?face=side", 422), ("?face=%00x", 422), ("?printer=%3Dnone", 200)]
)
def test_choices_that_there_are_not(address: str, status: int, client: Client, row: Build) -> None:
    assert client.get(RAIL + address).status_code == status


def test_pages_that_are_not_there(client: Client, row: Build) -> None:
    assert client.get(f"{BUILDS}/TW-31/parts/P99/template/").status_code == 404
    asked = f"{BUILDS}/TW-31/sheets/template.pdf?component=P05&"
    for wrong in ("face=side", "along=900", "along=abc", "printer=nobody", "along=nan", "along=1e999999"):
        assert client.get(asked + wrong).status_code == 404


def test_a_part_without_sizes_and_a_build_without_parts(
    client: Client, row: Build, demonstration: Person
) -> None:
    empty = begin_build(row.workshop, demonstration, PlainBuild("E1", "Nothing yet"), "Begun")
    page = client.get(f"{BUILDS}/{empty.number}/template/").content.decode()
    assert "No part of this build is made here" in page
    named = next(one.mark for one in plain_of(row).components if not one.size.shape)
    page = client.get(f"{BUILDS}/TW-31/parts/{named}/template/").content.decode()
    assert "No hole has been placed" in page


def test_the_page_asks_the_database_a_fixed_number_of_times(client: Client, row: Build, db: None) -> None:
    from django.db import connection

    counts = []
    for mark in ("P05", "P01", "P11"):
        client.get(f"{BUILDS}/TW-31/parts/{mark}/template/")
        with CaptureQueriesContext(connection) as asked:
            client.get(f"{BUILDS}/TW-31/parts/{mark}/template/")
        counts.append(len(asked))
    keep(client)
    with CaptureQueriesContext(connection) as asked:
        client.get(RAIL)
    assert set(counts) == {len(asked)}


def test_the_command_prints_for_a_printer_of_the_workshop(client: Client, row: Build, tmp_path: Path) -> None:
    keep(client)
    file = tmp_path / "t.pdf"
    call_command(
        "sheet", "template", "TW-32", component="A8", face="top", printer="The office laser", output=str(file)
    )
    page = read_pages(file.read_bytes())[0]
    assert page.rules["upright"][1] * 0.992 == pytest.approx(250, abs=0.01)


def test_a_printer_that_nobody_knows_is_asked_back(row: Build, tmp_path: Path) -> None:
    words = {"component": "P11", "printer": "nobody's", "output": str(tmp_path / "t.pdf")}
    with pytest.raises(CommandError) as ended:
        call_command("sheet", "template", "TW-31", **words)
    assert ended.value.returncode == 2
    assert str(ended.value) == (
        "Nothing is known of a printer called “nobody's”; no printer has been read yet. Print a template without "
        "it, measure its check rules and type the readings in on the template's page."
    )
    assert not list(tmp_path.iterdir())


def test_workshops_do_not_see_each_others_printers(client: Client, row: Build) -> None:
    keep(client)
    other = Workshop.objects.create(name="Another", slug="another")
    assert known_printers(other, PlainBuild("B1", "Box")) == []
