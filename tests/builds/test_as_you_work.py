"""The check after each change: at once, at every size, and what the change broke is named and linked."""

from __future__ import annotations

import gc
import re
import weakref
from dataclasses import replace
from time import process_time

import pytest
from django.test import Client

from buildlog.builds.actions import begin_build, change_build
from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of, worked_of
from buildlog.workshops.models import Person
from calculators.planning import model as plain
from calculators.planning.edits import can_mend, find, finding_key, put
from calculators.planning.inspection import inspect_build
from tests.benchmarks.large import large_build

pytestmark = pytest.mark.database
BUILDS = "/workshops/thornbank-workshop/builds"
BUILD = f"{BUILDS}/TW-31/"


def row(number: str = "TW-31") -> Build:
    return Build.rows.get(number=number)


def retitled(build: plain.Build, mark: str, title: str) -> plain.Build:
    return put(build, "joint", replace(find(build, "joint", mark), title=title), key=mark)


def test_what_a_change_broke_is_named_with_a_link(client: Client, demonstration: Person) -> None:
    """The screw is shortened by its mend and then made 2 in long again, which is too long."""
    client.post(f"{BUILD}mend/", {"key": "screw-bottoms:F03:P10", "at": "0"})
    answer = client.post(
        f"{BUILD}joints/F03/", {"fastener": "5/16 BSF x 2 in hex set screw steel zinc plated"}, follow=True
    )
    page = answer.content.decode()
    at = page.index("This change: 0 mended, 1 new: ")
    said = page[at : page.index("</a>.", at) + 5]
    assert said == (
        "This change: 0 mended, 1 new: "
        f'<a href="{BUILD}joints/F03/?see=screw-bottoms%3AF03%3AP10">F03 in P10, screw bottoms</a>.'
    )
    assert client.get(f"{BUILD}joints/F03/?see=screw-bottoms%3AF03%3AP10").status_code == 200


def test_a_reason_with_signs_is_told_as_it_was_written(client: Client, demonstration: Person) -> None:
    name = '<b>Lid</b> & "co"'
    sent = {"key": "lock:F05", "reason": name}
    page = client.post(f"{BUILD}let-stand/", sent, follow=True).content.decode()
    assert "<b>Lid</b>" not in page
    assert "&lt;b&gt;Lid&lt;/b&gt; &amp; &quot;co&quot;" in page


def test_the_check_of_a_large_build_takes_over_what_a_change_left_alone(
    client: Client, demonstration: Person
) -> None:
    """400 joints, 500 parts: after one change a small share of the time is needed, and all is as it would be."""
    begin_build(demonstration.workshops.get(), demonstration, large_build(), "Begun")
    whole = worked_of(row("LARGE"))
    begun = process_time()
    inspect_build(whole.build)
    first = process_time() - begun
    mark = whole.build.joints[7].mark
    change_build(row("LARGE"), demonstration, lambda build: retitled(build, mark, "Another"), "retitled")
    begun = process_time()
    after = worked_of(row("LARGE"))
    assert process_time() - begun < first / 3
    assert after.findings == inspect_build(plain_of(row("LARGE"))).findings


def test_a_large_build_too_is_told_what_a_change_did(client: Client, demonstration: Person) -> None:
    begin_build(demonstration.workshops.get(), demonstration, large_build(), "Begun")
    worked = worked_of(row("LARGE"))
    found = next(one for one in worked.findings if one.joint and can_mend(worked, one))
    sent = {"key": finding_key(found), "at": "0"}
    page = client.post(f"{BUILDS}/LARGE/mend/", sent, follow=True).content.decode()
    assert re.search(r"This change: [1-9]\d* mended, \d+ new[.:]", page)


def test_builds_that_were_worked_out_before_are_let_go(client: Client, demonstration: Person) -> None:
    """Each takes over from the one before it, and keeps none of them."""
    sites = []
    worked = inspect_build(plain_of(row()))
    for title in ("a", "b", "c", "d"):
        assert worked.site is not None
        sites.append(weakref.ref(worked.site))
        worked = inspect_build(retitled(worked.build, "F03", title), worked)
    gc.collect()
    assert [one() is not None for one in sites] == [False] * 4


def test_a_thing_that_is_undone_is_worked_out_from_what_is_there(
    client: Client, demonstration: Person
) -> None:
    before = worked_of(row()).findings
    client.post(f"{BUILD}mend/", {"key": "screw-bottoms:F03:P10", "at": "0"})
    assert worked_of(row()).findings != before
    client.post(f"{BUILD}undo/")
    assert worked_of(row()).findings == before
