"""Reading a joint from JSON: what is accepted, and every fault at its place."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.joints.declaration import HOLE_INPUTS, JOINT_INPUTS, LAYER_INPUTS
from calculators.joints.model import HoleOverride, JointInput, Layer, MeasuredHead, MeasuredItem
from calculators.joints.reading import read_joint
from calculators.quantities.errors import InputError
from tests.joints.joint_makers import joint, layer, nut, washer

BATTEN = {"part": "batten", "material": "oak", "thickness": 22}
BASE = {"part": "base", "material": "oak", "thickness": 28}


def faults(data: Any) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as caught:
        read_joint(data)
    return [(fault.field, fault.says) for fault in caught.value.faults]


def test_a_plain_joint() -> None:
    read = read_joint(
        {"mark": "J1", "fastener": "No. 8 x 1 3/4 csk brass", "layers": [BATTEN, BASE], "head_angle": 90}
    )
    assert read == joint("No. 8 x 1 3/4 csk brass", layer("batten", "oak", 22), layer("base", "oak", 28))


def test_everything_that_can_be_said() -> None:
    read = read_joint(
        {
            "mark": "F18",
            "fastener": "M5 x 40 socket cap steel",
            "layers": [
                {
                    "part": "bracket",
                    "material": "brass",
                    "thickness": "1/8 in",
                    "takes": "clearance",
                    "fit": "close",
                    "hole": {
                        "kind": "slot",
                        "diameter": 5.5,
                        "slot_length": "9,5 mm",
                        "slot_along": "u",
                        "countersink_angle": "90 deg",
                        "countersink_diameter": 9,
                        "counterbore_diameter": 10,
                        "counterbore_depth": 2,
                        "pilot": False,
                    },
                },
                {
                    "part": "base",
                    "material": "oak",
                    "thickness": 28,
                    "grain": "side",
                    "edge": 20,
                    "end": 40,
                    "side": 15,
                    "gap": 0.5,
                    "thread": "M5",
                    "thread_depth": 12,
                    "drilled_depth": 16,
                    "takes": "thread",
                },
            ],
            "washers": [
                "M5",
                {
                    "washer": "M5 repair washer",
                    "under": "nut",
                    "thickness": 1.5,
                    "outside": 25,
                    "inside": 5.3,
                },
            ],
            "nut": {"nut": "M5", "height": 4.6},
            "nuts": [{"nut": "M5 half", "at": "head"}],
            "seat": "counterbore",
            "head": {"diameter": 8.4, "height": 5, "across_flats": 4},
            "torque": "2.5 N m",
            "nut_factor": 0.18,
            "clamps": False,
            "stands": "-2 mm",
            "steel_first": True,
            "wet": True,
            "loaded_sideways": True,
            "lock": "low-strength threadlocker",
            "drills": "1.0-13.0 by 0.5",
            "engagement": "65 %",
            "limits": {"engagement-least": 1.2},
        }
    )
    bracket, base = (item.layer for item in read.stack if item.layer is not None)
    hole = HoleOverride("slot", 5.5, None, 9.5, "u", 90.0, 9.0, 10.0, 2.0, False)
    assert bracket == Layer("bracket", "brass", 3.175, "clearance", "close", hole=hole)
    assert base == Layer(
        "base",
        "oak",
        28.0,
        "thread",
        "medium",
        "M5",
        12.0,
        16.0,
        "side",
        HoleOverride(),
        20.0,
        40.0,
        15.0,
        0.5,
    )
    kinds = [next(n for n in ("layer", "washer", "nut") if getattr(item, n)) for item in read.stack]
    assert kinds == ["washer", "nut", "layer", "layer", "washer", "nut"]
    assert read.stack[4].measured == MeasuredItem(1.5, 25.0, 5.3)
    assert read.stack[5].measured == MeasuredItem(4.6)
    assert read.measured_head == MeasuredHead(8.4, 5.0, None, 4.0)
    assert (read.torque_nm, read.nut_factor, read.clamps, read.stands_mm) == (2.5, 0.18, False, -2.0)
    assert (read.steel_first, read.wet, read.loaded_sideways) == (True, True, True)
    assert (read.drills, read.tapping_percent) == (("1.0-13.0 by 0.5",), 65.0)
    assert read.limits == (("engagement-least", 1.2),)


def test_bare_words_for_washers_and_nuts() -> None:
    data = {
        "fastener": "M5 x 40 hex bolt steel",
        "mark": "J1",
        "layers": [BASE],
        "washers": "M5",
        "nut": "M5",
        "head_angle": 90,
    }
    assert read_joint(data) == joint(
        "M5 x 40 hex bolt steel", washer("M5 washer"), layer("base", "oak", 28), nut("M5 nut")
    )


def test_inches_where_the_joint_is_in_inches() -> None:
    read = read_joint(
        {"fastener": "No. 8 x 1 3/4 csk brass", "unit": "in", "layers": [{**BATTEN, "thickness": "7/8"}]}
    )
    assert read.stack[0].layer is not None
    assert read.stack[0].layer.thickness_mm == 22.225


def test_an_insert_goes_before_the_layer_that_takes_it() -> None:
    last = read_joint(
        {"fastener": "M4 x 20 cheese", "layers": [BATTEN, BASE], "insert": "M4 insert OD 8 x 10 brass"}
    )
    assert [item.insert is not None for item in last.stack] == [False, True, False]
    first = read_joint(
        {
            "fastener": "M4 x 20 cheese",
            "layers": [{**BATTEN, "takes": "insert"}, BASE],
            "insert": "M4 insert OD 8 x 10",
        }
    )
    assert [item.insert is not None for item in first.stack] == [True, False, False]


@pytest.mark.parametrize(
    ("written", "nm"), [(6, 6.0), ("6", 6.0), ("6 N m", 6.0), ("6 Nm", 6.0), ("50 lbf in", 5.649)]
)
def test_torques(written: Any, nm: float) -> None:
    read = read_joint({"fastener": "M5 x 40 hex steel", "layers": [BASE], "torque": written})
    assert read.torque_nm == pytest.approx(nm, abs=0.001)


def test_every_fault_is_told_at_its_place() -> None:
    said = faults(
        {
            "fastner": "M5",
            "layers": [
                {"part": 5, "materal": "oak", "thickness": "wide"},
                7,
                {"hole": {"diametre": 3, "pilot": "no"}},
            ],
            "washers": [{"washer": "M5", "under": "bolt"}],
            "nut": {"height": 4},
            "seat": "sunk",
            "torque": "tight",
            "clamps": "yes",
            "drills": [3],
            "limits": {"penetratoin": 3},
            "head": [],
        }
    )
    assert [field for field, _ in said] == [
        "fastner",
        "fastener",
        "layers[0].materal",
        "layers[0].thickness",
        "layers[0].part",
        "layers[1]",
        "layers[2].thickness",
        "layers[2].hole.diametre",
        "layers[2].hole.pilot",
        "washers[0].under",
        "nut.nut",
        "drills",
        "seat",
        "head",
        "torque",
        "clamps",
        "limits.penetratoin",
    ]
    told = dict(said)
    assert told["fastner"] == "'fastner' is not a key; did you mean fastener or washers."
    assert told["layers[2].thickness"] == "layers[2] has no thickness; write one such as 22 or '7/8 in'."
    assert told["washers[0].under"] == "washers[0].under is 'bolt'; it must be head or nut."
    torques = "N m, N mm, N cm, lbf in, lbf ft, ozf in, kgf cm, kgf m"
    assert told["torque"] == f"'tight' is not a torque; write a number with one of {torques}."
    assert "did you mean" in told["limits.penetratoin"]
    assert all(says.endswith(".") for _, says in said)


@pytest.mark.parametrize(
    ("values", "field", "says"),
    [
        ({"torque": 0}, "torque", "'0' is too little; write more than 0 N m."),
        ({"engagement": 29}, "engagement", "'29' is below the least allowed here; write at least 30 %."),
        ({"nut_factor": -1}, "nut_factor", "'-1' is too little; write more than 0."),
        ({"head_angle": 59}, "head_angle", "'59' is below the least allowed here; write at least 60 deg."),
        (
            {"head": {"angle": 121}},
            "head.angle",
            "'121' is above the most allowed here; write at most 120 deg.",
        ),
        (
            {"layers": [{**BASE, "thickness": 0}]},
            "layers[0].thickness",
            "layers[0].thickness must be over 0 mm.",
        ),
        (
            {"layers": [{**BASE, "hole": {"diameter": 0}}]},
            "layers[0].hole.diameter",
            "layers[0].hole.diameter must be over 0 mm.",
        ),
        (
            {"layers": [{**BASE, "hole": {"countersink_angle": "9 deg"}}]},
            "layers[0].hole.countersink_angle",
            "'9 deg' is below the least allowed here; write at least 10 deg.",
        ),
        (
            {"limits": {"behind-point": -1}},
            "limits.behind-point",
            "'-1' is below the least allowed here; write at least 0 mm.",
        ),
        ({"washers": ["M5"] * 21}, "washers", "washers lists 21 things; at most 20 are read."),
        (
            {"layers": [{**BASE, "thickness": 10**400}]},
            "layers[0].thickness",
            f"layers[0].thickness must be a length such as 22 or '1 1/4 in', not 1{'0' * 39}.",
        ),
        (
            {"drills": ["1.0-13.0 by 0.5", "wide"]},
            "drills",
            "The set 'wide' cannot be read. Write a set as 1.0-13.0 by 0.5, number 1-60, letter A-Z or "
            "fractional 1/16-1/2 by 64ths, or a drill as #7, F, 13/64 in or 5.1 mm; part several with a semicolon.",
        ),
        ({"mark": "x" * 201}, "mark", "mark is longer than the 200 characters that are read."),
    ],
)
def test_values_beyond_their_limits(values: dict[str, Any], field: str, says: str) -> None:
    assert faults({"fastener": "M5 x 40 hex steel", "layers": [BASE], **values}) == [(field, says)]


def test_limits_are_allowed_themselves() -> None:
    data = {"engagement": 30, "head_angle": 60, "torque": "10000 N m", "stands": -10_000}
    read = read_joint({"fastener": "M5 x 40 hex steel", "layers": [BASE], **data})
    assert (read.tapping_percent, read.wood_screw_head_angle_deg) == (30.0, 60.0)
    assert (read.torque_nm, read.stands_mm) == (10_000.0, -10_000.0)


def test_what_is_null_is_left_to_the_rules() -> None:
    data = {"fastener": "M5 x 40 hex steel", "layers": [BASE]}
    nothing = {each.name: None for each in JOINT_INPUTS if each.name not in data}
    assert read_joint({**data, **nothing}) == read_joint(data)


@pytest.mark.parametrize("data", [[], 3, None, "M5", {}, {"fastener": "M5 x 20 hex"}, {"layers": []}])
def test_what_is_no_joint(data: Any) -> None:
    assert faults(data)


values = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=8),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from([each.name for each in (*LAYER_INPUTS, *HOLE_INPUTS)] + ["x"]), inner, max_size=4
        )
    ),
    max_leaves=8,
)


@settings(max_examples=300, deadline=None)
@given(st.dictionaries(st.sampled_from([*(each.name for each in JOINT_INPUTS), "x"]), values, max_size=8))
def test_whatever_the_json_it_is_read_or_refused(data: dict[str, Any]) -> None:
    data.setdefault("fastener", "M5 x 20 hex steel")
    try:
        read = read_joint(data)
    except InputError as error:
        told = error.faults
    else:
        told = ()
        assert isinstance(read, JointInput)
    assert json.dumps([fault.says for fault in told])
    assert all(fault.says.endswith(".") for fault in told)
