"""The shape of a coil: end coils, solid length, pitch, and how its diameter changes as it works."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from calculators.quantities.errors import InputError


@dataclass(frozen=True, slots=True)
class End:
    """A form of the ends of a compression spring.

    `dead` coils carry no travel. The free length is `pitches` pitches more than the active coils' and
    `wires` wires; solid it is as many wires as it has coils and `solid_wires` more.
    """

    name: str
    dead: float
    pitches: float
    wires: float
    solid_wires: float


ENDS: dict[str, End] = {
    "closed-and-ground": End("closed and ground", 2, 0, 2, 0),
    "closed": End("closed, not ground", 2, 0, 3, 1),
    "open-and-ground": End("open and ground", 1, 1, 0, 0),
    "open": End("open, not ground", 0, 0, 1, 1),
}
"""Ends of compression springs: Shigley, 9th ed., table 10-1 (from memory)."""


def solid_length_mm(ends: str, wire_mm: float, total_coils: float) -> float:
    """Length of a compression spring with all of its coils closed.

        L_c = d n_t (ground), d (n_t + 1) (not ground)

    Args:
        ends: one of `ENDS`.
        wire_mm: [mm] diameter of the wire, above 0.
        total_coils: [1] all coils, above 0.

    Returns:
        The length [mm].

    Source: Shigley, Mechanical Engineering Design, 9th ed., table 10-1 (from memory).

    Example:
        >>> solid_length_mm("closed-and-ground", 2, 10), solid_length_mm("open", 2, 10)
        (20.0, 22.0)
    """
    return float(wire_mm * (total_coils + ENDS[ends].solid_wires))


def pitch_mm(ends: str, wire_mm: float, active_coils: float, free_length_mm: float) -> float:
    """Distance from coil to coil of a compression spring without load.

        p = (L0 - 2d)/n, (L0 - 3d)/n, L0/(n + 1), (L0 - d)/n

    for closed and ground, closed, open and ground, open ends.

    Args:
        ends: one of `ENDS`.
        wire_mm: [mm] diameter of the wire, above 0.
        active_coils: [1] coils that spring, above 0.
        free_length_mm: [mm] length without load, above the solid length.

    Returns:
        The pitch [mm].

    Source: Shigley, Mechanical Engineering Design, 9th ed., table 10-1 (from memory).

    Example:
        >>> pitch_mm("closed-and-ground", 2, 8, 60)
        7.0
    """
    end = ENDS[ends]
    return (free_length_mm - end.wires * wire_mm) / (active_coils + end.pitches)


def solid_outside_mm(wire_mm: float, mean_diameter_mm: float, pitch: float) -> float:
    """Outside diameter of a compression spring pressed solid; it grows since the wire lies flatter.

        D_o = sqrt(D^2 + (p^2 - d^2)/pi^2) + d

    Args:
        wire_mm: [mm] diameter of the wire, above 0.
        mean_diameter_mm: [mm] mean diameter without load, above the wire's.
        pitch: [mm] pitch without load, the wire's diameter or more.

    Returns:
        The outside diameter [mm], with ends that are free to turn.

    Source: EN 13906-1; spring makers' handbooks (from memory).

    Example:
        >>> round(solid_outside_mm(2, 16, 7), 3)
        18.142
    """
    return sqrt(mean_diameter_mm**2 + max(0.0, pitch**2 - wire_mm**2) / pi**2) + wire_mm


def wound_mean_mm(mean_diameter_mm: float, body_coils: float, turned_deg: float) -> float:
    """Mean diameter of a torsion spring that is wound up: the same wire in more coils.

        D' = D n_b/(n_b + theta/360)

    Args:
        mean_diameter_mm: [mm] mean diameter without load, above 0.
        body_coils: [1] coils of the body, above 0.
        turned_deg: [deg] angle by which it is wound up, 0 or more.

    Returns:
        The mean diameter [mm].

    Source: Shigley, Mechanical Engineering Design, 9th ed., equation 10-51 (from memory).

    Example:
        >>> round(wound_mean_mm(16, 8, 90), 3)
        15.515
    """
    return mean_diameter_mm * body_coils / (body_coils + turned_deg / 360)


@dataclass(frozen=True, slots=True)
class Hook:
    """A form of the ends of an extension spring.

    `bent` says whether wire is bent into a hook; a plug has none. `inside` is the length of one hook from
    the body to the inside of its bow, in inside diameters of the coil.
    """

    name: str
    bent: bool
    inside: float


HOOKS: dict[str, Hook] = {
    "centre-hook": Hook("full loop over the centre", True, 1.0),
    "side-hook": Hook("full loop at the side", True, 1.0),
    "half-hook": Hook("half loop over the centre", True, 0.55),
    "plug": Hook("screwed-in plug, no hook", False, 0.0),
}
"""Ends of extension springs: forms and lengths of EN 13906-2 (from memory, loops of the coil's own size)."""


def extension_free_length_mm(ends: str, wire_mm: float, mean_diameter_mm: float, body_coils: float) -> float:
    """Length of a close-wound extension spring without load, from inside hook to inside hook.

        L0 = 2 h (D - d) + (n_b + 1) d, h the hook's length in inside diameters

    Args:
        ends: one of `HOOKS`.
        wire_mm: [mm] diameter of the wire, above 0.
        mean_diameter_mm: [mm] mean diameter of the coil, above the wire's.
        body_coils: [1] coils of the body, above 0.

    Returns:
        The length [mm].

    Source: Shigley, Mechanical Engineering Design, 9th ed., equation 10-39 (from memory).

    Example:
        >>> extension_free_length_mm("centre-hook", 1, 10, 20)
        39.0
    """
    hooks = 2 * HOOKS[ends].inside * (mean_diameter_mm - wire_mm)
    return hooks + (body_coils + 1) * wire_mm


def hook_coils(ends: str, shear_modulus_mpa: float, modulus_mpa: float) -> float:
    """Coils that the hooks of an extension spring are worth, since they bend too.

        n - n_b = G/E for two full hooks

    Args:
        ends: one of `HOOKS`.
        shear_modulus_mpa: [MPa] shear modulus of the wire, above 0.
        modulus_mpa: [MPa] modulus of elasticity of the wire, above 0.

    Returns:
        The coils to be added to those of the body [1]; none for a plug.

    Source: Shigley, Mechanical Engineering Design, 9th ed., equation 10-40 (from memory).

    Example:
        >>> round(hook_coils("centre-hook", 80000, 200000), 3)
        0.4
    """
    return shear_modulus_mpa / modulus_mpa if HOOKS[ends].bent else 0.0


def check_compression(free_mm: float, solid_mm: float, working_mm: float | None) -> None:
    """Refuse lengths that a compression spring cannot have.

    Args:
        free_mm: [mm] length without load.
        solid_mm: [mm] length with all coils closed.
        working_mm: [mm] length at work; None where none is asked for.

    Raises:
        InputError: when it is no longer free than solid, or is to work longer than free or solid.

    Source: this project.
    """
    if free_mm <= solid_mm:
        raise InputError.of(
            f"The free length of {free_mm:.6g} mm is not over the solid length of {solid_mm:.6g} mm; "
            "write a longer one, thinner wire or fewer coils.",
            field="free_length",
            value=free_mm,
            limit=solid_mm,
            unit="mm",
        )
    if working_mm is not None and working_mm > free_mm:
        raise InputError.of(
            f"A compression spring of {free_mm:.6g} mm cannot work at {working_mm:.6g} mm; "
            f"write a working length from {solid_mm:.6g} to {free_mm:.6g} mm.",
            field="working_length",
            value=working_mm,
            limit=free_mm,
            unit="mm",
        )
    if working_mm is not None and working_mm < solid_mm:
        raise InputError.of(
            f"The spring is solid at {solid_mm:.6g} mm, before it comes to {working_mm:.6g} mm; "
            f"write a working length from {solid_mm:.6g} to {free_mm:.6g} mm.",
            field="working_length",
            value=working_mm,
            limit=solid_mm,
            unit="mm",
        )
