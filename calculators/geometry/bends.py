"""Bends in sheet: the material in the bend, the flat blank, and how tight a bend may be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite, log10, pi, radians, tan
from typing import Literal

from calculators.quantities.errors import InputError
from calculators.tables import Row, load

MeasuredTo = Literal["corner", "tangent"]

LEAST_RATIO = 0.1
"""The least inside radius, in thicknesses, that the usual k is told for."""


def allowance(thickness_mm: float, radius_mm: float, angle_deg: float, k: float) -> float:
    """The length of material in a bend: the arc of the line that neither stretches nor shortens.

        A = angle x (r + k t), the angle in radians

    Args:
        thickness_mm: [mm] the sheet's thickness, over 0.
        radius_mm: [mm] the inside radius, 0 or more.
        angle_deg: [deg] through which the sheet is bent, 0 to 180.
        k: [1] where that line lies, as a share of the thickness from the inside, over 0 to 1.

    Returns:
        The length [mm].

    Raises:
        InputError: for an input out of its range.

    Source: geometry; Machinery's Handbook, bending sheet metal, gives it with constants (as read elsewhere).

    Example:
        >>> round(allowance(3.175, 3.175, 90, 0.5), 3)
        7.481
    """
    if not (isfinite(thickness_mm) and thickness_mm > 0):
        raise InputError.of("The thickness must be over 0 mm.", field="thickness", limit=0.0, unit="mm")
    if not (isfinite(radius_mm) and radius_mm >= 0):
        raise InputError.of("The radius must be 0 mm or more.", field="radius", limit=0.0, unit="mm")
    if not 0 <= angle_deg <= 180:
        says = "A bend is through 0 to 180 degrees."
        raise InputError.of(says, field="angle", value=angle_deg, limit=180.0, unit="deg")
    if not 0 < k <= 1:
        raise InputError.of("The k factor is over 0 and at most 1.", field="k_factor", value=k, limit=1.0)
    return radians(angle_deg) * (radius_mm + k * thickness_mm)


def k_of_ratio(radius_mm: float, thickness_mm: float) -> float:
    """Where the neutral line lies, from how tight the bend is.

        k = (0.65 + 0.5 log10(r/t)) / 2, at most 0.5

    Args:
        radius_mm: [mm] the inside radius, a tenth of the thickness or more.
        thickness_mm: [mm] the thickness, over 0.

    Returns:
        The share of the thickness from the inside [1].

    Raises:
        InputError: for a bend so sharp that the ratio says nothing.

    Source: DIN 6935, correction factor for the neutral line (from memory).

    Example:
        >>> k_of_ratio(2, 2), k_of_ratio(20, 2)
        (0.325, 0.5)
    """
    ratio = radius_mm / thickness_mm
    if ratio < LEAST_RATIO:
        says = (
            f"For a bend as sharp as {radius_mm:g} mm in {thickness_mm:g} mm sheet no k factor follows from "
            "the radius; write k_factor or temper, or a larger radius."
        )
        raise InputError.of(
            says, field="radius", value=radius_mm, limit=LEAST_RATIO * thickness_mm, unit="mm"
        )
    return min(0.5, (0.65 + 0.5 * log10(ratio)) / 2)


def k_of_temper(temper: str) -> tuple[float, Row]:
    """Where the neutral line lies, from how hard the metal is.

        A = c t + r pi/2 for 90 degrees, so k = c / (pi/2)

    Args:
        temper: `soft`, `half-hard` or `hard`.

    Returns:
        The share of the thickness from the inside [1], and the row of the table with the constant c.

    Source: Machinery's Handbook's constants 0.55, 0.64 and 0.71, as the table's source says.

    Example:
        >>> round(k_of_temper("half-hard")[0], 4)
        0.4074
    """
    row = load("bend_constants").row(temper)
    return row.number("constant") / (pi / 2), row


def setback(
    thickness_mm: float, radius_mm: float, angle_deg: float, measured_to: MeasuredTo = "corner"
) -> float:
    """What of a leg's outside length lies beyond the straight part.

        setback = (r + t) tan(angle / 2); to the tangent of a bend over 90 degrees r + t

    Args:
        thickness_mm: [mm] the thickness.
        radius_mm: [mm] the inside radius.
        angle_deg: [deg] through which the sheet is bent; under 180 where it is measured to the corner.
        measured_to: `corner`, where the two outside faces would meet, or `tangent`, as far as the metal
            reaches. Up to 90 degrees the corner is meant either way.

    Returns:
        The setback [mm].

    Raises:
        InputError: for a bend so far round that its outside faces do not meet.

    Source: geometry; (r + t) tan(angle/2) as in the airframe handbook, FAA-H-8083-31, chapter 4.

    Example:
        >>> round(setback(1.016, 4.064, 90), 3)
        5.08
    """
    if angle_deg > 90 and measured_to == "tangent":
        return radius_mm + thickness_mm
    if angle_deg > 170:
        says = "Beyond 170 degrees the outside faces hardly meet; write tangent for measured_to."
        raise InputError.of(says, field="measured_to", choices=("tangent",), value=angle_deg, limit=170.0)
    return (radius_mm + thickness_mm) * tan(radians(angle_deg) / 2)


@dataclass(frozen=True, slots=True)
class Bend:
    """One bend: its angle [deg], inside radius [mm] and k; its material and its setback [mm]."""

    angle_deg: float
    radius_mm: float
    k: float
    allowance_mm: float
    setback_mm: float

    @property
    def deduction_mm(self) -> float:
        """What the bend takes off the sum of the outside lengths: 2 setback - allowance."""
        return 2 * self.setback_mm - self.allowance_mm


def bend_of(
    thickness_mm: float, radius_mm: float, angle_deg: float, k: float, measured_to: MeasuredTo = "corner"
) -> Bend:
    """Put a bend together from its sizes.

    Args:
        thickness_mm: [mm] the thickness.
        radius_mm: [mm] the inside radius.
        angle_deg: [deg] through which the sheet is bent.
        k: [1] where the neutral line lies.
        measured_to: what the outside lengths are measured to.

    Returns:
        The bend.

    Raises:
        InputError: for an input out of its range.

    Source: `allowance` and `setback` here.

    Example:
        >>> round(bend_of(2, 2, 90, 0.325).deduction_mm, 3)
        3.837
    """
    return Bend(
        angle_deg,
        radius_mm,
        k,
        allowance(thickness_mm, radius_mm, angle_deg, k),
        setback(thickness_mm, radius_mm, angle_deg, measured_to),
    )


@dataclass(frozen=True, slots=True)
class Blank:
    """The flat strip: its length, and for each bend where it begins and ends from the first edge [mm]."""

    length_mm: float
    straights_mm: tuple[float, ...]
    bends_mm: tuple[tuple[float, float], ...]


def flat_blank(legs_mm: Sequence[float], bends: Sequence[Bend]) -> Blank:
    """Unfold a strip: straight parts and bends one after another.

        straight = leg - setbacks at its ends; length = sum of straights and allowances

    Args:
        legs_mm: [mm] the outside length of each leg; one more than there are bends.
        bends: the bends between them.

    Returns:
        The blank.

    Raises:
        InputError: for a leg too short for the bends at its ends.

    Source: geometry; the airframe handbook, FAA-H-8083-31, chapter 4, sets it out the same.

    Example:
        >>> round(flat_blank([20, 20], [bend_of(1.219, 1.5, 90, 0.447)]).length_mm, 1)
        37.8
    """
    straights, spans, at = [], [], 0.0
    for place, leg in enumerate(legs_mm):
        ends = [bends[i].setback_mm for i in (place - 1, place) if 0 <= i < len(bends)]
        straight = leg - sum(ends)
        if straight < -1e-9:
            says = (
                f"Leg {place + 1} of {leg:g} mm is shorter than the {sum(ends):.4g} mm that its bends "
                "take of it; write a longer leg or a smaller radius."
            )
            raise InputError.of(says, field="legs", value=leg, limit=sum(ends), unit="mm")
        straight = max(0.0, straight)
        straights.append(straight)
        at += straight
        if place < len(bends):
            spans.append((at, at + bends[place].allowance_mm))
            at += bends[place].allowance_mm
    return Blank(at, tuple(straights), tuple(spans))
