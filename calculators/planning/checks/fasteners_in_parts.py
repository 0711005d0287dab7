"""The rule for fasteners that run into parts: tip, head, washer or nut.

What lies in a pocket, a bore or a hole of a part, whoever drilled it, is in the air and never told.
Fasteners that go through a part without a pose are left out: where they lie is not known.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from calculators.geometry.chords import chords
from calculators.geometry.clashes import Clash, piece_in_part
from calculators.joints.lengths import stock_of
from calculators.joints.limits import Limit
from calculators.joints.mending import written
from calculators.joints.model import Mend
from calculators.joints.worked import Missing
from calculators.planning.checks.fasteners_in_space import (
    FastenerPiece,
    PlacedFastener,
    all_fasteners,
    fasteners_by_name,
)
from calculators.planning.checks.fasteners_meeting import entry_spots
from calculators.planning.checks.near_things import PlacedPart, found_between, placed_parts
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting, unchecked
from calculators.planning.checks.site import Site

REACH = Limit(
    "fastener-in-part-least", 0.1, "mm", CP, "a fastener that goes less into a part only touches it"
)
_NAMED_MOST = 6


@dataclass(frozen=True, slots=True)
class _Reaching:
    """A piece of a fastener in the material of a part that its stack does not go through."""

    fastener: PlacedFastener
    piece: FastenerPiece
    part: PlacedPart
    clash: Clash


@build_rule(
    "fastener-meets-part",
    "parts in space",
    "No fastener runs into a part that its stack does not go through: tip, head, washer or nut.",
    "geometry: two things cannot fill one space",
    REACH,
)
def _fastener_meets_part(site: Site) -> Iterator[Seen]:
    """Look at the material of parts alone: pockets, bores and holes are air.

    A part that the stack names and the axis misses has been told (`axis-misses-part`).
    """
    least = site.limits["fastener-in-part-least"]

    def look(fastener: PlacedFastener, part: PlacedPart) -> _Reaching | None:
        if part.name in fastener.copies or part.mark in _named_in_stack(fastener, site):
            return None
        worst: _Reaching | None = None
        for piece in fastener.pieces:
            clash = piece_in_part(piece.shape, part.mass, least)
            if clash is not None and (worst is None or clash.depth > worst.clash.depth):
                worst = _Reaching(fastener, piece, part, clash)
        return worst

    worst: dict[tuple[str, str], _Reaching] = {}
    places: dict[tuple[str, str], set[str]] = {}
    fasteners = fasteners_by_name(site)
    for one in found_between(site, "fastener meets part", fasteners, placed_parts(site), 0.0, look):
        key = (one.fastener.joint, one.part.mark)
        places.setdefault(key, set()).add(one.fastener.place)
        if key not in worst or _rank(one) < _rank(worst[key]):
            worst[key] = one
    for key, one in sorted(worst.items(), key=lambda item: item[0]):
        yield _reached(site, one, sorted(places[key] - {one.fastener.place}), least)
    yield from _left_out(site)


def _left_out(site: Site) -> Iterator[Seen]:
    """Say once which joints go through parts that have no pose, in a build of which some have."""
    unsure = tuple(dict.fromkeys(one.joint for one in all_fasteners(site) if not one.sure))
    if unsure:
        named = ", ".join(unsure[:_NAMED_MOST])
        more = f" and {len(unsure) - _NAMED_MOST} more" if len(unsure) > _NAMED_MOST else ""
        yield unchecked(
            f"Whether the fasteners of {named}{more} run into other parts or fasteners was not checked: "
            "parts of their stacks have no pose."
        )


def _named_in_stack(fastener: PlacedFastener, site: Site) -> set[str]:
    """Parts that the stack names though the axis does not meet them here."""
    met = {site.placed.mark_of.get(copy, "") for copy in fastener.copies}
    return {member.part for member in fastener.axis.worked.joint.stack if member.part} - met


def _rank(one: _Reaching) -> tuple[float, str, str]:
    return -round(one.clash.depth, 6), one.fastener.place, one.part.name


def _reached(site: Site, one: _Reaching, others: list[str], least: float) -> Seen:
    fastener, part = one.fastener, one.part
    what, depth, do = f"The {one.piece.kind}", one.clash.depth, "move one of them"
    mends: tuple[Mend, ...] = ()
    past = _past(one) if one.piece.kind == "shank" else None
    if past is not None:
        what, depth = "The point", past
        do = f"take it at least {past:.3g} mm shorter, or move it"
        mends = _shorter(one, past)
    says = (
        f"{what} of {fastener.names} runs {depth:.3g} mm into {part.mark}, which its stack does not go "
        f"through: {do}."
    )
    if others:
        says += f" So it does at {', '.join(others)}."
    return Seen(
        "error", says, fastener.joint, part.mark, fastener.place, depth, least, "mm", mends,
        f"joints[{fastener.joint}].places[{fastener.place}]", entry_spots(site, fastener),
    )  # fmt: skip


def _past(one: _Reaching) -> float | None:
    """How far the point goes into a part that lies ahead of it on the axis [mm]; None where none does."""
    solid, own = one.part.site.solid, one.part.transform
    assert solid is not None
    tip = one.fastener.axis.worked.result.tip_mm
    start, way = own.own_point(one.fastener.start), own.own_direction(one.fastener.way)
    enters = [chord.enter for chord in chords(solid, start, way) if chord.leave > 0.0]
    return tip - enters[0] if enters and 0.0 < enters[0] < tip else None


def _shorter(one: _Reaching, past: float) -> tuple[Mend, ...]:
    """Offer the longest stock length that ends before the part and still holds."""
    result = one.fastener.axis.worked.result
    now, stock = result.fastener, stock_of(result.fastener)
    if now.length is None or now.cut_to is not None or isinstance(stock, Missing):
        return ()
    most = now.length.mm - past + 1e-6
    holding = [
        length
        for length in stock
        if length.mm <= most and any(abs(length.mm - each) < 1e-6 for each in result.stock_lengths_mm)
    ]
    text = written(replace(now, length=holding[-1])) if holding else ""
    if not text:
        return ()
    return (setting(f"Take {text}.", (f"joints[{one.fastener.joint}].fastener", text)),)


RULES: tuple[BuildRule, ...] = (_fastener_meets_part,)
