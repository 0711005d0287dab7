"""The form of a printer's readings: what its two check rules measure on the paper in the hand."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from django import forms

from buildlog.builds.forms import add_faults
from calculators.drawing.template_paper import LEAST_FACTOR, MOST_FACTOR
from calculators.planning.printers import LONGEST_NAME, PrinterReadings, read_rule, stretch_for
from calculators.quantities import read_length
from calculators.quantities.errors import InputError

_SHORT = {"class": "short", "autocomplete": "off", "inputmode": "text"}


_UNREAD = {"required": "Write what the 100 mm rule measures, such as 99.2."}


def _short(**more: Any) -> forms.CharField:
    return forms.CharField(max_length=60, widget=forms.TextInput(attrs=_SHORT), **more)


class ReadingsForm(forms.Form):
    """Both readings of one print, the printer's name, and how long the rules were drawn on that print."""

    along = _short(
        label="Along the paper, 100 measures",
        help_text="99.2, 99,2 mm; or the 4 in rule: 3 15/16 in.",
        error_messages=_UNREAD,
    )
    across = _short(label="Across the paper, 100 measures", error_messages=_UNREAD)
    printer = forms.CharField(
        label="Printer", max_length=LONGEST_NAME, help_text="Any name by which you know it again."
    )
    along_drawn = _short(
        label="Along, 100 was drawn", help_text="In mm; the sheet says its correction.", required=False
    )
    across_drawn = _short(label="Across, 100 was drawn", required=False)

    def clean_printer(self) -> str:
        """One line, without spaces about it."""
        return " ".join(str(self.cleaned_data["printer"]).split())

    def _rule(self, name: str) -> Decimal | None:
        try:
            return read_rule(self.cleaned_data[name], name)
        except InputError as error:
            add_faults(self, error)
            return None

    def clean_along(self) -> Decimal | None:
        """Read what the rule measures."""
        return self._rule("along")

    def clean_across(self) -> Decimal | None:
        """Read what the rule measures."""
        return self._rule("across")

    def _drawn(self, name: str) -> Decimal:
        text = self.cleaned_data[name].strip() or "100"
        try:
            drawn = Decimal(read_length(text, unit="mm").ticks).scaleb(-7).quantize(Decimal("0.001"))
        except InputError as error:
            raise forms.ValidationError([fault.says for fault in error.faults]) from None
        if not LEAST_FACTOR <= drawn / 100 <= MOST_FACTOR:
            raise forms.ValidationError(
                f"A rule of 100 mm is drawn between {LEAST_FACTOR * 100:g} and {MOST_FACTOR * 100:g} mm long."
            )
        return drawn.normalize()

    def clean_along_drawn(self) -> Decimal:
        """Read how long the rule was drawn; nothing is 100."""
        return self._drawn("along_drawn")

    def clean_across_drawn(self) -> Decimal:
        """Read how long the rule was drawn; nothing is 100."""
        return self._drawn("across_drawn")

    def readings(self, day: date) -> PrinterReadings | None:
        """What was typed, once it is clean; None where the correction would be none that a printer needs."""
        typed = self.cleaned_data
        found = PrinterReadings(
            typed["printer"], typed["along"], typed["across"],
            typed["along_drawn"], typed["across_drawn"], day,
        )  # fmt: skip
        try:
            stretch_for(found.printer, found.along_next_mm, found.across_next_mm)
        except InputError as error:
            add_faults(self, error)
            return None
        return found

    @property
    def folded(self) -> list[forms.BoundField]:
        """The fields that are right as they stand where the last print is what was measured."""
        return [self["along_drawn"], self["across_drawn"]]

    @property
    def is_folded(self) -> bool:
        """Whether nothing is wrong in the folded fields."""
        return not any(one.errors for one in self.folded)
