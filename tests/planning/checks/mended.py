"""Carrying out the mends of a rule's findings, one after the other, each from the build as it was."""

from __future__ import annotations

from calculators.joints.model import Finding
from calculators.planning.edits import finding_key, mend
from calculators.planning.inspection import inspect_build
from calculators.planning.worked import WorkedBuild


def of_rule(worked: WorkedBuild, rule: str) -> list[Finding]:
    return [one for one in worked.findings if one.rule == rule]


def left_after(worked: WorkedBuild, rule: str) -> list[list[str]]:
    """For each mend of the rule's only finding: what the rule still finds, and which errors are new."""
    (finding,) = of_rule(worked, rule)
    assert finding.mends
    errors = {(one.rule, one.where) for one in worked.findings if one.severity == "error"}
    results = []
    for index in range(len(finding.mends)):
        after = inspect_build(mend(worked, finding_key(finding), index))
        results.append(
            [one.says for one in of_rule(after, rule)]
            + [f"new: {one.says}" for one in after.findings
               if one.severity == "error" and (one.rule, one.where) not in errors]
        )  # fmt: skip
    return results
