"""Volumes of timber, limits and fits, cutting speeds, expansion.

Sources:
- Practitioners' notes, item N47: 2.4 x 0.25 x 0.032 m is 0.0192 m3 or 8.14 board feet; 1 m3 is 423.78 board feet
  and 35.31 cubic feet: read.
- examples.csv of the gathered values, centre of area of an L shape: from memory (identity).
- ISO 286-2:2010, limit deviations of holes and shafts, single cells: from memory.
"""

import pytest

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator
from calculators.materials.volumes import BOARD_FOOT_M3
from calculators.mechanics.fits import limits_of


def test_board_feet(published):
    book = published("Practitioners' notes on buying timber, furniture text")
    found = answer(find_calculator("timber"), {"pieces": "board, 1, 2.4 m, 250 mm, 32 mm"}).results
    book.check("volume", found["volume"].value, 0.0192, 1e-9, "m3")
    book.check("board feet", found["board_feet"].value, 8.14, 0.005, "board ft")
    book.check("a cubic metre", 1 / BOARD_FOOT_M3, 423.78, 0.005, "board ft")
    found = answer(find_calculator("convert"), {"value": "1 m3", "to": "ft3"}).results
    book.check("a cubic metre", found["value"].value, 35.31, 0.005, "ft3")


CELLS = {
    ("H7", 10): (0, 15), ("H7", 25): (0, 21), ("H8", 12): (0, 27), ("H9", 40): (0, 62), ("H11", 60): (0, 190),
    ("F8", 20): (20, 53), ("D10", 8): (40, 98), ("G7", 16): (6, 24), ("h6", 10): (-9, 0), ("h9", 30): (-52, 0),
    ("f7", 25): (-41, -20), ("f7", 50): (-50, -25), ("g6", 20): (-20, -7), ("e8", 16): (-59, -32),
    ("d9", 40): (-142, -80), ("k6", 12): (1, 12), ("m6", 20): (8, 21), ("n6", 30): (15, 28), ("p6", 25): (22, 35),
    ("r6", 40): (34, 50), ("s6", 60): (53, 72), ("js6", 25): (-6.5, 6.5),
}  # fmt: skip


@pytest.mark.parametrize(("name", "size"), CELLS)
def test_limit_deviations(published, name, size):
    book = published("ISO 286-2:2010, tables of limit deviations", confidence="memory")
    least, most = CELLS[name, size]
    limits = limits_of(size, name)
    book.check("lower", (limits.least_mm - size) * 1000, least, 1e-6, "um")
    book.check("upper", (limits.most_mm - size) * 1000, most, 1e-6, "um")
