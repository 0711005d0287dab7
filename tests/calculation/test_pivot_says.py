"""What the lever about a pivot and the knife edge answer and refuse, in words and numbers.

The lever of a horizontal pendulum (a boom with a bob and two centring springs) is that of the demonstration
build: 60 deg edge in a 70 deg V, stops 23.5 mm off at 220 mm, springs hooked with 6 mm of stretch. Its own
setting-up sheet says what is wrong with it: the edge rides up at 5 deg before the stops act at 6.09 deg, and
a spring goes slack.
"""

import math

import pytest

from calculators.calculation.answering import answer, pictures_of
from calculators.catalogue import find_calculator
from calculators.quantities.errors import InputError

PIVOT, KNIFE_EDGE = find_calculator("pivot"), find_calculator("knife-edge")


def boom(anchor="29.5 mm", gap="23.5 mm", v_angle="70 deg", **more):
    spring = "150 mm, 0 mm, 150 mm, {0}, 0.227 N/mm, 23.5 mm, initial_tension=0.6 N"
    return {
        "springs": f"{spring.format(anchor)}; {spring.format('-' + anchor)}",
        "loads": "300 mm, mass=0.82 kg; 300 mm, force=20 N, direction=180 deg",
        "plane": "level",
        "kind": "knife-edge",
        "edge_angle": "60 deg",
        "v_angle": v_angle,
        "edge_points": "180 deg",
        "stop_radius": "220 mm",
        "gap_low": gap,
        "gap_high": gap,
        "lever_width": "6 mm",
        **more,
    }


def said(calculator, given):
    """The warnings of a result without the cautions that always stand with it."""
    return [each for each in answer(calculator, given).warnings if each not in calculator.cautions]


def value(result, name):
    return result.results[name].value


def test_the_boom_as_drawn_rides_up_its_v_and_lets_a_spring_go_slack():
    told = said(PIVOT, boom())
    assert told == [
        "Spring 1 goes slack in the travel: stretched 6 mm at rest, it gives up 10.5 mm; 1.2 times that, "
        "12.6 mm, keeps it on.",
        "Spring 2 goes slack in the travel: stretched 6 mm at rest, it gives up 10.5 mm; 1.2 times that, "
        "12.6 mm, keeps it on.",
        "The edge rides up the V at 5 deg clockwise before the stop at 6.09 deg acts; set the stop at 4 deg or less.",
        "The edge rides up the V at 5 deg anticlockwise before the stop at 6.09 deg acts; set the stop at 4 deg or less.",
    ]


def test_the_boom_put_right_is_stopped_first_and_keeps_its_springs():
    given = boom(anchor="37.5 mm", gap="15 mm")
    result = answer(PIVOT, given)
    assert said(PIVOT, given) == []
    assert value(result, "balance_angle") == 0
    assert value(result, "travel") == pytest.approx(2 * 3.90, abs=0.005)
    assert [each["stopped_by"] for each in value(result, "travel_ends")] == ["the low stop", "the high stop"]
    # Stretched 24.2 mm at the stop: 0.6 N + 0.227 N/mm x 24.2 mm = 6.09 N, as its setting-up sheet has it.
    (first, _) = value(result, "spring_forces")
    assert first["at_low_end"] == pytest.approx(6.09, abs=0.01)


def test_the_period_of_the_boom_is_that_of_its_bob_on_its_springs():
    # Without the pull of the wire: K = 2 k r^2, I = m R^2.
    given = boom(anchor="37.5 mm", gap="15 mm", loads="300 mm, mass=0.82 kg")
    result = answer(PIVOT, given)
    expected = 2 * math.pi * math.sqrt(0.82 * 0.3**2 / (2 * 227 * 0.15**2))
    assert value(result, "natural_period") == pytest.approx(expected, rel=1e-9)
    assert value(result, "stiffness") == pytest.approx(math.radians(2 * 227 * 0.15**2), rel=1e-9)
    assert said(PIVOT, given) == [
        "At 0 deg the edge is not pressed into its V by any of the forces given; the force on it must point as "
        "the edge does."
    ]


def test_an_edge_that_is_pulled_out_of_its_v_is_told():
    told = said(PIVOT, boom("37.5 mm", "15 mm", edge_points="0 deg"))
    assert told == ["At 0 deg the edge lifts out of its V; the force on it must point as the edge does."]


def test_a_stop_within_the_margin_is_told():
    told = said(PIVOT, boom(anchor="37.5 mm", gap="17 mm"))
    assert told[-1] == (
        "Between the stop at 4.42 deg anticlockwise and the flank of the V at 5 deg there is less than the "
        "margin of 1 deg."
    )


def test_a_lever_that_balances_nowhere_says_what_it_rests_on():
    given = {
        "loads": "100 mm, mass=1 kg",
        "stop_low": "-5",
        "stop_high": "5",
        "pin_radius": "2",
        "friction": "0.1",
    }
    result = answer(PIVOT, given)
    assert value(result, "balance_angle") is None
    assert value(result, "stiffness") is None
    assert value(result, "rests_on") == "the low stop"
    assert value(result, "equilibria") == []
    assert "dead_zone" not in result.results
    assert said(PIVOT, given) == [
        "The lever balances nowhere by itself within its travel: let go as drawn it goes to the low stop, at -5 deg."
    ]


def test_a_lever_that_stands_on_its_head_falls_to_either_end():
    given = {"loads": "0 mm, 100 mm, mass=1 kg", "stop_low": "-5", "stop_high": "5"}
    result = answer(PIVOT, given)
    assert value(result, "rests_on") == "either end"
    assert said(PIVOT, given)[0] == (
        "As drawn the lever stands on an unstable balance: it falls to either end of its travel."
    )


SLACK = "100 mm, 0 mm, 100 mm, {0}, 0.2 N/mm, {1}, initial_tension={2}; 100 mm, 0 mm, 100 mm, -{0}, 0.2 N/mm, {1}, initial_tension={2}"


def test_a_lever_between_slack_springs_floats():
    given = {"springs": SLACK.format("30 mm", "32 mm", "0 N"), "stop_low": "-5", "stop_high": "5"}
    result = answer(PIVOT, given)
    assert value(result, "rests_on") == "nothing, it floats free"
    assert said(PIVOT, given)[0] == (
        "Nothing turns the lever between -1.15 deg and 1.15 deg: it stays wherever it is put there."
    )


def test_a_lever_held_by_initial_tension_says_what_moves_it():
    given = {"springs": SLACK.format("30 mm", "30 mm", "0.6 N"), "stop_low": "-5", "stop_high": "5"}
    result = answer(PIVOT, given)
    assert value(result, "balance_angle") == 0
    assert value(result, "stiffness") is None
    assert said(PIVOT, given)[0] == (
        "The initial tension of a spring holds the lever fast at 0 deg: it takes 0.06 N m to move it "
        "clockwise, 0.06 N m anticlockwise."
    )


def test_a_lever_that_is_stiffer_to_one_side_is_told():
    # Beside a spring that always pulls or pushes one of another rate that takes up just as drawn.
    springs = "100 mm, 0 mm, 100 mm, 30 mm, 0.2, 30 mm, both; 100 mm, 0 mm, 100 mm, -30 mm, 0.1, 30 mm"
    result = answer(PIVOT, {"springs": springs, "stop_low": "-5", "stop_high": "5"})
    # K = k r^2 with one spring and with both: 2 and 3 N m/rad.
    assert value(result, "stiffness") == pytest.approx(math.radians(2.5), rel=1e-6)
    assert result.warnings[0] == (
        "A spring takes up just at the balance: the stiffness is 0.0349 N m/deg clockwise of it and 0.0524 N "
        "m/deg anticlockwise; the mean is given."
    )


def test_a_lever_that_stays_at_a_stop_is_told():
    # A hanging weight and a couple of half its greatest moment: sin a = 1/2 at 30 and at 150 deg.
    given = {
        "loads": "0 mm, -100 mm, mass=1 kg; 100 mm, 0 mm, force=4.903325 N, direction=90 deg, follows=yes",
        "stop_low": "-60 deg",
        "stop_high": "170 deg",
    }
    found = value(answer(PIVOT, given), "equilibria")
    assert [(each["name"], round(each["angle"], 6)) for each in found] == [("stable", 30), ("unstable", 150)]
    assert said(PIVOT, given)[0] == "Pushed to the high stop, at 170 deg, the lever stays there."


def test_one_turn_of_the_adjuster_moves_the_balance_as_the_shift_of_its_length_says():
    result = answer(PIVOT, PIVOT.example)
    change = value(result, "preload_change")
    shifts = {each["name"]: each["angle"] for each in value(result, "balance_shifts")}
    assert change["anchor_moves"] == 0.8
    # The anchor goes along the spring as drawn: (-20, 70) of 72.8 mm.
    along = (-20 * shifts["spring 1 anchor x"] + 70 * shifts["spring 1 anchor y"]) / math.hypot(20, 70)
    assert change["balance_angle"] == pytest.approx(0.8 * along, rel=0.01)
    assert "lever's own x" in shifts


def test_the_curve_passes_nought_at_the_balance_and_ends_at_the_stops():
    result = answer(PIVOT, PIVOT.example)
    curve = value(result, "curve")
    assert (curve[0]["angle"], curve[-1]["angle"]) == (-15, 15)
    before = [each for each in curve if each["angle"] < value(result, "balance_angle")]
    assert all(each["moment"] > 0 for each in before)
    assert all(each["moment"] < 0 for each in curve[len(before) :])


REFUSED = [
    ({}, "springs", "Nothing turns the lever; write springs or loads, a row for each."),
    (
        {"loads": "100 mm, force=2 N, mass=1 kg"},
        "loads[0].force",
        "Loads, row 1: It has both a force and a mass; write one of the two.",
    ),
    (
        {"loads": "100 mm"},
        "loads[0].force",
        "Loads, row 1: It has neither a force nor a mass; write one of the two.",
    ),
    (
        {"loads": "100 mm, mass=1 kg, follows=yes"},
        "loads[0].follows",
        "Loads, row 1: A mass always pulls straight down; leave out follows.",
    ),
    (
        {"springs": "100 mm, 0 mm, 100 mm, 30 mm, 0.2, 40 mm, compression, 2 N"},
        "springs[0].initial_tension",
        "Springs, row 1: A spring of kind compression has no initial tension; leave it out.",
    ),
    (
        {"springs": "100 mm, 0 mm, 100 mm, 30 mm, 0.2, 20 mm, solid_length=10 mm"},
        "springs[0].solid_length",
        "Springs, row 1: An extension spring goes slack before it is solid; leave out its solid length.",
    ),
    (
        {"springs": "100 mm, 0 mm, 100 mm, 30 mm, 0.2, 20 mm, compression, solid_length=20 mm"},
        "springs[0].solid_length",
        "Springs, row 1: A solid length of 20 mm must be less than the free length of 20 mm.",
    ),
    (
        {"springs": "100 mm, 0 mm, 100 mm, 30 mm, 0.2, 20 mm, longest=18 mm"},
        "springs[0].longest",
        "Springs, row 1: The longest of 18 mm must be more than the free length of 20 mm.",
    ),
    (
        {"springs": "100 mm, 0 mm, 100 mm, 30 mm, 0.2, 20 mm", "adjust_spring": "2"},
        "adjust_spring",
        "There is no spring 2; write adjust_spring from 1 to 1.",
    ),
    (
        boom(stop_low="-3"),
        "gap_low",
        "The low stop has both stop_low and gap_low; write one of the two.",
    ),
    (
        boom(stop_radius=""),
        "stop_radius",
        "A stop's gap needs its stop_radius, from the pivot to its tip; gap_low has none.",
    ),
    (
        boom(v_angle=""),
        "v_angle",
        "A knife edge's travel needs both edge_angle and v_angle; v_angle is missing.",
    ),
    (
        boom(v_angle="55 deg"),
        "edge_angle",
        "An edge of 60 deg cannot swing in a V of 55 deg; write an angle of the edge over 0 deg and less than "
        "that of the V, and of the V no more than 180 deg.",
    ),
    (
        boom(margin="6 deg"),
        "margin",
        "A margin of 6 deg leaves no swing: the lever as drawn is 5 deg from the flank of the V; write a "
        "smaller margin or a wider V.",
    ),
    (
        boom(edge_lean="7 deg"),
        "edge_lean",
        "The edge stands 7 deg off the middle of the V as drawn, more than the 5 deg that it swings to each "
        "side; write a smaller lean or a wider V.",
    ),
    (
        {"kind": "flexure", "loads": "100 mm, mass=1 kg"},
        "flexure_rate",
        "A flexure needs its flexure_rate; write 0 N m/deg for one that is not felt.",
    ),
    (
        {"kind": "flexure", "flexure_rate": "1", "flexure_rest": "9", "flexure_limit": "8"},
        "flexure_limit",
        "The flexure is bent beyond its limit in the lever as drawn; write a larger flexure_limit.",
    ),
]


@pytest.mark.parametrize(("given", "field", "says"), REFUSED)
def test_what_does_not_go_together_is_refused_with_a_sentence(given, field, says):
    with pytest.raises(InputError) as caught:
        answer(PIVOT, given)
    assert (caught.value.faults[0].field, caught.value.faults[0].says) == (field, says)


def test_inputs_of_another_kind_of_pivot_are_told_not_used():
    given = {"kind": "flexure", "flexure_rate": "1", "friction": "0.1", "edge_angle": "60", "v_angle": "90"}
    assert said(PIVOT, given) == [
        "A flexure has no friction here: pin_radius and friction were not used.",
        "The inputs of a knife-edge were not used: the lever turns on a flexure.",
    ]


def test_a_spread_of_a_rate_reaches_the_balance():
    given = {
        **PIVOT.example,
        "springs": "80 mm, 0 mm, 60 mm, 70 mm, 0.15 ± 0.0015 N/mm, 50 mm, initial_tension=0.5 N",
    }
    result = answer(PIVOT, given)
    shifts = {each["name"]: each["angle"] for each in value(result, "balance_shifts")}
    assert result.results["balance_angle"].spread == pytest.approx(shifts["spring 1 rate"], rel=0.01)


def test_a_knife_edge_whose_stops_act_first():
    result = answer(KNIFE_EDGE, KNIFE_EDGE.example)
    assert value(result, "verdict") == "the stops act first"
    assert (value(result, "swing_low"), value(result, "swing_high")) == (-15, 15)
    assert value(result, "swing_left") == pytest.approx(15 - 6.0927, abs=1e-4)
    assert said(KNIFE_EDGE, KNIFE_EDGE.example) == []


KNIFE_EDGES = [
    (
        {"v_angle": "70 deg"},
        "the edge rides up the V first",
        "The edge rides up the V 1.09 deg before a stop acts; set the stops at 4 deg or less, or open the V.",
    ),
    (
        {"v_angle": "73 deg"},
        "the stops act within the margin",
        "Between stop and flank 0.407 deg are left, less than the margin of 1 deg; set the stops at 5.5 deg or less.",
    ),
    (
        {"gap_low": "", "gap_high": ""},
        "no stop",
        "There is no clockwise and no anticlockwise stop: the edge swings until its flank rides up the V; set "
        "stops at 14 deg or less.",
    ),
    (
        {"load": "2000 N"},
        "the stops act first",
        "A pressure of 9238 MPa is over the 3805 MPa at which 697 HV begins to yield: the edge takes a flat; "
        "make it rounder, longer or harder, or the load less.",
    ),
    (
        {"hardness": ""},
        "the stops act first",
        "Without the hardness of the softer of edge and bed the pressure has no limit beside it.",
    ),
]


@pytest.mark.parametrize(("change", "verdict", "says"), KNIFE_EDGES)
def test_what_a_knife_edge_says(change, verdict, says):
    given = {**KNIFE_EDGE.example, **change}
    assert value(answer(KNIFE_EDGE, given), "verdict") == verdict
    assert said(KNIFE_EDGE, given) == [says]


def test_a_knife_edge_needs_all_of_its_contact():
    with pytest.raises(InputError) as caught:
        answer(KNIFE_EDGE, {"edge_angle": "60", "v_angle": "90", "load": "5 N", "edge_radius": "0.05"})
    assert str(caught.value) == (
        "The pressure of the edge needs its load, bearing_length and edge_radius; bearing_length is missing."
    )


def test_an_edge_sharper_than_its_bed_is_needed_to_roll():
    with pytest.raises(InputError) as caught:
        answer(KNIFE_EDGE, {**KNIFE_EDGE.example, "bed_radius": "0.04 mm"})
    assert str(caught.value) == (
        "An edge of radius 0.05 mm does not seat in a bottom of radius 0.04 mm; write a radius of the bottom "
        "that is larger than that of the edge."
    )


def test_the_pictures_say_their_numbers_in_words():
    lever, *turned, curve = pictures_of(PIVOT, PIVOT.example, answer(PIVOT, PIVOT.example))
    assert "The lever rests at 4.11 deg from where it is drawn." in lever.svg
    assert "Anticlockwise it goes to 15 deg: the high stop." in lever.narrow
    assert "Spring 1 is 67.25 mm long and pulls 3.09 N." in lever.svg
    assert "the moment is nought: stable at 4.11 deg." in curve.svg
    where = ("at rest", "at the clockwise end", "at the anticlockwise end")
    for picture, place in zip(turned, where, strict=True):
        assert f"<title>Lever, {place}, to scale</title>" in picture.svg
    (edge,) = pictures_of(KNIFE_EDGE, KNIFE_EDGE.example, answer(KNIFE_EDGE, KNIFE_EDGE.example))
    assert "A flank lies on the V at -15 and 15 deg." in edge.svg
    assert "Stop clockwise at -6.09 deg." in edge.narrow
