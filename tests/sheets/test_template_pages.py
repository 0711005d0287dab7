"""How templates are laid over pages: fewest pages, whole maps, words that overprint nothing."""

from __future__ import annotations

import math
import re
from functools import lru_cache
from random import Random
from time import process_time

import pytest

from calculators.drawing.face_shape import FaceShape, HoleShape
from calculators.drawing.lettering import text_width
from calculators.drawing.template_labels import LETTER_MM
from calculators.drawing.template_marks import FoldLine
from calculators.drawing.template_pages import (
    SheetWords,
    TemplateFace,
    TemplatePage,
    holes_without_words,
    template_pages,
)
from calculators.drawing.template_paper import MARGIN_MM, PAPERS_MM, Stretch, page_layout
from calculators.drawing.template_tiles import OVERLAP_MM, Tiling, tile_name, tiling_of
from calculators.geometry.outlines import Outline, Vertex, bounds, rectangle
from calculators.quantities.errors import InputError
from tests.sheets.faces_of_parts import random_face

KINDS = ("block", "end", "side", "free")
FACES = [
    random_face(
        Random(i),
        KINDS[i % 4],
        *((19.0, 31.0), (90.0, 60.0), (260.0, 180.0), (420.0, 300.0))[i // 4 % 4],
        1 + i % 13,
    )
    for i in range(240)
]


def one_corner(outline: Outline, x: float, y: float) -> FaceShape:
    return FaceShape("P1", "Part", "top", outline, 10, (HoleShape(1, x, y, 5.0),))


@lru_cache(maxsize=1)
def tilings() -> list[Tiling]:
    papers, stretches = ("a4", "letter"), (Stretch(), Stretch(1.01, 0.99))
    return [
        tiling_of(face, papers[i % 2], stretches[i // 2 % 2], mirrored=i % 3 == 0)
        for i, face in enumerate(FACES[::2])
    ]


def test_every_hole_and_every_corner_is_on_a_page_with_room_for_its_cross() -> None:
    for tiling in tilings():
        points = [(one.u_mm, one.v_mm) for one in tiling.view.holes]
        for x, y in points:
            assert (
                any(
                    one.box[0] + 5 <= x <= one.box[2] - 5 and one.box[1] + 5 <= y <= one.box[3] - 5
                    for one in tiling.tiles
                )
                or len(tiling.tiles) == 1
            )
        for one in tiling.view.outline:
            assert any(
                tile.box[0] <= one.x <= tile.box[2] and tile.box[1] <= one.y <= tile.box[3]
                for tile in tiling.tiles
            )


def test_pages_that_are_printed_hang_together_and_none_is_blank_without_need() -> None:
    for tiling in tilings():
        names = {one.name for one in tiling.tiles}
        for one in tiling.tiles:
            assert {one.left, one.right, one.above, one.below} - {""} <= names
            assert len(names) == 1 or any((one.left, one.right, one.above, one.below))


def test_neighbours_overlap_by_what_is_promised() -> None:
    for tiling in tilings():
        by_name = {one.name: one for one in tiling.tiles}
        for one in tiling.tiles:
            if one.right:
                assert one.box[2] - by_name[one.right].box[0] == pytest.approx(OVERLAP_MM)
            if one.below:
                assert by_name[one.below].box[3] - one.box[1] == pytest.approx(OVERLAP_MM)
    assert OVERLAP_MM >= 10


@pytest.mark.parametrize(
    ("wide", "high", "paper", "pages"),
    [
        # A field of A4 upright holds 179 x 226, lying 266 x 139; 1.5 are kept free at each edge.
        (176.0, 223.0, "a4", 1), (230.0, 100.0, "a4", 1), (263.0, 136.0, "a4", 1),
        (264.0, 136.0, "a4", 2), (176.0, 226.9, "a4", 2), (330.0, 220.0, "a4", 2),
    ],
)  # fmt: skip
def test_it_takes_the_fewest_pages(wide: float, high: float, paper: str, pages: int) -> None:
    face = FaceShape("P1", "Part", "top", rectangle(0, 0, wide, high), 10)
    found = tiling_of(face, paper, Stretch())
    assert len(found.tiles) == pages


def test_a_page_with_nothing_of_the_part_is_not_printed() -> None:
    """An L of two narrow limbs leaves a corner of its box empty."""
    limbs = tuple(Vertex(x, y) for x, y in ((0, 0), (600, 0), (600, 60), (60, 60), (60, 600), (0, 600)))
    found = tiling_of(FaceShape("P1", "Part", "top", limbs, 10), "a4", Stretch())
    assert len(found.tiles) < found.columns * found.rows
    assert len({one.column for one in found.tiles}) == found.columns
    assert len({one.row for one in found.tiles}) == found.rows


def test_a_frame_leaves_its_middle_out_and_a_hole_there_brings_it_back() -> None:
    frame = rectangle(0, 0, 700, 600)
    without = tiling_of(FaceShape("P1", "Board", "top", frame, 18), "a4", Stretch())
    assert (without.columns, without.rows, len(without.tiles)) == (5, 3, 12)
    assert not {"2B", "3B", "4B"} & {one.name for one in without.tiles}
    middle = tiling_of(one_corner(frame, 350.0, 300.0), "a4", Stretch())
    assert {one.name for one in middle.tiles} == {one.name for one in without.tiles} | {"3B"}


def test_mirrored_turns_left_for_right_alone() -> None:
    face = FaceShape(
        "P1", "Part", "top", (Vertex(0, 0), Vertex(80, 0, 0.5), Vertex(80, 50), Vertex(0, 50)), 10,
        (HoleShape(1, 10.0, 12.0, 5.0),),
    )  # fmt: skip
    view = tiling_of(face, "a4", Stretch(), mirrored=True).view
    assert [(one.u_mm, one.v_mm) for one in view.holes] == [(-10.0, 12.0)]
    x0, _, x1, _ = bounds(face.outline)
    m0, _, m1, _ = bounds(view.outline)
    assert (m0, m1) == pytest.approx((-x1, -x0))


def test_margins_are_ten_millimetres_and_both_rules_lie_inside() -> None:
    for paper in PAPERS_MM:
        for landscape in (False, True):
            page = page_layout(paper, Stretch(1.02, 0.98), landscape=landscape)
            x, y = page.corner
            assert page.field[0] >= MARGIN_MM
            assert page.field[2] <= page.width - MARGIN_MM
            assert x + page.x_rule_mm * page.x_stretch <= page.width - MARGIN_MM
            assert y - page.y_rule_mm * page.y_stretch >= MARGIN_MM


# ---- words


def boxes(page: TemplatePage) -> list[tuple[float, float, float, float]]:
    """The boxes of the words beside holes, read from the drawing."""
    found = []
    said = r'<text class="(?:hole-words|hole-number)" x="([\d.-]+)" y="([\d.-]+)" font-size="[\d.]+" text-anchor="start"[^>]*>([^<]*)<'
    for x, y, text in re.findall(said, page.svg):
        wide = text_width(text, LETTER_MM)
        found.append(
            (float(x), float(y) - 0.72 * LETTER_MM, float(x) + 0.93 * wide, float(y) + 0.2 * LETTER_MM)
        )
    return found


def rings(page: TemplatePage) -> list[tuple[float, float, float]]:
    """The holes on a page: middle and radius, from their crosses and the curves about them."""
    found = []
    for data in re.findall(r'<path class="(?:hole|countersink|counterbore|thread)" d="([^"]*)"', page.svg):
        numbers = [float(one) for one in re.findall(r"-?[\d.]+", data)]
        xs, ys = numbers[0::2], numbers[1::2]
        found.append(((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2, (max(xs) - min(xs)) / 2))
    return found


def test_no_words_overprint_one_another_or_a_hole() -> None:
    labels = 0
    for face in FACES[:200]:
        for page in template_pages(TemplateFace(face, "u"), "a4"):
            words, holes = boxes(page), rings(page)
            labels += len(words)
            for i, (x0, y0, x1, y1) in enumerate(words):
                for a0, b0, a1, b1 in words[i + 1 :]:
                    assert not (x0 < a1 and a0 < x1 and y0 < b1 and b0 < y1)
                for cx, cy, r in holes:
                    near = math.dist((min(max(cx, x0), x1), min(max(cy, y0), y1)), (cx, cy))
                    assert near > r - 0.2
    assert labels > 1000


def test_a_dense_part_keeps_numbers_and_counts_those_without_words() -> None:
    holes = tuple(HoleShape(i + 1, 5.0 + 4.5 * (i % 30), 5.0 + 4.5 * (i // 30), 3.0) for i in range(600))
    face = FaceShape("P1", "Sieve", "top", rectangle(0, 0, 140, 100), 3, holes)
    pages = template_pages(TemplateFace(face), "a4")
    missing = holes_without_words(pages)
    assert 0 < missing < 600
    assert any("without words for want of room" in sentence for sentence in pages[0].says)


def test_ten_times_the_holes_take_no_hundred_times_the_time() -> None:
    def seconds(count: int) -> float:
        holes = tuple(
            HoleShape(i + 1, 10.0 + 15 * (i % 16), 10.0 + 15 * (i // 16), 4.0) for i in range(count)
        )
        face = FaceShape("P1", "Plate", "top", rectangle(0, 0, 255, 20 + 15 * (count / 16)), 3, holes)
        best = math.inf
        for _ in range(2):
            begun = process_time()
            template_pages(TemplateFace(face), "a4")
            best = min(best, process_time() - begun)
        return best

    assert seconds(1000) <= 25 * seconds(100)


# ---- what a page says


def test_the_words_of_a_page_say_what_it_is() -> None:
    board = FaceShape("P05", "Lid rail", "bottom", rectangle(0, 0, 600, 40), 18, revision="B")
    words = SheetWords(
        "TW-31", "Case", "2025-06-06", "Corrected for the laser: 1 % longer along the paper.", of=7, first=4
    )
    page = template_pages(TemplateFace(board, "u"), "a4", words=words)[1]
    assert page.heading == "TW-31 P05 Lid rail"
    assert page.title == "True-size template 1:1, bottom face, page 2A, revision B"
    assert page.says[:3] == (
        "Case: sheet 5 of 7, issued 2025-06-06, mm",
        "This side out: the bottom as seen from outside.",
        "Corrected for the laser: 1 % longer along the paper.",
    )
    assert "cut here, lay over 1A" in page.svg
    assert "lay 3A on here" in page.svg


def test_a_side_laid_flat_has_its_seam_and_its_circumference() -> None:
    around = 25 * math.pi
    side = FaceShape(
        "C21", "Coupling", "side", rectangle(0, -around / 2, 25, around), 25, (), is_wrapped=True
    )
    page = template_pages(TemplateFace(side), "a4")[0]
    assert any(one.startswith("Wraps round Ø25, circumference 78.54 from seam to seam;") for one in page.says)
    assert page.svg.count(">seam, 78.54 to the other<") == 2


def test_bent_sheet_has_its_fold_lines_where_they_are() -> None:
    sheet = FaceShape("P2", "Bracket", "top", rectangle(0, 0, 100, 40), 1.5)
    folded = TemplateFace(sheet, "", (FoldLine((30.0, 0.0), (30.0, 40.0), "fold 90°"),))
    page = template_pages(folded, "a4")[0]
    found = re.search(r'class="fold" d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)"', page.svg)
    outline = re.search(r'class="outline" d="M([\d.]+) ([\d.]+)', page.svg)
    assert found
    assert outline
    assert float(found[1]) - float(outline[1]) == pytest.approx(30.0, abs=1e-3)
    assert abs(float(found[4]) - float(found[2])) == pytest.approx(40.0, abs=1e-3)
    assert "fold 90°" in page.svg


def test_title_and_holes_are_told_in_words() -> None:
    page = template_pages(TemplateFace(one_corner(rectangle(0, 0, 60, 40), 12.5, 20.0)), "a4")[0]
    assert "<title>P1 Part. True-size template 1:1, top face</title>" in page.svg
    assert "hole 1 of 5 at 12.5, 20" in page.svg


def test_what_takes_too_many_pages_is_refused() -> None:
    wall = FaceShape("P9", "Wall", "top", rectangle(0, 0, 9000, 3000), 18)
    with pytest.raises(
        InputError, match=r"A template of the top of P9 takes \d+ pages; up to 120 are printed"
    ):
        template_pages(TemplateFace(wall), "a4")
    huge = FaceShape("P9", "Wall", "top", rectangle(0, 0, 1e7, 1e7), 18)
    with pytest.raises(InputError):
        template_pages(TemplateFace(huge), "a4")


def test_another_paper_is_refused_by_name() -> None:
    with pytest.raises(InputError) as error:
        page_layout("a3", Stretch(), landscape=False)
    assert str(error.value) == "There is no paper “a3”; the papers are a4 and letter."


def test_tiles_are_named_by_row_and_column() -> None:
    assert [tile_name(0, 0), tile_name(3, 2), tile_name(0, 25), tile_name(0, 26)] == ["1A", "4C", "1Z", "1AA"]
