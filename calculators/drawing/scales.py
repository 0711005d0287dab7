"""The scales that drawings are made to."""

from __future__ import annotations

SCALES = tuple(step * 10.0**power for power in (1, 0, -1, -2, -3, -4, -5, -6) for step in (5.0, 2.0, 1.0))
"""The scales of ISO 5455 (from memory), largest first, from 50:1 down."""


def scale_name(scale: float) -> str:
    """Write a scale as a drawing states it.

    Args:
        scale: millimetres on the sheet for one millimetre.

    Returns:
        The scale in the form drawn : true.

    Source: ISO 5455 (from memory).

    Example:
        >>> scale_name(2.0), scale_name(0.2)
        ('2:1', '1:5')
    """
    return f"{scale:.0f}:1" if scale >= 1 else f"1:{round(1 / scale)}"
