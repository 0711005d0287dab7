"""What another fastener, or a mend, would change: worked out and shown, with nothing saved."""

from __future__ import annotations

from dataclasses import dataclass

from buildlog.builds.mending import mend_index
from buildlog.builds.showing import JointGroup, ShownFinding, joint_groups, show_findings
from calculators.joints.model import Finding
from calculators.planning.edits import Effects, alternatives, effects, find, find_finding, mend, try_fastener
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Build, Joint
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError

FIRST_CHANGES = 40
"""The most parts, and holes of one part, that a trial lists; it says how many more there are."""


@dataclass(frozen=True, slots=True)
class Trial:
    """A trial: what was tried in words, the joint now and as tried, and everything that would change.

    `line` is the fastener of a trial of one, `key` and `at` the mend of a trial of one. `red` are the
    findings of the joint as tried; `tried` is the joint as it would be.
    """

    words: str
    line: str
    key: str
    at: int
    tried: Joint
    now: list[JointGroup]
    then: list[JointGroup]
    effects: Effects
    red: list[ShownFinding]

    @property
    def parts_left_out(self) -> int:
        """How many parts change besides those listed."""
        return max(0, len(self.effects.parts) - FIRST_CHANGES)


@dataclass(frozen=True, slots=True)
class Offer:
    """A fastener that could be tried, and how many findings of each severity the joint would then have."""

    line: str
    says: str
    counts: list[tuple[str, int]]


def offers(worked: WorkedBuild, mark: str) -> list[Offer]:
    """Fasteners to try instead of a joint's own, those that the check likes best first."""
    return [
        Offer(one.line, one.says, [(severity, count) for severity, count in one.findings if count])
        for one in alternatives(worked, mark)
    ]


def try_line(worked: WorkedBuild, mark: str, line: str) -> Trial:
    """Try a fastener in a joint. Raises InputError where the line names none."""
    if len(line) > 200:
        raise InputError.of("A fastener is written in at most 200 characters, such as No. 5 x 1 csk brass.")
    return _trial(worked, try_fastener(worked.build, mark, line), mark, line, line=line)


def try_mend(worked: WorkedBuild, mark: str, key: str, at: str) -> Trial:
    """Try a mend of one of a joint's findings. Raises InputError where it cannot be done so."""
    index = mend_index(at)
    finding = find_finding(worked, key)
    if finding.joint != mark:
        raise InputError.of(f"That finding is not one of {mark}.")
    after = mend(worked, key, index)
    return _trial(worked, after, mark, finding.mends[index].says.removesuffix("."), key=key, at=index)


def _trial(
    worked: WorkedBuild, after: Build, mark: str, words: str, *, line: str = "", key: str = "", at: int = 0
) -> Trial:
    tried = inspect_build(after, worked)
    return Trial(
        words,
        line,
        key,
        at,
        find(after, "joint", mark),
        joint_groups(worked, mark),
        joint_groups(tried, mark),
        effects(worked, tried),
        show_findings(tried, _of(tried, mark)[:FIRST_CHANGES]),
    )


def _of(worked: WorkedBuild, mark: str) -> list[Finding]:
    return [finding for finding in worked.findings if finding.joint == mark]
