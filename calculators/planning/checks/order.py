"""Rules for the order of assembly: nothing too late, glue in time, what cures has cured."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from math import ceil

from calculators.joints.limits import Limit
from calculators.joints.model import Mend
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting, unchecked
from calculators.planning.checks.site import Site
from calculators.planning.model import AssemblyStep, Component, Joint
from calculators.planning.tree import split_copy

_MARGIN = Limit(
    "rehearsal-margin", 1.25, "1", CP, "open time of a glue, at least this many times what a rehearsal took"
)
_FOR_EVER_H = 1e9
_HALF_DAY_H = 12.0
"""Days are whole: work done on two days lies as many days apart, or half a day more or less."""


@build_rule(
    "glue-time",
    "order",
    "A glue stays open longer than the rehearsal of the glue-up took, with a quarter to spare.",
    CP,
    _MARGIN,
)
def _glue_time(site: Site) -> Iterator[Seen]:
    """Each glue-up that has been rehearsed, and once those of which the times are not known."""
    waiting: list[AssemblyStep] = []
    for step in site.build.steps:
        if step.done is not None:
            continue
        if step.open_minutes is None or step.rehearsed_minutes is None:
            if step.glued:
                waiting.append(step)
            continue
        took, stays = float(step.rehearsed_minutes), float(step.open_minutes)
        need = took * site.limits["rehearsal-margin"]
        if need <= stays + 1e-9:
            continue
        where = f"steps[{step.number}].open_minutes"
        mends = (
            Mend("Glue it in two goes, take a glue that stays open longer, or have a second pair of hands."),
        )
        if took > stays:
            says = (
                f"Step {step.number}: the rehearsal took {took:g} minutes and the glue stays open for "
                f"{stays:g}: it sets before the last cramp is on."
            )
            yield Seen(
                "error", says, place=f"step {step.number}", value=took, limit=stays, unit="min", mends=mends,
                at=where,
            )  # fmt: skip
        else:
            says = (
                f"Step {step.number}: the rehearsal took {took:g} minutes and the glue stays open for "
                f"{stays:g}; {need:.3g} leaves room for what goes wrong."
            )
            yield Seen(
                "warning", says, place=f"step {step.number}", value=stays, limit=need, unit="min",
                mends=mends, at=where,
            )  # fmt: skip
    if waiting:
        first = waiting[0]
        missing = "open_minutes" if first.open_minutes is None else "rehearsed_minutes"
        one = len(waiting) == 1
        numbers = ", ".join(str(step.number) for step in waiting[:8])
        yield unchecked(
            f"Step{'' if one else 's'} {numbers} glue{'s' if one else ''} without its open time and a dry "
            "rehearsal's minutes, so it is not checked whether the glue stays open long enough.",
            at=f"steps[{first.number}].{missing}",
        )


@build_rule(
    "cured-before-next",
    "order",
    "What is glued or finished has cured before a later step works on it.",
    CP,
)
def _cured_before_next(site: Site) -> Iterator[Seen]:
    """The hours of cure after the day of a step against the day of the next that touches its parts."""
    steps = sorted(site.build.steps, key=lambda one: one.number)
    if not any(step.cure_hours is not None and step.done is not None for step in steps):
        return
    joints = {joint.mark: joint for joint in site.build.joints}
    children = _inside(site)
    for place, step in enumerate(steps):
        if step.cure_hours is None or step.done is None or step.cure_hours <= 0:
            continue
        touched = _touched(step, joints, children)
        after = [
            one
            for one in steps[place + 1 :]
            if not touched or not touched.isdisjoint(_touched(one, joints, children))
        ]
        if after:
            yield from _cured(step, after, float(step.cure_hours), site.context.as_of)


def _inside(site: Site) -> dict[str, list[str]]:
    children: dict[str, list[str]] = {}
    for one in site.build.components:
        if one.parent:
            children.setdefault(one.parent, []).append(one.mark)
    return children


def _touched(step: AssemblyStep, joints: Mapping[str, Joint], children: Mapping[str, list[str]]) -> set[str]:
    """The parts that a step works on: what it glues, and what it fits with all parts of its joints."""
    found: set[str] = set()
    waiting = [split_copy(name)[0] for name in (*step.glued, *step.fits)]
    while waiting:
        mark = waiting.pop()
        if mark in joints:
            found.update(member.part for member in joints[mark].stack if member.part)
        elif mark not in found:
            found.add(mark)
            waiting += children.get(mark, ())
    return found


def _cured(
    step: AssemblyStep, after: list[AssemblyStep], cure_h: float, today: date | None
) -> Iterator[Seen]:
    done = step.done
    assert done is not None
    days = ceil(min(cure_h, _FOR_EVER_H) / 24.0)
    ready = done + timedelta(days=min(days, (date.max - done).days))
    at = f"steps[{step.number}].cure_hours"
    for one in after:
        if one.done is None or one.done < done:
            continue
        passed = (one.done - done).days * 24.0
        if cure_h > passed + _HALF_DAY_H:
            says = (
                f"Step {one.number} was done {_days(passed)} after step {step.number}, which takes "
                f"{cure_h:g} hours to cure: look at the joints and the finish for what has moved or stuck."
            )
            yield Seen(
                "error", says, place=f"step {one.number}", value=passed, limit=cure_h, unit="h",
                at=f"steps[{one.number}].done",
            )  # fmt: skip
        elif cure_h > passed:
            says = (
                f"Step {one.number} was done {_days(passed)} after step {step.number}, which takes "
                f"{cure_h:g} hours to cure: it may not have had them all."
            )
            yield Seen(
                "warning", says, place=f"step {one.number}", value=passed, limit=cure_h, unit="h",
                at=f"steps[{one.number}].done",
            )  # fmt: skip
    following = [one for one in after if one.done is None]
    if today is None or not following or today < done:
        return
    passed = (today - done).days * 24.0
    if cure_h > passed:
        says = (
            f"Step {step.number} of {done.isoformat()} cures for {cure_h:g} hours: leave step "
            f"{following[0].number} until {ready.isoformat()}."
        )
        yield Seen(
            "note", says, place=f"step {following[0].number}", value=passed, limit=cure_h, unit="h", at=at
        )


def _days(hours: float) -> str:
    days = round(hours / 24.0)
    return {0: "on the same day, not a night", 1: "a day"}.get(days, f"{days} days")


@build_rule(
    "fitted-before-its-base",
    "order",
    "A joint is made when all its parts are there, and a part goes on when what it lies on is there.",
    CP,
)
def _fitted_before_its_base(site: Site) -> Iterator[Seen]:
    """The step of each joint against those of its parts; parts that would hang in the air."""
    build = site.build
    steps = sorted(build.steps, key=lambda one: one.number)
    if not steps:
        return
    parts = {one.mark: one for one in build.components}
    first: dict[str, int] = {}
    for step in steps:
        for name in step.fits:
            first.setdefault(split_copy(name)[0], step.number)
    fitted = {mark: number for mark in parts if (number := _fitted_in(mark, parts, first)) is not None}
    for joint in build.joints:
        made = first.get(joint.mark)
        if made is None:
            continue
        late = {
            member.part: fitted[member.part]
            for member in joint.stack
            if member.part in fitted and fitted[member.part] > made
        }
        if late:
            yield _too_early(site, joint, made, late)
    yield from _in_the_air(site, parts, fitted)


def _fitted_in(mark: str, parts: Mapping[str, Component], first: Mapping[str, int]) -> int | None:
    """The first step that fits a part, or a sub-assembly that it is in."""
    numbers = []
    seen: set[str] = set()
    while mark and mark not in seen:
        seen.add(mark)
        if mark in first:
            numbers.append(first[mark])
        one = parts.get(mark)
        mark = one.parent if one is not None else ""
    return min(numbers, default=None)


def _too_early(site: Site, joint: Joint, made: int, late: Mapping[str, int]) -> Seen:
    last = max(late.values())
    which = " and ".join(f"{part} only in step {number}" for part, number in late.items())
    says = f"{joint.mark} is made in step {made}, but it goes through {which}."
    return Seen(
        "warning", says, joint.mark, part=next(iter(late)), value=float(made), limit=float(last), unit="step",
        mends=(_moved(site, "Make", joint.mark, made, last),), at=f"steps[{made}].fits",
    )  # fmt: skip


def _moved(site: Site, do: str, mark: str, from_step: int, to_step: int) -> Mend:
    """The mend that takes a part or joint out of one step and into a later one."""
    steps = {step.number: step for step in site.build.steps}
    here, there = steps[from_step].fits, steps[to_step].fits
    names = [name for name in here if split_copy(name)[0] == mark]
    says = f"{do} {mark} in step {to_step}."
    if not names:  # it goes on with a sub-assembly
        return Mend(f"{do} {mark} in step {to_step} or later.")
    stay = [name for name in here if name not in names]
    return setting(
        says,
        (f"steps[{from_step}].fits", _written(stay)),
        (f"steps[{to_step}].fits", _written([*there, *(name for name in names if name not in there)])),
    )


def _written(names: list[str]) -> str:
    return json.dumps(names, ensure_ascii=False)


def _in_the_air(site: Site, parts: Mapping[str, Component], fitted: Mapping[str, int]) -> Iterator[Seen]:
    """A part that goes on in a step by which nothing is there that it lies on, holds, or is held by.

    A sub-assembly is begun by a part of its own, and is no fault: only a part is told whose base is of the
    same sub-assembly, and comes on later, while other parts of that sub-assembly are there already.
    """
    touches: dict[str, set[str]] = {mark: set() for mark in parts}
    lies_on: dict[str, set[str]] = {}
    for one in parts.values():
        for pose in one.poses:
            below = split_copy(pose.on)[0]
            if below in touches and below != one.mark:
                touches[one.mark].add(below)
                touches[below].add(one.mark)
                lies_on.setdefault(one.mark, set()).add(below)
    for joint in site.build.joints:
        through = {member.part for member in joint.stack if member.part in touches}
        for part in through:
            touches[part] |= through - {part}
    begun: dict[str, int] = {}
    for mark, number in fitted.items():
        parent = parts[mark].parent
        begun[parent] = min(begun.get(parent, number), number)
    for mark, bases in lies_on.items():
        number, parent = fitted.get(mark, 0), parts[mark].parent
        if mark not in fitted or begun[parent] >= number:
            continue
        later = [base for base in bases if fitted.get(base, 0) > number and parts[base].parent == parent]
        there = any(fitted.get(other, number + 1) <= number for other in touches[mark])
        if later and not there:
            says = (
                f"{mark} is fitted in step {number}, but {later[0]}, which it lies on, only in step "
                f"{fitted[later[0]]}: nothing carries it till then."
            )
            yield Seen(
                "warning", says, part=mark, value=float(number), limit=float(fitted[later[0]]), unit="step",
                mends=(_moved(site, "Fit", mark, number, fitted[later[0]]),), at=f"steps[{number}].fits",
            )  # fmt: skip


RULES: tuple[BuildRule, ...] = (_glue_time, _cured_before_next, _fitted_before_its_base)
