"""Tensile stress areas as the thread calculator gives them, against printed tables.

Sources:
- ISO 898-1 stress area of M10, 57.99 mm2 (table 58.0), as printed by a supplier's thread table, read; the
  formula there is from memory.
- ASME B1.1 stress area of 1/4-20, 0.0318 in2, as printed by a web thread table, read.
"""

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator


def area_mm2(designation: str) -> float:
    found = (
        answer(find_calculator("thread"), {"designation": designation}).results["tensile_stress_area"].value
    )
    assert isinstance(found, float)
    return found


def test_metric(published):
    book = published("ISO 898-1, as printed by a supplier's thread table")
    # 0.1 %: the table's formula takes pi/4 (d - 0.9382 P)^2, whose factor is rounded to four places.
    book.check("M10", area_mm2("M10"), 57.99, 0.058, "mm2")


def test_unified(published):
    book = published("ASME B1.1, as printed by a web thread table")
    # Half of the last of the printed places.
    book.check("1/4-20", area_mm2("1/4-20 UNC") / 25.4**2, 0.0318, 0.00005, "in2")
