"""The parts of a build placed again after a change: what is as it was is taken over, the rest is told."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace

from calculators.geometry.model import Body, Solid
from calculators.geometry.poses import placements
from calculators.geometry.vectors import Transform
from calculators.planning import model
from calculators.planning.placing import Cell, PlacedBuild, bare, bodies_of, cells_of, place_build, solid_of
from calculators.quantities.errors import InputError


@dataclass(frozen=True, slots=True)
class Difference:
    """What is not as it was: parts by mark, and the cells of space that they were or are in.

    `everywhere` says that what differs may be met anywhere.
    """

    marks: frozenset[str] = frozenset()
    cells: frozenset[Cell] = frozenset()
    everywhere: bool = False


NOTHING = Difference()


def place_again(build: model.Build, before: PlacedBuild) -> tuple[PlacedBuild, Difference]:
    """Pose every copy of a build that was posed before a change.

    Args:
        build: the build as it is now.
        before: what `place_build` or this function gave of it before.

    Returns:
        What `place_build` gives of the build as it is now, and what differs.

    Source: this project.
    """
    if len(build.components) == len(before.given) and all(map(_same, build.components, before.given)):
        return before, NOTHING
    placed = _with_changed(build, before) or place_build(build)
    return placed, _difference(before, placed)


def _same(one: model.Component, other: model.Component) -> bool:
    return one is other


def _with_changed(build: model.Build, before: PlacedBuild) -> PlacedBuild | None:
    """Lay only the parts that changed and what lies on them; None where more than sizes and poses differs."""
    old = {one.mark: one for one in before.given}
    if list(old) != [one.mark for one in build.components] or before.findings:
        return None
    components, changed = dict(before.components), []
    for one in build.components:
        if one is not old[one.mark]:
            now = bare(one)
            if now != components[one.mark]:
                changed.append(now)
            components[one.mark] = now
    if any(_counted(one) != _counted(before.components[one.mark]) for one in changed):
        return None
    if not changed:
        return replace(before, given=build.components, components=components)
    laid = _laid(changed, before)
    if laid is None:
        return None
    solids, bodies, transforms = laid
    cells, everywhere = _moved(before, bodies, transforms)
    return replace(
        before,
        solids={**before.solids, **solids},
        bodies={**before.bodies, **bodies},
        transforms={**before.transforms, **transforms},
        components=components,
        given=build.components,
        cells=cells,
        everywhere=everywhere,
    )


def _counted(one: model.Component) -> object:
    """What the names and counts of copies hang on."""
    return one.quantity, one.parent, sorted(pose.copy for pose in one.poses)


_Laid = tuple[dict[str, Solid], dict[str, Body], dict[str, Transform]]


def _laid(changed: list[model.Component], before: PlacedBuild) -> _Laid | None:
    """The solids, bodies and transforms that are new; None where something cannot be laid."""
    solids: dict[str, Solid] = {}
    bodies: dict[str, Body] = {}
    for one in changed:
        solid = solid_of(one)
        if (solid is None) != (one.mark not in before.solids):
            return None
        if solid is not None:
            solids[one.mark] = solid
            bodies |= bodies_of(one, solid, before.totals[one.mark], before.copies)
    if set(bodies) - set(before.bodies):
        return None
    lying: dict[str, list[str]] = defaultdict(list)
    for name, body in before.bodies.items():
        lying[body.pose.on].append(name)
    moved, waiting = dict.fromkeys(bodies), list(bodies)
    while waiting:
        for name in lying.get(waiting.pop(), ()):
            if name not in moved:
                moved[name] = None
                waiting.append(name)
    needed: dict[str, Body] = {}
    for name in moved:
        while name and name not in needed:
            if name not in before.bodies:
                return None
            needed[name] = bodies.get(name, before.bodies[name])
            name = needed[name].pose.on
    try:
        found = placements(needed.values())
    except InputError:
        return None
    return solids, bodies, {name: found[name] for name in moved}


def _moved(
    before: PlacedBuild, bodies: dict[str, Body], transforms: dict[str, Transform]
) -> tuple[dict[Cell, tuple[str, ...]], tuple[str, ...]]:
    """The cells with the copies that were laid anew where they are now."""
    cells, everywhere = dict(before.cells), list(before.everywhere)
    for name, transform in transforms.items():
        was = cells_of(before.bodies[name], before.transforms[name])
        now = cells_of(bodies.get(name, before.bodies[name]), transform)
        if was is None:
            everywhere.remove(name)
        for cell in was or ():
            cells[cell] = tuple(each for each in cells[cell] if each != name)
        if now is None:
            everywhere.append(name)
        for cell in now or ():
            cells[cell] = (*cells.get(cell, ()), name)
    return cells, tuple(everywhere)


def _difference(before: PlacedBuild, now: PlacedBuild) -> Difference:
    marks: set[str] = set()
    cells: set[Cell] = set()
    everywhere = False
    for mark in before.components.keys() | now.components.keys():
        old, new = before.components.get(mark), now.components.get(mark)
        counted = before.totals.get(mark) == now.totals.get(mark)
        if not counted or before.copies.get(mark) != now.copies.get(mark) or (old is not new and old != new):
            marks.add(mark)
    for name in before.bodies.keys() | now.bodies.keys():
        if before.bodies.get(name) == now.bodies.get(name) and (
            before.transforms.get(name) == now.transforms.get(name)
        ):
            continue
        for placed in (before, now):
            if name in placed.bodies:
                marks.add(placed.mark_of[name])
                met = cells_of(placed.bodies[name], placed.transforms[name])
                everywhere |= met is None
                cells.update(met or ())
    return Difference(frozenset(marks), frozenset(cells), everywhere)
