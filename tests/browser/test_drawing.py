"""Drawings under the hand: looked at more closely, holes picked, dragged, nudged and placed; with a thumb too."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Locator, Page, expect
from pytest_django.live_server_helper import LiveServer

from buildlog.builds.actions import begin_build, change_build
from buildlog.builds.models import Build, Change
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Person
from calculators.planning import model as plain
from calculators.planning.edits import find, put
from calculators.planning.edits.hole_moves import move_hole, read_spot
from calculators.planning.lines import add_lines

pytestmark = pytest.mark.browser
BUILD = "/workshops/thornbank-workshop/builds/B4"
PICKED = re.compile(r"\bpicked\b")


@pytest.fixture
def rail(page: Page, live_server: LiveServer, demonstration: Person) -> Page:
    """A plate of 200 x 40 x 2 on a rail of 400 x 60 x 30 at 100, 10, in millimetres."""
    build = plain.Build("B4", "Rail")
    build = add_lines("part", "plate 200 x 40 x 2 brass\nrail 400 x 60 x 30 maple", build).build
    build = add_lines("pose", "P02 on the ground\nP01 on P02 top at 100,10", build).build
    build = add_lines("hole", "top: dia 5.5 at 20,30\ntop: dia 4 at 60,12.7", build, part="P02").build
    line = "No. 5 x 1 csk brass: plate into rail, placed on plate top at 20,20; 180,20"
    build = add_lines("joint", line, build).build
    begin_build(demonstration.workshops.get(), demonstration, build, "Begun")
    demonstration.units = "mm"
    demonstration.save()
    page.set_default_timeout(8_000)
    page.set_viewport_size({"width": 1280, "height": 1000})
    return page


@pytest.fixture
def part(rail: Page, live_server: LiveServer) -> Page:
    """The page of the rail, its top in the middle of the window."""
    rail.goto(f"{live_server.url}{BUILD}/parts/P02/")
    plan(rail).scroll_into_view_if_needed()
    return rail


def plan(page: Page) -> Locator:
    return page.locator("[data-plan] .drawing:visible > svg[data-datum]").first


def hole(page: Page, number: int) -> Locator:
    return plan(page).locator(f'.at-hole[data-hole="{number}"]')


def at(page: Page, u: float, v: float) -> tuple[float, float]:
    """Where a place of the face lies in the window."""
    found = plan(page).evaluate(
        """(svg, [u, v]) => {
            const [x, y] = svg.dataset.datum.split(" ").map(Number), scale = Number(svg.dataset.scale);
            const p = new DOMPoint(x + u * scale, y - v * scale).matrixTransform(svg.getScreenCTM());
            return [p.x, p.y];
        }""",
        [u, v],
    )
    return float(found[0]), float(found[1])


def drag(page: Page, start: tuple[float, float], end: tuple[float, float], *, drop: bool = True) -> None:
    page.mouse.move(*at(page, *start))
    page.mouse.down()
    page.mouse.move(*at(page, (start[0] + end[0]) / 2, (start[1] + end[1]) / 2))
    page.mouse.move(*at(page, *end))
    if drop:
        page.mouse.up()


def own() -> dict[str, tuple[float, float]]:
    part: plain.Component = find(plain_of(Build.rows.get(number="B4")), "component", "P02")
    return {one.id: (one.u.mm, one.v.mm if one.v else 0.0) for one in part.holes}


def places() -> list[tuple[float, float]]:
    joint: plain.Joint = find(plain_of(Build.rows.get(number="B4")), "joint", "F01")
    return [(one.u.mm, one.v.mm if one.v else 0.0) for one in joint.places]


def row(page: Page, number: int) -> Locator:
    return page.locator(f'tr[data-of="P02/{number}"]')


def status(page: Page) -> Locator:
    return page.locator("body > .unseen[role=status]")


def test_a_drawing_is_looked_at_more_closely_and_whole_again(part: Page) -> None:
    svg = plan(part)
    whole = svg.get_attribute("viewBox")
    tools = part.locator(".drawing-tools:visible").first
    tools.get_by_role("button", name="Larger").click()

    def width() -> float:
        return float((svg.get_attribute("viewBox") or "0 0 0 0").split()[2])

    first = width()
    assert first == pytest.approx(float((whole or "").split()[2]) / 1.5, rel=1e-4)
    part.keyboard.press("+")
    assert width() < first
    left = (svg.get_attribute("viewBox") or "").split()[0]
    part.keyboard.press("ArrowRight")
    assert float((svg.get_attribute("viewBox") or "").split()[0]) > float(left)
    part.keyboard.press("0")
    assert svg.get_attribute("viewBox") == whole
    # The wheel with Ctrl: the place under the pointer stays where it is.
    point = at(part, 20, 30)
    part.mouse.move(*point)
    part.keyboard.down("Control")
    part.mouse.wheel(0, -120)
    part.keyboard.up("Control")
    expect(svg).not_to_have_attribute("viewBox", whole or "")
    assert at(part, 20, 30) == pytest.approx(point, abs=0.6)
    # The mouse moves what is seen with it.
    drag(part, (40, 45), (50, 40))
    tools.get_by_role("button", name="Whole").click()
    assert svg.get_attribute("viewBox") == whole
    expect(tools.get_by_role("button", name="Whole")).to_be_hidden()


def test_a_hole_picks_its_row_and_a_row_its_hole(part: Page) -> None:
    part.mouse.click(*at(part, 20, 30))
    expect(row(part, 1)).to_have_class("picked")
    expect(hole(part, 1)).to_have_attribute("aria-label", "hole 1, 5.5 mm plain, through, at 20, 30")
    row(part, 2).locator("td").first.click()
    expect(hole(part, 2)).to_have_class(PICKED)
    expect(row(part, 1)).not_to_have_class("picked")
    row(part, 3).locator("td").first.hover()
    expect(hole(part, 3)).to_have_class(re.compile(r"\bnear\b"))
    part.keyboard.press("j")
    expect(hole(part, 1)).to_have_class(PICKED)
    part.keyboard.press("j")
    part.keyboard.press("j")
    expect(hole(part, 3)).to_have_class(PICKED)
    hole(part, 3).focus()
    part.keyboard.press("Escape")
    expect(part.locator("tr.picked")).to_have_count(0)
    expect(status(part)).to_have_text("Hole 3 is let go.")


def test_a_hole_is_dragged_in_one_change_and_undone(part: Page) -> None:
    changes = Change.objects.count()
    drag(part, (20, 30), (31.4, 25.3), drop=False)
    expect(part.locator(".readout:visible").first).to_have_text("hole 1 at 31, 25")
    expect(row(part, 1).locator('[data-head="u"]')).to_have_text("31")
    assert own()["h1"] == (20, 30)
    part.mouse.up()
    expect(part.locator(".messages")).to_contain_text("P02 hole h1 moved to 31,25 on the top.")
    expect(hole(part, 1)).to_be_focused()
    assert own()["h1"] == (31, 25)
    assert Change.objects.count() == changes + 1
    part.keyboard.press("u")
    expect(part.locator(".messages")).to_contain_text("Undone")
    assert own()["h1"] == (20, 30)


def test_an_axis_that_was_not_moved_keeps_its_odd_place(part: Page) -> None:
    drag(part, (60, 12.7), (70, 12.9))
    expect(part.locator(".messages")).to_contain_text("P02 hole h2 moved to 70,12.7")


def test_a_hole_is_nudged_by_the_step_and_saved_after_a_pause(part: Page) -> None:
    part.get_by_label("Step").first.select_option("0.5")
    hole(part, 1).focus()
    changes = Change.objects.count()
    for key in ("ArrowRight", "ArrowRight", "Shift+ArrowUp"):
        part.keyboard.press(key)
    expect(status(part)).to_have_text("hole 1 at 21, 35")
    expect(part.locator(".messages")).to_contain_text("P02 hole h1 moved to 21,35 on the top.")
    expect(hole(part, 1)).to_be_focused()
    assert Change.objects.count() == changes + 1
    part.keyboard.press("ArrowLeft")
    part.keyboard.press("Escape")
    part.wait_for_timeout(1_200)
    assert own()["h1"] == (21, 35)


def test_a_hole_that_follows_moves_its_joints_place(part: Page) -> None:
    drag(part, (120, 30), (125, 28))
    expect(part.locator(".messages")).to_contain_text("F01 place 1 moved to P01 top at 25,18.")
    assert places() == [(25, 18), (180, 20)]


def test_a_hole_is_placed_on_the_drawing_and_completed_in_the_line(part: Page) -> None:
    part.get_by_role("button", name="Place a hole").first.click()
    part.mouse.click(*at(part, 80.2, 14.9))
    line = part.locator("#entry-holes-new")
    expect(line).to_have_value("top: dia 4 at 80, 15")
    expect(line).to_be_focused()
    part.keyboard.type("dia 6")
    part.keyboard.press("Enter")
    expect(part.locator(".messages")).to_contain_text("P02: 1 hole added, h3.")
    assert own()["h3"] == (80, 15)


def test_a_place_is_added_with_the_keyboard_alone(rail: Page, live_server: LiveServer) -> None:
    rail.goto(f"{live_server.url}{BUILD}/joints/F01/")
    rail.get_by_role("button", name="One more place").first.focus()
    for key in ("Enter", "Shift+ArrowLeft", "ArrowUp", "Enter"):
        rail.keyboard.press(key)
    expect(rail.locator(".messages")).to_contain_text("F01 place 3 added on P01 top at 90,21.")
    assert places()[2] == (90, 21)
    rail.keyboard.press("u")
    expect(rail.locator(".messages")).to_contain_text("Undone")
    assert len(places()) == 2


def test_the_network_gone_the_hole_stays_and_is_saved_again(part: Page) -> None:
    part.context.set_offline(True)
    drag(part, (20, 30), (30, 30))
    note = part.locator(".plan-note:visible")
    expect(note).to_contain_text("Not saved: there is no connection. The hole stays where you put it.")
    assert own()["h1"] == (20, 30)
    part.context.set_offline(False)
    note.get_by_role("button", name="Save it again").click()
    expect(part.locator(".messages")).to_contain_text("P02 hole h1 moved to 30,30")


def test_what_somebody_else_moved_meanwhile_is_shown_beside_ones_own(
    part: Page, demonstration: Person
) -> None:
    def edit(build: plain.Build) -> plain.Build:
        return move_hole(build, "P02", "h1", read_spot("44", "30", "top", "mm"))

    change_build(Build.rows.get(number="B4"), demonstration, edit, "moved")
    drag(part, (20, 30), (30, 30))
    expect(part.get_by_role("alert")).to_contain_text("Hole h1 of P02 was changed by Ines Hallam")
    expect(part.get_by_label("Your u")).to_have_value("30")
    part.get_by_role("button", name="Save mine").click()
    expect(part.locator(".messages")).to_contain_text("P02 hole h1 moved to 30,30")


def test_a_released_part_asks_why_and_the_move_is_not_lost(part: Page, demonstration: Person) -> None:
    def release(build: plain.Build) -> plain.Build:
        rail: plain.Component = find(build, "component", "P02")
        return put(build, "component", replace(rail, state="released", revision="A"), key="P02")

    change_build(Build.rows.get(number="B4"), demonstration, release, "released")
    part.reload()
    plan(part).scroll_into_view_if_needed()
    drag(part, (20, 30), (30, 30))
    why = part.get_by_label("Why is this changed?")
    expect(why).to_be_focused()
    assert own()["h1"] == (20, 30)
    why.fill("the drill wandered")
    part.keyboard.press("Enter")
    expect(part.locator(".messages")).to_contain_text("P02 hole h1 moved to 30,30")
    assert own()["h1"] == (30, 30)


def test_signed_out_meanwhile_the_hole_stays_and_it_is_said(part: Page) -> None:
    part.context.clear_cookies()
    drag(part, (20, 30), (30, 30))
    note = part.locator(".plan-note:visible")
    expect(note).to_contain_text(re.compile("Not saved: .*The hole stays where you put it."))
    note.get_by_role("button", name="Put it back").click()
    expect(part.locator(".readout:visible").first).to_have_text("hole 1 at 20, 30")


def test_inches_snap_to_their_fractions(rail: Page, live_server: LiveServer, demonstration: Person) -> None:
    demonstration.units = "in"
    demonstration.save()
    rail.goto(f"{live_server.url}{BUILD}/parts/P02/")
    plan(rail).scroll_into_view_if_needed()
    drag(rail, (20, 30), (31.4, 25))
    expect(rail.locator(".messages")).to_contain_text("P02 hole h1 moved to 1 1/4 in, 1 in on the top.")


@pytest.fixture
def thumb(rail: Page, browser: Browser, live_server: LiveServer) -> Iterator[Page]:
    """A phone."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
    page = context.new_page()
    page.set_default_timeout(8_000)
    page.goto(f"{live_server.url}{BUILD}/parts/P02/")
    plan(page).scroll_into_view_if_needed()
    yield page
    context.close()


def test_with_a_thumb_a_hole_is_tapped_then_dragged(thumb: Page) -> None:
    sizes = [each.bounding_box() for each in plan(thumb).locator(".hit").all()]
    assert all(box is not None and box["width"] >= 24 and box["height"] >= 24 for box in sizes)
    finger = thumb.context.new_cdp_session(thumb)

    def touch(kind: str, *points: tuple[float, float]) -> None:
        finger.send("Input.dispatchTouchEvent", {
            "type": kind, "touchPoints": [{"x": x, "y": y, "id": n} for n, (x, y) in enumerate(points)],
        })  # fmt: skip

    thumb.touchscreen.tap(*at(thumb, 20, 30))
    expect(hole(thumb, 1)).to_have_class(PICKED)
    touch("touchStart", at(thumb, 20, 30))
    for u in (24, 30, 40):
        touch("touchMove", at(thumb, u, 30))
    touch("touchEnd")
    expect(thumb.locator(".messages")).to_contain_text("P02 hole h1 moved to 40,30")
    plan(thumb).scroll_into_view_if_needed()
    whole = plan(thumb).get_attribute("viewBox") or ""
    x, y = at(thumb, 200, 30)
    touch("touchStart", (x - 20, y), (x + 20, y))
    for apart in (30, 50, 70):
        touch("touchMove", (x - apart, y), (x + apart, y))
    touch("touchEnd")
    assert float((plan(thumb).get_attribute("viewBox") or "").split()[2]) < float(whole.split()[2]) / 2


def test_without_script_it_is_a_plain_picture(rail: Page, browser: Browser, live_server: LiveServer) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{live_server.url}{BUILD}/parts/P02/")
    expect(page.get_by_role("img").first).to_be_visible()
    assert page.locator("[data-plan] [tabindex], [data-plan] button").count() == 0
    context.close()


@pytest.mark.parametrize(
    ("width", "pages"), [(1280, ("parts/P02/", "joints/F01/")), (360, ("joints/F01/places/",))]
)
def test_no_barriers_with_a_hole_picked_and_the_policy_kept(
    width: int, pages: tuple[str, ...], rail: Page, live_server: LiveServer
) -> None:
    said: list[str] = []
    rail.on("console", lambda message: said.append(message.text))
    rail.set_viewport_size({"width": width, "height": 900})
    for address in pages:
        rail.goto(f"{live_server.url}{BUILD}/{address}")
        hole(rail, 1).focus()
        found = Axe().run(rail).response["violations"]
        assert [(each["id"], each["nodes"][0]["html"][:160]) for each in found] == [], address
        assert rail.evaluate("document.documentElement.scrollWidth") <= width
    assert said == []
