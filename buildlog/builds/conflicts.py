"""Two people changed one record: what parts/_conflict.html shows of both versions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django import forms
from django.utils.safestring import SafeString

from buildlog.builds.actions import Overtaken, fingerprint


@dataclass(frozen=True, slots=True)
class ConflictField:
    """One field that differs: what the others saved, and the widget that holds one's own."""

    label: str
    theirs: str
    field: SafeString


@dataclass(frozen=True, slots=True)
class Conflict:
    """What the partial needs."""

    says: str
    fields: tuple[ConflictField, ...]
    same: tuple[forms.BoundField, ...]
    seen: str


def conflict_of(error: Overtaken, pairs: Sequence[tuple[forms.BaseForm, forms.BaseForm]]) -> Conflict:
    """Both versions, field by field. `pairs` are one's own form as it was sent and a form of theirs."""
    fields: list[ConflictField] = []
    same: list[forms.BoundField] = []
    for mine, theirs in pairs:
        for name in mine.fields:
            if _text(mine[name]) == _text(theirs[name]):
                same.append(mine[name])
            else:
                widget = mine[name].as_widget(attrs={"aria-label": f"Your {mine[name].label}"})
                fields.append(ConflictField(str(mine[name].label), _text(theirs[name]), widget))
    says = f"{error} Nothing of yours is saved yet."
    return Conflict(says, tuple(fields), tuple(same), fingerprint(error.kind, error.theirs))


def _text(bound: forms.BoundField) -> str:
    """The value of a field in words."""
    value: Any = bound.value()
    if isinstance(bound.field, forms.BooleanField):
        return "yes" if value else "no"
    if isinstance(bound.field, forms.ChoiceField):
        words = {str(key): str(word) for key, word in bound.field.widget.choices}
        return words.get(str(value or ""), str(value or ""))
    return "" if value is None else str(value).replace("\r\n", "\n").strip()
