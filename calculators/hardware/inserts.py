"""Threaded inserts for wood: their sizes and the hole that they need."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.hardware.nominal import Basis, basis_of, nominal_of
from calculators.quantities.errors import InputError
from calculators.tables import load

BODY_OF_OUTSIDE = 0.8125
"""Body to outside diameter of the usual insert (6.5 of 8)."""

HARDWOOD_EXTRA_LEAST_MM = 0.4
HARDWOOD_EXTRA_MOST_MM = 0.8
EDGE_DIAMETERS = 2.0
_SMALL_OUTSIDE_MM = 8.0
_MEDIUM_OUTSIDE_MM = 12.0
_RULE = (
    "hole = body in softwood, body + 0.4 to 0.8 mm in dense hardwood, edge at least 2 outside diameters away "
    "(common practice; try it in scrap of the same wood)"
)


@dataclass(frozen=True, slots=True)
class InsertSize:
    """An insert's sizes and its holes in millimetres.

    `hole_hardwood_mm` is the smallest of the usual range for dense hardwood, `hole_hardwood_most_mm` its
    largest; `edge_mm` is the least distance from the middle of the hole to an edge.
    """

    outside_mm: float
    body_mm: float
    length_mm: float
    hole_softwood_mm: float
    hole_hardwood_mm: float
    hole_hardwood_most_mm: float
    edge_mm: float
    source: str
    basis: Basis


def insert_of(
    size: str,
    *,
    outside_mm: float | None = None,
    body_mm: float | None = None,
    length_mm: float | None = None,
) -> InsertSize:
    """Find a wood insert's sizes and the holes for it.

    Hole in softwood = body; in dense hardwood body + 0.4 mm (outside up to 8 mm), + 0.6 mm (up to 12 mm)
    or + 0.8 mm. Where only the outside is given, the body is taken as 0.81 of it.

    Args:
        size: the thread inside (`M4`).
        outside_mm: outside diameter over its own thread [mm], above 0, where it is not the usual one.
        body_mm: body diameter between its threads [mm], above 0 and below the outside.
        length_mm: length [mm], above 0.

    Returns:
        The sizes and holes [mm].

    Raises:
        InputError: when the thread is not known, when a stated size is impossible, or when no insert of
            that thread is listed and its outside or length is not given.

    Source: common practice (inserts of about DIN 7965 size).

    Example:
        >>> insert_of("M4").hole_hardwood_mm
        6.9
    """
    nominal = nominal_of(size)
    for name, value in (("outside", outside_mm), ("body", body_mm), ("length", length_mm)):
        if value is not None and not 0 < value < 1000:
            raise InputError.of(
                f"An insert's {name} lies above 0 and under 1000 mm, not {value:g}.",
                field=name, value=value, limit=0.0 if not value > 0 else 1000.0, unit="mm",
            )  # fmt: skip
    row = load("inserts").find(nominal.name)
    if row is None and (outside_mm is None or length_mm is None):
        sizes = load("inserts").column("size")
        raise InputError.of(
            f"No insert for {nominal.designation} is listed here; there are {', '.join(sizes)}. "
            "For any other, give its outside diameter and length.",
            field="size",
            choices=sizes,
        )
    outside = outside_mm if outside_mm is not None or row is None else row.number("outside")
    length = length_mm if length_mm is not None or row is None else row.number("length")
    assert outside is not None
    assert length is not None
    if body_mm is None:
        listed = row is not None and outside_mm is None
        body_mm = row.number("body") if row is not None and listed else BODY_OF_OUTSIDE * outside
    _check_fits(nominal.major_mm, body_mm, outside)
    source = _RULE if row is None else f"{row.source.says}; {_RULE}"
    extra = _hardwood_extra_mm(outside)
    return InsertSize(
        outside_mm=outside,
        body_mm=body_mm,
        length_mm=length,
        hole_softwood_mm=body_mm,
        hole_hardwood_mm=min(round(body_mm + extra, 6), outside),
        hole_hardwood_most_mm=min(round(body_mm + HARDWOOD_EXTRA_MOST_MM, 6), outside),
        edge_mm=EDGE_DIAMETERS * outside,
        source=source,
        basis="common practice" if row is None else basis_of(row),
    )


def _hardwood_extra_mm(outside_mm: float) -> float:
    if outside_mm <= _SMALL_OUTSIDE_MM:
        return HARDWOOD_EXTRA_LEAST_MM
    middle = (HARDWOOD_EXTRA_LEAST_MM + HARDWOOD_EXTRA_MOST_MM) / 2
    return middle if outside_mm <= _MEDIUM_OUTSIDE_MM else HARDWOOD_EXTRA_MOST_MM


def _check_fits(major_mm: float, body_mm: float, outside_mm: float) -> None:
    if not major_mm < body_mm < outside_mm:
        raise InputError.of(
            f"An insert's body lies between its thread ({major_mm:g} mm) and its outside "
            f"({outside_mm:g} mm), so {body_mm:g} mm cannot be.",
            field="body",
            value=body_mm,
            limit=outside_mm,
            unit="mm",
        )
