"""Cutting speed: turns and feed of a drill, a milling or router cutter, or work in a lathe."""

from __future__ import annotations

from functools import partial

from calculators.calculation import Calculator, Given, Input, Result, Step, named
from calculators.calculation.result import number_text
from calculators.mechanics.cutting_speeds import (
    TOUGH,
    cutting_speed_row,
    drill_feed_mm,
    drill_point_mm,
    rim_speed_m_per_min,
    turns_per_min,
)
from calculators.quantities.errors import InputError
from calculators.tables import load

_RIM = "definition of cutting speed"
_HSS_SHARE = 0.6
"""Of the rim speed of a carbide router cutter, for one of high speed steel (common practice)."""


def _speed(given: Given) -> Result:
    tool, diameter = given.text("tool"), given.mm("diameter")
    speed, source, tough = _cutting_speed(given)
    wanted = turns_per_min(speed, diameter)
    d = number_text
    working = [
        Step("v", "cutting speed", "", speed, "m/min", source),
        Step(
            "n wanted", "1000 v / (pi d)", f"1000 x {d(speed)} / (pi {d(diameter)} mm)", wanted, "rpm", _RIM
        ),
    ]
    turns, why = _bounded(given, wanted, tool, diameter)
    real = rim_speed_m_per_min(turns, diameter)
    working.append(Step("n", why, "", turns, "rpm"))
    working.append(
        Step("v real", "pi d n / 1000", f"pi x {d(diameter)} mm x {d(turns)} / 1000", real, "m/min")
    )
    warnings = _warnings(given, tool, wanted, turns, real, speed)
    per_turn, formula, numbers = _feed(given, tool, diameter, tough)
    feed = per_turn * turns
    working.append(Step("feed a turn", formula, numbers, per_turn, "mm", "common practice"))
    working.append(Step("feed", "feed a turn x n", f"{d(per_turn)} mm x {d(turns)} rpm", feed, "mm/min"))
    results = named(speed=turns, rim_speed=real, feed_per_turn=per_turn, feed=feed)
    depth = given.mm_or_none("depth")
    if depth is not None:
        way = depth + (drill_point_mm(diameter, 118) if tool == "drill" else 0.0)
        numbers = f"{d(way)} mm / {d(feed)} mm/min x 60"
        working.append(Step("time", "way / feed x 60", numbers, way / feed * 60, "s"))
        results |= named(cutting_time=way / feed * 60)
    return Result(results, tuple(working), tuple(warnings))


def _cutting_speed(given: Given) -> tuple[float, str, bool]:
    typed = given.number_or_none("cutting_speed")
    name = given.text_or_none("material")
    if typed is not None:
        return typed, "as given", name in TOUGH
    if name is None:
        raise InputError.of("Write the material, or the cutting_speed.", field="material")
    row = cutting_speed_row(name)
    carbide = given.text("made_of") == "carbide"
    speed = row.number_or_none("carbide" if carbide else "hss")
    if given.text("tool") == "router cutter":
        of_carbide = row.number_or_none("router")
        if of_carbide is None:
            says = f"{row['material'].capitalize()} is not for a router; mill it, or write the cutting_speed."
            raise InputError.of(says, field="material")
        speed = of_carbide * (1.0 if carbide else _HSS_SHARE)
    assert speed is not None
    edge = "carbide" if carbide else "high speed steel"
    tough = row["material"] in TOUGH
    return speed * given.number("share") / 100, f"{row['material']}, {edge}: {row.source.says}", tough


def _bounded(given: Given, wanted: float, tool: str, diameter: float) -> tuple[float, str]:
    """The speed to set: no more than the machine gives and, for a router cutter, than its size allows."""
    machine = given.number("machine_most")
    turns, why = wanted, "as wanted"
    if tool == "router cutter":
        rows = load("router_speeds").rows
        row = next((row for row in rows if diameter <= row.number("up_to")), None)
        if row is None:
            most = rows[-1].number("up_to")
            says = f"A router cutter's diameter is at most {most:g} mm here, not {number_text(diameter)} mm."
            raise InputError.of(says, field="diameter", value=diameter, limit=most, unit="mm")
        if row.number("speed") < turns:
            turns, why = row.number("speed"), f"most for a cutter up to {row['up_to']} mm (common practice)"
    if machine < turns:
        turns, why = machine, "most that the machine gives"
    return turns, why


def _feed(given: Given, tool: str, diameter: float, tough: bool) -> tuple[float, str, str]:
    typed = given.mm_or_none("chip")
    if tool == "drill":
        if typed is not None:
            return typed, "as given", ""
        formula = "0.02 d, half in tough material, at most 0.4"
        return drill_feed_mm(diameter, tough), formula, f"d = {number_text(diameter)} mm"
    if tool == "lathe":
        return (typed, "as given", "") if typed is not None else (0.1, "0.1 mm a turn", "")
    teeth = given.integer("teeth")
    by = 0.02 if tool == "router cutter" else 0.005 if tough else 0.01
    most = 0.4 if tool == "router cutter" else 0.15
    chip = typed if typed is not None else min(most, by * diameter)
    formula = "chip x teeth" if typed is not None else f"chip ({by:g} d, at most {most:g}) x teeth"
    return chip * teeth, formula, f"{number_text(chip)} mm x {teeth}"


def _warnings(given: Given, tool: str, wanted: float, turns: float, real: float, speed: float) -> list[str]:
    warnings = []
    if turns < 0.5 * wanted:
        warnings.append(
            f"The edge runs at {number_text(real, 3)} m/min where {number_text(speed, 3)} are usual; "
            "it cuts, slowly."
        )
    if tool == "router cutter" and given.mm("diameter") > 32:
        warnings.append("Large cutters belong in a table, at the speed marked on them, in light passes.")
    return warnings


_text = partial(Input, kind="text", optional=True)

CUTTING_SPEED = Calculator(
    name="cutting-speed",
    summary="How fast to turn and to feed a drill, a milling or router cutter, or work in a lathe.",
    purpose="Machine and finish",
    inputs=(
        Input(
            name="tool",
            help="what turns: for a lathe it is the work",
            kind="choice",
            choices=("drill", "milling cutter", "router cutter", "lathe"),
            synonyms=(
                ("end-mill", "milling cutter"),
                ("router-bit", "router cutter"),
                ("router", "router cutter"),
                ("milling-cutter", "milling cutter"),
                ("router-cutter", "router cutter"),
            ),
            default="drill",
        ),
        Input(
            name="diameter",
            help="the diameter of the drill or cutter, or of the work in a lathe",
            kind="length",
            unit="mm",
            above=0.05,
            maximum=500,
            example="6 mm",
        ),
        _text(name="material", help="what is cut", example="brass"),
        Input(
            name="made_of",
            help="what the cutting edge is made of",
            kind="choice",
            choices=("hss", "carbide"),
            synonyms=(("high-speed-steel", "hss"), ("tungsten-carbide", "carbide"), ("tct", "carbide")),
            default="hss",
        ),
        Input(
            name="cutting_speed",
            help="the cutting speed, where you know your own",
            kind="quantity",
            unit="m/min",
            above=0,
            maximum=5000,
            optional=True,
        ),
        Input(
            name="share",
            help="share of the table's speed to use: less for long drills, deep holes and worn machines",
            kind="quantity",
            unit="%",
            default="100 %",
            above=0,
            maximum=200,
        ),
        Input(
            name="machine_most",
            help="the fastest that the machine turns",
            kind="quantity",
            unit="rpm",
            default="3000 rpm",
            above=0,
            maximum=100_000,
        ),
        Input(
            name="teeth",
            help="cutting edges of a milling or router cutter",
            kind="integer",
            minimum=1,
            maximum=50,
            default="2",
        ),
        Input(
            name="chip",
            help="feed for each turn (drill, lathe) or each tooth, where you know your own",
            kind="length",
            unit="mm",
            above=0,
            maximum=5,
            optional=True,
        ),
        Input(
            name="depth",
            help="how far it cuts, for the time",
            kind="length",
            unit="mm",
            above=0,
            maximum=10_000,
            optional=True,
        ),
    ),
    outputs=("speed", "rim_speed", "feed_per_turn", "feed", "cutting_time"),
    work=_speed,
    sources=(
        "definition of cutting speed",
        "cutting speeds: workshop handbooks (from memory)",
        "feeds: common practice",
    ),
    cautions=(
        "Eye protection; clamp the work, thin sheet and brass above all; no gloves, sleeves or loose hair "
        "near what turns; key out of the chuck. The speed marked on a cutter is never passed.",
    ),
    example={"tool": "drill", "diameter": "6 mm", "material": "brass", "depth": "12 mm"},
)
