"""A fold of a sheet part on one line: `b1: at 25 across, 90 deg, radius 2, rolled along, annealed`."""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal
from typing import Any

from calculators.planning.lines.checking import kept
from calculators.planning.lines.line import GAP, Line, refusal, tidied
from calculators.planning.lines.measures import MEASURE, length_of, written
from calculators.planning.lines.writing_parts import note_text
from calculators.planning.model import Bend, Unit
from calculators.quantities.marks import quoted

WRITE = "write it as at 25 across, 90 deg, radius 2"
_ID = re.compile(r"^(?P<id>[^\W_](?:[^\W_]|-){0,39}) ?: ?")
_ROLLED = re.compile(r"(?<![^\W_])roll(?:ed|ing) ?(?P<way>across|along)(?![^\W_])", re.IGNORECASE)
_RUNS = re.compile(r"(?<![^\W_])(?P<way>across|along)(?![^\W_])", re.IGNORECASE)
_RADIUS = re.compile(rf"(?<![^\W_])(?:inside )?(?:radius|rad|r) ?[:=]? ?(?P<text>{MEASURE})", re.IGNORECASE)
_ANGLE = re.compile(r"(?<![\w.])(?P<angle>[0-9]{1,3}(?:\.[0-9]{1,6})?) ?(?:deg(?:rees)?\.?|°)", re.IGNORECASE)
_AT = re.compile(rf"(?<![^\W_])at ?(?P<text>{MEASURE})", re.IGNORECASE)
_ANNEALED = re.compile(r"(?<![^\W_])annealed(?![^\W_])", re.IGNORECASE)


def read_bend_line(text: str, unit: Unit, taken: Iterable[str] = ()) -> Bend:
    """Read a bend from a line.

    Args:
        text: the line; its id may stand before a colon.
        unit: [mm or in] what a bare number means.
        taken: ids that are used already, for a line that has none.

    Returns:
        The bend.

    Raises:
        InputError: when it cannot be read.

    Source: common practice; the form is this project's.

    Example:
        >>> bend = read_bend_line("at 25 across, 90 deg, radius 2", "mm")
        >>> bend.id, bend.at.mm, bend.runs, bend.angle_deg, bend.radius.mm
        ('b1', 25.0, 'across', Decimal('90'), 2.0)
    """
    line = Line(text)
    named = line.take(_ID)
    said: dict[str, Any] = {"note": line.note or ""}
    if (rolled := line.take(_ROLLED)) is not None:
        said["rolling"] = rolled["way"].lower()
    if (runs := line.take(_RUNS)) is not None:
        said["runs"] = runs["way"].lower()
    if (radius := line.take(_RADIUS)) is not None:
        said["radius"] = length_of(radius["text"], unit)
    if (angle := line.take(_ANGLE)) is not None:
        said["angle_deg"] = Decimal(angle["angle"])
    said["annealed"] = line.take(_ANNEALED) is not None
    at = line.take(_AT)
    if at is None:
        raise refusal(f"{quoted(text)} does not say where the bend lies; {WRITE}.")
    left = tidied(line.plain.replace(GAP, " "))
    if left:
        raise refusal(f"{quoted(line.as_written(left))} is not understood of a bend; {WRITE}.")
    free = next(f"b{n}" for n in range(1, 1_000_000) if f"b{n}" not in set(taken))
    return kept(Bend(named["id"] if named else free, length_of(at["text"], unit), **said), unit)


def write_bend_line(bend: Bend, unit: Unit) -> str:
    """Write a bend on one line.

    Args:
        bend: the bend.
        unit: [mm or in] the unit of the build it is read in.

    Returns:
        The line; `read_bend_line` gives the bend again.

    Source: this project.

    Example:
        >>> write_bend_line(read_bend_line("at 25 across, 90 deg, radius 2", "mm"), "mm")
        'b1: at 25 across, 90 deg, radius 2'
    """
    words = [f"at {written(bend.at, unit)} {bend.runs}", f"{bend.angle_deg.normalize():f} deg"]
    if bend.radius is not None:
        words.append(f"radius {written(bend.radius, unit)}")
    if bend.rolling:
        words.append(f"rolled {bend.rolling}")
    if bend.annealed:
        words.append("annealed")
    return f"{bend.id}: {', '.join(words)}{note_text(bend.note)}"
