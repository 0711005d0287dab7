"""Charts: round divisions that cover the range, words that keep off one another, numbers of every size."""

from __future__ import annotations

import math
import re
from itertools import combinations, pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.drawing.chart import BROAD_MM, NARROW_MM, Axis, Bound, Curve, Spot, chart, divisions
from calculators.drawing.lettering import text_width
from calculators.drawing.word_placing import Words, around, box_of, closely, written

SVG = "{http://www.w3.org/2000/svg}"


def boxes(svg: str) -> list[tuple[str, tuple[float, float, float, float]]]:
    """Every line of lettering with the box that it fills; lines of one label are one word to the test."""
    found = []
    for each in ElementTree.fromstring(svg).iter(f"{SVG}text"):
        x, y, size = (float(each.attrib[name]) for name in ("x", "y", "font-size"))
        wide = text_width(each.text or "", size)
        left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[each.attrib["text-anchor"]]
        found.append((each.text or "", (left, y - 0.8 * size, left + wide, y + 0.2 * size)))
    return found


def overprinted(svg: str) -> list[tuple[str, str]]:
    off = 0.02  # coordinates are written to a hundredth
    return [
        (one, other)
        for (one, a), (other, b) in combinations(boxes(svg), 2)
        if a[0] < b[2] - off and b[0] < a[2] - off and a[1] < b[3] - off and b[1] < a[3] - off
    ]


def size_of(svg: str) -> tuple[float, float]:
    _, _, wide, high = map(float, ElementTree.fromstring(svg).attrib["viewBox"].split())
    return wide, high


def outside(svg: str) -> list[str]:
    wide, high = size_of(svg)
    return [
        text
        for text, box in boxes(svg)
        if box[0] < -0.02 or box[2] > wide + 0.02 or box[1] < 0 or box[3] > high
    ]


numbers = st.floats(-1e6, 1e6) | st.floats(-1e-6, 1e-6) | st.floats(-1e15, 1e15)


@given(numbers, numbers, st.integers(2, 12))
def test_divisions_cover_the_range_in_round_steps(first, second, wanted):
    least, most = sorted((first, second))
    found = divisions(least, most, wanted)
    steps = [b - a for a, b in pairwise(found)]
    step = steps[0]
    assert 2 <= len(found) <= 2 * wanted + 3
    assert step > 0
    assert all(math.isclose(each, step, rel_tol=1e-6) for each in steps)
    assert found[0] <= least + 1e-6 * step
    assert found[-1] >= most - 1e-6 * step
    if most - least > abs(least) * 1e-9 + 1e-290:
        assert least - found[0] < step * 1.001
        assert found[-1] - most < step * 1.001
    mantissa = step / 10.0 ** math.floor(math.log10(step) + 1e-9)
    assert min(abs(mantissa - round_one) for round_one in (1, 2, 5, 10)) < 1e-4


@pytest.mark.parametrize(
    ("least", "most", "expected"),
    [
        (0, 47, (0, 10, 20, 30, 40, 50)),
        (0, 1, (0, 0.2, 0.4, 0.6, 0.8, 1)),
        (-3, 3, (-4, -2, 0, 2, 4)),
        (0.0012, 0.0078, (0, 0.002, 0.004, 0.006, 0.008)),
        (5, 5, (2, 3, 4, 5, 6, 7, 8)),
        (0, 0, (-1, -0.5, 0, 0.5, 1)),
    ],
)
def test_divisions_of_common_ranges(least, most, expected):
    assert divisions(least, most) == expected


def sample(
    *,
    spots=(),
    bounds=(),
    curves=None,
    width=BROAD_MM,
    height=80.0,
    x=None,
    y=None,
    description="A line rises.",
):
    line = curves or [Curve(tuple((t / 10, (t / 10) ** 2) for t in range(51)), "load")]
    return chart(
        x or Axis("travel", "mm"), y or Axis("load", "N"), line, title="A curve", description=description, spots=spots,
        bounds=bounds, width_mm=width, height_mm=height,
    )  # fmt: skip


def test_a_chart_says_in_words_what_it_shows():
    root = ElementTree.fromstring(sample(description="The load rises from 0 to 25 N over 5 mm."))
    assert root.findtext(f"{SVG}title") == "A curve"
    assert root.findtext(f"{SVG}desc") == "The load rises from 0 to 25 N over 5 mm."
    assert root.attrib["role"] == "img"
    assert [each for each, _ in boxes(sample())][-3:] == ["travel [mm]", "load [N]", "load"]


WORDY = st.text("abcdefghij klmnop", min_size=3, max_size=18).map(str.strip).filter(bool)


@settings(max_examples=120)
@given(
    spots=st.lists(st.tuples(st.floats(0, 5), st.floats(0, 25), WORDY), max_size=4),
    bounds=st.lists(st.tuples(st.booleans(), st.floats(0.2, 0.8), WORDY), max_size=2),
    width=st.sampled_from([BROAD_MM, NARROW_MM]),
)
def test_words_keep_off_one_another_and_inside_the_sheet(spots, bounds, width):
    svg = sample(
        spots=[Spot(x, y, says) for x, y, says in spots],
        bounds=[
            Bound(says, x=5 * part) if up else Bound(says, y=25 * part, wrong=True)
            for up, part, says in bounds
        ],
        width=width,
    )
    assert overprinted(svg) == []
    assert outside(svg) == []


def test_many_words_at_one_point_are_led_away_from_it():
    spots = [Spot(2.5, 6.25, f"reading {place}") for place in range(7)]
    svg = sample(spots=spots)
    assert overprinted(svg) == []
    assert 'class="leader"' in svg


def test_long_words_are_broken_and_stay_inside():
    long = "the largest load that the hook takes before it opens by more than a tenth of a millimetre"
    both = [Bound(long, y=20), Bound(long, x=4.9)]
    broad = sample(spots=[Spot(5, 25, long)], bounds=both)
    narrow = sample(spots=[Spot(5, 25, long)], bounds=both[:1], width=NARROW_MM)
    for svg in (broad, narrow):
        assert outside(svg) == []
        assert overprinted(svg) == []


def test_an_axis_name_that_is_too_long_is_shortened():
    svg = sample(
        width=NARROW_MM,
        x=Axis("a quantity of which very much has to be said " * 3, "mm"),
        y=Axis("another one " * 12, "N"),
    )
    assert outside(svg) == []
    assert sum("…" in text for text, _ in boxes(svg)) == 2


@pytest.mark.parametrize("value", [0.0, 5.0, -3e-9, 7e12])
def test_a_constant_curve_has_a_field(value):
    svg = sample(curves=[Curve(((0, value), (10, value)))])
    assert "nan" not in svg
    assert "inf" not in svg
    assert overprinted(svg) == []


@settings(max_examples=80)
@given(
    scale=st.integers(-14, 14),
    width=st.sampled_from([BROAD_MM, NARROW_MM]),
    offset=st.sampled_from([0.0, 1.0, -7.0]),
)
def test_numbers_of_every_size_have_short_figures(scale, width, offset):
    by = 10.0**scale
    svg = sample(curves=[Curve(tuple((t * by, (t * t + offset) * by) for t in range(11)))], width=width)
    figures = [text for text, _ in boxes(svg) if re.fullmatch(r"-?[\d.]+", text)]
    assert len(figures) >= 5
    assert all(len(text) <= 8 for text in figures)
    assert overprinted(svg) == []
    assert outside(svg) == []
    values = [float(text) for text in figures]
    power = re.search(r"load \[(?:10\^(-?\d+) )?N\]", svg)
    assert power
    assert max(values) * 10.0 ** int(power[1] or 0) >= 99 * by * (1 if offset >= 0 else 0.9)


def test_a_limit_stands_where_it_belongs():
    svg = sample(bounds=[Bound("stop", x=2.5), Bound("limit", y=12.5, wrong=True)])
    root = ElementTree.fromstring(svg)
    lines = {
        each.attrib["class"]: each.attrib["d"]
        for each in root.iter(f"{SVG}path")
        if each.attrib.get("class") in ("hidden", "finding")
    }
    (x1, y1), (x2, y2) = [tuple(map(float, each.split())) for each in lines["hidden"][1:].split("L")]
    field = next(each for each in root.iter(f"{SVG}rect")).attrib
    left, top, wide, high = (float(field[name]) for name in ("x", "y", "width", "height"))
    # The field runs from 0 to 5 mm and from 0 to 25 N: both limits lie in its middle.
    assert x1 == x2 == pytest.approx(left + wide / 2, abs=0.02)
    assert sorted((y1, y2)) == pytest.approx([top, top + high], abs=0.02)
    (x1, y1), (x2, y2) = [tuple(map(float, each.split())) for each in lines["finding"][1:].split("L")]
    assert y1 == y2 == pytest.approx(top + high / 2, abs=0.02)


def test_words_that_cannot_keep_inside_a_tiny_field_are_written_all_the_same():
    words = Words(("much too long for so small a field",), "label", around((5, 5), 1, 3.4), ((5, 5),))
    (element,) = written((0, 0, 10, 10), [words], [[(0, 0), (10, 10)]], 3.4)
    assert "much too long" in element
    assert box_of(((0, 10), "end"), ("a",), 3.0)[2] == 0


def test_a_line_is_followed_closely():
    points = closely([(0.0, 0.0), (30.0, 40.0), (30.0, 41.0)])
    assert all(math.dist(a, b) <= 1.0 + 1e-9 for a, b in pairwise(points))
    assert points[0] == (0.0, 0.0)
    assert points[-1] == (30.0, 41.0)
