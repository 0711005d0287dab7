"""A published table as CSV for a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable

from calculators.planning.schedules.spreadsheet import cell
from calculators.tables import Row, Table


def table_csv(table: Table, rows: Iterable[Row]) -> str:
    """Write rows of a table as CSV, with each row's source in words.

    Units stand in the header in brackets, numbers as printed with a decimal point. A text that a
    spreadsheet would take for a formula has an apostrophe before it.

    Args:
        table: the table.
        rows: the rows to write.

    Returns:
        The text, lines ending in CR LF; encode it as UTF-8.

    Source: CSV, RFC 4180 (from memory); the apostrophe: common practice.

    Example:
        >>> from calculators.tables import load
        >>> table_csv(load("cutters"), load("cutters").rows[:1]).splitlines()[0]
        'name,series,diameter [mm],source,how sure'
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    names = [name for name in table.columns if name != "source"]
    writer.writerow([*(_heading(table, name) for name in names), "source", "how sure"])
    for row in rows:
        source = row.source
        told = f"{source.standard} | {source.read_from}"
        writer.writerow([*(_written(table, row, name) for name in names), cell(told), source.confidence])
    return out.getvalue()


def _heading(table: Table, name: str) -> str:
    unit = table.units.get(name, "")
    words = name.replace("_", " ")
    return f"{words} [{unit}]" if unit not in ("", "1") else words


def _written(table: Table, row: Row, name: str) -> str:
    """A number as it was printed, which the loader has proven to be one; a text made harmless."""
    return row[name] if name in table.units else cell(row[name])
