"""Shelves: a board with a strip along its front edge, what stands on it, how thick it must be."""

from __future__ import annotations

from collections.abc import Callable

from calculators.mechanics.sections import Piece, Section, section_of
from calculators.tables import load

THICKEST_MM = 500.0
_HALVINGS = 60


def shelf_section(
    width_mm: float,
    thickness_mm: float,
    strip_depth_mm: float | None = None,
    strip_thickness_mm: float | None = None,
    strip_ratio: float = 1.0,
) -> Section:
    """The section of a shelf, its strip glued to the front edge, level at the top.

    Args:
        width_mm: [mm] the board from front to back, above 0.
        thickness_mm: [mm] the board's thickness, above 0.
        strip_depth_mm: [mm] the strip from top to bottom, above 0, or None without one.
        strip_thickness_mm: [mm] the strip from front to back, above 0, or None without one.
        strip_ratio: modulus of the strip over that of the board [1], above 0.

    Returns:
        The section; board and strip bend as one.

    Source: this project; section made all of one material, common practice.

    Example:
        >>> shelf_section(200, 12).second_moment_mm4
        28800.0
    """
    pieces = [Piece("rectangle", width_mm, thickness_mm, 0.0, thickness_mm / 2)]
    if strip_depth_mm is not None and strip_thickness_mm is not None:
        before = -(width_mm + strip_thickness_mm) / 2
        up = thickness_mm - strip_depth_mm / 2
        strip = Piece("rectangle", strip_thickness_mm, strip_depth_mm, before, up, ratio=strip_ratio)
        pieces.append(strip)
    return section_of(pieces, "shelf")


def contents_names() -> tuple[str, ...]:
    """What stands on shelves.

    Returns:
        The names.

    Source: table `shelf_loads`.

    Example:
        >>> "books" in contents_names()
        True
    """
    return load("shelf_loads").column("name")


def contents_mass(name: str) -> tuple[float, str]:
    """How heavy it is for each metre of shelf.

    Args:
        name: one of `contents_names`.

    Returns:
        The mass [kg/m], and what it is with its source.

    Source: table `shelf_loads`.

    Example:
        >>> contents_mass("books")[0]
        30.0
    """
    row = load("shelf_loads").row(name)
    return row.number("mass"), f"{row['says']}: {row.source.says}"


def thickness_needed(sag_of: Callable[[float], float], limit_mm: float) -> float | None:
    """The least thickness at which a sag keeps its limit.

    Args:
        sag_of: the sag [mm] of a thickness [mm]; the thicker the less.
        limit_mm: [mm] the most that is allowed, above 0.

    Returns:
        The thickness [mm], or None where even 500 mm do not do.

    Source: halving of an interval.

    Example:
        >>> round(thickness_needed(lambda t: 1000 / t**3, 1.0), 6)
        10.0
    """
    low, high = 0.1, THICKEST_MM
    if sag_of(high) > limit_mm:
        return None
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if sag_of(middle) > limit_mm else (low, middle)
    return high
