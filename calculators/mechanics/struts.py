"""Struts: the load at which a rod or batten pushed at its ends bends out sideways or is crushed."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from calculators.quantities.errors import InputError

ENDS: dict[str, tuple[float, float]] = {
    "pinned": (1.0, 1.0),
    "fixed": (0.5, 0.65),
    "fixed-and-pinned": (0.7, 0.8),
    "fixed-and-free": (2.0, 2.1),
    "fixed-and-guided": (1.0, 1.2),
    "pinned-and-guided": (2.0, 2.0),
}
"""How the two ends are held, with the effective length over the length: as theory has it, and as is advised
for real ends (AISC 360 commentary, table C-A-7.1, from memory)."""

WOOD_CRUSHING = 0.45
"""Crushing strength along the grain over modulus of rupture, on the low side of the woods of the Wood
Handbook's table 5-3, which have about 0.45 to 0.6 (from memory)."""


@dataclass(frozen=True, slots=True)
class Strut:
    """A strut's loads [N], its slenderness, and the rule that governs: `Euler` or `Johnson`."""

    effective_mm: float
    slenderness: float
    slenderness_limit: float
    euler_n: float
    johnson_n: float | None
    rankine_n: float
    squash_n: float
    rule: str

    @property
    def buckling_n(self) -> float:
        """The load at which it fails: Euler's where it is slender, Johnson's where it is not."""
        return self.euler_n if self.johnson_n is None else self.johnson_n


def euler_load(modulus_mpa: float, second_moment_mm4: float, effective_mm: float) -> float:
    """Euler's load of a slender strut.

    P = pi^2 E I / (K L)^2

    Args:
        modulus_mpa: [MPa] modulus of elasticity, above 0.
        second_moment_mm4: [mm4] the least second moment of its section, above 0.
        effective_mm: [mm] effective length K L, above 0.

    Returns:
        The load [N].

    Source: Euler 1744, as in every handbook (from memory).

    Example:
        >>> round(euler_load(11000, 1000, 500), 1)
        434.3
    """
    return pi**2 * modulus_mpa * second_moment_mm4 / effective_mm**2


def strut_of(
    modulus_mpa: float,
    strength_mpa: float,
    area_mm2: float,
    second_moment_mm4: float,
    effective_mm: float,
) -> Strut:
    """Work out at what load a strut fails.

    lambda = K L / r; above sqrt(2) pi sqrt(E / s) Euler, below it Johnson s A (1 - s lambda^2 / (4 pi^2 E));
    Rankine: 1 / P = 1 / (s A) + 1 / P_Euler

    Args:
        modulus_mpa: [MPa] modulus of elasticity, above 0.
        strength_mpa: [MPa] yield or crushing strength, above 0.
        area_mm2: [mm2] area, above 0.
        second_moment_mm4: [mm4] the least second moment, above 0.
        effective_mm: [mm] effective length, above 0.

    Returns:
        The strut.

    Source: J. B. Johnson's parabola and Rankine's formula: Machinery's Handbook, Columns (from memory).

    Example:
        >>> strut_of(205000, 250, 78.54, 490.87, 500).rule
        'Euler'
    """
    gyration = sqrt(second_moment_mm4 / area_mm2)
    slenderness = effective_mm / gyration
    limit = pi * sqrt(2 * modulus_mpa / strength_mpa)
    euler, squash = euler_load(modulus_mpa, second_moment_mm4, effective_mm), strength_mpa * area_mm2
    johnson = None
    if slenderness < limit:
        johnson = squash * (1 - strength_mpa * slenderness**2 / (4 * pi**2 * modulus_mpa))
    return Strut(
        effective_mm, slenderness, limit, euler, johnson, 1 / (1 / squash + 1 / euler), squash,
        "Euler" if johnson is None else "Johnson",
    )  # fmt: skip


def effective_share(ends: str, *, advised: bool) -> float:
    """The effective length over the length.

    Args:
        ends: one of `ENDS`.
        advised: whether as advised for real ends, which give a little; otherwise as theory has it.

    Returns:
        The factor K [1].

    Raises:
        InputError: when there are no such ends.

    Source: AISC 360 commentary, table C-A-7.1 (from memory).

    Example:
        >>> effective_share("fixed", advised=False)
        0.5
    """
    if ends not in ENDS:
        raise InputError.of(f"There are no ends {ends!r}; write one of {', '.join(ENDS)}.", field="ends")
    return ENDS[ends][1 if advised else 0]
