"""The result of a calculator: values with units, the working that led to them, warnings and sources."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import isfinite

from calculators.quantities.nomenclature import result_name

Plain = None | bool | int | float | str | Sequence["Plain"] | Mapping[str, "Plain"]
"""What JSON can hold."""


@dataclass(frozen=True, slots=True)
class Value:
    """One value with its unit; the unit is empty for a text, a truth or a list of texts.

    `shown` is how the worked example writes it where the number alone says too little. `spread` is how far
    a number may be off, in the same unit, where an input was given with a spread.
    """

    value: Plain
    unit: str = ""
    shown: str = ""
    spread: float | None = None


@dataclass(frozen=True, slots=True)
class Step:
    """One line of working: symbol, formula, the numbers put in, the value with its unit, the source.

    `spread` is how far the value may be off, where an input was given with a spread.
    """

    symbol: str
    formula: str
    numbers: str
    value: float
    unit: str
    source: str = ""
    spread: float | None = None

    @property
    def line(self) -> str:
        """The step as one line of text; a formula without numbers put in is written once."""
        unit = "" if self.unit == "1" else self.unit
        value = f"{spread_text(self.value, self.spread)} {unit}".rstrip()
        parts = [self.symbol, self.formula, self.numbers, value]
        line = " = ".join(part for part in parts if part)
        return f"{line} ({self.source})" if self.source else line


@dataclass(frozen=True, slots=True)
class Result:
    """What a calculator gives: named values, the working, warnings, and the sources of its rules."""

    results: Mapping[str, Value]
    working: tuple[Step, ...] = ()
    warnings: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()


def named(**values: Plain | Value) -> dict[str, Value]:
    """Give values the units that the nomenclature has for their names.

    Args:
        **values: the values by their names in the nomenclature; a `Value` keeps its own unit.

    Returns:
        The named values, in the order given.

    Raises:
        ValueError: when the nomenclature has no such name (a programmer's mistake).

    Source: this project.

    Example:
        >>> named(pitch=0.8)
        {'pitch': Value(value=0.8, unit='mm', shown='', spread=None)}
    """
    return {
        name: value if isinstance(value, Value) else Value(value, result_name(name).unit)
        for name, value in values.items()
    }


def number_text(value: float, figures: int = 6) -> str:
    """Write a number for reading: so many significant figures, no exponent, no trailing noughts.

    Args:
        value: a finite number.
        figures: [1] significant figures, 1 to 15.

    Returns:
        The text.

    Source: this project.

    Example:
        >>> number_text(4.480384757729336), number_text(1200.0), number_text(2e-7), number_text(8273708.7518)
        ('4.48038', '1200', '0.0000002', '8273710')
    """
    from decimal import Decimal

    text = f"{Decimal(f'{value:.{figures}g}'):f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def spread_text(value: float, spread: float | None, figures: int = 6) -> str:
    """Write a number with its spread; it claims no more than the spread's first two figures.

    Args:
        value: a finite number.
        spread: how far it may be off, 0 or more; None where nothing is known of that.
        figures: [1] significant figures where there is no spread.

    Returns:
        The text: the number alone where it has no spread.

    Source: two figures for an uncertainty: JCGM 100:2008, 7.2.6 (from memory).

    Example:
        >>> spread_text(31.41592, 0.0263), spread_text(31.41592, None), spread_text(1234.5, 200)
        ('31.416 ± 0.026', '31.4159', '1200 ± 200')
    """
    if not spread or not isfinite(spread):
        return number_text(value, figures)
    from decimal import Decimal

    two = Decimal(f"{spread:.1e}")
    # A second figure of nought says nothing: 0.05, not 0.050.
    place = two.adjusted() - (0 if two.normalize().adjusted() == two.normalize().as_tuple().exponent else 1)
    step = Decimal(1).scaleb(place)
    rounded = [f"{Decimal(repr(float(each))).quantize(step):f}" for each in (value, spread)]
    return " ± ".join("0" if Decimal(each) == 0 else each for each in rounded)


def cleaned(value: Plain) -> Plain:
    """Take the last bits' noise off every number, to twelve significant figures.

    Args:
        value: a value as JSON can hold it.

    Returns:
        The same value with its floats rounded.

    Raises:
        ValueError: when a number is not finite (a programmer's mistake: the limits let it through).

    Source: this project.

    Example:
        >>> cleaned({"a": [25.400000000000002, True, "x"]})
        {'a': [25.4, True, 'x']}
    """
    if isinstance(value, float):
        if not isfinite(value):
            raise ValueError(f"a result is not a finite number: {value}")
        return float(f"{value:.12g}") + 0.0
    if isinstance(value, str) or value is None or isinstance(value, int):
        return value
    if isinstance(value, Mapping):
        return {key: cleaned(item) for key, item in value.items()}
    return [cleaned(item) for item in value]
