"""What people come to do, walked in a browser, with the number of actions that each took.

An action is a click, a tap, a key chord, or one field filled; reading is free.
"""

from __future__ import annotations

import io
import re
from dataclasses import dataclass, field, replace
from decimal import Decimal
from typing import Any

import pdfplumber
import pytest
from playwright.sync_api import BrowserContext, Locator, Page, expect
from pytest_django.live_server_helper import LiveServer

from buildlog.builds.actions import begin_build, change_build
from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of
from buildlog.workshops.demonstration import make_people
from buildlog.workshops.models import Person
from calculators.planning import model as plain
from calculators.quantities import Length, read_length

pytestmark = pytest.mark.browser


@dataclass
class Walk:
    """A page and the actions done on it."""

    page: Page
    done: list[str] = field(default_factory=list)

    def click(self, what: Locator) -> None:
        self.done.append(f"click {what}")
        what.click()
        self.page.wait_for_load_state("load")

    def fill(self, what: Locator, text: str) -> None:
        self.done.append(f"fill {text[:30]}")
        what.fill(text)

    def press(self, key: str) -> None:
        self.done.append(f"press {key}")
        self.page.keyboard.press(key)
        self.page.wait_for_load_state("load")

    def choose(self, what: Locator, **option: str) -> None:
        self.done.append(f"choose {option}")
        what.select_option(**option)

    @property
    def count(self) -> int:
        return len(self.done)


@pytest.fixture
def walk(page: Page, live_server: LiveServer, record_property: Any, request: Any) -> Any:
    """A walk from the first page; it reports how many actions it took."""
    page.set_default_timeout(10_000)
    walked = Walk(page)
    yield walked
    record_property("actions", walked.count)


def button(page: Page, name: str | re.Pattern[str]) -> Locator:
    return page.get_by_role("button", name=name).first


def link(page: Page, name: str | re.Pattern[str]) -> Locator:
    return page.get_by_role("link", name=name).first


def pdf_text(page: Page, address: str) -> str:
    answer = page.request.get(address)
    assert answer.headers["content-type"] == "application/pdf"
    with pdfplumber.open(io.BytesIO(answer.body())) as pdf:
        return "\n".join(each.extract_text() for each in pdf.pages)


def test_journey_1_first_evening(walk: Walk, live_server: LiveServer, demonstration: Person) -> None:
    """Opens the demonstration, sees its errors, sees one in the drawing, mends it, undoes it, begins a build."""
    page = walk.page
    page.goto(live_server.url)
    expect(page.get_by_text("says what is wrong before anything is cut")).to_be_visible()
    expect(page.get_by_text(re.compile(r"[1-9]\d* errors")).first).to_be_visible()
    walk.click(link(page, re.compile("^TW-31")))
    expect(page.get_by_role("heading", name="To be mended before anything is cut")).to_be_visible()
    walk.click(link(page, "F03 in P10"))
    expect(
        page.locator(".finding", has_text="The screw bottoms before it clamps: 21.2 mm of screw")
    ).to_be_visible()
    drawing = page.get_by_role("img").first
    assert "error: The screw bottoms" in drawing.text_content().replace("\n", " ")  # type: ignore[union-attr]
    walk.click(button(page, "Use 1 3/4 in"))
    expect(page.locator(".finding", has_text="The screw bottoms")).to_have_count(0)
    expect(page.locator(".messages")).to_contain_text("This change: 1 mended, 0 new.")
    walk.click(button(page, "Undo"))
    expect(page.locator(".finding", has_text="The screw bottoms").first).to_be_visible()
    walk.click(link(page, "Builds"))
    walk.fill(page.get_by_label("What is it?"), "Oak box")
    walk.click(button(page, "Begin the build"))
    expect(page.locator("[data-entry]").first).to_be_focused()
    assert "/builds/TW-34/parts/" in page.url
    assert walk.count <= 12, walk.done


PARTS = """4 sides 300 x 120 x 12 oak
base 276 x 96 x 6 ply
lid 300 x 120 x 12 oak
two 38 mm brass hinges, bought
catch, brass, 20 x 12 x 6, bought"""
JOINTS = """No. 4 x 1/2 in csk brass: hinge 1.2 into side 12, edge 6, 6 off
No. 4 x 1/2 csk brass, hinge 1.2 into lid 12, 6 off
M3 x 8 csk, lid to catch
M3.14 x 8 csk, lid to catch"""


def test_journey_2_a_box_with_a_lid(walk: Walk, live_server: LiveServer, demonstration: Person) -> None:
    """Types parts and joints as she would write them; unclear lines stay with a sentence; prints two lists."""
    page = walk.page
    page.goto(live_server.url)
    walk.fill(page.get_by_label("What is it?"), "Box with a lid")
    walk.press("Enter")
    page.wait_for_url("**/parts/**")
    for line in PARTS.splitlines():
        expect(page.locator("[data-entry]").first).to_be_focused()
        walk.fill(page.locator("[data-entry]").first, line)
        walk.press("Enter")
    expect(page.locator("tr[data-row]")).to_have_count(5)
    build = plain_of(Build.rows.get(number="TW-34"))
    sides = build.components[0]
    assert (sides.quantity, sides.material, sides.size.length) == (
        4,
        "oak",
        Length(3_000_000_000, "300", "mm"),
    )
    assert [one.stock for one in build.components[3:]] == ["bought", "bought"]
    walk.click(link(page, "B joints"))
    walk.fill(page.locator("[data-entry]").first, JOINTS)
    walk.press("Enter")
    expect(page.locator(".unread li")).to_have_count(1)
    expect(page.locator(".unread")).to_contain_text("M3.14")
    said = page.locator("main").inner_text()
    for expected in ("pilot", "clearance", "countersunk", "steel"):
        assert expected in said, said
    assert re.search(r"2\.\d d|6\.0 mm", said, re.IGNORECASE), said
    wrong = page.locator(".unread input").first
    walk.fill(wrong, "")
    walk.click(button(page, re.compile("Read this line again")))
    expect(page.locator(".unread")).to_have_count(0)
    base = page.url.split("/joints/")[0]
    schedule = pdf_text(page, f"{base}/sheets/fasteners.pdf")
    assert "No. 4 x 1/2" in schedule
    shopping = pdf_text(page, f"{base}/sheets/shopping.pdf")
    assert re.search(r"No\. 4 x 1/2 csk steel", shopping), shopping
    walk.click(link(page, "J paper"))
    assert page.get_by_role("link", name=re.compile("Fastener schedule on A4")).is_visible()
    assert page.get_by_role("link", name=re.compile("Shopping list on A4")).is_visible()
    walk.done += ["click the fastener schedule", "click the shopping list"]
    assert walk.count <= 45, walk.done


RAIL = """plate 120 x 40 x 2 brass
rail 400 x 60 x 40 maple
side 500 x 300 x 18 ply"""


def test_journey_4_the_plate_and_the_rail(walk: Walk, live_server: LiveServer, demonstration: Person) -> None:
    """Seven holes placed once; the heads are deeper than the plate is thick; No. 5 changes every part at once."""
    page = walk.page
    page.goto(live_server.url)
    walk.fill(page.get_by_label("What is it?"), "Plate and rail")
    walk.press("Enter")
    page.wait_for_url("**/parts/**")
    walk.fill(page.locator("[data-entry]").first, RAIL)
    walk.press("Enter")
    expect(page.locator("tr[data-row]")).to_have_count(3)
    build = plain_of(Build.rows.get(number="TW-34"))
    plate, rail, side = (one.mark for one in build.components)
    walk.click(link(page, rail))
    walk.fill(
        page.locator("#entry-poses-new"),
        f"{rail} on the ground\n{plate} on {rail} top at 140, 10, let in 2\n"
        f"{side} on {rail} front at 0, 0, own face top",
    )
    walk.press("Enter")
    expect(page.get_by_text(re.compile("added|lie", re.IGNORECASE)).first).to_be_visible()
    walk.click(link(page, "B joints"))
    walk.fill(
        page.locator("[data-entry]").first,
        f"4 No. 10 x 1 1/4 csk steel, {plate} into {rail}, on {plate} top at 10,10; 110,10; 10,30; 110,30\n"
        f"3 M6 x 75 hex bolt, {side} through {rail}, washer, nut, on {side} bottom at 50,30; 200,30; 350,30",
    )
    walk.press("Enter")
    expect(page.locator("tr[data-row]")).to_have_count(2)
    screws, bolts = (one.mark for one in plain_of(Build.rows.get(number="TW-34")).joints)
    base = page.url.split("/joints/")[0]
    walk.click(link(page, screws))
    expect(page.get_by_role("heading", name=re.compile(f"^{screws} "))).to_be_visible()
    findings = " ".join(page.locator(".finding p").all_inner_texts())
    assert re.search("head|countersink|plate", findings), findings
    walk.fill(page.get_by_label("Try another fastener"), "No. 5 x 1 csk steel")
    walk.press("Enter")
    tried = page.locator("main").inner_text()
    assert plate in tried
    assert rail in tried
    assert "No. 10" in plain_of(Build.rows.get(number="TW-34")).joints[0].fastener
    walk.click(button(page, re.compile("^Take it")))
    build = plain_of(Build.rows.get(number="TW-34"))
    assert "No. 5" in build.joints[0].fastener
    drilling = pdf_text(page, f"{base}/sheets/drilling.pdf?component={rail}")
    assert screws in drilling
    assert bolts in drilling
    assert walk.count <= 40, walk.done


def test_journey_5_where_was_i(walk: Walk, live_server: LiveServer, demonstration: Person) -> None:
    """The first page says it all: next, what waits, what the check says anew, what would be out of reach."""
    row = Build.rows.get(number="TW-31")
    rob = Person.objects.get(username="rob")

    def mine(build: plain.Build) -> plain.Build:
        entry = plain.Entry("e99", build.entries[-1].date, "Drums.", next_time="Bore the second bush.")
        return replace(build, entries=(*build.entries, entry))

    def robs(build: plain.Build) -> plain.Build:
        joints = tuple(
            replace(each, fastener="M5 x 8 socket cap steel") if each.mark == "F18" else each
            for each in build.joints
        )
        first, *rest = build.components
        bought = plain.Component("B1", "Gear motor", stock="bought", state="bought", note="due on the 9th")
        return replace(build, joints=joints, components=(first, *rest, bought))

    change_build(row, demonstration, mine, "An entry")
    change_build(row, rob, robs, "Shorter screws")
    page = walk.page
    page.goto(live_server.url)
    said = page.locator("main").inner_text()
    assert "Bore the second bush." in said
    assert "Gear motor" in said
    assert "F18" in said
    assert re.search(r"1 new|\d+ new", said), said
    assert "Rout the recess" in said
    assert walk.count == 0
    walk.click(link(page, re.compile("^Go on with TW-31")))
    assert "/builds/TW-31/" in page.url
    assert walk.count == 1


def cabinet() -> plain.Build:
    """A side of ply in a groove of its base, with a cleat screwed to it; side and base are released."""

    def mm(text: str) -> Length:
        return read_length(text, unit="mm")

    side = plain.Component(
        "P1", "Side", material="birch ply", stock="sheet", state="released", revision="A", evidence="design",
        size=plain.Size("block", mm("400"), mm("200"), mm("18")),
        poses=(plain.Pose(on="P2", u=mm("118"), own_face="left", turned_deg=Decimal(90), let_in=mm("6")),),
    )  # fmt: skip
    base = plain.Component(
        "P2", "Base", material="oak", stock="board", state="released", revision="A", evidence="design",
        size=plain.Size("block", mm("400"), mm("200"), mm("30")), poses=(plain.Pose(),),
        pockets=(plain.Pocket("k1", "top", mm("100"), mm("0"), mm("18"), mm("200"), mm("6")),),
    )  # fmt: skip
    cleat = plain.Component(
        "P3", "Cleat", material="oak", stock="board", evidence="design",
        size=plain.Size("block", mm("200"), mm("60"), mm("20.5")),
        poses=(plain.Pose(on="P1", u=mm("200"), turned_deg=Decimal(90)),),
    )  # fmt: skip
    screws = plain.Joint(
        "F1", "Cleat to side", "3.5 x 35 csk cross wood screw", home="P3", face="top",
        places=(plain.Place("1", mm("50"), mm("30")), plain.Place("2", mm("150"), mm("30"))),
        stack=(plain.StackMember(part="P3"), plain.StackMember(part="P1")),
    )  # fmt: skip
    return plain.Build("CAB", "Cabinet", components=(side, base, cleat), joints=(screws,))


@pytest.mark.parametrize("width", [1280, 360])
def test_journey_6_the_board_is_not_what_it_says(
    width: int, walk: Walk, live_server: LiveServer, demonstration: Person
) -> None:
    """“18 mm” ply measures 17.2: said once on the rack; all from it is looked at again; a reason is asked once.

    The 35 mm screws go 14.5 mm into the side behind a cleat of 20.5: of 18 mm there are 3.5 left behind the
    point, of 17.2 only 2.7, and 3 keep the face safe.
    """
    begin_build(make_people(), None, cabinet(), "Begun")
    page = walk.page
    page.set_viewport_size({"width": width, "height": 800})
    page.goto(f"{live_server.url}/workshops/thornbank-workshop/builds/CAB/")
    expect(page.locator(".finding", has_text="not measured, but pocket k1 of P2")).to_be_visible()
    expect(page.locator(".finding", has_text="behind the point")).to_have_count(0)
    walk.click(link(page, "L rack"))
    walk.fill(page.get_by_label("New stock, one piece a line"), "2 sheets 18 mm birch ply 2440 x 1220")
    walk.press("Enter")
    expect(page.locator("#stock-S1")).to_contain_text("not measured yet")
    walk.click(button(page, "Cut P1 from it"))
    walk.fill(page.get_by_label("Measured thickness of S1"), "17.2")
    walk.press("Enter")
    expect(page.get_by_role("heading", name="Why is this changed?")).to_be_visible()
    expect(page.locator("main")).to_contain_text("P1 (revision A) is released for making")
    assert plain_of(Build.rows.get(number="CAB")).components[0].size.thickness == read_length("18")
    walk.fill(page.get_by_label("Why is this changed?"), "The sheet measures 17.2")
    walk.press("Enter")
    changes = page.locator("#measured")
    expect(changes).to_contain_text("P1 revision B")
    expect(changes).to_contain_text("F1")
    expect(changes).to_contain_text("This change: 1 mended, 1 new")
    expect(changes.locator(".finding")).to_contain_text("Only 2.7 mm of P1 is left behind the point")
    build = plain_of(Build.rows.get(number="CAB"))
    assert [one.revision for one in build.components] == ["B", "A", ""]
    assert [(one.id, one.reason) for one in build.releases] == [
        ("P1-A", ""),
        ("P1-B", "The sheet measures 17.2"),
    ]
    walk.click(changes.get_by_role("link", name="P1").first)
    history = page.locator("#releases")
    expect(history).to_contain_text("The sheet measures 17.2")
    expect(history).to_contain_text("thickness from 18 mm to 17.2 mm")
    assert walk.count <= 9, walk.done
    walk.click(button(page, "Undo"))
    assert plain_of(Build.rows.get(number="CAB")).components[0] == replace(
        cabinet().components[0], from_stock="S1"
    )


def stop_screws_late() -> plain.Build:
    """A box whose stop screws are reached from below, but are fitted after the bottom is on."""
    block = plain.Size(
        "block",
        Length(2_000_000_000, "200", "mm"),
        Length(1_000_000_000, "100", "mm"),
        Length(180_000_000, "18", "mm"),
    )
    parts = tuple(
        plain.Component(mark, name, material="oak", size=block)
        for mark, name in (("P1", "Case"), ("P2", "Bottom"))
    )
    stops = plain.Joint(
        "F10", "Stop screws", "No. 8 x 1 1/4 csk steel", reached_from="below",
        stack=(plain.StackMember("P1", thickness=Length(80_000_000, "8", "mm")), plain.StackMember("P2")),
    )  # fmt: skip
    begun = ("Lay the parts out", "Mark the holes", "Drill them", "Sand all over")
    steps = (
        *(plain.AssemblyStep(number, title) for number, title in enumerate(begun, 1)),
        plain.AssemblyStep(5, "The case stands on its head", fits=("P1",)),
        plain.AssemblyStep(6, "Close the bottom", fits=("P2",), closes=("F10",)),
        plain.AssemblyStep(7, "Turn it over"),
        plain.AssemblyStep(8, "Stop screws, from below", fits=("F10",)),
    )
    return plain.Build("BOX", "Box", components=parts, joints=(stops,), steps=steps)


@pytest.mark.parametrize("way", ["drags", "keyboard", "mends"])
def test_journey_8_it_must_go_in_before_that_closes(
    way: str, walk: Walk, live_server: LiveServer, demonstration: Person
) -> None:
    """The check says what is fitted after it was closed; one drag, two keys or one button, and it goes."""
    begin_build(make_people(), None, stop_screws_late(), "Begun")
    page = walk.page
    page.set_viewport_size({"width": 1280, "height": 2400})  # the browser does not scroll while it drags
    page.goto(f"{live_server.url}/workshops/thornbank-workshop/builds/BOX/")
    late = page.locator(".finding.error", has_text="F10 is fitted in step 8, but step 6 closes it")
    expect(late).to_be_visible()
    if way == "mends":
        walk.click(late.get_by_role("button"))
    else:
        walk.click(link(page, "F order"))
        expect(late).to_be_visible()
        expect(page.locator("#step-8")).to_contain_text("from below")
        if way == "drags":
            walk.done.append("drag step 8 above step 6")
            page.locator("#step-8 .grip").drag_to(
                page.locator("#step-6 h2"), target_position={"x": 40, "y": 2}
            )
        else:
            page.locator("#up-8").focus()
            walk.press("Enter")
            expect(page.locator("#step-7 h2")).to_have_text("7. Stop screws, from below")
            walk.press("Enter")
        expect(page.locator("#step-6 h2")).to_have_text("6. Stop screws, from below")
    expect(late).to_have_count(0)
    expect(page.locator(".messages")).to_contain_text("This change: 1 mended")
    titles = [step.title for step in plain_of(Build.rows.get(number="BOX")).steps]
    assert titles.index("Stop screws, from below") < titles.index("Close the bottom")
    assert walk.count <= 3, walk.done


def test_journey_10_two_tabs_editing_one_joint(
    walk: Walk, context: BrowserContext, live_server: LiveServer, demonstration: Person
) -> None:
    """The second tab sees both versions; nothing is lost, and what is chosen stays."""
    address = f"{live_server.url}/workshops/thornbank-workshop/builds/TW-31/joints/F18/"
    first, second = context.new_page(), context.new_page()
    for tab in (first, second):
        tab.goto(address)
    first.get_by_label("Fastener", exact=True).fill("M5 x 25 hex steel")
    first.get_by_label("Fastener", exact=True).press("Enter")
    first.wait_for_load_state("load")
    second.get_by_label("Fastener", exact=True).fill("M5 x 30 hex steel")
    second.get_by_label("Fastener", exact=True).press("Enter")
    expect(second.get_by_text("Theirs, saved")).to_be_visible()
    shown = second.locator(".conflict").inner_text()
    assert "M5 x 25" in shown
    assert "M5 x 30" in second.content()
    second.get_by_role("button", name="Save mine").click()
    second.wait_for_load_state("load")
    joint = next(each for each in plain_of(Build.rows.get(number="TW-31")).joints if each.mark == "F18")
    assert "30" in joint.fastener


def test_journey_10_the_network_gone_while_saving_and_the_page_closed(
    walk: Walk, context: BrowserContext, live_server: LiveServer, demonstration: Person
) -> None:
    """A sentence, and what was typed is there again when the page is opened later."""
    address = f"{live_server.url}/workshops/thornbank-workshop/builds/TW-31/parts/"
    page = context.new_page()
    page.goto(address)
    context.set_offline(True)
    page.locator("[data-entry]").first.fill("3 wedges 40 x 20 x 5 beech")
    page.locator("[data-entry]").first.press("Enter")
    expect(page.get_by_text("Not saved").first).to_be_visible()
    assert page.locator("[data-entry]").first.input_value() == "3 wedges 40 x 20 x 5 beech"
    context.set_offline(False)
    page.close()
    page = context.new_page()
    page.goto(address)
    assert page.locator("[data-entry]").first.input_value() == "3 wedges 40 x 20 x 5 beech"
    page.locator("[data-entry]").first.press("Enter")
    expect(page.locator(".messages")).to_be_visible()
    assert any(one.name == "wedges" for one in plain_of(Build.rows.get(number="TW-31")).components)
    page.reload()
    assert page.locator("[data-entry]").first.input_value() == ""


@pytest.mark.parametrize(
    "line", ["1/0 x 20 x 5 oak", "M99 x 1/0 csk: lid into side", "قضيب <b>\"'& 1/0 x 1/0", "x" * 5000]
)
def test_journey_10_the_wrong_thing_typed_stays_with_its_sentence(
    line: str, walk: Walk, live_server: LiveServer, demonstration: Person
) -> None:
    """Nonsense typed as a joint gets a sentence, stays to be mended, and the back button breaks nothing."""
    page = walk.page
    address = f"{live_server.url}/workshops/thornbank-workshop/builds/TW-31/joints/"
    page.goto(address)
    page.locator("[data-entry]").first.fill(line)
    page.locator("[data-entry]").first.press("Enter")
    expect(page.locator(".unread .fault").first).to_be_visible()
    assert page.locator(".unread input").first.input_value() == line
    page.go_back()
    page.go_forward()
    page.goto(address)
    expect(page.locator("h1")).to_have_text("Joints")


@pytest.mark.parametrize("who", ["signed in", "nobody"])
def test_journey_3_which_screw_is_this(
    who: str, walk: Walk, live_server: LiveServer, request: pytest.FixtureRequest
) -> None:
    """At the bench with a phone: caliper 4.70, a leaf of 32 or a bit less; which screw, and what would decide?"""
    if who == "signed in":
        request.getfixturevalue("demonstration")
    page = walk.page
    page.set_viewport_size({"width": 360, "height": 740})
    page.goto(f"{live_server.url}/bench/")
    expect(page.locator(".person")).to_have_count(1 if who == "signed in" else 0)
    find = page.get_by_label("Find a size, a thing or a calculator")
    walk.fill(find, "which screw")
    expect(page.locator("[data-words]:visible a")).not_to_have_count(0)
    walk.click(page.locator("[data-words]:visible a", has_text="Identify thread"))
    walk.fill(page.get_by_label("Diameter", exact=False).first, "4.70")
    walk.fill(page.get_by_label("Threads per inch", exact=False), "32")
    page.get_by_text("further inputs").click()
    walk.done.append("tap further inputs")
    walk.fill(page.locator("#id_uncertainty"), "0.05")
    walk.press("Enter")
    page.wait_for_url("**#answer")
    answer = page.locator("#answer")
    # The eye lands on the answer: it stands within the first screen, without scrolling by hand.
    heading = answer.get_by_role("heading", name="Results", exact=True)
    tops = []
    for _ in range(40):  # the page may glide there
        tops.append(heading.evaluate("element => element.getBoundingClientRect().top"))
        if len(tops) > 1 and tops[-1] == tops[-2] and tops[-1] < 100:
            break
        page.wait_for_timeout(50)
    assert 0 <= tops[-1] < 100, tops
    ranked = answer.locator("table.listed tbody tr:not(.beneath) td:first-child").all_inner_texts()
    assert len(ranked) >= 3
    # 3/16 BSF has 32 threads to the inch and is 4.76 mm over them (BS 84), 2 BA 0.81 mm and 4.7 mm (BS 93),
    # 10-32 UNF 4.83 mm (ASME B1.1); M5 of 0.8 mm is 5 mm and too large (ISO 965-1).
    assert {"3/16 BSF", "2 BA"} <= {each.replace("\u00a0", " ").replace("\u2044", "/") for each in ranked[:3]}
    expect(answer).to_contain_text("undecided between")
    expect(answer.get_by_text("Tells apart", exact=False).first).to_be_visible()
    expect(answer).to_contain_text("leaf of 55 degrees")
    # Readable at arm's length: the first answers are set at 20 pixels or more, and nothing runs over the edge.
    size = "element => parseFloat(getComputedStyle(element).fontSize)"
    first = answer.locator(".results td, table.listed tr:not(.beneath) td:first-child").first
    assert first.evaluate(size) >= 20
    assert answer.locator("table.listed tr:not(.beneath) td:first-child").first.evaluate(size) >= 20
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    # What was used stands first when one comes back, in this browser alone.
    page.goto(f"{live_server.url}/bench/")
    expect(page.locator("[data-lately] a")).to_have_text(["Identify thread"])
    assert walk.count <= 8, walk.done
