"""The form of a calculator, made entirely from its declaration."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

from django import forms
from django.forms.utils import ErrorDict
from django.utils.html import conditional_escape

from calculators.calculation import Calculator, Input
from calculators.calculation.asking import choices_of, field_of, hint, offers
from calculators.quantities.errors import Fault

_PLAIN = {"autocomplete": "off", "autocapitalize": "off", "spellcheck": "false"}


MOST_AT_ONCE = 8
"""A form with more inputs shows the first few and those that must be given; the others fold away."""

FIRST = 4


class CalculatorForm(forms.Form):
    """The inputs of a calculator as fields; what is wrong with them is said by the calculator itself."""

    use_required_attribute = False

    def __init__(
        self, calculator: Calculator, given: Mapping[str, str] | None, faults: Iterable[Fault] = ()
    ) -> None:
        self.calculator, self.faults = calculator, tuple(faults)
        usual = {each.name: each.default for each in calculator.inputs if each.default is not None}
        super().__init__(None if given is None else {**usual, **given}, initial=usual)
        for each in calculator.inputs:
            self.fields[each.name] = _field(each)

    def full_clean(self) -> None:
        """Take the calculator's faults over, each beside its field."""
        self._errors = ErrorDict(renderer=self.renderer)
        self.cleaned_data: dict[str, object] = {}
        for fault in self.faults:
            self.add_error(field_of(self.calculator, fault) or None, fault.says)


@dataclass(frozen=True, slots=True)
class Entry:
    """A field as it stands on the page: with links that fill it in, and the members of its JSON explained."""

    field: forms.BoundField
    offers: tuple[tuple[str, str], ...]
    members: tuple[tuple[str, str], ...]


def entries(form: CalculatorForm, given: Mapping[str, str]) -> list[Entry]:
    """The fields of a form in their order."""
    return [
        Entry(form[each.name], tuple(_links(form, given, each.name)), tuple(_members(each)))
        for each in form.calculator.inputs
    ]


def folded(form: CalculatorForm, found: list[Entry]) -> tuple[list[Entry], list[Entry], bool]:
    """The entries that are always shown, those that fold away, and whether they stand open now."""
    inputs = form.calculator.inputs
    if len(inputs) <= MOST_AT_ONCE:
        return found, [], False
    first = [each for each, one in zip(found, inputs, strict=True) if one.required or one in inputs[:FIRST]]
    further = [each for each in found if each not in first]
    usual = {one.name: one.default for one in inputs}
    wanted = any(
        each.field.errors or (form.is_bound and each.field.value() not in (None, "", usual[each.field.name]))
        for each in further
    )
    return first, further, wanted


def _links(form: CalculatorForm, given: Mapping[str, str], name: str) -> Iterable[tuple[str, str]]:
    for fault in form.faults:
        if fault.field == name:
            for choice in offers(form.calculator, given, fault):
                yield choice, urlencode({**given, name: choice})


def _members(each: Input, prefix: str = "") -> Iterable[tuple[str, str]]:
    for member in each.members:
        yield f"{prefix}{member.name}", _told(member)
        yield from _members(member, f"{member.name}: ")


def _told(member: Input) -> str:
    choices = choices_of(member)
    return f"{hint(member)} One of {', '.join(choices)}." if choices else hint(member)


def _field(each: Input) -> forms.Field:
    choices = choices_of(each)
    common: dict[str, Any] = {
        "label": each.label.capitalize(),
        "required": each.required,
        # The hint is our own text; the template takes it as safe.
        "help_text": conditional_escape(hint(each)),
    }
    if choices:
        blank = [("", "choose" if each.required else "as usual")] if each.default is None else []
        return forms.ChoiceField(choices=[*blank, *((word, word) for word in choices)], **common)
    if each.kind == "json" and (each.required or not each.or_text):
        return forms.CharField(widget=forms.Textarea(attrs={**_PLAIN, "rows": 4}), **common)
    return forms.CharField(widget=forms.TextInput(attrs=_PLAIN), **common)
