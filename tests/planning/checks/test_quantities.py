"""What is listed, counted and fitted agrees."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calculators.joints.model import Finding
from calculators.planning.edits import finding_key, mend
from calculators.planning.inspection import inspect_build
from calculators.planning.model import AssemblyStep, Build, Component, StackMember
from tests.demonstration.test_demonstration_files import NUMBERS, build_of
from tests.planning.checks.small_builds import block, joint, mm


def found(build: Build, rule: str) -> list[Finding]:
    return [one for one in inspect_build(build).findings if one.rule == rule]


def mended(build: Build, rule: str) -> Build:
    worked = inspect_build(build)
    [one] = [each for each in worked.findings if each.rule == rule]
    return mend(worked, finding_key(one))


def counted(count: int | None, reason: str = "") -> Build:
    """Two places on each of three copies: six screws."""
    screws = joint(
        "F01", "No. 8 x 1 1/4 csk slotted steel wood screw", "P01", "top", [(30, 30), (90, 30)],
        StackMember(part="P01", thickness=mm(18)), StackMember(part="P02", thickness=mm(40)),
        count=count, count_reason=reason,
    )  # fmt: skip
    parts = (replace(block("P01", 120, 60, 18), quantity=3), block("P02", 400, 60, 40))
    return Build("Q1", "Cleats", components=parts, joints=(screws,))


@pytest.mark.parametrize(
    ("count", "reason", "is_found"),
    [(None, "", False), (6, "", False), (5, "", True), (7, "", True), (12, "two at each place", False)],
)
def test_a_count_typed_over(count: int | None, reason: str, is_found: bool) -> None:
    one = found(counted(count, reason), "counts-agree")
    assert [(each.severity, each.joint, each.value, each.limit, each.at) for each in one] == [
        ("warning", "F01", float(count or 0), 6.0, "joints[F01].count")
    ] * is_found


def test_the_mend_leaves_the_count_to_the_places() -> None:
    after = mended(counted(5), "counts-agree")
    assert after.joints[0].count is None
    assert found(after, "counts-agree") == []


def test_an_unplaced_joint_has_no_places_to_disagree_with() -> None:
    build = counted(9)
    assert found(replace(build, joints=(replace(build.joints[0], places=()),)), "counts-agree") == []


def legs(*fits: tuple[str, ...]) -> Build:
    parts = (block("P01", 300, 300, 20), replace(block("P02", 400, 30, 30), quantity=4))
    steps = tuple(AssemblyStep(number, "Step", fits=each) for number, each in enumerate(fits, 1))
    return Build("Q2", "Stool", components=parts, steps=steps)


@pytest.mark.parametrize(
    ("fits", "left"),
    [
        ((("P01",), ("P02",)), ""),
        ((("P01",), ("P02.1", "P02.2"), ("P02.3", "P02.4")), ""),
        ((("P01",), ("P02.1", "P02.2"), ("P02.4",)), "P02.3 is fitted in none."),
        ((("P01",), ("P02.1",)), "P02.2, P02.3 and P02.4 are fitted in none."),
        ((("P01", "P02"), ("P02.1",)), ""),
    ],
)
def test_copies_that_the_steps_leave_out(fits: tuple[tuple[str, ...], ...], left: str) -> None:
    one = found(legs(*fits), "counts-agree")
    assert [each.says.partition("; ")[2] for each in one] == [left] * bool(left)
    if left:
        assert (one[0].severity, one[0].part, one[0].limit) == ("warning", "P02", 4.0)
        assert found(mended(legs(*fits), "counts-agree"), "counts-agree") == []


def test_steps_that_fit_nothing_are_not_asked_for_parts() -> None:
    assert found(legs(), "never-fitted") == []
    assert found(legs(()), "never-fitted") == []


def test_a_part_that_no_step_fits() -> None:
    [one] = found(legs(("P02",)), "never-fitted")
    assert (one.severity, one.part, one.at) == ("warning", "P01", "steps")
    assert one.says == "No step fits P01 (Part P01): it is made and then left over."


def test_a_part_goes_on_with_its_sub_assembly() -> None:
    parts = (
        Component("G1", "Frame"),
        Component("G2", "Door", parent="G1"),
        replace(block("P01", 300, 30, 20), parent="G2"),
        replace(block("P02", 300, 30, 20), parent="G1"),
    )
    build = Build("Q3", "Case", components=parts, steps=(AssemblyStep(1, "All", fits=("G1",)),))
    assert found(build, "never-fitted") == []
    in_part = replace(build, steps=(AssemblyStep(1, "Rail", fits=("P02",)),))
    assert [one.part for one in found(in_part, "never-fitted")] == ["P01"]
    door = replace(build, steps=(AssemblyStep(1, "Door", fits=("G2",)),))
    assert [one.part for one in found(door, "never-fitted")] == ["P02"]


def test_a_joint_that_no_step_makes_goes_where_its_parts_are_there() -> None:
    build = replace(
        counted(None),
        steps=(AssemblyStep(1, "Rail", fits=("P02",)), AssemblyStep(2, "Cleats", fits=("P01",)), AssemblyStep(3, "Wax")),
    )  # fmt: skip
    [one] = found(build, "never-fitted")
    assert (one.joint, one.at) == ("F01", "steps[2].fits")
    after = mended(build, "never-fitted")
    assert after.steps[1].fits == ("P01", "F01")
    assert found(after, "never-fitted") == []
    assert found(after, "fitted-before-its-base") == []


def test_many_are_told_in_one_finding() -> None:
    parts = tuple(block(f"P{n:02}", 100, 20, 10) for n in range(1, 8))
    build = Build("Q4", "Many", components=parts, steps=(AssemblyStep(1, "One", fits=("P01",)),))
    [one] = found(build, "never-fitted")
    assert (one.value, one.limit) == (6.0, 0.0)


@pytest.mark.parametrize("number", NUMBERS)
def test_the_demonstration_fits_all_that_it_has(number: str) -> None:
    build = build_of(number)
    assert found(build, "counts-agree") == []
    assert found(build, "never-fitted") == []
