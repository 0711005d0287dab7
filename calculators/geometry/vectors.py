"""Three-part vectors and rigid transforms as plain tuples."""

from __future__ import annotations

import math
from dataclasses import dataclass

Vector = tuple[float, float, float]
Matrix = tuple[Vector, Vector, Vector]


def add(a: Vector, b: Vector) -> Vector:
    """Return a + b.

    Args:
        a: a vector [mm].
        b: a vector [mm].

    Returns:
        The sum [mm].

    Source: this project.
    """
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def scale(a: Vector, factor: float) -> Vector:
    """Return a times a number.

    Args:
        a: a vector [mm].
        factor: any number [-].

    Returns:
        The product [mm].

    Source: this project.
    """
    return (a[0] * factor, a[1] * factor, a[2] * factor)


def subtract(a: Vector, b: Vector) -> Vector:
    """Return a - b.

    Args:
        a: a vector [mm].
        b: a vector [mm].

    Returns:
        The difference [mm].

    Source: this project.
    """
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def dot(a: Vector, b: Vector) -> float:
    """Return the scalar product a · b.

    Args:
        a: a vector [mm].
        b: a vector [mm].

    Returns:
        The product [mm2].

    Source: this project.
    """
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    """Return the vector product a × b.

    Args:
        a: a vector [mm].
        b: a vector [mm].

    Returns:
        The product [mm2].

    Source: this project.
    """
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def along(origin: Vector, *steps: tuple[Vector, float]) -> Vector:
    """Go from a point by each direction times its distance.

    Args:
        origin: where to start [mm].
        steps: directions (unit vectors) with distances [mm].

    Returns:
        The point reached [mm].

    Source: this project.
    """
    for direction, distance in steps:
        origin = add(origin, scale(direction, distance))
    return origin


def cos_sin(angle_deg: float) -> tuple[float, float]:
    """Return cosine and sine of an angle, exact at the quarter turns.

    Args:
        angle_deg: any angle [deg].

    Returns:
        Cosine and sine [-].

    Source: this project.
    """
    quarter, rest = divmod(angle_deg % 360.0, 90.0)
    if rest == 0.0:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
    return math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))


@dataclass(frozen=True, slots=True)
class Transform:
    """Carries a part's own frame into the build's: world = columns · own + shift.

    `columns` are the images of the part's X, Y and Z: unit vectors at right angles. Where the copy is of
    the other hand they are left-handed and `mirrored` is True.
    """

    columns: Matrix = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    shift: Vector = (0.0, 0.0, 0.0)

    @property
    def mirrored(self) -> bool:
        """Whether the copy is the mirror image of its drawing."""
        x, y, z = self.columns
        return dot(cross(x, y), z) < 0.0

    def direction(self, own: Vector) -> Vector:
        """Return a direction of the part's frame in the build's frame."""
        x, y, z = self.columns
        return along((0.0, 0.0, 0.0), (x, own[0]), (y, own[1]), (z, own[2]))

    def point(self, own: Vector) -> Vector:
        """Return a point of the part's frame [mm] in the build's frame [mm]."""
        return add(self.direction(own), self.shift)

    def own_direction(self, world: Vector) -> Vector:
        """Return a direction of the build's frame in the part's frame."""
        x, y, z = self.columns
        return (dot(x, world), dot(y, world), dot(z, world))

    def own_point(self, world: Vector) -> Vector:
        """Return a point of the build's frame [mm] in the part's frame [mm]."""
        return self.own_direction(subtract(world, self.shift))
