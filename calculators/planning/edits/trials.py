"""Trying another fastener: the joint with another line, and the neighbours that a shop would think of."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any, cast

from calculators.hardware.designation import read_hardware, write_hardware
from calculators.hardware.fastener import Fastener
from calculators.hardware.lengths import stock_lengths
from calculators.hardware.threads import Thread, find_thread, threads_of
from calculators.joints.layout import lay_out
from calculators.joints.mending import fastener_mend
from calculators.planning.edits.records import find
from calculators.planning.inspection import SEVERITIES
from calculators.planning.model import Build, Joint, StackMember
from calculators.planning.placing import place_build
from calculators.planning.resolving import house_fastener, resolve_joint
from calculators.planning.schedules.fasteners import house_writing
from calculators.planning.worked import WorkedBuild, WorkedJoint
from calculators.quantities.errors import InputError

_NUMBERS = (0, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 24)
"""Numbers of wood screws that are usually sold (common practice)."""

_USUAL = {
    "ISO metric coarse": "M1.6 M2 M2.5 M3 M4 M5 M6 M8 M10 M12 M16 M20 M24",
    "BA": "10 8 6 4 2 0",
    "UNC": "4-40 6-32 8-32 10-24 1/4-20 5/16-18 3/8-16 1/2-13",
    "UNF": "4-48 6-40 8-36 10-32 1/4-28 5/16-24 3/8-24 1/2-20",
    "BSF": "3/16 1/4 5/16 3/8 7/16 1/2",
    "BSW": "1/8 3/16 1/4 5/16 3/8 1/2",
}
"""Sizes of machine screws that are usually in a shop, by system (common practice)."""

_SOCKETS = ("socket cap", "socket csk", "button")


@dataclass(frozen=True, slots=True)
class Alternative:
    """A fastener that could be tried: its line, what it is, and what the joint's check would then find.

    `findings` counts the joint's findings by severity, the worst first.
    """

    line: str
    says: str
    findings: tuple[tuple[str, int], ...]

    @property
    def errors(self) -> int:
        """How many errors there would be."""
        return dict(self.findings).get("error", 0)


def try_fastener(build: Build, mark: str, line: str) -> Build:
    """Give a joint another fastener.

    With another thread or size, the washers, nuts and inserts of the old one, and the parts tapped for it,
    change with it; sizes that were measured on the old screw or on them no longer stand.

    Args:
        build: the build.
        mark: the joint's mark.
        line: the fastener, as the trade writes it.

    Returns:
        The build.

    Raises:
        InputError: when there is no such joint, or the line is no fastener.

    Source: this project.

    Example:
        >>> stack = (StackMember(item="M5 washer"), StackMember(part="P1"), StackMember(item="M5 nut"))
        >>> build = Build("B1", "Box", joints=(Joint("F1", "Hasp", "M5 x 20 hex steel", stack=stack),))
        >>> [each.item for each in try_fastener(build, "F1", "M6 x 20 hex steel").joints[0].stack]
        ['M6 washer', '', 'M6 nut']
    """
    joint: Joint = find(build, "joint", mark)
    new = house_fastener(replace(joint, fastener=line), build.unit, build.context)
    changed = _with_line(build, joint, line, new)
    return replace(build, joints=tuple(changed if one is joint else one for one in build.joints))


def _with_line(build: Build, joint: Joint, line: str, new: Fastener) -> Joint:
    try:
        old = house_fastener(joint, build.unit, build.context)
    except InputError:
        return replace(joint, fastener=line)
    if (old.size, old.head, old.series) != (new.size, new.head, new.series):
        joint = replace(joint, head_diameter=None, head_height=None, head_angle_deg=None)
    if old.size != new.size:
        joint = replace(joint, stack=tuple(_member(m, old.size, new.size, build) for m in joint.stack))
    return replace(joint, fastener=line)


def _member(member: StackMember, old: str, new: str, build: Build) -> StackMember:
    """A member of the stack for another thread, where it was for the old one."""
    if member.part:
        return replace(member, thread=new) if member.thread and _same(member.thread, old) else member
    try:
        item = read_hardware(member.item, unit=build.unit)
    except InputError:
        return member
    if item.size != old:
        return member
    bare = {name: None for name in ("outside", "thickness", "length", "body") if hasattr(item, name)}
    changed = replace(item, **cast(Any, {"size": new, **bare}))
    return replace(member, item=write_hardware(changed), thickness=None, outside=None, body=None)


def _same(text: str, size: str) -> bool:
    try:
        return find_thread(text).designation == find_thread(size).designation
    except InputError:
        return text.strip() == size


def alternatives(worked: WorkedBuild, mark: str) -> tuple[Alternative, ...]:
    """Offer fasteners to try in a joint: other stock lengths, neighbouring sizes, the same in another metal.

    What the joint's findings ask for is among them. Each is worked out in the joint as it lies. Neighbouring
    sizes come in the length that suits them best.

    Args:
        worked: the build worked out.
        mark: the joint's mark.

    Returns:
        The alternatives, that with the least to find fault with first; none for a joint that cannot be
        worked out.

    Raises:
        InputError: when there is no such joint.

    Source: common practice for sizes that are usual; stock lengths as their tables name them.
    """
    find(worked.build, "joint", mark)
    group = next((one for one in worked.joints if one.joint.mark == mark), None)
    if group is None:
        return ()
    now = write_hardware(house_writing(group.result.fastener, worked.build))
    found: dict[str, str] = {}
    for fastener, says in (*_asked_for(worked, mark), *_offers(group)):
        line = write_hardware(house_writing(fastener, worked.build))
        if line != now:
            found.setdefault(line, says)
    tried = [one for line, says in found.items() if (one := _tried(worked, mark, line, says)) is not None]
    return tuple(sorted(tried, key=lambda one: [count for _, count in one.findings]))


def _tried(worked: WorkedBuild, mark: str, line: str, says: str) -> Alternative | None:
    try:
        build = try_fastener(worked.build, mark, line)
    except InputError:
        return None
    joint = find(build, "joint", mark)
    found = resolve_joint(build, joint, worked.placed or place_build(build)).findings
    counts: Counter[str] = Counter(one.severity for one in found)
    return Alternative(line, says, tuple((severity, counts[severity]) for severity in SEVERITIES))


def _asked_for(worked: WorkedBuild, mark: str) -> Iterator[tuple[Fastener, str]]:
    """What the joint's own findings ask for."""
    for finding in worked.findings:
        for one in finding.mends:
            if finding.joint == mark and one.field == "fastener":
                fastener = read_hardware(one.value, unit=worked.build.unit)
                if isinstance(fastener, Fastener):
                    yield fastener, f"mends {finding.rule}"


def _offers(group: WorkedJoint) -> Iterator[tuple[Fastener, str]]:
    fastener = group.result.fastener
    yield from _other_lengths(fastener)
    for size in _neighbours(fastener):
        yield _in_size(group, size), f"{size} in place of {fastener.size}"
    yield from _other_metal(fastener)


def _other_lengths(fastener: Fastener) -> Iterator[tuple[Fastener, str]]:
    """Two shorter and two longer than the one there is."""
    if fastener.length is None:
        return
    try:
        stock = sorted(stock_lengths(replace(fastener, length=None, cut_to=None)), key=lambda one: one.ticks)
    except InputError:
        return
    now = fastener.cut_to or fastener.length
    shorter = [one for one in stock if one.ticks < now.ticks][-2:]
    longer = [one for one in stock if one.ticks > now.ticks][:2]
    for length in (*reversed(shorter), *longer):
        apart = abs(length.mm - now.mm)
        which = "shorter" if length.ticks < now.ticks else "longer"
        yield replace(fastener, length=length, cut_to=None), f"{apart:.3g} mm {which}"


def _in_size(group: WorkedJoint, size: str) -> Fastener:
    """The fastener in another size and the length that suits it, or in its own length where none does."""
    fastener = group.result.fastener
    try:
        mends = fastener_mend(lay_out(group.inputs), "{}", size=size)
        if mends:
            return _read(mends[0].value, fastener)
    except InputError:
        pass
    return replace(fastener, size=size, cut_to=None)


def _read(line: str, like: Fastener) -> Fastener:
    found = read_hardware(line)
    assert isinstance(found, Fastener)
    return replace(found, series=like.series) if like.family == "wood" else found


def _neighbours(fastener: Fastener) -> tuple[str, ...]:
    if fastener.family == "machine":
        return _near_threads(fastener.size)
    number = fastener.size.removeprefix("No. ")
    if not number.isdecimal():
        return ()
    thinner = [one for one in _NUMBERS if one < int(number)][-1:]
    thicker = [one for one in _NUMBERS if one > int(number)][:1]
    return tuple(f"No. {one}" for one in (*thinner, *thicker))


@lru_cache(maxsize=256)
def _near_threads(size: str) -> tuple[str, ...]:
    """The next thinner and thicker usual thread of the same system."""
    try:
        thread = find_thread(size)
    except InputError:
        return ()
    same: list[Thread] = list(threads_of(thread.system))
    usual = _USUAL.get(thread.system)
    if usual is not None:
        suffix = "" if thread.system.startswith("ISO") else f" {thread.system}"
        same = [find_thread(f"{one}{suffix}") for one in usual.split()]
    same.sort(key=lambda one: one.major_mm)
    thinner = [one.designation for one in same if one.major_mm < thread.major_mm - 1e-6][-1:]
    thicker = [one.designation for one in same if one.major_mm > thread.major_mm + 1e-6][:1]
    return (*thinner, *thicker)


def _other_metal(fastener: Fastener) -> Iterator[tuple[Fastener, str]]:
    """Steel in brass and brass in steel; socket heads are not sold in brass, graded ones not wanted in it."""
    metal = fastener.material.casefold()
    if "brass" in metal:
        yield replace(fastener, material="steel", finish="", grade=""), "the same in steel"
    elif metal in ("", "steel", "mild steel") and not fastener.grade:
        other = "stainless A2" if fastener.head in _SOCKETS or fastener.drive == "hex socket" else "brass"
        yield replace(fastener, material=other, finish=""), f"the same in {other.removesuffix(' A2')}"
