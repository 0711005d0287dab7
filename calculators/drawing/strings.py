"""A string's stress against its pitch, with the limit and the strength of its wire."""

from __future__ import annotations

from typing import Protocol

from calculators.calculation.picture import Picture
from calculators.calculation.result import number_text
from calculators.drawing.chart import BROAD_MM, NARROW_MM, Axis, Bound, Curve, Spot, chart
from calculators.mechanics.strings import Wire

_POINTS = 60


class Sounding(Protocol):
    """What the picture needs of a string."""

    @property
    def frequency_hz(self) -> float:
        """Its pitch."""
        ...

    @property
    def diameter_mm(self) -> float | None:
        """Its diameter, where known."""
        ...

    @property
    def stress_mpa(self) -> float | None:
        """Its stress, where known."""
        ...

    @property
    def wire(self) -> Wire:
        """What it is of."""
        ...


def string_pictures(string: Sounding, limit: float) -> tuple[Picture, ...]:
    """Draw the stress of a string tuned lower and higher.

    Args:
        string: the string.
        limit: share of the tensile strength that it may bear [1].

    Returns:
        The curve; none where the diameter is not known.

    Source: stress goes with the square of the pitch (Mersenne).
    """
    if string.diameter_mm is None or string.stress_mpa is None:
        return ()
    strength = string.wire.strength_mpa(string.diameter_mm)
    f, stress = string.frequency_hz, string.stress_mpa
    end = max(f * (strength / stress) ** 0.5, f) * 1.1
    points = tuple((end * k / _POINTS, stress * (end * k / _POINTS / f) ** 2) for k in range(_POINTS + 1))
    over = stress > limit * strength
    says = (
        f"The stress rises with the square of the pitch: {number_text(stress, 4)} MPa at "
        f"{number_text(f, 5)} Hz; the limit is {number_text(limit * strength, 4)} MPa and the least tensile "
        f"strength {number_text(strength, 4)} MPa."
    )
    drawn = [
        chart(
            Axis("pitch", "Hz", least=0),
            Axis("stress", "MPa", least=0),
            [Curve(points)],
            title="Stress of the string against its pitch",
            description=says,
            spots=[Spot(f, stress, f"{number_text(f, 4)} Hz, {number_text(stress, 4)} MPa", over)],
            bounds=[
                Bound(f"limit, {number_text(100 * limit, 3)} % of the strength", y=limit * strength),
                Bound("least tensile strength", y=strength, wrong=True),
            ],
            width_mm=width,
        )
        for width in (BROAD_MM, NARROW_MM)
    ]
    return (Picture("Stress against pitch", drawn[0], drawn[1], says),)
