"""The time zone of a build: what a page shows as the time of a change."""

from __future__ import annotations

from datetime import UTC, date, datetime, tzinfo
from zoneinfo import ZoneInfo

from calculators.planning.model import Build


def zone_of(build: Build) -> tzinfo:
    """The zone of a build's context; UTC where there is no such zone."""
    return zone_named(build.context.zone) or UTC


def zone_named(name: str) -> ZoneInfo | None:
    """The time zone with this name, such as Europe/London; None where there is none."""
    try:
        return ZoneInfo(name)
    except (KeyError, ValueError, OSError):  # what is no name of a file, or a folder of them, raises others
        return None


def time_in(build: Build, at: datetime) -> str:
    """A time in the zone of a build, as ISO 8601 writes it, to the minute: 2025-11-02 14:05."""
    return at.astimezone(zone_of(build)).strftime("%Y-%m-%d %H:%M")


def day_in(build: Build) -> date:
    """Today in the zone of a build."""
    return datetime.now(zone_of(build)).date()
