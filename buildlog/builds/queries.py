"""Builds read from the database: as plain data and worked out, and what a person can undo.

Both are kept in memory by the build's stamp, which is new at every change: a page of a build that has not
changed since asks for no records.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Sequence
from threading import Lock
from typing import Any, Generic, TypeVar, cast

from buildlog.builds.models import Altered, Build, Change, Record
from buildlog.builds.saving import reverted
from buildlog.workshops.models import Person
from calculators.planning import documents
from calculators.planning import model as plain
from calculators.planning.documents import Kind
from calculators.planning.inspection import inspect_build
from calculators.planning.resolving import Resolution, resolve
from calculators.planning.worked import WorkedBuild

Thing = TypeVar("Thing")


class Kept(Generic[Thing]):
    """The last few things, by stamp; safe for several threads."""

    def __init__(self, most: int) -> None:
        self._most, self._things, self._lock = most, OrderedDict[str, Thing](), Lock()

    def get(self, stamp: str) -> Thing | None:
        """The thing with this stamp, which is then the last to go."""
        with self._lock:
            if stamp in self._things:
                self._things.move_to_end(stamp)
            return self._things.get(stamp)

    def put(self, stamp: str, thing: Thing) -> None:
        """Keep a thing, and let go of the one that was not asked for longest."""
        with self._lock:
            self._things[stamp] = thing
            while len(self._things) > self._most:
                self._things.popitem(last=False)


_PLAIN: Kept[plain.Build] = Kept(64)
_WORKED: Kept[WorkedBuild] = Kept(32)
_LAST: Kept[WorkedBuild] = Kept(32)
"""Of each build the one that was worked out last, of which the next takes over what is as it was."""
_BESIDE: Kept[tuple[WorkedBuild, dict[str, Any]]] = Kept(32)


def keep_plain(stamp: str, build: plain.Build) -> None:
    """Remember a build that has just been saved under this stamp."""
    _PLAIN.put(stamp, build)


def plain_of(row: Build) -> plain.Build:
    """The build as plain data: equal to what reading its build file gives. At most one query."""
    build = _PLAIN.get(row.stamp)
    if build is None:
        header = documents.read_document("build", row.header)
        found = row.records.values_list("kind", "document").order_by("kind", "place", "id")
        read = ((cast(Kind, kind), documents.read_document(cast(Kind, kind), text)) for kind, text in found)
        build = documents.build_from(header, read)
        keep_plain(row.stamp, build)
    return build


def plain_of_many(rows: Sequence[Build]) -> list[plain.Build]:
    """Several builds as plain data, in their order. At most one query, however many they are."""
    known = {row.pk: build for row in rows if (build := _PLAIN.get(row.stamp)) is not None}
    unknown = [row for row in rows if row.pk not in known]
    documents_of: dict[int, list[tuple[Kind, str]]] = {row.pk: [] for row in unknown}
    if unknown:
        found = Record.objects.filter(build__in=unknown).order_by("build_id", "kind", "place", "id")
        for pk, kind, text in found.values_list("build_id", "kind", "document"):
            documents_of[pk].append((cast(Kind, kind), text))
    for row in unknown:
        read = ((kind, documents.read_document(kind, text)) for kind, text in documents_of[row.pk])
        known[row.pk] = documents.build_from(documents.read_document("build", row.header), read)
        keep_plain(row.stamp, known[row.pk])
    return [known[row.pk] for row in rows]


def remembered(worked: WorkedBuild, name: str, make: Callable[[], Thing]) -> Thing:
    """What was made of a build worked out, such as a schedule, made once as long as the build is in hand.

    `name` says what it is; a build that was changed is another build, of which nothing is remembered yet.
    """
    key = str(id(worked))
    held = _BESIDE.get(key)
    if held is None or held[0] is not worked:
        held = (worked, {})
        _BESIDE.put(key, held)
    if name not in held[1]:
        held[1][name] = make()
    return cast(Thing, held[1][name])


def is_worked(row: Build) -> bool:
    """Whether the build was worked out as it is now, so that `worked_of` has no work to do."""
    return _WORKED.get(row.stamp) is not None


def plain_then(row: Build, change: Change) -> plain.Build:
    """The build as it was right after one of its changes. At most three queries."""
    key = f"{row.stamp} {change.pk}"
    build = _PLAIN.get(key)
    if build is None:
        later = Altered.objects.filter(change__build=row, change_id__gt=change.pk).order_by("-id")
        # Of each record the earliest comes last and stays: what was altered since is taken back at once.
        first = {(one.kind, one.key): one for one in later.defer("new")}
        build = reverted(row, plain_of(row), list(first.values())) if first else plain_of(row)
        keep_plain(key, build)
    return build


def worked_then(row: Build, change: Change) -> WorkedBuild:
    """The build as it was right after one of its changes, worked out."""
    key = f"{row.stamp} {change.pk}"
    worked = _WORKED.get(key)
    if worked is None:
        worked = inspect_build(plain_then(row, change), _LAST.get(str(row.pk)))
        _WORKED.put(key, worked)
    return worked


def worked_of(row: Build) -> WorkedBuild:
    """The build worked out, with its findings, taking over what is as it was. At most one query."""
    worked = _WORKED.get(row.stamp)
    if worked is None:
        worked = inspect_build(plain_of(row), _LAST.get(str(row.pk)))
        _WORKED.put(row.stamp, worked)
    _LAST.put(str(row.pk), worked)
    return worked


def resolution_of(row: Build, build: plain.Build) -> Resolution:
    """The joints of a build, which is the row's as plain data, with the holes that follow from them."""
    for worked in (_WORKED.get(row.stamp), _LAST.get(str(row.pk))):
        if worked is not None and worked.resolution is not None:
            return worked.resolution if worked.build is build else resolve(build, worked.resolution)
    return resolve(build)


def last_to_undo(row: Build, person: Person) -> Change | None:
    """The person's last change of a build that stands and can be taken back."""
    standing = row.changes.filter(person=person, is_undoable=True, undone_by__isnull=True)
    return (standing.filter(undoes__isnull=True) | standing.filter(is_redo=True)).order_by("-id").first()


def last_to_redo(row: Build, person: Person) -> Change | None:
    """The undoing that can itself be taken back: the person's last, with nothing new done since."""
    undone = row.changes.filter(person=person, undoes__isnull=False, is_redo=False, undone_by__isnull=True)
    last = undone.order_by("-id").first()
    if last and row.changes.filter(person=person, undoes__isnull=True, id__gt=last.pk).exists():
        return None
    return last
