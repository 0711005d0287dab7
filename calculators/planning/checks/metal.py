"""Rules for parts of metal: holes near edges; bends are in `bent_sheet.py`."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from calculators.geometry.features import edge_distances
from calculators.geometry.frames import face_frame
from calculators.geometry.model import Face, Solid
from calculators.geometry.vectors import Vector
from calculators.hardware.threads import find_thread
from calculators.joints.limits import Limit
from calculators.joints.model import Mend, Severity, Spot
from calculators.planning.checks import bent_sheet
from calculators.planning.checks.keeping import looked_at
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting
from calculators.planning.checks.shifting import millimetres, own_way, shifted_places, step_from
from calculators.planning.checks.site import JointSite, PartSite, Site, material_of
from calculators.planning.model import Hole, Joint
from calculators.quantities.errors import InputError

_TINY = 1e-6
_SCREW_HOLES = ("clearance", "tapping", "slot", "plain", "reamed")
_HAND_HOLES = ("clearance", "tapping", "slot", "pilot")
"""Holes by hand that are for screws; a plain or reamed one may be a bore, of which only the wall counts."""


@dataclass(frozen=True, slots=True)
class _Near:
    """A hole near an edge: how far its centre is from it [mm], its D [mm], and how far in D it should be."""

    part: str
    joint: str
    place: str
    face: Face
    u: float
    v: float
    to_edge: float
    d: float
    least: float
    wanted: float
    loaded: bool = False

    @property
    def share(self) -> float:
        return self.to_edge / self.d


@build_rule(
    "edge-of-metal",
    "metal parts",
    "The middle of a hole lies 1.5 diameters of its screw from the edge of a metal part, 2 where the joint "
    "is loaded sideways.",
    "common practice; Machinery's Handbook (from memory)",
    Limit("edge-of-metal-least", 1.0, "D", CP, "middle of a hole to the edge of metal, at the very least"),
    Limit("edge-of-metal", 1.5, "D", CP, "middle of a hole to the edge of metal"),
    Limit("edge-of-metal-loaded", 2.0, "D", CP, "middle of a hole to the edge of metal, loaded sideways"),
    Limit("edge-of-rod", 0.7, "D", CP, "the middle of a hole on the axis of a rod to its outside"),
)
def _edge_of_metal(site: Site) -> Iterator[Seen]:
    """Holes of joints and holes by hand near the edge of a metal part."""
    joints = looked_at(site, "edge-of-metal", ((one,) for one in site.joints.values()), _of_joint)
    parts = looked_at(site, "edge-of-metal by hand", ((one,) for one in site.parts.values()), _by_hand)
    for found in (*joints, *parts):
        for near, others in found:
            yield _seen(site, near, others)


def _of_joint(things: tuple[JointSite]) -> list[tuple[_Near, list[_Near]]]:
    """The hole of a joint that is nearest to an edge in each metal part, and the others too near."""
    (site,) = things
    worst: dict[str, list[_Near]] = {}
    for one in site.resolved.holes:
        if one.hole is None or one.u_mm is None or one.v_mm is None or one.hole.kind not in _SCREW_HOLES:
            continue
        solid, component = site.placed.solids.get(one.part), site.placed.components.get(one.part)
        material = material_of(component.material) if component else None
        if solid is None or material is None or not material.is_metal or not site.groups:
            continue
        v = one.angle_deg if one.face == "side" and one.angle_deg is not None else one.v_mm
        slot = (one.hole.slot_length_mm or 0.0) - one.hole.diameter_mm if one.hole.slot_along else 0.0
        along_u = max(0.0, slot) if one.hole.slot_along == "u" else 0.0
        along_v = max(0.0, slot) if one.hole.slot_along == "v" else 0.0
        near = _looked(
            site.limits, solid, (one.part, site.mark, one.place), (one.face, one.u_mm, v), (along_u, along_v),
            site.groups[0].result.major_mm, _wanted_of(site.joint),
        )  # fmt: skip
        if near is not None:
            worst.setdefault(one.part, []).append(near)
    return [_worst_first(found) for found in worst.values()]


def _worst_first(found: list[_Near]) -> tuple[_Near, list[_Near]]:
    worst = min(found, key=lambda each: each.share)
    return worst, [one for one in found if one is not worst]


def _wanted_of(joint: Joint) -> str:
    """The limit that a joint's holes keep to: a screw that pulls nothing, as in a collar, has the least."""
    if joint.loaded_sideways:
        return "edge-of-metal-loaded"
    return "edge-of-metal" if joint.clamps else "edge-of-metal-least"


def _by_hand(things: tuple[PartSite]) -> list[tuple[_Near, list[_Near]]]:
    """Holes that a person places in a metal part: those for screws, and any that leave next to no wall."""
    (site,) = things
    if site.solid is None or site.material is None or not site.material.is_metal:
        return []
    found: list[tuple[_Near, list[_Near]]] = []
    for hole in site.component.holes:
        d = _screw_mm(hole)
        if d is None or hole.kind in ("spot", "insert"):
            continue
        v = float(hole.angle_deg or 0) if hole.face == "side" else (hole.v.mm if hole.v else 0.0)
        slot = max(0.0, hole.slot_length.mm - hole.diameter.mm) if hole.slot_length and hole.diameter else 0.0
        ends = (slot if hole.slot_along == "u" else 0.0, slot if hole.slot_along == "v" else 0.0)
        where = (site.mark, "", hole.id)
        near = _looked(site.limits, site.solid, where, (hole.face, hole.u.mm, v), ends, d, "edge-of-metal")
        if near is not None and (hole.kind in _HAND_HOLES or near.share < near.least - _TINY):
            found.append((near, []))
    return found


def _screw_mm(hole: Hole) -> float | None:
    """The D of a hole by hand: its thread's, else its own diameter."""
    if hole.thread:
        try:
            return find_thread(hole.thread).major_mm
        except InputError:
            return hole.diameter.mm if hole.diameter else None
    return hole.diameter.mm if hole.diameter else None


def _looked(
    limits: Mapping[str, float], solid: Solid, where: tuple[str, str, str], at: tuple[Face, float, float],
    ends: tuple[float, float], d: float, limit: str,
) -> _Near | None:  # fmt: skip
    """The hole where it is nearer to an edge than is wanted; a slot by the nearer of its ends."""
    face, u, v = at
    to_edge = min(
        edge_distances(solid, face, u + side * ends[0] / 2.0, v + side * ends[1] / 2.0).least_mm
        for side in (-1.0, 1.0)
    )
    if to_edge < 0.0 or d <= 0.0:
        return None  # off the part, which is told by itself
    least = limits["edge-of-metal-least"]
    wanted = max(least, limits[limit])
    if _on_the_axis(solid, face, u, v):
        least = wanted = limits["edge-of-rod"]
    if to_edge >= wanted * d - _TINY:
        return None
    return _Near(*where, face, u, v, to_edge, d, least, wanted, limit == "edge-of-metal-loaded")


def _on_the_axis(solid: Solid, face: Face, u: float, v: float) -> bool:
    """In the end of a rod, on its axis: there the wall is alike all round, and no edge is near."""
    return solid.shape == "round" and face in ("left", "right") and math.hypot(u, v) < 0.02 * solid.diameter


def _seen(site: Site, near: _Near, others: list[_Near]) -> Seen:
    severity: Severity = "error" if near.share < near.least - _TINY else "warning"
    limit = near.least if severity == "error" else near.wanted
    where = (
        f"at place {near.place}" if near.joint and near.place else f"hole {near.place}" if near.place else ""
    )
    cost = "it tears out or breaks through" if severity == "error" else "little metal is left to hold"
    why = " where the joint is loaded sideways" if near.loaded else ""
    many = "s" if len(others) > 1 else ""
    too = f" {len(others)} more hole{many} of {near.joint} in {near.part} {'are' if many else 'is'} too near."
    says = (
        f"{(near.joint or near.part)}{' ' + where if where else ''}: the middle of the hole is "
        f"{near.to_edge:.1f} mm from the edge of {near.part}, {near.share:.2f} D; {near.wanted:g} D is wanted"
        f"{why}, {near.wanted * near.d:.1f} mm: {cost}.{too if others else ''}"
    )
    if near.joint:
        path = f"joints[{near.joint}].places[{near.place}]" if near.place else f"joints[{near.joint}]"
    else:
        path = f"components[{near.part}].holes[{near.place}]"
    spots = tuple(Spot(one.part, one.face, one.u, one.v, max(one.d / 2.0, 2.0)) for one in (near, *others))
    return Seen(
        severity, says, near.joint, near.part, near.place, near.share, limit, "D",
        _mends(site, near, others), path, spots,
    )  # fmt: skip


def _mends(site: Site, near: _Near, others: list[_Near]) -> tuple[Mend, ...]:
    """Move all that are too near at once; where that cannot be, the worst alone; else words."""
    solid = site.parts[near.part].solid
    step = _inward(solid, near) if solid is not None else None
    if solid is not None and step is not None:
        if near.joint:
            joint = site.joints[near.joint].joint
            for each in ((near, *others), (near,)) if others else ((near,),):
                ways = _ways(solid, each)
                mend = shifted_places(site, joint, near.part, ways) if ways else None
                if mend is not None:
                    return (mend,)
        else:
            path = f"components[{near.part}].holes[{near.place}]"
            fields = [
                (name, now + by) for name, now, by in (("u", near.u, step[0]), ("v", near.v, step[1])) if by
            ]
            far = math.hypot(*step)
            moves = ((f"{path}.{name}", millimetres(value)) for name, value in fields)
            return (setting(f"Move hole {near.place} {millimetres(far)} in.", *moves),)
    return (Mend("A thinner screw, or a wider part."),)


def _ways(solid: Solid, found: tuple[_Near, ...]) -> dict[str, Vector]:
    """How far each place must move in the part; nothing where one of them has nowhere to go."""
    ways: dict[str, Vector] = {}
    for one in found:
        step = _inward(solid, one)
        if step is None:
            return {}
        way = own_way(solid, one.face, *step)
        if ways.setdefault(one.place, way) != way:
            return {}
    return ways


def _inward(solid: Solid, near: _Near) -> tuple[float, float] | None:
    """How far the hole must go along u and v; None where the part is too narrow, or it is in a rod's end."""
    if near.face == "side" or solid.shape == "round":
        return None
    frame = face_frame(solid, near.face)
    wanted = near.wanted * near.d
    step = [0.0, 0.0]
    for index, (now, (low, high)) in enumerate(((near.u, frame.u_range), (near.v, frame.v_range))):
        if high - low < 2.0 * wanted - _TINY:
            if min(now - low, high - now) < wanted - _TINY:
                return None
        elif now - low < wanted - _TINY:
            step[index] = step_from(now, low + wanted - now)
        elif high - now < wanted - _TINY:
            step[index] = -step_from(now, wanted - (high - now))
    moved = edge_distances(solid, near.face, near.u + step[0], near.v + step[1]).least_mm
    return (step[0], step[1]) if any(step) and moved >= wanted - _TINY else None


RULES: tuple[BuildRule, ...] = (_edge_of_metal, *bent_sheet.RULES)
