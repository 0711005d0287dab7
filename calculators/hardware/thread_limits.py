"""How far real screws and nuts may be off the basic sizes of their thread: allowance and tolerances.

One class for each system, the one that common screws and nuts are made to: 6g and 6H (ISO 965-1; 6h and 5H
to M1.4), 2A and 2B (ASME B1.1), medium (BS 84), normal (BS 93). Systems that name no standard (Model
Engineer, brass) are given the rule of BS 84, common practice.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from dataclasses import dataclass
from functools import cache

from calculators.hardware.thread_sizes import Thread
from calculators.tables import Row, load

_INCH = 25.4

_R40 = (
    1.0, 1.06, 1.12, 1.18, 1.25, 1.32, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9, 2.0, 2.12,
    2.24, 2.36, 2.5, 2.65, 2.8, 3.0, 3.15, 3.35, 3.55, 3.75, 4.0, 4.25, 4.5, 4.75,
    5.0, 5.3, 5.6, 6.0, 6.3, 6.7, 7.1, 7.5, 8.0, 8.5, 9.0, 9.5, 10.0,
)  # fmt: skip
"""One decade of the R 40 series of preferred numbers (ISO 3), to which ISO 965-1 rounds its tolerances."""

_DIAMETER_STEPS_MM = (0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0)
"""The steps of diameter of ISO 965-1; within one the tolerances of the pitch diameter are the same."""


@dataclass(frozen=True, slots=True)
class ThreadLimits:
    """The limits of a thread's screw and nut [mm], with their classes and where the rule is from.

    `allowance_mm` is taken off the screw's diameters; the tolerances then go further down on the screw and
    up on the nut. A nut's major diameter has no upper limit in any of the standards.
    """

    thread: Thread
    screw_class: str
    nut_class: str
    allowance_mm: float
    screw_major_tolerance_mm: float
    screw_pitch_tolerance_mm: float
    nut_pitch_tolerance_mm: float
    nut_minor_tolerance_mm: float
    source: str

    @property
    def screw_major_mm(self) -> tuple[float, float]:
        """The least and the largest major diameter of the screw [mm]."""
        most = self.thread.major_mm - self.allowance_mm
        return most - self.screw_major_tolerance_mm, most

    @property
    def screw_pitch_diameter_mm(self) -> tuple[float, float]:
        """The least and the largest pitch diameter of the screw [mm]."""
        most = self.thread.pitch_diameter_mm - self.allowance_mm
        return most - self.screw_pitch_tolerance_mm, most

    @property
    def nut_pitch_diameter_mm(self) -> tuple[float, float]:
        """The least and the largest pitch diameter of the nut [mm]."""
        least = self.thread.pitch_diameter_mm
        return least, least + self.nut_pitch_tolerance_mm

    @property
    def nut_minor_mm(self) -> tuple[float, float]:
        """The least and the largest minor diameter of the nut [mm]."""
        least = self.thread.minor_diameter_mm
        return least, least + self.nut_minor_tolerance_mm


@cache
def limits_of(thread: Thread) -> ThreadLimits:
    """The limits of a thread, in the class that common screws and nuts of its system are made to.

    Args:
        thread: a thread of the tables.

    Returns:
        Its limits [mm].

    Source: ISO 965-1 (tables, from memory), ASME B1.1 (formulas, from memory), BS 84:2007 and BS 93
        (formulas, read in an open thread-table generator's WHITWORTH_SPEC.md and BA_SPEC.md).

    Example:
        >>> from calculators.hardware.thread_names import find_thread
        >>> m6 = limits_of(find_thread("M6"))
        >>> m6.screw_class, round(m6.allowance_mm, 3), [round(each, 3) for each in m6.screw_major_mm]
        ('6g', 0.026, [5.794, 5.974])
    """
    if thread.is_metric:
        return _iso(thread)
    if thread.is_unified:
        return _unified(thread)
    if thread.system == "BA":
        return _association(thread)
    return _whitworth(thread)


def preferred(value: float) -> float:
    """The nearest of the R 40 series of preferred numbers.

    Args:
        value: [1] any number over 0.

    Returns:
        The preferred number.

    Source: ISO 3 (from memory).

    Example:
        >>> preferred(176.9), preferred(64.0)
        (180.0, 63.0)
    """
    decade = 10.0 ** math.floor(math.log10(value))
    place = min(max(bisect_left(_R40, value / decade), 1), len(_R40) - 1)
    low, high = _R40[place - 1] * decade, _R40[place] * decade
    # Of two equally near the larger is taken: 230 is 236.
    return round(low if value - low < high - value - 1e-9 * decade else high, 9)


def _iso(thread: Thread) -> ThreadLimits:
    """ISO 965-1: the tables of grade 6; where they have no row the formulas. Grade 5 is 0.8 of grade 6."""
    p, d = thread.pitch_mm, thread.major_mm
    small = d <= 1.4
    by_pitch, by_both = load("thread_deviations").row(f"{p:g}"), _tolerance_row(p, d)
    screw, nut = (None if by_both is None else by_both.number_or_none(name) for name in ("screw", "nut"))
    formula = iso_formulas_um(p, d)
    grade = 0.8 if small else 1.0
    return ThreadLimits(
        thread,
        "6h" if small else "6g",
        "5H" if small else "6H",
        0.0 if small else by_pitch.number("deviation"),
        by_pitch.number("screw_major"),
        screw or preferred(formula["screw_pitch"]) / 1000,
        preferred(grade * 1000 * nut if nut else grade * formula["nut_pitch"]) / 1000,
        preferred(grade * 1000 * (by_pitch.number_or_none("nut_minor") or formula["nut_minor"] / 1000))
        / 1000,
        "ISO 965-1, tables from memory",
    )


def _tolerance_row(pitch_mm: float, diameter_mm: float) -> Row | None:
    place = min(bisect_left(_DIAMETER_STEPS_MM, diameter_mm), len(_DIAMETER_STEPS_MM) - 1)
    return load("thread_tolerances").find(f"{pitch_mm:g}", f"{_DIAMETER_STEPS_MM[place - 1]:g}")


def iso_formulas_um(pitch_mm: float, diameter_mm: float) -> dict[str, float]:
    """The tolerances of grade 6 by the formulas of ISO 965-1, before they are rounded.

    Td = 180 P^(2/3) - 3.15 P^(-1/2); Td2 = 90 P^0.4 d^0.1, d the geometric mean of the step of diameters;
    TD2 = 1.32 Td2; TD1 = 433 P - 190 P^1.22 below 1 mm and 230 P^0.7 from there on.

    Args:
        pitch_mm: [mm] pitch, over 0.
        diameter_mm: [mm] major diameter, over 0 to 90.

    Returns:
        Tolerances [um] by name: `screw_major`, `screw_pitch`, `nut_pitch`, `nut_minor`.

    Source: ISO 965-1 (from memory).

    Example:
        >>> {name: round(each) for name, each in iso_formulas_um(1.0, 6.0).items()}
        {'screw_major': 177, 'screw_pitch': 111, 'nut_pitch': 146, 'nut_minor': 230}
    """
    p = pitch_mm
    place = max(1, min(bisect_left(_DIAMETER_STEPS_MM, diameter_mm), len(_DIAMETER_STEPS_MM) - 1))
    mean = math.sqrt(_DIAMETER_STEPS_MM[place - 1] * _DIAMETER_STEPS_MM[place])
    screw = 90 * p**0.4 * mean**0.1
    return {
        "screw_major": 180 * p ** (2 / 3) - 3.15 / math.sqrt(p),
        "screw_pitch": screw,
        "nut_pitch": 1.32 * screw,
        "nut_minor": 433 * p - 190 * p**1.22 if p < 1 else 230 * p**0.7,
    }


def _unified(thread: Thread) -> ThreadLimits:
    """ASME B1.1 in inches: Td2 = 0.0015 D^(1/3) + 0.0015 Le^(1/2) + 0.015 P^(2/3), Td = 0.06 P^(2/3).

    Le is D for UNC and UNF and 9 P for others; the allowance of 2A is 0.3 Td2, TD2 of 2B is 1.3 Td2.
    """
    d, p = thread.major_mm / _INCH, thread.pitch_mm / _INCH
    engaged = 9 * p if thread.system == "UNEF" else d
    pitch = 0.0015 * d ** (1 / 3) + 0.0015 * math.sqrt(engaged) + 0.015 * p ** (2 / 3)
    least = 0.25 * p - 0.4 * p * p
    minor = least
    if d < 0.25:
        minor = min(max(0.05 * p ** (2 / 3) + 0.03 * p / d - 0.002, least), 0.394 * p)
    return ThreadLimits(
        thread,
        "2A",
        "2B",
        0.3 * pitch * _INCH,
        0.06 * p ** (2 / 3) * _INCH,
        pitch * _INCH,
        1.3 * pitch * _INCH,
        minor * _INCH,
        "ASME B1.1, formulas from memory",
    )


def _whitworth(thread: Thread) -> ThreadLimits:
    """BS 84 in inches, medium class: T = 0.002 D^(1/3) + 0.003 L^(1/2) + 0.005 P^(1/2), no allowance.

    L is D; the screw's major diameter has T + 0.01 P^(1/2), the nut's minor 0.2 P and 0.004 to 0.007 in (all
    read in an open thread-table generator, docs/WHITWORTH_SPEC.md).
    """
    d, p = thread.major_mm / _INCH, thread.pitch_mm / _INCH
    pitch = 0.002 * d ** (1 / 3) + 0.003 * math.sqrt(d) + 0.005 * math.sqrt(p)
    per_inch = 1 / p
    more = 0.004 if per_inch > 25.9 else 0.005 if per_inch > 21.9 else 0.007
    named = thread.system in {"BSW", "BSF"}
    return ThreadLimits(
        thread,
        "medium",
        "medium",
        0.0,
        (pitch + 0.01 * math.sqrt(p)) * _INCH,
        pitch * _INCH,
        pitch * _INCH,
        (0.2 * p + more) * _INCH,
        "BS 84:2007, tolerance formulas" if named else "rule of BS 84:2007, as common practice",
    )


def _association(thread: Thread) -> ThreadLimits:
    """BS 93 in millimetres, normal class: major 0.20 P to 10 BA and 0.25 P below, pitch 0.10 P + 0.025.

    The allowance is 0.025 to 10 BA (all read in an open thread-table generator, docs/BA_SPEC.md, and in part
    in a quotation of BS 93:2008, Annex B).
    """
    p = thread.pitch_mm
    fine = int(thread.size) > 10
    return ThreadLimits(
        thread,
        "normal",
        "normal",
        0.0 if fine else 0.025,
        (0.25 if fine else 0.20) * p,
        0.10 * p + 0.025,
        0.12 * p + 0.03,
        0.375 * p,
        "BS 93, tolerance formulas and allowance",
    )
