"""How a lever stands: the ends of its travel, its balances, where it comes to rest, and what holds it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from calculators.mechanics.pivot.balance import equilibria, nearest_stable, rests_on
from calculators.mechanics.pivot.energy import moment, spring_length
from calculators.mechanics.pivot.model import End, Equilibrium, Lever, Spring
from calculators.mechanics.pivot.sensitivity import moved_anchor
from calculators.mechanics.pivot.travel import travel_ends, turning_points
from calculators.quantities.errors import InputError

SLACK_RESERVE = 1.2
"""Stretch at rest over travel from rest that keeps a spring from going slack (common practice)."""

_LEAST_TRAVEL_RAD = 1e-6
_AT_DRAWN_RAD = 1e-7


@dataclass(frozen=True, slots=True)
class Standing:
    """The ends of a lever's travel, its balances, the one it is set to, and the angle it rests at.

    `balance` is the stable one nearest to the lever as drawn, None where there is none between the ends; then
    `rest_rad` is the end that the lever falls to, or the nearest angle at which it floats free. One that
    `topples` stands on an unstable balance as drawn and may fall to either end. `held` says for each end, the
    clockwise one first, whether the lever stays there when it is brought there.
    """

    low: End
    high: End
    balances: tuple[Equilibrium, ...]
    balance: Equilibrium | None
    rest_rad: float
    topples: bool
    floats: Equilibrium | None
    held: tuple[bool, bool]


def stand(
    lever: Lever,
    stops: tuple[float | None, float | None],
    limits: Sequence[tuple[float, float, str]] = (),
) -> Standing:
    """Find how a lever stands.

    Args:
        lever: the lever.
        stops: [rad] the angles of the two stops, None where there is none.
        limits: further limits of the travel: [rad] angles to either side of 0, and what they are of.

    Returns:
        How it stands.

    Raises:
        InputError: when the lever as drawn is beyond a limit, or has no room to move.

    Source: statics (this project).

    Example:
        >>> from calculators.mechanics.pivot.model import weight
        >>> stood = stand(Lever(loads=(weight(100, 0, 1),)), (-0.1, 0.1))
        >>> stood.balance, stood.rest_rad
        (None, -0.1)
    """
    low, high = travel_ends(lever, stops, limits)
    if high.angle_rad - low.angle_rad < _LEAST_TRAVEL_RAD:
        says = (
            f"The lever has no room to move: {low.what} and {high.what} both hold it as drawn; "
            "write stops with an angle between them."
        )
        raise InputError.of(says, field="stop_high", value=math.degrees(high.angle_rad), unit="deg")
    found = equilibria(lever, low.angle_rad, high.angle_rad)
    balance = nearest_stable(found)
    floats = None
    topples = False
    if balance is not None:
        rest = balance.angle_rad
    else:
        free = [each for each in found if each.kind == "neutral"]
        floats = min(free, key=_from_drawn, default=None)
        rest = _nearest_in(floats) if floats else _falls_to(lever, low.angle_rad, high.angle_rad)
        topples = not floats and any(abs(each.angle_rad) < _AT_DRAWN_RAD for each in found)
    held = rests_on(lever, low.angle_rad, high.angle_rad)
    return Standing(low, high, found, balance, rest, topples, floats, held)


def _nearest_in(stretch: Equilibrium) -> float:
    end = stretch.angle_rad if stretch.to_rad is None else stretch.to_rad
    return min(max(0.0, stretch.angle_rad), end)


def _from_drawn(stretch: Equilibrium) -> float:
    return abs(_nearest_in(stretch))


def _falls_to(lever: Lever, low: float, high: float) -> float:
    """The end that a lever without a stable balance falls to when it is let go as drawn."""
    return high if moment(lever, 0.0) > 0 else low


def moved_stand(
    lever: Lever,
    number: int,
    by_mm: float,
    stops: tuple[float | None, float | None],
    limits: Sequence[tuple[float, float, str]] = (),
) -> Standing | None:
    """How a lever stands when the anchor of one spring is screwed away from it.

    Args:
        lever: the lever.
        number: [1] the spring, from 1.
        by_mm: [mm] how far the anchor moves, along the spring as drawn.
        stops: [rad] as in `stand`.
        limits: as in `stand`.

    Returns:
        How it stands then; None where the spring would be beyond a limit in the lever as drawn.

    Source: this project.

    Example:
        >>> moved_stand(Lever((Spring(100, 0, 100, 30, 0.2, 23.5, longest_mm=31),)), 1, 2, (-1, 1)) is None
        True
    """
    springs = list(lever.springs)
    springs[number - 1] = moved_anchor(springs[number - 1], by_mm)
    try:
        return stand(replace(lever, springs=tuple(springs)), stops, limits)
    except InputError:
        return None


def reach_of(lever: Lever, spring: Spring, low: float, high: float) -> tuple[float, float]:
    """The shortest and the longest that a spring is over a travel.

    Args:
        lever: the lever.
        spring: one of its springs.
        low: [rad] the one end of the travel.
        high: [rad] the other end.

    Returns:
        The two lengths [mm].

    Source: this project.

    Example:
        >>> [round(each, 3) for each in reach_of(Lever(), Spring(100, 0, 100, 30, 1, 10), -0.1, 0.1)]
        [20.023, 39.986]
    """
    inside = [each for each in turning_points(spring) if low < each < high]
    lengths = [spring_length(lever, spring, angle) for angle in (low, high, *inside)]
    return min(lengths), max(lengths)


def swing_period(inertia_kg_m2: float, stiffness_n_m_per_rad: float) -> float:
    """The time of one small swing to and fro about a stable balance, without damping.

    T = 2 pi sqrt(I/K)

    Args:
        inertia_kg_m2: [kg m2] moment of inertia about the pivot, over 0.
        stiffness_n_m_per_rad: [N m/rad] stiffness at the balance, over 0.

    Returns:
        The period [s].

    Raises:
        InputError: when one of them is not over 0.

    Source: physical and torsional pendulum: OpenStax, University Physics 1, 15.4 (read).

    Example:
        >>> round(swing_period(0.03, 4.73), 2)
        0.5
    """
    if inertia_kg_m2 <= 0 or stiffness_n_m_per_rad <= 0:
        says = "A swing needs a moment of inertia and a stiffness over nought."
        raise InputError.of(says, field="inertia")
    return 2 * math.pi * math.sqrt(inertia_kg_m2 / stiffness_n_m_per_rad)
