"""Mends that set fields of a build by their paths in the build file."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from typing import Any

from calculators.planning.buildfile.collecting import Collector
from calculators.planning.buildfile.declaration import BUILD_RECORD
from calculators.planning.buildfile.kinds import Flag, Kind, Whole
from calculators.planning.buildfile.parsing import parse
from calculators.planning.buildfile.records import Many, Record, Table
from calculators.planning.model import Build
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

SET = "set"
"""The field of a mend whose value is a list of `path = value`, parted by `; `."""

_STEP = re.compile(r"\.?([a-z_]+)(?:\[([^\]]*)\])?")
_ROOTS = "|".join(BUILD_RECORD.declared)
_PARTED = re.compile(rf"; (?=(?:{_ROOTS})[.\[][^=]* = )")
_KEYS = ("mark", "id", "number", "part", "copy", "result")


def set_fields(build: Build, assignments: str) -> Build:
    """Set fields of a build.

    A path is that of the build file, with a record's own key in brackets: `components[P01].holes[h1].u`,
    `components[P02].poses[1].let_in`, `joints[F03].places[2].u`, `joints[F03].stack[P02].thickness`,
    `steps[4].caution`, `context.position_mm`. A stack's member can be named by its part or by its number from
    nought. A value is written as in the build file, a text or length without quotes; an empty one takes the
    field's default.

    Args:
        build: the build.
        assignments: `path = value`, one or several parted by `; `.

    Returns:
        The build with all of them set; it is not checked whether it holds together.

    Raises:
        InputError: for a path that leads nowhere, or a value that the field does not take.

    Source: this project.

    Example:
        >>> from calculators.planning.model import Component
        >>> build = Build("B1", "Box", components=(Component("P1", "Lid"),))
        >>> set_fields(build, "components[P1].name = Cover").components[0].name
        'Cover'
    """
    for assignment in _PARTED.split(assignments):
        path, equals, value = assignment.partition(" = ")
        if not equals:
            path, value = assignment.removesuffix(" ="), ""
        steps = [(each[1], each[2]) for each in _STEP.finditer(path.strip())]
        if not steps or "".join(f".{n}" + (f"[{k}]" if k is not None else "") for n, k in steps) != (
            f".{path.strip()}"
        ):
            raise _nowhere(path)
        build = _set(BUILD_RECORD, build, steps, value, path, build)
    return build


def _nowhere(path: str) -> InputError:
    return InputError.of(f"{quoted(path)} is no field of the build.", field="path")


def _set(
    record: Record, held: Any, steps: list[tuple[str, str | None]], value: str, path: str, build: Build
) -> Any:
    """The record with the field at the end of the steps set."""
    (name, key), rest = steps[0], steps[1:]
    if name not in record.declared:
        raise _nowhere(path)
    kind, now = record.declared[name].kind, getattr(held, name)
    if key is None:
        if not rest:
            return replace(held, **{name: _read(record, name, kind, value, path, build)})
        if isinstance(kind, Record):
            inner = now if now is not None else kind.make()
            return replace(held, **{name: _set(kind, inner, rest, value, path, build)})
    elif isinstance(kind, Table) and not rest:
        table = {**dict(now), key: kind.kind.read(_raw(kind.kind, value), path, _strict(build))}
        return replace(held, **{name: tuple(table.items())})
    elif isinstance(kind, Many) and isinstance(kind.kind, Record):
        index = _index(now, key)
        if index is None:
            raise _nowhere(path)
        if rest:
            new = (*now[:index], _set(kind.kind, now[index], rest, value, path, build), *now[index + 1 :])
        elif not value:  # the record itself goes
            new = (*now[:index], *now[index + 1 :])
        else:
            raise _nowhere(path)
        return replace(held, **{name: new})
    raise _nowhere(path)


def _index(records: tuple[Any, ...], key: str) -> int | None:
    """Where the record with a key stands; by its number where none has the key."""
    for index, one in enumerate(records):
        if any(str(getattr(one, name, "")) == key for name in _KEYS):
            return index
    return int(key) if key.isascii() and key.isdigit() and int(key) < len(records) else None


class _Strict(Collector):
    """A collector that raises at once."""

    def fault(self, at: str, says: str, *args: Any, **more: Any) -> None:
        """Raise the fault."""
        raise InputError.of(says, field=at)


def _strict(build: Build) -> Collector:
    return _Strict(build.unit)


def _read(record: Record, name: str, kind: Kind, value: str, path: str, build: Build) -> Any:
    if not value:
        if name in record.required:
            raise InputError.of(f"{quoted(path)} cannot be left empty.", field="path")
        return record.defaults[name]
    return kind.read(_raw(kind, value), path, _strict(build))


def _raw(kind: Kind, value: str) -> Any:
    """The JSON value that a text stands for: itself, or the number, flag or list that the field takes."""
    return parse(value if isinstance(kind, (Flag, Whole, Many, Table, Record)) else json.dumps(value))
