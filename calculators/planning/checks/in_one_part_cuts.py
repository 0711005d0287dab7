"""What is taken out of one part: holes and pockets as shapes in its frame, worked once for all rules."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from calculators.geometry.cuts import Bored, Cut, axis_box, cut_of, pocket_shape, without_recesses
from calculators.geometry.features import on_face
from calculators.geometry.frames import to_face
from calculators.geometry.model import Pocket, Solid
from calculators.geometry.near_pairs import near_pairs_between
from calculators.geometry.shapes import Box, Shape, box_of
from calculators.geometry.vectors import Vector
from calculators.hardware.holes import drill_point_mm
from calculators.joints.model import LayerHole, Spot
from calculators.planning import model
from calculators.planning.checks.site import PartSite
from calculators.planning.schedules.drilling import drilling_of_direct
from calculators.planning.worked import WorkedHole
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length

FEW_LOOKS = 64
"""So many looks of a hole at a pocket are quicker than finding out which are needed."""

FLAT_FROM_MM = 16.0
"""Wider plain holes in wood are bored with a flat-bottomed cutter, without a point: common practice."""


@dataclass(frozen=True, slots=True)
class HoleCut:
    """A hole of the part, what it takes out, and the box about its bore."""

    hole: WorkedHole
    cut: Cut
    box: Box
    off_face: bool = False

    @property
    def name(self) -> str:
        """What it is called: `hole h1`, `the hole of F03 at 2`."""
        if self.hole.direct is not None:
            return f"hole {self.hole.direct.id}"
        return f"the hole of {self.hole.joint} at {self.hole.place}" if self.hole.place else (
            f"the hole of {self.hole.joint}"
        )  # fmt: skip

    @property
    def place(self) -> str:
        """The id by which a finding says where it is."""
        return self.hole.direct.id if self.hole.direct is not None else self.hole.place

    @property
    def path(self) -> str:
        """The record in the build file that places it."""
        if self.hole.direct is not None:
            return f"components[{self.hole.part}].holes[{self.hole.direct.id}]"
        if self.hole.place:
            return f"joints[{self.hole.joint}].places[{self.hole.place}]"
        return f"joints[{self.hole.joint}]"

    @property
    def kind(self) -> str:
        """What it is for: clearance, pilot, tapping and so on."""
        one = self.hole.direct if self.hole.direct is not None else self.hole.hole
        return one.kind if one is not None else "plain"

    @property
    def spot(self) -> Spot:
        """Where it is drawn: a ring about it on its face."""
        h = self.hole
        v = h.angle_deg if h.face == "side" else h.v_mm
        return Spot(h.part, h.face, h.u_mm or 0.0, v or 0.0, max(2.0, self.cut.radius))


@dataclass(frozen=True, slots=True)
class PocketCut:
    """A pocket of the part, as entered and as a shape, with its place among the part's pockets."""

    pocket: model.Pocket
    geometry: Pocket
    index: int
    shape: Shape
    box: Box
    path: str

    @property
    def name(self) -> str:
        """What it is called."""
        return f"pocket {self.pocket.id}"


@dataclass(frozen=True, slots=True)
class PartCuts:
    """A part with all that is taken out of it. `solid` has its pockets, without counterbores of holes."""

    part: str
    solid: Solid
    holes: tuple[HoleCut, ...]
    pockets: tuple[PocketCut, ...]
    missed: tuple[WorkedHole, ...]
    """Holes placed by hand whose axis meets no material of the part."""

    wood: bool
    metal: bool

    def spot_at(self, near: HoleCut, point: Vector) -> Spot:
        """Where a point inside the part is drawn on the face of a hole."""
        u, v, _ = to_face(self.solid, near.hole.face, point)
        return Spot(self.part, near.hole.face, round(u, 4), round(v, 4), max(2.0, near.cut.radius))


def part_cuts(site: PartSite) -> PartCuts | None:
    """Return what is taken out of a part, worked once as long as the part is as it is.

    Args:
        site: the part.

    Returns:
        Its cuts; None while its sizes are not known.

    Source: this project.
    """
    if "cuts" not in site.kept:
        site.kept["cuts"] = _part_cuts(site) if site.solid is not None else None
    cuts: PartCuts | None = site.kept["cuts"]
    return cuts


def _part_cuts(site: PartSite) -> PartCuts:
    component = site.component
    assert site.solid is not None
    solid = without_recesses(site.solid, len(component.pockets))
    wood = site.material is not None and site.material.is_wood
    holes: list[HoleCut] = []
    missed: list[WorkedHole] = []
    pockets = tuple(_pockets(solid, component))
    bored = [bored_of(component, hole, wood=wood) for hole in site.holes]
    met = _pockets_met(solid, bored, pockets)
    for index, (hole, one) in enumerate(zip(site.holes, bored, strict=True)):
        made = _cut(solid, hole, one, met.get(index, ()) if met is not None else None)
        if isinstance(made, HoleCut):
            holes.append(made)
        elif made is None:
            missed.append(hole)
    metal = site.material is not None and site.material.is_metal
    return PartCuts(component.mark, solid, tuple(holes), pockets, tuple(missed), wood, metal)


def _pockets(solid: Solid, component: model.Component) -> Iterator[PocketCut]:
    for index, (pocket, geometry) in enumerate(zip(component.pockets, solid.pockets, strict=True)):
        try:
            shape = pocket_shape(solid, geometry)
        except InputError:  # a face that the part has not; placing says so
            continue
        path = f"components[{component.mark}].pockets[{pocket.id}]"
        yield PocketCut(pocket, geometry, index, shape, box_of(shape), path)


def hole_cut(
    solid: Solid, component: model.Component, hole: WorkedHole, *, wood: bool
) -> HoleCut | str | None:
    """Return what one hole takes out.

    Args:
        solid: the part, without counterbores of holes.
        component: the part as entered.
        hole: one of its holes.
        wood: whether it is of wood.

    Returns:
        The cut; None for a hole placed by hand that meets no material; a word where it cannot be told: no
        place, no diameter, a mere spot.

    Source: this project; 118 degree drill points and flat-bottomed cutters in wood are common practice.
    """
    return _cut(solid, hole, bored_of(component, hole, wood=wood), None)


def bored_of(component: model.Component, hole: WorkedHole, *, wood: bool) -> Bored | None:
    """Return a hole as it is marked out and made, in numbers.

    Args:
        component: the part as entered.
        hole: one of its holes.
        wood: whether it is of wood.

    Returns:
        The hole; None where it has no place or no size, or is a mere spot.

    Source: this project; 118 degree drill points and flat-bottomed cutters in wood are common practice.
    """
    if hole.u_mm is None or (hole.v_mm is None and hole.angle_deg is None):
        return None
    return _of_hand(hole, component, wood) if hole.direct is not None else _of_joint(hole)


def _pockets_met(
    solid: Solid, bored: list[Bored | None], pockets: tuple[PocketCut, ...]
) -> dict[int, list[int]] | None:
    """The pockets that each hole's axis may meet; None where there are so few that it is no help."""
    if len(pockets) * len(bored) <= FEW_LOOKS or len(pockets) != len(solid.pockets):
        return None
    numbers: list[int] = []
    boxes: list[Box] = []
    for number, one in enumerate(bored):
        if one is not None:
            try:
                boxes.append(axis_box(solid, one))
            except InputError:
                continue
            numbers.append(number)
    met: dict[int, list[int]] = {}
    for i, j in near_pairs_between(boxes, [pocket.box for pocket in pockets], 0.1):
        met.setdefault(numbers[i], []).append(pockets[j].index)
    return {number: sorted(places) for number, places in met.items()}


def _cut(
    solid: Solid, hole: WorkedHole, bored: Bored | None, pockets: list[int] | tuple[int, ...] | None
) -> HoleCut | str | None:
    if bored is None:
        return "no place or no size"
    try:
        cut = cut_of(solid, bored, pockets)
        if cut is None:
            return None if hole.direct is not None else "no material"
        v = hole.angle_deg if hole.angle_deg is not None else hole.v_mm or 0.0
        off = hole.direct is not None and not on_face(_bare(solid), hole.face, bored.u, v)
    except InputError:
        return None if hole.direct is not None else "no face"
    return HoleCut(hole, cut, box_of(cut.bore), off)


def _bare(solid: Solid) -> Solid:
    """A round part without its bore, over which a hole in its end may lie."""
    return Solid("round", solid.length, diameter=solid.diameter) if solid.bore else solid


def _of_joint(hole: WorkedHole) -> Bored | None:
    of: LayerHole | None = hole.hole
    if of is None or of.diameter_mm <= 0.0 or hole.u_mm is None:
        return None
    deep, point = of.depth_mm, of.point_mm
    if deep is not None and of.thread_depth_mm is not None and of.thread_depth_mm > deep:
        deep = of.thread_depth_mm
    if deep is not None and not point and of.kind != "slot":
        point = drill_point_mm(of.diameter_mm) if of.kind in ("tapping", "reamed", "clearance") else 0.0
    heads = hole.entry == "in"
    return Bored(
        hole.face, hole.u_mm, hole.v_mm or 0.0, of.diameter_mm, deep, point, hole.angle_deg, hole.way,
        hole.below_mm,
        (of.countersink_diameter_mm or 0.0) if heads else 0.0,
        of.countersink_angle_deg or 90.0,
        of.countersink_depth_mm,
        (of.counterbore_diameter_mm or 0.0) if heads else 0.0,
        of.counterbore_depth_mm or 0.0,
        of.slot_length_mm or 0.0,
        of.slot_along,
    )  # fmt: skip


def _of_hand(hole: WorkedHole, component: model.Component, wood: bool) -> Bored | None:
    of = hole.direct
    assert of is not None
    assert hole.u_mm is not None
    if of.kind == "spot":
        return None
    diameter = of.diameter.mm if of.diameter is not None else _diameter(of.kind, of.thread)
    if not diameter or diameter <= 0.0:
        return None
    deep = _mm(of.depth)
    if deep is not None and of.thread_depth is not None:
        deep = max(deep, of.thread_depth.mm)
    flat = of.kind == "slot" or (wood and of.kind == "plain" and diameter > FLAT_FROM_MM)
    return Bored(
        hole.face, hole.u_mm, hole.v_mm or 0.0, diameter, deep,
        0.0 if flat or deep is None else drill_point_mm(diameter),
        hole.angle_deg,
        hole.way,
        None,
        _mm(of.countersink_diameter) or 0.0,
        float(of.countersink_angle_deg) if of.countersink_angle_deg is not None else 90.0,
        None,
        _mm(of.counterbore_diameter) or 0.0,
        _mm(of.counterbore_depth) or 0.0,
        _mm(of.slot_length) or 0.0,
        of.slot_along,
    )  # fmt: skip


def _mm(length: Length | None) -> float | None:
    return None if length is None else length.mm


@lru_cache(maxsize=512)
def _diameter(kind: str, thread: str) -> float | None:
    """The drill that a thread asks for where no diameter is stated."""
    if not thread:
        return None
    hole = model.Hole("", "top", Length(0), Length(0), kind=kind, thread=thread)  # type: ignore[arg-type]
    return drilling_of_direct(hole, model.Component("", "")).diameter_mm
