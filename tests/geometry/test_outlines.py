"""Outlines of lines and arcs against points traced along them, and against closed forms of geometry."""

from __future__ import annotations

import math
import random
from itertools import pairwise

import pytest

from calculators.geometry.outline_faults import crossing_of
from calculators.geometry.outline_lines import (
    clear_of,
    holds_rectangle,
    off_rectangle,
    stretches_inside,
    to_ends_and_edges,
)
from calculators.geometry.outline_pieces import beyond_line, convex_polygons
from calculators.geometry.outlines import (
    Outline,
    Vertex,
    arc_of,
    area,
    bounds,
    circle,
    flat_points,
    is_inside,
    pieces,
    rectangle,
    to_outline,
    turned_over,
)
from tests.geometry.random_outlines import nearest, outlines, shoelace, traced, winding

MANY = list(outlines(seed=6, count=30))
LONG_ARC: Outline = (Vertex(0, 0, math.tan(math.radians(270) / 4)), Vertex(10, 10))
"""Three quarters of a circle of radius 10 about (0, 10) or (10, 0), closed by its chord."""

STADIUM: Outline = (Vertex(10, 0), Vertex(90, 0, 1.0), Vertex(90, 20), Vertex(10, 20, 1.0))
HOLLOW: Outline = (Vertex(0, 0), Vertex(40, 0), Vertex(40, 30, -1.0), Vertex(0, 30))
"""A plate 40 x 30 with half a circle of radius 20 taken out of its upper side."""


@pytest.mark.parametrize(
    ("outline", "wanted"),
    [
        (rectangle(3, 4, 50, 20), 1000.0),
        (rectangle(0, 0, 50, 20, 6), 1000 - (4 - math.pi) * 36),
        (circle(7, -3, 30), math.pi * 225),
        (STADIUM, 80 * 20 + math.pi * 100),
        (HOLLOW, 1200 - math.pi * 200),
        (LONG_ARC, math.pi * 100 * 3 / 4 + 50),
    ],
)
def test_areas_are_those_of_geometry(outline: Outline, wanted: float) -> None:
    assert area(outline) == pytest.approx(wanted, rel=1e-12)


@pytest.mark.parametrize("outline", MANY)
def test_areas_and_bounds_are_those_of_the_points_along_it(outline: Outline) -> None:
    points = traced(outline)
    assert area(outline) == pytest.approx(shoelace(points), rel=1e-5)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    # Between two of 400 points an arc of radius 100 rises by less than 0.0002.
    assert bounds(outline) == pytest.approx((min(xs), min(ys), max(xs), max(ys)), abs=1e-3)


@pytest.mark.parametrize("outline", [*MANY, LONG_ARC, STADIUM])
def test_inside_and_distance_are_those_of_the_points_along_it(outline: Outline) -> None:
    points, lot = traced(outline), random.Random(1)
    low_x, low_y, high_x, high_y = bounds(outline)
    for _ in range(12):
        x, y = lot.uniform(low_x - 5, high_x + 5), lot.uniform(low_y - 5, high_y + 5)
        far = nearest(points, x, y)
        if far < 0.05:
            continue
        assert is_inside(outline, x, y) == (winding(points, x, y) == 1)
        # The traced points stand up to 0.2 apart: the nearest is at most that much too far along.
        assert abs(to_outline(outline, x, y)) == pytest.approx(far, abs=0.02 + 0.02 / far)
        assert (to_outline(outline, x, y) > 0) == is_inside(outline, x, y)


@pytest.mark.parametrize("outline", [*MANY[:20], LONG_ARC, STADIUM, HOLLOW])
@pytest.mark.parametrize("off", [0.001, 0.05, 0.5])
def test_flat_points_are_no_farther_off_than_they_may(outline: Outline, off: float) -> None:
    flat = flat_points(outline, off)
    for point in flat:
        assert abs(to_outline(outline, *point)) < 1e-9
    for (ax, ay), (bx, by) in pairwise(flat):
        assert abs(to_outline(outline, (ax + bx) / 2, (ay + by) / 2)) <= off + 1e-9


@pytest.mark.parametrize("outline", MANY[:20])
def test_arcs_lie_about_their_centres(outline: Outline) -> None:
    points = traced(outline, 10)
    for index, (one, to) in enumerate(pieces(outline)):
        arc = arc_of(one, to)
        assert (arc is None) == (one.bulge == 0)
        for point in points[index * 10 : index * 10 + 10] if arc else ():
            assert math.dist(point, arc.centre) == pytest.approx(arc.radius)


@pytest.mark.parametrize("outline", [*MANY[:20], STADIUM])
def test_an_outline_turned_over_twice_is_as_it_was(outline: Outline) -> None:
    over = turned_over(outline, 70.0)
    assert area(over) == pytest.approx(area(outline))
    assert sorted((one.x, round(70 - one.y, 9)) for one in over) == sorted(
        (one.x, round(one.y, 9)) for one in outline
    )
    again = turned_over(over, 70.0)
    # The same corners in the same order, begun at another.
    shift = min(
        range(len(again)), key=lambda i: math.dist((again[i].x, again[i].y), (outline[0].x, outline[0].y))
    )
    for one, other in zip(outline, (*again[shift:], *again[:shift]), strict=True):
        assert (one.x, one.y, one.bulge) == pytest.approx((other.x, other.y, other.bulge))


@pytest.mark.parametrize("outline", [*MANY, STADIUM, HOLLOW])
def test_convex_polygons_cover_just_the_outline(outline: Outline) -> None:
    """Every point inside, farther than an arc's 0.01 mm from it, lies in a polygon, and none outside does."""
    polygons = convex_polygons(outline)
    for polygon in polygons:
        sides = list(zip(polygon, (*polygon[1:], polygon[0]), strict=True))
        for (a, b), (_, c) in zip(sides, (*sides[1:], sides[0]), strict=True):
            assert (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) > -1e-9
    lot = random.Random(2)
    for _ in range(60):
        x, y = lot.uniform(0, 100), lot.uniform(0, 100)
        far = to_outline(outline, x, y)
        if abs(far) > 0.0101:
            assert any(_in_polygon(polygon, x, y) for polygon in polygons) == (far > 0)


def _in_polygon(polygon: tuple[tuple[float, float], ...], x: float, y: float) -> bool:
    return all(
        (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]) >= -1e-9
        for a, b in zip(polygon, (*polygon[1:], polygon[0]), strict=True)
    )


def test_a_convex_outline_is_one_polygon_and_a_step_two() -> None:
    assert len(convex_polygons(circle(0, 0, 40))) == len(convex_polygons(STADIUM)) == 1
    step = tuple(Vertex(x, y) for x, y in ((0, 0), (90, 0), (90, 40), (50, 40), (50, 90), (0, 90)))
    assert set(convex_polygons(step)) == {
        ((0, 0), (50, 0), (50, 90), (0, 90)),
        ((0, 0), (90, 0), (90, 40), (0, 40)),
    }


@pytest.mark.parametrize("outline", MANY)
def test_what_is_well_inside_is_well_inside_a_polygon(outline: Outline) -> None:
    """The polygons overlap at their seams: a part deep in another is not lost between two slivers."""
    polygons, lot = convex_polygons(outline), random.Random(3)
    for _ in range(30):
        x, y = lot.uniform(0, 100), lot.uniform(0, 100)
        far = to_outline(outline, x, y)
        if far > 1.0:
            assert max(_depth(polygon, x, y) for polygon in polygons) > 0.1 * far


def _depth(polygon: tuple[tuple[float, float], ...], x: float, y: float) -> float:
    return min(
        ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / math.dist(a, b)
        for a, b in zip(polygon, (*polygon[1:], polygon[0]), strict=True)
    )


def test_what_is_beyond_a_line_has_the_rest_of_the_area() -> None:
    lot = random.Random(4)
    for outline in MANY[:20]:
        for polygon in convex_polygons(outline):
            a = math.radians(lot.uniform(0, 360))
            way, limit = (math.cos(a), math.sin(a)), lot.uniform(-60, 60)
            kept, cut = beyond_line(polygon, way, limit), beyond_line(polygon, (-way[0], -way[1]), -limit)
            both = sum(shoelace(list(part)) for part in (kept, cut) if part)
            assert both == pytest.approx(shoelace(list(polygon)), abs=1e-6)


@pytest.mark.parametrize("outline", [*MANY, LONG_ARC, STADIUM, HOLLOW])
def test_a_line_runs_inside_just_where_its_points_do(outline: Outline) -> None:
    lot = random.Random(5)
    low_x, low_y, high_x, high_y = bounds(outline)
    for _ in range(4):
        start = (lot.uniform(low_x, high_x), lot.uniform(low_y, high_y))
        a = math.radians(lot.choice([0, 90, lot.uniform(0, 360)]))
        way = (0.5 * math.cos(a), 0.5 * math.sin(a))
        found = stretches_inside(outline, start, way)
        for low, high in found:
            for at in (low, high):
                assert abs(to_outline(outline, start[0] + at * way[0], start[1] + at * way[1])) < 1e-6
        for i in range(40):
            at = -240 + 12 * i + lot.uniform(0, 12)
            x, y = start[0] + at * way[0], start[1] + at * way[1]
            if abs(to_outline(outline, x, y)) > 1e-5:
                assert any(low < at < high for low, high in found) == is_inside(outline, x, y)


def test_a_line_along_an_edge_or_that_only_touches_is_in_no_material() -> None:
    assert stretches_inside(rectangle(0, 0, 40, 20), (-5, 20), (1, 0)) == []
    assert stretches_inside(circle(0, 0, 40), (-50, 20), (1, 0)) == []
    step = tuple(Vertex(x, y) for x, y in ((0, 0), (90, 0), (90, 40), (50, 40), (50, 90), (0, 90)))
    assert stretches_inside(step, (-10, 40), (1, 0)) == [(10.0, 60.0)]
    assert stretches_inside(rectangle(0, 0, 40, 20), (5, 5), (0, 0)) == [(-math.inf, math.inf)]
    assert stretches_inside(rectangle(0, 0, 40, 20), (45, 5), (0, 0)) == []


@pytest.mark.parametrize("outline", [*MANY[:30], HOLLOW])
def test_a_stretch_stays_clear_by_the_least_distance_of_its_points(outline: Outline) -> None:
    lot = random.Random(7)
    for _ in range(5):
        start, end = ((lot.uniform(0, 100), lot.uniform(0, 100)) for _ in (0, 1))
        sampled = min(
            abs(to_outline(outline, start[0] + t * (end[0] - start[0]), start[1] + t * (end[1] - start[1])))
            for t in (i / 200 for i in range(201))
        )
        # From one of the 201 points to the next it is less than 0.71.
        assert sampled - 0.36 < clear_of(outline, start, end) <= sampled + 1e-9


def test_what_a_stretch_passes_is_left_out_of_account() -> None:
    """Along y = 8 in a plate 40 x 20 with a round right end about (30, 10): its left side and its round end
    are passed, its lower edge is 8 off and its upper one 12."""
    plate = (Vertex(0, 0), Vertex(30, 0, 1.0), Vertex(30, 20), Vertex(0, 20))
    assert clear_of(plate, (2, 8), (28, 8)) == 2.0
    assert clear_of(plate, (2, 8), (28, 8), ((-90, 8), (90, 8))) == 8.0
    assert clear_of(plate, (20, 8), (38, 8)) == pytest.approx(10 - math.hypot(8, 2))


def test_ends_and_edges_of_a_rounded_plate() -> None:
    """A corner of radius 10 belongs half to the end, half to the edge: on its 45 degrees both are as near."""
    plate = rectangle(0, 0, 100, 40, 10)
    assert to_ends_and_edges(plate, 80, 18) == (20.0, 18.0)
    assert to_ends_and_edges(plate, 50, 12)[1] == 12.0
    end, edge = to_ends_and_edges(plate, 95, 35)
    assert end == pytest.approx(edge) == pytest.approx(10 - math.hypot(5, 5))
    # From (93, 31) the arc about (90, 30) is nearest towards the end; the edge's half of it begins at 45
    # degrees, at (90 + 7.0711, 30 + 7.0711).
    end, edge = to_ends_and_edges(plate, 93, 31)
    assert end == pytest.approx(10 - math.hypot(3, 1))
    assert edge == pytest.approx(math.hypot(4.0710678, 6.0710678))
    assert to_ends_and_edges(plate, 103, 20)[0] == -3.0
    assert to_ends_and_edges((Vertex(0, 0), Vertex(10, -10), Vertex(20, 0), Vertex(10, 10)), 10, 0)[0] is None


@pytest.mark.parametrize(
    ("low", "high", "off", "held"),
    [
        ((22, 4), (30, 16), 0.0, True),
        ((92, 0.5), (99, 19.5), 0.0, False),  # its right corners stand outside the round end
        ((103, 8), (110, 12), 3.0, False),
        ((-20, -20), (120, 40), 0.0, False),  # the plate lies in it
        ((98, 30), (110, 40), math.hypot(8, 20) - 10, False),
    ],
)
def test_rectangles_in_a_plate_with_round_ends(low, high, off: float, held: bool) -> None:
    assert off_rectangle(STADIUM, low, high) == pytest.approx(off)
    assert holds_rectangle(STADIUM, low, high) is held


@pytest.mark.parametrize(
    "outline", [*MANY, STADIUM, HOLLOW, LONG_ARC, rectangle(0, 0, 40, 20, 6), circle(0, 0, 9)]
)
def test_an_outline_that_goes_round_once_crosses_nowhere(outline: Outline) -> None:
    assert crossing_of(outline) is None


def test_a_rounded_corner_written_to_the_ten_thousandth_crosses_nowhere() -> None:
    for radius in (0.5, 3.0, 80.0, 1500.0):
        corners = rectangle(0, 0, 4000, 3500, radius)
        rounded = tuple(Vertex(round(one.x, 4), round(one.y, 4), one.bulge) for one in corners)
        assert crossing_of(rounded) is None


CROSSING = {
    "two lines": (((0, 0, 0), (10, 10, 0), (10, 0, 0), (0, 10, 0)), (5, 5)),
    "back over itself": (((0, 0, 0), (10, 0, 0), (4, 0, 0), (4, 8, 0)), (10, 0)),
    "a corner on a side": (((0, 0, 0), (10, 0, 0), (10, 10, 0), (5, 0, 0), (0, 10, 0)), (5, 0)),
    # Half a circle of radius 5 that hangs from (0, 8) to (10, 8) reaches down to y = 3; the side stands at 4.
    "an arc through a side": (((0, 0, 0), (10, 0, 0), (10, 8, -1), (0, 8, 0), (-2, 4, 0), (12, 4, 0)), None),
    "an arc that touches a side": (((0, 0, 0), (20, 0, 0), (20, 10, -1), (0, 10, 0)), (10, 0)),
    "two arcs": (((0, 0, 0), (20, 0, -1), (20, 12, 0), (0, 12, -1)), None),
}


@pytest.mark.parametrize("name", CROSSING)
def test_an_outline_that_crosses_or_touches_itself_says_where(name: str) -> None:
    corners, where = CROSSING[name]
    found = crossing_of(tuple(Vertex(*corner) for corner in corners))
    if name == "two arcs":  # half circles of radius 6, each 6 deep in a plate 20 long: they are apart
        assert found is None
        return
    assert found is not None
    if where is not None:
        assert found == pytest.approx(where, abs=1e-6)


def test_random_polygons_cross_where_two_of_their_sides_do() -> None:
    """Each pair of sides by the signs of four triangles."""
    lot, crossing = random.Random(8), 0
    for _ in range(300):
        points = [(lot.uniform(0, 9), lot.uniform(0, 9)) for _ in range(lot.randint(4, 7))]
        outline = tuple(Vertex(x, y) for x, y in points)
        sides = list(zip(points, [*points[1:], points[0]], strict=True))
        wanted = any(
            _signs(a, b, c, d)
            for i, (a, b) in enumerate(sides)
            for j, (c, d) in enumerate(sides)
            if i < j and not {a, b} & {c, d}
        )
        assert (crossing_of(outline) is not None) == wanted
        crossing += wanted
    assert 50 < crossing < 280


def _signs(a, b, c, d) -> bool:
    def turn(p, q, r) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return turn(a, b, c) * turn(a, b, d) < 0 and turn(c, d, a) * turn(c, d, b) < 0


def test_two_thousand_corners_are_looked_through_soon() -> None:
    """Pairs whose boxes are apart are not looked at: a wheel of 2,000 corners in a fraction of a second."""
    corners = [(math.cos(i * math.pi / 1000), math.sin(i * math.pi / 1000)) for i in range(2000)]
    wheel = tuple(Vertex((100 + i % 2) * x, (100 + i % 2) * y) for i, (x, y) in enumerate(corners))
    assert crossing_of(wheel) is None
