"""The outline of a block as people enter it: what is wrong with it, its sense of going round, its words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from calculators.geometry.outline_faults import crossing_of
from calculators.geometry.outlines import Outline, Vertex, area, bounds
from calculators.planning.model import Component, Corner, Size
from calculators.quantities.length import Length

FIT_MM = 0.01
"""An outline may be off the sides of its block by this: what is drawn in arcs is rounded."""

_SHORT_MM = 1e-3
"""A chord may be longer than the diameter of its arc by this: half a circle then."""

Corners = tuple[Corner, ...]
_Hand = Literal["", "left", "right"]
_OTHER_HAND: dict[_Hand, _Hand] = {"": "", "left": "right", "right": "left"}


@dataclass(frozen=True, slots=True)
class OutlineFault:
    """What is wrong with an outline: at which corner, from 0, or None for the whole, in a sentence."""

    corner: int | None
    says: str


def outline_of(corners: Corners) -> Outline:
    """Make an outline of its corners as people write them.

    Args:
        corners: the corners; an arc whose radius is less than half of the way to the next is half a circle.

    Returns:
        The outline [mm]; nothing where there are fewer than two corners.

    Source: geometry: the bulge is the tangent of a quarter of the arc's angle, 2 arcsin(c / 2r) over a
    chord c.
    """
    if len(corners) < 2:
        return ()
    return tuple(
        Vertex(one.x.mm, one.y.mm, _bulge(one, to))
        for one, to in zip(corners, (*corners[1:], corners[0]), strict=True)
    )


def _bulge(one: Corner, to: Corner) -> float:
    chord = math.dist((one.x.mm, one.y.mm), (to.x.mm, to.y.mm))
    if one.radius is None or one.radius.mm <= 0 or not one.turns or chord <= 0:
        return 0.0
    half = math.asin(min(chord / (2 * one.radius.mm), 1.0))
    bulge = math.tan((math.pi - half if one.long else half) / 2)
    return bulge if one.turns == "left" else -bulge


def outline_faults(corners: Corners) -> tuple[OutlineFault, ...]:
    """Say what is wrong with an outline by itself.

    Args:
        corners: the corners.

    Returns:
        A fault for each thing wrong; of an outline that goes round clockwise that it does.

    Source: this project.

    Example:
        >>> at = lambda x, y: Corner(Length(x * 10**7), Length(y * 10**7))
        >>> outline_faults((at(0, 0), at(9, 0)))[0].says
        'An outline has three corners or more, or two with an arc between them; this has 2.'
    """
    return _faults(corners)


@lru_cache(maxsize=256)
def _faults(corners: Corners) -> tuple[OutlineFault, ...]:
    found = list(_of_corners(corners))
    if found:
        return tuple(found)
    outline = outline_of(corners)
    crossing = crossing_of(outline)
    if crossing is not None:
        where = f"{_mm(crossing[0])},{_mm(crossing[1])}"
        return (OutlineFault(None, f"The outline crosses or touches itself at {where} (in mm)."),)
    if area(outline) < 0.0:
        says = "The outline goes round clockwise; it goes anticlockwise as seen from the top."
        return (OutlineFault(None, says),)
    return ()


def _of_corners(corners: Corners) -> Iterator[OutlineFault]:
    arcs = sum(one.radius is not None for one in corners)
    if len(corners) < (2 if arcs else 3):
        says = (
            f"An outline has three corners or more, or two with an arc between them; this has {len(corners)}."
        )
        yield OutlineFault(None, says)
        return
    for index, one in enumerate(corners):
        to = corners[(index + 1) % len(corners)]
        if (one.x.ticks, one.y.ticks) == (to.x.ticks, to.y.ticks):
            yield OutlineFault(index, f"Two corners stand at {point_words(one)}; leave one of them out.")
        elif one.radius is None:
            if one.turns or one.long:
                yield OutlineFault(index, f"The arc from {point_words(one)} has no radius.")
        elif not one.turns:
            says = f"The arc from {point_words(one)} does not say whether it turns left or right."
            yield OutlineFault(index, says)
        elif one.radius.mm < math.dist((one.x.mm, one.y.mm), (to.x.mm, to.y.mm)) / 2.0 - _SHORT_MM:
            chord = math.dist((one.x.mm, one.y.mm), (to.x.mm, to.y.mm))
            says = (
                f"The arc from {point_words(one)} to {point_words(to)} has a radius of {shown(one.radius)}; "
                f"over {_mm(chord)} mm it is {_up(chord / 2.0)} mm or more."
            )
            yield OutlineFault(index, says)


def shown(length: Length) -> str:
    """Write a length with its unit, as it was written where it says one.

    Args:
        length: the length.

    Returns:
        The writing.

    Source: this project.

    Example:
        >>> shown(Length(120_000_000))
        '12 mm'
    """
    bare = not length.written or length.written.strip()[-1:].isdigit()
    return f"{_mm(length.mm)} mm" if bare else length.written


def point_words(corner: Corner) -> str:
    """Write where a corner stands.

    Args:
        corner: the corner.

    Returns:
        Such as `120,60`, as it was written.

    Source: this project.
    """
    return ",".join(one.written or _mm(one.mm) for one in (corner.x, corner.y))


def _mm(value: float) -> str:
    return f"{round(value, 3) + 0.0:.10g}"


def _up(value: float) -> str:
    return _mm(math.ceil(value * 1000.0 - 1e-6) / 1000.0)


def fit_faults(corners: Corners, size: Size) -> tuple[OutlineFault, ...]:
    """Say where an outline does not fit the length and width of its block, whose four sides it touches.

    Args:
        corners: corners of an outline that is right by itself.
        size: the size of the block; what it lacks is not asked.

    Returns:
        A fault for each side.

    Source: this project.
    """
    if not corners:
        return ()
    low_x, low_y, high_x, high_y = bounds(outline_of(corners))
    found = []
    for name, axis, low, high, length in (
        ("length", "X", low_x, high_x, size.length),
        ("width", "Y", low_y, high_y, size.width),
    ):
        if abs(low) > FIT_MM:
            where = f"{_mm(low)} mm along {axis}"
            says = f"The outline begins at {where}; it begins at 0, where the datum of the part is."
            found.append(OutlineFault(None, says))
        elif length is not None and high > length.mm + FIT_MM:
            says = f"The outline reaches {_mm(high)} mm along {axis}, beyond the {name} of {shown(length)}."
            found.append(OutlineFault(None, says))
        elif length is not None and high < length.mm - FIT_MM:
            says = (
                f"The outline reaches {_mm(high)} mm along {axis}, and the {name} is {shown(length)}: the "
                "sizes of a part are those of its outline."
            )
            found.append(OutlineFault(None, says))
    return tuple(found)


def turned_round(corners: Corners) -> Corners:
    """Take an outline the other way round.

    Args:
        corners: the corners.

    Returns:
        The same lines and arcs in the reverse order, from the same first corner.

    Source: geometry: an arc that turns left turns right the other way.

    Example:
        >>> at = lambda x, y: Corner(Length(x * 10**7), Length(y * 10**7))
        >>> [one.x.mm for one in turned_round((at(0, 0), at(0, 5), at(9, 5)))]
        [0.0, 9.0, 0.0]
    """
    if not corners:
        return ()
    back = [corners[0], *reversed(corners[1:])]
    found = []
    for index, one in enumerate(back):
        # What led from the next corner to this one leads now from this one to the next.
        by = back[(index + 1) % len(back)]
        found.append(replace(one, radius=by.radius, turns=_OTHER_HAND[by.turns], long=by.long))
    return tuple(found)


def sized_by(corners: Corners, size: Size) -> Size:
    """Give a size the length and width of an outline where it has none.

    Args:
        corners: corners of an outline that is right by itself.
        size: the size so far.

    Returns:
        The size of a block.

    Source: this project.
    """
    if not corners or size.shape == "round":
        return size
    _, _, length, width = bounds(outline_of(corners))
    return replace(
        size,
        shape="block",
        length=size.length or _length_at(corners, "x", length),
        width=size.width or _length_at(corners, "y", width),
    )


def _length_at(corners: Corners, axis: str, reach: float) -> Length | None:
    """How far the outline reaches, as it is written at a corner that stands there."""
    ticks = round(reach * 10**7)
    if ticks <= 0:
        return None
    here = (getattr(one, axis) for one in corners)
    return next((one for one in here if one.ticks == ticks), Length(ticks))


def count_words(corners: Sequence[Corner]) -> str:
    """Say of how many corners and arcs an outline is.

    Args:
        corners: the corners.

    Returns:
        Such as `outline of 9 corners, 3 arcs`; nothing where there are none.

    Source: this project.

    Example:
        >>> count_words((Corner(Length(0), Length(0)),) * 4)
        'outline of 4 corners'
    """
    if not corners:
        return ""
    arcs = sum(one.radius is not None for one in corners)
    tail = f", {arcs} arc{'s' if arcs != 1 else ''}" if arcs else ""
    return f"outline of {len(corners)} corners{tail}"


def component_faults(one: Component) -> tuple[OutlineFault, ...]:
    """Say what is wrong with the outline of a component.

    Args:
        one: the component.

    Returns:
        A fault for each thing wrong; nothing where it has no outline.

    Source: this project.
    """
    if not one.outline:
        return ()
    if one.size.shape == "round":
        says = f"{one.mark} is a round; an outline is that of a block, plate or board seen from its top."
        return (OutlineFault(None, says),)
    return outline_faults(one.outline) or fit_faults(one.outline, one.size)


def outline_or_none(corners: Corners) -> Outline:
    """Give the outline of corners that make one.

    Args:
        corners: any corners.

    Returns:
        The outline [mm]; nothing where the corners make none.

    Source: this project.
    """
    return () if any(outline_faults(corners)) else outline_of(corners)
