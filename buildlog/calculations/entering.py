"""A form of a kept calculation as it was sent: read, tied to sizes of today, worked before it is saved."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from django.http import QueryDict

from buildlog.bench.forms import CalculatorForm, Entry, entries, folded
from buildlog.bench.rows import MORE, blanks_asked, given_in
from buildlog.builds.queries import remembered
from buildlog.calculations.forms import (
    TIE,
    KeptForm,
    TieForm,
    limit_forms,
    only,
    path_of,
    paths_of,
    tie_name,
)
from calculators.calculation import Calculator, Input
from calculators.calculation.rows import rows_as_written
from calculators.calculation.spreads import parted
from calculators.planning.calculations import hold, work_calculation
from calculators.planning.model import Calculation
from calculators.planning.tied_inputs import rows_text
from calculators.planning.ties import PATH, joint_sizes, part_sizes, read_tie, size_now, size_text
from calculators.planning.worked import WorkedBuild, WorkedJoint
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.length import Length

LONGEST = 20_000
"""No form with more characters of inputs is worked with, as on the bench."""
MOST_OFFERED = 2_000
"""The most sizes of a build that the fields of ties offer."""


@dataclass(frozen=True, slots=True)
class TiedEntry:
    """An input as it stands in the form, with the fields of its ties: one, or one for each length in rows."""

    entry: Entry
    tie: Any = None
    in_rows: tuple[Any, ...] = ()

    @property
    def is_open(self) -> bool:
        """Whether the ties of its rows stand open: one is written."""
        return any(field.value() or field.errors for field in self.in_rows)


@dataclass
class Entering:
    """The forms of one calculation; `calculation` is what they say, None where they cannot be taken."""

    calculator: Calculator
    form: CalculatorForm
    kept: KeptForm
    ties: TieForm
    limits: Any
    given: Mapping[str, object]
    calculation: Calculation | None = None
    asks_rows: bool = False
    groups: tuple[list[list[TiedEntry]], list[list[TiedEntry]], bool] = field(init=False)

    def __post_init__(self) -> None:
        first, further, is_open = folded(self.form, entries(self.form, self.given))
        tied = any(self.ties[name].value() for name in self.ties.fields)
        self.groups = (self._tied(first), self._tied(further), is_open or bool(tied))

    def _tied(self, groups: Sequence[Any]) -> list[list[TiedEntry]]:
        return [[self._with_tie(entry) for entry in group.entries] for group in groups]

    def _with_tie(self, entry: Entry) -> TiedEntry:
        name = tie_name(entry.input.name)
        if name in self.ties.fields:
            return TiedEntry(entry, self.ties[name])
        inside = tuple(self.ties[each] for each in self.ties.fields if each.startswith(f"{name}."))
        return TiedEntry(entry, in_rows=inside)

    @property
    def limit_faults(self) -> list[str]:
        """What is wrong with the limits, in sentences."""
        found = [says for form in self.limits.forms for each in form.errors.values() for says in each]
        return [*found, *self.limits.non_form_errors()]

    @property
    def rows(self) -> list[Any]:
        """The inputs of rows, for the faults above the form."""
        return [each.rows for each in entries(self.form, self.given) if each.rows]


def sizes_offered(worked: WorkedBuild) -> list[tuple[str, Length]]:
    """The sizes of a build that inputs can be tied to, as they are written: the first so many."""

    def gathered() -> list[tuple[str, Length]]:
        found: list[tuple[str, Length]] = []
        for part in worked.build.components:
            found += part_sizes(part)
            if len(found) > MOST_OFFERED:
                return found[:MOST_OFFERED]
        for mark, groups in _joints(worked).items():
            found += [(f"{mark} {size}", length) for size, length in joint_sizes(groups).items()]
        return found[:MOST_OFFERED]

    return remembered(worked, "sizes to tie to", gathered)


def _joints(worked: WorkedBuild) -> dict[str, list[WorkedJoint]]:
    found: dict[str, list[WorkedJoint]] = {}
    for one in worked.joints:
        found.setdefault(one.joint.mark, []).append(one)
    return found


def size_of(worked: WorkedBuild, tie: str) -> Length | None:
    """What a tie comes to in a build worked out."""
    return size_now(tie, {one.mark: one for one in worked.build.components}, _joints(worked))


def begun(calculator: Calculator, one: Calculation, *, is_sent: bool) -> Entering:
    """The forms of a calculation as it is kept, or of a new one with the inputs that it comes with."""
    given: dict[str, object] = dict(one.inputs)
    form = CalculatorForm(calculator, given if is_sent else None)
    rows = _rows_shown(calculator, form)
    return Entering(
        calculator,
        form,
        KeptForm(initial=KeptForm.of(one)),
        TieForm(calculator, _paths(calculator, rows, one.ties), TieForm.of(one.ties)),
        limit_forms(calculator, one.limits),
        given,
    )


def _rows_shown(calculator: Calculator, form: CalculatorForm) -> dict[str, int]:
    return {
        each.name: len(form.rows(each).rows)
        for each in calculator.inputs
        if each.kind == "rows" and each.name not in form.fields
    }


def _paths(calculator: Calculator, rows: Mapping[str, int], ties: Sequence[tuple[str, str]]) -> list[str]:
    """The paths that can be tied, and those that are tied already, which the calculator may not know."""
    found = paths_of(calculator, rows)
    known = {each.name for each in calculator.inputs}
    return [*found, *(path for path, _ in ties if path not in found and path.partition("[")[0] in known)]


def sent(calculator: Calculator, worked: WorkedBuild, old: Calculation | None, post: QueryDict) -> Entering:
    """Read what was sent: fill in the sizes that inputs are tied to, read the inputs, work them."""
    data = post.copy()
    for each in calculator.inputs:
        if each.kind == "rows" and not calculator.own_reader:
            _spread_out(each, data)
    faults = dict(_fill_in(calculator, worked, old, data))
    names = only(data, calculator)
    given = given_in(data, calculator, tuple(name for name in data if name not in names))
    paths = _moved(calculator, data, names)
    ties = {paths.get(path, path): text for path, text in _ties_in(data).items() if text}
    one = Calculation(
        old.mark if old else "",
        "",
        calculator.name,
        tuple((each.name, _text(each, given[each.name])) for each in calculator.inputs if each.name in given),
        tuple((path, text) for path, text in ties.items() if path.partition("[")[0] in given),
        old.limits if old else (),
    )
    wanted = {each.name: blanks_asked(data, each) for each in calculator.inputs if each.kind == "rows"}
    asks_rows = any(wanted.values())
    result, wrong = (None, ()) if asks_rows else _worked(worked, one, old, data, names)
    form = CalculatorForm(calculator, given, wrong, wanted)
    kept = KeptForm(post)
    tie_form = TieForm(
        calculator, _paths(calculator, _rows_shown(calculator, form), one.ties), TieForm.of(ties.items())
    )
    limits = limit_forms(calculator, one.limits, post)
    for path, says in faults.items():
        name = tie_name(paths.get(path, path))
        tie_form.add_error(name if name in tie_form.fields else None, says)
    sound = all((kept.is_valid(), not faults, not wrong, _limits_hold(limits, result)))
    whole = replace(
        one,
        mark=kept.cleaned_data.get("mark", "") or one.mark,
        title=kept.cleaned_data.get("title", ""),
        note=kept.cleaned_data.get("note", ""),
        limits=_limits(limits) if sound else (),
    )
    calculation = whole if sound and not asks_rows else None
    return Entering(calculator, form, kept, tie_form, limits, given, calculation, asks_rows)


def inputs_in(calculator: Calculator, query: QueryDict) -> tuple[tuple[str, str], ...]:
    """The inputs of an address as they are kept."""
    names = only(query, calculator)
    given = given_in(query, calculator, tuple(name for name in query if name not in names))
    return tuple(
        (each.name, _text(each, given[each.name])) for each in calculator.inputs if each.name in given
    )


def _spread_out(each: Input, data: QueryDict) -> None:
    """Put rows that came in one piece into the fields of rows, before those that stand there."""
    text = str(data.get(each.name, ""))
    try:
        rows = rows_as_written(each, text) if text.strip() else ()
    except InputError:
        return
    if not rows or not all(isinstance(item, str | int | float) for row in rows for item in row.values()):
        return
    start = f"{each.name}."
    cells = [name for name in data if name.removeprefix(TIE).startswith(start)]
    if any(not name.startswith(TIE) for name in cells):
        moved = {name: data.pop(name)[-1] for name in cells}
        for name, value in moved.items():
            front = TIE if name.startswith(TIE) else ""
            place, _, member = name.removeprefix(front).removeprefix(start).partition(".")
            if place.isascii() and place.isdigit() and len(place) < 4:
                place = str(int(place) + len(rows))
            data[f"{front}{start}{place}.{member}"] = value
    del data[each.name]
    for i, row in enumerate(rows):
        for key, item in row.items():
            data[f"{start}{i}.{key}"] = str(item)


def _ties_in(data: QueryDict) -> dict[str, str]:
    """The ties that were typed, by the path of the input."""
    typed = {path_of(name): str(text).strip() for name, text in data.items() if name.startswith(TIE)}
    return {path: text for path, text in typed.items() if PATH.fullmatch(path)}


def _fill_in(
    calculator: Calculator, worked: WorkedBuild, old: Calculation | None, data: QueryDict
) -> list[tuple[str, str]]:
    """Put the sizes of the build into the inputs that are newly tied to them; say what cannot be."""
    had = dict(old.ties) if old else {}
    stood = TieForm.of(_texts(calculator, old)) if old else {}
    faults: list[tuple[str, str]] = []
    for path, text in _ties_in(data).items():
        name = tie_name(path).removeprefix(TIE)
        if not text:
            continue
        try:
            tie = read_tie(text).written
        except InputError as error:
            faults.append((path, str(error)))
            continue
        data[tie_name(path)] = tie
        typed = str(data.get(name, "")).strip()
        size = size_of(worked, tie)
        is_old = tie == _canonical(had.get(path, ""))
        if size is None:
            if not is_old:
                faults.append((path, f"There is no size {tie} in this build, or it is not given yet."))
        elif not typed or not is_old:
            spread = parted(typed)[1] if typed else ""
            data[name] = f"{size_text(size)} ± {spread}" if spread else size_text(size)
        elif typed not in (stood.get(tie_name(path), ""), size_text(size)):
            says = f"It is tied to {tie}, which is {size_text(size)}; write that, or untie it."
            faults.append((path, says))
    return faults


def _canonical(tie: str) -> str:
    try:
        return read_tie(tie).written if tie else ""
    except InputError:
        return tie


def _texts(calculator: Calculator, old: Calculation) -> list[tuple[str, str]]:
    """What stands in every input that could be tied, by path."""
    found: list[tuple[str, str]] = []
    for name, text in old.inputs:
        each = next((one for one in calculator.inputs if one.name == name), None)
        if each is None or each.kind != "rows":
            found.append((name, text))
            continue
        try:
            rows = rows_as_written(each, text)
        except InputError:
            continue
        found += [
            (f"{name}[{i}].{key}", str(item)) for i, row in enumerate(rows) for key, item in row.items()
        ]
    return found


def _moved(calculator: Calculator, data: QueryDict, names: Mapping[str, Input]) -> dict[str, str]:
    """Where the members of rows stand once the empty rows are left out, by where they stood in the form."""
    found: dict[str, str] = {}
    for each in calculator.inputs:
        if each.kind != "rows":
            continue
        spelt = [name.split(".", 2) for name in names if name.startswith(f"{each.name}.")]
        spelt = [parts for parts in spelt if len(parts) == 3 and parts[1].isascii() and parts[1].isdigit()]
        full = {int(parts[1]) for parts in spelt if str(data.get(".".join(parts), "")).strip()}
        for index, place in enumerate(sorted(full)):
            for member in each.members:
                found[f"{each.name}[{place}].{member.name}"] = f"{each.name}[{index}].{member.name}"
    return found


def _text(each: Input, value: object) -> str:
    """An input as it is kept: rows as people write them."""
    if isinstance(value, str):
        return value.replace("\r\n", "\n").replace("\r", "\n").strip()
    if isinstance(value, list) and all(isinstance(row, Mapping) for row in value):
        return rows_text(each, value)
    return "\n".join(map(str, value)) if isinstance(value, list) else str(value)


def _worked(
    worked: WorkedBuild,
    one: Calculation,
    old: Calculation | None,
    data: QueryDict,
    names: Mapping[str, Input],
) -> tuple[Any, tuple[Fault, ...]]:
    """The result of the inputs; what is kept already may stay even where it cannot be worked."""
    if sum(len(name) + len(str(data.get(name, ""))) for name in names) > LONGEST:
        return None, (
            Fault(f"The inputs are longer than the {LONGEST} characters that are read; write less."),
        )
    found = work_calculation(one, {tie: size_of(worked, tie) for _, tie in one.ties})
    if found.now is None and not (old and (old.inputs, old.ties) == (one.inputs, one.ties)):
        return None, found.faults
    return found.now, ()


def _limits_hold(limits: Any, result: Any) -> bool:
    """Whether every limit can be read and held against its result; the faults are set beside them."""
    sound: bool = limits.is_valid()
    if result is None:
        return sound
    for form in limits.forms:
        limit = form.limit if not form.errors else None
        says = hold(limit, result).says if limit is not None else ""
        if says:
            form.add_error("value" if "cannot be read" in says else "result", says)
            sound = False
    return sound


def _limits(limits: Any) -> tuple[Any, ...]:
    return tuple(form.limit for form in limits.forms if form.limit is not None)


__all__ = ["MORE", "Entering", "begun", "sent", "size_of", "sizes_offered"]
