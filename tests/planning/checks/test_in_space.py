"""Parts in one place, and sub-assemblies that their parts do not come to: inside and outside the limits."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from calculators.planning.inspection import inspect_build
from calculators.planning.model import Bend, Component, Context, Size
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

RULE = "parts-in-one-place"
BOARD = block("P1", 200, 100, 20, *GROUND)


@pytest.mark.parametrize(("let_in", "told"), [(0.0, False), (0.1, False), (0.11, True), (5.0, True)])
def test_a_part_sunk_into_another_without_a_pocket_is_told_beyond_the_limit(
    let_in: float, told: bool
) -> None:
    findings = found(RULE, BOARD, block("P2", 50, 40, 15, pose("P1", 20, 10, let_in=let_in)))
    assert [(one.severity, one.part, one.place, one.value) for one in findings] == (
        [("error", "P2", "P1", pytest.approx(let_in, abs=1e-3))] if told else []
    )


def test_the_sentence_says_how_deep_and_where() -> None:
    """P2 lies at X 20 to 70, Y 10 to 50, Z 15 to 30: the middle of what is common is 45, 30, 17.5."""
    (one,) = found(RULE, BOARD, block("P2", 50, 40, 15, pose("P1", 20, 10, let_in=5)))
    assert one.says.startswith("P1 and P2 lie 5 mm inside one another, about X ")
    assert one.at == "components[P2].poses[1]"
    assert {spot.part for spot in one.spots} == {"P1", "P2"}


def test_a_limit_of_the_house_takes_its_place() -> None:
    house = Context(limits=(("parts-overlap-least", Decimal("1")),))
    sunk = block("P2", 50, 40, 15, pose("P1", 20, 10, let_in=0.9))
    assert found(RULE, BOARD, sunk, context=house) == []
    assert len(found(RULE, BOARD, sunk)) == 1


def test_a_part_in_its_pocket_is_no_clash_whatever_its_corners() -> None:
    recessed = replace(BOARD, pockets=(pocket("R", "top", 20, 10, 50, 40, 5, cutter=12.7),))
    assert found(RULE, recessed, block("P2", 50, 40, 15, pose("P1", 20, 10, let_in=5))) == []


def test_a_part_let_in_deeper_than_its_pocket_is_told_by_the_difference() -> None:
    recessed = replace(BOARD, pockets=(pocket("R", "top", 20, 10, 50, 40, 5),))
    (one,) = found(RULE, recessed, block("P2", 50, 40, 15, pose("P1", 20, 10, let_in=6.5)))
    assert one.value == pytest.approx(1.5, abs=1e-3)


def test_a_part_too_large_for_its_pocket_is_left_to_the_fit_of_the_pocket() -> None:
    recessed = replace(BOARD, pockets=(pocket("R", "top", 20, 10, 50, 40, 5),))
    worked = inspected(recessed, block("P2", 51, 40, 15, pose("P1", 20, 10, let_in=5)))
    assert of_rule(worked, RULE) == []
    assert len(of_rule(worked, "recess-fit")) == 1


@pytest.mark.parametrize(("bored", "told"), [(12.0, False), (11.9, False), (11.6, True), (None, True)])
def test_a_dowel_through_a_hole_of_its_size_is_no_clash(bored: float | None, told: bool) -> None:
    """12 mm in 11.6 mm is 0.2 too thick on each side; without a hole it is all in the wood."""
    holes = () if bored is None else (hole("h", "top", 60, 50, bored),)
    dowel = turned("P2", 60, 12, pose("P1", 60, 50, own_face="left", point="centre", let_in=30))
    assert len(found(RULE, replace(BOARD, holes=holes), dowel)) == told


def test_a_dowel_too_long_for_its_blind_hole_is_told() -> None:
    bored = replace(BOARD, holes=(hole("h", "top", 60, 50, 12, depth=10),))
    free = turned("P2", 60, 12, pose("P1", 60, 50, own_face="left", point="centre", let_in=10))
    long = turned("P2", 60, 12, pose("P1", 60, 50, own_face="left", point="centre", let_in=14))
    assert found(RULE, bored, free) == []
    (one,) = found(RULE, bored, long)
    assert one.value == pytest.approx(4.0, abs=2e-3)  # its rim stands on the drill's shoulder


def test_a_threaded_rod_fills_the_thread_that_is_tapped_for_it() -> None:
    """M8 is drilled 6.8; the rod of 8 mm lies in its thread, one of 10 does not."""
    tapped = replace(BOARD, holes=(hole("h", "top", 60, 50, 6.8, kind="tapping", thread="M8"),))
    rod = pose("P1", 60, 50, own_face="left", point="centre", let_in=20)
    assert found(RULE, tapped, turned("P2", 60, 8, rod)) == []
    assert len(found(RULE, tapped, turned("P2", 60, 10, rod))) == 1


def test_a_shaft_in_a_bush_in_a_wall_is_free_all_the_way() -> None:
    wall = replace(BOARD, holes=(hole("h", "top", 60, 50, 16),))
    bush = turned("P2", 20, 16, pose("P1", 60, 50, own_face="left", point="centre", let_in=20), bore=10)
    shaft = turned("P3", 90, 10, pose("P1", 60, 50, own_face="left", point="centre", let_in=40))
    assert found(RULE, wall, bush, shaft) == []
    thick = replace(shaft, size=replace(shaft.size, diameter=mm(11)))
    assert [(one.part, one.place) for one in found(RULE, wall, bush, thick)] == [("P3", "P2")]


def test_a_clash_on_the_axis_of_a_joint_is_told_once() -> None:
    sunk = block("P2", 50, 40, 15, pose("P1", 20, 10, let_in=5))
    screw = joint("F1", "4 x 30 csk wood screw", "P2", "top", [(25, 20)], "P2", "P1")
    worked = inspected(BOARD, sunk, screw)
    assert len(of_rule(worked, "parts-overlap")) == 1
    assert of_rule(worked, RULE) == []


def test_copies_are_told_once_with_their_number() -> None:
    three = block(
        "P2", 30, 40, 15, pose("P1", 0, 10, let_in=5), pose("P1", 60, 10, let_in=7, copy=2),
        pose("P1", 120, 10, let_in=5, copy=3),
    )  # fmt: skip
    (one,) = found(RULE, BOARD, three)
    assert one.value == pytest.approx(7.0, abs=1e-3)
    assert "(P1 and P2.2)" in one.says
    assert one.says.endswith("So do 2 more pairs of them.")
    assert one.at == "components[P2].poses[2]"


def test_sub_assemblies_and_folded_sheet_are_no_solids() -> None:
    whole = Component("G1", "Box", size=Size("block", mm(200), mm(100), mm(20)), poses=GROUND)
    assert found(RULE, whole, replace(BOARD, parent="G1")) == []
    folded = replace(
        block("P2", 80, 60, 2, pose("P1", 20, 10, let_in=1)), bends=(Bend("b1", mm(30), radius=mm(3)),)
    )
    assert found(RULE, BOARD, folded) == []


def test_parts_that_only_touch_on_all_sides_are_sound() -> None:
    """A block among six others, and a row of staves edge to edge."""
    six = [
        block("P2", 200, 100, 10, pose("P1")),
        block("P3", 200, 100, 10, pose("P1", face="bottom", own_face="top")),
        block("P4", 10, 100, 20, pose("", 200, 0)),
        block("P5", 10, 100, 20, pose("", -10, 0)),
        block("P6", 200, 10, 20, pose("", 0, 100)),
        block("P7", 200, 10, 20, pose("", 0, -10)),
    ]
    assert found(RULE, BOARD, *six) == []


def test_after_a_change_the_same_is_found_as_when_all_is_looked_at_anew() -> None:
    parts = [block(f"P{n}", 30, 30, 20, pose("", 29.5 * n, 0)) for n in range(1, 30)]
    first = inspect_build(build(*parts))
    moved = [*parts[:10], block("P11", 30, 30, 20, pose("", 29.5 * 11, 50)), *parts[11:]]
    gone = [*moved[:20], *moved[21:]]
    for changed in (moved, gone, parts):
        first = inspect_build(build(*changed), first)
        assert first.findings == inspect_build(build(*changed)).findings
    assert len(of_rule(first, RULE)) == 28


OVERALL = "sums-to-overall"


def tray(width: float, *, gap: float = 0.0) -> list[Component]:
    """Four sides: 12 + 176 + gap + 12 across, 300 long, 60 high."""
    return [
        Component("G1", "Tray", size=Size("block", mm(300), mm(width), mm(60))),
        block("P1", 300, 12, 60, *GROUND, parent="G1"),
        block("P2", 300, 12, 60, pose("", 0, 188 + gap), parent="G1"),
        block("P3", 12, 176, 60, pose("", 0, 12), parent="G1"),
        block("P4", 12, 176, 60, pose("", 288, 12), parent="G1"),
    ]


@pytest.mark.parametrize(
    ("width", "severity"),
    [
        (200.0, None),
        (200.25, None),
        (200.3, "warning"),
        (200.5, "warning"),
        (200.6, "error"),
        (199.4, "error"),
    ],
)
def test_the_sides_of_a_tray_come_to_200(width: float, severity: str | None) -> None:
    findings = found(OVERALL, *tray(width))
    assert [one.severity for one in findings] == ([severity] if severity else [])
    if severity:
        assert findings[0].value == pytest.approx(abs(width - 200))
        assert findings[0].at == "components[G1].size.width"


def test_the_overall_size_can_be_set_to_what_the_parts_come_to() -> None:
    assert left_after(inspected(*tray(203)), OVERALL) == [[]]


def test_a_sub_assembly_may_lie_any_way_round_unless_it_is_posed() -> None:
    whole, *sides = tray(200)
    turned_over = replace(whole, size=Size("block", mm(60), mm(300), mm(200)))
    assert found(OVERALL, turned_over, *sides) == []
    posed = replace(turned_over, poses=GROUND)
    assert [one.severity for one in found(OVERALL, posed, *sides)] == ["error"]


def test_a_part_without_a_pose_leaves_it_unchecked_once() -> None:
    whole, first, *rest = tray(210)
    findings = found(OVERALL, whole, replace(first, poses=()), *rest)
    assert [(one.severity, one.says) for one in findings] == [
        (
            "unchecked",
            "Whether the parts come to the sizes of G1 was not checked: some of their parts have no size or no "
            "pose.",
        )
    ]


def test_two_of_a_sub_assembly_are_left_alone() -> None:
    whole, *sides = tray(210)
    assert found(OVERALL, replace(whole, quantity=2), *sides) == []
