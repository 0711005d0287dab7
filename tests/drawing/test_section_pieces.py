"""The pieces a section is drawn from: hatching kept inside its area, labels kept apart, words broken."""

from __future__ import annotations

import math
import re
from itertools import pairwise
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.drawing.figures import HeadSizes, dome, head_figure
from calculators.drawing.hatching import Manner, clipped, hatch
from calculators.drawing.lettering import spread, text_width, wrap
from calculators.drawing.scales import SCALES, scale_name
from calculators.drawing.section_plan import section_plan
from calculators.drawing.shanks import nut_figure
from calculators.drawing.svg import number
from calculators.hardware.designation import read_fastener
from calculators.joints.model import JointInput, Layer, StackItem
from calculators.joints.work import work_joint

SQUARE = [(0, 0), (40, 0), (40, 30), (0, 30)]
HOLE = [(15, 0), (25, 0), (25, 30), (15, 30)]


@pytest.mark.parametrize("angle", [0.0, 45.0, 90.0, 135.0])
def test_hatching_covers_its_area_evenly_and_leaves_the_hole_free(angle):
    """Length of line times spacing is the area: 40 x 30 less the hole of 10 x 30."""
    pieces = clipped([SQUARE, HOLE], angle, 0.5)
    assert sum(math.dist(a, b) for a, b in pieces) * 0.5 == pytest.approx(900, rel=0.02)
    for (ax, ay), (bx, by) in pieces:
        middle = ((ax + bx) / 2, (ay + by) / 2)
        assert not 15 < middle[0] < 25
        assert -1e-6 <= middle[0] <= 40 + 1e-6
        assert -1e-6 <= middle[1] <= 30 + 1e-6


def test_metal_hatching_turns_the_other_way_in_the_next_part():
    first, second = hatch([SQUARE], "metal", 0), hatch([SQUARE], "metal", 1)
    assert first != second
    assert clipped([SQUARE], 45, 2.6)[0][0][1] > clipped([SQUARE], 45, 2.6)[0][1][1]


@pytest.mark.parametrize("manner", get_args(Manner))
def test_each_material_has_a_manner_of_its_own(manner):
    others = {m: hatch([SQUARE], m) for m in get_args(Manner)}
    assert others.pop(manner)
    assert hatch([SQUARE], manner) not in others.values()


def test_yearly_rings_cover_end_grain_evenly_and_leave_the_hole_free():
    """Length of arc times spacing is the area: 40 x 30 less the hole of 10 x 30."""
    data = re.search(r'd="([^"]*)"', hatch([SQUARE, HOLE], "end grain", closer=0.1))
    arcs = re.findall(r"M([-\d.]+) ([-\d.]+)A([\d.]+) [\d.]+ 0 0 1 ([-\d.]+) ([-\d.]+)", data[1])
    total = 0.0
    for ax, ay, radius, bx, by in [tuple(map(float, arc)) for arc in arcs]:
        assert all(-0.01 <= x <= 40.01 and -0.01 <= y <= 30.01 for x, y in ((ax, ay), (bx, by)))
        assert not any(15.01 < x < 24.99 for x in (ax, bx))
        assert (ax <= 15.01) == (bx <= 15.01)
        total += 2 * radius * math.asin(math.dist((ax, ay), (bx, by)) / 2 / radius) * 0.22
    assert total == pytest.approx(900, rel=0.02)


def test_an_area_of_nothing_is_not_hatched():
    assert hatch([], "metal") == hatch([[(0, 0), (9, 0), (9, 0), (0, 0)]], "wood") == ""


@given(st.lists(st.tuples(st.floats(-100, 100), st.floats(1, 30)), max_size=12), st.floats(0, 5))
def test_labels_never_overlap_and_keep_their_order(labels, gap):
    wanted, heights = [w for w, _ in labels], [h for _, h in labels]
    placed = spread(wanted, heights, gap)
    order = sorted(range(len(labels)), key=lambda i: (wanted[i], i))
    for above, below in pairwise(order):
        assert placed[below] - placed[above] >= (heights[above] + heights[below]) / 2 + gap - 1e-6


@given(st.lists(st.floats(-100, 100), min_size=1, max_size=8))
def test_labels_with_room_stay_where_they_would_be(wanted):
    far_apart = [1000.0 * i + w for i, w in enumerate(wanted)]
    assert spread(far_apart, [4.0] * len(wanted), 1.0) == pytest.approx(far_apart)


@given(st.text(alphabet="abc WM1/.-", max_size=80), st.floats(6, 60))
def test_lines_fit_their_width_and_lose_no_letter(text, width):
    lines = wrap(text, 4.0, width)
    assert all(text_width(line, 4.0) <= width or len(line) == 1 for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


def test_too_many_lines_end_in_an_ellipsis():
    lines = wrap("one two three four five six seven eight", 4, 20, most=2)
    assert len(lines) == 2
    assert lines[-1].endswith("…")
    assert text_width(lines[-1], 4) <= 20


def test_a_dome_is_the_segment_of_a_circle():
    points = dome(5.0, 0.0, 2.0)
    radius = (25 + 4) / 4
    assert points[0] == pytest.approx((0, -2))
    assert points[-1] == pytest.approx((5, 0), abs=1e-9)
    assert all(math.hypot(x, z - (radius - 2)) == pytest.approx(radius) for x, z in points)


@pytest.mark.parametrize(
    "kind", ["pan", "cheese", "round", "socket cap", "button", "hex", "coach", "knurled"]
)
@pytest.mark.parametrize("drive", ["", "slotted", "cross", "hex socket", "square"])
def test_a_head_is_as_wide_and_as_high_as_it_is_said_to_be(kind, drive):
    flats = 10 * math.cos(math.radians(30)) if kind == "hex" else None
    figure = head_figure(HeadSizes(kind, drive, 5.0, 10.0, 4.0, flats=flats))
    xs, zs = zip(*figure.outline, strict=True)
    assert (min(xs), max(xs)) == pytest.approx((-5, 5), abs=0.01)
    assert max(zs) == pytest.approx(0, abs=1e-9)
    # A slot takes the very crown of a dome away.
    assert min(zs) == pytest.approx(-4, abs=0.15)


def test_a_countersunk_head_has_the_angle_of_its_cone():
    figure = head_figure(HeadSizes("csk", "cross", 5.0, 10.0, 2.5, angle=90.0))
    assert max(z for _, z in figure.outline) == pytest.approx(2.5)
    british = head_figure(HeadSizes("csk", "cross", 5.0, 10.0, 2.5, angle=82.0))
    assert max(z for _, z in british.outline) == pytest.approx(2.5 / math.tan(math.radians(41)))


@pytest.mark.parametrize("form", ["full", "half", "square", "dome", "stiff", "knurled"])
def test_a_nut_fills_its_height(form):
    figure = nut_figure(form, 8.0, 3.0, 9.5)
    zs = [z for _, z in figure.outline]
    assert (min(zs), max(zs)) == pytest.approx((3.0, 9.5))


def test_scales_are_those_of_the_standard():
    """ISO 5455: 50:1 20:1 10:1 5:1 2:1 1:1 1:2 1:5 1:10 1:20 1:50 1:100 ... (from memory)."""
    printed = "50:1 20:1 10:1 5:1 2:1 1:1 1:2 1:5 1:10 1:20 1:50 1:100"
    assert [scale_name(s) for s in SCALES[:12]] == printed.split()


def test_coordinates_are_short():
    assert [number(n) for n in (1.0, -0.001, 2.346, 100, math.inf)] == ["1", "0", "2.35", "100", "0"]


def test_a_hole_drilled_from_behind_opens_at_the_back():
    post, base = (
        StackItem(layer=Layer("P28", "brass", 25, takes="thread", thread_depth_mm=12)),
        StackItem(layer=Layer("P01", "brass", 28, takes="thread")),
    )
    stud = read_fastener("M4 x 20 hex socket grub screw")
    plan = section_plan(work_joint(JointInput("F13", stud, (post, base), clamps=False, stands_mm=-15)))
    shape = plan.layers[0]
    assert shape.thread is not None
    assert [z - shape.surface for z in shape.thread[:2]] == [pytest.approx(13), pytest.approx(25)]
    assert shape.profile[-1][1] == pytest.approx(shape.back)  # open at the back
    assert shape.profile[0][0] == pytest.approx(0)  # its point, inside
