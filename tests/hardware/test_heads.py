"""The heads of screws and bolts."""

from __future__ import annotations

from contextlib import suppress
from math import radians, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.hardware.heads import HEADS, across_corners_mm, cone_height_mm, head_names, head_of
from calculators.quantities.errors import InputError
from calculators.tables import load


@pytest.mark.parametrize(
    ("head", "size", "drive", "diameter", "height"),
    [
        ("csk", "M3", "", 5.5, 1.65),
        ("csk", "M4", "slotted", 8.4, 2.7),
        ("pan", "M5", "", 9.5, 3.7),
        ("pan", "M5", "slotted", 9.5, 3.0),
        ("socket cap", "M5", "hex socket", 8.5, 5.0),
        ("csk", "M5", "hex socket", 10.0, 3.1),
        ("cheese", "2 BA", "", 8.225, 2.82),
        ("csk", "4 BA", "", 6.3, 1.35),
        ("csk", "6 BA", "", 4.9, 1.05),
    ],
)
def test_head_sizes(head: str, size: str, drive: str, diameter: float, height: float) -> None:
    found = head_of(head, size, drive=drive)
    assert (found.diameter_mm, found.height_mm) == pytest.approx((diameter, height))


def test_fine_pitches_have_the_heads_of_their_diameter() -> None:
    assert head_of("socket cap", "M6 x 0.75") == head_of("socket cap", "M6")
    assert head_of("csk", "10-24 UNC") == head_of("csk", "10-32 UNF")


def test_the_angle_follows_the_standard() -> None:
    assert head_of("csk", "M4").angle_deg == 90
    assert head_of("csk", "5/16 BSF").angle_deg == 90
    assert head_of("csk", "10-32 UNF").angle_deg == 82
    assert head_of("pan", "M4").angle_deg is None


def test_how_a_size_is_known_is_said() -> None:
    assert head_of("socket cap", "M5").basis == "published"
    assert head_of("csk", "M4").basis == "from memory"
    assert head_of("csk", "4 BA").basis == "common practice"
    assert "1.75 D (common practice)" in head_of("csk", "4 BA").source


def test_hexagons_carry_flats_and_corners() -> None:
    head = head_of("hex", "1/4 BSF")
    assert head.across_flats_mm == 11.303
    assert head.diameter_mm == head.across_corners_mm == pytest.approx(13.05, abs=0.01)


def test_the_number_sizes_go_on_where_the_hexagon_standard_ends() -> None:
    assert head_of("hex", "10-32 UNF").across_flats_mm == pytest.approx(7.925, abs=0.001)
    assert head_of("csk", "M12").diameter_mm == 22


def test_a_raised_head_stands_above_its_cone() -> None:
    assert head_of("raised csk", "M4").raised_mm == 1.0
    assert head_of("raised csk", "2 BA").raised_mm == pytest.approx(0.94)
    assert head_of("csk", "M4").raised_mm == 0


def test_a_headless_screw_is_as_wide_as_its_thread() -> None:
    assert (head_of("none", "M4").diameter_mm, head_of("none", "M4").height_mm) == (4.0, 0.0)


def test_a_workshop_may_have_ninety_degree_heads_on_american_shanks() -> None:
    head = head_of("csk", "No. 4", family="wood", series="inch-us", head_angle_deg=90)
    assert (head.diameter_mm, head.angle_deg) == pytest.approx((5.6896, 90))


def test_wood_heads() -> None:
    assert head_of("csk", "No. 8", family="wood").diameter_mm == pytest.approx(8.4328)
    assert head_of("csk", "No. 8", family="wood", series="inch-british").diameter_mm == pytest.approx(
        8.331, abs=1e-3
    )
    assert head_of("round", "4", family="wood", series="metric").height_mm == 2.8
    assert head_of("hex", "8", family="wood").across_flats_mm == 13
    assert head_of("hex", "3/8", family="wood").across_flats_mm == pytest.approx(14.2875)


@pytest.mark.parametrize(
    ("head", "size", "family", "says"),
    [
        ("", "M4", "machine", "The screw's head is not stated; say one of csk, raised csk"),
        ("mushroom", "M4", "machine", "'mushroom' is not a head that is known here; heads are csk"),
        ("pan", "2 BA", "machine", "No standard for pan heads on 2 BA is known here; there are csk"),
        ("button", "M20", "machine", "There are no button heads for M20 in ISO 7380-1; there are M3, M4"),
        ("csk", "M4.3", "machine", "M4.3"),
        ("hex", "9", "wood", "There is no coach screw '9'; there are 4, 5, 6"),
        ("button", "No. 8", "wood", "Wood screws have no button heads here"),
    ],
)
def test_what_does_not_exist_is_said_with_what_does(head: str, size: str, family: str, says: str) -> None:
    with pytest.raises(InputError) as caught:
        head_of(head, size, family=family)  # type: ignore[arg-type]
    assert says in str(caught.value)


def test_head_names_leave_out_the_unstated_one() -> None:
    assert head_names() == HEADS[1:]


def test_every_row_is_wider_than_its_cone_end_and_every_head_has_a_width() -> None:
    for row in load("heads").rows:
        assert row.has("diameter") != row.has("across_flats"), row.name
        assert row.number("height") > 0
        if row.has("sharp_diameter"):
            assert row.number("sharp_diameter") > row.number("diameter"), row.name


@given(st.floats(1, 50), st.floats(1, 50), st.floats(60, 120))
def test_the_cone_height_undoes_itself(head: float, hole: float, angle: float) -> None:
    height = cone_height_mm(head, hole, angle)
    assert hole + 2 * height * tan(radians(angle) / 2) == pytest.approx(head)


@given(st.floats(1, 100))
def test_the_hexagons_corners_by_another_way(flats: float) -> None:
    side = flats / 3**0.5
    assert across_corners_mm(flats) == pytest.approx(2 * side)


@given(st.text(max_size=12), st.text(max_size=8), st.sampled_from(["machine", "wood"]), st.text(max_size=8))
def test_nothing_but_an_input_error(head: str, size: str, family: str, series: str) -> None:
    for name in (head, "csk", "hex"):
        with suppress(InputError):
            assert head_of(name, size, family=family, series=series).diameter_mm > 0  # type: ignore[arg-type]
