"""Holes on a circle: their places, the distances to check them by, and what stands between them."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, isfinite, radians, sin

from calculators.geometry.vectors import cos_sin
from calculators.quantities.errors import InputError

MOST_HOLES = 360
"""No more holes are set out on one circle."""


@dataclass(frozen=True, slots=True)
class Place:
    """The centre of a hole [mm] and its direction from the circle's centre [deg]."""

    x_mm: float
    y_mm: float
    angle_deg: float


def step_angle(count: int, arc_deg: float = 360.0) -> float:
    """The angle from one hole to the next.

        step = 360 / n on a whole circle, arc / (n - 1) on a part of one

    Args:
        count: how many holes, 2 to 360.
        arc_deg: [deg] the arc that they are spread over, over 0 to 360; 360 is the whole circle.

    Returns:
        The angle [deg].

    Raises:
        InputError: for fewer than two holes or more than 360, or an arc out of its range.

    Source: geometry.

    Example:
        >>> step_angle(6), step_angle(3, 90)
        (60.0, 45.0)
    """
    if not 2 <= count <= MOST_HOLES:
        says = f"A circle of holes has 2 to {MOST_HOLES} holes."
        raise InputError.of(says, field="count", value=float(max(-1, min(count, 10**6))), limit=2.0)
    if not 0 < arc_deg <= 360:
        says = "The arc must be over 0 and at most 360 degrees."
        raise InputError.of(says, field="arc", limit=360.0, unit="deg")
    return 360 / count if arc_deg == 360 else arc_deg / (count - 1)


def circle_of_holes(
    diameter_mm: float,
    count: int,
    *,
    first_deg: float = 0.0,
    centre_mm: tuple[float, float] = (0.0, 0.0),
    arc_deg: float = 360.0,
    clockwise: bool = False,
) -> tuple[Place, ...]:
    """The places of holes spread evenly on a circle or on an arc of it.

        x = x0 + D/2 cos(a), y = y0 + D/2 sin(a), a = first angle + i x step

    Args:
        diameter_mm: [mm] the pitch circle's diameter, over 0.
        count: how many holes, 2 to 360.
        first_deg: [deg] the direction of the first hole, from the x axis towards y.
        centre_mm: [mm] the circle's centre.
        arc_deg: [deg] the arc that they are spread over, over 0 to 360.
        clockwise: whether they are counted clockwise.

    Returns:
        The places, in the order in which they are counted.

    Raises:
        InputError: for a diameter, count or arc out of its range.

    Source: geometry; Machinery's Handbook, 31st edition, page 711, sets it out the same.

    Example:
        >>> [(round(p.x_mm, 2), round(p.y_mm, 2)) for p in circle_of_holes(72, 6)[:3]]
        [(36.0, 0.0), (18.0, 31.18), (-18.0, 31.18)]
    """
    if not (isfinite(diameter_mm) and diameter_mm > 0):
        says = "The pitch circle's diameter must be over 0 mm."
        raise InputError.of(says, field="diameter", limit=0.0, unit="mm")
    step = step_angle(count, arc_deg) * (-1 if clockwise else 1)
    places = []
    for place in range(count):
        angle = (first_deg + place * step) % 360
        across, up = cos_sin(round(angle, 12))
        places.append(
            Place(centre_mm[0] + diameter_mm / 2 * across, centre_mm[1] + diameter_mm / 2 * up, angle)
        )
    return tuple(places)


def chord_across(diameter_mm: float, step_deg: float, holes: int = 1) -> float:
    """The straight distance from a hole to the next one, or to one further on.

        chord = D sin(k x step / 2)

    Args:
        diameter_mm: [mm] the pitch circle's diameter.
        step_deg: [deg] the angle from hole to hole.
        holes: how many holes on; 1 for the neighbour.

    Returns:
        The distance [mm].

    Source: geometry; for a whole circle D sin(180/n), tabled in Machinery's Handbook, 31st edition, page 720.

    Example:
        >>> round(chord_across(72, 60), 6), round(chord_across(72, 60, 3), 6)
        (36.0, 72.0)
    """
    return abs(diameter_mm * sin(radians(holes * step_deg) / 2))


def rounded_shift(places: tuple[Place, ...], step_mm: float = 0.01) -> float:
    """How far a hole moves at most when its places are rounded, as a dial or a scale needs it.

    Args:
        places: the places of the holes.
        step_mm: [mm] the step that they are rounded to, over 0.

    Returns:
        The greatest distance between a hole's place and its rounded place [mm].

    Source: this project.

    Example:
        >>> round(rounded_shift(circle_of_holes(72, 6)), 4)
        0.0031
    """
    return max(
        hypot(*(value - round(value / step_mm) * step_mm for value in (one.x_mm, one.y_mm))) for one in places
    )
