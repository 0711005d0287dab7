"""Rules for one part: its holes, countersinks and pockets against each other and against its faces."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import chain

from calculators.geometry.features import edge_distances, on_face
from calculators.geometry.frames import face_frame
from calculators.geometry.near_pairs import boxes_near, near_pairs, near_pairs_between
from calculators.geometry.outline_lines import off_rectangle
from calculators.geometry.shapes import Box, box_of
from calculators.joints.limits import Limit
from calculators.joints.model import Mend, Spot
from calculators.planning.checks.in_one_part_cuts import HoleCut, PartCuts, PocketCut, part_cuts
from calculators.planning.checks.in_one_part_holes import (
    Trouble,
    wall_behind,
    wall_between,
    wall_to_side,
)
from calculators.planning.checks.in_one_part_mends import (
    MOST_TRIED,
    changed,
    mend_of,
    moves,
    shallower,
)
from calculators.planning.checks.in_one_part_pockets import (
    floor_trouble,
    pockets_meet,
    recess_overlaps,
    span_in_plan,
    wall_to_pocket,
)
from calculators.planning.checks.rule import CP, BuildRule, Seen, part_rule, setting
from calculators.planning.checks.site import PartSite
from calculators.planning.worked import WorkedHole
from calculators.quantities.errors import InputError

_SUBJECT = "holes and pockets"
_GEOMETRY = "geometry of the part; limits: common practice"
_MOST_PARTNERS = 16
"""So many neighbours of its own size or larger are told of one hole: more is a heap on one spot."""

_MOST_TOLD = 6
"""Two holes that both meet so many others are not told of again, until some of those are mended."""

BETWEEN = Limit(
    "wall-between-holes", 3.0, "mm", CP, "wood to be left between two holes, or a hole and a pocket"
)
BETWEEN_METAL = Limit("wall-between-holes-metal", 1.0, "mm", CP, "the same in metal and other stuff")
TO_SIDE = Limit("wall-to-side", 3.0, "mm", CP, "wood to be left beside a hole, to a side of the part")
TO_SIDE_METAL = Limit("wall-to-side-metal", 1.0, "mm", CP, "the same in metal and other stuff")
FLOOR_LEAST = Limit("floor-least", 2.0, "mm", CP, "floor under a pocket, at the very least")
FLOOR = Limit("floor", 5.0, "mm", CP, "floor under a pocket; a quarter of the thickness where that is less")


def _between(site: PartSite, cuts: PartCuts) -> float:
    return site.limits[(BETWEEN if cuts.wood else BETWEEN_METAL).name]


def _to_side(site: PartSite, cuts: PartCuts) -> float:
    return site.limits[(TO_SIDE if cuts.wood else TO_SIDE_METAL).name]


@part_rule(
    "holes-meet", _SUBJECT,
    "Holes of one part do not meet inside it, from whichever faces they are drilled, and leave a wall.",
    _GEOMETRY, BETWEEN, BETWEEN_METAL,
)  # fmt: skip
def _holes_meet(site: PartSite) -> Iterator[Seen]:
    cuts = part_cuts(site)
    if cuts is None or len(cuts.holes) < 2:
        return
    least = _between(site, cuts)
    boxes = [hole.box for hole in cuts.holes]
    told = [0] * len(boxes)
    for i, j in sorted(near_pairs(boxes, least, _MOST_PARTNERS)):
        if told[i] >= _MOST_TOLD and told[j] >= _MOST_TOLD:
            continue
        found = wall_between(cuts, cuts.holes[i], cuts.holes[j], least)
        if found is not None:
            told[i] += 1
            told[j] += 1
            yield _seen(site, cuts, cuts.holes[i], found, cuts.holes[j])


@part_rule(
    "hole-breaks-out", _SUBJECT,
    "A hole does not break out of a side that it runs along, and leaves a wall to it.",
    _GEOMETRY, TO_SIDE, TO_SIDE_METAL,
)  # fmt: skip
def _breaks_out(site: PartSite) -> Iterator[Seen]:
    cuts = part_cuts(site)
    if cuts is None:
        return
    least = _to_side(site, cuts)
    for hole in cuts.holes:
        found = wall_to_side(cuts, hole, least)
        if found is not None:
            yield _seen(site, cuts, hole, found)


@part_rule(
    "hole-comes-through", _SUBJECT,
    "A blind hole, drill point included, does not come through the far face, a pocket's floor or a bore, and "
    "leaves a wall behind its point.",
    "geometry of the part; 118 degree drill point and the wall behind it (limit blind-wall): common practice",
)  # fmt: skip
def _comes_through(site: PartSite) -> Iterator[Seen]:
    cuts = part_cuts(site)
    if cuts is None:
        return
    for hole in cuts.holes:
        found = wall_behind(cuts, hole, site.limits["blind-wall"])
        if found is not None:
            yield _seen(site, cuts, hole, found)


@part_rule(
    "countersink-overlaps", _SUBJECT,
    "A countersink or counterbore does not overlap an edge, a pocket or another hole's.", _GEOMETRY,
)  # fmt: skip
def _countersink_overlaps(site: PartSite) -> Iterator[Seen]:
    cuts = part_cuts(site)
    if cuts is None:
        return
    sunk = [hole for hole in cuts.holes if hole.cut.recess is not None]
    if not sunk:
        return
    recesses: list[Box] = [box_of(hole.cut.recess) for hole in sunk if hole.cut.recess is not None]
    everything = [_whole(hole) for hole in cuts.holes]
    beside: dict[int, list[HoleCut]] = {}
    for i, j in sorted(near_pairs_between(recesses, everything, 0.0)):
        partners = beside.setdefault(i, [])
        if len(partners) < _MOST_PARTNERS:
            partners.append(cuts.holes[j])
    pockets: dict[int, list[PocketCut]] = {}
    for i, j in sorted(near_pairs_between(recesses, [pocket.box for pocket in cuts.pockets], 0.0)):
        pockets.setdefault(i, []).append(cuts.pockets[j])
    for i, hole in enumerate(sunk):
        for found in recess_overlaps(cuts, hole, beside.get(i, ()), pockets.get(i, ())):
            yield _seen(site, cuts, hole, found)


def _whole(hole: HoleCut) -> Box:
    """The box about a hole with its recess."""
    if hole.cut.recess is None:
        return hole.box
    (a, b), (c, d) = hole.box, box_of(hole.cut.recess)
    return (
        (min(a[0], c[0]), min(a[1], c[1]), min(a[2], c[2])),
        (max(b[0], d[0]), max(b[1], d[1]), max(b[2], d[2])),
    )


@part_rule(
    "pocket-opens-hole", _SUBJECT,
    "A pocket does not open a hole beside it, and leaves a wall to it.", _GEOMETRY, BETWEEN, BETWEEN_METAL,
)  # fmt: skip
def _pocket_opens_hole(site: PartSite) -> Iterator[Seen]:
    cuts = part_cuts(site)
    if cuts is None or not cuts.pockets:
        return
    least = _between(site, cuts)
    boxes = [hole.box for hole in cuts.holes]
    for i, j in sorted(near_pairs_between(boxes, [pocket.box for pocket in cuts.pockets], least)):
        found = wall_to_pocket(cuts, cuts.holes[i], cuts.pockets[j], least)
        if found is not None:
            yield _seen(site, cuts, cuts.holes[i], found)


@part_rule(
    "pockets-meet", _SUBJECT,
    "Pockets from different faces do not meet, and leave a floor under each.",
    "common practice: a floor of 5 mm or a quarter of the thickness, never under 2 mm", FLOOR_LEAST, FLOOR,
)  # fmt: skip
def _pockets_meet(site: PartSite) -> Iterator[Seen]:
    cuts = part_cuts(site)
    if cuts is None or not cuts.pockets:
        return
    least = site.limits[FLOOR_LEAST.name] if cuts.wood else min(1.0, site.limits[FLOOR_LEAST.name])
    better = site.limits[FLOOR.name] if cuts.wood else least
    for pocket in cuts.pockets:
        found = floor_trouble(cuts, pocket, least, better)
        if found is not None:
            yield _of_pocket(cuts, pocket, found)
    boxes = [pocket.box for pocket in cuts.pockets]
    for i, j in sorted(near_pairs(boxes, least, _MOST_PARTNERS)):
        met = pockets_meet(cuts, cuts.pockets[i], cuts.pockets[j], least)
        if met is not None:
            yield _of_pocket(cuts, cuts.pockets[i], met)


def _of_pocket(cuts: PartCuts, pocket: PocketCut, found: Trouble) -> Seen:
    mends: tuple[Mend, ...] = ()
    depth = pocket.geometry.depth
    if found.short_of == "depth" and depth is not None:
        to = int((depth - (found.limit - found.value)) * 2.0 + 1e-9) / 2.0
        if to >= depth / 2.0:
            says = f"Make {pocket.name} {to:g} mm deep; what lies in it must be as thin."
            mends = (setting(says, (f"{pocket.path}.depth", f"{to:g} mm")),)
    field = "depth" if found.short_of == "depth" else "u"
    return Seen(
        found.severity, found.says, "", cuts.part, pocket.pocket.id, found.value, found.limit, "mm", mends,
        f"{pocket.path}.{field}", found.spots,
    )  # fmt: skip


@part_rule(
    "feature-off-part", _SUBJECT,
    "A hole or pocket placed by hand lies on its face, and there is material under it.",
    "geometry of the part",
)  # fmt: skip
def _off_part(site: PartSite) -> Iterator[Seen]:
    cuts = part_cuts(site)
    if cuts is None:
        return
    for one in chain(cuts.missed, (hole.hole for hole in cuts.holes if hole.off_face)):
        yield _off(cuts, one)
    for pocket in cuts.pockets:
        frame, p = face_frame(cuts.solid, pocket.geometry.face, pocket.geometry.angle), pocket.geometry
        off_u = max(frame.u_range[0] - p.u - p.length, p.u - frame.u_range[1])
        off_v = max(frame.v_range[0] - p.v - p.width, p.v - frame.v_range[1])
        off = max(off_u, off_v)
        if off < 0.0 and cuts.solid.outline and p.face in ("top", "bottom"):
            # Nothing in common with the outline; a pocket that only touches it is left alone.
            off = off_rectangle(cuts.solid.outline, *span_in_plan(cuts.solid, p)) or off
        if off >= 0.0:
            says = (
                f"{pocket.name[0].upper()}{pocket.name[1:]} lies {off:.1f} mm off the {p.face} of "
                f"{cuts.part}: nothing is cut."
            )
            yield Seen(
                "error", says, "", cuts.part, pocket.pocket.id, off, 0.0, "mm",
                at=f"{pocket.path}.{'u' if off_u >= off_v else 'v'}",
            )  # fmt: skip


def _off(cuts: PartCuts, one: WorkedHole) -> Seen:
    assert one.direct is not None
    path = f"components[{cuts.part}].holes[{one.direct.id}]"
    name = f"Hole {one.direct.id}"
    v = one.angle_deg if one.angle_deg is not None else one.v_mm or 0.0
    try:
        there = on_face(cuts.solid, one.face, one.u_mm or 0.0, v)
        least = edge_distances(cuts.solid, one.face, one.u_mm or 0.0, v).least_mm
    except InputError:
        says = f"{name} is on the {one.face} of {cuts.part}, and {cuts.part} has no such face."
        return Seen("error", says, "", cuts.part, one.direct.id, at=f"{path}.face")
    if there:
        says = f"There is no material under {name[0].lower()}{name[1:]} in the {one.face} of {cuts.part}."
        return Seen("error", says, "", cuts.part, one.direct.id, at=f"{path}.u", spots=_spots(cuts, one, v))
    says = f"{name} lies {-least:.1f} mm off the {one.face} of {cuts.part}."
    return Seen("error", says, "", cuts.part, one.direct.id, -least, 0.0, "mm", at=f"{path}.u")


def _spots(cuts: PartCuts, one: WorkedHole, v: float) -> tuple[Spot, ...]:
    return (Spot(cuts.part, one.face, one.u_mm or 0.0, v),)


def _seen(
    site: PartSite, cuts: PartCuts, hole: HoleCut, found: Trouble, other: HoleCut | None = None
) -> Seen:
    """Make a finding of what is wrong; it is about the hole placed by hand, where one of two is."""
    about = hole
    if other is not None and hole.hole.direct is None and other.hole.direct is not None:
        about = other
    at = about.path
    deep = found.short_of == "depth"
    if about.hole.direct is not None:
        at += ".depth" if deep else ".u"
    elif about.hole.place and not deep:  # how deep a joint's hole is follows from its stack
        at += ".u"
    place = about.place
    return Seen(
        found.severity, found.says, about.hole.joint, cuts.part, place, found.value, found.limit, "mm",
        _mends(site, cuts, about, found), at, found.spots,
    )  # fmt: skip


def _mends(site: PartSite, cuts: PartCuts, about: HoleCut, found: Trouble) -> tuple[Mend, ...]:
    """The first change of the hole that leaves nothing wrong with it; none where there is none."""
    tried = site.kept.get("tried", 0)
    direct = about.hole.direct
    if direct is None or tried >= MOST_TRIED:
        return ()
    site.kept["tried"] = tried + 1
    short = max(found.limit - found.value, 0.1)
    ways = shallower(direct, short) if found.short_of == "depth" else iter(())
    for field, value, says, new in chain(ways, moves(direct, short, round_part=cuts.solid.shape == "round")):
        made = changed(site, cuts, about, new)
        if made is not None and not any(True for _ in _troubles(site, cuts, about, made)):
            return (mend_of(about, field, value, says),)
    return ()


def _troubles(site: PartSite, cuts: PartCuts, old: HoleCut, new: HoleCut) -> Iterator[Trouble]:
    """All that would be wrong with a hole as changed."""
    between = _between(site, cuts)
    yield from _some(wall_to_side(cuts, new, _to_side(site, cuts)))
    yield from _some(wall_behind(cuts, new, site.limits["blind-wall"]))
    whole = _whole(new)
    pockets = [pocket for pocket in cuts.pockets if boxes_near(whole, pocket.box, between)]
    for pocket in pockets:
        yield from _some(wall_to_pocket(cuts, new, pocket, between))
    near = [one for one in cuts.holes if one is not old and boxes_near(whole, _whole(one), between)]
    for other in near:
        yield from _some(wall_between(cuts, new, other, between))
    yield from recess_overlaps(cuts, new, near, pockets)
    for other in near:
        yield from recess_overlaps(cuts, other, (new,), ())


def _some(found: Trouble | None) -> Iterable[Trouble]:
    return () if found is None else (found,)


RULES: tuple[BuildRule, ...] = (
    _holes_meet, _breaks_out, _comes_through, _countersink_overlaps, _pocket_opens_hole, _pockets_meet,
    _off_part,
)  # fmt: skip
