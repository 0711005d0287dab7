"""From bytes to JSON values, strictly: nothing is lost on the way, and nothing but InputError comes of it."""

from __future__ import annotations

import json
from typing import Any

from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

LARGEST_FILE = 64 * 1024 * 1024
"""The largest build file that is read [bytes]; photographs lie beside it, not in it."""


MOST_VALUES = 4_000_000
"""A file with more commas than this is no build: its values alone would fill the memory."""


class NumberText(str):
    """A JSON number as its text, so that no digit is lost and no huge number is ever worked out."""

    __slots__ = ()


class Repeating(dict[str, Any]):
    """A JSON object that gave some of its names more than once; the first value of each is kept."""

    __slots__ = ("names",)
    names: tuple[str, ...]


def parse(data: bytes | str) -> Any:
    """Read JSON text into values: objects, lists, texts, `NumberText`, True, False and None.

    Args:
        data: the file, UTF-8 with or without a byte order mark, at most 64 MiB.

    Returns:
        The value. Numbers stay texts (`NumberText`); an object with a repeated name is a `Repeating`.

    Raises:
        InputError: when it is too large, has millions of values, is not UTF-8, not whole JSON (with line and
            column), or nested beyond all reason.

    Source: JSON, RFC 8259 (from memory).

    Example:
        >>> parse(b'{"number": "B1", "quantity": 2}')
        {'number': 'B1', 'quantity': '2'}
    """
    text = _text(data)
    commas = text.count(",")
    if commas > MOST_VALUES:
        says = f"The file has {commas:,} commas; a build file has at most {MOST_VALUES:,} values."
        raise InputError.of(says, value=float(commas), limit=float(MOST_VALUES))
    try:
        return json.loads(
            text,
            parse_float=NumberText,
            parse_int=NumberText,
            parse_constant=NumberText,
            object_pairs_hook=_object,
        )
    except json.JSONDecodeError as error:
        raise _not_json(error, text) from None
    except RecursionError:
        raise InputError.of("The file is nested far deeper than any build is.") from None


def _text(data: bytes | str) -> str:
    if isinstance(data, str):
        _check_size(len(data))
        return data.removeprefix("\ufeff")
    if not isinstance(data, (bytes, bytearray, memoryview)):
        raise InputError.of("A build file is read from bytes or text.")
    _check_size(len(data))
    try:
        return bytes(data).decode("utf-8").removeprefix("\ufeff")
    except UnicodeDecodeError as error:
        line = bytes(data)[: error.start].count(b"\n") + 1
        says = (
            f"The file is not UTF-8 text: byte {error.start + 1}, in line {line}, cannot be read; "
            "save it as UTF-8."
        )
        raise InputError.of(says) from None


def _check_size(size: int) -> None:
    if size > LARGEST_FILE:
        says = f"The file has {size:,} bytes; a build file has at most {LARGEST_FILE:,}."
        raise InputError.of(says, value=float(size), limit=float(LARGEST_FILE), unit="bytes")


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) == len(pairs):
        return found
    kept = Repeating()
    names: dict[str, None] = {}
    for name, value in pairs:
        if name in kept:
            names[name] = None
        else:
            kept[name] = value
    kept.names = tuple(names)
    return kept


def _not_json(error: json.JSONDecodeError, text: str) -> InputError:
    where = f"line {error.lineno}, column {error.colno}"
    if not text.strip():
        return InputError.of("The file is empty; a build file is a JSON object.")
    if error.pos >= len(text.rstrip()) or error.msg.startswith("Unterminated"):
        return InputError.of(f"The file breaks off: what begins at {where} has no end.")
    rest = text[error.pos : error.pos + 40].split("\n")[0]
    return InputError.of(
        f"The file is not JSON at {where}, at {quoted(rest)}: {error.msg[:1].lower()}{error.msg[1:]}."
    )
