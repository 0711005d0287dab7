"""Rules for what holds wood fast across its grain: glue on crossing grain, shafts with both ends fixed."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from calculators.geometry.frames import face_frame
from calculators.geometry.model import Face, Solid
from calculators.geometry.near_pairs import near_pairs
from calculators.geometry.shapes import block_shape, box_of, moved
from calculators.geometry.vectors import Vector, add, dot, scale, subtract
from calculators.joints.limits import Limit
from calculators.joints.model import Severity, Spot
from calculators.planning.checks.keeping import looked_at
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting, unchecked
from calculators.planning.checks.shifting import at_least, millimetres
from calculators.planning.checks.site import JointSite, PartSite, Site, material_of
from calculators.planning.model import AssemblyStep
from calculators.planning.movement import IGNORED_SPAN_MM, MOISTURE_CHANGE_PERCENT
from calculators.planning.placing import PlacedBuild

_TINY = 1e-6
_FACES: tuple[Face, ...] = ("top", "bottom", "front", "back", "left", "right")
_TOUCHING_MM = 0.2
_CROSS_DEG = 30.0
"""Grain that crosses by less than this moves much the same way."""

_WH = "USDA Wood Handbook, dimensional change coefficients (table 13-5 of FPL-GTR-190)"
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class _Glued:
    """Two parts glued over crossing grain: which holds the other, and over how much [mm]."""

    stiff: str
    moving: str
    span: float
    face: Face
    middle: Point


@build_rule(
    "cross-grain-glue",
    "wood",
    "Solid wood is not glued across the grain of other wood over more than 100 mm.",
    CP,
    Limit("cross-grain-glue", 100.0, "mm", CP, "glue across the grain, at most"),
    Limit("cross-grain-glue-most", 200.0, "mm", CP, "glue across the grain, at the very most"),
)
def _cross_grain_glue(site: Site) -> Iterator[Seen]:
    """Parts that a step glues together with their grains crossed."""
    steps = [one for one in site.build.steps if len(one.glued) > 1]
    unposed: list[tuple[int, str]] = []
    found = looked_at(site, "cross-grain-glue", ((one, site.placed) for one in steps), _glued_across)
    for step, pairs in zip(steps, list(found), strict=True):
        unposed += [(step.number, mark) for mark in step.glued if _wide_and_unposed(site, mark)]
        for pair in pairs:
            if pair.span > site.limits["cross-grain-glue"] + _TINY:
                yield _glue_seen(site, step, pair)
    if unposed:
        names = ", ".join(dict.fromkeys(mark for _, mark in unposed))
        says = (
            f"{names}, over 100 mm wide, {'is' if len({m for _, m in unposed}) == 1 else 'are'} glued in "
            f"step {unposed[0][0]} and without a pose: whether grain crosses grain there is not looked at."
        )
        yield unchecked(says, part=unposed[0][1], at=f"components[{unposed[0][1]}].poses")


def _wide_and_unposed(site: Site, name: str) -> bool:
    mark = site.placed.mark_of.get(name, name)
    part = site.parts.get(mark)
    if part is None or part.material is None or not part.material.is_solid_wood or part.solid is None:
        return False
    wide = part.solid.shape == "block" and max(part.solid.width, part.solid.thickness)
    return bool(wide and wide > IGNORED_SPAN_MM) and not any(c in site.placed.transforms for c in part.copies)


def _glue_seen(site: Site, step: AssemblyStep, pair: _Glued) -> Seen:
    good, most = site.limits["cross-grain-glue"], site.limits["cross-grain-glue-most"]
    severity: Severity = "error" if pair.span > most + _TINY else "warning"
    moving, stiff = (site.placed.mark_of[name] for name in (pair.moving, pair.stiff))
    cost = "it splits or bows" if severity == "error" else "it may split or bow"
    says = (
        f"Step {step.number} glues {stiff} across the grain of {moving} over {pair.span:.0f} mm; {good:g} "
        f"mm is the most that goes: {cost} when the seasons change. Glue the middle alone, and let the rest "
        "slide in slots, buttons or a groove."
    )
    spot = Spot(moving, pair.face, pair.middle[0], pair.middle[1], 5.0)
    return Seen(
        severity, says, "", moving, f"step {step.number} {stiff}", pair.span,
        most if severity == "error" else good, "mm", at=f"steps[{step.number}].glued", spots=(spot,),
    )  # fmt: skip


def _glued_across(things: tuple[AssemblyStep, PlacedBuild]) -> list[_Glued]:
    """The pairs of a step's glued parts whose grain crosses, each pair of marks where it is widest."""
    step, placed = things
    names = [
        copy
        for mark in step.glued
        for copy in (placed.copies.get(mark) or (mark,))
        if copy in placed.transforms and _solid_wood(placed, copy)
    ]
    names = list(dict.fromkeys(names))
    boxes = [box_of(moved(block_shape(placed.bodies[n].solid), placed.transforms[n])) for n in names]
    worst: dict[tuple[str, str], _Glued] = {}
    for i, j in near_pairs(boxes, _TOUCHING_MM):
        for stiff, moving in ((names[i], names[j]), (names[j], names[i])):
            glued = _held_across(placed, stiff, moving)
            key = (placed.mark_of[stiff], placed.mark_of[moving])
            if glued is not None and (key not in worst or worst[key].span < glued.span):
                worst[key] = glued
    return sorted(worst.values(), key=lambda one: (one.moving, one.stiff))


def _solid_wood(placed: PlacedBuild, copy: str) -> bool:
    component, body = placed.components[placed.mark_of[copy]], placed.bodies[copy]
    material = material_of(component.material)
    return body.solid.shape == "block" and material is not None and material.is_solid_wood


def _held_across(placed: PlacedBuild, stiff: str, moving: str) -> _Glued | None:
    """How far a part holds another along its own grain while that one moves across its own."""
    one, other = placed.transforms[stiff], placed.transforms[moving]
    grain = one.columns[0]
    along = abs(dot(grain, other.columns[0]))
    if along > math.cos(math.radians(_CROSS_DEG)):
        return None
    best: _Glued | None = None
    solid = placed.bodies[moving].solid
    for face, outline in _contacts(placed, stiff, moving):
        frame = face_frame(solid, face)
        if abs(dot(grain, other.direction(frame.inward))) > 0.3:
            continue  # the stiff part's grain stands on that face: its end is glued there
        u, v = dot(grain, other.direction(frame.u_axis)), dot(grain, other.direction(frame.v_axis))
        reach = [point[0] * u + point[1] * v for point in outline]
        span = max(reach) - min(reach)
        middle = tuple(sum(point[i] for point in outline) / len(outline) for i in (0, 1))
        if best is None or span > best.span:
            best = _Glued(stiff, moving, span, face, (middle[0], middle[1]))
    return best


def _contacts(placed: PlacedBuild, stiff: str, moving: str) -> Iterator[tuple[Face, list[Point]]]:
    """The outlines, on faces of one block, of where another lies on it or is let into it."""
    one, other = placed.transforms[stiff], placed.transforms[moving]
    held, laid = placed.bodies[moving].solid, placed.bodies[stiff].solid
    for face in _FACES:
        frame = face_frame(held, face)
        outward = scale(other.direction(frame.inward), -1.0)
        origin = other.point(frame.origin)
        for own in _FACES:
            their = face_frame(laid, own)
            if dot(one.direction(their.inward), outward) < 0.9998:
                continue  # not face to face
            below = -dot(subtract(one.point(their.origin), origin), outward)
            depth = (held.thickness, held.width, held.length)[_axis_of(face)]
            if not -_TOUCHING_MM <= below <= depth / 2.0:
                continue
            corners = [other.own_point(one.point(point)) for point in _corners(laid, own)]
            outline = _clipped([frame.read(point)[:2] for point in corners], frame.u_range, frame.v_range)
            if len(outline) > 2:
                yield face, outline


def _axis_of(face: Face) -> int:
    return 0 if face in ("top", "bottom") else 1 if face in ("front", "back") else 2


def _corners(solid: Solid, face: Face) -> list[Vector]:
    frame = face_frame(solid, face)
    (u0, u1), (v0, v1) = frame.u_range, frame.v_range
    return [frame.point(u, v) for u, v in ((u0, v0), (u1, v0), (u1, v1), (u0, v1))]


def _clipped(outline: list[Point], u_range: Point, v_range: Point) -> list[Point]:
    """What of a convex outline lies in a rectangle (cut by one side after another)."""
    for axis, limit, sign in ((0, u_range[0], 1.0), (0, u_range[1], -1.0), (1, v_range[0], 1.0),
                              (1, v_range[1], -1.0)):  # fmt: skip
        kept: list[Point] = []
        for index, point in enumerate(outline):
            before = outline[index - 1]
            inside, was = (sign * (one[axis] - limit) for one in (point, before))
            if (inside >= 0.0) != (was >= 0.0):
                share = was / (was - inside)
                kept.append(
                    (before[0] + share * (point[0] - before[0]), before[1] + share * (point[1] - before[1]))
                )
            if inside >= 0.0:
                kept.append(point)
        outline = kept
    return outline


@build_rule(
    "shaft-across-grain",
    "wood",
    "A shaft carried by two parts that are fixed apart across the grain of one piece of wood has an end "
    "that is free to slide by the wood's movement, with half a millimetre to spare.",
    f"{_WH}; half a millimetre: common practice",
    Limit("shaft-float-spare", 0.5, "mm", CP, "end float of a shaft beyond the wood's movement"),
)
def _shaft_across_grain(site: Site) -> Iterator[Seen]:
    """Shafts whose carriers the wood moves apart and together."""
    shafts = [one for one in site.parts.values() if _may_be_shaft(site, one.mark)]
    if not shafts:
        return
    fixed = _fixed_to_wood(site)
    if not fixed:
        return
    swing = site.context.moisture_change_percent
    percent = MOISTURE_CHANGE_PERCENT if swing is None else float(swing)
    each = ((part, site.placed) for part in shafts)
    for part, met in zip(shafts, looked_at(site, "shaft-across-grain", each, _met), strict=True):
        apart = [one for copy, names in met if (one := _apart(site.placed, copy, names, fixed, percent))]
        if apart:
            yield from _shaft_seen(site, part.mark, max(apart, key=lambda one: one.moves), percent)


def _met(things: tuple[PartSite, PlacedBuild]) -> list[tuple[str, frozenset[str]]]:
    """What lies on the axis of each copy of a shaft."""
    part, placed = things
    found = []
    for shaft in part.copies:
        if shaft in placed.transforms:
            transform, length = placed.transforms[shaft], placed.bodies[shaft].solid.length
            begin = subtract(transform.shift, transform.columns[0])
            layers = placed.layers(begin, transform.columns[0], length + 2.0)
            found.append((shaft, frozenset(one.name for one in layers) - {shaft}))
    return found


@dataclass(frozen=True, slots=True)
class _Apart:
    """How a piece of wood moves two carriers of a shaft: how far apart they are and by how much [mm]."""

    wood: str
    carriers: tuple[str, str]
    distance: float
    moves: float


def _may_be_shaft(site: Site, mark: str) -> bool:
    part = site.parts[mark]
    if part.solid is None or part.solid.shape != "round" or part.solid.length < IGNORED_SPAN_MM:
        return False
    slender = part.solid.length >= 4.0 * part.solid.diameter and not part.solid.bore
    return slender and (part.material is None or not part.material.is_wood)


def _fixed_to_wood(site: Site) -> dict[str, dict[str, list[Vector]]]:
    """By piece of solid wood, the copies that joints fix to it, with the places where they do."""
    fixed: dict[str, dict[str, list[Vector]]] = defaultdict(lambda: defaultdict(list))
    each = ((one,) for one in site.joints.values())
    for fixings in looked_at(site, "fixed to wood", each, _fixings):
        for wood, copy, start in fixings:
            fixed[wood][copy].append(start)
    return {wood: dict(found) for wood, found in fixed.items() if len(found) > 1}


def _fixings(things: tuple[JointSite]) -> list[tuple[str, str, Vector]]:
    """What one joint fixes to a piece of solid wood, and where."""
    (joint,) = things
    found: list[tuple[str, str, Vector]] = []
    for axis in joint.resolved.axes:
        copies = list(dict.fromkeys(one.copy for one in axis.stretches))
        for wood in copies:
            if _solid_wood(joint.placed, wood):
                found += ((wood, copy, axis.start) for copy in copies if copy != wood)
    return found


def _apart(
    placed: PlacedBuild,
    shaft: str,
    met: frozenset[str],
    fixed: dict[str, dict[str, list[Vector]]],
    percent: float,
) -> _Apart | None:
    """The two carriers of a shaft that their wood moves the most against one another along it."""
    if len(met) < 2:
        return None
    way = placed.transforms[shaft].columns[0]
    worst: _Apart | None = None
    for wood, carriers in fixed.items():
        if wood in met:
            continue
        on = {name: _middle(carriers[name]) for name in met if name in carriers}
        names = sorted(on, key=lambda name: (dot(on[name], way), name))
        if len(names) < 2:
            continue
        first, last = names[0], names[-1]
        apart = subtract(on[last], on[first])
        moves = abs(dot(_grown(placed, wood, apart, percent), way))
        if worst is None or moves > worst.moves:
            own = placed.transforms[wood].own_direction(apart)
            worst = _Apart(wood, (first, last), abs(own[1]), moves)
    return worst


def _middle(points: list[Vector]) -> Vector:
    total: Vector = (0.0, 0.0, 0.0)
    for point in points:
        total = add(total, point)
    return scale(total, 1.0 / len(points))


def _grown(placed: PlacedBuild, wood: str, way: Vector, percent: float) -> Vector:
    """How far a piece of wood's growth carries one of its points from another [mm]."""
    component, transform = placed.components[placed.mark_of[wood]], placed.transforms[wood]
    material = material_of(component.material)
    if material is None:
        return (0.0, 0.0, 0.0)
    wide, thick = material.movement_tangential or 0.0, material.movement_radial or 0.0
    if component.grain_cut == "quarter":
        wide, thick = thick, wide
    own = transform.own_direction(way)
    return transform.direction((0.0, own[1] * wide * percent, own[2] * thick * percent))


def _shaft_seen(site: Site, mark: str, apart: _Apart, percent: float) -> Iterator[Seen]:
    if apart.distance < IGNORED_SPAN_MM:
        return
    component, spare = site.parts[mark].component, site.limits["shaft-float-spare"]
    carriers = " and ".join(dict.fromkeys(site.placed.mark_of[name] for name in apart.carriers))
    wood = site.placed.mark_of[apart.wood]
    says = (
        f"The carriers of {mark} ({carriers}) are fixed {apart.distance:.0f} mm apart across the grain of "
        f"{wood}, which moves them {apart.moves:.2f} mm when its moisture changes by {percent:g} points"
    )
    at, needed = f"components[{mark}].end_float", at_least(apart.moves + spare)
    if component.end_float is None:
        if apart.moves > spare:
            yield unchecked(
                f"{says}; how far an end of {mark} is free to slide is not given.", part=mark, at=at
            )
        return
    left = component.end_float.mm - apart.moves
    if left >= spare - _TINY:
        return
    severity: Severity = "error" if left < -_TINY or component.end_float.mm == 0.0 else "warning"
    if component.end_float.mm == 0.0:
        cost = "both its ends are fixed, and it binds or bends its carriers"
    elif severity == "error":
        cost = f"its end is free by {component.end_float.mm:g} mm only: it binds"
    else:
        cost = f"its end is free by {component.end_float.mm:g} mm, with {left:.2f} mm to spare"
    mend = setting(
        f"Fix one end alone, and leave the other {millimetres(needed)} free to slide.",
        (at, millimetres(needed)),
    )
    limit = 0.0 if severity == "error" else spare
    yield Seen(severity, f"{says}; {cost}.", "", mark, "", left, limit, "mm", (mend,), at)


RULES: tuple[BuildRule, ...] = (_cross_grain_glue, _shaft_across_grain)
