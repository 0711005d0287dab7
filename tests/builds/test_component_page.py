"""The page of a component: its line, every field, its holes and pockets, where it lies, its joints and findings."""

from __future__ import annotations

import re
from html import unescape
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds.actions import begin_build, change_build
from buildlog.builds.component_form import OWN_FIELDS, ComponentForm
from buildlog.builds.lookup import demonstration_build, demonstration_numbers
from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Membership, Person, Role, Workshop
from calculators.planning.inspection import inspect_build
from calculators.planning.lines import add_lines
from calculators.planning.model import Build as Plain
from calculators.planning.model import Component
from calculators.planning.schedules import hole_schedule

pytestmark = [pytest.mark.database, pytest.mark.shows]

BUILDS = "/workshops/thornbank-workshop/builds"
PARTS = f"{BUILDS}/BOX/parts"
LINES = "base 280 x 180 x 18 oak\n2 rails 200 x 30 x 20 oak\ngroup Frame"


@pytest.fixture
def box(demonstration: Person) -> Build:
    """A build with a base P01, two rails P02 and a sub-assembly G1."""
    row = begin_build(Workshop.objects.get(), demonstration, Plain("BOX", "Box"), "Begun")
    change_build(row, None, lambda build: add_lines("part", LINES, build).build, "Filled")
    return row


@pytest.fixture
def other(demonstration: Person) -> Client:
    """A second person of the workshop, who may change builds."""
    person = Person.objects.create(username="tom", name="Tom Ash")
    Membership.objects.create(person=person, workshop=Workshop.objects.get(), role=Role.MAKER)
    client = Client()
    client.force_login(person)
    return client


def part(mark: str = "P01") -> Component:
    build = plain_of(Build.rows.get(number="BOX"))
    return next(one for one in build.components if one.mark == mark)


def fields(client: Client, mark: str = "P01") -> dict[str, Any]:
    """What the form of every field shows, as a browser would send it."""
    page = client.get(f"{PARTS}/{mark}/")
    form = page.context["form"]
    assert isinstance(form, ComponentForm)
    shown = {name: form[name].value() for name in form.fields}
    sent = {name: form.fields[name].prepare_value(value) for name, value in shown.items()}
    return {"seen": page.context["bare_seen"]} | {k: v for k, v in sent.items() if v not in (None, "", False)}


@pytest.mark.parametrize("number", demonstration_numbers())
def test_every_component_of_the_demonstration_shows_its_holes_as_numbered_and_saves_unchanged(
    number: str, client: Client, demonstration: Person
) -> None:
    build = demonstration_build(number)
    lines = hole_schedule(build, inspect_build(build))
    row = Build.rows.get(number=number)
    for one in build.components:
        page = client.get(f"{BUILDS}/{number}/parts/{one.mark}/")
        assert page.status_code == 200
        shown = [row.hole.number for face in page.context["faces"] for row in face.rows]
        assert shown == [line.number for line in lines if line.part == one.mark][:60]
        form = page.context["form"]
        sent = {name: form.fields[name].prepare_value(form[name].value()) for name in form.fields}
        again = ComponentForm({k: v for k, v in sent.items() if v}, component=one, unit=build.unit)
        assert again.is_valid(), again.errors
        assert again.read(one) == one
    assert plain_of(row) == build


def test_every_field_of_a_component_is_in_the_form_or_has_lines_of_its_own() -> None:
    assert {*OWN_FIELDS, "poses", "holes", "pockets", "outline"} == set(Component.__dataclass_fields__)


def test_every_field_is_entered_and_kept(client: Client, box: Build) -> None:
    sent = {
        **fields(client, "P02"), "mark": "P20", "name": "Schiene قضيب “a”", "parent": "G1 Frame", "quantity": "3",
        "material": "ash", "stock": "board", "reused": "on", "grain_cut": "quarter", "state": "made",
        "revision": "B", "note": "two\r\nlines", "length": "200.5", "width": "1 1/4 in", "thickness": "20",
        "corner_radius": "3", "made_thickness": "19.6", "rough_length": "210", "rough_width": "35",
        "reason": "the board was short",
    }  # fmt: skip
    answer = client.post(f"{PARTS}/P02/", sent, follow=True)
    assert answer.redirect_chain == [(f"{PARTS}/P20/", 302)]
    one = part("P20")
    assert (one.name, one.parent, one.quantity, one.material) == ("Schiene قضيب “a”", "G1", 3, "ash")
    assert (one.stock, one.reused, one.grain_cut, one.state, one.revision) == (
        "board",
        True,
        "quarter",
        "made",
        "B",
    )
    assert one.note == "two\nlines"
    assert one.size.width is not None
    assert (one.size.shape, one.size.width.written, one.size.width.mm) == ("block", "1 1/4 in", 31.75)
    assert one.made_size is not None
    assert one.rough is not None
    assert one.made_size.thickness is not None
    assert one.made_size.thickness.mm == 19.6
    assert (one.rough.length or one.rough).written == "210"  # type: ignore[union-attr]
    change = box.changes.order_by("-id").first()
    assert change is not None
    assert change.reason == "the board was short"
    assert (
        change.says
        == "P20: it was P02 before, name is now Schiene قضيب “a”, what it belongs to is now G1, and 11 more"
    )


def test_a_round_part_takes_its_shape_from_its_sizes(client: Client, box: Build) -> None:
    sent = fields(client) | {"width": "", "thickness": "", "diameter": "20", "bore": "6"}
    client.post(f"{PARTS}/P01/", sent)
    size = part().size
    assert size.bore is not None
    assert (size.shape, size.bore.mm, size.width) == ("round", 6.0, None)
    assert size.length is not None
    assert size.length.mm == 280


@pytest.mark.parametrize(
    ("field", "typed", "says"),
    [
        ("mark", "", "Write a mark, such as P07"),
        ("mark", "P 1/2", "is not a mark; write letters, digits and hyphens"),
        ("mark", "P02", "is used already by a component"),
        ("mark", "x" * 60, "at most 20 characters"),
        ("name", "", "Write what the part is called."),
        ("parent", "G9", "There is no component"),
        ("parent", "P01", "inside itself"),
        ("quantity", "0", "Write 1 or more."),
        ("quantity", "four", "Write a whole number, such as 4."),
        ("quantity", "9" * 30, "Write 100,000 or fewer."),
        ("length", "1/0", "1/0"),
        ("length", "-3", "-3"),
        ("width", "oak", "oak"),
        ("thickness", "1,200", "1,200"),
        ("diameter", "30", "A part with a diameter is round and has no width or thickness"),
        ("made_length", "x", "x"),
        ("rough_width", "0", "0"),
        ("corner_radius", "-1", "-1"),
        ("stock", "cheese", "cheese"),
        ("state", "broken", "broken"),
        ("revision", "x" * 30, "at most 10 characters"),
        ("name", "a\x00b", "Null characters"),
    ],
)
def test_a_bad_field_gets_a_sentence_beside_it_and_nothing_typed_is_lost(
    field: str, typed: str, says: str, client: Client, box: Build
) -> None:
    before = part()
    answer = client.post(f"{PARTS}/P01/", fields(client) | {"note": "a note “to” keep", field: typed})
    page = unescape(answer.content.decode())
    assert answer.status_code == 422
    assert part() == before
    beside = re.search(
        rf'<ul class="errorlist[^>]*id="id_{field}_error".*?</ul>|id="id_{field}_error".*?</(?:div|ul)>',
        page,
        re.DOTALL,
    )
    assert beside, answer.context["form"].errors
    assert says in beside[0]
    assert "a note “to” keep" in page


def test_a_rename_is_carried_to_everything_that_names_the_part(client: Client, demonstration: Person) -> None:
    address = f"{BUILDS}/TW-31/parts/P01/"
    form = client.get(address)
    sent = {
        n: form.context["form"].fields[n].prepare_value(form.context["form"][n].value())
        for n in form.context["form"].fields
    }
    sent = {k: v for k, v in sent.items() if v} | {"mark": "B01", "seen": form.context["bare_seen"]}
    assert client.post(address, sent)["Location"] == f"{BUILDS}/TW-31/parts/B01/"
    build = plain_of(Build.rows.get(number="TW-31"))
    old = demonstration_build("TW-31")
    assert not any("P01" in (joint.home, *(m.part for m in joint.stack)) for joint in build.joints)
    homes = [joint.mark for joint in old.joints if joint.home == "P01"]
    assert homes == [joint.mark for joint in build.joints if joint.home == "B01"]
    client.post(f"{BUILDS}/TW-31/undo/")
    assert plain_of(Build.rows.get(number="TW-31")) == old


def test_holes_are_placed_by_typing_their_places_from_the_datum(client: Client, box: Build) -> None:
    lines = (
        "4.5 csk 9 at 20,30\nM4 tapped 8 deep at 40,30\nrow of 3, dia 5, from 37,90 pitch 32 along u, 12 deep"
    )
    answer = client.post(f"{PARTS}/P01/holes/", {"lines": lines}, follow=True)
    assert answer.redirect_chain == [(f"{PARTS}/P01/#entry-holes-new", 302)]
    assert [(hole.id, hole.face, hole.kind, hole.u.mm) for hole in part().holes] == [
        ("h1", "top", "plain", 20), ("h2", "top", "tapping", 40),
        ("h3", "top", "plain", 37), ("h4", "top", "plain", 69), ("h5", "top", "plain", 101),
    ]  # fmt: skip
    page = answer.content.decode()
    assert "P01: 5 holes added, h1, h2, h3, h4 and h5" in page
    assert page.count('class="drawing face-plan"') == 2
    front = client.post(f"{PARTS}/P01/holes/?face=front", {"lines": "5 at 20,9"}, follow=True)
    assert front.redirect_chain == [(f"{PARTS}/P01/?face=front#entry-holes-new", 302)]
    assert part().holes[-1].face == "front"
    assert "New holes in the front face" in front.content.decode()


def test_a_hole_is_changed_and_taken_out_by_its_line(client: Client, box: Build) -> None:
    client.post(f"{PARTS}/P01/holes/", {"lines": "5 at 20,30\n6 at 40,30"})
    page = client.get(f"{PARTS}/P01/?hole=h1").content.decode()
    assert ">top: dia 5 at 20,30</textarea>" in page
    assert page.count("data-leave ") + page.count("data-leave>") == 2
    seen = {"seen": "top: dia 5 at 20,30"}
    bad = client.post(f"{PARTS}/P01/holes/h1/", {"line": "5 at 20", **seen})
    assert bad.status_code == 422
    assert ">5 at 20</textarea>" in bad.content.decode()
    assert "is no place: it needs u and v" in unescape(bad.content.decode())
    client.post(f"{PARTS}/P01/holes/h1/", {"line": "5.5 at 25,30", **seen})
    assert [(hole.id, hole.u.mm) for hole in part().holes] == [("h1", 25), ("h2", 40)]
    late = client.post(f"{PARTS}/P01/holes/h1/", {"line": "7 at 20,30", **seen})
    assert late.status_code == 409
    assert "top: dia 5.5 at 25,30" in late.content.decode()
    assert 'value="7 at 20,30"' in late.content.decode()
    client.post(f"{PARTS}/P01/holes/h1/", {"remove": "yes", "seen": "top: dia 5.5 at 25,30"})
    assert [hole.id for hole in part().holes] == ["h2"]
    gone = client.post(f"{PARTS}/P01/holes/h1/", {"line": "7 at 20,30", **seen})
    assert gone.status_code == 409
    assert 'value="7 at 20,30"' in gone.content.decode()
    assert client.get(f"{PARTS}/P01/holes/h1/").status_code == 302


def test_pockets_and_places_are_lines_too(client: Client, box: Build) -> None:
    client.post(f"{PARTS}/P01/pockets/", {"lines": "recess 90 x 40 x 6 deep at 10,20, corner radius 3"})
    assert [pocket.id for pocket in part().pockets] == ["k1"]
    line = "top: recess 90 x 40 x 6 deep at 10,20, corner radius 3"
    client.post(f"{PARTS}/P01/pockets/k1/", {"line": line.replace("6 deep", "5 deep"), "seen": line})
    depth = part().pockets[0].depth
    assert depth is not None
    assert depth.mm == 5
    client.post(f"{PARTS}/P01/poses/", {"lines": "on the ground"})
    answer = client.post(
        f"{PARTS}/P02/poses/", {"lines": "P02.1 on P01 top at 10,20\non P01 top at 10,60, let in 2\nnonsense"}
    )
    assert answer.status_code == 422
    assert [(pose.copy, pose.on, pose.v.mm) for pose in part("P02").poses] == [(1, "P01", 20), (2, "P01", 60)]
    assert 'value="nonsense"' in answer.content.decode()
    seen = "P02.2 on P01 top at 10,60, let in 2"
    wrong = client.post(f"{PARTS}/P02/poses/2/", {"line": "P01 on the ground", "seen": seen})
    assert "it is a copy of P02 that is moved" in wrong.content.decode()
    client.post(f"{PARTS}/P02/poses/2/", {"line": seen.replace("let in 2", "other hand"), "seen": seen})
    assert part("P02").poses[1].hand == "other"
    client.post(f"{PARTS}/P02/poses/2/", {"line": "", "seen": "P02.2 on P01 top at 10,60, other hand"})
    assert len(part("P02").poses) == 1
    assert client.post(f"{PARTS}/P02/nails/", {"lines": "x"}).status_code == 404


def test_holes_of_joints_are_linked_to_their_joint_and_cannot_be_changed_here(
    client: Client, demonstration: Person
) -> None:
    build = demonstration_build("TW-31")
    lines = [line for line in hole_schedule(build, inspect_build(build)) if line.part == "P10" and line.joint]
    page = client.get(f"{BUILDS}/TW-31/parts/P10/").content.decode()
    assert lines
    for line in lines:
        assert f'href="{BUILDS}/TW-31/joints/{line.joint}/"' in page
    assert "The screw bottoms before it clamps" in page


def test_two_people_change_one_component_and_both_versions_are_shown(
    client: Client, other: Client, box: Build
) -> None:
    mine, theirs = fields(client), fields(other)
    other.post(f"{PARTS}/P01/", theirs | {"length": "290", "material": "ash"})
    answer = client.post(f"{PARTS}/P01/", mine | {"length": "270", "note": "mine"})
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "P01 was changed by Tom Ash while you had it open." in page
    labels = [each.label for each in answer.context["conflict"].fields]
    assert labels == ["Material", "Note", "Length"]
    assert 'value="270"' in page
    assert part().material == "ash"
    seen = answer.context["conflict"].seen
    client.post(
        f"{PARTS}/P01/",
        mine | {"length": "270", "note": "mine", "material": "ash", "seen": seen, "conflict": "mine"},
    )
    length = part().size.length
    assert length is not None
    assert (length.mm, part().material, part().note) == (270, "ash", "mine")
    client.post(f"{PARTS}/P01/", mine | {"length": "999", "seen": seen, "conflict": "theirs"})
    assert part().size.length == length


def test_a_hole_of_somebody_else_does_not_stand_against_a_new_length(
    client: Client, other: Client, box: Build
) -> None:
    mine = fields(client)
    other.post(f"{PARTS}/P01/holes/", {"lines": "5 at 20,30"})
    assert client.post(f"{PARTS}/P01/", mine | {"length": "270"}).status_code == 302
    length = part().size.length
    assert length is not None
    assert length.mm == 270
    assert len(part().holes) == 1


def test_a_component_that_was_taken_out_meanwhile_is_offered_as_a_line(
    client: Client, other: Client, box: Build
) -> None:
    mine = fields(client)
    other.post(f"{PARTS}/P01/remove/")
    answer = client.post(f"{PARTS}/P01/", mine | {"length": "270"})
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "There is no P01 any more: Tom Ash took it out." in page
    assert 'value="P01 base, 270 x 180 x 18, oak board"' in page


def test_the_state_is_one_press_on_the_page_and_the_line_is_sent_from_it(client: Client, box: Build) -> None:
    answer = client.post(f"{PARTS}/P01/state/", {"state": "planned>in hand", "from": "component"})
    assert answer["Location"] == f"{PARTS}/P01/"
    assert part().state == "in hand"
    seen = client.get(f"{PARTS}/P01/").context["opened"].seen
    wrong = client.post(f"{PARTS}/P01/line/", {"line": "0 off", "seen": seen, "from": "component"})
    assert wrong.status_code == 422
    assert "<h1>P01 base</h1>" in wrong.content.decode()
    right = client.post(f"{PARTS}/P01/line/", {"line": "rev C", "seen": seen, "from": "component"})
    assert right["Location"] == f"{PARTS}/P01/"
    assert part().revision == "C"


def test_a_viewer_sees_all_and_a_stranger_nothing(client: Client, box: Build) -> None:
    client.force_login(Person.objects.get(username="visitor"))
    page = client.get(f"{PARTS}/P01/?hole=h1").content.decode()
    assert "280" in page
    assert 'name="line"' not in page
    assert 'name="material"' not in page
    for address in ("", "line/", "state/", "move/", "copy/", "remove/", "holes/", "holes/h1/"):
        assert client.post(f"{PARTS}/P01/{address}", {"lines": "5 at 1,1"}).status_code == 403
    client.force_login(Person.objects.create(username="stranger"))
    assert client.get(f"{PARTS}/P01/").status_code == 404


def test_the_page_asks_as_often_for_many_holes_as_for_few_and_shows_sixty(client: Client, box: Build) -> None:
    client.post(f"{PARTS}/P01/holes/", {"lines": "5 at 20,30"})
    client.get(f"{PARTS}/P01/")
    with CaptureQueriesContext(connection) as few:
        client.get(f"{PARTS}/P01/")
    client.post(f"{PARTS}/P01/holes/", {"lines": "25 x 17 grid, dia 3, from 10,10 pitch 10 x 10"})
    client.get(f"{PARTS}/P01/")
    with CaptureQueriesContext(connection) as many:
        page = client.get(f"{PARTS}/P01/").content.decode()
    assert len(many) == len(few) <= 8
    assert "Rows 1 to 60 of 426" in page
    assert "426 holes: they are drawn on the drilling sheet." in page
    deep = client.get(f"{PARTS}/P01/?hole=h420").content.decode()
    assert 'id="hole-h420"' in deep


def test_no_address_of_the_page_is_wrong(client: Client, box: Build) -> None:
    assert client.get(f"{PARTS}/P99/").status_code == 404
    assert client.put(f"{PARTS}/P01/").status_code == 405
    for query in (
        "face=x",
        "hole=x",
        "pose=-1",
        "list=holes&page=x",
        "list=x&page=9",
        "face=%00",
        "pocket=k9",
    ):
        assert client.get(f"{PARTS}/P01/?{query}").status_code == 200
    assert client.post(f"{PARTS}/P01/holes/?face=sideways", {"lines": "5 at 1,1"}).status_code in (302, 422)
    assert client.post(f"{PARTS}/P01/", {}).status_code == 422


def test_a_change_says_what_it_did_to_the_check(client: Client, demonstration: Person) -> None:
    address = f"{BUILDS}/TW-31/parts/P10/"
    form = client.get(address).context["form"]
    sent = {name: form.fields[name].prepare_value(form[name].value()) for name in form.fields}
    seen = client.get(address).context["bare_seen"]
    changed = {"made_length": "", "length": "30", "reason": "it stands too high", "seen": seen}
    sent = {k: v for k, v in sent.items() if v} | changed
    page = client.post(address, sent, follow=True).content.decode()
    before = inspect_build(demonstration_build("TW-31")).findings
    after = inspect_build(plain_of(Build.rows.get(number="TW-31"))).findings
    assert before != after
    assert re.search(r"P10: finished size changed[^<]*\. This change: \d+ mended, \d+ new", page)
