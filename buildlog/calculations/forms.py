"""The form of a kept calculation: the calculator's own inputs, beside each what it hangs on, and limits."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from django import forms
from django.utils.datastructures import MultiValueDict

from buildlog.calculations.rows import label_of
from calculators.calculation import Calculator, Input
from calculators.planning.model import Calculation, ResultLimit
from calculators.planning.tied_inputs import is_length

TIE = "tie-"
"""The names of the fields of ties begin so; a row's member is spelt `tie-springs.0.x`."""
MOST_LIMITS = 20

_PLAIN = {"autocomplete": "off", "autocapitalize": "off", "spellcheck": "false"}


def tie_name(path: str) -> str:
    """The name of the field that ties the input at a path: of `springs[0].x`, `tie-springs.0.x`."""
    return TIE + path.replace("[", ".").replace("]", "")


def path_of(name: str) -> str:
    """The path that the name of a field of ties, or of an input, spells."""
    first, *rest = name.removeprefix(TIE).split(".", 2)
    return f"{first}[{rest[0]}].{rest[1]}" if len(rest) == 2 else first


class KeptForm(forms.Form):
    """What a kept calculation is called, and what is to be said of it."""

    mark = forms.CharField(
        max_length=20,
        required=False,
        widget=forms.TextInput(attrs={**_PLAIN, "class": "short"}),
        help_text="Letters, digits and hyphens; left empty, the next free one.",
    )
    title = forms.CharField(label="What is it about?", max_length=200)
    note = forms.CharField(
        required=False,
        max_length=20_000,
        strip=False,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="What it is for, what it assumes, what is to be measured still.",
    )

    def __init__(self, data: Any = None, **more: Any) -> None:
        super().__init__(data, prefix="kept", **more)

    def clean_note(self) -> str:
        """Bring the ends of lines to one kind."""
        text: str = self.cleaned_data["note"]
        return text.replace("\r\n", "\n").replace("\r", "\n").strip("\n").rstrip()

    @staticmethod
    def of(one: Calculation) -> dict[str, Any]:
        """What the form shows of a calculation."""
        return {"mark": one.mark, "title": one.title, "note": one.note}


class TieForm(forms.Form):
    """What each input hangs on: a size of the build, or nothing. `paths` are those that can."""

    def __init__(self, calculator: Calculator, paths: Iterable[str], data: Mapping[str, str] | None) -> None:
        super().__init__(data)
        labels = {each.name: each.label for each in calculator.inputs}
        for path in paths:
            name, bracket, rest = path.partition("[")
            place, _, member = rest.partition("].")
            told = labels[name]
            if bracket:
                told = f"{told}, row {int(place) + 1}, {member.replace('_', ' ')}"
            self.fields[tie_name(path)] = forms.CharField(
                label=f"Row {int(place) + 1}, {member.replace('_', ' ')}" if bracket else "Tied to",
                required=False,
                max_length=120,
                widget=forms.TextInput(
                    attrs={**_PLAIN, "list": "sizes", "aria-label": f"Size that the {told} is tied to"}
                ),
            )

    @staticmethod
    def of(ties: Iterable[tuple[str, str]]) -> dict[str, str]:
        """What the form shows of ties."""
        return {tie_name(path): tie for path, tie in ties}


def paths_of(calculator: Calculator, rows: Mapping[str, int]) -> list[str]:
    """The inputs that can be tied to a size; of rows as many as are shown."""
    found: list[str] = []
    for each in calculator.inputs:
        if each.kind == "rows" and not calculator.own_reader:
            members = [one.name for one in each.members if is_length(one)]
            found += [f"{each.name}[{i}].{name}" for i in range(rows.get(each.name, 0)) for name in members]
        elif is_length(each):
            found.append(each.name)
    return found


class LimitForm(forms.Form):
    """What one result may come to."""

    result = forms.ChoiceField(required=False, label="Result")
    bound = forms.ChoiceField(
        required=False, label="May be", choices=[("at most", "at most"), ("at least", "at least")]
    )
    value = forms.CharField(
        required=False,
        max_length=64,
        label="Value",
        widget=forms.TextInput(attrs={**_PLAIN, "class": "short"}),
    )

    use_required_attribute = False

    def __init__(self, *args: Any, results: Iterable[str] = (), **more: Any) -> None:
        super().__init__(*args, **more)
        choices = [("", "no limit"), *((name, label_of(name)) for name in results)]
        held = str(self.initial.get("result", ""))
        if held and held not in dict(choices):
            choices.append((held, label_of(held)))
        self.fields["result"].choices = choices  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        """See that a limit is whole: a result and a value, or neither."""
        found = super().clean() or {}
        result, value = found.get("result", ""), found.get("value", "")
        if result and not value and "value" not in self.errors:
            self.add_error("value", "Write the value with its unit, or choose no limit.")
        if value and not result and "result" not in self.errors:
            self.add_error("result", "Choose the result that this is the limit of, or empty the value.")
        return found

    @property
    def limit(self) -> ResultLimit | None:
        """The limit that was written; None where none was."""
        found = self.cleaned_data
        if not found.get("result") or not found.get("value"):
            return None
        return ResultLimit(found["result"], found.get("bound") or "at most", found["value"])


LimitForms = forms.formset_factory(
    LimitForm, extra=1, max_num=MOST_LIMITS, absolute_max=MOST_LIMITS + 10, validate_max=True
)


def limit_forms(calculator: Calculator, limits: Iterable[ResultLimit], data: Any = None) -> Any:
    """The forms of the limits: those that there are, and one more."""
    initial = [{"result": one.result, "bound": one.bound, "value": one.value} for one in limits]
    return LimitForms(data, initial=initial, prefix="limit", form_kwargs={"results": calculator.outputs})


def limits_in_words(limits: Iterable[ResultLimit]) -> str:
    """Limits on one line, for two versions side by side."""
    return "; ".join(f"{label_of(one.result)} {one.bound} {one.value}" for one in limits)


def only(data: MultiValueDict[str, str], calculator: Calculator) -> Mapping[str, Input]:
    """The names in a form that are of the calculator's inputs, each with its input."""
    inputs = {each.name: each for each in calculator.inputs}
    return {name: inputs[name.partition(".")[0]] for name in data if name.partition(".")[0] in inputs}
