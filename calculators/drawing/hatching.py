"""Section hatching by material, as lines clipped to the area (no patterns, which would need names)."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Literal

from calculators.drawing.svg import LINES, Point, number, path

Manner = Literal[
    "metal",
    "wood",
    "wood upright",
    "end grain",
    "sheet wood",
    "sheet wood upright",
    "plastic",
    "glass",
    "other",
]
"""`wood` has its grain from side to side, `wood upright` up the drawing, `end grain` is cut square across."""
Ring = Sequence[Point]


def hatch(rings: Sequence[Ring], manner: Manner, turn: int = 0, *, closer: float = 1.0) -> str:
    """Hatch an area in the manner of its material.

    Metal: thin lines at 45 degrees, the other way in each next part and a little closer. Wood: wavy lines
    along the grain; end grain: the arcs of yearly rings. Sheet wood: straight lines along the plies.
    Plastic: crossed. Glass: short oblique strokes in threes. Anything else: wide lines at 45 degrees.

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
    if manner == "wood" or manner == "wood upright":
        return _waves(clipped(rings, 0.0 if manner == "wood" else 90.0, 2.9 * closer))
    if manner == "end grain":
        return _arcs(rings, 2.2 * closer)
    if manner == "sheet wood" or manner == "sheet wood upright":
        return path(
            clipped(rings, 0.0 if manner == "sheet wood" else 90.0, 1.5 * closer), "grain", closed=False
        )
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


def _arcs(rings: Sequence[Ring], gap: float) -> str:
    """Draw yearly rings: the stretches, within the area, of circles about a heart below it."""
    points = [point for ring in rings for point in ring]
    if not points:
        return ""
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    low, high = min(y for _, y in points), max(y for _, y in points)
    # The heart lies outside the area, so that each circle has a stretch outside it to begin from.
    heart = ((left + right) / 2, high + max((right - left) / 2, high - low, gap) * 0.75)
    most = max(math.dist(heart, point) for point in points)
    data = []
    for step in range(1, math.ceil(most / gap)):
        radius = step * gap
        if heart[1] - radius > high:
            continue
        angles = sorted(_angles(rings, heart, radius))
        if len(angles) % 2:  # it only touches a corner: this one ring is left out
            continue
        for first, last in zip(angles[::2], angles[1::2], strict=False):
            if radius * (last - first) > 0.4:
                start, end = (
                    (heart[0] + radius * math.sin(a), heart[1] - radius * math.cos(a)) for a in (first, last)
                )
                to = f"{number(end[0])} {number(end[1])}"
                data.append(
                    f"M{number(start[0])} {number(start[1])}A{number(radius)} {number(radius)} 0 0 1 {to}"
                )
    return f'<path class="grain" d="{"".join(data)}" fill="none" {LINES["grain"]}/>' if data else ""


def _angles(rings: Sequence[Ring], heart: Point, radius: float) -> Iterator[float]:
    """Where a circle crosses the edges, as angles from straight up [rad]; the heart lies below them all."""
    for ring in rings:
        moved = [(x - heart[0], y - heart[1]) for x, y in ring]
        for (ax, ay), (bx, by) in zip(moved, [*moved[1:], moved[0]], strict=True):
            dx, dy = bx - ax, by - ay
            a, b, c = dx * dx + dy * dy, ax * dx + ay * dy, ax * ax + ay * ay - radius * radius
            under = b * b - a * c
            if a <= 0 or under <= 0:
                continue
            for root in (-1, 1):
                t = (-b + root * math.sqrt(under)) / a
                if 0 <= t < 1:
                    yield math.atan2(ax + t * dx, -(ay + t * dy))


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
