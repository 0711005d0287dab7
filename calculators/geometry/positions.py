"""Places along a line and in rows: equal spacing, and how errors of measuring add up along them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import isfinite, sqrt

from calculators.quantities.errors import InputError
from calculators.quantities.reading import read_length

MOST_IN_A_ROW = 500
"""No more places are set out in one row."""

ENDS = ("at-the-ends", "half-spaces", "whole-spaces")
"""Where the first and the last place stand: at the ends, half a space or a whole space from them."""


@dataclass(frozen=True, slots=True)
class Spacing:
    """Equal spacing: the space from place to place and the distance of each place from the datum [mm]."""

    space_mm: float
    places_mm: tuple[float, ...]


def spaced(length_mm: float, count: int, *, margin_mm: float = 0.0, ends: str = "at-the-ends") -> Spacing:
    """Space places equally along a length.

        space = (length - 2 margin) / (n - 1), / n, or / (n + 1)

    for places at the ends of what the margins leave, half a space from them, or a whole space.

    Args:
        length_mm: [mm] the length from end to end, over 0.
        count: how many places, 1 to 500; at the ends 2 or more.
        margin_mm: [mm] what is kept free at each end, 0 or more.
        ends: one of `ENDS`.

    Returns:
        The space and the places, measured from the datum end.

    Raises:
        InputError: for a count or a margin that leaves nothing to space.

    Source: geometry.

    Example:
        >>> spaced(300, 4, margin_mm=30).places_mm
        (30.0, 110.0, 190.0, 270.0)
        >>> spaced(300, 3, ends="half-spaces").places_mm
        (50.0, 150.0, 250.0)
    """
    least = 2 if ends == ENDS[0] else 1
    if not least <= count <= MOST_IN_A_ROW:
        says = f"A row has {least} to {MOST_IN_A_ROW} holes where the first and last stand {_WHERE[ends]}."
        raise InputError.of(says, field="count", limit=float(least))
    room = length_mm - 2 * margin_mm
    if not (isfinite(room) and room > 0):
        says = "The two margins take up the whole length; write less than half of it for the margin."
        raise InputError.of(says, field="margin", value=margin_mm, limit=length_mm / 2, unit="mm")
    space = room / {"at-the-ends": count - 1, "half-spaces": count, "whole-spaces": count + 1}[ends]
    first = margin_mm + {"at-the-ends": 0.0, "half-spaces": space / 2, "whole-spaces": space}[ends]
    return Spacing(space, tuple(first + place * space for place in range(count)))


_WHERE = {
    "at-the-ends": "at the margins",
    "half-spaces": "half a space in",
    "whole-spaces": "a whole space in",
}


@dataclass(frozen=True, slots=True)
class AddedErrors:
    """How far the last of a row may be off [mm], by the way in which it was measured."""

    chain_worst_mm: float
    chain_likely_mm: float
    baseline_mm: float


def added_errors(steps: int, error_mm: float) -> AddedErrors:
    """How errors add up when each place is measured from the one before, and when all are from one datum.

        chain, worst = n e; chain, likely = e sqrt(n); from one datum = e

    Args:
        steps: how many measurements follow one another, 1 or more.
        error_mm: [mm] how far one measurement may be off, 0 or more.

    Returns:
        The errors of the last place.

    Source: sum and root of the sum of squares of like errors (geometry; common practice in dimensioning).

    Example:
        >>> found = added_errors(5, 0.3)
        >>> found.chain_worst_mm, round(found.chain_likely_mm, 2), found.baseline_mm
        (1.5, 0.67, 0.3)
    """
    return AddedErrors(steps * error_mm, sqrt(steps) * error_mm, error_mm)


def gap_between(length_mm: float, pieces: int, width_mm: float, *, at_ends: bool = True) -> float:
    """The equal gap between pieces of one width that stand in a length.

        gap = (length - n width) / (n + 1), or / (n - 1) where pieces stand against both ends

    Args:
        length_mm: [mm] the length between the ends.
        pieces: how many pieces; 1 or more, 2 or more where they stand against the ends.
        width_mm: [mm] the width of each piece, 0 or more.
        at_ends: whether there is a gap at each end too.

    Returns:
        The gap [mm].

    Raises:
        InputError: when the pieces do not fit in, or there are too few of them.

    Source: geometry.

    Example:
        >>> gap_between(1000, 9, 20), gap_between(1000, 11, 20, at_ends=False)
        (82.0, 78.0)
    """
    least = 1 if at_ends else 2
    if not least <= pieces <= MOST_IN_A_ROW:
        says = f"Write {least} to {MOST_IN_A_ROW} pieces."
        raise InputError.of(says, field="count", limit=float(least))
    room = length_mm - pieces * width_mm
    if not (isfinite(room) and room > 0):
        more = "all of" if room == 0 else "more than"
        says = f"{pieces} pieces of {width_mm:g} mm take up {more} the {length_mm:g} mm there are."
        raise InputError.of(f"{says} Write fewer or narrower ones.", field="width", value=width_mm,
                            limit=length_mm / pieces, unit="mm")  # fmt: skip
    return room / (pieces + 1 if at_ends else pieces - 1)


def read_point(text: str, *, field: str, most_mm: float = 1e5) -> tuple[float, float]:
    """Read a point: `x, y`, two lengths with a comma or a semicolon between them.

    Args:
        text: what a person wrote.
        field: the name of the input, for the faults.
        most_mm: [mm] how far from nought either may lie.

    Returns:
        x and y [mm].

    Raises:
        InputError: when it is not two lengths.

    Source: this project.

    Example:
        >>> read_point("10 mm, -1/2 in", field="centre")
        (10.0, -12.7)
    """
    pattern = ";" if ";" in text else r",(?=\s)" if re.search(r",\s", text) else ","
    parts = [part.strip() for part in re.split(pattern, text.strip().strip("()"))]
    if len(parts) != 2 or not all(parts):
        says = f"The input {field} takes two lengths, x and y, written as 10 mm, 20 mm."
        raise InputError.of(says, field=field)
    x, y = (read_length(part, field=field, minimum_mm=-most_mm, maximum_mm=most_mm).mm for part in parts)
    return x, y
