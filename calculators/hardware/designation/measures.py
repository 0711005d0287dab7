"""The lengths of a line of hardware: settled into one writing, and doubted where the unit is unclear.

A length in the unit of its own system (inches for inch threads, BA and numbered wood screws, millimetres
for metric) is written bare; any other carries its unit. A bare number that would be absurd in its own
system's unit (`5/16 BSF x 50`) is asked back, so it is never written bare either.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

from calculators.hardware.designation.sizes import Size, Unit
from calculators.quantities.errors import InputError
from calculators.quantities.length import TICKS_PER_MM, Length
from calculators.quantities.marks import plain, quoted
from calculators.quantities.numbers import decimal_text, mixed_text
from calculators.quantities.reading import read_length

Role = Literal["length", "cut to", "outside", "body", "thickness"]
LONGEST_MM = 5000
SHORTEST_MM = 0.05

LONGEST_DIAMETERS_IN = 30
"""A bare length of more diameters than this in inches is asked back: it may be millimetres."""
SHORTEST_DIAMETERS_MM = 0.5
"""A bare length of fewer diameters than this in millimetres is asked back: it may be inches."""
SHORTEST_WOOD_DIAMETERS_MM = 2
"""The same for wood screws, which are never that short: `8 x 2` is a number and inches."""
WIDEST_DIAMETERS_IN = 10
"""A bare outside diameter of more diameters than this in inches is asked back."""

_INCHES = {"in", "inch", "inches", '"', "thou", "ft", "'"}


def written_unit(text: str, unit: str, own: Unit) -> Unit:
    """Say which unit a number of a line is to be kept in.

    Args:
        text: the number.
        unit: the unit behind it, empty when bare.
        own: the unit of the line's own system.

    Returns:
        `in` for inch units and for bare fractions, which are never millimetres; else `mm`, or `own`.

    Source: common practice.

    Example:
        >>> written_unit("3/8", "", "mm"), written_unit("20", "", "in"), written_unit("20", "mm", "in")
        ('in', 'in', 'mm')
    """
    if unit:
        return "in" if unit in _INCHES else "mm"
    return "in" if "/" in text else own


def is_doubtful(text: str, own: Unit, role: Role, size: Size) -> bool:
    """Say whether a bare number could as well be of the other unit.

    Args:
        text: the number; a fraction is never doubtful.
        own: the unit that a bare number has in this line.
        role: what it measures.
        size: the size of the thing.

    Returns:
        True when the length is absurd in its own unit.

    Source: common practice; the limits are this project's.

    Example:
        >>> from calculators.hardware.designation.sizes import size_of
        >>> is_doubtful("50", "in", "length", size_of("5/16 BSF"))
        True
        >>> is_doubtful("2", "in", "length", size_of("5/16 BSF"))
        False
    """
    if "/" in text:
        return False
    value = Fraction(text) * (Fraction(254, 10) if own == "in" else 1)
    diameters = float(value) / size.diameter_mm
    if role == "thickness":
        return own == "in" and diameters >= 1
    if role in ("outside", "body"):
        return diameters > WIDEST_DIAMETERS_IN if own == "in" else diameters < 1
    if own == "in":
        return diameters > LONGEST_DIAMETERS_IN
    return diameters < (SHORTEST_WOOD_DIAMETERS_MM if size.is_metric_wood else SHORTEST_DIAMETERS_MM)


def read_measure(text: str, unit: str, role: Role, size: Size, field: str) -> Length:
    """Read one number of a line as a length in its settled writing.

    Args:
        text: the number as written.
        unit: the unit behind it, empty when bare.
        role: what it measures.
        size: the size of the thing, whose unit a bare number has.
        field: the name of the input.

    Returns:
        The length; `written` is its canonical text, `unit` the unit of that text.

    Raises:
        InputError: when it cannot be read, is nought or longer than 5 m.

    Source: this project.
    """
    kept = written_unit(text, unit, size.unit)
    length = read_length(f"{text} {unit}".strip(), unit=kept, field=field)
    if not SHORTEST_MM <= length.mm <= LONGEST_MM:
        says = f"{quoted(f'{text} {unit}'.strip())} cannot be measured on hardware; write 0.05 mm to 5000 mm."
        limit = SHORTEST_MM if length.mm < SHORTEST_MM else float(LONGEST_MM)
        raise InputError.of(says, field=field, value=min(length.mm, 1e9), limit=limit, unit="mm")
    return settled(length, kept, role, size)


def settled(length: Length, kept: Unit, role: Role, size: Size) -> Length:
    """Give a length its canonical writing: `1 3/4` or `0.32` in inches, `20` in millimetres.

    Args:
        length: the length.
        kept: [mm or in] the unit to write it in; inches that are not exact become millimetres.
        role: what it measures.
        size: the size of the thing.

    Returns:
        The same length, bare in the unit of its own system where that is clear, else with its unit.

    Source: this project.
    """
    text = _inch_text(length.inches) if kept == "in" else None
    if text is None:
        kept, text = "mm", decimal_text(Fraction(length.ticks, TICKS_PER_MM), 7)
    bare = kept == size.unit and not is_doubtful(text, kept, role, size)
    return Length(length.ticks, text if bare else f"{text} {kept}", kept)


def unit_of_writing(length: Length, own: Unit) -> Unit:
    """Say which unit a length of any origin is best kept in.

    Args:
        length: the length, written or worked out.
        own: the unit of the system it is to stand in.

    Returns:
        The unit of its writing; a worked-out length takes inches only for whole 1/64 in of an inch system.

    Source: this project.
    """
    if not length.written:
        return "in" if own == "in" and 64 % length.inches.denominator == 0 else "mm"
    line = plain(length.written).lower()
    unit = re.search(r"[a-z'\"]+", line)
    if unit:
        return "in" if unit[0] in _INCHES else "mm"
    return "in" if length.unit == "in" else "mm"


def _inch_text(inches: Fraction) -> str | None:
    """Inches as a fraction of up to 1/128, else as an exact decimal; None when neither is exact."""
    if 128 % inches.denominator == 0:
        return mixed_text(inches)
    if 10**7 % inches.denominator == 0:
        return decimal_text(inches)
    return None
