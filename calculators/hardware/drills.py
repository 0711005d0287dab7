"""Twist drills: find one by its name, the nearest to a diameter, and read the sets that people own."""

from __future__ import annotations

from calculators.hardware.drill_sets import drill_set
from calculators.hardware.drill_sizes import (
    SERIES,
    Drill,
    Way,
    all_drills,
    drills_of,
    find_drill,
    inch_fraction,
    nearest_drill,
)

__all__ = [
    "SERIES",
    "Drill",
    "Way",
    "all_drills",
    "drill_set",
    "drills_of",
    "find_drill",
    "inch_fraction",
    "nearest_drill",
]
