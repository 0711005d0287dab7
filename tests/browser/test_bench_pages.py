"""The bench in a browser: no barrier that axe-core knows, nothing over the edge, forms by keyboard."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page
from pytest_django.live_server_helper import LiveServer

pytestmark = pytest.mark.browser

ADDRESSES = (
    "/bench/",
    "/bench/thread/?designation=M5",
    "/bench/countersink/?head_diameter=wide&hole=4",
    "/bench/joint/?fastener=No.+8+csk+brass&layers=batten,+oak,+22%0Abase,+oak,+28",
    "/bench/tables/",
    "/bench/tables/heads/?sort=-diameter",
    "/bench/tables/woods/",
    "/bench/words/",
    "/bench/find/?q=jam+nut+M5",
    "/bench/find/?q=3/16",
)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [1280, 360])
def test_no_barriers_and_nothing_over_the_edge(
    width: int, scheme: str, page: Page, live_server: LiveServer
) -> None:
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.set_viewport_size({"width": width, "height": 800})
    page.emulate_media(color_scheme=scheme)
    faults: dict[str, object] = {}
    for address in ADDRESSES:
        page.goto(live_server.url + address)
        found = Axe().run(page).response["violations"]
        if found:
            faults[address] = [
                (each["id"], [node["html"][:160] for node in each["nodes"][:3]]) for each in found
            ]
        assert page.evaluate("document.documentElement.scrollWidth") <= width, address
    assert faults == {}
    # The browser itself notes that the form with faults was answered by 422.
    assert [each for each in said if "422" not in each] == []


def test_a_size_is_found_and_worked_out_by_keyboard(page: Page, live_server: LiveServer) -> None:
    page.goto(f"{live_server.url}/bench/")
    page.get_by_label("Find a size, a thing or a calculator").fill("1/4 BSF")
    page.keyboard.press("Enter")
    page.wait_for_url("**/bench/find/?q=*")
    page.get_by_role("link", name="tapping-drill 1/4 BSF").focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/bench/tapping-drill/?*")
    assert page.get_by_label("Designation").input_value() == "1/4 BSF"
    page.get_by_label("Engagement").fill("much")
    page.keyboard.press("Enter")
    page.wait_for_url("**engagement=much*")
    assert page.locator("#id_engagement_error .fault").is_visible()
    assert page.get_by_label("Engagement").input_value() == "much"
