"""Templates are true to size: read back from the PDF's own vectors over all pages, and from a picture of it.

The expected places are the part's own sizes. The tolerance is the 0.02 mm that a template promises; a printer
of 600 dots to the inch has dots of 0.042 mm.
"""

from __future__ import annotations

import math
from random import Random
from types import SimpleNamespace

import pypdfium2
import pytest
from django.template.loader import render_to_string

from buildlog.sheets.papers import Paper
from buildlog.sheets.printing import print_pdf
from buildlog.sheets.true_size import sheet_papers
from calculators.drawing.face_shape import FaceShape, HoleShape
from calculators.drawing.template_band import CAUTION
from calculators.drawing.template_pages import TemplateFace, template_pages
from calculators.drawing.template_paper import Stretch
from calculators.geometry.outlines import Outline, Vertex, rectangle
from tests.sheets.faces_of_parts import random_face
from tests.sheets.template_readback import PageRead, laid_together, read_pages

TRUE_MM = 0.02
CROSS_MM = 4.0
OFFICE = Stretch(1.008, 0.9975, "office")

# What, how large, how many holes, paper, mirrored, for which printer.
CASES = (
    ("block", 500.0, 850.0, 36, "a4", False, Stretch()),  # three columns of four pages
    ("block", 260.0, 210.0, 9, "letter", True, OFFICE),
    ("free", 380.0, 250.0, 12, "a4", True, Stretch()),
    ("free", 170.0, 150.0, 8, "letter", False, OFFICE),
    ("end", 230.0, 230.0, 6, "a4", False, OFFICE),
    ("end", 19.0, 19.0, 1, "letter", True, Stretch()),
    ("side", 140.0, 314.16, 6, "a4", False, Stretch(0.996, 1.003, "office")),
    ("block", 90.0, 60.0, 8, "letter", False, Stretch()),
    ("side", 25.0, 78.54, 2, "letter", True, Stretch()),
)


def printed(face: FaceShape, paper: Paper, *, mirrored: bool, stretch: Stretch) -> bytes:
    """The PDF of a face, as the sheet prints it."""
    pages = template_pages(TemplateFace(face, "u"), paper, mirrored=mirrored, stretch=stretch)
    build = SimpleNamespace(number="B1", title="Stand", workshop="", issued=None, context=None)
    context = {
        "build": build, "title": "Template", "pages": pages, "papers": sheet_papers(paper), "caution": CAUTION,
        "stamp": SimpleNamespace(square="", shown="ABCD-EFGH"),
    }  # fmt: skip
    return print_pdf(render_to_string("sheets/template.html", context))


def in_view(outline: Outline, holes: tuple[HoleShape, ...], *, mirrored: bool) -> tuple[list, list]:
    """Corners and hole centres as the paper shows them, y upward."""
    way = -1 if mirrored else 1
    return [(way * one.x, one.y) for one in outline], [(way * one.u_mm, one.v_mm) for one in holes]


def joined(pages: list[PageRead], stretch: Stretch) -> list[tuple[PageRead, list, list]]:
    """Of each page what is drawn, in millimetres of the part from one common corner, y upward."""
    placed = laid_together(pages)
    landscape = pages[0].width > pages[0].height
    sx, sy = (stretch.along, stretch.across) if landscape else (stretch.across, stretch.along)

    def part(page: PageRead, at: tuple[float, float]) -> tuple[float, float]:
        x, y = placed[page.name]
        return (x + at[0]) / sx, -(y + at[1]) / sy

    return [
        (page, [(at, part(page, at)) for at in page.crosses], [(at, part(page, at)) for at in page.outline])
        for page in pages
    ]


@pytest.fixture(scope="module", params=range(len(CASES)), ids=lambda i: f"{CASES[i][0]}-{CASES[i][4]}-{i}")
def case(request: pytest.FixtureRequest) -> tuple:
    kind, wide, high, holes, paper, mirrored, stretch = CASES[request.param]
    face = random_face(Random(100 + request.param), kind, wide, high, holes)
    assert len(face.holes) >= min(holes, 6), "the face has its holes"
    return face, mirrored, stretch, read_pages(printed(face, paper, mirrored=mirrored, stretch=stretch))


def test_every_corner_and_every_hole_is_where_it_should_be_over_all_pages(case: tuple) -> None:
    face, mirrored, stretch, pages = case
    corners, centres = in_view(face.outline, face.holes, mirrored=mirrored)
    read = joined(pages, stretch)
    drawn = [at for _, _, outline in read for _, at in outline]
    # One corner of the part is laid on one of the paper; all else must follow.
    dx, dy = _offset(drawn, corners)
    seen_corners, seen_holes = set(), set()
    for page, crosses, outline in read:
        for at, (x, y) in outline:
            near = min(corners, key=lambda one: math.dist(one, (x + dx, y + dy)))
            if math.dist(near, (x + dx, y + dy)) < TRUE_MM and page.shows(at, 0.0):
                seen_corners.add(near)
        for at, (x, y) in crosses:
            off = [math.dist(one, (x + dx, y + dy)) for one in centres]
            assert min(off) < TRUE_MM, f"a cross on {page.name} that is no hole's: {min(off):.3f} off"
            if page.shows(at, CROSS_MM):
                seen_holes.add(off.index(min(off)))
    assert seen_holes == set(range(len(centres)))
    assert seen_corners == set(corners)


def _offset(drawn: list, corners: list) -> tuple[float, float]:
    """The move that lays one drawn point on the first corner so that all other corners meet drawn points."""
    first = corners[0]
    for x, y in drawn:
        dx, dy = first[0] - x, first[1] - y
        if all(
            any(abs(px + dx - cx) < TRUE_MM and abs(py + dy - cy) < TRUE_MM for px, py in drawn)
            for cx, cy in corners
        ):
            return dx, dy
    raise AssertionError("the corners of the part are not all on paper")


def test_every_hole_has_its_diameter(case: tuple) -> None:
    face, _mirrored, stretch, pages = case
    landscape = pages[0].width > pages[0].height
    sx, sy = (stretch.along, stretch.across) if landscape else (stretch.across, stretch.along)
    sizes = sorted({(one.diameter_mm, one.slot_length_mm, one.slot_along) for one in face.holes})
    for page in pages:
        for at in page.crosses:
            found = [(w / sx, h / sy) for middle, w, h in page.rounds if math.dist(middle, at) < TRUE_MM]
            assert any(
                abs(w - (long if way == "u" else d)) < TRUE_MM
                and abs(h - (long if way == "v" else d)) < TRUE_MM
                for w, h in found
                for d, long, way in sizes
            ), (page.name, at, found)


def test_both_check_rules_are_on_every_page_exactly_long(case: tuple) -> None:
    _, _, stretch, pages = case
    for page in pages:
        landscape = page.width > page.height
        ways = {"level": stretch.along, "upright": stretch.across}
        if not landscape:
            ways = {"level": stretch.across, "upright": stretch.along}
        for way, factor in ways.items():
            _, long = page.rules[way]
            whole = round(long / factor)
            assert whole >= 170
            assert whole % 10 == 0
            assert abs(long - whole * factor) < 0.005
            assert abs(page.inch_ticks[way] - 101.6 * factor) < 0.005
        assert max(round(page.rules[way][1] / factor) for way, factor in ways.items()) == 250
        assert "ALONGTHEPAPER" in page.glyphs
        assert "mustmeasure100.0mm:printat100%" in page.glyphs


def test_a_mirrored_template_says_so_and_no_other_does(case: tuple) -> None:
    _, mirrored, _, pages = case
    assert all(("MIRRORED" in page.text) == mirrored for page in pages)


def test_a_board_of_three_columns_and_four_rows_has_a_page_for_each(case: tuple) -> None:
    face, _, _, pages = case
    if Vertex(500.0, 850.0) in face.outline:
        assert [one.name for one in pages] == [f"{column}{row}" for row in "ABCD" for column in (1, 2, 3)]
    else:
        assert len(pages) < 12


DOT_MM = 25.4 / 600


def test_a_picture_of_600_dots_to_the_inch_has_crosses_and_rule_ends_within_one_dot() -> None:
    plate = FaceShape(
        "P1", "Plate", "top", rectangle(0, 0, 90, 60), 2,
        (HoleShape(1, 10.0, 12.0, 4.5), HoleShape(2, 71.3, 44.9, 3.3), HoleShape(3, 33.333, 25.0, 8.0)),
    )  # fmt: skip
    pdf = printed(plate, "a4", mirrored=False, stretch=Stretch())
    page = read_pages(pdf)[0]
    document = pypdfium2.PdfDocument(pdf)
    try:
        picture = document[0].render(scale=600 / 72, grayscale=True).to_pil()
    finally:
        document.close()
    (x, y), level = page.rules["level"]
    upright = page.rules["upright"][1]
    corners = [(x, y), (x + level, y), (x, y - upright)]
    assert (level, upright) == (pytest.approx(180.0, abs=1e-3), pytest.approx(250.0, abs=1e-3))
    # The corner of the outline follows from the crosses, whose places on the part are known.
    first = min(page.crosses)
    for u, v in ((10.0, 12.0), (71.3, 44.9), (33.333, 25.0)):
        at = (first[0] + u - 10.0, first[1] - (v - 12.0))
        assert _dark(picture, at, upright=True) == pytest.approx(at[0] / DOT_MM, abs=1.0)
        assert _dark(picture, at, upright=False) == pytest.approx(at[1] / DOT_MM, abs=1.0)
    for at in corners[1:]:
        upright_line = at[1] == y  # the end tick of the level rule is upright
        off = (at[0], at[1] + 1.5) if upright_line else (at[0] - 1.5, at[1])
        place = off[0] if upright_line else off[1]
        assert _dark(picture, off, upright=upright_line, away=0.0) == pytest.approx(place / DOT_MM, abs=1.0)


def _dark(picture: object, at: tuple[float, float], *, upright: bool, away: float = 3.0) -> float:
    """The middle of the dark dots across a line of a cross, looked at so far from its middle [dots]."""
    x, y = at[0] / DOT_MM, at[1] / DOT_MM
    off, half = away / DOT_MM, 10
    if upright:
        dots = [(round(x) + i, round(y - off)) for i in range(-half, half + 1)]
    else:
        dots = [(round(x - off), round(y) + i) for i in range(-half, half + 1)]
    shade = [255 - picture.getpixel(dot) for dot in dots]  # type: ignore[attr-defined]
    total = sum(shade)
    assert total > 500, "there is a line"
    axis = 0 if upright else 1
    return sum(dot[axis] * dark for dot, dark in zip(dots, shade, strict=True)) / total + 0.5


def test_arcs_are_true_curves() -> None:
    """An arc of 700 mm radius leaves its place nowhere by more than a hundredth of a millimetre."""
    from calculators.drawing.template_strokes import Pen, path_of
    from calculators.geometry.outlines import arc_of

    start, end = Vertex(0.0, 0.0, math.tan(math.radians(100) / 4)), Vertex(900.0, 120.0)
    arc = arc_of(start, end)
    assert arc
    data = path_of((start, end), Pen(0, 0, 0, 0, 1, 1))
    at = (0.0, 0.0)
    for piece in data[1:].split("L")[0].split("C")[1:]:
        numbers = [float(one) for one in piece.split()]
        points = [at, *zip(numbers[0::2], numbers[1::2], strict=True)]
        for i in range(11):
            t = i / 10
            weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
            x = sum(w * p[0] for w, p in zip(weights, points, strict=True))
            y = -sum(w * p[1] for w, p in zip(weights, points, strict=True))
            assert math.dist((x, y), arc.centre) == pytest.approx(arc.radius, abs=0.01)
        at = points[-1]
