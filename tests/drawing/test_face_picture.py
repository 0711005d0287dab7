"""A face drawn from its outlines: every arc and hole where it is, read back from the SVG."""

from __future__ import annotations

import re
from itertools import combinations
from xml.etree import ElementTree

import pytest

from calculators.drawing.face_picture import MOST_CROSSES, face_picture
from calculators.drawing.face_shape import FaceShape, HoleShape
from calculators.geometry.outlines import Vertex, rectangle
from tests.drawing.random_faces import random_face

SVG = "{http://www.w3.org/2000/svg}"
STEP = re.compile(r"([MLA])([^MLAZ]+)")


def elements(svg: str, tag: str, kind: str) -> list[dict[str, str]]:
    return [one.attrib for one in ElementTree.fromstring(svg).iter(f"{SVG}{tag}") if one.get("class") == kind]


def scale_of(svg: str) -> float:
    told = re.search(r"scale (\d+):(\d+)", svg)
    assert told is not None
    return int(told[1]) / int(told[2])


def test_an_outline_with_arcs_is_drawn_with_true_arcs_turning_the_right_way() -> None:
    outline = (Vertex(0, 0), Vertex(60, 0, 1.0), Vertex(60, 40), Vertex(0, 40, -0.2))
    svg = face_picture(FaceShape("P1", "Plate", "top", outline, 6.0))
    scale = scale_of(svg)
    (drawn,) = elements(svg, "path", "outline")
    steps = [
        (letter, [float(each) for each in numbers.split()]) for letter, numbers in STEP.findall(drawn["d"])
    ]
    assert [letter for letter, _ in steps] == ["M", "L", "A", "L", "A"]
    (x, y), right = steps[0][1], steps[1][1]
    assert right == pytest.approx([x + 60 * scale, y])
    radius, _, _, large, sweep, to_x, to_y = steps[2][1]
    assert (radius, large, sweep) == (
        pytest.approx(20 * scale),
        0,
        0,
    )  # on paper y runs down: a left turn is 0
    assert (to_x, to_y) == pytest.approx((x + 60 * scale, y - 40 * scale))
    assert steps[4][1][4] == 1


@pytest.mark.parametrize("seed", range(15))
def test_holes_lie_where_they_are_to_the_scale_stated(seed: int) -> None:
    face = random_face(seed)
    svg = face_picture(face)
    scale = scale_of(svg)
    (datum,) = elements(svg, "circle", "datum")
    at = float(datum["cx"]), float(datum["cy"])
    got = sorted(
        ((float(one["cx"]) - at[0]) / scale, (at[1] - float(one["cy"])) / scale)
        for one in elements(svg, "circle", "edge")
    )
    want = sorted((hole.u_mm, hole.v_mm) for hole in face.holes if not hole.slot_length_mm)
    assert len(got) == len(want)
    for one, two in zip(got, want, strict=True):
        assert one == pytest.approx(two, abs=0.001 / scale)


def test_numbers_do_not_overprint_one_another() -> None:
    holes = tuple(HoleShape(at + 1, 5 + 7 * (at % 12), 5 + 7 * (at // 12), 3.0) for at in range(72))
    svg = face_picture(FaceShape("P1", "Plate", "top", rectangle(0, 0, 90, 50), 6.0, holes))
    boxes = []
    for one in elements(svg, "text", "hole-number"):
        x, y = float(one["x"]), float(one["y"])
        boxes.append((x - 0.8, y - 2.0, x + 0.8, y))
    assert len(boxes) == 72
    assert not any(
        one[0] < two[2] and two[0] < one[2] and one[1] < two[3] and two[1] < one[3]
        for one, two in combinations(boxes, 2)
    )


def test_what_was_left_out_has_a_cross_and_is_told() -> None:
    face = FaceShape("P1", "A < B", "top", rectangle(0, 0, 90, 50), 6.0)
    svg = face_picture(face, [(10, 10), (20, 20), (500, 0)])
    assert len(elements(svg, "path", "left-out")) == 2
    root = ElementTree.fromstring(svg)
    assert root.findtext(f"{SVG}title") == "P1 A < B, top face seen from outside, scale 1:1"
    assert (
        root.findtext(f"{SVG}desc")
        == "0 holes, 0 pockets; 90 by 50 mm; 2 places of what was left out, with red crosses"
    )
    many = face_picture(face, [(at / 10, 5) for at in range(500)])
    assert len(elements(many, "path", "left-out")) == MOST_CROSSES


@pytest.mark.parametrize(("length", "scale"), [(900_000_000, "to fit"), (0.5, "50:1"), (1_500, "1:10")])
def test_any_size_fits_the_paper(length: float, scale: str) -> None:
    svg = face_picture(FaceShape("P1", "Plate", "top", rectangle(0, 0, length, length / 2), 6.0))
    assert f"scale {scale}" in svg
    assert float(ElementTree.fromstring(svg).attrib["width"].removesuffix("mm")) <= 170.0
