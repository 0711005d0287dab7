"""What calculators say at the edge of what can be: nothing left over, nearly a whole circle, a thread hardly cut."""

from __future__ import annotations

import pytest

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator
from calculators.quantities.errors import InputError

REFUSED = [
    ("divide-length", {"length": "180", "count": "9", "width": "20", "ends": "pieces-at-ends"}, "width",
     "9 pieces of 20 mm take up all of the 180 mm there are. Write fewer or narrower ones."),
    ("divide-length", {"length": "100", "count": "9", "width": "20"}, "width",
     "9 pieces of 20 mm take up more than the 100 mm there are. Write fewer or narrower ones."),
    ("arc", {"chord": "0.0000001 mm", "height": "100 mm"}, "chord",
     "So nearly a whole circle has no chord to speak of; write a longer chord or less height."),
    ("arc", {"radius": "50 mm", "height": "99.9999 mm"}, "height",
     "So nearly a whole circle has no chord to speak of; write a longer chord or less height."),
    ("washer-bearing", {"designation": "M6", "torque": "3 N m", "species": "white oak", "outside": "5 mm"},
     "outside", "A washer of 5 mm outside has no room for its hole of 6.4 mm; write an outside over that."),
]  # fmt: skip


@pytest.mark.parametrize(("name", "given", "field", "says"), REFUSED)
def test_the_edge_is_told_in_a_sentence(name: str, given: dict[str, str], field: str, says: str) -> None:
    with pytest.raises(InputError) as refused:
        answer(find_calculator(name), given)
    assert [(fault.field, fault.says) for fault in refused.value.faults] == [(field, says)]


@pytest.mark.parametrize(
    ("engagement", "says"),
    [
        # M6: the drills of 5.5 and 4.7 mm leave (6 - d)/1.299 of 1 mm of pitch.
        ("40", ("38.5 % of thread is shallow: it strips sooner; 60 to 75 % is usual.",)),
        ("100", ("100 % of thread is hard on the tap; 60 to 75 % holds nearly as well.",)),
        ("75", ()),
    ],
)
def test_a_thread_hardly_cut_or_cut_too_deep_is_told(engagement: str, says: tuple[str, ...]) -> None:
    given = {"designation": "M6", "engagement": engagement}
    assert answer(find_calculator("tapping-drill"), given).warnings == says


def test_a_lever_that_hangs_straight_down_has_no_noise_in_its_working() -> None:
    found = answer(find_calculator("pivot"), {"loads": "100 mm, mass=1 kg"})
    # Hung at a right angle the mass lies under the pivot: no arm, no moment.
    assert found.results["balance_angle"].value == -90.0
    lines = [step.line for step in found.working]
    assert "P1 = x Fy - y Fx = 0 mm x -9.80665 N - -100 mm x 0 N = 0 N mm (statics)" in lines
    curve = found.results["curve"].value
    assert isinstance(curve, list)
    assert {point["angle"]: point["moment"] for point in curve}[-90.0] == 0.0


@pytest.mark.parametrize(
    ("arrangement", "line"),
    [
        # Statics: neither has begun to give, so each bears by its initial tension: 3 x 5/9 N.
        (
            "side-by-side",
            "F1 = F F_i/(sum of F_i), held until F is over that sum = 3 N x 5 N/9 N = 1.66667 N",
        ),
        ("end-to-end", "x1 = 0, held until F is over F_i = F 3 N, F_i 5 N = 0 mm"),
    ],
)
def test_springs_whose_initial_tension_holds_do_not_move(arrangement: str, line: str) -> None:
    given = {"springs": "2 N/mm, 5 N; 3 N/mm, 4 N", "load": "3 N", "kind": "extension"}
    found = answer(find_calculator("spring-pair"), {**given, "arrangement": arrangement})
    assert found.results["working_travel"].value == 0.0
    assert found.working[0].line == line
    assert "The load of 3 N does not overcome the initial loads: nothing moves yet." in found.warnings


def test_a_pattern_that_hardly_ever_fails_is_not_said_to_go_a_hundred_times_in_a_hundred() -> None:
    given = {
        "designation": "M5",
        "hole": "5.5 mm",
        "fixing": "floating",
        "setting_error": "0.25",
        "count": "1",
    }
    found = answer(find_calculator("hole-allowance"), given)
    assert found.results["always_goes"].value is False
    assert found.warnings == (
        "Set out to 0.25 mm the pattern need not go together: nearly all do. A hole of 5.707 mm always does; "
        "or drill one part through the other.",
    )


@pytest.mark.parametrize("written", ["16", "16 SWG", "16swg", "No. 16", "#16", "16 gauge", "16 ga"])
def test_a_gauge_number_is_read_as_it_is_written(written: str) -> None:
    found = answer(find_calculator("gauge"), {"system": "imperial-standard", "number": written})
    # BS 3737 as stated: 16 SWG is 0.064 in.
    assert found.results["thickness_inches"].value == 0.064


@pytest.mark.parametrize(
    ("system", "written", "says"),
    [
        ("imperial-standard", "16 AWG",
         "'16 AWG' is a number of brown-sharpe, not of imperial-standard; choose the gauge that it is of."),
        ("brown-sharpe", "20 SWG",
         "'20 SWG' is a number of imperial-standard, not of brown-sharpe; choose the gauge that it is of."),
        ("imperial-standard", "16 XYZ", "There is no number '16 XYZ' in the SWG gauge; it runs from 7/0 to 50."),
    ],
)  # fmt: skip
def test_a_number_of_another_gauge_is_not_taken_for_one_of_this(system: str, written: str, says: str) -> None:
    with pytest.raises(InputError) as refused:
        answer(find_calculator("gauge"), {"system": system, "number": written})
    assert [(fault.field, fault.says) for fault in refused.value.faults] == [("number", says)]


def test_a_screw_that_drops_through_never_binds() -> None:
    found = answer(find_calculator("compare-threads"), {"bolt": "M3", "nut": "M10"})
    assert found.results["verdict"].value == "different"
    assert "turns_to_bind" not in found.results
    states = found.results["at_sizes"].value
    assert isinstance(states, list)
    assert {state["turns"] for state in states} == {"without end"}


def test_the_rounding_of_hundredths_is_not_told_beside_sizes_that_are_off_by_more() -> None:
    circle = find_calculator("circle-of-holes")
    assert "rounding" in answer(circle, {"diameter": "72", "count": "6"}).results
    found = answer(circle, {"diameter": "72 ± 0.1", "count": "6"})
    assert "rounding" not in found.results
    assert found.warnings == ()
    # The chord of six holes is the radius: 36 ± 0.05.
    assert found.results["chord"].spread == pytest.approx(0.05)
