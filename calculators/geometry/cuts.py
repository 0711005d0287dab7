"""What a drill takes out of a part, in the part's own frame: bore with its point, countersink, counterbore.

A hole begins where its axis comes into material and, where no depth is given, goes on to where the axis
leaves it; where the surface is not square to the axis, or is round, it goes on so far that its whole
circle is through.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from calculators.geometry.chords import Chord, Surface, blank_stretch, chords, normal_at, pocket_frame
from calculators.geometry.frames import FaceFrame, face_frame, face_point
from calculators.geometry.model import Face, Pocket, Solid
from calculators.geometry.shapes import NOWHERE, Box, Prism, Shape, Turned
from calculators.geometry.solids import TOLERANCE_MM
from calculators.geometry.vectors import Vector, along, dot, scale

FAR_MM = 1e5


@dataclass(frozen=True, slots=True)
class Bored:
    """A hole as it is marked out and made, in millimetres and degrees.

    On a round part's `side`, `angle` stands for v. `way` is the axis inward where it is not square to the
    face. `depth` None is right through; else to the drill's shoulder, from where the material begins, with
    the cone `point` beyond it. `below` says how far under the face the material begins of which the hole
    is; None: where the axis first meets material, and right through is through all of it. `slot_length` is
    the whole length of a slot.
    """

    face: Face
    u: float
    v: float
    diameter: float
    depth: float | None = None
    point: float = 0.0
    angle: float | None = None
    way: Vector | None = None
    below: float | None = None
    countersink_diameter: float = 0.0
    countersink_angle: float = 90.0
    countersink_depth: float | None = None
    counterbore_diameter: float = 0.0
    counterbore_depth: float = 0.0
    slot_length: float = 0.0
    slot_along: str = ""


@dataclass(frozen=True, slots=True)
class Cut:
    """What a hole takes out of a part: the bore, and its countersink or counterbore.

    `mark` is the point on the face, `way` the axis inward; `enter` and `leave` are distances from the mark
    along it [mm]: where the material begins, and where the bore ends (a blind one with its drill point).
    `first` and `last` are the stretches of material in which it begins and, where it goes right through,
    ends; `last` is None for a blind hole. `square` says that the axis is square to the face.
    """

    bore: Turned
    recess: Turned | None
    mark: Vector
    way: Vector
    radius: float
    enter: float
    leave: float
    first: Chord
    last: Chord | None
    square: bool


def cut_of(solid: Solid, bored: Bored, pockets: Sequence[int] | None = None) -> Cut | None:
    """Return what a hole takes out of a part.

    Args:
        solid: the part with its pockets.
        bored: the hole.
        pockets: the places, among the part's pockets, of those that its axis may meet; None for all of them.

    Returns:
        The cut; None where the axis does not meet the part's material.

    Raises:
        InputError: when the part has no such face.

    Source: this project; the drill's point as in `calculators.hardware.holes`.

    Example:
        >>> plate = Solid("block", 100, 50, 20)
        >>> cut_of(plate, Bored("top", 30, 20, 6)).bore.rings
        ((0.0, 3.0), (20.0, 3.0))
    """
    frame, mark = _marked(solid, bored)
    way = bored.way or frame.inward
    # A hair inside the face, so that an axis in a face's own plane is none.
    stretches = [chord for chord in _stretches(solid, mark, way, pockets) if chord.leave > TOLERANCE_MM]
    below = bored.below
    if below is not None:
        stretches = [chord for chord in stretches if chord.leave > below + 2e-4][:1]
    if not stretches:
        return None
    first, end = stretches[0], stretches[-1]
    enter = max(0.0, first.enter if below is None else below)
    radius = bored.diameter / 2.0
    square = bored.way is None or abs(dot(way, frame.inward)) > 1.0 - 1e-12
    level = square and first.surface_in.of != "outline"
    back = 0.0 if level else _over(solid, first, along(mark, (way, enter)), way, radius, coming=True)
    slide = _slide(frame, bored)
    rings: tuple[tuple[float, float], ...]
    if bored.depth is None:
        leave = max(end.leave, enter)
        on = _over(solid, end, along(mark, (way, leave)), way, radius, coming=False)
        rings = ((enter - back, radius), (leave + on, radius))
    else:
        leave = enter + bored.depth + bored.point
        rings = ((enter - back, radius), (enter + bored.depth, radius))
        if bored.point > 0.0:
            rings = (*rings, (leave, 0.0))
    bore = Turned(mark, way, rings, slide)
    last = end if bored.depth is None else None
    return Cut(bore, _recess(bored, mark, way, enter), mark, way, radius, enter, leave, first, last, square)


def _stretches(solid: Solid, mark: Vector, way: Vector, pockets: Sequence[int] | None) -> list[Chord]:
    """The stretches of material on an axis; of the pockets only some are looked at, by their own places."""
    if pockets is None or len(pockets) == len(solid.pockets):
        return chords(solid, mark, way)
    part = replace(solid, pockets=tuple(solid.pockets[i] for i in pockets))
    return [
        Chord(one.enter, one.leave, _own(one.surface_in, pockets), _own(one.surface_out, pockets))
        for one in chords(part, mark, way)
    ]


def _own(surface: Surface, pockets: Sequence[int]) -> Surface:
    return surface if surface.of != "pocket" else Surface("pocket", pockets[surface.pocket])


def axis_box(solid: Solid, bored: Bored) -> Box:
    """Return a box that holds the axis of a hole as far as it runs in the part.

    Args:
        solid: the part.
        bored: the hole.

    Returns:
        The box [mm].

    Raises:
        InputError: when the part has no such face.

    Source: this project.
    """
    frame, mark = _marked(solid, bored)
    way = bored.way or frame.inward
    stretch = blank_stretch(solid, mark, way) or (0.0, 0.0)
    a, b = along(mark, (way, stretch[0])), along(mark, (way, stretch[1]))
    return (
        (min(a[0], b[0]), min(a[1], b[1]), min(a[2], b[2])),
        (max(a[0], b[0]), max(a[1], b[1]), max(a[2], b[2])),
    )


def _marked(solid: Solid, bored: Bored) -> tuple[FaceFrame, Vector]:
    if bored.face == "side" and solid.shape == "round":
        angle = bored.angle if bored.angle is not None else bored.v
        return face_frame(solid, "side", angle), face_point(solid, "side", bored.u, angle)
    frame = face_frame(solid, bored.face)
    return frame, frame.point(bored.u, bored.v)


def _slide(frame: FaceFrame, bored: Bored) -> Vector:
    run = bored.slot_length - bored.diameter
    if run <= 0.0:
        return NOWHERE
    return scale(frame.v_axis if bored.slot_along == "v" else frame.u_axis, run)


def _over(solid: Solid, chord: Chord, xyz: Vector, way: Vector, radius: float, *, coming: bool) -> float:
    """Return how far past the axis's own point the whole circle of a drill is through a surface [mm]."""
    surface = chord.surface_in if coming else chord.surface_out
    if solid.shape == "block" and surface.of == "blank" and max(map(abs, way)) > 1.0 - 1e-12:
        return 0.0
    cosine = abs(dot(normal_at(solid, surface, xyz), way))
    over = radius * min(math.sqrt(max(0.0, 1.0 - cosine * cosine)) / max(cosine, 1e-6), 3.0)
    if surface.of == "bore":
        bore = solid.bore / 2.0
        over += bore - math.sqrt(max(0.0, bore * bore - radius * radius))
    return over if over > TOLERANCE_MM else 0.0


def _recess(bored: Bored, mark: Vector, way: Vector, enter: float) -> Turned | None:
    """Return the countersink or the counterbore; of both, the wider."""
    sink, bore = bored.countersink_diameter, bored.counterbore_diameter
    if sink > bored.diameter and sink >= bore:
        half = math.tan(math.radians(min(max(bored.countersink_angle, 1.0), 179.0)) / 2.0)
        cone = (sink - bored.diameter) / 2.0 / half
        land = max((bored.countersink_depth or 0.0) - cone, 0.0)
        rings: tuple[tuple[float, float], ...] = (
            (enter, sink / 2.0),
            (enter + land + cone, bored.diameter / 2.0),
        )
        if land > TOLERANCE_MM:
            rings = (rings[0], (enter + land, sink / 2.0), rings[1])
        return Turned(mark, way, rings)
    if bore > 0.0 and bored.counterbore_depth > 0.0:
        return Turned(mark, way, ((enter, bore / 2.0), (enter + bored.counterbore_depth, bore / 2.0)))
    return None


def pocket_shape(solid: Solid, pocket: Pocket) -> Shape:
    """Return what a pocket takes out of a part, in the part's own frame.

    Args:
        solid: the part.
        pocket: one of its pockets; one that goes right through ends at the far side of the part.

    Returns:
        A prism, or a cylinder for one with a diameter.

    Raises:
        InputError: when the part has no such face.

    Source: this project.

    Example:
        >>> plate = Solid("block", 100, 50, 20)
        >>> pocket_shape(plate, Pocket("top", 10, 5, 4, length=30, width=20)).depth
        4
    """
    frame = pocket_frame(solid, pocket)
    depth = through_depth(solid, frame) if pocket.depth is None else pocket.depth
    if pocket.diameter:
        radius = pocket.diameter / 2.0
        return Turned(frame.point(pocket.u, pocket.v), frame.inward, ((0.0, radius), (depth, radius)))
    return Prism(
        frame.point(pocket.u, pocket.v), frame.u_axis, frame.v_axis, frame.inward,
        pocket.length, pocket.width, depth, pocket.corner_radius,
    )  # fmt: skip


def through_depth(solid: Solid, frame: FaceFrame) -> float:
    """Return how far it is from a plane of a part square through to its far side.

    Args:
        solid: the part.
        frame: the plane of one of its faces.

    Returns:
        The depth [mm].

    Source: this project.
    """
    if solid.shape == "round":
        return solid.length if abs(frame.inward[0]) > 0.5 else solid.diameter
    sizes = (solid.length, solid.width, solid.thickness)
    return sum(abs(way) * size for way, size in zip(frame.inward, sizes, strict=True))


def bore_shape(solid: Solid) -> Turned | None:
    """Return the bore of a round part.

    Args:
        solid: the part.

    Returns:
        The cylinder about X; None where there is no bore.

    Source: this project.
    """
    if solid.shape != "round" or solid.bore <= TOLERANCE_MM:
        return None
    radius = solid.bore / 2.0
    return Turned(NOWHERE, (1.0, 0.0, 0.0), ((0.0, radius), (solid.length, radius)))


def without_recesses(solid: Solid, pockets: int) -> Solid:
    """Return a part with its first pockets alone: without the counterbores that holes bring.

    Args:
        solid: the part.
        pockets: how many of its pockets are pockets.

    Returns:
        The part.

    Source: this project.
    """
    return solid if len(solid.pockets) == pockets else replace(solid, pockets=solid.pockets[:pockets])
