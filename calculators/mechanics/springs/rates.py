"""How stiff a coil is: load for each millimetre, moment for each degree, and how fast it shakes."""

from __future__ import annotations

from math import atan, degrees, hypot, pi, sqrt

from calculators.quantities.errors import InputError

LEAST_WIRE_MM, MOST_WIRE_MM = 0.02, 50.0
MOST_DIAMETER_MM = 1000.0
MOST_COILS = 1000.0
"""Beyond these no spring is wound, and nothing overflows within them."""


def spring_index(wire_mm: float, mean_diameter_mm: float) -> float:
    """The index of a coil, which says how sharply its wire is bent.

        C = D/d

    Args:
        wire_mm: [mm] diameter of the wire, 0.02 to 50.
        mean_diameter_mm: [mm] mean diameter of the coil, above the wire's, up to 1000.

    Returns:
        The index [1], above 1.

    Raises:
        InputError: when the wire is outside the limits or the coil no wider than its wire.

    Source: EN 13906-1 (from memory).

    Example:
        >>> spring_index(2, 16)
        8.0
    """
    _within("wire", wire_mm, LEAST_WIRE_MM, MOST_WIRE_MM)
    if not wire_mm < mean_diameter_mm <= MOST_DIAMETER_MM:
        limit = wire_mm if mean_diameter_mm <= wire_mm else MOST_DIAMETER_MM
        raise InputError.of(
            f"A mean diameter of {mean_diameter_mm:.6g} mm cannot be wound of wire of {wire_mm:.6g} mm; "
            f"write one over {wire_mm:.6g} and up to {MOST_DIAMETER_MM:g} mm.",
            field="mean_diameter",
            value=mean_diameter_mm,
            limit=limit,
            unit="mm",
        )
    return mean_diameter_mm / wire_mm


def compression_rate_n_per_mm(
    wire_mm: float, mean_diameter_mm: float, active_coils: float, shear_modulus_mpa: float
) -> float:
    """Rate of a coil that is pressed or pulled along its axis.

        k = G d^4 / (8 D^3 n)

    Args:
        wire_mm: [mm] diameter of the wire, 0.02 to 50.
        mean_diameter_mm: [mm] mean diameter of the coil, above the wire's, up to 1000.
        active_coils: [1] coils that spring, above 0, up to 1000.
        shear_modulus_mpa: [MPa] shear modulus of the wire, 1 to 1 000 000.

    Returns:
        The rate [N/mm]; an extension spring has the same.

    Raises:
        InputError: when a value is outside its limits.

    Source: EN 13906-1, rate of a spring (from memory); Machinery's Handbook, 19th ed., as coded in an open
        Python utilities library (read).

    Example:
        >>> round(compression_rate_n_per_mm(2, 16, 8, 81500), 3)
        4.974
    """
    index = spring_index(wire_mm, mean_diameter_mm)
    _coils(active_coils)
    _within("shear_modulus", shear_modulus_mpa, 1, 1e6, "MPa")
    return shear_modulus_mpa * wire_mm / (8 * index**3 * active_coils)


def torsion_rate_n_mm_per_deg(
    wire_mm: float, mean_diameter_mm: float, active_coils: float, modulus_mpa: float
) -> float:
    """Rate of a coil that is wound up about its axis: its wire is bent.

        k = E d^4 / (64 D n) for each radian

    Args:
        wire_mm: [mm] diameter of the wire, 0.02 to 50.
        mean_diameter_mm: [mm] mean diameter of the coil, above the wire's, up to 1000.
        active_coils: [1] coils that spring, the legs' share included, above 0, up to 1000.
        modulus_mpa: [MPa] modulus of elasticity of the wire, 1 to 1 000 000.

    Returns:
        The moment for each degree [N mm/deg].

    Raises:
        InputError: when a value is outside its limits.

    Source: EN 13906-3, R = E d^4/(3667 D n) (from memory); friction between the coils left out.

    Example:
        >>> round(torsion_rate_n_mm_per_deg(2, 16, 8, 206000), 3)
        7.022
    """
    spring_index(wire_mm, mean_diameter_mm)
    _coils(active_coils)
    _within("modulus", modulus_mpa, 1, 1e6, "MPa")
    per_radian = modulus_mpa * wire_mm**4 / (64 * mean_diameter_mm * active_coils)
    return per_radian * pi / 180


def leg_coils(mean_diameter_mm: float, legs_mm: float) -> float:
    """Coils that the legs of a torsion spring are worth, since they bend too.

        n_e = (l1 + l2)/(3 pi D)

    Args:
        mean_diameter_mm: [mm] mean diameter of the coil, above 0.
        legs_mm: [mm] length of both legs together, from the coil to where they are loaded, 0 or more.

    Returns:
        The coils to be added to those of the body [1].

    Source: Shigley, Mechanical Engineering Design, 9th ed., section 10-12 (from memory).

    Example:
        >>> round(leg_coils(10, 60), 4)
        0.6366
    """
    return legs_mm / (3 * pi * mean_diameter_mm)


def wire_length_mm(mean_diameter_mm: float, pitch_mm: float, coils: float) -> float:
    """Length of wire in a helix.

        l = n sqrt((pi D)^2 + p^2)

    Args:
        mean_diameter_mm: [mm] mean diameter of the coil, above 0.
        pitch_mm: [mm] from coil to coil, 0 or more.
        coils: [1] how many coils, 0 or more.

    Returns:
        The length [mm].

    Source: geometry of the helix.

    Example:
        >>> round(wire_length_mm(10, 3, 8), 2)
        252.47
    """
    return coils * hypot(pi * mean_diameter_mm, pitch_mm)


def wire_mass_kg(wire_mm: float, length_mm: float, density_kg_m3: float) -> float:
    """Mass of round wire.

        m = rho (pi/4) d^2 l

    Args:
        wire_mm: [mm] diameter of the wire, above 0.
        length_mm: [mm] length of the wire, 0 or more.
        density_kg_m3: [kg/m3] density of the wire, above 0.

    Returns:
        The mass [kg].

    Source: geometry.

    Example:
        >>> round(wire_mass_kg(1, 1000, 7850), 5)
        0.00617
    """
    return density_kg_m3 * 1e-9 * pi / 4 * wire_mm**2 * length_mm


def lift_angle_deg(mean_diameter_mm: float, pitch_mm: float) -> float:
    """Angle at which the wire climbs.

        alpha = atan(p/(pi D))

    Args:
        mean_diameter_mm: [mm] mean diameter of the coil, above 0.
        pitch_mm: [mm] from coil to coil, 0 or more.

    Returns:
        The angle [deg].

    Source: geometry of the helix.

    Example:
        >>> round(lift_angle_deg(10, 3), 3)
        5.455
    """
    return degrees(atan(pitch_mm / (pi * mean_diameter_mm)))


def natural_frequency_hz(rate_n_per_mm: float, active_mass_kg: float, *, one_end_free: bool = False) -> float:
    """Lowest frequency at which a spring surges by itself.

        f = (1/2) sqrt(k/m) with both ends held, (1/4) sqrt(k/m) with one end free

    Args:
        rate_n_per_mm: [N/mm] rate of the spring, above 0.
        active_mass_kg: [kg] mass of the coils that spring, above 0.
        one_end_free: whether one end is free to move.

    Returns:
        The frequency [Hz].

    Source: Shigley, Mechanical Engineering Design, 9th ed., equation 10-25 (from memory); Wolford and Smith.

    Example:
        >>> round(natural_frequency_hz(5, 0.01), 1)
        353.6
    """
    return (0.25 if one_end_free else 0.5) * sqrt(rate_n_per_mm * 1000 / active_mass_kg)


def winding_frequency_hz(rate_n_mm_per_deg: float, active_mass_kg: float, mean_diameter_mm: float) -> float:
    """Lowest frequency at which the coils of a torsion spring turn to and fro, both legs held.

        f = (1/2) sqrt(k/I), k the moment for each radian, I = m (D/2)^2

    Args:
        rate_n_mm_per_deg: [N mm/deg] rate of the spring, above 0.
        active_mass_kg: [kg] mass of the coils that spring, above 0.
        mean_diameter_mm: [mm] mean diameter of the coil, above 0.

    Returns:
        The frequency [Hz].

    Source: waves along a uniform chain of turning masses (this project).

    Example:
        >>> round(winding_frequency_hz(7.022, 0.01, 16), 1)
        396.4
    """
    inertia_kg_mm2 = active_mass_kg * mean_diameter_mm**2 / 4
    return 0.5 * sqrt(rate_n_mm_per_deg * 180 / pi * 1000 / inertia_kg_mm2)


def _coils(active_coils: float) -> None:
    if not 0 < active_coils <= MOST_COILS:
        raise InputError.of(
            f"{active_coils:.6g} active coils cannot be; write more than 0 and up to {MOST_COILS:g}.",
            field="active_coils",
            value=active_coils,
            limit=0.0 if active_coils <= 0 else MOST_COILS,
        )


def _within(name: str, value: float, least: float, most: float, unit: str = "mm") -> None:
    if not least <= value <= most:
        raise InputError.of(
            f"A {name.replace('_', ' ')} of {value:.6g} {unit} is outside the limits; "
            f"write {least:g} to {most:g} {unit}.",
            field=name,
            value=value,
            limit=least if value < least else most,
            unit=unit,
        )
