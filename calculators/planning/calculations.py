"""The kept calculations of a build, worked with its sizes of today and with those last looked at."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import isclose

from calculators.calculation.answering import answer
from calculators.calculation.declaration import Calculator, Input
from calculators.calculation.reading import read_input
from calculators.calculation.result import Result, Value
from calculators.calculation.rows import rows_as_written
from calculators.calculation.spreads import parted
from calculators.catalogue import find_calculator
from calculators.planning.model import Build, Calculation, ResultLimit
from calculators.planning.ties import PATH, read_tie, size_now, size_text
from calculators.planning.worked import WorkedJoint
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.length import Length
from calculators.quantities.marks import quoted
from calculators.quantities.unit_names import find_unit
from calculators.quantities.units import read_quantity

MOST_WORKED = 200
"""How many kept calculations of one build are worked; of those beyond it is said that they were not."""

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


@dataclass(frozen=True, slots=True)
class HeldLimit:
    """A limit with what its result comes to now, both in the result's `unit`.

    `value` is None where it cannot be told, and `says` then says why. `spread` is how far the value may be
    off. `held` is true where the value itself keeps to the limit.
    """

    limit: ResultLimit
    value: float | None = None
    bound: float | None = None
    unit: str = ""
    spread: float | None = None
    held: bool = True
    says: str = ""

    @property
    def may_pass(self) -> bool:
        """Whether the value keeps to its limit, but with its spread may not."""
        if self.value is None or self.bound is None or not self.held or not self.spread:
            return False
        end = self.value + (self.spread if self.limit.bound == "at most" else -self.spread)
        return not _within(end, self.bound, self.limit.bound)


@dataclass(frozen=True, slots=True)
class WorkedCalculation:
    """A kept calculation worked: as it was last looked at (`then`) and with the sizes of today (`now`).

    `inputs` are those of today. A result is None where it cannot be worked; `faults` are those of today.
    """

    calculation: Calculation
    inputs: tuple[tuple[str, str], ...]
    ties: tuple[TiedInput, ...] = ()
    then: Result | None = None
    now: Result | None = None
    limits: tuple[HeldLimit, ...] = ()
    faults: tuple[Fault, ...] = ()

    @property
    def changed(self) -> tuple[TiedInput, ...]:
        """The tied inputs whose size is another now, or is there no more."""
        return tuple(one for one in self.ties if one.changed)


def work_calculations(build: Build, joints: Sequence[WorkedJoint] = ()) -> tuple[WorkedCalculation, ...]:
    """Work the kept calculations of a build.

    Args:
        build: the build.
        joints: its joints worked out, whose sizes can be tied to.

    Returns:
        Each calculation in the order of the build, up to the most that are worked.

    Source: this project; each calculation states its own.
    """
    if not build.calculations:
        return ()
    parts = {one.mark: one for one in build.components}
    by_mark: dict[str, list[WorkedJoint]] = {}
    for one in joints:
        by_mark.setdefault(one.joint.mark, []).append(one)
    return tuple(
        work_calculation(one, {tie: size_now(tie, parts, by_mark) for _, tie in one.ties})
        for one in build.calculations[:MOST_WORKED]
    )


def work_calculation(one: Calculation, sizes: Mapping[str, Length | None]) -> WorkedCalculation:
    """Work one calculation with the sizes that its ties come to.

    Args:
        one: the calculation.
        sizes: the size of each tie that it has, by the tie as it is written.

    Returns:
        The calculation worked; what it cannot be worked for stands in `faults`.

    Source: this project.

    Example:
        >>> kept = Calculation("K01", "Pitch of the clamp", "thread", (("designation", "M5"),))
        >>> work_calculation(kept, {}).now.results["pitch"].value
        0.8
    """
    try:
        calculator = find_calculator(one.calculator)
    except InputError as error:
        return WorkedCalculation(one, one.inputs, faults=error.faults)
    held = dict(one.inputs)
    try:
        ties = tuple(_tied(calculator, held, name, tie, sizes.get(tie)) for name, tie in one.ties)
        today = with_sizes(calculator, held, {tie.input: tie.now for tie in ties if tie.changed and tie.now})
    except InputError as error:
        return WorkedCalculation(one, one.inputs, faults=error.faults)
    now = _answered(calculator.name, tuple(today.items()))
    then = now if today == held else _answered(calculator.name, tuple(held.items()))
    faults = now.faults if isinstance(now, InputError) else ()
    result = None if isinstance(now, InputError) else now
    limits = tuple(hold(limit, result) for limit in one.limits) if result is not None else ()
    return WorkedCalculation(
        one,
        tuple(today.items()),
        ties,
        None if isinstance(then, InputError) else then,
        result,
        limits,
        faults,
    )


# A changed joint or part leaves all calculations as they were but those that hang on it.
@lru_cache(maxsize=512)
def _answered(name: str, inputs: tuple[tuple[str, str], ...]) -> Result | InputError:
    try:
        return answer(find_calculator(name), dict(inputs))
    except InputError as error:
        return InputError(*error.faults)  # without the frames that it came through


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


def _tied(
    calculator: Calculator, held: Mapping[str, str], path: str, tie: str, size: Length | None
) -> TiedInput:
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


def hold(limit: ResultLimit, result: Result) -> HeldLimit:
    """Hold a result against its limit.

    Args:
        limit: the limit as it is written.
        result: the result of the calculation.

    Returns:
        What the result comes to, and whether it keeps to the limit; where that cannot be told, why.

    Source: this project.

    Example:
        >>> found = hold(ResultLimit("mass", "at most", "2 kg"), Result({"mass": Value(2.5, "kg")}))
        >>> found.held, found.value, found.bound
        (False, 2.5, 2.0)
    """
    one = result.results.get(limit.result)
    name = limit.result.replace("_", " ")
    if one is None:
        return HeldLimit(limit, says=f"It gives no {name}, so its limit is not looked at.")
    value = number_of(one)
    if value is None:
        says = f"Its {name} is no number here, so its limit is not looked at."
        return HeldLimit(limit, unit=one.unit, says=says)
    try:
        bound = _bound(limit.value, one.unit)
    except InputError as error:
        return HeldLimit(limit, value, unit=one.unit, says=f"The limit of its {name} cannot be read. {error}")
    held = _within(value, bound, limit.bound)
    return HeldLimit(limit, value, bound, one.unit, one.spread, held)


def _bound(text: str, unit: str) -> float:
    """Read a limit in the unit of its result; a unit that is none of the units read stands as it is."""
    if unit and find_unit(unit) is None:
        return read_quantity(text.strip().removesuffix(unit).strip(), "1", field="value")
    return read_quantity(text, unit or "1", field="value")


def number_of(one: Value) -> float | None:
    """Give the number of a result.

    Args:
        one: the result.

    Returns:
        The number; None where it is a text, a truth, a list or nothing.

    Source: this project.
    """
    if isinstance(one.value, bool) or not isinstance(one.value, int | float):
        return None
    return float(one.value)


def _within(value: float, bound: float, which: str) -> bool:
    """Whether a value keeps to a bound; the last bits of a conversion do not count."""
    if isclose(value, bound, rel_tol=_CLOSE, abs_tol=1e-12):
        return True
    return value < bound if which == "at most" else value > bound


def looked_at(calculation: Calculation, worked: WorkedCalculation) -> Calculation:
    """Take the build's sizes of today for what was last looked at.

    Args:
        calculation: the calculation as it is kept.
        worked: the same, worked.

    Returns:
        The calculation with the new sizes in its inputs; ties of sizes that are gone are let go.

    Source: this project.
    """
    gone = {one.input for one in worked.ties if not one.now}
    ties = tuple((name, tie) for name, tie in calculation.ties if name not in gone)
    return replace(calculation, inputs=worked.inputs, ties=ties)
