"""Planted builds: small believable things, each with one mistake, and its twin mended as a person would.

`planted/` holds trios: `NAME.build.json`, its twin `NAME.mended.json`, and `NAME.expected.json`, which says what
must be found where, with the arithmetic by hand in `checked` and where the rule comes from in `source`. NAME is
the rule's name, or the rule's name and a word.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from calculators.joints.model import Finding
from calculators.joints.rules import RULES as JOINT_RULES
from calculators.planning.checks import RULES
from calculators.planning.files import read_build
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Build
from tests.arithmetic import TOLERANCE, worked_by_hand

PLANTED = Path(__file__).parent / "planted"
KINDS = ("build", "mended", "expected")
NAMES = sorted({path.name.split(".")[0] for path in PLANTED.iterdir()})
MOST_DIFFERENCES = 8
"""A person who mends one mistake changes few fields."""

OUTSIDE = (
    "near-match-threads", "wood-movement", "fitted-after-closed", "calculation-beyond-limit",
    "calculation-to-look-at", "calculation-not-worked", "axis-misses-part", "place-off-part", "part-in-the-way",
    "typed-thickness", "parts-overlap", "pose", "cannot-be-worked-out",
)  # fmt: skip
"""The rules that stand neither among those of the joint nor in the list of the whole-build check."""

WITHOUT = {
    "acceptance-lapsed": "no mistake in the build but in what was accepted; tests/planning/checks/test_frame.py",
    "rule-switched-off": "no mistake either; the same",
    "rule-failed": "a fault of the check, not of a build; tests/planning/checks/test_nothing_stops_the_check.py",
}
"""Rules that need no planted build, and why; what waits for data is left out by itself."""


def text_of(name: str, kind: str) -> str:
    return (PLANTED / f"{name}.{kind}.json").read_text(encoding="utf-8")


@cache
def expected(name: str) -> dict[str, Any]:
    row: dict[str, Any] = json.loads(text_of(name, "expected"))
    return row


@cache
def build_of(name: str, kind: str) -> Build:
    return read_build(text_of(name, kind))


@cache
def findings(name: str, kind: str) -> tuple[Finding, ...]:
    return inspect_build(build_of(name, kind)).findings


def leaves(value: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    """Every field of a build file by its path; records by their own key, so that one more moves nothing."""
    if isinstance(value, dict):
        if "written" in value:
            yield path, value["written"]
            return
        for name, inner in value.items():
            yield from leaves(inner, f"{path}.{name}")
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            keys = ("mark", "id", "number", "part")
            own = next((inner[key] for key in keys if isinstance(inner, dict) and key in inner), index)
            yield from leaves(inner, f"{path}[{own}]")
    else:
        yield path, value


def differences(name: str) -> set[str]:
    """The fields in which the twin differs, those of one record that is there or not counted as one."""
    one, other = (dict(leaves(json.loads(text_of(name, kind)))) for kind in ("build", "mended"))
    differing = {path for path in one.keys() | other.keys() if one.get(path) != other.get(path)}
    return {
        path[: path.rfind("]") + 1] if path not in one or path not in other else path for path in differing
    }


def rule_names() -> list[str]:
    found = [rule.name for rule in (*JOINT_RULES, *RULES) if not getattr(rule, "waits_for", "")]
    return sorted({*found, *OUTSIDE} - WITHOUT.keys())


def test_there_are_at_least_sixty() -> None:
    assert len(NAMES) >= 60


@pytest.mark.parametrize("name", NAMES)
def test_the_trio_is_whole(name: str) -> None:
    assert {kind: (PLANTED / f"{name}.{kind}.json").is_file() for kind in KINDS} == dict.fromkeys(KINDS, True)
    row = expected(name)
    assert set(row) == {
        "rule", "severity", "joint", "part", "place", "value", "limit", "unit", "checked", "source",
    }  # fmt: skip
    assert name == row["rule"] or name.startswith(f"{row['rule']}-")
    assert len(row["source"]) > 5


@pytest.mark.parametrize("rule", rule_names())
def test_every_rule_has_a_planted_build(rule: str) -> None:
    assert any(expected(name)["rule"] == rule for name in NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_the_plant_is_found_once_at_its_place(name: str) -> None:
    row = expected(name)
    found = [each for each in findings(name, "build") if each.rule == row["rule"]]
    assert [(each.severity, each.joint, each.part, each.place, each.unit) for each in found] == [
        (row["severity"], row["joint"], row["part"], row["place"], row["unit"])
    ]
    for what in ("value", "limit"):
        number, wanted = getattr(found[0], what), row[what]
        assert number == (wanted if wanted is None else pytest.approx(wanted, abs=TOLERANCE)), what


@pytest.mark.parametrize("name", NAMES)
def test_it_was_worked_by_hand(name: str) -> None:
    row = expected(name)
    assert len(row["checked"]) > 5
    results = worked_by_hand(row["checked"])
    if row["value"] is not None:
        assert any(row["value"] == pytest.approx(each, abs=TOLERANCE) for each in results), row["checked"]


@pytest.mark.parametrize("name", NAMES)
def test_the_twin_is_sound(name: str) -> None:
    rule = expected(name)["rule"]
    assert [each for each in findings(name, "mended") if each.rule == rule or each.severity == "error"] == []


@pytest.mark.parametrize("name", NAMES)
def test_the_twin_differs_in_little(name: str) -> None:
    assert 1 <= len(differences(name)) <= MOST_DIFFERENCES


@pytest.mark.parametrize("name", NAMES)
def test_the_plant_is_the_only_error(name: str) -> None:
    """One mistake: whatever else is wrong with such a build is no error, or follows at the same place."""
    row = expected(name)
    others = [
        each for each in findings(name, "build") if each.severity == "error" and each.rule != row["rule"]
    ]
    assert [(each.rule, each.where, each.says) for each in others] == []
