"""The words of part drawings as a browser sets them: none on another, none wider than they were reckoned to be."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page
from pytest_django.live_server_helper import LiveServer

from buildlog.workshops.models import Person
from calculators.drawing.lettering import text_width

pytestmark = pytest.mark.browser

PARTS = "/workshops/thornbank-workshop/builds/TW-31/parts"
_BOXES = """() => [...document.querySelectorAll('.drawing.broad .part-drawing text')].map(one => {
  const box = one.getBoundingClientRect(), letters = one.getBBox();
  return {says: one.textContent, left: box.left, top: box.top, right: box.right, bottom: box.bottom,
    wide: letters.width, size: parseFloat(one.getAttribute('font-size'))};
})"""


@pytest.mark.parametrize("mark", ["P01", "P11", "P12", "P20"])
def test_no_words_lie_on_others(
    mark: str, page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    page.set_viewport_size({"width": 1280, "height": 900})
    page.goto(f"{live_server.url}{PARTS}/{mark}/drawing/")
    words = page.evaluate(_BOXES)
    assert len(words) > 10
    for index, one in enumerate(words):
        assert one["wide"] <= text_width(one["says"], one["size"]) + 0.1, one["says"]
        for other in words[:index]:
            across = min(one["right"], other["right"]) - max(one["left"], other["left"])
            # The box of a line of type is as high as its line, a quarter of which is empty above and below.
            down = min(one["bottom"], other["bottom"]) - max(one["top"], other["top"])
            least = min(one["bottom"] - one["top"], other["bottom"] - other["top"])
            assert across <= 0.5 or down <= 0.3 * least, (one["says"], other["says"])
