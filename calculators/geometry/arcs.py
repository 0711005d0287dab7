"""Arcs of circles: radius, chord and height from one another, and the ordinates to mark a curve by."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees, isfinite, radians, sin, sqrt

from calculators.quantities.errors import InputError


@dataclass(frozen=True, slots=True)
class Arc:
    """An arc: its radius, its height over the chord [mm] and the angle that it spans [deg]."""

    radius_mm: float
    height_mm: float
    angle_deg: float

    @property
    def chord_mm(self) -> float:
        """The straight distance between its ends."""
        return chord_of(self.radius_mm, self.height_mm)

    @property
    def length_mm(self) -> float:
        """Its length along the curve: r a, with a in radians."""
        return self.radius_mm * radians(self.angle_deg)

    @property
    def area_mm2(self) -> float:
        """The area between arc and chord: r2 (a - sin a) / 2."""
        a = radians(self.angle_deg)
        return self.radius_mm**2 * (a - sin(a)) / 2


def arc_of_chord_and_height(chord_mm: float, height_mm: float) -> Arc:
    """The arc over a chord with a height at its middle.

        r = (c2 / 4 + h2) / (2 h), a = 4 atan(2 h / c)

    Args:
        chord_mm: [mm] the straight distance between the arc's ends, over 0.
        height_mm: [mm] the height of the arc over the chord's middle, over 0; more than half the chord is
            an arc of more than half a circle.

    Returns:
        The arc.

    Raises:
        InputError: for a chord or a height that is not over 0.

    Source: geometry; Machinery's Handbook, 31st edition, page 83, segments of circles.

    Example:
        >>> arc_of_chord_and_height(800, 100).radius_mm
        850.0
    """
    for name, value in (("chord", chord_mm), ("height", height_mm)):
        if not (isfinite(value) and value > 0):
            raise InputError.of(f"The {name} must be over 0 mm.", field=name, limit=0.0, unit="mm")
    radius = (chord_mm**2 / 4 + height_mm**2) / (2 * height_mm)
    return Arc(radius, height_mm, degrees(4 * atan2(2 * height_mm, chord_mm)))


def height_of(radius_mm: float, chord_mm: float, *, greater: bool = False) -> float:
    """The height of an arc over its chord.

        h = r - sqrt(r2 - c2/4), or r + sqrt(r2 - c2/4) for the greater of the two arcs

    Args:
        radius_mm: [mm] the radius, over 0.
        chord_mm: [mm] the chord, over 0 and at most twice the radius.
        greater: whether the arc of more than half a circle is meant.

    Returns:
        The height [mm].

    Raises:
        InputError: when the chord is longer than the circle is wide.

    Source: geometry; Machinery's Handbook, 31st edition, page 83, segments of circles.

    Example:
        >>> round(height_of(850, 800), 9)
        100.0
    """
    if not 0 < chord_mm <= 2 * radius_mm:
        says = f"A chord of {chord_mm:g} mm does not fit in a circle of {radius_mm:g} mm radius."
        says += f" Write at most {2 * radius_mm:g} mm."
        raise InputError.of(says, field="chord", value=chord_mm, limit=2 * radius_mm, unit="mm")
    half = chord_mm / 2
    depth = sqrt(max(0.0, (radius_mm - half) * (radius_mm + half)))
    # h = r - depth loses its figures where the arc is flat; this is the same number.
    return radius_mm + depth if greater else half * half / (radius_mm + depth)


def chord_of(radius_mm: float, height_mm: float) -> float:
    """The chord under an arc.

        c = 2 sqrt(h (2 r - h))

    Args:
        radius_mm: [mm] the radius, over 0.
        height_mm: [mm] the height over the chord, over 0 and less than twice the radius.

    Returns:
        The chord [mm].

    Raises:
        InputError: when the height is more than the circle has.

    Source: geometry; Machinery's Handbook, 31st edition, page 83, segments of circles.

    Example:
        >>> chord_of(850, 100)
        800.0
    """
    if not 0 < height_mm < 2 * radius_mm * (1 + 1e-12):
        says = f"An arc of {radius_mm:g} mm radius cannot be {height_mm:g} mm high over a chord."
        says += f" Write less than {2 * radius_mm:g} mm."
        raise InputError.of(says, field="height", value=height_mm, limit=2 * radius_mm, unit="mm")
    return 2 * sqrt(max(0.0, height_mm * (2 * radius_mm - height_mm)))


def arc_of_radius_and_angle(radius_mm: float, angle_deg: float) -> Arc:
    """The arc of a radius that spans an angle.

        h = r (1 - cos(a/2)) = 2 r sin2(a/4)

    Args:
        radius_mm: [mm] the radius, over 0.
        angle_deg: [deg] the angle at the centre, over 0 and under 360.

    Returns:
        The arc.

    Raises:
        InputError: for an angle out of its range.

    Source: geometry.

    Example:
        >>> round(arc_of_radius_and_angle(100, 60).chord_mm, 9)
        100.0
    """
    if not 0 < angle_deg < 360:
        says = "The angle of an arc must be over 0 and under 360 degrees."
        raise InputError.of(says, field="angle", value=angle_deg, limit=360.0, unit="deg")
    return Arc(radius_mm, 2 * radius_mm * sin(radians(angle_deg) / 4) ** 2, angle_deg)


def ordinates(arc: Arc, divisions: int) -> tuple[tuple[float, float], ...]:
    """Heights of an arc over its chord at even stations along the chord, to mark the curve by.

        y = sqrt(r2 - (x - c/2)2) - (r - h)

    Args:
        arc: the arc.
        divisions: how many equal parts the chord is divided in, 2 to 200.

    Returns:
        The stations x from one end and the heights y [mm], both ends included.

    Raises:
        InputError: for too few or too many parts.

    Source: geometry.

    Example:
        >>> [round(y, 2) for _, y in ordinates(arc_of_chord_and_height(800, 100), 4)]
        [0.0, 76.14, 100.0, 76.14, 0.0]
    """
    if not 2 <= divisions <= 200:
        raise InputError.of("The chord is divided in 2 to 200 parts.", field="divisions", limit=2.0)
    chord, r = arc.chord_mm, arc.radius_mm
    found = []
    for place in range(divisions + 1):
        off = chord * (place / divisions - 0.5)
        # sqrt(r2 - off2) - (r - h), written so that a flat arc keeps its figures.
        deep = sqrt(max(0.0, (r - off) * (r + off)))
        y = arc.height_mm - off * off / (r + deep)
        found.append((chord * place / divisions, 0.0 if place in {0, divisions} else y))
    return tuple(found)
