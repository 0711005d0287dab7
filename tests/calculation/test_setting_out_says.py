"""What the calculators of setting out answer and how they refuse, one by one."""

from __future__ import annotations

import pytest

from calculators.calculation.answering import answer, as_text
from calculators.catalogue import find_calculator
from calculators.quantities.errors import InputError


def asked(name, **given):
    return answer(find_calculator(name), given)


def results(name, **given):
    return {key: one.value for key, one in asked(name, **given).results.items()}


def warned(name, **given):
    calculator = find_calculator(name)
    return [says for says in asked(name, **given).warnings if says not in calculator.cautions]


def refusals(name, **given):
    with pytest.raises(InputError) as caught:
        asked(name, **given)
    return [(fault.field, fault.says) for fault in caught.value.faults]


# --- Holes ---


def test_circle_of_holes_counts_from_its_centre_the_way_it_is_told():
    found = results("circle-of-holes", diameter="72", count="4", centre="100 mm, 50 mm", hand="clockwise")
    assert [(one["x"], one["y"], one["angle"]) for one in found["positions"]] == [
        (136, 50, 0), (100, 14, 270), (64, 50, 180), (100, 86, 90),
    ]  # fmt: skip
    assert found["rounding"] == 0
    assert [one["place"] for one in found["chords"]] == [1, 2]
    assert found["chords"][1]["distance"] == 72


def test_circle_of_holes_is_written_to_the_hundredth():
    calculator = find_calculator("circle-of-holes")
    given = {"diameter": "72", "count": "6"}
    text = as_text(calculator, given, answer(calculator, given))
    assert "3: x -18.00, y 31.18 mm at 120 deg" in text
    assert "2 on: 62.35 mm" in text


def test_circle_of_holes_sees_the_last_hole_of_an_arc_close_to_the_first():
    """Over 350 degrees three holes are 175 apart and the ends 10: 100 sin(5) = 8.716 less the hole of 5."""
    found = results("circle-of-holes", diameter="100", count="3", arc="350", hole="5")
    assert found["land"] == pytest.approx(3.716, abs=0.0005)


def test_circle_of_holes_warns_of_holes_that_meet():
    assert warned("circle-of-holes", diameter="10", count="6", hole="5") == [
        "The holes touch each other: take fewer or smaller ones."
    ]
    assert warned("circle-of-holes", diameter="10", count="6", hole="5.5") == [
        "The holes run into each other by 0.5 mm: take fewer or smaller ones."
    ]
    assert warned("circle-of-holes", diameter="10", count="6", hole="4") == [
        "Only 1 mm is left between the holes; half a hole, 2 mm, or more is usual (common practice)."
    ]


def test_circle_of_holes_refuses():
    assert refusals("circle-of-holes", diameter="72", count="1") == [
        ("count", "'1' is outside the limits; write a whole number from 2 to 360.")
    ]
    assert refusals("circle-of-holes", diameter="72", count="6", centre="10") == [
        ("centre", "The input centre takes two lengths, x and y, written as 10 mm, 20 mm.")
    ]
    assert refusals("circle-of-holes", diameter="0", count="6", arc="0")[0][0] == "diameter"


def test_a_spread_of_the_pitch_circle_goes_through_to_the_chord():
    found = asked("circle-of-holes", diameter="72 ± 0.1 mm", count="6").results["chord"]
    assert (found.value, found.spread) == (36, pytest.approx(0.05))


def test_row_of_holes_in_a_grid():
    found = results(
        "row-of-holes", length="100", count="3", margin="10", rows="2", width="50", side_margin="5"
    )
    assert [(one["x"], one["y"]) for one in found["positions"]] == [
        (10, 5), (50, 5), (90, 5), (10, 45), (50, 45), (90, 45),
    ]  # fmt: skip
    assert found["running"] == [{"from_end": 10}, {"from_end": 50}, {"from_end": 90}]
    assert found["row_spacing"] == 40


def test_row_of_holes_warns_near_the_end():
    assert warned("row-of-holes", length="300", count="5", margin="5", hole="5") == [
        "The first hole is 5 mm from the end; 1.5 holes, 7.5 mm, or more is usual in metal (common practice)."
    ]
    assert warned("row-of-holes", length="300", count="3", margin="130", hole="20") == [
        "The holes touch or run into each other: take fewer or smaller ones."
    ]


def test_row_of_holes_refuses():
    assert refusals("row-of-holes", length="300", count="1") == [
        ("count", "A row has 2 to 500 holes where the first and last stand at the margins.")
    ]
    assert results("row-of-holes", length="300", count="1", ends="half-spaces")["running"] == [
        {"from_end": 150}
    ]
    assert refusals("row-of-holes", length="300", count="5", margin="150") == [
        ("margin", "The two margins take up the whole length; write less than half of it for the margin.")
    ]
    assert refusals("row-of-holes", length="300", count="5", rows="3") == [
        ("width", "The input width is missing; several rows are spaced across it.")
    ]
    assert refusals("row-of-holes", length="300", count="500", rows="100", width="50") == [
        ("rows", "500 holes in 100 rows are more than the 2000 set out at once; write fewer.")
    ]


def test_divide_length():
    """Nine spindles of 20 in 1000: 820 left for ten gaps."""
    found = results("divide-length", length="1000", count="9", width="20")
    assert (found["gap"], found["spacing"]) == (82, 102)
    assert found["marks"][0] == {"from": 82, "to": 102}
    assert found["marks"][-1] == {"from": 898, "to": 918}
    assert results("divide-length", length="100", count="4")["gap"] == 20
    assert refusals("divide-length", length="100", count="6", width="20") == [
        ("width", "6 pieces of 20 mm take up more than the 100 mm there are. Write fewer or narrower ones.")
    ]


# --- Recesses ---


def test_rebate_seats_where_the_cutter_is_no_larger_than_the_corner():
    found = results("rebate", part="60 x 30 x 5 r 6", cutter="12", board="19", guide_bush="16")
    assert found["corners"] == "as cut: the part seats"
    assert found["ways"] == []
    assert found["overlap"] == -0.1
    assert (found["recess_length"], found["recess_width"], found["floor_left"]) == (60.2, 30.2, 14)
    assert (found["bush_offset"], found["template_length"], found["template_width"]) == (2, 64.2, 34.2)
    assert warned("rebate", part="60 x 30 x 5 r 6", cutter="12") == []


def test_rebate_says_every_way_to_mend_a_corner():
    found = results("rebate", part="60 x 30 x 5 r 3", cutter="12.7")
    assert found["corners"] == "finish the corners with a smaller cutter, 1/4 in"
    assert [one["way"] for one in found["ways"]] == [
        "smaller cutter", "square by hand", "round the part", "widen", "relief holes",
    ]  # fmt: skip
    assert found["cutter"] == 6.35
    square = results("rebate", part="60 x 30 x 5", cutter="12.7", clearance="0")
    assert square["cutter"] is None
    assert square["corners"] == "square the corners by hand, or round those of the part"


@pytest.mark.parametrize(("per_pass", "passes"), [(None, 2), ("3", 4), ("12", 1), ("5", 2)])
def test_rebate_counts_passes(per_pass, passes):
    """10 deep with a 12 cutter: half the cutter a pass unless told otherwise."""
    given = {"part": "60 x 30 x 10", "cutter": "12"} | ({"depth_per_pass": per_pass} if per_pass else {})
    assert results("rebate", **given)["passes"] == passes


def test_rebate_warns_of_a_thin_floor_and_refuses_none():
    thin = warned("rebate", part="60 x 30 x 5 r 6", cutter="12", board="6.5")
    assert thin == ["Only 1.5 mm of floor is left; 2 mm is the least (common practice)."]
    some = warned("rebate", part="60 x 30 x 5 r 6", cutter="12", board="7")
    assert some == []
    less = warned("rebate", part="60 x 30 x 16 r 6", cutter="12", board="19")
    assert less == ["3 mm of floor is left; 4.75 mm or more is usual (common practice)."]
    assert refusals("rebate", part="60 x 30 x 5", cutter="12", board="5") == [
        ("board", "A recess 5 mm deep goes through a board of 5 mm; write a thicker board or a thinner part.")
    ]


def test_rebate_refuses():
    assert refusals("rebate", part="60 x 30", cutter="4") == [
        ("part", "'60 x 30' is not a part; write length x width x thickness, as 60 x 30 x 5 mm or "
         "60 x 30 x 5 mm r 3.")
    ]  # fmt: skip
    assert refusals("rebate", part="60 x 30 x 5", cutter="40") == [
        ("cutter", "A cutter of 40 mm is wider than the recess of 30.2 mm. Write a smaller one.")
    ]
    assert refusals("rebate", part="60 x 30 x 5", cutter="12", guide_bush="12") == [
        ("guide_bush", "A cutter of 12 mm does not pass through a bush of 12 mm; write a larger bush.")
    ]


# --- Bends ---


def test_bend_allowance_takes_legs_in_rows_with_bends_of_their_own():
    """Each straight is its leg less the setbacks at its ends: r + t, times tan 22.5 and tan 45."""
    found = results("bend-allowance", thickness="1", radius="2", k_factor="0.4", legs="20, 45; 30, 90, 3; 20")
    first, second = 3 * 0.41421356, 4.0
    lines = found["bend_lines"]
    assert lines[0]["begins"] == pytest.approx(20 - first)
    assert lines[1]["begins"] - lines[0]["ends"] == pytest.approx(30 - first - second)
    assert found["flat_length"] - lines[1]["ends"] == pytest.approx(20 - second)


def test_bend_allowance_by_temper_says_the_rules_beside_each_other():
    found = results("bend-allowance", thickness="2", radius="2", temper="soft")
    assert found["k_factor"] == pytest.approx(0.55 / 1.5707963, rel=1e-6)
    assert [one["rule"].split(" (")[0] for one in found["by_other_rules"]] == [
        "soft", "half-hard", "hard", "DIN 6935", "middle of the sheet, for large radii",
    ]  # fmt: skip
    assert "flat_length" not in found


def test_a_hem_is_measured_to_its_tangent():
    """Folded back on itself: legs of 20 over the metal lose r + t each and gain half a circle of the neutral line."""
    found = results(
        "bend-allowance",
        thickness="1",
        radius="1",
        angle="180",
        measured_to="tangent",
        k_factor="0.4",
        legs="20; 20",
    )
    assert found["flat_length"] == pytest.approx(2 * (20 - 2) + 3.14159265 * 1.4)


def test_bend_allowance_warns():
    assert warned(
        "bend-allowance", thickness="2", radius="1", material="hard brass", rolling="along", hole_distance="3"
    ) == [
        "An inside radius of 1 mm may crack: 8 mm or more is usual; soften the metal first, take a larger radius "
        "or turn the blank so that the bend runs across the rolling.",
        "A hole 3 mm from the bend will be pulled out of round: 6 mm or more is usual. Drill it after bending, or "
        "move it.",
    ]
    assert warned("bend-allowance", thickness="1", radius="1", angle="120", legs="20; 20") == [
        "Over 90 degrees the outside corner lies in the air beyond the bend; where the legs were measured over "
        "the metal, write tangent for measured_to."
    ]
    assert warned("bend-allowance", thickness="1", radius="1") == []


def test_bend_allowance_refuses():
    assert refusals("bend-allowance", thickness="1", radius="0") == [
        ("radius", "For a bend as sharp as 0 mm in 1 mm sheet no k factor follows from the radius; write k_factor "
         "or temper, or a larger radius.")
    ]  # fmt: skip
    assert refusals("bend-allowance", thickness="1", radius="1", k_factor="0.4", temper="soft") == [
        ("temper", "Write k_factor or temper, not both; the temper has a k factor of its own.")
    ]
    assert refusals("bend-allowance", thickness="1", radius="1", legs="20; 1") == [
        ("legs", "Leg 2 of 1 mm is shorter than the 2 mm that its bends take of it; write a longer leg or a "
         "smaller radius.")
    ]  # fmt: skip
    assert refusals("bend-allowance", thickness="1", radius="1", legs="20; 20, 45") == [
        ("legs", "Behind the last leg there is no bend; leave its angle and radius out.")
    ]
    assert refusals("bend-allowance", thickness="1", radius="1", angle="175") == [
        ("measured_to", "Beyond 170 degrees the outside faces hardly meet; write tangent for measured_to.")
    ]


# --- Tapers, sides and legs ---


def test_taper_of_equal_ends_is_none():
    found = results("taper", large="20", small="20", length="50")
    assert (found["included_angle"], found["one_in"], found["tailstock_offset"]) == (0, None, 0)
    assert warned("taper", large="20", small="20", length="50") == ["Both ends are alike: there is no taper."]


def test_taper_finds_the_end_that_is_not_given():
    """1 in 50: 2 mm in 100, 1 mm of set-over for each 100 between the centres."""
    found = results("taper", one_in="50", large="10", length="100", work_length="300")
    assert (found["small_end"], found["tailstock_offset"], found["fence_offset"]) == (8, 3, 6)
    assert results("taper", one_in="50", large="10", small="8")["taper_length"] == pytest.approx(100)
    assert results("taper", per_foot="0.6", small="10", length="100")["large_end"] == pytest.approx(15)


@pytest.mark.parametrize(("name", "large", "small"), [("Morse 2", 17.78, 14.5288), ("mt2", 17.78, 14.5288), ("Jarno 8", 25.4, 20.32)])  # fmt: skip
def test_a_standard_taper_brings_its_ends(name, large, small):
    found = results("taper", standard=name)
    assert (found["large_end"], found["small_end"]) == pytest.approx((large, small))


def test_taper_refuses():
    assert refusals("taper", large="20", small="21", length="50") == [
        ("small", "The small end of 21 mm is larger than the large end of 20 mm; change them over.")
    ]
    assert refusals("taper", large="20", small="10") == [
        ("length", "Write three of large, small and length.")
    ]
    assert refusals("taper", angle="3", per_foot="0.6") == [
        ("per_foot", "Write only one of angle, per foot, one in and standard; the rest follows from it.")
    ]
    assert refusals("taper", large="20", small="10", length="5", angle="3") == [
        ("length", "Both ends, the length and a rate are given; leave one of them out, since it follows.")
    ]
    assert refusals("taper", one_in="50", large="6", length="400") == [
        ("length", "A taper from 6 mm comes to a point before 400 mm; write a shorter length.")
    ]
    field, says = refusals("taper", standard="Morse 9")[0]
    assert field == "standard"
    assert says.startswith("'Morse 9' is not a taper of the table; write one of Morse 0, Morse 1,")


def test_compound_angle_refuses_flat_sides():
    assert refusals("compound-angle", sides="4", lean="90") == [
        ("lean", "'90' is above the most allowed here; write at most 89 deg.")
    ]
    assert refusals("compound-angle", sides="2", lean="10") == [
        ("sides", "'2' is outside the limits; write a whole number from 3 to 100.")
    ]


def test_a_leg_that_leans_one_way_only_leans_by_that():
    found = results("splayed-leg", along="12", across="0", height="400")
    assert (found["true_lean"], found["sight_line"], found["foot_across"]) == pytest.approx((12, 0, 0))


# --- Arcs, triangles, frames and polygons ---


def test_arc_from_each_pair_of_its_sizes():
    whole = results("arc", chord="800", height="100")
    for given in (
        {"chord": "800", "radius": "850"}, {"radius": "850", "height": "100"}, {"radius": "850", "angle": "56.144974"},
        {"chord": "800", "angle": "56.144974"}, {"height": "100", "angle": "56.144974"},
    ):  # fmt: skip
        found = results("arc", **given)
        assert found["arc_radius"] == pytest.approx(whole["arc_radius"], rel=1e-6), given
        assert found["arc_length"] == pytest.approx(whole["arc_length"], rel=1e-6), given
    assert results("arc", chord="12", radius="10", part="greater")["arc_height"] == pytest.approx(18)


def test_arc_refuses_what_no_circle_has():
    assert refusals("arc", chord="800", radius="300") == [
        ("chord", "A chord of 800 mm does not fit in a circle of 300 mm radius. Write at most 600 mm.")
    ]
    assert refusals("arc", height="800", radius="300") == [
        ("height", "An arc of 300 mm radius cannot be 800 mm high over a chord. Write less than 600 mm.")
    ]
    assert refusals("arc", chord="800") == [("height", "Write two of chord, height, radius and angle.")]
    assert refusals("arc", chord="800", height="100", radius="3") == [
        ("radius", "Write only two of chord, height, radius and angle; the rest follows from them.")
    ]
    assert warned("arc", chord="300", height="400") == [
        "The arc is more than half of a circle: it bulges out beyond the ends of its chord, where no ordinate "
        "shows it."
    ]


def test_right_triangle_refuses_a_slope_that_is_not_the_longest():
    assert results("right-triangle", base="3", height="4")["triangle_slope"] == 5
    assert refusals("right-triangle", base="3", slope="3") == [
        ("slope", "The slope of 3 mm is not longer than the base of 3 mm; it is the longest side.")
    ]
    assert refusals("right-triangle", base="3") == [("height", "Write two of base, height, slope and angle.")]


def test_square_check_says_which_corners_to_push():
    assert warned("square-check", length="800", width="600", diagonal="998", other_diagonal="1002") == [
        "Out of square by 0.239 degrees: push the corners of the other diagonal together until the far side has "
        "gone over by 2.5 mm and both diagonals are 1000 mm."
    ]
    assert warned("square-check", length="800", width="600", diagonal="1000") == []
    assert warned("square-check", length="800", width="600", diagonal="1020", other_diagonal="1010")[1] == (
        "The diagonals do not go with the sides: their mean square is 1015.01 mm, where these sides make it "
        "1000 mm. Opposite sides differ, or one was read wrong."
    )
    assert refusals("square-check", length="800", width="600", diagonal="1500") == [
        (
            "diagonal",
            "A frame of 800 x 600 mm has no diagonal of 1500 mm; write one over 200 and under 1400 mm.",
        )
    ]


def test_polygon_takes_one_size():
    assert results("polygon", sides="4", side="10")["polygon_area"] == pytest.approx(100)
    assert refusals("polygon", sides="6") == [("side", "Write one of side, across flats and across corners.")]
    assert refusals("polygon", sides="6", side="1", across_flats="2") == [
        ("across_flats", "Write only one of side, across flats and across corners; the rest follows from it.")
    ]


# --- Sine bars, blind holes, fits and photographs ---


def test_sine_bar_makes_its_height_of_slip_gauges():
    found = results("sine-bar", length="100", angle="27")
    assert found["stack"] == ["1.009 mm", "1.39 mm", "3 mm", "40 mm"]
    assert found["stack_height"] == pytest.approx(45.399)
    assert results("sine-bar", length="5 in", angle="30", gauges="inch-81")["stack"] == ["0.5 in", "2 in"]


def test_sine_bar_refuses_and_warns():
    assert refusals("sine-bar") == [("angle", "Write one of angle and height.")]
    assert refusals("sine-bar", height="95") == [
        ("height", "A height of 95 mm sets a bar of 100 mm too steep; write at most 86.6 mm.")
    ]
    assert warned("sine-bar", angle="50") == [
        "Beyond 45 degrees a small error of height is a large one of angle; set 40 degrees from the other face "
        "instead (common practice)."
    ]
    assert results("sine-bar", angle="0.05")["stack"] is None
    assert results("sine-bar", angle="0")["stack"] == []


def test_blind_hole_warns_where_the_drill_comes_out():
    assert warned("blind-hole", designation="M5", full_thread="8", thickness="12") == [
        "The drill comes out at the other face by 0.8618 mm. This part has room for 5.638 mm of full thread with "
        "1.5 mm behind the point; a plug tap last gains some."
    ]
    assert warned("blind-hole", designation="M5", full_thread="8", thickness="15") == []
    assert warned("blind-hole", designation="M5", full_thread="4") == [
        "4 mm of thread is less than one diameter, 5 mm: enough in steel for light work only (common practice: "
        "1 D steel, 1.5 D brass, 2 D aluminium)."
    ]
    assert refusals("blind-hole", designation="M5", full_thread="4", drill="5.5") == [
        (
            "drill",
            "A drill of 5.5 mm is no tapping drill for M5; write one under 5 mm, near its tapping size.",
        )
    ]


def test_a_part_just_as_thick_as_asked_has_room_for_the_thread():
    found = results("blind-hole", designation="M6", full_thread="9", thickness="20", tap="plug")
    again = results(
        "blind-hole", designation="M6", full_thread=str(found["most_thread"]), thickness="20", tap="plug"
    )
    assert again["wall_left"] == pytest.approx(1.5)


def test_hole_allowance_takes_the_tables_hole_where_none_is_given():
    assert results("hole-allowance", designation="M5")["hole_diameter"] == 5.5
    assert results("hole-allowance", designation="M5", fit="close")["hole_diameter"] == 5.3
    floating = results("hole-allowance", screw="5 mm", hole="5.5", fixing="floating", setting_error="0.1")
    assert (floating["position_zone"], floating["always_goes"]) == (0.5, True)
    assert warned("hole-allowance", designation="M5", setting_error="0.2") == [
        "Set out to 0.2 mm the pattern need not go together: of a hundred, about 88.6 do. A hole of 6.131 mm "
        "always does; or drill one part through the other."
    ]


def test_hole_allowance_refuses():
    assert refusals("hole-allowance", designation="M5", hole="4.9") == [
        ("hole", "A screw of 5 mm does not go through a hole of 4.9 mm; write a larger hole.")
    ]
    assert refusals("hole-allowance", screw="5") == [
        ("hole", "The input hole is missing; it follows from a table only where the screw's thread is named.")
    ]
    assert refusals("hole-allowance", screw="5", designation="M5") == [
        ("designation", "Write the designation of a thread or the screw's diameter, one of the two.")
    ]


def test_photo_scale_by_its_formula_and_by_the_spreads_of_its_clicks():
    """Both ways carry two pixels on each length; the spread of a quotient is the same."""
    found = asked(
        "photo-scale",
        reference="12 in",
        reference_pixels="846 ± 2",
        pixels="451 ± 2",
        behind="30",
        distance="1800",
    )
    carried, formula = found.results["photo_size"].spread, found.results["photo_spread"].value
    assert carried == pytest.approx(formula, rel=1e-4)


def test_photo_scale_compares_photographs():
    """100 mm at 100, 200 and 400 pixels; the unknown at 50, 101 and 198: 50, 50.5 and 49.5."""
    given = {"reference": "100", "reference_pixels": "100", "pixels": "50", "more": "200, 101; 400, 198"}
    found = results("photo-scale", **given)
    assert (found["photo_mean"], found["photo_range"]) == (50, 1)
    assert len(warned("photo-scale", **given)) == 1
    far = warned("photo-scale", reference="100", reference_pixels="1000", pixels="500", more="1000, 520")
    assert far == [
        "The photographs differ by 2 mm, more than clicks explain (0.22 mm each): one is not straight on, or the "
        "two lie at other depths."
    ]


def test_photo_scale_refuses_and_warns():
    assert refusals("photo-scale", reference="100", reference_pixels="80", pixels="400", behind="20") == [
        ("distance", "The input distance is missing; where one lies behind the other the camera's is needed.")
    ]
    assert refusals(
        "photo-scale", reference="100", reference_pixels="80", pixels="40", behind="-2000", distance="1000"
    ) == [("behind", "At 2000 mm in front it would be at the camera, which is 1000 mm away. Write less.")]
    assert warned("photo-scale", reference="100", reference_pixels="80", pixels="400") == [
        "With only 80 pixels each click tells; 100 or more is better (common practice): go nearer or take a finer "
        "picture.",
        "The known length is much shorter than the unknown; every error of it is multiplied.",
    ]


def test_countersink_warns_of_a_thin_wall():
    assert warned("countersink", head_diameter="6.3", hole="3.6", thickness="1.626") == [
        "The cone takes 83 % of the thickness; 80 % or less keeps a wall for the head to bear on (common practice)."
    ]
    assert warned("countersink", head_diameter="6.3", hole="3.6", thickness="1.7") == []
