"""Identify-thread: which thread a diameter and a pitch, as measured on a real screw or nut, may be."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.calculation import Calculator, Given, Input, Picture, Result, Step, Value, named
from calculators.calculation.result import Plain, number_text
from calculators.hardware.thread_comparison import same_thread
from calculators.hardware.thread_identification import (
    ANGLE_DEG,
    PLATING_MM,
    WEAR_IN_PITCHES,
    Candidate,
    Measured,
    candidates,
    zone_of,
)
from calculators.hardware.thread_limits import limits_of
from calculators.hardware.thread_telling import tell_apart
from calculators.hardware.threads import Thread, all_threads
from calculators.quantities.errors import Fault, InputError

CALIPER_MM = 0.05
"""How far a caliper over threads is taken to be off, unless it is told."""

LEAF = 0.025
"""How far a leaf that seats is taken to be off the pitch, as a share of it, unless it is told."""

OVER_MM = 0.1
"""How far a length over threads is taken to be off, unless it is told."""

_LEAST_OFF_MM = 0.001
_BARELY = 0.01
"""Threads with less than this score are named apart."""

_FAMILIES = {
    "metric": ("ISO metric coarse", "ISO metric fine"),
    "unified": ("UNC", "UNF", "UNEF"),
    "whitworth": ("BSW", "BSF"),
    "BA": ("BA",),
    "model-engineer": ("ME",),
    "brass": ("BSB",),
}
_WAYS = ("pitch", "threads_per_inch", "over")

_INPUTS = (
    Input(
        name="diameter",
        help="caliper over the threads of a screw, or across the bore of a nut",
        kind="length",
        unit="mm",
        minimum=0.3,
        maximum=80,
        example="4.70, or 4.70 ± 0.02",
    ),
    Input(
        name="threads_per_inch",
        help=f"the leaf that seats, in threads per inch, good to {100 * LEAF:g} % unless a ± says otherwise; "
        "give this, the pitch, or a length over threads",
        kind="number",
        optional=True,
        minimum=2,
        maximum=250,
        example="32, or 31.7 ± 0.5",
    ),
    Input(
        name="pitch",
        help=f"the leaf that seats, in mm, good to {100 * LEAF:g} % unless a ± says otherwise",
        kind="length",
        unit="mm",
        optional=True,
        minimum=0.1,
        maximum=12,
        example="0.8",
    ),
    Input(
        name="over",
        help="a length from crest to crest, over as many pitches as the input threads says; good to "
        f"{OVER_MM:g} mm unless a ± says otherwise",
        kind="length",
        unit="mm",
        optional=True,
        minimum=0.2,
        maximum=500,
        example="10.4 ± 0.1",
    ),
    Input(
        name="threads",
        help="how many pitches that length is over",
        kind="integer",
        optional=True,
        minimum=1,
        maximum=500,
    ),
    Input(
        name="uncertainty",
        help=f"how far the diameter may be off; {CALIPER_MM} mm, or what follows its ±, unless told",
        kind="length",
        unit="mm",
        optional=True,
        above=0,
        maximum=2,
        example="0.02",
    ),
    Input(
        name="flank_angle",
        help=f"the angle of the leaf that seats, 47.5, 55 or 60, taken to be good to {ANGLE_DEG:g} degrees",
        kind="quantity",
        unit="deg",
        optional=True,
        minimum=40,
        maximum=70,
    ),
    Input(
        name="part",
        help="what was measured: a screw, or a nut or tapped hole",
        kind="choice",
        choices=("screw", "nut"),
        default="screw",
        synonyms=(("external", "screw"), ("bolt", "screw"), ("internal", "nut"), ("hole", "nut")),
    ),
    Input(
        name="system",
        help="the threads to choose from",
        kind="choice",
        choices=("any", *_FAMILIES),
        default="any",
        synonyms=(("iso", "metric"), ("un", "unified"), ("bsw", "whitworth"), ("bsf", "whitworth")),
    ),
)


def _identify(given: Given) -> Result:
    measured, steps = _measured(given)
    found = _found(given, measured)
    inside = [each for each in found if each.within]
    first, second = _first_two(inside or found[:1])
    results = named(
        verdict=_verdict(inside, found[0].thread),
        likeliest=found[0].thread.designation,
        possible=[each.thread.designation for each in inside],
        tells_apart=list(tell_apart(first, second, internal=measured.internal)) if second else [],
        candidates=Value([_row(each, found[0].thread, measured) for each in found], "mm"),
        pitch=measured.pitch_mm,
        threads_per_inch=25.4 / measured.pitch_mm,
        uncertainty=measured.diameter_off_mm,
        pitch_uncertainty=measured.pitch_off_mm,
    )
    for each in inside[:3] or found[:1]:
        steps += _zone_steps(each, measured)
    sources = [f"{each.thread.system}: {limits_of(each.thread).source}" for each in found]
    return Result(results, tuple(steps), _warnings(inside, found[0], measured), (*sources, *_SOURCES))


def _found(given: Given, measured: Measured) -> tuple[Candidate, ...]:
    family = given.text("system")
    pool = [each for each in all_threads() if family == "any" or each.system in _FAMILIES[family]]
    return candidates(measured, pool)


def _draw(given: Given, result: Result) -> Sequence[Picture]:
    from calculators.drawing.thread_zones import zones_picture

    measured, _ = _measured(given)
    return zones_picture(measured, _found(given, measured))


def _measured(given: Given) -> tuple[Measured, list[Step]]:
    """The reading with its uncertainties, and how its pitch came about."""
    ways = [name for name in _WAYS if given[name] is not None]
    faults = []
    if len(ways) != 1:
        says = "The pitch is measured in one way: write pitch, threads_per_inch, or over with threads"
        faults.append(Fault(f"{says}{'' if ways else ', one of them'}.", ways[1] if ways else "pitch"))
    elif (ways[0] == "over") != (given["threads"] is not None):
        missing = "threads" if ways[0] == "over" else "over"
        faults.append(Fault("A length over threads needs both over and threads; write both.", missing))
    if faults:
        raise InputError(*faults)
    pitch, off, step = _pitch(given, ways[0])
    if not 0.1 <= pitch <= 12:
        says = f"A pitch of {number_text(pitch, 4)} mm is no screw's; it is looked for from 0.1 to 12 mm."
        raise InputError.of(says, field=ways[0], value=pitch, limit=0.1 if pitch < 0.1 else 12.0, unit="mm")
    told = [each for each in (given.mm_or_none("uncertainty"), given.spreads.get("diameter")) if each]
    measured = Measured(
        given.mm("diameter"),
        max(*told, _LEAST_OFF_MM) if told else CALIPER_MM,
        pitch,
        max(off, 1e-4 * pitch),
        given.text("part") == "nut",
        given.number_or_none("flank_angle"),
        ANGLE_DEG + given.spreads.get("flank_angle", 0.0),
    )
    return measured, step


def _pitch(given: Given, way: str) -> tuple[float, float, list[Step]]:
    """The pitch and how far it may be off [mm], with the steps."""
    spread = given.spreads.get(way)
    if way == "over":
        count, length = given.integer("threads"), given.mm("over")
        pitch, off = length / count, (OVER_MM if spread is None else spread) / count
        numbers = f"{number_text(length)} / {count}"
        steps = [Step("p", "length / threads", numbers, pitch, "mm")]
        formula, put = "u / threads", f"{number_text(off * count)} / {count}"
    elif way == "threads_per_inch":
        per_inch = given.number(way)
        share = LEAF if spread is None else spread / per_inch
        pitch = 25.4 / per_inch
        off = share * pitch
        steps = [Step("p", "25.4 / n", f"25.4 / {number_text(per_inch)}", pitch, "mm")]
        formula, put = "share of p", f"{number_text(100 * share, 3)} % of {number_text(pitch, 4)}"
    else:
        pitch = given.mm(way)
        off = LEAF * pitch if spread is None else spread
        steps = [Step("p", "the leaf", "", pitch, "mm")]
        formula, put = "share of p", f"{number_text(100 * off / pitch, 3)} % of {number_text(pitch, 4)}"
    return pitch, off, [*steps, Step("u(p)", formula, put, off, "mm")]


def _first_two(inside: Sequence[Candidate]) -> tuple[Thread, Thread | None]:
    """The likeliest thread, and the next that is not the same under another name."""
    first = inside[0].thread
    return first, next((each.thread for each in inside[1:] if not same_thread(first, each.thread)), None)


def _verdict(inside: Sequence[Candidate], nearest: Thread) -> str:
    names = [each.thread.designation for each in inside]
    if not names:
        return f"none of the tables; the nearest is {nearest.designation}"
    first, second = _first_two(inside)
    if second is None:
        others = f", which is also {' and '.join(names[1:])}" if names[1:] else ""
        return f"decided: {first.designation}{others}"
    likely = [each.thread.designation for each in inside if each.score >= _BARELY]
    barely = names[len(likely) :]
    end = f"; {_listed(barely)} {'is' if len(barely) == 1 else 'are'} barely possible" if barely else ""
    if len(likely) == 1:
        return f"undecided: {likely[0]} by far the likeliest{end}"
    return f"undecided between {_listed(likely)}{end}"


def _listed(names: Sequence[str]) -> str:
    return f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else "".join(names)


def _row(each: Candidate, first: Thread, measured: Measured) -> dict[str, Plain]:
    thread, zone = each.thread, zone_of(each.thread, measured.internal)
    row: dict[str, Plain] = {
        "designation": thread.designation,
        "system": thread.system,
        "score": round(each.score, 4),
        "diameter_difference": round(each.diameter_difference_mm, 4),
        "pitch_difference": round(each.pitch_difference_mm, 5),
        "angle": thread.angle_deg,
        "smallest": round(zone.outer_least, 3),
        "largest": round(zone.outer_most, 3),
        "possible": each.within,
    }
    if thread != first:
        row["tell_apart"] = tell_apart(first, thread, internal=measured.internal, trial=False)[0]
    return row


def _zone_steps(each: Candidate, measured: Measured) -> list[Step]:
    thread, limits = each.thread, limits_of(each.thread)
    name, zone = thread.designation, zone_of(each.thread, measured.internal)
    wear = f"{WEAR_IN_PITCHES:g} x {number_text(thread.pitch_mm, 4)}"
    if measured.internal:
        base, tolerance = number_text(thread.minor_diameter_mm), number_text(limits.nut_minor_tolerance_mm, 4)
        rows = [
            (f"{name}, bore to", "D1 + T + worn", f"{base} + {tolerance} + {wear}", zone.outer_most),
            (f"{name}, bore from", "D1 - plated", f"{base} - {PLATING_MM:g}", zone.outer_least),
        ]
    else:
        base = number_text(thread.major_mm)
        off = f"{number_text(limits.allowance_mm, 3)} - {number_text(limits.screw_major_tolerance_mm, 4)}"
        rows = [
            (f"{name}, to", "D + plated", f"{base} + {PLATING_MM:g}", zone.outer_most),
            (f"{name}, from", "D - a - T - worn", f"{base} - {off} - {wear}", zone.outer_least),
        ]
    steps = [Step(*row, "mm", limits.source) for row in rows]
    steps.append(Step(f"{name}, score", "", "", each.score, "1", "rule of Bayes, even odds before"))
    return steps


def _warnings(inside: Sequence[Candidate], nearest: Candidate, measured: Measured) -> tuple[str, ...]:
    if inside:
        return ()
    zone, thread = zone_of(nearest.thread, measured.internal), nearest.thread
    return (
        f"No thread of the tables gives this reading. The nearest, {thread.designation}, has a pitch of "
        f"{number_text(thread.pitch_mm, 4)} mm and measures {zone.outer_least:.2f} to "
        f"{zone.outer_most:.2f} mm; measure again, or write the uncertainty that there is.",
    )


_SOURCES = (
    f"wear of {WEAR_IN_PITCHES:g} pitch, plating of {PLATING_MM:g} mm on the diameter, a leaf good to "
    f"{100 * LEAF:g} %, a caliper to {CALIPER_MM:g} mm: common practice",
)

IDENTIFY_THREAD = Calculator(
    name="identify-thread",
    summary="Which thread a screw or a nut has, from a caliper and a pitch leaf, and what would decide it.",
    purpose="Choose a thread and its holes",
    either=(("threads_per_inch", "pitch", "over"),),
    inputs=_INPUTS,
    outputs=(
        "verdict",
        "likeliest",
        "possible",
        "tells_apart",
        "candidates",
        "pitch",
        "threads_per_inch",
        "uncertainty",
        "pitch_uncertainty",
    ),
    work=_identify,
    sources=("limits: ISO 965-1, ASME B1.1, BS 84, BS 93", *_SOURCES),
    example={"diameter": "4.70", "threads_per_inch": "32"},
    draw=_draw,
    own_spread=True,
)
