"""Wood screws by number and diameter."""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.hardware.wood_screws import SERIES, shank_mm, wood_screw
from calculators.quantities.errors import InputError


def test_the_two_gauges_meet_at_number_eight() -> None:
    assert shank_mm(8, "inch-us") == shank_mm(8, "inch-british")
    assert shank_mm(4, "inch-us") > shank_mm(4, "inch-british")
    assert shank_mm(12, "inch-us") < shank_mm(12, "inch-british")


@pytest.mark.parametrize("written", ["No. 8", "no 8", "No8", "#8", "8", "8g", " number 8 ", 8])
def test_a_number_is_read_as_people_write_it(written: str | int) -> None:
    assert wood_screw(written).name == "No. 8"


@pytest.mark.parametrize(("written", "name"), [("4", "4"), ("4.0 mm", "4"), ("4,5", "4.5"), ("M5", "5")])
def test_metric_sizes(written: str, name: str) -> None:
    assert wood_screw(written, "metric").name == name


def test_an_unstated_series_is_read_from_the_writing() -> None:
    assert wood_screw("4 mm", "").series == "metric"
    assert wood_screw("No. 4", "").series == "inch-us"


def test_the_head_follows_series_and_angle() -> None:
    assert wood_screw("No. 8").head_angle_deg == 82
    assert wood_screw("No. 8").head_diameter_mm == pytest.approx(8.4328)
    turned = wood_screw("No. 8", head_angle_deg=90)
    assert turned.head_diameter_mm == pytest.approx(2 * turned.shank_mm)
    assert turned.head_height_mm == pytest.approx(turned.shank_mm / 2)
    assert (turned.head_kind, wood_screw("No. 8").head_kind) == ("common practice", "published")
    assert wood_screw("No. 8", "inch-british").head_angle_deg == 90


@pytest.mark.parametrize(("number", "head"), [(8, 8.3), (6, 7.0), (4, 5.7)])
def test_common_heads_at_ninety_degrees(number: int, head: float) -> None:
    assert wood_screw(number, head_angle_deg=90).head_diameter_mm == pytest.approx(head, abs=0.05)


def test_pilots_say_what_they_are_of() -> None:
    screw = wood_screw("No. 8")
    assert screw.pilot_hardwood_mm == pytest.approx(0.9 * screw.root_mm)
    assert screw.pilot_softwood_mm == pytest.approx(0.7 * screw.root_mm)
    assert screw.pilot_hardwood_basis.startswith("90 % of the root diameter")
    assert "2/3 of the shank" in screw.root_basis
    assert wood_screw("4", "metric").root_mm == 2.8


@pytest.mark.parametrize(
    ("gauge", "series", "says"),
    [
        ("No. 25", "inch-us", "There is no wood screw No. 25; numbers run from 0 to 24."),
        ("thick", "inch-us", "'thick' is not a wood screw's number; write it as No. 8"),
        ("4.2", "metric", "There is no metric wood screw of '4.2' mm; there are 2, 2.5, 3"),
        ("8", "imperial", "'imperial' is not a series of wood screws; they are inch-us"),
    ],
)
def test_screws_that_do_not_exist(gauge: str, series: str, says: str) -> None:
    with pytest.raises(InputError) as caught:
        wood_screw(gauge, series)
    assert says in str(caught.value)


def test_an_angle_out_of_range_names_its_limit() -> None:
    with pytest.raises(InputError, match="between 60 and 120 degrees, not 30") as caught:
        wood_screw("No. 8", head_angle_deg=30)
    assert caught.value.faults[0].limit == 60


@given(st.integers(0, 24), st.sampled_from(["inch-us", "inch-british"]))
def test_every_number_is_a_screw_that_can_be_made(number: int, series: str) -> None:
    screw = wood_screw(number, series)
    assert screw.pilot_softwood_mm < screw.pilot_hardwood_mm < screw.root_mm < screw.shank_mm
    assert screw.shank_mm + 0.1 - 1e-6 <= screw.clearance_hole_mm < screw.shank_mm + 0.2
    assert screw.head_diameter_mm > 1.7 * screw.shank_mm


@given(st.text(max_size=12), st.sampled_from(["", *SERIES]))
def test_nothing_but_an_input_error(gauge: str, series: str) -> None:
    with suppress(InputError):
        assert wood_screw(gauge, series).shank_mm > 0
