"""A mechanism at rest and at both ends of its travel: points, springs, loads and angles read back to scale."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ElementTree
from dataclasses import replace
from itertools import pairwise

import pytest

from calculators.calculation.answering import answer, pictures_of
from calculators.catalogue import find_calculator
from calculators.drawing.lever import lever_pictures
from calculators.drawing.mechanism import positions_of, spring_state
from calculators.drawing.spring_between import TURNS, coil_run
from calculators.mechanics.pivot.model import Lever, Spring, weight
from calculators.mechanics.pivot.standing import stand

SVG = "{http://www.w3.org/2000/svg}"
STOPS = (-0.35, 0.26)
LEVER = Lever(
    (
        Spring(80, 0, 60, 70, 0.15, 50, "extension", 0.5),
        Spring(-40, 10, -50, -60, 0.4, 90, "compression", solid_mm=30),
    ),
    (weight(140, 0, 0.15), weight(60, 0, 0.06)),
)


def turned(x, y, angle):
    """Rotation about the pin, written out here: the lever's own code is not asked."""
    return x * math.cos(angle) - y * math.sin(angle), x * math.sin(angle) + y * math.cos(angle)


def pictures(lever=LEVER, stops=STOPS):
    stood = stand(lever, stops)
    found = {each.title: each for each in lever_pictures(lever, stood)}
    return stood, found


def lines_of(svg, kind, fill=None):
    found = []
    for path in ElementTree.fromstring(svg).iter(f"{SVG}path"):
        if path.get("class") == kind and (fill is None or path.get("fill") == fill):
            found += [
                [tuple(map(float, pair.split())) for pair in ring.rstrip("Z").split("L")]
                for ring in path.get("d").split("M")
                if ring
            ]
    return found


def words_of(svg):
    return [(e.get("class"), e.text) for e in ElementTree.fromstring(svg).iter(f"{SVG}text")]


def angles(stood):
    return {
        "At rest": stood.rest_rad,
        "At the clockwise end": STOPS[0],
        "At the anticlockwise end": STOPS[1],
    }


@pytest.mark.parametrize("where", ["At rest", "At the clockwise end", "At the anticlockwise end"])
@pytest.mark.parametrize("narrow", [False, True])
def test_the_points_lie_where_rotation_puts_them(where, narrow):
    """From the pin to the end of the long arm, 140, and of the short one; scale and place are common to both."""
    stood, found = pictures()
    svg = found[where].narrow if narrow else found[where].svg
    angle = angles(stood)[where]
    arms = [line for line in lines_of(svg, "outline") if len(line) == 2]
    pin = arms[0][0]
    assert all(arm[0] == pin for arm in arms)
    scale = max(math.dist(*arm) for arm in arms) / 140
    ends = [((x - pin[0]) / scale, (pin[1] - y) / scale) for _, (x, y) in arms]
    for x, y in ((140, 0), (-40, 10)):
        to_x, to_y = turned(x, y, angle)
        assert any(abs(to_x - a) < 0.05 and abs(to_y - b) < 0.05 for a, b in ends)


@pytest.mark.parametrize("where", ["At rest", "At the clockwise end", "At the anticlockwise end"])
def test_each_spring_runs_from_its_point_to_its_anchor_at_its_length(where):
    stood, found = pictures()
    svg, angle = found[where].svg, angles(stood)[where]
    arms = [line for line in lines_of(svg, "outline") if len(line) == 2]
    pin, scale = arms[0][0], max(math.dist(*arm) for arm in arms) / 140
    axes = [*lines_of(svg, "centre"), *[line for line in lines_of(svg, "finding") if len(line) == 2]]
    runs = [[((x - pin[0]) / scale, (pin[1] - y) / scale) for x, y in axis] for axis in axes]
    for spring in LEVER.springs:
        start = turned(spring.x_mm, spring.y_mm, angle)
        anchor = (spring.anchor_x_mm, spring.anchor_y_mm)
        assert any(math.dist(run[0], start) < 0.05 and math.dist(run[1], anchor) < 0.05 for run in runs)
        length = math.dist(start, anchor)
        # The length is said to three figures beside the spring.
        said = [float(m[1]) for _, text in words_of(svg) if (m := re.search(r"spring \d: ([\d.]+) mm", text))]
        assert any(abs(each - length) <= 0.006 * length for each in said)


def test_the_turns_open_with_the_spring():
    """One front of a turn to the next is the run over the turns: closed at the free length, open beyond it."""
    spring = LEVER.springs[0]
    near, far, wire = coil_run(spring, 50)
    assert (far - near) / TURNS == pytest.approx(wire)
    near, far, wire = coil_run(spring, 80)
    assert far - near == pytest.approx(50 * 0.7 + 30)
    assert (far - near) / TURNS > wire
    solid = LEVER.springs[1]
    near, far, wire = coil_run(solid, 30)
    assert wire * TURNS == pytest.approx(far - near) == pytest.approx(30)
    near, far, wire = coil_run(solid, 60)
    assert far - near == 60
    assert wire * TURNS == pytest.approx(30)
    # Longer than it is when free, a compression spring stands at its anchor and does not reach the lever.
    assert coil_run(solid, 100)[:2] == (10, 100)


def test_the_fronts_of_the_turns_are_drawn_at_that_pitch():
    stood, found = pictures()
    for where, angle in angles(stood).items():
        svg = found[where].svg
        arms = [line for line in lines_of(svg, "outline") if len(line) == 2]
        scale = max(math.dist(*arm) for arm in arms) / 140
        fronts = [line for line in lines_of(svg, "thin", "#dde5e8") if len(line) == 4]
        assert len(fronts) == 2 * TURNS
        start = turned(80, 0, angle)
        near, far, _ = coil_run(LEVER.springs[0], math.dist(start, (60, 70)))
        steps = [math.dist(a[0], b[0]) / scale for a, b in pairwise(fronts[:TURNS])]
        assert steps == pytest.approx([(far - near) / TURNS] * (TURNS - 1), abs=0.06)


def test_the_angle_from_rest_and_the_travel_are_dimensioned():
    stood, found = pictures()
    for where, angle in (("At the clockwise end", STOPS[0]), ("At the anticlockwise end", STOPS[1])):
        turn = math.degrees(angle - stood.rest_rad)
        said = [text for _, text in words_of(found[where].svg) if text.endswith(" deg")]
        assert any(abs(float(text.split()[0]) - turn) < 0.06 for text in said)
        arc = max(lines_of(found[where].svg, "dimension"), key=len)
        # Its radius is 0.45 of the long arm's 140; its chord is that of the angle.
        arms = [line for line in lines_of(found[where].svg, "outline") if len(line) == 2]
        scale = max(math.dist(*arm) for arm in arms) / 140
        chord = 2 * 0.45 * 140 * math.sin(abs(math.radians(turn)) / 2)
        assert math.dist(arc[0], arc[-1]) / scale == pytest.approx(chord, abs=0.05)
    travel = math.degrees(STOPS[1] - STOPS[0])
    assert any(
        text.startswith("travel ") and abs(float(text.split()[1]) - travel) < 0.06
        for _, text in words_of(found["The lever"].svg)
    )


def test_loads_point_down_at_the_lever_in_every_position():
    stood, found = pictures()
    for where, angle in angles(stood).items():
        svg = found[where].svg
        arms = [line for line in lines_of(svg, "outline") if len(line) == 2]
        pin, scale = arms[0][0], max(math.dist(*arm) for arm in arms) / 140
        arrows = [
            line for line in lines_of(svg, "edge") if len(line) == 2 and abs(line[0][0] - line[1][0]) < 0.02
        ]
        for reach in (140, 60):
            x, y = turned(reach, 0, angle)
            tip = (pin[0] + x * scale, pin[1] - y * scale)
            assert any(math.dist(line[1], tip) < 0.05 and line[0][1] < line[1][1] for line in arrows)


def test_a_spring_that_closes_solid_is_red_at_that_end_alone():
    """60 from the pin over an anchor 40 below: it is 24 long where the lever comes down to it."""
    lever = Lever((Spring(60, 0, 60, -40, 2.0, 48, "compression", solid_mm=24),), (weight(120, 0, 1.2),))
    stood = stand(lever, (None, 0.5))
    assert stood.low.what == "spring 1 closed solid"
    found = {each.title: each.svg for each in lever_pictures(lever, stood)}
    red = [text for kind, text in words_of(found["At the clockwise end"]) if kind == "finding"]
    assert red == ["spring 1: 24 mm, closed solid"]
    assert "closed solid" in found["At the clockwise end"].split("</desc>")[0]
    assert not [text for kind, text in words_of(found["At rest"]) if kind == "finding"]
    washed = lines_of(found["At the clockwise end"], "thin", "#efd3ce")
    assert len(washed) == TURNS


def test_over_centre_is_drawn_in_red_where_it_is():
    """A pull whose line runs through the pin at noon: at nought it balances, and falls to either side."""
    lever = Lever((Spring(0, 60, 0, -60, 0.5, 60),))
    stood = stand(lever, (-0.7, 0.7))
    svg = lever_pictures(lever, stood)[0].svg
    (arm,) = lines_of(svg, "finding")
    assert arm[0][0] == pytest.approx(arm[1][0], abs=0.02)
    assert ("finding", "over centre 0 deg") in words_of(svg)
    assert "it goes over centre" in svg.split("</desc>")[0]


def test_an_end_at_which_the_lever_stays_is_red():
    stood = stand(LEVER, STOPS)
    held = replace(stood, held=(True, False), balance=stood.balances[0])
    low, high = lever_pictures(LEVER, held)[2:4]
    assert ("finding", "The lever stays here when it is brought here.") in words_of(low.svg)
    assert "stays here" not in high.svg
    assert any(len(line) == 2 for line in lines_of(low.svg, "finding"))


def test_an_end_that_nothing_makes_is_not_drawn():
    free = stand(Lever(loads=(weight(100, 0, 1),)), (None, None))
    assert [each.name for each in positions_of(free)] == ["At rest"]


@pytest.mark.parametrize(
    ("spring", "length", "state"),
    [
        (Spring(0, 0, 0, 9, 1, 40), 40.0, "slack"),
        (Spring(0, 0, 0, 9, 1, 40), 41.0, ""),
        (Spring(0, 0, 0, 9, 1, 40, longest_mm=60), 60.0, "at its longest"),
        (Spring(0, 0, 0, 9, 1, 40, "compression", solid_mm=20), 20.0, "closed solid"),
        (Spring(0, 0, 0, 9, 1, 40, "compression", solid_mm=20), 21.0, ""),
        (Spring(0, 0, 0, 9, 1, 40, "compression"), 41.0, "slack"),
        (Spring(0, 0, 0, 9, 1, 40, "both"), 41.0, ""),
    ],
)
def test_the_dangers_of_a_spring_are_told_by_its_length(spring, length, state):
    assert spring_state(spring, length) == state


def test_every_picture_has_its_words_for_who_cannot_see():
    pivot = find_calculator("pivot")
    for picture in pictures_of(pivot, pivot.example, answer(pivot, pivot.example)):
        root = ElementTree.fromstring(picture.svg)
        assert root[0].text
        assert len(root[1].text) > 40
