"""A large build for measuring: frames of boards with posed battens and plates, joints of five thread systems.

At scale 1 it has 500 components, 400 joints and 2,000 holes placed by hand. One frame is a base of oak,
four battens let in across it, four brass plates on it and a turned pillar; frames stand side by side.
"""

from __future__ import annotations

from decimal import Decimal

from calculators.planning.model import (
    AssemblyStep,
    Build,
    Component,
    Context,
    Hole,
    Joint,
    Place,
    Pose,
    Size,
    StackMember,
)
from calculators.quantities import Length, read_length

FRAMES = 50
PARTS_IN_FRAME = 10
JOINTS_IN_FRAME = 8
HOLES_IN_FRAME = 40
BATTEN_SCREWS = "No. 8 x 1 3/4 csk slotted brass wood screw"
PLATE_SCREWS = (
    "M5 x 40 socket cap steel",
    "10-32 UNF x 1 1/2 socket cap steel",
    "2 BA x 1 1/2 cheese brass",
    "1/4 BSF x 1 1/2 hex steel",
)
WASHERS = ("M5 repair washer", "10-32 UNF washer", "2 BA washer", "1/4 BSF washer")
NUTS = ("M5 full nut", "10-32 UNF full nut", "2 BA full nut", "1/4 BSF full nut")


def mm(value: float) -> Length:
    """A length as a person writes it on the bench."""
    return read_length(f"{value:g}")


def inch(text: str) -> Length:
    """A length as a person writes it in inches."""
    return read_length(text)


def large_build(scale: float = 1.0) -> Build:
    """Make a build of round(50 x scale) frames, at least one."""
    frames = max(1, round(FRAMES * scale))
    components: list[Component] = []
    joints: list[Joint] = []
    steps: list[AssemblyStep] = []
    for frame in range(frames):
        parts = frame_parts(frame)
        held = frame_joints(frame)
        components += parts
        joints += held
        fits = tuple(one.mark for one in (*parts, *held))
        steps.append(AssemblyStep(frame + 1, f"Frame {frame + 1}", fits=fits, closes=(held[-1].mark,)))
    return Build(
        "LARGE",
        f"{frames} frames",
        context=Context(drills=("1.0-13.0 by 0.1",), limits=(("edge", Decimal("1.5")),)),
        components=tuple(components),
        joints=tuple(joints),
        steps=tuple(steps),
    )


def mark(letter: str, frame: int, number: int) -> str:
    """The mark of one part or joint of a frame."""
    return f"{letter}{frame:04d}-{number}"


def frame_parts(frame: int) -> list[Component]:
    """The ten parts of one frame, laid on the ground side by side with the others, 40 holes in all."""
    base = mark("P", frame, 0)
    parts = [
        Component(
            base,
            "Base",
            material="oak",
            stock="board",
            size=Size("block", mm(640), mm(260), mm(28)),
            grain_cut="flat",
            poses=(Pose(u=mm(frame % 20 * 700), v=mm(frame // 20 * 300)),),
            holes=tuple(base_hole(i) for i in range(20)),
        )
    ]
    for i in range(4):
        batten = Component(
            mark("P", frame, 1 + i),
            "Batten",
            material="oak",
            stock="board",
            size=Size("block", mm(220), inch("1 1/2 in"), mm(22)),
            poses=(
                Pose(
                    on=base,
                    u=mm(60 + 150 * i),
                    v=mm(20),
                    turned_deg=Decimal(90),
                    face="bottom",
                    own_face="top",
                ),
            ),
            holes=(Hole("a", "front", mm(15), mm(11), kind="plain", diameter=mm(4), depth=mm(10)),),
        )
        plate = Component(
            mark("P", frame, 5 + i),
            "Plate",
            material="brass",
            stock="sheet",
            size=Size("block", mm(90), mm(60), mm(6)),
            poses=(Pose(on=base, u=mm(20 + 150 * i), v=mm(100)),),
            holes=tuple(
                Hole(f"h{k}", "top", mm(15 + 20 * k), mm(30), kind="tapping", thread="M4") for k in range(4)
            ),
        )
        parts += [batten, plate]
    pillar = Component(
        mark("P", frame, 9),
        "Pillar",
        material="brass",
        stock="bar",
        size=Size("round", inch("6 1/2 in"), diameter=inch("3/4 in")),
        poses=(Pose(on=base, u=mm(600), v=mm(200), own_face="left", point="centre"),),
    )
    return sorted([*parts, pillar], key=lambda one: one.mark)


def base_hole(number: int) -> Hole:
    """One of the twenty holes of a base, in two rows along its front edge."""
    u, v = 25 + 60 * (number % 10), 15 + 15 * (number // 10)
    return Hole(f"h{number}", "top", mm(u), mm(v), diameter=mm(5), depth=mm(20), note="for pegs")


def frame_joints(frame: int) -> list[Joint]:
    """Eight joints: each batten screwed on from below at two places, each plate bolted through the base."""
    base = mark("P", frame, 0)
    joints = []
    for i in range(4):
        batten, plate = mark("P", frame, 1 + i), mark("P", frame, 5 + i)
        joints.append(
            Joint(
                mark("F", frame, i),
                "Batten to base",
                BATTEN_SCREWS,
                home=batten,
                face="bottom",
                places=(Place("1", mm(40), mm(19)), Place("2", mm(180), mm(19))),
                stack=(StackMember(part=batten), StackMember(part=base)),
                steel_first=True,
            )
        )
        joints.append(
            Joint(
                mark("F", frame, 4 + i),
                "Plate to base",
                PLATE_SCREWS[i],
                home=plate,
                face="top",
                places=(Place("1", mm(10), mm(10)), Place("2", mm(80), mm(50))),
                stack=(
                    StackMember(part=plate),
                    StackMember(part=base),
                    StackMember(item=WASHERS[i]),
                    StackMember(item=NUTS[i]),
                ),
                torque_nm=Decimal("0.5"),
            )
        )
    return sorted(joints, key=lambda one: one.mark)


def counts(build: Build) -> tuple[int, int, int]:
    """How many components, joints and holes placed by hand a build has."""
    return len(build.components), len(build.joints), sum(len(one.holes) for one in build.components)
