"""Stock that holds its parts, sheet that is measured, hardware that is there."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.joints.model import Finding
from calculators.planning.checks.sheets import bare_gauge
from calculators.planning.edits import finding_key, mend
from calculators.planning.inspection import inspect_build
from calculators.planning.model import (
    AssemblyStep,
    Build,
    Calculation,
    Component,
    Context,
    Pocket,
    Size,
    StackMember,
    Stock,
)
from calculators.quantities import read_length
from tests.demonstration.test_demonstration_files import build_of
from tests.planning.checks.small_builds import block, joint, mm, pose, turned


def found(build: Build, rule: str) -> list[Finding]:
    return [one for one in inspect_build(build).findings if one.rule == rule]


def mended(build: Build, rule: str, index: int = 0) -> Build:
    worked = inspect_build(build)
    [one] = [each for each in worked.findings if each.rule == rule]
    return mend(worked, finding_key(one), index)


def board(mark: str, length: float, width: float, thickness: float, **more: object) -> Component:
    return replace(block(mark, length, width, thickness), stock="board", **more)  # type: ignore[arg-type]


def stock(mark: str, length: float, width: float, thickness: float, **more: object) -> Stock:
    more = {"material": "beech", "form": "board", "measured": True, **more}
    return Stock(mark, f"piece {mark}", length=mm(length), width=mm(width), thickness=mm(thickness), **more)  # type: ignore[arg-type]


def cut(part: Component, *pieces: Stock, **more: object) -> Build:
    return Build("M1", "Thing", components=(part,), stock=pieces, **more)  # type: ignore[arg-type]


# A board of 600 x 90 x 20 is cut out at 612 x 96 x 25 (12, 6, and 2.5 for each of two faces).
@pytest.mark.parametrize(
    ("piece", "severity", "place", "value", "limit"),
    [
        ((617, 101, 25), "", "", 0, 0),  # 612 + 5 and 96 + 5: just enough
        ((616.9, 101, 25), "warning", "length", 616.9, 617.0),  # 4.9 to spare
        ((617, 100.9, 25), "warning", "width", 100.9, 101.0),
        ((612, 101, 24.9), "warning", "thickness", 24.9, 25.0),  # 4.9 to plane off, 5 is usual
        ((611, 101, 25), "warning", "length", 611, 617.0),  # 11 for sawing, 12 is usual
        ((600, 101, 25), "warning", "length", 600, 617.0),  # as long as the part, and not a hair more
        ((599.9, 101, 25), "error", "length", 599.9, 600.0),
        ((617, 101, 19.9), "error", "thickness", 19.9, 20.0),
    ],
)
def test_a_board_against_the_piece_that_it_is_cut_from(
    piece: tuple[float, float, float], severity: str, place: str, value: float, limit: float
) -> None:
    one = found(cut(board("P01", 600, 90, 20, from_stock="S1"), stock("S1", *piece)), "stock-holds-part")
    if not severity:
        assert one == []
    else:
        assert [
            (each.severity, each.part, each.place, each.value, each.limit, each.unit) for each in one
        ] == [(severity, "P01", place, value, limit, "mm")]
        assert one[0].at == "components[P01].from_stock"


def test_wood_is_not_turned_out_of_its_grain() -> None:
    across = stock("S1", 120, 700, 25)
    assert [each.place for each in found(cut(board("P01", 600, 90, 20, from_stock="S1"), across), "stock-holds-part")] == ["length"]  # fmt: skip


# A sheet part is cut out as finished: 5 mm to spare for the saw, or none where the sheet is as wide as the part.
@pytest.mark.parametrize(
    ("length", "width", "place"),
    [(405, 205, ""), (404.9, 205, "length"), (405, 204.9, "width"), (400, 205, ""), (205, 405, "")],
)
def test_a_sheet_part_has_room_for_the_saw(length: float, width: float, place: str) -> None:
    part = replace(block("P01", 400, 200, 3, material="brass"), stock="sheet", from_stock="S1")
    one = found(cut(part, stock("S1", length, width, 3, material="brass", form="sheet")), "stock-holds-part")
    assert [(each.severity, each.place) for each in one] == [("warning", place)] * bool(place)


def test_metal_may_lie_any_way_in_its_piece() -> None:
    """60 x 30 x 12, faced 1.5 at each end (63), out of a flat 30 x 12 of 100, whichever is called its width."""
    part = replace(block("P01", 60, 30, 12, material="brass"), stock="bar", from_stock="S1")
    flat = stock("S1", 100, 30, 12, material="brass", form="bar")
    assert found(cut(part, flat), "stock-holds-part") == []
    lying = replace(part, size=Size("block", mm(60), mm(12), mm(30)))
    assert found(cut(lying, flat), "stock-holds-part") == []


def test_a_square_part_out_of_round_bar_needs_its_diagonal() -> None:
    """A square of 20 has a diagonal of 20 x sqrt 2 = 28.28."""
    part = replace(block("P01", 60, 20, 20, material="brass"), stock="bar", from_stock="S1")
    bar = Stock("S1", "brass round", "brass", "bar", mm(100), diameter=mm(28))
    [one] = found(cut(part, bar), "stock-holds-part")
    assert (one.severity, one.value, one.limit) == ("error", 28.0, pytest.approx(28.2843, abs=1e-4))
    assert found(cut(part, replace(bar, diameter=mm(28.3))), "stock-holds-part") == []


def test_a_turned_part_may_be_as_thick_as_its_bar() -> None:
    part = replace(turned("P01", 165, 19.05), stock="turned", from_stock="S1")
    bar = Stock("S1", "brass round 3/4 in", "brass", "bar", mm(330), diameter=read_length("3/4 in"))
    assert found(cut(part, bar), "stock-holds-part") == []


def test_a_wide_panel_is_glued_up() -> None:
    """280 wide, cut out at 286, from boards of 190: 286 / 190 = 1.5, so two staves."""
    [one] = found(
        cut(board("P01", 600, 280, 20, from_stock="S1"), stock("S1", 1500, 190, 27)), "stock-holds-part"
    )
    assert (one.severity, one.value, one.limit) == ("note", 190.0, 280.0)
    assert one.says == ("P01 is 280 wide and S1 (piece S1) is 190: it takes 2 staves glued edge to edge.")


def test_the_mend_takes_a_piece_that_holds_it() -> None:
    build = cut(
        board("P01", 600, 90, 20, from_stock="S1"),
        stock("S1", 500, 101, 25),
        stock("S2", 610, 101, 25),  # would be found too short itself
        stock("S3", 900, 120, 27),
    )
    after = mended(build, "stock-holds-part")
    assert after.components[0].from_stock == "S3"
    assert found(after, "stock-holds-part") == []


def test_a_part_with_no_piece_named_is_held_against_the_rack() -> None:
    build = cut(board("P01", 600, 90, 20), stock("S1", 500, 101, 25), stock("S2", 590, 101, 25))
    [one] = found(build, "stock-holds-part")
    assert (one.severity, one.value, one.limit) == ("warning", 590.0, 600.0)
    oak = replace(build, components=(replace(build.components[0], material="European oak"),))
    assert found(oak, "stock-holds-part") == []  # no oak on the rack: nothing is known of what it is cut from


def test_what_is_made_or_bought_is_not_looked_at() -> None:
    for changes in ({"state": "made"}, {"stock": "bought"}, {"reused": True}):
        part = replace(board("P01", 600, 90, 20, from_stock="S1"), **changes)  # type: ignore[arg-type]
        assert found(cut(part, stock("S1", 100, 50, 10)), "stock-holds-part") == []


def test_an_empty_rack_is_told_once_and_only_while_making() -> None:
    parts = tuple(board(f"P0{n}", 600, 90, 20) for n in range(1, 4))
    making = Build("M1", "Thing", state="making", components=parts)
    assert [one.severity for one in found(making, "stock-holds-part")] == ["unchecked"]
    assert found(replace(making, state="planning"), "stock-holds-part") == []


# Four rods of 240, faced to 243, with a cut of 3 each less one: 4 x 246 - 3 = 981.
@pytest.mark.parametrize(("length", "is_found"), [(981.0, False), (980.9, True)])
def test_rods_out_of_one_length(length: float, is_found: bool) -> None:
    part = replace(turned("P01", 240, 10), stock="bar", quantity=4, from_stock="S1")
    bar = Stock("S1", "rod", "brass", "bar", mm(length), diameter=mm(10), count=1)
    assert bool(found(cut(part, bar), "stock-runs-out")) is is_found


# Two shelves of 800 x 200 out of a sheet of 1 x 0.4 m: 0.32 of 0.4 m2 is 80 %; a third makes 0.48 m2.
@pytest.mark.parametrize(
    ("count", "width", "severity"), [(2, 200, ""), (2, 215, "warning"), (3, 200, "error")]
)
def test_parts_out_of_one_sheet(count: int, width: float, severity: str) -> None:
    part = replace(
        block("P01", 800, width, 9, material="birch plywood"), stock="sheet", quantity=count, from_stock="S1"
    )
    sheet = stock("S1", 1000, 400, 9, material="birch plywood", form="sheet")
    assert [one.severity for one in found(cut(part, sheet), "stock-runs-out")] == [severity] * bool(severity)


def grooved(groove: float, **sheet: object) -> Build:
    """A side with a groove across it, and a shelf of ply let 6 into that."""
    side = replace(
        board("P01", 600, 180, 20, poses=(pose(),)),
        pockets=(Pocket("G", "top", mm(300), mm(0), mm(groove), mm(180), mm(6)),),
    )
    lies = pose("P01", 300 + groove, 0, own_face="left", let_in=6, turned_deg=Decimal(90))
    shelf = replace(
        block("P02", 400, 180, 18, lies, material="birch plywood"), stock="sheet", from_stock="S1"
    )
    piece = stock("S1", 1220, 610, 18, material="birch plywood", form="sheet", **{"measured": False, **sheet})
    return Build("M2", "Cabinet", components=(side, shelf), stock=(piece,))


def test_a_groove_cut_for_a_sheet_by_its_name() -> None:
    [one] = found(grooved(18), "sheet-measured")
    assert (one.severity, one.part, one.value) == ("warning", "P02", 18.0)
    assert one.says == (
        "P02 is 18 by its name and not measured, but pocket G of P01 is as wide as it is thick: measure the "
        "sheet before anything is cut to it."
    )


def test_a_measured_sheet_or_part_is_no_fault() -> None:
    assert found(grooved(18, measured=True), "sheet-measured") == []
    build = grooved(18)
    for changes in (
        {"evidence": "measured"},
        {"made_size": replace(build.components[1].size)},
        {"state": "made"},
    ):
        shelf = replace(build.components[1], **changes)  # type: ignore[arg-type]
        assert found(replace(build, components=(build.components[0], shelf)), "sheet-measured") == []


def test_a_sheet_that_nothing_is_made_for_need_not_be_measured() -> None:
    build = grooved(18)
    loose = replace(build.components[1], poses=())
    assert found(replace(build, components=(build.components[0], loose)), "sheet-measured") == []


def test_a_kept_calculation_that_takes_its_thickness() -> None:
    build = grooved(18)
    loose = replace(build.components[1], poses=())
    kept = Calculation("K01", "Shelf sag", "shelf-sag", ties=(("thickness", "P02 thickness"),))
    [one] = found(replace(build, components=(loose,), calculations=(kept,)), "sheet-measured")
    assert "K01 is worked with its thickness" in one.says


# 17.2 measured; 17.3 is 0.1 off, 17.35 is 0.15 off.
@pytest.mark.parametrize(("said", "is_found"), [(17.2, False), (17.3, False), (17.35, True), (18.0, True)])
def test_a_part_of_another_thickness_than_its_sheet_measures(said: float, is_found: bool) -> None:
    build = grooved(18, measured=True, count=1)
    piece = replace(build.stock[0], thickness=mm(17.2))
    shelf = replace(build.components[1], poses=(), size=Size("block", mm(400), mm(180), mm(said)))
    build = replace(build, components=(shelf,), stock=(piece,))
    assert [(one.severity, one.limit) for one in found(build, "sheet-measured")] == [
        ("error", 17.2)
    ] * is_found
    if is_found:
        after = mended(build, "sheet-measured")
        assert after.components[0].size.thickness is not None
        assert after.components[0].size.thickness.mm == 17.2
        assert found(after, "sheet-measured") == []


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("16 gauge sheet", 16),
        ("brass, 22 ga.", 22),
        ("18-gage", 18),
        ("16 SWG sheet", None),
        ("16 gauge (SWG)", None),
        ("16 gauge U.S. steel", None),
        ("gauge plate O1", None),
        ("music wire 20 gauge", None),
        ("for 8 gauge screws", None),
        ("M5 gauge", None),
        ("", None),
    ],
)
def test_bare_gauge_numbers(text: str, number: int | None) -> None:
    assert bare_gauge(text) == number


def test_a_gauge_with_its_thickness_in_millimetres_is_no_fault() -> None:
    tray = Component("P01", "Tray", material="brass", stock="sheet", size=Size("block", mm(200), mm(120)), note="16 gauge")  # fmt: skip
    build = Build("M3", "Tray", components=(tray,))
    [one] = found(build, "sheet-measured")
    assert (one.severity, one.part) == ("error", "P01")
    assert one.says.startswith("P01 is “16 gauge”, of no system: 1.63 mm as 16 SWG, ")
    known = replace(tray, size=replace(tray.size, thickness=mm(1.6)))
    assert found(replace(build, components=(known,)), "sheet-measured") == []


def held(*hardware: tuple[str, float], **more: object) -> Build:
    """A brass shoe held to a leg by four brass screws, and a washered bolt through both."""
    leg = replace(block("P01", 300, 60, 30, pose(), material="ash"), stock="board")
    shoe = replace(block("P02", 80, 60, 6, pose("P01", 80, 0), material="brass"), stock="bar")
    screws = joint(
        "F01", "No. 8 x 1 1/4 in csk slotted brass wood screw", "P02", "top",
        [(15, 15), (65, 15), (15, 45), (65, 45)], "P02", "P01", steel_first=True,
    )  # fmt: skip
    bolt = joint("F02", "M5 x 50 hex steel", "P02", "top", [(40, 30)], "P02", "P01", StackMember(item="M5 washer"), StackMember(item="M5 full nut"))  # fmt: skip
    context = Context(hardware=tuple((text, Decimal(str(count))) for text, count in hardware))
    return Build("M4", "Foot", components=(leg, shoe), joints=(screws, bolt), context=context, **more)  # type: ignore[arg-type]


ALL = (
    ("#8 x 1-1/4 flat head brass", 6),
    ("No. 8 x 1 1/4 csk slotted steel", 1),
    ("M5 x 50 hex steel", 1),
    ("M5 washer", 1),
    ("M5 full nut", 4),
)


def test_nothing_listed_nothing_said() -> None:
    assert found(held(), "enough-hardware") == []


def test_all_is_there_however_it_is_written() -> None:
    assert found(held(*ALL), "enough-hardware") == []


# Four brass screws, and two to spare since brass twists off.
@pytest.mark.parametrize(
    ("count", "wanted"),
    [(6, []), (5, [("warning", 5.0, 6.0)]), (4, [("warning", 4.0, 6.0)]), (3, [("error", 3.0, 4.0)])],
)
def test_enough_with_spares(count: float, wanted: list[tuple[str, float, float]]) -> None:
    one = found(held((ALL[0][0], count), *ALL[1:]), "enough-hardware")
    assert [(each.severity, each.value, each.limit) for each in one] == wanted


def test_two_tins_of_one_screw_are_counted_together() -> None:
    assert found(held(("No. 8 x 1 1/4 csk brass", 3), *ALL), "enough-hardware") == []
    split = (("No. 8 x 1 1/4 csk brass", 3), ("#8 x 1-1/4 flat head brass", 2), *ALL[1:])
    assert [each.value for each in found(held(*split), "enough-hardware")] == [5.0]


def test_another_metal_is_another_screw() -> None:
    """The brass ones are not there; one steel twin is wanted and there are nine."""
    [one] = found(held(("No. 8 x 1 1/4 csk slotted steel", 9), *ALL[2:]), "enough-hardware")
    assert one.severity == "warning"
    assert one.says == ("Not among the hardware in hand or on order: 4 x No. 8 x 1 1/4 csk slotted brass.")


def test_what_is_fitted_needs_nothing_from_the_drawer() -> None:
    from datetime import date

    done = AssemblyStep(1, "Shoe", fits=("P01", "P02", "F01", "F02"), done=date(2025, 5, 1))
    assert found(held((ALL[0][0], 1), *ALL[1:], steps=(done,)), "enough-hardware") == []


def test_a_line_that_cannot_be_read_is_told() -> None:
    [one] = found(held(("a tin of bits", 40), *ALL), "enough-hardware")
    assert (one.severity, one.at) == ("unchecked", "context.hardware[a tin of bits]")
    [other] = found(held(("a tin] of bits", 40), *ALL), "enough-hardware")
    assert other.at == "context.hardware"


def test_nothing_of_the_demonstration_is_short() -> None:
    for number in ("TW-31", "TW-32", "TW-33"):
        for rule in ("stock-runs-out", "sheet-measured"):
            assert found(build_of(number), rule) == []


# Lying flat it is 10 (or 30) thick in 10 (or 20) and too thick; on its edge it is glued up from staves.
@pytest.mark.parametrize(("thickness", "have"), [(20, 10), (30, 20)])
def test_a_part_thicker_than_wide_is_glued_up_the_other_way_round(thickness: int, have: int) -> None:
    one = replace(block("P01", 100, 10, thickness), stock="board", from_stock="S1")
    rack = stock("S1", 200, 10, have, material=one.material, form="board", measured=False)
    told = [each for each in found(cut(one, rack), "stock-holds-part") if each.severity == "error"]
    assert told == []


EDGES = st.integers(min_value=1, max_value=12)


@settings(deadline=None, max_examples=200)
@given(
    st.tuples(EDGES, EDGES, EDGES),
    st.tuples(EDGES, EDGES, EDGES),
    st.sampled_from(["metal", "wood", "sheet"]),
)
def test_a_part_that_goes_into_its_piece_some_way_is_never_an_error(
    part: tuple[int, int, int], piece: tuple[int, int, int], kind: str
) -> None:
    """Another way to tell: sort both (metal), or try the ways that grain and sheet leave open, one by one."""
    length, width, thickness = (10 * edge for edge in part)
    have = tuple(10 * edge for edge in piece)
    if kind == "metal":
        goes = all(a <= b for a, b in zip(sorted((length, width, thickness)), sorted(have), strict=True))
        one = replace(block("P01", length, width, thickness, material="mild steel"), stock="bar")
    elif kind == "sheet":
        goes = (
            thickness <= have[2]
            and max(length, width) <= max(have[:2])
            and min(length, width) <= min(have[:2])
        )
        one = replace(block("P01", length, width, thickness, material="brass"), stock="sheet")
    else:  # width may be glued up from staves, so that only length and the smaller edge of the rest decide
        ways = ((width, thickness), (thickness, width))
        goes = length <= have[0] and any(across <= have[2] for _, across in ways)
        one = replace(block("P01", length, width, thickness), stock="board")
    form = {"metal": "bar", "sheet": "sheet", "wood": "board"}[kind]
    rack = stock("S1", *have, material=one.material, form=form, measured=False)
    errors = [each for each in found(cut(replace(one, from_stock="S1"), rack), "stock-holds-part") if each.severity == "error"]  # fmt: skip
    assert bool(errors) is not goes
