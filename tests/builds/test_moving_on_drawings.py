"""Holes and places moved on a drawing: one change that can be undone, conflicts shown, nothing typed lost."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest
from django.test import Client

from buildlog.builds.actions import begin_build, change_build
from buildlog.builds.models import Build, Change
from buildlog.builds.queries import plain_of, worked_of
from buildlog.workshops.models import Person
from calculators.planning import model as plain
from calculators.planning.edits import find, put
from calculators.planning.edits.hole_moves import move_place, read_spot
from calculators.planning.lines import add_lines

pytestmark = [pytest.mark.database, pytest.mark.shows]
BUILDS = "/workshops/thornbank-workshop/builds"
BUILD = f"{BUILDS}/B4/"
MOVE = f"{BUILD}holes/move/"


@pytest.fixture
def rail(demonstration: Person) -> Person:
    """A plate of 200 x 40 x 2 on a rail of 400 x 60 x 30 at 100, 10: F01 from the plate into the rail."""
    build = plain.Build("B4", "Rail")
    build = add_lines("part", "plate 200 x 40 x 2 brass\nrail 400 x 60 x 30 maple", build).build
    build = add_lines("pose", "P02 on the ground\nP01 on P02 top at 100,10", build).build
    build = add_lines("hole", "top: dia 5.5 at 20,30\nfront: dia 4 at 10,12.7", build, part="P02").build
    line = "No. 5 x 1 csk brass: plate into rail, placed on plate top at 20,20; 180,20"
    build = add_lines("joint", line, build).build
    begin_build(demonstration.workshops.get(), demonstration, build, "Begun")
    return demonstration


def row() -> Build:
    return Build.rows.get(number="B4")


def spots(mark: str = "F01") -> list[tuple[str, str]]:
    joint: plain.Joint = find(plain_of(row()), "joint", mark)
    return [(one.u.written, one.v.written if one.v else "") for one in joint.places]


def own(mark: str = "P02") -> list[tuple[str, float, float]]:
    part: plain.Component = find(plain_of(row()), "component", mark)
    return [(one.id, one.u.mm, one.v.mm if one.v else 0.0) for one in part.holes]


HOLE = {"part": "P02", "face": "top", "key": "h1", "u": "25", "v": "35", "seen": "top: dia 5.5 at 20,30"}
PLACE = {
    "part": "P01", "face": "top", "joint": "F01", "place": "1", "u": "25", "v": "22.5",
    "was_u": "20", "was_v": "20", "seen": "P01 top at 20,20", "back": f"{BUILD}joints/F01/",
}  # fmt: skip
FOLLOWS = PLACE | {"part": "P02", "u": "130", "v": "31", "was_u": "120", "was_v": "30"}


def said(page: Any) -> str:
    found = re.search(r'<div class="messages".*?</div>', page.content.decode(), re.DOTALL)
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", "", found[0])).strip() if found else ""


def test_a_hole_is_moved_in_one_change_which_is_undone(client: Client, rail: Person) -> None:
    before = Change.objects.count()
    page = client.post(MOVE, HOLE | {"back": f"{BUILD}parts/P02/"}, follow=True)
    assert page.redirect_chain == [(f"{BUILD}parts/P02/", 302)]
    assert own() == [("h1", 25.0, 35.0), ("h2", 10.0, 12.7)]
    assert said(page).startswith("P02 hole h1 moved to 25,35 on the top.")
    assert Change.objects.count() == before + 1
    client.post(f"{BUILD}undo/", {})
    assert own()[0] == ("h1", 20.0, 30.0)


def test_a_place_is_moved_on_its_home_and_the_other_part_follows(client: Client, rail: Person) -> None:
    page = client.post(MOVE, PLACE, follow=True)
    assert spots() == [("25", "22.5"), ("180", "20")]
    assert said(page).startswith("F01 place 1 moved to P01 top at 25,22.5.")
    # The plate lies at 100, 10 on the rail.
    assert {(h.u_mm, h.v_mm) for h in worked_of(row()).holes if h.part == "P02" and h.place == "1"} == {
        (125.0, 32.5)
    }


def test_a_hole_that_follows_moves_the_place_it_follows_from(client: Client, rail: Person) -> None:
    client.post(MOVE, FOLLOWS, follow=True)
    assert spots() == [("30", "21"), ("180", "20")]


def test_inches_stay_inches(client: Client, rail: Person) -> None:
    """5 1/4 in is 133.35 mm and the plate lies at 100, 10: on it that is no sixty-fourth, so it is exact in mm."""
    client.post(MOVE, FOLLOWS | {"u": "5 1/4 in", "v": "1 1/4 in"})
    assert spots()[0] == ("33.35", "21.75")
    now = {"was_u": "33.35", "was_v": "21.75", "seen": ""}
    client.post(MOVE, PLACE | now | {"u": "1 3/16 in", "v": "7/8 in"})
    assert spots()[0] == ("1 3/16 in", "7/8 in")


def test_what_the_change_did_to_the_check_is_said(client: Client, rail: Person) -> None:
    """3 mm from the end of a plate of brass: too near for a countersunk screw of 3.2 mm."""
    page = client.post(MOVE, PLACE | {"u": "3"}, follow=True)
    assert re.search(r"This change: \d+ mended, [1-9]\d* new: ", said(page))


def test_a_place_is_added_after_the_others(client: Client, rail: Person) -> None:
    page = client.post(MOVE, PLACE | {"place": "", "u": "100", "v": "20", "seen": ""}, follow=True)
    assert spots() == [("20", "20"), ("180", "20"), ("100", "20")]
    assert said(page).startswith("F01 place 3 added on P01 top at 100,20.")


def test_what_cannot_be_read_stands_beside_its_field_and_nothing_is_lost(
    client: Client, rail: Person
) -> None:
    page = client.post(MOVE, HOLE | {"u": "2/0", "v": "31"})
    assert page.status_code == 422
    text = page.content.decode()
    assert 'value="2/0"' in text
    assert 'value="31"' in text
    assert own()[0] == ("h1", 20.0, 30.0)
    sent = {**HOLE, "u": "22"}
    assert client.post(MOVE, sent).status_code == 302
    assert own()[0] == ("h1", 22.0, 35.0)


@pytest.mark.parametrize(
    "sent",
    [
        {"part": "P99"}, {"face": "inside"}, {"key": "h99"}, {"u": ""}, {"v": "1e9 m"}, {"part": ""},
        {"joint": "F99", "place": "1"}, {"joint": "F01", "place": "77"}, {"was_u": "inf"}, {"u": "nan"},
        {"part": "\x01", "key": "<b>"}, {"u": "9" * 60}, {"face": "side"},
    ],
)  # fmt: skip
def test_no_input_however_wrong_does_harm(client: Client, rail: Person, sent: dict[str, str]) -> None:
    before = plain_of(row())
    page = client.post(MOVE, HOLE | {"was_u": "20", "was_v": "30"} | sent)
    assert page.status_code in (409, 422)
    assert plain_of(row()) == before


def test_somebody_elses_move_is_shown_beside_ones_own(client: Client, rail: Person) -> None:
    change_build(
        row(), rail, lambda now: move_place(now, "F01", "1", read_spot("40", "20", "top", "mm")), "moved"
    )
    page = client.post(MOVE, PLACE)
    assert page.status_code == 409
    text = page.content.decode()
    assert (
        "Place 1 of F01 was changed by Ines Hallam while you had it open. Nothing of yours is saved yet."
        in text
    )
    assert '<td data-head="Theirs, saved:">40</td>' in text
    assert 'value="22.5"' in text
    assert spots()[0] == ("40", "20")
    seen = re.search(r'name="seen" value="([^"]*)"', text)
    assert seen is not None
    was = dict(re.findall(r'name="(was_[uv])" value="([^"]*)"', text))
    assert was == {"was_u": "40.0", "was_v": "20.0"}
    client.post(MOVE, PLACE | was | {"seen": seen[1], "conflict": "mine"})
    assert spots()[0] == ("25", "22.5")


def test_theirs_can_be_kept(client: Client, rail: Person) -> None:
    page = client.post(MOVE, PLACE | {"conflict": "theirs"}, follow=True)
    assert said(page) == "What the others saved stands; yours was let go."
    assert spots()[0] == ("20", "20")


def test_a_hole_that_follows_is_moved_over_somebody_elses_move(client: Client, rail: Person) -> None:
    change_build(
        row(), rail, lambda now: move_place(now, "F01", "1", read_spot("40", "20", "top", "mm")), "moved"
    )
    page = client.post(MOVE, FOLLOWS)
    assert page.status_code == 409
    text = page.content.decode()
    was = dict(re.findall(r'name="(was_[uv])" value="([^"]*)"', text))
    assert was == {"was_u": "140.0", "was_v": "30.0"}
    seen = re.search(r'name="seen" value="([^"]*)"', text)
    assert seen is not None
    client.post(MOVE, FOLLOWS | was | {"seen": seen[1]})
    assert spots()[0] == ("30", "21")


def test_another_change_of_the_joint_stands_in_nobodys_way(client: Client, rail: Person) -> None:
    def longer(build: plain.Build) -> plain.Build:
        joint: plain.Joint = find(build, "joint", "F01")
        return put(build, "joint", replace(joint, fastener="No. 5 x 1 1/4 csk brass"), key="F01")

    change_build(row(), rail, longer, "longer")
    assert client.post(MOVE, PLACE).status_code == 302
    assert spots()[0] == ("25", "22.5")


def test_a_hole_that_was_taken_out_is_told(client: Client, rail: Person) -> None:
    def bare(build: plain.Build) -> plain.Build:
        return put(build, "component", replace(find(build, "component", "P02"), holes=()), key="P02")

    change_build(row(), rail, bare, "bare")
    page = client.post(MOVE, HOLE)
    assert page.status_code == 409
    says = "Ines Hallam took it out while you had it open; there is nothing to move any more."
    assert says in page.content.decode()


def test_a_released_part_asks_for_the_reason_and_loses_nothing(client: Client, rail: Person) -> None:
    def release(build: plain.Build) -> plain.Build:
        part: plain.Component = find(build, "component", "P02")
        return put(build, "component", replace(part, state="released", revision="A"), key="P02")

    change_build(row(), rail, release, "released")
    sent = HOLE | {"back": f"{BUILD}parts/P02/"}
    page = client.post(MOVE, sent)
    assert page.status_code == 409
    text = page.content.decode()
    assert "Why is this changed?" in text
    carried = dict(re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)"', text))
    assert {name: carried[name] for name in sent} == sent
    assert own()[0] == ("h1", 20.0, 30.0)
    page = client.post(MOVE, sent | {"release_reason": "the drill wandered"}, follow=True)
    assert own()[0] == ("h1", 25.0, 35.0)
    assert find(plain_of(row()), "component", "P02").revision == "B"


def test_the_drawing_says_what_each_hole_is(client: Client, rail: Person) -> None:
    text = client.get(f"{BUILD}parts/P02/").content.decode()
    assert 'data-datum="' in text
    holes = re.findall(r'<g class="at-hole"([^>]*)>', text)
    named = [dict(re.findall(r'data-([a-z]+)="([^"]*)"', each)) for each in holes]
    top = [each for each in named if each.get("joint") == "F01"]
    assert {(one["u"], one["v"], one["place"], one["follows"]) for one in top} == {
        ("120", "30", "1", "F01 on P01 top"), ("280", "30", "2", "F01 on P01 top"),
    }  # fmt: skip
    assert {one["seen"] for one in named if one.get("key") == "h1"} == {"top: dia 5.5 at 20,30"}
    assert 'data-words="hole 1, 5.5 mm plain, through"' in text


def test_the_page_of_a_joint_shows_the_face_it_is_placed_on(client: Client, rail: Person) -> None:
    text = client.get(f"{BUILD}joints/F01/").content.decode()
    ground = re.search(r"<div class=\"drawing-ground\" data-plan[^>]*>", text)
    assert ground is not None
    assert 'data-part="P01" data-face="top"' in ground[0]
    assert f'data-move="{MOVE}" data-joint="F01"' in ground[0]


def test_a_viewer_sees_no_handles_to_move_and_is_refused(client: Client, rail: Person) -> None:
    membership = rail.memberships.get()
    membership.role = "viewer"
    membership.save()
    assert "data-move" not in client.get(f"{BUILD}parts/P02/").content.decode()
    assert client.post(MOVE, HOLE).status_code == 403


PAIR = {"part": "P01", "face": "top", "joint": "F01", "place": "1", "back": f"{BUILDS}/B5/holes/"}


@pytest.fixture
def pair(demonstration: Person) -> Person:
    """Two copies of a plate, the second on the first at 30, 15, and F01 through both: two holes in one face."""
    build = plain.Build("B5", "Pair")
    build = add_lines("part", "2 off plate 200 x 60 x 10 brass", build).build
    build = add_lines("pose", "P01.1 on the ground\nP01.2 on P01.1 top at 30,15", build).build
    line = "M5 x 16 pan steel: plates, placed on P01.2 top at 20,20"
    build = add_lines("joint", line, build).build
    stack = (plain.StackMember("P01", takes="clearance"), plain.StackMember("P01", takes="thread"))
    build = put(build, "joint", replace(build.joints[0], stack=stack), key="F01")
    begin_build(demonstration.workshops.get(), demonstration, build, "Begun")
    return demonstration


def test_the_hole_in_the_other_copy_of_the_same_part_goes_where_it_is_put(
    client: Client, pair: Person
) -> None:
    """The copies lie 30, 15 apart, so the hole at 50, 35 of the lower one follows from the place at 20, 20."""
    sent = PAIR | {"was_u": "50", "was_v": "35", "u": "53", "v": "34", "seen": "P01.2 top at 20,20"}
    client.post(f"{BUILDS}/B5/holes/move/", sent)
    holes = {(h.u_mm, h.v_mm, h.copies) for h in worked_of(Build.rows.get(number="B5")).holes}
    assert holes == {(53.0, 34.0, ("P01.1",)), (23.0, 19.0, ("P01.2",))}


def test_the_hole_in_the_other_copy_is_shown_where_somebody_else_has_put_it(
    client: Client, pair: Person
) -> None:
    change_build(
        Build.rows.get(number="B5"),
        pair,
        lambda now: move_place(now, "F01", "1", read_spot("22", "21", "top", "mm")),
        "moved",
    )
    sent = PAIR | {"was_u": "50", "was_v": "35", "u": "53", "v": "34", "seen": "P01.2 top at 20,20"}
    page = client.post(f"{BUILDS}/B5/holes/move/", sent)
    assert page.status_code == 409
    was = dict(re.findall(r'name="(was_[uv])" value="([^"]*)"', page.content.decode()))
    assert was == {"was_u": "52.0", "was_v": "36.0"}
