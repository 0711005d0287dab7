"""What tells two threads apart at the bench: a flank leaf, a length over many threads, a caliper, a trial."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.hardware.thread_comparison import LEAST_PLAY_MM, Comparison, compare_threads, same_thread
from calculators.hardware.thread_identification import zone_of
from calculators.hardware.thread_sizes import Thread

READING_MM = 0.1
"""How far a length over threads, read crest to crest with a caliper, may be off (common practice)."""

_LONGEST_MM = 60.0
"""More thread than this few screws have; the count is then of no use."""


def threads_to_count(one: Thread, other: Thread) -> int | None:
    """Over how many threads two pitches must be measured until the two readings cannot be mixed up.

    n (p1 - p2) must be more than both readings may be off together: n = 2 u / (p1 - p2), rounded up.

    Args:
        one: a thread.
        other: another.

    Returns:
        The number of threads; None where the pitches are the same.

    Source: common practice, with u = 0.1 mm.

    Example:
        >>> from calculators.hardware.thread_names import find_thread
        >>> threads_to_count(find_thread("2 BA"), find_thread("10-32"))
        13
    """
    difference = abs(one.pitch_mm - other.pitch_mm)
    if difference < 1e-6:
        return None
    return max(1, math.ceil(2 * READING_MM / difference - 1e-9))


def tell_apart(one: Thread, other: Thread, *, internal: bool = False, trial: bool = True) -> tuple[str, ...]:
    """What would separate two threads that a measurement cannot, the surest first.

    Args:
        one: a thread.
        other: another.
        internal: whether the part is a nut or a tapped hole.
        trial: whether a trial in a nut is told of where something else separates them already.

    Returns:
        Sentences; one that says so where nothing separates them.

    Source: common practice.

    Example:
        >>> from calculators.hardware.thread_names import find_thread
        >>> tell_apart(find_thread("M6"), find_thread("0 BA"))[0]
        'Flank angle: a leaf of 60 degrees seats in M6, one of 47.5 degrees in 0 BA.'
    """
    found = [*_by_pitch(one, other), *_by_diameter(one, other, internal)]
    if trial or not (found or one.angle_deg != other.angle_deg):
        found += _by_trial(one, other, internal)
    found.sort(key=lambda says: "more than a screw has" in says)
    angle = one.angle_deg != other.angle_deg
    if angle:
        says = (
            f"Flank angle: a leaf of {one.angle_deg:g} degrees seats in {one.designation}, one of "
            f"{other.angle_deg:g} degrees in {other.designation}."
        )
        # Where the pitches are one, or nearly, the angle is the only sure mark.
        close = abs(one.pitch_mm - other.pitch_mm) < 0.04 * one.pitch_mm
        found.insert(0 if close else 1, says)
    if found:
        return tuple(found)
    if same_thread(one, other):
        return (f"{one.designation} and {other.designation} are one thread by two names.",)
    return (f"Nothing at the bench separates {one.designation} from {other.designation}.",)


def _by_pitch(one: Thread, other: Thread) -> Iterator[str]:
    count = threads_to_count(one, other)
    if count is None:
        return
    fine, coarse = sorted((one, other), key=lambda thread: thread.pitch_mm)
    if count * coarse.pitch_mm > _LONGEST_MM:
        yield f"Pitch: it would take {count} threads to tell the pitches apart, more than a screw has."
        return
    # Ten threads are easily had on most screws, and the longer count is the surer.
    if count < 10 and 10 * coarse.pitch_mm <= 2 * coarse.major_mm:
        count = 10
    threads = f"{count} threads" if count > 1 else "one thread"
    yield (
        f"Pitch: {threads} of {coarse.designation} measure{'s' if count == 1 else ''} "
        f"{count * coarse.pitch_mm:.2f} mm, of {fine.designation} {count * fine.pitch_mm:.2f} mm, "
        f"crest to crest, each read to {READING_MM:g} mm."
    )


def _by_diameter(one: Thread, other: Thread, internal: bool) -> Iterator[str]:
    """The diameters settle it where the limits of unworn, unplated parts do not overlap."""
    small, large = sorted((one, other), key=lambda thread: zone_of(thread, internal).least)
    most, least = zone_of(small, internal).most, zone_of(large, internal).least
    if least > most:
        what = "across the bore" if internal else "over the threads"
        yield (
            f"Diameter: unworn and not plated, {small.designation} measures at most {most:.2f} mm {what}, "
            f"{large.designation} at least {least:.2f} mm."
        )


def _by_trial(one: Thread, other: Thread, internal: bool) -> Iterator[str]:
    """A trial with a part that is known: its own thread runs, the other binds or is loose."""
    trials = []
    for known, strange in ((one, other), (other, one)):
        screw, nut = (known, strange) if internal else (strange, known)
        trials.append((known, strange, compare_threads(screw, nut, strange.major_mm)))
    telling = [each for each in trials if each[2].verdict != "fits"]
    if not telling:
        return
    # What jams tells more than what is merely loose.
    known, strange, trial = min(telling, key=lambda each: each[2].verdict == "loose")
    part, on, whole = ("screw", "in", "nut") if internal else ("nut", "on", "screw")
    yield (
        f"Trial: a {part} of {known.designation} runs {on} a {whole} of {known.designation}; "
        f"{on} one of {strange.designation} it {_outcome(trial)}."
    )


def _outcome(trial: Comparison) -> str:
    turns = trial.turns["ordinary"]
    if trial.verdict == "loose":
        return "goes too, but shakes"
    if trial.plays_mm["ordinary"] < LEAST_PLAY_MM or turns is None:
        return "is too tight for the hand" if trial.plays_mm["slack"] > 0 else "jams at once"
    if turns < 1:
        return "jams within a turn"
    return f"binds after about {turns:.0f} turn{'s' if round(turns) != 1 else ''}"
