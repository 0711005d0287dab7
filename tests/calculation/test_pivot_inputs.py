"""Whatever lever is described, the answer and its pictures are finite, or a sentence says what to write."""

import math
import xml.etree.ElementTree as ET

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.calculation.answering import answer, as_json, as_text, pictures_of
from calculators.catalogue import find_calculator
from calculators.quantities.errors import InputError
from tests.benchmarks.yardstick import yardsticks

PIVOT, KNIFE_EDGE = find_calculator("pivot"), find_calculator("knife-edge")
LENGTHS = st.sampled_from([-3000, -150, -0.0001, 0, 0.0001, 12.5, 150, 3000]) | st.floats(-3000, 3000)
OVER = st.sampled_from([0.0001, 1, 40, 3000]) | st.floats(0, 3000)


def maybe(strategy):
    return st.none() | strategy


ROWS = st.fixed_dictionaries(
    {"x": LENGTHS, "y": LENGTHS, "anchor_x": LENGTHS, "anchor_y": LENGTHS,
     "rate": st.sampled_from([1e-9, 0.2, 1e4]), "free_length": OVER},
    optional={"kind": st.sampled_from(["extension", "compression", "both"]), "initial_tension": st.sampled_from([0, 3, 1e5]),
              "solid_length": OVER, "longest": OVER},
)  # fmt: skip
LOADS = st.fixed_dictionaries(
    {"x": LENGTHS, "y": LENGTHS},
    optional={"force": st.sampled_from([0, 1e-9, 5, 1e5]), "mass": st.sampled_from([0, 1e-6, 2, 1e4]),
              "direction": st.sampled_from([-180, -90, 0, 33, 180]), "follows": st.booleans()},
)  # fmt: skip
INPUTS = st.fixed_dictionaries(
    {"springs": st.lists(ROWS, max_size=4), "loads": st.lists(LOADS, max_size=3)},
    optional={
        "kind": st.sampled_from(["pin", "knife-edge", "flexure"]),
        "plane": st.sampled_from(["upright", "level"]),
        "lever_mass": st.sampled_from([0, 0.1, 1e4]),
        "centre_x": LENGTHS,
        "inertia": st.sampled_from([1e-12, 0.01, 1e6]),
        "pin_radius": OVER,
        "friction": st.sampled_from([0, 0.1, 2]),
        "edge_angle": st.sampled_from([0.001, 60, 179]),
        "v_angle": st.sampled_from([0.002, 70, 90, 180]),
        "edge_lean": st.sampled_from([-20, 0, 3]),
        "margin": st.sampled_from([0, 1, 45]),
        "edge_radius": st.sampled_from([0, 0.02, 50]),
        "edge_points": st.sampled_from([-90, 0, 180]),
        "flexure_rate": st.sampled_from([0, 0.01, 1e5]),
        "flexure_limit": st.sampled_from([0.0001, 5, 180]),
        "stop_low": st.sampled_from([-180, -5, -0.0001, 0]),
        "stop_high": st.sampled_from([0, 0.0001, 5, 180]),
        "gap_low": OVER,
        "stop_radius": OVER,
        "lever_width": OVER,
        "adjust_spring": st.integers(1, 5),
        "thread_pitch": st.sampled_from([0.0001, 0.8, 20]),
    },
)


def numbers_in(value):
    if isinstance(value, dict):
        return [number for item in value.values() for number in numbers_in(item)]
    if isinstance(value, list):
        return [number for item in value for number in numbers_in(item)]
    return [value] if isinstance(value, float) else []


def looked_at(calculator, values):
    refused = None
    try:
        result = answer(calculator, values)
    except InputError as error:
        refused = error
    if refused is not None:
        assert all(fault.says.endswith(".") for fault in refused.faults)
        return
    shape = as_json(calculator, values, result)
    assert all(math.isfinite(number) for number in numbers_in(shape["results"]))
    assert all(math.isfinite(step.value) for step in result.working)
    assert as_text(calculator, values, result)
    for picture in pictures_of(calculator, values, result):
        for svg in (picture.svg, picture.narrow):
            ET.fromstring(svg)
            assert "nan" not in svg
            assert "inf" not in svg.replace("information", "")


@settings(max_examples=250, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(INPUTS)
def test_every_lever_has_a_finite_answer_or_a_sentence(values):
    looked_at(PIVOT, values)


CONTACTS = st.fixed_dictionaries(
    {
        "edge_angle": st.sampled_from([0.001, 60, 179]),
        "v_angle": st.sampled_from([0.002, 70, 90, 179.5, 180]),
    },
    optional={
        "edge_lean": st.sampled_from([-90, -4, 0, 3]),
        "margin": st.sampled_from([0, 1, 45]),
        "stop_low": st.sampled_from([-180, -5, 0]),
        "stop_high": st.sampled_from([0, 4.5, 180]),
        "gap_high": OVER,
        "stop_radius": OVER,
        "lever_width": OVER,
        "load": st.sampled_from([0, 1e-9, 20, 1e5]),
        "bearing_length": st.sampled_from([0.0001, 12, 1000]),
        "edge_radius": st.sampled_from([0.001, 0.05, 50]),
        "bed_radius": st.sampled_from([0.0001, 0.05, 0.0501, 500]),
        "modulus": st.sampled_from([1, 207, 1000]),
        "bed_modulus": st.sampled_from([1, 1000]),
        "hardness": st.sampled_from([0.0001, 697, 3000]),
    },
)


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(CONTACTS)
def test_every_knife_edge_has_a_finite_answer_or_a_sentence(values):
    looked_at(KNIFE_EDGE, values)


def test_the_largest_lever_is_quick():
    spring = {"x": 100, "y": 10, "anchor_x": 90, "anchor_y": 70, "rate": 0.3, "free_length": 65}
    rows = [{**spring, "x": 100 + 9 * place, "anchor_y": 70 - 12 * place} for place in range(12)]
    masses = [{"x": 20 * place, "y": 5, "mass": 0.05} for place in range(12)]
    assert min(yardsticks(lambda: answer(PIVOT, {"springs": rows, "loads": masses})) for _ in range(3)) < 3
