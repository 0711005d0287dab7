"""The torque that twists a screw off at its root."""

from __future__ import annotations

from math import pi

from calculators.mechanics.bounds import check_between
from calculators.tables import Row, load

SHEAR_OF_TENSILE = 0.6
"""Shear strength of the tensile strength of ductile metals (common practice)."""
DRIVING_SHARE = 2 / 3
"""Driving torque of the twist-off torque, at most (EN 14592 asks a ratio of 1.5; from memory)."""


def twist_off_nm(root_mm: float, shear_mpa: float) -> float:
    """The torque at which the skin of the root reaches the shear strength.

    T = pi d^3 t / 16

    Args:
        root_mm: root diameter d [mm], 0.1 to 50.
        shear_mpa: shear strength t [MPa], 5 to 1500.

    Returns:
        The torque [N m]: a cautious figure, since a ductile screw carries up to a third more.

    Raises:
        InputError: outside those limits.

    Source: mechanics.

    Example:
        >>> round(twist_off_nm(1.897, 222), 2)
        0.3
    """
    check_between("root", root_mm, 0.1, 50, "mm")
    check_between("shear_strength", shear_mpa, 5, 1500, "MPa")
    return pi * root_mm**3 * shear_mpa / 16 / 1000


def twist_off_most_nm(root_mm: float, shear_mpa: float) -> float:
    """The torque at which the whole root shears.

    T = pi d^3 t / 12

    Args:
        root_mm: root diameter d [mm], 0.1 to 50.
        shear_mpa: shear strength t [MPa], 5 to 1500.

    Returns:
        The torque [N m].

    Raises:
        InputError: outside those limits.

    Source: mechanics (fully plastic section).

    Example:
        >>> round(twist_off_most_nm(1.897, 222), 2)
        0.4
    """
    return twist_off_nm(root_mm, shear_mpa) * 4 / 3


def breaking_row(grade: str, size: str) -> Row | None:
    """The least breaking torque that a standard asks of a machine screw.

    Args:
        grade: the grade, such as `8.8` or `A2-70`.
        size: the coarse thread's size, such as `M5`.

    Returns:
        The row, with `torque` in N m, or None where none is listed.

    Source: ISO 898-7 and ISO 3506-1: table `breaking_torques`.

    Example:
        >>> breaking_row("8.8", "M5")["torque"]
        '7.6'
    """
    return load("breaking_torques").find(grade, size)
