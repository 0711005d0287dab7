"""The form of a step of assembly, all its fields."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from django import forms

from buildlog.builds.joint_forms import NumberField
from calculators.planning.model import AssemblyStep

FIELDS = ("title", "fits", "closes", "tools", "caution", "check", "note")
GLUE = ("glued", "open_minutes", "rehearsed_minutes", "cure_hours", "done")
"""What only steps with glue or a finish need, and the day that a step was done."""


def _marks(**more: Any) -> forms.CharField:
    attrs = {"spellcheck": "false", "autocapitalize": "off"}
    return forms.CharField(required=False, max_length=50_000, widget=forms.TextInput(attrs=attrs), **more)


def _text(rows: int, **more: Any) -> forms.CharField:
    widget = forms.Textarea(attrs={"rows": rows})
    return forms.CharField(required=False, max_length=20_000, widget=widget, **more)


class StepForm(forms.Form):
    """What is done in a step, what it fits and closes, with what, with which care."""

    title = forms.CharField(label="What is done", max_length=200)
    fits = _marks(
        label="Fits", help_text="Marks of parts and joints, with commas: P10, F03. One copy is P02.1."
    )
    closes = _marks(label="Closes", help_text="Marks of what cannot be reached afterwards.")
    tools = _text(2, label="Tools", help_text="One a line.")
    caution = _text(2, label="Caution", help_text="What can hurt here, and how it is kept from doing so.")
    check = _text(2, label="Check before going on")
    note = _text(2, label="Note")
    glued = _marks(label="Glues together", help_text="Marks of the parts: P05, P06.")
    open_minutes = NumberField(0, 100_000, "min", label="Its glue stays open", help_text="Minutes.")
    rehearsed_minutes = NumberField(0, 100_000, "min", label="A dry rehearsal took", help_text="Minutes.")
    cure_hours = NumberField(0, 100_000, "h", label="Glue or finish cures in", help_text="Hours.")
    done = forms.DateField(
        label="Done on",
        required=False,
        widget=forms.DateInput(attrs={"placeholder": "2025-06-30"}, format="%Y-%m-%d"),
        input_formats=["%Y-%m-%d"],
        error_messages={"invalid": "Write the day as year-month-day, such as 2025-06-30."},
    )

    @staticmethod
    def of(step: AssemblyStep) -> dict[str, Any]:
        """What the form shows of a step."""
        shown = {name: getattr(step, name) for name in (*FIELDS, *GLUE)}
        return shown | {
            "fits": ", ".join(step.fits),
            "closes": ", ".join(step.closes),
            "tools": "\n".join(step.tools),
            "glued": ", ".join(step.glued),
        }

    @property
    def first(self) -> list[forms.BoundField]:
        """The fields that every step may need."""
        return [self[name] for name in FIELDS]

    @property
    def glue(self) -> list[forms.BoundField]:
        """The fields of gluing and curing."""
        return [self[name] for name in GLUE]

    @property
    def is_glue_open(self) -> bool:
        """Whether anything stands in the fields of gluing."""
        return any(one.value() not in (None, "") or one.errors for one in self.glue)

    def clean_fits(self) -> tuple[str, ...]:
        """Marks, each once."""
        return marks_in(self.cleaned_data["fits"])

    def clean_closes(self) -> tuple[str, ...]:
        """Marks, each once."""
        return marks_in(self.cleaned_data["closes"])

    def clean_glued(self) -> tuple[str, ...]:
        """Marks, each once."""
        return marks_in(self.cleaned_data["glued"])

    def clean_tools(self) -> tuple[str, ...]:
        """Tools, one a line."""
        return tuple(line.strip() for line in self.cleaned_data["tools"].splitlines() if line.strip())

    def changed(self, step: AssemblyStep) -> AssemblyStep:
        """The step with what was typed."""
        return replace(step, **{name: self.cleaned_data[name] for name in (*FIELDS, *GLUE)})


def marks_in(text: str) -> tuple[str, ...]:
    """The marks in a text that stand between commas, semicolons or spaces, each once."""
    return tuple(dict.fromkeys(mark for mark in re.split(r"[\s,;]+", text) if mark))
