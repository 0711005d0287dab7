"""A straight beam of one section under any loads, by Macaulay's brackets.

The moment is a sum of brackets, M = sum c <x - a>^p, which count nothing before a; integrated twice they give
slope and deflection. Unknown reactions are brackets too: that nothing sinks at a support, nothing turns where
it is held, and force and moment come to nought beyond the end gives as many equations as there are unknowns.
Lengths are worked with as shares of the beam's, forces as shares of the greatest load.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

_SAMPLES = 16
_HALVINGS = 45


@dataclass(frozen=True, slots=True)
class Support:
    """A place where the beam rests; one that is `held` cannot turn either."""

    at_mm: float
    held: bool = False


@dataclass(frozen=True, slots=True)
class Load:
    """A load: a downward force at a place, or spread evenly up to `to_mm`; or a moment, clockwise."""

    at_mm: float
    force_n: float = 0.0
    to_mm: float | None = None
    moment_n_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Reaction:
    """What a support does to the beam: an upward force, and a clockwise moment where the beam is held."""

    at_mm: float
    force_n: float
    moment_n_mm: float


@dataclass(frozen=True, slots=True)
class Place:
    """A greatest value and where it is."""

    value: float
    at_mm: float


@dataclass(frozen=True, slots=True)
class Bent:
    """A bent beam. Deflection is downward [mm], the moment sags where it is more than nought [N mm].

    `sampled` is (place, deflection, moment, shear force) along the beam, on both sides of each jump.
    """

    length_mm: float
    reactions: tuple[Reaction, ...]
    deflection: Place
    moment: Place
    shear: Place
    sampled: tuple[tuple[float, float, float, float], ...]


@dataclass(frozen=True, slots=True)
class _Bracket:
    factor: float
    at: float
    power: int


Polynomial = tuple[float, ...]


def bend(
    length_mm: float,
    supports: Sequence[Support],
    loads: Sequence[Load],
    stiffness_n_mm2: float,
    *,
    shear_stiffness_n: float | None = None,
    samples: int = _SAMPLES,
) -> Bent:
    """Work out how a beam bends, whatever it rests on and carries.

    E I y'' = M, M = sum c <x - a>^p

    Args:
        length_mm: [mm] the beam's whole length, above 0.
        supports: two or more, or one that is held; none twice, all on the beam.
        loads: one or more, all on the beam, not all nought.
        stiffness_n_mm2: [N mm2] modulus times second moment, above 0.
        shear_stiffness_n: [N] modulus of rigidity times area over the shear factor; without it the beam
            does not shear.
        samples: places in each stretch between loads and supports, 2 or more.

    Returns:
        Reactions, greatest deflection, moment and shear force, and the lines along the beam.

    Source: W. H. Macaulay 1919 as textbooks have it; shear by Timoshenko's beam (both from memory).

    Example:
        >>> beam = bend(600, [Support(0), Support(600)], [Load(300, 100)], 12300 * 28800)
        >>> round(beam.deflection.value, 3), beam.moment.value
        (1.27, 15000.0)
    """
    force = max(max(abs(load.force_n), abs(load.moment_n_mm) / length_mm) for load in loads)
    give = 0.0 if shear_stiffness_n is None else stiffness_n_mm2 / shear_stiffness_n / length_mm**2
    known = [bracket for load in loads for bracket in _brackets(load, length_mm, force)]
    unknown = [bracket for support in supports for bracket in _held_by(support, length_mm)]
    found = _solved(supports, known, unknown, length_mm, give)
    reactions, place = [], 0
    for support in supports:
        moment = found[place + 1] if support.held else 0.0
        reactions.append(
            Reaction(support.at_mm, _clean(found[place]) * force, _clean(moment) * force * length_mm)
        )
        place += 2 if support.held else 1
    brackets = known + [
        _Bracket(value, each.at, each.power)
        for value, each in zip(found[: len(unknown)], unknown, strict=True)
    ]
    stretches = _stretches(brackets, (found[-2], found[-1]), give)
    sag = force * length_mm**3 / stiffness_n_mm2
    deflection, moment_most = _most(stretches, 0), _most(stretches, 1)
    shear = _most(stretches, 2)
    return Bent(
        length_mm,
        tuple(reactions),
        Place(-deflection[0] * sag, deflection[1] * length_mm),
        Place(moment_most[0] * force * length_mm, moment_most[1] * length_mm),
        Place(shear[0] * force, shear[1] * length_mm),
        tuple(
            (x * length_mm, -y * sag, m * force * length_mm, v * force)
            for x, y, m, v in _sampled(stretches, samples)
        ),
    )


def _clean(value: float) -> float:
    """Nought where only the last bits differ from it."""
    return 0.0 if abs(value) < 1e-11 else value


def _brackets(load: Load, length: float, force: float) -> list[_Bracket]:
    at, weight = load.at_mm / length, load.force_n / force
    found = [_Bracket(load.moment_n_mm / (force * length), at, 0)] if load.moment_n_mm else []
    if weight and load.to_mm is not None and load.to_mm > load.at_mm:
        to = load.to_mm / length
        each = weight / (to - at) / 2
        return [*found, _Bracket(-each, at, 2), _Bracket(each, to, 2)]
    return [*found, _Bracket(-weight, at, 1)] if weight else found


def _held_by(support: Support, length: float) -> list[_Bracket]:
    at = support.at_mm / length
    return [_Bracket(1.0, at, 1), *([_Bracket(1.0, at, 0)] if support.held else [])]


def _at(bracket: _Bracket, x: float, give: float) -> tuple[float, float]:
    """Deflection and slope that a bracket gives at a place, times E I."""
    t, p = x - bracket.at, bracket.power
    if t < 0:
        return 0.0, 0.0
    sheared = give * t**p if p else 0.0
    down = t ** (p + 2) / ((p + 1) * (p + 2)) - sheared
    return bracket.factor * down, bracket.factor * t ** (p + 1) / (p + 1)


def _solved(
    supports: Sequence[Support],
    known: Sequence[_Bracket],
    unknown: Sequence[_Bracket],
    length: float,
    give: float,
) -> list[float]:
    """The unknown factors, then the deflection and slope at the left end."""
    rows: list[list[float]] = []
    for support in supports:
        x = support.at_mm / length
        rows.append([*(_at(b, x, give)[0] for b in unknown), 1.0, x, -sum(_at(b, x, give)[0] for b in known)])
        if support.held:
            slopes = [_at(b, x, give)[1] for b in unknown]
            rows.append([*slopes, 0.0, 1.0, -sum(_at(b, x, give)[1] for b in known)])
    rows.append([*(_force(b) for b in unknown), 0.0, 0.0, -sum(map(_force, known))])
    rows.append([*(_moment(b) for b in unknown), 0.0, 0.0, -sum(map(_moment, known))])
    return _elimination(rows)


def _force(bracket: _Bracket) -> float:
    """The shear force that a bracket leaves beyond the end."""
    p = bracket.power
    return bracket.factor * p * (1 - bracket.at) ** (p - 1) if p else 0.0


def _moment(bracket: _Bracket) -> float:
    return bracket.factor * (1 - bracket.at) ** bracket.power


def _elimination(rows: list[list[float]]) -> list[float]:
    """Solve linear equations, the right-hand side last in each row (Gauss, with the largest pivot)."""
    size = len(rows)
    for column in range(size):
        best = max(range(column, size), key=lambda row: abs(rows[row][column]))
        rows[column], rows[best] = rows[best], rows[column]
        pivot = rows[column]
        for other in range(size):
            if other != column and rows[other][column]:
                by = rows[other][column] / pivot[column]
                rows[other] = [a - by * b for a, b in zip(rows[other], pivot, strict=True)]
    return [rows[place][-1] / rows[place][place] for place in range(size)]


@dataclass(frozen=True, slots=True)
class _Stretch:
    """Deflection (upward), moment and shear between two places, as polynomials from the first."""

    start: float
    wide: float
    lines: tuple[Polynomial, Polynomial, Polynomial]


def _stretches(brackets: Sequence[_Bracket], ends: tuple[float, float], give: float) -> list[_Stretch]:
    edges = [0.0]
    for at in sorted({b.at for b in brackets} | {1.0}):
        if at > edges[-1] + 1e-12:
            edges.append(min(at, 1.0))
    found = []
    for start, end in pairwise(edges):
        moment, double = [0.0] * 3, [0.0] * 5
        double[0], double[1] = ends[0] + ends[1] * start, ends[1]
        for b in brackets:
            if b.at > start + 1e-12:
                continue
            t, p = max(start - b.at, 0.0), b.power
            for k in range(p + 1):
                moment[k] += b.factor * math.comb(p, k) * t ** (p - k)
                if p:
                    double[k] -= give * b.factor * math.comb(p, k) * t ** (p - k)
            for k in range(p + 3):
                double[k] += b.factor * math.comb(p + 2, k) * t ** (p + 2 - k) / ((p + 1) * (p + 2))
        found.append(_Stretch(start, end - start, (tuple(double), tuple(moment), _slope(moment))))
    return found


def _slope(polynomial: Sequence[float]) -> Polynomial:
    return tuple(power * factor for power, factor in enumerate(polynomial))[1:]


def _value(polynomial: Sequence[float], t: float) -> float:
    total = 0.0
    for factor in reversed(polynomial):
        total = total * t + factor
    return total


def _most(stretches: Sequence[_Stretch], line: int) -> tuple[float, float]:
    """The value farthest from nought with its place: at the ends of the stretches or where the line is level.

    Of values as great within the last bits, the first counts.
    """
    best = (0.0, 0.0)
    for stretch in stretches:
        polynomial = stretch.lines[line]
        for t in (0.0, *_level(_slope(polynomial), stretch.wide), stretch.wide):
            value = _value(polynomial, t)
            if abs(value) > abs(best[0]) * (1 + 1e-9):
                best = (value, stretch.start + t)
    return best


def _level(slope: Polynomial, wide: float) -> list[float]:
    """The places within a stretch where the slope changes its sign."""
    if len(slope) < 2:
        return []
    places = [wide * step / _SAMPLES for step in range(_SAMPLES + 1)]
    values = [_value(slope, t) for t in places]
    return [
        _crossing(lambda t: _value(slope, t), places[step], places[step + 1])
        for step in range(_SAMPLES)
        if values[step] * values[step + 1] < 0
    ] + [t for t, value in zip(places, values, strict=True) if value == 0.0]


def _crossing(line: Callable[[float], float], low: float, high: float) -> float:
    below = line(low) < 0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if (line(middle) < 0) == below:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def _sampled(stretches: Sequence[_Stretch], samples: int) -> list[tuple[float, float, float, float]]:
    found = []
    for stretch in stretches:
        for step in range(samples + 1):
            t = stretch.wide * step / samples
            deflection, moment, shear = (_value(line, t) for line in stretch.lines)
            found.append((stretch.start + t, deflection, moment, shear))
    return found
