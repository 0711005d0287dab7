"""What is fitted after it was closed: cases just inside and just outside the rule (common practice)."""

from __future__ import annotations

import pytest

from calculators.joints.model import Finding
from calculators.planning.inspection import inspect_build
from calculators.planning.model import AssemblyStep, Build, Component, Joint

PARTS = (
    Component("A1", "Case", quantity=1),
    Component("P01", "Bottom"),
    Component("P02", "Slat", quantity=3),
    Component("P03", "Shelf", parent="A1"),
)
F10 = Joint("F10", "Stops", "M5 x 12 pan steel")


def steps(*said: tuple[int, str, str]) -> tuple[AssemblyStep, ...]:
    """Each as its number, what it fits and what it closes."""
    return tuple(
        AssemblyStep(number, f"Step {number}", fits=tuple(fits.split()), closes=tuple(closes.split()))
        for number, fits, closes in said
    )


def found(*said: tuple[int, str, str]) -> list[Finding]:
    build = Build("B1", "Box", components=PARTS, joints=(F10,), steps=steps(*said))
    return [one for one in inspect_build(build).findings if one.rule == "fitted-after-closed"]


def test_a_joint_fitted_two_steps_after_it_is_closed() -> None:
    (one,) = found((6, "P01", "F10"), (8, "F10", ""))
    assert one.says == "F10 is fitted in step 8, but step 6 closes it."
    assert (one.severity, one.joint, one.part, one.value, one.limit) == ("error", "F10", "", 8.0, 6.0)
    assert [(m.says, m.field, m.value) for m in one.mends] == [
        ("Move step 8 before step 6.", "steps", "8 before 6")
    ]


@pytest.mark.parametrize(
    "said",
    [
        ((5, "F10", ""), (6, "P01", "F10")),  # before it closes
        ((6, "F10", "F10"),),  # the same step fits it and then closes it
        ((8, "F10", ""),),  # nothing closes it
        ((6, "", "F10"),),  # nothing fits it: that is another rule's
        ((6, "", "P02.1"), (7, "P02.2", "")),  # another copy
        ((6, "", "P03"), (7, "A1", "")),  # closed inside its case, which goes on later
    ],
)
def test_just_inside(said: tuple[tuple[int, str, str], ...]) -> None:
    assert found(*said) == []


@pytest.mark.parametrize(
    ("said", "says"),
    [
        (((6, "", "P01"), (7, "P01", "")), "P01 is fitted in step 7, but step 6 closes it."),
        (((6, "", "P02"), (7, "P02.3", "")), "P02.3 is fitted in step 7, but step 6 closes P02."),
        (((6, "", "P02.1"), (7, "P02", "")), "P02 is fitted in step 7, but step 6 closes P02.1."),
        (((6, "", "A1"), (7, "P03", "")), "P03 is fitted in step 7, but step 6 closes A1."),
        (((7, "F10", ""), (6, "", "F10")), "F10 is fitted in step 7, but step 6 closes it."),
        (((2, "", "F10"), (4, "", "F10"), (7, "F10", "")), "F10 is fitted in step 7, but step 2 closes it."),
        (
            ((6, "", "F10"), (7, "F10", ""), (9, "F10", "")),
            "F10 is fitted in steps 7 and 9, but step 6 closes it.",
        ),
    ],
)
def test_just_outside(said: tuple[tuple[int, str, str], ...], says: str) -> None:
    assert [one.says for one in found(*said)] == [says]


def test_a_part_is_told_as_a_part() -> None:
    (one,) = found((6, "", "P02"), (7, "P02.3", ""))
    assert (one.joint, one.part, one.where) == ("", "P02.3", "P02.3")
