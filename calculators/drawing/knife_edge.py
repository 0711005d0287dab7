"""A knife edge in its V, at true angles: in the middle, and dashed where its flank lies on the V."""

from __future__ import annotations

import math

from calculators.calculation.picture import Picture
from calculators.calculation.result import number_text
from calculators.drawing.chart import BROAD_MM, NARROW_MM
from calculators.drawing.sketch import Sketch
from calculators.drawing.svg import PAPER, STEEL, Point

_REACH = 34.0


def knife_edge_picture(
    angles_deg: tuple[float, float, float],
    flanks_deg: tuple[float, float],
    stops_deg: tuple[float | None, float | None],
) -> Picture:
    """Draw a knife edge in its V.

    Args:
        angles_deg: [deg] included angle of the edge and of the V, and the angle of the lever at which the
            edge stands in the middle.
        flanks_deg: [deg] the clockwise and the anticlockwise angle at which a flank lies on the V.
        stops_deg: [deg] the angles of the stops, None where there is none.

    Returns:
        The picture, for a broad page and a narrow one.

    Source: this project; lines of ISO 128 (from memory).
    """
    title = f"A {number_text(angles_deg[0])} deg edge in a {number_text(angles_deg[1])} deg V"
    broad, narrow = (_drawn(angles_deg, flanks_deg, stops_deg, w, title) for w in (BROAD_MM, NARROW_MM))
    return Picture(title, broad, narrow, "At true angles: as drawn, and dashed where a flank lies on the V.")


def _wedge(middle_deg: float, included_deg: float, reach: float) -> list[Point]:
    """A wedge with its point at the origin, opening upward about an angle from straight up."""
    return [
        (-reach * math.sin(math.radians(each)), reach * math.cos(math.radians(each)))
        for each in (middle_deg - included_deg / 2, middle_deg + included_deg / 2)
    ]


def _drawn(
    angles_deg: tuple[float, float, float],
    flanks_deg: tuple[float, float],
    stops_deg: tuple[float | None, float | None],
    width: float,
    title: str,
) -> str:
    edge, v_angle, lean = angles_deg
    bed = _wedge(0.0, v_angle, 0.8 * _REACH)
    side = max(
        abs(bed[0][0]) + 6.0, 0.7 * _REACH, *(abs(x) for at in flanks_deg for x, _ in _ring(at - lean, edge))
    )
    top = max(bed[0][1], 0.0)
    sketch = Sketch((-side, -9.0, side, _REACH), width, sides_mm=(14, 14), tallest_mm=0.5 * width)
    right = max(bed, key=lambda one: one[0])
    left = min(bed, key=lambda one: one[0])
    block = [(side, top), right, (0.0, 0.0), left, (-side, top), (-side, -9.0), (side, -9.0)]
    sketch.shape([block], "outline", fill=STEEL)
    sketch.shape([_ring(-lean, edge)], "outline", fill=PAPER)
    for flank in flanks_deg:
        sketch.shape([_ring(flank - lean, edge)], "hidden")
    sketch.label((0.0, 0.55 * _REACH), f"{number_text(edge)} deg")
    sketch.label((0.0, -5.0), f"V {number_text(v_angle)} deg")
    words = [
        f"A flank lies on the V at {number_text(flanks_deg[0], 3)} and {number_text(flanks_deg[1], 3)} deg."
    ]
    sketch.below(words[0])
    for stop, flank, way in zip(stops_deg, flanks_deg, ("clockwise", "anticlockwise"), strict=True):
        if stop is not None:
            late = abs(stop) > abs(flank)
            says = f"Stop {way} at {number_text(stop, 3)} deg{', after the flank' if late else ''}."
            sketch.below(says, ink="finding" if late else "soft")
            words.append(says)
    return sketch.svg(title=title, description=" ".join(words))


def _ring(middle_deg: float, edge_deg: float) -> list[Point]:
    first, last = _wedge(middle_deg, edge_deg, _REACH)
    return [first, (0.0, 0.0), last]
