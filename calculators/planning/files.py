"""The door to the build file: reading, writing, and the JSON Schema that says the same."""

from __future__ import annotations

import json
from typing import Any

from calculators.planning.buildfile.collecting import Collector
from calculators.planning.buildfile.consistency import check_build
from calculators.planning.buildfile.declaration import BUILD_RECORD
from calculators.planning.buildfile.kinds import kind_of_json
from calculators.planning.buildfile.lengths import LENGTH_SCHEMA
from calculators.planning.buildfile.parsing import NumberText, parse
from calculators.planning.model import Build
from calculators.quantities.errors import InputError

SCHEMA_VERSION = 1
"""The version of the build file that is written, and the newest that is read."""

_EXTRA = ("schema_version", "$schema")


def read_build(data: bytes | str) -> Build:
    """Read a build file.

    Args:
        data: the file: UTF-8 JSON of at most 64 MiB, with or without a byte order mark.

    Returns:
        The build; `read_build(write_build(build)) == build`.

    Raises:
        InputError: with all faults (50 are told, the rest counted); each fault's `field` is its place,
            such as `components[3] (P07).size.length`.

    Source: this project.

    Example:
        >>> read_build('{"schema_version": 1, "number": "B1", "title": "Stool"}').title
        'Stool'
    """
    raw = parse(data)
    collector = Collector()
    if not isinstance(raw, dict):
        raise InputError.of(f"A build file is a JSON object, not {kind_of_json(raw)}.")
    _check_version(raw.get("schema_version"))
    if raw.get("unit") == "in":
        collector.unit = "in"
    build: Build = BUILD_RECORD.read(raw, "", collector, _EXTRA)
    check_build(build, collector)
    collector.raise_if_any()
    return build


def _check_version(raw: Any) -> None:
    """Refuse a file of another version before anything else is said of it."""
    if raw == str(SCHEMA_VERSION) and isinstance(raw, NumberText):
        return
    if isinstance(raw, NumberText) and raw.isdecimal() and raw.isascii() and raw.strip("0"):
        says = (
            f"This file is of version {raw[:12]} of the build file, which is newer than version "
            f"{SCHEMA_VERSION} that is read here; read it with a newer Oddleg."
        )
    elif raw is None:
        says = f'This is no build file: it has no "schema_version"; write "schema_version": {SCHEMA_VERSION}.'
    else:
        says = f"The version of a build file is {SCHEMA_VERSION}, not {kind_of_json(raw)}."
    raise InputError.of(says, field="schema_version")


def write_build(build: Build) -> bytes:
    """Write a build file: UTF-8 JSON in the model's order, indented by two spaces, defaults left out.

    Lengths are objects of what was written and exact millimetres; other decimals are strings of plain
    digits; dates are ISO 8601. Equal builds give equal bytes.

    Args:
        build: the build.

    Returns:
        The bytes, ending in a line feed.

    Source: this project.

    Example:
        >>> print(write_build(Build("B1", "Stool")).decode(), end="")
        {
          "schema_version": 1,
          "number": "B1",
          "title": "Stool",
          "unit": "mm"
        }
    """
    shown = {"schema_version": SCHEMA_VERSION, **BUILD_RECORD.write(build, build.unit)}
    return (json.dumps(shown, ensure_ascii=False, indent=2) + "\n").encode("utf-8")


def schema() -> dict[str, Any]:
    """Describe the build file as a JSON Schema (2020-12), from the declaration that reads and writes it.

    The schema says the form of a file. What holds between its parts (unique marks, marks that exist, a
    tree without a ring, readable fastener lines) is checked by `read_build` alone.

    Returns:
        The schema as a new dict.

    Source: JSON Schema 2020-12 (from memory).

    Example:
        >>> schema()["required"]
        ['schema_version', 'number', 'title']
    """
    top = BUILD_RECORD.definition()
    version = {"description": "The version of the build file.", "const": SCHEMA_VERSION}
    records = sorted(BUILD_RECORD.inner(), key=lambda record: record.name)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Oddleg build file",
        **top,
        "properties": {"$schema": {"type": "string"}, "schema_version": version, **top["properties"]},
        "required": ["schema_version", *top["required"]],
        "$defs": {
            "length": LENGTH_SCHEMA,
            **{record.name: record.definition() for record in records if record is not BUILD_RECORD},
        },
    }
