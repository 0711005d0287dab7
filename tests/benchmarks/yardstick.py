"""A measure of this machine, so that a guard against slow inputs is a ratio within one run and no time."""

from __future__ import annotations

import time
from collections.abc import Callable
from contextlib import suppress
from functools import lru_cache

from calculators.quantities.errors import InputError


def processor_seconds(work: Callable[[], object]) -> float:
    """The processor's own time for some work [s], whatever else the machine does; refusals are work too."""
    start = time.process_time()
    with suppress(InputError):
        work()
    return time.process_time() - start


@lru_cache(maxsize=1)
def yardstick() -> float:
    """The processor's time for a fixed piece of Python work, the shortest of five [s]."""

    def work() -> int:
        return sum(number % 7 for number in range(1_000_000))

    return min(processor_seconds(work) for _ in range(5))


def yardsticks(work: Callable[[], object]) -> float:
    """How many yardsticks some work takes."""
    return processor_seconds(work) / yardstick()
