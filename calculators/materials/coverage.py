"""How much glue or finish a surface takes."""

from __future__ import annotations


def finish_litres(area_m2: float, coats: int, spread_m2_per_l: float, waste_percent: float = 0.0) -> float:
    """Litres of finish for a surface.

        litres = area x coats / spread x (1 + waste)

    Args:
        area_m2: [m2] the surface, over 0.
        coats: how many coats, 1 or more.
        spread_m2_per_l: [m2/l] how far a litre goes in one coat, over 0.
        waste_percent: [percent] what stays in brush, rag and tin, 0 or more.

    Returns:
        The finish [l].

    Source: definition of spreading rate.

    Example:
        >>> finish_litres(6, 3, 12)
        1.5
    """
    return area_m2 * coats / spread_m2_per_l * (1 + waste_percent / 100)


def glue_grams(area_m2: float, faces: int, spread_g_per_m2: float, waste_percent: float = 0.0) -> float:
    """Grams of glue for a joint's area.

        mass = area x faces x spread x (1 + waste)

    Args:
        area_m2: [m2] the area that is glued, over 0.
        faces: on how many of the two faces glue is spread, 1 or 2.
        spread_g_per_m2: [g/m2] glue on each face, over 0.
        waste_percent: [percent] what is squeezed out and left in the pot beyond that, 0 or more.

    Returns:
        The glue [g].

    Source: definition of spread.

    Example:
        >>> glue_grams(0.5, 2, 180)
        180.0
    """
    return area_m2 * faces * spread_g_per_m2 * (1 + waste_percent / 100)
