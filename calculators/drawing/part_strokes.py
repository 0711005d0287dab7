"""The lines of one view on the sheet: hatching, edges, holes, centre lines, folds, the line of a section."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from calculators.drawing.hatching import hatch
from calculators.drawing.part_holes import Stroke
from calculators.drawing.part_room import Room
from calculators.drawing.part_shape import PartShape
from calculators.drawing.svg import LINES, Point, lettering, number

if TYPE_CHECKING:
    from calculators.drawing.part_sheet import Cell

_KEPT_OFF = ("edge", "hidden", "centre")
"""Lines that numbers and words rather keep off."""

_PAST_MM = 1.5
"""How far centre lines go past what they are the middle of."""


def lines(strokes: Iterable[Sequence[Point]], line: str, *, closed: bool = False, fine: str = "") -> str:
    """Write lines as one path, to a ten-thousandth of a millimetre.

    Args:
        strokes: the lines' points [mm on the sheet].
        line: a line type of `svg.LINES`.
        closed: whether each closes.
        fine: words added to the class.

    Returns:
        The element, or nothing.

    Source: this project.
    """
    end = "Z" if closed else ""
    data = "".join(
        "M" + "L".join(f"{number(x, 4)} {number(y, 4)}" for x, y in one) + end
        for one in strokes
        if len(one) > 1
    )
    name = f"{line} {fine}".strip()
    return f'<path class="{name}" d="{data}" fill="none" {LINES[line]}/>' if data else ""


def draw_view(part: PartShape, cell: Cell, room: Room, *, cutting: bool) -> list[str]:
    """Draw the lines of a view.

    Args:
        part: the part.
        cell: the view where it stands.
        room: what is drawn is taken here.
        cutting: whether the line of the section goes across this view.

    Returns:
        The elements, in one group that says which view it is.

    Source: ISO 128 (line types; from memory).
    """
    view = cell.view
    body: list[str] = []
    if view.cut:
        manner = part.manners.get(view.face, "metal")
        body.append(hatch([_placed(cell, ring) for ring in view.cut.rings], manner))
    hidden = [_placed(cell, one) for one in view.edges.hidden]
    body.append(lines(hidden, "hidden"))
    for one in hidden:
        room.take_line(one, soft=True, half=0.1)
    outline = [_placed(cell, one) for one in view.edges.seen]
    body.append(lines(outline, "outline"))
    for one in outline:
        room.take_line(one)
    body += _holes(cell, room)
    if view.cut:
        body += _strokes(cell, view.cut.strokes, None)  # no number is written in a section
    body += _axes(part, cell, room)
    body += _folds(part, cell)
    if cutting:
        body += _cutting_line(cell, _cut_place(cell), room)
    inside = "".join(body)
    return [
        f'<g class="view" data-view="{view.face}" data-x="{number(cell.x, 4)}" data-y="{number(cell.y, 4)}" '
        f'data-scale="{cell.scale:g}">{inside}</g>'
    ]


def _placed(cell: Cell, points: Iterable[Point]) -> list[Point]:
    return [cell.at(u, v) for u, v in points]


def _holes(cell: Cell, room: Room) -> Iterator[str]:
    yield from _strokes(cell, cell.view.holes.strokes, room)
    for ring in cell.view.holes.rings:
        x, y = cell.at(*ring.centre)
        r = ring.diameter / 2 * cell.scale
        named = f' data-hole="{ring.number}"' if ring.number else ""
        kind = "hole" if ring.number else "circle"
        yield (
            f'<circle class="{kind} {ring.line}"{named} cx="{number(x, 5)}" cy="{number(y, 5)}" '
            f'r="{number(r, 5)}" fill="none" {LINES[ring.line]}/>'
        )
        if ring.line == "edge":
            room.take((x - r, y - r, x + r, y + r), soft=True)


def _strokes(cell: Cell, strokes: Iterable[Stroke], room: Room | None) -> Iterator[str]:
    by_line: dict[tuple[str, bool], list[list[Point]]] = defaultdict(list)
    for one in strokes:
        points = _placed(cell, one.points)
        if one.line == "centre":
            points = _longer(points)
        if one.line in _KEPT_OFF and room is not None:
            room.take_line(points, soft=True, half=0.2 if one.line == "edge" else 0.1)
        by_line[one.line, one.closed].append(points)
    for (line, closed), points_of in by_line.items():
        yield lines(points_of, line, closed=closed)


def _longer(points: list[Point]) -> list[Point]:
    (x, y), (to_x, to_y) = points
    long = max(((to_x - x) ** 2 + (to_y - y) ** 2) ** 0.5, 1e-6)
    dx, dy = (to_x - x) / long * _PAST_MM, (to_y - y) / long * _PAST_MM
    return [(x - dx, y - dy), (to_x + dx, to_y + dy)]


def _axes(part: PartShape, cell: Cell, room: Room) -> Iterator[str]:
    """The axis of a round part, or the cross at its end."""
    if not part.is_round:
        return
    (u, to_u), (v, to_v) = cell.view.frame.u_range, cell.view.frame.v_range
    drawn = [_longer([cell.at(u, 0.0), cell.at(to_u, 0.0)])]
    if cell.view.face in ("left", "right"):
        drawn.append(_longer([cell.at(0.0, v), cell.at(0.0, to_v)]))
    for one in drawn:
        room.take_line(one, soft=True, half=0.1)
    yield lines(drawn, "centre")


def _folds(part: PartShape, cell: Cell) -> Iterator[str]:
    if cell.view.face not in ("top", "bottom"):
        return
    (u, to_u), (v, to_v) = cell.view.frame.u_range, cell.view.frame.v_range
    for fold in part.folds:
        if fold.runs == "across":
            yield lines([[cell.at(fold.at_mm, v), cell.at(fold.at_mm, to_v)]], "fold")
        else:
            at = cell.view.frame.read((0.0, fold.at_mm, 0.0))[1]
            yield lines([[cell.at(u, at), cell.at(to_u, at)]], "fold")


def _cut_place(cell: Cell) -> tuple[float, float]:
    """Where the cutting line crosses the view, and which way the eye looks there: up or left is 1."""
    frame = cell.view.frame
    u, v, _ = frame.read((0.0, cell.cut_y, 0.0))
    if cell.view.face in ("top", "bottom"):
        return v, frame.v_axis[1]
    return u, frame.u_axis[1]


def _cutting_line(cell: Cell, place: tuple[float, float], room: Room) -> Iterator[str]:
    """Thin across the view, thick at both ends, arrows the way the eye looks, a letter at each."""
    at, way = place
    if cell.view.face in ("top", "bottom"):
        y = cell.at(0.0, at)[1]
        ends = [(cell.x - 5.0, y), (cell.x + cell.wide + 5.0, y)]
        step = (0.0, -way)
        thick = [[ends[0], (cell.x - 1.5, y)], [(cell.x + cell.wide + 1.5, y), ends[1]]]
    else:
        x = cell.at(at, 0.0)[0]
        ends = [(x, cell.y - 5.0), (x, cell.y + cell.high + 5.0)]
        step = (way, 0.0)
        thick = [[ends[0], (x, cell.y - 1.5)], [(x, cell.y + cell.high + 1.5), ends[1]]]
    yield lines([ends], "centre")
    yield lines(thick, "outline", fine="cutting")
    for one in thick:
        room.take_line(one)
    for x, y in ends:
        tip = (x + step[0] * 4.0, y + step[1] * 4.0)
        side = (step[1] * 0.7, step[0] * 0.7)
        back = (tip[0] - step[0] * 2.2, tip[1] - step[1] * 2.2)
        yield lines([[(x, y), tip]], "thin")
        yield lines(
            [[(back[0] + side[0], back[1] + side[1]), tip, (back[0] - side[0], back[1] - side[1])]], "thin"
        )
        letter = (x - step[0] * 2.4, y - step[1] * 2.4 + 1.2)
        room.take((letter[0] - 1.3, letter[1] - 2.8, letter[0] + 1.3, letter[1] + 0.4))
        yield lettering(*letter, "A", 3.5, anchor="middle")
