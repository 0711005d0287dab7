"""How wide each hole is: clearance, tapping, pilot and insert holes, rounded to a drill."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import cast

from calculators.hardware.drill_sets import drill_set
from calculators.hardware.drills import Drill, Way, all_drills, nearest_drill
from calculators.hardware.holes import Fit, clearance_hole, tapping_hole
from calculators.hardware.threads import Thread
from calculators.joints.sizes import look_up
from calculators.joints.worked import Bite, Member, Missing, Worked
from calculators.quantities.errors import InputError

INSERT_OVER_HARDWOOD_MM = 0.4


@lru_cache(maxsize=64)
def drills_owned(sets: tuple[str, ...]) -> tuple[Drill, ...] | Missing:
    """The drills of the sets that are owned; an empty tuple where none is stated.

    Args:
        sets: sets as people write them.

    Returns:
        The drills, or what could not be read.

    Source: this project.
    """
    if not sets:
        return ()
    return look_up("the drills owned", lambda: drill_set("; ".join(sets)))


@lru_cache(maxsize=4096)
def _nearest(diameter_mm: float, way: Way, sets: tuple[str, ...]) -> Drill | None:
    owned = drills_owned(sets)
    among = owned if isinstance(owned, tuple) and owned else all_drills()
    try:
        return nearest_drill(diameter_mm, way=way, among=among)
    except InputError:
        return None


def drill_named(diameter_mm: float, sets: tuple[str, ...]) -> str:
    """The name of the drill of a diameter, or the diameter in words where there is no such drill.

    Args:
        diameter_mm: the diameter [mm], over 0.
        sets: the sets of drills owned.

    Returns:
        A drill's name, owned ones first.

    Source: this project.

    Example:
        >>> drill_named(2.5, ())
        '2.5 mm'
    """
    for among in (sets, ()):
        drill = _nearest(diameter_mm, "nearest", among)
        if drill is not None and abs(drill.diameter_mm - diameter_mm) < 0.005:
            return drill.name
    return f"{diameter_mm:.4g} mm"


@dataclass(frozen=True, slots=True)
class Bore:
    """A hole's diameter with the words that say what it rests on."""

    diameter_mm: float
    drill: str
    basis: str


def rounded(wanted_mm: float, way: Way, why: str, sets: tuple[str, ...]) -> Bore:
    """Round a diameter to a drill, and say which way.

    Args:
        wanted_mm: the diameter wanted [mm], over 0.
        way: `nearest`, `down` or `up`.
        why: what the diameter rests on, in words.
        sets: the sets of drills owned; empty for any drill.

    Returns:
        The hole.

    Source: this project.
    """
    drill = (
        _nearest(wanted_mm, way, sets) or _nearest(wanted_mm, way, ()) or _nearest(wanted_mm, "nearest", ())
    )
    if drill is None:
        return Bore(wanted_mm, f"{wanted_mm:.4g} mm", why)
    off = drill.diameter_mm - wanted_mm
    if abs(off) < 0.005:
        return Bore(drill.diameter_mm, drill.name, why)
    words = f"{why}: {wanted_mm:.2f} mm, {'up' if off > 0 else 'down'} to {drill.name}"
    if sets and _nearest(wanted_mm, way, sets) is None:
        words += ", which is not among the drills owned"
    return Bore(drill.diameter_mm, drill.name, words)


def bore_of(worked: Worked, member: Member, bite: Bite | None) -> Bore:
    """The hole that a layer needs, by the rules.

    Args:
        worked: the joint, its screw's length known.
        member: the layer.
        bite: the thread in it, or None.

    Returns:
        The diameter, the drill, and what they rest on.

    Source: as the hole's basis says.
    """
    sets = worked.joint.drills
    if member.takes == "pilot":
        return _pilot(worked, member, sets)
    if member.takes == "thread":
        return _tapping(worked, bite, sets)
    if member.takes == "insert":
        return _insert_hole(worked, member, sets)
    return _clearance(worked, member, sets)


def _clearance(worked: Worked, member: Member, sets: tuple[str, ...]) -> Bore:
    screw, layer = worked.screw, member.layer
    assert layer is not None
    if screw.wood is not None:
        return rounded(screw.wood.clearance_hole_mm, "up", screw.wood.clearance_basis, sets)
    if screw.thread is not None:
        hole = _clearance_hole(screw.thread, layer.fit)
        if not isinstance(hole, Missing):
            return rounded(hole[0], "up", hole[1], sets)
    return rounded(1.08 * screw.major_mm, "up", "1.08 D (common practice)", sets)


@lru_cache(maxsize=1024)
def _clearance_hole(thread: Thread, fit: str) -> tuple[float, str] | Missing:
    def call() -> tuple[float, str]:
        hole = clearance_hole(thread, cast(Fit, fit))
        return hole.diameter_mm, f"{fit} fit, {hole.source.says}"

    return look_up("the clearance hole", call)


def _pilot(worked: Worked, member: Member, sets: tuple[str, ...]) -> Bore:
    wood, screw = worked.screw.wood, worked.screw
    if wood is not None:
        if member.is_hardwood:
            return rounded(wood.pilot_hardwood_mm, "nearest", f"hardwood, {wood.pilot_hardwood_basis}", sets)
        kind = "softwood" if member.material is not None else "material not known, taken as softwood"
        return rounded(wood.pilot_softwood_mm, "nearest", f"{kind}, {wood.pilot_softwood_basis}", sets)
    share = 0.75 if member.is_hardwood else 0.55
    root = screw.root_mm or screw.major_mm
    if screw.root_mm is not None:
        share = 0.9 if member.is_hardwood else 0.7
    says = f"{share:.0%} of the {'root' if screw.root_mm else 'shank'} (common practice)"
    return rounded(share * root, "nearest", says, sets)


def _tapping(worked: Worked, bite: Bite | None, sets: tuple[str, ...]) -> Bore:
    thread = (bite.thread if bite else None) or worked.screw.thread
    if thread is None:
        return rounded(0.8 * worked.screw.major_mm, "nearest", "0.8 D, as the thread is not known", sets)
    found = _tapping_hole(thread, worked.joint.tapping_percent, sets)
    if isinstance(found, Missing):
        return rounded(thread.minor_diameter_mm, "up", "basic minor diameter", sets)
    return found


@lru_cache(maxsize=1024)
def _tapping_hole(thread: Thread, percent: float | None, sets: tuple[str, ...]) -> Bore | Missing:
    def call() -> Bore:
        owned = drills_owned(sets)
        among = owned if isinstance(owned, tuple) and owned else None
        hole = tapping_hole(thread, engagement=percent, among=among)
        says = f"{hole.percent:.0f} % of thread ({hole.basis}); {hole.source.says}"
        off = hole.drill_mm - hole.hole_mm
        if abs(off) >= 0.005:
            says = f"{hole.hole_mm:.2f} mm, {'up' if off > 0 else 'down'} to {hole.drill.name}: {says}"
        return Bore(hole.drill_mm, hole.drill.name, says)

    return look_up("the tapping hole", call)


def _insert_hole(worked: Worked, member: Member, sets: tuple[str, ...]) -> Bore:
    insert = next((each for each in worked.stack.members if each.kind == "insert"), None)
    body = insert.body_mm if insert else None
    if body is None:
        wide = (insert.outside_mm if insert else None) or 1.4 * worked.screw.major_mm
        return rounded(0.85 * wide, "nearest", "0.85 of the outside, as the body is not known", sets)
    if member.is_hardwood:
        says = f"body {body:g} + {INSERT_OVER_HARDWOOD_MM} mm in hardwood (common practice)"
        return rounded(body + INSERT_OVER_HARDWOOD_MM, "nearest", says, sets)
    return rounded(body, "nearest", "body diameter (common practice)", sets)
