"""What a change changes: fields, holes, fasteners, findings, schedule lines, drills; and trying fasteners."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import HealthCheck, given, settings

from calculators.joints.model import Finding
from calculators.planning.edits import (
    FieldChange,
    alternatives,
    compare_builds,
    effects,
    find,
    finding_key,
    mend,
    move_step,
    put,
    remove,
    try_fastener,
)
from calculators.planning.edits.comparing import as_read
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Build, Context, Entry, Hole, Joint, LayerHole, StackMember
from calculators.quantities.errors import InputError
from calculators.quantities.reading import read_length
from tests.benchmarks.large import large_build
from tests.demonstration.test_demonstration_files import NUMBERS, build_of
from tests.planning.edits.mend_cases import PLACED, TYPED, at, joint, mm, part
from tests.planning.strategies import builds


def told(old: Build, new: Build) -> list[tuple[str, str, str, str, str]]:
    return [(one.kind, one.key, one.field, one.old, one.new) for one in compare_builds(old, new)]


def test_fields_are_told_as_people_read_them() -> None:
    build = PLACED["end-distance moved"]
    base, rail = build.components
    hole = Hole("h1", "top", mm(20), mm(30), diameter=read_length("3/8 in"))
    wide = replace(rail, size=replace(rail.size, width=read_length("1 3/4", unit="in")), holes=(hole,))
    after = replace(
        build,
        title="Moved",
        unit="in",
        due=date(2024, 9, 30),
        context=Context(limits=(("penetration", Decimal("4.50")),), drills=("2", "4.5")),
        components=(wide, base),
        joints=(replace(build.joints[0], wet=True, places=at((12, 21), (110, 20)), fixed_place="2"),),
        entries=(Entry("e1", date(2024, 3, 31), "Glued", hours=Decimal("1.5")),),
    )
    assert told(build, after) == [
        ("build", "B2", "title", "Placed", "Moved"),
        ("build", "B2", "unit", "mm", "in"),
        ("build", "B2", "due", "", "2024-09-30"),
        ("build", "B2", "context.drills", "", "2, 4.5"),
        ("build", "B2", "context.limits", "", "penetration 4.50"),
        ("build", "B2", "components", "P1, P2", "P2, P1"),
        ("component", "P2", "size.width", "40 mm", "1 3/4 in"),
        (
            "component",
            "P2",
            "holes[h1]",
            "",
            "id h1, face top, u 20 mm, v 30 mm, kind plain, diameter 3/8 in",
        ),
        ("joint", "F1", "places[3]", "id 3, u 205 mm, v 20 mm", ""),
        ("joint", "F1", "places[1].v", "20 mm", "21 mm"),
        ("joint", "F1", "wet", "no", "yes"),
        ("joint", "F1", "fixed_place", "", "2"),
        ("entry", "e1", "", "", "Glued"),
    ]


def test_records_that_come_and_go_are_told_by_name() -> None:
    build = build_of("TW-31")
    after = remove(build, "joint", "F25L")
    changes = told(build, after)
    assert ("joint", "F25L", "", find(build, "joint", "F25L").title, "") in changes
    assert {one[0] for one in changes} == {"joint", "step"}
    assert told(after, build)[0] == ("joint", "F25L", "", "", find(build, "joint", "F25L").title)


def test_a_step_that_only_moves_is_told_by_its_number() -> None:
    build = PLACED["fitted-after-closed"]
    assert told(build, move_step(build, 8, 6)) == [
        ("step", "1", "number", "2", "1"),
        ("step", "2", "number", "8", "2"),
        ("step", "3", "number", "6", "3"),
    ]


def test_stack_members_of_one_name_are_kept_apart() -> None:
    twice = joint(
        "M5 x 20 pan steel", StackMember(item="M5 washer"), part("T1", 3), StackMember(item="M5 washer")
    )
    stack = twice.joints[0].stack
    thick = (*stack[:2], replace(stack[2], thickness=mm(2)))
    after = put(twice, "joint", replace(twice.joints[0], stack=thick), key="F1")
    assert told(twice, after) == [("joint", "F1", "stack[M5 washer 2].thickness", "", "2 mm")]


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (None, ""),
        (False, "no"),
        (Decimal("1E+2"), "100"),
        (read_length("10 thou"), "10 thou"),
        (mm(2.5), "2.5 mm"),
        (LayerHole(places=("1", "2"), pilot=False, reason="soft"), "places 1, 2, reason soft"),
    ],
)
def test_values_as_read(value: object, text: str) -> None:
    assert as_read(value) == text


@settings(deadline=None, max_examples=25, suppress_health_check=list(HealthCheck))
@given(builds(), builds())
def test_builds_that_differ_have_changes_and_equal_ones_none(one: Build, other: Build) -> None:
    assert (compare_builds(one, other) == ()) == (one == other)
    assert compare_builds(one, one) == ()
    forth = {(c.kind, c.key, c.field, c.old, c.new) for c in compare_builds(one, other) if c.kind != "step"}
    back = {(c.kind, c.key, c.field, c.new, c.old) for c in compare_builds(other, one) if c.kind != "step"}
    assert {c for c in forth if c[0] != "build"} == {c for c in back if c[0] != "build"}


def test_no_change_has_no_effect() -> None:
    worked = inspect_build(build_of("TW-31"))
    assert effects(worked, inspect_build(build_of("TW-31"))).nothing
    noted = put(
        worked.build, "component", replace(find(worked.build, "component", "P01"), note="x"), key="P01"
    )
    assert effects(worked, inspect_build(noted)).nothing


def test_a_thinner_screw_changes_every_part_it_goes_through() -> None:
    """No. 8 in No. 6: shank 0.060 + 0.013 x 6 = 0.138 in = 3.51 mm; the clearance, pilot and head with it."""
    before = inspect_build(PLACED["edge-distance moved"])
    after = inspect_build(try_fastener(before.build, "F1", "No. 6 x 1 1/2 csk slotted brass wood screw"))
    found = effects(before, after)
    assert [(one.mark, one.name) for one in found.parts] == [("P1", "Base"), ("P2", "Rail")]
    (rail,) = found.parts[1].holes
    assert (rail.joint, rail.places) == ("F1", ("1", "2", "3"))
    was, now = (
        next(one.hole for one in worked.holes if one.part == "P2" and one.hole) for worked in (before, after)
    )
    assert (
        rail.old == f"clearance {was.diameter_mm:g}, countersunk {was.countersink_diameter_mm:.2f} at 82 deg"
    )
    assert rail.new.startswith(f"clearance {now.diameter_mm:g}, countersunk ")
    (screw,) = found.fasteners
    assert (screw.mark, screw.old, screw.new) == (
        "F1",
        "No. 8 x 1 1/2 csk slotted brass",
        "No. 6 x 1 1/2 csk slotted brass",
    )
    assert (screw.old_length, screw.new_length) == ("1 1/2 in", "1 1/2 in")
    # The point piece begins 22 mm down: 22 + 4 D up to 22 + 28 - 3 mm.
    assert screw.old_needed == "38.66 to 47 mm"
    assert screw.new_needed == "36.02 to 47 mm"
    assert [(one.designation, one.kind, one.old, one.new) for one in found.schedule] == [
        ("No. 8 x 1 1/2 csk slotted brass", "fastener", 3, 0),
        ("No. 8 x 1 1/2 csk slotted steel", "steel twin", 1, 0),
        ("No. 6 x 1 1/2 csk slotted brass", "fastener", 0, 3),
        ("No. 6 x 1 1/2 csk slotted steel", "steel twin", 0, 1),
    ]
    drills = (
        {one.hole.drill for one in before.holes if one.hole},
        {one.hole.drill for one in after.holes if one.hole},
    )
    assert set(found.drills_new) == drills[1] - drills[0]
    assert set(found.drills_no_longer) == drills[0] - drills[1]
    assert found.drills_new


def test_a_drill_that_another_hole_needs_is_still_needed() -> None:
    build = PLACED["edge-distance moved"]
    drill = next(one.hole for one in inspect_build(build).holes if one.part == "P2" and one.hole)
    extra = Hole("h1", "top", mm(5), mm(5), diameter=mm(drill.diameter_mm))
    rail = replace(build.components[1], holes=(extra,))
    before = inspect_build(put(build, "component", rail, key="P2"))
    after = inspect_build(try_fastener(before.build, "F1", "No. 6 x 1 1/2 csk slotted brass wood screw"))
    assert drill.drill not in effects(before, after).drills_no_longer


def test_holes_that_move_or_go_say_so() -> None:
    before = inspect_build(PLACED["end-distance moved"])
    key = next(finding_key(one) for one in before.findings if one.rule == "end-distance")
    moved = effects(before, inspect_build(mend(before, key)))
    rail = next(one for one in moved.parts if one.mark == "P2")
    assert [
        (one.places, one.old.rpartition(" at ")[2], one.new.rpartition(" at ")[2]) for one in rail.holes
    ] == [
        (("1",), "12, 20 on top", "29.5, 20 on top"),
        (("3",), "205, 20 on top", "190.5, 20 on top"),
    ]
    gone = effects(before, inspect_build(remove(before.build, "joint", "F1")))
    assert all(one.new == "" and one.old for each in gone.parts for one in each.holes)
    assert [(one.old != "", one.new) for one in gone.fasteners] == [(True, "")]
    assert len(gone.mended) == len(before.findings)


def test_findings_are_told_as_mended_new_and_changed() -> None:
    """AF2 in brass stains no more, but wants a steel screw first; F01 with slots of 9 is a warning still."""
    before = inspect_build(build_of("TW-32"))
    found = effects(before, inspect_build(mend(before, "metal-in-wood:AF2:A2")))
    assert [finding_key(one) for one in found.mended] == ["metal-in-wood:AF2:A2"]
    assert [finding_key(one) for one in found.new] == ["soft-screw-in-hardwood:AF2:A2"]
    before = inspect_build(build_of("TW-31"))
    f01: Joint = find(before.build, "joint", "F01")
    slot = LayerHole(places=("1", "3"), kind="slot", slot_length=mm(9), slot_along="u")
    batten, base = f01.stack
    slotted = replace(f01, stack=(replace(batten, holes=(*batten.holes, slot)), base))
    found = effects(before, inspect_build(put(before.build, "joint", slotted, key="F01")))
    assert [(one.severity, other.severity, one.rule) for one, other in found.changed] == [
        ("error", "warning", "wood-movement")
    ]
    assert (found.mended, found.new) == ((), ())


def test_a_mend_that_brings_an_error_is_seen_to() -> None:
    """M5 x 8 takes the thread of a 12 mm hole; shortened for one fault it holds too little."""
    before = inspect_build(TYPED["screw-bottoms"])
    after = inspect_build(try_fastener(before.build, "F1", "M5 x 8 pan steel"))
    new = [one for one in effects(before, after).new if one.severity == "error"]
    assert [one.rule for one in new] == ["engagement"]


def test_trying_another_size_takes_the_nuts_and_washers_along() -> None:
    build = TYPED["washer-pressure wider"]
    after = try_fastener(build, "F1", "M8 x 70 hex bolt brass").joints[0]
    assert [one.item or one.part for one in after.stack] == [
        "M8 washer",
        "B1",
        "M8 repair washer",
        "M8 nut",
    ]
    assert after.stack[0].thickness is None  # it was measured on the old washer
    longer = try_fastener(build, "F1", "M6 x 70 hex bolt brass").joints[0]
    assert longer.stack == build.joints[0].stack
    measured = replace(build, joints=(replace(build.joints[0], head_diameter=mm(9.8)),))
    assert try_fastener(measured, "F1", "M6 x 70 hex bolt brass").joints[0].head_diameter == mm(9.8)
    assert try_fastener(measured, "F1", "M8 x 70 hex bolt brass").joints[0].head_diameter is None
    tapped = joint("M5 x 20 pan steel", part("T1", 5), part("T2", 20, takes="thread", thread="m5"))
    assert try_fastener(tapped, "F1", "M6 x 20 pan steel").joints[0].stack[1].thread == "M6"


def test_trying_what_cannot_be_read_is_refused() -> None:
    build = TYPED["lock"]
    with pytest.raises(InputError):
        try_fastener(build, "F1", "a blunt thing")
    with pytest.raises(InputError):
        try_fastener(build, "F1", "M5 washer")
    with pytest.raises(InputError, match="no joint 'F9'"):
        try_fastener(build, "F9", "M5 x 20 pan steel")
    with pytest.raises(InputError, match="no joint 'F9'"):
        alternatives(inspect_build(build), "F9")


def test_alternatives_are_the_neighbours_and_the_best_comes_first() -> None:
    worked = inspect_build(PLACED["end-distance moved"])
    found = {one.line: one for one in alternatives(worked, "F1")}
    assert set(found) >= {
        "No. 8 x 1 1/4 csk slotted brass",
        "No. 8 x 1 3/4 csk slotted brass",
        "No. 8 x 2 csk slotted brass",
        "No. 8 x 1 1/2 csk slotted steel",
    }
    assert {line.split(" x ")[0] for line in found} == {"No. 6", "No. 8", "No. 10"}
    worst_first = [[count for _, count in one.findings] for one in found.values()]
    assert worst_first == sorted(worst_first)
    assert [name for name, _ in next(iter(found.values())).findings] == [
        "error",
        "warning",
        "unchecked",
        "note",
    ]
    for line, one in found.items():
        after = inspect_build(try_fastener(worked.build, "F1", line))
        counts = [
            sum(f.severity == name and f.joint == "F1" for f in after.findings) for name, _ in one.findings
        ]
        assert counts == [count for _, count in one.findings]
        assert one.errors == counts[0]


def test_alternatives_of_machine_screws() -> None:
    sizes = {one.line.split(" x ")[0] for one in alternatives(inspect_build(TYPED["lock"]), "F1")}
    assert sizes == {"M4", "M5", "M6"}
    worked = inspect_build(build_of("TW-31"))
    assert "10-32 UNF x 3/8 pan steel" in {
        one.line for one in alternatives(worked, "F20")
    }  # its findings ask it
    lines = {one.line for one in alternatives(worked, "F03")}
    assert {line.split(" x ")[0] for line in lines} == {"1/4 BSF", "5/16 BSF", "3/8 BSF"}
    socket = {one.line for one in alternatives(inspect_build(TYPED["head-proud"]), "F1")}
    assert "M5 x 30 socket cap stainless A2" in socket
    assert not any("brass" in line for line in socket)


@pytest.mark.parametrize("number", NUMBERS)
def test_every_joint_of_the_demonstration_has_something_to_try(number: str) -> None:
    worked = inspect_build(build_of(number))
    for mark in dict.fromkeys(one.joint.mark for one in worked.joints):
        for one in alternatives(worked, mark):
            assert one.says
            assert try_fastener(worked.build, mark, one.line) != worked.build


def test_a_key_can_stand_in_an_address() -> None:
    one = Finding("near-match-threads", "warning", "", "", part="1/4 BSF and 2 BA")
    assert finding_key(one) == "near-match-threads::1-4-BSF-and-2-BA"


def test_one_change_in_a_large_build_is_told_alone() -> None:
    build = large_build(0.2)
    before = inspect_build(build)
    mark = build.joints[5].mark
    after = inspect_build(try_fastener(build, mark, "10-32 UNF x 1 3/4 socket cap steel"))
    found = effects(before, after)
    assert [one.mark for one in found.fasteners] == [mark]
    assert {one.joint for part in found.parts for one in part.holes} <= {mark}
    assert compare_builds(build, after.build) == (
        FieldChange(
            "joint", mark, "fastener", build.joints[5].fastener, "10-32 UNF x 1 3/4 socket cap steel"
        ),
    )
