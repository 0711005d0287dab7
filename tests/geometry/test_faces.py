"""The six faces of a block and the faces of a round part, written out corner by corner and read back."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.geometry import Solid, edge_distances, face_frame, face_point, on_face, to_face, to_pocket
from calculators.geometry.model import Pocket
from calculators.quantities.errors import InputError

L, W, T = 640.0, 260.0, 28.0
BLOCK = Solid("block", L, W, T)
ROUND = Solid("round", 165.0, diameter=20.0, bore=6.0)
SIZES = st.floats(0.5, 2000)
PLACES = st.floats(-3000, 3000)

# (0, 0), the corner at the far end of u, the corner at the far end of v, in X, Y, Z: the design's table.
CORNERS = {
    "top": ((0, 0, T), (L, 0, T), (0, W, T)),
    "bottom": ((0, W, 0), (L, W, 0), (0, 0, 0)),
    "front": ((0, 0, 0), (L, 0, 0), (0, 0, T)),
    "back": ((L, W, 0), (0, W, 0), (L, W, T)),
    "right": ((L, 0, 0), (L, W, 0), (L, 0, T)),
    "left": ((0, W, 0), (0, 0, 0), (0, W, T)),
}


@pytest.mark.parametrize("face", CORNERS)
def test_each_face_of_a_block_has_its_corners_where_the_table_says(face):
    zero, u_end, v_end = CORNERS[face]
    frame = face_frame(BLOCK, face)
    assert face_point(BLOCK, face, 0, 0) == zero
    assert face_point(BLOCK, face, frame.u_range[1], 0) == u_end
    assert face_point(BLOCK, face, 0, frame.v_range[1]) == v_end


@pytest.mark.parametrize("face", CORNERS)
def test_depth_runs_into_the_block_and_u_v_are_right_handed_from_outside(face):
    frame = face_frame(BLOCK, face)
    x, y, z = face_point(BLOCK, face, 10, 8, 5)
    assert 0 < x < L
    assert 0 < y < W
    assert 0 < z < T
    (a, b, c), (d, e, f) = frame.u_axis, frame.v_axis
    assert (b * f - c * e, c * d - a * f, a * e - b * d) == tuple(-n for n in frame.inward)


def test_all_six_faces_drawn_and_read_back():
    """A dot is drawn on every face at (10, 8); each dot is read on every face and only its own says (10, 8, 0)."""
    for drawn in CORNERS:
        dot = face_point(BLOCK, drawn, 10, 8)
        hits = [face for face in CORNERS if to_face(BLOCK, face, dot) == (10, 8, 0)]
        assert hits == [drawn]


@given(st.sampled_from(sorted(CORNERS)), SIZES, SIZES, SIZES, PLACES, PLACES, PLACES)
def test_a_block_face_read_back_gives_what_was_put_in(face, length, width, thickness, u, v, depth):
    solid = Solid("block", length, width, thickness)
    assert to_face(solid, face, face_point(solid, face, u, v, depth)) == pytest.approx(
        (u, v, depth), abs=1e-9
    )


@given(st.floats(0, 359.99), st.floats(0, 165), st.floats(0, 9.9))
def test_the_side_of_a_round_part_read_back_gives_what_was_put_in(angle, x, depth):
    point = face_point(ROUND, "side", x, angle, depth)
    # Written out from the definition: the angle is from +Y towards +Z.
    radius = 10.0 - depth
    assert point == pytest.approx(
        (x, radius * math.cos(math.radians(angle)), radius * math.sin(math.radians(angle))), abs=1e-9
    )
    u, v, back = to_face(ROUND, "side", point)
    assert (u, back) == pytest.approx((x, depth), abs=1e-9)
    assert math.cos(math.radians(v - angle)) == pytest.approx(1, abs=1e-9)


def test_round_ends_have_their_nought_on_the_axis():
    assert face_point(ROUND, "left", 0, 0, 5) == (5, 0, 0)
    assert face_point(ROUND, "right", 0, 0, 5) == (160, 0, 0)
    assert face_point(ROUND, "left", 3, 4) == (0, -3, 4)
    assert face_point(ROUND, "right", 3, 4) == (165, 3, 4)


@pytest.mark.parametrize(
    ("face", "point"),
    [("top", (7, 2, 10)), ("bottom", (7, -2, -10)), ("front", (7, -10, 2)), ("back", (158, 10, 2))],
)
def test_the_planes_that_touch_a_round_part(face, point):
    assert face_point(ROUND, face, 7, 2) == point
    assert to_face(ROUND, face, point) == (7, 2, 0)


def test_a_touching_plane_on_the_side_agrees_with_the_top():
    assert face_frame(ROUND, "side", 90) == face_frame(ROUND, "top")


def test_a_block_has_no_side_and_no_face_of_another_name():
    with pytest.raises(InputError, match="A block has no 'side'; name top, bottom"):
        face_point(BLOCK, "side", 0, 0)
    with pytest.raises(InputError, match="'lid' is not a face"):
        face_point(BLOCK, "lid", 0, 0)


def test_edge_distances_on_a_block():
    near = edge_distances(BLOCK, "bottom", 600, 250)
    assert (near.to_end_mm, near.to_edge_mm, near.least_mm, near.end_grain) == (40, 10, 10, False)
    end = edge_distances(BLOCK, "left", 20, 14)
    assert (end.to_end_mm, end.to_edge_mm, end.end_grain) == (None, 14, True)


def test_edge_distances_on_a_round_part():
    side = edge_distances(ROUND, "side", 160, 45)
    assert (side.to_end_mm, side.to_edge_mm, side.least_mm) == (5, None, 5)
    # 3-4-5: 5 from the axis, so 5 to the rim and 2 to the bore.
    end = edge_distances(ROUND, "right", 3, 4)
    assert (end.to_edge_mm, end.to_bore_mm, end.least_mm) == (5, 2, 2)


@given(st.sampled_from(sorted(CORNERS)), st.floats(-50, 700), st.floats(-50, 300))
def test_on_face_agrees_with_the_block_the_point_is_on(face, u, v):
    x, y, z = face_point(BLOCK, face, u, v)
    assert on_face(BLOCK, face, u, v) == (
        -1e-6 <= x <= L + 1e-6 and -1e-6 <= y <= W + 1e-6 and -1e-6 <= z <= T + 1e-6
    )


@given(st.floats(-20, 80), st.floats(-20, 60), st.floats(0, 10))
def test_the_distance_to_a_pocket_is_to_the_nearest_point_of_its_outline(u, v, radius):
    pocket = Pocket("top", 10, 10, 5, length=40, width=20, corner_radius=radius)
    distance = to_pocket(pocket, u, v)
    # Second way: walk the outline finely and take the nearest point.
    nearest = min(math.hypot(u - a, v - b) for a, b in _walk(radius))
    assert abs(distance) == pytest.approx(nearest, abs=0.06)


def _walk(radius):
    corners = [(50 - radius, 30 - radius, 0), (10 + radius, 30 - radius, 90)]
    corners += [(10 + radius, 10 + radius, 180), (50 - radius, 10 + radius, 270)]
    turned = [
        (u + radius * math.cos(math.radians(start + i)), v + radius * math.sin(math.radians(start + i)))
        for u, v, start in corners
        for i in range(91)
    ]
    outline = []
    for (a, b), (c, d) in zip(turned, turned[1:] + turned[:1], strict=True):
        steps = max(1, int(math.hypot(c - a, d - b) / 0.1))
        outline += [(a + (c - a) * i / steps, b + (d - b) * i / steps) for i in range(steps)]
    return outline


def test_inside_a_round_pocket_the_distance_is_negative():
    assert to_pocket(Pocket("top", 20, 20, 5, diameter=10), 23, 24) == 0
    assert to_pocket(Pocket("top", 20, 20, 5, diameter=10), 20, 20) == -5
