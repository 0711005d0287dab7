"""Every fastener as a solid where it lies in the build: head, shank, washers, nuts, inserts.

May import: the site, the joints and the geometry. Offers `fasteners_of` for one joint and `all_fasteners`
for the build. A joint's fasteners are made once, and again only when the joint or a part on its axes is
another.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import radians, sqrt, tan
from typing import Literal

from calculators.geometry.frames import face_point
from calculators.geometry.pieces import around
from calculators.geometry.shapes import Box, Turned, box_of
from calculators.geometry.vectors import Vector, along, dot, subtract
from calculators.hardware.heads import across_corners_mm
from calculators.joints.laying import lay_stack
from calculators.joints.model import JointInput
from calculators.joints.sizes import screw_of
from calculators.joints.worked import Member, Screw, Stack
from calculators.planning.checks.site import JointSite, Site
from calculators.planning.movement import AxisAt
from calculators.planning.placing import PlacedBuild

PieceKind = Literal["head", "shank", "washer", "nut", "insert"]
_KEPT = "fasteners in space"
_POINT_D = 1.0
"""A wood screw's point tapers over about one diameter (common practice)."""

_THIN_MM = 1e-3
"""What has less height than this has no body of its own."""


@dataclass(frozen=True, slots=True)
class _Piece:
    """One piece on the axis: pairs of a distance from the joint's nought and a radius [mm]."""

    kind: PieceKind
    rings: tuple[tuple[float, float], ...]
    item: int | None = None


@dataclass(frozen=True, slots=True, eq=False)
class FastenerPiece:
    """A head, shank, washer, nut or insert where it lies; `item` is its place in the joint's stack."""

    kind: PieceKind
    shape: Turned
    box: Box
    item: int | None = None


@dataclass(frozen=True, slots=True, eq=False)
class PlacedFastener:
    """The fastener at one place of a joint on one copy of its home.

    `start` is the joint's nought in the build's frame (the plane in which the head bears, or the surface
    that a countersunk head is flush with) and `way` runs to the point. `copies` are the posed copies that
    its axis goes through as its stack says, from the head on. `box` holds all its pieces. `sure` says that
    all parts of its stack are posed: else where it lies hangs on a typed thickness.
    """

    joint: str
    place: str
    home: str
    copies: tuple[str, ...]
    start: Vector
    way: Vector
    diameter_mm: float
    pieces: tuple[FastenerPiece, ...]
    box: Box
    axis: AxisAt
    sure: bool = True

    @property
    def names(self) -> str:
        """The joint and the place in words, such as `F03 at 2`."""
        return f"{self.joint} at {self.place}" if self.place else self.joint


def fasteners_of(site: JointSite) -> tuple[PlacedFastener, ...]:
    """Give the fasteners of a joint where they lie in the build's frame.

    A countersunk head is a cone, a wood screw ends in a point one diameter long, hexagons are as wide as
    across their corners, washers and inserts are taken without their holes.

    Args:
        site: the joint.

    Returns:
        One fastener for each place on each posed copy of the home; none for a joint that is not placed.

    Source: geometry; the wood screw's point: common practice.
    """
    held: tuple[PlacedFastener, ...] | None = site.kept.get(_KEPT)
    if held is None:
        made = (_placed(site.mark, axis, site.placed) for axis in site.resolved.axes)
        held = site.kept[_KEPT] = tuple(one for one in made if one is not None)
    return held


def all_fasteners(site: Site) -> tuple[PlacedFastener, ...]:
    """Give the fasteners of all joints where they lie.

    Args:
        site: the build.

    Returns:
        The fasteners, joint by joint.

    Source: geometry.
    """
    return site.share(
        _KEPT, lambda: tuple(one for joint in site.joints.values() for one in fasteners_of(joint))
    )


def fasteners_by_name(site: Site) -> dict[tuple[str, str, str], PlacedFastener]:
    """Give the fasteners of which all parts are posed, by joint, place and copy of the home.

    Args:
        site: the build.

    Returns:
        The fasteners; one that is as it was is the very same object as before.

    Source: this project.
    """
    return site.share(
        f"{_KEPT} by name",
        lambda: {(one.joint, one.place, one.home): one for one in all_fasteners(site) if one.sure},
    )


def _placed(joint: str, axis: AxisAt, placed: PlacedBuild) -> PlacedFastener | None:
    pieces, stack, diameter = _pieces_of(axis.worked.inputs, axis.worked.result.tip_mm)
    nought = _nought_along(axis, stack, placed)
    if nought is None:
        return None
    start = along(axis.start, (axis.way, nought))
    made = []
    for piece in pieces:
        shape = Turned(start, axis.way, piece.rings)
        made.append(FastenerPiece(piece.kind, shape, box_of(shape), piece.item))
    posed = [stretch for stretch in axis.stretches if stretch.copy in placed.transforms]
    layers = sum(item.layer is not None for item in axis.worked.inputs.stack)
    return PlacedFastener(
        joint,
        axis.place,
        axis.home,
        tuple(dict.fromkeys(stretch.copy for stretch in posed)),
        start,
        axis.way,
        diameter,
        tuple(made),
        around(piece.box for piece in made),
        axis,
        sure=len(posed) == layers,
    )


def _nought_along(axis: AxisAt, stack: Stack, placed: PlacedBuild) -> float | None:
    """Return how far along the axis the joint's nought lies: told by the first layer that is posed [mm]."""
    members = {member.item: member for member in stack.members}
    for stretch in axis.stretches:
        member, transform = members.get(stretch.item), placed.transforms.get(stretch.copy)
        if member is None or transform is None:
            continue
        mark = stretch.entry
        on_blank = transform.point(face_point(placed.bodies[stretch.copy].solid, mark.face, mark.u, mark.v))
        # A part that the axis begins in counts from the beginning of the axis.
        enters = max(0.0, dot(subtract(on_blank, axis.start), axis.way)) + mark.below
        surface = member.enter_mm - (member.counterbore_mm if member.number == 0 else 0.0)
        return enters - surface
    return None


# The places of a joint whose layers are alike share their pieces.
@lru_cache(maxsize=2048)
def _pieces_of(inputs: JointInput, tip_mm: float) -> tuple[tuple[_Piece, ...], Stack, float]:
    screw, _ = screw_of(inputs)
    stack, _ = lay_stack(inputs, screw)
    radius = screw.major_mm / 2.0
    pieces = [*_head(screw, stack, radius), _shank(screw, stack.starts_mm, tip_mm, radius)]
    for member in stack.members:
        wide = _radius_of(member)
        if wide and member.leave_mm - member.enter_mm > _THIN_MM:
            kind: PieceKind = (
                "nut" if member.kind == "nut" else "washer" if member.kind == "washer" else "insert"
            )
            pieces.append(_Piece(kind, ((member.enter_mm, wide), (member.leave_mm, wide)), member.item))
    return tuple(pieces), stack, screw.major_mm


def _head(screw: Screw, stack: Stack, radius: float) -> list[_Piece]:
    wide = (screw.head_diameter_mm or 0.0) / 2.0
    if screw.headless or wide <= radius:
        return []
    if screw.countersunk:
        rim = stack.starts_mm
        cone = (wide - radius) / tan(radians(screw.head_angle_deg or 90.0) / 2.0)
        dome = ((rim - screw.raised_mm, radius),) if screw.raised_mm else ()
        return [_Piece("head", (*dome, (rim, wide), (rim + cone, radius)))]
    high = screw.head_height_mm or 0.0
    return [_Piece("head", ((-high, wide), (0.0, wide)))] if high > _THIN_MM else []


def _shank(screw: Screw, starts_mm: float, tip_mm: float, radius: float) -> _Piece:
    if not screw.is_wood or screw.headless:
        return _Piece("shank", ((starts_mm, radius), (tip_mm, radius)))
    point = min(_POINT_D * screw.major_mm, max(tip_mm - starts_mm, 0.0) / 2.0)
    return _Piece("shank", ((starts_mm, radius), (tip_mm - point, radius), (tip_mm, 0.0)))


def _radius_of(member: Member) -> float | None:
    """Return how far a washer, nut or insert reaches from the axis [mm]; None where it is not known."""
    if member.kind == "nut":
        flats = member.flats_mm
        if flats is None or member.nut is None:
            return None
        return flats * sqrt(2.0) / 2.0 if member.nut.form == "square" else across_corners_mm(flats) / 2.0
    return None if member.kind == "layer" or member.outside_mm is None else member.outside_mm / 2.0
