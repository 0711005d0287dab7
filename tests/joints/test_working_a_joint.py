"""The result as a whole: working, sources, places on the axis, refusals, measured sizes, speed."""

from __future__ import annotations

import time
from dataclasses import replace
from typing import Any

import pytest

from calculators.hardware.fastener import Fastener
from calculators.joints import JointInput, StackItem, work_joint
from calculators.joints.limits import LIMITS, limits_with
from calculators.joints.mending import apply_mend
from calculators.joints.model import Layer, MeasuredHead, MeasuredItem, Mend
from calculators.joints.rules import RULES
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length
from tests.benchmarks.yardstick import yardstick
from tests.joints.joint_makers import found, insert, joint, layer, nut, washer, work

STACK = (layer("a", "brass", 8), layer("b", "brass", 20))


def refused(made: JointInput) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as caught:
        work_joint(made)
    return [(fault.field, fault.says) for fault in caught.value.faults]


def test_working_shows_the_numbers_put_in() -> None:
    result = work(
        "5/16 BSF x 1 3/4 hex set screw steel",
        washer("5/16 BSF repair washer"),
        layer("base", "oak", 22),
        layer("pillar", "brass", 60),
        torque_nm=6.0,
    )
    lines = [step.line for step in result.working]
    assert "point = length + sunk = 44.45 + 0.00 = 44.45 mm (geometry)" in lines
    assert "stack = sum of what lies before the thread = 1.63 + 22.00 = 23.626 mm (geometry)" in lines
    torque = "F = T / (K d) = 6 / (0.2 x 0.007938) = 3779.53 N"
    assert f"{torque} (Machinery's Handbook (from memory); scatter about 30 %)" in lines
    assert any(line.startswith("pressure on base = F / area = 3780 / 737 = 5.12") for line in lines)
    assert any("BSF" in source or "BS 84" in source for source in result.sources)
    assert len(result.sources) == len(set(result.sources))


def test_places_on_the_axis() -> None:
    result = work(
        "M5 x 50 socket cap steel",
        washer("M5 washer"),
        layer("a", "steel", 10, hole={"counterbore_depth_mm": 6.0}),
        layer("b", "oak", 20, gap_mm=2.0),
        washer("M5 washer"),
        nut("M5 nut"),
    )
    # the washer (1.0) lies in the counterbore: the floor is at 1, the top of the part at -5
    places = [(round(e.enter_mm, 3), round(e.leave_mm, 3)) for e in result.extents]
    assert places == [(0, 1), (1, 5), (7, 27), (27, 28), (28, 32.7)]
    assert result.head_below_mm == pytest.approx(6.0 - 1.0 - 5.0)
    assert result.tip_mm == 50
    assert result.protrusion_mm == pytest.approx(17.3)


def test_a_nut_let_into_the_last_part() -> None:
    last = layer("b", "steel", 20, hole={"counterbore_depth_mm": 5.0})
    result = work("M5 x 40 hex set screw steel", layer("a", "steel", 10), last, nut("M5 nut"))
    assert [e.leave_mm for e in result.extents] == pytest.approx([10, 25, 29.7])
    assert result.holes[1].counterbore_depth_mm == 5.0
    assert result.holes[1].counterbore_diameter_mm == pytest.approx(8 * 2 / 3**0.5 + 1, abs=0.2)


def test_raised_heads_and_measured_sizes() -> None:
    raised = work("No. 8 x 1 1/2 raised csk brass", layer("a", "oak", 10), layer("b", "oak", 40))
    assert raised.head_below_mm == pytest.approx(-0.25 * 4.1656)
    assert raised.tip_mm == pytest.approx(38.1)
    own = MeasuredHead(diameter_mm=7.9, height_mm=2.1, angle_deg=82)
    measured = work(
        "No. 8 x 1 1/2 csk brass", layer("a", "oak", 10), layer("b", "oak", 40), measured_head=own
    )
    assert measured.head_diameter_mm == 7.9
    assert measured.holes[0].countersink_angle_deg == 82
    assert any(source.startswith("head as measured") for source in measured.sources)
    thin = replace(nut("M5 nut"), measured=MeasuredItem(thickness_mm=4.0))
    assert work("M5 x 20 hex set screw", layer("a", "steel", 14), thin).protrusion_mm == pytest.approx(2.0)


def test_a_headless_screw_stands_where_it_is_said_to() -> None:
    sunk = work("M5 x 8 grub steel", layer("a", "steel", 12), stands_mm=-2.0, clamps=False)
    assert [(e.enter_mm, e.leave_mm) for e in sunk.extents] == [(-2.0, 10.0)]
    assert sunk.engagement_mm == 8.0
    proud = work("M5 x 8 grub steel", layer("a", "steel", 12), stands_mm=3.0, clamps=False)
    assert proud.engagement_mm == 5.0
    assert proud.head_below_mm == -3.0
    lever = work(
        "M5 x 30 hex set screw steel",
        nut("M5 half nut"),
        layer("a", "steel", 12),
        stands_mm=10.0,
        clamps=False,
    )
    assert [(round(e.enter_mm, 3), e.leave_mm) for e in lever.extents] == [(7.3, 10.0), (10.0, 22.0)]


@pytest.mark.parametrize(
    ("stack", "takes"),
    [
        ((("a", ""), ("b", "")), ["clearance", "tapping"]),
        ((("a", ""), ("b", ""), "nut"), ["clearance", "clearance"]),
        ((("a", ""), "insert", ("b", "")), ["clearance", "insert"]),
        ((("a", ""), ("b", ""), "insert"), ["clearance", "insert"]),
        ((("a", "thread"), ("b", "")), ["tapping", "clearance"]),
        ((("a", "plain"), ("b", "pilot")), ["plain", "pilot"]),
        (("nut", ("a", ""), ("b", "")), ["clearance", "tapping"]),
    ],
)
def test_which_layer_takes_what(stack: tuple[Any, ...], takes: list[str]) -> None:
    items = {"nut": nut("M5 nut"), "insert": insert("M5 insert OD 9 body 7.5 x 10 brass")}
    made = [items[x] if isinstance(x, str) else layer(x[0], "oak", 20, takes=x[1]) for x in stack]
    assert [hole.kind for hole in work("M5 x 50 cheese steel", *made).holes] == takes


def test_what_makes_a_joint_meaningless() -> None:
    assert refused(joint("M5 x 20 hex")) == [
        ("layers", "The joint has no layers; give at least one part that the fastener goes into.")
    ]
    assert refused(joint("M5 x 20 hex", layer("a", "steel", 0.0))) == [
        ("stack[0].layer.thickness_mm", "The thickness of a must be over 0 mm, not 0.")
    ]
    nothing = JointInput("J", Fastener("machine", ""), STACK)
    assert refused(nothing) == [("fastener", "The fastener has no size; write one such as M5 or No. 8.")]
    other = JointInput("J", Fastener("glue", "M5"), STACK)  # type: ignore[arg-type]
    assert refused(other) == [("fastener", "The fastener's family is 'glue'; it must be machine or wood.")]
    (field, says) = refused(JointInput("J", Fastener("machine", "M5.1"), STACK))[0]
    assert field == "fastener"
    assert "M5.1" in says
    twice = StackItem(layer=Layer("a", "oak", 3.0), nut=nut("M5 nut").nut)
    assert refused(joint("M5 x 20 hex", twice))[0][0] == "stack[0]"
    cut = Fastener("machine", "M5", Length(10 * 10**7), cut_to=Length(20 * 10**7))
    assert refused(JointInput("J", cut, STACK))[0][1] == "A fastener of 10 mm cannot be cut to 20 mm."
    assert refused(joint("M5 x 20 hex", *STACK, torque_nm=-1.0))[0][0] == "torque_nm"
    assert (
        refused(joint("M5 x 20 hex", *STACK, limits=(("lock-clamped", -1.0),)))[0][0] == "limits.lock-clamped"
    )


def test_rules_and_limits_are_named_once() -> None:
    names = [rule.name for rule in RULES]
    assert len(names) == len(set(names))
    assert all(rule.says.endswith(".") and rule.source for rule in RULES)
    limits = [limit.name for limit in LIMITS]
    assert len(limits) == len(set(limits))
    assert all(limit.source and limit.says and limit.value >= 0 for limit in LIMITS)
    assert limits_with((("lock-clamped", 5.0),))["lock-clamped"] == 5.0


def test_mends_that_lead_nowhere() -> None:
    made = joint("M5 x 20 hex", *STACK)
    assert apply_mend(made, Mend("Think again.")) is made
    for field, value in (
        ("stack[9].layer.edge_mm", "3"),
        ("nowhere", "3"),
        ("torque_nm", "tight"),
        ("a b", ""),
    ):
        with pytest.raises(InputError):
            apply_mend(made, Mend("Try.", field, value))
    changed = apply_mend(made, Mend("Move it.", "stack[1].layer.edge_mm", "12.5"))
    assert changed.stack[1].layer is not None
    assert changed.stack[1].layer.edge_mm == 12.5


def test_what_the_tables_do_not_know_is_said() -> None:
    result = work(
        "M5 x 40 hex bolt steel", layer("a", "unobtanium", 20), nut("M5 wing nut"), washer("M5 washer")
    )
    assert found(work("M5 x 20", *STACK), "known-data")[0].severity == "unchecked"
    assert any("'unobtanium' is not a material" in f.says for f in found(result, "known-data"))
    strange = work("M5 x 20 cheese steel", *STACK, drills=("a drawer full",))
    assert [f.severity for f in found(strange, "known-data")] == ["unchecked"]
    assert "the drills owned" in found(strange, "known-data")[0].says


def test_four_hundred_joints_take_well_under_half_a_second() -> None:
    made = [
        joint(
            f"No. 8 x {length} csk brass",
            layer("a", "oak", 10 + n),
            layer("b", "oak", 40),
            layer("c", "oak", 50),
        )
        for n in range(100)
        for length in ("1", "1 1/2", "2", "3")
    ]
    start = time.process_time()
    results = [work_joint(each) for each in made]
    assert len(results) == 400
    assert (time.process_time() - start) / yardstick() < 40  # about 4 is usual


def test_what_a_grub_screw_stands_against_is_not_tapped() -> None:
    """The collar is tapped, as is said; nothing is said of the shaft behind it. A stud holds in both."""
    stack = (layer("collar", "brass", 10, takes="thread"), layer("shaft", "steel", 10))
    grub = work("M4 x 10 grub steel", *stack, clamps=False)
    assert [one.kind for one in grub.holes] == ["tapping", "plain"]
    assert found(grub, "engagement") == []
    stud = work("M4 x 20 stud steel", *stack, clamps=False)
    assert [one.kind for one in stud.holes] == ["tapping", "tapping"]
