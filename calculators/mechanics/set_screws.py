"""Grub screws on a shaft: the force of the point and the torque that it holds by friction."""

from __future__ import annotations

from math import cos as cosine
from math import pi, radians, sqrt

from calculators.mechanics.bounds import check_between
from calculators.quantities.errors import InputError
from calculators.tables import Row, load

BORE_FRICTION = 0.15
"""Friction of the shaft against the bore, opposite the screw (common practice)."""


def point_row(point: str) -> Row:
    """What is known of a grub screw's point.

    Args:
        point: `cup`, `cone`, `flat`, `dog`, `oval` or `brass pad`.

    Returns:
        The row: `share` of the cup point's hold and `friction`.

    Raises:
        InputError: when there is no such point.

    Source: table `set_screw_points`.

    Example:
        >>> point_row("flat")["share"]
        '0.92'
    """
    row = load("set_screw_points").find(point)
    if row is None:
        names = load("set_screw_points").column("point")
        says = f"{point!r} is not a point of grub screws; they are {', '.join(names)}."
        raise InputError.of(says, field="point", choices=names)
    return row


def bore_reaction_n(force_n: float, count: int, apart_deg: float) -> float:
    """The force with which the shaft is pushed against its bore.

    One screw: F. Two screws at an angle a: F sqrt(2 + 2 cos a), so 2 F in line, 1.41 F at 90 degrees.

    Args:
        force_n: force of each point F [N], 0 or more.
        count: 1 or 2 screws.
        apart_deg: angle between two screws, seen along the shaft [deg], 0 to 180.

    Returns:
        The force [N].

    Source: mechanics.

    Example:
        >>> round(bore_reaction_n(100, 2, 90), 1)
        141.4
    """
    return force_n if count == 1 else force_n * sqrt(max(2 + 2 * cosine(radians(apart_deg)), 0.0))


def holding_torque_nm(
    force_n: float,
    shaft_mm: float,
    point_friction: float,
    *,
    bore_friction: float = BORE_FRICTION,
    count: int = 1,
    apart_deg: float = 90.0,
) -> float:
    """The torque that grub screws hold on a smooth shaft by friction.

    M = (n m_p F + m_b R) D / 2, R the force against the bore

    Args:
        force_n: force of each point F [N], 0 or more.
        shaft_mm: diameter of the shaft D [mm], 0.5 to 500.
        point_friction: coefficient at the point m_p, 0 to 1.
        bore_friction: coefficient in the bore m_b, 0 to 1.
        count: 1 or 2 screws.
        apart_deg: angle between two screws, seen along the shaft [deg], 0 to 180.

    Returns:
        The torque [N m].

    Raises:
        InputError: outside those limits.

    Source: mechanics; coefficients by common practice.

    Example:
        >>> round(holding_torque_nm(600, 6, 0.25), 2)
        0.72
    """
    check_between("shaft", shaft_mm, 0.5, 500, "mm")
    check_between("point_friction", point_friction, 0, 1)
    check_between("bore_friction", bore_friction, 0, 1)
    check_between("angle_between", apart_deg, 0, 180, "deg")
    check_between("count", count, 1, 2)
    grip = count * point_friction * force_n + bore_friction * bore_reaction_n(force_n, count, apart_deg)
    return grip * shaft_mm / 2 / 1000


def seated_torque_nm(point_mm: float, shear_mpa: float, shaft_mm: float, count: int = 1) -> float:
    """The torque that shears the points of screws seated in holes or dimples of the shaft.

    M = n t pi/4 d_p^2 D / 2

    Args:
        point_mm: diameter of the point d_p at the shaft's surface [mm], above 0, below the shaft.
        shear_mpa: shear strength of the screw t [MPa], 5 to 1500.
        shaft_mm: diameter of the shaft D [mm], 0.5 to 500.
        count: 1 or 2 screws.

    Returns:
        The torque [N m].

    Raises:
        InputError: outside those limits.

    Source: mechanics.

    Example:
        >>> round(seated_torque_nm(2, 420, 6), 2)
        3.96
    """
    check_between("shear_strength", shear_mpa, 5, 1500, "MPa")
    check_between("shaft", shaft_mm, 0.5, 500, "mm")
    check_between("point_diameter", point_mm, 0.01, shaft_mm, "mm")
    return count * shear_mpa * pi / 4 * point_mm**2 * shaft_mm / 2 / 1000


def holding_row(size: str) -> Row | None:
    """The tabled seating torque and holding power of a cup-pointed grub screw.

    Args:
        size: `#4` to `#10`, `1/4` and so on.

    Returns:
        The row, with `torque` in lbf in and `holding` in lbf at the shaft's surface, or None.

    Source: Shigley Table 7-4 (from memory): table `set_screw_holding`.

    Example:
        >>> holding_row("1/4")["holding"]
        '1000'
    """
    return load("set_screw_holding").find(size)
