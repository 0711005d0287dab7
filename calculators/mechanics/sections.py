"""Cross-sections of beams: area, centroid, second moments and moduli of rectangles and rounds put together.

A section is a list of pieces; a hole is a piece that counts against. The axes are those of the drawing: x
across, y up; bending under a load from above is about the axis that lies across.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from typing import Literal

from calculators.quantities.errors import InputError

_LEVELS = 5
_TOUCH = 1e-6
_STEPS = 60


@dataclass(frozen=True, slots=True)
class Piece:
    """A rectangle, or a round of which both sides are the diameter; `across_mm` and `up_mm` are its middle.

    `hole` takes it away. `ratio` is its modulus over that of the section: a lipping of another wood counts
    for so much of its width.
    """

    shape: Literal["rectangle", "round"]
    width_mm: float
    height_mm: float
    across_mm: float = 0.0
    up_mm: float = 0.0
    hole: bool = False
    ratio: float = 1.0

    @property
    def area_mm2(self) -> float:
        """Its area, more than 0 also for a hole."""
        area = self.width_mm * self.height_mm
        return area if self.shape == "rectangle" else math.pi / 4 * area

    @property
    def own_mm4(self) -> tuple[float, float]:
        """Its second moments about its own middle: about the axis across, and about the upright one."""
        b, h = self.width_mm, self.height_mm
        if self.shape == "rectangle":
            return b * h**3 / 12, h * b**3 / 12
        own = math.pi * h**4 / 64
        return own, own

    @property
    def counts(self) -> float:
        """What its area is taken by: less than nought for a hole."""
        return -self.ratio if self.hole else self.ratio

    def half_width_mm(self, up_mm: float) -> float:
        """Half of its width at a level, 0 outside it."""
        off, half = abs(up_mm - self.up_mm), self.height_mm / 2
        if off >= half:
            return 0.0
        return self.width_mm / 2 if self.shape == "rectangle" else math.sqrt(half * half - off * off)


@dataclass(frozen=True, slots=True)
class Section:
    """A cross-section with its properties about its centroid.

    `second_moment_mm4` is about the axis across (a load from above), `side_moment_mm4` about the upright
    one. `top_mm`, `bottom_mm`, `left_mm` and `right_mm` are distances from the centroid to the outermost
    fibres. `area_mm2` is the true area, of which the weight is; with pieces of another modulus the second
    moments are those of the section made all of the one material.
    """

    name: str
    pieces: tuple[Piece, ...]
    area_mm2: float
    centroid_across_mm: float
    centroid_up_mm: float
    second_moment_mm4: float
    side_moment_mm4: float
    product_mm4: float
    top_mm: float
    bottom_mm: float
    left_mm: float
    right_mm: float

    @property
    def modulus_mm3(self) -> float:
        """The least section modulus about the axis across."""
        return self.second_moment_mm4 / max(self.top_mm, self.bottom_mm)

    @property
    def depth_mm(self) -> float:
        """The whole height."""
        return self.top_mm + self.bottom_mm

    @property
    def width_mm(self) -> float:
        """The whole width."""
        return self.left_mm + self.right_mm

    @property
    def principal_mm4(self) -> tuple[float, float]:
        """The greatest and the least second moment about any axis through the centroid (Mohr's circle)."""
        mean = (self.second_moment_mm4 + self.side_moment_mm4) / 2
        radius = math.hypot((self.second_moment_mm4 - self.side_moment_mm4) / 2, self.product_mm4)
        return mean + radius, max(mean - radius, 0.0)

    @property
    def principal_angle_deg(self) -> float:
        """The angle of the stiffest axis from the axis across, anticlockwise; 0 where both axes are."""
        twice = math.atan2(-2 * self.product_mm4, self.second_moment_mm4 - self.side_moment_mm4)
        symmetrical = abs(self.product_mm4) <= 1e-12 * (self.second_moment_mm4 + self.side_moment_mm4)
        upright = self.side_moment_mm4 > self.second_moment_mm4 * (1 + 1e-12)
        return (90.0 if upright else 0.0) if symmetrical else math.degrees(twice) / 2

    @property
    def least_gyration_mm(self) -> float:
        """The least radius of gyration, about which a strut bends out."""
        return math.sqrt(self.principal_mm4[1] / self.area_mm2)


def section_of(pieces: Sequence[Piece], name: str = "section", *, field: str = "pieces") -> Section:
    """Put pieces together and work the section out.

    A = sum A_i, y = sum A_i y_i / A, I = sum (I_i + A_i (y_i - y)^2)

    Args:
        pieces: one or more, each with sides above 0; holes within the others, none over another.
        name: what it is called.
        field: the name of the input, for the error.

    Returns:
        The section.

    Raises:
        InputError: when there is no solid piece, pieces lie over one another, or a hole is not wholly
            within them.

    Source: parallel axis theorem; Machinery's Handbook, Moments of Inertia (from memory).

    Example:
        >>> section_of([Piece("rectangle", 20, 35)]).second_moment_mm4
        71458.33333333333
    """
    return _section(tuple(pieces), name, field)


@lru_cache(maxsize=512)
def _section(pieces: tuple[Piece, ...], name: str, field: str) -> Section:
    solid = [each for each in pieces if not each.hole]
    if not solid:
        raise InputError.of(
            "A section of holes alone has no area; give a piece that is no hole.", field=field
        )
    if any(min(each.width_mm, each.height_mm) <= 0 for each in pieces):
        raise InputError.of("A piece of a section has sides of more than 0 mm.", field=field)
    _check_lying(pieces, field)
    weighed = sum(each.counts * each.area_mm2 for each in pieces)
    # From 0.0 on, since equal pieces of whole numbers are remembered as the same section.
    area = sum(((-1 if each.hole else 1) * each.area_mm2 for each in pieces), 0.0)
    if min(area, weighed) <= 1e-9 * sum(each.area_mm2 for each in pieces):
        raise InputError.of("The holes leave nothing of the section; make them smaller.", field=field)
    x = sum(each.counts * each.area_mm2 * each.across_mm for each in pieces) / weighed
    y = sum(each.counts * each.area_mm2 * each.up_mm for each in pieces) / weighed
    about_x = about_y = product = 0.0
    for each in pieces:
        dx, dy = each.across_mm - x, each.up_mm - y
        own_x, own_y = each.own_mm4
        about_x += each.counts * (own_x + each.area_mm2 * dy * dy)
        about_y += each.counts * (own_y + each.area_mm2 * dx * dx)
        product += each.counts * each.area_mm2 * dx * dy
    return Section(
        name, pieces, area, x, y, about_x, about_y, product,
        top_mm=max(each.up_mm + each.height_mm / 2 for each in solid) - y,
        bottom_mm=y - min(each.up_mm - each.height_mm / 2 for each in solid),
        left_mm=x - min(each.across_mm - each.width_mm / 2 for each in solid),
        right_mm=max(each.across_mm + each.width_mm / 2 for each in solid) - x,
    )  # fmt: skip


def _check_lying(pieces: tuple[Piece, ...], field: str) -> None:
    """See, level by level, that no two pieces lie over one another and that every hole is in the solid."""
    if len(pieces) == 1:
        return
    size = max(max(each.width_mm, each.height_mm) for each in pieces)
    for level in _levels(pieces, _LEVELS):
        spans: dict[bool, list[tuple[float, float, int]]] = {False: [], True: []}
        for place, each in enumerate(pieces, 1):
            half = each.half_width_mm(level)
            if half > 0:
                spans[each.hole].append((each.across_mm - half, each.across_mm + half, place))
        for row in spans.values():
            row.sort()
            for (_, end, one), (start, _, other) in pairwise(row):
                if start < end - _TOUCH * size:
                    says = f"Pieces {one} and {other} lie over one another; move or shorten one of them."
                    raise InputError.of(says, field=field)
        for left, right, place in spans[True]:
            at = left
            for start, end, _ in spans[False]:
                if start <= at + _TOUCH * size:
                    at = max(at, end)
            if at < right - _TOUCH * size:
                says = f"Piece {place}, a hole, lies partly outside the solid; move it or make it smaller."
                raise InputError.of(says, field=field)


def _levels(pieces: Sequence[Piece], each_gap: int) -> list[float]:
    edges = sorted({each.up_mm + side * each.height_mm / 2 for each in pieces for side in (-1, 1)})
    # Off the middle of a gap as well, where rounds that lie side by side come nearest.
    return [
        low + (high - low) * (place + 0.5) / each_gap
        for low, high in pairwise(edges)
        if high - low > 1e-9 * (edges[-1] - edges[0])
        for place in range(each_gap)
    ]


@lru_cache(maxsize=256)
def shear_factor(section: Section) -> float:
    """How much more a section shears than if the shear stress were the same all over it.

    f = A / I^2 x integral of Q^2 / b over the depth, Q the first moment of what lies above

    Args:
        section: the section.

    Returns:
        The factor [1]: 6/5 for a rectangle, 10/9 for a round, about 2 for a thin tube.

    Source: strain energy of shear (Roark, Formulas for Stress and Strain, from memory); of a round tube
        Cowper 1966 with Poisson's ratio left out (from memory).

    Example:
        >>> round(shear_factor(section_of([Piece("rectangle", 20, 35)])), 2)
        1.2
    """
    tube = _tube_bore(section)
    if tube is not None:
        return (7 * (1 + tube**2) ** 2 + 20 * tube**2) / (6 * (1 + tube**2) ** 2)
    edges = sorted({each.up_mm + side * each.height_mm / 2 for each in section.pieces for side in (-1, 1)})
    total = first = 0.0
    for low, high in reversed(list(pairwise(edges))):
        # Even steps of an angle, since a round's width grows very fast at its edge.
        turns = [(1 + math.cos(math.pi * place / _STEPS)) / 2 for place in range(_STEPS + 1)]
        for upper, lower in pairwise([low + (high - low) * turn for turn in turns]):
            middle = (upper + lower) / 2
            width = _width_at(section, middle)
            then = first + width * (upper - lower) * (middle - section.centroid_up_mm)
            if width > 0:
                total += (first * first + first * then + then * then) / (3 * width) * (upper - lower)
            first = then
    return section.area_mm2 * total / section.second_moment_mm4**2


def _tube_bore(section: Section) -> float | None:
    """The bore over the outside diameter where the section is a round tube: its shear runs round the wall."""
    if len(section.pieces) != 2 or any(each.shape != "round" for each in section.pieces):
        return None
    outer, inner = section.pieces
    same = (outer.across_mm, outer.up_mm) == (inner.across_mm, inner.up_mm)
    return inner.width_mm / outer.width_mm if inner.hole and same else None


def _width_at(section: Section, up_mm: float) -> float:
    return sum(each.counts * 2 * each.half_width_mm(up_mm) for each in section.pieces)


def turned(section: Section) -> Section:
    """The same section on its side: turned a quarter, so that it bends about its upright axis.

    Args:
        section: the section.

    Returns:
        The section with its x and y changed about.

    Source: this project.

    Example:
        >>> turned(section_of([Piece("rectangle", 20, 35)])).depth_mm
        20.0
    """
    pieces = [
        replace(
            each,
            width_mm=each.height_mm,
            height_mm=each.width_mm,
            across_mm=-each.up_mm,
            up_mm=each.across_mm,
        )
        for each in section.pieces
    ]
    return section_of(pieces, f"{section.name}, on its side")
