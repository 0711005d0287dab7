"""Schedules as CSV that any spreadsheet reads and none runs."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from dataclasses import fields
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Any, get_type_hints

from calculators.quantities.length import TICKS_PER_MM, Length
from calculators.quantities.numbers import decimal_text

_UNITS = {
    "mm": "mm",
    "deg": "deg",
    "nm": "N m",
    "m2": "m2",
    "m3": "m3",
    "kg": "kg",
    "percent": "%",
    "hours": "h",
}
_RUNS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
_DECIMALS = 6


def schedule_csv(row_type: type, rows: Iterable[Any]) -> str:
    """Write the rows of a schedule as CSV.

    Units stand in the header in brackets, numbers have a decimal point, dates are ISO 8601, several
    things in one cell are parted by `; `. A text that a spreadsheet would take for a formula has an
    apostrophe before it. Lengths are exact millimetres.

    Args:
        row_type: the dataclass of the rows, which gives the header.
        rows: the rows.

    Returns:
        The text, lines ending in CR LF; encode it as UTF-8.

    Source: CSV, RFC 4180 (from memory); the apostrophe: common practice.

    Example:
        >>> from calculators.planning.schedules.fasteners import Countersink
        >>> schedule_csv(Countersink, [Countersink(90.0, 8.4)]).splitlines()
        ['angle [deg],diameter [mm]', '90,8.4']
    """
    out = io.StringIO()
    writer = csv.writer(out)
    names = [one.name for one in fields(row_type)]
    hints = get_type_hints(row_type)
    writer.writerow([heading(name, hints[name]) for name in names])
    for row in rows:
        writer.writerow([cell(getattr(row, name)) for name in names])
    return out.getvalue()


def heading(name: str, annotation: object = None) -> str:
    """Make a column's heading from a field's name and type.

    Args:
        name: the name; a unit at its end goes into brackets.
        annotation: the field's type; a length is in mm.

    Returns:
        The heading.

    Source: this project.

    Example:
        >>> heading("torque_nm"), heading("used"), heading("length", Length | None)
        ('torque [N m]', 'used', 'length [mm]')
    """
    if annotation is Length or Length in getattr(annotation, "__args__", ()):
        return f"{name.replace('_', ' ')} [mm]"
    words, _, unit = name.rpartition("_")
    if words and unit in _UNITS:
        return f"{words.replace('_', ' ')} [{_UNITS[unit]}]"
    return name.replace("_", " ")


def cell(value: object) -> str:
    """Write one value as the text of a cell.

    Args:
        value: None, a truth, a number, a length, a date, a text, or several of them.

    Returns:
        The text.

    Source: this project.

    Example:
        >>> cell(2.50), cell(("P1", "P2")), cell("=1+1"), cell(-3.0), cell(True), cell(None)
        ('2.5', 'P1; P2', "'=1+1", '-3', 'yes', '')
    """
    number = _number(value)
    if number is not None:
        return number
    text = "; ".join(_plain(one) for one in value) if isinstance(value, (tuple, list)) else _plain(value)
    return f"'{text}" if text.lstrip(" ").startswith(_RUNS) or text.startswith(_RUNS) else text


def _plain(value: object) -> str:
    number = _number(value)
    if number is not None:
        return number
    return str(value)


def _number(value: object) -> str | None:
    """Write what cannot be mistaken for a formula; None for a text and for what is made of texts."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, float):
        return decimal_text(Fraction(value), _DECIMALS)
    if isinstance(value, Decimal):
        return decimal_text(Fraction(value))
    if isinstance(value, Length):
        return decimal_text(Fraction(value.ticks, TICKS_PER_MM), 7)
    return value.isoformat() if isinstance(value, date) else None
