"""Frames under strings: the bow that a pull beside the neutral axis makes, and a board under down-bearing."""

from __future__ import annotations

from math import radians, sin


def bow_of(moment_n_mm: float, length_mm: float, stiffness_n_mm2: float) -> float:
    """The bow of a bar bent by the same moment all along.

    bow = M L^2 / (8 E I)

    Args:
        moment_n_mm: [N mm] the moment, tension times its distance from the neutral axis.
        length_mm: [mm] length between the ends of the strings, above 0.
        stiffness_n_mm2: [N mm2] modulus times second moment, above 0.

    Returns:
        The bow at the middle [mm].

    Source: beam tables, simply supported with equal end moments: Machinery's Handbook (from memory).

    Example:
        >>> round(bow_of(1000, 100, 1e6), 3)
        1.25
    """
    return moment_n_mm * length_mm**2 / (8 * stiffness_n_mm2)


def down_force(tension_n: float, angle_deg: float) -> float:
    """The force of a string on what it is bent over.

    F = 2 T sin(angle / 2)

    Args:
        tension_n: [N] tension, 0 or more.
        angle_deg: [deg] by how much the string changes direction, 0 to 180.

    Returns:
        The force [N].

    Source: equilibrium of the two pulls.

    Example:
        >>> round(down_force(100, 60), 6)
        100.0
    """
    return 2 * tension_n * sin(radians(angle_deg) / 2)
