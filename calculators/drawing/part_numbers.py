"""The numbers of holes beside them, where they overprint neither words nor the outline."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calculators.drawing.lettering import text_width
from calculators.drawing.part_dimensions import LETTER_MM
from calculators.drawing.part_room import Room
from calculators.drawing.part_shape import PartShape
from calculators.drawing.part_strokes import lines
from calculators.drawing.svg import INK, Box, Point, number

if TYPE_CHECKING:
    from calculators.drawing.part_sheet import Cell


def write_numbers(part: PartShape, cell: Cell, room: Room, sheet: Box) -> tuple[list[str], list[int]]:
    """Write the numbers of the holes that a view names.

    Args:
        part: the part.
        cell: the view where it stands.
        room: what is taken already; the numbers are taken too.
        sheet: the box that they keep to [mm].

    Returns:
        The elements, and the numbers for which there is no room.

    Source: this project.
    """
    body: list[str] = []
    left_out: list[int] = []
    reach = {hole.number: max(hole.outer_mm, hole.slot_length_mm) / 2 for _, hole in part.holes()}
    for hole, (u, v) in cell.view.own.items():
        x, y = cell.at(u, v)
        out = max(reach.get(hole, 0.0) * cell.scale, 0.5) * 0.75 + 0.6
        size = (text_width(str(hole), LETTER_MM) + 0.3, LETTER_MM)
        box = room.beside((x, y), out, size, sheet)
        if box is None:
            left_out.append(hole)
            continue
        room.take(box)
        middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
        near = (min(max(x, box[0]), box[2]), min(max(y, box[1]), box[3]))
        if ((near[0] - x) ** 2 + (near[1] - y) ** 2) ** 0.5 > out * 1.42 + 1.2:
            body.append(lines([[near, _rim((x, y), near, reach.get(hole, 0.0) * cell.scale)]], "leader"))
        body.append(
            f'<text class="hole-number" data-hole="{hole}" x="{number(middle[0], 3)}" '
            f'y="{number(middle[1] + 0.35 * LETTER_MM, 3)}" font-size="{LETTER_MM}" text-anchor="middle" '
            f'fill="{INK}" stroke="none">{hole}</text>'
        )
    return body, left_out


def _rim(centre: Point, towards: Point, radius: float) -> Point:
    """The point of a hole's rim towards its number."""
    away = max(((towards[0] - centre[0]) ** 2 + (towards[1] - centre[1]) ** 2) ** 0.5, 1e-6)
    share = min(radius / away, 1.0)
    return centre[0] + (towards[0] - centre[0]) * share, centre[1] + (towards[1] - centre[1]) * share
