"""What is this screw: the threads of the tables that a diameter and a pitch, as measured, may belong to.

A real screw's diameter lies in a zone below the basic size: evenly between its limits, less and less
likely down to a worn one and up to a plated one. A reading stands for every size within its uncertainty.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from calculators.hardware.thread_limits import limits_of
from calculators.hardware.thread_sizes import Thread, all_threads

WEAR_IN_PITCHES = 0.1
"""How much wear, or a bore drilled large, takes off the depth at most, on the diameter (common practice)."""

PLATING_MM = 0.02
"""How much two coats of plating may carry a diameter beyond its basic size (common practice)."""

PITCH_OF_SCREWS = 0.002
"""How far the pitch of a real screw is off its basic pitch, as a share of it (common practice)."""

ANGLE_DEG = 2.0
"""How far a leaf of one flank angle may seem off that angle: 55 and 60 are told apart (common practice)."""

_AT_ENDS = 0.1
"""How likely a pitch at the very end of its uncertainty is, beside one in the middle of it."""


@dataclass(frozen=True, slots=True)
class Zone:
    """Where a diameter lies [mm]: surely between `least` and `most`, at the utmost between the outer two."""

    outer_least: float
    least: float
    most: float
    outer_most: float

    def share(self, low: float, high: float) -> float:
        """The share of real parts whose diameter is between two sizes, the density being a trapezium."""
        whole = self._below(self.outer_most)
        return (self._below(high) - self._below(low)) / whole if whole else 0.0

    def _below(self, size: float) -> float:
        """Area of the trapezium of height 1 below a size."""
        a, b, c, d = self.outer_least, self.least, self.most, self.outer_most
        x = min(max(size, a), d)
        area = 0.0
        if b > a:
            rise = min(x, b) - a
            area += rise * rise / (2 * (b - a))
        if x > b:
            area += min(x, c) - b
        if x > c and d > c:
            fall = x - c
            area += fall - fall * fall / (2 * (d - c))
        return area


@dataclass(frozen=True, slots=True)
class Measured:
    """What was measured, each with how far it may be off: the diameter [mm], the pitch [mm], the angle."""

    diameter_mm: float
    diameter_off_mm: float
    pitch_mm: float
    pitch_off_mm: float
    internal: bool = False
    angle_deg: float | None = None
    angle_off_deg: float = ANGLE_DEG


@dataclass(frozen=True, slots=True)
class Candidate:
    """A thread with its differences from the reading [mm], its score from 0 to 1, and whether it is in.

    The differences are reading less basic size. The scores of all threads that are in add up to 1.
    """

    thread: Thread
    diameter_difference_mm: float
    pitch_difference_mm: float
    score: float
    within: bool


@cache
def zone_of(thread: Thread, internal: bool = False) -> Zone:
    """Where the diameter of a real part of a thread lies: over a screw's threads, or across a nut's bore.

    Args:
        thread: a thread of the tables.
        internal: whether the part is a nut.

    Returns:
        The zone [mm].

    Source: limits as in `limits_of`; wear and plating: common practice.

    Example:
        >>> from calculators.hardware.thread_names import find_thread
        >>> zone = zone_of(find_thread("M6"))
        >>> round(zone.outer_least, 3), round(zone.most, 3)
        (5.694, 5.974)
    """
    limits, wear = limits_of(thread), WEAR_IN_PITCHES * thread.pitch_mm
    if internal:
        least, most = limits.nut_minor_mm
        return Zone(least - PLATING_MM, least, most, most + wear)
    least, most = limits.screw_major_mm
    return Zone(least - wear, least, most, thread.major_mm + PLATING_MM)


def candidates(
    measured: Measured, threads: Sequence[Thread] | None = None, *, least: int = 4
) -> tuple[Candidate, ...]:
    """The threads that a reading may belong to, best first, then the nearest of those that it cannot.

    Args:
        measured: the reading; each uncertainty over 0.
        threads: those to choose from; without it all of the tables.
        least: [1] how many to give where fewer are possible.

    Returns:
        The candidates. Each thread is taken to be as likely as any other before the reading.

    Source: rule of Bayes with even odds; the zones of `zone_of`.

    Example:
        >>> reading = Measured(6.33, 0.02, 25.4 / 28, 0.01)
        >>> [each.thread.designation for each in candidates(reading) if each.within]
        ['1/4-28 UNF']
    """
    pool = all_threads() if threads is None else threads
    rated = [(_likelihood(measured, each), each) for each in pool]
    whole = math.fsum(likely for likely, _ in rated)
    found = [
        _candidate(measured, each, likely / whole, True) for likely, each in rated if likely > 0 and whole
    ]
    found.sort(key=lambda each: (-each.score, abs(each.pitch_difference_mm)))
    if len(found) < least:
        others = sorted((each for likely, each in rated if not likely), key=lambda t: _distance(measured, t))
        found += [_candidate(measured, each, 0.0, False) for each in others[: least - len(found)]]
    return tuple(found)


def _candidate(measured: Measured, thread: Thread, score: float, within: bool) -> Candidate:
    basic = thread.minor_diameter_mm if measured.internal else thread.major_mm
    return Candidate(thread, measured.diameter_mm - basic, measured.pitch_mm - thread.pitch_mm, score, within)


def _likelihood(measured: Measured, thread: Thread) -> float:
    """How likely the reading is from a part of a thread; nought where it cannot be."""
    reach = measured.pitch_off_mm + PITCH_OF_SCREWS * thread.pitch_mm
    off = abs(measured.pitch_mm - thread.pitch_mm) / reach
    if off > 1 + 1e-9:
        return 0.0
    angle = thread.angle_deg if measured.angle_deg is None else measured.angle_deg
    if abs(angle - thread.angle_deg) > measured.angle_off_deg + 1e-9:
        return 0.0
    zone, by = zone_of(thread, measured.internal), measured.diameter_off_mm
    if (
        measured.diameter_mm + by < zone.outer_least - 1e-9
        or measured.diameter_mm - by > zone.outer_most + 1e-9
    ):
        return 0.0
    # At the very corner of the zone the area is nought though the reading is possible.
    likely = max(zone.share(measured.diameter_mm - by, measured.diameter_mm + by) / (2 * by), 1e-9)
    return likely * (1 - (1 - _AT_ENDS) * off * off)


def _distance(measured: Measured, thread: Thread) -> float:
    """How far a reading is outside of what a thread can give, in uncertainties of diameter and of pitch."""
    zone = zone_of(thread, measured.internal)
    outside = max(zone.outer_least - measured.diameter_mm, measured.diameter_mm - zone.outer_most, 0.0)
    pitch = abs(measured.pitch_mm - thread.pitch_mm) / (
        measured.pitch_off_mm + PITCH_OF_SCREWS * thread.pitch_mm
    )
    angle = 0.0
    if measured.angle_deg is not None:
        angle = max(0.0, abs(measured.angle_deg - thread.angle_deg) - measured.angle_off_deg)
    return outside / (measured.diameter_off_mm + 0.01 * measured.diameter_mm) + pitch + angle / ANGLE_DEG
