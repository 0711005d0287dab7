"""Section hatching by material, as lines clipped to the area (no patterns, which would need names)."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Literal

from calculators.drawing.svg import LINES, Point, number, path

Manner = Literal["metal", "wood", "end grain", "sheet wood", "plastic", "glass", "other"]
Ring = Sequence[Point]


def hatch(rings: Sequence[Ring], manner: Manner, turn: int = 0, *, closer: float = 1.0) -> str:
    """Hatch an area in the manner of its material.

    Metal: thin lines at 45 degrees, the other way in each next part and a little closer. Wood: wavy lines
    along the grain. Sheet wood: straight lines along the plies. Plastic: crossed. Glass: short oblique
    strokes in threes. Anything else: wide lines at 45 degrees.

    Args:
        rings: the outline of the area and of what is cut out of it [mm on the sheet].
        manner: the material's manner.
        turn: the number of the part, so that neighbours differ.
        closer: a factor on the spacing.

    Returns:
        The element, or nothing where the area is too thin.

    Source: ISO 128-50 as to direction and neighbours (from memory); manners of wood, plastic and glass
    common practice.
    """
    way = 45.0 if turn % 2 == 0 else 135.0
    gap = (2.6 + 0.5 * ((turn // 2) % 2)) * closer
    if manner == "wood" or manner == "end grain":
        segments = clipped(rings, 90.0 if manner == "end grain" else 0.0, 2.9 * closer)
        return _waves(segments)
    if manner == "sheet wood":
        return path(clipped(rings, 0.0, 1.5 * closer), "grain", closed=False)
    if manner == "plastic":
        crossed = clipped(rings, 45.0, 3.4 * closer) + clipped(rings, 135.0, 3.4 * closer)
        return path(crossed, "hatch", closed=False)
    if manner == "glass":
        strokes = [piece for line in clipped(rings, 45.0, 3.5 * closer) for piece in _strokes(*line)]
        return path(strokes, "hatch", closed=False)
    return path(clipped(rings, way, gap if manner == "metal" else 4.2 * closer), "hatch", closed=False)


def clipped(rings: Sequence[Ring], angle_deg: float, gap_mm: float) -> list[tuple[Point, Point]]:
    """Return the pieces of evenly spaced parallel lines that lie in an area.

    Args:
        rings: the outline of the area and of what is cut out of it [mm].
        angle_deg: the direction of the lines, anticlockwise from the right [deg].
        gap_mm: the distance between them [mm], above 0.

    Returns:
        The end points of each piece [mm].

    Source: this project (even-odd rule).

    Example:
        >>> clipped([[(0, 0), (4, 0), (4, 4), (0, 4)]], 0, 3)
        [((0.0, 3.0), (4.0, 3.0))]
    """
    c, s = math.cos(math.radians(angle_deg)), -math.sin(math.radians(angle_deg))
    if angle_deg == 90.0:
        c = 0.0
    turned = [[(x * c + y * s, y * c - x * s) for x, y in ring] for ring in rings]
    pieces = []
    for level, crossings in _crossings(turned, gap_mm):
        for first, last in zip(crossings[::2], crossings[1::2], strict=False):
            if last - first > 0.2:
                ends = (
                    (first * c - level * s, first * s + level * c),
                    (last * c - level * s, last * s + level * c),
                )
                pieces.append(ends)
    return pieces


def _crossings(rings: Sequence[Ring], gap: float) -> Iterator[tuple[float, list[float]]]:
    """The levels, upward, with where the rings cross each; an edge looks only at its own levels."""
    found: dict[int, list[float]] = {}
    heights = [y for ring in rings for _, y in ring]
    first, last = (math.floor(min(heights) / gap) + 1, math.ceil(max(heights) / gap)) if heights else (0, 0)
    for ring in rings:
        for (ax, ay), (bx, by) in zip(ring, [*ring[1:], ring[0]], strict=True):
            low, high = (ay, by) if ay < by else (by, ay)
            for step in range(max(first, math.floor(low / gap)), min(last, math.ceil(high / gap) + 1)):
                level = step * gap
                if (ay > level) != (by > level):
                    found.setdefault(step, []).append(ax + (bx - ax) * (level - ay) / (by - ay))
    for step in sorted(found):
        yield step * gap, sorted(found[step])


def _waves(segments: Sequence[tuple[Point, Point]]) -> str:
    """Draw each piece as a soft wave, which stays within the piece's ends."""
    data = []
    for index, ((ax, ay), (bx, by)) in enumerate(segments):
        length = math.hypot(bx - ax, by - ay)
        half_waves = int(length // 2.4)
        if half_waves < 1:
            continue
        ux, uy = (bx - ax) / length, (by - ay) / length
        step = length / half_waves
        swing = 0.55 if index % 2 else -0.55
        bend = f"{number(ux * step / 2 - uy * swing)} {number(uy * step / 2 + ux * swing)}"
        along = f"{number(ux * step)} {number(uy * step)}"
        data.append(f"M{number(ax)} {number(ay)}q{bend} {along}" + f"t{along}" * (half_waves - 1))
    return f'<path class="grain" d="{"".join(data)}" fill="none" {LINES["grain"]}/>' if data else ""


def _strokes(start: Point, end: Point) -> list[tuple[Point, Point]]:
    length = math.hypot(end[0] - start[0], end[1] - start[1])
    strokes = []
    at = 1.0
    while at + 1.5 < length:
        (x, y), (ux, uy) = start, ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
        strokes.append(((x + ux * at, y + uy * at), (x + ux * (at + 1.5), y + uy * (at + 1.5))))
        at += 5.0
    return strokes
