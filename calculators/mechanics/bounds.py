"""Limits of the numbers that a formula takes, with the sentence for one that lies outside."""

from __future__ import annotations

from math import isfinite

from calculators.quantities.errors import InputError


def check_between(name: str, value: float, low: float, high: float, unit: str = "") -> None:
    """See that a number lies within its limits.

    Args:
        name: the input's name, as the calculator has it.
        value: the number.
        low: the least that is allowed.
        high: the most that is allowed.
        unit: the unit of all three, for the sentence.

    Raises:
        InputError: when it is outside them or not a number.

    Source: this project.

    Example:
        >>> check_between("diameter", 5.0, 0.5, 50, "mm")
    """
    if isfinite(value) and low <= value <= high:
        return
    words, after = name.replace("_", " "), f" {unit}" if unit else ""
    shown = f"{value:g}" if isfinite(value) else "not a number"
    raise InputError.of(
        f"The {words} is {shown}{after}; it lies between {low:g} and {high:g}{after}.",
        field=name,
        value=value if isfinite(value) else None,
        limit=low if value < low else high,
        unit=unit,
    )
