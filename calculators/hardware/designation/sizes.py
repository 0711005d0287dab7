"""The size of a piece of hardware: its thread, its wood screw number, or its plain diameter."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from calculators.hardware.thread_names import find_thread
from calculators.hardware.threads import all_threads
from calculators.quantities.errors import InputError
from calculators.quantities.numbers import NumberFault, decimal_text, mixed_text, read_number
from calculators.tables import load

Unit = Literal["mm", "in"]
LARGEST_NUMBER = 24
"""Wood screw numbers run from 0 to 24 (ASME B18.6.1)."""


@dataclass(frozen=True, slots=True)
class Size:
    """A settled size: its canonical name, the unit of its own system, and its diameter in millimetres."""

    name: str
    unit: Unit
    diameter_mm: float

    @property
    def is_metric_wood(self) -> bool:
        """Whether it is the bare diameter of a metric wood screw or coach screw."""
        return self.name.replace(".", "").isdigit()


@lru_cache(maxsize=2048)
def size_of(name: str) -> Size:
    """Find what a canonical size means: a thread, `No. 8`, a diameter in mm (`5`) or in inches (`5/16`).

    Args:
        name: the canonical size, as the contract types carry it.

    Returns:
        The size; its diameter in [mm].

    Raises:
        InputError: when there is no such size.

    Source: number screws 0.060 + 0.013 n inch, ASME B18.6.1.

    Example:
        >>> size_of("5/16").diameter_mm, size_of("5/16").unit, size_of("M6 x 0.75").unit
        (7.9375, 'in', 'mm')
    """
    if number := re.fullmatch(r"No\. ([0-9]{1,3})", name):
        return Size(name, "in", (60 + 13 * int(number[1])) * 0.0254)
    if re.fullmatch(r"[0-9]+(?:\.[0-9]+)?", name):
        return Size(name, "mm", float(name))
    if re.fullmatch(r"(?:[0-9]+ )?[0-9]+/[0-9]+|[0-9]+ in", name):
        return Size(name, "in", float(read_number(name.removesuffix(" in")).value) * 25.4)
    thread = find_thread(name, field="hardware")
    return Size(thread.designation, "mm" if thread.is_metric else "in", thread.major_mm)


def threads_of_inches(text: str) -> tuple[str, ...]:
    """Give the threads of one nominal diameter in inches, whatever their system.

    Args:
        text: the diameter as a canonical fraction, or whole inches (`1/4`, `1 in`).

    Returns:
        The designations, in the order of the table.

    Source: this project.

    Example:
        >>> threads_of_inches("5/16")[:2]
        ('5/16-18 UNC', '5/16-24 UNF')
    """
    return tuple(
        t.designation
        for t in all_threads()
        if not t.is_metric and t.system != "BA" and t.size == text.removesuffix(" in")
    )


def threads_of_number(number: int) -> tuple[str, ...]:
    """Give the Unified threads of a numbered size.

    Args:
        number: the number, 0 to 12.

    Returns:
        The designations; none where the number has no thread.

    Source: this project.

    Example:
        >>> threads_of_number(10)
        ('10-24 UNC', '10-32 UNF')
    """
    return tuple(t.designation for t in all_threads() if t.size == f"#{number}")


@lru_cache(maxsize=1)
def metric_wood_sizes() -> tuple[str, ...]:
    """Give the diameters in which metric wood screws are listed.

    Returns:
        The diameters [mm] as canonical text.

    Source: DIN 7996, from the table of wood screws.
    """
    return tuple(row["size"] for row in load("wood_screws").where("standard", "DIN 7996"))


@lru_cache(maxsize=1)
def coach_screw_sizes() -> tuple[str, ...]:
    """Give the diameters in which coach screws are listed: millimetres bare, inches as fractions.

    Returns:
        The diameters as canonical text.

    Source: DIN 571 and ASME B18.2.1, from the table of wood screws.
    """
    return tuple(
        row["size"]
        for row in load("wood_screws").rows
        if row["standard"] in ("DIN 571", "ASME B18.2.1 lag screw")
    )


@lru_cache(maxsize=1)
def all_inch_sizes() -> tuple[tuple[str, float], ...]:
    """Give the nominal diameters in inches that some thread has.

    Returns:
        Pairs of canonical text (`1/4`, `1 in`) and diameter [in].

    Source: the table of threads.
    """
    found = {t.size: t.major_mm / 25.4 for t in all_threads() if not t.is_metric and t.system != "BA"}
    return tuple((s if "/" in s else f"{s} in", value) for s, value in found.items() if s[0] != "#")


@lru_cache(maxsize=1)
def coarse_sizes() -> tuple[str, ...]:
    """Give the coarse metric threads.

    Returns:
        The designations.

    Source: the table of threads.
    """
    return tuple(t.designation for t in all_threads() if t.system == "ISO metric coarse")


def plain_size(text: str, unit: str, field: str) -> tuple[Unit, str, Fraction]:
    """Read a bare diameter: which unit it is in, and its canonical text.

    A fraction is inches. A whole number or a decimal is in the unit that stands behind it, else in the
    unit of the build; but nothing of 2 or more is a diameter in inches here.

    Args:
        text: the number as written.
        unit: [mm or in] its own unit, or the build's where it has none.
        field: the name of the input.

    Returns:
        The unit, the canonical text, and the value in that unit.

    Raises:
        InputError: when it is not a number, or is nought.

    Source: common practice.

    Example:
        >>> [plain_size(*written, "size")[:2] for written in (("5.0", "mm"), ("3/8", "mm"), (".25", "in"))]
        [('mm', '5'), ('in', '3/8'), ('in', '1/4')]
    """
    try:
        value = read_number(text).value
    except NumberFault as fault:
        says = f"The size {text!r} {fault.says}; write it as M5, 5/16 BSF or No. 8."
        raise InputError.of(says, field=field) from None
    if value <= 0:
        says = "A size of nought does not exist; write it as M5, 5/16 BSF or No. 8."
        raise InputError.of(says, field=field)
    if "/" in text or (unit == "in" and value < 2):
        dyadic = value.denominator <= 128 and 128 % value.denominator == 0
        name = mixed_text(value) if dyadic or "/" in text else decimal_text(value)
        return "in", name if "/" in name else f"{name} in", value
    return "mm", decimal_text(value), value
