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

Evidence = Literal["", "measured", "scaled", "drawing", "catalogue", "design", "judged", "none"]
"""What a part's sizes rest on; `design` is chosen freely, `judged` a guess, `none` nothing at all."""

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
class Bend:
    """A fold of a sheet part, which is given flat: its line lies `at` from the left end or the front edge.

    `runs` says how the line lies: `across` the length (at X) or `along` it (at Y). `rolling` says how it
    lies to the direction in which the sheet was rolled.
    """

    id: str
    at: Length
    runs: Literal["across", "along"] = "across"
    angle_deg: Decimal = Decimal(90)
    radius: Length | None = None
    rolling: Literal["", "across", "along"] = ""
    annealed: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True)
class Motion:
    """How a part moves in the finished thing, in its own frame from the place where its pose lays it.

    `turns` about, or `slides` along, the own `axis` through the point (x, y, z); from `least` to `most`
    [deg or mm], which hold nought between them. `carries` names the parts that move with it.
    """

    kind: Literal["turns", "slides"]
    axis: Literal["X", "Y", "Z"]
    least: Decimal
    most: Decimal
    x: Length = field(default_factory=lambda: Length(0))
    y: Length = field(default_factory=lambda: Length(0))
    z: Length = field(default_factory=lambda: Length(0))
    carries: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner of a block's outline as seen from its top: X, Y, and how it goes on to the next corner.

    Without a `radius` it goes straight on. With one it goes along an arc that turns `left` or `right`, the
    `long` way where that is more than half a circle. The last corner leads to the first; the outline goes
    round anticlockwise and touches all four sides of the block.
    """

    x: Length
    y: Length
    radius: Length | None = None
    turns: Literal["", "left", "right"] = ""
    long: bool = False


@dataclass(frozen=True, slots=True)
class Component:
    """A part or sub-assembly.

    `parent` is the mark of the sub-assembly it belongs to, `quantity` counts within it. `legs` are the
    outside lengths of a folded part's legs, in order along its length. `from_stock` is the mark of the
    piece on the rack that it is cut from, `made_to` the revision that it was made to. `end_float` is how far
    a shaft's free end may slide, `end_shake` the play that it has between its collars. `outline` is that of
    a block that is not a rectangle as seen from its top, cut square to its faces; without it, the rectangle.
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
    outline: tuple[Corner, ...] = ()
    state: State = "planned"
    revision: str = ""
    poses: tuple[Pose, ...] = ()
    holes: tuple[Hole, ...] = ()
    pockets: tuple[Pocket, ...] = ()
    bends: tuple[Bend, ...] = ()
    legs: tuple[Length, ...] = ()
    motion: Motion | None = None
    end_float: Length | None = None
    end_shake: Length | None = None
    evidence: Evidence = ""
    from_stock: str = ""
    made_to: str = ""
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
    pulled: bool = False
    """It carries a load along its axis, which pulls it out."""
    lock: str = ""
    coating: Length | None = None
    """How thick the plating or paint on its thread is."""
    spotted: bool = False
    """Its holes are spotted through from the first part into the others."""
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
    """One step of assembly: what goes on (marks of components, joints), what it closes, with what care.

    `glued` names the parts that it glues together; the glue stays open for `open_minutes`, a rehearsal took
    `rehearsed_minutes`, and what it glues or finishes has cured after `cure_hours`. `done` is the day.
    """

    number: int
    title: str
    fits: tuple[str, ...] = ()
    closes: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()
    glued: tuple[str, ...] = ()
    open_minutes: Decimal | None = None
    rehearsed_minutes: Decimal | None = None
    cure_hours: Decimal | None = None
    done: date | None = None
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
class Stock:
    """A piece, or `count` like pieces, on the rack: what it is called (`18 mm ply`) and its true sizes.

    `measured` says that its sizes were taken from the piece, not from its name. A board or sheet has its
    length along the grain, a width and a thickness; a bar or tube a length and a diameter, or a width and a
    thickness.
    """

    mark: str
    called: str
    material: str = ""
    form: StockForm | Literal[""] = ""
    length: Length | None = None
    width: Length | None = None
    thickness: Length | None = None
    diameter: Length | None = None
    measured: bool = False
    count: int | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Reading:
    """One value for a size of the build (`of`, such as `P10 length`), from one exemplar, plus or minus."""

    id: str
    of: str
    value: Length
    uncertainty: Length | None = None
    exemplar: str = ""
    method: Literal[
        "", "rule", "caliper", "micrometer", "photograph", "drawing", "catalogue", "judgement"
    ] = ""
    on: date | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Moisture:
    """The moisture content of wood as a meter showed it on a day, in the parts named or in all [%]."""

    id: str
    on: date
    percent: Decimal
    parts: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Release:
    """A part as it was released for making: its revision, the part itself, and its holes in words.

    `drilled` has a line for each hole that followed from joints then, as
    `calculators.planning.releasing.drilled_in` gives them.
    """

    id: str
    mark: str
    revision: str
    part: Component
    on: date | None = None
    by: str = ""
    reason: str = ""
    drilled: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Acceptance:
    """A finding that a person lets stand, with the reason, as long as it says what it said then.

    `rule`, `joint`, `part` and `place` name the finding; `given_for` is its fingerprint, as
    `calculators.planning.checks.accepting.fingerprint` gives it, and `says` the sentence that it had.
    """

    id: str
    rule: str
    given_for: str
    reason: str
    by: str = ""
    on: date | None = None
    joint: str = ""
    part: str = ""
    place: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True)
class Context:
    """What findings depend on besides the build: tools owned, house rules, limits, table editions.

    `limits` replaces default limits of rules by name; `rules_off` names the rules that are not applied here,
    each with the reason. `hardware` is what lies in the drawer or is on order: a designation and how many.
    `editions` pins the tables the build was planned with, by table name. `moisture_change_percent` is the
    swing in moisture content to plan for, `place_moisture_percent` the moisture that wood comes to where the
    thing will stand. `position_mm` is how far off a hole may lie, in each part. `printer_along_mm` and
    `printer_across_mm` are what the 100 mm check rule of a template measured on paper, on `printer_on`, by
    the printer called `printer`; `printer_along_drawn_mm` and `printer_across_drawn_mm` are how long that
    rule was drawn in the file then (100, or a little else once the printer is corrected for). `projection`
    is the angle of projection that part drawings are laid out in.
    """

    drills: tuple[str, ...] = ()
    taps: tuple[str, ...] = ()
    cutters: tuple[str, ...] = ()
    wood_screw_series: Literal["inch-us", "inch-british", "metric"] = "inch-us"
    wood_screw_head_angle_deg: Decimal | None = None
    tapping_percent: Decimal | None = None
    moisture_change_percent: Decimal | None = None
    place_moisture_percent: Decimal | None = None
    position_mm: Decimal | None = None
    printer_along_mm: Decimal | None = None
    printer_across_mm: Decimal | None = None
    printer_on: date | None = None
    printer: str = ""
    printer_along_drawn_mm: Decimal | None = None
    printer_across_drawn_mm: Decimal | None = None
    projection: Literal["first", "third"] = "first"
    hardware: tuple[tuple[str, Decimal], ...] = ()
    limits: tuple[tuple[str, Decimal], ...] = ()
    rules_off: tuple[tuple[str, str], ...] = ()
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
    stock: tuple[Stock, ...] = ()
    readings: tuple[Reading, ...] = ()
    moisture: tuple[Moisture, ...] = ()
    releases: tuple[Release, ...] = ()
    acceptances: tuple[Acceptance, ...] = ()
