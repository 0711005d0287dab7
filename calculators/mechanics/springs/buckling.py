"""Whether a compression spring stays straight or bows out sideways."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

SEATINGS: dict[str, tuple[float, str]] = {
    "both-flat": (0.5, "both ends on flat, parallel faces"),
    "one-pivoted": (0.707, "one end on a flat face, the other on a pivot"),
    "both-pivoted": (1.0, "both ends on pivots"),
    "one-free": (2.0, "one end on a flat face, the other free"),
}
"""Seating coefficients: Shigley, 9th ed., table 10-2; the same in EN 13906-1 (both from memory)."""


@dataclass(frozen=True, slots=True)
class Steadiness:
    """How steady a spring stands: `slenderness` is nu L0/D, `limit` that up to which it never buckles.

    `critical_travel_mm` is the travel at which it buckles; None where it never does.
    """

    slenderness: float
    limit: float
    critical_travel_mm: float | None


def limit_of_moduli(ratio: float) -> float:
    """Slenderness up to which a spring never buckles, however far it is pressed: 2.6 for steel.

        nu L0/D = pi sqrt((1 - G/E)/(1/2 + G/E))

    Args:
        ratio: [1] G/E, above 0, below 1.

    Returns:
        The slenderness [1].

    Source: Shigley, Mechanical Engineering Design, 9th ed., equation 10-12 (from memory); EN 13906-1.

    Example:
        >>> round(limit_of_moduli(80 / 206), 2)
        2.61
    """
    return pi * sqrt((1 - ratio) / (0.5 + ratio))


def steadiness(
    free_length_mm: float, mean_diameter_mm: float, ratio: float, seating: str = "both-flat"
) -> Steadiness:
    """Work out whether a compression spring buckles, and at which travel.

        s_k = L0 (0.5/(1 - G/E)) (1 - sqrt(1 - ((1 - G/E)/(0.5 + G/E)) (pi D/(nu L0))^2))

    Args:
        free_length_mm: [mm] length without load, above 0.
        mean_diameter_mm: [mm] mean diameter of the coil, above 0.
        ratio: [1] G/E of the wire, above 0, below 1.
        seating: one of `SEATINGS`.

    Returns:
        The slenderness, its limit, and the critical travel [mm].

    Source: J. A. Haringx; EN 13906-1, buckling; Shigley, 9th ed., equation 10-10 (all from memory).

    Example:
        >>> found = steadiness(120, 16, 80 / 206)
        >>> round(found.slenderness, 2), round(found.critical_travel_mm, 1)
        (3.75, 27.6)
    """
    nu = SEATINGS[seating][0]
    slender = nu * free_length_mm / mean_diameter_mm
    limit = limit_of_moduli(ratio)
    if slender <= limit:
        return Steadiness(slender, limit, None)
    critical = free_length_mm * 0.5 / (1 - ratio) * (1 - sqrt(1 - (limit / slender) ** 2))
    return Steadiness(slender, limit, critical)
