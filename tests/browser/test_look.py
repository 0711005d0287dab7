"""The page of the look in a browser: what every page is made of, its keys, its drafts, its contrasts.

The limits are those of WCAG 2.2: 4.5:1 for text and 3:1 for large text (1.4.3), 3:1 for the lines of fields
(1.4.11), 24 by 24 pixels for what is pressed (2.5.8), and no single key that cannot be switched off (2.1.4).
"""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, expect
from pytest_django.live_server_helper import LiveServer

pytestmark = pytest.mark.browser

FOCUSED = "document.activeElement.id || document.activeElement.className"

# Every text with its contrast against the nearest ground behind it that is not transparent.
CONTRASTS = """() => {
  const canvas = document.createElement('canvas').getContext('2d', {willReadFrequently: true});
  const rgba = colour => { canvas.clearRect(0, 0, 1, 1); canvas.fillStyle = colour;
    canvas.fillRect(0, 0, 1, 1); return [...canvas.getImageData(0, 0, 1, 1).data]; };
  const light = ([r, g, b]) => { const [x, y, z] = [r, g, b].map(c => c / 255).map(
    c => c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4); return 0.2126 * x + 0.7152 * y + 0.0722 * z; };
  const ratio = (a, b) => { const [x, y] = [light(a), light(b)].sort((m, n) => n - m); return (x + 0.05) / (y + 0.05); };
  const ground = element => { for (let e = element; e; e = e.parentElement) {
    const colour = rgba(getComputedStyle(e).backgroundColor); if (colour[3] === 255) return colour; } return [255, 255, 255]; };
  const found = [];
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const element = texts.currentNode.parentElement;
    if (!texts.currentNode.textContent.trim() || !element.checkVisibility() || element.closest('script, svg')) continue;
    const style = getComputedStyle(element), size = parseFloat(style.fontSize);
    const large = size >= 24 || (size >= 18.66 && style.fontWeight >= 700);
    found.push([ratio(rgba(style.color), ground(element)), large ? 3 : 4.5, texts.currentNode.textContent.trim().slice(0, 40)]);
  }
  for (const field of document.querySelectorAll('input:not([type=hidden]), select, textarea')) {
    if (!field.checkVisibility()) continue;
    found.push([ratio(rgba(getComputedStyle(field).borderBottomColor), ground(field.parentElement)), 3, 'line of ' + field.id]);
  }
  return found;
}"""


@pytest.fixture
def look(page: Page, live_server: LiveServer) -> Page:
    """The page, opened."""
    page.goto(f"{live_server.url}/look/")
    return page


@pytest.fixture
def said(page: Page) -> list[str]:
    """What the browser's console was told."""
    lines: list[str] = []
    page.on("console", lambda message: lines.append(message.text))
    return lines


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [1280, 360])
def test_photograph_barriers_edges_and_console(
    width: int, scheme: str, page: Page, live_server: LiveServer, said: list[str], tmp_path: Path
) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    page.emulate_media(color_scheme=scheme)
    page.goto(f"{live_server.url}/look/")
    page.evaluate("document.fonts.ready")
    picture = tmp_path / f"look-{width}-{scheme}.png"
    page.screenshot(path=picture, full_page=True)
    assert picture.stat().st_size > 50_000
    found = Axe().run(page).response["violations"]
    faults = [(each["id"], [node["html"][:160] for node in each["nodes"][:3]]) for each in found]
    assert faults == [], faults
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    over = page.evaluate(
        "[...document.querySelectorAll('main *')].filter(e => e.checkVisibility() && !e.closest('svg, .rows thead')"
        " && e.getBoundingClientRect().right > innerWidth + 1).map(e => e.outerHTML.slice(0, 80))"
    )
    assert over == []
    assert said == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_text_and_every_line_of_a_field_can_be_seen(
    scheme: str, page: Page, live_server: LiveServer
) -> None:
    page.emulate_media(color_scheme=scheme)
    page.goto(f"{live_server.url}/look/")
    found = page.evaluate(CONTRASTS)
    assert len(found) > 150
    assert [each for each in found if each[0] < each[1]] == []


@pytest.mark.parametrize("width", [1280, 360])
def test_what_is_pressed_is_large_enough(width: int, page: Page, live_server: LiveServer) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    page.goto(f"{live_server.url}/look/")
    sizes = page.evaluate(
        "[...document.querySelectorAll('button, .zones a, .head a, input:not([type=hidden], [type=checkbox],"
        " [type=radio]), select, textarea')].filter(e => e.checkVisibility()).map(e => [e.outerHTML.slice(0, 60),"
        " e.getBoundingClientRect().height, e.getBoundingClientRect().width])"
    )
    assert len(sizes) > 40
    assert [each for each in sizes if min(each[1:]) < 24] == []


def test_hints_and_faults_are_tied_to_their_fields(look: Page) -> None:
    field = look.locator("#faulty_thickness")
    named = (field.get_attribute("aria-describedby") or "").split()
    words = [look.locator(f"#{each}").inner_text() for each in named]
    assert words[0] == "18 mm, 3/4 in, or 1 1/4"
    assert words[1].startswith("'three' cannot be read as a length")
    assert field.get_attribute("aria-invalid") == "true"
    assert look.locator(".field", has=field).get_attribute("class") == "field faulty"
    assert look.locator("#id_thickness").get_attribute("aria-invalid") is None
    look.locator(".faults.whole").get_by_role("link", name="Thickness").click()
    assert look.evaluate(FOCUSED) == "faulty_thickness"


def test_a_table_is_ordered_by_pressing_its_heads_and_says_so(look: Page) -> None:
    table = look.locator("#tables table")
    table.get_by_role("link", name="Thickness").click()
    assert table.locator("[aria-sort]").get_attribute("aria-sort") == "ascending"
    assert [row.split()[0] for row in table.locator("tbody tr").all_inner_texts()] == ["P05", "P03", "P07"]
    table.get_by_role("link", name="Thickness rising").click()
    assert table.locator("[aria-sort]").get_attribute("aria-sort") == "descending"
    look.get_by_role("link", name="Last").click()
    assert [row.split()[0] for row in table.locator("tbody tr").all_inner_texts()] == ["P05"]
    assert look.locator(".pages").inner_text().startswith("Rows 7 to 7 of 7")


# ---- keys


def test_keys_walk_enter_undo_and_go_to_zones(look: Page) -> None:
    look.keyboard.press("n")
    assert look.evaluate(FOCUSED) == "entry-fasteners-new"
    look.keyboard.type("jug?")
    assert look.locator("#entry-fasteners-new").input_value() == "jug?", "a field takes its letters itself"
    assert not look.locator("#keys").is_visible()
    look.locator("#entry-fasteners-new").blur()
    for pressed, mark in (
        ("j", "P01"),
        ("j", "P02"),
        ("ArrowDown", "P03"),
        ("j", "P03"),
        ("k", "P02"),
        ("ArrowUp", "P01"),
    ):
        look.keyboard.press(pressed)
        assert look.evaluate("document.activeElement.innerText").startswith(mark)
    look.keyboard.press("Enter")
    look.wait_for_url("**/look/#tables")
    look.keyboard.press("g")
    look.keyboard.press("b")
    look.wait_for_url("**/look/#inks")
    look.keyboard.press("u")
    expect(look.get_by_text("Undone: the screw of F03 is 2 in long again.")).to_be_visible()


def test_the_list_of_keys_opens_and_switches_them_off_for_good(look: Page) -> None:
    look.keyboard.press("?")
    dialog = look.get_by_role("dialog", name="Keys")
    expect(dialog).to_be_visible()
    look.keyboard.press("u")
    look.wait_for_timeout(300)
    assert dialog.is_visible(), "nothing is undone while the list is open"
    dialog.get_by_label("Keys off").check()
    dialog.get_by_role("button", name="Close").click()
    look.reload()
    for key in ("n", "j", "?"):
        look.keyboard.press(key)
    assert look.evaluate("document.activeElement.tagName") == "BODY"
    assert not dialog.is_visible()
    look.get_by_role("button", name="Keys").click()
    dialog.get_by_label("Keys off").uncheck()
    look.keyboard.press("Escape")
    look.keyboard.press("n")
    assert look.evaluate(FOCUSED) == "entry-fasteners-new"


# ---- the entry of lines


def test_enter_saves_and_comes_back_to_the_entry(look: Page) -> None:
    entry = look.locator("#entry-fasteners-new")
    entry.fill("M5 x 20 socket cap")
    entry.press("Enter")
    expect(look.locator(".messages [data-saved='look/fasteners']")).to_contain_text(
        "Understood: M5 x 20 socket cap"
    )
    assert look.evaluate(FOCUSED) == "entry-fasteners-new"
    assert entry.input_value() == ""


def test_several_lines_are_kept_and_only_those_not_understood_come_back(look: Page) -> None:
    entry = look.locator("#entry-fasteners-new")
    low = entry.bounding_box()
    entry.click()
    look.keyboard.insert_text("M5 x 20 cap scrow\nM6 x 30 hex")  # as a paste does
    look.keyboard.press("Shift+Enter")
    look.keyboard.type("nonsense")
    assert entry.input_value() == "M5 x 20 cap scrow\nM6 x 30 hex\nnonsense"
    high = entry.bounding_box()
    assert low is not None
    assert high is not None
    assert high["height"] > low["height"] + 30
    with look.expect_response(lambda answer: answer.request.method == "POST") as answer:
        look.keyboard.press("Enter")
    assert answer.value.status == 422
    expect(look.get_by_role("status")).to_contain_text("Understood: M6 x 30 hex")
    form = look.locator("#entry-fasteners")
    assert [each.input_value() for each in form.locator(".unread input").all()] == [
        "M5 x 20 cap scrow",
        "nonsense",
    ]
    assert look.evaluate(FOCUSED) == "entry-fasteners-1"
    assert entry.input_value() == ""
    form.locator("#entry-fasteners-3").fill("M8 x 40 hex")
    form.get_by_role("button", name="Use M5 x 20 socket cap").click()
    expect(look.get_by_role("status")).to_contain_text("Understood: M5 x 20 socket cap; M8 x 40 hex.")
    assert form.locator(".unread").count() == 0


# ---- drafts


def fresh(context: BrowserContext, address: str) -> Page:
    page = context.new_page()
    page.goto(address)
    return page


def test_a_draft_outlives_its_page_and_can_be_discarded(look: Page, live_server: LiveServer) -> None:
    look.get_by_label("Note may be left out").first.fill("Plane the back, " * 20)
    look.locator("#id_stock_1").check()
    look.locator("#id_spare").check()
    context = look.context
    look.close()
    again = fresh(context, f"{live_server.url}/look/")
    assert again.locator("#id_note").input_value() == "Plane the back, " * 20
    assert again.locator("#id_stock_1").is_checked()
    assert again.locator("#id_spare").is_checked()
    strip = again.locator(".strip.draft")
    assert (strip.locator("p").inner_text()).startswith("A draft from ")
    assert strip.locator("p").inner_text().endswith(" was brought back.")
    strip.get_by_role("button", name="Discard it").click()
    assert again.locator("#id_note").input_value() == ""
    assert not again.locator("#id_spare").is_checked()
    again.close()
    assert fresh(context, f"{live_server.url}/look/").locator(".strip.draft").count() == 0


def test_a_draft_is_forgotten_once_the_server_says_that_it_was_saved(
    look: Page, live_server: LiveServer
) -> None:
    look.locator("#id_mark").fill("P11")
    look.locator("#id_thickness").fill("eighteen")
    look.locator("#id_material").select_option("oak")
    look.get_by_role("button", name="Save the part").first.click()
    expect(look.locator("#id_thickness_error")).to_contain_text("'eighteen' cannot be read as a length")
    assert look.locator("#id_mark").input_value() == "P11", "nothing typed is lost"
    assert look.locator(".strip.draft").count() == 0, "the answer shows what was sent"
    assert look.evaluate("document.activeElement.getAttribute('role')") == "alert"
    context = look.context
    look.close()
    again = fresh(context, f"{live_server.url}/look/")
    assert again.locator("#id_thickness").input_value() == "eighteen", (
        "it was not saved, so it is still there"
    )
    again.locator("#id_thickness").fill("18")
    again.get_by_role("button", name="Save the part").first.click()
    expect(again.locator("[data-saved='look/part']")).to_have_text("P11 was saved.")
    again.wait_for_load_state()
    again.close()
    last = fresh(context, f"{live_server.url}/look/")
    assert last.locator("#id_mark").input_value() == ""
    assert last.locator(".strip.draft").count() == 0


def test_lines_that_were_not_understood_outlive_their_page_too(look: Page, live_server: LiveServer) -> None:
    entry = look.locator("#entry-fasteners-new")
    entry.fill("M6 x 30 hex\nnonsense\nM5 x 20 cap scrow")
    entry.press("Enter")
    expect(look.locator("#entry-fasteners .unread")).to_be_visible()
    context = look.context
    look.close()
    again = fresh(context, f"{live_server.url}/look/")
    assert again.locator("#entry-fasteners-new").input_value() == "nonsense\nM5 x 20 cap scrow"


def test_a_draft_of_something_that_has_changed_since_is_only_offered(
    look: Page, live_server: LiveServer
) -> None:
    look.locator("#id_note").fill("mine")
    look.wait_for_timeout(400)
    key = look.evaluate("Object.keys(localStorage).find(key => key.includes('look/part'))")
    look.evaluate(
        "key => { const draft = JSON.parse(localStorage[key]); draft.base.mark = ['P99'];"
        " localStorage[key] = JSON.stringify(draft); }",
        key,
    )
    look.reload()
    assert look.locator("#id_note").input_value() == ""
    strip = look.locator(".strip.draft")
    expect(strip).to_contain_text("what is saved here has changed since")
    strip.get_by_role("button", name="Bring the draft back").click()
    assert look.locator("#id_note").input_value() == "mine"


# ---- sending


def test_without_a_connection_nothing_is_lost(look: Page) -> None:
    look.locator("#id_mark").fill("P11")
    look.context.set_offline(True)
    look.get_by_role("button", name="Save the part").first.click()
    fault = look.locator("form[data-draft='look/part'] > .faults.whole")
    expect(fault).to_have_text("Not saved: there is no connection. What you typed is kept here.")
    assert look.locator("#id_mark").input_value() == "P11"
    look.context.set_offline(False)
    expect(fault).to_have_text("The connection is back: send it again.")


def test_a_form_is_sent_once_however_often_its_button_is_pressed(look: Page) -> None:
    """The window hears each sending last: here it notes what the page let through, and stops the leaving."""
    look.evaluate(
        "() => { window.through = []; addEventListener('submit', event => {"
        " through.push(!event.defaultPrevented); event.preventDefault(); }); }"
    )
    for _ in range(3):
        look.get_by_role("button", name="Undo").click()
    assert look.evaluate("through") == [True, False, False]
    expect(look.locator("form[data-sending]")).to_have_count(0, timeout=8000)
    look.get_by_role("button", name="Undo").click()
    assert look.evaluate("through") == [True, False, False, True], "an answer may have been a file"


def test_a_part_of_a_page_is_fetched_with_the_mark_of_its_origin(look: Page, said: list[str]) -> None:
    """An answer of 403 would be the refusal of a request without its CSRF token."""
    with look.expect_response(lambda answer: answer.request.method == "POST") as answer:
        look.evaluate(
            "htmx.ajax('POST', '/look/', {values: {mark: ''}, target: '#forms', select: '#forms', swap: 'outerHTML'})"
        )
    assert answer.value.status == 422
    expect(look.locator("#id_mark_error")).to_have_text("This field is required.")
    assert [line for line in said if "422" not in line] == []


def test_without_script_lines_are_entered_all_the_same(browser: Browser, live_server: LiveServer) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = fresh(context, f"{live_server.url}/look/")
    assert not page.get_by_role("button", name="Keys").is_visible()
    assert not page.locator(".scripted").first.is_visible()
    page.locator("#entry-fasteners-new").fill("M5 x 20 socket cap\nnonsense")
    page.locator("#entry-fasteners").get_by_role("button", name="Add fasteners").click()
    assert "Understood: M5 x 20 socket cap" in page.get_by_role("status").inner_text()
    assert page.locator("#entry-fasteners .unread input").input_value() == "nonsense"
    context.close()


def test_on_paper_only_the_sheet_remains(look: Page) -> None:
    look.emulate_media(media="print")
    for left_out in (
        ".zones",
        ".units",
        ".ways",
        ".foot",
        ".strip.undo",
        ".entry",
        ".filters",
        ".actions",
        ".pages",
    ):
        assert not look.locator(left_out).first.is_visible(), left_out
    for kept in ("h1", ".rows", ".drawing-ground", ".titleblock"):
        assert look.locator(kept).first.is_visible(), kept
