"""A block with rounded corners is drawn with them: on paper at true size a sharp corner would be marked wrong."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from calculators.geometry.outlines import area, bounds, is_inside
from calculators.planning.drawn.face_shapes import face_shape
from calculators.planning.model import Component, Corner, Size
from calculators.quantities.length import Length

PLATE = Component(
    "P1", "Plate",
    size=Size("block", length=Length.of_mm(90), width=Length.of_mm(60), thickness=Length.of_mm(6)),
    corner_radius=Length.of_mm(3),
)  # fmt: skip


@pytest.mark.parametrize("face", ["top", "bottom"])
def test_the_corners_of_a_block_are_taken_off_by_their_radius(face: str) -> None:
    outline = face_shape(PLATE, face).outline
    assert bounds(outline) == pytest.approx((0, 0, 90, 60))
    assert area(outline) == pytest.approx(90 * 60 - (4 - math.pi) * 3**2)
    # The corner's arc crosses the diagonal at r (1 - 1 / sqrt 2) = 0.8787 from both edges.
    assert not is_inside(outline, 0.87, 0.87)
    assert is_inside(outline, 0.89, 0.89)


def test_its_edges_from_the_side_stay_rectangles() -> None:
    assert area(face_shape(PLATE, "front").outline) == pytest.approx(90 * 6)


@pytest.mark.parametrize("radius", [30, 45, 9000])
def test_a_radius_beyond_half_of_the_width_gives_round_ends(radius: float) -> None:
    outline = face_shape(replace(PLATE, corner_radius=Length.of_mm(radius)), "top").outline
    assert area(outline) == pytest.approx(30 * 60 + math.pi * 30**2)


def test_an_outline_of_its_own_goes_before_the_radius() -> None:
    sides = tuple(Corner(Length.of_mm(x), Length.of_mm(y)) for x, y in ((0, 0), (90, 0), (0, 60)))
    assert area(face_shape(replace(PLATE, outline=sides), "top").outline) == pytest.approx(90 * 60 / 2)
