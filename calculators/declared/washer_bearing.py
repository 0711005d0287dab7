"""Washer-bearing: whether a washer sinks into the wood under a bolt's preload, and which one does not."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from calculators.calculation import Calculator, Given, Input, Picture, Result, Step, Value, named
from calculators.calculation.result import number_text
from calculators.drawing.strength import Bar, load_bars
from calculators.hardware.nuts import nut_of
from calculators.hardware.threads import Thread, find_thread
from calculators.hardware.washers import washer_of
from calculators.materials import find_material
from calculators.mechanics.bolts import preload_n, torque_nm
from calculators.mechanics.washer_bearing import (
    bearing_opening_mm,
    ring_area_mm2,
    thickness_needed_mm,
    washers_for,
)
from calculators.quantities.errors import InputError

_FORMS = ("plain", "small", "repair")


@dataclass(frozen=True, slots=True)
class _Washer:
    outside: float
    inside: float
    thickness: float
    source: str


def _strength(given: Given) -> tuple[float, str]:
    own, species = given.number_or_none("strength"), given.text_or_none("species")
    if own is not None:
        return own, f"{number_text(own)} MPa as given"
    if species is None:
        says = "Give the species, such as white oak, or its strength across the grain in MPa."
        raise InputError.of(says, field="species")
    wood = find_material(species, field="species")
    if wood.compression_perpendicular_mpa is None:
        says = f"No strength across the grain is known for {wood.name}; give the strength in MPa."
        raise InputError.of(says, field="strength")
    words = next((each for each in wood.sources if each.startswith("compression")), wood.sources[0])
    return wood.compression_perpendicular_mpa, f"{wood.name}, {words}"


def _washer(given: Given, thread: Thread) -> _Washer:
    """The washer: its form's sizes, with what was measured instead."""
    outside, inside, thick = (given.mm_or_none(name) for name in ("outside", "inside", "thickness"))
    if outside is not None and inside is not None and thick is not None:
        found = _Washer(outside, inside, thick, "as given")
    else:
        size = washer_of(thread.designation, given.text("washer"))
        source = size.source if outside is None else f"{size.source}; as given where it was"
        found = _Washer(
            outside or size.outside_mm, inside or size.inside_mm, thick or size.thickness_mm, source
        )
    if found.outside <= max(thread.major_mm, found.inside) and given.mm_or_none("outside") is not None:
        raise InputError.of(
            f"A washer of {found.outside:g} mm outside has no room for its hole of {found.inside:g} mm; "
            "write an outside over that.",
            field="outside",
            value=found.outside,
            limit=found.inside,
            unit="mm",
        )
    if not thread.major_mm <= found.inside < found.outside:
        raise InputError.of(
            f"A washer's hole lies between the screw of {thread.major_mm:.4g} mm and its own outside of "
            f"{found.outside:g} mm; {found.inside:g} mm does not.",
            field="inside",
            value=found.inside,
            limit=thread.major_mm,
            unit="mm",
        )
    return found


def _preload(given: Given, thread: Thread, steps: list[Step]) -> float:
    force, torque = given.number_or_none("preload"), given.number_or_none("torque")
    k = given.number("nut_factor")
    if (force is None) == (torque is None):
        says = "Give the torque or the preload, not both." if force else "Give the torque or the preload."
        raise InputError.of(says, field="torque")
    if force is not None:
        return force
    assert torque is not None
    force = preload_n(torque, k, thread.major_mm)
    numbers = f"{number_text(torque)} N m / ({number_text(k)} x {number_text(thread.major_mm)} mm)"
    steps.append(Step("F", "T / (K d)", numbers, force, "N", "Machinery's Handbook (from memory)"))
    return force


def _work(given: Given) -> Result:
    thread = find_thread(given.text("designation"), field="designation")
    strength, strength_words = _strength(given)
    washer = _washer(given, thread)
    hole = given.mm_or_none("hole") or washer.inside
    if hole < thread.major_mm:
        raise InputError.of(
            f"A screw of {thread.major_mm:.4g} mm does not pass a hole of {hole:g} mm.",
            field="hole", value=hole, limit=thread.major_mm, unit="mm",
        )  # fmt: skip
    steps: list[Step] = []
    force = _preload(given, thread, steps)
    opening = bearing_opening_mm(hole, washer.inside)
    area = ring_area_mm2(washer.outside, opening)
    pressure, part = force / area, given.number("fraction")
    allowed = part * strength * area
    wide = sqrt(4 * force / (pi * part * strength) + opening**2)
    torque = torque_nm(allowed, given.number("nut_factor"), thread.major_mm)
    choices = washers_for(thread.designation, hole, part * strength)
    bears = next((each for each in choices if each.bears_n >= force), None)
    head, head_words = _head(given, thread)
    needed = thickness_needed_mm(washer.outside, head)
    steps += _steps(washer, opening, force, area, strength, part, head)
    steps += [
        Step("torque allowed", "K F d", f"{number_text(given.number('nut_factor'))} x "
             f"{number_text(allowed)} N x {number_text(thread.major_mm)} mm", torque, "N m",
             "Machinery's Handbook (from memory)"),
        Step("outside needed", "sqrt(4 F / (pi fraction strength) + d^2)",
             f"sqrt(4 x {number_text(force)} N / (pi x {number_text(part)} x {number_text(strength)} MPa) + "
             f"({number_text(opening)} mm)^2)", wide, "mm"),
        Step("thickness needed", "(OD - s) / 12",
             f"({number_text(washer.outside)} mm - {number_text(head)} mm) / 12", needed, "mm",
             f"common practice; s {head_words}"),
    ]  # fmt: skip
    rows = {each.form: each.bears_n for each in choices}
    shown = "\n".join(
        f"{each.form}, {each.size.outside_mm:g} x {each.size.thickness_mm:g} mm: {each.bears_n:.0f} N"
        for each in choices
    )
    results = named(
        bearing_pressure=pressure, bearing_area=area, bearing_strength=strength,
        bearing_share=100 * pressure / strength, preload=force, preload_allowed=allowed,
        torque_allowed=torque, washer_outside_needed=wide,
        washer_that_bears=bears.form if bears else "none of the tables",
        washer_thickness_needed=needed, washers=Value(rows, "N", shown),
    )  # fmt: skip
    sources = (f"wood: {strength_words}", f"washer: {washer.source}", *WASHER_BEARING.sources)
    return Result(
        results, tuple(steps), _warnings(given, washer, pressure, strength, needed, torque), sources
    )


def _head(given: Given, thread: Thread) -> tuple[float, str]:
    own = given.mm_or_none("head_width")
    if own is not None:
        return own, "as given"
    try:
        nut = nut_of(thread.designation)
    except InputError:
        return 1.6 * thread.major_mm, "1.6 D (common practice)"
    return nut.across_flats_mm or 1.6 * thread.major_mm, f"of a full nut, {nut.source}"


def _steps(
    washer: _Washer, opening: float, force: float, area: float, strength: float, part: float, head: float
) -> list[Step]:
    a, f = number_text(area), number_text(force)
    return [
        Step("A", "pi/4 (OD^2 - d^2)",
             f"pi/4 x (({number_text(washer.outside)} mm)^2 - ({number_text(opening)} mm)^2)", area, "mm2",
             "d is the washer's hole, or that in the wood where it is over a tenth wider"),
        Step("pressure", "F / A", f"{f} N / {a} mm2", force / area, "MPa"),
        Step("preload allowed", "fraction x strength x A",
             f"{number_text(part)} x {number_text(strength)} MPa x {a} mm2", part * strength * area, "N",
             "USDA Wood Handbook Table 5-3 (from memory)"),
    ]  # fmt: skip


def _warnings(
    given: Given, washer: _Washer, pressure: float, strength: float, needed: float, torque: float
) -> tuple[str, ...]:
    found = []
    share, part = pressure / strength, given.number("fraction")
    words = f"The washer presses with {pressure:.1f} MPa, {100 * share:.0f} % of the {strength:.1f} MPa that"
    if share > 1:
        found.append(
            f"{words} the wood bears: it crushes, and the joint goes loose. Use {torque:.2g} N m at most."
        )
    elif share > part:
        found.append(f"{words} the wood bears: little margin is left for a season's movement.")
    if washer.thickness < needed - 0.005:
        found.append(
            f"The washer is {washer.thickness:.2f} mm thick; {washer.outside:g} mm wide it needs "
            f"{needed:.2f} mm, "
            "or it dishes and presses at its hole alone."
        )
    found.append("Wood creeps and moves: tighten again after the first heating season.")
    return tuple(found)


def _draw(given: Given, result: Result) -> tuple[Picture, ...]:
    pressure, strength = (result.results[name].value for name in ("bearing_pressure", "bearing_strength"))
    assert isinstance(pressure, float)
    assert isinstance(strength, float)
    bars = [
        Bar("pressure on the wood", pressure, wrong=pressure > strength),
        Bar("what the wood bears", strength),
    ]
    says = "crushes" if pressure > strength else "bears it"
    return (load_bars(bars, title="Washer on wood", unit="MPa", caption=f"The wood {says}."),)


def _length(name: str, text: str, example: str = "") -> Input:
    return Input(
        name=name, help=text, kind="length", unit="mm", optional=True, above=0, maximum=300, example=example
    )


WASHER_BEARING = Calculator(
    name="washer-bearing",
    summary="Whether a washer sinks into the wood under a bolt, and the washer and torque that do not.",
    purpose="Strength and stiffness",
    inputs=(
        Input(name="designation", help="the bolt's thread", kind="text", example="M6"),
        Input(
            name="torque",
            help="the tightening torque",
            kind="quantity",
            unit="N m",
            optional=True,
            above=0,
            maximum=5000,
            example="6 N m",
        ),
        Input(
            name="preload",
            help="or the preload",
            kind="quantity",
            unit="N",
            optional=True,
            above=0,
            maximum=1e6,
        ),
        Input(
            name="nut_factor",
            help="the nut factor K, 0.2 for plain dry steel",
            kind="number",
            default="0.2",
            minimum=0.05,
            maximum=0.6,
        ),
        Input(
            name="species", help="the wood under the washer", kind="text", optional=True, example="white oak"
        ),
        Input(
            name="strength",
            help="or its compression across the grain at the proportional limit",
            kind="quantity",
            unit="MPa",
            optional=True,
            minimum=0.5,
            maximum=50,
        ),
        Input(
            name="washer",
            help="the washer's form: plain, small, or repair (penny)",
            kind="choice",
            choices=_FORMS,
            synonyms=(("penny", "repair"), ("fender", "repair"), ("large", "repair")),
            default="plain",
        ),
        _length("outside", "its outside diameter, where it is not the standard's", "25 mm"),
        _length("inside", "its hole, likewise"),
        _length("thickness", "its thickness, likewise"),
        _length("hole", "the hole in the wood; left out, as wide as the washer's"),
        _length("head_width", "width across flats of the head or nut on it; left out, that of a full nut"),
        Input(
            name="fraction",
            help="the part of the wood's strength to use",
            kind="quantity",
            unit="1",
            default="0.75",
            minimum=0.1,
            maximum=1,
        ),
    ),
    outputs=(
        "bearing_pressure",
        "bearing_area",
        "bearing_strength",
        "bearing_share",
        "preload",
        "preload_allowed",
        "torque_allowed",
        "washer_that_bears",
        "washer_outside_needed",
        "washer_thickness_needed",
        "washers",
    ),
    either=(("torque", "preload"), ("species", "strength")),
    work=_work,
    draw=_draw,
    sources=(
        "F = T / (K d): Machinery's Handbook (from memory); scatter about 30 %",
        "compression across the grain: USDA Wood Handbook Table 5-3 (from memory)",
        "stiffness of washers: a twelfth of the overhang (common practice)",
    ),
    cautions=(
        "An estimate for the workshop, not for lifting, people or buildings: local codes and "
        "licensed practice "
        "come first.",
    ),
    example={"designation": "M6", "torque": "6 N m", "species": "white oak"},
)
