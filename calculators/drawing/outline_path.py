"""An outline of lines and arcs as the data of an SVG path, and as boxes that words keep off."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from calculators.drawing.svg import Box, number
from calculators.geometry.outlines import Outline, arc_of, flat_points, pieces

_STEP_MM = 3.0
"""A slanting line is boxed in stretches of this length on the paper."""

Place = Callable[[float, float], tuple[float, float]]


def path_data(outline: Outline, at: Place, scale: float) -> str:
    """Write an outline as the data of a path, with true arcs.

    Args:
        outline: the outline, y upward.
        at: gives the place on the paper, y downward, of a point.
        scale: [1] how large a millimetre of the outline is on the paper.

    Returns:
        The text of `d`, closed; nothing for no outline.

    Source: SVG 1.1, section 8.3 (from memory); on paper, where y runs down, a left turn is a right one.

    Example:
        >>> from calculators.geometry.outlines import circle
        >>> path_data(circle(5, 5, 10), lambda x, y: (x, 10 - y), 1)
        'M0 5A5 5 0 0 0 10 5A5 5 0 0 0 0 5Z'
    """
    if not outline:
        return ""
    x, y = at(outline[0].x, outline[0].y)
    steps = [f"M{number(x, 3)} {number(y, 3)}"]
    for one, to in pieces(outline):
        x, y = at(to.x, to.y)
        end, arc = f"{number(x, 3)} {number(y, 3)}", arc_of(one, to)
        if arc is None:
            steps.append(f"L{end}")
        else:
            radius, long = number(arc.radius * scale, 3), int(abs(arc.turn_deg) > 180.0)
            steps.append(f"A{radius} {radius} 0 {long} {int(arc.turn_deg < 0.0)} {end}")
    return "".join(steps) + "Z"


def boxes_along(outline: Outline, at: Place, scale: float, half_mm: float = 0.25) -> Iterator[Box]:
    """Give boxes on the paper along an outline, so that no word is written across it.

    Args:
        outline: the outline.
        at: gives the place on the paper of a point.
        scale: [1] how large a millimetre of the outline is on the paper.
        half_mm: [mm] half of the width that the line is given.

    Yields:
        The boxes.

    Source: this project.
    """
    points = flat_points(outline, max(half_mm / scale, 1e-6))
    for a, b in zip(points, [*points[1:], *points[:1]], strict=True):
        (ax, ay), (bx, by) = at(*a), at(*b)
        slanting = min(abs(ax - bx), abs(ay - by)) > _STEP_MM
        count = math.ceil(math.dist((ax, ay), (bx, by)) / _STEP_MM) if slanting else 1
        for step in range(count):
            ends = [(ax + (bx - ax) * i / count, ay + (by - ay) * i / count) for i in (step, step + 1)]
            (cx, cy), (dx, dy) = ends
            yield (
                min(cx, dx) - half_mm, min(cy, dy) - half_mm, max(cx, dx) + half_mm, max(cy, dy) + half_mm,
            )  # fmt: skip
