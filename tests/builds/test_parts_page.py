"""The page of the parts: entered one a line, changed in place, found, ordered, paged, moved, copied, removed."""

from __future__ import annotations

import re
from html import unescape

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds.actions import begin_build, change_build
from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Person, Workshop
from calculators.planning.lines import add_lines
from calculators.planning.model import Build as Plain

pytestmark = pytest.mark.database

BUILDS = "/workshops/thornbank-workshop/builds"
PARTS = f"{BUILDS}/BOX/parts/"
NOTEBOOK = "4 sides 300 x 120 x 12 oak\nbase 280 x 180 x 6 birch ply\nlid 300 x 200 x 12 oak\ngroup Frame\nrail 200 x 30 x 20 oak in G1"


@pytest.fixture
def box(demonstration: Person) -> Build:
    """A build of the demonstration's workshop with nothing in it."""
    return begin_build(Workshop.objects.get(), demonstration, Plain("BOX", "Box with a lid"), "Begun")


def now(number: str = "BOX") -> Plain:
    return plain_of(Build.rows.get(number=number))


def marks() -> list[str]:
    return [one.mark for one in now().components]


def filled(box: Build, lines: str = NOTEBOOK) -> None:
    change_build(box, None, lambda build: add_lines("part", lines, build).build, "Filled")


def seen(client: Client, mark: str) -> str:
    page = client.get(f"{PARTS}?change={mark}").content.decode()
    found = re.search(rf'id="part-{mark}" class="open".*?name="seen" value="(\w+)"', page, re.DOTALL)
    assert found
    return found[1]


def test_five_lines_pasted_are_five_parts_with_one_action(client: Client, box: Build) -> None:
    answer = client.post(PARTS, {"lines": NOTEBOOK}, follow=True)
    page = answer.content.decode()
    assert answer.redirect_chain == [(f"{PARTS}#entry-parts-new", 302)]
    assert marks() == ["P01", "P02", "P03", "G1", "P04"]
    assert "Added P01 sides, P02 base, P03 lid, G1 Frame and P04 rail." in page
    assert 'data-saved="BOX/parts"' in page
    assert page.count("data-row") == 5


def test_lines_that_are_not_understood_come_back_with_their_sentences_and_the_others_are_saved(
    client: Client, box: Build
) -> None:
    answer = client.post(PARTS, {"lines": "0 lids\n2 ends 100 x 50 x 12 oak"})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert marks() == ["P01"]
    assert 'value="0 lids"' in page
    assert "&#x27;0&#x27; is no count here; write 1 to 100,000." in page
    assert "Added P01 ends." in page
    client.post(PARTS, {"lines": ["", "2 lids"]})
    assert [one.name for one in now().components] == ["ends", "lids"]


def test_the_parts_are_a_tree_with_members_behind_their_group(client: Client, box: Build) -> None:
    filled(box)
    change_build(
        box,
        None,
        lambda build: add_lines("part", "foot 20 x 20 x 5 oak in G1\npeg 10 x 10 x 5 oak", build).build,
        "More",
    )
    page = client.get(PARTS).content.decode()
    order = re.findall(r'data-row id="part-(\w+)"', page)
    assert order == ["P01", "P02", "P03", "G1", "P04", "P05", "P06"]
    assert 'data-depth="1"><a class="mark" href="' + PARTS + 'P04/"' in page.replace("\n", "")
    found = client.get(f"{PARTS}?find=oak+frame").content.decode()
    assert "data-row" not in found
    found = client.get(f"{PARTS}?find=g1+rail").content.decode()
    assert re.findall(r'data-row id="part-(\w+)"', found) == ["P04"]
    ordered = client.get(f"{PARTS}?sort=-length").content.decode()
    assert re.findall(r'data-row id="part-(\w+)"', ordered)[0] in ("P01", "P03")
    assert re.findall(r'data-row id="part-(\w+)"', ordered)[-1] == "G1"


def test_a_second_page_of_the_tree_says_which_group_it_goes_on_with(client: Client, box: Build) -> None:
    lines = "group Frame\n" + "\n".join(f"rail {i} 200 x 30 x 20 oak in G1" for i in range(80))
    filled(box, lines)
    page = client.get(f"{PARTS}?page=2").content.decode()
    assert page.count("data-row") == 21
    assert re.search(r'class="continued".*?in <a href="[^"]+/G1/">G1 Frame</a>, continued', page, re.DOTALL)
    answer = client.post(PARTS, {"lines": "lid 300 x 200 x 12 oak"})
    assert answer["Location"] == f"{PARTS}?page=2#entry-parts-new"


def test_a_row_becomes_its_line_and_is_saved_with_enter(client: Client, box: Build) -> None:
    filled(box)
    page = client.get(f"{PARTS}?change=P01").content.decode()
    assert ">P01 sides, 300 x 120 x 12, oak board, 4 off</textarea>" in page
    assert page.count("data-row") == 4
    part = client.get(f"{PARTS}?change=P01", headers={"HX-Request": "true"})
    assert part.content.decode().strip().startswith('<tr id="part-P01" class="open">')
    closed = client.get(f"{PARTS}?row=P01", headers={"HX-Request": "true"}).content.decode()
    assert closed.strip().startswith('<tr data-row id="part-P01">')
    answer = client.post(
        f"{PARTS}P01/line/",
        {"line": "P01 310 x 120 x 12", "seen": seen(client, "P01"), "list": ""},
        follow=True,
    )
    assert answer.redirect_chain == [(f"{PARTS}#part-P01", 302)]
    one = now().components[0]
    assert (one.name, one.quantity, one.material) == ("sides", 4, "oak")
    assert one.size.length is not None
    assert one.size.length.mm == 310
    assert "P01: finished size changed." in answer.content.decode()


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("", "The line is empty. To take the part out, use Remove."),
        ("0 off", "is no count here"),
        ("sides 1/0 x 3 x 4", "1/0"),
        ("sides in G77", "G77"),
        ("in P01", "cannot be inside"),
        ("\x00", "has a character that no text can hold"),
        ("x" * 6_000, "characters"),
    ],
)
def test_a_line_that_cannot_be_read_stays_open_with_its_sentence(
    line: str, says: str, client: Client, box: Build
) -> None:
    filled(box)
    before = now()
    answer = client.post(f"{PARTS}P01/line/", {"line": line, "seen": seen(client, "P01"), "list": ""})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert says in unescape(page)
    assert 'aria-invalid="true"' in page
    assert now() == before


def test_two_people_change_one_line_and_both_versions_are_shown(
    client: Client, box: Build, demonstration: Person
) -> None:
    filled(box)
    other = Client()
    other.force_login(
        Person.objects.exclude(pk=demonstration.pk).filter(memberships__role="maker").first() or demonstration
    )
    print_ = seen(client, "P01")
    assert print_ == seen(other, "P01")
    other.post(f"{PARTS}P01/line/", {"line": "material ash", "seen": print_, "list": ""})
    answer = client.post(f"{PARTS}P01/line/", {"line": "P01 310 x 120 x 12", "seen": print_, "list": ""})
    page = answer.content.decode()
    assert answer.status_code == 409
    assert 'value="P01 310 x 120 x 12"' in page
    assert re.search(r"Theirs, saved:.>[^<]*ash", page)
    assert now().components[0].material == "ash"
    found = re.search(r'class="conflict".*?name="seen" value="(\w+)"', page, re.DOTALL)
    assert found
    client.post(
        f"{PARTS}P01/line/", {"line": "P01 310 x 120 x 12", "seen": found[1], "list": "", "conflict": "mine"}
    )
    one = now().components[0]
    assert one.material == "ash"
    assert one.size.length is not None
    assert one.size.length.mm == 310


def test_a_line_of_a_part_that_was_taken_out_meanwhile_is_not_lost(client: Client, box: Build) -> None:
    filled(box)
    print_ = seen(client, "P02")
    client.post(f"{PARTS}P02/remove/")
    answer = client.post(f"{PARTS}P02/line/", {"line": "base 290 x 180 x 6 ply", "seen": print_, "list": ""})
    assert answer.status_code == 409
    assert 'value="base 290 x 180 x 6 ply"' in answer.content.decode()
    assert "P02" not in marks()


def test_the_usual_next_state_is_one_press(client: Client, box: Build) -> None:
    filled(box)
    answer = client.post(f"{PARTS}P01/state/", {"state": "planned>released", "list": "find=oak"}, follow=True)
    assert answer.redirect_chain == [(f"{PARTS}?find=oak#part-P01", 302)]
    assert now().components[0].state == "released"
    late = client.post(f"{PARTS}P01/state/", {"state": "planned>made", "list": ""}, follow=True)
    assert "P01 is released by now, not planned: nothing was changed." in late.content.decode()
    assert client.post(f"{PARTS}P01/state/", {"state": "broken"}).status_code == 404
    gone = client.post(f"{PARTS}P99/state/", {"state": "planned>made"}, follow=True).content.decode()
    assert "There is no component" in gone


def test_parts_are_moved_copied_and_removed_and_all_of_it_is_undone(client: Client, box: Build) -> None:
    filled(box)
    client.post(f"{PARTS}P03/move/", {"to": "up"})
    assert marks() == ["P01", "P03", "P02", "G1", "P04"]
    client.post(f"{PARTS}P01/move/", {"to": "down"})
    assert marks() == ["P03", "P01", "P02", "G1", "P04"]
    client.post(f"{PARTS}P02/move/", {"to": "before", "before": "p03"})
    assert marks() == ["P02", "P03", "P01", "G1", "P04"]
    for sent, says in (
        ({"to": "up"}, "P02 stands first already."),
        ({"to": "before", "before": ""}, "Say before which part it is to stand"),
        ({"to": "before", "before": "P99"}, "There is no component"),
        ({"to": "sideways"}, "Say before which part"),
    ):
        assert says in client.post(f"{PARTS}P02/move/", sent, follow=True).content.decode()
    answer = client.post(f"{PARTS}P02/copy/", follow=True)
    assert "P05 copied from P02. It lies nowhere yet." in answer.content.decode()
    assert 'id="part-P05" class="open"' in answer.content.decode()
    page = client.get(f"{PARTS}G1/remove/").content.decode()
    assert "P04" in page
    assert "P04" in marks()
    client.post(f"{PARTS}G1/remove/")
    assert "G1" not in marks()
    assert next(one for one in now().components if one.mark == "P04").parent == ""
    for _ in range(5):
        client.post(f"{BUILDS}/BOX/undo/")
    assert marks() == ["P01", "P02", "P03", "G1", "P04"]
    assert client.get(f"{PARTS}P99/remove/").status_code == 404
    assert "There is no component" in client.post(f"{PARTS}P99/remove/", follow=True).content.decode()


def test_a_viewer_reads_the_parts_and_finds_no_form(client: Client, box: Build) -> None:
    filled(box)
    client.force_login(Person.objects.get(username="visitor"))
    page = client.get(f"{PARTS}?change=P01").content.decode()
    assert page.count("data-row") == 5
    assert "<textarea" not in page
    assert "Change" not in page
    assert client.post(PARTS, {"lines": "lid"}).status_code == 403
    assert client.put(PARTS).status_code == 403


def test_the_page_asks_the_database_as_often_for_many_parts_as_for_few(client: Client, box: Build) -> None:
    filled(box)
    client.get(PARTS)
    with CaptureQueriesContext(connection) as few:
        client.get(PARTS)
    change_build(box, None, lambda build: add_lines("part", "peg 10 x 5 x 5 oak\n" * 80, build).build, "More")
    client.get(PARTS)
    with CaptureQueriesContext(connection) as many:
        client.get(PARTS)
    assert len(few) == len(many)
    assert len(many) <= 8


def test_no_address_of_the_page_is_wrong(client: Client, box: Build) -> None:
    filled(box)
    for query in (
        "sort=nothing",
        "page=99999",
        "page=x",
        "find=%00",
        "change=P99",
        "row=x",
        "sort=-",
        "find=" + "x" * 3_000,
    ):
        assert client.get(f"{PARTS}?{query}").status_code == 200
    assert client.get(f"{PARTS}?row=P99", headers={"HX-Request": "true"}).status_code == 404


def test_a_long_note_is_left_out_of_the_line_and_stays(client: Client, box: Build) -> None:
    note = "cut from the plank beside the window, " * 3
    filled(box, f"lid 300 x 200 x 12 oak # {note}")
    print_ = seen(client, "P01")
    assert "plank beside" not in client.get(f"{PARTS}?change=P01").content.decode()
    client.post(f"{PARTS}P01/line/", {"line": "lid 310 x 200 x 12 oak", "seen": print_, "list": ""})
    one = now().components[0]
    assert one.size.length is not None
    assert (one.size.length.mm, one.note) == (310, note.strip())
