"""A finding as the JSON object that is printed wherever findings are."""

from __future__ import annotations

from collections.abc import Mapping

from calculators.calculation.result import Plain
from calculators.joints.model import Finding


def _about(finding: Finding) -> str:
    """The joint that a finding is about, or its place: the path of a finding that names no field."""
    if not finding.joint:
        return ""
    place = finding.place if " " not in finding.place else ""
    return f"joints[{finding.joint}]" + (f".places[{place}]" if place else "")


def finding_as_json(finding: Finding) -> Mapping[str, Plain]:
    """Give a finding as the JSON object that `manage.py inspect --json` and `manage.py calc joint` print.

    Args:
        finding: one finding.

    Returns:
        `rule`, `severity`, `where`, `joint`, `part`, `place`, `says`, `value`, `limit`, `unit`, `source`,
        `at` (the field in the build file; the joint or its place where it is about more than a field) and
        `mends`, each with `says`, `field` and `value`.

    Source: this project.

    Example:
        >>> made = finding_as_json(Finding("lock", "note", "Lock it.", "common practice", joint="F03"))
        >>> made["where"], made["at"]
        ('F03', 'joints[F03]')
    """
    return {
        "rule": finding.rule,
        "severity": finding.severity,
        "where": finding.where,
        "joint": finding.joint,
        "part": finding.part,
        "place": finding.place,
        "says": finding.says,
        "value": finding.value,
        "limit": finding.limit,
        "unit": finding.unit,
        "source": finding.source,
        "at": finding.at or _about(finding),
        "mends": [{"says": mend.says, "field": mend.field, "value": mend.value} for mend in finding.mends],
    }
