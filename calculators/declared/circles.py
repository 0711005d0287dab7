"""Circle-of-holes: where to drill holes that are spread evenly on a circle."""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Input, Result, Step, Value, named
from calculators.calculation.result import number_text
from calculators.drawing.setting_out import draw_circle
from calculators.geometry.circles import (
    MOST_HOLES,
    Place,
    chord_across,
    circle_of_holes,
    rounded_shift,
    step_angle,
)
from calculators.geometry.positions import read_point

_SOURCE = "chord = D sin(180/n): Machinery's Handbook, 31st edition, pages 711 and 720"
_MOST_CHECKS = 12


def places_of(given: Given) -> tuple[Place, ...]:
    """The places of the holes that were asked for.

    Args:
        given: the inputs of the calculator, as read.

    Returns:
        The places, in the order in which they are counted.

    Raises:
        InputError: for a centre that is not two lengths.

    Source: this project.
    """
    return circle_of_holes(
        given.mm("diameter"),
        given.integer("count"),
        first_deg=given.number("first_angle"),
        centre_mm=read_point(given.text("centre"), field="centre"),
        arc_deg=given.number("arc"),
        clockwise=given.text("hand") == "clockwise",
    )


def _circle(given: Given) -> Result:
    diameter, count, arc = given.mm("diameter"), given.integer("count"), given.number("arc")
    places, step = places_of(given), step_angle(count, arc)
    chord = chord_across(diameter, step)
    d, s, n = number_text(diameter), number_text(step), count
    whole = arc == 360
    first = places[0]
    x0, y0 = (number_text(value) for value in read_point(given.text("centre"), field="centre"))
    a = number_text(first.angle_deg)
    steps = [
        Step("step", "360 / n" if whole else "arc / (n - 1)",
             f"360 / {n}" if whole else f"{number_text(arc)} / ({n} - 1)", step, "deg"),
        Step("chord", "D sin(step / 2)", f"{d} mm x sin({s} deg / 2)", chord, "mm", _SOURCE),
        Step("x of hole 1", "x0 + D/2 cos(a)", f"{x0} + {d}/2 x cos({a} deg)", first.x_mm, "mm"),
        Step("y of hole 1", "y0 + D/2 sin(a)", f"{y0} + {d}/2 x sin({a} deg)", first.y_mm, "mm"),
    ]  # fmt: skip
    results = named(
        positions=_positions(places), chord=chord, chords=_checks(diameter, step, count, whole),
    )  # fmt: skip
    if not given.spreads:
        # Beside sizes that are off by more, the rounding of their hundredths says nothing.
        results |= named(rounding=rounded_shift(places))
    warnings: list[str] = []
    hole = given.mm_or_none("hole")
    if hole is not None:
        # Over an arc of nearly the whole circle the last hole may lie closest to the first.
        closest = min(chord, *(chord_across(diameter, step, k) for k in range(2, count)), diameter)
        land = closest - hole if abs(closest - hole) > 1e-9 else 0.0
        numbers = f"{number_text(closest)} - {number_text(hole)}"
        steps.append(Step("land", "closest holes - hole", numbers, land, "mm"))
        results |= named(land=land)
        warnings += _land_warnings(land, hole)
    return Result(results, tuple(steps), tuple(warnings))


def _land_warnings(land: float, hole: float) -> list[str]:
    if land == 0:
        return ["The holes touch each other: take fewer or smaller ones."]
    if land < 0:
        return [f"The holes run into each other by {number_text(-land, 4)} mm: take fewer or smaller ones."]
    if land < hole / 2:
        least, left = number_text(hole / 2, 4), number_text(land, 4)
        usual = f"half a hole, {least} mm, or more is usual (common practice)"
        return [f"Only {left} mm is left between the holes; {usual}."]
    return []


def _positions(places: tuple[Place, ...]) -> Value:
    value = [{"x": one.x_mm, "y": one.y_mm, "angle": one.angle_deg} for one in places]
    lines = (
        f"{i}: x {one.x_mm + 0.0:.2f}, y {one.y_mm + 0.0:.2f} mm at {number_text(one.angle_deg)} deg"
        for i, one in enumerate(places, 1)
    )
    return Value(value, "mm", "\n".join(lines).replace("-0.00", "0.00"))


def _checks(diameter: float, step: float, count: int, whole: bool) -> Value:
    """Distances to the next but one and so on; on a whole circle they repeat from the other side."""
    last = count // 2 if whole else count - 1
    found = [{"place": k, "distance": chord_across(diameter, step, k)} for k in range(1, last + 1)]
    found = found[:_MOST_CHECKS]
    lines = (f"{each['place']} on: {each['distance']:.2f} mm" for each in found)
    return Value(found, "mm", "\n".join(lines))


CIRCLE_OF_HOLES = Calculator(
    name="circle-of-holes",
    summary="Where to drill holes that are spread evenly on a circle or on an arc of one.",
    purpose="Set out and mark",
    inputs=(
        Input(name="diameter", help="the pitch circle's diameter", kind="length", unit="mm", above=0,
              maximum=20000, example="72 mm"),
        Input(name="count", help="how many holes", kind="integer", minimum=2, maximum=MOST_HOLES,
              example="6"),
        Input(name="first_angle", help="the direction of the first hole from the x axis towards y",
              kind="quantity", unit="deg", default="0", minimum=-360, maximum=360),
        Input(name="centre", help="the circle's centre, x and y from the datum", kind="text",
              default="0, 0", example="40 mm, 25 mm"),
        Input(name="arc", help="the arc from the first hole to the last; 360 is the whole circle",
              kind="quantity", unit="deg", default="360", above=0, maximum=360),
        Input(name="hand", help="which way round they are counted", kind="choice",
              choices=("anticlockwise", "clockwise"), default="anticlockwise",
              synonyms=(("counterclockwise", "anticlockwise"),)),
        Input(name="hole", help="the diameter of each hole", kind="length", unit="mm", above=0,
              maximum=20000, optional=True, example="5.5 mm"),
    ),
    outputs=("positions", "chord", "chords", "rounding", "land"),
    work=_circle,
    sources=(_SOURCE, "coordinates: geometry"),
    draw=draw_circle,
    example={"diameter": "72 mm", "count": "6", "hole": "5.5 mm"},
)  # fmt: skip
