"""Fasteners that meet one another, or run into parts: inside and outside the limits."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from calculators.planning.inspection import inspect_build
from calculators.planning.model import Component, Context, Joint, Place, StackMember
from tests.planning.checks.mended import left_after, of_rule
from tests.planning.checks.small_builds import (
    GROUND,
    block,
    build,
    found,
    hole,
    inspected,
    joint,
    mm,
    pocket,
    pose,
    turned,
)

MEET, PART = "fasteners-meet", "fastener-meets-part"
POST = block("P1", 200, 60, 60, *GROUND)
ON_TOP = block("P2", 100, 60, 20, pose("P1", 50, 0))
IN_FRONT = block("P3", 100, 60, 20, pose("P1", 50, 0, face="front", own_face="bottom"))


def screw(mark: str, home: str, u: float, v: float = 30, line: str = "5 x 60 csk wood screw") -> Joint:
    return joint(mark, line, home, "top", [(u, v)], home, "P1")


@pytest.mark.parametrize(
    ("u", "severity", "gap"),
    [(60.0, "warning", 5.0), (64.0, "warning", 9.0), (65.0, None, 10.0), (66.0, None, 11.0)],
)
def test_screws_that_cross_in_wood_keep_two_diameters_between_them(
    u: float, severity: str | None, gap: float
) -> None:
    """The axes pass u - 50 from one another, the shanks 5 less: 2 x 5 mm is wanted."""
    findings = found(MEET, POST, ON_TOP, IN_FRONT, screw("F1", "P2", 50), screw("F2", "P3", u))
    assert [one.severity for one in findings] == ([severity] if severity else [])
    if findings:
        assert (findings[0].value, findings[0].limit) == pytest.approx((gap, 10.0))
        assert (findings[0].joint, findings[0].part, findings[0].place) == ("F2", "P1", "1")


def test_both_can_be_moved_out_of_the_way() -> None:
    worked = inspected(POST, ON_TOP, IN_FRONT, screw("F1", "P2", 50), screw("F2", "P3", 60))
    assert left_after(worked, MEET) == [[], []]


def test_screws_that_meet_inside_a_part_are_told_once_by_their_holes() -> None:
    parts = (POST, ON_TOP, IN_FRONT, screw("F1", "P2", 50), screw("F2", "P3", 51))
    worked = inspected(*parts)
    assert [one.severity for one in of_rule(worked, "holes-meet")] == ["error"]
    assert of_rule(worked, MEET) == []
    alone = inspected(*parts, context=Context(rules_off=(("holes-meet", "not wanted here"),)))
    (one,) = of_rule(alone, MEET)
    assert one.severity == "error"
    assert one.value is not None
    assert one.value < 0.0
    assert one.says.startswith("F1 at 1 and F2 at 1 meet ")


def test_screws_of_two_joints_that_run_the_same_way_are_left_to_their_spacing() -> None:
    near = (screw("F1", "P2", 50), screw("F2", "P2", 62))
    assert found(MEET, POST, ON_TOP, *near) == []


def test_points_that_meet_head_on_are_told() -> None:
    """Points 40 deep from the top, and 40 or 15 from the bottom, in 60 mm: they meet on one line, or do not."""
    below = block("P3", 100, 60, 20, pose("P1", 50, 0, face="bottom", own_face="bottom"))
    far = [screw("F1", "P2", 50, line="5 x 60 csk wood screw")]
    for length, told in ((60, True), (35, False)):
        other = screw("F2", "P3", 50, line=f"5 x {length} csk wood screw")
        findings = found(MEET, POST, ON_TOP, below, *far, other)
        assert [one.severity for one in findings if one.severity == "error"] == (["error"] if told else [])


def bolts(apart: float) -> tuple[Component | Joint, ...]:
    plate = block("P1", 120, 60, 8, *GROUND, material="mild steel")
    bar = block("P2", 120, 60, 10, pose("P1"), material="mild steel")
    line = "M8 x 30 hex bolt 8.8"
    return (
        plate,
        bar,
        joint("F1", line, "P2", "top", [(50, 30)], "P2", "P1", "M8 nut"),
        joint("F2", line, "P2", "top", [(50 + apart, 30)], "P2", "P1", "M8 nut"),
    )


@pytest.mark.parametrize(("apart", "told"), [(14.0, True), (14.9, True), (15.1, False), (16.0, False)])
def test_heads_of_two_bolts_turn_clear_of_one_another(apart: float, told: bool) -> None:
    """M8: 13 mm across flats, 15.01 across corners."""
    findings = found(MEET, *bolts(apart))
    assert [one.severity for one in findings] == (["error"] if told else [])
    if told:
        assert findings[0].value == pytest.approx(apart - 13 / math.cos(math.pi / 6), abs=1e-3)
        assert findings[0].says.startswith("The head of F1 at 1 and the head of F2 at 1 meet")


def test_a_bolt_too_near_another_can_be_moved() -> None:
    assert left_after(inspected(*bolts(14.0)), MEET) == [[], []]


def test_places_of_one_joint_meet_too() -> None:
    plate = block("P1", 120, 60, 8, *GROUND, material="mild steel")
    bar = block("P2", 120, 60, 10, pose("P1"), material="mild steel")
    row = joint(
        "F1", "M8 x 30 hex bolt 8.8", "P2", "top", [(30 + 14 * i, 30) for i in range(4)], "P2", "P1", "M8 nut"
    )
    (one,) = found(MEET, plate, bar, row)
    assert one.says.endswith("So do 2 more pairs.")


def test_a_grub_screw_against_a_screw_and_a_lock_screw_behind_it_are_meant() -> None:
    """A stop screw stands with its point on a bolt's shank; a lock screw follows a grub screw in one hole."""
    body = block("P1", 60, 40, 40, *GROUND, material="mild steel")
    tapped = StackMember(part="P1", takes="thread")
    bolt = joint("F1", "M6 x 40 socket cap 8.8", "P1", "front", [(30, 20)], tapped)
    grub = joint("F2", "M5 x 17 grub screw", "P1", "top", [(30, 20)], tapped, clamps=False)
    assert found(MEET, body, bolt, grub) == []
    one = joint(
        "F3",
        "M5 x 10 grub screw",
        "P1",
        "top",
        [(10, 20)],
        replace(tapped, thread_depth=mm(30)),
        stands=mm(-10),
    )
    lock = joint("F4", "M5 x 10 grub screw", "P1", "top", [(10, 20)], replace(tapped, thread_depth=mm(30)))
    assert [each.joint for each in found(MEET, body, one, lock) if each.severity == "error"] == []


BASE = block("P1", 200, 100, 18, *GROUND)
FOOT = block("P2", 100, 60, 18, pose("P1", 4, 20))
BOLT = joint("F1", "M6 x 45 hex bolt 8.8", "P2", "top", [(46, 30)], "P2", "P1", "M6 nut")


@pytest.mark.parametrize(("start", "told"), [(54.0, True), (55.6, True), (55.7, False), (60.0, False)])
def test_a_nut_stands_clear_of_a_board_beside_it(start: float, told: bool) -> None:
    """The axis at X 50; the nut of M6 is 10 across flats and reaches 5.77 with its corners."""
    cleat = block("P3", 80, 100, 20, pose("P1", start, 0, face="bottom", own_face="top"))
    findings = found(PART, BASE, FOOT, cleat, BOLT)
    assert [(one.severity, one.joint, one.part, one.place) for one in findings] == (
        [("error", "F1", "P3", "1")] if told else []
    )
    if told:
        assert findings[0].value == pytest.approx(5 / math.cos(math.pi / 6) - (start - 50), abs=1e-3)
        assert findings[0].says.startswith("The nut of F1 at 1 runs ")


def test_a_pocket_is_room_for_a_nut_and_a_hole_for_a_tip() -> None:
    """The board under the nut has a recess 30 x 30, and below it a hole for the end of the bolt."""
    under = block("P3", 120, 100, 30, pose("P1", 0, 0, face="bottom", own_face="top"))
    plain = found(PART, BASE, FOOT, under, replace(BOLT, stack=(*BOLT.stack[:2],)))
    assert [one.severity for one in plain] == ["error"]
    recessed = replace(under, pockets=(pocket("K", "top", 35, 35, 30, 30, 6),))
    deep = replace(recessed, holes=(hole("h", "top", 50, 50, 7, depth=20),))
    through = replace(BOLT, stack=(*BOLT.stack[:2],))
    del through
    assert [one.part for one in found(PART, BASE, FOOT, recessed, BOLT)] == ["P3"]
    assert found(PART, BASE, FOOT, deep, BOLT) == []


def test_a_point_that_comes_out_into_the_next_part_says_how_much_shorter_it_must_be() -> None:
    """22 + 18 = 40 mm of wood; a screw of 45 stands 5 mm in the tray on top."""
    batten = block("P1", 300, 40, 22, *GROUND)
    top = block("P2", 300, 100, 18, pose("P1"))
    tray = block("P3", 120, 40, 30, pose("P2", 90, 0))
    row = joint("F1", "4 x 45 csk wood screw", "P1", "bottom", [(30, 20), (150, 20), (270, 20)], "P1", "P2")
    worked = inspected(batten, top, tray, row)
    (one,) = of_rule(worked, PART)
    assert (one.place, one.value) == ("2", pytest.approx(5.0))
    assert one.says == (
        "The point of F1 at 2 runs 5 mm into P3, which its stack does not go through: take it at least 5 mm "
        "shorter, or move it."
    )
    assert left_after(worked, PART) == [[]]


def test_a_head_that_lies_in_a_part_above_is_told() -> None:
    """A cap head stands 5 mm proud under a strap that lies on the part."""
    strap = block("P3", 60, 60, 10, pose("P2", 30, 0))
    cap = joint(
        "F1", "M5 x 30 socket cap", "P2", "top", [(50, 30)], "P2", StackMember(part="P1", takes="thread")
    )
    (one,) = found(PART, BASE, FOOT, strap, cap)
    assert (one.part, one.value) == ("P3", pytest.approx(5.0))
    roomy = replace(strap, pockets=(pocket("K", "bottom", 5, 15, 30, 30, 6),))
    assert found(PART, BASE, FOOT, roomy, cap) == []


def test_what_the_stack_names_and_the_axis_misses_is_not_told_again() -> None:
    aside = block("P3", 60, 60, 30, pose("P1", 52, 0, face="bottom", own_face="top"))
    named = replace(BOLT, stack=(*BOLT.stack[:2], StackMember(part="P3"), BOLT.stack[2]))
    worked = inspected(BASE, FOOT, aside, named)
    assert len(of_rule(worked, "axis-misses-part")) == 1
    assert of_rule(worked, PART) == []


def test_a_joint_through_a_part_without_a_pose_is_left_unchecked_once() -> None:
    loose = block("P4", 40, 20, 2, material="brass")
    line = "3 x 16 csk wood screw"
    hinge = [
        joint(f"F{n}", line, "P1", "top", [(40 * n, 50)], StackMember(part="P4"), StackMember(part="P1"))
        for n in (1, 2)
    ]
    findings = found(PART, BASE, loose, *hinge)
    assert [(one.severity, one.says) for one in findings] == [
        (
            "unchecked",
            "Whether the fasteners of F1, F2 run into other parts or fasteners was not checked: parts of their "
            "stacks have no pose.",
        )
    ]


def test_a_round_bar_beside_a_bolt_is_told_when_the_head_lies_in_it() -> None:
    """M6 hexagon head 10 across flats: 5.77 to its corners, 4 high; a bar of 12 lying 10 mm off the axis."""
    for off, told in ((10.0, True), (12.0, False)):
        bar = turned("P5", 80, 12, pose("P2", 0, 30 - off, own_face="left", let_in=0))
        lying = replace(
            bar, poses=(pose("", 10, 20 + 30 - off, own_face="bottom", point="centre", let_in=-36),)
        )
        assert [one.part for one in found(PART, BASE, FOOT, lying, BOLT)] == (["P5"] if told else [])


def test_after_a_change_the_same_is_found_as_when_all_is_looked_at_anew() -> None:
    parts = [POST, ON_TOP, IN_FRONT]
    screws = [screw(f"F{n}", "P2", 10 * n, 15 + n) for n in range(1, 9)]
    screws += [screw(f"F{n + 20}", "P3", 10 * n + 3, 15 + n) for n in range(1, 9)]
    worked = inspect_build(build(*parts, *screws))
    for number in (3, 12, 5):
        place = Place("1", mm(10 * number % 90 + 4), mm(31))
        screws[number] = replace(screws[number], places=(place,))
        worked = inspect_build(build(*parts, *screws), worked)
        assert worked.findings == inspect_build(build(*parts, *screws)).findings
    shifted = replace(IN_FRONT, poses=(pose("P1", 52, 0, face="front", own_face="bottom"),))
    worked = inspect_build(build(POST, ON_TOP, shifted, *screws), worked)
    assert worked.findings == inspect_build(build(POST, ON_TOP, shifted, *screws)).findings
    assert of_rule(worked, MEET)
