"""The assembly list: order, what each step fits and closes, and what no step fits."""

from __future__ import annotations

from decimal import Decimal

from calculators.planning.model import AssemblyStep, Build, Component, Joint, Place
from calculators.planning.schedules import assembly_list
from calculators.quantities import Length

PLACES = tuple(Place(str(i), Length(0), Length(0)) for i in range(3))
BUILD = Build(
    "B1",
    "Seismograph",
    components=(
        Component("P20", "Stop post", quantity=2),
        Component("P21", "Stop plate"),
        Component("A1", "Head"),
        Component("P12", "Bracket", parent="A1"),
        Component("A2", "Drum"),
        Component("P34", "Tube", parent="A2"),
        Component("P35", "Cap", parent="A2"),
        Component("P40", "Motor"),
    ),
    joints=(
        Joint("F09", "Plate to base", "No 4 x 5/8\" csk brass", home="P21", places=PLACES, tool="screwdriver", steel_first=True),
        Joint("F10", "Post to plate", "4 BA x 3/8 csk steel", home="P20", torque_nm=Decimal("0.4"), reached_from="below"),
        Joint("F20", "Motor", "something unreadable"),
    ),
    steps=(
        AssemblyStep(20, "Plate", fits=("P21", "F09", "A1"), closes=("F10", "P40", "Q"), tools=("bradawl",), caution="Sharp."),
        AssemblyStep(10, "Posts", fits=("P20", "F10", "P34", "P35", "Q9")),
        AssemblyStep(30, "One more", fits=("P20.2", "F20")),
    ),
)  # fmt: skip


def test_steps_stand_in_order_with_parts_and_fasteners_resolved() -> None:
    posts, plate, more = assembly_list(BUILD).steps
    assert [step.number for step in (posts, plate, more)] == [10, 20, 30]
    assert [str(part) for part in posts.parts] == ["P20 Stop post (2)", "P34 Tube", "P35 Cap"]
    assert [str(one) for one in posts.joints] == ["F10 2 x 4 BA x 3/8 csk steel"]
    assert (posts.joints[0].torque_nm, posts.joints[0].reached_from) == (Decimal("0.4"), "below")
    assert posts.unknown == ("Q9",)
    assert [str(one) for one in plate.joints] == ["F09 3 x No. 4 x 5/8 csk brass"]
    assert plate.joints[0].steel_first
    assert plate.tools == ("bradawl", "screwdriver")
    assert plate.caution == "Sharp."
    assert [str(part) for part in more.parts] == ["P20.2 Stop post"]
    assert [str(one) for one in more.joints] == ["F20 1 x something unreadable"]


def test_a_step_says_what_it_closes_and_when_that_was_fitted() -> None:
    plate = assembly_list(BUILD).steps[1]
    assert [str(one) for one in plate.closes] == [
        "F10 Post to plate, fitted in step 10",
        "P40 Motor, fitted in no step",
        "Q, fitted in no step",
    ]


def test_what_no_step_fits_is_named_counting_sub_assemblies_both_ways() -> None:
    found = assembly_list(BUILD)
    assert found.components_in_no_step == ("P40",)
    assert found.joints_in_no_step == ()


def test_without_steps_everything_is_in_no_step() -> None:
    found = assembly_list(Build("B", "t", components=BUILD.components, joints=BUILD.joints))
    assert found.components_in_no_step == tuple(one.mark for one in BUILD.components)
    assert found.joints_in_no_step == ("F09", "F10", "F20")
