"""Sections a second way: exact integrals over polygons, invariants, and what is refused."""

from itertools import pairwise
from math import cos, hypot, pi, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.mechanics.sections import Piece, section_of, shear_factor, turned
from calculators.mechanics.shapes import SIZES, read_section, shape
from calculators.quantities.errors import InputError


def polygon(points):
    """Area, centroid and second moments about it, by Green's theorem over the edges of one ring."""
    area = sx = sy = sxx = syy = sxy = 0.0
    for (x1, y1), (x2, y2) in pairwise([*points, points[0]]):
        cross = x1 * y2 - x2 * y1
        area += cross / 2
        sx += (x1 + x2) * cross / 6
        sy += (y1 + y2) * cross / 6
        sxx += (y1 * y1 + y1 * y2 + y2 * y2) * cross / 12
        syy += (x1 * x1 + x1 * x2 + x2 * x2) * cross / 12
        sxy += (x1 * y2 + 2 * x1 * y1 + 2 * x2 * y2 + x2 * y1) * cross / 24
    x, y = sx / area, sy / area
    return area, x, y, sxx - area * y * y, syy - area * x * x, sxy - area * x * y


def compared(section, points):
    area, x, y, about_x, about_y, product = polygon(points)
    assert section.area_mm2 == pytest.approx(area, rel=1e-9)
    assert section.centroid_across_mm == pytest.approx(x, abs=1e-9 * section.width_mm)
    assert section.centroid_up_mm == pytest.approx(y, abs=1e-9 * section.depth_mm)
    assert section.second_moment_mm4 == pytest.approx(about_x, rel=1e-9)
    assert section.side_moment_mm4 == pytest.approx(about_y, rel=1e-9)
    assert section.product_mm4 == pytest.approx(product, abs=1e-9 * (about_x + about_y))


sizes = st.floats(1, 200)
parts = st.floats(0.05, 0.45)


@given(sizes, sizes, parts)
def test_an_angle_is_its_polygon(b, h, part):
    t = part * min(b, h)
    compared(shape("angle", [b, h, t]), [(0, 0), (b, 0), (b, t), (t, t), (t, h), (0, h)])


@given(sizes, sizes, parts)
def test_a_channel_is_its_polygon(b, h, part):
    t = part * min(b, h)
    ring = [(0, 0), (b, 0), (b, t), (t, t), (t, h - t), (b, h - t), (b, h), (0, h)]
    compared(shape("channel", [b, h, t]), ring)


@given(sizes, sizes, parts, parts)
def test_a_t_is_its_polygon(b, h, web, flange):
    w, f = web * b, flange * h
    ring = [(-w / 2, 0), (w / 2, 0), (w / 2, h - f), (b / 2, h - f), (b / 2, h), (-b / 2, h), (-b / 2, h - f),
            (-w / 2, h - f)]  # fmt: skip
    compared(shape("T", [b, h, w, f]), ring)


@given(sizes, sizes, parts, parts)
def test_an_i_is_its_polygon(b, h, web, flange):
    w, f = web * b, flange * h
    right = [(b / 2, 0), (b / 2, f), (w / 2, f), (w / 2, h - f), (b / 2, h - f), (b / 2, h)]
    compared(shape("I", [b, h, w, f]), [*right, *((-x, y) for x, y in reversed(right))])


@given(sizes, sizes, parts)
def test_a_rectangular_tube_is_one_polygon_less_another(b, h, part):
    t = part * min(b, h)
    section = shape("rectangular tube", [b, h, t])
    outer = polygon([(0, 0), (b, 0), (b, h), (0, h)])
    inner = polygon([(t, t), (b - t, t), (b - t, h - t), (t, h - t)])
    assert section.area_mm2 == pytest.approx(outer[0] - inner[0])
    assert section.second_moment_mm4 == pytest.approx(outer[3] - inner[3])
    assert section.side_moment_mm4 == pytest.approx(outer[4] - inner[4])


@given(sizes, parts)
def test_a_tube_is_nearly_a_polygon_of_many_corners(d, part):
    section = shape("tube", [d, part * d])
    ring = [(cos(2 * pi * k / 720), sin(2 * pi * k / 720)) for k in range(720)]
    outer = polygon([(x * d / 2, y * d / 2) for x, y in ring])
    bore = d / 2 - part * d
    inner = polygon([(x * bore, y * bore) for x, y in ring])
    # a polygon of 720 corners within a round lacks 1.3e-5 of its area, 2.6e-5 of its second moment
    assert section.area_mm2 == pytest.approx(outer[0] - inner[0], rel=3e-5)
    assert section.second_moment_mm4 == pytest.approx(outer[3] - inner[3], rel=6e-5)


@given(sizes, sizes, parts)
def test_principal_moments_are_those_of_the_turned_section(b, h, part):
    t = part * min(b, h)
    section = shape("angle", [b, h, t])
    turn = radians(section.principal_angle_deg)
    ring = [(0, 0), (b, 0), (b, t), (t, t), (t, h), (0, h)]
    flat = [(x * cos(turn) + y * sin(turn), y * cos(turn) - x * sin(turn)) for x, y in ring]
    _, _, _, about_x, about_y, product = polygon(flat)
    most, least = section.principal_mm4
    assert about_x == pytest.approx(most, rel=1e-9)
    assert about_y == pytest.approx(least, rel=1e-6)
    assert abs(product) < 1e-8 * most
    assert most + least == pytest.approx(section.second_moment_mm4 + section.side_moment_mm4)


def test_a_section_on_its_side_has_its_moments_changed_about():
    section = shape("T", [60, 80, 6, 8])
    side = turned(section)
    assert side.second_moment_mm4 == pytest.approx(section.side_moment_mm4)
    assert side.side_moment_mm4 == pytest.approx(section.second_moment_mm4)
    assert (side.depth_mm, side.width_mm) == (section.width_mm, section.depth_mm)


def test_two_glued_halves_are_one_board():
    halves = [Piece("rectangle", 30, 10, 0, 5), Piece("rectangle", 30, 10, 0, 15)]
    assert section_of(halves).second_moment_mm4 == pytest.approx(30 * 20**3 / 12)


def test_a_stiffer_strip_counts_for_its_ratio_of_width():
    """The section made all of one material: b times E1/E2 (bimetal beam of every textbook)."""
    mixed = section_of([Piece("rectangle", 20, 10, 0, 5), Piece("rectangle", 20, 10, 0, 15, ratio=3.0)])
    plain = section_of([Piece("rectangle", 20, 10, 0, 5), Piece("rectangle", 60, 10, 0, 15)])
    assert mixed.second_moment_mm4 == pytest.approx(plain.second_moment_mm4)
    assert mixed.centroid_up_mm == pytest.approx(plain.centroid_up_mm)
    assert mixed.area_mm2 == 400


@pytest.mark.parametrize(
    ("section", "expected", "tolerance"),
    [
        ("rectangle 7 x 90 mm", 1.2, 0.002),
        ("round 30 mm", 10 / 9, 0.002),
        ("tube 100 x 0.1 mm", 2.0, 0.001),
        # an I of thin plates: nearly its area over that of its web
        ("I 60 x 200 x 2 x 2 mm", (2 * 60 * 2 + 196 * 2) / (196 * 2), 0.08),
    ],
)
def test_shear_factors_of_the_textbooks(section, expected, tolerance):
    assert shear_factor(read_section(section)) == pytest.approx(expected, abs=tolerance)


@pytest.mark.parametrize(
    ("written", "area"),
    [
        ("rectangle 20 x 35 mm", 700),
        ("20x35", 700),
        ("board: 20 by 35", 700),
        ("1 x 2 in", 2 * 25.4**2),
        ("1 1/2 in x 3 1/2 in", 5.25 * 25.4**2),
        ("square 25", 625),
        ("Rod 10mm", pi * 25),
        ("pipe 25 x 2", pi / 4 * (25**2 - 21**2)),
        ("square tube 25 x 2", 25**2 - 21**2),
        ("box 50 x 25 x 2", 50 * 25 - 46 * 21),
        ("L 30 x 30 x 3", 30 * 3 + 27 * 3),
        ("tee 40 x 40 x 5 x 6", 40 * 6 + 34 * 5),
        ("I 46 x 80 x 4", 46 * 4 * 2 + 72 * 4),
        ("rectangle 20 × 35 mm", 700),
    ],
)
def test_sections_as_people_write_them(written, area):
    assert read_section(written).area_mm2 == pytest.approx(area)


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ("tube 10 x 5", "The wall of the tube is 5 mm; it must be under 5 mm, so that a hollow is left."),
        ("square tube 20 x 12", "The wall of the square tube is 12 mm; it must be under 10 mm, so that a hollow is left."),
        ("I 40 x 80 x 3 x 40", "The flange of the I is 40 mm; it must be under 40 mm, so that the shape is left."),
        ("rectangle 0 x 3", "The width of the rectangle is 0 mm; it may be over 0 to 10,000 mm."),
        ("rectangle 20", "'rectangle 20' has 1 sizes; a rectangle is written rectangle width x depth."),
        ("rectangel 20 x 3", "'rectangel 20 x 3' is not a section; did you mean rectangle or rectangular tube; write one of "
         + ", ".join(SIZES) + " with its sizes."),
        ("", "'' is not a section; write one of " + ", ".join(SIZES) + " with its sizes."),
    ],
)  # fmt: skip
def test_sections_that_are_none(written, says):
    with pytest.raises(InputError) as caught:
        read_section(written)
    assert str(caught.value) == says


@pytest.mark.parametrize(
    ("pieces", "says"),
    [
        ([Piece("round", 5, 5, hole=True)], "A section of holes alone has no area; give a piece that is no hole."),
        ([Piece("rectangle", 20, 20), Piece("rectangle", 20, 20, 5, 5)],
         "Pieces 1 and 2 lie over one another; move or shorten one of them."),
        ([Piece("rectangle", 20, 20), Piece("round", 10, 10, 8, 0, hole=True)],
         "Piece 2, a hole, lies partly outside the solid; move it or make it smaller."),
        ([Piece("rectangle", 20, 20), Piece("rectangle", 20, 20, hole=True)],
         "The holes leave nothing of the section; make them smaller."),
        ([Piece("rectangle", 20, 0)], "A piece of a section has sides of more than 0 mm."),
    ],
)  # fmt: skip
def test_pieces_that_make_no_section(pieces, says):
    with pytest.raises(InputError) as caught:
        section_of(pieces)
    assert str(caught.value) == says


def test_a_hole_through_two_stacked_boards_is_within_them():
    pieces = [Piece("rectangle", 40, 10, 0, 5), Piece("rectangle", 40, 10, 0, 15),
              Piece("round", 12, 12, 3, 10, hole=True)]  # fmt: skip
    section = section_of(pieces)
    assert section.area_mm2 == pytest.approx(800 - 36 * pi)
    assert section.product_mm4 == pytest.approx(0, abs=1e-6)


def test_the_gyration_of_a_round_is_a_fourth_of_its_diameter():
    assert shape("round", [12]).least_gyration_mm == pytest.approx(3)
    assert hypot(*(shape("square", [12]).principal_mm4)) == pytest.approx(12**4 / 12 * 2**0.5)
