"""What a build is, what its check depends on, and deleting it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from html import unescape

import pytest
from django.http import HttpResponse
from django.test import Client

from buildlog.builds.actions import change_build, fingerprint, undo
from buildlog.builds.header_forms import ContextForm
from buildlog.builds.models import Build, Record
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Person

pytestmark = pytest.mark.database
BUILDS = "/workshops/thornbank-workshop/builds"
ABOUT = f"{BUILDS}/TW-31/about/"


def row(number: str = "TW-31") -> Build:
    return Build.rows.get(number=number)


def seen() -> str:
    return fingerprint("build", plain_of(row()))


def text(answer: HttpResponse) -> str:
    return unescape(answer.content.decode())


def header(**more: str) -> dict[str, str]:
    build = plain_of(row())
    sent = {"what": "about", "number": build.number, "title": build.title, "purpose": build.purpose, "unit": build.unit,
            "client": build.client, "due": "", "state": build.state, "revision": "A", "issued": "2025-06-06",
            "drawn_by": build.drawn_by, "seen": seen()}  # fmt: skip
    return sent | more


def context(**more: str) -> dict[str, str]:
    now = plain_of(row()).context
    sent = {"what": "context", "drills": "\n".join(now.drills), "taps": "\n".join(now.taps), "cutters": "\n".join(now.cutters),
            "wood_screw_series": now.wood_screw_series, "wood_screw_head_angle_deg": "90", "tapping_percent": "",
            "moisture_change_percent": "5", "currency": "GBP", "zone": "Europe/London", "as_of": "2025-06-06", "limits": "",
            "seen": seen()}  # fmt: skip
    shown = ContextForm(initial=ContextForm.of(now))
    names = (
        "place_moisture_percent",
        "position_mm",
        "hardware",
        "printer_along_mm",
        "printer_across_mm",
        "printer_on",
    )
    return sent | {name: str(shown[name].value() or "") for name in names} | more


def test_what_is_shown_saved_again_changes_nothing(client: Client, demonstration: Person) -> None:
    before = plain_of(row())
    page = text(client.get(ABOUT))
    assert "What was written stays as it was written" in page
    for sent in (header(), context()):
        assert "Nothing was changed: it is so already." in text(client.post(ABOUT, sent, follow=True))
    assert plain_of(row()) == before


def test_every_field_of_the_header_is_changed(client: Client, demonstration: Person) -> None:
    answer = client.post(ABOUT, header(number="TW-99", title="صندوق", purpose="To hear\r\nearthquakes", client="", due="2026-03-01",
                                       state="setting up", revision="B", issued="", drawn_by="Rob"))  # fmt: skip
    assert (answer.status_code, answer["Location"]) == (302, f"{BUILDS}/TW-99/about/")
    build = plain_of(row("TW-99"))
    assert (build.title, build.client, build.due, build.state) == (
        "صندوق",
        "",
        date(2026, 3, 1),
        "setting up",
    )
    assert (build.revision, build.issued, build.drawn_by) == ("B", None, "Rob")
    assert row("TW-99").due == date(2026, 3, 1)
    assert client.get(ABOUT).status_code == 404
    assert "TW-99: number TW-99" in text(client.get(answer["Location"]))


def test_a_change_of_unit_leaves_what_was_written(client: Client, demonstration: Person) -> None:
    documents = list(Record.objects.order_by("pk").values_list("document", flat=True))
    client.post(ABOUT, header(unit="in"))
    assert plain_of(row()).unit == "in"
    assert list(Record.objects.order_by("pk").values_list("document", flat=True)) == documents


@pytest.mark.usefixtures("for_a_reason")  # other holes follow from another percentage of thread
def test_the_context_is_changed(client: Client, demonstration: Person) -> None:
    client.post(ABOUT, context(drills="1.0-13.0 by 0.5\n\n  1/4 ", taps="M5", cutters="", wood_screw_series="inch-british",
                               wood_screw_head_angle_deg="82°", tapping_percent="70 %", moisture_change_percent="4,5",
                               currency="eur", zone="Europe/Paris", as_of="", limits="edge-distance 2.5"))  # fmt: skip
    now = plain_of(row()).context
    assert (now.drills, now.taps, now.cutters) == (("1.0-13.0 by 0.5", "1/4"), ("M5",), ())
    assert (now.wood_screw_series, now.wood_screw_head_angle_deg) == ("inch-british", Decimal(82))
    assert (now.tapping_percent, now.moisture_change_percent) == (Decimal(70), Decimal("4.5"))
    assert (now.currency, now.zone, now.as_of, now.limits) == (
        "EUR", "Europe/Paris", None, (("edge-distance", Decimal("2.5")),),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("half", "sent", "says"),
    [
        ("about", {"number": "TW-32"}, "There is a build with the number 'TW-32' already"),
        ("about", {"number": "a/b"}, "cannot stand in an address"),
        ("about", {"title": ""}, "This field is required."),
        ("about", {"due": "1 March"}, "Write the day as year-month-day, such as 2025-06-30."),
        ("about", {"due": "2025-02-30"}, "Write the day as year-month-day"),
        ("about", {"state": "lost"}, "Select a valid choice"),
        ("about", {"revision": "ABCDEFGHIJK"}, "it may have 10"),
        ("about", {"purpose": "x" * 20_001}, "20000"),
        ("context", {"drills": "13 blunt ones"}, "“13 blunt ones”: "),
        ("context", {"taps": "M5\nM5.7"}, "“M5.7”: "),
        ("context", {"cutters": "round one"}, "“round one”: "),
        ("context", {"tapping_percent": "lots"}, "“lots” is not a number"),
        ("context", {"tapping_percent": "0"}, "from 1 to 100"),
        ("context", {"tapping_percent": "1e400"}, "is not a number"),
        ("context", {"tapping_percent": "NaN"}, "is not a number"),
        ("context", {"moisture_change_percent": "31"}, "from 0 to 30"),
        ("context", {"currency": "pounds"}, "3 characters"),
        ("context", {"currency": "12£"}, "three letters"),
        ("context", {"zone": "Europe/Londn"}, "did you mean Europe/London"),
        ("context", {"zone": "../../etc/passwd"}, "There is no time zone"),
        ("context", {"limits": "2.5"}, "is no limit: write its name, then the number"),
        ("context", {"limits": "edge-distance wide"}, "“wide” is not a number"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_said_beside_its_field(
    half: str, sent: dict[str, str], says: str, client: Client, demonstration: Person
) -> None:
    before = plain_of(row())
    answer = client.post(ABOUT, (header if half == "about" else context)(**sent))
    assert answer.status_code == 422
    assert says in text(answer)
    assert plain_of(row()) == before
    typed = next(iter(sent.values()))
    assert not typed or typed[:200] in text(answer)


def test_the_second_of_two_sees_both_versions(client: Client, demonstration: Person) -> None:
    mine = header(title="My title")
    mine_context = context(zone="Europe/Paris")
    rob = Person.objects.get(username="rob")
    change_build(
        row(),
        rob,
        lambda b: replace(b, title="Rob's title", context=replace(b.context, zone="Asia/Tokyo")),
        "Rob's",
    )
    page = client.post(ABOUT, mine)
    assert page.status_code == 422
    assert "Rob's title" in text(page)
    assert 'value="My title"' in text(page)
    assert "changed by Rob Teasdale" in text(page)
    page = client.post(ABOUT, mine_context)
    assert "Asia/Tokyo" in text(page)
    assert f'action="{ABOUT}?what=context"' in text(page)
    again = {name: value for name, value in mine_context.items() if name != "what"} | {
        "seen": seen(),
        "conflict": "mine",
    }
    assert client.post(f"{ABOUT}?what=context", again).status_code == 302
    assert (plain_of(row()).context.zone, plain_of(row()).title) == ("Europe/Paris", "Rob's title")
    assert client.post(ABOUT, {"conflict": "theirs"}).status_code == 302
    undo(row(), demonstration)
    assert plain_of(row()).context.zone == "Asia/Tokyo"


def test_a_build_is_deleted_by_its_owner_who_types_its_number(client: Client, demonstration: Person) -> None:
    page = text(client.get(ABOUT))
    assert "This cannot be undone" in page
    answer = client.post(f"{ABOUT}delete/", {"typed": "TW-32"})
    assert answer.status_code == 422
    assert "Nothing was deleted: to delete this build, type its number, TW-31." in text(answer)
    assert 'value="TW-32"' in text(answer)
    assert Build.rows.count() == 3
    answer = client.post(f"{ABOUT}delete/", {"typed": " TW-31 "}, follow=True)
    assert answer.redirect_chain == [("/", 302)]
    assert "TW-31 is deleted from Thornbank Workshop" in text(answer)
    assert not Build.rows.filter(number="TW-31").exists()
    assert client.get(ABOUT).status_code == 404


def test_makers_change_and_do_not_delete_viewers_read(client: Client, demonstration: Person) -> None:
    client.force_login(Person.objects.get(username="rob"))
    assert "Delete TW-31" not in text(client.get(ABOUT))
    assert client.post(f"{ABOUT}delete/", {"typed": "TW-31"}).status_code == 403
    assert client.post(ABOUT, header(client="x")).status_code == 302
    client.force_login(Person.objects.get(username="visitor"))
    page = text(client.get(ABOUT))
    assert "Save what it is" not in page
    assert "Horizontal-pendulum" in page
    assert client.post(ABOUT, header(client="y")).status_code == 403
    client.force_login(Person.objects.create(username="stranger"))
    assert client.get(ABOUT).status_code == 404
    assert client.post(f"{ABOUT}delete/", {"typed": "TW-31"}).status_code == 404
    assert Build.rows.count() == 3
