"""The fields of a component that few parts need: folds, motion, the play of a shaft; read and shown."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any, get_args

from django import forms

from buildlog.builds.forms import LengthField, length_as_typed
from buildlog.builds.joint_forms import MarksField, NumberField
from buildlog.builds.listed_lines import read_lines
from calculators.planning.lines import read_bend_line, write_bend_line
from calculators.planning.model import Bend, Component, Evidence, Motion, Unit
from calculators.quantities import Length, read_length
from calculators.quantities.errors import InputError

AS_TYPED = {"autocomplete": "off", "autocapitalize": "off", "spellcheck": "false"}
EVIDENCE = {
    "": "not stated", "measured": "measured on an exemplar", "scaled": "scaled from a picture",
    "drawing": "a drawing", "catalogue": "a catalogue", "design": "chosen freely", "judged": "a guess",
    "none": "nothing yet",
}  # fmt: skip
assert set(EVIDENCE) == set(get_args(Evidence))

MOTION = ("kind", "axis", "least", "most", "x", "y", "z", "carries")
_BETWEEN_LEGS = re.compile(r"\s*;\s*|,\s+|[\r\n]+")

FOLDS = ("bends", "legs")
MOVES = tuple(f"motion_{name}" for name in MOTION)
SHAFT = ("end_float", "end_shake")
FIELD_OF_FAULT = {f"motion.{name}": f"motion_{name}" for name in MOTION} | {"motion": "motion_most"}


class BendsField(forms.CharField):
    """Bends, one a line."""

    def __init__(self, *, unit: Unit = "mm", **more: Any) -> None:
        self.unit, self.now = unit, tuple[Bend, ...]()
        widget = forms.Textarea(attrs={"rows": 3, **AS_TYPED})
        super().__init__(max_length=40_000, widget=widget, **{"required": False, **more})

    def prepare_value(self, value: Any) -> Any:
        """Show each on its line."""
        return "\n".join(write_bend_line(one, self.unit) for one in value) if _is_list(value) else value

    def clean(self, value: Any) -> Any:
        """Read each line."""
        return read_lines(
            super().clean(value),
            self.now,
            lambda one: write_bend_line(one, self.unit),
            lambda line, taken: read_bend_line(line, self.unit, taken),
        )


class LegsField(forms.CharField):
    """Lengths in their order, parted by semicolons: a tuple."""

    def __init__(self, *, unit: Unit = "mm", **more: Any) -> None:
        self.unit, self.now = unit, tuple[Length, ...]()
        super().__init__(max_length=4_000, **{"required": False, **more})

    def prepare_value(self, value: Any) -> Any:
        """Show them as they were written."""
        return "; ".join(length_as_typed(one, self.unit) for one in value) if _is_list(value) else value

    def clean(self, value: Any) -> Any:
        """Read them."""
        text = super().clean(value)
        if text == self.prepare_value(self.now):
            return self.now
        try:
            return tuple(
                read_length(one, unit=self.unit) for one in _BETWEEN_LEGS.split(text.strip(" ;,")) if one
            )
        except InputError as error:
            raise forms.ValidationError([fault.says for fault in error.faults]) from None


def _is_list(value: Any) -> bool:
    return isinstance(value, (tuple, list))


def choice(choices: Iterable[tuple[str, str]], label: str, hint: str = "") -> forms.ChoiceField:
    """One of a few words, or none."""
    return forms.ChoiceField(choices=list(choices), required=False, label=label, help_text=hint)


class MoreFields(forms.Form):
    """What few parts need, besides what `ComponentForm` has for all."""

    evidence = choice(EVIDENCE.items(), "Its sizes rest on")
    from_stock = forms.CharField(
        label="Cut from",
        max_length=40,
        required=False,
        help_text="The mark of a piece on the rack, such as S1.",
        widget=forms.TextInput(attrs={**AS_TYPED, "list": "rack", "class": "short"}),
    )
    made_to = forms.CharField(
        label="Made to revision",
        max_length=10,
        required=False,
        help_text="Set when it is made.",
        widget=forms.TextInput(attrs={"class": "short"}),
    )
    bends = BendsField(
        label="Bends",
        help_text="One a line: at 25 across, 90 deg, radius 2, rolled along, annealed; the size is flat.",
    )
    legs = LegsField(label="Outside lengths of its legs", help_text="In order along its length: 20; 35; 20.")
    motion_kind = choice((("", "it stays"), ("turns", "turns"), ("slides", "slides")), "It")
    motion_axis = choice(
        (("", "not said"), ("X", "X, its length"), ("Y", "Y, its width"), ("Z", "Z, its thickness")),
        "About or along its own",
    )
    motion_least = NumberField(-100_000, 0, "", label="From", help_text="Degrees or mm; nought or less.")
    motion_most = NumberField(0, 100_000, "", label="To", help_text="Degrees or mm.")
    motion_carries = MarksField(
        label="It carries", help_text="Marks of the parts that move with it: P22, P23."
    )

    def add_lengths(self, one: Component, unit: Unit) -> None:
        """Add the fields that read lengths, and say what stands in those that keep their writing."""
        for name, label in (("x", "Axis through X"), ("y", "Y"), ("z", "Z")):
            held = getattr(one.motion, name) if one.motion is not None else None
            self.fields[f"motion_{name}"] = _length(label, unit, least_mm=-100_000.0)
            self.fields[f"motion_{name}"].initial = held if held is not None and held.ticks else None
        for name, label, hint in (
            ("end_float", "End float", "How far its free end may slide."),
            ("end_shake", "End shake", "The play between its collars."),
        ):
            self.fields[name] = _length(label, unit, hint=hint, least_mm=0.0)
            self.fields[name].initial = getattr(one, name)
        for name in FOLDS:
            field: Any = self.fields[name]
            field.unit, field.now = unit, getattr(one, name)

    def clean(self) -> dict[str, Any]:
        """A motion has an axis and goes somewhere."""
        said: dict[str, Any] = super().clean() or self.cleaned_data
        if said.get("motion_kind"):
            if not said.get("motion_axis"):
                self.add_error("motion_axis", "Say about or along which of its own axes it moves.")
            if said.get("motion_least") is None and said.get("motion_most") is None:
                self.add_error("motion_most", "Say how far it goes: from, to, or both.")
        elif "motion_kind" not in self.errors and any(
            said.get(name) not in (None, "", ()) for name in MOVES if name != "motion_kind"
        ):
            self.add_error("motion_kind", "Say whether it turns or slides, or empty the fields below.")
        return said

    def motion_said(self, now: Motion | None) -> Motion | None:
        """The motion that the fields say."""
        said = self.cleaned_data
        if not said["motion_kind"]:
            return None
        zero = Length(0)
        points = {name: said[f"motion_{name}"] or zero for name in ("x", "y", "z")}
        if now is not None:
            points = {
                name: getattr(now, name) if getattr(now, name).ticks == point.ticks else point
                for name, point in points.items()
            }
        return Motion(
            said["motion_kind"],
            said["motion_axis"],
            said["motion_least"] if said["motion_least"] is not None else type(said["motion_most"])(0),
            said["motion_most"] if said["motion_most"] is not None else type(said["motion_least"])(0),
            carries=said["motion_carries"],
            **points,
        )

    def more(self) -> list[tuple[str, str, list[forms.BoundField], bool]]:
        """Title, hint and fields of each group that is folded, and whether it is open."""
        groups = (
            ("Folds", "Of a sheet part.", FOLDS),
            ("How it moves", "From where its pose lays it, in its own axes.", MOVES),
            ("Play of a shaft", "", SHAFT),
        )
        return [
            (title, hint, fields, any(one.value() or one.errors for one in fields))
            for title, hint, names in groups
            for fields in [[self[name] for name in names]]
        ]


def _length(label: str, unit: Unit, *, hint: str = "", least_mm: float | None = None) -> LengthField:
    widget = forms.TextInput(attrs=AS_TYPED)
    return LengthField(label=label, unit=unit, help_text=hint, least_mm=least_mm, widget=widget)


def more_initial(one: Component) -> dict[str, Any]:
    """What the fields of a motion show of a component; all others show the field of their name."""
    motion = one.motion
    if motion is None:
        return {}
    return {f"motion_{name}": getattr(motion, name) for name in ("kind", "axis", "least", "most", "carries")}
