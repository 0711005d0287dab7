"""An outline on one line: `outline 0,0 to 120,0 to 120,60 r 10 to 60,60 arc 80 left to 0,60`.

Each point is its distance along X and along Y from the datum, as the part is seen from its top. `r 10` rounds
a corner with an arc that runs out of both its sides, `chamfer 5` cuts it off. `arc 80 left` goes on to the
next point by an arc that turns left, `long` where that is more than half a circle. The last point leads to
the first.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, replace
from typing import Literal

from calculators.planning.lines.line import GAP, LONGEST_TEXT, PLAIN, Line, refusal, tidied
from calculators.planning.lines.measures import (
    COORDINATE,
    FEET,
    FRACTION,
    POINTED,
    UNIT,
    Measure,
    length_of,
    plain_mm,
    written,
)
from calculators.planning.model import Corner, Unit
from calculators.planning.outlining import Corners, outline_faults, point_words, turned_round
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length
from calculators.quantities.marks import quoted

WRITE = "write it as outline 0,0 to 120,0 to 120,60 r 10 to 60,60 arc 80 left to 0,60"
MOST_CORNERS = 2_000
LONGEST_CLAUSE = 300
"""A longer outline is not written in the line of its part [characters]."""

_SIZE = rf"(?:{FEET}|(?:{FRACTION}|{POINTED})(?: ?-?{UNIT}(?![^\W_]))?)"
_DOES = r"(?:arc|radius|rad|r|round(?:ed)?|chamfer(?:ed)?|left|right)"
_BEFORE = r",? ?(?:then )?(?:by )?(?:an? )?"
_OF = r"\.?(?: ?(?:by|of|radius|rad|r)(?![^\W_]))?"
_LONG = r",? ?(?:the )?long(?: way)?(?: round)?"
_WAY = (
    rf"(?:{_BEFORE}{_DOES}(?![^\W_0-9]){_OF} ?{_SIZE}(?: ?,? ?(?:turning )?(?:left|right)(?![^\W_]))?"
    rf"(?: ?{_LONG}(?![^\W_]))?)"
)
_POINT = rf"{COORDINATE} ?, ?{COORDINATE}(?: ?{_WAY})?"
_NEXT = r" ?(?:;|->|→|,? ?to(?![^\W_])) ?"
_CLAUSE = re.compile(
    rf"(?<![^\W_])outline(?: is)? ?:? ?(?P<points>{_POINT}(?:{_NEXT}{_POINT})*)", re.IGNORECASE
)
_NONE = re.compile(
    r"(?<![^\W_])(?:no outline|without (?:an )?outline|outline ?:? ?(?:none|rectangular|(?:a )?rectangle))"
    r"(?![^\W_])",
    re.IGNORECASE,
)
_PARTED = re.compile(r"\s*(?:;|->|→|\r?\n|,?(?<![^\W_])to(?![^\W_]))\s*", re.IGNORECASE)
_ONE = re.compile(rf"\(?(?P<x>{COORDINATE}) ?, ?(?P<y>{COORDINATE})\)?(?P<way>.*)", re.IGNORECASE)
_WAY_WORDS = re.compile(
    rf" ?{_BEFORE}(?P<word>{_DOES}){_OF} ?(?P<size>{_SIZE})"
    rf"(?: ?,? ?(?:turning )?(?P<hand>left|right))?(?P<long> ?{_LONG})? ?",
    re.IGNORECASE,
)
_GLUED = re.compile(r"(?<![^\W_])(r|rad|radius|arc|round|chamfer)(?=[0-9.])", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class _Typed:
    """A point as it was typed, and what is done there."""

    corner: Corner
    does: Literal["", "round", "chamfer"] = ""
    by: Length | None = None


def read_outline_line(text: str, unit: Unit) -> Corners:
    """Read an outline from a line.

    Args:
        text: the line; the points may also stand on lines of their own or between semicolons. The word
            `outline` before them may be left out; `no outline` is the rectangle.
        unit: [mm or in] what a bare number means.

    Returns:
        The corners, anticlockwise; rounded and chamfered ones as the arcs and lines that they come to.

    Raises:
        InputError: when the line cannot be read or the outline cannot be, with a sentence.

    Source: common practice; the form is this project's.

    Example:
        >>> corners = read_outline_line("0,0 to 60,0 to 60,40 r 10 to 0,40", "mm")
        >>> [(one.x.mm, one.y.mm) for one in corners], corners[2].turns
        ([(0.0, 0.0), (60.0, 0.0), (60.0, 30.0), (50.0, 40.0), (0.0, 40.0)], 'left')
    """
    joined = " ; ".join(part for part in re.split(r"[\r\n]+", text.strip(" \r\n;")) if part.strip())
    line = Line(joined, longest=LONGEST_TEXT)
    plain = line.plain.strip()
    if _NONE.fullmatch(plain):
        return ()
    plain = re.sub(r"^outline(?: is)?(?![^\W_]) ?:? ?", "", plain, flags=re.IGNORECASE)
    if not plain.strip(" ;"):
        raise refusal(f"The line says nothing; {WRITE}.")
    return _right(_corners_in(plain, unit))


def take_outline(line: Line, unit: Unit) -> Corners | None:
    """Take an outline out of the line of a part.

    Args:
        line: the line, whose semicolons between points are `to` (`semicolons_as_to`).
        unit: [mm or in] what a bare number means.

    Returns:
        The corners; none for `no outline`; None where the line does not speak of one.

    Raises:
        InputError: when the outline cannot be.

    Source: this project.
    """
    if line.take(_NONE) is not None:
        return ()
    found = line.take(_CLAUSE)
    if found is None:
        return None
    return _right(_corners_in(found["points"], unit))


def semicolons_as_to(text: str) -> str:
    """Write `to` for the semicolons between the points of an outline, so that no note begins there.

    Args:
        text: the line of a part.

    Returns:
        The line.

    Source: this project.

    Example:
        >>> semicolons_as_to("Cam, outline 0,0; 9,0; 9,9, steel; to be bent")
        'Cam, outline 0,0 to 9,0 to 9,9, steel; to be bent'
    """
    if not isinstance(text, str):
        return text
    if len(text) > LONGEST_TEXT or "outline" not in text.casefold() or ";" not in text:
        return text
    found = _CLAUSE.search(text.translate(PLAIN))
    if found is None:
        return text
    start, end = found.span()
    return text[:start] + re.sub(r" ?; ?", " to ", text[start:end]) + text[end:]


def _corners_in(plain: str, unit: Unit) -> Corners:
    parts = [part for part in _PARTED.split(plain.replace(GAP, " ").strip(" ;,")) if part]
    if len(parts) > MOST_CORNERS:
        raise refusal(f"An outline has at most {MOST_CORNERS:,} corners; this has {len(parts):,}.")
    return _made([_typed(part, unit) for part in parts])


def _typed(part: str, unit: Unit) -> _Typed:
    found = _ONE.fullmatch(_GLUED.sub(r"\1 ", part.strip()))
    if found is None:
        raise refusal(f"{quoted(part.strip())} is no point of an outline, which is such as 120,60; {WRITE}.")
    x, y = found["x"].strip(), found["y"].strip()
    _ask_unit(x, y, unit)
    corner = Corner(length_of(x, unit, signed=True), length_of(y, unit, signed=True))
    if not found["way"].strip(" ,"):
        return _Typed(corner)
    way = _WAY_WORDS.fullmatch(found["way"])
    if way is None:
        says = f"{quoted(found['way'].strip(' ,'))} is not understood of the corner {point_words(corner)}; "
        raise refusal(says + WRITE + ".")
    size, word = length_of(way["size"], unit), way["word"].lower()
    hand = word if word in ("left", "right") else (way["hand"] or "").lower()
    if word.startswith("chamfer"):
        return _Typed(corner, "chamfer", size)
    if hand:
        turns: Literal["left", "right"] = "left" if hand == "left" else "right"
        return _Typed(replace(corner, radius=size, turns=turns, long=bool(way["long"])))
    if word == "arc":
        choices = (f"arc {way['size']} left", f"arc {way['size']} right")
        says = f"The arc from {point_words(corner)} turns left or right; write {' or '.join(choices)}."
        raise refusal(says, *choices)
    return _Typed(corner, "round", size)


def _ask_unit(x: str, y: str, unit: Unit) -> None:
    """Ask for the unit of a bare number before one with another unit: `10,20 in`."""
    first, last = (Measure.of(text.lstrip("+- ")) for text in (x, y))
    if first.bare and not first.fraction and x not in ("0", "0.0") and last.unit not in ("", "own", unit):
        choices = (f"{x} {last.unit},{y}", f"{x} {unit},{y}")
        says = f"{quoted(f'{x},{y}')} says one unit; write {' or '.join(choices)}."
        raise refusal(says, *choices)


def _made(typed: list[_Typed]) -> Corners:
    """Make the rounded and the chamfered corners arcs and lines."""
    first, last = typed[0].corner, typed[-1]
    if len(typed) > 1 and _same_point(first, last.corner) and not last.does and not last.corner.turns:
        typed = typed[:-1]  # the point that it came from, written again to close it
    found: list[Corner] = []
    count = len(typed)
    for index, one in enumerate(typed):
        if not one.does or one.by is None:
            found.append(one.corner)
            continue
        before, after = typed[index - 1].corner, typed[(index + 1) % count].corner
        if count < 3 or before.radius is not None:
            says = (
                f"The corner {point_words(one.corner)} is not between two straight lines: it cannot be cut."
            )
            raise refusal(says)
        found += _cut(before, one, after)
    _look_at_room(typed)
    if not any(one.does for one in typed):
        return tuple(found)
    # Where two cuts share the whole of a side, nothing of it is left between them.
    pairs = zip(found, [*found[1:], *found[:1]], strict=True)
    return tuple(one for one, to in pairs if one.radius is not None or not _same_point(one, to))


def _same_point(one: Corner, other: Corner) -> bool:
    return (one.x.ticks, one.y.ticks) == (other.x.ticks, other.y.ticks)


def _cut(before: Corner, one: _Typed, after: Corner) -> tuple[Corner, Corner]:
    """The two points between which a corner is rounded or chamfered."""
    assert one.by is not None
    run = _run(before, one, after)
    if run is None:
        raise refusal(f"There is no corner at {point_words(one.corner)}: the line goes straight on.")
    back, on = _way(one.corner, before), _way(one.corner, after)
    points = [
        replace(one.corner, x=_from(one.corner.x, run * way[0]), y=_from(one.corner.y, run * way[1]))
        for way in (back, on)
    ]
    if one.does == "chamfer":
        return points[0], points[1]
    # The way in is -back, so a left turn has the way out on its left.
    turns: Literal["left", "right"] = "left" if on[0] * back[1] - on[1] * back[0] > 0.0 else "right"
    return replace(points[0], radius=one.by, turns=turns), points[1]


def _run(before: Corner, one: _Typed, after: Corner) -> float | None:
    """How far from a corner along its sides the cut reaches [mm]; None where there is no corner."""
    assert one.by is not None
    back, on = _way(one.corner, before), _way(one.corner, after)
    across, along = abs(back[0] * on[1] - back[1] * on[0]), back[0] * on[0] + back[1] * on[1]
    if across < 1e-9 or one.by.mm <= 0.0:
        return None
    # Half of the angle between the sides has the tangent across / (1 + along).
    return one.by.mm * (1.0 + along) / across if one.does == "round" else one.by.mm


def _look_at_room(typed: list[_Typed]) -> None:
    """Refuse cuts that reach beyond the sides of their corner, or into one another."""
    count = len(typed)
    runs = [
        (_run(typed[i - 1].corner, one, typed[(i + 1) % count].corner) or 0.0) if one.does else 0.0
        for i, one in enumerate(typed)
    ]
    for i, one in enumerate(typed):
        j = (i + 1) % count
        side = math.dist(_xy(one.corner), _xy(typed[j].corner))
        if runs[i] + runs[j] > side + 1e-6:
            worst = one if runs[i] >= runs[j] else typed[j]
            says = (
                f"The side from {point_words(one.corner)} to {point_words(typed[j].corner)} is {side:.4g} mm "
                f"long, and its corners take {runs[i] + runs[j]:.4g} mm of it; cut "
                f"{point_words(worst.corner)} by less."
            )
            raise refusal(says)


def _xy(corner: Corner) -> tuple[float, float]:
    return corner.x.mm, corner.y.mm


def _way(one: Corner, to: Corner) -> tuple[float, float]:
    long = math.dist(_xy(one), _xy(to))
    return ((to.x.mm - one.x.mm) / long, (to.y.mm - one.y.mm) / long) if long > 0.0 else (0.0, 0.0)


def _from(length: Length, by_mm: float) -> Length:
    by = round(by_mm * 10**7)
    return Length(length.ticks + by) if by else length


def _right(corners: Corners) -> Corners:
    """Give the corners back anticlockwise, or say what is wrong with them."""
    faults = outline_faults(corners)
    if len(faults) == 1 and "clockwise" in faults[0].says:
        corners = turned_round(corners)
        faults = outline_faults(corners)
    if faults:
        raise refusal(" ".join(fault.says for fault in faults[:3]))
    return corners


def write_outline_line(corners: Corners, unit: Unit | None) -> str:
    """Write an outline on one line.

    Args:
        corners: the corners.
        unit: [mm or in] the unit of the build it is read in; None where that is not known.

    Returns:
        The line, which `read_outline_line` reads back the same; nothing where there are no corners. An arc
        that rounds a corner between two straight lines is written as that.

    Source: this project.

    Example:
        >>> write_outline_line(read_outline_line("0,0; 60,0; 60,40 r10; 0,40", "mm"), "mm")
        'outline 0,0 to 60,0 to 60,40 r 10 to 0,40'
    """
    if not corners:
        return ""
    plain = [_Typed(one) for one in corners]
    for typed in (_folded(corners), plain):
        try:
            if same_outline(_made(list(typed)), corners):
                return f"outline {' to '.join(_point_text(one, unit) for one in typed)}"
        except InputError:  # a corner that cannot be cut
            continue
    return f"outline {' to '.join(_point_text(one, unit) for one in plain)}"


def same_outline(first: Corners, second: Corners) -> bool:
    """Say whether two outlines are the same, however their lengths are written.

    Args:
        first: one.
        second: the other.

    Returns:
        True when they are, corner by corner.

    Source: this project.
    """
    return _ticks(first) == _ticks(second)


def _ticks(corners: Corners) -> list[tuple[int, int, int | None, str, bool]]:
    return [
        (one.x.ticks, one.y.ticks, one.radius.ticks if one.radius is not None else None, one.turns, one.long)
        for one in corners
    ]


def _folded(corners: Corners) -> list[_Typed]:
    """The corners with those that arcs round written as rounded corners, where that gives the very same."""
    count = len(corners)
    found: list[_Typed] = []
    skip = False
    for index, one in enumerate(corners):
        if skip:
            skip = False
            continue
        to, before = corners[(index + 1) % count], corners[index - 1]
        rounded = None
        if (
            index + 1 < count
            and count > 3
            and one.radius
            and not to.radius
            and not before.radius
            and not one.long
        ):
            rounded = _rounded(before, one, to, corners[(index + 2) % count])
        if rounded is None:
            found.append(_Typed(one))
        else:
            found.append(rounded)
            skip = True
    return found


def _rounded(before: Corner, one: Corner, to: Corner, after: Corner) -> _Typed | None:
    """The corner whose rounding is the arc from `one` to `to`; None where it is none."""
    a, b = _way(one, before), _way(to, after)
    across = a[0] * b[1] - a[1] * b[0]
    if abs(across) < 1e-6 or one.radius is None:
        return None
    dx, dy = to.x.mm - one.x.mm, to.y.mm - one.y.mm
    far = (dx * b[1] - dy * b[0]) / across
    corner = Corner(_tidy(one.x.mm - far * -a[0]), _tidy(one.y.mm - far * -a[1]))
    made = _Typed(corner, "round", one.radius)
    return made if _ticks(_cut(before, made, after)) == _ticks((one, to)) else None


def _tidy(value: float) -> Length:
    """A length to the micrometre where it is one, or the nearest that can be written."""
    fine = Length(round(value * 10**3) * 10**4)
    return fine if abs(fine.mm - value) < 1e-6 else Length(round(value * 10**7))


def _point_text(one: _Typed, unit: Unit | None) -> str:
    corner = one.corner
    text = f"{_coordinate(corner.x, unit)},{_coordinate(corner.y, unit)}"
    if one.does == "round" and one.by is not None:
        return f"{text} r {_coordinate(one.by, unit)}"
    if corner.radius is None:
        return text
    return f"{text} arc {_coordinate(corner.radius, unit)} {corner.turns}{' long' if corner.long else ''}"


_PLAIN_COORDINATE = re.compile(rf"(?:{COORDINATE})", re.IGNORECASE)
_PLAIN_SIZE = re.compile(_SIZE, re.IGNORECASE)


def _coordinate(length: Length, unit: Unit | None) -> str:
    """Write a length so that no comma in it, and no unit behind it, is taken for something else."""
    text = written(length, unit)
    known = text.translate(PLAIN)
    if _PLAIN_COORDINATE.fullmatch(known) and (length.ticks < 0 or _PLAIN_SIZE.fullmatch(known)):
        return tidied(text)
    return plain_mm(length) if unit == "mm" else f"{plain_mm(length)} mm"
