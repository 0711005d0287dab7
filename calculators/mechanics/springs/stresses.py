"""Stress in the wire: the factor for its curvature is always named with it."""

from __future__ import annotations

from collections.abc import Callable
from math import exp, pi


def wahl_factor(index: float) -> float:
    """Wahl's factor: curvature and direct shear at the inside of the coil.

        K = (4C - 1)/(4C - 4) + 0.615/C

    Args:
        index: [1] index of the coil, above 1.

    Returns:
        The factor [1].

    Source: A. M. Wahl, Mechanical Springs; Machinery's Handbook, 19th ed., as coded in an open Python
        utilities library (read).

    Example:
        >>> wahl_factor(6)
        1.2525
    """
    return (4 * index - 1) / (4 * index - 4) + 0.615 / index


def bergstrasser_factor(index: float) -> float:
    """Bergsträsser's factor, the k of EN 13906-1.

        k = (4C + 2)/(4C - 3) = (C + 0.5)/(C - 0.75)

    Args:
        index: [1] index of the coil, above 1.

    Returns:
        The factor [1].

    Source: EN 13906-1, stress correction factor k; Shigley, 9th ed., equation 10-5 (both from memory).

    Example:
        >>> round(bergstrasser_factor(6), 5)
        1.2381
    """
    return (4 * index + 2) / (4 * index - 3)


def direct_shear_factor(index: float) -> float:
    """Factor for direct shear alone: what is left where the curvature has evened itself out.

        K_s = 1 + 0.5/C

    Args:
        index: [1] index of the coil, above 0.

    Returns:
        The factor [1].

    Source: Shigley, Mechanical Engineering Design, 9th ed., equation 10-3 (from memory).

    Example:
        >>> direct_shear_factor(8)
        1.0625
    """
    return 1 + 0.5 / index


def bending_factor(index: float) -> float:
    """Wahl's factor for bending of a curved wire: the stress at the inside of a torsion spring.

        K_i = (4C^2 - C - 1)/(4C (C - 1))

    Args:
        index: [1] index of the coil, above 1.

    Returns:
        The factor [1].

    Source: A. M. Wahl; Shigley, Mechanical Engineering Design, 9th ed., equation 10-43 (from memory).

    Example:
        >>> round(bending_factor(6), 4)
        1.1417
    """
    return (4 * index**2 - index - 1) / (4 * index * (index - 1))


def outer_bending_factor(index: float) -> float:
    """Wahl's factor for bending at the outside of a curved wire.

        K_o = (4C^2 + C - 1)/(4C (C + 1))

    Args:
        index: [1] index of the coil, above 1.

    Returns:
        The factor [1], below 1.

    Source: A. M. Wahl; Shigley, Mechanical Engineering Design, 9th ed., equation 10-43 (from memory).

    Example:
        >>> round(outer_bending_factor(6), 4)
        0.8869
    """
    return (4 * index**2 + index - 1) / (4 * index * (index + 1))


def en_bending_factor(index: float) -> float:
    """The factor q of EN 13906-3 for bending at the inside of a torsion spring.

        q = (C + 0.07)/(C - 0.75)

    Args:
        index: [1] index of the coil, above 1.

    Returns:
        The factor [1].

    Source: EN 13906-3, stress correction factor q (from memory).

    Example:
        >>> round(en_bending_factor(6), 4)
        1.1562
    """
    return (index + 0.07) / (index - 0.75)


SHEAR_FACTORS: dict[str, tuple[str, str, Callable[[float], float]]] = {
    "wahl": ("Wahl", "(4C - 1)/(4C - 4) + 0.615/C", wahl_factor),
    "bergstrasser": ("Bergsträsser", "(4C + 2)/(4C - 3)", bergstrasser_factor),
    "en-13906": ("EN 13906-1, the same as Bergsträsser's", "(C + 0.5)/(C - 0.75)", bergstrasser_factor),
}
"""The factors for a spring pressed or pulled, by choice: name, formula, function."""

BENDING_FACTORS: dict[str, tuple[str, str, Callable[[float], float]]] = {
    "wahl": ("Wahl, inside of the coil", "(4C^2 - C - 1)/(4C (C - 1))", bending_factor),
    "bergstrasser": ("Wahl, inside of the coil", "(4C^2 - C - 1)/(4C (C - 1))", bending_factor),
    "en-13906": ("EN 13906-3", "(C + 0.07)/(C - 0.75)", en_bending_factor),
}
"""The factors for a spring wound up; Bergsträsser gave none for bending, so Wahl's stands for it."""


def shear_stress_mpa(load_n: float, wire_mm: float, mean_diameter_mm: float, factor: float = 1.0) -> float:
    """Shear stress in the wire of a spring pressed or pulled.

        tau = K 8 F D/(pi d^3)

    Args:
        load_n: [N] load along the axis, 0 or more.
        wire_mm: [mm] diameter of the wire, above 0.
        mean_diameter_mm: [mm] mean diameter of the coil, above the wire's.
        factor: [1] factor for the curvature; 1 gives the stress uncorrected.

    Returns:
        The stress [MPa].

    Source: EN 13906-1 (from memory); Machinery's Handbook, 19th ed., as coded in an open Python utilities
        library (read).

    Example:
        >>> round(shear_stress_mpa(100, 2, 16, wahl_factor(8)), 1)
        603.0
    """
    return factor * 8 * load_n * mean_diameter_mm / (pi * wire_mm**3)


def load_at_stress_n(stress_mpa: float, wire_mm: float, mean_diameter_mm: float, factor: float) -> float:
    """Load at which the wire of a spring pressed or pulled has a given stress.

        F = pi d^3 tau/(8 K D)

    Args:
        stress_mpa: [MPa] shear stress, 0 or more.
        wire_mm: [mm] diameter of the wire, above 0.
        mean_diameter_mm: [mm] mean diameter of the coil, above the wire's.
        factor: [1] factor for the curvature, above 0.

    Returns:
        The load [N].

    Source: Machinery's Handbook, 19th ed., as coded in an open Python utilities library (read).

    Example:
        >>> round(load_at_stress_n(603.0, 2, 16, wahl_factor(8)), 1)
        100.0
    """
    return pi * wire_mm**3 * stress_mpa / (8 * factor * mean_diameter_mm)


def bending_stress_mpa(moment_n_mm: float, wire_mm: float, factor: float = 1.0) -> float:
    """Bending stress in round wire.

        sigma = K 32 M/(pi d^3)

    Args:
        moment_n_mm: [N mm] moment that bends the wire, 0 or more.
        wire_mm: [mm] diameter of the wire, above 0.
        factor: [1] factor for the curvature; 1 gives the stress uncorrected.

    Returns:
        The stress [MPa].

    Source: EN 13906-3 (from memory).

    Example:
        >>> round(bending_stress_mpa(100, 2), 2)
        127.32
    """
    return factor * 32 * moment_n_mm / (pi * wire_mm**3)


def hook_bending_stress_mpa(
    load_n: float, wire_mm: float, mean_diameter_mm: float, hook_radius_mm: float
) -> float:
    """Bending stress where a hook curves furthest from the axis.

        sigma_A = F ((K)_A 16 D/(pi d^3) + 4/(pi d^2)),
        (K)_A = (4 C1^2 - C1 - 1)/(4 C1 (C1 - 1)), C1 = 2 r1/d

    Args:
        load_n: [N] pull on the hook, 0 or more.
        wire_mm: [mm] diameter of the wire, above 0.
        mean_diameter_mm: [mm] mean diameter of the coil, twice the arm at which the load bends the hook.
        hook_radius_mm: [mm] mean radius r1 of the hook, above half the wire.

    Returns:
        The stress [MPa].

    Source: Shigley, Mechanical Engineering Design, 9th ed., equations 10-34 and 10-35 (from memory).

    Example:
        >>> round(hook_bending_stress_mpa(10, 1, 10, 5), 1)
        563.1
    """
    factor = bending_factor(2 * hook_radius_mm / wire_mm)
    return load_n * (factor * 16 * mean_diameter_mm / (pi * wire_mm**3) + 4 / (pi * wire_mm**2))


def hook_torsion_stress_mpa(
    load_n: float, wire_mm: float, mean_diameter_mm: float, bend_radius_mm: float
) -> float:
    """Shear stress where a hook is bent up out of the last coil.

        tau_B = (K)_B 8 F D/(pi d^3), (K)_B = (4 C2 - 1)/(4 C2 - 4), C2 = 2 r2/d

    Args:
        load_n: [N] pull on the hook, 0 or more.
        wire_mm: [mm] diameter of the wire, above 0.
        mean_diameter_mm: [mm] mean diameter of the coil, above the wire's.
        bend_radius_mm: [mm] mean radius r2 of that bend, above half the wire.

    Returns:
        The stress [MPa].

    Source: Shigley, Mechanical Engineering Design, 9th ed., equations 10-36 and 10-37 (from memory).

    Example:
        >>> round(hook_torsion_stress_mpa(10, 1, 10, 2), 1)
        318.3
    """
    c2 = 2 * bend_radius_mm / wire_mm
    return shear_stress_mpa(load_n, wire_mm, mean_diameter_mm, (4 * c2 - 1) / (4 * c2 - 4))


def usual_initial_stress_mpa(index: float) -> tuple[float, float]:
    """Range of the uncorrected stress that winding leaves in a close-wound extension spring.

        tau_i = 231/exp(0.105 C) -+ 6.9 (4 - (C - 3)/6.5)

    Args:
        index: [1] index of the coil, 3 to 16; others are read as the nearer of the two.

    Returns:
        The lower and the upper end [MPa].

    Source: Shigley, Mechanical Engineering Design, 9th ed., equation 10-41, metric form (from memory).

    Example:
        >>> [round(each, 1) for each in usual_initial_stress_mpa(8)]
        [77.4, 122.0]
    """
    c = min(16.0, max(3.0, index))
    middle, half = 231 / exp(0.105 * c), 6.9 * (4 - (c - 3) / 6.5)
    return middle - half, middle + half
