"""Parts and joints of small builds for the tests of what lies where."""

from __future__ import annotations

from calculators.joints.model import Finding
from calculators.planning.inspection import inspect_build
from calculators.planning.model import (
    Build,
    Component,
    Context,
    Hole,
    Joint,
    Place,
    Pocket,
    Pose,
    Size,
    StackMember,
)
from calculators.planning.worked import WorkedBuild
from calculators.quantities.length import Length

GROUND = (Pose(),)


def mm(value: float) -> Length:
    return Length.of_mm(value)


def pose(on: str = "", u: float = 0, v: float = 0, **more: object) -> Pose:
    for name in ("let_in",):
        if name in more:
            more[name] = mm(more[name])  # type: ignore[arg-type]
    return Pose(on=on, u=mm(u), v=mm(v), **more)  # type: ignore[arg-type]


def block(
    mark: str, length: float, width: float, thickness: float, *poses: Pose, **more: object
) -> Component:
    size = Size("block", mm(length), mm(width), mm(thickness))
    more.setdefault("material", "beech")
    return Component(mark, f"Part {mark}", size=size, poses=poses, quantity=max(len(poses), 1), **more)  # type: ignore[arg-type]


def turned(
    mark: str, length: float, diameter: float, *poses: Pose, bore: float = 0, **more: object
) -> Component:
    size = Size("round", mm(length), diameter=mm(diameter), bore=mm(bore) if bore else None)
    more.setdefault("material", "brass")
    return Component(mark, f"Part {mark}", size=size, poses=poses, quantity=max(len(poses), 1), **more)  # type: ignore[arg-type]


def joint(
    mark: str, fastener: str, home: str, face: str, places: list[tuple[float, float]], *stack: str | StackMember,
    **more: object,
) -> Joint:  # fmt: skip
    named = tuple(Place(str(i + 1), mm(u), mm(v)) for i, (u, v) in enumerate(places))
    members = tuple(
        one if isinstance(one, StackMember) else StackMember(part=one) if one[0] == "P" else StackMember(item=one)
        for one in stack
    )  # fmt: skip
    return Joint(mark, f"Joint {mark}", fastener, home, face, named, members, **more)  # type: ignore[arg-type]


def build(*records: Component | Joint, context: Context | None = None) -> Build:
    return Build(
        "B1",
        "Thing",
        context=context or Context(),
        components=tuple(one for one in records if isinstance(one, Component)),
        joints=tuple(one for one in records if isinstance(one, Joint)),
    )


def inspected(*records: Component | Joint, context: Context | None = None) -> WorkedBuild:
    return inspect_build(build(*records, context=context))


def found(rule: str, *records: Component | Joint, context: Context | None = None) -> list[Finding]:
    return [one for one in inspected(*records, context=context).findings if one.rule == rule]


def hole(mark: str, face: str, u: float, v: float, diameter: float, **more: object) -> Hole:
    for name in ("depth",):
        if name in more:
            more[name] = mm(more[name])  # type: ignore[arg-type]
    return Hole(mark, face, mm(u), mm(v), diameter=mm(diameter), **more)  # type: ignore[arg-type]


def pocket(
    mark: str, face: str, u: float, v: float, length: float, width: float, depth: float | None, **more: object
) -> Pocket:  # fmt: skip
    for name in ("cutter", "corner_radius"):
        if name in more:
            more[name] = mm(more[name])  # type: ignore[arg-type]
    deep = None if depth is None else mm(depth)
    return Pocket(mark, face, mm(u), mm(v), mm(length), mm(width), deep, **more)  # type: ignore[arg-type]
