"""The forms of a joint: what it is, one member of its stack, the hole in one layer, its places."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields
from decimal import Decimal
from typing import Any, ClassVar, get_args

from django import forms

from buildlog.builds.forms import LengthField
from calculators.planning.model import Face, Joint, LayerHole, StackMember, Unit
from calculators.quantities import Length

_NUMBER = re.compile(r"[-+]?[0-9]{1,9}(?:[.,][0-9]{1,12})?")
_BETWEEN = re.compile(r"[\s,;]+")
ALONG = (("", "not a slot"), ("u", "along u"), ("v", "along v"))


class NumberField(forms.CharField):
    """A decimal number as people write it, with its limits: a Decimal, or None if empty."""

    def __init__(self, least: int, most: int, unit: str, **more: Any) -> None:
        self.least, self.most, self.unit_word = least, most, unit
        super().__init__(max_length=40, **{"required": False, **more})

    def prepare_value(self, value: Any) -> Any:
        """Show a number without noughts at the end."""
        return format(value.normalize(), "f") if isinstance(value, Decimal) else value

    def clean(self, value: Any) -> Any:
        """Read the number; its unit may stand behind it."""
        text = super().clean(value)
        if not text:
            return None
        bare = text.removesuffix(self.unit_word).removesuffix("°").strip()
        number = Decimal(bare.replace(",", ".")) if _NUMBER.fullmatch(bare) else None
        if number is None or not self.least <= number <= self.most:
            unit = f" {self.unit_word}" if self.unit_word else ""
            says = f"Write a number from {self.least} to {self.most}{unit}, such as 6.5."
            raise forms.ValidationError(says)
        return number


class MarksField(forms.CharField):
    """Ids of places, parted by commas or spaces: a tuple."""

    def __init__(self, **more: Any) -> None:
        super().__init__(max_length=4_000, **{"required": False, **more})

    def prepare_value(self, value: Any) -> Any:
        """Show them with commas."""
        return ", ".join(value) if isinstance(value, (tuple, list)) else value

    def clean(self, value: Any) -> Any:
        """Part them."""
        return tuple(dict.fromkeys(each for each in _BETWEEN.split(super().clean(value)) if each))


class LinesField(forms.CharField):
    """A text, whose lines end as they are kept however a browser sent them."""

    def to_python(self, value: Any) -> str:
        """Browsers end lines with two signs."""
        return str(super().to_python(value)).replace("\r\n", "\n")


def text(most: int = 200, *, help_text: str = "", label: str | None = None, rows: int = 0) -> forms.CharField:
    """A text that may be left out; of several lines where `rows` is given."""
    widget = forms.Textarea(attrs={"rows": rows}) if rows else forms.TextInput()
    return LinesField(
        required=False, max_length=most, help_text=help_text, label=label, widget=widget, strip=True
    )


def choice(*pairs: tuple[str, str], label: str, help_text: str = "") -> forms.ChoiceField:
    """One of a few words."""
    return forms.ChoiceField(choices=pairs, required=False, label=label, help_text=help_text)


def tick(label: str, help_text: str = "") -> forms.BooleanField:
    """Yes or no."""
    return forms.BooleanField(required=False, label=label, help_text=help_text)


class GroupedForm(forms.Form):
    """A form in groups of meaning; bare lengths are in the build's unit."""

    lengths: ClassVar[dict[str, tuple[str, str]]] = {}
    groups: ClassVar[tuple[tuple[str, tuple[str, ...]], ...]] = ()
    signed: ClassVar[tuple[str, ...]] = ()

    def __init__(self, *args: Any, unit: Unit = "mm", **more: Any) -> None:
        super().__init__(*args, **more)
        for name, (label, help_text) in self.lengths.items():
            least = -100_000.0 if name in self.signed else None
            self.fields[name] = LengthField(unit=unit, least_mm=least, label=label, help_text=help_text)
        for field in self.fields.values():
            field.widget.attrs.setdefault("autocomplete", "off")

    def clean(self) -> dict[str, Any]:
        """A length that stands as it was shown is the one that there was, to the last digit."""
        data: dict[str, Any] = super().clean() or self.cleaned_data
        for name in self.lengths:
            old = self.initial.get(name)
            if isinstance(old, Length) and self[name].data == self.fields[name].prepare_value(old):
                data[name] = old
        return data

    def grouped(self) -> Iterator[tuple[str, list[forms.BoundField]]]:
        """Each group's heading and its fields."""
        for heading, names in self.groups:
            yield heading, [self[name] for name in names if name in self.fields]


class JointForm(GroupedForm):
    """All that is decided about a joint but its stack and its places."""

    mark = forms.CharField(max_length=20, help_text="It is renamed everywhere.")
    title = text(help_text="What it joins: Pillar to base.")
    fastener = forms.CharField(max_length=200, help_text="As the trade writes it.")
    seat = choice(
        ("", "as the head is"), ("surface", "on the surface"), ("flush", "flush, in a countersink"),
        ("counterbore", "sunk in a counterbore"), ("proud", "proud, and that is right"),
        label="How the head sits",
    )  # fmt: skip
    head_angle_deg = NumberField(1, 179, "deg", label="Head angle as measured", help_text="82 or 90.")
    reached_from = text(help_text="above, below, outside ...")
    tool = text(help_text="4 mm hex key, held from behind.", label="Tool")
    torque_nm = NumberField(0, 100_000, "Nm", label="Torque", help_text="In newton metres.")
    lock = text(help_text="low-strength threadlocker, spring washer ...", label="Lock")
    spotted = tick("Spotted through", "Its holes are spotted through from the first part into the others.")
    steel_first = tick("A steel screw is driven before the brass one")
    clamps = tick("It clamps", "Untick for a stop, levelling or grub screw that pulls nothing together.")
    wet = tick("Outdoors or in the damp")
    loaded_sideways = tick("Loaded across its axis")
    pulled = tick("Loaded along its axis", "What it carries pulls it out.")
    fixed_place = text(
        40, label="Place held tight", help_text="Where the wood moves; empty is the middle one."
    )
    count = forms.IntegerField(
        required=False, min_value=0, max_value=1_000_000,
        widget=forms.TextInput(attrs={"inputmode": "numeric"}),
        help_text="In the whole build, where it is not places times copies.",
    )  # fmt: skip
    count_reason = text(20_000, rows=2, label="Why that count")
    supplier = text(label="Supplier")
    note = text(20_000, rows=4)
    lengths: ClassVar[dict[str, tuple[str, str]]] = {
        "head_diameter": ("Head diameter as measured", "Overrides the table for this joint."),
        "head_height": ("Head height as measured", ""),
        "coating": ("Plating or paint on its thread", "How thick it is: 8 µm is 0.008 mm."),
        "stands": ("Stands out", "How far a grub screw or stud stands out; negative is below."),
    }
    signed: ClassVar[tuple[str, ...]] = ("stands",)
    groups: ClassVar[tuple[tuple[str, tuple[str, ...]], ...]] = (
        ("What it is", ("mark", "title", "fastener")),
        ("The head", ("seat", "head_diameter", "head_height", "head_angle_deg")),
        (
            "Driving and locking",
            ("reached_from", "tool", "torque_nm", "lock", "steel_first", "coating", "spotted"),
        ),
        ("What it bears", ("clamps", "stands", "wet", "loaded_sideways", "pulled", "fixed_place")),
        ("How many, and from where", ("count", "count_reason", "supplier")),
        ("Note", ("note",)),
    )

    def clean(self) -> dict[str, Any]:
        """A typed count wants its reason."""
        data = super().clean()
        if data.get("count") is not None and not data.get("count_reason"):
            self.add_error("count_reason", "Say why the count is not places times copies.")
        return data

    @staticmethod
    def of(joint: Joint) -> dict[str, Any]:
        """The initial values for a joint."""
        return {name: getattr(joint, name) for name in (*JointForm.base_fields, *JointForm.lengths)}


class MemberForm(GroupedForm):
    """One member of a stack: a part with what was decided about its hole, or a washer, nut or insert."""

    part = text(40, help_text="Its mark, such as P02.")
    item = text(help_text="Or a washer, nut or insert as the trade writes it: M5 washer.")
    takes = choice(
        ("", "what the fastener makes of it"), ("clearance", "lets the screw pass"), ("thread", "is tapped"),
        ("pilot", "takes a wood screw's thread"), ("insert", "takes an insert"), ("plain", "is plain"),
        label="Its hole",
    )  # fmt: skip
    fit = choice(("close", "close"), ("medium", "medium"), ("free", "free"), label="Fit of a clearance hole")
    thread = text(100, help_text="Where it is not the fastener's own: 10-32 UNF.")
    grain = choice(("", "not said"), ("side", "across the grain"), ("end", "into the end"), label="Grain")
    lengths: ClassVar[dict[str, tuple[str, str]]] = {
        "thickness": ("Thickness", "Typed while a part has no pose; of a washer or nut as measured."),
        "outside": ("Outside diameter", "Of a washer or insert as measured."),
        "body": ("Body diameter", "Of an insert as measured."),
        "thread_depth": ("Full thread", ""),
        "drilled_depth": ("Blind hole, drilled", "Empty is right through, or as the rules give."),
        "edge": ("To the nearest edge", "From the axis, while there is no pose."),
        "end": ("To the nearest end", "From the axis, while there is no pose."),
    }
    groups: ClassVar[tuple[tuple[str, tuple[str, ...]], ...]] = (
        ("What it is", ("part", "item", "thickness", "outside", "body")),
        ("The hole", ("takes", "fit", "thread", "thread_depth", "drilled_depth")),
        ("Where the axis is in it", ("grain", "edge", "end")),
    )

    def clean(self) -> dict[str, Any]:
        """Exactly one of a part and an item."""
        data = super().clean()
        if bool(data.get("part")) == bool(data.get("item")) and not ({"part", "item"} & set(self.errors)):
            self.add_error("part", "Name a part, or a washer, nut or insert: one of the two.")
        data["fit"] = data.get("fit") or "medium"
        return data

    @staticmethod
    def of(member: StackMember) -> dict[str, Any]:
        """The initial values for a member."""
        return {each.name: getattr(member, each.name) for each in fields(member) if each.name != "holes"}


class HoleForm(GroupedForm):
    """What was decided about the hole in one layer, everywhere or at some places, and why."""

    places = MarksField(help_text="Ids of the places it is for, such as 1, 6; empty is all of them.")
    kind = choice(
        ("", "as it follows"), ("clearance", "clearance"), ("tapping", "tapping"), ("pilot", "pilot"),
        ("insert", "insert"), ("plain", "plain"), ("slot", "slot"), ("reamed", "reamed"),
        label="Kind of hole",
    )  # fmt: skip
    slot_along = forms.ChoiceField(choices=ALONG, required=False, label="Slot runs")
    countersink_angle_deg = NumberField(1, 179, "deg", label="Countersink angle")
    no_pilot = tick("No pilot is drilled")
    reason = text(20_000, rows=2, help_text="The base moves across its grain.")
    lengths: ClassVar[dict[str, tuple[str, str]]] = {
        "diameter": ("Diameter", "As drilled; of a slot its width."),
        "depth": ("Depth", "To the drill's shoulder."),
        "slot_length": ("Slot length", "The whole of it."),
        "countersink_diameter": ("Countersink diameter", ""),
        "counterbore_diameter": ("Counterbore diameter", ""),
        "counterbore_depth": ("Counterbore depth", ""),
    }
    groups: ClassVar[tuple[tuple[str, tuple[str, ...]], ...]] = (
        ("", ("places", "kind", "diameter", "depth", "no_pilot")),
        ("", ("slot_length", "slot_along")),
        ("", ("countersink_diameter", "countersink_angle_deg", "counterbore_diameter", "counterbore_depth")),
        ("", ("reason",)),
    )

    @property
    def is_blank(self) -> bool:
        """Whether nothing is decided in it: it is then left out."""
        data = getattr(self, "cleaned_data", {})
        return not any(data.get(name) for name in data if name != "DELETE")

    def leaves(self) -> forms.BoundField:
        """The box that lets a decision go, in the trade's words."""
        field = self.fields["DELETE"]
        field.label = "Leave it to the rules again"
        return field.get_bound_field(self, "DELETE")

    def record(self) -> LayerHole:
        """The record that it makes."""
        data = dict(self.cleaned_data)
        data.pop("DELETE", None)
        pilot = not data.pop("no_pilot")
        return LayerHole(**data, pilot=pilot)

    @staticmethod
    def of(hole: LayerHole) -> dict[str, Any]:
        """The initial values for a hole."""
        found = {each.name: getattr(hole, each.name) for each in fields(hole)}
        return {**found, "no_pilot": not found.pop("pilot")}


HoleForms = forms.formset_factory(HoleForm, extra=1, can_delete=True, max_num=201, absolute_max=201)


class PlacesForm(GroupedForm):
    """Where a joint is: on which face of which part, at which places."""

    groups: ClassVar[tuple[tuple[str, tuple[str, ...]], ...]] = (("", ("home", "face", "places")),)

    home = text(40, label="On which part", help_text="Its mark, or one copy of it: P02 or P02.1.")
    face = choice(("", "not said"), *((face, face) for face in get_args(Face)), label="On which face")
    places = text(
        40_000, rows=6, label="Places, one or several a line", help_text=(
            "20,30; 20,70 or row of 3 from 20,30 pitch 40 along u or circle of 6 on 80 pcd at 60,60; "
            "u and v from the corner of the face, on a side u and degrees."
        ),
    )  # fmt: skip


class LineForm(forms.Form):
    """One joint as one line, changed in place."""

    change = forms.CharField(max_length=20, widget=forms.HiddenInput)
    line = forms.CharField(max_length=4_000, label="The joint on one line")


class FastenerForm(forms.Form):
    """The fastener of a joint as one line."""

    fastener = forms.CharField(
        max_length=200, label="Fastener", help_text="Enter saves.",
        widget=forms.TextInput(attrs={"autocomplete": "off", "spellcheck": "false"}),
    )  # fmt: skip


class StackForm(forms.Form):
    """The stack of a joint as one line."""

    stack = forms.CharField(
        max_length=5_000, required=False, label="Stack, from the head",
        widget=forms.TextInput(attrs={"autocomplete": "off", "spellcheck": "false"}),
        help_text="M5 washer, plate 2, rail 18, M5 nut; thicknesses only while parts have no pose.",
    )  # fmt: skip


class TryForm(forms.Form):
    """A fastener that is tried, nothing saved."""

    try_ = forms.CharField(max_length=200, label="Try another fastener")

    def add_prefix(self, field_name: str) -> str:
        """Its name in the address is `try`, which is no name in Python."""
        return super().add_prefix(field_name.rstrip("_"))
