"""Lists of like things as tables: a column for each member, a row for each thing.

Candidates, positions, the pieces of a plan: whatever a calculator gives as a list of objects is read across
and down, as on paper, and not line by line.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from calculators.calculation.result import Plain
from calculators.quantities.nomenclature import NOMENCLATURE

MOST_COLUMNS = 12
"""What has more members than this is set out line by line instead."""

MOST_ROWS = 40
"""No more rows of one result are set out; the rest is counted."""

LONG_TEXT = 36
"""A column in which a text is longer than this is set out beneath its row."""

_PLACES = frozenset(["x", "from", "from end", "begins"])
"""Headings of a first column of places; such rows are numbered, as the marks in the picture are."""

_HEADINGS = {
    "score": "likelihood",
    "tell_apart": "what tells it apart",
    "in_quarters": "quarters of an inch",
    "diameter_difference": "diameter off",
    "pitch_difference": "pitch off",
}
"""Headings that say more than the name of the member does."""

MOST_BESIDE = 3
"""A table of no more columns, none of them of words, stays a table on a narrow page."""

TITLES = ("part", "name", "mark", "designation", "stock")
"""The names of members that a member of a list is called by."""

_NOT_LENGTHS = (
    "layer",
    "count",
    "quantity",
    "times",
    "number",
    "threads",
    "share",
    "place",
    "price",
    "cost",
    "score",
    "turns",
)
"""Words in the name of a member that is no length, though the lengths beside it are in mm."""

Write = Callable[[float, str], tuple[str, str]]
"""Writes a number with its unit in metric and in the other system; the second may be empty."""


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands in one cell: in metric, and in inches where that differs."""

    metric: str = ""
    inches: str = ""


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its heading, whether figures stand in it, and whether long texts do."""

    label: str
    is_number: bool = False
    is_long: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A list of like things: its columns, its rows, and how many rows more there are."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    more: int = 0

    @property
    def is_numbered(self) -> bool:
        """Whether the rows have no name of their own and are places, which are numbered."""
        return len(self.rows) > 1 and self.columns[0].label in _PLACES

    @property
    def is_narrow(self) -> bool:
        """Whether it has room on a narrow page as it is."""
        return len(self.columns) <= MOST_BESIDE and not any(each.is_long for each in self.columns)

    @property
    def short(self) -> tuple[Column, ...]:
        """The columns that stand side by side."""
        return tuple(each for each in self.columns if not each.is_long)

    @property
    def cells(self) -> tuple[tuple[tuple[tuple[Cell, Column], ...], tuple[tuple[Cell, Column], ...]], ...]:
        """The rows, each cell with its column: those side by side, and those beneath them that hold words."""
        found = []
        for row in self.rows:
            pairs = tuple(zip(row, self.columns, strict=True))
            beneath = tuple((cell, column) for cell, column in pairs if column.is_long and cell.metric)
            found.append((tuple(pair for pair in pairs if not pair[1].is_long), beneath))
        return tuple(found)


def member_unit(key: str, unit: str) -> str:
    """The unit of a member of a list.

    Args:
        key: the member's name.
        unit: the unit of the whole.

    Returns:
        The unit that the nomenclature has for the name; without an entry there, degrees for angles, per
        cent for shares, nothing for counts and the like, and the unit of the whole for all others.

    Source: this project.

    Example:
        >>> member_unit("x", "mm"), member_unit("mass", "mm"), member_unit("times", "mm")
        ('mm', 'kg', '')
    """
    words = key.split("_")
    if "angle" in words:
        return "deg"
    if "percent" in words:
        return "%"
    if any(word in words for word in _NOT_LENGTHS):
        return ""
    return NOMENCLATURE[key].unit if key in NOMENCLATURE and NOMENCLATURE[key].unit else unit


def table_of(found: Plain, unit: str, write: Write) -> Table | None:
    """Set a list of objects out as a table.

    Args:
        found: a result's value.
        unit: the unit of the whole.
        write: writes a number with its unit in both systems.

    Returns:
        The table, or None where the value is no list of flat objects of like kind.

    Source: this project.

    Example:
        >>> things = [{"name": "a", "x": 1.5}, {"name": "b", "x": 2}]
        >>> found = table_of(things, "mm", lambda value, unit: (f"{value:g}", ""))
        >>> found.columns[1], [[cell.metric for cell in row] for row in found.rows]
        (Column(label='x', is_number=True, is_long=False), [['a', '1.5'], ['b', '2']])
    """
    if not isinstance(found, Sequence) or isinstance(found, str) or not found:
        return None
    things = [each for each in found if isinstance(each, Mapping)]
    if len(things) < len(found) or any(_is_deep(value) for each in things for value in each.values()):
        return None
    keys = [
        key
        for key in dict.fromkeys(key for each in things for key in each)
        if any(each.get(key) not in (None, "", [], ()) for each in things)
    ]
    if not 0 < len(keys) <= MOST_COLUMNS or _is_ragged(things, keys):
        return None
    if "part" in keys and "layer" in keys:
        keys.remove("layer")  # a number for programs, counted from nought
    keys.sort(key=lambda key: key not in TITLES)
    rows = tuple(
        tuple(_cell(each.get(key), member_unit(key, unit), unit, write) for key in keys)
        for each in things[:MOST_ROWS]
    )
    columns = tuple(
        Column(
            _HEADINGS.get(key, key.replace("_", " ").replace(" percent", "")),
            _is_figures([each.get(key) for each in things]),
            place > 0 and any(len(row[place].metric) > LONG_TEXT for row in rows),
        )
        for place, key in enumerate(keys)
    )
    return Table(columns, rows, max(0, len(things) - MOST_ROWS))


def _is_deep(value: Plain) -> bool:
    """Whether a member holds more than plain values or one list of flat objects."""
    if isinstance(value, Mapping):
        return True
    if not isinstance(value, Sequence) or isinstance(value, str):
        return False
    inner = [each.values() if isinstance(each, Mapping) else (each,) for each in value]
    return any(isinstance(one, Mapping | list | tuple) for those in inner for one in those)


def _is_ragged(things: Sequence[Mapping[str, Plain]], keys: Sequence[str]) -> bool:
    """Whether less than half of the cells would hold something."""
    return 2 * sum(key in each for each in things for key in keys) < len(things) * len(keys)


def _is_figures(values: Sequence[Plain]) -> bool:
    told = [each for each in values if each is not None and each != ""]
    return all(isinstance(each, int | float) and not isinstance(each, bool) for each in told)


def _cell(value: Plain, unit: str, whole: str, write: Write) -> Cell:
    if value is None:
        return Cell()
    if isinstance(value, bool):
        return Cell("yes" if value else "no")
    if isinstance(value, int | float):
        return Cell(*write(value, unit))
    if isinstance(value, str):
        return Cell(value)
    if isinstance(value, Mapping):
        return Cell()
    both = [_inner(each, unit, whole, write) for each in value]
    return Cell(
        _joined(each.metric for each in both),
        _joined(each.inches or each.metric for each in both) if any(each.inches for each in both) else "",
    )


def _inner(value: Plain, unit: str, whole: str, write: Write) -> Cell:
    """One member of a list within a cell; an object's values stand after one another."""
    if not isinstance(value, Mapping):
        return _cell(value, unit, whole, write)
    cells = [_cell(one, member_unit(key, whole), whole, write) for key, one in value.items()]
    return Cell(
        " ".join(each.metric for each in cells if each.metric),
        " ".join(each.inches or each.metric for each in cells if each.metric),
    )


def _joined(texts: object) -> str:
    counts = Counter(texts)  # type: ignore[call-overload]
    return ", ".join(text if count == 1 else f"{count} x {text}" for text, count in counts.items())
