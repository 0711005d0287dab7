"""Coils in elevation, drawn from their true helix: the back of each turn, then its front over it."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin

from calculators.drawing.svg import INK, PAPER, STEEL, Point, number, path, path_data

MOST_TURNS = 60
"""With more turns than this a coil is drawn as its outline."""

_STEPS = 14
_EDGE, _LEAST_WIRE = 0.3, 0.55
_BACK, _FRONT = "#c3d0d5", STEEL

Run = tuple[float, float]
"""Turns, and the pitch in them [mm on the sheet]."""


def helix(
    at: Point, radius: float, wire: float, runs: Sequence[Run], rise: float = 0.0
) -> tuple[list[str], float]:
    """Draw an upright coil.

    Args:
        at: the middle of its foot [mm on the sheet].
        radius: [mm on the sheet] mean radius of the coil, above 0.
        wire: [mm on the sheet] diameter of the wire, above 0.
        runs: turns and their pitch, from the foot up.
        rise: [mm on the sheet] height of the wire's middle at the foot.

    Returns:
        The elements, and the height of the wire's middle at the top [mm on the sheet].

    Source: this project.
    """
    halves: list[tuple[bool, list[Point]]] = []
    turn, z = 0.0, rise
    for turns, pitch in runs:
        end = turn + turns
        while turn < end - 1e-9:
            stop = min(end, (int(2 * turn + 1e-9) + 1) / 2)
            steps = [turn + (stop - turn) * i / _STEPS for i in range(_STEPS + 1)]
            points = [(at[0] + radius * cos(2 * pi * t), at[1] - z - (t - turn) * pitch) for t in steps]
            halves.append((int(2 * turn + 1e-9) % 2 == 0, points))
            z += (stop - turn) * pitch
            turn = stop
    body = [stroke(points, wire, _BACK) for front, points in halves if not front]
    body += [stroke(points, wire, _FRONT) for front, points in halves if front]
    return body, z


def stroke(points: Sequence[Point], wire: float, fill: str = STEEL) -> str:
    """Draw a piece of wire along a line, with its two edges.

    Args:
        points: the middle of the wire [mm on the sheet].
        wire: [mm on the sheet] its diameter; thin wire is drawn as one line.
        fill: the colour within the edges.

    Returns:
        The elements.

    Source: this project.
    """
    data = path_data([points], closed=False)
    if wire < _LEAST_WIRE:
        return f'<path class="outline" d="{data}" stroke="{INK}" stroke-width="{number(max(0.25, wire))}"/>'
    edge = min(_EDGE, 0.2 * wire)
    return (
        f'<path class="outline" d="{data}" stroke="{INK}" stroke-width="{number(wire)}" '
        f'stroke-linejoin="round"/>'
        f'<path class="outline" d="{data}" stroke="{fill}" stroke-width="{number(wire - 2 * edge)}" '
        f'stroke-linejoin="round"/>'
    )


def outline(at: Point, half_width: float, height: float) -> list[str]:
    """Draw a coil of many turns as its outline with crossed diagonals.

    Args:
        at: the middle of its foot [mm on the sheet].
        half_width: [mm on the sheet] half of the outside diameter.
        height: [mm on the sheet] its length.

    Returns:
        The elements.

    Source: simplified drawing of springs, ISO 2162 (from memory).
    """
    left, right, top = at[0] - half_width, at[0] + half_width, at[1] - height
    box = [(left, at[1]), (right, at[1]), (right, top), (left, top)]
    return [
        path([box], "outline", fill=STEEL),
        path([[(left, at[1]), (right, top)], [(right, at[1]), (left, top)]], "thin", closed=False),
    ]


def cut_flat(at: Point, half_width: float, wire: float, *, upper: bool) -> list[str]:
    """Take away what a ground end has lost, and draw the ground face.

    Args:
        at: the middle of the face [mm on the sheet].
        half_width: [mm on the sheet] half of the outside diameter.
        wire: [mm on the sheet] diameter of the wire.
        upper: whether it is the upper end.

    Returns:
        The elements.

    Source: this project.
    """
    far = at[1] + (-wire if upper else wire)
    wide = half_width + 0.5
    box = [(at[0] - wide, at[1]), (at[0] + wide, at[1]), (at[0] + wide, far), (at[0] - wide, far)]
    return [
        path([box], "none", fill=PAPER),
        path([[(at[0] - half_width, at[1]), (at[0] + half_width, at[1])]], "outline", closed=False),
    ]


def hook(at: Point, radius: float, wire: float, reach: float, *, upper: bool) -> list[str]:
    """Draw the hook of an extension spring, seen on its bow.

    Args:
        at: the middle of the body's end face [mm on the sheet].
        radius: [mm on the sheet] mean radius of the coil and of the bow.
        wire: [mm on the sheet] diameter of the wire.
        reach: [mm on the sheet] from the body to the inside of the bow.
        upper: whether it is the upper end.

    Returns:
        The elements.

    Source: this project.
    """
    up = -1.0 if upper else 1.0
    middle = reach - radius + wire / 2
    bow = [(radius * cos(a), middle + radius * sin(a)) for a in (pi * (-70 + 5 * i) / 100 for i in range(35))]
    bow = [point for point in bow if point[1] >= 0]
    first = bow[0]
    stem = [(first[0], 0.0)] if middle > 0 and first[1] > 0 and first[0] > 0.9 * radius else []
    return [stroke([(at[0] + x, at[1] + up * y) for x, y in [*stem, *bow]], wire)]


def ring(at: Point, radius: float, line: str, fill: str = "none") -> str:
    """Draw a circle.

    Args:
        at: its middle [mm on the sheet].
        radius: [mm on the sheet] its radius.
        line: a line type of the drawings.
        fill: the fill colour.

    Returns:
        The element.

    Source: this project.
    """
    points = [
        (at[0] + radius * cos(2 * pi * i / 72), at[1] + radius * sin(2 * pi * i / 72)) for i in range(72)
    ]
    return path([points], line, fill=fill)
