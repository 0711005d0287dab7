"""The pieces of a stack as lines on the sheet, its axis level: cut open, from outside, or hidden."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from calculators.drawing.figures import Figure
from calculators.drawing.hatching import hatch
from calculators.drawing.section_marks import break_line
from calculators.drawing.section_plan import LayerShape, Plan, outline_of_hole
from calculators.drawing.stack_pieces import Piece, figures_of, manner_along
from calculators.drawing.svg import PAPER, STEEL, Point, path
from calculators.hardware.fastener import Washer
from calculators.hardware.washers import washer_of
from calculators.quantities.errors import InputError


@dataclass(frozen=True, slots=True)
class View:
    """The way from the joint's millimetres to the sheet's: z to the right, x upward from nought."""

    scale: float
    start: float

    def at(self, x: float, z: float, shift: float = 0.0) -> Point:
        """Return where a point of the joint lies on the sheet [mm]."""
        return (self.start + z * self.scale + shift, -x * self.scale)

    def ring(self, points: Sequence[Point], shift: float = 0.0) -> list[Point]:
        """Return where a line of points of the joint lies on the sheet [mm]."""
        return [self.at(x, z, shift) for x, z in points]

    def reach(self, pieces: Sequence[Piece]) -> float:
        """Return how far the widest piece reaches from the axis on the sheet [mm]."""
        return max(piece.half for piece in pieces) * self.scale


def piece_drawn(piece: Piece, plan: Plan, view: View, *, cut: bool, turn: int, alone: bool) -> list[str]:
    """Draw one piece in a group of its own.

    Args:
        piece: the piece.
        plan: the plan of the section that it is of.
        view: how it lies.
        cut: whether parts and washers are cut open.
        turn: the number of the part, so that the hatching of neighbours differs.
        alone: whether nothing lies in its hole.

    Returns:
        The elements.

    Source: ISO 128-2 and -3 (from memory).
    """
    if piece.shape is not None:
        drawn = _part(piece, piece.shape, view, cut=cut, turn=turn, alone=alone)
    elif piece.rider is not None:
        drawn = _around(piece, view, cut=cut, turn=turn)
    elif piece.hardware is not None and piece.hardware.is_insert:
        drawn = _insert(piece, view, cut=cut or alone)
    elif cut and piece.hardware is not None and isinstance(piece.hardware.what, Washer):
        drawn = _cut_washer(piece, piece.hardware.what, plan, view, turn)
    else:
        drawn = [_figure(view, figure, piece.shift) for figure in figures_of(piece, plan)]
    return [f'<g class="member {piece.line.kind}">', *drawn, "</g>"]


def _figure(view: View, figure: Figure, shift: float) -> str:
    lines = [("thin", figure.thin), ("hidden", figure.hidden), ("outline", figure.edges)]
    outline = path([view.ring(figure.outline, shift)], "outline", fill=STEEL)
    return outline + "".join(
        path([view.ring(line, shift) for line in group], kind, closed=False) for kind, group in lines if group
    )


def _block(piece: Piece) -> list[Point]:
    return [
        (piece.half, piece.near),
        (piece.half, piece.far),
        (-piece.trimmed, piece.far),
        (-piece.trimmed, piece.near),
    ]


def _edges(piece: Piece, view: View, *, broken_end: bool, whole_below: bool, whole: bool) -> list[str]:
    """The outline of a part: its faces thick, and break lines where it is broken off beside the axis."""
    top_near, top_far, low_far, low_near = view.ring(_block(piece), piece.shift)
    faces = [[top_near, low_near]]
    parts = []
    if broken_end:
        parts.append(break_line(top_far, low_far))
    else:
        faces.append([top_far, low_far])
    if whole:
        faces += [[top_near, top_far], [low_near, low_far]]
    else:
        parts.append(break_line(top_near, top_far))
        if whole_below:
            faces.append([low_near, low_far])
        else:
            parts.append(break_line(low_near, low_far))
    return [*parts, path(faces, "outline", closed=False)]


def _part(piece: Piece, shape: LayerShape, view: View, *, cut: bool, turn: int, alone: bool) -> list[str]:
    hole = outline_of_hole(shape)
    ring = view.ring(_block(piece), piece.shift)
    rings = [ring, *([view.ring(hole, piece.shift)] if hole and cut else [])]
    drawn = [path(rings, "none", fill=PAPER)]
    if cut:
        close = 1.0 if (piece.far - piece.near) * view.scale > 4 else 0.6
        drawn.append(hatch(rings, manner_along(piece), turn, closer=close))
    if hole and cut:
        drawn.append(path([view.ring(hole, piece.shift)], "outline" if alone else "edge"))
    below = piece.trimmed < piece.half
    drawn += _edges(piece, view, broken_end=shape.broken, whole_below=below, whole=piece.is_bush)
    return [*drawn, *(_thread(piece, shape, view) if cut else [])]


def _thread(piece: Piece, shape: LayerShape, view: View) -> list[str]:
    if shape.thread is None:
        return []
    near, far, major = shape.thread
    far = min(far, shape.shown)
    lines = [[view.at(x, near, piece.shift), view.at(x, far, piece.shift)] for x in (-major / 2, major / 2)]
    return [path(lines, "thin", closed=False)]


def _around(piece: Piece, view: View, *, cut: bool, turn: int) -> list[str]:
    """A part around the stack: above and below what lies within it where it is cut, else over it."""
    assert piece.rider is not None
    bore = piece.rider.bore_mm / 2
    block = view.ring(_block(piece), piece.shift)
    inner = view.ring(
        [(bore, piece.near), (bore, piece.far), (-bore, piece.far), (-bore, piece.near)], piece.shift
    )
    sides = [path([inner[:2], inner[2:]], "edge" if cut else "hidden", closed=False)]
    rings = [block, inner] if cut else [block]
    drawn = [path(rings, "none", fill=PAPER)]
    if cut:
        drawn.append(hatch(rings, manner_along(piece), turn))
    return [*drawn, *sides, *_edges(piece, view, broken_end=False, whole_below=False, whole=False)]


def _insert(piece: Piece, view: View, *, cut: bool) -> list[str]:
    drawn = []
    for figure in piece.hardware.figures if piece.hardware else ():
        ring = view.ring(figure.outline, piece.shift)
        if cut:
            drawn += [path([ring], "outline", fill=PAPER), hatch([ring], "metal", 1, closer=0.5)]
        else:
            drawn.append(path([ring], "hidden"))
    return drawn


def _cut_washer(piece: Piece, washer: Washer, plan: Plan, view: View, turn: int) -> list[str]:
    """A washer in section: above and below its hole."""
    inner = min(_inside_mm(washer, plan.major) / 2, 0.9 * piece.half)
    drawn: list[str] = []
    for low, high in ((inner, piece.half), (-piece.half, -inner)):
        corners = [(low, piece.near), (high, piece.near), (high, piece.far), (low, piece.far)]
        ring = view.ring(corners, piece.shift)
        drawn += [path([ring], "outline", fill=PAPER), hatch([ring], "metal", turn + 1, closer=0.5)]
    return drawn


def _inside_mm(washer: Washer, major: float) -> float:
    try:
        known: Any = washer_of(washer.size, washer.form).inside_mm
    except InputError:
        known = None
    return float(known) if known else 1.06 * major


def shank_within(pieces: Sequence[Piece], plan: Plan, view: View) -> list[str]:
    """Draw the fastener hidden within the parts, washers and nuts that it goes through.

    Args:
        pieces: the pieces of the stack where they lie.
        plan: the plan of its section.
        view: how it lies.

    Returns:
        The elements.

    Source: ISO 128-2 (hidden lines; from memory).
    """
    covering = [
        (piece.near, piece.far) for piece in pieces if piece.line.kind in ("part", "around", "nut", "washer")
    ]
    first = min((near for near, _ in covering), default=plan.tip)
    drawn = []
    if plan.head is not None and max(z for _, z in plan.head.outline) > first + 0.05:
        drawn.append(path([view.ring(plan.head.outline)], "hidden"))
    for near, far in covering:
        start, end = max(near, plan.start), min(far, plan.tip)
        if end > start:
            half = plan.major / 2
            lines = [[view.at(x, start), view.at(x, end)] for x in (-half, half)]
            if plan.tip < far:
                lines.append([view.at(-half, end), view.at(half, end)])
            drawn.append(path(lines, "hidden", closed=False))
    return drawn


def joining_lines(pieces: Sequence[Piece], plan: Plan, view: View) -> list[str]:
    """Draw the thin chain lines between an insert and its part, and between a bush and what turns on it.

    Args:
        pieces: the pieces of the stack, set apart.
        plan: the plan of its section.
        view: how it lies.

    Returns:
        The elements.

    Source: ISO 128-2, line 04.1 (chain thin line; from memory).
    """
    drawn = []
    for before, after in pairwise(pieces):
        reach = 0.0
        if before.line.kind == "insert":
            reach = before.half
        elif after.rider is not None:
            reach = (after.rider.on_mm or plan.major) / 2
        elif before.line.kind == "screw" or after.line.kind == "nut":
            reach = plan.major / 2
        if reach:
            ends = (before.far, before.shift), (after.near, after.shift)
            lines = [[view.at(x, *ends[0]), view.at(x, *ends[1])] for x in (-reach, reach)]
            drawn.append(path(lines, "centre", closed=False))
    return drawn


def axis_line(pieces: Sequence[Piece], view: View) -> str:
    """Draw the axis through all pieces and a little beyond.

    Args:
        pieces: the pieces.
        view: how they lie.

    Returns:
        The element.

    Source: ISO 128-2, line 04.1 (from memory).
    """
    near = min(view.at(0, piece.near, piece.shift)[0] for piece in pieces)
    far = max(view.at(0, piece.far, piece.shift)[0] for piece in pieces)
    return path([[(near - 3.5, 0.0), (far + 3.5, 0.0)]], "centre", closed=False)
