"""Outlines drawn by lot, and what is asked of them counted point by point, apart from the code under test."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator

from calculators.geometry.outlines import Outline, Vertex

Point = tuple[float, float]


def outlines(seed: int, count: int) -> Iterator[Outline]:
    """Give outlines about (50, 50): corners in order about it, joined by lines and flat arcs of both hands.

    The corners stand at least 40 degrees apart, and an arc rises by less than the triangle that its chord
    makes with the middle is high, so that none crosses itself.
    """
    lot = random.Random(seed)
    for _ in range(count):
        corners = lot.randint(3, 8)
        start, share = lot.uniform(0, 360), 360 / corners
        angles = [start + share * (i + lot.uniform(-0.05, 0.05)) for i in range(corners)]
        radii = [lot.uniform(28, 50) for _ in angles]
        bulges = [lot.choice([0.0, lot.uniform(-0.12, 0.12)]) for _ in angles]
        yield tuple(
            Vertex(50 + r * math.cos(math.radians(a)), 50 + r * math.sin(math.radians(a)), b)
            for a, r, b in zip(angles, radii, bulges, strict=True)
        )


def traced(outline: Outline, steps: int = 400) -> list[Point]:
    """Give points of an outline: each arc by its own equation, from the bulge as its definition has it."""
    points: list[Point] = []
    for one, to in zip(outline, (*outline[1:], outline[0]), strict=True):
        dx, dy = to.x - one.x, to.y - one.y
        for i in range(steps):
            t = i / steps
            if not one.bulge:
                points.append((one.x + t * dx, one.y + t * dy))
                continue
            # From the start the chord turns through half of the angle that the arc has run: with the whole
            # angle 4 atan b, the point at the share t is seen at -2 atan(b) (1 - t) from the chord, at a
            # distance of the chord times sin(2 t atan b) / sin(2 atan b). No centre is needed.
            whole = 2 * math.atan(one.bulge)
            reach = math.sin(whole * t) / math.sin(whole)
            turn = -whole * (1 - t)
            c, s = math.cos(turn), math.sin(turn)
            points.append((one.x + reach * (dx * c - dy * s), one.y + reach * (dx * s + dy * c)))
    return points


def winding(points: list[Point], x: float, y: float) -> int:
    """How often a closed line goes round a point, by the angles under which it is seen."""
    total = 0.0
    before = math.atan2(points[-1][1] - y, points[-1][0] - x)
    for px, py in points:
        now = math.atan2(py - y, px - x)
        total += (now - before + math.pi) % (2 * math.pi) - math.pi
        before = now
    return round(total / (2 * math.pi))


def nearest(points: list[Point], x: float, y: float) -> float:
    """The distance to the nearest of some points."""
    return min(math.dist(point, (x, y)) for point in points)


def shoelace(points: list[Point]) -> float:
    """The area within a closed line of straight pieces."""
    pairs = zip(points, [*points[1:], points[0]], strict=True)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2
