"""A knife edge in a V: how far it swings, and how hard it presses where it touches."""

from __future__ import annotations

import math

from calculators.mechanics.pivot.model import STANDARD_GRAVITY
from calculators.quantities.errors import InputError

MARGIN_DEG = 1.0
"""[deg] What is left between stop and flank (common practice)."""

FLAT_DEG = 180.0

LIMIT_SHARE_OF_HARDNESS = 1.67 / 3
"""Greatest pressure at first yield in line contact is 1.67 Y (Tresca; K. L. Johnson, Contact Mechanics,
1985; from memory), and the hardness is near 3 Y (D. Tabor, The Hardness of Metals, 1951; from memory)."""


def swing_each_way(edge_angle_deg: float, v_angle_deg: float, lean_deg: float = 0.0) -> tuple[float, float]:
    """How far a knife edge swings in a V until its flank lies on the V's.

    a = (V - E)/2 to each side of where the edge stands in the middle of the V.

    Args:
        edge_angle_deg: [deg] included angle of the edge, over 0, under that of the V.
        v_angle_deg: [deg] included angle of the V, to 180 (a flat bed).
        lean_deg: [deg] the angle of the lever at which the edge stands in the middle.

    Returns:
        The clockwise and the anticlockwise limit [deg].

    Raises:
        InputError: when the edge is not more acute than the V, or the lever as drawn is beyond a limit.

    Source: geometry.

    Example:
        >>> swing_each_way(60, 70), swing_each_way(60, 90)
        ((-5.0, 5.0), (-15.0, 15.0))
    """
    if not 0 < edge_angle_deg < v_angle_deg <= FLAT_DEG:
        says = (
            f"An edge of {edge_angle_deg:g} deg cannot swing in a V of {v_angle_deg:g} deg; write an angle "
            "of the edge over 0 deg and less than that of the V, and of the V no more than 180 deg."
        )
        raise InputError.of(says, field="edge_angle", value=edge_angle_deg, limit=v_angle_deg, unit="deg")
    half = (v_angle_deg - edge_angle_deg) / 2
    if abs(lean_deg) > half:
        says = (
            f"The edge stands {abs(lean_deg):g} deg off the middle of the V as drawn, more than the "
            f"{half:g} deg that it swings to each side; write a smaller lean or a wider V."
        )
        raise InputError.of(says, field="edge_lean", value=abs(lean_deg), limit=half, unit="deg")
    return lean_deg - half, lean_deg + half


def load_on_line(load_n: float, length_mm: float, v_angle_deg: float, *, rolls: bool) -> float:
    """The load on each line of contact of an edge, for each millimetre of it.

    w = F/l on one line; w = F/(2 l sin(V/2)) on each flank where the rounded edge lies in a sharp V.

    Args:
        load_n: [N] force that presses the edge into its bed, 0 or more.
        length_mm: [mm] length of edge that bears, over 0.
        v_angle_deg: [deg] included angle of the V, over 0 to 180.
        rolls: whether the edge bears on one line: a flat bed, or a V whose bottom is rounder than the edge.

    Returns:
        The load [N/mm].

    Raises:
        InputError: when one of them is outside its limits.

    Source: equilibrium of a round bar in a V without friction (statics).

    Example:
        >>> round(load_on_line(10, 5, 60, rolls=False), 9), load_on_line(10, 5, 90, rolls=True)
        (2.0, 2.0)
    """
    if load_n < 0 or length_mm <= 0 or not 0 < v_angle_deg <= FLAT_DEG:
        says = "The load is 0 N or more, the bearing length over 0 mm and the V over 0 to 180 deg."
        raise InputError.of(says, field="load")
    if rolls or v_angle_deg == FLAT_DEG:
        return load_n / length_mm
    return load_n / (2 * length_mm * math.sin(math.radians(v_angle_deg) / 2))


def relative_radius(edge_radius_mm: float, bed_radius_mm: float | None) -> float:
    """The radius of a round edge on a flat that presses as an edge in a hollow does.

    1/R = 1/r - 1/r_b

    Args:
        edge_radius_mm: [mm] radius of the edge, over 0.
        bed_radius_mm: [mm] radius of the hollow, more than that of the edge; None for a flat.

    Returns:
        The radius [mm].

    Raises:
        InputError: when the hollow is not rounder than the edge.

    Source: Hertz; Roark's Formulas for Stress and Strain, contact of cylinders (from memory).

    Example:
        >>> round(relative_radius(0.02, 0.1), 6), relative_radius(0.02, None)
        (0.025, 0.02)
    """
    if edge_radius_mm <= 0 or (bed_radius_mm is not None and bed_radius_mm <= edge_radius_mm):
        says = (
            f"An edge of radius {edge_radius_mm:g} mm does not seat in a bottom of radius "
            f"{bed_radius_mm or 0:g} mm; write a radius of the bottom that is larger than that of the edge."
        )
        raise InputError.of(says, field="bed_radius", value=bed_radius_mm, limit=edge_radius_mm, unit="mm")
    return edge_radius_mm if bed_radius_mm is None else 1 / (1 / edge_radius_mm - 1 / bed_radius_mm)


def contact_modulus(
    modulus_mpa: float, bed_modulus_mpa: float, poisson: float = 0.3, bed_poisson: float = 0.3
) -> float:
    """The modulus that two bodies in contact have together.

    1/E* = (1 - n1^2)/E1 + (1 - n2^2)/E2

    Args:
        modulus_mpa: [MPa] modulus of elasticity of the edge, over 0.
        bed_modulus_mpa: [MPa] the same of the bed, over 0.
        poisson: [1] Poisson's ratio of the edge, 0 to 0.5.
        bed_poisson: [1] the same of the bed.

    Returns:
        The modulus [MPa].

    Raises:
        InputError: when a modulus is not over 0 or a ratio is outside 0 to 0.5.

    Source: Hertz; K. L. Johnson, Contact Mechanics, 1985, section 4.2 (from memory).

    Example:
        >>> round(contact_modulus(207_000, 207_000))
        113736
    """
    if min(modulus_mpa, bed_modulus_mpa) <= 0 or not (0 <= poisson <= 0.5 and 0 <= bed_poisson <= 0.5):
        raise InputError.of(
            "A modulus of elasticity is over 0 MPa and Poisson's ratio 0 to 0.5.", field="modulus"
        )
    return 1 / ((1 - poisson**2) / modulus_mpa + (1 - bed_poisson**2) / bed_modulus_mpa)


def contact_half_width(load_n_per_mm: float, radius_mm: float, modulus_mpa: float) -> float:
    """Half the width of the strip in which an edge touches its bed.

    b = sqrt(4 w R/(pi E*))

    Args:
        load_n_per_mm: [N/mm] load on the line, 0 or more.
        radius_mm: [mm] relative radius, over 0.
        modulus_mpa: [MPa] modulus of the two together, over 0.

    Returns:
        The half width [mm].

    Raises:
        InputError: when one of them is outside its limits.

    Source: Hertz, line contact; K. L. Johnson, Contact Mechanics, 1985, eq. 4.43 (from memory).

    Example:
        >>> round(contact_half_width(2.0, 0.02, 113_736), 6)
        0.000669
    """
    if load_n_per_mm < 0 or radius_mm <= 0 or modulus_mpa <= 0:
        says = "The load on the line is 0 N/mm or more, and the radius and the modulus are over 0."
        raise InputError.of(says, field="load")
    return math.sqrt(4 * load_n_per_mm * radius_mm / (math.pi * modulus_mpa))


def contact_pressure(load_n_per_mm: float, radius_mm: float, modulus_mpa: float) -> float:
    """The greatest pressure between an edge and its bed.

    p = sqrt(w E*/(pi R))

    Args:
        load_n_per_mm: [N/mm] load on the line, 0 or more.
        radius_mm: [mm] relative radius, over 0.
        modulus_mpa: [MPa] modulus of the two together, over 0.

    Returns:
        The pressure [MPa].

    Raises:
        InputError: when one of them is outside its limits.

    Source: Hertz, line contact; K. L. Johnson, Contact Mechanics, 1985, eq. 4.45 (from memory).

    Example:
        >>> round(contact_pressure(2.0, 0.02, 113_736))
        1903
    """
    if load_n_per_mm < 0 or radius_mm <= 0 or modulus_mpa <= 0:
        says = "The load on the line is 0 N/mm or more, and the radius and the modulus are over 0."
        raise InputError.of(says, field="load")
    return math.sqrt(load_n_per_mm * modulus_mpa / (math.pi * radius_mm))


def pressure_limit(hardness_hv: float) -> float:
    """The pressure at which an edge of a hardness begins to take a flat.

    p = 1.67 Y, Y = 9.80665 HV/3

    Args:
        hardness_hv: [HV] Vickers hardness of the softer of edge and bed, over 0.

    Returns:
        The pressure [MPa].

    Raises:
        InputError: when the hardness is not over 0.

    Source: first yield in line contact: K. L. Johnson, Contact Mechanics, 1985; hardness and yield: D. Tabor,
        The Hardness of Metals, 1951 (both from memory).

    Example:
        >>> round(pressure_limit(697))
        3805
    """
    if hardness_hv <= 0:
        raise InputError.of("A hardness is over 0 HV.", field="hardness", value=hardness_hv, limit=0.0)
    return LIMIT_SHARE_OF_HARDNESS * STANDARD_GRAVITY * hardness_hv
