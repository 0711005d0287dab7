"""The words beside a finding: its place is said once, bare numbers have no unit, a mend says where it was done."""

from __future__ import annotations

from dataclasses import replace
from importlib import resources

import pytest

from buildlog.builds.mending import mended
from buildlog.builds.saying import ChangeOfCheck, change_of_check, told_of
from buildlog.builds.showing import measure_of, show_findings
from calculators.joints.model import Finding
from calculators.planning.edits import finding_key
from calculators.planning.files import read_build
from calculators.planning.inspection import inspect_build
from calculators.planning.worked import WorkedBuild


@pytest.fixture(scope="module")
def worked() -> WorkedBuild:
    text = resources.files("buildlog.builds").joinpath("demonstration", "TW-31.json").read_text("utf-8")
    return inspect_build(read_build(text))


def test_a_count_has_no_unit() -> None:
    found = Finding("enough-hardware", "warning", "", "", value=3.0, limit=0.0, unit="1")
    assert measure_of(found) == "3, limit 0"
    assert measure_of(replace(found, unit="mm")) == "3, limit 0 mm"


@pytest.mark.parametrize(
    ("finding", "where"),
    [
        (Finding("tools-owned", "warning", "", "", place="drill 8.2 mm"), "drill 8.2 mm"),
        (Finding("end-distance", "error", "", "", "F01", "P02", "1"), "F01 in P02 at 1"),
        (Finding("hole-pattern", "unchecked", "", ""), ""),
    ],
)
def test_a_place_alone_is_said_bare(finding: Finding, where: str) -> None:
    assert finding.where == where


def test_a_place_that_is_said_is_not_said_again_by_its_link(worked: WorkedBuild) -> None:
    (shown,) = show_findings(worked, [one for one in worked.findings if one.rule == "edge-of-metal"][:1])
    assert shown.field_words == f"place {shown.finding.place}"
    assert shown.at_words == "its place"


@pytest.mark.parametrize(
    ("rule", "part", "says"),
    [
        ("not-in-hand", "P07", "P07 has come: say that it is in hand"),
        ("recess-corner", "P01", "Square the corners of pocket R in P01 by chisel"),
    ],
)
def test_the_log_says_once_where_a_mend_was_done(
    worked: WorkedBuild, rule: str, part: str, says: str
) -> None:
    (found,) = [one for one in worked.findings if one.rule == rule and one.part == part]
    assert mended(worked, finding_key(found), "0")[1] == says


def test_what_a_mended_finding_told_as_more_is_not_new(worked: WorkedBuild) -> None:
    """Screws 1 and 3 of F09 stand too near, and so do 2 and 4: one move leaves the other pair."""
    (found,) = [one for one in worked.findings if one.rule == "spacing-in-wood"]
    assert "1 more pair" in found.says
    edit, _ = mended(worked, finding_key(found), "0")
    change = change_of_check(worked, inspect_build(edit(worked.build)))
    assert change.words == "This change: 1 mended, 0 new, 1 more like it left"


def test_a_new_finding_of_the_whole_build_is_named_by_its_rule() -> None:
    change = ChangeOfCheck(0, (Finding("enough-hardware", "warning", "", ""),), 0)
    assert ">enough hardware</a>." in told_of("/builds/B1/", change)
