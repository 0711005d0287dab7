"""Whether a group of fixings lets the wood move across its grain when the seasons change."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass

from calculators.geometry.frames import face_frame
from calculators.geometry.vectors import Vector, add, dot, scale, subtract
from calculators.hardware.wood_screws import wood_screw
from calculators.joints.model import Finding, LayerHole, Mend
from calculators.materials import Material, find_material
from calculators.planning import model
from calculators.planning.placing import PlacedBuild
from calculators.planning.stacks import PlacedStretch
from calculators.planning.worked import WorkedJoint
from calculators.quantities.errors import InputError

MOISTURE_CHANGE_PERCENT = 5.0
"""Swing of the wood's moisture content to plan for where a build states none [percent] (common practice)."""

IGNORED_SPAN_MM = 100.0
"""Groups closer together than this across the grain are let be [mm] (common practice)."""

WARN_SHARE = 0.7
"""Share of the float that movement may use before it is a warning (common practice)."""

SOURCE = (
    "USDA Wood Handbook, dimensional change coefficients (table 13-5 of FPL-GTR-190), for 6 to 14 % "
    "moisture; 100 mm span and 70 % of the float: common practice"
)


@dataclass(frozen=True, slots=True)
class AxisAt:
    """One place of a joint in the build's frame, with the layers met there and the joint worked out."""

    place: str
    home: str
    start: Vector
    way: Vector
    stretches: tuple[PlacedStretch, ...]
    worked: WorkedJoint


@dataclass(frozen=True, slots=True)
class _Slide:
    """What one layer needs and has at one place, in the direction in which the parts slide [mm].

    `along` is that direction in the layer's own words: a slot lies so.
    """

    axis: AxisAt
    needs_mm: float
    has_mm: float
    along: str


def movement_findings(
    joint: model.Joint, axes: list[AxisAt], placed: PlacedBuild, context: model.Context
) -> list[Finding]:
    """Compare how far the parts of a joint slide over one another with the float in their holes.

        movement = distance across the grain x C x change of moisture content

    taken from the place held tight (or the middle of the group); C is C_T for flat-sawn wood and where the
    cut is not stated, C_R for quarter-sawn.

    Args:
        joint: the joint.
        axes: its places, posed.
        placed: the build's parts where they lie.
        context: the build's context: the swing of moisture content, limits.

    Returns:
        One finding of rule `wood-movement` for each layer that has too little float, at its worst place:
        `error` where the movement passes the float, `warning` where it takes more than 70 % of it,
        `unchecked` where nothing is known of how a wood moves.

    Source: USDA Wood Handbook, dimensional change coefficients (table 13-5 of FPL-GTR-190).
    """
    swing = context.moisture_change_percent
    percent = MOISTURE_CHANGE_PERCENT if swing is None else float(swing)
    worst: dict[str, _Slide] = {}
    unknown: dict[str, Finding] = {}
    for (upper, lower), group in _pairs(axes).items():
        if placed.mark_of[upper] == placed.mark_of[lower] or not _solid_wood(upper, lower, group):
            continue
        if _span_across(group, upper, lower, placed) < IGNORED_SPAN_MM:
            continue
        for copy in (upper, lower):
            wood = _material(group[0], copy)
            if wood is not None and wood.is_solid_wood and wood.movement_tangential is None:
                mark = placed.mark_of[copy]
                unknown[mark] = _not_known(joint, mark, wood)
        fixed = _fixed_point(joint, group)
        for slide in (_slides(axis, upper, lower, fixed, placed, percent) for axis in group):
            if slide and slide.needs_mm > WARN_SHARE * slide.has_mm + 1e-9:
                mark = placed.mark_of[upper]
                if mark not in worst or _share(slide) > _share(worst[mark]):
                    worst[mark] = slide
    return [*unknown.values(), *(_finding(joint, mark, slide, percent) for mark, slide in worst.items())]


def _not_known(joint: model.Joint, mark: str, wood: Material) -> Finding:
    says = (
        f"How much {wood.name} moves across its grain is not known here, so whether the holes of "
        f"{joint.mark} let {mark} move cannot be told: allow for it, or measure a piece."
    )
    return Finding("wood-movement", "unchecked", says, SOURCE, joint.mark, mark)


def _share(slide: _Slide) -> float:
    return slide.needs_mm / max(slide.has_mm, 1e-6)


def _pairs(axes: list[AxisAt]) -> dict[tuple[str, str], list[AxisAt]]:
    """Group the places by the copy that has a clearance hole and the copy that holds the screw."""
    pairs: dict[tuple[str, str], list[AxisAt]] = defaultdict(list)
    for axis in axes:
        if len(axis.stretches) < 2:
            continue
        holding = axis.stretches[-1].copy
        for stretch in axis.stretches[:-1]:
            if stretch.copy != holding:
                pairs[stretch.copy, holding].append(axis)
    return {pair: group for pair, group in pairs.items() if len(group) > 1}


def _material(axis: AxisAt, copy: str) -> Material | None:
    for stretch in axis.stretches:
        layer = axis.worked.inputs.stack[stretch.item].layer
        if stretch.copy == copy and layer is not None:
            try:
                return find_material(layer.material)
            except InputError:
                return None
    return None


def _solid_wood(upper: str, lower: str, axes: list[AxisAt]) -> bool:
    for axis in axes:
        for copy in (upper, lower):
            material = _material(axis, copy)
            if material is not None and material.is_solid_wood:
                return True
    return False


def _fixed_point(joint: model.Joint, group: list[AxisAt]) -> Vector:
    for axis in group:
        if joint.fixed_place and axis.place == joint.fixed_place:
            return axis.start
    total: Vector = (0.0, 0.0, 0.0)
    for axis in group:
        total = add(total, axis.start)
    return scale(total, 1.0 / len(group))


def _change(copy: str, axis: AxisAt, placed: PlacedBuild, way: Vector, percent: float) -> Vector:
    """Return how far a part's own growth carries a point that lies `way` from the fixed one [mm]."""
    material = _material(axis, copy)
    solid = placed.bodies[copy].solid
    if material is None or not material.is_solid_wood or solid.shape != "block":
        return (0.0, 0.0, 0.0)
    wide, thick = material.movement_tangential or 0.0, material.movement_radial or 0.0
    if _cut(placed, copy) == "quarter":
        wide, thick = thick, wide
    own = placed.transforms[copy].own_direction(way)
    return placed.transforms[copy].direction((0.0, own[1] * wide * percent, own[2] * thick * percent))


def _cut(placed: PlacedBuild, copy: str) -> str:
    return placed.components[placed.mark_of[copy]].grain_cut


def _span_across(group: list[AxisAt], upper: str, lower: str, placed: PlacedBuild) -> float:
    """Return how far apart the places are across the grain of whichever part is of wood [mm]."""
    widest = 0.0
    for copy in (upper, lower):
        material = _material(group[0], copy)
        if material is None or not material.is_solid_wood or placed.bodies[copy].solid.shape != "block":
            continue
        across = [placed.transforms[copy].own_point(axis.start)[1] for axis in group]
        widest = max(widest, max(across) - min(across))
    return widest


def _slides(
    axis: AxisAt, upper: str, lower: str, fixed: Vector, placed: PlacedBuild, percent: float
) -> _Slide | None:
    way = subtract(axis.start, fixed)
    slide = subtract(_change(upper, axis, placed, way, percent), _change(lower, axis, placed, way, percent))
    slide = subtract(slide, scale(axis.way, dot(slide, axis.way)))
    needs = math.sqrt(dot(slide, slide))
    stretch = next(each for each in axis.stretches if each.copy == upper)
    hole = _hole(axis, stretch)
    if needs < 1e-9 or hole is None or hole.kind not in ("clearance", "plain", "slot", "reamed"):
        return None
    size = hole.diameter_mm
    if hole.slot_length_mm and hole.slot_along:
        frame = face_frame(placed.bodies[upper].solid, stretch.entry.face)
        along = frame.u_axis if hole.slot_along == "u" else frame.v_axis
        slot = placed.transforms[upper].direction(along)
        if abs(dot(slot, slide)) >= math.cos(math.radians(10.0)) * needs:
            size = hole.slot_length_mm
    lies = _own_words(upper, slide, placed)
    return _Slide(axis, needs, max(0.0, (size - _shank_mm(axis)) / 2.0), lies)


def _own_words(copy: str, way: Vector, placed: PlacedBuild) -> str:
    """A direction in the words of a part: along its length, width or thickness."""
    if placed.bodies[copy].solid.shape != "block":
        return "the way the wood moves"
    own = placed.transforms[copy].own_direction(way)
    sizes = ("length", "width", "thickness")
    return f"along its {sizes[max(range(3), key=lambda axis: abs(own[axis]))]}"


def _shank_mm(axis: AxisAt) -> float:
    fastener = axis.worked.result.fastener
    if fastener.family == "wood":
        return wood_screw(fastener.size, fastener.series or "inch-us").shank_mm
    return axis.worked.result.major_mm


def _hole(axis: AxisAt, stretch: PlacedStretch) -> LayerHole | None:
    layers = [index for index, item in enumerate(axis.worked.inputs.stack) if item.layer]
    number = layers.index(stretch.item)
    return next((hole for hole in axis.worked.result.holes if hole.layer == number), None)


def _finding(joint: model.Joint, mark: str, slide: _Slide, percent: float) -> Finding:
    shank = _shank_mm(slide.axis)
    length = math.ceil((shank + 2.0 * slide.needs_mm / WARN_SHARE) * 2.0) / 2.0
    says = (
        f"The wood under {joint.mark} moves {slide.needs_mm:.2f} mm each way at place {slide.axis.place} "
        f"when its moisture changes by {percent:g} points; the hole in {mark} lets it move "
        f"{slide.has_mm:.2f} mm"
    )
    over = slide.needs_mm > slide.has_mm
    return Finding(
        "wood-movement",
        "error" if over else "warning",
        f"{says}: the part splits or bows." if over else f"{says}, which is little to spare.",
        SOURCE,
        joint.mark,
        mark,
        slide.axis.place,
        round(slide.needs_mm, 4),
        round(slide.has_mm, 4),
        "mm",
        (
            Mend(
                f"Slots {length:g} mm long in {mark}, {slide.along}, at all places but the one held tight.",
                f"stack[{mark}].holes.slot_length",
                f"{length:g}",
            ),
        ),
    )
