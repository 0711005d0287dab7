"""What a closed outline is: a circle, a slot with round ends, a rectangle square to the axes, or free."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from calculators.geometry.outlines import Outline, Vertex, arc_of, bounds, pieces, rectangle

NEAR_MM = 0.01
"""What lies within this of a shape is that shape [mm]."""

_NEAR_BULGE = 0.002
Kind = Literal["circle", "slot", "rectangle", "free"]


@dataclass(frozen=True, slots=True)
class OutlineKind:
    """A closed outline by its kind [mm].

    `x` and `y` are the middle of a circle or slot, and the corner with the least x and y of a rectangle.
    `length` runs along x and `width` along y; of a slot `diameter` is its width across and `along` says which
    way it runs, '' where it lies aslant. `corner` is the radius of a rectangle's corners.
    """

    kind: Kind
    x: float = 0.0
    y: float = 0.0
    diameter: float = 0.0
    length: float = 0.0
    width: float = 0.0
    corner: float = 0.0
    along: Literal["", "u", "v"] = ""


def kind_of(outline: Outline) -> OutlineKind:
    """Say what a closed outline is.

    Args:
        outline: the outline, anticlockwise, as `simplified` gives it.

    Returns:
        Its kind with its measures; `free` where it is neither a circle, a slot nor a rectangle that is square
        to the axes, its corners sharp or rounded alike.

    Source: this project.

    Example:
        >>> kind_of(rectangle(5, 5, 40, 20))
        OutlineKind(kind='rectangle', x=5, y=5, diameter=0.0, length=40, width=20, corner=0.0, along='')
    """
    return _circle(outline) or _slot(outline) or _rectangle(outline) or OutlineKind("free")


def simplified(outline: Outline) -> Outline:
    """Leave out vertices that make nothing: pieces without length, lines and arcs that only go on.

    Args:
        outline: a closed outline.

    Returns:
        The outline with as few vertices as it needs; a circle keeps two.

    Source: geometry.

    Example:
        >>> from calculators.geometry.outlines import Vertex
        >>> len(simplified((Vertex(0, 0), Vertex(5, 0), Vertex(9, 0), Vertex(9, 4))))
        3
    """
    found = [
        one for one, to in pieces(outline) if one.bulge or math.dist((one.x, one.y), (to.x, to.y)) > 1e-9
    ]
    found = [one for one, to in pieces(tuple(found)) if math.dist((one.x, one.y), (to.x, to.y)) > 1e-9]
    if len(found) < 3:
        return tuple(found)
    kept: list[Vertex] = []
    for at, one in enumerate(found):
        before = kept[-1] if kept else found[at - 1]
        merged = _one_piece(before, one, found[(at + 1) % len(found)])
        if merged is not None and kept and len(found) - at + len(kept) > 2:
            kept[-1] = merged
        else:
            kept.append(one)
    # The first vertex may only go on from the last.
    while len(kept) > 2 and (merged := _one_piece(kept[-1], kept[0], kept[1])) is not None:
        kept = [*kept[1:-1], merged]
    return tuple(kept)


def _one_piece(before: Vertex, one: Vertex, after: Vertex) -> Vertex | None:
    """The vertex of one line or arc from before to after in the place of two; None where they are not one."""
    first, second = arc_of(before, one), arc_of(one, after)
    if first is None and second is None:
        dx, dy = one.x - before.x, one.y - before.y
        to_x, to_y = after.x - one.x, after.y - one.y
        across = abs(dx * to_y - dy * to_x)
        ahead = dx * to_x + dy * to_y
        return before if ahead > 0 and across <= 1e-9 * max(ahead, 1e-9) else None
    if first is None or second is None:
        return None
    like = math.dist(first.centre, second.centre) <= 1e-7 and abs(first.radius - second.radius) <= 1e-7
    turn = first.turn_deg + second.turn_deg
    if not like or first.turn_deg * second.turn_deg < 0 or abs(turn) > 350:
        return None
    return Vertex(before.x, before.y, math.tan(math.radians(turn) / 4))


def _circle(outline: Outline) -> OutlineKind | None:
    arcs = [arc_of(one, to) for one, to in pieces(outline)]
    first = arcs[0] if arcs else None
    if first is None or any(arc is None for arc in arcs):
        return None
    for arc in arcs:
        if arc is None or math.dist(arc.centre, first.centre) > NEAR_MM:
            return None
        if abs(arc.radius - first.radius) > NEAR_MM or arc.turn_deg * first.turn_deg < 0:
            return None
    if abs(sum(arc.turn_deg for arc in arcs if arc) - 360) > 1e-3:
        return None
    return OutlineKind("circle", *first.centre, diameter=2 * first.radius)


def _slot(outline: Outline) -> OutlineKind | None:
    if len(outline) != 4:
        return None
    arcs = [arc_of(one, to) for one, to in pieces(outline)]
    bent = [arc for arc in arcs if arc is not None]
    if len(bent) != 2 or (arcs[0] is None) != (arcs[2] is None):
        return None
    one, two = bent
    if abs(one.radius - two.radius) > NEAR_MM or any(abs(arc.turn_deg - 180) > 0.2 for arc in bent):
        return None
    (x, y), (to_x, to_y) = one.centre, two.centre
    length = math.dist(one.centre, two.centre) + 2 * one.radius
    along: Literal["", "u", "v"] = (
        "u" if abs(y - to_y) <= NEAR_MM else "v" if abs(x - to_x) <= NEAR_MM else ""
    )
    return OutlineKind("slot", (x + to_x) / 2, (y + to_y) / 2, one.radius + two.radius, length, along=along)


def _rectangle(outline: Outline) -> OutlineKind | None:
    if len(outline) not in (4, 8):
        return None
    left, bottom, right, top = bounds(outline)
    arcs = [arc for one, to in pieces(outline) if (arc := arc_of(one, to)) is not None]
    corner = arcs[0].radius if arcs else 0.0
    like = rectangle(left, bottom, right - left, top - bottom, corner)
    if len(like) != len(outline) or not _same(outline, like):
        return None
    return OutlineKind("rectangle", left, bottom, length=right - left, width=top - bottom, corner=corner)


def _same(outline: Outline, like: Outline) -> bool:
    """Whether two outlines are the same, wherever they begin."""
    start = min(
        range(len(outline)), key=lambda i: math.dist((outline[i].x, outline[i].y), (like[0].x, like[0].y))
    )
    turned = (*outline[start:], *outline[:start])
    return all(
        math.dist((one.x, one.y), (two.x, two.y)) <= NEAR_MM and abs(one.bulge - two.bulge) <= _NEAR_BULGE
        for one, two in zip(turned, like, strict=True)
    )
