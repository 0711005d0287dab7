"""Rules for releases: parts made before a change, and released parts that have changed since."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from calculators.joints.model import Mend
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting
from calculators.planning.checks.site import PartSite, Site
from calculators.planning.model import Component, Release
from calculators.planning.releasing import Difference, changes_since, drilled_in
from calculators.planning.tree import split_copy
from calculators.planning.worked import WorkedBuild

_FEW = 3


@build_rule(
    "made-before-change",
    "records",
    "A part was made to what is drawn now, and its mates have not changed since it was made.",
    CP,
)
def _made_before_change(site: Site) -> Iterator[Seen]:
    """Parts that are made against the release that they were made to, then against their mates' releases."""
    if not site.build.releases:
        return
    kept = _releases(site)
    told: set[str] = set()
    for part in site.parts.values():
        one = part.component
        release = _made_to(one, kept.get(one.mark, ()))
        if release is None:
            continue
        changes = changes_since(release, one, _drilled(site, part))
        if changes:
            told.add(one.mark)
            yield _made_otherwise(part, release, changes, kept[one.mark][-1], _drilled(site, part))
    yield from _older_than_mates(site, kept, told)


def _releases(site: Site) -> dict[str, list[Release]]:
    """The releases of each part, in their order."""
    kept: dict[str, list[Release]] = {}
    for one in site.build.releases:
        kept.setdefault(one.mark, []).append(one)
    return kept


def _made_to(one: Component, releases: Sequence[Release]) -> Release | None:
    """What a part was made to; None for one that is not made, or of which that was not kept."""
    if one.state not in ("made", "fitted") or not one.made_to:
        return None
    return next((each for each in reversed(releases) if each.revision == one.made_to), None)


def _drilled(site: Site, part: PartSite) -> tuple[str, ...]:
    """The holes of a part that follow from joints, in words; worked once as long as the part is as it is."""
    found = part.kept.get("drilled")
    if found is None:
        holes = WorkedBuild(site.build, holes=part.holes)
        found = part.kept["drilled"] = drilled_in(holes, part.mark)
    return tuple(found)


def _told(changes: Sequence[Difference]) -> str:
    said = []
    for one in changes[:_FEW]:
        name = one.words
        if one.old and one.new:
            was, now = ("were", "are") if one.field == "drilled" else ("was", "is")
            old, new = _unlike(one.old, one.new) if one.field == "drilled" else (one.old, one.new)
            said.append(f"{name} {was} {_cut(old)} and {now} {_cut(new)}")
        else:
            said.append(f"{name}: {_cut(one.new)} is new" if one.new else f"{name}: {_cut(one.old)} is gone")
    more = f" (and {len(changes) - _FEW} more)" if len(changes) > _FEW else ""
    return "; ".join(said) + more


def _unlike(old: str, new: str) -> tuple[str, str]:
    """Of two lists of holes those that the other has not; all where only their number differs."""
    were, are = old.split("; "), new.split("; ")
    gone, come = [one for one in were if one not in are], [one for one in are if one not in were]
    return ("; ".join(gone), "; ".join(come)) if gone and come else (old, new)


def _cut(text: str) -> str:
    return text if len(text) <= 70 else f"{text[:69].rstrip(' ;,')}…"


def _day(release: Release) -> str:
    return f"revision {release.revision}" + (f" of {release.on.isoformat()}" if release.on else "")


def _made_otherwise(
    part: PartSite,
    release: Release,
    changes: Sequence[Difference],
    last: Release,
    drilled: tuple[str, ...],
) -> Seen:
    one = part.component
    at = f"components[{one.mark}].made_to"
    mends: tuple[Mend, ...] = ()
    if last.revision != release.revision and not changes_since(last, one, drilled):
        says = f"{one.mark} has been altered, or made again, to revision {last.revision}: say so."
        mends = (setting(says, (at, last.revision)),)
    return Seen(
        "error",
        f"{one.mark} was made to {_day(release)}, and is drawn otherwise now: {_told(changes)}. Alter it "
        "or make it again.",
        part=one.mark,
        value=float(len(changes)),
        limit=0.0,
        unit="1",
        mends=mends,
        at=at,
    )


_OF_MATES = ("size", "pockets", "holes", "bends", "legs", "drilled", "corner_radius")
"""What of a part matters to those that it is fitted to."""


def _older_than_mates(site: Site, kept: dict[str, list[Release]], told: set[str]) -> Iterator[Seen]:
    """Parts that were made to a release from before the day on which one of their mates was changed."""
    changed = {mark for mark, releases in kept.items() if len(releases) > 1 and releases[-1].on is not None}
    if not changed:
        return
    mates = _mates(site, changed)
    for mark, others in mates.items():
        one = site.parts[mark].component
        release = _made_to(one, kept.get(mark, ()))
        if release is None or release.on is None or mark in told:
            continue
        for other in others:
            last, mate = kept[other][-1], site.parts[other].component
            before = [each for each in kept[other][:-1] if each.on is None or each.on <= release.on]
            fitted = one.state == "fitted" and mate.state == "fitted"
            if not before or last.on is None or last.on <= release.on or fitted:
                continue
            changes = [
                each
                for each in changes_since(before[-1], last.part, last.drilled)
                if each.field.split(".")[0].split("[")[0] in _OF_MATES
            ]
            if changes:
                yield Seen(
                    "warning",
                    f"{mark} was made to {_day(release)}, before its mate {other} was changed in "
                    f"{_day(last)}: {_told(changes)}. Try one against the other before going on.",
                    part=mark, place=other, value=float(len(changes)), limit=0.0, unit="1",
                    at=f"components[{mark}].made_to",
                )  # fmt: skip


def _mates(site: Site, changed: set[str]) -> dict[str, list[str]]:
    """For each part the changed ones that it lies on, that lie on it, or that a joint holds it to."""
    found: dict[str, dict[str, None]] = {}

    def pair(one: str, other: str) -> None:
        if one != other and one in site.parts and other in changed and other in site.parts:
            found.setdefault(one, {})[other] = None

    for part in site.parts.values():
        for pose in part.component.poses:
            below = split_copy(pose.on)[0]
            pair(part.mark, below)
            pair(below, part.mark)
    for joint in site.build.joints:
        through = [member.part for member in joint.stack if member.part]
        if not changed.isdisjoint(through):
            for one in through:
                for other in through:
                    pair(one, other)
    return {mark: list(others) for mark, others in found.items()}


@build_rule(
    "released-changed",
    "records",
    "A part that is released is as it was released.",
    CP,
)
def _released_changed(site: Site) -> Iterator[Seen]:
    """Parts that are released, against their last release."""
    if not site.build.releases:
        return
    last = {one.mark: one for one in site.build.releases}
    for part in site.parts.values():
        one = part.component
        release = last.get(one.mark)
        if one.state != "released" or release is None:
            continue
        changes = changes_since(release, one, _drilled(site, part))
        if changes:
            yield Seen(
                "warning",
                f"{one.mark} is not as it was released in {_day(release)}: {_told(changes)}. Release it "
                "again, so that nobody makes it to the old sheet.",
                part=one.mark,
                value=float(len(changes)),
                limit=0.0,
                unit="1",
                at=f"components[{one.mark}].revision",
            )


RULES: tuple[BuildRule, ...] = (_made_before_change, _released_changed)
