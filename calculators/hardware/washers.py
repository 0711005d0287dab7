"""Washers: hole, outside and thickness, by form and by the size of screw that they are for."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from math import pi
from typing import get_args

from calculators.hardware.fastener import WasherForm
from calculators.hardware.nominal import Basis, Nominal, basis_of, nominal_of, table_row
from calculators.hardware.wood_screws import wood_screw
from calculators.quantities.errors import InputError
from calculators.tables import load

FORMS: tuple[str, ...] = get_args(WasherForm)
SWG_16_MM = 1.626
"""Thickness of the usual inch repair washer, 16 SWG."""

_STANDARDS: dict[str, dict[str, str]] = {
    "metric": {
        "plain": "ISO 7089",
        "small": "ISO 7092",
        "repair": "ISO 7093-1",
        "spring": "DIN 127 B",
        "crinkle": "DIN 137 A",
        "toothed": "DIN 6797 A",
    },
    "unified": {
        "plain": "ASME B18.21.1 Table 12 (regular)",
        "small": "ASME B18.21.1 Table 12 (narrow)",
        "repair": "ASME B18.21.1 Table 12 (wide)",
        "spring": "ASME B18.21.1 split lock",
    },
    "british": {},
    "BA": {},
}
# Hole, outside and thickness in diameters where no table was read: common practice.
_PROPORTIONS: dict[str, tuple[float, float, float]] = {
    "plain": (1.05, 2.1, 0.2),
    "small": (1.05, 1.75, 0.2),
    "repair": (1.05, 4.0, 0.25),
    "spring": (1.05, 1.8, 0.25),
    "crinkle": (1.05, 2.0, 0.1),
    "toothed": (1.05, 2.0, 0.12),
    "cup": (1.1, 3.4, 0.7),
}


@dataclass(frozen=True, slots=True)
class WasherSize:
    """A washer's sizes in millimetres. `thickness_max_mm` is the standard's upper limit where known."""

    inside_mm: float
    outside_mm: float
    thickness_mm: float
    source: str
    basis: Basis
    thickness_max_mm: float | None = None

    @property
    def area_mm2(self) -> float:
        """The area that bears on the part, pi / 4 (outside^2 - inside^2), in square millimetres."""
        return pi / 4 * (self.outside_mm**2 - self.inside_mm**2)


def washer_of(size: str, form: str = "plain") -> WasherSize:
    """Find a washer's sizes.

    Args:
        size: the screw that it is for: a thread (`M5`, `5/16 BSF`), a wood screw's number (`No. 8`), or
            bare inches (`5/16`).
        form: `plain`, `small`, `repair`, `spring`, `crinkle`, `toothed` or `cup` (under the countersunk
            head of a wood screw; its thickness is the height by which it lifts the head).

    Returns:
        Hole, outside, thickness and source [mm]. A washer that was named by its own sizes overrides them.

    Raises:
        InputError: when the size or form is not known; the sentence names those that exist.

    Source: ISO 7089, 7092, 7093-1 and ASME B18.21.1 as read; DIN 127, 137 and 6797 from memory; the others
        by common practice (a repair washer in inches is 4 D wide and of 16 SWG).

    Example:
        >>> washer_of("M6").thickness_mm, washer_of("5/16 BSF", "repair").outside_mm
        (1.6, 31.75)
    """
    if form not in FORMS:
        raise InputError.of(
            f"{form!r} is not a form of washer; forms are {', '.join(FORMS)}.", field="form", choices=FORMS
        )
    nominal = _screw_size(size)
    standard = _STANDARDS[nominal.family].get(form, "")
    row = load("washers").find(standard, nominal.name) if standard else None
    if row is not None:
        return WasherSize(
            row.number("inside"), row.number("outside"), row.number("thickness"), row.source.says,
            basis_of(row), row.number_or_none("thickness_max"),
        )  # fmt: skip
    if standard and nominal.family == "metric":
        table_row("washers", standard, nominal, f"{form} washers")
    return _from_proportion(nominal, form)


def _screw_size(size: str) -> Nominal:
    """The nominal size of a thread, a wood screw's number, or bare inches."""
    text = " ".join(size.split())
    if re.fullmatch(r"(?:no\.?|#)\s*\d+", text, re.I | re.ASCII):
        screw = wood_screw(text)
        return Nominal(screw.name, "unified", screw.name, screw.shank_mm, 0.0)
    bare = re.fullmatch(r"(?:(\d{1,2}) )?(\d{1,2})/(\d{1,3})(?: ?(?:in|\"))?", text, re.ASCII)
    if bare and int(bare.group(3)):
        inches = Fraction(int(bare.group(1) or 0)) + Fraction(int(bare.group(2)), int(bare.group(3)))
        if inches:
            return Nominal(text.rstrip('"in '), "british", text, float(inches * Fraction("25.4")), 0.0)
    if whole := re.fullmatch(r"(\d{1,2}) ?(?:in|\")", text, re.ASCII):
        return Nominal(whole[1], "british", text, int(whole[1]) * 25.4, 0.0)
    return nominal_of(text)


def _from_proportion(nominal: Nominal, form: str) -> WasherSize:
    hole, outside, thick = _PROPORTIONS[form]
    diameter = nominal.major_mm
    if form == "repair" and nominal.family != "metric" and diameter >= 4.5:
        thickness, words = SWG_16_MM, "16 SWG thick"
    else:
        thickness, words = thick * diameter, f"{thick:g} D thick"
    source = f"{form} washer {outside:g} D wide, {words} (common practice)"
    return WasherSize(hole * diameter, outside * diameter, thickness, source, "common practice")
