"""Rules for wood: screws near one another, grain, glue across it, moisture, shafts, movement that is not seen."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from calculators.joints.model import Finding
from calculators.planning.edits import finding_key, mend
from calculators.planning.inspection import inspect_build
from calculators.planning.model import (
    AssemblyStep,
    Build,
    Component,
    Context,
    Joint,
    LayerHole,
    Moisture,
    StackMember,
)
from tests.planning.checks.small_builds import GROUND, block, build, found, joint, mm, pose, turned

NO_8 = 4.1656
"""The shank of a No. 8: 0.060 + 0.013 x 8 in (ASME B18.6.1)."""


def of(rule: str, whole: Build) -> list[Finding]:
    return [one for one in inspect_build(whole).findings if one.rule == rule]


def left_after_mend(rule: str, whole: Build, index: int = 0) -> list[Finding]:
    """What is left of a rule after the first finding's mend is carried out, which makes no new error."""
    worked = inspect_build(whole)
    one = next(each for each in worked.findings if each.rule == rule)
    after = inspect_build(mend(worked, finding_key(one), index))
    errors = {(each.rule, each.where) for each in worked.findings if each.severity == "error"}
    assert {(each.rule, each.where) for each in after.findings if each.severity == "error"} <= errors
    return [each for each in after.findings if each.rule == rule]


def screws(*places: tuple[float, float], **more: Any) -> tuple[Component, Component, Joint]:
    """A plate of brass on a board of beech, No. 8 screws with their places from the plate's corner."""
    fastener = more.pop("fastener", "No. 8 x 3/4 in round slotted brass")
    hole = LayerHole(pilot=more.pop("pilot", True))
    stack = ("P02", StackMember(part="P01", holes=(hole,)))
    board = block("P01", 400, 100, 25, *GROUND, grain_cut="flat", material=more.pop("wood", "beech"))
    plate = block("P02", 200, 80, 3, pose("P01", 100, 10), material="brass")
    return board, plate, joint("F01", fastener, "P02", "top", list(places), *stack, steel_first=True, **more)


@pytest.mark.parametrize(
    ("second", "severity"),
    [
        ((66.7, 40), None),  # 16.7 along the grain; 4 x 4.1656 = 16.66
        ((66.6, 40), "warning"),
        ((58.4, 40), "warning"),  # half of it is 8.33
        ((58.3, 40), "error"),
        ((50, 52.5), None),  # 12.5 across; 3 x 4.1656 = 12.4968
        ((50, 52.4), "warning"),
        ((50, 46.2), "error"),  # half of it is 6.248
        ((60, 50.1), None),  # (10 / 16.662)^2 + (10.1 / 12.497)^2 = 0.360 + 0.653 = 1.013
        ((60, 49.9), "warning"),  # 0.360 + (9.9 / 12.497)^2 = 0.360 + 0.628 = 0.988
    ],
)
def test_screws_stand_apart_by_the_ellipse(second: tuple[float, float], severity: str | None) -> None:
    """EN 1995-1-1 table 8.2, predrilled: a1 4 d along, a2 3 d across (from memory); not loaded sideways."""
    seen = found("spacing-in-wood", *screws((50, 40), second))
    assert [one.severity for one in seen] == ([severity] if severity else [])


@pytest.mark.parametrize(
    ("more", "good", "near"),
    [
        ({"loaded_sideways": True}, 20.9, 20.8),  # 5 d = 20.83
        ({"pilot": False, "wood": "Sitka spruce"}, 20.9, 20.8),  # light, not drilled: 5 d under 5 mm
        ({"pilot": False, "wood": "Sitka spruce", "loaded_sideways": True}, 41.7, 41.6),  # 10 d = 41.66
        ({"pilot": False, "wood": "beech"}, 29.2, 29.1),  # dense, not drilled: 7 d = 29.16
    ],
)
def test_load_and_missing_holes_want_more(more: dict[str, Any], good: float, near: float) -> None:
    assert found("spacing-in-wood", *screws((50, 40), (50 + good, 40), **more)) == []
    (one,) = found("spacing-in-wood", *screws((50, 40), (50 + near, 40), **more))
    assert one.severity == "warning"


def test_thick_screws_stand_four_diameters_apart_across_too() -> None:
    """Over 6 mm by the table of bolts, a2 = 4 d; a metric wood screw of 8: 32 mm."""
    thick = "M8 x 40 coach screw zinc plated"
    assert found("spacing-in-wood", *screws((50, 20), (50, 52.1), fastener=thick)) == []
    (one,) = found("spacing-in-wood", *screws((50, 20), (50, 51.9), fastener=thick))
    assert one.value == pytest.approx(100 * 31.9 / 32)


def test_a_row_tells_its_worst_pair_once_with_what_it_says() -> None:
    (one,) = found("spacing-in-wood", *screws((50, 40), (62, 40), (73, 40)))
    assert one.says == (
        "Screws 2 and 3 of F01 are 11.0 mm apart along the grain and 0.0 across it in P01; 16.7 along or 12.5 "
        "across is wanted for 4.17 mm screws. That is 66 %: the wood may split between. 1 more pair of theirs "
        "stand too near."
    )
    assert (one.joint, one.part, one.place, one.at) == ("F01", "P01", "3", "joints[F01].places[3]")
    assert [(spot.part, spot.face, spot.u_mm, spot.v_mm) for spot in one.spots] == [
        ("P01", "top", 162.0, 50.0), ("P01", "top", 173.0, 50.0),
    ]  # fmt: skip
    assert one.value == pytest.approx(100 * 11 / (4 * NO_8))


def test_screws_are_moved_apart() -> None:
    assert left_after_mend("spacing-in-wood", build(*screws((50, 40), (62, 40)))) == []


def test_screws_in_different_faces_copies_or_in_plywood_are_let_be() -> None:
    board, plate, fixing = screws((50, 40), (56, 40))
    assert found("spacing-in-wood", replace(board, material="birch plywood"), plate, fixing) == []
    below = replace(plate, mark="P03", poses=(pose("P01", 100, 10, face="bottom"),))
    under = replace(fixing, mark="F02", home="P03", places=fixing.places[:1],
                    stack=(StackMember(part="P03"), StackMember(part="P01")))  # fmt: skip
    over = replace(fixing, places=fixing.places[:1])
    assert found("spacing-in-wood", board, plate, below, over, under) == []


def test_a_limit_of_the_build_stands_over_the_default() -> None:
    context = Context(limits=(("screws-apart", Decimal(70)),))
    assert found("spacing-in-wood", *screws((50, 40), (62, 40)), context=context) == []  # 72 %


def glued(width: float, material: str = "white oak", **turn: Any) -> Build:
    """A batten 40 wide glued across a board; `width` is how much of the board's width it spans."""
    board = block("P01", 400, 300, 20, *GROUND, material="white oak")
    batten = block("P02", width, 40, 20, pose("P01", 180, 20, **turn), material=material)
    step = AssemblyStep(3, "Batten glued on", fits=("P01", "P02"), glued=("P01", "P02"))
    return replace(build(board, batten), steps=(step,))


ACROSS = {"turned_deg": Decimal(90)}


@pytest.mark.parametrize(
    ("width", "severity"), [(100.0, None), (101.0, "warning"), (200.0, "warning"), (201.0, "error")]
)
def test_glue_across_the_grain_goes_to_a_hundred_millimetres(width: float, severity: str | None) -> None:
    seen = of("cross-grain-glue", glued(width, **ACROSS))
    assert [(one.severity, one.part, one.value) for one in seen] == (
        [(severity, "P01", pytest.approx(width))] if severity else []
    )


def test_glue_along_the_grain_or_to_plywood_is_let_be() -> None:
    assert of("cross-grain-glue", glued(220)) == []
    assert of("cross-grain-glue", glued(220, "birch plywood", **ACROSS)) == []


def ended(turned: int) -> Build:
    """A shelf glued by its end to a side: both 220 wide."""
    side = block("P01", 400, 220, 18, *GROUND, material="white oak")
    shelf = block(
        "P02",
        300,
        220,
        18,
        pose("P01", 100, 0, own_face="left", turned_deg=Decimal(turned)),
        material="white oak",
    )
    return replace(build(side, shelf), steps=(AssemblyStep(1, "Shelf to side", glued=("P01", "P02")),))


def test_an_end_glued_on_moves_with_the_side_where_their_widths_lie_together() -> None:
    """Upright as in a case, only the shelf's 18 mm lie along the side's grain; laid the other way, its 220 do."""
    assert of("cross-grain-glue", ended(90)) == []
    (one,) = of("cross-grain-glue", ended(0))
    assert (one.severity, one.part, one.value) == ("error", "P02", pytest.approx(220))


def test_a_batten_let_in_is_glued_as_far() -> None:
    (one,) = of("cross-grain-glue", glued(150, **ACROSS, let_in=4))
    assert one.value == pytest.approx(150)


def test_glued_boards_without_poses_are_told_once() -> None:
    whole = glued(220, **ACROSS)
    whole = replace(whole, components=tuple(replace(one, poses=()) for one in whole.components))
    assert [(one.severity, one.says) for one in of("cross-grain-glue", whole)] == [
        (
            "unchecked",
            "P01, over 100 mm wide, is glued in step 3 and without a pose: whether grain crosses grain there is "
            "not looked at.",
        )
    ]


def winder(end_float: float | None, apart: float = 160.0, **more: Any) -> Build:
    """A shaft in two blocks that screws from below fix to an oak base, `apart` across its grain."""
    base = block("P01", 300, 260, 25, *GROUND, material="white oak", grain_cut=more.pop("cut", "flat"))
    first, last = pose("P01", 120, 20), pose("P01", 120, 20 + apart, copy=2)
    blocks = block("P02", 60, 12, 60, first, last, material="brass")
    shaft = turned(
        "P03", 250, 8, pose("P01", 150, 65, face="front", let_in=255, own_face="right", point="centre"),
        material="silver steel", end_float=None if end_float is None else mm(end_float),
    )  # fmt: skip
    v = [260 - 26, 260 - 26 - apart]  # on the bottom v runs from the back
    holds = StackMember(part="P02", thread_depth=mm(18))
    fixing = joint("F01", "M5 x 40 hex set screw steel", "P01", "bottom",
                   [(x, y) for y in v for x in (130, 170)], "P01", holds, **more)  # fmt: skip
    return build(base, blocks, shaft, fixing)


@pytest.mark.parametrize(
    ("end_float", "severity"),
    [
        (3.42, None),
        (3.41, "warning"),
        (2.92, "warning"),
        (2.91, "error"),
        (0.0, "error"),
        (None, "unchecked"),
    ],
)
def test_a_shaft_across_the_grain_is_free_at_one_end(end_float: float | None, severity: str | None) -> None:
    """160 mm of flat sawn white oak: 160 x 0.00365 x 5 points = 2.92 mm (Wood Handbook table 13-5); 0.5 to spare."""
    seen = of("shaft-across-grain", winder(end_float))
    assert [(one.severity, one.part) for one in seen] == ([(severity, "P03")] if severity else [])
    if severity == "error":
        assert seen[0].value == pytest.approx((end_float or 0.0) - 2.92)


def test_the_end_of_a_shaft_is_set_free() -> None:
    assert left_after_mend("shaft-across-grain", winder(1.0)) == []


def test_quarter_sawn_wood_and_short_spans_want_less() -> None:
    """160 x 0.00180 x 5 = 1.44, and 0.5 to spare; under 100 mm nothing is asked."""
    assert of("shaft-across-grain", winder(1.94, cut="quarter")) == []
    assert [one.severity for one in of("shaft-across-grain", winder(1.93, cut="quarter"))] == ["warning"]
    assert of("shaft-across-grain", winder(0.0, apart=90.0)) == []


TODAY = date(2025, 3, 20)


def lid(*readings: Moisture, state: Any = "making", part: Any = "released", **more: Any) -> Build:
    board = block("P01", 500, 240, 18, *GROUND, material="white oak", state=part, stock="board")
    context = Context(**{"as_of": TODAY, "place_moisture_percent": Decimal(9), **more})
    return replace(build(board, context=context), state=state, moisture=readings)


@pytest.mark.parametrize(
    ("on", "percent", "severity", "unit"),
    [
        (date(2025, 3, 6), "11", None, ""),  # 14 days, 2 points
        (date(2025, 3, 5), "11", "warning", "days"),  # 15 days
        (date(2025, 3, 19), "11.1", "warning", "points"),
        (date(2025, 3, 19), "6.9", "warning", "points"),
        (date(2025, 3, 21), "9", "error", ""),  # tomorrow's reading is none yet
    ],
)
def test_wood_is_measured_before_it_is_cut(on: date, percent: str, severity: str | None, unit: str) -> None:
    seen = of("moisture-logged", lid(Moisture("m1", on, Decimal(percent))))
    assert [(one.severity, one.unit) for one in seen] == ([(severity, unit)] if severity else [])


def test_the_last_reading_of_the_part_counts() -> None:
    old, new = (Moisture(f"m{i}", date(2025, 3, 10 + i), Decimal(p), ("P01",)) for i, p in ((1, 15), (2, 9)))
    assert of("moisture-logged", lid(new, old)) == []
    of_another = Moisture("m3", TODAY, Decimal(9), ("P09",))
    assert [one.says for one in of("moisture-logged", lid(of_another))] == [
        "No moisture reading of P01, about to be cut to size: measure before cutting, or it shrinks or swells out "
        "of size in its place."
    ]


@pytest.mark.parametrize(
    ("state", "part", "severities"),
    [
        ("making", "planned", ["error"]),
        ("planning", "planned", []),
        ("planning", "released", ["warning"]),
        ("making", "made", []),
        ("done", "released", []),
        ("quoted", "released", []),
    ],
)
def test_only_wood_about_to_be_cut_is_asked_for(state: str, part: str, severities: list[str]) -> None:
    assert [one.severity for one in of("moisture-logged", lid(state=state, part=part))] == severities


@pytest.mark.parametrize("missing", ["as_of", "place_moisture_percent"])
def test_without_day_or_place_it_is_told_once(missing: str) -> None:
    (one,) = of("moisture-logged", lid(**{missing: None}))
    assert (one.severity, one.at) == ("unchecked", f"context.{missing}")


def test_a_part_without_sizes_does_not_say_its_grain() -> None:
    bare = Component("P01", "Board", material="beech")
    assert [one.severity for one in found("grain-said", bare)] == ["warning"]
    plate = block("P02", 200, 80, 3, material="brass")
    fixing = joint("F01", "No. 8 x 3/4 in round slotted brass", "P02", "top", [(20, 20)], "P02",
                   StackMember(part="P01", thickness=mm(25)))  # fmt: skip
    assert [one.severity for one in found("grain-said", bare, plate, fixing)] == ["error"]
    assert found("grain-said", replace(bare, material="brass")) == []
    assert found("grain-said", replace(bare, stock="bought")) == []


@pytest.mark.parametrize(("length", "width", "seen"), [(100, 101, True), (101, 101, False), (50, 60, False)])
def test_wider_than_long_with_fixings_is_asked(length: float, width: float, *, seen: bool) -> None:
    wood = block("P01", length, width, 25, *GROUND, grain_cut="flat")
    plate = block("P02", 40, 40, 3, pose("P01", 0, 0), material="brass")
    fixing = joint("F01", "No. 8 x 3/4 in round slotted brass", "P02", "top", [(20, 20)], "P02", "P01")
    assert bool(found("grain-said", wood, plate, fixing)) is seen
    assert found("grain-said", wood) == []  # nothing is fixed to it


@pytest.mark.parametrize(("cut", "span", "seen"), [("", 101, True), ("", 100, False), ("flat", 150, False)])
def test_how_it_was_sawn_is_asked_where_fixings_span_it(cut: Any, span: float, *, seen: bool) -> None:
    wood = block("P01", 400, 200, 25, *GROUND, grain_cut=cut)
    batten = block("P02", 190, 40, 20, pose("P01", 100, 5, turned_deg=Decimal(90)), grain_cut="flat")
    places = [(10, 20), (10 + span, 20)]
    fixing = joint("F01", "No. 8 x 1 1/2 in round slotted brass", "P02", "top", places, "P02", "P01")
    notes = found("grain-said", wood, batten, fixing)
    assert [(one.severity, one.part) for one in notes] == ([("note", "P01")] if seen else [])
    if seen:
        assert left_after_mend("grain-said", build(wood, batten, fixing)) == []


@pytest.mark.parametrize(("span", "seen"), [(101.0, True), (100.0, False)])
def test_movement_that_cannot_be_seen_is_told_once(span: float, *, seen: bool) -> None:
    board, plate = block("P01", 400, 200, 25), block("P02", 190, 40, 3, material="brass")
    stack = ("P02", StackMember(part="P01", thickness=mm(25)))
    fastener = "No. 8 x 3/4 in round slotted brass"
    first = joint("F01", fastener, "P02", "top", [(10, 20), (10 + span, 20)], *stack)
    second = replace(first, mark="F02")
    assert [(one.severity, one.says) for one in found("movement-unseen", board, plate, first, second)] == (
        [
            (
                "unchecked",
                "The fixings of F01 and F02 may span more than 100 mm across the grain of solid wood, and its parts "
                "have no poses: whether their holes let the wood move is not looked at.",
            )
        ]
        if seen
        else []
    )
