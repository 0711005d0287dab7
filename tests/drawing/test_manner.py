"""In which manner a material is hatched: by its kind and by how its grain lies to the drawing."""

from __future__ import annotations

import pytest

from calculators.drawing.manner import manner_of
from calculators.planning.drawn import manner_of_part
from calculators.planning.model import Component


@pytest.mark.parametrize(
    ("material", "right", "up", "manner"),
    [
        # Grain along X, layers of sheet wood square to Z: the frame of a component.
        ("oak", "X", "Y", "wood"),
        ("oak", "X", "Z", "wood"),
        ("oak", "Y", "X", "wood upright"),
        ("oak", "Z", "X", "wood upright"),
        ("oak", "Y", "Z", "end grain"),
        ("oak", "Z", "Y", "end grain"),
        ("birch plywood", "X", "Z", "sheet wood"),
        ("birch plywood", "Y", "Z", "sheet wood"),
        ("birch plywood", "Z", "X", "sheet wood upright"),
        ("birch plywood", "X", "Y", "wood"),
        ("birch plywood", "Y", "X", "wood upright"),
        ("brass", "Y", "Z", "metal"),
        ("acrylic", "X", "Y", "plastic"),
        ("glass", "X", "Y", "glass"),
        ("granite", "X", "Y", "other"),
        ("", "X", "Y", "other"),
    ],
)
def test_a_part_is_hatched_by_its_material_and_grain(material, right, up, manner):
    assert manner_of_part(Component("P01", "part", material=material), right, up) == manner


def test_a_joint_into_the_end_has_its_grain_upright():
    assert manner_of("oak", "up") == "wood upright"
