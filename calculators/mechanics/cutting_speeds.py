"""How fast to turn a cutter or a piece of work, and how fast to feed it."""

from __future__ import annotations

from math import pi, radians, tan

from calculators.materials import find_material
from calculators.quantities.errors import InputError
from calculators.tables import Row, load

TOUGH = ("stainless steel", "silver steel", "cast iron", "bronze")
"""The materials of the table of cutting speeds that are fed at half of the usual rate."""


def cutting_speed_row(name: str) -> Row:
    """Find the cutting speeds of a material.

    Args:
        name: the material as people name it.

    Returns:
        Its row of the table of cutting speeds [m/min], or that of its kind.

    Raises:
        InputError: when the material, or a speed for it, is not in the tables.

    Source: the table's own (cutting_speeds.csv).

    Example:
        >>> cutting_speed_row("oak")["material"]
        'hardwood'
    """
    material = find_material(name, field="material")
    rows = load("cutting_speeds").rows
    for row in rows:
        if row["material"] in (material.name, name.strip().lower()):
            return row
    for row in rows:
        if row["kind"] == material.kind:
            return row
    known = tuple(row["material"] for row in rows)
    listed = ", ".join(known)
    says = f"No cutting speed is known for {material.name}; write the cutting_speed, or one of {listed}."
    raise InputError.of(says, field="material", choices=known)


def turns_per_min(speed_m_per_min: float, diameter_mm: float) -> float:
    """Turns a minute at which the rim of a diameter runs at a cutting speed.

        n = 1000 v / (pi d)

    Args:
        speed_m_per_min: [m/min] the cutting speed, over 0.
        diameter_mm: [mm] the diameter of the cutter, or of the work in a lathe, over 0.

    Returns:
        The speed [turns a minute].

    Source: definition of cutting speed.

    Example:
        >>> round(turns_per_min(30, 10))
        955
    """
    return 1000 * speed_m_per_min / (pi * diameter_mm)


def rim_speed_m_per_min(turns: float, diameter_mm: float) -> float:
    """Speed of the rim at a number of turns; the way back of `turns_per_min`.

        v = pi d n / 1000

    Args:
        turns: [turns a minute] the speed, 0 or more.
        diameter_mm: [mm] the diameter, over 0.

    Returns:
        The cutting speed [m/min].

    Source: definition of cutting speed.

    Example:
        >>> round(rim_speed_m_per_min(955, 10))
        30
    """
    return pi * diameter_mm * turns / 1000


def drill_feed_mm(diameter_mm: float, hard: bool) -> float:
    """Feed of a twist drill for each turn.

        f = 0.02 d, half of that in hard or tough material

    Args:
        diameter_mm: [mm] the drill, over 0.
        hard: whether the material is hard or tough.

    Returns:
        The feed [mm a turn], at most 0.4.

    Source: common practice.

    Example:
        >>> drill_feed_mm(5, False)
        0.1
    """
    return min(0.4, 0.02 * diameter_mm * (0.5 if hard else 1.0))


def drill_point_mm(diameter_mm: float, point_angle_deg: float) -> float:
    """Length of a drill's cone.

        h = (d / 2) / tan(angle / 2)

    Args:
        diameter_mm: [mm] the drill, over 0.
        point_angle_deg: [deg] the included angle of its point, over 0 and under 180.

    Returns:
        The length [mm].

    Source: geometry of the cone.

    Example:
        >>> round(drill_point_mm(10, 118), 2)
        3.0
    """
    return diameter_mm / 2 / tan(radians(point_angle_deg) / 2)
