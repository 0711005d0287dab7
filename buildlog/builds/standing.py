"""What people let stand in a build, and the edits that give an acceptance, renew it and take it back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.showing import ShownFinding, rule_words, show_findings
from buildlog.builds.zones import day_in
from buildlog.workshops.models import Person
from calculators.joints.model import Finding
from calculators.planning import model as plain
from calculators.planning.edits import accept, acceptance_of, find_finding, renew, withdraw
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Acceptance
from calculators.planning.worked import WorkedBuild

MOST_SHOWN = 200
"""The most findings that are let stand, and the most acceptances without a finding, that a page lists."""

Edit = Callable[[plain.Build], plain.Build]


@dataclass(frozen=True, slots=True)
class LetStand:
    """A finding that is let stand, with the acceptance: its reason, by whom, when."""

    shown: ShownFinding
    acceptance: Acceptance


@dataclass(frozen=True, slots=True)
class Standing:
    """All that is let stand, and the acceptances for which nothing is found any more."""

    accepted: list[LetStand]
    idle: list[Acceptance]
    left_out: int


def standing_of(worked: WorkedBuild) -> Standing:
    """What the check lists below its findings."""
    pairs = worked.accepted[:MOST_SHOWN]
    shown = show_findings(worked, (finding for finding, _ in pairs))
    accepted = [LetStand(one, pair[1]) for one, pair in zip(shown, pairs, strict=True)]
    used = {one.id for _, one in worked.accepted}
    here = {_spot(finding) for finding in worked.findings}
    idle = [
        one
        for one in worked.build.acceptances
        if one.id not in used and (one.rule, one.joint, one.part, one.place) not in here
    ]
    left_out = max(0, len(worked.accepted) - MOST_SHOWN) + max(0, len(idle) - MOST_SHOWN)
    return Standing(accepted, idle[:MOST_SHOWN], left_out)


def letting_stand(row: Build, person: Person, key: str, reason: str) -> tuple[Edit, str]:
    """The edit that lets a finding stand, and its sentence for the log. Raises InputError."""
    worked = worked_of(row)
    finding = find_finding(worked, key)
    by, on = person.get_full_name(), day_in(plain_of(row))
    accept(worked, key, reason, by=by, on=on)
    return (
        lambda build: accept(_worked(build, worked), key, reason, by=by, on=on),
        f"{_named(finding)} is let stand: {_short(reason)}",
    )


def renewing(row: Build, person: Person, acceptance: str) -> tuple[Edit, str]:
    """The edit that gives an acceptance again for today's numbers, and its sentence. Raises InputError."""
    worked = worked_of(row)
    old = acceptance_of(worked.build, acceptance)
    by, on = person.get_full_name(), day_in(plain_of(row))
    renew(worked, acceptance, by=by, on=on)
    return (
        lambda build: renew(_worked(build, worked), acceptance, by=by, on=on),
        f"{_named_by(old)} is let stand again: {_short(old.reason)}",
    )


def withdrawing(row: Build, acceptance: str) -> tuple[Edit, str]:
    """The edit that takes an acceptance back, and its sentence. Raises InputError."""
    old = acceptance_of(plain_of(row), acceptance)
    return lambda build: withdraw(build, acceptance), f"{_named_by(old)} is no longer let stand"


def _worked(build: plain.Build, worked: WorkedBuild) -> WorkedBuild:
    """What was worked out, or the build worked out anew where somebody has saved in between."""
    return worked if build == worked.build else inspect_build(build, worked)


def _spot(one: Finding) -> tuple[str, str, str, str]:
    return one.rule, one.joint, one.part, one.place


def _named(finding: Finding) -> str:
    where = finding.where
    return f"{where}: {rule_words(finding)}" if where else rule_words(finding).capitalize()


def _named_by(one: Acceptance) -> str:
    return _named(Finding(one.rule, "note", "", "", one.joint, one.part, one.place))


def _short(reason: str) -> str:
    words = " ".join(reason.split())
    return words if len(words) <= 160 else f"{words[:160]}…"
