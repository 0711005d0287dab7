"""Reading a length as people write it, exactly, and writing it so that it reads back the same."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

from calculators.quantities import gauges
from calculators.quantities.errors import InputError
from calculators.quantities.length import TICKS_PER_MM, Length
from calculators.quantities.marks import LONGEST, plain, quoted, tidy
from calculators.quantities.numbers import Number, NumberFault, decimal_text, mixed_text, read_number

LengthUnit = Literal["mm", "in"]

WRITE = 'write it as 31.75, 31.75 mm, 1 1/4 in, 3/8", 5\' 3", 10 thou or 20 SWG'
"""What every refusal ends with: the ways in which a length can be written."""

FARTHEST_MM = 1_000_000
"""No length in a workshop is longer than a kilometre."""

_INCH = Fraction(254, 10)
MM_PER_UNIT: dict[str, Fraction] = {
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), Fraction(1)),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), Fraction(10)),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), Fraction(1000)),
    **dict.fromkeys(("um", "micron", "microns", "micrometre", "micrometres"), Fraction(1, 1000)),
    **dict.fromkeys(("micrometer", "micrometers"), Fraction(1, 1000)),
    **dict.fromkeys(("in", "inch", "inches", '"'), _INCH),
    **dict.fromkeys(("ft", "foot", "feet", "'"), 12 * _INCH),
    **dict.fromkeys(("yd", "yard", "yards"), 36 * _INCH),
    **dict.fromkeys(("thou", "thous"), _INCH / 1000),
}
"""Millimetres in each unit that a length may be written in; the inch is 25.4 mm exactly."""

_FEET_AND_INCHES = re.compile(
    r"(?P<feet>\d+) ?(?:'|ft\.?|foot|feet)[ -]?"
    r"(?P<inches>[\d./ -]+?) ?(?:\"|inches|inch|in\.?)?",
    re.IGNORECASE,
)
_NUMBER_AND_UNIT = re.compile(
    r"(?P<number>[-+]? ?[\d.,/][\d.,/ -]*?) ?(?P<unit>[a-z]+\.?|['\"])?", re.IGNORECASE
)
_EXPONENT = re.compile(r"[-+]?[\d.,]+ ?[eE][-+]?\d+")
_NOT_A_NUMBER = re.compile(r"[-+]?(nan|inf(inity)?|0x[0-9a-f]*)( ?[a-z]*)?", re.IGNORECASE)


def read_length(
    text: str,
    *,
    unit: LengthUnit = "mm",
    field: str = "length",
    minimum_mm: float | None = None,
    maximum_mm: float | None = None,
) -> Length:
    """Read a length as a person writes it: fractions, decimals, feet and inches, thou, gauge numbers.

    The value is exact to the tick of 1e-7 mm; no float is used on the way.

    Args:
        text: the writing, at most 64 characters.
        unit: [mm or in] what a bare number means.
        field: the name of the input, for the faults.
        minimum_mm: [mm] the least length allowed; without it a length may not be negative.
        maximum_mm: [mm] the greatest length allowed; never more than 1 km.

    Returns:
        The length, with the text as written.

    Raises:
        InputError: when the text cannot be read, could mean two things (then with choices), or is
            outside the limits.

    Source: inch of 25.4 mm exactly, ISO 80000-3:2006 annex (from memory); forms of writing: common practice.

    Example:
        >>> read_length('1-1/4"').exact_mm
        Decimal('31.75')
        >>> read_length("31,75").ticks == read_length("1 1/4", unit="in").ticks
        True
        >>> read_length("20 SWG").mm
        0.9144
    """
    if unit not in ("mm", "in"):
        raise ValueError(f"a bare length is in mm or in, not {unit!r}")
    if not isinstance(text, str):
        raise InputError.of(f"A length is read from text; {WRITE}.", field=field)
    if len(text) > LONGEST:
        says = f"{quoted(text)} is longer than the {LONGEST} characters that a length can have; {WRITE}."
        raise InputError.of(says, field=field, value=float(len(text)), limit=float(LONGEST))
    mm = _millimetres(text, unit, field)
    _within(mm, text, field, minimum_mm, maximum_mm)
    return Length(round(mm * TICKS_PER_MM), tidy(text), unit)


def _millimetres(text: str, unit: LengthUnit, field: str) -> Fraction:
    """Read the text as exact millimetres, whatever the size."""
    line = plain(text)
    if not line:
        raise InputError.of(f"A length is missing; {WRITE}.", field=field)
    if not line.isascii():
        raise InputError.of(f"{quoted(text)} has signs that a length does not have; {WRITE}.", field=field)
    if _NOT_A_NUMBER.fullmatch(line):
        raise InputError.of(f"{quoted(text)} is not a number; {WRITE}.", field=field)
    if _EXPONENT.match(line):
        says = f"{quoted(text)} has an exponent, which lengths are not written with; {WRITE}."
        raise InputError.of(says, field=field)
    number = gauges.find_number(line)
    if number is not None:
        return gauges.read_gauge(text, number, field=field, also=WRITE).exact_mm
    try:
        feet = _feet_and_inches(line)
        return feet if feet is not None else _number_and_unit(line, text, unit, field)
    except NumberFault as fault:
        choices = tuple(f"{choice} {fault.rest or unit}" for choice in fault.choices)
        says = f"{quoted(text)} {fault.says}; " + (
            f"write {' or '.join(choices)}." if choices else f"{WRITE}."
        )
        raise InputError.of(says, field=field, choices=choices) from None


def _feet_and_inches(line: str) -> Fraction | None:
    """Read `5' 3 1/2"`; None when the line is of another form."""
    sign = -1 if line[0] == "-" else 1
    found = _FEET_AND_INCHES.fullmatch(line.lstrip("+-").lstrip() if line[0] in "+-" else line)
    if not found:
        return None
    inches = read_number(found["inches"]).value
    if not 0 <= inches < 12:
        raise NumberFault("has 12 inches or more after the feet")
    return sign * (int(found["feet"]) * 12 + inches) * _INCH


def _number_and_unit(line: str, text: str, unit: LengthUnit, field: str) -> Fraction:
    """Read a number with at most one unit."""
    found = _NUMBER_AND_UNIT.fullmatch(line)
    if not found:
        raise InputError.of(f"{quoted(text)} cannot be read as a length; {WRITE}.", field=field)
    name = (found["unit"] or unit).lower().rstrip(".")
    if name in ("mil", "mils"):
        raise _mil(text, _number(found["number"], name), field)
    if name not in MM_PER_UNIT:
        own = quoted((found["unit"] or unit).rstrip("."))
        says = f"{quoted(text)} has a unit that lengths are not measured in, {own}; {WRITE}."
        raise InputError.of(says, field=field, choices=("mm", "cm", "m", "in", "ft", "thou"))
    return _number(found["number"], found["unit"] or "").value * MM_PER_UNIT[name]


def _number(text: str, rest: str) -> Number:
    """Read the number; a fault remembers the unit behind it, so that the choices can carry it."""
    try:
        return read_number(text)
    except NumberFault as fault:
        raise NumberFault(fault.says, fault.choices, rest) from None


def _mil(text: str, number: Number, field: str) -> InputError:
    choices = (f"{number.text} thou", f"{number.text} mm")
    says = (
        f"{quoted(text)} could be thousandths of an inch or millimetres, since a mil is either; "
        f"write {choices[0]} or {choices[1]}."
    )
    return InputError.of(says, field=field, choices=choices)


def _within(mm: Fraction, text: str, field: str, minimum_mm: float | None, maximum_mm: float | None) -> None:
    """Refuse what lies outside the limits."""
    # A limit of 0.1 is a tenth, not the binary number next to it.
    least = Fraction(repr(minimum_mm)) if minimum_mm is not None else Fraction(0)
    most = Fraction(repr(maximum_mm)) if maximum_mm is not None else Fraction(FARTHEST_MM)
    least, most = max(least, Fraction(-FARTHEST_MM)), min(most, Fraction(FARTHEST_MM))
    if least <= mm <= most:
        return
    low, limit = mm < least, least if mm < least else most
    if low and minimum_mm is None:
        says = f"{quoted(text)} is negative, and this length may not be; write 0 mm or more."
    else:
        side, bound = ("below the least", "least") if low else ("above the most", "most")
        says = (
            f"{quoted(text)} is {side} allowed here; write a length of at {bound} {decimal_text(limit)} mm."
        )
    value = float(mm) if abs(mm) < 10**18 else float(10**18 if mm > 0 else -(10**18))
    raise InputError.of(says, field=field, value=value, limit=float(limit), unit="mm")


_BARE = re.compile(r"[-+]?[\d.,/ -]+")


def write_length(length: Length, unit: LengthUnit = "mm") -> str:
    """Write a length so that reading it gives the same ticks, whatever a bare number means there.

    What a person wrote is given back as it was, with its unit added where a bare number would now be
    read in the other unit. A worked-out length is written as a decimal of millimetres, or in inches as a
    fraction of up to 1/128 in, else as a decimal where it is exact, else in millimetres.

    Args:
        length: the length.
        unit: [mm or in] the unit to write in, and what a bare number means where it will be read.

    Returns:
        The writing.

    Source: this project.

    Example:
        >>> write_length(Length(444_500_000), "in")
        '1 3/4 in'
        >>> write_length(Length(444_500_000))
        '44.45 mm'
        >>> write_length(read_length("1 3/4", unit="in"))
        '1 3/4 in'
    """
    if length.written:
        if length.unit != unit and _BARE.fullmatch(plain(length.written)):
            return f"{length.written} {length.unit}"
        return length.written
    if unit == "in":
        inches = length.inches
        if inches.denominator <= 128 and inches.denominator & (inches.denominator - 1) == 0:
            return f"{mixed_text(inches)} in"
        if 10**7 % inches.denominator == 0:
            return f"{decimal_text(inches)} in"
    return f"{decimal_text(Fraction(length.ticks, TICKS_PER_MM))} mm"
