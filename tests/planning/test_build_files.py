"""The build file: what is written is read back, equal builds give equal bytes, and the schema says the same."""

from __future__ import annotations

import json
from dataclasses import fields, replace
from datetime import date
from decimal import Decimal

import jsonschema
import pytest
from hypothesis import HealthCheck, given, settings

from calculators.planning import model
from calculators.planning.buildfile.declaration import BUILD_RECORD
from calculators.planning.files import SCHEMA_VERSION, read_build, schema, write_build
from calculators.planning.placing import place_build
from calculators.quantities import Length, read_length
from tests.planning.strategies import builds

SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]
VALIDATOR = jsonschema.Draft202012Validator(schema())

ROOMY = model.Build(
    "TW-31",
    "Seismograph",
    unit="in",
    due=date(2024, 9, 30),
    context=model.Context(
        drills=("1.0-13.0 by 0.5",), limits=(("edge", Decimal("1.50")),), editions=(("drills", "1"),)
    ),
    components=(
        model.Component("A1", "Head", quantity=2),
        model.Component(
            "P11",
            "Flange plate",
            parent="A1",
            quantity=3,
            material="brass",
            stock="sheet",
            size=model.Size(
                "block", read_length("3 1/2", unit="in"), Length.of_mm(90), read_length("6 mm", unit="in")
            ),
            poses=(model.Pose(copy=6, u=read_length("1", unit="mm")),),
            holes=(model.Hole("h1", "top", Length(0), Length(-5)),),
        ),
    ),
    joints=(
        model.Joint(
            "F03",
            "Plate to head",
            "M5 x 20 csk slotted brass",
            home="P11.6",
            face="top",
            places=(model.Place("1", Length.of_mm(10), Length.of_mm(10)),),
            stack=(model.StackMember(part="P11"), model.StackMember(item="M5 full nut")),
            torque_nm=Decimal("2.50"),
        ),
    ),
    steps=(model.AssemblyStep(1, "Plate", fits=("P11.2", "F03")),),
    entries=(model.Entry("e1", date(2024, 3, 31), "Cut.\nDone.", Decimal("1.5"), ("F03",)),),
)


def test_a_build_is_written_in_the_stated_form() -> None:
    shown = json.loads(write_build(ROOMY))
    assert list(shown) == [
        "schema_version", "number", "title", "unit", "due", "context", "components", "joints", "steps", "entries",
    ]  # fmt: skip
    assert shown["schema_version"] == SCHEMA_VERSION == 1
    assert shown["due"] == "2024-09-30"
    assert shown["context"] == {
        "drills": ["1.0-13.0 by 0.5"], "limits": {"edge": "1.5"}, "editions": {"drills": "1"},
    }  # fmt: skip
    assert shown["components"][1]["size"] == {
        "shape": "block",
        "length": {"written": "3 1/2", "mm": "88.9"},
        "width": {"mm": "90"},
        "thickness": {"written": "6 mm", "mm": "6"},
    }
    assert shown["components"][1]["poses"] == [{"copy": 6, "u": {"written": "1", "mm": "1", "unit": "mm"}}]
    assert shown["components"][1]["holes"] == [
        {"id": "h1", "face": "top", "u": {"mm": "0"}, "v": {"mm": "-0.0000005"}}
    ]
    assert shown["joints"][0]["torque_nm"] == "2.5"
    assert read_build(write_build(ROOMY)) == ROOMY


def test_it_is_utf8_with_two_spaces_and_an_end() -> None:
    data = write_build(model.Build("B1", "Tür – 部"))
    assert (
        data
        == '{\n  "schema_version": 1,\n  "number": "B1",\n  "title": "Tür – 部",\n  "unit": "mm"\n}\n'.encode()
    )


def test_equal_builds_give_equal_bytes() -> None:
    one = replace(ROOMY, joints=(replace(ROOMY.joints[0], torque_nm=Decimal("2.5000")),))
    assert one == ROOMY
    assert write_build(one) == write_build(ROOMY)


@settings(max_examples=80, deadline=None, suppress_health_check=SLOW)
@given(build=builds())
def test_any_build_is_read_back_and_conforms_to_the_schema(build: model.Build) -> None:
    data = write_build(build)
    again = read_build(data)
    assert again == build
    assert write_build(again) == data
    VALIDATOR.validate(json.loads(data))


@pytest.mark.parametrize(
    ("raw", "ticks", "written", "unit"),
    [
        ('"1 3/4 in"', 444_500_000, "1 3/4 in", "in"),
        ('"1 3/4"', 444_500_000, "1 3/4", "in"),
        ("1.75", 444_500_000, "1.75", "in"),
        ("2", 508_000_000, "2", "in"),
        ('{"written": "44.45", "unit": "mm"}', 444_500_000, "44.45", "mm"),
        ('{"written": "1 3/4", "mm": "44.45"}', 444_500_000, "1 3/4", "in"),
        ('{"written": "1 3/4", "mm": 44.45}', 444_500_000, "1 3/4", "in"),
        ('{"mm": "44.4500000"}', 444_500_000, "", "mm"),
        ('{"mm": 0.0000001}', None, "", ""),
        ('{"mm": 1}', 10_000_000, "", "mm"),
    ],
)
def test_a_length_is_read_in_each_of_its_forms(raw: str, ticks: int | None, written: str, unit: str) -> None:
    text = (
        '{"schema_version": 1, "number": "B", "title": "t", "unit": "in", "components": '
        f'[{{"mark": "P1", "name": "n", "size": {{"length": {raw}}}}}]}}'
    )
    expected = Length(1) if ticks is None else Length(ticks, written, unit)
    assert read_build(text).components[0].size.length == expected
    VALIDATOR.validate(json.loads(text))


def test_a_byte_order_mark_a_schema_name_and_windows_lines_are_taken() -> None:
    text = '\ufeff{"$schema": "x",\r\n"number": "B", "title": "t",\r\n"schema_version": 1}\r\n'
    assert read_build(text) == read_build(text.encode()) == model.Build("B", "t")


def test_the_schema_is_sound_and_describes_every_field_of_the_model() -> None:
    shown = schema()
    jsonschema.Draft202012Validator.check_schema(shown)
    records = {record.name: record for record in BUILD_RECORD.inner()}
    assert set(records) == {
        "build", "component", "joint", "assemblyStep", "entry", "context", "size", "pose", "hole", "pocket",
        "place", "stackMember", "layerHole", "photograph", "calculation", "resultLimit", "bend", "motion", "stock",
        "reading", "moisture", "release", "acceptance", "corner",
    }  # fmt: skip
    for name, record in records.items():
        found = shown if name == "build" else shown["$defs"][name]
        names = [one.name for one in fields(record.make)]
        assert [key for key in found["properties"] if key not in ("$schema", "schema_version")] == names
        for key in names:
            assert found["properties"][key]["description"].endswith("."), (name, key)


def test_every_example_of_the_schema_conforms_to_it() -> None:
    shown, count = schema(), 0
    for record in BUILD_RECORD.inner():
        found = shown if record is BUILD_RECORD else shown["$defs"][record.name]
        for key, part in found["properties"].items():
            for example in part.get("examples", ()):
                jsonschema.Draft202012Validator({**part, "$defs": shown["$defs"]}).validate(example)
                count += 1
            if "default" in part:
                jsonschema.Draft202012Validator({**part, "$defs": shown["$defs"]}).validate(part["default"])
            assert key
    assert count > 40


def test_the_schema_refuses_what_the_reader_refuses_by_form() -> None:
    for wrong in (
        {"schema_version": 1, "number": "B"},
        {"schema_version": 2, "number": "B", "title": "t"},
        {"schema_version": 1, "number": "B", "title": "t", "lenght": 1},
        {"schema_version": 1, "number": "B", "title": "t", "unit": "cm"},
        {"schema_version": 1, "number": "B", "title": "t", "steps": [{"number": 1.5, "title": "x"}]},
    ):
        assert not VALIDATOR.is_valid(wrong)


def test_a_round_may_be_laid_down_by_its_side() -> None:
    text = (
        '{"schema_version": 1, "number": "B1", "title": "Rod", "components": ['
        '{"mark": "P1", "name": "Board", "size": {"shape": "block", "length": "100", "width": "50", "thickness": "20"},'
        ' "poses": [{"copy": 1}]},'
        '{"mark": "P2", "name": "Rod", "size": {"shape": "round", "length": "80", "diameter": "10"},'
        ' "poses": [{"copy": 1, "on": "P1", "face": "top", "u": "10", "v": "20", "own_face": "bottom"}]}]}'
    )
    placed = place_build(read_build(text))
    assert placed.findings == ()
    # The rod's own axis lies 5 above the board's top and 5 inside the corner of the block about it.
    assert placed.transforms["P2"].point((0, 0, 0)) == (10, 25, 25)
