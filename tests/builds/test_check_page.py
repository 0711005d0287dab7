"""Side D, the check: findings grouped and found, each mended with one action and undone with one."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from time import process_time

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds.actions import begin_build, change_build
from buildlog.builds.mending import mended
from buildlog.builds.models import Build, Change
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.saying import change_of_check
from buildlog.workshops.models import Person
from calculators.joints.model import Finding
from calculators.planning import model as plain
from calculators.planning.edits import can_mend, find, finding_key, mend
from calculators.planning.worked import WorkedBuild
from tests.benchmarks.large import large_build
from tests.benchmarks.yardstick import yardstick

pytestmark = [pytest.mark.database, pytest.mark.shows]
CHECK = "/workshops/thornbank-workshop/builds/TW-31/"
HOSTILE = (
    "%00",
    "-1",
    "x" * 3_000,
    "<script>alert(1)</script>",
    "%F0%9F%94%A9",
    "__class__",
    "part'--",
    "9e99",
)


def row() -> Build:
    return Build.rows.get(number="TW-31")


def all_pages(client: Client, query: str = "") -> str:
    """Every page of the check, one after another."""
    first = client.get(f"{CHECK}?{query}").content.decode()
    more = re.search(r"Page 1 of (\d+)", first)
    rest = range(2, int(more[1]) + 1) if more else ()
    return first + "".join(client.get(f"{CHECK}?{query}&page={at}").content.decode() for at in rest)


def finding_of(page: str, key: str) -> str:
    at = page.index(f'id="finding-{key}"')
    return page[at : page.index("</article>", at)]


def test_every_finding_stands_under_what_comes_first(client: Client, demonstration: Person) -> None:
    page = all_pages(client)
    findings = worked_of(row()).findings
    assert page.count("<article") == len(findings)
    headings = re.findall(r"<section><h2>(.*?)</h2>", page)
    assert list(dict.fromkeys(headings)) == [
        "To be mended before anything is cut",
        "Will disappoint",
        "Could not be looked at",
        "To know",
    ]
    assert "Local codes and licensed practice come first." in page
    f03 = finding_of(page, "screw-bottoms:F03:P10")
    assert "21.2 mm of screw for 18.0 mm of thread, 3.2 mm too long" in f03
    assert f'Rule <a href="{CHECK}rules/#rule-screw-bottoms">screw-bottoms</a>: 21.2, limit 18 mm.' in f03
    assert "joints/F03/?see=screw-bottoms%3AF03%3AP10" in f03
    assert f03.count('name="at"') == 1


def test_a_mend_is_offered_as_a_button_only_where_one_action_does_it(
    client: Client, demonstration: Person
) -> None:
    page, worked = all_pages(client), worked_of(row())
    offered = {
        (m[0], int(m[1]))
        for m in re.findall(r'name="key" value="([^"]+)"><input type="hidden" name="at" value="(\d+)"', page)
    }
    able = {
        (finding_key(one), index)
        for one in worked.findings
        for index in range(len(one.mends))
        if can_mend(worked, one, index)
    }
    assert offered == able
    assert len(able) > 10


@pytest.mark.parametrize(
    ("by", "first"),
    [("part", "C"), ("rule", "Calculation beyond limit"), ("subject", ""), ("nonsense", "To be mended")],
)
def test_findings_are_grouped_as_asked(by: str, first: str, client: Client, demonstration: Person) -> None:
    page = all_pages(client, f"by={by}")
    headings = re.findall(r"<section><h2>(.*?)</h2>", page)
    assert headings[0].startswith(first)
    # Only where one page ends and the next begins does a heading stand twice, one after the other.
    assert len(set(headings)) == sum(one != other for one, other in pairwise(["", *headings]))
    assert page.count("<article") == len(worked_of(row()).findings)


def test_findings_are_found_by_words_and_by_severity(client: Client, demonstration: Person) -> None:
    page = client.get(f"{CHECK}?severity=error&find=oak F03").content.decode()
    assert "No finding has these words." in page
    page = client.get(f"{CHECK}?severity=error").content.decode()
    errors = sum(one.severity == "error" for one in worked_of(row()).findings)
    assert page.count("<article") == errors
    assert f"{errors} of {len(worked_of(row()).findings)} findings" in page
    assert client.get(f"{CHECK}?find=Pillar").content.decode().count("<article") > 0


@pytest.mark.parametrize("name", ["by", "severity", "find", "page"])
def test_hostile_addresses_are_left_aside(name: str, client: Client, demonstration: Person) -> None:
    for value in HOSTILE:
        answer = client.get(f"{CHECK}?{name}={value}")
        assert answer.status_code == 200
        assert "<script>alert" not in answer.content.decode()


def test_one_action_mends_and_says_what_it_did_and_one_undoes_it(
    client: Client, demonstration: Person
) -> None:
    before = plain_of(row())
    sent = {"key": "screw-bottoms:F03:P10", "at": "0", "back": f"{CHECK}joints/F03/"}
    answer = client.post(f"{CHECK}mend/", sent, follow=True)
    assert answer.redirect_chain == [(f"{CHECK}joints/F03/", 302)]
    page = answer.content.decode()
    assert (
        "F03: the fastener is now 5/16 BSF x 1 3/4 hex set screw steel zinc plated. This change: 1 mended, 0 new."
        in page
    )
    assert "The screw bottoms" not in page[page.index('class="pair"') :]
    client.post(f"{CHECK}undo/")
    assert plain_of(row()) == before


def test_every_mend_that_is_offered_does_mend(client: Client, demonstration: Person) -> None:
    worked = worked_of(row())
    tried = 0
    for finding in worked.findings:
        key = finding_key(finding)
        if can_mend(worked, finding):
            page = client.post(f"{CHECK}mend/", {"key": key, "at": "0"}, follow=True).content.decode()
            assert re.search(r"This change: [1-9]\d* mended, \d+ new(, \d+ more like it left)?[.:]", page), (
                key
            )
            client.post(f"{CHECK}undo/")
            tried += 1
    assert tried > 10
    assert plain_of(row()) == worked.build


@pytest.mark.parametrize(
    ("sent", "says"),
    [
        ({}, "The check finds nothing called"), ({"key": "nothing:F99"}, "The check finds nothing called"),
        ({"key": "screw-bottoms:F03:P10", "at": "7"}, "This finding has 1 mend to choose from."),
        ({"key": "screw-bottoms:F03:P10", "at": "-1"}, "A mend has a number from 0"),
        ({"key": "screw-bottoms:F03:P10", "at": "²"}, "A mend has a number from 0"),
        ({"key": "countersink-depth:F09:P21", "at": "0"}, "This is mended by hand"), ({"key": "\x00" * 500}, "The check finds nothing called"),
    ],
)  # fmt: skip
def test_a_mend_that_cannot_be_is_refused_in_a_sentence(
    sent: dict[str, str], says: str, client: Client, demonstration: Person
) -> None:
    page = client.post(f"{CHECK}mend/", sent, follow=True).content.decode()
    assert "Nothing was changed." in page
    assert says in page
    assert Change.objects.exclude(says__startswith="Read from").count() == 0


def test_a_mend_leads_back_to_our_own_pages_only(client: Client, demonstration: Person) -> None:
    for back in ("https://elsewhere.example/", "//elsewhere.example", "javascript:alert(1)"):
        answer = client.post(f"{CHECK}mend/", {"key": "lock:F05", "back": back})
        assert answer["Location"] == CHECK


def test_a_mend_of_what_somebody_has_changed_meanwhile_is_worked_out_for_what_there_is(
    client: Client, demonstration: Person
) -> None:
    edit, _ = mended(worked_of(row()), "lock:F05", "0")
    other = replace(find(plain_of(row()), "joint", "F05"), title="Renamed")
    changed = replace(
        plain_of(row()), joints=tuple(other if one.mark == "F05" else one for one in plain_of(row()).joints)
    )
    after = find(edit(changed), "joint", "F05")
    assert (after.title, after.lock) == ("Renamed", "low-strength threadlocker")


def test_a_viewer_reads_the_mends_and_cannot_press_them(client: Client, demonstration: Person) -> None:
    client.force_login(Person.objects.get(username="visitor"))
    page = client.get(CHECK).content.decode()
    assert 'name="key"' not in page
    assert "Use <span" in page
    assert client.post(f"{CHECK}mend/", {"key": "lock:F05"}).status_code == 403
    client.force_login(Person.objects.create(username="stranger"))
    assert client.get(CHECK).status_code == 404
    assert client.post(f"{CHECK}mend/", {"key": "lock:F05"}).status_code == 404


def test_a_build_without_joints_says_where_to_begin(client: Client, demonstration: Person) -> None:
    begin_build(demonstration.workshops.get(), demonstration, plain.Build("B9", "Nothing yet"), "Begun")
    page = client.get("/workshops/thornbank-workshop/builds/B9/").content.decode()
    assert "there is nothing to check yet" in page


def test_findings_that_share_a_name_are_counted_one_by_one() -> None:
    one, other = Finding("lock", "warning", "a", "s", "F1"), Finding("lock", "warning", "b", "s", "F1")
    build = plain.Build("B1", "Box")
    before, after = WorkedBuild(build, findings=(one, other)), WorkedBuild(build, findings=(one,))
    assert change_of_check(before, after).words == "This change: 1 mended, 0 new"
    assert change_of_check(after, before).words == "This change: 0 mended, 1 new"
    assert change_of_check(after, before).new == (one,)
    assert change_of_check(before, before).words == ""
    worse = WorkedBuild(build, findings=(one, Finding("lock", "error", "b", "s", "F1")))
    assert change_of_check(before, worse).words == "This change: 0 mended, 0 new, 1 of another severity"


def test_letting_a_finding_stand_neither_mends_nor_breaks_anything() -> None:
    one = Finding("lock", "warning", "a", "s", "F1")
    build = plain.Build("B1", "Box")
    given = plain.Acceptance("x1", "lock", "warning", "it is glued", joint="F1")
    before, after = WorkedBuild(build, findings=(one,)), WorkedBuild(build, accepted=((one, given),))
    assert change_of_check(before, after).words == ""
    assert change_of_check(after, before).words == ""


def test_more_findings_ask_the_database_no_more_often(client: Client, demonstration: Person) -> None:
    def asked() -> int:
        client.get(CHECK)
        with CaptureQueriesContext(connection) as queries:
            assert client.get(CHECK).status_code == 200
        return len(queries)

    many = asked()
    worked = worked_of(row())
    for key in ("lock:F05", "lock:F07", "lock:F08"):
        change_build(row(), demonstration, lambda build, key=key: mend(worked_of(row()), key), "mended")  # type: ignore[misc]
    assert len(worked_of(row()).findings) == len(worked.findings) - 3
    assert asked() == many


def test_a_large_build_is_paged_and_quick(client: Client, demonstration: Person) -> None:
    """500 components, 400 joints: each page is small, and is there again in well under a second."""
    begin_build(demonstration.workshops.get(), demonstration, large_build(), "Begun")
    base = "/workshops/thornbank-workshop/builds/LARGE/"
    for address in (
        "",
        "?by=part",
        "?page=2",
        "joints/",
        "joints/?sort=worst",
        "joints/F0007-1/",
        "joints/?new=F0001-1",
    ):
        client.get(base + address)
        begun = process_time()
        answer = client.get(base + address)
        took = process_time() - begun
        assert answer.status_code == 200
        assert len(answer.content) < 400_000, (address, len(answer.content))
        assert took / yardstick() < 30, (address, took)
