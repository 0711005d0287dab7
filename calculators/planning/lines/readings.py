"""Readings on a line each: of a size, `P10 length 165.2 ± 0.8 front photograph`; of moisture, `9.5 % P01`."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from typing import Any

from calculators.planning.lines.checking import kept
from calculators.planning.lines.line import GAP, Line, in_quotes, refusal, tidied
from calculators.planning.lines.measures import MEASURE, length_of, written
from calculators.planning.lines.writing_parts import note_text
from calculators.planning.model import Moisture, Reading, Unit
from calculators.planning.ties import read_tie
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

WRITE_READING = "write it as P10 length 165.2 ± 0.8, front photograph"
WRITE_MOISTURE = "write it as 2025-03-01 9.5 % P01, P02"
_METHODS = ("rule", "caliper", "micrometer", "photograph", "drawing", "catalogue", "judgement")
_ALSO = {
    "photo": "photograph", "photos": "photograph", "photographs": "photograph", "calipers": "caliper",
    "calliper": "caliper", "callipers": "caliper", "catalog": "catalogue", "guess": "judgement",
    "drawn": "drawing", "ruler": "rule",
}  # fmt: skip
_NOT_STATED = "method not stated"
_ID = re.compile(r"^(?P<id>[^\W_](?:[^\W_]|-){0,39}) ?: ?")
_DAY = re.compile(r"(?<![\w-])(?P<day>[0-9]{4}-[0-9]{2}-[0-9]{2})(?![\w-])")
_SIZE = re.compile(rf"(?<![\w./-])(?P<text>{MEASURE})", re.IGNORECASE)
_GIVE = re.compile(rf"^ ?(?:±|\+ ?/ ?-|\+-|plus or minus|give or take) ?(?P<text>{MEASURE})", re.IGNORECASE)
_BY = re.compile(
    rf"(?<![^\W_])by (?:a )?(?P<method>{'|'.join((*_METHODS, *_ALSO))})(?![^\W_])", re.IGNORECASE
)
_UNSAID = re.compile(_NOT_STATED, re.IGNORECASE)
_WORD = re.compile(r"[^\W_]+")
_PERCENT = re.compile(
    r"(?<![\w.])(?P<percent>[0-9]{1,3}(?:[.,][0-9]{1,6})?) ?(?:%|per ?cent|percent)", re.IGNORECASE
)
_SIMPLE = re.compile(r"[^\W_]+(?:[ -][^\W_]+)*")


def read_reading_line(text: str, unit: Unit, taken: Iterable[str] = ()) -> Reading:
    """Read a reading of a size from a line.

    Args:
        text: the line; its id may stand before a colon.
        unit: [mm or in] what a bare number means.
        taken: ids that are used already, for a line that has none.

    Returns:
        The reading; how it was read is taken from its words (`photograph`) where the line does not say
        `by caliper`.

    Raises:
        InputError: when it cannot be read.

    Source: common practice; the form is this project's.

    Example:
        >>> one = read_reading_line("P10 length 165.2 ± 0.8 front photograph", "mm")
        >>> one.of, one.value.mm, one.uncertainty.mm, one.exemplar, one.method
        ('P10 length', 165.2, 0.8, 'front photograph', 'photograph')
    """
    line = Line(text)
    named = line.take(_ID)
    said: dict[str, Any] = {"note": line.note or "", "on": _take_day(line)}
    shown = line.plain.replace(GAP, " ")
    fault: InputError | None = None
    for found in _SIZE.finditer(shown):
        try:
            tie = read_tie(tidied(shown[: found.start()]))
        except InputError as error:
            fault = fault or error
            continue
        value = length_of(found["text"], unit)
        rest, start = shown[found.end() :], found.end()
        give = _GIVE.match(rest)
        if give is not None:
            said["uncertainty"] = length_of(give["text"], unit)
            start += give.end()
        line.replace(0, start, GAP)
        said |= _exemplar(line)
        key = named["id"] if named else _free("r", taken)
        return kept(Reading(key, tie.written, value, **said), unit)
    if fault is not None and _SIZE.search(shown):
        raise refusal(f"{quoted(text)} does not begin with a size of the build; {WRITE_READING}.")
    raise refusal(f"{quoted(text)} gives no size; {WRITE_READING}.")


def _exemplar(line: Line) -> dict[str, Any]:
    """From what it was read, and how."""
    if line.take(_UNSAID) is not None:
        return {"exemplar": line.opened(tidied(line.shown)), "method": ""}
    by = line.take(_BY)
    exemplar = line.opened(tidied(line.shown))
    if by is not None:
        return {"exemplar": exemplar, "method": _method(by["method"])}
    methods = {_method(word) for word in _WORD.findall(exemplar)} - {""}
    return {"exemplar": exemplar, "method": methods.pop() if len(methods) == 1 else ""}


def _method(word: str) -> str:
    folded = word.casefold()
    return folded if folded in _METHODS else _ALSO.get(folded, "")


def _take_day(line: Line) -> date | None:
    found = line.take(_DAY)
    if found is None:
        return None
    try:
        return date.fromisoformat(found["day"])
    except ValueError:
        raise refusal(f"There is no day {found['day']}; write it as 2025-03-01.") from None


def _free(prefix: str, taken: Iterable[str]) -> str:
    used = set(taken)
    return next(f"{prefix}{n}" for n in range(1, 1_000_000) if f"{prefix}{n}" not in used)


def write_reading_line(reading: Reading, unit: Unit) -> str:
    """Write a reading on one line.

    Args:
        reading: the reading.
        unit: [mm or in] the unit of the build it is read in.

    Returns:
        The line; `read_reading_line` gives the reading again.

    Source: this project.
    """
    give = f" ± {written(reading.uncertainty, unit)}" if reading.uncertainty is not None else ""
    words = [f"{reading.of} {written(reading.value, unit)}{give}"]
    if reading.exemplar:
        clauses = (_BY, _DAY, _UNSAID)
        simple = _SIMPLE.fullmatch(reading.exemplar) and not any(c.search(reading.exemplar) for c in clauses)
        words.append(reading.exemplar if simple else in_quotes(reading.exemplar))
    implied = {_method(word) for word in _WORD.findall(reading.exemplar)} - {""}
    if implied != ({reading.method} if reading.method else set()):
        words.append(f"by {reading.method}" if reading.method else _NOT_STATED)
    if reading.on is not None:
        words.append(reading.on.isoformat())
    return f"{reading.id}: {', '.join(words)}{note_text(reading.note)}"


def read_moisture_line(text: str, unit: Unit, today: date | None, taken: Iterable[str] = ()) -> Moisture:
    """Read a moisture reading from a line.

    Args:
        text: the line; its id may stand before a colon.
        unit: [mm or in] the build's unit.
        today: the day of a line that says none; without it such a line is refused.
        taken: ids that are used already, for a line that has none.

    Returns:
        The reading; of the parts named, or of all wood where none is.

    Raises:
        InputError: when it cannot be read.

    Source: common practice; the form is this project's.

    Example:
        >>> one = read_moisture_line("2025-03-01 9.5 % P01, P02", "mm", None)
        >>> one.id, one.percent, one.parts
        ('m1', Decimal('9.5'), ('P01', 'P02'))
    """
    line = Line(text)
    named = line.take(_ID)
    day = _take_day(line) or today
    if day is None:
        raise refusal(f"{quoted(text)} does not say when it was measured; {WRITE_MOISTURE}.")
    found = line.take(_PERCENT)
    if found is None:
        raise refusal(f"{quoted(text)} gives no percentage; {WRITE_MOISTURE}.")
    percent = Decimal(found["percent"].replace(",", "."))
    words = re.split(r"[\s,;]+", line.plain.replace(GAP, " "))
    parts = tuple(
        dict.fromkeys(w for w in words if w and w.casefold() not in ("in", "of", "and", "on", "at"))
    )
    key = named["id"] if named else _free("m", taken)
    return kept(Moisture(key, day, percent, parts, line.note or ""), unit)


def write_moisture_line(moisture: Moisture) -> str:
    """Write a moisture reading on one line.

    Args:
        moisture: the reading.

    Returns:
        The line; `read_moisture_line` gives it again.

    Source: this project.

    Example:
        >>> write_moisture_line(Moisture("m1", date(2025, 3, 1), Decimal("9.5"), ("P01",)))
        'm1: 2025-03-01 9.5 % P01'
    """
    parts = f" {', '.join(moisture.parts)}" if moisture.parts else ""
    percent = f"{moisture.percent:f}"
    return f"{moisture.id}: {moisture.on.isoformat()} {percent} %{parts}{note_text(moisture.note)}"
