"""What a rule of the whole-build check is: a name, one sentence, a source, its limits, a small pure function.

A rule looks at one part, at one joint, or at the whole build. What a rule of parts or joints found stays
found as long as its part or joint is as it was, so that a change costs no more than what it touches.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

from calculators.joints.failing import failed
from calculators.joints.limits import Limit
from calculators.joints.model import Finding, Mend, Severity, Spot

if TYPE_CHECKING:
    from calculators.planning.checks.site import JointSite, PartSite, Site

Scope = Literal["part", "joint", "build"]
CP = "common practice"

SUBJECTS = (
    "joints", "holes and pockets", "parts in space", "wood", "metal parts", "mechanism", "material",
    "records", "order",
)  # fmt: skip
"""The headings under which rules are listed."""


@dataclass(frozen=True, slots=True)
class Seen:
    """What a rule's function saw: a finding without the rule's own name, source and version."""

    severity: Severity
    says: str
    joint: str = ""
    part: str = ""
    place: str = ""
    value: float | None = None
    limit: float | None = None
    unit: str = ""
    mends: tuple[Mend, ...] = ()
    at: str = ""
    spots: tuple[Spot, ...] = ()


@dataclass(frozen=True, slots=True)
class BuildRule:
    """A rule of the check.

    `waits_for` names the data that a later part of this project will bring; such a rule finds nothing yet,
    and says so in the list of rules. `version` rises when its meaning changes, so that acceptances lapse.
    """

    name: str
    subject: str
    says: str
    source: str
    scope: Scope
    look: Callable[[Any], Iterable[Seen]]
    limits: tuple[Limit, ...] = ()
    version: int = 1
    waits_for: str = ""

    def findings(self, site: Any) -> tuple[Finding, ...]:
        """What the rule finds; a rule that fails on strange data says so and stops nothing."""
        try:
            return tuple(self._finding(seen) for seen in self.look(site))
        except Exception as error:  # whatever it is, the rest of the check is still given
            where = {} if self.scope == "build" else {self.scope: site.mark}
            return (failed(self.name, self.source, error, **where),)

    def _finding(self, seen: Seen) -> Finding:
        return Finding(
            self.name, seen.severity, seen.says, self.source, seen.joint, seen.part, seen.place,
            _rounded(seen.value), _rounded(seen.limit), seen.unit, seen.mends, seen.at, seen.spots,
            self.version,
        )  # fmt: skip


def _rounded(value: float | None) -> float | None:
    """Without the last bits of float arithmetic."""
    return None if value is None else round(value, 6)


def part_rule(
    name: str, subject: str, says: str, source: str, *limits: Limit, version: int = 1
) -> Callable[[Callable[[PartSite], Iterable[Seen]]], BuildRule]:
    """Make a rule of a function that looks at one part.

    Args:
        name: the rule's name, in plain words joined by hyphens.
        subject: one of `SUBJECTS`.
        says: one sentence that states it.
        source: where it comes from.
        *limits: the limits that it takes from `site.limits`.
        version: its version.

    Returns:
        The decorator.

    Source: this project.
    """
    return lambda look: BuildRule(name, subject, says, source, "part", look, limits, version)


def joint_rule(
    name: str, subject: str, says: str, source: str, *limits: Limit, version: int = 1
) -> Callable[[Callable[[JointSite], Iterable[Seen]]], BuildRule]:
    """Make a rule of a function that looks at one joint where it lies.

    Args:
        name: the rule's name, in plain words joined by hyphens.
        subject: one of `SUBJECTS`.
        says: one sentence that states it.
        source: where it comes from.
        *limits: the limits that it takes from `site.limits`.
        version: its version.

    Returns:
        The decorator.

    Source: this project.
    """
    return lambda look: BuildRule(name, subject, says, source, "joint", look, limits, version)


def build_rule(
    name: str,
    subject: str,
    says: str,
    source: str,
    *limits: Limit,
    version: int = 1,
    waits_for: str = "",
) -> Callable[[Callable[[Site], Iterable[Seen]]], BuildRule]:
    """Make a rule of a function that looks at the whole build.

    Args:
        name: the rule's name, in plain words joined by hyphens.
        subject: one of `SUBJECTS`.
        says: one sentence that states it.
        source: where it comes from.
        *limits: the limits that it takes from `site.limits`.
        version: its version.
        waits_for: the data that a later part of this project will bring.

    Returns:
        The decorator.

    Source: this project.
    """
    return lambda look: BuildRule(name, subject, says, source, "build", look, limits, version, waits_for)


def unchecked(says: str, *, joint: str = "", part: str = "", at: str = "") -> Seen:
    """Say which data is missing to tell.

    Args:
        says: the sentence, which names the data.
        joint: the joint that it is about.
        part: the part that it is about.
        at: the field where the data belongs.

    Returns:
        An `unchecked` finding.

    Source: this project.
    """
    return Seen("unchecked", says, joint, part, at=at)


def setting(says: str, *fields: tuple[str, str]) -> Mend:
    """Offer a mend that sets fields of the build, all at once.

    Args:
        says: what it does, in a sentence.
        *fields: pairs of a path (`components[P01].holes[h1].u`) and the value as the build file writes it.

    Returns:
        The mend, which `calculators.planning.edits.mend` carries out.

    Source: this project.

    Example:
        >>> setting("Move the hole 3 mm in.", ("components[P01].holes[h1].u", "12")).value
        'components[P01].holes[h1].u = 12'
    """
    return Mend(says, "set", "; ".join(f"{path} = {value}" for path, value in fields))
