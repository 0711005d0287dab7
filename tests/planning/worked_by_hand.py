"""A worked build put together by hand, so that the schedules are tested without what works joints out."""

from __future__ import annotations

from calculators.hardware.designation import read_hardware
from calculators.hardware.fastener import Fastener, Insert, Nut, Washer
from calculators.joints.model import JointInput, JointResult, Layer, LayerHole, StackItem
from calculators.planning.model import Build, Component, Joint
from calculators.planning.worked import WorkedBuild, WorkedHole, WorkedJoint


def layer_hole(part: str, kind: str, diameter_mm: float, drill: str = "", **more: object) -> LayerHole:
    return LayerHole(part, more.pop("layer", 0), kind, diameter_mm, drill, **more)


def worked_joint(
    mark: str,
    line: str,
    count: int,
    holes: tuple[LayerHole, ...] = (),
    items: tuple[str, ...] = (),
    torque_nm: float | None = None,
    layers: tuple[Layer, ...] = (),
    **more: object,
) -> WorkedJoint:
    fastener = read_hardware(line)
    assert isinstance(fastener, Fastener)
    stack = [StackItem(layer=layer) for layer in layers]
    for item in map(read_hardware, items):
        stack.append(
            StackItem(
                washer=item if isinstance(item, Washer) else None,
                nut=item if isinstance(item, Nut) else None,
                insert=item if isinstance(item, Insert) else None,
            )
        )
    inputs = JointInput(mark, fastener, tuple(stack), torque_nm=torque_nm)
    result = JointResult(inputs, fastener, 5.0, None, None, None, None, 0.0, (), 20.0, 0.0, None, (), holes)
    return WorkedJoint(Joint(mark, mark, line, **more), count, (), inputs, result)


def worked_build(
    *joints: WorkedJoint, components: tuple[Component, ...] = (), holes: tuple[WorkedHole, ...] = ()
) -> WorkedBuild:
    marks = {one.joint.mark: one.joint for one in joints}
    return WorkedBuild(Build("B1", "Box", components=components, joints=tuple(marks.values())), joints, holes)
