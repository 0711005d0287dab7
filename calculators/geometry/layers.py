"""Which parts an axis meets, in order, and where each is to be marked for its hole."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from calculators.geometry.chords import Chord, Surface, blank_face, blank_stretch, chords, normal_at
from calculators.geometry.frames import face_frame, to_face
from calculators.geometry.model import Body, Face, Layer, Solid
from calculators.geometry.solids import TOLERANCE_MM, is_number
from calculators.geometry.vectors import Transform, Vector, along, dot, scale, subtract
from calculators.quantities.errors import InputError

SQUARE_DEG = 0.1
"""An axis within this of a surface's normal is square to it."""
_SIDES: tuple[Face, ...] = ("front", "back", "left", "right")
_SQUARE_COSINE = math.cos(math.radians(SQUARE_DEG))


@dataclass(frozen=True, slots=True)
class Overlap:
    """Two layers that claim the same stretch of the axis, from `enter` to `leave` [mm]: a clash."""

    first: Layer
    second: Layer
    enter: float
    leave: float


@dataclass(frozen=True, slots=True)
class Gap:
    """Air on the axis between two layers, from `enter` to `leave` [mm]."""

    before: Layer
    after: Layer
    enter: float
    leave: float


@dataclass(frozen=True, slots=True)
class Mark:
    """Where a hole is marked out on the blank's own face: u, v (v in degrees on `side`).

    `below` is how far the material lies under that face along the axis [mm] (in a recess). `oblique` says
    that the axis is not square to the surface there within 0.1 degree.
    """

    face: Face
    u: float
    v: float
    below: float
    oblique: bool


@dataclass(frozen=True, slots=True)
class HoleMarks:
    """Where the hole of a layer is marked, from the side the axis comes in and from the side it goes out.

    Faces, u and v are those of the drawn part; `mirrored` says that this copy is its mirror image, so that
    the same u, v are laid off the other way round.
    """

    entry: Mark
    exit: Mark
    mirrored: bool


def axis_from(
    body_name: str,
    face: Face,
    u: float,
    v: float,
    bodies: Iterable[Body],
    placed: Mapping[str, Transform],
    *,
    from_outside: bool = False,
) -> tuple[Vector, Vector]:
    """Return the axis that goes inward from a point of a face.

    Args:
        body_name: the copy whose face it is.
        face: the face of the drawn part.
        u: along the face's u [mm].
        v: along the face's v [mm]; on a round part's `side` the angle [deg].
        bodies: all copies of the build.
        placed: where they lie, from `placements`.
        from_outside: start outside everything on the same line, so that what lies on the face (a strap
            across a plate) is met too; otherwise the axis starts on the face's own plane.

    Returns:
        The start [mm] and the unit direction, in the build's frame.

    Raises:
        InputError: for a copy or a face that is not there, or numbers that are none.

    Source: this project.

    Example:
        >>> from calculators.geometry import Pose, placements
        >>> board = Body("P01", Solid("block", 640, 260, 28), Pose())
        >>> axis_from("P01", "top", 30, 40, [board], placements([board]))
        ((30.0, 40.0, 28.0), (0.0, 0.0, -1.0))
    """
    by_name = {body.name: body for body in bodies}
    if body_name not in by_name or body_name not in placed:
        raise InputError.of(
            f"{body_name} has no place in the build; name a copy that has.",
            field="home",
            choices=tuple(by_name),
        )
    if not (is_number(u) and is_number(v)):
        raise InputError.of("u and v must be numbers of at most a million.", field="u")
    solid = by_name[body_name].solid
    on_side = solid.shape == "round" and face == "side"
    frame = face_frame(solid, face, v if on_side else 0.0)
    start = placed[body_name].point(frame.point(u, 0.0 if on_side else v))
    way = placed[body_name].direction(frame.inward)
    if from_outside:
        start = along(start, (way, -_reach(start, way, by_name.values(), placed)))
    return start, way


def _reach(start: Vector, way: Vector, bodies: Iterable[Body], placed: Mapping[str, Transform]) -> float:
    """Return how far back the line must start to be outside every part, in whole millimetres."""
    reach = 0.0
    for body in bodies:
        if body.name in placed:
            solid = body.solid
            width = solid.width if solid.shape == "block" else solid.diameter
            height = solid.thickness if solid.shape == "block" else solid.diameter
            size = math.hypot(solid.length, width, height)
            reach = max(reach, size - dot(subtract(placed[body.name].shift, start), way))
    return float(math.ceil(reach) + 1)


def layers_along(
    start_xyz: Vector,
    direction_xyz: Vector,
    bodies: Iterable[Body],
    placed: Mapping[str, Transform],
    *,
    length_limit: float | None = None,
) -> tuple[Layer, ...]:
    """Return every stretch of material that an axis meets, in the order in which it meets them.

    A part that the start lies in counts from the start on; its face and point are still where the line
    truly enters it. Parts that claim the same stretch are all kept: see `overlaps`.

    Args:
        start_xyz: where the axis starts [mm] in the build's frame.
        direction_xyz: which way it goes, of any length but nought.
        bodies: all copies of the build; one without a place is passed over.
        placed: where they lie, from `placements`.
        length_limit: layers that begin beyond this distance [mm] are left out; a layer that begins before
            it is given whole.

    Returns:
        The layers, by where they begin and end [mm from the start], then by name.

    Raises:
        InputError: when the direction is nought or a number is none.

    Source: this project (line against convex shapes, and against lines and arcs).

    Example:
        >>> from calculators.geometry import Pose, placements
        >>> board = Body("P01", Solid("block", 640, 260, 28), Pose())
        >>> layers_along((30, 40, 28), (0, 0, -1), [board], placements([board]))[0].thickness
        28.0
    """
    length = math.hypot(*direction_xyz)
    if not (math.isfinite(length) and length > 0 and all(math.isfinite(x) for x in start_xyz)):
        raise InputError.of("An axis needs a start and a direction that is not nought.", field="direction")
    way = scale(direction_xyz, 1.0 / length)
    found: list[Layer] = []
    for body in bodies:
        if body.name in placed:
            own = placed[body.name]
            found += _layers_of(body, own.own_point(start_xyz), own.own_direction(way))
    limit = math.inf if length_limit is None else length_limit
    return tuple(
        sorted(
            (layer for layer in found if layer.enter < limit - TOLERANCE_MM or layer.enter == 0.0),
            key=lambda layer: (layer.enter, layer.leave, layer.name),
        )
    )


def _layers_of(body: Body, start: Vector, way: Vector) -> list[Layer]:
    layers = []
    for chord in chords(body.solid, start, way):
        if chord.leave > TOLERANCE_MM:
            layers.append(_layer(body, chord, start, way))
    return layers


def _layer(body: Body, chord: Chord, start: Vector, way: Vector) -> Layer:
    point_in, point_out = along(start, (way, chord.enter)), along(start, (way, chord.leave))
    face_in, u_in, v_in = _read_surface(body.solid, chord.surface_in, point_in, way)
    face_out, u_out, v_out = _read_surface(body.solid, chord.surface_out, point_out, scale(way, -1.0))
    oblique = not _square(body.solid, chord.surface_in, point_in, way)
    enter = chord.enter if chord.enter > TOLERANCE_MM else 0.0
    return Layer(body.name, enter, chord.leave, face_in, u_in, v_in, face_out, u_out, v_out, oblique)


def _read_surface(solid: Solid, surface: Surface, xyz: Vector, way: Vector) -> tuple[Face, float, float]:
    """Return the face that a surface belongs to (of a pocket: that it is cut from) and the point on it.

    Of an outline it is the side of the block before which the point lies, as it is seen along `way`, inward.
    """
    if surface.of == "pocket":
        face = solid.pockets[surface.pocket].face
    elif surface.of == "outline":
        face = max(_SIDES, key=lambda each: dot(face_frame(solid, each).inward, way))
    else:
        face = "side" if surface.of == "bore" else blank_face(solid, xyz)
    u, v, _ = to_face(solid, face, xyz)
    return face, u, v


def _square(solid: Solid, surface: Surface, xyz: Vector, way: Vector) -> bool:
    return abs(dot(normal_at(solid, surface, xyz), way)) >= _SQUARE_COSINE


def hole_in_layer(
    start_xyz: Vector, direction_xyz: Vector, layer: Layer, body: Body, placed: Transform
) -> HoleMarks:
    """Return where the hole of a layer is marked out, so that it can be drilled from either side.

    The marks are on the faces of the uncut blank, where a scribed line or a template lies; `below` says how
    deep under it the material begins. Past a slit or a bore the mark is on the outer face all the same.

    Args:
        start_xyz: where the axis starts [mm], as it was for `layers_along`.
        direction_xyz: which way it goes.
        layer: one of the layers found.
        body: the copy that the layer is of.
        placed: where the copy lies.

    Returns:
        The marks in the drawn part's faces [mm; v on `side` in degrees].

    Raises:
        InputError: when the axis does not meet the copy.

    Source: this project.

    Example:
        >>> from calculators.geometry import Pose, placements
        >>> plate = Body("P11", Solid("block", 90, 60, 6), Pose())
        >>> placed, axis = placements([plate]), ((20, 10, 6), (0, 0, -1))
        >>> marks = hole_in_layer(*axis, layers_along(*axis, [plate], placed)[0], plate, placed["P11"])
        >>> (marks.entry.u, marks.entry.v), (marks.exit.face, marks.exit.u, marks.exit.v)
        ((20.0, 10.0), ('bottom', 20.0, 50.0))
    """
    length = math.hypot(*direction_xyz)
    way = placed.own_direction(scale(direction_xyz, 1.0 / length)) if length else (0.0, 0.0, 0.0)
    start = placed.own_point(start_xyz)
    blank = blank_stretch(body.solid, start, way) if length else None
    if blank is None or layer.name != body.name:
        raise InputError.of(f"The axis does not meet {body.name}.", field="layer")
    entry = _mark(body.solid, along(start, (way, blank[0])), way, layer.enter - max(blank[0], 0.0))
    leaving = _mark(body.solid, along(start, (way, blank[1])), way, blank[1] - layer.leave)
    return HoleMarks(entry, leaving, placed.mirrored)


def _mark(solid: Solid, xyz: Vector, way: Vector, below: float) -> Mark:
    face = blank_face(solid, xyz)
    u, v, _ = to_face(solid, face, xyz)
    square = _square(solid, Surface("blank"), xyz, way)
    return Mark(face, u, v, below if below > TOLERANCE_MM else 0.0, oblique=not square)


def overlaps(layers: Sequence[Layer]) -> tuple[Overlap, ...]:
    """Return where two parts claim the same stretch of an axis: a clash.

    Args:
        layers: the layers of one axis.

    Returns:
        Each pair with its common stretch [mm], by where it begins.

    Source: this project.
    """
    found = []
    for index, first in enumerate(layers):
        for second in layers[index + 1 :]:
            enter, leave = max(first.enter, second.enter), min(first.leave, second.leave)
            if leave - enter > TOLERANCE_MM:
                found.append(Overlap(first, second, enter, leave))
    return tuple(sorted(found, key=lambda each: (each.enter, each.leave)))


def gaps(layers: Sequence[Layer]) -> tuple[Gap, ...]:
    """Return where there is air between the layers of an axis.

    Args:
        layers: the layers of one axis.

    Returns:
        Each gap between the layers about it [mm]; before the first and after the last there is none.

    Source: this project.
    """
    found = []
    furthest: Layer | None = None
    for layer in sorted(layers, key=lambda each: each.enter):
        if furthest and layer.enter - furthest.leave > TOLERANCE_MM:
            found.append(Gap(furthest, layer, furthest.leave, layer.enter))
        if furthest is None or layer.leave > furthest.leave:
            furthest = layer
    return tuple(found)
