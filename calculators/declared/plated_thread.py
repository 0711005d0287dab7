"""Plated-thread: what a coating does to the fit of a thread, and how thick a coating there is room for."""

from __future__ import annotations

import math

from calculators.calculation import Calculator, Given, Input, Result, Step, named
from calculators.calculation.result import number_text
from calculators.hardware.thread_limits import limits_of
from calculators.hardware.thread_plating import greatest_coating_mm, pitch_diameter_growth_mm
from calculators.hardware.threads import find_thread


def _plated(given: Given) -> Result:
    thread = find_thread(given.text("designation"), field="designation")
    limits, angle = limits_of(thread), thread.angle_deg
    coating, nut_coating = given.mm("coating"), given.mm("nut_coating")
    told = given.mm_or_none("allowance")
    allowance = limits.allowance_mm if told is None else told
    growth, nut_growth = (pitch_diameter_growth_mm(each, angle) for each in (coating, nut_coating))
    left = allowance - growth - nut_growth
    greatest = greatest_coating_mm(allowance - nut_growth, angle)
    basic = thread.pitch_diameter_mm
    results = named(
        verdict=_verdict(left),
        pitch_diameter_growth=growth,
        nut_growth=nut_growth,
        major_diameter_growth=2 * coating,
        thread_allowance=allowance,
        room_left=left,
        greatest_coating=greatest,
        cut_to=basic - growth - nut_growth,
    )
    half = number_text(angle / 2)
    factor = 2 / math.sin(math.radians(angle) / 2)
    t, tn = number_text(coating), number_text(nut_coating)
    room = f"({number_text(allowance, 4)} - {number_text(nut_growth, 4)})"
    why = "ISO 4042; geometry" if angle == 60 else "geometry"
    steps = (
        Step("growth", "2 t / sin a", f"2 x {t} / sin {half} deg", growth, "mm", why),
        Step("growth of the nut", "2 t nut / sin a", f"2 x {tn} / sin {half} deg", nut_growth, "mm", why),
        Step("growth of the crest", "2 t", f"2 x {t}", 2 * coating, "mm"),
        Step("room left", "a - both growths", f"{number_text(allowance, 4)} - {number_text(growth, 4)} - "
             f"{number_text(nut_growth, 4)}", left, "mm", "allowance as told" if told is not None
             else f"allowance of class {limits.screw_class}: {limits.source}"),
        Step("thickest coating", "(a - growth of the nut) / (2 / sin a)", f"{room} / {factor:.4f}",
             greatest, "mm"),
        Step("cut to", "basic pitch diameter - both growths", f"{number_text(basic)} - "
             f"{number_text(growth + nut_growth, 4)}", basic - growth - nut_growth, "mm"),
    )  # fmt: skip
    return Result(results, steps, _warnings(left, greatest, allowance, told), (limits.source, *_SOURCES))


def _verdict(left: float) -> str:
    return "within the allowance" if left >= -1e-9 else "over the allowance"


def _warnings(left: float, greatest: float, allowance: float, told: float | None) -> tuple[str, ...]:
    found = []
    if told is None and allowance == 0:
        found.append(
            "The class of this thread has no allowance: a coating has room only where screw or nut is within "
            "its tolerance; cut the screw smaller, or the nut larger, by what the coating takes."
        )
    elif left < -1e-9:
        found.append(
            f"The coatings take {1000 * (allowance - left):.0f} micrometres of the pitch diameter and the "
            f"allowance is {1000 * allowance:.0f}: the largest screw does not go in the smallest nut. "
            f"Room is for {1000 * greatest:.1f} micrometres on the screw."
        )
    return tuple(found)


_SOURCES = (
    "pitch diameter grows by four times the coating at 60 degrees: ISO 4042; other angles: geometry",
    "gauged before plating; after it no thread may pass the basic size: ISO 965-2, ASME B1.13M",
)

PLATED_THREAD = Calculator(
    name="plated-thread",
    summary="How much a coating takes of the room between screw and nut, and how thick it may be.",
    purpose="Choose a thread and its holes",
    inputs=(
        Input(name="designation", help="the thread", kind="text", example="M6, 10-32 or 2 BA"),
        Input(
            name="coating",
            help="thickness of the coating on the screw",
            kind="length",
            unit="mm",
            minimum=0,
            maximum=0.2,
            example="5 um",
        ),
        Input(
            name="nut_coating",
            help="thickness of the coating in the nut",
            kind="length",
            unit="mm",
            minimum=0,
            maximum=0.2,
            default="0",
        ),
        Input(
            name="allowance",
            help="room between the largest screw and the smallest nut; without it that of the usual class",
            kind="length",
            unit="mm",
            optional=True,
            minimum=0,
            maximum=1,
        ),
    ),
    outputs=(
        "verdict",
        "pitch_diameter_growth",
        "nut_growth",
        "major_diameter_growth",
        "thread_allowance",
        "room_left",
        "greatest_coating",
        "cut_to",
    ),
    work=_plated,
    sources=_SOURCES,
    cautions=(
        "Acid pickling and electroplating can make hardened steel brittle; screws of class 10.9 and harder "
        "want a plater who bakes them.",
    ),
    example={"designation": "M6", "coating": "5 um"},
)
