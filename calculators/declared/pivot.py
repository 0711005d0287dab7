"""Pivot: where a lever with springs and loads balances, how stiffly, and how far it travels."""

from __future__ import annotations

import math
from functools import lru_cache

from calculators.calculation import Calculator, Given, Picture, Result, Value, named
from calculators.calculation.result import Plain
from calculators.declared.pivot_inputs import INPUTS
from calculators.declared.pivot_reading import Read, read_lever
from calculators.declared.pivot_warnings import warnings
from calculators.declared.pivot_working import N_M_PER_DEG, quiet, steps
from calculators.drawing.lever import lever_pictures
from calculators.mechanics.pivot.energy import moment, pull_of, reaction, spring_length
from calculators.mechanics.pivot.friction import dead_zone, friction_moment
from calculators.mechanics.pivot.model import Equilibrium
from calculators.mechanics.pivot.sensitivity import balance_changes
from calculators.mechanics.pivot.standing import Standing, moved_stand, stand, swing_period
from calculators.mechanics.pivot.travel import slack_angles

_CURVE_STEPS = 24


_stood = lru_cache(maxsize=8)(stand)
"""How a lever stands is told and then drawn: it is found once."""


def _pivot(given: Given) -> Result:
    read = read_lever(given)
    stood = _stood(read.lever, read.stops, tuple(read.limits))
    results = named(
        balance_angle=None if stood.balance is None else _deg(stood.balance.angle_rad),
        rests_on=_rests_on(stood),
        stiffness=_stiffness(stood.balance),
        travel=_deg(stood.high.angle_rad - stood.low.angle_rad),
        low_end=_deg(stood.low.angle_rad),
        high_end=_deg(stood.high.angle_rad),
        travel_ends=_ends(read, stood),
        equilibria=Value([_equilibrium(each) for each in stood.balances], "N m"),
        curve=Value(_curve(read, stood), "N m"),
    )
    results |= _at_rest(given, read, stood)
    told = tuple(warnings(given, read, stood))
    return Result(results, tuple(steps(given, read, stood)), told)


def _deg(angle: float) -> float:
    """In degrees; the last bits' noise about nought is told as nought."""
    return 0.0 if abs(angle) < 1e-10 else math.degrees(angle)


def _stiffness(balance: Equilibrium | None) -> float | None:
    return None if balance is None or balance.stiffness is None else balance.stiffness * N_M_PER_DEG


def _rests_on(stood: Standing) -> str:
    if stood.balance is not None:
        return "its balance"
    if stood.floats is not None:
        return "nothing, it floats free"
    if stood.topples:
        return "either end"
    return (stood.low if stood.rest_rad == stood.low.angle_rad else stood.high).what


def _ends(read: Read, stood: Standing) -> list[Plain]:
    """What stops the lever each way, and where a spring goes slack on the way, which does not stop it."""
    low, high = stood.low, stood.high
    slack: list[Plain] = [
        {"name": f"spring {number} slack", "angle": _deg(angle), "stopped_by": "does not stop it"}
        for number, angle in slack_angles(read.lever, low.angle_rad, high.angle_rad)
    ]
    return [
        {"name": "low end", "angle": _deg(low.angle_rad), "stopped_by": low.what},
        {"name": "high end", "angle": _deg(high.angle_rad), "stopped_by": high.what},
        *slack,
    ]


def _equilibrium(each: Equilibrium) -> Plain:
    told: dict[str, Plain] = {"name": each.kind, "angle": _deg(each.angle_rad)}
    if each.to_rad is not None:
        told["to_angle"] = _deg(each.to_rad)
    told["stiffness"] = _stiffness(each)
    if each.holds_n_mm is not None:
        told["moves_clockwise_at"], told["moves_anticlockwise_at"] = (one / 1000 for one in each.holds_n_mm)
    return told


def _curve(read: Read, stood: Standing) -> list[Plain]:
    low, high = stood.low.angle_rad, stood.high.angle_rad
    angles = [low + (high - low) * place / _CURVE_STEPS for place in range(_CURVE_STEPS + 1)]
    return [{"angle": _deg(angle), "moment": quiet(moment(read.lever, angle) / 1000)} for angle in angles]


def _at_rest(given: Given, read: Read, stood: Standing) -> dict[str, Value]:
    """The results that are of the lever at rest: springs, pivot, friction, period, what changes it."""
    lever, angle = read.lever, stood.rest_rad
    r_x, r_y = reaction(lever, angle)
    found = named(
        pivot_reaction=math.hypot(r_x, r_y),
        pivot_reaction_angle=math.degrees(math.atan2(r_y, r_x)),
    )
    if lever.springs:
        found |= named(
            spring_lengths=Value(_of_springs(read, stood, is_force=False), "mm"),
            spring_forces=Value(_of_springs(read, stood, is_force=True), "N"),
        )
    stiffness = None if stood.balance is None else stood.balance.stiffness
    if stiffness is not None and stiffness > 0 and read.inertia_kg_m2 is not None:
        found |= named(natural_period=swing_period(read.inertia_kg_m2, stiffness / 1000))
    found |= _friction(given, read, stood)
    if lever.springs:
        found |= named(preload_change=Value(_preload(given, read, stood), "mm"))
    if stiffness is not None and stiffness > 0:
        shifts: list[Plain] = [
            {"name": _called(each.what, given), "more_by": each.by, "angle": _deg(each.turn_rad)}
            for each in balance_changes(lever, angle, stiffness)
        ]
        found |= named(balance_shifts=shifts)
    return found


def _called(what: str, given: Given) -> str:
    """The load that comes after those of the rows is the lever's own weight."""
    return what.replace(f"load {len(given.rows('loads')) + 1} ", "lever's own ")


def _of_springs(read: Read, stood: Standing, *, is_force: bool) -> list[Plain]:
    angles = {
        "at_rest": stood.rest_rad,
        "at_low_end": stood.low.angle_rad,
        "at_high_end": stood.high.angle_rad,
    }
    rows: list[Plain] = []
    for number, spring in enumerate(read.lever.springs, start=1):
        lengths = {name: spring_length(read.lever, spring, angle) for name, angle in angles.items()}
        values = {name: pull_of(spring, one) if is_force else one for name, one in lengths.items()}
        rows.append({"name": f"spring {number}", **values})
    return rows


def _friction(given: Given, read: Read, stood: Standing) -> dict[str, Value]:
    radius, friction = given.mm_or_none("pin_radius"), given.number_or_none("friction")
    if given.text("kind") != "pin" or radius is None or friction is None:
        return {}
    held = friction_moment(friction, math.hypot(*reaction(read.lever, stood.rest_rad)), radius)
    found = named(friction_moment=held / 1000)
    if stood.balance is not None:
        ends = (stood.low.angle_rad, stood.high.angle_rad)
        zone = dead_zone(read.lever, stood.rest_rad, ends, friction, radius)
        found |= named(dead_zone=[_deg(each) for each in zone])
    return found


def _preload(given: Given, read: Read, stood: Standing) -> Plain:
    """What moving one spring's anchor away from the lever does, by a turn or by a millimetre."""
    number, pitch = given.integer("adjust_spring"), given.mm_or_none("thread_pitch")
    by = 1.0 if pitch is None else pitch
    moved = moved_stand(read.lever, number, by, read.stops, read.limits)
    then = None if moved is None else moved.balance
    before = stood.balance
    told: dict[str, Plain] = {"name": f"spring {number}", "anchor_moves": by}
    if before is None or then is None:
        return told
    told["balance_angle"] = _deg(then.angle_rad - before.angle_rad)
    if then.stiffness is not None and before.stiffness is not None:
        told["stiffness"] = (then.stiffness - before.stiffness) * N_M_PER_DEG
    return told


def _draw(given: Given, result: Result) -> tuple[Picture, ...]:
    read = read_lever(given)
    stood = _stood(read.lever, read.stops, tuple(read.limits))
    return lever_pictures(
        read.lever,
        stood,
        kind=given.text("kind"),
        edge_deg=given.number_or_none("edge_angle") or 60.0,
        v_deg=given.number_or_none("v_angle") or 90.0,
        stop_tips=(_tip(given, "low", -1), _tip(given, "high", 1)),
    )


def _tip(given: Given, end: str, side: int) -> tuple[float, float] | None:
    gap, radius = given.mm_or_none(f"gap_{end}"), given.mm_or_none("stop_radius")
    if gap is None or radius is None:
        return None
    return (radius, side * (gap + given.mm("lever_width") / 2))


PIVOT = Calculator(
    name="pivot",
    summary="A lever on a pin, a knife edge or a flexure with springs and loads: balance, stiffness, travel.",
    purpose="Springs, pivots and strings",
    inputs=INPUTS,
    outputs=(
        "balance_angle",
        "rests_on",
        "stiffness",
        "travel",
        "low_end",
        "high_end",
        "travel_ends",
        "equilibria",
        "curve",
        "pivot_reaction",
        "pivot_reaction_angle",
        "spring_lengths",
        "spring_forces",
        "natural_period",
        "friction_moment",
        "dead_zone",
        "preload_change",
        "balance_shifts",
    ),
    work=_pivot,
    sources=(
        "Statics: equilibrium and virtual work; stable where the potential energy is least (common practice)",
        "Hooke's law; initial tension as in Shigley's Mechanical Engineering Design (from memory)",
        "Period: OpenStax, University Physics 1, 15.4",
        "Friction of a pin: Beer and Johnston, Statics, journal bearings (from memory)",
        "Stretch of 1.2 times the travel against slack, 1 deg of margin at a knife edge: common practice",
    ),
    cautions=(
        "The lever is taken as stiff, springs as without mass; friction other than in the pin is left out.",
        "A loaded spring that slips off throws its lever and itself: wear eye protection, let it down before "
        "the lever is taken off, and never reach into the travel.",
        "Keep what moves 2 mm clear of wood and 0.5 mm of metal over the whole travel (common practice).",
        "Where a lever could hurt somebody if it fell or let go, follow the codes that hold where you are "
        "and ask a licensed engineer.",
    ),
    example={
        "springs": "80 mm, 0 mm, 60 mm, 70 mm, 0.15 N/mm, 50 mm, initial_tension=0.5 N",
        "loads": "140 mm, mass=0.15 kg",
        "lever_mass": "0.06 kg",
        "centre_x": "60 mm",
        "inertia": "0.0004 kg m2",
        "pin_radius": "2 mm",
        "friction": "0.15",
        "stop_low": "-15 deg",
        "stop_high": "15 deg",
        "thread_pitch": "0.8 mm",
    },
    draw=_draw,
    either=(("stop_low", "gap_low"), ("stop_high", "gap_high")),
)
