"""What a rule is: a name, one sentence, a source, and a small pure function over the worked joint."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from calculators.joints.failing import failed
from calculators.joints.model import Finding, Mend, Severity
from calculators.joints.worked import Worked


@dataclass(frozen=True, slots=True)
class Seen:
    """What a rule's function saw: a finding without the rule's own name and source."""

    severity: Severity
    says: str
    part: str = ""
    value: float | None = None
    limit: float | None = None
    unit: str = ""
    mends: tuple[Mend, ...] = ()


Look = Callable[[Worked], Iterable[Seen]]


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule of the check. `version` rises when its meaning changes, so that acceptances lapse."""

    name: str
    says: str
    source: str
    look: Look
    version: int = 1

    def findings(self, worked: Worked) -> tuple[Finding, ...]:
        """What the rule finds in a joint."""
        try:
            return tuple(self._finding(seen, worked) for seen in self.look(worked))
        except Exception as error:  # whatever it is, the other rules are still given
            return (failed(self.name, self.source, error, joint=worked.joint.mark),)

    def _finding(self, seen: Seen, worked: Worked) -> Finding:
        return Finding(
            self.name, seen.severity, seen.says, self.source, worked.joint.mark, seen.part, "",
            _rounded(seen.value), _rounded(seen.limit), seen.unit, seen.mends, version=self.version,
        )  # fmt: skip


def _rounded(value: float | None) -> float | None:
    """Without the last bits of float arithmetic."""
    return None if value is None else round(value, 6)


def rule(name: str, says: str, source: str, *, version: int = 1) -> Callable[[Look], Rule]:
    """Make a rule of a function.

    Args:
        name: the rule's name, in plain words joined by hyphens.
        says: one sentence that states it.
        source: where it comes from.
        version: its version.

    Returns:
        The decorator.

    Source: this project.
    """

    def make(look: Look) -> Rule:
        return Rule(name, says, source, look, version)

    return make


def unchecked(says: str, part: str = "", mends: tuple[Mend, ...] = ()) -> Seen:
    """A finding that says what is missing to tell.

    Args:
        says: the sentence.
        part: the part that it is about.
        mends: what would supply it.

    Returns:
        The finding.

    Source: this project.
    """
    return Seen("unchecked", says, part, mends=mends)
