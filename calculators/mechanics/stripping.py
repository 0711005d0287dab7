"""Whether a screw breaks or its thread strips: the areas that shear, the loads, and the engagement needed."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, radians, tan

from calculators.hardware.threads import Thread
from calculators.mechanics.bounds import check_between
from calculators.mechanics.thread_extremes import ThreadExtremes, thread_extremes
from calculators.quantities.errors import InputError

SHEAR_SHARE = 0.5
"""Shear strength of the tensile strength, as the length formulas of FED-STD-H28 take it; ductile metals have
0.577 (von Mises) to 0.6."""


@dataclass(frozen=True, slots=True)
class Stripping:
    """Loads in newtons, areas in square millimetres of the whole engagement, lengths in millimetres.

    `bolt_factor` and `nut_factor` are Alexander's, 1 where they were not asked for. `ratio` is the strength
    of the nut's thread over that of the bolt's.
    """

    extremes: ThreadExtremes
    bolt_area_mm2: float
    nut_area_mm2: float
    bolt_factor: float
    nut_factor: float
    ratio: float
    break_n: float
    bolt_n: float
    nut_n: float
    needed_mm: float

    @property
    def first(self) -> str:
        """What gives way first, in words."""
        if self.break_n <= min(self.bolt_n, self.nut_n) * (1 + 1e-12):
            return "the bolt breaks"
        return "the bolt's thread strips" if self.bolt_n <= self.nut_n else "the nut's thread strips"


def shear_area_per_mm(thread: Thread, extremes: ThreadExtremes) -> tuple[float, float]:
    """The area that shears when the thread of bolt or nut strips, for each millimetre of engagement.

    Bolt: A = pi K_n / p (p/2 + (E_s - K_n) tan(a/2)), at the nut's minor diameter K_n.
    Nut:  A = pi D_s / p (p/2 + (D_s - E_n) tan(a/2)), at the bolt's major diameter D_s.
    At 60 degrees tan(a/2) is 0.57735.

    Args:
        thread: the thread.
        extremes: least screw and widest nut.

    Returns:
        The area of the bolt's and of the nut's thread [mm2 for each mm].

    Source: FED-STD-H28/2B, equations 4a and 2a; Machinery's Handbook.

    Example:
        >>> from calculators.hardware.threads import find_thread
        >>> half = find_thread("1/2-13 UNC")
        >>> [round(each / 25.4, 3) for each in shear_area_per_mm(half, thread_extremes(half))]
        [0.779, 1.123]
    """
    p, slope = thread.pitch_mm, tan(radians(thread.angle_deg / 2))
    at, major = extremes.minor_nut_mm, extremes.major_screw_mm
    bolt = pi * at / p * (p / 2 + (extremes.pitch_screw_mm - at) * slope)
    nut = pi * major / p * (p / 2 + (major - extremes.pitch_nut_mm) * slope)
    return max(bolt, 0.0), max(nut, 0.0)


def alexander(ratio: float) -> tuple[float, float]:
    """Alexander's factors for the bending of the threads that share a load.

    Bolt C2 = 5.594 - 13.682 R + 14.107 R^2 - 6.057 R^3 + 0.9353 R^4 for 1 < R < 2.2, else 0.897.
    Nut  C3 = 0.728 + 1.769 R - 2.896 R^2 + 1.296 R^3 for 0.4 < R < 1, else 0.897.

    Args:
        ratio: R, strength of the nut's thread over that of the bolt's, above 0; beyond 0.4 and 2.2 the ends
            of the curves count.

    Returns:
        C2 and C3.

    Source: Alexander, SAE paper 770420 (1977), as VDI 2230 has it (from memory).

    Example:
        >>> [round(each, 3) for each in alexander(1.0)]
        [0.897, 0.897]
    """
    high, low = min(max(ratio, 1.0), 2.2), max(min(ratio, 1.0), 0.4)
    bolt = 5.594 - 13.682 * high + 14.107 * high**2 - 6.057 * high**3 + 0.9353 * high**4
    nut = 0.728 + 1.769 * low - 2.896 * low**2 + 1.296 * low**3
    return (bolt if ratio > 1 else 0.897), (nut if ratio < 1 else 0.897)


def widening(nut_width_mm: float, diameter_mm: float) -> float:
    """Alexander's factor for a nut that spreads under load.

    C1 = -(s/D)^2 + 3.8 s/D - 2.61 for s/D from 1.4 to 1.9, above that 1.

    Args:
        nut_width_mm: width across flats s [mm], 1.4 D or more.
        diameter_mm: nominal diameter D [mm], above 0.

    Returns:
        C1.

    Raises:
        InputError: when the nut is narrower than 1.4 D.

    Source: Alexander, SAE paper 770420 (1977), as VDI 2230 has it (from memory).

    Example:
        >>> round(widening(13, 8), 3)
        0.924
    """
    share = nut_width_mm / diameter_mm
    if share < 1.4:
        raise InputError.of(
            f"The nut is {nut_width_mm:g} mm wide, {share:.2f} of the diameter; the rule holds from 1.4, "
            f"{1.4 * diameter_mm:.4g} mm.",
            field="nut_width", value=nut_width_mm, limit=1.4 * diameter_mm, unit="mm",
        )  # fmt: skip
    return 1.0 if share >= 1.9 else -(share**2) + 3.8 * share - 2.61


def stripping(
    thread: Thread,
    engagement_mm: float,
    bolt_mpa: float,
    nut_mpa: float,
    *,
    shear_share: float = SHEAR_SHARE,
    bending: bool = False,
    nut_width_mm: float | None = None,
) -> Stripping:
    """The loads that break a bolt and strip its thread or its nut's, and the engagement needed.

    break = A_t R_b; strip = C1 C x R A L; needed L at which both threads bear the breaking load.

    Args:
        thread: the thread.
        engagement_mm: length of full thread in engagement L [mm], above 0 to 500.
        bolt_mpa: tensile strength of the bolt R_b [MPa], 10 to 2500.
        nut_mpa: tensile strength of the nut or the tapped part [MPa], 10 to 2500.
        shear_share: shear strength of the tensile strength x, 0.3 to 1.
        bending: whether Alexander's C2 and C3 are taken; without them they are 1.
        nut_width_mm: width across flats [mm] for Alexander's C1, where `bending` is on.

    Returns:
        Loads [N], areas [mm2] and the length needed [mm].

    Raises:
        InputError: outside those limits.

    Source: FED-STD-H28/2B, equations 14 and 16; Machinery's Handbook; Alexander's factors from memory.

    Example:
        >>> from calculators.hardware.threads import find_thread
        >>> stripping(find_thread("M5"), 5, 800, 430).first
        "the nut's thread strips"
    """
    check_between("engagement", engagement_mm, 0.01, 500, "mm")
    check_between("bolt_strength", bolt_mpa, 10, 2500, "MPa")
    check_between("nut_strength", nut_mpa, 10, 2500, "MPa")
    check_between("shear_share", shear_share, 0.3, 1)
    extremes = thread_extremes(thread)
    bolt_each, nut_each = shear_area_per_mm(thread, extremes)
    ratio = nut_mpa * nut_each / (bolt_mpa * bolt_each)
    bolt_factor, nut_factor = alexander(ratio) if bending else (1.0, 1.0)
    if bending and nut_width_mm is not None:
        wide = widening(nut_width_mm, thread.major_mm)
        bolt_factor, nut_factor = wide * bolt_factor, wide * nut_factor
    bolt_rate = bolt_factor * shear_share * bolt_mpa * bolt_each
    nut_rate = nut_factor * shear_share * nut_mpa * nut_each
    breaks = thread.tensile_stress_area_mm2 * bolt_mpa
    return Stripping(
        extremes, bolt_each * engagement_mm, nut_each * engagement_mm, bolt_factor, nut_factor, ratio,
        breaks, bolt_rate * engagement_mm, nut_rate * engagement_mm, breaks / min(bolt_rate, nut_rate),
    )  # fmt: skip
