"""A build as separate documents: its header and each component, joint, step and so on, by kind and key.

A document is one record in the form of the build file, on one line, where a bare length is millimetres
whatever the build's unit, so that a change of unit changes no document.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache
from typing import Any, Literal

from calculators.planning.buildfile.collecting import Collector
from calculators.planning.buildfile.consistency import check_build
from calculators.planning.buildfile.declaration import (
    ACCEPTANCE_RECORD,
    BUILD_RECORD,
    CALCULATION_RECORD,
    COMPONENT_RECORD,
    CONTEXT_RECORD,
    ENTRY_RECORD,
    JOINT_RECORD,
    MOISTURE_RECORD,
    READING_RECORD,
    RELEASE_RECORD,
    STEP_RECORD,
    STOCK_RECORD,
)
from calculators.planning.buildfile.parsing import parse
from calculators.planning.buildfile.records import Record
from calculators.planning.model import (
    Acceptance,
    AssemblyStep,
    Build,
    Calculation,
    Component,
    Context,
    Entry,
    Joint,
    Moisture,
    Reading,
    Release,
    Stock,
)

Kind = Literal[
    "build", "component", "joint", "step", "entry", "calculation", "stock", "reading", "moisture", "release",
    "acceptance",
]  # fmt: skip
"""The kinds of document; `build` is the header, with the key ''."""

AnyRecord = (
    Build | Component | Joint | AssemblyStep | Entry | Calculation | Stock | Reading | Moisture | Release
    | Acceptance
)  # fmt: skip
Name = tuple[Kind, str]

RECORDS: dict[Kind, Record] = {
    "build": BUILD_RECORD,
    "component": COMPONENT_RECORD,
    "joint": JOINT_RECORD,
    "step": STEP_RECORD,
    "entry": ENTRY_RECORD,
    "calculation": CALCULATION_RECORD,
    "stock": STOCK_RECORD,
    "reading": READING_RECORD,
    "moisture": MOISTURE_RECORD,
    "release": RELEASE_RECORD,
    "acceptance": ACCEPTANCE_RECORD,
}
_FIELDS: dict[Kind, str] = {
    "component": "components",
    "joint": "joints",
    "step": "steps",
    "entry": "entries",
    "calculation": "calculations",
    "stock": "stock",
    "reading": "readings",
    "moisture": "moisture",
    "release": "releases",
    "acceptance": "acceptances",
}


def key_of(kind: Kind, record: Any) -> str:
    """The key of a record: the mark of a component, joint or calculation, a step's number, an entry's id.

    Args:
        kind: the kind of document.
        record: the record.

    Returns:
        The key; '' for the header.

    Source: this project.

    Example:
        >>> key_of("joint", Joint("F03", "Pillar to base", "M5 x 20 csk"))
        'F03'
    """
    match kind:
        case "component" | "joint" | "calculation" | "stock":
            return str(record.mark)
        case "step":
            return str(record.number)
        case "entry" | "reading" | "moisture" | "release" | "acceptance":
            return str(record.id)
    return ""


def header_of(build: Build) -> Build:
    """The build without its records.

    Args:
        build: the build.

    Returns:
        Number, title, context and all else that stands once.

    Source: this project.

    Example:
        >>> header_of(Build("B1", "Stool", steps=(AssemblyStep(1, "Glue"),))) == Build("B1", "Stool")
        True
    """
    bare: dict[str, Any] = dict.fromkeys(_FIELDS.values(), ())
    return replace(build, **bare)


def records_of(build: Build) -> Iterator[tuple[Kind, str, AnyRecord]]:
    """Each record of a build with its kind and key, in the build's order; the header is not among them.

    Args:
        build: the build.

    Yields:
        Kind, key and record of each.

    Source: this project.
    """
    for kind, field in _FIELDS.items():
        for record in getattr(build, field):
            yield kind, key_of(kind, record), record


def write_document(kind: Kind, record: Any) -> str:
    """Write one record as a document.

    Args:
        kind: its kind.
        record: the record; of a build, the header alone is written.

    Returns:
        One line of JSON; equal records give equal documents.

    Source: this project.

    Example:
        >>> write_document("step", AssemblyStep(1, "Glue", fits=("P01",)))
        '{"number": 1, "title": "Glue", "fits": ["P01"]}'
    """
    shown = RECORDS[kind].write(header_of(record) if kind == "build" else record, "mm")
    return json.dumps(shown, ensure_ascii=False)


@lru_cache(maxsize=20_000)
def read_document(kind: Kind, text: str) -> Any:
    """Read a document.

    Args:
        kind: its kind.
        text: the document.

    Returns:
        The record; what two builds share is one and the same object.

    Raises:
        InputError: with a fault for each thing that is wrong; its `field` is the place in the record.

    Source: this project.

    Example:
        >>> read_document("step", '{"number": 1, "title": "Glue"}').title
        'Glue'
    """
    collector = Collector("mm")
    record = RECORDS[kind].read(parse(text), "", collector)
    collector.raise_if_any()
    return record


def read_context(text: str) -> Context:
    """Read a context document, such as a workshop's habits that its new builds begin with.

    Args:
        text: the document, in the form of the build file's `context`.

    Returns:
        The context.

    Raises:
        InputError: with a fault for each thing that is wrong.

    Source: this project.

    Example:
        >>> read_context('{"taps": ["M5"]}').taps
        ('M5',)
    """
    collector = Collector("mm")
    record: Context = CONTEXT_RECORD.read(parse(text), "", collector)
    collector.raise_if_any()
    return record


def write_context(context: Context) -> str:
    """Write a context as a document that `read_context` reads.

    Args:
        context: the context.

    Returns:
        One line of JSON.

    Source: this project.

    Example:
        >>> write_context(Context(taps=("M5",)))
        '{"taps": ["M5"]}'
    """
    return json.dumps(CONTEXT_RECORD.write(context, "mm"), ensure_ascii=False)


def build_from(header: Build, records: Iterable[tuple[Kind, Any]]) -> Build:
    """Put a build together.

    Args:
        header: the header.
        records: kind and record of each, in the build's order within each kind.

    Returns:
        The build.

    Source: this project.
    """
    found: dict[Kind, list[Any]] = {kind: [] for kind in _FIELDS}
    for kind, record in records:
        found[kind].append(record)
    held: dict[str, Any] = {field: tuple(found[kind]) for kind, field in _FIELDS.items()}
    return replace(header, **held)


def check_whole(build: Build) -> None:
    """Check what must hold between the records of a build: unique marks, names that exist, a tree.

    Args:
        build: the build, each record of which is sound in itself.

    Raises:
        InputError: with a fault for each thing that does not hold.

    Source: this project.
    """
    collector = Collector(build.unit)
    check_build(build, collector)
    collector.raise_if_any()
