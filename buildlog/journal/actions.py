"""Writing in the journal: each a change of the build, logged and undoable as every other."""

from __future__ import annotations

from buildlog.builds.actions import Saved, change_build
from buildlog.builds.models import Build
from buildlog.journal.finding import entry_of
from buildlog.workshops.models import Person
from calculators.planning import model as plain
from calculators.planning.edits import put, remove
from calculators.planning.model import Entry


def write_entry(row: Build, person: Person, entry: Entry, *, seen: str = "") -> Saved:
    """Write an entry, new or changed; `seen` is the fingerprint of what was there, '' of nothing.

    Raises InputError where it would not be sound, Overtaken where somebody else wrote or deleted it since.
    """

    def edit(build: plain.Build) -> plain.Build:
        is_there = entry_of(build, entry.id) is not None
        return put(build, "entry", entry, key=entry.id if is_there else "")

    verb = "Changed" if seen else "Wrote"
    says = f"{verb} the entry of {entry.date.isoformat()}"
    return change_build(row, person, edit, says, seen={("entry", entry.id): seen})


def delete_entry(row: Build, person: Person, entry: Entry, *, seen: str) -> Saved:
    """Delete an entry; its pictures stay in the workshop, so that undoing brings all of it back.

    Raises Overtaken where somebody else wrote or deleted it since.
    """
    says = f"Deleted the entry of {entry.date.isoformat()}"
    return change_build(
        row, person, lambda build: remove(build, "entry", entry.id), says, seen={("entry", entry.id): seen}
    )
