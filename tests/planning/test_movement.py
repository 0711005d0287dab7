"""Whether a group of screws lets the wood move across its grain."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from calculators.planning.model import Build, Context, LayerHole
from calculators.planning.resolving import resolve_build
from tests.planning.test_resolving import BATTENS, BOARD, batten_screws, build, mm


def movement(whole: Build) -> list:
    return [one for one in resolve_build(whole).findings if one.rule == "wood-movement"]


def test_round_holes_in_a_batten_across_a_wide_board_are_an_error() -> None:
    """95 mm x 0.00365 x 5 points = 1.73 mm (Wood Handbook coefficient for white oak, flat-sawn)."""
    (found,) = movement(build(batten_screws()))
    assert (found.severity, found.part) == ("error", "P02")
    assert found.value == pytest.approx(95 * 0.00365 * 5, abs=5e-4)
    assert found.limit == pytest.approx((4.5 - 0.164 * 25.4) / 2, abs=5e-4)
    assert found.place in {"1", "3"}
    assert found.mends[0].value == "9.5"  # 4.17 + 2 x 1.73 / 0.7 = 9.12, to the next half millimetre
    # the board moves across its own grain, which is along the batten, so the slots lie along the batten
    says = "Slots 9.5 mm long in P02, along its length, at all places but the one held tight."
    assert found.mends[0].says == says


@pytest.mark.parametrize(("slot", "severity"), [(9.5, None), (8.5, "warning"), (7.0, "error")])
def test_a_slot_across_the_grain_gives_way(slot: float, severity: str | None) -> None:
    """Float: (9.5 - 4.17) / 2 = 2.67, 1.73 is 65 %; 8.5 gives 2.17, 80 %; 7.0 gives 1.42, too little."""
    outer = LayerHole(("1", "3"), "slot", mm(4.5), slot_length=mm(slot), slot_along="u")
    found = movement(build(batten_screws(holes=(LayerHole(diameter=mm(4.5)), outer))))
    assert [one.severity for one in found] == ([severity] if severity else [])


def test_a_slot_the_wrong_way_does_not_help() -> None:
    outer = LayerHole(("1", "3"), "slot", mm(4.5), slot_length=mm(9.5), slot_along="v")
    (found,) = movement(build(batten_screws(holes=(LayerHole(diameter=mm(4.5)), outer))))
    assert found.severity == "error"


def test_quarter_sawn_wood_moves_less() -> None:
    (found,) = movement(build(batten_screws(), parts=(replace(BOARD, grain_cut="quarter"), BATTENS)))
    assert found.value == pytest.approx(95 * 0.00180 * 5, abs=5e-4)


def test_the_place_held_tight_is_where_movement_is_counted_from() -> None:
    (found,) = movement(build(batten_screws(fixed_place="1")))
    assert found.value == pytest.approx(190 * 0.00365 * 5, abs=1e-3)
    assert found.place == "3"


def test_a_narrow_group_is_let_be() -> None:
    narrow = replace(batten_screws(), places=batten_screws().places[1:2])
    assert movement(build(narrow)) == []


def test_wood_along_the_same_grain_does_not_slide() -> None:
    along = tuple(
        replace(pose, turned_deg=Decimal(0), u=mm(100), v=mm(50 + 60 * i))
        for i, pose in enumerate(BATTENS.poses)
    )
    assert movement(build(batten_screws(), parts=(BOARD, replace(BATTENS, poses=along)))) == []


def test_a_smaller_swing_of_moisture_moves_it_less() -> None:
    calm = replace(build(batten_screws()), context=Context(moisture_change_percent=Decimal("0.3")))
    assert movement(calm) == []  # 0.104 of 0.167 mm


def test_a_wood_of_unknown_movement_is_not_passed_over() -> None:
    strange = replace(BOARD, material="yew")
    found = movement(build(batten_screws(), parts=(strange, BATTENS)))
    assert [(one.severity, one.part) for one in found] == [("unchecked", "P01")]
    assert "How much yew moves across its grain is not known here" in found[0].says
