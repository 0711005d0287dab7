"""Pieces of stock as people write them on one line."""

from __future__ import annotations

import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.planning.documents import check_whole
from calculators.planning.lines import add_lines, read_stock_line
from calculators.planning.model import Build, Component, Stock
from calculators.quantities import Length, read_length
from calculators.quantities.errors import InputError

MM, INCH = Build("B1", "Box"), Build("B1", "Box", unit="in")


def at(text: str, unit: str = "mm") -> Length:
    return read_length(text, unit=unit)  # type: ignore[arg-type]


LINES: list[tuple[str, Build, Stock]] = [
    ("2 sheets 18 mm birch ply 2440 x 1220", MM, Stock(
        "S1", "18 mm birch ply", "birch ply", "sheet", at("2440"), at("1220"), at("18 mm"), count=2)),
    ("oak board 2400 x 190 x 32", MM, Stock(
        "S1", "oak board", "oak", "board", at("2400"), at("190"), at("32"))),
    ("brass bar 20 dia x 330", MM, Stock("S1", "brass bar", "brass", "bar", at("330"), diameter=at("20"))),
    ("brass bar 3/4 dia x 12", INCH, Stock(
        "S1", "brass bar", "brass", "bar", at("12", "in"), diameter=at("3/4", "in"))),
    ("18 mm ply", MM, Stock("S1", "18 mm ply", "ply", "sheet", thickness=at("18 mm"))),
    ("6 mm ply 1220 x 610, 4 off", MM, Stock(
        "S1", "6 mm ply", "ply", "sheet", at("1220"), at("610"), at("6 mm"), count=4)),
    ("S4 maple 1200 x 200 x 27 # from the loft", MM, Stock(
        "S4", "maple", "maple", "board", at("1200"), at("200"), at("27"), note="from the loft")),
    ("birch ply 2440 x 1220 x 17.2 measured", MM, Stock(
        "S1", "birch ply", "birch ply", "sheet", at("2440"), at("1220"), at("17.2"), measured=True)),
    ("steel tube 20 dia bore 16 x 2000", MM, Stock(
        "S1", "steel tube, bore 16 mm", "steel", "tube", at("2000"), diameter=at("20"))),
    ("beech dowel 12 dia x 1000", MM, Stock(
        "S1", "beech dowel", "beech", "bar", at("1000"), diameter=at("12"))),
    ("offcut of walnut 300 x 90 x 22", MM, Stock(
        "S1", "walnut offcut", "walnut", "board", at("300"), at("90"), at("22"))),
    ("M5 studding 1 m", MM, Stock("S1", "M5 studding 1 m")),
]  # fmt: skip


@pytest.mark.parametrize(("line", "build", "means"), LINES, ids=[line for line, _, _ in LINES])
def test_a_line_makes_a_piece_of_stock(line: str, build: Build, means: Stock) -> None:
    found = read_stock_line(line, build)
    sizes = ("length", "width", "thickness", "diameter")
    assert [getattr(found, name) for name in sizes] == [getattr(means, name) for name in sizes]
    assert (found.mark, found.material, found.form, found.count, found.measured, found.note) == (
        means.mark, means.material, means.form, means.count, means.measured, means.note,
    )  # fmt: skip
    for word in means.called.split():
        assert word in found.called.split(), found.called


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("", "The line says nothing"),
        ("2440 x 1220 x 18", "gives sizes but no material"),
        ("0 sheets 18 mm ply 1000 x 500", "'0' is no count here"),
        ("brass bar 3/4 dia x 330", "has a fraction, which is inches, beside a bare number"),
        ("P1: 18 mm ply", "The mark 'P1' is used already; write another, such as S1, or none."),
    ],
)
def test_what_is_not_clear_is_asked(line: str, says: str) -> None:
    build = Build("B1", "Box", components=(Component("P1", "Lid"),))
    with pytest.raises(InputError) as caught:
        read_stock_line(line, build)
    assert says in str(caught.value)


def test_several_lines_get_marks_in_their_order_and_wrong_ones_come_back() -> None:
    text = "18 mm ply 2440 x 1220\n# offcuts\nnothing 3 x\n\noak board 2400 x 190 x 32"
    read = add_lines("stock", text, MM)
    assert read.added[0] == "S1"
    assert [one.mark for one in read.build.stock] == list(read.added)
    check_whole(read.build)
    again = add_lines("stock", "brass bar 20 dia x 330", read.build)
    assert again.added == (f"S{len(read.added) + 1}",)


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.lists(st.sampled_from(
    ["2", "18", "mm", "x", "ply", "sheet", "of", "3/4", "dia", "brass", "bar", ",", "S1", "measured", "off", "#",
     "“", "”", "-4", "2440 x 1220", "ж", "12 in", "'", "bore 9", "0", "thick", "\t", "1e9", "99999999999"]
), max_size=12))  # fmt: skip
def test_any_line_is_read_or_refused_with_a_sentence(words: list[str]) -> None:
    read = add_lines("stock", " ".join(words), MM)
    check_whole(read.build)
    for one in read.unread:
        assert one.says
        assert all(says.strip() for says in one.says)


@pytest.mark.parametrize(
    ("line", "sizes"),
    [
        ("oak 8/4 x 6 in x 8 ft", (2438.4, 152.4, 50.8, None)),  # 8 ft, 6 in, eight quarters of an inch
        ("tube 25 OD 2 wall 3 m steel", (3000.0, None, None, 25.0)),
        ("ply 18 mm 2.44 x 1.22 m", (2440.0, 1220.0, 18.0, None)),
        ("birch ply 18 mm 8 ft x 4 ft", (2438.4, 1219.2, 18.0, None)),
        ("boxwood stringing 900 x 3 x 2", (900.0, 3.0, 2.0, None)),
    ],
)
def test_metres_and_feet_are_those_of_the_sizes_that_can_be_so_long(
    line: str, sizes: tuple[float | None, ...]
) -> None:
    stock = read_stock_line(line, Build("B1", "Box"))
    found = (stock.length, stock.width, stock.thickness, stock.diameter)
    assert [one.mm if one else None for one in found] == [
        pytest.approx(size) if size else None for size in sizes
    ]


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("birch ply 18mm 8x4 sheet", "would be 4 mm wide. A bare number is mm"),
        ("2 x 4 pine 2.4m", "would be 4 mm wide. A bare number is mm"),
        ("oak -5 x 3 x 2", "has a size below nothing"),
        ("oak 1e99 x 3 x 2", "has a size that cannot be read"),
        ("18mm ply 17.2 measured 2440x1220", "gives sizes apart from one another"),
        ("angle 40 x 40 x 4 mild steel 2 m", "gives sizes apart from one another"),
    ],
)
def test_what_is_no_piece_of_stock_is_asked_back(line: str, says: str) -> None:
    with pytest.raises(InputError, match=re.escape(says)):
        read_stock_line(line, Build("B1", "Box"))


def test_a_section_in_quotes_is_part_of_the_name() -> None:
    stock = read_stock_line("brass angle “40 x 40 x 4”, 2 m long", Build("B1", "Box"))
    assert stock.called == "brass angle 40 x 40 x 4"


def test_the_bore_of_a_tube_given_by_its_wall_is_in_its_name() -> None:
    stock = read_stock_line("tube 25 OD 2 wall 3 m steel", Build("B1", "Box"))
    assert stock.called == "25 mm dia steel tube, bore 21 mm"
