"""Where a straight line runs in the material of one part, in the part's own frame.

A part is a convex blank (block or cylinder) less its bore and its pockets, each convex, so a line meets
each of them in one stretch at most and the material is what is left of the blank's stretch. A block that is
sawn to an outline has several stretches to begin with.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from calculators.geometry.frames import FaceFrame, face_frame
from calculators.geometry.model import Face, Pocket, Solid
from calculators.geometry.outline_lines import normal_near, stretches_inside
from calculators.geometry.solids import TOLERANCE_MM
from calculators.geometry.vectors import Vector, along, dot, scale

_PARALLEL = 1e-12
EVERYWHERE = (-math.inf, math.inf)
Stretch = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Surface:
    """Which surface the line crosses: the blank's outside, its bore, its outline, or a pocket (by its index).

    Where the outline lies in a face of the blank, it is the blank's outside.
    """

    of: Literal["blank", "bore", "pocket", "outline"]
    pocket: int = -1


@dataclass(frozen=True, slots=True)
class Chord:
    """One stretch of material on the line: from `enter` to `leave` [mm along it], by which surfaces."""

    enter: float
    leave: float
    surface_in: Surface
    surface_out: Surface


def blank_stretch(solid: Solid, start: Vector, way: Vector) -> Stretch | None:
    """Return where a line runs inside the uncut blank of a part.

    Args:
        solid: the part.
        start: a point of the line [mm] in the part's frame.
        way: its direction, a unit vector in the part's frame.

    Returns:
        The two distances from start [mm], or None where the line misses or only grazes it.

    Source: this project (line against planes and cylinder).
    """
    if solid.shape == "block":
        sizes = (solid.length, solid.width, solid.thickness)
        return _meet(_between(start[i], way[i], 0.0, sizes[i]) for i in range(3))
    ends = _between(start[0], way[0], 0.0, solid.length)
    return _meet((ends, _circle(start[1:], way[1:], solid.diameter / 2.0)))


def chords(solid: Solid, start: Vector, way: Vector) -> list[Chord]:
    """Return the stretches of material of a part on a line, in order.

    Args:
        solid: the part.
        start: a point of the line [mm] in the part's frame.
        way: its direction, a unit vector in the part's frame.

    Returns:
        The stretches; none thinner than a millionth of a millimetre.

    Source: this project (line against convex shapes).

    Example:
        >>> tube = Solid("round", 50, diameter=20, bore=14)
        >>> [(c.enter, c.leave) for c in chords(tube, (25, -10, 0), (0, 1, 0))]
        [(0.0, 3.0), (17.0, 20.0)]
    """
    blank = blank_stretch(solid, start, way)
    if blank is None:
        return []
    material = [Chord(*blank, Surface("blank"), Surface("blank"))]
    if solid.outline and solid.shape == "block":
        material = list(_within_outline(solid, start, way, blank))
    if solid.shape == "round" and solid.bore > TOLERANCE_MM:
        bored = _circle(start[1:], way[1:], solid.bore / 2.0)
        material = _less(material, bored, Surface("bore"))
    for index, pocket in enumerate(solid.pockets):
        material = _less(material, pocket_stretch(solid, pocket, start, way), Surface("pocket", index))
    return material


def _within_outline(solid: Solid, start: Vector, way: Vector, blank: Stretch) -> Iterator[Chord]:
    """The stretches inside the outline of what a line runs in the uncut block."""
    for low, high in stretches_inside(solid.outline, start[:2], way[:2]):
        enter, leave = max(low, blank[0]), min(high, blank[1])
        if leave - enter > TOLERANCE_MM:
            ends = [
                Surface(
                    "outline" if at != limit and not _on_block(solid, along(start, (way, at))) else "blank"
                )
                for at, limit in ((enter, blank[0]), (leave, blank[1]))
            ]
            yield Chord(enter, leave, *ends)


def _on_block(solid: Solid, xyz: Vector) -> bool:
    """Whether a point of the outline lies in a face of the uncut block."""
    sizes = (solid.length, solid.width)
    return any(min(abs(xyz[i]), abs(xyz[i] - sizes[i])) <= TOLERANCE_MM for i in (0, 1))


def pocket_stretch(solid: Solid, pocket: Pocket, start: Vector, way: Vector) -> Stretch | None:
    """Return where a line runs inside a pocket, which is open to the outside of its face.

    Args:
        solid: the part.
        pocket: one of its pockets.
        start: a point of the line [mm] in the part's frame.
        way: its direction, a unit vector in the part's frame.

    Returns:
        The two distances from start [mm], or None where the line misses or only grazes it.

    Source: this project (line against a rounded rectangle or a circle, and against the floor).
    """
    frame = face_frame(solid, pocket.face, pocket.angle)
    u, v, depth = frame.read(start)
    u_way, v_way, sink = dot(way, frame.u_axis), dot(way, frame.v_axis), dot(way, frame.inward)
    floor = math.inf if pocket.depth is None else pocket.depth
    outline = _outline(pocket, (u, v), (u_way, v_way))
    return _meet((outline, _between(depth, sink, -math.inf, floor)))


def pocket_frame(solid: Solid, pocket: Pocket) -> FaceFrame:
    """Return the plane that a pocket's u and v are measured in.

    Args:
        solid: the part.
        pocket: one of its pockets.

    Returns:
        The frame of the pocket's face [mm].

    Raises:
        InputError: when the part has no such face.

    Source: this project.
    """
    return face_frame(solid, pocket.face, pocket.angle)


def _outline(pocket: Pocket, start: tuple[float, float], way: tuple[float, float]) -> Stretch | None:
    if pocket.diameter:
        return _circle((start[0] - pocket.u, start[1] - pocket.v), way, pocket.diameter / 2.0)
    radius = min(pocket.corner_radius, pocket.length / 2.0, pocket.width / 2.0)
    if not radius:
        return _rectangle(pocket, 0.0, 0.0, start, way)
    pieces = [_rectangle(pocket, radius, 0.0, start, way), _rectangle(pocket, 0.0, radius, start, way)]
    for u in (pocket.u + radius, pocket.u + pocket.length - radius):
        for v in (pocket.v + radius, pocket.v + pocket.width - radius):
            pieces.append(_circle((start[0] - u, start[1] - v), way, radius))
    met = [piece for piece in pieces if piece]
    # The pieces cover a convex outline, so what the line meets of them is one stretch.
    return (min(piece[0] for piece in met), max(piece[1] for piece in met)) if met else None


def _rectangle(
    pocket: Pocket, less_u: float, less_v: float, start: tuple[float, float], way: tuple[float, float]
) -> Stretch | None:
    across = _between(start[0], way[0], pocket.u + less_u, pocket.u + pocket.length - less_u)
    up = _between(start[1], way[1], pocket.v + less_v, pocket.v + pocket.width - less_v)
    return _meet((across, up))


def _between(start: float, way: float, low: float, high: float) -> Stretch | None:
    """Return where a coordinate that goes from `start` at the rate `way` lies between two planes."""
    if abs(way) < _PARALLEL:
        return EVERYWHERE if low + TOLERANCE_MM < start < high - TOLERANCE_MM else None
    first, last = (low - start) / way, (high - start) / way
    return (first, last) if first <= last else (last, first)


def _circle(start: tuple[float, float], way: tuple[float, float], radius: float) -> Stretch | None:
    """Return where a plane line lies inside a circle about (0, 0)."""
    speed = math.hypot(*way)
    if speed < _PARALLEL:
        return EVERYWHERE if math.hypot(*start) < radius - TOLERANCE_MM else None
    unit = (way[0] / speed, way[1] / speed)
    nearest = -(start[0] * unit[0] + start[1] * unit[1])
    off = start[0] * unit[1] - start[1] * unit[0]
    if abs(off) >= radius - TOLERANCE_MM:
        return None
    half = math.sqrt((radius - off) * (radius + off))
    return (nearest - half) / speed, (nearest + half) / speed


def _meet(stretches: Iterable[Stretch | None]) -> Stretch | None:
    enter, leave = EVERYWHERE
    for stretch in stretches:
        if stretch is None:
            return None
        enter, leave = max(enter, stretch[0]), min(leave, stretch[1])
    return (enter, leave) if leave - enter > TOLERANCE_MM else None


def _less(material: list[Chord], gone: Stretch | None, surface: Surface) -> list[Chord]:
    """Take one stretch off the material; the cut's surface is where the material then ends."""
    if gone is None:
        return material
    left: list[Chord] = []
    for piece in material:
        if gone[1] <= piece.enter or gone[0] >= piece.leave:
            left.append(piece)
            continue
        if gone[0] - piece.enter > TOLERANCE_MM:
            left.append(Chord(piece.enter, gone[0], piece.surface_in, surface))
        if piece.leave - gone[1] > TOLERANCE_MM:
            left.append(Chord(gone[1], piece.leave, surface, piece.surface_out))
    return left


def normal_at(solid: Solid, surface: Surface, xyz: Vector) -> Vector:
    """Return the unit normal of a surface at a point on it, of either sense.

    Args:
        solid: the part.
        surface: which of its surfaces.
        xyz: the point [mm] in the part's frame.

    Returns:
        The unit normal in the part's frame.

    Source: this project.
    """
    if surface.of == "pocket":
        return _pocket_normal(solid, solid.pockets[surface.pocket], xyz)
    if surface.of == "outline":
        return (*normal_near(solid.outline, xyz[0], xyz[1]), 0.0)
    if solid.shape == "block":
        return face_frame(solid, blank_face(solid, xyz)).inward
    if surface.of == "blank" and blank_face(solid, xyz) != "side":
        return (1.0, 0.0, 0.0)
    from_axis = math.hypot(xyz[1], xyz[2])
    return (0.0, xyz[1] / from_axis, xyz[2] / from_axis)


def _pocket_normal(solid: Solid, pocket: Pocket, xyz: Vector) -> Vector:
    frame = pocket_frame(solid, pocket)
    u, v, depth = frame.read(xyz)
    if pocket.depth is not None and abs(depth - pocket.depth) < 2 * TOLERANCE_MM:
        return frame.inward
    du, dv = (u - pocket.u, v - pocket.v) if pocket.diameter else _from_core(pocket, u, v)
    length = math.hypot(du, dv) or 1.0
    return scale(along((0.0, 0.0, 0.0), (frame.u_axis, du), (frame.v_axis, dv)), 1.0 / length)


def _from_core(pocket: Pocket, u: float, v: float) -> tuple[float, float]:
    """Return the way from the nearest point of a rounded rectangle's core to a point on its wall."""
    # A hair of radius keeps a square corner from having its core on the wall itself.
    radius = max(pocket.corner_radius, 1e-3)
    core_u = min(max(u, pocket.u + radius), pocket.u + pocket.length - radius)
    core_v = min(max(v, pocket.v + radius), pocket.v + pocket.width - radius)
    return u - core_u, v - core_v


def blank_face(solid: Solid, xyz: Vector) -> Face:
    """Return the face of the uncut blank on which a point of its outside lies (the nearest one).

    Args:
        solid: the part.
        xyz: the point [mm] in the part's frame.

    Returns:
        The face.

    Source: this project.
    """
    x, y, z = xyz
    off: dict[Face, float] = {"left": abs(x), "right": abs(x - solid.length)}
    if solid.shape == "round":
        off["side"] = abs(math.hypot(y, z) - solid.diameter / 2.0)
    else:
        off |= {"front": abs(y), "back": abs(y - solid.width)}
        off |= {"bottom": abs(z), "top": abs(z - solid.thickness)}
    return min(off, key=lambda face: off[face])
