"""Right triangles, the check of a square by its diagonals, and regular polygons."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, atan2, cos, degrees, hypot, radians, sin, sqrt, tan

from calculators.quantities.errors import InputError


@dataclass(frozen=True, slots=True)
class RightTriangle:
    """A right triangle by its base and height [mm]."""

    base_mm: float
    height_mm: float

    @property
    def slope_mm(self) -> float:
        """The longest side: sqrt(b2 + h2)."""
        return hypot(self.base_mm, self.height_mm)

    @property
    def angle_deg(self) -> float:
        """The angle between the base and the longest side: atan(h / b)."""
        return degrees(atan2(self.height_mm, self.base_mm))


def right_triangle(
    *,
    base_mm: float | None = None,
    height_mm: float | None = None,
    slope_mm: float | None = None,
    angle_deg: float | None = None,
) -> RightTriangle:
    """A right triangle from any two of its base, height, longest side and angle.

        s2 = b2 + h2, tan(a) = h / b

    Args:
        base_mm: [mm] the base.
        height_mm: [mm] the height.
        slope_mm: [mm] the longest side, more than base and height.
        angle_deg: [deg] the angle between base and longest side, over 0 and under 90.

    Returns:
        The triangle.

    Raises:
        InputError: when the longest side is not the longest, or not two are given.

    Source: geometry.

    Example:
        >>> right_triangle(base_mm=3, height_mm=4).slope_mm
        5.0
    """
    a = None if angle_deg is None else radians(angle_deg)
    for name, side in (("base", base_mm), ("height", height_mm)):
        if slope_mm is not None and side is not None and side >= slope_mm:
            says = f"The slope of {slope_mm:g} mm is not longer than the {name} of {side:g} mm;"
            says += " it is the longest side."
            raise InputError.of(says, field="slope", value=slope_mm, limit=side, unit="mm")
    if base_mm is not None and height_mm is not None:
        return RightTriangle(base_mm, height_mm)
    if slope_mm is not None and base_mm is not None:
        return RightTriangle(base_mm, sqrt((slope_mm - base_mm) * (slope_mm + base_mm)))
    if slope_mm is not None and height_mm is not None:
        return RightTriangle(sqrt((slope_mm - height_mm) * (slope_mm + height_mm)), height_mm)
    if a is not None and slope_mm is not None:
        return RightTriangle(slope_mm * cos(a), slope_mm * sin(a))
    if a is not None and base_mm is not None:
        return RightTriangle(base_mm, base_mm * tan(a))
    if a is not None and height_mm is not None:
        return RightTriangle(height_mm / tan(a), height_mm)
    raise InputError.of("Write two of base, height, slope and angle.", field="base")


@dataclass(frozen=True, slots=True)
class Squareness:
    """How far a frame is from square: the angle at the corner [deg] and how far its top leans over [mm]."""

    diagonal_mm: float
    corner_deg: float
    lean_mm: float


def squareness(
    length_mm: float, width_mm: float, first_mm: float, second_mm: float | None = None
) -> Squareness:
    """How far a four-sided frame is out of square, by its diagonals.

        cos(corner) = (d2 sq - d1 sq) / (4 l w) by two diagonals
        cos(corner) = (l sq + w sq - d sq) / (2 l w) by one, opposite the corner

    The lean is how far the far side stands over: w cos(corner).

    Args:
        length_mm: [mm] one pair of sides, over 0.
        width_mm: [mm] the other pair, over 0.
        first_mm: [mm] the diagonal opposite the corner that the angle is told of.
        second_mm: [mm] the other diagonal, where it was measured too.

    Returns:
        The diagonal that a square frame has, the corner's angle, and the lean: more than nought where the
        corner is acute.

    Raises:
        InputError: for diagonals that the sides cannot have.

    Source: law of cosines; the two diagonals of a parallelogram (geometry).

    Example:
        >>> found = squareness(800, 600, 998, 1002)
        >>> found.diagonal_mm, round(found.corner_deg, 3), round(found.lean_mm, 2)
        (1000.0, 89.761, 2.5)
    """
    low, high = abs(length_mm - width_mm), length_mm + width_mm
    for name, value in (("diagonal", first_mm), ("other_diagonal", second_mm)):
        if value is not None and not low < value < high:
            words = name.replace("_", " ")
            says = f"A frame of {length_mm:g} x {width_mm:g} mm has no {words} of {value:g} mm;"
            says += f" write one over {low:g} and under {high:g} mm."
            raise InputError.of(
                says, field=name, value=value, limit=high if value >= high else low, unit="mm"
            )
    if second_mm is None:
        share = (length_mm**2 + width_mm**2 - first_mm**2) / (2 * length_mm * width_mm)
    else:
        share = (second_mm**2 - first_mm**2) / (4 * length_mm * width_mm)
    if not -1 < share < 1:
        says = "No frame with these sides has these two diagonals; measure all four again."
        raise InputError.of(says, field="other_diagonal")
    return Squareness(hypot(length_mm, width_mm), degrees(acos(share)), width_mm * share)


@dataclass(frozen=True, slots=True)
class Polygon:
    """A regular polygon by its number of sides and the radius of the circle within it [mm]."""

    sides: int
    inner_mm: float

    @property
    def side_mm(self) -> float:
        """One side: 2 r tan(180/n)."""
        return 2 * self.inner_mm * tan(radians(180 / self.sides))

    @property
    def across_flats_mm(self) -> float:
        """Twice the radius of the circle within it: for even numbers of sides the width across flats."""
        return 2 * self.inner_mm

    @property
    def across_corners_mm(self) -> float:
        """Twice the radius of the circle about it: for even numbers of sides the width across corners."""
        return 2 * self.inner_mm / cos(radians(180 / self.sides))

    @property
    def area_mm2(self) -> float:
        """Its area: n side r / 2."""
        return self.sides * self.side_mm * self.inner_mm / 2


def polygon(
    sides: int,
    *,
    side_mm: float | None = None,
    across_flats_mm: float | None = None,
    across_corners_mm: float | None = None,
) -> Polygon:
    """A regular polygon from its side, its width across flats or its width across corners.

        flats = side / tan(180/n), corners = side / sin(180/n)

    Args:
        sides: how many sides, 3 to 100.
        side_mm: [mm] one side.
        across_flats_mm: [mm] the diameter of the circle within it.
        across_corners_mm: [mm] the diameter of the circle about it.

    Returns:
        The polygon.

    Raises:
        InputError: for a number of sides out of its range, or when no size is given.

    Source: geometry.

    Example:
        >>> round(polygon(6, across_flats_mm=10).across_corners_mm, 3)
        11.547
    """
    if not 3 <= sides <= 100:
        raise InputError.of("A polygon has 3 to 100 sides.", field="sides", limit=3.0)
    half = radians(180 / sides)
    if side_mm is not None:
        return Polygon(sides, side_mm / (2 * tan(half)))
    if across_flats_mm is not None:
        return Polygon(sides, across_flats_mm / 2)
    if across_corners_mm is not None:
        return Polygon(sides, across_corners_mm / 2 * cos(half))
    raise InputError.of("Write one of side, across flats and across corners.", field="side")
