"""The plate and the rail, walked from an empty build to a template that is true, on a broad page and on a phone.

An action is a click, a tap, a drag, a key chord, or one field filled; reading is free.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from typing import Any

import pdfplumber
import pytest
from playwright.sync_api import Browser, Locator, Page, expect
from pytest_django.live_server_helper import LiveServer

from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of, worked_of
from buildlog.workshops.models import Person
from calculators.planning import model as plain
from calculators.planning.edits import find
from tests.browser.test_journeys import Walk
from tests.sheets.template_readback import PageRead, read_pages

pytestmark = pytest.mark.browser
MOST_ACTIONS = 37
NUMBER = "TW-34"

PARTS = "plate 200 x 40 x 2 brass\nrail 400 x 60 x 30 maple\nside 600 x 250 x 18 plywood"
LIE = "P02 on the ground\nP01 on P02 top at 100,10, let in 2\nP03 on P02 back at -100,-110, own face top"
JOINTS = (
    "No. 10 x 1 csk brass: plate into rail, placed on plate top at 20,20\n"
    "M6 x 90 hex: rail, side, M6 nut sunk 8 in the far face, placed on rail front at 50,15"
)


@pytest.fixture(params=[1280, 360])
def walk(request: Any, browser: Browser, demonstration: Person, record_property: Any) -> Iterator[Walk]:
    """A walk at a bench's screen with a mouse, and on a phone with a thumb."""
    narrow = request.param == 360
    context = browser.new_context(
        viewport={"width": request.param, "height": 900}, has_touch=narrow, is_mobile=narrow
    )
    walked = Walk(context.new_page())
    walked.page.set_default_timeout(10_000)
    yield walked
    record_property("actions", walked.count)
    context.close()


def is_phone(page: Page) -> bool:
    return bool(page.evaluate("innerWidth < 500"))


def plan(page: Page) -> Locator:
    return page.locator("[data-plan] .drawing:visible > svg[data-datum]").first


def at(page: Page, u: float, v: float) -> tuple[float, float]:
    found = plan(page).evaluate(
        """(svg, [u, v]) => {
            const [x, y] = svg.dataset.datum.split(" ").map(Number), scale = Number(svg.dataset.scale);
            const p = new DOMPoint(x + u * scale, y - v * scale).matrixTransform(svg.getScreenCTM());
            return [p.x, p.y];
        }""",
        [u, v],
    )
    return float(found[0]), float(found[1])


def settled(page: Page, u: float, v: float) -> tuple[float, float]:
    """Where a place of the drawing is on the screen, once what is above it has come to rest."""
    plan(page).scroll_into_view_if_needed()
    was, now = (-1.0, -1.0), at(page, u, v)
    while was != now:
        page.wait_for_timeout(200)
        was, now = now, at(page, u, v)
    return now


def press_at(walk: Walk, u: float, v: float, says: str) -> None:
    """Click or tap a place of the drawing, and see what is said."""
    walk.done.append(f"press {u}, {v} on the drawing")
    walk.page.wait_for_load_state("networkidle")
    point = settled(walk.page, u, v)
    if is_phone(walk.page):
        walk.page.touchscreen.tap(*point)
    else:
        walk.page.mouse.click(*point)
    expect(walk.page.locator(".messages")).to_contain_text(says)


def drag(walk: Walk, start: tuple[float, float], end: tuple[float, float]) -> None:
    """Drag a hole: with the mouse at once, with a finger after a tap that picks it."""
    page = walk.page
    settled(page, *start)
    if not is_phone(page):
        walk.done.append(f"drag {start} to {end}")
        page.mouse.move(*at(page, *start))
        page.mouse.down()
        page.mouse.move(*at(page, *end), steps=3)
        page.mouse.up()
        return
    walk.done += [f"tap {start}", f"drag {start} to {end}"]
    page.touchscreen.tap(*at(page, *start))
    finger = page.context.new_cdp_session(page)
    (x0, y0), (x1, y1) = at(page, *start), at(page, *end)
    for kind, points in (
        ("touchStart", [(x0, y0)]), ("touchMove", [((x0 + x1) / 2, (y0 + y1) / 2)]), ("touchMove", [(x1, y1)]),
        ("touchEnd", []),
    ):  # fmt: skip
        touched = [{"x": x, "y": y, "id": 0} for x, y in points]
        finger.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": touched})


def build() -> plain.Build:
    return plain_of(Build.rows.get(number=NUMBER))


def lie(part: str, face: str, joint: str) -> list[tuple[float, float]]:
    """Where the holes of a joint lie in a face, in the order of its places."""
    worked = worked_of(Build.rows.get(number=NUMBER))
    found = {
        one.place: (one.u_mm or 0.0, one.v_mm or 0.0)
        for one in worked.holes
        if (one.part, one.face, one.joint) == (part, face, joint)
    }
    return [found[place] for place in sorted(found)]


def begin(walk: Walk, address: str) -> None:
    """A new build: its parts, how they lie, the recess for the plate, and two joints of one place each."""
    page = walk.page
    page.goto(address)
    walk.fill(page.get_by_label("What is it?"), "Plate and rail")
    walk.press("Enter")
    page.wait_for_url("**/parts/**")
    walk.fill(page.locator("[data-entry]").first, PARTS)
    walk.press("Enter")
    expect(page.locator(".messages")).to_contain_text("Added P01 plate, P02 rail and P03 side.")
    walk.click(page.get_by_role("link", name="P02", exact=True).first)
    page.wait_for_url("**/parts/P02/**")
    walk.fill(page.locator("#entry-poses-new"), LIE)
    walk.press("Enter")
    expect(page.locator(".messages")).to_contain_text("laid down")
    walk.fill(page.locator("#entry-pockets-new"), "top: recess 200 x 40 x 2 deep at 100,10")
    walk.press("Enter")
    expect(page.locator(".messages")).to_contain_text("1 pocket added")
    walk.click(page.locator("[data-zone=B]"))
    page.wait_for_url("**/joints/")
    walk.fill(page.locator("[data-entry]").first, JOINTS)
    walk.press("Enter")
    expect(page.get_by_role("link", name="F02", exact=True).first).to_be_visible()


def place_the_screws(walk: Walk) -> None:
    """One of the four screws was typed; three are pressed on the drawing of the plate, one is dragged."""
    page = walk.page
    walk.click(page.get_by_role("link", name="F01", exact=True).first)
    page.wait_for_url("**/joints/F01/**")
    walk.choose(page.get_by_label("Step").locator("visible=true").first, label="5 mm")
    walk.click(page.get_by_role("button", name="One more place").locator("visible=true"))
    for number, u in ((2, 70.0), (3, 130.0), (4, 180.0)):
        press_at(walk, u, 20.0, f"F01 place {number} added on P01 top at {u:g},20.")
    walk.click(page.get_by_role("button", name="Leave it").locator("visible=true"))
    drag(walk, (70.0, 20.0), (80.0, 20.0))
    expect(page.locator(".messages")).to_contain_text("F01 place 2 moved to P01 top at 80,20.")
    assert lie("P01", "top", "F01") == [(20, 20), (80, 20), (130, 20), (180, 20)]
    # The plate's corner lies at 100, 10 on the rail.
    assert lie("P02", "top", "F01") == [(120, 30), (180, 30), (230, 30), (280, 30)]


def try_a_thinner_screw(walk: Walk) -> None:
    """No. 10 heads are deeper than the plate is thick; with No. 5 every part is seen to change."""
    page = walk.page
    expect(page.locator(".finding.error").first).to_contain_text(
        re.compile(r"The countersink goes through P01: 2\.\d+ mm deep in 2 mm")
    )
    walk.fill(page.get_by_label("Try another fastener"), "No. 5 x 1 csk brass")
    walk.press("Enter")
    changes = page.locator("table", has=page.get_by_text("Hole as tried (mm)"))
    expect(changes.get_by_role("row")).to_have_count(3)
    expect(changes).to_contain_text(re.compile(r"P01 plate.*clearance 5.*clearance 3\.\d", re.DOTALL))
    expect(changes).to_contain_text(re.compile(r"P02 rail.*pilot .*pilot ", re.DOTALL))
    walk.click(page.get_by_role("button", name="Take it").first)
    expect(page.locator(".messages")).to_contain_text("F01: the fastener is now No. 5 x 1 csk brass")


def place_the_bolts(walk: Walk) -> None:
    """Two more bolts on the rail's front; the side has them mirrored, since it lies on the rail's back."""
    page = walk.page
    walk.click(page.locator("[data-zone=B]"))
    page.wait_for_url("**/joints/")
    walk.click(page.get_by_role("link", name="F02", exact=True).first)
    page.wait_for_url("**/joints/F02/**")
    walk.click(page.get_by_role("button", name="One more place").locator("visible=true"))
    for number, u in ((2, 200.0), (3, 350.0)):
        press_at(walk, u, 15.0, f"F02 place {number} added on P02 front at {u:g},15.")
    assert lie("P02", "front", "F02") == [(50, 15), (200, 15), (350, 15)]
    # On the back u runs the other way: 400 - u, and the side's corner lies 100 beyond and 110 below it.
    assert lie("P03", "top", "F02") == [(450, 125), (300, 125), (150, 125)]
    joint: plain.Joint = find(build(), "joint", "F02")
    assert [hole.counterbore_depth and hole.counterbore_depth.mm for hole in joint.stack[1].holes] == [8]
    expect(page.locator("#stack")).to_contain_text(re.compile("counterbored"))


def pages_of(walk: Walk, link: Locator) -> list[PageRead]:
    """Print: the file that the link gives."""
    walk.done.append("print")
    answer = walk.page.request.get(walk.page.url.split("/workshops/")[0] + (link.get_attribute("href") or ""))
    assert answer.headers["content-type"] == "application/pdf"
    with pdfplumber.open(io.BytesIO(answer.body())) as pdf:
        assert pdf.pages
    return read_pages(answer.body())


def test_the_plate_and_the_rail(walk: Walk, live_server: LiveServer) -> None:
    """The whole of it, with the number of actions that it took."""
    page = walk.page
    begin(walk, live_server.url)
    place_the_screws(walk)
    try_a_thinner_screw(walk)
    place_the_bolts(walk)
    walk.click(page.get_by_role("link", name="P02", exact=True).first)
    page.wait_for_url("**/parts/P02/**")
    walk.click(page.get_by_role("link", name="Template").first)
    page.wait_for_url("**/template/**")
    printed = pages_of(walk, page.get_by_role("link", name=re.compile("^Print")).first)
    for each in printed:
        lengths = [length for _, length in each.rules.values()]
        assert lengths == pytest.approx([round(length, -1) for length in lengths], abs=0.01)
    # This printer draws 0.8 % short along the paper, and true across it.
    walk.fill(page.get_by_label("Along the paper"), "99.2")
    walk.fill(page.get_by_label("Across the paper"), "100")
    walk.fill(page.get_by_label("Printer", exact=True).first, "laser")
    walk.click(page.get_by_role("button", name="Keep the readings"))
    expect(page.locator(".messages")).to_be_visible()
    again = pages_of(walk, page.get_by_role("link", name=re.compile("^Print")).first)
    for each in again:
        lying = each.width > each.height
        for name, (_, length) in each.rules.items():
            along = (name == "level") == lying
            # What the printer makes of it measures full centimetres again, as the first print was drawn.
            made = length * (0.992 if along else 1.0)
            assert made == pytest.approx(round(made, -1), abs=0.02)
    assert sum(len(each.crosses) for each in again) >= 7
    assert walk.count <= MOST_ACTIONS, walk.done
