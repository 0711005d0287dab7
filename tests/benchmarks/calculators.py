"""How long a calculator's page takes, as a multiple of an empty page, and how long `manage.py calc` takes to start.

Run: `python -m tests.benchmarks.calculators [--times N]`. Pages: a database in memory, the whole stack of
middleware and templates, no network, each calculator with its example; the empty page is that of
`tests.benchmarks.pages`, the parts of a build without parts, in the same run. Starting: the processor's time
of whole processes, against `python -c 'import django'` in turn with them. Reports; `tests/bench/test_speed.py`
guards the same ratios.
"""

# ruff: noqa: E402 (what is imported needs Django set up)
from __future__ import annotations

import argparse
import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "buildlog.settings.testing")

import django

django.setup()

from django.core.management import call_command
from django.test import Client

from buildlog.bench.rows import address_of
from buildlog.bench.views.calculators import _remembered
from buildlog.builds.actions import begin_build
from buildlog.workshops.actions import begin_workshop
from buildlog.workshops.models import Person
from calculators.calculation import Calculator
from calculators.catalogue import all_calculators
from calculators.planning.model import Build

ROOT = Path(__file__).resolve().parents[2]
MOST = 3.0
"""No calculator's page is to take longer than this many empty pages; no start longer than this many imports."""

RUNNING = 3
"""How often a page is asked for running; the shortest counts."""

STARTS = {
    "import django": ("-c", "import django"),
    "calc drill name=#7": ("manage.py", "calc", "drill", "name=#7"),
}


def seconds(work: Callable[[], object], times: int) -> float:
    """The shortest processor's time of some work [s]."""
    best = float("inf")
    for _ in range(times):
        start = time.process_time()
        work()
        best = min(best, time.process_time() - start)
    return best


def empty_page(client: Client) -> str:
    """The address of an empty page: the parts of a build without parts."""
    person = Person.objects.create(username="ann")
    begin_build(begin_workshop("Shed", person), person, Build("EMPTY", "An empty build"), "Begun")
    client.force_login(person)
    return "/workshops/shed/builds/EMPTY/parts/"


def page_of(calculator: Calculator) -> str:
    """The address of a calculator with its example worked out."""
    return f"/bench/{calculator.name}/?{address_of(calculator.example or {})}"


@dataclass
class Page:
    """A calculator's page as a multiple of an empty page: worked out anew, and asked for again."""

    first: float = float("inf")
    again: float = float("inf")


def ratios(client: Client, times: int, some: Sequence[Calculator]) -> tuple[float, dict[str, Page]]:
    """The time of an empty page [s], and those of each calculator's page as multiples of it."""

    def get(address: str) -> None:
        answer = client.get(address)
        assert answer.status_code == 200, (address, answer.status_code)

    found = {each.name: Page() for each in some}
    empty, nothing = float("inf"), empty_page(client)
    for address in (nothing, *map(page_of, some)):
        get(address)

    def first(address: str) -> None:
        _remembered.cache_clear()
        get(address)

    # In turn, so that what else the machine does falls on all alike; each a few times running, since the
    # first time after another page is slower, for the empty page too.
    for _ in range(times):
        empty = min(empty, seconds(lambda: get(nothing), RUNNING))
        for each in some:
            page, address = found[each.name], page_of(each)
            page.first = min(page.first, seconds(lambda address=address: first(address), RUNNING))  # type: ignore[misc]
            page.again = min(page.again, seconds(lambda address=address: get(address), RUNNING))  # type: ignore[misc]
    return empty, {name: Page(one.first / empty, one.again / empty) for name, one in found.items()}


def starting(times: int) -> dict[str, float]:
    """The shortest processor's time of each way of starting [s]; compiled modules are kept, as they are for a person."""
    best = dict.fromkeys(STARTS, float("inf"))
    with tempfile.TemporaryDirectory() as cache:
        kept = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
        env = {**kept, "PYTHONPYCACHEPREFIX": cache}
        for turn in range(times + 1):
            for name, words in STARTS.items():
                before = resource.getrusage(resource.RUSAGE_CHILDREN)
                subprocess.run(
                    [sys.executable, *words], cwd=ROOT, env=env, check=True, stdout=subprocess.DEVNULL
                )
                after = resource.getrusage(resource.RUSAGE_CHILDREN)
                took = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
                best[name] = min(best[name], took if turn else float("inf"))
    return best


def main() -> int:
    """Print both tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--times", type=int, default=5, help="runs of each; the shortest counts")
    times = max(1, parser.parse_args().times)
    call_command("migrate", verbosity=0)
    empty, found = ratios(Client(), times, all_calculators())
    sys.stdout.write(f"an empty page: {empty * 1000:.1f} ms\n\n{'page':28}{'first':>7}{'again':>7}\n")
    for name, page in sorted(found.items(), key=lambda pair: -pair[1].first):
        over = "  over" if max(page.first, page.again) > MOST else ""
        sys.stdout.write(f"{name:28}{page.first:7.2f}{page.again:7.2f}{over}\n")
    sys.stdout.write("\n")
    took = starting(times)
    first = took["import django"]
    for name, each in took.items():
        sys.stdout.write(f"{name:28}{each * 1000:7.1f} ms{each / first:7.2f}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
