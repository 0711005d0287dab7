"""The picture of bent sheet in section, and of the flat strip with its bend lines."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import cos, radians, sin

from calculators.calculation import Given, Picture, Result
from calculators.calculation.result import number_text
from calculators.drawing.setting_out import number_of, two_widths
from calculators.drawing.sketch import Sketch
from calculators.drawing.svg import Point

_ARC_STEPS = 24


def draw_bends(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw the section to scale and under it the flat strip with where each bend begins and ends.

    Args:
        given: the inputs as read.
        result: what was worked out of them.

    Returns:
        A picture of the section and, where the legs are known, one of the flat strip.

    Source: this project.
    """
    t = given.mm("thickness")
    rows = given.rows("legs")
    if rows:
        spans = _spans(result)
        flat = number_of(result, "flat_length")
        edges = [0.0, *(edge for span in spans for edge in span), flat]
        straights = [edges[i + 1] - edges[i] for i in range(0, len(edges), 2)]
    else:
        straights = [max(6 * t, 2 * given.mm("radius"))] * 2
    bends = [
        (
            row.number_or_none("angle") or given.number("angle"),
            given.mm("radius") if row.mm_or_none("radius") is None else row.mm("radius"),
            1 if row.get("way") != "down" else -1,
        )
        for row in (rows[:-1] or (Given({}),))
    ]
    outline = _section(straights, bends, t)
    section = _section_picture(given, result, outline, bends[0])
    return (section, *([_flat_picture(flat, spans)] if rows else []))


def _spans(result: Result) -> list[tuple[float, float]]:
    value = result.results["bend_lines"].value
    assert isinstance(value, Sequence)
    return [(float(str(one["begins"])), float(str(one["ends"]))) for one in value if isinstance(one, Mapping)]


def _section(straights: Sequence[float], bends: Sequence[tuple[float, float, int]], t: float) -> list[Point]:
    """The outline of the bent strip: along its lower face and back along its upper one."""
    x, y, heading = 0.0, 0.0, 0.0
    lower: list[Point] = [(0.0, 0.0)]
    upper: list[Point] = [(0.0, t)]
    for place, straight in enumerate(straights):
        x, y = x + straight * cos(heading), y + straight * sin(heading)
        lower.append((x, y))
        upper.append((x - t * sin(heading), y + t * cos(heading)))
        if place == len(bends):
            break
        angle, radius, way = bends[place]
        # Upwards the centre lies beyond the upper face by the inside radius, downwards beyond the lower.
        off = t + radius if way > 0 else -radius
        cx, cy = x - off * sin(heading), y + off * cos(heading)
        for step in range(1, _ARC_STEPS + 1):
            turned = heading + way * radians(angle) * step / _ARC_STEPS
            lower.append((cx + off * sin(turned), cy - off * cos(turned)))
            inner = off - t
            upper.append((cx + inner * sin(turned), cy - inner * cos(turned)))
        heading += way * radians(angle)
        x, y = lower[-1]
    return [*lower, *reversed(upper)]


def _section_picture(
    given: Given, result: Result, outline: list[Point], first: tuple[float, float, int]
) -> Picture:
    t, r, a = (number_text(value, 5) for value in (given.mm("thickness"), first[1], first[0]))
    k = number_of(result, "k_factor")
    title = f"Bend of {a} degrees in {t} mm sheet, inside radius {r} mm"
    says = (
        f"{title}. The neutral line lies {number_text(k, 3)} of the thickness from the inside; "
        f"{number_of(result, 'allowance'):.3f} mm of sheet go into the bend."
    )
    xs, ys = [p[0] for p in outline], [p[1] for p in outline]
    bounds = (min(xs), min(ys), max(xs), max(ys))
    rows = given.rows("legs")

    def draw(sheet: float) -> str:
        sketch = Sketch(bounds, sheet, sides_mm=(20, 24), tallest_mm=75)
        sketch.shape([outline], manner="metal")
        if len(rows) == 2 and given.number("angle") == 90 and rows[0].get("angle") is None:
            sketch.across(
                (bounds[0], bounds[1]), (bounds[2], bounds[1]), number_text(rows[0].mm("length"), 5), 7
            )
            sketch.upward(
                (bounds[2], bounds[1]), (bounds[2], bounds[3]), number_text(rows[1].mm("length"), 5), 6
            )
        sketch.below(f"inside radius {r}, sheet {t}, {number_of(result, 'allowance'):.2f} mm in the bend")
        return sketch.svg(title=title, description=says)

    return two_widths(title, draw, says)


def _flat_picture(flat: float, spans: Sequence[tuple[float, float]]) -> Picture:
    title = f"Flat strip of {number_text(flat, 5)} mm"
    listed = "; ".join(f"bend {i} from {a:.2f} to {b:.2f}" for i, (a, b) in enumerate(spans, 1))
    says = f"{title}. From its first edge in mm: {listed}."
    high = flat / 7

    def draw(sheet: float) -> str:
        sketch = Sketch((0, 0, flat, high), sheet, sides_mm=(9, 9), tallest_mm=40)
        for a, b in spans:
            sketch.shape([[(a, 0), (b, 0), (b, high), (a, high)]], "none", fill="#dde5e8")
            sketch.shape([[(x, 0), (x, high)] for x in (a, b)], "thin", closed=False)
            middle = (a + b) / 2
            sketch.shape([[(middle, 0), (middle, high)]], "centre", closed=False)
        sketch.shape([[(0, 0), (flat, 0), (flat, high), (0, high)]])
        places = [(a + b) / 2 for a, b in spans] + [flat]
        figures = [f"{place:.1f}" for place in places]
        room = min(b - a for a, b in zip([0.0, *places], places, strict=False)) * sketch.scale
        sketch.running([0.0, *places], ["0", *figures], turned=room < 3.4 * sketch.letter)
        return sketch.svg(title=title, description=says)

    return two_widths(title, draw, "The middle of each bend is dotted; it begins and ends at the thin lines.")
