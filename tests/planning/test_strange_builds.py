"""Builds that have been tampered with: only sentences come out, nothing is endless, and the rest is worked out."""

from __future__ import annotations

import copy
import json
import math
import random
import re
import time
import xml.etree.ElementTree as ElementTree
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

import pytest

from calculators.drawing.section import joint_section
from calculators.planning.files import read_build
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Build
from calculators.planning.schedules import (
    assembly_list,
    buying_list,
    cut_list,
    fastener_schedule,
    hole_schedule,
)
from calculators.planning.schedules.spreadsheet import schedule_csv
from calculators.quantities.errors import InputError
from tests.benchmarks.yardstick import yardstick

FILES = sorted((Path(__file__).parents[2] / "buildlog/builds/demonstration").glob("*.json"))

ODD = (
    "0", "-1", "1e9", "0.0001", "1/0", "", None, True, -5, 0, 3.7, [], {}, "top", "side", "P01", "P02.1", "other", "round",
    "M5 x 20 csk", "No. 8 x 1 csk brass", "M5 nut", "thread", "insert", "brass", "\u202eabc", "<b>x</b>", "45",
    {"mm": "0"}, {"mm": "100000"}, {"written": "3/8 in", "mm": "9.525"},
)  # fmt: skip


SIZES = [
    "0.0000001",
    "0.01",
    "1",
    "2.5",
    "6",
    "12.7",
    "1/64 in",
    "3 15/16 in",
    "333.3333333",
    "99999",
    "100000",
]
SPOTS = [*SIZES, "0", "-0.0000001", "-25", "-0.5 in", "-100000"]
TURNS = ["0", "-0.000000000001", "30.5", "45", "89.999999", "90", "180", "-180", "359.999999999", "-360"]
CONES = ["1", "82", "90", "179", "178.999999999"]
YES_NO = [True, False]
FACES = ["top", "bottom", "front", "back", "left", "right", "side"]
TEXTS = [
    "<script>alert(1)</script>",
    '"><svg onload=x>',
    "]]></style>",
    "&amp;&#0;",
    "\u202eabc",
    "a\u0301" * 10,
    "=1+1",
    "{{ 7*7 }}",
    "\u2028",
    "x" * 190,
]

ABSURD: dict[str, list[Any]] = {
    **dict.fromkeys(("u", "v", "let_in", "stands"), SPOTS),
    **dict.fromkeys(
        ("length", "width", "thickness", "diameter", "bore", "depth", "thread_depth", "drilled_depth", "edge", "end", "outside", "body",
         "countersink_diameter", "counterbore_diameter", "counterbore_depth", "slot_length", "cutter", "head_diameter", "head_height"), SIZES),
    **dict.fromkeys(("angle_deg", "turned_deg"), TURNS),
    **dict.fromkeys(("head_angle_deg", "countersink_angle_deg", "wood_screw_head_angle_deg"), CONES),
    **dict.fromkeys(("face", "own_face"), FACES),
    **dict.fromkeys(("name", "title", "note", "tool", "lock", "supplier", "reason", "caution", "client", "text"), TEXTS),
    **dict.fromkeys(("wet", "steel_first", "loaded_sideways", "clamps", "reused", "squared", "pilot"), YES_NO),
    "shape": ["", "block", "round"], "hand": ["same", "other"], "point": ["corner", "centre"], "grain": ["", "side", "end"],
    "takes": ["", "clearance", "thread", "pilot", "insert", "plain"], "seat": ["", "surface", "flush", "counterbore", "proud"],
    "kind": ["clearance", "tapping", "pilot", "insert", "plain", "slot", "reamed"], "slot_along": ["", "u", "v"],
    "quantity": [1, 2, 17, 100_000], "count": [0, 1, 1_000_000], "torque_nm": ["0", "0.000000000001", "100000"],
    "tapping_percent": ["1", "100"], "moisture_change_percent": ["0", "0.000000000001", "30"], "unit": ["mm", "in"],
    "material": ["oak", "brass", "mild steel", "MDF", "balsa", "lignum vitae", "glass", "acrylic", "no such thing", ""],
    "thread": ["M5", "M5x0.5", "2 BA", "1/4 BSW", "M64", "M1", "nonsense"],
    "fastener": ["M5 x 20 csk slotted brass", "M3 x 5000 mm pan steel", "M64 x 20 hex steel", "No. 0 x 6 in csk brass", "M6 x 4 grub hex socket",
                 "No. 24 x 1/4 csk steel", "2 BA x 1/2 cheese slotted brass", "M10 x 120 coach bolt steel", "5/16 BSF x 2 hex set screw steel"],
    "item": ["M5 washer", "M5 nut", "M4 insert", "M64 nut", "No. 8 cup washer", "M5 spring washer", "2 BA nut", "M6 dome nut"],
}  # fmt: skip
"""For each field of a file what may stand in it and never ought to."""

ADDED = {
    "components": ("poses", "holes", "pockets", "made_size", "quantity", "reused"),
    "joints": ("seat", "stands", "head_diameter", "head_height", "head_angle_deg", "count", "wet", "clamps", "face"),
    "stack": ("thickness", "outside", "body", "takes", "thread", "thread_depth", "drilled_depth", "edge", "end", "grain", "holes"),
}  # fmt: skip
RECORDS = {
    "poses": ("u", "v", "face", "own_face", "angle_deg", "turned_deg", "let_in", "hand", "point"),
    "pockets": ("face", "u", "v", "length", "width", "depth", "cutter"),
    "made_size": ("shape", "length", "width", "thickness", "diameter"),
    "holes": ("kind", "diameter", "depth", "slot_length", "slot_along", "countersink_diameter", "countersink_angle_deg",
              "counterbore_diameter", "counterbore_depth"),
}  # fmt: skip


def nodes(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Every place in a file, as a path."""
    found = [path] if path else []
    if isinstance(value, dict):
        for key, inner in value.items():
            found += nodes(inner, (*path, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            found += nodes(inner, (*path, index))
    return found


def at(value: Any, path: tuple[Any, ...]) -> Any:
    for step in path:
        value = value[step]
    return value


def tampered(whole: dict[str, Any], chance: random.Random) -> dict[str, Any]:
    """One or two places taken out, doubled, or given what stands elsewhere or nowhere."""
    whole = copy.deepcopy(whole)
    for _ in range(chance.choice((1, 1, 1, 2))):
        places = nodes(whole)
        path = chance.choice(places)
        holder, key, way = at(whole, path[:-1]), path[-1], chance.random()
        if way < 0.25:
            del holder[key]
        elif way < 0.8 or not isinstance(holder, list):
            alike = [at(whole, other) for other in places if other[-1] == key]
            holder[key] = copy.deepcopy(chance.choice(alike if chance.random() < 0.8 else ODD))
        else:
            holder.insert(chance.randrange(len(holder) + 1), copy.deepcopy(holder[key]))
    return whole


def absurd_value(name: str, holder: str, marks: list[str], chance: random.Random) -> Any:
    """A value for a field: one that it may have, or a record or a list of one filled with such."""
    if name not in RECORDS:
        return chance.choice(ABSURD[name])
    record: dict[str, Any] = {field: chance.choice(ABSURD[field]) for field in RECORDS[name]}
    if name == "made_size":
        return record
    if name == "poses":
        record |= {"copy": 1, "on": chance.choice([*marks, ""])}
    elif name == "pockets" or holder == "components":
        record |= {
            "id": "z",
            "face": chance.choice(FACES),
            "u": chance.choice(SPOTS),
            "v": chance.choice(SPOTS),
        }
    return [record]


def made_absurd(whole: dict[str, Any], chance: random.Random, times: int) -> dict[str, Any]:
    """Fields given absurd values, or added with them, as long as the file can still be read."""
    marks = [one["mark"] for one in whole["components"]]
    for _ in range(times):
        changed = copy.deepcopy(whole)
        places = nodes(changed)
        if chance.random() < 0.5:
            path = chance.choice([path for path in places if path[-1] in ABSURD])
            at(changed, path[:-1])[path[-1]] = chance.choice(ABSURD[path[-1]])
        else:
            path = chance.choice([path for path in places if len(path) > 1 and path[-2] in ADDED])
            name = chance.choice(ADDED[path[-2]])
            at(changed, path)[name] = absurd_value(name, path[-2], marks, chance)
        try:
            read_build(json.dumps(changed))
        except InputError:
            continue
        whole = changed
    return whole


def not_finite(value: Any) -> bool:
    """Whether a number that is none hides anywhere in a record."""
    if isinstance(value, float):
        return not math.isfinite(value)
    if is_dataclass(value):
        return any(not_finite(getattr(value, field.name)) for field in fields(value))
    return isinstance(value, (tuple, list)) and any(map(not_finite, value))


def work_all_of(text: str) -> bool:
    """Read, work out, list and draw; False where the file was refused."""
    try:
        build = read_build(text)
    except InputError as error:
        refusal = error
    else:
        return work_through(build)
    assert all(fault.says.strip() for fault in refusal.faults)
    return False


def work_through(build: Build) -> bool:
    """Work out, list and draw a build that was read."""
    worked = inspect_build(build)
    assert not not_finite((worked.joints, worked.holes))
    for finding in worked.findings:
        assert finding.says.strip()
        assert finding.source.strip()
        assert all(value is None or math.isfinite(value) for value in (finding.value, finding.limit))
    assert fastener_schedule(build, worked).total >= 0
    assert len(hole_schedule(build, worked)) == len(worked.holes)
    schedules = (
        hole_schedule(build, worked),
        buying_list(build, worked),
        cut_list(build),
        assembly_list(build).steps,
    )
    for rows in schedules:
        assert not not_finite(rows)
        if rows:
            assert schedule_csv(type(rows[0]), rows).count("\n") > len(rows)
    names = {one.mark: one.name for one in build.components}
    for joint in worked.joints:
        drawn = joint_section(joint.result, names=names)
        assert not re.search(r'="[^"]*\b(nan|inf)\b', drawn)
        ElementTree.fromstring(drawn)  # whatever the names are, it is whole XML
    return True


@pytest.mark.parametrize("seed", range(8))
def test_a_file_tampered_with_is_refused_or_worked_out(seed: int) -> None:
    chance = random.Random(seed)
    wholes = [json.loads(path.read_text()) for path in FILES]
    outcomes = [work_all_of(json.dumps(tampered(chance.choice(wholes), chance))) for _ in range(25)]
    assert any(outcomes)
    assert not all(outcomes)


@pytest.mark.parametrize("seed", range(6))
def test_a_file_of_absurd_values_that_can_be_read_is_worked_out(seed: int) -> None:
    chance = random.Random(seed)
    wholes = [json.loads(path.read_text()) for path in FILES]
    for _ in range(12):
        absurd = made_absurd(chance.choice(wholes), chance, chance.choice((1, 6, 15)))
        began = time.process_time()
        assert work_all_of(json.dumps(absurd))
        assert (time.process_time() - began) / yardstick() < 100  # a twentieth of it is usual


def block(mark: str, **more: Any) -> dict[str, Any]:
    size = {"shape": "block", "length": "100", "width": "50", "thickness": "20"}
    return {"mark": mark, "name": mark, "material": "oak", "size": size, **more}


def test_a_heap_of_parts_in_one_place_gets_a_sentence_for_each_joint() -> None:
    heap = [
        block(f"C{i}", poses=[{"copy": 1, "on": "A", "face": "bottom", "own_face": "top"}])
        for i in range(300)
    ]
    joints = [
        {
            "mark": f"J{i}", "title": "j", "fastener": "No. 8 x 1 3/4 csk brass", "home": "A", "face": "top",
            "places": [{"id": "1", "u": "10", "v": "10"}],
        }
        for i in range(20)
    ]  # fmt: skip
    whole = {
        "schema_version": 1,
        "number": "B1",
        "title": "Heap",
        "components": [block("A", poses=[{"copy": 1}]), *heap],
    }
    worked = inspect_build(read_build(json.dumps({**whole, "joints": joints})))
    assert worked.joints == ()
    told = [finding.says for finding in worked.findings if finding.rule == "cannot-be-worked-out"]
    assert len(told) == 20
    assert "goes through 301 layers; a joint has at most 60" in told[0]


def test_a_long_chain_of_parts_is_followed_to_its_end() -> None:
    chain = [block("A0", poses=[{"copy": 1}])]
    chain += [
        block(f"A{i}", poses=[{"copy": 1, "on": f"A{i - 1}", "u": "1", "v": "1"}]) for i in range(1, 1500)
    ]
    whole = {"schema_version": 1, "number": "B1", "title": "Chain", "components": chain}
    worked = inspect_build(read_build(json.dumps(whole)))
    assert [finding for finding in worked.findings if finding.rule == "pose"] == []


def test_a_long_chain_on_a_part_without_sizes_is_told_part_by_part_and_quickly() -> None:
    chain = [{"mark": "A0", "name": "No size"}]
    chain += [block(f"A{i}", poses=[{"copy": 1, "on": f"A{i - 1}"}]) for i in range(1, 1500)]
    whole = {"schema_version": 1, "number": "B1", "title": "Chain", "components": chain}
    began = time.process_time()
    worked = inspect_build(read_build(json.dumps(whole)))
    assert (
        time.process_time() - began
    ) / yardstick() < 60  # looking at all of them again for each takes longer
    assert len([finding for finding in worked.findings if finding.rule == "pose"]) == 1499


def test_a_section_with_hundreds_of_findings_stays_a_drawing() -> None:
    heap = [block(f"H{i}", poses=[{"copy": 1}]) for i in range(12)]
    joint = {
        "mark": "J1", "title": "j", "fastener": "No. 8 x 1 3/4 csk brass", "home": "H0", "face": "top",
        "places": [{"id": str(i), "u": str(i % 99 + 0.5), "v": "10"} for i in range(60)],
    }  # fmt: skip
    whole = {"schema_version": 1, "number": "B1", "title": "Heap", "components": heap, "joints": [joint]}
    worked = inspect_build(read_build(json.dumps(whole)))
    findings = [finding for finding in worked.findings if finding.joint == "J1"]
    assert len(findings) > 500
    drawn = joint_section(worked.joints[0].result, findings=findings)
    assert drawn.count("<text") < 500
    on_the_section = [one for one in findings if one.severity in ("error", "warning") and not one.spots]
    assert f"And {len(on_the_section) - 48:,} more findings." in drawn
