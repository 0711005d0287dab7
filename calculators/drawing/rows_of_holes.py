"""Pictures of rows of holes with running dimensions from one datum, and of pieces with equal gaps."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import ceil

from calculators.calculation import Given, Picture, Result
from calculators.calculation.result import number_text
from calculators.drawing.lettering import text_width
from calculators.drawing.setting_out import number_of, points_of, two_widths
from calculators.drawing.sketch import Sketch
from calculators.drawing.svg import RED_WASH, STEEL

_MOST_DRAWN = 400


def draw_rows(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw a part with its holes and running dimensions along its lower edge.

    Args:
        given: the inputs as read.
        result: what was worked out of them.

    Returns:
        One picture.

    Source: this project; running dimensions from an origin as in ISO 129-1 (from memory).
    """
    points, length = points_of(result)[:_MOST_DRAWN], given.mm("length")
    rows = max(1, given.integer("rows"))
    width = given.mm_or_none("width") or length / 8
    if given.mm_or_none("width") is None:
        points = [(x, width / 2) for x, _ in points]
    running = sorted({round(x, 6) for x, _ in points})
    hole = given.mm_or_none("hole") or min(width, length) / 30
    clash = "land" in result.results and number_of(result, "land") <= 0
    count = given.integer("count")
    title = f"{count} holes in a row of {number_text(length)} mm" + (f", {rows} rows" if rows > 1 else "")
    listed = ", ".join(f"{x:.2f}" for x in running[:20])
    says = f"{title}. From the left-hand end: {listed} mm. Space {number_of(result, 'spacing'):.2f} mm."

    def draw(sheet: float) -> str:
        sketch = Sketch((0, 0, length, width), sheet, sides_mm=(9, 9), tallest_mm=70)
        sketch.shape([[(0, 0), (length, 0), (length, width), (0, width)]])
        for point in points:
            sketch.circle(point, hole / 2, "finding" if clash else "outline", RED_WASH if clash else STEEL)
            if hole * sketch.scale > 2.5:
                sketch.cross(point, hole / 2 * sketch.scale + 1.0)
        _running(sketch, running, length)
        return sketch.svg(title=title, description=says)

    return (two_widths(title, draw, "Measure every hole from the one end, not from its neighbour."),)


def _running(sketch: Sketch, places: Sequence[float], length: float) -> None:
    """Running dimensions: one line from the origin, a figure at each place, turned where they are close."""
    figures = [f"{x:.1f}".removesuffix(".0") for x in places]
    room = min(b - a for a, b in pairwise([0.0, *places]) if b > a) * sketch.scale if places[-1] else 99.0
    widest = max(text_width(each, sketch.letter) for each in figures)
    every = max(1, ceil(1.25 * sketch.letter / room)) if room < widest + 1.5 else 1
    sketch.running([0.0, *places], ["0", *figures], turned=room < widest + 1.5, every=every)


def draw_gaps(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw the pieces in the length with their gaps.

    Args:
        given: the inputs as read.
        result: what was worked out of them.

    Returns:
        One picture.

    Source: this project.
    """
    length, gap = given.mm("length"), number_of(result, "gap")
    value = result.results["marks"].value
    assert isinstance(value, Sequence)
    marks = [(float(str(m["from"])), float(str(m["to"]))) for m in value if isinstance(m, Mapping)]
    high = length / 7
    title = f"{len(marks)} pieces in {number_text(length)} mm with equal gaps"
    listed = "; ".join(f"{a:.1f} to {b:.1f}" for a, b in marks[:20])
    says = f"{title}. Each gap is {gap:.2f} mm. Marks from the left-hand end in mm: {listed}."

    def draw(sheet: float) -> str:
        sketch = Sketch((0, 0, length, high), sheet, sides_mm=(9, 9), tallest_mm=40)
        for a, b in marks[:_MOST_DRAWN]:
            if (b - a) * sketch.scale < 0.3:
                sketch.shape([[(a, 0), (a, high)]], "outline", closed=False)
            else:
                sketch.shape([[(a, 0), (b, 0), (b, high), (a, high)]], fill=STEEL)
        ends = [[(x, -high / 12), (x, high)] for x in (0.0, length)]
        sketch.shape([[(0, 0), (length, 0)], *ends], "edge", closed=False)
        start = (0.0, marks[0][0]) if marks[0][0] > 0 else (marks[0][1], marks[0][1] + gap)
        sketch.across((start[0], high), (start[1], high), f"gap {number_text(gap, 5)}", -4)
        sketch.across((0, 0), (length, 0), number_text(length), 7)
        return sketch.svg(title=title, description=says)

    return (two_widths(title, draw, "Lay a rod along the length and mark every piece from its one end."),)
