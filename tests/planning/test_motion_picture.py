"""A part that moves is drawn where it comes to: its corners read back against rotation and sliding by hand.

The arm is 150 x 20 x 10 and turns about its own (10, 10); a pillar of radius 10 stands 100 from the pivot at 60
degrees. The slide is 80 x 60 on a bed.
"""

from __future__ import annotations

import math
import xml.etree.ElementTree as ElementTree
from decimal import Decimal

import pytest

from calculators.geometry.sweeping import Sweep
from calculators.planning.drawn.motion_picture import motion_picture, sight_of
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Motion
from tests.planning.checks.small_builds import block, build, mm, pose, turned

SVG = "{http://www.w3.org/2000/svg}"
BASE = block("P01", 300, 260, 20, pose(), material="mild steel")
PILLAR = turned("P03", 40, 20, pose("P01", 150, 186.60254, own_face="left", point="centre"))
CORNERS = ((-10, -10), (140, -10), (140, 10), (-10, 10))


def arm(least, most, **more):
    motion = Motion("turns", "Z", Decimal(least), Decimal(most), mm(10), mm(10), **more)
    return block("P02", 150, 20, 10, pose("P01", 90, 90, let_in=-3), material="brass", motion=motion)


def rings_of(svg, kind):
    return [
        [tuple(map(float, pair.split())) for pair in ring.rstrip("Z").split("L")]
        for path in ElementTree.fromstring(svg).iter(f"{SVG}path")
        if path.get("class") == kind
        for ring in path.get("d").split("M")
        if ring
    ]


def real(rings, pivot, scale):
    return [[((x - pivot[0]) / scale, (pivot[1] - y) / scale) for x, y in ring] for ring in rings]


def has_corners(ring, wanted):
    return all(any(math.dist(corner, point) < 0.1 for point in ring) for corner in wanted)


def by(corners, degrees):
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return [(x * c - y * s, x * s + y * c) for x, y in corners]


@pytest.mark.parametrize("narrow", [False, True])
def test_an_arm_is_drawn_at_rest_and_at_both_ends_of_its_turn(narrow):
    svg = motion_picture(inspect_build(build(BASE, arm(-20, 35), PILLAR)), "P02", narrow=narrow)
    (rest,) = rings_of(svg, "outline")
    xs, ys = zip(*rest, strict=True)
    scale = (max(xs) - min(xs)) / 150
    pivot = (min(xs) + 10 * scale, min(ys) + 10 * scale)
    assert (max(ys) - min(ys)) / scale == pytest.approx(20, abs=0.1)
    ends = real(rings_of(svg, "hidden"), pivot, scale)
    assert len(ends) == 2
    assert has_corners(ends[0], by(CORNERS, -20))
    assert has_corners(ends[1], by(CORNERS, 35))
    # The pillar stands still; its outline is met all round at 10 from (50, 86.6), so far as the window shows it.
    around = real(rings_of(svg, "break"), pivot, scale)
    pillar = [ring for ring in around if all(9.9 < math.dist(p, (50, 86.6025)) < 14.2 for p in ring)]
    assert len(pillar) == 1
    words = [e.text for e in ElementTree.fromstring(svg).iter(f"{SVG}text")]
    assert "55°" in words
    assert {"P02", "P03"} <= set(words)  # the arm and the pillar are named where they are drawn


def test_a_slide_is_drawn_along_its_way():
    bed = block("P01", 400, 80, 20, pose(), material="mild steel")
    motion = Motion("slides", "X", Decimal(-10), Decimal(200))
    slide = block("P02", 80, 60, 15, pose("P01", 60, 10), material="brass", motion=motion)
    svg = motion_picture(inspect_build(build(bed, slide)), "P02")
    (rest,) = rings_of(svg, "outline")
    left, right = min(x for x, _ in rest), max(x for x, _ in rest)
    scale = (right - left) / 80
    # Seen from the side: 15 high.
    assert (max(y for _, y in rest) - min(y for _, y in rest)) / scale == pytest.approx(15, abs=0.1)
    begins = sorted((min(x for x, _ in ring) - left) / scale for ring in rings_of(svg, "hidden"))
    assert begins == pytest.approx([-10, 200], abs=0.1)
    assert "210 mm" in [e.text for e in ElementTree.fromstring(svg).iter(f"{SVG}text")]


def test_what_is_carried_moves_with_it_and_what_it_meets_is_said_in_red():
    pointer = block("P04", 70, 6, 3, pose("P02", 130, 7), material="brass")
    worked = inspect_build(build(BASE, arm(0, 60, carries=("P04",)), PILLAR, pointer))
    svg = motion_picture(worked, "P02")
    assert len(rings_of(svg, "outline")) == 2
    assert len(rings_of(svg, "hidden")) == 2
    root = ElementTree.fromstring(svg)
    assert "P02 turns from 0 to 60 deg. It carries P04. Around it stand " in root[1].text
    assert any(each.rule == "swept-clearance" and each.part == "P02" for each in worked.findings)
    red = " ".join(e.text for e in root.iter(f"{SVG}text") if e.get("class") == "finding")
    assert red.startswith("P02 ")
    assert "P03" in red


def test_a_part_that_does_not_move_or_lies_nowhere_has_no_picture():
    worked = inspect_build(build(BASE, arm(-5, 5), PILLAR))
    assert motion_picture(worked, "P01") is None
    assert motion_picture(worked, "P09") is None


@pytest.mark.parametrize("way", [(1, 0, 0), (0, 1, 0), (0, 0, 1), (0, 0, -1), (0.6, 0, 0.8)])
@pytest.mark.parametrize("kind", ["turns", "slides"])
def test_the_sight_is_square_and_looks_against_the_axis(kind, way):
    right, up = sight_of(Sweep(kind, (0, 0, 0), way, -1, 1))
    eye = (
        right[1] * up[2] - right[2] * up[1],
        right[2] * up[0] - right[0] * up[2],
        right[0] * up[1] - right[1] * up[0],
    )
    assert sum(a * b for a, b in zip(right, up, strict=True)) == pytest.approx(0, abs=1e-12)
    assert math.hypot(*right) == pytest.approx(1)
    assert math.hypot(*up) == pytest.approx(1)
    if kind == "turns":
        assert eye == pytest.approx(way)
    else:
        assert max(
            abs(sum(a * b for a, b in zip(way, each, strict=True))) for each in (right, up)
        ) == pytest.approx(1)
