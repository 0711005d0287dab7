"""Masses of blocks, rounds and tubes, where they balance, and how they resist being turned."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi
from typing import Literal

Axis = Literal["x", "y", "z"]
Shape = Literal["block", "round", "tube", "ball"]

STANDARD_GRAVITY = 9.80665
"""[m/s2] Standard acceleration of free fall (CGPM 1901)."""


@dataclass(frozen=True, slots=True)
class Body:
    """One body of even density; its sizes and the place of its middle in mm.

    A block has `size_mm` along x, y and z. A round or a tube has its length along `axis`, a diameter and a
    bore; a ball has its diameter. `sign` is -1 for a hole, which takes away; `count` bodies lie in one place.
    """

    shape: Shape
    size_mm: tuple[float, float, float]
    at_mm: tuple[float, float, float]
    density_kg_m3: float
    axis: Axis = "x"
    diameter_mm: float = 0.0
    bore_mm: float = 0.0
    sign: int = 1
    count: int = 1

    @property
    def volume_mm3(self) -> float:
        """Its volume [mm3], less than nought for a hole."""
        if self.shape == "block":
            volume = self.size_mm[0] * self.size_mm[1] * self.size_mm[2]
        elif self.shape == "ball":
            volume = pi / 6 * self.diameter_mm**3
        else:
            volume = pi / 4 * (self.diameter_mm**2 - self.bore_mm**2) * self.size_mm["xyz".index(self.axis)]
        return self.sign * volume

    @property
    def mass_kg(self) -> float:
        """The mass of all of them [kg], less than nought for a hole."""
        return self.count * self.volume_mm3 * self.density_kg_m3 * 1e-9

    def own_inertia(self, about: Axis) -> float:
        """Its moment of inertia about an axis through its own middle [kg mm2].

        Block m (b2 + c2) / 12; round about its axis m (D2 + d2) / 8, across it m (D2 + d2) / 16 + m L2 / 12;
        ball m D2 / 10.
        """
        mass = self.mass_kg
        if self.shape == "ball":
            return mass * self.diameter_mm**2 / 10
        if self.shape == "block":
            across = [size for name, size in zip("xyz", self.size_mm, strict=True) if name != about]
            return mass * (across[0] ** 2 + across[1] ** 2) / 12
        squares = self.diameter_mm**2 + self.bore_mm**2
        if about == self.axis:
            return mass * squares / 8
        return mass * (squares / 16 + self.size_mm["xyz".index(self.axis)] ** 2 / 12)


def total_mass_kg(bodies: Sequence[Body]) -> float:
    """The mass of all bodies together, holes taken away.

    Args:
        bodies: the bodies.

    Returns:
        The mass [kg].

    Source: definition.

    Example:
        >>> total_mass_kg([Body("block", (100, 100, 100), (0, 0, 0), 1000)])
        1.0
    """
    return sum(body.mass_kg for body in bodies)


def centre_of_mass_mm(bodies: Sequence[Body]) -> tuple[float, float, float] | None:
    """Where all bodies together balance.

        x = sum(m x) / sum(m), and so for y and z

    Args:
        bodies: the bodies.

    Returns:
        The centre [mm], or None where their mass is not more than nought.

    Source: definition.

    Example:
        >>> plates = [Body("block", (100, 20, 1), (50, 10, 0), 1), Body("block", (20, 80, 1), (10, 60, 0), 1)]
        >>> [round(each, 4) for each in centre_of_mass_mm(plates)]
        [32.2222, 32.2222, 0.0]
    """
    mass = total_mass_kg(bodies)
    if mass <= 0:
        return None
    x, y, z = (sum(body.mass_kg * body.at_mm[place] for body in bodies) / mass for place in range(3))
    return x, y, z


def inertia_kg_mm2(bodies: Sequence[Body], about: Axis, through_mm: tuple[float, float, float]) -> float:
    """Moment of inertia of all bodies about an axis through a point.

        J = sum(J0 + m r2), r being the distance of each middle from the axis

    Args:
        bodies: the bodies.
        about: the axis's direction.
        through_mm: [mm] a point that it passes through.

    Returns:
        The moment of inertia [kg mm2].

    Source: parallel-axis theorem (Steiner).

    Example:
        >>> rod = [Body("round", (300, 0, 0), (150, 0, 0), 7850, "x", 10)]
        >>> round(inertia_kg_mm2(rod, "z", (0, 0, 0)) / total_mass_kg(rod) / 300**2, 3)
        0.333
    """
    across = [place for place, name in enumerate("xyz") if name != about]
    return sum(
        body.own_inertia(about)
        + body.mass_kg * sum((body.at_mm[place] - through_mm[place]) ** 2 for place in across)
        for body in bodies
    )
