"""Another fastener, or a mend, is tried: everything that it would change is shown, and nothing is saved."""

from __future__ import annotations

import re
from typing import Any, cast

import pytest
from django.test import Client

from buildlog.builds.actions import begin_build, fingerprint
from buildlog.builds.models import Build, Change
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.trying import offers, try_line, try_mend
from buildlog.workshops.models import Person
from calculators.planning import model as plain
from calculators.planning.edits import find, mend, try_fastener
from calculators.planning.lines import add_lines
from calculators.quantities.errors import InputError

pytestmark = [pytest.mark.database, pytest.mark.shows, pytest.mark.usefixtures("for_a_reason")]
JOINTS = "/workshops/thornbank-workshop/builds/TW-31/joints/"


def row() -> Build:
    return Build.rows.get(number="TW-31")


def nothing_was_saved() -> bool:
    return not Change.objects.exclude(says__startswith="Read from").exclude(says="Begun").exists()


@pytest.fixture
def rail(demonstration: Person) -> str:
    """A brass plate 2 mm thick let into a maple rail by four wood screws, the rail bolted to a plywood side."""
    build = plain.Build("B4", "Rail")
    for kind, lines in (
        ("part", "plate 200 x 40 x 2 brass\nrail 400 x 60 x 30 maple\nside 400 x 300 x 18 birch ply"),
        (
            "joint",
            "No. 10 x 1 csk brass: plate into rail, placed on plate top at 20,20; 70,20; 130,20; 180,20",
        ),
        ("joint", "M6 x 60 hex: rail, side, M6 nut, placed on rail front at 50,15; 200,15; 350,15"),
    ):
        read = add_lines(cast(Any, kind), lines, build)
        assert read.unread == ()
        build = read.build
    begin_build(demonstration.workshops.get(), demonstration, build, "Begun")
    return "/workshops/thornbank-workshop/builds/B4/joints/F01/"


def test_a_thinner_screw_is_tried_and_every_part_says_what_changes(client: Client, rail: str) -> None:
    assert "The countersink goes through P01" in client.get(rail).content.decode()
    page = client.get(rail, {"try": "No. 5 x 1 csk brass"}).content.decode()
    assert "Tried, not saved: No. 5 x 1 csk brass instead of No. 10 x 1 csk brass" in page
    assert page.count('role="img"') == 4  # now and as tried, each for a broad and a narrow page
    changes = page[page.index("What changes in every part") : page.index("<h2>Length</h2>")]
    assert re.findall(r'class="mark">(\w+)</span> (\w+)', changes) == [("P01", "plate"), ("P02", "rail")]
    for hole in (
        "clearance 5, countersunk 9.78 at 82 deg",
        "clearance 3.3, countersunk 6.4 at 82 deg",
        "pilot 2.9",
        "pilot 1.9",
    ):
        assert hole in changes
    assert "2 parts change: 0 mended, 0 new, 1 of another severity." in page
    assert "<b>Error, then warning:</b>" in page
    assert "No. 10 x 1 csk brass: 4 now, none as tried" in page
    assert "Drills besides: 3.3 mm, 1.9 mm" in page
    assert "Drills no longer needed: 5 mm, 2.9 mm" in page
    assert nothing_was_saved()
    taken = client.post(rail, {"fastener": "No. 5 x 1 csk brass"}, follow=True).content.decode()
    assert "This change: 0 mended, 0 new, 1 of another severity." in taken


def test_it_is_taken_with_one_action_or_left(client: Client, demonstration: Person) -> None:
    page = client.get(f"{JOINTS}F02/", {"try": "No. 5 x 7/8 csk slotted brass"}).content.decode()
    form = page[page.index('name="fastener"') - 400 : page.index("Take it")]
    seen = re.search(r'name="seen" value="(\w+)"', form)
    assert seen is not None
    assert seen[1] == fingerprint("joint", find(plain_of(row()), "joint", "F02"))
    assert f'href="{JOINTS}F02/">Leave it' in page
    expected = try_fastener(plain_of(row()), "F02", "No. 5 x 7/8 csk slotted brass")
    answer = client.post(
        f"{JOINTS}F02/", {"fastener": "No. 5 x 7/8 csk slotted brass", "seen": seen[1]}, follow=True
    )
    assert "F02: the fastener is now No. 5 x 7/8 csk slotted brass" in answer.content.decode()
    now = plain_of(row())
    assert now.joints == expected.joints
    assert [one.id for one in now.releases] == [
        "P11-A",
        "P11-B",
    ]  # the plate that it is sunk into is released


def test_a_thread_is_tried_with_the_washers_and_nuts_that_go_with_it(
    client: Client, demonstration: Person
) -> None:
    line = "M6 x 40 socket cap steel zinc plated"
    trial = try_line(worked_of(row()), "F18", line)
    assert trial.tried == find(try_fastener(plain_of(row()), "F18", line), "joint", "F18")
    page = client.get(f"{JOINTS}F18/", {"try": line}).content.decode()
    assert "M6 full nut" in page or "M6 nut" in page


def test_a_mend_is_tried_before_it_is_taken(client: Client, demonstration: Person) -> None:
    page = client.get(f"{JOINTS}F03/", {"mend": "screw-bottoms:F03:P10", "at": "0"}).content.decode()
    assert "<b>Mended:</b> F03 in P10" in page
    assert 'name="key" value="screw-bottoms:F03:P10"' in page
    assert nothing_was_saved()
    page = client.get(f"{JOINTS}F01/", {"mend": "wood-movement:F01:P02:1"}).content.decode()
    assert "slot 4.5 x 9.5 along u" in page
    trial = try_mend(worked_of(row()), "F01", "wood-movement:F01:P02:1", "")
    assert trial.tried == find(mend(worked_of(row()), "wood-movement:F01:P02:1"), "joint", "F01")


@pytest.mark.parametrize(
    "asked",
    [
        {"try": ""}, {"try": "M5 nut"}, {"try": "1/0 x 3"}, {"try": "x" * 5_000}, {"try": "\x00"}, {"try": "<script>alert(1)</script>"},
        {"try": "No. 999 x 1"}, {"try": "مسمار"}, {"mend": ""}, {"mend": "x:y"}, {"mend": "screw-bottoms:F03:P10", "at": "x"},
        {"mend": "screw-bottoms:F03:P10", "at": "99"}, {"mend": "lock:F05"}, {"mend": "\x00" * 900}, {"try": "   ", "mend": "y"},
    ],
)  # fmt: skip
def test_what_cannot_be_tried_is_said_beside_the_field(
    asked: dict[str, str], client: Client, demonstration: Person
) -> None:
    answer = client.get(f"{JOINTS}F03/", asked)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert 'class="fault"' in page
    assert "<script>alert" not in page
    assert 'name="fastener"' in page  # the joint's own page, with all that it has
    assert nothing_was_saved()


def test_what_was_tried_and_not_understood_stays_in_its_field(client: Client, demonstration: Person) -> None:
    page = client.get(f"{JOINTS}F03/", {"try": "5/16 BFS x 2"}).content.decode()
    assert 'name="try" value="5/16 BFS x 2"' in page
    assert 'aria-describedby="try-hint try-says"' in page


def test_what_else_would_do_is_offered_with_what_the_check_would_say(
    client: Client, demonstration: Person
) -> None:
    offered = offers(worked_of(row()), "F03")
    assert len(offered) > 3
    page = client.get(f"{JOINTS}F03/others/").content.decode()
    part = client.get(f"{JOINTS}F03/others/", headers={"HX-Request": "true"}).content.decode()
    assert "<html" in page
    assert "<html" not in part
    assert all(count for one in offered for _, count in one.counts)
    assert part.count("?try=") == len(offered)
    for one in offered:
        trial = try_line(worked_of(row()), "F03", one.line)
        found = [each.finding.severity for each in trial.red]
        assert one.counts == [(severity, found.count(severity)) for severity, _ in one.counts], one.line


def test_a_viewer_may_try_and_cannot_take(client: Client, demonstration: Person) -> None:
    client.force_login(Person.objects.get(username="visitor"))
    page = client.get(f"{JOINTS}F02/", {"try": "No. 5 x 7/8 csk slotted brass"}).content.decode()
    assert "What changes in every part" in page
    assert "Take it" not in page


def test_a_trial_refuses_the_finding_of_another_joint(demonstration: Person) -> None:
    with pytest.raises(InputError, match="not one of F01"):
        try_mend(worked_of(row()), "F01", "lock:F05", "0")
