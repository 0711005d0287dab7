"""However strange the joint, it is worked out or refused with sentences; every number is finite."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from math import isfinite
from typing import Any

from hypothesis import HealthCheck, Phase, given, settings

from calculators.joints import JointInput, JointResult, work_joint
from calculators.joints.mending import apply_mend
from calculators.quantities.errors import InputError
from tests.joints.strange_joints import joints, joints_of

QUICK = settings(
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
    # shrinking a joint takes minutes; the example as found says enough
    phases=[Phase.explicit, Phase.reuse, Phase.generate],
)


def numbers(thing: Any, path: str = "") -> list[tuple[str, float]]:
    if isinstance(thing, bool):
        return []
    if isinstance(thing, int | float):
        return [(path, float(thing))]
    if isinstance(thing, tuple):
        return [found for place, each in enumerate(thing) for found in numbers(each, f"{path}[{place}]")]
    if is_dataclass(thing):
        return [
            f for each in fields(thing) for f in numbers(getattr(thing, each.name), f"{path}.{each.name}")
        ]
    return []


def worked(joint: JointInput) -> JointResult | InputError:
    try:
        return work_joint(joint)
    except InputError as error:
        return error


@settings(QUICK, max_examples=400)
@given(joints)
def test_any_joint_is_worked_or_refused(joint: JointInput) -> None:
    result = worked(joint)
    if isinstance(result, InputError):
        assert [fault for fault in result.faults if not fault.field or not fault.says.endswith(".")] == []
    else:
        assert [path for path, value in numbers(result) if not isfinite(value)] == []
        assert [finding for finding in result.findings if not finding.says or not finding.source] == []


@settings(QUICK, max_examples=150)
@given(joints_of("machine", False) | joints_of("wood", False))
def test_every_mend_can_be_carried_out(joint: JointInput) -> None:
    result = worked(joint)
    for finding in () if isinstance(result, InputError) else result.findings:
        for mend in finding.mends:
            assert mend.says.endswith(".")
            changed = apply_mend(joint, mend)
            assert (changed == joint) == (not mend.field), mend


@settings(QUICK, max_examples=150)
@given(joints_of("machine", False) | joints_of("wood", False))
def test_lengths_and_places_agree(joint: JointInput) -> None:
    result = worked(joint)
    if isinstance(result, InputError):
        return
    if result.length_needed_mm is not None:
        least, most = result.length_needed_mm
        assert 0 <= least <= most
        assert all(least - 0.006 <= length <= most + 0.006 for length in result.stock_lengths_mm)
    layers = [item.layer for item in joint.stack if item.layer is not None]
    assert [hole.part for hole in result.holes] == [layer.part for layer in layers]
    assert len(result.extents) == len(joint.stack)
    assert all(extent.enter_mm <= extent.leave_mm for extent in result.extents)
    assert all(hole.diameter_mm > 0 for hole in result.holes)
    assert [step.line for step in result.working if not step.symbol] == []
