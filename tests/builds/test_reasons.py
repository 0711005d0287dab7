"""A released part is changed for a reason, which is asked in one place, with all that was typed carried along."""

from __future__ import annotations

import re
from dataclasses import replace
from html import unescape
from typing import Any

import pytest
from django.test import Client

from buildlog.builds.actions import begin_build, change_build, fingerprint, redo, undo
from buildlog.builds.models import Build, Change
from buildlog.builds.queries import plain_of
from buildlog.builds.reasons import ReasonNeeded, giving_reason
from buildlog.workshops.models import Person, Workshop
from calculators.planning import model as plain
from calculators.planning.edits import find, put
from calculators.quantities import Length

pytestmark = pytest.mark.database
HERE = "/workshops/thornbank-workshop/builds/TW-41/"


def mm(value: float) -> Length:
    return Length.of_mm(value)


RAIL = plain.Component(
    "P01", "Rail", material="oak", stock="board", size=plain.Size("block", mm(300), mm(40), mm(20)),
    state="released", revision="A", poses=(plain.Pose(),),
)  # fmt: skip
PLATE = plain.Component(
    "P02", "Plate", material="brass", stock="sheet", size=plain.Size("block", mm(60), mm(40), mm(3)),
    poses=(plain.Pose(on="P01", u=mm(100)),),
)  # fmt: skip
SCREWS = plain.Joint(
    "F01", "Plate to rail", "No. 6 x 3/4 csk slotted brass", home="P02", face="top",
    places=(plain.Place("1", mm(10), mm(20)),),
    stack=(plain.StackMember(part="P02"), plain.StackMember(part="P01")),
)  # fmt: skip
LATCH = plain.Build("TW-41", "Latch", components=(RAIL, PLATE), joints=(SCREWS,))


@pytest.fixture
def row(demonstration: Person) -> Build:
    return begin_build(Workshop.objects.get(slug="thornbank-workshop"), demonstration, LATCH, "Begun")


def now() -> plain.Build:
    return plain_of(Build.rows.get(number="TW-41"))


def carried(page: str) -> list[tuple[str, str]]:
    """What the page that asks sends again."""
    form = page[page.index('id="why"') - 60_000 if page.index('id="why"') > 60_000 else 0 :]
    form = form[form.rindex("<form", 0, form.index('id="why"')) : form.index('id="why"')]
    return [
        (name, unescape(value))
        for name, value in re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)">', form)
        if name != "csrfmiddlewaretoken"
    ]


def again(client: Client, path: str, page: str, reason: str) -> Any:
    sent: dict[str, list[str]] = {}
    for name, value in carried(page):
        sent.setdefault(name, []).append(value)
    return client.post(HERE + path, {**sent, "release_reason": reason})


def change_line(client: Client, mark: str, line: str) -> Any:
    seen = fingerprint("component", find(now(), "component", mark))
    return client.post(f"{HERE}parts/{mark}/line/", {"line": line, "seen": seen})


def test_a_released_part_asks_why_and_keeps_all_that_was_typed(client: Client, row: Build) -> None:
    typed = {"lines": ["5 at 20,20\r\n6 through at 40,20", "“odd” <b> line & more"]}
    answer = client.post(f"{HERE}parts/P01/holes/?face=top", typed)
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "P01 (revision A) is released for making" in re.sub(r"\s+", " ", page)
    assert carried(page) == [("lines", one) for one in typed["lines"]]
    assert f'action="{HERE}parts/P01/holes/?face=top"' in page
    assert now() == LATCH
    answer = again(client, "parts/P01/holes/?face=top", page, "it needs a dowel")
    assert answer.status_code == 422  # the odd line comes back to be mended, the others are saved
    rail = now().components[0]
    assert [hole.diameter.mm for hole in rail.holes if hole.diameter] == [5.0, 6.0]
    assert (rail.revision, rail.state) == ("B", "released")
    change = Change.objects.latest("id")
    assert (change.reason, change.says) == (
        "it needs a dowel", "P01: 2 holes added, h1 and h2 (released again: P01 B)",
    )  # fmt: skip
    assert [(one.id, one.by, one.reason) for one in now().releases] == [
        ("P01-A", "", ""),
        ("P01-B", "Ines Hallam", "it needs a dowel"),
    ]


def test_no_reason_is_asked_for_again_and_a_blank_is_none(client: Client, row: Build) -> None:
    page = change_line(client, "P01", "P01 Rail, oak board, 310 x 40 x 20").content.decode()
    assert "fault" not in page[page.index('id="why"') :]
    answer = again(client, "parts/P01/line/", page, "   ")
    assert answer.status_code == 409
    assert "Write the reason, in a few words." in answer.content.decode()
    assert now() == LATCH


def test_a_line_is_changed_for_a_reason(client: Client, row: Build) -> None:
    page = client.get(f"{HERE}parts/P01/").content.decode()
    seen = re.search(r'name="seen" value="(\w+)"', page)
    assert seen is not None
    sent = {
        "line": "P01 Rail, oak board, 310 x 40 x 20, released, rev A",
        "seen": seen[1],
        "from": "component",
    }
    page = client.post(f"{HERE}parts/P01/line/", sent).content.decode()
    assert dict(carried(page)) == sent
    answer = again(client, "parts/P01/line/", page, "longer")
    assert (answer.status_code, answer["Location"]) == (302, f"{HERE}parts/P01/")
    assert now().components[0].size.length == Length(3_100_000_000, "310", "mm")
    page = client.get(f"{HERE}parts/P01/").content.decode()
    assert "<h2>Revisions</h2>" in page
    assert re.search(r"length from 300 mm to 310 mm", page)
    assert "longer" in page


def test_a_joint_that_moves_touches_the_part_that_it_drills(client: Client, row: Build) -> None:
    page = client.post(
        f"{HERE}joints/F01/places/", {"home": "P02", "face": "top", "places": "14,20", "seen": ""}
    ).content.decode()
    assert "P01 (revision A) is released" in re.sub(r"\s+", " ", page)
    assert "P02" not in page[page.index("<p>P01") : page.index("is released for making")]
    again(client, "joints/F01/places/", page, "the plate is drilled already")
    assert now().joints[0].places[0].u.mm == 14.0
    assert [one.revision for one in now().components] == ["B", ""]


def test_what_is_not_made_of_it_asks_nothing(client: Client, row: Build) -> None:
    page = client.post(f"{HERE}parts/P01/state/", {"state": "released>made"}, follow=True).content.decode()
    assert "P01 is made now" in page
    assert (now().components[0].state, now().components[0].made_to) == ("made", "A")
    assert change_line(client, "P02", "P02 Plate, brass sheet, 70 x 40 x 3").status_code == 302


def test_releasing_keeps_the_part_as_it_is(client: Client, row: Build) -> None:
    client.post(f"{HERE}parts/P02/state/", {"state": "planned>released"})
    (one,) = now().releases
    assert (one.mark, one.revision, one.by, one.reason) == ("P02", "A", "Ines Hallam", "")
    assert one.part == now().components[1]
    assert len(one.drilled) == 1


def test_undo_and_redo_ask_nothing(demonstration: Person, row: Build) -> None:
    with pytest.raises(ReasonNeeded):
        change_build(row, demonstration, ash, "ash")
    saved = change_build(row, demonstration, ash, "ash", reason="no oak")
    undo(row, demonstration)
    assert now() == LATCH
    redo(row, demonstration)
    assert now() == saved.after
    with giving_reason("more"):
        change_build(row, demonstration, lambda b: put(b, "component", RAIL, key="P01"), "oak")
    assert now().releases[-1].reason == "more"


def ash(build: plain.Build) -> plain.Build:
    return put(build, "component", replace(build.components[0], material="ash"), key="P01")


def test_what_cannot_be_is_told_before_a_reason_is_asked(client: Client, row: Build) -> None:
    answer = client.post(f"{HERE}parts/P01/holes/?face=top", {"lines": "nonsense"})
    assert answer.status_code == 422
    form = client.get(f"{HERE}parts/P01/").context["form"]
    sent = {name: form.fields[name].prepare_value(form[name].value()) for name in form.fields}
    sent = {k: v for k, v in sent.items() if v} | {
        "length": "1/0",
        "seen": client.get(f"{HERE}parts/P01/").context["bare_seen"],
    }
    assert client.post(f"{HERE}parts/P01/", sent).status_code == 422


def test_the_reason_of_the_parts_own_form_is_enough(client: Client, row: Build) -> None:
    page = client.get(f"{HERE}parts/P01/")
    form = page.context["form"]
    sent = {name: form.fields[name].prepare_value(form[name].value()) for name in form.fields}
    sent = {k: v for k, v in sent.items() if v}
    sent |= {"material": "ash", "reason": "no oak", "seen": page.context["bare_seen"]}
    assert client.post(f"{HERE}parts/P01/", sent).status_code == 302
    assert (now().components[0].material, now().components[0].revision) == ("ash", "B")


def test_a_build_without_released_parts_is_as_before(client: Client, demonstration: Person) -> None:
    planned = plain.Build("TW-42", "Box", components=(replace(RAIL, state="planned"),))
    row = begin_build(Workshop.objects.get(slug="thornbank-workshop"), demonstration, planned, "Begun")
    saved = change_build(row, demonstration, ash, "ash")
    assert saved.after.releases == ()
    assert saved.after.components[0].revision == "A"
