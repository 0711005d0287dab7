"""Stacks drawn along the sheet, read back from their SVG: true places, order and gaps, clear labels, words.

Running lengths are worked out here from thicknesses: washers of ISO 7089 M5 1.0 and M6 1.6, repair washers of
ISO 7093-1 M6 1.6; nuts of ISO 4032 M5 4.7 and M6 5.2, thin nuts of ISO 4035 M6 3.2 (all from memory).
"""

from __future__ import annotations

import itertools
import re
import xml.etree.ElementTree as ElementTree
from functools import lru_cache

import pytest

from calculators.drawing.stack_drawing import ARRANGEMENTS, stack_drawing
from calculators.drawing.stack_lines import stack_lines
from calculators.joints import JointResult
from calculators.joints.riders import Rider
from calculators.planning.inspection import inspect_build
from calculators.planning.worked import WorkedJoint
from tests.demonstration.test_demonstration_files import NUMBERS, build_of
from tests.drawing.stack_readers import SVG, drawn_box, label_boxes, meet, random_stack, read
from tests.joints.joint_makers import insert, layer, nut, washer, work

SEEDS = range(150)
PLACES = 0.011
"""Coordinates are written to a hundredth of a millimetre; two of them differ by up to two half hundredths."""


def long_stack() -> JointResult:
    return work(
        "M6 x 100 hex set screw", washer("M6 washer"), layer("P1", "oak", 12), washer("M6 repair washer"),
        layer("P2", "birch plywood", 9), layer("P3", "brass", 5.5), washer("M6 washer"), nut("M6 half nut"),
        nut("M6 nut"),
    )  # fmt: skip


THICK = (1.6, 12.0, 1.6, 9.0, 5.5, 1.6, 3.2, 5.2)
ENDS = (0.0, *itertools.accumulate(THICK))


@pytest.mark.parametrize("arrangement", ["in line", "together"])
@pytest.mark.parametrize("narrow", [False, True])
def test_members_stand_where_their_thicknesses_add_up_to(arrangement, narrow) -> None:
    found = read(stack_drawing(long_stack(), arrangement, narrow=narrow))
    spans = sorted((near, far) for kind, near, far in found.members if kind != "screw")
    for (near, far), enter, leave in zip(spans, ENDS, ENDS[1:], strict=False):
        assert near == pytest.approx(found.origin + enter * found.scale, abs=PLACES)
        assert far == pytest.approx(found.origin + leave * found.scale, abs=PLACES)
    assert len(spans) == len(THICK)


@pytest.mark.parametrize("arrangement", ["in line", "together"])
def test_running_dimensions_are_written_at_the_places_that_they_name(arrangement) -> None:
    found = read(stack_drawing(long_stack(), arrangement))
    assert [float(words) for words, _ in found.running] == pytest.approx([*ENDS, 100.0])
    for words, x in found.running:
        assert x == pytest.approx(found.origin + float(words) * found.scale, abs=PLACES)


def test_the_lines_of_the_table_give_the_same_lengths() -> None:
    lines = stack_lines(long_stack())
    assert [(line.enter_mm, line.leave_mm) for line in lines[1:]] == [
        (pytest.approx(enter), pytest.approx(leave)) for enter, leave in itertools.pairwise(ENDS)
    ]
    assert [line.number for line in lines] == list(range(1, 10))
    assert (lines[0].enter_mm, lines[0].leave_mm) == (0.0, 100.0)


def test_apart_they_stand_in_order_with_gaps_and_their_true_thickness() -> None:
    found = read(stack_drawing(long_stack(), "apart"))
    assert [kind for kind, _, _ in found.members] == ["screw", "washer", "part", "washer", "part", "part", "washer",
                                                      "nut", "nut"]  # fmt: skip
    for (_, _, end), (_, start, _) in itertools.pairwise(found.members):
        assert start - end == pytest.approx(5.0, abs=2 * PLACES)
    for (_, near, far), thick in zip(found.members[1:], THICK, strict=True):
        assert (far - near) / found.scale == pytest.approx(thick, abs=2 * PLACES / found.scale)
    assert found.running == []


def test_an_insert_stands_before_its_part_and_a_stud_after_the_part_it_is_in() -> None:
    sunk = work(
        "M6 x 30 pan", layer("P1", "brass", 10), layer("P2", "oak", 40, takes="insert"), insert("M6 insert")
    )
    assert [line.kind for line in stack_lines(sunk)] == ["screw", "part", "insert", "part"]
    stud = work("M8 x 40 stud", layer("P1", "aluminium", 30, thread_depth_mm=16, drilled_depth_mm=20, takes="thread"),
                layer("P2", "oak", 10), nut("M8 nut"), stands_mm=-14)  # fmt: skip
    assert [line.kind for line in stack_lines(stud)] == ["part", "screw", "part", "nut"]


def lever(long: float = 8.2) -> tuple[JointResult, tuple[Rider, ...]]:
    result = work(
        "M5 x 20 hex set screw", washer("M5 washer"), layer("P2", "brass", long), layer("P1", "brass", 20)
    )
    return result, (Rider("P3", "brass", 1.2, 9.2, 8.02, 8.0),)


@pytest.mark.parametrize("arrangement", ["in line", "together"])
def test_a_lever_stands_around_its_bush_and_the_bush_is_as_wide_as_it_is(arrangement) -> None:
    result, riders = lever()
    found = read(stack_drawing(result, arrangement, riders=riders))
    ((near, far),) = [(near, far) for kind, near, far in found.members if kind == "around"]
    assert near == pytest.approx(found.origin + 1.2 * found.scale, abs=PLACES)
    assert far == pytest.approx(found.origin + 9.2 * found.scale, abs=PLACES)
    assert "P2 is 0.2 mm longer than P3: P3 turns" in stack_drawing(result, arrangement, riders=riders)


def test_rings_say_how_a_member_is_held() -> None:
    result, riders = lever()
    root = read(stack_drawing(result, riders=riders)).root
    classes = [c.get("class") for c in root.iter(f"{SVG}circle") if "balloon" in (c.get("class") or "")]
    assert classes == [
        "balloon tight",
        "balloon tight",
        "balloon tight",
        "balloon free-to-turn",
        "balloon tight",
    ]


def test_title_description_and_key_say_all_that_is_drawn() -> None:
    svg = stack_drawing(long_stack(), "apart", names={"P1": "Rail"}, count=4)
    root = ElementTree.fromstring(svg)
    assert root.findtext(f"{SVG}title") == "J1: the stack of M6 x 100 hex set screw, apart along its axis"
    says = root.findtext(f"{SVG}desc") or ""
    assert (
        "1: 4 × M6 x 100 hex set screw, from 0 to 100 mm, tight: drawn up between the head and the nut."
        in says
    )
    assert "3: P1 Rail, oak, from 1.6 to 13.6 mm, tight: clamped between the washer and the washer." in says
    assert says.endswith("The stack is 39.7 mm long from the head's bearing plane.")
    words = [text.text for text in root.iter(f"{SVG}text")]
    assert {"4 × M6 nut", "P1 Rail, oak", "34.5 to 39.7; tight: tightened against the nut"} <= set(words)


@lru_cache
def joints_of(number: str) -> tuple[WorkedJoint, ...]:
    return inspect_build(build_of(number)).joints


def labels_are_clear(svg: str) -> None:
    root = ElementTree.fromstring(svg)
    boxes, drawn = label_boxes(root), drawn_box(root)
    for (words, box), (others, other) in itertools.combinations(boxes, 2):
        assert not meet(box, other), (words, others)
    for words, box in boxes:
        assert not meet(box, drawn), words
    left, top, wide, high = map(float, (root.get("viewBox") or "").split())
    for words, box in (*boxes, ("the drawing", drawn)):
        assert left <= box[0] <= box[2] <= left + wide, words
        assert top <= box[1] <= box[3] <= top + high, words


@pytest.mark.parametrize("number", NUMBERS)
@pytest.mark.parametrize("narrow", [False, True])
def test_labels_overprint_nothing_in_the_demonstration(number, narrow) -> None:
    for each, arrangement in itertools.product(joints_of(number), ARRANGEMENTS):
        labels_are_clear(
            stack_drawing(each.result, arrangement, riders=each.riders, narrow=narrow, count=each.count)
        )


@pytest.mark.parametrize("seed", SEEDS)
def test_labels_overprint_nothing_in_stacks_of_up_to_fourteen(seed) -> None:
    result = random_stack(seed)
    arrangement = ARRANGEMENTS[seed % 3]
    svg = stack_drawing(result, arrangement, narrow=seed % 2 == 1, letter_mm=(3.0, 4.0, 5.5)[seed % 5 % 3])
    labels_are_clear(svg)
    assert "nan" not in svg
    assert "inf" not in re.sub(r"<(title|desc)>.*?</\1>", "", svg)


@pytest.mark.parametrize("seed", SEEDS)
def test_as_assembled_every_extent_of_a_random_stack_is_where_its_running_length_says(seed) -> None:
    result = random_stack(seed)
    found = read(stack_drawing(result, "together", with_key=False))
    lines = {line.number: line for line in stack_lines(result)}
    assert len(found.members) == len(lines)
    for words, x in found.running:
        value = float(words)
        last = max(line.leave_mm for line in lines.values() if line.kind == "part")
        if value < last - 1e-6 or value <= result.tip_mm:
            assert x == pytest.approx(found.origin + value * found.scale, abs=PLACES + 0.006 * found.scale)


def test_equal_joints_are_drawn_equal() -> None:
    first, second = (stack_drawing(long_stack(), "together") for _ in range(2))
    assert first == second
