"""A published table as frozen records: its rows, units, edition and sources."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from decimal import Decimal

CONFIDENCES = ("read", "memory", "common practice")
"""How a value was obtained: read in the named place, remembered, or a usage of the trade."""

UNITS = frozenset(
    [
        "mm",
        "in",
        "thou",
        "m",
        "ft",
        "deg",
        "V",
        "mm2",
        "mm3",
        "um",
        "mm4",
        "in2",
        "1",
        "%",
        "MPa",
        "GPa",
        "psi",
        "ksi",
        "N",
        "kN",
        "lbf",
        "kg",
        "g",
        "lb",
        "kg/m",
        "g/m",
        "lb/in",
        "lb/ft",
        "kg/m3",
        "g/cm3",
        "lb/ft3",
        "1/in",
        "1/mm",
        "N/mm",
        "N/m",
        "N/mm2",
        "1/K",
        "m/min",
        "rpm",
        "min",
        "degC",
        "s",
        "Hz",
        "Nm",
    ]
) | {"N m", "lbf in", "lbf ft"}
"""The units that a numeric column may be declared in; `1` is a plain number."""


class TableError(Exception):
    """A fault in a table file, or a wrong use of a table: a programmer's mistake, never a person's input.

    Args:
        file: the table file or table that is at fault.
        says: what is wrong, as a sentence.
        line: the line in the file, counted from 1; 0 where it is about no single line.
        column: the column's name, or empty.

    Source: this project.
    """

    def __init__(self, file: str, says: str, *, line: int = 0, column: str = "") -> None:
        self.file = file
        self.says = says
        self.line = line
        self.column = column
        where = f"{file}, line {line}" if line else file
        super().__init__(f"{where}, column {column!r}: {says}" if column else f"{where}: {says}")


@dataclass(frozen=True, slots=True)
class Source:
    """Where a row's values come from.

    `standard` is the standard that the place states, `read_from` the place itself, `confidence` one of
    `CONFIDENCES`.
    """

    key: str
    standard: str
    read_from: str
    confidence: str

    @property
    def says(self) -> str:
        """The source on one line, fit for a page's list of sources."""
        if self.confidence == "memory":
            return f"{self.standard} (from memory)"
        if self.confidence == "common practice":
            return f"{self.standard} (common practice; {self.read_from})"
        return f"{self.standard} (read from {self.read_from})"


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a table. Cells are kept as printed; `number` and `decimal` read them.

    `name` is the row's key, joined by commas where the table has several key columns.
    """

    table: str
    name: str
    cells: Mapping[str, str]
    texts: frozenset[str]
    source: Source
    line: int

    def __getitem__(self, column: str) -> str:
        """The cell as printed; an empty cell is an empty string."""
        try:
            return self.cells[column]
        except KeyError:
            raise TableError(self.table, "there is no such column.", line=self.line, column=column) from None

    def __iter__(self) -> Iterator[str]:
        """The names of the columns, in the order of the file."""
        return iter(self.cells)

    def has(self, column: str) -> bool:
        """Whether the cell holds something."""
        return self[column] != ""

    def text(self, column: str) -> str:
        """The cell of a text column (or a number as printed); an empty cell is an empty string."""
        return self[column]

    def get(self, column: str, default: str | None = None) -> str | None:
        """The cell as printed, or `default` where it is empty or there is no such column."""
        return self.cells.get(column) or default

    def decimal(self, column: str) -> Decimal:
        """The number as printed, exactly, in the column's unit; `TableError` where the cell is empty."""
        if column in self.texts:
            raise TableError(self.table, "the column is text, not a number.", line=self.line, column=column)
        if not self.has(column):
            raise TableError(self.table, "the cell is empty.", line=self.line, column=column)
        return Decimal(self[column])

    def number(self, column: str) -> float:
        """The number in the column's unit; `TableError` where the cell is empty."""
        return float(self.decimal(column))

    def number_or_none(self, column: str) -> float | None:
        """The number in the column's unit, or None where the cell is empty."""
        return self.number(column) if self.has(column) else None


@dataclass(frozen=True, slots=True)
class Table:
    """A published table. `key` are the columns that name a row, `units` a unit for each numeric column."""

    name: str
    title: str
    edition: str
    key: tuple[str, ...]
    columns: tuple[str, ...]
    units: Mapping[str, str]
    rows: tuple[Row, ...]
    sources: Mapping[str, Source]
    notes: tuple[str, ...] = ()
    index: Mapping[tuple[str, ...], Row] = field(default_factory=dict)

    def find(self, *key: str) -> Row | None:
        """The row with this key, or None."""
        if len(key) != len(self.key):
            raise TableError(self.name, f"a row is named by {', '.join(self.key)}.")
        return self.index.get(key)

    def row(self, *key: str) -> Row:
        """The row with this key; `TableError` where there is none."""
        found = self.find(*key)
        if found is None:
            raise TableError(self.name, f"there is no row {', '.join(key)!r}.")
        return found

    def where(self, column: str, value: str) -> tuple[Row, ...]:
        """All rows whose cell in `column` is `value`, in the order of the file."""
        return tuple(row for row in self.rows if row[column] == value)

    def column(self, column: str) -> tuple[str, ...]:
        """All cells of a column as printed, in the order of the file."""
        return tuple(row[column] for row in self.rows)
