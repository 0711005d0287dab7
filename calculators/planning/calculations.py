"""The kept calculations of a build, worked with its sizes of today and with those last looked at."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import isclose

from calculators.calculation.answering import answer
from calculators.calculation.result import Result, Value
from calculators.catalogue import find_calculator
from calculators.planning.model import Build, Calculation, ResultLimit
from calculators.planning.tied_inputs import TiedInput, tied_input, with_sizes
from calculators.planning.ties import size_now
from calculators.planning.worked import WorkedJoint
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.length import Length
from calculators.quantities.unit_names import find_unit
from calculators.quantities.units import read_quantity

MOST_WORKED = 200
"""How many kept calculations of one build are worked; of those beyond it is said that they were not."""

_CLOSE = 1e-9


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
        ties = tuple(tied_input(calculator, held, name, tie, sizes.get(tie)) for name, tie in one.ties)
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
