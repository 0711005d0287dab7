"""Whether shafts run in their bushes: of kept calculations, and of the parts as they lie."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass

from calculators.calculation.result import number_text
from calculators.geometry.frames import face_frame
from calculators.geometry.near_pairs import near_pairs_between
from calculators.geometry.shapes import Turned, box_of
from calculators.geometry.vectors import Vector, along, dot, subtract
from calculators.joints.limits import Limit
from calculators.joints.model import Mend, Spot
from calculators.planning.checks.kept_results import Kept, kept_results
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting
from calculators.planning.checks.site import Site
from calculators.planning.model import Component

_RUNS = re.compile(r"\b(runs?|running|turns?|turning|spins?|slides?|sliding|bearings?|bush|journal)\b", re.I)
_BUSH = re.compile(r"\b(bush|bushing|bearing|journal)\b", re.I)
_ON_SHAFT = re.compile(
    r"\b(wheel|gear|pinion|pulley|drum|cap|collar|collet|coupling|knob|handle|cam|crank|hub|flywheel|disc|bob)\b",
    re.I,
)
"""Words for what sits fast on a shaft and turns with it."""

_OPEN = ("planned", "released", "bought", "in hand")
_ITS_SIZE_MM = 1.0
"""A hole wider than its shaft by more than this is no bearing for it."""

_IN_LINE_MM = 0.25


def _n(value: float) -> str:
    return number_text(value, 3)


@dataclass(frozen=True, slots=True)
class _Round:
    """A shaft, bore or round hole where it lies: a stretch of its axis with its diameter [mm]."""

    copy: str
    mark: str
    axis: Turned
    length_mm: float
    diameter_mm: float
    field: str
    spot: Spot


@build_rule(
    "running-fit",
    "mechanism",
    "A shaft that runs in a bush or hole has clearance: over nought, and 0.02 mm or more.",
    f"ISO 286-1 (from memory); 0.02 mm: {CP}",
    Limit("running-clearance", 0.02, "mm", CP, "clearance of a shaft that runs in a bush, at least"),
)
def _running_fit(site: Site) -> Iterator[Seen]:
    least = site.limits["running-clearance"]
    for kept in kept_results(site, "bush-fit"):
        room = kept.number("running_clearance")
        if room is not None and room < least - 1e-9 and not kept.limited("running_clearance", "bore_after"):
            yield _kept_fit(kept, room, least, "bush_bore", "running clearance")
    for kept in kept_results(site, "fit"):
        low, high = kept.number("clearance_least"), kept.number("clearance_most")
        if low is None or high is None or kept.limited("clearance_least", "clearance_most"):
            continue
        if _RUNS.search(kept.worked.calculation.title) and low < 0.0:
            yield _kept_fit(kept, low, least, "shaft", "clearance least")
        elif low >= 0.0 and high < least - 1e-9:
            yield _kept_fit(kept, high, least, "shaft", "clearance most")
    yield from _as_they_lie(site, least)


def _kept_fit(kept: Kept, room: float, least: float, field: str, place: str) -> Seen:
    binds = room <= 1e-9
    why = "the shaft binds" if binds else "little for a hand-made bearing"
    return Seen(
        "error" if binds else "warning",
        f"{kept.named}: the {place} is {_n(room)} mm, {_n(least)} mm is the least that runs: {why}. Ream the "
        "bush or hole, or take a thinner shaft.",
        part=kept.mark, place=place, value=room, limit=least, unit="mm", at=kept.at(field),
    )  # fmt: skip


def _as_they_lie(site: Site, least: float) -> Iterator[Seen]:
    moves = _moves_with(site)
    runs = {
        part.mark
        for part in site.build.components
        if part.mark in moves or part.end_shake is not None or part.end_float is not None
    }
    bushes = {part.mark for part in site.build.components if _BUSH.search(part.name)}
    if not runs and not bushes:
        return
    shafts, holes = _shafts(site), _holes(site)
    fixed = {joint.home.split(".")[0] for joint in site.build.joints if not joint.clamps}
    stacks = [{member.part for member in joint.stack if member.part} for joint in site.build.joints]
    worked = [value for kept in kept_results(site, "fit", "bush-fit") for value in _diameters(kept)]
    boxes = [box_of(one.axis) for one in shafts], [box_of(one.axis) for one in holes]
    pairs = [(shafts[i], holes[j]) for i, j in near_pairs_between(*boxes, 1.0)]
    pairs = [(one, other) for one, other in pairs if _its_size(one, other) and _in_line(one, other)]
    in_bushes = {shaft.mark for shaft, hole in pairs if hole.mark in bushes}
    told: set[tuple[str, str]] = set()
    for shaft, hole in pairs:
        pair, room = (shaft.mark, hole.mark), hole.diameter_mm - shaft.diameter_mm
        if pair in told or room >= least - 1e-9:
            continue
        if moves.get(shaft.mark) != moves.get(hole.mark) or hole.mark in bushes or hole.mark in runs:
            turning = True
        else:  # of all that sits on a shaft, what it runs in are its bushes, or else what is no wheel on it
            on_it = shaft.mark in in_bushes or _ON_SHAFT.search(site.parts[hole.mark].component.name)
            turning = shaft.mark in runs and not on_it
        if not turning or (moves.get(shaft.mark) == moves.get(hole.mark) and shaft.mark in moves):
            continue
        if hole.mark in fixed or any(set(pair) <= stack for stack in stacks):
            continue
        if any(abs(value - shaft.diameter_mm) <= 0.1 for value in worked):
            continue
        told.add(pair)
        yield _binding(site, shaft, hole, room, least)


def _its_size(shaft: _Round, hole: _Round) -> bool:
    """Whether a hole is about as wide as a shaft of another part."""
    return shaft.mark != hole.mark and abs(hole.diameter_mm - shaft.diameter_mm) <= _ITS_SIZE_MM


def _diameters(kept: Kept) -> Iterator[float]:
    for name in ("shaft", "diameter"):
        value = kept.given(name, "mm")
        if value is not None:
            yield value


def _moves_with(site: Site) -> dict[str, str]:
    """The mark of the moving part that each part moves with."""
    moves: dict[str, str] = {}
    for part in site.build.components:
        if part.motion is not None:
            for mark in (part.mark, *part.motion.carries):
                moves[mark.split(".")[0]] = part.mark
    return moves


def _shafts(site: Site) -> list[_Round]:
    found = []
    for name, body in site.placed.bodies.items():
        solid, mark = body.solid, site.placed.mark_of[name]
        if solid.shape == "round" and not solid.bore:
            found.append(_round(site, name, mark, solid.diameter, "size.diameter"))
    return found


def _round(site: Site, name: str, mark: str, diameter: float, field: str) -> _Round:
    transform, solid = site.placed.transforms[name], site.placed.bodies[name].solid
    start, way = transform.point((0.0, 0.0, 0.0)), transform.direction((1.0, 0.0, 0.0))
    axis = Turned(start, way, ((0.0, diameter / 2.0), (solid.length, diameter / 2.0)))
    spot = Spot(mark, "left", 0.0, 0.0, diameter / 2.0)
    return _Round(name, mark, axis, solid.length, diameter, f"components[{mark}].{field}", spot)


def _holes(site: Site) -> list[_Round]:
    """Bores of posed round parts, and through holes that a person placed by hand for a shaft."""
    found = []
    for name, body in site.placed.bodies.items():
        mark, transform = site.placed.mark_of[name], site.placed.transforms[name]
        if body.solid.bore:
            found.append(_round(site, name, mark, body.solid.bore, "size.bore"))
        if body.solid.shape != "block":
            continue
        for hole in site.parts[mark].component.holes:
            if hole.kind not in ("plain", "reamed") or hole.depth is not None:
                continue
            if hole.diameter is None or hole.v is None:
                continue
            frame = face_frame(body.solid, hole.face)
            deep = abs(dot(frame.inward, (body.solid.length, body.solid.width, body.solid.thickness)))
            start = transform.point(frame.point(hole.u.mm, hole.v.mm))
            radius = hole.diameter.mm / 2.0
            axis = Turned(start, transform.direction(frame.inward), ((0.0, radius), (deep, radius)))
            at = f"components[{mark}].holes[{hole.id}].diameter"
            spot = Spot(mark, hole.face, hole.u.mm, hole.v.mm, radius)
            found.append(_Round(name, mark, axis, deep, hole.diameter.mm, at, spot))
    return found


def _in_line(shaft: _Round, hole: _Round) -> bool:
    """Whether the two axes are one, and the shaft lies in the hole for some of its length."""
    if abs(dot(shaft.axis.way, hole.axis.way)) < 1.0 - 1e-6:
        return False
    away: Vector = subtract(hole.axis.start, shaft.axis.start)
    first = dot(away, shaft.axis.way)
    foot = along(shaft.axis.start, (shaft.axis.way, first))
    off = subtract(hole.axis.start, foot)
    if math.sqrt(dot(off, off)) > _IN_LINE_MM:
        return False
    last = first + hole.length_mm * dot(hole.axis.way, shaft.axis.way)
    return min(max(first, last), shaft.length_mm) - max(min(first, last), 0.0) > 0.01


def _binding(site: Site, shaft: _Round, hole: _Round, room: float, least: float) -> Seen:
    parts = {mark: site.parts[mark].component for mark in (shaft.mark, hole.mark)}
    one, other = parts[shaft.mark], parts[hole.mark]
    if room < -1e-6:
        why = f"the shaft is {_n(-room)} mm thicker than the hole: it does not go in, let alone run"
    elif room <= 1e-6:
        why = "by the sizes given both are the same, so that it binds; give the true sizes, or keep a fit"
    else:
        why = f"{_n(room)} mm of clearance is little for a hand-made bearing"
    says = (
        f"{one.mark} {one.name} ({number_text(shaft.diameter_mm)} mm) runs in {other.mark} {other.name} "
        f"({number_text(hole.diameter_mm)} mm): {why}. Give it {_n(least)} mm or more."
    )
    mends = _mends(one, other, shaft, hole, least)
    return Seen(
        "error" if room < -1e-6 else "warning", says, part=other.mark, place=one.mark, value=room,
        limit=least, unit="mm", at=hole.field, spots=(hole.spot,), mends=mends,
    )  # fmt: skip


def _mends(one: Component, other: Component, shaft: _Round, hole: _Round, least: float) -> tuple[Mend, ...]:
    """Ream the hole to a hundredth over the least clearance; turn the shaft down where the hole is made."""
    add = math.ceil(least * 100.0 + 1.0 - 1e-9) / 100.0
    if other.state in _OPEN and other.made_size is None:
        written = f"{shaft.diameter_mm + add:.6g} mm"
        return (setting(f"Ream {other.mark} to {written}.", (hole.field, written)),)
    if one.state in _OPEN and one.made_size is None:
        written = f"{hole.diameter_mm - add:.6g} mm"
        return (setting(f"Turn {one.mark} to {written}.", (shaft.field, written)),)
    return ()


RULES: tuple[BuildRule, ...] = (_running_fit,)
