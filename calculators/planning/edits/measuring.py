"""Stock on the rack: what is cut from it, and what follows when a piece is not what its name says."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from calculators.planning.edits.records import find
from calculators.planning.model import Build, Component, Size, Stock
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length

Gauge = Literal["thickness", "diameter"]
"""The size by which stock is called, and which is measured."""


@dataclass(frozen=True, slots=True)
class Measured:
    """What measuring a piece came to: the build, and the marks of the parts that are of its size now."""

    build: Build
    parts: tuple[str, ...]


def gauge_of(stock: Stock) -> Gauge:
    """Say which size of a piece is measured.

    Args:
        stock: the piece.

    Returns:
        `diameter` of a round bar or tube, else `thickness`.

    Source: this project.

    Example:
        >>> gauge_of(Stock("S1", "18 mm ply", thickness=Length.of_mm(18)))
        'thickness'
    """
    return "diameter" if stock.diameter is not None and stock.thickness is None else "thickness"


def measure_stock(build: Build, mark: str, length: Length) -> Measured:
    """Say what a piece measures: the piece and every part cut from it that had its old size get the new one.

    A part's size is changed where it was the piece's old size to the last digit: one that is planed thinner
    stays as it is. Grooves that were as wide as the old size stay as they are too: the check says which of
    them fit no longer.

    Args:
        build: the build.
        mark: the mark of the piece.
        length: its thickness, of a round its diameter.

    Returns:
        The build, and which parts changed.

    Raises:
        InputError: where there is no such piece, or the size is nought.

    Source: this project.

    Example:
        >>> ply = Stock("S1", "18 mm ply", thickness=Length.of_mm(18))
        >>> side = Component("P1", "Side", size=Size("block", thickness=Length.of_mm(18)), from_stock="S1")
        >>> build = Build("B1", "Box", components=(side,), stock=(ply,))
        >>> measure_stock(build, "S1", Length.of_mm(17.2)).build.components[0].size.thickness.mm
        17.2
    """
    stock: Stock = find(build, "stock", mark)
    gauge = gauge_of(stock)
    if length.ticks <= 0:
        raise InputError.of(f"The {gauge} of a piece is more than 0; write what it measures.", field="length")
    old: Length | None = getattr(stock, gauge)
    measured = (
        replace(stock, thickness=length, measured=True)
        if gauge == "thickness"
        else replace(stock, diameter=length, measured=True)
    )
    changed: list[str] = []
    components = []
    for one in build.components:
        new = _resized(one, gauge, old, length) if old and one.from_stock == stock.mark else one
        if new != one:
            changed.append(one.mark)
        components.append(new if new != one else one)
    after = replace(
        build,
        components=tuple(components) if changed else build.components,
        stock=tuple(measured if one is stock else one for one in build.stock),
    )
    return Measured(after, tuple(changed))


def _resized(one: Component, gauge: Gauge, old: Length, new: Length) -> Component:
    size = _with(one.size, gauge, old, new)
    made = _with(one.made_size, gauge, old, new) if one.made_size is not None else None
    return replace(one, size=size, made_size=made)


def _with(size: Size, gauge: Gauge, old: Length, new: Length) -> Size:
    now: Length | None = getattr(size, gauge)
    if now is None or now.ticks != old.ticks or now.ticks == new.ticks:
        return size
    return replace(size, thickness=new) if gauge == "thickness" else replace(size, diameter=new)


def cut_from(build: Build, mark: str, parts: tuple[str, ...]) -> Build:
    """Say which parts are cut from a piece of stock: these, and no others.

    Args:
        build: the build.
        mark: the mark of the piece.
        parts: the marks of the parts.

    Returns:
        The build; a part that was to be cut from another piece is cut from this one now.

    Raises:
        InputError: where there is no such piece or part.

    Source: this project.

    Example:
        >>> build = Build("B1", "Box", components=(Component("P1", "Lid"),), stock=(Stock("S1", "ply"),))
        >>> cut_from(build, "S1", ("P1",)).components[0].from_stock
        'S1'
    """
    stock: Stock = find(build, "stock", mark)
    by_fold = {one.mark.casefold(): one.mark for one in build.components}
    wanted = {find(build, "component", by_fold.get(name.casefold(), name)).mark for name in parts}
    return replace(
        build,
        components=tuple(
            replace(one, from_stock=stock.mark)
            if one.mark in wanted and one.from_stock != stock.mark
            else replace(one, from_stock="")
            if one.from_stock == stock.mark and one.mark not in wanted
            else one
            for one in build.components
        ),
    )


def could_be_cut(build: Build, stock: Stock) -> tuple[str, ...]:
    """Name the parts that are of a piece's material and thickness, and are cut from none yet.

    Args:
        build: the build.
        stock: the piece.

    Returns:
        Their marks, in the order of the build.

    Source: this project.
    """
    gauge = gauge_of(stock)
    size: Length | None = getattr(stock, gauge)
    material = _plain(stock.material)
    if size is None or not material:
        return ()
    found = []
    for one in build.components:
        now: Length | None = getattr(one.size, gauge)
        is_free = not one.from_stock and one.stock != "bought"
        if is_free and now is not None and now.ticks == size.ticks and _plain(one.material) == material:
            found.append(one.mark)
    return tuple(found)


def _plain(material: str) -> str:
    """Ply and plywood are the same."""
    return " ".join(material.casefold().replace("plywood", "ply").split())
