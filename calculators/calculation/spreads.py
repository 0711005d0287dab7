"""Inputs that are known within so much: read as `4.7 ± 0.05 mm`, and carried through to the results.

The `uncertainties` package carries them, by the law of propagation; the slopes that it needs are taken over
the spread itself, so that a step within the spread (another drill, another screw) counts too.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from functools import partial

from calculators.calculation.declaration import Calculator, Given, Input
from calculators.calculation.result import Result, Value, number_text
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted
from calculators.quantities.reading import read_length
from calculators.quantities.units import read_quantity

SPREAD_SIGN = re.compile(r"±|\+/-|\+-|\+ / -")
_UNIT = re.compile(r"[^\d\s.,/+-].*$")
_BENT = 0.1
"""Where the ends of the spread lie this share of it off a straight line, that is said."""


def parted(text: str) -> tuple[str, str]:
    """Part a writing such as `4.7 ± 0.05 mm` in its value and its spread, each with the unit.

    Args:
        text: what a person wrote.

    Returns:
        The value's text, and the spread's, which is empty where none was written.

    Source: this project.

    Example:
        >>> parted("4.7 ± 0.05 mm"), parted("20 N +/- 10 %"), parted("5")
        (('4.7 mm', '0.05 mm'), ('20 N', '10 %'), ('5', ''))
    """
    found = SPREAD_SIGN.search(text)
    if not found:
        return text, ""
    value, spread = text[: found.start()].strip(), text[found.end() :].strip()
    units = [_UNIT.search(each) for each in (value, spread)]
    if units[1] and not units[0] and not units[1][0].startswith("%"):
        value = f"{value} {units[1][0]}"
    elif units[0] and not units[1]:
        spread = f"{spread} {units[0][0]}"
    return value, spread


def read_spread(each: Input, written: str, value: float) -> float:
    """Read the spread of an input.

    Args:
        each: the input's declaration, of kind length, quantity or number.
        written: the spread as parted from its value, with its unit.
        value: [the input's unit, mm for a length] the value that it belongs to.

    Returns:
        The spread [the input's unit, mm for a length], over 0.

    Raises:
        InputError: when it cannot be read, is not more than nought, or reaches beyond the input's limits.

    Source: this project.

    Example:
        >>> read_spread(Input(name="load", kind="quantity", unit="N", help="a load"), "10 %", 20.0)
        2.0
    """
    if written.endswith("%") and each.unit != "%":
        spread = abs(value) * read_quantity(written, "%", field=each.name) / 100
    elif each.kind == "length":
        spread = read_length(written, field=each.name, minimum_mm=-1e6).mm
    else:
        # Less the reading of nought, since a scale of temperature may begin elsewhere.
        nought = re.sub(r"[\d.,/ ]+", "0 ", written, count=1)
        spread = read_quantity(written, each.unit or "1", field=each.name)
        if each.unit in ("degC", "degF"):
            spread -= read_quantity(nought, each.unit, field=each.name)
    if spread <= 0:
        says = f"{quoted(written)} is not a spread; write more than nought after the ± of {each.label}."
        raise InputError.of(says, field=each.name, value=spread, limit=0.0, unit=each.unit)
    # An open bound is beyond reach itself, and so is what only rounding keeps off it.
    beyond = (
        (each.above is not None and value - spread <= each.above + 1e-9 * abs(value))
        or (each.minimum is not None and value - spread < each.minimum)
        or (each.maximum is not None and value + spread > each.maximum)
    )
    if beyond:
        ends = f"{number_text(value - spread)} to {number_text(value + spread)} {each.unit}".rstrip()
        says = f"With its spread the {each.label} is {ends}, beyond its limits; it may be {each.limits}."
        raise InputError.of(says, field=each.name)
    return spread


def with_spreads(calculator: Calculator, given: Given, result: Result) -> Result:
    """Give each number of a result the spread that the inputs' spreads make of it.

    Args:
        calculator: the calculator.
        given: the inputs as read.
        result: what it answered for them.

    Returns:
        The result; each number that a spread reaches has its own, and a warning says where the spread
        changes a word, an answer could not be had at its end, or it is too large for a straight line.

    Source: law of propagation of uncertainty, JCGM 100:2008, 5.1.2 (from memory), as the package does it.
    """
    spreads = given.all_spreads()
    if not spreads or calculator.own_spread:
        return result
    ends, warnings = _ends(calculator, given, spreads)
    if len(ends) < len(spreads):
        return replace(result, warnings=(*result.warnings, *warnings))
    values = {
        name: _with_spread(one, _spread_of(partial(_result, name), ends, spreads))
        for name, one in result.results.items()
    }
    steps = tuple(
        replace(step, spread=_spread_of(partial(_step, place, result), ends, spreads))
        for place, step in enumerate(result.working)
    )
    warnings += [*_changed_words(result, ends), *_bent(result, ends)]
    return Result(values, steps, (*result.warnings, *warnings), result.sources)


Ends = Mapping[str, tuple[Result, Result]]
"""For each input with a spread the results with that input at the two ends of it."""


def _ends(calculator: Calculator, given: Given, spreads: Mapping[str, float]) -> tuple[Ends, list[str]]:
    ends: dict[str, tuple[Result, Result]] = {}
    warnings = []
    for path, by in spreads.items():
        try:
            low, high = (calculator.work(given.shifted(path, side * by)) for side in (-1, 1))
            ends[path] = (low, high)
        except InputError as error:
            words = _words(path)
            says = f"The spread of {words} cannot be carried through; at its end: {error.faults[0].says}"
            warnings.append(says)
    return ends, warnings


def _words(path: str) -> str:
    return path.replace("_", " ").replace("].", ", ").replace("[", " ")


def _with_spread(one: Value, spread: float | None) -> Value:
    return one if spread is None or _number(one) is None else replace(one, spread=spread, shown="")


def _result(name: str, found: Result) -> float | None:
    return _number(found.results.get(name))


def _number(one: Value | None) -> float | None:
    value = None if one is None else one.value
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None


def _step(place: int, result: Result, found: Result) -> float | None:
    same = place < len(found.working) and found.working[place].symbol == result.working[place].symbol
    return found.working[place].value if same else None


def _spread_of(
    number: Callable[[Result], float | None], ends: Ends, spreads: Mapping[str, float]
) -> float | None:
    """The spread of one number, by the package; its slopes are those over the spread of each input."""
    from uncertainties import ufloat, wrap

    slopes = []
    for path, pair in ends.items():
        low, high = map(number, pair)
        if low is None or high is None:
            return None
        slopes.append((high - low) / (2 * spreads[path]))
    carried = wrap(lambda *_: 0.0, [lambda *_, slope=slope: slope for slope in slopes])
    spread = carried(*(ufloat(0.0, spreads[path]) for path in ends)).std_dev
    return float(spread) or None


def _changed_words(result: Result, ends: Ends) -> Iterator[str]:
    for path, pair in ends.items():
        for name, one in result.results.items():
            told = [_told(each.results.get(name)) for each in pair]
            if isinstance(one.value, str | bool) and any(each != _told(one) for each in told):
                yield (
                    f"Within the spread of {_words(path)}, {name.replace('_', ' ')} is "
                    f"{told[0]} at the one end and {told[1]} at the other."
                )


def _told(one: Value | None) -> str:
    value = None if one is None else one.value
    if value is None or isinstance(value, bool):
        return {True: "yes", False: "no", None: "none"}[value]
    return str(value)


def _bent(result: Result, ends: Ends) -> Iterator[str]:
    for path, (low, high) in ends.items():
        for name, one in result.results.items():
            first, middle, last = (
                _number(each) for each in (low.results.get(name), one, high.results.get(name))
            )
            if first is None or middle is None or last is None:
                continue
            # A kink within the spread gives a slope of nought though the ends differ from the middle.
            if abs(first + last - 2 * middle) > 2 * _BENT * max(abs(last - first) / 2, 1e-9 * abs(middle)):
                unit = "" if one.unit == "1" else f" {one.unit}"
                yield (
                    f"The {name.replace('_', ' ')} does not follow {_words(path)} in a straight line: at the "
                    f"ends of its spread it is {number_text(first, 4)} and {number_text(last, 4)}{unit}."
                )
