"""A published table as people look through it: filtered by words, sorted by a column, in both systems."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from difflib import get_close_matches
from fractions import Fraction

from calculators.calculation.both_systems import in_both
from calculators.quantities.display import decimal_inches, millimetres
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length
from calculators.quantities.marks import plain, quoted
from calculators.quantities.numbers import mixed_text
from calculators.tables import Row, Table

LONGEST = 100
"""The longest filter that is looked at."""

MOST_WORDS = 12
"""No more words of a filter are looked at."""

_PIECES = re.compile(r"(\d+(?:\.\d+)?(?:/\d+)?)")


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its name in the file, its words, its unit (empty for a text)."""

    name: str
    label: str
    unit: str

    @property
    def is_length(self) -> bool:
        """Whether it is shown in mm and inches."""
        return self.unit in ("mm", "in")

    @property
    def heading(self) -> str:
        """The words with the unit; a length's units stand in its cells."""
        return (
            f"{self.label} [{self.unit}]" if self.unit not in ("", "1") and not self.is_length else self.label
        )


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell as printed (what semicolons part is set apart), and for a length its millimetres and inches."""

    column: Column
    printed: str
    mm: str = ""
    inches: str = ""


def columns_of(table: Table) -> tuple[Column, ...]:
    """The columns of a table but the one that names the source.

    Args:
        table: the table.

    Returns:
        The columns, in the order of the file.

    Source: this project.

    Example:
        >>> from calculators.tables import load
        >>> [each.heading for each in columns_of(load("threads"))][-2:]
        ['threads per inch [1/in]', 'angle [deg]']
    """
    words = {"tpi": "threads per inch"}
    return tuple(
        Column(name, words.get(name, name.replace("_", " ")), table.units.get(name, ""))
        for name in table.columns
        if name != "source"
    )


def browse(table: Table, question: str = "", sort: str = "") -> tuple[Row, ...]:
    """The rows that hold every word of a question, in the order of a column.

    Args:
        table: the table.
        question: words and numbers, all of which a row must hold; empty for all rows.
        sort: the name of a column, `-` before it for falling; `source` too; empty for the file's order.

    Returns:
        The rows. Empty cells come last, whichever way the order runs.

    Raises:
        InputError: when there is no such column.

    Source: this project.

    Example:
        >>> from calculators.tables import load
        >>> [row.name for row in browse(load("threads"), "BSF 5/16")]
        ['5/16 BSF']
        >>> [row.name for row in browse(load("drills"), sort="-diameter")][:2]
        ['Z', 'Y']
    """
    wanted = [holds(word) for word in plain(question[:LONGEST]).lower().split()[:MOST_WORDS]]
    rows = [row for row in table.rows if all(word.search(_text_of(row)) for word in wanted)]
    return tuple(_sorted(table, rows, sort) if sort else rows)


def holds(word: str) -> re.Pattern[str]:
    """What finds a word in a text: anywhere, but a number only as a whole (`5/16` is not in `15/16`).

    Args:
        word: the word, in small letters.

    Returns:
        The pattern.

    Source: this project.

    Example:
        >>> [bool(holds("5/16").search(text)) for text in ("5/16 bsf", "15/16 bsf")]
        [True, False]
    """
    exact = re.escape(word)
    if not any(sign.isdigit() for sign in word):
        return re.compile(exact if len(word) > 2 or not word.isalnum() else rf"\b{exact}\b")
    # 1/4 is not in 1 1/4, and 5/16 not in 15/16.
    before = r"(?<![\w./])" if word[0].isalnum() else ""
    before += r"(?<!\d )" if "/" in word and word[0].isdigit() else ""
    return re.compile(rf"{before}{exact}(?![\d/]|\.\d)")


def _text_of(row: Row) -> str:
    return " ".join(
        (*(cell for name, cell in row.cells.items() if name != "source"), row.source.says)
    ).lower()


def _sorted(table: Table, rows: list[Row], sort: str) -> list[Row]:
    name = sort.removeprefix("-")
    if name not in table.columns:
        near = tuple(get_close_matches(name[:40], table.columns, n=3, cutoff=0.5))
        says = f"There is no column {quoted(name)}; the columns are {', '.join(table.columns)}."
        raise InputError.of(says, field="sort", choices=near)
    full = [row for row in rows if row.has(name)]
    empty = [row for row in rows if not row.has(name)]
    full.sort(key=lambda row: _order(table, row, name), reverse=sort.startswith("-"))
    return full + empty


def _order(table: Table, row: Row, name: str) -> tuple[tuple[int, Fraction, str], ...]:
    """What a cell is sorted by: its number, or its text with the numbers in it as numbers."""
    if name in table.units:
        return ((0, Fraction(row.decimal(name)), ""),)
    pieces = _PIECES.split(row[name].lower())
    return tuple((0, _fraction(each), "") if place % 2 else (1, Fraction(0), each)
                 for place, each in enumerate(pieces) if each)  # fmt: skip


def _fraction(text: str) -> Fraction:
    top, _, bottom = text.partition("/")
    return Fraction(top) / (int(bottom) if bottom and int(bottom) else 1)


def cells_of(table: Table, row: Row) -> tuple[Cell, ...]:
    """The cells of a row, lengths in both systems.

    Args:
        table: the table.
        row: one of its rows.

    Returns:
        A cell for each of `columns_of`.

    Source: this project; inch of 25.4 mm exactly.

    Example:
        >>> from calculators.tables import load
        >>> table = load("threads")
        >>> [(cell.mm, cell.inches) for cell in cells_of(table, table.row("1/4 BSF"))][3]
        ('6.35', '1/4')
    """
    return tuple(_cell(column, row) for column in columns_of(table))


def _cell(column: Column, row: Row) -> Cell:
    printed = row[column.name]
    if not column.is_length or not printed:
        return Cell(column, printed.replace(";", "; "))
    length = _length(row.decimal(column.name), column.unit)
    if column.unit == "mm":
        return Cell(column, printed, printed, inches_text(length))
    return Cell(column, printed, millimetres(length, 4).removesuffix(" mm"), printed)


def _length(value: Decimal, unit: str) -> Length:
    return Length.of_mm(Fraction(value) * (1 if unit == "mm" else Fraction(254, 10)))


def inches_text(length: Length) -> str:
    """Write a length in inches without the unit: a fraction where it is one, else four decimals.

    Args:
        length: the length.

    Returns:
        The text.

    Source: common practice.

    Example:
        >>> inches_text(Length.of_mm(6.35)), inches_text(Length.of_mm(5))
        ('1/4', '0.1969')
    """
    if length.inches.denominator in (2, 4, 8, 16, 32, 64):
        return mixed_text(length.inches)
    return decimal_inches(length).removesuffix(" in")


def length_in_both(length: Length) -> tuple[str, str]:
    """A length in millimetres and in inches with the nearest fraction.

    Args:
        length: the length.

    Returns:
        The two texts.

    Source: this project.

    Example:
        >>> length_in_both(Length.of_mm(6.35))
        ('6.35 mm', '1/4 in')
    """
    return in_both(length.mm, "mm")
