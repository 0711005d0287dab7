"""Screw threads: the sizes of the tables and what follows from the basic profile of each form.

The forms are three: 60 degrees (ISO metric and Unified), 55 degrees rounded (Whitworth, and with it BSF,
Model Engineer and the brass thread), 47.5 degrees rounded (British Association). Reading what people
write is in `thread_names.py`; `threads.py` offers both.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from calculators.tables import Row, Source, load

_SQRT3 = math.sqrt(3)


@dataclass(frozen=True, slots=True)
class Form:
    """A thread form: depths as multiples of the pitch, each taken off the diameter (both sides together).

    `pitch_line` gives the pitch diameter, `nut` the basic minor diameter of the nut, `screw` the core
    of the screw, `full` is what counts as 100 % of thread.
    """

    name: str
    pitch_line: float
    nut: float
    screw: float
    full: float
    engagement_basis: str
    source: str


_SIXTY_BASIS = "100 % is 3/4 H, a diameter difference of 1.299038 p"
FORMS = {
    "ISO": Form(
        "ISO metric, 60 degrees",
        0.375 * _SQRT3,  # 2 x 3/8 H
        0.625 * _SQRT3,  # 2 x 5/8 H
        17 / 24 * _SQRT3,  # 2 x 17/24 H: the rounded root of ISO 68-1
        0.75 * _SQRT3,
        _SIXTY_BASIS,
        "ISO 68-1 basic profile; ISO 724",
    ),
    "UN": Form(
        "Unified, 60 degrees",
        0.375 * _SQRT3,
        0.625 * _SQRT3,
        0.6875 * _SQRT3,  # 2 x 11/16 H: the present UNR root; the older flat root is 1.2268 p
        0.75 * _SQRT3,
        _SIXTY_BASIS,
        "ASME B1.1 basic profile, UNR root",
    ),
    "Whitworth": Form(
        "Whitworth, 55 degrees",
        0.640327,
        2 * 0.640327,
        2 * 0.640327,
        2 * 0.640327,
        "100 % is the full Whitworth depth, a diameter difference of 1.280654 p",
        "BS 84 basic profile, depth 0.640327 p",
    ),
    "BA": Form(
        "British Association, 47.5 degrees",
        0.6,
        1.2,
        1.2,
        1.2,
        "100 % is the full BA depth, a diameter difference of 1.2 p",
        "BS 93 basic profile, depth 0.6 p",
    ),
}
"""The forms by their short names. H is the height of the sharp triangle, 0.866025 p at 60 degrees."""

_FORM_OF = {
    "ISO metric coarse": "ISO",
    "ISO metric fine": "ISO",
    "UNC": "UN",
    "UNF": "UN",
    "UNEF": "UN",
    "BSW": "Whitworth",
    "BSF": "Whitworth",
    "BA": "BA",
    "ME": "Whitworth",
    "BSB": "Whitworth",
}


@dataclass(frozen=True, slots=True)
class Thread:
    """A screw thread of the tables: its canonical designation, system, major diameter and pitch.

    `size` is the nominal size as its system names it (`M6`, `#10`, `1/4`, `2`); `tpi` is None for
    threads that are defined by a pitch in millimetres.
    """

    designation: str
    system: str
    size: str
    major_mm: float
    pitch_mm: float
    tpi: Fraction | None
    angle_deg: float
    source: Source

    @property
    def form(self) -> Form:
        """The thread form, which gives the depths."""
        return FORMS[_FORM_OF[self.system]]

    @property
    def is_metric(self) -> bool:
        """Whether the thread is ISO metric."""
        return self.system.startswith("ISO metric")

    @property
    def is_unified(self) -> bool:
        """Whether the thread is of a Unified series."""
        return self.system in {"UNC", "UNF", "UNEF"}

    @property
    def pitch_diameter_mm(self) -> float:
        """The basic pitch (effective) diameter, D - 0.649519 p at 60 degrees [mm]."""
        return self.major_mm - self.form.pitch_line * self.pitch_mm

    @property
    def minor_diameter_mm(self) -> float:
        """The basic minor diameter of the nut, D - 1.082532 p at 60 degrees [mm]."""
        return self.major_mm - self.form.nut * self.pitch_mm

    @property
    def core_diameter_mm(self) -> float:
        """The core (root) diameter of the screw: D - 1.226869 p (ISO), D - 1.190785 p (Unified) [mm]."""
        return self.major_mm - self.form.screw * self.pitch_mm

    @property
    def full_engagement_mm(self) -> float:
        """The difference of screw diameter and hole that counts as 100 % of thread [mm]."""
        return self.form.full * self.pitch_mm

    @property
    def engagement_basis(self) -> str:
        """What a percentage of thread is a percentage of, as a sentence's end."""
        return self.form.engagement_basis

    @property
    def tensile_stress_area_mm2(self) -> float:
        """The tensile stress area [mm2], by the formula that `tensile_stress_area_basis` names."""
        if self.is_unified:
            stress_diameter = self.major_mm - 0.9743 * self.pitch_mm
        else:
            stress_diameter = (self.pitch_diameter_mm + self.core_diameter_mm) / 2
        return math.pi / 4 * stress_diameter**2

    @property
    def tensile_stress_area_basis(self) -> str:
        """Which formula the tensile stress area is by, with its source."""
        if self.is_metric:
            return "A = pi/4 ((d2 + d3)/2)^2, ISO 898-1"
        if self.is_unified:
            return "A = pi/4 (D - 0.9743 p)^2, ASME B1.1"
        return "A = pi/4 ((pitch diameter + core diameter)/2)^2, common practice"


def _make_thread(row: Row) -> Thread:
    tpi = Fraction(row.decimal("tpi")) if row.has("tpi") else None
    pitch_mm = float(Fraction(254, 10) / tpi) if tpi else row.number("pitch")
    return Thread(
        row.text("designation"),
        row.text("system"),
        row.text("size"),
        row.number("major"),
        pitch_mm,
        tpi,
        row.number("angle"),
        row.source,
    )


@cache
def all_threads() -> tuple[Thread, ...]:
    """All threads of the tables, system by system, each from the smallest.

    Returns:
        The threads, in the order of the table.

    Source: this project.

    Example:
        >>> all_threads()[0].designation
        'M1'
    """
    return tuple(_make_thread(row) for row in load("threads").rows)


@cache
def systems() -> tuple[str, ...]:
    """The names of the thread systems, in the order of the table.

    Returns:
        The names that `threads_of` takes.

    Source: this project.

    Example:
        >>> "BSF" in systems()
        True
    """
    return tuple(dict.fromkeys(thread.system for thread in all_threads()))


def threads_of(system: str) -> tuple[Thread, ...]:
    """All threads of one system, from the smallest.

    Args:
        system: one of `systems()`; any other text has no threads.

    Returns:
        The threads.

    Source: this project.

    Example:
        >>> threads_of("BA")[-1].designation
        '0 BA'
    """
    return tuple(thread for thread in all_threads() if thread.system == system)
