"""Journeys at a joint: seen in the drawing, mended and undone with one action, tried unsaved, two tabs, back."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Browser, Page, expect
from pytest_django.live_server_helper import LiveServer

from buildlog.builds.actions import begin_build
from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Person
from calculators.planning import model as plain
from calculators.planning.edits import find
from calculators.planning.lines import add_lines
from tests.browser.barriers import barriers

pytestmark = pytest.mark.browser
BUILDS = "/workshops/thornbank-workshop/builds"
TOO_LONG = "The screw bottoms before it clamps"


def fastener(mark: str = "F03", number: str = "TW-31") -> str:
    found: plain.Joint = find(plain_of(Build.rows.get(number=number)), "joint", mark)
    return found.fastener


def test_the_first_evening_an_error_is_seen_mended_and_undone(
    page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    """From the first page: open the build, open an error, mend it, undo: one action each."""
    page.goto(live_server.url)
    page.get_by_role("link", name=re.compile("TW-31")).first.click()
    if page.locator("[data-zone=D][aria-current]").count() == 0:
        page.locator("[data-zone=D]").click()
    page.locator(".finding", has_text=TOO_LONG).get_by_role("link", name="F03 in P10").click()
    drawing = page.locator(".drawing.broad svg").first
    expect(drawing).to_contain_text("The screw bottoms")
    expect(page.locator(".finding", has_text=TOO_LONG)).to_be_visible()
    page.get_by_role("button", name="Use 1 3/4 in").click()
    expect(page.locator(".messages")).to_contain_text("This change: 1 mended, 0 new.")
    expect(page.locator(".finding", has_text=TOO_LONG)).to_have_count(0)
    assert fastener() == "5/16 BSF x 1 3/4 hex set screw steel zinc plated"
    page.get_by_role("button", name="Undo", exact=True).click()
    expect(page.locator(".finding", has_text=TOO_LONG)).to_have_count(1)
    assert fastener() == "5/16 BSF x 2 in hex set screw steel zinc plated"


def test_the_plate_and_the_rail_a_thinner_screw_is_tried_and_taken(
    page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    """Journey 4: No. 10 heads are deeper than the plate; No. 5 is tried, and every part says what changes."""
    build = add_lines(
        "part", "plate 200 x 40 x 2 brass\nrail 400 x 60 x 30 maple", plain.Build("B4", "Rail")
    ).build
    line = "No. 10 x 1 csk brass: plate into rail, placed on plate top at 20,20; 70,20; 130,20; 180,20"
    begin_build(demonstration.workshops.get(), demonstration, add_lines("joint", line, build).build, "Begun")
    page.goto(f"{live_server.url}{BUILDS}/B4/joints/F01/")
    expect(page.locator(".finding.error")).to_contain_text(
        "The countersink goes through P01: 2.75 mm deep in 2 mm"
    )
    page.get_by_label("Try another fastener").fill("No. 5 x 1 csk brass")
    page.keyboard.press("Enter")
    changes = page.locator("table", has=page.get_by_text("Hole as tried (mm)"))
    expect(changes.get_by_role("row")).to_have_count(3)
    expect(changes).to_contain_text("clearance 3.3, countersunk 6.4 at 82 deg")
    expect(changes).to_contain_text("pilot 1.9, 22.5 deep")
    assert fastener("F01", "B4") == "No. 10 x 1 csk brass"
    page.get_by_role("button", name="Take it").click()
    expect(page.locator(".messages")).to_contain_text("F01: the fastener is now No. 5 x 1 csk brass")
    assert fastener("F01", "B4") == "No. 5 x 1 csk brass"


def test_lines_are_typed_one_after_another_and_what_follows_stands_below(
    page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    """Journey 2: a screw is typed as it would be written; its holes stand below; the next line is waiting."""
    build = add_lines(
        "part", "4 sides 300 x 120 x 12 oak\n2 hinges 38 x 20 x 1.6 brass", plain.Build("B7", "Box")
    ).build
    begin_build(demonstration.workshops.get(), demonstration, build, "Begun")
    page.goto(f"{live_server.url}{BUILDS}/B7/joints/")
    page.keyboard.press("n")
    page.keyboard.type("No. 4 x 1/2 in csk brass: hinge into edge of side, 6 off")
    page.keyboard.press("Enter")
    new = page.locator("#new")
    expect(new).to_contain_text("countersunk to")
    expect(new).to_contain_text("pilot")
    expect(new).to_contain_text("drive a steel twin first")
    expect(page.get_by_label("New joints, one a line")).to_be_focused()
    page.keyboard.type("No. 4 x 1/0 in csk brass: hinge into side")
    page.keyboard.press("Enter")
    expect(page.locator(".unread input")).to_have_value("No. 4 x 1/0 in csk brass: hinge into side")
    expect(page.locator(".unread .fault").first).to_be_visible()
    assert len(plain_of(Build.rows.get(number="B7")).joints) == 1


def test_two_tabs_and_the_back_button(
    page: Page, live_server: LiveServer, demonstration: Person, browser: Browser
) -> None:
    address = f"{live_server.url}{BUILDS}/TW-31/joints/F03/"
    other = browser.new_context().new_page()
    for tab in (page, other):
        tab.goto(address)
    page.get_by_label("Fastener", exact=True).fill("5/16 BSF x 1 3/4 in hex set screw steel")
    page.keyboard.press("Enter")
    expect(page.locator(".messages")).to_contain_text("1 mended")
    other.get_by_label("Fastener", exact=True).fill("5/16 BSF x 1 1/2 in hex set screw steel")
    other.keyboard.press("Enter")
    expect(other.locator(".conflict")).to_contain_text("5/16 BSF x 1 3/4 in hex set screw steel")
    expect(other.get_by_label("Your Fastener")).to_have_value("5/16 BSF x 1 1/2 in hex set screw steel")
    assert fastener() == "5/16 BSF x 1 3/4 in hex set screw steel"
    other.get_by_role("button", name="Save mine").click()
    expect(other.locator(".messages").first).to_contain_text("F03: the fastener is now 5/16 BSF x 1 1/2")
    assert fastener() == "5/16 BSF x 1 1/2 in hex set screw steel"
    other.context.close()
    # The page as it was before the save, brought back: what it says was changed since is not overwritten.
    page.go_back()
    field = page.get_by_label("Fastener", exact=True)
    field.fill("5/16 BSF x 2 1/4 in hex set screw steel")
    page.keyboard.press("Enter")
    page.wait_for_load_state()
    if page.locator(".conflict").count():
        page.get_by_role("button", name="Keep theirs").click()
    assert fastener() in (
        "5/16 BSF x 1 1/2 in hex set screw steel",
        "5/16 BSF x 2 1/4 in hex set screw steel",  # the browser asked for the page anew
    )


def test_a_line_that_was_not_sent_comes_back_as_a_draft_and_goes_once_it_is_saved(
    page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    address = f"{live_server.url}{BUILDS}/TW-31/joints/F03/"
    page.goto(address)
    page.get_by_label("Fastener", exact=True).fill("5/16 BSF x 1 3/4 in hex set screw steel")
    page.wait_for_timeout(400)
    page.goto(f"{live_server.url}{BUILDS}/TW-31/joints/")
    page.goto(address)
    expect(page.get_by_label("Fastener", exact=True)).to_have_value("5/16 BSF x 1 3/4 in hex set screw steel")
    page.get_by_role("button", name="Save the fastener").click()
    expect(page.locator(".messages").first).to_contain_text("F03: the fastener is now")
    page.goto(address)
    expect(page.locator(".strip.draft")).to_have_count(0)


@pytest.mark.parametrize("width", [1280, 360])
def test_no_barriers_and_nothing_over_the_edge(
    width: int, page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.set_viewport_size({"width": width, "height": 800})
    faults: dict[str, object] = {}
    for address in (
        "", "?by=part", "joints/", "joints/?change=F05", "joints/?new=F02&new=F03", "joints/F03/", "joints/F20/?see=thread-match:F20:P40",
        "joints/F02/?try=No. 5 x 7/8 csk brass", "joints/F01/?mend=wood-movement:F01:P02:1", "joints/F03/?try=5/0",
        "joints/F03/others/", "joints/F03/change/", "joints/F01/places/", "joints/F01/stack/0/", "joints/F01/stack/2/",
    ):  # fmt: skip
        page.goto(f"{live_server.url}{BUILDS}/TW-31/{address}")
        found = barriers(page)
        if found:
            faults[address] = found
        assert page.evaluate("document.documentElement.scrollWidth") <= width, address
    assert faults == {}
    assert [text for text in said if "422" not in text] == []


def test_all_of_it_works_without_script(
    live_server: LiveServer, demonstration: Person, browser: Browser
) -> None:
    plain_page = browser.new_context(java_script_enabled=False).new_page()
    plain_page.goto(f"{live_server.url}{BUILDS}/TW-31/joints/F03/")
    plain_page.get_by_role("link", name="What else would do").click()
    plain_page.get_by_role("link", name=re.compile(r"x 1\s1.2 hex")).first.click()
    expect(plain_page.locator("h2", has_text="As tried")).to_be_visible()
    plain_page.get_by_role("button", name="Take it").click()
    expect(plain_page.get_by_role("status")).to_contain_text("the fastener is now 5/16 BSF x 1 1/2")
    plain_page.get_by_role("button", name="Undo", exact=True).click()
    assert fastener() == "5/16 BSF x 2 in hex set screw steel zinc plated"
    plain_page.context.close()
