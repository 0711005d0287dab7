"""Pictures of a right triangle, of a frame with its diagonals and of a regular polygon."""

from __future__ import annotations

from math import cos, radians, sin

from calculators.calculation import Given, Picture, Result
from calculators.calculation.result import number_text
from calculators.drawing.setting_out import number_of, two_widths
from calculators.drawing.sketch import Sketch, round_line
from calculators.drawing.svg import STEEL, Point


def draw_triangle(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw the triangle with its sides and its angle.

    Args:
        given: the inputs as read.
        result: what was worked out of them.

    Returns:
        One picture, or none where it would be a line.

    Source: this project.
    """
    base, height, slope, angle = (
        number_of(result, f"triangle_{n}") for n in ("base", "height", "slope", "angle")
    )
    if min(base, height) < slope / 60:
        return ()
    b, h, s, a = (number_text(value, 5) for value in (base, height, slope, angle))
    title = f"Right triangle of {b} and {h} mm"
    says = f"{title}: its longest side is {s} mm and its angle {a} degrees."

    def draw(sheet: float) -> str:
        sketch = Sketch((0, 0, base, height), sheet, sides_mm=(14, 24), tallest_mm=80)
        sketch.shape([[(0, 0), (base, 0), (base, height)]], fill=STEEL)
        corner = 2.5 / sketch.scale
        square = [(base - corner, 0), (base - corner, corner), (base, corner)]
        sketch.shape([square], "thin", closed=False)
        sketch.across((0, 0), (base, 0), b, 7)
        sketch.upward((base, 0), (base, height), h, 5)
        sketch.note((base * 0.45, height * 0.45), s, dot=False)
        sketch.below(f"{a}° at the left, {number_text(90 - angle, 5)}° at the top")
        return sketch.svg(title=title, description=says)

    return (two_widths(title, draw, says),)


def draw_frame(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw the frame square and as it stands, its lean drawn larger where it is small.

    Args:
        given: the inputs as read.
        result: what was worked out of them.

    Returns:
        One picture.

    Source: this project.
    """
    length, width, lean = given.mm("length"), given.mm("width"), number_of(result, "lean")
    times = 1.0
    while lean and abs(lean) * times < length / 12 and times < 1e6:
        times *= 10
    shown = max(-length, min(length, lean * times if abs(lean * times) < length / 1.5 else lean * times / 10))
    drawn_times = shown / lean if lean else 1.0
    up = max(width * 0.3, (width**2 - min(shown, width * 0.9) ** 2) ** 0.5)
    title = f"Frame of {number_text(length, 6)} x {number_text(width, 6)} mm"
    says = (
        f"{title}: square it has diagonals of {number_of(result, 'square_diagonal'):.2f} mm. Its corner is "
        f"{number_text(number_of(result, 'corner'), 6)} degrees; the far side stands over {lean:.2f} mm."
    )
    frame: list[Point] = [(0, 0), (length, 0), (length + shown, up), (shown, up)]

    def draw(sheet: float) -> str:
        bounds = (min(0.0, shown), 0.0, max(length, length + shown), max(width, up))
        sketch = Sketch(bounds, sheet, sides_mm=(14, 14), tallest_mm=75)
        sketch.shape([[(0, 0), (length, 0), (length, width), (0, width)]], "hidden")
        sketch.shape([frame])
        sketch.shape([[frame[1], frame[3]]], "dimension", closed=False)
        sketch.shape([[frame[0], frame[2]]], "dimension", closed=False)
        sketch.note(
            (length * 0.72 + shown * 0.28, up * 0.28), number_text(given.mm("diagonal"), 6), dot=False
        )
        other = given.mm_or_none("other_diagonal")
        if other is not None:
            sketch.note((length * 0.28 + shown * 0.28, up * 0.28), number_text(other, 6), dot=False)
        sketch.across((0, 0), (length, 0), number_text(length, 6), 7)
        if lean:
            sketch.below(
                f"over by {abs(lean):.2f} mm" + (f", drawn {drawn_times:g} times" if drawn_times > 1 else "")
            )
        else:
            sketch.below("square")
        return sketch.svg(title=title, description=says)

    return (two_widths(title, draw, says),)


def draw_polygon(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw the polygon with the circles within and about it.

    Args:
        given: the inputs as read.
        result: what was worked out of them.

    Returns:
        One picture.

    Source: this project.
    """
    sides = given.integer("sides")
    flats, corners, side = (number_of(result, name) for name in ("across_flats", "across_corners", "side"))
    r = corners / 2
    turn = -90 + 180 / sides
    points = [
        (r * cos(radians(turn + 360 * i / sides)), r * sin(radians(turn + 360 * i / sides)))
        for i in range(sides)
    ]
    f, c, s = (number_text(value, 5) for value in (flats, corners, side))
    title = f"Polygon of {sides} sides of {s} mm"
    says = (
        f"{title}: {f} mm across flats, {c} mm across corners; each corner has {180 - 360 / sides:g} degrees."
    )

    def draw(sheet: float) -> str:
        sketch = Sketch((-r, -r, r, r), sheet, sides_mm=(24, 24), tallest_mm=80)
        sketch.shape([round_line((0, 0), r)], "centre")
        sketch.shape([points], fill=STEEL)
        sketch.shape([round_line((0, 0), flats / 2)], "hidden")
        sketch.cross((0, 0), 2)
        first, last = points[-1], points[0]
        ends = (first, last) if abs(first[1] - last[1]) < 1e-6 * r else (points[0], points[1])
        sketch.across(ends[0], ends[1], f"side {s}", 7)
        sketch.below(f"flats {f} (circle within), corners {c} (circle about)")
        return sketch.svg(title=title, description=says)

    return (two_widths(title, draw, says),)
