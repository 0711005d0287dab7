"""The outlines of screws, nuts, washers and inserts in real millimetres about the axis.

A point is (x, z): x from the axis, z along it from the plane in which the head bears, positive to the point.
Everything has its true size but the depths of recesses, which are by proportion (`drives.py`).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from calculators.drawing.drives import Line, Recess, recess_lines, recess_of
from calculators.drawing.svg import Point

ARC_STEPS = 16


@dataclass(frozen=True, slots=True)
class Figure:
    """One thing in view: its closed outline, and lines on it (visible edges, thin lines, hidden lines)."""

    outline: Line
    edges: tuple[Line, ...] = ()
    thin: tuple[Line, ...] = ()
    hidden: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True)
class HeadSizes:
    """What a head is drawn from [mm, deg]: `rim` is where a countersunk head's rim lies on the axis.

    `slot` is the slot's width and `socket` the hexagon socket's across flats, where a table has them.
    """

    kind: str
    drive: str
    shank: float
    diameter: float
    height: float
    angle: float = 90.0
    flats: float | None = None
    rim: float = 0.0
    raised: float = 0.0
    slot: float | None = None
    socket: float | None = None


def turned(right: Sequence[Point]) -> Line:
    """Close a profile of the right-hand side about the axis.

    Args:
        right: the points of the right-hand side, along the axis [mm].

    Returns:
        The whole outline [mm].

    Source: this project.
    """
    left = [(-x, z) for x, z in reversed(right)]
    return (*right, *left)


def dome(half: float, base: float, rise: float) -> list[Point]:
    """Return the right-hand half of a circular dome from its crown to its rim.

    Args:
        half: half the dome's width [mm].
        base: where its rim lies on the axis [mm].
        rise: its height [mm]; the crown lies at base - rise.

    Returns:
        The points [mm].

    Source: geometry of a circle's segment.
    """
    rise = min(rise, half)
    if rise <= 0 or half <= 0:
        return [(0.0, base), (half, base)]
    radius = (half * half + rise * rise) / (2 * rise)
    full = math.asin(min(1.0, half / radius))
    angles = [full * i / ARC_STEPS for i in range(ARC_STEPS + 1)]
    return [(radius * math.sin(a), base - rise + radius * (1 - math.cos(a))) for a in angles]


def head_figure(head: HeadSizes) -> Figure | None:
    """Return a head in view, or None for a headless screw.

    Args:
        head: its sizes [mm].

    Returns:
        The figure [mm].

    Source: head forms of ISO 2009, 2010, 7045, 1207, 4762, 7380-1, 4017 and DIN 603, simplified.
    """
    if head.kind == "none":
        return None
    return _HEADS.get(head.kind, _cylinder)(head)


def _countersunk(head: HeadSizes) -> Figure:
    half, shank = head.diameter / 2, head.shank / 2
    cone = max(half - shank, 0.0) / math.tan(math.radians(head.angle) / 2)
    right = [*dome(half, head.rim, head.raised), (shank, head.rim + cone)]
    rim = ((-half, head.rim), (half, head.rim)) if head.raised else ()
    return _driven(
        head, right, head.rim - head.raised, 0.45 * max(cone, 0.2 * head.shank), (rim,) if rim else ()
    )


def _cylinder(head: HeadSizes) -> Figure:
    half, edge = head.diameter / 2, 0.06 * head.diameter
    edge = min(edge, head.height / 3)
    right = [(half - edge, -head.height), (half, -head.height + edge), (half, 0.0)]
    return _driven(head, right, -head.height, 0.5 * head.height)


def _pan(head: HeadSizes) -> Figure:
    half, rise = head.diameter / 2, 0.45 * head.height
    # A pan: a low crown that turns over into upright sides.
    bend = [
        (
            half * (0.72 + 0.28 * math.sin(a)),
            -head.height + 0.12 * head.height + rise * (1 - math.cos(a)),
        )
        for a in (math.pi / 2 * i / 8 for i in range(9))
    ]
    right = [(0.0, -head.height), (half * 0.4, -head.height + 0.03 * head.height), *bend, (half * 0.97, 0.0)]
    return _driven(head, right, -head.height, 0.5 * head.height)


def _round(head: HeadSizes) -> Figure:
    half = head.diameter / 2
    if head.height > half:
        right = [*dome(half, half - head.height, half), (half, 0.0)]
    else:
        right = dome(half, 0.0, head.height)
    return _driven(head, right, -head.height, 0.5 * head.height)


def _coach(head: HeadSizes) -> Figure:
    figure = _round(head)
    neck, deep = head.shank / 2, 0.6 * head.shank
    square = ((-neck, 0.0), (neck, 0.0), (neck, deep), (-neck, deep), (-neck, 0.0))
    # The thin crossed lines say that the neck's faces are flat.
    crossed = (((-neck, 0.0), (neck, deep)), ((neck, 0.0), (-neck, deep)))
    return Figure(figure.outline, (*figure.edges, square), crossed, figure.hidden)


def _hexagon(head: HeadSizes) -> Figure:
    flats = head.flats or head.diameter * math.cos(math.radians(30))
    corners = flats / math.cos(math.radians(30))
    return hexagon(corners, -head.height, 0.0, chamfer_at=-head.height)


def _knurled(head: HeadSizes) -> Figure:
    """A knurled rim upon a narrower collar, which bears."""
    half, high = head.diameter / 2, head.height
    edge, under = min(0.05 * head.diameter, high / 8), -0.4 * high
    collar = max(min(0.5 * half + 0.25 * head.shank, 0.8 * half), head.shank / 2)
    right = [
        (half - edge, -high),
        (half, -high + edge),
        (half, under - edge),
        (half - edge, under),
        (collar, under),
        (collar, 0.0),
    ]
    return Figure(turned(right), (), knurling(half, -high + edge, under - edge))


def knurling(half: float, near: float, far: float) -> tuple[Line, ...]:
    """Return the lines of a straight knurl, which stand closer towards the sides.

    Args:
        half: half its diameter [mm].
        near: where it begins on the axis [mm].
        far: where it ends on the axis [mm].

    Returns:
        The lines [mm].

    Source: this project.
    """
    places = (half * math.sin(math.pi * i / 22) for i in range(-10, 11))
    return tuple(((x, near), (x, far)) for x in places)


_HEADS: dict[str, Callable[[HeadSizes], Figure]] = {
    "csk": _countersunk,
    "raised csk": _countersunk,
    "socket csk": _countersunk,
    "pan": _pan,
    "cheese": _cylinder,
    "round": _round,
    "socket cap": _cylinder,
    "button": _round,
    "hex": _hexagon,
    "coach": _coach,
    "knurled": _knurled,
}


def hexagon(corners: float, near: float, far: float, *, chamfer_at: float | None = None) -> Figure:
    """Return a hexagon seen across its corners, three faces showing.

    Args:
        corners: its width across corners [mm].
        near: where it begins on the axis [mm].
        far: where it ends on the axis [mm].
        chamfer_at: which of the two ends is chamfered [mm]; None for neither.

    Returns:
        The figure [mm].

    Source: ISO 4014 and ISO 4032, simplified.
    """
    half = corners / 2
    cut = min(0.12 * half, abs(far - near) / 3)
    right = [(half, near), (half, far)]
    if chamfer_at == near:
        right = [(half - cut, near), (half, near + cut * 0.58), (half, far)]
    elif chamfer_at == far:
        right = [(half, near), (half, far - cut * 0.58), (half - cut, far)]
    edges = tuple(((x, near), (x, far)) for x in (-half / 2, half / 2))
    return Figure(turned(right), edges)


def _driven(
    head: HeadSizes, right: list[Point], top: float, deep: float, edges: tuple[Line, ...] = ()
) -> Figure:
    """Cut the recess for the driver: a slot is seen, a socket is hidden."""
    recess = recess_in(head, deep)
    if recess and recess.drive == "slotted":
        return _slotted(recess, right, top, edges)
    return Figure(turned(right), edges, (), recess_lines(recess, top))


def recess_in(head: HeadSizes, deep: float) -> Recess | None:
    """Return the recess of a head.

    Args:
        head: the head's sizes.
        deep: how deep it is drawn [mm].

    Returns:
        The recess, or None.

    Source: this project.
    """
    return recess_of(
        head.drive,
        head.kind,
        diameter=head.diameter,
        shank=head.shank,
        deep=deep,
        slot=head.slot,
        socket=head.socket,
    )


def _slotted(recess: Recess, right: list[Point], top: float, edges: tuple[Line, ...]) -> Figure:
    half = recess.width / 2
    outside = [point for point in right if point[0] > half]
    crown = _height_at(right, half, top)
    return Figure(turned([(half, top + recess.deep), (half, crown), *outside]), edges)


def _height_at(right: list[Point], x: float, top: float) -> float:
    """Return where the crown lies at a distance from the axis."""
    before = (0.0, top)
    for point in right:
        if point[0] >= x:
            run = point[0] - before[0]
            return before[1] + (point[1] - before[1]) * ((x - before[0]) / run if run > 0 else 1.0)
        before = point
    return top
