"""The check as a page shows it: findings grouped, found by words, chosen by severity, in pages."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from django.core.paginator import Page, Paginator
from django.http import QueryDict

from buildlog.builds.joint_rows import mark_order
from buildlog.builds.listing import ROWS
from buildlog.builds.rule_rows import subject_by_rule
from buildlog.builds.showing import ShownFinding, counts_of, show_findings
from calculators.joints.model import Finding
from calculators.planning.inspection import SEVERITIES
from calculators.planning.worked import WorkedBuild

GROUPINGS = (("first", "what comes first"), ("part", "part"), ("rule", "rule"), ("subject", "subject"))
FIRST = {
    "error": "To be mended before anything is cut",
    "warning": "Will disappoint",
    "unchecked": "Could not be looked at",
    "note": "To know",
}
WORDS = {"error": "errors", "warning": "warnings", "unchecked": "unchecked", "note": "notes"}


@dataclass(frozen=True, slots=True)
class Group:
    """Findings under one heading; `address` is the mark of a part or joint that the heading leads to."""

    heading: str
    findings: tuple[ShownFinding, ...]


@dataclass(frozen=True, slots=True)
class Check:
    """All that the page shows, and what was asked of it. `query` is the address without the page."""

    counts: list[tuple[str, int]]
    groups: tuple[Group, ...]
    page: Page[Finding]
    by: str
    find: str
    severity: str
    rule: str
    query: str
    of: int

    groupings = GROUPINGS
    severities = tuple(WORDS.items())


def checked(asked: QueryDict, worked: WorkedBuild) -> Check:
    """The findings that an address asks for; what it asks that there is not is left aside."""
    by, severity = asked.get("by", ""), asked.get("severity", "")
    by = by if by in dict(GROUPINGS) else "first"
    severity = severity if severity in SEVERITIES else ""
    find, rule = asked.get("find", "")[:200].strip(), asked.get("rule", "")[:200].strip()
    names = {one.mark: one.name for one in worked.build.components}
    names |= {one.mark: one.title for one in worked.build.calculations}
    found = [one for one in worked.findings if severity in ("", one.severity) and rule in ("", one.rule)]
    if find:
        words = find.casefold().split()
        found = [one for one in found if all(word in _text(one, names) for word in words)]
    if by == "part":  # sorting is stable: the worst stays first within a part
        found.sort(key=lambda one: (not one.part, mark_order(one.part)))
    elif by == "rule":
        worst: dict[str, int] = {}
        for one in found:
            worst.setdefault(one.rule, SEVERITIES.index(one.severity))  # the worst comes first
        found.sort(key=lambda one: (worst[one.rule], one.rule))
    elif by == "subject":  # the worst stays first within a subject
        subjects = list(dict.fromkeys(_subject(one) for one in worked.findings))
        found.sort(key=lambda one: subjects.index(_subject(one)))
    page = Paginator(found, ROWS).get_page(asked.get("page"))
    query = QueryDict(mutable=True)
    said = {"by": by if by != "first" else "", "severity": severity, "rule": rule, "find": find}
    for name, value in said.items():
        if value:
            query[name] = value
    groups = tuple(
        Group(heading, tuple(show_findings(worked, each)))
        for heading, each in groupby(page.object_list, key=lambda one: _heading(one, by, names))
    )
    return Check(
        counts_of(worked), groups, page, by, find, severity, rule, query.urlencode(), len(worked.findings)
    )


def _subject(finding: Finding) -> str:
    return subject_by_rule().get(finding.rule, "the check itself")


def _text(finding: Finding, names: dict[str, str]) -> str:
    words = (finding.where, finding.says, finding.rule, finding.severity, names.get(finding.part, ""))
    return " ".join(words).casefold()


def _heading(finding: Finding, by: str, names: dict[str, str]) -> str:
    if by == "rule":
        return finding.rule.replace("-", " ").capitalize()
    if by == "subject":
        return _subject(finding).capitalize()
    if by == "part":
        if finding.part in names:
            return f"{finding.part} {names[finding.part]}"
        return finding.part or "Joints as a whole"
    return FIRST[finding.severity]
