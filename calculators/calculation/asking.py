"""What a page says beside each input of a calculator, and the command that asks the same."""

from __future__ import annotations

import json
import shlex
from collections.abc import Mapping

from calculators.calculation.declaration import Calculator, Input


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
    bare = "" if each.unit in ("", "1") or "bare number" in each.help else f"a bare number is in {each.unit}"
    takes = "; ".join(part for part in (bare, "" if each.kind in ("choice", "flag") else each.limits) if part)
    whole = "a whole number" if each.kind == "integer" else ""
    parts = (each.help, "; ".join(part for part in (whole, takes) if part))
    sentences = [f"{part[:1].upper()}{part[1:]}." for part in parts if part]
    if each.default is not None:
        sentences.append(f"Without it: {each.default}.")
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
