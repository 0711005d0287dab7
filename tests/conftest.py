"""What all tests share: the sum of the checks against outside sources, printed at the end of a run."""

from __future__ import annotations

import pytest


def published_totals(reports: list[pytest.TestReport]) -> dict[tuple[str, str], list[int]]:
    """Sum the tallies that tests in tests/published carry: (source, confidence) to [checked, differ]."""
    totals: dict[tuple[str, str], list[int]] = {}
    for report in reports:
        if report.when != "call" or not report.passed:
            continue
        for name, tally in report.user_properties:
            if name == "published":
                sums = totals.setdefault((tally["source"], tally["confidence"]), [0, 0])
                sums[0] += tally["checked"]
                sums[1] += tally["differ"]
    return totals


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say how many published values were checked, source by source (each with -v)."""
    reports = [r for r in terminalreporter.stats.get("passed", []) if isinstance(r, pytest.TestReport)]
    totals = published_totals(reports)
    if not totals:
        return
    kinds = ("read", "memory", "common practice")
    counts = {kind: sum(n for (_, c), (n, _d) in totals.items() if c == kind) for kind in kinds}
    terminalreporter.section("published values")
    if terminalreporter.verbosity > 0:
        for (source, confidence), (checked, differ) in sorted(totals.items()):
            apart = f", {differ} listed as differing" if differ else ""
            terminalreporter.line(f"{checked:5d}  {source} ({confidence}{apart})")
    terminalreporter.line(
        f"{sum(counts.values())} values checked from {len(totals)} sources, "
        f"of which {counts['memory']} from memory and {counts['common practice']} common practice; "
        f"{sum(differ for _, differ in totals.values())} printed values listed as differing"
    )
