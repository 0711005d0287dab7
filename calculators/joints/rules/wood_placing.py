"""Rules for where a fastener stands in wood: ends, edges and end grain."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.hardware.wood_screws import shank_mm
from calculators.joints.mending import fastener_mend, number
from calculators.joints.model import Mend
from calculators.joints.rules.rule import Rule, Seen, rule
from calculators.joints.worked import Member, Worked

_TINY = 1e-6
_USUAL_NUMBERS = (24, 20, 18, 16, 14, 12, 10, 9, 8, 7, 6, 5, 4, 3, 2)
"""The numbers of wood screws that are usually sold, thickest first (common practice)."""

_WOOD_HANDBOOK = "USDA Wood Handbook ch. 8 (from memory); common practice"


@rule(
    "end-distance",
    "A screw in wood stays 7 diameters from the end of the piece, 12 where it is pushed towards it.",
    "EN 1995-1-1 table 8.2, pre-drilled (from memory)",
)
def _end_distance(w: Worked) -> Iterator[Seen]:
    """How near the end of a piece of wood the screw is."""
    good = w.limits["end-distance-loaded" if w.joint.loaded_sideways else "end-distance"]
    for member in _screwed_wood(w):
        assert member.layer is not None
        if member.layer.end_mm is not None and member.layer.grain != "end":
            yield from _near(w, member, member.layer.end_mm, "end", w.limits["end-distance-least"], good)


@rule(
    "edge-distance",
    "A screw in wood stays 3 diameters from the edge of the piece.",
    "EN 1995-1-1 table 8.2, pre-drilled (from memory); common practice",
)
def _edge_distance(w: Worked) -> Iterator[Seen]:
    """How near the edge of a piece of wood the screw is."""
    for member in _screwed_wood(w):
        assert member.layer is not None
        if member.layer.edge_mm is not None:
            least, good = w.limits["edge-distance-least"], w.limits["edge-distance"]
            yield from _near(w, member, member.layer.edge_mm, "edge", least, good)


def _screwed_wood(w: Worked) -> list[Member]:
    return [m for m in w.layers if m.is_wood and m.layer is not None and m.takes != "insert"]


def _near(w: Worked, m: Member, distance: float, what: str, least: float, good: float) -> Iterator[Seen]:
    d = w.screw.major_mm
    share = distance / d
    if share >= good - _TINY:
        return
    severity, limit = ("error", least) if share < least - _TINY else ("warning", good)
    cost = (
        f", and under {least:g} d the wood splits"
        if severity == "error"
        else "; the wood may split: pilot, wax, no force"
    )
    says = (
        f"The screw is {distance:.1f} mm, {share:.1f} d, from the {what} of {m.part}; {good:g} "
        f"d is wanted{cost}."
    )
    # Nothing here says how wide the piece is: both edges must be as far as the rule wants.
    room = f"; for that {m.part} must be {2 * good * d:.1f} mm wide" if what == "edge" else ""
    mend = Mend(
        f"Move it to {good * d:.1f} mm or more from the {what}{room}.",
        f"{m.path}.{what}_mm",
        number(good * d + 5e-4),
    )
    mends = (mend, *_thinner(w, distance / good))
    yield Seen("error" if severity == "error" else "warning", says, m.part, share, limit, "d", mends)


def _thinner(w: Worked, most_mm: float) -> tuple[Mend, ...]:
    """The thickest numbered screw that may stand there: in a narrow edge the place cannot be moved."""
    screw = w.screw.wood
    if screw is None or screw.number is None:
        return ()
    for gauge in _USUAL_NUMBERS:
        if gauge < screw.number and shank_mm(gauge, screw.series) <= most_mm + _TINY:
            return fastener_mend(w, "Use a thinner screw: {}.", size=f"No. {gauge}")
    return ()


@rule(
    "end-grain",
    "A screw into end grain holds about three quarters as much as in side grain, and unreliably.",
    _WOOD_HANDBOOK,
)
def _end_grain(w: Worked) -> Iterator[Seen]:
    """Screws and inserts that hold in end grain."""
    for member in w.layers:
        if member.layer is not None and member.takes in ("pilot", "insert") and member.layer.grain == "end":
            says = (
                f"It holds in the end grain of {member.part}: about 75 % of its hold in side "
                "grain, and not to be "
                "relied on. A cross-dowel, or a plug with its grain across the screw, holds."
            )
            yield Seen("warning", says, member.part)


RULES: tuple[Rule, ...] = (_end_distance, _edge_distance, _end_grain)
