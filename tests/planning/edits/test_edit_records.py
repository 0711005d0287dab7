"""Records found, put in, taken out, renamed and moved: by example, and for any build."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from calculators.planning.buildfile import declaration as declared
from calculators.planning.buildfile.collecting import Collector
from calculators.planning.buildfile.consistency import check_build
from calculators.planning.edits import (
    duplicate,
    find,
    move_record,
    move_step,
    put,
    remove,
    rename_mark,
    taken_along,
)
from calculators.planning.edits.records import MARKED, SHELVES, key_of
from calculators.planning.files import read_build, write_build
from calculators.planning.marks import marks_of
from calculators.planning.model import (
    AssemblyStep,
    Build,
    Component,
    Entry,
    Joint,
    Place,
    Pose,
    Size,
    StackMember,
)
from calculators.planning.ties import mark_of_tie
from calculators.quantities.errors import InputError
from tests.demonstration.test_demonstration_files import NUMBERS, build_of
from tests.planning.edits.mend_cases import mm
from tests.planning.strategies import builds, record_of

QUICK = settings(
    deadline=None,
    max_examples=25,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much],
)
KINDS = tuple(SHELVES)

BENCH = Build(
    "B1",
    "Stool",
    components=(
        Component("A1", "Frame", quantity=2),
        Component("P1", "Seat", size=Size("block", mm(300), mm(300), mm(20)), poses=(Pose(),)),
        Component(
            "P2",
            "Leg",
            parent="A1",
            quantity=2,
            poses=(Pose(copy=1, on="P1"), Pose(copy=4, on="P1", u=mm(9))),
        ),
        Component("P3", "Foot", quantity=4, poses=(Pose(copy=2, on="P2.4"),)),
    ),
    joints=(
        Joint(
            "F1",
            "Leg to seat",
            "No. 8 x 1 1/2 csk brass",
            home="P2.1",
            face="top",
            places=(Place("1", mm(9), mm(9)),),
            stack=(StackMember(part="P2"), StackMember(part="P1")),
            fixed_place="1",
        ),
        Joint("F2", "Seat", "M5 x 20 pan steel", stack=(StackMember(part="P1"), StackMember(item="M5 nut"))),
    ),
    steps=(
        AssemblyStep(2, "Legs", fits=("P2.1", "F1"), closes=("F1",)),
        AssemblyStep(5, "Feet", fits=("P3", "P2.4")),
        AssemblyStep(9, "Seat", fits=("P1", "F2")),
    ),
    entries=(Entry("e1", date(2024, 3, 31), "P2 is done", marks=("P2.1", "F1", "P3")),),
)


def sound(build: Build) -> Build:
    """The build, when it holds together and comes back from its file as it was."""
    collector = Collector(build.unit)
    check_build(build, collector)
    assert collector.faults == []
    assert read_build(write_build(build)) == build
    return build


def names_in(build: Build) -> set[str]:
    """Every name by which a record names another."""
    found = {one.parent for one in build.components} | {p.on for one in build.components for p in one.poses}
    for joint in build.joints:
        found |= {joint.home, *(m.part for m in joint.stack)}
    for step in build.steps:
        found |= {*step.fits, *step.closes, *step.glued}
    found |= {mark for one in build.entries for mark in one.marks}
    found |= {mark_of_tie(tie) for one in build.calculations for _, tie in one.ties}
    found |= {one.from_stock for one in build.components}
    found |= {name for one in build.components if one.motion for name in one.motion.carries}
    found |= {mark_of_tie(one.of) for one in build.readings} | {one.mark for one in build.releases}
    found |= {name for one in build.moisture for name in one.parts}
    found |= {name for one in build.acceptances for name in (one.joint, one.part)}
    return {name.partition(".")[0] for name in found} - {""}


def test_the_bench_is_sound() -> None:
    sound(BENCH)


def test_what_is_not_there_is_told_with_what_is_near() -> None:
    assert find(BENCH, "step", "5").title == "Feet"
    assert find(BENCH, "entry", "e1").text == "P2 is done"
    for kind, key, says in (
        ("component", "P9", "There is no component 'P9'; did you mean P3 or P2 or P1?"),
        ("joint", "xyz", "There is no joint 'xyz'."),
        ("step", "3", "There is no step '3'."),
        ("entry", "e2", "There is no entry 'e2'; did you mean e1?"),
        (
            "pose",
            "1",
            "There is no kind of record called 'pose'; there are component, joint, step, entry, calculation, "
            "stock, reading, moisture, release, acceptance.",
        ),
    ):
        with pytest.raises(InputError) as caught:
            find(BENCH, kind, key)  # type: ignore[arg-type]
        assert str(caught.value) == says


def test_a_new_record_stands_last_and_a_used_key_is_refused() -> None:
    after = sound(put(BENCH, "component", Component("P4", "Wedge")))
    assert [one.mark for one in after.components] == ["A1", "P1", "P2", "P3", "P4"]
    for kind, record, says in (
        (
            "component",
            Component("F1", "Wedge"),
            "The mark 'F1' is used already by a joint, 'Leg to seat'; give",
        ),
        (
            "joint",
            Joint("P1", "x", "M5 x 20 pan steel"),
            "The mark 'P1' is used already by a component, 'Seat'",
        ),
        ("step", AssemblyStep(5, "x"), "The number '5' is used already by a step, 'Feet'; give another."),
        ("entry", BENCH.entries[0], "The id 'e1' is used already by an entry; give another."),
    ):
        with pytest.raises(InputError) as caught:
            put(BENCH, kind, record)  # type: ignore[arg-type]
        assert str(caught.value).startswith(says)
        assert caught.value.faults[0].field in ("mark", "number", "id")


def test_a_replaced_record_keeps_its_place_and_carries_its_new_mark() -> None:
    leg = replace(BENCH.components[2], mark="L7", name="Post")
    after = sound(put(BENCH, "component", leg, key="P2"))
    assert after.components[2] == leg
    assert after.components[3].poses[0].on == "L7.4"
    assert (after.joints[0].home, after.joints[0].stack[0].part) == ("L7.1", "L7")
    assert after.steps[0].fits == ("L7.1", "F1")
    assert after.steps[1].fits == ("P3", "L7.4")
    assert after.entries[0].marks == ("L7.1", "F1", "P3")
    assert after.entries[0].text == "P2 is done"  # what was written stays as it was written
    assert after.joints[0].fixed_place == "1"


def test_what_would_make_no_sense_is_refused_where_it_stands() -> None:
    for kind, record, key, field, says in (
        (
            "component",
            replace(BENCH.components[2], quantity=1),
            "P2",
            "poses[1].copy",
            "There is no copy 4 of P2",
        ),
        ("component", replace(BENCH.components[1], name="x" * 201), "P1", "name", "it may have 200"),
        (
            "component",
            replace(BENCH.components[1], parent="A7"),
            "P1",
            "parent",
            "There is no component 'A7'",
        ),
        (
            "joint",
            replace(BENCH.joints[1], fastener="M5 washer"),
            "F2",
            "fastener",
            "is a washer, nut or insert",
        ),
        ("joint", replace(BENCH.joints[0], torque_nm=Decimal(-1)), "F1", "torque_nm", ""),
        ("joint", replace(BENCH.joints[0], mark="F 9"), "F1", "mark", "is not a mark"),
        (
            "step",
            AssemblyStep(5, "Feet", fits=("P99",)),
            "5",
            "fits[0]",
            "There is no component or joint 'P99'",
        ),
    ):
        with pytest.raises(InputError) as caught:
            put(BENCH, kind, record, key=key)  # type: ignore[arg-type]
        assert caught.value.faults[0].field == field
        assert says in str(caught.value)


def test_a_fault_that_was_there_before_does_not_stop_an_edit() -> None:
    broken = replace(BENCH, joints=(*BENCH.joints, Joint("F3", "Unread", "blunt thing", home="P77")))
    after = put(broken, "component", replace(BENCH.components[1], name="Top"), key="P1")
    assert after.components[1].name == "Top"
    with pytest.raises(InputError, match="no component 'P88'"):
        put(broken, "component", Component("P5", "x", parent="P88"))


def test_a_record_of_another_kind_is_refused() -> None:
    with pytest.raises(InputError, match="This is no joint but a Component"):
        put(BENCH, "joint", BENCH.components[0])


def test_a_component_goes_with_what_cannot_stand_without_it() -> None:
    after = sound(remove(BENCH, "component", "P2"))
    assert [one.mark for one in after.components] == ["A1", "P1", "P3"]
    assert after.components[2].poses == ()
    assert [one.mark for one in after.joints] == ["F2"]
    assert [(one.fits, one.closes) for one in after.steps] == [((), ()), (("P3",), ()), (("P1", "F2"), ())]
    assert after.entries[0].marks == ("P3",)
    assert taken_along(BENCH, "component", "P2") == (
        "P3 Foot no longer lies anywhere: P2 was under it.",
        "Joint F1 Leg to seat goes, which is placed on it.",
        "Steps 2, 5 no longer name it.",
        "One entry of the journal no longer names it.",
    )


def test_what_is_in_a_sub_assembly_stays_as_many_as_before() -> None:
    after = sound(remove(BENCH, "component", "A1"))
    leg = find(after, "component", "P2")
    assert (leg.parent, leg.quantity, leg.poses) == ("", 4, BENCH.components[2].poses)
    assert taken_along(BENCH, "component", "A1") == ("P2 Leg is no longer part of A1.",)
    many = put(BENCH, "component", replace(BENCH.components[0], quantity=100_000), key="A1")
    with pytest.raises(InputError, match="Move P2 elsewhere first"):
        remove(many, "component", "A1")


def test_a_stack_loses_the_member_that_goes() -> None:
    after = sound(remove(BENCH, "component", "P1"))
    assert [m.part or m.item for m in find(after, "joint", "F2").stack] == ["M5 nut"]
    assert taken_along(BENCH, "component", "P1") == (
        "2 copies of P2 Leg no longer lie anywhere: P1 was under it.",
        "Joint F1 Leg to seat no longer goes through it.",
        "Joint F2 Seat no longer goes through it.",
        "Step 9 no longer names it.",
    )


def test_joints_steps_and_entries_go_alone() -> None:
    after = sound(remove(BENCH, "joint", "F1"))
    assert (after.steps[0].fits, after.steps[0].closes) == (("P2.1",), ())
    assert taken_along(BENCH, "joint", "F1") == (
        "Step 2 no longer names it.",
        "One entry of the journal no longer names it.",
    )
    assert [one.number for one in remove(BENCH, "step", "5").steps] == [2, 9]
    assert remove(BENCH, "entry", "e1").entries == ()
    assert taken_along(BENCH, "step", "5") == taken_along(BENCH, "entry", "e1") == ()


def test_copies_of_records() -> None:
    after, mark = duplicate(BENCH, "component", "P1")
    assert (mark, [one.mark for one in sound(after).components]) == ("P4", ["A1", "P1", "P4", "P2", "P3"])
    assert find(after, "component", "P4") == replace(BENCH.components[1], mark="P4", poses=())
    after, mark = duplicate(BENCH, "joint", "F1")
    assert (mark, [one.mark for one in sound(after).joints]) == ("F3", ["F1", "F3", "F2"])
    with pytest.raises(InputError, match="Only components, joints, calculations and stock"):
        duplicate(BENCH, "step", "2")


def test_the_order_of_records_and_steps() -> None:
    assert [one.mark for one in move_record(BENCH, "component", "P3", "A1").components][:2] == ["P3", "A1"]
    assert [one.mark for one in move_record(BENCH, "joint", "F1", "").joints] == ["F2", "F1"]
    assert move_record(BENCH, "joint", "F1", "F1") == BENCH
    with pytest.raises(InputError, match="no component 'P9'"):
        move_record(BENCH, "component", "P3", "P9")
    with pytest.raises(InputError, match="steps go by number"):
        move_record(BENCH, "step", "2", "5")
    for number, before, titles in (
        (9, 2, ["Seat", "Legs", "Feet"]),
        (2, None, ["Feet", "Seat", "Legs"]),
        (5, 5, ["Legs", "Feet", "Seat"]),
    ):
        steps = sound(move_step(BENCH, number, before)).steps
        assert [(one.number, one.title) for one in steps] == list(enumerate(titles, 1))
    with pytest.raises(InputError, match="no step '3'"):
        move_step(BENCH, 2, 3)


@st.composite
def edits(draw: st.DrawFn) -> tuple[Build, str, dict[str, Any]]:
    """A build, the kind of an edit, and what it needs."""
    build = draw(builds())
    held = [(kind, one) for kind in KINDS for one in getattr(build, SHELVES[kind].field)]
    assume(held)
    kind, one = draw(st.sampled_from(held))
    return build, kind, {"record": one, "key": key_of(kind, one)}


@QUICK
@given(edits(), st.sampled_from(["Q-9", "Ω2", "P01"]))
def test_a_rename_carried_back_is_no_change(edit: tuple[Build, str, dict[str, Any]], new: str) -> None:
    build, kind, given = edit
    if kind not in MARKED:
        return
    try:
        renamed = rename_mark(build, given["key"], new)
    except InputError:
        assert new in marks_of(build)
        return
    assert rename_mark(sound(renamed), new, given["key"]) == build


@QUICK
@given(edits())
def test_nothing_names_what_was_removed(edit: tuple[Build, str, dict[str, Any]]) -> None:
    build, kind, given = edit
    said = taken_along(build, kind, given["key"])  # type: ignore[arg-type]
    after = sound(remove(build, kind, given["key"]))  # type: ignore[arg-type]
    marks = set(marks_of(after))
    assert names_in(after) <= marks
    others = {
        name: tuple(one for one in getattr(build, shelf.field) if one is not given["record"])
        for name, shelf in SHELVES.items()
    }
    alone = all(getattr(after, SHELVES[name].field) == left for name, left in others.items())
    assert alone == (not said) or (kind == "entry" and bool(said))


RECORDS = {
    "component": declared.COMPONENT_RECORD,
    "joint": declared.JOINT_RECORD,
    "step": declared.STEP_RECORD,
    "entry": declared.ENTRY_RECORD,
    "calculation": declared.CALCULATION_RECORD,
    "stock": declared.STOCK_RECORD,
    "reading": declared.READING_RECORD,
    "moisture": declared.MOISTURE_RECORD,
    "release": declared.RELEASE_RECORD,
    "acceptance": declared.ACCEPTANCE_RECORD,
}


@QUICK
@given(st.data())
def test_what_is_put_in_leaves_a_sound_build_or_is_refused(data: st.DataObject) -> None:
    build, kind, given = data.draw(edits())
    record = data.draw(record_of(RECORDS[kind]) | st.just(given["record"]))
    key = data.draw(st.sampled_from(["", given["key"]]))
    try:
        after = put(build, kind, record, key=key)  # type: ignore[arg-type]
    except InputError:
        assert key == "" or record != given["record"]
        return
    sound(after)
    assert find(after, kind, key_of(kind, record)) == record  # type: ignore[arg-type]


@QUICK
@given(st.data())
def test_copies_and_moves_leave_a_sound_build(data: st.DataObject) -> None:
    build, kind, given = data.draw(edits())
    if kind in MARKED:
        after, mark = duplicate(build, kind, given["key"])  # type: ignore[arg-type]
        assert find(sound(after), kind, mark).mark == mark  # type: ignore[arg-type]
        others = ["", *(one.mark for one in getattr(build, SHELVES[kind].field))]
        moved = move_record(build, kind, given["key"], data.draw(st.sampled_from(others)))  # type: ignore[arg-type]
        sound(moved)
        assert set(getattr(moved, SHELVES[kind].field)) == set(getattr(build, SHELVES[kind].field))
    if build.steps:
        numbers = [one.number for one in build.steps]
        before = data.draw(st.sampled_from([None, *numbers]))
        after = sound(move_step(build, data.draw(st.sampled_from(numbers)), before))
        assert [one.number for one in after.steps] == list(range(1, len(numbers) + 1))
        assert sorted(one.title for one in after.steps) == sorted(one.title for one in build.steps)


@pytest.mark.parametrize("number", NUMBERS)
def test_any_part_of_a_demonstration_build_can_go_or_be_renamed(number: str) -> None:
    build = build_of(number)
    for kind in KINDS:
        for one in getattr(build, SHELVES[kind].field):
            key = key_of(kind, one)
            after = remove(build, kind, key)  # type: ignore[arg-type]
            marks = set(marks_of(after))
            assert names_in(after) <= marks
            if kind in MARKED:
                assert rename_mark(rename_mark(build, key, "ZZ-1"), "ZZ-1", key) == build
