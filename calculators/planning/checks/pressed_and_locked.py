"""Rules for how screws hold: grub screws on shafts, locks at pivots, waxed inserts, pulls on end grain."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

from calculators.geometry.vectors import Vector, dot, scale, subtract
from calculators.joints.limits import Limit
from calculators.joints.model import LayerHole, Mend, Spot
from calculators.planning.checks.keeping import looked_at
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, joint_rule, setting
from calculators.planning.checks.site import JointSite, Site, material_of
from calculators.planning.model import Hole
from calculators.planning.movement import AxisAt
from calculators.planning.placing import PlacedBuild
from calculators.planning.worked import WorkedJoint

_TINY = 1e-6
_SEAT = re.compile(
    r"\bflat(s|ted)?\b|dimple|\bpad\b|\bspot(ted)?\b|brass tip|nylon tip|soft tip|dog point", re.I
)
_WAX = re.compile(r"\bwax|\bcandle|\bsoap|\btallow|\bbeeswax", re.I)
_FAR_MM = 60.0


def _is_grub(joint: JointSite) -> bool:
    if not joint.groups:
        return False
    screw = joint.groups[0].result.fastener
    return screw.kind == "grub screw" or (screw.head == "none" and screw.kind == "screw")


@build_rule(
    "grub-screw",
    "joints",
    "A grub screw reaches the shaft that it holds, and bears on a flat, a dimple or a soft pad.",
    CP,
    Limit("grub-screw-short", 0.05, "mm", CP, "a grub screw may end this far short of its shaft"),
)
def _grub_screw(site: Site) -> Iterator[Seen]:
    """Grub screws that end before the shaft, or bear on its bare round."""
    grubs = [one for one in site.joints.values() if _is_grub(one)]
    each = ((one, site.placed) for one in grubs)
    for joint, found in zip(grubs, looked_at(site, "grub-screw", each, _bearings), strict=True):
        for shaft, short, spot in found[:1]:
            yield from _grub_seen(site, joint, shaft, short, spot)


Bearing = tuple[str, float, Spot | None]


def _bearings(things: tuple[JointSite, PlacedBuild]) -> list[Bearing]:
    """The shafts that a grub screw points at: the mark, how far it ends short, where; the worst first."""
    joint, placed = things
    found: list[Bearing] = []
    for group in joint.groups:
        named = _named_shaft(group)
        if named is not None:
            found.append((*named, None))
    if not found:
        found = [one for axis in joint.resolved.axes if (one := _met_shaft(axis, placed)) is not None]
    return sorted(found, key=lambda one: -one[1])


def _tapped(group: WorkedJoint) -> LayerHole | None:
    """The last hole that the screw runs in."""
    return next((hole for hole in reversed(group.result.holes) if hole.kind == "tapping"), None)


def _extent(group: WorkedJoint, layer: int) -> tuple[float, float]:
    items = [index for index, item in enumerate(group.inputs.stack) if item.layer is not None]
    extent = next(one for one in group.result.extents if one.item == items[layer])
    return extent.enter_mm, extent.leave_mm


def _named_shaft(group: WorkedJoint) -> tuple[str, float] | None:
    """The part that the stack names beyond the thread, and how far the screw ends short of it."""
    tapped = _tapped(group)
    if tapped is None or tapped.layer + 1 >= len(group.result.holes):
        return None
    after = group.result.holes[tapped.layer + 1]
    enter, _ = _extent(group, after.layer)
    return after.part, enter - group.result.tip_mm


def _met_shaft(axis: AxisAt, placed: PlacedBuild) -> Bearing | None:
    """The round part that the axis meets beyond the thread, as the parts lie."""
    tapped = _tapped(axis.worked)
    if tapped is None:
        return None
    own = {one.copy for one in axis.stretches}
    met = placed.layers(axis.start, axis.way, _FAR_MM)
    entered = next((one.enter for one in met if placed.mark_of[one.name] == tapped.part), None)
    beyond = [one for one in met if one.name not in own and entered is not None and one.enter > entered]
    if not beyond or placed.bodies[beyond[0].name].solid.shape != "round" or entered is None:
        return None
    shaft = beyond[0]
    enter, _ = _extent(axis.worked, tapped.layer)
    tip = entered + axis.worked.result.tip_mm - enter
    spot = Spot(placed.mark_of[shaft.name], shaft.face_in, shaft.u_in, shaft.v_in, 2.0)
    return placed.mark_of[shaft.name], shaft.enter - tip, spot


def _grub_seen(site: Site, joint: JointSite, shaft: str, short: float, spot: Spot | None) -> Iterator[Seen]:
    spots, limit = (spot,) if spot is not None else (), site.limits["grub-screw-short"]
    if short > limit + _TINY:
        says = f"The grub screw of {joint.mark} ends {short:.2f} mm short of {shaft}: it holds nothing."
        mend = Mend(f"Use one at least {short:.1f} mm longer.")
        at = f"joints[{joint.mark}].fastener"
        yield Seen("error", says, joint.mark, shaft, "", short, limit, "mm", (mend,), at, spots)
    elif not _has_seat(site, joint, shaft, spot):
        says = (
            f"The grub screw of {joint.mark} bears on the bare round of {shaft}: it raises a burr and "
            "creeps. File a flat, drill a dimple, or put a soft pad under it, and note it."
        )
        note = f"{joint.joint.note} Bears on a flat.".strip()
        mend = setting(
            "File a flat on the shaft, and note it with the joint.", (f"joints[{joint.mark}].note", note)
        )
        yield Seen(
            "warning", says, joint.mark, shaft, mends=(mend,), at=f"joints[{joint.mark}].note", spots=spots
        )


def _has_seat(site: Site, joint: JointSite, shaft: str, spot: Spot | None) -> bool:
    part = site.parts.get(shaft)
    if part is None or part.solid is None or part.solid.shape != "round":
        return True  # on a flat part already
    one = joint.joint
    words = f"{one.note} {one.title} {one.lock} {one.fastener} {part.component.note}"
    if _SEAT.search(words):
        return True
    dimples = [hole for hole in part.component.holes if hole.face == "side" and hole.depth is not None]
    if spot is None:  # where it stands on the shaft is not known
        return bool(dimples) or any(one.face not in ("left", "right") for one in part.component.pockets)
    if spot.face != "side":
        return True  # the floor of a flat or slot
    return any(_is_at(hole, spot, part.solid.diameter / 2.0) for hole in dimples)


def _is_at(hole: Hole, spot: Spot, radius: float) -> bool:
    """Whether a hole in the side of a shaft is where a screw comes to stand on it."""
    turn = (float(hole.angle_deg or 0) - spot.v_mm + 180.0) % 360.0 - 180.0
    off = math.hypot(hole.u.mm - spot.u_mm, math.radians(turn) * radius)
    return off <= max(hole.diameter.mm / 2.0 if hole.diameter is not None else 0.0, 0.5)


@build_rule(
    "lock-at-pivot",
    "joints",
    "A screw that something turns about is locked, since each swing unscrews it a little.",
    "VDI 2230 on self-loosening (from memory); common practice",
)
def _lock_at_pivot(site: Site) -> Iterator[Seen]:
    """Machine screws on the axis of a part that turns, without a lock."""
    movers = _movers(site)
    if not movers:
        return
    for joint in site.joints.values():
        axes = joint.resolved.axes
        if axes and not _is_locked(joint) and joint.groups[0].result.fastener.family == "machine":
            turning = next((name for axis in axes if (name := _turns_about(site, movers, axis))), "")
            if turning:
                says = (
                    f"{turning} turns about the screw of {joint.mark}, and nothing locks it: each swing "
                    "unscrews it a little."
                )
                grade = "low-strength threadlocker" if joint.groups[0].result.major_mm <= 6 else (
                    "medium-strength threadlocker"
                )  # fmt: skip
                path = f"joints[{joint.mark}].lock"
                mends = (setting(f"Lock it: {grade}.", (path, grade)), Mend("Use a stiff nut, or two nuts."))
                yield Seen("error", says, joint.mark, turning, mends=mends, at=path)


def _movers(site: Site) -> dict[str, str]:
    """By part, the part with whose turning it moves."""
    movers: dict[str, str] = {}
    for one in site.build.components:
        if one.motion is not None and one.motion.kind == "turns":
            movers[one.mark] = one.mark
            movers.update({mark: one.mark for mark in one.motion.carries if mark not in movers})
    return movers


def _is_locked(joint: JointSite) -> bool:
    if joint.joint.lock.strip() or not joint.groups:
        return True
    nuts = [item.nut for item in joint.groups[0].inputs.stack if item.nut is not None]
    return len(nuts) > 1 or any(nut.form == "stiff" for nut in nuts)


def _turns_about(site: Site, movers: dict[str, str], axis: AxisAt) -> str:
    """The mark of the part that turns about a screw's own axis, against another part of the joint."""
    placed = site.placed
    by = {movers.get(placed.mark_of[one.copy], "") for one in axis.stretches}
    for name in sorted(by - {""}) if len(by) > 1 else ():
        motion = site.parts[name].component.motion
        copy = next((one for one in site.parts[name].copies if one in placed.transforms), None)
        if motion is None or copy is None:
            continue
        own: Vector = {"X": (1.0, 0.0, 0.0), "Y": (0.0, 1.0, 0.0), "Z": (0.0, 0.0, 1.0)}[motion.axis]
        way = placed.transforms[copy].direction(own)
        point = placed.transforms[copy].point((motion.x.mm, motion.y.mm, motion.z.mm))
        off = subtract(axis.start, point)
        aside = subtract(off, scale(way, dot(off, way)))
        if abs(dot(way, axis.way)) > 0.9998 and dot(aside, aside) < 0.25:
            return name
    return ""


@build_rule(
    "insert-wax",
    "joints",
    "A threaded insert goes into hardwood waxed, which the step that fits it says.",
    CP,
)
def _insert_wax(site: Site) -> Iterator[Seen]:
    """Inserts into hardwood that no step or note waxes."""
    for joint in site.joints.values():
        host = _hardwood_host(joint)
        if not host or _WAX.search(joint.joint.note):
            continue
        steps = [one for one in site.build.steps if joint.mark in one.fits]
        if any(_WAX.search(f"{one.title} {one.note} {one.caution} {one.check}") for one in steps):
            continue
        says = (
            f"The insert of {joint.mark} goes into hardwood ({host}), and nothing says that it goes in "
            "waxed: dry it drives hard and splits the wood. Try the hole in scrap first."
        )
        if steps:
            path, now = f"steps[{steps[0].number}].note", steps[0].note
        else:
            path, now = f"joints[{joint.mark}].note", joint.joint.note
        mend = setting(
            "Note that it goes in waxed.", (path, f"{now} Wax the insert of {joint.mark}.".strip())
        )
        yield Seen("note", says, joint.mark, host, mends=(mend,), at=path)


def _hardwood_host(joint: JointSite) -> str:
    for group in joint.groups:
        if any(item.insert is not None for item in group.inputs.stack):
            hole = next((one for one in group.result.holes if one.kind == "insert"), None)
            layers = [item.layer for item in group.inputs.stack if item.layer is not None]
            if hole is not None:
                material = material_of(layers[hole.layer].material)
                return hole.part if material is not None and material.kind == "hardwood" else ""
    return ""


@joint_rule(
    "end-grain-pull",
    "wood",
    "Nothing that carries a pull hangs on a screw or insert in end grain.",
    "USDA Wood Handbook ch. 8 (from memory)",
)
def _end_grain_pull(site: JointSite) -> Iterator[Seen]:
    """Screws and inserts in end grain that a load pulls out."""
    if not site.joint.pulled:
        return
    told: set[str] = set()
    for group in site.groups:
        layers = [item.layer for item in group.inputs.stack if item.layer is not None]
        for hole in group.result.holes:
            layer = layers[hole.layer]
            material = material_of(layer.material)
            wood = material is not None and material.is_solid_wood
            if not wood or layer.grain != "end" or hole.kind not in ("pilot", "insert") or hole.part in told:
                continue
            told.add(hole.part)
            says = (
                f"{site.mark} carries a pull and holds in the end grain of {hole.part}, where a thread is "
                "not to be relied on: what hangs on it comes off. A cross-dowel, or a plug with its grain "
                "across the screw, holds."
            )
            mend = Mend("Put a cross-dowel or a cross-grained plug in its way, or screw into side grain.")
            place = group.places[0] if len(site.groups) > 1 and group.places else ""
            at = f"joints[{site.mark}].pulled"
            yield Seen("error", says, site.mark, hole.part, place, mends=(mend,), at=at)


RULES: tuple[BuildRule, ...] = (_grub_screw, _lock_at_pivot, _insert_wax, _end_grain_pull)
