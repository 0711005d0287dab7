"""Thread and tapping-drill: the sizes of a screw thread and the holes that it needs."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.calculation import Calculator, Given, Input, Picture, Result, Step, named
from calculators.calculation.result import number_text
from calculators.hardware.holes import (
    FITS,
    LEAST_PERCENT,
    MOST_PERCENT,
    ClearanceHole,
    TappingHole,
    clearance_hole,
    tapping_hole,
)
from calculators.hardware.threads import Thread, all_threads, find_thread, near_matches

_DESIGNATION = Input(
    name="designation",
    help="the thread",
    kind="text",
    example="M5, M6x0.75, 1/4 UNF, 10-32, 3/16 BSF, 1/4 BSW or 2 BA",
)
_ENGAGEMENT = Input(
    name="engagement",
    help="the depth of thread wanted, on the basis that the answer states; without it the recommended drill",
    kind="quantity",
    unit="%",
    optional=True,
    minimum=LEAST_PERCENT,
    maximum=MOST_PERCENT,
)


def _thread(given: Given) -> Result:
    thread = find_thread(given.text("designation"), field="designation")
    tapping = tapping_hole(thread, engagement=given.number_or_none("engagement"))
    close, medium, free = (clearance_hole(thread, fit) for fit in FITS)
    results = named(
        major_diameter=thread.major_mm,
        pitch_diameter=thread.pitch_diameter_mm,
        minor_diameter=thread.minor_diameter_mm,
        pitch=thread.pitch_mm,
        threads_per_inch=25.4 / thread.pitch_mm,
        thread_angle=thread.angle_deg,
        tapping_drill=tapping.drill_mm,
        clearance_close=close.diameter_mm,
        clearance_medium=medium.diameter_mm,
        clearance_free=free.diameter_mm,
        tensile_stress_area=thread.tensile_stress_area_mm2,
    )
    sources = (
        f"sizes: {thread.source.says}",
        f"form: {thread.form.source}",
        f"tapping drill: {tapping.source.says}",
        *_clearance_sources(close, medium, free),
        f"stress area: {thread.tensile_stress_area_basis}",
    )
    return Result(results, (*_profile(thread), _engaged(thread, tapping)), _alike(thread), sources)


def _draw_thread(given: Given, result: Result) -> Sequence[Picture]:
    from calculators.drawing.thread_form import thread_picture

    return thread_picture(find_thread(given.text("designation"), field="designation"))


def _clearance_sources(*holes: ClearanceHole) -> list[str]:
    """One line for each source, with the fits that come from it."""
    fits: dict[str, list[str]] = {}
    for hole in holes:
        fits.setdefault(hole.source.says, []).append(hole.fit)
    return [f"clearance, {', '.join(names)}: {says}" for says, names in fits.items()]


def _profile(thread: Thread) -> tuple[Step, ...]:
    form, p, d = thread.form, number_text(thread.pitch_mm), number_text(thread.major_mm)
    basis, _, area_source = thread.tensile_stress_area_basis.removeprefix("A = ").rpartition(", ")
    if thread.is_unified:
        area = f"pi/4 ({d} - 0.9743 x {p})^2"
    else:
        area = (
            f"pi/4 (({number_text(thread.pitch_diameter_mm)} + {number_text(thread.core_diameter_mm)})/2)^2"
        )
    steps = [
        Step("pitch diameter", f"D - {form.pitch_line:.6g} p", f"{d} - {form.pitch_line:.6g} x {p}",
             thread.pitch_diameter_mm, "mm", form.source),
        Step("minor diameter", f"D - {form.nut:.6g} p", f"{d} - {form.nut:.6g} x {p}",
             thread.minor_diameter_mm, "mm", form.source),
        Step("stress area", basis, area, thread.tensile_stress_area_mm2, "mm2", area_source),
    ]  # fmt: skip
    if thread.tpi is not None:
        count = number_text(float(thread.tpi))
        steps.insert(0, Step("p", "25.4 / n", f"25.4 / {count}", thread.pitch_mm, "mm"))
    return tuple(steps)


def _engaged(thread: Thread, hole: TappingHole) -> Step:
    d, drill = number_text(thread.major_mm), number_text(hole.drill_mm)
    full = number_text(thread.full_engagement_mm)
    numbers = f"100 ({d} - {drill}) / {full}"
    symbol, formula = f"thread with drill {hole.drill.name}", "100 (D - drill) / full depth"
    return Step(symbol, formula, numbers, hole.percent, "%", hole.basis)


def _alike(thread: Thread) -> tuple[str, ...]:
    """Warnings where another thread jams in the same hole, or goes in; one for each way it ends."""
    ends: dict[str, list[str]] = {}
    for each in all_threads():
        if near_matches((thread, each)):
            ends.setdefault(_what_happens(thread, each), []).append(each.designation)
    return tuple(f"{thread.designation} is easily taken for {', '.join(ends[end])}: {end}." for end in ends)


def _what_happens(thread: Thread, other: Thread) -> str:
    """What comes of two near threads: those of one diameter and one pitch do go together."""
    pitch, major = abs(thread.pitch_mm - other.pitch_mm), abs(thread.major_mm - other.major_mm)
    if pitch > 1e-6 or major > 1e-6:
        return "it starts, then jams or strips"
    if thread.angle_deg == other.angle_deg:
        return "it is the same thread by another name"
    return "it goes in, but the flanks differ and hold less"


def _tapping_drill(given: Given) -> Result:
    thread = find_thread(given.text("designation"), field="designation")
    asked = given.number_or_none("engagement")
    hole = tapping_hole(thread, engagement=asked)
    results = named(
        hole=hole.hole_mm, drill=hole.drill.name, drill_diameter=hole.drill_mm, engagement=hole.percent
    )
    steps = [_engaged(thread, hole)]
    if asked is not None:
        full, d = number_text(thread.full_engagement_mm), number_text(thread.major_mm)
        numbers = f"{d} - {number_text(asked)}/100 x {full}"
        steps.insert(
            0, Step("hole", "D - engagement/100 x full depth", numbers, hole.hole_mm, "mm", hole.basis)
        )
    warnings: tuple[str, ...] = ()
    if hole.percent > 85:
        percent = number_text(hole.percent, 3)
        warnings = (f"{percent} % of thread is hard on the tap; 60 to 75 % holds nearly as well.",)
    elif hole.percent < 55:
        percent = number_text(hole.percent, 3)
        warnings = (f"{percent} % of thread is shallow: it strips sooner; 60 to 75 % is usual.",)
    return Result(results, tuple(steps), warnings, (f"hole: {hole.source.says}", hole.basis))


THREAD = Calculator(
    name="thread",
    summary="The sizes of a screw thread, its tapping drill and its clearance holes.",
    purpose="Choose a thread and its holes",
    inputs=(_DESIGNATION, _ENGAGEMENT),
    outputs=(
        "major_diameter",
        "pitch_diameter",
        "minor_diameter",
        "pitch",
        "threads_per_inch",
        "thread_angle",
        "tapping_drill",
        "clearance_close",
        "clearance_medium",
        "clearance_free",
        "tensile_stress_area",
    ),
    work=_thread,
    sources=(
        "ISO 68-1, ISO 724, ISO 273, ISO 2306 (metric)",
        "ASME B1.1, ASME B18.2.8 (Unified)",
        "BS 84, BS 93, BS 1157 (Whitworth, British Association)",
    ),
    example={"designation": "M5"},
    draw=_draw_thread,
)

TAPPING_DRILL = Calculator(
    name="tapping-drill",
    summary="The hole to drill for a tap, the nearest drill and the depth of thread that it leaves.",
    purpose="Choose a thread and its holes",
    inputs=(_DESIGNATION, _ENGAGEMENT),
    outputs=("hole", "drill", "drill_diameter", "engagement"),
    work=_tapping_drill,
    sources=(
        "ISO 2306, BS 1157 and shop tables where they list the thread",
        "basic profiles of ISO 68-1, ASME B1.1, BS 84, BS 93",
    ),
    example={"designation": "1/4-20 UNC", "engagement": "75"},
)
