"""How long a large build takes, and how the time grows with its size. Reports; never passes or fails.

Run: `python -m tests.benchmarks.planning [--times N]`.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Callable

from calculators.planning.files import read_build, write_build
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Build
from calculators.planning.resolving import resolve_build
from calculators.planning.schedules import (
    assembly_list,
    buying_list,
    cut_list,
    fastener_schedule,
    hole_schedule,
)
from tests.benchmarks.large import counts, large_build

SCALES = (1.0, 10.0)


def stages(build: Build) -> dict[str, Callable[[], object]]:
    """What is timed, by name; the worked build is made once, before the clock runs."""
    data = write_build(build)
    worked = resolve_build(build)
    return {
        "write": lambda: write_build(build),
        "read": lambda: read_build(data),
        "work out": lambda: resolve_build(build),
        "findings": lambda: inspect_build(build),
        "fastener schedule": lambda: fastener_schedule(build, worked),
        "hole schedule": lambda: hole_schedule(build, worked),
        "cut list": lambda: cut_list(build),
        "buying list": lambda: buying_list(build, worked),
        "assembly list": lambda: assembly_list(build),
    }


def best_of(times: int, work: Callable[[], object]) -> float:
    """The shortest of several runs [s]: what the machine can do when nothing disturbs it."""
    found = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return min(found)


def main() -> int:
    """Print a table: each stage, its time at each scale, and the ratio."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--times", type=int, default=3, help="runs of each stage; the shortest counts")
    times = max(1, parser.parse_args().times)
    columns = []
    for scale in SCALES:
        build = large_build(scale)
        components, joints, holes = counts(build)
        sys.stdout.write(f"{components:,} components, {joints:,} joints, {holes:,} holes\n")
        columns.append({name: best_of(times, work) for name, work in stages(build).items()})
    small, large = columns
    sys.stdout.write(f"{'stage':20}{'one':>10}{'ten':>10}{'ratio':>8}\n")
    for name in small:
        sys.stdout.write(f"{name:20}{small[name]:9.3f}s{large[name]:9.3f}s{large[name] / small[name]:8.1f}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
