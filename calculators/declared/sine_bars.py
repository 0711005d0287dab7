"""Sine-bar: the height for an angle, the angle of a height, and the slip gauges to make it up."""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Input, Result, Step, Value, named
from calculators.calculation.result import number_text
from calculators.declared.choosing import given_of
from calculators.drawing.sine_bars import draw_sine_bar
from calculators.geometry.slip_gauges import (
    MOST_SINE_DEG,
    angle_error,
    sine_angle,
    sine_height,
    stack_of,
    stack_step_mm,
)
from calculators.tables import load

_BOXES = tuple(dict.fromkeys(row["set"] for row in load("slip_gauges").rows))
_SLIPS = "slip gauges: usual sets (from memory)"


def _sine(given: Given) -> Result:
    length, error = given.mm("length"), given.mm("height_error")
    known = given_of(given, ("angle", "height"), 1)[0]
    n = number_text(length, 9)
    if known == "angle":
        angle = given.number("angle")
        height = sine_height(length, angle)
        step = Step("H", "L sin(angle)", f"{n} x sin({number_text(angle, 9)} deg)", height, "mm", "sine bar")
    else:
        height = given.mm("height")
        angle = sine_angle(length, height)
        step = Step("angle", "asin(H / L)", f"asin({number_text(height, 9)} / {n})", angle, "deg", "sine bar")
    off = angle_error(length, angle, error)
    box = given.text("gauges")
    made = round(height / stack_step_mm(box)) * stack_step_mm(box)
    made_angle = sine_angle(length, min(made, sine_height(length, MOST_SINE_DEG)))
    steps = (
        step,
        Step("angle off", "dH / (L cos(angle))",
             f"{number_text(error)} / ({n} x cos({number_text(angle)} deg))",
             off, "deg", "for the error of height stated"),
        Step("height made up", "H to the step of the set",
             f"{number_text(height, 8)} to {stack_step_mm(box):g}",
             made, "mm", _SLIPS),
        Step("angle made up", "asin(H / L)", f"asin({number_text(made, 9)} / {n})", made_angle, "deg"),
    )  # fmt: skip
    stack = stack_of(height, box) if height > 0 else ()
    results = named(
        sine_height=height, sine_angle=angle, stack=_stack(stack, box), stack_height=made,
        stack_angle=made_angle, angle_error=off, angle_error_seconds=3600 * off,
    )  # fmt: skip
    warnings = []
    if angle > 45:
        warnings.append(
            "Beyond 45 degrees a small error of height is a large one of angle; set "
            f"{number_text(90 - angle)} "
            "degrees from the other face instead (common practice)."
        )
    if stack is None:
        warnings.append(
            f"The set {box} makes no stack of {number_text(made, 8)} mm: it is too low or too high for "
            "it. Put the "
            "same gauge under both rollers and more under the one, or take another set."
        )
    return Result(results, steps, tuple(warnings))


def _stack(stack: tuple[float, ...] | None, box: str) -> Value:
    unit = "in" if box.startswith("inch") else "mm"
    if stack is None:
        return Value(None, "", "none from this set")
    return Value([f"{size:g} {unit}" for size in stack], "", "" if stack else "none: the bar lies flat")


SINE_BAR = Calculator(
    name="sine-bar",
    summary="The height that sets a sine bar to an angle, the slip gauges for it, and what an error does.",
    purpose="Set out and mark",
    inputs=(
        Input(name="length", help="the distance between the rollers", kind="length", unit="mm",
              default="100 mm", minimum=10, maximum=2000),
        Input(name="angle", help="the angle to set; or write the height", kind="quantity", unit="deg",
              optional=True, minimum=0, maximum=MOST_SINE_DEG, example="27 or 12° 30'"),
        Input(name="height", help="the height under one roller, to know the angle of", kind="length",
              unit="mm",
              optional=True, minimum=0, maximum=2000),
        Input(name="gauges", help="the set of slip gauges", kind="choice", choices=_BOXES,
              default="metric-87"),
        Input(name="height_error", help="an error of the height, to see what it does", kind="length",
              unit="mm",
              default="0.01 mm", minimum=0, maximum=10),
    ),
    outputs=("sine_height", "sine_angle", "stack", "stack_height", "stack_angle", "angle_error",
             "angle_error_seconds"),
    work=_sine,
    sources=("H = L sin(angle): definition of the sine bar", _SLIPS),
    draw=draw_sine_bar,
    either=(("angle", "height"),),
    example={"length": "100 mm", "angle": "27"},
)  # fmt: skip
