"""The revision history of a part: each release with its reason and what it changed."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.planning.model import Component, Release
from calculators.planning.releasing import Difference, changes_since
from calculators.planning.worked import WorkedBuild

MOST_CHANGES = 40


@dataclass(frozen=True, slots=True)
class ReleaseRow:
    """One release: what it changed since the one before, and whether the part was made to it."""

    release: Release
    changes: tuple[Difference, ...]
    more: int
    is_first: bool
    is_made_to: bool


def release_rows(worked: WorkedBuild, one: Component) -> list[ReleaseRow]:
    """The releases of a part, the newest first."""
    rows: list[ReleaseRow] = []
    before: Release | None = None
    for release in worked.build.releases:
        if release.mark != one.mark:
            continue
        changes = changes_since(before, release.part, release.drilled) if before is not None else ()
        rows.append(
            ReleaseRow(
                release,
                changes[:MOST_CHANGES],
                max(0, len(changes) - MOST_CHANGES),
                before is None,
                bool(one.made_to) and release.revision == one.made_to,
            )
        )
        before = release
    return rows[::-1]
