"""Quantities other than lengths: forces, torques, masses, angles, pressures, as people write them.

The units are the closed list of `unit_names.py`, which is offered here too; pint works out the factors
between them and sees nothing that a person typed.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from typing import Any

from calculators.quantities.errors import InputError
from calculators.quantities.marks import LONGEST, plain, quoted
from calculators.quantities.numbers import NumberFault, decimal_text, read_number
from calculators.quantities.reading import MM_PER_UNIT, read_length
from calculators.quantities.unit_names import UNITS, Unit, find_unit, named_unit, units_of

__all__ = ["UNITS", "Unit", "factor", "find_unit", "named_unit", "read_quantity", "units_of"]


@cache
def _registry() -> Any:
    """The one pint registry; it takes tenths of a second to build, so it waits until it is needed."""
    import pint

    return pint.UnitRegistry(cache_folder=None)


@cache
def factor(source: str, target: str) -> float:
    """The factor from one unit to another of the same kind.

    Args:
        source: the canonical name of the unit to convert from.
        target: the canonical name of the unit to convert to.

    Returns:
        How many of `target` are in one of `source` [1].

    Raises:
        ValueError: when the units do not exist or measure different things (a programmer's mistake).

    Source: the definitions of pint's registry, which follow NIST SP 811 and CODATA (from memory).

    Example:
        >>> factor("in", "mm")
        25.4
        >>> round(factor("lbf ft", "N m"), 6)
        1.355818
    """
    first, second = named_unit(source), named_unit(target)
    if first.measures != second.measures:
        raise ValueError(f"{source} measures {first.measures}, {target} {second.measures}")
    if first == second:
        return 1.0
    if first.measures == "length":
        return float(MM_PER_UNIT[source] / MM_PER_UNIT[target])
    registry = _registry()
    one = registry.Quantity(registry.parse_expression(first.expression))
    ratio = one / registry.Quantity(registry.parse_expression(second.expression))
    return float(ratio.to_base_units().magnitude)


_QUANTITY = re.compile(
    r"(?P<number>[-+]? ?(?:[\d.,]+[eE][-+]?\d{1,2}(?![\d.,])|[\d.,/][\d.,/ ]*(?:-\d+/\d+)?))"
    r" ?(?P<unit>[^\d\s][^\n]*|1/[a-z]+)?"
)
_SEXAGESIMAL = re.compile(
    r"(?P<sign>[-+]?) ?(?P<deg>\d+) ?(?:°|deg) ?(?P<min>\d{1,2}) ?'(?: ?(?P<sec>\d{1,2}) ?\")?"
)


def read_quantity(
    text: str,
    unit: str,
    *,
    field: str = "value",
    minimum: float | None = None,
    maximum: float | None = None,
) -> float:
    """Read a quantity as a person writes it: `6 N.m`, `53 in lbf`, `20 N`, `2 deg`, `12° 30'`, `75 %`.

    Args:
        text: the writing, at most 64 characters.
        unit: the canonical name of the unit of the answer, and of a bare number.
        field: the name of the input, for the faults.
        minimum: [unit] the least value allowed.
        maximum: [unit] the greatest value allowed.

    Returns:
        The value [unit], finite.

    Raises:
        InputError: when it cannot be read, has a unit of another kind, or is outside the limits.

    Source: this project.

    Example:
        >>> read_quantity("6 Nm", "N m"), round(read_quantity("53 in lbf", "N m"), 3)
        (6.0, 5.988)
        >>> read_quantity("12° 30'", "deg")
        12.5
    """
    wanted = named_unit(unit)
    if len(text) > LONGEST:
        says = f"{quoted(text)} is not {_a(wanted)} in at most {LONGEST} characters; {_write(wanted)}."
        raise InputError.of(says, field=field)
    read = _length if wanted.measures == "length" else _quantity
    value = read(text, wanted, field)
    _check_limits(value, text, wanted, field, minimum, maximum)
    return value


def _length(text: str, wanted: Unit, field: str) -> float:
    """Read a length in any unit; a bare number is given the wanted one first."""
    bare = re.fullmatch(r"[-+]?[\d.,/ -]+", plain(text))
    line = f"{text} {wanted.name}" if bare and wanted.name not in ("mm", "in") else text
    length = read_length(
        line[:LONGEST], unit="in" if wanted.name == "in" else "mm", field=field, minimum_mm=-1e6
    )
    return float(Fraction(length.ticks, 10_000_000) / MM_PER_UNIT[wanted.name])


def _quantity(text: str, wanted: Unit, field: str) -> float:
    line = plain(text)
    if not line:
        raise InputError.of(f"{_a(wanted).capitalize()} is missing; {_write(wanted)}.", field=field)
    if wanted.measures == "angle" and (found := _SEXAGESIMAL.fullmatch(line.replace("º", "°"))):
        minutes, seconds = int(found["min"]), int(found["sec"] or 0)
        if minutes > 59 or seconds > 59:
            raise InputError.of(
                f"{quoted(text)} has 60 minutes or seconds or more; {_write(wanted)}.", field=field
            )
        degrees = int(found["deg"]) + Fraction(minutes, 60) + Fraction(seconds, 3600)
        return _scaled(-degrees if found["sign"] == "-" else degrees, "deg", wanted, text, field)
    found = _QUANTITY.fullmatch(line)
    if not found or not line.replace("°", "").replace("º", "").translate(_FLAT).isascii():
        raise InputError.of(f"{quoted(text)} is not {_a(wanted)}; {_write(wanted)}.", field=field)
    name = found["unit"]
    given = find_unit(name) if name else wanted
    if given is None:
        says = f"{quoted(text)} has an unknown unit, {quoted(name)}; {_write(wanted)}."
        raise InputError.of(says, field=field, choices=units_of(wanted.measures))
    if given.measures != wanted.measures:
        says = f"{quoted(text)} is {_a(given)}, not {_a(wanted)}; {_write(wanted)}."
        raise InputError.of(says, field=field, choices=units_of(wanted.measures))
    return _scaled(_exact(found["number"], given, text, wanted, field), given.name, wanted, text, field)


_FLAT = str.maketrans("²³⁴", "234")


def _exact(number: str, given: Unit, text: str, wanted: Unit, field: str) -> Fraction:
    """Read the number; here (unlike in a length) an exponent of two figures is allowed: `200e9 Pa`."""
    head, mark, exponent = number.lower().partition("e")
    try:
        return read_number(head).value * (Fraction(10) ** int(exponent) if mark else 1)
    except NumberFault as fault:
        choices = tuple(f"{choice} {given.name}" for choice in fault.choices)
        remedy = f"write {' or '.join(choices)}" if choices else _write(wanted)
        raise InputError.of(f"{quoted(text)} {fault.says}; {remedy}.", field=field, choices=choices) from None


def _scaled(value: Fraction, given: str, wanted: Unit, text: str, field: str) -> float:
    if abs(value) > 10**60:
        raise InputError.of(
            f"{quoted(text)} is larger than anything that is worked with; {_write(wanted)}.", field=field
        )
    if wanted.measures == "temperature":
        return _temperature(float(value), given, wanted.name)
    # Dividing by the inverse keeps whole factors exact: 2500 mm2 is 25 cm2, not 25.000000000000004.
    up, down = factor(given, wanted.name), factor(wanted.name, given)
    return float(value) * up if up >= 1 else float(value) / down


_FREEZING_F = 32.0


def _temperature(value: float, given: str, wanted: str) -> float:
    """A temperature on another scale: factors alone do not tell where the scale begins."""
    if given == wanted:
        return value
    return (value - _FREEZING_F) / 1.8 if wanted == "degC" else value * 1.8 + _FREEZING_F


def _check_limits(
    value: float, text: str, wanted: Unit, field: str, minimum: float | None, maximum: float | None
) -> None:
    for limit, beyond, side, bound in (
        (minimum, minimum is not None and value < minimum, "below the least", "least"),
        (maximum, maximum is not None and value > maximum, "above the most", "most"),
    ):
        if limit is not None and beyond:
            allowed = f"{decimal_text(Fraction(limit))} {wanted.name}".removesuffix(" 1")
            says = f"{quoted(text)} is {side} allowed here; write at {bound} {allowed}."
            raise InputError.of(says, field=field, value=value, limit=limit, unit=wanted.name)


def _a(unit: Unit) -> str:
    """What the unit measures, with its article: `an angle`."""
    return f"{'an' if unit.measures[0] in 'aeiou' else 'a'} {unit.measures}"


def _write(wanted: Unit) -> str:
    """The end of a refusal: how this kind of quantity is written."""
    names = units_of(wanted.measures)
    if wanted.measures == "share":
        return "write a number such as 75 or 75 %" if wanted.name == "%" else "write a number such as 0.5"
    return f"write a number with one of {', '.join(names)}"
