"""Parts that move: what they meet, just inside and just outside the limits of 2 mm to wood, 0.5 mm to metal.

The arm of these tests is 150 x 20 x 10 and turns about its own (10, 10), so that its half width is 10; a pillar
of radius 10 stands 100 from the pivot at 60 degrees. Turned to `most` the arm's axis passes the pillar's at
100 sin(60 - most): clear by that less 20 mm. 2 mm: asin(0.22) = 12.7090, at 47.2910 deg; 0.5 mm: asin(0.205) =
11.8298, at 48.1702 deg; 0: asin(0.2) = 11.5370, at 48.4630 deg.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from calculators.joints.model import Finding
from calculators.planning.edits import can_mend, finding_key, mend
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Build, Component, Hole, Joint, Motion
from tests.planning.checks.small_builds import block, build, joint, mm, pose, turned

RULES = ("swept-clearance", "fastener-in-the-sweep")


def told(one: Build) -> list[Finding]:
    findings = inspect_build(one).findings
    assert [each for each in findings if each.rule == "rule-failed"] == []
    return [each for each in findings if each.rule in RULES]


def severities(one: Build) -> list[str]:
    return [each.severity for each in told(one)]


def turns(least: float, most: float, x: float = 10, y: float = 10, axis: str = "Z", **more: object) -> Motion:
    return Motion("turns", axis, Decimal(str(least)), Decimal(str(most)), mm(x), mm(y), **more)  # type: ignore[arg-type]


def slides(least: float, most: float, axis: str = "X", **more: object) -> Motion:
    return Motion("slides", axis, Decimal(str(least)), Decimal(str(most)), **more)  # type: ignore[arg-type]


BASE = block("P01", 300, 260, 20, pose(), material="mild steel")
PILLAR = turned("P03", 40, 20, pose("P01", 150, 186.60254, own_face="left", point="centre"))


def arm(least: float, most: float, **more: object) -> Component:
    more.setdefault("motion", turns(least, most))
    more.setdefault("material", "brass")
    return block("P02", 150, 20, 10, pose("P01", 90, 90, let_in=-3), **more)


@pytest.mark.parametrize(
    ("most", "expected"), [(48.16, []), (48.18, ["warning"]), (48.34, ["warning"]), (48.6, ["error"])]
)
def test_an_arm_that_turns_towards_a_brass_pillar(most: float, expected: list[str]) -> None:
    assert severities(build(BASE, arm(0, most), PILLAR)) == expected


@pytest.mark.parametrize(("most", "expected"), [(47.28, []), (47.30, ["warning"])])
def test_an_arm_that_turns_towards_a_wooden_pillar(most: float, expected: list[str]) -> None:
    assert severities(build(BASE, arm(0, most), replace(PILLAR, material="beech"))) == expected


def test_the_finding_says_at_which_angle_and_how_near_and_its_mend_mends() -> None:
    """100 sin(60 - 48.3) - 20 = 0.2787."""
    worked = inspect_build(build(BASE, arm(0, 48.3), PILLAR))
    (found,) = [each for each in worked.findings if each.rule in RULES]
    assert (found.part, found.place, found.unit, found.limit) == ("P02", "P03", "mm", 0.5)
    assert found.value == pytest.approx(0.2787, abs=0.001)
    assert found.at == "components[P02].motion.most"
    assert found.says == "P02 comes within 0.279 mm of P03 Part P03 at 48.3 deg; keep 0.5 mm clear of metal."
    assert [(spot.part, spot.face) for spot in found.spots] == [("P03", "side")]
    assert found.mends[0].says == "Stop P02 at 48.1 deg."
    assert can_mend(worked, found)
    assert told(mend(worked, finding_key(found))) == []


def test_where_it_runs_into_something_it_says_from_which_angle_on() -> None:
    worked = inspect_build(build(BASE, arm(0, 90), PILLAR))
    (found,) = [each for each in worked.findings if each.rule in RULES]
    assert found.severity == "error"
    assert "runs into P03 Part P03 from 48.5 deg on" in found.says
    assert found.value == pytest.approx(
        -13.0, abs=0.01
    )  # the arm, 3 to 13 over the base, would have to go under the pillar
    assert told(mend(worked, finding_key(found))) == []


@pytest.mark.parametrize(("least", "expected"), [(-48.0, []), (-70.0, ["error"])])
def test_to_the_other_side_too(least: float, expected: list[str]) -> None:
    other = turned("P04", 40, 20, pose("P01", 150, 13.39746, own_face="left", point="centre"))
    assert severities(build(BASE, arm(least, 20), PILLAR, other)) == expected


def test_an_arm_of_the_other_hand_turns_the_other_way() -> None:
    """The mirror image turns clockwise: what stood in the way of the one stands free of the other."""
    mirrored = block("P02", 150, 20, 10, pose("P01", 90, 90, let_in=-3, hand="other"), material="brass",
                     motion=turns(0, 60))  # fmt: skip
    other = turned("P04", 40, 20, pose("P01", 150, 13.39746, own_face="left", point="centre"))
    assert severities(build(BASE, mirrored, PILLAR)) == []
    assert severities(build(BASE, mirrored, other)) == ["error"]


def test_what_it_lies_on_is_left_out() -> None:
    lying = block("P02", 150, 20, 10, pose("P01", 90, 90), material="brass", motion=turns(0, 40))
    assert severities(build(BASE, lying, PILLAR)) == []


@pytest.mark.parametrize(
    ("most", "expected"), [(48.463, []), (48.40, []), (48.55, []), (48.7, ["error"]), (48.2, ["warning"])]
)
def test_a_stop_that_is_touched_at_the_end_is_no_fault(most: float, expected: list[str]) -> None:
    """0 at 48.463 deg; within 0.2 mm (about 0.11 deg) either way it is the stop; further in it is run into."""
    assert severities(build(BASE, arm(0, most), PILLAR)) == expected


def test_a_pillar_grazed_on_the_way_is_no_stop() -> None:
    """The arm's corner at sqrt(140^2 + 10^2) = 140.357 from the pivot grazes a wall 140.3 away at 4.1 deg."""
    wall = block("P03", 10, 200, 30, pose("P01", 240.3, 40), material="brass")
    assert severities(build(BASE, arm(-20, 20), wall)) == ["error"]


def test_what_is_carried_is_looked_at_too() -> None:
    """A pointer on the arm's end, 60 beyond: it meets a post that the arm itself does not reach."""
    pointer = block("P04", 70, 6, 3, pose("P02", 130, 7), material="brass")
    post = turned("P03", 40, 10, pose("P01", 185, 247.2243, own_face="left", point="centre"))
    carrying = turns(0, 75, carries=("P04",))
    (found,) = told(build(BASE, arm(0, 75, motion=carrying), pointer, post))
    assert (found.severity, found.part, found.place, found.at) == (
        "error", "P04", "P03", "components[P02].motion.most",
    )  # fmt: skip
    assert "P04, carried by P02, runs into P03" in found.says
    assert told(build(BASE, arm(0, 75), pointer, post)) == []


def test_a_sub_assembly_that_is_carried_brings_its_parts() -> None:
    pointer = block("P04", 70, 6, 3, pose("P02", 130, 7), material="brass", parent="G1")
    post = turned("P03", 40, 10, pose("P01", 185, 247.2243, own_face="left", point="centre"))
    moving = arm(0, 75, motion=turns(0, 75, carries=("G1",)))
    assert severities(build(BASE, moving, Component("G1", "Pointer"), pointer, post)) == ["error"]


@pytest.mark.parametrize(("most", "expected"), [(249.4, []), (249.6, ["warning"]), (251, ["error"])])
def test_a_slide_that_nears_an_end_block(most: float, expected: list[str]) -> None:
    """It ends at 100 and the block begins at 350. At 250.0 it would be a stop."""
    bed = block("P01", 400, 80, 20, pose(), material="mild steel")
    slide = block("P02", 80, 60, 15, pose("P01", 20, 10), material="brass", motion=slides(0, most))
    end = block("P03", 20, 60, 30, pose("P01", 350, 10), material="mild steel")
    assert severities(build(bed, slide, end)) == expected


# --- fasteners


def screwed(fastener: str, *more: Component | Joint, at: tuple[float, float] = (170, 140)) -> Build:
    """The arm 3 over a plate of 20 with a foot under it, held by a screw from above, 70 from the pivot."""
    foot = block(
        "P05", 120, 40, 12, pose("P01", 140, 90, face="bottom", own_face="top"), material="mild steel"
    )
    return build(BASE, arm(0, 40), foot, joint("F01", fastener, "P01", "top", [at], "P01", "P05"), *more)


def test_a_screw_head_that_stands_up_into_the_sweep() -> None:
    """The head of an M5 cheese head screw is 3.3 high (ISO 1207)."""
    worked = inspect_build(screwed("M5 x 30 cheese steel"))
    (found,) = [each for each in worked.findings if each.rule in RULES]
    assert (found.rule, found.severity, found.joint, found.place, found.part) == (
        "fastener-in-the-sweep", "error", "F01", "1", "P02",
    )  # fmt: skip
    assert found.value == pytest.approx(-0.3, abs=0.002)
    assert told(mend(worked, finding_key(found))) == []


@pytest.mark.parametrize(("height", "expected"), [("2.49", []), ("2.51", ["warning"]), ("2.99", ["warning"])])
def test_a_head_under_the_sweep(height: str, expected: list[str]) -> None:
    one = screwed("M5 x 30 cheese steel")
    head = replace(one.joints[0], head_height=mm(float(height)), head_diameter=mm(8.5))
    assert severities(replace(one, joints=(head,))) == expected


def test_a_screw_beside_the_sweep_is_let_be() -> None:
    assert severities(screwed("M5 x 30 cheese steel", at=(170, 60))) == []


def test_a_pivot_screw_goes_through_both_and_is_left_out() -> None:
    boss = turned(
        "P04", 3, 16, pose("P01", 100, 100, own_face="left", point="centre"), material="brass", bore=5.5
    )
    pivot = joint("F01", "M5 x 30 cheese steel", "P02", "top", [(10, 10)], "P02", "P04", "P01")
    assert severities(build(BASE, arm(0, 40), boss, pivot)) == []


def test_a_fixed_screw_in_a_hole_of_what_turns_on_it_is_left_out() -> None:
    """A shouldered screw in the plate, on which the arm turns: the arm has its hole, and the axis meets air."""
    hole = Hole("h1", "top", mm(10), mm(10), kind="reamed", diameter=mm(6))
    stud = joint("F01", "M5 x 40 cheese steel", "P01", "bottom", [(100, 160)], "P01")
    one = build(BASE, arm(0, 40, holes=(hole,)), replace(stud, stands=mm(15), clamps=False))
    assert [each for each in told(one) if each.joint == "F01" and each.severity == "error"] == []


def test_many_turns_are_a_whole_turn() -> None:
    found = told(build(BASE, arm(-100_000, 100_000), PILLAR))
    assert [(each.severity, each.part) for each in found] == [("error", "P02")]


# --- what is not followed


def test_a_moving_part_without_a_place_is_told_once() -> None:
    (found,) = told(build(BASE, replace(arm(0, 40), poses=())))
    assert found.severity == "unchecked"
    assert found.says == "Whether P02 moves clear cannot be told: give its size and its place."


def test_what_lies_free_in_a_round_hollow_is_told() -> None:
    tube = turned("P03", 100, 60, pose("P01", 100, 100, own_face="left", point="centre"), bore=50)
    rod = turned("P02", 80, 10, pose("P01", 100, 100, own_face="left", point="centre", let_in=-10),
                 motion=Motion("turns", "Y", Decimal(-5), Decimal(5)))  # fmt: skip
    (found,) = told(build(BASE, tube, rod))
    assert found.severity == "unchecked"
    assert "P02 in P03" in found.says


def test_nothing_moves_nothing_is_said() -> None:
    assert told(build(BASE, replace(arm(0, 40), motion=None), PILLAR)) == []


# --- after a change


@pytest.mark.parametrize("most", [40, 48.3, 90])
def test_after_a_change_the_same_is_found_as_from_the_beginning(most: float) -> None:
    before = inspect_build(build(BASE, arm(0, 30), PILLAR))
    now = build(BASE, arm(0, most), PILLAR)
    assert inspect_build(now, before).findings == inspect_build(now).findings


# One block of 40 slides from X 20 by `far`, the other from X 200 back to 120: past 60 they share room.
@pytest.mark.parametrize(("far", "expected"), [(59.9, []), (60.1, ["unchecked"])])
def test_two_parts_that_both_move_are_told_not_to_be_followed_where_they_share_room(
    far: float, expected: list[str]
) -> None:
    steel = {"material": "mild steel"}
    one = block("P02", 40, 20, 20, pose("P01", 20, 40, let_in=-3), motion=slides(0, far), **steel)
    other = block("P03", 40, 20, 20, pose("P01", 200, 40, let_in=-3), motion=slides(-80, 0), **steel)
    found = told(build(BASE, one, other))
    assert [each.severity for each in found] == expected
    if found:
        assert found[0].says == (
            "Whether parts that both move ever meet is not followed: P02 and P03 share room. Try it by hand."
        )
