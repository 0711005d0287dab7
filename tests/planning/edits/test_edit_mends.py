"""Every mend is carried out in the build: the finding goes, or the mend is one for hands and says so."""

from __future__ import annotations

from collections import Counter

import pytest

from calculators.joints.model import Finding
from calculators.planning.checks import RULES
from calculators.planning.edits import can_mend, effects, find, find_finding, finding_key, mend
from calculators.planning.edits.moving import has_room
from calculators.planning.files import read_build, write_build
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Build
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError
from tests.demonstration.test_demonstration_files import NUMBERS, build_of
from tests.planning.edits.mend_cases import PLACED, TYPED, mm

CASES = {**TYPED, **PLACED, **{number: build_of(number) for number in NUMBERS}}
MENDING = {
    "thread-match", "stainless-pair", "metal-in-wood", "no-stock-length", "head-against-countersink",
    "countersink-angle", "counterbore", "head-proud", "insert-hole", "insert-edge", "engagement",
    "screw-bottoms", "blind-hole-breaks-out", "tapping-hole", "clearance-hole", "lock", "threads-past-nut",
    "washer-pressure", "washer-thickness", "penetration", "wood-behind-point", "pilot-hole", "shank-hole",
    "soft-screw-in-hardwood", "end-distance", "edge-distance", "wood-movement", "part-in-the-way",
    "typed-thickness", "fitted-after-closed",
}  # fmt: skip
"""Every rule that offers a change as a field and a value."""


def with_field(worked: WorkedBuild) -> list[tuple[Finding, int]]:
    return [(one, i) for one in worked.findings for i, how in enumerate(one.mends) if how.field]


def left_standing(before: WorkedBuild, finding: Finding, index: int) -> int:
    """How many findings of that key are left; a mend for hands leaves all."""
    key = finding_key(finding)
    try:
        return keys(inspect_build(mend(before, key, index)))[key]
    except InputError as error:
        said = error.faults[0].says
    assert said == f"This is mended by hand: {finding.mends[index].says}"
    return keys(before)[key]


def keys(worked: WorkedBuild) -> Counter[str]:
    return Counter(finding_key(one) for one in worked.findings)


@pytest.mark.parametrize("name", CASES)
def test_a_mend_that_can_be_carried_out_makes_its_finding_go(name: str) -> None:
    before = inspect_build(CASES[name])
    tried = with_field(before)
    assert tried or name == "TW-33"
    for finding, index in tried:
        key = finding_key(finding)
        first = find_finding(before, key) is finding
        if can_mend(before, finding, index) and first:
            after = inspect_build(mend(before, key, index))
            assert keys(after)[key] < keys(before)[key], finding.mends[index]
            assert read_build(write_build(after.build)) == after.build
            assert effects(before, after).mended
        elif first:
            assert keys(before)[key] == left_standing(before, finding, index)


@pytest.mark.parametrize("name", [*TYPED, *PLACED])
def test_each_case_breaks_its_rule_and_can_be_mended(name: str) -> None:
    rule = next((one for one in sorted(MENDING) if name.startswith(one)), "shank-hole")
    worked = inspect_build(CASES[name])
    assert any(can_mend(worked, one, i) for one, i in with_field(worked) if one.rule == rule)


def test_the_cases_break_every_rule_that_has_a_mend_to_carry_out() -> None:
    seen = {one.rule for build in CASES.values() for one, _ in with_field(inspect_build(build))}
    of_whole_builds = {rule.name for rule in RULES}  # their mends are tested with them
    assert seen - of_whole_builds == MENDING


def mended(build: Build, rule: str, index: int = 0) -> Build:
    worked = inspect_build(build)
    return mend(worked, next(finding_key(one) for one in worked.findings if one.rule == rule), index)


def test_places_are_moved_only_as_far_as_they_must() -> None:
    """7 D of No. 8, 7 x 4.1656 = 29.16 from the ends of 220: to 29.5 and 190.5; the middle stays."""
    places = mended(PLACED["end-distance moved"], "end-distance").joints[0].places
    assert [(one.u.mm, one.v.mm if one.v else None) for one in places] == [
        (29.5, 20.0),
        (110.0, 20.0),
        (190.5, 20.0),
    ]


def test_places_move_from_both_edges() -> None:
    """3 D, 12.5 from the edges of 40: 6 goes to 12.5 and 35 to 27.5."""
    places = mended(PLACED["edge-distance moved"], "edge-distance").joints[0].places
    assert [one.v.mm if one.v else None for one in places] == [12.5, 20.0, 27.5]


def test_a_place_is_moved_for_a_part_that_lies_turned() -> None:
    """The rail is turned by 90 degrees and laid at u 100: its own v runs against the base's u."""
    build = PLACED["edge-distance moved"]
    joint = build.joints[0]
    before = inspect_build(build)
    base = [one for one in before.holes if one.part == "P1" and one.place == "1"]
    after = inspect_build(mended(build, "edge-distance"))
    moved = [one for one in after.holes if one.part == "P1" and one.place == "1"]
    assert joint.places[0].v is not None
    assert base[0].u_mm is not None
    assert moved[0].u_mm is not None
    assert abs(moved[0].u_mm - base[0].u_mm) == pytest.approx(6.5)
    assert moved[0].v_mm == base[0].v_mm


def test_naming_one_layer_of_an_unnamed_stack_names_them_all() -> None:
    """A decision about the base alone would leave the rail uncounted."""
    stack = mended(PLACED["pilot-hole unnamed"], "pilot-hole").joints[0].stack
    assert [(one.part, len(one.holes)) for one in stack] == [("P2", 0), ("P1", 1)]
    assert mended(PLACED["wood-behind-point unnamed"], "wood-behind-point").joints[0].stack == ()


def test_a_part_in_the_way_is_named_where_it_lies() -> None:
    stack = mended(PLACED["part-in-the-way"], "part-in-the-way").joints[0].stack
    assert [one.part for one in stack] == ["P3", "P2", "P1"]


def test_slots_leave_the_place_that_is_held_tight() -> None:
    for name, places in (
        ("wood-movement", ("1", "3")),
        ("wood-movement held at one", ("2", "3")),
        ("wood-movement of two", ("1", "2")),
    ):
        (hole,) = mended(PLACED[name], "wood-movement").joints[0].stack[0].holes
        assert (hole.kind, hole.places, hole.slot_along) == ("slot", places, "u")


def test_a_hole_decided_for_one_place_is_mended_at_that_place() -> None:
    before = PLACED["clearance at some places"]
    after = mended(before, "shank-hole")
    one, every = after.joints[0].stack[0].holes
    assert (one.places, every) == (("1",), before.joints[0].stack[0].holes[1])
    assert one.diameter is not None
    assert one.diameter.mm > 4.1656


def test_a_step_goes_before_the_one_that_closes() -> None:
    after = mended(PLACED["fitted-after-closed"], "fitted-after-closed")
    assert [(one.number, one.title) for one in after.steps] == [(1, "Base"), (2, "Screws"), (3, "Bottom on")]
    after = mended(PLACED["fitted-after-closed twice"], "fitted-after-closed")
    assert [one.title for one in after.steps] == ["Screws", "Screws again", "Bottom on", "Glue"]


def test_a_mend_says_why_it_was_decided() -> None:
    stack = mended(TYPED["tapping-hole"], "tapping-hole").joints[0].stack
    assert stack[1].holes[0].reason == "mends tapping-hole"
    assert mended(TYPED["stainless-pair"], "stainless-pair").joints[0].lock == "screw lock, anti-seize"


def test_a_narrow_edge_has_no_room_and_is_for_hands() -> None:
    """TW-32 AF2: 9 mm in the edge of an 18 mm board; 12.5 from both edges wants 25 mm."""
    worked = inspect_build(build_of("TW-32"))
    finding = find_finding(worked, "edge-distance:AF2:A2:1")
    assert [can_mend(worked, finding, i) for i in (0, 1, 2, -1)] == [False, True, False, False]
    layer = next(one for one in worked.joints if one.joint.mark == "AF2").inputs.stack[1].layer
    assert layer is not None
    board = find(worked.build, "component", "A2")
    assert not has_room(board, layer, "edge", 12.5)
    assert has_room(board, layer, "edge", 9.0)
    assert has_room(None, layer, "edge", 900.0)


def test_what_cannot_be_mended_is_said() -> None:
    worked = inspect_build(build_of("TW-31"))
    with pytest.raises(InputError, match=r"mended by hand: Use a smaller or a round head"):
        mend(worked, "countersink-depth:F09:P21")
    with pytest.raises(InputError, match="no mends to choose from"):
        mend(worked, "metal-in-wood:F13:P01")
    with pytest.raises(InputError, match="1 mend to choose from"):
        mend(worked, "lock:F05", 1)
    with pytest.raises(InputError, match="finds nothing called 'lock:F06' now"):
        mend(worked, "lock:F06")


def test_the_same_cure_is_offered_for_both_faults_of_a_wrong_thread() -> None:
    worked = inspect_build(build_of("TW-31"))
    one, other = (mend(worked, f"{rule}:F20:P40") for rule in ("screw-bottoms", "thread-match"))
    assert one == other
    left = {each.rule for each in inspect_build(one).findings if each.joint == "F20"}
    assert not left & {"screw-bottoms", "thread-match"}


def test_a_hole_can_be_moved_nowhere_in_a_part_too_small() -> None:
    build = PLACED["edge-distance moved in a corner"]
    narrow = Build(
        build.number,
        build.title,
        components=(
            build.components[0],
            type(build.components[1])(
                "P2",
                "Rail",
                material="oak",
                size=type(build.components[1].size)("block", mm(220), mm(20), mm(22)),
                poses=build.components[1].poses,
            ),
        ),
        joints=build.joints,
    )
    worked = inspect_build(narrow)
    finding = next(one for one in worked.findings if one.rule == "edge-distance" and one.part == "P2")
    assert not can_mend(worked, finding, 0)
