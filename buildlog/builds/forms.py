"""What the forms of builds share: fields that read as people write, and faults set beside their fields."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from django import forms

from calculators.planning.model import Unit
from calculators.quantities import Length, read_length
from calculators.quantities.errors import InputError


class LengthField(forms.CharField):
    """A length as people write it: a Length, or None if empty. A bare number is in `unit`.

    Give an initial value as a Length: it is shown as it was written.
    """

    def __init__(self, *, unit: Unit = "mm", least_mm: float | None = None, **more: Any) -> None:
        self.unit, self.least_mm = unit, least_mm
        super().__init__(max_length=100, **{"required": False, **more})

    def prepare_value(self, value: Any) -> Any:
        """Show a length as it was written, with its unit where the build's is another."""
        return length_as_typed(value, self.unit) if isinstance(value, Length) else value

    def to_python(self, value: Any) -> Any:
        """Keep the text; `clean` reads it."""
        return super().to_python(value)

    def clean(self, value: Any) -> Any:
        """Read the length."""
        text = super().clean(value)
        if not text:
            return None
        try:
            return read_length(text, unit=self.unit, minimum_mm=self.least_mm)
        except InputError as error:
            raise forms.ValidationError([fault.says for fault in error.faults]) from None


def length_as_typed(length: Length, unit: Unit) -> str:
    """A length as a person would type it again in a build of this unit, so that reading gives the same."""
    if length.written and length.unit == unit:
        return length.written
    if length.written:
        try:
            if read_length(length.written, unit=unit).ticks == length.ticks:
                return length.written
        except InputError:
            pass
    text = format(Decimal(length.ticks).scaleb(-7).normalize(), "f")
    return text if unit == "mm" else f"{text} mm"


def add_faults(form: forms.BaseForm, error: InputError, fields: Mapping[str, str] | None = None) -> None:
    """Set the faults of an error beside the fields that they concern.

    `fields` maps the ends of a fault's place (`size.length`) to names of form fields; a place whose last name
    is a field of the form goes there; all else stands above the form.
    """
    for fault in error.faults:
        form.add_error(_field_of(form, fault.field, fields or {}), fault.says)


def _field_of(form: forms.BaseForm, place: str, fields: Mapping[str, str]) -> str | None:
    for end, name in fields.items():
        if place == end or place.endswith(f".{end}"):
            return name
    last = place.rpartition(".")[2].split("[")[0].split(" ")[0]
    return last if last in form.fields else None
