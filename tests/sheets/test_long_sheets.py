"""A sheet that takes long: begun beside the page, watched, cancelled, kept for a day; and schedules as CSV."""

from __future__ import annotations

import csv
import io
from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from buildlog.builds.lookup import demonstration_build
from buildlog.builds.models import Build
from buildlog.sheets import jobs
from buildlog.sheets.models import Printing, State
from buildlog.workshops.models import Person
from calculators.planning.inspection import inspect_build
from calculators.planning.schedules import buying_list, cut_list, hole_schedule

pytestmark = pytest.mark.database

SHEETS = "/workshops/thornbank-workshop/builds/TW-31/sheets"


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch) -> list[Printing]:
    """Printings that are begun and wait to be run by the test; every sheet is long."""
    begun: list[Printing] = []
    monkeypatch.setattr(jobs, "start", begun.append)
    monkeypatch.setattr(jobs, "LONG_ROWS", 0)
    monkeypatch.setattr(jobs, "LOOK_EVERY_SECONDS", 0.0)
    return begun


def test_a_long_sheet_is_begun_watched_and_opened(
    client: Client, demonstration: Person, held: list[Printing]
) -> None:
    answer = client.get(f"{SHEETS}/drilling.pdf?component=P01&paper=letter")
    assert answer["Location"] == f"{SHEETS}/printing/?kind=drilling&paper=letter&component=P01"
    page = client.get(answer["Location"]).content.decode()
    assert "Print it on US Letter" in page
    begun = client.post(
        f"{SHEETS}/printing/begin/", {"kind": "drilling", "paper": "letter", "component": "P01"}
    )
    page = client.get(begun["Location"]).content.decode()
    assert "Waiting for its turn" in page
    assert "<progress" in page
    assert client.get(f"{begun['Location']}sheet.pdf").status_code == 404
    jobs.print_now(held[0].pk)
    assert "Open the PDF" in client.get(begun["Location"]).content.decode()
    pdf = client.get(f"{begun['Location']}sheet.pdf").content
    assert pdf.startswith(b"%PDF")
    held.clear()
    jobs.LONG_ROWS = 10_000
    assert client.get(f"{SHEETS}/drilling.pdf?component=P01&paper=letter").content == pdf


def test_it_tells_which_page_it_lays_out(
    client: Client, demonstration: Person, held: list[Printing], monkeypatch: pytest.MonkeyPatch
) -> None:
    client.post(f"{SHEETS}/printing/begin/", {"kind": "drilling"})
    told: list[str] = []
    tell = jobs._Watcher.tell
    monkeypatch.setattr(jobs._Watcher, "tell", lambda self, says: (told.append(says), tell(self, says))[1])
    jobs.print_now(held[0].pk)
    assert told[:2] == ["Working the build out", "Drawing"]
    assert "Laying out page 3" in told


def test_it_is_cancelled_between_two_pages_and_keeps_nothing(
    client: Client, demonstration: Person, held: list[Printing], monkeypatch: pytest.MonkeyPatch
) -> None:
    begun = client.post(f"{SHEETS}/printing/begin/", {"kind": "drilling"})
    told: list[str] = []
    tell = jobs._Watcher.tell

    def cancel_at_page_two(self: jobs._Watcher, says: str) -> None:
        told.append(says)
        if says == "Laying out page 2":
            client.post(f"{begun['Location']}cancel/")
        tell(self, says)

    monkeypatch.setattr(jobs._Watcher, "tell", cancel_at_page_two)
    jobs.print_now(held[0].pk)
    assert told[-1] == "Laying out page 2"
    found = Printing.objects.get()
    assert (found.state, found.pdf) == (State.CANCELLED, None)
    assert "Cancelled; nothing was printed." in client.get(begun["Location"]).content.decode()
    client.post(f"{begun['Location']}cancel/")
    assert client.get(f"{begun['Location']}sheet.pdf").status_code == 404


def test_a_fault_is_said_and_logged(
    client: Client,
    demonstration: Person,
    held: list[Printing],
    monkeypatch: pytest.MonkeyPatch,
    caplog: pytest.LogCaptureFixture,
) -> None:
    begun = client.post(f"{SHEETS}/printing/begin/", {"kind": "cut"})
    monkeypatch.setattr(jobs, "make_sheet", lambda *_, **__: 1 / 0)
    jobs.print_now(held[0].pk)
    assert (
        "The sheet could not be printed; the fault is in the log."
        in client.get(begun["Location"]).content.decode()
    )
    assert "ZeroDivisionError" in caplog.text


def test_one_whose_process_has_gone_says_so_and_old_ones_go(
    client: Client, demonstration: Person, held: list[Printing]
) -> None:
    begun = client.post(f"{SHEETS}/printing/begin/", {"kind": "cut"})
    Printing.objects.update(seen_at=timezone.now() - timedelta(minutes=3))
    assert "the server was started anew" in client.get(begun["Location"]).content.decode()
    Printing.objects.update(made_at=timezone.now() - timedelta(hours=25))
    client.post(f"{SHEETS}/printing/begin/", {"kind": "cut"})
    assert Printing.objects.count() == 1


def test_a_viewer_prints_and_a_printing_of_another_build_is_not_found(
    client: Client, demonstration: Person, held: list[Printing]
) -> None:
    client.force_login(Person.objects.get(username="visitor"))
    begun = client.post(f"{SHEETS}/printing/begin/", {"kind": "cut"})
    assert client.get(begun["Location"]).status_code == 200
    elsewhere = begun["Location"].replace("TW-31", "TW-32")
    for address in (elsewhere, f"{elsewhere}sheet.pdf"):
        assert client.get(address).status_code == 404
    assert client.post(f"{elsewhere}cancel/").status_code == 404
    for sent in ({"kind": "x"}, {}, {"kind": "cut", "component": "P" * 41}):
        assert client.post(f"{SHEETS}/printing/begin/", sent).status_code == 404
    assert client.get(f"{SHEETS}/printing/?kind=x").status_code == 404


def test_each_schedule_is_csv_with_units_in_its_header(client: Client, demonstration: Person) -> None:
    worked = inspect_build(demonstration_build("TW-31"))
    expected = {
        "holes": (len(hole_schedule(worked.build, worked)), "u [mm]"),
        "cut": (len(cut_list(worked.build)), "length [mm]"),
        "shopping": (len(buying_list(worked.build, worked)), "area [m2]"),
        "assembly": (len(worked.build.steps), "caution"),
        "check": (len(worked.findings), "let stand because"),
        "fasteners": (None, "torque [N m]"),
    }
    for kind, (count, heading) in expected.items():
        answer = client.get(f"{SHEETS}/{kind}.csv")
        assert answer["Content-Type"] == "text/csv; charset=utf-8"
        assert answer["Content-Disposition"] == f'attachment; filename="TW-31-{kind}.csv"'
        rows = list(csv.DictReader(io.StringIO(answer.content.decode())))
        assert heading in rows[0]
        assert count is None or len(rows) == count
    assert client.get(f"{SHEETS}/nothing.csv").status_code == 404


def test_the_number_of_a_build_in_any_script_makes_a_safe_name_of_a_file(
    client: Client, demonstration: Person
) -> None:
    Build.rows.filter(number="TW-33").update(number='سبعة"; x=.pdf')
    answer = client.get('/workshops/thornbank-workshop/builds/سبعة"; x=.pdf/sheets/cut.csv')
    assert answer.status_code == 200
    assert answer["Content-Disposition"] == 'attachment; filename="---x-.pdf-cut.csv"'


def test_a_printing_that_is_asked_for_twice_is_begun_once_and_a_workshop_has_four_at_once(
    client: Client, demonstration: Person, held: list[Printing]
) -> None:
    first = client.post(f"{SHEETS}/printing/begin/", {"kind": "drilling"})
    again = client.post(f"{SHEETS}/printing/begin/", {"kind": "drilling"})
    assert first["Location"] == again["Location"]
    assert len(held) == 1
    for kind in ("cut", "fasteners", "shopping"):
        client.post(f"{SHEETS}/printing/begin/", {"kind": kind})
    page = client.post(f"{SHEETS}/printing/begin/", {"kind": "assembly"}, follow=True).content.decode()
    assert "4 sheets are being printed already; wait for one of them, or cancel it." in page
    assert len(held) == 4
    client.post(f"{first['Location']}cancel/")
    client.post(f"{SHEETS}/printing/begin/", {"kind": "assembly"})
    assert len(held) == 5


def test_a_printing_of_what_is_not_there_is_not_begun(
    client: Client, demonstration: Person, held: list[Printing]
) -> None:
    for sent in ({"kind": "cut", "component": "P999"}, {"kind": "cut", "component": "\0"}, {"kind": "no"}):
        assert client.post(f"{SHEETS}/printing/begin/", sent).status_code == 404
    assert held == []


def test_a_printing_whose_build_was_deleted_ends_quietly(
    client: Client, demonstration: Person, held: list[Printing]
) -> None:
    client.post(f"{SHEETS}/printing/begin/", {"kind": "drilling"})
    pk = held[0].pk
    Build.rows.get(number="TW-31").delete()
    jobs.print_now(pk)
    assert not Printing.objects.exists()
