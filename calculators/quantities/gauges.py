"""Wire and sheet gauges: a number, and the system without which the number says nothing."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import Literal

from calculators.quantities.errors import InputError
from calculators.quantities.marks import plain, quoted

System = Literal[
    "brown-sharpe",
    "imperial-standard",
    "birmingham-wire",
    "us-steel",
    "us-steel-wire",
    "stubs-steel-wire",
    "music-wire",
]


@dataclass(frozen=True, slots=True)
class Gauge:
    """One number of a gauge: its thickness or diameter, in the inches that define it and in mm."""

    system: System
    number: str
    thickness_mm: float
    inches: Decimal
    source: str

    @property
    def exact_mm(self) -> Fraction:
        """The thickness in millimetres, exact."""
        return Fraction(self.inches) * 127 / 5

    @property
    def name(self) -> str:
        """The trade's short writing: `20 SWG`."""
        return f"{self.number} {ABBREVIATIONS[self.system]}"


ABBREVIATIONS: dict[System, str] = {
    "brown-sharpe": "B&S",
    "imperial-standard": "SWG",
    "birmingham-wire": "BWG",
    "us-steel": "MSG",
    "us-steel-wire": "W&M",
    "stubs-steel-wire": "Stubs steel",
    "music-wire": "music wire",
}
"""Each gauge and its short writing."""

USES: dict[System, str] = {
    "brown-sharpe": "American gauge of brass, copper and aluminium sheet and of all non-ferrous wire (AWG)",
    "imperial-standard": "British wire and sheet gauge",
    "birmingham-wire": "old iron wire gauge, still used for tube walls; not the Birmingham sheet gauge BG",
    "us-steel": "American manufacturers' standard gauge of plain steel sheet, by weight",
    "us-steel-wire": "American gauge of steel wire and nails (Washburn and Moen)",
    "stubs-steel-wire": "silver steel and drill rod",
    "music-wire": "hard spring wire; its numbers rise with the diameter",
}
"""What each gauge measures."""

_ALIASES: dict[str, System] = {
    "b&s": "brown-sharpe",
    "awg": "brown-sharpe",
    "brown&sharpe": "brown-sharpe",
    "brown-sharpe": "brown-sharpe",
    "swg": "imperial-standard",
    "isw": "imperial-standard",
    "iswg": "imperial-standard",
    "imperial standard": "imperial-standard",
    "imperial-standard": "imperial-standard",
    "bwg": "birmingham-wire",
    "birmingham wire": "birmingham-wire",
    "birmingham-wire": "birmingham-wire",
    "msg": "us-steel",
    "us steel": "us-steel",
    "us-steel": "us-steel",
    "w&m": "us-steel-wire",
    "us steel wire": "us-steel-wire",
    "us-steel-wire": "us-steel-wire",
    "washburn&moen": "us-steel-wire",
    "stubs steel": "stubs-steel-wire",
    "stubs steel wire": "stubs-steel-wire",
    "stubs-steel-wire": "stubs-steel-wire",
    "music wire": "music-wire",
    "music-wire": "music-wire",
}

_TABLES: dict[System, str] = {
    "imperial-standard": "gauges_imperial_standard",
    "birmingham-wire": "gauges_birmingham_wire",
    "us-steel": "gauges_us_steel_sheet",
    "us-steel-wire": "gauges_us_steel_wire",
    "stubs-steel-wire": "gauges_stubs_steel_wire",
    "music-wire": "gauges_music_wire",
}

_BROWN_SHARPE_RANGE = range(-3, 51)
"""4/0, which is number -3 of the formula, to 50."""

BROWN_SHARPE_SOURCE = "ASTM B258, d = 0.005 in x 92^((36 - n)/39) (formula from memory)"

_WORD = "(?:gauge|gage|ga|g)"
_NUMBER = r"(?P<number>0{1,7}|\d{1,3}|[1-7]/0)"
_SYSTEM = "(?P<system>" + "|".join(sorted(map(re.escape, _ALIASES), key=len, reverse=True)) + ")"


@cache
def _forms() -> tuple[re.Pattern[str], ...]:
    """The forms of writing; made when a gauge is first looked for, so that a command starts at once."""
    forms = (
        rf"(?:no ?|number |# ?)?{_NUMBER} ?(?:{_WORD} )?{_SYSTEM}(?: {_WORD})?",
        rf"{_SYSTEM} (?:{_WORD} )?(?:no ?|number |# ?)?{_NUMBER}",
        rf"(?:no ?|number |# ?)?{_NUMBER} ?{_WORD}",
        rf"{_WORD} ?(?:no ?|number |# ?)?{_NUMBER}",
        rf"(?:no ?|number |# ?){_NUMBER}",
    )
    return tuple(map(re.compile, forms))


def _gauge_words(line: str) -> str:
    """Bring a line to the spelling of the forms: lower case, `&` for and, no points after letters."""
    line = re.sub(r"(?<=[a-z])[.']", "", line.lower())
    return re.sub(r" ?(?:&| and ) ?", "&", line)


def find_number(line: str) -> tuple[str, System | None] | None:
    """Find a gauge number in a line: the number and its system (None where none is named).

    Args:
        line: what was written, in plain signs.

    Returns:
        The number as written and the system, or None when the line is no gauge number.

    Source: forms of writing: common practice.

    Example:
        >>> find_number("No 20 B&S"), find_number("16 gauge"), find_number("1/4 in")
        (('20', 'brown-sharpe'), ('16', None), None)
    """
    words = _gauge_words(line)
    for form in _forms():
        if found := form.fullmatch(words):
            system = found.groupdict().get("system")
            return found["number"], _ALIASES[system] if system else None
    return None


def read_gauge(
    text: str, found: tuple[str, System | None] | None = None, *, field: str = "gauge", also: str = ""
) -> Gauge:
    """Read a gauge number with its system: `20 SWG`, `No 20 B&S`, `4/0 AWG`.

    Args:
        text: what a person wrote.
        found: what `find_number` made of it, where that is known already.
        field: the name of the input, for the faults.
        also: the end of the sentence that says what else would be accepted.

    Returns:
        The gauge.

    Raises:
        InputError: when it is none, names no system (with the systems as choices), or has no such number.

    Source: the tables of each gauge.

    Example:
        >>> read_gauge("20 SWG").inches
        Decimal('0.036')
    """
    found = found or find_number(plain(text[:200]))
    if found is None:
        says = f"{quoted(text)} is not a gauge number; write it as 20 SWG, 20 B&S, 16 BWG or 20 MSG."
        raise InputError.of(says, field=field)
    number, system = found
    if system is not None:
        return gauge(system, number, field=field)
    systems: tuple[System, ...] = ("imperial-standard", "brown-sharpe", "birmingham-wire", "us-steel")
    known = [table[key] for name in systems if (key := _plain_number(number)) in (table := gauges_of(name))]
    if not known:
        says = f"{quoted(text)} is not a number of any gauge; {also or 'write it as 20 SWG or 20 B&S'}."
        raise InputError.of(says, field=field)
    meanings = ", ".join(f"{one.name} ({one.thickness_mm:.3f} mm)" for one in known)
    says = f"{quoted(text)} does not say which gauge; write one of {meanings}."
    raise InputError.of(says, field=field, choices=tuple(one.name for one in known))


def _plain_number(number: str) -> str:
    """Bring `000` to `3/0`, `0` and `1/0` to `0`, `07` to `7`."""
    if number and not number.strip("0"):
        return "0" if len(number) == 1 else f"{len(number)}/0"
    return "0" if number == "1/0" else number.lstrip("0")


def gauge(system: str, number: str | int, *, field: str = "number") -> Gauge:
    """Look up one number of a gauge.

    Args:
        system: one of `System`, or its short writing (`SWG`, `B&S`).
        number: the number: 20, `4/0`, `0000`.
        field: the name of the input of the number, for the faults.

    Returns:
        The gauge with its thickness [mm and in].

    Raises:
        InputError: when there is no such system or the gauge has no such number.

    Source: the tables of each gauge; Brown and Sharpe by the formula of ASTM B258 (from memory).

    Example:
        >>> round(gauge("imperial-standard", 24).thickness_mm, 3)
        0.559
        >>> round(gauge("B&S", 20).thickness_mm, 3)
        0.812
    """
    known = _ALIASES.get(_gauge_words(plain(system[:64])))
    if known is None:
        says = f"{quoted(system)} is not a gauge; write one of {', '.join(ABBREVIATIONS)}."
        raise InputError.of(says, field="system", choices=tuple(ABBREVIATIONS))
    written = plain(str(number)[:64]).lower().removeprefix("no").lstrip(". #")
    table = gauges_of(known)
    found = table.get(_plain_number(written))
    if found is None:
        first, *_, last = table
        says = (
            f"There is no number {quoted(str(number))} in the {ABBREVIATIONS[known]} gauge; "
            f"it runs from {first} to {last}."
        )
        raise InputError.of(says, field=field)
    return found


@cache
def gauges_of(system: System) -> dict[str, Gauge]:
    """All numbers of one gauge in its own order, by their canonical writing (not to be changed).

    Args:
        system: the gauge.

    Returns:
        The gauges by number; `4/0` before `0` before `1`.

    Source: the tables of each gauge; Brown and Sharpe by the formula of ASTM B258 (from memory).

    Example:
        >>> list(gauges_of("brown-sharpe"))[:5]
        ['4/0', '3/0', '2/0', '0', '1']
    """
    if system == "brown-sharpe":
        return {one.number: one for one in map(_brown_sharpe, _BROWN_SHARPE_RANGE)}
    # Imported here because most lengths are no gauge numbers, and reading those needs no tables.
    from calculators.tables.loading import load

    rows = load(_TABLES[system]).rows
    made = (Gauge(system, row["number"], 0.0, row.decimal("thickness"), row.source.says) for row in rows)
    return {one.number: _with_mm(one) for one in made}


def brown_sharpe_inches(number: int) -> float:
    """Diameter of a number of the Brown and Sharpe (American wire) gauge.

        d = 0.005 in x 92^((36 - n)/39)

    Args:
        number: [1] the number, -3 (for 4/0) to 56.

    Returns:
        The diameter [in].

    Source: ASTM B258 (formula from memory; it gives the printed table to half of its last place).

    Example:
        >>> brown_sharpe_inches(36), round(brown_sharpe_inches(-3), 4)
        (0.005, 0.46)
    """
    return 0.005 * float(92 ** ((36 - number) / 39))


def _brown_sharpe(number: int) -> Gauge:
    """One number, rounded to the micro-inch so that it is the same on every machine."""
    inches = Decimal(f"{brown_sharpe_inches(number):.6f}").normalize()
    name = str(number) if number >= 0 else f"{1 - number}/0"
    return _with_mm(Gauge("brown-sharpe", name, 0.0, inches, BROWN_SHARPE_SOURCE))


def _with_mm(one: Gauge) -> Gauge:
    return Gauge(one.system, one.number, float(one.exact_mm), one.inches, one.source)
