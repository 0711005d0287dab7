"""The joint while it is being worked: the records that the small files of this folder hand to each other.

Lengths are in millimetres along the axis, from the plane in which the head bears, positive to the point.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from calculators.calculation import Step
from calculators.hardware.fastener import Fastener, Insert, Nut, Washer
from calculators.hardware.threads import Thread
from calculators.hardware.wood_screws import WoodScrew
from calculators.joints.model import JointInput, Layer, LayerHole, Seat, Takes
from calculators.materials import Material

MemberKind = Literal["layer", "washer", "nut", "insert"]
Metal = Literal["", "steel", "plated steel", "stainless", "brass", "bronze", "other"]
"""What an item of hardware is made of, as far as rules care; '' where it is not stated."""


@dataclass(frozen=True, slots=True)
class Missing:
    """A look-up that found nothing: what was looked for, and the sentence that says why."""

    what: str
    says: str
    item: int | None = None


@dataclass(frozen=True, slots=True)
class Screw:
    """The fastener's own sizes, from tables or as measured. `pitch_mm` is None where none is known.

    `raised_mm` is the domed part of a raised countersunk head. `spread_mm` is how wide the head bears:
    across the flats of a hexagon, else the head's diameter.
    """

    major_mm: float
    pitch_mm: float | None
    root_mm: float | None
    metal: Metal
    is_wood: bool
    countersunk: bool
    headless: bool
    thread: Thread | None = None
    wood: WoodScrew | None = None
    head_diameter_mm: float | None = None
    head_height_mm: float | None = None
    head_angle_deg: float | None = None
    across_flats_mm: float | None = None
    raised_mm: float = 0.0
    head_source: str = ""

    @property
    def spread_mm(self) -> float | None:
        """How wide the head bears [mm]."""
        return self.across_flats_mm or self.head_diameter_mm


@dataclass(frozen=True, slots=True)
class Member:
    """One member of the stack where it lies: enters at `enter_mm`, leaves at `leave_mm`.

    `number` counts the layers from 0 (-1 for what is no layer). `inside_mm`, `outside_mm` are a washer's
    or an insert's; `body_mm` an insert's under its thread; `flats_mm` a nut's.
    """

    item: int
    kind: MemberKind
    enter_mm: float
    leave_mm: float
    layer: Layer | None = None
    number: int = -1
    takes: Takes = ""
    material: Material | None = None
    metal: Metal = ""
    washer: Washer | None = None
    nut: Nut | None = None
    insert: Insert | None = None
    inside_mm: float | None = None
    outside_mm: float | None = None
    body_mm: float | None = None
    flats_mm: float | None = None
    counterbore_mm: float = 0.0

    @property
    def bears_mm(self) -> float:
        """The thickness that is left to bear, without a counterbore [mm]."""
        return self.leave_mm - self.enter_mm

    @property
    def part(self) -> str:
        """The part's mark, or what the item is."""
        return self.layer.part if self.layer is not None else self.kind

    @property
    def path(self) -> str:
        """Where it stands in the joint, as mends name it."""
        return f"stack[{self.item}].{self.kind}"

    @property
    def is_wood(self) -> bool:
        """Whether it is a layer of wood or of a wooden sheet."""
        return self.material is not None and self.material.is_wood

    @property
    def is_hardwood(self) -> bool:
        """Whether it is a layer of hardwood."""
        return self.material is not None and self.material.kind == "hardwood"


@dataclass(frozen=True, slots=True)
class Bite:
    """A thread that the screw runs in: from `enter_mm` to `leave_mm`, of which `engaged_mm` is filled.

    `kind` says what it is cut in; `blind` that it ends inside its part; `tap_room_mm` what a blind hole
    has beyond its full thread.
    """

    member: Member
    kind: Literal["tapped", "insert", "nut", "wood"]
    enter_mm: float
    leave_mm: float
    blind: bool
    engaged_mm: float = 0.0
    thread: Thread | None = None
    thread_text: str = ""
    from_behind: bool = False

    @property
    def depth_mm(self) -> float:
        """The length of full thread [mm]."""
        return self.leave_mm - self.enter_mm


@dataclass(frozen=True)
class Stack:
    """The stack laid out along the axis, before the screw's length is known."""

    members: tuple[Member, ...]
    bites: tuple[Bite, ...]
    seat: Seat | Literal[""]
    head_below_mm: float
    starts_mm: float
    """Where the screw's own length begins: its underside, its countersunk top, or its headless tail."""

    @cached_property
    def layers(self) -> tuple[Member, ...]:
        """The layers alone; every rule asks for them."""
        return tuple(member for member in self.members if member.kind == "layer")


@dataclass(frozen=True, slots=True)
class Range:
    """The length that a joint needs, and the sentence that says from what."""

    least_mm: float
    most_mm: float
    formula: str
    numbers: str
    best_mm: float | None = None
    """The length from which more gains nothing (wood screws: full strength sideways)."""


@dataclass(frozen=True, slots=True)
class Pressure:
    """The pressure of a head, nut or washer on a layer; None where it cannot be told."""

    member: Member
    bearer: str
    """What bears: `head`, `nut`, `washer under the head`, `washer under the nut`."""

    washer: Member | None
    outside_mm: float | None
    opening_mm: float
    area_mm2: float | None
    mpa: float | None
    spread_mm: float | None


@dataclass(frozen=True, slots=True)
class Worked:
    """Everything that the rules look at."""

    joint: JointInput
    fastener: Fastener
    screw: Screw
    stack: Stack
    length_mm: float
    tip_mm: float
    plain_mm: float | None
    needed: Range | None
    stock_mm: tuple[float, ...]
    stock_known: bool
    fits: bool
    bites: tuple[Bite, ...]
    holes: tuple[LayerHole, ...]
    pressures: tuple[Pressure, ...]
    preload_n: float | None
    limits: Mapping[str, float]
    missing: tuple[Missing, ...]
    steps: tuple[Step, ...] = ()

    @property
    def layers(self) -> tuple[Member, ...]:
        """The layers alone."""
        return self.stack.layers

    @property
    def point_piece(self) -> Member | None:
        """The piece that a wood screw's point holds in, or None for another screw."""
        wood = [bite.member for bite in self.bites if bite.kind == "wood"]
        return wood[-1] if wood else None

    def hole(self, member: Member) -> LayerHole:
        """The hole in a layer."""
        return self.holes[member.number]
