"""What must hold between the parts of a build: marks, references, the tree, copies, faces and bores."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from difflib import get_close_matches

from calculators.planning.buildfile.bends import check_bends
from calculators.planning.buildfile.collecting import Collector
from calculators.planning.buildfile.lines import check_lines
from calculators.planning.buildfile.related import check_kept_records
from calculators.planning.buildfile.tied import check_calculations
from calculators.planning.model import Build, Component, Joint, Size
from calculators.planning.outlining import component_faults
from calculators.planning.tree import copy_name, count_through, split_copy
from calculators.quantities.length import Length
from calculators.quantities.marks import quoted

ROUND_FACES = ("left", "right", "side")
LYING_FACES = (*ROUND_FACES, "top", "bottom", "front", "back")
"""A round can also be laid down by a plane that touches its side, as the block about it would lie."""

BLOCK_FACES = ("top", "bottom", "front", "back", "left", "right")


def check_build(build: Build, collector: Collector) -> None:
    """Check a build that was read field by field; faults go to the collector.

    Args:
        build: the build, possibly with placeholders where a field could not be read.
        collector: where faults go.

    Source: this project.
    """
    components: dict[str, Component] = {}
    for one in build.components:
        components.setdefault(one.mark, one)
    names = Names(build, collector)
    _check_marks(build, collector)
    totals, faults = count_through(build.components)
    for fault in faults:
        collector.fault(fault.field, fault.says)
    for i, one in enumerate(build.components):
        _check_component(one, f"components[{i}] ({one.mark})", components, collector)
    _check_poses(build, names, totals, collector)
    for i, joint in enumerate(build.joints):
        _check_joint(joint, f"joints[{i}] ({joint.mark})", components, names, totals, collector)
    _check_steps_and_entries(build, names, totals, collector)
    check_calculations(build, collector)
    check_kept_records(build, totals, names, collector)
    check_lines(build, collector)


class Names:
    """The marks of a build, and the sentence for one that does not exist."""

    def __init__(self, build: Build, collector: Collector) -> None:
        self.components = dict.fromkeys(one.mark for one in build.components)
        self.joints = dict.fromkeys(one.mark for one in build.joints)
        self.calculations = dict.fromkeys(one.mark for one in build.calculations)
        self.collector = collector

    def check(
        self,
        name: str,
        at: str,
        totals: dict[str, int],
        *,
        joints: bool,
        copies: bool = True,
        calculations: bool = False,
    ) -> bool:
        """Say whether a name is a component, a copy of one or what else is allowed; note a fault if not."""
        if name in self.components or (joints and name in self.joints):
            return True
        if calculations and name in self.calculations:
            return True
        mark, number = split_copy(name)
        if copies and number is not None and mark in self.components:
            if number <= totals.get(mark, 1):
                return True
            self.collector.fault(
                at, f"There is no copy {quoted(name)}: {mark} is there {totals.get(mark, 1)} times."
            )
            return False
        self._missing(name, at, joints)
        return False

    def _missing(self, name: str, at: str, joints: bool) -> None:
        if self.collector.full:
            self.collector.fault(at, "")
            return
        known = [*self.components, *(self.joints if joints else ())]
        near = tuple(get_close_matches(name[:40], known[:2_000], n=3, cutoff=0.6))
        what = "component or joint" if joints else "component"
        meant = f"; did you mean {' or '.join(near)}?" if near else "."
        self.collector.fault(at, f"There is no {what} {quoted(name)}{meant}", near)


def _repeated(pairs: Iterable[tuple[str, str]], collector: Collector, what: str) -> None:
    """Note a fault for each name, given with its place, that stood before."""
    first: dict[str, str] = {}
    for name, at in pairs:
        if name in first:
            collector.fault(at, f"{what} {quoted(name)} is used already by {first[name]}; give it another.")
        elif name:
            first[name] = at


def _check_marks(build: Build, collector: Collector) -> None:
    def marks() -> Iterator[tuple[str, str]]:
        for i, one in enumerate(build.components):
            yield one.mark, f"components[{i}].mark"
        for i, joint in enumerate(build.joints):
            yield joint.mark, f"joints[{i}].mark"
        for i, kept in enumerate(build.calculations):
            yield kept.mark, f"calculations[{i}].mark"
        for i, piece in enumerate(build.stock):
            yield piece.mark, f"stock[{i}].mark"

    _repeated(marks(), collector, "The mark")
    for name in ("entries", "readings", "moisture", "releases", "acceptances"):
        ids = ((one.id, f"{name}[{i}].id") for i, one in enumerate(getattr(build, name)))
        _repeated(ids, collector, "The id")
    pictures = (
        (picture.id, f"entries[{i}].photographs[{j}].id")
        for i, one in enumerate(build.entries)
        for j, picture in enumerate(one.photographs)
    )
    _repeated(pictures, collector, "The id")
    steps = ((str(one.number), f"steps[{i}].number") for i, one in enumerate(build.steps))
    _repeated(steps, collector, "The number")


def _check_component(one: Component, at: str, components: dict[str, Component], collector: Collector) -> None:
    for name in ("size", "made_size", "rough"):
        size = getattr(one, name)
        if size is not None:
            _check_bore(size, f"{at}.{name}.bore", collector)
    for i, hole in enumerate(one.holes):
        place = f"{at}.holes[{i}] ({hole.id})"
        _check_face(one, hole.face, f"{place}.face", collector)
        _check_spot(hole.face, hole.v is not None, hole.angle_deg is not None, place, collector)
        if (hole.thread_depth and hole.depth) and hole.thread_depth.ticks > hole.depth.ticks:
            collector.fault(f"{place}.thread_depth", "The thread is deeper than the hole that it is cut in.")
    for i, pocket in enumerate(one.pockets):
        _check_face(one, pocket.face, f"{at}.pockets[{i}] ({pocket.id}).face", collector)
    holes = ((hole.id, f"{at}.holes[{i}].id") for i, hole in enumerate(one.holes))
    _repeated(holes, collector, "The id")
    pockets = ((pocket.id, f"{at}.pockets[{i}].id") for i, pocket in enumerate(one.pockets))
    _repeated(pockets, collector, "The id")
    _repeated(((bend.id, f"{at}.bends[{i}].id") for i, bend in enumerate(one.bends)), collector, "The id")
    check_bends(one, at, collector)
    for fault in component_faults(one):
        corner = "" if fault.corner is None else f"[{fault.corner}]"
        collector.fault(f"{at}.outline{corner}", fault.says)
    for i, pose in enumerate(one.poses):
        _check_face(one, pose.own_face, f"{at}.poses[{i}].own_face", collector, LYING_FACES)
        below = components.get(split_copy(pose.on)[0]) if pose.on else None
        if below is not None:
            _check_face(below, pose.face, f"{at}.poses[{i}].face", collector)


def _check_bore(size: Size, at: str, collector: Collector) -> None:
    if size.bore is None or size.diameter is None or size.bore.ticks < size.diameter.ticks:
        return
    says = f"The bore of {_shown(size.bore)} is not less than the diameter of {_shown(size.diameter)}."
    collector.fault(at, says, value=size.bore.mm, limit=size.diameter.mm, unit="mm")


def _shown(length: Length) -> str:
    return length.written or f"{length.exact_mm} mm"


def _check_face(
    one: Component, face: str, at: str, collector: Collector, of_round: tuple[str, ...] = ROUND_FACES
) -> None:
    """A face must be one that the part's shape has; a part of no stated shape may have any."""
    faces = {"round": of_round, "block": BLOCK_FACES}.get(one.size.shape)
    if faces and face and face not in faces:
        says = f"{one.mark} is a {one.size.shape} and has no {face}; it has {', '.join(faces)}."
        collector.fault(at, says, faces)


def _check_spot(face: str, has_v: bool, has_angle: bool, at: str, collector: Collector) -> None:
    """On the side of a round a spot has an angle, on any other face v, and never both."""
    if has_v and has_angle:
        collector.fault(at, "This has both v and angle_deg; on a side it has angle_deg, elsewhere v.")
    elif face == "side" and has_v:
        collector.fault(f"{at}.v", "On the side of a round the place is given by u and angle_deg, not v.")
    elif face not in ("", "side") and has_angle:
        collector.fault(
            f"{at}.angle_deg", f"On the face {face} the place is given by u and v, not angle_deg."
        )
    elif not has_v and not has_angle:
        collector.fault(
            at, f"The place is not whole: give {'angle_deg' if face == 'side' else 'v'} beside u."
        )


def _check_poses(build: Build, names: Names, totals: dict[str, int], collector: Collector) -> None:
    """Each copy lies in one place, on something that exists, and not on itself through others."""
    lies_on: dict[str, tuple[str, str]] = {}
    for i, one in enumerate(build.components):
        total = totals.get(one.mark, 1)
        for j, pose in enumerate(one.poses):
            at = f"components[{i}] ({one.mark}).poses[{j}]"
            if pose.copy > total:
                says = f"There is no copy {pose.copy} of {one.mark}: it is there {total} times."
                collector.fault(f"{at}.copy", says, value=float(pose.copy), limit=float(total))
                continue
            name = copy_name(one.mark, pose.copy, total)
            if name in lies_on:
                collector.fault(
                    f"{at}.copy", f"Copy {pose.copy} of {one.mark} lies somewhere already; keep one."
                )
                continue
            on = pose.on
            if on and names.check(on, f"{at}.on", totals, joints=False):
                mark, number = split_copy(on)
                on = copy_name(mark, number or 1, totals.get(mark, 1))
            lies_on[name] = (on, f"{at}.on")
    _check_rings(lies_on, collector)


def _check_rings(lies_on: dict[str, tuple[str, str]], collector: Collector) -> None:
    """Follow each copy to the ground, once; one that comes back to itself lies nowhere."""
    done: set[str] = set()
    for start in lies_on:
        chain: dict[str, None] = {}
        name = start
        while name in lies_on and name not in done and name not in chain:
            chain[name] = None
            name = lies_on[name][0]
        if name in chain:
            collector.fault(lies_on[name][1], f"{name} lies on itself: what it lies on leads back to it.")
        done.update(chain)


def _check_joint(
    joint: Joint,
    at: str,
    components: dict[str, Component],
    names: Names,
    totals: dict[str, int],
    collector: Collector,
) -> None:
    if joint.home and names.check(joint.home, f"{at}.home", totals, joints=False) and joint.face:
        _check_face(components[split_copy(joint.home)[0]], joint.face, f"{at}.face", collector)
    places = {place.id for place in joint.places}
    for i, place in enumerate(joint.places):
        spot = f"{at}.places[{i}] ({place.id})"
        _check_spot(joint.face, place.v is not None, place.angle_deg is not None, spot, collector)
    _repeated(((one.id, f"{at}.places[{i}].id") for i, one in enumerate(joint.places)), collector, "The id")
    if joint.fixed_place and joint.fixed_place not in places:
        collector.fault(f"{at}.fixed_place", f"This joint has no place {quoted(joint.fixed_place)}.")
    for i, member in enumerate(joint.stack):
        spot = f"{at}.stack[{i}]"
        if bool(member.part) == bool(member.item):
            collector.fault(spot, 'A member of a stack has either "part" or "item".')
        elif member.part:
            names.check(member.part, f"{spot}.part", totals, joints=False, copies=False)
        for j, hole in enumerate(member.holes):
            for k, one in enumerate(hole.places):
                if one not in places:
                    says = f"This joint has no place {quoted(one)}."
                    choices = () if collector.full else tuple(sorted(places))[:10]
                    collector.fault(f"{spot}.holes[{j}].places[{k}]", says, choices)


def _check_steps_and_entries(
    build: Build, names: Names, totals: dict[str, int], collector: Collector
) -> None:
    for i, step in enumerate(build.steps):
        for j, mark in enumerate(step.fits):
            names.check(mark, f"steps[{i}].fits[{j}]", totals, joints=True)
        for j, mark in enumerate(step.closes):
            names.check(mark, f"steps[{i}].closes[{j}]", totals, joints=True)
        for j, mark in enumerate(step.glued):
            names.check(mark, f"steps[{i}].glued[{j}]", totals, joints=False)
    for i, entry in enumerate(build.entries):
        for j, mark in enumerate(entry.marks):
            at = f"entries[{i}] ({entry.id}).marks[{j}]"
            names.check(mark, at, totals, joints=True, calculations=True)
