"""Entries as a page asks for them: newest first, found by words, by a mark, or by their decisions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.core.paginator import Page, Paginator
from django.http import QueryDict

from calculators.planning.model import Build, Entry

ENTRIES = 20
"""The most entries on one page."""


@dataclass(frozen=True, slots=True)
class Found:
    """The entries that a page shows, and what was asked for."""

    page: Page[Entry]
    find: str
    mark: str
    is_decisions: bool
    query: str
    count: int
    of: int
    hours: Decimal

    @property
    def is_narrowed(self) -> bool:
        """Whether anything was asked for."""
        return bool(self.find or self.mark or self.is_decisions)


def newest_first(build: Build) -> list[Entry]:
    """The entries by their dates; of one day, what was written last stands first."""
    return [entry for _, entry in sorted(enumerate(build.entries), key=_age, reverse=True)]


def _age(numbered: tuple[int, Entry]) -> tuple[Any, int]:
    return numbered[1].date, numbered[0]


def find_entries(build: Build, asked: QueryDict) -> Found:
    """Find entries as the address asks; what makes no sense is left aside, so that no address is wrong."""
    find, mark = asked.get("find", "")[:200].strip(), asked.get("mark", "")[:60].strip()
    is_decisions = bool(asked.get("decisions"))
    words = find.casefold().split()
    found = [
        entry
        for entry in newest_first(build)
        if (not mark or mark in entry.marks)
        and (not is_decisions or entry.decision.strip())
        and _holds(entry, words)
    ]
    query = QueryDict(mutable=True)
    for name, value in (("find", find), ("mark", mark), ("decisions", "1" if is_decisions else "")):
        if value:
            query[name] = value
    page = Paginator(found, ENTRIES).get_page(asked.get("page"))
    hours = sum((entry.hours for entry in found if entry.hours), Decimal(0))
    return Found(page, find, mark, is_decisions, query.urlencode(), len(found), len(build.entries), hours)


def _holds(entry: Entry, words: list[str]) -> bool:
    if not words:
        return True
    text = "\n".join(_texts(entry)).casefold()
    return all(word in text for word in words)


def _texts(entry: Entry) -> Iterator[str]:
    yield from (entry.date.isoformat(), entry.text, entry.decision, entry.next_time, *entry.marks)
    yield from (picture.caption for picture in entry.photographs)


def marks_in(build: Build) -> list[str]:
    """The marks that any entry speaks of, in their order, for a choice."""
    return sorted({mark for entry in build.entries for mark in entry.marks})


def entry_of(build: Build, key: str) -> Entry | None:
    """The entry with this id."""
    return next((entry for entry in build.entries if entry.id == key), None)
