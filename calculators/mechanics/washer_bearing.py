"""Washers on wood: the area that bears, the pressure, what the wood stands, how stiff a washer must be."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from calculators.hardware.washers import WasherSize, washer_of
from calculators.quantities.errors import InputError

WIDER = 1.1
"""A hole this much wider than the washer's own takes its place in the area: the wood is gone there."""
STIFF = 12.0
"""A washer spreads its overhang (outside less head, both sides) when it is a twelfth of it thick (common
practice)."""


def bearing_opening_mm(hole_mm: float, inside_mm: float | None) -> float:
    """The diameter within which nothing bears: the washer's hole, or the hole in the wood where wider.

    Args:
        hole_mm: hole in the wood [mm], 0 or more.
        inside_mm: the washer's own hole [mm], or None without a washer.

    Returns:
        The diameter [mm]; a hole in the wood counts where it is more than a tenth wider than the washer's.

    Source: common practice.

    Example:
        >>> bearing_opening_mm(6.5, 6.4), bearing_opening_mm(9.0, 6.4)
        (6.4, 9.0)
    """
    return inside_mm if inside_mm is not None and hole_mm <= inside_mm * WIDER else hole_mm


def ring_area_mm2(outside_mm: float, opening_mm: float) -> float:
    """The area of a ring.

    A = pi / 4 (OD^2 - d^2)

    Args:
        outside_mm: outside diameter [mm].
        opening_mm: inside diameter [mm], 0 or more and below the outside.

    Returns:
        The area [mm2].

    Raises:
        InputError: when the opening is as wide as the outside.

    Source: geometry.

    Example:
        >>> round(ring_area_mm2(25, 6.4))
        459
    """
    if not 0 <= opening_mm < outside_mm:
        raise InputError.of(
            f"The hole of {opening_mm:g} mm leaves nothing of a washer of {outside_mm:g} mm to bear; "
            "give a larger washer.",
            field="outside",
            value=outside_mm,
            limit=opening_mm,
            unit="mm",
        )
    return pi / 4 * (outside_mm**2 - opening_mm**2)


def thickness_needed_mm(outside_mm: float, head_mm: float) -> float:
    """How thick a washer must be, or it dishes and presses at its hole alone.

    t = (OD - s) / 12

    Args:
        outside_mm: the washer's outside diameter OD [mm].
        head_mm: width across flats, or diameter, of the head or nut on it s [mm].

    Returns:
        The thickness [mm], 0 or more.

    Source: common practice (steel).

    Example:
        >>> round(thickness_needed_mm(25, 10), 2)
        1.25
    """
    return max(outside_mm - head_mm, 0.0) / STIFF


@dataclass(frozen=True, slots=True)
class Choice:
    """A washer from the tables: its form, its sizes and the preload that the wood bears under it [N]."""

    form: str
    size: WasherSize
    bears_n: float


def washers_for(size: str, hole_mm: float, strength_mpa: float) -> tuple[Choice, ...]:
    """The washers of the tables for a screw, with what the wood bears under each.

    Args:
        size: the thread.
        hole_mm: hole in the wood [mm], 0 or more.
        strength_mpa: the pressure that is allowed on the wood [MPa], above 0.

    Returns:
        The choices, from the smallest; those that the hole swallows are left out.

    Source: tables `washers` and common proportions; strength by USDA Wood Handbook Table 5-3.

    Example:
        >>> [(each.form, round(each.bears_n)) for each in washers_for("M6", 6.6, 7.4)]
        [('small', 465), ('plain', 599), ('repair', 1645)]
    """
    found = []
    for form in ("small", "plain", "repair"):
        try:
            washer = washer_of(size, form)
        except InputError:
            continue
        opening = bearing_opening_mm(hole_mm, washer.inside_mm)
        if opening < washer.outside_mm:
            bears = strength_mpa * ring_area_mm2(washer.outside_mm, opening)
            found.append(Choice(form, washer, bears))
    return tuple(sorted(found, key=lambda each: each.bears_n))
