"""A length: exact, and remembered as it was written."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

TICKS_PER_MM = 10_000_000
"""Lengths are whole numbers of 1e-7 mm, in which 1/128 in is exact (1,984,375)."""


@dataclass(frozen=True, slots=True)
class Length:
    """A length in whole ticks of 1e-7 mm, with the text a person wrote and the unit it was read in.

    `written` is the text with its spaces tidied, nothing else changed; it is empty for a length that was
    worked out. `unit` ('mm' or 'in') is what a bare number meant on the day it was written.
    """

    ticks: int
    written: str = ""
    unit: str = "mm"

    @property
    def mm(self) -> float:
        """The length in millimetres, for use in formulas."""
        return self.ticks / TICKS_PER_MM

    @property
    def exact_mm(self) -> Decimal:
        """The length in millimetres as an exact decimal, without trailing noughts."""
        value = Decimal(self.ticks).scaleb(-7).normalize()
        return value.quantize(Decimal(1)) if value == value.to_integral_value() else value

    @property
    def inches(self) -> Fraction:
        """The length in inches, exact."""
        return Fraction(self.ticks, 254_000_000)

    @classmethod
    def of_mm(cls, mm: float | int | Decimal | Fraction) -> Length:
        """Make a worked-out length from millimetres, rounded to the nearest tick."""
        return cls(round(Fraction(mm) * TICKS_PER_MM))
