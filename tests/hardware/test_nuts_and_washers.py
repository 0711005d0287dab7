"""Nuts, washers and wood inserts."""

from __future__ import annotations

from contextlib import suppress
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.hardware.inserts import insert_of
from calculators.hardware.nuts import nut_of
from calculators.hardware.washers import washer_of
from calculators.quantities.errors import InputError
from calculators.tables import load


@pytest.mark.parametrize(
    ("size", "form", "height", "flats"),
    [
        ("M5", "full", 4.7, 8.0),
        ("M6", "full", 5.2, 10.0),
        ("M5", "half", 2.7, 8.0),
        ("M14", "full", 12.8, 21.0),
        ("2 BA", "full", 4.23, 8.23),
        ("5/16 BSF", "half", 5.334, 13.335),
        ("3/16 BSF", "full", 3.81, 8.334375),
        ("10-32 UNF", "full", 3.1369, 9.3599),
        ("M3", "square", 1.8, 5.5),
        ("M6", "stiff", 6.0, 10.0),
    ],
)
def test_nuts(size: str, form: str, height: float, flats: float) -> None:
    nut = nut_of(size, form)
    assert (nut.height_mm, nut.across_flats_mm) == pytest.approx((height, flats))


def test_widest_part_of_a_nut() -> None:
    assert nut_of("M5", "square").across_corners_mm == pytest.approx(8 * 2**0.5)
    assert nut_of("M6", "wing").outside_mm == 33
    assert nut_of("M6", "wing").across_flats_mm is None


@pytest.mark.parametrize(
    ("size", "form", "says"),
    [
        ("M5", "castle", "'castle' is not a form of nut; forms are full, half"),
        ("2 BA", "dome", "No standard for dome nuts on 2 BA is known here; there are full, half"),
        ("M3", "dome", "There are no dome nuts for M3 in DIN 1587; there are M4, M5"),
    ],
)
def test_nuts_that_do_not_exist(size: str, form: str, says: str) -> None:
    with pytest.raises(InputError, match=says.replace("'", ".")):
        nut_of(size, form)


@pytest.mark.parametrize(
    ("size", "form", "inside", "outside", "thickness"),
    [
        ("M6", "plain", 6.4, 12, 1.6),
        ("M6", "repair", 6.4, 18, 1.6),
        ("M5", "small", 5.3, 9, 1.0),
        ("1/4-28 UNF", "plain", 7.1374, 18.6436, 1.6002),
        ("5/16 BSF", "repair", 8.334375, 31.75, 1.626),
        ("5/16", "repair", 8.334375, 31.75, 1.626),
        ("No. 8", "plain", 4.7752, 12.7, 1.016),
        ("2 BA", "plain", 4.935, 9.87, 0.94),
    ],
)
def test_washers(size: str, form: str, inside: float, outside: float, thickness: float) -> None:
    washer = washer_of(size, form)
    assert (washer.inside_mm, washer.outside_mm, washer.thickness_mm) == pytest.approx(
        (inside, outside, thickness)
    )


def test_the_bearing_area_of_a_washer() -> None:
    assert washer_of("M6", "repair").area_mm2 == pytest.approx(pi * (9**2 - 3.2**2))


def test_every_washer_in_the_table_is_a_ring() -> None:
    for row in load("washers").rows:
        assert 0 < row.number("inside") < row.number("outside"), row.name
        if row.has("thickness_max"):
            assert row.number("thickness") <= row.number("thickness_max"), row.name


def test_washers_that_do_not_exist() -> None:
    with pytest.raises(InputError, match="forms are plain, small, repair, spring, crinkle, toothed, cup"):
        washer_of("M6", "star")
    with pytest.raises(InputError, match=r"no plain washers for M14 in ISO 7089; there are M1\.6, M2"):
        washer_of("M14")


def test_inserts() -> None:
    usual = insert_of("M4")
    assert (usual.outside_mm, usual.body_mm, usual.length_mm) == (8, 6.5, 10)
    assert (usual.hole_softwood_mm, usual.hole_hardwood_mm, usual.hole_hardwood_most_mm) == (6.5, 6.9, 7.3)
    assert usual.edge_mm == 16


def test_a_measured_insert_overrides_the_table() -> None:
    measured = insert_of("M6", outside_mm=10)
    assert measured.body_mm == pytest.approx(8.125)
    assert insert_of("2 BA", outside_mm=8, body_mm=6.4, length_mm=12).hole_hardwood_mm == pytest.approx(6.8)


@pytest.mark.parametrize(
    ("size", "sizes", "says"),
    [
        ("2 BA", {}, "No insert for 2 BA is listed here; there are M4, M5"),
        ("M4", {"outside_mm": 0.0}, "An insert's outside lies above 0 and under 1000 mm, not 0"),
        ("M4", {"body_mm": 9.0}, "so 9 mm cannot be"),
        ("M4", {"length_mm": float("nan")}, "An insert's length lies above 0"),
    ],
)
def test_impossible_inserts(size: str, sizes: dict[str, float], says: str) -> None:
    with pytest.raises(InputError) as caught:
        insert_of(size, **sizes)
    assert says in str(caught.value)


@given(st.text(max_size=12), st.text(max_size=8))
def test_nuts_and_washers_raise_nothing_but_an_input_error(size: str, form: str) -> None:
    for find in (nut_of, washer_of):
        for name in (form, "full", "plain"):
            with suppress(InputError):
                assert find(size, name).outside_mm > 0
