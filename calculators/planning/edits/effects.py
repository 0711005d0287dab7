"""What a change of a build does: to holes, fasteners, findings, the schedule and the drills needed."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from calculators.joints.model import Finding
from calculators.planning.edits.naming import finding_key
from calculators.planning.edits.words import (
    drilling_of,
    fastener_words,
    hole_words,
    length_words,
    needed_words,
    place_words,
)
from calculators.planning.model import Build, Component
from calculators.planning.schedules.fasteners import fastener_schedule
from calculators.planning.worked import WorkedBuild, WorkedHole, WorkedJoint


@dataclass(frozen=True, slots=True)
class HoleChange:
    """Holes of one part that change alike: what they were and what they are; nothing: there is none.

    `joint` is the mark of the joint that they follow from, `places` the ids of its places; of holes placed
    by hand `joint` is empty and `places` are their own ids.
    """

    joint: str
    places: tuple[str, ...]
    old: str
    new: str


@dataclass(frozen=True, slots=True)
class PartEffect:
    """A part whose holes change."""

    mark: str
    name: str
    holes: tuple[HoleChange, ...]


@dataclass(frozen=True, slots=True)
class FastenerEffect:
    """A joint whose fastener, or the length that it needs, changes."""

    mark: str
    title: str
    old: str
    new: str
    old_needed: str
    new_needed: str
    old_length: str
    new_length: str


@dataclass(frozen=True, slots=True)
class ScheduleChange:
    """A line of the fastener schedule and its count before and after (0: no line)."""

    designation: str
    kind: str
    old: int
    new: int


@dataclass(frozen=True, slots=True)
class Effects:
    """What a change does.

    `changed` are findings that stay with another severity, as they were and as they are; one that gets worse
    is among them.
    """

    parts: tuple[PartEffect, ...] = ()
    fasteners: tuple[FastenerEffect, ...] = ()
    mended: tuple[Finding, ...] = ()
    new: tuple[Finding, ...] = ()
    changed: tuple[tuple[Finding, Finding], ...] = ()
    schedule: tuple[ScheduleChange, ...] = ()
    drills_new: tuple[str, ...] = ()
    drills_no_longer: tuple[str, ...] = ()

    @property
    def nothing(self) -> bool:
        """Whether nothing that can be told changes."""
        return self == Effects()


def effects(before: WorkedBuild, after: WorkedBuild) -> Effects:
    """Say what changes between two states of a build worked out.

    Args:
        before: the build as it was, inspected.
        after: the build as it is, inspected.

    Returns:
        The holes that change in each part, fasteners, findings, lines of the schedule, drills.

    Source: this project.

    Example:
        >>> none = WorkedBuild(Build("B1", "Box"))
        >>> effects(none, none).nothing
        True
    """
    parts = tuple(_parts(before, after))
    mended, new, changed = _findings(before.findings, after.findings)
    drills = _drills(before, after) if parts else ((), ())
    return Effects(
        parts,
        tuple(_fasteners(before, after)),
        mended,
        new,
        changed,
        tuple(_schedule(before, after)),
        *drills,
    )


def _parts(before: WorkedBuild, after: WorkedBuild) -> Iterator[PartEffect]:
    had, has = _by_part(before.holes), _by_part(after.holes)
    components = {one.mark: one for build in (before.build, after.build) for one in build.components}
    were = {one.mark: one for one in before.build.components}
    for mark, part in components.items():
        old, new = had.get(mark, []), has.get(mark, [])
        if old == new:
            continue
        changes = tuple(_holes(old, new, were.get(mark, part), part))
        if changes:
            yield PartEffect(mark, part.name, changes)


def _by_part(holes: Iterable[WorkedHole]) -> dict[str, list[WorkedHole]]:
    found: dict[str, list[WorkedHole]] = defaultdict(list)
    for hole in holes:
        found[hole.part].append(hole)
    return found


_Spot = tuple[str, str]


def _by_spot(holes: list[WorkedHole]) -> dict[_Spot, list[WorkedHole]]:
    """Holes by the joint and place that they come from, or by their own id."""
    found: dict[_Spot, list[WorkedHole]] = defaultdict(list)
    for hole in holes:
        found[hole.joint, hole.direct.id if hole.direct is not None else hole.place].append(hole)
    return found


def _holes(
    old: list[WorkedHole], new: list[WorkedHole], was: Component, part: Component
) -> Iterator[HoleChange]:
    had, has = _by_spot(old), _by_spot(new)
    alike: dict[tuple[str, str, str], list[str]] = defaultdict(list)
    for spot in dict.fromkeys((*had, *has)):
        before, after = had.get(spot, []), has.get(spot, [])
        if before == after:
            continue
        longest = max(len(before), len(after))
        for i in range(longest):
            words = _pair_words(
                before[i] if i < len(before) else None, after[i] if i < len(after) else None, was, part
            )
            if words is not None:
                alike[spot[0], *words].append(spot[1])
    for (joint, before_words, after_words), places in alike.items():
        yield HoleChange(joint, tuple(one for one in dict.fromkeys(places) if one), before_words, after_words)


def _pair_words(
    old: WorkedHole | None, new: WorkedHole | None, was: Component, part: Component
) -> tuple[str, str] | None:
    """What a hole was and is; with its place, where that changed too."""
    before = hole_words(drilling_of(old, was)) if old is not None else ""
    after = hole_words(drilling_of(new, part)) if new is not None else ""
    if old is not None and new is not None:
        where, there = place_words(old), place_words(new)
        if where != there:
            before, after = f"{before} {where}".rstrip(), f"{after} {there}".rstrip()
    return (before, after) if before != after else None


def _fasteners(before: WorkedBuild, after: WorkedBuild) -> Iterator[FastenerEffect]:
    had, has = _by_joint(before.joints), _by_joint(after.joints)
    for mark in dict.fromkeys((*had, *has)):
        old, new = had.get(mark, []), has.get(mark, [])
        if [one.result for one in old] == [one.result for one in new]:
            continue
        was, now = _told(old, before.build), _told(new, after.build)
        if was != now:
            title = (new or old)[0].joint.title
            yield FastenerEffect(mark, title, was[0], now[0], was[1], now[1], was[2], now[2])


def _by_joint(joints: Iterable[WorkedJoint]) -> dict[str, list[WorkedJoint]]:
    found: dict[str, list[WorkedJoint]] = defaultdict(list)
    for one in joints:
        found[one.joint.mark].append(one)
    return found


def _told(groups: list[WorkedJoint], build: Build) -> tuple[str, str, str]:
    """The fastener, the length needed and the length there is; of unlike places each."""
    lines = (
        (fastener_words(one, build) for one in groups),
        (needed_words(one) for one in groups),
        (length_words(one) for one in groups),
    )
    line, needed, length = (" / ".join(one for one in dict.fromkeys(words) if one) for words in lines)
    return line, needed, length


def _findings(
    old: tuple[Finding, ...], new: tuple[Finding, ...]
) -> tuple[tuple[Finding, ...], tuple[Finding, ...], tuple[tuple[Finding, Finding], ...]]:
    """Pair the findings by their keys: those that went, those that came, those of another severity."""
    had, has = _by_key(old, new), _by_key(new, old)
    gone: list[Finding] = []
    come: list[Finding] = []
    changed: list[tuple[Finding, Finding]] = []
    for key in dict.fromkeys((*had, *has)):
        before, after = had.get(key, []), has.get(key, [])
        both = min(len(before), len(after))
        changed += [
            (one, other)
            for one, other in zip(before[:both], after[:both], strict=True)
            if one.severity != other.severity
        ]
        gone += before[both:]
        come += after[both:]
    return tuple(gone), tuple(come), tuple(changed)


def _by_key(findings: tuple[Finding, ...], others: tuple[Finding, ...]) -> dict[str, list[Finding]]:
    """Findings by key, without those that stand word for word in the other list."""
    left = Counter(others)
    found: dict[str, list[Finding]] = defaultdict(list)
    for one in findings:
        if left[one]:
            left[one] -= 1
        else:
            found[finding_key(one)].append(one)
    return found


def _schedule(before: WorkedBuild, after: WorkedBuild) -> Iterator[ScheduleChange]:
    if before.joints == after.joints:
        return
    had, has = (
        {(line.kind, line.designation): line.count for line in fastener_schedule(one.build, one).lines}
        for one in (before, after)
    )
    for kind, designation in dict.fromkeys((*had, *has)):
        old, new = had.get((kind, designation), 0), has.get((kind, designation), 0)
        if old != new:
            yield ScheduleChange(designation, kind, old, new)


def _drills(before: WorkedBuild, after: WorkedBuild) -> tuple[tuple[str, ...], tuple[str, ...]]:
    had, has = _drills_of(before), _drills_of(after)
    return tuple(one for one in has if one not in had), tuple(one for one in had if one not in has)


def _drills_of(worked: WorkedBuild) -> dict[str, None]:
    """The drills that the holes of a build need, by name, in its order."""
    components = {one.mark: one for one in worked.build.components}
    found: dict[str, None] = {}
    for hole in worked.holes:
        if hole.hole is not None:
            name = hole.hole.drill
        elif hole.part in components:
            name = drilling_of(hole, components[hole.part]).drill
        else:
            continue
        if name:
            found[name] = None
    return found
