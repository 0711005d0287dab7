"""Pictures of strength: all lettering within the sheet, none over another, sizes to scale."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.drawing.lettering import text_width
from calculators.drawing.strength import Bar, held_screw_pictures, load_bars
from calculators.mechanics.held_screw import HeldScrew, held_loads
from calculators.mechanics.screws_in_wood import KINDS

TEXT = re.compile(
    r'<text class="(\w+)" x="([-\d.]+)" y="([-\d.]+)" font-size="([\d.]+)" text-anchor="(\w+)"[^>]*?'
    r'( transform="[^"]*")?>([^<]*)</text>'
)
SIZE = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')


def boxes(svg):
    """Each lettering's words with its box: left, top, right, bottom (widths as the lettering is estimated)."""
    found = []
    for _, x, y, size, anchor, turned, words in TEXT.findall(svg):
        at_x, at_y, letter = float(x), float(y), float(size)
        wide = text_width(words.replace("&#x27;", "'"), letter)
        back = {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
        if turned:
            found.append(
                (words, (at_x - 0.8 * letter, at_y - wide / 2, at_x + 0.2 * letter, at_y + wide / 2))
            )
        else:
            left = at_x - back
            found.append((words, (left, at_y - 0.8 * letter, left + wide, at_y + 0.2 * letter)))
    return found


def check_lettering(svg):
    wide, high = map(float, SIZE.search(svg).groups())
    every = boxes(svg)
    assert every
    for place, (words, (left, top, right, bottom)) in enumerate(every):
        assert left >= -0.01, words
        assert top >= -0.01, words
        assert right <= wide + 0.01, words
        assert bottom <= high + 0.01, words
        for other, (left_2, top_2, right_2, bottom_2) in every[place + 1 :]:
            apart = right <= left_2 or right_2 <= left or bottom <= top_2 + 0.3 or bottom_2 <= top + 0.3
            assert apart, (words, other)
    assert min(float(size) for size in re.findall(r'font-size="([\d.]+)"', svg)) >= 3.2


screws = st.builds(
    HeldScrew,
    kind=st.sampled_from(KINDS),
    shank_mm=st.floats(1.5, 20),
    root_mm=st.just(1.0),
    penetration_mm=st.floats(5, 400),
    gravity=st.floats(0.3, 0.9),
    grain=st.sampled_from(["side", "end"]),
    side_mm=st.none() | st.floats(2, 200),
    head_mm=st.none() | st.floats(21, 40),
    side_gravity=st.just(0.5),
)


@settings(max_examples=60, deadline=None)
@given(screw=screws)
def test_nothing_in_the_section_or_the_bars_overprints(screw):
    for picture in held_screw_pictures(screw, held_loads(screw)):
        check_lettering(picture.svg)
        check_lettering(picture.narrow)


@settings(max_examples=60, deadline=None)
@given(
    values=st.lists(st.just(0.0) | st.floats(1e-3, 1e6), min_size=1, max_size=8).filter(
        lambda each: max(each) > 0
    ),
    unit=st.sampled_from(["N", "N m", "MPa"]),
)
def test_bars_of_any_loads_keep_on_the_sheet(values, unit):
    bars = [Bar(f"load number {place}", value) for place, value in enumerate(values)]
    picture = load_bars(bars, title="Loads", unit=unit)
    check_lettering(picture.svg)
    check_lettering(picture.narrow)


def test_bars_are_to_one_scale():
    picture = load_bars([Bar("whole", 1000), Bar("half", 500), Bar("wrong", 250, wrong=True)], title="Loads")
    found = re.findall(r'<path class="(\w+)" d="M([\d.]+) [\d.]+L([\d.]+) ', picture.svg)
    lengths = [float(right) - float(left) for line, left, right in found if line in ("edge", "finding")]
    assert lengths[1] / lengths[0] == pytest.approx(0.5, abs=0.001)
    assert lengths[2] / lengths[0] == pytest.approx(0.25, abs=0.001)
    assert [line for line, *_ in found][:3] == ["edge", "edge", "finding"]


def test_the_section_is_to_scale():
    """Of one piece of 20 mm under the head and 40 mm of screw, the dimension lines are as one to two."""
    screw = HeldScrew(
        kind="wood screw",
        shank_mm=5,
        root_mm=3.3,
        penetration_mm=40,
        gravity=0.6,
        side_mm=20,
        head_mm=10,
        hole_mm=5,
    )
    section = held_screw_pictures(screw, held_loads(screw))[0]
    for svg in (section.svg, section.narrow):
        upright = [
            abs(float(end) - float(start))
            for x, start, to_x, end in re.findall(
                r'class="dimension" d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)"', svg
            )
            if x == to_x
        ]
        assert upright[0] == pytest.approx(2 * upright[1], abs=0.03)
