"""The build as plain data: what people decide, nothing that can be worked out.

All records are frozen. Marks (P11, F03) are unique in a build. Lengths are exact and remembered as
written; everything else that has a unit says it in its name.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from typing import Literal

from calculators.quantities.length import Length

Unit = Literal["mm", "in"]
Face = Literal["top", "bottom", "front", "back", "left", "right", "side"]
StockForm = Literal["board", "sheet", "bar", "tube", "turned", "bought"]
State = Literal["planned", "released", "made", "fitted", "bought", "in hand"]
"""`bought` (on order) and `in hand` are for what is not made here."""

Shape = Literal["", "block", "round"]
Hand = Literal["same", "other"]
GrainCut = Literal["", "flat", "quarter"]
BuildState = Literal["quoted", "planning", "making", "setting up", "done"]


@dataclass(frozen=True, slots=True)
class Size:
    """Finished sizes: block (length along the grain, width, thickness) or round (length, diameter, bore)."""

    shape: Shape = ""
    length: Length | None = None
    width: Length | None = None
    thickness: Length | None = None
    diameter: Length | None = None
    bore: Length | None = None


@dataclass(frozen=True, slots=True)
class Pose:
    """Where one copy lies; the meaning of each field is that of `calculators.geometry.model.Pose`."""

    copy: int = 1
    on: str = ""
    face: Face = "top"
    u: Length = field(default_factory=lambda: Length(0))
    v: Length = field(default_factory=lambda: Length(0))
    angle_deg: Decimal = Decimal(0)
    turned_deg: Decimal = Decimal(0)
    let_in: Length = field(default_factory=lambda: Length(0))
    own_face: Face = "bottom"
    point: Literal["corner", "centre"] = "corner"
    hand: Hand = "same"


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole that a person places directly in a part (a joint's holes are worked out, not stored)."""

    id: str
    face: Face
    u: Length
    v: Length | None = None
    angle_deg: Decimal | None = None
    kind: Literal["clearance", "pilot", "tapping", "plain", "reamed", "insert", "slot", "spot"] = "plain"
    diameter: Length | None = None
    depth: Length | None = None
    thread: str = ""
    thread_depth: Length | None = None
    countersink_diameter: Length | None = None
    countersink_angle_deg: Decimal | None = None
    counterbore_diameter: Length | None = None
    counterbore_depth: Length | None = None
    slot_length: Length | None = None
    slot_along: Literal["", "u", "v"] = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Pocket:
    """A rebate, slot or recess from the corner (u, v), its length along u and width along v of its face."""

    id: str
    face: Face
    u: Length
    v: Length
    length: Length
    width: Length
    depth: Length | None = None
    corner_radius: Length | None = None
    cutter: Length | None = None
    squared: bool = False
    angle_deg: Decimal | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Component:
    """A part or sub-assembly.

    `parent` is the mark of the sub-assembly it belongs to, `quantity` counts within it.
    """

    mark: str
    name: str
    parent: str = ""
    quantity: int = 1
    material: str = ""
    stock: StockForm | Literal[""] = ""
    size: Size = field(default_factory=Size)
    made_size: Size | None = None
    rough: Size | None = None
    grain_cut: GrainCut = ""
    corner_radius: Length | None = None
    state: State = "planned"
    revision: str = ""
    poses: tuple[Pose, ...] = ()
    holes: tuple[Hole, ...] = ()
    pockets: tuple[Pocket, ...] = ()
    reused: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True)
class Place:
    """One place of a joint on its home's face; `angle_deg` instead of v on a round part's side."""

    id: str
    u: Length
    v: Length | None = None
    angle_deg: Decimal | None = None


@dataclass(frozen=True, slots=True)
class LayerHole:
    """What a person has decided about the hole in one layer, everywhere or at the places named, and why."""

    places: tuple[str, ...] = ()
    kind: Literal["", "clearance", "tapping", "pilot", "insert", "plain", "slot", "reamed"] = ""
    diameter: Length | None = None
    depth: Length | None = None
    slot_length: Length | None = None
    slot_along: Literal["", "u", "v"] = ""
    countersink_diameter: Length | None = None
    countersink_angle_deg: Decimal | None = None
    counterbore_diameter: Length | None = None
    counterbore_depth: Length | None = None
    pilot: bool = True
    reason: str = ""


@dataclass(frozen=True, slots=True)
class StackMember:
    """One member of a joint's stack, from the head side.

    Exactly one of `part` (a component's mark) and `item` (a washer, nut or insert as the trade writes it)
    is given. `thickness` is typed for a part while there is no pose, and for an item that was measured.
    """

    part: str = ""
    item: str = ""
    thickness: Length | None = None
    outside: Length | None = None
    body: Length | None = None
    takes: Literal["", "clearance", "thread", "pilot", "insert", "plain"] = ""
    fit: Literal["close", "medium", "free"] = "medium"
    thread: str = ""
    thread_depth: Length | None = None
    drilled_depth: Length | None = None
    grain: Literal["", "side", "end"] = ""
    edge: Length | None = None
    end: Length | None = None
    holes: tuple[LayerHole, ...] = ()


@dataclass(frozen=True, slots=True)
class Joint:
    """What holds parts together: places on one face of its home, a fastener as the trade writes it, a stack.

    `home` is a component's mark (each copy has the joint) or a copy's name (`P02.1`). The count is places
    times copies of the home, unless `count` is given with `count_reason`. Where the parts have poses the
    layers are found along each place's axis and a stack member of a part adds what was decided about it;
    where they have none, the stack's typed thicknesses stand.
    """

    mark: str
    title: str
    fastener: str
    home: str = ""
    face: Face | Literal[""] = ""
    places: tuple[Place, ...] = ()
    stack: tuple[StackMember, ...] = ()
    seat: Literal["", "surface", "flush", "counterbore", "proud"] = ""
    head_diameter: Length | None = None
    head_height: Length | None = None
    head_angle_deg: Decimal | None = None
    torque_nm: Decimal | None = None
    clamps: bool = True
    stands: Length | None = None
    steel_first: bool = False
    wet: bool = False
    loaded_sideways: bool = False
    lock: str = ""
    fixed_place: str = ""
    """The place held tight when the wood moves; the others slide. '' is the middle one."""
    reached_from: str = ""
    tool: str = ""
    count: int | None = None
    count_reason: str = ""
    supplier: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class AssemblyStep:
    """One step of assembly: what goes on (marks of components, joints), what it closes, with what care."""

    number: int
    title: str
    fits: tuple[str, ...] = ()
    closes: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()
    caution: str = ""
    check: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Photograph:
    """A photograph of an entry. `digest` is the SHA-256 of its file, a JPEG of `width` x `height` pixels."""

    id: str
    digest: str
    width: int
    height: int
    caption: str = ""


@dataclass(frozen=True, slots=True)
class Entry:
    """A dated journal entry: text (Markdown), hours, the marks named, what was decided, what comes next."""

    id: str
    date: date
    text: str
    hours: Decimal | None = None
    marks: tuple[str, ...] = ()
    decision: str = ""
    next_time: str = ""
    photographs: tuple[Photograph, ...] = ()


@dataclass(frozen=True, slots=True)
class ResultLimit:
    """What a result of a kept calculation may come to: `at most` or `at least` a value, as it is written."""

    result: str
    bound: Literal["at most", "at least"]
    value: str


@dataclass(frozen=True, slots=True)
class Calculation:
    """A calculation that is kept with the build: a calculator with its inputs, what they hang on, its limits.

    `inputs` are texts as people write them, by name. `ties` name for an input (`wire`, or a row's member,
    `springs[0].x`) a size of the build (`P03 thickness`, `P03 hole h1 depth`, `F03 engagement`). What stands
    in a tied input is the size as it was when somebody last looked: where the build's is another now, the
    calculation asks to be looked at.
    """

    mark: str
    title: str
    calculator: str
    inputs: tuple[tuple[str, str], ...] = ()
    ties: tuple[tuple[str, str], ...] = ()
    limits: tuple[ResultLimit, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Context:
    """What findings depend on besides the build: tools owned, house rules, limits, table editions.

    `limits` replaces default limits of rules by name. `editions` pins the tables the build was planned
    with, by table name. `moisture_change_percent` is the swing in moisture content to plan for.
    """

    drills: tuple[str, ...] = ()
    taps: tuple[str, ...] = ()
    cutters: tuple[str, ...] = ()
    wood_screw_series: Literal["inch-us", "inch-british", "metric"] = "inch-us"
    wood_screw_head_angle_deg: Decimal | None = None
    tapping_percent: Decimal | None = None
    moisture_change_percent: Decimal | None = None
    limits: tuple[tuple[str, Decimal], ...] = ()
    currency: str = "GBP"
    zone: str = "Europe/London"
    editions: tuple[tuple[str, str], ...] = ()
    as_of: date | None = None


@dataclass(frozen=True, slots=True)
class Build:
    """One thing being made, whole."""

    number: str
    title: str
    purpose: str = ""
    unit: Unit = "mm"
    workshop: str = ""
    client: str = ""
    due: date | None = None
    state: BuildState = "planning"
    revision: str = ""
    issued: date | None = None
    drawn_by: str = ""
    context: Context = field(default_factory=Context)
    components: tuple[Component, ...] = ()
    joints: tuple[Joint, ...] = ()
    steps: tuple[AssemblyStep, ...] = ()
    entries: tuple[Entry, ...] = ()
    calculations: tuple[Calculation, ...] = ()
