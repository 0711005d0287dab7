"""Every write to a build goes through `change_build`: one transaction, one change in the log.

How a page changes something:

    saved = change_build(row, person, lambda build: put(build, "joint", joint, key="F03"), "Changed F03")

The second argument is a pure function from the build as plain data to the build as it shall be (most are
in `calculators.planning.edits`). Only what differs is checked, written and logged. It raises `InputError`
where the build would not be sound (`field` is the place), and `Overtaken` where somebody else changed a
record that the person had before them (`seen`), with both versions.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from hashlib import sha256
from typing import Any, cast

from django.db import transaction

from buildlog.builds.models import Altered, Build, Change, Record
from buildlog.builds.queries import keep_plain, last_to_redo, last_to_undo, plain_of
from buildlog.builds.reasons import ReasonNeeded, reason_given
from buildlog.builds.releases import released
from buildlog.builds.saving import GAP, by_name, differences, put_header, reverted, write_altered
from buildlog.workshops.models import Person, Workshop
from calculators.planning import documents
from calculators.planning import model as plain
from calculators.planning.documents import Kind, Name
from calculators.quantities.errors import InputError

Edit = Callable[[plain.Build], plain.Build]
Says = str | Callable[[plain.Build, plain.Build], str]
"""The sentence of the log, or how to say it of the build before and after."""


@dataclass(frozen=True, slots=True)
class Saved:
    """What a change came to: the build before and after, and the change, None where nothing differed."""

    before: plain.Build
    after: plain.Build
    change: Change | None


class Overtaken(Exception):
    """Somebody else changed a record after the person had seen it.

    `theirs` is the record as it is now, None where it is gone; `by` says who changed it.
    """

    def __init__(self, kind: Kind, key: str, theirs: Any, by: str) -> None:
        self.kind, self.key, self.theirs, self.by = kind, key, theirs, by
        super().__init__(f"{key or 'The build'} was changed by {by} while you had it open.")


def fingerprint(kind: Kind, record: Any) -> str:
    """A short text that changes when a record does, for a form to carry; '' for no record."""
    return _print(documents.write_document(kind, record)) if record is not None else ""


def _print(document: str) -> str:
    return sha256(document.encode()).hexdigest()[:16] if document else ""


@transaction.atomic
def change_build(
    row: Build,
    person: Person | None,
    edit: Edit,
    says: Says,
    *,
    reason: str = "",
    seen: Mapping[Name, str] | None = None,
    releases: bool = True,
) -> Saved:
    """Change a build by a function from plain data to plain data, and log what it changed.

    `says` is the sentence of the log ("Changed F03"). `seen` has the fingerprint of each record that the
    person had before them. Parts that are released, or changed after their release, are released with the
    next revision, unless `releases` is False. Raises InputError, Overtaken, ReasonNeeded.
    """
    row = _locked(row)
    before = plain_of(row)
    _check_seen(row, before, seen or {})
    after = edit(before)
    told = says if isinstance(says, str) else says(before, after)
    reason = reason.strip() or reason_given()
    if releases:
        try:
            after, again = released(row, before, after, person, reason)
        except ReasonNeeded:
            _check_sound(after, differences(row, before, after, {}))  # what cannot be is not asked about
            raise
        told = f"{told.removesuffix('.')[: 290 - len(again)]} {again}" if again else told
    return _save(row, person, before, after, told, reason=reason)


def _locked(row: Build) -> Build:
    """The build as it is now, kept from everybody else's changes until this one is done."""
    now = Build.rows.select_for_update().filter(pk=row.pk).first()
    if now is None:
        raise InputError.of(f"{row.number} was deleted while you had it open; nothing was saved.")
    return now


def _save(
    row: Build,
    person: Person | None,
    before: plain.Build,
    after: plain.Build,
    says: str,
    *,
    wanted: Mapping[Name, int] | None = None,
    **more: Any,
) -> Saved:
    altered = differences(row, before, after, wanted or {})
    if not altered:
        return Saved(before, before, None)
    _check_sound(after, altered)
    change = Change.objects.create(build=row, person=person, says=says[:300], **more)
    write_altered(row, altered, change)
    put_header(row, after)
    keep_plain(row.stamp, after)
    return Saved(before, after, change)


def _check_sound(build: plain.Build, altered: Iterable[Altered]) -> None:
    """Refuse a build that its file could not hold."""
    for one in altered:
        if one.new:
            documents.read_document(cast(Kind, one.kind), one.new)
    documents.check_whole(build)


def _check_seen(row: Build, build: plain.Build, seen: Mapping[Name, str]) -> None:
    """Refuse where a record is no longer what the person had before them."""
    if not seen:
        return
    here = by_name(build)
    for (kind, key), printed in seen.items():
        theirs: Any = here.get((kind, key))
        if fingerprint(kind, theirs) != printed:
            raise Overtaken(kind, key, theirs, changed_last_by(row, kind, key))


def changed_last_by(row: Build, kind: Kind, key: str) -> str:
    """The name of who changed a record last; `somebody` where nobody is known."""
    last = Altered.objects.filter(change__build=row, kind=kind, key=key).order_by("-id")
    one = last.select_related("change__person").first()
    return one.change.person.get_full_name() if one and one.change.person else "somebody"


@transaction.atomic
def begin_build(workshop: Workshop, person: Person | None, build: plain.Build, says: str) -> Build:
    """Keep a whole build that is not there yet: one that is begun, or one that was read from a file.

    The log has one line, which cannot be undone. Raises InputError where its number is taken.
    """
    for kind, _, record in documents.records_of(build):
        documents.read_document(kind, documents.write_document(kind, record))
    documents.read_document("build", documents.write_document("build", build))
    documents.check_whole(build)
    row = Build(workshop=workshop)
    put_header(row, build)
    places: dict[Kind, int] = {}
    records = []
    for kind, key, record in documents.records_of(build):
        places[kind] = places.get(kind, 0) + GAP
        document = documents.write_document(kind, record)
        records.append(Record(build=row, kind=kind, key=key, place=places[kind], document=document))
    Record.objects.bulk_create(records, batch_size=200)
    Change.objects.create(build=row, person=person, says=says[:300], is_undoable=False)
    return row


@transaction.atomic
def delete_build(row: Build, typed: str) -> None:
    """Delete a build with its journal and its log, for good; InputError unless its number was typed."""
    if typed.strip() != row.number:
        says = f"Nothing was deleted: to delete this build, type its number, {row.number}."
        raise InputError.of(says, field="typed")
    # Locked first: its records would otherwise be deleted in another order than a change takes hold of them.
    _locked(row).delete()


def undo(row: Build, person: Person) -> Saved:
    """Take back the person's last change of a build. Raises InputError where that cannot be."""
    return _take_back(row, person, is_redo=False)


def redo(row: Build, person: Person) -> Saved:
    """Do again what the person undid last. Raises InputError where there is nothing or it cannot be."""
    return _take_back(row, person, is_redo=True)


@transaction.atomic
def _take_back(row: Build, person: Person, *, is_redo: bool) -> Saved:
    row = _locked(row)
    change = last_to_redo(row, person) if is_redo else last_to_undo(row, person)
    if change is None:
        raise InputError.of(f"There is nothing of yours to {'redo' if is_redo else 'undo'} in {row.number}.")
    before = plain_of(row)
    altered = list(change.altered.all())
    _check_untouched(row, before, altered, change)
    wanted = {(cast(Kind, one.kind), one.key): one.old_place for one in altered if one.old_place is not None}
    after = reverted(row, before, altered)
    first = change.undoes if is_redo and change.undoes else change
    saved = _save(row, person, before, after, first.says, wanted=wanted, undoes=change, is_redo=is_redo)
    if saved.change is None:  # it changed nothing that is not so already, but it is taken back all the same
        Change.objects.create(build=row, person=person, says=first.says, undoes=change, is_redo=is_redo)
    return saved


def _check_untouched(row: Build, build: plain.Build, altered: list[Altered], change: Change) -> None:
    """Refuse to take a change back where one of its records is no longer as it left it."""
    here = by_name(build)
    for one in altered:
        now: Any = here.get((cast(Kind, one.kind), one.key))
        if (documents.write_document(cast(Kind, one.kind), now) if now is not None else "") != one.new:
            later = Altered.objects.filter(
                change__build=row, kind=one.kind, key=one.key, change_id__gt=change.pk
            )
            last = later.select_related("change__person").order_by("-id").first()
            by = last.change.person.get_full_name() if last and last.change.person else "somebody"
            what = one.key or "the build itself"
            raise InputError.of(
                f"“{change.says}” cannot be taken back, because {what} was changed by {by} since."
            )
