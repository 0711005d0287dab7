"""A released part asks in the browser why it is changed, and nothing that was typed is lost on the way."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect
from pytest_django.live_server_helper import LiveServer

from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Person
from calculators.planning.edits import find

pytestmark = pytest.mark.browser
PARTS = "/workshops/thornbank-workshop/builds/TW-31/parts/"


def now() -> list[str]:
    return [hole.id for hole in find(plain_of(Build.rows.get(number="TW-31")), "component", "P01").holes]


@pytest.mark.parametrize("width", [1280, 360])
def test_lines_are_entered_for_a_reason_and_left_without_one(
    width: int, page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    before = now()
    page.set_viewport_size({"width": width, "height": 800})
    page.goto(f"{live_server.url}{PARTS}P01/?face=top")
    entry = page.locator("#entry-holes-new")
    entry.fill("5 at 33,33\n6 at 44,33")
    entry.press("Enter")
    expect(page.get_by_role("heading", name="Why is this changed?")).to_be_visible()
    expect(page.get_by_label("Why is this changed?")).to_be_focused()
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.get_by_role("link", name="Leave it as it is").click()
    assert now() == before
    expect(page.locator("#entry-holes-new")).to_have_value("5 at 33,33\n6 at 44,33")
    page.locator("#entry-holes-new").press("Enter")
    page.get_by_label("Why is this changed?").fill("two dowels more")
    page.keyboard.press("Enter")
    expect(page.locator(".messages")).to_contain_text("P01: 2 holes added")
    expect(page.locator("#entry-holes-new")).to_have_value("")
    assert len(now()) == len(before) + 2
    expect(page.locator("#releases")).to_contain_text("two dowels more")


def test_the_back_button_from_the_question_brings_the_form_back(
    page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    page.goto(f"{live_server.url}{PARTS}P01/")
    page.locator("#id_material").fill("European ash")
    page.locator("#fields").get_by_role("button", name="Save").click()
    expect(page.get_by_role("heading", name="Why is this changed?")).to_be_visible()
    page.go_back()
    expect(page.locator("#id_material")).to_have_value("European ash")
    page.locator("#id_reason").fill("no oak of that width")
    page.locator("#fields").get_by_role("button", name="Save").click()
    expect(page.locator(".messages")).to_contain_text(re.compile("P01: material is now European ash"))
    assert find(plain_of(Build.rows.get(number="TW-31")), "component", "P01").material == "European ash"


def test_a_step_dragged_and_a_mend_pressed_ask_nothing(
    page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    page.goto(f"{live_server.url}/workshops/thornbank-workshop/builds/TW-31/joints/F03/")
    page.get_by_role("button", name="Use 1 3/4 in").first.click()
    expect(page.locator(".messages")).to_contain_text("This change: 1 mended")
    page.goto(f"{live_server.url}/workshops/thornbank-workshop/builds/TW-31/order/")
    page.locator("#down-2").click()
    expect(page.locator("h1")).to_have_text("Order of assembly")
    expect(page.locator(".messages")).to_be_visible()
