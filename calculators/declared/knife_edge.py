"""Knife-edge: how far an edge swings in its V, whether stops act first, how hard it presses."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.calculation import Calculator, Given, Input, Picture, Result, Step, Value, named
from calculators.calculation.result import number_text
from calculators.declared.pivot_inputs import PIVOT, STOPS
from calculators.declared.pivot_reading import stop_faults, stops_of
from calculators.drawing.knife_edge import knife_edge_picture
from calculators.mechanics.pivot.knife_edge import (
    FLAT_DEG,
    contact_half_width,
    contact_modulus,
    contact_pressure,
    load_on_line,
    pressure_limit,
    relative_radius,
    swing_each_way,
)
from calculators.quantities.errors import Fault, InputError

_HERTZ = "Hertz; Johnson, Contact Mechanics, 1985, from memory"
_POISSON = 0.3


def _knife_edge(given: Given) -> Result:
    faults = [*stop_faults(given), *_contact_faults(given)]
    if faults:
        raise InputError(*faults)
    edge, v_angle, lean = given.number("edge_angle"), given.number("v_angle"), given.number("edge_lean")
    low, high = swing_each_way(edge, v_angle, lean)
    stops = [None if each is None else math.degrees(each) for each in stops_of(given)]
    numbers = f"({number_text(v_angle)} deg - {number_text(edge)} deg)/2"
    steps = [Step("a_v", "(V - E)/2", numbers, (v_angle - edge) / 2, "deg", "geometry")]
    left = _left((low, high), stops)
    verdict, told = _verdict(given, (low, high), stops, left)
    results = named(swing_low=low, swing_high=high)
    for name, stop in (("stop_angle_low", stops[0]), ("stop_angle_high", stops[1])):
        results |= {} if stop is None else named(**{name: stop})
    if left is not None:
        results |= named(swing_left=left)
        numbers = " and ".join(
            f"{number_text(abs(flank))} deg - {number_text(abs(stop))} deg"
            for flank, stop in zip((low, high), stops, strict=True)
            if stop is not None
        )
        steps.append(Step("d", "least of flank less stop", numbers, left, "deg", "geometry"))
    results |= named(verdict=verdict)
    warnings = [*told]
    if given.number_or_none("load") is not None:
        found, more, minded = _contact(given)
        results |= found
        steps += more
        warnings += minded
    return Result(results, tuple(steps), tuple(warnings))


def _left(flanks: tuple[float, float], stops: list[float | None]) -> float | None:
    """The least angle left between a stop and its flank; None where there is no stop."""
    found = [abs(flank) - abs(stop) for flank, stop in zip(flanks, stops, strict=True) if stop is not None]
    return min(found, default=None)


def _verdict(
    given: Given, flanks: tuple[float, float], stops: list[float | None], left: float | None
) -> tuple[str, list[str]]:
    margin = given.number("margin")
    most = max(0.0, min(-flanks[0], flanks[1]) - margin)
    sides = ("clockwise", "anticlockwise")
    open_sides = [side for side, stop in zip(sides, stops, strict=True) if stop is None]
    told = []
    if open_sides:
        told.append(
            f"There is no {' and no '.join(open_sides)} stop: the edge swings until its flank rides "
            f"up the V; set stops at {most:.3g} deg or less."
        )
    if left is None:
        return "no stop", told
    if left < -1e-9:
        told.append(
            f"The edge rides up the V {-left:.3g} deg before a stop acts; set the stops at {most:.3g} deg or "
            "less, or open the V."
        )
        return "the edge rides up the V first", told
    if left < margin - 1e-9:
        told.append(
            f"Between stop and flank {left:.3g} deg are left, less than the margin of {margin:.3g} deg; set "
            f"the stops at {most:.3g} deg or less."
        )
        return "the stops act within the margin", told
    return ("the stops act first" if not open_sides else "the stop acts first"), told


def _contact(given: Given) -> tuple[dict[str, Value], list[Step], list[str]]:
    load, length = given.number("load"), given.mm("bearing_length")
    v_angle, bed = given.number("v_angle"), given.mm_or_none("bed_radius")
    rolls = bed is not None or v_angle == FLAT_DEG
    line = load_on_line(load, length, v_angle, rolls=rolls)
    radius = relative_radius(given.mm("edge_radius"), bed)
    first, second = given.number("modulus") * 1000, (given.number_or_none("bed_modulus") or 0.0) * 1000
    modulus = contact_modulus(first, second or first, _POISSON, _POISSON)
    half, pressure = contact_half_width(line, radius, modulus), contact_pressure(line, radius, modulus)
    n = number_text
    formula = "F/l" if rolls else "F/(2 l sin(V/2))"
    numbers = f"{n(load)} N/{n(length)} mm" if rolls else (
        f"{n(load)} N/(2 x {n(length)} mm x sin({n(v_angle / 2)} deg))"
    )  # fmt: skip
    steps = [
        Step("w", formula, numbers, line, "N/mm", "statics, without friction"),
        Step("R", "1/(1/r - 1/rb)" if bed else "r", "", radius, "mm", _HERTZ),
        Step("E*", "1/((1 - n^2)/E1 + (1 - n^2)/E2)",
             f"1/((1 - 0.3^2)/{n(first)} + (1 - 0.3^2)/{n(second or first)})", modulus, "MPa", _HERTZ),
        Step("2b", "2 sqrt(4 w R/(pi E*))",
             f"2 sqrt(4 x {n(line)} N/mm x {n(radius)} mm/(pi x {n(modulus)} MPa))", 2 * half, "mm", _HERTZ),
        Step("p", "sqrt(w E*/(pi R))",
             f"sqrt({n(line)} N/mm x {n(modulus)} MPa/(pi x {n(radius)} mm))", pressure, "MPa", _HERTZ),
    ]  # fmt: skip
    results = named(line_load=line, contact_width=2 * half, contact_pressure=pressure)
    told = []
    if 2 * half > given.mm("edge_radius"):
        told.append(
            f"The strip that touches, {2 * half:.3g} mm, is wider than the radius of the edge: the pressure "
            "is beyond the formula, and the edge takes a flat."
        )
    hardness = given.number_or_none("hardness")
    if hardness is not None:
        limit = pressure_limit(hardness)
        results |= named(pressure_limit=limit, pressure_share=100 * pressure / limit)
        numbers = f"1.67 x 9.80665 x {n(hardness)} HV/3"
        steps.append(Step("p_y", "1.67 Y, Y = g HV/3", numbers, limit, "MPa",
                          "Johnson, 1985, and Tabor, 1951, from memory"))  # fmt: skip
        if pressure > limit:
            told.append(
                f"A pressure of {pressure:.4g} MPa is over the {limit:.4g} MPa at which {hardness:g} HV "
                "begins to yield: the edge takes a flat; make it rounder, longer or harder, or the load less."
            )
    else:
        told.append("Without the hardness of the softer of edge and bed the pressure has no limit beside it.")
    return results, steps, told


def _contact_faults(given: Given) -> Iterator[Fault]:
    load = given.number_or_none("load")
    for name in ("bearing_length", "edge_radius"):
        if load is not None and given.mm_or_none(name) is None:
            says = (
                f"The pressure of the edge needs its load, bearing_length and edge_radius; {name} is missing."
            )
            yield Fault(says, name)


def _draw(given: Given, result: Result) -> tuple[Picture, ...]:
    low, high = swing_each_way(given.number("edge_angle"), given.number("v_angle"), given.number("edge_lean"))
    stops = [None if each is None else math.degrees(each) for each in stops_of(given)]
    angles = (given.number("edge_angle"), given.number("v_angle"), given.number("edge_lean"))
    return (knife_edge_picture(angles, (low, high), (stops[0], stops[1])),)


_OF_PIVOT = ("edge_angle", "v_angle", "edge_lean", "margin")


def _needed(each: Input) -> Input:
    """The same input where it may not be left out."""
    kept = {
        name: getattr(each, name)
        for name in ("name", "help", "kind", "unit", "minimum", "maximum", "above", "example")
    }
    return Input(**kept)


KNIFE_EDGE = Calculator(
    name="knife-edge",
    summary="A knife edge in a V: how far it swings, whether its stops act first, how hard it presses.",
    purpose="Springs, pivots and strings",
    inputs=(
        *(_needed(each) for each in PIVOT if each.name in _OF_PIVOT[:2]),
        *(each for each in PIVOT if each.name in _OF_PIVOT[2:]),
        *STOPS,
        Input(
            name="load",
            help="force that presses the edge into the V",
            kind="quantity",
            unit="N",
            minimum=0,
            maximum=1e5,
            optional=True,
            example="20 N",
        ),
        Input(
            name="bearing_length",
            help="length of edge that bears",
            kind="length",
            unit="mm",
            above=0,
            maximum=1000,
            optional=True,
        ),
        Input(
            name="edge_radius",
            help="radius of the edge, as stoned",
            kind="length",
            unit="mm",
            minimum=0.001,
            maximum=50,
            optional=True,
            example="0.05 mm",
        ),
        Input(
            name="bed_radius",
            help="radius of the bottom of the V where the edge rolls on it; without it the edge lies on "
            "both flanks",
            kind="length",
            unit="mm",
            above=0,
            maximum=500,
            optional=True,
        ),
        Input(
            name="modulus",
            help="modulus of elasticity of the edge",
            kind="quantity",
            unit="GPa",
            minimum=1,
            maximum=1000,
            default="207 GPa",
        ),
        Input(
            name="bed_modulus",
            help="the same of the bed, where it is of another material",
            kind="quantity",
            unit="GPa",
            minimum=1,
            maximum=1000,
            optional=True,
        ),
        Input(
            name="hardness",
            help="Vickers hardness of the softer of edge and bed; 60 HRC is about 697 HV (ASTM E140, from "
            "memory)",
            kind="number",
            above=0,
            maximum=3000,
            optional=True,
            example="697",
        ),
    ),
    outputs=(
        "swing_low",
        "swing_high",
        "stop_angle_low",
        "stop_angle_high",
        "swing_left",
        "verdict",
        "line_load",
        "contact_width",
        "contact_pressure",
        "pressure_limit",
        "pressure_share",
    ),
    work=_knife_edge,
    sources=(
        "Swing: geometry; 1 deg of margin, hard and stiff edge and bed: common practice",
        "Pressure: Hertz's line contact as in Mechanical Engineer's Data Handbook, page 52, and K. L. "
        "Johnson, Contact Mechanics, 1985 (from memory)",
        "First yield at 1.67 Y, hardness 3 Y: Johnson, 1985; Tabor, 1951 (from memory)",
    ),
    cautions=(
        "The load is taken as even along the edge: bed it in so that it bears along all of its length.",
        "Hardened edges chip and throw splinters when they are struck or dropped: wear eye protection.",
        "The pressure is for a still load; where a fall could hurt somebody, have the pivot checked by a "
        "licensed engineer.",
    ),
    example={
        "edge_angle": "60 deg",
        "v_angle": "90 deg",
        "stop_radius": "220 mm",
        "gap_low": "23.5 mm",
        "gap_high": "23.5 mm",
        "lever_width": "6 mm",
        "load": "20 N",
        "bearing_length": "12 mm",
        "edge_radius": "0.05 mm",
        "hardness": "697",
    },
    draw=_draw,
    either=(("stop_low", "gap_low"), ("stop_high", "gap_high")),
)
