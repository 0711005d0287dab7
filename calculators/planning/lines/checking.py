"""The last gate for a record that a line gave: it must be one that a build file can hold."""

from __future__ import annotations

import json
from collections.abc import Hashable
from functools import cache
from typing import Any, TypeVar

from calculators.planning import model
from calculators.planning.buildfile import declaration as declared
from calculators.planning.buildfile.collecting import Collector
from calculators.planning.buildfile.parsing import parse
from calculators.planning.buildfile.records import Record
from calculators.planning.lines.line import refusal
from calculators.quantities.errors import Fault, InputError

Kept = TypeVar("Kept")


@cache
def _record_of(kind: Hashable) -> Record:
    records: dict[Hashable, Record] = {
        model.Component: declared.COMPONENT_RECORD,
        model.Joint: declared.JOINT_RECORD,
        model.Hole: declared.HOLE_RECORD,
        model.Pocket: declared.POCKET_RECORD,
        model.Pose: declared.POSE_RECORD,
        model.Place: declared.PLACE_RECORD,
        model.AssemblyStep: declared.STEP_RECORD,
        model.Stock: declared.STOCK_RECORD,
        model.Bend: declared.BEND_RECORD,
        model.Reading: declared.READING_RECORD,
        model.Moisture: declared.MOISTURE_RECORD,
    }
    return records[kind]


def kept(record: Kept, unit: model.Unit) -> Kept:
    """Give a record back when a build file can hold it and would give it back the same.

    Args:
        record: what a line can be of.
        unit: [mm or in] the build's unit.

    Returns:
        The record.

    Raises:
        InputError: with what is out of its limits.

    Source: this project.
    """
    made_by: type = type(record)
    kind = _record_of(made_by)
    collector = Collector(unit)
    raw: Any = parse(json.dumps(kind.write(record, unit), ensure_ascii=False))
    again = kind.read(raw, "", collector)
    if collector.faults:
        raise InputError(*(_said(fault) for fault in collector.faults[:5]))
    if again != record:
        raise refusal(
            "This line holds something that cannot be kept as it is written; write it more plainly."
        )
    return record


def _said(fault: Fault) -> Fault:
    place = fault.field.replace("_", " ").replace(".", ", ").strip()
    says = f"{place[:1].upper()}{place[1:]}: {fault.says}" if place else fault.says
    return Fault(says, "line", fault.choices, fault.value, fault.limit, fault.unit)
