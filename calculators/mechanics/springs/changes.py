"""What the rate does when the wire, the coil or the count of coils is off by its tolerance."""

from __future__ import annotations

from dataclasses import dataclass

WIRE_PERCENT, DIAMETER_PERCENT, COILS_OFF = 1.0, 2.0, 0.25
"""Tolerances where none are stated: wire and mean diameter [%], coils [1] (common practice)."""


@dataclass(frozen=True, slots=True)
class Change:
    """What is off, by how much and in which unit, and the rate's change with it less and with it more [%]."""

    of: str
    by: float
    unit: str
    less_percent: float
    more_percent: float


def rate_changes(
    wire_mm: float,
    mean_diameter_mm: float,
    active_coils: float,
    *,
    wound_up: bool = False,
    wire_off_mm: float | None = None,
    diameter_off_mm: float | None = None,
    coils_off: float | None = None,
) -> tuple[Change, ...]:
    """Change of the rate when one dimension is off and the others hold.

        k ~ d^4/(D^3 n) pressed or pulled, d^4/(D n) wound up

    Args:
        wire_mm: [mm] diameter of the wire, above 0.
        mean_diameter_mm: [mm] mean diameter of the coil, above the wire's.
        active_coils: [1] coils that spring, above 0.
        wound_up: whether it is a torsion spring.
        wire_off_mm: [mm] how far the wire may be off, 0 or more; 1 % of it where None.
        diameter_off_mm: [mm] how far the mean diameter may be off, 0 or more; 2 % of it where None.
        coils_off: [1] how many coils may be too many or too few, 0 or more; a quarter where None.

    Returns:
        The changes for wire, mean diameter and coils; a tolerance of nine tenths of the value or more is
        read as nine tenths.

    Source: the formulas of the rate; the tolerances are common practice.

    Example:
        >>> [round(each.more_percent, 2) for each in rate_changes(1, 10, 10)]
        [4.06, -5.77, -2.44]
    """
    power = 1.0 if wound_up else 3.0
    wanted = (
        ("wire", wire_mm, wire_off_mm, wire_mm * WIRE_PERCENT / 100, "mm", 4.0),
        ("mean diameter", mean_diameter_mm, diameter_off_mm, mean_diameter_mm * DIAMETER_PERCENT / 100, "mm",
         -power),
        ("active coils", active_coils, coils_off, COILS_OFF, "1", -1.0),
    )  # fmt: skip
    found = []
    for name, size, stated, usual, unit, exponent in wanted:
        off = min(0.9 * size, usual if stated is None else stated)
        less, more = (100 * ((1 + side * off / size) ** exponent - 1) for side in (-1, 1))
        found.append(Change(name, off, unit, less, more))
    return tuple(found)
