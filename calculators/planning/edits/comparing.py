"""What differs between two builds, field by field, in the words in which people read it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, fields, is_dataclass, replace
from datetime import date
from decimal import Decimal
from typing import Any

from calculators.planning.model import (
    AssemblyStep,
    Bend,
    Build,
    Context,
    Hole,
    LayerHole,
    Photograph,
    Place,
    Pocket,
    Pose,
    Reading,
    Release,
    ResultLimit,
    Size,
    StackMember,
)
from calculators.quantities.length import Length


@dataclass(frozen=True, slots=True)
class FieldChange:
    """One field of one record: what it was and what it is, each as people read it.

    `kind` is `build` or that of the record (`component`, `stock`), `key` its mark, number or id,
    and `field` the path in it (`size.length`, `holes[h1].diameter`). A record that is new or gone has no
    field, and what it is called stands as new or old.
    """

    kind: str
    key: str
    field: str
    old: str
    new: str


_LABELS: dict[type, Callable[[Any], str]] = {
    Pose: lambda one: str(one.copy),
    Hole: lambda one: str(one.id),
    Pocket: lambda one: str(one.id),
    Bend: lambda one: str(one.id),
    Place: lambda one: str(one.id),
    Photograph: lambda one: str(one.id),
    StackMember: lambda one: str(one.part or one.item),
    LayerHole: lambda one: " ".join(one.places) or "all",
    ResultLimit: lambda one: f"{one.result} {one.bound}",
}
_OWN = (
    "components", "joints", "steps", "entries", "calculations", "stock", "readings", "moisture", "releases",
    "acceptances",
)  # fmt: skip
_NAMED = ("inputs", "ties")
"""Texts by name, each of which is told by itself."""


def compare_builds(old: Build, new: Build) -> tuple[FieldChange, ...]:
    """Compare two states of a build.

    A step that only moved is told by its number alone.

    Args:
        old: the build as it was.
        new: the build as it is.

    Returns:
        The changes: of the build itself, its components, joints, steps, entries and so on, in order.

    Source: this project.

    Example:
        >>> from calculators.planning.model import Component
        >>> one, two = (Build("B1", "Box", components=(Component("P1", name),)) for name in ("Lid", "Cover"))
        >>> [(each.key, each.field, each.old, each.new) for each in compare_builds(one, two)]
        [('P1', 'name', 'Lid', 'Cover')]
    """
    if old == new:
        return ()
    found = list(_build_changes(old, new))
    for kind, field in (("component", "components"), ("joint", "joints")):
        found += _records(kind, getattr(old, field), getattr(new, field), lambda one: str(one.mark))
    found += _steps(old.steps, new.steps)
    found += _records("entry", old.entries, new.entries, lambda one: str(one.id))
    found += _records("calculation", old.calculations, new.calculations, lambda one: str(one.mark))
    found += _records("stock", old.stock, new.stock, lambda one: str(one.mark))
    for kind, field in (("reading", "readings"), ("moisture", "moisture"), ("release", "releases")):
        found += _records(kind, getattr(old, field), getattr(new, field), lambda one: str(one.id))
    found += _records("acceptance", old.acceptances, new.acceptances, lambda one: str(one.id))
    return tuple(found)


def _build_changes(old: Build, new: Build) -> Iterator[FieldChange]:
    for one in fields(Build):
        if one.name not in _OWN:
            yield from _within("build", new.number, one.name, getattr(old, one.name), getattr(new, one.name))
    for name in ("components", "joints", "calculations", "stock"):
        yield from _order(old, new, name)


def _order(old: Build, new: Build, name: str) -> Iterator[FieldChange]:
    """Tell another order of what is in both: the marks from the first to the last that stand elsewhere."""
    before, after = ([one.mark for one in getattr(build, name)] for build in (old, new))
    if before == after:
        return
    both = set(before) & set(after)
    before, after = ([mark for mark in marks if mark in both] for marks in (before, after))
    moved = [i for i, (one, other) in enumerate(zip(before, after, strict=True)) if one != other]
    if moved:
        span = slice(moved[0], moved[-1] + 1)
        yield FieldChange("build", new.number, name, ", ".join(before[span]), ", ".join(after[span]))


def _records(
    kind: str, old: Iterable[Any], new: Iterable[Any], key_of: Callable[[Any], str]
) -> Iterator[FieldChange]:
    had = {key_of(one): one for one in old}
    has = {key_of(one): one for one in new}
    for key, one in had.items():
        if key not in has:
            yield FieldChange(kind, key, "", _called(one), "")
    for key, one in has.items():
        if key not in had:
            yield FieldChange(kind, key, "", "", _called(one))
        elif (before := had[key]) != one:
            yield from _fields(kind, key, "", before, one)


def _steps(old: tuple[AssemblyStep, ...], new: tuple[AssemblyStep, ...]) -> Iterator[FieldChange]:
    """Steps by their number; those that only moved are paired by all else that they say."""
    stayed = set(old) & set(new)
    had = [one for one in old if one not in stayed]
    has = [one for one in new if one not in stayed]
    places = {replace(one, number=0): one for one in had}
    for one in list(has):
        before = places.pop(replace(one, number=0), None)
        if before is not None:
            had.remove(before)
            has.remove(one)
            yield FieldChange("step", str(one.number), "number", str(before.number), str(one.number))
    yield from _records("step", had, has, lambda one: str(one.number))


def _called(record: Any) -> str:
    """What a whole record is called, where it is new or gone."""
    if isinstance(record, Release):
        return f"{record.mark} {record.revision}"
    if isinstance(record, Reading):
        return f"{record.of} {as_read(record.value)}"
    for name in ("name", "title", "text", "called", "says"):
        value = getattr(record, name, "")
        if value:
            return str(value)
    return as_read(record)


def _fields(kind: str, key: str, path: str, old: Any, new: Any) -> Iterator[FieldChange]:
    for one in fields(old):
        before, after = getattr(old, one.name), getattr(new, one.name)
        if before is not after and before != after:
            yield from _within(kind, key, f"{path}.{one.name}" if path else one.name, before, after)


def _within(kind: str, key: str, path: str, old: Any, new: Any) -> Iterator[FieldChange]:
    """The changes of one field, inside it where it holds records."""
    if old == new:
        return
    if isinstance(old, (Size, Context)) or isinstance(new, (Size, Context)):
        empty = type(old if old is not None else new)()
        yield from _fields(kind, key, path, empty if old is None else old, empty if new is None else new)
        return
    if kind == "calculation" and path in _NAMED:
        had, has = dict(old), dict(new)
        for name in dict.fromkeys((*had, *has)):
            if had.get(name) != has.get(name):
                yield FieldChange(kind, key, f"{path}[{name}]", had.get(name, ""), has.get(name, ""))
        return
    sample = next(iter((*old, *new)), None) if isinstance(old, tuple) and isinstance(new, tuple) else None
    if type(sample) in _LABELS:
        yield from _listed(kind, key, path, old, new)
    else:
        yield FieldChange(kind, key, path, as_read(old), as_read(new))


def _listed(kind: str, key: str, path: str, old: Any, new: Any) -> Iterator[FieldChange]:
    """The changes in a list of records, paired by their ids; of several with one name, in their order."""
    had, has = _labelled(old), _labelled(new)
    for label, one in had.items():
        if label not in has:
            yield FieldChange(kind, key, f"{path}[{label}]", as_read(one), "")
    for label, one in has.items():
        if label not in had:
            yield FieldChange(kind, key, f"{path}[{label}]", "", as_read(one))
        elif had[label] != one:
            yield from _fields(kind, key, f"{path}[{label}]", had[label], one)
    both = [label for label in had if label in has]
    if both != (after := [label for label in has if label in had]):
        yield FieldChange(kind, key, path, ", ".join(both), ", ".join(after))


def _labelled(records: Iterable[Any]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for one in records:
        name = label = _LABELS[type(one)](one)
        number = 1
        while label in found:
            number += 1
            label = f"{name} {number}"
        found[label] = one
    return found


def as_read(value: Any) -> str:
    """Write a value of a record as people read it.

    Args:
        value: a text, number, length, date, yes or no, a record, or a list of them.

    Returns:
        The text; a record as what it says, field by field; nothing for what is not given.

    Source: this project.

    Example:
        >>> as_read(True), as_read(Length(317500000, "1 1/4", "in")), as_read(("P1", "P2"))
        ('yes', '1 1/4 in', 'P1, P2')
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Length):
        if not value.written:
            return f"{value.exact_mm:f} mm"
        bare = not any(sign.isalpha() or sign in "\"'″′" for sign in value.written)
        return f"{value.written} {value.unit}" if bare else value.written
    if isinstance(value, Decimal):
        return f"{value:f}"
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return ", ".join(
            " ".join(map(as_read, one)) if isinstance(one, tuple) else as_read(one) for one in value
        )
    if is_dataclass(value):
        said = ((one.name.replace("_", " "), getattr(value, one.name)) for one in fields(value))
        return ", ".join(
            f"{name} {as_read(each)}" for name, each in said if each not in (None, "", (), False)
        )
    return str(value)
