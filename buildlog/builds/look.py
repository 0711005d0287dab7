"""One page with everything that pages are made of, to be looked at and to be tested. It keeps nothing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from types import SimpleNamespace
from typing import Any

from django import forms
from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from buildlog.builds.entry import UnreadLine, typed_lines
from buildlog.workshops.door import open_to_all
from calculators.drawing.section import joint_section
from calculators.hardware.designation import read_fastener, read_washer, write_hardware
from calculators.joints.model import JointInput, JointResult, Layer, StackItem
from calculators.joints.work import work_joint
from calculators.quantities.errors import InputError
from calculators.quantities.reading import read_length


@dataclass(frozen=True, slots=True)
class Zone:
    """A place on this page that a letter on its frame goes to."""

    letter: str
    name: str
    word: str


ZONES = tuple(
    Zone(letter, word, word)
    for letter, word in zip(
        "ABCDEFGHJ",
        ("type", "inks", "tables", "entry", "forms", "faults", "change", "photos", "tree"),
        strict=True,
    )
)
COLOURS = ("ink", "soft", "film", "sheet", "paper", "rule", "blue", "red", "brass", "steel")
PARTS = (
    ("P01", "base", "oak", 22.0, 1),
    ("P02", "pillar", "brass", 165.0, 2),
    ("P03", "shelf bracket, left, with the long arm", "steel", 3.0, 1),
    ("P04", "lid", "oak", 12.0, 1),
    ("P05", "hinge leaf", "brass", 1.6, 4),
    ("P06", "runner", "beech", 9.5, 2),
    ("P07", "foot", "rubber", 6.0, 4),
)
COLUMNS = {"mark": 0, "material": 2, "thickness": 3}


class SamplePart(forms.Form):
    """A form with one field of each kind."""

    mark = forms.CharField(max_length=12, help_text="As it stands on the drawing: P11 or F03.")
    thickness = forms.CharField(max_length=40, help_text="18 mm, 3/4 in, or 1 1/4")
    material = forms.ChoiceField(choices=[("", "choose"), ("oak", "oak"), ("brass", "brass")])
    count = forms.IntegerField(min_value=1, max_value=999, initial=1)
    due = forms.DateField(required=False, widget=forms.DateInput(attrs={"type": "date"}))
    stock = forms.ChoiceField(
        widget=forms.RadioSelect,
        choices=[("board", "board"), ("bar", "bar")],
        label="Cut from",
        required=False,
    )
    spare = forms.BooleanField(required=False, label="Make one to spare")
    note = forms.CharField(required=False, widget=forms.Textarea(attrs={"rows": 3}))

    def clean_thickness(self) -> str:
        """Take what can be read as a length."""
        written: str = self.cleaned_data["thickness"]
        try:
            read_length(written)
        except InputError as error:
            raise forms.ValidationError([fault.says for fault in error.faults]) from error
        return written

    def clean(self) -> dict[str, Any]:
        """Refuse what no single field is to blame for."""
        if self.cleaned_data.get("stock") == "bar" and self.cleaned_data.get("material") == "oak":
            raise forms.ValidationError("Oak does not come as bar: choose board, or another material.")
        return self.cleaned_data


@open_to_all
@require_http_methods(["GET", "HEAD", "POST"])
def look(request: HttpRequest) -> HttpResponse:
    """Show all of it; what is sent is read as on any other page and then forgotten."""
    form, text = SamplePart(), ""
    unread: tuple[UnreadLine, ...] = ()
    if "fasteners" in request.POST:
        read, unread = read_fasteners(typed_lines(request.POST, "fasteners"))
        if read:
            messages.success(request, f"Understood: {'; '.join(read)}.", extra_tags="look/fasteners")
    elif "mark" in request.POST:
        form = SamplePart(request.POST)
        if form.is_valid():
            messages.success(request, f"{form.cleaned_data['mark']} was saved.", extra_tags="look/part")
    elif request.method == "POST":
        messages.success(request, "Undone: the screw of F03 is 2 in long again.")
    if request.method == "POST" and form.errors == {} and not unread:
        return HttpResponseRedirect(reverse("look"))
    status = 422 if request.method == "POST" else 200
    return render(request, "look.html", context(request, form, text, unread), status=status)


def read_fasteners(lines: list[str]) -> tuple[list[str], tuple[UnreadLine, ...]]:
    """The fasteners that lines name, and the lines that name none."""
    read, unread = [], []
    for number, line in enumerate(lines, 1):
        try:
            read.append(write_hardware(read_fastener(line)))
        except InputError as error:
            choices = tuple(choice for fault in error.faults for choice in fault.choices)
            unread.append(UnreadLine(number, line, tuple(fault.says for fault in error.faults), choices[:4]))
    return read, tuple(unread)


def context(
    request: HttpRequest, form: SamplePart, text: str, unread: tuple[UnreadLine, ...]
) -> dict[str, Any]:
    """Everything that the page shows."""
    here = reverse("look")
    sort = request.GET.get("sort", "mark")
    key = sort.removeprefix("-")
    rows = sorted(PARTS, key=lambda row: row[COLUMNS.get(key, 0)], reverse=sort.startswith("-"))
    result, broad, narrow = sample_joint()
    faulty = SamplePart({"thickness": "three", "stock": "bar", "material": "oak", "count": "0", "mark": ""})
    faulty.auto_id = "faulty_%s"
    return {
        "sides": ZONES,
        "build": SimpleNamespace(
            title="The look",
            number="LK-01",
            revision="B",
            issued=date(2026, 1, 6),
            context=SimpleNamespace(as_of=None),
        ),
        "here": here,
        "colours": COLOURS,
        "page": Paginator(rows, 3).get_page(request.GET.get("page")),
        "sort": sort,
        "form": form,
        "faulty": faulty,
        "text": text,
        "unread": unread,
        "unread_sample": read_fasteners(["M5 x 20 cap scrow", "13/0 UNC x 1"])[1],
        "broad": broad,
        "narrow": narrow,
        "findings": result.findings,
        "undo": SimpleNamespace(says="F03: the screw is now 1 3/4 in long"),
        "redo": SimpleNamespace(says="P11: 6 mm thick"),
        "undo_at": here,
        "redo_at": here,
        "conflict": sample_conflict(),
    }


def sample_conflict() -> SimpleNamespace:
    """Two versions of one part."""
    mine = SamplePart(initial={"thickness": "17.2"}, auto_id="mine_%s")
    return SimpleNamespace(
        says="Ines saved P01 at 14:02, while you were changing it. Nothing of yours is saved yet.",
        fields=(
            SimpleNamespace(label="Thickness", theirs="18 mm", field=mine["thickness"]),
            SimpleNamespace(label="Name", theirs="", name="name", mine="base board"),
        ),
        same=(),
        seen="6",
    )


@lru_cache(maxsize=1)
def sample_joint() -> tuple[JointResult, str, str]:
    """A joint whose screw is too long, worked out and drawn for a broad and a narrow screen."""
    stack = (
        StackItem(washer=read_washer("5/16 repair washer")),
        StackItem(layer=Layer("P01", "oak", 22)),
        StackItem(layer=Layer("P11", "brass", 6)),
        StackItem(layer=Layer("P10", "brass", 165, thread_depth_mm=18, drilled_depth_mm=22)),
    )
    result = work_joint(JointInput("F03", read_fastener("5/16 BSF x 2 hex set screw steel"), stack))
    names = {"P01": "base", "P11": "flange", "P10": "pillar"}
    return result, joint_section(result, names=names), joint_section(result, names=names, narrow=True)
