"""What stands about a view: its name, running dimensions on leaders, diameters, what is said of holes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from calculators.drawing.lettering import text_width
from calculators.drawing.part_dimensions import KINK_MM, LETTER_MM, PITCH
from calculators.drawing.part_room import Room
from calculators.drawing.part_shape import PartShape
from calculators.drawing.part_strokes import lines
from calculators.drawing.svg import BLUE, INK, Point, lettering, number

if TYPE_CHECKING:
    from calculators.drawing.part_sheet import Cell

_BASE = 0.35
"""From the middle of the type to its base line, in sizes."""


def write_dimensions(part: PartShape, cell: Cell, room: Room, *, title: str, cutting: bool) -> list[str]:
    """Write what stands about a view.

    Args:
        part: the part.
        cell: the view where it stands.
        room: what is written is taken here.
        title: the view's name.
        cutting: whether the line of the section goes across this view.

    Returns:
        The elements.

    Source: ISO 129-1 (running dimensions, leaders; from memory).
    """
    above = 9.0 if cutting and not cell.aside else 0.0
    return [
        *_title(part, cell, title, room, above),
        *_along(cell, room, 9.0 if cutting and not cell.aside else 0.0),
        *_up(cell, room),
        *_rounds(cell, room),
        *_called(cell, room),
    ]


def _title(part: PartShape, cell: Cell, title: str, room: Room, above: float) -> Iterator[str]:
    x, y = cell.x, cell.y - 4.0 - above
    wide = text_width(title, 3.0)
    room.take((x, y - 2.6, x + wide, y + 0.7))
    yield lettering(x, y, title, 3.0)
    if part.grain and abs(cell.view.frame.u_axis[0]) > 0.5:
        left, middle = x + wide + 2.0, y - 1.0
        right = left + 8.0
        heads = [
            [(end + way * 1.6, middle - 0.7), (end, middle), (end + way * 1.6, middle + 0.7)]
            for end, way in ((left, 1), (right, -1))
        ]
        yield lines([[(left, middle), (right, middle)], *heads], "thin", fine="grain-arrow")
        word = text_width("grain", LETTER_MM)
        room.take((left, y - 2.6, right + 1.0 + word, y + 0.7))
        yield lettering(right + 1.0, y, "grain", LETTER_MM, ink="soft")


def _along(cell: Cell, room: Room, past: float) -> Iterator[str]:
    """The figures below the view, read from the right, each on its leader."""
    bottom = cell.y + cell.high
    for one in cell.dimensions.along:
        x, to = cell.x + one.at, cell.x + one.stands
        start = bottom - one.begins if one.begins > 0.01 else bottom + 0.8
        leader = [(x, start), (x, bottom + past + 1.6), (to, bottom + past + KINK_MM - 1.8)]
        leader.append((to, bottom + past + KINK_MM - 0.4))
        yield lines([leader], "dimension")
        room.take_line(leader, soft=True, half=0.15)
        top = bottom + past + KINK_MM
        wide = text_width(one.says, LETTER_MM)
        room.take((to - 0.5 * LETTER_MM, top, to + 0.5 * LETTER_MM, top + wide))
        yield lettering(
            to + _BASE * LETTER_MM, top, one.says, LETTER_MM, ink="dimension", anchor="end", turn=True
        )
        if one.says == "0":
            yield _datum((x, bottom + past + 1.6))


def _up(cell: Cell, room: Room) -> Iterator[str]:
    """The figures to the left of the view."""
    bottom, left = cell.y + cell.high, cell.x - cell.aside
    for one in cell.dimensions.up:
        y, to = bottom - one.at, bottom - one.stands
        start = cell.x + one.begins if one.begins > 0.01 else cell.x - 0.8
        leader = [(start, y), (left - 1.6, y), (left - KINK_MM + 1.8, to), (left - KINK_MM + 0.4, to)]
        yield lines([leader], "dimension")
        room.take_line(leader, soft=True, half=0.15)
        wide = text_width(one.says, LETTER_MM)
        right = left - KINK_MM
        room.take((right - wide, to - 0.5 * LETTER_MM, right, to + 0.5 * LETTER_MM))
        yield lettering(right, to + _BASE * LETTER_MM, one.says, LETTER_MM, ink="dimension", anchor="end")
        if one.says == "0":
            yield _datum((cell.x - 1.6, y))


def _datum(at: Point) -> str:
    """The origin of running dimensions: a small ring."""
    return (
        f'<circle class="origin" cx="{number(at[0])}" cy="{number(at[1])}" r="0.8" fill="none" '
        f'stroke="{BLUE}" stroke-width="0.3"/>'
    )


def _rounds(cell: Cell, room: Room) -> Iterator[str]:
    """The diameters of a round part seen from the side, on lines of their own to the left."""
    middle = cell.y + cell.high / 2
    for place, (diameter, says) in enumerate(reversed(cell.dimensions.rounds)):
        x = cell.x - 6.0 - 7.0 * place
        half = diameter / 2 * cell.scale
        ends = (middle - half, middle + half)
        yield lines([[(cell.x - 0.8, y), (x - 1.0, y)] for y in ends], "dimension")
        out = 0.0 if half > 3.0 else 3.0  # where it is too short for arrows they point in from outside
        yield lines([[(x, ends[0] - out), (x, ends[1] + out)]], "dimension")
        for y, way in ((ends[0], 1), (ends[1], -1)):
            head = -way if out else way
            yield lines([[(x - 0.5, y + head * 1.6), (x, y), (x + 0.5, y + head * 1.6)]], "dimension")
        wide = text_width(says, LETTER_MM)
        room.take((x - 1.0 - LETTER_MM, middle - wide / 2, x - 0.6, middle + wide / 2))
        yield lettering(x - 1.0, middle, says, LETTER_MM, ink="dimension", anchor="middle", turn=True)


def _called(cell: Cell, room: Room) -> Iterator[str]:
    """Words to the right of the view, each with a leader to what it names."""
    bottom = cell.y + cell.high
    said = cell.dimensions
    if not said.called:
        return
    wide = max(text_width(line, LETTER_MM) for one in said.called for line in one.lines)
    x = cell.x + cell.wide + cell.right - wide
    for one in said.called:
        to = (cell.x + one.to[0], bottom - one.to[1])
        middle = bottom - one.stands
        leader = [to, (x - 4.0, middle), (x - 1.0, middle)]
        yield lines([leader], "leader")
        yield f'<circle cx="{number(to[0])}" cy="{number(to[1])}" r="0.45" fill="{INK}"/>'
        room.take_line(leader, soft=True, half=0.2)
        high = PITCH * LETTER_MM
        top = middle - high * len(one.lines) / 2
        for row, line in enumerate(one.lines):
            box = (x, top + row * high, x + text_width(line, LETTER_MM), top + (row + 1) * high)
            room.take(box)
            yield lettering(x, box[1] + 0.78 * LETTER_MM + 0.12 * LETTER_MM, line, LETTER_MM)
