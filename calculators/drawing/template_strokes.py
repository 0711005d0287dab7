"""The strokes of a template: the pen from the part to the page, exact paths, lines, words and arrows."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calculators.drawing.svg import INK, LINES, Box, Point, escape, number
from calculators.drawing.template_tiles import Tile, Tiling
from calculators.geometry.outlines import Outline, Vertex, arc_of, bounds, pieces
from calculators.geometry.vectors import cos_sin

_SLICE_DEG = 30.0
"""An arc is drawn in curves of at most this: they are off a true arc by 4e-7 of its radius."""


@dataclass(frozen=True, slots=True)
class Pen:
    """Turns view millimetres into millimetres on the page."""

    left: float
    top: float
    x0: float
    y1: float
    x_stretch: float
    y_stretch: float

    def at(self, x: float, y: float) -> Point:
        """Where a point of the view lies on the page."""
        return self.left + (x - self.x0) * self.x_stretch, self.top + (self.y1 - y) * self.y_stretch


def pen_of(tiling: Tiling, tile: Tile) -> Pen:
    """Give the pen of one page.

    Args:
        tiling: the tiling.
        tile: one of its pages.

    Returns:
        The pen.

    Source: this project.
    """
    layout = tiling.layout
    return Pen(layout.field[0], layout.field[1], tile.box[0], tile.box[3], layout.x_stretch, layout.y_stretch)


def at_point(point: Point) -> str:
    """Write a point of the page, to a tenth of a micrometre.

    Args:
        point: the point [mm on the page].

    Returns:
        The text.

    Source: this project.

    Example:
        >>> at_point((1.00004, 2.0))
        '1 2'
    """
    return f"{number(point[0], 4)} {number(point[1], 4)}"


def touches(box: Box, other: Box, room: float = 0.0) -> bool:
    """Say whether two boxes come nearer to each other than so far.

    Args:
        box: a box.
        other: another one.
        room: how near [mm]; below 0 they must overlap by so much.

    Returns:
        Whether they do.

    Source: geometry.

    Example:
        >>> touches((0, 0, 1, 1), (2, 0, 3, 1)), touches((0, 0, 1, 1), (2, 0, 3, 1), 1.5)
        (False, True)
    """
    return (
        box[0] - room < other[2]
        and other[0] < box[2] + room
        and box[1] - room < other[3]
        and other[1] < box[3] + room
    )


def path_of(outline: Outline, pen: Pen, within: Box | None = None) -> str:
    """Write an outline as the data of a path, its arcs as curves that are true to a micrometre.

    Args:
        outline: the outline, in view coordinates.
        pen: the pen.
        within: pieces that do not come near this box are left out [view mm].

    Returns:
        The data; nothing where no piece comes near.

    Source: geometry: a curve over the angle a has its handles 4/3 tan(a/4) of the radius along the tangents.

    Example:
        >>> path_of((Vertex(0, 0), Vertex(9, 0), Vertex(9, 5)), Pen(10, 10, 0, 5, 1, 1))
        'M10 15L19 15L19 10L10 15'
    """
    found: list[str] = []
    is_open = False
    for start, end in pieces(outline):
        if within is not None and not touches(box_of_piece(start, end), within, 1.0):
            is_open = False
            continue
        if not is_open:
            found.append(f"M{at_point(pen.at(start.x, start.y))}")
        is_open = True
        found.append(curve(start, end, pen))
    return "".join(found)


def box_of_piece(start: Vertex, end: Vertex) -> Box:
    """Give the box of a line or arc.

    Args:
        start: the vertex that it leaves.
        end: the one that it comes to.

    Returns:
        Least x, least y, greatest x, greatest y [mm].

    Source: geometry.

    Example:
        >>> box_of_piece(Vertex(0, 0), Vertex(3, 4))
        (0, 0, 3, 4)
    """
    return bounds((start, Vertex(end.x, end.y)))


def curve(start: Vertex, end: Vertex, pen: Pen) -> str:
    """Write a line or an arc, as it goes on in the data of a path.

    Args:
        start: the vertex that it leaves, where the path has come to [view mm].
        end: the one that it comes to.
        pen: the pen.

    Returns:
        The data: a line, or curves.

    Source: geometry, as in `path_of`.

    Example:
        >>> curve(Vertex(0, 0), Vertex(4, 0), Pen(10, 10, 0, 5, 1, 1))
        'L14 15'
    """
    arc = arc_of(start, end)
    if arc is None:
        return f"L{at_point(pen.at(end.x, end.y))}"
    count = max(1, math.ceil(abs(arc.turn_deg) / _SLICE_DEG))
    step = arc.turn_deg / count
    handle = 4 / 3 * math.tan(math.radians(step) / 4) * arc.radius
    found = []
    for i in range(count):
        c0, s0 = cos_sin(arc.first_deg + step * i)
        c1, s1 = cos_sin(arc.first_deg + step * (i + 1))
        x0, y0 = arc.centre[0] + arc.radius * c0, arc.centre[1] + arc.radius * s0
        x1, y1 = arc.centre[0] + arc.radius * c1, arc.centre[1] + arc.radius * s1
        if i == count - 1:
            x1, y1 = end.x, end.y
        points = ((x0 - handle * s0, y0 + handle * c0), (x1 + handle * s1, y1 - handle * c1), (x1, y1))
        found.append("C" + " ".join(at_point(pen.at(*point)) for point in points))
    return "".join(found)


def stroke(data: str, name: str, kind: str) -> str:
    """Write a path.

    Args:
        data: its data.
        name: the class name.
        kind: a line type of `LINES`.

    Returns:
        The element; nothing for no data.

    Source: this project.

    Example:
        >>> stroke("", "hole", "thin")
        ''
    """
    return f'<path class="{name}" d="{data}" fill="none" {LINES[kind]}/>' if data else ""


def line(start: Point, end: Point, name: str, kind: str) -> str:
    """Write a straight line.

    Args:
        start: one end [mm on the page].
        end: the other end.
        name: the class name.
        kind: a line type of `LINES`.

    Returns:
        The element.

    Source: this project.
    """
    return stroke(f"M{at_point(start)}L{at_point(end)}", name, kind)


def text_at(
    at: Point, text: str, size: float, *, name: str, ink: str = INK, anchor: str = "start", turn: int = 0,
    bold: bool = False,
) -> str:  # fmt: skip
    """Write a line of words.

    Args:
        at: where its base line begins, or its middle or end as `anchor` says [mm on the page].
        text: the words.
        size: the size of the type [mm].
        name: the class name.
        ink: the colour.
        anchor: `start`, `middle` or `end`.
        turn: how far it is turned [deg], clockwise on the page.
        bold: whether it stands out.

    Returns:
        The element.

    Source: this project.
    """
    turned = f' transform="rotate({turn} {at_point(at)})"' if turn else ""
    weight = ' font-weight="700"' if bold else ""
    return (
        f'<text class="{name}" x="{number(at[0], 4)}" y="{number(at[1], 4)}" font-size="{number(size)}" '
        f'text-anchor="{anchor}" fill="{ink}"{weight}{turned}>{escape(text)}</text>'
    )


def arrow(start: Point, end: Point, *, name: str, ink: str, width: float = 0.5) -> str:
    """Draw an arrow.

    Args:
        start: where it begins [mm on the page].
        end: its tip.
        name: the class name.
        ink: the colour.
        width: of its line [mm].

    Returns:
        The elements.

    Source: this project.
    """
    length = math.dist(start, end)
    if length < 1e-6:
        return ""
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    neck = (end[0] - 2.2 * ux, end[1] - 2.2 * uy)
    wings = [(neck[0] - side * 0.8 * uy, neck[1] + side * 0.8 * ux) for side in (1, -1)]
    return (
        f'<path class="{name}" d="M{at_point(start)}L{at_point(neck)}" stroke="{ink}" '
        f'stroke-width="{number(width)}"/><path class="{name}" '
        f'd="M{at_point(end)}L{at_point(wings[0])}L{at_point(wings[1])}Z" fill="{ink}"/>'
    )
