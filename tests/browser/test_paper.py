"""The paper on the wall: printed, out of date, known to be so when its code is scanned, and printed anew.

An action is a click, a tap, a key chord, a code scanned, or one field filled; reading is free.
"""

from __future__ import annotations

import io
from dataclasses import replace

import pdfplumber
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Locator, Page, expect
from pytest_django.live_server_helper import LiveServer

from buildlog.builds.actions import begin_build
from buildlog.builds.models import Build
from buildlog.sheets.models import PrintedSheet
from buildlog.workshops.demonstration import make_people
from buildlog.workshops.models import Person
from calculators.planning.facts import code_shown
from calculators.planning.model import Stock
from calculators.quantities import read_length
from tests.browser.test_journeys import Walk, cabinet
from tests.sheets.square_codes import dark_rectangles, decode, modules

pytestmark = pytest.mark.browser

ARM_S_LENGTH_PX = 38
"""The least height of letters that are read with the phone laid down [CSS pixels]."""


@pytest.fixture
def walk(page: Page, record_property: object) -> Walk:
    page.set_default_timeout(10_000)
    return Walk(page)


def sheet_on(page: Page, link: Locator, walk: Walk) -> tuple[str, str]:
    """Print the sheet that a link leads to: what its square code holds, and what stands on it."""
    walk.done.append("click the link of the sheet")
    address = link.get_attribute("href")
    assert address is not None
    answer = page.request.get(page.url.split("/workshops")[0].split("/paper")[0] + address)
    assert answer.headers["content-type"] == "application/pdf"
    with pdfplumber.open(io.BytesIO(answer.body())) as pdf:
        held = {decode(modules(dark_rectangles(each))[0]) for each in pdf.pages}
        text = "\n".join(each.extract_text() for each in pdf.pages)
    assert len(held) == 1
    return held.pop(), text


def test_journey_6_the_sheet_on_the_wall_is_known_to_be_out_of_date(
    walk: Walk, live_server: LiveServer, demonstration: Person, browser: Browser
) -> None:
    ply = Stock("S1", "18 mm birch ply", "birch ply", "sheet", thickness=read_length("18"), count=2)
    first, *others = cabinet().components
    build = replace(cabinet(), stock=(ply,), components=(replace(first, from_stock="S1"), *others))
    begin_build(make_people(), None, build, "Begun")
    bench = walk.page
    rack = f"{live_server.url}/workshops/thornbank-workshop/builds/CAB/rack/"
    bench.goto(rack)
    walk.click(bench.locator("#stock-S1").get_by_role("link", name="P1", exact=True))
    held, text = sheet_on(bench, bench.get_by_role("link", name="Drilling sheet", exact=True), walk)
    printed = PrintedSheet.objects.get()
    assert held == f"{live_server.url}/paper/{printed.code}/"
    assert code_shown(printed.code) in text
    assert "Revision A: P1." in text

    walk.click(bench.get_by_role("link", name="L rack"))
    walk.fill(bench.get_by_label("Measured thickness of S1"), "17.2")
    walk.press("Enter")
    walk.fill(bench.get_by_label("Why is this changed?"), "The sheet measures 17.2")
    walk.press("Enter")
    expect(bench.locator("#measured")).to_contain_text("P1 revision B")

    phone = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
    scanned = phone.new_page()
    scanned.goto(held)
    walk.done.append("scan the code")
    answer = scanned.locator(".answer")
    expect(answer).to_have_text("Out of date")
    assert answer.evaluate("element => parseFloat(getComputedStyle(element).fontSize)") >= ARM_S_LENGTH_PX
    assert answer.evaluate("element => element.getBoundingClientRect().bottom") <= 740
    assert scanned.evaluate("document.documentElement.scrollWidth") <= 360
    changed = scanned.locator(".otherwise tbody tr", has_text="thickness")
    expect(changed).to_contain_text("18 mm")
    expect(changed).to_contain_text("17.2 mm")
    expect(changed).to_contain_text("Ines Hallam")
    expect(scanned.locator(".verdict")).to_contain_text("Why: The sheet measures 17.2")

    assert Axe().run(scanned).response["violations"] == []

    again, text = sheet_on(scanned, scanned.get_by_role("link", name="Print the new sheet"), walk)
    assert again != held
    assert "Revision B: P1." in text
    scanned.goto(again)
    walk.done.append("scan the new code")
    expect(scanned.locator(".answer")).to_have_text("Current")
    assert walk.count <= 10, walk.done

    bench.goto(f"{live_server.url}/workshops/thornbank-workshop/builds/CAB/parts/P1/")
    expect(bench.locator("#papers")).to_contain_text("1 printed sheet shows revision A: out of date.")
    bench.emulate_media(color_scheme="dark")
    bench.goto(f"{live_server.url}/workshops/thornbank-workshop/builds/CAB/paper/")
    expect(bench.locator("#printed")).to_contain_text("1 is out of date")
    assert Axe().run(bench).response["violations"] == []
    bench.goto(f"{live_server.url}/workshops/thornbank-workshop/builds/CAB/parts/P1/")
    scanned.goto(held)
    walk.click(scanned.get_by_role("button", name="I have thrown this one away"))
    expect(scanned.locator(".verdict")).to_contain_text("It was noted as thrown away.")
    bench.reload()
    expect(bench.locator("#papers")).to_have_count(0)
    assert [one.gone for one in Build.rows.get(number="CAB").printed.order_by("pk")] == [True, False]
    phone.close()


def test_a_code_is_typed_at_the_bench_without_a_mouse(
    walk: Walk, live_server: LiveServer, demonstration: Person
) -> None:
    page = walk.page
    page.goto(f"{live_server.url}/workshops/thornbank-workshop/builds/TW-31/paper/")
    page.request.get(f"{live_server.url}/workshops/thornbank-workshop/builds/TW-31/sheets/assembly.pdf")
    code = PrintedSheet.objects.get().code
    walk.fill(page.get_by_label("Code on the paper"), "what it says")
    walk.press("Enter")
    expect(page.locator(".fault")).to_contain_text("eight figures and letters in two groups")
    expect(page.get_by_label("Code on the paper")).to_have_value("what it says")
    assert Axe().run(page).response["violations"] == []
    walk.fill(page.get_by_label("Code on the paper"), code_shown(code).lower())
    walk.press("Enter")
    expect(page.locator(".answer")).to_have_text("Current")
