"""Letting a finding stand with a reason, giving that again when it has lapsed, and taking it back."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date

from calculators.joints.model import Finding
from calculators.planning.checks.accepting import fingerprint
from calculators.planning.edits.naming import find_finding
from calculators.planning.model import Acceptance, Build
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

LONGEST_REASON = 2_000
"""The longest reason [characters]."""

NEVER = ("acceptance-lapsed", "rule-switched-off", "rule-failed")
"""Findings that are about the check itself: they are answered, not let stand."""

_LAPSED = re.compile(r"acceptances\[([^\]]+)\]")


def accept(worked: WorkedBuild, key: str, reason: str, *, by: str = "", on: date | None = None) -> Build:
    """Let a finding stand, as long as its numbers are what they are now.

    An acceptance of the same place that has lapsed is replaced by this one.

    Args:
        worked: the build worked out.
        key: the finding's key.
        reason: why it may stand.
        by: who lets it stand.
        on: the day.

    Returns:
        The build with the acceptance.

    Raises:
        InputError: when there is no such finding, when it cannot be let stand, or without a reason.

    Source: this project.
    """
    finding = find_finding(worked, key)
    reason = reason.strip()
    if finding.rule in NEVER:
        raise InputError.of("This says something about the check itself; there is nothing to let stand.")
    if not reason:
        raise InputError.of(
            "Say why it may stand, in a few words: the next who reads this will want to know.", field="reason"
        )
    if len(reason) > LONGEST_REASON:
        raise InputError.of(
            f"A reason has at most {LONGEST_REASON:,} characters; this has {len(reason):,}.", field="reason"
        )
    build = worked.build
    in_force = {one.id for _, one in worked.accepted}
    kept = tuple(one for one in build.acceptances if one.id in in_force or _spot(one) != _spot_of(finding))
    new = Acceptance(
        _free_id(build), finding.rule, fingerprint(finding), reason, by[:200], on,
        finding.joint, finding.part, finding.place, finding.says[:2_000],
    )  # fmt: skip
    return replace(build, acceptances=(*kept, new))


def renew(worked: WorkedBuild, acceptance: str, *, by: str = "", on: date | None = None) -> Build:
    """Give an acceptance that has lapsed again, for the numbers as they are now, with its reason.

    Args:
        worked: the build worked out.
        acceptance: its id.
        by: who lets it stand now.
        on: the day.

    Returns:
        The build with the acceptance given again.

    Raises:
        InputError: when there is no such acceptance, or nothing stands there that it could be given for.

    Source: this project.
    """
    old = acceptance_of(worked.build, acceptance)
    standing = next((one for one in worked.findings if _spot_of(one) == _spot(old)), None)
    if standing is None:
        raise InputError.of("The check finds nothing there now that could be let stand.")
    new = replace(
        old,
        given_for=fingerprint(standing),
        says=standing.says[:2_000],
        by=by[:200] or old.by,
        on=on if on is not None else old.on,
    )
    return replace(
        worked.build,
        acceptances=tuple(new if one is old else one for one in worked.build.acceptances),
    )


def withdraw(build: Build, acceptance: str) -> Build:
    """Take an acceptance back: the finding stands among the others again.

    Args:
        build: the build.
        acceptance: its id.

    Returns:
        The build without it.

    Raises:
        InputError: when there is no such acceptance.

    Source: this project.

    Example:
        >>> one = Acceptance("x1", "lock", "warning", "it is glued")
        >>> withdraw(Build("B1", "Box", acceptances=(one,)), "x1").acceptances
        ()
    """
    old = acceptance_of(build, acceptance)
    return replace(build, acceptances=tuple(one for one in build.acceptances if one is not old))


def acceptance_of(build: Build, acceptance: str) -> Acceptance:
    """Find an acceptance by its id.

    Args:
        build: the build.
        acceptance: its id.

    Returns:
        The acceptance.

    Raises:
        InputError: when there is none.

    Source: this project.
    """
    found = next((one for one in build.acceptances if one.id == acceptance), None)
    if found is None:
        raise InputError.of(
            f"Nothing called {quoted(acceptance)} is let stand in this build; it may be withdrawn already."
        )
    return found


def lapsed_id(finding: Finding) -> str:
    """Give the acceptance that a finding says has lapsed.

    Args:
        finding: a finding.

    Returns:
        The id of the acceptance; nothing for a finding of another rule.

    Source: this project.

    Example:
        >>> lapsed_id(Finding("acceptance-lapsed", "note", "", "", at="acceptances[x1]"))
        'x1'
    """
    found = _LAPSED.fullmatch(finding.at) if finding.rule == "acceptance-lapsed" else None
    return found[1] if found else ""


def _spot(one: Acceptance) -> tuple[str, str, str, str]:
    return one.rule, one.joint, one.part, one.place


def _spot_of(one: Finding) -> tuple[str, str, str, str]:
    return one.rule, one.joint, one.part, one.place


def _free_id(build: Build) -> str:
    taken = {one.id for one in build.acceptances}
    number = len(taken) + 1
    while f"x{number}" in taken:
        number += 1
    return f"x{number}"
