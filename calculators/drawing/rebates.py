"""The picture of a recess's corner with the part in it, the overlap in red."""

from __future__ import annotations

from math import hypot

from calculators.calculation import Given, Picture, Result
from calculators.calculation.result import number_text
from calculators.drawing.setting_out import number_of, two_widths
from calculators.drawing.sketch import Sketch, round_line
from calculators.drawing.svg import RED_WASH, STEEL, Point
from calculators.geometry.recesses import Plate, read_plate


def draw_rebate(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw one corner to scale: the recess as cut, the part, and where they meet.

    Args:
        given: the inputs as read.
        result: what was worked out of them.

    Returns:
        One picture.

    Source: this project.
    """
    plate = read_plate(given.text("part"), field="part")
    radius, clear = given.mm("cutter") / 2, given.mm("clearance")
    overlap = number_of(result, "overlap")
    reach = 1.7 * max(radius, plate.corner_mm + clear, 6 * clear)
    wall = 0.35 * reach
    title = f"Corner of the recess with a {number_text(given.mm('cutter'), 5)} mm cutter"
    seats = f"clears the corner by {-overlap:.2f} mm"
    if overlap > 0:
        seats = f"overlaps the corner by {overlap:.2f} mm"
    says = (
        f"{title}: its radius is {number_text(radius, 5)} mm. The part, with corners of "
        f"{number_text(plate.corner_mm, 5)} mm radius and {number_text(clear, 5)} mm of clearance on each "
        "side, "
        f"{seats} along the diagonal."
    )
    recess = [(0.0, reach), *round_line((radius, radius), radius, 180, 270), (reach, 0.0)]
    part = _part(plate, clear, reach)
    bite = _bite(radius, plate, clear) if overlap > 0 else []

    def draw(sheet: float) -> str:
        sketch = Sketch((-wall, -wall, reach, reach), sheet, sides_mm=(14, 26), tallest_mm=80)
        sketch.shape([[(-wall, reach), *recess, (reach, -wall), (-wall, -wall)]], "none", manner="wood")
        sketch.shape([part], "none", fill=STEEL)
        if bite:
            sketch.shape([bite], "none", fill=RED_WASH)
        sketch.shape([recess], "outline", closed=False)
        sketch.shape([part[:-1]], "edge", closed=False)
        if bite:
            sketch.shape([bite], "finding")
            sketch.note(_middle(bite), f"{overlap:.2f} mm too much", wrong=True)
        off = radius * (1 - 0.5**0.5)
        sketch.note((off, off) if not bite else (0.0, radius * 1.35), f"cut R {number_text(radius, 5)}")
        tip = clear + plate.corner_mm
        sketch.note(
            (reach * 0.8, reach * 0.8), f"part, corner r {number_text(plate.corner_mm, 5)}", dot=False
        )
        if tip > 0 and clear > 0:
            sketch.below(f"{number_text(clear, 5)} mm clearance on each side")
        return sketch.svg(title=title, description=says)

    return (two_widths(title, draw, f"The part {seats} on the diagonal."),)


def _part(plate: Plate, clear: float, reach: float) -> list[Point]:
    r = plate.corner_mm
    corner = round_line((clear + r, clear + r), r, 180, 270) if r > 0 else [(clear, clear)]
    return [(clear, reach), *corner, (reach, clear), (reach, reach)]


def _bite(radius: float, plate: Plate, clear: float) -> list[Point]:
    """The piece of the part that lies in the wood of the corner: outside of the cutter's round."""
    r, steps = plate.corner_mm, 120
    edge = [(clear, clear + r + radius * i / steps) for i in range(steps, 0, -1)]
    edge += round_line((clear + r, clear + r), r, 180, 270) if r > 0 else [(clear, clear)]
    edge += [(clear + r + radius * i / steps, clear) for i in range(1, steps + 1)]
    outside = [
        (x, y) for x, y in edge if x < radius and y < radius and hypot(x - radius, y - radius) > radius
    ]
    if len(outside) < 2:
        return []
    back = [_on_round(point, radius) for point in reversed(outside)]
    return [*outside, *back]


def _on_round(point: Point, radius: float) -> Point:
    away = hypot(point[0] - radius, point[1] - radius)
    return (radius + (point[0] - radius) * radius / away, radius + (point[1] - radius) * radius / away)


def _middle(points: list[Point]) -> Point:
    return (sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points))
