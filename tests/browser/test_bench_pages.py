"""The bench in a browser: no barrier that axe-core knows, nothing over the edge, forms by keyboard."""

from __future__ import annotations

import io

import pdfplumber
import pytest
from playwright.sync_api import Page, expect
from pytest_django.live_server_helper import LiveServer

from buildlog.bench.rows import address_of
from calculators.catalogue import find_calculator
from tests.browser.barriers import barriers

pytestmark = pytest.mark.browser


def example(name: str) -> str:
    """The example of a calculator as the part of an address behind the question mark."""
    return address_of(find_calculator(name).example or {})


ROWS = "pieces.0.name=side&pieces.0.count=4&pieces.0.length=800&pieces.0.width=100&pieces.0.thickness="
ADDRESSES = (
    "/bench/",
    "/bench/thread/?designation=M5",
    "/bench/countersink/?head_diameter=wide&hole=4",
    "/bench/joint/?fastener=No.+8+csk+brass&layers=batten,+oak,+22%0Abase,+oak,+28",
    f"/bench/timber/?{ROWS}27+mm+%C2%B1+0.5",
    f"/bench/timber/?{ROWS}thick",
    "/bench/timber/?one-more=pieces&pieces.0.name=side",
    f"/bench/mass-and-balance/?{example('mass-and-balance')}",
    f"/bench/spring/?{example('spring')}",
    f"/bench/pivot/?{example('pivot')}",
    f"/bench/circle-of-holes/?{example('circle-of-holes')}",
    "/bench/identify-thread/?diameter=4.70&threads_per_inch=32",
    "/bench/tables/",
    "/bench/tables/heads/?sort=-diameter",
    "/bench/tables/woods/",
    "/bench/words/",
    "/bench/find/?q=jam+nut+M5",
    "/bench/find/?q=3/16",
)


@pytest.mark.parametrize(("width", "scheme"), [(1280, "light"), (360, "dark")])
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
        found = barriers(page)
        if found:
            faults[address] = found
        assert page.evaluate("document.documentElement.scrollWidth") <= width, address
    assert faults == {}
    # The browser itself notes that the form with faults was answered by 422.
    assert [each for each in said if "422" not in each] == []


def test_a_size_is_found_and_worked_out_by_keyboard(page: Page, live_server: LiveServer) -> None:
    page.goto(f"{live_server.url}/bench/")
    page.get_by_label("Find a size, a thing or a calculator").fill("1/4 BSF")
    page.keyboard.press("Enter")
    page.wait_for_url("**/bench/find/?q=*")
    page.get_by_role("link", name="Tapping drill 1/4 BSF").focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/bench/tapping-drill/?*")
    assert page.get_by_label("Designation").input_value() == "1/4 BSF"
    page.get_by_label("Engagement").fill("much")
    page.keyboard.press("Enter")
    page.wait_for_url("**engagement=much*")
    assert page.locator("#id_engagement_error .fault").is_visible()
    assert page.get_by_label("Engagement").input_value() == "much"


def test_a_row_is_added_in_place_and_without_script_by_its_button(
    page: Page, live_server: LiveServer
) -> None:
    page.goto(f"{live_server.url}/bench/timber/")
    rows = page.locator("[data-rows] tbody tr")
    page.get_by_label("Name, row 1").fill("side")
    page.get_by_role("button", name="One more row").click()
    expect(rows).to_have_count(2)
    expect(page.get_by_label("Name, row 2")).to_be_focused()
    expect(page.get_by_label("Name, row 2")).to_have_value("")
    assert page.locator("[id='id_pieces-1-length']").get_attribute("name") == "pieces.1.length"
    assert "more=" not in page.url
    for place, (count, length) in enumerate((("4", "800"), ("2", "600"))):
        for name, text in (("count", count), ("length", length), ("width", "100"), ("thickness", "27")):
            page.locator(f"[name='pieces.{place}.{name}']").fill(text)
    # Enter works it out; it does not press the button that stands first.
    page.keyboard.press("Enter")
    page.wait_for_url("**#answer")
    expect(page.locator("#answer table.listed tbody")).to_have_count(2)
    context = page.context.browser.new_context(java_script_enabled=False)  # type: ignore[union-attr]
    plain = context.new_page()
    plain.goto(page.url)
    plain.get_by_role("button", name="One more row").click()
    expect(plain.locator("[data-rows] tbody tr")).to_have_count(3)
    expect(plain.get_by_label("Length mm, row 2")).to_have_value("600")
    plain.get_by_role("button", name="Work it out").last.click()
    expect(plain.locator("#answer table.listed tbody")).to_have_count(2)
    context.close()


def test_no_more_rows_are_offered_than_are_taken(page: Page, live_server: LiveServer) -> None:
    most = int(find_calculator("timber").input("pieces").maximum or 0)
    page.goto(
        f"{live_server.url}/bench/timber/?" + "&".join(f"pieces.{n}.name=p{n}" for n in range(most - 1))
    )
    page.get_by_role("button", name="One more row").click()
    expect(page.locator("[data-rows] tbody tr:not(.said)")).to_have_count(most)
    expect(page.get_by_role("button", name="One more row")).to_be_hidden()


@pytest.mark.parametrize(
    ("typed", "found"), [("gage", "Gauge"), ("rabbet", "Rebate"), ("screw pilot", "Wood screw")]
)
def test_the_list_of_calculators_narrows_by_words_of_either_side(
    typed: str, found: str, page: Page, live_server: LiveServer
) -> None:
    page.goto(f"{live_server.url}/bench/")
    every = page.locator("[data-words]:visible").count()
    page.get_by_label("Find a size, a thing or a calculator").fill(typed)
    expect(page.get_by_role("link", name=found, exact=True)).to_be_visible()
    assert 0 < page.locator("[data-words]:visible").count() < every / 2
    expect(page.locator("#narrowed")).to_contain_text("in this list")
    page.get_by_label("Find a size, a thing or a calculator").fill("")
    expect(page.locator("[data-words]:visible")).to_have_count(every)


def test_a_worked_example_is_printed_without_its_form(page: Page, live_server: LiveServer) -> None:
    page.goto(f"{live_server.url}/bench/spring/?{example('spring')}")
    page.emulate_media(media="print")
    assert page.locator("form.asked").is_hidden()
    assert page.locator(".take").is_hidden()
    for heading in ("Results", "Given", "Working", "Where it comes from"):
        assert page.get_by_role("heading", name=heading, exact=True).is_visible()
    assert page.locator("#answer .drawing.broad svg").first.is_visible()
    with pdfplumber.open(io.BytesIO(page.pdf(format="A4"))) as pdf:
        assert len(pdf.pages) <= 5
        text = "\n".join(each.extract_text() for each in pdf.pages)
        assert all(each.bbox[2] < 600 for each in pdf.pages)
    assert "Results" in text
    assert "Where it comes from" in text
