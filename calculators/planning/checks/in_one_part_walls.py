"""What a hole of a part leaves to the sides that it runs along: to flat faces, round ones and outlines."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.geometry.cuts import bore_shape
from calculators.geometry.cuts_apart import farthest_from_axis
from calculators.geometry.frames import FaceFrame, face_frame
from calculators.geometry.model import Face, Solid
from calculators.geometry.nearness import apart
from calculators.geometry.outline_lines import clear_of
from calculators.geometry.outlines import to_outline
from calculators.geometry.shapes import Box, Prism, Turned
from calculators.geometry.vectors import Vector
from calculators.planning.checks.in_one_part_cuts import HoleCut, PartCuts

_SIDES: dict[int, tuple[Face, Face]] = {0: ("left", "right"), 1: ("front", "back"), 2: ("bottom", "top")}


def sides_of(solid: Solid, box: Box, way: Vector) -> Iterator[tuple[Face, float]]:
    """Give what is left to each side of a block that a hole square to its face runs along.

    Args:
        solid: a block.
        box: the box about the hole.
        way: the hole's axis, along X, Y or Z.

    Yields:
        The four faces, each with what is left to it [mm], negative where the hole breaks out.

    Source: this project.
    """
    sizes = (solid.length, solid.width, solid.thickness)
    for i in range(3):
        if abs(way[i]) < 0.5:
            low, high = _SIDES[i]
            yield low, box[0][i]
            yield high, sizes[i] - box[1][i]


def outline_wall(solid: Solid, shape: Turned, way: Vector) -> float:
    """Return what a hole, or its recess, leaves of a block to the outline that it is sawn to.

    Args:
        solid: a block with an outline.
        shape: the hole or its recess.
        way: the hole's axis.

    Returns:
        What is left [mm], negative where it breaks out. Of a hole that comes in by the outline, the lines and
        arcs that its axis crosses are left out of account: it is meant to come in by them.

    Source: geometry.
    """
    radius = max(ring for _, ring in shape.rings)
    (x, y, _), (sx, sy, _) = shape.start, shape.slide
    if abs(way[2]) > 0.999999:
        half = ((x - sx / 2.0, y - sy / 2.0), (x + sx / 2.0, y + sy / 2.0))
        clear = clear_of(solid.outline, *half)
        return (clear if to_outline(solid.outline, x, y) > 0.0 else -clear) - radius
    near, far = min(at for at, _ in shape.rings), max(at for at, _ in shape.rings)
    # Its rim where it comes in or stops is no side of it.
    short = min(radius, (far - near) / 2.0)
    first, last = ((x + at * way[0], y + at * way[1]) for at in (near + short, far - short))
    big = solid.length + solid.width + far - near
    passing = ((x - big * way[0], y - big * way[1]), (x + big * way[0], y + big * way[1]))
    # Without end, where the axis crosses all there is: as good as the whole part.
    return min(clear_of(solid.outline, first, last, passing), big) - radius


def walls_of_block(solid: Solid, shape: Turned, box: Box, way: Vector) -> Iterator[tuple[str, float]]:
    """Give what is left beside a hole square to its face, or beside its recess, of a block.

    Args:
        solid: a block.
        shape: the hole or its recess.
        box: the box about it.
        way: the hole's axis, along X, Y or Z.

    Yields:
        The sides that it runs along, each with what is left to it [mm]; those of an outline as one.

    Source: this project.
    """
    for face, left in sides_of(solid, box, way):
        if not solid.outline or face in ("top", "bottom"):
            yield face, left
    if solid.outline:
        yield "outline", outline_wall(solid, shape, way)


def walls_about(cuts: PartCuts, hole: HoleCut, shape: Turned, box: Box) -> Iterator[tuple[str, float]]:
    """Give what is left of the part beside a hole.

    Args:
        cuts: the part's cuts.
        hole: one of its holes.
        shape: what it takes out.
        box: the box about that.

    Yields:
        A face, or the outline, and how much is left to it [mm].

    Source: this project.
    """
    solid, cut = cuts.solid, hole.cut
    if solid.shape == "block":
        if cut.square:
            yield from walls_of_block(solid, shape, box, cut.way)
            return
        for face, frame in _other_faces(solid, hole):
            if not solid.outline or face in ("top", "bottom"):
                yield face, apart(shape, _flat(frame)).distance
        if solid.outline:
            yield "outline", outline_wall(solid, shape, cut.way)
        return
    if abs(cut.way[0]) > 0.999999:
        yield "side", solid.diameter / 2.0 - farthest_from_axis(shape)
        inner = bore_shape(solid)
        # One on the bore's own line opens the bore: a counterbore, or a seat for a bush.
        if inner is not None and (shape.start[1] ** 2 + shape.start[2] ** 2) ** 0.5 > 0.05:
            yield "bore", apart(shape, inner, enough=50.0).distance
    elif abs(cut.way[0]) < 1e-6:
        yield "left", box[0][0]
        yield "right", solid.length - box[1][0]
        yield "side", solid.diameter / 2.0 - farthest_from_axis(shape)
    else:
        radius = solid.diameter / 2.0
        for face, x in (("left", 0.0), ("right", solid.length)):
            if face != hole.hole.face:
                disc = Turned((x, 0.0, 0.0), (1.0, 0.0, 0.0), ((0.0, radius),))
                yield face, apart(shape, disc).distance


def _other_faces(solid: Solid, hole: HoleCut) -> Iterator[tuple[Face, FaceFrame]]:
    """The faces of a block that an oblique hole neither comes in by nor goes out by."""
    out: Face = hole.hole.face
    if hole.cut.last is not None and hole.cut.last.surface_out.of == "blank":
        m, w, far = hole.cut.mark, hole.cut.way, hole.cut.leave
        ends = (m[0] + far * w[0], m[1] + far * w[1], m[2] + far * w[2])
        sizes = (solid.length, solid.width, solid.thickness)
        off = {_SIDES[i][k]: abs(ends[i] - k * sizes[i]) for i in range(3) for k in (0, 1)}
        out = min(off, key=lambda face: off[face])
    for pair in _SIDES.values():
        for face in pair:
            if face not in (hole.hole.face, out):
                yield face, face_frame(solid, face)


def _flat(frame: FaceFrame) -> Prism:
    length, width = frame.u_range[1] - frame.u_range[0], frame.v_range[1] - frame.v_range[0]
    return Prism(frame.origin, frame.u_axis, frame.v_axis, frame.inward, length, width, 0.0)
