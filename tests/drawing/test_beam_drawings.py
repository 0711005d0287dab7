"""The drawings of beams and sections: words on the sheet and off one another, lines where the numbers are."""

import re
from xml.etree import ElementTree

import pytest

from calculators.drawing.beam_marks import load_words, rows_of_words
from calculators.drawing.beams import Sketch, beam_pictures, exaggeration
from calculators.drawing.lettering import text_width
from calculators.drawing.profiles import section_picture
from calculators.mechanics.beams.cases import supports_of
from calculators.mechanics.beams.line import Load, Support, bend
from calculators.mechanics.shapes import read_section

SVG = "{http://www.w3.org/2000/svg}"
CASES = {
    "resting": (600.0, supports_of("simply-supported", 600), [Load(300, 100)], 600.0),
    "held": (600.0, supports_of("cantilever", 600), [Load(0, 80, 600), Load(600, moment_n_mm=-5000)], 600.0),
    "crowded": (
        900.0,
        supports_of("overhanging", 600),
        [Load(10.0 * k, 12.5, 10.0 * k + 5 if k % 2 else None) for k in range(20)],
        600.0,
    ),
    "three": (1000.0, [Support(100), Support(150), Support(1000)], [Load(500, -40)], 1000.0),
}


def boxes(svg):
    root = ElementTree.fromstring(svg)
    wide, high = (float(each) for each in root.get("viewBox").split()[2:])
    found = []
    for each in root.iter(f"{SVG}text"):
        x, y, size = (float(each.get(key)) for key in ("x", "y", "font-size"))
        width = text_width(each.text, size)
        left = x - {"start": 0, "middle": width / 2, "end": width}[each.get("text-anchor")]
        found.append((each.text, left, y - 0.75 * size, left + width, y + 0.15 * size, size))
    return wide, high, found


def pictures(name, section):
    length, supports, loads, span = CASES[name]
    sketch = Sketch(tuple(supports), tuple(loads), section, span)
    return beam_pictures(bend(length, supports, loads, 1e9), sketch)


@pytest.mark.parametrize("name", list(CASES))
@pytest.mark.parametrize("broad", [True, False])
def test_words_lie_on_the_sheet_and_off_one_another(name, broad):
    for picture in pictures(name, read_section("I 46 x 80 x 4 x 5")):
        wide, high, words = boxes(picture.svg if broad else picture.narrow)
        assert wide == (170 if broad else 90)
        for text, left, top, right, bottom, size in words:
            assert size >= (3.2 if broad else 3.6), text
            assert left >= 0, text
            assert right <= wide + 0.5, text
            assert top >= 0, text
            assert bottom <= high, text
        for place, (one, *box, _) in enumerate(words):
            for other, *that, _ in words[place + 1 :]:
                apart = box[2] <= that[0] or that[2] <= box[0] or box[3] <= that[1] or that[3] <= box[1]
                assert apart, (one, other)


def test_the_description_says_the_numbers():
    svg = pictures("resting", None)[0].svg
    said = ElementTree.fromstring(svg).find(f"{SVG}desc").text
    assert "The support at 0 mm pushes 50 N up." in said
    assert "It bends most at 300 mm, 0.45 mm down." in said
    assert "The greatest moment is 15 N m at 300 mm" in said


def test_the_bent_line_is_drawn_so_many_times_too_large():
    length, supports, loads, span = CASES["resting"]
    bent = bend(length, supports, loads, 1e9)
    times = exaggeration(bent, 170)
    svg = beam_pictures(bent, Sketch(tuple(supports), tuple(loads), None, span))[0].svg
    assert f"bent line, {times:g} times: greatest 0.45 mm" in svg
    curve = next(
        line for line in re.findall(r'class="outline" d="([^"]+)" fill="none"', svg) if "Z" not in line
    )
    heights = [float(y) for y in re.findall(r"[ML][-\d.]+ ([-\d.]+)", curve)]
    scale = (170 - 28) / length
    assert max(heights) - min(heights) == pytest.approx(0.45 * times * scale, abs=0.02)


@pytest.mark.parametrize(
    "written", ["angle 30 x 30 x 3", "tube 25 x 2", "rectangle 3 x 900", "rectangle 900 x 3"]
)
def test_a_section_is_drawn_to_the_scale_that_it_states(written):
    section = read_section(written)
    picture = section_picture(section)
    shown = re.search(r"Drawn (\d+):(\d+);", picture.caption)
    scale = int(shown[1]) / int(shown[2])
    outline = re.search(r'class="outline" d="([^"]+)"', picture.svg)[1]
    points = [(float(x), float(y)) for x, y in re.findall(r"[ML]([-\d.]+) ([-\d.]+)", outline)]
    wide = max(x for x, _ in points) - min(x for x, _ in points)
    assert wide == pytest.approx(section.width_mm * scale, abs=0.03)


def test_the_neutral_axis_is_drawn_at_the_centroid():
    section = read_section("T 60 x 60 x 20 x 20")
    svg = section_picture(section).svg
    level = float(re.search(r'class="centre" d="M[-\d.]+ ([-\d.]+)L', svg)[1])
    outline = re.search(r'class="outline" d="([^"]+)"', svg)[1]
    lowest = max(float(y) for _, y in re.findall(r"[ML]([-\d.]+) ([-\d.]+)", outline))
    scale = 1 / 2 if "1:2;" in section_picture(section).caption else 1
    assert (lowest - level) / scale == pytest.approx(38, abs=0.05)


def test_loads_in_words_and_rows():
    assert load_words(Load(0, 5, None, -2000)) == "5 N, 2 N m anticlockwise"
    assert load_words(Load(0, -5, 3)) == "5 N upward spread"
    rows = rows_of_words([(10, "20 N"), (12, "20 N"), (80, "20 N")], 100, 3.4)
    assert [row for _, row, _ in rows] == [0, 1, 0]
