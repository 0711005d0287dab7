"""Tightening: torque and preload, by a nut factor and by friction, and the stress in the screw meanwhile."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, radians, sqrt

from calculators.mechanics.bounds import check_between
from calculators.quantities.errors import InputError
from calculators.tables import Row, load


def preload_n(torque_nm: float, nut_factor: float, diameter_mm: float) -> float:
    """The preload that a torque makes.

    F = T / (K d)

    Args:
        torque_nm: tightening torque T [N m], 0 or more.
        nut_factor: K, above 0; 0.2 for plain dry steel, 0.15 lightly oiled.
        diameter_mm: nominal diameter d [mm], above 0.

    Returns:
        The preload [N].

    Source: Machinery's Handbook (from memory).

    Example:
        >>> round(preload_n(6.0, 0.2, 6.0), 6)
        5000.0
    """
    return torque_nm * 1000 / (nut_factor * diameter_mm)


def torque_nm(preload_n: float, nut_factor: float, diameter_mm: float) -> float:
    """The torque that makes a preload.

    T = K F d

    Args:
        preload_n: preload F [N], 0 or more.
        nut_factor: K, above 0.
        diameter_mm: nominal diameter d [mm], above 0.

    Returns:
        The torque [N m].

    Source: Machinery's Handbook (from memory).

    Example:
        >>> torque_nm(5000.0, 0.2, 6.0)
        6.0
    """
    return nut_factor * preload_n * diameter_mm / 1000


@dataclass(frozen=True, slots=True)
class TorqueParts:
    """What a tightening torque is spent on: climbing the thread, friction in the thread, under the head."""

    climb_nm: float
    thread_nm: float
    head_nm: float

    @property
    def shank_nm(self) -> float:
        """What twists the screw: all but the friction under the head [N m]."""
        return self.climb_nm + self.thread_nm

    @property
    def total_nm(self) -> float:
        """The tightening torque [N m]."""
        return self.climb_nm + self.thread_nm + self.head_nm


def torque_parts(
    preload_n: float,
    pitch_mm: float,
    pitch_diameter_mm: float,
    angle_deg: float,
    thread_friction: float,
    head_friction: float,
    bearing_mm: float,
) -> TorqueParts:
    """The tightening torque from pitch and friction.

    T = F (p / (2 pi) + m_t d2 / (2 cos(a/2)) + m_h D_b / 2); at 60 degrees F (0.159 p + 0.577 m_t d2 + ...)

    Args:
        preload_n: preload F [N], 0 or more.
        pitch_mm: pitch p [mm], above 0.
        pitch_diameter_mm: pitch diameter d2 [mm], above 0.
        angle_deg: angle between the flanks a [deg], 20 to 100.
        thread_friction: coefficient of friction in the thread m_t, 0 to 1.
        head_friction: coefficient under the head or nut m_h, 0 to 1.
        bearing_mm: mean diameter D_b of the face that turns on the work [mm], 0 or more.

    Returns:
        The parts [N m].

    Raises:
        InputError: where friction or angle is outside its limits.

    Source: ISO 16047; VDI 2230 (both from memory).

    Example:
        >>> round(torque_parts(12600, 1.25, 7.188, 60, 0.1, 0.1, 10.7).total_nm, 1)
        14.5
    """
    check_between("thread_friction", thread_friction, 0, 1)
    check_between("head_friction", head_friction, 0, 1)
    check_between("thread_angle", angle_deg, 20, 100, "deg")
    slope = cos(radians(angle_deg / 2))
    return TorqueParts(
        preload_n * pitch_mm / (2 * pi) / 1000,
        preload_n * thread_friction * pitch_diameter_mm / (2 * slope) / 1000,
        preload_n * head_friction * bearing_mm / 2 / 1000,
    )


def combined_stress_mpa(
    preload_n: float, shank_torque_nm: float, area_mm2: float
) -> tuple[float, float, float]:
    """The stress of a screw that is pulled and twisted at once.

    s = F / A; t = 16 T / (pi d^3) with d = sqrt(4 A / pi); s_v = sqrt(s^2 + 3 t^2) (von Mises)

    Args:
        preload_n: preload F [N], 0 or more.
        shank_torque_nm: the torque in the shank T [N m], 0 or more, without the friction under the head.
        area_mm2: tensile stress area A [mm2], above 0.

    Returns:
        Tension, shear and combined stress [MPa].

    Source: mechanics; VDI 2230 (from memory). It gives back preloads of a published table (the tests).

    Example:
        >>> [round(each) for each in combined_stress_mpa(12600, 7.77, 36.6)]
        [344, 124, 406]
    """
    diameter = sqrt(4 * area_mm2 / pi)
    tension = preload_n / area_mm2
    shear = 16 * shank_torque_nm * 1000 / (pi * diameter**3)
    return tension, shear, sqrt(tension**2 + 3 * shear**2)


def scatter_row(method: str) -> Row:
    """How far the preload may be off.

    Args:
        method: `by hand`, `torque wrench`, `torque wrench dry`, `angle of turn` or `measured stretch`.

    Returns:
        The row, with `scatter` in per cent either way.

    Raises:
        InputError: when the method is not listed.

    Source: Machinery's Handbook (from memory): table `tightening_methods`.

    Example:
        >>> scatter_row("torque wrench")["scatter"]
        '25'
    """
    row = load("tightening_methods").find(method)
    if row is None:
        names = load("tightening_methods").column("method")
        says = f"{method!r} is not a way of tightening that is listed; they are {', '.join(names)}."
        raise InputError.of(says, field="method", choices=names)
    return row
