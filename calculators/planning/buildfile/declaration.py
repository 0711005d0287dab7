"""Every record of a build file, declared once: each field's kind, meaning and an example."""

from __future__ import annotations

from typing import get_args

from calculators.planning import model
from calculators.planning.buildfile.kinds import (
    BuildNumber,
    Choice,
    Day,
    Digest,
    Exact,
    Flag,
    Mark,
    Text,
    Whole,
)
from calculators.planning.buildfile.lengths import LengthKind
from calculators.planning.buildfile.records import Declared as Of
from calculators.planning.buildfile.records import Many, Record, Table

MOST_ITEMS = 20_000
"""The most components, joints and journal entries of one build."""

FARTHEST = 100_000
"""No size or position in a build is beyond 100 m [mm]."""

SIZE = LengthKind(0, FARTHEST, above=True)
SPOT = LengthKind(-FARTHEST, FARTHEST)
DEGREES = Exact(-360, 360)
CONE = Exact(1, 179)
FACES = get_args(model.Face)
DATUMS = (
    "of a block (X along its length, Y along its width, Z up through its thickness), each face as seen from "
    "outside: top u=X v=Y, bottom u=X v from the back edge, front u=X v=Z, back u from the right end v=Z, "
    "right u=Y v=Z, left u from the back edge v=Z; of a round, left and right from the axis, side u along X "
    "with angle_deg from +Y towards +Z"
)
WORD = Text(100)
LINE = Text(200)
NOTE = Text(20_000, lines=True)
REFERENCE = Text(40)
ID = Mark(40)
ALONG = Choice("", "u", "v")

SIZE_RECORD = Record(
    model.Size,
    "Finished sizes of a block (length along the grain, width, thickness) or a round (length, diameter).",
    shape=Of(Choice("", "block", "round"), "what the part is: a block or a round", "block"),
    length=Of(SIZE, "length; of wood along the grain, of a round along its axis"),
    width=Of(SIZE, "width of a block"),
    thickness=Of(SIZE, "thickness of a block"),
    diameter=Of(SIZE, "outside diameter of a round"),
    bore=Of(SIZE, "diameter of the bore of a round, less than its outside"),
)
POSE_RECORD = Record(
    model.Pose,
    "Where one copy of a component lies: its own face laid on a face of another copy.",
    copy=Of(Whole(1, 1_000_000), "which copy: 1 for the only one"),
    on=Of(REFERENCE, "the copy it lies on (P01, P02.1), or nothing for the ground", "P01"),
    face=Of(Choice(*FACES), "the face of that copy that it lies on, with u and v as for holes"),
    u=Of(SPOT, "where along the face's u"),
    v=Of(SPOT, "where along the face's v"),
    angle_deg=Of(DEGREES, "on the side of a round: where around it [deg]", "90"),
    turned_deg=Of(DEGREES, "turned anticlockwise about u, v, seen from outside that face [deg]", "90"),
    let_in=Of(SPOT, "how deep it is let in; negative stands off"),
    own_face=Of(Choice(*FACES), "its own face that is laid on"),
    point=Of(
        Choice("corner", "centre"),
        "which point of its own face is put at u, v: its middle, or the corner that has the least u and v "
        "before it is turned",
    ),
    hand=Of(Choice("same", "other"), "other for a mirrored copy: the part with its Y reversed"),
)
HOLE_RECORD = Record(
    model.Hole,
    "A hole that a person places directly in a part (a joint's holes are worked out, not stored).",
    id=Of(ID, "a short id, unique in its component", "h1"),
    face=Of(Choice(*FACES), f"the face it is drilled from; {DATUMS}"),
    u=Of(SPOT, "distance along the face's u from its datum to the middle of the hole"),
    v=Of(SPOT, "distance along the face's v; not on a side"),
    angle_deg=Of(DEGREES, "on the side of a round, in place of v: where around it [deg]", "180"),
    kind=Of(
        Choice("clearance", "pilot", "tapping", "plain", "reamed", "insert", "slot", "spot"),
        "what the hole is for: clearance, tapping, pilot and slot are for screws, whose distances to edges "
        "count; plain and reamed are bores and holes for pins, of which the wall counts; spot is spotted "
        "through from its mate",
    ),
    diameter=Of(SIZE, "diameter as drilled"),
    depth=Of(SIZE, "depth to the drill's shoulder; without it, right through"),
    thread=Of(WORD, "the thread it is tapped with, as the trade writes it", "2 BA"),
    thread_depth=Of(SIZE, "full thread"),
    countersink_diameter=Of(SIZE, "diameter of the countersink at the face"),
    countersink_angle_deg=Of(CONE, "included angle of the countersink [deg]", "90"),
    counterbore_diameter=Of(SIZE, "diameter of the counterbore"),
    counterbore_depth=Of(SIZE, "depth of the counterbore"),
    slot_length=Of(SIZE, "whole length of a slot"),
    slot_along=Of(ALONG, "which way a slot runs on its face"),
    note=Of(NOTE, "anything else"),
)
POCKET_RECORD = Record(
    model.Pocket,
    "A rebate, slot or recess from the corner (u, v), running length along u and width along v of its face.",
    id=Of(ID, "a short id, unique in its component", "k1"),
    face=Of(
        Choice(*FACES),
        "the face it is cut in, with u and v as for holes; on a round's side v is across "
        "the axis in the plane that touches it, from which its depth runs",
    ),
    u=Of(SPOT, "the corner with the least u"),
    v=Of(SPOT, "the corner with the least v"),
    length=Of(SIZE, "size along u"),
    width=Of(SIZE, "size along v"),
    depth=Of(SIZE, "depth; without it, right through"),
    corner_radius=Of(LengthKind(0, FARTHEST), "radius of its corners"),
    cutter=Of(SIZE, "diameter of the cutter"),
    squared=Of(Flag(), "corners are squared by chisel"),
    angle_deg=Of(DEGREES, "on the side of a round: where around it [deg]", "0"),
    note=Of(NOTE, "anything else"),
)
BEND_RECORD = Record(
    model.Bend,
    "A fold of a sheet part, which is given flat.",
    id=Of(ID, "a short id, unique in its component", "b1"),
    at=Of(SPOT, "where its line lies: from the left end where it runs across, from the front edge along"),
    runs=Of(Choice("across", "along"), "how its line lies to the part's length"),
    angle_deg=Of(Exact(0, 180), "how far it is bent [deg]", "90"),
    radius=Of(LengthKind(0, FARTHEST), "inside radius"),
    rolling=Of(Choice("", "across", "along"), "how its line lies to the direction of rolling"),
    annealed=Of(Flag(), "the sheet is annealed before"),
    note=Of(NOTE, "anything else"),
)
MOTION_RECORD = Record(
    model.Motion,
    "How a part moves, in its own frame, from where its pose lays it.",
    kind=Of(Choice("turns", "slides"), "whether it turns or slides"),
    axis=Of(Choice("X", "Y", "Z"), "the own axis it turns about or slides along"),
    least=Of(Exact(-100_000, 0), "how far back it goes [deg or mm], nought or less", "-5"),
    most=Of(Exact(0, 100_000), "how far forward it goes [deg or mm]", "5"),
    x=Of(SPOT, "a point of the axis: its own X"),
    y=Of(SPOT, "its own Y"),
    z=Of(SPOT, "its own Z"),
    carries=Of(Many(REFERENCE, 2_000), "marks of the parts that move with it", ["P22"]),
)
CORNER_RECORD = Record(
    model.Corner,
    "A corner of a block's outline as seen from its top, in order anticlockwise.",
    x=Of(SPOT, "distance along X from the datum"),
    y=Of(SPOT, "distance along Y from the datum"),
    radius=Of(SIZE, "radius of the arc to the next corner; without it, a straight line"),
    turns=Of(Choice("", "left", "right"), "which way the arc turns", "left"),
    long=Of(Flag(), "the arc is more than half a circle"),
)
COMPONENT_RECORD = Record(
    model.Component,
    "A part or sub-assembly.",
    mark=Of(Mark(), "its mark, unique among components, joints and calculations", "P11"),
    name=Of(LINE, "what it is called", "Flange plate"),
    parent=Of(REFERENCE, "the mark of the sub-assembly it belongs to", "A1"),
    quantity=Of(Whole(1, 100_000), "how many in one of its parent", 4),
    material=Of(LINE, "its material", "oak"),
    stock=Of(Choice("", *get_args(model.StockForm)), "what it is made from", "board"),
    size=Of(SIZE_RECORD, "its finished sizes"),
    made_size=Of(SIZE_RECORD, "its sizes as made"),
    rough=Of(SIZE_RECORD, "the sizes to cut it out at, where the shop's usual allowances will not do"),
    grain_cut=Of(Choice("", "flat", "quarter"), "flat-sawn or quarter-sawn"),
    corner_radius=Of(LengthKind(0, FARTHEST), "radius of its corners in plan"),
    outline=Of(Many(CORNER_RECORD, 2_000), "the outline of a block that is no rectangle, seen from its top"),
    state=Of(Choice(*get_args(model.State)), "how far it is"),
    revision=Of(Text(10), "its revision letter", "B"),
    poses=Of(Many(POSE_RECORD, MOST_ITEMS), "where each copy lies"),
    holes=Of(Many(HOLE_RECORD, MOST_ITEMS), "holes placed directly"),
    pockets=Of(Many(POCKET_RECORD, 2_000), "rebates, slots and recesses"),
    bends=Of(Many(BEND_RECORD, 200), "the folds of a sheet part, which is given flat"),
    legs=Of(Many(SIZE, 200), "outside lengths of a folded part's legs, along its length", ["20", "30"]),
    motion=Of(MOTION_RECORD, "how it moves in the finished thing"),
    end_float=Of(LengthKind(0, FARTHEST), "how far a shaft's free end may slide"),
    end_shake=Of(LengthKind(0, FARTHEST), "the play a shaft has along its axis"),
    evidence=Of(Choice(*get_args(model.Evidence)), "what its sizes rest on", "measured"),
    from_stock=Of(REFERENCE, "the mark of the piece on the rack that it is cut from", "S1"),
    made_to=Of(Text(10), "the revision that it was made to", "A"),
    reused=Of(Flag(), "an old part that is used again"),
    note=Of(NOTE, "anything else"),
)
PLACE_RECORD = Record(
    model.Place,
    "One place of a joint on its home's face.",
    id=Of(ID, "a short id, unique in its joint", "1"),
    u=Of(SPOT, "distance along the face's u from its datum"),
    v=Of(SPOT, "distance along the face's v; not on a side"),
    angle_deg=Of(DEGREES, "on the side of a round, in place of v: where around it [deg]", "90"),
)
LAYER_HOLE_RECORD = Record(
    model.LayerHole,
    "What was decided about the hole in one layer, everywhere or at the places named.",
    places=Of(Many(ID, 2_000), "ids of the places it holds for; without them, all", ["1", "6"]),
    kind=Of(
        Choice("", "clearance", "tapping", "pilot", "insert", "plain", "slot", "reamed"),
        "kind of hole",
        "slot",
    ),
    diameter=Of(SIZE, "diameter as drilled, or width of a slot"),
    depth=Of(SIZE, "depth to the drill's shoulder"),
    slot_length=Of(SIZE, "whole length of a slot"),
    slot_along=Of(ALONG, "which way a slot runs on its face"),
    countersink_diameter=Of(SIZE, "diameter of the countersink at the face"),
    countersink_angle_deg=Of(CONE, "included angle of the countersink [deg]", "90"),
    counterbore_diameter=Of(SIZE, "diameter of the counterbore"),
    counterbore_depth=Of(SIZE, "depth of the counterbore"),
    pilot=Of(Flag(), "false states that no pilot is drilled"),
    reason=Of(NOTE, "why", "the base moves across its grain"),
)
STACK_RECORD = Record(
    model.StackMember,
    "One member of a joint's stack, from the head side: a part or an item, never both.",
    part=Of(REFERENCE, "a component's mark", "P02"),
    item=Of(LINE, "a washer, nut or insert as the trade writes it", "M5 washer"),
    thickness=Of(SIZE, "thickness, typed while there is no pose, or measured of an item"),
    outside=Of(SIZE, "outside diameter of an item as measured"),
    body=Of(SIZE, "body diameter of an insert as measured"),
    takes=Of(
        Choice("", "clearance", "thread", "pilot", "insert", "plain"),
        "what the part's hole is for; without it, the last part takes the screw's thread or pilot unless a "
        "nut follows or an earlier part takes it; the shaft that a grub screw stands against is left out of "
        "the stack",
    ),
    fit=Of(Choice("close", "medium", "free"), "fit of a clearance hole"),
    thread=Of(WORD, "the thread the part is tapped with, where not the fastener's own", "10-32 UNF"),
    thread_depth=Of(SIZE, "full thread in the part; without it, tapped right through"),
    drilled_depth=Of(SIZE, "depth of the blind hole to the drill's shoulder; without it, worked out"),
    grain=Of(Choice("", "side", "end"), "how the axis lies to the wood"),
    edge=Of(
        LengthKind(0, FARTHEST), "distance from the axis to the nearest edge, typed while there is no pose"
    ),
    end=Of(
        LengthKind(0, FARTHEST), "distance from the axis to the nearest end, typed while there is no pose"
    ),
    holes=Of(Many(LAYER_HOLE_RECORD, 200), "what was decided about its holes"),
)
JOINT_RECORD = Record(
    model.Joint,
    "What holds parts together: places on one face of its home, a fastener, a stack.",
    mark=Of(Mark(), "its mark, unique among components, joints and calculations", "F03"),
    title=Of(LINE, "what it joins", "Pillar to base"),
    fastener=Of(
        Text(200, least=1),
        "the fastener on one line, as the trade writes it",
        "5/16 BSF x 2 in hex set screw",
    ),
    home=Of(REFERENCE, "the component whose face carries the places, or one copy of it", "P02"),
    face=Of(Choice("", *FACES), "the face of the home that the fastener enters"),
    places=Of(Many(PLACE_RECORD, 2_000), "where it is, on that face"),
    stack=Of(Many(STACK_RECORD, 50), "what it goes through, from the head side"),
    seat=Of(Choice("", "surface", "flush", "counterbore", "proud"), "how the head sits"),
    head_diameter=Of(SIZE, "the head's diameter as measured"),
    head_height=Of(SIZE, "the head's height as measured"),
    head_angle_deg=Of(CONE, "the head's included angle as measured [deg]", "82"),
    torque_nm=Of(Exact(0, 100_000), "tightening torque [N m]", "6"),
    clamps=Of(Flag(), "false for a screw that pulls nothing together"),
    stands=Of(SPOT, "how far a grub screw or stud stands out; negative is below"),
    steel_first=Of(Flag(), "a steel screw is driven before the brass one"),
    wet=Of(Flag(), "the joint lives outdoors or in the damp"),
    loaded_sideways=Of(Flag(), "it carries load across its axis"),
    pulled=Of(Flag(), "it carries a load along its axis, which pulls it out"),
    lock=Of(LINE, "how it is locked, or the anti-seize on it", "low-strength locker"),
    coating=Of(LengthKind(0, FARTHEST), "how thick the plating or paint on its thread is", "0.008"),
    spotted=Of(Flag(), "its holes are spotted through from the first part"),
    fixed_place=Of(REFERENCE, "the place held tight when the wood moves; without it, the middle one", "3"),
    reached_from=Of(LINE, "from where it is reached", "below"),
    tool=Of(LINE, "the tool that drives it"),
    count=Of(Whole(0, 1_000_000), "how many in the whole build, where it is not places times copies", 2),
    count_reason=Of(NOTE, "why that count"),
    supplier=Of(LINE, "where it is bought"),
    note=Of(NOTE, "anything else"),
)
STEP_RECORD = Record(
    model.AssemblyStep,
    "One step of assembly.",
    number=Of(Whole(0, 1_000_000), "its number in the order", 5),
    title=Of(LINE, "what is done", "Pillar to flange, from below"),
    fits=Of(Many(REFERENCE, 2_000), "marks of what goes on", ["P10", "F03"]),
    closes=Of(Many(REFERENCE, 2_000), "marks of what cannot be reached afterwards", ["F10"]),
    tools=Of(Many(LINE, 200), "tools needed", ["13 mm spanner"]),
    glued=Of(Many(REFERENCE, 2_000), "marks of the parts that it glues together", ["P05", "P06"]),
    open_minutes=Of(Exact(0, 100_000), "how long its glue stays open [min]", "15"),
    rehearsed_minutes=Of(Exact(0, 100_000), "how long a dry rehearsal took [min]", "9"),
    cure_hours=Of(Exact(0, 100_000), "how long its glue or finish cures [h]", "24"),
    done=Of(Day(), "the day it was done", "2024-03-31"),
    caution=Of(NOTE, "what can hurt"),
    check=Of(NOTE, "what to check before going on"),
    note=Of(NOTE, "anything else"),
)
PHOTOGRAPH_RECORD = Record(
    model.Photograph,
    "A photograph of an entry; the picture itself lies beside the build file in its archive.",
    id=Of(ID, "a short id, unique in the build", "f1"),
    digest=Of(Digest(), "SHA-256 of its JPEG file, in hexadecimal", "0" * 64),
    width=Of(Whole(1, 20_000), "width [pixels]", 1600),
    height=Of(Whole(1, 20_000), "height [pixels]", 1200),
    caption=Of(LINE, "what it shows", "The flange after squaring"),
)
ENTRY_RECORD = Record(
    model.Entry,
    "A dated journal entry.",
    id=Of(ID, "a short id, unique in the build", "e1"),
    date=Of(Day(), "the local date it was written for", "2024-03-31"),
    text=Of(Text(200_000, lines=True), "the text, Markdown"),
    hours=Of(Exact(0, 10_000), "hours worked", "1.5"),
    marks=Of(Many(REFERENCE, 2_000), "marks that it speaks of", ["P11"]),
    decision=Of(NOTE, "what was decided"),
    next_time=Of(NOTE, "what comes next"),
    photographs=Of(Many(PHOTOGRAPH_RECORD, 500), "its photographs"),
)
RESULT_LIMIT_RECORD = Record(
    model.ResultLimit,
    "What a result of a kept calculation may come to.",
    result=Of(Text(100, least=1), "the result's name", "stress"),
    bound=Of(Choice("at most", "at least"), "which way it is bound"),
    value=Of(Text(64, least=1), "the value with its unit, as people write it", "450 MPa"),
)
CALCULATION_RECORD = Record(
    model.Calculation,
    "A calculation that is kept with the build.",
    mark=Of(Mark(), "its mark, unique among components, joints and calculations", "K01"),
    title=Of(LINE, "what it is about", "Centring springs at the stop"),
    calculator=Of(Text(40, least=1), "the calculator's name", "spring"),
    inputs=Of(Table(Text(10_000, lines=True), 100), "its inputs by name, as people write them"),
    ties=Of(
        Table(Text(100, least=1), 100),
        "the sizes of the build that inputs hang on, by the input's name or its place in rows",
        {"wire": "P27 diameter", "springs[0].x": "P03 hole h1 depth"},
    ),
    limits=Of(Many(RESULT_LIMIT_RECORD, 50), "what its results may come to"),
    note=Of(NOTE, "anything else"),
)
STOCK_RECORD = Record(
    model.Stock,
    "A piece, or several like pieces, on the rack.",
    mark=Of(Mark(), "its mark, unique among all marks of the build", "S1"),
    called=Of(LINE, "what it is called", "18 mm birch ply"),
    material=Of(LINE, "its material", "birch plywood"),
    form=Of(Choice("", *get_args(model.StockForm)), "board, sheet, bar, tube"),
    length=Of(SIZE, "length; of wood along the grain"),
    width=Of(SIZE, "width"),
    thickness=Of(SIZE, "thickness"),
    diameter=Of(SIZE, "diameter of a bar or tube"),
    measured=Of(Flag(), "its sizes were measured on the piece"),
    count=Of(Whole(0, 1_000_000), "how many of it; without it, as many as are needed", 2),
    note=Of(NOTE, "anything else"),
)
READING_RECORD = Record(
    model.Reading,
    "One value for a size of the build, from one exemplar.",
    id=Of(ID, "a short id, unique among readings", "r1"),
    of=Of(Text(100, least=1), "the size it is of", "P10 length"),
    value=Of(SIZE, "what was read", "165.2"),
    uncertainty=Of(LengthKind(0, FARTHEST), "plus or minus", "0.8"),
    exemplar=Of(LINE, "what it was read from", "front photograph"),
    method=Of(
        Choice("", "rule", "caliper", "micrometer", "photograph", "drawing", "catalogue", "judgement"),
        "how it was read",
    ),
    on=Of(Day(), "the day it was read", "2024-03-31"),
    note=Of(NOTE, "anything else"),
)
MOISTURE_RECORD = Record(
    model.Moisture,
    "The moisture content of wood as a meter showed it.",
    id=Of(ID, "a short id, unique among them", "m1"),
    on=Of(Day(), "the day", "2024-03-31"),
    percent=Of(Exact(0, 200), "moisture content [%]", "10.4"),
    parts=Of(Many(REFERENCE, 2_000), "marks of the parts measured; without them, all of wood", ["P01"]),
    note=Of(NOTE, "anything else"),
)
RELEASE_RECORD = Record(
    model.Release,
    "A part as it was released for making.",
    id=Of(ID, "a short id, unique among releases", "P01-A"),
    mark=Of(REFERENCE, "the part's mark", "P01"),
    revision=Of(Text(10, least=1), "the revision that was released", "A"),
    part=Of(COMPONENT_RECORD, "the part as it was then"),
    on=Of(Day(), "the day", "2024-03-31"),
    by=Of(LINE, "by whom"),
    reason=Of(NOTE, "why it was changed since the release before"),
    drilled=Of(Many(Text(400), MOST_ITEMS), "the holes that followed from joints then, a line each"),
)
ACCEPTANCE_RECORD = Record(
    model.Acceptance,
    "A finding that a person lets stand, with the reason.",
    id=Of(ID, "a short id, unique among them", "x1"),
    rule=Of(Text(100, least=1), "the rule's name", "edge-distance"),
    given_for=Of(Text(200, least=1), "the fingerprint of the values that it was given for"),
    reason=Of(Text(2_000, least=1, lines=True), "why it may stand"),
    by=Of(LINE, "who lets it stand"),
    on=Of(Day(), "the day", "2024-03-31"),
    joint=Of(REFERENCE, "the joint that the finding is about", "F25"),
    part=Of(LINE, "the part that it is about", "P03"),
    place=Of(LINE, "the place that it is about"),
    says=Of(Text(2_000, lines=True), "what the finding said then"),
)
CONTEXT_RECORD = Record(
    model.Context,
    "What findings depend on besides the build: tools owned, house rules, limits, table editions.",
    drills=Of(Many(LINE, 1_000), "drills owned, as people write sets", ["1.0-13.0 by 0.5"]),
    taps=Of(Many(LINE, 1_000), "taps owned", ["M5", "2 BA"]),
    cutters=Of(Many(LINE, 1_000), "router cutters and mills owned", ["6 mm", "1/2 in"]),
    wood_screw_series=Of(
        Choice("inch-us", "inch-british", "metric"), "which series numbered wood screws are of"
    ),
    wood_screw_head_angle_deg=Of(CONE, "head angle of the workshop's wood screws [deg]", "90"),
    tapping_percent=Of(Exact(1, 100), "percentage of thread that is tapped for [%]", "70"),
    moisture_change_percent=Of(Exact(0, 30), "swing in moisture content to plan for [%]", "4"),
    place_moisture_percent=Of(
        Exact(0, 40), "moisture that wood comes to where the thing will stand [%]", "9"
    ),
    position_mm=Of(Exact(0, 100), "how far off a hole may lie, in each part [mm]", "0.2"),
    printer_along_mm=Of(Exact(0, 1_000), "what the 100 mm check rule measured along the paper [mm]", "100.1"),
    printer_across_mm=Of(
        Exact(0, 1_000), "what the 100 mm check rule measured across the paper [mm]", "99.9"
    ),
    printer_on=Of(Day(), "the day that the check rules were measured", "2024-03-31"),
    printer=Of(LINE, "the printer that they were measured for", "the laser in the office"),
    printer_along_drawn_mm=Of(
        Exact(0, 1_000), "how long that check rule was drawn along the paper [mm]; else 100", "100.2"
    ),
    printer_across_drawn_mm=Of(
        Exact(0, 1_000), "how long that check rule was drawn across the paper [mm]; else 100", "99.8"
    ),
    projection=Of(Choice("first", "third"), "the angle of projection of part drawings"),
    hardware=Of(
        Table(Exact(0, 1_000_000), 2_000),
        "what lies in the drawer or is on order, by designation",
        {"M5 x 20 csk steel": "12"},
    ),
    limits=Of(
        Table(Exact(-1_000_000, 1_000_000), 1_000), "limits of rules that replace their defaults, by name"
    ),
    rules_off=Of(Table(NOTE, 1_000), "rules that are not applied here, by name, with the reason"),
    currency=Of(Text(3, least=3), "ISO 4217 currency", "GBP"),
    zone=Of(Text(64, least=1), "time zone", "Europe/London"),
    editions=Of(Table(Text(200), 1_000), "editions of the tables that the build was planned with, by table"),
    as_of=Of(Day(), "the date that the check takes as today", "2024-03-31"),
)
BUILD_RECORD = Record(
    model.Build,
    "One thing being made, whole.",
    always=("unit",),
    number=Of(BuildNumber(), "its number, without slashes", "B12"),
    title=Of(LINE, "what it is", "Seismograph"),
    purpose=Of(NOTE, "what it is for"),
    unit=Of(Choice("mm", "in"), "what a bare number means"),
    workshop=Of(LINE, "the workshop"),
    client=Of(LINE, "the client"),
    due=Of(Day(), "when it is due", "2024-09-30"),
    state=Of(Choice(*get_args(model.BuildState)), "how far it is"),
    revision=Of(Text(10), "its revision letter", "A"),
    issued=Of(Day(), "when that revision was issued", "2024-03-31"),
    drawn_by=Of(LINE, "by whom"),
    context=Of(CONTEXT_RECORD, "what findings depend on besides"),
    components=Of(Many(COMPONENT_RECORD, MOST_ITEMS), "parts and sub-assemblies"),
    joints=Of(Many(JOINT_RECORD, MOST_ITEMS), "joints"),
    steps=Of(Many(STEP_RECORD, 5_000), "steps of assembly"),
    entries=Of(Many(ENTRY_RECORD, MOST_ITEMS), "journal entries"),
    calculations=Of(Many(CALCULATION_RECORD, 2_000), "calculations that are kept with it"),
    stock=Of(Many(STOCK_RECORD, 2_000), "what is on the rack for it"),
    readings=Of(Many(READING_RECORD, MOST_ITEMS), "readings of its sizes"),
    moisture=Of(Many(MOISTURE_RECORD, 2_000), "moisture readings"),
    releases=Of(Many(RELEASE_RECORD, MOST_ITEMS), "parts as they were released for making"),
    acceptances=Of(Many(ACCEPTANCE_RECORD, 2_000), "findings that are let stand, with the reason"),
)
