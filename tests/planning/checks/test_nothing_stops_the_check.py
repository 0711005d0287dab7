"""Whatever is in a build: the check gives sentences, no rule fails on it, and a rule that fails stops no other."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import HealthCheck, given, settings

from calculators.joints import rules as joint_rules
from calculators.joints.rules.rule import Rule
from calculators.joints.work import work_joint
from calculators.joints.worked import Worked
from calculators.planning.checks import RULES, running
from calculators.planning.checks.rule import BuildRule, Seen
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Bend, Build, Component, Context, Hole, Motion, Place, Pocket
from calculators.quantities.length import Length
from tests.benchmarks.large import large_build
from tests.benchmarks.yardstick import yardsticks
from tests.demonstration.test_demonstration_files import NUMBERS, build_of
from tests.planning.checks.interacting import interacting
from tests.planning.checks.small_builds import GROUND, block, joint, mm, pose, turned
from tests.planning.checks.small_builds import build as build_with
from tests.planning.checks.well_formed import ill_formed
from tests.planning.strategies import builds

ANYTHING = settings(deadline=None, suppress_health_check=list(HealthCheck))


def nothing_wrong(build: Build) -> None:
    """The check is given, each finding is well formed, and no rule has failed."""
    worked = inspect_build(build)
    findings = (*worked.findings, *(finding for finding, _ in worked.accepted))
    assert [one.says for one in findings if one.rule == "rule-failed"] == []
    assert [(one.rule, fault) for one in findings for fault in ill_formed(build, one)] == []


@ANYTHING
@given(builds())
def test_any_build_at_all(build: Build) -> None:
    nothing_wrong(build)


@settings(ANYTHING, max_examples=25)
@given(interacting())
def test_builds_whose_parts_meet(build: Build) -> None:
    nothing_wrong(build)


@pytest.mark.parametrize("number", NUMBERS)
def test_the_demonstration(number: str) -> None:
    nothing_wrong(build_of(number))


def test_the_large_build() -> None:
    nothing_wrong(large_build(0.1))


@pytest.fixture
def broken(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """One rule of the check made to fail, by its scope."""

    def fails(_site: object) -> Iterator[Seen]:
        yield Seen("note", "Half way.")
        raise ZeroDivisionError("float division by zero")

    lists = {"part": "_PART_RULES", "joint": "_JOINT_RULES", "build": "_BUILD_RULES"}
    bad = BuildRule("made-to-fail", "records", "It fails.", "this test", request.param, fails)
    kept = getattr(running, lists[request.param])
    monkeypatch.setattr(running, lists[request.param], (kept[0], bad, *kept[1:]) if kept else (bad,))
    return request.param


@pytest.mark.parametrize("broken", ["part", "joint", "build"], indirect=True)
def test_a_rule_that_fails_says_so_and_the_rest_is_given(broken: str) -> None:
    build = build_of("TW-31")
    found = inspect_build(build).findings
    failed = [one for one in found if one.rule == "rule-failed"]
    many = {"part": len(build.components), "joint": len(build.joints), "build": 1}[broken]
    assert len(failed) == many
    assert {(one.severity, one.place) for one in failed} == {("unchecked", "made-to-fail")}
    assert failed[0].says == (
        "The rule made-to-fail failed here (ZeroDivisionError: float division by zero): what it looks for was not "
        "looked at. This is a fault of the check, not of the build."
    )
    assert {one.mark for one in build.components} >= {one.part for one in failed if one.part}
    running_again = [one for one in found if one.rule != "rule-failed"]
    assert sum(one.severity == "error" for one in running_again) >= 5
    assert ("error", "screw-bottoms", "F03") in {(one.severity, one.rule, one.joint) for one in running_again}


def test_a_rule_of_the_joint_that_fails_says_so_too(monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(_worked: Worked) -> Iterator[joint_rules.Seen]:
        raise KeyError("no such thing")
        yield

    monkeypatch.setattr(
        joint_rules, "RULES", (Rule("made-to-fail", "It fails.", "test", fails), *joint_rules.RULES)
    )
    work_joint.cache_clear()
    try:
        build = replace(large_build(0.02), title="of its own")
        found = inspect_build(build).findings
    finally:
        work_joint.cache_clear()
    assert {one.joint for one in found if one.rule == "rule-failed"} == {one.mark for one in build.joints}
    assert any(one.rule not in ("rule-failed",) for one in found)


def test_every_rule_that_fails_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(_site: object) -> Iterator[Seen]:
        raise RuntimeError
        yield

    for name, scope in (("_PART_RULES", "part"), ("_JOINT_RULES", "joint"), ("_BUILD_RULES", "build")):
        rules = tuple(replace(rule, look=fails) for rule in RULES if rule.scope == scope)
        monkeypatch.setattr(running, name, rules)
    found = inspect_build(build_of("TW-33")).findings
    assert {one.place for one in found if one.rule == "rule-failed"} >= {
        rule.name for rule in RULES if rule.scope in ("part", "build")
    }


def holes_at_one_spot() -> Build:
    holes = tuple(Hole(f"h{i}", "top", mm(50), mm(25), diameter=mm(5)) for i in range(10_000))
    return build_with(block("P01", 100, 50, 20, *GROUND, holes=holes))


def everything_in_one_place() -> Build:
    parts = [block(f"P{i:02d}", 100, 50, 20, *GROUND) for i in range(1, 61)]
    joints = [
        joint(f"F{i}", "M6 x 30 hex set screw steel", "P01", "top", [(50, 25)], "P01") for i in range(40)
    ]
    return build_with(*parts, *joints)


def very_large_and_very_small() -> Build:
    base = block(
        "P01", 1e5, 1e5, 0.0001, *GROUND, holes=(Hole("h", "top", mm(5e4), mm(5e4), diameter=mm(0.0001)),)
    )
    tall = block("P02", 0.0001, 0.0001, 1e5, pose("P01", 5e4, 5e4))
    wire = turned("P03", 1e5, 0.0001, pose("P01", 0, 0, face="top", own_face="side"), bore=0.00005)
    screw = joint("F01", "M5 x 20 csk slotted brass", "P02", "top", [(0.00005, 0.00005)], "P02", "P01")
    moving = replace(tall, motion=Motion("turns", "Z", Decimal(-360), Decimal(360)))
    return build_with(base, moving, wire, screw)


def five_thousand_joints() -> Build:
    base = block("P01", 1000, 1000, 20, *GROUND)
    top = block("P02", 1000, 1000, 10, pose("P01"))
    joints = [
        joint(
            f"F{i}",
            "M4 x 20 pan slotted brass",
            "P02",
            "top",
            [(7 + 14 * (i % 70), 7 + 13 * (i // 70))],
            "P02",
            "P01",
        )
        for i in range(5_000)
    ]
    return build_with(base, top, *joints)


def pockets_larger_than_the_part() -> Build:
    pockets = tuple(
        Pocket(f"k{i}", face, mm(-500), mm(-500), mm(5_000), mm(5_000), depth=mm(200), cutter=mm(12))
        for i, face in enumerate(("top", "bottom", "front", "left"))
    )
    gone = block("P01", 100, 50, 20, *GROUND, pockets=pockets, holes=(Hole("h", "top", mm(50), mm(25)),))
    lies = block("P02", 100, 50, 20, pose("P01"))
    return build_with(
        gone, lies, joint("F01", "M6 x 20 hex steel", "P02", "top", [(5, 5), (50, 25)], "P02", "P01")
    )


def a_hundred_deep() -> Build:
    parts = [block("P000", 100, 50, 2, *GROUND)]
    parts += [block(f"P{i:03d}", 100, 50, 2, pose(f"P{i - 1:03d}", 1, 1)) for i in range(1, 100)]
    inside = [replace(part, parent=f"P{i - 1:03d}" if i else "") for i, part in enumerate(parts)]
    return build_with(*inside, joint("F01", "M6 x 200 hex bolt steel", "P099", "top", [(50, 25)]))


def bent_and_drilled_everywhere() -> Build:
    bends = tuple(Bend(f"b{i}", mm(i + 1), radius=mm(0)) for i in range(98))
    holes = tuple(
        Hole(f"h{i}", "top", mm(i), mm(i / 2), diameter=mm(3), slot_length=mm(80)) for i in range(100)
    )
    return build_with(
        block("P01", 100, 50, 1, *GROUND, bends=bends, holes=holes, material="brass", stock="sheet")
    )


def nothing_but_names() -> Build:
    parts = tuple(Component(f"P{i}", "") for i in range(300))
    return Build("B1", "Names", components=parts, context=Context(limits=(("no such limit", Decimal(-1)),)))


ODD = {
    make.__name__: make
    for make in (
        holes_at_one_spot, everything_in_one_place, very_large_and_very_small, five_thousand_joints,
        pockets_larger_than_the_part, a_hundred_deep, bent_and_drilled_everywhere, nothing_but_names,
    )
}  # fmt: skip
MOST_YARDSTICKS = 600
"""About half a minute on a machine of today: nothing that a person can send keeps it busy for ever."""


@pytest.mark.parametrize("name", ODD)
def test_odd_builds(name: str) -> None:
    build = ODD[name]()
    assert yardsticks(lambda: nothing_wrong(build)) < MOST_YARDSTICKS


@pytest.mark.parametrize("seed", range(12))
def test_a_build_whose_numbers_are_taken_at_random(seed: int) -> None:
    """The demonstration with every twentieth length replaced by an extreme one; whatever still is a build is checked."""
    dice = random.Random(seed)
    extremes = [
        Length(1),
        Length.of_mm("0.0001"),
        Length.of_mm("100000"),
        Length.of_mm("-100000"),
        Length.of_mm("3"),
    ]
    build = build_of(NUMBERS[seed % 3])

    def shaken(value: object) -> object:
        return dice.choice(extremes) if isinstance(value, Length) and dice.random() < 0.05 else value

    components = []
    for one in build.components:
        sizes = {name: shaken(getattr(one.size, name)) for name in ("length", "width", "thickness")}
        positive = {name: value for name, value in sizes.items() if value is None or value.ticks > 0}  # type: ignore[attr-defined]
        poses = tuple(replace(each, u=shaken(each.u), let_in=shaken(each.let_in)) for each in one.poses)  # type: ignore[arg-type]
        components.append(replace(one, size=replace(one.size, **positive), poses=poses))
    joints = tuple(
        replace(one, places=tuple(Place(p.id, shaken(p.u), p.v, p.angle_deg) for p in one.places))  # type: ignore[arg-type]
        for one in build.joints
    )
    nothing_wrong(replace(build, components=tuple(components), joints=joints))
