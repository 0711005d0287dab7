"""A screw seen from the end of its head: round, hexagon, knurled, with its recess; about the axis [mm]."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calculators.drawing.drives import Line, Recess, hexagon_seen, recess_seen
from calculators.drawing.figures import HeadSizes

KNURLS = 36


@dataclass(frozen=True, slots=True)
class HeadEnd:
    """What is seen from the end: circles as (radius, line type), and rings and lines of points.

    `reach` is how far it goes from the axis, `says` what is seen, in words.
    """

    reach: float
    says: str
    circles: tuple[tuple[float, str], ...] = ()
    rings: tuple[Line, ...] = ()
    recess: tuple[Line, ...] = ()
    thin: tuple[Line, ...] = ()
    hidden: tuple[Line, ...] = ()


_WORDS = {
    "slotted": "a slot",
    "hex socket": "a hexagon socket",
    "hexalobular": "a hexalobular recess",
    "square": "a square recess",
    "cross": "a cross recess",
}


def head_end(head: HeadSizes, recess: Recess | None, root: float) -> HeadEnd | None:
    """Return the view on a screw's end, or None for a stud, at which nothing is to be seen.

    Args:
        head: the head's sizes; of a headless screw its thread's.
        recess: its recess, if any.
        root: the diameter of the thread's root [mm].

    Returns:
        The view [mm].

    Source: ISO 128-3 (views) and ISO 6410-1 (the end of a thread: its root a thin three quarters of a
    circle), from memory.
    """
    driven = _WORDS.get(recess.drive, "") if recess else ""
    seen = recess_seen(recess, head.diameter)
    half = head.diameter / 2
    if head.kind == "none":
        if recess is None:
            return None
        arc = tuple(_round(root / 2, math.radians(5 * i)) for i in range(4, 59))
        return HeadEnd(half, f"a headless screw with {driven}", ((half, "outline"),), (), seen, (arc,))
    if head.kind == "hex":
        flats = head.flats or head.diameter * math.cos(math.radians(30))
        ring = hexagon_seen(flats)
        reach = max(x for x, _ in ring)
        says = "a hexagon" + (f" with {driven}" if driven else "")
        return HeadEnd(reach, says, ((0.475 * flats, "edge"),), (ring,), seen)
    if head.kind == "knurled":
        ticks = tuple(
            (_round(0.93 * half, math.tau * i / KNURLS), _round(half, math.tau * i / KNURLS))
            for i in range(KNURLS)
        )
        says = "a knurled head" + (f" with {driven}" if driven else "")
        return HeadEnd(half, says, ((half, "outline"), (0.93 * half, "edge")), (), seen, ticks)
    if head.kind == "coach":
        s = head.shank / 2
        neck = ((s, -s), (s, s), (-s, s), (-s, -s), (s, -s))
        return HeadEnd(half, "a round head over a square neck", ((half, "outline"),), (), seen, (), (neck,))
    return HeadEnd(
        half, "a round head" + (f" with {driven}" if driven else ""), ((half, "outline"),), (), seen
    )


def _round(radius: float, angle: float) -> tuple[float, float]:
    return radius * math.cos(angle), radius * math.sin(angle)
