"""The cut list: every part that is made here, with its finished sizes and the sizes to cut it out at."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from calculators.materials import find_material
from calculators.planning.model import Build, Component, Size
from calculators.planning.outlining import count_words
from calculators.planning.tree import total_quantity
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length

WOOD_LENGTH_MM = 12.0
WOOD_WIDTH_MM = 6.0
WOOD_FACE_MM = 2.5
METAL_END_MM = 1.5
"""Allowances for cutting out: common practice of small workshops."""


@dataclass(frozen=True, slots=True)
class CutLine:
    """One part to cut out: finished length x width x thickness (or diameter), and the rough sizes.

    `rough_basis` says how the rough sizes came about; `missing` names finished sizes not yet known.
    """

    mark: str
    name: str
    material: str
    stock: str
    quantity: int
    length: Length | None
    width: Length | None
    thickness: Length | None
    diameter: Length | None
    bore: Length | None
    grain: str
    rough_length_mm: float | None
    rough_width_mm: float | None
    rough_thickness_mm: float | None
    rough_diameter_mm: float | None
    rough_basis: str
    missing: tuple[str, ...]
    made: bool
    revision: str = ""
    note: str = ""
    outline: str = ""
    """Of how many corners and arcs the outline is that it is sawn to from the block."""


def cut_list(build: Build) -> tuple[CutLine, ...]:
    """List the parts that are cut from stock, longest first; bought and re-used parts are left out.

    Rough sizes are the component's own where it has them; else finished sizes with the usual allowances:
    a board 12 mm longer, 6 mm wider and 2.5 mm for each planed face; a bar, tube or turned part of metal
    1.5 mm for facing each end (of wood 12 mm longer); a sheet as finished.

    Args:
        build: the build.

    Returns:
        The lines. Parts whose length is not known come last.

    Raises:
        InputError: when the tree of components has a ring or a missing parent.

    Source: common practice.

    Example:
        >>> leg = Component("P1", "Leg", quantity=4, stock="board", size=Size(length=Length.of_mm(400)))
        >>> build = Build("B1", "Stool", components=(leg,))
        >>> [(line.quantity, line.rough_length_mm) for line in cut_list(build)]
        [(4, 412.0)]
    """
    totals = total_quantity(build)
    lines = [_line(one, totals[one.mark]) for one in parts_to_cut(build)]
    return tuple(sorted(lines, key=_longest_first))


def _longest_first(line: CutLine) -> tuple[int, int, int]:
    sizes = (line.length, line.width or line.diameter, line.thickness)
    length, width, thickness = (-one.ticks if one is not None else 1 for one in sizes)
    return length, width, thickness


def parts_to_cut(build: Build) -> tuple[Component, ...]:
    """Find the components that are cut from stock.

    Args:
        build: the build.

    Returns:
        Those that are neither bought, re-used nor a sub-assembly without sizes of its own.

    Source: this project.
    """
    parents = {one.parent for one in build.components}
    return tuple(
        one
        for one in build.components
        if one.stock != "bought" and not one.reused and not (one.mark in parents and one.size == Size())
    )


def _line(one: Component, quantity: int) -> CutLine:
    size = one.size
    rough, basis = rough_sizes(one)
    return CutLine(
        one.mark,
        one.name,
        one.material,
        one.stock,
        quantity,
        size.length,
        size.width,
        size.thickness,
        size.diameter,
        size.bore,
        _grain(one),
        *rough,
        basis,
        missing_sizes(one),
        one.state in ("made", "fitted", "in hand"),
        one.revision,
        one.note,
        count_words(one.outline),
    )


def _grain(one: Component) -> str:
    """Say how the grain lies: along the length always, by this project's frame of a part."""
    if not is_wood(one):
        return ""
    return {"": "along the length", "flat": "along the length, flat-sawn"}.get(
        one.grain_cut, "along the length, quarter-sawn"
    )


def missing_sizes(one: Component) -> tuple[str, ...]:
    """Name the finished sizes that a part still lacks.

    Args:
        one: the part.

    Returns:
        Names of sizes of its shape; of a part of no shape only its length is asked.

    Source: this project.

    Example:
        >>> missing_sizes(Component("P1", "Leg", size=Size("round", Length.of_mm(400))))
        ('diameter',)
    """
    needed = {"block": ("length", "width", "thickness"), "round": ("length", "diameter"), "": ("length",)}
    return tuple(name for name in needed[one.size.shape] if getattr(one.size, name) is None)


def is_wood(one: Component) -> bool:
    """Say whether a part is of wood: by its material, or when that is not known by being cut from a board.

    Args:
        one: the part.

    Returns:
        True for solid wood and for sheets made of wood.

    Source: this project.
    """
    known = _known_wood(one.material)
    return one.stock == "board" if known is None else known


@lru_cache(maxsize=1024)
def _known_wood(material: str) -> bool | None:
    """Say whether a material is of wood; None where it is not known."""
    try:
        return find_material(material).is_wood
    except InputError:
        return None


Rough = tuple[float | None, float | None, float | None, float | None]


def rough_sizes(one: Component) -> tuple[Rough, str]:
    """Work out the sizes to cut a part out at.

    Args:
        one: the part.

    Returns:
        Length, width, thickness, diameter [mm] (None where the finished size is not known), and how they
        came about.

    Source: common practice.

    Example:
        >>> sizes = Size("block", Length.of_mm(400), Length.of_mm(40), Length.of_mm(20))
        >>> rough_sizes(Component("P1", "Rail", material="oak", stock="board", size=sizes))[0]
        (412.0, 46.0, 25.0, None)
    """
    own, size = one.rough or Size(), one.size
    add, basis = _allowances(one)
    if own != Size():
        basis = "as stated"
        if any(getattr(own, name) is None and getattr(size, name) is not None for name in _NAMES):
            basis = "as stated; what is not stated, as usual"
    found = tuple(
        stated.mm if stated is not None else (finished.mm + extra if finished is not None else None)
        for stated, finished, extra in zip(_sizes(own), _sizes(size), add, strict=True)
    )
    return (found[0], found[1], found[2], found[3]), basis


_NAMES = ("length", "width", "thickness", "diameter")


def _sizes(size: Size) -> tuple[Length | None, ...]:
    return tuple(getattr(size, name) for name in _NAMES)


def _allowances(one: Component) -> tuple[tuple[float, float, float, float], str]:
    """What is added to length, width, thickness and diameter, and the words for it."""
    if one.stock == "board":
        add = (WOOD_LENGTH_MM, WOOD_WIDTH_MM, 2 * WOOD_FACE_MM, 0.0)
        return add, "length + 12, width + 6, thickness + 2.5 for each face (common practice)"
    if one.stock in ("bar", "tube", "turned"):
        if is_wood(one):
            return (WOOD_LENGTH_MM, 0.0, 0.0, 0.0), "length + 12 (common practice)"
        return (2 * METAL_END_MM, 0.0, 0.0, 0.0), "length + 1.5 at each end (common practice)"
    return (0.0, 0.0, 0.0, 0.0), "as finished"
