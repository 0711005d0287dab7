"""What stands about a screw in wood: its head on the side piece, its own metal, pilot, ends and edges."""

from __future__ import annotations

from math import pi

from calculators.hardware.wood_screws import PILOT_HARDWOOD, PILOT_SOFTWOOD
from calculators.mechanics.bounds import check_between
from calculators.mechanics.screws_in_wood import MPA_PER_PSI
from calculators.quantities.errors import InputError
from calculators.tables import Row, load

THICK_HEADS = 2.5
"""A side piece this many heads thick, or thicker, counts as so thick."""


def head_pull_through_n(gravity: float, head_mm: float, thickness_mm: float) -> float:
    """The allowable load that a round head bears before it is drawn through the side piece.

    W = 690 pi D_H G^2 t up to t = 2.5 D_H, then 1725 pi D_H^2 G^2, in lbf and in.

    Args:
        gravity: specific gravity of the side piece, ovendry basis, 0.1 to 1.3.
        head_mm: diameter of head or washer D_H [mm], 1 to 200.
        thickness_mm: thickness t of the side piece under the head [mm], above 0 to 1000.

    Returns:
        The load [N], with the standard's own margin.

    Raises:
        InputError: outside those limits.

    Source: NDS 2018, 12.2.5 (from memory).

    Example:
        >>> round(head_pull_through_n(0.5, 8, 18))
        538
    """
    check_between("specific_gravity", gravity, 0.1, 1.3)
    check_between("head", head_mm, 1, 200, "mm")
    check_between("side_thickness", thickness_mm, 0.01, 1000, "mm")
    thin = thickness_mm <= THICK_HEADS * head_mm
    row = load("wood_fastener_loads").row("head", "thin side piece" if thin else "thick side piece")
    span = thickness_mm if thin else head_mm
    return row.number("inch_coefficient") * MPA_PER_PSI * pi * head_mm * span * gravity**2


def crushing_n(perpendicular_mpa: float, outside_mm: float, opening_mm: float) -> float:
    """The load at which head or washer begins to sink into the wood.

    F = s pi / 4 (OD^2 - d^2)

    Args:
        perpendicular_mpa: compression across the grain at its proportional limit s [MPa], above 0 to 50.
        outside_mm: diameter of head or washer [mm], 1 to 200.
        opening_mm: diameter of the hole in the wood or of the washer [mm], 0 or more, below the outside.

    Returns:
        The load [N].

    Raises:
        InputError: outside those limits.

    Source: mechanics; strength by USDA Wood Handbook Table 5-3.

    Example:
        >>> round(crushing_n(7.4, 8.43, 4.3))
        306
    """
    check_between("strength", perpendicular_mpa, 0.01, 50, "MPa")
    check_between("head", outside_mm, 1, 200, "mm")
    if not 0 <= opening_mm < outside_mm:
        raise InputError.of(
            f"The hole of {opening_mm:g} mm leaves nothing of the head of {outside_mm:g} mm to bear; "
            "give a wider head or a washer.",
            field="head",
            value=outside_mm,
            limit=opening_mm,
            unit="mm",
        )
    return perpendicular_mpa * pi / 4 * (outside_mm**2 - opening_mm**2)


def metal_row(metal: str) -> Row:
    """The strength of the metal that a wood screw is of.

    Args:
        metal: `steel`, `hardened steel`, `stainless`, `brass` or `coach screw steel`.

    Returns:
        The row, with tensile and shear strength in MPa.

    Raises:
        InputError: when the metal is not listed.

    Source: table `screw_metals`.

    Example:
        >>> metal_row("brass")["tensile"]
        '370'
    """
    row = load("screw_metals").find(metal)
    if row is None:
        names = load("screw_metals").column("metal")
        says = f"{metal!r} is not a metal of screws that is listed; they are {', '.join(names)}."
        raise InputError.of(says, field="metal", choices=names)
    return row


def screw_tension_n(root_mm: float, tensile_mpa: float) -> float:
    """The load that breaks the screw itself at its root.

    F = pi / 4 d^2 R

    Args:
        root_mm: root diameter d [mm], 0.1 to 50.
        tensile_mpa: tensile strength R [MPa], 10 to 2500.

    Returns:
        The load [N].

    Raises:
        InputError: outside those limits.

    Source: mechanics.

    Example:
        >>> round(screw_tension_n(2.78, 370))
        2246
    """
    check_between("root", root_mm, 0.1, 50, "mm")
    check_between("tensile_strength", tensile_mpa, 10, 2500, "MPa")
    return pi / 4 * root_mm**2 * tensile_mpa


def pilot_band_mm(
    kind: str, gravity: float, hardwood: bool, shank_mm: float, root_mm: float
) -> tuple[float, float]:
    """The pilot holes that are usual.

    Wood screw: 65 to 75 % of the root in softwood (70), 85 to 100 % in hardwood (90). Coach screw: by
    specific gravity 40 to 70, 60 to 75 or 65 to 85 % of the shank. Nail: up to 75 % of the shank.

    Args:
        kind: `wood screw`, `coach screw` or `nail`.
        gravity: specific gravity on the volume at 12 % moisture.
        hardwood: whether a wood screw's hole goes by hardwood.
        shank_mm: shank diameter [mm].
        root_mm: root diameter [mm].

    Returns:
        The smallest and the largest [mm].

    Source: Wood Handbook and NDS lead holes (read as quoted for wood screws, the others from memory).

    Example:
        >>> [round(each, 2) for each in pilot_band_mm("wood screw", 0.68, True, 4.17, 2.78)]
        [2.36, 2.78]
    """
    if kind == "nail":
        return 0.0, 0.75 * shank_mm
    if kind == "coach screw":
        rows = [r for r in load("coach_screw_pilots").rows if r.number("gravity_over") < gravity]
        return rows[-1].number("least") / 100 * shank_mm, rows[-1].number("most") / 100 * shank_mm
    return (0.85 * root_mm, root_mm) if hardwood else (0.65 * root_mm, 0.75 * root_mm)


def pilot_mm(kind: str, gravity: float, hardwood: bool, shank_mm: float, root_mm: float) -> float:
    """The pilot hole to begin with.

    Args:
        kind: `wood screw`, `coach screw` or `nail`.
        gravity: specific gravity on the volume at 12 % moisture.
        hardwood: whether a wood screw's hole goes by hardwood.
        shank_mm: shank diameter [mm].
        root_mm: root diameter [mm].

    Returns:
        90 or 70 % of the root for a wood screw, the middle of the band for a coach screw, 75 % of the shank
        for a nail [mm].

    Source: as `pilot_band_mm`.

    Example:
        >>> round(pilot_mm("wood screw", 0.68, True, 4.17, 2.78), 2)
        2.5
    """
    if kind == "wood screw":
        return (PILOT_HARDWOOD if hardwood else PILOT_SOFTWOOD) * root_mm
    least, most = pilot_band_mm(kind, gravity, hardwood, shank_mm, root_mm)
    return most if kind == "nail" else (least + most) / 2


def distance_row(drilled: bool) -> Row:
    """How far from ends and edges a screw or nail should stand, in diameters.

    Args:
        drilled: whether a pilot hole is drilled.

    Returns:
        The row: end, loaded end, edge, loaded edge.

    Source: EN 1995-1-1 Table 8.2 (from memory).

    Example:
        >>> distance_row(True)["end"], distance_row(False)["end_loaded"]
        ('7', '15')
    """
    return load("wood_screw_distances").row("pilot drilled" if drilled else "not drilled")
