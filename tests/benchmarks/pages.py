"""How long the server takes for each page of a large build, as a multiple of an empty page. Reports.

Run: `python -m tests.benchmarks.pages [--times N]`. A database in memory, the whole stack of middleware and
templates, no network. `first` is the page right after a change, when the build is worked out anew; `again`
is every later time. The empty page is the parts page of a build without parts, in the same run.
"""

# ruff: noqa: E402 (what is imported needs Django set up)
from __future__ import annotations

import argparse
import os
import sys
import time

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "buildlog.settings.testing")

import django

django.setup()

from dataclasses import replace

from django.core.management import call_command
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds.actions import begin_build, change_build
from buildlog.builds.page import SIDES
from buildlog.workshops.actions import begin_workshop
from buildlog.workshops.models import Person
from calculators.planning.model import Build
from tests.benchmarks.large import counts, large_build

MOST = 10.0
"""No page is to take longer than this many empty pages."""


def measured(client: Client, address: str, times: int) -> tuple[float, int, int]:
    """The shortest time of a page [s], its queries and its size [bytes]."""
    best, queries, size = float("inf"), 0, 0
    for _ in range(times):
        with CaptureQueriesContext(connection) as asked:
            start = time.perf_counter()
            answer = client.get(address)
            best = min(best, time.perf_counter() - start)
        assert answer.status_code == 200, (address, answer.status_code)
        queries, size = len(asked), len(answer.content)
    return best, queries, size


def main() -> int:
    """Print a table of pages."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--times", type=int, default=5, help="runs of each page; the shortest counts")
    times = max(1, parser.parse_args().times)
    call_command("migrate", verbosity=0)
    person = Person.objects.create(username="ann")
    workshop = begin_workshop("Shed", person)
    build = large_build(1.0)
    sys.stdout.write("{:,} components, {:,} joints, {:,} holes\n".format(*counts(build)))
    begin_build(workshop, person, Build("EMPTY", "An empty build"), "Begun")
    row = begin_build(workshop, person, replace(build, number="LARGE"), "Begun")
    client = Client()
    client.force_login(person)
    base = "/workshops/shed/builds"
    client.get("/sign-in/")
    empty, _, _ = measured(client, f"{base}/EMPTY/parts/", times)
    sys.stdout.write(
        f"an empty page: {empty * 1000:.1f} ms\n\n{'page':28}{'first':>9}{'again':>9}{'times':>7}"
    )
    sys.stdout.write(f"{'queries':>9}{'kB':>7}\n")
    joint, part = build.joints[0].mark, build.components[1].mark
    addresses = [
        "/",
        *(f"{base}/LARGE/{'' if side.name == 'check' else side.name + '/'}" for side in SIDES),
        f"{base}/LARGE/fasteners/",
        f"{base}/LARGE/history/",
        f"{base}/LARGE/history/",
        f"{base}/LARGE/about/",
        f"{base}/LARGE/keeping/",
        f"{base}/LARGE/joints/{joint}/",
        f"{base}/LARGE/parts/{part}/",
        f"{base}/LARGE/parts/?find=batten&sort=-name",
        f"{base}/LARGE/holes/?page=9",
        f"{base}/LARGE/?by=rule",
    ]
    for number, address in enumerate(addresses):
        change_build(row, person, lambda b, n=number: replace(b, purpose=f"version {n}"), "Changed")
        first, _, _ = measured(client, address, 1)
        again, queries, size = measured(client, address, times)
        name = address.replace(f"{base}/LARGE", "") or "/"
        mark = "  over" if again > MOST * empty else ""
        sys.stdout.write(
            f"{name:28}{first * 1000:7.0f}ms{again * 1000:7.1f}ms{again / empty:7.1f}{queries:9}{size / 1000:7.0f}{mark}\n"
        )
    return 0


if __name__ == "__main__":
    sys.exit(main())
