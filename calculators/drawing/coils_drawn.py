"""Coils in elevation, drawn from their true helix: the back of each turn, then its front over it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import ceil, cos, pi, sin, sqrt

from calculators.drawing.svg import INK, PAPER, STEEL, Point, number, path, path_data
from calculators.mechanics.springs.coils import ENDS, HOOKS

MOST_TURNS = 60
"""With more turns than this a coil is drawn as its outline."""

_MOST_STEPS = 16
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
    # So many that no point of the curve lies 0.15 mm off.
    count = min(_MOST_STEPS, max(4, ceil(3 * sqrt(radius))))
    turn, z = 0.0, rise
    for turns, pitch in runs:
        end = turn + turns
        while turn < end - 1e-9:
            stop = min(end, (int(2 * turn + 1e-9) + 1) / 2)
            steps = [turn + (stop - turn) * i / count for i in range(count + 1)]
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


Coil = Callable[[float, Point, float], list[str]]
"""Draws a spring at a length [mm], standing on a point [mm on the sheet], to a scale."""


def pressed_coil(ends: str, wire: float, mean: float, active: float) -> Coil:
    """Make what draws a compression spring at any of its lengths.

    Args:
        ends: one of `ENDS`.
        wire: [mm] diameter of the wire.
        mean: [mm] mean diameter of the coil.
        active: [1] active coils.

    Returns:
        The drawing function.

    Source: this project.
    """
    end = ENDS[ends]

    def draw(length: float, foot: Point, scale: float) -> list[str]:
        width, radius = wire * scale, mean * scale / 2
        if active + end.dead > MOST_TURNS:
            return outline(foot, radius + width / 2, length * scale)
        pitch = (length - end.wires * wire) / (active + end.pitches) * scale
        closed = [(1.0, width)] if end.dead == 2 else []
        ground = end.solid_wires == 0
        runs = [*closed, (active + (1 if end.pitches else 0), pitch), *closed]
        body, _ = helix(foot, radius, width, runs, 0.0 if ground else width / 2)
        if ground:
            top = (foot[0], foot[1] - length * scale)
            body += cut_flat(foot, radius + width / 2, width, upper=False)
            body += cut_flat(top, radius + width / 2, width, upper=True)
        return body

    return draw


def pulled_coil(ends: str, wire: float, mean: float, coils: float, free: float) -> Coil:
    """Make what draws an extension spring at any of its lengths.

    Args:
        ends: one of `HOOKS`.
        wire: [mm] diameter of the wire.
        mean: [mm] mean diameter of the coil.
        coils: [1] coils of the body.
        free: [mm] length without load, inside the hooks.

    Returns:
        The drawing function; lengths are inside the hooks, which reach a wire further.

    Source: this project.
    """
    solid = (coils + 1) * wire

    def draw(length: float, foot: Point, scale: float) -> list[str]:
        width, radius = wire * scale, mean * scale / 2
        reach = (free - solid) / 2 * scale
        long = (solid + length - free) * scale
        lower = (foot[0], foot[1] - reach)
        upper = (foot[0], lower[1] - long)
        body: list[str] = []
        if HOOKS[ends].bent:
            body += hook(lower, radius, width, reach, upper=False)
            body += hook(upper, radius, width, reach, upper=True)
        if coils > MOST_TURNS:
            return body + outline(lower, radius + width / 2, long)
        drawn, _ = helix(lower, radius, width, [(coils, (long - width) / coils)], width / 2)
        return body + drawn

    return draw


def round_scale(fits: float) -> float:
    """The scale to draw at: of two figures, a little under what still fits, 10 times at most.

    Args:
        fits: the largest scale that fits, above 0.

    Returns:
        The scale.

    Source: this project.

    Example:
        >>> round_scale(2.6), round_scale(50)
        (2.5, 9.5)
    """
    return max(float(f"{0.95 * min(10.0, fits):.2g}"), 1e-4)
