"""Parts, a component and holes in a browser: entered with Enter, changed in place, walked by keyboard."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect
from pytest_django.live_server_helper import LiveServer

from buildlog.builds.actions import begin_build
from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Person, Workshop
from calculators.planning.model import Build as Plain

pytestmark = pytest.mark.browser

BUILD = "/workshops/thornbank-workshop/builds/BOX"
LINES = (
    "4 sides 300 x 120 x 12 oak",
    "base 280 x 180 x 6 ply",
    "lid 300 x 200 x 12 oak",
    "2 brass hinges bought",
    "catch brass bought",
)


@pytest.fixture
def box(demonstration: Person) -> Build:
    """A build with nothing in it."""
    return begin_build(Workshop.objects.get(), demonstration, Plain("BOX", "Box with a lid"), "Begun")


def parts_now() -> list[tuple[str, str, int]]:
    build = plain_of(Build.rows.get(number="BOX"))
    return [(one.mark, one.name, one.quantity) for one in build.components]


def test_five_parts_are_entered_with_enter_after_each_and_the_line_keeps_the_focus(
    page: Page, live_server: LiveServer, box: Build
) -> None:
    page.goto(f"{live_server.url}{BUILD}/parts/")
    page.keyboard.press("n")
    for count, line in enumerate(LINES, 1):
        page.keyboard.type(line)
        page.keyboard.press("Enter")
        expect(page.locator("[data-row]")).to_have_count(count)
        expect(page.locator("#entry-parts-new")).to_be_focused()
    assert [name for _, name, _ in parts_now()][:3] == ["sides", "base", "lid"]
    assert len(parts_now()) == 5


def test_five_parts_are_pasted_and_one_enter_adds_them(
    page: Page, live_server: LiveServer, box: Build
) -> None:
    page.goto(f"{live_server.url}{BUILD}/parts/")
    page.locator("#entry-parts-new").fill("\n".join(LINES))
    page.locator("#entry-parts-new").press("Enter")
    expect(page.locator("[data-row]")).to_have_count(5)
    expect(page.locator("#entry-parts-new")).to_be_focused()
    expect(page.locator("#entry-parts-new")).to_have_value("")


def test_a_row_is_opened_left_and_saved_by_keyboard(page: Page, live_server: LiveServer, box: Build) -> None:
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.goto(f"{live_server.url}{BUILD}/parts/")
    page.locator("#entry-parts-new").fill("\n".join(LINES))
    page.locator("#entry-parts-new").press("Enter")
    expect(page.locator("[data-row]")).to_have_count(5)
    page.get_by_role("link", name="Change P02").click()
    line = page.get_by_label("Change P02")
    expect(line).to_be_focused()
    assert page.url == f"{live_server.url}{BUILD}/parts/#entry-parts-new"  # the row alone was fetched
    expect(page.locator("[data-row]")).to_have_count(4)
    page.keyboard.press("Escape")
    expect(page.locator("[data-row]")).to_have_count(5)
    expect(page.locator("#part-P02")).to_be_focused()
    page.get_by_role("link", name="Change P02").click()
    page.get_by_label("Change P02").fill("base 290 x 180 x 6 ply")
    page.keyboard.press("Enter")
    expect(page.locator("#part-P02")).to_contain_text("290")
    expect(page.get_by_text("P02: finished size changed.", exact=True)).to_be_visible()
    page.get_by_role("link", name="Change P03").click()
    page.get_by_role("button", name="Move up").click()
    expect(page.locator("tbody tr").nth(1)).to_have_id("part-P03")
    assert [mark for mark, _, _ in parts_now()] == ["P01", "P03", "P02", "P04", "P05"]
    page.locator("#part-P01").get_by_role("button", name="released now, P01").click()
    expect(page.locator("#part-P01")).to_contain_text("released")
    assert said == []


def test_holes_are_typed_from_the_datum_and_drawn_at_once(
    page: Page, live_server: LiveServer, box: Build
) -> None:
    page.goto(f"{live_server.url}{BUILD}/parts/")
    page.locator("#entry-parts-new").fill("plate 120 x 60 x 2 brass")
    page.locator("#entry-parts-new").press("Enter")
    page.get_by_role("link", name="P01", exact=True).click()
    holes = page.get_by_label("New holes, one a line")
    holes.fill("4 off dia 4.8 at 10,10; 110,10; 110,50; 10,50")
    holes.press("Enter")
    expect(page.locator("#holes [data-row]")).to_have_count(4)
    expect(page.locator("#entry-holes-new")).to_be_focused()
    expect(
        page.get_by_role("group", name="P01 plate, top face seen from outside, scale 1:1, 4 holes")
    ).to_be_visible()
    page.get_by_role("link", name="Change hole h2").click()
    line = page.get_by_label("Change hole h2")
    expect(line).to_be_focused()
    line.fill("4.8 at 100,10")
    line.press("Enter")
    expect(page.locator("#hole-h2")).to_contain_text("100")
    page.goto(f"{live_server.url}{BUILD}/holes/")
    expect(page.locator("[data-row]")).to_have_count(4)
    page.keyboard.press("j")
    page.keyboard.press("Enter")
    expect(page.get_by_label("Change hole h1")).to_be_visible()


def test_what_was_typed_into_the_fields_comes_back_after_the_page_was_closed(
    page: Page, live_server: LiveServer, box: Build
) -> None:
    page.goto(f"{live_server.url}{BUILD}/parts/")
    page.locator("#entry-parts-new").fill("plate 120 x 60 x 2 brass")
    page.locator("#entry-parts-new").press("Enter")
    page.get_by_role("link", name="P01", exact=True).click()
    page.get_by_label("Note").fill("from the old clock")
    page.goto(f"{live_server.url}{BUILD}/parts/P01/")
    expect(page.get_by_label("Note")).to_have_value("from the old clock")
    page.locator("#fields").get_by_role("button", name="Save").click()
    expect(page.get_by_text("P01: note changed.", exact=True)).to_be_visible()


@pytest.mark.parametrize("width", [1280, 360])
def test_no_barriers_and_nothing_over_the_edge(
    width: int, page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    faults: dict[str, object] = {}
    build = f"{live_server.url}/workshops/thornbank-workshop/builds/TW-31"
    for address in ("parts/", "parts/?change=P02", "parts/?sort=name", "parts/P01/", "parts/P01/?pocket=R", "parts/P10/?face=left", "parts/G2/", "parts/P02/remove/", "holes/", "holes/?sort=u"):  # fmt: skip
        page.goto(f"{build}/{address}")
        found = Axe().run(page).response["violations"]
        if found:
            faults[address] = [
                (each["id"], [node["html"][:160] for node in each["nodes"][:3]]) for each in found
            ]
        assert page.evaluate("document.documentElement.scrollWidth") <= width, address
    assert faults == {}
