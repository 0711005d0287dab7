"""The picture of an arc over its chord, with the ordinates that it is marked by."""

from __future__ import annotations

from itertools import pairwise
from math import ceil, hypot

from calculators.calculation import Given, Picture, Result
from calculators.calculation.result import number_text
from calculators.drawing.lettering import text_width
from calculators.drawing.setting_out import number_of, points_of, two_widths
from calculators.drawing.sketch import Sketch, round_line


def draw_arc(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw the curve over its chord with its ordinates and height.

    Args:
        given: the inputs as read.
        result: what was worked out of them.

    Returns:
        One picture.

    Source: this project.
    """
    chord, height, radius, angle = (
        number_of(result, name) for name in ("chord", "arc_height", "arc_radius", "arc_angle")
    )
    stations = points_of(result, "ordinates")
    centre = (chord / 2, height - radius)
    curve = round_line(centre, radius, 90 + angle / 2, 90 - angle / 2)
    # A flat arc of a large radius: five-degree steps would leave too few points.
    if len(curve) < 40 and stations:
        steps = [i / 80 for i in range(81)]
        curve = [_on(chord, height, radius, part) for part in steps] if height <= radius else curve
    left, right = min(0.0, *(x for x, _ in curve)), max(chord, *(x for x, _ in curve))
    r, c, h = (number_text(value, 5) for value in (radius, chord, height))
    title = f"Arc of {r} mm radius over a chord of {c} mm"
    listed = "; ".join(f"at {x:.1f}, {y:.2f}" for x, y in stations[:21])
    says = f"{title}, {h} mm high. Ordinates in mm from the one end of the chord: {listed}."

    def draw(sheet: float) -> str:
        sketch = Sketch((left, 0, right, height), sheet, sides_mm=(10, 20), tallest_mm=90)
        sketch.shape([[(0, 0), (chord, 0)]], "edge", closed=False)
        sketch.shape([curve], closed=False)
        inner = stations[1:-1]
        sketch.shape([[(x, 0), (x, y)] for x, y in inner], "dimension", closed=False)
        room = min(b[0] - a[0] for a, b in pairwise(stations)) * sketch.scale
        every = max(1, ceil((text_width("000.0", sketch.letter) + 1.5) / room))
        for place, (x, y) in enumerate(inner, 1):
            # Counted from the middle, whose figure matters most.
            if (place - len(stations) // 2) % every == 0:
                inside = y * sketch.scale > 3 * sketch.letter
                at = (x, y / 2) if inside else (x, y + 0.9 * sketch.letter / sketch.scale)
                sketch.label(at, f"{y:.1f}", ink="dimension")
        sketch.upward((right, 0), (chord / 2, height), h, 4)
        sketch.across((0, 0), (chord, 0), c, 7)
        sketch.below(f"R {r} mm")
        return sketch.svg(title=title, description=says)

    return (two_widths(title, draw, "Spring a batten through the marks, or swing the radius."),)


def _on(chord: float, height: float, radius: float, part: float) -> tuple[float, float]:
    off = chord * (part - 0.5)
    deep = max(0.0, (radius - off) * (radius + off)) ** 0.5
    x, y = off + chord / 2, height - off * off / max(radius + deep, 1e-12)
    return (x, max(0.0, y)) if hypot(x, y) >= 0 else (x, 0.0)
