"""Pictures of springs: to scale, on the sheet, with the numbers in words."""

import re
from xml.etree import ElementTree

import pytest

from calculators.calculation.answering import answer, pictures_of
from calculators.catalogue import find_calculator

PRESSED = {
    "wire": "1.2", "outside_diameter": "12", "active_coils": "8", "material": "music-wire", "free_length": "40",
    "working_length": "25",
}  # fmt: skip
PULLED = {
    "kind": "extension", "wire": "1", "mean_diameter": "8", "total_coils": "20.25", "material": "music-wire",
    "initial_tension": "5", "working_length": "55",
}  # fmt: skip
WOUND = {
    "kind": "torsion", "wire": "1.8", "outside_diameter": "15", "total_coils": "4.25", "material": "music-wire",
    "working_angle": "70", "legs": "50", "arm": "25", "mandrel": "10",
}  # fmt: skip
CASES = {
    "compression": ("spring", PRESSED),
    "open ends": ("spring", PRESSED | {"ends": "open"}),
    "not ground": ("spring", PRESSED | {"ends": "closed"}),
    "many coils": (
        "spring",
        PRESSED | {"active_coils": "100", "free_length": "300", "working_length": "200"},
    ),
    "thin wire": ("spring", PRESSED | {"wire": "0.05", "outside_diameter": "12"}),
    "free alone": ("spring", {key: PRESSED[key] for key in PRESSED if key != "working_length"}),
    "extension": ("spring", PULLED),
    "half hook": ("spring", PULLED | {"ends": "half-hook"}),
    "plug": ("spring", PULLED | {"ends": "plug"}),
    "slack": ("spring", PULLED | {"working_length": "20"}),
    "torsion": ("spring", WOUND),
    "torsion at rest": ("spring", {key: WOUND[key] for key in WOUND if key != "working_angle"}),
    "side by side": ("spring-pair", {"springs": "2, 0, 40, 22, outer; 1.5, 0, 35, 20, inner", "load": "38"}),
    "end to end": ("spring-pair", {"springs": "2, 3; 1, 0", "load": "9", "arrangement": "end-to-end"}),
    "offered": ("spring-choice", find_calculator("spring-choice").example),
    "offered to pull": (
        "spring-choice",
        {"kind": "extension", "rate": "0.5", "load": "15", "largest_outside": "14", "longest_free": "60"},
    ),
}


def drawn(name):
    calculator, given = CASES[name]
    found = find_calculator(calculator)
    return pictures_of(found, given, answer(found, given))


def points(svg):
    """All points of paths and the middles of circles, with the sheet's width and height."""
    root = ElementTree.fromstring(svg)
    width, height = (float(each) for each in root.attrib["viewBox"].split()[2:])
    found = []
    for each in root.iter():
        if "d" in each.attrib:
            numbers = list(map(float, re.findall(r"-?[\d.]+", each.attrib["d"])))
            found += list(zip(numbers[::2], numbers[1::2], strict=True))
    return found, width, height


@pytest.mark.parametrize("name", list(CASES))
def test_everything_lies_on_the_sheet(name):
    pictures = drawn(name)
    assert pictures
    for picture in pictures:
        for svg, wide in ((picture.svg, 170), (picture.narrow, 90)):
            found, width, height = points(svg)
            assert width == wide
            assert height < 130
            assert all(-0.5 <= x <= width + 0.5 and -0.5 <= y <= height + 0.5 for x, y in found)


@pytest.mark.parametrize("name", list(CASES))
def test_letters_are_read_at_arms_length_and_none_overprints(name):
    for picture in drawn(name):
        for svg in (picture.svg, picture.narrow):
            root = ElementTree.fromstring(svg)
            assert root.find("{*}title").text
            assert root.find("{*}desc").text
            texts = [each for each in root.iter() if each.tag.endswith("text")]
            assert all(float(each.attrib["font-size"]) >= 3.4 for each in texts)
            places = [(each.attrib["x"], each.attrib["y"]) for each in texts]
            assert len(places) == len(set(places))


def test_the_lengths_are_to_one_scale():
    """The centre lines stand 2 mm over each end: free 40, at work 25, solid 12 mm keep their proportion."""
    root = ElementTree.fromstring(drawn("compression")[0].svg)
    axes = [each.attrib["d"] for each in root.iter() if each.attrib.get("class") == "centre"]
    heights = []
    for axis in axes:
        numbers = list(map(float, re.findall(r"-?[\d.]+", axis)))
        heights.append(abs(numbers[3] - numbers[1]) - 4)
    assert len(heights) == 3
    assert heights[1] / heights[0] == pytest.approx(25 / 40, abs=0.01)
    assert heights[2] / heights[0] == pytest.approx(12 / 40, abs=0.01)


def test_as_many_turns_are_drawn_as_the_spring_has():
    """Fronts of turns: each is drawn as an edge and a light within; ten coils, three lengths."""
    svg = drawn("compression")[0].svg
    fronts = re.findall(r'd="([^"]*)" stroke="#dde5e8"', svg)
    assert len(fronts) == 3 * 10


def test_what_is_too_much_is_red():
    over = drawn("compression")[1].svg
    assert "limit of stress" in over
    assert 'class="finding"' in over
    fine = find_calculator("spring")
    given = PRESSED | {"free_length": "20", "working_length": "18"}
    svg = pictures_of(fine, given, answer(fine, given))[1].svg
    assert re.search(r'<circle[^>]*fill="#b1271b"', over)
    assert not re.search(r'<circle[^>]*fill="#b1271b"', svg)


def test_the_numbers_are_in_the_words():
    row, chart = drawn("compression")
    assert "free 40 mm, 0 N; at work 25 mm, 31.52 N; solid 12 mm, 58.84 N" in row.svg
    assert "31.52" in chart.caption
    assert "wound up by 70 deg" in drawn("torsion")[0].caption
    assert "solid at 22" in drawn("side by side")[0].caption


def test_without_a_free_length_nothing_is_drawn():
    calculator = find_calculator("spring")
    given = {key: PRESSED[key] for key in PRESSED if not key.endswith("_length")}
    assert pictures_of(calculator, given, answer(calculator, given)) == ()
