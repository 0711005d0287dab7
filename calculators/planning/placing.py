"""The parts of a build as posed solids, found quickly along an axis."""

from __future__ import annotations

import itertools
import math
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from calculators.geometry.layers import layers_along
from calculators.geometry.model import Body, Layer, Pocket, Pose, Solid
from calculators.geometry.outlines import rectangle
from calculators.geometry.poses import lies_on_nothing, placements
from calculators.geometry.vectors import Transform, Vector, along
from calculators.joints.model import Finding
from calculators.planning import model
from calculators.planning.outlining import outline_or_none
from calculators.planning.tree import copy_name, total_quantity
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length

Cell = tuple[int, int, int]
_CELL_MM = 150.0
"""Side of the cells in which bodies are looked up: about the length of a small part."""

_MANY_CELLS = 2_000


@dataclass(frozen=True, slots=True)
class Cells:
    """A box of cells, counted without being listed."""

    x: range
    y: range
    z: range

    def __len__(self) -> int:
        return len(self.x) * len(self.y) * len(self.z)

    def __iter__(self) -> Iterator[Cell]:
        return itertools.product(self.x, self.y, self.z)


@dataclass(frozen=True, slots=True, eq=False)
class PlacedBuild:
    """The copies that have a solid and a pose, where they lie, and what could not be placed.

    `bodies` and `transforms` are keyed by the copy's name; `copies` names the posed copies of a component
    (the first where none is); `solids` by the component's mark, also for components that have no pose.
    `components` have no name, state, revision or note here: what follows from the parts does not change
    with them. `given` are the components as they were given.
    """

    solids: dict[str, Solid]
    bodies: dict[str, Body]
    transforms: dict[str, Transform]
    copies: dict[str, tuple[str, ...]]
    totals: dict[str, int]
    mark_of: dict[str, str]
    components: dict[str, model.Component]
    findings: tuple[Finding, ...]
    given: tuple[model.Component, ...] = ()
    cells: dict[Cell, tuple[str, ...]] = field(default_factory=dict)
    """The copies in each cell of space, by name."""

    everywhere: tuple[str, ...] = ()
    """Copies so large that they are looked at wherever one looks."""

    def layers(self, start: Vector, way: Vector, reach_mm: float) -> tuple[Layer, ...]:
        """Return the layers that begin within `reach_mm` of the start along the axis, in order."""
        bodies = [self.bodies[name] for name in self.near_axis(start, way, reach_mm)]
        return layers_along(start, way, bodies, self.transforms, length_limit=reach_mm)

    def near_axis(self, start: Vector, way: Vector, reach_mm: float) -> list[str]:
        """Return the copies that lie near a stretch of an axis, by name, whether it meets them or not."""
        names = set(self.everywhere)
        for cell in cells_between(start, along(start, (way, reach_mm))):
            names.update(self.cells.get(cell, ()))
        return sorted(names)


def place_build(build: model.Build) -> PlacedBuild:
    """Pose every copy that has sizes and a pose.

    Args:
        build: the build as plain data.

    Returns:
        The posed copies; poses that cannot be followed (a ring, a face that a part does not have) become
        findings of rule `pose`, and the copies that hang on them stay unplaced.

    Source: this project.
    """
    components = tuple(map(bare, build.components))
    totals = total_quantity(model.Build("", "", components=components))
    solids: dict[str, Solid] = {}
    bodies: dict[str, Body] = {}
    mark_of: dict[str, str] = {}
    copies: dict[str, tuple[str, ...]] = {}
    for component in components:
        total = totals[component.mark]
        posed = sorted({pose.copy for pose in component.poses if pose.copy <= total})
        names = tuple(copy_name(component.mark, copy, total) for copy in posed or [1])
        copies[component.mark] = names
        mark_of.update(dict.fromkeys((*names, component.mark), component.mark))
        solid = solid_of(component)
        if solid is not None:
            solids[component.mark] = solid
    for component in components:
        if component.mark in solids:
            bodies |= bodies_of(component, solids[component.mark], totals[component.mark], copies)
    findings: list[Finding] = []
    transforms: dict[str, Transform] = {}
    while bodies:
        hanging = _hanging(bodies)
        findings += [_pose_finding(lies_on_nothing(bodies[name])) for name in bodies if name in hanging]
        bodies = {name: body for name, body in bodies.items() if name not in hanging}
        try:
            transforms = placements(bodies.values())
            break
        except InputError as error:
            findings += [_pose_finding(fault.says) for fault in error.faults]
            bad = _culprits(error, bodies)
            bodies = {name: body for name, body in bodies.items() if name not in bad}
    by_mark = {component.mark: component for component in components}
    cells, everywhere = _index(bodies, transforms)
    return PlacedBuild(
        solids,
        bodies,
        transforms,
        copies,
        totals,
        mark_of,
        by_mark,
        tuple(findings),
        build.components,
        cells,
        everywhere,
    )


def bare(component: model.Component) -> model.Component:
    """Give a component without what changes nothing about where it lies and what is drilled in it.

    Args:
        component: a component.

    Returns:
        The component without name, state, records and notes.

    Source: this project.
    """
    return replace(
        component,
        name="",
        stock="",
        rough=None,
        state="planned",
        revision="",
        bends=(),
        legs=(),
        motion=None,
        end_float=None,
        end_shake=None,
        evidence="",
        from_stock="",
        made_to="",
        reused=False,
        note="",
    )


def bodies_of(
    component: model.Component, solid: Solid, total: int, copies: dict[str, tuple[str, ...]]
) -> dict[str, Body]:
    """Give the posed copies of a component by name.

    Args:
        component: the component.
        solid: its solid.
        total: [1] how many of it there are in the build.
        copies: the names of the posed copies of every component, by mark.

    Returns:
        Each copy that has a pose, not yet laid.

    Source: this project.
    """
    found: dict[str, Body] = {}
    for pose in component.poses:
        if pose.copy <= total:
            name = copy_name(component.mark, pose.copy, total)
            found[name] = Body(name, solid, _pose(pose, copies))
    return found


def solid_of(component: model.Component) -> Solid | None:
    """Make the solid of a component from its as-made sizes where it has them, else the finished ones.

    Args:
        component: one component of the build.

    Returns:
        The solid with its pockets and the counterbores of its own holes taken off, its corners rounded where
        it has no outline of its own; None while a size that its shape needs is missing.

    Source: this project.
    """
    size, made = component.size, component.made_size or model.Size()
    shape = made.shape or size.shape
    length = _mm(made.length or size.length)
    pockets = (*map(_pocket, component.pockets), *_counterbores(component))
    if shape == "block":
        width, thickness = _mm(made.width or size.width), _mm(made.thickness or size.thickness)
        if length and width and thickness:
            corner = _mm(component.corner_radius)
            outline = outline_or_none(component.outline)
            if corner and not component.outline:
                outline = rectangle(0.0, 0.0, length, width, corner)
            return Solid("block", length, width, thickness, pockets=pockets, outline=outline)
    if shape == "round":
        diameter = _mm(made.diameter or size.diameter)
        if length and diameter:
            bore = _mm(made.bore or size.bore) or 0.0
            return Solid("round", length, diameter=diameter, bore=bore, pockets=pockets)
    return None


def _mm(length: Length | None) -> float | None:
    return None if length is None else length.mm


def _pocket(pocket: model.Pocket) -> Pocket:
    radius = pocket.corner_radius or (
        Length(pocket.cutter.ticks // 2) if pocket.cutter and not pocket.squared else None
    )
    length, width = pocket.length.mm, pocket.width.mm
    corner = 0.0 if pocket.squared or radius is None else min(radius.mm, length / 2, width / 2)
    return Pocket(
        pocket.face,
        pocket.u.mm,
        pocket.v.mm,
        _mm(pocket.depth),
        length,
        width,
        corner,
        angle=float(pocket.angle_deg or 0),
    )


def _counterbores(component: model.Component) -> Iterator[Pocket]:
    """Give the counterbores of the holes a person placed; plain holes leave the layers whole."""
    for hole in component.holes:
        if hole.counterbore_diameter and hole.counterbore_depth:
            yield Pocket(
                hole.face,
                hole.u.mm,
                _mm(hole.v) or 0.0,
                hole.counterbore_depth.mm,
                diameter=hole.counterbore_diameter.mm,
                angle=float(hole.angle_deg or 0),
            )


def _pose(pose: model.Pose, copies: dict[str, tuple[str, ...]]) -> Pose:
    on = copies[pose.on][0] if copies.get(pose.on) else pose.on
    return Pose(
        on,
        pose.face,
        pose.u.mm,
        pose.v.mm,
        float(pose.angle_deg),
        float(pose.turned_deg),
        pose.let_in.mm,
        pose.own_face,
        pose.point,
        pose.hand,
    )


def _pose_finding(says: str) -> Finding:
    return Finding("pose", "error", says, "this project: every pose must lead to the ground")


def _hanging(bodies: dict[str, Body]) -> set[str]:
    """Return the copies that lie on one that has no place, or on a copy that does, at any remove."""
    lying: dict[str, list[str]] = defaultdict(list)
    for name, body in bodies.items():
        lying[body.pose.on].append(name)
    found: set[str] = set()
    waiting = [on for on in lying if on and on not in bodies]
    while waiting:
        names = lying.get(waiting.pop(), ())
        found.update(names)
        waiting.extend(names)
    return found


def _culprits(error: InputError, bodies: dict[str, Body]) -> set[str]:
    """Return the copies that the faults name, and all of them where none can be told."""
    named: set[str] = set()
    for fault in error.faults:
        steps = fault.field.split(".")
        named.update(".".join(steps[:end]) for end in range(1, len(steps) + 1))
        named.update(fault.says.partition(":")[0].split(" lies on "))  # a ring names all that is in it
    return named & bodies.keys() or set(bodies)


def _index(
    bodies: dict[str, Body], transforms: dict[str, Transform]
) -> tuple[dict[Cell, tuple[str, ...]], tuple[str, ...]]:
    cells: dict[Cell, list[str]] = defaultdict(list)
    everywhere: list[str] = []
    for name, body in bodies.items():
        met = cells_of(body, transforms[name])
        if met is None:
            everywhere.append(name)
            continue
        for cell in met:
            cells[cell].append(name)
    return {cell: tuple(names) for cell, names in cells.items()}, tuple(everywhere)


def cells_of(body: Body, transform: Transform) -> Cells | None:
    """Give the cells of space that a posed copy may be in.

    Args:
        body: the copy.
        transform: where it lies.

    Returns:
        The cells; None where they would be too many.

    Source: this project.
    """
    met = cells_between(*_box(body.solid, transform))
    return None if len(met) > _MANY_CELLS else met


def _box(solid: Solid, transform: Transform) -> tuple[Vector, Vector]:
    """Return the corners of the box, square to the build's frame, that holds a posed solid."""
    if solid.shape == "block":
        spans = ((0.0, solid.length), (0.0, solid.width), (0.0, solid.thickness))
    else:
        radius = solid.diameter / 2
        spans = ((0.0, solid.length), (-radius, radius), (-radius, radius))
    corners = [transform.point(corner) for corner in itertools.product(*spans)]
    low = (min(c[0] for c in corners), min(c[1] for c in corners), min(c[2] for c in corners))
    high = (max(c[0] for c in corners), max(c[1] for c in corners), max(c[2] for c in corners))
    return low, high


def cells_between(start: Vector, end: Vector) -> Cells:
    """Give the cells of the box between two corners, with a hair's breadth about it.

    Args:
        start: one corner [mm] in the build's frame.
        end: the other.

    Returns:
        The cells.

    Source: this project.
    """
    x, y, z = (
        range(math.floor((min(a, b) - 0.01) / _CELL_MM), math.floor((max(a, b) + 0.01) / _CELL_MM) + 1)
        for a, b in zip(start, end, strict=True)
    )
    return Cells(x, y, z)
