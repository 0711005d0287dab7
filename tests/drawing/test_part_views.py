"""A part drawing's geometry read back from its SVG, against projections that are made here by themselves.

The arrangement of views: ISO 5456-2 (from memory): in first angle the view from above lies below the front and
the view from the left to its right; in third angle above it and to its left.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from calculators.drawing.face_shape import FaceShape, HoleShape, PocketShape
from calculators.drawing.part_body import placed_corners
from calculators.drawing.part_shape import Fold, PartShape
from calculators.drawing.part_sheet import PartDrawing, draw_part
from calculators.geometry.model import Pocket, Solid
from calculators.geometry.outlines import Vertex, rectangle
from tests.drawing.part_parts import random_part
from tests.drawing.part_read import lines_of, tree_of, words_of

_SVG = "{http://www.w3.org/2000/svg}"
L, W, T = 120.0, 60.0, 20.0
Point3 = tuple[float, float, float]

_SEEN: dict[str, Callable[[float, float, float, Solid], tuple[float, float]]] = {
    # Right and down on the sheet from the view's upper left corner, of a point X, Y, Z of a block.
    "front": lambda x, y, z, s: (x, s.thickness - z),
    "back": lambda x, y, z, s: (s.length - x, s.thickness - z),
    "top": lambda x, y, z, s: (x, s.width - y),
    "bottom": lambda x, y, z, s: (x, y),
    "right": lambda x, y, z, s: (y, s.thickness - z),
    "left": lambda x, y, z, s: (s.width - y, s.thickness - z),
}
_ON_FACE: dict[str, Callable[[float, float, Solid], Point3]] = {
    # A face's u and v in the part's frame, from the table of the developers' guide.
    "front": lambda u, v, s: (u, 0.0, v),
    "back": lambda u, v, s: (s.length - u, s.width, v),
    "top": lambda u, v, s: (u, v, s.thickness),
    "bottom": lambda u, v, s: (u, s.width - v, 0.0),
    "right": lambda u, v, s: (s.length, u, v),
    "left": lambda u, v, s: (0.0, s.width - u, v),
}


def block(
    *holes: tuple[str, HoleShape],
    pockets: tuple[tuple[Pocket, PocketShape], ...] = (),
    folds: tuple[Fold, ...] = (),
) -> PartShape:
    solid = Solid("block", L, W, T, pockets=tuple(cut for cut, _ in pockets))
    faces = []
    for face in _SEEN:
        own = tuple(hole for name, hole in holes if name == face)
        cut = tuple(shape for one, shape in pockets if one.face == face)
        if own or cut:
            faces.append(FaceShape("P1", "part", face, rectangle(0, 0, 1, 1), T, own, cut))
    return PartShape("P1", "part", solid, tuple(faces), "brass", folds, manners={"front": "metal"})


def views_in(drawing: PartDrawing) -> dict[str, ElementTree.Element]:
    groups = tree_of(drawing.svg).iter(f"{_SVG}g")
    return {one.attrib["data-view"]: one for one in groups if "data-view" in one.attrib}


def corner(view: ElementTree.Element) -> tuple[float, float, float]:
    return float(view.attrib["data-x"]), float(view.attrib["data-y"]), float(view.attrib["data-scale"])


def rings(view: ElementTree.Element) -> list[tuple[float, float, float, str]]:
    return [
        (float(one.attrib["cx"]), float(one.attrib["cy"]), float(one.attrib["r"]), one.attrib["class"])
        for one in view.iter(f"{_SVG}circle")
    ]


def inside(view: ElementTree.Element) -> str:
    return ElementTree.tostring(view, encoding="unicode")


EVERY_FACE = block(*((face, HoleShape(i, 11.0 + i, 6.0, 5.0)) for i, face in enumerate(_SEEN, 1)))


@pytest.mark.parametrize(
    ("projection", "face", "right", "down"),
    [
        ("first", "top", 0, 1), ("first", "bottom", 0, -1), ("first", "left", 1, 0), ("first", "right", -1, 0),
        ("first", "back", 2, 0), ("third", "top", 0, -1), ("third", "bottom", 0, 1), ("third", "left", -1, 0),
        ("third", "right", 1, 0), ("third", "back", 2, 0),
    ],
)  # fmt: skip
def test_views_lie_as_their_angle_of_projection_says(
    projection: str, face: str, right: int, down: int
) -> None:
    views = views_in(draw_part(EVERY_FACE, projection, paper=(700.0, 700.0)))  # type: ignore[arg-type]
    (x, y, _), (front_x, front_y, _) = corner(views[face]), corner(views["front"])
    assert (x > front_x) - (x < front_x) == (right > 0) - (right < 0)
    assert (y > front_y) - (y < front_y) == down
    if right == 2:
        neighbour = views["left" if projection == "first" else "right"]
        assert x > corner(neighbour)[0] > front_x


@pytest.mark.parametrize(
    "seed", [seed for seed in range(80) if random_part(seed).solid.shape == "block"][:40]
)
def test_every_hole_is_where_an_independent_projection_puts_it(seed: int) -> None:
    part = random_part(seed)
    drawing = draw_part(part, paper=(273.0, 148.0))
    views = views_in(drawing)
    numerator, denominator = map(float, drawing.scale.split(":"))
    for face in part.faces:
        x0, y0, scale = corner(views[face.face])
        assert scale == pytest.approx(numerator / denominator, rel=1e-9)
        if face.face == "front" and "cutting" in drawing.svg:
            continue
        found = {
            int(one.attrib["data-hole"]): one
            for one in views[face.face].iter(f"{_SVG}circle")
            if "data-hole" in one.attrib
        }
        for hole in face.holes:
            if hole.slot_length_mm > hole.diameter_mm:
                continue
            right, down = _SEEN[face.face](*_ON_FACE[face.face](hole.u_mm, hole.v_mm, part.solid), part.solid)
            one = found[hole.number]
            tolerance = (
                0.01 * scale + 1e-5
            )  # a hundredth of a millimetre on the part; the last decimal written
            assert float(one.attrib["cx"]) - x0 == pytest.approx(right * scale, abs=tolerance)
            assert float(one.attrib["cy"]) - y0 == pytest.approx(down * scale, abs=tolerance)
            assert float(one.attrib["r"]) == pytest.approx(hole.diameter_mm / 2 * scale, abs=tolerance)


def test_a_hole_through_is_full_on_both_faces_and_a_blind_one_dashed_from_behind() -> None:
    part = block(
        ("top", HoleShape(1, 20, 10, 6)), ("top", HoleShape(2, 70, 40, 8, depth_mm=12)), ("bottom", HoleShape(3, 40, 30, 4)),
        ("front", HoleShape(4, 60, 10, 3)),
    )  # fmt: skip
    views = views_in(draw_part(part, paper=(400.0, 400.0)))
    x0, y0, scale = corner(views["bottom"])
    lines = {
        (round((x - x0) / scale), round((y - y0) / scale)): name.split()[-1]
        for x, y, _, name in rings(views["bottom"])
    }
    assert lines == {(20, 10): "edge", (70, 40): "hidden", (40, 30): "edge"}


def test_a_blind_hole_seen_from_the_side_has_dashed_walls_and_the_point_of_its_drill() -> None:
    part = block(("top", HoleShape(1, 30, 20, 8, depth_mm=12)), ("front", HoleShape(2, 90, 10, 5)))
    view = views_in(draw_part(part, paper=(400.0, 400.0)))["front"]
    x0, y0, scale = corner(view)
    svg = f'<svg xmlns="http://www.w3.org/2000/svg">{inside(view)}</svg>'
    ends = [
        tuple(
            round(value, 2)
            for value in ((a - x0) / scale, (b - y0) / scale, (c - x0) / scale, (d - y0) / scale)
        )
        for a, b, c, d in lines_of(svg, "hidden")
    ]
    assert (34.0, 0.0, 34.0, 12.0) in ends
    assert (26.0, 0.0, 26.0, 12.0) in ends
    point = 12 + 4 / math.tan(math.radians(59))  # half of 118 degrees: common practice for a drill's point
    assert any(line[:2] == (34.0, 12.0) and line[3] == pytest.approx(point, abs=0.01) for line in ends)


def test_a_thread_is_three_quarters_of_a_thin_circle_outside_its_hole() -> None:
    hole = HoleShape(1, 30, 20, 4.2, thread="M5", thread_major_mm=5.0)
    view = views_in(draw_part(block(("top", hole)), paper=(400.0, 400.0)))["top"]
    x0, y0, scale = corner(view)
    svg = f'<svg xmlns="http://www.w3.org/2000/svg">{inside(view)}</svg>'
    middle = (x0 + 30 * scale, y0 + (W - 20) * scale)
    arc = [line for line in lines_of(svg, "thin") if abs(math.dist(line[:2], middle) - 2.5 * scale) < 1e-3]
    length = sum(math.dist(line[:2], line[2:]) for line in arc)
    assert length == pytest.approx(0.75 * math.pi * 5.0 * scale, rel=0.002)  # its chords are a little shorter


def test_a_rebate_changes_the_outline_of_the_end_and_hides_from_behind() -> None:
    cut = (Pocket("top", 0, 0, 8, L, 15), PocketShape("p1", 0, 0, L, 15, 0, 8))
    part = block(("right", HoleShape(1, 40, 10, 5)), ("back", HoleShape(2, 40, 10, 5)), pockets=(cut,))
    views = views_in(draw_part(part, paper=(500.0, 500.0)))
    seen = _lines_in(views["right"], "outline")
    # From the right Y runs to the right: the step is at Y 15, its floor 8 below the top.
    assert ((0.0, 8.0), (15.0, 8.0)) in seen
    assert ((15.0, 0.0), (15.0, 8.0)) in seen
    assert not any(a == (0.0, 0.0) or b == (0.0, 0.0) for a, b in seen)
    assert ((0.0, 8.0), (L, 8.0)) in _lines_in(views["back"], "hidden")
    assert ((0.0, 8.0), (L, 8.0)) in _lines_in(views["front"], "outline")


def _lines_in(view: ElementTree.Element, kind: str) -> set[tuple[tuple[float, float], tuple[float, float]]]:
    x0, y0, scale = corner(view)
    svg = f'<svg xmlns="http://www.w3.org/2000/svg">{inside(view)}</svg>'
    found = set()
    for a, b, c, d in lines_of(svg, kind):
        one = (round((a - x0) / scale, 3), round((b - y0) / scale, 3))
        other = (round((c - x0) / scale, 3), round((d - y0) / scale, 3))
        found.add((min(one, other), max(one, other)))
    return found


def test_a_rounded_outline_ends_in_its_side_views_where_its_arcs_reach_furthest() -> None:
    stadium = Solid("block", L, W, T, outline=rectangle(0, 0, L, W, W / 2))
    face = FaceShape("P1", "part", "right", rectangle(0, 0, W, T), L, (HoleShape(1, 30, 10, 5),))
    views = views_in(draw_part(PartShape("P1", "part", stadium, (face,), "brass"), paper=(500.0, 500.0)))
    assert _lines_in(views["front"], "outline") == {
        ((0.0, 0.0), (L, 0.0)), ((0.0, T), (L, T)), ((0.0, 0.0), (0.0, T)), ((L, 0.0), (L, T))
    }  # fmt: skip
    assert _lines_in(views["right"], "outline") == {
        ((0.0, 0.0), (W, 0.0)), ((0.0, T), (W, T)), ((0.0, 0.0), (0.0, T)), ((W, 0.0), (W, T))
    }  # fmt: skip


def test_a_corner_of_an_outline_is_seen_from_its_side_and_dashed_from_the_other() -> None:
    # A block whose back right quarter slopes away: its corner at X 60, Y 60 is seen from the back alone.
    cut = (Vertex(0, 0), Vertex(L, 0), Vertex(L, 20), Vertex(60, W), Vertex(0, W))
    faces = tuple(
        FaceShape("P1", "part", name, rectangle(0, 0, L, T), W, (HoleShape(i, 20, 10, 5, depth_mm=4),))
        for i, name in enumerate(("front", "back"), 1)
    )
    solid = Solid("block", L, W, T, outline=cut)
    views = views_in(draw_part(PartShape("P1", "part", solid, faces, "brass"), paper=(700.0, 500.0)))
    upright = ((60.0, 0.0), (60.0, T))
    assert upright in _lines_in(views["front"], "hidden")
    assert upright not in _lines_in(views["front"], "outline")
    assert upright in _lines_in(
        views["back"], "outline"
    )  # from the back X runs to the left, and 60 is the middle


def test_the_bore_of_a_tube_is_dashed_from_the_side_and_full_at_its_end() -> None:
    side = FaceShape(
        "P1",
        "tube",
        "side",
        rectangle(0, -30, 80, 60),
        20,
        (HoleShape(1, 20, math.pi * 10, 4),),
        is_wrapped=True,
    )
    tube = PartShape("P1", "tube", Solid("round", 80, diameter=20, bore=12), (side,), "brass")
    views = views_in(draw_part(tube, paper=(400.0, 300.0)))
    assert {((0.0, 4.0), (80.0, 4.0)), ((0.0, 16.0), (80.0, 16.0))} <= _lines_in(views["front"], "hidden")
    x0, y0, scale = corner(views["left"])
    svg = f'<svg xmlns="http://www.w3.org/2000/svg">{inside(views["left"])}</svg>'
    away = {
        round(math.dist(line[:2], (x0 + 10 * scale, y0 + 10 * scale)) / scale, 2)
        for line in lines_of(svg, "outline")
    }
    assert away == {6.0, 10.0}


def test_a_bored_bar_is_cut_along_its_axis_and_what_is_hatched_has_the_area_of_the_cut() -> None:
    end = FaceShape("P1", "bush", "left", rectangle(0, 0, 1, 1), 50, (HoleShape(1, 0, 0, 6, depth_mm=20),))
    bush = PartShape(
        "P1", "bush", Solid("round", 50, diameter=20), (end,), "brass", manners={"front": "metal"}
    )
    drawing = draw_part(bush, paper=(400.0, 300.0))
    view = views_in(drawing)["front"]
    _, _, scale = corner(view)
    svg = f'<svg xmlns="http://www.w3.org/2000/svg">{inside(view)}</svg>'
    length = sum(math.dist(line[:2], line[2:]) for line in lines_of(svg, "hatch"))
    cone = 3 * 3 / math.tan(math.radians(59))
    area = 50 * 20 - 20 * 6 - cone
    # Lines at one spacing have the area divided by the spacing for their length, short ends left out.
    assert length * 2.6 == pytest.approx(area * scale**2, rel=0.02)
    assert "Section A-A" in {word.says for word in words_of(drawing.svg)}
    assert sum(word.says == "A" for word in words_of(drawing.svg)) == 2


def test_places_are_written_from_the_datum_once_and_sizes_beside_their_holes() -> None:
    part = block(
        ("top", HoleShape(1, 20, 15, 5.5, countersink_diameter_mm=10.4)),
        ("top", HoleShape(2, 100, 15, 5.5, countersink_diameter_mm=10.4)),
        ("top", HoleShape(3, 60, 45, 4.2, depth_mm=15, thread="M5", thread_depth_mm=12, thread_major_mm=5)),
        ("front", HoleShape(4, 60, 10, 3)),
    )
    says = [word.says for word in words_of(draw_part(part, with_table=False).svg)]
    assert sorted(float(word) for word in says if word.replace(".", "").isdigit()) == sorted(
        [0, 20, 60, 100, 120, 0, 15, 45, 60, 0, 60, 120, 0, 10, 20, 1, 2, 3, 4]
    )
    assert "2 × ø5.5 through, csk ø10.4 × 90°" in " ".join(says)
    assert "M5 × 12 deep, drill ø4.2 × 15 deep" in " ".join(says)


def test_a_rounded_corner_is_placed_by_the_sharp_one_and_its_radius_is_written_once() -> None:
    plain = block()
    part = replace(plain, solid=replace(plain.solid, outline=rectangle(0, 0, L, W, 3)))
    says = [word.says for word in words_of(draw_part(part, with_table=False).svg)]
    places = sorted(float(word) for word in says if word.replace(".", "").isdigit())
    assert places == sorted([0, L, 0, W, 0, T])  # 3 and 117 are nowhere
    assert "4 × R3" in says


def test_only_a_corner_that_runs_on_smoothly_is_placed_by_the_sharp_one() -> None:
    quarter = math.tan(math.pi / 8)
    ledge = (Vertex(0, 0), Vertex(80, 0), Vertex(80, 30, quarter), Vertex(70, 40), Vertex(0, 40))
    inward = (Vertex(0, 0), Vertex(80, 0), Vertex(80, 30, -quarter), Vertex(70, 40), Vertex(0, 40))
    found = placed_corners(Solid("block", 80, 40, 5, outline=ledge))
    assert {(round(x, 6), round(y, 6)) for x, y in found} == {(0, 0), (80, 0), (80, 40), (0, 40)}
    kept = placed_corners(Solid("block", 80, 40, 5, outline=inward))
    assert set(kept) == {(0, 0), (80, 0), (80, 30), (70, 40), (0, 40)}


def test_where_it_is_too_dense_the_places_stand_in_the_table_and_it_says_so() -> None:
    holes = [("top", HoleShape(i + 1, 1 + i * 0.9, 30 + (i * 7) % 25, 0.4)) for i in range(120)]
    drawing = draw_part(block(*holes), paper=(180.0, 120.0))
    assert drawing.too_dense.startswith("Too dense at this scale: the places of holes stand in the table")
    assert len(drawing.rows) == 120
    assert drawing.rows[1].u == "1.9"
    plain = draw_part(block(holes[0]), paper=(180.0, 120.0))
    assert plain.too_dense == ""


def test_folds_are_thin_lines_of_chain_with_their_angle() -> None:
    drawing = draw_part(block(folds=(Fold(40, "across", 90, 2.0),)), paper=(400.0, 300.0))
    view = views_in(drawing)["top"]
    assert _lines_in(view, "fold") == {((40.0, 0.0), (40.0, W))}
    assert "fold 90°, inside R2" in {word.says for word in words_of(drawing.svg)}


def test_a_drawing_says_in_words_what_it_shows() -> None:
    drawing = draw_part(block(("top", HoleShape(1, 20, 10, 6)), ("front", HoleShape(2, 60, 10, 3))))
    assert drawing.title == f"Part drawing of P1 part, scale {drawing.scale}"
    assert drawing.description == (
        "brass, 120 by 60 by 20. Views in first angle projection: top, front. Front: 1 hole. Top: 1 hole."
    )
    tree = tree_of(drawing.svg)
    assert tree.findtext(f"{_SVG}title") == drawing.title
    assert tree.findtext(f"{_SVG}desc") == drawing.description


def test_rounded_corners_are_said_as_such_and_a_free_outline_as_one() -> None:
    plain = block()
    rounded = replace(plain, solid=replace(plain.solid, outline=rectangle(0, 0, L, W, 3)))
    free = replace(plain, solid=replace(plain.solid, outline=(Vertex(0, 0), Vertex(L, 0), Vertex(0, W))))
    assert draw_part(rounded).description.startswith("brass, 120 by 60 by 20, corners R3. ")
    assert draw_part(free).description.startswith("brass, 120 by 60 by 20, with an outline of its own. ")
    narrow = [word.says for word in words_of(draw_part(rounded, paper=(72.0, 280.0)).svg)]
    assert "Corners R3." in " ".join(narrow)  # there is no room there for words on leaders
    assert "Corners" not in " ".join(
        word.says for word in words_of(draw_part(plain, paper=(72.0, 280.0)).svg)
    )
