"""All fields of a piece of stock, and the field for what it measures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, ClassVar

from django import forms

from buildlog.builds.forms import LengthField
from buildlog.builds.joint_forms import GroupedForm, choice, text, tick
from calculators.planning.edits.measuring import gauge_of
from calculators.planning.model import Stock, Unit

FIELDS = (
    "mark", "called", "material", "form", "length", "width", "thickness", "diameter", "measured", "count",
    "note",
)  # fmt: skip


class StockForm(GroupedForm):
    """What a piece is called, of what it is, and how large."""

    mark = forms.CharField(max_length=20, help_text="It is renamed everywhere.")
    called = forms.CharField(
        label="Called", max_length=200, required=False, help_text="As it was bought: 18 mm birch ply."
    )
    material = text(help_text="Such as birch ply, oak, brass.")
    form = choice(
        ("", "not stated"), ("board", "board"), ("sheet", "sheet"), ("bar", "bar"), ("tube", "tube"),
        ("turned", "turned"), ("bought", "bought in"),
        label="Form",
    )  # fmt: skip
    measured = tick("Its sizes were measured on the piece itself")
    count = forms.IntegerField(
        label="How many", required=False, min_value=0, max_value=1_000_000,
        widget=forms.TextInput(attrs={"inputmode": "numeric", "class": "short"}),
        help_text="Left out: as many as are needed.",
        error_messages={"invalid": "Write a whole number, such as 2.", "min_value": "Write 0 or more."},
    )  # fmt: skip
    note = text(20_000, rows=2)
    lengths: ClassVar[dict[str, tuple[str, str]]] = {
        "length": ("Length", "Of wood along the grain."),
        "width": ("Width", ""),
        "thickness": ("Thickness", ""),
        "diameter": ("Diameter", "Of a round bar or tube."),
    }
    groups: ClassVar[tuple[tuple[str, tuple[str, ...]], ...]] = (
        ("What it is", ("mark", "called", "material", "form", "count")),
        ("Its sizes", ("length", "width", "thickness", "diameter", "measured")),
        ("", ("note",)),
    )

    @staticmethod
    def of(stock: Stock) -> dict[str, Any]:
        """The initial values for a piece."""
        return {name: getattr(stock, name) for name in FIELDS}

    def read(self, now: Stock) -> Stock:
        """The piece with what was typed."""
        return replace(now, **{name: self.cleaned_data[name] for name in FIELDS})


class MeasuredForm(forms.Form):
    """What a piece measures."""

    def __init__(self, sent: Mapping[str, Any] | None, *, stock: Stock, unit: Unit) -> None:
        super().__init__(sent, auto_id=f"{stock.mark}-%s")
        gauge = gauge_of(stock)
        self.fields["length"] = LengthField(
            unit=unit,
            required=True,
            label=f"Measured {gauge} of {stock.mark}",
            error_messages={"required": f"Write the {gauge} that it measures, such as 17.2."},
            widget=forms.TextInput(
                attrs={"autocomplete": "off", "class": "short", "inputmode": "decimal", "size": "8"}
            ),
        )
