"""How much water wood holds in a room, and how far it moves when that changes."""

from __future__ import annotations

from math import isfinite

FIBRE_SATURATION_PERCENT = 30.0
"""Moisture above which wood neither swells nor shrinks (USDA Wood Handbook ch. 4, from memory)."""

HANDBOOK_RANGE_PERCENT = (6.0, 14.0)
"""Where the coefficients of Table 13-5 hold (USDA Wood Handbook ch. 13)."""

LEAST_C, MOST_C = -1.1, 100.0
"""The temperatures that the handbook's table of equilibrium moisture covers, and a little more."""


def equilibrium_moisture_percent(temperature_c: float, humidity_percent: float) -> float:
    """Moisture content at which wood neither takes up water nor gives it off.

        M = 1800 / W (K h / (1 - K h) + (K1 K h + 2 K1 K2 K^2 h^2) / (1 + K1 K h + K1 K2 K^2 h^2))

    h being the relative humidity as a fraction, and with the temperature T in degrees Celsius
    W = 349 + 1.29 T + 0.0135 T^2, K = 0.805 + 0.000736 T - 0.00000273 T^2,
    K1 = 6.27 - 0.00938 T - 0.000303 T^2, K2 = 1.91 + 0.0407 T - 0.000293 T^2.

    Args:
        temperature_c: [deg C] the air's temperature, -1.1 to 100.
        humidity_percent: [percent] its relative humidity, 0 to 99.

    Returns:
        The moisture content, of the oven-dry mass [percent].

    Source: USDA Wood Handbook, eq. 4-5 (Hailwood and Horrobin, Simpson's coefficients), from memory.

    Example:
        >>> round(equilibrium_moisture_percent(20, 50), 1)
        9.3
    """
    t, h = temperature_c, humidity_percent / 100
    w = 349 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    kh = k * h
    held = (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2)
    return 1800 / w * (kh / (1 - kh) + held)


def humidity_percent_for(temperature_c: float, moisture_percent: float) -> float | None:
    """Relative humidity at which wood comes to a moisture content; the way back of the equilibrium.

    Args:
        temperature_c: [deg C] the air's temperature, -1.1 to 100.
        moisture_percent: [percent] the moisture content, over 0.

    Returns:
        The relative humidity [percent], or None where not even 99 % of it gives so much.

    Source: USDA Wood Handbook, eq. 4-5, solved by halving.

    Example:
        >>> round(humidity_percent_for(20, 9.26))
        50
    """
    low, high = 0.0, 99.0
    if equilibrium_moisture_percent(temperature_c, high) < moisture_percent:
        return None
    for _ in range(60):
        middle = (low + high) / 2
        if equilibrium_moisture_percent(temperature_c, middle) < moisture_percent:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def weighed_moisture_percent(wet_mass: float, oven_dry_mass: float) -> float:
    """Moisture content of a sample by weighing it before and after the oven.

        M = (wet - dry) / dry

    Args:
        wet_mass: mass as it is, in any unit, no less than the other.
        oven_dry_mass: mass after drying at about 103 deg C until it loses no more, over 0, in the same unit.

    Returns:
        The moisture content, of the oven-dry mass [percent].

    Source: USDA Wood Handbook ch. 4 (definition, from memory); ISO 13061-1 (from memory).

    Example:
        >>> weighed_moisture_percent(112, 100)
        12.0
    """
    return (wet_mass - oven_dry_mass) / oven_dry_mass * 100


def moved_mm(width_mm: float, coefficient: float, from_percent: float, to_percent: float) -> float:
    """How much a width changes when the moisture does, by the dimensional change coefficient.

        change = D C (M2 - M1)

    Args:
        width_mm: [mm] the width across the grain at the first moisture content, over 0.
        coefficient: the change of width for each percent of moisture, as a fraction.
        from_percent: [percent] the moisture content at which it was measured.
        to_percent: [percent] the other moisture content.

    Returns:
        The change [mm]; less than nought where it shrinks.

    Source: USDA Wood Handbook, eq. 13-2 (from memory) with Table 13-5.

    Example:
        >>> round(moved_mm(450, 0.00365, 8, 12), 2)
        6.57
    """
    return width_mm * coefficient * (to_percent - from_percent)


def density_kg_m3(gravity_at_12: float, moisture_percent: float) -> float:
    """Density of a wood at a moisture content, from its specific gravity on the volume at 12 percent.

        Gb = G12 / (1 + 0.265 a12 G12),  G = Gb / (1 - 0.265 a Gb),  a = (30 - M) / 30,
        density = 1000 G (1 + M / 100)

    Above 30 percent the volume stays that of green wood (a = 0).

    Args:
        gravity_at_12: specific gravity, oven-dry mass and volume at 12 percent, 0.05 to 1.4.
        moisture_percent: [percent] the moisture content, 0 to 200.

    Returns:
        The density [kg/m3].

    Source: USDA Wood Handbook ch. 4, relations of specific gravity and density (from memory).

    Example:
        >>> round(density_kg_m3(0.68, 12), 1)
        761.6
    """
    share = (FIBRE_SATURATION_PERCENT - 12) / FIBRE_SATURATION_PERCENT
    green = gravity_at_12 / (1 + 0.265 * share * gravity_at_12)
    dry = max(0.0, FIBRE_SATURATION_PERCENT - moisture_percent) / FIBRE_SATURATION_PERCENT
    found = 1000 * green / (1 - 0.265 * dry * green) * (1 + moisture_percent / 100)
    assert isfinite(found)
    return found
