"""How much wood a list of pieces takes: sawn sizes, volume, board feet, quarters of an inch."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

BOARD_FOOT_M3 = 144 * 0.0254**3
"""A board foot [m3]: 144 cubic inches."""

MM3_PER_M3 = 1e9
_QUARTER_MM = 25.4 / 4


@dataclass(frozen=True, slots=True)
class Piece:
    """Finished pieces of one size: how many, along the grain, across it, through it [mm]."""

    count: int
    length_mm: float
    width_mm: float
    thickness_mm: float

    @property
    def volume_m3(self) -> float:
        """The volume of all of them [m3]."""
        return self.count * self.length_mm * self.width_mm * self.thickness_mm / MM3_PER_M3


def sawn(piece: Piece, planing_mm: float, trim_mm: float) -> Piece:
    """The size to have before planing: so much more on each face that is planed, so much on the length.

    Args:
        piece: the finished pieces.
        planing_mm: [mm] what comes off each of the four long faces, 0 or more.
        trim_mm: [mm] what is cut off the length altogether, 0 or more.

    Returns:
        The sawn pieces.

    Source: common practice: 2.5 mm for each planed face, 12 mm on the length.

    Example:
        >>> sawn(Piece(1, 800, 100, 27), 2.5, 12)
        Piece(count=1, length_mm=812, width_mm=105.0, thickness_mm=32.0)
    """
    return Piece(
        piece.count,
        piece.length_mm + trim_mm,
        piece.width_mm + 2 * planing_mm,
        piece.thickness_mm + 2 * planing_mm,
    )


def quarters(thickness_mm: float) -> int:
    """The thickness of sawn hardwood in quarters of an inch that holds a thickness.

    Args:
        thickness_mm: [mm] the sawn thickness, over 0.

    Returns:
        The quarters: 4 for 4/4, which is 25.4 mm.

    Source: American hardwood trade, sold in quarters of an inch (common practice).

    Example:
        >>> quarters(25.4), quarters(27)
        (4, 5)
    """
    return max(4, ceil(round(thickness_mm / _QUARTER_MM, 6)))
