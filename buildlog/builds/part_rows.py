"""The parts of a build as rows of a table: the tree of sub-assemblies, and what a row can do next."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from buildlog.builds.listing import ROWS
from calculators.planning.edits import move_record
from calculators.planning.lines import write_part_line
from calculators.planning.lines.marks import is_group
from calculators.planning.model import Build, Component, Size, State
from calculators.planning.tree import total_quantity
from calculators.quantities.errors import InputError

DEEPEST = 5
"""Deeper than this a row is not set in any farther."""

LONGEST_NOTE = 60
"""A longer note is left out of the line; it is among the fields of the part's page."""

_MADE: dict[State, State] = {"planned": "released", "released": "made", "made": "fitted", "in hand": "fitted"}
_BOUGHT: dict[State, State] = {"planned": "bought", "bought": "in hand", "in hand": "fitted"}


@dataclass(frozen=True, slots=True)
class PartRow:
    """One component in the table; `depth` is how deep it lies in the tree, `total` how many there are."""

    component: Component
    total: int
    depth: int = 0
    members: int = 0

    @property
    def next_state(self) -> State | None:
        """The state that usually follows, for one press; None where none does."""
        one = self.component
        return (_BOUGHT if one.stock == "bought" else _MADE).get(one.state)

    @property
    def as_made(self) -> Size | None:
        """The sizes as made where one of them is not as it was meant."""
        made, size = self.component.made_size, self.component.size
        if made is None:
            return None
        for name in ("length", "width", "thickness", "diameter", "bore"):
            value, meant = getattr(made, name), getattr(size, name)
            if value is not None and (meant is None or meant.ticks != value.ticks):
                return made
        return None

    def words(self) -> list[str]:
        """What is searched."""
        one = self.component
        return [one.mark, one.name, one.parent, one.material, one.stock, one.state, one.revision, one.note]


def part_rows(build: Build) -> list[PartRow]:
    """Every component, each sub-assembly with its members behind it, in the order of the build."""
    members: dict[str, list[Component]] = {}
    for one in build.components:
        members.setdefault(one.parent, []).append(one)
    totals = total_quantity(build)
    rows: list[PartRow] = []
    waiting = [(one, 0) for one in reversed(members.get("", []))]
    while waiting:
        one, depth = waiting.pop()
        inside = members.get(one.mark, [])
        rows.append(PartRow(one, totals[one.mark], min(depth, DEEPEST), len(inside)))
        waiting += [(each, depth + 1) for each in reversed(inside)]
    return rows


ORDERS: dict[str, Callable[[PartRow], Any]] = {
    "mark": lambda row: row.component.mark,
    "name": lambda row: row.component.name.casefold(),
    "count": lambda row: row.total,
    "material": lambda row: row.component.material.casefold() or None,
    "length": lambda row: row.component.size.length.ticks if row.component.size.length else None,
    "state": lambda row: row.component.state,
}
"""The columns that the table can be ordered by."""


def line_of(build: Build, one: Component) -> str:
    """A component on its line, without a long note: what a line does not say stays as it is."""
    return write_part_line(replace(one, note="") if len(one.note) > LONGEST_NOTE else one, build)


def page_of(build: Build, mark: str) -> int:
    """The page of the tree that shows a component, from 1."""
    marks = [row.component.mark for row in part_rows(build)]
    return marks.index(mark) // ROWS + 1 if mark in marks else 1


def groups_of(build: Build) -> tuple[Component, ...]:
    """The sub-assemblies."""
    parents = {one.parent for one in build.components}
    return tuple(one for one in build.components if is_group(one, parents))


def move_part(build: Build, mark: str, to: str, before: str = "") -> Build:
    """Move a component among its fellows: `to` is `up`, `down` or `before` the mark named. InputError."""
    one = next((each for each in build.components if each.mark == mark), None)
    if one is None:
        raise InputError.of(f"There is no {mark} any more; nothing was moved.")
    fellows = [each.mark for each in build.components if each.parent == one.parent]
    at = fellows.index(mark)
    match to:
        case "up":
            if at == 0:
                raise InputError.of(f"{mark} stands first already.")
            return move_record(build, "component", mark, fellows[at - 1])
        case "down":
            if at == len(fellows) - 1:
                raise InputError.of(f"{mark} stands last already.")
            return move_record(build, "component", mark, fellows[at + 2] if at + 2 < len(fellows) else "")
        case "before" if before.strip():
            return move_record(build, "component", mark, _mark_like(build, before))
    raise InputError.of("Say before which part it is to stand, by its mark.", field="before")


def _mark_like(build: Build, typed: str) -> str:
    """A mark as it is written in the build, where it was typed in small letters."""
    folded = typed.strip().casefold()
    return next((one.mark for one in build.components if one.mark.casefold() == folded), typed.strip())


def ancestors_of(build: Build, one: Component) -> tuple[Component, ...]:
    """The sub-assemblies that a component is in, the outermost first."""
    here = {each.mark: each for each in build.components}
    found: list[Component] = []
    while one.parent in here:
        one = here[one.parent]
        found.append(one)
    return tuple(reversed(found))
