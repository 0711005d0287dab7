"""Rules for quantities: what is listed, counted and fitted agrees."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import replace

from calculators.joints.model import Mend
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting
from calculators.planning.checks.site import Site
from calculators.planning.model import Joint
from calculators.planning.tree import joint_count, split_copy

_FEW = 3
"""So many things that no step fits are told one by one; more of them in one finding."""


@build_rule(
    "counts-agree",
    "order",
    "A joint's count is its places times the copies of its home, or the reason says why not; steps fit every "
    "copy of a part.",
    CP,
)
def _counts_agree(site: Site) -> Iterator[Seen]:
    """Counts that were typed over, and copies that the steps leave out."""
    totals = site.placed.totals
    for joint in site.build.joints:
        if joint.count is not None and joint.places and not joint.count_reason.strip():
            yield from _typed_over(joint, totals)
    copies: dict[str, set[int]] = {}
    whole: set[str] = set()
    for step in site.build.steps:
        for name in step.fits:
            mark, copy = split_copy(name)
            if copy is None:
                whole.add(mark)
            else:
                copies.setdefault(mark, set()).add(copy)
    for mark, fitted in copies.items():
        total = totals.get(mark)
        if mark in whole or total is None:
            continue
        left = [copy for copy in range(1, min(total, 200) + 1) if copy not in fitted]
        if left:
            names = [f"{mark}.{copy}" for copy in left]
            one = len(left) == 1
            step_names = _listed([f"{mark}.{copy}" for copy in sorted(fitted)])
            says = (
                f"The steps fit {step_names} of the {total} copies of {mark}; {_listed(names)} "
                f"{'is' if one else 'are'} fitted in none."
            )
            yield Seen(
                "warning", says, part=mark, value=float(len(fitted)), limit=float(total), unit="1",
                mends=_fit_beside(site, mark, names), at=_last_step(site, mark),
            )  # fmt: skip


def _typed_over(joint: Joint, totals: dict[str, int]) -> Iterator[Seen]:
    counted = joint_count(replace(joint, count=None), totals)
    if counted == joint.count:
        return
    mark, copy = split_copy(joint.home)
    copies = totals.get(mark, 1) if joint.home and copy is None else 1
    places = f"{len(joint.places)} place{'s' if len(joint.places) > 1 else ''}"
    times = f" on {copies} copies of {mark}" if copies > 1 else ""
    says = (
        f"{joint.mark} is counted as {joint.count}, but it has {places}{times}: {counted}. Give the reason, "
        "or leave the count to the places."
    )
    at = f"joints[{joint.mark}].count"
    mend = setting(f"Leave the count out, so that it is {counted}.", (at, ""))
    yield Seen(
        "warning", says, joint.mark, value=float(joint.count or 0), limit=float(counted), unit="1",
        mends=(mend,), at=at,
    )  # fmt: skip


def _listed(names: Sequence[str]) -> str:
    names = list(names)
    if len(names) > 6:
        return f"{', '.join(names[:5])} and {len(names) - 5} more"
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def _last_step(site: Site, mark: str) -> str:
    """The field of the last step that fits copies of a part."""
    numbers = [
        step.number for step in site.build.steps if any(split_copy(name)[0] == mark for name in step.fits)
    ]
    return f"steps[{max(numbers)}].fits" if numbers else "steps"


def _fit_beside(site: Site, mark: str, names: Sequence[str]) -> tuple[Mend, ...]:
    """The mend that fits what is left out in the last step that fits copies of the same part."""
    number = max(
        step.number for step in site.build.steps if any(split_copy(name)[0] == mark for name in step.fits)
    )
    return (_fit_in(site, number, names),)


def _fit_in(site: Site, number: int, names: Sequence[str]) -> Mend:
    step = next(one for one in site.build.steps if one.number == number)
    fits = json.dumps([*step.fits, *names], ensure_ascii=False)
    return setting(f"Fit {_listed(names)} in step {number} too.", (f"steps[{number}].fits", fits))


@build_rule(
    "never-fitted",
    "order",
    "Where the steps of assembly are written, each part and each joint is fitted in one of them.",
    CP,
)
def _never_fitted(site: Site) -> Iterator[Seen]:
    """Parts and joints that no step fits; nothing is said of a build without steps."""
    build = site.build
    if not any(step.fits for step in build.steps):
        return
    fitted = {split_copy(name)[0] for step in build.steps for name in step.fits}
    parts = _parts_left(site, fitted)
    joints = [joint.mark for joint in build.joints if joint.mark not in fitted]
    if len(parts) + len(joints) > _FEW:
        told = [*(f"part {mark}" for mark in parts), *(f"joint {mark}" for mark in joints)]
        says = f"No step fits {len(told)} things: {_listed(told)}. Add them to steps, or steps for them."
        yield Seen("warning", says, value=float(len(told)), limit=0.0, unit="1", at="steps")
        return
    names = {one.mark: one.name for one in build.components}
    for mark in parts:
        says = f"No step fits {mark} ({names[mark]}): it is made and then left over."
        yield Seen("warning", says, part=mark, at="steps")
    titles = {joint.mark: joint.title for joint in build.joints}
    for mark in joints:
        says = f"No step makes {mark} ({titles[mark]})."
        number = _when_its_parts_are_there(site, mark)
        mends = (_fit_in(site, number, (mark,)),) if number is not None else ()
        at = f"steps[{number}].fits" if number is not None else "steps"
        yield Seen("warning", says, mark, mends=mends, at=at)


def _parts_left(site: Site, fitted: set[str]) -> list[str]:
    """The parts that neither a step fits, nor a sub-assembly that they are in, nor all that is in them.

    A sub-assembly of which some parts are fitted is not told itself: those that are left are.
    """
    children: dict[str, list[str]] = {}
    parents: dict[str, str] = {}
    for one in site.build.components:
        children.setdefault(one.parent, []).append(one.mark)
        parents[one.mark] = one.parent
    covered: dict[str, bool] = {}

    def with_parent(mark: str) -> bool:
        chain: list[str] = []
        while mark and mark not in covered:
            if mark in fitted or len(chain) > len(parents):
                covered[mark] = mark in fitted
                break
            chain.append(mark)
            mark = parents.get(mark, "")
        known = covered.get(mark, False)
        covered.update(dict.fromkeys(chain, known))
        return known

    return [
        one.mark for one in site.build.components if one.mark not in children and not with_parent(one.mark)
    ]


def _when_its_parts_are_there(site: Site, mark: str) -> int | None:
    """The first step by which every part of a joint's stack has been fitted; None where one never is."""
    joint = next(one for one in site.build.joints if one.mark == mark)
    parts = {member.part for member in joint.stack if member.part}
    if not parts:
        return None
    waiting = set(parts)
    for step in sorted(site.build.steps, key=lambda one: one.number):
        waiting -= {split_copy(name)[0] for name in step.fits}
        if not waiting:
            return step.number
    return None


RULES: tuple[BuildRule, ...] = (_counts_agree, _never_fitted)
