"""The readings of a build: what was measured of its sizes and of its wood, one a line."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from hashlib import sha256
from typing import Any

from django import forms

from buildlog.builds.listed_lines import read_lines
from calculators.planning.lines import (
    read_moisture_line,
    read_reading_line,
    write_moisture_line,
    write_reading_line,
)
from calculators.planning.model import Build, Unit
from calculators.quantities.errors import InputError

OVERTAKEN = "Somebody changed the readings while you had them open; nothing of yours is saved yet."


class _Lines(forms.CharField):
    """Records, one a line."""

    def __init__(self, **more: Any) -> None:
        attrs = {"rows": 5, "data-tall": "", "spellcheck": "false", "autocapitalize": "off"}
        super().__init__(
            required=False, max_length=2_000_000, widget=forms.Textarea(attrs=attrs), strip=False, **more
        )


class ReadingsForm(forms.Form):
    """Readings of sizes and of moisture."""

    readings = _Lines(
        label="Readings of sizes",
        help_text="One a line: P10 length 165.2 ± 0.8, front photograph. By caliper, a day and # a note may "
        "follow.",
    )
    moisture = _Lines(
        label="Moisture of the wood",
        help_text="One a line: 2025-03-01 9.5 % P01, P02. Without parts, of all.",
    )

    def __init__(self, sent: Any = None, *, build: Build, today: date, **more: Any) -> None:
        self.build, self.today = build, today
        super().__init__(sent, initial=_shown(build), **more)

    def clean_readings(self) -> Any:
        """Read each line."""
        unit: Unit = self.build.unit
        return read_lines(
            self.cleaned_data["readings"],
            self.build.readings,
            lambda one: write_reading_line(one, unit),
            lambda line, taken: read_reading_line(line, unit, taken),
        )

    def clean_moisture(self) -> Any:
        """Read each line."""
        unit: Unit = self.build.unit
        return read_lines(
            self.cleaned_data["moisture"],
            self.build.moisture,
            write_moisture_line,
            lambda line, taken: read_moisture_line(line, unit, self.today, taken),
        )

    def edit(self, seen: str) -> Callable[[Build], Build]:
        """The edit that keeps what was typed; it raises InputError where somebody else was quicker."""

        def changed(build: Build) -> Build:
            if seen and readings_print(build) != seen:
                raise InputError.of(OVERTAKEN)
            return replace(
                build, readings=self.cleaned_data["readings"], moisture=self.cleaned_data["moisture"]
            )

        return changed


def _shown(build: Build) -> dict[str, str]:
    return {
        "readings": "\n".join(write_reading_line(one, build.unit) for one in build.readings),
        "moisture": "\n".join(map(write_moisture_line, build.moisture)),
    }


def readings_print(build: Build) -> str:
    """A short text that changes when any reading does."""
    return sha256(repr((build.readings, build.moisture)).encode()).hexdigest()[:16]


def readings_said(before: Build, after: Build) -> str:
    """What was changed of the readings, in a sentence without its stop."""
    said = []
    for name, one, many in (
        ("readings", "reading", "readings"),
        ("moisture", "moisture reading", "moisture readings"),
    ):
        old, new = set(getattr(before, name)), set(getattr(after, name))
        if old != new or getattr(before, name) != getattr(after, name):
            count = len(new)
            said.append(f"{count} {one if count == 1 else many} now")
    return f"{after.number}: {' and '.join(said) or 'the readings are as they were'}"
