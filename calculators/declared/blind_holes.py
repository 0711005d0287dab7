"""Blind-hole: how deep to drill and tap, and what is left of the part behind the point."""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Input, Result, Step, named
from calculators.calculation.result import number_text
from calculators.drawing.blind_holes import draw_blind_hole
from calculators.geometry.hole_depths import BlindHole, blind_hole
from calculators.hardware.holes import TAP_LEAD_THREADS, tapping_hole
from calculators.hardware.threads import find_thread

_LEAST_WALL_MM = 1.5


def _blind(given: Given) -> Result:
    thread = find_thread(given.text("designation"), field="designation")
    drill = given.mm_or_none("drill")
    tapping = tapping_hole(thread)
    size = tapping.drill_mm if drill is None else drill
    tap = next(name for name in TAP_LEAD_THREADS if name == given.text("tap"))
    asked, point = given.number_or_none("lead_threads"), given.number("point")
    wanted, spare = given.mm("full_thread"), given.mm("spare")
    hole = blind_hole(thread, wanted, size, tap=tap, lead_threads=asked, point_deg=point, spare_mm=spare)
    lead = TAP_LEAD_THREADS[tap] if asked is None else asked
    pitch = number_text(thread.pitch_mm)
    why = f"{tap} tap, common practice" if asked is None else "threads as given"
    steps = [
        Step("lead", "threads x pitch", f"{number_text(lead)} x {pitch}", hole.lead_mm, "mm", why),
        Step("point", "(d/2) / tan(point/2)", f"({number_text(size)}/2) / tan({number_text(point)} deg / 2)",
             hole.point_mm, "mm", "cone of the drill"),
        Step("full diameter to", "thread + lead + spare",
             f"{number_text(wanted)} + {number_text(hole.lead_mm)} + {number_text(spare)}",
             hole.full_diameter_mm, "mm"),
        Step("tip to", "full diameter + point",
             f"{number_text(hole.full_diameter_mm)} + {number_text(hole.point_mm)}", hole.to_point_mm, "mm"),
    ]  # fmt: skip
    results = named(
        drill_diameter=size, drill_depth=hole.full_diameter_mm, tip_depth=hole.to_point_mm,
        tap_lead=hole.lead_mm, point_height=hole.point_mm,
    )  # fmt: skip
    warnings = []
    if wanted < thread.major_mm:
        warnings.append(
            f"{number_text(wanted, 4)} mm of thread is less than one diameter, "
            f"{number_text(thread.major_mm)} mm: "
            "enough in steel for light work only (common practice: 1 D steel, 1.5 D brass, 2 D aluminium)."
        )
    part = given.mm_or_none("thickness")
    if part is not None:
        wall = part - hole.to_point_mm
        steps.append(Step("wall", "thickness - tip", f"{number_text(part)} - {number_text(hole.to_point_mm)}",
                          wall, "mm", f"{_LEAST_WALL_MM} mm or more, common practice"))  # fmt: skip
        results |= named(wall_left=wall, most_thread=_most_thread(part, hole))
        warnings += _wall_warnings(wall, _most_thread(part, hole))
    sources = (f"drill: {tapping.source.says}" if drill is None else "drill: as given",
               "depths: geometry", "tap leads and the least wall: common practice")  # fmt: skip
    return Result(results, tuple(steps), tuple(warnings), sources)


def _most_thread(part: float, hole: BlindHole) -> float:
    """The most full thread that the part has room for with the least wall behind the point."""
    return max(0.0, part - _LEAST_WALL_MM - hole.lead_mm - hole.spare_mm - hole.point_mm)


def _wall_warnings(wall: float, most: float) -> list[str]:
    room = f"This part has room for {number_text(most, 4)} mm of full thread"
    end = f"{room} with {_LEAST_WALL_MM} mm behind the point; a plug tap last gains some."
    if wall <= 0:
        return [f"The drill comes out at the other face by {number_text(-wall, 4)} mm. {end}"]
    if wall < _LEAST_WALL_MM:
        return [f"Only {number_text(wall, 4)} mm is left behind the point and may bulge. {end}"]
    return []


def _length(name: str, says: str, **more: object) -> Input:
    return Input(name=name, help=says, kind="length", unit="mm", **more)  # type: ignore[arg-type]


BLIND_HOLE = Calculator(
    name="blind-hole",
    summary="How deep to drill a blind hole for so much full thread, and the wall left behind the point.",
    purpose="Set out and mark",
    inputs=(
        Input(name="designation", help="the thread", kind="text", example="M5, 1/4 UNF or 2 BA"),
        _length("full_thread", "the depth of full thread wanted", above=0, maximum=500, example="8 mm"),
        Input(name="tap", help="the last tap that is run in", kind="choice", choices=tuple(TAP_LEAD_THREADS),
              default="second", synonyms=(("bottoming", "plug"), ("first", "taper"), ("third", "plug"))),
        _length("thickness", "the thickness of the part, for the wall that is left", optional=True, above=0,
                maximum=2000, example="15 mm"),
        _length("drill", "the tapping drill; without it the usual one", optional=True, above=0, maximum=500),
        Input(name="point", help="the drill's point angle", kind="quantity", unit="deg", default="118",
              minimum=60, maximum=180),
        Input(name="lead_threads", help="the tap's threads that do not cut full, where they were counted",
              kind="number", optional=True, minimum=0, maximum=20),
        _length("spare", "more depth for chips", default="0 mm", minimum=0, maximum=500),
    ),
    outputs=("drill_diameter", "tap_lead", "point_height", "drill_depth", "tip_depth", "wall_left",
             "most_thread"),
    work=_blind,
    sources=("geometry of the drill's point", "leads of taps: common practice"),
    cautions=(
        "Clamp the work, clear the chips often and set a depth stop; a tap that is forced at the bottom "
        "breaks.",
    ),
    draw=draw_blind_hole,
    example={"designation": "M5", "full_thread": "8 mm", "thickness": "15 mm"},
)  # fmt: skip
