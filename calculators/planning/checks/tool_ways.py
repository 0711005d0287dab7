"""Which tools turn a fastener, and the room that each needs where the fastener lies."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from calculators.geometry.clashes import piece_in_part
from calculators.geometry.pieces import Mass
from calculators.geometry.shapes import Box, Prism, Shape, Turned, box_of
from calculators.geometry.vectors import Vector, along, cross, dot, scale
from calculators.hardware.heads import head_of
from calculators.planning.checks.fasteners_in_space import FastenerPiece, PlacedFastener
from calculators.quantities.errors import InputError
from calculators.tables import Row, load

Tool = Literal["screwdriver", "hex key", "spanner", "screw"]

TURNS = 12
"""So many directions, 30 degrees apart, are tried for a spanner's handle."""

_LIFT_MM = 0.1
"""Tools stand this far off the surface on which the head bears."""

_CLOSE_MM = 1e-3
_LEAST_MM = 2e-3
"""Less than this is touching."""
_SOCKETED = ("socket cap", "socket csk", "button")
_SPANNED = ("full", "half", "stiff", "dome", "square")


@dataclass(frozen=True, slots=True, eq=False)
class ToolWay:
    """A tool at one end of a fastener: where it bears and which way is out, and the room that it needs [mm].

    A driver or key needs a straight way of `diameter`: `short` at the very least, `long` with ease. A
    spanner needs `socket` of room about the axis for `long`, or its `jaw` with its handle `length` long in
    directions next to one another. A screw itself needs `lift` of straight way, from its place out, to be put
    in. `copies` are those that the fastener goes through.
    """

    fastener: PlacedFastener
    tool: Tool
    base: Vector
    out: Vector
    diameter: float
    short: float
    long: float
    jaw: float = 0.0
    thickness: float = 0.0
    length: float = 0.0
    at_nut: bool = False
    box: Box = ((0.0, 0.0, 0.0), (0.0, 0.0, 0.0))
    lift: float = 0.0

    @property
    def copies(self) -> tuple[str, ...]:
        """The copies that are no obstacle: the fastener's own."""
        return (*self.fastener.copies, self.fastener.home)


@dataclass(frozen=True, slots=True, eq=False)
class InTheWay:
    """How one part stands in a tool's way.

    `free_mm` is the straight way left to a driver, key or socket, endless where it is not barred. `turns`
    has a bit for each direction in which a spanner's handle is barred.
    """

    way: ToolWay
    copy: str
    free_mm: float
    turns: int = 0


def ways_of(fastener: PlacedFastener) -> Iterator[ToolWay]:
    """Give the tools that a fastener is turned and held with, each where it bears.

    Args:
        fastener: the fastener where it lies.

    Yields:
        One for its head, or for the headless end that its home's face shows, one for a hexagon bolt to be
        put in, and one for each nut. Nothing for what is turned by hand.

    Source: tables `driver_clearances` and `spanner_clearances` (from memory, common practice).
    """
    result = fastener.axis.worked.result
    screw = result.fastener
    out = scale(fastener.way, -1.0)
    heads = [piece for piece in fastener.pieces if piece.kind == "head"]
    top = _top(heads or [piece for piece in fastener.pieces if piece.kind == "shank"])
    by_hand = screw.drive == "hand" or screw.head in ("knurled", "coach") or screw.kind == "stud"
    if top is not None and not by_hand:
        base = along(fastener.start, (fastener.way, top))
        if screw.head == "hex" or screw.kind == "coach screw":
            flats = result.across_flats_mm or (result.head_diameter_mm or 0.0) * math.cos(math.pi / 6.0)
            if flats > 0.0 and heads:
                foot = along(fastener.start, (fastener.way, _foot(heads[0])))
                yield _spanner(fastener, foot, out, flats, _high(heads[0]), at_nut=False)
                lift, wide = _lift(fastener), flats / math.cos(math.pi / 6.0)
                base = along(base, (out, _LIFT_MM))
                box = box_of(_straight(base, out, wide, max(lift, 1.0)))
                yield ToolWay(fastener, "screw", base, out, wide, lift, lift, box=box, lift=lift)
        elif screw.drive == "hex socket" or screw.head in _SOCKETED:
            yield _driver(fastener, "hex key", base, out, _socket_mm(fastener))
        else:
            yield _driver(fastener, "screwdriver", base, out, result.major_mm)
    stack = fastener.axis.worked.inputs.stack
    layers = [index for index, item in enumerate(stack) if item.layer is not None]
    for piece in fastener.pieces:
        nut = stack[piece.item].nut if piece.kind == "nut" and piece.item is not None else None
        if nut is None or nut.form not in _SPANNED or not layers or (piece.item or 0) < layers[0]:
            continue
        wide = max(radius for _, radius in piece.shape.rings) * 2.0
        flats = wide / math.sqrt(2.0) if nut.form == "square" else wide * math.cos(math.pi / 6.0)
        near = min(at for at, _ in piece.shape.rings)
        foot = along(fastener.start, (fastener.way, near))
        yield _spanner(fastener, foot, fastener.way, flats, _high(piece), at_nut=True)


def _top(pieces: list[FastenerPiece]) -> float | None:
    return min((at for piece in pieces for at, _ in piece.shape.rings), default=None)


def _foot(piece: FastenerPiece) -> float:
    return max(at for at, _ in piece.shape.rings)


def _high(piece: FastenerPiece) -> float:
    far = [at for at, _ in piece.shape.rings]
    return max(far) - min(far)


def _socket_mm(fastener: PlacedFastener) -> float:
    """The hexagon socket across flats: of a grub screw half its diameter (ISO 4026, from memory)."""
    result = fastener.axis.worked.result
    screw = result.fastener
    try:
        size = head_of(screw.head, screw.size, drive=screw.drive).socket_mm if screw.head != "none" else None
    except InputError:
        size = None
    return size or result.major_mm / 2.0


def _row(table: str, size: float, tool: str = "") -> Row:
    rows = load(table).where("tool", tool) if tool else load(table).rows
    # The socket of a screw is a little wider than its key.
    return next((row for row in rows if size <= row.number("up_to") * 1.03 + 0.02), rows[-1])


def _driver(fastener: PlacedFastener, tool: Tool, base: Vector, out: Vector, size: float) -> ToolWay:
    row = _row("driver_clearances", size, tool)
    base = along(base, (out, _LIFT_MM))
    wide, short, long = (row.number(name) for name in ("diameter", "short", "long"))
    lift = _lift(fastener)
    short, long = max(short, lift), max(long, lift)
    box = box_of(_straight(base, out, wide, long))
    return ToolWay(fastener, tool, base, out, wide, short, long, box=box, lift=lift)


def _lift(fastener: PlacedFastener) -> float:
    """How far a headed screw stands further out when its point is at the mouth of its first hole."""
    if not any(piece.kind == "head" for piece in fastener.pieces):
        return 0.0
    tip = max(
        at for piece in fastener.pieces if piece.kind in ("head", "shank") for at, _ in piece.shape.rings
    )
    worked = fastener.axis.worked
    layers = [each for each in worked.result.extents if worked.inputs.stack[each.item].layer is not None]
    return max(0.0, tip - (layers[0].enter_mm if layers else 0.0))


def _spanner(
    fastener: PlacedFastener, foot: Vector, out: Vector, flats: float, high: float, *, at_nut: bool
) -> ToolWay:
    row = _row("spanner_clearances", flats)
    socket, long, jaw, thick, length = (
        row.number(name) for name in ("socket", "socket_length", "jaw", "thickness", "length")
    )
    thick = min(thick, high)
    base = along(foot, (out, _LIFT_MM))
    box = box_of(_straight(base, out, socket, long))
    return ToolWay(fastener, "spanner", base, out, socket, high, long, jaw, thick, length, at_nut, box)


def _straight(base: Vector, out: Vector, wide: float, length: float) -> Turned:
    return Turned(base, out, ((0.0, wide / 2.0), (length, wide / 2.0)))


def barred(way: ToolWay, copy: str, mass: Mass) -> InTheWay | None:
    """Tell how a part stands in the straight way of a driver, key or socket.

    Args:
        way: the tool where it bears.
        copy: the part's copy.
        mass: the part where it lies; its holes, bores and pockets are air.

    Returns:
        How far the way is free; None where the part is not in it.

    Source: geometry.
    """
    free = _free(way, mass)
    return None if free is None else InTheWay(way, copy, free)


def swing_box(way: ToolWay) -> Box:
    """Return the box about all that a spanner may need.

    Args:
        way: a spanner where it bears.

    Returns:
        The box [mm].

    Source: geometry.
    """
    return box_of(_straight(way.base, way.out, 2.0 * way.length, way.thickness))


def swing_barred(way: ToolWay, copy: str, mass: Mass) -> InTheWay | None:
    """Tell which turns of a spanner a part bars.

    Args:
        way: the spanner where it bears.
        copy: the part's copy.
        mass: the part where it lies.

    Returns:
        The directions that are barred, and how far the straight way is free; None where none is barred.

    Source: geometry.
    """
    turns = _turns(way, mass)
    if not turns:
        return None
    free = _free(way, mass)
    return InTheWay(way, copy, math.inf if free is None else free, turns)


def _free(way: ToolWay, mass: Mass) -> float | None:
    """How much of the straight way from where it bears is free [mm], within 0.01; None where all of it is."""
    if not _meets(_straight(way.base, way.out, way.diameter, way.long), mass):
        return None
    low, high = 0.0, way.long
    while high - low > _CLOSE_MM:
        middle = (low + high) / 2.0
        if _meets(_straight(way.base, way.out, way.diameter, middle), mass):
            high = middle
        else:
            low = middle
    return round(low + _LIFT_MM - _LEAST_MM, 2) if low > 2.0 * _LEAST_MM else 0.0


def _turns(way: ToolWay, mass: Mass) -> int:
    """The directions in which a spanner's handle is barred, a bit each; all where its jaw has no room."""
    jaw = _straight(way.base, way.out, way.jaw, way.thickness)
    if _meets(jaw, mass):
        return (1 << TURNS) - 1
    first = _square_to(way.out)
    second = cross(way.out, first)
    barred_turns, wide = 0, way.jaw / 2.0
    for turn in range(TURNS):
        angle = math.tau * turn / TURNS
        u = along((0.0, 0.0, 0.0), (first, math.cos(angle)), (second, math.sin(angle)))
        v = cross(way.out, u)
        corner = along(way.base, (v, -wide / 2.0))
        if _meets(Prism(corner, u, v, way.out, way.length, wide, way.thickness), mass):
            barred_turns |= 1 << turn
    return barred_turns


def _square_to(way: Vector) -> Vector:
    axis = min(range(3), key=lambda i: abs(way[i]))
    other: Vector = (float(axis == 0), float(axis == 1), float(axis == 2))
    found = cross(way, other)
    return scale(found, 1.0 / math.sqrt(dot(found, found)))


def _meets(shape: Shape, mass: Mass) -> bool:
    return piece_in_part(shape, mass, _LEAST_MM) is not None
