"""The pages of the demonstration: who sees them, what they say, and how often they ask the database."""

from __future__ import annotations

import re

import pytest
from django.test import Client

from buildlog.builds.lookup import demonstration_build, demonstration_numbers
from buildlog.builds.page import SIDES
from buildlog.workshops.models import Person
from calculators.planning.inspection import inspect_build

pytestmark = pytest.mark.database

NUMBERS = demonstration_numbers()
BUILDS = "/workshops/thornbank-workshop/builds"


def addresses() -> list[str]:
    found = ["/"]
    for number in NUMBERS:
        found += [
            f"{BUILDS}/{number}/",
            *(f"{BUILDS}/{number}/{side.name}/" for side in SIDES if side.name != "check"),
        ]
        found += [f"{BUILDS}/{number}/joints/{joint.mark}/" for joint in demonstration_build(number).joints]
        found += [f"{BUILDS}/{number}/sheets/cut.pdf"]
    return found


@pytest.mark.parametrize("address", addresses())
def test_every_page_answers_its_workshop_with_no_inline_script_or_style(
    address: str, client: Client, demonstration: Person
) -> None:
    answer = client.get(address)
    assert answer.status_code == 200
    if answer["Content-Type"].startswith("text/html"):
        page = answer.content.decode()
        assert "Ines Hallam" in page
        assert not re.search(r"<script>|<style|style=|onclick=", page)


def test_the_start_page_lists_the_builds_with_what_the_check_says(
    client: Client, demonstration: Person
) -> None:
    page = client.get("/").content.decode()
    for number in NUMBERS:
        worked = inspect_build(demonstration_build(number))
        assert f'href="{BUILDS}/{number}/"' in page
        assert worked.build.title in page
        errors = sum(finding.severity == "error" for finding in worked.findings)
        assert not errors or f"{errors} error" in page


def test_a_stranger_sees_no_builds_on_the_start_page(client: Client, demonstration: Person) -> None:
    client.force_login(Person.objects.create(username="stranger"))
    page = client.get("/").content.decode()
    assert "Your workshops have no builds yet." in page
    assert not any(number in page for number in NUMBERS)


def test_the_page_of_a_joint_shows_its_drawing_its_findings_and_their_mend(
    client: Client, demonstration: Person
) -> None:
    page = client.get(f"{BUILDS}/TW-31/joints/F03/").content.decode()
    assert "The screw bottoms before it clamps: 21.2 mm of screw for 18.0 mm of thread" in page
    assert 'Use <span class="fraction">5/16</span> BSF x 1\u00a0<span class="fraction">3/4</span>' in page
    assert page.count('class="section" role="img"') == 2  # the broad drawing and the narrow one


@pytest.mark.parametrize(
    "address",
    [
        f"{BUILDS}/TW-99/", f"{BUILDS}/TW-31/nothing/", f"{BUILDS}/TW-31/joints/F99/", f"{BUILDS}/..%2f..%2fetc/",
        f"{BUILDS}/TW-31/joints/%00/", f"{BUILDS}/TW-31/sheets/nothing.pdf", f"{BUILDS}/TW-31/sheets/cut.pdf?component=P99",
        f"{BUILDS}/%F0%9F%94%A9/", f"{BUILDS}/TW-31/check.html/",
    ],
)  # fmt: skip
def test_what_is_not_there_is_said_in_a_sentence(address: str, client: Client, demonstration: Person) -> None:
    answer = client.get(address)
    assert answer.status_code == 404
    assert "There is no page at this address" in answer.content.decode()


@pytest.mark.shows
def test_sheets_come_as_pdf_on_either_paper(client: Client, demonstration: Person) -> None:
    for paper in ("", "?paper=letter", "?paper=nonsense", "?component=P01"):
        answer = client.get(f"{BUILDS}/TW-31/sheets/drilling.pdf{paper}")
        assert answer["Content-Type"] == "application/pdf"
        assert answer["Content-Disposition"] == 'inline; filename="TW-31-drilling.pdf"'
        assert answer.content.startswith(b"%PDF")
