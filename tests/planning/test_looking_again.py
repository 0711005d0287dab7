"""A build that is looked at again after a change gives what it gives when nothing is remembered."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest

from calculators.joints.work import work_joint
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Build
from calculators.planning.worked import WorkedBuild
from calculators.quantities.length import Length
from tests.benchmarks.large import large_build

Change = Callable[[Build], Build]


def with_other_screw(build: Build) -> Build:
    first, *rest = build.joints
    return replace(
        build, joints=(replace(first, fastener="No. 6 x 1 1/2 csk slotted brass wood screw"), *rest)
    )


def with_thinner_base(build: Build) -> Build:
    base, *rest = build.components
    return replace(
        build, components=(replace(base, size=replace(base.size, thickness=Length.of_mm(20))), *rest)
    )


def with_other_wood(build: Build) -> Build:
    base, *rest = build.components
    return replace(build, components=(replace(base, material="Scots pine"), *rest))


def with_note(build: Build) -> Build:
    base, *rest = build.components
    return replace(build, components=(replace(base, note="from the old door"), *rest))


def with_limit(build: Build) -> Build:
    return replace(build, context=replace(build.context, limits=(("penetration", Decimal(9)),)))


def forgotten(build: Build) -> WorkedBuild:
    work_joint.cache_clear()
    return inspect_build(build)


@pytest.mark.parametrize(
    "change", [with_other_screw, with_thinner_base, with_other_wood, with_note, with_limit]
)
def test_nothing_stale_is_remembered(change: Change) -> None:
    build = large_build(0.06)
    before = forgotten(build)
    after = inspect_build(change(build), before)
    assert after == forgotten(change(build))
    assert after.build == change(build)
    assert (after.findings != before.findings) == (change is not with_note)
    assert inspect_build(build, after) == before


def test_a_joint_keeps_its_own_writing() -> None:
    """0.5 and 0.50 N m are equal, but a person wrote one of them."""
    build = large_build(0.02)
    number = next(i for i, one in enumerate(build.joints) if one.torque_nm == Decimal("0.5"))
    joints = list(build.joints)
    joints[number] = replace(joints[number], torque_nm=Decimal("0.50"))
    before = inspect_build(build)
    worked = inspect_build(replace(build, joints=tuple(joints)), before)
    told = {str(one.joint.torque_nm) for one in worked.joints if one.joint.mark == joints[number].mark}
    assert told == {"0.50"}
