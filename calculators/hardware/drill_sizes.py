"""Twist drills: number, letter, fractional inch and metric, and the sets that people own."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import Literal

from calculators.quantities.errors import InputError
from calculators.tables import Source, load

Way = Literal["nearest", "down", "up"]
SERIES = ("number", "letter", "fractional", "metric")
_ACCEPTED = "Write a drill as #7, F, 13/64 in or 5.1 mm."
_MM = 25.4
_SAME_MM = 1e-6  # two drills of one size in two series differ by a float's last bits only


@dataclass(frozen=True, slots=True)
class Drill:
    """A twist drill: its name (`#7`, `F`, `13/64 in`, `5.1 mm`), series and diameter."""

    name: str
    series: str
    diameter_mm: float
    source: Source

    @property
    def diameter_in(self) -> float:
        """The diameter in inches."""
        return self.diameter_mm / _MM


@cache
def all_drills() -> tuple[Drill, ...]:
    """All drills of the tables, from the smallest; of equal ones the metric comes last.

    Returns:
        The drills: number 1-97, letter A-Z, fractional 1/64 to 2 in, metric 0.3 to 100 mm.

    Source: tables `drills` and `drill_series` (ASME B94.11M, ISO 235).

    Example:
        >>> [drill.name for drill in all_drills() if 5.05 < drill.diameter_mm < 5.2]
        ['#8', '5.1 mm', '#7', '13/64 in', '#6']
    """
    drills = [
        Drill(
            row.text("designation"),
            row.text("series"),
            float(row.decimal("diameter") * Decimal("25.4")),
            row.source,
        )
        for row in load("drills").rows
    ]
    for row in load("drill_series").rows:
        size, last, step = (row.decimal(column) for column in ("first", "last", "step"))
        while size <= last:
            drills.append(
                Drill(_stepped_name(row.text("series"), size), row.text("series"), float(size), row.source)
            )
            size += step
    return tuple(sorted(drills, key=lambda drill: (round(drill.diameter_mm, 6), SERIES.index(drill.series))))


def _stepped_name(series: str, size: Decimal) -> str:
    if series == "metric":
        return f"{size.normalize():f} mm"
    return f"{inch_fraction(Fraction(size) / Fraction('25.4'))} in"


def inch_fraction(inches: Fraction) -> str:
    """Write a fraction of an inch as the trade does: `13/64`, `1 1/8`.

    Args:
        inches: the value [in], not negative.

    Returns:
        The text, without a unit.

    Source: this project.

    Example:
        >>> inch_fraction(Fraction(9, 8))
        '1 1/8'
    """
    whole, rest = divmod(inches, 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)


@cache
def _by_name() -> dict[str, Drill]:
    return {drill.name: drill for drill in all_drills()}


def drills_of(series: Iterable[str]) -> tuple[Drill, ...]:
    """All drills of the named series, from the smallest.

    Args:
        series: names out of number, letter, fractional, metric.

    Returns:
        The drills.

    Source: this project.

    Example:
        >>> drills_of(["letter"])[0].name
        'A'
    """
    wanted = set(series)
    return tuple(drill for drill in all_drills() if drill.series in wanted)


def find_drill(text: str, *, field: str = "drill") -> Drill:
    """Find the drill that a person means.

    A bare whole number is a number drill only with `#` or `No.`; `5.1` and `6` are millimetres, a
    fraction is inches, and a decimal with `in` is the drill of that size to 0.0005 in.

    Args:
        text: the drill as written.
        field: the name of the input, for the error.

    Returns:
        The drill.

    Raises:
        InputError: where it cannot be read or no such drill is made; `choices` holds the nearest drills.

    Source: this project.

    Example:
        >>> find_drill("no 7").name, find_drill("f").name, find_drill('13/64"').name, find_drill("5,1").name
        ('#7', 'F', '13/64 in', '5.1 mm')
    """
    shown = " ".join(text.split())[:60]
    tidy = _tidy(shown)
    if not tidy:
        raise InputError.of(f"No drill is given. {_ACCEPTED}", field=field)
    named = re.fullmatch(r"#? ?(\d+)", tidy, re.ASCII) if tidy.startswith("#") else None
    letter = re.fullmatch(r"(?:LETTER )?([A-Z])", tidy)
    name = f"#{int(named[1])}" if named else letter[1] if letter else ""
    if name in _by_name():
        return _by_name()[name]
    size_mm = None if name else _size_mm(tidy)
    if size_mm is None:
        raise InputError.of(f"The drill {shown!r} is not known. {_ACCEPTED}", field=field)
    return _of_size(shown, tidy, size_mm, field)


def _tidy(text: str) -> str:
    spaced = re.sub(r"(?<=\d)(?=[¼½¾⅐-⅞])", " ", text)
    tidy = unicodedata.normalize("NFKC", spaced).replace("⁄", "/").upper()
    tidy = re.sub(r"(?<=\d),(?=\d)", ".", tidy)
    tidy = re.sub(r"[\"”″]|''|\bINCH(?:ES)?\b|(?<=\d)INCH(?:ES)?\b", " IN", tidy)
    tidy = re.sub(r"^(?:NUMBER|NO|NR)\b\.?|^NO(?=\d)", "#", tidy)
    tidy = re.sub(r"\b(?:DRILL|TWIST|DIA)\b", " ", tidy)
    return " ".join(tidy.split())


def _size_mm(tidy: str) -> float | None:
    """A size with or without unit in millimetres; None where it cannot be read."""
    found = re.fullmatch(r"(?:(\d{1,3})[ -]+)?(\d{1,4})/(\d{1,4}) ?(?:IN)?", tidy, re.ASCII)
    if found:
        whole, top, bottom = int(found[1] or 0), int(found[2]), int(found[3])
        return float((whole + Fraction(top, bottom)) * Fraction("25.4")) if bottom else None
    found = re.fullmatch(r"(\d{0,4}\.\d{1,6}|\d{1,4}\.?) ?(MM|IN)?", tidy, re.ASCII)
    if not found:
        return None
    return float(found[1]) * (_MM if found[2] == "IN" else 1)


def _of_size(shown: str, tidy: str, size_mm: float, field: str) -> Drill:
    """The drill of this size, of the series that the writing speaks of."""
    inches = "/" in tidy or "IN" in tidy
    series = drills_of(
        ("fractional",) if "/" in tidy else ("number", "letter", "fractional") if inches else ("metric",)
    )
    within_mm = 0.0005 * _MM if inches and "/" not in tidy else _SAME_MM
    nearest = min(series, key=lambda drill: abs(drill.diameter_mm - size_mm))
    if abs(nearest.diameter_mm - size_mm) <= within_mm + 1e-9:
        return nearest
    below = max((d for d in series if d.diameter_mm < size_mm), key=lambda d: d.diameter_mm, default=None)
    above = min((d for d in series if d.diameter_mm > size_mm), key=lambda d: d.diameter_mm, default=None)
    names = tuple(drill.name for drill in (below, above) if drill)
    says = f"No drill of {shown} is in the tables. The nearest are {' and '.join(names)}. {_ACCEPTED}"
    raise InputError.of(says, field=field, choices=names, value=size_mm, unit="mm")


def nearest_drill(diameter_mm: float, *, way: Way = "nearest", among: Iterable[Drill] | None = None) -> Drill:
    """The drill nearest to a diameter, or the nearest that is not larger or not smaller.

    Of two drills equally near the larger is taken, which is easier on a tap.

    Args:
        diameter_mm: the diameter wanted [mm], over 0.
        way: `nearest`, `down` (this size or less) or `up` (this size or more).
        among: the drills to choose from; all drills of the tables where None.

    Returns:
        The drill.

    Raises:
        InputError: where the diameter is not over 0, or no drill lies that way.

    Source: this project.

    Example:
        >>> nearest_drill(5.1).name, nearest_drill(5.12, way="up").name, nearest_drill(5.12, way="down").name
        ('5.1 mm', '13/64 in', '#7')
    """
    if not 0 < diameter_mm < 1e6:
        raise InputError.of(
            "A drill's diameter must be over 0 mm.", field="diameter", value=diameter_mm, limit=0.0, unit="mm"
        )
    drills = all_drills() if among is None else tuple(among)
    fits = [
        drill
        for drill in drills
        if way == "nearest"
        or (way == "down" and drill.diameter_mm <= diameter_mm + _SAME_MM)
        or (way == "up" and drill.diameter_mm >= diameter_mm - _SAME_MM)
    ]
    if not fits:
        side = {"down": "as small as", "up": "as large as"}.get(way, "near")
        owned = f" among the {len(drills)} to choose from" if among is not None else ""
        says = f"There is no drill {side} {diameter_mm:.3f} mm{owned}."
        raise InputError.of(says, field="diameter", value=diameter_mm, unit="mm")
    return min(fits, key=lambda drill: (round(abs(drill.diameter_mm - diameter_mm), 6), -drill.diameter_mm))
