"""What is wrong in a part, in red in its views: a ring or a line, and words where there is room."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from calculators.drawing.lettering import text_width, wrap
from calculators.drawing.part_dimensions import LETTER_MM, PITCH
from calculators.drawing.part_room import Room
from calculators.drawing.part_strokes import lines
from calculators.drawing.plan_marks import PlanMark
from calculators.drawing.svg import LINES, RED, Box, lettering, number

if TYPE_CHECKING:
    from calculators.drawing.part_sheet import Cell

_LEAST_RING_MM, _WORDS_MM, _MOST_LINES, _SHY = 1.8, 32.0, 3, 3.0


def draw_red(cell: Cell, marks: Sequence[PlanMark], room: Room, sheet: Box) -> list[str]:
    """Draw marks over a view; words for which there is no room stand beside the drawing alone.

    Args:
        cell: the view where it stands.
        marks: the marks, in its face's u and v.
        room: what is taken already; rings and words are taken too.
        sheet: the box that words keep to [mm].

    Returns:
        The elements.

    Source: this project.
    """
    rings: list[tuple[PlanMark, tuple[float, float], float]] = []
    body: list[str] = []
    for mark in marks:
        x, y = cell.at(mark.u_mm, mark.v_mm)
        radius = max(mark.radius_mm * cell.scale, _LEAST_RING_MM)
        body.append(
            f'<circle class="red" cx="{number(x, 3)}" cy="{number(y, 3)}" r="{number(radius, 3)}" '
            f'fill="none" {LINES["finding"]}/>'
        )
        room.take((x - radius, y - radius, x + radius, y + radius), soft=True)
        if mark.to is not None:
            line = [(x, y), cell.at(*mark.to)]
            body.append(lines([line], "finding"))
            room.take_line(line, soft=True)
        rings.append((mark, (x, y), radius))
    for mark, at, radius in rings:
        if mark.words:
            body += _words(mark.words, at, radius, room, sheet)
    return body


def _words(words: str, at: tuple[float, float], radius: float, room: Room, sheet: Box) -> Iterator[str]:
    told = wrap(words, LETTER_MM, _WORDS_MM, most=_MOST_LINES)
    high = PITCH * LETTER_MM
    wide = max(text_width(line, LETTER_MM) for line in told) + 0.4
    box = room.beside(at, radius + 0.8, (wide, high * len(told)), sheet, rings=12, shy=_SHY)
    if box is None:
        return
    room.take(box)
    end = (min(max(at[0], box[0]), box[2]), min(max(at[1], box[1]), box[3]))
    away = math.dist(end, at)
    if away > radius + 1.5:
        share = radius / away
        start = (at[0] + (end[0] - at[0]) * share, at[1] + (end[1] - at[1]) * share)
        (x, y), (to_x, to_y) = start, end
        room.take_line([start, end], soft=True)
        yield (
            f'<path class="red" d="M{number(x)} {number(y)}L{number(to_x)} {number(to_y)}" stroke="{RED}" '
            f'stroke-width="0.25"/>'
        )
    for row, line in enumerate(told):
        yield lettering(box[0] + 0.2, box[1] + row * high + 0.9 * LETTER_MM, line, LETTER_MM, ink="finding")
