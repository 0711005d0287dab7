"""Moisture: the way back, weighing, and what the calculators answer and refuse."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator
from calculators.materials.moisture import (
    density_kg_m3,
    equilibrium_moisture_percent,
    humidity_percent_for,
    weighed_moisture_percent,
)
from calculators.quantities.errors import InputError


def results(name, **inputs):
    return {key: one.value for key, one in answer(find_calculator(name), inputs).results.items()}


def refusals(name, **inputs):
    with pytest.raises(InputError) as caught:
        answer(find_calculator(name), inputs)
    return [(fault.field, fault.says) for fault in caught.value.faults]


@given(st.floats(-1, 100), st.floats(1, 98))
def test_the_way_back_gives_the_humidity_again(celsius, humidity):
    moisture = equilibrium_moisture_percent(celsius, humidity)
    assert humidity_percent_for(celsius, moisture) == pytest.approx(humidity, abs=1e-6)


@given(st.floats(-1, 100), st.floats(0, 97), st.floats(0.1, 2))
def test_damper_air_gives_wetter_wood_and_warmer_air_drier(celsius, humidity, more):
    assert equilibrium_moisture_percent(celsius, humidity + more) > equilibrium_moisture_percent(
        celsius, humidity
    )
    if celsius <= 90 and humidity > 5:
        assert equilibrium_moisture_percent(celsius + 10, humidity) < equilibrium_moisture_percent(
            celsius, humidity
        )


@given(st.floats(0.2, 1.2), st.floats(0, 28))
def test_density_by_weighing_a_block_that_shrinks(gravity, moisture):
    """A green block shrinks evenly with the water that it loses below saturation; weigh what is left of it."""
    green = gravity / (1 + 0.265 * 0.6 * gravity)
    # volume at M of a block with 1 m3 when green: it loses 0.265 Gb of a volume for the whole way to ovendry
    volume = 1 - 0.265 * green * (30 - moisture) / 30
    mass = 1000 * green * (1 + moisture / 100)
    assert density_kg_m3(gravity, moisture) == pytest.approx(mass / volume, rel=1e-9)


def test_weighing():
    assert weighed_moisture_percent(123.0, 100.0) == pytest.approx(23)
    assert results("moisture", wet_mass="123 g", oven_dry_mass="100 g") == {
        "moisture_weighed": pytest.approx(23)
    }


def test_a_room_for_a_moisture():
    found = results("moisture", moisture="9 %", temperature="68 F")
    assert found["humidity"] == pytest.approx(48.3, abs=0.1)


def test_moisture_refuses():
    assert refusals("moisture") == [
        ("humidity", "Write one of humidity, moisture, or wet_mass with oven_dry_mass.")
    ]
    assert refusals("moisture", humidity="50", moisture="9") == [
        ("moisture", "Write humidity or moisture, not both; the other is worked out.")
    ]
    assert refusals("moisture", wet_mass="90 g", oven_dry_mass="100 g") == [
        (
            "wet_mass",
            "The wet_mass of 90 g is less than the oven_dry_mass of 100 g; write the mass before drying first.",
        )
    ]
    assert refusals("moisture", wet_mass="90 g") == [
        ("oven_dry_mass", "Weighing needs both wet_mass and oven_dry_mass; write both.")
    ]
    assert [field for field, _ in refusals("moisture", moisture="28", temperature="80 degC")] == ["moisture"]
    assert [field for field, _ in refusals("moisture", humidity="50 N")] == ["humidity"]


def test_a_board_held_at_one_edge_moves_twice_as_far_at_the_other():
    given = {"width": "200 mm", "species": "beech", "from_humidity": "40", "to_humidity": "65"}
    middle = results("wood-movement", **given)
    edge = results("wood-movement", **given, fixed_at="0")
    assert edge["edge_movement"] == pytest.approx(2 * middle["edge_movement"])
    assert edge["movement"] == middle["movement"]


def test_drying_shrinks_and_quarter_sawn_moves_less():
    given = {"width": "300 mm", "species": "white oak", "from_moisture": "12", "to_moisture": "7"}
    flat, quarter = results("wood-movement", **given), results("wood-movement", **given, cut="quarter-sawn")
    assert flat["movement"] == pytest.approx(-300 * 0.00365 * 5)
    assert quarter["movement"] == pytest.approx(-300 * 0.00180 * 5)


def test_a_slot_is_offered_where_the_hole_is_too_small():
    given = {
        "width": "190 mm", "species": "white oak", "from_moisture": "7", "to_moisture": "12", "fixed_at": "95 mm",
        "screw": "4.17 mm",
    }  # fmt: skip
    found = answer(find_calculator("wood-movement"), {**given, "hole": "4.5 mm"})
    assert found.results["edge_movement"].value == pytest.approx(1.73375)
    assert found.results["slot_length"].value == pytest.approx(4.17 + 2 * 1.73375)
    assert found.warnings == (
        "The hole lets the screw move 0.165 mm and the wood moves 1.73 mm there: make it a slot 7.638 mm long "
        "or longer.",
    )
    assert answer(find_calculator("wood-movement"), {**given, "hole": "8 mm"}).warnings == ()


def test_wood_movement_refuses():
    base = {"width": "200", "species": "oak", "from_moisture": "8", "to_moisture": "12"}
    assert refusals("wood-movement", **{**base, "species": None}) == [
        ("species", "Write the species, or the coefficient of movement.")
    ]
    assert refusals("wood-movement", **base, from_humidity="40") == [
        ("from_moisture", "Write from_moisture or from_humidity; not both.")
    ]
    assert refusals("wood-movement", **base, fixed_at="201 mm") == [
        (
            "fixed_at",
            "The fixed_at of 201 mm lies beyond the width of 200 mm; write where it is held, from one edge.",
        )
    ]
    assert refusals("wood-movement", **base, hole="5") == [
        ("screw", "A hole needs its screw; write the screw's diameter too.")
    ]
    assert refusals("wood-movement", **base, screw="5", hole="4") == [
        ("hole", "The hole of 4 mm is smaller than the screw of 5 mm; write a hole that the screw passes.")
    ]
    assert [field for field, _ in refusals("wood-movement", **{**base, "to_moisture": "31"})] == [
        "to_moisture"
    ]
