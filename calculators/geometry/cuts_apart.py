"""How cuts of one part lie: to one another's axes, and to the axis of a round part."""

from __future__ import annotations

import math

from calculators.geometry.cuts import Cut
from calculators.geometry.shapes import Turned
from calculators.geometry.vectors import along, dot, scale, subtract


def farthest_from_axis(shape: Turned) -> float:
    """Return how far from X the walls of a turned shape reach that runs along X or square to it.

    Args:
        shape: a hole of a round part; one that runs square to X is looked at across its own axis only.

    Returns:
        The distance from X of the wall that is farthest to the side [mm].

    Source: this project (distance of two lines, and the radius).

    Example:
        >>> farthest_from_axis(Turned((0, 3, 0), (1, 0, 0), ((0, 2), (10, 2))))
        5.0
    """
    radius = max(ring for _, ring in shape.rings)
    starts = [along(shape.start, (shape.slide, half)) for half in (-0.5, 0.5)]
    if abs(shape.way[0]) > 0.999999:
        return max(math.hypot(start[1], start[2]) for start in starts) + radius
    flat = math.hypot(shape.way[1], shape.way[2])
    return max(abs(start[1] * shape.way[2] - start[2] * shape.way[1]) / flat for start in starts) + radius


def farthest_beyond(shape: Turned) -> float:
    """Return how far from X the far end of a turned shape reaches that runs square to X.

    Args:
        shape: a hole from a round part's side.

    Returns:
        The greatest distance from X of its circles past the middle of the part [mm]; 0 where it ends
        before the middle.

    Source: this project.
    """
    flat = math.hypot(shape.way[1], shape.way[2])
    if flat < 1e-6:
        return 0.0
    way = (shape.way[1] / flat, shape.way[2] / flat)
    starts = [along(shape.start, (shape.slide, half)) for half in (-0.5, 0.5)]
    most = 0.0
    for start in starts:
        aside = abs(start[1] * way[1] - start[2] * way[0])
        begin = start[1] * way[0] + start[2] * way[1]
        for at, ring in shape.rings:
            past = begin + at * flat
            if past > 0.0:
                most = max(most, math.hypot(past, aside + ring))
    return most


def same_line(first: Cut, second: Cut, within: float = 0.05) -> bool:
    """Say whether two holes lie on one line, drilled from whichever side.

    Args:
        first: a hole.
        second: another hole of the same part.
        within: how far the lines may be apart [mm].

    Returns:
        True where they do.

    Source: this project.
    """
    if abs(dot(first.way, second.way)) < 1.0 - 1e-9:
        return False
    away = subtract(second.mark, first.mark)
    off = subtract(away, scale(first.way, dot(away, first.way)))
    return dot(off, off) <= within * within


def line_gap(first: Cut, second: Cut) -> float | None:
    """Return how far the axes of two holes pass one another by.

    Args:
        first: a hole.
        second: another hole of the same part.

    Returns:
        The distance of the two lines [mm]; None where they run the same way.

    Source: this project (distance of two skew lines).
    """
    a, b = first.way, second.way
    normal = (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
    long = math.sqrt(dot(normal, normal))
    if long < 0.1:
        return None
    return abs(dot(subtract(second.mark, first.mark), normal)) / long
