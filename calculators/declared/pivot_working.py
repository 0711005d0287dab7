"""The working of a lever about a pivot, as a handbook sets it out: lengths, pulls, moments, stiffness."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from calculators.calculation import Given, Step
from calculators.calculation.result import number_text
from calculators.declared.pivot_reading import Read
from calculators.mechanics.pivot.energy import (
    force_of,
    moment,
    moment_and_stiffness,
    place_of,
    pull_of,
    reaction,
    spring_length,
)
from calculators.mechanics.pivot.friction import friction_moment
from calculators.mechanics.pivot.model import Lever, Load, Spring
from calculators.mechanics.pivot.standing import Standing, swing_period

N_M_PER_DEG = math.radians(1) / 1000
"""[N m/deg per N mm/rad]"""

_STATICS = "statics"
_FOUND = "closed in on; balances nearer than 1/3000 of the travel may be told as one"


def steps(given: Given, read: Read, stood: Standing) -> Iterator[Step]:
    """Set out the working.

    Args:
        given: the inputs as read.
        read: the lever that they describe.
        stood: how it stands.

    Yields:
        The steps, in the order in which they follow from one another.

    Source: this project.
    """
    yield from _stop_steps(given, stood)
    angle, lever = stood.rest_rad, read.lever
    degrees = math.degrees(angle)
    yield Step("a", "angle at which the moments sum to nought", "", quiet(degrees), "deg", _FOUND)
    for number, spring in enumerate(lever.springs, start=1):
        yield from _spring_steps(lever, spring, number, angle)
    for number, load in enumerate(lever.loads, start=1):
        yield _load_step(lever, load, number, angle)
    turn, stiffness = moment_and_stiffness(lever, angle)
    if lever.torsion_n_mm_per_rad:
        bent = angle - lever.torsion_rest_rad
        numbers = f"-{_t(lever.torsion_n_mm_per_rad)} N mm/rad x {_t(bent)} rad"
        yield Step("Mf", "-kf (a - a0)", numbers, -lever.torsion_n_mm_per_rad * bent, "N mm", _STATICS)
    held = stood.balance is not None and stood.balance.stiffness is None
    says = "between the two sides of a jump" if held else _STATICS
    yield Step("M", "sum of the moments", "", 0.0 if held else _clear(turn, lever), "N mm", says)
    if stood.balance is not None and stood.balance.stiffness is not None:
        yield Step("K", "sum (k L'^2 + F L'') + kf - sum F . p''", "", stiffness, "N mm/rad",
                   "second derivative of the energy")  # fmt: skip
        if read.inertia_kg_m2 is not None and stiffness > 0:
            numbers = f"2 pi sqrt({_t(read.inertia_kg_m2)} kg m2/{_t(stiffness / 1000)} N m/rad)"
            period = swing_period(read.inertia_kg_m2, stiffness / 1000)
            yield Step("T", "2 pi sqrt(I/K)", numbers, period, "s", "OpenStax, University Physics 1, 15.4")
    r_x, r_y = reaction(lever, angle)
    total = math.hypot(r_x, r_y)
    yield Step("R", "sqrt(Rx^2 + Ry^2)", f"sqrt(({_t(r_x)} N)^2 + ({_t(r_y)} N)^2)", total, "N", _STATICS)
    radius, friction = given.mm_or_none("pin_radius"), given.number_or_none("friction")
    if given.text("kind") == "pin" and radius is not None and friction is not None:
        numbers = f"{_t(friction)} x {_t(total)} N x {_t(radius)} mm"
        yield Step("Mu", "u R r", numbers, friction_moment(friction, total, radius), "N mm",
                   "Beer and Johnston, Statics, journal bearings, from memory")  # fmt: skip


def _t(value: float) -> str:
    return number_text(quiet(value))


def quiet(value: float) -> float:
    """Tell what is only the noise of turning a lever through an angle as nought.

    Args:
        value: a length, force, moment or angle [mm, N, N mm, deg] or what goes with them.

    Returns:
        The value; nought where it is under 1e-12 of its unit.

    Source: this project.

    Example:
        >>> quiet(-1.6e-15), quiet(0.25)
        (0.0, 0.25)
    """
    return 0.0 if abs(value) < 1e-12 else value


def _clear(turn: float, lever: Lever) -> float:
    """The sum of the moments; the last bits' noise of a balance is told as nought."""
    size = sum(abs(load.force_n) * math.hypot(load.x_mm, load.y_mm) for load in lever.loads)
    for spring in lever.springs:
        size += spring.rate_n_per_mm * math.hypot(spring.x_mm, spring.y_mm) * max(1.0, spring.free_length_mm)
    return 0.0 if abs(turn) <= 1e-9 * max(size, lever.torsion_n_mm_per_rad) else turn


def _stop_steps(given: Given, stood: Standing) -> Iterator[Step]:
    edge, v_angle = given.number_or_none("edge_angle"), given.number_or_none("v_angle")
    if given.text("kind") == "knife-edge" and edge is not None and v_angle is not None:
        numbers = f"({_t(v_angle)} deg - {_t(edge)} deg)/2"
        yield Step("a_v", "(V - E)/2", numbers, (v_angle - edge) / 2, "deg", "geometry")
    for end, side, found in (("low", -1, stood.low), ("high", 1, stood.high)):
        gap, radius = given.mm_or_none(f"gap_{end}"), given.mm_or_none("stop_radius")
        if gap is not None and radius is not None and found.what == f"the {end} stop":
            half = given.mm("lever_width") / 2
            numbers = (
                f"arctan(({_t(gap)} + {_t(half)}) mm/{_t(radius)} mm) - "
                f"arcsin({_t(half)} mm/{_t(math.hypot(radius, gap + half))} mm)"
            )
            formula = "arctan((g + w/2)/R) - arcsin((w/2)/sqrt(R^2 + (g + w/2)^2))"
            value = side * math.degrees(found.angle_rad)
            yield Step(f"a_{end}", formula, numbers, value, "deg", "geometry")


def _spring_steps(lever: Lever, spring: Spring, number: int, angle: float) -> Iterator[Step]:
    x, y = place_of(lever, spring.x_mm, spring.y_mm, angle)
    length = spring_length(lever, spring, angle)
    d_x, d_y = spring.anchor_x_mm - x, spring.anchor_y_mm - y
    numbers = f"sqrt(({_t(d_x)} mm)^2 + ({_t(d_y)} mm)^2)"
    yield Step(f"L{number}", "distance of anchor and lever's point", numbers, length, "mm", "geometry")
    pull = pull_of(spring, length)
    numbers = (
        f"{_t(spring.initial_tension_n)} N + {_t(spring.rate_n_per_mm)} N/mm x "
        f"({_t(length)} - {_t(spring.free_length_mm)}) mm"
    )
    acts = pull != 0 or spring.kind == "both"
    formula = "Fi + k (L - L0)" if acts else "0, slack"
    yield Step(f"F{number}", formula, numbers if acts else "", pull, "N", "Hooke's law")
    alone = Lever((spring,), edge_radius_mm=lever.edge_radius_mm, edge_points_rad=lever.edge_points_rad)
    turn = moment(alone, angle)
    arm = turn / pull if pull else 0.0
    yield Step(f"M{number}", "F e", f"{_t(pull)} N x {_t(arm)} mm", quiet(turn), "N mm", _STATICS)


def _load_step(lever: Lever, load: Load, number: int, angle: float) -> Step:
    turn = moment(replace(lever, springs=(), loads=(load,), torsion_n_mm_per_rad=0.0), angle)
    x, y = place_of(lever, load.x_mm, load.y_mm, angle)
    f_x, f_y = force_of(load, angle)
    numbers = f"{_t(x)} mm x {_t(f_y)} N - {_t(y)} mm x {_t(f_x)} N"
    return Step(f"P{number}", "x Fy - y Fx", numbers, quiet(turn), "N mm", _STATICS)
