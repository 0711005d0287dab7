"""A lever about a pivot as plain data: its springs, its loads, and how the pivot turns."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

SpringKind = Literal["extension", "compression", "both"]

STANDARD_GRAVITY = 9.80665
"""[m/s2] Standard acceleration of free fall (3rd General Conference on Weights and Measures, 1901; from
memory)."""

HALF_TURN = math.pi


@dataclass(frozen=True, slots=True)
class Spring:
    """A spring between a point of the lever (as drawn) and an anchor that stands still.

    An extension spring only pulls, from its free length on, beginning with its initial tension; a compression
    spring only pushes; one of kind `both` does either. `solid_mm` and `longest_mm` are lengths at which it
    stops the lever, where they are known.
    """

    x_mm: float
    y_mm: float
    anchor_x_mm: float
    anchor_y_mm: float
    rate_n_per_mm: float
    free_length_mm: float
    kind: SpringKind = "extension"
    initial_tension_n: float = 0.0
    solid_mm: float | None = None
    longest_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Load:
    """A force at a point of the lever (as drawn), in a direction that stays or that turns with the lever."""

    x_mm: float
    y_mm: float
    force_n: float
    direction_rad: float = -math.pi / 2
    follows: bool = False


@dataclass(frozen=True, slots=True)
class Lever:
    """A lever with all that turns it.

    `torsion_n_mm_per_rad` is the rate of a flexure pivot, which is relaxed at `torsion_rest_rad`. A knife
    edge of radius `edge_radius_mm` rolls without sliding on a bed square to the direction in which it
    points, `edge_points_rad`; the origin is where it touches at 0.
    """

    springs: tuple[Spring, ...] = ()
    loads: tuple[Load, ...] = ()
    torsion_n_mm_per_rad: float = 0.0
    torsion_rest_rad: float = 0.0
    edge_radius_mm: float = 0.0
    edge_points_rad: float = -math.pi / 2


@dataclass(frozen=True, slots=True)
class End:
    """Where the travel ends on one side, and what ends it."""

    angle_rad: float
    what: str


@dataclass(frozen=True, slots=True)
class Equilibrium:
    """An angle at which the lever is in balance.

    `kind` is stable, unstable or neutral; a neutral one reaches from `angle_rad` to `to_rad`. `stiffness` is
    [N mm/rad], None where the initial tension of a spring holds the lever fast: then `holds_n_mm` are the
    moments that it takes to move it clockwise and anticlockwise.
    """

    angle_rad: float
    kind: Literal["stable", "unstable", "neutral"]
    stiffness: float | None = None
    to_rad: float | None = None
    holds_n_mm: tuple[float, float] | None = None


def weight(x_mm: float, y_mm: float, mass_kg: float) -> Load:
    """A mass on the lever as the load that its weight is, straight down.

    Args:
        x_mm: [mm] where it hangs on the lever as drawn.
        y_mm: [mm] the same, upward.
        mass_kg: [kg] the mass, 0 or more.

    Returns:
        The load.

    Source: W = m g, with standard gravity.

    Example:
        >>> weight(300, 0, 1).force_n
        9.80665
    """
    return Load(x_mm, y_mm, mass_kg * STANDARD_GRAVITY)
