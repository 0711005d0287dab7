"""What stands about a section: break lines, dimensions, labels, numbers and their key."""

from __future__ import annotations

import math
from collections.abc import Sequence

from calculators.drawing.lettering import spread, text_width, wrap
from calculators.drawing.section_plan import Plan
from calculators.drawing.section_sheet import Sheet, View
from calculators.drawing.section_words import Label, Write
from calculators.drawing.svg import BLUE, LINES, PAPER, Point, lettering, number, path

MOST_LINES = 4
"""A finding is given in full beside the drawing; in it, so many lines are enough."""


def break_line(start: Point, end: Point) -> str:
    """Draw the freehand line that breaks a part off, at its side or behind.

    Args:
        start: one end [mm on the sheet].
        end: the other end [mm on the sheet].

    Returns:
        The element.

    Source: ISO 128-2, line 01.1 freehand (from memory).
    """
    return path([_wavy(start, end)], "break", closed=False)


def _wavy(start: Point, end: Point) -> list[Point]:
    length = math.dist(start, end)
    steps = max(2, int(length / 1.2))
    across = ((end[1] - start[1]) / length, (start[0] - end[0]) / length) if length else (0.0, 0.0)
    points = []
    for i in range(steps + 1):
        part = i / steps
        swing = 0.0 if i in {0, steps} else 0.45 * math.sin(i * 1.9) + 0.2 * math.sin(i * 0.7)
        points.append(
            (
                start[0] + (end[0] - start[0]) * part + across[0] * swing,
                start[1] + (end[1] - start[1]) * part + across[1] * swing,
            )
        )
    return points


Span = tuple[float, float, str, bool]
"""A dimension: from and to on the axis [mm], its words, and whether it is broken off at its far end."""


def chain_of(plan: Plan, write: Write) -> list[Span]:
    """Return the chain of thicknesses: of the parts and of the hardware between and behind them.

    Args:
        plan: what is drawn.
        write: how a length is written.

    Returns:
        The dimensions, from the head on.

    Source: ISO 129-1 (from memory).
    """
    spans = [(s.surface, s.shown, write(s.back - s.surface), s.broken) for s in plan.layers]
    taken = [(s.surface, s.back) for s in plan.layers]
    for each in plan.hardware:
        if not each.is_insert and all(each.far <= a + 1e-6 or each.near >= b - 1e-6 for a, b in taken):
            spans.append((each.near, each.far, write(each.far - each.near), False))
    return sorted(spans)


def dimensions(
    plan: Plan,
    view: View,
    sheet: Sheet,
    letter: float,
    columns: tuple[Sequence[Span], Sequence[Span], str],
    above: list[float],
    below: list[float],
) -> list[str]:
    """Draw the chain of thicknesses, the other lengths that matter, and the length of the screw.

    Args:
        plan: what is drawn.
        view: how it lies.
        sheet: the sheet.
        letter: the size of the type [mm].
        columns: the chain, the other lengths, and the words of the screw's length.
        above: uppermost edges met, to be added to [mm].
        below: lowest edges met, to be added to [mm].

    Returns:
        The elements.

    Source: ISO 129-1 (from memory).
    """
    chain, facts, words = columns
    edge = view.at(-view.half_width, 0)[0]
    axis = view.centre - 0.5 * plan.major * view.scale
    # The outer columns come first, so that their extension lines pass under the words of the inner ones.
    return [
        *_length(plan, view, sheet, letter, words, above, below),
        *_column(facts, sheet.facts, axis, view, letter, above, below),
        *_column(chain, sheet.chain, edge - 1, view, letter, above, below),
    ]


def _column(
    spans: Sequence[Span],
    column: float,
    from_x: float,
    view: View,
    letter: float,
    above: list[float],
    below: list[float],
) -> list[str]:
    """Draw one column of dimensions; a number that has no room at its place is led from it."""
    middles = [(view.at(0, a)[1] + view.at(0, b)[1]) / 2 for a, b, _, _ in spans]
    placed = spread(middles, [letter] * len(spans), 0.25 * letter)
    lines, numbers = [], []
    for (a, b, words, broken), wanted, y in zip(spans, middles, placed, strict=True):
        ends = sorted((view.at(0, a)[1], view.at(0, b)[1]))
        lines.append(_extension(from_x, column - 1.2, ends))
        lines.append(_dimension_line(column, ends, open_at=view.at(0, b)[1] if broken else None))
        x = column - 1.4
        if abs(y - wanted) > 0.4 * letter:
            lines.append(path([[(column, wanted), (x - 1.6, y)]], "dimension", closed=False))
            x -= 2.2
        numbers.append(_dimension_words(x, y, words, letter))
        above.append(y - letter)
        below.append(y + letter)
    return lines + numbers


def _dimension_words(right: float, middle: float, words: str, letter: float) -> str:
    """Write a dimension clear of the lines behind it."""
    wide = text_width(words, letter) * 0.9
    place = f'x="{number(right - wide)}" y="{number(middle - 0.45 * letter)}"'
    size = f'width="{number(wide)}" height="{number(0.9 * letter)}"'
    clear = f'<rect class="clear" {place} {size} fill="{PAPER}"/>'
    return clear + lettering(right, middle + 0.35 * letter, words, letter, ink="dimension", anchor="end")


def _length(
    plan: Plan, view: View, sheet: Sheet, letter: float, words: str, above: list[float], below: list[float]
) -> list[str]:
    ends = sorted((view.at(0, plan.start_of_length)[1], view.at(0, plan.tip)[1]))
    x = sheet.length
    from_x = view.centre + (0.5 if sheet.narrow else -0.5) * plan.major * view.scale
    middle = sum(ends) / 2
    half = text_width(words, letter) / 2
    above.append(min(middle - half, ends[0]) - 1)
    below.append(max(middle + half, ends[1]) + 1)
    base = x - 1.2 if not sheet.narrow else x + 1.2 + 0.72 * letter
    return [
        _extension(from_x, x + (1.2 if sheet.narrow else -1.2), ends),
        _dimension_line(x, ends),
        lettering(base, middle, words, letter, ink="dimension", anchor="middle", turn=True),
    ]


def _extension(from_x: float, to_x: float, ends: Sequence[float]) -> str:
    return path([[(from_x, y), (to_x, y)] for y in ends], "dimension", closed=False)


def _dimension_line(x: float, ends: Sequence[float], open_at: float | None = None) -> str:
    """Draw a line with arrows, or oblique strokes where it is short; none at an end that is broken off."""
    top, bottom = ends
    line = path([[(x, top), (x, bottom)]], "dimension", closed=False)
    if bottom - top >= 6:
        for y, way in ((top, 1.0), (bottom, -1.0)):
            if y != open_at:
                tip = f"M{number(x)} {number(y)}l-0.5 {number(2.4 * way)}h1Z"
                line += f'<path class="arrow" d="{tip}" fill="{BLUE}"/>'
        return line
    strokes = [[(x - 0.8, y + 0.8), (x + 0.8, y - 0.8)] for y in ends if y != open_at]
    return line + path(strokes, "dimension", closed=False)


def labels(
    every: Sequence[Label],
    view: View,
    sheet: Sheet,
    letter: float,
    above: list[float],
    below: list[float],
    *,
    with_key: bool = True,
) -> list[str]:
    """Set the labels beside the section, or on a narrow sheet numbers beside it and the words below.

    Args:
        every: the labels from the head on.
        view: how the section lies.
        sheet: the sheet.
        letter: the size of the type [mm].
        above: uppermost edges met, to be added to [mm].
        below: lowest edges met, to be added to [mm].
        with_key: whether the words stand below a narrow drawing.

    Returns:
        The elements.

    Source: this project.
    """
    anchors = [view.at(_reach(label, view), label.at) for label in every]
    if sheet.narrow:
        numbers = _numbers(every, anchors, sheet, letter, above, below)
        key = _key(every, sheet, letter, max(below) + 2.2 * letter, below) if with_key else []
        return numbers + key
    blocks = [_lines(label, letter, sheet.width - sheet.labels - 1) for label in every]
    heights = [1.22 * letter * len(block) for block in blocks]
    middles = spread([y for _, y in anchors], heights, 0.7 * letter)
    parts = []
    for anchor, block, height, middle in zip(anchors, blocks, heights, middles, strict=True):
        top = middle - height / 2
        first = top + 0.61 * letter
        parts.append(
            _leader(anchor, (sheet.labels - 1.2, first), view.centre + view.half_width * view.scale + 3)
        )
        for index, (text, ink) in enumerate(block):
            parts.append(lettering(sheet.labels, top + (1.22 * index + 0.95) * letter, text, letter, ink=ink))
        above.append(top - 1)
        below.append(top + height + 1)
    return parts


def _reach(label: Label, view: View) -> float:
    if not label.part:
        return label.half
    return view.half_width if label.edge is None else min(label.edge, view.half_width)


def _lines(label: Label, letter: float, width: float) -> list[tuple[str, str]]:
    return [(line, ink) for text, ink in label.lines for line in wrap(text, letter, width, most=MOST_LINES)]


def _leader(anchor: Point, end: Point, clear: float) -> str:
    """Lead from a part level to where all parts have ended, then to its words; a dot stands on the part."""
    bend = (max(clear, anchor[0]), anchor[1])
    line = path([[anchor, bend, end]], "leader", closed=False)
    return line + _dot(anchor)


def _dot(at: Point) -> str:
    return f'<circle class="dot" cx="{number(at[0])}" cy="{number(at[1])}" r="0.55" fill="#4c5a64"/>'


def _numbers(
    every: Sequence[Label],
    anchors: Sequence[Point],
    sheet: Sheet,
    letter: float,
    above: list[float],
    below: list[float],
) -> list[str]:
    radius = 0.8 * letter
    middles = spread([y for _, y in anchors], [2 * radius] * len(every), 0.25 * letter)
    parts = []
    for index, (label, anchor, y) in enumerate(zip(every, anchors, middles, strict=True), 1):
        ink = "finding" if any(ink == "finding" for _, ink in label.lines) else "label"
        parts.append(_leader(anchor, (sheet.labels - radius, y), sheet.right + 1.5))
        parts.append(_balloon(sheet.labels, y, radius, str(index), letter, ink))
        above.append(y - radius - 1)
        below.append(y + radius + 1)
    return parts


def _balloon(x: float, y: float, radius: float, text: str, letter: float, ink: str) -> str:
    line = LINES["finding" if ink == "finding" else "thin"]
    place = f'cx="{number(x)}" cy="{number(y)}" r="{number(radius)}"'
    circle = f'<circle class="balloon" {place} fill="{PAPER}" {line}/>'
    return circle + lettering(x, y + 0.35 * letter, text, letter, ink=ink, anchor="middle")


def _key(every: Sequence[Label], sheet: Sheet, letter: float, top: float, below: list[float]) -> list[str]:
    parts = []
    y = top
    indent = 1 + 2.2 * letter
    for index, label in enumerate(every, 1):
        parts.append(lettering(1 + 1.1 * letter, y, str(index), letter, anchor="middle"))
        for text, ink in _lines(label, letter, sheet.width - indent - 1):
            parts.append(lettering(indent, y, text, letter, ink=ink))
            y += 1.25 * letter
        y += 0.45 * letter
    below.append(y - 1.2 * letter)
    return parts


def head_end(plan: Plan, view: View, above: list[float], below: list[float]) -> list[str]:
    """Draw the view on the end of the head beyond it, at the scale of the section.

    Args:
        plan: what is drawn.
        view: how the section lies.
        above: uppermost edges met, to be added to [mm].
        below: lowest edges met, to be added to [mm].

    Returns:
        The elements; none for a screw at whose end nothing is to be seen.

    Source: ISO 128-3 (views; from memory). It stands beyond the end that it shows.
    """
    end = plan.end
    if end is None:
        return []
    reach = end.reach * view.scale
    out = 6.0 + reach
    y = view.top - out if view.head_up else view.bottom + out
    x = view.centre

    def placed(lines: Sequence[Sequence[Point]]) -> list[list[Point]]:
        return [[(x + px * view.scale, y - py * view.scale) for px, py in line] for line in lines]

    parts = [
        f'<circle class="{line}" cx="{number(x)}" cy="{number(y)}" r="{number(radius * view.scale)}" '
        f'fill="{PAPER}" {LINES[line]}/>'
        for radius, line in end.circles
        if line == "outline"
    ]
    parts.append(path(placed(end.rings), "outline", fill=PAPER))
    parts += [
        f'<circle class="{line}" cx="{number(x)}" cy="{number(y)}" r="{number(radius * view.scale)}" '
        f"{LINES[line]}/>"
        for radius, line in end.circles
        if line != "outline"
    ]
    parts.append(path(placed(end.thin), "thin", closed=False))
    parts.append(path(placed(end.hidden), "hidden", closed=False))
    parts.append(path(placed(end.recess), "outline", fill=PAPER))
    arm = reach + 2.0
    crossed = [[(x - arm, y), (x + arm, y)], [(x, y - arm), (x, y + arm)]]
    parts.append(path(crossed, "centre", closed=False))
    above.append(y - arm - 1)
    below.append(y + arm + 1)
    return parts


def scale_note(words: str, sheet: Sheet, letter: float, y: float) -> list[str]:
    """Write the scale at the foot.

    Args:
        words: the scale in words.
        sheet: the sheet.
        letter: the size of the type [mm].
        y: the first base line [mm].

    Returns:
        The elements, one a line.

    Source: ISO 5455 (from memory).
    """
    small = max(0.85 * letter, 2.0)
    lines = wrap(f"{words}, parts broken off", small, sheet.width - 2)
    return [
        lettering(1.0, y + 1.1 * letter * index, line, small, ink="soft") for index, line in enumerate(lines)
    ]
