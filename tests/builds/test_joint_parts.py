"""The places of a joint, and what is decided about each member of its stack."""

from __future__ import annotations

from dataclasses import replace

import pytest
from django.test import Client

from buildlog.builds.actions import change_build, fingerprint
from buildlog.builds.joint_edits import keep_ids
from buildlog.builds.models import Build, Change
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Person
from calculators.planning import model as plain
from calculators.planning.edits import find, put
from calculators.quantities import Length
from tests.builds.sending import sent_of

pytestmark = [pytest.mark.database, pytest.mark.shows, pytest.mark.usefixtures("for_a_reason")]
BUILD = "/workshops/thornbank-workshop/builds/TW-31/"
JOINTS = f"{BUILD}joints/"


def row() -> Build:
    return Build.rows.get(number="TW-31")


def joint(mark: str = "F03") -> plain.Joint:
    found: plain.Joint = find(plain_of(row()), "joint", mark)
    return found


def test_places_are_typed_once_and_follow_in_every_part(client: Client, demonstration: Person) -> None:
    address = f"{JOINTS}F02/places/"
    page = client.get(address).content.decode()
    sent = sent_of(page, address)
    assert sent["home"] == "P11"
    assert sent["places"].startswith("9,9")
    answer = client.post(address, sent | {"places": "row of 3 from 10,10 pitch 30 along u"})
    assert (answer.status_code, answer["Location"]) == (302, f"{JOINTS}F02/")
    places = joint("F02").places
    assert [(p.id, p.u.mm, p.v.mm if p.v else None) for p in places] == [
        ("1", 10, 10),
        ("2", 40, 10),
        ("3", 70, 10),
    ]
    page = client.get(f"{JOINTS}F02/").content.decode()
    assert page.count("placed here") == 3
    assert page.count("follows") >= 3


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"places": "20"}, "places"), ({"places": "1/0,3"}, "places"), ({"home": "P99"}, "home"), ({"home": ""}, "home"),
        ({"face": ""}, "face"), ({"face": "inside"}, "face"), ({"places": "row of 999999 from 1,1 pitch 1 along u"}, "places"),
        ({"places": "\x00"}, "places"),
    ],
)  # fmt: skip
def test_places_that_cannot_be_are_refused_beside_their_field(
    changed: dict[str, str], field: str, client: Client, demonstration: Person
) -> None:
    address = f"{JOINTS}F02/places/"
    sent = sent_of(client.get(address).content.decode(), address) | changed
    answer = client.post(address, sent)
    assert answer.status_code == 422
    assert f'href="#id_{field}"' in answer.content.decode()
    assert len(joint("F02").places) == 4


def test_places_keep_their_ids_and_what_was_decided_for_one_that_goes_goes_too() -> None:
    def at(name: str, u: int) -> plain.Place:
        return plain.Place(name, Length(u), Length(0))

    old = (at("1", 10), at("2", 20), at("7", 30))
    assert [p.id for p in keep_ids(old, (at("1", 30), at("2", 10)))] == ["7", "1"]
    assert [p.id for p in keep_ids(old, (at("1", 10), at("2", 25), at("3", 30), at("4", 40)))] == [
        "1",
        "2",
        "7",
        "3",
    ]
    assert keep_ids(old, ()) == ()


def test_the_hole_in_one_layer_is_decided_with_its_reason(client: Client, demonstration: Person) -> None:
    address = f"{JOINTS}F01/stack/0/"
    sent = sent_of(client.get(address).content.decode(), address)
    assert sent["part"] == "P02"
    assert sent["hole-0-diameter"] == "4.5"
    sent |= {
        "fit": "free", "hole-1-places": "1, 3", "hole-1-kind": "slot", "hole-1-slot_length": "9.5",
        "hole-1-slot_along": "u", "hole-1-reason": "the base moves across its grain",
    }  # fmt: skip
    assert client.post(address, sent).status_code == 302
    member = joint("F01").stack[0]
    assert member.fit == "free"
    assert len(member.holes) == 2
    decided = member.holes[1]
    assert (decided.places, decided.kind, decided.slot_along) == (("1", "3"), "slot", "u")
    assert decided.slot_length is not None
    assert decided.slot_length.mm == 9.5
    page = client.get(address).content.decode()
    sent = sent_of(page, address) | {"hole-0-DELETE": "on"}
    client.post(address, sent)
    assert [hole.kind for hole in joint("F01").stack[0].holes] == ["slot"]


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"part": "P99"}, "There is no component"), ({"part": "", "item": ""}, "Name a part, or a washer"),
        ({"item": "M5 washer"}, "one of the two"), ({"part": "", "item": "M5 x 20"}, ""),
        ({"hole-0-diameter": "1/0"}, ""), ({"hole-0-kind": "square"}, ""), ({"hole-0-countersink_angle_deg": "200"}, "1 to 179"),
        ({"hole-TOTAL_FORMS": "x"}, ""), ({"hole-0-places": "a b[0]"}, ""), ({"thread": "x" * 101}, ""),
    ],
)  # fmt: skip
def test_a_member_that_cannot_be_is_refused_with_a_sentence(
    changed: dict[str, str], says: str, client: Client, demonstration: Person
) -> None:
    address = f"{JOINTS}F01/stack/0/"
    before = joint("F01")
    sent = sent_of(client.get(address).content.decode(), address) | changed
    answer = client.post(address, sent)
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert 'class="fault"' in answer.content.decode() or "errorlist" in answer.content.decode()
    assert joint("F01") == before


def test_members_are_added_moved_and_taken_out(client: Client, demonstration: Person) -> None:
    address = f"{JOINTS}F01/stack/2/"
    sent = sent_of(client.get(address).content.decode(), address) | {"item": "No. 8 cup washer"}
    assert client.post(address, sent).status_code == 302
    order = f"{JOINTS}F01/stack/"
    names = [member.part or member.item for member in joint("F01").stack]
    assert names == ["P02", "P01", "No. 8 cup washer"]
    for index in ("2", "1"):
        client.post(order, {"do": "up", "index": index, "seen": fingerprint("joint", joint("F01"))})
    assert [member.part or member.item for member in joint("F01").stack] == ["No. 8 cup washer", "P02", "P01"]
    client.post(order, {"do": "remove", "index": "0"})
    assert [member.part for member in joint("F01").stack] == ["P02", "P01"]
    for wrong in ({"do": "up", "index": "0"}, {"do": "burn", "index": "0"}, {"do": "down", "index": "x"}, {}):
        page = client.post(order, wrong, follow=True).content.decode()
        assert "Nothing was changed." in page, wrong
    stale = client.post(order, {"do": "down", "index": "0", "seen": "old"}, follow=True).content.decode()
    assert "while you had it open" in stale
    assert client.get(f"{JOINTS}F01/stack/9/").status_code == 404


def test_forms_that_come_back_as_they_were_shown_change_nothing(
    client: Client, demonstration: Person
) -> None:
    """Every form of every joint, sent as it came, with the line ends that browsers send."""
    sent = 0
    for one in plain_of(row()).joints:
        stack = [f"stack/{index}/" for index in range(len(one.stack))]
        for page in ("change/", "places/", *stack):
            address = f"{JOINTS}{one.mark}/{page}"
            fields = sent_of(client.get(address).content.decode(), address)
            answer = client.post(
                address, {name: value.replace("\n", "\r\n") for name, value in fields.items()}
            )
            assert answer.status_code == 302, (address, answer.content.decode())
            sent += 1
    assert sent > 80
    assert [change.says for change in Change.objects.exclude(says__startswith="Read from")] == []


def test_a_decision_about_a_part_found_on_the_axis_names_it_with_the_others(
    client: Client, demonstration: Person
) -> None:
    bare = replace(joint("F02"), stack=())
    change_build(row(), demonstration, lambda b: put(b, "joint", bare, key="F02"), "no stack")
    assert f'href="{JOINTS}F02/stack/0/?part=P11"' in client.get(f"{JOINTS}F02/").content.decode()
    address = f"{JOINTS}F02/stack/0/"
    sent = sent_of(client.get(f"{address}?part=P11").content.decode(), address) | {"fit": "free"}
    assert client.post(address, sent).status_code == 302
    assert [(member.part, member.fit) for member in joint("F02").stack] == [
        ("P11", "free"),
        ("P01", "medium"),
    ]
