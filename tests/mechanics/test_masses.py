"""Masses, centres and moments of inertia, against cutting the bodies into small cubes; and refusals."""

import itertools
import math

import pytest

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator
from calculators.mechanics.masses import Body, centre_of_mass_mm, inertia_kg_mm2, total_mass_kg
from calculators.quantities.errors import InputError


def inside(body, x, y, z):
    dx, dy, dz = x - body.at_mm[0], y - body.at_mm[1], z - body.at_mm[2]
    if body.shape == "block":
        return all(abs(d) <= size / 2 for d, size in zip((dx, dy, dz), body.size_mm, strict=True))
    if body.shape == "ball":
        return math.hypot(dx, dy, dz) <= body.diameter_mm / 2
    along = {"x": dx, "y": dy, "z": dz}
    length = body.size_mm["xyz".index(body.axis)]
    across = math.hypot(*(d for name, d in along.items() if name != body.axis))
    return abs(along[body.axis]) <= length / 2 and body.bore_mm / 2 <= across <= body.diameter_mm / 2


def by_cubes(body, n=36):
    """Mass, first moments and moment about z through the origin, by counting cubes."""
    reach = [
        max(size, body.diameter_mm) / 2 if body.shape != "block" else size / 2
        for size in (body.size_mm if body.shape != "ball" else (0, 0, 0))
    ]
    steps = [2 * r / n for r in reach]
    dm = body.density_kg_m3 * 1e-9 * steps[0] * steps[1] * steps[2] * body.sign
    mass, mx, inertia = 0.0, 0.0, 0.0
    axes = [[body.at_mm[k] - reach[k] + (i + 0.5) * steps[k] for i in range(n)] for k in range(3)]
    for x, y, z in itertools.product(*axes):
        if inside(body, x, y, z):
            mass, mx, inertia = mass + dm, mx + dm * x, inertia + dm * (x * x + y * y)
    return mass, mx, inertia


@pytest.mark.parametrize("axis", ["x", "y", "z"])
@pytest.mark.parametrize("shape", ["block", "round", "tube", "ball"])
def test_every_shape_against_small_cubes(shape, axis):
    size, at, diameter, bore = (37.0, 21.0, 53.0), (12.0, -40.0, 7.0), 29.0, 0.5
    if shape != "block":
        size = tuple(size[0] if name == axis else diameter for name in "xyz")
    body = Body(shape, size, at, 7850, axis, diameter, bore * diameter if shape == "tube" else 0.0)
    mass, mx, inertia = by_cubes(body)
    # the stairs of 36 cubes along a rounded edge
    assert body.mass_kg == pytest.approx(mass, rel=0.03)
    assert mx == pytest.approx(mass * body.at_mm[0], abs=0.001 * mass)
    assert inertia_kg_mm2([body], "z", (0, 0, 0)) == pytest.approx(inertia, rel=0.03)


def test_the_l_shape_of_two_rectangles():
    """Centre of area of an L: rectangles 100 x 20 at (50, 10) and 20 x 80 at (10, 60): 32.2222 both ways."""
    plates = [Body("block", (100, 20, 1), (50, 10, 0), 1000), Body("block", (20, 80, 1), (10, 60, 0), 1000)]
    assert centre_of_mass_mm(plates)[:2] == pytest.approx((32.2222, 32.2222), abs=5e-5)


def test_a_hole_takes_away():
    plate, hole = (
        Body("block", (100, 100, 10), (0, 0, 0), 8000),
        Body("round", (20, 20, 10), (30, 0, 0), 8000, "z", 20, sign=-1),
    )
    assert total_mass_kg([plate, hole]) == pytest.approx(0.8 - math.pi * 100 * 10 * 8e-6)
    assert centre_of_mass_mm([plate, hole])[0] < 0


def test_a_body_cut_in_two_balances_as_before():
    whole = [Body("round", (300, 10, 10), (150, 0, 0), 8450, "x", 10)]
    halves = [Body("round", (150, 10, 10), (x, 0, 0), 8450, "x", 10) for x in (75, 225)]
    assert centre_of_mass_mm(halves) == pytest.approx(centre_of_mass_mm(whole))
    for axis in "xyz":
        assert inertia_kg_mm2(halves, axis, (20, 5, 0)) == pytest.approx(
            inertia_kg_mm2(whole, axis, (20, 5, 0))
        )


def refusals(**inputs):
    with pytest.raises(InputError) as caught:
        answer(find_calculator("mass-and-balance"), inputs)
    return [(fault.field, fault.says) for fault in caught.value.faults]


def test_the_calculator_counts_and_weighs():
    rows = [
        {
            "shape": "block",
            "length": "100 mm",
            "width": "50 mm",
            "thickness": "2 mm",
            "material": "brass",
            "count": 3,
        }
    ]
    found = answer(find_calculator("mass-and-balance"), {"bodies": rows, "pivot_x": "-40 mm"}).results
    assert found["mass"].value == pytest.approx(3 * 10_000 * 8450e-9)
    assert found["moment_at_pivot"].value == pytest.approx(found["mass"].value * 9.80665 * 0.040)


def test_refusals():
    assert refusals(bodies=[{"shape": "round", "length": 10}], material="brass") == [
        ("bodies[0].diameter", "Bodies, row 1: A round needs length, diameter; write its diameter.")
    ]
    assert refusals(bodies=[{"shape": "ball", "diameter": 10}]) == [
        ("bodies[0].material", "Bodies, row 1: Write its material or its density.")
    ]
    tube = {"shape": "tube", "length": 10, "diameter": 8, "bore": 8}
    assert refusals(bodies=[tube], material="brass") == [
        (
            "bodies[0].bore",
            "Bodies, row 1: The bore of 8 mm is not smaller than the diameter of 8 mm; write a smaller bore.",
        )
    ]
    hole = {"shape": "ball", "diameter": 10, "taken_away": True}
    assert refusals(bodies=[hole], material="brass")[0][0] == "bodies"
