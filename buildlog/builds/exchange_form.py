"""The form between a drawing that was read and the part that is made of it.

The drawing travels in the form itself, signed and packed, for a day: nothing of it is kept until it is saved.
"""

from __future__ import annotations

from collections import Counter
from typing import Any, cast

from django import forms
from django.core import signing

from buildlog.builds.forms import LengthField
from buildlog.builds.joint_forms import NumberField, choice, tick
from calculators.drawing.flat_drawing import UNITS_MM, FlatDrawing, from_plain, to_plain
from calculators.geometry.outline_joining import Places
from calculators.planning.from_cad.choosing import Choices, LayerChoice, LayerRow, layer_rows
from calculators.planning.model import Component, Unit
from calculators.quantities import Length
from calculators.quantities.errors import InputError

SALT = "a drawing that was read"
KEPT_SECONDS = 24 * 3600
MOST_CARRIED = 2_000_000
"""The longest text that a form carries of a drawing [characters]; Django takes 2.5 MB of a form."""

MOST_LAYERS = 100
UNIT_WORDS = {"mm": "millimetres", "cm": "centimetres", "m": "metres", "in": "inches", "ft": "feet"}


def carried(drawing: FlatDrawing) -> str:
    """A drawing as text for a form; InputError where it is too much to carry."""
    text = signing.dumps(to_plain(drawing), salt=SALT, compress=True)
    if len(text) > MOST_CARRIED:
        raise InputError.of(
            "The drawing has more corners and shapes than can be carried on; keep in it only the outline "
            "and the holes of this part.",
            field="file",
        )
    if len(drawing.layers) > MOST_LAYERS:
        raise InputError.of(
            f"The drawing has shapes on {len(drawing.layers)} layers, and at most {MOST_LAYERS} are read; "
            "keep in it only the layers of this part.",
            field="file",
        )
    return text


def uncarried(text: str) -> FlatDrawing:
    """The drawing that a form carried; InputError where it is another's, or older than a day."""
    try:
        plain = signing.loads(text, salt=SALT, max_age=KEPT_SECONDS)
    except signing.BadSignature:
        says = "The drawing was read more than a day ago, or did not come back whole: choose the file again."
        raise InputError.of(says, field="file") from None
    return from_plain(plain)


class ExchangeForm(forms.Form):
    """What is taken of a drawing, and what it becomes."""

    drawing = forms.CharField(widget=forms.HiddenInput, max_length=MOST_CARRIED)
    unit = choice(*UNIT_WORDS.items(), label="The drawing is in")
    face = choice(label="It is the face", help_text="As seen from outside, u to the right and v upward.")
    outline = choice(
        ("part", "becomes the part's outline, length and width"), ("datum", "only says where the datum is"),
        label="The outermost outline",
    )  # fmt: skip
    which = choice(label="The outline of the part is", help_text="What lies outside it is left out.")
    datum = choice(
        ("outline", "the least x and y of the outline"), ("origin", "the drawing's own origin"),
        label="u and v are counted from", help_text="Of a round part's end: from the middle of its outline.",
    )  # fmt: skip
    kind = choice(
        ("plain", "plain holes"), ("clearance", "clearance holes"), ("pilot", "pilot holes"),
        ("reamed", "reamed holes"), ("spot", "spots"),
        label="Circles become", help_text="Layers named by this project say it themselves.",
    )  # fmt: skip
    pairs = choice(
        ("nothing", "is left out"), ("countersink", "is a countersink"), ("counterbore", "is a counterbore"),
        label="The larger of two circles about one centre",
    )  # fmt: skip
    countersink_angle = NumberField(label="Angle of the countersink", unit="deg", least=1, most=179)
    replace = tick("Take out the holes and pockets that were placed by hand on this face before")

    def __init__(self, *args: Any, component: Component, read: FlatDrawing, unit: Unit, **more: Any) -> None:
        more.setdefault("auto_id", "%s")
        super().__init__(*args, **more)
        self.read, self.component, self.rows = read, component, layer_rows(read)
        lengths = {
            "counterbore_depth": ("Depth of the counterbores", ""),
            "points_diameter": ("Points become holes of", "A diameter; left out, points make nothing."),
            "thickness": ("Thickness of the part", "It has none yet."),
        }
        for name, (label, help_text) in lengths.items():
            self.fields[name] = LengthField(unit=unit, least_mm=0.001, label=label, help_text=help_text)
        units = cast(forms.ChoiceField, self.fields["unit"])
        if read.unit:
            units.help_text = f"The drawing says {UNIT_WORDS[read.unit]}."
        else:
            units.choices = [("", "not said; choose"), *UNIT_WORDS.items()]
            units.help_text = "The drawing does not say it."
        faces = ("left", "right") if component.size.shape == "round" else _BLOCK
        cast(forms.ChoiceField, self.fields["face"]).choices = [(face, face) for face in faces]
        self.offer_outlines(())
        for at, row in enumerate(self.rows):
            self._add_layer(at, row, unit)
        self._leave_out()
        for field in self.fields.values():
            field.widget.attrs.setdefault("autocomplete", "off")

    def _add_layer(self, at: int, row: LayerRow, unit: Unit) -> None:
        self.fields[f"take-{at}"] = tick(f"Take layer {row.name}")
        self.fields[f"depth-{at}"] = LengthField(
            unit=unit, least_mm=0.001, label=f"Depth of layer {row.name}"
        )
        self.fields[f"closed-{at}"] = choice(
            ("shapes", "slots and pockets"), ("pockets", "pockets"), ("nothing", "nothing"),
            label=f"Closed shapes of layer {row.name}",
        )  # fmt: skip
        for name in ("take", "depth", "closed"):
            self.fields[f"{name}-{at}"].widget.attrs["aria-label"] = self.fields[f"{name}-{at}"].label

    def _leave_out(self) -> None:
        """Leave out questions that this drawing and this part do not raise."""
        if not self.read.points:
            del self.fields["points_diameter"]
        if not _has_pairs(self.read):
            for name in ("pairs", "countersink_angle", "counterbore_depth"):
                del self.fields[name]
        if self.component.size.thickness is not None or self.component.size.shape == "round":
            del self.fields["thickness"]
        if self.component.size.shape == "round":
            del self.fields["outline"]
        if not self.component.holes and not self.component.pockets:
            del self.fields["replace"]

    def offer_outlines(self, words: tuple[str, ...]) -> None:
        """Let one of several outermost outlines be chosen."""
        pairs = [(str(at), word) for at, word in enumerate(words)] or [("0", "the largest")]
        cast(forms.ChoiceField, self.fields["which"]).choices = pairs
        self.fields["which"].widget = forms.Select(choices=pairs) if len(pairs) > 1 else forms.HiddenInput()

    @classmethod
    def first(cls, component: Component, read: FlatDrawing, unit: Unit, text: str) -> ExchangeForm:
        """The form as it is proposed."""
        face = "left" if component.size.shape == "round" else "top"
        values: dict[str, Any] = {
            "drawing": text, "unit": read.unit, "face": face,
            "outline": "part", "which": "0", "datum": "outline", "kind": "plain", "pairs": "nothing",
            "countersink_angle": "90",
        }  # fmt: skip
        for at, row in enumerate(layer_rows(read)):
            values[f"take-{at}"] = row.take
            values[f"closed-{at}"] = "shapes"
            values[f"depth-{at}"] = (
                f"{row.depth_mm:.7f}".rstrip("0").rstrip(".") + " mm" if row.depth_mm else ""
            )
        return cls(values, component=component, read=read, unit=unit)

    @property
    def layers(self) -> list[tuple[LayerRow, Any, Any, Any]]:
        """Each layer with its three fields."""
        return [
            (row, self[f"take-{at}"], self[f"depth-{at}"], self[f"closed-{at}"])
            for at, row in enumerate(self.rows)
        ]

    @property
    def asked(self) -> list[Any]:
        """The fields that stand above the layers."""
        return [field for field in self.visible_fields() if field.name.partition("-")[0] not in _OF_LAYERS]

    def choices(self) -> Choices:
        """What is chosen. The form is valid."""
        got = self.cleaned_data
        angle = got.get("countersink_angle")
        return Choices(
            got["unit"] or self.read.unit,
            got["face"] or "top",
            int(got["which"] or 0),
            "datum" if self.component.size.shape == "round" else got["outline"] or "part",
            got["datum"] or "outline",
            got["kind"] or "plain",
            got.get("pairs") or "nothing",
            float(angle) if angle is not None else 90.0,
            got.get("counterbore_depth"),
            got.get("points_diameter"),
            got.get("thickness"),
            bool(got.get("replace")),
            tuple(self._layer(at, row, got) for at, row in enumerate(self.rows)),
        )

    def _layer(self, at: int, row: LayerRow, got: dict[str, Any]) -> LayerChoice:
        depth: Length | None = got[f"depth-{at}"]
        return LayerChoice(row.name, got[f"take-{at}"], depth, got[f"closed-{at}"] or "shapes")


_BLOCK = ("top", "bottom", "front", "back", "left", "right")
_OF_LAYERS = ("take", "depth", "closed")


def _has_pairs(read: FlatDrawing) -> bool:
    """Whether two circles go round one centre, of which no layer's name says what they are."""
    own = {row.name for row in layer_rows(read) if row.says is not None}
    places = Places(0.01 / UNITS_MM.get(read.unit, 1.0))
    seen = Counter(places.number_of(one.x, one.y) for one in read.circles if one.layer not in own)
    return any(count > 1 for count in seen.values())
