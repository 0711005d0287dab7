"""Whether two parts fill one space, and how deep: their convex pieces against one another, hollows left out.

Pieces that overlap are looked at again with the hollows that touch them: what lies within a bore, a hole or
a pocket is in the air there, and only what is left of it beyond the hollow can clash.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product

from calculators.geometry.clipping import PARALLEL, clipped, outside_by, reach_from_axis
from calculators.geometry.nearness import apart
from calculators.geometry.pieces import Hollow, Mass
from calculators.geometry.shapes import Box, Prism, Shape, Turned, beyond_plane, box_of
from calculators.geometry.vectors import Vector, along, dot, scale

_GRID = 10
_HAIR_MM = 1e-6
MOST_SPLITS = 64
"""So many pieces at most come of one pair by its hollows; beyond, what is left is looked at as it is."""


@dataclass(frozen=True, slots=True)
class Clash:
    """Two parts in one space: how deep [mm] and a point that lies in both, or near it."""

    depth: float
    point: Vector


@dataclass(frozen=True, slots=True)
class _Left:
    """What is left of a piece outside a hollow; `excess` is how far it is too wide for it [mm]."""

    shapes: tuple[Shape, ...]
    excess: float = math.inf
    sure: bool = True


def clash_of(first: Mass, second: Mass, least: float) -> Clash | None:
    """Return how deep two parts lie in one another.

    The depth of two convex pieces is the least way by which one would have to be shifted to be clear of the
    other. Where a round piece is too thick for the hole it lies in, it is what it is too thick on one side.
    Where a piece lies askew in a hollow, or a square one in a round hole, the depth is that of the largest
    ball that lies in both, found by sampling: slivers at its edges are no clash.

    Args:
        first: a part.
        second: another in the same frame.
        least: overlaps of no more than this are none [mm].

    Returns:
        The deepest overlap; None where there is none deeper than `least`.

    Source: this project.

    Example:
        >>> from calculators.geometry.model import Solid
        >>> from calculators.geometry.pieces import mass_of
        >>> from calculators.geometry.vectors import Transform
        >>> board = Solid("block", 100, 50, 20)
        >>> clash_of(mass_of(board), mass_of(board, transform=Transform(shift=(0, 0, 18))), 0.1).depth
        2.0
    """
    least += _HAIR_MM
    worst: Clash | None = None
    for i, piece in enumerate(first.pieces):
        if not _overlap(first.boxes[i], second.box, least):
            continue
        for j, other in enumerate(second.pieces):
            if not _overlap(first.boxes[i], second.boxes[j], least):
                continue
            found = _of_pieces(piece, other, _touching(first, second.boxes[j]),
                               _touching(second, first.boxes[i]), least)  # fmt: skip
            if found is not None and (worst is None or found.depth > worst.depth):
                worst = found
    return worst


def piece_in_part(piece: Shape, part: Mass, least: float) -> Clash | None:
    """Return how deep a convex piece lies in the material of a part.

    Args:
        piece: a convex shape: a screw's shank, a head.
        part: the part in the same frame.
        least: overlaps of no more than this are none [mm].

    Returns:
        The deepest overlap; None where there is none deeper than `least`.

    Source: this project.
    """
    return clash_of(Mass((piece,)), part, least)


def _overlap(first: Box, second: Box, least: float) -> bool:
    """Say whether two boxes overlap by more than `least` along every axis."""
    (ax, ay, az), (bx, by, bz) = first
    (cx, cy, cz), (dx, dy, dz) = second
    return (
        min(bx, dx) - max(ax, cx) > least
        and min(by, dy) - max(ay, cy) > least
        and min(bz, dz) - max(az, cz) > least
    )


def _touching(mass: Mass, box: Box) -> list[Hollow]:
    near = (
        hollow
        for hollow, about in zip(mass.hollows, mass.hollow_boxes, strict=True)
        if _overlap(about, box, -1e-6)
    )
    return list(dict.fromkeys(near))  # many at one spot are one


def _of_pieces(
    one: Shape, other: Shape, in_one: list[Hollow], in_other: list[Hollow], least: float
) -> Clash | None:
    near = apart(one, other, enough=0.0)
    if near.distance >= -least:
        return None
    if not in_one and not in_other:
        return Clash(-near.distance, near.first_point)
    pairs = [(one, other)]
    most, sure = math.inf, True
    for hollow, ours in [*((h, False) for h in in_one), *((h, True) for h in in_other)]:
        after: list[tuple[Shape, Shape]] = []
        for pair in pairs:
            left = _outside(pair[0 if ours else 1], hollow, least)
            most, sure = min(most, left.excess), sure and left.sure
            for shape in left.shapes:
                now = (shape, pair[1]) if ours else (pair[0], shape)
                if now == pair or apart(*now, enough=0.0).distance < -least:
                    after.append(now)
        pairs = after
        if not pairs:
            return None
        if len(pairs) > MOST_SPLITS:
            break
    return _deepest(pairs, (*in_one, *in_other), most, least, sure=sure)


def _deepest(
    pairs: list[tuple[Shape, Shape]], hollows: tuple[Hollow, ...], most: float, least: float, *, sure: bool
) -> Clash | None:
    worst: Clash | None = None
    for one, other in pairs:
        near = apart(one, other)
        clash: Clash | None = Clash(min(-near.distance, most), near.first_point)
        if not sure and any(outside_by(hollow.shape, near.first_point) < 0.0 for hollow in hollows):
            clash = _sampled(one, other, hollows, least)
        if clash is not None and clash.depth > least and (worst is None or clash.depth > worst.depth):
            worst = clash
    return worst


def _outside(shape: Shape, hollow: Hollow, least: float) -> _Left:
    """Return what is left of a shape outside a hollow, in convex pieces."""
    if isinstance(hollow.shape, Turned):
        return _outside_turned(shape, hollow.shape, through=hollow.through, least=least)
    if isinstance(hollow.shape, Prism):
        return _outside_prism(shape, hollow.shape, through=hollow.through, least=least)
    return _Left((shape,), sure=False)


def _outside_turned(shape: Shape, hole: Turned, *, through: bool, least: float) -> _Left:
    wide = max(ring for _, ring in hole.rings)
    ends = [at for at, ring in hole.rings if ring > wide - 1e-9]
    floor = along(hole.start, (hole.way, max(ends)))
    reach = reach_from_axis(shape, hole)
    if reach > wide + least:
        if apart(shape, hole, enough=0.0).distance >= -least:
            return _Left((shape,))
        if isinstance(shape, Turned) and abs(dot(shape.way, hole.way)) > PARALLEL:
            return _Left((shape,), reach - wide)
        return _Left((shape,), sure=False)
    if through:
        return _Left(())
    past = beyond_plane(shape, floor, hole.way)
    if past <= least:
        return _Left(())
    beyond = clipped(shape, floor, hole.way)
    return _Left((beyond,), past) if beyond is not None else _Left((shape,), past, sure=False)


def _outside_prism(shape: Shape, cut: Prism, *, through: bool, least: float) -> _Left:
    """Return a slab beyond each wall of a pocket that the shape reaches past, and below its floor."""
    far = along(cut.corner, (cut.u_axis, cut.length), (cut.v_axis, cut.width), (cut.inward, cut.depth))
    walls = [
        (cut.corner, scale(cut.u_axis, -1.0)),
        (far, cut.u_axis),
        (cut.corner, scale(cut.v_axis, -1.0)),
        (far, cut.v_axis),
    ]
    if not through:
        walls.append((far, cut.inward))
    if apart(shape, cut, enough=0.0).distance >= -least:
        return _Left((shape,))
    left: list[Shape] = []
    for point, outward in walls:
        if beyond_plane(shape, point, outward) <= least:
            continue
        beyond = clipped(shape, point, outward)
        if beyond is None:
            return _Left((shape,), sure=False)
        left.append(beyond)
    return _Left(tuple(left))


def _sampled(one: Shape, other: Shape, hollows: tuple[Hollow, ...], least: float) -> Clash | None:
    """Look for the middle of the thickest common space: the best point of a grid, then ever nearer to it."""
    (ax, ay, az), (bx, by, bz) = box_of(one)
    (cx, cy, cz), (dx, dy, dz) = box_of(other)
    low = (max(ax, cx), max(ay, cy), max(az, cz))
    high = (min(bx, dx), min(by, dy), min(bz, dz))
    steps = [(high[i] - low[i]) / _GRID for i in range(3)]

    shapes = [(one, 1.0), (other, 1.0), *((hollow.shape, -1.0) for hollow in hollows)]

    def out(point: Vector, enough: float) -> float:
        """How far a point is outside one of the two or inside a hollow; up to `enough` it counts."""
        far = -math.inf
        for shape, sign in shapes:
            far = max(far, sign * outside_by(shape, point))
            if far >= enough:
                return far
        return far

    best, value = low, math.inf
    for i, j, k in product(range(_GRID), repeat=3):
        point = (
            low[0] + (i + 0.5) * steps[0], low[1] + (j + 0.5) * steps[1], low[2] + (k + 0.5) * steps[2],
        )  # fmt: skip
        now = out(point, value)
        if now < value:
            best, value = point, now
    while max(steps) > least / 10.0:
        centre, before = best, value
        for x, y, z in product((-0.5, 0.0, 0.5), repeat=3):
            point = (centre[0] + x * steps[0], centre[1] + y * steps[1], centre[2] + z * steps[2])
            now = out(point, value)
            if now < value - 1e-9:
                best, value = point, now
        if value == before:
            steps = [step / 2.0 for step in steps]
    return Clash(-2.0 * value, best) if -2.0 * value > least else None
