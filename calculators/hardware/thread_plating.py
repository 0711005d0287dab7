"""What plating does to a thread: how much each diameter grows, and how thick a coating there is room for."""

from __future__ import annotations

import math


def pitch_diameter_growth_mm(coating_mm: float, angle_deg: float) -> float:
    """How much a coating adds to the pitch diameter: 2 t / sin a, a being half of the flank angle.

    A flank moves out by t square to itself, which is t / sin a away from the axis, on either side.

    Args:
        coating_mm: [mm] thickness of the coating, 0 or more.
        angle_deg: [deg] flank angle, over 0 and under 180.

    Returns:
        The growth [mm]: 4 t at 60 degrees, 4.33 t at 55, 4.97 t at 47.5.

    Source: ISO 4042, four times the thickness at 60 degrees; geometry for other angles.

    Example:
        >>> round(pitch_diameter_growth_mm(0.005, 60), 6)
        0.02
    """
    return 2 * coating_mm / math.sin(math.radians(angle_deg) / 2)


def greatest_coating_mm(room_mm: float, angle_deg: float) -> float:
    """The thickest coating that uses up no more than some room on the pitch diameter: t = room sin a / 2.

    Args:
        room_mm: [mm] room on the pitch diameter; less than 0 counts as none.
        angle_deg: [deg] flank angle, over 0 and under 180.

    Returns:
        The thickness [mm].

    Source: ASME B1.13M, 8.2: at most a quarter of the allowance at 60 degrees; geometry for other angles.

    Example:
        >>> round(greatest_coating_mm(0.026, 60), 6)
        0.0065
    """
    return max(0.0, room_mm) * math.sin(math.radians(angle_deg) / 2) / 2
