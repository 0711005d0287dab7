"""The materials of the workshop: woods, metals, sheet and the rest, with the figures that checks need.

May import: `calculators.quantities` and `calculators.tables`. Offers `find_material`, `material_names`,
`Material`, `movement_coefficient`, `GradeStrength`, `strength_of` and `engagement_of`.
"""

from calculators.materials.materials import find_material, material_names
from calculators.materials.metals import GradeStrength, engagement_of, strength_of
from calculators.materials.model import KINDS, METALS, WOODS, Kind, Material
from calculators.materials.woods import movement_coefficient

__all__ = [
    "KINDS",
    "METALS",
    "WOODS",
    "GradeStrength",
    "Kind",
    "Material",
    "engagement_of",
    "find_material",
    "material_names",
    "movement_coefficient",
    "strength_of",
]
