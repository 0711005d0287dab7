"""What a page says beside each input of a calculator, and the command that asks the same."""

from __future__ import annotations

import json
import re
import shlex
from collections.abc import Mapping

from calculators.calculation.answering import answer
from calculators.calculation.both_systems import WORKING_FIGURES, Line, in_both
from calculators.calculation.declaration import Calculator, Input
from calculators.calculation.reading import read_input
from calculators.calculation.rows import rows_in_words
from calculators.calculation.spreads import parted, read_spread
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.length import Length

MOST_OFFERED = 8
"""No more choices are offered with one fault."""

_LONGEST_SHOWN = 300

_UNIT_WORDS = {"deg": "degrees", "degC": "degrees Celsius", "um": "micrometres", "1/in": "threads per inch"}
"""Units that are no words after `in`."""

_WORDS = {
    "inch-us": "inch series, US", "inch-british": "inch series, British", "us-steel": "US sheet steel",
    "us-steel-wire": "US steel wire", "brown-sharpe": "Brown and Sharpe",
    "birmingham-wire": "Birmingham wire", "stubs-steel-wire": "Stubs steel wire", "hss": "high speed steel",
    "wahl": "Wahl", "en-13906": "EN 13906",
    "en-10270-1-sl": "EN 10270-1 SL", "en-10270-1-sm": "EN 10270-1 SM", "en-10270-1-sh": "EN 10270-1 SH",
    "en-10270-3-1.4310": "EN 10270-3 1.4310", "at": "at a place", "two": "two equal loads",
    "metric-88": "metric, 88 pieces", "metric-87": "metric, 87 pieces", "inch-81": "inch, 81 pieces",
    "knife-edge": "knife-edge",
}  # fmt: skip
"""Choices whose words are not simply their parts."""


def hint(each: Input) -> str:
    """Say in sentences what an input is and what it takes.

    Args:
        each: its declaration.

    Returns:
        Help, unit of a bare number, limits, what stands when it is left out, and how it is written.

    Source: this project.

    Example:
        >>> hint(Input(name="hole", kind="length", unit="mm", help="the hole as drilled", above=0,
        ...            maximum=500, example="4 mm"))
        'The hole as drilled. A bare number is in mm; over 0 to 500 mm. Written as 4 mm.'
    """
    bare = (
        ""
        if each.unit in ("", "1") or "bare number" in each.help
        else f"a bare number is in {_UNIT_WORDS.get(each.unit, each.unit)}"
    )
    takes = "; ".join(part for part in (bare, "" if each.kind in ("choice", "flag") else each.limits) if part)
    whole = "a whole number" if each.kind == "integer" else ""
    parts = (each.help, "; ".join(part for part in (whole, takes) if part))
    sentences = [f"{part[:1].upper()}{part[1:]}." for part in parts if part]
    if each.default is not None:
        usual = choice_words(each.default) if each.kind == "choice" else each.default
        sentences.append(f"Without it: {usual}.")
    if each.example:
        sentences.append(f"Written as {each.example}.")
    return " ".join(sentences)


def choices_of(each: Input) -> tuple[str, ...]:
    """The words that an input is chosen from.

    Args:
        each: its declaration.

    Returns:
        The choices, `yes` and `no` for a flag, or nothing where it is written freely.

    Source: this project.

    Example:
        >>> choices_of(Input(name="wet", kind="flag", help="whether it is wet", default="no"))
        ('yes', 'no')
    """
    return ("yes", "no") if each.kind == "flag" else each.choices if each.kind == "choice" else ()


def choice_words(choice: str) -> str:
    """Say a choice as the trade says it, for reading; what is typed stays the choice itself.

    Args:
        choice: one of an input's choices, as it is typed.

    Returns:
        Its words.

    Source: this project.

    Example:
        >>> choice_words("closed-and-ground"), choice_words("hss"), choice_words("half-hard brass")
        ('closed and ground', 'high speed steel', 'half-hard brass')
    """
    return _WORDS.get(choice, choice if " " in choice else choice.replace("-", " "))


def command(calculator: Calculator, given: Mapping[str, object]) -> str:
    """Write the command that gives the same answer in a terminal.

    Args:
        calculator: the calculator.
        given: the inputs, by name.

    Returns:
        One line for a POSIX shell.

    Source: quoting by the rules of the POSIX shell (Python's shlex).

    Example:
        >>> from calculators.catalogue import find_calculator
        >>> command(find_calculator("drill"), {"name": "#7"})
        "manage.py calc drill 'name=#7'"
    """
    said = (f"{name}={_said(value)}" for name, value in given.items() if value not in (None, ""))
    return " ".join(["manage.py calc", calculator.name, *(shlex.quote(word) for word in said)])


def _said(value: object) -> str:
    return value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)


def field_of(calculator: Calculator, fault: Fault) -> str:
    """The input that a fault stands beside.

    Args:
        calculator: the calculator.
        fault: one of its faults; a place inside an input, such as `layers[0].thickness`, is the input's.

    Returns:
        The input's name, or nothing where the fault is of the whole.

    Source: this project.

    Example:
        >>> from calculators.catalogue import find_calculator
        >>> field_of(find_calculator("joint"), Fault("It is missing.", "layers[0].thickness"))
        'layers'
    """
    name = re.split(r"[.\[]", fault.field, maxsplit=1)[0]
    return name if any(each.name == name for each in calculator.inputs) else ""


def offers(calculator: Calculator, given: Mapping[str, object], fault: Fault) -> tuple[str, ...]:
    """The choices of a fault that can be put in the place of what was written.

    Args:
        calculator: the calculator.
        given: the inputs as they were given.
        fault: one of its faults.

    Returns:
        The choices with which the input has no fault; none where the input is a choice or JSON, or where
        the choices are units and the like.

    Source: this project.

    Example:
        >>> from calculators.catalogue import find_calculator
        >>> convert, given = find_calculator("convert"), {"value": "1 in", "to": "mmm"}
        >>> offers(convert, given, Fault("It is not a unit.", "to", ("mm", "xx")))
        ('mm',)
    """
    each = next((one for one in calculator.inputs if one.name == fault.field), None)
    if each is None or each.kind not in ("text", "length", "quantity", "number"):
        return ()
    offered = fault.choices[:MOST_OFFERED]
    if calculator.own_reader or any(one.kind == "json" for one in calculator.inputs):
        return offered if each.kind == "text" else ()
    return tuple(
        choice for choice in offered if _is_taken(calculator, {**given, each.name: choice}, each.name)
    )


def _is_taken(calculator: Calculator, given: Mapping[str, object], name: str) -> bool:
    try:
        answer(calculator, given)
    except InputError as error:
        return all(fault.field != name for fault in error.faults)
    return True


def given_lines(calculator: Calculator, given: Mapping[str, object]) -> tuple[Line, ...]:
    """What was given, in both systems, as the head of a worked example.

    Args:
        calculator: the calculator.
        given: the inputs as they were given, which it could work with.

    Returns:
        A line for each input that was given or has a default.

    Source: this project.

    Example:
        >>> from calculators.catalogue import find_calculator
        >>> given_lines(find_calculator("nearest"), {"length": "1/4 in"})[0]
        Line(label='length', metric='6.35 mm', inches='1/4 in')
    """
    told = ((each, given.get(each.name) or each.default) for each in calculator.inputs)
    return tuple(_given_line(each, value, calculator.own_reader) for each, value in told if value is not None)


def _given_line(each: Input, value: object, as_written: bool) -> Line:
    if each.kind == "rows" and not as_written:
        return Line(each.label, "\n".join(rows_in_words(each, value)))
    if each.kind in ("length", "quantity") and not as_written:
        text, off = parted(value) if isinstance(value, str) else (value, "")
        read = read_input(each, text)
        number, unit = (read.mm, "mm") if isinstance(read, Length) else (float(str(read)), each.unit)
        spread = read_spread(each, off, number) if off else None
        return Line(each.label, *in_both(number, unit, spread, WORKING_FIGURES))
    text = choice_words(value) if each.kind == "choice" and isinstance(value, str) else _said(value)
    return Line(each.label, text if len(text) <= _LONGEST_SHOWN else "as written above")
