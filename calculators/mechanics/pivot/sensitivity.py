"""What each dimension does to the balance of a lever: how far it turns for a millimetre or a percent."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from calculators.mechanics.pivot.energy import moment
from calculators.mechanics.pivot.model import Lever, Load, Spring

_STEP = 1e-4
"""Share of the change over which the slope is taken, to either side."""


@dataclass(frozen=True, slots=True)
class Change:
    """One dimension made larger: what of the lever, by how much in words, and the turn of the balance."""

    what: str
    by: str
    turn_rad: float


def balance_changes(lever: Lever, angle_rad: float, stiffness: float) -> tuple[Change, ...]:
    """How far the balance turns when one dimension is made a little larger, all others kept.

    da = (dM/dq) q / K, the slope of the moment with each dimension over the stiffness.

    Args:
        lever: the lever.
        angle_rad: [rad] the angle of its balance.
        stiffness: [N mm/rad] the stiffness there, over 0.

    Returns:
        For each dimension the turn [rad], by the slope at the balance: for 1 mm of a place or a length, 1 %
        of a rate, a force or a tension.

    Source: implicit derivative of M(a, q) = 0.

    Example:
        >>> from calculators.mechanics.pivot.model import weight
        >>> beam = Lever(loads=(weight(100, -10, 1), weight(-100, -10, 1)))
        >>> round(balance_changes(beam, 0.0, 2 * 9.80665 * 10)[0].turn_rad, 6)
        -0.05
    """
    if stiffness <= 0 or not math.isfinite(stiffness):
        return ()
    found = []
    for what, by, one, other in _pairs(lever):
        slope = (moment(one, angle_rad) - moment(other, angle_rad)) / (2 * _STEP)
        turn = slope / stiffness
        if math.isfinite(turn):
            found.append(Change(what, by, turn))
    return tuple(found)


def _pairs(lever: Lever) -> Iterator[tuple[str, str, Lever, Lever]]:
    """For each dimension its name, the change, and the part of the lever it is of, larger and smaller."""
    for number, spring in enumerate(lever.springs, start=1):
        for field, name, by, step in _spring_fields(spring):
            one, other = (
                replace(
                    lever,
                    springs=(replace(spring, **{field: getattr(spring, field) + side * _STEP * step}),),
                    loads=(),
                )
                for side in (1, -1)
            )
            yield f"spring {number} {name}", by, one, other
    for number, load in enumerate(lever.loads, start=1):
        for field, name, by, step in _load_fields(load):
            one, other = (
                replace(
                    lever,
                    springs=(),
                    loads=(replace(load, **{field: getattr(load, field) + side * _STEP * step}),),
                )
                for side in (1, -1)
            )
            yield f"load {number} {name}", by, one, other


def _spring_fields(spring: Spring) -> Iterator[tuple[str, str, str, float]]:
    for field in ("x_mm", "y_mm", "anchor_x_mm", "anchor_y_mm"):
        yield field, field.removesuffix("_mm").replace("_", " "), "1 mm", 1.0
    yield "rate_n_per_mm", "rate", "1 %", 0.01 * spring.rate_n_per_mm
    yield "free_length_mm", "free length", "1 mm", 1.0
    if spring.initial_tension_n:
        yield "initial_tension_n", "initial tension", "1 %", 0.01 * spring.initial_tension_n


def _load_fields(load: Load) -> Iterator[tuple[str, str, str, float]]:
    if not load.force_n:
        return
    yield "x_mm", "x", "1 mm", 1.0
    yield "y_mm", "y", "1 mm", 1.0
    yield "force_n", "force", "1 %", 0.01 * load.force_n


def moved_anchor(spring: Spring, by_mm: float) -> Spring:
    """A spring whose anchor is screwed away from the lever along the line of the spring as drawn.

    Args:
        spring: the spring.
        by_mm: [mm] how far; less than 0 is towards the lever.

    Returns:
        The spring with its anchor moved; unmoved where its ends lie on one another.

    Source: this project.

    Example:
        >>> moved_anchor(Spring(100, 0, 100, 30, 0.2, 23.5), 1.25).anchor_y_mm
        31.25
    """
    to_x, to_y = spring.anchor_x_mm - spring.x_mm, spring.anchor_y_mm - spring.y_mm
    length = math.hypot(to_x, to_y)
    if length < 1e-9:
        return spring
    return replace(
        spring,
        anchor_x_mm=spring.anchor_x_mm + by_mm * to_x / length,
        anchor_y_mm=spring.anchor_y_mm + by_mm * to_y / length,
    )
