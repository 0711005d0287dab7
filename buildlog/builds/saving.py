"""How a change of a build is written: which records differ, where each is placed, what is logged."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Mapping
from typing import Any, cast

from django.db import IntegrityError, transaction

from buildlog.builds.ids import new_id
from buildlog.builds.models import Altered, Build, Change, Record
from calculators.planning import documents
from calculators.planning import model as plain
from calculators.planning.documents import Kind, Name
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

GAP = 1 << 20
"""Records are placed this far apart, so that one can be put between two others without moving any."""


def by_name(build: plain.Build) -> dict[Name, Any]:
    """The header and each record of a build by kind and key."""
    header: dict[Name, Any] = {("build", ""): documents.header_of(build)}
    return header | {(kind, key): record for kind, key, record in documents.records_of(build)}


def places_of(row: Build) -> dict[Name, int]:
    """The place of each record of a build, in one query."""
    found = row.records.values_list("kind", "key", "place").order_by("kind", "place", "id")
    return {(cast(Kind, kind), key): place for kind, key, place in found}


def reverted(row: Build, build: plain.Build, altered: Iterable[Altered]) -> plain.Build:
    """The build with the altered records as they were, each where it was."""
    records, places = by_name(build), places_of(row)
    for one in altered:
        name = (cast(Kind, one.kind), one.key)
        if one.old:
            records[name] = documents.read_document(name[0], one.old)
            places[name] = one.old_place or 0
        else:
            records.pop(name, None)
    header = records.pop(("build", ""))
    order = sorted(records, key=lambda name: places[name])
    return documents.build_from(header, ((name[0], records[name]) for name in order))


def differences(
    row: Build, before: plain.Build, after: plain.Build, wanted: Mapping[Name, int]
) -> list[Altered]:
    """The records that differ, as rows of the log that are not saved yet.

    `wanted` are places that records shall have again where their order allows it.
    """
    found: list[Altered] = []
    if documents.header_of(before) != documents.header_of(after):
        write = documents.write_document
        found.append(Altered(kind="build", key="", old=write("build", before), new=write("build", after)))
    old = {(kind, key): record for kind, key, record in documents.records_of(before)}
    new = {(kind, key): record for kind, key, record in documents.records_of(after)}
    if list(old) == list(new) and all(new[name] is record for name, record in old.items()):
        return found
    places = places_of(row)
    moved = _new_places({**places, **wanted}, list(new))
    for name in {**old, **new}:
        was, is_now = old.get(name), new.get(name)
        place, new_place = places.get(name), moved.get(name)
        if was is is_now and place == new_place:
            continue
        if was != is_now or place != new_place:
            found.append(
                Altered(
                    kind=name[0],
                    key=name[1],
                    old=documents.write_document(name[0], was) if was is not None else "",
                    new=documents.write_document(name[0], is_now) if is_now is not None else "",
                    old_place=place,
                    new_place=new_place,
                )
            )
    return found


def _new_places(places: Mapping[Name, int], order: list[Name]) -> dict[Name, int]:
    """A place for each record of `order`, keeping those that the records have wherever their order allows."""
    result: dict[Name, int] = {}
    for kind in {kind: None for kind, _ in order}:
        names = [name for name in order if name[0] == kind]
        kept = _rising([places.get(name) for name in names])
        for index, name in enumerate(names):
            if index in kept:
                result[name] = places[name]
        _fill(names, result)
    return result


def _rising(places: list[int | None]) -> set[int]:
    """The indices of a longest run of places that rise; the others must be placed anew."""
    tails: list[int] = []
    ends: list[int] = []
    previous: list[int] = [-1] * len(places)
    for index, place in enumerate(places):
        if place is None:
            continue
        at = bisect_left(tails, place)
        if at == len(tails):
            tails.append(place)
            ends.append(index)
        else:
            tails[at], ends[at] = place, index
        previous[index] = ends[at - 1] if at else -1
    kept: set[int] = set()
    index = ends[-1] if ends else -1
    while index >= 0:
        kept.add(index)
        index = previous[index]
    return kept


def _fill(names: list[Name], result: dict[Name, int]) -> None:
    """Give places to the names that have none, between their neighbours; all anew where it is tight."""
    index, last = 0, 0
    while index < len(names):
        if names[index] in result:
            last = result[names[index]]
            index += 1
            continue
        end = index
        while end < len(names) and names[end] not in result:
            end += 1
        count = end - index
        step = (result[names[end]] - last) // (count + 1) if end < len(names) else GAP
        if step < 1:
            result.update({name: (at + 1) * GAP for at, name in enumerate(names)})
            return
        for offset in range(count):
            result[names[index + offset]] = last + step * (offset + 1)
        last = result[names[end - 1]]
        index = end


def write_altered(row: Build, altered: list[Altered], change: Change) -> None:
    """Write the rows that differ, and the log."""
    records = [one for one in altered if one.kind != "build"]
    gone = [(one.kind, one.key) for one in records if not one.new]
    kept = [one for one in records if one.old and one.new]
    have = {
        (record.kind, record.key): record
        for record in row.records.filter(key__in={one.key for one in records if one.old})
    }
    Record.objects.filter(pk__in=[have[name].pk for name in gone]).delete()
    for one in kept:
        record = have[one.kind, one.key]
        record.document, record.place = one.new, cast(int, one.new_place)
    Record.objects.bulk_update(
        [have[one.kind, one.key] for one in kept], ["document", "place"], batch_size=200
    )
    Record.objects.bulk_create(
        [
            Record(build=row, kind=one.kind, key=one.key, place=one.new_place or 0, document=one.new)
            for one in records
            if not one.old
        ],
        batch_size=200,
    )
    for one in altered:
        one.change = change
    Altered.objects.bulk_create(altered, batch_size=200)


def put_header(row: Build, build: plain.Build) -> None:
    """Keep the header, with what lists need of it in columns, under a new stamp."""
    row.number, row.title, row.state, row.due = build.number, build.title, build.state, build.due
    row.header = documents.write_document("build", build)
    row.stamp = new_id()
    try:
        with transaction.atomic():
            row.save()
    except IntegrityError:
        raise InputError.of(
            f"There is a build with the number {quoted(build.number)} already; choose another number.",
            field="number",
        ) from None
