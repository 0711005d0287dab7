"""How a part moves, seen along the axis that it turns about or across the way that it slides.

The part and all that it carries are drawn at rest and, dashed, at both ends of the travel; what stands still
near them in outline. Everything comes from the placed solids, whose convex pieces are seen as they lie.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from calculators.calculation.result import number_text
from calculators.drawing.chart import BROAD_MM, NARROW_MM
from calculators.drawing.mechanism import arc_dimension
from calculators.drawing.sketch import Sketch
from calculators.drawing.svg import STEEL, Point
from calculators.geometry.shapes import Box, Shape, support
from calculators.geometry.sweeping import Sweep, moved_to, swept_box
from calculators.geometry.vectors import Vector, cross, dot, scale, subtract
from calculators.joints.model import Finding
from calculators.planning.checks.motions import Mover, Thing, movers, moves_with, part_things
from calculators.planning.worked import WorkedBuild

SIGHTS = 72
"""So many directions a convex piece is looked at in for its outline; its corners are met exactly."""
NEAR_MM = 5.0
"""What stands still is drawn where it comes so near to the room that the moving parts take."""
MOST_NEIGHBOURS = 40
MOST_PIECES = 400
MOST_NAMED = 12
TOLD = frozenset({"swept-clearance", "fastener-in-the-sweep"})
"""The rules that speak of a moving part's way."""


def motion_picture(worked: WorkedBuild, mark: str, *, narrow: bool = False) -> str | None:
    """Draw how the first posed copy of a part moves.

    Args:
        worked: the build, inspected.
        mark: the mark of the part.
        narrow: draw for a narrow screen.

    Returns:
        The SVG with its text equivalent; None where the part has no motion, or no copy of it has a pose.

    Source: ISO 128-2 (outlines of neighbours and of end positions thin; from memory), drawn dashed here.
    """
    site = worked.site
    if site is None:
        return None
    every = tuple(movers(site))
    mover = next((one for one in every if one.mark == mark), None)
    if mover is None:
        return None
    things, moving = part_things(site), moves_with(site, every)
    own = [things[copy] for copy, one in moving.items() if one.copy == mover.copy and copy in things]
    if not own:
        return None
    still = _neighbours(mover.sweep, own, [thing for copy, thing in things.items() if copy not in moving])
    findings = [one for one in worked.findings if one.part == mark and one.rule in TOLD]
    return _drawn(mover, own, still, findings, NARROW_MM if narrow else BROAD_MM)


def _neighbours(sweep: Sweep, own: Sequence[Thing], still: Sequence[Thing]) -> list[Thing]:
    rooms = [swept_box(piece, sweep) for thing in own for piece in thing.pieces[:MOST_PIECES]]
    if not rooms:
        return []
    room = (
        tuple(min(low[i] for low, _ in rooms) - NEAR_MM for i in range(3)),
        tuple(max(high[i] for _, high in rooms) + NEAR_MM for i in range(3)),
    )
    return [thing for thing in still if _share(room, thing.box)][:MOST_NEIGHBOURS]


def _share(one: tuple[tuple[float, ...], tuple[float, ...]], other: Box) -> bool:
    return all(one[0][i] <= other[1][i] and other[0][i] <= one[1][i] for i in range(3))


def sight_of(sweep: Sweep) -> tuple[Vector, Vector]:
    """Return the two directions of a drawing of a motion: to the right, and up.

    A part that turns is seen against its axis, so that its angles run anticlockwise; one that slides from
    the side, its way to the right, or up where it is upright.

    Args:
        sweep: the motion.

    Returns:
        Two unit vectors that are square to one another.

    Source: this project.

    Example:
        >>> sight_of(Sweep("turns", (0, 0, 0), (0, 0, 1), -5, 5))
        ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
    """
    way = sweep.way
    if sweep.kind == "turns":
        first: Vector = (1.0, 0.0, 0.0) if abs(way[0]) < 0.9 else (0.0, 1.0, 0.0)
        right = _unit(_less(first, way))
        return right, cross(way, right)
    if abs(way[2]) > 0.9:
        return _unit(_less((1.0, 0.0, 0.0), way)), way
    return way, _unit(_less((0.0, 0.0, 1.0), way))


def _less(vector: Vector, way: Vector) -> Vector:
    return subtract(vector, scale(way, dot(vector, way)))


def _unit(vector: Vector) -> Vector:
    return scale(vector, 1.0 / math.sqrt(dot(vector, vector)))


def seen_outline(shape: Shape, sight: tuple[Vector, Vector], origin: Vector) -> list[Point]:
    """Return the outline of a convex shape as it is seen.

    Args:
        shape: the shape.
        sight: the directions to the right and up.
        origin: the point of space that is nought in the drawing [mm].

    Returns:
        The points of the outline, anticlockwise [mm].

    Source: this project (the points that reach farthest in each direction).
    """
    right, up = sight
    found: list[Point] = []
    for step in range(SIGHTS):
        # Half a step off, so that no direction is square to the faces of an upright block.
        angle = math.tau * (step + 0.5) / SIGHTS
        c, s = math.cos(angle), math.sin(angle)
        point = support(shape, (c * right[0] + s * up[0], c * right[1] + s * up[1], c * right[2] + s * up[2]))
        away = subtract(point, origin)
        at = (dot(away, right), dot(away, up))
        if not found or math.dist(found[-1], at) > 1e-6:
            found.append(at)
    return found


def _drawn(
    mover: Mover, own: Sequence[Thing], still: Sequence[Thing], findings: Sequence[Finding], width: float
) -> str:
    sweep, sight = mover.sweep, sight_of(mover.sweep)
    pieces = [piece for thing in own for piece in thing.pieces][:MOST_PIECES]

    def outlines(at: float) -> list[list[Point]]:
        return [seen_outline(moved_to(piece, sweep, at), sight, sweep.point) for piece in pieces]

    rest, ends = outlines(0.0), [outlines(at) for at in (sweep.least, sweep.most) if abs(at) > 1e-9]
    between = [outlines(sweep.least + (sweep.most - sweep.least) * i / 8) for i in range(9)]
    around = [
        seen_outline(piece, sight, sweep.point) for thing in still for piece in thing.pieces[:MOST_PIECES]
    ]
    points = [point for rings in (rest, *ends, *between) for ring in rings for point in ring]
    bounds = _bounds([*points, (0.0, 0.0)] if sweep.kind == "turns" else points)
    sketch = Sketch(bounds, width, sides_mm=(14, 14), tallest_mm=0.6 * width)
    for ring in around:
        if kept := _within(ring, bounds):
            sketch.shape([kept], "break")
    for rings in ends:
        sketch.shape(rings, "hidden")
    sketch.shape(rest, "outline", fill=STEEL)
    _dimension(sketch, sweep, rest)
    _marks(sketch, mover, own, still, bounds)
    for finding in findings[:3]:
        sketch.below(finding.says, ink="finding")
    says = " ".join(_words(mover, own, still, findings))
    return sketch.svg(title=f"{mover.mark}: how it moves, to scale", description=says)


def _bounds(points: Sequence[Point]) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    pad = 0.08 * max(max(xs) - min(xs), max(ys) - min(ys), 1.0)
    return min(xs) - pad, min(ys) - pad, max(xs) + pad, max(ys) + pad


def _within(ring: Sequence[Point], bounds: tuple[float, float, float, float]) -> list[Point]:
    """Cut a convex outline off at the window's edges: what stands around may be far larger."""
    left, low, right, high = bounds
    kept = list(ring)
    for index, limit, sign in ((0, left, 1.0), (0, right, -1.0), (1, low, 1.0), (1, high, -1.0)):
        cut: list[Point] = []
        for one, other in zip(kept, [*kept[1:], *kept[:1]], strict=True):
            a, b = sign * (one[index] - limit), sign * (other[index] - limit)
            if a >= 0:
                cut.append(one)
            if (a < 0) != (b < 0):
                share = a / (a - b)
                cut.append((one[0] + (other[0] - one[0]) * share, one[1] + (other[1] - one[1]) * share))
        kept = cut
    return kept


def _dimension(sketch: Sketch, sweep: Sweep, rest: Sequence[Sequence[Point]]) -> None:
    """Dimension the travel, about the axis or along the way."""
    points = [point for ring in rest for point in ring]
    far = max(points, key=lambda one: math.hypot(*one))
    travel = number_text(sweep.most - sweep.least, 4)
    if sweep.kind == "turns":
        sketch.cross((0.0, 0.0), 3.0)
        first, radius = math.atan2(far[1], far[0]), 0.8 * math.hypot(*far)
        if radius > 0:
            ends = (math.radians(sweep.least), math.radians(sweep.most))
            arc_dimension(sketch, radius, first + ends[0], first + ends[1], f"{travel}°")
        return
    if abs(sweep.way[2]) > 0.9:
        top = max(y for _, y in points)
        sketch.upward((far[0], top + sweep.least), (far[0], top + sweep.most), f"{travel} mm", 2.0)
    else:
        lead = max(x for x, _ in points)
        sketch.across((lead + sweep.least, far[1]), (lead + sweep.most, far[1]), f"{travel} mm", 3.0)


def _marks(
    sketch: Sketch,
    mover: Mover,
    own: Sequence[Thing],
    still: Sequence[Thing],
    bounds: tuple[float, float, float, float],
) -> None:
    """Name what moves and what it moves among, as many as can be told apart."""
    sight, origin = sight_of(mover.sweep), mover.sweep.point
    found: list[tuple[float, str, Point]] = []
    for thing in (*own, *still)[:MOST_NAMED]:
        rings = [seen_outline(piece, sight, origin) for piece in thing.pieces[:MOST_PIECES]]
        points = [point for ring in rings for point in _within(ring, bounds)]
        if points:
            left, low, right, high = _bounds(points)
            middle = ((left + right) / 2, (low + high) / 2)
            found.append((math.hypot(right - left, high - low), thing.copy, middle))
    for _, copy, middle in sorted(found):  # the smallest first: a large part can be named anywhere
        sketch.note(middle, copy)


def _words(
    mover: Mover, own: Sequence[Thing], still: Sequence[Thing], findings: Sequence[Finding]
) -> Iterator[str]:
    sweep = mover.sweep
    unit = "deg" if sweep.kind == "turns" else "mm"
    does = "turns" if sweep.kind == "turns" else "slides"
    least, most = number_text(sweep.least, 4), number_text(sweep.most, 4)
    yield f"{mover.copy} {does} from {least} to {most} {unit}."
    carried = [thing.copy for thing in own if thing.copy != mover.copy]
    if carried:
        yield f"It carries {', '.join(carried[:12])}."
    if still:
        yield f"Around it stand {', '.join(thing.copy for thing in still[:12])}."
    yield from (finding.says for finding in findings[:3])
