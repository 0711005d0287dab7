"""Moisture of wood in a room and movement across the grain, against the Wood Handbook.

Sources:
- USDA Wood Handbook, FPL-GTR-190 (2010), Table 4-2, moisture content of wood in equilibrium with air, the row of
  70 degF (21.1 degC) and that of 110 degF (43.3 degC): from memory, printed to 0.1 %.
- Practitioners' notes, item N13: 20 degC, 40 to 70 % relative humidity: read; item N12: a 450 mm oak top, read.
- USDA Wood Handbook ch. 4: density of wood from specific gravity and moisture (Table 4-6a, lb/ft3): from memory.
"""

import pytest

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator
from calculators.materials.moisture import density_kg_m3, equilibrium_moisture_percent, moved_mm

AT_70_F = {
    5: 1.3, 10: 2.5, 15: 3.5, 20: 4.5, 25: 5.4, 30: 6.2, 35: 6.9, 40: 7.7, 45: 8.5, 50: 9.2, 55: 10.1, 60: 11.0,
    65: 12.0, 70: 13.1, 75: 14.4, 80: 16.0, 85: 17.9, 90: 20.5, 95: 23.9,
}  # fmt: skip


@pytest.mark.parametrize("humidity", AT_70_F)
def test_equilibrium_moisture_at_70_f(published, humidity):
    book = published("USDA Wood Handbook FPL-GTR-190 Table 4-2, row of 70 degF", confidence="memory")
    # half of the last printed place, and 0.05 for the rounding of the coefficients
    book.check(f"{humidity} %", equilibrium_moisture_percent(21.1, humidity), AT_70_F[humidity], 0.1, "%")


@pytest.mark.parametrize(("humidity", "moisture"), [(40, 7.7), (50, 9.3), (60, 11.0), (70, 13.1)])
def test_equilibrium_moisture_at_20_c(published, humidity, moisture):
    book = published("Practitioners' notes on moisture, computed by Wood Handbook eq. 4-5")
    book.check(f"{humidity} %", equilibrium_moisture_percent(20, humidity), moisture, 0.05, "%")


def test_a_flat_sawn_oak_top_of_450(published):
    book = published("Practitioners' notes on wood movement, Wood Handbook Table 13-5")
    book.check("4 points", moved_mm(450, 0.00365, 8, 12), 6.6, 0.05, "mm")
    book.check("95 mm, 5 points", moved_mm(95, 0.00365, 7, 12), 1.73, 0.005, "mm")


def test_the_calculator_finds_the_same_through_its_table(published):
    book = published("USDA Wood Handbook Table 13-5, white oak")
    found = answer(
        find_calculator("wood-movement"),
        {"width": "450 mm", "species": "white oak", "from_moisture": "8", "to_moisture": "12"},
    ).results
    book.check("movement", found["movement"].value, 450 * 0.00365 * 4, 1e-9, "mm")


@pytest.mark.parametrize(
    ("gravity_12", "moisture", "printed_lb_ft3"),
    # specific gravity at 12 % that belongs to the table's basic gravity by its own relation Gb = G/(1 + 0.159 G)
    [(0.50, 12, 35.0), (0.40, 12, 28.0), (0.60, 12, 41.9)],
)
def test_density_at_12_percent(published, gravity_12, moisture, printed_lb_ft3):
    book = published("density = 62.4 G (1 + M/100) lb/ft3, USDA Wood Handbook ch. 4", confidence="memory")
    # 0.1 for a table in whole or half pounds
    book.check("density", density_kg_m3(gravity_12, moisture) / 16.01846, printed_lb_ft3, 0.1, "lb/ft3")
