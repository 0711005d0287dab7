"""Side B, the joints: entered one a line, changed in place, copied, removed; what follows is shown at once."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds.actions import begin_build, change_build, fingerprint
from buildlog.builds.models import Build, Change
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Membership, Person, Role
from calculators.planning import model as plain
from calculators.planning.edits import find, put
from calculators.planning.lines import add_lines, write_joint_line

pytestmark = [pytest.mark.database, pytest.mark.usefixtures("for_a_reason")]
JOINTS = "/workshops/thornbank-workshop/builds/TW-31/joints/"


def row(number: str = "TW-31") -> Build:
    return Build.rows.get(number=number)


def joint(mark: str, number: str = "TW-31") -> plain.Joint:
    found: plain.Joint = find(plain_of(row(number)), "joint", mark)
    return found


@pytest.fixture
def box(demonstration: Person) -> str:
    """A box of oak with hinges, its parts entered one a line; the address of its joints."""
    parts = "4 sides 300 x 120 x 12 oak\n2 hinges 38 x 20 x 1.6 brass"
    read = add_lines("part", parts, plain.Build("B7", "Box"))
    assert read.unread == ()
    begin_build(demonstration.workshops.get(), demonstration, read.build, "Begun")
    return "/workshops/thornbank-workshop/builds/B7/joints/"


def test_every_joint_is_listed_with_its_count_and_the_worst_that_the_check_says(
    client: Client, demonstration: Person
) -> None:
    page = client.get(JOINTS).content.decode()
    for one in plain_of(row()).joints:
        assert f'href="{JOINTS}{one.mark}/"' in page
    at = page.index('<tr id="F03"')
    f03 = page[at : page.index("</tr>", at)]
    assert "screw bottoms, 2 in all" in f03
    assert '<td class="number" data-head="Count:">1</td>' in f03
    assert "18 of thread, 2.27&nbsp;D" in f03


def test_lines_are_added_and_what_follows_is_shown_for_each_part(client: Client, box: str) -> None:
    line = "No. 4 x 1/2 in csk brass: hinge into side edge, 6 off"
    answer = client.post(box, {"lines": line}, follow=True)
    assert answer.redirect_chain == [(f"{box}?new=F01", 302)]
    page = answer.content.decode()
    assert "F01 Hinge to side: No. 4 x 1/2 csk brass was added" in page
    start = page.index('<div id="new">')
    new = page[start : page.index("<h2>All joints</h2>")]
    assert "clearance" in new
    assert "countersunk to" in new
    assert "pilot" in new
    assert "steel" in new  # brass in oak: a steel screw goes in first
    assert joint("F01", "B7").count == 6


def test_lines_that_are_not_understood_stay_while_the_others_are_saved(client: Client, box: str) -> None:
    lines = [
        "M3 x 8 csk steel: hinge into side",
        "M3 x 8/0 csk: hinge into side",
        "No. 4 x 1/2 csk brass: hinge into lid",
    ]
    answer = client.post(box, {"lines": "\n".join(lines)})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert [one.mark for one in plain_of(row("B7")).joints] == ["F01"]
    assert "2 lines were not understood and are not saved yet" in page
    assert 'value="M3 x 8/0 csk: hinge into side"' in page
    assert "There is no part called" in page
    assert '<div id="new">' in page


@pytest.mark.parametrize(
    "nonsense", ["", "   \n\n", "<script>alert(1)</script>", "\x00", "F" * 5_000, "木ねじ 4 本"]
)
def test_nonsense_is_answered_with_a_sentence_and_adds_nothing(
    nonsense: str, client: Client, box: str
) -> None:
    answer = client.post(box, {"lines": nonsense})
    assert answer.status_code in (302, 422)
    assert plain_of(row("B7")).joints == ()
    assert answer.status_code == 302 or 'class="fault"' in answer.content.decode()
    assert "<script>alert" not in answer.content.decode()


def test_a_line_is_changed_in_place(client: Client, demonstration: Person) -> None:
    page = client.get(f"{JOINTS}?change=F05").content.decode()
    line = write_joint_line(joint("F05"), plain_of(row()))
    assert 'name="change" value="F05"' in page
    sent = {
        "change": "F05",
        "line": line.replace("2 BA x 3/4", "2 BA x 1"),
        "seen": fingerprint("joint", joint("F05")),
    }
    assert sent["line"] != line
    before = joint("F05")
    answer = client.post(JOINTS, sent)
    assert (answer.status_code, answer["Location"]) == (302, f"{JOINTS}#F05")
    assert joint("F05").fastener.startswith("2 BA x 1")
    assert replace(joint("F05"), fastener=before.fastener) == before


def test_a_changed_line_that_is_not_understood_stays_with_its_sentence(
    client: Client, demonstration: Person
) -> None:
    sent = {"change": "F05", "line": "2 BA x 3/0 in cheese brass, P12 into P99"}
    answer = client.post(JOINTS, sent)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert 'value="2 BA x 3/0 in cheese brass, P12 into P99"' in page
    assert 'aria-describedby="line-says"' in page
    assert Change.objects.exclude(says__startswith="Read from").count() == 0


def test_two_people_change_one_line_and_the_second_sees_both_versions(
    client: Client, demonstration: Person
) -> None:
    seen, line = fingerprint("joint", joint("F05")), write_joint_line(joint("F05"), plain_of(row()))
    tomas = Person.objects.create(username="tomas", name="Tomas")
    change_build(
        row(),
        tomas,
        lambda b: put(b, "joint", replace(joint("F05"), title="Clamp of the head"), key="F05"),
        "x",
    )
    mine = line.replace("3/4", "1")
    answer = client.post(JOINTS, {"change": "F05", "line": mine, "seen": seen})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "F05 was changed by Tomas while you had it open." in page
    assert "Clamp of the head" in page
    assert 'name="conflict" value="mine"' in page
    assert joint("F05").title == "Clamp of the head"
    kept = client.post(JOINTS, {"change": "F05", "line": mine, "conflict": "theirs"}, follow=True)
    assert "yours was let go" in kept.content.decode()
    now = fingerprint("joint", joint("F05"))
    client.post(JOINTS, {"change": "F05", "line": mine, "seen": now, "conflict": "mine"})
    assert joint("F05").fastener.startswith("2 BA x 1")


def test_a_joint_is_copied_and_removed_and_both_are_undone(client: Client, demonstration: Person) -> None:
    before = plain_of(row())
    answer = client.post(f"{JOINTS}F03/copy/", follow=True)
    assert "was copied from F03" in answer.content.decode()
    assert len(plain_of(row()).joints) == len(before.joints) + 1
    client.post("/workshops/thornbank-workshop/builds/TW-31/undo/")
    answer = client.post(f"{JOINTS}F03/remove/", follow=True)
    page = answer.content.decode()
    assert "F03 was removed" in page
    assert "no longer name" in page
    assert all(one.mark != "F03" for one in plain_of(row()).joints)
    client.post("/workshops/thornbank-workshop/builds/TW-31/undo/")
    assert plain_of(row()) == before


@pytest.mark.parametrize("address", ["F99/copy/", "F99/remove/"])
def test_a_joint_that_is_gone_is_said_to_be(address: str, client: Client, demonstration: Person) -> None:
    page = client.post(JOINTS + address, follow=True).content.decode()
    assert "There is no joint" in page


def test_find_sort_and_hostile_addresses(client: Client, demonstration: Person) -> None:
    page = client.get(f"{JOINTS}?find=hinges").content.decode()
    assert "2 of 24 joints" in page
    assert '<tr id="F25L"' in page
    assert '<tr id="F03"' not in page
    page = client.get(f"{JOINTS}?sort=-count").content.decode()
    assert page.index('<tr id="F17"') < page.index('<tr id="F03"')
    page = client.get(f"{JOINTS}?sort=worst").content.decode()
    assert page.index('<tr id="F20"') < page.index('<tr id="F02"')
    for hostile in (
        "sort=-",
        "sort=__class__",
        "page=-1",
        "page=9e9",
        "change=%00",
        "new=<b>",
        "find=%F0%9F",
        "new=F03&new=F03",
    ):
        assert client.get(f"{JOINTS}?{hostile}").status_code == 200, hostile


def test_a_viewer_reads_and_is_offered_nothing_to_change(client: Client, demonstration: Person) -> None:
    client.force_login(Person.objects.get(username="visitor"))
    page = client.get(f"{JOINTS}?change=F05&new=F03").content.decode()
    assert "<textarea" not in page
    assert 'name="change"' not in page
    assert "builds/TW-31/mend/" not in page
    assert client.post(JOINTS, {"lines": "x"}).status_code == 403
    stranger = Person.objects.create(username="stranger")
    client.force_login(stranger)
    assert client.get(JOINTS).status_code == 404
    Membership.objects.create(person=stranger, workshop=row().workshop, role=Role.MAKER)
    assert client.get(JOINTS).status_code == 200


def test_the_page_asks_the_database_as_often_with_more_joints(client: Client, box: str) -> None:
    asked = []
    for _ in range(2):
        client.post(box, {"lines": "\n".join(["No. 4 x 1/2 csk brass: hinge into side"] * 8)})
        client.get(box)
        with CaptureQueriesContext(connection) as queries:
            assert client.get(box).status_code == 200
        asked.append(len(queries))
    assert asked[0] == asked[1]
    assert len(plain_of(row("B7")).joints) == 16


def test_what_a_sentence_offers_is_pressed_as_a_whole_line(client: Client, demonstration: Person) -> None:
    line = "No. 8 x 1 csk brass: lid into P01"
    page = client.post(JOINTS, {"lines": line}).content.decode()
    assert "could be P05" in page
    offered = re.findall(r'name="lines-choice" value="([^"]+)"', page)
    assert offered[0] == "1:No. 8 x 1 csk brass: P05 into P01"
    answer = client.post(JOINTS, {"lines": ["", line], "lines-choice": offered[0]}, follow=True)
    assert "F26" in answer.content.decode()
    assert [member.part for member in plain_of(row()).joints[-1].stack] == ["P05", "P01"]
