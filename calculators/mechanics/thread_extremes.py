"""The thinnest thread that a fit allows: screw at its least, nut at its widest.

Screw and nut of the usual class: ISO 6g and 6H, Unified 2A and 2B, Whitworth medium, British Association.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from calculators.hardware.threads import Thread

_ISO_STEPS_MM = (0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0)
_INCH = 25.4


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

    Source: formulas of ISO 965-1, ASME B1.1, BS 84 and BS 93, from memory; Unified diameters are rounded as
        that standard does, the others not. A worked example of FED-STD-H28/2B is given back (the tests).

    Example:
        >>> from calculators.hardware.threads import find_thread
        >>> round(thread_extremes(find_thread("1/2-13 UNC")).minor_nut_mm / 25.4, 3)
        0.434
    """
    if thread.is_metric:
        return _iso(thread)
    if thread.is_unified:
        return _unified(thread)
    return _association(thread) if thread.system == "BA" else _whitworth(thread)


def _iso(thread: Thread) -> ThreadExtremes:
    p, d = thread.pitch_mm, thread.major_mm
    above = next(step for step in _ISO_STEPS_MM if d <= step or step == _ISO_STEPS_MM[-1])
    below = _ISO_STEPS_MM[max(_ISO_STEPS_MM.index(above) - 1, 0)]
    allowance = (15 + 11 * p) / 1000
    pitch_screw = 90 * p**0.4 * sqrt(below * above) ** 0.1 / 1000
    major_screw = (180 * p ** (2 / 3) - 3.15 / sqrt(p)) / 1000
    minor_nut = (230 * p**0.7 if p >= 1 else 433 * p - 190 * p**1.22) / 1000
    return ThreadExtremes(
        d - allowance - major_screw,
        thread.pitch_diameter_mm - allowance - pitch_screw,
        thread.pitch_diameter_mm + 1.32 * pitch_screw,
        thread.minor_diameter_mm + minor_nut,
        "fit 6g/6H by the formulas of ISO 965-1 (from memory)",
    )


def _unified(thread: Thread) -> ThreadExtremes:
    p, d = thread.pitch_mm / _INCH, thread.major_mm / _INCH
    engaged = 9 * p if thread.system == "UNEF" else d
    pitch_screw = 0.0015 * d ** (1 / 3) + 0.0015 * sqrt(engaged) + 0.015 * p ** (2 / 3)
    allowance = 0.3 * pitch_screw
    coarse = 0.25 * p - 0.4 * p**2
    if d >= 0.25:
        minor_nut = coarse
    else:
        minor_nut = min(max(0.05 * p ** (2 / 3) + 0.03 * p / d - 0.002, coarse), 0.394 * p)
    # The standard rounds each basic size and tolerance before it adds them.
    gap, pitch = round(allowance, 4), round(thread.pitch_diameter_mm / _INCH, 4)
    minor = round(thread.minor_diameter_mm / _INCH + minor_nut, 3 if d >= 0.138 else 4)
    return ThreadExtremes(
        (d - gap - round(0.06 * p ** (2 / 3), 4)) * _INCH,
        (pitch - gap - round(pitch_screw, 4)) * _INCH,
        (pitch + round(1.3 * pitch_screw, 4)) * _INCH,
        minor * _INCH,
        "fit 2A/2B by the formulas of ASME B1.1 (from memory), rounded as it does",
    )


def _whitworth(thread: Thread) -> ThreadExtremes:
    p, d = thread.pitch_mm / _INCH, thread.major_mm / _INCH
    tolerance = 0.002 * d ** (1 / 3) + 0.003 * sqrt(d) + 0.005 * sqrt(p)
    extra = 0.004 if p <= 1 / 26 else 0.005 if p <= 1 / 22 else 0.007
    return ThreadExtremes(
        thread.major_mm - (tolerance + 0.01 * sqrt(p)) * _INCH,
        thread.pitch_diameter_mm - tolerance * _INCH,
        thread.pitch_diameter_mm + tolerance * _INCH,
        thread.minor_diameter_mm + (0.2 * p + extra) * _INCH,
        "medium fit by the formulas of BS 84 (from memory)",
    )


def _association(thread: Thread) -> ThreadExtremes:
    p = thread.pitch_mm
    effective = 0.08 * p + 0.02 if thread.major_mm > 1.6 else 0.10 * p + 0.025
    return ThreadExtremes(
        thread.major_mm - 0.15 * p,
        thread.pitch_diameter_mm - effective,
        thread.pitch_diameter_mm + effective,
        thread.minor_diameter_mm + 0.375 * p,
        "normal fit by the formulas of BS 93 (from memory)",
    )
