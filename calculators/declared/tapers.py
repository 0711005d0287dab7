"""Taper, compound-angle and splayed-leg: slopes of turned work, of sides and of legs."""

from __future__ import annotations

import re

from calculators.calculation import Calculator, Given, Input, Result, Step, named
from calculators.calculation.result import number_text
from calculators.declared.choosing import given_of
from calculators.drawing.tapers import draw_legs, draw_sides, draw_taper
from calculators.geometry.tapers import (
    Taper,
    compound_angle,
    set_over,
    splayed_leg,
    taper_of_angle,
    taper_of_ends,
)
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted
from calculators.tables import Row, load

_RATES = ("angle", "per_foot", "one_in", "standard")
_ENDS = ("large", "small", "length")
_JARNO = re.compile(r"jarno ?(\d{1,2})?", re.ASCII)


def standard_taper(text: str) -> Row:
    """Find a standard taper by its name.

    Args:
        text: the name, as `Morse 2` or `MT2`.

    Returns:
        Its row of the table.

    Raises:
        InputError: when there is no such taper, with those that there are.

    Source: the table of tapers.

    Example:
        >>> standard_taper("mt2")["name"]
        'Morse 2'
    """
    word = " ".join(text.lower().replace("no.", "").split())
    number = _JARNO.fullmatch(word)
    if number and 2 <= int(number[1] or 2) <= 20:
        word = "jarno"
    for row in load("tapers").rows:
        if word in (row["name"].lower(), *(also.strip().lower() for also in row["also"].split(";"))):
            return row
    names = tuple(row["name"] for row in load("tapers").rows)
    says = f"{quoted(text)} is not a taper of the table; write one of {', '.join(names)}."
    raise InputError.of(says, field="standard", choices=names)


def _taper(given: Given) -> Result:
    rates = [name for name in _RATES if given.get(name) is not None]
    ends = {name: given.mm_or_none(name) for name in _ENDS}
    steps: list[Step] = []
    sources: tuple[str, ...] = ()
    if rates:
        given_of(given, _RATES, 1)
        taper, step, sources = _by_rate(given, rates[0])
        steps.append(step)
        if rates[0] == "standard" and all(value is None for value in ends.values()):
            ends = _standard_ends(given.text("standard"))
        ends = _third_end(taper, ends)
    else:
        given_of(given, _ENDS, 3)
        taper = taper_of_ends(given.mm("large"), given.mm("small"), given.mm("length"))
        d, small, length = (number_text(given.mm(name)) for name in _ENDS)
        steps.append(Step("rate", "(D - d) / l", f"({d} - {small}) / {length}", taper.rate, "1"))
    work = given.mm_or_none("work_length") or ends["length"]
    rate = number_text(taper.rate)
    steps += [
        Step("half angle", "atan(rate / 2)", f"atan({rate} / 2)", taper.half_angle_deg, "deg"),
        Step("per foot", "12 rate", f"12 x {rate}", taper.per_foot, "1", "inches of diameter in a foot"),
    ]
    results = named(
        taper_rate=taper.rate, included_angle=taper.included_angle_deg, half_angle=taper.half_angle_deg,
        taper_per_foot=taper.per_foot, one_in=taper.one_in,
    )  # fmt: skip
    names = {"large": "large_end", "small": "small_end", "length": "taper_length"}
    results |= named(**{names[key]: value for key, value in ends.items() if value is not None})
    if work is not None:
        over = set_over(taper, work)
        w = number_text(work)
        steps += [
            Step("set-over", "rate x work length / 2", f"{rate} x {w} / 2", over, "mm",
                 "tailstock, between centres"),
            Step("one side", "rate x work length", f"{rate} x {w}", 2 * over, "mm",
                 "fence or jig, all of the taper on one face"),
        ]  # fmt: skip
        results |= named(tailstock_offset=over, fence_offset=2 * over)
    return Result(results, tuple(steps), _taper_warnings(taper), sources)


def _by_rate(given: Given, name: str) -> tuple[Taper, Step, tuple[str, ...]]:
    if name == "standard":
        row = standard_taper(given.text("standard"))
        per_foot = row.number("per_foot")
        step = Step("rate", "per foot / 12", f"{per_foot:g} / 12", per_foot / 12, "1", row.source.says)
        return Taper(per_foot / 12), step, (f"{row['name']}: {row.source.says}",)
    value = given.number(name)
    n = number_text(value)
    if name == "angle":
        taper = taper_of_angle(value)
        return taper, Step("rate", "2 tan(angle / 2)", f"2 tan({n} deg / 2)", taper.rate, "1"), ()
    taper = Taper(value / 12 if name == "per_foot" else 1 / value)
    formula, numbers = ("per foot / 12", f"{n} / 12") if name == "per_foot" else ("1 / n", f"1 / {n}")
    return taper, Step("rate", formula, numbers, taper.rate, "1"), ()


def _standard_ends(text: str) -> dict[str, float | None]:
    """The ends that a standard taper has, for a Jarno taper by its number."""
    row, number = standard_taper(text), _JARNO.fullmatch(" ".join(text.lower().split()))
    if number and number[1]:
        n = int(number[1])
        return {"large": 25.4 * n / 8, "small": 25.4 * n / 10, "length": None}
    large, small = row.number_or_none("large"), row.number_or_none("small")
    return {
        "large": None if large is None else 25.4 * large,
        "small": None if small is None else 25.4 * small,
        "length": None,
    }


def _third_end(taper: Taper, ends: dict[str, float | None]) -> dict[str, float | None]:
    """The end or length that follows from the rate and the other two."""
    large, small, length = (ends[name] for name in _ENDS)
    if large is not None and small is not None and length is not None:
        says = "Both ends, the length and a rate are given; leave one of them out, since it follows."
        raise InputError.of(says, field="length")
    if large is not None and small is not None:
        if small > large or taper.rate <= 1e-12:
            says = (
                f"From {large:g} to {small:g} mm there is no taper of this rate; write a smaller small end."
            )
            raise InputError.of(says, field="small", value=small, limit=large, unit="mm")
        length = (large - small) / taper.rate
        if length > 1e6:
            says = "A taper as slow as this needs more than a kilometre; write a greater rate."
            raise InputError.of(says, field="large")
    elif length is not None and large is not None:
        small = large - taper.rate * length
        if small < 0:
            says = f"A taper from {large:g} mm comes to a point before {length:g} mm; write a shorter length."
            raise InputError.of(says, field="length", value=length, limit=large / taper.rate, unit="mm")
    elif length is not None and small is not None:
        large = small + taper.rate * length
    return {"large": large, "small": small, "length": length}


def _taper_warnings(taper: Taper) -> tuple[str, ...]:
    if taper.rate <= 1e-12:
        return ("Both ends are alike: there is no taper.",)
    if taper.half_angle_deg > 8:
        half = number_text(taper.half_angle_deg, 3)
        return (
            f"At {half} degrees a side the tailstock's offset no longer holds; turn it with the top slide "
            "(common practice: up to about 8 degrees).",
        )
    return ()


def _length(name: str, says: str, example: str = "", *, least: float | None = None) -> Input:
    return Input(name=name, help=says, kind="length", unit="mm", optional=True, minimum=least,
                 above=0 if least is None else None, maximum=10000, example=example)  # fmt: skip


TAPER = Calculator(
    name="taper",
    summary="A taper from its two ends, its angle, its rate or its name, and how to set over for it.",
    purpose="Set out and mark",
    inputs=(
        _length("large", "the diameter or width at the large end", "20 mm"),
        _length("small", "the diameter or width at the small end", "16 mm", least=0),
        _length("length", "the length from end to end along the axis", "80 mm"),
        Input(name="angle", help="the angle between the sides, in place of the ends", kind="quantity",
              unit="deg", optional=True, minimum=0, maximum=170),
        Input(name="per_foot", help="the growth in inches for a foot of length, in place of the ends",
              kind="number", optional=True, minimum=0, maximum=200),
        Input(name="one_in", help="the n of 1 in n, in place of the ends", kind="number", optional=True,
              minimum=0.05, maximum=100000),
        Input(name="standard", help="a standard taper, in place of the ends", kind="text", optional=True,
              example="Morse 2 or Jarno 6"),
        _length("work_length", "the whole length between the centres, or of the jig; without it the taper's"),
    ),
    outputs=("taper_rate", "included_angle", "half_angle", "taper_per_foot", "one_in", "large_end",
             "small_end", "taper_length", "tailstock_offset", "fence_offset"),
    work=_taper,
    sources=("tapers: geometry; Machinery's Handbook, rules for figuring tapers (from memory)",),
    cautions=("Set the lathe or the saw with its power off, and try the set-over on scrap first.",),
    draw=draw_taper,
    either=(_RATES,),
    example={"large": "20 mm", "small": "16 mm", "length": "80 mm", "work_length": "200 mm"},
)  # fmt: skip


def _compound(given: Given) -> Result:
    sides, lean = given.integer("sides"), given.number("lean")
    found = compound_angle(sides, lean)
    n, a = str(sides), number_text(lean)
    steps = (
        Step("mitre", "atan(sin(lean) tan(180/n))", f"atan(sin({a} deg) x tan(180/{n}))", found.mitre_deg,
             "deg", "crosscut from square, work flat on the table"),
        Step("tilt", "asin(cos(lean) sin(180/n))", f"asin(cos({a} deg) x sin(180/{n}))", found.tilt_deg,
             "deg", "blade from upright, edges mitred"),
        Step("corner", "180 - 2 tilt", f"180 - 2 x {number_text(found.tilt_deg)}", found.corner_deg, "deg",
             "between the faces of two sides"),
        Step("butt tilt", "|90 - corner|", f"|90 - {number_text(found.corner_deg)}|", found.butt_tilt_deg,
             "deg", "blade from upright, one side butted against the other"),
    )  # fmt: skip
    results = named(mitre_angle=found.mitre_deg, blade_tilt=found.tilt_deg, corner_angle=found.corner_deg,
                    butt_tilt=found.butt_tilt_deg)  # fmt: skip
    return Result(results, steps)


_SAW = (
    "Tilted blades and short pieces kick: clamp the work, keep the guard on, and cut a trial corner in scrap."
)

COMPOUND_ANGLE = Calculator(
    name="compound-angle",
    summary="The saw's mitre and tilt for a box, tray or frame whose sides lean.",
    purpose="Set out and mark",
    inputs=(
        Input(name="sides", help="how many sides", kind="integer", minimum=3, maximum=100, example="4"),
        Input(name="lean", help="how far the sides lean from upright", kind="quantity", unit="deg",
              minimum=0, maximum=89, example="15"),
    ),
    outputs=("mitre_angle", "blade_tilt", "corner_angle", "butt_tilt"),
    work=_compound,
    sources=("geometry of planes; the compound-angle charts of mitre saws give the same",),
    cautions=(_SAW,),
    draw=draw_sides,
    example={"sides": "4", "lean": "15"},
)  # fmt: skip


def _splayed(given: Given) -> Result:
    along, across, height = given.number("along"), given.number("across"), given.mm("height")
    leg = splayed_leg(along, across, height)
    a, b, h = map(number_text, (along, across, height))
    lean = number_text(leg.lean_deg)
    steps = (
        Step("lean", "atan(sqrt(tan(along)^2 + tan(across)^2))", f"atan(sqrt(tan({a})^2 + tan({b})^2))",
             leg.lean_deg, "deg", "the true lean, along the sight line"),
        Step("direction", "atan(tan(across) / tan(along))", f"atan(tan({b}) / tan({a}))", leg.direction_deg,
             "deg", "of the sight line, from the length of the piece"),
        Step("length", "h / cos(lean)", f"{h} / cos({lean})", leg.length_mm, "mm", "along the leg"),
        Step("foot along", "h tan(along)", f"{h} x tan({a})", leg.along_mm, "mm"),
        Step("foot across", "h tan(across)", f"{h} x tan({b})", leg.across_mm, "mm"),
    )  # fmt: skip
    results = named(true_lean=leg.lean_deg, sight_line=leg.direction_deg, leg_length=leg.length_mm,
                    foot_along=leg.along_mm, foot_across=leg.across_mm)  # fmt: skip
    return Result(results, steps)


def _lean(name: str, says: str) -> Input:
    return Input(name=name, help=says, kind="quantity", unit="deg", minimum=0, maximum=79, example="10")


SPLAYED_LEG = Calculator(
    name="splayed-leg",
    summary="The true lean of a leg that leans two ways, the line to sight it along, and its length.",
    purpose="Set out and mark",
    inputs=(
        _lean("along", "the lean along the piece, as seen from the front"),
        _lean("across", "the lean across the piece, as seen from the end"),
        Input(name="height", help="the upright height that the leg spans", kind="length", unit="mm", above=0,
              maximum=10000, example="400 mm"),
    ),
    outputs=("true_lean", "sight_line", "leg_length", "foot_along", "foot_across"),
    work=_splayed,
    sources=("geometry; lean and sight line as chairmakers set them out (common practice)",),
    draw=draw_legs,
    example={"along": "10", "across": "6", "height": "400 mm"},
)  # fmt: skip
