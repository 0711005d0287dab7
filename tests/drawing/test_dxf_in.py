"""DXF read in: files written by ezdxf, a general library, whose geometry is known from how they were made."""

from __future__ import annotations

import io
import math
from collections.abc import Callable
from typing import Any

import pytest

from calculators.drawing.dxf_in import read_dxf
from calculators.drawing.dxf_out import dxf_of
from calculators.drawing.flat_drawing import FlatDrawing, from_plain, to_plain
from calculators.geometry.outlines import Vertex, arc_of, area
from tests.drawing.random_faces import random_face

Draw = Callable[[Any, Any], None]


def drawn(draw: Draw, *, version: str = "R2010", units: int = 4) -> FlatDrawing:
    """What is read of a drawing that ezdxf wrote."""
    import ezdxf

    document = ezdxf.new(version, units=units)  # type: ignore[attr-defined]
    draw(document, document.modelspace())
    stream = io.StringIO()
    document.write(stream)
    return read_dxf(io.BytesIO(stream.getvalue().encode(document.output_encoding, "dxfreplace")))


@pytest.mark.parametrize("version", ["R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"])
def test_every_version_of_the_format_is_read(version: str) -> None:
    def draw(document: Any, space: Any) -> None:
        document.layers.add("Größe 1")
        space.add_circle((12.5, -3), 4.25, dxfattribs={"layer": "Größe 1"})
        space.add_line((0, 0), (10, 5))
        space.add_polyline2d([(0, 0, 1), (20, 0, 0)], format="xyb", close=True)

    read = drawn(draw, version=version)
    (circle,) = read.circles
    assert (circle.x, circle.y, circle.radius) == (12.5, -3.0, 4.25)
    assert circle.layer == "Größe 1"
    line, ring = read.paths
    assert line.vertices == (Vertex(0, 0), Vertex(10, 5))
    assert ring.closed
    assert area(ring.vertices) == pytest.approx(math.pi * 50)  # half a disc of radius 10
    assert read.left == ()


@pytest.mark.parametrize(
    ("units", "unit"), [(1, "in"), (2, "ft"), (4, "mm"), (5, "cm"), (6, "m"), (0, ""), (3, "")]
)
def test_the_unit_is_that_of_the_file_or_asked(units: int, unit: str) -> None:
    assert drawn(lambda _, space: space.add_circle((1, 1), 1), units=units).unit == unit


@pytest.mark.parametrize(("first", "last"), [(0, 90), (350, 20), (90, 45), (180, 360)])
def test_an_arc_keeps_its_centre_and_radius(first: float, last: float) -> None:
    read = drawn(lambda _, space: space.add_arc((5, 7), 12, first, last))
    one, to = read.paths[0].vertices
    arc = arc_of(one, to)
    assert arc is not None
    assert arc.centre == pytest.approx((5, 7), abs=1e-9)
    assert arc.radius == pytest.approx(12)
    assert arc.turn_deg == pytest.approx((last - first) % 360)


def test_what_is_drawn_from_behind_is_turned_over() -> None:
    """The arbitrary axis of a plane that looks down has x to the left (the format's rule, as ezdxf's OCS has it)."""
    from ezdxf.math import OCS

    def draw(_: Any, space: Any) -> None:
        down = {"extrusion": (0, 0, -1)}
        space.add_circle((10, 4), 2, dxfattribs=down)
        space.add_arc((10, 4), 6, 0, 90, dxfattribs=down)
        space.add_lwpolyline([(0, 0, 0.5), (8, 0, 0)], format="xyb", dxfattribs=down)

    read = drawn(draw)
    ocs = OCS((0, 0, -1))
    centre = ocs.to_wcs((10, 4, 0))
    assert (read.circles[0].x, read.circles[0].y) == (centre.x, centre.y)
    start = ocs.to_wcs((16, 4, 0))
    one, to = read.paths[0].vertices
    assert (one.x, one.y) == pytest.approx((start.x, start.y))
    arc = arc_of(one, to)
    assert arc is not None
    assert arc.centre == pytest.approx((centre.x, centre.y))
    assert arc.turn_deg == pytest.approx(-90)
    assert read.paths[1].vertices == (Vertex(0, 0, -0.5), Vertex(-8, 0))


@pytest.mark.parametrize("units", [1, 4])
def test_an_ellipse_is_laid_out_within_a_hundredth_of_a_millimetre(units: int) -> None:
    read = drawn(lambda _, space: space.add_ellipse((3, 4), (0, 20), 0.4), units=units)
    (path,) = read.paths
    off = 0.01 / (25.4 if units == 1 else 1.0)
    assert path.closed
    assert path.curve == "ellipse"
    points = [(one.x, one.y) for one in path.vertices]
    for (x, y), (to_x, to_y) in zip(points, (*points[1:], points[0]), strict=True):
        assert ((x - 3) / 8) ** 2 + ((y - 4) / 20) ** 2 == pytest.approx(1, abs=1e-9)
        middle = ((x + to_x) / 2 - 3, (y + to_y) / 2 - 4)
        assert _to_ellipse(*middle, 8, 20) <= off


def _to_ellipse(x: float, y: float, a: float, b: float) -> float:
    """How far a point is from an ellipse about the origin, by looking along it ever more finely."""
    low, high = 0.0, 2 * math.pi
    for _ in range(12):
        step = (high - low) / 60
        best = min(
            (low + i * step for i in range(61)),
            key=lambda t: math.dist((x, y), (a * math.cos(t), b * math.sin(t))),
        )
        low, high = best - step, best + step
    return math.dist((x, y), (a * math.cos(best), b * math.sin(best)))


def test_a_round_ellipse_is_a_circle() -> None:
    read = drawn(lambda _, space: space.add_ellipse((3, 4), (5, 0), 1.0))
    assert [(one.x, one.y, one.radius) for one in read.circles] == [(3, 4, 5)]


@pytest.mark.parametrize("degree", [2, 3, 5])
def test_a_spline_is_followed_as_the_library_follows_it(degree: int) -> None:
    from ezdxf.math import BSpline

    controls = [(0, 0), (10, 25), (30, -20), (45, 30), (60, 0), (70, 10)]

    def draw(_: Any, space: Any) -> None:
        spline = space.add_open_spline(controls, degree=degree)
        spline.dxf.layer = "S"

    (path,) = drawn(draw).paths
    curve = BSpline([(*each, 0) for each in controls], order=degree + 1)
    for at in range(400):
        x, y, _ = curve.point(curve.max_t * at / 399)
        away = min(_to_line(x, y, one, to) for one, to in zip(path.vertices, path.vertices[1:], strict=False))
        assert away <= 0.01
    assert path.curve == "spline"


def test_a_weighted_spline_can_be_a_true_quarter_circle() -> None:
    """Degree 2, weights 1, 1/√2, 1 on the corner of a square: a quarter circle (textbook, from memory)."""

    def draw(_: Any, space: Any) -> None:
        space.add_rational_spline([(10, 0), (10, 10), (0, 10)], weights=[1, math.sqrt(0.5), 1], degree=2)

    (path,) = drawn(draw).paths
    assert {round(math.hypot(one.x, one.y), 9) for one in path.vertices} == {10.0}
    assert len(path.vertices) > 10


def _to_line(x: float, y: float, one: Vertex, to: Vertex) -> float:
    dx, dy = to.x - one.x, to.y - one.y
    share = max(0.0, min(1.0, ((x - one.x) * dx + (y - one.y) * dy) / (dx * dx + dy * dy)))
    return math.dist((x, y), (one.x + share * dx, one.y + share * dy))


def test_blocks_are_put_in_turned_scaled_and_nested_as_the_library_puts_them_in() -> None:
    def draw(document: Any, space: Any) -> None:
        inner = document.blocks.new("inner", base_point=(1, 0))
        inner.add_circle((3, 0), 2)
        inner.add_arc((0, 0), 4, 0, 120)
        outer = document.blocks.new("outer", base_point=(0, 2))
        outer.add_blockref(
            "INNER", (10, 0), dxfattribs={"rotation": 30, "xscale": 2, "yscale": 2, "zscale": 2}
        )
        outer.add_lwpolyline([(0, 0, 0), (6, 0, 0.3), (6, 5, 0)], format="xyb", close=True)
        space.add_blockref(
            "outer",
            (100, 50),
            dxfattribs={"rotation": -75, "xscale": -1.5, "yscale": 1.5, "zscale": 1.5, "layer": "Set"},
        )

    import ezdxf

    document = ezdxf.new("R2010", units=4)  # type: ignore[attr-defined]
    draw(document, document.modelspace())
    (insert,) = document.modelspace().query("INSERT")
    wanted = [deep for one in insert.virtual_entities() for deep in (one.virtual_entities() if one.dxftype() == "INSERT" else [one])]  # fmt: skip
    read = drawn(draw)
    assert {one.layer for one in (*read.circles, *read.paths)} == {"Set"}
    (circle,) = (one for one in wanted if one.dxftype() == "CIRCLE")
    centre = circle.ocs().to_wcs(circle.dxf.center)
    (mine,) = read.circles
    assert (mine.x, mine.y) == pytest.approx((centre.x, centre.y), abs=1e-9)
    assert mine.radius == pytest.approx(6.0)
    (arc,) = (one for one in wanted if one.dxftype() == "ARC")
    got = next(one for one in read.paths if not one.closed)
    ends = {(round(end.x, 6), round(end.y, 6)) for end in (arc.start_point, arc.end_point)}
    assert {(round(one.x, 6), round(one.y, 6)) for one in got.vertices} == ends
    (ring,) = (one for one in wanted if one.dxftype() == "LWPOLYLINE")
    corners = {(round(v.x, 6), round(v.y, 6)) for v in ring.vertices_in_wcs()}
    closed = next(one for one in read.paths if one.closed)
    assert {(round(one.x, 6), round(one.y, 6)) for one in closed.vertices} == corners
    assert abs(area(closed.vertices)) == pytest.approx(1.5**2 * (15 + _segment(5, 0.3)))


def _segment(chord: float, bulge: float) -> float:
    """The area between a chord and its arc."""
    angle = 4 * math.atan(bulge)
    radius = chord / 2 / math.sin(angle / 2)
    return radius**2 / 2 * (angle - math.sin(angle))


def test_a_block_in_rows_and_columns_is_put_in_at_every_place() -> None:
    def draw(document: Any, space: Any) -> None:
        document.blocks.new("hole").add_circle((0, 0), 2)
        grid = {"column_count": 3, "row_count": 2, "column_spacing": 25, "row_spacing": 15, "rotation": 90}
        space.add_blockref("hole", (10, 10), dxfattribs=grid)

    places = sorted((round(one.x, 6), round(one.y, 6)) for one in drawn(draw).circles)
    assert places == sorted((10.0 - 15 * row, 10.0 + 25 * column) for row in range(2) for column in range(3))


def test_a_circle_stretched_by_its_block_is_an_ellipse_and_said_so() -> None:
    def draw(document: Any, space: Any) -> None:
        document.blocks.new("hole").add_circle((0, 0), 5)
        space.add_blockref("hole", (0, 0), dxfattribs={"xscale": 2, "yscale": 1})

    read = drawn(draw)
    assert read.circles == ()
    assert read.paths[0].curve == "ellipse"
    assert area(read.paths[0].vertices) == pytest.approx(math.pi * 10 * 5, rel=2e-3)


def test_layers_that_are_off_or_frozen_are_named() -> None:
    def draw(document: Any, space: Any) -> None:
        document.layers.add("off").off()
        document.layers.add("frozen").freeze()
        for layer in ("off", "frozen", "on"):
            space.add_circle((0, 0), 1, dxfattribs={"layer": layer})

    assert sorted(drawn(draw).hidden) == ["frozen", "off"]


def test_nothing_is_dropped_without_a_line() -> None:
    def draw(document: Any, space: Any) -> None:
        space.add_text("A", dxfattribs={"layer": "T", "insert": (4, 5)})
        space.add_mtext("B", dxfattribs={"insert": (6, 7)})
        space.add_hatch().paths.add_polyline_path([(0, 0), (1, 0), (1, 1)])
        space.add_line((0, 0, 0), (5, 5, 9))
        space.add_circle((0, 0), 3, dxfattribs={"extrusion": (0, 1, 1)})
        space.add_polyline3d([(0, 0, 0), (1, 1, 5), (4, 4, 2)])
        space.add_3dface([(0, 0), (1, 0), (1, 1), (0, 1)])
        space.add_circle((9, 9), 1, dxfattribs={"invisible": 1})
        space.add_spline([(0, 0), (5, 5), (9, 0)])
        document.paperspace().add_circle((0, 0), 1)
        space.add_blockref("missing", (1, 2))

    read = drawn(draw)
    assert (read.circles, read.paths, read.points) == ((), (), ())
    assert sorted((one.what, one.why) for one in read.left) == [
        ("3DFACE", "is of a kind that no hole or outline is made from"),
        ("CIRCLE", "is hidden in the drawing"),
        ("CIRCLE", "lies in a plane aslant to the drawing"),
        ("CIRCLE", "lies on a sheet for printing, not in the drawing"),
        ("HATCH", "is hatching; draw the line about it"),
        ("INSERT", "puts in a block that the file does not have"),
        ("LINE", "is a line in space, not in a plane"),
        ("MTEXT", "is writing, which makes no hole"),
        ("POLYLINE", "is a polyline or a mesh in space, not in a plane"),
        ("SPLINE", "is a spline that states only the points that it goes through"),
        ("TEXT", "is writing, which makes no hole"),
    ]
    text = next(one for one in read.left if one.what == "TEXT")
    assert (text.layer, text.x, text.y) == ("T", 4.0, 5.0)


@pytest.mark.parametrize("seed", range(20))
def test_a_file_of_this_project_is_read_again_as_it_was_drawn(seed: int) -> None:
    face = random_face(seed)
    read = read_dxf(io.BytesIO(dxf_of([face])))
    round_holes = {(round(h.u_mm, 6), round(h.v_mm, 6)) for h in face.holes if not h.slot_length_mm}
    assert {(round(one.x, 6), round(one.y, 6)) for one in read.circles} == round_holes
    outline = next(one for one in read.paths if one.layer == "OUTLINE")
    assert outline.closed
    assert len(outline.vertices) == len(face.outline)
    for one, was in zip(outline.vertices, face.outline, strict=True):
        assert (one.x, one.y, one.bulge) == pytest.approx((was.x, was.y, was.bulge), abs=1e-9)


def test_what_was_read_can_be_carried_as_plain_lists() -> None:
    read = read_dxf(io.BytesIO(dxf_of([random_face(5)])))
    assert from_plain(to_plain(read)) == read
    twice = read.scaled(2.0)
    assert twice.circles[0].radius == 2 * read.circles[0].radius
    assert {one.why for one in twice.left} == {one.why for one in read.left}
