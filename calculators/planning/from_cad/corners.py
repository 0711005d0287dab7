"""An outline of vertices written as the corners of a part."""

from __future__ import annotations

from typing import Literal

from calculators.geometry.outlines import Outline, Vertex, arc_of, pieces
from calculators.planning.model import Corner
from calculators.quantities.length import Length

_HALF_CIRCLE = 180.0 + 1e-6


def corners_of(outline: Outline) -> tuple[Corner, ...]:
    """Write an outline as corners.

    Args:
        outline: a closed outline [mm], from the datum of the part.

    Returns:
        The corners, each length to 1e-7 mm.

    Source: this project.

    Example:
        >>> from calculators.geometry.outlines import circle
        >>> [(one.radius.mm, one.turns, one.long) for one in corners_of(circle(20, 20, 40))]
        [(20.0, 'left', False), (20.0, 'left', False)]
    """
    return tuple(_corner(one, to) for one, to in pieces(outline))


def _corner(one: Vertex, to: Vertex) -> Corner:
    x, y, arc = Length.of_mm(one.x), Length.of_mm(one.y), arc_of(one, to)
    if arc is None:
        return Corner(x, y)
    turns: Literal["left", "right"] = "left" if arc.turn_deg > 0 else "right"
    return Corner(x, y, Length.of_mm(arc.radius), turns, abs(arc.turn_deg) > _HALF_CIRCLE)
