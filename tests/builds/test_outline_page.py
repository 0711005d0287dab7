"""The outline of a component on its page: entered, drawn, refused with what was typed, taken off, undone."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds.actions import begin_build, change_build
from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Person, Workshop
from calculators.planning.lines import add_lines, write_outline_line
from calculators.planning.model import Build as Plain
from calculators.planning.model import Component

pytestmark = [pytest.mark.database, pytest.mark.shows]

PART = "/workshops/thornbank-workshop/builds/BOX/parts/P01/"
ROUND_END = "outline 0,0 to 60,0 arc 20 left to 60,40 to 0,40"


@pytest.fixture
def plate(demonstration: Person) -> Build:
    row = begin_build(Workshop.objects.get(), demonstration, Plain("BOX", "Box"), "Begun")
    lines = "plate 80 x 40 x 6 brass\nspindle 10 dia x 90 steel"
    change_build(row, None, lambda build: add_lines("part", lines, build).build, "Filled")
    return row


def part(mark: str = "P01") -> Component:
    build = plain_of(Build.rows.get(number="BOX"))
    return next(one for one in build.components if one.mark == mark)


def line() -> str:
    return write_outline_line(part().outline, "mm")


def test_an_outline_is_entered_drawn_and_undone(client: Client, plate: Build) -> None:
    sent = {"line": "0,0\n60,0 arc 20 left\n60,40\n0,40", "seen": ""}
    answer = client.post(f"{PART}outline/", sent)
    assert (answer.status_code, answer["location"]) == (302, f"{PART}#outline")
    assert line() == ROUND_END
    page = client.get(PART).content.decode()
    assert "Outline of 4 corners, 1 arc, seen from its top." in page
    # 80 mm on 156 mm of paper are drawn 1:1: the round end is an arc of 20, turning left as y runs up.
    assert "A20 20 0 0 0" in page
    client.post("/workshops/thornbank-workshop/builds/BOX/undo/")
    assert line() == ""


def test_what_cannot_be_comes_back_as_it_was_typed(client: Client, plate: Build) -> None:
    answer = client.post(f"{PART}outline/", {"line": "0,0 to 90,0 to 90,40 to 0,40", "seen": ""})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "The outline reaches 90 mm along X, beyond the length of 80 mm." in page
    assert ">0,0 to 90,0 to 90,40 to 0,40</textarea>" in page
    assert part().outline == ()


def test_the_part_can_take_its_sizes_from_the_outline(client: Client, plate: Build) -> None:
    client.post(f"{PART}outline/", {"line": "0,0 to 90,0 to 90,40 to 0,40", "seen": "", "fits": "1"})
    size = part().size
    assert (size.length.mm, size.width.mm, size.thickness.mm) == (90, 40, 6)
    assert size.width.written == "40"


def test_it_is_a_rectangle_again(client: Client, plate: Build) -> None:
    client.post(f"{PART}outline/", {"line": ROUND_END, "seen": ""})
    client.post(f"{PART}outline/", {"line": "whatever", "seen": ROUND_END, "rectangle": "yes"})
    assert part().outline == ()
    assert "A rectangle." in client.get(PART).content.decode()


def test_an_outline_that_somebody_else_changed_is_not_written_over(client: Client, plate: Build) -> None:
    client.post(f"{PART}outline/", {"line": ROUND_END, "seen": ""})
    answer = client.post(f"{PART}outline/", {"line": "0,0 to 80,0 to 80,40", "seen": ""})
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "0,0 to 80,0 to 80,40</textarea>" in page
    assert f"it is now: {ROUND_END}." in page
    assert line() == ROUND_END


def test_a_size_that_no_longer_fits_the_outline_is_refused(client: Client, plate: Build) -> None:
    client.post(f"{PART}outline/", {"line": ROUND_END, "seen": ""})
    seen = client.get(PART).context["opened"].seen
    answer = client.post(f"{PART}line/", {"line": "70 x 40 x 6", "seen": seen, "from": "component"})
    assert answer.status_code == 422
    assert "The outline reaches 80 mm along X, beyond the length of 70 mm." in answer.content.decode()


def test_a_round_has_no_outline(client: Client, plate: Build) -> None:
    assert 'id="outline"' not in client.get(PART.replace("P01", "P02")).content.decode()
    answer = client.post(f"{PART.replace('P01', 'P02')}outline/", {"line": ROUND_END, "seen": ""})
    assert answer.status_code == 422
    assert part("P02").outline == ()


def test_the_page_asks_the_database_no_more_for_an_outline(client: Client, plate: Build) -> None:
    client.get(PART)
    with CaptureQueriesContext(connection) as plain:
        client.get(PART)
    client.post(f"{PART}outline/", {"line": ROUND_END, "seen": ""})
    client.get(PART)
    with CaptureQueriesContext(connection) as outlined:
        client.get(PART)
    assert len(outlined) == len(plain)
