"""What is tight, loose or free to turn in stacks whose arithmetic is done here by hand.

The cases are those of the bench (common practice): bolts home and not home, shoulders, bushes longer and
shorter than what turns on them, lock nuts, studs, grub screws, jack screws. Sizes used, from memory: washers
of ISO 7089 M5 1.0, M6 1.6, M8 1.6 thick; nuts of ISO 4032 M5 4.7, M6 5.2 high.
"""

from __future__ import annotations

import pytest

from calculators.joints import JointResult, StackItem
from calculators.joints.freedom import SCREW, Freedom, freedom_of
from calculators.joints.riders import Rider
from tests.joints.joint_makers import insert, layer, nut, washer, work


def told(result: JointResult, *riders: Rider) -> list[tuple[int, str, str]]:
    return [(each.item, each.state, each.why) for each in freedom_of(result, riders)]


def of(result: JointResult, item: int, *riders: Rider) -> Freedom:
    return next(each for each in freedom_of(result, riders) if each.item == item and each.rider < 0)


def test_all_between_a_head_and_a_tightened_nut_is_clamped_and_says_between_what() -> None:
    result = work("M5 x 30 hex set screw", washer("M5 washer"), layer("P1", "oak", 15), washer("M5 washer"),
                  nut("M5 nut"))  # fmt: skip
    assert told(result) == [
        (SCREW, "tight", "drawn up between the head and the nut"),
        (0, "tight", "clamped between the head and P1"),
        (1, "tight", "clamped between the washer and the washer"),
        (2, "tight", "clamped between P1 and the nut"),
        (3, "tight", "tightened against the washer"),
    ]


def test_a_screw_that_bottoms_leaves_all_before_its_thread_loose_by_what_it_is_too_long() -> None:
    # 50 long, 29.6 before the thread, 18 of full thread: 50 - 29.6 - 18 = 2.4
    result = work("M8 x 50 hex set screw", washer("M8 washer"), layer("P1", "oak", 28),
                  layer("P2", "brass", 60, thread_depth_mm=18, drilled_depth_mm=22))  # fmt: skip
    assert told(result) == [
        (SCREW, "tight", "it stops in P2 before its head bears"),
        (0, "loose", "the screw bottoms in P2 2.4 mm before the head bears"),
        (1, "loose", "the screw bottoms in P2 2.4 mm before the head bears"),
        (2, "tight", "the screw runs in its thread"),
    ]
    assert of(result, 1).end_play_mm == pytest.approx(50 - 29.6 - 18)


def test_a_screw_that_just_reaches_the_end_of_its_thread_clamps() -> None:
    result = work("M8 x 50 hex set screw", layer("P1", "brass", 32),
                  layer("P2", "brass", 60, thread_depth_mm=18, drilled_depth_mm=22))  # fmt: skip
    assert of(result, 0).state == "tight"


SHOULDER = "M6 x 50 hex bolt"
"""ISO 4014: 18 of thread up to 125 long (b = 2 d + 6, from memory), so 50 - 18 = 32 of plain shank."""


def shoulder(thick: float, clamps: bool = False) -> JointResult:
    lever = layer("P1", "brass", thick, {"kind": "reamed", "diameter_mm": 6.02})
    return work(SHOULDER, lever, layer("P2", "brass", 30), clamps=clamps)


def test_a_shank_longer_than_a_lever_keeps_it_free_to_turn_by_the_difference() -> None:
    found = of(shoulder(31.8), 0)
    assert (found.state, found.why) == (
        "free to turn", "the plain shank is 0.2 mm longer than what lies before P2: P1 turns"
    )  # fmt: skip
    assert found.end_play_mm == pytest.approx(0.2)
    assert found.side_play_mm == pytest.approx(0.02)
    assert of(shoulder(31.8), SCREW).why == "its shoulder bears on P2"


def test_a_lever_as_long_as_the_shank_or_longer_is_not_free() -> None:
    assert of(shoulder(32.0), 0).state == "loose"
    assert of(shoulder(32.4), 0).why == "not drawn up: this joint pulls nothing together"
    assert of(shoulder(32.4, clamps=True), 0).state == "tight"


def test_where_the_joint_should_clamp_a_shank_that_is_too_long_leaves_it_loose() -> None:
    found = of(shoulder(31.8, clamps=True), 0)
    assert (found.state, found.end_play_mm) == ("loose", pytest.approx(0.2))


def test_a_hole_much_wider_than_the_shank_is_no_bearing() -> None:
    result = work(SHOULDER, layer("P1", "brass", 31.8, {"diameter_mm": 6.6}), layer("P2", "brass", 30),
                  clamps=False)  # fmt: skip
    assert of(result, 0).state == "loose"


def test_a_nut_on_a_plain_shank_stops_at_the_end_of_the_thread() -> None:
    # the thread begins at 32, the nut would have to come to 20
    result = work(SHOULDER, layer("P1", "brass", 20), nut("M6 nut"))
    assert of(result, 0).end_play_mm == pytest.approx(12.0)
    assert of(result, 0).why == "the plain shank is 12 mm longer than what lies before the nut"


def bush(long: float) -> JointResult:
    return work(
        "M5 x 20 hex set screw", washer("M5 washer"), layer("P2", "brass", long), layer("P1", "brass", 20)
    )


def lever(long: float, thick: float, bore: float = 8.02) -> Rider:
    return Rider("P3", "brass", 1.0 + long - thick, 1.0 + long, bore, 8.0)


def test_a_lever_on_a_longer_bush_turns_and_the_bush_is_clamped() -> None:
    result, rider = bush(8.2), lever(8.2, 8.0)
    assert told(result, rider) == [
        (SCREW, "tight", "drawn up between the head and P1"),
        (0, "tight", "clamped between the head and P2"),
        (1, "tight", "clamped between the washer and P1"),
        (2, "tight", "the screw runs in its thread"),
        (1, "free to turn", "P2 is 0.2 mm longer than P3: P3 turns"),
    ]
    found = freedom_of(result, (rider,))[-1]
    assert (found.end_play_mm, found.side_play_mm) == (pytest.approx(0.2), pytest.approx(0.02))
    assert not found.clamped


def test_a_lever_longer_than_its_bush_is_clamped_and_the_bush_is_not() -> None:
    assert told(bush(7.9), lever(7.9, 8.0))[1:] == [
        (0, "tight", "clamped between the head and P3"),
        (1, "loose", "P3 around P2 is 0.1 mm longer: not clamped"),
        (2, "tight", "the screw runs in its thread"),
        (1, "tight", "0.1 mm longer than P2: clamped between the washer and P1"),
    ]
    assert freedom_of(bush(7.9), (lever(7.9, 8.0),))[-1].clamped


def test_a_lever_as_long_as_its_bush_is_clamped_with_it() -> None:
    found = told(bush(8.0), lever(8.0, 8.0))
    assert found[2] == (1, "tight", "clamped between the washer and P1")
    assert found[-1] == (1, "tight", "as long as P2: clamped between the washer and P1")


def test_two_levers_on_one_bush_share_its_play() -> None:
    riders = Rider("P3", "brass", 1, 5, 8.02, 8), Rider("P4", "brass", 5, 9, 8.02, 8)
    found = freedom_of(bush(8.3), riders)[-2:]
    assert [each.end_play_mm for each in found] == [pytest.approx(0.3)] * 2
    assert found[0].why == "P2 is 0.3 mm longer than P3 and P4: P3 turns"


def test_a_wheel_pressed_on_a_bush_is_tight() -> None:
    assert told(bush(8.2), lever(8.2, 8.0, 7.98))[-1] == (1, "tight", "pressed on P2")


def test_a_wheel_with_a_sloppy_hole_is_loose() -> None:
    assert told(bush(8.2), lever(8.2, 8.0, 8.8))[-1] == (
        1, "loose", "P2 is 0.2 mm longer than P3: P3 shakes, 0.8 mm wider"
    )  # fmt: skip


def test_on_a_bush_that_is_not_drawn_up_the_plays_add() -> None:
    # blind: 20 long, 1 + 8.2 before the thread, 8 of thread: 2.8 too long
    result = work("M5 x 20 hex set screw", washer("M5 washer"), layer("P2", "brass", 8.2),
                  layer("P1", "brass", 20, thread_depth_mm=8, drilled_depth_mm=12))  # fmt: skip
    found = freedom_of(result, (lever(8.2, 8.0),))[-1]
    assert found.end_play_mm == pytest.approx(0.2 + 2.8)


def test_a_lock_nut_against_the_part_locks_a_screw_that_stands() -> None:
    result = work(
        "M5 x 30 hex set screw", nut("M5 nut"), layer("P1", "brass", 10), clamps=False, stands_mm=12
    )
    assert told(result) == [
        (SCREW, "tight", "locked by the nut against P1"),
        (0, "tight", "tightened against P1"),
        (1, "tight", "the screw runs in its thread"),
    ]


def test_two_nuts_tightened_against_each_other_lock() -> None:
    result = work("M6 x 40 hex set screw", layer("P1", "brass", 20), nut("M6 half nut"), nut("M6 nut"))
    assert [(item, state) for item, state, _ in told(result)] == [(SCREW, "tight"), (0, "tight"), (1, "tight"),
                                                                  (2, "tight")]  # fmt: skip


def test_a_pivot_screw_that_stands_off_and_is_locked_behind_lets_its_lever_turn() -> None:
    result = work("M5 x 25 cheese", layer("P1", "brass", 8, {"kind": "reamed", "diameter_mm": 5.1}),
                  layer("P2", "brass", 6, takes="thread"), nut("M5 nut"), clamps=False, stands_mm=0.2)  # fmt: skip
    assert told(result) == [
        (SCREW, "tight", "locked by P2 against the nut"),
        (0, "free to turn", "the head stands 0.2 mm off P1: P1 turns"),
        (1, "tight", "the screw runs in its thread"),
        (2, "tight", "tightened against P2"),
    ]


def test_a_jack_screw_turns_in_its_plate() -> None:
    result = work("M8 x 50 knurled", layer("P1", "mild steel", 8), clamps=False, stands_mm=30)
    assert told(result) == [
        (SCREW, "free to turn", "turns in the thread of P1 until its point bears: nothing else locks it"),
        (0, "tight", "the screw runs in its thread"),
    ]


def test_threadlocker_and_a_stiff_nut_hold_a_screw_that_clamps_nothing() -> None:
    grub = work("M5 x 10 grub", layer("P1", "brass", 12), clamps=False, lock="low-strength threadlocker")
    assert told(grub)[0] == (SCREW, "tight", "locked: low-strength threadlocker")
    stiff = work("M6 x 40 hex set screw", layer("P1", "brass", 30), nut("M6 stiff nut"), clamps=False)
    assert told(stiff)[0] == (SCREW, "tight", "the stiff nut holds by itself")
    assert told(stiff)[2] == (1, "tight", "a stiff nut: it stays where it is turned to")


def test_a_stud_clamps_between_its_part_and_its_nut() -> None:
    result = work("M8 x 40 stud", layer("P1", "aluminium", 30, thread_depth_mm=16, drilled_depth_mm=20, takes="thread"),
                  layer("P2", "oak", 10), washer("M8 washer"), nut("M8 nut"), stands_mm=-14)  # fmt: skip
    assert told(result)[:4] == [
        (SCREW, "tight", "drawn up between P1 and the nut"),
        (0, "tight", "the screw runs in its thread"),
        (1, "tight", "clamped between P1 and the washer"),
        (2, "tight", "clamped between P2 and the nut"),
    ]


def test_a_grub_screw_presses_on_what_its_point_reaches() -> None:
    result = work(
        "M5 x 12 grub cone point", layer("P1", "brass", 12, takes="thread"), layer("P2", "steel", 8)
    )
    assert told(result) == [
        (SCREW, "tight", "its point presses on P2"),
        (0, "tight", "the screw runs in its thread"),
        (1, "tight", "the screw's point presses on it"),
    ]


def test_two_tapped_parts_are_not_drawn_together_by_a_screw() -> None:
    result = work("M5 x 40 hex set screw", layer("P1", "brass", 8, takes="thread"), layer("P2", "brass", 6),
                  layer("P3", "brass", 20, takes="thread"))  # fmt: skip
    assert of(result, 1).why == "P1 and P3 are both threaded: the screw draws neither up"
    assert of(result, 1).state == "loose"


def test_a_part_beyond_the_thread_that_holds_is_not_held() -> None:
    result = work("M5 x 30 hex set screw", layer("P1", "brass", 8), layer("P2", "brass", 6, takes="thread"),
                  layer("P3", "oak", 20))  # fmt: skip
    assert of(result, 2).why == "beyond P2, in whose thread the screw holds: not held by it"


def test_a_screw_that_does_not_reach_its_thread_holds_nothing() -> None:
    result = work("M5 x 10 hex set screw", layer("P1", "oak", 20), layer("P2", "brass", 20))
    assert told(result) == [
        (SCREW, "loose", "it runs in no thread"),
        (0, "loose", "the screw reaches no thread: nothing holds it"),
        (1, "loose", "the screw does not reach its thread"),
    ]


def test_wood_and_inserts_hold() -> None:
    wood = work("No. 8 x 1 3/4 csk brass", layer("P1", "oak", 22), layer("P2", "oak", 28))
    assert told(wood)[2] == (1, "tight", "the wood screw holds in it")
    sunk = work("M6 x 30 pan", layer("P1", "brass", 10), insert("M6 insert"), layer("P2", "oak", 40))
    assert told(sunk) == [
        (SCREW, "tight", "drawn up between the head and the insert in P2"),
        (0, "tight", "clamped between the head and the insert in P2"),
        (1, "tight", "fast in P2"),
        (2, "tight", "the insert is fast in it"),
    ]


def test_a_gap_that_is_drawn_in_is_told() -> None:
    result = work("M5 x 25 hex set screw", layer("P1", "brass", 8), layer("P1", "brass", 10, gap_mm=1.5))
    assert of(result, 0).why == "clamped between the head and P1, drawn in over a gap of 1.5 mm"


def test_a_part_reamed_to_the_shank_is_tight_on_it() -> None:
    pressed: StackItem = layer("P1", "brass", 8, {"kind": "reamed", "diameter_mm": 5.0})
    result = work("M5 x 20 hex set screw", pressed, layer("P2", "brass", 20), clamps=False)
    assert of(result, 0).why == "pressed on the shank"
