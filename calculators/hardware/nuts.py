"""Nuts: how thick, how wide across flats and corners, by form and size."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from calculators.hardware.fastener import NutForm
from calculators.hardware.heads import across_corners_mm
from calculators.hardware.nominal import Basis, Nominal, basis_of, nominal_of, table_row
from calculators.quantities.errors import InputError
from calculators.tables import Row, load

FORMS: tuple[str, ...] = get_args(NutForm)
_STANDARDS: dict[str, dict[str, tuple[str, ...]]] = {
    "metric": {
        "full": ("ISO 4032",),
        "half": ("ISO 4035",),
        "dome": ("DIN 1587",),
        "square": ("DIN 557", "DIN 562"),
        "wing": ("DIN 315",),
        "stiff": ("DIN 985",),
        "knurled": ("DIN 466",),
    },
    "unified": {
        "full": ("ASME B18.2.2 full",),
        "half": ("ASME B18.2.2 jam",),
        "square": ("ASME B18.2.2 square", "ASME B18.2.2 full"),
    },
    "british": {"full": ("BS 1083 ordinary",), "half": ("BS 1083 lock",)},
    "BA": {"full": ("BS 57 ordinary",), "half": ("BS 57 lock",)},
}
# Across flats and thickness in diameters where no table lists the size: common practice.
_PROPORTIONS: dict[str, tuple[float, float]] = {"full": (1.75, 0.8), "half": (1.75, 0.6)}


@dataclass(frozen=True, slots=True)
class NutSize:
    """A nut's sizes in millimetres. `outside_mm` is the widest it is: its corners, wings or knurl."""

    height_mm: float
    across_flats_mm: float | None
    across_corners_mm: float | None
    outside_mm: float
    source: str
    basis: Basis


def nut_of(size: str, form: str = "full") -> NutSize:
    """Find a nut's sizes.

    Args:
        size: the thread (`M5`, `2 BA`, `5/16 BSF`).
        form: `full`, `half`, `dome`, `square`, `wing`, `stiff` or `knurled`.

    Returns:
        Thickness, widths and source [mm]. The thickness of a wing nut is that of its threaded boss.

    Raises:
        InputError: when the thread or the form is not known, or there is no such nut; the sentence names
            those that exist.

    Source: ISO 4032, ISO 4035, BS 1083 and ASME B18.2.2 as read; BS 57 and the DIN forms from memory.

    Example:
        >>> nut_of("M5").height_mm, nut_of("M5", "half").height_mm
        (4.7, 2.7)
    """
    if form not in FORMS:
        raise InputError.of(
            f"{form!r} is not a form of nut; forms are {', '.join(FORMS)}.", field="form", choices=FORMS
        )
    nominal = nominal_of(size)
    standards = _STANDARDS[nominal.family].get(form, ())
    for standard in standards:
        if (row := load("nuts").find(standard, nominal.name)) is not None:
            return _from_row(row, form, nominal)
    if nominal.family != "metric" and form in _PROPORTIONS:
        return _from_proportion(nominal, form)
    if standards:
        return _from_row(table_row("nuts", standards[0], nominal, f"{form} nuts"), form, nominal)
    there = tuple(_STANDARDS[nominal.family])
    raise InputError.of(
        f"No standard for {form} nuts on {nominal.designation} is known here; there are {', '.join(there)}. "
        "For any other nut, measure its thickness and width.",
        field="form",
        choices=there,
    )


def _from_row(row: Row, form: str, nominal: Nominal) -> NutSize:
    flats = row.number_or_none("across_flats")
    # a square's corners are sqrt(2) of its flats, a hexagon's 1.1547
    corners = None if flats is None else (flats * 2**0.5 if form == "square" else across_corners_mm(flats))
    outside = row.number_or_none("outside") or corners or 2 * nominal.major_mm
    return NutSize(row.number("height"), flats, corners, outside, row.source.says, basis_of(row))


def _from_proportion(nominal: Nominal, form: str) -> NutSize:
    wide, high = _PROPORTIONS[form]
    flats = wide * nominal.major_mm
    corners = across_corners_mm(flats)
    source = f"{wide:g} D across flats, {high:g} D thick (common practice)"
    return NutSize(high * nominal.major_mm, flats, corners, corners, source, "common practice")
