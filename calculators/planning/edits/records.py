"""The records of a build by their keys: finding one, putting one in, copying one."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from difflib import get_close_matches
from typing import Any, Literal, cast, get_args

from calculators.planning.buildfile.kinds import is_mark
from calculators.planning.edits.checking import checked
from calculators.planning.edits.renaming import rename_mark
from calculators.planning.marks import marks_of
from calculators.planning.model import (
    Acceptance,
    AssemblyStep,
    Build,
    Calculation,
    Component,
    Entry,
    Joint,
    Moisture,
    Reading,
    Release,
    Stock,
)
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

RecordKind = Literal[
    "component", "joint", "step", "entry", "calculation", "stock", "reading", "moisture", "release",
    "acceptance",
]  # fmt: skip
"""What a build is made of; the key of a step is its number as text, of what has no mark its id."""

AnyRecord = (
    Component | Joint | AssemblyStep | Entry | Calculation | Stock | Reading | Moisture | Release | Acceptance
)


@dataclass(frozen=True, slots=True)
class Shelf:
    """Where the records of a kind stand in a build, and the name of their key."""

    kind: RecordKind
    make: type
    field: str
    key: str


SHELVES: dict[str, Shelf] = {
    "component": Shelf("component", Component, "components", "mark"),
    "joint": Shelf("joint", Joint, "joints", "mark"),
    "step": Shelf("step", AssemblyStep, "steps", "number"),
    "entry": Shelf("entry", Entry, "entries", "id"),
    "calculation": Shelf("calculation", Calculation, "calculations", "mark"),
    "stock": Shelf("stock", Stock, "stock", "mark"),
    "reading": Shelf("reading", Reading, "readings", "id"),
    "moisture": Shelf("moisture", Moisture, "moisture", "id"),
    "release": Shelf("release", Release, "releases", "id"),
    "acceptance": Shelf("acceptance", Acceptance, "acceptances", "id"),
}

MARKED = ("component", "joint", "calculation", "stock")
"""The kinds that have a mark; a mark is unique among them all."""

_CALLED = ("name", "title", "called")
_ONE_OF = {kind: f"a {kind}" for kind in SHELVES} | {
    "entry": "an entry",
    "stock": "a piece of stock",
    "moisture": "a moisture reading",
    "acceptance": "an acceptance",
}


def shelf_of(kind: str) -> Shelf:
    """Give the shelf of a kind.

    Args:
        kind: one of `RecordKind`.

    Returns:
        The shelf.

    Raises:
        InputError: for another kind.

    Source: this project.
    """
    if kind not in SHELVES:
        kinds = get_args(RecordKind)
        raise InputError.of(
            f"There is no kind of record called {quoted(kind)}; there are {', '.join(kinds)}.",
            field="kind",
            choices=kinds,
        )
    return SHELVES[kind]


def key_of(kind: str, record: AnyRecord) -> str:
    """Give the key of a record as text.

    Args:
        kind: its kind.
        record: the record.

    Returns:
        Its mark, number or id.

    Source: this project.

    Example:
        >>> key_of("step", AssemblyStep(3, "Glue"))
        '3'
    """
    return str(getattr(record, shelf_of(kind).key))


def index_of(build: Build, kind: str, key: str) -> int:
    """Find where a record stands among those of its kind.

    Args:
        build: the build.
        kind: one of `RecordKind`.
        key: its mark, number or id.

    Returns:
        Its index [1], from 0.

    Raises:
        InputError: where there is none, with the nearest keys.

    Source: this project.
    """
    shelf = shelf_of(kind)
    keys = [str(getattr(one, shelf.key)) for one in getattr(build, shelf.field)]
    key = str(key).strip()
    if key in keys:
        return keys.index(key)
    near = tuple(get_close_matches(key[:40], dict.fromkeys(keys[:2_000]), n=3, cutoff=0.5))
    meant = f"; did you mean {' or '.join(near)}?" if near else "."
    raise InputError.of(f"There is no {kind} {quoted(key)}{meant}", field="key", choices=near)


def find(build: Build, kind: RecordKind, key: str) -> Any:
    """Find a record of a build.

    Args:
        build: the build.
        kind: one of `RecordKind`.
        key: its mark, its number as text, or its id.

    Returns:
        The record.

    Raises:
        InputError: where there is none, with the nearest keys.

    Source: this project.

    Example:
        >>> find(Build("B1", "Box", components=(Component("P1", "Lid"),)), "component", "P1").name
        'Lid'
    """
    return getattr(build, shelf_of(kind).field)[index_of(build, kind, key)]


def put(build: Build, kind: RecordKind, record: AnyRecord, *, key: str = "") -> Build:
    """Put a record into a build: a new one at the end, or one in the place of another.

    A changed mark is a rename, which is carried to everything that names it.

    Args:
        build: the build.
        kind: one of `RecordKind`.
        record: the record.
        key: the key of the record that it replaces; nothing: it is new.

    Returns:
        The build with it.

    Raises:
        InputError: when its key is used already, when it is not a record of that kind, or when the build
            would not hold together with it; a fault's `field` is the place in the record, such as
            `size.length`, or in another record that it would leave without sense.

    Source: this project.

    Example:
        >>> build = put(Build("B1", "Box"), "component", Component("P1", "Lid"))
        >>> put(build, "component", Component("P2", "Cover"), key="P1").components[0].mark
        'P2'
    """
    shelf = shelf_of(kind)
    if not isinstance(record, shelf.make):
        raise InputError.of(f"This is no {kind} but a {type(record).__name__}.", field="kind")
    held = list(getattr(build, shelf.field))
    own = key_of(kind, record)
    if not key:
        refuse_taken(build, kind, own)
        after = with_records(build, kind, [*held, record])
        return checked(build, after, shelf.field, len(held))
    index = index_of(build, kind, key)
    old = held[index]
    renamed = key_of(kind, old) != own
    if renamed:
        refuse_taken(build, kind, own)
    if renamed and shelf.key == "mark":
        held[index] = replace(record, mark=old.mark)
        after = rename_mark(with_records(build, kind, held), old.mark, own)
    else:
        held[index] = record
        after = with_records(build, kind, held)
    return checked(build, after, shelf.field, index)


def refuse_taken(build: Build, kind: str, key: str) -> None:
    """Refuse a key that a record of the build has already; what has a mark shares the marks with all that do.

    Args:
        build: the build.
        kind: one of `RecordKind`.
        key: the key of a new record.

    Raises:
        InputError: when it is taken, or empty.

    Source: this project.
    """
    shelf = shelf_of(kind)
    kinds = MARKED if shelf.key == "mark" else (kind,)
    for one in kinds:
        other = SHELVES[one]
        for held in getattr(build, other.field):
            if str(getattr(held, other.key)) == key:
                name = next((said for each in _CALLED if (said := getattr(held, each, ""))), "")
                named = f", {quoted(name)}" if name else ""
                raise InputError.of(
                    f"The {shelf.key} {quoted(key)} is used already by {_ONE_OF[one]}{named}; give another.",
                    field=shelf.key,
                )


def with_records(build: Build, kind: str, records: Iterable[Any]) -> Build:
    """Give a build other records of a kind.

    Args:
        build: the build.
        kind: one of `RecordKind`.
        records: all records of that kind, in their order.

    Returns:
        The build.

    Source: this project.
    """
    return replace(build, **cast(Any, {shelf_of(kind).field: tuple(records)}))


def duplicate(build: Build, kind: RecordKind, key: str) -> tuple[Build, str]:
    """Copy what has a mark, under the next free one, right after the first.

    A copied component lies nowhere, is planned, and has no revision and no sizes as made; its holes and
    pockets are copied. A copied joint keeps its home and its places, to be moved. No step fits a copy yet.

    Args:
        build: the build.
        kind: `component`, `joint`, `calculation` or `stock`.
        key: the mark of what is copied.

    Returns:
        The build, and the mark of the copy.

    Raises:
        InputError: where there is no such record, or no free mark.

    Source: this project.

    Example:
        >>> build = Build("B1", "Box", components=(Component("P01", "Lid"), Component("P02", "Side")))
        >>> duplicate(build, "component", "P01")[1]
        'P03'
    """
    if kind not in MARKED:
        raise InputError.of("Only components, joints, calculations and stock are copied so.", field="kind")
    index = index_of(build, kind, key)
    held = list(getattr(build, SHELVES[kind].field))
    mark = next_free(held[index].mark, set(marks_of(build)))
    copy = replace(held[index], mark=mark)
    if kind == "component":
        copy = replace(copy, poses=(), state="planned", revision="", made_to="", made_size=None)
    return with_records(build, kind, [*held[: index + 1], copy, *held[index + 1 :]]), mark


def next_free(mark: str, taken: set[str]) -> str:
    """Give the next mark of a series that is free.

    Args:
        mark: a mark of the series.
        taken: the marks that are used.

    Returns:
        The mark with the next free number, as wide as the first one's; `-2` and so on where it has none.

    Raises:
        InputError: when no mark of at most 20 characters is free.

    Source: this project.

    Example:
        >>> next_free("P07", {"P07", "P08"}), next_free("Lid", {"Lid"})
        ('P09', 'Lid-2')
    """
    stem = mark.rstrip("0123456789")
    digits = mark[len(stem) :]
    number = int(digits) if digits else 1
    stem = stem if digits else f"{mark}-"
    for _ in range(len(taken) + 1):
        number += 1
        found = f"{stem}{number:0{len(digits) or 1}d}"
        if found not in taken and is_mark(found):
            return found
    raise InputError.of(f"No mark like {quoted(mark)} is free; give the copy one by hand.", field="mark")
