"""Whether a part's numbers make a part at all, each fault said in a sentence."""

from __future__ import annotations

import math

from calculators.geometry.frames import FACES
from calculators.geometry.model import Pocket, Solid
from calculators.quantities.errors import Fault, InputError

TOLERANCE_MM = 1e-6
"""Nothing thinner than this is material, and nothing closer is apart."""

LARGEST_MM = 1e6
"""A part or a distance beyond a kilometre is a slip of the pen."""


def check_solid(solid: Solid, field: str = "solid") -> None:
    """Refuse a part whose sizes are missing, negative, endless or contradict each other.

    Args:
        solid: the part.
        field: the name put before each faulty field.

    Raises:
        InputError: with one fault for each thing wrong.

    Source: this project.

    Example:
        >>> check_solid(Solid("block", 100, 50, 20))
    """
    faults = solid_faults(solid, field)
    if faults:
        raise InputError(*faults)


def solid_faults(solid: Solid, field: str = "solid") -> list[Fault]:
    """Return what is wrong with a part's sizes and pockets, nothing when all is well.

    Args:
        solid: the part.
        field: the name put before each faulty field.

    Returns:
        A fault for each thing wrong.

    Source: this project.
    """
    if solid.shape not in {"block", "round"}:
        return [Fault(f"'{solid.shape}' is not a shape; a part is a block or a round.", f"{field}.shape")]
    names = ("length", "width", "thickness") if solid.shape == "block" else ("length", "diameter")
    faults = [fault for name in names for fault in _size_faults(getattr(solid, name), name, field)]
    if solid.shape == "round" and not faults and not _is_bore(solid.bore, solid.diameter):
        says = f"The bore must be nought or more and less than the diameter, {solid.diameter:g} mm."
        faults.append(Fault(says, f"{field}.bore", limit=solid.diameter, unit="mm"))
    for index, pocket in enumerate(solid.pockets):
        faults += _pocket_faults(solid, pocket, f"{field}.pockets[{index}]")
    return faults


def is_number(value: object) -> bool:
    """Say whether a value is a finite number within a kilometre.

    Args:
        value: anything.

    Returns:
        True when it can be reckoned with as a length or an angle.

    Source: this project.
    """
    return (
        isinstance(value, int | float)
        and not isinstance(value, bool)
        and math.isfinite(value)
        and abs(value) <= LARGEST_MM
    )


def _is_bore(bore: float, diameter: float) -> bool:
    return is_number(bore) and 0 <= bore < diameter - TOLERANCE_MM


def _size_faults(value: float, name: str, field: str) -> list[Fault]:
    if is_number(value) and value > TOLERANCE_MM:
        return []
    return [
        Fault(f"The {name} must be more than 0 and at most {LARGEST_MM:g} mm.", f"{field}.{name}", unit="mm")
    ]


def _pocket_faults(solid: Solid, pocket: Pocket, field: str) -> list[Fault]:
    if pocket.face not in FACES or (pocket.face == "side" and solid.shape == "block"):
        return [Fault(f"A {solid.shape} has no face '{pocket.face}' to take a pocket off.", f"{field}.face")]
    faults = [
        Fault(f"The pocket's {name} must be a number of at most {LARGEST_MM:g}.", f"{field}.{name}")
        for name in ("u", "v", "length", "width", "corner_radius", "diameter", "angle")
        if not is_number(getattr(pocket, name))
    ]
    if pocket.depth is not None and not (is_number(pocket.depth) and pocket.depth > 0):
        faults.append(
            Fault("The pocket's depth must be more than 0, or left out for right through.", f"{field}.depth")
        )
    if faults:
        return faults
    if pocket.diameter < 0 or (pocket.diameter == 0 and (pocket.length <= 0 or pocket.width <= 0)):
        says = "A pocket needs a length and a width of more than 0, or a diameter."
        faults.append(Fault(says, f"{field}.length"))
    elif (
        not pocket.diameter
        and not 0 <= pocket.corner_radius <= min(pocket.length, pocket.width) / 2 + TOLERANCE_MM
    ):
        says = f"The corner radius must be from 0 to half the pocket's width ({pocket.width:g})."
        faults.append(
            Fault(says, f"{field}.corner_radius", limit=min(pocket.length, pocket.width) / 2, unit="mm")
        )
    return faults
