"""Screws and nails in wood: what pulls them out, and what they carry sideways.

The loads are means of tests, in sound seasoned wood; the tables behind them are in `calculators.tables`.
"""

from __future__ import annotations

from itertools import pairwise
from math import sqrt

from calculators.materials.woods import gravity_at_12
from calculators.mechanics.bounds import check_between
from calculators.quantities.errors import InputError
from calculators.tables import Row, load

KINDS = ("wood screw", "coach screw", "nail")
GRAVITY_BASES = ("12 %", "ovendry", "green")
LEAST_GRAVITY, MOST_GRAVITY = 0.1, 1.3
MPA_PER_PSI = 0.45359237 * 9.80665 / 25.4**2
END_GRAIN_WITHDRAWAL = {"wood screw": 0.75, "coach screw": 0.75, "nail": 0.5}
"""Hold along the grain, of that across it: coach screws three quarters (Wood Handbook p. 8-13, read), wood
screws the same (from memory), nails half (from memory: 50 to 75 %)."""
END_GRAIN_LATERAL = 2 / 3
"""Sideways load in end grain, of that in side grain (timber engineering formulas, read)."""
LATERAL_ALLOWABLE = 0.75
"""Allowable sideways load of the load at the proportional limit (the two tables compared; see the table)."""
FULL_SIDEWAYS, LEAST_SIDEWAYS = 7.0, 4.0
"""Depth for the full sideways load and the least at which there is one, in diameters."""


def gravity_on_12(gravity: float, basis: str = "12 %") -> float:
    """Specific gravity on the volume at 12 % moisture from one on another volume.

    From ovendry volume: Gb = G0 / (1 + 0.265 G0), then G12 as from green volume.

    Args:
        gravity: specific gravity, ovendry mass over the volume named by the basis, 0.1 to 1.3.
        basis: the volume it is on: `12 %`, `ovendry` or `green`.

    Returns:
        Specific gravity on the volume at 12 %.

    Raises:
        InputError: outside those limits.

    Source: USDA Wood Handbook ch. 4, from memory.

    Example:
        >>> round(gravity_on_12(0.55, "green"), 2), round(gravity_on_12(0.42, "ovendry"), 3)
        (0.6, 0.402)
    """
    check_between("specific_gravity", gravity, LEAST_GRAVITY, MOST_GRAVITY)
    if basis not in GRAVITY_BASES:
        says = f"{basis!r} is not a basis of specific gravity; they are {', '.join(GRAVITY_BASES)}."
        raise InputError.of(says, field="gravity_basis", choices=GRAVITY_BASES)
    if basis == "12 %":
        return gravity
    return gravity_at_12(gravity if basis == "green" else gravity / (1 + 0.265 * gravity))


def withdrawal_n(
    kind: str, gravity: float, diameter_mm: float, penetration_mm: float, load_kind: str = "ultimate"
) -> float:
    """The load that pulls a screw or nail out of side grain.

    Wood screw p = 108.25 G^2 D L; coach screw p = 125.4 G^1.5 D^0.75 L; nail p = 54.12 G^2.5 D L.

    Args:
        kind: `wood screw`, `coach screw` or `nail`.
        gravity: specific gravity G, on the volume at 12 % moisture (ovendry for `ultimate ovendry`).
        diameter_mm: shank diameter D [mm], 0.5 to 50.
        penetration_mm: length L of thread (of a nail, of shank) in the holding piece [mm], 0 to 2000.
        load_kind: `ultimate`, or for a wood screw the older `allowable`, 2850 G^2 D L in lbf and in; for a
            nail also `ultimate ovendry`, 6900 G^2.5 D L.

    Returns:
        The load [N].

    Raises:
        InputError: outside those limits, or where there is no such rule.

    Source: USDA Wood Handbook ch. 8; FPL-093; timber engineering formulas: table `wood_fastener_loads`.

    Example:
        >>> round(withdrawal_n("wood screw", 0.68, 4.1656, 25), -1)
        5210.0
    """
    check_between("specific_gravity", gravity, LEAST_GRAVITY, MOST_GRAVITY)
    check_between("diameter", diameter_mm, 0.5, 50, "mm")
    check_between("penetration", penetration_mm, 0, 2000, "mm")
    row = withdrawal_row(kind, load_kind)
    power = row.number("diameter_power")
    if row.has("coefficient"):
        coefficient = row.number("coefficient")
    else:
        coefficient = row.number("inch_coefficient") * MPA_PER_PSI * 25.4 ** (1 - power)
    return float(coefficient * gravity ** row.number("gravity_power") * diameter_mm**power * penetration_mm)


def withdrawal_row(kind: str, load_kind: str = "ultimate") -> Row:
    """The row of the table that a withdrawal load is by.

    Args:
        kind: `wood screw`, `coach screw` or `nail`.
        load_kind: as for `withdrawal_n`.

    Returns:
        The row, with coefficient, powers and source.

    Raises:
        InputError: where there is no such rule.

    Source: table `wood_fastener_loads`.

    Example:
        >>> withdrawal_row("nail")["coefficient"]
        '54.12'
    """
    row = load("wood_fastener_loads").find(kind, load_kind)
    if row is None:
        kinds = ", ".join(KINDS)
        says = f"There is no rule for the {load_kind} withdrawal load of a {kind}; kinds are {kinds}."
        raise InputError.of(says, field="kind", choices=KINDS)
    return row


def lateral_row(group: str, gravity: float) -> Row | None:
    """The row of sideways coefficients for a wood.

    Args:
        group: `hardwood`, `softwood`, or empty where it is not known: then the row with the smaller one.
        gravity: specific gravity on the volume at 12 % moisture. Between two ranges the lower one counts,
            above the last the last.

    Returns:
        The row, or None below the lowest range.

    Source: USDA Wood Handbook Table 8-4, from memory: table `wood_lateral_coefficients`.

    Example:
        >>> lateral_row("hardwood", 0.68)["wood_screw"], lateral_row("hardwood", 0.2)
        ('44.13', None)
    """
    found = []
    for name in (group,) if group else ("hardwood", "softwood"):
        fitting = [row for row in _lateral(name) if row.number("gravity_least") <= gravity + 1e-9]
        if not fitting:
            return None
        found.append(fitting[-1])
    return min(found, key=lambda row: row.number("wood_screw"))


def _lateral(group: str) -> tuple[Row, ...]:
    return load("wood_lateral_coefficients").where("group", group)


def lateral_n(kind: str, coefficient: float, diameter_mm: float) -> float:
    """The sideways load at the proportional limit, in side grain, deep enough, along the grain.

    p = K D^2; of a nail p = K D^1.5

    Args:
        kind: `wood screw`, `coach screw` or `nail`.
        coefficient: K, for N and mm.
        diameter_mm: shank diameter D [mm], 0.5 to 50.

    Returns:
        The load [N].

    Raises:
        InputError: outside those limits.

    Source: USDA Wood Handbook ch. 8 (equation 8-15 for coach screws read, the others from memory).

    Example:
        >>> round(lateral_n("wood screw", 44.13, 4.1656))
        766
    """
    check_between("diameter", diameter_mm, 0.5, 50, "mm")
    return coefficient * (diameter_mm * sqrt(diameter_mm) if kind == "nail" else diameter_mm**2)


def full_depth_d(kind: str, gravity: float) -> float:
    """The penetration at which the whole sideways load counts, in diameters.

    Wood screw 7. Coach screw 7 in the harder woods (G over 0.61), 11 in the softer (under 0.42), between
    them by straight line. Nail 10 in the densest to 14 in the lightest woods, likewise.

    Args:
        kind: `wood screw`, `coach screw` or `nail`.
        gravity: specific gravity on the volume at 12 % moisture.

    Returns:
        Diameters.

    Source: USDA Wood Handbook p. 8-13 (coach screws, read); timber engineering formulas (nails: 10, 11, 13
        and 14 diameters by group, read); wood screws from memory.

    Example:
        >>> full_depth_d("wood screw", 0.5), full_depth_d("coach screw", 0.7), full_depth_d("nail", 0.4)
        (7.0, 7.0, 14.0)
    """
    if kind == "wood screw":
        return FULL_SIDEWAYS
    hard, soft = (7.0, 11.0) if kind == "coach screw" else (10.0, 14.0)
    lightness = min(max((0.61 - gravity) / (0.61 - 0.42), 0.0), 1.0)
    return hard + (soft - hard) * lightness


def depth_share(kind: str, depth_d: float, full_d: float) -> float:
    """The share of the sideways load that a lesser penetration leaves.

    L / L_full, but nothing below 4 diameters (a nail: a third of the full depth).

    Args:
        kind: `wood screw`, `coach screw` or `nail`.
        depth_d: penetration in diameters, 0 or more.
        full_d: the penetration for the whole load, in diameters, above 0.

    Returns:
        The share, 0 to 1.

    Source: USDA Wood Handbook ch. 8 (from memory); nails: timber engineering formulas (read).

    Example:
        >>> depth_share("wood screw", 5.25, 7), depth_share("wood screw", 3.9, 7)
        (0.75, 0.0)
    """
    return 0.0 if depth_d < least_depth_d(kind, full_d) - 1e-9 else min(depth_d / full_d, 1.0)


def least_depth_d(kind: str, full_d: float) -> float:
    """The penetration below which no sideways load is to be counted on, in diameters.

    Args:
        kind: `wood screw`, `coach screw` or `nail`.
        full_d: the penetration for the whole load, in diameters.

    Returns:
        Diameters: 4, for a nail a third of the full depth.

    Source: USDA Wood Handbook ch. 8 (from memory); nails: timber engineering formulas (read).

    Example:
        >>> least_depth_d("wood screw", 7.0), least_depth_d("nail", 12.0)
        (4.0, 4.0)
    """
    return full_d / 3 if kind == "nail" else LEAST_SIDEWAYS


def side_member_factor(ratio: float) -> float:
    """The factor on a coach screw's sideways load for the thickness of the side member.

    Args:
        ratio: its thickness over the shank diameter, above 0. Below the table's 2 the factor goes in a
            straight line to nought; above 6.5 it stays.

    Returns:
        The factor, 1 at 3.5.

    Source: USDA Wood Handbook FPL-GTR-190 Table 8-10; below 2 this project, on the safe side.

    Example:
        >>> side_member_factor(5), round(side_member_factor(2.25), 3)
        (1.18, 0.695)
    """
    points = [(0.0, 0.0)]
    points += [(row.number("ratio"), row.number("factor")) for row in load("coach_screw_side_members").rows]
    return _between(points, ratio)


def across_grain_factor(diameter_mm: float) -> float:
    """The factor on a coach screw's sideways load where it pushes across the grain.

    Args:
        diameter_mm: shank diameter [mm]; outside 4.8 to 25.4 the end of the table counts.

    Returns:
        The factor.

    Source: USDA Wood Handbook FPL-GTR-190 Table 8-11.

    Example:
        >>> across_grain_factor(9.5)
        0.76
    """
    points = [(r.number("diameter"), r.number("factor")) for r in load("coach_screw_across_grain").rows]
    return _between(points, diameter_mm)


def _between(points: list[tuple[float, float]], at: float) -> float:
    if at <= points[0][0]:
        return points[0][1]
    for (low, first), (high, second) in pairwise(points):
        if at <= high:
            return first + (second - first) * (at - low) / (high - low)
    return points[-1][1]
