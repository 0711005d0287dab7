"""Writing what a line can say of a part, so that it reads back."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from calculators.planning.lines.known import Known
from calculators.planning.lines.line import in_quotes
from calculators.planning.lines.measures import written
from calculators.planning.lines.outlines import LONGEST_CLAUSE, same_outline, write_outline_line
from calculators.planning.lines.part_sizes import thickness_comes_first
from calculators.planning.lines.parts import part_from
from calculators.planning.model import (
    Build,
    Component,
    Size,
    Unit,
)
from calculators.planning.outlining import component_faults
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length

_STATES = {"planned": "", "bought": "on order"}


def write_part_line(component: Component, build: Build) -> str:
    """Write a part on one line; poses, holes, pockets, sizes as made and rough sizes are not said in it.

    Nor is an outline of more than 300 characters, which stays as it is where the line is read again.

    Args:
        component: the part.
        build: the build it is of.

    Returns:
        The line; `read_part_line` gives those fields again. A note of several lines is left out.

    Source: this project.

    Example:
        >>> mm = lambda size: Length(size * 10_000_000, str(size))
        >>> size = Size("block", mm(300), mm(120), mm(12))
        >>> side = Component("P01", "Side", quantity=4, material="oak", stock="board", size=size)
        >>> write_part_line(side, Build("B1", "Box"))
        'P01 Side, 300 x 120 x 12, oak board, 4 off'
    """
    parent = next((one for one in build.components if one.mark == component.parent), None)
    known = Known(
        replace(
            build, components=(replace(parent, parent=""),) if parent is not None else (), joints=(), steps=()
        )
    )

    def says(text: str) -> bool:
        return _same_part(part_from(text, known), component)

    safe = (False, True)
    return first_that_says([_part_text(component, build.unit, each) for each in safe], says)


def first_that_says(texts: Iterable[str], says: Callable[[str], bool]) -> str:
    """Give the first of some writings that reads back, else the last.

    Args:
        texts: the writings.
        says: whether a writing reads back; it may raise `InputError`.

    Returns:
        The writing.

    Source: this project.
    """
    text = ""
    for text in texts:
        try:
            if says(text):
                return text
        except InputError:
            continue
    return text


def _part_text(one: Component, unit: Unit, safe: bool) -> str:
    name = in_quotes(one.name) if safe else one.name
    clauses = [name, *_size_clauses(one.size, None if safe else unit)]
    stock = "" if one.stock == "bought" else one.stock
    if safe:
        clauses.append(f"material {in_quotes(one.material)}" if one.material else "")
        clauses.append(f"stock {stock}" if stock else "")
    else:
        clauses.append(f"{one.material} {stock}".strip())
    clauses += [
        f"{one.quantity} off" if one.quantity != 1 else "",
        f"corner radius {written(one.corner_radius, None if safe else unit)}"
        if one.corner_radius is not None
        else "",
        outline_clause(one, None if safe else unit),
        {"quarter": "quarter-sawn", "flat": "flat-sawn"}.get(one.grain_cut, ""),
        f"in {one.parent}" if one.parent else "",
        f"rev {in_quotes(one.revision) if safe else one.revision}" if one.revision else "",
        "bought" if one.stock == "bought" else "",
        ("state bought" if one.stock != "bought" else "on order")
        if one.state == "bought"
        else _STATES.get(one.state, one.state),
        "re-used" if one.reused else "",
        "stock not stated" if safe and not one.stock else "",
    ]
    line = ", ".join(clause for clause in clauses if clause)
    return f"{one.mark}{':' if safe else ''} {line}{note_text(one.note)}"


def outline_clause(one: Component, unit: Unit | None) -> str:
    """Write the outline of a part for its line.

    Args:
        one: the part.
        unit: [mm or in] the unit of the build; None where that is not known.

    Returns:
        The clause; nothing for a part without an outline, for one that is too long, or that would not read
        back.

    Source: this project.
    """
    text = write_outline_line(one.outline, unit)
    return text if len(text) <= LONGEST_CLAUSE and not component_faults(one) else ""


def note_text(note: str) -> str:
    r"""Write a note behind its sign; one that would not read back the same is left out.

    Args:
        note: the note.

    Returns:
        Such as ` # glue first`, or nothing.

    Source: this project.

    Example:
        >>> note_text("glue first"), note_text("two\nlines")
        (' # glue first', '')
    """
    plain = " ".join(note.split()) == note and note.isprintable()
    return f" # {note}" if note and plain else ""


def _size_clauses(size: Size, unit: Unit | None) -> list[str]:
    def one(length: Length | None, label: str) -> str:
        return f"{written(length, unit)}{label}" if length is not None else ""

    if not size.shape:
        return []
    if size.shape == "block":
        whole = all((size.length, size.width, size.thickness)) and not _thickness_first(size)
        labels = ("", "", "") if whole else (" long", " wide", " thick")
        parts = [
            one(length, label)
            for length, label in zip((size.length, size.width, size.thickness), labels, strict=True)
        ]
        return [" x ".join(part for part in parts if part) or "block"]
    bore = f"bore {written(size.bore, unit)}" if size.bore is not None else ""
    if size.diameter is None:
        return ["round", *(part for part in (bore, one(size.length, " long")) if part)]
    first = " ".join(part for part in (one(size.diameter, " dia"), bore) if part)
    return [
        " x ".join(
            part
            for part in (first, one(size.length, "" if not size.bore or unit is not None else " long"))
            if part
        )
    ]


def _thickness_first(size: Size) -> bool:
    """Whether a block's three sizes would be read in another order than they are in."""
    if size.length is None or size.width is None or size.thickness is None:
        return False
    return thickness_comes_first(size.length, size.width, size.thickness)


def _same_part(found: Component, wanted: Component) -> bool:
    names = (
        "mark",
        "name",
        "parent",
        "quantity",
        "material",
        "stock",
        "grain_cut",
        "state",
        "revision",
        "reused",
    )
    same = all(getattr(found, name) == getattr(wanted, name) for name in names)
    note = not note_text(wanted.note) or found.note == wanted.note
    return (
        same
        and note
        and same_size(found.size, wanted.size)
        and same_length(found.corner_radius, wanted.corner_radius)
        and (not found.outline or same_outline(found.outline, wanted.outline))
    )


def same_length(first: Length | None, second: Length | None) -> bool:
    """Say whether two lengths are the same, however they are written.

    Args:
        first: one.
        second: the other.

    Returns:
        True when they are, or both are None.

    Source: this project.
    """
    return (first.ticks if first is not None else None) == (second.ticks if second is not None else None)


def same_size(first: Size, second: Size) -> bool:
    """Say whether two sizes are the same as far as a line can say them; those of no shape cannot be said.

    Args:
        first: one.
        second: the other.

    Returns:
        True when they are.

    Source: this project.
    """
    if not first.shape and not second.shape:
        return True
    names = ("length", "width", "thickness") if first.shape == "block" else ("length", "diameter", "bore")
    return first.shape == second.shape and all(
        same_length(getattr(first, name), getattr(second, name)) for name in names
    )
