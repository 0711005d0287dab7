"""Convex shapes in one frame: what a drill, a cutter, a screw or a part fills.

Each is told by its support: the point of it that reaches farthest in a direction. All lengths are
millimetres; directions named `way`, `u_axis`, `v_axis` and `inward` are unit vectors.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TypeAlias

from calculators.geometry.model import Solid
from calculators.geometry.vectors import Transform, Vector, along

NOWHERE: Vector = (0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Turned:
    """The convex hull of circles about one axis, and what it fills when it is slid sideways.

    `rings` are pairs of a distance along the axis from `start` and a radius [mm]; radius 0 is a point. A
    drilled hole with its point, a countersink, a counterbore, a shank, a head or a washer is one of these.
    `slide` sweeps it from half of it back to half of it forward: a slot.
    """

    start: Vector
    way: Vector
    rings: tuple[tuple[float, float], ...]
    slide: Vector = NOWHERE


@dataclass(frozen=True, slots=True)
class Prism:
    """A rectangle with rounded corners drawn out along `inward`: a pocket, a block or a plate.

    The three axes stand square to one another, of either hand. `corner` is where the rectangle's sides
    would meet; `length` runs along `u_axis`, `width` along `v_axis`, `depth` along `inward` [mm].
    """

    corner: Vector
    u_axis: Vector
    v_axis: Vector
    inward: Vector
    length: float
    width: float
    depth: float
    corner_radius: float = 0.0


@dataclass(frozen=True, slots=True)
class Slab:
    """A convex polygon drawn out along `inward`: a piece of a plate that is no rectangle.

    `points` are its corners, anticlockwise in `u_axis` and `v_axis` from `corner` [mm]; the axes stand square
    to one another, of either hand.
    """

    corner: Vector
    u_axis: Vector
    v_axis: Vector
    inward: Vector
    points: tuple[tuple[float, float], ...]
    depth: float


Shape: TypeAlias = Turned | Prism | Slab
Box: TypeAlias = tuple[Vector, Vector]


def support(shape: Shape, direction: Vector) -> Vector:
    """Return the point of a shape that reaches farthest in a direction (one of them where several do).

    Args:
        shape: the shape.
        direction: any vector; its length is of no account.

    Returns:
        The point [mm] in the shape's frame.

    Source: this project (the support of a hull of circles and of a sum of segments and a circle).

    Example:
        >>> support(Turned((0, 0, 0), (0, 0, 1), ((0, 2), (10, 2), (11, 0))), (0, 0, 1))
        (0.0, 0.0, 11.0)
    """
    x, y, z = direction
    if isinstance(shape, Turned):
        return _turned_support(shape, x, y, z)
    ux, uy, uz = shape.u_axis
    vx, vy, vz = shape.v_axis
    wx, wy, wz = shape.inward
    across, up, sink = x * ux + y * uy + z * uz, x * vx + y * vy + z * vz, x * wx + y * wy + z * wz
    if isinstance(shape, Slab):
        u, v = max(shape.points, key=lambda point: point[0] * across + point[1] * up)
        return along(
            shape.corner,
            (shape.u_axis, u),
            (shape.v_axis, v),
            (shape.inward, 0.0 if sink < 0.0 else shape.depth),
        )
    radius = min(shape.corner_radius, shape.length / 2.0, shape.width / 2.0)
    u = radius if across < 0.0 else shape.length - radius
    v = radius if up < 0.0 else shape.width - radius
    if radius > 0.0:
        flat = math.hypot(across, up)
        if flat > 0.0:
            u += radius * across / flat
            v += radius * up / flat
    w = 0.0 if sink < 0.0 else shape.depth
    cx, cy, cz = shape.corner
    return (
        cx + u * ux + v * vx + w * wx,
        cy + u * uy + v * vy + w * wy,
        cz + u * uz + v * vz + w * wz,
    )


def _turned_support(shape: Turned, x: float, y: float, z: float) -> Vector:
    wx, wy, wz = shape.way
    rise = x * wx + y * wy + z * wz
    sx, sy, sz = x - rise * wx, y - rise * wy, z - rise * wz
    # Once more, or rounding would tilt the circle where the direction is nearly the axis's own.
    rest = sx * wx + sy * wy + sz * wz
    sx, sy, sz = sx - rest * wx, sy - rest * wy, sz - rest * wz
    flat = math.sqrt(sx * sx + sy * sy + sz * sz)
    if flat <= 1e-11 * (abs(x) + abs(y) + abs(z)):
        flat, sx, sy, sz = 0.0, 0.0, 0.0, 0.0
    best, far, radius = -math.inf, 0.0, 0.0
    for at, ring in shape.rings:
        reach = at * rise + ring * flat
        if reach > best:
            best, far, radius = reach, at, ring
    out = radius / flat if flat else 0.0
    px, py, pz = shape.start
    px, py, pz = px + far * wx + out * sx, py + far * wy + out * sy, pz + far * wz + out * sz
    if shape.slide is not NOWHERE:
        lx, ly, lz = shape.slide
        half = 0.5 if x * lx + y * ly + z * lz >= 0.0 else -0.5
        px, py, pz = px + half * lx, py + half * ly, pz + half * lz
    return (px, py, pz)


def box_of(shape: Shape) -> Box:
    """Return the tight box about a shape with its sides along X, Y and Z.

    Args:
        shape: the shape.

    Returns:
        The corner with the least and that with the greatest coordinates [mm].

    Source: this project (support along the axes).

    Example:
        >>> box_of(Turned((5, 5, 0), (0, 0, 1), ((0, 2), (10, 2))))
        ((3.0, 3.0, 0.0), (7.0, 7.0, 10.0))
    """
    if isinstance(shape, Turned):
        return _turned_box(shape)
    if isinstance(shape, Slab):
        return _slab_box(shape)
    low, high = [], []
    radius = min(shape.corner_radius, shape.length / 2.0, shape.width / 2.0)
    for i in range(3):
        u, v, w = shape.u_axis[i], shape.v_axis[i], shape.inward[i]
        middle = shape.corner[i] + (u * shape.length + v * shape.width + w * shape.depth) / 2.0
        half = abs(u) * (shape.length / 2.0 - radius) + abs(v) * (shape.width / 2.0 - radius)
        half += radius * math.hypot(u, v) + abs(w) * shape.depth / 2.0
        low.append(middle - half)
        high.append(middle + half)
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _turned_box(shape: Turned) -> Box:
    rings = shape.rings
    widest = max(ring for _, ring in rings)
    near, far = min(at for at, _ in rings), max(at for at, _ in rings)
    low, high = [], []
    for way, start, slide in zip(shape.way, shape.start, shape.slide, strict=True):
        if way == 0.0:  # square to this direction, as nearly all holes are to two of them
            least, most = -widest, widest
        elif way == 1.0:
            least, most = near, far
        elif way == -1.0:
            least, most = -far, -near
        else:
            flat = math.sqrt(max(0.0, 1.0 - way * way))
            least = min(at * way - ring * flat for at, ring in rings)
            most = max(at * way + ring * flat for at, ring in rings)
        half = abs(slide) / 2.0
        low.append(start - half + least)
        high.append(start + half + most)
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def slab_corners(shape: Slab) -> list[Vector]:
    """Return the corners of a slab.

    Args:
        shape: the slab.

    Returns:
        Those of its two faces [mm].

    Source: this project.
    """
    return [
        along(shape.corner, (shape.u_axis, u), (shape.v_axis, v), (shape.inward, w))
        for w in (0.0, shape.depth)
        for u, v in shape.points
    ]


def _slab_box(shape: Slab) -> Box:
    xs, ys, zs = zip(*slab_corners(shape), strict=True)
    return (min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs))


def moved(shape: Shape, transform: Transform) -> Shape:
    """Return a shape of a part's frame in the build's frame; a mirrored copy is mirrored with it.

    Args:
        shape: the shape in the part's own frame.
        transform: where the copy lies.

    Returns:
        The shape in the build's frame.

    Source: this project.

    Example:
        >>> moved(Turned((0, 0, 0), (0, 0, 1), ((0, 2), (10, 2))), Transform(shift=(1, 0, 0))).start
        (1.0, 0.0, 0.0)
    """
    if isinstance(shape, Turned):
        slide = shape.slide if shape.slide == NOWHERE else transform.direction(shape.slide)
        return Turned(
            transform.point(shape.start), transform.direction(shape.way), shape.rings, slide or NOWHERE
        )
    axes = (
        transform.direction(shape.u_axis),
        transform.direction(shape.v_axis),
        transform.direction(shape.inward),
    )
    if isinstance(shape, Slab):
        return Slab(transform.point(shape.corner), *axes, shape.points, shape.depth)
    return Prism(
        transform.point(shape.corner),
        *axes,
        shape.length,
        shape.width,
        shape.depth,
        shape.corner_radius,
    )


def beyond_plane(shape: Shape, point: Vector, outward: Vector) -> float:
    """Return how far a shape reaches beyond a plane.

    Args:
        shape: the shape.
        point: any point of the plane [mm].
        outward: the plane's unit normal, towards the side that is not to be reached.

    Returns:
        How far it reaches [mm], exact; negative where all of it stays on the near side, by how much.

    Source: this project (the support's distance from the plane).

    Example:
        >>> beyond_plane(Turned((5, 5, 0), (0, 0, 1), ((0, 2), (10, 2))), (6, 0, 0), (1, 0, 0))
        1.0
    """
    far = support(shape, outward)
    return (
        (far[0] - point[0]) * outward[0] + (far[1] - point[1]) * outward[1] + (far[2] - point[2]) * outward[2]
    )


def middle_of(shape: Shape) -> Vector:
    """Return a point well inside a shape: half-way along it, on its axis.

    Args:
        shape: the shape.

    Returns:
        The point [mm].

    Source: this project.

    Example:
        >>> middle_of(Turned((5, 5, 0), (0, 0, 1), ((0, 2), (10, 2))))
        (5.0, 5.0, 5.0)
    """
    if isinstance(shape, Turned):
        far = (min(at for at, _ in shape.rings) + max(at for at, _ in shape.rings)) / 2.0
        (x, y, z), (wx, wy, wz) = shape.start, shape.way
        return (x + far * wx, y + far * wy, z + far * wz)
    if isinstance(shape, Slab):
        count = len(shape.points)
        u, v = (
            sum(point[0] for point in shape.points) / count,
            sum(point[1] for point in shape.points) / count,
        )
        return along(shape.corner, (shape.u_axis, u), (shape.v_axis, v), (shape.inward, shape.depth / 2.0))
    halves = (shape.length / 2.0, shape.width / 2.0, shape.depth / 2.0)
    axes = (shape.u_axis, shape.v_axis, shape.inward)
    x, y, z = shape.corner
    for half, axis in zip(halves, axes, strict=True):
        x, y, z = x + half * axis[0], y + half * axis[1], z + half * axis[2]
    return (x, y, z)


def block_shape(solid: Solid) -> Prism:
    """Return the uncut blank of a block in its own frame.

    Args:
        solid: a block.

    Returns:
        The prism.

    Source: this project.

    Example:
        >>> box_of(block_shape(Solid("block", 100, 50, 20)))
        ((0.0, 0.0, 0.0), (100.0, 50.0, 20.0))
    """
    axes = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
    return Prism(NOWHERE, *axes, float(solid.length), float(solid.width), float(solid.thickness))


def round_shape(solid: Solid) -> Turned:
    """Return the uncut blank of a round part in its own frame.

    Args:
        solid: a round part.

    Returns:
        The cylinder about X.

    Source: this project.

    Example:
        >>> box_of(round_shape(Solid("round", 80, diameter=20)))
        ((0.0, -10.0, -10.0), (80.0, 10.0, 10.0))
    """
    radius = solid.diameter / 2.0
    return Turned(NOWHERE, (1.0, 0.0, 0.0), ((0.0, radius), (float(solid.length), radius)))


def shape_of(solid: Solid, transform: Transform | None = None) -> Shape:
    """Return the uncut blank of a part, in its own frame or where a copy of it lies.

    Args:
        solid: the part.
        transform: where the copy lies; None for the part's own frame.

    Returns:
        The shape.

    Source: this project.

    Example:
        >>> box_of(shape_of(Solid("round", 80, diameter=20)))
        ((0.0, -10.0, -10.0), (80.0, 10.0, 10.0))
    """
    shape = block_shape(solid) if solid.shape == "block" else round_shape(solid)
    return shape if transform is None else moved(shape, transform)
