"""The rule for fasteners that meet one another.

Taken as meant, and so never told:

- two fasteners on one line of which one has no head or does not clamp: a lock screw on a screw, a stud;
- a grub, stop or clamping screw whose point stands against another fastener.

Fasteners that go through a part without a pose are left out: where they lie is not known.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from calculators.geometry.nearness import Nearness, apart
from calculators.geometry.vectors import Vector, along, cross, dot, scale, subtract
from calculators.joints.limits import Limit
from calculators.joints.model import Mend, Spot
from calculators.joints.roles import is_headless
from calculators.planning.checks.fasteners_in_space import FastenerPiece, PlacedFastener, fasteners_by_name
from calculators.planning.checks.in_one_part_cuts import part_cuts
from calculators.planning.checks.in_one_part_holes import wall_between
from calculators.planning.checks.near_things import found_near
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule
from calculators.planning.checks.shifting import at_least, shifted_place
from calculators.planning.checks.site import PartSite, Site

APART = Limit("fasteners-apart", 2.0, "D", CP, "wood between two fasteners that cross, of the thicker one")
REACH = Limit(
    "fastener-in-part-least", 0.1, "mm", CP, "a fastener that goes less into a part only touches it"
)

_MOST_D_MM = 50.0
_SAME_WAY = math.cos(math.radians(5.0))
_GRAZE_MM = 0.01
_BURIED = ("shank", "insert")


@dataclass(frozen=True, slots=True)
class _Meeting:
    """Two fasteners that meet or pass close by: the two pieces that are nearest, and in which part."""

    first: PlacedFastener
    second: PlacedFastener
    pieces: tuple[FastenerPiece, FastenerPiece]
    near: Nearness
    limit: float
    part: str
    """The copy of the wooden part in which both run; '' where none is."""

    @property
    def touching(self) -> bool:
        return self.near.distance <= _GRAZE_MM


@build_rule(
    "fasteners-meet",
    "parts in space",
    "No two fasteners meet, and in wood they pass one another with some wood between them.",
    "common practice: no two fixings within 2 D",
    APART,
)
def _fasteners_meet(site: Site) -> Iterator[Seen]:
    """Look at each two fasteners: an error where they touch.

    A warning where they run in one wooden part and are nearer than 2 D of the thicker. Where their holes
    meet inside a part, or leave too thin a wall in it, `holes-meet` tells, and this rule does not; fasteners
    that run the same way, from one face, are left to the spacing of screws in wood.
    """
    fasteners = fasteners_by_name(site)
    share = site.limits["fasteners-apart"]
    wooden = {
        mark for mark, part in site.parts.items() if part.material is not None and part.material.is_wood
    }
    mark_of = site.placed.mark_of

    def look(first: PlacedFastener, second: PlacedFastener) -> _Meeting | None:
        common = [copy for copy in first.copies if copy in second.copies and mark_of[copy] in wooden]
        return _meeting(first, second, share, common)

    most = max((one.diameter_mm for one in fasteners.values()), default=0.0)
    within = min(most, _MOST_D_MM) * share
    worst: dict[tuple[str, bool], _Meeting] = {}
    count: dict[tuple[str, bool], set[tuple[str, str, str]]] = {}
    for one in found_near(site, "fasteners meet", fasteners, within, look):
        if _told_by_holes(site, one):
            continue
        key = (one.second.joint, one.touching)
        count.setdefault(key, set()).add((one.first.joint, one.first.place, one.second.place))
        if key not in worst or _rank(one) < _rank(worst[key]):
            worst[key] = one
    for key, one in sorted(worst.items(), key=lambda item: item[0]):
        yield _met(site, one, len(count[key]) - 1)


def _told_by_holes(site: Site, one: _Meeting) -> bool:
    """Whether `holes-meet` tells of the two, where they run in one part, what this rule would.

    A pilot hole is narrower than its screw: two screws can meet though their holes do not.
    """
    if "holes-meet" in dict(site.context.rules_off):
        return False
    both = (one.first.joint, one.first.place), (one.second.joint, one.second.place)
    for copy in set(one.first.copies).intersection(one.second.copies):
        part = site.parts[site.placed.mark_of[copy]]
        told: dict[object, frozenset[str]] = part.kept.setdefault("told by holes", {})
        if both not in told:
            told[both] = frozenset(_walls_told(part, *both))
        if "error" in told[both] or (told[both] and not one.touching):
            return True
    return False


def _walls_told(part: PartSite, first: tuple[str, str], second: tuple[str, str]) -> Iterator[str]:
    """Give the severities of what `holes-meet` says of the holes of two places in a part."""
    cuts = part_cuts(part)
    if cuts is None:
        return
    wall = part.limits["wall-between-holes" if cuts.wood else "wall-between-holes-metal"]
    ours, theirs = (
        [hole for hole in cuts.holes if (hole.hole.joint, hole.hole.place) == each]
        for each in (first, second)
    )
    for a in ours:
        for b in theirs:
            trouble = wall_between(cuts, a, b, wall)
            if trouble is not None:
                yield trouble.severity


def _rank(one: _Meeting) -> tuple[float, str, str, str, str, str]:
    distance = round(one.near.distance, 6)
    return distance, one.first.joint, one.first.place, one.second.place, one.first.home, one.second.home


def _meeting(
    first: PlacedFastener, second: PlacedFastener, share: float, common: list[str]
) -> _Meeting | None:
    thicker = max(first.diameter_mm, second.diameter_mm)
    same_way = dot(first.way, second.way) > _SAME_WAY
    limit = share * thicker if common and not same_way else 0.0
    best: _Meeting | None = None
    for one in first.pieces:
        for other in second.pieces:
            near = apart(one.shape, other.shape, enough=limit + _GRAZE_MM)
            if near.distance > _GRAZE_MM and near.distance >= limit - 1e-6:
                continue
            if best is None or near.distance < best.near.distance:
                best = _Meeting(first, second, (one, other), near, limit, common[0] if common else "")
    return None if best is None or _meant(best) else best


def _meant(one: _Meeting) -> bool:
    first, second = one.first, one.second
    away = subtract(second.start, first.start)
    normal = cross(first.way, second.way)
    loose = [each for each in (first, second) if _presses(each)]
    if math.sqrt(dot(normal, normal)) < 0.01:
        off = subtract(away, scale(first.way, dot(away, first.way)))
        on_line = math.sqrt(dot(off, off)) < 0.25 * min(first.diameter_mm, second.diameter_mm)
        return on_line and bool(loose)
    return any(_at_tip(each, one.near.first_point) for each in loose)


def _presses(one: PlacedFastener) -> bool:
    """Whether it stands against something instead of clamping: a grub screw, stop screw or stud."""
    return not one.axis.worked.joint.clamps or is_headless(one.axis.worked.result.fastener)


def _at_tip(one: PlacedFastener, point: Vector) -> bool:
    tip = along(one.start, (one.way, one.axis.worked.result.tip_mm))
    away = subtract(point, tip)
    return math.sqrt(dot(away, away)) <= one.diameter_mm


def _met(site: Site, one: _Meeting, more: int) -> Seen:
    first, second = one.first, one.second
    copy = one.part or next((each for each in second.copies if each in first.copies), "")
    mark = site.placed.mark_of.get(copy, "")
    inside = f" in {mark}" if mark and all(piece.kind in _BURIED for piece in one.pieces) else ""
    who = f"{_piece(one, 0)} and {_piece(one, 1)}"
    who = who[0].upper() + who[1:]
    if one.touching:
        into = f" {-one.near.distance:.2g} mm into one another" if one.near.distance < -0.05 else ""
        says = f"{who} meet{into}{inside}: move one of them, or take it shorter."
    else:
        says = (
            f"{who} pass {one.near.distance:.2g} mm from one another{inside}; {one.limit:.3g} mm "
            f"({site.limits['fasteners-apart']:g} D) keeps the wood between them whole."
        )
    if more:
        says += f" So do {more} more pairs." if more > 1 else " So does one more pair."
    return Seen(
        "error" if one.touching else "warning", says, second.joint, mark, second.place,
        one.near.distance, one.limit, "mm", _moves(site, one, copy),
        f"joints[{second.joint}].places[{second.place}]", entry_spots(site, one.first, one.second),
    )  # fmt: skip


def _piece(one: _Meeting, side: int) -> str:
    fastener, piece = (one.first, one.second)[side], one.pieces[side]
    return fastener.names if piece.kind == "shank" else f"the {piece.kind} of {fastener.names}"


def entry_spots(site: Site, *fasteners: PlacedFastener) -> tuple[Spot, ...]:
    """Give where fasteners come into the first of their parts, on the faces that they are marked on.

    Args:
        site: the build.
        *fasteners: the fasteners.

    Returns:
        A spot for each that lies in a part.

    Source: this project.
    """
    return tuple(
        Spot(
            site.placed.mark_of[stretch.copy], stretch.entry.face, round(stretch.entry.u, 3),
            round(stretch.entry.v, 3), max(3.0, fastener.diameter_mm),
        )
        for fastener in fasteners
        for stretch in fastener.axis.stretches[:1]
    )  # fmt: skip


def _moves(site: Site, one: _Meeting, copy: str) -> tuple[Mend, ...]:
    """Offer to move one of the two so far square to both that it clears the other by the limit."""
    part = site.placed.mark_of.get(copy, "")
    if not part or len(site.parts[part].copies) > 1:
        return ()
    away = subtract(one.second.start, one.first.start)
    normal = cross(one.first.way, one.second.way)
    if math.sqrt(dot(normal, normal)) < 0.1:
        normal = subtract(away, scale(one.first.way, dot(away, one.first.way)))
    long = math.sqrt(dot(normal, normal))
    if long < 0.1:
        return ()
    normal = scale(normal, 1.0 / long)
    offset = dot(away, normal)
    radii = sum(max(ring for _, ring in piece.shape.rings) for piece in one.pieces)
    own = site.placed.transforms[copy]
    found = []
    for mover, sense in ((one.second, 1.0), (one.first, -1.0)):
        side = 1.0 if offset >= 0.0 else -1.0
        far = at_least(radii + max(one.limit, _GRAZE_MM * 10) - abs(offset))
        joint = site.joints[mover.joint].joint
        way = own.own_direction(scale(normal, side * sense * far))
        mend = shifted_place(site, joint, mover.place, part, way)
        if mend is not None:
            found.append(mend)
    return tuple(found)


RULES: tuple[BuildRule, ...] = (_fasteners_meet,)
