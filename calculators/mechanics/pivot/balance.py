"""Where a lever balances: every angle between the ends of its travel at which nothing turns it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Literal

from calculators.mechanics.pivot.energy import moment_and_stiffness
from calculators.mechanics.pivot.model import Equilibrium, Lever
from calculators.mechanics.pivot.rooting import root_between
from calculators.mechanics.pivot.travel import slack_angles, turning_points

SAMPLES = 180
"""About how many angles are looked at between the ends."""

_FINER = 16
"""Into how many the step is divided where the moment is near nought: balances nearer to one another than
that, about 1/3000 of the travel, are told apart only where the moment turns back once between two steps."""

_BESIDE = 1e-9
"""[rad] How far beside a break the two sides are taken."""
_SAME = 1e-7
"""[rad] Balances nearer than this are one."""
_LEAST_N_MM = 1e-9
"""[N mm] A lever that nothing larger can turn counts as turned by this, so that no last bits are told."""
_NOTHING = 1e-11
"""Share of the largest moment there could be that counts as none."""

Sample = tuple[float, float, float]
"""An angle, the moment there and the stiffness."""


def largest_moment(lever: Lever) -> float:
    """A bound that no moment on the lever passes.

    Args:
        lever: the lever.

    Returns:
        The bound [N mm], over 0.

    Source: the triangle inequality (this project).

    Example:
        >>> from calculators.mechanics.pivot.model import weight
        >>> round(largest_moment(Lever(loads=(weight(100, 0, 1),))), 3)
        980.665
    """
    total = lever.torsion_n_mm_per_rad * (math.pi + abs(lever.torsion_rest_rad))
    for spring in lever.springs:
        arm = math.hypot(spring.x_mm, spring.y_mm) + lever.edge_radius_mm
        away = arm + 4 * lever.edge_radius_mm + math.hypot(spring.anchor_x_mm, spring.anchor_y_mm)
        stretch = max(away, spring.free_length_mm)
        total += arm * (spring.initial_tension_n + spring.rate_n_per_mm * stretch)
    for load in lever.loads:
        total += abs(load.force_n) * (math.hypot(load.x_mm, load.y_mm) + 3 * lever.edge_radius_mm)
    return max(total, _LEAST_N_MM)


def breaks(lever: Lever, low: float, high: float) -> tuple[float, ...]:
    """The angles at which the moment may jump or bend: a spring goes slack, or its ends meet.

    Args:
        lever: the lever.
        low: [rad] the one end of the travel.
        high: [rad] the other end, more.

    Returns:
        The angles inside the travel [rad], smallest first, none twice.

    Source: this project.

    Example:
        >>> from calculators.mechanics.pivot.model import Spring
        >>> breaks(Lever((Spring(100, 0, 100, 30, 1, 30),)), -1, 0.5)
        (0.0,)
    """
    found = [angle for _, angle in slack_angles(lever, low, high)]
    for spring in lever.springs:
        apart = math.hypot(spring.x_mm, spring.y_mm) - math.hypot(spring.anchor_x_mm, spring.anchor_y_mm)
        if abs(apart) < 1e-6 and spring.kind != "extension":
            found += turning_points(spring)[:1]
    inside = sorted(each for each in found if low + 2 * _BESIDE < each < high - 2 * _BESIDE)
    return tuple(
        each for place, each in enumerate(inside) if place == 0 or each - inside[place - 1] > 4 * _BESIDE
    )


def equilibria(lever: Lever, low: float, high: float) -> tuple[Equilibrium, ...]:
    """Every angle between the ends of the travel at which the lever is in balance.

    The travel is cut where a spring goes slack; each piece is looked at in steps, a change of sign is closed
    in on, and where the moment turns back without changing its sign it is seen whether it touches nought.

    Args:
        lever: the lever.
        low: [rad] the one end of the travel.
        high: [rad] the other end, more.

    Returns:
        The balances, smallest angle first.

    Source: stable where the energy is least, unstable where it is greatest: theorem of Lagrange and
        Dirichlet (common practice).

    Example:
        >>> from calculators.mechanics.pivot.model import weight
        >>> found = equilibria(Lever(loads=(weight(0, -100, 1),)), -3, 3)
        >>> [(each.kind, round(abs(each.angle_rad), 9)) for each in found]
        [('stable', 0.0)]
    """
    nothing = _NOTHING * largest_moment(lever)
    edges = [low, *breaks(lever, low, high), high]
    found: list[Equilibrium] = []
    before: Sample | None = None
    for start, end in pairwise(edges):
        samples = _samples(lever, start, end, (end - start) / (high - low))
        if before is not None:
            found += _at_break(start, before, samples[0], nothing)
        if all(abs(turn) <= nothing for _, turn, _ in samples):
            found.append(Equilibrium(start, "neutral", 0.0, end))
        else:
            found += [
                _told(lever, angle, nothing) for angle in _roots(lever, _closer(lever, samples), nothing)
            ]
        before = samples[-1]
    return _merged(found)


def _samples(lever: Lever, start: float, end: float, share: float) -> list[Sample]:
    steps = max(4, math.ceil(SAMPLES * share))
    angles = [start + (end - start) * place / steps for place in range(steps + 1)]
    angles[0], angles[-1] = start + _BESIDE, end - _BESIDE
    return [(angle, *moment_and_stiffness(lever, angle)) for angle in angles]


def _at_break(angle: float, left: Sample, right: Sample, nothing: float) -> Iterator[Equilibrium]:
    """A balance at the angle where a spring goes slack, if the moment changes its sign there."""
    below, above = left[1], right[1]
    if min(abs(below), abs(above)) <= nothing or (below < 0) == (above < 0):
        return
    kind: Literal["stable", "unstable"] = "stable" if below > 0 else "unstable"
    # A moment that jumps holds the lever fast; one that only bends has a stiffness to each side.
    if abs(below - above) > 1e-6 * max(abs(below), abs(above)) + 8 * _BESIDE * (abs(left[2]) + abs(right[2])):
        at_angle = below - _BESIDE * left[2], above + _BESIDE * right[2]
        yield Equilibrium(angle, kind, None, None, (-at_angle[0], -at_angle[1]))
    else:
        yield Equilibrium(angle, kind, (left[2] + right[2]) / 2)


def _closer(lever: Lever, samples: Sequence[Sample]) -> list[Sample]:
    """The samples, with more of them wherever the moment may pass nought from one to the next."""
    found = [samples[0]]
    for (start, at_start, bend_start), (end, at_end, bend_end) in pairwise(samples):
        reach = (end - start) * max(abs(bend_start), abs(bend_end))
        if (at_start < 0) != (at_end < 0) or min(abs(at_start), abs(at_end)) <= reach:
            between = (start + (end - start) * place / _FINER for place in range(1, _FINER))
            found += [(angle, *moment_and_stiffness(lever, angle)) for angle in between]
        found.append((end, at_end, bend_end))
    return found


def _roots(lever: Lever, samples: Sequence[Sample], nothing: float) -> Iterator[float]:
    def turn(angle: float) -> float:
        return moment_and_stiffness(lever, angle)[0]

    def bend(angle: float) -> float:
        return moment_and_stiffness(lever, angle)[1]

    for (start, at_start, bend_start), (end, at_end, bend_end) in pairwise(samples):
        if abs(at_start) <= nothing:
            yield start
        elif abs(at_end) <= nothing:
            continue
        elif (at_start < 0) != (at_end < 0):
            yield root_between(turn, start, end)
        elif at_start * bend_start > 0 > at_end * bend_end:
            # The moment falls towards nought and rises again: it may pass it twice, or touch it.
            turned = root_between(bend, start, end)
            between = turn(turned)
            if abs(between) <= nothing:
                yield turned
            elif (between < 0) != (at_start < 0):
                yield root_between(turn, start, turned)
                yield root_between(turn, turned, end)
    if abs(samples[-1][1]) <= nothing:
        yield samples[-1][0]


def _told(lever: Lever, angle: float, nothing: float) -> Equilibrium:
    _, stiffness = moment_and_stiffness(lever, angle)
    if abs(stiffness) > nothing:
        return Equilibrium(angle, "stable" if stiffness > 0 else "unstable", stiffness)
    left, right = (moment_and_stiffness(lever, angle + side * 1e-3)[0] for side in (-1, 1))
    return Equilibrium(angle, "stable" if left > 0 > right else "unstable", stiffness)


def _merged(found: Sequence[Equilibrium]) -> tuple[Equilibrium, ...]:
    """One for those that lie on one another; neutral stretches that meet become one."""
    kept: list[Equilibrium] = []
    for each in sorted(found, key=lambda one: one.angle_rad):
        last = kept[-1] if kept else None
        reaches = last.angle_rad if last and last.to_rad is None else last.to_rad if last else None
        if last is None or reaches is None or each.angle_rad - reaches > _SAME:
            kept.append(each)
        elif last.kind == each.kind == "neutral":
            kept[-1] = Equilibrium(last.angle_rad, "neutral", 0.0, each.to_rad)
        elif last.kind != "neutral" and (each.kind == "neutral" or last.kind == "unstable"):
            kept[-1] = each
    return tuple(kept)


def nearest_stable(found: Sequence[Equilibrium]) -> Equilibrium | None:
    """The stable balance nearest to the lever as drawn.

    Args:
        found: the balances.

    Returns:
        The nearest one; of two as near, the anticlockwise one; None where none is stable.

    Source: this project.

    Example:
        >>> nearest_stable((Equilibrium(0.0, "unstable"), Equilibrium(0.5, "stable"))).angle_rad
        0.5
    """
    stable = [each for each in found if each.kind == "stable"]
    return min(stable, key=lambda one: (round(abs(one.angle_rad), 9), -one.angle_rad), default=None)


def rests_on(lever: Lever, low: float, high: float) -> tuple[bool, bool]:
    """Whether the lever, brought to an end of its travel, is held there by what turns it.

    Args:
        lever: the lever.
        low: [rad] the clockwise end.
        high: [rad] the anticlockwise end.

    Returns:
        For each end, the clockwise one first.

    Source: the sign of the moment (statics).

    Example:
        >>> from calculators.mechanics.pivot.model import weight
        >>> rests_on(Lever(loads=(weight(100, 0, 1),)), -0.1, 0.1)
        (True, False)
    """
    nothing = _NOTHING * largest_moment(lever)
    at_low = moment_and_stiffness(lever, low + _BESIDE)[0]
    at_high = moment_and_stiffness(lever, high - _BESIDE)[0]
    return at_low < -nothing, at_high > nothing
