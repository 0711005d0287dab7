"""Curves of a drawing carried by a change of place, and those that are no arcs laid out in short lines."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from calculators.geometry.outlines import Outline, Point2, Vertex, arc_of

MOST_POINTS = 4_000
"""The most short lines that one curve is laid out in."""


@dataclass(frozen=True, slots=True)
class Placing:
    """A change of place in the plane: x' = ax + cy + e, y' = bx + dy + f."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def at(self, x: float, y: float) -> Point2:
        """Where a point comes to."""
        return self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f

    def way(self, x: float, y: float) -> Point2:
        """What a direction comes to."""
        return self.a * x + self.c * y, self.b * x + self.d * y

    def after(self, first: Placing) -> Placing:
        """This change of place after another."""
        e, f = self.at(first.e, first.f)
        return Placing(*self.way(first.a, first.b), *self.way(first.c, first.d), e, f)

    @property
    def scale(self) -> float:
        """How much longer lengths become, where all do alike."""
        return math.hypot(self.a, self.b)

    @property
    def is_even(self) -> bool:
        """Whether a circle stays a circle."""
        across = math.hypot(self.c, self.d)
        square = abs(self.a * self.c + self.b * self.d) <= 1e-9 * self.scale * across
        return square and abs(self.scale - across) <= 1e-9 * max(self.scale, across)

    @property
    def is_turned_over(self) -> bool:
        """Whether left becomes right."""
        return self.a * self.d - self.b * self.c < 0


def arc_path(x: float, y: float, radius: float, first_deg: float, turn_deg: float) -> tuple[Vertex, Vertex]:
    """Give an arc as two vertices.

    Args:
        x: its centre.
        y: its centre.
        radius: above 0.
        first_deg: [deg] where it begins.
        turn_deg: [deg] how far it turns, more than 0 and less than 360; left is positive.

    Returns:
        Its ends, the first with the bulge.

    Source: geometry: the bulge is the tangent of a quarter of the angle.

    Example:
        >>> arc_path(0, 0, 10, 0, 90)[0].x
        10.0
    """
    first, last = math.radians(first_deg), math.radians(first_deg + turn_deg)
    bulge = math.tan(math.radians(turn_deg) / 4)
    return (
        Vertex(x + radius * math.cos(first), y + radius * math.sin(first), bulge),
        Vertex(x + radius * math.cos(last), y + radius * math.sin(last)),
    )


def carried(outline: Outline, by: Placing, off: float) -> tuple[Outline, bool]:
    """Carry lines and arcs by a change of place.

    Args:
        outline: the vertices, open or closed (of an open one the last bulge says nothing).
        by: the change of place.
        off: how far short lines may be off an arc that does not stay one; above 0.

    Returns:
        The vertices, and whether arcs were laid out in short lines.

    Source: geometry.

    Example:
        >>> carried((Vertex(0, 0, 1.0), Vertex(2, 0)), Placing(e=5.0), 0.01)[0][0]
        Vertex(x=5.0, y=0.0, bulge=1.0)
    """
    if by.is_even or not any(one.bulge for one in outline):
        sign = -1.0 if by.is_turned_over else 1.0
        return tuple(Vertex(*by.at(one.x, one.y), sign * one.bulge) for one in outline), False
    found: list[Vertex] = []
    for one, following in zip(outline, (*outline[1:], outline[0]), strict=True):
        found.append(Vertex(*by.at(one.x, one.y)))
        arc = arc_of(one, following)
        if arc is None:
            continue
        reach = arc.radius * math.hypot(by.a, by.b, by.c, by.d)
        count = steps(reach, math.radians(abs(arc.turn_deg)), off)
        for i in range(1, count):
            turn = math.radians(arc.first_deg + arc.turn_deg * i / count)
            x = arc.centre[0] + arc.radius * math.cos(turn)
            found.append(Vertex(*by.at(x, arc.centre[1] + arc.radius * math.sin(turn))))
    return tuple(found), True


def steps(radius: float, turn: float, off: float) -> int:
    """Say how many chords an arc needs.

    Args:
        radius: of the arc, or the longest that an ellipse has.
        turn: [rad] how far it turns, 0 or more.
        off: how far a chord may be off it, above 0.

    Returns:
        The count, at least 1 and at most `MOST_POINTS` (a curve that needs more is off by more).

    Source: geometry: a chord over the angle a is r (1 - cos(a/2)) off its arc.

    Example:
        >>> steps(10.0, 6.2832, 0.01)
        71
    """
    each = 2 * math.acos(max(1 - off / max(radius, off), 0.0))
    return max(1, min(math.ceil(turn / each), MOST_POINTS))


def ellipse_points(
    centre: Point2, long: Point2, short: Point2, first: float, last: float, off: float
) -> list[Point2] | None:
    """Lay an arc of an ellipse out in points.

    Args:
        centre: its centre.
        long: the half axis at the parameter 0.
        short: the half axis at a quarter of a turn.
        first: [rad] the parameter where it begins.
        last: [rad] where it ends, at most a turn beyond.
        off: how far chords may be off it, above 0.

    Returns:
        The points with both ends; None where it would take more than are laid out.

    Source: geometry: an ellipse is a circle stretched, and chords with it.

    Example:
        >>> len(ellipse_points((0, 0), (20, 0), (0, 10), 0.0, 6.283185307179586, 0.01))
        107
    """
    count = steps(math.hypot(*long, *short), last - first, off)
    if count >= MOST_POINTS:
        return None
    found = []
    for i in range(count + 1):
        turn = first + (last - first) * i / count
        c, s = math.cos(turn), math.sin(turn)
        found.append((centre[0] + long[0] * c + short[0] * s, centre[1] + long[1] * c + short[1] * s))
    return found


@dataclass(frozen=True, slots=True)
class Spline:
    """A B-spline: degree, knots, control points and their weights (none: all alike)."""

    degree: int
    knots: Sequence[float]
    controls: Sequence[Point2]
    weights: Sequence[float] = ()

    @property
    def fault(self) -> str:
        """Why it cannot be followed; '' where it can."""
        count = len(self.controls)
        if not 1 <= self.degree <= 10 or count <= self.degree:
            return "a spline whose control points are too few for its degree"
        if len(self.knots) != count + self.degree + 1 or list(self.knots) != sorted(self.knots):
            return "a spline whose knots do not fit its control points"
        if self.weights and (len(self.weights) != count or min(self.weights) <= 0):
            return "a spline whose weights do not fit its control points"
        if self.knots[self.degree] >= self.knots[count]:
            return "a spline without length"
        return ""

    def at(self, t: float) -> Point2:
        """Its point at a parameter, by de Boor's algorithm."""
        p, count = self.degree, len(self.controls)
        k = self._span(t, p, count)
        weights = self.weights or (1.0,) * count
        held = []
        for j in range(p + 1):
            (x, y), w = self.controls[j + k - p], weights[j + k - p]
            held.append((x * w, y * w, w))
        for r in range(1, p + 1):
            for j in range(p, r - 1, -1):
                left, right = self.knots[j + k - p], self.knots[j + 1 + k - r]
                share = (t - left) / (right - left) if right > left else 0.0
                one, two = held[j - 1], held[j]
                held[j] = (
                    one[0] * (1 - share) + two[0] * share,
                    one[1] * (1 - share) + two[1] * share,
                    one[2] * (1 - share) + two[2] * share,
                )
        x, y, w = held[p]
        return x / w, y / w

    def _span(self, t: float, low: int, high: int) -> int:
        """The knot before t, found by halving."""
        high -= 1
        while low < high:
            middle = (low + high + 1) // 2
            low, high = (middle, high) if self.knots[middle] <= t else (low, middle - 1)
        return low


def spline_points(spline: Spline, off: float) -> list[Point2] | None:
    """Lay a spline out in points.

    Args:
        spline: one without `fault`.
        off: how far chords may be off it, above 0.

    Returns:
        The points with both ends; None where it would take more than are laid out.

    Source: this project: each stretch between knots is halved until its quarter points lie within `off` of
        its chord.

    Example:
        >>> spline_points(Spline(1, (0, 0, 1, 1), ((0.0, 0.0), (4.0, 2.0))), 0.01)[-1]
        (4.0, 2.0)
    """
    p, count = spline.degree, len(spline.controls)
    knots = sorted(set(spline.knots[p : count + 1]))
    found = [spline.at(knots[0])]
    for first, last in pairwise(knots):
        if not _lay_out(spline.at, first, last, off, found):
            return None
    return found


def _lay_out(
    at: Callable[[float], Point2], first: float, last: float, off: float, found: list[Point2]
) -> bool:
    """Add the points of a stretch after its first; whether they were few enough."""
    waiting = [(first, last, found[-1], at(last), 0)]
    while waiting:
        start, end, one, two, depth = waiting.pop()
        if len(found) > MOST_POINTS:
            return False
        middle = (start + end) / 2
        if depth < 16 and (depth < 2 or _bends(at, start, end, one, two, off)) and start < middle < end:
            half = at(middle)
            waiting.append((middle, end, half, two, depth + 1))
            waiting.append((start, middle, one, half, depth + 1))
        else:
            found.append(two)
    return True


def _bends(
    at: Callable[[float], Point2], start: float, end: float, one: Point2, two: Point2, off: float
) -> bool:
    dx, dy = two[0] - one[0], two[1] - one[1]
    length = math.hypot(dx, dy)
    for share in (0.25, 0.5, 0.75):
        x, y = at(start + (end - start) * share)
        away = abs((x - one[0]) * dy - (y - one[1]) * dx) / length if length > off else math.dist((x, y), one)
        if away > off / 2:
            return True
    return False
