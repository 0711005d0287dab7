"""A part cut into convex pieces, and the hollows that no straight cut takes out of it.

A block less its rectangular pockets is a number of boxes, each as large as it can be (they overlap one
another); the corner radii of the pockets are left out: a recess counts as square. A block with an outline is
a number of slabs, which overlap one another too. A round part is one piece. Bores, round holes and what is
cut into a round part stay as hollows, which `clashes.py` sees to.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from calculators.geometry.chords import pocket_frame
from calculators.geometry.cuts import bore_shape, pocket_shape, through_depth
from calculators.geometry.model import Pocket, Solid
from calculators.geometry.outline_pieces import Polygon, beyond_line, convex_polygons
from calculators.geometry.shapes import (
    Box,
    Prism,
    Shape,
    Slab,
    block_shape,
    box_of,
    moved,
    round_shape,
)
from calculators.geometry.vectors import Transform

MANY_PIECES = 40
"""From so many on the boxes are cut so that they do not overlap: else there would be no end of them."""

_THIN_MM = 1e-6

_Span = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Hollow:
    """A convex space that is cut out of a part: a cylinder or a prism, open where it begins.

    `through` says that it is open at its far end too.
    """

    shape: Shape
    through: bool


class Mass:
    """What a part is of: convex pieces with their boxes, the hollows in them, and the box about all.

    The hollows are made when they are first asked for: most parts are only near others.
    """

    def __init__(self, pieces: tuple[Shape, ...], hollows: Callable[[], tuple[Hollow, ...]] = tuple) -> None:
        """Take the pieces, and what makes the hollows, in one frame."""
        self.pieces = pieces
        self.boxes: tuple[Box, ...] = tuple(map(box_of, pieces))
        self.box: Box = around(self.boxes)
        self._make = hollows

    @cached_property
    def hollows(self) -> tuple[Hollow, ...]:
        """The hollows in the pieces."""
        return self._make()

    @cached_property
    def hollow_boxes(self) -> tuple[Box, ...]:
        """The box about each hollow."""
        return tuple(box_of(each.shape) for each in self.hollows)


def mass_of(
    solid: Solid, hollows: Callable[[], Iterable[Hollow]] = tuple, transform: Transform | None = None
) -> Mass:
    """Cut a part into convex pieces, and list the hollows in them.

    Args:
        solid: the part with its pockets.
        hollows: makes further hollows (its holes), in the part's own frame, when they are asked for.
        transform: where the part lies; None leaves it in its own frame.

    Returns:
        Its pieces and hollows [mm]. A part of which nothing is left has no pieces.

    Source: this project.
    """
    if transform is None:
        return Mass(pieces_of(solid), lambda: (*hollows_of(solid), *hollows()))
    placed = transform

    def make() -> tuple[Hollow, ...]:
        every = (*hollows_of(solid), *hollows())
        return tuple(Hollow(moved(each.shape, placed), each.through) for each in every)

    return Mass(tuple(moved(piece, placed) for piece in pieces_of(solid)), make)


def around(boxes: Iterable[Box]) -> Box:
    """Return the box about several.

    Args:
        boxes: the boxes.

    Returns:
        The least box that holds them all [mm]; a point where there are none.

    Source: this project.

    Example:
        >>> around([((0, 0, 0), (1, 1, 1)), ((2, -1, 0), (3, 0, 5))])
        ((0, -1, 0), (3, 1, 5))
    """
    listed = list(boxes)
    if not listed:
        return (0.0, 0.0, 0.0), (0.0, 0.0, 0.0)
    lows, highs = zip(*listed, strict=True)
    ax, ay, az = (min(low[i] for low in lows) for i in range(3))
    bx, by, bz = (max(high[i] for high in highs) for i in range(3))
    return (ax, ay, az), (bx, by, bz)


def pieces_of(solid: Solid) -> tuple[Shape, ...]:
    """Cut a part into convex pieces in its own frame.

    Args:
        solid: the part.

    Returns:
        Boxes that together fill a block less its rectangular pockets (corner radii left out); of a round
        part its blank; of a block with an outline of its own convex slabs, arcs followed to 0.01 mm.

    Source: this project.

    Example:
        >>> len(pieces_of(Solid("block", 100, 50, 20, pockets=(Pocket("top", 0, 0, 8, 100, 10),))))
        2
    """
    if solid.shape == "round":
        return (round_shape(solid),)
    if solid.outline:
        return tuple(_outlined(solid))
    whole: _Span = ((0.0, float(solid.length)), (0.0, float(solid.width)), (0.0, float(solid.thickness)))
    spans = [whole]
    for pocket in solid.pockets:
        if pocket.diameter:
            continue
        cut = _span_of(solid, pocket)
        overlapping = len(spans) <= MANY_PIECES
        left: list[_Span] = []
        for span in spans:
            left += _less(span, cut, overlapping=overlapping)
        spans = _without_held(left) if overlapping else left
    blank = block_shape(solid)
    return tuple(
        replace(blank, corner=(x[0], y[0], z[0]), length=x[1] - x[0], width=y[1] - y[0], depth=z[1] - z[0])
        for x, y, z in spans
    )


_Upright = tuple[Polygon, float, float]
"""A convex polygon in X and Y, from one height to another."""


def _outlined(solid: Solid) -> Iterator[Shape]:
    """The slabs of a block with an outline less its rectangular pockets."""
    slabs: list[_Upright] = [
        (polygon, 0.0, float(solid.thickness)) for polygon in convex_polygons(solid.outline)
    ]
    for pocket in solid.pockets:
        if not pocket.diameter:
            cut = _span_of(solid, pocket)
            overlapping = len(slabs) <= MANY_PIECES
            slabs = [left for slab in slabs for left in _slab_less(slab, cut, overlapping=overlapping)]
    blank = block_shape(solid)
    for polygon, low, high in slabs:
        yield Slab((0.0, 0.0, low), blank.u_axis, blank.v_axis, blank.inward, polygon, high - low)


def _slab_less(slab: _Upright, cut: _Span, *, overlapping: bool) -> Iterator[_Upright]:
    """What is left of a slab: below and above what is cut out of it, and on its four sides."""
    polygon, low, high = slab
    (x0, x1), (y0, y1), (z0, z1) = cut
    xs, ys = [x for x, _ in polygon], [y for _, y in polygon]
    spans = ((min(xs), max(xs), x0, x1), (min(ys), max(ys), y0, y1), (low, high, z0, z1))
    if any(a >= d - _THIN_MM or b <= c + _THIN_MM for a, b, c, d in spans):
        yield slab
        return
    for bottom, top in ((low, min(high, z0)), (max(low, z1), high)):
        if top - bottom > _THIN_MM:
            yield polygon, bottom, top
    bottom, top = (low, high) if overlapping else (max(low, z0), min(high, z1))
    for way, limit in (((-1.0, 0.0), -x0), ((1.0, 0.0), x1), ((0.0, -1.0), -y0), ((0.0, 1.0), y1)):
        left = beyond_line(polygon, way, limit)
        if left:
            yield left, bottom, top


def _span_of(solid: Solid, pocket: Pocket) -> _Span:
    frame = pocket_frame(solid, pocket)
    depth = through_depth(solid, frame) if pocket.depth is None else pocket.depth
    first = frame.point(pocket.u, pocket.v, 0.0)
    second = frame.point(pocket.u + pocket.length, pocket.v + pocket.width, depth)
    low, high = tuple(map(min, first, second)), tuple(map(max, first, second))
    return (low[0], high[0]), (low[1], high[1]), (low[2], high[2])


def _less(span: _Span, cut: _Span, *, overlapping: bool) -> list[_Span]:
    """Return what is left of a box: a slab on each side of what is cut out of it."""
    if any(low >= cut_high - _THIN_MM or high <= cut_low + _THIN_MM
           for (low, high), (cut_low, cut_high) in zip(span, cut, strict=True)):  # fmt: skip
        return [span]
    left: list[_Span] = []
    rest = list(span)
    # The thickness first: the floor of a pocket is then one whole slab.
    for axis in (2, 1, 0):
        low, high = rest[axis]
        for slab in ((low, min(high, cut[axis][0])), (max(low, cut[axis][1]), high)):
            if slab[1] - slab[0] > _THIN_MM:
                made = [*rest]
                made[axis] = slab
                left.append((made[0], made[1], made[2]))
        if not overlapping:
            rest[axis] = (max(low, cut[axis][0]), min(high, cut[axis][1]))
    return left


def _without_held(spans: list[_Span]) -> list[_Span]:
    """Leave out the boxes that lie in another."""
    kept: list[_Span] = []
    for span in sorted(dict.fromkeys(spans), key=_size, reverse=True):
        if not any(_holds(other, span) for other in kept):
            kept.append(span)
    return kept


def _size(span: _Span) -> float:
    (a, b), (c, d), (e, f) = span
    return (b - a) * (d - c) * (f - e)


def _holds(outer: _Span, inner: _Span) -> bool:
    return all(
        low <= other_low + _THIN_MM and high >= other_high - _THIN_MM
        for (low, high), (other_low, other_high) in zip(outer, inner, strict=True)
    )


def hollows_of(solid: Solid) -> tuple[Hollow, ...]:
    """Return the hollows of a part that `pieces_of` does not cut out.

    Args:
        solid: the part.

    Returns:
        Its bore, its round pockets, and of a round part all its pockets, in its own frame.

    Source: this project.

    Example:
        >>> hollows_of(Solid("round", 50, diameter=20, bore=8))[0].through
        True
    """
    found: list[Hollow] = []
    bore = bore_shape(solid)
    if bore is not None:
        found.append(Hollow(bore, through=True))
    for pocket in solid.pockets:
        if pocket.diameter or solid.shape == "round":
            shape = pocket_shape(solid, pocket)
            if isinstance(shape, Prism):
                shape = replace(shape, corner_radius=0.0)
            found.append(Hollow(shape, through=pocket.depth is None))
    return tuple(found)


__all__ = ["MANY_PIECES", "Hollow", "Mass", "around", "hollows_of", "mass_of", "pieces_of"]
