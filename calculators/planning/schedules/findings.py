"""The findings of a build as rows, those that are let stand last."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from calculators.joints.model import Finding
from calculators.planning.model import Acceptance
from calculators.planning.worked import WorkedBuild


@dataclass(frozen=True, slots=True)
class FindingLine:
    """One finding in a row; the last three say who let it stand, when and why."""

    severity: str
    where: str
    rule: str
    says: str
    value: float | None
    limit: float | None
    unit: str
    mends: tuple[str, ...]
    source: str
    at: str
    let_stand_by: str = ""
    let_stand_on: date | None = None
    let_stand_because: str = ""


def finding_list(worked: WorkedBuild) -> tuple[FindingLine, ...]:
    """List the findings of a build.

    Args:
        worked: the build worked out.

    Returns:
        A line for each, in their order.

    Source: this project.

    Example:
        >>> from calculators.planning.model import Build
        >>> finding_list(WorkedBuild(Build("B1", "Stool")))
        ()
    """
    standing = (_line(one) for one in worked.findings)
    return (*standing, *(_line(one, acceptance) for one, acceptance in worked.accepted))


def _line(one: Finding, acceptance: Acceptance | None = None) -> FindingLine:
    return FindingLine(
        one.severity,
        one.where,
        one.rule,
        one.says,
        one.value,
        one.limit,
        one.unit,
        tuple(mend.says for mend in one.mends),
        one.source,
        one.at,
        acceptance.by if acceptance else "",
        acceptance.on if acceptance else None,
        acceptance.reason if acceptance else "",
    )
