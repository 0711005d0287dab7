"""The joint calculator: how its JSON is read, refused and answered (the rules have their own tests)."""

import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.calculation.answering import answer, as_json, as_text, help_text
from calculators.catalogue import find_calculator
from calculators.hardware.designation import read_fastener, read_nut, read_washer
from calculators.joints import JointInput, Layer, StackItem, work_joint
from calculators.joints.declaration import LAYER_INPUTS
from calculators.joints.reading import read_joint
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
        nut_factr=0.2,
        torque="tight",
        wet="perhaps",
    )
    assert found == [
        ("nut_factr", "'nut_factr' is not a key; did you mean nut_factor or nut."),
        ("fastener", found[1][1]),
        (
            "layers[0].foo",
            "'foo' is not a key in layers[0]; the keys here are part, material, thickness, takes, fit, thread, "
            "thread_depth, drilled_depth, grain, hole, edge, end, side, gap.",
        ),
        ("layers[0].thickness", found[3][1]),
        ("layers[1]", "layers[1] must be an object with keys such as part, material, thickness, takes."),
        ("layers[2].thickness", "layers[2] has no thickness; write one such as 22 or '7/8 in'."),
        (
            "layers[3].takes",
            "layers[3].takes is 'glue'; it must be clearance or thread or pilot or insert or plain.",
        ),
        ("washers[0]", "washers[0] must be an object with keys such as washer, under, thickness, outside."),
        (
            "torque",
            "'tight' is not a torque; write a number with one of N m, N mm, N cm, lbf in, lbf ft, ozf in, "
            "kgf cm, kgf m.",
        ),
        ("wet", "wet must be true or false, not 'perhaps'."),
    ]
    assert "xyz" in found[1][1]
    assert "negative" in found[3][1]


def test_json_that_cannot_be_read_is_told_where():
    says = "The input layers is not JSON: line 1, column 16: expecting value."
    assert refusals(fastener="M5 x 20 csk", layers='[{"thickness": }]') == [("layers", says)]


@pytest.mark.parametrize(
    ("layers", "field", "says"),
    [
        ([], "layers", "The joint has no layers; list at least one part that the fastener goes into."),
        ({}, "layers[0].thickness", "layers[0] has no thickness; write one such as 22 or '7/8 in'."),
        ("{}", "layers[0].thickness", "layers[0] has no thickness; write one such as 22 or '7/8 in'."),
        ([BASE] * 21, "layers", "layers lists 21 things; at most 20 are read."),
        (5, "layers[0]", "layers[0] must be an object with keys such as part, material, thickness, takes."),
    ],
)
def test_layers_are_one_to_twenty_objects(layers, field, says):
    assert refusals(fastener="M5 x 20 csk", layers=layers) == [(field, says)]


def test_a_washer_under_a_nut_needs_the_nut():
    assert refusals(fastener="M5 x 20 csk", layers=[BASE], washers={"washer": "M5", "under": "nut"}) == [
        ("nut", "A washer lies under the nut, but there is no nut; write one such as M5 nut.")
    ]


EVERYTHING = {
    "fastener": "M5 x 2 in hex bolt steel",
    "unit": "in",
    "mark": "J1",
    "layers": [
        {"part": "plate", "material": "steel", "thickness": "1/4", "hole": {"diameter": 0.25}},
        {"part": "base", "material": "oak", "thickness": 0.75, "grain": "side", "edge": 2, "gap": "0.5 mm"},
    ],
    "washers": ["M5", {"washer": "M5 repair washer", "under": "nut", "thickness": 0.0625}],
    "nut": {"nut": "M5", "height": "4.6 mm"},
    "nuts": ["M5 half nut"],
    "seat": "surface",
    "head": {"height": "3.4 mm"},
    "head_angle": 90,
    "torque": "50 lbf in",
    "nut_factor": 0.18,
    "clamps": True,
    "stands": None,
    "steel_first": False,
    "wet": True,
    "loaded_sideways": True,
    "lock": "low-strength threadlocker",
    "drills": ["1.0-13.0 by 0.5"],
    "engagement": 65,
    "limits": {"engagement-least": 1.2},
}


def test_all_that_the_reader_knows_is_an_input_and_counts():
    assert {each.name for each in JOINT.inputs} == {*EVERYTHING, "insert"}
    told = answer(JOINT, EVERYTHING)
    worked = work_joint(read_joint(EVERYTHING))
    assert told.results["length"].value == 50.8
    assert [finding["where"] for finding in told.results["findings"].value] == [
        finding.where for finding in worked.findings
    ]
    assert [hole["diameter"] for hole in told.results["holes"].value] == [6.35, worked.holes[1].diameter_mm]
    assert [step.line for step in told.working] == [step.line for step in worked.working]


def test_the_words_of_a_command_line_say_the_same_as_json():
    words = {
        name: value
        if isinstance(value, str)
        else {True: "yes", False: "no"}[value]
        if isinstance(value, bool)
        else json.dumps(value)
        for name, value in EVERYTHING.items()
        if value is not None
    }
    assert answer(JOINT, words) == answer(JOINT, EVERYTHING)


@pytest.mark.parametrize(("text", "wet"), [("yes", True), ("TRUE", True), ("no", False), ("false", False)])
def test_a_yes_or_no_is_a_word_or_true_and_false(text, wet):
    inputs = {"fastener": "M5 x 50 hex bolt steel", "layers": [BATTEN, BASE], "nut": "M5 brass"}
    assert answer(JOINT, {**inputs, "wet": text}) == answer(JOINT, {**inputs, "wet": wet})
    assert answer(JOINT, {**inputs, "wet": True}) != answer(JOINT, {**inputs, "wet": False})


def test_an_insert_and_the_engagement_of_a_tapped_hole():
    inserted = {"fastener": "M4 x 20 cheese", "layers": [BATTEN, BASE], "insert": "M4 insert OD 8 x 10 brass"}
    kinds = [hole["kind"] for hole in answer(JOINT, inserted).results["holes"].value]
    assert kinds == ["clearance", "insert"]
    tapped = {"fastener": "M6 x 20 csk", "layers": [{"thickness": 6}, {"thickness": 20, "material": "brass"}]}
    drilled = [
        answer(JOINT, {**tapped, "engagement": percent}).results["holes"].value[1]["diameter"]
        for percent in (50, "75 %")
    ]
    assert drilled[0] > drilled[1]


def test_the_help_tells_what_goes_into_the_objects():
    lines = help_text(JOINT).splitlines()
    said = {line.split()[0]: len(line) - len(line.lstrip()) for line in lines if line.strip()}
    assert (said["fastener"], said["grain"], said["slot_along"], said["under"]) == (2, 6, 10, 6)
    assert said["engagement-least"] == 6
    assert any(
        line.endswith("quantity; a bare number is in %; 30 to 100 %; may be left out") for line in lines
    )


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
