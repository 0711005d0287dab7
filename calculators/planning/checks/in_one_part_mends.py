"""What would mend a hole or a pocket placed by hand: tried on the part, and offered only where it does."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

from calculators.joints.model import Mend
from calculators.planning.checks.in_one_part_cuts import HoleCut, PartCuts, hole_cut
from calculators.planning.checks.rule import setting
from calculators.planning.checks.site import PartSite
from calculators.planning.model import Hole
from calculators.quantities.length import Length

_STEPS = (1.0, 1.5, 2.0, 3.0)
_STEP_MM = 0.5
MOST_TRIED = 12
"""So many findings of one part are given mends; where more is wrong, single moves are no help."""


def moves(hole: Hole, short_mm: float, *, round_part: bool) -> Iterator[tuple[str, str, str, Hole]]:
    """Give the ways in which a hole can be moved on its face by about as much as is wanting.

    Args:
        hole: a hole placed by hand.
        short_mm: how much is wanting [mm].
        round_part: whether the part is round, on whose side a hole is not moved about the axis.

    Yields:
        The field, its new value as the build file writes it, a sentence, and the hole so moved; the
        shortest moves first.

    Source: this project.
    """
    for factor in _STEPS:
        by = math.ceil(short_mm * factor / _STEP_MM - 0.002) * _STEP_MM
        if by <= 0.0 or by > 200.0:
            continue
        for field in ("u",) if round_part and hole.face == "side" else ("u", "v"):
            now: Length | None = getattr(hole, field)
            for sign in (1, -1):
                to = Decimal(str(round((now.mm if now is not None else 0.0) + sign * by, 4)))
                value = f"{to.normalize():f} mm"
                says = f"Move hole {hole.id} by {by:g} mm: {field} {value}."
                yield field, value, says, _with(hole, field, to)


def shallower(hole: Hole, short_mm: float) -> Iterator[tuple[str, str, str, Hole]]:
    """Give the depth that leaves as much more as is wanting, where at least half of the depth is left.

    Args:
        hole: a blind hole placed by hand.
        short_mm: how much is wanting [mm].

    Yields:
        As `moves` does.

    Source: this project.
    """
    if hole.depth is None or hole.thread_depth is not None:
        return
    to = math.floor((hole.depth.mm - short_mm) / _STEP_MM + 1e-9) * _STEP_MM
    if to < hole.depth.mm / 2.0 or to <= 0.0:
        return
    value = f"{to:g} mm"
    yield "depth", value, f"Drill hole {hole.id} {value} deep.", _with(hole, "depth", Decimal(str(to)))


def _with(hole: Hole, field: str, mm: Decimal) -> Hole:
    length = Length.of_mm(mm)
    if field == "u":
        return replace(hole, u=length)
    return replace(hole, v=length) if field == "v" else replace(hole, depth=length)


def changed(site: PartSite, cuts: PartCuts, old: HoleCut, new: Hole) -> HoleCut | None:
    """Return the cut of a hole as it would be.

    Args:
        site: the part.
        cuts: its cuts.
        old: the hole as it is.
        new: the hole as it would be.

    Returns:
        The new cut; None where it would not be in the part.

    Source: this project.
    """
    worked = replace(old.hole, u_mm=new.u.mm, v_mm=new.v.mm if new.v is not None else 0.0, direct=new)
    made = hole_cut(cuts.solid, site.component, worked, wood=cuts.wood)
    return made if isinstance(made, HoleCut) and not made.off_face else None


def mend_of(old: HoleCut, field: str, value: str, says: str) -> Mend:
    """Return a change of one field of a hole as a mend.

    Args:
        old: the hole.
        field: its field.
        value: the new value, as the build file writes it.
        says: the sentence.

    Returns:
        The mend.

    Source: this project.
    """
    return setting(says, (f"{old.path}.{field}", value))
