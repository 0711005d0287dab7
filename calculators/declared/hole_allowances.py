"""Hole-allowance: how far hole centres may be off in a clearance fit, and the hole that makes a pattern "
"go.
"""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Input, Result, Step, Value, named
from calculators.calculation.result import Plain, number_text
from calculators.drawing.setting_out import draw_hole_fit
from calculators.geometry.hole_fits import (
    Fixing,
    each_way,
    hole_for_errors,
    position_zone,
    share_that_goes,
)
from calculators.hardware.holes import FITS, clearance_hole
from calculators.hardware.threads import Thread, find_thread
from calculators.quantities.errors import InputError

_Y14 = "ASME Y14.5, appendix B, as stated in Goodheart-Willcox, Application and Interpretation, page 308"


def _allow(given: Given) -> Result:
    thread, screw = _screw(given)
    hole, hole_source = _hole(given, thread, screw)
    fixing: Fixing = "floating" if given.text("fixing") == "floating" else "fixed"
    error, count = given.mm("setting_error"), given.integer("count")
    zone = position_zone(hole, screw, fixing)
    h, f, e = map(number_text, (hole, screw, error))
    formula = "H - F" if fixing == "floating" else "(H - F) / 2"
    numbers = f"{h} - {f}" if fixing == "floating" else f"({h} - {f}) / 2"
    needed, share = hole_for_errors(screw, error, fixing), share_that_goes(hole, screw, error, count, fixing)
    worst = 2 * 2**0.5 * error
    room = zone if fixing == "fixed" else hole - screw
    steps = (
        Step("T", formula, numbers, zone, "mm", f"{_Y14}; {fixing} fastener, each part"),
        Step("each way", "T / (2 sqrt 2)", f"{number_text(zone)} / 2.8284", each_way(zone), "mm",
             "in x and in y at once, plus or minus"),
        Step("worst offset", "2 sqrt 2 e", f"2.8284 x {e}", worst, "mm", "both centres off the opposite way"),
        Step("room", "H - F" if fixing == "floating" else "(H - F) / 2", numbers, room, "mm",
             "by which the two centres may differ"),
        Step("hole needed", f"F + {'2' if fixing == 'floating' else '4'} sqrt 2 e",
             f"{f} + {'2.8284' if fixing == 'floating' else '5.6569'} x {e}", needed, "mm",
             "however errors fall"),
        Step("share", "(1 - exp(-room^2 / (2 s^2)))^n, s = sqrt 2 e / 3",
             f"(1 - exp(-{number_text(room)}^2 / (4 x ({e}/3)^2)))^{count}", 100 * share, "%",
             "normal errors, e three standard deviations, parts laid on by their datums"),
    )  # fmt: skip
    fits = worst <= room + 1e-12
    results = named(
        each_way=each_way(zone), position_zone=zone, always_goes=fits, share_that_goes=100 * share,
        hole_needed=needed, worst_offset=worst, screw_diameter=screw, hole_diameter=hole,
        usual_holes=_usual(thread, screw, fixing),
    )  # fmt: skip
    warnings = []
    if not fits:
        some = "nearly all" if share > 0.995 else f"of a hundred, about {number_text(100 * share, 3)}"
        warnings.append(
            f"Set out to {number_text(error, 4)} mm the pattern need not go together: {some} do. A hole of "
            f"{number_text(needed, 4)} mm always does; or drill one part through the other."
        )
    sources = (
        f"{_Y14}",
        f"hole: {hole_source}",
        "share: Rayleigh's distribution (geometry of normal errors)",
    )
    return Result(results, steps, tuple(warnings), sources)


def _screw(given: Given) -> tuple[Thread | None, float]:
    name, size = given.text_or_none("designation"), given.mm_or_none("screw")
    if (name is None) == (size is None):
        says = "Write the designation of a thread or the screw's diameter, one of the two."
        raise InputError.of(says, field="designation")
    if size is not None:
        return None, size
    thread = find_thread(name or "", field="designation")
    return thread, thread.major_mm


def _hole(given: Given, thread: Thread | None, screw: float) -> tuple[float, str]:
    hole = given.mm_or_none("hole")
    if hole is not None:
        return hole, "as given"
    if thread is None:
        says = "The input hole is missing; it follows from a table only where the screw's thread is named."
        raise InputError.of(says, field="hole")
    fit = next(one for one in FITS if one == given.text("fit"))
    found = clearance_hole(thread, fit)
    if found.diameter_mm <= screw:
        says = f"The table has no hole larger than {screw:g} mm for this fit; write one."
        raise InputError.of(says, field="hole", value=found.diameter_mm, limit=screw, unit="mm")
    return found.diameter_mm, found.source.says


def _usual(thread: Thread | None, screw: float, fixing: Fixing) -> Value:
    """The hole of each fit with what it allows."""
    if thread is None:
        return Value([], "mm", "known where the thread is named")
    value: list[Plain] = []
    lines = []
    for fit in FITS:
        size = clearance_hole(thread, fit).diameter_mm
        if size > screw:
            way = each_way(position_zone(size, screw, fixing))
            value.append({"fit": fit, "hole": size, "each_way": way})
            lines.append(f"{fit}: {number_text(size)} mm, centres ± {way:.3f} mm")
    return Value(value, "mm", "\n".join(lines))


def _length(name: str, says: str, **more: object) -> Input:
    return Input(name=name, help=says, kind="length", unit="mm", **more)  # type: ignore[arg-type]


HOLE_ALLOWANCE = Calculator(
    name="hole-allowance",
    summary="How far hole centres may be off in a clearance fit, and the hole that a pattern needs.",
    purpose="Set out and mark",
    inputs=(
        Input(name="designation", help="the screw's thread", kind="text", optional=True,
              example="M5, 1/4 UNF or 2 BA"),
        _length("screw", "the diameter of the screw or stud, in place of its thread", optional=True, above=0,
                maximum=500),
        _length("hole", "the clearance hole; without it that of the "
                "fit", optional=True, above=0, maximum=1000,
                example="5.5 mm"),
        Input(name="fixing", help="fixed: the other part is tapped or has studs; floating: both have "
              "clearance "
              "holes", kind="choice", choices=("fixed", "floating"), default="fixed"),
        Input(name="fit", help="the clearance hole's series, where no hole is given", kind="choice",
              choices=tuple(FITS), default="medium"),
        _length("setting_error", "how far each centre may be off in x and in y, as you set out and drill",
                default="0.2 mm", minimum=0, maximum=100),
        Input(name="count", help="how many holes the pattern has", kind="integer", default="4", minimum=1,
              maximum=360),
    ),
    outputs=("screw_diameter", "hole_diameter", "position_zone", "each_way", "worst_offset", "always_goes",
             "share_that_goes", "hole_needed", "usual_holes"),
    work=_allow,
    draw=draw_hole_fit,
    either=(("designation", "screw"),),
    sources=(_Y14, "clearance holes: ISO 273, ASME B18.2.8 and shop tables"),
    example={"designation": "M5", "hole": "5.5 mm"},
)  # fmt: skip
