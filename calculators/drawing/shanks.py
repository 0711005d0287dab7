"""The outlines of shanks and points, nuts, washers and inserts in real millimetres about the axis."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calculators.drawing.drives import Line, Recess, recess_lines, recess_of
from calculators.drawing.figures import Figure, dome, hexagon, knurling, turned
from calculators.drawing.svg import Point

MOST_TURNS = 60
"""A wood thread with more turns than this is drawn coarser."""


@dataclass(frozen=True, slots=True)
class ShankSizes:
    """What a shank is drawn from [mm]: it runs from `start` to `tip`, its thread from `thread` on."""

    major: float
    root: float
    start: float
    thread: float
    tip: float
    point: str = ""
    wood: bool = False
    headless: bool = False
    drive: str = ""
    pitch: float = 0.0


def shank_figure(shank: ShankSizes) -> Figure:
    """Return a shank with its thread in the simplified manner: crests thick, roots thin, its end thick.

    Args:
        shank: its sizes [mm].

    Returns:
        The figure [mm].

    Source: ISO 6410-1 (simplified thread, from memory); points of grub screws ISO 4026 to 4029, simplified.
    """
    thread = min(max(shank.thread, shank.start), shank.tip)
    if shank.wood:
        return _wood_shank(shank, thread)
    half, root = shank.major / 2, min(shank.root, shank.major) / 2
    end = _point(shank, half, root, shank.tip - thread)
    head_end = [(half, shank.start)]
    hidden: tuple[Line, ...] = ()
    thin_from = thread
    if shank.headless:
        cut = min(half - root, (shank.tip - shank.start) / 4)
        head_end = [(half - cut, shank.start), (half, shank.start + cut)]
        hidden, head_end = _tail(shank, head_end)
        thin_from = max(thread, shank.start)
    thin_to = end[0][1]
    thin: tuple[Line, ...] = ()
    if thin_to > thin_from:
        thin = tuple(((x, thin_from), (x, thin_to)) for x in (-root, root))
    edges: list[Line] = []
    if thread > shank.start + 1e-9 and thread < thin_to:
        edges.append(((-half, thread), (half, thread)))
    if end[0][1] < shank.tip:
        edges.append(((-half, end[0][1]), (half, end[0][1])))
    return Figure(turned([*head_end, *end]), tuple(edges), thin, hidden)


def _tail(shank: ShankSizes, end: list[Point]) -> tuple[tuple[Line, ...], list[Point]]:
    """Return the recess in the tail of a headless screw: hidden lines, or the slot cut into the outline."""
    recess = tail_recess(shank)
    if recess and recess.drive == "slotted":
        half = recess.width / 2
        return (), [(half, shank.start + recess.deep), (half, shank.start), *end]
    return recess_lines(recess, shank.start), end


def tail_recess(shank: ShankSizes) -> Recess | None:
    """Return the recess in the tail of a headless screw.

    Args:
        shank: its sizes.

    Returns:
        The recess, or None where it has none.

    Source: this project.
    """
    deep = min(0.6 * shank.major, (shank.tip - shank.start) / 3)
    return recess_of(shank.drive, "none", diameter=shank.major, shank=shank.major, deep=deep)


def _point(shank: ShankSizes, half: float, root: float, room: float) -> list[Point]:
    """Return the right-hand side of the point, from where the full crests end."""
    room = max(room, 0.0)
    if shank.point == "cone":
        deep = min(half, room)
        return [(half, shank.tip - deep), (0.0, shank.tip)]
    if shank.point == "dog":
        deep, narrow = min(0.5 * shank.major, room), 0.7 * half
        return [(half, shank.tip - deep), (narrow, shank.tip - 0.85 * deep), (narrow, shank.tip)]
    deep = min(half - root, room)
    if shank.point == "cup":
        return [(half, shank.tip - deep), (root, shank.tip), (0.0, shank.tip - 0.4 * root)]
    return [(half, shank.tip - deep), (root, shank.tip)]


def _wood_shank(shank: ShankSizes, thread: float) -> Figure:
    half, root = shank.major / 2, min(shank.root, 0.95 * shank.major) / 2
    deep = min(1.4 * shank.major, 0.5 * (shank.tip - shank.start))
    neck = max(shank.tip - deep, shank.start)
    thin: list[Line] = []
    for side in (-1.0, 1.0):
        if thread < neck:
            thin.append(((side * root, thread), (side * root, neck), (0.0, shank.tip)))
        else:
            thin.append(((side * root, neck), (0.0, shank.tip)))
    edges = (((-half, thread), (half, thread)),) if shank.start < thread < neck else ()
    right = [(half, shank.start), (half, neck), (0.0, shank.tip)]
    return Figure(turned(right), edges, (*thin, *_turns(shank, half, thread, neck)))


def _turns(shank: ShankSizes, half: float, thread: float, neck: float) -> list[Line]:
    """Return the crests of a wood thread, one a pitch and each climbing half a pitch, out to its point."""
    pitch = max(shank.pitch, (shank.tip - thread) / MOST_TURNS)
    lines: list[Line] = []
    for turn in range(MOST_TURNS):
        z = thread + (turn + 0.5) * pitch
        if z + pitch / 2 >= shank.tip:
            break
        ends = [(side, z + shift) for side, shift in ((-1.0, 0.0), (1.0, pitch / 2))]
        lines.append(tuple((side * _half_at(shank, half, neck, at), at) for side, at in ends))
    return lines


def _half_at(shank: ShankSizes, half: float, neck: float, at: float) -> float:
    return half if at <= neck else half * (shank.tip - at) / (shank.tip - neck)


def nut_figure(form: str, flats: float, near: float, far: float) -> Figure:
    """Return a nut in view.

    Args:
        form: the nut's form.
        flats: its width across flats, or over its knurl or its wings [mm].
        near: where it begins on the axis [mm].
        far: where it ends on the axis [mm].

    Returns:
        The figure [mm].

    Source: ISO 4032, ISO 4035, DIN 1587, DIN 557, DIN 315, DIN 985, DIN 466, simplified.
    """
    corners = flats / math.cos(math.radians(30))
    high = far - near
    if form == "square":
        return Figure(turned([(flats / 2, near), (flats / 2, far)]))
    if form == "knurled":
        return _knurled_nut(flats, near, far)
    if form == "dome":
        return _domed_nut(flats, corners, near, far)
    if form == "stiff":
        shoulder = near + 0.68 * high
        body = hexagon(corners, near, shoulder)
        collar = [(corners / 2, near), (corners / 2, shoulder), (0.42 * flats, shoulder), (0.38 * flats, far)]
        return Figure(turned(collar), (*body.edges, ((-corners / 2, shoulder), (corners / 2, shoulder))))
    if form == "wing":
        return _wing_nut(flats, near, far)
    return hexagon(corners, near, far, chamfer_at=far)


def _domed_nut(flats: float, corners: float, near: float, far: float) -> Figure:
    shoulder = max(near + 0.5 * (far - near), far - 0.46 * flats)
    crown = [(x, 2 * shoulder - z) for x, z in dome(0.46 * flats, shoulder, far - shoulder)]
    top = max(z for _, z in crown)
    right = [(corners / 2, near), (corners / 2, shoulder), *reversed(crown)]
    body = hexagon(corners, near, min(shoulder, top))
    return Figure(turned(right), (*body.edges, ((-corners / 2, shoulder), (corners / 2, shoulder))))


def _knurled_nut(wide: float, near: float, far: float) -> Figure:
    """A knurled rim upon a narrower collar, which bears."""
    half, high = wide / 2, far - near
    edge, over = min(0.05 * wide, high / 8), near + 0.5 * high
    right = [
        (0.5 * half, near),
        (0.5 * half, over),
        (half - edge, over),
        (half, over + edge),
        (half, far - edge),
        (half - edge, far),
    ]
    return Figure(turned(right), (), knurling(half, over + edge, far - edge))


def _wing_nut(span: float, near: float, far: float) -> Figure:
    """A boss with two wings that rise away from what it bears on; its width is the wings' span."""
    half, high = span / 2, far - near
    tall = max(0.46 * span, 1.4 * high)
    right = [
        (0.40 * half, near),
        (0.46 * half, near + 0.16 * tall),
        (0.78 * half, near + 0.44 * tall),
        (0.95 * half, near + 0.80 * tall),
        (half, near + 0.94 * tall),
        (0.95 * half, near + tall),
        (0.84 * half, near + 0.97 * tall),
        (0.60 * half, near + max(0.62 * tall, 1.05 * high)),
        (0.42 * half, far),
    ]
    boss = ((-0.40 * half, near), (-0.36 * half, far)), ((0.40 * half, near), (0.36 * half, far))
    return Figure(turned(right), boss)


def washer_figure(form: str, outside: float, near: float, far: float) -> Figure:
    """Return a washer in view.

    Args:
        form: the washer's form.
        outside: its outside diameter [mm].
        near: where it begins on the axis [mm].
        far: where it ends on the axis [mm].

    Returns:
        The figure [mm].

    Source: ISO 7089, ISO 7093-1, DIN 127, DIN 137, DIN 6797, simplified.
    """
    half, high = outside / 2, far - near
    block = turned([(half, near), (half, far)])
    if form == "spring":
        slit = (((-0.25 * half, far), (0.05 * half, near)), ((-0.1 * half, far), (0.2 * half, near)))
        return Figure(block, slit)
    if form == "toothed":
        teeth = tuple(((half * i / 6, near), (half * (i + 0.5) / 6, far)) for i in range(-6, 6))
        return Figure(block, (), teeth)
    if form == "crinkle":
        wave = tuple(
            (half * i / 8, near + high * (0.5 + 0.4 * math.sin(math.pi * i / 4))) for i in range(-8, 9)
        )
        return Figure(block, (), (wave,))
    if form == "cup":
        return Figure(turned([(0.62 * half, near), (half, far)]))
    return Figure(block)


def insert_figures(
    major: float, body: float, outside: float, near: float, far: float
) -> tuple[Figure, Figure]:
    """Return the two cut walls of a threaded insert, left and right; the thin line is the root of its thread.

    Args:
        major: the diameter of the thread inside [mm].
        body: the diameter of its body [mm].
        outside: the diameter over its thread [mm].
        near: where it begins on the axis [mm].
        far: where it ends on the axis [mm].

    Returns:
        The two figures [mm].

    Source: this project.
    """
    inner, outer, middle = major / 2, max(outside, 1.05 * major) / 2, max(body, major) / 2
    walls = []
    for side in (-1.0, 1.0):
        wall = ((side * inner, near), (side * outer, near), (side * outer, far), (side * inner, far))
        walls.append(Figure(wall, (), (((side * middle, near), (side * middle, far)),)))
    return walls[0], walls[1]
