"""Materials found by the words of the trade, and their figures."""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.materials import (
    KINDS,
    engagement_of,
    find_material,
    material_names,
    movement_coefficient,
    strength_of,
)
from calculators.materials.woods import gravity_at_12, movement_of
from calculators.quantities.errors import InputError


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("oak", "European oak"),
        ("Oak, European", "European oak"),
        ("European oak, flat-sawn, 2 staves edge-glued", "European oak"),
        ("oak 1/4-sawn", "European oak"),
        ("white oak", "white oak"),
        ("Maple, sugar", "hard maple"),
        ("walnut, American black", "black walnut"),
        ("spruce", "Sitka spruce"),
        ("Douglas-fir", "Douglas fir"),
        ("boxwood", "boxwood"),
        ("birch ply 4", "birch plywood"),
        ("CW614N brass", "brass CW614N"),
        ("brass sheet 16 SWG", "brass"),
        ("brass plate", "brass"),
        ("bright mild steel", "mild steel"),
        ("cold-rolled steel", "mild steel"),
        ("steel, zinc plated", "mild steel"),
        ("mild steel, re-used, already tapped", "mild steel"),
        ("drill rod", "silver steel"),
        ("gauge plate O1, hardened 60 HRC", "gauge plate O1"),
        ("stainless", "stainless steel"),
        ("aluminum tube", "aluminium"),
        ("phosphor bronze", "phosphor bronze PB102"),
        ("music wire 24 SWG", "music wire"),
        ("3 mm float, arrissed", "float glass"),
        ("CORK", "cork"),
    ],
)
def test_a_material_is_found_by_what_people_call_it(written: str, name: str) -> None:
    assert find_material(written).name == name


def test_every_name_finds_its_own_material() -> None:
    for name in material_names():
        material = find_material(name)
        assert material.name == name
        assert material.kind in KINDS
        assert material.sources
        for other in material.also:
            assert find_material(other).name == name, other


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ("", "No material is given; write one such as European oak"),
        ("oak veneered MDF", "'oak veneered MDF' could be European oak or MDF; write one of them."),
        ("alumminium", "'alumminium' is not a material that is known here; nearest are aluminium"),
        ("silky oak", "'silky oak' is not a material that is known here; nearest are "),
    ],
)
def test_what_is_not_known_gets_the_nearest_names(written: str, says: str) -> None:
    with pytest.raises(InputError) as caught:
        find_material(written, field="parts[2].material")
    assert str(caught.value).startswith(says)
    assert caught.value.faults[0].field == "parts[2].material"


def test_european_oak_says_whose_figures_it_has() -> None:
    oak = find_material("oak")
    assert oak.like == "white oak"
    assert oak.modulus_gpa == find_material("white oak").modulus_gpa
    assert oak.sources[0] == "figures of white oak, its nearest relation in the Wood Handbook"


def test_wood_has_no_thread_engagement_and_metal_no_grain() -> None:
    oak, brass = find_material("oak"), find_material("brass")
    assert oak.engagement_diameters is None
    assert brass.movement_tangential is None
    assert (oak.is_wood, oak.is_solid_wood, oak.is_metal) == (True, True, False)
    assert (brass.is_wood, brass.is_metal) == (False, True)
    assert find_material("birch plywood").is_wood
    assert not find_material("birch plywood").is_solid_wood


def test_tannin_and_density() -> None:
    tannin = {
        name
        for name in ("oak", "sweet chestnut", "walnut", "beech", "cherry")
        if find_material(name).tannin_rich
    }
    assert tannin == {"oak", "sweet chestnut", "walnut"}
    dense = {
        name for name in ("oak", "hard maple", "walnut", "cherry", "Scots pine") if find_material(name).dense
    }
    assert dense == {"oak", "hard maple", "walnut"}


def test_engagement() -> None:
    found = {
        kind: engagement_of(kind)
        for kind in ("steel", "brass", "cast iron", "bronze", "aluminium", "hardwood")
    }
    assert found == {
        "steel": 1,
        "brass": 1.5,
        "cast iron": 1.5,
        "bronze": 1.5,
        "aluminium": 2,
        "hardwood": None,
    }


def test_movement_by_how_a_board_was_sawn() -> None:
    oak = find_material("white oak")
    assert movement_of(oak, "flat-sawn") == 0.00365
    assert movement_of(oak, "quarter-sawn") == 0.0018


def test_grades() -> None:
    assert (strength_of("8.8", 16).proof_mpa, strength_of("8.8", 16.1).proof_mpa) == (580, 600)
    assert strength_of("a2-70", 6).tensile_mpa == 700
    assumed = strength_of("", 5, kind="brass")
    assert (assumed.grade, assumed.assumed) == ("brass", True)
    assert strength_of("", 5).grade == "4.6"


@pytest.mark.parametrize(
    ("grade", "diameter", "says"),
    [
        ("7.7", 5.0, "'7.7' is not a grade that is known here; they are 4.6, 4.8"),
        ("9.8", 20.0, "Grade 9.8 is listed for diameters above 0 up to 16 mm, not 20 mm."),
        ("8.8", float("nan"), "Grade 8.8 is listed for diameters"),
    ],
)
def test_grades_that_do_not_exist(grade: str, diameter: float, says: str) -> None:
    with pytest.raises(InputError) as caught:
        strength_of(grade, diameter)
    assert says in str(caught.value)


def test_coefficients_have_limits() -> None:
    with pytest.raises(InputError, match="Shrinkage lies above 0 and up to 30 %"):
        movement_coefficient(0)
    with pytest.raises(InputError, match="Moisture lies between 0 and 30 %"):
        movement_coefficient(5, 31)


@given(st.floats(0.1, 30), st.floats(0, 30))
def test_shrinking_all_the_way_gives_the_shrinkage_back(shrinkage: float, moisture: float) -> None:
    # a width of 1 at the given moisture, swollen to 30 % and dried out, has shrunk by just S0
    coefficient = movement_coefficient(shrinkage, moisture)
    green, dry = 1 + coefficient * (30 - moisture), 1 - coefficient * moisture
    assert (green - dry) / green * 100 == pytest.approx(shrinkage)


@given(st.floats(0.1, 1.2))
def test_wood_is_denser_when_it_has_shrunk(gravity: float) -> None:
    assert gravity_at_12(gravity) > gravity


@given(st.text(max_size=30))
def test_nothing_but_an_input_error(text: str) -> None:
    with suppress(InputError):
        assert find_material(text).name in material_names()
