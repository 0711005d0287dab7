"""What is wrong with one hole of a part, or with two: pure looks, without mends.

Taken as meant, and so never told:

- holes of one fastener (one place of one joint), and what belongs to one hole;
- holes on one line, from whichever sides: a stepped hole (a skin left between their ends is told);
- a hole by hand and a joint's hole that are nearly in line (`holes-of-mates` looks at those);
- a cross hole: a grub or clamping screw's hole (its joint does not clamp, or it is tapped and the other is
  a plain or reamed hole placed by hand, as for a shaft or a wire) that is aimed at the other's axis;
- a cross dowel: a plain hole placed by hand, at least one and a half times as wide as the hole of a machine
  screw that runs through its axis;
- a hole from the side of a tube that comes into the bore with its full width;
- a hole whose stated depth is just the thickness of the material: it goes right through;
- a hole that comes into a pocket through the pocket's wall with its full width (a way for a wire, a peg).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from calculators.geometry.cuts import Cut, bore_shape
from calculators.geometry.cuts_apart import (
    farthest_beyond,
    line_gap,
    same_line,
)
from calculators.geometry.frames import face_frame
from calculators.geometry.nearness import apart
from calculators.geometry.vectors import Vector, dot, subtract
from calculators.joints.model import Severity, Spot
from calculators.planning.checks.in_one_part_cuts import HoleCut, PartCuts, PocketCut
from calculators.planning.checks.in_one_part_pairs import one_place, together
from calculators.planning.checks.in_one_part_walls import walls_about

TINY_MM = 1e-3
AIMED = 0.5
"""A cross hole is aimed at another when their axes pass within this share of the other's radius."""

TO_THE_SURFACE_MM = 0.01
"""A hole whose stated depth is just the thickness is meant right through."""

_HOLDING = ("tapping", "pilot", "insert")
CROSS_DOWEL_MM = 0.5
CROSS_DOWEL_WIDER = 1.5

Walls = tuple[float, float]
"""The least wall [mm] between holes and to a side."""


@dataclass(frozen=True, slots=True)
class Trouble:
    """What is wrong: how much there is (negative: too far by that), the limit, in words, and where."""

    severity: Severity
    says: str
    value: float
    limit: float
    spots: tuple[Spot, ...] = ()
    short_of: Literal["room", "depth"] = "room"


def wall_between(cuts: PartCuts, a: HoleCut, b: HoleCut, least: float) -> Trouble | None:
    """Look at the wall between two holes of a part.

    Args:
        cuts: the part's cuts.
        a: a hole.
        b: another.
        least: the wall that should be left [mm].

    Returns:
        What is wrong, or None.

    Source: this project; what is taken as meant stands at the head of this file.
    """
    if not together(a, b) or one_place(a, b) or a.off_face or b.off_face:
        return None
    if same_line(a.cut, b.cut) and _run_into(a.cut, b.cut):
        return None
    near = apart(a.cut.bore, b.cut.bore, enough=least)
    if near.distance >= least - TINY_MM or (near.distance <= 0.0 and _meant_to_meet(a, b)):
        return None
    spots = (cuts.spot_at(a, near.first_point), cuts.spot_at(b, near.second_point))
    if near.distance <= 0.0:
        into = f", {-near.distance:.1f} mm into one another" if near.distance < -0.05 else ""
        says = (
            f"{capital(a.name)} (from the {a.hole.face}) and {b.name} (from the {b.hole.face}) meet inside "
            f"{cuts.part}{into}: move one of them, or drill less deep."
        )
        return Trouble("error", says, near.distance, least, spots)
    says = (
        f"Only {near.distance:.1f} mm of {cuts.part} is left between {a.name} (from the {a.hole.face}) and "
        f"{b.name} (from the {b.hole.face}): leave {least:g} mm."
    )
    return Trouble("warning", says, near.distance, least, spots)


def capital(name: str) -> str:
    """Begin a sentence with a name.

    Args:
        name: as it stands within a sentence.

    Returns:
        The same with a capital letter.

    Source: this project.
    """
    return name[0].upper() + name[1:]


def _run_into(a: Cut, b: Cut) -> bool:
    """Whether two holes on one line have a stretch of it in common."""
    start = dot(subtract(b.mark, a.mark), a.way)
    sense = 1.0 if dot(a.way, b.way) > 0.0 else -1.0
    low, high = sorted((start + sense * b.enter, start + sense * b.leave))
    return low <= a.leave + TINY_MM and a.enter <= high + TINY_MM


def _meant_to_meet(a: HoleCut, b: HoleCut) -> bool:
    gap = line_gap(a.cut, b.cut)
    if gap is None:
        return _meant_as_one(a, b)
    for screw, other in ((a, b), (b, a)):
        aimed = gap <= AIMED * other.cut.radius
        hand = other.hole.direct is not None
        if aimed and not screw.hole.clamps and _tapped(screw) and other.kind not in _HOLDING:
            return True
        if aimed and hand and other.kind in ("plain", "reamed") and _tapped(screw):
            return True
        wide = other.cut.radius >= CROSS_DOWEL_WIDER * screw.cut.radius
        machine = screw.hole.joint and screw.kind in ("clearance", "tapping", "plain", "slot")
        if hand and other.kind == "plain" and wide and machine and gap <= CROSS_DOWEL_MM:
            return True
    return False


def _meant_as_one(a: HoleCut, b: HoleCut) -> bool:
    """Whether a joint's screw is meant to go through a hole by hand: `holes-of-mates` looks at those."""
    small, large = sorted((a.cut.radius, b.cut.radius))
    by_hand = (a.hole.direct is None) != (b.hole.direct is None)
    return by_hand and large <= 2.0 * small and same_line(a.cut, b.cut, large)


def _tapped(hole: HoleCut) -> bool:
    if hole.hole.direct is not None:
        return hole.kind == "tapping"
    return hole.kind == "tapping" and hole.hole.hole is not None and bool(hole.hole.hole.thread)


def wall_to_side(cuts: PartCuts, hole: HoleCut, least: float) -> Trouble | None:
    """Look at what a hole leaves to the sides that it is not meant to reach.

    Walls that are merely thin are told here only where no rule of distances to edges tells them: those of
    joints look at every joint's hole in wood, that of metal at all holes in the faces of metal parts.

    Args:
        cuts: the part's cuts.
        hole: one of its holes.
        least: the wall that should be left [mm].

    Returns:
        What is wrong at the worst side, or None.

    Source: this project.
    """
    if hole.off_face:
        return None
    walls = sorted(walls_about(cuts, hole, hole.cut.bore, hole.box), key=lambda each: each[1])
    if not walls or walls[0][1] >= least - TINY_MM:
        return None
    worst, left = walls[0]
    if left > TINY_MM:
        if _told_elsewhere(cuts, hole, worst, left):
            return None
        name = capital(hole.name)
        says = f"{name} leaves only {left:.1f} mm of {cuts.part} to its {worst}: leave {least:g} mm."
        return Trouble("warning", says, left, least, (hole.spot,))
    also = [face for face, wall in walls[1:] if wall <= TINY_MM]
    faces = worst if not also else f"{worst} and the {' and the '.join(also)}"
    by = f" by {-left:.1f} mm" if left < -0.05 else ""
    says = (
        f"{capital(hole.name)} breaks out of the {faces} of {cuts.part}{by}: move it in, or make it smaller."
    )
    return Trouble("error", says, left, least, (hole.spot,))


def _told_elsewhere(cuts: PartCuts, hole: HoleCut, side: str, left: float) -> bool:
    """Whether a rule of distances to edges tells of a thin wall; none looks across a rod.

    Across an outline none looks from a side of the part. That of metal tells of a plain hole by hand only
    where its middle is nearer to the edge than its diameter.
    """
    if side in ("side", "bore") and hole.hole.face not in ("left", "right"):
        return False
    if side == "outline" and hole.hole.face not in ("top", "bottom"):
        return False
    if hole.hole.direct is None:
        return True
    return cuts.metal and (hole.kind not in ("plain", "reamed") or left < hole.cut.radius - TINY_MM)


def wall_behind(cuts: PartCuts, hole: HoleCut, least: float) -> Trouble | None:
    """Look at what a blind hole leaves behind its drill point, straight on.

    Of a joint's holes the joint's own rules tell what is left; here only a pilot that comes through is told.

    Args:
        cuts: the part's cuts.
        hole: one of its holes.
        least: what should be left [mm].

    Returns:
        What is wrong, or None.

    Source: this project; the drill point of 118 degrees is common practice.
    """
    cut = hole.cut
    by_hand = hole.hole.direct is not None
    if cut.last is not None or hole.off_face or (not by_hand and hole.kind != "pilot"):
        return None
    left, behind = cut.first.leave - cut.leave, "far face"
    surface = cut.first.surface_out
    shoulder = max(at for at, ring in cut.bore.rings if ring > 0.0)
    past = shoulder >= cut.first.leave - TINY_MM
    if abs(shoulder - cut.first.leave) <= TO_THE_SURFACE_MM:
        return None
    if surface.of == "bore":
        inner = bore_shape(cuts.solid)
        if inner is None or past:
            return None
        left, behind = apart(cut.bore, inner, enough=least).distance, "bore"
    elif surface.of == "pocket":
        pocket = next((each for each in cuts.pockets if each.index == surface.pocket), None)
        if pocket is None or (past and abs(dot(cut.way, _inward(cuts, pocket))) < 0.5):
            return None
        behind = f"{pocket.name} in the {pocket.pocket.face}"
        if left > 0.0:
            left = apart(cut.bore, pocket.shape, enough=least).distance
    elif cuts.solid.shape == "round" and cut.square and abs(cut.way[0]) < 1e-6:
        left = min(left, cuts.solid.diameter / 2.0 - farthest_beyond(cut.bore))
        behind = "far side"
    if left >= least - TINY_MM or (not by_hand and left > 0.0):
        return None
    point = f" with its {cut.leave - shoulder:.1f} mm of drill point" if cut.leave - shoulder > 0.05 else ""
    deep = f"{shoulder - cut.enter:.1f} mm deep{point}"
    if left <= 0.0:
        says = (
            f"{capital(hole.name)} is blind, but comes through the {behind} of {cuts.part} by "
            f"{-left:.1f} mm: it is {deep}. Drill less deep."
        )
        if behind.startswith("pocket"):
            says = says.replace(f" of {cuts.part} by ", f" of {cuts.part}, by ")
        return Trouble("error", says, left, least, (hole.spot,), "depth")
    says = f"{capital(hole.name)} leaves only {left:.1f} mm of {cuts.part} to the {behind}: it is {deep}."
    return Trouble("warning", says, left, least, (hole.spot,), "depth")


def _inward(cuts: PartCuts, pocket: PocketCut) -> Vector:
    return face_frame(cuts.solid, pocket.geometry.face, pocket.geometry.angle).inward
