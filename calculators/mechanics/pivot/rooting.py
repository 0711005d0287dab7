"""Where a function of the angle is nought between two angles that it changes its sign between."""

from __future__ import annotations

from collections.abc import Callable

ANGLE_TOLERANCE = 1e-12
"""[rad] How near a nought is found."""

_MOST_STEPS = 120


def root_between(function: Callable[[float], float], low: float, high: float) -> float:
    """Find a nought of a function by the rule of false position, halving where that is slow.

    Args:
        function: a function of the angle, of opposite signs at the two ends.
        low: [rad] the one end.
        high: [rad] the other end.

    Returns:
        The angle [rad], to within 1e-12; the nearer end where both have the same sign.

    Source: Illinois variant of regula falsi: Dowell and Jarratt, BIT 11 (1971) (from memory).

    Example:
        >>> round(root_between(lambda angle: angle * angle - 2, 1.0, 2.0), 9)
        1.414213562
    """
    at_low, at_high = function(low), function(high)
    if at_low == 0 or at_high == 0 or (at_low < 0) == (at_high < 0):
        return low if abs(at_low) <= abs(at_high) else high
    for step in range(_MOST_STEPS):
        # Every third step halves, so that the bracket shrinks whatever the function's shape.
        middle = (low + high) / 2 if step % 3 == 2 else high - at_high * (high - low) / (at_high - at_low)
        value = function(middle)
        if value == 0 or abs(high - low) < ANGLE_TOLERANCE:
            return middle
        if (value < 0) != (at_high < 0):
            low, at_low = high, at_high
        else:
            at_low /= 2
        high, at_high = middle, value
    return high
