"""The check as a page shows it: findings grouped, found by words, chosen by severity, in pages."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from django.core.paginator import Page, Paginator
from django.http import QueryDict

from buildlog.builds.joint_rows import mark_order
from buildlog.builds.listing import ROWS
from buildlog.builds.showing import ShownFinding, counts_of, show_findings
from calculators.joints.model import Finding
from calculators.planning.inspection import SEVERITIES
from calculators.planning.worked import WorkedBuild

GROUPINGS = (("first", "what comes first"), ("part", "part"), ("rule", "rule"))
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
    query: str
    of: int

    groupings = GROUPINGS
    severities = tuple(WORDS.items())


def checked(asked: QueryDict, worked: WorkedBuild) -> Check:
    """The findings that an address asks for; what it asks that there is not is left aside."""
    by, severity = asked.get("by", ""), asked.get("severity", "")
    by = by if by in dict(GROUPINGS) else "first"
    severity = severity if severity in SEVERITIES else ""
    find = asked.get("find", "")[:200].strip()
    names = {one.mark: one.name for one in worked.build.components}
    names |= {one.mark: one.title for one in worked.build.calculations}
    found = [one for one in worked.findings if severity in ("", one.severity)]
    if find:
        words = find.casefold().split()
        found = [one for one in found if all(word in _text(one, names) for word in words)]
    if by == "part":  # sorting is stable: the worst stays first within a part
        found.sort(key=lambda one: (not one.part, mark_order(one.part)))
    elif by == "rule":
        found.sort(key=lambda one: (SEVERITIES.index(one.severity), one.rule))
    page = Paginator(found, ROWS).get_page(asked.get("page"))
    query = QueryDict(mutable=True)
    for name, value in (("by", by if by != "first" else ""), ("severity", severity), ("find", find)):
        if value:
            query[name] = value
    groups = tuple(
        Group(heading, tuple(show_findings(worked, each)))
        for heading, each in groupby(page.object_list, key=lambda one: _heading(one, by, names))
    )
    return Check(counts_of(worked), groups, page, by, find, severity, query.urlencode(), len(worked.findings))


def _text(finding: Finding, names: dict[str, str]) -> str:
    words = (finding.where, finding.says, finding.rule, finding.severity, names.get(finding.part, ""))
    return " ".join(words).casefold()


def _heading(finding: Finding, by: str, names: dict[str, str]) -> str:
    if by == "rule":
        return finding.rule.replace("-", " ").capitalize()
    if by == "part":
        if finding.part in names:
            return f"{finding.part} {names[finding.part]}"
        return finding.part or "Joints as a whole"
    return FIRST[finding.severity]
