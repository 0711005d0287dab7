"""The findings of the demonstration builds, whole, against lists that were worked by hand.

`TW-NN.findings.json` lists every finding of every rule that exists: its rule, severity, place and numbers, and
`checked`: the line of arithmetic by which the value was verified. The sets are compared both ways. The six
mistakes of TW-31 are errors; 1, 3 and 4 are found by the rules of joints, 5 (swing of the pivot) and 6 (slack of
the springs) by calculations that are kept with the build; 2 (corner of the recess) by rules that look at pockets.
"""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from calculators.joints.model import Finding
from calculators.planning.inspection import inspect_build
from tests.arithmetic import TOLERANCE, worked_by_hand
from tests.demonstration.test_demonstration_files import NUMBERS, build_of

HERE = Path(__file__).parent

Key = tuple[str, str, str, str, str]


def expected(number: str) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = json.loads((HERE / f"{number}.findings.json").read_text(encoding="utf-8"))
    return rows


def key_of_row(row: dict[str, Any]) -> Key:
    return (row["severity"], row["rule"], row["joint"], row["part"], row["place"])


def key_of(finding: Finding) -> Key:
    return (finding.severity, finding.rule, finding.joint, finding.part, finding.place)


@pytest.mark.parametrize("number", NUMBERS)
def test_nothing_is_missing_and_nothing_more_is_found(number: str) -> None:
    found = Counter(key_of(finding) for finding in inspect_build(build_of(number)).findings)
    wanted = Counter(key_of_row(row) for row in expected(number))
    assert {"missing": wanted - found, "more": found - wanted} == {"missing": Counter(), "more": Counter()}


@pytest.mark.parametrize(
    ("number", "row"),
    [
        pytest.param(number, row, id=f"{number} {row['rule']} {row['joint']} {row['part']}")
        for number in NUMBERS
        for row in expected(number)
    ],
)
def test_value(number: str, row: dict[str, Any]) -> None:
    found = [each for each in inspect_build(build_of(number)).findings if key_of(each) == key_of_row(row)]
    assert len(found) == 1
    finding = found[0]
    assert finding.unit == row["unit"]
    for name in ("value", "limit"):
        value, wanted = getattr(finding, name), row[name]
        if wanted is None:
            assert value is None
        else:
            assert value == pytest.approx(wanted, abs=TOLERANCE)


@pytest.mark.parametrize("number", NUMBERS)
def test_each_line_says_how_it_was_verified_and_is_right(number: str) -> None:
    rows = expected(number)
    assert max(Counter(key_of_row(row) for row in rows).values()) == 1
    for row in rows:
        assert len(row["checked"]) > 5
        results = worked_by_hand(row["checked"])
        if row["value"] is not None:
            assert any(row["value"] == pytest.approx(each, abs=TOLERANCE) for each in results), row["checked"]


@pytest.mark.parametrize(("mark", "mistake"), [("K01", "mistake 5"), ("K02", "mistake 6")])
def test_the_mistakes_that_kept_calculations_show_are_errors(mark: str, mistake: str) -> None:
    build = build_of("TW-31")
    (kept,) = (one for one in build.calculations if one.mark == mark)
    assert mistake in kept.note
    found = [one for one in inspect_build(build).findings if one.part == mark]
    assert [(one.severity, one.rule) for one in found] == [("error", "calculation-beyond-limit")]


@pytest.mark.parametrize(
    ("mark", "inputs"),
    [
        ("K01", {"gap_low": "15.0 mm", "gap_high": "15.0 mm"}),  # 3.90 degrees, 1.10 left
        ("K01", {"v_angle": "90 deg"}),  # the V 15 degrees each way, 8.9 left
        ("K02", {"working_length": "42.7 mm"}),  # 19.2 mm of stretch, the limit itself
    ],
)
def test_the_mends_of_the_scenario_keep_to_the_limits(mark: str, inputs: dict[str, str]) -> None:
    build = build_of("TW-31")
    kept = tuple(
        replace(one, inputs=tuple({**dict(one.inputs), **inputs}.items())) if one.mark == mark else one
        for one in build.calculations
    )
    assert [
        one for one in inspect_build(replace(build, calculations=kept)).findings if one.part == mark
    ] == []


@pytest.mark.parametrize(
    ("joint", "rule"), [("F01", "wood-movement"), ("F03", "screw-bottoms"), ("F20", "thread-match")]
)
def test_the_mistakes_that_joints_show_are_errors(joint: str, rule: str) -> None:
    assert any(
        (row["severity"], row["joint"], row["rule"]) == ("error", joint, rule) for row in expected("TW-31")
    )
