"""Thread-wires: which wires measure a thread, what is read over them, and what a reading means."""

from __future__ import annotations

import math
from collections.abc import Sequence

from calculators.calculation import Calculator, Given, Input, Picture, Result, Step, named
from calculators.calculation.result import number_text
from calculators.hardware.thread_limits import limits_of
from calculators.hardware.thread_wires import (
    best_wire_mm,
    lead_correction_mm,
    pitch_diameter_from_mm,
    reading_over_wires_mm,
    wire_range_mm,
)
from calculators.hardware.threads import Thread, find_thread
from calculators.quantities.errors import InputError

_SLACK_MM = 1e-6


def _wires(given: Given) -> Result:
    thread = find_thread(given.text("designation"), field="designation")
    p, angle = thread.pitch_mm, thread.angle_deg
    best, (least, most) = best_wire_mm(p, angle), wire_range_mm(thread)
    wire = given.mm_or_none("wire") or best
    _check_wire(thread, wire, least, most)
    limits = limits_of(thread)
    low, high = limits.screw_pitch_diameter_mm
    basic = thread.pitch_diameter_mm
    reads = [reading_over_wires_mm(each, wire, p, angle) for each in (basic, low, high)]
    results = named(
        best_wire=best,
        least_wire=least,
        most_wire=most,
        wire_used=wire,
        reading_basic=reads[0],
        reading_least=reads[1],
        reading_most=reads[2],
        lead_angle=math.degrees(math.atan(p / (math.pi * basic))),
        lead_correction=lead_correction_mm(wire, p, basic, angle),
    )
    steps = _working(thread, wire, reads)
    reading = given.mm_or_none("reading")
    if reading is not None:
        found = _from_reading(thread, wire, reading)
        results |= named(
            measured_pitch_diameter=found,
            pitch_diameter_off=found - basic,
            verdict=_verdict(found, low, high),
        )
        steps = (*steps, *_back(thread, wire, reading, found))
    slope = math.degrees(math.atan(p / (math.pi * basic)))
    warnings = (
        (f"The thread rises at {slope:.1f} degrees; the formula is good to 5 degrees.",) if slope > 5 else ()
    )
    return Result(results, steps, warnings, (f"{thread.system}: {limits.source}", *_SOURCES))


def _check_wire(thread: Thread, wire: float, least: float, most: float) -> None:
    if least - _SLACK_MM <= wire <= most + _SLACK_MM:
        return
    why = "lies below the crests" if wire < least else "rides on the crests"
    says = (
        f"A wire of {number_text(wire, 4)} mm {why} of {thread.designation}; "
        f"write one from {math.ceil(least * 1000) / 1000:.3f} to {math.floor(most * 1000) / 1000:.3f} mm."
    )
    limit = least if wire < least else most
    raise InputError.of(says, field="wire", value=wire, limit=limit, unit="mm")


def _from_reading(thread: Thread, wire: float, reading: float) -> float:
    """The pitch diameter; a reading that is far off is one of another thread."""
    found = pitch_diameter_from_mm(reading, wire, thread.pitch_mm, thread.angle_deg)
    if abs(found - thread.pitch_diameter_mm) > thread.pitch_mm:
        near = reading_over_wires_mm(thread.pitch_diameter_mm, wire, thread.pitch_mm, thread.angle_deg)
        says = (
            f"A reading of {number_text(reading)} mm is more than a pitch off the {near:.3f} mm of "
            f"{thread.designation}; see that thread, wires and reading belong together."
        )
        raise InputError.of(says, field="reading", value=reading, limit=near, unit="mm")
    return found


def _verdict(found: float, low: float, high: float) -> str:
    if found > high + 1e-9:
        return "too large: over the limit of the screw"
    return (
        "too small: under the limit of the screw" if found < low - 1e-9 else "within the limits of the screw"
    )


def _working(thread: Thread, wire: float, reads: Sequence[float]) -> tuple[Step, ...]:
    p, w = number_text(thread.pitch_mm), number_text(wire)
    half = thread.angle_deg / 2
    a = number_text(half)
    basic = thread.pitch_diameter_mm
    correction = lead_correction_mm(wire, thread.pitch_mm, basic, thread.angle_deg)
    low, high = limits_of(thread).screw_pitch_diameter_mm
    factor, cot = 1 + 1 / math.sin(math.radians(half)), 1 / math.tan(math.radians(half))
    m = "E + w (1 + 1/sin a) - p/2 cot a + c"
    rest = f"{w} x {factor:.5f} - {p}/2 x {cot:.5f}"
    rows = [
        Step("best wire", "p / (2 cos a)", f"{p} / (2 cos {a} deg)",
             best_wire_mm(thread.pitch_mm, thread.angle_deg), "mm", "geometry"),
        Step("c", "w/2 (p / (pi E))^2 cos a cot a", f"{w}/2 ({p} / (pi x {number_text(basic)}))^2 "
             f"cos {a} deg cot {a} deg", correction, "mm", _BOOK),
        Step("M, basic", m, f"{number_text(basic)} + {rest} + {number_text(correction, 3)}", reads[0], "mm",
             _BOOK),
        Step("M, smallest screw", m, f"{number_text(low)} + {rest} + c", reads[1], "mm", _BOOK),
        Step("M, largest screw", m, f"{number_text(high)} + {rest} + c", reads[2], "mm", _BOOK),
    ]  # fmt: skip
    return tuple(rows)


def _back(thread: Thread, wire: float, reading: float, found: float) -> tuple[Step, ...]:
    half = math.radians(thread.angle_deg) / 2
    put = (
        f"{number_text(reading)} - {number_text(wire)} x {1 + 1 / math.sin(half):.5f} + "
        f"{number_text(thread.pitch_mm)}/2 x {1 / math.tan(half):.5f} - c"
    )
    off = f"{number_text(found)} - {number_text(thread.pitch_diameter_mm)}"
    return (
        Step("E", "M - w (1 + 1/sin a) + p/2 cot a - c", put, found, "mm", _BOOK),
        Step("off", "E - basic pitch diameter", off, found - thread.pitch_diameter_mm, "mm"),
    )


def _draw(given: Given, result: Result) -> Sequence[Picture]:
    from calculators.drawing.thread_form import wires_in_thread

    thread = find_thread(given.text("designation"), field="designation")
    wire = given.mm_or_none("wire") or best_wire_mm(thread.pitch_mm, thread.angle_deg)
    return wires_in_thread(thread, wire)


_BOOK = "Machinery's Handbook, three-wire method, from memory"
_SOURCES = (
    _BOOK,
    "the correction for the lead angle is included; without it the reading is that much less",
    "wire ranges: geometry of the basic profiles of ISO 68-1, ASME B1.1, BS 84, BS 93",
)

THREAD_WIRES = Calculator(
    name="thread-wires",
    summary="A screw by three wires: which wires, what a micrometer reads, and what a reading means.",
    purpose="Choose a thread and its holes",
    inputs=(
        Input(
            name="designation",
            help="the thread",
            kind="text",
            example="1/4-20, M6, 5/16 BSF or 2 BA",
        ),
        Input(
            name="wire",
            help="diameter of the wires at hand; without it the best wire",
            kind="length",
            unit="mm",
            optional=True,
            minimum=0.05,
            maximum=10,
            example="0.029 in",
        ),
        Input(
            name="reading",
            help="what the micrometer reads over the wires; without it only what it should read",
            kind="length",
            unit="mm",
            optional=True,
            minimum=0.5,
            maximum=100,
            example="6.58 ± 0.01",
        ),
    ),
    outputs=(
        "best_wire",
        "least_wire",
        "most_wire",
        "wire_used",
        "reading_basic",
        "reading_least",
        "reading_most",
        "lead_angle",
        "lead_correction",
        "measured_pitch_diameter",
        "pitch_diameter_off",
        "verdict",
    ),
    work=_wires,
    sources=_SOURCES,
    example={"designation": "1/4-20 UNC", "wire": "0.029 in", "reading": "0.2585 in"},
    draw=_draw,
)
