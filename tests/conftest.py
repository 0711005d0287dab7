"""What every test may use: the hypothesis profiles, the demonstration person, and the browser's flags.

It also prints the sum of the checks against outside sources, which tests/published/conftest.py counts.
"""

from __future__ import annotations

import gc
import os
from collections.abc import Iterator

import pytest
from django.conf import LazySettings
from hypothesis import settings as hypothesis_settings

from buildlog.builds.demonstrating import make_demonstration
from buildlog.builds.reasons import giving_reason
from buildlog.setup.memory import THRESHOLDS
from buildlog.setup.system import chromium
from buildlog.workshops.models import Person

# The accepted run is the same each time and has half of the usual examples, where a test does not say how many;
# a person at work gets new ones each time, and all of them.
hypothesis_settings.register_profile("ci", derandomize=True, deadline=None, database=None, max_examples=50)
hypothesis_settings.register_profile("bench", deadline=None)
hypothesis_settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "bench"))

# As every process of the project does, but that nothing is hidden from those who look for memories to empty.
gc.set_threshold(*THRESHOLDS)

# Playwright's plain (not asyncio) interface runs a loop of its own, which Django would take for an async view.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")

# Those that Chromium needs as root and without a network, and those that keep it from looking for one.
CHROMIUM_FLAGS = (
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking"
    " --disable-component-update --disable-sync"
)


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """One mark is enough: `database` implies `django_db`, and what uses the database is marked `database`."""
    for item in items:
        uses = {"db", "transactional_db", "live_server"} & set(getattr(item, "fixturenames", ()))
        if item.get_closest_marker("database") and not item.get_closest_marker("django_db"):
            item.add_marker(pytest.mark.django_db)
        elif uses or item.get_closest_marker("django_db"):
            item.add_marker(pytest.mark.database)


@pytest.fixture
def demonstration(db: None, settings: LazySettings) -> Person:
    """The demonstration's person, whom every request from this machine is signed in as."""
    settings.DEMO = True
    return make_demonstration()


@pytest.fixture
def for_a_reason() -> Iterator[None]:
    """Whatever released parts a test changes are changed for a reason, which nobody is then asked for."""
    with giving_reason("so that it fits"):
        yield


@pytest.fixture(scope="session")
def browser_type_launch_args() -> dict[str, object]:
    """How Playwright starts the Chromium of the operating system."""
    path = chromium()
    if path is None:
        pytest.fail("The browser tests need Chromium; see DEVELOPERS.md.")
    return {"executable_path": path, "args": CHROMIUM_FLAGS.split()}


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
