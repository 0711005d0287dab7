"""The page of a part's drawing, and the sheet of part drawings."""

from __future__ import annotations

import html
import io
import re

import pdfplumber
import pytest
from django.test import Client
from pytest_django import DjangoAssertNumQueries

from buildlog.builds.lookup import demonstration_build
from buildlog.builds.part_drawn import drawn_for_page
from buildlog.sheets.making import make_sheet, sheet_html
from buildlog.workshops.models import Person, Units
from calculators.planning.drawn.part_drawings import part_drawing
from calculators.planning.inspection import inspect_build
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError

PARTS = "/workshops/thornbank-workshop/builds/TW-31/parts"
QUERIES = 5


@pytest.fixture(scope="module")
def worked() -> WorkedBuild:
    return inspect_build(demonstration_build("TW-31"))


def page_of(client: Client, mark: str) -> str:
    answer = client.get(f"{PARTS}/{mark}/drawing/")
    assert answer.status_code == 200
    return answer.content.decode()


@pytest.mark.database
def test_a_part_is_drawn_for_both_widths_with_its_holes_in_a_table(
    client: Client, demonstration: Person
) -> None:
    page = page_of(client, "P12")
    assert page.count('role="img"') == 2
    assert page.count('data-of="P12/') >= 3
    assert "2 BA (drill ø4.1)" in page
    assert "begins 6.25 below the face" in page
    assert f'href="{PARTS}/P12/exchange/"' in page
    assert "sheets/part.pdf?component=P12" in page
    assert f'href="{PARTS}/P12/drawing/"' in client.get(f"{PARTS}/P12/").content.decode()


@pytest.mark.database
def test_findings_are_red_at_their_place_and_told(client: Client, demonstration: Person) -> None:
    page = page_of(client, "P12")
    assert 'class="red"' in page
    assert "In red: F05 at place 1: the middle of the hole is 5.0 mm from the edge of P12" in page


@pytest.mark.database
def test_the_angle_of_projection_is_changed_for_the_build_and_undone(
    client: Client, demonstration: Person
) -> None:
    assert "First angle projection" in page_of(client, "P12")
    answer = client.post(f"{PARTS}/P12/drawing/", {"projection": "third"}, follow=True)
    assert "Part drawings are in third angle projection." in answer.content.decode()
    page = page_of(client, "P11")
    assert "Third angle projection" in page
    assert 'class="projection third"' in page
    client.post("/workshops/thornbank-workshop/builds/TW-31/undo/")
    assert "First angle projection" in page_of(client, "P11")


@pytest.mark.database
@pytest.mark.parametrize(
    ("sent", "says"),
    [
        ("second", "There is no 'second' angle of projection; write first or third."),
        ("", "Choose first or third angle."),
    ],
)
def test_another_angle_is_refused(sent: str, says: str, client: Client, demonstration: Person) -> None:
    answer = client.post(f"{PARTS}/P12/drawing/", {"projection": sent})
    assert answer.status_code == 422
    assert says in html.unescape(answer.content.decode())


@pytest.mark.database
def test_what_cannot_be_drawn_yet_is_said(client: Client, demonstration: Person) -> None:
    page = page_of(client, "G1")
    assert (
        "G1 cannot be drawn yet: a block needs a length, a width and a thickness, a round part a length and a"
        " diameter." in page
    )
    assert client.get(f"{PARTS}/P99/drawing/").status_code == 404


@pytest.mark.database
def test_a_page_in_inches_writes_inches(client: Client, demonstration: Person) -> None:
    demonstration.units = Units.INCHES
    demonstration.save()
    page = page_of(client, "P10")
    assert "ø3/4″" in page  # 19.05 mm
    assert "6.496″" in page  # 165 mm is 6.4961 in, and no sixty-fourth


@pytest.mark.database
def test_a_drawing_asks_the_database_as_often_whatever_is_on_it(
    client: Client, demonstration: Person, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    for mark in ("P01", "P11", "P20", "G1"):
        client.get(f"{PARTS}/{mark}/drawing/")
        with django_assert_num_queries(QUERIES):
            client.get(f"{PARTS}/{mark}/drawing/")


def test_every_part_of_the_demonstration_that_has_sizes_is_drawn(worked: WorkedBuild) -> None:
    for part in worked.build.components:
        if part.size.shape:
            drawn = part_drawing(worked, part.mark)
            assert len(drawn.rows) == sum(
                hole.part == part.mark and hole.u_mm is not None for hole in worked.holes
            )
            assert drawn.too_dense == "" or part.mark in ("P01", "P05", "P34")
        else:
            with pytest.raises(InputError, match="cannot be drawn yet"):
                part_drawing(worked, part.mark)


def test_the_phone_has_the_views_one_below_the_other(worked: WorkedBuild) -> None:
    drawn = drawn_for_page(worked, "P38")
    xs = set(re.findall(r'data-view="\w+" data-x="([\d.]+)"', drawn.narrow.svg))
    assert drawn.narrow.width_mm <= 80
    assert len(xs) == 1
    assert len(set(re.findall(r'data-view="\w+" data-x="([\d.]+)"', drawn.broad.svg))) > 1


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_sheet_shows_a_part_with_its_title_block(paper: str, worked: WorkedBuild) -> None:
    with pdfplumber.open(io.BytesIO(make_sheet("part", worked, paper=paper, component="P12"))) as pdf:  # type: ignore[arg-type]
        first = pdf.pages[0]
        text = first.extract_text()
        assert first.width > first.height
        drawn = [char for char in first.chars if char["upright"] and char["text"] in "0123456789"]
        letters = {round(char["size"] / 72 * 25.4, 1) for char in drawn}
    assert "P12 Pillar head bracket (revision A)" in text
    assert "first angle projection" in text
    assert "Scale 1:1" in text
    assert min(letters) >= 2.2  # the small print of the title block; the figures of the drawing are 2.5


def test_a_part_that_is_larger_so_is_drawn_on_upright_paper(worked: WorkedBuild) -> None:
    with pdfplumber.open(io.BytesIO(make_sheet("part", worked, component="P11"))) as pdf:
        assert pdf.pages[0].width < pdf.pages[0].height
        assert "Scale 1:2" in pdf.pages[0].extract_text()


def test_the_sheet_of_all_parts_has_each_that_is_made_here() -> None:
    worked = inspect_build(demonstration_build("TW-32"))
    made = [one.mark for one in worked.build.components if one.size.shape and one.stock != "bought"]
    page = sheet_html("part", worked)
    assert re.findall(r"<h2>(\w+) ", page) == made
    assert page.count('<svg xmlns="http://www.w3.org/2000/svg" class="drawing part-drawing"') == len(made)
