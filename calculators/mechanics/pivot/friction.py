"""What friction in a pin does to a lever: a band of moments, and with it of angles, in which it stays put."""

from __future__ import annotations

import math

from calculators.mechanics.pivot.energy import moment, reaction
from calculators.mechanics.pivot.model import Lever
from calculators.mechanics.pivot.rooting import root_between
from calculators.quantities.errors import InputError

_STEPS = 120


def friction_moment(friction: float, reaction_n: float, pin_radius_mm: float) -> float:
    """The moment that friction in a pin can hold.

    M = u R r

    Args:
        friction: [1] coefficient of friction of pin and hole, 0 to 2.
        reaction_n: [N] force on the pivot, 0 or more.
        pin_radius_mm: [mm] radius of the pin, 0 or more.

    Returns:
        The moment to either side [N mm].

    Raises:
        InputError: when one of them is less than 0, or the coefficient more than 2.

    Source: journal with slack: the circle of friction has the radius r sin(arctan u), near u r for small u
        (Beer and Johnston, Vector Mechanics for Engineers: Statics, journal bearings; from memory).

    Example:
        >>> friction_moment(0.2, 1111, 25.4)
        5643.88
    """
    if not 0 <= friction <= 2 or reaction_n < 0 or pin_radius_mm < 0:
        says = "A coefficient of friction is 0 to 2, a force on the pivot and a radius of the pin 0 or more."
        raise InputError.of(says, field="friction")
    return friction * reaction_n * pin_radius_mm


def spare_friction(lever: Lever, angle_rad: float, friction: float, pin_radius_mm: float) -> float:
    """How much of the friction's moment is left when it holds the lever at an angle.

    Args:
        lever: the lever.
        angle_rad: [rad] how far it has turned.
        friction: [1] coefficient of friction, 0 to 2.
        pin_radius_mm: [mm] radius of the pin, 0 or more.

    Returns:
        The moment left [N mm]; less than 0 where the lever moves.

    Source: this project.

    Example:
        >>> from calculators.mechanics.pivot.model import Load
        >>> round(spare_friction(Lever(loads=(Load(10, 0, 5),)), 0.0, 0.5, 4.0), 6)
        -40.0
    """
    held = friction_moment(friction, math.hypot(*reaction(lever, angle_rad)), pin_radius_mm)
    return held - abs(moment(lever, angle_rad))


def dead_zone(
    lever: Lever, balance_rad: float, ends: tuple[float, float], friction: float, pin_radius_mm: float
) -> tuple[float, float]:
    """The angles about a balance between which friction holds the lever wherever it is put.

    Args:
        lever: the lever.
        balance_rad: [rad] the angle of the balance.
        ends: [rad] the ends of the travel, the balance between them.
        friction: [1] coefficient of friction, 0 to 2.
        pin_radius_mm: [mm] radius of the pin, 0 or more.

    Returns:
        The two angles [rad], at the ends of the travel where friction holds up to there.

    Source: the lever rests where |M| <= u R r (statics).

    Example:
        >>> from calculators.mechanics.pivot.model import weight
        >>> hanging = Lever(loads=(weight(0, -100, 1),))
        >>> [round(each, 6) for each in dead_zone(hanging, 0.0, (-1, 1), 0.1, 10)]
        [-0.01, 0.01]
    """

    def spare(angle: float) -> float:
        return spare_friction(lever, angle, friction, pin_radius_mm)

    found = []
    for end in ends:
        inside, edge = balance_rad, end
        for step in range(1, _STEPS + 1):
            # Steps that grow from the balance: a narrow zone is found as well as a wide one.
            angle = balance_rad + (end - balance_rad) * (step / _STEPS) ** 2
            if spare(angle) < 0:
                edge = root_between(spare, inside, angle)
                break
            inside = angle
        found.append(edge)
    return found[0], found[1]
