"""The pages of the demonstration: who sees them, what they say, and how often they ask the database."""

from __future__ import annotations

import re

import pytest
from django.conf import LazySettings
from django.test import Client

from buildlog.builds.queries import demonstration_numbers, worked_demonstration
from buildlog.builds.showing import SIDES
from buildlog.workshops.models import Person, Workshop

pytestmark = pytest.mark.database

NUMBERS = demonstration_numbers()


def addresses() -> list[str]:
    found = ["/"]
    for number in NUMBERS:
        found += [f"/builds/{number}/", *(f"/builds/{number}/{side.name}/" for side in SIDES)]
        worked = worked_demonstration(number)
        assert worked
        found += [f"/builds/{number}/joints/{joint.mark}/" for joint in worked.build.joints]
        found += [f"/sheets/{number}/cut.pdf"]
    return found


@pytest.mark.parametrize("address", addresses())
def test_every_page_answers_its_workshop_and_asks_the_database_a_constant_number_of_times(
    address: str, client: Client, demonstration: Person, django_assert_num_queries: object
) -> None:
    with django_assert_num_queries(2):  # who is signed in, and in which workshops
        answer = client.get(address)
    assert answer.status_code == 200
    if answer["Content-Type"].startswith("text/html"):
        page = answer.content.decode()
        assert "Ines Hallam" in page
        assert not re.search(r"<script>|<style|style=|onclick=", page)


@pytest.mark.parametrize("address", [each for each in addresses() if each != "/"])
def test_a_stranger_gets_404(address: str, client: Client, demonstration: Person) -> None:
    stranger = Person.objects.create(username="stranger")
    stranger.workshops.add(Workshop.objects.create(name="Another workshop"))
    client.force_login(stranger)
    assert client.get(address).status_code == 404


@pytest.mark.parametrize("address", [each for each in addresses() if each != "/"])
def test_nobody_gets_404_outside_the_demonstration(
    address: str, client: Client, demonstration: Person, settings: LazySettings
) -> None:
    settings.DEMO = False
    assert client.get(address).status_code == 404


def test_the_start_page_lists_the_builds_with_what_the_check_says(
    client: Client, demonstration: Person
) -> None:
    page = client.get("/").content.decode()
    for number in NUMBERS:
        worked = worked_demonstration(number)
        assert worked
        assert f'href="/builds/{number}/"' in page
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
    page = client.get("/builds/TW-31/joints/F03/").content.decode()
    assert "The screw bottoms before it clamps: 21.2 mm of screw for 18.0 mm of thread" in page
    assert 'Use <span class="fraction">5/16</span> BSF x 1\u00a0<span class="fraction">3/4</span>' in page
    assert page.count('role="img"') == 2  # the broad drawing and the narrow one


@pytest.mark.parametrize(
    "address",
    [
        "/builds/TW-99/", "/builds/TW-31/nothing/", "/builds/TW-31/joints/F99/", "/builds/..%2f..%2fetc/",
        "/builds/TW-31/joints/%00/", "/sheets/TW-31/template.pdf", "/sheets/TW-31/cut.pdf?component=P99",
        "/builds/%F0%9F%94%A9/", "/builds/TW-31/check.html/",
    ],
)  # fmt: skip
def test_what_is_not_there_is_said_in_a_sentence(address: str, client: Client, demonstration: Person) -> None:
    answer = client.get(address)
    assert answer.status_code == 404
    assert "There is no page at this address" in answer.content.decode()


@pytest.mark.parametrize("method", ["post", "put", "patch", "delete"])
def test_the_pages_are_for_reading(method: str, client: Client, demonstration: Person) -> None:
    for address in ("/", "/builds/TW-31/", "/builds/TW-31/joints/F03/", "/sheets/TW-31/cut.pdf"):
        assert getattr(client, method)(address).status_code == 405


def test_sheets_come_as_pdf_on_either_paper(client: Client, demonstration: Person) -> None:
    for paper in ("", "?paper=letter", "?paper=nonsense", "?component=P01"):
        answer = client.get(f"/sheets/TW-31/drilling.pdf{paper}")
        assert answer["Content-Type"] == "application/pdf"
        assert answer["Content-Disposition"] == 'inline; filename="TW-31-drilling.pdf"'
        assert answer.content.startswith(b"%PDF")
