"""A joint as plain numbers: what goes in (`JointInput`) and what is worked out (`JointResult`).

Every length in this file is in millimetres, every angle in degrees.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from calculators.calculation import Step
from calculators.hardware.fastener import Fastener, Insert, Nut, Washer

Severity = Literal["error", "warning", "note", "unchecked"]
Takes = Literal["", "clearance", "thread", "pilot", "insert", "plain"]
"""What a layer's hole is for: it lets the screw pass, is tapped, takes the wood thread, takes an insert."""

HoleKind = Literal["clearance", "tapping", "pilot", "insert", "plain", "slot", "reamed"]
Fit = Literal["close", "medium", "free"]
Seat = Literal["surface", "flush", "counterbore", "proud"]
"""How the head sits: on the surface; flush in a countersink; sunk in a counterbore; proud is accepted."""


@dataclass(frozen=True, slots=True)
class HoleOverride:
    """What a person has decided about a layer's hole; None or '' leaves it to the rules."""

    kind: HoleKind | Literal[""] = ""
    diameter_mm: float | None = None
    depth_mm: float | None = None
    slot_length_mm: float | None = None
    slot_along: Literal["", "u", "v"] = ""
    countersink_angle_deg: float | None = None
    countersink_diameter_mm: float | None = None
    counterbore_diameter_mm: float | None = None
    counterbore_depth_mm: float | None = None
    pilot: bool = True
    """False states that no pilot is drilled."""


@dataclass(frozen=True, slots=True)
class Layer:
    """One part that the fastener goes through or into.

    `thickness_mm` is the material along the axis. For a layer that takes the thread, `thread` is the
    designation that it is tapped with ('' means the fastener's own), `thread_depth_mm` the full thread
    (None: right through), `drilled_depth_mm` the blind hole (None: right through, or as the rules give).
    `grain` says how the axis lies to the wood: across it (`side`) or into the `end`. `edge_mm`, `end_mm`
    and `side_mm` are distances from the axis to the nearest edge across the grain, to the nearest end, and
    to the nearest edge of a metal part; None where nothing is known.
    """

    part: str
    material: str
    thickness_mm: float
    takes: Takes = ""
    fit: Fit = "medium"
    thread: str = ""
    thread_depth_mm: float | None = None
    drilled_depth_mm: float | None = None
    grain: Literal["", "side", "end"] = ""
    hole: HoleOverride = field(default_factory=HoleOverride)
    edge_mm: float | None = None
    end_mm: float | None = None
    side_mm: float | None = None
    gap_mm: float = 0.0
    """Air between this layer and the one before it on the axis."""


@dataclass(frozen=True, slots=True)
class MeasuredHead:
    """Sizes of this very item as measured, which override the tables and say so."""

    diameter_mm: float | None = None
    height_mm: float | None = None
    angle_deg: float | None = None
    across_flats_mm: float | None = None


@dataclass(frozen=True, slots=True)
class MeasuredItem:
    """A measured nut height or washer size that overrides the tables."""

    thickness_mm: float | None = None
    outside_mm: float | None = None
    inside_mm: float | None = None
    body_mm: float | None = None


@dataclass(frozen=True, slots=True)
class StackItem:
    """One member of a stack from the head side: a layer, or a washer, nut or insert that is no part."""

    layer: Layer | None = None
    washer: Washer | None = None
    nut: Nut | None = None
    insert: Insert | None = None
    measured: MeasuredItem | None = None


@dataclass(frozen=True, slots=True)
class JointInput:
    """A fastener on an axis with its stack from the head side, and what is asked of it.

    `fastener.length` None asks for a stock length to be found. `stands_mm` is for a grub screw, stud or
    stop screw: how far its head end (or the tail of a headless one) stands out of the first layer
    (negative: below it); None means that it is clamped (headed) or flush (headless).
    """

    mark: str
    fastener: Fastener
    stack: tuple[StackItem, ...]
    seat: Seat | Literal[""] = ""
    measured_head: MeasuredHead = field(default_factory=MeasuredHead)
    wood_screw_head_angle_deg: float | None = None
    torque_nm: float | None = None
    nut_factor: float = 0.2
    clamps: bool = True
    """False for a stop, levelling, grub or thumb screw that pulls nothing together."""
    stands_mm: float | None = None
    steel_first: bool = False
    """A steel screw is driven before the brass one."""
    wet: bool = False
    """The joint lives outdoors or in the damp."""
    loaded_sideways: bool = False
    lock: str = ""
    drills: tuple[str, ...] = ()
    """Drills owned, as people write sets (`1.0-13.0 by 0.5`); empty: any standard drill."""
    tapping_percent: float | None = None
    limits: tuple[tuple[str, float], ...] = ()
    """Limits that replace the defaults of the rules, by the limit's name."""


@dataclass(frozen=True, slots=True)
class Mend:
    """What would mend a finding: a sentence, and the change as field and value (a path in the joint)."""

    says: str
    field: str = ""
    value: str = ""


@dataclass(frozen=True, slots=True)
class Spot:
    """A place to be drawn in red on a face of a part: a ring of `radius_mm` about (u, v).

    On a round part's `side`, v is the angle [deg]. With `to_u_mm` and `to_v_mm` a line goes from there.
    """

    part: str
    face: Literal["top", "bottom", "front", "back", "left", "right", "side"]
    u_mm: float
    v_mm: float
    radius_mm: float = 3.0
    to_u_mm: float | None = None
    to_v_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """What is wrong, where, by how much, by which rule with its source, and what would mend it.

    `value` and `limit` are in `unit` (mm, D, deg, %, MPa, threads ...); None where the rule has no number.
    `joint`, `part` and `place` locate it; `place` is the id of one place, '' for the whole joint. `at` is
    the path of the field in the build file (`components[P01].holes[h1].depth`), `spots` where it is drawn.
    `version` is the rule's: it rises when the rule's meaning changes.
    """

    rule: str
    severity: Severity
    says: str
    source: str
    joint: str = ""
    part: str = ""
    place: str = ""
    value: float | None = None
    limit: float | None = None
    unit: str = ""
    mends: tuple[Mend, ...] = ()
    at: str = ""
    spots: tuple[Spot, ...] = ()
    version: int = 1

    @property
    def where(self) -> str:
        """The place in words, such as `F03 in P10`, `F01 in P02 at 2`, `drill 8.2 mm`."""
        words = self.joint
        if self.part:
            words = f"{words} in {self.part}" if words else self.part
        return f"{words} at {self.place}" if words and self.place else words or self.place


@dataclass(frozen=True, slots=True)
class LayerHole:
    """The hole that one layer needs: kind, diameter, the drill by name, depth, countersink, counterbore.

    `depth_mm` None is right through; a blind depth is to the drill's shoulder, `point_mm` the cone beyond
    it. `left_mm` is what is left under the countersink's cone or behind the blind hole's point. `from_behind`
    says that it is drilled from the face where the axis leaves: the first part that a stud stands in.
    """

    part: str
    layer: int
    kind: HoleKind
    diameter_mm: float
    drill: str
    depth_mm: float | None = None
    point_mm: float = 0.0
    thread: str = ""
    thread_depth_mm: float | None = None
    thread_percent: float | None = None
    slot_length_mm: float | None = None
    slot_along: Literal["", "u", "v"] = ""
    countersink_angle_deg: float | None = None
    countersink_diameter_mm: float | None = None
    countersink_depth_mm: float | None = None
    counterbore_diameter_mm: float | None = None
    counterbore_depth_mm: float | None = None
    left_mm: float | None = None
    basis: str = ""
    from_behind: bool = False


@dataclass(frozen=True, slots=True)
class Extent:
    """Where a member of the stack lies along the axis, from the head's bearing plane [mm]."""

    item: int
    enter_mm: float
    leave_mm: float


@dataclass(frozen=True, slots=True)
class JointResult:
    """All that follows from a joint; a quantity that does not apply to its kind is None.

    Distances along the axis run from the plane in which the head bears (for a countersunk head: from the
    surface it is flush with), positive towards the point; `tip_mm` is where the point ends.
    """

    joint: JointInput
    fastener: Fastener
    """The fastener with the length chosen, where it was to be found."""
    major_mm: float
    head_diameter_mm: float | None
    head_height_mm: float | None
    head_angle_deg: float | None
    across_flats_mm: float | None
    head_below_mm: float
    """How far the top of the head lies below the first surface (negative: stands proud)."""
    extents: tuple[Extent, ...]
    tip_mm: float
    plain_shank_mm: float
    length_needed_mm: tuple[float, float] | None
    stock_lengths_mm: tuple[float, ...]
    """Stock lengths within what is needed, shortest first."""
    holes: tuple[LayerHole, ...]
    engagement_mm: float | None = None
    engagement_d: float | None = None
    penetration_mm: float | None = None
    penetration_d: float | None = None
    behind_point_mm: float | None = None
    protrusion_mm: float | None = None
    protrusion_threads: float | None = None
    washer_pressure_mpa: float | None = None
    preload_n: float | None = None
    findings: tuple[Finding, ...] = ()
    working: tuple[Step, ...] = ()
    sources: tuple[str, ...] = ()
