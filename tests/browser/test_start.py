"""Journeys 1 and 5 in a browser: the first evening, and where one was; builds begun, kept and read in."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect
from pytest_django.live_server_helper import LiveServer

from buildlog.builds.actions import change_build
from buildlog.builds.models import Build
from buildlog.workshops.models import Person
from calculators.planning.edits import find, put

pytestmark = pytest.mark.browser
WORKSHOP = "/workshops/thornbank-workshop"
TW31 = f"{WORKSHOP}/builds/TW-31"


def test_journey_1_the_first_evening(page: Page, live_server: LiveServer, demonstration: Person) -> None:
    actions = 0
    page.goto(live_server.url)
    expect(page.locator("main")).to_contain_text("says what is wrong before anything is cut")
    expect(page.locator("#at-hand")).to_contain_text("8 errors")
    page.locator("#at-hand").get_by_role("link", name="F03 in P10").click()
    actions += 1
    expect(page.get_by_role("img").first).to_be_visible()
    finding = page.locator(".finding", has_text="The screw bottoms before it clamps")
    finding.get_by_role("button").first.click()
    actions += 1
    expect(finding).to_have_count(0)
    page.get_by_role("button", name="Undo").click()
    actions += 1
    expect(finding).to_have_count(1)
    page.get_by_role("link", name="Builds", exact=True).click()
    page.get_by_label("What is it?").fill("A box with a lid")
    page.get_by_role("button", name="Begin the build").click()
    actions += 3
    expect(page).to_have_url(f"{live_server.url}{WORKSHOP}/builds/TW-34/parts/#entry-parts-new")
    expect(page.locator("#entry-parts-new")).to_be_focused()
    assert actions <= 12


def test_journey_5_where_was_i(page: Page, live_server: LiveServer, demonstration: Person) -> None:
    row = Build.rows.get(number="TW-31")
    ordered = {"state": "bought", "note": "Spring works, two weeks"}
    change_build(
        row,
        demonstration,
        lambda b: put(b, "component", replace(find(b, "component", "P23"), **ordered), key="P23"),
        "P23 is on order",
    )
    rob = Person.objects.get(username="rob")
    change_build(
        Build.rows.get(number="TW-31"),
        rob,
        lambda b: put(b, "joint", replace(find(b, "joint", "F10"), fastener="M3 x 80 csk steel"), key="F10"),
        "F10 is longer",
        reason="The short ones were used up.",
    )
    page.goto(live_server.url)
    hand = page.locator("#at-hand")
    for says in ("P23", "Spring works, two weeks", "Mend what the checks find", "new error", "Rob Teasdale made 1 change", "Next step, 1 of 11"):  # fmt: skip
        expect(hand).to_contain_text(says)
    expect(hand.get_by_role("link", name="F10 in P20").first).to_be_visible()
    hand.get_by_role("link", name="Go on with TW-31").click()
    expect(page).to_have_url(f"{live_server.url}{TW31}/")


def test_a_build_is_kept_and_read_in_and_the_file_stays_chosen(
    page: Page, live_server: LiveServer, demonstration: Person, tmp_path: Path
) -> None:
    page.goto(f"{live_server.url}{TW31}/about/")
    page.get_by_role("link", name="Keep it as a file").first.click()
    with page.expect_download() as download:
        page.get_by_role("link", name="TW-31.json").click()
    file = tmp_path / download.value.suggested_filename
    download.value.save_as(file)
    page.get_by_role("link", name="Read a build from a file").click()
    page.get_by_label("Build file or archive").set_input_files(file)
    page.get_by_role("button", name="Read the build").click()
    expect(page.locator("#read-answer")).to_contain_text("There is a build with the number 'TW-31'")
    expect(page.get_by_label("Read it under another number")).to_have_value("TW-34")
    page.get_by_role("button", name="Read it under that number").click()
    expect(page).to_have_url(f"{live_server.url}{WORKSHOP}/builds/TW-34/")
    assert Build.rows.filter(number="TW-34").count() == 1


def test_what_was_typed_for_a_new_build_outlives_a_fault(
    page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    page.goto(live_server.url)
    page.get_by_label("Number").fill("TW-31")
    page.get_by_label("What is it?").fill("صندوق “oak”")
    page.get_by_role("button", name="Begin the build").click()
    expect(page.locator(".faults.whole")).to_contain_text("There is a build with the number 'TW-31' already")
    expect(page.get_by_label("What is it?")).to_have_value("صندوق “oak”")


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [1280, 360])
def test_no_barriers_and_nothing_over_the_edge(
    width: int, scheme: str, page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    change_build(
        Build.rows.get(number="TW-31"), demonstration, lambda b: replace(b, client="The school"), "Client"
    )
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.set_viewport_size({"width": width, "height": 800})
    page.emulate_media(color_scheme=scheme)
    for address in ("/", f"{WORKSHOP}/new-build/", f"{WORKSHOP}/read-build/", *(f"{TW31}/{side}/" for side in ("about", "history", "keeping"))):  # fmt: skip
        page.goto(live_server.url + address)
        found = Axe().run(page).response["violations"]
        assert [(each["id"], each["nodes"][0]["html"][:160]) for each in found] == [], address
        assert page.evaluate("document.documentElement.scrollWidth") <= width, address
    assert said == []
