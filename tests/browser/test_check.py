"""The check in a browser: the place in red, the very field, what is let stand, a limit of one's own."""

from __future__ import annotations

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect
from pytest_django.live_server_helper import LiveServer

from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Person

pytestmark = pytest.mark.browser
BUILD = "/workshops/thornbank-workshop/builds/TW-31"


@pytest.mark.parametrize("width", [1280, 360])
def test_the_place_is_fetched_when_it_is_unfolded_and_drawn_in_red(
    width: int, page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    page.set_viewport_size({"width": width, "height": 900})
    page.goto(f"{live_server.url}{BUILD}/?rule=edge-of-metal&find=F05")
    finding = page.locator(".finding").first
    expect(finding.locator("svg")).to_have_count(0)
    finding.get_by_text("The place in red").click()
    drawing = finding.locator(f".drawing.{'broad' if width > 800 else 'narrow'} svg")
    expect(drawing).to_be_visible()
    expect(drawing.locator("circle.red").first).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert Axe().run(page).response["violations"] == []
    finding.get_by_text("The place in red").click()
    finding.get_by_text("The place in red").click()
    expect(drawing).to_have_count(1)


def test_a_finding_leads_to_its_very_field_which_is_unfolded_and_ready_to_type(
    page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    page.goto(f"{live_server.url}{BUILD}/?find=P37")
    page.locator(".finding", has=page.locator(".field-at")).first.locator(".field-at").click()
    page.wait_for_url("**/parts/P37/**")
    assert re.search(r"#id_\w+$", page.url)
    field = page.locator(f"#{page.url.split('#')[1]}")
    expect(field).to_be_focused()
    page.goto(f"{live_server.url}{BUILD}/order/8/#id_closes")
    expect(page.locator("#id_closes")).to_be_focused()
    page.goto(f"{live_server.url}{BUILD}/rules/#limit-edge-distance")
    expect(page.locator("#limit-edge-distance")).to_be_in_viewport()


def test_a_finding_is_let_stand_by_keyboard_and_that_is_undone_with_one_action(
    page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    page.goto(f"{live_server.url}{BUILD}/joints/F03/")
    finding = page.locator(".finding", has_text="The screw bottoms before it clamps")
    finding.locator("summary", has_text="Let it stand").focus()
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    page.keyboard.type("It was drilled deeper than drawn")
    page.keyboard.press("Enter")
    expect(page.locator(".messages")).to_contain_text("is let stand: It was drilled deeper than drawn")
    expect(finding).to_have_count(0)
    page.get_by_role("link", name="1 finding of it is let stand").click()
    expect(page.locator("#accepted")).to_contain_text("Ines Hallam")
    page.get_by_role("button", name="Undo", exact=True).click()
    expect(page.locator("#accepted")).to_have_count(0)
    assert plain_of(Build.rows.get(number="TW-31")).acceptances == ()


def test_a_limit_is_set_and_given_back_with_one_action_each(
    page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    page.goto(f"{live_server.url}{BUILD}/rules/?find=edge-distance")
    page.locator("#rule-edge-distance summary", has_text="limits").click()
    page.get_by_label("edge-distance in d", exact=True).fill("4")
    page.keyboard.press("Enter")
    expect(page.locator(".messages")).to_contain_text("Limit edge-distance is now 4 d.")
    expect(page.locator("#limit-edge-distance")).to_contain_text("4 d")
    page.locator("#limit-edge-distance").get_by_role("button", name="By the rule again").click()
    expect(page.locator(".messages")).to_contain_text("is the rule's own again")
    assert plain_of(Build.rows.get(number="TW-31")).context.limits == ()
