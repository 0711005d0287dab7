"""The list of entries, one entry, and the decisions: who sees them, what they show, how often they ask."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date, timedelta

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.utils.html import escape

from buildlog.builds.actions import change_build
from buildlog.builds.models import Build
from buildlog.builds.queries import _PLAIN
from buildlog.pictures.actions import keep_picture
from buildlog.pictures.reading import read_picture
from buildlog.workshops.models import Person, Workshop
from calculators.planning import model as plain
from calculators.planning.edits import put

pytestmark = pytest.mark.database

HERE = "/workshops/shed/builds/B1/journal/"
PAGES = (HERE, f"{HERE}entries/e2/", f"{HERE}decisions/")
Photograph = Callable[..., SimpleUploadedFile]


def add(row: Build, *entries: plain.Entry) -> None:
    def edit(build: plain.Build) -> plain.Build:
        for entry in entries:
            build = put(build, "entry", entry)
        return build

    change_build(row, None, edit, "Added")


def page(client: Client, address: str = HERE, **asked: str) -> str:
    answer = client.get(address, asked)
    assert answer.status_code == 200
    return answer.content.decode()


def dates(html: str) -> list[str]:
    return re.findall(r"<h2[^>]*><a[^>]*>(\d{4}-\d\d-\d\d)</a>", html)


@pytest.mark.parametrize("address", PAGES)
def test_members_read_it_a_stranger_gets_404_and_nobody_signs_in(
    address: str, client: Client, row: Build, owner: Person, maker: Person, viewer: Person, stranger: Person
) -> None:
    assert client.get(address)["Location"].startswith("/sign-in/")
    for person in (owner, maker, viewer):
        client.force_login(person)
        html = page(client, address)
        assert "Brass, not steel: it shows." in html
        assert ("<textarea" in html) == (person != viewer and "decisions" not in address)
        assert ("Delete this entry" in html) == (person != viewer and "entries" in address)
    client.force_login(stranger)
    assert client.get(address).status_code == 404
    assert client.post(address).status_code == 404


def test_entries_stand_newest_first_with_all_that_they_hold(as_maker: Client) -> None:
    html = page(as_maker)
    assert dates(html) == ["2026-01-09", "2026-01-07", "2026-01-05"]
    assert "Glued <strong>two</strong> legs." in html
    assert "<b>Decided:</b> Brass, not steel: it shows." in html
    assert "<b>Next time:</b> Clean them up" in html
    assert '<a class="mark" href="/workshops/shed/builds/B1/joints/F03/">F03</a>' in html
    assert '<a class="mark" href="/workshops/shed/builds/B1/parts/P11/">P11</a>' in html
    assert "2 h 30 min</span>" in html
    assert "3 entries, newest first, 3 h 15 min of work" in html


def test_of_one_day_the_later_entry_stands_first(as_maker: Client, row: Build) -> None:
    add(row, plain.Entry("e4", date(2026, 1, 9), "Drilled again."))
    html = page(as_maker)
    assert html.index("Drilled again.") < html.index("Drilled.")


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ({"find": "legs"}, ["2026-01-07", "2026-01-05"]),
        ({"find": "LEGS glued"}, ["2026-01-07"]),
        ({"find": "brass"}, ["2026-01-09"]),
        ({"find": "clean"}, ["2026-01-07"]),
        ({"find": "2026-01-05"}, ["2026-01-05"]),
        ({"mark": "P11"}, ["2026-01-05"]),
        ({"mark": "F03", "find": "sawed"}, []),
        ({"decisions": "1"}, ["2026-01-09"]),
        ({"decisions": "1", "mark": "P11"}, []),
        ({"mark": "P99"}, []),
        ({"find": "<b>'\"&"}, []),
        ({"find": "\0" * 300, "page": "minus one", "mark": "x" * 5000}, []),
        ({"page": "99"}, ["2026-01-09", "2026-01-07", "2026-01-05"]),
    ],
)  # fmt: skip
def test_entries_are_found_by_words_marks_and_decisions(
    as_maker: Client, asked: dict[str, str], found: list[str]
) -> None:
    html = page(as_maker, **asked)
    assert dates(html) == found
    assert ("No entry has that." in html) == (not found)
    assert ("Show all 3" in html) == (asked.get("page") != "99")


def test_a_caption_is_found_and_the_search_is_carried_to_the_next_page(as_maker: Client, row: Build) -> None:
    picture = plain.Photograph("f1", "0" * 64, 10, 10, "The flange, squared")
    add(row, plain.Entry("e9", date(2026, 1, 1), "", photographs=(picture,)))
    assert dates(page(as_maker, find="flange")) == ["2026-01-01"]
    add(row, *(plain.Entry(f"n{i}", date(2025, 1, 1) + timedelta(i), "Sanded & oiled") for i in range(45)))
    html = page(as_maker, find="sanded & oiled")
    assert len(dates(html)) == 20
    assert "Page 1 of 3" in html
    assert '?find=sanded+%26+oiled&amp;page=3"' in html
    assert len(dates(page(as_maker, find="sanded & oiled", page="3"))) == 5


def test_nothing_yet_is_said_in_a_sentence(
    client: Client, shop: Workshop, row: Build, viewer: Person
) -> None:
    from buildlog.builds.actions import begin_build

    begin_build(shop, None, plain.Build("B2", "Bench"), "Begun")
    client.force_login(viewer)
    assert "No entry has been written yet." in page(client, HERE.replace("B1", "B2"))
    assert "Nothing has been decided yet." in page(client, HERE.replace("B1", "B2") + "decisions/")


def test_photographs_are_shown_small_and_lead_to_the_full_ones(
    as_maker: Client, row: Build, shop: Workshop, photograph: Photograph
) -> None:
    kept = keep_picture(shop, read_picture(photograph().read(), "x"))
    pictures = (
        plain.Photograph("f1", kept.digest, 600, 300, 'The 3/8" flange'),
        plain.Photograph("f2", kept.digest, 600, 300),
        plain.Photograph("f3", "0" * 64, 600, 300, "not here"),
    )
    add(row, plain.Entry("e4", date(2026, 1, 10), "", photographs=pictures))
    html = page(as_maker)
    small = f"/workshops/shed/pictures/{kept.digest}-small.jpg"
    assert f'<img src="{small}" alt="The 3/8&quot; flange" loading="lazy">' in html
    assert f'<img src="{small}" alt="Photograph 2 of 2026-01-10" loading="lazy">' in html
    assert html.count("This photograph was not brought along.") == 1
    for size in ("small", "full"):
        answer = as_maker.get(f"/workshops/shed/pictures/{kept.digest}-{size}.jpg")
        assert (answer.status_code, answer["Content-Type"]) == (200, "image/jpeg")


def test_a_picture_is_for_its_workshop_alone(
    client: Client, row: Build, shop: Workshop, photograph: Photograph, viewer: Person, stranger: Person
) -> None:
    kept = keep_picture(shop, read_picture(photograph().read(), "x"))
    address = f"/workshops/shed/pictures/{kept.digest}-full.jpg"
    assert client.get(address)["Location"].startswith("/sign-in/")
    client.force_login(stranger)
    assert client.get(address).status_code == 404
    assert client.get(address.replace("shed", "elsewhere")).status_code == 404
    client.force_login(viewer)
    assert client.get(address).status_code == 200


def test_markdown_holds_no_script_and_text_of_any_script_stands_as_written(
    as_maker: Client, row: Build
) -> None:
    text = "<script>alert(1)</script>\n\n[x](javascript:alert(1)) ![p](http://example.org/p.png)\n\nقاعدة الساعة \"بلوط\" & 'oak'"
    add(
        row,
        plain.Entry(
            "e4", date(2026, 1, 10), text, decision="<img src=x onerror=alert(1)>", next_time='قص "اللوح"'
        ),
    )
    html = page(as_maker)
    assert "<script>alert" not in html
    assert '<a href="javascript:' not in html
    assert "<img src=x" not in html
    assert "قاعدة الساعة" in html
    assert escape('قص "اللوح"') in html
    assert "<script>alert" not in page(as_maker, f"{HERE}entries/e4/")


def test_headings_of_an_entry_stand_below_that_of_the_entry(as_maker: Client, row: Build) -> None:
    add(row, plain.Entry("e4", date(2026, 1, 10), "# Legs\n\nSeat\n----\n\n###### Small"))
    html = page(as_maker)
    assert "<h3>Legs</h3>" in html
    assert "<h4>Seat</h4>" in html
    assert "<h6>Small</h6>" in html
    assert html.count("<h1>") == 1


def test_decisions_stand_on_one_page_with_their_dates(as_maker: Client, row: Build) -> None:
    add(
        row,
        plain.Entry("e4", date(2026, 2, 1), "x", decision="Oak for the seat"),
        plain.Entry("e5", date(2026, 2, 2), "y"),
    )
    html = page(as_maker, f"{HERE}decisions/")
    assert re.findall(r">(\d{4}-\d\d-\d\d)</a></td>", html) == ["2026-02-01", "2026-01-09"]
    assert "2 decisions, newest first" in html


def test_an_entry_that_is_not_there_is_404(as_maker: Client) -> None:
    for key in ("e9", "x" * 200, "ع", "%00", "..%2f"):
        assert as_maker.get(f"{HERE}entries/{key}/").status_code == 404
        assert as_maker.post(f"{HERE}entries/{key}/", {"text": "x", "date": "2026-01-01"}).status_code == 404
        assert as_maker.post(f"{HERE}entries/{key}/delete/").status_code == 404
    assert as_maker.get(f"{HERE}entries/e1/delete/").status_code == 405
    assert as_maker.post(f"{HERE}decisions/").status_code == 405
    assert as_maker.put(HERE).status_code == 405


@pytest.mark.parametrize("address", PAGES)
def test_a_page_asks_no_more_often_when_entries_are_added(
    address: str, as_maker: Client, row: Build, shop: Workshop, photograph: Photograph
) -> None:
    def asked() -> int:
        _PLAIN._things.clear()
        with CaptureQueriesContext(connection) as queries:
            page(as_maker, address)
        return len(queries)

    def entry(number: int, days: int) -> plain.Entry:
        kept = keep_picture(shop, read_picture(photograph(number).read(), "x"))
        picture = plain.Photograph(f"f{number}", kept.digest, 600, 300)
        return plain.Entry(
            f"n{number}",
            date(2025, 1, 1) + timedelta(days),
            "x",
            marks=("P11",),
            decision="y",
            photographs=(picture,),
        )

    add(row, entry(1, 500))
    before = asked()
    add(row, *(entry(number, number) for number in range(2, 40)))
    assert asked() == before <= 14
