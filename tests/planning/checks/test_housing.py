"""Parts let into pockets, and panels in their frames: inside and outside the limits, with their mends."""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal

import pytest

from calculators.joints.model import Finding
from calculators.planning.model import Component, Context, Motion, Pose
from tests.planning.checks.mended import left_after, of_rule
from tests.planning.checks.small_builds import GROUND, block, found, inspected, mm, pocket, pose

CORNER, DEPTH, FIT, PANEL = "recess-corner", "recess-depth", "recess-fit", "panel-in-frame"
ROOT = math.sqrt(2)
CUTTERS = Context(cutters=("1/2 in", "1/4 in", "6 mm"))


def board(length: float = 90.2, width: float = 90.2, depth: float | None = 6, **more: object) -> Component:
    more.setdefault("cutter", 12.7)
    pockets = (pocket("R", "top", 100, 50, length, width, depth, **more),)
    return block("P1", 300, 200, 28, *GROUND, material="European oak", pockets=pockets)


def flange(
    size: float = 90, thick: float = 6, corner: float = 3, at: float = 0.1, **more: object
) -> Component:
    more.setdefault("corner_radius", mm(corner))
    put = pose("P1", 100 + at, 50 + at, let_in=6)
    return block("P2", size, size, thick, put, material="brass", **more)


def test_the_flange_of_the_worked_case_meets_the_corners_by_1_25() -> None:
    """(6.35 - 3.0) x 0.41421 - 0.1 x 1.41421 = 1.2462."""
    (one,) = found(CORNER, board(), flange(), context=CUTTERS)
    assert (one.severity, one.part, one.place, one.value, one.limit) == (
        "error", "P1", "R", pytest.approx(1.2462, abs=1e-4), 0.2,
    )  # fmt: skip
    assert one.says == (
        "P2 does not go into pocket R of P1: its corners (radius 3) meet the corners that the cutter leaves "
        "(radius 6.35) by 1.25 mm on the diagonal, and 0.2 is the most that gives way. Square the pocket's "
        "corners by chisel, take a smaller cutter, or round the corners of P2."
    )
    assert one.at == "components[P1].pockets[R].cutter"
    assert {(spot.u_mm, spot.v_mm) for spot in one.spots} == {
        (100.0, 50.0), (190.2, 50.0), (100.0, 140.2), (190.2, 140.2),
    }  # fmt: skip


def test_each_of_its_three_mends_mends_it() -> None:
    worked = inspected(board(), flange(), context=CUTTERS)
    (one,) = of_rule(worked, CORNER)
    assert [mend.says for mend in one.mends] == [
        "Square the corners of pocket R in P1 by chisel.",
        "Cut pocket R with the 1/4 in cutter.",
        "Round the corners of P2 to 6.5 mm.",
    ]
    assert left_after(worked, CORNER) == [[], [], []]


@pytest.mark.parametrize("corner", [3.0, 5.3, 5.5, 5.6, 6.0, 6.1, 6.35, 8.0])
def test_the_overlap_goes_by_the_diagonal(corner: float) -> None:
    """Error over 0.2 mm, warning over 0, for like clearances c = 0.1."""
    overlap = (6.35 - corner) * (ROOT - 1) - 0.1 * ROOT
    findings = found(CORNER, board(), flange(corner=corner), context=CUTTERS)
    if overlap <= 0:
        assert findings == []
    else:
        assert [one.severity for one in findings] == ["error" if overlap > 0.2 else "warning"]
        assert findings[0].value == pytest.approx(overlap, abs=1e-6)


@pytest.mark.parametrize(
    ("cutter", "squared", "radius", "told"),
    [
        (6.0, False, None, False),
        (12.7, True, None, False),
        (12.7, False, 3.0, False),
        (12.7, False, 8.0, True),
    ],
)
def test_a_small_cutter_and_squared_corners_are_sound(
    cutter: float, squared: bool, radius: float | None, told: bool
) -> None:
    more = {} if radius is None else {"corner_radius": radius}
    recess = board(cutter=cutter, squared=squared, **more)
    assert bool(found(CORNER, recess, flange(), context=CUTTERS)) == told


def test_a_part_put_to_one_side_of_its_pocket_is_taken_as_amid_it() -> None:
    """It can be shifted: 0.1 on each side wherever the pose puts it."""
    for at in (0.0, 0.1, 0.2):
        (one,) = found(CORNER, board(), flange(at=at), context=CUTTERS)
        assert one.value == pytest.approx(1.2462, abs=1e-4)


def test_a_pocket_that_runs_out_of_the_board_has_no_corners_there() -> None:
    """A housing right across has none; a rebate open to the front has two at its back."""
    across = block("P1", 300, 200, 28, *GROUND, pockets=(pocket("D", "top", 100, 0, 18, 200, 6, cutter=12),))
    shelf = block("P2", 18, 200, 150, pose("P1", 100, 0, let_in=6))
    assert found(CORNER, across, shelf) == []
    stopped = replace(across, pockets=(pocket("D", "top", 100, 0, 18, 150, 6, cutter=12),))
    short = block("P2", 18, 150, 150, pose("P1", 100, 0, let_in=6))
    (one,) = found(CORNER, stopped, short)
    assert len(one.spots) == 2
    assert one.value == pytest.approx(6 * (ROOT - 1), abs=1e-6)


def test_a_part_that_stands_on_edge_in_a_pocket_has_sharp_corners_there() -> None:
    """Its corner radius is that of its plan, not of its edge."""
    edge = block(
        "P2", 90, 60, 10, Pose(on="P1", u=mm(100.1), v=mm(50.1), let_in=mm(6), own_face="front"),
        corner_radius=mm(5),
    )  # fmt: skip
    (one,) = found(CORNER, board(length=90.2, width=10.2), edge)
    r = 5.1  # half the width: the ends of the slot are round
    assert one.value == pytest.approx(r * (ROOT - 1) - 0.1 * ROOT, abs=1e-6)


@pytest.mark.parametrize(
    ("thick", "told"),
    [(6.0, None), (6.2, None), (6.25, 0.25), (5.8, None), (5.7, 0.3), (7.0, 1.0), (9.0, None)],
)
def test_a_part_meant_flush_is_told_when_it_stands_proud_or_lies_sunk(
    thick: float, told: float | None
) -> None:
    """A part half as thick again as its pocket is deep stands out on purpose."""
    findings = found(DEPTH, board(cutter=6), flange(thick=thick))
    assert [(one.severity, one.value) for one in findings] == (
        [] if told is None else [("warning", pytest.approx(told))]
    )


def test_the_depth_can_be_mended() -> None:
    for thick in (6.5, 5.5):
        assert left_after(inspected(board(cutter=6), flange(thick=thick)), DEPTH) == [[]]


def test_a_shelf_in_its_housing_and_a_pocket_right_through_are_no_matter_of_depth() -> None:
    across = block("P1", 300, 200, 28, *GROUND, pockets=(pocket("D", "top", 100, 0, 18, 200, 6, cutter=6),))
    shelf = block("P2", 18, 200, 150, pose("P1", 100, 0, let_in=6))
    assert found(DEPTH, across, shelf) == []
    assert found(DEPTH, board(depth=None, cutter=6), flange()) == []


@pytest.mark.parametrize(
    ("size", "told"),
    [(90.0, None), (90.2, None), (90.29, None), (90.4, -0.2), (93.2, -3.0)],
)
def test_a_part_larger_than_its_pocket_does_not_go_in(size: float, told: float | None) -> None:
    findings = found(FIT, board(cutter=6), flange(size=size))
    assert [(one.severity, one.value) for one in findings] == (
        [] if told is None else [("error", pytest.approx(told))]
    )


def test_a_pocket_too_small_can_be_cut_larger() -> None:
    shelf = block("P2", 18.5, 200, 150, pose("P1", 100, 0, let_in=6))
    across = block("P1", 300, 200, 28, *GROUND, pockets=(pocket("D", "top", 100, 0, 18, 200, 6, cutter=6),))
    worked = inspected(across, shelf)
    (one,) = of_rule(worked, FIT)
    assert (
        one.says
        == "Pocket D of P1 is 18 mm wide, and P2, which is let into it, 18.5 mm: it is 0.5 mm too small."
    )
    assert left_after(worked, FIT) == [[]]


@pytest.mark.parametrize(("length", "told"), [(92.0, None), (92.2, 1.1), (95.0, 2.5), (97.0, None)])
def test_play_is_noted_where_the_pocket_is_a_fit_and_not_a_room(length: float, told: float | None) -> None:
    """Over 1 mm on each side is loose; over 3 it is a room for the part."""
    findings = found(FIT, board(length=length, cutter=6), flange(at=0.1))
    assert [(one.severity, one.value) for one in findings] == (
        [] if told is None else [("note", pytest.approx(told))]
    )
    slides = flange(at=0.1, motion=Motion("slides", "X", Decimal(-1), Decimal(1)))
    assert found(FIT, board(length=length, cutter=6), slides) == []


def test_a_strap_over_a_pocket_for_screw_heads_is_not_let_into_it() -> None:
    strap = block("P2", 200, 40, 6, pose("P1", 50, 70))
    recess = board(length=20, width=30, cutter=6)
    for rule in (CORNER, DEPTH, FIT, "parts-in-one-place"):
        assert found(rule, recess, strap) == []


def test_a_plate_let_into_a_recess_with_a_room_below_counts_in_the_recess() -> None:
    pockets = (*board(cutter=6).pockets, pocket("K", "top", 130, 80, 20, 30, 12, cutter=6))
    both = replace(board(cutter=6), pockets=pockets)
    assert found(FIT, both, flange()) == []
    assert found("parts-in-one-place", both, flange()) == []


def test_mirrored_and_turned_copies_are_told_once_at_the_worst() -> None:
    pockets = (*board(cutter=12.7).pockets, pocket("S", "top", 10, 50, 80, 80, 6, cutter=12.7))
    put = (
        pose("P1", 100.1, 50.1, let_in=6),
        pose("P1", 190.1, 50.1, let_in=6, turned_deg=Decimal(90), copy=2),
    )
    two = replace(flange(), quantity=2, poses=put)
    (one,) = [each for each in found(CORNER, replace(board(), pockets=pockets), two) if each.place == "R"]
    assert one.value == pytest.approx(1.2462, abs=1e-4)


def rail(mark: str, v: float, face: str, depth: float | None, material: str = "European oak") -> Component:
    groove = pocket("G", face, 30, 7, 420, 8, depth, cutter=8)
    return block(mark, 480, 60, 22, pose("", 0, v), material=material, pockets=(groove,))


def framed(
    depth: float, *, cut: str = "flat", material: str = "European oak", swing: str = ""
) -> list[Finding]:
    """A panel 300 wide whose edges go 8 mm into both grooves."""
    panel = block("P3", 400, 300, 8, pose("", 40, 52, let_in=-7), material=material, grain_cut=cut)
    context = Context(moisture_change_percent=Decimal(swing)) if swing else Context()
    return found(PANEL, rail("P1", 0, "back", depth), rail("P2", 344, "front", depth), panel, context=context)


@pytest.mark.parametrize(
    ("depth", "severity"),
    [(10.0, "error"), (11.23, "error"), (11.24, "warning"), (11.88, "warning"), (11.89, None), (14.0, None)],
)
def test_a_panel_needs_its_movement_and_a_millimetre(depth: float, severity: str | None) -> None:
    """300 x 0.00365 x 5 = 5.475; least 6.475, 3.2375 a side; 1.2 times: 7.77, 3.885 a side."""
    findings = framed(depth)
    assert [one.severity for one in findings] == ([severity] if severity else [])
    if severity:
        (one,) = findings
        assert one.value == pytest.approx(2 * (depth - 8))
        assert one.limit == pytest.approx(6.475 if severity == "error" else 7.77)


def test_quarter_sawn_moves_half_and_the_swing_is_the_builds() -> None:
    """300 x 0.0018 x 5 = 2.7, with 1 mm 3.7, 1.2 times 4.44; at 10 points flat 10.95."""
    for depth, cut, swing, severities in (
        (10.3, "quarter", "", []), (10.1, "quarter", "", ["warning"]), (9.8, "quarter", "", ["error"]),
        (14.0, "flat", "10", ["warning"]), (13.9, "flat", "10", ["error"]),
    ):  # fmt: skip
        findings = framed(depth, cut=cut, swing=swing)
        assert [one.severity for one in findings] == severities


def test_plywood_does_not_move() -> None:
    assert framed(8.5, material="birch plywood") == []


def test_the_grooves_can_be_cut_deeper() -> None:
    panel = block("P3", 400, 300, 8, pose("", 40, 52, let_in=-7), material="European oak")
    for depth in (10.0, 11.5):
        worked = inspected(rail("P1", 0, "back", depth), rail("P2", 344, "front", depth), panel)
        assert left_after(worked, PANEL) == [[]]


def test_a_panel_in_one_groove_and_grooves_at_its_ends_are_no_matter() -> None:
    panel = block("P3", 400, 300, 8, pose("", 40, 52, let_in=-7), material="European oak")
    assert found(PANEL, rail("P1", 0, "back", 9), panel) == []
    turned = block(
        "P3", 300, 400, 8, pose("", 440, 52, let_in=-7, turned_deg=Decimal(90)), material="European oak"
    )
    assert found(PANEL, rail("P1", 0, "back", 9), rail("P2", 344, "front", 9), turned) == []
