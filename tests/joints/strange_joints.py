"""Arbitrary joints, however strange, for the tests that nothing but an InputError is ever raised."""

from __future__ import annotations

from hypothesis import strategies as st

from calculators.hardware.fastener import Fastener, Insert, Nut, Washer
from calculators.joints.model import (
    HoleOverride,
    JointInput,
    Layer,
    MeasuredHead,
    MeasuredItem,
    StackItem,
)
from calculators.quantities.length import Length

MACHINE = ["M5", "M6 x 0.75", "5/16 BSF", "10-32 UNF", "2 BA", "8 BA", "1/4-28 UNF", "M12", "3/16 BSW"]
WOOD = ["No. 8", "No. 4", "No. 14"]
SIZES = [
    "M5",
    "M6 x 0.75",
    "5/16 BSF",
    "10-32 UNF",
    "2 BA",
    "1/4 x 40 ME",
    "No. 8",
    "No. 24",
    "4",
    "M8",
    "x",
    "",
]
MATERIALS = [
    "oak",
    "pine",
    "brass",
    "mild steel",
    "aluminium",
    "glass",
    "stainless steel",
    "unobtanium",
    "",
    "plywood",
]
METALS = ["", "brass", "steel", "stainless A2", "nylon", "??"]
WILD = [0.0, -1.0, float("nan"), float("inf"), 1e300, 1e-300, 1e9, -1e-9]


def joints_of(family: str, wild: bool) -> st.SearchStrategy[JointInput]:
    """Joints of a family; wild ones have numbers and words without sense here and there."""
    sizes = MACHINE if family == "machine" else WOOD
    sane_mm = st.floats(0.05, 200)
    any_mm = st.one_of(sane_mm, st.sampled_from(WILD)) if wild else sane_mm
    maybe_mm = st.one_of(st.none(), any_mm)
    angle = st.one_of(st.none(), st.sampled_from(WILD) if wild else st.floats(60, 120))
    odd = st.sampled_from([Length(0), Length(-5), Length(10**16)])
    lengths = st.one_of(st.none(), odd if wild else st.integers(10**7, 10**9).map(Length))
    fasteners = st.builds(
        Fastener,
        family=st.sampled_from(["machine", "wood", "glue"] if wild else [family]),
        size=st.sampled_from(SIZES if wild else sizes),
        length=lengths,
        head=st.sampled_from(
            ["", "csk", "raised csk", "pan", "cheese", "round", "socket cap", "socket csk", "button", "hex", "coach",
             "knurled", "none", *(["odd"] if wild else [])]
        ),
        drive=st.sampled_from(["", "slotted", "hex socket"]),
        kind=st.sampled_from(["screw", "set screw", "bolt", "grub screw", "stud", "coach screw"]),
        material=st.sampled_from(METALS),
        finish=st.sampled_from(["", "zinc plated", "?"]),
        series=st.sampled_from(["", "inch-us", "inch-british", "metric"] if wild else [""]),
        cut_to=st.one_of(st.none(), lengths) if wild else st.none(),
    )  # fmt: skip
    holes = st.builds(
        HoleOverride,
        kind=st.sampled_from(["", "", "clearance", "tapping", "pilot", "insert", "plain", "slot", "reamed"]),
        diameter_mm=maybe_mm,
        depth_mm=maybe_mm,
        slot_length_mm=maybe_mm,
        countersink_angle_deg=angle,
        countersink_diameter_mm=maybe_mm,
        counterbore_diameter_mm=maybe_mm,
        counterbore_depth_mm=maybe_mm,
        pilot=st.booleans(),
    )
    layers = st.builds(
        Layer,
        part=st.sampled_from(["A", "B", ""]),
        material=st.sampled_from(MATERIALS),
        thickness_mm=any_mm,
        takes=st.sampled_from(["", "", "", "", "clearance", "thread", "pilot", "insert", "plain"]),
        fit=st.sampled_from(["close", "medium", "free"]),
        thread=st.sampled_from(["", "", *SIZES]),
        thread_depth_mm=maybe_mm,
        drilled_depth_mm=maybe_mm,
        grain=st.sampled_from(["", "side", "end"]),
        hole=st.one_of(st.just(HoleOverride()), holes),
        edge_mm=maybe_mm,
        end_mm=maybe_mm,
        side_mm=maybe_mm,
        gap_mm=st.one_of(st.just(0.0), any_mm),
    )
    measured = st.one_of(
        st.none(),
        st.builds(
            MeasuredItem, thickness_mm=maybe_mm, outside_mm=maybe_mm, inside_mm=maybe_mm, body_mm=maybe_mm
        ),
    )
    washers = st.builds(
        Washer,
        size=st.sampled_from(SIZES),
        form=st.sampled_from(["plain", "small", "repair", "spring", "crinkle", "toothed", "cup"]),
        outside=lengths,
        thickness=lengths,
    )
    nuts = st.builds(
        Nut,
        size=st.sampled_from(SIZES),
        form=st.sampled_from(["full", "half", "dome", "square", "wing", "stiff", "knurled"]),
        material=st.sampled_from(METALS),
    )
    inserts = st.builds(
        Insert,
        size=st.sampled_from(SIZES),
        length=lengths,
        outside=lengths,
        body=lengths,
        material=st.sampled_from(METALS),
    )
    items = st.one_of(
        layers.map(lambda layer: StackItem(layer=layer)),
        layers.map(lambda layer: StackItem(layer=layer)),
        st.builds(StackItem, washer=washers, measured=measured),
        st.builds(StackItem, nut=nuts, measured=measured),
        st.builds(StackItem, insert=inserts, measured=measured),
    )
    heads = st.one_of(
        st.just(MeasuredHead()),
        st.builds(
            MeasuredHead, diameter_mm=maybe_mm, height_mm=maybe_mm, angle_deg=angle, across_flats_mm=maybe_mm
        ),
    )
    return st.builds(
        JointInput,
        mark=st.just("F01"),
        fastener=fasteners,
        stack=st.lists(items, min_size=0 if wild else 1, max_size=6).map(tuple),
        seat=st.sampled_from(["", "", "surface", "flush", "counterbore", "proud"]),
        measured_head=heads,
        wood_screw_head_angle_deg=angle,
        torque_nm=maybe_mm,
        nut_factor=st.one_of(st.just(0.2), any_mm),
        clamps=st.booleans(),
        stands_mm=maybe_mm,
        steel_first=st.booleans(),
        wet=st.booleans(),
        loaded_sideways=st.booleans(),
        lock=st.sampled_from(["", "stiff nut"]),
        drills=st.sampled_from([(), ("1.0-13.0 by 0.5",), ("nonsense",), ("number 1-60", "letter A-Z")]),
        tapping_percent=st.one_of(st.none(), st.floats(20, 110)),
        limits=st.one_of(
            st.just(()),
            st.lists(st.tuples(st.sampled_from(["penetration", "x", "washer-spread"]), any_mm)).map(tuple),
        ),
    )


joints = st.one_of(joints_of("machine", False), joints_of("wood", False), joints_of("machine", True))
