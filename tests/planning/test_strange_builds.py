"""Builds that have been tampered with: only sentences come out, nothing is endless, and the rest is worked out."""

from __future__ import annotations

import copy
import json
import math
import random
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
from calculators.quantities.errors import InputError

FILES = sorted((Path(__file__).parents[2] / "buildlog/builds/demonstration").glob("*.json"))

ODD = (
    "0", "-1", "1e9", "0.0001", "1/0", "", None, True, -5, 0, 3.7, [], {}, "top", "side", "P01", "P02.1", "other", "round",
    "M5 x 20 csk", "No. 8 x 1 csk brass", "M5 nut", "thread", "insert", "brass", "\u202eabc", "<b>x</b>", "45",
    {"mm": "0"}, {"mm": "100000"}, {"written": "3/8 in", "mm": "9.525"},
)  # fmt: skip


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
    for finding in worked.findings:
        assert finding.says.strip()
        assert finding.source.strip()
        assert all(value is None or math.isfinite(value) for value in (finding.value, finding.limit))
    assert fastener_schedule(build, worked).total >= 0
    assert len(hole_schedule(build, worked)) == len(worked.holes)
    buying_list(build, worked)
    assembly_list(build)
    cut_list(build)
    for joint in worked.joints:
        assert "nan" not in joint_section(joint.result)
    return True


@pytest.mark.parametrize("seed", range(8))
def test_a_file_tampered_with_is_refused_or_worked_out(seed: int) -> None:
    chance = random.Random(seed)
    wholes = [json.loads(path.read_text()) for path in FILES]
    outcomes = [work_all_of(json.dumps(tampered(chance.choice(wholes), chance))) for _ in range(25)]
    assert any(outcomes)
    assert not all(outcomes)


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
