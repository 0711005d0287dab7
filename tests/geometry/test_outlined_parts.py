"""Blocks sawn to an outline: lines through them, edges, clashes, counted by points and worked by hand."""

from __future__ import annotations

import math
import random

import pytest

from calculators.geometry import Body, Pose, axis_from, hole_in_layer, layers_along, placements
from calculators.geometry.chords import chords
from calculators.geometry.clashes import clash_of
from calculators.geometry.clipping import outside_by
from calculators.geometry.cuts import Bored, cut_of
from calculators.geometry.features import edge_distances, on_face
from calculators.geometry.model import Pocket, Solid
from calculators.geometry.outlines import Outline, Vertex, bounds, circle, rectangle
from calculators.geometry.pieces import mass_of, pieces_of
from calculators.geometry.shapes import Slab, beyond_plane, box_of, support
from calculators.geometry.vectors import Transform
from tests.geometry.random_outlines import outlines, traced, winding

ROUNDED: Outline = (Vertex(0, 0), Vertex(60, 0, 1.0), Vertex(60, 40), Vertex(0, 40))
"""A plate 80 x 40 whose right end is half a circle of radius 20 about (60, 20)."""

PLATE = Solid("block", 80, 40, 6, outline=ROUNDED)
STEP = Solid(
    "block", 90, 90, 10,
    outline=tuple(Vertex(x, y) for x, y in ((0, 0), (90, 0), (90, 40), (50, 40), (50, 90), (0, 90))),
)  # fmt: skip


def parts(seed: int, count: int) -> list[tuple[Solid, list[tuple[float, float]]]]:
    """Blocks 12 thick with outlines drawn by lot, shifted to their datum, a pocket in every other one."""
    found = []
    for index, outline in enumerate(outlines(seed, count)):
        x, y, far_x, far_y = bounds(outline)
        own = tuple(Vertex(one.x - x, one.y - y, one.bulge) for one in outline)
        pockets = (Pocket("top", 20, 15, 5, length=30, width=18),) if index % 2 else ()
        found.append(
            (Solid("block", far_x - x, far_y - y, 12, pockets=pockets, outline=own), traced(own, 60))
        )
    return found


def in_material(solid: Solid, points: list[tuple[float, float]], x: float, y: float, z: float) -> bool:
    """Whether a point lies in the material, by the angles under which the outline is seen from it."""
    for one in solid.pockets:
        assert one.depth is not None
        if one.u < x < one.u + one.length and one.v < y < one.v + one.width and z > 12 - one.depth:
            return False
    return 0 < z < 12 and winding(points, x, y) == 1


@pytest.mark.parametrize("number", range(16))
def test_a_line_runs_in_material_just_where_its_points_are_in_it(number: int) -> None:
    solid, points = parts(11, 16)[number]
    lot = random.Random(number)
    for _ in range(6):
        start = (lot.uniform(10, 80), lot.uniform(10, 80), lot.uniform(1, 11))
        way = [lot.choice([0.0, lot.gauss(0, 1)]) for _ in range(3)]
        long = math.hypot(*way)
        if not long:
            continue
        unit = (way[0] / long, way[1] / long, way[2] / long)
        found = chords(solid, start, unit)
        for _ in range(25):
            at = lot.uniform(-100, 100)
            if any(abs(at - end) < 0.05 for one in found for end in (one.enter, one.leave)):
                continue
            there = in_material(solid, points, *(s + at * w for s, w in zip(start, unit, strict=True)))
            assert any(one.enter < at < one.leave for one in found) == there


@pytest.mark.parametrize("number", range(16))
def test_the_pieces_of_a_part_fill_just_its_material(number: int) -> None:
    """An arc may be off by 0.01 mm; the points along the outline are traced as finely."""
    solid, points = parts(12, 16)[number]
    pieces, lot = pieces_of(solid), random.Random(number)
    assert all(isinstance(piece, Slab) for piece in pieces)
    for _ in range(60):
        x, y, z = lot.uniform(-2, solid.length + 2), lot.uniform(-2, solid.width + 2), lot.uniform(-1, 13)
        if min(math.dist(point, (x, y)) for point in points) < 1.0:
            continue  # the traced points stand apart by up to 1.4
        inside = any(outside_by(piece, (x, y, z)) < 0 for piece in pieces)
        assert inside == in_material(solid, points, x, y, z)


def test_an_axis_through_the_top_outside_the_outline_does_not_meet_the_part() -> None:
    body = Body("P01", PLATE, Pose())
    placed = placements([body])

    def thick(x: float, y: float) -> list[float]:
        return [one.thickness for one in layers_along((x, y, 20), (0, 0, -1), [body], placed)]

    # (75, 35) is hypot(15, 15) = 21.2 from the middle of the round end, (74, 34) is 19.8.
    assert thick(75, 35) == []
    assert thick(74, 34) == [6.0]


def test_an_axis_from_a_side_meets_the_part_where_its_outline_is() -> None:
    """From the right at y = 8: 12 beside the middle, where a circle of 20 reaches sqrt(400 - 144) = 16 out."""
    body = Body("P01", PLATE, Pose())
    placed = placements([body])
    axis = axis_from("P01", "right", 8, 3, [body], placed)
    (layer,) = layers_along(*axis, [body], placed)
    assert (layer.enter, layer.leave) == pytest.approx((4.0, 80.0))
    assert (layer.face_in, layer.u_in, layer.v_in) == ("right", 8.0, 3.0)
    assert (layer.face_out, layer.oblique) == ("left", True)
    marks = hole_in_layer(*axis, layer, body, placed["P01"])
    assert (marks.entry.face, marks.entry.u, marks.entry.v, marks.entry.below) == pytest.approx(
        ("right", 8.0, 3.0, 4.0)
    )


def test_an_axis_can_leave_a_part_and_come_in_again() -> None:
    """A yoke: two prongs 20 wide, 10 apart from the back, which a hole from the front goes through both of."""
    corners = ((0, 0), (50, 0), (50, 20), (15, 20), (15, 30), (50, 30), (50, 50), (0, 50))
    yoke = Solid("block", 50, 50, 10, outline=tuple(Vertex(x, y) for x, y in corners))
    found = chords(yoke, (35, 0, 5), (0, 1, 0))
    assert [(one.enter, one.leave) for one in found] == [(0, 20), (30, 50)]
    assert [(one.surface_in.of, one.surface_out.of) for one in found] == [
        ("blank", "outline"), ("outline", "blank"),
    ]  # fmt: skip
    cut = cut_of(yoke, Bored("front", 35, 5, 6))
    assert cut is not None
    assert (cut.enter, cut.leave) == (0, 50)


def test_a_hole_from_a_round_end_is_drilled_from_the_outline_in_with_its_whole_circle() -> None:
    cut = cut_of(PLATE, Bored("right", 8, 3, 4, depth=10))
    assert cut is not None
    assert cut.enter == pytest.approx(4.0)
    assert cut.leave == pytest.approx(14.0)
    # Its upper side, at y = 10, meets the arc at 60 + sqrt(400 - 100) = 77.32: 2.68 below the block's end.
    assert cut.bore.rings[0][0] <= 80 - 77.32


@pytest.mark.parametrize(
    ("face", "u", "v", "least", "end", "edge"),
    [
        ("top", 72, 11, 5.0, 5.0, None),  # 20 - hypot(12, 9); the arc stands steeper than 45 degrees there
        ("bottom", 72, 29, 5.0, 5.0, None),  # the same point from below: v is counted from the back
        ("top", 66, 12, 10.0, None, 10.0),  # 20 - hypot(6, 8), on the flatter half of the arc
        ("top", 30, 12, 12.0, 30.0, 12.0),
        ("top", 5, 20, 5.0, 5.0, 20.0),
        ("top", 78, 2, -(math.hypot(18, 18) - 20), None, None),
        ("front", 78, 2, 2.0, 2.0, 2.0),  # the other faces keep the block's edges
    ],
)
def test_distances_go_to_the_outline(face, u, v, least, end, edge) -> None:
    found = edge_distances(PLATE, face, u, v)
    assert found.least_mm == pytest.approx(least)
    assert end is None or found.to_end_mm == pytest.approx(end)
    assert edge is None or found.to_edge_mm == pytest.approx(edge)
    assert on_face(PLATE, face, u, v) == (least >= 0)


def test_an_outline_of_a_rectangle_is_as_the_block() -> None:
    block = Solid("block", 80, 40, 6)
    same = Solid("block", 80, 40, 6, outline=rectangle(0, 0, 80, 40))
    lot = random.Random(3)
    for _ in range(60):
        u, v = lot.uniform(0, 80), lot.uniform(0, 40)
        ours, theirs = edge_distances(same, "top", u, v), edge_distances(block, "top", u, v)
        assert (ours.least_mm, ours.to_end_mm, ours.to_edge_mm) == pytest.approx(
            (theirs.least_mm, theirs.to_end_mm, theirs.to_edge_mm)
        )
        start, way = (u, v, 3.0), (math.cos(u), math.sin(u), 0.0)
        assert [(one.enter, one.leave) for one in chords(same, start, way)] == [
            pytest.approx((one.enter, one.leave)) for one in chords(block, start, way)
        ]


def test_what_lies_in_the_step_of_a_part_clashes_with_nothing() -> None:
    stop = Solid("block", 40, 50, 10)
    beside = Transform(shift=(50, 40, 0))
    assert clash_of(mass_of(STEP), mass_of(stop, transform=beside), 0.05) is None
    into = Transform(shift=(49, 40, 0))
    found = clash_of(mass_of(STEP), mass_of(stop, transform=into), 0.05)
    assert found is not None
    assert found.depth == pytest.approx(1.0)


@pytest.mark.parametrize("off", [-0.5, -0.05, 0.05, 0.5])
def test_a_disc_beside_a_shaft_or_in_it(off: float) -> None:
    """A disc of radius 20 and another of 10, sawn out of plates, `off` apart."""
    disc = Solid("block", 40, 40, 8, outline=circle(20, 20, 40))
    other = Solid("block", 20, 20, 8, outline=circle(10, 10, 20))
    shift = 30 + off
    at = (20 + shift * math.cos(0.7) - 10, 20 + shift * math.sin(0.7) - 10, 0)
    found = clash_of(mass_of(disc), mass_of(other, transform=Transform(shift=at)), 0.02)
    if off > 0:
        assert found is None
    else:
        assert found is not None
        assert found.depth == pytest.approx(-off, abs=0.021)  # two arcs, each followed to 0.01


def test_slabs_reach_as_far_as_their_corners() -> None:
    slab = Slab((0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0, 1), ((0, 0), (4, 0), (0, 3)), 2)
    assert support(slab, (1, 1, -1)) == (4, 0, 0)
    assert box_of(slab) == ((0, 0, 0), (4, 3, 2))
    assert beyond_plane(slab, (0, 0, 0), (0.6, 0.8, 0)) == pytest.approx(2.4)
    assert outside_by(slab, (1, 1, 1)) == pytest.approx(-1.0)  # 3 x + 4 y = 12 is 5 / 5 off
