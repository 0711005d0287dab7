"""Loose lines and arcs joined end to end into closed outlines, and what stays open told with its gaps."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from calculators.geometry.outlines import Outline, Point2, Vertex, arc_of, area

NEAR_MM = 0.01
"""Ends that are no farther from each other meet [mm]."""

_MOST_COMPARED = 400
"""Of more open ends than these the nearest neighbours are not looked for."""


@dataclass(frozen=True, slots=True)
class OpenPath:
    """Lines and arcs that do not close [mm].

    `gap_mm` is how far its end is from the nearest open end, None where that is not known; `meeting` how many
    lines meet where it could not go on, when more than two do.
    """

    vertices: tuple[Vertex, ...]
    gap_mm: float | None = None
    meeting: int = 0

    @property
    def ends(self) -> tuple[Point2, Point2]:
        """Where it begins and ends [mm]."""
        first, last = self.vertices[0], self.vertices[-1]
        return (first.x, first.y), (last.x, last.y)


@dataclass(frozen=True, slots=True)
class Joined:
    """What came of joining [mm]: closed outlines anticlockwise, open paths, and how much was drawn twice."""

    closed: tuple[Outline, ...] = ()
    open: tuple[OpenPath, ...] = ()
    twice: int = 0
    without_length: int = 0


def joined(paths: Iterable[Sequence[Vertex]], near_mm: float = NEAR_MM) -> Joined:
    """Join open paths end to end.

    Where exactly two ends meet they are joined. Where more meet it is not known which belong together, and
    the paths stay open there.

    Args:
        paths: open paths, the bulge of whose last vertex says nothing.
        near_mm: [mm] how near ends that meet must be, above 0.

    Returns:
        The closed outlines and the open paths.

    Source: this project.

    Example:
        >>> corner = [Vertex(0, 0), Vertex(10, 0), Vertex(10, 10)]
        >>> len(joined([corner, [Vertex(10, 10), Vertex(0, 0)]]).closed)
        1
    """
    pool = _Pool(near_mm)
    for one in paths:
        pool.add(tuple(one))
    closed, left = pool.walk()
    return Joined(
        tuple(anticlockwise(one) for one in closed), _with_gaps(left), pool.twice, pool.without_length
    )


def anticlockwise(outline: Outline) -> Outline:
    """Give a closed outline so that it goes round anticlockwise.

    Args:
        outline: a closed outline.

    Returns:
        The outline or its reverse, with the same first vertex.

    Source: geometry.

    Example:
        >>> anticlockwise((Vertex(0, 0), Vertex(0, 1), Vertex(1, 0)))[1]
        Vertex(x=1, y=0, bulge=0.0)
    """
    if area(outline) >= 0:
        return outline
    back = backwards((*outline, outline[0]))
    return back[:-1]


def backwards(path: Sequence[Vertex]) -> tuple[Vertex, ...]:
    """Give an open path from its end to its beginning.

    Args:
        path: the vertices; the bulge of the last one says nothing.

    Returns:
        The vertices in reverse, each arc with its bulge turned round.

    Source: geometry.

    Example:
        >>> backwards((Vertex(0, 0, 1.0), Vertex(2, 0)))
        (Vertex(x=2, y=0, bulge=-1.0), Vertex(x=0, y=0, bulge=0.0))
    """
    bulges = [-one.bulge or 0.0 for one in path[-2::-1]]
    return tuple(
        Vertex(one.x, one.y, bulge) for one, bulge in zip(reversed(path), (*bulges, 0.0), strict=True)
    )


class Places:
    """Places that are told apart by their distance: each gets a number, and what lies near it the same one.

    `at` has the places by their numbers [mm].
    """

    def __init__(self, near_mm: float) -> None:
        self.near = near_mm
        self.cells: dict[tuple[int, int], list[int]] = defaultdict(list)
        self.at: list[Point2] = []

    def number_of(self, x: float, y: float) -> int:
        """The number of the nearest place within reach, or a new one."""
        found = self.known(x, y)
        if found is None:
            self.at.append((x, y))
            found = len(self.at) - 1
            self.cells[math.floor(x / self.near), math.floor(y / self.near)].append(found)
        return found

    def known(self, x: float, y: float) -> int | None:
        """The number of the nearest place within reach; None where there is none."""
        column, row = math.floor(x / self.near), math.floor(y / self.near)
        best, least = None, self.near
        for cell in ((column + i, row + j) for i in (-1, 0, 1) for j in (-1, 0, 1)):
            for number in self.cells.get(cell, ()):
                away = math.dist(self.at[number], (x, y))
                if away <= least:
                    best, least = number, away
        return best


class _Pool:
    """Paths by the places where they end."""

    def __init__(self, near_mm: float) -> None:
        self.near = near_mm
        self.places = Places(near_mm)
        self.paths: list[tuple[Vertex, ...]] = []
        self.ends: list[tuple[int, int]] = []
        self.at: dict[int, list[int]] = defaultdict(list)
        self.known: set[tuple[int, ...]] = set()
        self.twice = self.without_length = 0

    def add(self, path: tuple[Vertex, ...]) -> None:
        """Add a path, unless it has no length or is there already."""
        first, last = (self.places.number_of(one.x, one.y) for one in (path[0], path[-1]))
        ends = (first, last)
        middle = _middle(path)
        if ends[0] == ends[1] and len(path) < 3 and math.dist(middle, self.places.at[ends[0]]) <= self.near:
            self.without_length += 1
            return
        key = (*sorted(ends), len(path), *(round(value / self.near) for value in middle))
        if key in self.known:
            self.twice += 1
            return
        self.known.add(key)
        number = len(self.paths)
        self.paths.append(path)
        self.ends.append(ends)
        self.at[ends[0]].append(number)
        self.at[ends[1]].append(number)

    def walk(self) -> tuple[list[Outline], list[OpenPath]]:
        """Follow the paths from place to place."""
        used = [False] * len(self.paths)
        closed: list[Outline] = []
        left: list[OpenPath] = []
        # First from the places where paths stop, so that what is left then can only be closed.
        stops = [i for i, ends in enumerate(self.ends) if any(len(self.at[end]) != 2 for end in ends)]
        for number in (*stops, *range(len(self.paths))):
            if used[number]:
                continue
            chain, end = self._follow(number, used)
            first = self.first_of(number)
            one, two = self.ends[number]
            if end == first and (len(self.at[end]) == 2 or one == two):
                closed.append(chain[:-1])
            else:
                left.append(OpenPath(chain, None, max(len(self.at[end]), len(self.at[first]))))
        return closed, left

    def first_of(self, number: int) -> int:
        """The place from which a walk along a path begins: one where it stops, if there is one."""
        one, two = self.ends[number]
        return two if len(self.at[one]) == 2 and len(self.at[two]) != 2 else one

    def _follow(self, number: int, used: list[bool]) -> tuple[tuple[Vertex, ...], int]:
        """Walk on from a path until a place where paths stop, or the beginning, is reached."""
        place = first = self.first_of(number)
        chain: list[Vertex] = []
        while True:
            used[number] = True
            path = self.paths[number]
            one, two = self.ends[number]
            if one != place:
                path, one, two = backwards(path), two, one
            x, y = self.places.at[place]
            chain.append(Vertex(x, y, path[0].bulge))
            chain.extend(path[1:-1])
            place = two
            if place == first or len(self.at[place]) != 2:
                break
            following = next((each for each in self.at[place] if not used[each]), None)
            if following is None:
                break
            number = following
        x, y = self.places.at[place]
        chain.append(Vertex(x, y))
        return tuple(chain), place


def _middle(path: Sequence[Vertex]) -> Point2:
    """A point on the middle piece of a path, which tells paths with like ends apart."""
    at = (len(path) - 1) // 2
    one, two = path[at], path[at + 1] if at + 1 < len(path) else path[at]
    arc = arc_of(one, two)
    if arc is None:
        return (one.x + two.x) / 2, (one.y + two.y) / 2
    turn = math.radians(arc.first_deg + arc.turn_deg / 2)
    return arc.centre[0] + arc.radius * math.cos(turn), arc.centre[1] + arc.radius * math.sin(turn)


def _with_gaps(left: list[OpenPath]) -> tuple[OpenPath, ...]:
    """Tell of each open path how far its end is from the nearest other end."""
    ends = [(i, end) for i, one in enumerate(left) for end in one.ends]
    if len(ends) > _MOST_COMPARED:
        return tuple(left)
    found = []
    for i, one in enumerate(left):
        away = [
            math.dist(own, other)
            for own_at, own in enumerate(one.ends)
            for k, (j, other) in enumerate(ends)
            if k != 2 * i + own_at and (j != i or len(one.vertices) > 2)
        ]
        gap = min((each for each in away if each > 0), default=None)
        found.append(OpenPath(one.vertices, gap, one.meeting if one.meeting > 2 else 0))
    return tuple(found)
