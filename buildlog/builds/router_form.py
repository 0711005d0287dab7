"""How a router is set up for a part: the questions of its page, and as texts for sheets and commands."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal, InvalidOperation
from typing import Any, cast

from django import forms

from buildlog.builds.forms import LengthField, add_faults
from buildlog.builds.joint_forms import NumberField, choice, tick
from calculators.drawing.drilling_moves import LIMITS, SetUp, checked
from calculators.planning.model import Unit
from calculators.quantities import read_length
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.marks import quoted

LENGTHS = {"safe": "safe_mm", "clear": "clear_mm", "beyond": "beyond_mm"}
NUMBERS = {"peck": "peck", "least": "least_rpm", "most": "most_rpm"}
OPTIONS = ("face", *LENGTHS, *NUMBERS, "spot", "copy")
"""What a set-up can be asked, by the names in addresses and of the command's `--set`."""


def set_up_asked(asked: Mapping[str, str], unit: Unit = "mm") -> SetUp:
    """Read a set-up of texts as people write them; what is not asked is as usual.

    Raises InputError with a sentence for each text that cannot be read or is out of its limits.
    """
    values: dict[str, Any] = {"copy": asked.get("copy", ""), "spot": asked.get("spot", "yes") != "no"}
    faults: list[Fault] = []
    for name, field in {**LENGTHS, **NUMBERS}.items():
        text = asked.get(name, "").strip()
        if not text:
            continue
        try:
            values[field] = read_length(text, unit=unit).mm if name in LENGTHS else _number(text, field)
        except InputError as error:
            faults += [Fault(fault.says, name) for fault in error.faults]
    if faults:
        raise InputError(*faults)
    try:
        return checked(SetUp(**values))
    except InputError as error:
        names = {field: name for name, field in {**LENGTHS, **NUMBERS}.items()}
        raise InputError(
            *(Fault(one.says, names.get(one.field, one.field)) for one in error.faults)
        ) from None


def set_up_named(pairs: Iterable[str]) -> dict[str, str]:
    """Read `name=value` pairs of a command; InputError for one that is none, or a name that there is not."""
    found: dict[str, str] = {}
    for pair in pairs:
        name, sign, value = pair.partition("=")
        if not sign or name not in OPTIONS[1:]:
            says = f"{quoted(pair)} sets nothing; write NAME=VALUE with one of {', '.join(OPTIONS[1:])}."
            raise InputError.of(says, field="--set", choices=OPTIONS[1:])
        found[name] = value
    return found


def _number(text: str, field: str) -> float:
    least, most, unit, called = LIMITS[field]
    try:
        number = Decimal(text.replace(",", "."))
    except InvalidOperation:
        number = Decimal("NaN")
    if not number.is_finite() or abs(number) > Decimal("1e9"):
        raise InputError.of(f"{called} is a number from {least:g} to {most:g} {unit}.", field=field)
    return float(number)


class RouterForm(forms.Form):
    """The set-up, asked on a page."""

    face = choice(label="Face that lies up")
    copy = choice(label="Copy that is drilled", help_text="Its copies have different holes.")
    peck = NumberField(
        0, 20, "", label="Peck, in diameters", help_text="How deep before the chips are cleared: 1."
    )
    least = NumberField(1, 60_000, "", label="Least speed of the spindle", help_text="Turns a minute: 1000.")
    most = NumberField(100, 60_000, "", label="Greatest speed", help_text="Turns a minute: 18000.")
    skip_spot = tick("Leave out the spot drill")

    def __init__(
        self, *args: Any, faces: tuple[str, ...], copies: tuple[str, ...], unit: Unit, **more: Any
    ) -> None:
        more.setdefault("auto_id", "%s")
        super().__init__(*args, **more)
        self.unit = unit
        lengths = {
            "safe": ("Safe height", "Over the face, higher than every clamp: 15 mm."),
            "clear": ("Feeding begins at", "Over the face: 2 mm."),
            "beyond": ("Through holes go on", "Into the board under the part: 1 mm."),
        }
        for name, (label, help_text) in lengths.items():
            self.fields[name] = LengthField(unit=unit, label=label, help_text=help_text)
        cast(forms.ChoiceField, self.fields["face"]).choices = [(one, one) for one in faces]
        if copies:
            cast(forms.ChoiceField, self.fields["copy"]).choices = [("", "none of them alone")] + [
                (one, one) for one in copies
            ]
        else:
            del self.fields["copy"]
        self.order_fields(("face", "copy", "safe", "clear", "beyond", "peck", "least", "most", "skip_spot"))
        for field in self.fields.values():
            field.widget.attrs.setdefault("autocomplete", "off")

    @property
    def asked(self) -> dict[str, str]:
        """What is asked, as texts by the names of `OPTIONS`; what is left out is not among them."""
        names = [name for name in OPTIONS if name in self.fields]
        said = {name: self.data.get(name, "").strip()[:100] for name in names}
        if self.data.get("skip_spot"):
            said["spot"] = "no"
        return {name: text for name, text in said.items() if text}

    def set_up(self) -> SetUp | None:
        """The set-up; None where something cannot be read, which then stands beside its field."""
        if not self.is_valid():
            return None
        try:
            return set_up_asked(self.asked, self.unit)
        except InputError as error:
            add_faults(self, error)
            return None
