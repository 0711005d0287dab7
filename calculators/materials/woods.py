"""The woods: their figures from the Wood Handbook, and how much they move with moisture."""

from __future__ import annotations

from functools import cache
from typing import Literal

from calculators.materials.model import Kind, Material
from calculators.quantities.errors import InputError
from calculators.tables import Row, load

DENSE_HARDNESS_N = 4400.0
"""Side hardness (about 1000 lbf) from which a hardwood is called dense here: walnut and ash are, cherry
is not (common practice)."""

TANNIN_WORDS = ("oak", "chestnut", "walnut")
"""Woods whose tannin blackens with plain steel (common practice)."""

MOISTURE_12 = 12.0
_FIBRE_SATURATION = 30.0
_GENERIC: tuple[tuple[str, Kind], ...] = (("hardwood", "hardwood"), ("softwood", "softwood"))


def movement_coefficient(shrinkage_percent: float, moisture_percent: float = 10.0) -> float:
    """The change of width for each 1 % of moisture, from the shrinkage between green and ovendry.

    C = 1 / (100 * 30 / S0 - 30 + M)

    Args:
        shrinkage_percent: total shrinkage S0 across the face in question [%], above 0 to 30.
        moisture_percent: the moisture M at which the width is measured [%], 0 to 30.

    Returns:
        C, the fraction of the width for each 1 % of moisture.

    Raises:
        InputError: outside those ranges.

    Source: USDA Wood Handbook ch. 13, the relation behind Table 13-5, from memory; it gives back five of
        the seven species of that table that were read.

    Example:
        >>> round(movement_coefficient(7.8), 5)
        0.00274
    """
    if not 0 < shrinkage_percent <= 30:
        raise InputError.of(
            f"Shrinkage lies above 0 and up to 30 %, not {shrinkage_percent:g}.",
            field="shrinkage",
            value=shrinkage_percent,
            limit=30.0 if shrinkage_percent > 0 else 0.0,
            unit="%",
        )
    if not 0 <= moisture_percent <= _FIBRE_SATURATION:
        raise InputError.of(
            f"Moisture lies between 0 and 30 % here, not {moisture_percent:g}.",
            field="moisture",
            value=moisture_percent,
            limit=_FIBRE_SATURATION if moisture_percent > 0 else 0.0,
            unit="%",
        )
    return 1 / (100 * _FIBRE_SATURATION / shrinkage_percent - _FIBRE_SATURATION + moisture_percent)


def gravity_at_12(green_gravity: float) -> float:
    """Specific gravity on the volume at 12 % moisture from that on green volume.

    G12 = Gb / (1 - 0.265 a Gb), a = (30 - 12) / 30

    Args:
        green_gravity: specific gravity on green volume, Gb, above 0 to 1.3.

    Returns:
        Specific gravity on the volume at 12 %.

    Source: USDA Wood Handbook ch. 4, from memory.

    Example:
        >>> round(gravity_at_12(0.55), 2)
        0.6
    """
    shrunk = (_FIBRE_SATURATION - MOISTURE_12) / _FIBRE_SATURATION
    return green_gravity / (1 - 0.265 * shrunk * green_gravity)


@cache
def all_woods() -> tuple[Material, ...]:
    """All woods that are known, in the order of their table, then the two unnamed kinds.

    Returns:
        The woods.

    Source: tables `woods`, `wood_shrinkage`, `wood_movement` and `wood_compression`.

    Example:
        >>> all_woods()[0].name
        'red alder'
    """
    named = tuple(_wood(row) for row in load("woods").rows)
    generic = tuple(
        Material(
            name,
            kind,
            sources=("no species named: figures need one, 'white oak' or 'Sitka spruce' for example",),
        )
        for name, kind in _GENERIC
    )
    return named + generic


def _wood(row: Row) -> Material:
    figures = load("woods").row(row["like"]) if row["like"] else row
    gravity, gravity_source = _gravity(figures)
    species = figures["species"]
    perpendicular = load("wood_compression").find(species)
    tangential, radial, shrinkage_source = _shrinkage(figures)
    move_t, move_r, movement_source = _movement(species, tangential, radial)
    hardness = figures.number_or_none("side_hardness")
    sources = [f"strength: {figures.source.says}{gravity_source}"]
    if row["like"]:
        sources.insert(0, f"figures of {row['like']}, its nearest relation in the Wood Handbook")
    if perpendicular is not None:
        sources.append(f"compression across the grain: {perpendicular.source.says}")
    sources += [text for text in (shrinkage_source, movement_source) if text]
    return Material(
        name=row["species"],
        kind="hardwood" if row["kind"] == "hardwood" else "softwood",
        also=_names(row),
        like=row["like"],
        density_kg_m3=None if gravity is None else round(1000 * gravity * (1 + MOISTURE_12 / 100), 1),
        specific_gravity=gravity,
        modulus_gpa=figures.number_or_none("modulus"),
        rupture_mpa=figures.number_or_none("rupture"),
        compression_perpendicular_mpa=None
        if perpendicular is None
        else perpendicular.number("perpendicular"),
        side_hardness_n=hardness,
        movement_tangential=move_t,
        movement_radial=move_r,
        shrinkage_tangential_percent=tangential,
        shrinkage_radial_percent=radial,
        tannin_rich=any(word in row["species"].split() for word in TANNIN_WORDS),
        dense=row["kind"] == "hardwood" and _is_dense(hardness, gravity),
        sources=tuple(sources),
    )


def _names(row: Row) -> tuple[str, ...]:
    return tuple(name for name in [*row["also"].split(";"), row["handbook"]] if name)


def _is_dense(hardness_n: float | None, gravity: float | None) -> bool:
    """Dense by hardness; where no hardness is printed (live oak), by specific gravity of 0.60 and over."""
    if hardness_n is not None:
        return hardness_n >= DENSE_HARDNESS_N
    return gravity is not None and gravity >= 0.60


def _gravity(row: Row) -> tuple[float | None, str]:
    printed = row.number_or_none("specific_gravity")
    if printed is None or row["gravity_basis"] != "green":
        return printed, ""
    return round(gravity_at_12(printed), 3), (
        f"; specific gravity {printed:g} on green volume, brought to 12 % (Wood Handbook ch. 4, from memory)"
    )


def _shrinkage(row: Row) -> tuple[float | None, float | None, str]:
    tangential = row.number_or_none("shrinkage_tangential")
    if tangential is not None:
        return tangential, row.number_or_none("shrinkage_radial"), ""
    remembered = load("wood_shrinkage").find(row["species"])
    if remembered is None:
        return None, None, ""
    says = f"shrinkage: {remembered.source.says}"
    return remembered.number("tangential"), remembered.number("radial"), says


def _movement(
    species: str, tangential: float | None, radial: float | None
) -> tuple[float | None, float | None, str]:
    row = load("wood_movement").find(species)
    if row is not None:
        return row.number("tangential"), row.number("radial"), f"movement: {row.source.says}"
    if tangential is None or radial is None:
        return None, None, ""
    says = "movement: worked out from the shrinkage (Wood Handbook ch. 13, relation from memory)"
    return movement_coefficient(tangential), movement_coefficient(radial), says


Face = Literal["flat-sawn", "quarter-sawn"]


def movement_of(material: Material, face: Face) -> float | None:
    """The movement coefficient of a board's width, by how it was sawn.

    Args:
        material: the wood.
        face: `flat-sawn` (tangential movement across the width) or `quarter-sawn` (radial).

    Returns:
        The fraction of the width for each 1 % of moisture, or None where it is not known.

    Source: USDA Wood Handbook ch. 13.

    Example:
        >>> movement_of(next(wood for wood in all_woods() if wood.name == "white oak"), "flat-sawn")
        0.00365
    """
    return material.movement_tangential if face == "flat-sawn" else material.movement_radial
