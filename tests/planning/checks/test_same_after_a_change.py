"""What is found after a change is what is found when nothing is known of before: of every build, after any change.

`previous` may save time and nothing else. Each chain of changes is followed once with what was worked out of the
build before, and then each of its builds is worked out alone, read anew from its file, with nothing remembered.
"""

from __future__ import annotations

import functools
import gc
import random
from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.joints.work import work_joint
from calculators.planning.files import read_build, write_build
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Build
from calculators.planning.worked import WorkedBuild
from tests.benchmarks.large import large_build
from tests.demonstration.test_demonstration_files import NUMBERS, build_of
from tests.planning.checks.interacting import interacting
from tests.planning.checks.random_edits import edited

_FORGOTTEN = ("calculators.planning", "calculators.geometry", "calculators.joints")


@cache
def remembering() -> tuple[Callable[[], None], ...]:
    """What empties each memory of the modules that work builds out."""
    wrapper = type(functools.lru_cache(int))
    found = [one for one in gc.get_objects() if isinstance(one, wrapper)]
    return tuple(
        one.cache_clear for one in found if str(getattr(one, "__module__", "")).startswith(_FORGOTTEN)
    )


def alone(build: Build) -> WorkedBuild:
    """The build worked out as if nothing had been before it."""
    for forget in remembering():
        forget()
    return inspect_build(read_build(write_build(build)))


def the_same(worked: WorkedBuild) -> None:
    fresh = alone(worked.build)
    assert worked.findings == fresh.findings
    assert worked.accepted == fresh.accepted
    assert worked.holes == fresh.holes
    assert worked == fresh


def follow(build: Build, seed: int, changes: int) -> None:
    """Change a build several times, and go back to where it began as an undo does."""
    dice = random.Random(seed)
    steps = [inspect_build(build)]
    for _ in range(changes):
        steps.append(inspect_build(edited(steps[-1], dice), steps[-1]))
    steps.append(inspect_build(build, steps[-1]))
    for worked in steps[1:]:
        the_same(worked)


def test_memories_are_found_and_emptied() -> None:
    inspect_build(build_of("TW-33"))
    assert work_joint.cache_info().currsize > 0
    alone(large_build(0.02))
    assert work_joint.cache_info().misses == work_joint.cache_info().currsize > 0


@settings(deadline=None, max_examples=25, suppress_health_check=list(HealthCheck))
@given(interacting(), st.integers(0, 10**6))
def test_builds_whose_parts_meet(build: Build, seed: int) -> None:
    follow(build, seed, 4)


@pytest.mark.parametrize("number", NUMBERS)
@pytest.mark.parametrize("seed", range(3))
def test_the_demonstration(number: str, seed: int) -> None:
    follow(build_of(number), seed, 5)


@pytest.mark.parametrize("seed", range(3))
def test_the_large_build(seed: int) -> None:
    follow(large_build(0.06), seed, 6)


def test_many_changes_after_one_another() -> None:
    """A long evening: only the end is worked out alone, so that what is carried over has time to go wrong."""
    dice = random.Random(1)
    worked = inspect_build(build_of("TW-31"))
    for _ in range(60):
        worked = inspect_build(edited(worked, dice), worked)
    the_same(worked)


@pytest.mark.parametrize("seed", range(2))
def test_one_change_of_the_whole_large_build(seed: int) -> None:
    build = large_build()
    worked = inspect_build(build)
    after = inspect_build(edited(worked, random.Random(seed)), worked)
    the_same(after)


def test_what_came_before_may_be_another_build_altogether() -> None:
    first = inspect_build(build_of("TW-32"))
    the_same(inspect_build(build_of("TW-31"), first))
    renamed = replace(large_build(0.02), title="other")
    the_same(inspect_build(renamed, first))
