"""The working of a beam that no table has: its reactions, and the brackets with their numbers put in."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.calculation import Step
from calculators.calculation.result import number_text as d
from calculators.declared.beam_reading import Asked
from calculators.mechanics.beams.line import Bent, Load

_SOURCE = "Macaulay, from memory"


def bracket_steps(asked: Asked, beam: Bent) -> Iterator[Step]:
    """Set out reactions, greatest moment and greatest deflection of a beam by Macaulay's brackets.

        M(x) = sum R <x - a> + sum M_a <x - a>^0 - sum P <x - a> - sum w (<x - a>^2 - <x - b>^2)/2
        E I y(x) = the same integrated twice + c x; d = -y

    Args:
        asked: the beam as read.
        beam: how it bends.

    Yields:
        The steps, in N and mm.

    Source: W. H. Macaulay 1919 as textbooks have it (from memory).
    """
    for place, each in enumerate(beam.reactions, start=1):
        at = f"{d(each.at_mm)} mm"
        yield Step(f"R{place}", f"support at {at}, which does not sink", "", each.force_n, "N", _SOURCE)
        if asked.supports[place - 1].held:
            held = f"held at {at}, where it does not turn"
            yield Step(f"M{place}", held, "", each.moment_n_mm / 1000, "N m", _SOURCE)
    x, most = beam.moment.at_mm, beam.moment.value
    # Where a moment acts the greatest may be that on its left side, without it.
    sides = [_terms(asked, beam, x, 0), [each for each in _terms(asked, beam, x, 0) if each[1] or each[2]]]
    terms = min(sides, key=lambda side: abs(_sum(side) - most))
    yield Step("M", f"sum of brackets at x = {d(x)} mm", _put_in(terms), most / 1000, "N m", _SOURCE)
    x, slope = beam.deflection.at_mm, _slope(asked, beam)
    stiffness = asked.stuff.modulus_mpa * asked.stiff.second_moment_mm4
    if not asked.supports[0].held:
        over = asked.supports[-1].at_mm
        numbers = f"-({_put_in(_terms(asked, beam, over, 2))}) / {d(over)}"
        yield Step("c", f"so that y = 0 at x = {d(over)} mm", numbers, slope, "N mm2", _SOURCE)
    numbers = _put_in(_terms(asked, beam, x, 2)) + (f" + {d(slope, 8)} x {d(x, 8)}" if slope else "")
    numbers = numbers.replace("+ -", "- ")
    formula = f"-(brackets twice integrated{'' if asked.supports[0].held else ' + c x'}) / (E I)"
    yield Step("d", f"{formula} at x = {d(x)} mm", f"-({numbers}) / {d(stiffness)}", beam.deflection.value,
               "mm", _SOURCE)  # fmt: skip


_Term = tuple[float, float, int]
"""A factor, the length in its bracket [mm], and the power."""


def _terms(asked: Asked, beam: Bent, x: float, times: int) -> list[_Term]:
    """The brackets that count at a place, integrated so many times (each a factor, a length, a power)."""
    found = [(each.force_n, each.at_mm, 1) for each in beam.reactions]
    found += [(each.moment_n_mm, each.at_mm, 0) for each in beam.reactions if each.moment_n_mm]
    for load in asked.all_loads:
        found += _of_load(load)
    terms = []
    for factor, at, power in found:
        if x < at or not factor:
            continue
        for more in range(power + 1, power + times + 1):
            factor /= more
        terms.append((factor, x - at, power + times))
    return terms


def _of_load(load: Load) -> list[_Term]:
    found = [(load.moment_n_mm, load.at_mm, 0)] if load.moment_n_mm else []
    if load.to_mm is not None and load.to_mm > load.at_mm:
        half = load.force_n / (load.to_mm - load.at_mm) / 2
        return [*found, (-half, load.at_mm, 2), (half, load.to_mm, 2)]
    return [*found, (-load.force_n, load.at_mm, 1)]


def _slope(asked: Asked, beam: Bent) -> float:
    """The slope at the left end times E I; none where it is held there."""
    if asked.supports[0].held:
        return 0.0
    over = asked.supports[-1].at_mm
    return -_sum(_terms(asked, beam, over, 2)) / over


def _sum(terms: list[_Term]) -> float:
    return sum(factor * length**power for factor, length, power in terms)


def _put_in(terms: list[_Term]) -> str:
    written = [
        d(factor, 8) if not power else f"{d(factor, 8)} x {d(length, 8)}" + (f"^{power}" if power > 1 else "")
        for factor, length, power in terms
        if length or not power
    ]
    return " + ".join(written).replace("+ -", "- ") or "0"
