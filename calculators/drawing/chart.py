"""A curve in a ruled field: one quantity against another, with the points that matter marked.

Drawn as a draughtsman would: round divisions, the quantity and its unit along each edge, the name of each
curve at its end, no legend.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from calculators.calculation.result import number_text
from calculators.drawing.lettering import text_width, wrap
from calculators.drawing.svg import (
    INK,
    PAPER,
    RED,
    RULE,
    Box,
    Point,
    document,
    lettering,
    number,
    path,
)


@dataclass(frozen=True, slots=True)
class Axis:
    """One edge of the field: its quantity and unit. `least` and `most` widen it beyond what is drawn."""

    label: str
    unit: str = ""
    least: float | None = None
    most: float | None = None

    @property
    def words(self) -> str:
        """The quantity with its unit in brackets."""
        return f"{self.label} [{self.unit}]" if self.unit and self.unit != "1" else self.label


@dataclass(frozen=True, slots=True)
class Curve:
    """A line through points (x, y), in the axes' units; `line` is a line type of the drawings."""

    points: tuple[Point, ...]
    name: str = ""
    line: str = "outline"


@dataclass(frozen=True, slots=True)
class Spot:
    """A point that matters, with its words; `wrong` draws it in red."""

    x: float
    y: float
    says: str
    wrong: bool = False


@dataclass(frozen=True, slots=True)
class Bound:
    """A limit: a line across the field at x or at y, with its words; `wrong` draws it in red."""

    says: str
    x: float | None = None
    y: float | None = None
    wrong: bool = False


BROAD_MM, NARROW_MM = 170.0, 90.0
"""The widths of a chart on a broad page and on a narrow one."""


def divisions(least: float, most: float, wanted: int = 5) -> tuple[float, ...]:
    """Divide a range into round steps of 1, 2 or 5.

    Args:
        least: where the range begins.
        most: where it ends.
        wanted: about how many steps.

    Returns:
        The divisions, from one at or below `least` to one at or above `most`, at least two.

    Source: this project.

    Example:
        >>> divisions(0, 47)
        (0.0, 10.0, 20.0, 30.0, 40.0, 50.0)
    """
    span = most - least
    if not math.isfinite(span) or span <= abs(least) * 1e-9 + 1e-300:
        half = abs(least) / 2 or 1.0
        least, most, span = least - half, most + half, 2 * half
    rough = span / wanted
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(power * by for by in (1, 2, 5, 10) if power * by >= rough * 0.999)
    first, last = math.floor(least / step + 1e-9), math.ceil(most / step - 1e-9)
    return tuple(float(f"{place * step:.12g}") for place in range(first, last + 1))


def chart(
    x: Axis,
    y: Axis,
    curves: Sequence[Curve],
    *,
    title: str,
    description: str,
    spots: Sequence[Spot] = (),
    bounds: Sequence[Bound] = (),
    width_mm: float = BROAD_MM,
    height_mm: float = 80.0,
) -> str:
    """Draw curves in a ruled field.

    Args:
        x: the quantity that runs to the right.
        y: the quantity that runs upward.
        curves: at least one, each with at least two finite points.
        title: what it is, in a few words.
        description: what is to be seen, in sentences with the numbers, for who does not see it.
        spots: points that matter.
        bounds: limits across the field.
        width_mm: [mm] width, lettering included; 60 or more.
        height_mm: [mm] height, lettering included; 40 or more.

    Returns:
        The SVG.

    Source: this project; lines of ISO 128 (from memory).
    """
    letter = 3.4 if width_mm >= 120 else 3.6
    xs = [p[0] for c in curves for p in c.points] + [s.x for s in spots]
    ys = [p[1] for c in curves for p in c.points] + [s.y for s in spots]
    xs += [b.x for b in bounds if b.x is not None]
    ys += [b.y for b in bounds if b.y is not None]
    across = divisions(*_range(xs, x), wanted=6 if width_mm >= 120 else 4)
    upward = divisions(*_range(ys, y), wanted=5)
    left = max(text_width(_figure(each), letter) for each in upward) + 3.0
    field = _Field(
        left + 1.0,
        width_mm - 5.0,
        2.4 * letter,
        height_mm - 3.4 * letter,
        (across[0], across[-1]),
        (upward[0], upward[-1]),
    )
    body = [*_rules(field, across, upward, letter), *_axis_words(field, x, y, letter, height_mm)]
    limits = [(bound, _bound_line(field, bound)) for bound in bounds]
    body += [path([ends], "finding" if bound.wrong else "hidden", closed=False) for bound, ends in limits]
    drawn = [[field.at(*point) for point in curve.points] for curve in curves]
    body += [path([line], curve.line, closed=False) for curve, line in zip(curves, drawn, strict=True)]
    dots = [field.at(spot.x, spot.y) for spot in spots]
    for spot, (dot_x, dot_y) in zip(spots, dots, strict=True):
        ink = RED if spot.wrong else INK
        body.append(f'<circle cx="{number(dot_x)}" cy="{number(dot_y)}" r="0.9" fill="{ink}"/>')
    words = [_spot_words(spot, dot, field, letter) for spot, dot in zip(spots, dots, strict=True)]
    words += [
        _Words((bound.says,), "finding" if bound.wrong else "dimension", _along(*ends, letter))
        for bound, ends in limits
        if bound.says
    ]
    words += [
        _Words((curve.name,), "dimension", _name_places(line, letter))
        for curve, line in zip(curves, drawn, strict=True)
        if curve.name
    ]
    body += _written(
        field, words, [_closely(line) for line in [*drawn, *(list(e) for _, e in limits)]], letter
    )
    return document(body, width_mm, height_mm, title=title, description=description, kind="chart")


@dataclass(frozen=True, slots=True)
class _Field:
    left: float
    right: float
    top: float
    bottom: float
    x: tuple[float, float]
    y: tuple[float, float]

    def at(self, x: float, y: float) -> Point:
        across = (x - self.x[0]) / (self.x[1] - self.x[0])
        up = (y - self.y[0]) / (self.y[1] - self.y[0])
        return (self.left + across * (self.right - self.left), self.bottom - up * (self.bottom - self.top))


def _range(values: Sequence[float], axis: Axis) -> tuple[float, float]:
    least = min([*values, *([axis.least] if axis.least is not None else [])])
    most = max([*values, *([axis.most] if axis.most is not None else [])])
    return least, most


def _figure(value: float) -> str:
    return number_text(value, 5)


def _rules(field: _Field, across: Sequence[float], upward: Sequence[float], letter: float) -> list[str]:
    body = [
        f'<rect x="{number(field.left)}" y="{number(field.top)}" width="{number(field.right - field.left)}" '
        f'height="{number(field.bottom - field.top)}" fill="{PAPER}" stroke="{RULE}" stroke-width="0.18"/>'
    ]
    for value in across:
        at = field.at(value, field.y[0])
        body.append(_ruled((at[0], field.top), (at[0], field.bottom)))
        body.append(lettering(at[0], field.bottom + 1.2 * letter, _figure(value), letter, anchor="middle"))
    for value in upward:
        at = field.at(field.x[0], value)
        body.append(_ruled((field.left, at[1]), (field.right, at[1])))
        body.append(lettering(field.left - 1.2, at[1] + 0.35 * letter, _figure(value), letter, anchor="end"))
    for zero, ends in (
        (field.y[0] < 0 < field.y[1], [field.at(field.x[0], 0), field.at(field.x[1], 0)]),
        (field.x[0] < 0 < field.x[1], [field.at(0, field.y[0]), field.at(0, field.y[1])]),
    ):
        body.append(path([ends], "thin", closed=False) if zero else "")
    return body


def _ruled(start: Point, end: Point) -> str:
    return (
        f'<path d="M{number(start[0])} {number(start[1])}L{number(end[0])} {number(end[1])}" '
        f'stroke="{RULE}" stroke-width="0.18"/>'
    )


def _axis_words(field: _Field, x: Axis, y: Axis, letter: float, height: float) -> list[str]:
    return [
        lettering(field.right, height - 0.7 * letter, x.words, letter, anchor="end", ink="soft"),
        lettering(field.left, field.top - 0.9 * letter, y.words, letter, ink="soft"),
    ]


@dataclass(frozen=True, slots=True)
class _Words:
    """Words that stand near a point, and where they may stand: at each place their anchor, best first."""

    lines: tuple[str, ...]
    ink: str
    places: tuple[tuple[Point, str], ...]


_ASIDE, _ABOVE, _LINE = 1.6, 0.55, 1.15
"""How far words stand off [mm, and in sizes of the lettering], and from line to line."""


def _around(at: Point, lines: Sequence[str], letter: float) -> tuple[tuple[Point, str], ...]:
    """Places about a point: to the right above, left above, below either side, then further off."""
    high = _LINE * letter * (len(lines) - 1)
    found = []
    for off in (0.0, 1.2, 2.4, 3.6, 4.8):
        up = at[1] - _ABOVE * letter - high - off * letter
        down = at[1] + (_ABOVE + 0.8 + off) * letter
        for y in (up, down):
            found += [((at[0] + _ASIDE, y), "start"), ((at[0] - _ASIDE, y), "end"), ((at[0], y), "middle")]
    return tuple(found)


def _along(start: Point, end: Point, letter: float) -> tuple[tuple[Point, str], ...]:
    """Places along a limit: beside an upright line from its top down, over a level one from its left."""
    if abs(start[0] - end[0]) < 1e-9:
        high = min(start[1], end[1])
        steps = [high + letter * (1.2 + 1.3 * place) for place in range(12)]
        return tuple(
            place for y in steps for place in (((start[0] + 1, y), "start"), ((start[0] - 1, y), "end"))
        )
    wide = end[0] - start[0]
    heights = (start[1] - 0.35 * letter, start[1] + 1.05 * letter)
    return (
        *(((start[0] + 1 + wide * part, y), "start") for part in (0, 0.2, 0.4) for y in heights),
        *(((end[0] - 1 - wide * part, y), "end") for part in (0, 0.2) for y in heights),
    )


def _written(
    field: _Field, words: Sequence[_Words], lines: Sequence[Sequence[Point]], letter: float
) -> list[str]:
    """Write the words so that they keep off one another and, where it can be had, off the curves."""
    taken: list[Box] = []
    body = []
    for each in words:
        wide = max(text_width(line, letter) for line in each.lines)
        high = letter * (1 + _LINE * (len(each.lines) - 1))

        def cost(place: tuple[Point, str], wide: float = wide, high: float = high) -> float:
            box = _box(place, wide, high, letter)
            out = box[0] < field.left or box[2] > field.right or box[1] < field.top or box[3] > field.bottom
            meets = sum(_overlap(box, other) for other in taken)
            crossed = sum(_inside(box, point) for line in lines for point in line)
            return 1000.0 * out + 300.0 * meets + min(crossed, 50)

        place = min(each.places, key=cost)
        taken.append(_box(place, wide, high, letter))
        (x, y), anchor = place
        body += [
            lettering(x, y + _LINE * letter * row, line, letter, anchor=anchor, ink=each.ink, halo=True)
            for row, line in enumerate(each.lines)
        ]
    return body


def _spot_words(spot: Spot, dot: Point, field: _Field, letter: float) -> _Words:
    lines = wrap(spot.says, letter, 0.55 * (field.right - field.left))
    return _Words(tuple(lines), "finding" if spot.wrong else "label", _around(dot, lines, letter))


def _name_places(line: Sequence[Point], letter: float) -> tuple[tuple[Point, str], ...]:
    """Where a curve's name may stand: near its end, then further back."""
    back = [line[int((len(line) - 1) * part)] for part in (0.97, 0.85, 0.7, 0.5, 0.3)]
    return tuple(place for at in back for place in _around(at, [""], letter))


def _box(place: tuple[Point, str], wide: float, high: float, letter: float) -> Box:
    (x, y), anchor = place
    left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
    return (left, y - 0.85 * letter, left + wide, y - letter + high + 0.25 * letter)


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _inside(box: Box, point: Point) -> bool:
    return box[0] <= point[0] <= box[2] and box[1] <= point[1] <= box[3]


def _closely(line: Sequence[Point]) -> list[Point]:
    """The points of a line no more than a millimetre apart, so that words can be kept off it."""
    found: list[Point] = []
    for (x, y), (to_x, to_y) in pairwise(line):
        steps = min(200, max(1, math.ceil(math.hypot(to_x - x, to_y - y))))
        found += [(x + (to_x - x) * i / steps, y + (to_y - y) * i / steps) for i in range(steps)]
    return [*found, line[-1]]


def _bound_line(field: _Field, bound: Bound) -> tuple[Point, Point]:
    if bound.x is not None:
        return field.at(bound.x, field.y[0]), field.at(bound.x, field.y[1])
    return field.at(field.x[0], bound.y or 0.0), field.at(field.x[1], bound.y or 0.0)
