"""Parts as masses where they lie, and what was found of pairs of near things, kept from build to build."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Set
from dataclasses import dataclass
from functools import partial
from typing import Any, Generic, Protocol, TypeVar

from calculators.geometry.near_pairs import near_pairs, near_pairs_between
from calculators.geometry.pieces import Hollow, Mass, around, mass_of
from calculators.geometry.shapes import Box, Turned
from calculators.geometry.vectors import Transform
from calculators.hardware.threads import find_thread
from calculators.planning.checks.in_one_part_cuts import HoleCut, part_cuts
from calculators.planning.checks.site import PartSite, Site
from calculators.quantities.errors import InputError

MOST_NEAR = 80
"""So many neighbours of one thing are looked at: where more lie on one spot, the first are enough to tell."""

_PARTS = "parts where they lie"


class Boxed(Protocol):
    """Anything with a box about it."""

    @property
    def box(self) -> Box:
        """Its least and greatest corner [mm]."""
        ...


Thing = TypeVar("Thing", bound=Boxed)
Other = TypeVar("Other", bound=Boxed)
Found = TypeVar("Found")


@dataclass(frozen=True, slots=True, eq=False)
class PlacedPart:
    """One copy of a part where it lies, as a mass in the build's frame."""

    name: str
    site: PartSite
    transform: Transform
    mass: Mass

    @property
    def mark(self) -> str:
        """The part's mark."""
        return self.site.mark

    @property
    def box(self) -> Box:
        """The box about it [mm]."""
        return self.mass.box


@dataclass(frozen=True, slots=True)
class _Kept(Generic[Thing, Other, Found]):
    first: Mapping[Any, Thing]
    second: Mapping[Any, Other]
    found: dict[tuple[Any, Any], Found | None]


def placed_parts(site: Site) -> dict[str, PlacedPart]:
    """Give the posed copies of parts, each as a mass with its pockets, bore and holes taken out.

    Sub-assemblies, whose sizes are those of what they hold, and folded sheet, whose sizes are those of the
    flat, are left out.

    Args:
        site: the build.

    Returns:
        The copies by their names; one that is as it was is the very same object as before.

    Source: this project.
    """
    return site.share(_PARTS, lambda: _placed_parts(site))


def _placed_parts(site: Site) -> dict[str, PlacedPart]:
    before: Mapping[str, PlacedPart] = (site.previous.shared(_PARTS) if site.previous else None) or {}
    parents = {one.parent for one in site.build.components if one.parent}
    placed = site.placed
    made: dict[str, PlacedPart] = {}
    for name, transform in placed.transforms.items():
        part = site.parts.get(placed.mark_of[name])
        if part is None or part.solid is None or part.mark in parents or part.component.bends:
            continue
        had = before.get(name)
        if had is not None and had.site is part and (
            had.transform is transform or had.transform == transform
        ):  # fmt: skip
            made[name] = had
        else:
            mass = mass_of(part.solid, partial(_holes, part, name), transform)
            made[name] = PlacedPart(name, part, transform, mass)
    return made


def _holes(part: PartSite, copy: str) -> Iterator[Hollow]:
    """Give the holes of one copy as hollows; a tapped one as wide as its thread, which fills it."""
    cuts = part_cuts(part)
    for hole in cuts.holes if cuts else ():
        if hole.hole.copies and copy not in hole.hole.copies:
            continue
        bore, through = hole.cut.bore, hole.cut.last is not None
        major = thread_major_mm(hole)
        if major > 2.0 * hole.cut.radius:
            rings = tuple((at, major / 2.0 if ring else 0.0) for at, ring in bore.rings)
            bore = Turned(bore.start, bore.way, rings, bore.slide)
        yield Hollow(bore, through)
        if hole.cut.recess is not None:
            yield Hollow(hole.cut.recess, through=False)


def thread_major_mm(hole: HoleCut) -> float:
    """Return how wide the thread in a hole is.

    Args:
        hole: the hole.

    Returns:
        The thread's major diameter [mm]; 0 where it has none that is known.

    Source: the table that the thread names.
    """
    one = hole.hole.direct if hole.hole.direct is not None else hole.hole.hole
    if one is None or not one.thread:
        return 0.0
    try:
        return find_thread(one.thread).major_mm
    except InputError:
        return 0.0


def found_near(
    site: Site,
    name: str,
    things: Mapping[Any, Thing],
    within: float,
    look: Callable[[Thing, Thing], Found | None],
) -> Iterator[Found]:
    """Look at each pair of things that are nearer than `within`; at those that are as they were only once.

    Args:
        site: the build.
        name: under which what was found is kept; each rule has its own.
        things: by a name; one that is as it was is the very same object as before.
        within: how near their boxes are to be [mm].
        look: what finds something of a pair, on which alone it depends.

    Yields:
        What is found.

    Source: this project.
    """
    before: _Kept[Thing, Thing, Found] | None = site.previous.shared(name) if site.previous else None
    changed = _changed(things, before.first if before else {})
    found = _still(before, things, changed) if before else {}
    keys = list(things)
    boxes = [things[key].box for key in keys]
    if before is None or 3 * len(changed) > len(keys):
        pairs = dict.fromkeys((keys[i], keys[j]) for i, j in near_pairs(boxes, within, MOST_NEAR))
    else:
        pairs = {}
        if changed:
            order = {key: place for place, key in enumerate(keys)}
            for one, other in _pairs_between(things, things, changed, things.keys(), within):
                if one != other:
                    pairs[(one, other) if order[one] < order[other] else (other, one)] = None
    for pair in pairs:
        if pair not in found and (pair[1], pair[0]) not in found:
            found[pair] = look(things[pair[0]], things[pair[1]])
    site.share(name, lambda: _Kept(things, things, found))
    yield from (one for one in found.values() if one is not None)


def found_between(
    site: Site,
    name: str,
    first: Mapping[Any, Thing],
    second: Mapping[Any, Other],
    within: float,
    look: Callable[[Thing, Other], Found | None],
) -> Iterator[Found]:
    """Look at each pair of a thing of one kind and a thing of another, as `found_near` does.

    Args:
        site: the build.
        name: under which what was found is kept; each rule has its own.
        first: by a name; one that is as it was is the very same object as before.
        second: likewise.
        within: how near their boxes are to be [mm].
        look: what finds something of a pair, on which alone it depends.

    Yields:
        What is found.

    Source: this project.
    """
    before: _Kept[Thing, Other, Found] | None = site.previous.shared(name) if site.previous else None
    one = _changed(first, before.first if before else {})
    other = _changed(second, before.second if before else {})
    found: dict[tuple[Any, Any], Found | None] = {}
    if before:
        for pair, held in before.found.items():
            if (
                pair[0] in first
                and pair[0] not in one
                and pair[1] in second
                and pair[1] not in other
            ):  # fmt: skip
                found[pair] = held
    for ours, theirs in ((one, second.keys()), (first.keys() - one if one else first.keys(), other)):
        for pair in _pairs_between(first, second, ours, theirs, within):
            if pair not in found:
                found[pair] = look(first[pair[0]], second[pair[1]])
    site.share(name, lambda: _Kept(first, second, found))
    yield from (each for each in found.values() if each is not None)


def _pairs_between(
    first: Mapping[Any, Boxed], second: Mapping[Any, Boxed], ours: Set[Any], theirs: Set[Any], within: float
) -> Iterator[tuple[Any, Any]]:
    if not ours or not theirs:
        return
    keys, boxes = _in_reach(first, ours, None, within)
    few = len(keys) * 4 < len(second)
    others, other_boxes = _in_reach(second, theirs, around(boxes) if few else None, within)
    if len(others) * 4 < len(keys):
        keys, boxes = _in_reach(first, ours, around(other_boxes), within)
    for i, j in near_pairs_between(boxes, other_boxes, within):
        yield keys[i], others[j]


def _in_reach(
    things: Mapping[Any, Boxed], some: Set[Any], reach: Box | None, within: float
) -> tuple[list[Any], list[Box]]:
    """Give some of the things with their boxes: those that are near a box that holds all the others."""
    if reach is None:
        keys = [key for key in things if key in some] if len(some) < len(things) else list(things)
        return keys, [things[key].box for key in keys]
    (ax, ay, az), (bx, by, bz) = reach
    ax, ay, az, bx, by, bz = ax - within, ay - within, az - within, bx + within, by + within, bz + within
    keys, boxes = [], []
    for key, thing in things.items():
        (cx, cy, cz), (dx, dy, dz) = box = thing.box
        near = cx <= bx and dx >= ax and cy <= by and dy >= ay and cz <= bz and dz >= az
        if near and key in some:
            keys.append(key)
            boxes.append(box)
    return keys, boxes


def _changed(now: Mapping[Any, object], before: Mapping[Any, object]) -> set[Any]:
    return {key for key, thing in now.items() if before.get(key) is not thing}


def _still(
    before: _Kept[Thing, Thing, Found], now: Mapping[Any, Thing], changed: set[Any]
) -> dict[tuple[Any, Any], Found | None]:
    """What was found of pairs of which both are as they were."""
    same = now.keys() - changed
    return {pair: held for pair, held in before.found.items() if pair[0] in same and pair[1] in same}
