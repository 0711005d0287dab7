"""How long a large build takes, and how the time grows with its size. Reports; never passes or fails.

Run: `python -m tests.benchmarks.planning [--times N]`.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Callable
from dataclasses import replace

from buildlog.setup.memory import collect_seldom
from calculators.joints.work import work_joint
from calculators.planning.edits import compare_builds, effects, try_fastener
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
from tests.benchmarks.large import counts, inch, large_build

SCALES = (1.0, 10.0)


def forget() -> None:
    """Drop what was remembered of joints and parts, as when a build is looked at for the first time."""
    work_joint.cache_clear()


def first(work: Callable[[Build], object], build: Build) -> Callable[[], object]:
    """A stage that finds nothing remembered."""

    def run() -> object:
        forget()
        return work(build)

    return run


def again(build: Build, change: Callable[[Build, int], Build]) -> Callable[[], object]:
    """A stage that looks again after a change, another one each time; all else is remembered."""
    changed = iter([change(build, number) for number in range(50)])
    before = inspect_build(build)
    return lambda: inspect_build(next(changed), before)


def other_screw(build: Build, number: int) -> Build:
    """One joint with a longer screw."""
    mark = build.joints[number].mark
    return try_fastener(build, mark, f"No. 10 x {1 + number % 3} 1/2 csk slotted brass wood screw")


def thinner_base(build: Build, number: int) -> Build:
    """One part of another thickness."""
    base = build.components[10 * number]
    thin = replace(base, size=replace(base.size, thickness=inch("1 in")))
    return replace(build, components=tuple(thin if one is base else one for one in build.components))


def stages(build: Build) -> dict[str, Callable[[], object]]:
    """What is timed, by name; the worked build is made once, before the clock runs."""
    data = write_build(build)
    worked = resolve_build(build)
    before, after = inspect_build(build), inspect_build(other_screw(build, 0))
    return {
        "write": lambda: write_build(build),
        "read": lambda: read_build(data),
        "work out": first(resolve_build, build),
        "findings": first(inspect_build, build),
        "one joint changed": again(build, other_screw),
        "one part changed": again(build, thinner_base),
        "compare": lambda: compare_builds(before.build, after.build),
        "effects": lambda: effects(before, after),
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
    collect_seldom()  # as every process of the project does
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
