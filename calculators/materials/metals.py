"""Metals, sheet and the rest; how far a screw must engage in them, and how strong screws are."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import cast

from calculators.materials.model import KINDS, Kind, Material
from calculators.quantities.errors import InputError
from calculators.tables import load

ENGAGEMENT: dict[str, float] = {
    "steel": 1.0,
    "stainless steel": 1.0,
    "brass": 1.5,
    "bronze": 1.5,
    "cast iron": 1.5,
    "copper": 2.0,
    "aluminium": 2.0,
    "plastic": 2.0,
}
"""Thread engagement in tapped holes, in diameters: 1.0 steel, 1.5 brass and cast iron, 2.0 aluminium
(common practice); copper and plastics as the softest of these."""

_ENGAGEMENT_SOURCE = "engagement in tapped holes: 1.0 D steel, 1.5 D brass, 2.0 D aluminium (common practice)"
_ASSUMED = {"stainless steel": "A2-50", "brass": "brass", "bronze": "brass", "copper": "brass"}


@dataclass(frozen=True, slots=True)
class GradeStrength:
    """The strength of a screw's grade in MPa. `assumed` says so where no grade was stated."""

    grade: str
    proof_mpa: float
    tensile_mpa: float
    yield_mpa: float
    source: str
    assumed: bool = False


def engagement_of(kind: str) -> float | None:
    """The length of thread, in diameters, that a tapped hole in this kind of metal should give.

    Args:
        kind: a kind of material (`steel`, `brass`, `aluminium`, ...).

    Returns:
        Diameters of the screw, or None where there is no rule (wood, glass, other).

    Source: common practice.

    Example:
        >>> engagement_of("brass")
        1.5
    """
    return ENGAGEMENT.get(kind)


@cache
def all_others() -> tuple[Material, ...]:
    """All materials that are not solid wood, in the order of their table.

    Returns:
        The materials.

    Source: table `materials`.

    Example:
        >>> all_others()[0].name
        'mild steel'
    """
    materials = []
    for row in load("materials").rows:
        kind = cast(Kind, row["kind"])
        engagement = engagement_of(kind)
        sources = [row.source.says]
        if engagement is not None:
            sources.append(_ENGAGEMENT_SOURCE)
        materials.append(
            Material(
                name=row["name"],
                kind=kind,
                also=tuple(name for name in row["also"].split(";") if name),
                density_kg_m3=row.number_or_none("density"),
                modulus_gpa=row.number_or_none("modulus"),
                shear_modulus_gpa=row.number_or_none("shear_modulus"),
                tensile_mpa=row.number_or_none("tensile"),
                yield_mpa=row.number_or_none("yield"),
                shear_strength_mpa=row.number_or_none("shear_strength"),
                engagement_diameters=engagement,
                sources=tuple(sources),
            )
        )
    assert all(material.kind in KINDS for material in materials)
    return tuple(materials)


def grade_names() -> tuple[str, ...]:
    """The strength grades that are known.

    Returns:
        The grades as they are written (`8.8`, `A2-70`, `SAE 5`).

    Source: table `fastener_grades`.

    Example:
        >>> grade_names()[0]
        '4.6'
    """
    return tuple(dict.fromkeys(load("fastener_grades").column("grade")))


def strength_of(
    grade: str, diameter_mm: float, *, kind: str = "steel", field: str = "grade"
) -> GradeStrength:
    """The proof, tensile and yield stress of a screw's grade at its size.

    Args:
        grade: the grade (`8.8`, `A2-70`, `SAE 5`); empty where none is stated: then the weakest usual
            grade of the kind of metal is taken (4.6 steel, A2-50 stainless, brass) and marked as assumed.
        diameter_mm: the thread's nominal diameter [mm], above 0.
        kind: the kind of metal of the screw, used where no grade is stated.
        field: the name of the input that holds the grade, for faults.

    Returns:
        The stresses [MPa].

    Raises:
        InputError: when the grade is unknown or not made at that diameter.

    Source: ISO 898-1, SAE J429, ISO 3506-1 as their rows say; a guide for the workshop, not for lifting,
        people or buildings.

    Example:
        >>> strength_of("8.8", 5).proof_mpa, strength_of("8.8", 20).proof_mpa
        (580.0, 600.0)
    """
    assumed = not grade.strip()
    wanted = _ASSUMED.get(kind, "4.6") if assumed else _tidy_grade(grade)
    rows = load("fastener_grades").where("grade", wanted)
    if not rows:
        raise InputError.of(
            f"{grade.strip()!r} is not a grade that is known here; they are {', '.join(grade_names())}.",
            field=field,
            choices=grade_names(),
        )
    for row in rows:
        if row.number("over") < diameter_mm <= row.number("up_to"):
            return GradeStrength(
                row["grade"], row.number("proof"), row.number("tensile"), row.number("yield"),
                row.source.says, assumed,
            )  # fmt: skip
    limit = rows[-1].number("up_to")
    raise InputError.of(
        f"Grade {wanted} is listed for diameters above 0 up to {limit:g} mm, not {diameter_mm:g} mm.",
        field="diameter",
        value=diameter_mm,
        limit=limit,
        unit="mm",
    )


def _tidy_grade(grade: str) -> str:
    text = " ".join(grade.replace("class", "").replace("grade", "").split())
    matches = [name for name in grade_names() if name.casefold() == text.casefold()]
    return matches[0] if matches else text
