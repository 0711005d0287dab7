"""What identify-thread, compare-threads, thread-wires and plated-thread answer, and how they refuse."""

import pytest

from calculators.calculation.answering import answer, as_text, pictures_of
from calculators.catalogue import find_calculator
from calculators.quantities.errors import InputError


def answered(calculator, **given):
    return answer(find_calculator(calculator), given)


def results(calculator, **given):
    return {name: one.value for name, one in answered(calculator, **given).results.items()}


def refusals(calculator, **given):
    with pytest.raises(InputError) as caught:
        answer(find_calculator(calculator), given)
    return [(fault.field, fault.says) for fault in caught.value.faults]


def test_at_the_bench_with_a_caliper_and_a_leaf():
    """Caliper 4.70, the leaf says 32: three fields, the ranking, and what would decide."""
    found = results("identify-thread", diameter="4.70", threads_per_inch="32")
    assert found["verdict"] == "undecided between 3/16 BSF, 10-32 UNF and 2 BA; M5 is barely possible"
    assert found["likeliest"] == "3/16 BSF"
    assert found["possible"] == ["3/16 BSF", "10-32 UNF", "2 BA", "M5"]
    assert found["tells_apart"] == [
        "Flank angle: a leaf of 55 degrees seats in 3/16 BSF, one of 60 degrees in 10-32 UNF.",
        "Trial: a nut of 3/16 BSF runs on a screw of 3/16 BSF; on one of 10-32 UNF it is too tight for the hand.",
    ]
    first = found["candidates"][0]
    assert (first["designation"], first["system"], first["diameter_difference"], first["pitch_difference"]) == (
        "3/16 BSF", "BSF", -0.0625, 0,
    )  # fmt: skip
    assert first["angle"] == 55
    assert [each["designation"] for each in found["candidates"]] == found["possible"]
    assert found["candidates"][2]["tell_apart"] == (
        "Flank angle: a leaf of 55 degrees seats in 3/16 BSF, one of 47.5 degrees in 2 BA."
    )


@pytest.mark.parametrize(
    ("angle", "verdict"),
    [("47.5", "decided: 2 BA"), ("55", "decided: 3/16 BSF"),
     ("60", "undecided: 10-32 UNF by far the likeliest; M5 is barely possible")],
)  # fmt: skip
def test_the_flank_angle_decides(angle, verdict):
    found = results("identify-thread", diameter="4.70", threads_per_inch="32", flank_angle=angle)
    assert found["verdict"] == verdict


def test_the_pitch_in_any_of_three_ways():
    """0.81 mm, 31.36 to the inch, and 10.53 mm over 13 threads are one pitch."""
    ways = (
        {"pitch": "0.81 ± 0.005"},
        {"threads_per_inch": "31.36 ± 0.2"},
        {"over": "10.53 ± 0.05", "threads": "13"},
    )
    for way in ways:
        assert results("identify-thread", diameter="4.65 ± 0.02", **way)["verdict"] == "decided: 2 BA", way


def test_uncertainties_are_the_ones_that_were_told():
    told = results("identify-thread", diameter="6 ± 0.02", pitch="1 ± 0.01")
    assert (told["uncertainty"], told["pitch_uncertainty"]) == (0.02, 0.01)
    assert results("identify-thread", diameter="6", pitch="1", uncertainty="0.1")["uncertainty"] == 0.1
    usual = results("identify-thread", diameter="6", pitch="1")
    assert (usual["uncertainty"], usual["pitch_uncertainty"]) == (0.05, 0.025)
    assert results("identify-thread", diameter="6", over="10", threads="10")["pitch_uncertainty"] == 0.01
    # The larger of two that are told is the one to go by.
    assert results("identify-thread", diameter="6 ± 0.02", pitch="1", uncertainty="0.1")["uncertainty"] == 0.1


def test_a_thread_of_two_names_is_decided():
    found = results("identify-thread", diameter="6.33", threads_per_inch="26")
    assert found["verdict"] == "decided: 1/4 BSF, which is also 1/4 x 26 BSB"
    assert found["tells_apart"] == []


def test_a_nut_is_measured_across_its_bore():
    """An M6 nut's bore is 4.917 to 5.153."""
    found = results("identify-thread", diameter="5.03", pitch="1", part="nut", flank_angle="60")
    assert found["verdict"] == "decided: M6"
    assert found["candidates"][0]["diameter_difference"] == pytest.approx(5.03 - (6 - 1.082532), abs=1e-4)


def test_within_one_system():
    found = results("identify-thread", diameter="4.70", threads_per_inch="32", system="BA")
    assert found["verdict"] == "decided: 2 BA"


def test_no_thread_of_the_tables():
    found = answered("identify-thread", diameter="5 ± 0.02", pitch="1.5 ± 0.01")
    assert str(found.results["verdict"].value).startswith("none of the tables; the nearest is ")
    assert found.results["possible"].value == []
    (warning,) = found.warnings
    assert warning.startswith("No thread of the tables gives this reading. The nearest, ")


def test_identify_refuses():
    missing = "The pitch is measured in one way: write pitch, threads_per_inch, or over with threads"
    assert refusals("identify-thread", diameter="5") == [("pitch", f"{missing}, one of them.")]
    both = refusals("identify-thread", diameter="5", pitch="0.8", threads_per_inch="32")
    assert both == [("threads_per_inch", f"{missing}.")]
    half = [("threads", "A length over threads needs both over and threads; write both.")]
    assert refusals("identify-thread", diameter="5", over="10") == half
    assert refusals("identify-thread", diameter="5", over="10", threads="500") == [
        ("over", "A pitch of 0.02 mm is no screw's; it is looked for from 0.1 to 12 mm.")
    ]
    assert [field for field, _ in refusals("identify-thread", diameter="0", pitch="1")] == ["diameter"]


@pytest.mark.parametrize(
    ("bolt", "nut", "verdict"),
    [("2 BA", "3/16 BSF", "binds"), ("10-32", "M5", "loose"), ("M5", "10-32", "binds"), ("0BA", "M6", "fits"),
     ("M8 LH", "M8", "different"), ("M8 LH", "M8 left hand", "fits"), ("1/2 BSW", "1/2 UNC", "different")],
)  # fmt: skip
def test_compare(bolt, nut, verdict):
    assert results("compare-threads", bolt=bolt, nut=nut)["verdict"] == verdict


def test_compare_says_why_in_numbers():
    found = results("compare-threads", bolt="2 BA", nut="3/16 BSF")
    assert found["why"] == [
        "The pitches differ by 2 %, 0.016 mm a turn and 0.094 mm over the 5.8 threads engaged.",
        "At ordinary sizes it binds after 3.3 turns, with the smallest screw in the largest nut after 6.5 turns.",
        "The screw is 0.06 mm smaller than the nut's thread on basic sizes: the flanks overlap by 98 % of what "
        "they should.",
        "The flanks are at 47.5 and 55 degrees: they bear on a line near the screw's crest, not over the flanks, "
        "and hold less than a thread of one form.",
    ]
    assert [each["sizes"] for each in found["at_sizes"]] == ["basic", "tightest", "ordinary", "slackest"]
    assert found["pitch_error"] == pytest.approx(0.01625 * 4.7 / 0.81, rel=1e-9)


def test_compare_leaves_out_the_turns_of_threads_that_never_bind():
    found = results("compare-threads", bolt="M6", nut="M6")
    assert "turns_to_bind" not in found
    assert found["at_sizes"][2]["turns"] == "without end"
    assert found["why"] == ["The pitches are the same.", "Both are one thread."]


def test_the_hand_may_be_an_input():
    found = results("compare-threads", bolt="M8", nut="M8", nut_hand="left")
    assert found["why"] == ["One is right-handed, the other left-handed: not a turn goes in."]
    assert results("compare-threads", bolt="M8 LH", nut="M8", bolt_hand="right")["verdict"] == "fits"


def test_engagement_with_a_spread_is_carried():
    found = answered("compare-threads", bolt="2 BA", nut="3/16 BSF", engagement="4.05 ± 0.81 mm")
    assert found.results["pitch_error"].value == pytest.approx(5 * 0.01625)
    assert found.results["pitch_error"].spread == pytest.approx(0.01625)


def test_compare_refuses():
    ((field, says),) = refusals("compare-threads", bolt="M99", nut="M6")
    assert field == "bolt"
    assert says.startswith("The thread 'M99' is not known. The nearest are ")
    assert [each for each, _ in refusals("compare-threads", bolt="M6", nut="M6", engagement="0")] == [
        "engagement"
    ]


def test_wires_say_what_to_read_and_what_a_reading_means():
    """1/4-20 2A: 0.2560 to 0.2597 in over 0.028868 in wires, and the lead correction on top."""
    found = results("thread-wires", designation="1/4-20", wire="0.028868 in", reading="0.2585 in")
    assert found["reading_least"] / 25.4 == pytest.approx(0.2560 + 0.00012, abs=0.0001)
    assert found["reading_most"] / 25.4 == pytest.approx(0.2597 + 0.00012, abs=0.0001)
    assert found["verdict"] == "within the limits of the screw"
    large = results("thread-wires", designation="1/4-20", wire="0.028868 in", reading="0.2605 in")
    assert large["verdict"] == "too large: over the limit of the screw"
    small = results("thread-wires", designation="1/4-20", wire="0.028868 in", reading="0.2550 in")
    assert small["verdict"] == "too small: under the limit of the screw"
    assert "verdict" not in results("thread-wires", designation="2 BA")


def test_a_reading_with_its_spread():
    found = answered("thread-wires", designation="M6", reading="6.02 ± 0.01")
    assert found.results["measured_pitch_diameter"].spread == pytest.approx(0.01, rel=1e-3)


def test_wires_refuse():
    assert refusals("thread-wires", designation="M6", wire="0.4") == [
        ("wire", "A wire of 0.4 mm lies below the crests of M6; write one from 0.506 to 1.010 mm.")
    ]
    assert refusals("thread-wires", designation="M6", wire="1.2") == [
        ("wire", "A wire of 1.2 mm rides on the crests of M6; write one from 0.506 to 1.010 mm.")
    ]
    ((field, says),) = refusals("thread-wires", designation="M6", reading="8")
    assert field == "reading"
    assert says.startswith("A reading of 8 mm is more than a pitch off the 6.2")
    assert says.endswith("; see that thread, wires and reading belong together.")


def test_wires_warn_of_a_steep_thread():
    """An M1 thread rises 0.25 in pi x 0.838: 5.4 degrees."""
    assert answered("thread-wires", designation="M1").warnings == (
        "The thread rises at 5.4 degrees; the formula is good to 5 degrees.",
    )


def test_five_micrometres_on_the_screw_of_an_m6_and_on_both():
    """The allowance of 6g is 26 micrometres: 5 on the screw take 20, on both 40."""
    one = results("plated-thread", designation="M6", coating="5 um")
    assert (one["pitch_diameter_growth"], one["room_left"]) == (pytest.approx(0.02), pytest.approx(0.006))
    assert one["verdict"] == "within the allowance"
    assert one["greatest_coating"] == pytest.approx(0.0065)
    both = answered("plated-thread", designation="M6", coating="5 um", nut_coating="5 um")
    assert both.results["room_left"].value == pytest.approx(-0.014)
    assert both.warnings[0] == (
        "The coatings take 40 micrometres of the pitch diameter and the allowance is 26: the largest screw "
        "does not go in the smallest nut. Room is for 1.5 micrometres on the screw."
    )


def test_a_class_without_allowance_has_no_room():
    found = answered("plated-thread", designation="1/4 BSF", coating="5 um")
    assert found.results["greatest_coating"].value == 0
    assert found.warnings[0].startswith("The class of this thread has no allowance: ")


def test_an_allowance_of_ones_own():
    found = results("plated-thread", designation="1/4 BSF", coating="5 um", allowance="0.03")
    assert found["room_left"] == pytest.approx(0.03 - 0.01 / 0.46174861, abs=1e-7)


def test_plated_thread_refuses():
    assert refusals("plated-thread", designation="M6", coating="-1 um")[0][0] == "coating"
    assert refusals("plated-thread", designation="M6", coating="5")[0][0] == "coating"


@pytest.mark.parametrize(
    ("name", "given", "titles"),
    [("thread", {"designation": "2 BA"}, ["The form of 2 BA"]),
     ("compare-threads", {"bolt": "2 BA", "nut": "3/16 BSF"}, ["2 BA in 3/16 BSF"]),
     ("compare-threads", {"bolt": "M4", "nut": "M8"}, []),
     ("thread-wires", {"designation": "M6"}, ["Three wires in M6"]),
     ("identify-thread", {"diameter": "6", "pitch": "1"}, ["The reading among the threads"]),
     ("plated-thread", {"designation": "M6", "coating": "5 um"}, [])],
)  # fmt: skip
def test_pictures_and_text(name, given, titles):
    calculator = find_calculator(name)
    found = answer(calculator, given)
    assert [each.title for each in pictures_of(calculator, given, found)] == titles
    assert as_text(calculator, given, found).startswith(f"{name}: ")
