"""Reading a calculator's inputs: every fault of every input is found before anything is worked out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from math import isfinite

from calculators.calculation.declaration import MOST_ROWS, Calculator, Given, Input
from calculators.calculation.result import number_text
from calculators.calculation.rows import cells, json_of, shape_of, written_rows
from calculators.calculation.spreads import SPREAD_SIGN, parted, read_spread
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.length import Length
from calculators.quantities.marks import plain, quoted
from calculators.quantities.numbers import NumberFault, decimal_text, read_number
from calculators.quantities.reading import read_length
from calculators.quantities.units import read_quantity

LONGEST_TEXT = 200
"""The longest text that an input of kind `text` may hold."""

LARGEST = 10**12
"""The largest whole number that an input without a limit of its own may hold."""


def read_inputs(calculator: Calculator, given: Mapping[str, object]) -> Given:
    """Read all inputs of a calculator.

    Args:
        calculator: whose inputs they are.
        given: what was given, by name: texts as people write them, or JSON values. None and an empty
            text mean that the input was left out.

    Returns:
        The inputs as read, defaults filled in; those of a calculator with a reader of its own as they are,
        with what is JSON or a yes or no read from its text.

    Raises:
        InputError: with a fault for each input that is unknown, missing, unreadable or outside its limits.

    Source: this project.
    """
    if calculator.own_reader:
        return _handed_over(calculator, given)
    faults = list(unknown_inputs(calculator.inputs, given))
    read = _read_all(calculator.inputs, given, faults)
    if faults:
        raise InputError(*faults)
    return read


def _read_all(inputs: Sequence[Input], given: Mapping[str, object], faults: list[Fault]) -> Given:
    """Read what was given for the inputs; faults are added to the list."""
    values: dict[str, object] = {}
    spreads: dict[str, float] = {}
    for each in inputs:
        raw = given.get(each.name)
        raw = None if isinstance(raw, str) and not raw.strip() else raw
        if raw is None and each.required:
            faults.append(_missing(each))
            continue
        raw = each.default if raw is None else raw
        try:
            values[each.name] = None if raw is None else _read_one(each, raw, spreads)
        except InputError as error:
            faults += error.faults
    return Given(values, spreads)


def _read_one(each: Input, raw: object, spreads: dict[str, float]) -> object:
    """Read one input, and its spread where it has one."""
    if each.kind == "rows":
        return _rows(each, raw)
    if not isinstance(raw, str) or each.kind not in ("length", "quantity", "number"):
        return read_input(each, raw)
    text, spread = parted(raw)
    if SPREAD_SIGN.search(raw) and not spread:
        says = f"{quoted(raw)} has nothing after the ±; write how far it may be off, as in 5 ± 0.1."
        raise InputError.of(says, field=each.name)
    value = read_input(each, text)
    if spread:
        number = value.mm if isinstance(value, Length) else float(str(value))
        spreads[each.name] = read_spread(each, spread, number)
    return value


def _rows(each: Input, raw: object) -> tuple[Given, ...]:
    """Read rows: a list of objects, or text with one row a line."""
    found = written_rows(each, raw) if isinstance(raw, str) else [raw] if isinstance(raw, Mapping) else raw
    if not isinstance(found, list | tuple):
        says = (
            f"The input {each.name} is given as {shape_of(found)}; write a list of objects or a row a line."
        )
        raise InputError.of(says, field=each.name)
    least, most = int(each.minimum or 0), int(each.maximum or MOST_ROWS)
    if not least <= len(found) <= most:
        says = f"The input {each.name} has {len(found)} rows; write {least} to {most}."
        limit = least if len(found) < least else most
        raise InputError.of(says, field=each.name, value=float(len(found)), limit=float(limit))
    faults: list[Fault] = []
    rows = [_row(each, row, place, faults) for place, row in enumerate(found)]
    if faults:
        raise InputError(*faults)
    return tuple(rows)


def _row(each: Input, raw: object, place: int, faults: list[Fault]) -> Given:
    where = f"{each.name}[{place}]"
    found: list[Fault] = []
    row: object = raw
    read = Given({})
    try:
        row = cells(each, raw) if isinstance(raw, str) else raw
    except InputError as error:
        found += (replace(fault, field="") for fault in error.faults)
    if isinstance(row, Mapping):
        found += unknown_inputs(each.members, row)
        read = _read_all(each.members, row, found)
    elif not found:
        keys = ", ".join(member.name for member in each.members[:4])
        found.append(Fault(f"It must be an object with keys such as {keys}."))
    for fault in found:
        says = f"{each.label.capitalize()}, row {place + 1}: {fault.says}"
        faults.append(replace(fault, says=says, field=f"{where}.{fault.field}" if fault.field else where))
    return read


def _handed_over(calculator: Calculator, given: Mapping[str, object]) -> Given:
    """The inputs that were given, for a reader that knows the JSON of its own; all faults are left to it."""
    known = {each.name: each for each in calculator.inputs}
    faults: list[Fault] = []
    values: dict[str, object] = {}
    for name, raw in given.items():
        kind = known[name].kind if name in known else "text"
        if raw is None or (isinstance(raw, str) and not raw.strip()):
            continue
        if kind == "flag" and isinstance(raw, str):
            raw = _YES_OR_NO.get(raw.strip().lower(), raw)
        try:
            values[name] = json_of(known[name], raw) if kind == "json" else raw
        except InputError as error:
            faults += error.faults
    if faults:
        raise InputError(*faults)
    return Given(values)


def unknown_inputs(inputs: Sequence[Input], given: Mapping[str, object]) -> Iterable[Fault]:
    """The names that were given though there is no such input.

    Args:
        inputs: the declared inputs.
        given: what was given, by name.

    Yields:
        A fault for each.

    Source: this project.
    """
    names = [each.name for each in inputs]
    for key in given:
        name = str(key)
        if name not in names:
            near = tuple(_near(name[:40], names, 0.5))
            hint = f"did you mean {' or '.join(near)}" if near else f"the inputs are {', '.join(names)}"
            yield Fault(f"There is no input {quoted(name)}; {hint}.", "", near)


def _near(word: str, words: Sequence[str], alike: float) -> list[str]:
    # Only loaded when something is wrong, so that a command starts at once.
    from difflib import get_close_matches

    return get_close_matches(word, words, n=3, cutoff=alike)


def _missing(each: Input) -> Fault:
    written = f", written as {each.example}" if each.example else ""
    return Fault(f"The input {each.name} is missing: {each.help}{written}.", each.name, each.choices)


def read_input(each: Input, raw: object) -> object:
    """Read one input.

    Args:
        each: its declaration.
        raw: the text as a person writes it, or a JSON value.

    Returns:
        A `Length`, float, int, bool, str or JSON value, as its kind says.

    Raises:
        InputError: when it cannot be read or lies outside its limits.

    Source: this project.

    Example:
        >>> read_input(Input(name="depth", help="a depth", kind="length", unit="mm"), "1/4 in").mm
        6.35
    """
    if each.kind == "json":
        return json_of(each, raw)
    if each.kind == "rows":
        return _rows(each, raw)
    if each.kind == "flag":
        return _flag(each, raw)
    text = _text_of(each, raw)
    if each.kind == "choice":
        return _choice(each, text)
    if each.kind == "integer":
        return _integer(each, text)
    if each.kind == "text":
        if len(text) > LONGEST_TEXT:
            says = f"{quoted(text)} is longer than the {LONGEST_TEXT} characters that are read."
            raise InputError.of(says, field=each.name)
        return text
    if each.kind == "length":
        # Below an open bound the sentence of `_check_above` is the one to give.
        least = -1e6 if each.minimum is None and each.above is not None else each.minimum
        length = read_length(text, field=each.name, minimum_mm=least, maximum_mm=each.maximum)
        _check_above(each, text, length.mm)
        return length
    value = read_quantity(text, each.unit or "1", field=each.name, minimum=each.minimum, maximum=each.maximum)
    _check_above(each, text, value)
    return value


def _text_of(each: Input, raw: object) -> str:
    """The text of a raw value: a JSON number is written out plainly, in the unit that the input has."""
    if isinstance(raw, str):
        return raw.strip()
    if isinstance(raw, bool) or not isinstance(raw, int | float):
        says = f"The input {each.name} is given as {shape_of(raw)}; write a text or a number."
        raise InputError.of(says, field=each.name)
    if isinstance(raw, float) and not isfinite(raw):
        raise InputError.of(f"The input {each.name} is not a finite number.", field=each.name)
    if abs(raw) > 10**30:
        says = f"The input {each.name} is larger than anything that is worked with."
        raise InputError.of(says, field=each.name)
    return decimal_text(Fraction(Decimal(repr(raw))), 30)


def _choice(each: Input, text: str) -> str:
    word = "-".join(plain(text[:64]).lower().replace("_", " ").split())
    for choice in each.choices:
        if word == choice.lower() or text == choice:
            return choice
    for other, choice in each.synonyms:
        if word == other:
            return choice
    near = _near(word, each.choices, 0.6)
    hint = f"did you mean {' or '.join(near)}; " if near else ""
    says = f"{quoted(text)} is not a choice for {each.name}; {hint}write one of {', '.join(each.choices)}."
    raise InputError.of(says, field=each.name, choices=each.choices)


_YES_OR_NO = {"yes": True, "true": True, "no": False, "false": False}


def _flag(each: Input, raw: object) -> bool:
    found = raw if isinstance(raw, bool) else _YES_OR_NO.get(str(raw)[:64].strip().lower())
    if found is None:
        says = f"{quoted(str(raw))} is not a choice for {each.name}; write yes or no."
        raise InputError.of(says, field=each.name, choices=("yes", "no"))
    return found


def _integer(each: Input, text: str) -> int:
    low = int(each.minimum) if each.minimum is not None else -LARGEST
    high = int(each.maximum) if each.maximum is not None else LARGEST
    try:
        value = read_number(plain(text[:65])).value
    except NumberFault:
        value = Fraction(1, 2)
    if value.denominator != 1:
        says = f"{quoted(text)} is not a whole number; write a whole number from {low} to {high}."
        raise InputError.of(says, field=each.name)
    if not low <= value <= high:
        limit = low if value < low else high
        says = f"{quoted(text)} is outside the limits; write a whole number from {low} to {high}."
        near = max(-(10**18), min(10**18, int(value)))
        raise InputError.of(says, field=each.name, value=float(near), limit=float(limit))
    return int(value)


def _check_above(each: Input, text: str, value: float) -> None:
    if each.above is not None and value <= each.above:
        unit = f" {each.unit}" if each.unit not in ("", "1") else ""
        says = f"{quoted(text)} is too little; write more than {number_text(each.above)}{unit}."
        raise InputError.of(says, field=each.name, value=value, limit=each.above, unit=each.unit)
