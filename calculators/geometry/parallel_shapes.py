"""Two shapes whose axes run the same way: distance and overlap in closed form.

Both are then a rectangle (or a line, or a point) square to the axis, widened at each height by a radius.
So is the set of all differences of a point of one and a point of the other, which is drawn as a profile:
height along the axis against distance from the rectangle. How far the two are apart, or how deep they
overlap, is how far the origin lies outside or inside that profile: a distance in a plane.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from calculators.geometry.shapes import Shape, Slab, Turned
from calculators.geometry.vectors import Vector, add, along, cross, dot, scale, subtract

_SAME_WAY = 1e-13
"""Directions count as parallel when the square of the sine of their angle is less than this."""


@dataclass(frozen=True, slots=True)
class _Upright:
    """A shape about an axis: a point of the axis, heights with radii, and half-sides square to the axis."""

    start: Vector
    axis: Vector
    rings: tuple[tuple[float, float], ...]
    sides: tuple[tuple[Vector, float], ...]


@dataclass(frozen=True, slots=True)
class _Corner:
    """A corner of the profile of differences: height and radius, and the first shape's own."""

    height: float
    radius: float
    first: tuple[float, float]


def parallel_gap(first: Shape, second: Shape) -> tuple[float, Vector, Vector] | None:
    """Return the signed distance of two shapes that have an axis the same way.

    Args:
        first: a shape.
        second: a shape in the same frame.

    Returns:
        The distance [mm], negative by the depth of an overlap, and a point of each shape [mm] where they
        are nearest (or, overlapping, the two that a least shift apart would bring together); None where no
        two axes run the same way or the sides are not square to one another.

    Source: this project (the difference of two upright bodies is an upright body).

    Example:
        >>> pin = Turned((0, 0, 0), (0, 0, 1), ((0, 2), (10, 2)))
        >>> parallel_gap(pin, Turned((7, 0, 0), (0, 0, 1), ((0, 1), (10, 1))))[0]
        4.0
    """
    for one in _uprights(first):
        for other in _uprights(second):
            turn = cross(one.axis, other.axis)
            if dot(turn, turn) < _SAME_WAY:
                sides = _sides(one, other)
                if sides is not None:
                    return _gap(one, other, sides)
    return None


def _uprights(shape: Shape) -> list[_Upright]:
    if isinstance(shape, Turned):
        long = math.sqrt(dot(shape.slide, shape.slide))
        if not long:
            return [_Upright(shape.start, shape.way, shape.rings, ())]
        along_slide = scale(shape.slide, 1.0 / long)
        if abs(dot(along_slide, shape.way)) > 1e-7:
            return []
        return [_Upright(shape.start, shape.way, shape.rings, ((along_slide, long / 2.0),))]
    if isinstance(shape, Slab):
        return []
    axes = (shape.u_axis, shape.v_axis, shape.inward)
    sizes = (shape.length, shape.width, shape.depth)
    radius = min(shape.corner_radius, shape.length / 2.0, shape.width / 2.0)
    found = []
    for k in (2, 0, 1):
        if radius and k != 2:
            break
        i, j = (k + 1) % 3, (k + 2) % 3
        start = along(shape.corner, (axes[i], sizes[i] / 2.0), (axes[j], sizes[j] / 2.0))
        sides = ((axes[i], sizes[i] / 2.0 - radius), (axes[j], sizes[j] / 2.0 - radius))
        found.append(_Upright(start, axes[k], ((0.0, radius), (sizes[k], radius)), sides))
    return found


def _sides(one: _Upright, other: _Upright) -> tuple[tuple[Vector, float, float], ...] | None:
    """Join the sides of two shapes into two square to each other: direction, half of one, of the other."""
    joined: list[tuple[Vector, float, float]] = [(way, half, 0.0) for way, half in one.sides if half > 0.0]
    for way, half in other.sides:
        if half <= 0.0:
            continue
        for k, (known, mine, theirs) in enumerate(joined):
            if abs(dot(known, way)) > 1.0 - _SAME_WAY:
                joined[k] = (known, mine, theirs + half)
                break
        else:
            joined.append((way, 0.0, half))
    if len(joined) > 2 or (len(joined) == 2 and abs(dot(joined[0][0], joined[1][0])) > 1e-9):
        return None
    return tuple(joined)


def _gap(
    one: _Upright, other: _Upright, sides: tuple[tuple[Vector, float, float], ...]
) -> tuple[float, Vector, Vector]:
    axis = one.axis
    away = subtract(other.start, one.start)
    rise = dot(away, axis)
    flat = subtract(away, scale(axis, rise))
    sense = 1.0 if dot(axis, other.axis) > 0.0 else -1.0
    core, toward, rho = _from_sides(flat, axis, sides)
    corners = _profile(one.rings, other.rings, rise, sense)
    distance, low, high, share, full = _from_profile(corners, rho)
    # The nearest point of the profile, as a height and a radius, of the difference and of the first.
    corner = corners[low]
    height, radius = corner.height, corner.radius
    at_one, wide_one = corner.first
    if high != low:
        far = corners[high]
        height += share * (far.height - height)
        radius += share * (far.radius - radius)
        at_one, wide_one = _between(corner.first, far.first, share)
    elif not full:
        # On an end's flat, below its corner: at the origin's own distance from the sides.
        part = max(rho, 0.0) / radius if radius else 0.0
        radius, wide_one = rho, wide_one * part
    shift = along(scale(axis, height), (toward, radius - rho))
    start = one.start
    inner = core if radius >= 0.0 else add(core, scale(toward, radius))
    for way, mine, theirs in sides:
        start = along(start, (way, dot(inner, way) * mine / (mine + theirs)))
    point = along(start, (axis, at_one), (toward, wide_one))
    return distance, point, subtract(point, shift)


def _between(low: tuple[float, float], high: tuple[float, float], share: float) -> tuple[float, float]:
    return low[0] + share * (high[0] - low[0]), low[1] + share * (high[1] - low[1])


def _from_sides(
    flat: Vector, axis: Vector, sides: tuple[tuple[Vector, float, float], ...]
) -> tuple[Vector, Vector, float]:
    """Return the nearest point of the rectangle's rim or of it, the unit way from it, and the distance.

    Inside the rectangle the distance is negative and the way goes out through the nearest side.
    """
    if len(sides) < 2:
        first = sides[0][0] if sides else _any_square(axis, flat)
        sides = ((first, *(sides[0][1:] if sides else (0.0, 0.0))), (cross(axis, first), 0.0, 0.0))
    (e, mine_e, theirs_e), (f, mine_f, theirs_f) = sides
    half_e, half_f = mine_e + theirs_e, mine_f + theirs_f
    at_e, at_f = dot(flat, e), dot(flat, f)
    out_e, out_f = abs(at_e) - half_e, abs(at_f) - half_f
    sign_e, sign_f = math.copysign(1.0, at_e), math.copysign(1.0, at_f)
    if out_e <= 0.0 and out_f <= 0.0:
        if out_e >= out_f:
            return along(scale(f, at_f), (e, sign_e * half_e)), scale(e, sign_e), out_e
        return along(scale(e, at_e), (f, sign_f * half_f)), scale(f, sign_f), out_f
    core = along(scale(e, min(max(at_e, -half_e), half_e)), (f, min(max(at_f, -half_f), half_f)))
    over_e, over_f = max(out_e, 0.0), max(out_f, 0.0)
    rho = math.hypot(over_e, over_f)
    return core, along(scale(e, sign_e * over_e / rho), (f, sign_f * over_f / rho)), rho


def _any_square(axis: Vector, flat: Vector) -> Vector:
    """Return a unit vector square to the axis: along `flat` where that has a length."""
    long = math.sqrt(dot(flat, flat))
    if long > 1e-9:
        square = subtract(flat, scale(axis, dot(flat, axis)))
    else:
        least = min(range(3), key=lambda i: abs(axis[i]))
        square = cross(axis, (float(least == 0), float(least == 1), float(least == 2)))
    return scale(square, 1.0 / math.sqrt(dot(square, square)))


def _profile(
    ours: tuple[tuple[float, float], ...], theirs: tuple[tuple[float, float], ...], rise: float, sense: float
) -> list[_Corner]:
    """Return the upper hull of the profile of all differences (first less second), by height."""
    corners = sorted(
        (_Corner(a - (rise + sense * b), ra + rb, (a, ra)) for a, ra in ours for b, rb in theirs),
        key=lambda corner: (corner.height, corner.radius),
    )
    hull: list[_Corner] = []
    for corner in corners:
        if hull and corner.height - hull[-1].height <= 0.0:
            hull.pop()
        while len(hull) > 1 and _turns_left(hull[-2], hull[-1], corner):
            hull.pop()
        hull.append(corner)
    return hull


def _turns_left(a: _Corner, b: _Corner, c: _Corner) -> bool:
    return (b.height - a.height) * (c.radius - a.radius) >= (b.radius - a.radius) * (c.height - a.height)


def _from_profile(corners: list[_Corner], rho: float) -> tuple[float, int, int, float, bool]:
    """Return the signed distance of height 0, radius rho from the profile, and where it is nearest.

    Where: corners `low` and `high` with the share between them; `low` = `high` and False on an end's flat
    below that corner.
    """
    best, where = math.inf, (0, 0, 0.0, True)
    inside = corners[0].height <= 0.0 <= corners[-1].height
    for low in range(len(corners) - 1):
        a, b = corners[low], corners[low + 1]
        run, climb = b.height - a.height, b.radius - a.radius
        share = min(max((-a.height * run + (rho - a.radius) * climb) / (run * run + climb * climb), 0.0), 1.0)
        distance = math.hypot(a.height + share * run, a.radius + share * climb - rho)
        if distance < best:
            best, where = distance, (low, low + 1, share, True)
        if a.height <= 0.0 <= b.height:
            inside = inside and rho <= a.radius + climb * (-a.height / run)
    for k in (0, len(corners) - 1):
        end = corners[k]
        if rho <= end.radius:
            distance, full = abs(end.height), False
        else:
            distance, full = math.hypot(end.height, end.radius - rho), True
        if distance < best:
            best, where = distance, (k, k, 0.0, full)
    if len(corners) == 1:
        inside = inside and rho <= corners[0].radius
    return (-best if inside else best), *where
