"""Threads drawn to scale: the same numbers as the calculator's, words inside the sheet, red where metal meets."""

import re
from itertools import combinations
from xml.etree import ElementTree

import pytest

from calculators.drawing.lettering import text_width
from calculators.drawing.thread_form import thread_pair, thread_picture, wires_in_thread
from calculators.drawing.thread_zones import zones_picture
from calculators.hardware.thread_comparison import compare_threads
from calculators.hardware.thread_identification import Measured, candidates, zone_of
from calculators.hardware.thread_wires import best_wire_mm, wire_range_mm
from calculators.hardware.threads import all_threads, find_thread

NAMES = ("M1 x 0.2", "M6", "M48", "0-80 UNF", "1/2 BSW", "3/16 BSF", "16 BA", "2 BA", "2 BSW", "1/4 x 40 ME")
SPACE = "{http://www.w3.org/2000/svg}"


def compared(screw, nut):
    one, other = find_thread(screw), find_thread(nut)
    return compare_threads(one, other, one.major_mm)


def pictures():
    for name in NAMES:
        thread = find_thread(name)
        yield from thread_picture(thread)
        for wire in (best_wire_mm(thread.pitch_mm, thread.angle_deg), *wire_range_mm(thread)):
            yield from wires_in_thread(thread, wire)
    for screw, nut in (
        ("2 BA", "3/16 BSF"),
        ("M5", "10-32"),
        ("0 BA", "M6"),
        ("1/2 BSW", "1/2 UNC"),
        ("M6", "M6"),
    ):
        yield from thread_pair(compared(screw, nut))


def words_apart(picture, svg, width):
    """Words are large enough, inside the sheet and off each other; the drawing has its title and description."""
    root = ElementTree.fromstring(svg)
    boxes = []
    for text in root.iter(f"{SPACE}text"):
        size, x, y = (float(text.get(name)) for name in ("font-size", "x", "y"))
        assert size >= (3.2 if width == 170 else 3.6)
        wide = text_width(text.text, size)
        left = x - {"start": 0, "middle": wide / 2, "end": wide}[text.get("text-anchor")]
        # The estimate of a width is rather too wide than too narrow: 6 %.
        assert left >= -0.5, (picture.title, text.text)
        assert left + 0.94 * wide <= width, (picture.title, text.text)
        boxes.append((left, y - 0.72 * size, left + 0.94 * wide, y + 0.2 * size, text.text))
    for one, other in combinations(boxes, 2):
        apart = one[0] >= other[2] or other[0] >= one[2] or one[1] >= other[3] or other[1] >= one[3]
        assert apart, (picture.title, one[4], other[4])
    assert root.find(f"{SPACE}title").text == picture.title
    assert len(root.find(f"{SPACE}desc").text) > 60


@pytest.mark.parametrize("which", ["svg", "narrow"])
def test_words_stand_inside_the_sheet_and_off_each_other(which):
    seen = 0
    for picture in pictures():
        root = ElementTree.fromstring(getattr(picture, which))
        width = float(root.get("width").removesuffix("mm"))
        assert width == (170 if which == "svg" else 90)
        words_apart(picture, getattr(picture, which), width)
        seen += 1
    assert seen == 4 * len(NAMES) + 5


READINGS = (
    Measured(4.70, 0.05, 25.4 / 32, 0.02),
    Measured(6.33, 0.02, 25.4 / 28, 0.02),
    Measured(12.7, 2.0, 1.27, 0.1),
    Measured(0.8, 0.001, 0.2, 0.005),
    Measured(25, 0.05, 1.5, 0.04, internal=True),
    Measured(80, 0.05, 12, 0.3),
)


@pytest.mark.parametrize("which", ["svg", "narrow"])
@pytest.mark.parametrize("reading", READINGS)
def test_zones_keep_their_words_apart(which, reading):
    (picture,) = zones_picture(reading, candidates(reading))
    words_apart(picture, getattr(picture, which), 170 if which == "svg" else 90)


def test_zones_are_drawn_at_their_sizes():
    """Every bar's ends, measured on the sheet against the divisions, are the zone's own."""
    (picture,) = zones_picture(READINGS[0], candidates(READINGS[0]))
    root = ElementTree.fromstring(picture.svg)
    ticks = {}
    for text in root.iter(f"{SPACE}text"):
        if re.fullmatch(r"[\d.]+", text.text):
            ticks[float(text.text)] = float(text.get("x"))
    (low, low_x), *_, (high, high_x) = sorted(ticks.items())
    bars = [path.get("d") for path in root.iter(f"{SPACE}path") if path.get("class") == "thin"]
    for bar, each in zip(bars, candidates(READINGS[0]), strict=True):
        ends = [float(x) for x in re.findall(r"[ML]([\d.]+) ", bar)]
        zone = zone_of(each.thread)
        for x, size in zip(ends, (zone.outer_least, zone.outer_most), strict=True):
            assert low + (x - low_x) / (high_x - low_x) * (high - low) == pytest.approx(size, abs=0.0002)


def red(svg):
    return re.findall(r'<path class="none" d="([^"]+)" fill="#b1271b"', svg)


@pytest.mark.parametrize(
    ("screw", "nut", "fouls"),
    [("2 BA", "3/16 BSF", True), ("M5", "10-32", True), ("10-32", "M5", False), ("0 BA", "M6", False),
     ("M6", "M6", False), ("1/2 BSW", "1/2 UNC", True)],
)  # fmt: skip
def test_red_is_drawn_where_and_only_where_they_foul(screw, nut, fouls):
    (picture,) = thread_pair(compared(screw, nut))
    assert bool(red(picture.svg)) == fouls


def test_the_first_turns_that_are_still_free_have_no_red():
    """2 BA in 3/16 BSF binds after 3.3 turns: the first three teeth of the six are clear of the nut."""
    (picture,) = thread_pair(compared("2 BA", "3/16 BSF"))
    xs = [float(x) for data in red(picture.svg) for x in re.findall(r"[ML]([\d.]+) ", data)]
    assert min(xs) > 3 * 162 / 6 + 4


def test_the_form_is_to_scale():
    """Two crests lie a pitch apart, as far as their dimension says, at the scale that is written."""
    (picture,) = thread_picture(find_thread("M6"))
    assert "p 1<" in picture.svg
    assert "major 6.000" in picture.svg
    assert "pitch 5.350" in picture.svg
    assert "minor 4.917" in picture.svg
    assert "60°" in picture.svg
    scale = float(re.search(r"Scale ([\d.]+) : 1", picture.svg)[1])
    # The outline is clipped to three pitches and is 170 - 6 - 44 mm wide on the sheet.
    assert scale * 3 == pytest.approx(170 - 6 - 44, abs=0.5 * 3)


def test_nothing_is_drawn_of_what_never_meets():
    assert thread_pair(compared("M4", "M8")) == ()
    assert thread_pair(compare_threads(find_thread("M8"), find_thread("M8"), 8, same_hand=False)) == ()


def test_every_thread_of_the_tables_can_be_drawn():
    for thread in all_threads():
        assert thread_picture(thread)[0].narrow
        assert thread_pair(compare_threads(thread, thread, thread.major_mm))
