"""The way back: which wire, diameter and count of coils give a rate within a space."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from math import ceil, pi

from calculators.mechanics.springs.buckling import steadiness
from calculators.mechanics.springs.coils import (
    ENDS,
    HOOKS,
    extension_free_length_mm,
    hook_coils,
    pitch_mm,
    solid_length_mm,
    solid_outside_mm,
)
from calculators.mechanics.springs.rates import (
    compression_rate_n_per_mm,
    lift_angle_deg,
    wire_length_mm,
    wire_mass_kg,
)
from calculators.mechanics.springs.stresses import (
    SHEAR_FACTORS,
    hook_bending_stress_mpa,
    hook_torsion_stress_mpa,
    load_at_stress_n,
    shear_stress_mpa,
    usual_initial_stress_mpa,
)
from calculators.mechanics.springs.wires import Size, SpringWire, Use, allowed_percent, spring_wire

LEAST_INDEX, MOST_INDEX = 4.0, 12.0
LEAST_COILS, MOST_COILS = 3.0, 100.0
LEFT = 0.15
"""Share of the travel that is left before the coils close (EN 13906-1 asks for about that; from memory)."""
STEEPEST_DEG = 12.0
DIAMETERS = 24
"""Mean diameters that are tried for each size of wire, so that the search stays short."""

STAGES = (
    "does not go into the space at an index of 4 to 12",
    "needs fewer than 3 or more than 100 coils, or misses the rate by a quarter coil",
    "is too long or too steep",
    "is not listed with a strength, or is overstressed",
    "has overstressed hooks",
    "buckles",
)
"""What a coil is tried for, in this order; a size of wire is put down to the furthest that it came to."""

PREFER = ("stress", "length", "mass")
"""What the list may be ranked by: least stress, shortest, lightest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What the spring has to do and where it has to go; one of `load_n` and `travel_mm` is given."""

    kind: str
    rate_n_per_mm: float
    allowed_percent: float
    load_n: float | None
    travel_mm: float | None
    largest_outside_mm: float
    smallest_inside_mm: float
    longest_free_mm: float
    material: str
    ends: str
    factor: str = "wahl"
    cycles: int = 0
    guided: bool = False
    prefer: str = "stress"


@dataclass(frozen=True, slots=True)
class Choice:
    """One spring that does it."""

    name: str
    wire_mm: float
    mean_mm: float
    active_coils: float
    rate_n_per_mm: float
    stress_percent: float
    solid_mm: float
    free_mm: float
    outside_mm: float
    inside_mm: float
    load_n: float
    travel_mm: float
    mass_kg: float


@dataclass(frozen=True, slots=True)
class Excluded:
    """Sizes of wire that do not do it, from first to last, and why."""

    first: str
    last: str
    why: str


def choose(wish: Wish, sizes: Sequence[Size]) -> tuple[tuple[Choice, ...], tuple[Excluded, ...]]:
    """Find the springs that meet a wish: of each size of wire the best one, best of all first.

    Args:
        wish: what is wanted.
        sizes: the sizes of wire that may be used, at most some hundred.

    Returns:
        The springs ranked as the wish prefers, and the sizes that drop out, with the reason.

    Source: this project; the limits are common practice.
    """
    found: list[Choice] = []
    dropped: list[tuple[str, int]] = []
    for size in sizes:
        tried = [_tried(wish, size, mean) for mean in _diameters(wish, size.wire_mm)]
        fits = [each for each in tried if isinstance(each, Choice)]
        if fits:
            found.append(min(fits, key=lambda each: _rank(wish, each)))
        else:
            dropped.append((size.name, max((each for each in tried if isinstance(each, int)), default=0)))
    groups = [(stage, [name for name, _ in each]) for stage, each in groupby(dropped, key=lambda one: one[1])]
    return (
        tuple(sorted(found, key=lambda each: _rank(wish, each))),
        tuple(Excluded(names[0], names[-1], STAGES[stage]) for stage, names in groups),
    )


def _rank(wish: Wish, each: Choice) -> tuple[float, float]:
    first = {"stress": each.stress_percent, "length": each.free_mm, "mass": each.mass_kg}[wish.prefer]
    return (round(first, 9), each.mass_kg)


def _diameters(wish: Wish, wire_mm: float) -> list[float]:
    """Mean diameters that go into the space at a usual index, evenly spread."""
    low = max(LEAST_INDEX * wire_mm, wish.smallest_inside_mm + wire_mm)
    high = min(MOST_INDEX * wire_mm, wish.largest_outside_mm - wire_mm)
    if high < low:
        return []
    return [low + (high - low) * place / (DIAMETERS - 1) for place in range(DIAMETERS)]


def _tried(wish: Wish, size: Size, wanted_mm: float) -> Choice | int:
    """A spring of about this mean diameter, or the stage of `STAGES` at which it drops out."""
    wire = spring_wire(wish.material, size.wire_mm)
    low, high = _diameters(wish, size.wire_mm)[0], _diameters(wish, size.wire_mm)[-1]
    exact = wire.shear_modulus_mpa * size.wire_mm**4 / (8 * wanted_mm**3 * wish.rate_n_per_mm)
    coils = max(LEAST_COILS, round(4 * exact) / 4)
    if not LEAST_COILS - 0.25 <= exact <= MOST_COILS:
        return 1
    # With whole quarters of a coil the diameter gives the rate; it is rounded as it can be measured.
    mean = (wire.shear_modulus_mpa * size.wire_mm**4 / (8 * coils * wish.rate_n_per_mm)) ** (1 / 3)
    mean = min(high, max(low, round(20 * mean) / 20))
    rate = compression_rate_n_per_mm(size.wire_mm, mean, coils, wire.shear_modulus_mpa)
    if abs(rate / wish.rate_n_per_mm - 1) * 100 > wish.allowed_percent:
        return 1
    work = _pressed if wish.kind == "compression" else _pulled
    return work(wish, size, wire, mean, coils, rate)


def _share(wish: Wish, wire: SpringWire, size: Size, mean: float, load: float) -> float | None:
    """Share of the allowed stress [%]; None where no strength is listed."""
    if wire.tensile_mpa is None:
        return None
    use: Use = "compression" if wish.kind == "compression" else "body"
    limit = wire.tensile_mpa * allowed_percent(wish.material, use, wish.cycles) / 100
    factor = SHEAR_FACTORS[wish.factor][2](mean / size.wire_mm)
    return 100 * shear_stress_mpa(load, size.wire_mm, mean, factor) / limit


def _pressed(
    wish: Wish, size: Size, wire: SpringWire, mean: float, coils: float, rate: float
) -> Choice | int:
    end = ENDS[wish.ends]
    total = coils + end.dead
    solid = solid_length_mm(wish.ends, size.wire_mm, total)
    travel = wish.load_n / rate if wish.load_n is not None else wish.travel_mm or 0.0
    free = ceil(2 * (solid + travel / (1 - LEFT)) - 1e-9) / 2
    pitch = pitch_mm(wish.ends, size.wire_mm, coils, free)
    grown = solid_outside_mm(size.wire_mm, mean, pitch)
    if grown > wish.largest_outside_mm + 1e-9:
        return 0
    if free > wish.longest_free_mm or lift_angle_deg(mean, pitch) > STEEPEST_DEG:
        return 2
    share = _share(wish, wire, size, mean, rate * travel)
    if share is None or share > 100:
        return 3
    found = steadiness(free, mean, wire.shear_modulus_mpa / wire.modulus_mpa)
    if not wish.guided and found.critical_travel_mm is not None and travel >= found.critical_travel_mm:
        return 5
    length = wire_length_mm(mean, pitch, coils) + wire_length_mm(mean, size.wire_mm, end.dead)
    return _choice(size, wire, mean, coils, rate, share, solid, free, rate * travel, travel, length)


def _pulled(wish: Wish, size: Size, wire: SpringWire, mean: float, coils: float, rate: float) -> Choice | int:
    body = coils - hook_coils(wish.ends, wire.shear_modulus_mpa, wire.modulus_mpa)
    if body <= 1:
        return 1
    usual = sum(usual_initial_stress_mpa(mean / size.wire_mm)) / 2
    initial = load_at_stress_n(usual, size.wire_mm, mean, 1.0)
    load = wish.load_n if wish.load_n is not None else initial + rate * (wish.travel_mm or 0.0)
    free = extension_free_length_mm(wish.ends, size.wire_mm, mean, body)
    if free > wish.longest_free_mm:
        return 2
    share = _share(wish, wire, size, mean, load)
    # A load under the initial tension does not open the coils at all.
    if share is None or share > 100 or load <= initial:
        return 3
    if HOOKS[wish.ends].bent and not _hooks_hold(wish, wire, size, mean, load):
        return 4
    length = wire_length_mm(mean, size.wire_mm, body) + (2 * pi * mean if HOOKS[wish.ends].bent else 0)
    solid = (body + 1) * size.wire_mm
    return _choice(size, wire, mean, coils, rate, share, solid, free, load, (load - initial) / rate, length)


def _hooks_hold(wish: Wish, wire: SpringWire, size: Size, mean: float, load: float) -> bool:
    tensile = (wire.tensile_mpa or 0.0) / 100
    bending = hook_bending_stress_mpa(load, size.wire_mm, mean, mean / 2)
    torsion = hook_torsion_stress_mpa(load, size.wire_mm, mean, 2 * size.wire_mm)
    return bending <= tensile * allowed_percent(
        wish.material, "hook_bending", wish.cycles
    ) and torsion <= tensile * allowed_percent(wish.material, "hook_torsion", wish.cycles)


def _choice(
    size: Size,
    wire: SpringWire,
    mean: float,
    coils: float,
    rate: float,
    share: float,
    solid: float,
    free: float,
    load: float,
    travel: float,
    length: float,
) -> Choice:
    mass = wire_mass_kg(size.wire_mm, length, wire.density_kg_m3)
    return Choice(size.name, size.wire_mm, mean, coils, rate, share, solid, free, mean + size.wire_mm,
                  mean - size.wire_mm, load, travel, mass)  # fmt: skip
