"""Is this paper current? What a printed sheet says beside what it would say now, and who changed that."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from buildlog.builds.models import Altered, Build, Change
from buildlog.builds.printed import digest_now, facts_of
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.zones import time_in
from buildlog.sheets.models import PrintedSheet
from buildlog.sheets.recording import unpacked
from buildlog.workshops.models import Person
from calculators.planning import model as plain
from calculators.planning.facts import FactChange, changes_between, code_shown
from calculators.planning.tree import split_copy

MOST_CHANGES = 200
"""The most things that are told one by one."""

FIRST_DONE = 8
"""The most changes of the build that are named."""

MOST_SHOWN = 40


@dataclass(frozen=True, slots=True)
class Done:
    """A change of the build since the paper was printed."""

    says: str
    by: str
    at: str
    reason: str


@dataclass(frozen=True, slots=True)
class Otherwise:
    """One thing that is not as the paper says, with the change that made it so, where one can be named."""

    change: FactChange
    done: Done | None


@dataclass(frozen=True, slots=True)
class Verdict:
    """A printed sheet held against its build as it is now."""

    sheet: PrintedSheet
    build: plain.Build
    is_current: bool
    printed: str
    by: str
    otherwise: list[Otherwise]
    more: int
    done: list[Done]
    done_more: int
    is_there: bool

    @property
    def code(self) -> str:
        """The code as it is printed."""
        return code_shown(self.sheet.code)

    @property
    def revisions(self) -> list[tuple[str, str]]:
        """The parts on it that had a revision, each with that."""
        return [(mark, revision) for mark, revision, _ in self.sheet.shows if revision][:MOST_SHOWN]

    @property
    def query(self) -> str:
        """What follows the address of its kind to print it anew."""
        asked = {"paper": self.sheet.paper, "component": self.sheet.component, **self.sheet.options}
        return urlencode({name: said for name, said in asked.items() if said})

    @property
    def chosen(self) -> str:
        """What was chosen besides, in words."""
        return ", ".join(_chosen_in_words(self.sheet.options))


def _chosen_in_words(options: Mapping[str, str]) -> Iterator[str]:
    """The choices of a sheet as people say them; of a template the printer that it is drawn for."""
    asked = {name: said for name, said in options.items() if said}
    if face := asked.pop("face", ""):
        yield f"{face} face"
    if asked.pop("mirror", ""):
        yield "mirrored"
    along, across, printer = (asked.pop(name, "") for name in ("along", "across", "printer"))
    if printer:
        yield f"for {printer}"
    if (along or "100", across or "100") != ("100", "100"):
        yield f"each 100 drawn {along or '100'} along and {across or '100'} across the paper"
    yield from (f"{name} {said}" for name, said in sorted(asked.items()))


def printed_with(code: str, person: Person) -> list[PrintedSheet]:
    """The sheets with a code in the workshops of a person: one, unless two have the same build."""
    found = PrintedSheet.objects.filter(code=code, build__in=Build.rows.for_person(person))
    return list(found.select_related("build__workshop", "person").order_by("-last_at")[:5])


def verdict_on(sheet: PrintedSheet) -> Verdict:
    """Hold a printed sheet against its build. The number of queries hangs on nothing."""
    row = sheet.build
    build, worked = plain_of(row), worked_of(row)
    is_current = sheet.digest == digest_now(worked, sheet.kind, sheet.component, sheet.options)
    changes: tuple[FactChange, ...] = ()
    if not is_current:
        now = facts_of(worked).of(sheet.kind, sheet.component, sheet.options)
        changes = changes_between(unpacked(sheet.facts), now)
    shown = changes[:MOST_CHANGES]
    marks = {mark for one in shown for mark in _marks(one)}
    count, named, by_mark = _since(sheet, build, marks) if shown else (0, [], {})
    return Verdict(
        sheet,
        build,
        is_current,
        time_in(build, sheet.last_at),
        sheet.person.get_full_name() if sheet.person else "a command",
        [Otherwise(one, _who(one, by_mark, named, count)) for one in shown],
        len(changes) - len(shown),
        named,
        count - len(named),
        not sheet.component or any(one.mark == sheet.component for one in build.components),
    )


def _marks(one: FactChange) -> Iterator[str]:
    for mark in (one.part, one.via):
        if mark:
            yield split_copy(mark)[0]


def _since(
    sheet: PrintedSheet, build: plain.Build, marks: Iterable[str]
) -> tuple[int, list[Done], dict[str, tuple[int, Done]]]:
    """How many changes there were since, the last few, and the last one of each mark."""
    changes = sheet.build.changes.filter(pk__gt=sheet.last_change).select_related("person")
    altered = Altered.objects.filter(
        change__build=sheet.build, change_id__gt=sheet.last_change, key__in=marks
    )
    last: dict[str, int] = dict(altered.order_by("change_id").values_list("key", "change_id"))
    named = {one.pk: one for one in changes.filter(pk__in=set(last.values()))}
    newest = list(changes.order_by("-pk")[:FIRST_DONE])
    by_mark = {key: (pk, _done(build, named[pk])) for key, pk in last.items() if pk in named}
    return changes.count(), [_done(build, one) for one in newest], by_mark


def _done(build: plain.Build, change: Change) -> Done:
    was = "Undone: " if change.is_undo else "Done again: " if change.undoes_id is not None else ""
    by = change.person.get_full_name() if change.person else "a command"
    return Done(was + change.says, by, time_in(build, change.at), change.reason)


def _who(one: FactChange, by_mark: dict[str, tuple[int, Done]], named: list[Done], count: int) -> Done | None:
    """The last change of what a thing hangs on; else the only change that there was."""
    found = [by_mark[mark] for mark in _marks(one) if mark in by_mark]
    if found:
        return max(found, key=lambda each: each[0])[1]
    return named[0] if count == 1 else None
