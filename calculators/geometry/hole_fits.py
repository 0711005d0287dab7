"""Clearance holes: how far the centres of matching holes may be off, and how many patterns go together."""

from __future__ import annotations

from math import exp, sqrt
from typing import Literal

from calculators.quantities.errors import InputError

Fixing = Literal["fixed", "floating"]


def position_zone(hole_mm: float, screw_mm: float, fixing: Fixing) -> float:
    """The diameter of the zone in which each hole's centre may lie.

        floating (clearance in both parts): T = H - F
        fixed (the screw stands in one part): T = (H - F) / 2

    Args:
        hole_mm: [mm] the clearance hole, H.
        screw_mm: [mm] the screw or stud, F, over 0 and less than the hole.
        fixing: `fixed` or `floating`.

    Returns:
        The zone's diameter T for the holes of each part [mm].

    Raises:
        InputError: for a hole that the screw does not go through.

    Source: ASME Y14.5, appendix B, as a textbook states it: Application and Interpretation of geometric
        tolerancing, Goodheart-Willcox 2021, page 308; the zone shared equally.

    Example:
        >>> position_zone(5.5, 5, "fixed"), position_zone(5.5, 5, "floating")
        (0.25, 0.5)
    """
    if not 0 < screw_mm < hole_mm:
        says = (
            f"A screw of {screw_mm:g} mm does not go through a hole of {hole_mm:g} mm; write a larger hole."
        )
        raise InputError.of(says, field="hole", value=hole_mm, limit=screw_mm, unit="mm")
    return (hole_mm - screw_mm) / (2 if fixing == "fixed" else 1)


def each_way(zone_mm: float) -> float:
    """How far a centre may be off in x and, at the same time, in y: the square within the round zone.

        e = T / (2 sqrt 2)

    Args:
        zone_mm: [mm] the zone's diameter.

    Returns:
        The error either way along each axis [mm].

    Source: geometry.

    Example:
        >>> round(each_way(0.25), 2)
        0.09
    """
    return zone_mm / (2 * sqrt(2))


def hole_for_errors(screw_mm: float, error_mm: float, fixing: Fixing) -> float:
    """The hole with which a pattern goes together however the errors fall.

        H = F + 2 sqrt 2 e (floating), F + 4 sqrt 2 e (fixed)

    Args:
        screw_mm: [mm] the screw, F.
        error_mm: [mm] how far each centre of either part may be off in x and in y, e.
        fixing: `fixed` or `floating`.

    Returns:
        The least hole [mm].

    Source: `position_zone` and `each_way` here, solved for the hole.

    Example:
        >>> round(hole_for_errors(5, 0.1, "fixed"), 3)
        5.566
    """
    return screw_mm + (4 if fixing == "fixed" else 2) * sqrt(2) * error_mm


def share_that_goes(hole_mm: float, screw_mm: float, error_mm: float, count: int, fixing: Fixing) -> float:
    """The share of patterns of so many holes that go together where errors fall by chance.

    Each centre is off by chance in x and in y, with the error given as three standard deviations; the two
    parts are laid on by their datums and not shifted to suit. The distance between two centres then follows
    Rayleigh's distribution: share = (1 - exp(-R2 / (2 s2)))^n, with s2 = 2 (e/3)2 and R the clearance.

    Args:
        hole_mm: [mm] the clearance hole, more than the screw.
        screw_mm: [mm] the screw.
        error_mm: [mm] how far each centre may be off in x and in y, 0 or more.
        count: how many holes, 1 or more.
        fixing: `fixed` or `floating`.

    Returns:
        The share, 0 to 1 [1].

    Source: Rayleigh's distribution of the distance of two normal errors; assumptions as above (geometry).

    Example:
        >>> round(share_that_goes(5.5, 5, 0.2, 4, "fixed"), 3)
        0.886
    """
    room = (hole_mm - screw_mm) * (0.5 if fixing == "fixed" else 1.0)
    variance = 2 * (error_mm / 3) ** 2
    if variance <= 0:
        return 1.0
    return float((1 - exp(-min(700.0, room * room / (2 * variance)))) ** count)
