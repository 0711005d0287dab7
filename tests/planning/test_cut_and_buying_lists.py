"""The cut list and the buying list: sizes with allowances, order, spares, stock added up by hand."""

from __future__ import annotations

from math import pi

import pytest

from calculators.hardware.designation import read_hardware
from calculators.planning.lines import read_part_line
from calculators.planning.model import Build, Component, Joint, Size
from calculators.planning.schedules import buying_list, cut_list
from calculators.planning.schedules.buying import spares_for, stock_named
from calculators.planning.worked import WorkedBuild
from calculators.quantities import InputError, read_length
from tests.planning.worked_by_hand import worked_build, worked_joint


def block(length: str, width: str, thickness: str) -> Size:
    return Size("block", read_length(length), read_length(width), read_length(thickness))


def rod(length: str, diameter: str) -> Size:
    return Size("round", read_length(length), diameter=read_length(diameter))


def build_of(*components: Component) -> Build:
    return Build("B1", "Box", components=components)


BASE = Component(
    "P01", "Base", material="oak", stock="board", size=block("640", "260", "28"), grain_cut="flat"
)
LEG = Component("P02", "Batten", quantity=2, material="oak", stock="board", size=block("240", "40", "22"))
PILLAR = Component("P10", "Pillar", material="brass", stock="bar", size=rod("6 1/2 in", "3/4 in"))


def test_longest_first_with_finished_sizes_as_written_and_usual_rough_sizes() -> None:
    lines = cut_list(build_of(LEG, PILLAR, BASE))
    assert [(line.mark, line.quantity, line.length.written) for line in lines] == [
        ("P01", 1, "640"),
        ("P02", 2, "240"),
        ("P10", 1, "6 1/2 in"),
    ]
    rough = [
        (line.rough_length_mm, line.rough_width_mm, line.rough_thickness_mm, line.rough_diameter_mm)
        for line in lines
    ]
    assert rough[0] == (640 + 12, 260 + 6, 28 + 2 * 2.5, None)
    assert rough[1] == (252, 46, 27, None)
    assert rough[2] == (pytest.approx(165.1 + 2 * 1.5), None, None, pytest.approx(19.05))
    assert [line.grain for line in lines] == ["along the length, flat-sawn", "along the length", ""]


def test_a_sheet_is_cut_as_finished_and_a_turned_wooden_part_is_longer() -> None:
    sheet = Component("P1", "Vane", material="copper", stock="sheet", size=block("60", "45", "1.2"))
    pad = Component("P2", "Pad", material="oak", stock="turned", size=rod("10", "30"))
    vane, knob = cut_list(build_of(sheet, pad))
    assert (vane.rough_length_mm, vane.rough_width_mm, vane.rough_thickness_mm) == (60, 45, 1.2)
    assert vane.rough_basis == "as finished"
    assert (knob.rough_length_mm, knob.rough_diameter_mm) == (22, 30)


def test_rough_sizes_of_its_own_win() -> None:
    own = Component(
        "P1",
        "Rail",
        material="oak",
        stock="board",
        size=block("500", "40", "18"),
        rough=Size(length=read_length("600")),
    )
    (line,) = cut_list(build_of(own))
    assert (line.rough_length_mm, line.rough_width_mm, line.rough_thickness_mm) == (600, 46, 23)
    assert line.rough_basis == "as stated; what is not stated, as usual"


def test_bought_reused_and_sub_assemblies_are_left_out_and_quantities_multiply() -> None:
    lines = cut_list(
        build_of(
            Component("A1", "Frame", quantity=3),
            Component("P1", "Rail", parent="A1", quantity=2, stock="board", size=block("10", "5", "2")),
            Component("P2", "Hinge", stock="bought", size=block("38", "22", "2")),
            Component("P3", "Yoke", reused=True, size=block("120", "25", "8")),
        )
    )
    assert [(line.mark, line.quantity) for line in lines] == [("P1", 6)]


def test_what_is_missing_is_named_and_comes_last() -> None:
    bare = Component("P1", "Lid", stock="board")
    half = Component("P2", "Peg", stock="bar", material="brass", size=Size("round", read_length("20")))
    lines = cut_list(build_of(bare, half))
    assert [(line.mark, line.missing, line.rough_length_mm) for line in lines] == [
        ("P2", ("diameter",), 23),
        ("P1", ("length",), None),
    ]


def test_a_ring_in_the_tree_gets_a_sentence() -> None:
    with pytest.raises(InputError) as caught:
        cut_list(build_of(Component("P1", "a", parent="P1")))
    assert caught.value.faults[0].says == "P1 is inside itself: its parents lead back to it."


@pytest.mark.parametrize(
    ("line", "count", "spares"),
    [
        ("No. 8 x 1 3/4 csk brass", 6, 2),
        ("No. 8 x 1 3/4 csk brass", 20, 2),
        ("No. 8 x 1 3/4 csk brass", 21, 3),
        ("No. 8 x 1 3/4 csk brass", 0, 0),
        ("No. 8 x 1 3/4 csk steel", 40, 0),
        ("M5 x 20 csk brass", 40, 0),
        ("M5 washer brass", 40, 0),
    ],
)
def test_brass_wood_screws_have_a_tenth_or_two_to_spare(line: str, count: int, spares: int) -> None:
    """Common practice: brass wood screws snap and slots tear."""
    assert spares_for(read_hardware(line), count) == spares


def test_fasteners_are_bought_with_spares_twins_and_members() -> None:
    worked = worked_build(
        worked_joint("F01", "No. 8 x 1 3/4 csk brass", 6, steel_first=True, supplier="ironmonger"),
        worked_joint("F05", "M5 x 40 hex steel", 4, items=("M5 washer",)),
        worked_joint("F06", "M5 x 40 hex steel cut to 33", 2),
        worked_joint("F07", "M4 x 10 csk steel", 0),
    )
    lines = buying_list(worked.build, worked)
    assert [
        (line.kind, line.what, line.count, line.spares, line.total, line.used, line.supplier)
        for line in lines
    ] == [
        ("fastener", "No. 8 x 1 3/4 csk brass", 6, 2, 8, ("F01",), "ironmonger"),
        ("fastener", "M5 x 40 hex steel", 6, 0, 6, ("F05", "F06"), ""),
        ("steel twin", "No. 8 x 1 3/4 csk steel", 1, 0, 1, ("F01",), ""),
        ("washer", "M5 washer", 4, 0, 4, ("F05",), ""),
    ]


def test_bought_parts_are_listed_unless_they_are_in_hand() -> None:
    build = build_of(
        Component("P42", "Butt hinge", quantity=2, stock="bought", state="in hand"),
        Component("P07", "Lid glass", stock="bought", note="arrissed"),
        Component("P27", "Spring", stock="bought", quantity=2, state="bought"),
        Component("P24", "Yoke", stock="bought", reused=True),
    )
    lines = buying_list(build, WorkedBuild(build))
    assert [(line.kind, line.what, line.count, line.used, line.note) for line in lines] == [
        ("part", "Lid glass", 1, ("P07",), "arrissed"),
        ("part", "Spring", 2, ("P27",), "on order"),
    ]


def test_stock_adds_up_by_material_and_section() -> None:
    """By hand: battens 2 x 252 x 46 x 27 and a rail 512 x 46 x 27; pillars 2 x (100 + 3) of 10 mm rod."""
    build = build_of(
        LEG,
        Component("P03", "Rail", material="oak", stock="board", size=block("500", "40", "22")),
        Component("P04", "Stop", quantity=2, material="brass", stock="turned", size=rod("100", "10")),
        Component("P05", "Done", material="oak", stock="board", size=block("500", "40", "22"), state="made"),
        Component(
            "P06",
            "Thin",
            material="oak",
            stock="board",
            size=Size("block", read_length("90"), thickness=read_length("22")),
        ),
    )
    board, bar = buying_list(build, WorkedBuild(build))
    assert (board.what, board.count, board.used) == ("oak board 27 mm", 4, ("P02", "P03", "P06"))
    assert board.area_m2 == pytest.approx((2 * 252 + 512) * 46 / 1e6)
    assert board.volume_m3 == pytest.approx((2 * 252 + 512) * 46 * 27 / 1e9)
    assert board.length_mm is None
    assert board.note == "P06 is not counted: width not known"
    assert (bar.what, bar.count, bar.length_mm) == ("brass bar 10 mm dia", 2, 206.0)
    assert bar.volume_m3 == pytest.approx(pi / 4 * 10**2 * 206 / 1e9)


@pytest.mark.parametrize(
    ("stock", "size", "name"),
    [
        ("bar", block("100", "25", "8"), "brass bar 25 x 8 mm"),
        ("tube", Size("round", read_length("140"), diameter=read_length("100"), bore=read_length("94")), "brass tube 100 mm dia, bore 94 mm"),
        ("sheet", block("120", "20", "16 SWG"), "brass sheet 1.6256 mm"),
        ("bar", Size(), "brass bar"),
    ],
)  # fmt: skip
def test_stock_is_named_by_its_section(stock: str, size: Size, name: str) -> None:
    """16 SWG is 0.064 in = 1.6256 mm."""
    assert stock_named(Component("P1", "x", material="brass", stock=stock, size=size)) == name


def test_a_joint_that_cannot_be_read_is_not_bought() -> None:
    build = Build("B1", "Box", joints=(Joint("F1", "t", "?"),))
    assert buying_list(build, WorkedBuild(build)) == ()


def test_a_part_sawn_to_an_outline_is_cut_out_as_its_block_and_says_so() -> None:
    """The blank is the block: 80 + 12 long, 40 + 6 wide, 20 + 2 x 2.5 thick."""
    build = build_of(
        read_part_line(
            "heel 80 x 40 x 20 oak, outline 0,0 to 60,0 arc 20 left to 60,40 to 0,40", Build("B", "B")
        )
    )
    (line,) = cut_list(build)
    assert (line.rough_length_mm, line.rough_width_mm, line.rough_thickness_mm) == (92, 46, 25)
    assert line.outline == "outline of 4 corners, 1 arc"
