"""The picture of a sine bar on its gauges."""

from __future__ import annotations

from math import cos, radians, sin

from calculators.calculation import Given, Picture, Result
from calculators.calculation.result import number_text
from calculators.drawing.setting_out import number_of, two_widths
from calculators.drawing.sketch import Sketch, round_line
from calculators.drawing.svg import STEEL, Point


def draw_sine_bar(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw the bar on its two rollers with the stack under one of them.

    Args:
        given: the inputs as read.
        result: what was worked out of them.

    Returns:
        One picture.

    Source: this project.
    """
    length, angle, height = (
        given.mm("length"),
        number_of(result, "sine_angle"),
        number_of(result, "sine_height"),
    )
    r, a = length / 14, radians(angle)
    high = height + r
    one, other = (0.0, r), (length * cos(a), high)
    title = f"Sine bar of {number_text(length, 6)} mm at {number_text(angle, 6)} degrees"
    says = f"{title}: {number_text(height, 7)} mm stand under one roller."
    bar = [_off(one, a, -r, r), _off(other, a, r, r), _off(other, a, r, 3 * r), _off(one, a, -r, 3 * r)]

    def draw(sheet: float) -> str:
        top = max(y for _, y in bar)
        sketch = Sketch((-2 * r, 0, length + 2 * r, top), sheet, sides_mm=(8, 26), tallest_mm=80)
        sketch.shape([[(-2 * r, 0), (length + 2 * r, 0)]], closed=False)
        sketch.shape([bar], fill=STEEL)
        stack_high = height
        if stack_high > 0:
            x = other[0]
            sketch.shape([[(x - r, 0), (x + r, 0), (x + r, stack_high), (x - r, stack_high)]], manner="metal")
        for centre in (one, other):
            sketch.circle(centre, r, "outline", STEEL)
            sketch.cross(centre, 1.5)
        sketch.shape([round_line(one, 0.45 * length, 0, angle)], "dimension", closed=False)
        sketch.shape([[one, (0.6 * length, r)]], "centre", closed=False)
        sketch.label((0.5 * length * cos(a / 2), r + 0.5 * length * sin(a / 2)), f"{number_text(angle, 5)}°",
                     anchor="start", ink="dimension")  # fmt: skip
        if height > 0:
            sketch.upward((other[0] + r, 0), (other[0] + r, height), number_text(height, 6), 5)
        return sketch.svg(title=title, description=says)

    return (two_widths(title, draw, says),)


def _off(point: Point, a: float, along: float, across: float) -> Point:
    return (point[0] + along * cos(a) - across * sin(a), point[1] + along * sin(a) + across * cos(a))
