"""What holds: thread engaged, penetration, preload, and the pressure of heads, nuts and washers."""

from __future__ import annotations

from dataclasses import replace

from calculators.joints.model import JointInput
from calculators.joints.worked import Bite, Member, Pressure, Screw, Stack
from calculators.materials.metals import engagement_of
from calculators.mechanics import bolts
from calculators.mechanics.washer_bearing import bearing_opening_mm, ring_area_mm2

_METAL_KIND = {"steel": "steel", "plated steel": "steel", "stainless": "stainless steel"}


def engagement_rule_d(bite: Bite) -> float | None:
    """How much thread a screw should have in this part.

    Args:
        bite: the thread it runs in.

    Returns:
        Diameters of the screw, or None where there is no rule (wood, or a material that is not known).

    Source: common practice.
    """
    if bite.kind == "tapped" and bite.member.material is not None:
        return bite.member.material.engagement_diameters
    if bite.kind == "insert" and bite.member.metal:
        metal = bite.member.metal
        return engagement_of(_METAL_KIND.get(metal, metal))
    return None


def engaged(
    bites: tuple[Bite, ...], plain_mm: float | None, start_mm: float, tip_mm: float
) -> tuple[Bite, ...]:
    """Fill in how much of each thread the screw's own thread fills.

    Args:
        bites: the threads.
        plain_mm: the plain shank [mm]; None counts as none.
        start_mm: where the screw's length begins on the axis [mm].
        tip_mm: where its point ends [mm].

    Returns:
        The threads with `engaged_mm`.

    Source: geometry.
    """
    begins = start_mm + (plain_mm or 0.0)
    filled = []
    for bite in bites:
        first = bite.enter_mm if bite.kind == "wood" else max(bite.enter_mm, begins)
        filled.append(replace(bite, engaged_mm=max(min(bite.leave_mm, tip_mm) - first, 0.0)))
    return tuple(filled)


def preload_n(joint: JointInput, screw: Screw) -> float | None:
    """The preload from the torque.

    F = T / (K d)

    Args:
        joint: the joint, with its torque [N m] and nut factor K.
        screw: the fastener's sizes.

    Returns:
        The preload [N], or None without a torque, for a wood screw, or where nothing is clamped.

    Source: Machinery's Handbook (from memory); K = 0.2 dry, scatter about 30 % (common practice).
    """
    if joint.torque_nm is None or screw.is_wood or not joint.clamps:
        return None
    return bolts.preload_n(joint.torque_nm, joint.nut_factor, screw.major_mm)


def pressures(
    joint: JointInput, screw: Screw, stack: Stack, openings_mm: tuple[float, ...], preload: float | None
) -> tuple[Pressure, ...]:
    """The pressure on the first and the last layer, under the head and under the nut.

    p = F / (pi / 4 (OD^2 - ID^2)), ID being the washer's own hole, or the hole in the layer where that is
    more than a tenth wider or there is no washer.

    Args:
        joint: the joint.
        screw: the fastener's sizes.
        stack: the stack as laid out.
        openings_mm: the width of the hole in each layer [mm].
        preload: the preload [N], or None.

    Returns:
        A pressure for each side that is clamped by a head or a nut.

    Source: mechanics; the needs of wood from Wood Handbook table 5-3.
    """
    if not joint.clamps or screw.is_wood:
        return ()
    layers = stack.layers
    first, last = layers[0], layers[-1]
    found = []
    if not screw.headless and not screw.countersunk:
        between = [m for m in stack.members if m.item < first.item]
        found.append(_pressure(first, "head", between, screw.spread_mm, openings_mm[0], preload))
    behind = [m for m in stack.members if m.item > last.item]
    nuts = [m for m in behind if m.kind == "nut"]
    if nuts:
        between = [m for m in behind if m.item < nuts[0].item][::-1]
        found.append(_pressure(last, "nut", between, nuts[0].flats_mm, openings_mm[-1], preload))
    return tuple(found)


def _pressure(
    layer: Member,
    by: str,
    between: list[Member],
    spread_mm: float | None,
    hole_mm: float,
    preload: float | None,
) -> Pressure:
    """`between` are the members from the head or nut to the layer; the last washer bears on the layer."""
    flat = [
        m for m in between if m.kind == "washer" and m.washer and m.washer.form not in ("spring", "crinkle")
    ]
    washer = flat[-1] if flat else None
    outside = washer.outside_mm if washer else spread_mm
    opening = bearing_opening_mm(hole_mm, washer.inside_mm if washer is not None else None)
    area = ring_area_mm2(outside, opening) if outside is not None and outside > opening else None
    mpa = preload / area if preload is not None and area else None
    bearer = f"washer under the {by}" if washer else by
    return Pressure(layer, bearer, washer, outside, opening, area, mpa, spread_mm)
