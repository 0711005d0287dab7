"""What is written of a record on a line reads back to the same fields."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from hypothesis import HealthCheck, assume, given, note, settings
from hypothesis import strategies as st

from calculators.planning.buildfile import declaration as declared
from calculators.planning.lines import (
    read_hole_line,
    read_joint_line,
    read_part_line,
    read_place_lines,
    read_pocket_line,
    read_pose_line,
    read_step_line,
    write_hole_line,
    write_joint_line,
    write_part_line,
    write_places,
    write_pocket_line,
    write_pose_line,
    write_step_line,
)
from calculators.planning.model import (
    AssemblyStep,
    Build,
    Component,
    Hole,
    Joint,
    Place,
    Pocket,
    Pose,
    Size,
    StackMember,
)
from calculators.quantities import Length, read_length
from calculators.quantities.length import TICKS_PER_MM
from tests.planning.lines.cast_of_lines import BOX
from tests.planning.strategies import TEXT, record_of

MANY = settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
UNITS = st.sampled_from(["mm", "in"])
WRITINGS = [
    "1 3/4 in",
    '3/8"',
    "44.45",
    "31,75 mm",
    "5' 3\"",
    "20 SWG",
    "1-1/4",
    "0.8",
    "10 thou",
    "¾ in",
    "6",
    "1 1/2",
    "2.5 cm",
    "12 mm",
    "½",
]
WRITTEN = st.builds(lambda text, unit: read_length(text, unit=unit), st.sampled_from(WRITINGS), UNITS)
LENGTHS = st.builds(Length, st.integers(1, 99_000 * TICKS_PER_MM)) | WRITTEN
SPOTS = st.builds(Length, st.integers(-99_000 * TICKS_PER_MM, 99_000 * TICKS_PER_MM)) | WRITTEN
ANGLES = st.decimals(-360, 360, places=2, allow_nan=False)
SET_ASIDE = re.compile("[\U000f0000-\U000f0fff]")
"""Private characters that a line sets quoted words aside with; one that is typed is refused with a sentence."""

NAMES = TEXT.filter(lambda text: text.strip() != "" and not SET_ASIDE.search(text)) | st.sampled_from(
    [
        "Side",
        "4 off",
        "oak",
        "Lid, long",
        "a 20 dia x 300 pin",
        "in G1",
        "P01",
        "Base ”board”",
        "made",
        "x 3",
        "Hinge to side",
        "M5 x 20",
        "12",
    ]
)
LINES = st.sampled_from(["", "glue first", "mind 3 x 4 x 5", "so; and so", "check P01: twice, at 20,30"])
MARKS = st.sampled_from(["P20", "Z-9", "部品1", "A1"])


def same(first: Any, second: Any) -> bool:
    """Equal, lengths by their value however they are written."""
    if isinstance(first, Length) and isinstance(second, Length):
        return first.ticks == second.ticks
    if isinstance(first, tuple) and isinstance(second, tuple):
        return len(first) == len(second) and all(map(same, first, second))
    if hasattr(first, "__dataclass_fields__") and type(first) is type(second):
        return all(same(getattr(first, name), getattr(second, name)) for name in first.__dataclass_fields__)
    return first == second


def differing(first: Any, second: Any) -> list[str]:
    return [
        name for name in first.__dataclass_fields__ if not same(getattr(first, name), getattr(second, name))
    ]


@st.composite
def sizes(draw: st.DrawFn) -> Size:
    shape = draw(st.sampled_from(["", "block", "round"]))
    some = [draw(LENGTHS | st.none()) for _ in range(3)]
    if shape == "block":
        return Size("block", *some)
    if shape == "round":
        length, diameter, bore = some
        if diameter is not None and bore is not None and bore.ticks >= diameter.ticks:
            bore = None
        return Size("round", length=length, diameter=diameter, bore=bore)
    return Size()


PARTS = st.builds(
    Component, MARKS, NAMES, parent=st.sampled_from(["", "G1", "P02"]), quantity=st.integers(1, 99),
    material=st.sampled_from(["", "oak", "brass CW614N", "bog oak, 3rd plank", "unobtainium", "silver steel"]),
    stock=st.sampled_from(["", "board", "sheet", "bar", "tube", "turned", "bought"]), size=sizes(),
    grain_cut=st.sampled_from(["", "flat", "quarter"]), corner_radius=LENGTHS | st.none(),
    state=st.sampled_from(["planned", "released", "made", "fitted", "bought", "in hand"]),
    revision=st.sampled_from(["", "B", "AB", "b 2"]), reused=st.booleans(), note=LINES,
)  # fmt: skip


@MANY
@given(PARTS, UNITS)
def test_a_part_reads_back(part: Component, unit: str) -> None:
    build = replace(BOX, unit=unit)
    assume(not (part.state == "bought" and part.stock == ""))  # 'on order' says that it is bought
    line = write_part_line(part, build)
    note(line)
    found = read_part_line(line, build)
    assert differing(found, part) == []


@MANY
@given(PARTS, UNITS)
def test_a_part_rewritten_over_itself_changes_nothing(part: Component, unit: str) -> None:
    build = replace(BOX, unit=unit, components=(*BOX.components, part))
    line = write_part_line(part, build)
    note(line)
    assert differing(read_part_line(line, build, part), part) == []


@MANY
@given(record_of(declared.COMPONENT_RECORD), UNITS)
def test_a_line_over_any_part_keeps_what_it_cannot_say(part: Component, unit: str) -> None:
    part = replace(part, mark="Q7", name="Thing", parent="", size=Size(), corner_radius=None, quantity=3)
    build = Build("B1", "x", unit=unit, components=(part,))
    assert read_part_line("Thing, 4 off", build, part) == replace(part, quantity=4)


TAKES = st.sampled_from(["clearance", "thread", "pilot", "insert", "plain"])
MEMBERS = st.builds(
    StackMember, part=st.sampled_from(["P01", "P04", "P08", "P10", "G1"]), thickness=LENGTHS, takes=TAKES,
    fit=st.sampled_from(["close", "medium", "free"]), thread=st.sampled_from(["", "10-32 UNF", "2 BA"]),
    thread_depth=LENGTHS | st.none(), drilled_depth=LENGTHS | st.none(), grain=st.sampled_from(["", "side", "end"]),
    edge=LENGTHS | st.none(), end=LENGTHS | st.none(),
)  # fmt: skip
ITEMS = st.builds(
    StackMember, item=st.sampled_from(["M5 washer", "M5 nut", "M6 half nut brass", "No. 8 cup washer", "M4 insert OD 8 x 10 brass"]),
    thickness=LENGTHS | st.none(), outside=LENGTHS | st.none(),
)  # fmt: skip


@st.composite
def joints(draw: st.DrawFn) -> Joint:
    stack = draw(st.lists(ITEMS, max_size=1)) + draw(
        st.lists(MEMBERS, min_size=1, max_size=3, unique_by=lambda m: m.part)
    )
    stack = [replace(m, takes="thread") if m.thread or m.thread_depth else m for m in stack]
    nut = draw(st.sampled_from([(), (StackMember(item="M5 nut"),)]))
    home = draw(st.sampled_from(["", "P01", "P01.2"])) or next(m.part for m in stack if m.part)
    face = draw(st.sampled_from(["", "top", "back"])) if home.startswith("P01") else ""
    return Joint(
        draw(st.sampled_from(["F20", "ж3"])), draw(NAMES),
        draw(st.sampled_from(["M5 x 20 csk slotted brass", "No. 8 x 1 3/4 csk slotted brass", "2 BA x 3/4 cheese brass", "5/16 BSF x 2 hex set screw", "5 x 50 csk cross wood screw"])),
        home, face, stack=(*stack, *nut), seat=draw(st.sampled_from(["", "surface", "flush", "proud", "counterbore"])),
        head_diameter=draw(LENGTHS | st.none()), head_angle_deg=draw(st.sampled_from([None, Decimal(82), Decimal("100.5")])),
        torque_nm=draw(st.sampled_from([None, Decimal(6), Decimal("0.55")])), clamps=draw(st.booleans()),
        stands=draw(SPOTS | st.none()), steel_first=draw(st.booleans()), wet=draw(st.booleans()),
        loaded_sideways=draw(st.booleans()), lock=draw(st.sampled_from(["", "low-strength locker", "half nut, wire"])),
        reached_from=draw(st.sampled_from(["", "below", "inside, before step 6"])), tool=draw(st.sampled_from(["", "13 mm spanner", "x and y"])),
        supplier=draw(st.sampled_from(["", "ironmonger"])), count=draw(st.none() | st.integers(1, 99)), note=draw(LINES),
    )  # fmt: skip


@MANY
@given(joints(), UNITS)
def test_a_joint_reads_back(joint: Joint, unit: str) -> None:
    build = replace(BOX, unit=unit)
    line = write_joint_line(joint, build)
    note(line)
    found = read_joint_line(line, build)
    reason = "as entered" if joint.count is not None else ""
    assert differing(found, replace(joint, count_reason=reason)) == []


def test_a_joint_line_over_itself_keeps_its_places_and_holes() -> None:
    stack = (
        StackMember("P06", takes="clearance", thickness=Length(20_000_000, "2")),
        StackMember("P07", takes="pilot", thickness=Length(180_000_000, "18")),
    )
    joint = Joint(
        "F01", "Plate", "No. 8 x 1 csk", "P06", "top", (Place("1", Length(1), Length(2)),), stack, tool="key"
    )
    build = replace(BOX, joints=(joint,))
    assert read_joint_line(write_joint_line(joint, build), build, joint) == joint


def test_a_line_over_a_joint_or_step_keeps_what_it_cannot_say() -> None:
    joint = Joint(
        "F01",
        "Plate",
        "No. 8 x 1 csk",
        "P06",
        coating=Length(80_000),
        spotted=True,
        stack=(StackMember("P06"),),
    )
    build = replace(BOX, joints=(joint,))
    changed = read_joint_line("F01 “Lid plate”: No. 8 x 1 csk, P06", build, joint)
    assert (changed.title, changed.coating, changed.spotted) == ("Lid plate", Length(80_000), True)
    step = AssemblyStep(
        4, "Glue", glued=("P01", "P02"), open_minutes=Decimal(15), rehearsed_minutes=Decimal(9), cure_hours=Decimal(24),
        done=date(2024, 3, 31),
    )  # fmt: skip
    build = replace(BOX, steps=(step,))
    assert read_step_line("Glue up; fits P01", build, step) == replace(step, title="Glue up", fits=("P01",))


FACED = st.sampled_from(["top", "bottom", "front", "back", "left", "right"])


@st.composite
def holes(draw: st.DrawFn) -> Hole:
    kind = draw(
        st.sampled_from(["clearance", "pilot", "tapping", "plain", "reamed", "insert", "slot", "spot"])
    )
    small, deep = draw(LENGTHS), draw(LENGTHS | st.none())
    wider = Length(small.ticks + draw(st.integers(1, 10**6)))
    more: dict[str, Any] = {}
    if kind == "slot":
        more = {"slot_length": wider, "slot_along": draw(st.sampled_from(["u", "v"]))}
    elif kind == "tapping":
        more = {"thread": draw(st.sampled_from(["M5", "2 BA", "5/16 BSF", "1/4-28 UNF", "M6 x 0.75"]))}
        if deep is not None:
            more["thread_depth"] = Length(max(1, deep.ticks // 2))
    if draw(st.booleans()):
        more |= {
            "countersink_diameter": wider,
            "countersink_angle_deg": draw(st.sampled_from([Decimal(82), Decimal(90), Decimal("100.5")])),
        }
    if draw(st.booleans()):
        more |= {"counterbore_diameter": wider, "counterbore_depth": draw(LENGTHS)}
    side = draw(st.booleans())
    face = "side" if side else draw(FACED)
    v, angle = (None, draw(ANGLES)) if side else (draw(SPOTS), None)
    return Hole("h1", face, draw(SPOTS), v, angle, kind, small, deep, note=draw(LINES), **more)


THING = (Component("Q1", "Thing", quantity=3), Component("Q2", "Other", quantity=2))


@MANY
@given(holes(), UNITS, st.booleans())
def test_a_hole_reads_back(hole: Hole, unit: str, told: bool) -> None:
    build = Build("B1", "x", unit=unit, components=THING)
    line = write_hole_line(hole, unit) if told else write_hole_line(hole)
    note(line)
    (found,) = read_hole_line(line, build, "Q1")
    assert differing(found, hole) == []


@MANY
@given(
    st.builds(Pocket, st.just("k1"), FACED, SPOTS, SPOTS, LENGTHS, LENGTHS, LENGTHS | st.none(), LENGTHS | st.none(), LENGTHS | st.none(), st.booleans(), note=LINES),
    UNITS,
    st.booleans(),
)  # fmt: skip
def test_a_pocket_reads_back(pocket: Pocket, unit: str, told: bool) -> None:
    build = Build("B1", "x", unit=unit, components=THING)
    line = write_pocket_line(pocket, unit) if told else write_pocket_line(pocket)
    note(line)
    found = read_pocket_line(line, build, "Q1")
    assert differing(found, pocket) == []


@MANY
@given(
    st.builds(
        Pose, st.integers(1, 3), st.sampled_from(["", "Q2", "Q2.2"]), FACED, SPOTS, SPOTS, turned_deg=ANGLES, let_in=SPOTS,
        own_face=FACED, point=st.sampled_from(["corner", "centre"]), hand=st.sampled_from(["same", "other"]),
    ),
    UNITS,
    st.booleans(),
)  # fmt: skip
def test_a_pose_reads_back(pose: Pose, unit: str, told: bool) -> None:
    if not pose.on:
        pose = replace(pose, face="top")
    build = Build("B1", "x", unit=unit, components=THING)
    line = write_pose_line("Q1", pose, unit, 3) if told else write_pose_line("Q1", pose)
    note(line)
    mark, found = read_pose_line(line, build)
    assert (mark, differing(found, pose)) == ("Q1", [])


@MANY
@given(
    st.builds(
        AssemblyStep, st.integers(0, 10**6).filter(lambda number: number != 4), NAMES,
        st.lists(st.sampled_from(["P01", "P01.3", "F01", "G1"]), max_size=3, unique=True).map(tuple),
        st.lists(st.sampled_from(["P02", "P04.2"]), max_size=2, unique=True).map(tuple),
        st.lists(st.sampled_from(["13 mm spanner", "glue, clamps", "a; b", "tools"]), max_size=2, unique=True).map(tuple),
        caution=LINES, check=LINES, note=LINES,
    )
)  # fmt: skip
def test_a_step_reads_back(step: AssemblyStep) -> None:
    assert read_step_line(write_step_line(step, BOX), BOX) == step


@MANY
@given(
    st.lists(st.tuples(SPOTS, SPOTS), min_size=1, max_size=5),
    st.lists(st.tuples(SPOTS, ANGLES), min_size=1, max_size=5),
    UNITS,
    st.booleans(),
)
def test_places_read_back(flat: list, around: list, unit: str, told: bool) -> None:
    build = replace(BOX, unit=unit)
    places = tuple(Place(str(i), u, v) for i, (u, v) in enumerate(flat, 1))
    line = write_places(places, unit) if told else write_places(places)
    assert same(read_place_lines(line, build, "P01", "top"), places)
    places = tuple(Place(str(i), u, None, angle) for i, (u, angle) in enumerate(around, 1))
    assert same(read_place_lines(write_places(places), build, "P10", "side"), places)
