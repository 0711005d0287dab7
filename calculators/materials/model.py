"""What is known of a material, as plain data."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

Kind = Literal[
    "hardwood",
    "softwood",
    "sheet wood",
    "steel",
    "stainless steel",
    "brass",
    "bronze",
    "copper",
    "aluminium",
    "cast iron",
    "glass",
    "plastic",
    "other",
]
KINDS: tuple[str, ...] = get_args(Kind)
WOODS = frozenset({"hardwood", "softwood", "sheet wood"})
METALS = frozenset({"steel", "stainless steel", "brass", "bronze", "copper", "aluminium", "cast iron"})


@dataclass(frozen=True, slots=True)
class Material:
    """A material and its figures; None where a figure is not known.

    `name` is canonical. `also` are other names that it goes by. `like` names the species whose figures
    stand in for a wood that the Handbook does not list. `specific_gravity` of a wood is on ovendry mass
    and volume at 12 % moisture. `movement_tangential` and `movement_radial` are the change of width for
    each 1 % of moisture, as a fraction of the width. `engagement_diameters` is the length of thread that
    a tapped hole in this metal should give a screw. `sources` says for each group of figures where it is
    from.
    """

    name: str
    kind: Kind
    also: tuple[str, ...] = ()
    like: str = ""
    density_kg_m3: float | None = None
    specific_gravity: float | None = None
    modulus_gpa: float | None = None
    shear_modulus_gpa: float | None = None
    tensile_mpa: float | None = None
    yield_mpa: float | None = None
    shear_strength_mpa: float | None = None
    rupture_mpa: float | None = None
    compression_perpendicular_mpa: float | None = None
    side_hardness_n: float | None = None
    movement_tangential: float | None = None
    movement_radial: float | None = None
    shrinkage_tangential_percent: float | None = None
    shrinkage_radial_percent: float | None = None
    engagement_diameters: float | None = None
    tannin_rich: bool = False
    dense: bool = False
    sources: tuple[str, ...] = ()

    @property
    def is_wood(self) -> bool:
        """Whether it is solid wood or a sheet made of wood."""
        return self.kind in WOODS

    @property
    def is_solid_wood(self) -> bool:
        """Whether it is solid wood, which moves across its grain."""
        return self.kind in ("hardwood", "softwood")

    @property
    def is_metal(self) -> bool:
        """Whether a thread can be tapped in it and relied upon."""
        return self.kind in METALS
