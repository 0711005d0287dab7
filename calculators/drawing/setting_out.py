"""Pictures of what is set out: holes on a circle, in rows, and the curve of an arc."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence

from calculators.calculation import Given, Picture, Result
from calculators.calculation.result import number_text
from calculators.drawing.sketch import Sketch, round_line
from calculators.drawing.svg import RED_WASH, STEEL, Point
from calculators.geometry.positions import read_point

BROAD_MM, NARROW_MM = 170.0, 90.0


def two_widths(title: str, draw: Callable[[float], str], caption: str = "") -> Picture:
    """Make a picture of a drawing for a broad page and for a narrow one.

    Args:
        title: what it is.
        draw: draws it for a width [mm].
        caption: what is to be seen in it, in a sentence.

    Returns:
        The picture.

    Source: this project.
    """
    return Picture(title, draw(BROAD_MM), draw(NARROW_MM), caption)


def points_of(result: Result, name: str = "positions") -> list[Point]:
    """The points x, y of a result that is a list of places.

    Args:
        result: what a calculator answered.
        name: which of its results.

    Returns:
        The points [mm].

    Source: this project.
    """
    value = result.results[name].value
    assert isinstance(value, Sequence)
    return [(float(str(one["x"])), float(str(one["y"]))) for one in value if isinstance(one, Mapping)]


def number_of(result: Result, name: str) -> float:
    """A result that is a number.

    Args:
        result: what a calculator answered.
        name: which of its results.

    Returns:
        The number, in the result's unit.

    Source: this project.
    """
    value = result.results[name].value
    assert isinstance(value, int | float), name
    return float(value)


_MOST_NUMBERED = 24


def draw_circle(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw holes on their pitch circle, numbered, with the chord and the places of the first few.

    Args:
        given: the inputs as read.
        result: what was worked out of them.

    Returns:
        One picture.

    Source: this project.
    """
    centre = read_point(given.text("centre"), field="centre")
    points, diameter, count = points_of(result), given.mm("diameter"), given.integer("count")
    hole = given.mm_or_none("hole") or diameter / 40
    title = f"{count} holes on a circle of {number_text(diameter)} mm"
    chord = number_of(result, "chord")
    listed = "; ".join(f"{i}: x {x:.2f}, y {y:.2f}" for i, (x, y) in enumerate(points[:12], 1))
    says = f"{title}. From hole to hole {chord:.2f} mm in a straight line. In mm from the datum: {listed}."
    clash = chord <= hole

    def draw(width: float) -> str:
        reach = diameter / 2 + hole / 2
        bounds = (centre[0] - reach, centre[1] - reach, centre[0] + reach, centre[1] + reach)
        sketch = Sketch(bounds, width, sides_mm=(14, 14), tallest_mm=95)
        sketch.shape([round_line(centre, diameter / 2)], "centre")
        sketch.cross(centre, 4)
        at = (centre[0] + 5 / sketch.scale, centre[1] - 3.4 / sketch.scale)
        sketch.label(at, f"x {number_text(centre[0], 5)}, y {number_text(centre[1], 5)}", anchor="start")
        _holes(sketch, points, hole, clash=clash)
        _numbers(sketch, points, centre, hole)
        sketch.shape([points[:2]], "dimension", closed=False)
        middle = ((points[0][0] + points[1][0]) / 2, (points[0][1] + points[1][1]) / 2)
        sketch.note(middle, f"{chord:.2f} mm", wrong=clash)
        return sketch.svg(title=title, description=says)

    return (two_widths(title, draw, f"Set the dividers to {chord:.2f} mm and step off; check across."),)


def _holes(sketch: Sketch, points: Sequence[Point], hole: float, *, clash: bool) -> None:
    for point in points:
        sketch.circle(point, hole / 2, "finding" if clash else "outline", RED_WASH if clash else STEEL)
        if hole * sketch.scale > 2.5:
            sketch.cross(point, hole / 2 * sketch.scale + 1.2)


def draw_hole_fit(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw the screw in its hole with the zone that its centre may lie in, and the square within the zone.

    Args:
        given: the inputs as read.
        result: what was worked out of them.

    Returns:
        One picture.

    Source: this project.
    """
    hole, screw, zone, each = (
        number_of(result, name) for name in ("hole_diameter", "screw_diameter", "position_zone", "each_way")
    )
    wrong = result.results["always_goes"].value is False
    h, f = number_text(hole, 5), number_text(screw, 5)
    title = f"Screw of {f} mm in a hole of {h} mm, {given.text('fixing')}"
    error = given.mm("setting_error")
    says = (
        f"{title}. Each centre may lie in a circle of {zone:.3f} mm, which is {each:.3f} mm either way in x "
        f"and in y at once. As set out it may be {number_text(error, 4)} mm off either way."
    )
    # The zone is small beside the hole: it is drawn larger beside it, with what the setting out makes of it.
    times = 0.8 * hole / max(zone, 2.83 * error)
    middle = 1.5 * hole

    def draw(width: float) -> str:
        half = hole / 2
        sketch = Sketch((-half, -half, 2 * hole, half), width, sides_mm=(12, 12), tallest_mm=70)
        sketch.circle((0, 0), half)
        sketch.circle((0, 0), screw / 2, "edge", STEEL)
        sketch.circle((0, 0), zone / 2, "dimension")
        sketch.cross((0, 0), half * sketch.scale + 2)
        sketch.shape([round_line((middle, 0), times * zone / 2)], "dimension")
        for size, line in ((times * each, "hidden"), (times * error, "finding" if wrong else "outline")):
            corners = [(-size, -size), (size, -size), (size, size), (-size, size)]
            sketch.shape([[(middle + x, y) for x, y in corners]], line)
        sketch.across((middle - times * error, 0), (middle + times * error, 0),
                      f"± {number_text(error, 4)} as set out", 7, wrong=wrong)  # fmt: skip
        sketch.across((middle - times * each, 0), (middle + times * each, 0), f"± {each:.3f} allowed", -4)
        sketch.below(
            f"hole {h}, screw {f}; at the right the zone of the centre, {number_text(times, 3)} times"
        )
        return sketch.svg(title=title, description=says)

    return (two_widths(title, draw, says),)


def _numbers(sketch: Sketch, points: list[Point], centre: Point, hole: float) -> None:
    """Number the holes outside of the circle; of very many only every so many."""
    every = math.ceil(len(points) / _MOST_NUMBERED)
    for place, (x, y) in enumerate(points):
        if place % every:
            continue
        away = math.dist((x, y), centre)
        off = hole / 2 + 0.85 * sketch.letter / sketch.scale
        part = (away + off) / away if away else 1.0
        at = (centre[0] + (x - centre[0]) * part, centre[1] + (y - centre[1]) * part)
        sketch.label(at, str(place + 1))
