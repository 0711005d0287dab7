"""What of a face one page of its template shows: outline, holes with prick crosses, words."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from calculators.drawing.face_shape import FaceShape, HoleShape, PocketShape
from calculators.drawing.lettering import text_width
from calculators.drawing.svg import Box, Point, number
from calculators.drawing.template_labels import LETTER_MM, Label, Room, Written, place_labels
from calculators.drawing.template_marks import FoldLine, draw_datum, draw_folds, draw_grain, is_round_end
from calculators.drawing.template_strokes import (
    Pen,
    at_point,
    curve,
    line,
    path_of,
    pen_of,
    stroke,
    text_at,
    touches,
)
from calculators.drawing.template_tiles import Tile, Tiling
from calculators.geometry.outlines import Outline, Vertex, bounds, circle, flat_points

CROSS_MM = 4.0
"""How far the arms of a prick cross reach from the centre of a hole [mm on the page]."""

_BEYOND_MM = 2.5


def draw_tile(
    tiling: Tiling,
    tile: Tile,
    *,
    grain: str = "",
    folds: Sequence[FoldLine] = (),
    mirrored: bool = False,
    taken: Iterable[Box] = (),
) -> tuple[list[str], int]:
    """Draw what one page shows of the face.

    Args:
        tiling: the face over pages.
        tile: one of the pages.
        grain: how the grain runs on the face: `u`, `v`, `end` or nothing.
        folds: the fold lines of the face, in its own u and v.
        mirrored: whether the tiling is mirrored.
        taken: boxes on the page that are kept free of words.

    Returns:
        SVG elements, which are to be cut off at the field, and how many holes have no words for want of room.

    Source: this project; ISO 128 (lines), ISO 6410 (threads), ISO 15786 (holes); from memory.
    """
    pen, view = pen_of(tiling, tile), tiling.view
    left, bottom, right, top = tile.cell
    (x0, y0), (x1, y1) = pen.at(left, top), pen.at(right, bottom)
    room = Room((x0 + 0.8, y0 + 0.8, x1 - 0.8, y1 - 0.8))
    for box in taken:
        room.take(box)
    shown = [one for one in view.holes if touches(_hole_box(one), tile.box, CROSS_MM + 1)]
    body = [*_outlines(view, tile, pen, room), *draw_folds(folds, tile, pen, room, mirrored=mirrored)]
    for one in shown:
        body += _hole(one, pen, room)
    body += draw_datum(view, tile, pen, room, mirrored=mirrored)
    body += draw_grain(view, grain, tile, pen, room, mirrored=mirrored)
    own = [one for one in shown if _is_own(one, tile)]
    labels = [_label(one, pen) for one in own]
    labels += [_pocket_label(one, tile, pen) for one in view.pockets if touches(_box_of(one), tile.cell, -3)]
    written, missing = place_labels(labels, room)
    return [*body, *_words(written)], missing


def _is_own(one: HoleShape, tile: Tile) -> bool:
    x0, y0, x1, y1 = tile.cell
    return x0 <= one.u_mm < x1 and y0 < one.v_mm <= y1


def _hole_box(one: HoleShape) -> Box:
    half = max(one.outer_mm, one.slot_length_mm) / 2
    return one.u_mm - half, one.v_mm - half, one.u_mm + half, one.v_mm + half


def _box_of(one: PocketShape) -> Box:
    return one.u_mm, one.v_mm, one.u_mm + one.length_mm, one.v_mm + one.width_mm


# ---- lines


def _outlines(view: FaceShape, tile: Tile, pen: Pen, room: Room) -> Iterator[str]:
    drawn: list[tuple[Outline, str, str]] = [(view.outline, "outline", "outline")]
    drawn += [(one.outline, "pocket", "edge") for one in view.pockets]
    if view.bore_mm > 0:
        drawn.append((circle(0.0, 0.0, view.bore_mm), "bore", "edge"))
    for outline, name, kind in drawn:
        yield stroke(path_of(outline, pen, tile.box), name, kind)
        _take(outline, pen, room)
    x0, y0, x1, y1 = bounds(view.outline)
    axes = []
    if view.is_wrapped or is_round_end(view):
        axes.append(((x0 - 5, 0.0), (x1 + 5, 0.0)))
    if is_round_end(view):
        axes.append(((0.0, y0 - 5), (0.0, y1 + 5)))
    for start, end in axes:
        yield line(pen.at(*start), pen.at(*end), "centre-line", "centre")
        room.take_line(pen.at(*start), pen.at(*end))


def _take(outline: Outline, pen: Pen, room: Room) -> None:
    points = [pen.at(*point) for point in flat_points(outline, 0.2)]
    for start, end in zip(points, (*points[1:], points[0]), strict=True):
        room.take_line(start, end)


def _hole(one: HoleShape, pen: Pen, room: Room) -> Iterator[str]:
    """The hole's circles, its prick cross, and its centre lines where it is larger than the cross."""
    x, y = centre = pen.at(one.u_mm, one.v_mm)
    yield stroke(
        path_of(one.outline, pen), "slot" if one.slot_length_mm > one.diameter_mm else "hole", "edge"
    )
    for name, diameter in (
        ("countersink", one.countersink_diameter_mm),
        ("counterbore", one.counterbore_diameter_mm),
    ):
        if diameter > one.diameter_mm:
            yield stroke(path_of(circle(one.u_mm, one.v_mm, diameter), pen), name, "thin")
    if one.thread and one.kind != "insert" and one.thread_major_mm > one.diameter_mm:
        yield stroke(_three_quarters(one, pen), "thread", "thin")
    for dx, dy in ((CROSS_MM, 0.0), (0.0, CROSS_MM)):
        yield line((x - dx, y - dy), (x + dx, y + dy), "cross", "thin")
    rim = _rim(one)
    if rim > CROSS_MM:
        for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1)):
            start = (x + dx * max(CROSS_MM + 1, rim - 2), y + dy * max(CROSS_MM + 1, rim - 2))
            yield line(
                start, (x + dx * (rim + _BEYOND_MM), y + dy * (rim + _BEYOND_MM)), "centre-line", "dimension"
            )
    for end in _slot_ends(one):
        ex, ey = pen.at(*end)
        yield line((ex - 2, ey), (ex + 2, ey), "slot-end", "thin")
        yield line((ex, ey - 2), (ex, ey + 2), "slot-end", "thin")
    _take(one.outline, pen, room)
    _take(circle(one.u_mm, one.v_mm, max(one.outer_mm, 0.1)), pen, room)
    inside = 0.7 * rim
    room.take((x - inside, y - inside, x + inside, y + inside))
    long = max(CROSS_MM, rim + _BEYOND_MM if rim > CROSS_MM else 0)
    for dx, dy in ((long, 0.0), (0.0, long)):
        room.take_line((centre[0] - dx, centre[1] - dy), (centre[0] + dx, centre[1] + dy))


def _rim(one: HoleShape) -> float:
    return max(one.outer_mm, one.slot_length_mm) / 2


def _slot_ends(one: HoleShape) -> Iterator[Point]:
    """The centres of a slot's round ends, where it is drilled first."""
    half = (one.slot_length_mm - one.diameter_mm) / 2
    if half > 0 and one.slot_along:
        dx, dy = (half, 0.0) if one.slot_along == "u" else (0.0, half)
        yield one.u_mm - dx, one.v_mm - dy
        yield one.u_mm + dx, one.v_mm + dy


def _three_quarters(one: HoleShape, pen: Pen) -> str:
    """Three quarters of a circle outside the hole, as ISO 6410 shows a thread."""
    r = one.thread_major_mm / 2
    start = Vertex(one.u_mm + r, one.v_mm, math.tan(math.radians(270) / 4))
    end = Vertex(one.u_mm, one.v_mm - r)
    return f"M{at_point(pen.at(start.x, start.y))}{curve(start, end, pen)}"


# ---- words


def _mm(value: float) -> str:
    return number(value, 2)


def hole_words(one: HoleShape) -> tuple[str, ...]:
    """Say what a hole is, as beside it on the template.

    Args:
        one: the hole.

    Returns:
        Its lines, the first with its number.

    Source: this project; the words for a countersink as the trade writes them (common practice).

    Example:
        >>> hole_words(HoleShape(3, 0, 0, 4.2, thread="M5", depth_mm=12))
        ('3  M5', 'drill Ø4.2, 12 deep')
        >>> hole_words(HoleShape(4, 0, 0, 2.1, kind="pilot", depth_mm=15.5))
        ('4  pilot Ø2.1 × 15.5 deep',)
    """
    deep = "through" if one.depth_mm is None else f"{_mm(one.depth_mm)} deep"
    by = "" if one.depth_mm is None else "× "
    lines: list[str] = []
    if one.slot_length_mm > one.diameter_mm:
        lines = [f"{one.number}  slot {_mm(one.diameter_mm)} × {_mm(one.slot_length_mm)}", deep]
    elif one.thread and one.kind == "insert":
        lines = [f"{one.number}  Ø{_mm(one.diameter_mm)} {by}{deep}", f"insert {one.thread}"]
    elif one.thread:
        thread = f" × {_mm(one.thread_depth_mm)} deep" if one.thread_depth_mm else ""
        lines = [f"{one.number}  {one.thread}{thread}", f"drill Ø{_mm(one.diameter_mm)}, {deep}"]
    else:
        kind = f"{one.kind} " if one.kind in ("pilot", "reamed") else ""
        lines = [f"{one.number}  {kind}Ø{_mm(one.diameter_mm)} {by}{deep}"]
    if one.countersink_diameter_mm:
        lines.append(f"csk Ø{_mm(one.countersink_diameter_mm)}, {_mm(one.countersink_angle_deg)}°")
    if one.counterbore_diameter_mm:
        lines.append(f"cbore Ø{_mm(one.counterbore_diameter_mm)} × {_mm(one.counterbore_depth_mm)}")
    return tuple(lines)


def _label(one: HoleShape, pen: Pen) -> Label:
    full = hole_words(one)
    short = (full[0],)
    choices = dict.fromkeys((full, short, (f"{one.number}",)))
    reach = max(_rim(one) * max(pen.x_stretch, pen.y_stretch), 1.0) + 0.6
    return Label(pen.at(one.u_mm, one.v_mm), reach, tuple(choices))


def _pocket_label(one: PocketShape, tile: Tile, pen: Pen) -> Label:
    """Words in the middle of what the page shows of a recess."""
    x0, x1 = max(one.u_mm, tile.cell[0]), min(one.u_mm + one.length_mm, tile.cell[2])
    y0, y1 = max(one.v_mm, tile.cell[1]), min(one.v_mm + one.width_mm, tile.cell[3])
    deep = "through" if one.depth_mm is None else f"{_mm(one.depth_mm)} deep"
    size = f"{_mm(one.length_mm)} × {_mm(one.width_mm)}"
    choices = ((f"{one.key}  {size}", deep), (f"{one.key}  {deep}",), (one.key,))
    return Label(pen.at((x0 + x1) / 2, (y0 + y1) / 2), 0.0, choices)


def _words(written: Iterable[Written]) -> Iterator[str]:
    """The words; what stands before two spaces is the number, which stands out."""
    for one in written:
        if one.leader:
            yield line(*one.leader, "leader", "leader")
        for x, y, text in one.baselines:
            key, gap, rest = text.partition("  ")
            bold = bool(gap) or len(one.lines) == 1
            yield text_at((x, y), key, LETTER_MM, name="hole-number" if bold else "hole-words", bold=bold)
            if rest:
                off = text_width(key, LETTER_MM) + 0.4 * LETTER_MM
                yield text_at((x + off, y), rest, LETTER_MM, name="hole-words")
