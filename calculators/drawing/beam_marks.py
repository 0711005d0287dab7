"""The marks of a beam's drawing: arrows of loads, spread loads, moments, supports, and words in rows."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin

from calculators.calculation.result import number_text
from calculators.drawing.lettering import text_width
from calculators.drawing.svg import INK, Point, path
from calculators.mechanics.beams.line import Load

_HEAD_MM, _WIDE_MM = 2.4, 0.8
_EDGE_MM = 1.0


def load_words(load: Load) -> str:
    """Write a load: `100 N`, `50 N spread`, `5 N m clockwise`.

    Args:
        load: the load.

    Returns:
        The words.

    Source: this project.

    Example:
        >>> load_words(Load(10, 100, 200))
        '100 N spread'
    """
    parts = []
    if load.force_n:
        up = " upward" if load.force_n < 0 else ""
        parts.append(
            f"{number_text(abs(load.force_n), 4)} N{up}{' spread' if load.to_mm is not None else ''}"
        )
    if load.moment_n_mm:
        way = "clockwise" if load.moment_n_mm > 0 else "anticlockwise"
        parts.append(f"{number_text(abs(load.moment_n_mm) / 1000, 4)} N m {way}")
    return ", ".join(parts) or "no load"


def rows_of_words(
    words: Sequence[tuple[float, str]], width_mm: float, letter_mm: float
) -> list[tuple[float, int, str]]:
    """Set words about their places in as few rows as keep them off one another and on the sheet.

    Args:
        words: for each the middle that it would like [mm] and its text.
        width_mm: [mm] the sheet's width.
        letter_mm: [mm] the size of the type.

    Returns:
        For each its middle [mm], its row from 0 on, and the text, in the order given.

    Source: this project.

    Example:
        >>> rows_of_words([(10, "20 N"), (12, "20 N")], 100, 3.4)[1][1]
        1
    """
    taken: list[list[tuple[float, float]]] = []
    found: list[tuple[float, int, str]] = []
    for x, text in words:
        half = text_width(text, letter_mm) / 2
        middle = min(max(x, half + _EDGE_MM), max(width_mm - half - _EDGE_MM, half + _EDGE_MM))
        box = (middle - half - 1.2, middle + half + 1.2)
        row = 0
        while row < len(taken) and any(box[0] < end and start < box[1] for start, end in taken[row]):
            row += 1
        if row == len(taken):
            taken.append([])
        taken[row].append(box)
        found.append((middle, row, text))
    return found


def _arrow(start: Point, end: Point) -> list[str]:
    """A line with a filled head at its end; upright ones only."""
    way = 1 if end[1] > start[1] else -1
    neck = end[1] - way * _HEAD_MM
    head = [end, (end[0] - _WIDE_MM, neck), (end[0] + _WIDE_MM, neck)]
    return [path([[start, (end[0], neck)]], "edge", closed=False), path([head], "none", fill=INK)]


def arrow_down(x: float, top: float, length_mm: float, down: bool) -> list[str]:
    """The arrow of a force on the upper edge of a beam.

    Args:
        x: its place [mm on the sheet].
        top: the beam's upper edge [mm on the sheet].
        length_mm: [mm] its length.
        down: whether it presses; otherwise it pulls up.

    Returns:
        The elements.

    Source: this project.
    """
    high, low = (x, top - length_mm), (x, top - 0.4)
    return _arrow(high, low) if down else _arrow(low, high)


def spread_load(left: float, right: float, top: float, down: bool) -> list[str]:
    """The mark of a load spread evenly: a line over its length with arrows from it.

    Args:
        left: where it begins [mm on the sheet].
        right: where it ends [mm on the sheet].
        top: the beam's upper edge [mm on the sheet].
        down: whether it presses; otherwise it pulls up.

    Returns:
        The elements.

    Source: this project.
    """
    high = top - 6.0
    count = max(2, min(24, round((right - left) / 7) + 1))
    found = [path([[(left, high), (right, high)]], "edge", closed=False)]
    for place in range(count):
        x = left + (right - left) * place / (count - 1)
        found += _arrow((x, high), (x, top - 0.4)) if down else _arrow((x, top - 0.4), (x, high))
    return found


def moment_mark(x: float, top: float, clockwise: bool) -> list[str]:
    """The mark of a moment: an arc with an arrow about its place.

    Args:
        x: its place [mm on the sheet].
        top: the beam's upper edge [mm on the sheet].
        clockwise: which way it turns.

    Returns:
        The elements.

    Source: this project.
    """
    radius, middle = 4.5, top - 1.0
    way = 1 if clockwise else -1
    arc = [
        (x + way * radius * sin(turn), middle - radius * cos(turn))
        for turn in (pi * (-0.5 + place / 20) for place in range(19))
    ]
    (tail_x, tail_y), (tip_x, tip_y) = arc[-2], arc[-1]
    ux, uy = tip_x - tail_x, tip_y - tail_y
    size = (ux * ux + uy * uy) ** 0.5
    ux, uy = ux / size, uy / size
    end = (tip_x + ux * _HEAD_MM, tip_y + uy * _HEAD_MM)
    head = [
        end,
        (tip_x - uy * _WIDE_MM, tip_y + ux * _WIDE_MM),
        (tip_x + uy * _WIDE_MM, tip_y - ux * _WIDE_MM),
    ]
    return [path([arc], "edge", closed=False), path([head], "none", fill=INK)]


def support_mark(x: float, top: float, depth: float, held: bool, right: bool) -> list[str]:
    """The mark of a support: a wedge under the beam, or a hatched wall where it is held.

    Args:
        x: its place [mm on the sheet].
        top: the beam's upper edge [mm on the sheet].
        depth: the beam's depth [mm on the sheet].
        held: whether it cannot turn there.
        right: whether the wall stands to the right.

    Returns:
        The elements.

    Source: signs of mechanics, common practice.
    """
    if held:
        high, low, way = top - 4.0, top + depth + 4.0, 1 if right else -1
        steps = max(2, int((low - high) / 2))
        strokes = [
            [(x, high + (low - high) * k / steps), (x + way * 2.2, high + (low - high) * k / steps + 2.0)]
            for k in range(steps)
        ]
        return [path([[(x, high), (x, low)]], "outline", closed=False), path(strokes, "thin", closed=False)]
    y = top + depth
    wedge = [(x, y + 0.2), (x - 2.2, y + 4.0), (x + 2.2, y + 4.0)]
    ground = [[(x - 3.2, y + 4.0), (x + 3.2, y + 4.0)]]
    strokes = [[(x - 2.6 + 1.6 * k, y + 4.0), (x - 3.6 + 1.6 * k, y + 5.4)] for k in range(5)]
    return [path([wedge], "edge"), path(ground, "edge", closed=False), path(strokes, "thin", closed=False)]
