"""Arc: the radius, chord, height and length of a curve, and the ordinates to mark it by."""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Input, Result, Step, Value, named
from calculators.calculation.result import number_text
from calculators.declared.choosing import given_of
from calculators.drawing.arcs import draw_arc
from calculators.geometry.arcs import (
    Arc,
    arc_of_chord_and_height,
    arc_of_radius_and_angle,
    chord_of,
    height_of,
    ordinates,
)
from calculators.quantities.errors import InputError

_SIZES = ("chord", "height", "radius", "angle")


def arc_of(given: Given) -> Arc:
    """The arc from whichever two of its sizes were given.

    Args:
        given: the inputs of the calculator, as read.

    Returns:
        The arc.

    Raises:
        InputError: when not two sizes were given or there is no such arc.

    Source: this project.
    """
    found = set(given_of(given, _SIZES, 2))
    value = {name: given.number(name) if name == "angle" else given.mm(name) for name in found}
    if found == {"height", "angle"}:
        # h = 2 r sin2(a/4), so the arc of radius 1 scales to the height.
        return arc_of_radius_and_angle(
            value["height"] / arc_of_radius_and_angle(1.0, value["angle"]).height_mm, value["angle"]
        )
    if found == {"chord", "angle"}:
        radius = value["chord"] / max(1e-9, arc_of_radius_and_angle(1.0, value["angle"]).chord_mm)
        if radius > 1e9:
            says = "So nearly a whole circle has no chord to speak of; write a smaller angle."
            raise InputError.of(says, field="angle", value=value["angle"], limit=360.0, unit="deg")
        return arc_of_radius_and_angle(radius, value["angle"])
    if "angle" in found:
        return arc_of_radius_and_angle(value["radius"], value["angle"])
    if found == {"chord", "height"}:
        return arc_of_chord_and_height(value["chord"], value["height"])
    if found == {"chord", "radius"}:
        greater = given.text("part") == "greater"
        height = height_of(value["radius"], value["chord"], greater=greater)
        return arc_of_chord_and_height(value["chord"], height)
    return arc_of_chord_and_height(chord_of(value["radius"], value["height"]), value["height"])


def _arc(given: Given) -> Result:
    arc = arc_of(given)
    # The angle itself may be 359 degrees at most; the excess is for rounding.
    if arc.angle_deg > 359 + 1e-9:
        says = "So nearly a whole circle has no chord to speak of; write a longer chord or less height."
        field = "height" if given.mm_or_none("chord") is None else "chord"
        raise InputError.of(says, field=field, value=arc.angle_deg, limit=359.0, unit="deg")
    chord, height, radius = arc.chord_mm, arc.height_mm, arc.radius_mm
    c, h, r, a = map(number_text, (chord, height, radius, arc.angle_deg))
    found = ordinates(arc, given.integer("divisions"))
    steps = (
        Step("radius", "(c^2 / 4 + h^2) / (2 h)", f"({c}^2 / 4 + {h}^2) / (2 x {h})", radius, "mm",
             "circular segment"),
        Step("chord", "2 sqrt(h (2 r - h))", f"2 sqrt({h} x (2 x {r} - {h}))", chord, "mm"),
        Step("height", "r (1 - cos(a/2))", f"{r} x (1 - cos({a} deg / 2))", height, "mm"),
        Step("angle", "4 atan(2 h / c)", f"4 atan(2 x {h} / {c})", arc.angle_deg, "deg"),
        Step("length", "r a, a in radians", f"{r} x {a} x pi/180", arc.length_mm, "mm"),
        Step("y at a quarter", "sqrt(r^2 - (c/4)^2) - (r - h)", f"sqrt({r}^2 - ({c}/4)^2) - ({r} - {h})",
             ordinates(arc, 4)[1][1], "mm", "ordinate over the chord"),
    )  # fmt: skip
    value = [{"x": x, "y": y} for x, y in found]
    lines = "\n".join(f"x {x:.2f}: {y:.2f} mm" for x, y in found)
    results = named(
        arc_radius=radius, chord=chord, arc_height=height, arc_angle=arc.angle_deg,
        arc_length=arc.length_mm, arc_area=arc.area_mm2, ordinates=Value(value, "mm", lines),
    )  # fmt: skip
    warnings: tuple[str, ...] = ()
    if height > radius:
        warnings = (
            "The arc is more than half of a circle: it bulges out beyond the ends of its chord, where no "
            "ordinate shows it.",
        )
    return Result(results, steps, warnings)


def _size(name: str, says: str, example: str = "") -> Input:
    return Input(name=name, help=says, kind="length", unit="mm", optional=True, above=0, maximum=100000,
                 example=example)  # fmt: skip


ARC = Calculator(
    name="arc",
    summary="The radius, chord, height and length of an arc, and ordinates to mark the curve by.",
    purpose="Set out and mark",
    inputs=(
        _size("chord", "the straight distance between the ends; two of the four sizes are wanted", "800 mm"),
        _size("height", "the height of the curve over the middle of the chord", "100 mm"),
        _size("radius", "the radius"),
        Input(name="angle", help="the angle that the arc spans at its centre", kind="quantity", unit="deg",
              optional=True, minimum=0.001, maximum=359),
        Input(name="part", help="which part of the circle is meant by a chord and a radius", kind="choice",
              choices=("lesser", "greater"), default="lesser"),
        Input(name="divisions", help="how many equal parts the chord is divided in", kind="integer",
              default="8", minimum=2, maximum=200),
    ),
    outputs=("arc_radius", "chord", "arc_height", "arc_angle", "arc_length", "arc_area", "ordinates"),
    work=_arc,
    sources=("segments of circles: Machinery's Handbook, 31st edition, page 83",),
    draw=draw_arc,
    example={"chord": "800 mm", "height": "100 mm"},
)  # fmt: skip
