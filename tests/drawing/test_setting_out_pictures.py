"""Pictures of what is set out: true to the numbers, words clear of each other, and red where it is wrong."""

from __future__ import annotations

import math
import re
from itertools import combinations
from xml.etree import ElementTree

import pytest

from calculators.calculation.answering import answer, pictures_of
from calculators.catalogue import find_calculator
from calculators.drawing.lettering import text_width
from calculators.drawing.sketch import Sketch, round_line
from calculators.drawing.svg import RED

SVG = "{http://www.w3.org/2000/svg}"


def pictures(name, **given):
    calculator = find_calculator(name)
    return pictures_of(calculator, given, answer(calculator, given))


def svgs(name, **given):
    return [svg for each in pictures(name, **given) for svg in (each.svg, each.narrow)]


CASES = {
    "circle-of-holes": {"diameter": "72", "count": "6", "hole": "5.5"},
    "row-of-holes": {
        "length": "360",
        "count": "6",
        "margin": "30",
        "rows": "2",
        "width": "80",
        "side_margin": "20",
    },
    "divide-length": {"length": "1000", "count": "9", "width": "20"},
    "rebate": {"part": "60 x 30 x 5 r 3", "cutter": "12.7", "board": "19"},
    "bend-allowance": {"thickness": "1.2", "radius": "1.5", "legs": "20; 30; 20"},
    "arc": {"chord": "800", "height": "100"},
    "taper": {"large": "20", "small": "16", "length": "80"},
    "compound-angle": {"sides": "4", "lean": "15"},
    "splayed-leg": {"along": "10", "across": "6", "height": "400"},
    "blind-hole": {"designation": "M5", "full_thread": "8", "thickness": "15"},
    "sine-bar": {"length": "100", "angle": "27"},
    "right-triangle": {"base": "300", "height": "400"},
    "square-check": {"length": "800", "width": "600", "diagonal": "998", "other_diagonal": "1002"},
    "polygon": {"sides": "6", "across_flats": "10"},
    "countersink": {"head_diameter": "8.96", "hole": "4", "thickness": "6"},
    "hole-allowance": {"designation": "M5", "hole": "5.5"},
}
CROWDED = (
    ("circle-of-holes", {"diameter": "200", "count": "48", "hole": "6"}),
    ("circle-of-holes", {"diameter": "72", "count": "5", "arc": "120", "centre": "100, 60"}),
    ("arc", {"chord": "300", "height": "400"}),
    ("arc", {"chord": "800", "height": "5", "divisions": "40"}),
    ("bend-allowance", {"thickness": "1", "radius": "2", "legs": "20, 45; 30, 90, 3, down; 20"}),
    ("rebate", {"part": "60 x 30 x 5", "cutter": "30", "clearance": "0"}),
    ("blind-hole", {"designation": "M5", "full_thread": "8", "thickness": "12"}),
    ("countersink", {"head_diameter": "8.4", "hole": "4", "thickness": "2"}),
    ("sine-bar", {"length": "100", "angle": "60"}),
    ("polygon", {"sides": "3", "side": "10"}),
)


def words(svg):
    """The boxes of all words [mm]; those that are turned read upwards and end at their place."""
    found = []
    for text in ElementTree.fromstring(svg).iter(f"{SVG}text"):
        x, y, size = (float(text.get(key)) for key in ("x", "y", "font-size"))
        wide, anchor = 0.88 * text_width(text.text, size), text.get("text-anchor")
        if text.get("transform"):
            assert anchor == "end"
            found.append((x - 0.72 * size, y, x, y + wide, text.text))
            continue
        left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
        found.append((left, y - 0.72 * size, left + wide, y, text.text))
    return found


@pytest.mark.parametrize(("name", "given"), [*CASES.items(), *CROWDED])
def test_words_do_not_overlap_and_stay_on_the_sheet(name, given):
    for each in pictures(name, **given):
        for svg, width in ((each.svg, 170), (each.narrow, 90)):
            boxes = words(svg)
            assert boxes
            for box in boxes:
                assert box[0] >= -0.5, box
                assert box[2] <= width + 0.5, box
            for a, b in combinations(boxes, 2):
                apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
                assert apart, (a, b)


@pytest.mark.parametrize("name", CASES)
def test_letters_are_large_enough_and_the_numbers_are_said_in_words(name):
    for each in pictures(name, **CASES[name]):
        for svg, least, width in ((each.svg, 3.2, "170mm"), (each.narrow, 3.6, "90mm")):
            root = ElementTree.fromstring(svg)
            assert root.get("width") == width
            assert all(float(text.get("font-size")) >= least for text in root.iter(f"{SVG}text"))
            says = root.find(f"{SVG}desc").text
            assert re.search(r"\d", says)
            assert says.endswith(".")
            assert root.find(f"{SVG}title").text == each.title


@pytest.mark.parametrize(
    ("name", "right", "wrong"),
    [
        ("circle-of-holes", {"diameter": "10", "count": "6", "hole": "4"}, {"diameter": "10", "count": "6", "hole": "5.5"}),
        ("row-of-holes", {"length": "300", "count": "4", "hole": "9"}, {"length": "30", "count": "4", "hole": "11"}),
        ("rebate", {"part": "60 x 30 x 5 r 6", "cutter": "12"}, {"part": "60 x 30 x 5", "cutter": "12"}),
        ("countersink", {"head_diameter": "8", "hole": "4", "thickness": "4"},
         {"head_diameter": "8", "hole": "4", "thickness": "1.5"}),
        ("blind-hole", {"designation": "M5", "full_thread": "8", "thickness": "20"},
         {"designation": "M5", "full_thread": "8", "thickness": "12"}),
    ],
)  # fmt: skip
def test_what_is_wrong_is_red_and_nothing_else(name, right, wrong):
    assert all(RED not in svg for svg in svgs(name, **right))
    assert all(RED in svg for svg in svgs(name, **wrong))


def shape_points(svg, line, place=0):
    path = [one for one in ElementTree.fromstring(svg).iter(f"{SVG}path") if one.get("class") == line][place]
    return [tuple(map(float, pair.split())) for pair in re.findall(r"-?[\d.]+ -?[\d.]+", path.get("d"))]


def test_the_arc_is_drawn_in_proportion():
    """800 by 100: the drawn curve is eight times as wide as it is high."""
    (svg, _narrow) = svgs("arc", chord="800", height="100")
    points = shape_points(svg, "outline")
    wide = max(x for x, _ in points) - min(x for x, _ in points)
    high = max(y for _, y in points) - min(y for _, y in points)
    assert wide / high == pytest.approx(8, rel=0.01)


def test_the_countersink_is_drawn_at_its_angle():
    """The cone's side of a 90 degree countersink falls as much as it runs in."""
    svg = svgs("countersink", head_diameter="8.96", hole="4", thickness="6")[0]
    outline = shape_points(svg, "outline")
    # The first line runs along the face to the mouth, then down the cone.
    (x1, y1), (x2, y2) = outline[1], outline[2]
    assert abs(x2 - x1) == pytest.approx(abs(y2 - y1), abs=0.03)
    scale = abs(outline[0][0]) and abs(y2 - y1) / 2.48
    assert scale > 0


def test_the_bent_section_keeps_its_thickness_all_along():
    """Points of the lower face paired with those of the upper one, which runs back: one thickness apart."""
    svg = svgs("bend-allowance", thickness="2", radius="3", angle="60", legs="30; 30")[0]
    points = shape_points(svg, "outline")
    half = len(points) // 2
    apart = [math.dist(a, b) for a, b in zip(points[:half], reversed(points[half:]), strict=True)]
    assert max(apart) == pytest.approx(min(apart), abs=0.03)


def test_the_flat_strip_shows_each_bend_at_its_place():
    each = pictures("bend-allowance", thickness="1.2", radius="1.5", legs="20; 30; 20")[1]
    result = answer(find_calculator("bend-allowance"), CASES["bend-allowance"])
    middles = [one["middle"] for one in result.results["bend_lines"].value]
    written = [word for *_, word in words(each.svg)]
    assert [f"{middle:.1f}" for middle in middles] == written[1:3]


def test_a_sketch_maps_reality_to_the_sheet_in_one_scale():
    sketch = Sketch((0, 0, 100, 50), 170, sides_mm=(10, 10), tallest_mm=90)
    assert sketch.scale == pytest.approx(1.5)
    assert sketch.at((0, 50)) == pytest.approx((10, 0))
    assert sketch.at((100, 0)) == pytest.approx((160, 75))
    points = round_line((0, 0), 10)
    assert all(math.hypot(*point) == pytest.approx(10) for point in points)
    assert points[0] == pytest.approx(points[-1])


def test_nothing_is_drawn_where_it_would_be_a_line():
    assert pictures("right-triangle", base="1000", height="1") == ()
    assert pictures("taper", angle="3") == ()
