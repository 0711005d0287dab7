"""The pieces that a lever is drawn from, at any angle: its arms, its pivot, loads as arrows, stops."""

from __future__ import annotations

import math

from calculators.drawing.sketch import Sketch
from calculators.drawing.svg import INK, STEEL, Point
from calculators.mechanics.pivot.energy import force_of, place_of
from calculators.mechanics.pivot.model import Lever

ARROW_MM = 12.0
"""How long the arrow of a load is on the sheet."""


def acted_points(lever: Lever) -> list[Point]:
    """Return the points of the lever as drawn that something acts on, none twice and none at the pivot.

    Args:
        lever: the lever.

    Returns:
        The points [mm].

    Source: this project.
    """
    each = [(one.x_mm, one.y_mm) for one in lever.springs]
    each += [(one.x_mm, one.y_mm) for one in lever.loads]
    return [point for point in dict.fromkeys(each) if math.hypot(*point) > 1e-9]


def far_point(lever: Lever) -> Point | None:
    """Return the point farthest from the pivot that something acts on; None where there is none.

    Args:
        lever: the lever.

    Returns:
        The point of the lever as drawn [mm].

    Source: this project.
    """
    return max(acted_points(lever), key=lambda one: math.hypot(*one), default=None)


def load_tail(lever: Lever, number: int, angle_rad: float, reach: float) -> Point | None:
    """Return where the arrow of a load begins, which ends at the lever.

    Args:
        lever: the lever.
        number: which load, from 0.
        angle_rad: [rad] the lever's angle.
        reach: the arrow's length [mm in reality].

    Returns:
        The point [mm]; None for a load of nought.

    Source: this project.
    """
    load = lever.loads[number]
    if load.force_n <= 0:
        return None
    x, y = place_of(lever, load.x_mm, load.y_mm, angle_rad)
    f_x, f_y = force_of(load, angle_rad)
    return (x - reach * f_x / load.force_n, y - reach * f_y / load.force_n)


def draw_arms(sketch: Sketch, lever: Lever, angle_rad: float, line: str) -> None:
    """Draw the lever as lines from the pivot to what acts on it; of points on one line only the farthest.

    Args:
        sketch: the drawing.
        lever: the lever.
        angle_rad: [rad] its angle.
        line: the line type.

    Source: this project.
    """
    centre = place_of(lever, 0.0, 0.0, angle_rad)
    far: dict[int, Point] = {}
    for point in sorted(acted_points(lever), key=lambda one: math.hypot(*one)):
        far[round(math.degrees(math.atan2(point[1], point[0])) * 2)] = point
    for x, y in far.values():
        sketch.shape([[centre, place_of(lever, x, y, angle_rad)]], line, closed=False)


def draw_load(sketch: Sketch, lever: Lever, number: int, angle_rad: float) -> None:
    """Draw a load as an arrow that ends at the lever; one of nought as a ring.

    Args:
        sketch: the drawing.
        lever: the lever.
        number: which load, from 0.
        angle_rad: [rad] the lever's angle.

    Source: this project.
    """
    load, unit = lever.loads[number], 1 / sketch.scale
    tip = place_of(lever, load.x_mm, load.y_mm, angle_rad)
    tail = load_tail(lever, number, angle_rad, ARROW_MM * unit)
    if tail is None:
        sketch.circle(tip, 1.6 * unit, "edge", STEEL)
        return
    away = ((tail[0] - tip[0]) / ARROW_MM, (tail[1] - tip[1]) / ARROW_MM)
    sketch.shape([[tail, tip]], "edge", closed=False)
    wings = [
        (tip[0] + 2.6 * away[0] - side * 0.8 * away[1], tip[1] + 2.6 * away[1] + side * 0.8 * away[0])
        for side in (1, -1)
    ]
    sketch.shape([[tip, *wings]], "thin", fill=INK)


def draw_pivot(sketch: Sketch, lever: Lever, kind: str, angles_deg: tuple[float, float]) -> None:
    """Draw the pivot as a sign: a pin, an edge in its V at true angles, or a leaf.

    Args:
        sketch: the drawing.
        lever: the lever.
        kind: pin, knife-edge or flexure.
        angles_deg: [deg] included angles of a knife edge and of its V.

    Source: this project.
    """
    points, unit = lever.edge_points_rad, 1 / sketch.scale
    if kind == "pin":
        sketch.circle((0.0, 0.0), 1.8 * unit, "edge", STEEL)
        sketch.circle((0.0, 0.0), 0.4 * unit, "edge", INK)
    elif kind == "flexure":
        across = (math.cos(points) * 4 * unit, math.sin(points) * 4 * unit)
        sketch.shape([[(0.0, 0.0), across]], "edge", closed=False)
        ground = [(across[0] - side * across[1] / 2, across[1] + side * across[0] / 2) for side in (1, -1)]
        sketch.shape([ground], "outline", closed=False)
    else:
        for degrees, line in zip(angles_deg, ("edge", "outline"), strict=True):
            half, reach = math.radians(degrees / 2), (4.5 if line == "edge" else 6.5) * unit
            arms = [
                (-reach * math.cos(points + side * half), -reach * math.sin(points + side * half))
                for side in (1, -1)
            ]
            ring = [arms[0], (0.0, 0.0), arms[1]]
            sketch.shape([ring], line, fill=STEEL if line == "edge" else "none", closed=line == "edge")


def draw_stop(sketch: Sketch, lever: Lever, angle: float, tip: Point | None, side: int) -> None:
    """Draw a stop: its tip where that is known, else a mark at the lever's end when it has come there.

    Args:
        sketch: the drawing.
        lever: the lever.
        angle: [rad] the lever's angle at the stop.
        tip: where the stop's tip is [mm], None where only the angle is known.
        side: 1 for the stop anticlockwise of the lever, -1 for the other.

    Source: this project.
    """
    unit = 1 / sketch.scale
    if tip is None:
        far = far_point(lever)
        if far is None:
            return
        tip = place_of(lever, far[0], far[1], angle)
    else:
        angle = 0.0
    out = (-math.sin(angle) * side * unit, math.cos(angle) * side * unit)
    wings = [
        (tip[0] + 4 * out[0] - way * 1.5 * out[1], tip[1] + 4 * out[1] + way * 1.5 * out[0])
        for way in (1, -1)
    ]
    sketch.shape([[tip, *wings]], "edge", fill=STEEL)
