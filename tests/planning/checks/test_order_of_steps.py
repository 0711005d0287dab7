"""Glue in time, what cures has cured, nothing before what it goes onto."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from calculators.joints.model import Finding
from calculators.planning.edits import finding_key, mend
from calculators.planning.inspection import inspect_build
from calculators.planning.model import AssemblyStep, Build, Component, Context, StackMember
from tests.demonstration.test_demonstration_files import NUMBERS, build_of
from tests.planning.checks.small_builds import block, joint, mm, pose


def found(build: Build, rule: str) -> list[Finding]:
    return [one for one in inspect_build(build).findings if one.rule == rule]


def mended(build: Build, rule: str) -> Build:
    worked = inspect_build(build)
    [one] = [each for each in worked.findings if each.rule == rule]
    return mend(worked, finding_key(one))


def glued(open_minutes: str | None, rehearsed: str | None, **more: object) -> Build:
    step = AssemblyStep(
        1, "Glue up", glued=("P01",),
        open_minutes=Decimal(open_minutes) if open_minutes else None,
        rehearsed_minutes=Decimal(rehearsed) if rehearsed else None, **more,  # type: ignore[arg-type]
    )  # fmt: skip
    return Build("O1", "Board", components=(replace(block("P01", 400, 60, 30), quantity=4),), steps=(step,))


# A rehearsal of 8 minutes asks for 8 x 1.25 = 10 of open time.
@pytest.mark.parametrize(
    ("stays", "severity", "value", "limit"),
    [
        ("10", "", 0, 0),
        ("9.9", "warning", 9.9, 10.0),
        ("8", "warning", 8.0, 10.0),
        ("7.9", "error", 8.0, 7.9),
    ],
)
def test_glue_stays_open_a_quarter_longer_than_the_rehearsal(
    stays: str, severity: str, value: float, limit: float
) -> None:
    one = found(glued(stays, "8"), "glue-time")
    assert [(each.severity, each.value, each.limit, each.unit) for each in one] == [
        (severity, value, limit, "min")
    ] * bool(severity)


def test_the_scenarios_edge_joint_is_sound() -> None:
    """PVA, 12 minutes from first spread to last cramp, a rehearsal of 9: 9 x 1.25 = 11.25."""
    assert found(glued("12", "9"), "glue-time") == []


def test_glue_without_times_is_told_once_and_only_until_it_is_done() -> None:
    one = glued(None, None)
    two = replace(one, steps=(*one.steps, replace(one.steps[0], number=2, open_minutes=Decimal(5))))
    [seen] = found(two, "glue-time")
    assert (seen.severity, seen.at) == ("unchecked", "steps[1].open_minutes")
    assert seen.says.startswith("Steps 1, 2 glue without")
    done = tuple(replace(step, done=date(2025, 5, 1)) for step in two.steps)
    assert found(replace(two, steps=done), "glue-time") == []


def cured(
    hours: str, second: date | None, *, fits: tuple[str, ...] = ("P01",), today: date | None = None
) -> Build:
    first = AssemblyStep(
        1, "Glue", glued=("P01",), open_minutes=Decimal(20), rehearsed_minutes=Decimal(5),
        cure_hours=Decimal(hours), done=date(2025, 5, 5),
    )  # fmt: skip
    parts = (block("P01", 200, 60, 20), block("P02", 200, 60, 20))
    steps = (first, AssemblyStep(2, "Plane", fits=fits, done=second))
    return Build("O2", "Box", components=parts, steps=steps, context=Context(as_of=today))


# 72 hours after Monday: a day more or less than 3 days is 12 hours either way.
@pytest.mark.parametrize(
    ("day", "hours", "severity"),
    [
        (8, "72", ""),
        (7, "72", "error"),
        (7, "60", "warning"),
        (7, "60.5", "error"),
        (7, "48", ""),
        (5, "1", "warning"),
    ],
)
def test_what_cures_is_left_alone(day: int, hours: str, severity: str) -> None:
    one = found(cured(hours, date(2025, 5, day)), "cured-before-next")
    assert [(each.severity, each.value, each.limit) for each in one] == [
        (severity, (day - 5) * 24.0, float(hours))
    ] * bool(severity)


def test_another_part_may_go_on_meanwhile() -> None:
    assert found(cured("72", date(2025, 5, 5), fits=("P02",)), "cured-before-next") == []


def test_the_day_until_which_it_cures_is_told() -> None:
    [one] = found(cured("72", None, today=date(2025, 5, 6)), "cured-before-next")
    assert one.severity == "note"
    assert one.says == "Step 1 of 2025-05-05 cures for 72 hours: leave step 2 until 2025-05-08."
    assert found(cured("72", None, today=date(2025, 5, 8)), "cured-before-next") == []
    assert found(cured("72", None), "cured-before-next") == []


def test_a_cure_without_end_stops_nothing() -> None:
    [one] = found(cured("999999999", None, today=date(2025, 5, 6)), "cured-before-next")
    assert one.says.endswith("leave step 2 until 9999-12-31.")


def stand(*fits: tuple[str, ...]) -> Build:
    screw = joint(
        "F01", "No. 10 x 2 csk slotted steel wood screw", "P01", "bottom", [(90, 90)],
        StackMember(part="P01", thickness=mm(25)), StackMember(part="P02", thickness=mm(60)),
    )  # fmt: skip
    parts = (block("P01", 180, 180, 25), block("P02", 180, 60, 60))
    steps = tuple(AssemblyStep(number, "Step", fits=each) for number, each in enumerate(fits, 1))
    return Build("O3", "Stand", components=parts, joints=(screw,), steps=steps)


@pytest.mark.parametrize(
    ("fits", "is_found"),
    [
        ((("P01",), ("P02", "F01")), False),
        ((("P01", "P02"), ("F01",)), False),
        ((("P01", "F01"), ("P02",)), True),
        ((("P01", "F01"),), False),  # P02 is fitted never, which another rule tells
    ],
)
def test_a_joint_after_its_parts(fits: tuple[tuple[str, ...], ...], is_found: bool) -> None:
    one = found(stand(*fits), "fitted-before-its-base")
    assert [(each.joint, each.part, each.value, each.limit) for each in one] == [
        ("F01", "P02", 1.0, 2.0)
    ] * is_found
    if is_found:
        after = mended(stand(*fits), "fitted-before-its-base")
        assert [step.fits for step in after.steps] == [("P01",), ("P02", "F01")]
        assert found(after, "fitted-before-its-base") == []


def test_a_part_comes_on_with_its_sub_assembly() -> None:
    build = stand(("P01",), ("G1", "F01"))
    parts = (Component("G1", "Stem"), build.components[0], replace(build.components[1], parent="G1"))
    assert found(replace(build, components=parts), "fitted-before-its-base") == []


def shelf(*fits: tuple[str, ...]) -> Build:
    """A back, a shelf on it, a bowl on the shelf."""
    parts = (
        block("P01", 400, 200, 20, pose()),
        block("P02", 300, 120, 20, pose("P01", 50, 50)),
        block("P03", 60, 60, 20, pose("P02", 20, 20)),
    )
    steps = tuple(AssemblyStep(number, "Step", fits=each) for number, each in enumerate(fits, 1))
    return Build("O4", "Shelf", components=parts, steps=steps)


def test_a_part_that_hangs_in_the_air() -> None:
    [one] = found(shelf(("P01",), ("P03",), ("P02",)), "fitted-before-its-base")
    assert (one.severity, one.part, one.value, one.limit) == ("warning", "P03", 2.0, 3.0)
    after = mended(shelf(("P01",), ("P03",), ("P02",)), "fitted-before-its-base")
    assert [step.fits for step in after.steps] == [("P01",), (), ("P02", "P03")]
    assert found(after, "fitted-before-its-base") == []


@pytest.mark.parametrize(
    "fits",
    [
        (("P01",), ("P02",), ("P03",)),
        (("P03",), ("P02",), ("P01",)),  # begun from the other end: the frame of a stool before its seat
        (("P02",), ("P03",), ("P01",)),
        (("P01", "P03", "P02"),),
    ],
)
def test_orders_that_hold(fits: tuple[tuple[str, ...], ...]) -> None:
    assert found(shelf(*fits), "fitted-before-its-base") == []


def test_a_part_of_another_sub_assembly_is_begun_by_itself() -> None:
    build = shelf(("P01",), ("P03",), ("P02",))
    parts = (Component("G1", "Bowl"), *build.components[:2], replace(build.components[2], parent="G1"))
    assert found(replace(build, components=parts), "fitted-before-its-base") == []


@pytest.mark.parametrize("number", NUMBERS)
def test_the_demonstrations_steps_are_in_order(number: str) -> None:
    for rule in ("glue-time", "cured-before-next", "fitted-before-its-base"):
        assert [one for one in found(build_of(number), rule) if one.severity != "unchecked"] == []
