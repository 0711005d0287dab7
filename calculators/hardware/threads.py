"""Screw threads: find one by its name, list them, and see which are too alike to lie on one bench."""

from __future__ import annotations

from collections.abc import Iterable

from calculators.hardware.thread_names import find_thread
from calculators.hardware.thread_sizes import FORMS, Form, Thread, all_threads, systems, threads_of

__all__ = ["FORMS", "Form", "Thread", "all_threads", "find_thread", "near_matches", "systems", "threads_of"]


def near_matches(threads: Iterable[Thread]) -> tuple[tuple[Thread, Thread], ...]:
    """Pairs of different threads so alike that one starts in the other's hole and then jams.

    Two threads are near when their diameters are less than 0.35 mm and their pitches less than 5 % of
    the finer pitch apart.

    Args:
        threads: the threads in use; a thread given twice is taken once.

    Returns:
        The pairs, each in the order given.

    Source: common practice.

    Example:
        >>> used = [find_thread(name) for name in ("2 BA", "10-32", "M8")]
        >>> [(a.designation, b.designation) for a, b in near_matches(used)]
        [('2 BA', '10-32 UNF')]
    """
    distinct = list(dict.fromkeys(threads))
    return tuple(
        (first, second)
        for place, first in enumerate(distinct)
        for second in distinct[place + 1 :]
        if abs(first.major_mm - second.major_mm) < 0.35
        and abs(first.pitch_mm - second.pitch_mm) < 0.05 * min(first.pitch_mm, second.pitch_mm)
    )
