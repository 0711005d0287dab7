"""What stands on a template besides the part's own lines: the datum, the grain, the folds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from calculators.drawing.face_shape import FaceShape
from calculators.drawing.svg import BLUE, BRASS, INK, LINES, SOFT, Point, number
from calculators.drawing.template_labels import LETTER_MM, Room
from calculators.drawing.template_strokes import Pen, arrow, at_point, text_at, touches
from calculators.drawing.template_tiles import Tile
from calculators.geometry.outlines import bounds

_ARROW_MM = 14.0


@dataclass(frozen=True, slots=True)
class FoldLine:
    """Where bent sheet is folded: a straight line on the face [u, v in mm], with words."""

    start: Point
    end: Point
    says: str


def draw_datum(view: FaceShape, tile: Tile, pen: Pen, room: Room, *, mirrored: bool) -> Iterator[str]:
    """Mark u = 0, v = 0 with the ways in which both are counted: outside the corner where there is room.

    Args:
        view: the face as the template shows it.
        tile: the page.
        pen: its pen.
        room: what is taken on the page; what is drawn is taken too.
        mirrored: whether the template is turned about.

    Yields:
        SVG elements.

    Source: this project.
    """
    if not touches((0.0, 0.0, 0.0, 0.0), tile.box):
        return
    at = pen.at(0.0, 0.0)
    way = -1.0 if mirrored else 1.0
    x0, y0, x1, y1 = bounds(view.outline)
    box = tile.box
    # How far the part's edges are from the edges of what the page shows, where u and v are to be drawn.
    before, below = (box[2] - x1 if mirrored else x0 - box[0]), y0 - box[1]
    least = min(x1 - x0, y1 - y0)
    if is_round_end(view) or view.is_wrapped:
        after, above = (x0 - box[0] if mirrored else box[2] - x1), box[3] - y1
        end = -x0 if mirrored else x1
        u = (way * (end + 2.0), 0.0) if after > 20 else (0.0, 0.0)
        v = (-way * 3.2, 0.0) if view.is_wrapped and before > 8 else (0.0, 0.0)
        v = (0.0, -(y1 + 2.0)) if is_round_end(view) and above > 20 else v
        long = 10.0
        for edge, off in ((y1, -0.9), (y0, 2.7)) if view.is_wrapped else ():
            x, y = pen.at((x0 + x1) / 2, edge)
            says = f"seam, {number(y1 - y0)} to the other"
            yield text_at((x, y + off), says, 2.4, name="seam", ink=SOFT, anchor="middle")
            room.take((x - 18, y - 3.2, x + 18, y + 3.2))
    else:
        outside = before > 7.0 and below > 7.0
        turn = 3.2 if outside else -2.6 if least > 24 else 0.0
        u, v = (
            (max(-way * turn, 0.0) if way > 0 else min(-way * turn, 0.0), turn),
            (-way * turn, min(turn, 0.0)),
        )
        long = _ARROW_MM
        ring = f'<circle class="datum" cx="{number(at[0], 4)}" cy="{number(at[1], 4)}" r="0.9"'
        yield f'{ring} fill="none" {LINES["dimension"]}/>'
    for (dx, dy), (to_x, to_y), word in ((u, (way, 0.0), "u"), (v, (0.0, -1.0), "v")):
        start = (at[0] + dx, at[1] + dy)
        end_at = (start[0] + to_x * long, start[1] + to_y * long)
        yield arrow(start, end_at, name="datum", ink=BLUE)
        place = (end_at[0] + way * 1.0, end_at[1] + 1.0) if to_x else (end_at[0], end_at[1] - 0.9)
        anchor = "middle" if not to_x else "end" if mirrored else "start"
        yield text_at(place, word, 3.2, name="datum", ink=BLUE, anchor=anchor)
        xs, ys = (start[0], end_at[0]), (start[1], end_at[1])
        room.take((min(xs) - 3.2, min(ys) - 3.6, max(xs) + 3.2, max(ys) + 1.2))


def is_round_end(view: FaceShape) -> bool:
    """Say whether a face is the end of a round part.

    Args:
        view: the face.

    Returns:
        Whether its outline is a circle about u = 0, v = 0.

    Source: this project.

    Example:
        >>> from calculators.geometry.outlines import circle
        >>> is_round_end(FaceShape("P1", "Pin", "left", circle(0, 0, 8), 40))
        True
    """
    one = view.outline
    return len(one) == 2 and abs(one[0].bulge) == 1 == abs(one[1].bulge) and one[0].x == -one[1].x


def draw_grain(
    view: FaceShape, grain: str, tile: Tile, pen: Pen, room: Room, *, mirrored: bool
) -> Iterator[str]:
    """Draw an arrow along the grain, where it meets nothing; with both heads, since grain has no sense.

    Args:
        view: the face as the template shows it.
        grain: `u`, `v`, or anything else for none.
        tile: the page.
        pen: its pen.
        room: what is taken on the page; what is drawn is taken too.
        mirrored: whether the template is turned about.

    Yields:
        SVG elements.

    Source: common practice.
    """
    if grain not in ("u", "v"):
        return
    x0, y0, x1, y1 = bounds(view.outline)
    x0, y0 = max(x0, tile.cell[0]), max(y0, tile.cell[1])
    x1, y1 = min(x1, tile.cell[2]), min(y1, tile.cell[3])
    long = min(24.0, 0.6 * (x1 - x0 if grain == "u" else y1 - y0))
    if long < 8 or min(x1 - x0, y1 - y0) < 8:
        return
    for i in (4, 3, 5, 2, 6, 1, 7):
        for j in (4, 3, 5, 2, 6, 1, 7):
            x, y = pen.at(x0 + (x1 - x0) * i / 8, y0 + (y1 - y0) * j / 8)
            wide, high = (long / 2, 1.2) if grain == "u" else (1.2, long / 2)
            box = (x - wide, y - high - (3.4 if grain == "u" else 0), x + wide, y + high)
            if grain == "v":
                box = (x - wide - 3.4, y - high, x + wide, y + high)
            if room.is_free(box):
                room.take(box)
                ends = ((x - wide, y), (x + wide, y)) if grain == "u" else ((x, y - high), (x, y + high))
                yield arrow((x, y), ends[0], name="grain", ink=BRASS, width=0.35)
                yield arrow((x, y), ends[1], name="grain", ink=BRASS, width=0.35)
                place, turn = ((x, y - 1.5), 0) if grain == "u" else ((x - 1.5, y), -90)
                yield text_at(place, "grain", 2.6, name="grain", ink=BRASS, anchor="middle", turn=turn)
                return


def draw_folds(
    folds: Sequence[FoldLine], tile: Tile, pen: Pen, room: Room, *, mirrored: bool
) -> Iterator[str]:
    """Draw chain lines with two dots where sheet is folded, and words on them.

    Args:
        folds: the fold lines, in the face's own u and v.
        tile: the page.
        pen: its pen.
        room: what is taken on the page; what is drawn is taken too.
        mirrored: whether the template is turned about.

    Yields:
        SVG elements.

    Source: ISO 128 (from memory): the line of a fold.
    """
    way = -1.0 if mirrored else 1.0
    dashes = f'stroke="{INK}" stroke-width="0.3" stroke-dasharray="8 1.2 0.8 1.2 0.8 1.2"'
    for fold in folds:
        start, end = ((way * u, v) for u, v in (fold.start, fold.end))
        box = (min(start[0], end[0]), min(start[1], end[1]), max(start[0], end[0]), max(start[1], end[1]))
        if not touches(box, tile.box, 1.0):
            continue
        a, b = pen.at(*start), pen.at(*end)
        yield f'<path class="fold" d="M{at_point(a)}L{at_point(b)}" fill="none" {dashes}/>'
        room.take_line(a, b)
        level = abs(a[1] - b[1]) < abs(a[0] - b[0])
        x0, x1 = max(box[0], tile.cell[0]), min(box[2], tile.cell[2])
        y0, y1 = max(box[1], tile.cell[1]), min(box[3], tile.cell[3])
        x, y = pen.at((x0 + x1) / 2, (y0 + y1) / 2)
        place = (x, y - 0.8) if level else (x - 0.8, y)
        half = 0.32 * LETTER_MM * len(fold.says)
        taken = (x - half, y - 3.4, x + half, y) if level else (x - 3.4, y - half, x, y + half)
        room.take(taken)
        yield text_at(place, fold.says, 2.6, name="fold", ink=SOFT, anchor="middle", turn=0 if level else -90)
