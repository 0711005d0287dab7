"""Circles, slots and rectangles told from their outlines, wherever these begin, and nothing else taken for one."""

from __future__ import annotations

import math
import random

import pytest

from calculators.geometry.outline_kinds import kind_of, simplified
from calculators.geometry.outlines import Outline, Vertex, circle, rectangle


def begun_elsewhere(outline: Outline, at: int) -> Outline:
    at %= len(outline)
    return (*outline[at:], *outline[:at])


def turned(outline: Outline, degrees: float) -> Outline:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return tuple(Vertex(one.x * c - one.y * s, one.x * s + one.y * c, one.bulge) for one in outline)


@pytest.mark.parametrize("seed", range(40))
def test_measures_are_those_that_it_was_drawn_with(seed: int) -> None:
    chance = random.Random(seed)
    x, y = chance.uniform(-50, 50), chance.uniform(-50, 50)
    length, width = chance.uniform(11, 80), chance.uniform(5, 10)
    corner = chance.uniform(0.5, 2.4)
    sharp = kind_of(begun_elsewhere(rectangle(x, y, length, width), seed))
    assert (sharp.kind, sharp.corner) == ("rectangle", 0.0)
    assert (sharp.x, sharp.y, sharp.length, sharp.width) == pytest.approx((x, y, length, width))
    soft = kind_of(begun_elsewhere(rectangle(x, y, length, width, corner), seed))
    assert soft.kind == "rectangle"
    assert (soft.x, soft.length, soft.corner) == pytest.approx((x, length, corner))
    slot = kind_of(begun_elsewhere(simplified(rectangle(x, y, length, width, width / 2)), seed))
    assert (slot.kind, slot.along) == ("slot", "u")
    assert (slot.x, slot.y, slot.diameter, slot.length) == pytest.approx(
        (x + length / 2, y + width / 2, width, length)
    )
    upright = kind_of(begun_elsewhere(simplified(rectangle(x, y, width, length, width / 2)), seed))
    assert (upright.kind, upright.along) == ("slot", "v")
    ring = kind_of(begun_elsewhere(circle(x, y, width), seed))
    assert ring.kind == "circle"
    assert (ring.x, ring.y, ring.diameter) == pytest.approx((x, y, width))


def test_a_circle_in_many_arcs_is_a_circle() -> None:
    bulge = math.tan(math.radians(360 / 7) / 4)
    arcs = tuple(
        Vertex(5 + 4 * math.cos(2 * math.pi * at / 7), 4 * math.sin(2 * math.pi * at / 7), bulge)
        for at in range(7)
    )
    kind = kind_of(simplified(arcs))
    assert kind.kind == "circle"
    assert (kind.x, kind.diameter) == pytest.approx((5, 8))


def test_what_lies_aslant_is_a_slot_of_no_direction_or_free() -> None:
    assert kind_of(turned(simplified(rectangle(0, 0, 20, 6, 3)), 30)).along == ""
    assert kind_of(turned(rectangle(0, 0, 20, 6), 30)).kind == "free"


@pytest.mark.parametrize(
    "outline",
    [
        (Vertex(0, 0), Vertex(20, 0), Vertex(21, 10), Vertex(0, 10)),
        (Vertex(0, 0, 0.2), Vertex(20, 0), Vertex(20, 10), Vertex(0, 10)),
        (Vertex(0, 0), Vertex(20, 0), Vertex(10, 15)),
        (Vertex(0, 0), Vertex(20, 0, 0.7), Vertex(20, 10), Vertex(0, 10, 0.7)),
        (Vertex(-5, 0, 1.0), Vertex(5, 0, 0.5)),
        (*rectangle(0, 0, 20, 10, 2)[:7], Vertex(0, 2.5)),
    ],
)
def test_nothing_else_is_taken_for_one(outline: Outline) -> None:
    assert kind_of(simplified(outline)).kind == "free"
