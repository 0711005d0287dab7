"""Reading a table file and checking it: a wrong table stops the program with file, line and column."""

from __future__ import annotations

import csv
import os
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from types import MappingProxyType

from calculators.tables.model import CONFIDENCES, UNITS, Row, Source, Table, TableError

_NUMBER = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?", re.ASCII)
_ORDERS: Mapping[str, tuple[str, Callable[[Decimal, Decimal], bool]]] = {
    "increasing": ("greater than", lambda before, after: after > before),
    "not decreasing": ("at least", lambda before, after: after >= before),
    "decreasing": ("less than", lambda before, after: after < before),
    "not increasing": ("at most", lambda before, after: after <= before),
}


@dataclass(slots=True)
class _Head:
    """What the comment lines on top of a table file say, while they are being read."""

    file: str
    once: dict[str, str] = field(default_factory=dict)
    units: dict[str, str] = field(default_factory=dict)
    texts: set[str] = field(default_factory=set)
    orders: list[tuple[str, str, str, int]] = field(default_factory=list)
    sources: dict[str, Source] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)


def read_table(path: str | os.PathLike[str]) -> Table:
    """Read a table file, checking everything that its own header declares.

    Args:
        path: the CSV file; its name without the ending becomes the table's name.

    Returns:
        The table as frozen records.

    Raises:
        TableError: naming file, line and column, where the header lacks a line or says something unknown,
            a number is not a number, a name is repeated or empty, an order is broken, or a source is
            not declared or not used.

    Source: this project.
    """
    whole_name = os.path.basename(os.fspath(path))
    name = os.path.splitext(whole_name)[0]
    try:
        with open(path, encoding="utf-8") as file:
            lines = file.read().splitlines()
    except (OSError, UnicodeDecodeError) as fault:
        raise TableError(whole_name, f"the file cannot be read as UTF-8 text: {fault}.") from None
    head = _Head(whole_name)
    start = 0
    while start < len(lines) and lines[start].startswith("#"):
        _read_head_line(head, lines[start], start + 1)
        start += 1
    key = _complete(head)
    columns, records = _read_records(head, lines, start)
    _check_columns(head, key, columns, start + 1)
    rows = tuple(_make_row(head, name, key, columns, cells, line) for cells, line in records)
    index = _check_names(head, key, rows)
    for order, column, group, line in head.orders:
        _check_order(head, rows, order, column, group, line)
    used = {row.source.key for row in rows}
    for unused in [key for key in head.sources if key not in used]:
        raise TableError(head.file, f"source {unused!r} is declared but no row uses it.")
    return Table(
        name=name,
        title=head.once["title"],
        edition=head.once["edition"],
        key=key,
        columns=columns,
        units=MappingProxyType(head.units),
        rows=rows,
        sources=MappingProxyType(head.sources),
        notes=tuple(head.notes),
        index=MappingProxyType(index),
    )


def _read_head_line(head: _Head, text: str, line: int) -> None:
    """Take in one comment line: `# word: what it says` or `# word name: what it says`."""
    word, colon, says = (part.strip() for part in text[1:].partition(":"))
    if not colon or not says:
        raise TableError(head.file, "a header line reads '# word: what it says'.", line=line)
    if word in ("title", "key", "edition"):
        if word in head.once:
            raise TableError(head.file, f"'{word}' is given twice.", line=line)
        head.once[word] = says
    elif word == "note":
        head.notes.append(says)
    elif word == "text":
        head.texts.update(_names(says))
    elif word in _ORDERS:
        for part in _names(says):
            column, _, group = part.partition(" within ")
            head.orders.append((word, column.strip(), group.strip(), line))
    elif word.startswith("unit "):
        _read_unit(head, word.removeprefix("unit "), says, line)
    elif word.startswith("source "):
        _read_source(head, word.removeprefix("source ").strip(), says, line)
    else:
        raise TableError(head.file, f"a header line may not begin with {word!r}.", line=line)


def _names(text: str) -> list[str]:
    return [name.strip() for name in text.split(",") if name.strip()]


def _read_unit(head: _Head, columns: str, unit: str, line: int) -> None:
    for column in _names(columns):
        if unit not in UNITS:
            raise TableError(head.file, f"the unit {unit!r} is not known.", line=line, column=column)
        if column in head.units:
            raise TableError(head.file, "its unit is given twice.", line=line, column=column)
        head.units[column] = unit


def _read_source(head: _Head, key: str, says: str, line: int) -> None:
    parts = [part.strip() for part in says.split("|")]
    if len(parts) != 3 or not all(parts):
        raise TableError(head.file, "a source reads 'standard | read from | confidence'.", line=line)
    if parts[2] not in CONFIDENCES:
        raise TableError(head.file, f"a confidence is one of {', '.join(CONFIDENCES)}.", line=line)
    if key in head.sources:
        raise TableError(head.file, f"source {key!r} is declared twice.", line=line)
    head.sources[key] = Source(key, *parts)


def _complete(head: _Head) -> tuple[str, ...]:
    """Check that the lines which every table needs are there; return the key columns."""
    for word in ("title", "key", "edition"):
        if word not in head.once:
            raise TableError(head.file, f"the header has no '{word}' line.")
    if not head.sources:
        raise TableError(head.file, "the header declares no source.")
    head.texts.add("source")
    return tuple(_names(head.once["key"]))


def _read_records(
    head: _Head, lines: list[str], start: int
) -> tuple[tuple[str, ...], list[tuple[list[str], int]]]:
    if start >= len(lines):
        raise TableError(head.file, "there is no line with the names of the columns.")
    reader = csv.reader(lines[start:], strict=True)
    try:
        columns = tuple(cell.strip() for cell in next(reader))
        records = [([cell.strip() for cell in cells], start + reader.line_num) for cells in reader]
    except csv.Error as fault:
        raise TableError(head.file, f"not a CSV line: {fault}.", line=start + reader.line_num) from None
    if not records:
        raise TableError(head.file, "the table has no rows.")
    for cells, line in records:
        if len(cells) != len(columns):
            says = f"the line has {len(cells)} cells, the header {len(columns)}."
            raise TableError(head.file, says, line=line)
    return columns, records


def _check_columns(head: _Head, key: tuple[str, ...], columns: tuple[str, ...], line: int) -> None:
    """Every column is declared once, as text or with a unit; nothing is declared that is not there."""
    known = set(columns)
    for column in columns:
        if not column or columns.count(column) > 1:
            raise TableError(head.file, "a column's name is empty or given twice.", line=line, column=column)
        if column in head.texts and column in head.units:
            raise TableError(head.file, "the column is declared as text and with a unit.", column=column)
        if column not in head.texts and column not in head.units:
            raise TableError(head.file, "the column is neither text nor given a unit.", column=column)
    ordered = [name for _, column, group, _ in head.orders for name in (column, group) if name]
    for column in [*key, *head.texts, *head.units, *ordered]:
        if column not in known:
            raise TableError(
                head.file, "the header speaks of it, but there is no such column.", column=column
            )


def _make_row(
    head: _Head, table: str, key: tuple[str, ...], columns: tuple[str, ...], cells: list[str], line: int
) -> Row:
    named = dict(zip(columns, cells, strict=True))
    for column, cell in named.items():
        if column not in head.texts and cell and not _NUMBER.fullmatch(cell):
            raise TableError(head.file, f"{cell!r} is not a number.", line=line, column=column)
    source = head.sources.get(named["source"])
    if source is None:
        says = f"source {named['source']!r} is not declared."
        raise TableError(head.file, says, line=line, column="source")
    name = ", ".join(named[column] for column in key)
    return Row(table, name, MappingProxyType(named), frozenset(head.texts), source, line)


def _check_names(head: _Head, key: tuple[str, ...], rows: tuple[Row, ...]) -> dict[tuple[str, ...], Row]:
    index: dict[tuple[str, ...], Row] = {}
    for row in rows:
        name = tuple(row[column] for column in key)
        for column in key:
            if not row[column]:
                raise TableError(head.file, "a row has no name.", line=row.line, column=column)
        if name in index:
            says = f"{row.name!r} is already on line {index[name].line}."
            raise TableError(head.file, says, line=row.line, column=key[0])
        index[name] = row
    return index


def _check_order(
    head: _Head, rows: tuple[Row, ...], order: str, column: str, group: str, declared: int
) -> None:
    """Check one column's order down the table, empty cells left out, apart for each value of `group`."""
    if column in head.texts:
        raise TableError(head.file, "a text column cannot be in order.", line=declared, column=column)
    words, in_order = _ORDERS[order]
    last: dict[str, Decimal] = {}
    for row in rows:
        if not row.has(column):
            continue
        value = row.decimal(column)
        within = row[group] if group else ""
        if within in last and not in_order(last[within], value):
            says = f"{value} should be {words} {last[within]} above it ('{order}')."
            raise TableError(head.file, says, line=row.line, column=column)
        last[within] = value
