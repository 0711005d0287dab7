"""Hours of work as people write them, and as they stand on a page."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

from calculators.quantities.errors import InputError
from calculators.quantities.marks import plain, quoted
from calculators.quantities.numbers import NumberFault, decimal_text, read_number

MOST_HOURS = 10_000
PLACES = 4
"""An hour is kept to its ten-thousandth, about a third of a second."""

_CLOCK = re.compile(r"(\d{1,5}):([0-5]\d)")
_IN_WORDS = re.compile(
    r"(?:(?P<hours>[\d.,/ -]+?) ?(?:h|hr|hrs|hour|hours)\.?)?"
    r"(?: ?(?P<minutes>[\d.,/ -]+?) ?(?P<word>m|min|mins|minute|minutes)?\.?)?",
    re.IGNORECASE,
)


def read_hours(text: str) -> Decimal:
    """Read hours: `1.5`, `1 1/2`, `1:30`, `1 h 30`, `90 min`. A bare number is hours.

    Raises InputError where it cannot be read, or is less than nothing or more than ten thousand.
    """
    written = plain(text[:100])
    try:
        hours = _read(written)
    except NumberFault:
        hours = None
    if hours is None:
        raise InputError.of(f"{quoted(text)} cannot be read as hours; write 1.5, 1:30, 1 h 30 or 90 min.")
    if not 0 <= hours <= MOST_HOURS:
        raise InputError.of(f"{quoted(text)} is not between 0 and {MOST_HOURS:,} hours.")
    return Decimal(decimal_text(hours, PLACES))


def _read(written: str) -> Fraction | None:
    if clock := _CLOCK.fullmatch(written):
        return int(clock[1]) + Fraction(int(clock[2]), 60)
    words = _IN_WORDS.fullmatch(written)
    if words is None or not written:
        return None
    hours, minutes = words["hours"], words["minutes"]
    if hours is None and not words["word"]:
        return read_number(written).value
    found = read_number(hours).value if hours else Fraction(0)
    if minutes:
        part = read_number(minutes).value
        if part < 0 or (hours and part >= 60):
            return None
        found += part / 60
    return found


def hours_as_typed(hours: Decimal) -> str:
    """Hours as a person would type them again, so that reading gives the same: `1.5`, `1:20`."""
    text = decimal_text(Fraction(hours))
    if len(text.partition(".")[2]) > 2:
        whole, minutes = divmod(round(hours * 60), 60)
        clock = f"{whole}:{minutes:02}"
        if read_hours(clock) == hours:
            return clock
    return text


def hours_shown(hours: Decimal) -> str:
    """Hours for a page, to the minute: `1 h 30 min`, `45 min`, `2 h`."""
    whole, minutes = divmod(round(hours * 60), 60)
    parts = [f"{whole:,} h"] * (whole > 0) + [f"{minutes} min"] * (minutes > 0)
    return " ".join(parts) or "0 h"
