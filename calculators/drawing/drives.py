"""Recesses for the driver: hidden lines in a side view, outlines from the head's end.

The widths of slots and hexagon sockets are those of the tables where they have them; everything else is by
proportion. In a side view a point is (x, z) as in `figures.py`; from the end it is (x, y) about the axis.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from calculators.drawing.svg import Point

Line = tuple[Point, ...]
LOBE_STEPS = 48
_SOCKET_SHARES = {"socket csk": 0.6, "csk": 0.6, "button": 0.6, "none": 0.5}
_SOCKET_SHARE = 0.8


@dataclass(frozen=True, slots=True)
class Recess:
    """A recess for a driver [mm].

    `width` is that of a slot, or across the flats of a hexagon or square, or over the wings of a cross or
    the lobes of a hexalobular recess. `listed` says that a table gave the width.
    """

    drive: str
    width: float
    deep: float
    listed: bool = False


def recess_of(
    drive: str,
    kind: str,
    *,
    diameter: float,
    shank: float,
    deep: float,
    slot: float | None = None,
    socket: float | None = None,
) -> Recess | None:
    """Return the recess of a head or of a headless screw; None where nothing is recessed.

    Args:
        drive: the drive's name; a socket or button head with none has a hexagon socket.
        kind: the head's name, `none` for a headless screw.
        diameter: the head's diameter [mm], above 0.
        shank: the screw's diameter [mm], above 0.
        deep: how deep it is drawn [mm].
        slot: the slot's width [mm], where a table gives it.
        socket: the hexagon socket's width across flats [mm], where a table gives it.

    Returns:
        The recess [mm].

    Source: widths of the tables of heads; proportions of hexagon sockets after ISO 4762, 10642, 7380-1 and
    4026, of hexalobular recesses after ISO 10664, of cross recesses after ISO 4757, all from memory.

    Example:
        >>> recess_of("hex socket", "socket cap", diameter=8.5, shank=5, deep=2.5, socket=4)
        Recess(drive='hex socket', width=4, deep=2.5, listed=True)
        >>> recess_of("hand", "knurled", diameter=24, shank=6, deep=3) is None
        True
    """
    drive = drive or ("hex socket" if "socket" in kind or kind == "button" else "")
    if deep <= 0:
        return None
    if drive == "slotted":
        narrow = 0.16 * shank if kind == "none" else 0.12 * diameter
        return Recess(drive, min(slot or max(narrow, 0.1), 0.5 * diameter), deep, slot is not None)
    if drive == "hex socket":
        wide = socket or _SOCKET_SHARES.get(kind, _SOCKET_SHARE) * shank
        return Recess(drive, min(wide, 0.75 * diameter), deep, socket is not None)
    if drive == "hexalobular":
        share = 0.65 if kind == "none" else 0.9
        return Recess(drive, min(share * shank, 0.6 * diameter), deep)
    if drive == "square":
        return Recess(drive, min(0.6 * shank, 0.34 * diameter), deep)
    if drive == "cross":
        return Recess(drive, 0.5 * diameter, deep)
    return None


def recess_lines(recess: Recess | None, top: float) -> tuple[Line, ...]:
    """Return the hidden lines of a recess in the side view, seen across a hexagon's corners.

    A slot is cut into the outline instead and has none.

    Args:
        recess: the recess.
        top: where it begins on the axis [mm].

    Returns:
        The lines [mm].

    Source: this project.

    Example:
        >>> recess_lines(Recess("square", 2.0, 1.5), -2.0)[0]
        ((-1.0, -2.0), (-1.0, -0.5), (1.0, -0.5), (1.0, -2.0))
    """
    if recess is None or recess.drive == "slotted":
        return ()
    floor = top + recess.deep
    half = recess.width / 2
    if recess.drive == "cross":
        return (
            ((-half, top), (-0.25 * half, floor), (0.25 * half, floor), (half, top)),
            ((-0.2 * half, top), (-0.2 * half, floor - 0.2 * recess.deep)),
            ((0.2 * half, top), (0.2 * half, floor - 0.2 * recess.deep)),
        )
    if recess.drive == "hex socket":
        corner = half / math.cos(math.radians(30))
        walls = ((-corner, top), (-corner, floor), (corner, floor), (corner, top))
        # The drill's cone lies below the flat floor; two of the six corners are seen between the flats.
        cone = ((-half, floor), (0.0, min(floor + 0.3 * half, floor + recess.deep)), (half, floor))
        corners = tuple(((x, top), (x, floor)) for x in (-corner / 2, corner / 2))
        return (walls, cone, *corners)
    if recess.drive == "square":
        return (((-half, top), (-half, floor), (half, floor), (half, top)),)
    walls = ((-half, top), (-half, floor), (half, floor), (half, top))
    valleys = tuple(((x, top), (x, floor)) for x in (-0.5 * half, 0.5 * half))
    return (walls, *valleys)


def recess_seen(recess: Recess | None, diameter: float) -> tuple[Line, ...]:
    """Return a recess as it is seen from the head's end, as closed rings about the axis.

    Args:
        recess: the recess.
        diameter: the head's diameter, which a slot runs across [mm].

    Returns:
        The rings [mm].

    Source: this project; the lobes after ISO 10664 (from memory), drawn as a wave.

    Example:
        >>> recess_seen(Recess("slotted", 1.2, 1.0), 10.0)[0][0]
        (0.6, -4.964)
    """
    if recess is None:
        return ()
    half = recess.width / 2
    if recess.drive == "slotted":
        reach = round(math.sqrt(max((diameter / 2) ** 2 - half**2, 0.0)), 3)
        # The slot is seen end on in the section, so it runs towards the eye there: up and down here.
        return (((half, -reach), (half, reach), (-half, reach), (-half, -reach)),)
    if recess.drive == "hex socket":
        return (hexagon_seen(recess.width),)
    if recess.drive == "square":
        return (((half, -half), (half, half), (-half, half), (-half, -half)),)
    if recess.drive == "cross":
        w = 0.2 * half
        quarter = ((half, -w), (half, w), (w, w))
        turns: list[Line] = [quarter]
        for _ in range(3):
            turns.append(tuple((-y, x) for x, y in turns[-1]))
        return (tuple(point for turn in turns for point in turn),)
    return (tuple(_lobed(recess.width, math.tau * i / LOBE_STEPS) for i in range(LOBE_STEPS)),)


def _lobed(width: float, angle: float) -> Point:
    """The wave between the lobes' tips and the valleys, whose circle is 0.72 of theirs."""
    radius = width / 4 * (1.72 + 0.28 * math.cos(6 * angle))
    return radius * math.cos(angle), radius * math.sin(angle)


def hexagon_seen(flats: float) -> Line:
    """Return a hexagon as it is seen from its end, with two corners at the sides.

    Args:
        flats: its width across flats [mm].

    Returns:
        Its corners [mm].

    Source: geometry.

    Example:
        >>> [round(x, 2) for x in hexagon_seen(8.0)[0]]
        [4.62, 0.0]
    """
    corner = flats / 2 / math.cos(math.radians(30))
    angles = (math.radians(60 * i) for i in range(6))
    return tuple((corner * math.cos(a), corner * math.sin(a)) for a in angles)
