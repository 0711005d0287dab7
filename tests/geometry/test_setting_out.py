"""Setting out, found another way: distances measured again, curves summed in small steps, and chance counted."""

from __future__ import annotations

import math
import random
from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.geometry.arcs import (
    arc_of_chord_and_height,
    arc_of_radius_and_angle,
    chord_of,
    height_of,
    ordinates,
)
from calculators.geometry.bends import allowance, bend_of, flat_blank, k_of_ratio
from calculators.geometry.circles import chord_across, circle_of_holes, rounded_shift, step_angle
from calculators.geometry.hole_fits import each_way, hole_for_errors, position_zone, share_that_goes
from calculators.geometry.photographs import click_spread, size_in_photograph
from calculators.geometry.positions import added_errors, gap_between, read_point, spaced
from calculators.geometry.recesses import (
    clearance_needed,
    corner_overlap,
    corner_radius_needed,
    cutter_that_fits,
    largest_cutter_radius,
    passes_for,
    read_plate,
)
from calculators.geometry.slip_gauges import angle_error, sine_angle, sine_height, stack_of, stack_step_mm
from calculators.geometry.tapers import compound_angle, splayed_leg, taper_of_angle, taper_of_ends
from calculators.geometry.triangles import polygon, right_triangle, squareness
from calculators.quantities.errors import InputError
from calculators.tables import load

SIZES = st.floats(1, 5000)


# --- Holes on a circle and in rows ---


@given(SIZES, st.integers(2, 60), st.floats(-360, 360), st.booleans())
def test_holes_measured_again_lie_on_their_circle_and_a_chord_apart(diameter, count, first, clockwise):
    places = circle_of_holes(diameter, count, first_deg=first, centre_mm=(12.5, -7), clockwise=clockwise)
    for one in places:
        assert math.hypot(one.x_mm - 12.5, one.y_mm + 7) == pytest.approx(diameter / 2, rel=1e-9)
    apart = [math.dist((a.x_mm, a.y_mm), (b.x_mm, b.y_mm)) for a, b in pairwise([*places, places[0]])]
    assert apart == pytest.approx([chord_across(diameter, 360 / count)] * count, rel=1e-6)
    # The centres balance about the circle's centre.
    assert sum(one.x_mm - 12.5 for one in places) == pytest.approx(0, abs=1e-6 * diameter)
    assert sum(one.y_mm + 7 for one in places) == pytest.approx(0, abs=1e-6 * diameter)


@given(SIZES, st.integers(2, 12), st.floats(1, 359))
def test_holes_on_an_arc_begin_and_end_at_its_ends(diameter, count, arc):
    places = circle_of_holes(diameter, count, arc_deg=arc)
    turned = (places[-1].angle_deg - places[0].angle_deg) % 360
    assert turned == pytest.approx(arc, abs=1e-9)
    for k in range(1, count):
        first, other = places[0], places[k]
        measured = math.dist((first.x_mm, first.y_mm), (other.x_mm, other.y_mm))
        assert chord_across(diameter, step_angle(count, arc), k) == pytest.approx(
            measured, abs=1e-9 * diameter
        )


def test_clockwise_goes_the_other_way_round():
    there, back = circle_of_holes(100, 5), circle_of_holes(100, 5, clockwise=True)
    assert [p.y_mm for p in back] == pytest.approx([-p.y_mm for p in there], abs=1e-12)
    assert back[1].y_mm < 0 < there[1].y_mm


@given(SIZES, st.integers(2, 40))
def test_rounding_moves_a_hole_by_no_more_than_half_a_step_each_way(diameter, count):
    assert 0 <= rounded_shift(circle_of_holes(diameter, count)) <= 0.005 * math.sqrt(2) + 1e-9


@given(st.floats(10, 5000), st.integers(2, 40), st.floats(0, 0.4), st.sampled_from(["at-the-ends", "half-spaces", "whole-spaces"]))  # fmt: skip
def test_spaces_are_equal_and_lie_evenly_between_the_margins(length, count, part, ends):
    margin = length * part
    found = spaced(length, count, margin_mm=margin, ends=ends)
    gaps = [b - a for a, b in pairwise(found.places_mm)]
    assert gaps == pytest.approx([found.space_mm] * (count - 1), rel=1e-6)
    left, right = found.places_mm[0] - margin, length - margin - found.places_mm[-1]
    share = {"at-the-ends": 0.0, "half-spaces": 0.5, "whole-spaces": 1.0}[ends]
    assert left == pytest.approx(share * found.space_mm, abs=1e-6)
    assert right == pytest.approx(left, abs=1e-6)


def test_a_chain_measured_by_chance_spreads_as_the_root_of_its_steps():
    """Ten thousand chains of five steps, each step off by a normal error."""
    chance = random.Random(72)
    ends = [sum(chance.gauss(0, 0.3) for _ in range(5)) for _ in range(10_000)]
    spread = math.sqrt(sum(end * end for end in ends) / len(ends))
    assert spread == pytest.approx(added_errors(5, 0.3).chain_likely_mm, rel=0.02)


@given(st.floats(100, 5000), st.integers(2, 20), st.floats(0, 0.9), st.booleans())
def test_gaps_and_pieces_fill_the_length(length, pieces, part, at_ends):
    width = part * length / pieces
    gap = gap_between(length, pieces, width, at_ends=at_ends)
    gaps = pieces + 1 if at_ends else pieces - 1
    assert pieces * width + gaps * gap == pytest.approx(length)


@pytest.mark.parametrize("text", ["10, 20", "10 mm; 20 mm", "(10,20)", "1 cm, 2 cm", "10,0 mm; 20,0 mm"])
def test_a_point_is_read_as_people_write_it(text):
    assert read_point(text, field="centre") == (10, 20)


# --- Arcs ---


@given(SIZES, st.floats(0.02, 3))
def test_radius_from_three_points_of_the_circle(chord, part):
    """The circle through the chord's ends and the top, by the circumradius of that triangle: abc / 4A."""
    height = part * chord
    found = arc_of_chord_and_height(chord, height)
    side = math.hypot(chord / 2, height)
    circumradius = side * side * chord / (4 * (chord * height / 2))
    assert found.radius_mm == pytest.approx(circumradius, rel=1e-9)
    assert found.chord_mm == pytest.approx(chord, rel=1e-6)


@pytest.mark.parametrize(("chord", "height"), [(800, 100), (800, 0.5), (300, 150), (300, 400)])
def test_length_and_area_summed_in_small_steps(chord, height):
    arc = arc_of_chord_and_height(chord, height)
    half, steps = math.radians(arc.angle_deg) / 2, 20_000
    turns = [-half + 2 * half * i / steps for i in range(steps + 1)]
    points = [(arc.radius_mm * math.sin(t), arc.radius_mm * math.cos(t)) for t in turns]
    assert arc.length_mm == pytest.approx(sum(math.dist(a, b) for a, b in pairwise(points)), rel=1e-7)
    ring = [*points, points[0]]
    area = abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairwise(ring))) / 2
    assert arc.area_mm2 == pytest.approx(area, rel=1e-6)


@pytest.mark.parametrize("divisions", [2, 7, 8, 31])
def test_ordinates_lie_on_the_circle(divisions):
    arc = arc_of_chord_and_height(900, 120)
    centre = (450, 120 - arc.radius_mm)
    for point in ordinates(arc, divisions):
        assert math.dist(point, centre) == pytest.approx(arc.radius_mm, rel=1e-9)
    assert ordinates(arc, divisions)[0] == (0, 0)
    assert ordinates(arc, divisions)[-1] == (900, 0)


def test_a_very_flat_arc_keeps_its_figures():
    """Ten metres of chord, a thousandth of a millimetre high: the parabola h (1 - (2x/c)^2) is then the arc."""
    arc = arc_of_chord_and_height(10_000, 0.001)
    assert height_of(arc.radius_mm, 10_000) == pytest.approx(0.001, rel=1e-9)
    for x, y in ordinates(arc, 10)[1:-1]:
        assert y == pytest.approx(0.001 * (1 - (2 * x / 10_000 - 1) ** 2), rel=1e-6)


@given(st.floats(1, 1000), st.floats(1, 358))
def test_arcs_go_round_from_angle_to_chord_and_height_and_back(radius, angle):
    arc = arc_of_radius_and_angle(radius, angle)
    again = arc_of_chord_and_height(arc.chord_mm, arc.height_mm)
    assert again.radius_mm == pytest.approx(radius, rel=1e-6)
    assert again.angle_deg == pytest.approx(angle, rel=1e-6)
    assert chord_of(radius, arc.height_mm) == pytest.approx(arc.chord_mm, rel=1e-9)
    assert height_of(radius, arc.chord_mm, greater=angle > 180) == pytest.approx(arc.height_mm, rel=1e-4)


# --- Tapers and compound angles ---


@given(st.floats(1, 500), st.floats(0, 1), st.floats(1, 2000))
def test_a_tapers_sides_drawn_from_end_to_end_have_its_angle(large, part, length):
    small = part * large
    taper = taper_of_ends(large, small, length)
    side = math.degrees(math.atan2((large - small) / 2, length))
    assert taper.half_angle_deg == pytest.approx(side, abs=1e-9)
    assert taper_of_angle(taper.included_angle_deg).rate == pytest.approx(taper.rate, abs=1e-9)


def _unit(vector):
    length = math.sqrt(sum(v * v for v in vector))
    return tuple(v / length for v in vector)


def _dot(a, b):
    return sum(x * y for x, y in zip(a, b, strict=True))


def _cross(a, b):
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


@given(st.integers(3, 24), st.floats(1, 85))
def test_compound_angles_from_the_planes_of_two_sides(sides, lean_deg):
    """Two neighbouring sides as planes: their seam, its angle in the side, and the angle between the faces."""
    lean, turn = math.radians(lean_deg), 2 * math.pi / sides
    normals = [
        (math.cos(lean) * math.cos(a), math.cos(lean) * math.sin(a), -math.sin(lean)) for a in (0.0, turn)
    ]
    seam = _unit(_cross(*normals))
    level = (0.0, 1.0, 0.0)
    up_the_side = _cross(normals[0], level)
    # The mitre is measured from square to the level edge, within the side.
    mitre = math.degrees(math.atan2(abs(_dot(seam, level)), abs(_dot(seam, up_the_side))))
    between = math.degrees(math.acos(max(-1.0, min(1.0, _dot(*normals)))))
    found = compound_angle(sides, lean_deg)
    assert found.mitre_deg == pytest.approx(mitre, abs=1e-6)
    assert found.tilt_deg == pytest.approx(between / 2, abs=1e-6)
    assert found.corner_deg == pytest.approx(180 - between, abs=1e-6)


def test_upright_sides_are_mitred_by_half_their_turn():
    assert compound_angle(6, 0).mitre_deg == pytest.approx(0, abs=1e-12)
    assert compound_angle(6, 0).tilt_deg == pytest.approx(30)
    assert compound_angle(4, 0).butt_tilt_deg == pytest.approx(0, abs=1e-9)


@given(st.floats(0, 60), st.floats(0, 60), st.floats(1, 2000))
def test_a_splayed_legs_line_in_space(along, across, height):
    leg = splayed_leg(along, across, height)
    line = (leg.along_mm, leg.across_mm, height)
    assert leg.length_mm == pytest.approx(math.sqrt(_dot(line, line)), rel=1e-9)
    upright = _dot(_unit(line), (0, 0, 1))
    assert math.cos(math.radians(leg.lean_deg)) == pytest.approx(upright, rel=1e-9)
    assert math.degrees(math.atan2(leg.along_mm, height)) == pytest.approx(along, abs=1e-6)


# --- Bends ---


@given(st.floats(0.2, 10), st.floats(0, 50), st.floats(1, 180), st.floats(0.2, 0.6))
def test_allowance_is_the_neutral_line_in_short_straight_pieces(t, r, angle, k):
    steps, radius = 2000, r + k * t
    points = [
        (radius * math.cos(a), radius * math.sin(a))
        for a in (math.radians(angle) * i / steps for i in range(steps + 1))
    ]
    assert allowance(t, r, angle, k) == pytest.approx(
        sum(math.dist(a, b) for a, b in pairwise(points)), rel=1e-6
    )


@pytest.mark.parametrize("angle", [30, 60, 90, 135])
def test_a_bent_strip_walked_along_its_neutral_line_is_as_long_as_its_blank(angle):
    """Legs laid out by their outside corner; the neutral line runs straight, round the bend, and straight."""
    t, r, k, legs = 2.0, 3.0, 0.42, (60.0, 45.0)
    bend = bend_of(t, r, angle, k)
    # Where the outer tangent begins, from the corner in which the two outside faces meet, by half the turn.
    corner_to_tangent = (r + t) * math.tan(math.radians(angle / 2))
    straight = [leg - corner_to_tangent for leg in legs]
    turn = math.radians(angle)
    walked = sum(straight) + (r + k * t) * turn
    assert flat_blank(legs, [bend]).length_mm == pytest.approx(walked, rel=1e-9)


def test_a_strip_with_k_of_a_half_keeps_the_volume_of_its_bend():
    """The ring between r and r + t has the area of a strip of the length of its middle line."""
    t, r = 1.6, 2.4
    ring = math.pi / 4 * ((r + t) ** 2 - r**2)
    assert allowance(t, r, 90, 0.5) * t == pytest.approx(ring)


def test_k_grows_with_the_radius_up_to_the_middle():
    factors = [k_of_ratio(r, 1.0) for r in (0.1, 0.5, 1, 2, 4, 5.1, 50)]
    assert factors == sorted(factors)
    assert factors[-1] == factors[-2] == 0.5


def test_bends_of_a_channel_add_up_leg_by_leg():
    bend = bend_of(1.0, 1.0, 90, 0.4)
    blank = flat_blank([20, 30, 20], [bend, bend])
    assert blank.length_mm == pytest.approx(70 - 2 * bend.deduction_mm)
    assert blank.bends_mm[0][0] == pytest.approx(18)
    assert blank.bends_mm[1][1] == pytest.approx(blank.length_mm - 18)


# --- Recesses ---


def _deepest(cutter, corner, clear):
    """How far the part's corner reaches beyond the cutter's round, by trying points of its edge."""
    points = [
        (clear + corner - corner * math.cos(a), clear + corner - corner * math.sin(a))
        for a in (math.pi / 2 * i / 2000 for i in range(2001))
    ]
    beyond = [math.hypot(x - cutter, y - cutter) - cutter for x, y in points if x < cutter and y < cutter]
    return max(beyond, default=-clear)


@given(st.floats(1, 30), st.floats(0, 1), st.floats(0, 0.2))
def test_overlap_by_points_along_the_parts_corner(cutter, part, share):
    corner, clear = part * cutter, share * cutter
    overlap = corner_overlap(cutter, corner, clear)
    deepest = _deepest(cutter, corner, clear)
    if overlap > 0:
        assert overlap == pytest.approx(deepest, abs=1e-4 * cutter)
    else:
        assert deepest <= 1e-4 * cutter


@given(st.floats(1, 30), st.floats(0, 0.99), st.floats(0, 0.2))
def test_each_way_of_mending_a_corner_just_clears_it(cutter, part, share):
    corner, clear = part * cutter, share * cutter
    assert corner_overlap(cutter, corner, clearance_needed(cutter, corner)) == pytest.approx(0, abs=1e-9)
    rounded = corner_radius_needed(cutter, clear)
    if rounded > 0:
        assert corner_overlap(cutter, rounded, clear) == pytest.approx(0, abs=1e-9)
    if clear > 0:
        largest = largest_cutter_radius(corner, clear)
        assert corner_overlap(largest, corner, clear) == pytest.approx(0, abs=1e-9)


def test_the_cutter_that_fits_is_the_largest_of_the_table():
    sizes = sorted(row.number("diameter") for row in load("cutters").rows)
    for most in (1.0, 6.0, 6.2, 6.4, 40):
        found = cutter_that_fits(most)
        assert found is not None
        assert found.number("diameter") == max(size for size in sizes if size <= most)


@given(st.floats(0.1, 100), st.floats(0.2, 50))
def test_passes_are_as_few_as_will_do(depth, per_pass):
    count = passes_for(depth, per_pass)
    assert count * per_pass >= depth - 1e-6
    assert (count - 1) * per_pass < depth


@pytest.mark.parametrize(
    ("text", "sizes"),
    [
        ("60 x 30 x 5", (60, 30, 5, 0)), ("60x30x5 mm r3", (60, 30, 5, 3)), ("6 cm by 3 cm by 5 mm, radius 3 mm", (60, 30, 5, 3)),
        ("2 x 1 x 1/8 in corners 1/16", (50.8, 25.4, 3.175, 1.5875)), ("60 × 30 × 5 mm; r 3 mm", (60, 30, 5, 3)),
    ],
)  # fmt: skip
def test_a_plate_is_read_as_people_write_it(text, sizes):
    plate = read_plate(text)
    assert (plate.length_mm, plate.width_mm, plate.thickness_mm, plate.corner_mm) == pytest.approx(sizes)


@pytest.mark.parametrize("text", ["", "60", "60 x 30", "60 x 30 x 5 x 2", "60 x 30 x r", "a x b x c", "60 x 30 x 0", "60 x 30 x 5 r 16"])  # fmt: skip
def test_what_is_no_plate_is_refused(text):
    with pytest.raises(InputError):
        read_plate(text)


# --- Fits of holes ---


def test_the_square_within_the_zone_touches_it_at_its_corners():
    zone = position_zone(5.5, 5, "fixed")
    assert math.hypot(each_way(zone), each_way(zone)) == pytest.approx(zone / 2)


@pytest.mark.parametrize("fixing", ["fixed", "floating"])
def test_the_hole_for_errors_has_just_the_room_for_the_worst(fixing):
    hole = hole_for_errors(5, 0.2, fixing)
    room = (hole - 5) / (2 if fixing == "fixed" else 1)
    assert room == pytest.approx(math.dist((0.2, 0.2), (-0.2, -0.2)))
    assert each_way(position_zone(hole, 5, fixing)) == pytest.approx(0.2)


@pytest.mark.parametrize(("hole", "fixing"), [(5.5, "fixed"), (5.3, "floating"), (5.3, "fixed")])
def test_patterns_made_by_chance_go_together_as_often_as_said(hole, fixing):
    """Twenty thousand patterns of four holes; the screw passes where the centres differ by the room or less."""
    chance, error, count, tries = random.Random(5), 0.2, 4, 20_000
    room = (hole - 5) / (2 if fixing == "fixed" else 1)

    def off():
        return chance.gauss(0, error / 3)

    good = sum(
        all(math.hypot(off() - off(), off() - off()) <= room for _ in range(count)) for _ in range(tries)
    )
    said = share_that_goes(hole, 5, error, count, fixing)
    assert good / tries == pytest.approx(said, abs=4 * math.sqrt(said * (1 - said) / tries) + 1e-3)


# --- Photographs ---


def test_a_size_in_a_pinhole_camera_traced_by_its_rays():
    """A camera of 1000 px focal length; the rule at 1800 mm, the pillar 30 mm further off."""
    focal, distance, behind, true = 1000.0, 1800.0, 30.0, 165.2
    seen, rule = focal * true / (distance + behind), focal * 304.8 / distance
    assert size_in_photograph(seen, rule, 304.8, behind_mm=behind, distance_mm=distance) == pytest.approx(
        true, rel=1e-12
    )


def test_spread_of_a_size_by_shifting_each_click():
    size = size_in_photograph(451, 846, 304.8)
    by_px = (size_in_photograph(453, 846, 304.8) - size_in_photograph(449, 846, 304.8)) / 2
    by_ref = (size_in_photograph(451, 844, 304.8) - size_in_photograph(451, 848, 304.8)) / 2
    assert click_spread(size, 451, 846, 2) == pytest.approx(math.hypot(by_px, by_ref), rel=1e-4)


# --- Sine bars and slip gauges ---


@given(st.floats(20, 500), st.floats(0, 60))
def test_a_height_gives_back_its_angle(length, angle):
    assert sine_angle(length, sine_height(length, angle)) == pytest.approx(angle, abs=1e-6)


@pytest.mark.parametrize("angle", [0, 15, 30, 45, 60])
def test_an_error_of_height_shifts_the_angle_as_said(angle):
    length, error = 100.0, 0.001
    h = length * math.sin(math.radians(angle))
    shifted = math.degrees(math.asin((h + error) / length)) - angle
    assert angle_error(length, angle, error) == pytest.approx(shifted, rel=1e-3)


def _owned(box):
    return {
        round(row.number("first") + i * row.number("step"), 6)
        for row in load("slip_gauges").where("set", box)
        for i in range(round((row.number("last") - row.number("first")) / row.number("step")) + 1)
    }


@given(st.sampled_from(["metric-87", "metric-88", "inch-81"]), st.integers(4000, 100_000))
def test_a_stack_adds_up_from_gauges_of_the_set_each_taken_once(box, thousandths):
    unit = 25.4 if box == "inch-81" else 1.0
    height = thousandths / 1000 * (1 if unit == 1.0 else 1 / 10)
    stack = stack_of(height * unit, box)
    assert stack is not None
    step = stack_step_mm(box) / unit
    assert sum(stack) == pytest.approx(height, abs=step / 2 + 1e-9)
    assert len(set(stack)) == len(stack)
    assert {round(size, 6) for size in stack} <= _owned(box)


def test_a_height_that_no_stack_makes_has_none():
    assert stack_of(0.123, "metric-87") is None
    assert stack_of(1000, "metric-87") is None


# --- Triangles, frames and polygons ---


@given(SIZES, SIZES)
def test_every_pair_of_a_triangles_sizes_gives_the_others(base, height):
    whole = right_triangle(base_mm=base, height_mm=height)
    every = {"base_mm": base, "height_mm": height, "slope_mm": whole.slope_mm, "angle_deg": whole.angle_deg}
    for pair in combinations(every, 2):
        if max(base, height) / min(base, height) > 1000:
            continue
        again = right_triangle(**{name: every[name] for name in pair})
        assert again.base_mm == pytest.approx(base, rel=1e-4)
        assert again.height_mm == pytest.approx(height, rel=1e-4)


@given(SIZES, SIZES, st.floats(60, 120))
def test_a_frame_drawn_out_of_square_is_found_by_its_diagonals(length, width, corner):
    """Corners of a parallelogram laid out by coordinates; its diagonals measured again."""
    a = math.radians(corner)
    top = (width * math.cos(a), width * math.sin(a))
    first = math.dist((length, 0), top)
    second = math.dist((0, 0), (length + top[0], top[1]))
    both, one = squareness(length, width, first, second), squareness(length, width, first)
    for found in (both, one):
        assert found.corner_deg == pytest.approx(corner, abs=1e-4)
        assert found.lean_mm == pytest.approx(top[0], abs=1e-3 + 1e-6 * width)
    assert both.diagonal_mm == pytest.approx(math.hypot(length, width))


@given(st.integers(3, 40), SIZES)
def test_a_polygon_by_its_corners(sides, side):
    found = polygon(sides, side_mm=side)
    r = found.across_corners_mm / 2
    points = [
        (r * math.cos(2 * math.pi * i / sides), r * math.sin(2 * math.pi * i / sides)) for i in range(sides)
    ]
    assert math.dist(points[0], points[1]) == pytest.approx(side)
    ring = [*points, points[0]]
    area = abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairwise(ring))) / 2
    assert found.area_mm2 == pytest.approx(area)
    middle = ((points[0][0] + points[1][0]) / 2, (points[0][1] + points[1][1]) / 2)
    assert 2 * math.hypot(*middle) == pytest.approx(found.across_flats_mm)
    again = polygon(sides, across_corners_mm=found.across_corners_mm)
    assert again.side_mm == pytest.approx(polygon(sides, across_flats_mm=found.across_flats_mm).side_mm)
