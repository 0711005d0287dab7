"""The plan of a face: holes where they are, to scale, and no number over anything."""

from __future__ import annotations

import random
import re
from itertools import combinations
from xml.etree import ElementTree

import pytest

from calculators.drawing.face_plan import PlanHandle, PlanHole, PlanPocket, face_plan
from calculators.drawing.lettering import text_width
from calculators.drawing.plan_marks import PlanMark

SVG = "{http://www.w3.org/2000/svg}"


def drawn(plan: str, tag: str, kind: str) -> list[dict[str, str]]:
    return [
        each.attrib for each in ElementTree.fromstring(plan).iter(f"{SVG}{tag}") if each.get("class") == kind
    ]


def test_a_standard_scale_is_taken_and_holes_lie_where_they_are() -> None:
    plan = face_plan(
        (0, 640), (0, 260), [PlanHole(1, 560, 130, 8.2), PlanHole(2, 180, 35, 2.5)], title="P01 top"
    )
    assert plan.scale == "1:5"  # ISO 5455
    (outline,) = drawn(plan.svg, "rect", "outline")
    left, bottom = float(outline["x"]), float(outline["y"]) + float(outline["height"])
    assert float(outline["width"]) == pytest.approx(640 / 5)
    holes = [
        ((float(h["cx"]) - left) * 5, (bottom - float(h["cy"])) * 5, float(h["r"]) * 10)
        for h in drawn(plan.svg, "circle", "hole")
    ]
    assert holes == [pytest.approx((560, 130, 8.2), abs=0.02), pytest.approx((180, 35, 2.5), abs=0.02)]


def test_small_faces_are_enlarged() -> None:
    assert face_plan((-5, 5), (-5, 5), [], title="P10 left", is_round=True).scale == "5:1"


def test_slots_and_pockets_have_their_length_and_way() -> None:
    plan = face_plan(
        (0, 100), (0, 50), [PlanHole(1, 50, 25, 4, slot_length_mm=10, slot_along="v")],
        [PlanPocket(10, 5, 30, 20, 3)], title="P", paper_width_mm=200, paper_height_mm=100,
    )  # fmt: skip
    (slot,), (pocket,) = drawn(plan.svg, "rect", "slot"), drawn(plan.svg, "rect", "pocket")
    assert (float(slot["width"]), float(slot["height"])) == (4, 10)
    assert (float(pocket["width"]), float(pocket["height"]), float(pocket["rx"])) == (30, 20, 3)


def test_a_title_is_escaped_and_read_out() -> None:
    plan = face_plan((0, 10), (0, 10), [], title='P01 <top> & "bottom"')
    title = ElementTree.fromstring(plan.svg).find(f"{SVG}title")
    assert title is not None
    assert title.text == 'P01 <top> & "bottom", scale 5:1, 0 holes'


@pytest.mark.parametrize("seed", range(25))
def test_numbers_overprint_no_other_number(seed: int) -> None:
    chance = random.Random(seed)
    holes = [
        PlanHole(n, chance.uniform(5, 395), chance.uniform(5, 145), chance.uniform(2, 8))
        for n in range(1, 31)
    ]
    plan = face_plan((0, 400), (0, 150), holes, title="P")
    boxes = []
    for number in drawn(plan.svg, "text", "hole-number"):
        x, y, size = float(number["x"]), float(number["y"]), float(number["font-size"])
        half = 0.3 * size * len(str(len(boxes) + 1))
        boxes.append((x - half, y - 0.7 * size, x + half, y))
    assert len(boxes) == 30
    for a, b in combinations(boxes, 2):
        assert not (a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3])


def test_equal_faces_give_equal_bytes() -> None:
    holes = [PlanHole(n, 10 * n, 20, 3) for n in range(1, 6)]
    one, two = (face_plan((0, 100), (0, 40), holes, title="P").svg for _ in range(2))
    assert one == two
    assert not re.search(r"style=|<style|<script", one)


def test_what_is_wrong_is_ringed_in_red_where_it_is_with_words_beside_it() -> None:
    """At 1:1 (100 by 40 mm on the paper): a ring of 5 mm at (30, 10), a line to (50, 10)."""
    plan = face_plan(
        (0, 100), (0, 40), [PlanHole(1, 30, 10, 4)], title="P", says="In red: too near & dear.",
        marks=[PlanMark(30, 10, 5.0, "edge distance 3.6 d", (50, 10))], paper_width_mm=120, paper_height_mm=60,
    )  # fmt: skip
    assert plan.scale == "1:1"
    (outline,) = drawn(plan.svg, "rect", "outline")
    left, bottom = float(outline["x"]), float(outline["y"]) + float(outline["height"])
    (ring,) = drawn(plan.svg, "circle", "red")
    assert (float(ring["cx"]) - left, bottom - float(ring["cy"]), float(ring["r"])) == (30, 10, 5)
    assert ring["stroke"] == "#b1271b"
    line = drawn(plan.svg, "path", "red")[0]
    assert line["d"] == f"M{left + 30:g} {bottom - 10:g} L{left + 50:g} {bottom - 10:g}"
    root = ElementTree.fromstring(plan.svg)
    assert [each.text for each in root.iter(f"{SVG}text") if each.get("class") == "red"] == [
        "edge distance 3.6 d"
    ]
    says = root.find(f"{SVG}desc")
    assert says is not None
    assert says.text == "In red: too near & dear."


@pytest.mark.parametrize("width", [170.0, 86.0])
@pytest.mark.parametrize("u", [-4000.0, -12.0, 0.0, 250.0, 500.0, 512.0, 9e4])
def test_red_words_stay_on_the_paper_and_off_other_words(u: float, width: float) -> None:
    holes = [PlanHole(index + 1, 40.0 * index, 30, 6) for index in range(12)]
    marks = [PlanMark(u, 30, 3, "hole out of the face by 12 mm"), PlanMark(240, 30, 3, "holes meet")]
    plan = face_plan(
        (0, 500), (0, 60), holes, title="P", marks=marks, paper_width_mm=width, paper_height_mm=110
    )
    assert plan.width_mm <= width
    lines = [
        each for each in ElementTree.fromstring(plan.svg).iter(f"{SVG}text") if each.get("class") == "red"
    ]
    assert "".join(each.text or "" for each in lines).replace(" ", "").count("holesmeet") == 1
    for each in lines:
        size = text_width(each.text or "", 3.0)
        x = float(each.attrib["x"])
        left, right = (x, x + size) if each.get("text-anchor") == "start" else (x - size, x)
        assert left > 0
        assert right < plan.width_mm


@pytest.mark.parametrize("words", ["edge of metal 1 D", "hole out of the face by 12 mm"])
def test_a_part_much_narrower_than_its_red_words_leaves_room_for_them(words: str) -> None:
    """A disc 4 mm by 200: at 1:2 it is 2 mm broad on the paper, the words more than 20."""
    marks = [PlanMark(2, 100, 2, words)]
    plan = face_plan((0, 4), (0, 200), [], title="P", marks=marks, paper_width_mm=86, paper_height_mm=110)
    assert plan.width_mm <= 86
    red = [each for each in ElementTree.fromstring(plan.svg).iter(f"{SVG}text") if each.get("class") == "red"]
    assert red
    for each in red:
        size, x = text_width(each.text or "", 3.0), float(each.attrib["x"])
        left, right = (x, x + size) if each.get("text-anchor") == "start" else (x - size, x)
        assert left > 0
        assert right < plan.width_mm


def test_a_plan_without_marks_is_as_it_was() -> None:
    holes = [PlanHole(1, 50, 25, 4)]
    assert face_plan((0, 100), (0, 50), holes, title="P", marks=[]) == face_plan(
        (0, 100), (0, 50), holes, title="P"
    )


def test_a_plan_to_work_on_says_where_its_datum_is_and_what_each_hole_is() -> None:
    """A script turns a place of the paper into u, v by these alone; each circle lies where they say."""
    chance = random.Random(6)
    holes = [
        PlanHole(n, round(chance.uniform(5, 395), 2), round(chance.uniform(5, 145), 2), 4, tapped=n == 2)
        for n in range(1, 9)
    ]
    handles = {
        1: PlanHandle('hole 1, 4 & "more"', key="h1", seen="top: dia 4 at 1,2", is_free=True),
        2: PlanHandle("hole 2", joint="F01", place="3", follows="F01 on P01 top"),
    }
    svg = face_plan((0, 400), (0, 150), holes, title="P", handles=handles).svg
    root = ElementTree.fromstring(svg)
    x, y = map(float, root.attrib["data-datum"].split())
    scale = float(root.attrib["data-scale"])
    assert (root.attrib["data-u-range"], root.attrib["data-v-range"]) == ("0 400", "0 150")
    groups = [each for each in root.iter(f"{SVG}g") if each.get("class") == "at-hole"]
    assert [each.get("data-hole") for each in groups] == ["1", "2"]
    for each in groups:
        circle = next(one for one in each.iter(f"{SVG}circle") if one.get("class") == "hole")
        u, v = float(each.attrib["data-u"]), float(each.attrib["data-v"])
        assert (float(circle.attrib["cx"]) - x) / scale == pytest.approx(u, abs=0.01)
        assert (y - float(circle.attrib["cy"])) / scale == pytest.approx(v, abs=0.01)
    first, second = (each.attrib for each in groups)
    assert (first["data-words"], first["data-key"], "data-free" in first) == (
        'hole 1, 4 & "more"',
        "h1",
        True,
    )
    assert (second["data-follows"], second["data-place"], "data-free" in second) == (
        "F01 on P01 top",
        "3",
        False,
    )
    numbers = [each.get("data-number") for each in root.iter(f"{SVG}g") if each.get("data-number")]
    assert numbers == ["1", "2"]
    plain = face_plan((0, 400), (0, 150), holes, title="P").svg
    assert "data-" not in plain
    assert len(list(ElementTree.fromstring(plain).iter(f"{SVG}circle"))) == len(
        list(root.iter(f"{SVG}circle"))
    )


def test_a_side_laid_flat_says_how_far_around_a_millimetre_goes() -> None:
    root = ElementTree.fromstring(
        face_plan((0, 100), (-31.4, 31.4), [], title="P", handles={}, around_deg=360).svg
    )
    assert float(root.attrib["data-degrees"]) == pytest.approx(360 / 62.8)
