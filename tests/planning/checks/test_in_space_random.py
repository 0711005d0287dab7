"""Screws and parts in random places against points strewn over them: no miss and no false alarm.

The second opinion knows nothing of supports: it goes by how far points on a screw's outline lie from the
other's axis, or from the sides of a turned block, and is sharp to the spacing of the points.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise

import pytest

from calculators.planning.model import Pose
from tests.planning.checks.mended import of_rule
from tests.planning.checks.small_builds import GROUND, block, inspected, joint, mm, pose

Point = tuple[float, float, float]
SPACING = 0.7


def outline(length: float) -> list[tuple[float, float]]:
    """A 5 mm countersunk wood screw: radius at depths below the surface. The head is 10 wide (twice the
    shank, 90 degrees), the point 5 long."""
    return [(0.0, 5.0), (2.5, 2.5), (length - 5.0, 2.5), (length, 0.0)]


def radius_at(depth: float, profile: list[tuple[float, float]]) -> float | None:
    for (a, r), (b, s) in pairwise(profile):
        if a <= depth <= b:
            return r + (s - r) * (depth - a) / (b - a)
    return None


def skin(profile: list[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """Depths and radii along the outline, no farther apart than the spacing; the flat of the head too."""
    steps = int(profile[0][1] / SPACING) + 1
    yield from ((0.0, profile[0][1] * i / steps) for i in range(steps))
    for (a, r), (b, s) in pairwise(profile):
        steps = int(math.hypot(b - a, s - r) / SPACING) + 1
        yield from ((a + (b - a) * i / steps, r + (s - r) * i / steps) for i in range(steps + 1))


def outside(depth: float, off: float, profile: list[tuple[float, float]]) -> float:
    """How far a point at a depth and off the axis lies from a screw's outline; negative inside."""
    inside_radius = radius_at(depth, profile)
    nearest = math.inf
    ends = [(0.0, 0.0), *profile]
    for (a, r), (b, s) in pairwise(ends):
        long = (b - a) ** 2 + (s - r) ** 2
        t = min(max(((depth - a) * (b - a) + (off - r) * (s - r)) / long, 0.0), 1.0)
        nearest = min(nearest, math.hypot(depth - a - t * (b - a), off - r - t * (s - r)))
    return -nearest if inside_radius is not None and off < inside_radius else nearest


def gap(u1: float, v1: float, long1: float, u2: float, z2: float, long2: float) -> float:
    """The least distance of a screw down from the top (Z 120) at (u1, v1) and one from the front at (u2, z2)."""
    least = math.inf
    down, inward = outline(long1), outline(long2)
    for depth, radius in skin(down):
        for step in range(max(1, int(2 * math.pi * radius / SPACING) + 1)):
            angle = step * SPACING / radius if radius else 0.0
            x, y, z = u1 + radius * math.cos(angle), v1 + radius * math.sin(angle), 120.0 - depth
            least = min(least, outside(y, math.hypot(x - u2, z - z2), inward))
    return least


@pytest.mark.parametrize("seed", range(4))
def test_screws_from_two_faces_are_told_when_they_are_nearer_than_two_diameters(seed: int) -> None:
    """20 a seed, 10 mm between them wanted. What their holes have told (`holes-meet`) is not told again."""
    chance = random.Random(seed)
    counts: dict[str, int] = {"error": 0, "warning": 0, "": 0}
    for _ in range(20):
        long1, long2 = chance.choice((40, 50, 60, 80)), chance.choice((40, 50, 60, 80))
        u1, v1 = chance.uniform(60, 140), chance.uniform(20, 60)
        u2, z2 = (
            u1 + chance.choice((-1, 1)) * chance.choice((0.0, 3.0, 4.0, 7.0, 10.0, 17.0)),
            chance.uniform(60, 100),
        )
        body = block("P1", 200, 120, 120, *GROUND)
        line = "5 x {} csk wood screw"
        worked = inspected(
            body,
            joint("F1", line.format(long1), "P1", "top", [(u1, v1)], "P1"),
            joint("F2", line.format(long2), "P1", "front", [(u2, z2)], "P1"),
        )
        truth = gap(u1, v1, long1, u2, z2, long2)
        told = [one.severity for one in of_rule(worked, "fasteners-meet")]
        holes = [one.severity for one in of_rule(worked, "holes-meet")]
        if truth > 10.0 + SPACING:
            assert told == []
            counts[""] += 1
        elif truth < -SPACING:
            assert "error" in told + holes
            assert (told + holes).count("error") == 1
            counts["error"] += 1
        elif SPACING < truth < 10.0 - SPACING:
            assert told in (["warning"], []) if holes else told == ["warning"]
            counts["warning"] += 1
    assert min(counts.values()) >= 1


def bolt_points() -> Iterator[Point]:
    """Points in an M6 x 45 hexagon bolt from Z 36 down: head 4.0 high and 11.55 over corners, nut 5.2 high
    below 36 mm of wood, shank of 6 (ISO 4017, ISO 4032; from memory), on the axis X 50, Y 50."""
    corner = 5.0 / math.cos(math.pi / 6)
    for low, high, radius in ((36.0, 40.0, corner), (-9.0, 36.0, 3.0), (-5.2, 0.0, corner)):
        layers, rings = int((high - low) / SPACING) + 1, int(radius / SPACING) + 1
        for i in range(layers + 1):
            z = low + (high - low) * i / layers
            for j in range(rings + 1):
                r = radius * j / rings
                for k in range(max(1, int(2 * math.pi * r / SPACING))):
                    angle = 2 * math.pi * k / max(1, int(2 * math.pi * r / SPACING))
                    yield 50 + r * math.cos(angle), 50 + r * math.sin(angle), z


POINTS = list(bolt_points())


@pytest.mark.parametrize("seed", range(4))
def test_a_bolt_is_told_to_run_into_a_turned_block_where_they_have_points_in_common(seed: int) -> None:
    """30 a seed: a bolt through two boards, a block lying under or on them at any angle about Z."""
    chance = random.Random(50 + seed)
    hits = 0
    for _ in range(30):
        long, wide, thick = chance.uniform(8, 40), chance.uniform(8, 40), chance.uniform(3, 12)
        angle = chance.choice((0.0, 30.0, 45.0, chance.uniform(0, 360)))
        x, y = chance.uniform(25, 75), chance.uniform(25, 75)
        under = chance.random() < 0.5
        z = chance.uniform(-10 - thick, -thick) if under else chance.uniform(36, 41)
        turned = Decimal(f"{angle:.3f}")
        put = Pose(
            u=mm(round(x, 3)), v=mm(round(y, 3)), let_in=mm(-round(z, 3)), turned_deg=turned, point="centre"
        )
        base = block("P1", 200, 100, 18, *GROUND)
        foot = block("P2", 100, 60, 18, pose("P1", 4, 20))
        other = block("P3", long, wide, thick, put)
        worked = inspected(
            base, foot, other,
            joint("F1", "M6 x 45 hex bolt 8.8", "P2", "top", [(46, 30)], "P2", "P1", "M6 nut"),
        )  # fmt: skip
        named = [
            one for one in worked.findings if one.rule in ("part-in-the-way", "parts-overlap") and one.joint
        ]
        if named:  # it lies on the axis itself, under the nut: told there
            continue
        c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        deepest = -math.inf
        for px, py, pz in POINTS:
            dx, dy = px - round(x, 3), py - round(y, 3)
            across, up = c * dx + s * dy, -s * dx + c * dy
            room = min(long / 2 - abs(across), wide / 2 - abs(up), pz - round(z, 3), round(z, 3) + thick - pz)
            deepest = max(deepest, room)
        told = [one.part for one in of_rule(worked, "fastener-meets-part")]
        if deepest > 0.1 + SPACING:
            assert told == ["P3"]
            hits += 1
        elif deepest < -SPACING:
            assert told == []
    assert hits >= 5
