"""Rows as people write them, one a line or as JSON, parted in their cells before anything is read."""

from __future__ import annotations

import re
from collections.abc import Mapping

from calculators.calculation.declaration import Input
from calculators.calculation.strict_json import read_json
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

LONGEST_ROWS = 10_000
"""No more characters of rows are read."""


def json_of(each: Input, raw: object) -> object:
    """Read the JSON of an input; what is JSON already, or a text that may stand for itself, is left.

    Args:
        each: the input's declaration.
        raw: what was given.

    Returns:
        What it holds.

    Raises:
        InputError: when the text is no JSON.

    Source: RFC 8259.
    """
    if not isinstance(raw, str) or (each.or_text and not raw.lstrip().startswith(("[", "{", '"'))):
        return raw
    try:
        return read_json(raw)
    except InputError as error:
        says = f"The input {each.name} is not JSON: {error.faults[0].says}"
        raise InputError.of(says, field=each.name) from None


def shape_of(raw: object) -> str:
    """Say in words what kind of JSON value something is.

    Args:
        raw: the value.

    Returns:
        The words, for a sentence.

    Source: this project.

    Example:
        >>> shape_of([])
        'a list'
    """
    names = {bool: "true or false", list: "a list", dict: "an object"}
    return names.get(type(raw), "something else")


def written_rows(each: Input, text: str) -> object:
    """Part a text in rows: JSON as its list, else a row a line or after a semicolon.

    Args:
        each: the declaration of an input of kind rows.
        text: the rows as a person writes them.

    Returns:
        The rows, each still a text or a JSON value.

    Raises:
        InputError: when it is too long, or begins as JSON and is none.

    Source: this project.
    """
    if text.lstrip().startswith(("[", "{")):
        found = json_of(each, text)
        return [found] if isinstance(found, Mapping) else found
    _check_rows_length(each, text)
    return [line.strip() for line in re.split(r"[\n;]", text) if line.strip()]


def _check_rows_length(each: Input, text: str) -> None:
    if len(text) > LONGEST_ROWS:
        says = f"The rows of {each.name} are longer than the {LONGEST_ROWS} characters that are read."
        raise InputError.of(says, field=each.name)


def cells(each: Input, line: str) -> dict[str, object]:
    """Part a row as a person writes it: values in the order of the members, or `name=value`, after commas.

    Args:
        each: the declaration of an input of kind rows.
        line: the row.

    Returns:
        What was written for each member.

    Raises:
        InputError: when it is too long, or a member is written twice.

    Source: this project.
    """
    _check_rows_length(each, line)
    parts = [cell.strip() for cell in re.split(r",(?=\s|$)", line)]
    names = [member.name for member in each.members]
    row: dict[str, object] = {}
    for cell in parts:
        name, equals, value = cell.partition("=")
        if not equals:
            free = [one for one in names if one not in row]
            name, value = (free[0] if free else f"value {len(row) + 1}"), cell
        if name.strip() in row:
            raise InputError.of(
                f"The key {quoted(name.strip())} is given twice in {quoted(line)}.", field=each.name
            )
        row[name.strip()] = value.strip()
    return row


def rows_as_written(each: Input, raw: object) -> tuple[Mapping[str, object], ...]:
    """Part rows in their cells without reading what stands in them.

    Args:
        each: the declaration of an input of kind rows.
        raw: the rows as a person writes them, or as a JSON value.

    Returns:
        The cells of each row, by the members' names.

    Raises:
        InputError: when it cannot be parted, or has rows that are no objects.

    Source: this project.

    Example:
        >>> weights = Input(name="weights", help="weights", kind="rows", members=(
        ...     Input(name="mass", help="a mass", kind="quantity", unit="kg"),
        ...     Input(name="x", help="its place", kind="length", unit="mm")))
        >>> rows_as_written(weights, "2 kg, 30; 1 kg, x=1/2 in")
        ({'mass': '2 kg', 'x': '30'}, {'mass': '1 kg', 'x': '1/2 in'})
    """
    found = written_rows(each, raw) if isinstance(raw, str) else [raw] if isinstance(raw, Mapping) else raw
    rows = (
        [cells(each, row) if isinstance(row, str) else row for row in found]
        if isinstance(found, list | tuple)
        else [None]
    )
    plain_rows = tuple(row for row in rows if isinstance(row, Mapping))
    if len(plain_rows) < len(rows):
        raise InputError.of(f"The input {each.name} has rows that are no objects.", field=each.name)
    return plain_rows


def rows_in_words(each: Input, raw: object) -> tuple[str, ...]:
    """Rows as they were given, each on one line of text.

    Args:
        each: the declaration of an input of kind rows.
        raw: the rows as a person writes them, or as a JSON value.

    Returns:
        For each row its members' names with what was written.

    Raises:
        InputError: when they cannot be parted.

    Source: this project.

    Example:
        >>> weights = Input(name="weights", help="weights", kind="rows", members=(
        ...     Input(name="mass", help="a mass", kind="quantity", unit="kg"),))
        >>> rows_in_words(weights, [{"mass": 2}])
        ('mass 2 kg',)
    """
    units = {member.name: member.unit for member in each.members if member.unit != "1"}

    def written(key: str, item: object) -> str:
        unit = units.get(key, "") if isinstance(item, int | float) and not isinstance(item, bool) else ""
        return f"{key.replace('_', ' ')} {item} {unit}".rstrip()

    return tuple(
        ", ".join(written(key, item) for key, item in row.items() if item not in (None, ""))
        for row in rows_as_written(each, raw)
    )
