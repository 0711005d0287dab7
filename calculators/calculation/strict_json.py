"""Reading JSON strictly: what people send is refused with a sentence where it means nothing."""

from __future__ import annotations

import json
from math import isfinite

from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted


def read_json(text: str) -> object:
    """Read JSON strictly: no repeated names, no NaN or Infinity, no numbers or nests without bound.

    Args:
        text: the JSON.

    Returns:
        What it holds.

    Raises:
        InputError: with a sentence that says where it goes wrong.

    Source: RFC 8259.

    Example:
        >>> read_json('{"a": [1, 2.5]}')
        {'a': [1, 2.5]}
    """
    try:
        return json.loads(
            text, object_pairs_hook=_no_repeats, parse_constant=_no_constant, parse_float=_finite
        )
    except json.JSONDecodeError as fault:
        says = f"line {fault.lineno}, column {fault.colno}: {fault.msg[:1].lower()}{fault.msg[1:]}."
        raise InputError.of(says) from None
    except RecursionError:
        raise InputError.of("it is nested too deeply.") from None
    except ValueError:
        # Python itself refuses to read whole numbers of more than some thousand figures.
        raise InputError.of("it holds a number too long to read.") from None


def _no_repeats(pairs: list[tuple[str, object]]) -> dict[str, object]:
    found: dict[str, object] = {}
    for name, value in pairs:
        if name in found:
            raise InputError.of(f"the name {quoted(name)} is given twice.")
        found[name] = value
    return found


def _no_constant(word: str) -> object:
    raise InputError.of(f"{word} is not a number; write a finite one.")


def _finite(text: str) -> float:
    value = float(text)
    if not isfinite(value):
        raise InputError.of(f"the number {quoted(text)} is too large.")
    return value
