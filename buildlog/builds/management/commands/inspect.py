"""`manage.py inspect`: what is wrong with a build, for people and for scripts."""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import replace
from datetime import date
from itertools import groupby
from typing import Any

from django.core.management.base import CommandParser

from buildlog.builds.lookup import find_build
from buildlog.plain_command import SentenceCommand
from calculators.joints.finding_json import finding_as_json
from calculators.joints.model import Finding
from calculators.planning.checks.listing import every_rule
from calculators.planning.inspection import SEVERITIES, inspect_build
from calculators.planning.model import Acceptance
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError

HEADINGS = {
    "error": "To be mended before anything is cut",
    "warning": "Will disappoint",
    "unchecked": "Could not be looked at",
    "note": "To know",
}


class Command(SentenceCommand):
    """Prints the findings of a build; the exit status says whether it can be made."""

    help = "Say what is wrong with a build. Exit status 0: no errors, 1: errors, 2: it cannot be read."

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the build, and how to answer."""
        parser.add_argument("build", nargs="?", default="", help="a build's number, or a build file")
        parser.add_argument("--workshop", default="", help="whose build, where two workshops have the number")
        parser.add_argument("--json", action="store_true", help="print one JSON object")
        parser.add_argument("--strict", action="store_true", help="exit status 1 for warnings too")
        parser.add_argument("--rules", action="store_true", help="list the rules and their limits instead")
        parser.add_argument("--as-of", metavar="DATE", help="the day the build is judged on (2025-06-30)")

    def respond(self, options: dict[str, Any]) -> tuple[str, int]:
        """Inspect, and answer as text or JSON."""
        if options["rules"]:
            return _rules(is_json=options["json"]), 0
        if not options["build"]:
            raise InputError.of(
                "The following arguments are required: build; manage.py inspect --help says what there is."
            )
        build = find_build(options["build"], options["workshop"])
        if options["as_of"]:
            build = replace(build, context=replace(build.context, as_of=_day(options["as_of"])))
        worked = inspect_build(build)
        counts: Counter[str] = Counter(finding.severity for finding in worked.findings)
        text = _as_json(worked, counts) if options["json"] else _as_text(worked, counts)
        failed = counts["error"] or (options["strict"] and counts["warning"])
        return text, 1 if failed else 0


def _rules(*, is_json: bool) -> str:
    """Every rule by subject, with its limits."""
    rules = every_rule()
    if is_json:
        listed = [
            {
                "rule": rule.name,
                "subject": rule.subject,
                "says": rule.says,
                "source": rule.source,
                "limits": [
                    {
                        "limit": one.name,
                        "value": one.value,
                        "unit": one.unit,
                        "source": one.source,
                        "says": one.says,
                    }
                    for one in rule.limits
                ],
            }
            for rule in rules
        ]
        return json.dumps({"rules": listed}, ensure_ascii=False, indent=1, allow_nan=False)
    lines: list[str] = []
    for subject in dict.fromkeys(rule.subject for rule in rules):
        lines += ["", subject.capitalize()]
        for rule in (one for one in rules if one.subject == subject):
            lines.append(f"{rule.name}: {rule.says} ({rule.source})")
            lines += [
                f"  {one.name} {one.value:g} {one.unit}: {one.says} ({one.source})" for one in rule.limits
            ]
    return "\n".join(lines[1:])


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise InputError.of("Write the day as year-month-day, such as 2025-06-30.", field="--as-of") from None


def _as_json(worked: WorkedBuild, counts: Counter[str]) -> str:
    build = worked.build
    whole = {
        "number": build.number,
        "title": build.title,
        "as_of": build.context.as_of.isoformat() if build.context.as_of else None,
        "counts": {severity: counts[severity] for severity in SEVERITIES},
        "findings": [finding_as_json(finding) for finding in worked.findings],
        "accepted": [
            {**finding_as_json(finding), "accepted": _acceptance(one)} for finding, one in worked.accepted
        ],
    }
    return json.dumps(whole, ensure_ascii=False, indent=1, allow_nan=False)


def _acceptance(one: Acceptance) -> dict[str, str | None]:
    return {"id": one.id, "reason": one.reason, "by": one.by, "on": one.on.isoformat() if one.on else None}


def _as_text(worked: WorkedBuild, counts: Counter[str]) -> str:
    """A line a finding, its mends below it; then what is let stand, the sources, and the counts."""
    build = worked.build
    as_of = f", as of {build.context.as_of.isoformat()}" if build.context.as_of else ""
    lines = [f"{build.number} {build.title}{as_of}"]
    for severity, findings in groupby(worked.findings, key=lambda one: one.severity):
        lines += ["", HEADINGS[severity]]
        for finding in findings:
            lines.append(f"{severity}  {_line(finding)}")
            lines += [f"  mend: {mend.says}" for mend in finding.mends]
    if worked.accepted:
        lines += ["", "Let stand"]
        for finding, one in worked.accepted:
            by = f" ({', '.join(filter(None, (one.by, one.on.isoformat() if one.on else '')))})"
            lines.append(f"let stand  {_line(finding)}")
            lines.append(f"  because: {' '.join(one.reason.split())}{by if by != ' ()' else ''}")
    found = (*worked.findings, *(finding for finding, _ in worked.accepted))
    sources = sorted({(one.rule, one.source) for one in found})
    if sources:
        lines += ["", "Rules", *(f"  {rule}: {source}" for rule, source in sources)]
    words = [
        f"{counts[each]} {each}{'s' if counts[each] != 1 and each != 'unchecked' else ''}"
        for each in SEVERITIES
    ]
    accepted = f"; {len(worked.accepted)} let stand" if worked.accepted else ""
    return "\n".join([*lines, "", f"{', '.join(words)}{accepted}."])


def _line(finding: Finding) -> str:
    where = f"{finding.where}, " if finding.where else ""
    return f"{where}{finding.rule}: {' '.join(finding.says.split())}"
