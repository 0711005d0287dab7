"""What a person should mind of a lever: slack springs, flanks before stops, an edge that jumps out."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.calculation import Given
from calculators.declared.pivot_reading import Read
from calculators.declared.pivot_working import N_M_PER_DEG
from calculators.mechanics.pivot.energy import moment_and_stiffness, reaction, spring_length
from calculators.mechanics.pivot.model import Lever, Spring
from calculators.mechanics.pivot.standing import SLACK_RESERVE, Standing, reach_of
from calculators.mechanics.pivot.travel import NOTHING


def warnings(given: Given, read: Read, stood: Standing) -> Iterator[str]:
    """Say what should be minded.

    Args:
        given: the inputs as read.
        read: the lever that they describe.
        stood: how it stands.

    Yields:
        Sentences with the numbers and the limits.

    Source: this project; the share kept from slack and the margin of an edge are common practice.
    """
    yield from _rest_warnings(stood)
    yield from _stiffness_warnings(read.lever, stood)
    for number, spring in enumerate(read.lever.springs, start=1):
        yield from _spring_warnings(read.lever, spring, number, stood)
    if given.text("kind") == "knife-edge":
        yield from _edge_warnings(given, read, stood)
    yield from _missing_warnings(given, read, stood)


def _deg(angle: float) -> str:
    return f"{math.degrees(angle) if abs(angle) > 1e-10 else 0.0:.3g} deg"


def _rest_warnings(stood: Standing) -> Iterator[str]:
    if stood.floats is not None:
        to = stood.floats.angle_rad if stood.floats.to_rad is None else stood.floats.to_rad
        yield (
            f"Nothing turns the lever between {_deg(stood.floats.angle_rad)} and {_deg(to)}: it stays "
            "wherever it is put there."
        )
    elif stood.topples:
        yield "As drawn the lever stands on an unstable balance: it falls to either end of its travel."
    elif stood.balance is None:
        end = stood.low if stood.rest_rad == stood.low.angle_rad else stood.high
        stops = end.what != NOTHING
        says = f"goes to {end.what}, at {_deg(end.angle_rad)}" if stops else "turns on without an end"
        yield f"The lever balances nowhere by itself within its travel: let go as drawn it {says}."
    elif stood.balance.holds_n_mm is not None:
        back, on = stood.balance.holds_n_mm
        yield (
            f"The initial tension of a spring holds the lever fast at {_deg(stood.balance.angle_rad)}: it "
            f"takes {abs(back) / 1000:.3g} N m to move it clockwise, {abs(on) / 1000:.3g} N m anticlockwise."
        )
    for held, end in zip(stood.held, (stood.low, stood.high), strict=True):
        if held and stood.balance is not None and end.what != NOTHING:
            yield f"Pushed to {end.what}, at {_deg(end.angle_rad)}, the lever stays there."


def _stiffness_warnings(lever: Lever, stood: Standing) -> Iterator[str]:
    """A spring that just takes up at the balance makes the lever stiffer to one side than to the other."""
    if stood.balance is None or stood.balance.stiffness is None:
        return
    left, right = (
        moment_and_stiffness(lever, stood.rest_rad + side * 1e-6)[1] * N_M_PER_DEG for side in (-1, 1)
    )
    if abs(left - right) > 0.01 * max(abs(left), abs(right)):
        yield (
            f"A spring takes up just at the balance: the stiffness is {left:.3g} N m/deg clockwise of it and "
            f"{right:.3g} N m/deg anticlockwise; the mean is given."
        )


def _spring_warnings(lever: Lever, spring: Spring, number: int, stood: Standing) -> Iterator[str]:
    at_rest = spring_length(lever, spring, stood.rest_rad)
    shortest, longest = reach_of(lever, spring, stood.low.angle_rad, stood.high.angle_rad)
    if spring.kind == "both":
        return
    sign = 1 if spring.kind == "extension" else -1
    least = shortest if sign > 0 else longest
    loaded, given_up = sign * (at_rest - spring.free_length_mm), abs(at_rest - least)
    word = "stretched" if sign > 0 else "pressed"
    if loaded < given_up - 1e-9:
        yield (
            f"Spring {number} goes slack in the travel: {word} {max(loaded, 0.0):.3g} mm at rest, it gives "
            f"up {given_up:.3g} mm; {SLACK_RESERVE:g} times that, {SLACK_RESERVE * given_up:.3g} mm, "
            "keeps it on."
        )
    elif loaded < SLACK_RESERVE * given_up - 1e-9:
        yield (
            f"Spring {number} comes near to slack: {word} {loaded:.3g} mm at rest, it gives up "
            f"{given_up:.3g} mm; keep {SLACK_RESERVE:g} times that, {SLACK_RESERVE * given_up:.3g} mm."
        )
    if spring.kind == "compression" and spring.solid_mm is None:
        yield f"The solid length of spring {number} was not given: whether it closes was not looked at."


def _edge_warnings(given: Given, read: Read, stood: Standing) -> Iterator[str]:
    if read.swing_deg is None:
        yield "Without edge_angle and v_angle it was not looked at whether the edge rides up its V."
    else:
        margin = given.number("margin")
        for flank, stop, side in zip(read.swing_deg, read.stops, (-1, 1), strict=True):
            reached = math.inf if stop is None else side * math.degrees(stop)
            way = "clockwise" if side < 0 else "anticlockwise"
            before = (
                "and no stop acts first" if stop is None else f"before the stop at {reached:.3g} deg acts"
            )
            if reached > side * flank + 1e-9:
                yield (
                    f"The edge rides up the V at {side * flank:.3g} deg {way} {before}; set the stop at "
                    f"{max(0.0, side * flank - margin):.3g} deg or less."
                )
            elif reached > side * flank - margin + 1e-9:
                yield (
                    f"Between the stop at {reached:.3g} deg {way} and the flank of the V at "
                    f"{side * flank:.3g} deg there is less than the margin of {margin:.3g} deg."
                )
    v_angle = given.number_or_none("v_angle") or 180.0
    for angle in (stood.rest_rad, stood.low.angle_rad, stood.high.angle_rad):
        r_x, r_y = reaction(read.lever, angle)
        total = math.hypot(r_x, r_y)
        seat = -math.cos(read.lever.edge_points_rad), -math.sin(read.lever.edge_points_rad)
        seated = (r_x * seat[0] + r_y * seat[1]) / total if total > 1e-9 else 0.0
        limit = math.cos(math.radians(90.0 - v_angle / 2)) if v_angle < 180.0 else 0.0
        if seated <= 0.0 or seated < limit - 1e-9:
            says = "lifts out of its V" if seated < 0.0 else "is pushed up one flank of its V"
            says = says if total > 1e-9 else "is not pressed into its V by any of the forces given"
            yield f"At {_deg(angle)} the edge {says}; the force on it must point as the edge does."
            return


def _missing_warnings(given: Given, read: Read, stood: Standing) -> Iterator[str]:
    kind = given.text("kind")
    pin = [given.mm_or_none("pin_radius"), given.number_or_none("friction")]
    if kind == "pin" and None in pin:
        yield "Friction in the pin was not looked at: it needs pin_radius and friction."
    if kind != "pin" and any(each is not None for each in pin):
        yield f"A {kind} has no friction here: pin_radius and friction were not used."
    others = {"knife-edge": ("edge_angle", "v_angle"), "flexure": ("flexure_rate", "flexure_limit")}
    for other, names in others.items():
        if kind != other and any(given.number_or_none(name) is not None for name in names):
            yield f"The inputs of a {other} were not used: the lever turns on a {kind}."
    own, inertia = given.number_or_none("lever_mass"), given.number_or_none("inertia")
    if own and inertia is None and read.inertia_kg_m2 and stood.balance is not None:
        yield (
            "The lever's own moment of inertia was not given: its mass counts as a point at its centre, so "
            "the period is somewhat short."
        )
