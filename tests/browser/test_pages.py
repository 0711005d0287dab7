"""The pages in a browser: no barrier that axe-core knows, nothing over the edge, keyboard and print."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page
from pytest_django.live_server_helper import LiveServer

from buildlog.workshops.models import Person
from tests.browser.barriers import barriers

pytestmark = pytest.mark.browser

BUILD = "/workshops/thornbank-workshop/builds/TW-31"
ADDRESSES = (
    "/", "/sign-in/", "/account/", "/new-workshop/", "/workshops/thornbank-workshop/",
    "/workshops/thornbank-workshop/new-build/", "/workshops/thornbank-workshop/habits/", "/workshops/thornbank-workshop/read-build/", f"{BUILD}/",
    *(f"{BUILD}/{side}/" for side in ("parts", "joints", "holes", "cut", "order", "buying", "journal", "paper", "rack")),
    *(f"{BUILD}/{page}/" for page in ("fasteners", "about", "history", "keeping", "parts/P01", "parts/P10", "parts/P11/exchange", "parts/P12/drawing", "parts/P11/router", "parts/P01/template", "template", "order/5")),
    *(f"{BUILD}/joints/{mark}/" for mark in ("F01", "F03")), f"{BUILD}/joints/F18/?stack=apart", f"{BUILD}/joints/F03/change/",
    f"{BUILD}/joints/F03/places/", f"{BUILD}/joints/F03/?try=M8+x+45+hex+steel", f"{BUILD}/?by=rule",
    f"{BUILD}/?by=subject", f"{BUILD}/rules/", f"{BUILD}/rules/?find=edge", "/workshops/thornbank-workshop/habits/rules/",
    f"{BUILD}/let-stand/?finding=screw-bottoms:F03:P10", f"{BUILD}/in-red/?finding=edge-of-metal:F05:P12:1",
    f"{BUILD}/parts/?change=P01", f"{BUILD}/joints/?change=F03", f"{BUILD}/sheets/printing/?kind=drilling",
    *(f"{BUILD}/{page}/" for page in ("calculations", "calculations/K01", "calculations/K02", "calculations/K02/change", "new-calculation")),
    f"{BUILD}/new-calculation/mass-and-balance/?bodies=boom,+round,+brass,+length%3D100+mm,+diameter%3D6+mm", "/bench/nearest/keep/?length=5", "/paper/",
)  # fmt: skip


@pytest.mark.parametrize(("width", "scheme"), [(1280, "light"), (360, "dark")])
@pytest.mark.parametrize("share", range(3))
def test_no_barriers_and_nothing_over_the_edge(
    share: int, width: int, scheme: str, page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.set_viewport_size({"width": width, "height": 800})
    page.emulate_media(color_scheme=scheme)
    faults: dict[str, object] = {}
    for address in ADDRESSES[share::3]:
        answer = page.goto(live_server.url + address)
        assert answer is not None
        assert answer.status == 200, address
        found = barriers(page)
        if found:
            faults[address] = found
        assert page.evaluate("document.documentElement.scrollWidth") <= width, address
    assert faults == {}
    assert said == []


def test_a_build_is_walked_by_keyboard_from_the_start_page_to_a_drawing(
    page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    page.goto(live_server.url)
    for name, address in (("TW-31", f"{BUILD}/"), ("F03 in P10", f"{BUILD}/joints/F03/")):
        for _ in range(60):
            page.keyboard.press("Tab")
            if page.evaluate("document.activeElement.textContent.trim()") == name:
                break
        page.keyboard.press("Enter")
        page.wait_for_url(lambda url, at=address: url.split("?")[0] == live_server.url + at)
    assert page.get_by_role("img").first.is_visible()
    assert page.locator(".finding", has_text="The screw bottoms before it clamps").is_visible()
