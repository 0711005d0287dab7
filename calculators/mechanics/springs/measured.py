"""Rate and initial tension of a spring in hand, from weights and lengths."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Line:
    """The straight line through the readings: F = intercept + rate x, and the worst distance from it [N]."""

    rate_n_per_mm: float
    intercept_n: float
    worst_n: float


def line_through(readings: Sequence[tuple[float, float]]) -> Line:
    """Fit a straight line to readings by least squares of the load; through two it goes exactly.

        k = (F2 - F1)/(x2 - x1); of more, sum (x - x_m)(F - F_m)/sum (x - x_m)^2

    Args:
        readings: [mm, N] travel and load of each, two or more, of which two travels differ.

    Returns:
        The line.

    Source: least squares (Gauss).

    Example:
        >>> line = line_through([(8, 2.1), (24, 5.2)])
        >>> round(line.rate_n_per_mm, 5), round(line.intercept_n, 2)
        (0.19375, 0.55)
    """
    count = len(readings)
    mean_x = sum(x for x, _ in readings) / count
    mean_f = sum(f for _, f in readings) / count
    rate = sum((x - mean_x) * (f - mean_f) for x, f in readings) / sum((x - mean_x) ** 2 for x, _ in readings)
    intercept = mean_f - rate * mean_x
    return Line(rate, intercept, max(abs(f - intercept - rate * x) for x, f in readings))


def shear_modulus_of_rate_mpa(
    rate_n_per_mm: float, wire_mm: float, mean_diameter_mm: float, active_coils: float
) -> float:
    """The shear modulus that a measured rate would need.

        G = 8 D^3 n k/d^4

    Args:
        rate_n_per_mm: [N/mm] measured rate, above 0.
        wire_mm: [mm] diameter of the wire, above 0.
        mean_diameter_mm: [mm] mean diameter of the coil, above the wire's.
        active_coils: [1] coils that spring, above 0.

    Returns:
        The shear modulus [MPa].

    Source: EN 13906-1, the formula of the rate turned round (from memory).

    Example:
        >>> round(shear_modulus_of_rate_mpa(4.974365234375, 2, 16, 8))
        81500
    """
    return 8 * mean_diameter_mm**3 * active_coils * rate_n_per_mm / wire_mm**4
