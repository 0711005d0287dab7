"""The journal in a browser: an entry with photographs from its form to paper, and a draft that is not lost."""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from PIL import Image
from playwright.sync_api import Page, expect
from pytest_django.live_server_helper import LiveServer

from buildlog.workshops.models import Person

pytestmark = pytest.mark.browser

JOURNAL = "/workshops/thornbank-workshop/builds/TW-31/journal/"


def barriers(page: Page, width: int) -> list[object]:
    """What axe-core finds on the page, and whether anything stands over the edge."""
    found: list[object] = [
        (each["id"], [node["html"][:160] for node in each["nodes"][:3]])
        for each in Axe().run(page).response["violations"]
    ]
    broad = page.evaluate("document.documentElement.scrollWidth")
    return found + [f"{broad} px wide"] * (broad > width)


def files(folder: Path) -> list[Path]:
    """Two photographs and a file that is none."""
    for name, colour in (("IMG_1.jpg", "peru"), ("IMG_2.png", "teal")):
        Image.new("RGB", (900, 600), colour).save(folder / name)
    (folder / "notes.jpg").write_bytes(b"%PDF-1.7")
    return [folder / name for name in ("IMG_1.jpg", "notes.jpg", "IMG_2.png")]


@pytest.mark.parametrize("width", [1280, 360])
def test_an_entry_is_written_with_photographs_of_which_one_is_bad(
    width: int, page: Page, live_server: LiveServer, demonstration: Person, tmp_path: Path
) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    page.goto(live_server.url + JOURNAL)
    page.locator("#id_text").fill("# Squaring\n\nSquared the *flange*.")
    page.locator("#id_hours").fill("1 h 30")
    page.locator("#id_marks").fill("p11, F03")
    page.locator("#id_photographs").set_input_files(files(tmp_path))
    page.get_by_role("button", name="Write the entry").click()

    expect(page.locator(".faults.whole")).to_contain_text("'notes.jpg' is a PDF, not a photograph")
    assert page.locator("#id_text").input_value() == "# Squaring\n\nSquared the *flange*."
    assert barriers(page, width) == []
    page.get_by_label("Caption of photograph 2").fill("The flange")
    page.get_by_role("button", name="Write the entry").click()

    entry = page.locator("article").first
    expect(entry.get_by_role("heading", name="Squaring")).to_be_visible()
    expect(entry.get_by_role("img", name="The flange")).to_be_visible()
    assert entry.locator("img").evaluate_all(
        "all => all.every((img) => img.complete && img.naturalWidth === 480)"
    )
    assert page.locator("#id_text").input_value() == ""  # the draft is forgotten
    assert barriers(page, width) == []

    entry.locator("h2 a").click()
    assert barriers(page, width) == []
    page.emulate_media(media="print")
    expect(page.get_by_role("img", name="The flange").first).to_be_visible()
    expect(page.get_by_role("button", name="Save the entry")).to_be_hidden()
    expect(page.get_by_role("heading", name="Change this entry")).to_be_hidden()
    page.emulate_media(media="screen")

    page.goto(live_server.url + JOURNAL + "decisions/")
    assert barriers(page, width) == []


def test_what_is_typed_survives_that_the_page_is_closed(
    page: Page, live_server: LiveServer, demonstration: Person
) -> None:
    page.goto(live_server.url + JOURNAL)
    page.locator("#id_text").fill("Half an entry")
    page.goto(live_server.url)
    page.goto(live_server.url + JOURNAL)
    expect(page.locator("#id_text")).to_have_value("Half an entry")
