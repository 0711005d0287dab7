"""Reading the drill sets that a workshop owns: `1.0-13.0 by 0.5`, `number 1-60`, `letter A-Z`."""

from __future__ import annotations

import re
import unicodedata
from decimal import Decimal
from fractions import Fraction
from functools import cache

from calculators.hardware.drill_sizes import Drill, all_drills, find_drill, inch_fraction
from calculators.quantities.errors import InputError
from calculators.tables import Source

_ACCEPTED = (
    "Write a set as 1.0-13.0 by 0.5, number 1-60, letter A-Z or fractional 1/16-1/2 by 64ths, or a drill as "
    "#7, F, 13/64 in or 5.1 mm; part several with a semicolon."
)
_MOST = 1000
_MOST_OWNED = 20_000
_OWNED = Source("owned", "a drill of a size that is owned", "the set as written", "common practice")
_TO = r" ?(?:-|TO|\.\.) ?"
_NUMBER = r"\d+(?:\.\d+)?|\.\d+"
_METRIC = re.compile(
    rf"(?:METRIC )?({_NUMBER})(?: ?MM)?{_TO}({_NUMBER})(?: ?MM)? BY ({_NUMBER})(?: ?MM)?", re.ASCII
)
_NUMBERS = re.compile(rf"(?:NUMBERS? |NO\.? ?|#) ?#?(\d+){_TO}#?(\d+)", re.ASCII)
_LETTERS = re.compile(rf"(?:LETTERS? )?([A-Z]){_TO}([A-Z])")
_FRACTION = r"(?:\d+ )?\d+/\d+|\d+"
_FRACTIONS = re.compile(
    rf"(?:FRACTION(?:AL|S)? |INCH )?({_FRACTION})(?: ?IN)?{_TO}({_FRACTION})(?: ?IN)?"
    r" BY (?:1/)?(\d+)(?:THS?|NDS?)?(?: ?IN)?",
    re.ASCII,
)


def drill_set(text: str, *, field: str = "drills") -> tuple[Drill, ...]:
    """Read an owned set of drills as people write it.

    Args:
        text: one or several sets or single drills, parted by semicolons, new lines or commas with a
            space; at most 1000 drills each.
        field: the name of the input, for the error.

    Returns:
        The drills, from the smallest, each once.

    Raises:
        InputError: for the first set that cannot be read.

    Source: this project.

    Example:
        >>> [drill.name for drill in drill_set("1.0-3.0 by 0.5; #7")]
        ['1 mm', '1.5 mm', '2 mm', '2.5 mm', '3 mm', '#7']
        >>> len(drill_set("number 1-60, letter A-Z, fractional 1/16-1/2 by 64ths"))
        115
    """
    parts = [part for part in re.split(r"[;\n]|,\s", text) if part.strip()]
    if not parts:
        raise InputError.of(f"No drill is given. {_ACCEPTED}", field=field)
    drills: dict[str, Drill] = {}
    for part in parts:
        drills.update((drill.name, drill) for drill in _read_part(part.strip(), field))
        if len(drills) > _MOST_OWNED:
            says = f"These sets hold more than {_MOST_OWNED:,} drills, which nobody owns; write fewer."
            raise InputError.of(says, field=field, limit=float(_MOST_OWNED))
    return tuple(sorted(drills.values(), key=lambda drill: (drill.diameter_mm, drill.name)))


def _read_part(part: str, field: str) -> tuple[Drill, ...]:
    tidy = unicodedata.normalize("NFKC", re.sub(r"(?<=\d)(?=[¼½¾⅐-⅞])", " ", part)).upper()
    tidy = re.sub(r"[‐‑‒–—−]", "-", tidy).replace("⁄", "/")
    tidy = re.sub(r"(?<=\d),(?=\d)", ".", tidy)
    tidy = re.sub(r"[\"”″]", " IN ", tidy)
    tidy = re.sub(r"\bDRILLS?\b", " ", tidy)
    tidy = re.sub(r"\b(?:IN )?STEPS? (?:OF )?|\bX\b|\bEVERY\b", " BY ", tidy)
    tidy = " ".join(tidy.split())
    if len(tidy) > 80:
        raise InputError.of(f"A set of drills is too long to read. {_ACCEPTED}", field=field)
    for pattern, read in _PATTERNS:
        found = pattern.fullmatch(tidy)
        if found:
            drills = read(found)
            if not drills:
                says = f"The set {part!r} holds no drill: write the smaller end first, with a step over 0."
                raise InputError.of(f"{says} {_ACCEPTED}", field=field)
            return drills
    try:
        return (find_drill(part, field=field),)
    except InputError as fault:
        says = f"The set {part!r} cannot be read. {_ACCEPTED}"
        raise InputError.of(says, field=field, choices=fault.faults[0].choices) from None


@cache
def _known() -> dict[tuple[str, float], Drill]:
    return {(drill.series, round(drill.diameter_mm, 6)): drill for drill in all_drills()}


def _stepped(first: Fraction, last: Fraction, step: Fraction) -> list[Fraction]:
    """The sizes from `first` to `last`; none where the step is nought or there would be too many."""
    if not 0 < first <= last or step <= 0 or (last - first) / step > _MOST:
        return []
    return [first + step * place for place in range(int((last - first) / step) + 1)]


def _make(series: str, size_mm: Fraction, name: str) -> Drill:
    """The drill of the tables, or one as owned where the tables have no such size."""
    diameter_mm = float(size_mm)
    return _known().get((series, round(diameter_mm, 6))) or Drill(name, series, diameter_mm, _OWNED)


def _metric(found: re.Match[str]) -> tuple[Drill, ...]:
    first, last, step = (Fraction(found[place]) for place in (1, 2, 3))
    return tuple(_make("metric", mm, f"{_plain(mm)} mm") for mm in _stepped(first, last, step))


def _plain(size_mm: Fraction) -> str:
    value = (Decimal(size_mm.numerator) / Decimal(size_mm.denominator)).normalize()
    return f"{value:f}"


def _numbers(found: re.Match[str]) -> tuple[Drill, ...]:
    low, high = sorted((int(found[1]), int(found[2])))
    return tuple(d for d in all_drills() if d.series == "number" and low <= int(d.name[1:]) <= high)


def _letters(found: re.Match[str]) -> tuple[Drill, ...]:
    low, high = sorted((found[1], found[2]))
    return tuple(d for d in all_drills() if d.series == "letter" and low <= d.name <= high)


def _fractions(found: re.Match[str]) -> tuple[Drill, ...]:
    ends = [_inches(found[1]), _inches(found[2])]
    parts = int(found[3])
    if None in ends or not parts:
        return ()
    sizes = _stepped(ends[0] or Fraction(0), ends[1] or Fraction(0), Fraction(1, parts))
    return tuple(_make("fractional", size * Fraction("25.4"), f"{inch_fraction(size)} in") for size in sizes)


def _inches(text: str) -> Fraction | None:
    total = Fraction(0)
    for part in text.split():
        top, _, bottom = part.partition("/")
        if bottom and not int(bottom):
            return None
        total += Fraction(int(top), int(bottom or 1))
    return total


_PATTERNS = ((_METRIC, _metric), (_NUMBERS, _numbers), (_LETTERS, _letters), (_FRACTIONS, _fractions))
