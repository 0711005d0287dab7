"""Outlines as paths of SVG: read back by the rules of SVG for arcs, and boxes that hold every point."""

from __future__ import annotations

import math
import re

import pytest

from calculators.drawing.outline_path import boxes_along, path_data
from calculators.geometry.outlines import Outline, Vertex
from tests.geometry.random_outlines import nearest, outlines, traced

LONG_ARC: Outline = (Vertex(0, 0, math.tan(math.radians(270) / 4)), Vertex(10, 10))


def at(x: float, y: float) -> tuple[float, float]:
    return 5 + 2 * x, 210 - 2 * y


def drawn(data: str) -> list[tuple[float, float]]:
    """Points of a path: of an arc about the centre that the conversion of SVG 1.1, F.6.5, gives."""
    points: list[tuple[float, float]] = []
    now = (0.0, 0.0)
    for letter, numbers in re.findall(r"([MLAZ])([^MLAZ]*)", data):
        values = [float(text) for text in numbers.split()]
        if letter == "A":
            radius, long, sweep, end = values[0], values[3], values[4], (values[5], values[6])
            dx, dy = (now[0] - end[0]) / 2, (now[1] - end[1]) / 2
            root = math.sqrt(max(radius**2 / (dx * dx + dy * dy) - 1, 0)) * (1 if long != sweep else -1)
            centre = ((now[0] + end[0]) / 2 + root * dy, (now[1] + end[1]) / 2 - root * dx)
            first = math.atan2(now[1] - centre[1], now[0] - centre[0])
            turn = math.atan2(end[1] - centre[1], end[0] - centre[0]) - first
            turn = turn % (2 * math.pi) if sweep else -(-turn % (2 * math.pi))
            points += [
                (centre[0] + radius * math.cos(first + turn * i / 50), centre[1] + radius * math.sin(first + turn * i / 50))
                for i in range(51)
            ]  # fmt: skip
            now = end
        elif letter in "ML":
            end = (values[0], values[1])
            if letter == "L":
                points += [
                    (now[0] + (end[0] - now[0]) * i / 200, now[1] + (end[1] - now[1]) * i / 200)
                    for i in range(201)
                ]
            now = end
    return points


@pytest.mark.parametrize("outline", [*outlines(31, 5), LONG_ARC])
def test_the_arcs_of_a_path_lie_on_the_outline(outline: Outline) -> None:
    wanted, found = [at(*point) for point in traced(outline, 200)], drawn(path_data(outline, at, 2.0))
    # Traced points stand up to 0.9 apart, those of the path up to 4; the last side is closed by Z.
    assert all(nearest(wanted, *point) < 0.5 for point in found)
    closing = 200 if outline[-1].bulge == 0 else 0
    assert all(nearest(found, *point) < 2.1 for point in wanted[: len(wanted) - closing : 10])


@pytest.mark.parametrize("outline", [*outlines(32, 5), LONG_ARC])
def test_boxes_along_an_outline_hold_it_and_are_slender(outline: Outline) -> None:
    boxes = list(boxes_along(outline, at, 2.0))
    for x, y in (at(*point) for point in traced(outline, 40)):
        assert any(
            left - 0.01 <= x <= right + 0.01 and top - 0.01 <= y <= foot + 0.01
            for left, top, right, foot in boxes
        )
    # A slanting stretch is boxed in pieces of 3 mm, so no box is wide both ways.
    assert all(min(right - left, foot - top) < 3.6 for left, top, right, foot in boxes)
