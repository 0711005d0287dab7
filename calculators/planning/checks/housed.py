"""Which part is let into which pocket of which other part, and with what room."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from calculators.geometry.chords import pocket_frame
from calculators.geometry.clashes import clash_of
from calculators.geometry.cuts import through_depth
from calculators.geometry.frames import FaceFrame
from calculators.geometry.model import Pocket, Solid
from calculators.geometry.shapes import block_shape, box_of, moved
from calculators.geometry.vectors import Transform, Vector, dot
from calculators.planning import model
from calculators.planning.checks.near_things import PlacedPart, found_near, placed_parts
from calculators.planning.checks.site import Site

SQUARE = 1.0 - 1e-6
ENTERS_MM = 0.05
"""A part that goes no deeper into a pocket than this only lies over it."""

FITTED_SLACK_MM = 4.0
"""A part with no more play than this in all is taken to lie amid its pocket, wherever its pose puts it."""

_KEPT = "housed parts"
_EDGE_MM = 1e-3


@dataclass(frozen=True, slots=True)
class Across:
    """A part across its pocket, along the u or v of the pocket's face [mm].

    `low` and `high` are the gaps to the pocket's two walls as posed (negative: the part reaches past),
    `low_wall` and `high_wall` whether there is a wall: a pocket that runs out of the face has none.
    """

    part: float
    pocket: float
    low: float
    high: float
    low_wall: bool
    high_wall: bool

    @property
    def closed(self) -> bool:
        """Whether the part lies between two walls."""
        return self.low_wall and self.high_wall

    @property
    def side(self) -> float:
        """The clearance on each side where the part is put amid its pocket [mm]."""
        return (self.pocket - self.part) / 2.0

    def clearances(self) -> tuple[float, float]:
        """The clearance at each wall: half the play where it fits, else as it is posed [mm]."""
        if self.closed and abs(self.pocket - self.part) <= FITTED_SLACK_MM:
            return self.side, self.side
        return self.low, self.high


@dataclass(frozen=True, slots=True)
class Housed:
    """A copy of a block let into a rectangular pocket of a copy of another block.

    `depth` is the pocket's (infinite where it goes through), `thickness` the part's along it, `goes_in` how
    deep the part's underside lies below the face, `inward` the way in, in the build's frame. `part_corner` is
    the radius of the part's corners in the plane of the pocket. `clash` is how deep the two lie in one
    another.
    """

    holder: PlacedPart
    part: PlacedPart
    pocket: model.Pocket
    geometry: Pocket
    u: Across
    v: Across
    depth: float
    thickness: float
    goes_in: float
    inward: Vector
    part_corner: float
    clash: float

    @property
    def key(self) -> tuple[str, str, str]:
        """Holder, pocket and part, whatever the copies."""
        return self.holder.mark, self.pocket.id, self.part.mark

    @property
    def path(self) -> str:
        """The pocket's record in the build file."""
        return f"components[{self.holder.mark}].pockets[{self.pocket.id}]"

    def too_tight(self, least: float) -> bool:
        """Whether the part is larger than the pocket between two of its walls, and truly meets them."""
        return self.clash > least and any(
            one.closed and one.part - one.pocket > least for one in (self.u, self.v)
        )


def housed_pairs(site: Site) -> tuple[Housed, ...]:
    """Find the parts that are let into pockets of others.

    Only blocks that lie square to one another, and rectangular pockets. Of several pockets the one that has
    most of the part counts.

    Args:
        site: the build.

    Returns:
        One record for each pair of copies.

    Source: this project.
    """
    return site.share(f"{_KEPT} found", lambda: tuple(_housed_pairs(site)))


def _housed_pairs(site: Site) -> Iterator[Housed]:
    parts = {
        name: one
        for name, one in placed_parts(site).items()
        if one.site.solid is not None and one.site.solid.shape == "block"
    }
    for both in found_near(site, _KEPT, parts, 0.0, _either):
        yield from both


def _either(first: PlacedPart, second: PlacedPart) -> tuple[Housed, ...] | None:
    found = tuple(one for one in (_housed(first, second), _housed(second, first)) if one is not None)
    return found or None


def _housed(holder: PlacedPart, part: PlacedPart) -> Housed | None:
    solid, own = holder.site.solid, part.site.solid
    if solid is None or own is None or not holder.site.component.pockets:
        return None
    placed = _in_frame_of(holder.transform, part.transform)
    if any(max(map(abs, column)) < SQUARE for column in placed.columns):
        return None
    low, high = box_of(moved(block_shape(own), placed))
    best: Housed | None = None
    most = 0.0
    for number, pocket in enumerate(holder.site.component.pockets):
        one, area = _in_pocket(holder, part, pocket, solid.pockets[number], (low, high), placed)
        if one is not None and area > most:
            best, most = one, area
    return best


def _in_frame_of(holder: Transform, part: Transform) -> Transform:
    x, y, z = (holder.own_direction(column) for column in part.columns)
    return Transform((x, y, z), holder.own_point(part.shift))


def _in_pocket(
    holder: PlacedPart,
    part: PlacedPart,
    pocket: model.Pocket,
    geometry: Pocket,
    box: tuple[Vector, Vector],
    placed: Transform,
) -> tuple[Housed | None, float]:
    solid = holder.site.solid
    assert solid is not None
    frame = pocket_frame(solid, geometry)
    ends = [frame.read(corner) for corner in box]
    (u0, u1), (v0, v1), (top, goes_in) = (sorted(pair) for pair in zip(*ends, strict=True))
    depth = math.inf if geometry.depth is None else geometry.depth
    if min(goes_in, depth) - max(top, 0.0) <= ENTERS_MM:
        return None, 0.0
    u = _across(u0, u1, geometry.u, geometry.length, frame.u_range)
    v = _across(v0, v1, geometry.v, geometry.width, frame.v_range)
    area = 1.0
    for one in (u, v):
        common = one.part - max(0.0, -one.low) - max(0.0, -one.high)
        if common < 0.5 * min(one.part, one.pocket):
            return None, 0.0
        area *= common
    clash = clash_of(holder.mass, part.mass, ENTERS_MM)
    plan = abs(dot(placed.columns[2], frame.inward)) > SQUARE
    radius = part.site.component.corner_radius
    corner = radius.mm if plan and radius is not None else 0.0
    return (
        Housed(
            holder, part, pocket, geometry, u, v, depth, goes_in - top, goes_in,
            holder.transform.direction(frame.inward), corner, clash.depth if clash else 0.0,
        ),
        area,
    )  # fmt: skip


def _across(low: float, high: float, start: float, size: float, face: tuple[float, float]) -> Across:
    return Across(
        high - low,
        size,
        low - start,
        start + size - high,
        start > face[0] + _EDGE_MM,
        start + size < face[1] - _EDGE_MM,
    )


def floor_left(solid: Solid, frame: FaceFrame, depth: float) -> float:
    """Return how thick a block is below a pocket of a depth.

    Args:
        solid: the block.
        frame: the face that the pocket is cut from.
        depth: its depth [mm].

    Returns:
        What is left below it [mm].

    Source: this project.
    """
    return through_depth(solid, frame) - depth
