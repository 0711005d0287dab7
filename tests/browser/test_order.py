"""Journey 8 in a browser: it must go in before that closes. By keyboard, by dragging, by the finding's mend."""

from __future__ import annotations

from dataclasses import replace

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect
from pytest_django.live_server_helper import LiveServer

from buildlog.builds.actions import change_build
from buildlog.builds.models import Build
from buildlog.workshops.models import Person
from calculators.planning import model as plain

pytestmark = pytest.mark.browser
ORDER = "/workshops/thornbank-workshop/builds/TW-31/order/"
SAYS = "F10 is fitted in step 8, but step 6 closes it."


@pytest.fixture
def order(page: Page, live_server: LiveServer, demonstration: Person) -> Page:
    """The page of a build whose stop screws are fitted two steps after what closes them."""

    def edit(build: plain.Build) -> plain.Build:
        steps = {one.number: one for one in build.steps}
        steps[2] = replace(steps[2], fits=("P20", "P21"))
        steps[5] = replace(steps[5], closes=())
        steps[6] = replace(steps[6], closes=("F10",))
        steps[8] = replace(steps[8], fits=(*steps[8].fits, "F10"))
        return replace(build, steps=tuple(steps.values()))

    change_build(Build.rows.get(number="TW-31"), demonstration, edit, "Stop screws late")
    page.goto(live_server.url + ORDER)
    expect(page.locator("#step-8 .finding")).to_contain_text(SAYS)
    return page


def test_the_finding_goes_with_two_presses_of_a_key(order: Page) -> None:
    order.locator("#up-8").focus()
    order.keyboard.press("Enter")
    expect(order.locator("#step-7 h2")).to_have_text("7. V-block, boom, wire, bob")
    expect(order.locator("#up-7")).to_be_focused()
    order.keyboard.press("Enter")
    expect(order.locator("#step-6 h2")).to_have_text("6. V-block, boom, wire, bob")
    expect(order.locator("#up-6")).to_be_focused()
    expect(order.locator(".assembly .finding")).to_have_count(0)


def test_the_finding_goes_when_the_step_is_dragged_above_the_other(order: Page) -> None:
    order.set_viewport_size({"width": 1280, "height": 2400})  # the browser does not scroll while it drags
    order.locator("#step-8 .grip").drag_to(order.locator("#step-6 h2"), target_position={"x": 40, "y": 2})
    expect(order.locator("#step-6 h2")).to_have_text("6. V-block, boom, wire, bob")
    expect(order.locator(".assembly .finding")).to_have_count(0)
    expect(order.locator(".messages")).to_contain_text("comes before Step 6, Battens")


def test_a_step_is_dragged_to_the_end(order: Page) -> None:
    last = order.locator("#step-11")
    box = last.bounding_box()
    assert box is not None
    order.locator("#step-10 .grip").drag_to(last, target_position={"x": 40, "y": box["height"] - 3})
    expect(order.locator("#step-11 h2")).to_have_text("11. Pen, lifter, motor")


def test_the_finding_goes_with_its_button_and_comes_back_with_undo(order: Page) -> None:
    order.locator("#step-8 .finding").get_by_role("button").first.click()
    expect(order.locator(".assembly .finding")).to_have_count(0)
    order.keyboard.press("u")
    expect(order.locator("#step-8 .finding")).to_contain_text(SAYS)


def test_a_step_is_opened_changed_and_left_by_keyboard(order: Page) -> None:
    order.locator("#step-4").get_by_role("link", name="Change step 4").press("Enter")
    line = order.get_by_label("Step 4 on one line")
    expect(line).to_be_focused()
    line.fill("4 Finish the base: check under a raking light")
    line.press("Enter")
    expect(order.locator("#step-4")).to_contain_text("under a raking light")
    order.keyboard.press("n")
    entry = order.get_by_label("New steps, one a line")
    expect(entry).to_be_focused()
    entry.fill("Level it: fits P99")
    entry.press("Enter")
    expect(order.get_by_label("Line 1")).to_have_value("Level it: fits P99")
    expect(order.get_by_label("Line 1")).to_be_focused()


def test_it_works_without_script(browser: object, live_server: LiveServer, order: Page) -> None:
    plain_page = order.context.browser.new_context(java_script_enabled=False).new_page()  # type: ignore[union-attr]
    plain_page.goto(live_server.url + ORDER)
    plain_page.locator("#up-8").click()
    plain_page.locator("#up-7").click()
    expect(plain_page.locator(".assembly .finding")).to_have_count(0)
    expect(plain_page.locator(".grip").first).to_be_hidden()
    plain_page.context.close()


@pytest.mark.parametrize("width", [1280, 360])
def test_no_barriers_and_nothing_over_the_edge(width: int, order: Page, live_server: LiveServer) -> None:
    order.set_viewport_size({"width": width, "height": 800})
    for address in (ORDER, f"{ORDER}6/", f"{ORDER}6/#step-line"):
        order.goto(live_server.url + address)
        found = Axe().run(order).response["violations"]
        assert [(each["id"], each["nodes"][0]["html"][:160]) for each in found] == [], address
        assert order.evaluate("document.documentElement.scrollWidth") <= width, address
