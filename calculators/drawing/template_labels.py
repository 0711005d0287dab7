"""Words beside the holes of a template: near them, over no line or other word, else shorter, else none."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from calculators.drawing.lettering import text_width
from calculators.drawing.svg import Box, Point

LETTER_MM = 2.9
LINE = 1.2
_CELL_MM = 6.0
_ROOM_MM = 0.5
_STEP_MM = 1.0
_FAR_MM = 2.2
_WAYS = ((1, -1), (1, 1), (-1, -1), (-1, 1), (0, -1), (0, 1), (1, 0), (-1, 0))
_RINGS = (0.0, 1.5, 4.0, 8.0, 13.0, 19.0, 26.0)


@dataclass
class Room:
    """What is taken of a page: boxes in a grid, so that a question looks at near ones alone.

    Args:
        within: words keep inside this box [mm on the page].

    Source: this project.
    """

    within: Box
    _boxes: dict[tuple[int, int], list[Box]] = field(default_factory=lambda: defaultdict(list))
    _firm: dict[tuple[int, int], list[Box]] = field(default_factory=lambda: defaultdict(list))

    def take(self, box: Box, *, firm: bool = True) -> None:
        """Say that a box is taken; over what is not firm (a line of the part) a leader may pass."""
        for cell in _cells(box):
            self._boxes[cell].append(box)
            if firm:
                self._firm[cell].append(box)

    def take_line(self, start: Point, end: Point, half: float = 0.4, *, firm: bool = False) -> None:
        """Say that a straight line is taken, in steps of a millimetre; only what is inside counts."""
        part = _inside(start, end, self.within)
        if part is None:
            return
        start, end = part
        steps = max(1, math.ceil(math.dist(start, end) / _STEP_MM))
        for i in range(steps + 1):
            x = start[0] + (end[0] - start[0]) * i / steps
            y = start[1] + (end[1] - start[1]) * i / steps
            self.take((x - half, y - half, x + half, y + half), firm=firm)

    def is_free(self, box: Box) -> bool:
        """Whether a box is inside and meets nothing that is taken."""
        w = self.within
        if box[0] < w[0] or box[1] < w[1] or box[2] > w[2] or box[3] > w[3]:
            return False
        return not any(_meet(box, one) for cell in _cells(box) for one in self._boxes.get(cell, ()))

    def is_passable(self, box: Box) -> bool:
        """Whether a leader may pass through a box."""
        return not any(_meet(box, one) for cell in _cells(box) for one in self._firm.get(cell, ()))


@dataclass(frozen=True, slots=True)
class Label:
    """Words to be written about a point: `choices` from the fullest to the least, each of lines.

    The least is taken only where no other finds room, however far off.
    """

    at: Point
    reach: float
    choices: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Written:
    """Words with their place: the box [mm on the page] and, where they stand off, the leader to it."""

    lines: tuple[str, ...]
    box: Box
    leader: tuple[Point, Point] | None = None

    @property
    def baselines(self) -> Iterator[tuple[float, float, str]]:
        """Each line with where it begins."""
        for place, line in enumerate(self.lines):
            yield self.box[0] + _ROOM_MM, self.box[1] + LETTER_MM * (0.9 + LINE * place), line


def place_labels(labels: Sequence[Label], room: Room) -> tuple[list[Written], int]:
    """Find a place for words beside each point; what is written is taken in the room.

    Args:
        labels: what is to be written.
        room: what is taken by lines and other words.

    Returns:
        The words with their places, and how many labels found none.

    Source: this project.

    Example:
        >>> place_labels([Label((50, 50), 3, (("1", "M5"), ("1",)))], Room((0, 0, 100, 100)))[0][0].lines
        ('1', 'M5')
    """
    found: list[Written] = []
    for label in labels:
        written = _placed(label, room)
        if written is not None:
            room.take(written.box)
            if written.leader:
                room.take_line(*written.leader, half=0.3, firm=True)
            found.append(written)
    return found, len(labels) - len(found)


def _placed(label: Label, room: Room) -> Written | None:
    """The fullest words near by, or further off on a leader; then shorter words; at last the number alone."""
    *told, least = label.choices
    near, middle, far = _RINGS[:2], _RINGS[2:4], _RINGS[4:]
    tries = [(lines, rings) for rings in (near, middle, far) for lines in told]
    tries += [(least, rings) for rings in (near, middle, far)]
    for lines, rings in tries:
        for box in _places(label, lines, rings):
            if room.is_free(box):
                leader = _leader(label, box)
                if leader is None or _is_clear(leader, room):
                    return Written(lines, box, leader)
    return None


def _places(label: Label, lines: Sequence[str], rings: Iterable[float]) -> Iterator[Box]:
    wide = max(text_width(line, LETTER_MM) for line in lines) + 2 * _ROOM_MM
    high = LETTER_MM * (1.15 + LINE * (len(lines) - 1))
    x, y = label.at
    for ring in rings:
        out = label.reach + ring
        for dx, dy in _WAYS:
            # On a slant the corner of the box comes near the circle, not its middle.
            slant = 0.72 if dx and dy else 1.0
            cx = x + dx * (out * slant + wide / 2)
            cy = y + dy * (out * slant + high / 2)
            yield (cx - wide / 2, cy - high / 2, cx + wide / 2, cy + high / 2)


def _leader(label: Label, box: Box) -> tuple[Point, Point] | None:
    """The line from the rim to words that stand off."""
    x, y = label.at
    to = (min(max(x, box[0]), box[2]), min(max(y, box[1]), box[3]))
    away = math.dist(label.at, to)
    if away - label.reach < _FAR_MM:
        return None
    part = label.reach / away
    return (x + (to[0] - x) * part, y + (to[1] - y) * part), to


def _is_clear(leader: tuple[Point, Point], room: Room) -> bool:
    """Whether a leader passes through no words and no other hole."""
    (x, y), (to_x, to_y) = leader
    steps = max(2, math.ceil(math.dist(*leader) / _STEP_MM))
    for i in range(1, steps):
        px, py = x + (to_x - x) * i / steps, y + (to_y - y) * i / steps
        if not room.is_passable((px - 0.15, py - 0.15, px + 0.15, py + 0.15)):
            return False
    return True


def _cells(box: Box) -> Iterator[tuple[int, int]]:
    for i in range(math.floor(box[0] / _CELL_MM), math.floor(box[2] / _CELL_MM) + 1):
        for j in range(math.floor(box[1] / _CELL_MM), math.floor(box[3] / _CELL_MM) + 1):
            yield i, j


def _inside(start: Point, end: Point, box: Box) -> tuple[Point, Point] | None:
    """The part of a straight line that is inside a box."""
    first, last = 0.0, 1.0
    way = (end[0] - start[0], end[1] - start[1])
    for axis in (0, 1):
        low, high = box[axis] - start[axis], box[axis + 2] - start[axis]
        if abs(way[axis]) < 1e-12:
            if low > 0 or high < 0:
                return None
            continue
        one, other = sorted((low / way[axis], high / way[axis]))
        first, last = max(first, one), min(last, other)
    if first > last:
        return None
    x, y = start
    return (x + way[0] * first, y + way[1] * first), (x + way[0] * last, y + way[1] * last)


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
