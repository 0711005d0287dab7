"""The chosen shapes of a drawing put in order: closed outlines, circles by their centres, the outermost."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from calculators.drawing.dxf_layers import layer_says
from calculators.drawing.flat_drawing import FlatCircle, FlatDrawing, FlatPoint, LeftOut
from calculators.geometry.outline_joining import OpenPath, Places, anticlockwise, joined
from calculators.geometry.outline_kinds import NEAR_MM, OutlineKind, kind_of, simplified
from calculators.geometry.outlines import Outline, bounds, circle, flat_points
from calculators.quantities.errors import InputError

MOST_CIRCLES = 5_000
MOST_CLOSED = 2_000
MOST_OUTLINE_CORNERS = 2_000
MOST_OFFERED = 20
"""The most outermost outlines that are offered as the part."""

_ON = "draw it closed"


@dataclass(frozen=True, slots=True)
class ClosedShape:
    """A closed outline on a layer, anticlockwise [mm], and what it is."""

    layer: str
    outline: Outline
    kind: OutlineKind

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y [mm]."""
        return bounds(self.outline)

    @property
    def middle(self) -> tuple[float, float]:
        """The middle of its box [mm]."""
        left, bottom, right, top = self.box
        return (left + right) / 2, (bottom + top) / 2


@dataclass(slots=True)
class Sorted:
    """What was sorted [mm]: circles by centre (the smallest first), closed shapes, points.

    `outer` are the outermost outlines, the largest first.
    """

    circles: list[tuple[FlatCircle, ...]] = field(default_factory=list)
    closed: list[ClosedShape] = field(default_factory=list)
    points: list[FlatPoint] = field(default_factory=list)
    outer: list[ClosedShape] = field(default_factory=list)
    left: list[LeftOut] = field(default_factory=list)
    said: list[str] = field(default_factory=list)


def sorted_out(drawing: FlatDrawing, layers: Sequence[str]) -> Sorted:
    """Put the shapes of some layers in order; loose lines are joined within each layer.

    Args:
        drawing: the drawing, in millimetres.
        layers: the layers that are taken.

    Returns:
        The shapes, and what of them is left out and why.

    Raises:
        InputError: where they are more than one part is made from.

    Source: this project.

    Example:
        >>> one = FlatDrawing("mm", (FlatCircle("0", 1.0, 1.0, 1.0), FlatCircle("0", 1.0, 1.0, 2.0)))
        >>> [len(group) for group in sorted_out(one, ["0"]).circles]
        [2]
    """
    taken, found = set(layers), Sorted(left=list(drawing.left))
    circles = [one for one in drawing.circles if one.layer in taken]
    for layer in layers:
        _closed_of(drawing, layer, found, circles)
    if len(circles) > MOST_CIRCLES:
        raise _too_many(f"{len(circles):,} circles", f"{MOST_CIRCLES:,}")
    if len(found.closed) > MOST_CLOSED:
        raise _too_many(f"{len(found.closed):,} closed outlines", f"{MOST_CLOSED:,}")
    _group(circles, found)
    found.points = [one for one in drawing.points if one.layer in taken]
    if len(found.points) > MOST_CIRCLES:
        raise _too_many(f"{len(found.points):,} points", f"{MOST_CIRCLES:,}")
    _find_outer(found)
    return found


def _too_many(what: str, most: str) -> InputError:
    says = f"The layers chosen have {what}; one part takes at most {most}. Choose fewer layers."
    return InputError.of(says, field="layers")


def _closed_of(drawing: FlatDrawing, layer: str, found: Sorted, circles: list[FlatCircle]) -> None:
    """Find the closed shapes of a layer; those that are circles join the circles."""
    paths = [one for one in drawing.paths if one.layer == layer]
    for curve in sorted({one.curve for one in paths if one.curve}):
        count = sum(one.curve == curve for one in paths)
        lines = sum(len(one.vertices) - 1 + one.closed for one in paths if one.curve == curve)
        what = f"{count} {curve}s were" if count > 1 else f"One {curve} was"
        found.said.append(f"{what} laid out in {lines:,} short lines, within 0.01 mm (layer {layer}).")
    made = joined(one.vertices for one in paths if not one.closed)
    closed = [*(anticlockwise(one.vertices) for one in paths if one.closed), *made.closed]
    for outline in closed:
        plain = simplified(outline)
        if len(plain) < 2 or (len(plain) == 2 and not any(one.bulge for one in plain)):
            found.left.append(LeftOut("outline", layer, "has no area", outline[0].x, outline[0].y))
            continue
        kind = kind_of(plain)
        if kind.kind == "circle":
            circles.append(FlatCircle(layer, kind.x, kind.y, kind.diameter / 2))
        else:
            found.closed.append(ClosedShape(layer, plain, kind))
    found.left.extend(_open(one, layer) for one in made.open)
    if made.twice:
        found.said.append(f"{_lines(made.twice)} drawn twice on layer {layer}, and taken once.")
    if made.without_length:
        found.said.append(f"{_lines(made.without_length)} without length on layer {layer}, and left out.")


def _lines(count: int) -> str:
    return f"{count} lines are" if count > 1 else "One line is"


def _open(one: OpenPath, layer: str) -> LeftOut:
    (_, _), (x, y) = one.ends
    why = f"does not close; {_ON}"
    if one.meeting > 2:
        why = (
            f"ends where {one.meeting} lines meet, so that it is not known which go on; {_ON} as one polyline"
        )
    elif one.gap_mm is not None:
        why = f"does not close: {one.gap_mm:.3g} mm are missing to the nearest end; {_ON}"
    what = "line" if len(one.vertices) == 2 else f"{len(one.vertices) - 1} lines"
    return LeftOut(what, layer, why, x, y)


def _group(circles: list[FlatCircle], found: Sorted) -> None:
    """Bring circles about one centre together, the smallest first; a circle drawn twice is taken once."""
    places = Places(NEAR_MM)
    groups: dict[int, list[FlatCircle]] = {}
    for one in circles:
        groups.setdefault(places.number_of(one.x, one.y), []).append(one)
    twice = 0
    for group in groups.values():
        kept: list[FlatCircle] = []
        for one in sorted(group, key=lambda each: (each.radius, each.layer)):
            if kept and one.radius - kept[-1].radius <= NEAR_MM / 2:
                twice += 1
            else:
                kept.append(one)
        found.circles.append(tuple(kept))
    if twice:
        words = f"{twice} circles are" if twice > 1 else "One circle is"
        found.said.append(f"{words} drawn twice, and taken once.")


def _find_outer(found: Sorted) -> None:
    """Find the outermost outlines, which lie in no larger one; of this project's own, those called so."""
    said = [one for one in found.closed if (says := layer_says(one.layer)) and says.what == "outline"]
    candidates = said or [
        one for one in found.closed if not ((says := layer_says(one.layer)) and says.what != "outline")
    ]
    around = _circle_around(found)
    if around is not None and not said:
        candidates = [around, *candidates]
    boxes = sorted(((one.box, one) for one in candidates), key=lambda pair: -_extent(pair[0]))
    outer: list[tuple[tuple[float, float, float, float], ClosedShape]] = []
    for box, one in boxes:
        if len(outer) < MOST_OFFERED and not any(_is_within(box, other) for other, _ in outer):
            outer.append((box, one))
    found.outer = [one for _, one in outer]


def _extent(box: tuple[float, float, float, float]) -> float:
    return (box[2] - box[0]) * (box[3] - box[1])


def _is_within(box: tuple[float, float, float, float], other: tuple[float, float, float, float]) -> bool:
    near = NEAR_MM
    left, bottom, right, top = other
    return (
        left - near <= box[0] and bottom - near <= box[1] and box[2] <= right + near and box[3] <= top + near
    )


def _circle_around(found: Sorted) -> ClosedShape | None:
    """The largest circle, where all else lies in it or it stands on the layer of the outline."""
    largest = max((group[-1] for group in found.circles), key=lambda one: one.radius, default=None)
    if largest is None:
        return None
    says = layer_says(largest.layer)
    if says is not None and says.what != "outline":
        return None
    others = [group[0] for group in found.circles if group[0] is not largest]
    places = [(one.x, one.y) for one in others] + [one.middle for one in found.closed]
    reach = largest.radius**2
    is_around = all((x - largest.x) ** 2 + (y - largest.y) ** 2 < reach for x, y in places)
    if not is_around or (not places and says is None):
        return None
    outline = circle(largest.x, largest.y, 2 * largest.radius)
    return ClosedShape(
        largest.layer, outline, OutlineKind("circle", largest.x, largest.y, 2 * largest.radius)
    )


class Inside:
    """Says quickly of many points whether they lie inside one outline."""

    _BANDS = 200

    def __init__(self, outline: Outline) -> None:
        left, bottom, right, top = bounds(outline)
        points = flat_points(outline, max(NEAR_MM, (right - left + top - bottom) / 1e5))
        ys = [y for _, y in points]
        self.low = min(ys)
        self.step = max((max(ys) - self.low) / self._BANDS, 1e-9)
        self.bands: list[list[tuple[float, float, float, float]]] = [[] for _ in range(self._BANDS)]
        for (x, y), (to_x, to_y) in zip(points, (*points[1:], points[0]), strict=True):
            first, last = self._band(min(y, to_y)), self._band(max(y, to_y))
            for band in range(first, last + 1):
                self.bands[band].append((x, y, to_x, to_y))

    def _band(self, y: float) -> int:
        return min(math.floor((y - self.low) / self.step), self._BANDS - 1)

    def has(self, x: float, y: float) -> bool:
        """Whether a point lies inside; next to the outline (0.01 mm on 1 m), either may be said."""
        band = self._band(y)
        lines = self.bands[band] if band >= 0 else []
        return (
            sum(
                (ay > y) != (by > y) and ax + (bx - ax) * (y - ay) / (by - ay) > x for ax, ay, bx, by in lines
            )
            % 2
            == 1
        )
