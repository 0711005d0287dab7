"""The sheets of a build that were printed: which of them are current, and which show a part as it was.

The sheets themselves are made in `buildlog.sheets`; here the pages of a build ask what became of them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from buildlog.builds.models import Build
from buildlog.builds.queries import remembered, worked_of
from buildlog.builds.zones import time_in
from calculators.planning.facts import Fact, SheetFacts, digest_of
from calculators.planning.facts import code_shown as shown
from calculators.planning.worked import WorkedBuild

MOST_LOOKED_AT = 2_000
"""The most printed sheets of a build that are looked at, the last first."""


@dataclass(frozen=True, slots=True)
class PaperRow:
    """One printed sheet and whether it says what it would say now."""

    code: str
    title: str
    kind: str
    component: str
    options: dict[str, str]
    paper: str
    at: datetime
    on: str
    times: int
    by: str
    is_current: bool
    is_gone: bool
    shows: tuple[tuple[str, str, str], ...] = field(repr=False)

    @property
    def code_shown(self) -> str:
        """The code as it is printed."""
        return shown(self.code)

    @property
    def chosen(self) -> str:
        """What was chosen besides, in words: `face top`."""
        return ", ".join(f"{name} {said}" for name, said in sorted(self.options.items()))

    @property
    def state(self) -> str:
        """What became of it."""
        return "thrown away" if self.is_gone else "current" if self.is_current else "out of date"

    def words(self) -> tuple[str, ...]:
        """What is searched."""
        marks = (mark for mark, _, _ in self.shows)
        return (
            self.code,
            self.code_shown,
            self.title,
            self.chosen,
            self.by,
            self.state,
            self.component,
            *marks,
        )


def facts_of(worked: WorkedBuild) -> SheetFacts:
    """The facts of the sheets of a build, worked out once as long as the build is in hand."""
    return remembered(worked, "sheet facts", lambda: SheetFacts(worked))


def digest_now(worked: WorkedBuild, kind: str, component: str, options: Mapping[str, str]) -> str:
    """The digest that a sheet has when it is printed now."""
    name = f"sheet digest {kind} {component} {sorted(options.items())}"
    return remembered(worked, name, lambda: digest_of(facts_of(worked).of(kind, component, options)))


def shown_in(facts: Iterable[Fact]) -> list[tuple[str, str, str]]:
    """The parts that a sheet shows, each with the revision on it and a digest of its own facts."""
    parts: dict[str, list[Fact]] = {}
    for fact in facts:
        if fact.part:
            parts.setdefault(fact.part, []).append(fact)
    return [
        (part, next((one.value for one in said if one.what == "revision"), ""), digest_of(said))
        for part, said in parts.items()
    ]


def paper_rows(row: Build, worked: WorkedBuild) -> list[PaperRow]:
    """The printed sheets of a build, the last first. One query, however many there are."""
    found: Any = row.printed.order_by("-last_at", "-pk").values_list(
        "code", "title", "kind", "component", "options", "paper", "last_at", "times",
        "person__name", "person__username", "digest", "gone", "shows",
    )[:MOST_LOOKED_AT]  # fmt: skip
    rows = []
    for code, title, kind, component, options, paper, at, times, name, user, digest, gone, shows in found:
        is_current = digest == digest_now(worked, kind, component, options)
        by, parts = name or user or "from a command", tuple(map(tuple, shows))
        rows.append(
            PaperRow(
                code,
                title or kind,
                kind,
                component,
                options,
                paper,
                at,
                time_in(worked.build, at),
                times,
                by,
                is_current,
                gone,
                parts,
            )
        )
    return rows


def out_of_date(rows: Iterable[PaperRow]) -> list[PaperRow]:
    """Those that somebody may still work from, and that say what is not so any more."""
    return [one for one in rows if not one.is_current and not one.is_gone]


def papers_of_part(row: Build, worked: WorkedBuild, mark: str) -> list[tuple[str, int]]:
    """How many printed sheets show a part otherwise than it is now, by the revision on them.

    A sheet that is out of date for other parts alone is not counted.
    """
    counts: Counter[str] = Counter()
    for one in out_of_date(paper_rows(row, worked)):
        said = next((each for each in one.shows if each[0] == mark), None)
        if said is None:
            continue
        if _shown_now(worked, one).get(mark) != said[2]:
            counts[said[1]] += 1
    return sorted(counts.items())


def _shown_now(worked: WorkedBuild, one: PaperRow) -> dict[str, str]:
    """The digest of what a sheet says of each part now."""

    def make() -> dict[str, str]:
        facts = facts_of(worked).of(one.kind, one.component, one.options)
        return {part: digest for part, _, digest in shown_in(facts)}

    return remembered(worked, f"shown on {one.kind} {one.component} {sorted(one.options.items())}", make)


def count_out_of_date(row: Build) -> int:
    """How many printed sheets of a build are out of date and not thrown away. One query."""
    return len(out_of_date(paper_rows(row, worked_of(row))))
