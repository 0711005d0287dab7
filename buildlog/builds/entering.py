"""Lines that were typed, read into a build and saved; what could not be read comes back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from buildlog.builds.actions import Saved, change_build
from buildlog.builds.models import Build
from buildlog.workshops.models import Person
from calculators.planning import model as plain
from calculators.planning.lines import Kind, LinesRead, Unread, add_lines, offered_lines
from calculators.quantities.errors import InputError

Told = Callable[[plain.Build, tuple[str, ...]], str]
"""Says what was added: of the build as it is then, and of the marks or ids that are new."""


@dataclass(frozen=True, slots=True)
class Entered:
    """What came of lines: what was added, in words and by mark or id, and the lines that were not read."""

    says: str
    added: tuple[str, ...]
    unread: tuple[Unread, ...]
    saved: Saved | None


def enter_lines(
    row: Build,
    person: Person,
    kind: Kind,
    lines: list[str],
    told: Told,
    *,
    part: str = "",
    face: str = "",
) -> Entered:
    """Read lines into a build and save those that can be read."""
    read: list[LinesRead] = []

    def edit(build: plain.Build) -> plain.Build:
        read.append(add_lines(kind, "\n".join(lines), build, part=part, face=face))
        return read[-1].build

    try:
        saved = change_build(row, person, edit, lambda _, after: told(after, read[-1].added))
    except InputError as error:
        says = tuple(dict.fromkeys(fault.says for fault in error.faults))
        unread = tuple(Unread(i, line, says if i == 1 else ()) for i, line in enumerate(lines, 1))
        return Entered("", (), unread, None)
    last = read[-1]
    unread = offered_lines(kind, last.unread, saved.after, part=part, face=face)
    return Entered(told(saved.after, last.added) if last.added else "", last.added, unread, saved)


def listed(names: list[str], most: int = 5) -> str:
    """Names in a sentence, the first few and how many more."""
    if len(names) > most:
        return f"{', '.join(names[:most])} and {len(names) - most} more"
    return " and ".join([", ".join(names[:-1]), names[-1]]) if len(names) > 1 else "".join(names)
