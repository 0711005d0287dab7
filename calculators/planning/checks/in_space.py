"""Rules for parts where they lie: what lies in what, and whether parts add up to the whole."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from calculators.geometry.clashes import clash_of
from calculators.geometry.frames import face_frame
from calculators.geometry.model import Face
from calculators.geometry.pieces import around
from calculators.geometry.shapes import Box, block_shape, box_of, moved, round_shape
from calculators.geometry.vectors import Transform, Vector
from calculators.joints.limits import Limit
from calculators.joints.model import Severity, Spot
from calculators.planning.checks import fasteners_in_parts, fasteners_meeting, holes_of_mates
from calculators.planning.checks.housed import housed_pairs
from calculators.planning.checks.near_things import PlacedPart, found_near, placed_parts
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting, unchecked
from calculators.planning.checks.shifting import millimetres
from calculators.planning.checks.site import PartSite, Site

LEAST = Limit("parts-overlap-least", 0.1, "mm", CP, "parts that lie deeper than this in one another clash")
OVERALL = Limit("overall-difference", 0.5, "mm", CP, "a sub-assembly's size and what its parts come to")
GEOMETRY = "geometry: two parts cannot fill one space"


@dataclass(frozen=True, slots=True)
class _InOne:
    first: PlacedPart
    second: PlacedPart
    depth: float
    point: Vector


@build_rule(
    "parts-in-one-place",
    "parts in space",
    "No two parts fill the same space; what lies in a pocket, bore or hole of another is in the air there.",
    GEOMETRY,
    LEAST,
)
def _parts_in_one_place(site: Site) -> Iterator[Seen]:
    """Tell pairs of parts once, at their worst copies.

    Pairs that the axis of a joint has told (`parts-overlap`) and parts that are too large for the pocket
    they are let into (`recess-fit`) are left to those rules.
    """
    least = site.limits["parts-overlap-least"]

    def look(first: PlacedPart, second: PlacedPart) -> _InOne | None:
        clash = clash_of(first.mass, second.mass, least)
        return _InOne(first, second, clash.depth, clash.point) if clash else None

    worst: dict[tuple[str, str], _InOne] = {}
    count: dict[tuple[str, str], int] = defaultdict(int)
    for one in found_near(site, "parts in one place", placed_parts(site), 0.0, look):
        pair = (one.first.mark, one.second.mark)
        count[pair] += 1
        if pair not in worst or (-one.depth, one.first.name) < (-worst[pair].depth, worst[pair].first.name):
            worst[pair] = one
    if not worst:
        return
    told = _told_on_axes(site) | {
        frozenset((one.holder.mark, one.part.mark)) for one in housed_pairs(site) if one.too_tight(least)
    }
    for pair, one in sorted(worst.items(), key=lambda item: item[0]):
        if frozenset(pair) not in told:
            yield _in_one_place(one, count[pair], least)


def _told_on_axes(site: Site) -> set[frozenset[str]]:
    """Pairs of parts of which the axis of a joint has told that they overlap."""
    return {
        frozenset(finding.says.partition(" lie ")[0].split(" and "))
        for joint in site.joints.values()
        for finding in joint.resolved.findings
        if finding.rule == "parts-overlap"
    }


def _in_one_place(one: _InOne, count: int, least: float) -> Seen:
    first, second = one.first, one.second
    x, y, z = one.point
    copies = (
        f" ({first.name} and {second.name})" if (first.name, second.name) != (first.mark, second.mark) else ""
    )
    more = (
        f" So do {count - 1} more pairs of them."
        if count > 2
        else " So does one more pair."
        if count == 2
        else ""
    )
    says = (
        f"{first.mark} and {second.mark}{copies} lie {one.depth:.3g} mm inside one another, about X {x:.4g}, "
        f"Y {y:.4g}, Z {z:.4g}: move one of them, or cut the mortise, "
        f"pocket or hole that it goes into.{more}"
    )
    spots = tuple(spot for part in (first, second) for spot in spots_on(part, one.point))
    copy = second.name.removeprefix(second.mark).removeprefix(".") or "1"
    at = f"components[{second.mark}].poses[{copy}]"
    return Seen(
        "error", says, part=second.mark, place=first.mark, value=one.depth, limit=least, unit="mm", at=at,
        spots=spots,
    )  # fmt: skip


def spots_on(part: PlacedPart, point: Vector) -> Iterator[Spot]:
    """Give where a point of the build is drawn on the nearest face of a part.

    Args:
        part: the part where it lies.
        point: the point in the build's frame [mm].

    Yields:
        One spot, on the face of a block that is nearest to the point; none on a round part.

    Source: this project.
    """
    solid = part.site.solid
    if solid is None or solid.shape != "block":
        return
    own = part.transform.own_point(point)
    sizes = (solid.length, solid.width, solid.thickness)
    faces: tuple[tuple[Face, Face], ...] = (("left", "right"), ("front", "back"), ("bottom", "top"))
    near = [
        (distance, face)
        for axis in range(3)
        for face, distance in zip(faces[axis], (own[axis], sizes[axis] - own[axis]), strict=True)
    ]
    _, face = min(near)
    frame = face_frame(solid, face)
    u, v, _ = frame.read(own)
    yield Spot(part.mark, face, round(u, 3), round(v, 3))


@build_rule(
    "sums-to-overall",
    "parts in space",
    "The parts of a sub-assembly, where they lie, come to the sizes that are given for it.",
    CP,
    OVERALL,
)
def _sums_to_overall(site: Site) -> Iterator[Seen]:
    limit = site.limits["overall-difference"]
    children: dict[str, list[PartSite]] = defaultdict(list)
    for part in site.parts.values():
        if part.component.parent:
            children[part.component.parent].append(part)
    unposed: list[str] = []
    for mark in children:
        whole = site.parts.get(mark)
        if whole is None or whole.solid is None or whole.total != 1:
            continue
        boxes = _boxes_of(site, whole, children, unposed)
        if boxes:
            yield from _compared(whole, around(boxes), limit, posed=mark in site.placed.transforms)
    if unposed:
        named = ", ".join(unposed[:5]) + (" and others" if len(unposed) > 5 else "")
        yield unchecked(
            f"Whether the parts come to the sizes of {named} was not checked: some of their parts have no "
            "size or no pose."
        )


def _boxes_of(
    site: Site, whole: PartSite, children: dict[str, list[PartSite]], unposed: list[str]
) -> list[Box]:
    """Give the boxes of all that a sub-assembly holds, in its own frame where it is posed."""
    placed = site.placed
    own = placed.transforms.get(whole.mark)
    boxes: list[Box] = []
    missing = False
    waiting = [*children[whole.mark]]
    while waiting:
        part = waiting.pop()
        if part.mark in children:
            waiting += children[part.mark]
            continue
        posed = [name for name in part.copies if name in placed.transforms]
        if part.solid is None or len(posed) != part.total:
            missing = True
            continue
        shape = block_shape(part.solid) if part.solid.shape == "block" else round_shape(part.solid)
        for name in posed:
            transform = placed.transforms[name]
            boxes.append(box_of(moved(shape, _within(transform, own) if own else transform)))
    if missing and boxes:
        unposed.append(whole.mark)
    return [] if missing else boxes


def _within(transform: Transform, own: Transform) -> Transform:
    """Carry a transform into the frame of another."""
    x, y, z = (own.own_direction(column) for column in transform.columns)
    return Transform((x, y, z), own.own_point(transform.shift))


def _compared(whole: PartSite, box: Box, limit: float, *, posed: bool) -> Iterator[Seen]:
    solid = whole.solid
    assert solid is not None
    names = ("length", "width", "thickness")
    sizes = (solid.length, solid.width, solid.thickness)
    if solid.shape == "round":
        names, sizes = ("length", "diameter", "diameter"), (solid.length, solid.diameter, solid.diameter)
    found = [high - low for low, high in zip(*box, strict=True)]
    pairs = list(zip(names, sizes, found, strict=True))
    if not posed:  # it may lie any way round: the longest is held against the longest
        order = sorted(zip(sizes, names, strict=True))
        pairs = [(name, size, has) for (size, name), has in zip(order, sorted(found), strict=True)]
    name, size, has = max(pairs, key=lambda each: abs(each[1] - each[2]))
    off = abs(size - has)
    if off <= limit / 2.0 + 1e-6:
        return
    says = (
        f"The parts of {whole.mark} come to {has:.6g} mm where its {name} is given as {size:.6g} mm: "
        f"{off:.3g} mm {'more' if has > size else 'less'}. Find which of them is wrong."
    )
    severity: Severity = "error" if off > limit + 1e-6 else "warning"
    at = f"components[{whole.mark}].size.{name}"
    mend = setting(f"Give {whole.mark} a {name} of {has:.6g} mm.", (at, millimetres(has)))
    yield Seen(severity, says, "", whole.mark, name, off, limit, "mm", (mend,), at)


RULES: tuple[BuildRule, ...] = (
    *fasteners_meeting.RULES,
    *fasteners_in_parts.RULES,
    _parts_in_one_place,
    *holes_of_mates.RULES,
    _sums_to_overall,
)
