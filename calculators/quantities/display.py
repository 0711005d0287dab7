"""Showing a length: the nearest practical fraction with its error, decimals, both systems side by side."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from calculators.quantities.errors import InputError
from calculators.quantities.length import TICKS_PER_MM, Length
from calculators.quantities.numbers import decimal_text, mixed_text
from calculators.quantities.reading import write_length

DENOMINATORS = (1, 2, 4, 8, 16, 32, 64, 128)
"""The fractions of an inch that rules and drills are made to."""


@dataclass(frozen=True, slots=True)
class NearFraction:
    """The nearest inch fraction to a length, and how far off it is.

    `error_mm` is the fraction less the length: positive where the fraction is too long.
    """

    inches: Fraction
    error_mm: Fraction

    @property
    def exact(self) -> bool:
        """Whether the fraction is the length itself."""
        return self.error_mm == 0

    @property
    def text(self) -> str:
        """The fraction as the trade writes it: `1 3/4 in`."""
        return f"{mixed_text(self.inches)} in"

    @property
    def error_text(self) -> str:
        """The error with its sign, to the micrometre: `+0.041 mm`; `exact` where there is none."""
        if self.exact:
            return "exact"
        sign = "+" if self.error_mm > 0 else "-"
        size = max(abs(self.error_mm), Fraction(1, 1000))
        return f"{sign}{decimal_text(size, 3)} mm"


def nearest_fraction(length: Length, denominator: int = 64) -> NearFraction:
    """Find the fraction of an inch that is nearest to a length.

    A length half-way between two fractions goes to the one with the smaller denominator.

    Args:
        length: the length.
        denominator: [1] the finest fraction: 1, 2, 4 and so on to 128.

    Returns:
        The fraction [in], in its lowest terms, and its error [mm].

    Raises:
        InputError: when the denominator is none of these.

    Source: common practice; inch of 25.4 mm exactly.

    Example:
        >>> near = nearest_fraction(Length.of_mm(5))
        >>> near.text, near.error_text
        ('13/64 in', '+0.159 mm')
    """
    if denominator not in DENOMINATORS:
        allowed = ", ".join(map(str, DENOMINATORS))
        raise InputError.of(
            f"{denominator} is not a fraction of an inch that rules are divided in; write one of {allowed}.",
            field="denominator",
        )
    # Rounding half to even goes to the even numerator, which is the smaller denominator.
    inches = Fraction(round(length.inches * denominator), denominator)
    return NearFraction(inches, (inches - length.inches) * Fraction(254, 10))


def rounded_to(length: Length, step: Length) -> Length:
    """Round a length to the nearest whole multiple of a step (half to even).

    Args:
        length: the length.
        step: the step, more than nought.

    Returns:
        The rounded length.

    Raises:
        ValueError: when the step is not more than nought (a programmer's mistake).

    Source: this project.

    Example:
        >>> rounded_to(Length.of_mm(44.46), Length.of_mm(0.5)).mm
        44.5
    """
    if step.ticks <= 0:
        raise ValueError("a step is more than nought")
    return Length(round(Fraction(length.ticks, step.ticks)) * step.ticks)


def millimetres(length: Length, places: int = 2) -> str:
    """Write a length in millimetres, rounded, without trailing noughts.

    Args:
        length: the length.
        places: [1] decimals at most; 1 for wood, 2 or 3 for metal.

    Returns:
        The text with its unit.

    Source: common practice.

    Example:
        >>> millimetres(Length.of_mm(44.449)), millimetres(Length.of_mm(44.449), 1)
        ('44.45 mm', '44.4 mm')
    """
    return f"{decimal_text(Fraction(length.ticks, TICKS_PER_MM), places)} mm"


def decimal_inches(length: Length, places: int = 4) -> str:
    """Write a length in decimals of an inch, as the metal shop does, rounded, without trailing noughts.

    Args:
        length: the length.
        places: [1] decimals at most.

    Returns:
        The text with its unit.

    Source: common practice.

    Example:
        >>> decimal_inches(Length.of_mm(5))
        '0.1969 in'
    """
    return f"{decimal_text(length.inches, places)} in"


def fractional_inches(length: Length, denominator: int = 64, *, say_from_mm: float = 0.05) -> str:
    """Write a length as the nearest inch fraction, with the error where it matters.

    Args:
        length: the length.
        denominator: [1] the finest fraction: 1, 2, 4 and so on to 128.
        say_from_mm: [mm] the error from which it is stated, 0 or more.

    Returns:
        `1 3/4 in`, or `13/64 in (+0.159 mm)`.

    Raises:
        InputError: when the denominator is none of these.

    Source: common practice.

    Example:
        >>> fractional_inches(Length.of_mm(44.45)), fractional_inches(Length.of_mm(5))
        ('1 3/4 in', '13/64 in (+0.159 mm)')
    """
    near = nearest_fraction(length, denominator)
    error = abs(float(near.error_mm))
    return near.text if error == 0 or error < say_from_mm else f"{near.text} ({near.error_text})"


def both(length: Length, denominator: int = 64, places: int = 2) -> str:
    """Write a length in both systems; what a person wrote stands first, as it was written.

    Args:
        length: the length.
        denominator: [1] the finest inch fraction.
        places: [1] decimals of a millimetre at most.

    Returns:
        `44.45 mm (1 3/4 in)`; with the inches first where it was written in inches.

    Raises:
        InputError: when the denominator is none of the usual ones.

    Source: this project.

    Example:
        >>> both(Length.of_mm(44.45))
        '44.45 mm (1 3/4 in)'
        >>> both(Length(444_500_000, "1-3/4", "in"))
        '1-3/4 in (44.45 mm)'
    """
    metric, inches = millimetres(length, places), fractional_inches(length, denominator)
    if not length.written:
        return (
            f"{metric} ({inches.replace(' (', ', ').rstrip(')')})"
            if "(" in inches
            else f"{metric} ({inches})"
        )
    written = write_length(length, "mm" if length.unit == "in" else "in")
    in_millimetres = written.lower().rstrip(". ").endswith("mm")
    beside = inches.replace(" (", ", ").rstrip(")") if in_millimetres else metric
    return f"{written} ({beside})"
