"""How long a drilling sheet takes beside what the printer alone needs for the same finished HTML. Reports.

Run: `python -m tests.benchmarks.sheets [--times N]`. `whole` makes the sheet of a build that is worked out
already, with its plans, facts, code and square code; `printer` prints the same HTML again, in the same run.
`with the check` works the build out first as well. The sheet is to take at most 1.5 times the printer.
"""

# ruff: noqa: E402 (what is imported needs Django set up)
from __future__ import annotations

import argparse
import os
import sys
import time
from collections.abc import Callable

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "buildlog.settings.testing")

import django

django.setup()

from dataclasses import replace

from buildlog.sheets.making import make_sheet, sheet_html
from buildlog.sheets.printing import print_pdf
from calculators.planning.inspection import inspect_build
from tests.benchmarks.large import counts, large_build

MOST = 1.5
ADDRESS = "https://oddleg.example"


def seconds(what: Callable[[], object]) -> float:
    """How long something takes [s]."""
    start = time.perf_counter()
    what()
    return time.perf_counter() - start


def main() -> int:
    """Print the shortest times and their ratio; 1 where the sheet is slower than it is to be."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--times", type=int, default=3, help="runs of each; the shortest counts")
    times = max(1, parser.parse_args().times)
    build = large_build(0.08)
    sys.stdout.write("{:,} components, {:,} joints, {:,} holes placed by hand\n".format(*counts(build)))
    html = sheet_html("drilling", inspect_build(build), address=ADDRESS)
    print_pdf(html)  # type and styles are read once
    whole, check, printer = [], [], []
    for turn in range(times):
        worked = inspect_build(replace(build, purpose=f"run {turn}"))
        whole.append(seconds(lambda w=worked: make_sheet("drilling", w, address=ADDRESS)))  # type: ignore[misc]
        check.append(seconds(lambda: make_sheet("drilling", inspect_build(build), address=ADDRESS)))
        printer.append(seconds(lambda: print_pdf(html)))
    alone = min(printer)
    for name, taken in (("whole", min(whole)), ("with the check", min(check)), ("printer", alone)):
        sys.stdout.write(f"{name:16}{taken:7.2f} s{taken / alone:8.3f} times the printer\n")
    return 1 if min(check) > MOST * alone else 0


if __name__ == "__main__":
    sys.exit(main())
