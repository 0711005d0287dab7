"""An edit is refused where it would leave the build without sense, in the sentences of a file's reader."""

from __future__ import annotations

import json
from collections import Counter
from typing import Any

from calculators.planning.buildfile import declaration
from calculators.planning.buildfile.collecting import Collector
from calculators.planning.buildfile.consistency import check_build
from calculators.planning.buildfile.parsing import parse
from calculators.planning.buildfile.records import Record
from calculators.planning.model import Build
from calculators.quantities.errors import Fault, InputError

_RECORDS: dict[str, Record] = {
    "components": declaration.COMPONENT_RECORD,
    "joints": declaration.JOINT_RECORD,
    "steps": declaration.STEP_RECORD,
    "entries": declaration.ENTRY_RECORD,
    "calculations": declaration.CALCULATION_RECORD,
    "stock": declaration.STOCK_RECORD,
    "readings": declaration.READING_RECORD,
    "moisture": declaration.MOISTURE_RECORD,
    "releases": declaration.RELEASE_RECORD,
    "acceptances": declaration.ACCEPTANCE_RECORD,
}


def checked(before: Build, after: Build, field: str, index: int) -> Build:
    """Check a build in which one record is new or changed; faults that were there before do not stop it.

    Args:
        before: the build before the edit.
        after: the build after it.
        field: where the record stands: `components`, `joints`, `stock` and so on.
        index: [1] which of them, from 0.

    Returns:
        The build after the edit.

    Raises:
        InputError: with each fault that the edit brings; its `field` is the place in the record.

    Source: this project.
    """
    record = getattr(after, field)[index]
    _check_fields(record, _RECORDS[field], after)
    _check_whole(before, after, f"{field}[{index}]")
    return after


def _check_fields(record: Any, declared: Record, build: Build) -> None:
    """Write the record and read it again: what a file could not hold is refused."""
    collector = Collector(build.unit)
    declared.read(parse(json.dumps(declared.write(record, build.unit))), "", collector)
    collector.raise_if_any()


def _check_whole(before: Build, after: Build, place: str) -> None:
    faults = _faults(after)
    if not faults:
        return
    had = Counter(fault.says for fault in _faults(before))
    new: list[Fault] = []
    for fault in faults:
        if had[fault.says]:
            had[fault.says] -= 1
        else:
            new.append(_in_record(fault, place))
    if new:
        raise InputError(*new)


def _faults(build: Build) -> list[Fault]:
    collector = Collector(build.unit)
    check_build(build, collector)
    return collector.faults


def _in_record(fault: Fault, place: str) -> Fault:
    """The fault with its place told from the record on, where it lies in the record."""
    if not fault.field.startswith((f"{place}.", f"{place} ")):
        return fault
    inside = fault.field.removeprefix(place).partition(".")[2]
    return Fault(fault.says, inside, fault.choices, fault.value, fault.limit, fault.unit)
