"""Whether tools get at fasteners: just inside and just outside the room they need, and in which order of steps.

A top plate stands 12 + 5 + `room` over the base, on which a block of 12 is held by M5 cap screws with heads 5 high
(ISO 4762). A key of 4 mm needs 25 mm for its short leg and 70 mm for its long one (ISO 2936, from memory).
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from calculators.joints.model import Finding
from calculators.planning.edits import can_mend, finding_key, mend
from calculators.planning.inspection import inspect_build
from calculators.planning.model import AssemblyStep, Build, Component, Hole, Joint
from calculators.tables import load
from tests.planning.checks.small_builds import block, build, joint, mm, pose, turned


def told(one: Build) -> list[Finding]:
    findings = inspect_build(one).findings
    assert [each for each in findings if each.rule == "rule-failed"] == []
    return [each for each in findings if each.rule == "tool-reach"]


def step(number: int, *fits: str, **more: object) -> AssemblyStep:
    return AssemblyStep(number, f"Step {number}", fits=fits, **more)  # type: ignore[arg-type]


LATE = (step(1, "P01", "P02"), step(2, "P03", "P04", "F03", "F02"), step(3, "F01"))
EARLY = (step(1, "P01", "P02", "F01"), step(2, "P03", "P04", "F03", "F02"))
TOGETHER = (step(1, "P01", "P02"), step(2, "P03", "P04", "F03", "F02", "F01"))


def frame(
    room: float, *steps: AssemblyStep, fastener: str = "M5 x 20 socket cap steel", holes: tuple[Hole, ...] = (),
    head: float = 5.0, **more: object,
) -> Build:  # fmt: skip
    high = 12 + head + room
    steel = {"material": "mild steel"}
    parts = (
        block("P01", 160, 100, 10, pose(), **steel),
        block("P02", 60, 40, 12, pose("P01", 50, 30), **steel),
        turned("P03", high, 16, pose("P01", 15, 50, own_face="left", point="centre"),
               pose("P01", 145, 50, copy=2, own_face="left", point="centre"), **steel),
        block("P04", 160, 100, 8, pose("P01", 0, 0, let_in=-high), holes=holes, **steel),
    )  # fmt: skip
    joints = (
        joint("F01", fastener, "P02", "top", [(15, 20), (45, 20)], "P02", "P01", **more),
        joint("F02", "M6 x 20 csk steel", "P04", "top", [(15, 50), (145, 50)], "P04", "P03"),
        joint("F03", "M6 x 20 csk steel", "P01", "bottom", [(15, 50), (145, 50)], "P01", "P03"),
    )
    return replace(build(*parts, *joints), steps=steps)


@pytest.mark.parametrize(
    ("room", "expected"), [(24.9, ["error"]), (25.1, ["warning"]), (69.9, ["warning"]), (70.1, [])]
)
def test_a_key_over_a_cap_screw(room: float, expected: list[str]) -> None:
    assert [each.severity for each in told(frame(room, *LATE))] == expected


def test_it_says_what_bars_the_way_and_how_near_and_its_mend_mends() -> None:
    worked = inspect_build(frame(23, *LATE))
    (found,) = [each for each in worked.findings if each.rule == "tool-reach"]
    assert (found.joint, found.part, found.place, found.at) == ("F01", "P04", "1", "joints[F01].places[1]")
    assert (found.value, found.limit, found.unit) == (23.0, 25.0, "mm")
    assert found.says == (
        "F01 at 1: P04 Part P04 leaves 23 mm straight above its head, and a hex key needs 25 mm; so at 2. Make the "
        "joint before that is fitted, or bore an access hole in line."
    )
    assert [(spot.part, spot.face, spot.u_mm, spot.v_mm) for spot in found.spots] == [("P02", "top", 15, 20)]
    assert found.mends[0].says == "Make F01 in step 1."
    assert can_mend(worked, found)
    after = mend(worked, finding_key(found))
    assert told(after) == []
    assert after.steps[0].fits == ("P01", "P02", "F01")


def test_a_short_tool_that_is_noted_settles_a_tight_place() -> None:
    worked = inspect_build(frame(40, *LATE))
    (found,) = [each for each in worked.findings if each.rule == "tool-reach"]
    assert (found.severity, found.value, found.limit) == ("warning", 40.0, 70.0)
    assert found.mends[0].says == "Note a short hex key for it."
    assert can_mend(worked, found)
    assert told(mend(worked, finding_key(found))) == []


def test_what_is_fitted_in_a_later_step_is_not_in_the_way() -> None:
    assert told(frame(5, *EARLY)) == []


def test_within_one_step_it_is_a_note_on_the_order() -> None:
    (found,) = told(frame(5, *TOGETHER))
    assert found.severity == "note"
    assert found.says.endswith("Within their step, F01 comes before P04.")


def test_without_steps_it_is_a_warning_to_write_the_order() -> None:
    (found,) = told(frame(5))
    assert (found.severity, found.value) == ("warning", 5.0)
    assert "Make F01 before P04 is in its place, and write so in the steps." in found.says


def test_what_nothing_holds_by_then_is_put_on_afterwards() -> None:
    """A sub-assembly of two plates is screwed together before it goes onto the base that would bar the screws."""
    steel = {"material": "mild steel"}
    parts = (
        block("P01", 200, 100, 20, pose(), **steel),
        block("P02", 120, 60, 6, pose("P01", 20, 20), **steel),
        turned("P03", 40, 12, pose("P02", 60, 30, own_face="left", point="centre"), **steel),
    )
    joints = (
        joint("F01", "M4 x 12 csk steel", "P02", "bottom", [(60, 30)], "P02", "P03"),
        joint("F02", "M4 x 16 csk steel", "P02", "top", [(10, 10), (110, 50)], "P02", "P01"),
    )
    one = build(*parts, *joints)
    good = (step(1, "P01"), step(2, "P02", "P03", "F01"), step(3, "F02"))
    bad = (step(1, "P01"), step(2, "P02", "F02"), step(3, "P03", "F01"))
    assert told(replace(one, steps=good)) == []
    assert [(each.severity, each.joint, each.part, each.value) for each in told(replace(one, steps=bad))] == [
        ("error", "F01", "P01", 0.0)
    ]


def test_what_is_glued_by_then_is_in_the_way() -> None:
    one = frame(5, step(1, "P01", "P02"), step(2, "P03", "P04", glued=("P01", "P03", "P04")), step(3, "F01"))
    one = replace(one, joints=one.joints[:1])
    assert [each.severity for each in told(one)] == ["error"]
    loose = replace(one, steps=(one.steps[0], replace(one.steps[1], glued=()), one.steps[2]))
    assert [each.severity for each in told(loose)] == ["warning"]  # nothing says how it is held


def test_a_joint_of_a_sub_assembly_is_made_on_the_bench_where_no_step_names_it() -> None:
    one = frame(5)
    groups = tuple(
        replace(part, parent="G1" if part.mark in ("P01", "P02") else "G2") for part in one.components
    )
    more = (*groups, Component("G1", "Below"), Component("G2", "Above"))
    assert told(replace(one, components=more)) == []


@pytest.mark.parametrize(("diameter", "expected"), [(5, 0), (4.6, 1)])
def test_an_access_hole_in_line_lets_the_key_through(diameter: float, expected: int) -> None:
    """A key of 4 mm is 4.7 across its corners."""
    holes = tuple(
        Hole(f"h{number}", "top", mm(u), mm(50), diameter=mm(diameter)) for number, u in ((1, 65), (2, 95))
    )
    assert len(told(frame(10, *LATE, holes=holes))) == expected


def test_an_access_hole_out_of_line_does_not() -> None:
    holes = (
        Hole("h1", "top", mm(66), mm(50), diameter=mm(5)),
        Hole("h2", "top", mm(95), mm(50), diameter=mm(5)),
    )
    (found,) = told(frame(10, *LATE, holes=holes))
    assert (found.severity, found.place) == ("error", "1")
    assert "so at" not in found.says


@pytest.mark.parametrize(("room", "expected"), [(24.9, ["error"]), (25.1, ["warning"]), (150.1, [])])
def test_a_screwdriver_over_a_countersunk_screw(room: float, expected: list[str]) -> None:
    """Flush with its block: 25 mm for an angled driver, 150 mm for an ordinary one (common practice)."""
    one = frame(room, *LATE, fastener="M5 x 20 csk slotted steel", head=0.0)
    assert [each.severity for each in told(one)] == expected


@pytest.mark.parametrize("words", [{"tool": "fingers"}, {"reached_from": "above, lid open"}])
def test_what_is_turned_by_hand_or_reached_when_open_is_let_be(words: dict[str, str]) -> None:
    assert told(frame(5, *LATE, **words)) == []


# --- hexagons: M8, 13 across flats, head 5.3 high (ISO 4017): socket 18.5 and 55 long, jaw 29 x 5.3, handle 120


def bolted(*walls: Component, ties: int = 0) -> Build:
    """A hexagon head on a plate between walls that are screwed on before it."""
    steel = {"material": "mild steel"}
    parts = (
        block("P01", 400, 400, 20, pose(), **steel),
        block("P02", 40, 40, 10, pose("P01", 180, 180), **steel),
    )
    screws = tuple(
        joint(f"F1{number}", "M4 x 30 csk steel", "P01", "bottom", [(20 + 10 * number, 20)], "P01", wall.mark)
        for number, wall in enumerate(walls)
    )
    one = build(
        *parts, *walls, joint("F01", "M8 x 25 hex steel", "P02", "top", [(20, 20)], "P02", "P01"), *screws
    )
    names = tuple(wall.mark for wall in walls)
    steps = (step(1, "P01", *names, *(screw.mark for screw in screws)), step(2, "P02", "F01"))
    return replace(one, steps=steps)


def wall(
    mark: str, u: float, v: float, length: float, width: float, high: float, up: float = 0.0
) -> Component:
    return block(mark, length, width, high, pose("P01", u, v, let_in=-up), material="mild steel")


def reach(one: Build) -> list[Finding]:
    return [each for each in told(one) if each.joint == "F01"]


def test_a_wall_that_leaves_room_for_a_socket() -> None:
    """The bolt stands at (200, 200); a socket of 18.5 needs 9.25: a wall from 209.4 on lets it in."""
    assert reach(bolted(wall("P03", 209.4, 100, 20, 200, 80))) == []


def test_a_wall_that_bars_the_socket_leaves_a_spanner_half_a_turn() -> None:
    """The jaw of 29 needs 14.5: at 214.6 it goes in, and the handle swings on the open side."""
    assert reach(bolted(wall("P03", 209.0, 100, 20, 200, 80), wall("P04", 0, 0, 10, 10, 5))) != []
    assert reach(bolted(wall("P03", 214.6, 100, 20, 200, 80), wall("P04", 170, 170, 60, 60, 10, up=45))) == []


def test_a_lid_and_walls_all_round_leave_nothing() -> None:
    walls = (
        wall("P03", 215, 150, 10, 100, 60), wall("P04", 175, 150, 10, 100, 60),
        wall("P05", 185, 215, 30, 10, 60), wall("P06", 185, 175, 30, 10, 60),
        wall("P07", 170, 170, 60, 60, 5, up=60),
    )  # fmt: skip
    (found,) = reach(bolted(*walls))
    assert (found.severity, found.value, found.limit, found.unit) == ("error", 0.0, 30.0, "deg")
    assert "neither a socket nor a spanner gets 30 deg of swing at its head" in found.says


@pytest.mark.parametrize("table", ["driver_clearances", "spanner_clearances"])
def test_larger_tools_need_no_less_room(table: str) -> None:
    rows = load(table).rows
    groups = {row.get("tool", "") for row in rows}
    for tool in groups:
        of_tool = [row for row in rows if row.get("tool", "") == tool]
        for name in load(table).units:
            values = [row.number(name) for row in of_tool]
            assert values == sorted(values), name


def test_a_key_goes_into_its_socket_with_its_corners() -> None:
    """Across corners a hexagon is 2 / sqrt(3) of its width across flats; the table gives no less."""
    for row in load("driver_clearances").where("tool", "hex key")[:-1]:
        assert row.number("up_to") * 2 / 3**0.5 <= row.number("diameter") + 0.05
        assert row.number("short") < row.number("long")


def test_after_a_change_the_same_is_found_as_from_the_beginning() -> None:
    before = inspect_build(frame(60, *LATE))
    now = frame(23, *LATE)
    assert inspect_build(now, before).findings == inspect_build(now).findings


def test_a_joint_without_a_place_is_let_be() -> None:
    loose = Joint("F01", "Loose", "M5 x 20 socket cap steel")
    assert told(build(block("P01", 100, 50, 10, pose()), loose)) == []


# A screw of 40 stands 40 further out before it is in: more than its key, or its spanner's jaw, needs.
@pytest.mark.parametrize(("room", "expected"), [(39.9, ["error"]), (40.1, ["warning"]), (70.1, [])])
def test_a_cap_screw_has_its_own_length_to_be_put_in(room: float, expected: list[str]) -> None:
    found = told(frame(room, *LATE, fastener="M5 x 40 socket cap steel"))
    assert [each.severity for each in found] == expected
    if expected == ["error"]:
        assert found[0].limit == 40.0
        assert "39.9 mm straight above its head, and to be put in the screw needs 40 mm" in found[0].says


# The head of an M5 set screw is 3.5 high (ISO 4017), which is what the frame is made with.
@pytest.mark.parametrize(("room", "expected"), [(39.9, ["error"]), (40.1, [])])
def test_a_hexagon_screw_has_its_own_length_to_be_put_in(room: float, expected: list[str]) -> None:
    found = told(frame(room, *LATE, fastener="M5 x 40 hex set screw steel", head=3.5))
    assert [each.severity for each in found] == expected


def test_a_hexagon_screw_that_no_spanner_turns_is_told_of_once() -> None:
    found = told(frame(1, *LATE, fastener="M5 x 40 hex set screw steel", head=3.5))
    assert len(found) == 1
