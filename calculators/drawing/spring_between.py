"""A coil spring between two points of a mechanism, at its length there: open, closed, slack or apart."""

from __future__ import annotations

import math
from collections.abc import Sequence

from calculators.drawing.sketch import Sketch
from calculators.drawing.svg import PAPER, RED_WASH, STEEL, Point
from calculators.mechanics.pivot.model import Spring

TURNS = 14
"""How many turns are drawn: the real number is not known to a lever's calculation."""
_HOOK = 0.15
"""Each hook or lead of the free length; what is between them is closed turns in a free extension spring."""


def coil_run(spring: Spring, length_mm: float) -> tuple[float, float, float]:
    """Return where the turns of a spring begin and end between its points, and how thick its wire is drawn.

    The turns of an extension spring touch until it is longer than its free length; those of a compression
    spring touch at its solid length, and beyond its free length it stands apart from the lever.

    Args:
        spring: the spring.
        length_mm: the distance between its points [mm], 0 or more.

    Returns:
        The beginning and the end of the turns, from the lever's point [mm], and the wire's thickness [mm].

    Source: this project (drawn by proportion: hooks 0.15 of the free length, fourteen turns).

    Example:
        >>> from calculators.mechanics.pivot.model import Spring
        >>> [round(each, 2) for each in coil_run(Spring(0, 0, 0, 80, 1.0, 40.0), 80.0)]
        [6.0, 74.0, 2.0]
    """
    free = spring.free_length_mm
    if spring.kind == "extension":
        wire = free * (1 - 2 * _HOOK) / TURNS
        body = wire * TURNS + max(length_mm - free, 0.0)
        lead = max((length_mm - body) / 2, 0.0)
        return lead, length_mm - lead, min(wire, (length_mm - 2 * lead) / TURNS)
    if spring.kind == "compression":
        solid = spring.solid_mm if spring.solid_mm is not None else 0.45 * free
        start = max(length_mm - free, 0.0)
        return start, length_mm, min(solid, length_mm - start) / TURNS
    lead = 0.1 * min(free, length_mm)
    return lead, length_mm - lead, min(0.35 * free, length_mm - 2 * lead) / TURNS


def draw_spring(sketch: Sketch, start: Point, anchor: Point, spring: Spring, *, wrong: bool = False) -> None:
    """Draw a spring between two points with its centre line, its leads, its turns and its anchor.

    Args:
        sketch: the drawing.
        start: its point on the lever [mm].
        anchor: its anchor [mm].
        spring: the spring.
        wrong: whether it is marked in red, as one that is solid or at its longest.

    Source: ISO 2162-1 (springs in simplified view; from memory); this project.
    """
    length = math.dist(start, anchor)
    if length < 1e-9:
        return
    along = ((anchor[0] - start[0]) / length, (anchor[1] - start[1]) / length)
    near, far, wire = coil_run(spring, length)
    half = min(max(0.11 * spring.free_length_mm * sketch.scale, 1.3), 3.2) / sketch.scale

    def placed(points: Sequence[Point]) -> list[Point]:
        return [
            (start[0] + s * along[0] - r * along[1], start[1] + s * along[1] + r * along[0])
            for s, r in points
        ]

    sketch.shape([[start, anchor]], "finding" if wrong else "centre", closed=False)
    leads = [[(0.0, 0.0), (near, 0.0)], [(far, 0.0), (length, 0.0)]]
    if spring.kind != "compression":
        sketch.shape([placed(lead) for lead in leads if lead[1][0] - lead[0][0] > 1e-6], "edge", closed=False)
    pitch = (far - near) / TURNS
    rise = max(pitch - wire, 0.0)
    backs = [
        placed([(near + i * pitch + wire / 2 + rise / 2, half), (near + (i + 1) * pitch + wire / 2, -half)])
        for i in range(TURNS - 1)
    ]
    sketch.shape(backs, "thin", closed=False)
    for i in range(TURNS):
        at = near + i * pitch
        front = [(at, -half), (at + wire, -half), (at + wire + rise / 2, half), (at + rise / 2, half)]
        sketch.shape([placed(front)], "thin", fill=RED_WASH if wrong else STEEL)
    sketch.circle(anchor, 0.9 / sketch.scale, "edge", PAPER)
