"""The joint calculator: how its JSON is read, refused and answered (the rules have their own tests)."""

import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.calculation.answering import answer, as_json, as_text
from calculators.catalogue import find_calculator
from calculators.declared.joints import LAYER_INPUTS
from calculators.hardware.designation import read_fastener, read_nut, read_washer
from calculators.joints import JointInput, Layer, StackItem, work_joint
from calculators.quantities.errors import InputError

JOINT = find_calculator("joint")
BATTEN = {"part": "batten", "material": "oak", "thickness": "22 mm"}
BASE = {"part": "base", "material": "oak", "thickness": 28}


def refusals(**values: object) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as caught:
        answer(JOINT, values)
    return [(fault.field, fault.says) for fault in caught.value.faults]


def test_it_answers_what_the_joint_works_out():
    found = answer(JOINT, {"fastener": "No. 8 csk brass", "layers": [BATTEN, BASE]}).results
    stack = tuple(StackItem(layer=Layer(part, "oak", mm)) for part, mm in (("batten", 22), ("base", 28)))
    worked = work_joint(JointInput("", read_fastener("No. 8 csk brass"), stack))
    assert found["length_needed"].value == [pytest.approx(mm) for mm in worked.length_needed_mm]
    assert found["length"].value == worked.fastener.length.mm
    assert found["penetration"].value == pytest.approx(worked.penetration_mm)
    assert [hole["diameter"] for hole in found["holes"].value] == [hole.diameter_mm for hole in worked.holes]
    assert [finding["rule"] for finding in found["findings"].value] == [each.rule for each in worked.findings]
    assert "engagement" not in found
    assert "protrusion" not in found


def test_washers_and_nut_lie_where_they_are_said_to():
    values = {
        "fastener": "M5 x 50 hex bolt",
        "layers": [BATTEN, {"thickness": "3/4 in"}],
        "washers": ["M5", {"washer": "M5 washer", "under": "nut"}],
        "nut": "M5",
    }
    found = answer(JOINT, values).results
    washer, nut = StackItem(washer=read_washer("M5 washer")), StackItem(nut=read_nut("M5 nut"))
    layers = (StackItem(layer=Layer("batten", "oak", 22)), StackItem(layer=Layer("layer", "", 19.05)))
    worked = work_joint(JointInput("", read_fastener("M5 x 50 hex bolt"), (washer, *layers, washer, nut)))
    assert found["protrusion"].value == pytest.approx(worked.protrusion_mm)
    assert found["length"].value == 50


def test_a_lone_washer_may_be_a_plain_text():
    given_inputs = {
        "fastener": "M5 x 50 hex bolt",
        "layers": json.dumps([BATTEN]),
        "washers": "M5 washer",
        "nut": "M5",
    }
    result = answer(JOINT, given_inputs)
    assert as_json(JOINT, given_inputs, result)["inputs"]["layers"] == [BATTEN]
    listed = answer(JOINT, {**given_inputs, "washers": ["M5 washer"]})
    assert result.results == listed.results


def test_every_fault_of_every_layer_is_told():
    found = refusals(
        fastener="M5 xyz",
        layers=[{"thickness": -1, "foo": 2}, 3, {}, {**BASE, "takes": "glue"}],
        washers=[5],
        nut="M5",
    )
    assert found == [
        ("fastener", found[0][1]),
        (
            "layers[0]",
            "There is no 'foo' of a layer; there are part, material, thickness, takes, fit, thread, thread_depth, "
            "drilled_depth, grain, edge, end, side, gap, hole.",
        ),
        ("layers[0].thickness", "'-1' is too little; write more than 0 mm."),
        ("layers[1]", 'layers[1] is not an object; write one such as {"thickness": "22 mm"}.'),
        ("layers[2].thickness", "A layer has no thickness; write one such as 22 mm."),
        (
            "layers[3].takes",
            "'glue' is not a choice for takes; write one of clearance, thread, pilot, plain.",
        ),
        (
            "washers[0]",
            'washers[0] cannot be read; write it as "M5 washer" or {"washer": "M5 washer", "under": "nut"}.',
        ),
    ]
    assert "xyz" in found[0][1]


@pytest.mark.parametrize("layers", [[], {}, "{}", [BASE] * 21, 5])
def test_layers_are_a_list_of_one_to_twenty(layers):
    assert refusals(fastener="M5 x 20 csk", layers=layers) == [
        ("layers", "The input layers must be a list of 1 to 20 objects, each with a thickness.")
    ]


def test_a_washer_under_a_nut_needs_the_nut():
    assert refusals(fastener="M5 x 20 csk", layers=[BASE], washers={"washer": "M5", "under": "nut"}) == [
        ("nut", "A washer lies under the nut, but there is no nut; write one such as M5 nut.")
    ]


ODD = st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=12)
LAYERS = st.lists(
    ODD
    | st.dictionaries(
        st.sampled_from([each.name for each in LAYER_INPUTS]),
        ODD
        | st.sampled_from(
            ["oak", "brass", "22 mm", "1/2 in", "thread", "pilot", "M5", "end", "0.001", 10000]
        ),
        max_size=8,
    ),
    max_size=4,
)
FASTENERS = st.sampled_from(
    [
        "M5 csk",
        "M5 x 20 csk",
        "No. 8 csk brass",
        "No. 8 x 1 csk",
        "2 BA x 1/2 cheese",
        "M6 x 10 grub screw",
        "1/4 UNC x 1 hex",
    ]
)


@settings(max_examples=200, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(
    FASTENERS | st.text(max_size=20),
    LAYERS,
    st.sampled_from([None, "M5", ["M5"], [{"washer": "M5 repair washer", "under": "nut"}], 5, ["x"], {}]),
    st.sampled_from([None, "M5", "M5 half nut", "x"]),
)
def test_whatever_is_given_there_is_a_result_or_a_sentence(fastener, layers, washers, nut):
    values = {"fastener": fastener, "layers": layers, "washers": washers, "nut": nut}
    try:
        result = answer(JOINT, values)
    except InputError as error:
        told = [fault.says for fault in error.faults]
    else:
        json.dumps(as_json(JOINT, {}, result), allow_nan=False)
        told = [as_text(JOINT, values, result)]
    assert all(told)
