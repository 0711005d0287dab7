"""The declaration of a calculator: its inputs, outputs, sources and the function that works it out."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from calculators.calculation.picture import Picture
from calculators.calculation.result import Result, number_text
from calculators.quantities.length import Length

Kind = Literal["length", "quantity", "number", "integer", "choice", "flag", "text", "json", "rows"]

UNNAMED_PURPOSE = "Further calculators"
"""The heading of those that name no purpose."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """One input of a calculator.

    `kind` says what is read: a length (in `unit` mm), a quantity (in `unit`), a plain number, a whole
    number, one of `choices`, a yes or no (in JSON true or false), a text that the calculator reads itself,
    a JSON value of any shape, or rows (a list of objects whose keys are `members`, of which there are
    `minimum` to `maximum`; a person may write one a line).

    An input with a `default` (written as a person would) or that is `optional` may be left out. `minimum` and
    `maximum` are in `unit` and allowed themselves; `above` is a bound that is not. `synonyms` are other words
    for a choice, each with the choice. With `or_text` a JSON input may be given as a text that is no JSON,
    which then stands for itself. `members` are the keys of a JSON object, or of each object of a list.
    """

    name: str
    help: str
    kind: Kind
    unit: str = ""
    default: str | None = None
    optional: bool = False
    minimum: float | None = None
    maximum: float | None = None
    above: float | None = None
    choices: tuple[str, ...] = ()
    synonyms: tuple[tuple[str, str], ...] = ()
    example: str = ""
    or_text: bool = False
    members: tuple[Input, ...] = ()

    @property
    def required(self) -> bool:
        """Whether the calculator cannot work without it."""
        return self.default is None and not self.optional

    @property
    def label(self) -> str:
        """The name in words."""
        return self.name.replace("_", " ")

    @property
    def limits(self) -> str:
        """The limits in words: `over 0 to 500 mm`; empty where there are none."""
        if self.kind == "rows":
            return f"{self.minimum or 0:g} to {self.maximum or MOST_ROWS:g} rows"
        low = f"over {number_text(self.above)}" if self.above is not None else ""
        low = number_text(self.minimum) if self.minimum is not None else low
        high = number_text(self.maximum) if self.maximum is not None else ""
        joined = (
            f"{low} to {high}" if low and high else (f"{low} or more" if self.minimum is not None else low)
        )
        joined = joined or (f"up to {high}" if high else "")
        return f"{joined} {self.unit}".strip() if joined else ""


MOST_ROWS = 20
"""How many rows an input of that kind takes, where its declaration does not say."""


class Given(Mapping[str, object]):
    """The inputs as read, with a typed look-up for each kind; an optional input left out is None.

    `spreads` has, for each input that was written as so much plus or minus so much, the second of the two in
    the input's unit (a length's in mm).
    """

    def __init__(self, values: Mapping[str, object], spreads: Mapping[str, float] | None = None) -> None:
        self._values = dict(values)
        self.spreads = dict(spreads or {})

    def __getitem__(self, name: str) -> object:
        return self._values[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._values)

    def __len__(self) -> int:
        return len(self._values)

    def length(self, name: str) -> Length:
        """The length that was given."""
        value = self._values[name]
        assert isinstance(value, Length), name
        return value

    def mm(self, name: str) -> float:
        """The length that was given, in millimetres."""
        return self.length(name).mm

    def mm_or_none(self, name: str) -> float | None:
        """The length that was given, in millimetres, or None where it was left out."""
        return None if self._values.get(name) is None else self.mm(name)

    def number(self, name: str) -> float:
        """The number or quantity that was given, in the input's unit."""
        value = self._values[name]
        assert isinstance(value, float), name
        return value

    def number_or_none(self, name: str) -> float | None:
        """The number or quantity that was given, or None where it was left out."""
        return None if self._values.get(name) is None else self.number(name)

    def integer(self, name: str) -> int:
        """The whole number that was given."""
        value = self._values[name]
        assert isinstance(value, int), name
        return value

    def text(self, name: str) -> str:
        """The text or choice that was given."""
        value = self._values[name]
        assert isinstance(value, str), name
        return value

    def text_or_none(self, name: str) -> str | None:
        """The text or choice that was given, or None where it was left out."""
        return None if self._values.get(name) is None else self.text(name)

    def flag(self, name: str) -> bool:
        """Whether yes was given; no where it was left out."""
        return self._values.get(name) is True

    def rows(self, name: str) -> tuple[Given, ...]:
        """The rows that were given; none where they were left out."""
        value = self._values.get(name) or ()
        assert isinstance(value, tuple), name
        return value

    def all_spreads(self) -> dict[str, float]:
        """Every spread, those within rows under their place: `springs[0].rate`."""
        found = dict(self.spreads)
        for name, value in self._values.items():
            for place, row in enumerate(value if isinstance(value, tuple) else ()):
                found |= {f"{name}[{place}].{key}": by for key, by in row.all_spreads().items()}
        return found

    def shifted(self, path: str, by: float) -> Given:
        """The same inputs with one of them larger by so much, in its unit; paths are as in `all_spreads`."""
        name, bracket, rest = path.partition("[")
        values = dict(self._values)
        if bracket:
            place, _, key = rest.partition("].")
            rows = list(self.rows(name))
            rows[int(place)] = rows[int(place)].shifted(key, by)
            values[name] = tuple(rows)
        elif isinstance(values[name], Length):
            values[name] = Length.of_mm(Fraction(self.mm(name)) + Fraction(by))
        else:
            values[name] = self.number(name) + by
        return Given(values, self.spreads)


@dataclass(frozen=True, slots=True, kw_only=True)
class Calculator:
    """A calculator, declared once: form, JSON, command line and reference page all follow from this.

    `outputs` are names of the nomenclature; one in `varying` has the unit that its result carries. A
    calculator may leave out a result that does not apply. `cautions` are shown wherever the result is. One
    with an `own_reader` is given its inputs as they are, known or not, and finds all of their faults itself.
    `purpose` is the heading that lists put it under. `draw` makes pictures of a result from the same numbers.
    With `own_spread` the calculator uses the spreads of its inputs itself; otherwise they are carried through
    to its results by the framework. `either` are groups of inputs of which one is given instead of the
    others; the page sets them together, and the work itself says when there are more.
    """

    name: str
    summary: str
    inputs: tuple[Input, ...]
    outputs: tuple[str, ...]
    work: Callable[[Given], Result]
    sources: tuple[str, ...]
    cautions: tuple[str, ...] = ()
    varying: tuple[str, ...] = ()
    example: Mapping[str, str] | None = None
    own_reader: bool = False
    purpose: str = UNNAMED_PURPOSE
    draw: Callable[[Given, Result], Sequence[Picture]] | None = None
    own_spread: bool = False
    either: tuple[tuple[str, ...], ...] = ()

    @property
    def title(self) -> str:
        """The name in words, as a page's heading; commands and addresses have the name itself."""
        return self.name.replace("-", " ").capitalize()

    def input(self, name: str) -> Input:
        """The input with this name; KeyError where there is none."""
        for each in self.inputs:
            if each.name == name:
                return each
        raise KeyError(name)
