"""Rows on a page: an input that is a list of like things as a table of fields, and its addresses.

An address spells a row's member as `springs.0.rate`; the text that the command takes (`springs=...`, JSON or
a row a line) is taken too.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from django.http import QueryDict

from calculators.calculation import Calculator, Input
from calculators.calculation.asking import choice_words, choices_of, hint
from calculators.calculation.declaration import MOST_ROWS
from calculators.calculation.rows import rows_as_written
from calculators.quantities.errors import Fault, InputError

MORE = "one-more"
"""The name in an address that asks for one row more of an input, with nothing worked out yet."""

_PLACE = re.compile(r"(?P<name>\w+)\.(?P<place>\d{1,3})\.(?P<member>.+)", re.ASCII | re.DOTALL)
_FAULTY = re.compile(r"\w+\[(?P<place>\d+)\](?:\.(?P<member>\w+))?", re.ASCII)


@dataclass(frozen=True, slots=True)
class Head:
    """The head of a column: the member's name in words, and its unit."""

    label: str
    unit: str


@dataclass(frozen=True, slots=True)
class Cell:
    """One field of a row; `choices` are (value, words) where it is chosen."""

    name: str
    key: str
    label: str
    unit: str
    value: str
    choices: tuple[tuple[str, str], ...] = ()
    faults: tuple[str, ...] = ()

    @property
    def is_known(self) -> bool:
        """Whether what was written is one of the choices."""
        return not self.value or any(self.value == value for value, _ in self.choices)


@dataclass(frozen=True, slots=True)
class Row:
    """One row of fields; `faults` are those of the row as a whole."""

    number: int
    cells: tuple[Cell, ...]
    faults: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RowsEntry:
    """An input of rows as it stands on the page.

    `text` is what was written in one piece and could not be parted into rows; it then stands in a field of
    its own. `may_grow` is false where no more rows are taken.
    """

    input: Input
    heads: tuple[Head, ...]
    rows: tuple[Row, ...]
    faults: tuple[str, ...]
    members: tuple[tuple[str, str], ...]
    text: str
    may_grow: bool

    @property
    def name(self) -> str:
        """The input's name."""
        return self.input.name

    @property
    def most(self) -> int:
        """How many rows are taken."""
        return int(self.input.maximum or MOST_ROWS)

    @property
    def label(self) -> str:
        """The input's name in words."""
        return self.input.label.capitalize()

    @property
    def hint(self) -> str:
        """What the input is and takes."""
        return hint(self.input)

    @property
    def optional(self) -> bool:
        """Whether it may be left out."""
        return not self.input.required

    @property
    def faulty(self) -> tuple[str, ...]:
        """Every sentence about it, for the head of the form."""
        return (
            *self.faults,
            *(says for row in self.rows for says in row.faults),
            *(says for row in self.rows for cell in row.cells for says in cell.faults),
        )


def given_in(query: QueryDict, calculator: Calculator, own: Sequence[str]) -> dict[str, object]:
    """The inputs of an address; what is empty was left out, and so is a row that is empty.

    `own` are the names that an address has beside inputs.
    """
    kinds = {
        each.name: each for each in calculator.inputs if each.kind == "rows" and not calculator.own_reader
    }
    given: dict[str, object] = {}
    placed: dict[str, dict[int, dict[str, object]]] = {}
    for name, text in query.items():
        found = _PLACE.fullmatch(name)
        if name in own or not str(text).strip():
            continue
        if found and found["name"] in kinds:
            row = placed.setdefault(found["name"], {}).setdefault(int(found["place"]), {})
            row[found["member"]] = str(text)
        else:
            given[name] = str(text)
    for name, rows in placed.items():
        typed = [row for _, row in sorted(rows.items())]
        given[name] = [*_parted(kinds[name], given[name]), *typed] if name in given else typed
    return given


def _parted(each: Input, raw: object) -> Sequence[object]:
    """Rows that came in one piece; what cannot be parted is one row that will be refused."""
    try:
        return rows_as_written(each, raw)
    except InputError:
        return [raw]


def address_of(given: Mapping[str, object]) -> str:
    """The inputs as the part of an address behind the question mark."""
    return urlencode(list(_pairs(given)))


def _pairs(given: Mapping[str, object]) -> Iterator[tuple[str, str]]:
    for name, value in given.items():
        if not isinstance(value, list):
            yield name, str(value)
            continue
        for place, row in enumerate(value):
            if isinstance(row, Mapping):
                yield from ((f"{name}.{place}.{key}", _text(item)) for key, item in row.items())
            else:
                yield name, str(row)


def blanks_asked(query: QueryDict, each: Input) -> int:
    """How many rows a form had, empty ones too, and one more where that was asked for; else 0."""
    if query.get(MORE) != each.name:
        return 0
    found = (_PLACE.fullmatch(name) for name in query)
    places = [int(one["place"]) for one in found if one and one["name"] == each.name]
    return max(places, default=-1) + 2


def rows_entry(each: Input, raw: object, faults: Iterable[Fault], wanted: int = 0) -> RowsEntry:
    """Set an input of rows out: those that were given, at least `wanted`, and never none."""
    mine = tuple(faults)
    text = ""
    given: Sequence[Mapping[str, object]] = ()
    try:
        given = rows_as_written(each, raw) if raw not in (None, "") else ()
        if any(isinstance(item, list | dict) for row in given for item in row.values()):
            raise InputError.of("A member of a row is a list.")
    except InputError:
        text = raw if isinstance(raw, str) else "\n".join(map(str, raw if isinstance(raw, list) else [raw]))
        given = ()
    most = int(each.maximum or MOST_ROWS)
    shown = max(len(given), min(most, max(wanted, int(each.minimum or 0), 1)))
    rows = tuple(
        _row(each, place, given[place] if place < len(given) else {}, mine) for place in range(shown)
    )
    whole = tuple(fault.says for fault in mine if not _is_placed(fault, shown))
    heads = tuple(Head(one.label, _unit(one)) for one in each.members)
    told = tuple((one.name, _told(one)) for one in each.members)
    return RowsEntry(each, heads, rows, whole, told, text, shown < most)


def _is_placed(fault: Fault, shown: int) -> bool:
    found = _FAULTY.fullmatch(fault.field)
    return found is not None and int(found["place"]) < shown


def _row(each: Input, place: int, given: Mapping[str, object], faults: Sequence[Fault]) -> Row:
    told: dict[str, list[str]] = {}
    known = {member.name for member in each.members}
    for fault in faults:
        found = _FAULTY.fullmatch(fault.field)
        if found and int(found["place"]) == place:
            member = found["member"] or ""
            told.setdefault(member if member in known else "", []).append(fault.says)
    cells = tuple(
        Cell(
            f"{each.name}.{place}.{one.name}",
            f"{each.name}-{place}-{one.name}",
            one.label.capitalize(),
            _unit(one),
            _text(given.get(one.name)),
            _choices(one),
            tuple(told.get(one.name, ())),
        )
        for one in each.members
    )
    return Row(place + 1, cells, tuple(told.get("", ())))


def _unit(member: Input) -> str:
    return "" if member.unit == "1" else member.unit


def _text(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "" if value is None else str(value)


def _choices(member: Input) -> tuple[tuple[str, str], ...]:
    words = choices_of(member)
    if not words:
        return ()
    usual = f"usual: {choice_words(member.default)}" if member.default else "none"
    return (("", "choose" if member.required else usual), *((word, choice_words(word)) for word in words))


def _told(member: Input) -> str:
    choices = choices_of(member)
    return f"{hint(member)} One of {', '.join(choices)}." if choices else hint(member)
