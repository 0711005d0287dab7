"""The thinnest thread that a fit allows: screw at its least, nut at its widest."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.hardware.thread_limits import ThreadLimits, limits_of
from calculators.hardware.threads import Thread

_INCH = 25.4
_THREE_PLACES_FROM = 0.138
"""From this diameter on ASME B1.1 gives the nut's minor diameter to three places [in]."""


@dataclass(frozen=True, slots=True)
class ThreadExtremes:
    """Diameters in millimetres at which screw and nut have the least metal, and how they are known."""

    major_screw_mm: float
    pitch_screw_mm: float
    pitch_nut_mm: float
    minor_nut_mm: float
    basis: str


def thread_extremes(thread: Thread) -> ThreadExtremes:
    """The least screw and the widest nut of a thread's usual fit.

    Args:
        thread: the thread.

    Returns:
        Least major and pitch diameter of the screw, greatest pitch and minor diameter of the nut [mm].

    Source: limits of the thread's standard (`calculators.hardware.thread_limits`); Unified sizes are rounded
        as ASME B1.1 does (from memory), which a worked example of FED-STD-H28/2B bears out (the tests).

    Example:
        >>> from calculators.hardware.threads import find_thread
        >>> round(thread_extremes(find_thread("1/2-13 UNC")).minor_nut_mm / 25.4, 3)
        0.434
    """
    limits = limits_of(thread)
    basis = f"fit {limits.screw_class}/{limits.nut_class}, {limits.source}"
    if thread.is_unified:
        return _rounded(thread, limits, basis)
    return ThreadExtremes(
        limits.screw_major_mm[0],
        limits.screw_pitch_diameter_mm[0],
        limits.nut_pitch_diameter_mm[1],
        limits.nut_minor_mm[1],
        basis,
    )


def _rounded(thread: Thread, limits: ThreadLimits, basis: str) -> ThreadExtremes:
    """The standard rounds each basic size and tolerance to four places of an inch before it adds them."""
    major, pitch, gap, major_tolerance, screw, nut = (
        round(each / _INCH, 4)
        for each in (
            thread.major_mm,
            thread.pitch_diameter_mm,
            limits.allowance_mm,
            limits.screw_major_tolerance_mm,
            limits.screw_pitch_tolerance_mm,
            limits.nut_pitch_tolerance_mm,
        )
    )
    minor = round(limits.nut_minor_mm[1] / _INCH, 3 if major >= _THREE_PLACES_FROM else 4)
    return ThreadExtremes(
        (major - gap - major_tolerance) * _INCH,
        (pitch - gap - screw) * _INCH,
        (pitch + nut) * _INCH,
        minor * _INCH,
        f"{basis}, rounded as it does",
    )
