"""Mends that move a joint's place or a hole by hand within a part, tried before they are offered."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import replace

from calculators.geometry.features import edge_distances
from calculators.geometry.frames import face_frame
from calculators.geometry.model import Face, Solid
from calculators.geometry.vectors import Vector, dot
from calculators.joints.model import Finding, Mend
from calculators.planning.checks.rule import setting
from calculators.planning.checks.site import Site
from calculators.planning.model import Joint
from calculators.planning.resolving import ResolvedJoint, resolve_joint
from calculators.quantities.length import Length

_GRAVE = ("error", "warning")


def millimetres(value: float) -> str:
    """A length as a mend writes it, whatever a bare number means in the build.

    Args:
        value: the length [mm]; to the hundredth.

    Returns:
        Its writing.

    Source: this project.

    Example:
        >>> millimetres(12.0), millimetres(7.254)
        ('12 mm', '7.25 mm')
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return f"{'0' if text in ('-0', '') else text} mm"


def at_least(value: float) -> float:
    """A tidy length that is no less: to the half millimetre above.

    Args:
        value: the length [mm].

    Returns:
        The length [mm].

    Source: common practice.

    Example:
        >>> at_least(3.2), at_least(3.5)
        (3.5, 3.5)
    """
    return math.ceil(value * 2.0 - 1e-6) / 2.0


def step_from(now: float, by: float) -> float:
    """A tidy step from a place that is no less, though where it leads is written to the hundredth.

    Args:
        now: where it begins [mm].
        by: how far it must go at least [mm].

    Returns:
        The step [mm].

    Source: common practice.

    Example:
        >>> step_from(10.0, 2.5), step_from(10.004, 2.5)
        (2.5, 3.0)
    """
    return at_least(by if abs(now - round(now, 2)) < 1e-7 else by + 0.005)


def own_way(solid: Solid, face: Face, along_u: float, along_v: float) -> Vector:
    """Give a movement on a face of a part in the part's own frame.

    Args:
        solid: the part.
        face: one of its faces.
        along_u: how far along the face's u [mm].
        along_v: how far along its v [mm].

    Returns:
        The movement [mm].

    Source: this project.
    """
    frame = face_frame(solid, face)
    u, v = frame.u_axis, frame.v_axis
    return (
        u[0] * along_u + v[0] * along_v,
        u[1] * along_u + v[1] * along_v,
        u[2] * along_u + v[2] * along_v,
    )


def shifted_place(site: Site, joint: Joint, place: str, part: str, way: Vector) -> Mend | None:
    """Offer to move one place of a joint, where nothing of the joint is worse for it.

    Args:
        site: the build.
        joint: the joint.
        place: the id of the place.
        part: the mark of the part in which it is to move.
        way: how far, in the part's own frame [mm].

    Returns:
        The mend; None where the place cannot be moved so on its face, or the joint would have more errors or
        warnings than before.

    Source: this project.
    """
    return shifted_places(site, joint, part, {place: way})


def shifted_places(site: Site, joint: Joint, part: str, ways: Mapping[str, Vector]) -> Mend | None:
    """Offer to move several places of a joint at once, where nothing of the joint is worse for it.

    Args:
        site: the build.
        joint: the joint.
        part: the mark of the part in which they are to move.
        ways: how far each is to move, by its id, in the part's own frame [mm].

    Returns:
        The mend; None where a place cannot be moved so on its face, the joint would have more errors or
        warnings than before, or a hole would come too near an edge of a metal part.

    Source: this project.
    """
    told, fields, now = [], [], {}
    for place, way in ways.items():
        was = next((one for one in joint.places if one.id == place), None)
        step = _on_home(site, joint, place, part, way)
        if was is None or was.v is None or step is None:
            return None
        u, v = was.u.mm + step[0], was.v.mm + step[1]
        changed = [(name, millimetres(value)) for name, value, old in (("u", u, was.u.mm), ("v", v, was.v.mm))
                   if abs(value - old) > 0.005]  # fmt: skip
        if not changed:
            return None
        now[place] = replace(was, u=Length.of_mm(round(u, 2)), v=Length.of_mm(round(v, 2)))
        to = " and ".join(f"{name} {value}" for name, value in changed)
        told.append(f"place {place} of {joint.mark} by {millimetres(math.hypot(*step))}, to {to}")
        fields += [(f"joints[{joint.mark}].places[{place}].{name}", value) for name, value in changed]
    moved = replace(joint, places=tuple(now.get(one.id, one) for one in joint.places))
    before, after = site.joints[joint.mark].resolved, resolve_joint(site.build, moved, site.placed)
    if any(_grave(after.findings, severity) > _grave(before.findings, severity) for severity in _GRAVE):
        return None
    d_mm = after.joints[0].result.major_mm if after.joints else 0.0
    if _at_metal_edges(site, after, d_mm) > _at_metal_edges(site, before, d_mm):
        return None
    if len(told) == 1:
        return setting(f"Move {told[0]}.", *fields)
    bare = [one.replace(f" of {joint.mark}", "", 1) for one in told]
    return setting(f"Move {len(told)} places of {joint.mark}: {'; '.join(bare)}.", *fields)


def _at_metal_edges(site: Site, resolved: ResolvedJoint, d_mm: float) -> int:
    """How many holes of a joint are too near an edge of a metal part."""
    least = site.limits["edge-of-metal"] * d_mm - 1e-6
    count = 0
    for one in resolved.holes:
        solid, part = site.placed.solids.get(one.part), site.parts.get(one.part)
        if solid is None or part is None or part.material is None or not part.material.is_metal:
            continue
        if one.u_mm is None or one.v_mm is None or one.face == "side":
            continue
        count += edge_distances(solid, one.face, one.u_mm, one.v_mm).least_mm < least
    return count


def _grave(findings: Iterable[Finding], severity: str) -> int:
    return sum(one.severity == severity for one in findings)


def _on_home(site: Site, joint: Joint, place: str, part: str, way: Vector) -> tuple[float, float] | None:
    """The movement along u and v of the face that the joint is placed on."""
    placed = site.placed
    if not joint.face or joint.face == "side":
        return None
    home, own = "", way
    for axis in site.joints[joint.mark].resolved.axes:
        copy = next((one.copy for one in axis.stretches if placed.mark_of[one.copy] == part), None)
        if axis.place == place and copy is not None:
            world = placed.transforms[copy].direction(way)
            home, own = axis.home, placed.transforms[axis.home].own_direction(world)
            break
    if not home:
        if placed.mark_of.get(joint.home) != part or joint.home in placed.transforms:
            return None
        home = joint.home
    solid = placed.solids.get(placed.mark_of[home])
    if solid is None:
        return None
    frame = face_frame(solid, joint.face)
    if abs(dot(own, frame.inward)) > 0.01:
        return None  # it would have to move along its own axis
    return dot(own, frame.u_axis), dot(own, frame.v_axis)
