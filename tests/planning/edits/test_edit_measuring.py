"""A piece of stock that is not what its name says, and every part that is cut from it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.planning.documents import check_whole
from calculators.planning.edits import compare_builds
from calculators.planning.edits.measuring import could_be_cut, cut_from, measure_stock
from calculators.planning.model import Build, Component, Pocket, Size, Stock
from calculators.quantities import Length, read_length
from calculators.quantities.errors import InputError
from tests.planning.strategies import builds


def mm(value: float) -> Length:
    return Length.of_mm(value)


PLY = Stock("S1", "18 mm birch ply", "birch ply", "sheet", mm(2440), mm(1220), mm(18), count=2)
ROD = Stock("S2", "silver steel", "silver steel", "bar", mm(330), diameter=mm(6))
SIDE = Component(
    "P1", "Side", material="birch ply", size=Size("block", mm(400), mm(200), mm(18)), from_stock="S1"
)
BUILD = Build(
    "B1",
    "Cabinet",
    components=(
        SIDE,
        replace(SIDE, mark="P2", name="Shelf", made_size=Size("block", mm(400), mm(200), mm(18))),
        replace(SIDE, mark="P3", name="Planed", size=Size("block", mm(400), mm(200), mm(12))),
        replace(SIDE, mark="P4", name="Of another sheet", from_stock=""),
        replace(SIDE, mark="P5", material="oak", name="Post", from_stock="", pockets=(
            Pocket("k1", "top", mm(9), mm(0), mm(18), mm(200), mm(6)),)),
        Component("P6", "Pin", size=Size("round", mm(60), diameter=mm(6)), from_stock="S2"),
    ),
    stock=(PLY, ROD),
)  # fmt: skip


def test_every_part_of_its_thickness_is_of_the_new_one_and_nothing_else_changes() -> None:
    found = measure_stock(BUILD, "S1", read_length("17.2"))
    check_whole(found.build)
    assert found.parts == ("P1", "P2")
    assert sorted((one.key, one.field, one.new) for one in compare_builds(BUILD, found.build)) == [
        ("P1", "size.thickness", "17.2 mm"),
        ("P2", "made_size.thickness", "17.2 mm"),
        ("P2", "size.thickness", "17.2 mm"),
        ("S1", "measured", "yes"),
        ("S1", "thickness", "17.2 mm"),
    ]


def test_of_a_round_the_diameter_is_measured() -> None:
    found = measure_stock(BUILD, "S2", read_length("5.98"))
    assert found.parts == ("P6",)
    assert found.build.components[5].size.diameter == read_length("5.98")
    assert found.build.stock[1].diameter == read_length("5.98")


def test_a_piece_that_had_no_thickness_gets_one_and_no_part_is_taken_for_its_own() -> None:
    bare = replace(BUILD, stock=(replace(PLY, thickness=None), ROD))
    found = measure_stock(bare, "S1", mm(17.2))
    assert found.parts == ()
    assert (found.build.stock[0].thickness, found.build.components) == (mm(17.2), bare.components)


def test_measuring_again_takes_the_parts_along_and_back() -> None:
    there = measure_stock(BUILD, "S1", mm(17.2)).build
    back = measure_stock(there, "S1", mm(18))
    assert back.parts == ("P1", "P2")
    assert back.build == replace(BUILD, stock=(replace(PLY, measured=True), ROD))


def test_what_cannot_be_measured_is_told() -> None:
    with pytest.raises(InputError, match="There is no stock 'S9'"):
        measure_stock(BUILD, "S9", mm(17))
    with pytest.raises(InputError, match="The thickness of a piece is more than 0"):
        measure_stock(BUILD, "S1", mm(0))


def test_parts_are_cut_from_a_piece_by_their_marks() -> None:
    after = cut_from(BUILD, "S1", ("p4", "P1"))
    check_whole(after)
    assert [one.mark for one in after.components if one.from_stock == "S1"] == ["P1", "P4"]
    with pytest.raises(InputError, match="There is no component 'P9'"):
        cut_from(BUILD, "S1", ("P9",))


def test_parts_of_its_material_and_thickness_are_offered() -> None:
    assert could_be_cut(BUILD, PLY) == ("P4",)
    assert could_be_cut(BUILD, replace(PLY, material="birch plywood")) == ("P4",)
    assert could_be_cut(BUILD, replace(PLY, material="")) == ()


@settings(deadline=None, max_examples=25, suppress_health_check=list(HealthCheck))
@given(builds(), st.integers(1, 10**9))
def test_measuring_leaves_any_build_sound(build: Build, ticks: int) -> None:
    for one in build.stock:
        found = measure_stock(build, one.mark, Length(ticks))
        check_whole(found.build)
        kept = {each.mark: each for each in build.components}
        for each in found.build.components:
            assert (each == kept[each.mark]) == (each.mark not in found.parts)
