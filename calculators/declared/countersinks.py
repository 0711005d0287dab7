"""Countersink: how deep and wide a countersink is, and what is left under it."""

from __future__ import annotations

from functools import partial
from math import radians, tan

from calculators.calculation import Calculator, Given, Input, Result, Step, named
from calculators.calculation.result import number_text
from calculators.drawing.blind_holes import draw_countersink
from calculators.quantities.errors import InputError


def countersink_depth(
    head_diameter_mm: float, hole_mm: float, angle_deg: float, below_mm: float = 0.0
) -> float:
    """Depth of a countersink from the face to where its cone meets the hole as drilled.

        depth = (head - hole) / (2 tan(angle/2)) + below

    Args:
        head_diameter_mm: [mm] the head's diameter, more than the hole.
        hole_mm: [mm] the hole as drilled, over 0.
        angle_deg: [deg] the included angle of the cone, over 0 and under 180.
        below_mm: [mm] how far the head lies below flush, 0 or more.

    Returns:
        The depth [mm].

    Source: geometry of the cone; ISO 10642 states the same for its heads: k = (dk - d) / (2 tan 45).

    Example:
        >>> round(countersink_depth(8.96, 4, 90), 2)
        2.48
    """
    return (head_diameter_mm - hole_mm) / 2 / tan(radians(angle_deg) / 2) + below_mm


def _countersink(given: Given) -> Result:
    head, hole, below = given.mm("head_diameter"), given.mm("hole"), given.mm("below")
    angle, thickness = given.number("angle"), given.mm_or_none("thickness")
    if hole >= head:
        says = (
            f"The hole of {number_text(hole)} mm is not smaller than the head of {number_text(head)} mm; "
            "write a hole smaller than the head."
        )
        raise InputError.of(says, field="hole", value=hole, limit=head, unit="mm")
    depth = countersink_depth(head, hole, angle, below)
    slope = tan(radians(angle) / 2)
    diameter = head + 2 * below * slope
    h, d, a, b = map(number_text, (head, hole, angle, below))
    cone = "(head - hole) / (2 tan(angle/2)) + below"
    working = [
        Step("depth", cone, f"({h} - {d}) / (2 tan({a}/2)) + {b}", depth, "mm", "geometry of the cone"),
        Step("diameter", "head + 2 below tan(angle/2)", f"{h} + 2 x {b} x tan({a}/2)", diameter, "mm"),
    ]
    results = named(depth=depth, diameter=diameter)
    warnings: list[str] = []
    if thickness is not None:
        left = thickness - depth
        working.append(
            Step("left", "thickness - depth", f"{number_text(thickness)} - {number_text(depth)}", left, "mm")
        )
        # A cone that just reaches the other face leaves a knife edge, which is no face to bear on.
        broken = left <= 1e-9
        results |= named(left=left, breaks_through=broken)
        if broken:
            warnings.append(
                f"The cone comes out at the other face: it needs {number_text(depth, 4)} mm and the part is "
                f"{number_text(thickness, 4)} mm thick. Take a smaller head, a thicker part, or a cup washer."
            )
        elif depth > 0.8 * thickness:
            warnings.append(
                f"The cone takes {number_text(100 * depth / thickness, 3)} % of the thickness; 80 % or less "
                "keeps a wall for the head to bear on (common practice)."
            )
    return Result(results, tuple(working), tuple(warnings))


_over_nought = partial(Input, kind="length", unit="mm", above=0, maximum=500)

COUNTERSINK = Calculator(
    name="countersink",
    summary="How deep and wide to countersink for a head, and what is left under the cone.",
    purpose="Fasten and check a joint",
    inputs=(
        _over_nought(name="head_diameter", help="the head's diameter", example="8.96 mm"),
        Input(
            name="angle",
            help="the included angle of the head",
            kind="quantity",
            unit="deg",
            default="90",
            minimum=30,
            maximum=150,
        ),
        _over_nought(name="hole", help="the diameter of the hole as drilled", example="4 mm"),
        Input(
            name="below",
            help="how far the head lies below flush",
            kind="length",
            unit="mm",
            default="0 mm",
            minimum=0,
            maximum=500,
        ),
        _over_nought(name="thickness", help="the thickness of the part", optional=True),
    ),
    outputs=("depth", "diameter", "left", "breaks_through"),
    work=_countersink,
    draw=draw_countersink,
    sources=("geometry of the cone; the depth is from the hole as drilled to the head's diameter",),
    example={"head_diameter": "8.96 mm", "hole": "4 mm", "thickness": "6 mm"},
)
