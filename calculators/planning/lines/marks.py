"""The next free mark, in the manner in which a build's marks are written already."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from typing import Literal

from calculators.planning.model import Build, Calculation, Component, Joint, Size, Stock

MarkKind = Literal["part", "joint", "group", "calculation", "stock"]
_SERIES = re.compile(r"(?P<prefix>.*?)(?P<number>[0-9]{1,9})")
_FIRST = {"part": ("P", 2), "joint": ("F", 2), "group": ("G", 1), "calculation": ("K", 2), "stock": ("S", 1)}
_MOST_LETTERS = 10


class Marks:
    """The marks of a build by their kind: which prefix each kind uses, how wide its numbers are."""

    __slots__ = ("_highest", "_prefixes", "_width", "taken")

    def __init__(
        self,
        components: Iterable[Component],
        joints: Iterable[Joint],
        calculations: Iterable[Calculation] = (),
        stock: Iterable[Stock] = (),
    ) -> None:
        self.taken: set[str] = set()
        self._prefixes: dict[MarkKind, Counter[str]] = {
            "part": Counter(),
            "joint": Counter(),
            "group": Counter(),
            "calculation": Counter(),
            "stock": Counter(),
        }
        self._highest: dict[str, int] = {}
        self._width: dict[str, int] = {}
        components = tuple(components)
        parents = {one.parent for one in components}
        for one in components:
            self.add(one.mark, "group" if is_group(one, parents) else "part")
        for joint in joints:
            self.add(joint.mark, "joint")
        for kept in calculations:
            self.add(kept.mark, "calculation")
        for piece in stock:
            self.add(piece.mark, "stock")

    def add(self, mark: str, kind: MarkKind) -> None:
        """Take a mark into account."""
        self.taken.add(mark)
        found = _SERIES.fullmatch(mark)
        if found is None or len(found["prefix"]) > _MOST_LETTERS:
            return
        prefix, number = found["prefix"], found["number"]
        self._prefixes[kind][prefix] += 1
        if int(number) >= self._highest.get(prefix, -1):
            self._highest[prefix] = int(number)
            self._width[prefix] = len(number)

    def next(self, kind: MarkKind) -> str:
        """The next free mark of a kind."""
        used = self._prefixes[kind]
        prefix = max(used, key=lambda each: used[each], default=None)
        if prefix is None:
            prefix, width = _FIRST[kind]
            number = self._highest.get(prefix, 0)
        else:
            number, width = self._highest[prefix], self._width[prefix]
        while True:
            number += 1
            mark = f"{prefix}{number:0{width}d}"
            if mark not in self.taken:
                return mark


def is_group(one: Component, parents: Iterable[str]) -> bool:
    """Say whether a component is a sub-assembly: something is in it, or it has a group's mark and no sizes.

    Args:
        one: the component.
        parents: the marks that some component has as its parent.

    Returns:
        True for a sub-assembly.

    Source: this project.

    Example:
        >>> is_group(Component("G1", "Base"), set()), is_group(Component("P1", "Lid"), set())
        (True, False)
    """
    if one.mark in parents:
        return True
    bare = one.size == Size() and not one.material and not one.stock
    return bare and re.fullmatch(r"G-?[0-9]+", one.mark) is not None


def next_mark(build: Build, kind: MarkKind) -> str:
    """Give the next free mark, going on in the build's own manner.

    Args:
        build: the build.
        kind: `part`, `joint`, `group` (a sub-assembly), `calculation` or `stock`.

    Returns:
        The mark: the number after the highest of the prefix that most marks of this kind have; `P01`, `F01`,
        `G1`, `K01` or `S1` where there are none.

    Source: this project.

    Example:
        >>> two = (Component("A1", "Side"), Component("A2", "Base"))
        >>> next_mark(Build("B1", "Box", components=two), "part")
        'A3'
    """
    return Marks(build.components, build.joints, build.calculations, build.stock).next(kind)
