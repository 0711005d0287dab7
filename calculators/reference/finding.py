"""One search over the trade's words, the calculators and the rows of all tables."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from calculators.calculation import Calculator
from calculators.calculation.answering import answer
from calculators.catalogue import all_calculators
from calculators.hardware.threads import find_thread
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length
from calculators.quantities.marks import plain
from calculators.quantities.reading import read_length
from calculators.reference.browsing import MOST_WORDS, holds
from calculators.reference.questions import FURTHER_WORDS, NOISE, OTHER_SENSE
from calculators.reference.sizes import NearSizes, near_sizes
from calculators.reference.words import LONGEST, TradeWord, all_words, folded, folded_long, words_for
from calculators.tables import Row, Table, load, names

MOST_ROWS = 8
"""No more rows of one table are shown; a link leads to the others."""

_THINGS = frozenset(
    ("drill", "drills", "bit", "hole", "holes", "clearance", "tapping", "pilot", "thread", "threads", "tap",
     "wood", "screw", "screws", "size", "sizes", "gauge", "gage", "sheet", "wire")
)  # fmt: skip
"""Words that say of what a size is; the calculators read the size without them."""


@dataclass(frozen=True, slots=True)
class Answer:
    """A calculator that answers: with these inputs, or (with none) one whose subject was named."""

    calculator: Calculator
    inputs: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class TableFound:
    """A table that answers, the first of its rows that do, how many do, and the questions that list them."""

    table: Table
    rows: tuple[Row, ...]
    count: int
    questions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Found:
    """All that a question finds."""

    words: tuple[TradeWord, ...]
    answers: tuple[Answer, ...]
    tables: tuple[TableFound, ...]
    length: Length | None
    near: tuple[NearSizes, ...]

    @property
    def nothing(self) -> bool:
        """Whether there is nothing at all."""
        return not (self.words or self.answers or self.tables or self.near)


def find(question: str) -> Found:
    """Search everything: words, calculators, tables and their rows; a size finds the nearest entries too.

    Args:
        question: what is looked for, as the trade says it on either side: `grub screw`, `#7 drill`, `M5`,
            `3/16`, `4.7`.

    Returns:
        What answers, bounded in number.

    Source: this project.

    Example:
        >>> found = find("jam nut")
        >>> found.words[0].british, [each.table.name for each in found.tables]
        (('half nut', 'thin nut', 'lock nut'), ['nuts'])
    """
    asked = " ".join(plain(question[:LONGEST]).split()).rstrip("? ")
    if not asked:
        return Found((), (), (), None, ())
    words = words_for(asked)
    length = _length(asked)
    thread = _thread(asked)
    tables = (tuple(_tables(thread, words)) if thread else ()) or tuple(_tables(asked, words))
    return Found(words, tuple(_answers(asked, words)), tables, length, near_sizes(length) if length else ())


def _length(asked: str) -> Length | None:
    """The size that was asked for; a bare fraction is of an inch, any other bare number millimetres."""
    unit = "in" if re.fullmatch(r"(\d+[ -])?\d+ ?/ ?\d+", asked) else "mm"
    try:
        length = read_length(asked, unit="in" if unit == "in" else "mm", maximum_mm=10_000)
    except InputError:
        return None
    return length if length.ticks > 0 else None


def _thread(asked: str) -> str:
    """The thread that was asked for as the tables write it: `2ba` is 2 BA, `1/4 whit` is 1/4 BSW."""
    try:
        return find_thread(asked, field="question").designation
    except InputError:
        return ""


def _answers(asked: str, words: tuple[TradeWord, ...]) -> Iterator[Answer]:
    """The calculators that can work with the question as their one input, then those named by it."""
    bare = " ".join(word for word in asked.split() if word.lower() not in _THINGS)
    named = frozenset(_terms(asked))
    given = set()
    # What is named in the question stands first: `#7 drill` asks for the drill.
    for calculator in sorted(all_calculators(), key=lambda each: not set(_terms(each.name)) <= named):
        inputs = _taken(calculator, asked) or (_taken(calculator, bare) if bare and bare != asked else ())
        if inputs:
            given.add(calculator.name)
            yield Answer(calculator, inputs)
    questions = [own := _terms(asked), *(_terms(other) for each in words for other in each.words)]
    # So does a calculator that is asked for in these very words.
    whole = folded(asked)
    for calculator in sorted(all_calculators(), key=lambda each: whole not in _subjects()[each.name]):
        text = _subjects()[calculator.name]
        another = OTHER_SENSE.get(calculator.name, frozenset())
        asks = [terms for terms in questions if terms is own or not another & set(terms)]
        if calculator.name not in given and any(terms and all(t in text for t in terms) for terms in asks):
            yield Answer(calculator)


def _taken(calculator: Calculator, text: str) -> tuple[tuple[str, str], ...]:
    """The question as the one input that the calculator needs, where it can work with it."""
    needed = [each for each in calculator.inputs if each.required]
    if len(needed) != 1 or calculator.own_reader or needed[0].kind not in ("text", "length"):
        return ()
    inputs = ((needed[0].name, text),)
    try:
        answer(calculator, dict(inputs))
    except InputError:
        return ()
    return inputs


def _terms(text: str) -> tuple[str, ...]:
    return tuple(word for word in folded(text).split() if word not in NOISE)[:MOST_WORDS]


@cache
def _subjects() -> dict[str, str]:
    """The words that each calculator is about."""
    return {
        each.name: folded_long(
            " ".join(
                (
                    each.name,
                    each.summary,
                    *(i.label for i in each.inputs),
                    *each.outputs,
                    FURTHER_WORDS.get(each.name, ""),
                )
            )
        )
        for each in all_calculators()
    }


@cache
def words_of_calculators() -> Mapping[str, str]:
    """The words that each calculator is about, those of the other side of the Atlantic among them.

    Returns:
        By the calculator's name its words, in small letters, parted by spaces.

    Source: common practice (table `trade_words`).

    Example:
        >>> "gage" in words_of_calculators()["gauge"]
        True
    """
    found = {}
    for calculator in all_calculators():
        text = f"{calculator.purpose} {_subjects()[calculator.name]}"
        about = f" {folded_long(text)} ".replace("_", " ")
        further = [
            folded(word)
            for each in all_words()
            if not OTHER_SENSE.get(calculator.name, frozenset()) & set(each.words)
            and any(f" {folded(word)}" in about for word in each.words)
            for word in each.words
        ]
        found[calculator.name] = " ".join(dict.fromkeys(" ".join((about, *further)).split()))
    return found


@cache
def _rows() -> tuple[tuple[Table, str, tuple[tuple[Row, str], ...]], ...]:
    """Every table with the words of its title, and every row with its text."""
    return tuple(
        (table, folded_long(f"{table.name.replace('_', ' ')} {table.title}"),
         tuple((row, _text(row)) for row in table.rows))
        for table in (load(name) for name in names()) if table.name != "trade_words"
    )  # fmt: skip


def _text(row: Row) -> str:
    return " ".join(cell for name, cell in row.cells.items() if name != "source").lower()


def _tables(asked: str, words: tuple[TradeWord, ...]) -> Iterator[TableFound]:
    """The tables whose rows hold the question, or the standards of the thing that it names."""
    standards = tuple(dict.fromkeys(name for each in words for name in each.standards))
    terms = [word for word in asked.lower().split() if word not in NOISE][:MOST_WORDS]
    found = [*_by_standard(standards, terms), *_by_words(terms)]
    seen: set[str] = set()
    for each in sorted(found, key=lambda one: one[0]):
        if each[1].table.name not in seen:
            seen.add(each[1].table.name)
            yield each[1]


def _by_standard(standards: tuple[str, ...], terms: list[str]) -> Iterator[tuple[int, TableFound]]:
    """Rows of the things named; where a size was named with them, only those of that size."""
    sizes = [holds(term) for term in terms if any(sign.isdigit() for sign in term)]
    for table, _, rows in _rows() if standards else ():
        of_things = [(row, text) for row, text in rows if row.cells.get(table.key[0]) in standards]
        hits = [row for row, text in of_things if all(size.search(text) for size in sizes)]
        hits = hits or [row for row, _ in of_things]
        if hits:
            hits.sort(key=lambda row: not all(size.search(row.name.lower()) for size in sizes))
            questions = tuple(dict.fromkeys(row[table.key[0]] for row in hits))
            yield 0, TableFound(table, tuple(hits[:MOST_ROWS]), len(hits), questions)


def _by_words(terms: list[str]) -> Iterator[tuple[int, TableFound]]:
    """Rows that hold the words, some of which may stand in the table's title; best tables first."""
    for table, title, rows in _rows():
        of_rows = [term for term in terms if _bare(term) not in title or any(s.isdigit() for s in term)]
        patterns = [holds(term) for term in of_rows]
        if not of_rows:
            if terms:
                yield 2, TableFound(table, (), 0, ())
            continue
        hits = [row for row, text in rows if all(pattern.search(text) for pattern in patterns)]
        exact = [row for row in hits if any(row[name].lower() in of_rows for name in table.key)]
        if hits:
            rest = [row for row in hits if row not in exact]
            best = 1 if exact else 3
            yield best, TableFound(table, tuple((exact + rest)[:MOST_ROWS]), len(hits), (" ".join(of_rows),))


def _bare(term: str) -> str:
    """A word without the s of its plural."""
    return term[:-1] if term.endswith("s") and len(term) > 3 else term
