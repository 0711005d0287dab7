"""The inputs of a calculation that hang on sizes of a build: found, compared, and filled in."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import isclose

from calculators.calculation.declaration import Calculator, Input
from calculators.calculation.reading import read_input
from calculators.calculation.rows import rows_as_written
from calculators.calculation.spreads import parted
from calculators.planning.ties import PATH, read_tie, size_text
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length
from calculators.quantities.marks import quoted
from calculators.quantities.unit_names import find_unit

_CLOSE = 1e-9


@dataclass(frozen=True, slots=True)
class TiedInput:
    """An input that hangs on a size of the build: what stands in it, and what the size is now.

    `then` and `now` are texts; `now` is empty where the build has no such size any more. `changed` says
    whether they are different sizes, however they are written. `now_mm` is the size [mm].
    """

    input: str
    tie: str
    then: str
    now: str
    changed: bool
    now_mm: float | None = None

    @property
    def label(self) -> str:
        """The input in words."""
        return self.input.replace("_", " ")


def input_at(calculator: Calculator, path: str) -> tuple[Input, Input | None, int]:
    """Find the input that a path names: a plain one, or a member of one of the rows of an input of rows.

    Args:
        calculator: the calculator.
        path: `wire` or `springs[0].x`.

    Returns:
        The input, the member where the path names one, and the row's place [1] from 0.

    Raises:
        InputError: where there is no such input.

    Source: this project.
    """
    found = PATH.fullmatch(path)
    if found is not None:
        each = next((one for one in calculator.inputs if one.name == found[1]), None)
        if each is not None and found[3] is None and each.kind not in ("rows", "json"):
            return each, None, 0
        if each is not None and found[3] is not None and each.kind == "rows":
            member = next((one for one in each.members if one.name == found[3]), None)
            if member is not None:
                return each, member, int(found[2])
    says = f"The calculator {calculator.name} has no input {quoted(path)} that can be tied to a size."
    raise InputError.of(says, field=path)


def is_length(each: Input) -> bool:
    """Say whether an input takes a length, so that it can be tied to a size.

    Args:
        each: its declaration.

    Returns:
        True for a length, and for a quantity in a unit of length.

    Source: this project.

    Example:
        >>> is_length(Input(name="span", kind="quantity", unit="m", help="the span"))
        True
    """
    if each.kind == "length":
        return True
    unit = find_unit(each.unit) if each.kind == "quantity" and each.unit else None
    return unit is not None and unit.measures == "length"


def tied_input(
    calculator: Calculator, held: Mapping[str, str], path: str, tie: str, size: Length | None
) -> TiedInput:
    """Compare what stands in a tied input with the size that it hangs on.

    Args:
        calculator: the calculator.
        held: the inputs as they are written.
        path: the input, `wire` or `springs[0].x`.
        tie: the size of the build, as it is written.
        size: what that size is now; None where it is not given.

    Returns:
        Both, and whether they differ.

    Raises:
        InputError: where there is no such input or row, or it takes no length.

    Source: this project.
    """
    each, member, _ = input_at(calculator, path)
    target = member or each
    if not is_length(target):
        says = f"The input {quoted(path)} takes no length, so it cannot be tied to {tie}."
        raise InputError.of(says, field=path)
    then = text_at(calculator, held, path)
    tie = read_tie(tie).written
    if size is None:
        return TiedInput(path, tie, then, "", True)
    text = size_text(size)
    now = text if _reads(target, text) else f"{size.exact_mm:f} mm"
    return TiedInput(path, tie, then, now, not _same(target, then, now), size.mm)


def _reads(each: Input, text: str) -> bool:
    try:
        read_input(replace(each, minimum=None, maximum=None, above=None), text)
    except InputError:
        return False
    return True


def _same(each: Input, then: str, now: str) -> bool:
    """Whether two texts are one size for an input, whatever its limits and what spread stands beside it."""
    free = replace(each, kind="length" if each.kind not in ("length", "quantity") else each.kind)
    free = replace(free, minimum=-1e9 if free.kind == "length" else None, maximum=None, above=None)
    try:
        one, other = (read_input(free, parted(text)[0]) for text in (then, now))
    except InputError:
        return False
    if isinstance(one, Length) and isinstance(other, Length):
        return one.ticks == other.ticks
    return isinstance(one, float) and isinstance(other, float) and isclose(one, other, rel_tol=_CLOSE)


def text_at(calculator: Calculator, held: Mapping[str, str], path: str) -> str:
    """Give what stands in an input, or in a member of one of its rows.

    Args:
        calculator: the calculator.
        held: the inputs as they are written.
        path: `wire` or `springs[0].x`.

    Returns:
        The text; nothing where the member is left out.

    Raises:
        InputError: where there is no such input or row.

    Source: this project.
    """
    each, member, place = input_at(calculator, path)
    if member is None:
        return held.get(each.name, "")
    rows = rows_as_written(each, held.get(each.name, ""))
    if place >= len(rows):
        says = f"The input {each.name} has {len(rows)} rows, so {quoted(path)} is not among them."
        raise InputError.of(says, field=path)
    return str(rows[place].get(member.name, ""))


def with_sizes(calculator: Calculator, held: Mapping[str, str], sizes: Mapping[str, str]) -> dict[str, str]:
    """Put sizes in the place of what stands in inputs; a spread that was written stays beside the size.

    Args:
        calculator: the calculator.
        held: the inputs as they are written.
        sizes: texts by path, `wire` or `springs[0].x`.

    Returns:
        The inputs.

    Raises:
        InputError: where there is no such input or row.

    Source: this project.

    Example:
        >>> from calculators.catalogue import find_calculator
        >>> with_sizes(find_calculator("nearest"), {"length": "4.7 ± 0.05 mm"}, {"length": "3/16 in"})
        {'length': '3/16 in ± 0.05 mm'}
    """
    found = dict(held)
    for path, size in sizes.items():
        spread = parted(text_at(calculator, found, path))[1]
        text = f"{size} ± {spread}" if spread else size
        each, member, place = input_at(calculator, path)
        if member is None:
            found[each.name] = text
            continue
        rows = [dict(row) for row in rows_as_written(each, found[each.name])]
        rows[place][member.name] = text
        found[each.name] = rows_text(each, rows)
    return found


def rows_text(each: Input, rows: Sequence[Mapping[str, object]]) -> str:
    r"""Write rows so that people and the calculator read them: one a line where that can be, else as JSON.

    Args:
        each: the declaration of the input of kind rows.
        rows: what stands in each row.

    Returns:
        The text.

    Source: this project.

    Example:
        >>> members = (Input(name="x", kind="length", unit="mm", help="x"),)
        >>> points = Input(name="points", kind="rows", help="points", members=members)
        >>> rows_text(points, [{"x": "1"}, {"x": "2"}])
        'x=1\nx=2'
    """
    plain = all(
        isinstance(value, str) and value.strip() and not re.search(r",(?=\s|$)|[\n;=]", value)
        for row in rows
        for value in row.values()
    )
    if plain and all(rows):
        text = "\n".join(", ".join(f"{name}={value}" for name, value in row.items()) for row in rows)
        if not text.lstrip().startswith(("[", "{")):
            return text
    return json.dumps([dict(row) for row in rows], ensure_ascii=False)
