"""Spring choice: the springs that give a rate within a space, from wire that is sold."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from calculators.calculation import Calculator, Given, Input, Picture, Result, Step, Value, named
from calculators.calculation.result import Plain
from calculators.declared.spring import CAUTION, GUIDE, PURPOSE
from calculators.declared.spring_inputs import CYCLES_INPUT, FACTOR, MATERIAL, length
from calculators.declared.spring_reading import n
from calculators.drawing.springs_offered import draw_offered
from calculators.mechanics.springs.choosing import PREFER, Choice, Wish, choose
from calculators.mechanics.springs.coils import ENDS, HOOKS
from calculators.mechanics.springs.rates import LEAST_WIRE_MM, MOST_WIRE_MM
from calculators.mechanics.springs.wires import CYCLES, SERIES, Size, spring_wire, wire_sizes
from calculators.quantities.errors import InputError
from calculators.quantities.reading import read_length

MOST_SHOWN = 12
MOST_OWN = 40
"""The most sizes of wire of one's own that are read."""

_RANKED = {
    "stress": "the least stressed first: it keeps its length and lasts longest",
    "length": "the shortest first",
    "mass": "the lightest first",
}


def _choice(given: Given) -> Result:
    sizes = _sizes(given)
    wish = _wish(given)
    found, dropped = _chosen(wish, tuple(sizes))
    warnings = [] if found else [_nothing(wish)]
    if len(found) > MOST_SHOWN:
        warnings.append(f"{len(found)} sizes of wire do it; the {MOST_SHOWN} best are shown.")
    unused = [name.replace("_", " ") for name in given.spreads if name != "rate"]
    if unused:
        warnings.append(f"The spread of {' and '.join(unused)} is not used here; that of the rate alone is.")
    if wish.kind == "extension" and found:
        warnings.append(
            "The initial tension is taken as the middle of what is usually wound at the index; tell whoever "
            "winds it."
        )
    if found:
        warnings.append("Work the one that is taken through as a spring of its own, and wind one to try.")
    excluded: list[Plain] = [
        {
            "name": each.first if each.first == each.last else f"{each.first} to {each.last}",
            "reason": each.why,
        }
        for each in dropped
    ]
    results = named(
        spring_choices=Value([_row(each, wish) for each in found[:MOST_SHOWN]]),
        ranking=_RANKED[wish.prefer],
        sizes_excluded=Value(excluded),
    )
    return Result(results, tuple(_steps(wish, found, sizes)), tuple(warnings))


def _drawn(given: Given, result: Result) -> tuple[Picture, ...]:
    wish = _wish(given)
    return draw_offered(wish, _chosen(wish, tuple(_sizes(given)))[0])


# What is answered is drawn right after it; the search is the longest part of both.
_chosen = lru_cache(maxsize=8)(choose)


def _row(each: Choice, wish: Wish) -> Plain:
    """One row; of load and travel only that which was not asked for."""
    at_work: tuple[str, float] = ("working_travel", each.travel_mm)
    if wish.load_n is None:
        at_work = ("load", each.load_n)
    return {
        "name": each.name,
        "wire_diameter": each.wire_mm,
        "mean_diameter": each.mean_mm,
        "active_coils": each.active_coils,
        "rate": each.rate_n_per_mm,
        "stress_percent": each.stress_percent,
        "solid_length": each.solid_mm,
        "free_length": each.free_mm,
        "outside_diameter": each.outside_mm,
        "inside_diameter": each.inside_mm,
        at_work[0]: at_work[1],
        "mass": each.mass_kg,
    }


def _steps(wish: Wish, found: Sequence[Choice], sizes: Sequence[Size]) -> list[Step]:
    steps = [
        Step("sizes", "sizes of wire tried", "", float(len(sizes)), "1"),
        Step("fit", "sizes that do it", "", float(len(found)), "1"),
    ]
    if not found:
        return steps
    best = found[0]
    shear = spring_wire(wish.material, best.wire_mm).shear_modulus_mpa
    numbers = (
        f"{n(shear)} MPa x ({n(best.wire_mm)} mm)^4/(8 x ({n(best.mean_mm)} mm)^3 x {n(best.active_coils)})"
    )
    steps += [
        Step("k", "G d^4/(8 D^3 n), of the first", numbers, best.rate_n_per_mm, "N/mm",
             "EN 13906-1, from memory"),
        Step("F", "load of the first at work", "", best.load_n, "N"),
        Step("share", "K 8 F D/(pi d^3)/tau_zul", f"factor of {wish.factor}", best.stress_percent, "%"),
    ]  # fmt: skip
    if wish.kind == "compression":
        numbers = f"{n(best.solid_mm)} mm + {n(best.travel_mm)} mm/0.85, to the next half mm"
        steps.append(Step("L0", "L_c + s/0.85, 15 % left", numbers, best.free_mm, "mm",
                          "EN 13906-1 asks about that, from memory"))  # fmt: skip
    return steps


def _nothing(wish: Wish) -> str:
    return (
        f"No size of wire gives {n(wish.rate_n_per_mm)} N/mm in this space; see why each drops out, and "
        "allow more room, less load, a larger spread of the rate or a stronger wire."
    )


def _wish(given: Given) -> Wish:
    kind = given.text("kind")
    ends = given.text_or_none("ends") or ("closed-and-ground" if kind == "compression" else "centre-hook")
    known = tuple(ENDS if kind == "compression" else HOOKS)
    if ends not in known:
        says = f"A spring of kind {kind} has no ends {ends}; write one of {', '.join(known)}."
        raise InputError.of(says, field="ends", choices=known)
    load, travel = given.number_or_none("load"), given.mm_or_none("working_travel")
    if (load is None) == (travel is None):
        had = "both are given" if load is not None else "neither is given"
        says = f"Write one of load and working_travel, at work; {had}."
        raise InputError.of(says, field="load", choices=("load", "working_travel"))
    outside, inside = given.mm("largest_outside"), given.mm_or_none("smallest_inside") or 0.0
    if inside >= outside:
        raise InputError.of(
            f"The smallest inside of {inside:.6g} mm is not under the largest outside of {outside:.6g} mm.",
            field="smallest_inside",
            value=inside,
            limit=outside,
            unit="mm",
        )
    return Wish(
        kind=kind,
        rate_n_per_mm=given.number("rate"),
        # A spread written with the rate itself says how far it may be off.
        allowed_percent=(
            100 * given.spreads["rate"] / given.number("rate")
            if "rate" in given.spreads
            else given.number("rate_allowance")
        ),
        load_n=load,
        travel_mm=travel,
        largest_outside_mm=outside,
        smallest_inside_mm=inside,
        longest_free_mm=given.mm("longest_free"),
        material=given.text("material"),
        ends=ends,
        factor=given.text("factor"),
        cycles=CYCLES[given.text("cycles")],
        guided=given.flag("guided"),
        prefer=given.text("prefer"),
    )


def _sizes(given: Given) -> tuple[Size, ...]:
    own = given.text_or_none("own_wires")
    if own is None:
        return wire_sizes(given.text("series"))
    texts = [text.strip() for text in own.split(",") if text.strip()]
    if not 1 <= len(texts) <= MOST_OWN:
        says = f"own_wires names {len(texts)} sizes; write 1 to {MOST_OWN}, with commas between."
        raise InputError.of(says, field="own_wires", value=float(len(texts)), limit=float(MOST_OWN))
    read = [
        read_length(text, field="own_wires", minimum_mm=LEAST_WIRE_MM, maximum_mm=MOST_WIRE_MM)
        for text in texts
    ]
    sizes = {each.mm: Size(text, each.mm) for text, each in zip(texts, read, strict=True)}
    return tuple(sizes[wire] for wire in sorted(sizes))


SPRING_CHOICE = Calculator(
    name="spring-choice",
    summary="The springs that give a rate within a space, of wire that is sold, ranked.",
    purpose=PURPOSE,
    either=(("load", "working_travel"),),
    inputs=(
        Input(
            name="kind",
            help="whether it is pressed (compression) or pulled (extension)",
            kind="choice",
            choices=("compression", "extension"),
            synonyms=(("tension", "extension"),),
            default="compression",
        ),
        Input(name="rate", help="rate wanted; 2 ± 0.1 N/mm says how far it may be off", kind="quantity",
              unit="N/mm", minimum=1e-4, maximum=1e5, example="2 N/mm"),
        Input(name="rate_allowance", help="how far the rate may be off, where it is not written with it",
              kind="quantity", unit="%", default="5 %", minimum=0.1, maximum=50),
        Input(name="load", help="greatest load at work", kind="quantity", unit="N", optional=True,
              minimum=1e-4, maximum=1e6),
        length("working_travel", "travel at work, instead of the load"),
        Input(name="largest_outside", help="largest outside diameter that goes in", kind="length", unit="mm",
              above=0, maximum=1000),
        length("smallest_inside", "smallest inside diameter, for a rod", most=1000),
        Input(name="longest_free", help="longest free length that goes in, inside hooks if it has any",
              kind="length", unit="mm", above=0, maximum=10_000),
        Input(name=MATERIAL.name, help=MATERIAL.help, kind="choice", choices=MATERIAL.choices,
              synonyms=MATERIAL.synonyms, default="music-wire"),
        Input(name="series", help="sizes of wire that can be had", kind="choice", choices=tuple(SERIES),
              synonyms=(("swg", "imperial-standard"), ("awg", "brown-sharpe"),
                        ("music-wire", "music-wire-gauge")),
              default="metric"),
        Input(name="own_wires", help="the sizes that are at hand instead, with commas between", kind="text",
              optional=True, example="0.8, 1, 1.2, 18 SWG"),
        Input(name="ends", help="form of the ends; left out it is closed-and-ground or centre-hook",
              kind="choice", choices=(*ENDS, *HOOKS), optional=True),
        Input(name="guided", help="whether a rod or bore keeps it straight", kind="flag", default="no"),
        CYCLES_INPUT,
        FACTOR,
        Input(name="prefer", help="what the list is ranked by", kind="choice", choices=PREFER,
              default="stress"),
    ),
    outputs=("spring_choices", "ranking", "sizes_excluded"),
    work=_choice,
    draw=_drawn,
    own_spread=True,
    sources=(
        "EN 13906-1 and -2 (from memory)",
        "Shigley, Mechanical Engineering Design, 9th ed. (from memory)",
    ),
    cautions=(CAUTION, GUIDE),
    example={
        "rate": "2 N/mm",
        "load": "30 N",
        "largest_outside": "14 mm",
        "smallest_inside": "6 mm",
        "longest_free": "45 mm",
    },
)  # fmt: skip
