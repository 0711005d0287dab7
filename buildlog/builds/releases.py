"""A change as it is kept: with the parts that it releases, and those that it changes after their release."""

from __future__ import annotations

from collections.abc import Iterable

from buildlog.builds.models import Build
from buildlog.builds.queries import resolution_of
from buildlog.builds.reasons import ReasonNeeded
from buildlog.builds.zones import day_in
from buildlog.workshops.models import Person
from calculators.planning import model as plain
from calculators.planning.releasing import drilled_of, needs_reason, released_marks, with_releases
from calculators.planning.resolving import resolve

MOST_TOLD = 5


def released(
    row: Build, before: plain.Build, after: plain.Build, person: Person | None, reason: str
) -> tuple[plain.Build, str]:
    """The build after a change with its releases kept, and which parts were released again.

    Raises ReasonNeeded where a part that is released is made otherwise and no reason is given.
    """
    marks = released_marks(after)
    if not marks or _is_aside(before, after):
        return after, ""
    resolved = resolution_of(row, before)
    drilled_before = drilled_of(resolved.worked, released_marks(before))
    drilled_after = drilled_of(resolve(after, resolved).worked, marks)
    changed = needs_reason(before, after, drilled_before, drilled_after)
    if changed and not reason:
        parts = tuple(one for one in after.components if one.mark in changed)
        raise ReasonNeeded(row, _as_released(before, parts))
    by = person.get_full_name() if person is not None else ""
    kept = with_releases(before, after, drilled_before, drilled_after, reason, by, day_in(before))
    return kept, _told(one for one in kept.components if one.mark in changed)


def _is_aside(before: plain.Build, after: plain.Build) -> bool:
    """Whether a change touches nothing that parts or their holes hang on."""
    return (
        after.components is before.components
        and after.joints is before.joints
        and after.context == before.context
        and after.unit == before.unit
    )


def _as_released(before: plain.Build, parts: Iterable[plain.Component]) -> tuple[plain.Component, ...]:
    """The parts as they are still, with the revisions that people know."""
    were = {one.mark: one for one in before.components}
    return tuple(were.get(one.mark, one) for one in parts)


def _told(parts: Iterable[plain.Component]) -> str:
    """`(released again: P01 B, P02 B)`; nothing where there are none."""
    said = [f"{one.mark} {one.revision}" for one in parts]
    if not said:
        return ""
    more = f" and {len(said) - MOST_TOLD} more" if len(said) > MOST_TOLD else ""
    return f"(released again: {', '.join(said[:MOST_TOLD])}{more})"
