"""The form of an entry."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from django import forms
from django.core.validators import MaxLengthValidator
from django.utils import timezone

from buildlog.journal.hours import hours_as_typed, read_hours
from buildlog.journal.marks import read_marks
from calculators.planning.model import Build, Entry
from calculators.quantities.errors import InputError

LONGEST_TEXT, LONGEST_NOTE = 200_000, 20_000
FIELDS = ("date", "text", "hours", "decision", "next_time", "marks")
"""The fields of an entry that are typed; its photographs are not."""


def today_of(build: Build) -> date:
    """Today where the workshop is."""
    now: datetime = timezone.now()
    return now.astimezone(ZoneInfo(build.context.zone)).date()


class Written(forms.CharField):
    """A text of several lines, as it was typed but for line ends; the browser cuts nothing off."""

    def __init__(self, *, most: int, rows: int, **more: Any) -> None:
        self.most = most
        area = forms.Textarea(attrs={"rows": rows})
        super().__init__(required=False, strip=False, widget=area, **more)
        says = f"This text has %(show_value)d characters; it may have {most:,}."
        self.validators.append(MaxLengthValidator(most, says))

    def to_python(self, value: Any) -> str:
        """Bring the ends of lines to one kind, and take empty lines off both ends."""
        text = super().to_python(value) or ""
        return text.replace("\r\n", "\n").replace("\r", "\n").strip("\n").rstrip()


class Photographs(forms.ClearableFileInput):
    """Several files at once, from the camera or the gallery."""

    allow_multiple_selected = True


class EntryForm(forms.Form):
    """What is written in an entry; its photographs are read by `buildlog.journal.photographs`."""

    text = Written(
        most=LONGEST_TEXT,
        rows=6,
        label="What was done",
        help_text="Markdown: a line with # is a heading, - begins a list, **bold**.",
    )
    date = forms.DateField(
        label="Date",
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        input_formats=["%Y-%m-%d"],
        error_messages={
            "invalid": "Write the day as year-month-day, such as 2025-06-30.",
            "required": "Write the day that this entry is for.",
        },
    )
    hours = forms.CharField(label="Hours", required=False, help_text="1.5, 1:30, 1 h 30 or 90 min.")
    decision = Written(most=LONGEST_NOTE, rows=2, label="Decision", help_text="What was decided, and why.")
    next_time = Written(most=LONGEST_NOTE, rows=2, label="Next time", help_text="What to go on with.")
    marks = forms.CharField(
        label="Parts, joints and calculations it is about",
        required=False,
        help_text="Their marks, such as P11, F03, K01.",
    )
    photographs = forms.FileField(
        label="Photographs",
        required=False,
        widget=Photographs(attrs={"multiple": True, "accept": "image/*"}),
        help_text="JPEG, PNG, WebP, HEIC or GIF, up to 40 MB each, up to 100 at once."
        " Where they were taken is left out.",
    )

    def __init__(self, build: Build, data: Any = None, *, entry: Entry | None = None) -> None:
        self.build, self.entry = build, entry
        super().__init__(data, initial=as_typed(entry) if entry else {"date": today_of(build)})
        self.fields["text"].widget.attrs["data-entry"] = True
        self.fields["date"].widget.attrs["class"] = self.fields["hours"].widget.attrs["class"] = "short"

    def clean_hours(self) -> Any:
        """Read the hours; none at all where nothing is written."""
        text = self.cleaned_data["hours"]
        return (_read(read_hours, text) or None) if text else None

    def clean_marks(self) -> tuple[str, ...]:
        """Read the marks."""
        found: tuple[str, ...] = _read(read_marks, self.cleaned_data["marks"], self.build)
        return found

    def written(self, entry: Entry) -> Entry:
        """The entry with what was typed."""
        return replace(entry, **{name: self.cleaned_data[name] for name in FIELDS})


def as_typed(entry: Entry) -> dict[str, Any]:
    """The fields of an entry as a person would type them."""
    hours = "" if entry.hours is None else hours_as_typed(entry.hours)
    typed = {name: getattr(entry, name) for name in FIELDS}
    return typed | {"hours": hours, "marks": ", ".join(entry.marks)}


def _read(read: Any, *given: Any) -> Any:
    try:
        return read(*given)
    except InputError as error:
        raise forms.ValidationError([fault.says for fault in error.faults]) from None
