"""Every field of a component that is not a line of its own, and what of it was changed, in words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, get_args

from django import forms

from buildlog.builds.component_more import FIELD_OF_FAULT as MORE_FAULTS
from buildlog.builds.component_more import MoreFields, more_initial
from buildlog.builds.forms import LengthField
from calculators.planning.model import Component, Shape, Size, State, StockForm, Unit
from calculators.quantities import Length

SIZES = ("length", "width", "thickness", "diameter", "bore")
KINDS = {"": "size", "made_": "made_size", "rough_": "rough"}
"""The beginnings of the names of fields, and the field of the component that each is of."""

OWN_FIELDS = (
    "mark", "name", "parent", "quantity", "material", "stock", "size", "made_size", "rough", "grain_cut",
    "corner_radius", "bends", "legs", "motion", "end_float", "end_shake", "evidence", "from_stock", "state",
    "revision", "made_to", "reused", "note",
)  # fmt: skip

_STOCKS = {"": "not stated", **{each: each for each in get_args(StockForm)}, "bought": "bought in"}
_STATES = {**{each: each for each in get_args(State)}, "bought": "bought (on order)"}
_GRAIN = {"": "not stated", "flat": "flat-sawn", "quarter": "quarter-sawn"}

FIELD_OF_FAULT: Mapping[str, str] = {
    **{f"{field}.{size}": f"{before}{size}" for before, field in KINDS.items() for size in SIZES},
    **MORE_FAULTS,
}
"""Where the fault of a place in the record stands in the form."""


def _size_field(word: str, unit: Unit, hint: str = "") -> LengthField:
    return LengthField(label=word, unit=unit, help_text=hint, widget=forms.TextInput(attrs=_AS_TYPED))


_AS_TYPED = {"autocomplete": "off", "autocapitalize": "off", "spellcheck": "false"}
_NO_NOUGHT = {"required": "Write a mark, such as P07: letters, digits and hyphens."}


class ComponentForm(MoreFields):
    """What a component is, in groups by meaning; `groups` are what the page shows."""

    mark = forms.CharField(max_length=20, error_messages=_NO_NOUGHT, widget=forms.TextInput(attrs=_AS_TYPED))
    name = forms.CharField(max_length=200, error_messages={"required": "Write what the part is called."})
    parent = forms.CharField(
        label="Belongs to",
        max_length=40,
        required=False,
        help_text="The mark of a sub-assembly, such as G1.",
        widget=forms.TextInput(attrs={**_AS_TYPED, "list": "groups"}),
    )
    quantity = forms.IntegerField(
        label="How many",
        min_value=1,
        max_value=100_000,
        help_text="In one of what it belongs to.",
        error_messages={
            "required": "Write how many there are, 1 or more.",
            "invalid": "Write a whole number, such as 4.",
            "min_value": "Write 1 or more.",
            "max_value": "Write 100,000 or fewer.",
        },
        widget=forms.TextInput(attrs={"inputmode": "numeric", "autocomplete": "off", "class": "short"}),
    )
    material = forms.CharField(
        max_length=200, required=False, help_text="Such as oak, birch ply, CZ121 brass."
    )
    stock = forms.ChoiceField(label="Form of stock", choices=list(_STOCKS.items()), required=False)
    reused = forms.BooleanField(label="An old part that is used again", required=False)
    grain_cut = forms.ChoiceField(label="Grain", choices=list(_GRAIN.items()), required=False)
    state = forms.ChoiceField(choices=list(_STATES.items()))
    revision = forms.CharField(
        max_length=10, required=False, widget=forms.TextInput(attrs={"class": "short"})
    )
    note = forms.CharField(max_length=20_000, required=False, widget=forms.Textarea(attrs={"rows": 3}))
    reason = forms.CharField(
        label="Why it is changed",
        max_length=2_000,
        required=False,
        help_text="Stands in the history of the build.",
    )

    def __init__(self, data: Any = None, *, component: Component, unit: Unit) -> None:
        super().__init__(data, initial=_initial(component))
        self.component = component
        words = {
            "length": "Length",
            "width": "Width",
            "thickness": "Thickness",
            "diameter": "Diameter",
            "bore": "Bore",
        }
        hints = {"length": "Along the grain, or along the axis of a round.", "diameter": "Of a round part."}
        for before in KINDS:
            for size in SIZES:
                hint = hints.get(size, "") if not before else ""
                self.fields[f"{before}{size}"] = _size_field(words[size], unit, hint)
        self.fields["corner_radius"] = _size_field("Radius of its corners", unit, "Seen from above.")
        self.fields["corner_radius"].initial = component.corner_radius
        self.add_lengths(component, unit)

    def clean(self) -> dict[str, Any]:
        """A part is a block or a round."""
        said = super().clean() or {}
        for before in KINDS:
            block = said.get(f"{before}width") or said.get(f"{before}thickness")
            for name in ("diameter", "bore"):
                if block and said.get(f"{before}{name}"):
                    says = (
                        f"A part with a {name} is round and has no width or thickness: empty this, or those."
                    )
                    self.add_error(f"{before}{name}", says)
                    break
        return said

    @property
    def groups(self) -> list[tuple[str, list[forms.BoundField]]]:
        """The fields by meaning; those of sizes are apart, in `sizes`."""
        names = {
            "What it is": (
                "mark",
                "name",
                "parent",
                "quantity",
                "material",
                "stock",
                "from_stock",
                "grain_cut",
                "evidence",
                "reused",
            ),
            "How far it is": ("state", "revision", "made_to", "note", "reason"),
        }
        return [(title, [self[name] for name in group]) for title, group in names.items()]

    @property
    def sizes(self) -> list[tuple[str, str, list[forms.BoundField], bool]]:
        """Title, hint and fields of each group of sizes, and whether there is anything in it."""
        says = {
            "": ("Finished size", "What it is to measure."),
            "made_": ("As made", "What it came to; the joints and holes go by these."),
            "rough_": ("Cut out at", "Where the shop's usual allowances will not do."),
        }
        found = []
        for before, (title, hint) in says.items():
            fields = [self[f"{before}{size}"] for size in SIZES]
            if not before:
                fields.append(self["corner_radius"])
            found.append(
                (title, hint, fields, not before or any(one.value() or one.errors for one in fields))
            )
        return found

    def mark_said(self) -> str:
        """The mark that the component then has."""
        return str(self.cleaned_data["mark"])

    def read(self, now: Component) -> Component:
        """The component with what the form says; what is the same length keeps its writing."""
        said = self.cleaned_data
        return replace(
            now,
            mark=said["mark"],
            name=said["name"],
            parent=_mark_of(said["parent"]),
            quantity=said["quantity"],
            material=said["material"],
            stock=said["stock"],
            size=self._size("", now.size),
            made_size=self._size("made_", now.made_size or Size(), now.size) if self._has("made_") else None,
            rough=self._size("rough_", now.rough or Size(), now.size) if self._has("rough_") else None,
            grain_cut=said["grain_cut"],
            corner_radius=_same(now.corner_radius, said["corner_radius"]),
            state=said["state"],
            bends=said["bends"],
            legs=said["legs"],
            motion=self.motion_said(now.motion),
            end_float=_same(now.end_float, said["end_float"]),
            end_shake=_same(now.end_shake, said["end_shake"]),
            evidence=said["evidence"],
            from_stock=_mark_of(said["from_stock"]),
            revision=said["revision"],
            made_to=said["made_to"],
            reused=said["reused"],
            note=said["note"].replace("\r\n", "\n").replace("\r", "\n"),
        )

    def _has(self, before: str) -> bool:
        return any(self.cleaned_data[f"{before}{size}"] for size in SIZES)

    def _size(self, before: str, now: Size, finished: Size | None = None) -> Size:
        said = {size: _same(getattr(now, size), self.cleaned_data[f"{before}{size}"]) for size in SIZES}
        shape: Shape = now.shape or (finished.shape if finished else "")
        if said["diameter"] or said["bore"]:
            shape = "round"
        elif said["width"] or said["thickness"] or (said["length"] and not shape):
            shape = "block"
        return Size(shape, **said)


def _same(old: Length | None, new: Length | None) -> Length | None:
    return old if old is not None and new is not None and old.ticks == new.ticks else new


def _mark_of(typed: str) -> str:
    """The mark in `G1 Base frame`, as the list of sub-assemblies offers it."""
    return typed.split(" ")[0] if typed.strip() else ""


def _initial(component: Component) -> dict[str, Any]:
    given = {name: getattr(component, name) for name in OWN_FIELDS} | more_initial(component)
    given.pop("motion")
    for before, field in KINDS.items():
        size = given.pop(field) or Size()
        given |= {f"{before}{name}": getattr(size, name) for name in SIZES}
    return given


_WORDS = {
    "parent": "what it belongs to", "quantity": "count", "stock": "stock", "size": "finished size",
    "made_size": "size as made", "rough": "size to cut it out at",
    "grain_cut": "grain", "reused": "use again",
    "corner_radius": "corner radius", "outline": "outline",
    "end_float": "end float", "end_shake": "end shake", "evidence": "what its sizes rest on",
    "from_stock": "stock that it is cut from", "made_to": "revision it is made to",
}  # fmt: skip


def changes_said(old: Component, new: Component) -> str:
    """What was changed of a component, in a sentence that begins with its mark; it ends without a stop."""
    said = []
    for name in (*OWN_FIELDS, "outline"):
        was, is_now = getattr(old, name), getattr(new, name)
        if was == is_now:
            continue
        if name == "mark":
            said.append(f"it was {old.mark} before")
        elif name in ("note", "reused") or not isinstance(is_now, (str, int)) or is_now == "":
            said.append(f"{_WORDS.get(name, name)} {'left open' if is_now in ('', None) else 'changed'}")
        else:
            said.append(f"{_WORDS.get(name, name)} is now {str(is_now)[:60]}")
    if not said:
        return f"{new.mark}: nothing was changed"
    more = f", and {len(said) - 3} more" if len(said) > 3 else ""
    return f"{new.mark}: {', '.join(said[:3])}{more}"
