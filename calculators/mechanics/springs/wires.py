"""Spring wire: moduli, least tensile strength by diameter, and the share of it that it may bear."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import log10
from typing import Literal

from calculators.quantities.errors import InputError
from calculators.quantities.gauges import System, gauges_of
from calculators.quantities.marks import quoted
from calculators.tables import Row, load

Use = Literal["compression", "body", "hook_torsion", "hook_bending", "torsion"]
"""Where the stress is: in a spring pressed, in the body or a hook of one pulled, in one wound up."""

CYCLES = {"static": 0, "10000": 10_000, "100000": 100_000, "1000000": 1_000_000, "10000000": 10_000_000}
"""How often the load may come; up to 10 000 times counts as a load that stays."""

SERIES: dict[str, System | None] = {
    "metric": None,
    "music-wire-gauge": "music-wire",
    "imperial-standard": "imperial-standard",
    "us-steel-wire": "us-steel-wire",
    "brown-sharpe": "brown-sharpe",
}
"""The series of sizes in which wire is sold."""


@dataclass(frozen=True, slots=True)
class SpringWire:
    """Wire of one material at one diameter.

    `tensile_mpa` is None where the table has no strength for that diameter; `tensile_range_mm` says for
    which it has one.
    """

    name: str
    standard: str
    family: str
    shear_modulus_mpa: float
    modulus_mpa: float
    density_kg_m3: float
    tensile_mpa: float | None
    tensile_formula: str
    tensile_range_mm: tuple[float, float]
    modulus_source: str
    tensile_source: str
    share_source: str


@dataclass(frozen=True, slots=True)
class Size:
    """One size of wire that is sold: its name and diameter."""

    name: str
    wire_mm: float


def wire_names() -> tuple[str, ...]:
    """The materials of spring wire that are known.

    Returns:
        Their names.

    Source: table `spring_wires`.

    Example:
        >>> wire_names()[:2]
        ('music-wire', 'hard-drawn')
    """
    return load("spring_wires").column("name")


def wire_synonyms() -> tuple[tuple[str, str], ...]:
    """Other words for the materials.

    Returns:
        Pairs of another word and the name.

    Source: table `spring_wires`.

    Example:
        >>> dict(wire_synonyms())["piano-wire"]
        'music-wire'
    """
    rows = load("spring_wires").rows
    return tuple((other, row["name"]) for row in rows for other in row["also"].split(";") if other)


@lru_cache(maxsize=1024)
def spring_wire(material: str, wire_mm: float) -> SpringWire:
    """Look up wire of a material at a diameter.

    Args:
        material: one of `wire_names`.
        wire_mm: [mm] diameter, above 0, up to 50.

    Returns:
        The wire with its moduli, and its strength where the tables have one.

    Raises:
        InputError: when there is no such material.

    Source: tables `spring_wires`, `spring_wire_moduli` and `spring_wire_strengths`.

    Example:
        >>> wire = spring_wire("music-wire", 1.0)
        >>> wire.shear_modulus_mpa, wire.tensile_mpa
        (81700.0, 2211.0)
    """
    row = load("spring_wires").find(material)
    if row is None:
        says = f"{quoted(material)} is not a spring wire known here; write one of {', '.join(wire_names())}."
        raise InputError.of(says, field="material", choices=wire_names())
    moduli = _row_at("spring_wire_moduli", material, wire_mm)
    assert moduli is not None, wire_mm
    strengths = load("spring_wire_strengths").where("material", material)
    strength = _row_at("spring_wire_strengths", material, wire_mm)
    bounds = [row.number(end) for row in strengths for end in ("over", "up_to")]
    return SpringWire(
        name=material,
        standard=row["standard"],
        family=row["family"],
        shear_modulus_mpa=round(1000 * moduli.number("shear_modulus"), 6),
        modulus_mpa=round(1000 * moduli.number("modulus"), 6),
        density_kg_m3=row.number("density"),
        tensile_mpa=_tensile_mpa(strength, wire_mm) if strength else None,
        tensile_formula=_formula(strength) if strength else "",
        tensile_range_mm=(min(bounds), max(bounds)) if bounds else (0.0, 0.0),
        modulus_source=moduli.source.says,
        tensile_source=strength.source.says if strength else "",
        share_source=row.source.says,
    )


def _row_at(table: str, material: str, wire_mm: float) -> Row | None:
    """The row whose range holds the diameter; the least diameter of all belongs to the first range."""
    for place, row in enumerate(load(table).where("material", material)):
        low, high = row.number("over"), row.number("up_to")
        if low < wire_mm <= high or (place == 0 and wire_mm == low):
            return row
    return None


def _tensile_mpa(row: Row, wire_mm: float) -> float:
    power: float = row.number("at_1_mm") / wire_mm ** row.number("exponent")
    return power - row.number("per_decade") * log10(wire_mm)


def _formula(row: Row) -> str:
    first = f"{row.number('at_1_mm'):g}"
    if row.number("exponent"):
        first += f"/d^{row.number('exponent'):g}"
    return first + (f" - {row.number('per_decade'):g} lg d" if row.number("per_decade") else "")


def allowed_percent(material: str, use: Use, cycles: int = 0) -> float:
    """Share of the tensile strength that a spring's wire may bear.

    Args:
        material: one of `wire_names`.
        use: where the stress is.
        cycles: [1] how often the load comes from nought, 0 or more; up to 10 000 times counts as a load
            that stays, more than the table has as the most that it has.

    Returns:
        The share [%], a guide for the workshop.

    Source: tables `spring_wires` and `spring_wire_cycles` (from memory).

    Example:
        >>> allowed_percent("music-wire", "compression"), allowed_percent("music-wire", "body", 1_000_000)
        (45.0, 33.0)
    """
    wire = load("spring_wires").row(material)
    share = wire.number(use)
    if cycles <= CYCLES["10000"]:
        return share
    rows = load("spring_wire_cycles").where("family", wire["family"])
    listed = [row for row in rows if row.has(use)]
    row = next((row for row in listed if cycles <= row.number("cycles")), listed[-1])
    return min(share, row.number(use))


def wire_sizes(series: str) -> tuple[Size, ...]:
    """The sizes of one series in which wire is sold.

    Args:
        series: one of `SERIES`.

    Returns:
        The sizes up to 16 mm, thinnest first.

    Source: the tables of the gauges; table `spring_wire_metric`.

    Example:
        >>> [each.name for each in wire_sizes("metric")][:3]
        ['0.2 mm', '0.22 mm', '0.25 mm']
    """
    system = SERIES[series]
    if system is None:
        rows = load("spring_wire_metric").rows
        return tuple(Size(row["name"], row.number("diameter")) for row in rows)
    sizes = [Size(one.name, one.thickness_mm) for one in gauges_of(system).values()]
    return tuple(sorted((size for size in sizes if size.wire_mm <= 16), key=lambda size: size.wire_mm))
