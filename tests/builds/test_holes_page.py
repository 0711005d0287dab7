"""The page of the holes: all of them by part and face, found, ordered, in pages, each with its way on."""

from __future__ import annotations

import re

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds.actions import begin_build, change_build
from buildlog.builds.lookup import demonstration_build
from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Person, Workshop
from calculators.planning.inspection import inspect_build
from calculators.planning.lines import add_lines
from calculators.planning.model import Build as Plain
from calculators.planning.schedules import hole_schedule

pytestmark = pytest.mark.database

BUILDS = "/workshops/thornbank-workshop/builds"
HOLES = f"{BUILDS}/TW-31/holes/"


def of(page: str) -> int:
    return page.count("data-row")


def test_every_hole_has_the_number_of_its_drilling_sheet_and_a_way_to_its_joint_or_part(
    client: Client, demonstration: Person
) -> None:
    build = demonstration_build("TW-31")
    lines = hole_schedule(build, inspect_build(build))
    seen: list[tuple[str, str]] = []
    page_count = -(-len(lines) // 60)
    for page in range(1, page_count + 1):
        text = client.get(f"{HOLES}?page={page}").content.decode()
        assert of(text) == min(60, len(lines) - 60 * (page - 1))
        part = ""
        for found in re.finditer(
            r'rowgroup"[^>]*><a class="mark" href="[^"]*parts/([^/]+)/|data-row><td>(\d+)</td>', text
        ):
            part = found[1] or part
            if found[2]:
                seen.append((part, found[2]))
    assert seen == [(line.part, str(line.number)) for line in lines]
    first = client.get(HOLES).content.decode()
    joint = next(line for line in lines if line.joint)
    assert f'href="{BUILDS}/TW-31/joints/{joint.joint}/">{joint.joint}</a>' in first
    assert f"{len(lines)} holes, from the datum of each face" in first


def test_holes_are_found_by_joint_size_and_part_and_ordered_by_a_column(
    client: Client, demonstration: Person
) -> None:
    build = demonstration_build("TW-31")
    lines = hole_schedule(build, inspect_build(build))
    page = client.get(f"{HOLES}?find=F03").content.decode()
    assert of(page) == sum("F03" in (line.joint, line.note) for line in lines)
    assert of(page) > 1
    page = client.get(f"{HOLES}?sort=-diameter").content.decode()
    widest = max(line.diameter_mm or 0 for line in lines)
    first = re.search(r"data-row>(.*?)</tr>", page, re.DOTALL)
    assert first
    assert f"{widest:g}" in first[1]
    none = client.get(f"{HOLES}?find=hen's+tooth").content.decode()
    assert "No hole has all of “hen&#x27;s tooth” in its part" in none


def test_a_hole_of_its_own_leads_to_its_line(client: Client, demonstration: Person) -> None:
    workshop = Workshop.objects.get()
    row = begin_build(workshop, demonstration, Plain("BOX", "Box"), "Begun")
    change_build(row, None, lambda build: add_lines("part", "base 280 x 180 x 6 ply", build).build, "Filled")
    empty = client.get(f"{BUILDS}/BOX/holes/").content.decode()
    assert "No hole has been placed yet." in empty
    change_build(row, None, lambda build: add_lines("hole", "5 at 20,30", build, part="P01").build, "Drilled")
    page = client.get(f"{BUILDS}/BOX/holes/").content.decode()
    assert f'href="{BUILDS}/BOX/parts/P01/?hole=h1#feature">own, h1</a>' in page


def test_the_page_asks_as_often_for_many_holes_as_for_few_and_stays_short(
    client: Client, demonstration: Person
) -> None:
    row = begin_build(Workshop.objects.get(), demonstration, Plain("BOX", "Box"), "Begun")
    change_build(
        row, None, lambda build: add_lines("part", "base 2800 x 1800 x 60 oak", build).build, "Filled"
    )
    change_build(row, None, lambda build: add_lines("hole", "5 at 20,30", build, part="P01").build, "Drilled")
    address = f"{BUILDS}/BOX/holes/"
    client.get(address)
    with CaptureQueriesContext(connection) as few:
        client.get(address)
    many = "20 x 15 grid, dia 5, from 37,37 pitch 32 x 32"
    change_build(row, None, lambda build: add_lines("hole", many, build, part="P01").build, "Drilled")
    assert len(plain_of(Build.rows.get(number="BOX")).components[0].holes) == 301
    client.get(address)
    with CaptureQueriesContext(connection) as asked:
        page = client.get(address).content.decode()
    assert len(asked) == len(few) <= 8
    assert of(page) == 60
    assert "Rows 1 to 60 of 301" in page


def test_no_address_is_wrong_and_nothing_is_posted(client: Client, demonstration: Person) -> None:
    for query in ("sort=nothing", "page=0", "page=x", "find=%00", "sort=--u", "sort=u&page=99999"):
        assert client.get(f"{HOLES}?{query}").status_code == 200
    assert client.post(HOLES).status_code == 405
    client.force_login(Person.objects.create(username="stranger"))
    assert client.get(HOLES).status_code == 404
