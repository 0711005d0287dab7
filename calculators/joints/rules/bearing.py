"""What heads, nuts and washers bear on: washers that go on, holes that nothing falls through."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.joints.mending import number
from calculators.joints.model import Mend
from calculators.joints.rules.rule import Rule, Seen, rule
from calculators.joints.worked import Member, Worked

_SAME_MM = 0.005


@rule(
    "head-over-hole",
    "A washer goes over its screw, and a head, nut or washer is wider than the hole that it bears on.",
    "common practice",
)
def _head_over_hole(w: Worked) -> Iterator[Seen]:
    """What falls through the hole under it, and washers that do not go on."""
    for member in w.stack.members:
        inside = member.inside_mm if member.kind == "washer" else None
        if inside is not None and inside < w.screw.major_mm - _SAME_MM:
            says = (
                f"The washer's hole is {inside:.2f} mm: it does not go over a screw of "
                f"{w.screw.major_mm:.2f} mm."
            )
            yield Seen("error", says, member.part, inside, w.screw.major_mm, "mm")
    for what, chain in _chains(w):
        yield from _falls_through(w, what, chain)


def _chains(w: Worked) -> Iterator[tuple[tuple[str, float | None], list[Member]]]:
    """The head, and the nut behind the parts, each with what lies under it as far as the part."""
    first, last = w.layers[0], w.layers[-1]
    if not w.screw.headless and w.joint.stands_mm is None:
        wide = w.screw.head_diameter_mm if w.screw.countersunk else w.screw.spread_mm
        yield ("head", wide), [m for m in w.stack.members if m.item <= first.item and m.kind != "nut"]
    behind = [m for m in w.stack.members if m.item > last.item]
    nut = next((m for m in behind if m.kind == "nut"), None)
    if nut is not None:
        washers = [m for m in behind if m.item < nut.item and m.kind == "washer"]
        yield ("nut", nut.flats_mm), [*washers[::-1], last]


def _falls_through(w: Worked, what: tuple[str, float | None], chain: list[Member]) -> Iterator[Seen]:
    name, wide = what
    for member in chain:
        layer = member.kind == "layer"
        if layer and member.takes not in ("clearance", "plain", ""):
            return
        hole = w.hole(member).diameter_mm if layer else member.inside_mm
        if wide is not None and hole is not None and hole >= wide - _SAME_MM:
            over = f"in {member.part}" if layer else "of the washer under it"
            says = f"The {name} is {wide:.2f} mm wide and the hole {over} {hole:.2f} mm: it goes through."
            mends: tuple[Mend, ...] = ()
            if layer and member.layer is not None and member.layer.hole.diameter_mm is not None:
                path = f"{member.path}.hole.diameter_mm"
                fits = round(1.08 * w.screw.major_mm, 1)
                mends = (Mend(f"Drill {fits:g} mm, or lay a large washer under it.", path, number(fits)),)
            yield Seen("error", says, member.part, hole, wide, "mm", mends)
            return
        name, wide = "washer", member.outside_mm


RULES: tuple[Rule, ...] = (_head_over_hole,)
