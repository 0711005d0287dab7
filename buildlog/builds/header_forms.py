"""The forms of a build's header: beginning one, what it is, and what its check depends on."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal, InvalidOperation
from difflib import get_close_matches
from typing import Any, get_args
from zoneinfo import available_timezones

from django import forms

from buildlog.builds.zones import zone_named
from buildlog.workshops.models import Person, Workshop
from calculators.hardware.designation import read_hardware
from calculators.hardware.drill_sets import drill_set
from calculators.hardware.threads import find_thread
from calculators.planning.documents import read_context
from calculators.planning.edits import limit_named
from calculators.planning.model import Build, BuildState, Context
from calculators.quantities import read_length
from calculators.quantities.errors import InputError

UNITS = (("mm", "millimetres"), ("in", "inches"))
SERIES = (
    ("inch-us", "inch, shank 0.060 + 0.013 n in"),
    ("inch-british", "inch, the British series"),
    ("metric", "metric"),
)
NO_TITLE = "No title yet"


class BeginForm(forms.Form):
    """A new build: its number, which is offered, what it is, and what a bare number means in it."""

    number = forms.CharField(max_length=40, help_text="The next that is free; any other will do.")
    title = forms.CharField(
        label="What is it?",
        max_length=200,
        required=False,
        help_text="An oak box with a lid. It can be changed later.",
    )
    unit = forms.ChoiceField(
        label="A bare number means", choices=UNITS, widget=forms.RadioSelect, initial="mm"
    )

    def build(self, workshop: Workshop, person: Person) -> Build:
        """The build to begin: with the workshop's habits, judged on no fixed day."""
        typed = self.cleaned_data
        return Build(
            typed["number"],
            typed["title"] or NO_TITLE,
            unit=typed["unit"],
            workshop=workshop.name[:200],
            drawn_by=person.get_full_name()[:200],
            context=replace(habits_of(workshop), as_of=None),
        )


def habits_of(workshop: Workshop) -> Context:
    """The context that a workshop's new builds begin with; the usual one where it cannot be read."""
    try:
        return read_context(workshop.habits)
    except InputError:
        return Context()


def _lines(rows: int, **more: Any) -> forms.CharField:
    widget = forms.Textarea(
        attrs={"rows": rows, "data-tall": "", "spellcheck": "false", "autocapitalize": "off"}
    )
    return forms.CharField(required=False, max_length=200_000, widget=widget, **more)


def _long(**more: Any) -> forms.CharField:
    return forms.CharField(
        required=False, max_length=20_000, widget=forms.Textarea(attrs={"rows": 4}), **more
    )


def _short(**more: Any) -> forms.CharField:
    return forms.CharField(
        required=False, max_length=100, widget=forms.TextInput(attrs={"class": "short"}), **more
    )


def _day(**more: Any) -> forms.DateField:
    return forms.DateField(
        required=False,
        widget=forms.DateInput(attrs={"placeholder": "2025-06-30"}, format="%Y-%m-%d"),
        input_formats=["%Y-%m-%d"],
        error_messages={"invalid": "Write the day as year-month-day, such as 2025-06-30."},
        **more,
    )


class AboutForm(forms.Form):
    """What a build is, and for whom."""

    number = forms.CharField(max_length=40, help_text="It stands in addresses and on every sheet.")
    title = forms.CharField(label="What is it?", max_length=200)
    purpose = _long(label="What is it for?")
    unit = forms.ChoiceField(
        label="A bare number means",
        choices=UNITS,
        widget=forms.RadioSelect,
        help_text="What was written stays as it was written: a length that stands here keeps the unit it was"
        " written in, whichever you choose.",
    )
    client = forms.CharField(label="For whom?", required=False, max_length=200)
    due = _day(label="Due", help_text="As 2025-06-30.")
    state = forms.ChoiceField(choices=[(one, one) for one in get_args(BuildState)])
    revision = _short(label="Revision", help_text="A letter; the whole build's, as on its title block.")
    issued = _day(label="Date of issue")
    drawn_by = forms.CharField(label="Drawn by", required=False, max_length=200)

    @staticmethod
    def of(build: Build) -> dict[str, Any]:
        """What the form shows of a build."""
        return {name: getattr(build, name) for name in AboutForm.base_fields}

    def changed(self, build: Build) -> Build:
        """The build with what was typed."""
        return replace(build, **{name: self.cleaned_data[name] for name in self.fields})


class ContextForm(forms.Form):
    """What the check of a build depends on besides the build: tools, habits, limits, a day."""

    drills = _lines(
        4,
        label="Drills that are owned",
        help_text="One set or drill a line: 1.0-13.0 by 0.5, number 1-60, 1/4.",
    )
    taps = _lines(4, label="Taps that are owned", help_text="One a line: M5, 2 BA, 1/4 UNF.")
    cutters = _lines(
        3, label="Cutters that are owned", help_text="Router cutters and mills, one a line: 6 mm, 1/2 in."
    )
    wood_screw_series = forms.ChoiceField(label="Numbered wood screws are", choices=SERIES)
    wood_screw_head_angle_deg = _short(label="Head angle of wood screws", help_text="Degrees: 90 or 82.")
    tapping_percent = _short(label="Percentage of thread that is tapped for", help_text="Such as 70.")
    moisture_change_percent = _short(
        label="Swing in moisture to plan for", help_text="Percentage points over the year, such as 4."
    )
    place_moisture_percent = _short(
        label="Moisture that wood comes to where it will stand", help_text="Per cent, such as 9."
    )
    position_mm = _short(
        label="How far off a hole may lie", help_text="In each part, in millimetres, such as 0.2."
    )
    hardware = _lines(
        3,
        label="Hardware in the drawer or on order",
        help_text="One a line: M5 x 20 csk steel: 12, or 12 off M5 x 20 csk steel.",
    )
    printer_along_mm = _short(
        label="100 mm check rule of a template, along the paper", help_text="As measured, in mm: 100.1."
    )
    printer_across_mm = _short(label="The same across the paper", help_text="As measured, in mm: 99.9.")
    printer_on = _day(label="Check rules measured on", help_text="As 2025-06-06.")
    projection = forms.ChoiceField(
        label="Views of part drawings",
        choices=(
            ("first", "first angle: the top lies below the front"),
            ("third", "third angle: the top lies above it"),
        ),
        required=False,
    )
    currency = forms.CharField(
        max_length=3,
        help_text="Three letters of ISO 4217, such as GBP.",
        widget=forms.TextInput(attrs={"class": "short"}),
    )
    zone = forms.CharField(label="Time zone", max_length=64, help_text="Such as Europe/London.")
    as_of = _day(label="Judged as on", help_text="The day that the check takes as today; left out, none.")
    limits = _lines(
        3,
        label="Limits of rules",
        help_text="What replaces a rule's own limit, one a line: its name, then the number.",
    )

    @staticmethod
    def of(context: Context) -> dict[str, Any]:
        """What the form shows of a context."""
        shown = {name: getattr(context, name) for name in ContextForm.base_fields}
        for name in ("drills", "taps", "cutters"):
            shown[name] = "\n".join(shown[name])
        shown["hardware"] = "\n".join(f"{name}: {count.normalize():f}" for name, count in context.hardware)
        shown["limits"] = "\n".join(f"{name} {value}" for name, value in context.limits)
        return shown

    @property
    def groups(self) -> list[tuple[str, list[forms.BoundField], bool]]:
        """The fields by how often they are wanted: the first group is open, the others fold."""
        folded = {
            "Printed templates": ("printer_along_mm", "printer_across_mm", "printer_on"),
            "Currency, time zone, limits of rules": ("currency", "zone", "limits"),
        }
        inside = {name for names in folded.values() for name in names}
        found = [("", [self[name] for name in self.fields if name not in inside], True)]
        for title, names in folded.items():
            fields = [self[name] for name in names if name in self.fields]
            found.append((title, fields, any(one.errors for one in fields)))
        return found

    def _decimal(self, name: str) -> Decimal | None:
        text = self.cleaned_data[name].strip().rstrip("%° ").replace(",", ".")
        return read_decimal(text) if text else None

    def clean_wood_screw_head_angle_deg(self) -> Decimal | None:
        """Read degrees."""
        return self._decimal("wood_screw_head_angle_deg")

    def clean_tapping_percent(self) -> Decimal | None:
        """Read a percentage."""
        return self._decimal("tapping_percent")

    def clean_moisture_change_percent(self) -> Decimal | None:
        """Read a percentage."""
        return self._decimal("moisture_change_percent")

    def clean_place_moisture_percent(self) -> Decimal | None:
        """Read a percentage."""
        return self._decimal("place_moisture_percent")

    def _mm(self, name: str) -> Decimal | None:
        self.cleaned_data[name] = self.cleaned_data[name].strip().removesuffix("mm")
        return self._decimal(name)

    def clean_position_mm(self) -> Decimal | None:
        """Read millimetres."""
        return self._mm("position_mm")

    def clean_printer_along_mm(self) -> Decimal | None:
        """Read millimetres."""
        return self._mm("printer_along_mm")

    def clean_printer_across_mm(self) -> Decimal | None:
        """Read millimetres."""
        return self._mm("printer_across_mm")

    def clean_hardware(self) -> tuple[tuple[str, Decimal], ...]:
        """A designation and a count on each line; lines of one designation are counted together."""
        stood = set(str(self.initial.get("hardware", "")).splitlines())
        found: dict[str, Decimal] = {}
        faults: list[str] = []
        for line in _texts(self.cleaned_data["hardware"]):
            try:
                name, count = _counted(line)
                if line not in stood:
                    read_hardware(name)
                found[name] = found.get(name, Decimal(0)) + count
            except InputError as error:
                faults.append(f"“{line[:60]}”: {error.faults[0].says}")
        if faults:
            raise forms.ValidationError(faults[:5])
        return tuple(found.items())

    def _each(self, name: str, read: Callable[[str], object]) -> str:
        """Refuse a line that cannot be read; one that stood there before may stay."""
        stood = str(self.initial.get(name, "")).splitlines()
        faults = []
        for line in _texts(self.cleaned_data[name]):
            if line not in stood:
                try:
                    read(line)
                except InputError as error:
                    faults.append(f"“{line[:60]}”: {error.faults[0].says}")
        if faults:
            raise forms.ValidationError(faults[:5])
        return str(self.cleaned_data[name])

    def clean_drills(self) -> str:
        """Sets and single drills, one a line."""
        return self._each("drills", drill_set)

    def clean_taps(self) -> str:
        """Threads, one a line."""
        return self._each("taps", find_thread)

    def clean_cutters(self) -> str:
        """Diameters, one a line."""
        return self._each("cutters", lambda line: read_length(line, minimum_mm=0.1))

    def clean_currency(self) -> str:
        """Capitals, three of them."""
        currency = str(self.cleaned_data["currency"]).strip().upper()
        if len(currency) != 3 or not (currency.isascii() and currency.isalpha()):
            raise forms.ValidationError("Write the three letters of ISO 4217, such as GBP, EUR or USD.")
        return currency

    def clean_zone(self) -> str:
        """A zone that there is."""
        zone = str(self.cleaned_data["zone"]).strip()
        if zone_named(zone) is None:
            near = get_close_matches(zone[:60], available_timezones(), n=3, cutoff=0.4)
            meant = f"did you mean {' or '.join(near)}?" if near else "write one such as Europe/London."
            raise forms.ValidationError(f"There is no time zone “{zone}”; {meant}")
        return zone

    def clean_limits(self) -> tuple[tuple[str, Decimal], ...]:
        """A name and a number on each line."""
        found: dict[str, Decimal] = {}
        stood = {line.rpartition(" ")[0] for line in str(self.initial.get("limits", "")).splitlines()}
        for line in _texts(self.cleaned_data["limits"]):
            name, _, number = line.replace("=", " ").rpartition(" ")
            if not name.strip():
                raise forms.ValidationError(f"“{line[:60]}” is no limit: write its name, then the number.")
            name = name.strip(" :")
            if name not in stood:
                try:
                    limit_named(name)
                except InputError as error:
                    raise forms.ValidationError(error.faults[0].says) from None
            found[name] = read_decimal(number)
        return tuple(found.items())

    def changed(self, context: Context) -> Context:
        """The context with what was typed."""
        typed = dict(self.cleaned_data)
        for name in ("drills", "taps", "cutters"):
            typed[name] = _texts(typed[name])
        typed["projection"] = typed["projection"] or context.projection
        return replace(context, **typed)


_COUNT_BEHIND = re.compile(r"(?P<name>.+?) ?: ?(?P<count>[0-9]{1,7}(?:\.[0-9]{1,6})?)")
_COUNT_BEFORE = re.compile(
    r"(?P<count>[0-9]{1,7}) ?(?:off|x|×|pcs?|pieces of|of) (?P<name>\D.*|[0-9]+[ /].*)"
)


def _counted(line: str) -> tuple[str, Decimal]:
    """A designation and how many of it there are. Raises InputError."""
    found = _COUNT_BEHIND.fullmatch(line) or _COUNT_BEFORE.fullmatch(line)
    if found is None:
        says = "it does not say how many; write it as M5 x 20 csk steel: 12, or 12 off M5 x 20 csk steel."
        raise InputError.of(says)
    return found["name"].strip(), Decimal(found["count"])


def _texts(text: str) -> tuple[str, ...]:
    return tuple(line.strip() for line in text.splitlines() if line.strip())


def read_decimal(text: str) -> Decimal:
    """A plain decimal number; ValidationError with a sentence where it is none."""
    try:
        number = Decimal(text.strip())
    except InvalidOperation:
        number = Decimal("NaN")
    if not number.is_finite() or abs(number) >= 10**9 or number != round(number, 12):
        raise forms.ValidationError(f"“{text[:40]}” is not a number; write one such as 12.5.")
    return number
