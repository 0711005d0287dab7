"""Parts that turn about a joint and are clamped by it; parts that a screw cannot draw together.

Common practice: a bush is longer than what turns on it; of the parts that a screw draws together one has the
thread.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from calculators.planning.inspection import inspect_build
from calculators.planning.model import Component, Joint, Motion, StackMember
from tests.planning.checks.small_builds import (
    GROUND,
    block,
    build,
    found,
    hole,
    inspected,
    joint,
    mm,
    pose,
    turned,
)

CLAMPED, LOOSE = "turning-part-clamped", "loose-in-the-stack"


def turns(*carries: str) -> Motion:
    return Motion("turns", "Z", Decimal(-20), Decimal(20), mm(30), mm(10), carries=carries)


def frame() -> Component:
    return block("P01", 80, 40, 20, *GROUND, material="brass")


def lever(bore: float | None = 8.02, **more: Any) -> Component:
    holes = (hole("h1", "top", 30, 10, bore, kind="reamed"),) if bore else ()
    return block("P03", 60, 20, 8, pose("P01", 10, 10), material="brass", holes=holes, motion=turns(), **more)


def on_bush(long: float) -> tuple[Component | Joint, ...]:
    bush = turned("P02", long, 8, pose("P01", 40, 20, own_face="left", point="centre"))
    screw = joint("F1", "M5 x 20 hex set screw", "P02", "right", [(0, 0)], "M5 washer", "P02", "P01")
    return frame(), lever(), bush, screw


def bare(**more: Any) -> tuple[Component | Joint, ...]:
    screw = joint("F1", "M5 x 20 hex set screw", "P03", "top", [(30, 10)], "M5 washer", "P03", "P01", **more)
    return frame(), lever(None), screw


@pytest.mark.parametrize(("long", "clamped"), [(8.2, 0), (8.02, 0), (8.0, 1), (7.9, 1)])
def test_a_lever_turns_on_a_bush_that_is_longer_than_it(long: float, clamped: int) -> None:
    assert len(found(CLAMPED, *on_bush(long))) == clamped


def test_the_lever_is_known_to_lie_around_the_bush_and_clashes_with_nothing() -> None:
    worked = inspected(*on_bush(8.2))
    (one,) = worked.joints[0].riders
    assert (one.part, one.bore_mm, one.on_mm) == ("P03", 8.02, 8.0)
    # from the head: a washer of 1.0, then the bush from 1.0 to 9.2; the lever stands on the frame
    assert (one.enter_mm, one.leave_mm) == (pytest.approx(1.2), pytest.approx(9.2))
    told = {finding.rule for finding in worked.findings}
    assert told.isdisjoint({"parts-overlap", "part-in-the-way", "axis-misses-part"})


def test_a_lever_named_in_the_stack_that_lies_around_the_bush_is_not_missed() -> None:
    base, part, bush, screw = on_bush(8.2)
    assert isinstance(screw, Joint)
    named = replace(screw, stack=(*screw.stack[:2], StackMember(part="P03"), *screw.stack[2:]))
    worked = inspected(base, part, bush, named)
    assert [one.part for one in worked.joints[0].riders] == ["P03"]
    assert "axis-misses-part" not in {finding.rule for finding in worked.findings}


def test_a_wide_hole_about_a_bush_is_no_bearing_on_it() -> None:
    base, _, bush, screw = on_bush(8.2)
    assert inspected(base, lever(9.2), bush, screw).joints[0].riders == ()


def test_a_lever_under_a_head_that_is_screwed_home_is_clamped() -> None:
    (finding,) = found(CLAMPED, *bare())
    assert finding.says == (
        "P03 Part P03 turns about F1, which clamps it against P01: it cannot turn. Let it turn on a bush that is "
        "0.1 to 0.3 mm longer, or under a shoulder, or let the screw stand off and lock it."
    )
    assert (finding.severity, finding.joint, finding.part, finding.place) == ("error", "F1", "P03", "1")


def test_a_head_that_stands_off_lets_it_turn() -> None:
    assert found(CLAMPED, *bare(clamps=False, stands=mm(1.2))) == []


def test_what_is_clamped_turns_with_what_it_is_clamped_to() -> None:
    base, part, screw = bare()
    assert isinstance(part, Component)
    assert found(CLAMPED, base, replace(part, motion=turns("P01")), screw) == []


def test_a_joint_beside_the_axis_of_the_motion_is_not_its_pivot() -> None:
    screw = joint("F1", "M5 x 20 hex set screw", "P03", "top", [(35, 10)], "M5 washer", "P03", "P01")
    assert found(CLAMPED, frame(), lever(None), screw) == []


def tapped(*takes: str, **more: Any) -> tuple[Component | Joint, ...]:
    upper = block("P03", 80, 40, 8, pose("P01"), material="brass")
    members = [StackMember(part=part, takes=each) for part, each in zip(("P03", "P01"), takes, strict=True)]  # type: ignore[arg-type]
    return frame(), upper, joint("F1", "M5 x 20 hex set screw", "P03", "top", [(40, 20)], *members, **more)


def test_two_parts_tapped_for_one_screw_are_not_drawn_together() -> None:
    (finding,) = found(LOOSE, *tapped("thread", "thread"))
    assert finding.says == (
        "P01: the screw runs in its thread and in that of P03: it is not drawn up to it. Drill what lies before "
        "it clear of the thread."
    )
    assert (finding.severity, finding.part) == ("warning", "P01")


@pytest.mark.parametrize(
    ("takes", "more"), [(("", "thread"), {}), (("thread", "thread"), {"clamps": False}),
                        (("thread", "thread"), {"stands": mm(2)})],
)  # fmt: skip
def test_one_thread_or_no_clamping_is_told_nothing(takes: tuple[str, str], more: dict[str, Any]) -> None:
    assert found(LOOSE, *tapped(*takes, **more)) == []


def test_a_hole_that_is_made_to_suit_is_seen_when_the_build_is_looked_at_again() -> None:
    """From below: the lever ends beyond its bush and is no member of the stack until its hole goes around it."""
    base, _, bush, _ = on_bush(7.9)
    screw = joint(
        "F1", "M5 x 40 hex set screw", "P01", "bottom", [(40, 20)], "P01", "P02", "M5 washer", "M5 nut"
    )
    first, second = (build(base, lever(bore), bush, screw) for bore in (4.0, 8.02))
    before = inspect_build(first)
    assert before.joints[0].riders == ()
    again = inspect_build(second, before)
    assert again == inspect_build(second)
    assert [one.part for one in again.joints[0].riders] == ["P03"]
