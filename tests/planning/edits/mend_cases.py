"""Joints that each break one rule whose mend can be carried out, in parts of known materials and sizes."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

from calculators.planning.model import (
    AssemblyStep,
    Build,
    Component,
    Context,
    Joint,
    LayerHole,
    Place,
    Pose,
    Size,
    StackMember,
)
from calculators.quantities.length import Length


def mm(value: float) -> Length:
    return Length.of_mm(Decimal(str(value)))


def block(length: float, width: float, thickness: float) -> Size:
    return Size("block", mm(length), mm(width), mm(thickness))


PARTS = tuple(
    Component(mark, material, material=material, stock="bar")
    for mark, material in (
        ("O1", "oak"), ("O2", "oak"), ("S1", "Scots pine"), ("S2", "Scots pine"), ("M1", "brass"),
        ("M2", "brass"), ("T1", "mild steel"), ("T2", "mild steel"), ("I1", "stainless steel"),
        ("B1", "beech"),
    )
)  # fmt: skip


def part(mark: str, thickness: float, *holes: LayerHole, **more: Any) -> StackMember:
    return StackMember(part=mark, thickness=mm(thickness), holes=holes, **more)


def item(text: str, **more: Any) -> StackMember:
    return StackMember(item=text, **more)


def joint(fastener: str, *stack: StackMember, **more: Any) -> Build:
    return Build("B1", "Case", components=PARTS, joints=(Joint("F1", "Case", fastener, stack=stack, **more),))


def hole(**fields: Any) -> LayerHole:
    return LayerHole(
        **{name: mm(value) if isinstance(value, float) else value for name, value in fields.items()}
    )


INSERT = {"thickness": mm(12), "outside": mm(10), "body": mm(7)}

TYPED: dict[str, Build] = {
    "thread-match": joint(
        "M5 x 12 pan steel", part("T1", 3), part("T2", 45, thread="10-32 UNF", thread_depth=mm(8))
    ),
    "stainless-pair": joint(
        "M5 x 16 socket cap stainless A2", part("I1", 5), part("I1", 20, takes="thread"), lock="screw lock"
    ),
    "metal-in-wood": joint("No. 8 x 1 1/2 csk steel", part("O1", 12), part("O2", 40)),
    "no-stock-length": joint("M5 hex steel", part("T1", 30), item("M5 full nut")),
    "head-against-countersink": joint(
        "No. 8 x 1 1/4 csk brass",
        part("M1", 2.5, hole(countersink_diameter=6.0)),
        part("O1", 40),
        steel_first=True,
    ),
    "countersink-angle": joint(
        "M5 x 20 csk steel",
        part("T1", 5, hole(countersink_angle_deg=Decimal(82))),
        part("T2", 30, takes="thread"),
    ),
    "counterbore": joint(
        "M5 x 30 socket cap steel",
        part("T1", 20, hole(counterbore_depth=3.0)),
        part("T2", 30, takes="thread"),
        seat="counterbore",
    ),
    "counterbore width": joint(
        "M5 x 30 socket cap steel",
        part("T1", 20, hole(counterbore_depth=6.0, counterbore_diameter=8.6)),
        part("T2", 30, takes="thread"),
        seat="counterbore",
    ),
    "head-proud": joint(
        "M5 x 30 socket cap steel",
        part("T1", 20, hole(counterbore_depth=3.0)),
        part("T2", 30, takes="thread"),
        seat="flush",
    ),
    "insert-hole": joint(
        "M5 x 25 pan steel",
        part("O1", 15),
        part("O2", 30, hole(diameter=6.5), takes="insert"),
        item("M5 insert", **INSERT),
    ),
    "insert-edge": joint(
        "M5 x 25 pan brass",
        part("O1", 15),
        part("O2", 30, takes="insert", edge=mm(8)),
        item("M5 insert", **INSERT),
    ),
    "engagement": joint("M5 x 8 pan steel", part("T1", 3), part("M2", 20, takes="thread")),
    "screw-bottoms": joint(
        "M5 x 30 pan steel", part("T1", 5), part("T2", 30, takes="thread", thread_depth=mm(12))
    ),
    "blind-hole-breaks-out": joint(
        "M5 x 12 pan steel",
        part("T1", 3),
        part("T2", 20, takes="thread", thread_depth=mm(10), drilled_depth=mm(19)),
    ),
    "blind-hole-breaks-out decided": joint(
        "M5 x 12 pan steel",
        part("T1", 3),
        part("T2", 20, hole(depth=19.0), takes="thread", thread_depth=mm(10)),
    ),
    "tapping-hole": joint(
        "M5 x 16 pan steel", part("T1", 5), part("T2", 20, hole(diameter=4.7), takes="thread")
    ),
    "clearance-hole": joint(
        "M5 x 16 pan steel", part("T1", 5, hole(diameter=4.8)), part("T2", 20, takes="thread")
    ),
    "lock": joint("M5 x 16 pan steel", part("T1", 5), part("T2", 20, takes="thread")),
    "threads-past-nut": joint("M5 x 50 hex steel", part("T1", 20), item("M5 full nut")),
    "washer-pressure torque unknown": joint(
        "M6 x 60 hex bolt brass", item("M6 washer"), part("S1", 40), item("M6 washer"), item("M6 full nut")
    ),
    "washer-pressure": joint(
        "M6 x 60 hex bolt brass",
        item("M6 washer"),
        part("S1", 40),
        item("M6 washer"),
        item("M6 full nut"),
        torque_nm=Decimal(9),
    ),
    "washer-pressure wider": joint(
        "M6 x 60 hex bolt brass",
        item("M6 washer", thickness=mm(1.5)),
        part("B1", 40),
        item("M6 repair washer"),
        item("M6 full nut"),
        torque_nm=Decimal("1.8"),
    ),
    "washer-thickness": joint(
        "M6 x 60 hex bolt brass",
        item("M6 washer 40 x 0.5"),
        part("S1", 40),
        item("M6 repair washer"),
        item("M6 full nut"),
    ),
    "penetration": joint("No. 8 x 3/4 csk brass", part("O1", 12), part("O2", 40), steel_first=True),
    "wood-behind-point": joint("No. 8 x 2 csk brass", part("O1", 12), part("O2", 30), steel_first=True),
    "pilot-hole": joint(
        "No. 8 x 1 1/2 csk brass", part("O1", 12), part("O2", 40, hole(diameter=1.5)), steel_first=True
    ),
    "pilot-hole none": joint(
        "No. 8 x 1 1/2 csk brass", part("O1", 12), part("O2", 40, hole(pilot=False)), steel_first=True
    ),
    "pilot-hole coach": joint(
        "M8 x 60 coach screw steel", part("S1", 12), part("S2", 80, hole(diameter=7.8)), steel_first=True
    ),
    "shank-hole": joint(
        "No. 8 x 1 1/2 csk brass", part("O1", 12, hole(diameter=4.0)), part("O2", 40), steel_first=True
    ),
    "shank-hole bites": joint(
        "No. 8 x 1 1/2 csk brass", part("O1", 12, takes="pilot"), part("O2", 40), steel_first=True
    ),
    "soft-screw-in-hardwood": joint("No. 8 x 1 1/2 csk brass", part("O1", 12), part("O2", 40)),
    "end-distance": joint(
        "No. 8 x 1 1/2 csk brass", part("S1", 12, end=mm(15)), part("S2", 40), steel_first=True
    ),
    "edge-distance": joint(
        "No. 8 x 1 1/2 csk brass", part("S1", 12, edge=mm(7)), part("S2", 40), steel_first=True
    ),
}
"""Joints whose parts have no poses; the key begins with the name of the rule."""

BASE = Component("P1", "Base", material="oak", size=block(400, 260, 28), poses=(Pose(),))
RAIL = Component(
    "P2",
    "Rail",
    material="oak",
    size=block(220, 40, 22),
    poses=(Pose(on="P1", u=mm(100), v=mm(20), turned_deg=Decimal(90)),),
)
PLATE = Component(
    "P3", "Plate", material="brass", size=block(60, 40, 2), poses=(Pose(on="P2", u=mm(20), v=mm(0)),)
)
SCREW = Joint(
    "F1",
    "Rail to base",
    "No. 8 x 1 1/2 csk slotted brass wood screw",
    home="P2",
    face="top",
    places=(Place("1", mm(110), mm(20)),),
    stack=(StackMember(part="P2"), StackMember(part="P1")),
    steel_first=True,
)


def placed(changed: Joint, *parts: Component, **more: Any) -> Build:
    return Build("B2", "Placed", components=parts or (BASE, RAIL), joints=(changed,), **more)


def at(*spots: tuple[float, float]) -> tuple[Place, ...]:
    return tuple(Place(str(i), mm(u), mm(v)) for i, (u, v) in enumerate(spots, 1))


UNNAMED = replace(SCREW, stack=())
PLACED: dict[str, Build] = {
    "end-distance moved": placed(replace(SCREW, places=at((12, 20), (110, 20), (205, 20)))),
    "edge-distance moved": placed(replace(SCREW, places=at((60, 6), (110, 20), (160, 35)))),
    "edge-distance moved in a corner": placed(
        replace(
            SCREW,
            places=at(
                (9, 6),
            ),
        )
    ),
    "edge-distance unnamed": placed(
        replace(
            UNNAMED,
            places=at(
                (110, 6),
            ),
        )
    ),
    "wood-movement": placed(replace(SCREW, places=at((30, 20), (110, 20), (190, 20)))),
    "wood-movement of two": placed(replace(SCREW, places=at((30, 20), (190, 20)))),
    "wood-movement held at one": placed(
        replace(SCREW, places=at((30, 20), (110, 20), (190, 20)), fixed_place="1")
    ),
    "part-in-the-way": placed(
        replace(
            SCREW,
            home="P3",
            places=at(
                (30, 20),
            ),
            fastener="No. 8 x 1 3/4 csk slotted brass wood screw",
            stack=(StackMember(part="P3"), StackMember(part="P1")),
        ),
        BASE,
        RAIL,
        PLATE,
    ),
    "typed-thickness": placed(
        replace(SCREW, stack=(StackMember(part="P2", thickness=mm(25)), StackMember(part="P1")))
    ),
    "wood-behind-point unnamed": placed(replace(UNNAMED, fastener="No. 8 x 2 csk slotted brass wood screw")),
    "pilot-hole unnamed": placed(UNNAMED, context=Context(drills=("2.0", "4.5"))),
    "clearance at some places": placed(
        replace(
            SCREW,
            places=at((60, 20), (160, 20)),
            stack=(
                StackMember(part="P2", holes=(hole(places=("1",), diameter=4.0), hole(diameter=4.5))),
                StackMember(part="P1"),
            ),
        )
    ),
    "fitted-after-closed": placed(
        SCREW,
        steps=(
            AssemblyStep(2, "Base", fits=("P1", "P2")),
            AssemblyStep(6, "Bottom on", closes=("F1",)),
            AssemblyStep(8, "Screws", fits=("F1",)),
        ),
    ),
    "fitted-after-closed twice": placed(
        SCREW,
        steps=(
            AssemblyStep(6, "Bottom on", fits=("P1",), closes=("F1",)),
            AssemblyStep(7, "Glue", fits=("P2",)),
            AssemblyStep(8, "Screws", fits=("F1",)),
            AssemblyStep(9, "Screws again", fits=("F1",)),
        ),
    ),
}
"""Joints whose parts lie somewhere, and steps of assembly."""
