"""The places in a joint's section of which the rules speak: stretches and lines about the axis.

Each rule that speaks of a place has a line in `PLACES`, at the end.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from calculators.drawing.drives import Line
from calculators.drawing.section_hardware import Hardware
from calculators.drawing.section_plan import LayerShape, Plan
from calculators.hardware.fastener import Nut, Washer

Box = tuple[float, float, float, float]
"""A stretch: left, near, right, far [mm about the axis]."""
NEXT_TO = 1e-3


@dataclass(frozen=True, slots=True)
class Red:
    """What is reddened [mm about the axis]: stretches that are washed, and lines."""

    washes: tuple[Box, ...] = ()
    lines: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True)
class Spoken:
    """What a finding speaks of: the drawing and the layers of the part that it names, else all of them."""

    plan: Plan
    layers: tuple[LayerShape, ...]
    half: float

    @property
    def last(self) -> LayerShape | None:
        """The last of its layers."""
        return self.layers[-1] if self.layers else None


def closed(line: Line) -> Line:
    """Return a line that ends where it began.

    Args:
        line: the points.

    Returns:
        The same with its first point again.

    Source: this project.

    Example:
        >>> closed(((0.0, 0.0), (1.0, 0.0)))
        ((0.0, 0.0), (1.0, 0.0), (0.0, 0.0))
    """
    return (*line, line[0]) if line else ()


def _both(line: Iterable[tuple[float, float]]) -> tuple[Line, Line]:
    """A line on the right and the same on the left."""
    right = tuple(line)
    return right, tuple((-x, z) for x, z in right)


def wall_of(shape: LayerShape) -> Line:
    """Return the wall of a layer's hole on the right, or the axis where it has none.

    Args:
        shape: the layer.

    Returns:
        The line [mm].

    Source: this project.
    """
    return shape.profile or ((0.0, shape.surface), (0.0, shape.shown))


# What each place is.


def _hole(s: Spoken) -> Red:
    return Red(lines=tuple(line for shape in s.layers if shape.profile for line in _both(shape.profile)))


def _cone(s: Spoken) -> Red:
    lines: list[Line] = []
    for shape in s.layers:
        hole = shape.hole
        if hole and hole.countersink_depth_mm and len(shape.profile) > 1:
            sloping = [pair for pair in pairwise(shape.profile) if _slopes(pair)]
            lines += [line for pair in sloping[:1] for line in _both(pair)]
    return Red(lines=tuple(lines))


def _slopes(pair: tuple[tuple[float, float], tuple[float, float]]) -> bool:
    (x, z), (to_x, to_z) = pair
    return abs(x - to_x) > NEXT_TO and abs(z - to_z) > NEXT_TO


def _land(s: Spoken) -> Red:
    """What is left under the cone, or the cone itself where it goes right through."""
    washes: list[Box] = []
    for shape in s.layers:
        hole = shape.hole
        if hole and hole.countersink_depth_mm:
            wide = (hole.countersink_diameter_mm or hole.diameter_mm) / 2
            ends = shape.surface + hole.countersink_depth_mm
            if ends < shape.back - NEXT_TO:
                radius = hole.diameter_mm / 2
                washes += [(radius, ends, wide, shape.back), (-wide, ends, -radius, shape.back)]
    return Red(tuple(washes)) if washes else _cone(s)


def _counterbore(s: Spoken) -> Red:
    lines: list[Line] = []
    for shape in s.layers:
        hole = shape.hole
        if hole and hole.counterbore_diameter_mm and shape.profile:
            wide = max(x for x, _ in shape.profile)
            touching = [pair for pair in pairwise(shape.profile) if wide in (pair[0][0], pair[1][0])]
            lines += [line for pair in touching for line in _both(pair)]
    return Red(lines=tuple(lines))


def _behind_hole(s: Spoken) -> Red:
    """What is left behind a blind hole's point; the hole's own wall where it breaks out."""
    for shape in s.layers:
        hole = shape.hole
        if hole is None or hole.depth_mm is None:
            continue
        ends = shape.bearing + hole.depth_mm + max(hole.point_mm, 0.0)
        half = hole.diameter_mm / 2
        if ends < shape.back - NEXT_TO:
            return Red(((-half, ends, half, shape.back),))
        return Red(lines=(((-half, shape.back), (half, shape.back)),))
    return Red()


def _too_long(s: Spoken) -> Red:
    """The screw for which there is no room, or what is too little between its point and the end."""
    plan, last = s.plan, s.plan.layers[-1] if s.plan.layers else None
    if last is None:
        return Red()
    limit = last.back
    if last.hole and last.hole.depth_mm is not None and last.hole.kind in {"tapping", "insert"}:
        limit = min(limit, last.bearing + (last.hole.thread_depth_mm or last.hole.depth_mm))
    nuts = [each for each in plan.hardware if isinstance(each.what, Nut)]
    if nuts and limit >= last.back:
        limit = max(each.far for each in nuts)
    near, far = sorted((plan.tip, limit))
    if far - near < NEXT_TO:
        return Red(lines=(((-s.half, far), (s.half, far)),))
    return Red(((-s.half, near, s.half, far),))


def _shank(s: Spoken) -> Red:
    """The sides of the screw where it lies in the parts."""
    lines: list[Line] = []
    for shape in s.layers:
        near, far = max(shape.surface, s.plan.start), min(shape.back, s.plan.tip)
        if far - near > NEXT_TO:
            lines += _both(((s.half, near), (s.half, far)))
    return Red(lines=tuple(lines))


def _whole_screw(s: Spoken) -> Red:
    ends = ((s.half, s.plan.start), (s.half, s.plan.tip))
    return Red(lines=_both(ends))


def _penetration(s: Spoken) -> Red:
    last = s.last
    if last is None or s.plan.tip - last.surface < NEXT_TO:
        at = last.surface if last else s.plan.tip
        return Red(lines=(((-s.half, at), (s.half, at)),))
    return Red(((-s.half, last.surface, s.half, min(s.plan.tip, last.back)),))


def _plain_in_last(s: Spoken) -> Red:
    """The plain shank that reaches into what takes the thread, or into the nut."""
    takers = [shape.thread[0] for shape in s.layers if shape.thread]
    takers += [each.near for each in s.plan.hardware if isinstance(each.what, Nut) or each.is_insert]
    begins = min(takers, default=s.last.surface if s.last else s.plan.start)
    if s.plan.thread - begins < NEXT_TO:
        return Red(lines=(((-s.half, s.plan.thread), (s.half, s.plan.thread)),))
    return Red(((-s.half, begins, s.half, s.plan.thread),))


def _plain_in_pilot(s: Spoken) -> Red:
    last = s.last
    if last is None or s.plan.thread - last.surface < NEXT_TO:
        return _shank(s)
    return Red(((-s.half, last.surface, s.half, min(s.plan.thread, last.back)),))


def _engaged(s: Spoken) -> Red:
    """The stretch of thread that is engaged; the thread's mouth where none is."""
    threads = [shape.thread[:2] for shape in s.layers if shape.thread]
    threads = threads or [(each.near, each.far) for each in s.plan.hardware if each.is_insert]
    washes: list[Box] = []
    lines: list[Line] = []
    for near, far in threads:
        start, end = max(near, s.plan.thread), min(far, s.plan.tip)
        if end - start > NEXT_TO:
            washes.append((-s.half, start, s.half, end))
        else:
            lines.append(((-s.half, near), (s.half, near)))
    return Red(tuple(washes), tuple(lines))


def _thread(s: Spoken) -> Red:
    """The threads that the screw runs in: tapped, of an insert or of a nut."""
    lines: list[Line] = []
    for shape in s.layers:
        if shape.thread:
            near, far, major = shape.thread
            lines += _both(((major / 2, near), (major / 2, far)))
    for each in s.plan.hardware:
        if isinstance(each.what, Nut) or each.is_insert:
            lines += _both(((s.half, each.near), (s.half, each.far)))
    return Red(lines=tuple(lines))


def _outlines(every: Iterable[Hardware]) -> Red:
    return Red(lines=tuple(closed(figure.outline) for each in every for figure in each.figures))


def _nuts(s: Spoken) -> Red:
    return _outlines(each for each in s.plan.hardware if isinstance(each.what, Nut))


def _washers(s: Spoken) -> Red:
    return _outlines(each for each in s.plan.hardware if isinstance(each.what, Washer))


def _inserts(s: Spoken) -> Red:
    return _outlines(each for each in s.plan.hardware if each.is_insert)


def _all_hardware(s: Spoken) -> Red:
    return _outlines(s.plan.hardware)


def _past_nut(s: Spoken) -> Red:
    """What stands past the last nut, or the thread of the nut that the screw does not fill."""
    nuts = [each.far for each in s.plan.hardware if isinstance(each.what, Nut)]
    if not nuts:
        return Red()
    near, far = sorted((s.plan.tip, max(nuts)))
    if far - near < NEXT_TO:
        return Red(lines=(((-s.half, far), (s.half, far)),))
    return Red(((-s.half, near, s.half, far),))


def _head_above(s: Spoken) -> Red:
    """What of the head stands above the surface."""
    plan = s.plan
    if plan.head is None or not plan.layers:
        return Red()
    surface = min(shape.surface for shape in plan.layers)
    if surface - plan.top < NEXT_TO:
        return Red(lines=(closed(plan.head.outline),))
    half = max(x for x, z in plan.head.outline if z <= max(surface, plan.top) + NEXT_TO)
    return Red(((-half, plan.top, half, surface),))


def _bearing(s: Spoken) -> Red:
    """The faces on which a head, a washer or a nut bears on the parts."""
    lines: list[Line] = []
    for shape in s.layers:
        for z, half in _bearers(s.plan):
            if min(abs(z - shape.surface), abs(z - shape.back), abs(z - shape.bearing)) < NEXT_TO:
                lines.append(((-half, z), (half, z)))
    return Red(lines=tuple(dict.fromkeys(lines)))


def _bearers(plan: Plan) -> Iterator[tuple[float, float]]:
    if plan.head:
        at = max(z for _, z in plan.head.outline)
        yield at, max(x for x, z in plan.head.outline if abs(z - at) < NEXT_TO)
    for each in plan.hardware:
        if each.is_insert:
            continue
        half = max(x for figure in each.figures for x, _ in figure.outline)
        yield from ((each.near, half), (each.far, half))


def _to_edge(s: Spoken) -> Red:
    """What lies between the screw and the nearest edge or end of the part."""
    washes: list[Box] = []
    for shape in s.layers:
        if shape.edge is not None:
            wall = max([x for x, _ in shape.profile] or [s.half])
            near, far = shape.surface, shape.shown
            washes.append((min(wall, shape.edge), near, max(wall, shape.edge), far))
    return Red(tuple(washes))


def _clamped(s: Spoken) -> Red:
    """The sides of the screw along what it clamps."""
    layers = s.plan.layers
    if not layers:
        return Red()
    nuts = [each.near for each in s.plan.hardware if isinstance(each.what, Nut)]
    taps = [shape.thread[0] for shape in layers if shape.thread]
    far = min([*nuts, *taps], default=layers[-1].surface)
    near = min(max(0.0, s.plan.top), far)
    return Red(lines=_both(((s.half, near), (s.half, far)))) if far - near > NEXT_TO else _whole_screw(s)


def _tip(s: Spoken) -> Red:
    at = s.plan.tip
    return Red(lines=(((-1.3 * s.half, at), (1.3 * s.half, at)),))


PLACES: dict[str, Callable[[Spoken], Red]] = {
    "thread-match": _thread,
    "stainless-pair": _thread,
    "metal-in-wood": _shank,
    "no-stock-length": _whole_screw,
    "penetration": _penetration,
    "wood-behind-point": _too_long,
    "wood-screw-in-wood": _shank,
    "pilot-hole": _hole,
    "shank-hole": _hole,
    "shank-in-pilot": _plain_in_pilot,
    "soft-screw-in-hardwood": _shank,
    "end-distance": _to_edge,
    "edge-distance": _to_edge,
    "end-grain": _shank,
    "insert-hole": _hole,
    "insert-edge": _to_edge,
    "engagement": _engaged,
    "screw-bottoms": _too_long,
    "blind-hole-breaks-out": _behind_hole,
    "plain-shank": _plain_in_last,
    "tapping-hole": _hole,
    "clearance-hole": _hole,
    "lock": _clamped,
    "head-against-countersink": _cone,
    "countersink-depth": _land,
    "countersink-angle": _cone,
    "counterbore": _counterbore,
    "head-proud": _head_above,
    "threads-past-nut": _past_nut,
    "thin-nut-order": _nuts,
    "washer-pressure": _bearing,
    "washer-thickness": _washers,
    "head-over-hole": _bearing,
    # Rules of the build that speak of a joint's own section.
    "coated-thread": _thread,
    "near-match-threads": _thread,
    "mixed-systems": _all_hardware,
    "grub-screw": _tip,
    "lock-at-pivot": _clamped,
    "insert-wax": _inserts,
}
"""By the names of rules: the place in the section of which each speaks."""
