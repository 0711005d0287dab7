"""In which manner a component is hatched where a drawing cuts it: by its material and its grain."""

from __future__ import annotations

from typing import Literal

from calculators.drawing.hatching import Manner
from calculators.drawing.manner import Grain, Layers, manner_of
from calculators.planning.model import Component

Axis = Literal["X", "Y", "Z"]


def manner_of_part(part: Component, right: Axis, up: Axis) -> Manner:
    """Return in which manner a section of a component is hatched.

    The grain of solid wood runs along X and the layers of sheet wood lie square to Z, as the frame of a
    component is laid.

    Args:
        part: the component.
        right: the part's own axis that runs to the right (or left) in the drawing.
        up: the own axis that runs up (or down) in it.

    Returns:
        The manner: of wood along its grain, or of end grain where the cut goes square across it.

    Source: this project (the frames of the developers' guide).

    Example:
        >>> rail = Component("P01", "rail", material="oak")
        >>> manner_of_part(rail, "X", "Z"), manner_of_part(rail, "Y", "Z"), manner_of_part(rail, "Z", "X")
        ('wood', 'end grain', 'wood upright')
    """
    grain: Grain = "across" if right == "X" else "up" if up == "X" else "towards"
    layers: Layers = "across" if up == "Z" else "up" if right == "Z" else "flat"
    return manner_of(part.material, grain, layers)
