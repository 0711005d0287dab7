"""Springs that work together: side by side, or end to end."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import inf

from calculators.quantities.errors import InputError


@dataclass(frozen=True, slots=True)
class Member:
    """One of several springs.

    It bears nothing over the first `gap_mm` of travel, then `initial_n` at once and `rate_n_per_mm` for each
    further mm, until after `most_mm` of its own it is solid (None: never).
    """

    name: str
    rate_n_per_mm: float
    initial_n: float = 0.0
    gap_mm: float = 0.0
    most_mm: float | None = None

    @property
    def own_most_mm(self) -> float:
        """Its own greatest travel, without end where none is stated."""
        return inf if self.most_mm is None else self.most_mm


@dataclass(frozen=True, slots=True)
class Share:
    """What one spring bears and how far it moves; `state` is bears, slack, held or solid."""

    name: str
    load_n: float
    travel_mm: float
    state: str


@dataclass(frozen=True, slots=True)
class Together:
    """All springs at one load: the travel of the whole, its rate there (None where nothing moves)."""

    load_n: float
    travel_mm: float
    rate_n_per_mm: float | None
    shares: tuple[Share, ...]


def side_by_side_load_n(members: Sequence[Member], travel_mm: float) -> float:
    """Load of springs side by side at a travel that all share.

        F = sum of F_i + k_i (x - gap_i) over those that bear

    Args:
        members: the springs, at least one.
        travel_mm: [mm] travel from where the first of them bears, 0 or more.

    Returns:
        The load [N]; at the very travel at which one begins to bear, without its initial tension.

    Source: equilibrium.

    Example:
        >>> side_by_side_load_n([Member("a", 2), Member("b", 1, gap_mm=5)], 10)
        25.0
    """
    return float(sum(_load_at(each, travel_mm) for each in members))


def _load_at(each: Member, travel_mm: float) -> float:
    own = travel_mm - each.gap_mm
    return each.initial_n + each.rate_n_per_mm * own if own > 0 else 0.0


def solid_travel_mm(members: Sequence[Member]) -> tuple[float, Member | None]:
    """Travel at which the first of springs side by side is solid.

    Args:
        members: the springs, at least one.

    Returns:
        The travel [mm] and that spring; without end and None where none goes solid.

    Source: geometry.

    Example:
        >>> solid_travel_mm([Member("a", 2, most_mm=12), Member("b", 1, gap_mm=5, most_mm=6)])[0]
        11
    """
    first = min(members, key=lambda each: each.gap_mm + each.own_most_mm)
    travel = first.gap_mm + first.own_most_mm
    return travel, None if travel == inf else first


def side_by_side(members: Sequence[Member], *, load_n: float | None, travel_mm: float | None) -> Together:
    """Work out springs side by side at a load or at a travel.

    Args:
        members: the springs, at least one.
        load_n: [N] load on all of them, 0 or more; None where the travel is given.
        travel_mm: [mm] travel from where the first of them bears, 0 or more; None where the load is given.

    Returns:
        What each bears.

    Raises:
        InputError: when one is solid before that.

    Source: equilibrium.

    Example:
        >>> found = side_by_side([Member("a", 2), Member("b", 1, gap_mm=5)], load_n=25, travel_mm=None)
        >>> found.travel_mm, found.rate_n_per_mm, [each.load_n for each in found.shares]
        (10.0, 3, [20.0, 5.0])
    """
    travel = _side_travel(members, load_n) if travel_mm is None else travel_mm
    most, first = solid_travel_mm(members)
    if first is not None and travel > most * (1 + 1e-12):
        limit = side_by_side_load_n(members, most)
        raise InputError.of(
            f"{first.name} is solid at a travel of {most:.6g} mm, where all bear {limit:.6g} N; "
            f"write a travel of up to {most:.6g} mm or a load of up to {limit:.6g} N.",
            field="load" if travel_mm is None else "travel",
            value=load_n if travel_mm is None else travel_mm,
            limit=limit if travel_mm is None else most,
        )
    loads = [_load_at(each, travel) for each in members]
    total = sum(loads) if load_n is None else load_n
    # Just where springs begin to bear, their initial tensions take what is left of the load.
    left = total - sum(loads)
    beginning = [each.gap_mm == travel and each.initial_n > 0 for each in members]
    waiting = sum(each.initial_n for each, new in zip(members, beginning, strict=True) if new)
    shares = []
    for each, load, new in zip(members, loads, beginning, strict=True):
        own = max(0.0, travel - each.gap_mm)
        held = left * each.initial_n / waiting if new and waiting else 0.0
        solid = own >= each.own_most_mm * (1 - 1e-12)
        state = "solid" if solid else "bears" if own > 0 else "held" if held else "slack"
        shares.append(Share(each.name, load + held, own, state))
    rate = sum(each.rate_n_per_mm for each in members if travel > each.gap_mm) or None
    return Together(total, travel, rate, tuple(shares))


def _side_travel(members: Sequence[Member], load_n: float | None) -> float:
    """The travel at a load: along the lines between the travels at which springs begin to bear."""
    assert load_n is not None
    if load_n == 0:
        return 0.0
    gaps = sorted({each.gap_mm for each in members})
    for gap, following in pairwise([*gaps, inf]):
        bearing = [each for each in members if each.gap_mm <= gap]
        rate = sum(each.rate_n_per_mm for each in bearing)
        start = sum(each.initial_n + each.rate_n_per_mm * (gap - each.gap_mm) for each in bearing)
        if load_n <= start:
            return gap
        travel = gap + (load_n - start) / rate
        if travel <= following:
            return travel
    raise AssertionError(load_n)


def end_to_end_travel_mm(members: Sequence[Member], load_n: float) -> float:
    """Travel of springs end to end under a load that all of them bear.

        x = sum of (F - F_i)/k_i over those beyond their initial tension, each up to its own greatest travel

    Args:
        members: the springs, at least one; their gaps do not matter.
        load_n: [N] the load, 0 or more.

    Returns:
        The travel [mm].

    Source: equilibrium.

    Example:
        >>> end_to_end_travel_mm([Member("a", 2), Member("b", 1, initial_n=4)], 10)
        11.0
    """
    return float(sum(_travel_at(each, load_n) for each in members))


def _travel_at(each: Member, load_n: float) -> float:
    return min(max(0.0, load_n - each.initial_n) / each.rate_n_per_mm, each.own_most_mm)


def end_to_end(members: Sequence[Member], *, load_n: float | None, travel_mm: float | None) -> Together:
    """Work out springs end to end at a load or at a travel.

    Args:
        members: the springs, at least one; their gaps do not matter.
        load_n: [N] load on all of them, 0 or more; None where the travel is given.
        travel_mm: [mm] travel of all together, 0 or more; None where the load is given.

    Returns:
        How far each moves.

    Raises:
        InputError: when all are solid before that travel.

    Source: equilibrium.

    Example:
        >>> found = end_to_end([Member("a", 2), Member("b", 1)], load_n=10, travel_mm=None)
        >>> found.travel_mm, round(found.rate_n_per_mm, 4)
        (15.0, 0.6667)
    """
    load = _end_load(members, travel_mm) if load_n is None else load_n
    shares = []
    for each in members:
        travel = _travel_at(each, load)
        solid = each.most_mm is not None and travel >= each.most_mm
        state = "solid" if solid else "bears" if travel > 0 else "held"
        shares.append(Share(each.name, load, travel, state))
    moving = [each for each, share in zip(members, shares, strict=True) if share.state == "bears"]
    rate = 1 / sum(1 / each.rate_n_per_mm for each in moving) if moving else None
    return Together(load, sum(share.travel_mm for share in shares), rate, tuple(shares))


def _end_load(members: Sequence[Member], travel_mm: float | None) -> float:
    """The load at a travel: along the lines between the loads at which springs begin or stop to move."""
    assert travel_mm is not None
    whole = sum(each.own_most_mm for each in members)
    if travel_mm > whole * (1 + 1e-12):
        raise InputError.of(
            f"All springs are solid after {whole:.6g} mm; write a travel of up to {whole:.6g} mm.",
            field="travel",
            value=travel_mm,
            limit=whole,
            unit="mm",
        )
    begin = [each.initial_n for each in members]
    stop = [each.initial_n + each.rate_n_per_mm * each.own_most_mm for each in members]
    marks = sorted({0.0, *begin, *(each for each in stop if each < inf)})
    for low, high in pairwise([*marks, inf]):
        if high < inf and end_to_end_travel_mm(members, high) < travel_mm:
            continue
        moving = [each for each, last in zip(members, stop, strict=True) if each.initial_n <= low < last]
        give = sum(1 / each.rate_n_per_mm for each in moving)
        short = travel_mm - end_to_end_travel_mm(members, low)
        return low + short / give if give and short > 0 else low
    return marks[-1]


def first_solid(members: Sequence[Member], *, end_on: bool) -> tuple[Member, float] | None:
    """Which spring is solid first, and at which load on all.

    Args:
        members: the springs, at least one.
        end_on: whether they stand end to end.

    Returns:
        The spring and the load [N]; None where none goes solid.

    Source: equilibrium.

    Example:
        >>> first_solid([Member("a", 2, most_mm=5), Member("b", 1, most_mm=6)], end_on=True)[1]
        6.0
    """
    if not end_on:
        travel, first = solid_travel_mm(members)
        return None if first is None else (first, side_by_side_load_n(members, travel))
    first = min(members, key=lambda each: each.initial_n + each.rate_n_per_mm * each.own_most_mm)
    if first.most_mm is None:
        return None
    return first, float(first.initial_n + first.rate_n_per_mm * first.most_mm)
