"""The form of a calculator, made entirely from its declaration."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from django import forms
from django.forms.utils import ErrorDict
from django.utils.html import conditional_escape

from buildlog.bench.rows import RowsEntry, address_of, rows_entry
from calculators.calculation import Calculator, Input
from calculators.calculation.asking import choice_words, choices_of, field_of, hint, offers
from calculators.quantities.errors import Fault

_PLAIN = {"autocomplete": "off", "autocapitalize": "off", "spellcheck": "false"}


MOST_AT_ONCE = 8
"""A form with more inputs shows the first few and those that must be given; the others fold away."""

FIRST = 4


class CalculatorForm(forms.Form):
    """The inputs of a calculator as fields; what is wrong with them is said by the calculator itself.

    Inputs of rows are no fields of this form: they stand beside them, as `RowsEntry`. `wanted` is how many
    rows of each are shown at least.
    """

    use_required_attribute = False

    def __init__(
        self,
        calculator: Calculator,
        given: Mapping[str, object] | None,
        faults: Iterable[Fault] = (),
        wanted: Mapping[str, int] | None = None,
    ) -> None:
        self.calculator = calculator
        self.faults = tuple(replace(each, says=in_words(calculator, each.says)) for each in faults)
        self.given, self.wanted = dict(given or {}), dict(wanted or {})
        usual = {each.name: each.default for each in calculator.inputs if each.default is not None}
        super().__init__(None if given is None else {**usual, **given}, initial=usual)
        for each in calculator.inputs:
            if not _in_rows(calculator, each):
                self.fields[each.name] = _field(each)

    def full_clean(self) -> None:
        """Take the calculator's faults over, each beside its field."""
        self._errors = ErrorDict(renderer=self.renderer)
        self.cleaned_data: dict[str, object] = {}
        for fault in self.faults:
            name = field_of(self.calculator, fault)
            if not name or name in self.fields:
                self.add_error(name or None, fault.says)

    def rows(self, each: Input) -> RowsEntry:
        """An input of rows as it stands on the page."""
        mine = [fault for fault in self.faults if field_of(self.calculator, fault) == each.name]
        return rows_entry(each, self.given.get(each.name, each.default), mine, self.wanted.get(each.name, 0))


@dataclass(frozen=True, slots=True)
class Entry:
    """An input as it stands on the page.

    It is a field, with links that fill it in and the members of its JSON explained, or rows.
    """

    input: Input
    value: str = ""
    faults: tuple[str, ...] = ()
    offers: tuple[tuple[str, str], ...] = ()
    members: tuple[tuple[str, str], ...] = ()
    rows: RowsEntry | None = None

    @property
    def label(self) -> str:
        """The input's name in words."""
        return self.input.label.capitalize()

    @property
    def hint(self) -> str:
        """What the input is and takes."""
        return hint(self.input)

    @property
    def choices(self) -> tuple[tuple[str, str], ...]:
        """What it is chosen from, each with its words; what was written stands among them."""
        words = choices_of(self.input)
        if not words:
            return ()
        blank = (
            () if self.input.default is not None else (("", "choose" if self.input.required else "as usual"),)
        )
        known = not self.value or self.value in words
        return (
            *blank,
            *((word, choice_words(word)) for word in words),
            *(() if known else ((self.value, self.value),)),
        )

    @property
    def is_area(self) -> bool:
        """Whether it takes several lines."""
        return self.input.kind == "json" and (self.input.required or not self.input.or_text)

    @property
    def faulty(self) -> bool:
        """Whether something is wrong with it."""
        return bool(self.rows.faulty if self.rows else self.faults)


@dataclass(frozen=True, slots=True)
class Group:
    """Inputs that stand together: one alone, or those of which one is written instead of the others."""

    entries: tuple[Entry, ...]

    @property
    def is_either(self) -> bool:
        """Whether one of them is written instead of the others."""
        return len(self.entries) > 1


def entries(form: CalculatorForm, given: Mapping[str, object]) -> list[Entry]:
    """The inputs of a form in their order."""
    found = []
    for each in form.calculator.inputs:
        if _in_rows(form.calculator, each):
            found.append(Entry(each, rows=form.rows(each)))
            continue
        value = form.given.get(each.name, each.default)
        faults = tuple(fault.says for fault in form.faults if field_of(form.calculator, fault) == each.name)
        links = tuple(_links(form, given, each.name)) if faults else ()
        found.append(Entry(each, _as_typed(value), faults, links, tuple(_members(each))))
    return found


def in_words(calculator: Calculator, says: str) -> str:
    """Say a sentence with the inputs called as their labels on the page: head diameter, not head_diameter."""
    for each in calculator.inputs:
        for one in (each, *each.members):
            if "_" in one.name and one.name in says:
                says = re.sub(rf"(?<!\w){re.escape(one.name)}(?!\w)", one.label, says)
    return says


def _as_typed(value: object) -> str:
    """A value as a person would have typed it."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if value is None or isinstance(value, str | int | float):
        return "" if value is None else str(value)
    return json.dumps(value, ensure_ascii=False)


def folded(form: CalculatorForm, found: list[Entry]) -> tuple[list[Group], list[Group], bool]:
    """The inputs that are always shown, those that fold away, and whether they stand open now."""
    inputs = form.calculator.inputs
    if len(inputs) <= MOST_AT_ONCE:
        return _grouped(form.calculator, found), [], False
    names = {each.name for each in inputs if each.required or each.kind == "rows"}
    names |= {each.name for each in inputs[:FIRST]}
    names |= {name for group in form.calculator.either for name in group}
    first = [each for each in found if each.input.name in names]
    further = [each for each in found if each.input.name not in names]
    return (
        _grouped(form.calculator, first),
        _grouped(form.calculator, further),
        any(
            each.faulty or form.given.get(each.input.name) not in (None, "", each.input.default)
            for each in further
        ),
    )


def _grouped(calculator: Calculator, found: Iterable[Entry]) -> list[Group]:
    """Entries one after the other; those that are written instead of one another where the first stands."""
    left = list(found)
    groups = []
    while left:
        names = next(
            (each for each in calculator.either if left[0].input.name in each), (left[0].input.name,)
        )
        together = tuple(each for each in left if each.input.name in names)
        left = [each for each in left if each not in together]
        groups.append(Group(together))
    return groups


def _in_rows(calculator: Calculator, each: Input) -> bool:
    return each.kind == "rows" and not calculator.own_reader


def _links(form: CalculatorForm, given: Mapping[str, object], name: str) -> Iterator[tuple[str, str]]:
    for fault in form.faults:
        if fault.field == name:
            for choice in offers(form.calculator, given, fault):
                yield choice, address_of({**given, name: choice})


def _members(each: Input, prefix: str = "") -> Iterator[tuple[str, str]]:
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
