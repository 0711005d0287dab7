"""A DXF file read as plain shapes: blocks put in, curves laid out, all that was not understood listed."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import BinaryIO

from calculators.drawing.dxf_curves import (
    Placing,
    Spline,
    arc_path,
    carried,
    ellipse_points,
    spline_points,
)
from calculators.drawing.dxf_tags import RawDrawing, RawEntity, name_of, taken_apart
from calculators.drawing.flat_drawing import UNITS_MM, FlatCircle, FlatDrawing, FlatPath, FlatPoint, LeftOut
from calculators.geometry.outlines import Outline, Point2, Vertex
from calculators.quantities.errors import InputError

OFF_MM = 0.01
"""How far short lines may be off the curve that they stand for [mm]."""

MOST_SHAPES = 20_000
"""The most circles, paths and points, with all that blocks put in."""

MOST_CORNERS = 100_000
DEEPEST = 16
"""How deep blocks may lie in blocks."""

_FARTHEST = 1e8
"""A number beyond this is no place of a part in any unit."""

_PLACES = (10, 20, 30, 11, 21, 31)


def read_dxf(file: BinaryIO) -> FlatDrawing:
    """Read a DXF file.

    Args:
        file: the file, open at its beginning.

    Returns:
        Its shapes in its own unit. Ellipses and splines, and circles that a block stretches unevenly, are
        laid out in lines within 0.01 mm (also where no unit is stated and it turns out to be the inch).

    Raises:
        InputError: where it is no DXF in text, is cut off, or holds more than is read.

    Source: the format as general libraries state it (from memory).
    """
    raw = taken_apart(file)
    found = _Found(raw, OFF_MM / UNITS_MM.get(raw.unit, UNITS_MM["in"]))
    found.read(raw.entities, _Inside())
    shapes = (tuple(found.circles), tuple(found.paths), tuple(found.points))
    return FlatDrawing(raw.unit, *shapes, tuple(found.left), tuple(dict.fromkeys(raw.hidden)))


@dataclass(frozen=True, slots=True)
class _Inside:
    """Where one reads: the blocks that one is in, how they lie, and the layer that they were put on."""

    blocks: tuple[str, ...] = ()
    placing: Placing = field(default_factory=Placing)
    layer: str = "0"


class _Strange(Exception):
    """What is wrong with an entity, in words."""


@dataclass
class _Found:
    """The shapes found so far."""

    raw: RawDrawing
    off: float
    circles: list[FlatCircle] = field(default_factory=list)
    paths: list[FlatPath] = field(default_factory=list)
    points: list[FlatPoint] = field(default_factory=list)
    left: list[LeftOut] = field(default_factory=list)
    looked_at: int = 0
    corners: int = 0

    def read(self, entities: Iterable[RawEntity], inside: _Inside) -> None:
        """Read entities one after another; a polyline of the old kind takes its vertices with it."""
        waiting = iter(entities)
        for one in waiting:
            self._count_one()
            vertices = _vertices(waiting) if one.kind == "POLYLINE" and one.text(66) != "0" else []
            if one.kind in ("SEQEND", "VIEWPORT", "ATTRIB"):
                continue
            layer = name_of(one.text(8)) or "0"
            layer = inside.layer if layer == "0" else layer
            try:
                self._one(one, vertices, layer, inside)
            except _Strange as strange:
                self._leave(one, layer, str(strange), inside)

    def _count_one(self) -> None:
        self.looked_at += 1
        if self.looked_at > MOST_SHAPES:
            raise _too_many(f"{MOST_SHAPES:,} shapes, with those of its blocks")

    def _one(self, one: RawEntity, vertices: list[RawEntity], layer: str, inside: _Inside) -> None:
        if one.text(67) == "1":
            raise _Strange("lies on a sheet for printing, not in the drawing")
        if one.text(60) == "1":
            raise _Strange("is hidden in the drawing")
        if one.kind == "INSERT":
            self._insert(one, layer, inside)
        elif one.kind == "POLYLINE":
            self._old_polyline(one, vertices, layer, inside.placing)
        elif one.kind in _READERS:
            _READERS[one.kind](self, one, layer, inside.placing)
        else:
            raise _Strange(_WHY.get(one.kind, "is of a kind that no hole or outline is made from"))

    def _leave(self, one: RawEntity, layer: str, why: str, inside: _Inside) -> None:
        place: tuple[float | None, float | None] = (None, None)
        try:
            if one.text(10) and one.text(20):
                place = inside.placing.at(_number(one.text(10)), _number(one.text(20)))
        except _Strange:
            pass  # its place is what is wrong with it
        self.left.append(LeftOut(one.kind[:40], layer, why, *place))

    def add_circle(self, layer: str, x: float, y: float, radius: float, by: Placing) -> None:
        """Add a circle, or what a block makes of it."""
        if radius * by.scale < 1e-9:
            raise _Strange("has no radius")
        if by.is_even:
            self.circles.append(FlatCircle(layer, *by.at(x, y), radius * by.scale))
        else:
            self.add_ellipse(layer, by.at(x, y), by.way(radius, 0), by.way(0, radius), (0.0, 2 * math.pi))

    def add_path(
        self, layer: str, outline: Outline, by: Placing, *, closed: bool = False, curve: str = ""
    ) -> None:
        """Add lines and arcs."""
        if len(outline) < 2:
            raise _Strange("has fewer than two corners")
        placed, is_laid_out = carried(outline, by, self.off)
        if not closed and not is_laid_out:
            placed = (*placed[:-1], Vertex(placed[-1].x, placed[-1].y))
        self.corners += len(placed)
        if self.corners > MOST_CORNERS:
            raise _too_many(f"{MOST_CORNERS:,} corners")
        self.paths.append(FlatPath(layer, placed, closed, curve or ("arc" if is_laid_out else "")))

    def add_ellipse(
        self, layer: str, centre: Point2, long: Point2, short: Point2, turns: tuple[float, float]
    ) -> None:
        """Add an ellipse or an arc of one, as it lies in the drawing."""
        first, last = turns
        whole = last - first >= 2 * math.pi - 1e-9
        points = ellipse_points(centre, long, short, first, min(last, first + 2 * math.pi), self.off)
        if points is None:
            raise _Strange("is too large to be laid out in lines within 0.01 mm")
        outline = tuple(Vertex(x, y) for x, y in (points[:-1] if whole else points))
        self.add_path(layer, outline, Placing(), closed=whole, curve="ellipse")

    def _insert(self, one: RawEntity, layer: str, inside: _Inside) -> None:
        name = one.text(2).casefold()
        block = self.raw.blocks.get(name)
        if block is None:
            raise _Strange("puts in a block that the file does not have")
        if name in inside.blocks or len(inside.blocks) >= DEEPEST:
            raise _Strange("puts in a block that holds itself")
        base = (_number(block.values.text(10) or "0"), _number(block.values.text(20) or "0"))
        columns, rows = max(_count(one.text(70)), 1), max(_count(one.text(71)), 1)
        turn = math.radians(_number(one.text(50) or "0"))
        c, s = math.cos(turn), math.sin(turn)
        for row in range(rows):
            for column in range(columns):
                self._count_one()
                step = (column * _number(one.text(44) or "0"), row * _number(one.text(45) or "0"))
                x = _number(one.text(10)) + step[0] * c - step[1] * s
                y = _number(one.text(20)) + step[0] * s + step[1] * c
                wide, tall = _number(one.text(41) or "1"), _number(one.text(42) or "1")
                if wide == 0 or tall == 0:
                    raise _Strange("puts in a block at no size")
                own = Placing(wide * c, wide * s, -tall * s, tall * c, x, y).after(
                    Placing(e=-base[0], f=-base[1])
                )
                placing = inside.placing.after(_plane(one)).after(own)
                _check_near(placing)
                self.read(block.entities, _Inside((*inside.blocks, name), placing, layer))

    def _old_polyline(self, one: RawEntity, vertices: list[RawEntity], layer: str, by: Placing) -> None:
        flags = _count(one.text(70))
        if flags & (8 | 16 | 64):
            raise _Strange("is a polyline or a mesh in space, not in a plane")
        shown = [each for each in vertices if not _count(each.text(70)) & 16]
        outline = tuple(_vertex(each) for each in shown)
        curve = "curve through points" if flags & (2 | 4) else ""
        self.add_path(layer, outline, by.after(_plane(one)), closed=bool(flags & 1), curve=curve)


def _vertices(waiting: Iterable[RawEntity]) -> list[RawEntity]:
    found = []
    for one in waiting:
        if one.kind != "VERTEX":
            break
        found.append(one)
    return found


def _number(text: str) -> float:
    """A number of an entity."""
    try:
        value = float(text)
    except ValueError:
        raise _Strange("has a number that is none") from None
    if not abs(value) <= _FARTHEST:
        raise _Strange("reaches farther than any part")
    return value


def _count(text: str) -> int:
    return int(text) if text.isascii() and text.isdigit() and len(text) < 7 else 0


def _check_near(placing: Placing) -> None:
    numbers = (placing.a, placing.b, placing.c, placing.d, placing.e, placing.f)
    if not all(abs(value) <= _FARTHEST for value in numbers):
        raise _Strange("reaches farther than any part")


def _plane(one: RawEntity) -> Placing:
    """How the entity's own plane lies; seen from behind, x is turned round."""
    x, y, z = (_number(one.text(code) or default) for code, default in ((210, "0"), (220, "0"), (230, "1")))
    if abs(x) > 1e-9 or abs(y) > 1e-9 or z == 0:
        raise _Strange("lies in a plane aslant to the drawing")
    return Placing() if z > 0 else Placing(a=-1.0)


def _vertex(one: RawEntity) -> Vertex:
    return Vertex(_number(one.text(10)), _number(one.text(20)), _bulge(one.text(42)))


def _bulge(text: str) -> float:
    bulge = _number(text or "0")
    if abs(bulge) > 1e4:
        raise _Strange("has an arc that is all but a whole circle; draw a circle")
    return bulge if abs(bulge) > 1e-9 else 0.0


def _line(found: _Found, one: RawEntity, layer: str, by: Placing) -> None:
    x, y, z, to_x, to_y, to_z = (_number(one.text(code) or "0") for code in _PLACES)
    if abs(z - to_z) > 1e-6:
        raise _Strange("is a line in space, not in a plane")
    found.add_path(layer, (Vertex(x, y), Vertex(to_x, to_y)), by)


def _circle(found: _Found, one: RawEntity, layer: str, by: Placing) -> None:
    x, y, radius = (_number(one.text(code)) for code in (10, 20, 40))
    found.add_circle(layer, x, y, radius, by.after(_plane(one)))


def _arc(found: _Found, one: RawEntity, layer: str, by: Placing) -> None:
    x, y, radius, first, last = (_number(one.text(code)) for code in (10, 20, 40, 50, 51))
    turn = (last - first) % 360.0
    if turn < 1e-9 or turn > 360.0 - 1e-9:
        found.add_circle(layer, x, y, radius, by.after(_plane(one)))
    elif radius <= 0:
        raise _Strange("has no radius")
    else:
        found.add_path(layer, arc_path(x, y, radius, first, turn), by.after(_plane(one)))


def _polyline(found: _Found, one: RawEntity, layer: str, by: Placing) -> None:
    corners: list[list[str]] = []
    for code, value in one.values:
        if code == 10:
            corners.append([value, "", ""])
        elif code == 20 and corners:
            corners[-1][1] = value
        elif code == 42 and corners:
            corners[-1][2] = value
    outline = tuple(Vertex(_number(x), _number(y), _bulge(bulge)) for x, y, bulge in corners)
    found.add_path(layer, outline, by.after(_plane(one)), closed=bool(_count(one.text(70)) & 1))


def _ellipse(found: _Found, one: RawEntity, layer: str, by: Placing) -> None:
    x, y, long_x, long_y, ratio = (_number(one.text(code)) for code in (10, 20, 11, 21, 40))
    first, last = _number(one.text(41) or "0"), _number(one.text(42) or str(2 * math.pi))
    turned = _plane(one).a
    if not 1e-6 <= abs(ratio) <= 1 + 1e-9 or math.hypot(long_x, long_y) == 0:
        raise _Strange("is an ellipse without width")
    turn = (last - first) % (2 * math.pi)
    whole = turn < 1e-9 or turn > 2 * math.pi - 1e-9
    short = (-long_y * ratio * turned, long_x * ratio * turned)
    if whole and abs(abs(ratio) - 1) < 1e-9 and by.is_even:
        found.add_circle(layer, x, y, math.hypot(long_x, long_y), by)
        return
    turns = (first, first + (2 * math.pi if whole else turn))
    found.add_ellipse(layer, by.at(x, y), by.way(long_x, long_y), by.way(*short), turns)


def _spline(found: _Found, one: RawEntity, layer: str, by: Placing) -> None:
    knots, weights, controls = [], [], []
    for code, value in one.values:
        if code == 40:
            knots.append(_number(value))
        elif code == 41:
            weights.append(_number(value))
        elif code == 10:
            controls.append([_number(value), 0.0])
        elif code == 20 and controls:
            controls[-1][1] = _number(value)
    if not controls:
        raise _Strange("is a spline that states only the points that it goes through")
    spline = Spline(_count(one.text(71)), knots, [by.at(x, y) for x, y in controls], weights)
    if spline.fault:
        raise _Strange(f"is {spline.fault}")
    points = spline_points(spline, found.off)
    if points is None:
        raise _Strange("is too large to be laid out in lines within 0.01 mm")
    found.add_path(layer, tuple(Vertex(x, y) for x, y in points), Placing(), curve="spline")


def _point(found: _Found, one: RawEntity, layer: str, by: Placing) -> None:
    found.points.append(FlatPoint(layer, *by.at(_number(one.text(10)), _number(one.text(20)))))


_READERS: dict[str, Callable[[_Found, RawEntity, str, Placing], None]] = {
    "LINE": _line,
    "CIRCLE": _circle,
    "ARC": _arc,
    "LWPOLYLINE": _polyline,
    "ELLIPSE": _ellipse,
    "SPLINE": _spline,
    "POINT": _point,
}
_WRITTEN = "is writing, which makes no hole"
_WHY = {
    "TEXT": _WRITTEN,
    "MTEXT": _WRITTEN,
    "ATTDEF": _WRITTEN,
    "DIMENSION": "is a dimension, which makes no hole; what it says is not read",
    "LEADER": "is a leader, which makes no hole",
    "MULTILEADER": "is a leader, which makes no hole",
    "HATCH": "is hatching; draw the line about it",
}


def _too_many(what: str) -> InputError:
    return InputError.of(
        f"The drawing has more than {what}, the most that is read; keep in it only the outline and the holes "
        "of this part.",
        field="file",
    )
