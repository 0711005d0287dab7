"""Tapers from two diameters, an angle or a rate; and compound angles of sides and legs."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, atan, atan2, cos, degrees, hypot, isfinite, radians, sin, sqrt, tan

from calculators.quantities.errors import InputError


@dataclass(frozen=True, slots=True)
class Taper:
    """A taper by its rate: how much the diameter or width grows for each unit of length."""

    rate: float

    @property
    def half_angle_deg(self) -> float:
        """The angle of each side from the axis: atan(rate / 2)."""
        return degrees(atan(self.rate / 2))

    @property
    def included_angle_deg(self) -> float:
        """The angle between the two sides."""
        return 2 * self.half_angle_deg

    @property
    def per_foot(self) -> float:
        """Inches in a foot: 12 rate."""
        return 12 * self.rate

    @property
    def one_in(self) -> float | None:
        """The n of `1 in n`: 1 / rate; None where there is no taper."""
        return 1 / self.rate if self.rate > 1e-12 else None


def taper_of_ends(large_mm: float, small_mm: float, length_mm: float) -> Taper:
    """The taper between two diameters or widths.

        rate = (D - d) / l

    Args:
        large_mm: [mm] at the large end.
        small_mm: [mm] at the small end, 0 or more and at most the large one.
        length_mm: [mm] from end to end along the axis, over 0.

    Returns:
        The taper.

    Raises:
        InputError: when the ends are the wrong way round or there is no length.

    Source: geometry; Machinery's Handbook, rules for figuring tapers (from memory).

    Example:
        >>> taper_of_ends(17.78, 14.529, 65.09).rate < 0.05
        True
    """
    if not (isfinite(length_mm) and length_mm > 0):
        raise InputError.of("The length of a taper must be over 0 mm.", field="length", limit=0.0, unit="mm")
    if not 0 <= small_mm <= large_mm:
        says = f"The small end of {small_mm:g} mm is larger than the large end of {large_mm:g} mm;"
        says += " change them over."
        raise InputError.of(says, field="small", value=small_mm, limit=large_mm, unit="mm")
    return Taper((large_mm - small_mm) / length_mm)


def taper_of_angle(included_deg: float) -> Taper:
    """The taper whose sides stand at an angle to each other.

        rate = 2 tan(angle / 2)

    Args:
        included_deg: [deg] the angle between the sides, 0 or more and under 180.

    Returns:
        The taper.

    Raises:
        InputError: for an angle out of its range.

    Source: geometry.

    Example:
        >>> round(taper_of_angle(60).rate, 4)
        1.1547
    """
    if not 0 <= included_deg < 180:
        says = "The angle between the sides of a taper must be under 180 degrees."
        raise InputError.of(says, field="angle", value=included_deg, limit=180.0, unit="deg")
    return Taper(2 * tan(radians(included_deg) / 2))


def set_over(taper: Taper, between_centres_mm: float) -> float:
    """How far the tailstock is set over to turn a taper between centres.

        set-over = rate x work length / 2

    Args:
        taper: the taper.
        between_centres_mm: [mm] the whole length of the work between the centres.

    Returns:
        The set-over [mm].

    Source: Machinery's Handbook, taper turning by setting over the tailstock (from memory); it takes the
        length along the axis, which for slow tapers is that between the centres.

    Example:
        >>> round(set_over(Taper(0.6 / 12), 254), 2)
        6.35
    """
    return taper.rate * between_centres_mm / 2


@dataclass(frozen=True, slots=True)
class CompoundAngle:
    """Settings for sides that lean, in degrees.

    `mitre_deg` is the crosscut from square, `tilt_deg` the blade's tilt for mitred edges, `butt_tilt_deg`
    that for sides that butt against each other; `corner_deg` is the angle between the faces of two sides.
    """

    mitre_deg: float
    tilt_deg: float
    butt_tilt_deg: float
    corner_deg: float


def compound_angle(sides: int, lean_deg: float) -> CompoundAngle:
    """The saw's settings for a frame of equal sides that lean outward or inward.

        tan(mitre) = sin(lean) tan(180/n), sin(tilt) = cos(lean) sin(180/n)

    Args:
        sides: how many sides, 3 to 100.
        lean_deg: [deg] how far the sides lean from upright, 0 to under 90.

    Returns:
        The settings.

    Raises:
        InputError: for sides or a lean out of their range.

    Source: geometry of planes; the charts of mitre saws give the same.

    Example:
        >>> found = compound_angle(4, 45)
        >>> round(found.mitre_deg, 2), round(found.tilt_deg, 2)
        (35.26, 30.0)
    """
    if not 3 <= sides <= 100:
        raise InputError.of("A frame has 3 to 100 sides.", field="sides", limit=3.0)
    if not 0 <= lean_deg < 90:
        says = "The sides lean 0 to under 90 degrees from upright."
        raise InputError.of(says, field="lean", value=lean_deg, limit=90.0, unit="deg")
    half, lean = radians(180 / sides), radians(lean_deg)
    tilt = asin(max(-1.0, min(1.0, cos(lean) * sin(half))))
    mitre = atan(sin(lean) * tan(half))
    # Two sides that butt: the angle between their faces is 180 - 2 tilt, and the edge is cut to its slant.
    corner = 180 - 2 * degrees(tilt)
    butt = abs(90 - corner)
    return CompoundAngle(degrees(mitre), degrees(tilt), butt if butt > 1e-9 else 0.0, corner)


@dataclass(frozen=True, slots=True)
class Splay:
    """A leg that leans two ways: its true lean and its direction [deg], its length and spread [mm]."""

    lean_deg: float
    direction_deg: float
    length_mm: float
    along_mm: float
    across_mm: float


def splayed_leg(along_deg: float, across_deg: float, height_mm: float) -> Splay:
    """The true lean of a leg that leans one way along the piece and another across it.

        tan(lean) = sqrt(tan2(along) + tan2(across)), tan(direction) = tan(across) / tan(along)

    Args:
        along_deg: [deg] the lean seen from the front, 0 to under 80.
        across_deg: [deg] the lean seen from the side, 0 to under 80.
        height_mm: [mm] the upright height that the leg spans, over 0.

    Returns:
        The leg; its direction is measured from the length of the piece.

    Raises:
        InputError: for a lean or a height out of its range.

    Source: geometry; chairmakers call them the resultant angle and the sight line (common practice).

    Example:
        >>> leg = splayed_leg(10, 10, 400)
        >>> round(leg.lean_deg, 2), round(leg.direction_deg, 2)
        (14.0, 45.0)
    """
    for name, value in (("along", along_deg), ("across", across_deg)):
        if not 0 <= value < 80:
            says = "A leg leans 0 to under 80 degrees either way."
            raise InputError.of(says, field=name, value=value, limit=80.0, unit="deg")
    if not (isfinite(height_mm) and height_mm > 0):
        raise InputError.of("The height must be over 0 mm.", field="height", limit=0.0, unit="mm")
    a, b = tan(radians(along_deg)), tan(radians(across_deg))
    lean = hypot(a, b)
    return Splay(
        degrees(atan(lean)),
        degrees(atan2(b, a)),
        height_mm * sqrt(1 + lean * lean),
        height_mm * a,
        height_mm * b,
    )
