"""A curve in a ruled field: one quantity against another, with the points that matter marked.

Drawn as a draughtsman would: round divisions, the quantity and its unit along each edge, the name of each
curve at its end, no legend.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calculators.calculation.result import number_text
from calculators.drawing.lettering import text_width, wrap
from calculators.drawing.svg import INK, PAPER, RED, RULE, Point, document, lettering, number, path
from calculators.drawing.word_placing import Words, along, around, closely, written


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
        return self.words_in(0)

    def words_in(self, power: int) -> str:
        """The quantity with its unit in brackets, where the figures are so many powers of ten of it."""
        unit = "" if self.unit == "1" else self.unit
        inside = f"10^{power} {unit}".rstrip() if power else unit
        return f"{self.label} [{inside}]" if inside else self.label


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
    x_power, y_power = _power(across), _power(upward)
    left = max(text_width(_figure(each, y_power), letter) for each in upward) + 3.0
    field = _Field(
        left + 1.0,
        width_mm - 5.0,
        2.4 * letter,
        height_mm - 3.4 * letter,
        (across[0], across[-1]),
        (upward[0], upward[-1]),
    )
    body = _rules(field, across, upward, (x_power, y_power), letter)
    body += _axis_words(field, x.words_in(x_power), y.words_in(y_power), letter, height_mm)
    limits = [(bound, _bound_line(field, bound)) for bound in bounds]
    body += [path([ends], "finding" if bound.wrong else "hidden", closed=False) for bound, ends in limits]
    drawn = [[field.at(*point) for point in curve.points] for curve in curves]
    body += [path([line], curve.line, closed=False) for curve, line in zip(curves, drawn, strict=True)]
    dots = [field.at(spot.x, spot.y) for spot in spots]
    for spot, (dot_x, dot_y) in zip(spots, dots, strict=True):
        ink = RED if spot.wrong else INK
        body.append(f'<circle cx="{number(dot_x)}" cy="{number(dot_y)}" r="0.9" fill="{ink}"/>')
    words = [_spot_words(spot, dot, field, letter) for spot, dot in zip(spots, dots, strict=True)]
    words += [_bound_words(bound, ends, field, letter) for bound, ends in limits if bound.says]
    words += [
        _name_words(curve, line, field, letter)
        for curve, line in zip(curves, drawn, strict=True)
        if curve.name
    ]
    box = (field.left, field.top, field.right, field.bottom)
    body += written(box, words, [*drawn, *(list(ends) for _, ends in limits)], letter)
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


_LONGEST_FIGURE = 6


def _power(values: Sequence[float]) -> int:
    """The power of ten, a multiple of three, that is left to the axis so that its figures stay short."""
    if all(len(number_text(abs(each), 5)) <= _LONGEST_FIGURE for each in values):
        return 0
    return 3 * math.floor(math.log10(max(abs(each) for each in values)) / 3)


def _figure(value: float, power: int) -> str:
    return number_text(value / 10.0**power, 5)


def _rules(
    field: _Field, across: Sequence[float], upward: Sequence[float], powers: tuple[int, int], letter: float
) -> list[str]:
    body = [
        f'<rect x="{number(field.left)}" y="{number(field.top)}" width="{number(field.right - field.left)}" '
        f'height="{number(field.bottom - field.top)}" fill="{PAPER}" stroke="{RULE}" stroke-width="0.18"/>'
    ]
    figures = [_figure(each, powers[0]) for each in across]
    room = (field.right - field.left) / (len(across) - 1)
    # Where the figures are too wide to stand side by side only every second or third is written.
    every = max(1, math.ceil((max(text_width(each, letter) for each in figures) + 0.6 * letter) / room))
    for place, (value, figure) in enumerate(zip(across, figures, strict=True)):
        at = field.at(value, field.y[0])
        body.append(_ruled((at[0], field.top), (at[0], field.bottom)))
        if place % every == 0:
            # The last may not run over the edge of the sheet.
            middle = min(at[0], field.right + 4.5 - text_width(figure, letter) / 2)
            body.append(lettering(middle, field.bottom + 1.2 * letter, figure, letter, anchor="middle"))
    for value in upward:
        at = field.at(field.x[0], value)
        body.append(_ruled((field.left, at[1]), (field.right, at[1])))
        figure = _figure(value, powers[1])
        body.append(lettering(field.left - 1.2, at[1] + 0.35 * letter, figure, letter, anchor="end"))
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


def _axis_words(field: _Field, x_words: str, y_words: str, letter: float, height: float) -> list[str]:
    (across,) = wrap(x_words, letter, field.right, most=1)
    (upward,) = wrap(y_words, letter, field.right - field.left, most=1)
    return [
        lettering(field.right, height - 0.7 * letter, across, letter, anchor="end", ink="soft"),
        lettering(field.left, field.top - 0.9 * letter, upward, letter, ink="soft"),
    ]


def _spot_words(spot: Spot, dot: Point, field: _Field, letter: float) -> Words:
    lines = wrap(spot.says, letter, 0.55 * (field.right - field.left))
    return Words(tuple(lines), "finding" if spot.wrong else "label", around(dot, len(lines), letter), (dot,))


def _bound_words(bound: Bound, ends: tuple[Point, Point], field: _Field, letter: float) -> Words:
    lines = wrap(bound.says, letter, 0.7 * (field.right - field.left))
    ink = "finding" if bound.wrong else "dimension"
    return Words(tuple(lines), ink, along(*ends, letter), tuple(closely(ends)))


def _name_words(curve: Curve, line: Sequence[Point], field: _Field, letter: float) -> Words:
    """A curve's name, which stands near its end or further back."""
    lines = wrap(curve.name, letter, 0.55 * (field.right - field.left))
    points = closely(line)
    back = [points[int((len(points) - 1) * part)] for part in (0.97, 0.85, 0.7, 0.5, 0.3)]
    places = tuple(place for at in back for place in around(at, len(lines), letter))
    return Words(tuple(lines), "dimension", places, tuple(points))


def _bound_line(field: _Field, bound: Bound) -> tuple[Point, Point]:
    if bound.x is not None:
        return field.at(bound.x, field.y[0]), field.at(bound.x, field.y[1])
    return field.at(field.x[0], bound.y or 0.0), field.at(field.x[1], bound.y or 0.0)
