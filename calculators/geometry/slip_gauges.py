"""Sine bars and the stacks of slip gauges that they are set by."""

from __future__ import annotations

from math import asin, cos, degrees, isfinite, radians, sin

from calculators.quantities.errors import InputError
from calculators.tables import load

MOST_SINE_DEG = 60.0
"""A sine bar is not set steeper than this here: a small error of height is a large one of angle."""


def sine_height(length_mm: float, angle_deg: float) -> float:
    """The height under one roller of a sine bar.

        H = L sin(angle)

    Args:
        length_mm: [mm] the distance between the rollers, over 0.
        angle_deg: [deg] the angle, 0 to 60.

    Returns:
        The height [mm].

    Raises:
        InputError: for an angle or length out of its range.

    Source: definition of the sine bar.

    Example:
        >>> round(sine_height(127, 30), 6)
        63.5
    """
    if not (isfinite(length_mm) and length_mm > 0):
        says = "The distance between the rollers must be over 0 mm."
        raise InputError.of(says, field="length", limit=0.0, unit="mm")
    if not 0 <= angle_deg <= MOST_SINE_DEG:
        says = f"A sine bar is set from 0 to {MOST_SINE_DEG:g} degrees; set the complement instead."
        raise InputError.of(says, field="angle", value=angle_deg, limit=MOST_SINE_DEG, unit="deg")
    return length_mm * sin(radians(angle_deg))


def sine_angle(length_mm: float, height_mm: float) -> float:
    """The angle of a sine bar over a height.

        angle = asin(H / L)

    Args:
        length_mm: [mm] the distance between the rollers, over 0.
        height_mm: [mm] the height under one roller, 0 or more.

    Returns:
        The angle [deg].

    Raises:
        InputError: for a height that would set it steeper than 60 degrees.

    Source: definition of the sine bar.

    Example:
        >>> round(sine_angle(100, 50), 9)
        30.0
    """
    most = length_mm * sin(radians(MOST_SINE_DEG))
    if not 0 <= height_mm <= most * (1 + 1e-12):
        says = f"A height of {height_mm:g} mm sets a bar of {length_mm:g} mm too steep;"
        says += f" write at most {most:.4g} mm."
        raise InputError.of(says, field="height", value=height_mm, limit=most, unit="mm")
    return degrees(asin(min(1.0, height_mm / length_mm)))


def angle_error(length_mm: float, angle_deg: float, height_error_mm: float) -> float:
    """How far the angle is off for an error of the height.

        d(angle) = dH / (L cos(angle))

    Args:
        length_mm: [mm] the distance between the rollers.
        angle_deg: [deg] the angle, 0 to 60.
        height_error_mm: [mm] the error of the height.

    Returns:
        The error of the angle [deg].

    Source: derivative of H = L sin(angle).

    Example:
        >>> round(angle_error(100, 0, 0.01) * 60, 2)
        0.34
    """
    return degrees(height_error_mm / (length_mm * cos(radians(angle_deg))))


def stack_of(height_mm: float, box: str) -> tuple[float, ...] | None:
    """Slip gauges that make up a height, each taken once, the last figures first.

    Args:
        height_mm: [mm] the height, over 0.
        box: the set of gauges: a `set` of the table.

    Returns:
        The gauges in the set's unit, smallest figures first; None where the set has no stack for it.

    Source: the usual sets, as the table's source says; taking away the last figure first (common practice).

    Example:
        >>> stack_of(41.125, "metric-87")
        (1.005, 1.12, 9.0, 30.0)
    """
    rows = load("slip_gauges").where("set", box)
    step = min(row.number("step") for row in rows)
    unit_mm = 25.4 if rows[0]["system"] == "inch" else 1.0
    rest = round(height_mm / unit_mm / step)
    found: list[int] = []
    # From the finest row on: the gauge that makes the rest a multiple of the next row's step.
    for place, row in enumerate(rows):
        sizes = [
            round(value / step)
            for value in _sizes(row.number("first"), row.number("last"), row.number("step"))
        ]
        coarser = round(rows[place + 1].number("step") / step) if place + 1 < len(rows) else 0
        if not coarser:
            break
        if rest % coarser:
            fitting = [size for size in sizes if (rest - size) % coarser == 0 and size <= rest]
            if not fitting:
                return None
            found.append(fitting[0])
            rest -= fitting[0]
    for size in sorted(sizes, reverse=True):
        if size <= rest:
            found.append(size)
            rest -= size
    if rest or not found:
        return None
    return tuple(round(size * step, 9) for size in found)


def _sizes(first: float, last: float, step: float) -> list[float]:
    return [first + place * step for place in range(round((last - first) / step) + 1)]


def stack_step_mm(box: str) -> float:
    """The finest step that a set of slip gauges makes.

    Args:
        box: the set.

    Returns:
        The step [mm].

    Source: the usual sets, as the table's source says.

    Example:
        >>> stack_step_mm("metric-87")
        0.001
    """
    rows = load("slip_gauges").where("set", box)
    return min(row.number("step") for row in rows) * (25.4 if rows[0]["system"] == "inch" else 1.0)
