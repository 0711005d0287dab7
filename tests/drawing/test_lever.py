"""The lever and the knife edge are drawn to scale and at true angles, and their words stand on the sheet."""

import math
import re
import xml.etree.ElementTree as ET

import pytest

from calculators.calculation.answering import answer, pictures_of
from calculators.catalogue import find_calculator
from calculators.drawing.knife_edge import knife_edge_picture
from calculators.drawing.lettering import text_width
from calculators.drawing.lever import lever_pictures
from calculators.mechanics.pivot.model import Lever, Spring, weight
from calculators.mechanics.pivot.standing import stand

SVG = "{http://www.w3.org/2000/svg}"


def lines_of(svg, kind):
    """The lines of one type, each a list of points on the sheet."""
    found = []
    for path in ET.fromstring(svg).iter(f"{SVG}path"):
        if path.get("class") == kind:
            found += [
                [tuple(map(float, pair.split())) for pair in re.split("L", ring.rstrip("Z"))]
                for ring in path.get("d").split("M")
                if ring
            ]
    return found


def lever():
    return Lever(
        (Spring(80, 0, 60, 70, 0.15, 50, "extension", 0.5),), (weight(140, 0, 0.15), weight(60, 0, 0.06))
    )


def test_the_lever_is_drawn_at_its_angle_and_to_one_scale():
    stood = stand(lever(), (-0.26, 0.26))
    picture, *_ = lever_pictures(lever(), stood)
    for svg in (picture.svg, picture.narrow):
        (arm,) = (line for line in lines_of(svg, "outline") if len(line) == 2)
        (x1, y1), (x2, y2) = arm
        # y runs downward on the sheet.
        assert math.atan2(y1 - y2, x2 - x1) == pytest.approx(stood.rest_rad, abs=2e-3)
        ends = [math.atan2(a[1] - b[1], b[0] - a[0]) for a, b in (line for line in lines_of(svg, "hidden"))]
        assert sorted(ends) == pytest.approx([-0.26, 0.26], abs=2e-3)
        scale = math.dist(*arm) / 140
        spring = max(lines_of(svg, "edge"), key=lambda line: len(line) if len(line) < 20 else 0)
        x, y = 80 * math.cos(stood.rest_rad), 80 * math.sin(stood.rest_rad)
        long = math.hypot(60 - x, 70 - y)
        assert math.dist(spring[0], spring[-1]) / scale == pytest.approx(long, rel=3e-3)


@pytest.mark.parametrize(("edge", "v_angle"), [(60, 70), (60, 90), (30, 120), (20, 180)])
def test_the_edge_and_its_v_are_drawn_at_true_angles(edge, v_angle):
    half = (v_angle - edge) / 2
    picture = knife_edge_picture((edge, v_angle, 0.0), (-half, half), (None, None))
    for svg in (picture.svg, picture.narrow):
        wedge = min(lines_of(svg, "outline"), key=len)
        assert opening(wedge[0], wedge[1], wedge[2]) == pytest.approx(edge, abs=0.2)
        block = max(lines_of(svg, "outline"), key=len)
        assert opening(block[1], block[2], block[3]) == pytest.approx(v_angle, abs=0.3)
        # One flank of each turned edge lies on one of the V.
        for turned in lines_of(svg, "hidden"):
            gaps = [
                opening(arm, turned[1], flank)
                for arm in (turned[0], turned[2])
                for flank in (block[1], block[3])
            ]
            assert min(gaps) == pytest.approx(0, abs=0.3)


def opening(one, corner, other):
    angles = [math.atan2(end[1] - corner[1], end[0] - corner[0]) for end in (one, other)]
    return abs(math.degrees(math.remainder(angles[0] - angles[1], 2 * math.pi)))


def words_of(svg):
    """Each line of lettering: its box on the sheet, and its size."""
    for text in ET.fromstring(svg).iter(f"{SVG}text"):
        size, says = float(text.get("font-size")), text.text or ""
        wide = 0.85 * text_width(says, size)
        left = float(text.get("x")) - {"start": 0, "middle": wide / 2, "end": wide}[text.get("text-anchor")]
        base = float(text.get("y"))
        yield (left, base - 0.7 * size, left + wide, base), size, says


PIVOT, KNIFE_EDGE = find_calculator("pivot"), find_calculator("knife-edge")
BOOM = {
    "springs": "150 mm, 0 mm, 150 mm, 29.5 mm, 0.227 N/mm, 23.5 mm, initial_tension=0.6 N; "
    "150 mm, 0 mm, 150 mm, -29.5 mm, 0.227 N/mm, 23.5 mm, initial_tension=0.6 N",
    "loads": "300 mm, mass=0.82 kg; 300 mm, force=20 N, direction=180 deg",
    "plane": "level",
    "stop_radius": "220 mm",
    "gap_low": "15 mm",
    "gap_high": "15 mm",
}
DRAWN = [(PIVOT, PIVOT.example), (PIVOT, BOOM), (KNIFE_EDGE, KNIFE_EDGE.example)]


@pytest.mark.parametrize(("calculator", "given"), DRAWN)
def test_words_stand_on_the_sheet_large_enough_and_clear_of_one_another(calculator, given):
    for picture in pictures_of(calculator, given, answer(calculator, given)):
        for svg, width, least in ((picture.svg, 170, 3.2), (picture.narrow, 90, 3.6)):
            found = list(words_of(svg))
            assert found
            for place, (box, size, says) in enumerate(found):
                assert size >= least
                assert box[0] >= 0
                assert box[2] <= width, says
                for other, _, also in found[place + 1 :]:
                    apart = (
                        box[2] <= other[0] or other[2] <= box[0] or box[3] <= other[1] or other[3] <= box[1]
                    )
                    assert apart, (says, also)
