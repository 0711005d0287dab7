"""What a beam, strut or shelf is made of: modulus, weight, strength, and where each figure is from."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.materials import Material, find_material
from calculators.quantities.errors import InputError

WOOD_FACTOR = 4.0
"""Modulus of rupture of clear wood over the stress allowed: knots, slope of grain, load for years (common
practice)."""
METAL_FACTOR = 1.67
"""Yield over the stress allowed in bending (AISC 360, from memory)."""
OTHER_FACTOR = 4.0
WOOD_E_OVER_G = 16.0
"""Modulus along the grain over modulus of rigidity of wood (common practice; Wood Handbook, table 5-1, has
about 10 to 25)."""
METAL_E_OVER_G = 2.6
"""2 (1 + 0.3), Poisson's ratio of metals."""
CREEP_WOOD = 2.0
"""What a load for years does to wood kept dry: about twice the deflection at once (Wood Handbook ch. 5)."""
GRAVITY_M_S2 = 9.80665


@dataclass(frozen=True, slots=True)
class Stuff:
    """A material's figures as a beam needs them; None where not known.

    `strength_mpa` is what it breaks or yields at in bending, called `strength_name`; `factor` the usual
    divisor for the stress allowed.
    """

    name: str
    modulus_mpa: float
    modulus_source: str
    rigidity_mpa: float
    density_kg_m3: float | None = None
    strength_mpa: float | None = None
    strength_name: str = ""
    factor: float = OTHER_FACTOR
    wood: bool = False
    material: Material | None = None

    @property
    def short_source(self) -> str:
        """The source of the modulus without where it was read."""
        return self.modulus_source.partition(" (read")[0].partition("; shrinkage")[0]


def stuff_of(material: str | None, modulus_gpa: float | None, *, strength_mpa: float | None = None) -> Stuff:
    """Look a material up, or take the modulus that was given; a given figure goes before the table's.

    Args:
        material: its name, or None.
        modulus_gpa: [GPa] the modulus of elasticity, above 0, or None.
        strength_mpa: [MPa] yield strength or modulus of rupture, above 0, or None.

    Returns:
        The figures.

    Raises:
        InputError: when there is neither, or no modulus is known of the material.

    Source: tables `woods` (Wood Handbook) and `materials`.

    Example:
        >>> stuff_of("white oak", None).modulus_mpa
        12270.0
    """
    found = find_material(material) if material else None
    if found is None and modulus_gpa is None:
        says = "Give a material, as European oak or mild steel, or the modulus of elasticity."
        raise InputError.of(says, field="material")
    known = modulus_gpa if modulus_gpa is not None else found.modulus_gpa if found else None
    if known is None:
        assert found is not None
        says = f"No modulus of elasticity is known here of {found.name}; give the modulus."
        raise InputError.of(says, field="modulus")
    if found is None:
        factor = METAL_FACTOR if known >= 30 else OTHER_FACTOR
        return Stuff(
            "material with that modulus", known * 1000, "as given", known * 1000 / METAL_E_OVER_G,
            strength_mpa=strength_mpa, strength_name="strength given", factor=factor,
        )  # fmt: skip
    return _of_material(found, known, modulus_gpa is not None, strength_mpa)


def _of_material(found: Material, modulus_gpa: float, given: bool, strength_mpa: float | None) -> Stuff:
    wood = found.is_wood
    own = found.shear_modulus_gpa if not given else None
    rigidity = own if own is not None else modulus_gpa / (WOOD_E_OVER_G if wood else METAL_E_OVER_G)
    strength, name = found.rupture_mpa, "modulus of rupture"
    if not wood:
        strength, name = (
            (found.yield_mpa, "yield strength")
            if found.yield_mpa
            else (found.tensile_mpa, "tensile strength")
        )
    if strength_mpa is not None:
        strength, name = strength_mpa, "strength given"
    factor = WOOD_FACTOR if wood else METAL_FACTOR if found.is_metal else OTHER_FACTOR
    like = f" (figures of {found.like})" if found.like else ""
    source = next((each for each in found.sources if each.startswith("strength")), found.sources[0])
    return Stuff(
        found.name + like, modulus_gpa * 1000, "as given" if given else source.removeprefix("strength: "),
        rigidity * 1000, found.density_kg_m3, strength, name, factor, wood, found,
    )  # fmt: skip


def weight_n(stuff: Stuff, area_mm2: float, length_mm: float) -> float | None:
    """The weight of a bar.

    W = density A L g

    Args:
        stuff: what it is made of.
        area_mm2: [mm2] area of its section.
        length_mm: [mm] its length.

    Returns:
        The weight [N], or None where no density is known.

    Source: standard gravity 9.80665 m/s2 (CGPM 1901, from memory).

    Example:
        >>> round(weight_n(stuff_of("mild steel", None), 100, 1000), 3)
        7.698
    """
    if stuff.density_kg_m3 is None:
        return None
    return stuff.density_kg_m3 * area_mm2 * length_mm * 1e-9 * GRAVITY_M_S2
