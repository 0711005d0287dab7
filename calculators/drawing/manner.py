"""In which manner a material is hatched, by its kind and by how its grain lies to the drawing."""

from __future__ import annotations

from typing import Literal

from calculators.drawing.hatching import Manner
from calculators.materials import find_material
from calculators.quantities.errors import InputError

Grain = Literal["across", "up", "towards"]
"""How the grain runs as drawn: from side to side, up the drawing, or towards the eye (cut across it)."""

Layers = Literal["across", "up", "flat"]
"""How the layers of sheet wood run as drawn: from side to side, up the drawing, or flat in its plane."""


def manner_of(material: str, grain: Grain = "across", layers: Layers = "across") -> Manner:
    """Return in which manner a section through a material is hatched.

    Args:
        material: the material as a build names it.
        grain: how the grain of solid wood runs in the drawing.
        layers: how the layers of sheet wood run in the drawing.

    Returns:
        The manner; that of anything else for a material that is not in the tables.

    Source: common practice.

    Example:
        >>> manner_of("oak"), manner_of("oak", "towards"), manner_of("brass")
        ('wood', 'end grain', 'metal')
    """
    try:
        known = find_material(material)
    except InputError:
        return "other"
    if known.is_solid_wood:
        by_grain: dict[Grain, Manner] = {"across": "wood", "up": "wood upright", "towards": "end grain"}
        return by_grain[grain]
    if known.is_wood:
        by_layers: dict[Layers, Manner] = {
            "across": "sheet wood",
            "up": "sheet wood upright",
            "flat": manner_of_face(grain),
        }
        return by_layers[layers]
    if known.is_metal:
        return "metal"
    return "plastic" if known.kind == "plastic" else "glass" if known.kind == "glass" else "other"


def manner_of_face(grain: Grain) -> Manner:
    """Return the manner of sheet wood that is cut within a layer, whose own grain is then seen.

    Args:
        grain: how the sheet's length runs in the drawing.

    Returns:
        That of wood along its grain.

    Source: common practice.

    Example:
        >>> manner_of_face("up")
        'wood upright'
    """
    return "wood upright" if grain == "up" else "wood"
