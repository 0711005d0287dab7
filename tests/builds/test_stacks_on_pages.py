"""A joint's stack along its axis: on its page in three arrangements, and on the assembly sheet set apart."""

from __future__ import annotations

import re

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds.lookup import demonstration_build
from buildlog.builds.stacks_drawn import ARRANGED, fitted_stacks, stacks_drawn
from buildlog.sheets.making import sheet_html
from buildlog.workshops.models import Person
from calculators.planning.inspection import inspect_build

JOINTS = "/workshops/thornbank-workshop/builds/TW-31/joints/"


def rows_of(page: str) -> list[list[str]]:
    """The cells of the table of members, without marks."""
    section = page[page.index('id="stack-drawn"') :]
    body = section[section.index("<tbody>") : section.index("</tbody>")]
    return [
        [re.sub(r"<[^>]+>", "", cell) for cell in re.findall(r"<td[^>]*>(.*?)</td>", row)]
        for row in re.findall(r"<tr>(.*?)</tr>", body)
    ]


@pytest.mark.database
def test_the_page_of_a_joint_draws_its_stack_and_lists_its_members(
    client: Client, demonstration: Person
) -> None:
    page = client.get(f"{JOINTS}F18/").content.decode()
    assert page.count('class="stack" role="img"') == 2  # the broad drawing and the narrow one
    assert "F18: the stack of M5 x 40 socket cap steel zinc plated, in line" in page
    rows = rows_of(page)
    assert [row[:2] for row in rows] == [
        ["1", "4 × M5 x 40 socket cap steel zinc plated"], ["2", "P38 Drum bracket, brass"],
        ["3", "P01 Base board, European oak"], ["4", "4 × M5 repair washer OD 25 x 1.5 zinc plated"],
        ["5", "4 × M5 washer"], ["6", "4 × M5 nut"],
    ]  # fmt: skip
    assert rows[-1][-1] == "tight: tightened against the washer"


@pytest.mark.database
@pytest.mark.parametrize(
    ("asked", "title"), [("apart", "apart along its axis"), ("together", "together, cut open")]
)
def test_the_arrangement_is_switched_by_links(
    asked: str, title: str, client: Client, demonstration: Person
) -> None:
    page = client.get(f"{JOINTS}F18/", {"stack": asked}).content.decode()
    assert f"M5 x 40 socket cap steel zinc plated, {title}" in page
    assert f'<li aria-current="true">{ARRANGED[asked]}</li>' in page
    assert '<a href="?stack=line#stack-drawn">in line</a>' in page


@pytest.mark.database
@pytest.mark.parametrize("hostile", ["", "\x00", "<b>", "x" * 3000])
def test_an_arrangement_that_there_is_not_is_in_line(
    hostile: str, client: Client, demonstration: Person
) -> None:
    page = client.get(f"{JOINTS}F18/", {"stack": hostile}).content.decode()
    assert '<li aria-current="true">in line</li>' in page


@pytest.mark.database
def test_drawing_a_stack_asks_the_database_nothing(client: Client, demonstration: Person) -> None:
    counts = []
    for address in (f"{JOINTS}F02/", f"{JOINTS}F18/?stack=apart", f"{JOINTS}F18/?stack=together"):
        client.get(address)
        with CaptureQueriesContext(
            connection,
        ) as queries:
            client.get(address)
        counts.append(len(queries))
    assert len(set(counts)) == 1


def test_a_screw_that_does_not_clamp_says_so_in_the_lines_of_its_members() -> None:
    (stack,) = stacks_drawn(inspect_build(demonstration_build("TW-31")), "F03")
    assert [line.state for line in stack.lines] == ["tight", "loose", "loose", "loose", "tight"]


def test_the_assembly_sheet_sets_apart_what_has_an_order() -> None:
    worked = inspect_build(demonstration_build("TW-31"))
    html = sheet_html("assembly", worked)
    step = html[html.index("7. Drum brackets") :]
    step = step[step.index("<svg") : step.index("</section>")]
    assert "F18: the stack of M5 x 40 socket cap steel zinc plated, apart along its axis" in step
    assert re.findall(r'<td class="number">(\d)</td><td>([^<]*)', step) == [
        ("1", "4 × M5 x 40 socket cap steel zinc plated"), ("2", "P38 Drum bracket, brass"),
        ("3", "P01 Base board, European oak"), ("4", "4 × M5 repair washer OD 25 x 1.5 zinc plated"),
        ("5", "4 × M5 washer"), ("6", "4 × M5 nut"),
    ]  # fmt: skip
    assert "F17: the stack" not in html  # a screw through one part into another


def test_bare_screws_are_left_out_of_the_sheet() -> None:
    worked = inspect_build(demonstration_build("TW-31"))
    assert [each.worked.joint.mark for each in fitted_stacks(worked, ["F01", "F03", "F13", "F24"])] == [
        "F03",
        "F13",
    ]
