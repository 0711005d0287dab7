"""Markup, formulas and strange signs in every text of a build: on every page, sheet and file that shows it."""

from __future__ import annotations

import csv
import io
import json
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from django.test import Client

from buildlog.builds.actions import begin_build
from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of, worked_of
from buildlog.sheets.making import KINDS, sheet_html
from buildlog.sheets.printing import OwnFiles
from buildlog.sheets.spreadsheets import SPREADSHEETS
from buildlog.workshops.models import Person, Workshop
from calculators.planning.files import read_build
from calculators.quantities.errors import InputError

pytestmark = [pytest.mark.database, pytest.mark.shows]

HOSTILE = "=x\"'><svg onload=alert(1)></script></style></title></textarea><img src=http://evil.example/x>"
NAME = "X<b onclick=alert(1)>"
FIXED = {
    "schema_version", "number", "unit", "state", "issued", "due", "mark", "id", "parent", "shape", "stock", "material",
    "fastener", "face", "home", "part", "zone", "as_of", "date", "digest", "marks", "fits", "needs", "joint", "joints",
    "kind", "role", "hardware", "washer", "nut", "grain", "thread", "drills", "tapped", "written", "along", "access",
    "driving", "head", "lock", "fit", "hole", "through", "calculator",
}  # fmt: skip


def poisoned(text: str) -> str:
    """A build file whose texts that a person writes freely are all hostile, as far as it then still reads."""
    whole = json.loads(text)
    places: list[tuple[dict[str, object], str]] = []

    def walk(thing: object) -> None:
        if isinstance(thing, dict):
            for key, value in thing.items():
                if isinstance(value, str) and key not in FIXED:
                    places.append((thing, key))
                walk(value)
        elif isinstance(thing, list):
            for each in thing:
                walk(each)

    walk(whole)
    kept = 0
    for name in dict.fromkeys(key for _, key in places):
        mine = [(thing, key, thing[key]) for thing, key in places if key == name]
        for thing, key, _ in mine:
            thing[key] = HOSTILE
        try:
            read_build(json.dumps(whole).encode())
            kept += 1
        except InputError:
            for thing, key, old in mine:
                thing[key] = old
    assert kept >= 6, kept
    whole["number"] = 'TW"><b>-9'
    return json.dumps(whole)


class Tags(HTMLParser):
    """The names of all tags, and what stands in them that could run or fetch."""

    def __init__(self) -> None:
        super().__init__()
        self.bad: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            fetches = name in ("src", "href", "action") and str(value).startswith(("http:", "https:", "//"))
            if name.startswith("on") or fetches or str(value).lower().startswith("javascript:"):
                self.bad.append(f"<{tag} {name}={value}>")


def ran(page: str) -> list[str]:
    tags = Tags()
    tags.feed(page)
    return tags.bad


@pytest.fixture
def row(demonstration: Person) -> Build:
    demonstration.name = NAME
    demonstration.save()
    workshop = Workshop.objects.get()
    workshop.name = HOSTILE[:100]
    workshop.save()
    file = Path("buildlog/builds/demonstration/TW-31.json").read_text(encoding="utf-8")
    build = read_build(poisoned(file).encode())
    return begin_build(workshop, demonstration, build, f"Read {HOSTILE}")


def test_no_page_runs_or_fetches_what_a_person_wrote(row: Build, client: Client) -> None:
    build = plain_of(row)
    from django.urls import reverse

    here = (row.workshop.slug, row.number)
    sides = "check parts joints holes cut order fasteners buying paper about history keeping"
    addresses = [reverse(f"builds:{name}", args=here) for name in sides.split()]
    addresses += [reverse("builds:component", args=(*here, one.mark)) for one in build.components[:12]]
    addresses += [f"{reverse('builds:parts', args=here)}?change={one.mark}" for one in build.components[:4]]
    for joint in build.joints[:6]:
        addresses += [
            reverse(f"builds:{name}", args=(*here, joint.mark))
            for name in ("joint", "joint-others", "joint-change", "joint-places")
        ]
        addresses.append(reverse("builds:joint-member", args=(*here, joint.mark, 0)))
    addresses += [reverse("builds:step", args=(*here, one.number)) for one in build.steps[:3]]
    addresses += [reverse("calculations:calculations", args=here)]
    for name in ("calculation", "change"):
        addresses += [reverse(f"calculations:{name}", args=(*here, one.mark)) for one in build.calculations]
    addresses += [reverse("journal:entries", args=here), reverse("journal:decisions", args=here)]
    addresses += [reverse("journal:entry", args=(*here, one.id)) for one in build.entries[:4]]
    addresses += ["/", "/account/", reverse("people:workshop", args=(row.workshop.slug,))]
    shown = 0
    for address in addresses:
        answer = client.get(address)
        assert answer.status_code == 200, address
        page = answer.content.decode()
        assert ran(page) == [], address
        assert "<svg onload" not in page, address
        shown += "&lt;svg onload=alert(1)&gt;" in page
    assert shown > len(addresses) / 2, "the hostile text must be shown, or nothing was tested"


@pytest.mark.parametrize("field", ["find", "sort", "change", "at", "mark", "page", "by", "kind", "face"])
def test_no_page_runs_what_an_address_asks(field: str, client: Client, demonstration: Person) -> None:
    at = "/workshops/thornbank-workshop/builds/TW-31/"
    for side in (
        "",
        "parts/",
        "joints/",
        "holes/",
        "cut/",
        "order/",
        "buying/",
        "journal/",
        "history/",
        "about/",
    ):
        page = client.get(at + side, {field: HOSTILE}).content.decode()
        assert ran(page) == []
        assert "<svg onload" not in page


@pytest.mark.parametrize("kind", KINDS)
def test_no_sheet_fetches_or_holds_markup_that_a_person_wrote(kind: str, row: Build) -> None:
    html = sheet_html(kind, worked_of(row))
    assert ran(html) == []
    assert "<svg onload" not in html
    assert "<img src=http" not in html


@pytest.mark.parametrize(
    "url",
    [
        "http://evil.example/x",
        "file:///etc/passwd",
        "file:///sheet/../../../../etc/passwd",
        "file:///sheet/%2e%2e/%2e%2e/manage.py",
        "file:///sheet//etc/passwd",
        "file:///sheet/../settings/base.py",
        "data:text/css,*{}",
        "ftp://evil.example/",
        "FILE:///etc/passwd",
        "file:///sheet/sheet.css\0",
    ],
)
def test_the_printer_fetches_our_own_files_alone(url: str) -> None:
    with pytest.raises(ValueError):
        OwnFiles().fetch(url)


@pytest.mark.parametrize("kind", SPREADSHEETS)
def test_no_cell_of_a_spreadsheet_is_a_formula(kind: str, row: Build) -> None:
    """OWASP, CSV injection: a cell that begins with = + - @, a tab or a return is worked out when opened."""
    for line in csv.reader(io.StringIO(SPREADSHEETS[kind].rows(worked_of(row)))):
        for cell in line:
            number = re.fullmatch(r"-?[0-9.]+", cell)
            assert number or not cell.startswith(("=", "+", "-", "@", "\t", "\r")), cell


def test_the_names_of_files_end_no_header(row: Build, client: Client) -> None:
    from django.urls import reverse

    here = (row.workshop.slug, row.number)
    for address in (
        reverse("builds:as-file", args=here),
        reverse("builds:as-archive", args=here),
        reverse("sheets:csv", args=(*here, "cut")),
        reverse("sheets:sheet", args=(*here, "cut")),
    ):
        answer = client.get(address)
        said = answer["Content-Disposition"]
        assert answer.status_code == 200, address
        assert answer["X-Content-Type-Options"] == "nosniff"
        assert re.fullmatch(r'(attachment|inline); filename="(\\"|[^"])*"', said), said
